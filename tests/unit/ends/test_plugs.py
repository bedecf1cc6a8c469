# SPDX-License-Identifier: Apache-2.0
"""Known plugs that settle unmeasured ports: enough of them, and no more than needed."""

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.ends.end import End, Family, Gender
from linewright.ends.identify import Measurement, identify
from linewright.ends.plugs import plugs_that_settle
from linewright.ends.words import show, thread_of

READINGS = [
    Measurement(0.00885, is_male=False),
    Measurement(0.0206, is_male=False),
    Measurement(0.0117, is_male=False),
    Measurement(0.0164, is_male=False),
    Measurement(0.0188, is_male=False),
    Measurement(0.0132, is_male=True),
    Measurement(0.0158, is_male=True),
]
PORTS = [identify(reading).ends for reading in READINGS]


def _form(end: End) -> tuple[str, str]:
    """Thread with its form, apart from how the product tells them apart."""
    form = end.family.value if end.family.value in ("npt", "bspp", "bspt") else ""
    if end.family is Family.BANJO and end.size.startswith("G"):
        form = "bspp"
    return thread_of(end), form


def _answers(plugs: tuple[End, ...], end: End) -> tuple[bool, ...]:
    return tuple(p.gender is not end.gender and _form(p) == _form(end) for p in plugs)


def _settles(plugs: tuple[End, ...], ports: list[tuple[End, ...]]) -> bool:
    return all(
        _answers(plugs, a) != _answers(plugs, b)
        for ends in ports
        for a, b in combinations(ends, 2)
        if _form(a) != _form(b)
    )


@settings(max_examples=60, deadline=None)
@given(st.lists(st.sampled_from(PORTS), min_size=1, max_size=7))
def test_the_plugs_tell_every_two_threads_of_a_port_apart(ports: list[tuple[End, ...]]) -> None:
    plugs = plugs_that_settle(ports)

    assert _settles(plugs, ports)
    assert len(set(plugs)) == len(plugs)


@settings(max_examples=25, deadline=None)
@given(st.lists(st.sampled_from(PORTS), min_size=1, max_size=2, unique=True))
def test_no_smaller_set_of_plugs_would_do(ports: list[tuple[End, ...]]) -> None:
    plugs = plugs_that_settle(ports)
    other = {Gender.MALE: Gender.FEMALE, Gender.FEMALE: Gender.MALE}
    known = {
        (*_form(end), other[end.gender]): End(end.family, end.size, other[end.gender])
        for ends in ports
        for end in ends
    }
    smaller = combinations(known.values(), max(len(plugs) - 1, 0))

    assert len(known) > 12 or not plugs or not any(_settles(few, ports) for few in smaller)


def test_two_seats_of_one_thread_need_no_plug() -> None:
    boss = End(Family.ORB_UNF, "-8", Gender.FEMALE)
    cone = End(Family.FLARE_37, "-8", Gender.FEMALE)

    assert plugs_that_settle([[boss, cone]]) == ()


def test_the_plug_that_settles_most_ports_comes_first() -> None:
    ports = [identify(Measurement(0.00885, is_male=False)).ends] * 3 + [
        identify(Measurement(0.0164, is_male=False)).ends
    ]
    plugs = plugs_that_settle(ports, at_most=2)

    assert len(plugs) == 2
    assert all(end.gender is Gender.MALE for end in plugs)
    assert show(plugs[0]) in {
        "1/8 NPT male",
        "G 1/8 male",
        "M10x1 flat face male",
        "M10x1.25 flat face male",
        "M10x1.5 flat face male",
        "R 1/8 male",
    }


def test_nothing_unknown_needs_no_plugs() -> None:
    assert plugs_that_settle([]) == ()
    assert plugs_that_settle([[], [End(Family.BEAD, "38", Gender.MALE)]]) == ()
