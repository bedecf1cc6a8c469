# SPDX-License-Identifier: Apache-2.0
"""Views of the car to scale: plan, side and rear."""

from collections.abc import Mapping, Sequence
from enum import StrEnum
from itertools import pairwise
from math import hypot

from linewright.base.evidence import Placed
from linewright.base.vectors import Vector, dot
from linewright.routes.bodies import Solid
from linewright.routes.path import sample
from linewright.scene.drawing import (
    Box,
    Circle,
    Drawing,
    Group,
    Ink,
    Mark,
    Pen,
    Point,
    Polyline,
)
from linewright.scene.paper import Sheet, Title, title_block
from linewright.scene.spatial_hoses import (
    Stretch,
    hidden_marks,
    hose_stretches,
    sight_marks,
    stretches,
)
from linewright.scene.spatial_labels import Cover, Label, Want, set_labels
from linewright.scene.spatial_outlines import Eye, Seen, hull, reach, seen
from linewright.scene.spatial_sheet import (
    NOT_THIS,
    Frame,
    frame,
    legend,
    pointer,
    port_marks,
    rulers,
    scale_bars,
    zone_marks,
)
from linewright.scene.spatial_things import Slab, Space
from linewright.scene.text import set_text, wrapped


class View(StrEnum):
    """From where the car is looked at."""

    PLAN = "plan"
    SIDE = "side"
    REAR = "rear"


EYES: Mapping[View, Eye] = {
    View.PLAN: Eye((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
    View.SIDE: Eye((1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, -1.0, 0.0)),
    View.REAR: Eye((0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0)),
}

_SEEN_FROM = {
    View.PLAN: "seen from above, front to the left, the driver's right at the top",
    View.SIDE: "seen from the left, front to the left",
    View.REAR: "seen from behind",
}

_AXES = {View.PLAN: ("x", "y"), View.SIDE: ("x", "z"), View.REAR: ("y", "z")}

#: Numbers of hoses, names of bodies. [mm]
_NUMBER, _NAME = 3.0, 2.4

_SHEET = Sheet("A3", 420.0, 297.0, 1.0)


def _slab_corners(slab: Slab, wide: float, high: float) -> list[Vector]:
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


def _extents(
    space: Space, eye: Eye, bodies: Sequence[Seen]
) -> tuple[float, float, float, float] | None:
    """Left, right, low, high of all that is shown. [m]"""
    flat: list[Point] = [p for body in bodies for p in body.outline]
    for zone in space.zones:
        flat += reach(zone, eye)
    flat += [eye.flat(dot_.at) for dot_ in space.dots]
    for hose in space.hoses:
        r = hose.outside / 2
        for point in sample(hose.path, 0.02):
            x, y = eye.flat((float(point[0]), float(point[1]), float(point[2])))
            flat += [(x - r, y - r), (x + r, y + r)]
        flat += [eye.flat(p) for end in hose.ends for p in end]
    for slab in space.slabs:
        if slab.wide is not None and slab.high is not None:
            flat += [eye.flat(p) for p in _slab_corners(slab, slab.wide, slab.high)]
        else:
            flat.append(eye.flat(slab.at))
    if not flat:
        return None
    xs, ys = [p[0] for p in flat], [p[1] for p in flat]
    return min(xs), max(xs), min(ys), max(ys)


def _clipped(slab: Slab, eye: Eye, view: Frame) -> tuple[Point, ...] | None:
    """Silhouette of a wall on paper; None where one without an edge is seen face on."""
    is_edge_on = abs(dot(slab.points, eye.toward)) < 0.2
    if slab.wide is not None and slab.high is not None:
        corners = _slab_corners(slab, slab.wide, slab.high)
        return hull([view.paper(eye.flat(p)) for p in corners])
    if not is_edge_on:
        return None
    # Without an edge it goes across the whole view.
    corners = _slab_corners(slab, 50.0, 50.0)
    outline = hull([view.paper(eye.flat(p)) for p in corners])
    return _cut(outline, view.room)


def _cut(outline: Sequence[Point], room: Box) -> tuple[Point, ...]:
    """The part of a convex outline within a box (Sutherland, Hodgman 1974)."""
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


def _body_marks(bodies: Sequence[Seen], view: Frame) -> list[Mark]:
    def on_paper(row: Sequence[Point]) -> tuple[Point, ...]:
        return tuple(view.paper(p) for p in row)

    marks: list[Mark] = []
    for body in sorted(bodies, key=lambda b: (b.top, b.id)):
        marks.append(Polyline(on_paper(body.outline), Ink.BODY, body.id, closed=True))
        marks += [Polyline(on_paper(f), Ink.BODY, body.id, closed=True) for f in body.faces]
    # What a nearer body covers is still there: its outline shows dashed.
    marks += [Polyline(on_paper(b.outline), Ink.BEHIND, b.id, closed=True) for b in bodies]
    return marks


def _slab_marks(slab: Slab, eye: Eye, view: Frame) -> list[Mark]:
    outline = _clipped(slab, eye, view)
    if not outline or len(outline) < 3:
        return []
    if abs(dot(slab.points, eye.toward)) < 0.2:
        xs, ys = [p[0] for p in outline], [p[1] for p in outline]
        thick = slab.thickness * 1000 / view.ratio
        # A sheet is thinner than a stroke: it is drawn along its middle.
        if min(max(xs) - min(xs), max(ys) - min(ys)) < 0.6:
            ends = ((min(xs), min(ys)), (max(xs), max(ys)))
            return [Polyline(ends, Ink.PANEL, slab.id, width=max(thick, 0.6))]
        return [Polyline(outline, Ink.PANEL, slab.id, closed=True, width=0.4)]
    marks: list[Mark] = [Polyline(outline, Ink.BEHIND, slab.id, closed=True)]
    for at, radius in slab.holes:
        marks.append(
            Circle(
                view.paper(eye.flat(at)), max(radius * 1000 / view.ratio, 0.6), Ink.FINE, slab.id
            )
        )
    return marks


def _dot_marks(space: Space, eye: Eye, view: Frame) -> list[Group]:
    groups = []
    for port in space.dots:
        out = port.out
        flat = None if out is None else (dot(out, eye.right), -dot(out, eye.up))
        toward = 0.0 if out is None else dot(out, eye.toward)
        marks = port_marks(view.paper(eye.flat(port.at)), flat, toward, port.id)
        groups.append(Group(port.id, tuple(marks), port.id))
    return groups


def _fittings(
    space: Space, eye: Eye, view: Frame, bodies: Sequence[Seen]
) -> tuple[list[Mark], list[Mark]]:
    """Hose ends: those hidden, those in sight."""
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


def _words(space: Space) -> str:
    """What the sheet must say besides: guesses and what is not drawn."""
    words = []
    guessed = [s.id for s in (*space.solids, *space.zones) if s.placed is Placed.GUESS]
    if guessed:
        words.append(f"Position guessed: {_listed(guessed)}.")
    if space.missing:
        words.append(f"Not drawn, no course in space: {_listed(space.missing)}.")
    return " ".join(words)


def _listed(ids: Sequence[str], most: int = 14) -> str:
    shown = ", ".join(ids[:most])
    return shown + (f" and {len(ids) - most} more" if len(ids) > most else "")


def draw_view(
    space: Space,
    view: View,
    *,
    car_name: str,
    revision: str = "",
    date: str = "",
    sheet: int = 1,
    of: int = 1,
) -> Drawing | None:
    """Draw the car to a standard scale on A3, from one side.

    Parameters
    ----------
    space : Space
        What has a place.
    view : View
        From where.
    car_name, revision, date : str
        For the title block.
    sheet, of : int
        Number of the sheet, and of all sheets.

    Returns
    -------
    Drawing or None
        None where nothing has a place: no picture pretends to positions that nobody gave.
    """
    eye = EYES[view]
    bodies = [s for s in (seen(solid, eye) for solid in space.solids) if s is not None]
    extents = _extents(space, eye, bodies)
    if extents is None:
        return None
    place = frame(_SHEET, *extents)
    lines = {
        hose.id: hose_stretches(hose, eye, bodies, place.paper, place.ratio) for hose in space.hoses
    }
    every = [one for parts in lines.values() for one in parts]
    groups = [Group("bodies", tuple(_body_marks(bodies, place)), "Bodies")]
    slabs = [m for slab in space.slabs for m in _slab_marks(slab, eye, place)]
    groups.append(Group("walls", tuple(slabs), "Walls"))
    zones: dict[str, list[Mark]] = {}
    for zone in space.zones:
        body = seen(zone, eye)
        if body is not None and zone.zone is not None:
            outline = [place.paper(p) for p in body.outline]
            travel = [place.paper(p) for p in reach(zone, eye)]
            zones[zone.id] = zone_marks(outline, zone.zone, zone.id, travel)
    groups += [Group(key, tuple(marks), f"Zone {key}") for key, marks in zones.items()]
    hidden_ends, ends = _fittings(space, eye, place, bodies)
    behind = [m for one in every if one.is_hidden for m in hidden_marks(one)]
    groups.append(Group("hoses-behind", (*behind, *hidden_ends), "Hoses behind bodies"))
    groups.append(
        Group("hoses", tuple(sight_marks([o for o in every if not o.is_hidden])), "Hoses")
    )
    groups.append(Group("ends", tuple(ends), "Hose ends"))
    groups += _dot_marks(space, eye, place)
    room = place.room
    arrows = _pointers(view, room)
    labels, lost = _labels(space, lines, bodies, zones, place, eye, arrows)
    for label in labels:
        marks: list[Mark] = []
        if label.leader is not None:
            marks.append(Polyline(label.leader, Ink.RULER, label.id))
        groups.append(Group(f"label-{label.id}", (*marks, label.text)))
    groups.append(Group("pointers", tuple(arrows)))
    groups.append(rulers(place, *_AXES[view], (1, 1)))
    groups.append(_note(space, view, room))
    groups.append(_legend(space, every, slabs, ends))
    groups.append(scale_bars(_SHEET, place.ratio))
    name = f"{view.value.capitalize()} view, 1:{place.ratio}"
    groups.append(title_block(_SHEET, Title(car_name, name, revision, date, sheet, of, NOT_THIS)))
    return Drawing(
        _SHEET.width,
        _SHEET.height,
        tuple(g for g in groups if g.marks),
        f"{car_name}: {name}",
        _told(space, view, place.ratio),
        space.systems[0][0] if space.systems else "A",
        _SHEET.name,
        ratio=place.ratio,
        lost=lost,
    )


def _pointers(view: View, room: Box) -> list[Mark]:
    y = room.top + 3.4
    if view is View.REAR:
        return [
            *pointer((room.left + 12.5, y), "left", True),
            *pointer((room.right - 12.5, y), "right", False),
        ]
    return pointer((room.left + 12.5, y), "front", True)


def _note(space: Space, view: View, room: Box) -> Group:
    first = f"{_SEEN_FROM[view].capitalize()}."
    rows = wrapped(f"{first} {_words(space)}".strip(), room.width, 2.4)[:2]
    return Group(
        "note",
        tuple(
            set_text(row, (room.left, room.bottom + 3.6 + 3.4 * i), 2.4)
            for i, row in enumerate(rows)
        ),
    )


def _legend(
    space: Space, every: Sequence[Stretch], slabs: Sequence[Mark], ends: Sequence[Mark]
) -> Group:
    used = {h.system for h in space.hoses}
    letters = sorted({h.letter for h in space.hoses} - used)
    kinds = sorted({z.zone for z in space.zones if z.zone is not None}, key=lambda k: k.value)
    extras = []
    if any(one.is_hidden for one in every):
        extras.append("hidden")
    if ends:
        extras.append("end")
    if space.dots:
        extras.append("port")
    if any(isinstance(m, Polyline) and m.ink is Ink.PANEL for m in slabs):
        extras.append("wall")
    if any(isinstance(m, Circle) for m in slabs):
        extras.append("hole")
    systems: dict[str, str] = {}
    for letter, words in space.systems:
        if letter in used:
            systems[letter] = f"{systems[letter]}, {words}" if letter in systems else words
    return legend(_SHEET, tuple(systems.items()), letters, kinds, extras)


def _labels(
    space: Space,
    lines: Mapping[str, list[Stretch]],
    bodies: Sequence[Seen],
    zones: Mapping[str, list[Mark]],
    place: Frame,
    eye: Eye,
    arrows: Sequence[Mark],
) -> tuple[tuple[Label, ...], tuple[str, ...]]:
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
    for body in sorted(bodies, key=lambda b: -b.top):
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
        outline = list(_clipped(slab, eye, place) or ())
        if len(outline) > 2:
            wants.append(_want_of(slab.id, (slab.id,), outline, Pen.QUIET))
    taken = [Box(place.room.left, place.room.top, place.room.left + 24, place.room.top + 6)]
    if len(arrows) > 3:
        taken.append(
            Box(place.room.right - 24, place.room.top, place.room.right, place.room.top + 6)
        )
    return set_labels(wants, cover, taken)


def _is_same(zone: Solid, solid: Solid) -> bool:
    return (zone.middle, zone.shape, zone.size) == (solid.middle, solid.shape, solid.size)


def _told(space: Space, view: View, ratio: int) -> str:
    """The view in words, for who cannot see it."""
    bodies = ", ".join(s.id for s in space.solids)
    hoses = "; ".join(f"{h.id} from {h.ports[0]} to {h.ports[1]}" for h in space.hoses)
    return (
        f"The car {_SEEN_FROM[view]}, to the scale 1:{ratio}. Bodies: {bodies or 'none'}. "
        f"Hoses: {hoses or 'none'}. {NOT_THIS}"
    )
