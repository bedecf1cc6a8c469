# SPDX-License-Identifier: Apache-2.0
"""Courses of tube between random ends: bendable, and clear of bodies by a check of its own."""

import random
from math import hypot, radians

import pytest

from linewright.base.vectors import Vector, between, square, unit
from linewright.car.model import Body, Car, Place
from linewright.routes.tasks import Side, Task
from linewright.routes.tube_course import lay_tube
from linewright.routes.tube_graph import Bending
from linewright.space.bodies import Solid, bodies
from linewright.space.model import EndShape, Frame, Limits
from linewright.space.obstacles import Scene
from linewright.space.path import Path, Straight, bends, directions, elements, sample

STRAIGHT = (EndShape(0, 0.0, 0.0),)
KEEP = Bending(0.0238, 0.038, 0.038, 0.026, 6, price=0.4)
TUBE = Limits(0.0095, 0.0238, 0.038)


def _way(draw: random.Random) -> Vector:
    return unit((draw.uniform(-1, 1), draw.uniform(-1, 1), draw.uniform(0.1, 1)))


def _task(draw: random.Random, blocks: tuple[Solid, ...] = ()) -> Task:
    a, b = (
        (0.0, 0.0, 0.0),
        (draw.uniform(0.4, 0.8), draw.uniform(-0.5, 0.5), draw.uniform(-0.3, 0.3)),
    )
    one, two = _way(draw), _way(draw)
    low = (min(a[0], b[0]), min(a[1], b[1]), min(a[2], b[2]))
    high = (max(a[0], b[0]), max(a[1], b[1]), max(a[2], b[2]))
    return Task(
        "F01",
        Side(Frame(a, one, square(one)), STRAIGHT),
        Side(Frame(b, two, square(two)), STRAIGHT),
        TUBE,
        Scene.build(blocks),
        (low, high),
    )


def _runs(path: Path) -> list[float]:
    runs = [0.0]
    for piece in elements(path):
        if isinstance(piece, Straight):
            runs[-1] += piece.length
        else:
            runs.append(0.0)
    return runs


@pytest.mark.parametrize("seed", range(10))
def test_between_any_two_ends_in_free_space_there_is_a_tube_that_can_be_bent(seed: int) -> None:
    task = _task(random.Random(seed))
    route = lay_tube(task, KEEP).route

    assert route is not None
    first, last = directions(route.path)
    assert between(first, task.a.frame.out) < 1e-6
    assert between((-last[0], -last[1], -last[2]), task.b.frame.out) < 1e-6
    assert route.path.corners[0] == pytest.approx(task.a.frame.origin)
    assert route.path.corners[-1] == pytest.approx(task.b.frame.origin)
    assert all(radians(9.99) < bend.angle < radians(135.1) for bend in bends(route.path))
    runs = _runs(route.path)
    assert min(runs[0], runs[-1]) >= KEEP.end - 1e-6
    assert min(runs[1:-1], default=1.0) >= KEEP.between - 1e-6


@pytest.mark.parametrize("seed", range(6))
def test_a_tube_keeps_its_gap_to_a_block_between_its_ends(seed: int) -> None:
    block = Body("block", Place((0.3, 0.0, 0.0)), size=(0.1, 0.2, 0.2))
    solids = bodies(Car("x", bodies={"block": block}))
    route = lay_tube(_task(random.Random(100 + seed), solids), KEEP).route

    assert route is not None
    # Distance of a point from a box, reckoned here by itself.
    gaps = [
        hypot(max(abs(x - 0.3) - 0.05, 0.0), max(abs(y) - 0.1, 0.0), max(abs(z) - 0.1, 0.0))
        for x, y, z in sample(route.path, 0.001)
    ]
    assert min(gaps) >= 0.010 + 0.0095 / 2.0 - 1e-6
