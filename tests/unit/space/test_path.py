# SPDX-License-Identifier: Apache-2.0
"""Centrelines: developed length, bend schedule, samples, high and low points."""

from itertools import pairwise
from math import degrees, pi

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from linewright.base.vectors import Vector, unit
from linewright.space.path import (
    Arc,
    Path,
    Straight,
    bends,
    carry,
    directions,
    elements,
    extremes,
    fits,
    length,
    point,
    sample,
    sample_lines,
)

UP = (0.0, 0.0, 1.0)

# Numbers of a question on a forum of mathematics, inches.
CHECK_1 = Path(
    (
        (38.5202, -14.0264, 0.0),
        (45.3142, -14.0264, 0.0),
        (45.3142, -17.5214, 0.9654),
        (48.6822, -17.5214, 0.9654),
    ),
    (1.125, 1.125),
)

# A schedule worked by hand, millimetres.
CHECK_2 = Path(
    ((0, 0, 0), (200, 0, 0), (200, 150, 0), (200, 150, 120), (320, 150, 220)), (28.6,) * 3
)


def _straights(path: Path) -> list[float]:
    return [piece.length for piece in elements(path) if isinstance(piece, Straight)]


def test_the_bend_schedule_is_that_of_check_1() -> None:
    rows = bends(CHECK_1)

    assert [degrees(row.angle) for row in rows] == pytest.approx([90.0, 90.0])
    assert rows[0].rotation == 0.0
    assert abs(degrees(rows[1].rotation)) == pytest.approx(180.0)
    assert [row.straight for row in rows] == pytest.approx([5.669, 1.3759], abs=1e-4)
    assert _straights(CHECK_1) == pytest.approx([5.669, 1.3759, 2.243], abs=1e-4)
    assert length(CHECK_1) == pytest.approx(12.822, abs=1e-3)


def test_the_bend_schedule_is_that_of_check_2() -> None:
    rows = bends(CHECK_2)

    assert [degrees(row.angle) for row in rows] == pytest.approx([90.0, 90.0, 50.194], abs=1e-3)
    assert [degrees(row.rotation) for row in rows] == pytest.approx([0.0, 90.0, 90.0])
    assert _straights(CHECK_2) == pytest.approx([171.4, 92.8, 78.00, 142.81], abs=5e-3)
    assert length(CHECK_2) == pytest.approx(599.92, abs=5e-3)


def test_a_corner_without_a_turn_only_lengthens_the_straight() -> None:
    path = Path(((0, 0, 0), (0.1, 0, 0), (0.2, 0, 0), (0.2, 0.2, 0)), (0.05, 0.05))

    (row,) = bends(path)

    assert row.straight == pytest.approx(0.15)
    assert row.rotation == 0.0
    assert length(path) == pytest.approx(0.15 + 0.05 * pi / 2 + 0.15)


def test_pieces_join_end_to_end() -> None:
    pieces = elements(CHECK_2)

    assert [type(piece) for piece in pieces] == [Straight, Arc] * 3 + [Straight]
    for before, after in pairwise(pieces):
        assert after.start == pytest.approx(before.end)
    assert pieces[0].start == CHECK_2.corners[0]
    assert pieces[-1].end == pytest.approx(CHECK_2.corners[-1])


def test_a_half_turn_split_in_two_has_no_straight_between() -> None:
    path = Path(((0, 0, 0), (0, 0, 0.2), (0.2, 0, 0.2), (0.2, 0, 0)), (0.1, 0.1))

    assert fits(path) is None
    assert [type(piece) for piece in elements(path)] == [Straight, Arc, Arc, Straight]
    assert length(path) == pytest.approx(0.2 + 0.1 * pi)


def test_a_bend_too_wide_for_its_sides_is_named() -> None:
    path = Path(((0, 0, 0), (0.3, 0, 0), (0.3, 0.15, 0), (0.6, 0.15, 0)), (0.1, 0.08))

    assert fits(path) == "from corner 2 to 3: 150.0 mm, the bends there need 180.0 mm"


def test_a_corner_that_turns_right_back_never_fits() -> None:
    path = Path(((0, 0, 0), (0.3, 0, 0), (0, 0, 0)), (0.1,))

    assert fits(path) == "from corner 1 to 2: 300.0 mm, the bends there need no end of length"
    with pytest.raises(ValueError) as caught:
        elements(path)
    assert str(caught.value) == (
        "corner at (0.3, 0, 0): turns right back, so its bend has no plane; give it two corners"
    )


@pytest.mark.parametrize(
    ("corners", "radii"), [(((0.0, 0.0, 0.0),), ()), (((0, 0, 0), (1, 0, 0)), (0.1,))]
)
def test_a_path_needs_a_radius_for_each_inner_corner(
    corners: tuple[Vector, ...], radii: tuple[float, ...]
) -> None:
    with pytest.raises(ValueError) as caught:
        length(Path(corners, radii))

    assert str(caught.value) == (
        f"path with {len(corners)} corners and {len(radii)} radii: needs two points or more, "
        "and one radius for each inner one"
    )


def test_a_sample_needs_a_step() -> None:
    with pytest.raises(ValueError) as caught:
        sample(CHECK_2, 0.0)

    assert str(caught.value) == "step 0.0: must be more than 0 m"


coordinate = st.floats(-1.0, 1.0)
points = st.tuples(coordinate, coordinate, coordinate)


@st.composite
def paths(draw: st.DrawFn) -> Path:
    """Paths of two to five sides, each radius as large as its sides allow, or less."""
    corners = draw(st.lists(points, min_size=3, max_size=6))
    ways = np.diff(np.array(corners), axis=0)
    legs = np.linalg.norm(ways, axis=1)
    assume(legs.min() > 0.02)
    ways /= legs[:, None]
    turns = np.arccos(np.clip(np.sum(ways[:-1] * ways[1:], axis=1), -1.0, 1.0))
    assume(turns.max() < 3.0)
    share = draw(st.floats(0.05, 1.0))
    radii = share * 0.499 * np.minimum(legs[:-1], legs[1:]) / np.maximum(np.tan(turns / 2), 0.1)
    return Path(tuple(corners), tuple(radii.tolist()))


@settings(max_examples=100, deadline=None)
@given(paths())
def test_the_sampled_length_nears_the_developed_length(path: Path) -> None:
    step = min([0.01, *(radius / 25.0 for radius in path.radii)])
    there, lines = sample_lines(path, step)
    chords = np.linalg.norm(np.diff(there, axis=0), axis=1)

    assert fits(path) is None
    assert lines[-1] == pytest.approx(length(path), rel=1e-9)
    assert chords.max() <= step * (1 + 1e-6)
    # A chord of an arc of x radians is short by x²/24 of its length.
    assert chords.sum() <= length(path) * (1 + 1e-9)
    assert chords.sum() == pytest.approx(length(path), rel=(1 / 25) ** 2 / 24 * 1.01)
    assert there[-1] == pytest.approx(np.array(path.corners[-1]), abs=1e-9)
    middle = len(lines) // 2
    assert point(path, float(lines[middle])) == pytest.approx(there[middle], abs=1e-9)


@settings(max_examples=60, deadline=None)
@given(paths(), points.filter(lambda v: sum(x * x for x in v) > 0.01))
def test_highs_and_lows_are_those_of_a_fine_sample(path: Path, up: Vector) -> None:
    there, lines = sample_lines(path, 0.001)
    height = there @ np.array(unit(up))
    step = np.diff(height)
    moving = np.abs(step) > 1e-9
    sign = np.sign(step[moving])
    peaks = [
        (bool(a > 0), float(lines[1:][moving][i]))
        for i, (a, b) in enumerate(pairwise(sign))
        if a != b
    ]
    found = extremes(path, up)
    chord = 0.001**2 / 8.0 / min(path.radii, default=1.0)  # height of an arc over its chord

    assert [e.is_high for e in found] == [is_high for is_high, _ in peaks]
    for extreme, (_, along) in zip(found, peaks, strict=True):
        near = np.interp(extreme.along, lines, height)
        assert near == pytest.approx(np.interp(along, lines, height), abs=2e-5 + chord)


def test_a_level_hose_has_neither_high_nor_low_points() -> None:
    path = Path(((0, 0, 0), (0.3, 0, 0), (0.3, 0.3, 0)), (0.1,))

    assert extremes(path, UP) == ()


def test_a_sag_between_two_rises_is_a_low_and_a_flat_top_is_found_in_its_middle() -> None:
    path = Path(
        ((0, 0, 0), (0.4, 0, -0.4), (0.8, 0, 0), (1.2, 0, 0), (1.6, 0, -0.4)), (0.1, 0.1, 0.1)
    )
    low, high = extremes(path, UP)

    assert (low.is_high, high.is_high) == (False, True)
    assert low.at == pytest.approx((0.4, 0.0, -0.4 + 0.1 * (2**0.5 - 1)))
    assert high.at == pytest.approx((1.0, 0.0, 0.0))
    assert high.along > low.along


def test_down_may_lie_another_way() -> None:
    path = Path(((0, 0, 0), (0, 0, 0.3), (0.4, 0, 0.3), (0.4, 0, 0)), (0.1, 0.1))

    assert [e.is_high for e in extremes(path, UP)] == [True]
    assert extremes(path, (1.0, 0.0, 0.0)) == ()


@settings(max_examples=100, deadline=None)
@given(paths(), points.filter(lambda v: sum(x * x for x in v) > 0.01))
def test_what_is_carried_keeps_its_angle_to_the_hose_and_comes_back(
    path: Path, mark: Vector
) -> None:
    begin, end = (np.array(way) for way in directions(path))
    carried = carry(path, mark)
    back = Path(path.corners[::-1], path.radii[::-1])

    assert np.array(carried) @ end == pytest.approx(np.array(mark) @ begin, abs=1e-9)
    assert np.linalg.norm(carried) == pytest.approx(np.linalg.norm(mark))
    assert carry(back, carried) == pytest.approx(mark, abs=1e-9)
