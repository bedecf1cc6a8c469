# SPDX-License-Identifier: Apache-2.0
"""Tables of flow: lines, margins, sizes, assumed figures, ports, losses, and the gauge sheet."""

from collections.abc import Collection
from dataclasses import replace

from linewright.base.ids import natural_key
from linewright.car.model import Car
from linewright.car.running import usual
from linewright.flow.model import Band, Flows, Reading, SystemState, Verdict
from linewright.scene.states import pressure_words
from linewright.scene.values import (
    DIFFERENCE,
    Scale,
    banded,
    condition_words,
    given,
    is_nothing,
    number,
    plain,
    scale,
    volume_flow,
)
from linewright.sheets import flow_says as says
from linewright.sheets.figures import marked
from linewright.sheets.table import Align, Column, Table

_RIGHT = Align.RIGHT

#: The gauge sheet has no group for the engine standing, unless it is asked for.
_STANDING = "soak"
_BETWEEN = (
    "A drop without a figure is of a flow between laminar and turbulent, which is known as a band "
    "alone. Pressures are over ambient unless they say abs."
)


def conditions(flows: Flows, system: str = "") -> tuple[str, ...]:
    """Conditions that there are results of, in the order a first start meets them.

    Parameters
    ----------
    flows : Flows
        The results.
    system : str
        Of this system alone; "" for all.

    Returns
    -------
    tuple of str
        Their names: the usual ones first, then the builder's own.
    """
    found = dict.fromkeys(s.condition for s in flows.states if system in ("", s.system))
    found.update(dict.fromkeys(r.condition for r in flows.readings if not system))
    order = ("prime", *usual())
    return tuple(sorted(found, key=lambda name: order.index(name) if name in order else len(order)))


def states(flows: Flows, system: str) -> tuple[SystemState, ...]:
    """States of a system, in the order a first start meets their conditions.

    Parameters
    ----------
    flows : Flows
        The results.
    system : str
        Id of the system.

    Returns
    -------
    tuple of SystemState
        Its states.
    """
    order = {name: number for number, name in enumerate(conditions(flows, system))}
    found = [s for s in flows.states if s.system == system]
    return tuple(sorted(found, key=lambda s: order[s.condition]))


def _range(band: Band, by: Scale) -> str:
    """A band without its value."""
    if is_nothing(band, by):
        return banded(band, by)
    if band.low == band.high:
        return "–"
    low, high = (number(Band(v, band.low, band.high), by) for v in (band.low, band.high))
    return f"{low} to {high} {by.unit}"


def _turned(band: Band) -> Band:
    """The same the other way round."""
    return Band(-band.value, -band.high, -band.low)


def _line_row(car: Car, state: SystemState, name: str) -> tuple[str, ...]:
    line, show = state.lines[name], car.show
    known = car.lines.get(line.line)
    size = says.size_words(known.size) if known else ""
    if line.flow.low == line.flow.high == 0.0:
        return name, size, "no flow", "–", "–", "–", "–"
    flow, by = volume_flow(line.flow, line.density, show)
    drop, lost, way = scale("Pa", show, DIFFERENCE), line.drop, ""
    if flow.value < 0:
        flow, lost, way = _turned(flow), _turned(lost), ", B to A"
    end = state.ports.get(known.to_port) if known else None
    return (
        name,
        size,
        f"{banded(flow, by)}{way}",
        plain(abs(line.velocity), scale("m/s", show), 2),
        _range(lost, drop) if line.is_between else banded(lost, drop),
        pressure_words(car, state, end.pressure) if end else "–",
        f"{number(end.temperature, scale('K', show))} {scale('K', show).unit}" if end else "–",
    )


def line_table(
    car: Car, flows: Flows, system: str, condition: str = "", only: Collection[str] | None = None
) -> Table:
    """List the lines of a system: flow, velocity, drop and what arrives at end B.

    Parameters
    ----------
    car : Car
        The car.
    flows : Flows
        The results.
    system : str
        Id of the system.
    condition : str
        This one alone; "" for all, a group each.
    only : collection of str, optional
        Conditions to show of them.

    Returns
    -------
    Table
        A row a line and condition.
    """
    rows: list[tuple[str, ...]] = []
    groups: list[tuple[int, str]] = []
    for state in states(flows, system):
        is_wanted = only is None or state.condition in only
        if is_wanted and condition in ("", state.condition) and state.lines:
            groups.append((len(rows), condition_words(state.condition).capitalize()))
            rows += [_line_row(car, state, key) for key in sorted(state.lines, key=natural_key)]
    return Table(
        f"flow-lines-{system}",
        f"Flow of {system}",
        (
            Column("Line", 0.5),
            Column("Size", 0.5),
            Column("Flow", 1.7, _RIGHT),
            Column("Velocity", 0.75, _RIGHT),
            Column("Drop", 1.7, _RIGHT),
            Column("Pressure at B", 1.1, _RIGHT),
            Column("Temperature", 0.95, _RIGHT),
        ),
        tuple(rows),
        note=_BETWEEN,
        empty="No flow is known here: see what is assumed, and what is asked.",
        groups=tuple(groups),
    )


def margin_table(
    car: Car, flows: Flows, system: str, condition: str = "", *, is_open: bool = False
) -> Table:
    """List the margins of a system, worst first.

    Parameters
    ----------
    car : Car
        The car.
    flows : Flows
        The results.
    system : str
        Id of the system.
    condition : str
        This one alone; "" for all.
    is_open : bool
        Whether those alone that are not met, or not known well enough.

    Returns
    -------
    Table
        A row a margin and condition; the verdict as a word and a shape.
    """
    found = [
        (says.ORDER.index(margin.verdict), state, margin)
        for state in states(flows, system)
        if condition in ("", state.condition)
        for margin in state.margins
        if not says.is_guide(margin) and not (is_open and margin.verdict is Verdict.MET)
    ]
    rows = []
    for _, state, margin in sorted(found, key=lambda item: item[0]):
        by = says.margin_scale(car, state, margin)
        rows.append(
            (
                f"{says.SHAPES[margin.verdict]} {margin.verdict}",
                margin.what,
                says.place_words(margin.where),
                condition_words(state.condition),
                banded(margin.value, by).replace("absolute", "abs"),
                says.limit_words(margin, by).replace("absolute", "abs"),
            )
        )
    return Table(
        f"flow-margins-{system}",
        f"Margins of {system}",
        (
            Column("Verdict", 1.0),
            Column("What", 1.2),
            Column("Where", 1.4),
            Column("Condition", 0.8),
            Column("Value", 1.8, _RIGHT),
            Column("Limit", 1.6, _RIGHT),
        ),
        tuple(rows),
        note="A value whose band holds the limit is neither met nor missed: measure what is named.",
        empty="No limit is held against anything here.",
    )


def size_table(
    car: Car, flows: Flows, system: str = "", lines: Collection[str] | None = None
) -> Table:
    """List what each line would do in other sizes, the chosen one marked.

    Parameters
    ----------
    car : Car
        The car.
    flows : Flows
        The results.
    system : str
        Lines of this system alone; "" for all.
    lines : collection of str, optional
        These lines alone.

    Returns
    -------
    Table
        A group a line, a row a size.
    """
    show = car.show
    rows: list[tuple[str, ...]] = []
    groups: list[tuple[int, str]] = []
    last = ""
    bore = scale("m", show)
    for row in flows.sizes:
        line = car.lines.get(row.line)
        if system and (line is None or line.system != system):
            continue
        if lines is not None and row.line not in lines:
            continue
        if row.line != last:
            words = condition_words(row.condition)
            groups.append((len(rows), f"{row.line}, {row.hose}, {words}"))
            last = row.line
        rows.append(
            (
                f"● {row.size}" if row.is_chosen else f"   {row.size}",
                plain(row.bore, bore),
                "–" if row.drop is None else banded(row.drop, scale("Pa", show)),
                plain(row.velocity, scale("m/s", show), 2),
                # Two hose ends that meet leave no hose between them: nothing to weigh.
                plain(row.volume, scale("m3", show), 2) if row.volume else "–",
                plain(row.mass, scale("kg", show), 2) if row.mass else "–",
                "–" if row.price_index is None else f"{row.price_index:.3g}",
                row.why,
            )
        )
    return Table(
        f"flow-sizes{f'-{system}' if system else ''}",
        f"Sizes of {system}" if system else "Sizes",
        (
            Column("Size", 0.6),
            Column("Bore", 0.7, _RIGHT),
            Column("Drop", 1.8, _RIGHT),
            Column("Velocity", 0.8, _RIGHT),
            Column("Volume", 0.7, _RIGHT),
            Column("Mass, wet", 0.8, _RIGHT),
            Column("Price index", 0.8, _RIGHT),
            Column("Why", 2.0),
        ),
        tuple(rows),
        note="● is the size in the plan. A price index is for ranking and is no money.",
        empty="No other size was looked at.",
        groups=tuple(groups),
    )


def _belongs(car: Car, where: str, system: str) -> bool:
    """Whether what has this id is of a system; what is of none belongs to all."""
    line = car.lines.get(where)
    if line is not None:
        return line.system == system
    name = where.partition(".")[0]
    component = car.components.get(name)
    if component is None:
        return where not in car.systems or where == system
    ends = (
        one.system
        for one in car.lines.values()
        if name in (one.from_port.partition(".")[0], one.to_port.partition(".")[0])
    )
    systems = {s for s in (component.system, *ends) if s}
    return not systems or system in systems


def assumed_table(car: Car, flows: Flows, system: str = "") -> Table:
    """List the figures that nobody gave, and what to type instead.

    Parameters
    ----------
    car : Car
        The car.
    flows : Flows
        The results.
    system : str
        Of this system alone; "" for all.

    Returns
    -------
    Table
        A row a figure, with the mark of its grade.
    """
    rows = []
    for one in flows.assumed:
        if system and not _belongs(car, one.where, system):
            continue
        value = marked(given(one.figure, car.show), one.figure.grade)
        rows.append((one.where, one.what, value, one.give))
    return Table(
        f"flow-assumed{f'-{system}' if system else ''}",
        f"Assumed for {system}" if system else "Figures of flow that nobody gave",
        (
            Column("Where", 1.0),
            Column("What", 1.6),
            Column("Stands in", 1.7),
            Column("To have it otherwise, give", 2.2),
        ),
        tuple(rows),
        note="Each of these can be wrong for this car: those first that a margin hangs on.",
        empty="Nothing is assumed.",
    )


def grouped_assumed(car: Car, flows: Flows) -> Table:
    """List the figures that nobody gave, by system; the same figure of several things once.

    Parameters
    ----------
    car : Car
        The car.
    flows : Flows
        The results.

    Returns
    -------
    Table
        A row a figure; what stands in several systems is told with the first of them.
    """
    alike: dict[str, dict[tuple[str, str, str], list[str]]] = {}
    for one in flows.assumed:
        system = next((s for s in car.systems if _belongs(car, one.where, s)), "")
        value = marked(given(one.figure, car.show), one.figure.grade)
        alike.setdefault(system, {}).setdefault((one.what, value, one.give), []).append(one.where)
    rows: list[tuple[str, ...]] = []
    groups: list[tuple[int, str]] = []
    for system in (*car.systems, ""):
        if system in alike:
            groups.append((len(rows), system or "no system"))
        for (what, value, give), where in alike.get(system, {}).items():
            rows.append((", ".join(dict.fromkeys(where)), what, value, give))
    return replace(assumed_table(car, flows), rows=tuple(rows), groups=tuple(groups))


def reading_band(car: Car, reading: Reading) -> tuple[Band, Scale]:
    """Return a reading as its gauge shows it.

    Parameters
    ----------
    car : Car
        The car.
    reading : Reading
        What a sensor should show; a pressure is over the air in it.

    Returns
    -------
    Band
        As it is.
    Scale
        Of a pressure or a temperature.
    """
    return reading.value, scale(reading.unit, car.show)


def gauge_table(car: Car, flows: Flows, condition: str = "") -> Table:
    """List what each fitted sensor should read, with room to write what it reads.

    Parameters
    ----------
    car : Car
        The car.
    flows : Flows
        The results.
    condition : str
        This one alone; "" for all, a group each.

    Returns
    -------
    Table
        The gauge sheet.
    """
    rows: list[tuple[str, ...]] = []
    groups: list[tuple[int, str]] = []
    for name in conditions(flows):
        if name == _STANDING and condition != name:
            continue
        found = [r for r in flows.readings if r.condition == name]
        if not found or condition not in ("", name):
            continue
        told = [says.stands_words(car, s) for s in flows.states if s.condition == name]
        hot = [text.removeprefix(says.AFTER) for text in told if text]
        after = f"{says.AFTER}{', '.join(hot)}" if hot else ""
        groups.append((len(rows), f"{condition_words(name).capitalize()}{after}"))
        for reading in found:
            band, by = reading_band(car, reading)
            rows.append(
                (
                    reading.sensor,
                    reading.port,
                    reading.quantity,
                    f"{number(band, by)} {by.unit}",
                    _range(band, by),
                    "",
                )
            )
    return Table(
        "gauges",
        "Gauge sheet",
        (
            Column("Sensor", 1.3),
            Column("At", 1.7),
            Column("What", 1.0),
            Column("Should be", 0.9, _RIGHT),
            Column("Band", 1.3, _RIGHT),
            Column("Is", 0.8),
        ),
        tuple(rows),
        note=f"{says.CAUTION} A reading outside its band: stop, find out why, and hold it against "
        'what is assumed: linewright flow CAR --reading "SENSOR=1.1 bar@hot-idle".',
        empty="No sensor is fitted where a pressure or a temperature is known.",
        groups=tuple(groups),
        is_written_on=True,
    )
