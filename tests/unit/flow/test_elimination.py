# SPDX-License-Identifier: Apache-2.0
"""The order of elimination, and the numbers that come out of it."""

import random
from fractions import Fraction

import numpy as np
import pytest

from linewright.flow.elimination import Elimination, eliminate, eliminate_symmetric, order


def filled(
    plan: Elimination, links: list[tuple[int, int, float, float]]
) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """Entries as the kernels take them, and the dense matrix in the order of the turns."""
    n = plan.size
    lower, upper, sums = np.zeros(plan.rows.size + 1), np.zeros(plan.rows.size + 1), np.zeros(n)
    dense = np.zeros((n, n))
    for a, b, near, far in links:
        i, j = int(plan.place[a]), int(plan.place[b])
        if i < n:
            dense[i, i] += near
        if j < n:
            dense[j, j] += far
        if i < n and j < n:
            dense[i, j] -= far
            dense[j, i] -= near
            entry = plan.entry(i, j)
            lower[entry] += near if i < j else far
            upper[entry] += far if i < j else near
        elif i < n:
            sums[i] += near
        elif j < n:
            sums[j] += far
    return lower, upper, sums, dense


def random_links(
    draw: random.Random, both: bool
) -> tuple[int, list[tuple[int, int, float, float]]]:
    count = draw.randrange(3, 30)
    pairs = [(draw.randrange(i), i) for i in range(1, count)]
    pairs += [tuple(draw.sample(range(count), 2)) for _ in range(count)]  # type: ignore[misc]
    links = []
    for a, b in pairs:
        near = 10 ** draw.uniform(-3, 1)
        links.append((a, b, near, near if both else near * draw.choice([1.0, 0.1, 10.0])))
    return count, links


@pytest.mark.parametrize("seed", range(40))
def test_both_kernels_solve_what_a_dense_solver_solves(seed: int) -> None:
    draw = random.Random(seed)
    both = seed % 2 == 0
    count, links = random_links(draw, both)
    plan = order(count, range(1, count), [(a, b) for a, b, _, _ in links])
    lower, upper, sums, dense = filled(plan, links)
    right = np.array([draw.uniform(-1, 1) for _ in range(plan.size)])
    x, inverse = right.copy(), np.zeros(plan.size)
    if both:
        eliminate_symmetric(plan.starts, plan.rows, plan.targets, lower, sums, inverse, x)
    else:
        eliminate(plan.starts, plan.rows, plan.targets, lower, upper, sums, inverse, x)

    np.testing.assert_allclose(x, np.linalg.solve(dense, right), rtol=1e-9, atol=1e-12)


def test_a_shut_valve_beside_a_wide_pipe_costs_no_digits() -> None:
    # Two nodes joined by a wide pipe hang on the rest by leaks alone: 1 to 1e-15.
    links = [(0, 1, 1e-15, 1e-15), (1, 2, 1.0, 1.0), (2, 0, 3e-15, 3e-15)]
    plan = order(3, [1, 2], [(a, b) for a, b, _, _ in links])
    lower, _, sums, _ = filled(plan, links)
    x, inverse = np.array([1e-15, 1e-15]), np.zeros(2)
    eliminate_symmetric(plan.starts, plan.rows, plan.targets, lower, sums, inverse, x)
    first, second = Fraction(1e-15) + 1, Fraction(3e-15) + 1
    exact = Fraction(1e-15) * (second + 1) / (first * second - 1)

    assert x[plan.place[1]] == pytest.approx(float(exact), rel=1e-15)


def test_a_tree_fills_nothing_in() -> None:
    plan = order(8, range(1, 8), [((i - 1) // 2, i) for i in range(1, 8)])

    assert plan.rows.size == 5  # seven links less the two of the fixed root
    assert plan.targets.size == 0


def test_the_order_is_always_the_same() -> None:
    _, links = random_links(random.Random(3), True)
    pairs = [(a, b) for a, b, _, _ in links]
    one, other = order(30, range(1, 30), pairs), order(30, range(1, 30), list(pairs))

    assert one.place.tolist() == other.place.tolist()
    assert one.targets.tolist() == other.targets.tolist()
