# SPDX-License-Identifier: Apache-2.0
"""Plots of flow: pump on system, pressure from pump to pump, temperatures over time."""

from collections.abc import Sequence
from itertools import pairwise

from linewright.car.model import Car
from linewright.flow.model import Margin, PumpCurve, Series, SystemState, Walk
from linewright.scene.drawing import Anchor, Box, Circle, Drawing, Ink, Mark, Polyline
from linewright.scene.plots import (
    CURVES,
    TEXT,
    Frame,
    Page,
    axis,
    heading,
    letter,
    put,
    room,
    says_lines,
    spread,
    whiskers,
)
from linewright.scene.plots_walk import draw_walk
from linewright.scene.text import set_text, shortened
from linewright.scene.values import (
    banded,
    condition_at,
    number,
    plain,
    scale,
)

#: Up to this many times what the circuit takes, all of a pump's curve is drawn. [-]
_TALLEST = 3.0

#: Two pumps whose points are no further apart than this are drawn once in the book. [-]
_ALIKE = 0.02

#: A pump that would give more than that is a wall: this much above what the circuit takes. [-]
_OVER_WALL = 1.4


def draw_pump(car: Car, state: SystemState, curve: PumpCurve, page: Page) -> Drawing:
    """Draw what a pump gives over what its circuit takes, with the point where they meet.

    Parameters
    ----------
    car : Car
        The car, for units and letters.
    state : SystemState
        The system in its condition.
    curve : PumpCurve
        The two curves.
    page : Page
        What the title block says.

    Returns
    -------
    Drawing
        The sheet.
    """
    flow, rise = scale("m3/s", car.show), scale("Pa", car.show)
    said = (
        f"{curve.pump} gives {banded(curve.flow, flow)} at a rise of {banded(curve.rise, rise)}, "
        f"{condition_at(state.condition)}."
    )
    whole = room(len(says_lines(said)))
    xs = [flow(q) for q in curve.flows]
    gives, takes = [rise(p) for p in curve.rises], [rise(p) for p in curve.takes]
    least, most = [rise(p) for p in curve.least], [rise(p) for p in curve.most]
    # A displacement pump gives its flow against nearly any rise: its curve is as steep as a
    # wall, and no more of it is drawn than tells the point.
    most_taken = max(*takes, *most, rise(curve.rise.high))
    is_wall = max(gives) > _TALLEST * most_taken
    top = most_taken * _OVER_WALL if is_wall else max(*gives, most_taken) * 1.05
    reach = (*xs, flow(curve.flow.high))
    frame = Frame(
        Box(whole.left + 17.0, whole.top + 2.0, whole.right - 4.0, whole.bottom - 12.0),
        axis(f"Flow, {flow.unit}", reach),
        axis(f"Rise of pressure, {rise.unit}", (0.0, top)),
    )
    high = frame.y.high
    marks: list[Mark] = []
    key: list[tuple[Ink, str]] = [
        (Ink.CURVE, f"what {curve.pump} gives"),
        (Ink.CURVE_2, "what its circuit takes"),
        (Ink.SOLID, "where they meet, with the band of 95 % (the strokes)"),
    ]
    if least and most:
        cut = _inside(xs, least, most, high)
        marks.append(frame.area(*cut))
        key.insert(2, (Ink.AREA, "band of 95 % of what the circuit takes"))
    marks += frame.axes()
    marks.append(frame.curve(*_clipped(xs, gives, high), Ink.CURVE))
    marks.append(frame.curve(*_below(xs, takes, high), Ink.CURVE_2))
    x, y = flow(curve.flow.value), rise(curve.rise.value)
    marks += whiskers(frame.at(flow(curve.flow.low), y), frame.at(flow(curve.flow.high), y))
    marks += whiskers(frame.at(x, rise(curve.rise.low)), frame.at(x, rise(curve.rise.high)))
    marks.append(Circle(frame.at(x, y), 1.2, Ink.SOLID))
    words = f"{number(curve.flow, flow)} {flow.unit}, {number(curve.rise, rise)} {rise.unit}"
    px, top_y = frame.at(x, min(rise(curve.rise.high), high))
    bold = set_text(words, (px, top_y - 2.4), TEXT, bold=True, anchor=Anchor.MIDDLE, is_clear=True)
    marks.append(bold)
    title = f"{heading(state)}: {curve.pump} on its circuit"
    return put(page, title, said, marks, key, letter(car, state.system))


def _clipped(
    xs: Sequence[float], ys: Sequence[float], high: float
) -> tuple[Sequence[float], Sequence[float]]:
    """The part of a falling curve that lies between nought and the top of the plot."""
    kept: list[tuple[float, float]] = []
    for (ax, ay), (bx, by) in pairwise(zip(xs, ys, strict=True)):
        ends = [(ax, ay), (bx, by)]
        for edge in (0.0, high):
            if (ay - edge) * (by - edge) < 0:
                ends.append((ax + (bx - ax) * (edge - ay) / (by - ay), edge))
        kept += [(x, y) for x, y in sorted(ends) if 0.0 <= y <= high]
    kept = sorted(dict.fromkeys(kept))
    return [x for x, _ in kept], [y for _, y in kept]


def _below(
    xs: Sequence[float], ys: Sequence[float], high: float
) -> tuple[Sequence[float], Sequence[float]]:
    """A rising curve as far as the plot reaches."""
    kept_x, kept_y = [xs[0]], [min(ys[0], high)]
    for (ax, ay), (bx, by) in zip(
        zip(xs, ys, strict=True), zip(xs[1:], ys[1:], strict=True), strict=False
    ):
        if by > high:
            if ay < high:
                share = (high - ay) / (by - ay)
                kept_x.append(ax + (bx - ax) * share)
                kept_y.append(high)
            break
        kept_x.append(bx)
        kept_y.append(by)
    return kept_x, kept_y


def _inside(
    xs: Sequence[float], least: Sequence[float], most: Sequence[float], high: float
) -> tuple[Sequence[float], Sequence[float], Sequence[float]]:
    """The band as far as the plot reaches, cut off level at its top."""
    below_x, below_y = _below(xs, least, high)
    above_x, above_y = _below(xs, most, high)
    every = sorted({*below_x, *above_x})
    return every, _at_all(below_x, below_y, every), _at_all(above_x, above_y, every)


def _at_all(xs: Sequence[float], ys: Sequence[float], wanted: Sequence[float]) -> Sequence[float]:
    found = []
    for x in wanted:
        after = next((i for i, known in enumerate(xs) if known >= x), None)
        if after is None:
            found.append(ys[-1])
        elif after == 0:
            found.append(ys[0])
        else:
            share = (x - xs[after - 1]) / (xs[after] - xs[after - 1])
            found.append(ys[after - 1] + share * (ys[after] - ys[after - 1]))
    return found


# ---------------------------------------------------------------------------------- over time
def units(state: SystemState) -> tuple[str, ...]:
    """Units of what a state follows through time; each gets its own plot.

    Parameters
    ----------
    state : SystemState
        The state.

    Returns
    -------
    tuple of str
        The units, temperatures first.
    """
    found = dict.fromkeys(one.unit for one in state.series if len(one.times) > 1)
    return tuple(sorted(found, key=lambda unit: (unit != "K", unit)))


def draw_series(car: Car, state: SystemState, unit: str, page: Page) -> Drawing:
    """Draw what a state follows through time, each curve with its name at its end.

    Parameters
    ----------
    car : Car
        The car, for units and letters.
    state : SystemState
        The system in its condition.
    unit : str
        Unit of the values to draw, one of `units`.
    page : Page
        What the title block says.

    Returns
    -------
    Drawing
        The sheet.
    """
    shown = [one for one in state.series if one.unit == unit and len(one.times) > 1]
    by = scale(unit, car.show)
    lasts = max(one.times[-1] for one in shown)
    clock, word = (60.0, "min") if lasts > 300 else (1.0, "s")
    # Of temperatures the most counts, of pressures and margins the least.
    extreme, most = (max, "highest") if unit == "K" else (min, "lowest")
    top = extreme(shown, key=lambda one: extreme(one.values))
    peak = extreme(top.values)
    when = top.times[top.values.index(peak)]
    after = f"after {when / clock:.3g} {word}" if when else "at the start"
    said = f"{_place(top)} is {most}: {plain(peak, by)} {after}, {condition_at(state.condition)}."
    whole = room(len(says_lines(said)))
    limits = [m for m in state.margins if _is_drawn(m, unit)]
    values = [by(v) for one in shown for v in (*one.values, *one.low, *one.high)]
    values += [by(m.limit.value) for m in limits]
    quantity = "Temperature" if unit == "K" else top.what.capitalize()
    frame = Frame(
        Box(whole.left + 17.0, whole.top + 2.0, whole.right - 62.0, whole.bottom - 12.0),
        axis(f"Time, {word}", (0.0, lasts / clock)),
        axis(f"{quantity}, {by.unit}", values, from_zero=False),
    )
    marks: list[Mark] = [*frame.axes()]
    key: list[tuple[Ink, str]] = []
    ends: list[tuple[float, str]] = []
    if top.low and top.high:
        xs = [t / clock for t in top.times]
        marks.append(frame.area(xs, [by(v) for v in top.low], [by(v) for v in top.high]))
        key.append((Ink.AREA, f"band of 95 % of {_place(top)}"))
    for margin in limits:
        y = frame.at(0.0, by(margin.limit.value))[1]
        marks.append(Polyline(((frame.box.left, y), (frame.box.right, y)), Ink.LIMIT))
        owner = margin.where.replace(":", " ")
        ends.append((y, f"limit of {owner}, {plain(margin.limit.value, by)}"))
        key.append((Ink.LIMIT, "limit"))
    for place, one in enumerate(shown):
        ink = CURVES[place % len(CURVES)]
        xs, ys = [t / clock for t in one.times], [by(v) for v in one.values]
        marks.append(frame.curve(xs, ys, ink, one.where))
        ends.append((frame.at(xs[-1], ys[-1])[1], f"{_place(one)}, {plain(one.values[-1], by)}"))
    marks += _end_words(frame, ends)
    title = f"{heading(state)}: {quantity.lower()} over time"
    return put(page, title, said, marks, key, letter(car, state.system))


def _place(series: Series) -> str:
    """Where a series is, without the sign of a place inside a component."""
    return series.where.replace(":", " ")


def _is_drawn(margin: Margin, unit: str) -> bool:
    """Whether a limit is one line through a plot; that of an oil pressure goes with the speed."""
    if margin.what == "boiling margin":
        return unit == "K diff"
    return margin.unit == unit == "K" and not margin.is_least


def _end_words(frame: Frame, ends: Sequence[tuple[float, str]]) -> tuple[Mark, ...]:
    """Names at the right ends of curves, moved apart, each tied to its end."""
    box = frame.box
    places = spread([y for y, _ in ends], TEXT * 1.4, box.top, box.bottom)
    marks: list[Mark] = []
    for (y, words), to in zip(ends, places, strict=True):
        x = box.right
        marks.append(Polyline(((x, y), (x + 4.0, to)), Ink.RULE))
        marks.append(set_text(shortened(words, 56.0, TEXT), (x + 5.0, to + 1.0), TEXT))
    return tuple(marks)


def _twins(state: SystemState) -> frozenset[str]:
    """Pumps that do just what one before them does, as two beside each other in one line."""
    found = []
    for number_, curve in enumerate(state.pumps):
        if any(_is_alike(curve, other) for other in state.pumps[:number_]):
            found.append(curve.pump)
    return frozenset(found)


def _is_alike(one: PumpCurve, other: PumpCurve) -> bool:
    """Whether two pumps stand at one point, as far as a plot shows it."""
    pairs = (
        (one.flow.value, other.flow.value),
        (one.rise.value, other.rise.value),
        (max(one.rises), max(other.rises)),
    )
    return all(abs(a - b) <= _ALIKE * max(abs(a), abs(b)) for a, b in pairs)


def _wanted(
    states: Sequence[SystemState], *, once: bool = False
) -> list[tuple[str, SystemState, PumpCurve | Walk | str]]:
    """Plots that states give: name of the file, the state, and what to draw of it."""
    wanted: list[tuple[str, SystemState, PumpCurve | Walk | str]] = []
    for state in states:
        start = f"{state.system}-{state.condition}"
        several = len(state.walks) > 1
        twins = _twins(state) if once else frozenset()
        walks = [
            (f"{start}-walk{f'-{number_}' if several else ''}", state, walk)
            for number_, walk in enumerate(state.walks, 1)
            if walk.circuit not in twins
        ]
        # Each pump with the walks that start at it, then the walks of no pump.
        pumps = [curve for curve in state.pumps if curve.pump not in twins]
        for curve in pumps:
            wanted.append((f"{start}-pump-{curve.pump}", state, curve))
            wanted += [one for one in walks if one[2].circuit == curve.pump]
        known = {curve.pump for curve in pumps}
        wanted += [one for one in walks if one[2].circuit not in known]
        for unit in units(state):
            named = next(one.what for one in state.series if one.unit == unit)
            what = "temperature" if unit == "K" else named.replace(" ", "-")
            wanted.append((f"{start}-{what}", state, unit))
    return wanted


def how_many(states: Sequence[SystemState], *, once: bool = False) -> int:
    """Count the plots of some states.

    Parameters
    ----------
    states : Sequence of SystemState
        The states.
    once : bool
        Whether pumps that do just the same are drawn once.

    Returns
    -------
    int
        How many sheets `plots` gives.
    """
    return len(_wanted(states, once=once))


def plots(
    car: Car,
    states: Sequence[SystemState],
    *,
    date: str = "",
    first: int = 1,
    of: int = 0,
    once: bool = False,
) -> tuple[tuple[str, str, str, Drawing], ...]:
    """Draw all plots of some states.

    Parameters
    ----------
    car : Car
        The car.
    states : Sequence of SystemState
        The states, in the order they shall come.
    date : str
        What the title blocks give as the date.
    first : int
        Number of the first sheet.
    of : int
        Number of all sheets; 0 for these alone.
    once : bool
        Whether pumps that do just the same are drawn once.

    Returns
    -------
    tuple of (str, str, str, Drawing)
        Id of the system, name of the file without its ending, title, and the sheet.
    """
    wanted = _wanted(states, once=once)
    drawn = []
    for place, (name, state, drawn_of) in enumerate(wanted):
        page = Page(car.name, car.sha256[:10], date, first + place, of or len(wanted))
        if isinstance(drawn_of, PumpCurve):
            drawing = draw_pump(car, state, drawn_of, page)
        elif isinstance(drawn_of, Walk):
            drawing = draw_walk(car, state, drawn_of, page)
        else:
            drawing = draw_series(car, state, drawn_of, page)
        drawn.append((state.system, name, drawing.title.partition(": ")[2], drawing))
    return tuple(drawn)
