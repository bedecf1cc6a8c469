# SPDX-License-Identifier: Apache-2.0
"""The sheet of a view to scale: which scale, rulers, bars in mm and inches, legend."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor

from linewright.car.model import ZoneKind
from linewright.scene.drawing import (
    Anchor,
    Box,
    Circle,
    Group,
    Ink,
    Mark,
    Pen,
    Point,
    Polyline,
    Rect,
)
from linewright.scene.linetypes import LINE_TYPES
from linewright.scene.paper import FOOT, MARGIN, TITLE_WIDTH, Sheet, arrowhead
from linewright.scene.spatial_outlines import hatched
from linewright.scene.text import set_text, shortened

#: Scales 1:n of drawings, the largest picture first [-]: those of ISO 5455 with 1:15 and 1:25
#: between, which it leaves for where the next would be too small; and those of rules in feet
#: and inches, where 1:12 is an inch to the foot.
SCALES = (1, 2, 5, 10, 15, 20, 25, 50, 100, 200, 500, 1000)
SCALES_INCH = (1, 2, 4, 8, 12, 24, 48, 96, 192, 384, 768)

#: Room for rulers at the top and left, for words at the foot, and for labels all round. [mm]
RULER, WORDS, AIR = 6.5, 10.0, 7.0

#: Least height of type: 6 pt where the sheet is printed at half its area. [mm]
SMALL = 3.0

INCH = 25.4

#: How each kind of zone is hatched: angles [rad] and distance of strokes [mm].
HATCHES: dict[ZoneKind, tuple[tuple[float, ...], float]] = {
    ZoneKind.HOT: ((0.7853981633974483,), 1.3),
    ZoneKind.KEEP_OUT: ((0.7853981633974483, 2.356194490192345), 3.0),
    ZoneKind.MOVING: ((2.356194490192345,), 2.2),
    ZoneKind.DRIVER: ((0.0,), 3.2),
    ZoneKind.SPILL_SENSITIVE: ((1.5707963267948966,), 2.2),
}

#: How far the hatch of a large zone goes in from its edge. [mm]
RIM = 9.0

NOT_THIS = "Views to scale; verify on the car. Not a statement that a car is safe or legal."


@dataclass(frozen=True, slots=True)
class Frame:
    """Where a view stands on its sheet: 1:`ratio`, and the place of the view's own zero."""

    ratio: int
    zero: Point
    room: Box
    sheet: Sheet
    is_inch: bool = False

    def paper(self, point: Point) -> Point:
        """Place on paper of a place of the view. [m] to [mm]"""
        factor = 1000.0 / self.ratio
        return self.zero[0] + point[0] * factor, self.zero[1] - point[1] * factor

    def view(self, point: Point) -> Point:
        """Place of the view of a place on paper. [mm] to [m]"""
        factor = self.ratio / 1000.0
        return (point[0] - self.zero[0]) * factor, (self.zero[1] - point[1]) * factor


def frame(
    sheet: Sheet, left: float, right: float, low: float, high: float, *, show: str = "metric"
) -> Frame:
    """Largest standard scale at which a view fits a sheet, in the middle of it.

    Parameters
    ----------
    sheet : Sheet
        The sheet.
    left, right, low, high : float
        Extents of the view. [m]
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    Frame
        Scale and place.

    Examples
    --------
    >>> a3 = Sheet("A3", 420.0, 297.0, 1.0)
    >>> frame(a3, 0.0, 0.4, 0.0, 0.4).ratio, frame(a3, -0.4, 3.8, -0.9, 0.9).ratio
    (2, 15)
    """
    room = sheet.room
    inner = Box(room.left + RULER, room.top + RULER, room.right, room.bottom - WORDS)
    wide, high_ = inner.width - 2 * AIR, inner.height - 2 * AIR
    scales = SCALES_INCH if show == "inch" else SCALES
    ratio = scales[-1]
    for each in scales:
        if (right - left) * 1000 / each <= wide and (high - low) * 1000 / each <= high_:
            ratio = each
            break
    factor = 1000.0 / ratio
    zero = (
        (inner.left + inner.right) / 2 - (left + right) / 2 * factor,
        (inner.top + inner.bottom) / 2 + (low + high) / 2 * factor,
    )
    return Frame(ratio, zero, inner, sheet, show == "inch")


def _step(ratio: float, steps: Sequence[int], least: float) -> int:
    """Round number of units of the car that is at least so long on paper."""
    return next((step for step in steps if step / ratio >= least), steps[-1])


#: Long marks of the rulers: their distance in the unit, and how many short ones that makes.
_STEPS = (5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000)
_STEPS_INCH = (1, 2, 6, 12, 24, 48, 120, 240)


def rulers(view: Frame, across: str, upwards: str) -> Group:
    """Marks of the car's axes along the top and the left edge.

    Parameters
    ----------
    view : Frame
        Scale and place.
    across, upwards : str
        Names of the axes.

    Returns
    -------
    Group
        Its marks.
    """
    marks: list[Mark] = []
    room = view.room
    unit, one = ("in", INCH) if view.is_inch else ("mm", 1.0)
    ratio = view.ratio / one
    big = _step(ratio, _STEPS_INCH if view.is_inch else _STEPS, 18.0)
    parts = next(n for n in (5, 6, 4, 2, 1) if big % n == 0 or n == 1)
    small = big / parts
    marks.append(Polyline(((room.left, room.top), (room.right, room.top)), Ink.RULER))
    marks.append(Polyline(((room.left, room.top), (room.left, room.bottom)), Ink.RULER))
    first = ceil((room.left - view.zero[0]) * ratio / small)
    last = floor((room.right - view.zero[0]) * ratio / small)
    for k in range(first, last + 1):
        x = view.zero[0] + k * small / ratio
        long = k % parts == 0
        marks.append(Polyline(((x, room.top), (x, room.top - (1.8 if long else 0.9))), Ink.RULER))
        if long and room.left + 6 < x < room.right - 14:
            text = f"{k * small:.0f}"
            marks.append(
                set_text(text, (x, room.top - 2.4), SMALL, anchor=Anchor.MIDDLE, pen=Pen.QUIET)
            )
    first = ceil((view.zero[1] - room.bottom) * ratio / small)
    last = floor((view.zero[1] - room.top) * ratio / small)
    for k in range(first, last + 1):
        y = view.zero[1] - k * small / ratio
        long = k % parts == 0
        marks.append(Polyline(((room.left, y), (room.left - (1.8 if long else 0.9), y)), Ink.RULER))
        if long and room.top + 14 < y < room.bottom - 6:
            text = f"{k * small:.0f}"
            marks.append(
                set_text(
                    text,
                    (room.left - 2.4, y),
                    SMALL,
                    anchor=Anchor.MIDDLE,
                    upwards=True,
                    pen=Pen.QUIET,
                )
            )
    marks.append(
        set_text(f"{across} {unit}", (room.right, room.top - 2.4), SMALL, anchor=Anchor.END)
    )
    marks.append(
        set_text(
            f"{upwards} {unit}", (room.left - 2.4, room.top), SMALL, anchor=Anchor.END, upwards=True
        )
    )
    return Group("rulers", tuple(marks), "Rulers")


def _bar(at: Point, part: float, count: int, words: Sequence[str], unit: str) -> list[Mark]:
    """A bar of equal parts, filled in turn. [mm]"""
    x, y = at
    marks: list[Mark] = [Rect(Box(x, y, x + part * count, y + 1.6), Ink.RULER)]
    marks += [
        Rect(Box(x + part * i, y, x + part * (i + 1), y + 1.6), Ink.SOLID, f"bar-{unit}")
        for i in range(0, count, 2)
    ]
    for i, word in enumerate(words):
        if i % 2 and part < 9.0:
            continue  # three figures would run into one another
        last = f"{word} {unit}" if i == len(words) - 1 else word
        anchor = Anchor.START if i == len(words) - 1 else Anchor.MIDDLE
        shift = -0.9 * len(word) / 2 if anchor is Anchor.START else 0.0
        marks.append(set_text(last, (x + part * i + shift, y - 0.9), SMALL, anchor=anchor))
    return marks


def scale_bars(sheet: Sheet, ratio: int) -> Group:
    """Bars in millimetres and in inches of the car.

    Parameters
    ----------
    sheet : Sheet
        The sheet.
    ratio : int
        n of the scale 1:n.

    Returns
    -------
    Group
        Its marks.
    """
    left = sheet.width - MARGIN - TITLE_WIDTH - 60.0
    top = sheet.height - MARGIN - FOOT
    metric = max((s for s in _PARTS if s * 4 / ratio <= 42.0), default=_PARTS[0])
    inches = max((s for s in _PARTS_INCH if s * 4 * INCH / ratio <= 42.0), default=_PARTS_INCH[0])
    marks: list[Mark] = [
        set_text(f"scale 1:{ratio} on {sheet.name}", (left, top + 4.9), SMALL, bold=True)
    ]
    words = [f"{metric * i:g}" for i in range(5)]
    marks += _bar((left, top + 10.2), metric / ratio, 4, words, "mm")
    words = [f"{inches * i:g}" for i in range(5)]
    marks += _bar((left, top + 18.4), inches * INCH / ratio, 4, words, "in")
    return Group("scale", tuple(marks), f"Scale bar, 1:{ratio}")


_PARTS = (1, 2, 5, 10, 25, 50, 100, 200, 250, 500, 1000, 2500, 5000, 10_000)
_PARTS_INCH = (0.125, 0.25, 0.5, 1, 2, 3, 5, 6, 10, 12, 20, 25, 50, 100, 200, 500)


def hose_sample(a: Point, b: Point, width: float, system: str, letter: str) -> list[Mark]:
    """A stretch of hose for the legend.

    Parameters
    ----------
    a, b : tuple of float
        Its ends. [mm]
    width : float
        Its width. [mm]
    system, letter : str
        Letters of its system and of its line type.

    Returns
    -------
    list of Mark
        Strokes.
    """
    marks: list[Mark] = [Polyline((a, b), Ink.HOSE, system=system, width=width)]
    if width > 1.0:
        core = width - 0.5
        marks.append(Polyline((a, b), Ink.HOSE_CORE, system=system, width=core))
    if letter:
        marks.append(Polyline((a, b), Ink.HOSE_AXIS, letter=letter, system=system))
    return marks


def zone_marks(
    outline: Sequence[Point], kind: ZoneKind, about: str = "", travel: Sequence[Point] = ()
) -> list[Mark]:
    """A zone on paper: its edge, its travel, its hatch.

    Parameters
    ----------
    outline : Sequence of tuple of float
        Its silhouette. [mm]
    kind : ZoneKind
        What it asks.
    about : str
        Its id.
    travel : Sequence of tuple of float
        Silhouette of all places it may take; the same where it does not move. [mm]

    Returns
    -------
    list of Mark
        Strokes.
    """
    angles, gap = HATCHES[kind]
    whole = tuple(travel or outline)
    marks: list[Mark] = [
        Polyline(stroke, Ink.HATCH, about)
        for angle in angles
        for stroke in hatched(whole, angle, gap, rim=RIM)
    ]
    marks.append(Polyline(whole, Ink.ZONE, about, closed=True))
    if travel and tuple(travel) != tuple(outline):
        marks.append(Polyline(tuple(outline), Ink.ZONE, about, closed=True))
    return marks


def legend(
    sheet: Sheet,
    systems: Sequence[tuple[str, str]],
    letters: Sequence[str],
    kinds: Sequence[ZoneKind],
    extras: Sequence[str],
) -> Group:
    """Legend of what is drawn on this sheet, and of nothing else.

    Parameters
    ----------
    sheet : Sheet
        The sheet.
    systems : Sequence of tuple of str
        Letter and words of each system.
    letters : Sequence of str
        Letters of line types beside those of the systems.
    kinds : Sequence of ZoneKind
        Zones.
    extras : Sequence of str
        Of "hidden", "port", "wall", "end", "hole".

    Returns
    -------
    Group
        Its marks.
    """
    top = sheet.height - MARGIN - FOOT
    wide, rows = 53.0, 4
    marks: list[Mark] = []
    entries = [("system", x, words) for x, words in systems]
    entries += [("letter", x, LINE_TYPES[x].words) for x in letters if x in LINE_TYPES]
    entries += [("zone", k.value, f"{k.value.replace('-', ' ')} zone") for k in kinds]
    entries += [("extra", x, words) for x, words in _EXTRAS if x in extras]
    room = sheet.width - 2 * MARGIN - TITLE_WIDTH - 62.0
    columns = max(1, int(room // wide))
    home = systems[0][0] if systems else "A"
    for number, (what, key, words) in enumerate(entries[: rows * columns]):
        column, row = divmod(number, rows)
        x, y = MARGIN + 3.0 + column * wide, top + 4.2 + row * 5.6
        if what == "system":
            marks += hose_sample((x, y), (x + 11, y), 2.2, key, key)
            words = f"{key}  {words}"
        elif what == "letter":
            marks += hose_sample((x, y), (x + 11, y), 1.6, home, key)
            words = f"{key}  {words}"
        elif what == "zone":
            box = ((x, y - 1.8), (x + 11, y - 1.8), (x + 11, y + 1.8), (x, y + 1.8))
            marks += zone_marks(box, ZoneKind(key))
        else:
            marks += _extra(key, x, y, home)
        size = SMALL
        marks.append(set_text(shortened(words, wide - 15.5, size), (x + 13.6, y + 0.95), size))
    return Group("legend", tuple(marks), "Legend")


_EXTRAS = (
    ("hidden", "behind a body"),
    ("end", "hose end and adaptors"),
    ("port", "port and its way out"),
    ("wall", "wall"),
    ("hole", "hole in a wall"),
)


def _extra(key: str, x: float, y: float, system: str) -> list[Mark]:
    if key == "hidden":
        return [
            Polyline(((x, y), (x + 11, y)), Ink.HIDDEN, system=system, width=2.2),
            Polyline(((x, y), (x + 11, y)), Ink.HIDDEN_CORE, width=1.7),
        ]
    if key == "end":
        return [Polyline(((x + 1, y), (x + 9, y)), Ink.FITTING, width=1.8)]
    if key == "port":
        return port_marks((x + 3.5, y), (1.0, 0.0), 0.0, "")
    if key == "hole":
        return [Circle((x + 5.5, y), 1.5, Ink.FINE)]
    return [Polyline(((x, y), (x + 11, y)), Ink.PANEL, width=0.7)]


def port_marks(at: Point, out: Point | None, toward: float, about: str) -> list[Mark]:
    """A port: a dot, and a tick the way it points; a ring where that is at or from the eye.

    Parameters
    ----------
    at : tuple of float
        Where. [mm]
    out : tuple of float or None
        Direction on paper, shorter than 1 where it leans at the eye; None if not known. [-]
    toward : float
        The same at the eye. [-]
    about : str
        Id of the port.

    Returns
    -------
    list of Mark
        The marks.
    """
    x, y = at
    marks: list[Mark] = []
    if out is not None and abs(toward) > 0.9:
        marks.append(Circle(at, 1.15, Ink.FINE, about))
        if toward < 0:
            d = 0.8
            marks.append(Polyline(((x - d, y - d), (x + d, y + d)), Ink.FINE, about))
            marks.append(Polyline(((x - d, y + d), (x + d, y - d)), Ink.FINE, about))
            return marks
    elif out is not None:
        marks.append(Polyline((at, (x + 2.6 * out[0], y + 2.6 * out[1])), Ink.FINE, about))
    marks.append(Circle(at, 0.55, Ink.SOLID, about))
    return marks


def pointer(at: Point, words: str, to_left: bool) -> list[Mark]:
    """An arrow with a word, as "front".

    Parameters
    ----------
    at : tuple of float
        Where its tail is. [mm]
    words : str
        What it says.
    to_left : bool
        Which way it points.

    Returns
    -------
    list of Mark
        Arrow and word.
    """
    x, y = at
    step = -1.0 if to_left else 1.0
    tip = (x + step * 9.0, y)
    text = set_text(
        words,
        (x - step * 1.2, y + 0.95),
        SMALL,
        anchor=Anchor.START if to_left else Anchor.END,
    )
    return [
        Polyline(((x, y), (tip[0] - step * 2.0, y)), Ink.FINE),
        arrowhead(tip, (step, 0.0), 2.4, Ink.SOLID, ""),
        text,
    ]
