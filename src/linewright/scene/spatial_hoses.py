# SPDX-License-Identifier: Apache-2.0
"""Hoses on a view to scale: as wide as they are, nearer over farther, dashed behind bodies."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import hypot
from typing import TYPE_CHECKING

from linewright.base.vectors import Vector
from linewright.scene.drawing import Circle, Ink, Mark, Point, Polyline
from linewright.scene.spatial_outlines import Eye, Seen, covered
from linewright.scene.spatial_things import Hose
from linewright.space.path import sample

if TYPE_CHECKING:
    from numpy.typing import NDArray

#: Distance of points along a hose on paper, and how far a stroke may be off its curve. [mm]
_STEP, _OFF = 0.5, 0.02

#: Ground beside a hose that passes over another, and the edge of a hose. [mm]
_HALO, _EDGE = 0.45, 0.28

#: A hose that shows no longer than this is seen end on. [mm]
_END_ON = 0.6


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of a hose on paper, all of it in sight or all of it hidden. [mm]

    ``near`` is how near each point is to the eye [m].
    """

    hose: Hose
    points: tuple[Point, ...]
    near: tuple[float, ...]
    is_hidden: bool
    width: float


@dataclass(frozen=True, slots=True)
class Crossing:
    """Where two stretches cross: their numbers, how far along each [mm], how near each [m].

    ``sine`` is that of the angle between them.
    """

    first: int
    second: int
    at_first: float
    at_second: float
    near_first: float
    near_second: float
    sine: float


def stretches(
    points: Sequence[Vector],
    eye: Eye,
    bodies: Sequence[Seen],
    paper: Callable[[Point], Point],
) -> list[tuple[bool, tuple[Point, ...], tuple[float, ...]]]:
    """Cut a line in space where it goes behind a body or comes out.

    Parameters
    ----------
    points : Sequence of Vector
        Points along it. [m]
    eye : Eye
        From where.
    bodies : Sequence of Seen
        What may hide it.
    paper : Callable
        Place on paper of a place of the view.

    Returns
    -------
    list of tuple
        Whether hidden, points on paper [mm], nearness [m].
    """
    hidden = covered(points, bodies, eye)
    flat = [paper(eye.flat(p)) for p in points]
    near = [eye.near(p) for p in points]
    found = []
    start = 0
    for i in range(1, len(points) + 1):
        if i == len(points) or hidden[i] != hidden[start]:
            # The point where it changes belongs to both, so that no gap shows.
            end = min(i + 1, len(points))
            if end - start > 1:
                found.append((hidden[start], tuple(flat[start:end]), tuple(near[start:end])))
            start = i
    return found


def hose_stretches(
    hose: Hose, eye: Eye, bodies: Sequence[Seen], paper: Callable[[Point], Point], ratio: int
) -> list[Stretch]:
    """The stretches of one hose on paper.

    Parameters
    ----------
    hose : Hose
        The hose.
    eye : Eye
        From where.
    bodies : Sequence of Seen
        What may hide it.
    paper : Callable
        Place on paper of a place of the view.
    ratio : int
        n of the scale 1:n.

    Returns
    -------
    list of Stretch
        In order from end A.
    """
    points = [(float(x), float(y), float(z)) for x, y, z in sample(hose.path, _STEP * ratio / 1e3)]
    width = hose.outside * 1000 / ratio
    return [
        Stretch(hose, *_thinned(flat, near), is_hidden, width)
        for is_hidden, flat, near in stretches(points, eye, bodies, paper)
    ]


def _thinned(
    points: Sequence[Point], near: Sequence[float]
) -> tuple[tuple[Point, ...], tuple[float, ...]]:
    """Leave out points that lie on the stroke between their neighbours (Douglas, Peucker 1973)."""
    keep = {0, len(points) - 1}
    todo = [(0, len(points) - 1)]
    while todo:
        a, b = todo.pop()
        (ax, ay), (bx, by) = points[a], points[b]
        far = hypot(bx - ax, by - ay)
        worst, at = _OFF, -1
        for i in range(a + 1, b):
            x, y = points[i][0] - ax, points[i][1] - ay
            if far > 1e-9:
                t = min(1.0, max(0.0, (x * (bx - ax) + y * (by - ay)) / far**2))
                off = hypot(x - t * (bx - ax), y - t * (by - ay))
            else:
                off = hypot(x, y)
            if off > worst:
                worst, at = off, i
        if at > 0:
            keep.add(at)
            todo += [(a, at), (at, b)]
    order = sorted(keep)
    return tuple(points[i] for i in order), tuple(near[i] for i in order)


def hidden_marks(one: Stretch) -> list[Mark]:
    """A stretch behind a body: its two edges dashed. [mm]

    Parameters
    ----------
    one : Stretch
        The stretch.

    Returns
    -------
    list of Mark
        Strokes.
    """
    hose = one.hose
    if _is_end_on(one):
        return [Circle(one.points[0], one.width / 2, Ink.HIDDEN, hose.id, hose.system)]
    wide = max(one.width, 0.35)
    marks: list[Mark] = [Polyline(one.points, Ink.HIDDEN, hose.id, system=hose.system, width=wide)]
    if wide > 1.0:
        core = wide - 2 * _EDGE
        marks.append(Polyline(one.points, Ink.HIDDEN_CORE, hose.id, width=core))
    return marks


def _is_end_on(one: Stretch) -> bool:
    xs, ys = [p[0] for p in one.points], [p[1] for p in one.points]
    return hypot(max(xs) - min(xs), max(ys) - min(ys)) < _END_ON


def _strokes(hose: Hose, points: tuple[Point, ...], width: float) -> list[Mark]:
    wide = max(width, 0.35)
    marks: list[Mark] = [
        Polyline(points, Ink.HALO, hose.id, width=wide + 2 * _HALO),
        Polyline(points, Ink.HOSE, hose.id, system=hose.system, width=wide),
    ]
    if wide > 1.0:
        core = wide - 2 * _EDGE
        marks.append(Polyline(points, Ink.HOSE_CORE, hose.id, system=hose.system, width=core))
    return marks


def _axis(hose: Hose, points: tuple[Point, ...], width: float) -> list[Mark]:
    if width <= 1.0:
        return []
    return [Polyline(points, Ink.HOSE_AXIS, hose.id, letter=hose.letter, system=hose.system)]


def sight_marks(all_in_sight: Sequence[Stretch]) -> list[Mark]:
    """All stretches in sight, the nearer over the farther wherever two cross.

    Parameters
    ----------
    all_in_sight : Sequence of Stretch
        Stretches of all hoses.

    Returns
    -------
    list of Mark
        In the order in which they are drawn.
    """
    order = sorted(
        range(len(all_in_sight)),
        key=lambda i: (sum(all_in_sight[i].near) / len(all_in_sight[i].near), i),
    )
    drawn = [all_in_sight[i] for i in order]
    marks: list[Mark] = []
    for one in drawn:
        hose = one.hose
        if _is_end_on(one):
            marks.append(Circle(one.points[0], one.width / 2, Ink.HOSE, hose.id, hose.system))
            continue
        marks += _strokes(hose, one.points, one.width)
        marks += _axis(hose, one.points, one.width)
    # Drawn whole, the hose whose middle is nearer lies on top; where two cross the other way
    # round, the upper one is drawn again.
    for _, upper, at, reach in sorted(_wrong(drawn)):
        one = drawn[upper]
        piece = _piece(one.points, at, reach)
        marks += _strokes(one.hose, piece, one.width)
        marks += _axis(one.hose, piece, one.width)
    return marks


def crossings(drawn: Sequence[Stretch]) -> list[Crossing]:
    """Where stretches of different hoses cross on paper.

    Parameters
    ----------
    drawn : Sequence of Stretch
        Stretches.

    Returns
    -------
    list of Crossing
        Each pair of strokes once.
    """
    import numpy as np

    rows: list[tuple[float, float, float, float]] = []
    known: list[tuple[int, float, float, float, float]] = []
    for number, part in enumerate(drawn):
        run = 0.0
        for (a, b), (na, nb) in zip(pairwise(part.points), pairwise(part.near), strict=True):
            far = hypot(b[0] - a[0], b[1] - a[1])
            rows.append((*a, b[0] - a[0], b[1] - a[1]))
            known.append((number, run, far, na, nb))
            run += far
    if len(rows) < 2:
        return []
    table: NDArray[np.float64] = np.array(rows)
    p, r = table[:, :2], table[:, 2:]
    found = []
    for i in range(len(rows) - 1):
        q, s = p[i + 1 :], r[i + 1 :]
        det = r[i, 0] * s[:, 1] - r[i, 1] * s[:, 0]
        ok = np.abs(det) > 1e-9
        safe = np.where(ok, det, 1.0)
        d = q - p[i]
        t = (d[:, 0] * s[:, 1] - d[:, 1] * s[:, 0]) / safe
        u = (d[:, 0] * r[i, 1] - d[:, 1] * r[i, 0]) / safe
        ok &= (t >= 0) & (t <= 1) & (u >= 0) & (u <= 1)
        for j in np.flatnonzero(ok):
            one, two = known[i], known[i + 1 + int(j)]
            if drawn[one[0]].hose.id == drawn[two[0]].hose.id:
                continue
            to, tt = float(t[j]), float(u[j])
            found.append(
                Crossing(
                    one[0],
                    two[0],
                    one[1] + to * one[2],
                    two[1] + tt * two[2],
                    one[3] + to * (one[4] - one[3]),
                    two[3] + tt * (two[4] - two[3]),
                    abs(float(det[j])) / (one[2] * two[2]),
                )
            )
    return found


def _wrong(drawn: Sequence[Stretch]) -> list[tuple[float, int, float, float]]:
    """Crossings at which the farther hose was drawn later: nearness, upper one, where, reach."""
    found = []
    for x in crossings(drawn):
        # Stretches are in the order in which they are drawn.
        is_first_later = x.first > x.second
        later, earlier = max(x.first, x.second), min(x.first, x.second)
        above = x.near_first - x.near_second
        if (above if is_first_later else -above) >= 0:
            continue
        at = x.at_second if is_first_later else x.at_first
        reach = (drawn[later].width + drawn[earlier].width) / 2 / max(x.sine, 0.25) + 0.8
        found.append((max(x.near_first, x.near_second), earlier, at, reach))
    return found


def _piece(points: Sequence[Point], at: float, reach: float) -> tuple[Point, ...]:
    """The part of a stroke round a place on it."""
    low, high = at - reach, at + reach
    run = 0.0
    kept: list[Point] = []
    for a, b in pairwise(points):
        far = hypot(b[0] - a[0], b[1] - a[1])
        start, end = max(low - run, 0.0), min(high - run, far)
        if start < end:
            for t in (start / far, end / far):
                point = (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t)
                if not kept or point != kept[-1]:
                    kept.append(point)
        run += far
    return tuple(kept)
