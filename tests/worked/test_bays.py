# SPDX-License-Identifier: Apache-2.0
"""Bays of 30 bodies, each round a hose that is known to lie there: generated, seeded.

Every reported course goes through `tests.dense_check`, which shares no code with the router.
"""

import pytest

from linewright.routes.search import Outcome, Side, Task, lay_line
from linewright.space.obstacles import Scene
from tests import dense_check
from tests.bays import LIMITS, SHAPES, Bay, bay

#: All 200 are the proof; these are its first.
FEW, ALL = 30, 200


def lay(each: Bay) -> Outcome:
    ports = (each.a.origin, each.b.origin)
    low = (min(p[0] for p in ports), min(p[1] for p in ports), min(p[2] for p in ports))
    high = (max(p[0] for p in ports), max(p[1] for p in ports), max(p[2] for p in ports))
    sides = Side(each.a, SHAPES), Side(each.b, SHAPES)
    return lay_line(Task("X01", *sides, LIMITS, Scene.build(each.bodies), (low, high)))


@pytest.mark.parametrize("count", [FEW, pytest.param(ALL, marks=pytest.mark.prove)])
def test_bays_with_a_planted_hose_are_solved_and_every_course_stands_a_dense_check(
    count: int,
) -> None:
    solved = 0
    for seed in range(count):
        each = bay(seed)
        route = lay(each).route
        if route is None:
            continue
        solved += 1
        faults = dense_check.check(
            route.path.corners,
            route.path.radii,
            LIMITS.outside / 2.0,
            each.bodies,
            bend_radius=LIMITS.bend_radius,
        )
        assert faults == [], seed

    assert solved >= 0.98 * count


def test_the_planted_hose_itself_stands_the_dense_check() -> None:
    for seed in range(10):
        each = bay(seed)
        for path in each.planted:
            assert not dense_check.check(
                path.corners, path.radii, LIMITS.outside / 2.0, each.bodies
            ), seed
