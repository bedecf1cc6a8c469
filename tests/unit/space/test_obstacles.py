# SPDX-License-Identifier: Apache-2.0
"""Gaps between hoses and bodies: against the independent formulas of `tests.dense_check`."""

from dataclasses import replace
from itertools import permutations
from math import inf, pi, sqrt
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from linewright.base.evidence import Figure, Grade
from linewright.base.frames import rotation
from linewright.car.model import Hole, Panel, Shape
from linewright.car.read import read
from linewright.space import path as paths
from linewright.space.obstacles import (
    HalfSpace,
    Obstacle,
    Opening,
    Scene,
    Solid,
    Tube,
    Wall,
    walls,
)
from tests import dense_check

Reals = NDArray[np.float64]

ROADSTER = Path(__file__).parents[3] / "examples" / "club-roadster" / "car.toml"
ROUND = (Shape.CYLINDER, Shape.CAPSULE)
UNTURNED = rotation(0.0, 0.0, 0.0)

metres = st.floats(-1.0, 1.0)
places = st.tuples(metres, metres, metres)
sizes = st.floats(0.0, 0.6)
angles = st.floats(-pi, pi)


@st.composite
def solids(draw: st.DrawFn, number: int) -> Solid:
    shape = draw(st.sampled_from([Shape.BOX, *ROUND]))
    x, y, z = draw(sizes), draw(sizes), draw(sizes)
    size = (x, x, z + (x if shape is Shape.CAPSULE else 0.0)) if shape in ROUND else (x, y, z)
    return Solid(
        f"b{number:02}",
        shape,
        draw(places),
        rotation(draw(angles), draw(angles), draw(angles)),
        size,
        clearance=draw(st.floats(0.0, 0.1)),
        rides=draw(st.sampled_from(["chassis", "engine"])),
    )


@st.composite
def others(draw: st.DrawFn, number: int) -> Obstacle:
    name, clearance = f"o{number:02}", draw(st.floats(0.0, 0.05))
    at = draw(places)
    points = draw(places.filter(lambda v: v[0] ** 2 + v[1] ** 2 + v[2] ** 2 > 0.01))
    match draw(st.sampled_from(["tube", "wall", "panel", "ground"])):
        case "tube":
            return Tube(name, tuple(draw(st.lists(places, min_size=2, max_size=6))), 0.012)
        case "wall":
            return Wall(name, at, points, 0.003, clearance=clearance)
        case "panel":
            size = (draw(st.floats(0.1, 1.0)), draw(st.floats(0.1, 1.0)))
            return Wall(name, at, points, 0.02, size, (Opening(at, 0.03),), clearance)
        case _:
            return HalfSpace(name, at, points, clearance)


@st.composite
def bays(draw: st.DrawFn) -> tuple[Obstacle, ...]:
    bodies: list[Obstacle] = [draw(solids(n)) for n in range(draw(st.integers(0, 9)))]
    return (*bodies, *(draw(others(n)) for n in range(draw(st.integers(0, 4)))))


def cloud(seed: int, count: int = 60) -> Reals:
    return np.random.default_rng(seed).uniform(-1.2, 1.2, (count, 3))


def box(name: str, at: tuple[float, float, float], side: float = 0.2) -> Solid:
    return Solid(name, Shape.BOX, at, UNTURNED, (side, side, side))


@given(bays(), st.integers(0, 10_000))
@settings(max_examples=150, deadline=None)
def test_every_gap_agrees_with_formulas_written_apart(
    bodies: tuple[Obstacle, ...], seed: int
) -> None:
    points = cloud(seed)
    found, which = Scene.build(bodies).gaps(points, 0.01)

    if not bodies:
        assert np.all(np.isinf(found))
        assert np.all(which == -1)
        return
    every = np.array([dense_check.gaps(body, points, 0.01) for body in bodies])
    assert found == pytest.approx(every.min(axis=0), abs=1e-9)
    names = sorted(body.id for body in bodies)
    mine = {body.id: row for body, row in zip(bodies, every, strict=True)}
    for n, body in enumerate(which):
        assert mine[names[body]][n] == pytest.approx(found[n], abs=1e-9)


@given(bays().filter(bool), st.integers(0, 10_000))
@settings(max_examples=100, deadline=None)
def test_the_least_of_a_hose_is_the_least_of_its_points(
    bodies: tuple[Obstacle, ...], seed: int
) -> None:
    scene = Scene.build(bodies)
    points = cloud(seed, 23)
    every, _ = scene.gaps(points, 0.01)
    least = scene.least(points, 0.01)

    assert least.gap == every.min()
    assert every[least.point] == least.gap
    assert scene.least_many([points, points[::-1]], 0.01)[0] == least


@given(bays().filter(bool), st.integers(0, 10_000))
@settings(max_examples=60, deadline=None)
def test_the_least_along_a_hose_is_found_between_its_points(
    bodies: tuple[Obstacle, ...], seed: int
) -> None:
    scene = Scene.build(bodies)
    points = cloud(seed, 4)
    fine = paths.sample(paths.Path(tuple(map(tuple, points)), (0.0, 0.0)), 5e-4)
    dense = scene.gaps(fine, 0.01)[0].min()
    found = scene.least_along(points, 0.01, within=1e-4)

    assert dense - 5e-4 <= found.gap <= dense + 1e-4
    there = np.array([found.at])
    assert scene.gaps(there, 0.01)[0][0] == pytest.approx(found.gap, abs=1e-12)
    a, b = points[found.piece], points[found.piece + 1]
    assert dense_check._to_segment(there, a, b)[0] == pytest.approx(0.0, abs=1e-9)
    assert scene.least_along_many([points], 0.01, within=1e-4) == [found]


@given(bays().filter(bool), st.integers(0, 10_000), st.floats(0.0, 0.1))
@settings(max_examples=60, deadline=None)
def test_what_is_asked_counts_clearance_and_movement_of_each_body(
    bodies: tuple[Obstacle, ...], seed: int, far: float
) -> None:
    points = cloud(seed, 20)
    scene = Scene.build(bodies).moved({"engine": far})
    engine = {"engine": far}
    rows = {
        body.id: dense_check.gaps(body, points, 0.01, engine.get(body.rides, 0.0)).min()
        for body in bodies
    }
    asks = {body.id: body.clearance for body in bodies}
    one = min(rows)

    assert scene.least(points, 0.01).gap == pytest.approx(min(rows.values()), abs=1e-9)
    spare = scene.least(points, 0.01, asked=True).gap
    assert spare == pytest.approx(min(rows[k] - asks[k] for k in rows), abs=1e-9)
    bare = scene.least(points, 0.01, asked=True, bare=[one]).gap
    expected = min(rows[k] - (0.0 if k == one else asks[k]) for k in rows)
    assert bare == pytest.approx(expected, abs=1e-9)
    left = scene.least(points, 0.01, leave=[one])
    rest = [rows[k] for k in rows if k != one]
    assert left.gap == pytest.approx(min(rest, default=inf), abs=1e-9)


@given(solids(0), st.tuples(sizes, sizes, sizes), st.integers(0, 10_000))
@settings(max_examples=100, deadline=None)
def test_travel_is_never_reckoned_too_small(
    solid: Solid, travel: tuple[float, float, float], seed: int
) -> None:
    points = cloud(seed, 40)
    body = replace(solid, grown=travel)
    found, _ = Scene.build([body]).gaps(points)
    swept = dense_check.gaps(body, points, 0.0)

    outside = swept > 0.0
    assert np.all(found[outside] <= swept[outside] + 1e-9)


def test_travel_of_a_body_that_is_not_turned_is_exact() -> None:
    body = replace(box("wheel", (0.0, 0.0, 0.0)), grown=(0.0, 0.0, 0.08))
    gap = Scene.build([body]).least(np.array([[0.0, 0.0, 0.3], [0.25, 0.0, 0.15]]), 0.0)

    assert gap == (pytest.approx(0.12), 0, "wheel")


@pytest.mark.parametrize("order", [*permutations(range(4))])
def test_of_bodies_equally_far_the_lower_id_is_told_wherever_it_lies(
    order: tuple[int, ...],
) -> None:
    places = [(0.0, -0.5, 0.0), (0.0, 0.5, 0.0), (-0.5, 0.0, 0.0), (0.5, 0.0, 0.0)]
    ring = [box(f"b{n}", places[place]) for n, place in enumerate(order)]
    # More of them, further off, so that the four lie in different branches.
    far = [box(f"far-{n:02}", (0.7 * (n % 5 - 2), 0.7 * (n // 5 - 2), 0.9)) for n in range(25)]
    points = np.zeros((1, 3))

    assert Scene.build([*far, *ring]).least(points, 0.05).body == "b0"
    assert Scene.build([*reversed(ring), *far]).gaps(points)[1] == [0]


def test_what_many_bodies_ask_is_looked_for_as_far_as_the_most_of_it() -> None:
    rng = np.random.default_rng(11)
    turn = rotation(0.3, 0.2, 0.1)
    bodies: list[Obstacle] = [
        Solid(
            f"b{n:03}",
            Shape.BOX,
            tuple(rng.uniform(-1.0, 1.0, 3)),
            turn,
            tuple(rng.uniform(0.02, 0.1, 3)),
            clearance=float(rng.choice([0.0, 0.01, 0.3])),
            rides=("chassis", "engine")[n % 2],
        )
        for n in range(120)
    ]
    points = rng.uniform(-1.5, 1.5, (500, 3))
    scene = Scene.build(bodies, moved={"engine": 0.2})
    moved = {"engine": 0.2}
    expected = np.min(
        [
            dense_check.gaps(body, points, 0.0, moved.get(body.rides, 0.0)) - body.clearance
            for body in bodies
        ],
        axis=0,
    )

    assert scene.gaps(points, asked=True)[0] == pytest.approx(expected, abs=1e-9)


def test_an_empty_scene_lets_everything_pass() -> None:
    scene = Scene.build([])

    assert scene.least(np.zeros((3, 3)), 0.01) == (inf, -1, "")
    assert scene.least_along(np.zeros((3, 3)), 0.01).gap == inf
    assert scene.least_many([np.zeros((3, 3))], 0.01) == [(inf, -1, "")]
    assert scene.near((-9.0, -9.0, -9.0), (9.0, 9.0, 9.0)) == ()


def test_no_points_have_no_tight_place() -> None:
    scene = Scene.build([box("tank", (0.0, 0.0, 0.0))])

    assert scene.least(np.zeros((0, 3)), 0.01) == (inf, -1, "")
    assert scene.least_along(np.zeros((0, 3)), 0.01).gap == inf
    assert scene.least_many([], 0.01) == []


def test_one_point_is_a_hose_of_no_length() -> None:
    scene = Scene.build([box("tank", (0.0, 0.0, 0.0))])
    found = scene.least_along(np.array([[0.3, 0.0, 0.0]]), 0.02)

    assert found == (pytest.approx(0.18), 0, "tank", (0.3, 0.0, 0.0))


def test_a_hose_passes_a_wall_only_through_its_hole() -> None:
    at = (1.0, 0.0, 0.5)
    wall = Wall("firewall", at, (1.0, 0.0, 0.0), 0.0015, holes=(Opening((1.0, 0.2, 0.6), 0.02),))
    scene = Scene.build([wall])
    hole = np.array([[0.8, 0.2, 0.6], [1.2, 0.2, 0.6]])
    beside = hole + np.array([0.0, 0.1, 0.0])

    assert scene.least_along(hole, 0.015).gap == pytest.approx(0.005)
    assert scene.least_along(beside, 0.015).gap < 0.0


def test_in_the_sheet_beside_a_hole_the_way_out_may_be_the_hole() -> None:
    plate = Wall(
        "plate", (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), 0.02, None, (Opening((0.0, 0.0, 0.0), 0.05),)
    )
    points = np.array([[0.0, 0.054, 0.0], [0.0, 0.0, 0.07], [0.007, 0.056, 0.0]])

    assert Scene.build([plate]).gaps(points)[0] == pytest.approx([-0.004, -0.01, -0.003])


def test_sizes_that_are_no_sizes_are_refused() -> None:
    with pytest.raises(ValueError) as nothing:
        Scene.build([Solid("tank", Shape.BOX, (0.0, 0.0, 0.0), UNTURNED)])
    with pytest.raises(ValueError) as less:
        Scene.build([Solid("tank", Shape.BOX, (0.0, 0.0, 0.0), UNTURNED, (0.1, -0.1, 0.1))])

    assert str(nothing.value) == "tank: a box without a size; give it one"
    assert str(less.value) == (
        "tank: at (0.0, 0.0, 0.0), half sizes (0.05, -0.05, 0.05): sizes and places must be "
        "numbers, and no size less than nothing"
    )


def test_a_thing_and_the_zone_that_it_is_may_have_one_name() -> None:
    tank, zone = box("tank", (0.0, 0.0, 0.0)), replace(box("tank", (0.0, 0.0, 0.0)), clearance=0.1)
    points = np.array([[0.3, 0.0, 0.0]])
    scene = Scene.build([tank, zone])

    assert scene.least(points, 0.0, asked=True) == (pytest.approx(0.1), 0, "tank")
    assert scene.least(points, 0.0, leave=["tank"]) == (inf, -1, "")


def test_a_hose_that_lies_in_one_point_is_a_ball() -> None:
    hose = Tube("O01", ((0.0, 0.0, 0.0), (0.0, 0.0, 5e-294)), 0.01)

    assert Scene.build([hose]).least(np.array([[0.0, 0.3, 0.4]]), 0.02).gap == pytest.approx(0.47)


def test_walls_of_the_document_bring_the_holes_that_a_line_may_take() -> None:
    thickness = Figure(0.0015, "m", Grade.STATED, "typed")
    holes = (
        Hole((1.0, 0.2, 0.6), 0.04),
        Hole((1.0, -0.2, 0.6), 0.03, "O01"),
        Hole((1.0, 0.0, 0.6)),
    )
    placed = Panel("firewall", thickness, at=(1.0, 0.0, 0.5), points=(1.0, 0.0, 0.0), holes=holes)
    car = replace(read(ROADSTER), panels={"firewall": placed, "floor": Panel("floor", thickness)})
    any_line, own = walls(car), walls(car, "O01")

    assert [hole.radius for hole in any_line[0].holes] == [0.02]
    assert [hole.radius for hole in own[0].holes] == [0.02, 0.015]
    assert len(own) == 1
    assert own[0].clearance == 0.01
    assert own[0].size is None


def test_a_body_of_no_size_is_a_point_and_still_in_the_way() -> None:
    point = Solid("bolt", Shape.BOX, (0.0, 0.0, 0.0), UNTURNED, (0.0, 0.0, 0.0))
    ball = Solid("ball", Shape.CAPSULE, (1.0, 0.0, 0.0), UNTURNED, (0.0, 0.0, 0.0))
    scene = Scene.build([point, ball])

    assert scene.least(np.array([[0.0, 0.3, 0.4]]), 0.1) == (pytest.approx(0.4), 0, "bolt")
    assert scene.least(np.array([[1.0, 0.0, 0.0]]), 0.1) == (-0.1, 0, "ball")


def test_what_lies_near_a_search_is_told_and_nothing_else() -> None:
    near = replace(box("near", (0.0, 0.0, 0.0)), clearance=0.05)
    far = box("far", (2.0, 0.0, 0.0))
    engine = replace(box("engine", (0.0, 1.0, 0.0)), rides="engine")
    scene = Scene.build([near, far, engine])
    low, high = (0.14, -0.1, -0.1), (0.3, 0.85, 0.1)

    assert [body.id for body in scene.near(low, high)] == ["near"]
    assert [body.id for body in scene.moved({"engine": 0.06}).near(low, high)] == [
        "engine",
        "near",
    ]
    boxes = np.array([low, (1.85, 0.0, 0.0)]), np.array([high, (1.95, 0.0, 0.0)])
    assert [body.id for body in scene.near(*boxes)] == ["far", "near"]


@given(bays(), st.integers(0, 10_000))
@settings(max_examples=60, deadline=None)
def test_a_body_that_is_not_near_has_its_clearance_kept(
    bodies: tuple[Obstacle, ...], seed: int
) -> None:
    scene = Scene.build(bodies)
    points = cloud(seed, 6) * 0.3
    near = {body.id for body in scene.near(points.min(axis=0) - 0.02, points.max(axis=0) + 0.02)}

    assert scene.least_along(points, 0.02, asked=True, leave=near).gap > -1e-12


def test_a_set_of_points_is_given_up_at_the_first_gap_that_is_too_small() -> None:
    scene = Scene.build([box("tank", (0.0, 0.0, 0.0), 0.4)])
    deep = np.linspace((-1.0, 0.0, 0.0), (1.0, 0.0, 0.0), 81)
    clear = deep + np.array([0.0, 0.5, 0.0])
    given_up, whole = scene.least_many([deep, clear], 0.01, enough=0.0)

    assert given_up.gap < 0.0
    assert whole == scene.least(clear, 0.01)


def test_a_thousand_bodies_answer_as_a_thousand_taken_one_by_one() -> None:
    rng = np.random.default_rng(7)
    bodies: list[Obstacle] = []
    for n in range(1000):
        x, y, z = rng.uniform(-3.0, 3.0, 3)
        a, b, c = rng.uniform(-3.0, 3.0, 3)
        shape = (Shape.BOX, *ROUND)[n % 3]
        wide, high = rng.uniform(0.01, 0.1, 2)
        size = (float(wide), float(wide), float(wide + high))
        bodies.append(Solid(f"b{n:04}", shape, (x, y, z), rotation(a, b, c), size))
    points = rng.uniform(-3.0, 3.0, (3000, 3))
    found, _ = Scene.build(bodies).gaps(points)

    every = np.min([dense_check.distance(body, points) for body in bodies], axis=0)
    assert found == pytest.approx(every, abs=1e-9)


def test_many_points_shared_among_cores_give_the_same_bits() -> None:
    rng = np.random.default_rng(3)
    bodies = [
        Solid(f"b{n:02}", Shape.BOX, tuple(rng.uniform(-1, 1, 3)), UNTURNED, (0.1, 0.2, 0.3))
        for n in range(30)
    ]
    scene = Scene.build(bodies)
    points = rng.uniform(-1.0, 1.0, (5000, 3))
    shared, which = scene.gaps(points)
    alone = [scene.gaps(points[n : n + 1]) for n in range(0, 5000, 7)]

    assert [gap[0] for gap, _ in alone] == shared[::7].tolist()
    assert [body[0] for _, body in alone] == which[::7].tolist()


def test_another_hose_is_kept_off_along_all_of_it() -> None:
    hose = Tube("O01", ((0.0, 0.0, 0.0), (0.5, 0.0, 0.0), (0.5, 0.5, 0.0)), 0.011)
    found = Scene.build([hose]).least_along(
        np.array([[0.25, -0.2, 0.05], [0.25, 0.2, 0.05]]), 0.009
    )

    assert found.gap == pytest.approx(0.03, abs=5e-4)
    assert found.body == "O01"
    assert found.at == pytest.approx((0.25, 0.0, 0.05), abs=0.02)


def test_a_corner_of_a_turned_box_is_where_it_is() -> None:
    turned = Solid("box", Shape.BOX, (0.0, 0.0, 0.0), rotation(pi / 4, 0.0, 0.0), (0.2, 0.2, 0.2))

    gap = Scene.build([turned]).least(np.array([[0.5, 0.0, 0.0]]), 0.0).gap
    assert gap == pytest.approx(0.5 - 0.1 * sqrt(2.0))
