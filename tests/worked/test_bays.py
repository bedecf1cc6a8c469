# SPDX-License-Identifier: Apache-2.0
"""Bays of 30 bodies, each round a hose that is known to lie there: generated, seeded.

Every reported course goes through `tests.dense_check`, which shares no code with the router.
"""

import pytest

from linewright.routes.search import Outcome, Side, Task, lay_line
from linewright.space.obstacles import Scene
from tests import dense_check
from tests.bays import LIMITS, SHAPES, Bay, bay, walled

#: All 200 are the proof; these are its first.
FEW, ALL = 40, 200
FEW_WALLED, ALL_WALLED = 20, 200


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
    ("count", "share"), [(FEW_WALLED, 0.9), pytest.param(ALL_WALLED, 0.9, marks=pytest.mark.prove)]
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


def test_the_planted_hose_itself_stands_the_dense_check() -> None:
    for seed in range(10):
        each = bay(seed)
        for path in each.planted:
            assert not dense_check.check(
                path.corners, path.radii, LIMITS.outside / 2.0, each.bodies
            ), seed
