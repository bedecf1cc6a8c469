# SPDX-License-Identifier: Apache-2.0
"""Every curve-straight-curve between two directed points in space, by a search of one angle.

With least radius 1, start and end a distance D apart, unit directions a (leaving) and e
(arriving), and turns θ1, θ2 at the ends, the middle straight lies on the line between the
corners P1 = A + t1·a and P2 = B - t2·e, where t = tan(θ/2) is negative for a turn over 180°.
Hence W = D - t1·a - t2·e is w·d with d the direction of the straight and
w = t1 + straight + t2. All that matters are the scalars p = a·D, q = e·D, k = a·e and D·D.

For a given θ1, w·cos θ1 = a·W makes t2 a root of a quadratic. With s and c the sine and cosine
of θ1/2, C = cos² θ1, g = p - 4s³c and M = k² - C it is

    M·t2² - 2(kg - Cq)·t2 + g² + C(4s⁴ - D·D) = 0, so
    t2 = (kg - Cq ± cos θ1·√Δ) / M with Δ = g² - 2kgq + Cq² + M(D·D - 4s⁴),

which stays finite where t1 does not, and runs smoothly all round but where Δ < 0. What is left
is one equation, e·W = w·cos θ2, in θ1 alone: its sign is followed round the circle on both
roots and each change of it is a path. Where it touches nothing between two places, the vertex
of a parabola is looked at, for there it may change its sign twice. The derivation is our own.
"""

from math import atan2, cos, inf, isfinite, pi, sin, sqrt

import numpy as np

from linewright.base.kernels import njit

Four = tuple[float, float, float, float]

# So near the end of what can be another place is looked at, for there the equation runs as a
# root does; a share of the distance to the next place.
RIM = 0.08


@njit
def _root(s: float, c: float, p: float, q: float, k: float, dd: float) -> float:
    """What stands under the root of the quadratic."""
    c1 = 1.0 - 2.0 * s * s
    cc = c1 * c1
    g = p - 4.0 * s * s * s * c
    return g * (g - 2.0 * k * q) + cc * q * q + (k * k - cc) * (dd - 4.0 * s * s * s * s)


@njit
def _missed(
    s: float, c: float, sign: float, p: float, q: float, k: float, dd: float
) -> tuple[float, float, float, float]:
    """How far e·W/w is from cos θ2 on one root, with t1, t2 and w; by θ1/2's sine and cosine."""
    c1 = 1.0 - 2.0 * s * s
    cc = c1 * c1
    s4 = 4.0 * s * s * s * s
    g = p - 4.0 * s * s * s * c
    m = k * k - cc
    r = sqrt(max(g * (g - 2.0 * k * q) + cc * q * q + m * (dd - s4), 0.0))
    even, odd = k * g - cc * q, sign * c1 * r
    # The same root in the form that does not cancel: t2 = num / den.
    num, den = even + odd, m
    if even * odd < 0.0:
        num, den = g * g + cc * (s4 - dd), even - odd
    size = num * num + den * den
    if size < 1e-300 or den == 0.0 or abs(c) < 1e-12:
        return 2.0, 0.0, 0.0, 1.0
    # All that follows is t1, t2 and W times c and den, which may be 0.
    y1, y2 = s * den, num * c
    x = c * den
    ww = sqrt(
        max(dd * x * x + y1 * y1 + y2 * y2 - 2.0 * (y1 * p * x + y2 * q * x - k * y1 * y2), 0.0)
    )
    if ww < 1e-150 or x == 0.0:
        return 2.0, 0.0, 0.0, 1.0
    if abs(c1) > 0.1:
        way = (p * x - y1 - k * y2) * c1
    else:
        way = -(c1 * (g * c + s * m - k * q * c) + sign * k * r * c) * m * c * x
    if way < 0.0:
        ww = -ww
    f = (den * den - num * num) / size - (q * x - k * y1 - y2) / ww
    return f, s / c, num / den, ww / x


@njit
def _miss(
    theta: float, sign: float, p: float, q: float, k: float, dd: float
) -> tuple[float, float, float, float]:
    """The same by θ1 itself."""
    return _missed(sin(0.5 * theta), cos(0.5 * theta), sign, p, q, k, dd)


@njit
def _both(
    s: float, c: float, p: float, q: float, k: float, dd: float, under: float
) -> tuple[float, float]:
    """How far both roots miss, as `_missed` has it; ``under`` is what stands under them."""
    c1 = 1.0 - 2.0 * s * s
    cc = c1 * c1
    g = p - 4.0 * s * s * s * c
    m = k * k - cc
    r = sqrt(max(under, 0.0))
    even, odd = k * g - cc * q, c1 * r
    is_less = even * odd < 0.0
    # t2 of the root that does not cancel is wide / m, of the other product / wide.
    wide = even - odd if is_less else even + odd
    product = g * g + cc * (4.0 * s * s * s * s - dd)
    turned = c1 * (g * c + s * m - k * q * c)
    way = k * r * c
    one = _off(s, c, c1, wide, m, p, q, k, dd, turned + (-way if is_less else way), m)
    two = _off(s, c, c1, product, wide, p, q, k, dd, turned + (way if is_less else -way), m)
    return (one, two) if is_less else (two, one)


@njit
def _off(
    s: float,
    c: float,
    c1: float,
    num: float,
    den: float,
    p: float,
    q: float,
    k: float,
    dd: float,
    turned: float,
    m: float,
) -> float:
    """How far e·W/w is from cos θ2 where t2 is num / den; all lengths times c and den."""
    size = num * num + den * den
    x, y1, y2 = c * den, s * den, num * c
    if size < 1e-300 or x == 0.0 or abs(c) < 1e-12:
        return 2.0
    to_a, to_e = p * x - y1 - k * y2, q * x - k * y1 - y2
    # W·W is W·D less what t1 and t2 take off it.
    square = dd * x * x - p * x * y1 - q * x * y2 - y1 * to_a - y2 * to_e
    if square < 1e-300:
        return 2.0
    w = sqrt(square)
    if (to_a * c1 if abs(c1) > 0.1 else -turned * m * c * x) < 0.0:
        w = -w
    return ((den * den - num * num) * w - to_e * size) / (size * w)


@njit
def _gap(t: float, x: float) -> float:
    """By how much an arc of tangent t misses a direction whose cosine to its start is x."""
    x = min(1.0, max(-1.0, x))
    return abs(abs(t) * sqrt(2.0 * (1.0 + x)) - sqrt(2.0 * (1.0 - x)))


@njit
def _vertex(x0: float, x1: float, x2: float, f0: float, f1: float, f2: float) -> float:
    """Where the parabola through three places is level; the middle one where it is none."""
    if x0 == x1 or x1 == x2:
        return x1
    d0, d1 = (f1 - f0) / (x1 - x0), (f2 - f1) / (x2 - x1)
    if d0 == d1 or not isfinite(d1 - d0):
        return x1
    v = 0.5 * (x0 + x1) - 0.5 * d0 * (x2 - x0) / (d1 - d0)
    return min(max(v, x0), x2)


@njit
def _edge(inside: float, beyond: float, p: float, q: float, k: float, dd: float) -> float:
    """Where the quadratic ceases to have roots between two places, just inside."""
    f0 = _root(sin(0.5 * inside), cos(0.5 * inside), p, q, k, dd)
    f1 = _root(sin(0.5 * beyond), cos(0.5 * beyond), p, q, k, dd)
    for n in range(30):
        share = f0 / (f0 - f1) if n % 3 < 2 and f0 > f1 else 0.5
        x = inside + (beyond - inside) * share
        f = _root(sin(0.5 * x), cos(0.5 * x), p, q, k, dd)
        if f >= 0.0:
            inside, f0 = x, f
            if n % 3 == 0:
                f1 *= 0.5
        else:
            beyond, f1 = x, f
            if n % 3 == 0:
                f0 *= 0.5
        if abs(beyond - inside) < 1e-12 or 0.0 <= f < 1e-14:
            break
    return inside


@njit
def _settled(
    x0: float,
    x1: float,
    f0: float,
    f1: float,
    sign: float,
    p: float,
    q: float,
    k: float,
    dd: float,
    most: float,
) -> Four:
    """The path between two places where the sign changes: (length, t1, t2, w) or inf.

    One that plainly runs backwards is given up early.
    """
    t1, t2, w = 0.0, 0.0, 1.0
    slow = 0
    for n in range(50):
        # Regula falsi as Anderson and Björck (1973) have it; the middle where that is slow.
        x = 0.5 * (x0 + x1) if slow > 1 else x1 - f1 * (x1 - x0) / (f1 - f0)
        wide = abs(x1 - x0)
        f, t1, t2, w = _miss(x, sign, p, q, k, dd)
        if abs(f) < 1e-14:
            break
        is_settling = n > 1 and abs(f) < 1e-5 and wide < 0.05
        if is_settling and w - t1 - t2 < -0.05 * (1.0 + abs(t1) + abs(t2)):
            return inf, 0.0, 0.0, 1.0
        if (f < 0.0) != (f1 < 0.0):
            x0, f0 = x1, f1
        else:
            share = 1.0 - f / f1
            f0 *= share if share > 0.0 else 0.5
        x1, f1 = x, f
        if abs(x1 - x0) < 1e-14 or f1 == f0:
            break
        slow = 0 if slow > 1 or abs(x1 - x0) < 0.5 * wide else slow + 1
    # Where W vanishes the sign changes too, and no path is there.
    if w == 0.0:
        return inf, 0.0, 0.0, 1.0
    if _gap(t1, (p - t1 - k * t2) / w) > 1e-6 or _gap(t2, (q - k * t1 - t2) / w) > 1e-6:
        return inf, 0.0, 0.0, 1.0
    size, u1, u2 = arc_lengths(t1, t2, w)
    return (size if max(u1, u2) <= most else inf), t1, t2, w


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
def _square(q: float, dd: float, limit: float, most: float) -> Four:
    """Best path whose first turn is a quarter, for ends square to each other one radius on.

    With k = 0 and p = 1 any t2 solves the quadratic at θ1 = 90°, so θ2 is searched instead.
    """
    best, b2, bw = limit, 0.0, 1.0
    x0, f0 = 0.0, 0.0
    for i in range(91):
        x1 = 1e-9 + (2.0 * pi - 2e-9) * i / 90.0
        f1 = _square_miss(x1, q, dd)
        if i > 0 and (f0 < 0.0) != (f1 < 0.0):
            low, high = x0, x1
            for _ in range(60):
                middle = 0.5 * (low + high)
                if (_square_miss(middle, q, dd) < 0.0) == (f0 < 0.0):
                    low = middle
                else:
                    high = middle
            c = cos(0.5 * low)
            if abs(c) > 1e-6:
                t2 = sin(0.5 * low) / c
                w = sqrt(max(dd - 1.0 + t2 * t2 - 2.0 * t2 * q, 0.0))
                size, u1, u2 = arc_lengths(1.0, t2, w)
                fits = size < best and max(u1, u2) <= most and w > 0.0
                if fits and _gap(t2, (q - t2) / w) < 1e-6:
                    best, b2, bw = size, t2, w
        x0, f0 = x1, f1
    return (best if best < limit else inf), 1.0, b2, bw


@njit
def _square_miss(theta: float, q: float, dd: float) -> float:
    s, c = sin(0.5 * theta), cos(0.5 * theta)
    way = 1.0 if c > 0.0 else -1.0
    w = sqrt(max((dd - 1.0) * c * c + s * s - 2.0 * s * c * q, 0.0))
    return (q * c - s) * way - w * cos(theta)


@njit
def searched(
    p: float, q: float, k: float, dd: float, places: int, limit: float, most: float
) -> Four:
    """Best of all curve-straight-curve paths shorter than a limit: (length, t1, t2, w) or inf.

    For radius 1. ``places`` are tried in each quarter of the circle; neither arc turns by
    more than ``most``.
    """
    best, b1, b2, bw = limit, 0.0, 0.0, 1.0
    if abs(k) < 1e-9 and abs(p - 1.0) < 1e-9:
        size, t1, t2, w = _square(q, dd, best, most)
        if size < best:
            best, b1, b2, bw = size, t1, t2, w
    far = sqrt(dd)
    step = 2.0 * pi / (4 * places)
    # A little aside, for at a half turn and at none the tangents are not to be had.
    begin = -1e-7
    # Of each root: the place before, the one before that, and what was missed there; how many.
    x0, x9 = np.zeros(2), np.zeros(2)
    f0, f9 = np.zeros(2), np.zeros(2)
    m = 0
    before, was, at = False, False, begin
    root9, root0 = 0.0, 0.0
    ys = np.zeros(3)
    sx, cx = sin(0.5 * begin), cos(0.5 * begin)
    ds, dc = sin(0.5 * step), cos(0.5 * step)
    for i in range(4 * places + 1):
        x = begin + i * step
        if i == 2 * places:
            x -= 3e-5
        # The end of an arc is no further off than its chord, and the chord of more than a half
        # turn no longer than the circle is wide.
        if i > 0 and (at > most or at + far - 2.0 * sin(min(0.5 * at, 0.5 * pi)) >= best):
            break
        if i == 2 * places or i == 2 * places + 1:
            sx, cx = sin(0.5 * x), cos(0.5 * x)
        elif i > 0:
            sx, cx = sx * dc + cx * ds, cx * dc - sx * ds
        under = _root(sx, cx, p, q, k, dd)
        can = under >= 0.0
        # Places to look at: the next one, and where it may be none, those beside the end.
        n, cut = 1 if can else 0, -1
        ys[0] = x
        if i > 0 and can != was:
            if can:
                rim = _edge(x, at, p, q, k, dd)
                ys[0], ys[1], ys[2] = rim, rim + RIM * (x - rim), x
                n, cut = 3, 0
            else:
                rim = _edge(at, x, p, q, k, dd)
                ys[0], ys[1] = rim - RIM * (rim - at), rim
                n = 2
        elif i > 1 and can == before and abs(root0) < abs(root9) and abs(root0) < abs(under):
            # The nearest to nothing of three: it may change its sign within.
            v = _vertex(at - step, at, x, root9, root0, under)
            if v > at:
                e = _root(sin(0.5 * v), cos(0.5 * v), p, q, k, dd)
                if can and e < 0.0:
                    ys[0], ys[1] = _edge(at, v, p, q, k, dd), _edge(x, v, p, q, k, dd)
                    ys[2] = x
                    n, cut = 3, 1
                elif not can and e >= 0.0:
                    ys[0], ys[1], ys[2] = (
                        _edge(v, at, p, q, k, dd),
                        v,
                        _edge(v, x, p, q, k, dd),
                    )
                    n, cut = 3, 0
        for j in range(n):
            y = ys[j]
            if y == x:
                both = _both(sx, cx, p, q, k, dd, under)
            else:
                sy, cy = sin(0.5 * y), cos(0.5 * y)
                both = _both(sy, cy, p, q, k, dd, _root(sy, cy, p, q, k, dd))
            if j == cut:
                m = 0
            for branch in range(2):
                sign = -1.0 if branch == 0 else 1.0
                f = both[branch]
                g, h = f0[branch], f9[branch]
                z, zz = x0[branch], x9[branch]
                if m > 0 and (f < 0.0) != (g < 0.0):
                    size, t1, t2, w = _settled(z, y, g, f, sign, p, q, k, dd, most)
                    if size < best:
                        best, b1, b2, bw = size, t1, t2, w
                elif m > 1 and (h < 0.0) == (g < 0.0) and abs(g) <= abs(h) and abs(g) <= abs(f):
                    # The least of three of one sign: does the parabola through them cross?
                    v = _vertex(zz, z, y, h, g, f)
                    e, _, _, _ = _miss(v, sign, p, q, k, dd)
                    if (e < 0.0) != (g < 0.0):
                        # Once on either side of the vertex, between it and what lies there.
                        xa, fa = (zz, h) if v < z else (z, g)
                        xb, fb = (z, g) if v < z else (y, f)
                        size, t1, t2, w = _settled(xa, v, fa, e, sign, p, q, k, dd, most)
                        if size < best:
                            best, b1, b2, bw = size, t1, t2, w
                        size, t1, t2, w = _settled(v, xb, e, fb, sign, p, q, k, dd, most)
                        if size < best:
                            best, b1, b2, bw = size, t1, t2, w
                x9[branch], f9[branch] = z, g
                x0[branch], f0[branch] = y, f
            m += 1
        if not can:
            m = 0
        before, was, at = was, can, x
        root9, root0 = root0, under
    if best >= limit:
        return inf, 0.0, 0.0, 1.0
    return best, b1, b2, bw
