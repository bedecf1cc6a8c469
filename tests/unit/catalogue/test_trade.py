# SPDX-License-Identifier: Apache-2.0
"""The table of what the trade sells."""

import pytest

from linewright.base.errors import TableError
from linewright.catalogue.part import Availability, Part
from linewright.catalogue.stock import MAKERS, generic
from linewright.catalogue.trade import end_of, offers
from linewright.ends.end import Family

#: Straight adaptors, stud to 37 degree cone: stocked, then catalogued dashes [common practice].
STRAIGHTS = {
    "npt 1/8 m": ("-3 -4 -6", "-8"),
    "npt 1/4 m": ("-4 -6 -8", "-3 -10"),
    "npt 3/8 m": ("-6 -8 -10", "-4 -12"),
    "npt 1/2 m": ("-8 -10 -12", "-6 -16"),
    "npt 3/4 m": ("-12 -16", "-10 -20"),
    "npt 1 m": ("-16", "-12 -20"),
    "orb_unf -6 m": ("-6 -8", "-4 -10"),
    "orb_unf -8 m": ("-6 -8 -10", "-4 -12"),
    "orb_unf -10 m": ("-8 -10 -12", "-6 -16"),
    "orb_unf -12 m": ("-10 -12 -16", "-8"),
    "orb_unf -16 m": ("-12 -16", "-20"),
    "metric_flat_face M10x1 m": ("-3 -4", "-6"),
    "metric_flat_face M12x1.5 m": ("-4 -6", "-3"),
    "metric_flat_face M12x1.25 m": ("-4", "-3"),
    "metric_flat_face M14x1.5 m": ("-6", "-4 -8"),
    "metric_flat_face M16x1.5 m": ("-6 -8", "-10"),
    "metric_flat_face M18x1.5 m": ("-6 -8", "-10"),
    "metric_flat_face M20x1.5 m": ("-8 -10", "-12"),
    "metric_flat_face M22x1.5 m": ("-8 -10", "-12"),
    "bspp G 1/8 m": ("-4", "-3 -6"),
    "bspp G 1/4 m": ("-4 -6", "-3 -8"),
    "bspp G 3/8 m": ("-6 -8", "-4 -10"),
    "bspp G 1/2 m": ("-8 -10", "-6 -12"),
    "bspp G 3/4 m": ("-12", "-10 -16"),
    "bspt R 1/8 m": ("", "-3 -4"),
    "qc 5/16 f": ("-6", ""),
    "qc 3/8 f": ("-6 -8", ""),
}


def _cones(stud: str, availability: Availability) -> set[str]:
    return {
        part.ends[1].size
        for part in generic().of_shape("adaptor")
        if str(part.ends[0]) == stud
        and part.ends[1].family is Family.FLARE_37
        and "check valve" not in part.traits
        and part.availability is availability
    }


@pytest.mark.parametrize("stud", STRAIGHTS)
def test_straight_adaptors_are_those_that_the_trade_sells(stud: str) -> None:
    stocked, catalogued = STRAIGHTS[stud]

    assert _cones(stud, Availability.STOCKED) == set(stocked.split())
    assert _cones(stud, Availability.CATALOGUED) == set(catalogued.split())
    assert _cones(stud, Availability.SPECIAL) == set()


def test_large_bspt_iso6149_and_face_seal_studs_are_special_and_steel() -> None:
    special = [
        part
        for part in generic().of_shape("adaptor")
        if part.ends[0].family in (Family.ISO6149, Family.ORFS)
        or (part.ends[0].family is Family.BSPT and part.ends[0].size != "R 1/8")
    ]

    assert len(special) > 20
    assert {part.availability for part in special} == {Availability.SPECIAL}
    assert {part.material for part in special} == {"steel"}


def test_every_offer_has_a_maker_and_every_maker_an_offer() -> None:
    assert {offer.shape for offer in offers()} == set(MAKERS)


def test_an_end_reads_back_as_it_is_written() -> None:
    ends = {end for part in generic().parts for end in part.ends}

    assert len(ends) > 300
    assert [str(end) for end in ends if end_of(str(end)) != end] == []


def test_a_family_that_does_not_exist_is_named() -> None:
    with pytest.raises(TableError) as caught:
        end_of("flair_37 -8 m")

    assert str(caught.value) == (
        "trade.csv, end 'flair_37 -8 m': 'flair_37' is no family; see ends/end.py for the list"
    )


def _one(shape: str, near: str, far: str = "", angle: int = 0) -> list[Part]:
    return [
        part
        for part in generic().of_shape(shape)
        if str(part.ends[0]) == near
        and part.angle == angle
        and (not far or str(part.ends[1]) == far)
    ]


@pytest.mark.parametrize(
    ("shape", "near", "far", "angle"),
    [
        ("elbow", "flare_37 -20 f swivel", "flare_37 -20 m", 90),
        ("elbow", "flare_37 -3 f swivel", "flare_37 -3 m", 180),
        ("elbow", "npt 1/2 m", "flare_37 -10 m", 45),
        ("elbow", "orb_unf -12 m", "flare_37 -12 m", 90),
        ("union", "flare_37 -10 m", "flare_37 -6 m", 0),
        ("reducer", "flare_37 -12 f swivel", "flare_37 -4 m", 0),
        ("reducer", "flare_37 -6 f swivel", "flare_37 -10 m", 0),
        ("bulkhead", "flare_37 -6 m", "flare_37 -6 m", 0),
        ("bulkhead", "flare_37 -16 m", "flare_37 -16 m", 90),
        ("tee", "flare_37 -4 m", "flare_37 -4 m", 0),
        ("tee", "flare_37 -6 f swivel", "flare_37 -6 m", 0),
        ("y block", "flare_37 -10 m", "flare_37 -8 m", 0),
        ("banjo hose end", "banjo M14x1.5 m", "hose -6 rubber m", 90),
        ("banjo adaptor", "banjo 3/8-24 m", "flare_37 -3 m", 90),
        ("bung", "weld aluminium m", "flare_37 -16 m", 0),
        ("bung", "weld steel m", "orb_unf -16 f", 0),
        ("bung", "weld aluminium m", "npt 3/4 f", 0),
        ("bead adaptor", "bead 38 m", "flare_37 -20 m", 0),
        ("bead adaptor", "orb_unf -16 m", "bead 32 m", 0),
        ("sensor adaptor", "npt 1/8 m", "metric_flat_face M10x1 f", 0),
        ("sensor adaptor", "bspt R 1/8 m", "npt 1/8 f", 0),
        ("bushing", "npt 1/2 m", "npt 1/8 f", 0),
        ("adaptor", "metric_flat_face M12x1.5 m", "flare_37 -6 m", 0),
        ("screen", "flare_37 -4 f swivel", "flare_37 -4 m", 0),
        ("check valve", "flare_37 -8 m", "flare_37 -8 m", 0),
        ("gauge adaptor", "flare_37 -6 f swivel", "flare_37 -6 m", 0),
        ("jet", "metric_flat_face M12x1.5 m", "flare_37 -4 m", 0),
        ("drain flange", "flange 2-bolt 38", "flare_37 -10 m", 0),
        ("take-off plate", "spinon 3/4-16 f", "npt 1/2 f", 0),
        ("filter head", "spinon M20x1.5 m", "orb_unf -12 f", 0),
        ("barb adaptor", "npt 1/8 m", "barb 5 m", 0),
        ("tube nut", "flare_37 -6 f swivel", "tube -6", 0),
        ("silicone", "hose 38 clamped f", "hose 32 clamped f", 90),
        ("coupler", "hose 38 clamped f", "hose 38 clamped f", 0),
        ("pipe", "bead 63 m", "bead 63 m", 90),
        ("v-band flange", "vband 76", "weld stainless m", 0),
    ],
)
def test_the_other_shapes_of_the_trade_are_there(
    shape: str, near: str, far: str, angle: int
) -> None:
    assert _one(shape, near, far, angle)


def test_hose_ends_come_in_every_angle_fixed_and_full_swivel() -> None:
    for kind, dashes in (("rubber", "-4 -6 -8 -10 -12 -16 -20"), ("PTFE", "-4 -6 -8 -10 -12 -16")):
        for dash in dashes.split():
            ends = [p for p in generic().hose_ends(kind, dash) if p.shape == "hose end"]
            made = {(p.angle, "full swivel" in p.traits) for p in ends}

            assert made == {
                (angle, swivel)
                for angle in (0, 30, 45, 60, 90, 120, 150, 180)
                for swivel in (False, True)
            }
            assert {p.angle for p in ends if p.availability is Availability.STOCKED} == {0, 45, 90}


def test_push_on_ends_are_straight_45_or_90() -> None:
    for dash in ("-4", "-6", "-8", "-10", "-12"):
        assert {p.angle for p in generic().hose_ends("push-on", dash)} == {0, 45, 90}
