# SPDX-License-Identifier: Apache-2.0
"""Shortest curve-straight-curve between two directed points in space: the compiled part.

With least radius R, start and end a distance D apart, unit directions a (leaving) and e
(arriving), and turns θ1, θ2 at the ends, the middle straight lies on the line between the
corners P1 = A + t1·a and P2 = B - t2·e, where t = R·tan(θ/2) is negative for a turn over
180°. Hence W = D - t1·a - t2·e is w·d with d the direction of the straight and
w = t1 + straight + t2. All that matters are the scalars p = a·D, q = e·D, k = a·e and D·D.
For a given θ1, w·cos θ1 = a·W makes t2 a root of a quadratic, and what is left is one
equation, e·W = w·cos θ2, in θ1 alone: its sign is followed round the circle on both roots
and each change of it is a path. In the plane these are
the four curve-straight-curve words of Dubins (1957); the derivation is our own.
"""

from math import atan2, cos, inf, isfinite, pi, sin, sqrt, tan
from typing import TYPE_CHECKING, TypeAlias

from linewright.base.kernels import njit

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

Floats: TypeAlias = "NDArray[np.float64]"
Four = tuple[float, float, float, float]
# Length, turn at the start, turn at the end, direction of the straight.
Joined = tuple[float, float, float, float, float, float]

# Places in each quarter of the circle of θ1 at which the equation is tried.
PLACES = 45
# Within this many radii the aiming may not settle, and the circle is searched too.
NEAR = 6.0
ROUNDS = 80
EXACT = 1e-11


@njit
def _reach(side: float, px: float, py: float, pz: float, ax: float, ay: float, az: float) -> Four:
    """Turn from the origin along a, then straight to a point: turn and where it ends.

    It turns towards the point (side 1) or away from it (-1) on a circle of radius 1. In its
    plane, x along a and y inward, x + i(y-1) = (straight - i)·exp(i·turn). A turn below
    nothing means that the point lies within the circle.
    """
    x = px * ax + py * ay + pz * az
    ux, uy, uz = px - x * ax, py - x * ay, pz - x * az
    y = sqrt(ux * ux + uy * uy + uz * uz)
    if y < 1e-13:
        # Straight ahead; or behind, where any way round is as good.
        y = 0.0
        if abs(az) < 0.999:
            ux, uy, uz = -ay, ax, 0.0
        else:
            ux, uy, uz = 0.0, -az, ay
        size = sqrt(ux * ux + uy * uy + uz * uz)
        ux, uy, uz = ux / size, uy / size, uz / size
    else:
        ux, uy, uz = side * ux / y, side * uy / y, side * uz / y
        y = side * y
    far = x * x + y * y - 2.0 * y
    if far < 0.0:
        if far < -1e-12:
            return -1.0, 0.0, 0.0, 0.0
        far = 0.0
    turn = atan2(y - 1.0, x) + atan2(1.0, sqrt(far))
    if turn < 0.0:
        turn += 2.0 * pi
    if turn > 2.0 * pi - 1e-9:
        turn = 0.0
    s, r = sin(turn), 1.0 - cos(turn)
    return turn, s * ax + r * ux, s * ay + r * uy, s * az + r * uz


@njit
def _seesaw(
    side1: float,
    side2: float,
    dx: float,
    dy: float,
    dz: float,
    ax: float,
    ay: float,
    az: float,
    ex: float,
    ey: float,
    ez: float,
) -> Joined:
    """One of four paths by aiming each end at the other's last tangent point in turn.

    Gives (length, turn 1, turn 2, direction of the straight); inf if it does not settle.
    Far apart, it nears its answer by the square of the distance in radii each time.
    """
    sx, sy, sz = 0.0, 0.0, 0.0
    tx, ty, tz = dx, dy, dz
    for n in range(ROUNDS):
        u1, gx, gy, gz = _reach(side1, tx, ty, tz, ax, ay, az)
        if u1 < 0.0:
            return inf, 0.0, 0.0, 0.0, 0.0, 0.0
        u2, hx, hy, hz = _reach(side2, gx - dx, gy - dy, gz - dz, -ex, -ey, -ez)
        if u2 < 0.0:
            return inf, 0.0, 0.0, 0.0, 0.0, 0.0
        hx, hy, hz = hx + dx, hy + dy, hz + dz
        moved = abs(hx - tx) + abs(hy - ty) + abs(hz - tz)
        moved += abs(gx - sx) + abs(gy - sy) + abs(gz - sz)
        sx, sy, sz, tx, ty, tz = gx, gy, gz, hx, hy, hz
        if moved < EXACT:
            wx, wy, wz = tx - sx, ty - sy, tz - sz
            w = sqrt(wx * wx + wy * wy + wz * wz)
            if w < 1e-6:
                # Arc on arc: the direction comes from the first one alone.
                break
            return u1 + u2 + w, u1, u2, wx / w, wy / w, wz / w
        if n == 12 and moved > 0.3:
            break
    return inf, 0.0, 0.0, 0.0, 0.0, 0.0


@njit
def _room(t1: float, cc: float, p: float, q: float, k: float, dd: float) -> Four:
    """Quadratic for t2 at a given θ1: its three factors and what stands under the root."""
    pt = p - t1
    a = k * k - cc
    b = -2.0 * k * pt - 2.0 * cc * (k * t1 - q)
    c = pt * pt - cc * (dd + t1 * t1 - 2.0 * t1 * p)
    return a, b, c, b * b - 4.0 * a * c


@njit
def _miss(
    t1: float,
    c1: float,
    root: float,
    a: float,
    b: float,
    c: float,
    s: float,
    p: float,
    q: float,
    k: float,
    dd: float,
) -> tuple[float, float, float]:
    """How far e·W/w is from cos θ2 on one branch, with t2 and w. s is the square root."""
    # The same root in the form that does not cancel.
    num, den = root * s - b, 2.0 * a
    if root * b > 0.0:
        num, den = -2.0 * c, b + root * s
    if den == 0.0:
        return 2.0, 1e300, 1.0
    t2 = num / den
    aw = p - t1 - k * t2
    ew = q - k * t1 - t2
    # w·w of W = D - t1·a - t2·e
    w = sqrt(max(dd + t1 * t1 + t2 * t2 - 2.0 * (t1 * p + t2 * q - k * t1 * t2), 1e-18))
    if aw * c1 < 0.0:
        w = -w
    tt = t2 * t2
    return (1.0 - tt) / (1.0 + tt) - ew / w, t2, w


@njit
def _at(theta: float, root: float, p: float, q: float, k: float, dd: float) -> Four:
    """The same at any θ1; where the quadratic has no root, its nearest place to one."""
    t1, c1 = tan(0.5 * theta), cos(theta)
    a, b, c, disc = _room(t1, c1 * c1, p, q, k, dd)
    f, t2, w = _miss(t1, c1, root, a, b, c, sqrt(max(disc, 0.0)), p, q, k, dd)
    return f, t1, t2, w


@njit
def _gap(t: float, x: float) -> float:
    """By how much an arc of tangent t misses a direction whose cosine to its start is x."""
    x = min(1.0, max(-1.0, x))
    return abs(abs(t) * sqrt(2.0 * (1.0 + x)) - sqrt(2.0 * (1.0 - x)))


@njit
def _edge(low: float, high: float, is_low: bool, p: float, q: float, k: float, dd: float) -> float:
    """Where the quadratic starts or ceases to have roots between two places, just inside."""
    for _ in range(40):
        middle = 0.5 * (low + high)
        c1 = cos(middle)
        _, _, _, disc = _room(tan(0.5 * middle), c1 * c1, p, q, k, dd)
        if (disc >= 0.0) == is_low:
            low = middle
        else:
            high = middle
    return low if is_low else high


@njit
def _settled(
    x0: float, x1: float, f0: float, f1: float, root: float, p: float, q: float, k: float, dd: float
) -> Four:
    """The path between two places where the sign changes: (length, t1, t2, w) or inf."""
    t1, t2, w = 0.0, 0.0, 1.0
    for n in range(40):
        # Regula falsi, halved as the Illinois rule has it, with the middle every third time.
        x = 0.5 * (x0 + x1) if n % 3 == 2 else x1 - f1 * (x1 - x0) / (f1 - f0)
        f, t1, t2, w = _at(x, root, p, q, k, dd)
        if abs(f) < 1e-15 or abs(x1 - x0) < 1e-15:
            break
        if (f < 0.0) != (f1 < 0.0):
            x0, f0 = x1, f1
        else:
            f0 *= 0.5
        x1, f1 = x, f
        if f1 == f0:
            break
    # Where t2 runs to infinity the sign changes too, and no path is there.
    if _gap(t1, (p - t1 - k * t2) / w) > 1e-6 or _gap(t2, (q - k * t1 - t2) / w) > 1e-6:
        return inf, 0.0, 0.0, 1.0
    size, _, _ = _length(t1, t2, w)
    return size, t1, t2, w


@njit
def _length(t1: float, t2: float, w: float) -> tuple[float, float, float]:
    """Length for radius 1 and both turns; inf where the straight would run backwards."""
    straight = w - t1 - t2
    if not isfinite(straight) or straight < -1e-9:
        return inf, 0.0, 0.0
    u1 = 2.0 * atan2(t1, 1.0)
    u2 = 2.0 * atan2(t2, 1.0)
    if u1 < 0.0:
        u1 += 2.0 * pi
    if u2 < 0.0:
        u2 += 2.0 * pi
    # A hair below nothing is nothing, not a full loop.
    if u1 > 2.0 * pi - 1e-7:
        u1 = 0.0
    if u2 > 2.0 * pi - 1e-7:
        u2 = 0.0
    return u1 + u2 + max(straight, 0.0), u1, u2


@njit
def _round(p: float, q: float, k: float, dd: float, places: int) -> Four:
    """Best of all curve-straight-curve paths for radius 1: (length, t1, t2, w)."""
    best, b1, b2, bw = inf, 0.0, 0.0, 1.0
    for part in range(4):
        # Quarter by quarter, for w may change its sign where cos θ1 does.
        begin = 0.5 * pi * part - (1e-7 if part == 0 else -1e-10)
        step = (0.5 * pi * (part + 1) - 1e-10 - begin) / places
        x0, is0, n0, m0 = 0.0, False, 0.0, 0.0
        for i in range(places + 1):
            x1 = begin + i * step
            t1, c1 = tan(0.5 * x1), cos(x1)
            a, b, c, disc = _room(t1, c1 * c1, p, q, k, dd)
            is1 = disc >= 0.0
            n1, m1 = 0.0, 0.0
            if is1:
                s = sqrt(disc)
                n1, _, _ = _miss(t1, c1, -1.0, a, b, c, s, p, q, k, dd)
                m1, _, _ = _miss(t1, c1, 1.0, a, b, c, s, p, q, k, dd)
            y0, y1, g0, g1, h0, h1 = x0, x1, n0, n1, m0, m1
            if i > 0 and is0 != is1:
                rim = _edge(x0, x1, is0, p, q, k, dd)
                f, _, _, _ = _at(rim, -1.0, p, q, k, dd)
                h, _, _, _ = _at(rim, 1.0, p, q, k, dd)
                if is0:
                    y1, g1, h1 = rim, f, h
                else:
                    y0, g0, h0 = rim, f, h
            if i > 0 and (is0 or is1):
                if (g0 < 0.0) != (g1 < 0.0):
                    size, t1, t2, w = _settled(y0, y1, g0, g1, -1.0, p, q, k, dd)
                    if size < best:
                        best, b1, b2, bw = size, t1, t2, w
                if (h0 < 0.0) != (h1 < 0.0):
                    size, t1, t2, w = _settled(y0, y1, h0, h1, 1.0, p, q, k, dd)
                    if size < best:
                        best, b1, b2, bw = size, t1, t2, w
            x0, is0, n0, m0 = x1, is1, n1, m1
    return best, b1, b2, bw


@njit
def joined(
    dx: float,
    dy: float,
    dz: float,
    ax: float,
    ay: float,
    az: float,
    ex: float,
    ey: float,
    ez: float,
) -> Joined:
    """Shortest curve-straight-curve for radius 1.

    From the origin along unit a to D, arriving along unit e: (length, turn 1, turn 2,
    direction of the straight). The length is inf where there is none.
    """
    best = _seesaw(1.0, 1.0, dx, dy, dz, ax, ay, az, ex, ey, ez)
    # Two moderate turns cannot be bettered by going round the other way.
    if best[0] < inf and best[1] < 2.0 and best[2] < 2.0 and best[1] + best[2] < 3.2:
        return best
    for way in range(1, 4):
        side1 = -1.0 if way & 1 else 1.0
        side2 = -1.0 if way & 2 else 1.0
        other = _seesaw(side1, side2, dx, dy, dz, ax, ay, az, ex, ey, ez)
        if other[0] < best[0] - 1e-9:
            best = other
    dd = dx * dx + dy * dy + dz * dz
    if dd < NEAR * NEAR or best[0] == inf:
        p = ax * dx + ay * dy + az * dz
        q = ex * dx + ey * dy + ez * dz
        k = ax * ex + ay * ey + az * ez
        size, t1, t2, w = _round(p, q, k, dd, PLACES)
        if size < best[0] - 1e-7:
            size, u1, u2 = _length(t1, t2, w)
            fx = (dx - t1 * ax - t2 * ex) / w
            fy = (dy - t1 * ay - t2 * ey) / w
            fz = (dz - t1 * az - t2 * ez) / w
            return size, u1, u2, fx, fy, fz
    return best


@njit
def many(
    starts: Floats, leaving: Floats, ends: Floats, arriving: Floats, lengths: Floats, turns: Floats
) -> None:
    """`joined` for each row of arrays that are scaled to radius 1; fills lengths and turns."""
    for i in range(starts.shape[0]):
        size, u1, u2, _, _, _ = joined(
            ends[i, 0] - starts[i, 0],
            ends[i, 1] - starts[i, 1],
            ends[i, 2] - starts[i, 2],
            leaving[i, 0],
            leaving[i, 1],
            leaving[i, 2],
            arriving[i, 0],
            arriving[i, 1],
            arriving[i, 2],
        )
        lengths[i] = size
        turns[i, 0] = u1
        turns[i, 1] = u2


@njit
def pairs(
    starts: Floats, leaving: Floats, ends: Floats, arriving: Floats, lengths: Floats, turns: Floats
) -> None:
    """`joined` from each start to each end, scaled to radius 1; fills lengths and turns."""
    for i in range(starts.shape[0]):
        for j in range(ends.shape[0]):
            size, u1, u2, _, _, _ = joined(
                ends[j, 0] - starts[i, 0],
                ends[j, 1] - starts[i, 1],
                ends[j, 2] - starts[i, 2],
                leaving[i, 0],
                leaving[i, 1],
                leaving[i, 2],
                arriving[j, 0],
                arriving[j, 1],
                arriving[j, 2],
            )
            lengths[i, j] = size
            turns[i, j, 0] = u1
            turns[i, j, 1] = u2


@njit
def _first(
    angle: float,
    swing: float,
    ux: float,
    uy: float,
    uz: float,
    vx: float,
    vy: float,
    vz: float,
    dx: float,
    dy: float,
    dz: float,
    ax: float,
    ay: float,
    az: float,
    ex: float,
    ey: float,
    ez: float,
) -> Joined:
    """What follows an extra first arc of ``angle`` in the plane at ``swing`` about a."""
    s, c = sin(angle), cos(angle)
    cs, sn = cos(swing), sin(swing)
    mx, my, mz = cs * ux + sn * vx, cs * uy + sn * vy, cs * uz + sn * vz
    r = 1.0 - c
    return joined(
        dx - s * ax - r * mx,
        dy - s * ay - r * my,
        dz - s * az - r * mz,
        c * ax + s * mx,
        c * ay + s * my,
        c * az + s * mz,
        ex,
        ey,
        ez,
    )


@njit
def detour(
    ux: float,
    uy: float,
    uz: float,
    dx: float,
    dy: float,
    dz: float,
    ax: float,
    ay: float,
    az: float,
    ex: float,
    ey: float,
    ez: float,
) -> tuple[float, float, Joined]:
    """Best extra first arc before a curve-straight-curve: its angle, its swing, what follows.

    u is a unit direction square to a, from which the swing is counted. With no straight
    left between its arcs it is curve-curve-curve.
    """
    vx, vy, vz = ay * uz - az * uy, az * ux - ax * uz, ax * uy - ay * ux
    best, angle, swing = inf, 0.0, 0.0
    after = (inf, 0.0, 0.0, 0.0, 0.0, 0.0)
    for i in range(1, 9):
        for j in range(16):
            x, y = pi * i / 8.0, pi * j / 8.0
            then = _first(x, y, ux, uy, uz, vx, vy, vz, dx, dy, dz, ax, ay, az, ex, ey, ez)
            if x + then[0] < best - 1e-9:
                best, angle, swing, after = x + then[0], x, y, then
    # Downhill from the best place of the grid; eight ways, each time half as far.
    step = pi / 16.0
    while best < inf and step > 1e-5:
        found = False
        for k in range(8):
            x = angle + step * cos(pi * k / 4.0)
            y = swing + step * sin(pi * k / 4.0)
            if x <= 0.0 or x > 1.5 * pi:
                continue
            then = _first(x, y, ux, uy, uz, vx, vy, vz, dx, dy, dz, ax, ay, az, ex, ey, ez)
            if x + then[0] < best - 1e-9:
                best, angle, swing, after = x + then[0], x, y, then
                found = True
        if not found:
            step *= 0.5
    return angle, swing, after
