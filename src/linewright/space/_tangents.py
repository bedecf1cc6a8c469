# SPDX-License-Identifier: Apache-2.0
"""Every curve-straight-curve between two directed points in space, by a search of one angle.

With least radius 1, start and end a distance D apart, unit directions a (leaving) and e
(arriving), and turns θ1, θ2 at the ends, the middle straight lies on the line between the
corners P1 = A + t1·a and P2 = B - t2·e, where t = tan(θ/2) is negative for a turn over 180°.
Hence W = D - t1·a - t2·e is w·d with d the direction of the straight and
w = t1 + straight + t2. All that matters are the scalars p = a·D, q = e·D, k = a·e and D·D.
For a given θ1, w·cos θ1 = a·W makes t2 a root of a quadratic, and what is left is one
equation, e·W = w·cos θ2, in θ1 alone: its sign is followed round the circle on both roots
and each change of it is a path. The derivation is our own. Paths that lie closer together
than the places tried can be missed.
"""

from math import atan2, cos, inf, isfinite, pi, sqrt, tan

from linewright.base.kernels import njit

Four = tuple[float, float, float, float]

# As near to 0 as this at a place, the equation may change its sign twice before the next.
BRIEF = 0.2


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
    size, _, _ = arc_lengths(t1, t2, w)
    return size, t1, t2, w


@njit
def arc_lengths(t1: float, t2: float, w: float) -> tuple[float, float, float]:
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
def searched(p: float, q: float, k: float, dd: float, places: int) -> Four:
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
                for branch in range(2):
                    root, f0, f1 = -1.0, g0, g1
                    if branch == 1:
                        root, f0, f1 = 1.0, h0, h1
                    z0, z1 = y0, y1
                    if (f0 < 0.0) == (f1 < 0.0) and min(abs(f0), abs(f1)) < BRIEF:
                        # It may change its sign twice within: look once more between.
                        middle = 0.5 * (y0 + y1)
                        f, _, _, _ = _at(middle, root, p, q, k, dd)
                        if (f < 0.0) != (f0 < 0.0):
                            size, t1, t2, w = _settled(y0, middle, f0, f, root, p, q, k, dd)
                            if size < best:
                                best, b1, b2, bw = size, t1, t2, w
                            z0, f0 = middle, f
                    if (f0 < 0.0) != (f1 < 0.0):
                        size, t1, t2, w = _settled(z0, z1, f0, f1, root, p, q, k, dd)
                        if size < best:
                            best, b1, b2, bw = size, t1, t2, w
            x0, is0, n0, m0 = x1, is1, n1, m1
    return best, b1, b2, bw
