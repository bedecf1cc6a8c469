# SPDX-License-Identifier: Apache-2.0
"""The best setting of each pair of hose ends whose course is clear: the compiled part."""

from math import cos, inf, isfinite, pi, sin
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from linewright.base.kernels import njit, prange
from linewright.routes._asked import Bay, Effort, Hose, Settings, Whole
from linewright.routes._courses import (
    MOST,
    WIDE,
    aimed,
    better,
    between,
    clear,
    course,
    end_clear,
    least,
    note,
    set_row,
    unseen,
)
from linewright.space._curves import Joined
from linewright.space.nearest import Bodies, Flags, Tree

if TYPE_CHECKING:
    from numpy.typing import NDArray

Floats: TypeAlias = "NDArray[np.float64]"

# Elbows are turned downhill by so much first and last. [rad]
COARSE, ROUGH, FINEST = pi / 12.0, pi / 48.0, pi / 180.0
# A course whose turns are no more than this is found by aiming, whatever its radius. [rad]
AHEAD = 2.0
# Below this share of the radius asked for no course is looked for.
SLIM = 0.05


@njit
def _blocked(
    bay: Bay, hose: Hose, one: Floats, two: Floats, found: Joined, points: Floats, seen: Floats
) -> int:
    """Which body is in the way of a course; -1 for none."""
    n = course(one, two, found, hose.radius, hose.step, points)
    note(points, n, seen)
    return clear(bay.bodies, bay.tree, bay.off, bay.slack, bay.live, points, n, hose.keep)


@njit
def stands(bay: Bay, hose: Hose, live: Flags, row: Floats) -> bool:
    """Whether a hose end itself keeps off what is round it."""
    return end_clear(bay.bodies, bay.tree, bay.off, bay.slack, live, row, hose.step, hose.keep) < 0


@njit
def _moved(way: int, size: float, on: float, both: bool, first: bool) -> tuple[float, float]:
    """How far each elbow is turned one way: of eight ways for two elbows, of two for one."""
    if both:
        return size * cos(on + way * pi / 4.0), size * sin(on + way * pi / 4.0)
    turn = size if way else -size
    return (turn, 0.0) if first else (0.0, turn)


@njit
def _refined(
    bay: Bay,
    hose: Hose,
    a: Settings,
    i: int,
    b: Settings,
    j: int,
    begin: Floats,
    size: float,
    least_size: float,
    points: Floats,
    seen: Floats,
) -> None:
    """Turn both elbows downhill from ``begin`` (turn A, turn B, cost) while the course is clear."""
    one, two = np.empty(WIDE), np.empty(WIDE)
    sa, sb = a.shapes[i], b.shapes[j]
    both = sa[0] != 0.0 and sb[0] != 0.0
    if sa[0] == 0.0 and sb[0] == 0.0:
        return
    on, last = 0.0, 0
    ways = 8 if both else 2
    while size > least_size:
        moved = False
        for k in range(ways):
            # The way that went down last is tried first. The best often lies on the rim of
            # what can be, so the ways are swung on each time, to slide along it.
            way = (last + k) % ways
            da, db = _moved(way, size, on, both, sa[0] != 0.0)
            set_row(a.frame, sa, a.straight, begin[0] + da, one)
            set_row(b.frame, sb, b.straight, begin[1] + db, two)
            value, found = better(one, two, hose.radius, hose.box, hose.weights, begin[2] - 1e-6)
            if value >= begin[2] - 1e-6:
                continue
            if bay.tree.order.shape[0]:
                if not stands(bay, hose, a.live, one) or not stands(bay, hose, b.live, two):
                    continue
                if _blocked(bay, hose, one, two, found, points, seen) >= 0:
                    continue
            begin[0], begin[1], begin[2] = begin[0] + da, begin[1] + db, value
            moved, last = True, way
            break
        if not moved:
            size *= 0.5
            on += pi / 8.0


@njit
def _has_room(one: Floats, two: Floats, radius: float) -> bool:
    """Whether a course with moderate turns has that radius."""
    found = aimed(one, two, radius)
    return isfinite(found[0]) and found[1] < AHEAD and found[2] < AHEAD


@njit
def _room(one: Floats, two: Floats, radius: float, over: float) -> float:
    """The widest radius up to ``radius`` of a course with moderate turns; 0 if none is ``over``."""
    if _has_room(one, two, radius):
        return radius
    low, high = min(1.003 * over, radius), radius
    if not _has_room(one, two, low):
        return 0.0
    for _ in range(6):
        middle = 0.5 * (low + high)
        if _has_room(one, two, middle):
            low = middle
        else:
            high = middle
    return low


@njit
def _widened(hose: Hose, a: Settings, i: int, b: Settings, j: int, begin: Floats) -> bool:
    """Turn both elbows until a course with moderate turns has the radius that is asked for.

    Between near ports such a course may stand in a few degrees of both elbows only, where no
    search by steps would meet it. A tighter one stands in more, and its room leads there.
    """
    one, two = np.empty(WIDE), np.empty(WIDE)
    sa, sb = a.shapes[i], b.shapes[j]
    both = sa[0] != 0.0 and sb[0] != 0.0
    set_row(a.frame, sa, a.straight, begin[0], one)
    set_row(b.frame, sb, b.straight, begin[1], two)
    room = max(_room(one, two, hose.radius, SLIM * hose.radius), SLIM * hose.radius)
    size, on, last = COARSE, 0.0, 0
    ways = 8 if both else 2
    while size > 0.25 * FINEST and room < hose.radius:
        moved = False
        for k in range(ways):
            way = (last + k) % ways
            da, db = _moved(way, size, on, both, sa[0] != 0.0)
            set_row(a.frame, sa, a.straight, begin[0] + da, one)
            set_row(b.frame, sb, b.straight, begin[1] + db, two)
            wider = _room(one, two, hose.radius, room)
            if wider > room:
                begin[0], begin[1], room = begin[0] + da, begin[1] + db, wider
                moved, last = True, way
                break
        if not moved:
            size *= 0.5
            on += pi / 8.0
    return bool(room >= hose.radius)


@njit
def _is_valley(bound: Floats, m: int, n: int, p: int, q: int) -> bool:
    """Whether no neighbour has less of what a course costs at least."""
    x = bound[p * n + q]
    for dp in range(-1, 2):
        for dq in range(-1, 2):
            if bound[(p + dp) % m * n + (q + dq) % n] < x:
                return False
    return bool(x < inf)


@njit
def _islands(
    bay: Bay,
    hose: Hose,
    a: Settings,
    i: int,
    b: Settings,
    j: int,
    bound: Floats,
    answer: Floats,
    points: Floats,
    seen: Floats,
) -> None:
    """Look for courses with moderate turns where the ends look at each other best but have none."""
    begin = np.empty(3)
    one, two = np.empty(WIDE), np.empty(WIDE)
    a0, b0 = a.first[i], b.first[j]
    m, n = a.first[i + 1] - a0, b.first[j + 1] - b0
    for p in range(m):
        for q in range(n):
            if not _is_valley(bound, m, n, p, q):
                continue
            if _has_room(a.rows[a0 + p], b.rows[b0 + q], hose.radius):
                continue
            begin[0], begin[1] = a.turns[a0 + p], b.turns[b0 + q]
            if not _widened(hose, a, i, b, j, begin):
                continue
            set_row(a.frame, a.shapes[i], a.straight, begin[0], one)
            set_row(b.frame, b.shapes[j], b.straight, begin[1], two)
            begin[2], found = better(one, two, hose.radius, hose.box, hose.weights, answer[2])
            if not begin[2] < answer[2]:
                continue
            if bay.tree.order.shape[0]:
                if not stands(bay, hose, a.live, one) or not stands(bay, hose, b.live, two):
                    continue
                if _blocked(bay, hose, one, two, found, points, seen) >= 0:
                    continue
            _refined(bay, hose, a, i, b, j, begin, COARSE, FINEST, points, seen)
            answer[0], answer[1], answer[2], answer[3] = begin[0], begin[1], begin[2], 2.0


@njit
def one_pair(
    bay: Bay, hose: Hose, a: Settings, i: int, b: Settings, j: int, answer: Floats, effort: Effort
) -> None:
    """Best clear course of hose ends i and j: turn A, turn B, cost, state, who blocks.

    After these ``answer`` has the boxes of what was looked at (`note`).

    State 0: there is no course without a loop; 1: each is blocked; 2: found.
    """
    a0, b0 = a.first[i], b.first[j]
    m, n = a.first[i + 1] - a0, b.first[j + 1] - b0
    points = np.empty((MOST, 3))
    seen = answer[5:]
    unseen(seen)
    spare = effort.slack * hose.radius + effort.more
    # What each course costs at least; then, in that order, what it costs.
    bound, values = np.full(m * n, inf), np.full(m * n, inf)
    passed = np.zeros(m * n, np.bool_)
    answer[2], answer[3], answer[4] = inf, 0.0, -1.0
    for p in range(m):
        for q in range(n):
            if a.ok[a0 + p] and b.ok[b0 + q]:
                bound[p * n + q] = least(
                    a.rows[a0 + p], b.rows[b0 + q], hose.radius, hose.box, hose.weights
                )
            else:
                answer[3] = 1.0
    if m * n > 1:
        _islands(bay, hose, a, i, b, j, bound, answer, points, seen)
    order = np.argsort(bound)
    kept, looked, at, top = 0, 0, 0, 0
    begin, roughly = np.empty(3), np.empty((effort.kept, 3))
    best = answer[2]
    while kept < effort.kept and looked < effort.tried:
        # What is so much dearer than the best would not be turned downhill.
        enough = answer[2] + spare
        while at < m * n and bound[order[at]] < min(values[top], enough):
            k = order[at]
            at += 1
            if passed[k]:
                continue
            p, q = k // n, k % n
            values[k], _ = better(
                a.rows[a0 + p], b.rows[b0 + q], hose.radius, hose.box, hose.weights, enough
            )
            if values[k] < values[top]:
                top = k
        k = top
        if not values[k] < enough:
            break
        p, q = k // n, k % n
        value, values[k], passed[k] = values[k], inf, True
        one, two = a.rows[a0 + p], b.rows[b0 + q]
        if bay.tree.order.shape[0]:
            looked += 1
            found = between(one, two, hose.radius)
            who = _blocked(bay, hose, one, two, found, points, seen)
            if who >= 0:
                if answer[3] < 2.0 and answer[4] < 0.0:
                    answer[3], answer[4] = 1.0, who
                top = int(np.argmin(values))
                continue
        # What stands beside it would be turned to the same place.
        for dp in range(-1, 2):
            for dq in range(-1, 2):
                k = (p + dp) % m * n + (q + dq) % n
                values[k], passed[k] = inf, True
        top = int(np.argmin(values))
        begin[0], begin[1], begin[2] = a.turns[a0 + p], b.turns[b0 + q], value
        _refined(bay, hose, a, i, b, j, begin, COARSE, ROUGH, points, seen)
        roughly[kept] = begin
        kept += 1
        answer[2] = min(answer[2], begin[2])
    # The best of them are turned on by less and less.
    for _ in range(min(kept, effort.finished)):
        k = int(np.argmin(roughly[:kept, 2]))
        begin[:] = roughly[k]
        roughly[k, 2] = inf
        _refined(bay, hose, a, i, b, j, begin, ROUGH, FINEST, points, seen)
        if begin[2] < best - 1e-9:
            best = begin[2]
            answer[0], answer[1], answer[2], answer[3] = begin[0], begin[1], begin[2], 2.0


@njit(parallel=True)
def all_pairs(
    bodies: Bodies,
    tree: Tree,
    off: Floats,
    slack: Floats,
    live: Flags,
    hose: Hose,
    a: Settings,
    b: Settings,
    answers: Floats,
    effort: Effort,
    asked: Whole,
) -> None:
    """`one_pair` for each pair of hose ends that is asked for by number, on all cores."""
    n = b.first.shape[0] - 1
    every = asked.shape[0]
    half = (every + 1) // 2
    for k in prange(every):
        # Pairs of one hose end at A cost much the same: each core gets every other one of them.
        p = asked[2 * k if k < half else 2 * (k - half) + 1]
        one_pair(Bay(bodies, tree, off, slack, live), hose, a, p // n, b, p % n, answers[p], effort)


@njit
def few_pairs(
    bodies: Bodies,
    tree: Tree,
    off: Floats,
    slack: Floats,
    live: Flags,
    hose: Hose,
    a: Settings,
    b: Settings,
    answers: Floats,
    effort: Effort,
    asked: Whole,
) -> None:
    """The same on this core: no waiting for others."""
    n = b.first.shape[0] - 1
    for p in asked:
        one_pair(Bay(bodies, tree, off, slack, live), hose, a, p // n, b, p % n, answers[p], effort)
