# SPDX-License-Identifier: Apache-2.0
"""Views of the car to scale: plan, side and rear."""

from collections.abc import Mapping, Sequence
from enum import StrEnum

from linewright.base.evidence import Placed
from linewright.scene.drawing import (
    Box,
    Circle,
    Drawing,
    Group,
    Ink,
    Mark,
    Polyline,
)
from linewright.scene.paper import Sheet, Title, title_block
from linewright.scene.spatial_hoses import (
    Stretch,
    hidden_marks,
    hose_stretches,
    sight_marks,
)
from linewright.scene.spatial_marks import (
    body_marks,
    cut,
    dot_marks,
    extents,
    fitting_marks,
    ground_marks,
    slab_marks,
)
from linewright.scene.spatial_outlines import Eye, reach, seen
from linewright.scene.spatial_sheet import (
    NOT_THIS,
    Frame,
    frame,
    legend,
    pointer,
    rulers,
    scale_bars,
    zone_marks,
)
from linewright.scene.spatial_things import Space
from linewright.scene.spatial_wants import labels_of
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

#: Sheets of views: A3, and one as high and as long as A2 (an elongated size of ISO 5457) for
#: cars that are long and low.
SHEETS = (Sheet("A3", 420.0, 297.0, 1.0), Sheet("A3 long", 594.0, 297.0, 1.0))

#: Under this room for each label, a longer sheet is taken where it gives a larger scale. [mm2]
_CROWDED = 600.0


def _words(space: Space, lost: Sequence[str], beyond: Sequence[str]) -> str:
    """What the sheet must say besides: guesses and what is not drawn."""
    words = []
    if beyond:
        words.append(f"Beyond the edge of the sheet: {_listed(beyond)}.")
    guessed = [s.id for s in (*space.solids, *space.zones) if s.placed is Placed.GUESS]
    if guessed:
        words.append(f"Position guessed: {_listed(guessed)}.")
    if space.missing:
        words.append(f"Not drawn, no course in space: {_listed(space.missing)}.")
    if lost:
        words.append(f"No room for the name of: {_listed(lost)}.")
    return " ".join(words)


def _listed(ids: Sequence[str], most: int = 14) -> str:
    shown = ", ".join(ids[:most])
    return shown + (f" and {len(ids) - most} more" if len(ids) > most else "")


def view_frame(space: Space, eye: Eye, *, show: str = "metric") -> Frame | None:
    """Scale of a view, and where it stands on which sheet.

    Parameters
    ----------
    space : Space
        What has a place.
    eye : Eye
        From where.
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    Frame or None
        None where nothing has a place.
    """
    bodies = [s for s in (seen(solid, eye) for solid in space.solids) if s is not None]
    ends_at = extents(space, eye, bodies)
    if ends_at is None:
        return None
    # Walls and zones go off the sheet where all else is then drawn to a larger scale.
    core = extents(space, eye, bodies, is_core=True) or ends_at
    labels = len(bodies) + len(space.hoses)
    best: Frame | None = None
    for sheet in SHEETS:
        whole = frame(sheet, *ends_at, show=show)
        close = frame(sheet, *core, show=show)
        found = close if close.ratio < whole.ratio else whole
        if best is None or found.ratio < best.ratio:
            best = found
        left, right, low, high = (1000.0 * value / best.ratio for value in core)
        if (right - left) * (high - low) >= _CROWDED * labels:
            break
    return best


def draw_view(
    space: Space,
    view: View,
    *,
    car_name: str,
    revision: str = "",
    date: str = "",
    sheet: int = 1,
    of: int = 1,
    show: str = "metric",
) -> Drawing | None:
    """Draw the car to a standard scale, from one side.

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
    show : str
        ``metric`` or ``inch``: which scales, and which rulers.

    Returns
    -------
    Drawing or None
        None where nothing has a place: no picture pretends to positions that nobody gave.
    """
    eye = EYES[view]
    bodies = [s for s in (seen(solid, eye) for solid in space.solids) if s is not None]
    place = view_frame(space, eye, show=show)
    if place is None:
        return None
    lines = {
        hose.id: hose_stretches(hose, eye, bodies, place.paper, place.ratio) for hose in space.hoses
    }
    every = [one for parts in lines.values() for one in parts]
    groups = [Group("bodies", tuple(body_marks(bodies, place)), "Bodies")]
    walls = {slab.id: slab_marks(slab, eye, place) for slab in space.slabs}
    slabs = [mark for marks in walls.values() for mark in marks]
    groups.append(Group("walls", tuple(slabs), "Walls"))
    groups.append(Group("ground", tuple(ground_marks(space, eye, place)), "Ground"))
    zones: dict[str, list[Mark]] = {}
    for zone in space.zones:
        body = seen(zone, eye)
        if body is not None and zone.zone is not None:
            outline = cut([place.paper(p) for p in body.outline], place.room)
            travel = cut([place.paper(p) for p in reach(zone, eye)], place.room)
            if not travel:
                continue
            zones[zone.id] = zone_marks(outline, zone.zone, zone.id, travel)
    groups += [Group(key, tuple(marks), f"Zone {key}") for key, marks in zones.items()]
    sized = {slab.id for slab in space.slabs if slab.wide is not None}
    beyond = [key for key, marks in walls.items() if not marks and key in sized]
    beyond += [zone.id for zone in space.zones if zone.id not in zones]
    hidden_ends, ends = fitting_marks(space, eye, place, bodies)
    behind = [m for one in every if one.is_hidden for m in hidden_marks(one)]
    groups.append(Group("hoses-behind", (*behind, *hidden_ends), "Hoses behind bodies"))
    groups.append(
        Group("hoses", tuple(sight_marks([o for o in every if not o.is_hidden])), "Hoses")
    )
    groups.append(Group("ends", tuple(ends), "Hose ends"))
    groups += dot_marks(space, eye, place)
    room = place.room
    arrows = _pointers(view, room)
    labels, lost = labels_of(space, lines, bodies, zones, place, eye, arrows)
    for label in labels:
        marks: list[Mark] = []
        if label.leader is not None:
            marks.append(Polyline(label.leader, Ink.RULER, label.id))
        groups.append(Group(f"label-{label.id}", (*marks, label.text)))
    groups.append(Group("pointers", tuple(arrows)))
    groups.append(rulers(place, *_AXES[view]))
    groups.append(_note(space, view, room, lost, beyond))
    groups.append(_legend(space, place.sheet, every, slabs, ends))
    groups.append(scale_bars(place.sheet, place.ratio))
    name = f"{view.value.capitalize()} view, 1:{place.ratio}"
    groups.append(
        title_block(place.sheet, Title(car_name, name, revision, date, sheet, of, NOT_THIS))
    )
    return Drawing(
        place.sheet.width,
        place.sheet.height,
        tuple(g for g in groups if g.marks),
        f"{car_name}: {name}",
        _told(space, view, place.ratio),
        space.systems[0][0] if space.systems else "A",
        place.sheet.name,
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


def _note(space: Space, view: View, room: Box, lost: Sequence[str], beyond: Sequence[str]) -> Group:
    first = f"{_SEEN_FROM[view].capitalize()}."
    rows = wrapped(f"{first} {_words(space, lost, beyond)}".strip(), room.width - 4.0, 3.0)
    if len(rows) > 2:
        rows = (rows[0], f"{rows[1]} …")
    return Group(
        "note",
        tuple(
            set_text(row, (room.left, room.bottom + 4.2 + 4.2 * i), 3.0)
            for i, row in enumerate(rows)
        ),
    )


def _legend(
    space: Space,
    sheet: Sheet,
    every: Sequence[Stretch],
    slabs: Sequence[Mark],
    ends: Sequence[Mark],
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
    return legend(sheet, tuple(systems.items()), letters, kinds, extras)


def _told(space: Space, view: View, ratio: int) -> str:
    """The view in words, for who cannot see it."""
    bodies = ", ".join(s.id for s in space.solids)
    hoses = "; ".join(f"{h.id} from {h.ports[0]} to {h.ports[1]}" for h in space.hoses)
    return (
        f"The car {_SEEN_FROM[view]}, to the scale 1:{ratio}. Bodies: {bodies or 'none'}. "
        f"Hoses: {hoses or 'none'}. {NOT_THIS}"
    )
