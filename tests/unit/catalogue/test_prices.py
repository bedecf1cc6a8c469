# SPDX-License-Identifier: Apache-2.0
"""Index prices: only their order matters, never their sum [common practice]."""

import pytest

from linewright.catalogue.part import Availability
from linewright.catalogue.stock import generic
from linewright.ends.end import Family


def _price(code: str) -> float:
    return generic().part(code).price_index


def test_a_straight_dash_6_hose_end_is_the_measure() -> None:
    assert _price("hose-end-6-rubber-straight-fixed") == 1.0


def test_hose_ends_cost_more_with_dash_and_with_angle() -> None:
    by_dash = [
        _price(f"hose-end-{dash}-rubber-straight-fixed") for dash in (4, 6, 8, 10, 12, 16, 20)
    ]
    by_angle = [_price(f"hose-end-10-rubber-{angle}-fixed") for angle in ("straight", 90, 60, 120)]

    assert by_dash == sorted(by_dash)
    assert by_angle == sorted(by_angle)
    assert len(set(by_angle)) == 4


def test_a_full_swivel_end_costs_more_than_a_fixed_one() -> None:
    dearer = [
        part.code
        for part in generic().of_shape("hose end")
        if "fixed" in part.traits
        and _price(part.code.replace("-fixed", "-full-swivel")) <= part.price_index
    ]

    assert dearer == []


@pytest.mark.parametrize("angle", [45, 90])
def test_an_elbow_adaptor_costs_more_than_going_round_the_corner_with_the_hose_end(
    angle: int,
) -> None:
    checked = 0
    for elbow in generic().of_shape("elbow"):
        near, far = elbow.ends
        straight = [
            part
            for part in generic().of_shape("adaptor")
            if part.ends == elbow.ends and not part.traits
        ]
        if elbow.angle != angle or near.family is Family.FLARE_37 or not straight:
            continue
        dash = far.size.removeprefix("-")
        if not generic().hose_ends("rubber", far.size):
            continue
        plain = _price(f"hose-end-{dash}-rubber-straight-fixed")
        bent = _price(f"hose-end-{dash}-rubber-{angle}-fixed")
        checked += 1

        assert straight[0].price_index + bent < elbow.price_index + plain, elbow.code
        assert elbow.price_index >= 2.2, elbow.code

    assert checked >= 15


def test_a_special_part_costs_two_and_a_half_times_a_stocked_one() -> None:
    stocked = _price("adaptor-g-3-quarters-m-to-flare-12-m")
    special = _price("adaptor-r-3-quarters-m-to-flare-12-m")

    assert generic().part("adaptor-r-3-quarters-m-to-flare-12-m").availability is (
        Availability.SPECIAL
    )
    assert special == pytest.approx(2.5 * stocked)


def test_a_plain_part_is_cheaper_than_one_that_holds_something() -> None:
    for held in ("screen", "check-valve", "inline-filter"):
        assert _price(f"{held}-flare-6-m-to-flare-6-m") > _price("union-flare-6-m-to-flare-6-m")
    assert _price("jet-npt-eighth-m-to-flare-4-m") > _price("adaptor-npt-eighth-m-to-flare-4-m")
