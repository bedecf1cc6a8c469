# SPDX-License-Identifier: Apache-2.0
"""The walk from pump to pump: pressure along a circuit, each loss in its row with its name."""

from collections.abc import Sequence
from itertools import pairwise

from linewright.car.model import Car
from linewright.flow.model import Band, SystemState, Walk, WalkStep
from linewright.scene.drawing import (
    Anchor,
    Box,
    Circle,
    Drawing,
    Ink,
    Mark,
    Pen,
    Point,
    Polyline,
    Rect,
)
from linewright.scene.plots import (
    SHEET,
    TEXT,
    TICK,
    Frame,
    Page,
    axis,
    heading,
    letter,
    put,
    room,
    says_lines,
    taller,
    tick_text,
)
from linewright.scene.text import set_text, shortened
from linewright.scene.values import (
    ABSOLUTE,
    Scale,
    ambient,
    banded,
    condition_at,
    number,
    plain,
    scale,
)

#: Most rows of a walk; the smallest steps beyond that are drawn together.
_ROWS = 27

#: Height of a row where the sheet is as tall as they need. [mm]
_ROW = 3.9

#: The air is shown where it is no further off than this many times the pressures' range. [-]
_NEAR = 1.5


def _steps(walk: Walk) -> tuple[WalkStep, ...]:
    """Steps of a walk, the smallest in a row of them drawn together where there are many."""
    steps = list(walk.steps)
    while len(steps) > _ROWS:
        changes = [abs(b.pressure.value - a.pressure.value) for a, b in pairwise(steps)]
        # Two neighbours that change least together become one.
        at = min(range(len(changes) - 1), key=lambda i: changes[i] + changes[i + 1])
        one, two = steps[at + 1], steps[at + 2]
        what = one.what if one.what == two.what else f"{one.what}, {two.what}"
        where = tuple(dict.fromkeys((*one.where, *two.where)))
        steps[at + 1 : at + 3] = [WalkStep(what, where, two.pressure)]
    return tuple(steps)


def draw_walk(car: Car, state: SystemState, walk: Walk, page: Page) -> Drawing:
    """Draw the pressure along a circuit, each loss in its own row with its name.

    Parameters
    ----------
    car : Car
        The car, for units and letters.
    state : SystemState
        The system in its condition.
    walk : Walk
        The places passed, from one pump to the next.
    page : Page
        What the title block says.

    Returns
    -------
    Drawing
        The sheet.
    """
    by = scale("Pa", car.show, ABSOLUTE)
    change = scale("Pa", car.show)
    steps = _steps(walk)
    drops = [(a.pressure.value - b.pressure.value, b) for a, b in pairwise(steps)]
    worst, at = max(drops, key=lambda item: item[0]) if drops else (0.0, steps[0])
    said = (
        f"From {banded(steps[0].pressure, by)} to {banded(steps[-1].pressure, by)}, "
        f"{condition_at(state.condition)}. The largest drop is {plain(worst, change)}: "
        f"{at.what} ({', '.join(at.where)})."
    )
    lines = len(says_lines(said))
    sheet = taller(_ROW * len(steps) + SHEET.height - room(lines).height + 14.0)
    whole = room(lines, sheet)
    name_width = 58.0
    low = min(s.pressure.low for s in steps)
    high = max(s.pressure.high for s in steps)
    air = ambient(car, state.condition)
    held = [by(low), by(high)]
    has_air = low - _NEAR * (high - low) <= air
    across = axis(
        f"Pressure, {by.unit}", [*held, by(air)] if has_air else held, from_zero=low < 0.5 * high
    )
    box = Box(whole.left + name_width, whole.top + 2.0, whole.right - 16.0, whole.bottom - 12.0)
    frame = Frame(box, across, axis("", (0.0, 1.0)))
    x = frame.at(by(air), 0.0)[0]
    foot = box.top + _pitch(frame, steps) * len(steps)
    marks: list[Mark] = [Polyline(((x, box.top), (x, foot)), Ink.LIMIT)] if has_air else []
    marks += _bars(frame, steps, (by, change), whole.left, name_width, x)
    key: list[tuple[Ink, str]] = [
        (Ink.BAR, "pressure lost there; an open bar is pressure gained"),
        (Ink.AREA, "band of 95 % of the pressure behind it"),
    ]
    if has_air:
        words = f"the air about the car, {number(Band(air, air, air), by)} {by.unit}"
        key.append((Ink.LIMIT, words))
    title = f"{heading(state)}, {walk.circuit}: pressures"
    return put(page, title, said, marks, key, letter(car, state.system), sheet)


def _pitch(frame: Frame, steps: Sequence[WalkStep]) -> float:
    """Height of a row. [mm]"""
    return min(frame.box.height / len(steps), 7.5)


def _amount(drop: float, change: Scale) -> str:
    """A change of pressure, all to the same place but where that would show nothing."""
    places = 1 if change.unit == "psi" else 2
    shown = change(drop)
    if 0 < shown < 0.5 * 10.0**-places:
        return plain(drop, change.bare, 1)
    return f"{shown:.{places}f}"


def _row_name(step: WalkStep, at: Point, width: float, size: float) -> tuple[Mark, ...]:
    """What is passed, and quietly where it is."""
    what = shortened(step.what, width, size)
    start = set_text(what, at, size)
    rest = width - start.width - 1.5
    if not step.where or rest < 8.0:
        return (start,)
    where = shortened(", ".join(step.where), rest, size)
    return start, set_text(where, (at[0] + start.width + 1.5, at[1]), size, pen=Pen.QUIET)


def _bars(
    frame: Frame,
    steps: Sequence[WalkStep],
    scales: tuple[Scale, Scale],
    left: float,
    name_width: float,
    air: float,
) -> list[Mark]:
    """The rows; `air` is where the pressure of the air stands, which no text lies on. [mm]"""
    box, (by, change) = frame.box, scales
    pitch = _pitch(frame, steps)
    half = pitch * 0.27
    marks: list[Mark] = []
    foot = box.top + pitch * len(steps)
    grid = Frame(Box(box.left, box.top, box.right, foot), frame.x, frame.y)
    for value in frame.x.ticks:
        x = grid.at(value, 0.0)[0]
        marks.append(Polyline(((x, box.top), (x, foot)), Ink.GRID))
    marks += _scale_below(grid)
    size = max(2.4, min(TEXT, pitch * 0.68))
    before: float | None = None
    for row, step in enumerate(steps):
        y = box.top + pitch * (row + 0.5)
        x = grid.at(by(step.pressure.value), 0.0)[0]
        ends = [grid.at(by(v), 0.0)[0] for v in (step.pressure.low, step.pressure.high)]
        marks.append(Rect(Box(ends[0], y - half * 1.6, ends[1], y + half * 1.6), Ink.AREA))
        marks += _row_name(step, (left, y + 0.9), name_width - 4.0, size)
        if before is None:
            text, end = f"{number(step.pressure, by)}", x
            marks.append(Circle((x, y), 0.9, Ink.SOLID))
            right = ends[1]
        else:
            end = grid.at(by(before), 0.0)[0]
            gained = step.pressure.value - before
            ink = Ink.BAR if gained <= 0 else Ink.FINE
            if abs(x - end) >= 0.3:
                marks.append(Rect(Box(min(x, end), y - half, max(x, end), y + half), ink))
            else:
                marks.append(Polyline(((x, y - half), (x, y + half)), Ink.FINE))
            marks.append(Polyline(((end, y - pitch * 0.5), (end, y - half)), Ink.FINE))
            sign = "+" if gained > 0 else "−"
            text = f"{sign}{_amount(abs(gained), change)}"
            right = max(ends[1], end)
        if row < len(steps) - 1:
            marks.append(Polyline(((x, y + half), (x, y + pitch * 0.5)), Ink.FINE))
        else:
            text = f"{text}, leaves {number(step.pressure, by)}"
            right = max(right, x)
        is_bold = row in (0, len(steps) - 1)
        said = set_text(text, (right + 1.6, y + 0.9), size, bold=is_bold, is_clear=True)
        if said.box.left - 0.5 < air < said.box.right + 0.5:
            said = set_text(text, (air + 1.2, y + 0.9), size, bold=is_bold, is_clear=True)
        marks.append(said)
        before = step.pressure.value
    return marks


def _scale_below(grid: Frame) -> tuple[Mark, ...]:
    b = grid.box
    marks: list[Mark] = [Polyline(((b.left, b.bottom), (b.right, b.bottom)), Ink.FINE)]
    for value in grid.x.ticks:
        at = (grid.at(value, 0.0)[0], b.bottom + 4.2)
        marks.append(set_text(tick_text(value, grid.x.ticks), at, TICK, anchor=Anchor.MIDDLE))
    middle = ((b.left + b.right) / 2, b.bottom + 10.0)
    marks.append(set_text(grid.x.title, middle, TEXT, anchor=Anchor.MIDDLE))
    return tuple(marks)
