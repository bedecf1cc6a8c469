# SPDX-License-Identifier: Apache-2.0
"""Courses are told in words and numbers that a bench can follow."""

from dataclasses import replace
from math import atan2, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linewright.base.vectors import cross, dot, turned_about
from linewright.car.model import Car, Construction, Line, LineEnd
from linewright.sheets import spatial
from linewright.space.bodies import port_side
from linewright.space.free import collar
from linewright.space.model import EndShape, Frame
from linewright.space.path import Path
from tests.unit.sheets.courses import elbow_course, straight_course

LINE = Line("O07", "a.out", "b.in", "oil", None, "-10", "rubber braided", Construction.HOSE)


def test_the_table_has_ends_clock_length_clearance_bends_and_sureness() -> None:
    table = spatial.space_table(Car("Test"), [elbow_course(), straight_course()])

    assert [c.head for c in table.columns][:2] == ["Line", "End A"]
    assert table.rows == (
        ("O02", "straight", "–", "straight", "–", "–", "500 mm", "over 200 mm", "0", "–", ""),
        (
            "O07",
            "90°",
            "9:00",
            "45°",
            "12:00",
            "210° (11:00)",
            "557 mm",
            "12 mm to ENG",
            "1",
            "97 %",
            "measure the direction of ENG.oil-out to 3°",
        ),
    )


def test_the_clock_angle_names_the_mirror_as_the_wrong_one() -> None:
    assert spatial.clock_words(elbow_course()) == (
        "210°: near elbow at six o'clock, counter-clockwise, seen from end A "
        "(150° is its mirror: wrong)"
    )
    assert spatial.clock_words(straight_course()) == "none: an end is straight, and turns to fit"


@given(hour=st.integers(0, 11), yaw=st.floats(-3, 3), lean=st.floats(-1.3, 1.3))
def test_an_elbow_at_an_hour_leads_the_hose_that_way_for_who_looks_at_the_port(
    hour: int, yaw: float, lean: float
) -> None:
    out = turned_about((0.0, 0.0, 1.0), yaw, turned_about((0.0, 1.0, 0.0), lean, (1.0, 0.0, 0.0)))
    frame = Frame((0.0, 0.0, 0.0), out, port_side(out))
    setting = collar(frame, EndShape(90, 0.05, 0.03), -hour * pi / 6)
    # Who looks at the port looks along -out: three is at the right hand, side × out.
    three = cross(frame.side, out)

    seen = atan2(dot(setting.collar, three), dot(setting.collar, frame.side))
    assert round(seen * 6 / pi) % 12 == hour
    assert spatial.setting_hour(setting) == f"{hour or 12}:00"


def test_bends_are_told_from_end_a_and_a_half_turn_is_one_bend() -> None:
    half = Path(((0, 0, 0), (0.2, 0, 0), (0.2, 0.2, 0), (0, 0.2, 0)), (0.1, 0.1))

    assert spatial.bend_lines(elbow_course(), "metric") == (
        "1. 200 mm straight, then 90° at 100 mm radius",
        "200 mm straight",
    )
    assert spatial.bend_lines(replace(elbow_course(), path=half), "metric") == (
        "1. 100 mm straight, then 180° at 100 mm radius",
        "100 mm straight",
    )


def test_bends_in_two_planes_say_how_far_the_tube_is_turned() -> None:
    # A bend schedule worked by hand: +90 and +90 right-handed about the direction of travel.
    path = Path(
        ((0, 0, 0), (0.2, 0, 0), (0.2, 0.15, 0), (0.2, 0.15, 0.12), (0.32, 0.15, 0.22)),
        (0.0286, 0.0286, 0.0286),
    )
    rows = spatial.bend_lines(replace(elbow_course(), path=path), "metric")

    assert [row.rpartition("turned ")[2] for row in rows[1:3]] == ["+90°", "+90°"]


def test_the_band_lists_what_works_by_cost_and_groups_why_the_others_fail() -> None:
    course = elbow_course()

    assert spatial.band_rows(course.band, (90, 45), "metric") == (
        ("●", "90°", "45°", "600 mm", "50 mm", "1", "3.8", "2.25", "97 %"),
        ("·", "0°", "0°", "900 mm", "274 mm", "3", "2.5", "4.50", "40 %"),
    )
    assert spatial.why_not_lines(course.band) == (
        ("ENG is in the way", "0° with 90°; 45° with 90°"),
    )


def test_why_a_pair_was_chosen_follows_from_the_band() -> None:
    course = elbow_course()
    typed = replace(LINE, ends=(LineEnd(angle=90), LineEnd(angle=45)))
    only = replace(course, band=course.band[:1] + course.band[2:])
    dearer = replace(course, band=(replace(course.band[0], cost=5.0), *course.band[1:]))

    assert spatial.why_chosen(LINE, course) == (
        "90° at A and 45° at B: of 2 pairs that work the one that costs least, where standing "
        "out beyond the ports and their bodies goes first, then the price of the ends, bends and "
        "length (2.25 against 4.50 for the next)."
    )
    assert spatial.why_chosen(typed, course) == "90° at A and 45° at B: both typed."
    assert spatial.why_chosen(LINE, only) == (
        "90° at A and 45° at B: the only pair that works of 3 tried."
    )
    assert spatial.why_chosen(LINE, dearer) == (
        "90° at A and 45° at B: works for 97 % of the places that the ports may have; "
        "0° with 0° would cost less and works for 40 %."
    )


@pytest.mark.parametrize(
    ("out", "words"),
    [
        ((1.0, 0.0, 0.0), "rearward"),
        ((0.0, -1.0, 0.0), "left"),
        ((0.0, 0.0, -1.0), "down"),
        ((0.0, 0.9397, 0.3420), "right, 20° up"),
    ],
)
def test_directions_are_told_as_the_document_types_them(
    out: tuple[float, float, float], words: str
) -> None:
    assert spatial.way_words(out) == words


def test_places_are_told_in_the_builders_unit() -> None:
    assert spatial.place_words((1.2, -0.41, 0.0254), "inch") == "x 47.2, y -16.1, z 1.0 in"
