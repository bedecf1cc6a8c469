# SPDX-License-Identifier: Apache-2.0
"""Guides that lines follow, side by side: poses that a hose has to pass."""

from collections.abc import Iterator
from itertools import pairwise
from math import cos, dist, pi, sin

from linewright.base.vectors import Vector, ahead, cross, dot, square, unit
from linewright.routes.search import Pose

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


def led(points: tuple[Vector, ...], a: Vector, b: Vector, radius: float) -> tuple[Vector, ...]:
    """The part of a guide that a hose follows, in its own direction.

    Parameters
    ----------
    points : tuple of Vector
        The guide.
    a, b : Vector
        Where the hose comes from and goes to.
    radius : float
        Its least bend radius: it joins and leaves the guide so far in from the places that
        are nearest to its ends. [m]

    Returns
    -------
    tuple of Vector
        Two points or more; empty where it would leave before it has joined.

    Examples
    --------
    >>> led(((0.0, 0.0, 0.0), (4.0, 0.0, 0.0)), (3.0, 1.0, 0.0), (0.5, 1.0, 0.0), 0.25)
    ((2.75, 0.0, 0.0), (0.75, 0.0, 0.0))
    """
    begin, end = _nearest(points, a), _nearest(points, b)
    if begin > end:
        return tuple(reversed(led(points, b, a, radius)))
    if end - begin < 2.2 * radius:
        return ()
    return _part(points, begin + radius, end - radius)


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
