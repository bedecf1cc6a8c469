# SPDX-License-Identifier: Apache-2.0
"""Finding parts: by code, by what they face, by the hose they grip."""

import pytest

from linewright.base.errors import CatalogueError
from linewright.catalogue.part import Part
from linewright.catalogue.stock import Catalogue, generic
from linewright.catalogue.trade import end_of
from linewright.ends.end import UNKNOWN, End, Family, Gender
from linewright.ends.mates import mates
from linewright.ends.sizes import sizes


def _plug(code: str) -> Part:
    return Part(code, "a plug in the hand", "plug", (end_of("orb_unf -7 m"),), held=True)


def test_parts_are_in_the_order_of_their_codes_and_made_once() -> None:
    codes = [part.code for part in generic().parts]

    assert codes == sorted(codes)
    assert len(generic()) == len(codes) > 1500
    assert generic() is generic()


def test_a_code_that_is_not_there_is_answered_with_the_nearest() -> None:
    with pytest.raises(CatalogueError) as caught:
        generic().part("adaptor-npt-half-m-to-flare-11-m")

    assert str(caught.value) == (
        "part 'adaptor-npt-half-m-to-flare-11-m': the catalogue has no such code; the nearest "
        "codes are adaptor-npt-half-m-to-flare-16-m, adaptor-npt-half-m-to-flare-12-m, "
        "adaptor-npt-half-m-to-flare-10-m. A part that you hold in your hand goes under [parts]."
    )


def test_nonsense_has_no_near_code() -> None:
    with pytest.raises(CatalogueError) as caught:
        generic().part("zzz")

    assert str(caught.value) == (
        "part 'zzz': the catalogue has no such code; no code is near it. "
        "A part that you hold in your hand goes under [parts]."
    )


def test_what_faces_an_end_is_what_mates_with_it_and_nothing_else() -> None:
    # Every end of the catalogue, and ports that it has none of: asked of all ends, not by index.
    ports = "bead 63.5 m;weld copper f;bspp Rp 1/4 f;banjo M22x1.5 f;orb_unf -32 f;other 9/16-24 f"
    asked = [*generic().ends, *map(end_of, ports.split(";"))]
    everywhere = [(p, index, other) for p in generic().parts for index, other in enumerate(p.ends)]
    by_end: dict[End, list[tuple[str, int]]] = {}
    for part, index, other in everywhere:
        by_end.setdefault(other, []).append((part.code, index))
    faced = 0
    for end in asked:
        slow = sorted(pair for other in by_end if mates(end, other).ok for pair in by_end[other])
        found = [(part.code, index) for part, index in generic().facing(end)]
        faced += bool(found)

        assert found == slow, str(end)

    assert faced > 200


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("orb_unf -8 f", "adaptor-orb-8-m-to-flare-8-m"),
        ("npt 1/2 f", "plug-npt-half-m"),
        ("flare_37 -10 m", "hose-end-10-rubber-90-full-swivel"),
        ("metric_flat_face M14x1.5 f", "banjo-hose-end-m14x1.5-to-hose-6-rubber"),
        ("bspp G 1/2 f", "adaptor-g-half-m-to-flare-10-m"),
        ("bead 38 m", "silicone-hose-38-to-hose-32-90"),
        ("bead 63.5 m", "coupler-hose-63-to-hose-51-hump"),
        ("hose 38 clamped f", "bead-adaptor-bead-38-m-to-flare-20-m"),
        ("hose -10 rubber f", "hose-end-10-rubber-45-fixed"),
        ("spinon 3/4-16 m", "plate-spinon-3-4-16-f-to-npt-half-f-x2"),
        ("qc 3/8 m", "adaptor-qc-3-eighths-f-to-flare-6-m"),
        ("weld aluminium f", "bung-weld-aluminium-m-to-flare-16-m"),
        ("inverted_flare -6 m", "adaptor-inverted-6-f-to-flare-6-m"),
        ("flange 2-bolt 38", "drain-flange-2-bolt-38-to-flare-10-m"),
    ],
)
def test_a_port_is_faced_by_the_part_that_a_builder_would_reach_for(text: str, code: str) -> None:
    found = generic().facing(end_of(text))

    assert code in [part.code for part, _ in found]
    assert generic().facing(end_of(text)) is found


def test_a_hose_is_never_stretched_over_the_next_size_of_spigot() -> None:
    spigots = [end for end in generic().ends if end.family in (Family.BEAD, Family.BARB)]
    stretched = [
        (str(spigot), str(part.ends[index]))
        for spigot in spigots
        for part, index in generic().facing(spigot)
        if float(part.ends[index].size) != float(spigot.size)
    ]

    assert len(spigots) > 15
    assert stretched == []


def test_nothing_faces_an_end_that_nobody_has_measured() -> None:
    assert generic().facing(UNKNOWN) == ()


def test_hose_ends_are_of_the_family_and_dash_asked_for() -> None:
    found = generic().hose_ends("PTFE", "-6")

    assert {part.ends[1].kind for part in found} == {"PTFE"}
    assert {part.ends[1].size for part in found} == {"-6"}
    assert [part.angle for part in found] == sorted(part.angle for part in found)
    assert generic().hose_ends("rubber", "-7") == ()


def test_a_held_part_joins_a_new_catalogue_and_leaves_the_old_one_alone() -> None:
    before = len(generic())
    more = generic().with_parts([_plug("my-plug")])

    assert more.part("my-plug").held
    assert len(more) == before + 1
    assert len(generic()) == before
    assert generic().with_parts([]) is generic()


def test_a_code_may_come_once() -> None:
    with pytest.raises(CatalogueError) as caught:
        Catalogue([_plug("my-plug"), _plug("my-plug")])

    assert str(caught.value) == (
        "part code 'my-plug' is there twice; give the second part a code of its own"
    )


def test_every_threaded_port_of_the_tables_can_be_closed() -> None:
    # All sizes that ends can have: each is plugged, or capped where the port is male.
    plain = (
        Family.ORB_UNF,
        Family.NPT,
        Family.NPTF,
        Family.ISO6149,
        Family.METRIC_FLAT_FACE,
    )
    ports = [End(family, size, Gender.FEMALE) for family in plain for size in sizes(family)]
    ports += [End(Family.BSPP, f"G {size}", Gender.FEMALE) for size in sizes(Family.BSPP)]
    ports += [End(Family.BSPT, f"Rc {size}", Gender.FEMALE) for size in sizes(Family.BSPT)]
    ports += [End(Family.FLARE_37, size, Gender.MALE) for size in sizes(Family.FLARE_37)]
    ports += [End(Family.ORFS, size, Gender.MALE) for size in sizes(Family.ORFS)]
    open_ports = [
        str(port)
        for port in ports
        if not any(part.shape in ("plug", "cap") for part, _ in generic().facing(port))
    ]

    assert len(ports) > 80
    assert open_ports == []
