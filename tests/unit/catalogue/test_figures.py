# SPDX-License-Identifier: Apache-2.0
"""Figures of parts: each known, graded, and none that contradicts another."""

import pytest

from linewright.base.errors import TableError
from linewright.base.evidence import Grade
from linewright.catalogue.figures import bore_of, dash_figures, factor, largest_dash, nipples
from linewright.catalogue.part import Turns
from linewright.catalogue.stock import generic
from linewright.catalogue.trade import end_of
from linewright.ends.end import Family, Gender
from linewright.ends.sizes import find


@pytest.mark.parametrize(
    ("dash", "bore_mm"),
    # From memory: stud and cone bores of MS33656 ends; no source was found.
    [("-4", 4.4), ("-6", 7.5), ("-8", 9.9), ("-10", 12.3), ("-12", 15.5), ("-16", 21.4)],
)
def test_cones_and_boss_studs_have_the_bores_of_their_dash(dash: str, bore_mm: float) -> None:
    cone, stud = bore_of(end_of(f"flare_37 {dash} m")), bore_of(end_of(f"orb_unf {dash} m"))

    assert cone is not None
    assert stud is not None
    assert cone == stud
    assert cone[0] == pytest.approx(bore_mm / 1000)
    assert cone[1] is Grade.RECALLED


@pytest.mark.parametrize(
    ("dash", "bore_mm"),
    # US Army TM 1-1500-204-23-2, table 4-15, as in fittings_loss.csv.
    [("-4", 3.71), ("-6", 6.88), ("-8", 9.27), ("-10", 11.56), ("-12", 14.43), ("-16", 19.76)],
)
def test_nipples_of_hose_ends_have_the_bores_of_the_manual(dash: str, bore_mm: float) -> None:
    assert nipples()[dash][0] == pytest.approx(bore_mm / 1000)


def test_no_part_is_wider_than_any_of_its_ends() -> None:
    wide = [
        part.code
        for part in generic().parts
        for end in part.ends
        if (found := bore_of(end)) is not None
        and part.bore is not None
        and part.bore > found[0] + 1e-9
    ]

    assert wide == []


def test_every_part_with_two_ends_has_a_bore() -> None:
    assert [p.code for p in generic().parts if len(p.ends) > 1 and p.bore is None] == []


def test_every_part_has_a_leg_for_each_end() -> None:
    assert [p.code for p in generic().parts if len(p.legs) != len(p.ends)] == []


def test_every_figure_of_every_part_has_its_grade() -> None:
    for part in generic().parts:
        graded = {name for name, _ in part.grades}
        due = {"availability", "mass", "price_index"}
        if part.ends:
            due.add("legs")
        if part.bore is not None:
            due.add("bore")

        assert due <= graded, part.code
        assert part.mass is not None, part.code
        assert part.mass > 0, part.code
        assert part.price_index > 0, part.code


def test_every_threaded_end_of_every_part_is_a_size_that_is_made() -> None:
    free = (
        Family.BEAD,
        Family.BARB,
        Family.TUBE,
        Family.FLANGE,
        Family.VBAND,
        Family.WELD,
        Family.HOSE,
    )
    unmade = {
        str(end)
        for part in generic().parts
        for end in part.ends
        if end.family not in free and find(end.family, end.size) is None
    }

    assert unmade == set()


def test_a_hose_end_has_one_nut_and_one_grip() -> None:
    for part in generic().parts:
        if part.shape != "hose end":
            continue
        nut, grip = part.ends

        assert nut.family is Family.FLARE_37
        assert nut.swivel
        assert grip.family is Family.HOSE
        assert grip.gender is Gender.MALE
        assert nut.size == grip.size


def test_the_first_end_of_a_two_ended_adaptor_is_its_port_side() -> None:
    # A flare cone never stands first beside a thread that goes into a port.
    backwards = [
        part.code
        for part in generic().parts
        if len(part.ends) == 2
        and part.ends[0].family is Family.FLARE_37
        and part.ends[0].gender is Gender.MALE
        and part.ends[1].family is not Family.FLARE_37
    ]

    assert backwards == []


def test_an_elbow_on_a_taper_turns_by_chance_and_on_a_lock_nut_where_set() -> None:
    for part in generic().of_shape("elbow"):
        near = part.ends[0]
        expected = Turns.FREE if near.swivel else Turns.SET
        if near.family is Family.NPT:
            expected = Turns.CHANCE

        assert part.turns is expected, part.code


def test_an_adjustable_boss_elbow_brings_lock_nut_and_backing_washer() -> None:
    # Case J20: 45 mm from a -12 boss to a rail; the hose then runs along the rail.
    part = generic().part("elbow-orb-12-m-to-flare-12-m-90-adjustable")

    assert [(need.what, need.count) for need in part.comes_with] == [
        ("lock nut", 1),
        ("backing washer", 1),
    ]
    assert part.turns is Turns.SET
    assert part.stick_out < 0.045


def test_a_straight_adaptor_stands_out_by_hexagon_and_cone() -> None:
    part = generic().part("adaptor-orb-6-m-to-flare-6-m")
    figures = dash_figures("-6")

    assert part.stick_out == pytest.approx(figures.hexagon + figures.cone)


def test_straight_adaptor_and_90_end_are_about_60_mm_tall_at_dash_6() -> None:
    # Case J08 [common practice]: 60 mm tall over the hose, 22 mm free, hence the banjo.
    straight = generic().part("adaptor-flat-m14x1.5-m-to-flare-6-m")
    bent = generic().part("hose-end-6-rubber-90-fixed")
    eye = generic().part("banjo-hose-end-m14x1.5-to-hose-6-rubber")

    assert straight.stick_out + bent.stick_out + 0.017 / 2 == pytest.approx(0.060, abs=0.005)
    assert eye.stick_out < 0.022


def test_straight_adaptor_and_90_end_are_about_85_mm_tall_at_dash_12() -> None:
    # Case J20 [common practice]; hose outside 27.4 mm (MIL-H-8794 in hose.csv).
    straight = generic().part("adaptor-orb-12-m-to-flare-12-m")
    bent = generic().part("hose-end-12-rubber-90-fixed")

    assert straight.stick_out + bent.stick_out + 0.0274 / 2 == pytest.approx(0.085, abs=0.006)


def test_a_narrow_inside_shows_in_the_bore() -> None:
    plain = generic().part("adaptor-flat-m12x1.5-m-to-flare-4-m")
    jet = generic().part("jet-flat-m12x1.5-m-to-flare-4-m")

    assert jet.bore == pytest.approx(0.001)
    assert plain.bore == pytest.approx(0.0044)


def test_a_factor_or_a_dash_that_is_not_there_is_named() -> None:
    with pytest.raises(TableError) as no_factor:
        factor("price gold")
    with pytest.raises(TableError) as no_dash:
        dash_figures("-9")

    assert str(no_factor.value) == "part_factors.csv has no row 'price gold'; add one"
    assert str(no_dash.value) == (
        "part_sizes.csv has no dash '-9'; it has -2, -3, -4, -5, -6, -7, -8, -10, -12, -14, -16, "
        "-20, -24, -28, -32. Add a row."
    )


def test_the_largest_dash_of_some_ends_goes_by_number() -> None:
    assert largest_dash((end_of("flare_37 -8 m"), end_of("flare_37 -12 m"))) == "-12"
    assert largest_dash((end_of("weld steel m"),)) == "-10"
