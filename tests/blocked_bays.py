# SPDX-License-Identifier: Apache-2.0
"""Bays in which no hose runs home at once: each direct course is blocked, one by way is planted.

A hose by way of one or two poses is planted first. Then bodies are set, one after the other,
where they block most of the courses that still lead from port to port at once by any pair of
hose ends, but never nearer to the planted hose than it allows; till none is left.
"""

from math import pi

import numpy as np

from linewright.base.frames import rotation
from linewright.car.model import Shape
from linewright.routes.courses import rounded
from linewright.routes.pairs import COARSE, MARGIN, End, all_pairs
from linewright.routes.tasks import Side, Task
from linewright.space.bodies import Solid
from linewright.space.model import Frame
from linewright.space.obstacles import Scene
from linewright.space.path import sample
from tests import dense_check
from tests.bays import LIMITS, SHAPES, Bay, Reals, near_to, planted, thrown

#: Bodies of one bay.
COUNT = 30

#: Places that are tried for one body.
_TRIED = 40


def task_of(a: Frame, b: Frame, bodies: list[Solid] | tuple[Solid, ...]) -> Task:
    """A hose between two ports that may take any pair of hose ends."""
    ports = np.array([a.origin, b.origin])
    low, high = (tuple(float(v) for v in rim) for rim in (ports.min(axis=0), ports.max(axis=0)))
    box = (low[0], low[1], low[2]), (high[0], high[1], high[2])
    return Task("X01", Side(a, SHAPES), Side(b, SHAPES), LIMITS, Scene.build(bodies), box)


def direct(task: Task) -> list[Reals]:
    """Points of the best clear course of each pair of hose ends that leads home at once."""
    step = min(max(LIMITS.bend_radius / 12.0, 0.005), 0.010)
    lead = max(LIMITS.straight, LIMITS.outside / 2.0 + 1.1 * MARGIN)
    one, two = End(task, task.a, lead, step), End(task, task.b, lead, step)
    found = []
    for i, row in enumerate(all_pairs(task, one, two, step, COARSE**2)):
        for j, best in enumerate(row):
            if best.state == 2:
                path = rounded(one.row(i, best.turn_a), [], two.row(j, best.turn_b), LIMITS)
                assert path is not None
                found.append(sample(path, 0.01))
    return found


def blocked(seed: int) -> Bay:
    """A bay of thirty bodies in which only a hose that is led round them runs home."""
    random = np.random.default_rng([seed, 7])
    while True:
        a, b, paths, ends = planted(random)
        if len(paths) < 2:
            continue
        near = near_to(a, b, paths, ends)
        bodies: list[Solid] = []
        while True:
            still = direct(task_of(a, b, bodies))
            if not still:
                return Bay(a, b, tuple(thrown(random, near, COUNT, bodies)), tuple(paths))
            before = len(bodies)
            while still and len(bodies) < COUNT:
                body = _across(random, still, near, f"k{len(bodies):02}")
                if body is None:
                    break
                bodies.append(body)
                still = [points for points in still if not _hits(body, points)]
            if len(bodies) == before:
                break


def _hits(body: Solid, points: Reals) -> bool:
    """Whether a body stands in the way of a course."""
    return bool(dense_check.gaps(body, points, LIMITS.outside / 2.0).min() < LIMITS.clearance)


def _across(
    random: np.random.Generator, still: list[Reals], near: Reals, name: str
) -> Solid | None:
    """The body of some that blocks most of those courses; None if none of them blocks any."""
    every = np.concatenate(still)
    best, most = None, 0
    for _ in range(_TRIED):
        x, y, z = every[int(random.integers(len(every)))] + random.normal(scale=0.03, size=3)
        shape = (Shape.BOX, Shape.BOX, Shape.CYLINDER, Shape.CAPSULE)[int(random.integers(4))]
        wide, deep, high = (float(v) for v in random.uniform(0.05, 0.35, 3))
        size = (wide, wide, high + (wide if shape is Shape.CAPSULE else 0.0))
        if shape is Shape.BOX:
            size = (0.04, 2.0 * deep, 2.0 * high) if random.uniform() < 0.5 else (wide, deep, high)
        turn = rotation(*(float(t) for t in random.uniform(-pi, pi, 3)))
        at = (float(x), float(y), float(z))
        body = Solid(name, shape, at, turn, size, clearance=LIMITS.clearance)
        if dense_check.gaps(body, near, LIMITS.outside / 2.0).min() <= LIMITS.clearance + 0.004:
            continue
        hit = sum(_hits(body, points) for points in still)
        if hit > most:
            best, most = body, hit
    return best
