# SPDX-License-Identifier: Apache-2.0
"""The sizes of lines side by side: what each would lose, with its band, and what it costs."""

from collections.abc import Collection, Sequence

from linewright.base.ids import natural_key
from linewright.car.model import Car
from linewright.flow.model import Flows, SizeRow
from linewright.scene.drawing import Anchor, Box, Circle, Drawing, Ink, Mark, Pen, Polyline, Rect
from linewright.scene.plots import (
    SHEET,
    TEXT,
    TICK,
    Axis,
    Page,
    axis,
    letter,
    put,
    room,
    says_lines,
    taller,
    tick_text,
)
from linewright.scene.text import set_text, shortened
from linewright.scene.values import DIFFERENCE, banded, condition_at, plain, scale

#: Height of a row, and of the head of a line's rows. [mm]
_ROW, _HEAD = 4.6, 7.0

#: Rows of a sheet at most; the lists have them all.
_MOST = 20

#: Width of the names of sizes, of the bars, and of each column of figures. [mm]
_NAMES, _BARS, _COLUMN = 16.0, 62.0, 14.0


def _figures(car: Car, row: SizeRow) -> tuple[str, ...]:
    """The figures of a row, in the order of the heads."""
    show = car.show
    return (
        plain(row.velocity, scale("m/s", show).bare, 2),
        plain(row.volume, scale("m3", show).bare, 2) if row.volume else "–",
        plain(row.mass, scale("kg", show).bare, 2) if row.mass else "–",
        "–" if row.price_index is None else f"{row.price_index:.3g}",
    )


def draw_sizes(car: Car, system: str, rows: Sequence[SizeRow], page: Page) -> Drawing:
    """Draw what lines of a system would lose in other sizes, the chosen ones marked.

    Parameters
    ----------
    car : Car
        The car, for units and letters.
    system : str
        Id of the system.
    rows : Sequence of SizeRow
        The sizes of one line or more, those of a line together; at least one has a drop.
    page : Page
        What the title block says.

    Returns
    -------
    Drawing
        The sheet.
    """
    show = car.show
    by = scale("Pa", show, DIFFERENCE)
    lines = tuple(dict.fromkeys(row.line for row in rows))
    chosen = next((row for row in rows if row.is_chosen and row.drop is not None), None)
    said = f"What each size of {', '.join(lines)} would lose, and what it would weigh and hold."
    if chosen is not None and chosen.drop is not None:
        said += f" {chosen.line} in {chosen.size} loses {banded(chosen.drop, by)},"
        said += f" {condition_at(chosen.condition)}."
    head = len(says_lines(said))
    height = _ROW * len(rows) + _HEAD * len(lines)
    sheet = taller(height + SHEET.height - room(head).height + 18.0)
    whole = room(head, sheet)
    left = whole.left + _NAMES
    box = Box(left, whole.top + 5.0, left + _BARS, whole.top + 5.0 + height)
    across = axis(
        f"Pressure lost, {by.unit}",
        [by(row.drop.high) for row in rows if row.drop is not None],
        most=5,
    )
    units = (f"v, {scale('m/s', show).unit}", scale("m3", show).unit, scale("kg", show).unit)
    marks: list[Mark] = [
        set_text(words, (box.right + _COLUMN * (n + 1), whole.top + 2.0), TICK, anchor=Anchor.END)
        for n, words in enumerate((*units, "price"))
    ]
    marks += _axis(box, across)
    y, last = box.top, ""
    for row in rows:
        if row.line != last:
            words = f"{row.line}, {row.hose}, {condition_at(row.condition)}"
            room_ = whole.right - whole.left
            marks.append(
                set_text(
                    shortened(words, room_, TEXT, bold=True),
                    (whole.left, y + 4.6),
                    TEXT,
                    bold=True,
                    is_clear=True,
                )
            )
            y, last = y + _HEAD, row.line
        marks += _row(car, row, y + _ROW / 2, box, across, whole.right)
        y += _ROW
    key = (
        (Ink.BAR, "pressure lost in this size"),
        (Ink.AREA, "band of 95 % of it"),
        (Ink.SOLID, "the size in the plan; price is an index, no money"),
    )
    title = f"Sizes of {system.replace('-', ' ')}"
    return put(page, title, said, marks, key, letter(car, system), sheet)


def _axis(box: Box, across: Axis) -> list[Mark]:
    marks: list[Mark] = []
    for value in across.ticks:
        x = box.left + across.share(value) * box.width
        marks.append(Polyline(((x, box.top), (x, box.bottom)), Ink.GRID))
        at = (x, box.bottom + 4.2)
        marks.append(set_text(tick_text(value, across.ticks), at, TICK, anchor=Anchor.MIDDLE))
    marks.append(Polyline(((box.left, box.bottom), (box.right, box.bottom)), Ink.FINE))
    middle = ((box.left + box.right) / 2, box.bottom + 9.0)
    marks.append(set_text(across.title, middle, TEXT, anchor=Anchor.MIDDLE))
    return marks


def _row(car: Car, row: SizeRow, y: float, box: Box, across: Axis, right: float) -> list[Mark]:
    base = y + 0.9
    name = set_text(
        row.size,
        (box.left - 2.0, base),
        TEXT,
        bold=row.is_chosen,
        anchor=Anchor.END,
        about=row.line,
    )
    marks: list[Mark] = [name]
    if row.is_chosen:
        marks.append(Circle((box.left - _NAMES + 2.0, y), 1.0, Ink.SOLID, row.line))
    if row.drop is not None:
        by = scale("Pa", car.show, DIFFERENCE)
        ends = [
            box.left + across.share(by(value)) * box.width
            for value in (row.drop.low, row.drop.value, row.drop.high)
        ]
        half = _ROW * 0.25
        marks.append(Rect(Box(ends[0], y - half * 1.6, ends[2], y + half * 1.6), Ink.AREA))
        marks.append(Rect(Box(box.left, y - half, ends[1], y + half), Ink.BAR, row.line))
    else:
        marks.append(set_text("not known", (box.left + 1.5, base), TICK, pen=Pen.QUIET))
    for number, text in enumerate(_figures(car, row), 1):
        at = (box.right + _COLUMN * number, base)
        marks.append(set_text(text, at, TICK, anchor=Anchor.END))
    start = box.right + 4 * _COLUMN + 3.0
    why = shortened(row.why.replace(" absolute", " abs"), right - start, TICK)
    marks.append(set_text(why, (start, base), TICK, pen=Pen.QUIET))
    return marks


def _is_of(car: Car, row: SizeRow, system: str) -> bool:
    return row.line in car.lines and car.lines[row.line].system == system


def size_plots(
    car: Car,
    flows: Flows,
    systems: Collection[str],
    *,
    date: str = "",
    first: int = 1,
    of: int = 0,
) -> tuple[tuple[str, str, str, Drawing], ...]:
    """Draw the sizes of lines, those that limit first, a sheet a system.

    Parameters
    ----------
    car : Car
        The car.
    flows : Flows
        What was computed.
    systems : collection of str
        Their systems.
    date : str
        What the title blocks give as the date.
    first : int
        Number of the first sheet.
    of : int
        Number of all sheets; 0 for these alone.

    Returns
    -------
    tuple of (str, str, str, Drawing)
        Id of the system, name of the file without its ending, title, and the sheet.
    """
    limiting = {s.limiting.where for s in flows.states if s.limiting is not None}
    found = []
    for system in systems:
        own = [row for row in flows.sizes if _is_of(car, row, system)]
        lines = sorted(
            {row.line for row in own}, key=lambda one: (one not in limiting, natural_key(one))
        )
        rows: list[SizeRow] = []
        for line in lines:
            more = [row for row in own if row.line == line]
            if not rows or len(rows) + len(more) <= _MOST:
                rows += more
        if any(row.drop is not None for row in rows):
            found.append((system, rows))
    drawn = []
    for place, (system, rows) in enumerate(found):
        page = Page(car.name, car.sha256[:10], date, first + place, of or len(found))
        drawing = draw_sizes(car, system, rows, page)
        drawn.append((system, f"{system}-sizes", drawing.title.partition(": ")[2], drawing))
    return tuple(drawn)
