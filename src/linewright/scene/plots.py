# SPDX-License-Identifier: Apache-2.0
"""What every plot is made of: axes with round ticks, curves, bands, a sheet with its title block.

All in millimetres on paper; values are in the units that are shown. No plotting library: a plot
here is strokes and texts like any other drawing, and prints in black and white.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from linewright.car.model import Car
from linewright.flow.model import SystemState
from linewright.scene import paper
from linewright.scene.drawing import (
    Anchor,
    Box,
    Circle,
    Drawing,
    Group,
    Ink,
    Mark,
    Pen,
    Point,
    Polyline,
    Rect,
)
from linewright.scene.text import set_text, shortened, wrapped
from linewright.scene.values import condition_at

#: Heights of type: heading, running text, ticks. The least is 7 pt. [mm]
HEAD, TEXT, TICK = 5.0, 3.0, 2.6

#: Inks of curves in the order they are taken; told apart by their dashes.
CURVES = (Ink.CURVE, Ink.CURVE_2, Ink.CURVE_3, Ink.CURVE_4)

NOT_THIS = "Computed from stated data: verify with gauges. It does not say that a car is safe."

#: Two of these stand one below the other on a page of the book, and keep 7 pt of text there.
SHEET = paper.Sheet("plot", 225.0, 145.0, 1.0)


def taller(height: float) -> paper.Sheet:
    """Return a sheet for a plot that needs more height than most.

    Parameters
    ----------
    height : float
        What it needs. [mm]

    Returns
    -------
    Sheet
        As wide as all others, and never lower.
    """
    return replace(SHEET, height=max(SHEET.height, round(height, 1)))


@dataclass(frozen=True, slots=True)
class Axis:
    """From its least to its most value, with the values that get a tick and a number."""

    title: str
    low: float
    high: float
    ticks: tuple[float, ...]

    def share(self, value: float) -> float:
        """How far along the axis a value stands, 0 to 1. [-]"""
        return (value - self.low) / (self.high - self.low)


def axis(title: str, values: Iterable[float], *, from_zero: bool = True, most: int = 8) -> Axis:
    """Choose an axis that holds some values, with round ticks.

    Parameters
    ----------
    title : str
        What it shows, with its unit.
    values : iterable of float
        What it must hold.
    from_zero : bool
        Whether nought must be on it.
    most : int
        Most steps between ticks.

    Returns
    -------
    Axis
        It ends at ticks.

    Examples
    --------
    >>> axis("Flow, L/min", (3.0, 82.5)).ticks
    (0.0, 20.0, 40.0, 60.0, 80.0, 100.0)
    """
    found = [v for v in values if math.isfinite(v)] or [0.0, 1.0]
    if from_zero:
        found.append(0.0)
    low, high = min(found), max(found)
    if high - low <= 1e-9 * max(abs(high), abs(low), 1.0):
        low, high = low - 0.5, high + 0.5
    rough = (high - low) / most
    base = 10.0 ** math.floor(math.log10(rough))
    step = next(base * k for k in (1, 2, 5, 10, 20) if base * k >= rough * (1 - 1e-9))
    first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    ticks = tuple(round(n * step, 12) for n in range(first, last + 1))
    return Axis(title, ticks[0], ticks[-1], ticks)


def tick_text(value: float, ticks: Sequence[float]) -> str:
    """Number of a tick, all of an axis with the same places.

    Parameters
    ----------
    value : float
        The value, in the unit that is shown. [-]
    ticks : Sequence of float
        All ticks of the axis.

    Returns
    -------
    str
        As few places as tell the ticks apart.

    Examples
    --------
    >>> tick_text(1.0, (0.0, 0.5, 1.0)), tick_text(1000.0, (0.0, 1000.0))
    ('1.0', '1,000')
    """
    step = abs(ticks[1] - ticks[0]) if len(ticks) > 1 else 1.0
    places = max(0, -math.floor(math.log10(step) + 1e-9))
    return f"{value:,.{places}f}"


@dataclass(frozen=True, slots=True)
class Frame:
    """Where a plot stands on paper, and its axes."""

    box: Box
    x: Axis
    y: Axis

    def at(self, x: float, y: float) -> Point:
        """Place of a value on paper. [mm]"""
        b = self.box
        return b.left + self.x.share(x) * b.width, b.bottom - self.y.share(y) * b.height

    def curve(self, xs: Sequence[float], ys: Sequence[float], ink: Ink, about: str = "") -> Mark:
        """A curve through values."""
        points = tuple(self.at(x, y) for x, y in zip(xs, ys, strict=True))
        return Polyline(points, ink, about)

    def area(self, xs: Sequence[float], lows: Sequence[float], highs: Sequence[float]) -> Mark:
        """The band between two curves."""
        forth = [self.at(x, y) for x, y in zip(xs, lows, strict=True)]
        back = [self.at(x, y) for x, y in zip(xs, highs, strict=True)]
        return Polyline((*forth, *reversed(back)), Ink.AREA, closed=True)

    def axes(self) -> tuple[Mark, ...]:
        """Grid, ticks with numbers, and the titles."""
        b = self.box
        marks: list[Mark] = []
        for value in self.x.ticks:
            x = self.at(value, self.y.low)[0]
            marks.append(Polyline(((x, b.top), (x, b.bottom)), Ink.GRID))
            text = tick_text(value, self.x.ticks)
            marks.append(set_text(text, (x, b.bottom + 4.2), TICK, anchor=Anchor.MIDDLE))
        for value in self.y.ticks:
            y = self.at(self.x.low, value)[1]
            marks.append(Polyline(((b.left, y), (b.right, y)), Ink.GRID))
            text = tick_text(value, self.y.ticks)
            marks.append(set_text(text, (b.left - 1.8, y + 0.9), TICK, anchor=Anchor.END))
        marks.append(Polyline(((b.left, b.top), (b.left, b.bottom), (b.right, b.bottom)), Ink.FINE))
        middle = (b.left + b.right) / 2
        marks.append(set_text(self.x.title, (middle, b.bottom + 10.0), TEXT, anchor=Anchor.MIDDLE))
        at = (b.left - 13.0, (b.top + b.bottom) / 2)
        marks.append(set_text(self.y.title, at, TEXT, anchor=Anchor.MIDDLE, upwards=True))
        return tuple(marks)


def whiskers(low: Point, high: Point, cap: float = 0.9) -> tuple[Mark, ...]:
    """A band about a value: a stroke with a cap at each end.

    Parameters
    ----------
    low, high : tuple of float
        Its ends, level or upright to each other. [mm]
    cap : float
        Half the length of a cap. [mm]

    Returns
    -------
    tuple of Polyline
        The strokes.
    """
    level = abs(high[0] - low[0]) >= abs(high[1] - low[1])
    dx, dy = (0.0, cap) if level else (cap, 0.0)
    return (
        Polyline((low, high), Ink.FINE),
        *(Polyline(((x - dx, y - dy), (x + dx, y + dy)), Ink.FINE) for x, y in (low, high)),
    )


def spread(wanted: Sequence[float], gap: float, low: float, high: float) -> tuple[float, ...]:
    """Move places apart until none is nearer to the next than a gap, in the order they have.

    Parameters
    ----------
    wanted : Sequence of float
        Where each would stand. [mm]
    gap : float
        Least distance between two. [mm]
    low, high : float
        Where they must stay, if there is room. [mm]

    Returns
    -------
    tuple of float
        Where each stands.

    Examples
    --------
    >>> spread((10.0, 11.0, 30.0), 4.0, 0.0, 50.0)
    (8.5, 12.5, 30.0)
    """
    order = sorted(range(len(wanted)), key=lambda i: (wanted[i], i))
    groups: list[tuple[list[int], float]] = []  # members, place of the first
    for i in order:
        members, start = [i], wanted[i]
        while groups and groups[-1][1] + gap * len(groups[-1][0]) > start:
            before, _ = groups.pop()
            members = before + members
            wish = sum(wanted[k] - gap * n for n, k in enumerate(members)) / len(members)
            start = max(low, min(wish, high - gap * (len(members) - 1)))
        groups.append((members, start))
    found = [0.0] * len(wanted)
    for members, start in groups:
        for number, i in enumerate(members):
            found[i] = start + gap * number
    return tuple(found)


#: What stands in the key below a plot: the ink, and what it is.
Key = Sequence[tuple[Ink, str]]


def _key(entries: Key, sheet: paper.Sheet) -> Group:
    """What each stroke is, left of the title block."""
    top = sheet.height - paper.MARGIN - paper.FOOT
    marks: list[Mark] = []
    wide = sheet.width - 2 * paper.MARGIN - paper.TITLE_WIDTH - 22.0
    for row, (ink, words) in enumerate(entries[:4]):
        x, y = paper.MARGIN + 3.0, top + 4.6 + row * 5.4
        if ink is Ink.AREA or ink is Ink.BAR:
            marks.append(Rect(Box(x, y - 1.5, x + 12.0, y + 1.5), ink))
        elif ink is Ink.SOLID:
            marks.append(Circle((x + 6.0, y), 1.1, ink))
        else:
            marks.append(Polyline(((x, y), (x + 12.0, y)), ink))
        marks.append(set_text(shortened(words, wide, TICK), (x + 15.0, y + 0.95), TICK))
    return Group("key", tuple(marks), "Key")


def letter(car: Car, system: str) -> str:
    """Letter of a system, for its colour.

    Parameters
    ----------
    car : Car
        The car.
    system : str
        Id of the system.

    Returns
    -------
    str
        Its letter; that of charge air, which is ink, for a system that is not known.
    """
    known = car.systems.get(system)
    return known.letter if known else "A"


def heading(state: SystemState) -> str:
    """Name a system in its condition at the head of a sheet.

    Parameters
    ----------
    state : SystemState
        The state.

    Returns
    -------
    str
        As "Charge coolant at full power".
    """
    return f"{state.system.replace('-', ' ').capitalize()} {condition_at(state.condition)}"


def room(heading_lines: int = 1, sheet: paper.Sheet = SHEET) -> Box:
    """Where a plot may stand below its heading.

    Parameters
    ----------
    heading_lines : int
        Lines of running text under the heading.
    sheet : Sheet
        What it is drawn on.

    Returns
    -------
    Box
        The room. [mm]
    """
    whole = sheet.room
    top = whole.top + HEAD + 3.0 + heading_lines * TEXT * 1.45
    return Box(whole.left, top, whole.right, whole.bottom)


def says_lines(text: str) -> tuple[str, ...]:
    """Break what a plot says into lines of the sheet.

    Parameters
    ----------
    text : str
        A sentence or two.

    Returns
    -------
    tuple of str
        The lines.
    """
    return wrapped(text, SHEET.room.width, TEXT)


@dataclass(frozen=True, slots=True)
class Page:
    """What the title block of a plot says beside its name."""

    car: str
    revision: str = ""
    date: str = ""
    sheet: int = 1
    of: int = 1


def put(
    page: Page,
    title: str,
    said: str,
    marks: Sequence[Mark],
    key: Key,
    system_letter: str,
    sheet: paper.Sheet = SHEET,
) -> Drawing:
    """Put a plot on its sheet.

    Parameters
    ----------
    page : Page
        Whose it is.
    title : str
        What it shows, in a few words.
    said : str
        What it says, in a sentence.
    marks : Sequence of Mark
        The plot.
    key : sequence of (Ink, str)
        What each stroke is.
    system_letter : str
        Letter of the system, for its colour.
    sheet : Sheet
        What it is drawn on.

    Returns
    -------
    Drawing
        The sheet.
    """
    whole = sheet.room
    head: list[Mark] = [
        set_text(title, (whole.left, whole.top + HEAD * 0.8), HEAD, bold=True),
    ]
    for number, line in enumerate(says_lines(said)):
        y = whole.top + HEAD + 3.6 + number * TEXT * 1.45
        head.append(set_text(line, (whole.left, y), TEXT, pen=Pen.QUIET))
    block = paper.title_block(
        sheet,
        paper.Title(page.car, title, page.revision, page.date, page.sheet, page.of, NOT_THIS),
    )
    return Drawing(
        sheet.width,
        sheet.height,
        (
            Group("plot", tuple(marks), title),
            Group("heading", tuple(head)),
            _key(key, sheet),
            block,
        ),
        f"{page.car}: {title}",
        f"{said} {NOT_THIS}",
        system_letter,
    )
