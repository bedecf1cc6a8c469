# SPDX-License-Identifier: Apache-2.0
"""Courses held against gravity on level ground: the compiled part.

A rule is five numbers: its kind, a sign, a limit, and what a course that breaks it costs, at all
and for each metre that it does so by. Kind 1, a drain: every place falls from A
to B at least by the limit, the sine of an angle. Kind 2, a bleed: heights times the sign never
fall back by more than the limit [m]. Kind 3, a trap: heights times the sign have no high point
that stands over both its sides by more than the limit [m]; with -1 these are sags. Kind 0: none.

Heights along a course are kept at its corners and at the high and low points of its arcs;
between them they only rise or only fall.
"""

from math import atan2, cos, inf, isfinite, pi, sin, sqrt
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from linewright.base.kernels import njit
from linewright.routes._courses import between
from linewright.space._curves import Joined
from linewright.space.nearest import Flags

if TYPE_CHECKING:
    from numpy.typing import NDArray

Floats: TypeAlias = "NDArray[np.float64]"
Whole: TypeAlias = "NDArray[np.int64]"

# Heights of one course at most, and pieces of an arc that a fall is summed over.
HIGH, PIECES = 96, 8
# A slope of so much less is the same: a hundredth of a degree. [-]
SAME = 2e-4


@njit
def _along(
    rule: Floats, z: float, dx: float, dy: float, dz: float, h: Floats, n: int, sums: Floats
) -> int:
    """A straight piece from height z: its height at the end, and what it falls short by."""
    far = sqrt(dx * dx + dy * dy + dz * dz)
    if far < 1e-6:
        return n
    sums[0] += max(0.0, rule[2] * far + dz)
    sums[1] = max(sums[1], dz / far)
    h[n] = z + dz
    return n + 1


@njit
def _round(
    rule: Floats,
    z: float,
    up: float,
    inward: float,
    turn: float,
    radius: float,
    h: Floats,
    n: int,
    sums: Floats,
) -> int:
    """The same for an arc that begins with slope ``up`` and bends to ``inward``."""
    if turn < 1e-6:
        return n
    before = 0.0
    for i in range(1, PIECES + 1):
        t = turn * i / PIECES
        rise = radius * (sin(t) * up + (1.0 - cos(t)) * inward)
        sums[0] += max(0.0, rule[2] * radius * turn / PIECES + rise - before)
        before = rise
    steep = atan2(inward, up)
    for t in (0.0, turn, steep, steep + 2.0 * pi):
        if 0.0 <= t <= turn:
            sums[1] = max(sums[1], up * cos(t) + inward * sin(t))
    top = atan2(-up, inward)
    for k in range(-1, 3):
        t = top + k * pi
        if 1e-9 < t < turn - 1e-9:
            h[n] = z + radius * (sin(t) * up + (1.0 - cos(t)) * inward)
            n += 1
    h[n] = z + radius * (sin(turn) * up + (1.0 - cos(turn)) * inward)
    return n + 1


@njit
def _end(
    rule: Floats, row: Floats, stick: float, way: float, h: Floats, n: int, sums: Floats
) -> int:
    """Heights along a hose end from its port to the straight's end (way 1), or back (-1)."""
    p = np.empty((6, 3))
    m = 0
    far = 0.0
    for k in range(3):
        far += (row[16 + k] - row[19 + k]) ** 2
    far = sqrt(far)
    turned = 0.0
    for k in range(3):
        out = (row[16 + k] - row[19 + k]) / far if far > 1e-9 else 0.0
        turned += out * row[3 + k]
        p[0, k] = row[19 + k] - stick * out
    m = 1
    if turned < -0.999 and far > 1e-9:
        # A half turn: its bow stands over both legs, and a corner each stands for it.
        reach, drop = 0.0, 0.0
        for k in range(3):
            reach -= (row[19 + k] - row[13 + k]) * row[3 + k]
        for k in range(3):
            drop += (row[19 + k] - row[13 + k] + reach * row[3 + k]) ** 2
        bow = max(reach, 0.0) + sqrt(drop) / 2.0
        for k in range(3):
            p[1, k] = row[19 + k] - (bow - reach) * row[3 + k]
            p[2, k] = row[13 + k] - bow * row[3 + k]
        m = 3
    else:
        p[1, :] = row[16:19]
        m = 2
    p[m, :] = row[13:16]
    p[m + 1, :] = row[0:3]
    m += 2
    if way > 0.0:
        h[n] = p[0, 2]
        n += 1
        for i in range(1, m):
            n = _along(
                rule,
                p[i - 1, 2],
                p[i, 0] - p[i - 1, 0],
                p[i, 1] - p[i - 1, 1],
                p[i, 2] - p[i - 1, 2],
                h,
                n,
                sums,
            )
        return n
    if n == 0:
        h[0] = p[m - 1, 2]
        n = 1
    for i in range(m - 1, 0, -1):
        n = _along(
            rule,
            p[i, 2],
            p[i - 1, 0] - p[i, 0],
            p[i - 1, 1] - p[i, 1],
            p[i - 1, 2] - p[i, 2],
            h,
            n,
            sums,
        )
    return n


@njit
def _leg(
    rule: Floats,
    a: Floats,
    b: Floats,
    found: Joined,
    radius: float,
    h: Floats,
    n: int,
    sums: Floats,
) -> int:
    """Heights along one curve-straight-curve, after its start."""
    _, u1, u2, bx, by, bz, cx, cy, cz = found
    n = _round(rule, a[2], a[5], bz, u1, radius, h, n, sums)
    s1, r1 = radius * sin(u1), radius * (1.0 - cos(u1))
    s2, r2 = radius * sin(u2), radius * (1.0 - cos(u2))
    x1, y1, z1 = a[0] + s1 * a[3] + r1 * bx, a[1] + s1 * a[4] + r1 * by, a[2] + s1 * a[5] + r1 * bz
    x2, y2, z2 = b[0] + s2 * b[3] + r2 * cx, b[1] + s2 * b[4] + r2 * cy, b[2] + s2 * b[5] + r2 * cz
    n = _along(rule, z1, x2 - x1, y2 - y1, z2 - z1, h, n, sums)
    # The last arc backwards: it begins against its own end, and bends the same way.
    up = -(cos(u2) * b[5] + sin(u2) * cz)
    inward = cos(u2) * cz - sin(u2) * b[5]
    return _round(rule, z2, up, inward, u2, radius, h, n, sums)


@njit
def _broken(rule: Floats, h: Floats, n: int, sums: Floats) -> float:
    """By how much heights break a rule [m]; 0 where they keep it."""
    if rule[0] == 1.0:
        steep = max(0.0, sums[1] + rule[2] - SAME)
        return sums[0] + 0.05 * steep if steep > 0.0 else 0.0
    worst = 0.0
    if rule[0] == 2.0:
        top = -inf
        for i in range(n):
            top = max(top, rule[1] * h[i])
            worst = max(worst, top - rule[1] * h[i])
    elif rule[0] == 3.0:
        for i in range(1, n - 1):
            before, after = inf, inf
            for k in range(i):
                before = min(before, rule[1] * h[k])
            for k in range(i + 1, n):
                after = min(after, rule[1] * h[k])
            worst = max(worst, rule[1] * h[i] - max(before, after))
    return worst if worst > rule[2] else 0.0


@njit
def broken(
    rule: Floats,
    stick_a: float,
    stick_b: float,
    ones: Floats,
    twos: Floats,
    radius: float,
    h: Floats,
) -> float:
    """By how much a course of one leg or more breaks a rule [m], hose ends counted.

    Leg k runs from ``ones[k]`` to ``twos[k]``; the first and the last stand for hose ends.
    """
    sums = np.array([0.0, -1.0])
    legs = ones.shape[0]
    n = _end(rule, ones[0], stick_a, 1.0, h, 0, sums)
    for k in range(legs):
        found = between(ones[k], twos[k], radius)
        if not isfinite(found[0]) or n > HIGH - 16:
            return inf
        n = _leg(rule, ones[k], twos[k], found, radius, h, n, sums)
    n = _end(rule, twos[legs - 1], stick_b, -1.0, h, n, sums)
    return _broken(rule, h, n, sums)


@njit
def toll(
    rule: Floats,
    stick_a: float,
    stick_b: float,
    one: Floats,
    two: Floats,
    found: Joined,
    radius: float,
    h: Floats,
) -> float:
    """What a course costs for breaking its rule."""
    sums = np.array([0.0, -1.0])
    n = _end(rule, one, stick_a, 1.0, h, 0, sums)
    n = _leg(rule, one, two, found, radius, h, n, sums)
    n = _end(rule, two, stick_b, -1.0, h, n, sums)
    fault = _broken(rule, h, n, sums)
    return rule[3] + rule[4] * fault if fault > 0.0 else 0.0


@njit
def keeps(rule: Floats, turned: bool, a: Floats, b: Floats, found: Joined, radius: float) -> bool:
    """Whether one leg keeps a rule, after what went before.

    ``turned`` tells of kind 3 that the heights have risen, so that they must not fall any more.
    """
    if rule[0] == 0.0:
        return True
    h, sums = np.empty(HIGH), np.array([0.0, -1.0])
    h[0] = a[2]
    n = _leg(rule, a, b, found, radius, h, 1, sums)
    if rule[0] == 1.0:
        return bool(sums[1] <= SAME - rule[2])
    top, low, risen = rule[1] * h[0], rule[1] * h[0], turned or rule[0] == 2.0
    for i in range(1, n):
        here = rule[1] * h[i]
        if risen and here < top - 1e-3:
            return False
        if here > low + 1e-3:
            risen = True
        top, low = max(top, here), min(low, here)
    return True


@njit
def grows(rule: Floats, turned: bool, z: float, up: float, z1: float, up1: float) -> int:
    """Whether a short piece keeps a rule: -1 if not, else 1 where heights have risen by now.

    It goes from height z with slope ``up`` to z1 with ``up1``.
    """
    if rule[0] == 0.0:
        return 0
    if rule[0] == 1.0:
        return 0 if max(up, up1) <= SAME - rule[2] else -1
    rise = rule[1] * (z1 - z)
    if (turned or rule[0] == 2.0) and rise < -1e-3:
        return -1
    return 1 if turned or rise > 1e-3 else 0


@njit
def risen(rule: Floats, row: Floats, way: float) -> bool:
    """Whether heights rise along a hose end from its seat (way 1) or to its seat (-1)."""
    rise = 0.0
    rise = max(rise, way * rule[1] * (row[18] - row[21]))
    rise = max(rise, way * rule[1] * (row[15] - row[18]))
    rise = max(rise, way * rule[1] * (row[2] - row[15]))
    return bool(rise > 1e-3)


@njit
def ends_keep(rule: Floats, rows: Floats, sticks: Floats, way: float, ok: Flags) -> None:
    """Strike out settings of an end that break a rule by themselves."""
    h = np.empty(HIGH)
    for i in range(rows.shape[0]):
        sums = np.array([0.0, -1.0])
        n = _end(rule, rows[i], sticks[i], way, h, 0, sums)
        ok[i] = ok[i] and _broken(rule, h, n, sums) == 0.0
