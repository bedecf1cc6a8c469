# SPDX-License-Identifier: Apache-2.0
"""Bodies, walls, ports and hose ends as marks of a view to scale."""

from collections.abc import Sequence
from itertools import pairwise
from math import hypot

from linewright.base.vectors import Vector, dot
from linewright.scene.drawing import Box, Circle, Group, Ink, Mark, Point, Polyline
from linewright.scene.spatial_hoses import stretches
from linewright.scene.spatial_outlines import Eye, Seen, hull, reach
from linewright.scene.spatial_sheet import Frame, port_marks
from linewright.scene.spatial_things import Slab, Space
from linewright.space.outlines import GROUND
from linewright.space.path import sample

#: Strokes of earth under the ground are so far apart. [mm]
_EARTH = 12.0


def slab_corners(slab: Slab, wide: float, high: float) -> list[Vector]:
    """Corners of a wall in the car.

    Parameters
    ----------
    slab : Slab
        The wall.
    wide, high : float
        How far it goes each way along its two directions. [m]

    Returns
    -------
    list of Vector
        Eight corners. [m]
    """
    half = slab.thickness / 2.0
    return [
        tuple(  # type: ignore[misc]
            slab.at[k]
            + i * wide * slab.level[k]
            + j * high * slab.other[k]
            + n * half * slab.points[k]
            for k in range(3)
        )
        for i in (-1, 1)
        for j in (-1, 1)
        for n in (-1, 1)
    ]


def extents(
    space: Space, eye: Eye, bodies: Sequence[Seen], *, is_core: bool = False
) -> tuple[float, float, float, float] | None:
    """Left, right, low and high end of all that is shown.

    Parameters
    ----------
    space : Space
        What has a place.
    eye : Eye
        From where.
    bodies : Sequence of Seen
        Bodies as they are seen.
    is_core : bool
        Whether of bodies, ports and hoses alone: walls and zones may go on beyond them.

    Returns
    -------
    tuple of float or None
        None where nothing is shown. [m]
    """
    flat: list[Point] = [p for body in bodies for p in body.outline]
    for zone in () if is_core else space.zones:
        flat += reach(zone, eye)
    flat += [eye.flat(dot_.at) for dot_ in space.dots]
    for hose in space.hoses:
        r = hose.outside / 2
        for point in sample(hose.path, 0.02):
            x, y = eye.flat((float(point[0]), float(point[1]), float(point[2])))
            flat += [(x - r, y - r), (x + r, y + r)]
        flat += [eye.flat(p) for end in hose.ends for p in end]
    for slab in () if is_core else space.slabs:
        if slab.wide is not None and slab.high is not None:
            flat += [eye.flat(p) for p in slab_corners(slab, slab.wide, slab.high)]
        else:
            flat.append(eye.flat(slab.at))
    if not flat:
        return None
    if space.ground is not None and is_level(eye) and not is_core:
        flat.append((flat[0][0], eye.flat((0.0, 0.0, space.ground))[1]))
    xs, ys = [p[0] for p in flat], [p[1] for p in flat]
    return min(xs), max(xs), min(ys), max(ys)


def is_level(eye: Eye) -> bool:
    """Whether the ground is seen from its edge.

    Parameters
    ----------
    eye : Eye
        From where.

    Returns
    -------
    bool
        True from the side and from behind.
    """
    return abs(eye.toward[2]) < 0.2


def ground_marks(space: Space, eye: Eye, view: Frame) -> list[Mark]:
    """The ground on paper, where it is seen from its edge.

    Parameters
    ----------
    space : Space
        What has a place.
    eye : Eye
        From where.
    view : Frame
        Scale and place.

    Returns
    -------
    list of Mark
        A stroke across the view with its earth hatched under it; nothing from above.
    """
    if space.ground is None or not is_level(eye):
        return []
    y = view.paper(eye.flat((0.0, 0.0, space.ground)))[1]
    left, right = view.room.left, view.room.right
    marks: list[Mark] = [Polyline(((left, y), (right, y)), Ink.RULER, GROUND, width=0.35)]
    for number in range(1, int((right - left) / _EARTH)):
        x = left + number * _EARTH
        marks.append(Polyline(((x, y), (x - 1.6, y + 1.6)), Ink.RULER, GROUND))
    return marks


def clipped(slab: Slab, eye: Eye, view: Frame) -> tuple[Point, ...] | None:
    """Silhouette of a wall on paper; None where one without an edge is seen face on.

    Parameters
    ----------
    slab : Slab
        The wall.
    eye : Eye
        From where.
    view : Frame
        Scale and place.

    Returns
    -------
    tuple of tuple of float or None
        Corners. [mm]
    """
    is_edge_on = abs(dot(slab.points, eye.toward)) < 0.2
    if slab.wide is not None and slab.high is not None:
        corners = slab_corners(slab, slab.wide, slab.high)
        return cut(hull([view.paper(eye.flat(p)) for p in corners]), view.room) or None
    if not is_edge_on:
        return None
    # Without an edge it goes across the whole view.
    corners = slab_corners(slab, 50.0, 50.0)
    outline = hull([view.paper(eye.flat(p)) for p in corners])
    return cut(outline, view.room)


def cut(outline: Sequence[Point], room: Box) -> tuple[Point, ...]:
    """The part of an outline within a box (Sutherland, Hodgman 1974).

    Parameters
    ----------
    outline : Sequence of tuple of float
        Corners of a convex outline. [mm]
    room : Box
        The box.

    Returns
    -------
    tuple of tuple of float
        Its corners; none where nothing of it is in the box. [mm]
    """
    points = list(outline)
    for axis, limit, sign in (
        (0, room.left, 1),
        (0, room.right, -1),
        (1, room.top, 1),
        (1, room.bottom, -1),
    ):
        kept: list[Point] = []
        for a, b in zip(points, (*points[1:], *points[:1]), strict=True):
            da, db = sign * (a[axis] - limit), sign * (b[axis] - limit)
            if da >= 0:
                kept.append(a)
            if (da >= 0) != (db >= 0):
                t = da / (da - db)
                kept.append((a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])))
        points = kept
    return tuple(points)


def body_marks(bodies: Sequence[Seen], view: Frame) -> list[Mark]:
    """Bodies on paper, nearer over farther.

    Parameters
    ----------
    bodies : Sequence of Seen
        Bodies as they are seen.
    view : Frame
        Scale and place.

    Returns
    -------
    list of Mark
        The nearest last; then all outlines dashed.
    """

    def on_paper(row: Sequence[Point]) -> tuple[Point, ...]:
        return tuple(view.paper(p) for p in row)

    marks: list[Mark] = []
    for body in sorted(bodies, key=lambda b: (b.top, b.id)):
        marks.append(Polyline(on_paper(body.outline), Ink.BODY, body.id, closed=True))
        marks += [Polyline(on_paper(f), Ink.BODY, body.id, closed=True) for f in body.faces]
    # What a nearer body covers is still there: its outline shows dashed.
    marks += [Polyline(on_paper(b.outline), Ink.BEHIND, b.id, closed=True) for b in bodies]
    return marks


def slab_marks(slab: Slab, eye: Eye, view: Frame) -> list[Mark]:
    """A wall on paper.

    Parameters
    ----------
    slab : Slab
        The wall.
    eye : Eye
        From where.
    view : Frame
        Scale and place.

    Returns
    -------
    list of Mark
        A stroke where it is seen from its edge, else its outline and holes.
    """
    outline = clipped(slab, eye, view)
    if not outline or len(outline) < 3:
        return []
    if abs(dot(slab.points, eye.toward)) < 0.2:
        xs, ys = [p[0] for p in outline], [p[1] for p in outline]
        thick = slab.thickness * 1000 / view.ratio
        # A sheet is thinner than a stroke: it is drawn along its middle.
        if min(max(xs) - min(xs), max(ys) - min(ys)) < 0.6:
            ends = ((min(xs), min(ys)), (max(xs), max(ys)))
            # The skin of the car only bounds it: what lines pass through is the stronger stroke.
            least = 0.35 if slab.is_skin else 0.6
            return [Polyline(ends, Ink.PANEL, slab.id, width=max(thick, least))]
        return [Polyline(outline, Ink.PANEL, slab.id, closed=True, width=0.4)]
    marks: list[Mark] = [Polyline(outline, Ink.BEHIND, slab.id, closed=True)]
    for at, radius in slab.holes:
        marks.append(
            Circle(
                view.paper(eye.flat(at)), max(radius * 1000 / view.ratio, 0.6), Ink.FINE, slab.id
            )
        )
    return marks


def dot_marks(space: Space, eye: Eye, view: Frame) -> list[Group]:
    """Ports on paper.

    Parameters
    ----------
    space : Space
        What has a place.
    eye : Eye
        From where.
    view : Frame
        Scale and place.

    Returns
    -------
    list of Group
        One a port.
    """
    groups = []
    for port in space.dots:
        out = port.out
        flat = None if out is None else (dot(out, eye.right), -dot(out, eye.up))
        toward = 0.0 if out is None else dot(out, eye.toward)
        marks = port_marks(view.paper(eye.flat(port.at)), flat, toward, port.id)
        groups.append(Group(port.id, tuple(marks), port.id))
    return groups


def fitting_marks(
    space: Space, eye: Eye, view: Frame, bodies: Sequence[Seen]
) -> tuple[list[Mark], list[Mark]]:
    """Hose ends and what they stand on.

    Parameters
    ----------
    space : Space
        What has a place.
    eye : Eye
        From where.
    view : Frame
        Scale and place.
    bodies : Sequence of Seen
        Bodies as they are seen.

    Returns
    -------
    tuple of list of Mark
        Those hidden, those in sight.
    """
    hidden: list[Mark] = []
    shown: list[Mark] = []
    for hose in space.hoses:
        wide = max(hose.outside * 1000 / view.ratio * 0.8, 0.5)
        for end in hose.ends:
            dense = _dense(end, 0.6 * view.ratio / 1e3)
            for is_hidden, points, _ in stretches(dense, eye, bodies, view.paper):
                if _span(points) < 0.2:
                    continue
                if is_hidden:
                    hidden.append(
                        Polyline(points, Ink.HIDDEN, hose.id, system=hose.system, width=0.35)
                    )
                else:
                    shown.append(Polyline(points, Ink.FITTING, hose.id, width=wide))
    return hidden, shown


def _span(points: Sequence[Point]) -> float:
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return hypot(max(xs) - min(xs), max(ys) - min(ys))


def _dense(points: Sequence[Vector], step: float) -> list[Vector]:
    found = [points[0]]
    for a, b in pairwise(points):
        far = sum((q - p) ** 2 for p, q in zip(a, b, strict=True)) ** 0.5
        n = max(1, int(far / step))
        for i in range(1, n + 1):
            t = i / n
            found.append(
                (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2]))
            )
    return found
