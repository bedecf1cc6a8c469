# SPDX-License-Identifier: Apache-2.0
"""The shortest hose in free space, against Dubins' closed forms (Dubins 1957).

The forms below were written from the geometry of common tangents of circles, apart from the
code under test. In the plane the four curve-straight-curve words are LSL, RSR, LSR and RSL.
"""

from math import acos, atan2, cos, hypot, inf, isfinite, pi, radians, sin, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from linewright.base.vectors import Vector, cross, dot
from linewright.space.free import collar, shortest
from linewright.space.model import EndShape, Frame, Setting
from linewright.space.path import bends, directions, fits, length, sample
from tests.shortest_rows import shortest_many, shortest_pairs

Floats = NDArray[np.float64]
UP = (0.0, 0.0, 1.0)


def _words(x: float, y: float, start: float, end: float) -> dict[str, float]:
    """Lengths of Dubins' words from the origin at heading start to (x, y) at heading end, R 1."""

    def centre(px: float, py: float, heading: float, hand: int) -> tuple[float, float]:
        return px - hand * sin(heading), py + hand * cos(heading)

    def turn(begin: float, to: float, hand: int) -> float:
        swept = (hand * (to - begin)) % (2 * pi)
        return 0.0 if swept > 2 * pi - 1e-9 else swept

    found = {}
    for word, hand1, hand2 in (("LSL", 1, 1), ("RSR", -1, -1), ("LSR", 1, -1), ("RSL", -1, 1)):
        (ax, ay), (bx, by) = centre(0, 0, start, hand1), centre(x, y, end, hand2)
        far, way = hypot(bx - ax, by - ay), atan2(by - ay, bx - ax)
        if hand1 == hand2:
            run, heading = far, way
        elif far < 2.0:
            continue
        else:
            run = sqrt(far * far - 4.0)
            heading = way + hand1 * atan2(2.0, run)
        found[word] = turn(start, heading, hand1) + run + turn(heading, end, hand2)
    for word, hand in (("LRL", 1), ("RLR", -1)):
        (ax, ay), (bx, by) = centre(0, 0, start, hand), centre(x, y, end, hand)
        far, way = hypot(bx - ax, by - ay), atan2(by - ay, bx - ax)
        if 0.0 < far < 4.0:
            # The middle circle touches both; it lies on either side of the line of centres.
            lift = acos(far / 4.0)
            for side in (1, -1):
                first = way + side * lift  # from the first centre to the middle one
                last = pi + way - side * lift  # from the last centre to the middle one
                h1 = first + hand * pi / 2
                h2 = last + hand * pi / 2
                total = turn(start, h1, hand) + turn(h1, h2, -hand) + turn(h2, end, hand)
                found[word] = min(found.get(word, inf), total)
    return found


def _planar(x: float, y: float, start: float, end: float) -> dict[str, Vector]:
    return {
        "a_point": (0.0, 0.0, 0.0),
        "a_dir": (cos(start), 0.0, sin(start)),
        "b_point": (x, 0.0, y),
        "b_dir": (-cos(end), 0.0, -sin(end)),
    }


def _poses(count: int, spread: float, seed: int) -> Floats:
    """Rows of a point within a cube of ``spread`` radii, two headings. [radii, rad]"""
    draws = np.random.default_rng(seed)
    return np.column_stack(
        [draws.uniform(-spread, spread, (count, 2)), draws.uniform(-pi, pi, (count, 2))]
    )


@pytest.mark.parametrize(("spread", "seed"), [(3.0, 1), (8.0, 2), (40.0, 3)])
def test_planar_lengths_are_those_of_dubins(spread: float, seed: int) -> None:
    poses = _poses(3000, spread, seed)
    x, y, start, end = poses.T
    none = np.zeros(len(poses))
    lengths, _ = shortest_many(
        np.zeros(3),
        np.column_stack([np.cos(start), none, np.sin(start)]),
        np.column_stack([x, none, y]),
        np.column_stack([-np.cos(end), none, -np.sin(end)]),
        1.0,
        0.0,
    )
    words = [_words(*row) for row in poses.tolist()]
    best = np.array([min(w for name, w in row.items() if "S" in name) for row in words])

    assert lengths == pytest.approx(best, rel=1e-6)


def test_planar_paths_are_no_longer_than_dubins() -> None:
    # Where an end would turn more than half round, a path out of the plane may be shorter.
    straight: list[float] = []
    curved: list[float] = []
    for x, y, start, end in _poses(300, 4.0, 4).tolist():
        words = _words(x, y, start, end)
        path = shortest(**_planar(x, y, start, end), radius=1.0, straight=0.0)
        best = min(words, key=lambda word: words[word])

        assert path is not None
        (straight if "S" in best else curved).append(length(path) / words[best] - 1.0)

    assert len(straight) > 200
    assert max(straight) < 1e-3
    assert len(curved) > 20
    assert max(curved) < 1e-3
    assert min(curved) < -0.05


def test_where_curves_alone_are_shortest_the_path_is_not_of_curve_straight_curve() -> None:
    # Two collars looking up, one radius apart: never two three-quarter turns.
    x, y, start, end = 1.0, 0.0, pi / 2, -pi / 2
    words = _words(x, y, start, end)
    path = shortest(**_planar(x, y, start, end), radius=1.0, straight=0.0)

    assert path is not None
    assert length(path) < 0.65 * min(words["LSL"], words["RSR"])
    assert length(path) <= words["LRL"] * (1 + 1e-9)


def _pose(draw: st.DrawFn) -> tuple[Vector, Vector]:
    x, y, z = (draw(st.floats(-1.5, 1.5)) for _ in range(3))
    yaw, pitch = draw(st.floats(-pi, pi)), draw(st.floats(-pi / 2, pi / 2))
    return (x, y, z), (cos(yaw) * cos(pitch), sin(yaw) * cos(pitch), sin(pitch))


@st.composite
def collars(draw: st.DrawFn) -> tuple[Vector, Vector, Vector, Vector]:
    return (*_pose(draw), *_pose(draw))


@settings(max_examples=150, deadline=None)
@given(collars(), st.floats(0.05, 0.3), st.floats(0.0, 0.1))
def test_a_path_keeps_its_ends_leads_and_radius(
    pose: tuple[Vector, Vector, Vector, Vector], radius: float, lead: float
) -> None:
    a, a_dir, b, b_dir = pose
    path = shortest(a, a_dir, b, b_dir, radius, lead)

    assert path is not None
    assert fits(path) is None
    assert set(path.radii) <= {radius}
    begin, end = directions(path)
    assert begin == pytest.approx(a_dir, abs=1e-3 if lead == 0 else 1e-4)
    assert dot(end, b_dir) == pytest.approx(-1.0, abs=1e-6)
    there = sample(path, 0.01)
    assert there[0] == pytest.approx(np.array(a))
    assert there[-1] == pytest.approx(np.array(b), abs=2e-5)
    assert length(path) >= np.linalg.norm(np.array(b) - np.array(a)) - 1e-6
    rows = bends(path)
    assert all(row.angle <= 2 * pi / 3 + 1e-6 for row in rows)
    if rows:
        assert rows[0].straight >= lead - 1e-6


@settings(max_examples=60, deadline=None)
@given(collars(), st.floats(0.05, 0.3))
def test_the_shortest_hose_is_the_same_from_either_end(
    pose: tuple[Vector, Vector, Vector, Vector], radius: float
) -> None:
    a, a_dir, b, b_dir = pose
    there, turns = shortest_many(
        np.array(a), np.array(a_dir), np.array(b), np.array(b_dir), radius, 0.02
    )
    back, _ = shortest_many(
        np.array(b), np.array(b_dir), np.array(a), np.array(a_dir), radius, 0.02
    )

    # Where an end turns more than half round, close by, one of many loops may be missed.
    if turns.max() < pi and np.linalg.norm(np.array(b) - np.array(a)) > 4 * radius:
        assert there == pytest.approx(back, abs=1e-7)


def test_the_batch_and_the_single_path_agree() -> None:
    draws = np.random.default_rng(11)
    points = draws.uniform(-1.0, 1.0, (2, 400, 3))
    ways = draws.normal(size=(2, 400, 3))
    ways /= np.linalg.norm(ways, axis=2, keepdims=True)
    lengths, turns = shortest_many(points[0], ways[0], points[1], ways[1], 0.15, 0.04)
    table, _ = shortest_pairs(
        points[0][:20], ways[0][:20], points[1][:20], ways[1][:20], 0.15, 0.04
    )

    assert np.diag(table) == pytest.approx(lengths[:20])
    checked = 0
    for i in range(400):
        a, a_dir, b, b_dir = (
            tuple(row[i].tolist()) for row in (points[0], ways[0], points[1], ways[1])
        )
        path = shortest(a, a_dir, b, b_dir, 0.15, 0.04)
        assert path is not None
        if turns[i].max() < pi:
            assert length(path) == pytest.approx(lengths[i], abs=1e-6)
            checked += 1
        else:
            assert length(path) <= lengths[i] + 1e-6
    assert checked > 250


def test_no_other_two_bends_are_shorter() -> None:
    # Brute force: directions of the straight all over the sphere, the best of them mended by
    # Newton's method until nothing is missed sideways. Turns under half round only, and near
    # half round it starts too far off to arrive.
    draws = np.random.default_rng(5)
    same = 0
    for _ in range(25):
        far = draws.normal(size=3) * 3.0
        a, e = draws.normal(size=(2, 3))
        a, e = a / np.linalg.norm(a), e / np.linalg.norm(e)
        (found,), (turns,) = shortest_many(np.zeros(3), a, far, -e, 1.0, 0.0)
        least = _brute(far, a, e)

        assert found <= least + 1e-4
        if turns.max() < 2.8:
            assert found == pytest.approx(least, abs=1e-4)
            same += 1
    assert same >= 15


def _bent(d: Floats, far: Floats, a: Floats, e: Floats) -> tuple[float, float, Floats]:
    """Length, straight and what is missed, with two arcs that end and start along d."""
    t1, t2 = (float(np.arccos(np.clip(d @ way, -1, 1))) for way in (a, e))
    rest = far - np.tan(t1 / 2) * (a + d) - np.tan(t2 / 2) * (d + e)
    run = float(rest @ d)
    return t1 + t2 + run, run, rest - run * d


def _brute(far: Floats, a: Floats, e: Floats) -> float:
    draws = np.random.default_rng(6)
    ways = draws.normal(size=(3000, 3))
    ways /= np.linalg.norm(ways, axis=1, keepdims=True)
    ways = np.array(sorted(ways, key=lambda d: float(np.linalg.norm(_bent(d, far, a, e)[2]))))
    least = inf
    for d in ways[:60]:
        for _ in range(30):
            u = np.linalg.svd(d[None])[2][1:]
            miss = _bent(d, far, a, e)[2]
            slope = np.empty((2, 2))
            for k in range(2):
                near = d + 1e-6 * u[k]
                slope[:, k] = u @ (_bent(near / np.linalg.norm(near), far, a, e)[2] - miss) / 1e-6
            if abs(np.linalg.det(slope)) < 1e-12:
                break
            move = np.linalg.solve(slope, -(u @ miss))
            far_off = max(float(np.linalg.norm(move)), 1e-12)
            d = d + min(1.0, 0.2 / far_off) * (move @ u)
            d = d / np.linalg.norm(d)
        size, run, miss = _bent(d, far, a, e)
        if np.linalg.norm(miss) < 1e-5 and run >= 0.0:
            least = min(least, size)
    return least


def test_straight_ahead_needs_no_bend() -> None:
    path = shortest((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), 0.1, 0.05)

    assert path is not None
    assert bends(path) == ()
    assert length(path) == pytest.approx(1.0)


@pytest.mark.parametrize("apart", [0.0, 0.1, 0.3, 0.4, 0.6])
@pytest.mark.parametrize("height", [0.0, -0.5, 0.5])
def test_parallel_collars_find_a_loop_at_any_distance(apart: float, height: float) -> None:
    for way in (1.0, -1.0):
        path = shortest((0.0, 0.0, 0.0), UP, (apart, 0.0, height), (0.0, 0.0, way), 0.2, 0.05)

        assert path is not None
        assert fits(path) is None
        there = sample(path, 0.01)
        assert there[-1] == pytest.approx([apart, 0.0, height], abs=2e-5)
        assert isfinite(length(path))


def test_two_collars_looking_up_stand_as_tall_as_the_reference_says() -> None:
    # Case R1: two straight ends, 60 mm, straight 2 × 23.4 mm, R 168: 274 mm, 805 mm.
    path = shortest((0.0, 0.0, 0.06), UP, (0.4, 0.0, 0.06), UP, 0.168, 2 * 0.0234)

    assert path is not None
    assert sample(path, 0.001)[:, 2].max() == pytest.approx(0.274, abs=1e-3)
    assert length(path) + 2 * 0.06 == pytest.approx(0.805, abs=1e-3)


@pytest.mark.parametrize(("radius", "lead"), [(0.0, 0.01), (0.1, -0.01), (float("nan"), 0.0)])
def test_a_hose_needs_a_radius(radius: float, lead: float) -> None:
    with pytest.raises(ValueError) as caught:
        shortest((0.0, 0.0, 0.0), UP, (1.0, 0.0, 0.0), UP, radius, lead)

    assert str(caught.value) == (
        f"radius {radius * 1e3:.1f} mm, straight {lead * 1e3:.1f} mm: a hose needs a radius over 0 "
        "and a straight of 0 or more"
    )


# Collars of elbows.


def _outlet(setting: Setting) -> Floats:
    bend = radians(setting.shape.angle)
    return cos(bend) * np.array(setting.n) + sin(bend) * np.array(setting.side)


def _seat(setting: Setting) -> Floats:
    shape = setting.shape
    return (
        np.array(setting.collar)
        + shape.reach * np.array(setting.n)
        + shape.drop * np.array(setting.side)
    )


@settings(max_examples=150, deadline=None)
@given(
    collars(),
    st.sampled_from([0, 30, 45, 60, 90, 120, 150, 180]),
    st.floats(-2 * pi, 2 * pi),
    st.floats(0.0, 0.1),
)
def test_an_elbow_seats_on_its_port_and_looks_into_it(
    pose: tuple[Vector, Vector, Vector, Vector], angle: int, turn: float, stick_out: float
) -> None:
    origin, out, _, other = pose
    side = cross(out, other)
    if dot(side, side) < 1e-6:
        return
    port = Frame(origin, out, side)
    setting = collar(port, EndShape(angle, 0.061, 0.037, stick_out), turn)

    assert _seat(setting) == pytest.approx(np.array(origin) + stick_out * np.array(out))
    assert _outlet(setting) == pytest.approx(-np.array(out), abs=1e-9)
    assert dot(setting.n, setting.side) == pytest.approx(0.0, abs=1e-9)
    assert dot(setting.n, setting.n) == pytest.approx(1.0)
    assert setting.turn == turn


def test_an_elbow_turns_right_handed_about_its_port() -> None:
    port = Frame((0.0, 0.0, 0.0), UP, (1.0, 0.0, 0.0))
    shape = EndShape(90, 0.05, 0.03)
    ways = [tuple(-x for x in collar(port, shape, turn).n) for turn in (0.0, pi / 2, pi)]

    assert ways[0] == pytest.approx((1.0, 0.0, 0.0), abs=1e-12)
    assert ways[1] == pytest.approx((0.0, 1.0, 0.0), abs=1e-12)
    assert ways[2] == pytest.approx((-1.0, 0.0, 0.0), abs=1e-12)


def test_a_half_turn_end_leads_the_hose_back_beside_its_port() -> None:
    port = Frame((0.0, 0.0, 0.0), UP, (1.0, 0.0, 0.0))
    setting = collar(port, EndShape(180, reach=0.05, drop=0.07), 0.0)

    assert setting.collar == pytest.approx((0.07, 0.0, -0.05))
    assert setting.n == pytest.approx((0.0, 0.0, 1.0), abs=1e-12)
    assert setting.side == pytest.approx((-1.0, 0.0, 0.0), abs=1e-12)


def test_a_side_along_the_port_is_refused() -> None:
    with pytest.raises(ValueError) as caught:
        collar(Frame((0.0, 0.0, 0.0), UP, UP), EndShape(0, 0.05, 0.0), 0.0)

    assert str(caught.value) == (
        "port side (0.0, 0.0, 1.0): lies along its out (0.0, 0.0, 1.0); must be square"
    )


@pytest.mark.parametrize("gap", [0.0, 0.2, 0.5])
def test_two_quarter_turns_in_planes_square_to_each_other_are_found(gap: float) -> None:
    # A quarter turn from x to y, a straight, a quarter turn from y to z: pi + gap.
    down = (0.0, 0.0, -1.0)
    path = shortest((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (1.0, 2.0 + gap, 1.0), down, 1.0, 0.0)

    assert path is not None
    assert length(path) == pytest.approx(pi + gap, rel=1e-9)
