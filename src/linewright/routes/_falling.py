# SPDX-License-Identifier: Apache-2.0
"""Pairs of hose ends searched again under a rule of gravity: the compiled part."""

from math import inf, isfinite
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from linewright.base.kernels import njit, prange
from linewright.routes._asked import Bay, Hose, Settings
from linewright.routes._courses import MOST, WIDE, between, clear, cost, course, set_row
from linewright.routes._gravity import HIGH, toll
from linewright.routes._pairs import COARSE, FINEST, stands
from linewright.space._curves import Joined
from linewright.space.nearest import Bodies, Flags, Tree

if TYPE_CHECKING:
    from numpy.typing import NDArray

Floats: TypeAlias = "NDArray[np.float64]"


@njit
def _downhill(
    bay: Bay,
    hose: Hose,
    rule: Floats,
    a: Settings,
    i: int,
    b: Settings,
    j: int,
    begin: Floats,
    points: Floats,
) -> None:
    """Turn both elbows downhill from ``begin`` (turn A, turn B, cost) while the course is clear."""
    one, two, h = np.empty(WIDE), np.empty(WIDE), np.empty(HIGH)
    sa, sb = a.shapes[i], b.shapes[j]
    size = COARSE
    while size > FINEST:
        moved = False
        for k in range(8):
            da = size * (1 if k in (0, 4, 5) else -1 if k in (1, 6, 7) else 0)
            db = size * (1 if k in (2, 4, 6) else -1 if k in (3, 5, 7) else 0)
            if (da != 0.0 and sa[0] == 0.0) or (db != 0.0 and sb[0] == 0.0):
                continue
            set_row(a.frame, sa, a.straight, begin[0] + da, one)
            set_row(b.frame, sb, b.straight, begin[1] + db, two)
            value, found = cost(one, two, hose.radius, hose.box, hose.weights, False)
            if not isfinite(value):
                continue
            value += toll(rule, sa[3], sb[3], one, two, found, hose.radius, h)
            if value >= begin[2] - 1e-6:
                continue
            if bay.tree.order.shape[0]:
                if not stands(bay, hose, a.live, one) or not stands(bay, hose, b.live, two):
                    continue
                if _is_blocked(bay, hose, one, two, found, points):
                    continue
            begin[0], begin[1], begin[2] = begin[0] + da, begin[1] + db, value
            moved = True
            break
        if not moved:
            size *= 0.5


@njit
def _is_blocked(
    bay: Bay, hose: Hose, one: Floats, two: Floats, found: Joined, points: Floats
) -> bool:
    n = course(one, two, found, hose.radius, hose.step, points)
    who = clear(bay.bodies, bay.tree, bay.off, bay.slack, bay.live, points, n, hose.keep)
    return bool(who >= 0)


@njit
def _one_pair(
    bay: Bay,
    hose: Hose,
    rule: Floats,
    a: Settings,
    i: int,
    b: Settings,
    j: int,
    answer: Floats,
    tried: int,
) -> None:
    """Best clear course of hose ends i and j under a rule, where it beats ``answer``."""
    a0, b0 = a.first[i], b.first[j]
    m, n = a.first[i + 1] - a0, b.first[j + 1] - b0
    stick_a, stick_b = a.shapes[i, 3], b.shapes[j, 3]
    values = np.full(m * n, inf)
    points, h = np.empty((MOST, 3)), np.empty(HIGH)
    for p in range(m):
        for q in range(n):
            if not a.ok[a0 + p] or not b.ok[b0 + q]:
                continue
            one, two = a.rows[a0 + p], b.rows[b0 + q]
            value, found = cost(one, two, hose.radius, hose.box, hose.weights, False)
            if isfinite(value):
                charge = toll(rule, stick_a, stick_b, one, two, found, hose.radius, h)
                values[p * n + q] = value + charge
    begin = np.empty(3)
    for _ in range(tried):
        k = int(np.argmin(values))
        if values[k] >= answer[2] - 1e-6:
            return
        one, two = a.rows[a0 + k // n], b.rows[b0 + k % n]
        begin[0], begin[1], begin[2] = a.turns[a0 + k // n], b.turns[b0 + k % n], values[k]
        values[k] = inf
        found = between(one, two, hose.radius)
        if _is_blocked(bay, hose, one, two, found, points):
            continue
        _downhill(bay, hose, rule, a, i, b, j, begin, points)
        answer[0], answer[1], answer[2], answer[3] = begin[0], begin[1], begin[2], 2.0
        return


@njit(parallel=True)
def falling(
    bodies: Bodies,
    tree: Tree,
    off: Floats,
    slack: Floats,
    live: Flags,
    hose: Hose,
    rule: Floats,
    a: Settings,
    b: Settings,
    answers: Floats,
    may: Flags,
    tried: int,
) -> None:
    """Pairs whose best course breaks a rule, searched again under it, on all cores.

    ``answers`` hold turn A, turn B, cost and state of each pair; the costs of those that break
    the rule grow by what that costs, unless a course is found that costs less. Only pairs that
    ``may`` be taken are searched.
    """
    n = b.first.shape[0] - 1
    for p in prange((a.first.shape[0] - 1) * n):
        if answers[p, 3] != 2.0:
            continue
        i, j = p // n, p % n
        one, two, h = np.empty(WIDE), np.empty(WIDE), np.empty(HIGH)
        set_row(a.frame, a.shapes[i], a.straight, answers[p, 0], one)
        set_row(b.frame, b.shapes[j], b.straight, answers[p, 1], two)
        found = between(one, two, hose.radius)
        stick_a, stick_b = a.shapes[i, 3], b.shapes[j, 3]
        charge = toll(rule, stick_a, stick_b, one, two, found, hose.radius, h)
        if charge == 0.0:
            continue
        answers[p, 2] += charge
        if not may[p]:
            continue
        bay = Bay(bodies, tree, off, slack, live)
        _one_pair(bay, hose, rule, a, i, b, j, answers[p], tried)
