# SPDX-License-Identifier: Apache-2.0
"""The best setting of each pair of hose ends whose course is clear: the compiled part."""

from math import cos, inf, isfinite, pi, sin
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from linewright.base.kernels import njit, prange
from linewright.routes._courses import (
    MOST,
    WIDE,
    better,
    between,
    clear,
    cost,
    course,
    end_clear,
    least,
    note,
    set_row,
    unseen,
)
from linewright.space._curves import MODERATE, Joined
from linewright.space.nearest import Bodies, Flags, Tree

if TYPE_CHECKING:
    from numpy.typing import NDArray

Floats: TypeAlias = "NDArray[np.float64]"
Whole: TypeAlias = "NDArray[np.int64]"


@njit
def _tried(
    b: Bodies,
    tree: Tree,
    off: Floats,
    slack: Floats,
    live: Flags,
    one: Floats,
    two: Floats,
    found: Joined,
    radius: float,
    keep: float,
    step: float,
    points: Floats,
    seen: Floats,
) -> int:
    n = course(one, two, found, radius, step, points)
    note(points, n, seen)
    return clear(b, tree, off, slack, live, points, n, keep)


@njit
def _refined(
    b: Bodies,
    tree: Tree,
    off: Floats,
    slack: Floats,
    live: Flags,
    live_a: Flags,
    live_b: Flags,
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
    seen: Floats,
) -> None:
    """Turn both elbows downhill from ``begin`` (turn A, turn B, cost) while the course is clear."""
    one, two = np.empty(WIDE), np.empty(WIDE)
    size, on, last = leads[2], 0.0, 0
    ways = 8 if sa[0] != 0.0 and sb[0] != 0.0 else 2
    if sa[0] == 0.0 and sb[0] == 0.0:
        return
    while size > leads[3]:
        moved = False
        for k in range(ways):
            # The way that went down last is tried first. The best often lies on the rim of
            # what can be, so the ways are swung on each time, to slide along it.
            way = (last + k) % ways
            if ways == 8:
                da, db = size * cos(on + way * pi / 4.0), size * sin(on + way * pi / 4.0)
            else:
                da = (size if way else -size) if sa[0] != 0.0 else 0.0
                db = (size if way else -size) if sb[0] != 0.0 else 0.0
            set_row(fa, sa, leads[0], begin[0] + da, one)
            set_row(fb, sb, leads[1], begin[1] + db, two)
            value, found = better(one, two, radius, box, w, begin[2] - 1e-6)
            if value >= begin[2] - 1e-6:
                continue
            if tree.order.shape[0]:
                if end_clear(b, tree, off, slack, live_a, one, step, keep) >= 0:
                    continue
                if end_clear(b, tree, off, slack, live_b, two, step, keep) >= 0:
                    continue
                who = _tried(
                    b, tree, off, slack, live, one, two, found, radius, keep, step, points, seen
                )
                if who >= 0:
                    continue
            begin[0], begin[1], begin[2] = begin[0] + da, begin[1] + db, value
            moved, last = True, way
            break
        if not moved:
            size *= 0.5
            on += pi / 8.0


@njit
def one_pair(
    b: Bodies,
    tree: Tree,
    off: Floats,
    slack: Floats,
    live: Flags,
    live_a: Flags,
    live_b: Flags,
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
    doubts: int,
) -> None:
    """Best clear course of one pair of hose ends: turn A, turn B, cost, state, who blocks.

    After these ``answer`` has the boxes of what was looked at (`note`).

    ``tried`` courses are asked whether they are clear, ``doubts`` are searched all round where
    aiming is in doubt. State 0: there is no course without a loop; 1: each is blocked; 2: found.
    """
    m, n = ones.shape[0], twos.shape[0]
    points = np.empty((MOST, 3))
    seen = answer[5:]
    unseen(seen)
    # What each course costs, or at least costs: it is aimed when its turn comes, and one that
    # aiming leaves in doubt is searched all round when its turn comes again. One with two
    # moderate turns is the shortest.
    bound = np.full(m * n, inf)
    known, values = np.zeros(m * n, np.int8), np.full(m * n, inf)
    answer[2], answer[3], answer[4] = inf, 0.0, -1.0
    for i in range(m):
        for j in range(n):
            if ok_a[i] and ok_b[j]:
                bound[i * n + j] = least(ones[i], twos[j], radius, box, w)
            else:
                answer[3] = 1.0
    kept = 0
    at_i, at_j = np.zeros(3, np.int64), np.zeros(3, np.int64)
    begin = np.empty(3)
    looked, searched = 0, 0
    while kept < 3 and looked < tried:
        k = int(np.argmin(bound))
        # What is so much dearer than the best would not be turned downhill.
        enough = answer[2] + 0.25 * radius + 0.1
        if not bound[k] < enough:
            break
        i, j = k // n, k % n
        near = False
        for p in range(kept):
            di, dj = abs(i - at_i[p]), abs(j - at_j[p])
            near |= min(di, m - di) <= 1 and min(dj, n - dj) <= 1
        if near:
            bound[k] = inf
            continue
        if known[k] == 0:
            known[k] = 1
            values[k], found = cost(ones[i], twos[j], radius, box, w, True)
            if isfinite(values[k]) and found[1] < MODERATE and found[2] < MODERATE:
                known[k] = 2
                bound[k] = values[k]
            continue
        if known[k] == 1:
            known[k] = 2
            if searched < doubts:
                searched += 1
                values[k] = better(ones[i], twos[j], radius, box, w, enough)[0]
            bound[k] = values[k]
            continue
        bound[k] = inf
        if tree.order.shape[0]:
            looked += 1
            found = between(ones[i], twos[j], radius)
            who = _tried(
                b, tree, off, slack, live, ones[i], twos[j], found, radius, keep, step, points, seen
            )
            if who >= 0:
                if answer[3] < 2.0 and answer[4] < 0.0:
                    answer[3], answer[4] = 1.0, who
                continue
        at_i[kept], at_j[kept] = i, j
        kept += 1
        begin[0], begin[1], begin[2] = turns_a[i], turns_b[j], values[k]
        _refined(
            b,
            tree,
            off,
            slack,
            live,
            live_a,
            live_b,
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
            seen,
        )
        if begin[2] < answer[2] - 1e-9:
            answer[0], answer[1], answer[2], answer[3] = begin[0], begin[1], begin[2], 2.0


@njit(parallel=True)
def all_pairs(
    b: Bodies,
    tree: Tree,
    off: Floats,
    slack: Floats,
    live: Flags,
    live_a: Flags,
    live_b: Flags,
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
    tried: int,
    doubts: int,
) -> None:
    """`one_pair` for each pair of shapes, on all cores."""
    n = first_b.shape[0] - 1
    every = (first_a.shape[0] - 1) * n
    half = (every + 1) // 2
    for q in prange(every):
        # Pairs of one hose end at A cost much the same: each core gets every other one of them.
        p = 2 * q if q < half else 2 * (q - half) + 1
        i, j = p // n, p % n
        one_pair(
            b,
            tree,
            off,
            slack,
            live,
            live_a,
            live_b,
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
            doubts,
        )


@njit
def few_pairs(
    b: Bodies,
    tree: Tree,
    off: Floats,
    slack: Floats,
    live: Flags,
    live_a: Flags,
    live_b: Flags,
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
    tried: int,
    doubts: int,
) -> None:
    """`one_pair` for each pair of shapes, on this core: no waiting for others."""
    n = first_b.shape[0] - 1
    for p in range((first_a.shape[0] - 1) * n):
        i, j = p // n, p % n
        one_pair(
            b,
            tree,
            off,
            slack,
            live,
            live_a,
            live_b,
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
            doubts,
        )
