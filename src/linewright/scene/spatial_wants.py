# SPDX-License-Identifier: Apache-2.0
"""What is labelled on a view to scale, and where each label may point."""

from collections.abc import Mapping, Sequence
from itertools import pairwise
from math import hypot

from linewright.scene.drawing import Box, Ink, Mark, Pen, Point, Polyline
from linewright.scene.spatial_hoses import Stretch
from linewright.scene.spatial_labels import Cover, Label, Want, set_labels
from linewright.scene.spatial_marks import clipped
from linewright.scene.spatial_outlines import Eye, Seen
from linewright.scene.spatial_sheet import Frame
from linewright.scene.spatial_things import Space
from linewright.space.bodies import Solid

#: Numbers of hoses, names of bodies. [mm]
_NUMBER, _NAME = 3.6, 3.0

#: More names of bodies than these no sheet holds; the largest have theirs.
_MOST_NAMES = 120


def _hose_wants(all_stretches: Mapping[str, list[Stretch]]) -> list[Want]:
    wants = []
    for key, parts in all_stretches.items():
        places: list[tuple[Point, float, float]] = []
        whole = sum(_length(part.points) for part in parts)
        for part in parts:
            length = _length(part.points)
            count = max(1, min(10, round(10 * length / whole) if whole else 1))
            for i in range(count):
                along = length * (i + 0.5) / count
                middle = abs((i + 0.5) / count - 0.5)
                cost = (4.0 if part.is_hidden else 0.0) + 2.0 * middle
                places.append((_at(part.points, along), part.width / 2, cost))
        if places:
            wants.append(Want(key, (key,), tuple(places), _NUMBER, True, Pen.INK))
    # The short ones have the fewest places.
    return sorted(wants, key=lambda w: len(w.places))


def _length(points: Sequence[Point]) -> float:
    return sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(points))


def _at(points: Sequence[Point], along: float) -> Point:
    for a, b in pairwise(points):
        far = hypot(b[0] - a[0], b[1] - a[1])
        if far and along <= far:
            return a[0] + (b[0] - a[0]) * along / far, a[1] + (b[1] - a[1]) * along / far
        along -= far
    return points[-1]


def _want_of(key: str, wordings: tuple[str, ...], outline: Sequence[Point], pen: Pen) -> Want:
    xs, ys = [p[0] for p in outline], [p[1] for p in outline]
    box = Box(min(xs), min(ys), max(xs), max(ys))
    middle = ((box.left + box.right) / 2, (box.top + box.bottom) / 2)
    # From outside it is pointed at near its edge, so that the leader stays short.
    edge = [
        (
            (middle[0] + 0.85 * (x - middle[0]), middle[1] + 0.85 * (y - middle[1])),
            0.5 + 0.15 * hypot(x - middle[0], y - middle[1]),
            6.0,
        )
        for x, y in outline[:: max(1, len(outline) // 8)]
    ]
    return Want(key, wordings, tuple(edge), _NAME, False, pen, box)


def _largest(bodies: Sequence[Seen]) -> list[Seen]:
    """The bodies that are worth a name where there are too many for the sheet."""

    def area(body: Seen) -> float:
        left, right, low, high = body.box
        return (right - left) * (high - low)

    return sorted(bodies, key=lambda b: (-area(b), b.id))[:_MOST_NAMES]


def _port_wants(space: Space, place: Frame, eye: Eye) -> list[Want]:
    """Names of ports, the last of all: each stands beside its port or nowhere."""
    wants = []
    for port in space.dots:
        at = place.paper(eye.flat(port.at))
        name = port.id.partition(".")[2] or port.id
        want = Want(port.id, (name,), ((at, 1.2, 0.0),), _NAME, False, Pen.QUIET, if_room=True)
        wants.append(want)
    return wants


def labels_of(
    space: Space,
    lines: Mapping[str, list[Stretch]],
    bodies: Sequence[Seen],
    zones: Mapping[str, list[Mark]],
    place: Frame,
    eye: Eye,
    arrows: Sequence[Mark],
) -> tuple[tuple[Label, ...], tuple[str, ...]]:
    """Label hoses, bodies, zones and walls.

    Parameters
    ----------
    space : Space
        What has a place.
    lines : Mapping of str to list of Stretch
        Hoses on paper, by id.
    bodies : Sequence of Seen
        Bodies as they are seen.
    zones : Mapping of str to list of Mark
        Zones on paper, by id.
    place : Frame
        Scale and place.
    eye : Eye
        From where.
    arrows : Sequence of Mark
        Pointers in the corners.

    Returns
    -------
    tuple
        Labels, and the ids of what found no room.
    """
    cover = Cover(place.room)
    for parts in lines.values():
        for one in parts:
            weight = 0.5 if one.is_hidden else 1.0
            cover.add_line(one.points, one.width / 2 + 0.2, weight)
    for hose in space.hoses:
        for end in hose.ends:
            row = [place.paper(eye.flat(p)) for p in end]
            cover.add_line(row, hose.outside * 500 / place.ratio + 0.2)
    for port in space.dots:
        cover.add(place.paper(eye.flat(port.at)), 1.2)
    wants = _hose_wants(lines)
    names = space.names or {}
    for body in sorted(_largest(bodies), key=lambda b: -b.top):
        outline = [place.paper(p) for p in body.outline]
        words = (f"{body.id} {names[body.id]}",) if body.id in names else ()
        wants.append(_want_of(body.id, (*words, body.id), outline, Pen.INK))
    # A zone that is a body's own needs no second name: the hatch says what it is.
    bare = {z.id for z in space.zones if not any(_is_same(z, s) for s in space.solids)}
    for key, marks in zones.items():
        if key not in bare:
            continue
        edge = next(m for m in marks if isinstance(m, Polyline) and m.ink is Ink.ZONE)
        wants.append(_want_of(key, (key,), edge.points, Pen.QUIET))
    for slab in space.slabs:
        outline = list(clipped(slab, eye, place) or ())
        if len(outline) > 2:
            wants.append(_want_of(slab.id, (slab.id,), outline, Pen.QUIET))
    wants += _port_wants(space, place, eye)
    taken = [Box(place.room.left, place.room.top, place.room.left + 24, place.room.top + 6)]
    if len(arrows) > 3:
        taken.append(
            Box(place.room.right - 24, place.room.top, place.room.right, place.room.top + 6)
        )
    labels, lost = set_labels(wants, cover, taken)
    named = {body.id for body in _largest(bodies)}
    return labels, (*lost, *(body.id for body in bodies if body.id not in named))


def _is_same(zone: Solid, solid: Solid) -> bool:
    return (zone.middle, zone.shape, zone.size) == (solid.middle, solid.shape, solid.size)
