# SPDX-License-Identifier: Apache-2.0
"""The sheet: its size, frame, title block, and the legend of what is drawn on it."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, pi, sin

from linewright.scene.drawing import (
    Anchor,
    Box,
    Group,
    Ink,
    Mark,
    Pen,
    Polyline,
    Rect,
)
from linewright.scene.endings import closure
from linewright.scene.linetypes import LINE_TYPES
from linewright.scene.text import set_text, shortened, text_width

#: Landscape sheets, the smallest first: name, width, height. [mm]
SHEETS: tuple[tuple[str, float, float], ...] = (
    ("A4", 297.0, 210.0),
    ("A3", 420.0, 297.0),
    ("A2", 594.0, 420.0),
    ("A1", 841.0, 594.0),
)

MARGIN, FOOT, AIR = 8.0, 25.0, 3.0
TITLE_WIDTH = 118.0

#: Greatest and least factor a diagram is scaled by; the least keeps type at 2.2 mm. [-]
MOST, LEAST = 1.15, 0.85

NOT_THIS = (
    "Schematic, not to scale: verify on the car. It does not say that a car is safe or legal."
)


@dataclass(frozen=True, slots=True)
class Title:
    """What the title block says."""

    car: str
    system: str
    revision: str
    date: str
    sheet: int
    of: int
    note: str = NOT_THIS


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet with room for a diagram."""

    name: str
    width: float
    height: float
    scale: float

    @property
    def room(self) -> Box:
        """Where the diagram stands. [mm]"""
        edge = MARGIN + AIR
        return Box(edge, edge, self.width - edge, self.height - MARGIN - FOOT - AIR)


def choose(width: float, height: float) -> Sheet:
    """Smallest sheet on which a diagram keeps its type readable.

    Parameters
    ----------
    width, height : float
        Size of the diagram at scale 1. [mm]

    Returns
    -------
    Sheet
        The sheet and the scale; the largest one whatever the scale if none is enough.

    Examples
    --------
    >>> choose(200, 120).name, choose(430, 200).name
    ('A4', 'A3')
    """
    for name, wide, high in SHEETS:
        room = Sheet(name, wide, high, 1.0).room
        scale = min(room.width / width, room.height / height, MOST)
        if scale >= LEAST:
            break
    return Sheet(name, wide, high, round(scale, 4))


def _rules(sheet: Sheet) -> tuple[Mark, ...]:
    m = MARGIN
    top = sheet.height - m - FOOT
    split = sheet.width - m - TITLE_WIDTH
    right, bottom = sheet.width - m, sheet.height - m
    level = top + 10.2
    low = top + 18.6
    return (
        Rect(Box(m, m, right, bottom), Ink.FRAME),
        Polyline(((m, top), (right, top)), Ink.RULE),
        Polyline(((split, top), (split, bottom)), Ink.RULE),
        Polyline(((split, level), (right, level)), Ink.RULE),
        Polyline(((split, low), (right, low)), Ink.RULE),
        *(Polyline(((split + x, level), (split + x, low)), Ink.RULE) for x in (50.0, 82.0)),
    )


def title_block(sheet: Sheet, title: Title) -> Group:
    """Frame and title block.

    Parameters
    ----------
    sheet : Sheet
        The sheet.
    title : Title
        What it says.

    Returns
    -------
    Group
        Its marks.
    """
    top = sheet.height - MARGIN - FOOT
    left = sheet.width - MARGIN - TITLE_WIDTH
    fields = (
        (0.0, 50.0, "car", title.car),
        (50.0, 32.0, "revision", title.revision or "not kept"),
        (
            82.0,
            36.0,
            "sheet",
            f"{title.sheet} of {title.of}" + (f", {title.date}" if title.date else ""),
        ),
    )
    marks: list[Mark] = list(_rules(sheet))
    room = TITLE_WIDTH - 5.0
    # A long name is set smaller before it is shortened.
    name = max(3.6, min(5.0, 5.0 * room / max(text_width(title.system, 5.0, bold=True), 1.0)))
    words = shortened(title.system, room, name, bold=True)
    marks.append(set_text(words, (left + 2.5, top + 6.9), name, bold=True))
    for x, width, head, text in fields:
        at = left + x + 2.5
        marks.append(set_text(head, (at, top + 13.2), 2.3, pen=Pen.QUIET))
        marks.append(set_text(shortened(text, width - 4.0, 3.2), (at, top + 17.2), 3.2))
    marks.append(set_text(shortened(title.note, room, 2.5), (left + 2.5, top + 22.7), 2.5))
    return Group("title", tuple(marks))


def arrowhead(
    tip: tuple[float, float],
    heading: tuple[float, float],
    size: float,
    ink: Ink,
    letter: str,
    about: str = "",
) -> Polyline:
    """Arrowhead on a line.

    Parameters
    ----------
    tip : tuple of float
        Its tip. [mm]
    heading : tuple of float
        Unit step of its flight. [-]
    size : float
        Its length. [mm]
    ink : Ink
        Filled or open.
    letter : str
        Letter of the line type.
    about : str
        Id of the line.

    Returns
    -------
    Polyline
        A closed triangle.
    """
    (x, y), (dx, dy) = tip, heading
    back, half = (x - dx * size, y - dy * size), size * 0.4
    return Polyline(
        (
            tip,
            (back[0] - dy * half, back[1] + dx * half),
            (back[0] + dy * half, back[1] - dx * half),
        ),
        ink,
        about,
        closed=True,
        letter=letter,
    )


#: Words of the legend for what ends a port.
_ENDINGS = (
    ("plug", "plugged"),
    ("cap", "capped"),
    ("open", "open on purpose"),
    ("unknown", "not measured yet"),
    ("missing", "not answered yet"),
    ("sensor", "sensor or gauge"),
    ("on", "screwed on"),
)


def _joined(x: float, y: float, letter: str) -> tuple[Mark, ...]:
    return tuple(
        Polyline(
            ((x + 5 + 2 * cos(a), y + 2 * sin(a)), (x + 5 - 2 * cos(a), y - 2 * sin(a))),
            Ink.PIPE,
            letter=letter,
        )
        for a in (0, pi / 2)
    )


def legend(
    sheet: Sheet, letters: Sequence[str], endings: Sequence[str], extras: Sequence[str]
) -> Group:
    """Legend of what is drawn on this sheet, and of nothing else.

    Parameters
    ----------
    sheet : Sheet
        The sheet.
    letters : Sequence of str
        Letters of the line types in use.
    endings : Sequence of str
        What ends ports here: plug, cap ...
    extras : Sequence of str
        Of "fit", "crossing" and "height", what is on the sheet.

    Returns
    -------
    Group
        Its marks.
    """
    top = sheet.height - MARGIN - FOOT
    marks: list[Mark] = []
    room = sheet.width - 2 * MARGIN - TITLE_WIDTH - 4.0
    rows, wide = 4, 53.0
    columns = max(1, int(room // wide))
    entries: list[tuple[str, str]] = [(f"line:{x}", "") for x in letters]
    entries += [(f"extra:{x}", "") for x in extras]
    entries += [(f"end:{key}", words) for key, words in _ENDINGS if key in endings]
    for number, (key, words) in enumerate(entries[: rows * columns]):
        column, row = divmod(number, rows)
        x, y = MARGIN + 3.0 + column * wide, top + 4.2 + row * 5.6
        what, _, name = key.partition(":")
        text = words
        if what == "line":
            kind = LINE_TYPES.get(name)
            text = f"{name} {kind.words if kind else 'own letter'}"
            marks.append(Polyline(((x, y), (x + 10, y)), Ink.PIPE, letter=name))
            if name != "R":
                marks.append(arrowhead((x + 11.6, y), (1, 0), 2.2, Ink.ARROW, name))
        elif name == "crossing":
            text = "crossing, not joined"
            marks += _joined(x, y, letters[0] if letters else "A")
        elif name == "fit":
            text = "screwed together, no hose"
            marks.append(Polyline(((x, y), (x + 10, y)), Ink.FIT))
            marks.append(Polyline(((x, y), (x + 10, y)), Ink.FIT_CORE))
        elif name == "height":
            text = "highest and lowest, z known"
            marks.append(set_text("▲ ▼", (x + 5, y + 1.0), 2.7, anchor=Anchor.MIDDLE))
        else:
            marks += closure(name, (x + 2.0, y), 0)
            marks.append(Rect(Box(x + 1.45, y - 0.55, x + 2.55, y + 0.55), Ink.SOLID))
        size = 2.6
        marks.append(set_text(shortened(text, wide - 15.5, size), (x + 13.6, y + 0.95), size))
    return Group("legend", tuple(marks), "Legend")
