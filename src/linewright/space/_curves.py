# SPDX-License-Identifier: Apache-2.0
"""Shortest curve-straight-curve between two directed points in space: the compiled part.

All is in least radii. The start lies at the origin and leaves along unit a; the end lies at D
and is reached along unit e. In one plane the answer is the best of the four words of Dubins
(1957). In space each end is aimed at the other's last tangent point until that stays, and
where they are close the circle of all first turns is searched too (`_tangents`).
"""

from math import atan2, cos, inf, pi, sin, sqrt

from linewright.base.kernels import njit
from linewright.space._tangents import arc_lengths, searched

# Length, turn at the start, turn at the end, and which way each arc turns, as seen from its end.
Joined = tuple[float, float, float, float, float, float, float, float, float]
# A turn, where it ends, and which way it goes.
Turned = tuple[float, float, float, float, float, float, float]

# Within this many radii there may be more paths than the four that aiming finds; within the
# greater, aiming may also fail to settle. Then the circle of first turns is searched.
CLOSE = 4.0
NEAR = 6.0
# Places in each quarter of the circle that are tried, and fewer where much is compared.
PLACES = 45
FEW = 12
ROUNDS = 80
# Aiming that moves by less, in radii, is led on to where it tends.
SETTLING = 0.5
# Up to this turn at either end, aiming finds the shortest if it settles at all. [rad]
MODERATE = 3.0
# No arc turns as far as this.
ANY_TURN = 7.0
EXACT = 1e-11


@njit
def _square(ax: float, ay: float, az: float) -> tuple[float, float, float]:
    """Some direction square to another."""
    if abs(az) < 0.999:
        size = sqrt(ax * ax + ay * ay)
        return -ay / size, ax / size, 0.0
    size = sqrt(ay * ay + az * az)
    return 0.0, -az / size, ay / size


@njit
def _reach(side: float, px: float, py: float, pz: float, ax: float, ay: float, az: float) -> Turned:
    """Turn from the origin along a, then straight to a point.

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
        ux, uy, uz = _square(ax, ay, az)
    else:
        ux, uy, uz = side * ux / y, side * uy / y, side * uz / y
        y = side * y
    far = x * x + y * y - 2.0 * y
    if far < 0.0:
        if far < -1e-12:
            return -1.0, 0.0, 0.0, 0.0, ux, uy, uz
        far = 0.0
    turn = atan2(y - 1.0, x) + atan2(1.0, sqrt(far))
    if turn < 0.0:
        turn += 2.0 * pi
    if turn > 2.0 * pi - 1e-9:
        turn = 0.0
    s, r = sin(turn), 1.0 - cos(turn)
    return turn, s * ax + r * ux, s * ay + r * uy, s * az + r * uz, ux, uy, uz


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
    still: float,
) -> Joined:
    """One of four paths by aiming each end at the other's last tangent point in turn.

    Its length is inf if it does not settle: if it never moves by less than ``still``. Far
    apart, it nears its answer by the square of the distance in radii each time. A side keeps
    its hand: when the point aimed at crosses the line of a, towards becomes away.
    """
    tx, ty, tz = dx, dy, dz
    lx, ly, lz, mx, my, mz = 0.0, 0.0, 0.0, 0.0, 0.0, 0.0
    # Where the last aim led, and by how far it missed.
    ox, oy, oz, wx, wy, wz = 0.0, 0.0, 0.0, 0.0, 0.0, 0.0
    for n in range(ROUNDS):
        u1, gx, gy, gz, bx, by, bz = _reach(side1, tx, ty, tz, ax, ay, az)
        if bx * lx + by * ly + bz * lz < 0.0:
            side1 = -side1
            u1, gx, gy, gz, bx, by, bz = _reach(side1, tx, ty, tz, ax, ay, az)
        if u1 < 0.0:
            break
        u2, hx, hy, hz, cx, cy, cz = _reach(side2, gx - dx, gy - dy, gz - dz, -ex, -ey, -ez)
        if cx * mx + cy * my + cz * mz < 0.0:
            side2 = -side2
            u2, hx, hy, hz, cx, cy, cz = _reach(side2, gx - dx, gy - dy, gz - dz, -ex, -ey, -ez)
        if u2 < 0.0:
            break
        lx, ly, lz, mx, my, mz = bx, by, bz, cx, cy, cz
        hx, hy, hz = hx + dx, hy + dy, hz + dz
        rx, ry, rz = hx - tx, hy - ty, hz - tz
        moved = abs(rx) + abs(ry) + abs(rz)
        if moved < still:
            w = sqrt((hx - gx) ** 2 + (hy - gy) ** 2 + (hz - gz) ** 2)
            c1, s1, c2, s2 = cos(u1), sin(u1), cos(u2), sin(u2)
            # Points that coincide may hide two directions that do not.
            along = (c1 * ax + s1 * bx) * (c2 * ex - s2 * cx)
            along += (c1 * ay + s1 * by) * (c2 * ey - s2 * cy)
            along += (c1 * az + s1 * bz) * (c2 * ez - s2 * cz)
            if along < 1.0 - 1e-9:
                break
            return u1 + u2 + w, u1, u2, bx, by, bz, cx, cy, cz
        if n == 20 and moved > 0.5:
            break
        # Half steps once it has had time to settle: then it may swing round the answer.
        share = 1.0 if n < 6 else 0.6
        if n > 0 and moved < SETTLING:
            # As Anderson (1965) has it: what the last two misses have in common is taken off.
            vx, vy, vz = rx - wx, ry - wy, rz - wz
            size = vx * vx + vy * vy + vz * vz
            share = (rx * vx + ry * vy + rz * vz) / size if size > 1e-28 else 0.0
            share = min(max(share, -6.0), 0.75)
            tx, ty, tz = hx - share * (hx - ox), hy - share * (hy - oy), hz - share * (hz - oz)
        else:
            tx, ty, tz = tx + share * rx, ty + share * ry, tz + share * rz
        ox, oy, oz, wx, wy, wz = hx, hy, hz, rx, ry, rz
    return inf, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0


@njit
def _inward(
    turn: float, wx: float, wy: float, wz: float, ax: float, ay: float, az: float
) -> tuple[float, float, float]:
    """Which way an arc along a turns to end along w: away from it beyond a half turn."""
    x = wx * ax + wy * ay + wz * az
    ux, uy, uz = wx - x * ax, wy - x * ay, wz - x * az
    y = sqrt(ux * ux + uy * uy + uz * uz)
    if y < 1e-13:
        return _square(ax, ay, az)
    if turn > pi:
        y = -y
    return ux / y, uy / y, uz / y


@njit
def _bearing(hand: float, begin: float, to: float) -> float:
    """Turn from one heading to another, left (1) or right (-1), from 0 to under 2π."""
    turn = hand * (to - begin) % (2.0 * pi)
    return 0.0 if turn > 2.0 * pi - 1e-9 else turn


@njit
def _planar(
    dx: float,
    dy: float,
    dz: float,
    ax: float,
    ay: float,
    az: float,
    ex: float,
    ey: float,
    ez: float,
    most: float,
) -> Joined:
    """Best of LSL, RSR, LSR and RSL where D, a and e lie in one plane; else inf.

    No arc turns by more than ``most``."""
    none = (inf, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
    nx, ny, nz = ay * ez - az * ey, az * ex - ax * ez, ax * ey - ay * ex
    if nx * nx + ny * ny + nz * nz < 1e-12:
        nx, ny, nz = ay * dz - az * dy, az * dx - ax * dz, ax * dy - ay * dx
        if nx * nx + ny * ny + nz * nz < 1e-12:
            nx, ny, nz = _square(ax, ay, az)
    size = sqrt(nx * nx + ny * ny + nz * nz)
    nx, ny, nz = nx / size, ny / size, nz / size
    if abs(dx * nx + dy * ny + dz * nz) + abs(ex * nx + ey * ny + ez * nz) > 1e-9:
        return none
    # In the plane: x along a, y = n × a to the left; the heading of a is 0.
    lx, ly, lz = ny * az - nz * ay, nz * ax - nx * az, nx * ay - ny * ax
    x, y = dx * ax + dy * ay + dz * az, dx * lx + dy * ly + dz * lz
    end = atan2(ex * lx + ey * ly + ez * lz, ex * ax + ey * ay + ez * az)
    best = none
    for hand1 in (1.0, -1.0):
        for hand2 in (1.0, -1.0):
            cx, cy = x - hand2 * sin(end), y + hand2 * cos(end) - hand1
            run, heading = cx * cx + cy * cy, atan2(cy, cx)
            if hand1 != hand2:
                if run < 4.0:
                    continue
                run -= 4.0
                heading += hand1 * atan2(2.0, sqrt(run))
            elif run < 1e-18:
                heading = 0.0
            u1, u2 = _bearing(hand1, 0.0, heading), _bearing(hand2, heading, end)
            total = u1 + u2 + sqrt(run)
            if total < best[0] - 1e-12 and max(u1, u2) <= most:
                # The left of e is n × e; the circle lies on the side of the hand.
                fx, fy, fz = ny * ez - nz * ey, nz * ex - nx * ez, nx * ey - ny * ex
                best = (
                    total,
                    u1,
                    u2,
                    hand1 * lx,
                    hand1 * ly,
                    hand1 * lz,
                    hand2 * fx,
                    hand2 * fy,
                    hand2 * fz,
                )
    return best


@njit
def joined_within(
    dx: float,
    dy: float,
    dz: float,
    ax: float,
    ay: float,
    az: float,
    ex: float,
    ey: float,
    ez: float,
    places: int,
    most: float,
    limit: float,
) -> Joined:
    """Shortest curve-straight-curve from the origin along unit a to D along unit e.

    No arc turns by more than ``most``; one no shorter than ``limit`` need not be found. The
    length is inf where there is none. The second arc is told as seen from D, where it starts
    along -e.
    """
    best = _seesaw(1.0, 1.0, dx, dy, dz, ax, ay, az, ex, ey, ez, EXACT)
    # No other was ever found shorter than two turns of less than a half each (`test_free`).
    if best[0] < inf and best[1] < MODERATE and best[2] < MODERATE:
        return best
    none = (inf, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
    settled = int(best[0] < inf)
    if max(best[1], best[2]) > most:
        best = none
    flat = _planar(dx, dy, dz, ax, ay, az, ex, ey, ez, most)
    if flat[0] < best[0] - 1e-9:
        best = flat
    dd = dx * dx + dy * dy + dz * dz
    if places > FEW or dd > CLOSE * CLOSE:
        for way in range(1, 4):
            side1 = -1.0 if way & 1 else 1.0
            side2 = -1.0 if way & 2 else 1.0
            other = _seesaw(side1, side2, dx, dy, dz, ax, ay, az, ex, ey, ez, EXACT)
            settled += other[0] < inf
            if other[0] < best[0] - 1e-9 and max(other[1], other[2]) <= most:
                best = other
    is_near = dd < CLOSE * CLOSE or (settled < 4 and dd < NEAR * NEAR)
    if flat[0] == inf and (is_near or best[0] == inf):
        p = ax * dx + ay * dy + az * dz
        q = ex * dx + ey * dy + ez * dz
        k = ax * ex + ay * ey + az * ez
        size, t1, t2, w = searched(p, q, k, dd, places, min(best[0], limit) - 1e-7, most)
        if size < inf:
            size, u1, u2 = arc_lengths(t1, t2, w)
            way1 = 1.0 if w > 0.0 else -1.0
            fx = way1 * (dx - t1 * ax - t2 * ex)
            fy = way1 * (dy - t1 * ay - t2 * ey)
            fz = way1 * (dz - t1 * az - t2 * ez)
            bx, by, bz = _inward(u1, fx, fy, fz, ax, ay, az)
            cx, cy, cz = _inward(u2, -fx, -fy, -fz, -ex, -ey, -ez)
            return size, u1, u2, bx, by, bz, cx, cy, cz
    return best


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
    places: int,
) -> Joined:
    """The same with arcs of any turn and of any length."""
    return joined_within(dx, dy, dz, ax, ay, az, ex, ey, ez, places, ANY_TURN, inf)


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
        FEW,
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
    after = (inf, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
    for i in range(1, 9):
        for j in range(16):
            x, y = pi * i / 8.0, pi * j / 8.0
            then = _first(x, y, ux, uy, uz, vx, vy, vz, dx, dy, dz, ax, ay, az, ex, ey, ez)
            if x + then[0] < best - 1e-9:
                best, angle, swing, after = x + then[0], x, y, then
    # Downhill from the best place of the grid. The best often lies on the rim of what can be,
    # so the nine ways are swung on each time, to slide along it.
    step, on = pi / 12.0, 0.0
    while best < inf and step > 1e-3:
        found = False
        for k in range(9):
            x = angle + step * cos(on + pi * k / 4.5)
            y = swing + step * sin(on + pi * k / 4.5)
            if x <= 0.0 or x > 1.5 * pi:
                continue
            then = _first(x, y, ux, uy, uz, vx, vy, vz, dx, dy, dz, ax, ay, az, ex, ey, ez)
            if x + then[0] < best - 1e-9:
                best, angle, swing, after = x + then[0], x, y, then
                found = True
        on += 0.1
        if not found:
            step *= 0.75
    return angle, swing, after
