# SPDX-License-Identifier: Apache-2.0
"""Guides that lines follow, side by side: poses that a hose has to pass."""

from collections.abc import Iterator
from itertools import pairwise
from math import cos, dist, pi, sin

from linewright.base.vectors import Vector, ahead, cross, dot, square, unit
from linewright.routes.search import Pose

#: A hose joins and leaves its guide so many bend radii in; and if that fails, so many.
_JOIN = ((1.0, 1.0), (2.5, 2.5), (1.0, 4.0), (4.0, 1.0))

#: Rings of places round a guide's middle that are tried for one hose more.
_RINGS = 3


def _nearest(points: tuple[Vector, ...], at: Vector) -> float:
    """How far along a polyline its nearest place to a point is. [m]"""
    best, found, run = float("inf"), 0.0, 0.0
    for a, b in pairwise(points):
        far = dist(a, b)
        way = unit((b[0] - a[0], b[1] - a[1], b[2] - a[2]))
        on = min(max(dot(way, (at[0] - a[0], at[1] - a[1], at[2] - a[2])), 0.0), far)
        gap = dist(ahead(a, way, on), at)
        if gap < best - 1e-9:
            best, found = gap, run + on
        run += far
    return found


def _part(points: tuple[Vector, ...], begin: float, end: float) -> tuple[Vector, ...]:
    """The part of a polyline between two places along it."""
    found: list[Vector] = []
    run = 0.0
    for a, b in pairwise(points):
        far = dist(a, b)
        way = unit((b[0] - a[0], b[1] - a[1], b[2] - a[2]))
        low, high = max(begin, run), min(end, run + far)
        if high - low > 1e-6:
            if not found:
                found.append(ahead(a, way, low - run))
            found.append(ahead(a, way, high - run))
        run += far
    return tuple(found)


def led(
    points: tuple[Vector, ...], a: Vector, b: Vector, join: float, leave: float | None = None
) -> tuple[Vector, ...]:
    """The part of a guide that a hose follows, in its own direction.

    Parameters
    ----------
    points : tuple of Vector
        The guide.
    a, b : Vector
        Where the hose comes from and goes to.
    join, leave : float
        It joins and leaves the guide so far in from the places that are nearest to its ends:
        a bend radius or more; the same at both if ``leave`` is left out. [m]

    Returns
    -------
    tuple of Vector
        Two points or more; empty where it would leave before it has joined.

    Examples
    --------
    >>> led(((0.0, 0.0, 0.0), (4.0, 0.0, 0.0)), (3.0, 1.0, 0.0), (0.5, 1.0, 0.0), 0.25)
    ((2.75, 0.0, 0.0), (0.75, 0.0, 0.0))
    """
    leave = join if leave is None else leave
    begin, end = _nearest(points, a), _nearest(points, b)
    if begin > end:
        return tuple(reversed(led(points, b, a, leave, join)))
    if end - begin < 1.1 * (join + leave):
        return ()
    return _part(points, begin + join, end - leave)


def poses(points: tuple[Vector, ...]) -> tuple[Pose, ...]:
    """Poses that hold a hose to a polyline: both its ends, and each inner side's middle.

    Parameters
    ----------
    points : tuple of Vector
        In the hose's direction.

    Returns
    -------
    tuple of Pose
        Places with the direction of travel.
    """
    sides = [(a, b, unit((b[0] - a[0], b[1] - a[1], b[2] - a[2]))) for a, b in pairwise(points)]
    if not sides:
        return ()
    found: list[Pose] = [(points[0], sides[0][2])]
    for a, b, way in sides[1:-1]:
        middle = ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0, (a[2] + b[2]) / 2.0)
        found.append((middle, way))
    found.append((points[-1], sides[-1][2]))
    return tuple(found)


def merged(way: tuple[Pose, ...], others: tuple[Pose, ...], begin: Vector) -> tuple[Pose, ...]:
    """Poses of a guide with those in panels, in the order in which a hose meets them.

    Parameters
    ----------
    way : tuple of Pose
        Along the guide, in the hose's direction.
    others : tuple of Pose
        In panels, in the order in which they are passed.
    begin : Vector
        Where the hose comes from. [m]

    Returns
    -------
    tuple of Pose
        Each of the others stands where that makes the way through all places shortest.
    """
    found = list(way)
    after = 0
    for pose in others:

        def longer(k: int, at: Vector = pose[0]) -> float:
            before = found[k - 1][0] if k else begin
            far = dist(before, at)
            return (
                far + dist(at, found[k][0]) - dist(before, found[k][0]) if k < len(found) else far
            )

        spot = min(range(after, len(found) + 1), key=lambda k: (longer(k), k))
        found.insert(spot, pose)
        after = spot + 1
    return tuple(found)


def places(pitch: float) -> Iterator[tuple[float, float]]:
    """Places beside a guide, across it: its middle, then rings of six, twelve and so on.

    Parameters
    ----------
    pitch : float
        Between the middles of two hoses. [m]

    Returns
    -------
    Iterator of tuple
        Offsets along two directions square to the guide. [m]
    """
    yield 0.0, 0.0
    for ring in range(1, _RINGS + 1):
        for k in range(6 * ring):
            turn = 2.0 * pi * k / (6 * ring)
            yield ring * pitch * cos(turn), ring * pitch * sin(turn)


def tries(pitch: float) -> list[tuple[float, float, tuple[float, float]]]:
    """Ways to follow a guide, likeliest first.

    Parameters
    ----------
    pitch : float
        Between the middles of two hoses. [m]

    Returns
    -------
    list of tuple
        How many bend radii in a hose joins it and leaves it [-], and its place beside it [m].
    """
    found = [
        (n + 2 * k, n, join, leave, offset)
        for n, offset in enumerate(places(pitch))
        for k, (join, leave) in enumerate(_JOIN)
    ]
    return [(join, leave, offset) for _, _, join, leave, offset in sorted(found)]


def beside(points: tuple[Vector, ...], offset: tuple[float, float]) -> tuple[Vector, ...]:
    """A polyline moved sideways, both ways square to its longest side.

    Parameters
    ----------
    points : tuple of Vector
        The guide.
    offset : tuple of float
        How far along two directions square to that side: level, and square to level. [m]

    Returns
    -------
    tuple of Vector
        The same shape beside it.
    """
    a, b = max(pairwise(points), key=lambda side: dist(*side))
    way = unit((b[0] - a[0], b[1] - a[1], b[2] - a[2]))
    # The same two directions whichever way a hose goes along it.
    if (way[0], way[1], way[2]) < (0.0, 0.0, 0.0):
        way = (-way[0], -way[1], -way[2])
    level = square(way)
    other = cross(way, level)
    u, v = offset
    return tuple(ahead(ahead(p, level, u), other, v) for p in points)
