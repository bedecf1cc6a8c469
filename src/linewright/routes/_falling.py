# SPDX-License-Identifier: Apache-2.0
"""Pairs of hose ends searched again under a rule of gravity: the compiled part."""

from math import inf, isfinite
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from linewright.base.kernels import njit, prange
from linewright.routes._courses import (
    MOST,
    WIDE,
    between,
    clear,
    cost,
    course,
    end_clear,
    set_row,
)
from linewright.routes._gravity import HIGH, toll
from linewright.space.nearest import Bodies, Flags, Tree

if TYPE_CHECKING:
    from numpy.typing import NDArray

Floats: TypeAlias = "NDArray[np.float64]"
Whole: TypeAlias = "NDArray[np.int64]"


@njit
def _downhill(
    b: Bodies,
    tree: Tree,
    off: Floats,
    slack: Floats,
    live: Flags,
    live_a: Flags,
    live_b: Flags,
    rule: Floats,
    fa: Floats,
    fb: Floats,
    sa: Floats,
    sb: Floats,
    leads: Floats,
    begin: Floats,
    radius: float,
    keep: float,
    step: float,
    box: Floats,
    w: Floats,
    points: Floats,
) -> None:
    """Turn both elbows downhill from ``begin`` (turn A, turn B, cost) while the course is clear."""
    one, two, h = np.empty(WIDE), np.empty(WIDE), np.empty(HIGH)
    size = leads[2]
    while size > leads[3]:
        moved = False
        for k in range(8):
            da = size * (1 if k in (0, 4, 5) else -1 if k in (1, 6, 7) else 0)
            db = size * (1 if k in (2, 4, 6) else -1 if k in (3, 5, 7) else 0)
            if (da != 0.0 and sa[0] == 0.0) or (db != 0.0 and sb[0] == 0.0):
                continue
            set_row(fa, sa, leads[0], begin[0] + da, one)
            set_row(fb, sb, leads[1], begin[1] + db, two)
            value, found = cost(one, two, radius, box, w, False)
            if not isfinite(value):
                continue
            value += toll(rule, sa[3], sb[3], one, two, found, radius, h)
            if value >= begin[2] - 1e-6:
                continue
            if tree.order.shape[0]:
                if end_clear(b, tree, off, slack, live_a, one, step, keep) >= 0:
                    continue
                if end_clear(b, tree, off, slack, live_b, two, step, keep) >= 0:
                    continue
                n = course(one, two, found, radius, step, points)
                if clear(b, tree, off, slack, live, points, n, keep) >= 0:
                    continue
            begin[0], begin[1], begin[2] = begin[0] + da, begin[1] + db, value
            moved = True
            break
        if not moved:
            size *= 0.5


@njit
def _one_pair(
    b: Bodies,
    tree: Tree,
    off: Floats,
    slack: Floats,
    live: Flags,
    live_a: Flags,
    live_b: Flags,
    rule: Floats,
    fa: Floats,
    fb: Floats,
    sa: Floats,
    sb: Floats,
    leads: Floats,
    ones: Floats,
    turns_a: Floats,
    ok_a: Flags,
    twos: Floats,
    turns_b: Floats,
    ok_b: Flags,
    radius: float,
    keep: float,
    step: float,
    box: Floats,
    w: Floats,
    answer: Floats,
    tried: int,
) -> None:
    """Best clear course of one pair of hose ends under a rule, where it beats ``answer``."""
    m, n = ones.shape[0], twos.shape[0]
    values = np.full(m * n, inf)
    points, h = np.empty((MOST, 3)), np.empty(HIGH)
    for i in range(m):
        for j in range(n):
            if not ok_a[i] or not ok_b[j]:
                continue
            value, found = cost(ones[i], twos[j], radius, box, w, False)
            if isfinite(value):
                values[i * n + j] = value + toll(
                    rule, sa[3], sb[3], ones[i], twos[j], found, radius, h
                )
    begin = np.empty(3)
    for _ in range(tried):
        k = int(np.argmin(values))
        if values[k] >= answer[2] - 1e-6:
            return
        i, j = k // n, k % n
        begin[0], begin[1], begin[2] = turns_a[i], turns_b[j], values[k]
        values[k] = inf
        found = between(ones[i], twos[j], radius)
        c = course(ones[i], twos[j], found, radius, step, points)
        if clear(b, tree, off, slack, live, points, c, keep) >= 0:
            continue
        _downhill(
            b,
            tree,
            off,
            slack,
            live,
            live_a,
            live_b,
            rule,
            fa,
            fb,
            sa,
            sb,
            leads,
            begin,
            radius,
            keep,
            step,
            box,
            w,
            points,
        )
        answer[0], answer[1], answer[2], answer[3] = begin[0], begin[1], begin[2], 2.0
        return


@njit(parallel=True)
def falling(
    b: Bodies,
    tree: Tree,
    off: Floats,
    slack: Floats,
    live: Flags,
    live_a: Flags,
    live_b: Flags,
    rule: Floats,
    fa: Floats,
    fb: Floats,
    sa: Floats,
    sb: Floats,
    leads: Floats,
    ones: Floats,
    turns_a: Floats,
    ok_a: Flags,
    first_a: Whole,
    twos: Floats,
    turns_b: Floats,
    ok_b: Flags,
    first_b: Whole,
    radius: float,
    keep: float,
    step: float,
    box: Floats,
    w: Floats,
    answers: Floats,
    may: Flags,
    tried: int,
) -> None:
    """Pairs whose best course breaks a rule, searched again under it, on all cores.

    ``answers`` hold turn A, turn B, cost and state of each pair; the costs of those that break
    the rule grow by what that costs, unless a course is found that costs less. Only pairs that
    ``may`` be taken are searched.
    """
    n = first_b.shape[0] - 1
    for p in prange((first_a.shape[0] - 1) * n):
        if answers[p, 3] != 2.0:
            continue
        i, j = p // n, p % n
        one, two, h = np.empty(WIDE), np.empty(WIDE), np.empty(HIGH)
        set_row(fa, sa[i], leads[0], answers[p, 0], one)
        set_row(fb, sb[j], leads[1], answers[p, 1], two)
        found = between(one, two, radius)
        charge = toll(rule, sa[i, 3], sb[j, 3], one, two, found, radius, h)
        if charge == 0.0:
            continue
        answers[p, 2] += charge
        if not may[p]:
            continue
        _one_pair(
            b,
            tree,
            off,
            slack,
            live,
            live_a,
            live_b,
            rule,
            fa,
            fb,
            sa[i],
            sb[j],
            leads,
            ones[first_a[i] : first_a[i + 1]],
            turns_a[first_a[i] : first_a[i + 1]],
            ok_a[first_a[i] : first_a[i + 1]],
            twos[first_b[j] : first_b[j + 1]],
            turns_b[first_b[j] : first_b[j + 1]],
            ok_b[first_b[j] : first_b[j + 1]],
            radius,
            keep,
            step,
            box,
            w,
            answers[p],
            tried,
        )
