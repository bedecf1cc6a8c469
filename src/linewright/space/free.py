# SPDX-License-Identifier: Apache-2.0
"""Hoses in free space: where an elbow puts its collar, and the shortest hose between two."""

from math import acos, atan2, ceil, cos, hypot, isfinite, pi, sin, tan
from typing import TYPE_CHECKING

from linewright.base.vectors import Vector, ahead, cross, dot, square, unit
from linewright.space.model import EndShape, Frame, Setting
from linewright.space.path import Path

if TYPE_CHECKING:
    from linewright.space._curves import Joined

# A turn is split into equal corners of no more than this, so that none lies far away: the
# corner of a half turn is at infinity, that of 120° at 1.7 radii.
MOST_TURN = 2.0 * pi / 3.0

# Above this turn at an end another form of path may be shorter.
LONG_TURN = pi + 0.02

# A turn of less is none. [rad]
TINY = 1e-7


def collar(frame: Frame, shape: EndShape, turn: float) -> Setting:
    """Where the collar of a hose end is, with its elbow turned on its port.

    Parameters
    ----------
    frame : Frame
        The port.
    shape : EndShape
        The hose end, with what stands out between port and seat.
    turn : float
        The elbow's place: right-handed about the port's ``out`` from its ``side``. The hose
        leaves on that side; a straight end leaves along ``out`` whatever the turn. [rad]

    Returns
    -------
    Setting
        The pose; the hose leaves the collar along -n.

    Raises
    ------
    ValueError
        If the port's ``out`` has no direction, or its ``side`` lies along it.

    Examples
    --------
    A 90° elbow on a port that looks up, turned to the right, away from the port's side:

    >>> port = Frame((0.0, 0.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
    >>> set_ = collar(port, EndShape(90, reach=0.050, drop=0.030), pi / 2)
    >>> [round(x, 9) for x in set_.collar], [round(-x, 9) for x in set_.n]
    ([0.0, 0.05, 0.03], [0.0, 1.0, 0.0])
    """
    out = unit(frame.out)
    flat = ahead(frame.side, out, -dot(frame.side, out))
    if dot(flat, flat) < 1e-12:
        raise ValueError(f"port side {frame.side}: lies along its out {frame.out}; must be square")
    right = unit(flat)
    up = cross(out, right)
    c, s = cos(turn), sin(turn)
    way = ahead((c * right[0], c * right[1], c * right[2]), up, s)
    bend = pi * shape.angle / 180.0
    c, s = cos(bend), sin(bend)
    n = (-c * out[0] - s * way[0], -c * out[1] - s * way[1], -c * out[2] - s * way[2])
    side = (c * way[0] - s * out[0], c * way[1] - s * out[1], c * way[2] - s * out[2])
    seat = ahead(frame.origin, out, shape.stick_out)
    place = ahead(ahead(seat, n, -shape.reach), side, -shape.drop)
    return Setting(shape, turn, place, n, side)


def shortest(
    a_point: Vector,
    a_dir: Vector,
    b_point: Vector,
    b_dir: Vector,
    radius: float,
    straight: float,
) -> Path | None:
    """Shortest centreline between two collars, with a least radius and straight leads.

    Parameters
    ----------
    a_point : Vector
        Collar A. [m]
    a_dir : Vector
        How the hose leaves collar A, unit: -n of its setting.
    b_point : Vector
        Collar B. [m]
    b_dir : Vector
        How the hose leaves collar B, unit, so the path arrives along -b_dir.
    radius : float
        Least radius of the centreline, more than 0. [m]
    straight : float
        Straight after each collar. [m]

    Returns
    -------
    Path or None
        From collar A to collar B. Curve-straight-curve where that is shortest; where one of
        its ends would turn by more than a half turn, an arc more is tried before it
        (curve-curve-curve when its straight vanishes; out of one plane it is searched on a grid
        and downhill, so to some per cent, while the rest is exact). Turns over 120° stand as
        several corners that share their tangent points. None only if nothing was found.

    Raises
    ------
    ValueError
        If the radius is not more than 0 or the straight is less, or a direction is none.

    Examples
    --------
    Two collars that look up, 400 mm apart; the loop stands 168 + 46.8 mm tall:

    >>> up = (0.0, 0.0, 1.0)
    >>> loop = shortest((0.0, 0.0, 0.0), up, (0.4, 0.0, 0.0), up, 0.168, 0.0468)
    >>> [(round(x, 6), round(z, 6)) for x, _, z in loop.corners]
    [(0.0, 0.0), (0.0, 0.2148), (0.4, 0.2148), (0.4, 0.0)]
    """
    _check(radius, straight)
    a, b = unit(a_dir), unit(b_dir)
    start, end = ahead(a_point, a, straight), ahead(b_point, b, straight)
    far = ahead(end, start, -1.0)
    plan = _plan((far[0] / radius, far[1] / radius, far[2] / radius), a, (-b[0], -b[1], -b[2]))
    if plan is None:
        return None
    corners = [a_point]
    here = start
    for along, turn, inward, before in plan:
        here = ahead(here, along, before * radius)
        pieces = max(1, ceil(turn / MOST_TURN - 1e-9))
        half = turn / pieces / 2.0
        for k in range(pieces):
            trim = radius * tan(half)
            into = _swung(along, inward, 2.0 * k * half)
            corner = ahead(here, into, trim)
            corners.append(corner)
            here = ahead(corner, _swung(along, inward, 2.0 * (k + 1) * half), trim)
    corners.append(b_point)
    return Path(tuple(corners), (radius,) * (len(corners) - 2))


def _check(radius: float, straight: float) -> None:
    if not (radius > 0.0 and straight >= 0.0 and isfinite(radius) and isfinite(straight)):
        raise ValueError(
            f"radius {radius * 1e3:.1f} mm, straight {straight * 1e3:.1f} mm: a hose needs a "
            "radius over 0 and a straight of 0 or more"
        )


def _swung(along: Vector, inward: Vector, angle: float) -> Vector:
    c, s = cos(angle), sin(angle)
    return (
        c * along[0] + s * inward[0],
        c * along[1] + s * inward[1],
        c * along[2] + s * inward[2],
    )


# Direction before a turn, the turn, which way it goes, and the straight before it (radius 1).
_Turn = tuple[Vector, float, Vector, float]


def _plan(far: Vector, a: Vector, e: Vector) -> list[_Turn] | None:
    """Turns of the shortest path for radius 1 from the origin along a to ``far`` along e."""
    from linewright.space import _curves

    found = _curves.joined(*far, *a, *e, _curves.PLACES)
    if isfinite(found[0]) and max(found[1:3]) <= LONG_TURN:
        return _turns(a, e, far, found)
    u = square(a)
    angle, swing, after = _curves.detour(*u, *far, *a, *e)
    three = _three(far, a, e)
    if three and sum(arc[1] for arc in three) < min(found[0], angle + after[0]):
        return three
    if angle + after[0] < found[0] - 1e-6:
        inward = _swung(u, cross(a, u), swing)
        there = ahead(ahead((0.0, 0.0, 0.0), a, sin(angle)), inward, 1.0 - cos(angle))
        rest = _turns(_swung(a, inward, angle), e, ahead(far, there, -1.0), after)
        return [(a, angle, inward, 0.0), *rest]
    return _turns(a, e, far, found) if isfinite(found[0]) else None


def _three(far: Vector, a: Vector, e: Vector) -> list[_Turn]:
    """The better of Dubins' LRL and RLR where all lies in one plane, for radius 1."""
    normal = cross(a, e)
    if dot(normal, normal) < 1e-12:
        normal = cross(a, far)
    if dot(normal, normal) < 1e-12:
        normal = square(a)
    normal = unit(normal)
    if abs(dot(normal, far)) + abs(dot(normal, e)) > 1e-9:
        return []
    left = cross(normal, a)
    x, y, end = dot(far, a), dot(far, left), atan2(dot(e, left), dot(e, a))
    best: list[tuple[float, float]] = []  # turns, left positive, with the heading before each
    for hand in (1.0, -1.0):
        dx, dy = x - hand * sin(end), y + hand * cos(end) - hand
        apart = hypot(dx, dy)
        if not 1e-9 < apart < 4.0:
            continue
        for side in (1.0, -1.0):
            lift = side * acos(apart / 4.0)
            heading1 = atan2(dy, dx) + lift + hand * pi / 2.0
            heading2 = atan2(-dy, -dx) - lift + hand * pi / 2.0
            stops = ((hand, 0.0, heading1), (-hand, heading1, heading2), (hand, heading2, end))
            arcs = [(way * _swept(way * (to - begin)), begin) for way, begin, to in stops]
            if not best or sum(abs(t) for t, _ in arcs) < sum(abs(t) for t, _ in best):
                best = arcs
    turns: list[_Turn] = []
    for turn, heading in best:
        if abs(turn) < TINY:
            continue
        along, aside = _swung(a, left, heading), _swung(a, left, heading + pi / 2.0)
        turns.append((along, turn, aside, 0.0) if turn > 0.0 else (along, -turn, _back(aside), 0.0))
    return turns


def _swept(angle: float) -> float:
    turn = angle % (2.0 * pi)
    return 0.0 if turn > 2.0 * pi - 1e-9 else turn


def _back(way: Vector) -> Vector:
    return (-way[0], -way[1], -way[2])


def _turns(a: Vector, e: Vector, far: Vector, found: "Joined") -> list[_Turn]:
    """The turns of a curve-straight-curve; a turn of nothing is left out."""
    _, turn1, turn2, *ways = found
    turns: list[_Turn] = []
    here: Vector = (0.0, 0.0, 0.0)
    if turn1 > TINY:
        inward = (ways[0], ways[1], ways[2])
        turns.append((a, turn1, inward, 0.0))
        here = ahead(ahead(here, a, sin(turn1)), inward, 1.0 - cos(turn1))
    if turn2 > TINY:
        # The second arc is known as seen from its end, where it starts along -e.
        back = (ways[3], ways[4], ways[5])
        begin = ahead(ahead(far, e, -sin(turn2)), back, 1.0 - cos(turn2))
        along = _swung(e, back, -turn2)
        gap = ahead(begin, here, -1.0)
        inward = ahead(ahead(far, back, 1.0), begin, -1.0)
        turns.append((along, turn2, inward, max(0.0, dot(gap, along))))
    return turns
