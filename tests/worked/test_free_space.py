# SPDX-License-Identifier: Apache-2.0
"""Every pair of hose ends in free space against all 5° settings of both elbows.

Radii and diameters are those of MIL-H-8794 for four sizes, as in the tables. The curve that
both use is held against a general optimiser here, and against Dubins' closed forms in
`tests/unit/space/test_free.py`.
"""

from collections.abc import Iterable
from math import dist, pi

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import least_squares

from linewright.base.vectors import Vector, ahead, dot, unit
from linewright.routes.search import Side, Task, Weights, lay_line
from linewright.routes.shapes import end_shapes
from linewright.space import _curves
from linewright.space.model import Frame, Limits
from linewright.space.obstacles import Scene
from tests.free_reference import exhaustive

Floats = NDArray[np.float64]

# Outside diameter and radius of the centreline. [m]
SIZES = {
    "-6": (0.0145, 0.0762),
    "-8": (0.0196, 0.141),
    "-10": (0.0234, 0.168),
    "-16": (0.031, 0.19),
}
LENGTH = Weights(0.0, 0.0, 0.0, 0.0)


def random_unit(random: np.random.Generator) -> Vector:
    x, y, z = (float(v) for v in random.normal(size=3))
    return unit((x, y, z))


def random_task(seed: int, weights: Weights) -> Task:
    """Two ports 0.15 to 1.5 m apart that point anywhere."""
    random = np.random.default_rng(seed)
    dash = list(SIZES)[random.integers(4)]
    outside, radius = SIZES[dash]
    shapes = end_shapes("rubber", dash)
    far = float(random.uniform(0.15, 1.5))
    there = ahead((0.0, 0.0, 0.0), random_unit(random), far)
    frames = []
    for at in ((0.0, 0.0, 0.0), there):
        out, side = random_unit(random), random_unit(random)
        frames.append(Frame(at, out, unit(ahead(side, out, -dot(side, out)))))
    low = (min(0.0, there[0]), min(0.0, there[1]), min(0.0, there[2]))
    high = (max(0.0, there[0]), max(0.0, there[1]), max(0.0, there[2]))
    a, b = (Side(frame, shapes) for frame in frames)
    limits = Limits(outside, radius, 2.0 * outside)
    return Task("O01", a, b, limits, Scene.build(()), (low, high), weights=weights)


def compared(seed: int, weights: Weights) -> tuple[Floats, float]:
    """Cost of each pair over the exhaustive one, less 1; the same of the pair that is chosen."""
    task = random_task(seed, weights)
    best = exhaustive(task)
    outcome = lay_line(task)
    cost = np.full(64, np.inf)
    cost[:] = [row.cost if row.works and row.cost else np.inf for row in outcome.band]
    known = np.isfinite(best.ravel())
    assert outcome.route is not None
    pair = (outcome.route.a.shape.angle, outcome.route.b.shape.angle)
    (chosen,) = (r.cost for r in outcome.band if (r.angle_a, r.angle_b) == pair)
    assert chosen is not None
    return cost[known] / best.ravel()[known] - 1.0, chosen / float(best.min()) - 1.0


def summed_up(seeds: Iterable[int], weights: Weights) -> tuple[float, Floats]:
    """Share of end pairs that cost over 1 % more, and by how much each choice does."""
    found = [compared(seed, weights) for seed in seeds]
    over = np.concatenate([pairs for pairs, _ in found])
    chosen = np.array([choice for _, choice in found])
    print(
        f"{len(over)} end pairs: {np.mean(over > 0.01):.2%} over 1 %, of {len(chosen)} choices "
        f"{np.mean(chosen > 0.01):.2%}, the worst {chosen.max():.2%}"
    )
    return float(np.mean(over > 0.01)), chosen


def are_far(seed: int) -> bool:
    """Whether the ports stand five radii apart or more, where every search settles."""
    task = random_task(seed, LENGTH)
    return dist(task.a.frame.origin, task.b.frame.origin) > 5.0 * task.limits.bend_radius


FAR = [seed for seed in range(500) if are_far(seed)]
NEAR = [seed for seed in range(500) if not are_far(seed)]
BY = pytest.mark.parametrize("weights", [Weights(), LENGTH], ids=["cost", "length"])


@BY
def test_far_ports_have_every_end_pair_within_one_percent_of_all_settings(
    weights: Weights,
) -> None:
    over, chosen = summed_up(FAR[:2], weights)

    assert over == 0.0
    assert chosen.max() <= 0.01


@BY
def test_near_ports_have_nearly_every_end_pair_within_one_percent(weights: Weights) -> None:
    # Where ports stand close, a course without a loop may exist in a few degrees only.
    over, chosen = summed_up(NEAR[:2], weights)

    assert over <= 0.03
    assert chosen.max() <= 0.01


@pytest.mark.prove
@BY
def test_all_far_ports_of_500_pairs_against_all_settings(weights: Weights) -> None:
    # Wanted is none; one pair in 700 is reached today (0.14 % by cost, none by length).
    over, chosen = summed_up(FAR if weights is not LENGTH else FAR[:100], weights)

    assert over <= 0.002
    assert np.mean(chosen > 0.01) <= 0.002


@pytest.mark.prove
@BY
def test_all_near_ports_of_500_pairs_against_all_settings(weights: Weights) -> None:
    # Wanted is what far ports have; these bounds are near what the search reaches today.
    over, chosen = summed_up(NEAR if weights is not LENGTH else NEAR[:60], weights)

    assert over <= 0.015
    assert np.mean(chosen > 0.01) <= 0.02


def misses(x: Floats, far: Floats, a: Floats, e: Floats) -> Floats:
    """How far a bend, a straight and a bend end from where they should: place and direction."""
    u, swing, straight, v, swing2 = x

    def square(way: Floats) -> tuple[Floats, Floats]:
        other = np.cross(way, [0.0, 0.0, 1.0] if abs(way[2]) < 0.9 else [1.0, 0.0, 0.0])
        other = other / np.linalg.norm(other)
        return other, np.cross(way, other)

    def bent(at: Floats, way: Floats, turn: float, on: float) -> tuple[Floats, Floats]:
        p, q = square(way)
        inward = np.cos(on) * p + np.sin(on) * q
        there = at + np.sin(turn) * way + (1.0 - np.cos(turn)) * inward
        return there, np.cos(turn) * way + np.sin(turn) * inward

    at, way = bent(np.zeros(3), a, u, swing)
    # The second bend is gone through from its end backwards.
    end, back = bent(far, -e, v, swing2)
    gap: Floats = np.concatenate([at + straight * way - end, way + back])
    return gap


@pytest.mark.parametrize("seed", range(12))
def test_no_shorter_curve_is_found_by_a_general_optimiser(seed: int) -> None:
    random = np.random.default_rng(seed)
    a, e = np.array(random_unit(random)), np.array(random_unit(random))
    far = random.uniform(1.0, 7.0) * np.array(random_unit(random))
    ours = _curves.joined(*far, *a, *e, _curves.PLACES)[0]
    found = []
    for _ in range(60):
        begin = random.uniform([0, -pi, 0, 0, -pi], [2 * pi, pi, 8, 2 * pi, pi])
        bounds = ([0, -10, 0, 0, -10], [2 * pi, 10, 30, 2 * pi, 10])
        solved = least_squares(misses, begin, bounds=bounds, args=(far, a, e), max_nfev=60)
        if solved.cost < 1e-16:
            found.append(solved.x[0] + solved.x[2] + solved.x[3])

    assert found
    assert ours == pytest.approx(min(found), rel=1e-6)
