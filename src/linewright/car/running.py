# SPDX-License-Identifier: Apache-2.0
"""What the car does in a condition: how it is typed, and what every car's conditions bring."""

from collections.abc import Callable, Mapping
from functools import cache
from types import MappingProxyType

from linewright.base import units
from linewright.base.evidence import Figure, Grade
from linewright.car.model import Condition, Running, Step
from linewright.car.table import Table, listed, said
from linewright.tables.load import rows

Reader = Callable[[str], float]

#: How each figure of a condition is read, and its unit.
FIGURES: Mapping[str, tuple[Reader, str]] = MappingProxyType(
    {
        "engine-speed": (units.turning, "rad/s"),
        "power": (units.percent, "-"),
        "boost": (units.gauge_pressure, "Pa"),
        "air": (units.temperature, "K"),
        "altitude": (units.altitude, "m"),
        "car-speed": (units.speed, "m/s"),
        "voltage": (units.voltage, "V"),
    }
)

#: Engine speed over the rated one: steps of usual conditions have it in place of a speed. [-]
RATED_SHARE = "rated-share"

#: All keys of a condition that say what the car does.
KEYS = (*FIGURES, "start", "off", "lasts", "steps")

#: Units in which the table of usual conditions is written.
_TABLE = {
    "engine-speed": ("engine_speed_rpm", "rpm"),
    RATED_SHARE: ("rated_percent", "%"),
    "power": ("power_percent", "%"),
    "air": ("air_c", "°C"),
    "altitude": ("altitude_m", "m"),
    "car-speed": ("car_speed_m_per_s", "m/s"),
    "voltage": ("voltage_v", "V"),
}


def _figures(table: Table) -> dict[str, Figure]:
    found = {}
    for key, (reader, unit) in FIGURES.items():
        figure = table.figure(key, reader, unit)
        if figure is not None:
            found[key] = figure
    power = found.get("power")
    if power is not None and power.value > 1.0:
        table.fault("power", f"{said(table.raw('power'))} is more than 100 %, all that it gives.")
    return found


def running(table: Table) -> Running:
    """Read what the car does from the table of a condition.

    Parameters
    ----------
    table : Table
        ``[conditions.X]``; keys that are not of running are left alone.

    Returns
    -------
    Running
        As typed; what is not usable is told to the log of the table.
    """
    figures = _figures(table)
    start = {}
    starts = table.table("start", "list of fluids at the start")
    for system, _ in starts.items() if starts else ():
        assert starts is not None
        figure = starts.figure(system, units.temperature, "K")
        if figure is not None:
            start[system] = figure
    lasts = table.figure("lasts", units.time, "s", above=0.0)
    return Running(figures, start, table.texts("off"), lasts, _steps(table))


def _steps(table: Table) -> tuple[Step, ...]:
    typed = table.raw("steps")
    if typed is None:
        return ()
    if not isinstance(typed, list) or not all(isinstance(item, dict) for item in typed):
        table.fault(
            "steps",
            f"{said(typed)} is no list of steps; write for example "
            '[{ at = "0 s", power = "100 %" }, { at = "10 s", power = "0 %" }].',
        )
        return ()
    found: list[Step] = []
    for number, item in enumerate(typed):
        one = Table(item, (*table.at("steps"), number), table.log, "step")
        at = one.figure("at", units.time, "s")
        if at is None and not one.has("at"):
            one.fault("", '"at" is missing: when it begins, as in at = "10 s".')
        figures = _figures(one)
        one.done()
        if at is None:
            continue
        if found and at.value <= found[-1].at:
            one.fault("at", f"{said(item['at'])} is not after the step before; put them in order.")
        if not figures:
            one.fault("", f"changes nothing; say one of {listed(FIGURES)}.")
        found.append(Step(at.value, figures))
    return tuple(found)


@cache
def usual() -> Mapping[str, tuple[Running, str, Grade, str]]:
    """Return what the conditions that every car has are like.

    Returns
    -------
    Mapping
        By name: what the car does, in which state fluids start ("cold", "hot" or
        "after a hard run"), the grade, and what it is in words. [common practice]
    """
    found = {}
    for row in rows("running"):
        grade, basis = Grade(row["grade"]), row["what"]
        figures = _in_row(row)
        lasts = Figure(float(row["lasts_s"]), "s", grade, basis) if row["lasts_s"] else None
        steps = tuple(
            Step(float(step["at_s"]), _in_row(step))
            for step in rows("duty")
            if step["name"] == row["name"]
        )
        does = Running(figures, lasts=lasts, steps=steps)
        found[row["name"]] = (does, row["start"], grade, basis)
    return MappingProxyType(found)


def _in_row(row: Mapping[str, str]) -> dict[str, Figure]:
    """Figures of a row of the table of usual conditions, or of their steps."""
    found = {}
    for key, (column, unit) in _TABLE.items():
        if row.get(column):
            reader, si = FIGURES.get(key, (units.percent, "-"))
            value = reader(f"{row[column]} {unit}")
            found[key] = Figure(value, si, Grade(row["grade"]), row["what"])
    return found


def usual_for(use: str) -> tuple[str, ...]:
    """Return the names of the conditions that cars of a use have.

    Parameters
    ----------
    use : str
        As `linewright.car.conditions.use_of` tells it.

    Returns
    -------
    tuple of str
        In the order in which a car meets them.

    Examples
    --------
    >>> usual_for("circuit")[-2:], usual_for("hill climb")[-2:]
    (('pull', 'session'), ('pull', 'hill-climb'))
    """
    return tuple(
        row["name"]
        for row in rows("running")
        if row["uses"] == "any" or use in row["uses"].split(";")
    )


def running_in(condition: Condition) -> Running:
    """Complete what was typed of a condition by the usual one of its name.

    Parameters
    ----------
    condition : Condition
        As typed, or a usual one.

    Returns
    -------
    Running
        With every figure that the usual condition has; a condition of a name of its own is
        completed by full power.
    """
    base = usual().get(condition.name, usual()["full-power"])[0]
    said_here = condition.running
    return Running(
        {**base.figures, **said_here.figures},
        {**base.start, **said_here.start},
        said_here.off or base.off,
        said_here.lasts or base.lasts,
        said_here.steps or base.steps,
    )


def changed(figures: Mapping[str, Figure], step: Step) -> dict[str, Figure]:
    """Return what holds from a step on.

    Parameters
    ----------
    figures : Mapping
        What held before it.
    step : Step
        What changes.

    Returns
    -------
    dict
        Of engine speed the one that was said last: as such, or as a share of the rated one.
    """
    speeds = ("engine-speed", RATED_SHARE)
    is_speed = any(key in step.figures for key in speeds)
    kept = {key: f for key, f in figures.items() if not (is_speed and key in speeds)}
    return {**kept, **step.figures}
