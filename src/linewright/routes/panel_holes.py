# SPDX-License-Identifier: Apache-2.0
"""Where lines pass panels: given holes first, else a free place near the straight way."""

from collections.abc import Callable, Collection
from math import dist

from linewright.base.vectors import Vector, ahead, dot, unit
from linewright.car.model import Panel
from linewright.space.bodies import panel_axes

#: Rings of places round the straight way that are tried, and how far apart. [m]
_RINGS, _PITCH = 6, 0.04


def side_of(panel: Panel, point: Vector) -> float:
    """On which side of a panel a point lies: 1 the way it points, else -1.

    Parameters
    ----------
    panel : Panel
        With a place and a direction.
    point : Vector
        A point of the car.

    Returns
    -------
    float
        1 or -1. [-]
    """
    assert panel.at is not None
    assert panel.points is not None
    off = (point[0] - panel.at[0], point[1] - panel.at[1], point[2] - panel.at[2])
    return 1.0 if dot(off, unit(panel.points)) >= 0.0 else -1.0


def place(
    panel: Panel,
    line: str,
    a: Vector,
    b: Vector,
    taken: Collection[Vector],
    apart: float,
    is_free: Callable[[Vector], bool],
) -> Vector | None:
    """Where a line passes a panel.

    Parameters
    ----------
    panel : Panel
        With a place and a direction.
    line : str
        Whose hole it is.
    a, b : Vector
        Where the line comes from and goes to. [m]
    taken : collection of Vector
        Holes that other lines have in this panel. [m]
    apart : float
        Least distance of two holes' middles. [m]
    is_free : callable
        Whether a fitting can stand in a hole there.

    Returns
    -------
    Vector or None
        The middle of the hole, in the middle of the panel. None where none was found.
    """
    assert panel.at is not None
    assert panel.points is not None
    own = [hole.at for hole in panel.holes if hole.line == line]
    if own:
        return own[0]
    given = [
        hole.at
        for hole in panel.holes
        if not hole.line and all(dist(hole.at, t) > 1e-3 for t in taken)
    ]
    if given:
        return min(given, key=lambda at: (dist(a, at) + dist(at, b), at))
    normal = unit(panel.points)
    level, other = panel_axes(normal)
    high_a = dot(normal, (a[0] - panel.at[0], a[1] - panel.at[1], a[2] - panel.at[2]))
    high_b = dot(normal, (b[0] - panel.at[0], b[1] - panel.at[1], b[2] - panel.at[2]))
    share = high_a / (high_a - high_b) if abs(high_a - high_b) > 1e-6 else 0.5
    share = min(max(share, 0.0), 1.0)
    straight = ahead(a, (b[0] - a[0], b[1] - a[1], b[2] - a[2]), share)
    off = dot(
        normal,
        (straight[0] - panel.at[0], straight[1] - panel.at[1], straight[2] - panel.at[2]),
    )
    foot = ahead(straight, normal, -off)
    spots = [
        ahead(ahead(foot, level, i * _PITCH), other, j * _PITCH)
        for i in range(-_RINGS, _RINGS + 1)
        for j in range(-_RINGS, _RINGS + 1)
    ]
    spots.sort(key=lambda at: (round(dist(a, at) + dist(at, b), 6), at))
    blocked = [*taken, *(hole.at for hole in panel.holes)]
    for at in spots:
        if not _within(panel, at, level, other, apart / 2.0):
            continue
        if any(dist(at, t) < apart for t in blocked):
            continue
        if is_free(at):
            return at
    return None


def _within(panel: Panel, at: Vector, level: Vector, other: Vector, rim: float) -> bool:
    if panel.size is None or panel.at is None:
        return True
    off = (at[0] - panel.at[0], at[1] - panel.at[1], at[2] - panel.at[2])
    wide, high = panel.size
    return abs(dot(off, level)) <= wide / 2.0 - rim and abs(dot(off, other)) <= high / 2.0 - rim
