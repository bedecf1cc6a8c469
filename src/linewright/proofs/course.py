# SPDX-License-Identifier: Apache-2.0
"""The whole way of a fluid from port to port: the hose with the legs of its ends.

A route's own path runs collar to collar; what falls, rises or traps air does so in the
elbows too.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import asin, atan2, cos, hypot, pi, radians, sin

from linewright.base.vectors import Vector, ahead, dot, unit
from linewright.routes.route import Route
from linewright.space.model import Setting
from linewright.space.path import Path, Straight, elements, extremes, length, point

#: Elbows of hose ends stand as corners of this radius; no tape sees the difference. [m]
_SHARP = 0.001


@dataclass(frozen=True, slots=True)
class Slope:
    """The place of a course that goes least along a direction.

    ``rise`` is how far it goes along it there, over level [rad]; ``along`` is how far from
    port A [m].
    """

    rise: float
    at: Vector
    along: float


@dataclass(frozen=True, slots=True)
class Pocket:
    """A local high or low point that holds what does not run off. [m]

    ``depth`` is how far it stands over (or under) the lower (or higher) rim, ``along`` how
    far from port A.
    """

    at: Vector
    along: float
    depth: float


def outlet(end: Setting) -> Vector:
    """The way from the seat of a hose end into its port.

    Parameters
    ----------
    end : Setting
        The hose end as it stands.

    Returns
    -------
    Vector
        Unit, against the way that the port points.
    """
    bend = radians(end.shape.angle)
    c, s = cos(bend), sin(bend)
    n, w = end.n, end.side
    return unit((c * n[0] + s * w[0], c * n[1] + s * w[1], c * n[2] + s * w[2]))


def legs(end: Setting) -> tuple[Vector, ...]:
    """Corners of a hose end and what stands under it, from the port to the collar.

    Parameters
    ----------
    end : Setting
        The hose end as it stands.

    Returns
    -------
    tuple of Vector
        Port face, corner of the elbow where it has one, collar; two corners at 180°. [m]

    Examples
    --------
    >>> from linewright.space.free import collar
    >>> from linewright.space.model import EndShape, Frame
    >>> up = Frame((0.0, 0.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
    >>> bent = collar(up, EndShape(90, 0.06, 0.034, stick_out=0.02), 0.0)
    >>> [tuple(round(x, 3) + 0.0 for x in corner) for corner in legs(bent)]
    [(0.0, 0.0, 0.0), (0.0, 0.0, 0.054), (0.06, 0.0, 0.054)]
    """
    shape = end.shape
    seat = ahead(ahead(end.collar, end.n, shape.reach), end.side, shape.drop)
    into = outlet(end)
    port = ahead(seat, into, shape.stick_out)
    bend = radians(shape.angle)
    if shape.angle == 0:
        return _apart((port, end.collar))
    if sin(bend) > 0.02:
        return _apart((port, ahead(seat, into, -shape.drop / sin(bend)), end.collar))
    # A half turn: two quarter turns as far out as its bow stands over the longer leg.
    out = max(shape.reach, 0.0) + shape.drop / 2.0
    first = ahead(end.collar, end.n, out)
    return _apart((port, ahead(first, end.side, shape.drop), first, end.collar))


def _apart(points: Sequence[Vector]) -> tuple[Vector, ...]:
    kept = list(points[:1])
    for each in points[1:]:
        if hypot(*(a - b for a, b in zip(each, kept[-1], strict=True))) > 1e-6:
            kept.append(each)
    return tuple(kept)


def course(route: Route) -> Path:
    """The way of the fluid from port A to port B.

    Parameters
    ----------
    route : Route
        A hose in space.

    Returns
    -------
    Path
        Its path with the legs of both hose ends and what stands under them.
    """
    first, last = legs(route.a), legs(route.b)[::-1]
    inner = (*first[1:], *route.path.corners[1:-1], *last[:-1])
    sharp_a, sharp_b = len(first) - 1, len(last) - 1
    radii = ((_SHARP,) * sharp_a, route.path.radii, (_SHARP,) * sharp_b)
    return Path((first[0], *inner, last[-1]), tuple(r for part in radii for r in part))


def least(path: Path, way: Vector) -> Slope:
    """Where a path goes least along a direction.

    Parameters
    ----------
    path : Path
        A course, followed from its start.
    way : Vector
        The direction; any length.

    Returns
    -------
    Slope
        The place and how it goes there, exact in straights and in arcs.

    Examples
    --------
    >>> from math import degrees
    >>> fall = Path(((0.0, 0.0, 0.0), (-1.0, 0.0, -0.2), (-1.1, 0.0, -0.9)), (0.1,))
    >>> worst = least(fall, (0.0, 0.0, -1.0))
    >>> round(degrees(worst.rise), 2), worst.along
    (11.31, 0.0)
    """
    way = unit(way)
    best: tuple[float, float] | None = None
    run = 0.0
    for piece in elements(path):
        ahead_, inward = dot(piece.along, way), 0.0
        places = [(ahead_, run)]
        if not isinstance(piece, Straight):
            inward = dot(piece.inward, way)
            # Along the arc the slope is ahead·cos + inward·sin: least a half turn from its peak.
            turn = (atan2(inward, ahead_) + pi) % (2.0 * pi)
            spots = [piece.angle, *([turn] if turn < piece.angle else [])]
            places += [(ahead_ * cos(t) + inward * sin(t), run + t * piece.radius) for t in spots]
        for sine, along in places:
            if best is None or sine < best[0] - 1e-12:
                best = (sine, along)
        run += piece.length
    sine, along = best if best is not None else (0.0, 0.0)
    return Slope(asin(max(-1.0, min(1.0, sine))), point(path, along), along)


def pockets(path: Path, up: Vector, least_depth: float) -> tuple[Pocket, ...]:
    """High points of a course between its ends, in which gas stays.

    Parameters
    ----------
    path : Path
        A course.
    up : Vector
        Which way is up; give down instead for sags, in which liquid stays.
    least_depth : float
        Pockets that are no deeper are left out. [m]

    Returns
    -------
    tuple of Pocket
        In order along the course. The depth is reckoned down to the higher of the lowest
        points before and after: what is trapped above it has no way out.

    Examples
    --------
    >>> hump = Path(((0, 0, 0), (0.2, 0, 0.03), (0.4, 0, -0.1)), (0.0001,))
    >>> [(round(p.at[0], 2), round(p.depth, 3)) for p in pockets(hump, (0, 0, 1), 0.005)]
    [(0.2, 0.03)]
    """
    up = unit(up)
    turns = [(e.is_high, e.at, e.along) for e in extremes(path, up)]
    heights = [dot(path.corners[0], up), *(dot(p, up) for _, p, _ in turns)]
    heights.append(dot(path.corners[-1], up))
    before = list(accumulate(heights, min))
    after = list(accumulate(reversed(heights), min))[::-1]
    found = []
    for number, (is_high, where, along) in enumerate(turns, start=1):
        depth = heights[number] - max(before[number - 1], after[number + 1])
        if is_high and depth > least_depth:
            found.append(Pocket(where, along, depth))
    return tuple(found)


def dip(path: Path, up: Vector) -> Pocket:
    """How far a course that should rise falls back from the highest that it had reached.

    Parameters
    ----------
    path : Path
        A course, from its low end.
    up : Vector
        Which way is up.

    Returns
    -------
    Pocket
        The place that lies deepest under what went before it; depth 0 where it only rises.

    Examples
    --------
    >>> up_and_down = Path(((0, 0, 0), (0.1, 0, 0.2), (0.2, 0, 0.15), (0.3, 0, 0.4)), (1e-4, 1e-4))
    >>> round(dip(up_and_down, (0, 0, 1)).depth, 3)
    0.05
    """
    up = unit(up)
    turns = [(e.at, e.along) for e in extremes(path, up)]
    spots = [(path.corners[0], 0.0), *turns, (path.corners[-1], length(path))]
    top = dot(path.corners[0], up)
    worst = Pocket(path.corners[0], 0.0, 0.0)
    for where, along in spots:
        height = dot(where, up)
        top = max(top, height)
        if top - height > worst.depth:
            worst = Pocket(where, along, top - height)
    return worst
