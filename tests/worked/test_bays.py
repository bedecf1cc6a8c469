# SPDX-License-Identifier: Apache-2.0
"""Bays of 30 bodies, each round a hose that is known to lie there: generated, seeded.

Every reported course goes through `tests.dense_check`, which shares no code with the router.
"""

from itertools import product
from math import pi

import numpy as np
import pytest

from linewright.base.vectors import Vector, ahead
from linewright.routes.search import Outcome, Side, Task, lay_line
from linewright.space.free import collar, shortest
from linewright.space.obstacles import Scene
from linewright.space.path import Arc, elements, sample
from tests import dense_check
from tests.bays import LIMITS, SHAPES, Bay, bay, walled
from tests.blocked_bays import blocked, direct, task_of

#: All 200 are the proof; these are its first.
FEW, ALL = 40, 200
FEW_WALLED, ALL_WALLED = 20, 200
FEW_BLOCKED, ALL_BLOCKED = 6, 200


def lay(each: Bay) -> Outcome:
    ports = (each.a.origin, each.b.origin)
    low = (min(p[0] for p in ports), min(p[1] for p in ports), min(p[2] for p in ports))
    high = (max(p[0] for p in ports), max(p[1] for p in ports), max(p[2] for p in ports))
    sides = Side(each.a, SHAPES), Side(each.b, SHAPES)
    return lay_line(Task("X01", *sides, LIMITS, Scene.build(each.bodies), (low, high)))


def faults_of(each: Bay, outcome: Outcome) -> list[dense_check.Fault]:
    assert outcome.route is not None
    path = outcome.route.path
    return dense_check.check(
        path.corners,
        path.radii,
        LIMITS.outside / 2.0,
        each.bodies,
        bend_radius=LIMITS.bend_radius,
        straight=LIMITS.straight,
    )


@pytest.mark.parametrize("count", [FEW, pytest.param(ALL, marks=pytest.mark.prove)])
def test_bays_with_a_planted_hose_are_solved_and_every_course_stands_a_dense_check(
    count: int,
) -> None:
    solved = 0
    for seed in range(count):
        each = bay(seed)
        outcome = lay(each)
        if outcome.route is None:
            continue
        solved += 1
        assert faults_of(each, outcome) == [], seed

    assert solved >= 0.98 * count


@pytest.mark.parametrize(
    ("count", "share"),
    [(FEW_WALLED, 0.98), pytest.param(ALL_WALLED, 0.98, marks=pytest.mark.prove)],
)
def test_bays_with_slabs_across_the_way_are_solved_too(count: int, share: float) -> None:
    solved = 0
    for seed in range(count):
        each = walled(seed)
        outcome = lay(each)
        if outcome.route is None:
            continue
        solved += 1
        assert faults_of(each, outcome) == [], seed

    assert solved >= share * count


@pytest.mark.parametrize("count", [FEW_BLOCKED, pytest.param(ALL_BLOCKED, marks=pytest.mark.prove)])
def test_bays_in_which_every_direct_course_is_blocked_are_solved_by_way_of_poses(
    count: int,
) -> None:
    solved = 0
    for seed in range(count):
        each = blocked(seed)
        outcome = lay_line(task_of(each.a, each.b, each.bodies))
        if outcome.route is None:
            continue
        solved += 1
        assert outcome.poses
        assert faults_of(each, outcome) == [], seed

    assert solved >= 0.98 * count


def test_no_direct_course_of_a_blocked_bay_is_clear_by_the_dense_check_either() -> None:
    each = blocked(0)
    clear = []
    for one, two in product(SHAPES, repeat=2):
        turns = [[k * pi / 3.0 for k in range(6 if s.angle else 1)] for s in (one, two)]
        for turn_a, turn_b in product(*turns):
            a, b = collar(each.a, one, turn_a), collar(each.b, two, turn_b)
            ways: list[Vector] = [(-s.n[0], -s.n[1], -s.n[2]) for s in (a, b)]
            back: Vector = (b.n[0], b.n[1], b.n[2])
            path = shortest(
                ahead(a.collar, ways[0], LIMITS.straight),
                ways[0],
                ahead(b.collar, ways[1], LIMITS.straight),
                back,
                LIMITS.bend_radius,
                0.0,
            )
            bends = [] if path is None else [e for e in elements(path) if isinstance(e, Arc)]
            if path is None or sum(e.angle for e in bends) > 2.4 * pi:
                continue
            points = np.array([a.collar, *sample(path, 0.02), b.collar])
            gaps = [dense_check.gaps(s, points, LIMITS.outside / 2.0).min() for s in each.bodies]
            if min(gaps) > LIMITS.clearance:
                clear.append((one.angle, two.angle, turn_a, turn_b))

    assert clear == []


def test_a_blocked_bay_without_what_blocks_it_lets_direct_courses_through() -> None:
    each = blocked(0)
    rest = tuple(s for s in each.bodies if not s.id.startswith("k"))

    assert direct(task_of(each.a, each.b, each.bodies)) == []
    assert direct(task_of(each.a, each.b, rest)) != []


def test_the_planted_hose_itself_stands_the_dense_check() -> None:
    for seed in range(10):
        each = bay(seed)
        for path in each.planted:
            assert not dense_check.check(
                path.corners, path.radii, LIMITS.outside / 2.0, each.bodies
            ), seed
    for path in blocked(0).planted:
        assert not dense_check.check(
            path.corners,
            path.radii,
            LIMITS.outside / 2.0,
            blocked(0).bodies,
            bend_radius=LIMITS.bend_radius,
        )
