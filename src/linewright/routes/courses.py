# SPDX-License-Identifier: Apache-2.0
"""Courses as paths: corners and radii of what the search found; bends, ends, polylines."""

from collections.abc import Sequence
from math import acos, ceil, cos, isfinite, pi, radians, sin, tan
from typing import TYPE_CHECKING

from linewright.base.vectors import Vector, ahead, dot, unit
from linewright.routes.route import Route
from linewright.routes.tasks import Pose, Task
from linewright.space.model import Limits
from linewright.space.path import Arc, Path, Straight, elements, extremes, length

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

UP: Vector = (0.0, 0.0, 1.0)


def _corners(a: "Floats", b: "Floats", radius: float) -> list[Vector] | None:
    """Corners of the shortest curve-straight-curve from one row to another."""
    from linewright.routes import _courses

    found = _courses.between(a, b, radius)
    if not isfinite(found[0]):
        return None
    first = _arc(a[0:3], a[3:6], found[3:6], found[1], radius)
    last = _arc(b[0:3], b[3:6], found[6:9], found[2], radius)
    return [*first, *reversed(last)]


def _arc(
    at: "Floats", along: "Floats", inward: Sequence[float], turn: float, radius: float
) -> list[Vector]:
    """Corners of one arc, of no more than a third of a turn each."""
    if turn <= 1e-7:
        return []
    pieces = max(1, ceil(turn / (2.0 * pi / 3.0) - 1e-9))
    half = turn / pieces / 2.0
    found = []
    for k in range(pieces):
        # The corner lies on the tangent, a trim beyond where the piece starts.
        t = 2.0 * k * half
        x, y = radius * sin(t), radius * (1.0 - cos(t))
        x += radius * tan(half) * cos(t)
        y += radius * tan(half) * sin(t)
        p = [float(at[i] + x * along[i] + y * inward[i]) for i in range(3)]
        found.append((p[0], p[1], p[2]))
    return found


def rounded(a: "Floats", poses: Sequence[Pose], b: "Floats", limits: Limits) -> Path | None:
    """The path from one setting to another by way of some poses.

    Parameters
    ----------
    a : ndarray
        Row of the setting at A (`_courses`).
    poses : sequence of Pose
        What it passes, in order.
    b : ndarray
        Row of the setting at B.
    limits : Limits
        The hose's.

    Returns
    -------
    Path or None
        From collar to collar; None where two of them cannot be joined.
    """
    import numpy as np

    rows = [a]
    for at, along in poses:
        row = np.zeros(len(a))
        row[0:3], row[3:6] = at, along
        rows.append(row)
    rows.append(b)
    corners: list[Vector] = []
    for i in range(len(rows) - 1):
        end = rows[i + 1].copy()
        if i < len(rows) - 2:
            end[3:6] = -end[3:6]
        piece = _corners(rows[i], end, limits.bend_radius)
        if piece is None:
            return None
        corners += piece
    start = (float(a[13]), float(a[14]), float(a[15]))
    end_at = (float(b[13]), float(b[14]), float(b[15]))
    return Path((start, *corners, end_at), (limits.bend_radius,) * len(corners))


def bend_count(path: Path) -> int:
    """How many bends a hose has: pieces of one arc count once.

    Parameters
    ----------
    path : Path
        Its centreline.

    Returns
    -------
    int
        Arcs that follow one another in one plane without a straight are one bend. [-]
    """
    count, before = 0, None
    for piece in elements(path):
        if not isinstance(piece, Arc):
            if piece.length > 1e-6:
                before = None
            continue
        if piece.angle > radians(1.0) and (before is None or dot(before, piece.axis) < 0.9999):
            count += 1
        before = piece.axis
    return count


def described(
    a: "Floats", poses: Sequence[Pose], b: "Floats", limits: Limits
) -> tuple[float, float, int] | None:
    """What the band says of a course.

    Parameters
    ----------
    a : ndarray
        Row of the setting at A (`_courses`).
    poses : sequence of Pose
        What it passes, in order.
    b : ndarray
        Row of the setting at B.
    limits : Limits
        The hose's.

    Returns
    -------
    tuple or None
        Length from collar to collar [m], height with both hose ends [m], and bends; None where
        there is no course.
    """
    from linewright.routes import _courses

    if not poses:
        run, height, bends = _courses.told(a, b, limits.bend_radius)
        return (float(run), float(height), int(bends)) if isfinite(run) else None
    path = rounded(a, poses, b, limits)
    if path is None:
        return None
    z = [path.corners[0][2], path.corners[-1][2], *(e.at[2] for e in extremes(path, UP))]
    z += [float(row[k]) for row in (a, b) for k in (8, 11)]
    return length(path), max(z) - min(z), bend_count(path)


def ends_of(task: Task, route: Route) -> list[Vector]:
    """Points of the hose ends themselves: port, seat and collar at both ends.

    Parameters
    ----------
    task : Task
        The hose.
    route : Route
        Its course.

    Returns
    -------
    list of Vector
        In order from port A to port B. [m]
    """
    found = []
    for side, setting in ((task.a, route.a), (task.b, route.b)):
        seat = ahead(side.frame.origin, unit(side.frame.out), setting.shape.stick_out)
        bend = radians(setting.shape.angle)
        leg = setting.shape.drop / sin(bend) if sin(bend) > 0.02 else setting.shape.drop / 2.0
        found += [side.frame.origin, ahead(seat, unit(side.frame.out), leg), setting.collar]
    return [*found[:3], *reversed(found[3:])]


def polyline(path: Path, off: float) -> tuple[Vector, ...]:
    """A path as a polyline that is nowhere further off it than a distance.

    Parameters
    ----------
    path : Path
        The centreline.
    off : float
        How far it may be off. [m]

    Returns
    -------
    tuple of Vector
        From collar to collar. [m]
    """
    found = [path.corners[0]]
    for piece in elements(path):
        if isinstance(piece, Straight):
            found.append(piece.end)
            continue
        part = 2.0 * acos(max(0.0, 1.0 - off / piece.radius))
        n = max(1, ceil(piece.angle / part))
        for k in range(1, n + 1):
            t = piece.angle * k / n
            there = ahead(piece.start, piece.along, piece.radius * sin(t))
            found.append(ahead(there, piece.inward, piece.radius * (1.0 - cos(t))))
    return tuple(found)
