# SPDX-License-Identifier: Apache-2.0
"""Courses between settings of two hose ends: what they cost and what they meet. Compiled.

A row stands for one setting of one hose end. It holds where the straight after the collar
ends (0:3), the way the hose leaves there (3:6), the low and high corner of the end itself
(6:9, 9:12), its cost (12), collar (13:16), corner (16:19), seat (19:22), and from where the hose
is looked at (22:25): half its diameter on, for at its very end it may touch its own body. SI.
"""

from math import atan2, cos, inf, isfinite, pi, sin, sqrt
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from linewright.base.kernels import njit
from linewright.space._curves import FEW, Joined, _seesaw, joined_within
from linewright.space.nearest import Bodies, Flags, Tree, met

if TYPE_CHECKING:
    from numpy.typing import NDArray

Floats: TypeAlias = "NDArray[np.float64]"
Whole: TypeAlias = "NDArray[np.int64]"
Way: TypeAlias = tuple[float, float, float]

WIDE = 25
# A turn of less is none; one of more goes round in a loop, which no builder wants.
TINY = 1e-6
LOOP = 1.2 * pi
# A turn of less counts as so much of a bend: 10°.
BEND = pi / 18.0
# A turn of less is not counted as a bend: 1°.
SLIGHT = pi / 180.0
# Aiming stops when it moves by no more, in radii: under what any cost tells apart.
QUICK = 1e-7
# Points of a course that are looked at, at most.
MOST = 400


@njit
def set_row(f: Floats, s: Floats, straight: float, turn: float, row: Floats) -> None:
    """One setting: f is origin, out, right and up of the port; s is angle [rad], reach, drop,
    stick-out and cost of the hose end, and from where on the hose is looked at.
    """
    c, d = cos(turn), sin(turn)
    ct, st = cos(s[0]), sin(s[0])
    leg = s[2] / st if st > 0.02 else s[2] / 2.0
    for k in range(3):
        out, way = f[3 + k], c * f[6 + k] + d * f[9 + k]
        n = -ct * out - st * way
        side = ct * way - st * out
        seat = f[k] + s[3] * out
        collar = seat - s[1] * n - s[2] * side
        row[k] = collar - straight * n
        row[3 + k] = -n
        row[13 + k] = collar
        row[16 + k] = seat + leg * out if s[0] > 0.0 else collar
        row[19 + k] = seat
        row[22 + k] = collar - s[5] * n
        row[6 + k] = min(f[k], row[k], collar, row[16 + k])
        row[9 + k] = max(f[k], row[k], collar, row[16 + k])
    row[12] = s[4] + s[1] + straight


@njit
def _span(
    p: float, along: float, inward: float, turn: float, radius: float
) -> tuple[float, float, float]:
    """Low, high and end of an arc along one axis."""
    end = p + radius * (sin(turn) * along + (1.0 - cos(turn)) * inward)
    low, high = min(p, end), max(p, end)
    top = atan2(along, -inward)
    for _ in range(3):
        if 0.0 < top < turn:
            x = p + radius * (sin(top) * along + (1.0 - cos(top)) * inward)
            low, high = min(low, x), max(high, x)
        top += pi
    top = atan2(along, -inward) - pi
    if 0.0 < top < turn:
        x = p + radius * (sin(top) * along + (1.0 - cos(top)) * inward)
        low, high = min(low, x), max(high, x)
    return low, high, end


@njit
def shorter(a: Floats, b: Floats, radius: float, limit: float) -> Joined:
    """The shortest course without a loop from one row to another, for radius 1.

    One no shorter than ``limit`` radii need not be found.
    """
    return joined_within(
        (b[0] - a[0]) / radius,
        (b[1] - a[1]) / radius,
        (b[2] - a[2]) / radius,
        a[3],
        a[4],
        a[5],
        -b[3],
        -b[4],
        -b[5],
        FEW,
        LOOP,
        limit,
    )


@njit
def between(a: Floats, b: Floats, radius: float) -> Joined:
    """The same whatever its length."""
    return shorter(a, b, radius, inf)


@njit
def aimed(a: Floats, b: Floats, radius: float) -> Joined:
    """The same by aiming alone: quick, but it may not settle, or not on the shortest."""
    return _seesaw(
        1.0,
        1.0,
        (b[0] - a[0]) / radius,
        (b[1] - a[1]) / radius,
        (b[2] - a[2]) / radius,
        a[3],
        a[4],
        a[5],
        -b[3],
        -b[4],
        -b[5],
        QUICK,
    )


@njit
def _square_to(row: Floats, way: Way) -> Way:
    """The axis of an arc: square to where it starts and to which way it goes."""
    return (
        row[4] * way[2] - row[5] * way[1],
        row[5] * way[0] - row[3] * way[2],
        row[3] * way[1] - row[4] * way[0],
    )


@njit
def _leaning(a: Floats, b: Floats, ways: Way, backs: Way, straight: float, enough: float) -> float:
    """How much the planes of two bends cross: 0 to 1 for square, and 0 with a straight between."""
    if straight >= enough or enough <= 0.0:
        return 0.0
    nx, ny, nz = _square_to(a, ways)
    mx, my, mz = _square_to(b, backs)
    along = nx * mx + ny * my + nz * mz
    return max(0.0, 1.0 - along * along) * (1.0 - straight / enough)


@njit
def _valued(a: Floats, b: Floats, found: Joined, radius: float, box: Floats, w: Floats) -> float:
    """Cost of a course that is known."""
    run, u1, u2 = found[0], found[1], found[2]
    if not isfinite(run) or u1 > LOOP or u2 > LOOP:
        return inf
    ways = (found[3], found[4], found[5])
    backs = (found[6], found[7], found[8])
    outside = 0.0
    for k in range(3):
        low1, high1, _ = _span(a[k], a[3 + k], ways[k], u1, radius)
        low2, high2, _ = _span(b[k], b[3 + k], backs[k], u2, radius)
        low = min(low1, low2, a[6 + k], b[6 + k])
        high = max(high1, high2, a[9 + k], b[9 + k])
        outside += max(0.0, box[k] - low) + max(0.0, high - box[3 + k])
    bend1, bend2 = min(1.0, u1 / BEND), min(1.0, u2 / BEND)
    value = run * radius + a[12] + b[12] + w[0] * outside + w[1] * (bend1 + bend2)
    if w.shape[0] > 3 and w[2] > 0.0:
        value += w[2] * bend1 * bend2 * _leaning(a, b, ways, backs, (run - u1 - u2) * radius, w[3])
    return float(value)


@njit
def told(a: Floats, b: Floats, radius: float) -> tuple[float, float, int]:
    """Length from collar to collar, height with both hose ends, and bends of a course [m].

    The length is inf where there is no course.
    """
    found = between(a, b, radius)
    run, u1, u2 = found[0], found[1], found[2]
    if not isfinite(run):
        return inf, 0.0, 0
    low1, high1, _ = _span(a[2], a[5], found[5], u1, radius)
    low2, high2, _ = _span(b[2], b[5], found[8], u2, radius)
    height = max(high1, high2, a[11], b[11]) - min(low1, low2, a[8], b[8])
    bends = int(u1 > SLIGHT) + int(u2 > SLIGHT)
    if bends == 2 and (run - u1 - u2) * radius <= 1e-6:
        # Seen from its end, the second turns the other way.
        nx, ny, nz = _square_to(a, (found[3], found[4], found[5]))
        mx, my, mz = _square_to(b, (found[6], found[7], found[8]))
        bends = 1 if -(nx * mx + ny * my + nz * mz) >= 0.9999 else 2
    length = run * radius
    for row in (a, b):
        x, y, z = row[0] - row[13], row[1] - row[14], row[2] - row[15]
        length += sqrt(x * x + y * y + z * z)
    return length, height, bends


@njit
def cost(
    a: Floats, b: Floats, radius: float, box: Floats, w: Floats, quick: bool
) -> tuple[float, Joined]:
    """Cost of the course from one row to another; inf where there is none without a loop.

    ``box`` is the low and high corner of what sticks out anyway; ``w`` what a metre outside
    that and a bend are worth in metres of hose; two figures more: a turn between the planes of
    its bends, and how long a straight between undoes it. ``quick`` tries aiming alone.
    """
    found = aimed(a, b, radius) if quick else between(a, b, radius)
    return _valued(a, b, found, radius, box, w), found


@njit
def better(
    a: Floats, b: Floats, radius: float, box: Floats, w: Floats, than: float
) -> tuple[float, Joined]:
    """Cost of the course from one row to another where it is less than that; else inf."""
    outside = 0.0
    for k in range(3):
        outside += max(0.0, box[k] - min(a[6 + k], b[6 + k]))
        outside += max(0.0, max(a[9 + k], b[9 + k]) - box[3 + k])
    # What the ends alone cost: the course must do with the rest.
    found = shorter(a, b, radius, (than - a[12] - b[12] - w[0] * outside) / radius)
    return _valued(a, b, found, radius, box, w), found


@njit
def turning(d: Floats, a: Floats, b: Floats) -> float:
    """About how many radii longer than its chord d a course is for its turns at both ends."""
    far = sqrt(d[0] * d[0] + d[1] * d[1] + d[2] * d[2])
    if far < 1e-9:
        return 0.0
    bent = 0.0
    for ahead in (
        (d[0] * a[3] + d[1] * a[4] + d[2] * a[5]) / far,
        -(d[0] * b[3] + d[1] * b[4] + d[2] * b[5]) / far,
    ):
        # A quarter turn is 0.57 radii longer than its chord, a half turn 3.14.
        bent += 0.57 * (1.0 - ahead) if ahead > 0.0 else 0.57 - 2.57 * ahead
    return bent


@njit
def least(a: Floats, b: Floats, radius: float, box: Floats, w: Floats) -> float:
    """About what a course from one row to another costs at least, without its turns' width."""
    d, outside = np.empty(3), 0.0
    for k in range(3):
        d[k] = b[k] - a[k]
        outside += max(0.0, box[k] - min(a[6 + k], b[6 + k]))
        outside += max(0.0, max(a[9 + k], b[9 + k]) - box[3 + k])
    far = sqrt(d[0] * d[0] + d[1] * d[1] + d[2] * d[2])
    return float(far + 0.9 * radius * turning(d, a, b) + a[12] + b[12] + w[0] * outside)


@njit
def _straight(p: Floats, n: int, q: Floats, step: float, points: Floats) -> int:
    """Points after p up to q."""
    x, y, z = q[0] - p[0], q[1] - p[1], q[2] - p[2]
    far = sqrt(x * x + y * y + z * z)
    m = int(far / step) + 1
    for i in range(1, m + 1):
        if n >= points.shape[0]:
            return n
        t = i / m
        points[n, 0], points[n, 1], points[n, 2] = p[0] + t * x, p[1] + t * y, p[2] + t * z
        n += 1
    return n


@njit
def course(a: Floats, b: Floats, found: Joined, radius: float, step: float, points: Floats) -> int:
    """Points along a course, with the straights after both collars; how many."""
    _, u1, u2, bx, by, bz, cx, cy, cz = found
    points[0, :] = a[22:25]
    n = _straight(a[22:25], 1, a[0:3], step, points)
    m = int(u1 * radius / step) + 1 if u1 > TINY else 0
    for i in range(1, m + 1):
        t = u1 * i / m
        s, r = radius * sin(t), radius * (1.0 - cos(t))
        points[n, 0] = a[0] + s * a[3] + r * bx
        points[n, 1] = a[1] + s * a[4] + r * by
        points[n, 2] = a[2] + s * a[5] + r * bz
        n += 1
    m = int(u2 * radius / step) + 1 if u2 > TINY else 0
    last = np.empty(3)
    for i in range(m, -1, -1):
        t = u2 * i / m if m else 0.0
        s, r = radius * sin(t), radius * (1.0 - cos(t))
        last[0] = b[0] + s * b[3] + r * cx
        last[1] = b[1] + s * b[4] + r * cy
        last[2] = b[2] + s * b[5] + r * cz
        if i == m:
            n = _straight(points[n - 1], n, last, step, points)
        elif n < points.shape[0]:
            points[n, :] = last
            n += 1
    if n < points.shape[0]:
        points[n, :] = b[0:3]
        n += 1
    return _straight(b[0:3], n, b[22:25], step, points)


@njit
def unseen(seen: Floats) -> None:
    """Make boxes of looked-at points empty."""
    for k in range(0, seen.shape[0], 6):
        seen[k : k + 3] = inf
        seen[k + 3 : k + 6] = -inf


@njit
def note(points: Floats, n: int, seen: Floats) -> None:
    """Widen boxes (low and high corner, one for each stretch of a course) by points of a course."""
    boxes = seen.shape[0] // 6
    for i in range(n):
        first = 6 * (i * boxes // n)
        for k in range(3):
            seen[first + k] = min(seen[first + k], points[i, k])
            seen[first + 3 + k] = max(seen[first + 3 + k], points[i, k])


@njit
def clear(
    b: Bodies,
    tree: Tree,
    off: Floats,
    slack: Floats,
    live: Flags,
    points: Floats,
    n: int,
    keep: float,
) -> int:
    """-1 where all points keep that far off; else which body is in the way."""
    return met(b, tree, off, slack, live, points, n, keep)


@njit
def end_clear(
    b: Bodies,
    tree: Tree,
    off: Floats,
    slack: Floats,
    live: Flags,
    row: Floats,
    step: float,
    keep: float,
) -> int:
    """The same for a hose end itself, from its seat to its collar."""
    points = np.empty((64, 3))
    points[0, :] = row[19:22]
    n = _straight(row[19:22], 1, row[16:19], step, points)
    n = _straight(row[16:19], n, row[13:16], step, points)
    return clear(b, tree, off, slack, live, points, n, keep)


@njit
def settings(
    b: Bodies,
    tree: Tree,
    off: Floats,
    slack: Floats,
    live: Flags,
    f: Floats,
    shapes: Floats,
    straight: float,
    turns: Floats,
    which: Whole,
    step: float,
    keep: float,
    rows: Floats,
    who: Whole,
) -> None:
    """Rows of all settings of one end, and what the hose end itself stands in: -1 for nothing."""
    for i in range(rows.shape[0]):
        set_row(f, shapes[which[i]], straight, turns[i], rows[i])
        who[i] = -1
        if tree.order.shape[0]:
            who[i] = end_clear(b, tree, off, slack, live, rows[i], step, keep)
