# SPDX-License-Identifier: Apache-2.0
"""Findings of cycles: what passes its limit and when, and when the ice is gone."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from linewright.base.codes import RULES
from linewright.base.finding import Finding
from linewright.car.model import Car
from linewright.flow.findings import subject
from linewright.flow.model import Margin, Series, Verdict
from linewright.flow.ruled import words_of
from linewright.flow.told import Held, Told

#: Ice is gone when so little of it is left. [kg]
_GONE = 1e-3
#: What is told by a margin that is not met in time: code, and the way out.
_CODES = {
    "oil temperature": ("hot-in-time", "Ease off before that, or take a larger cooler."),
    "coolant temperature": (
        "hot-in-time",
        "Ease off before that, or give more flow, a larger core or more air.",
    ),
    "fuel temperature": (
        "hot-in-time",
        "Keep the return away from heat, slow the pump at part load, or cool the return.",
    ),
    "gallery pressure": (
        "pressure-in-time",
        "Keep the oil cooler, take a thicker oil or a larger pressure stage.",
    ),
    "boiling margin": (
        "boils-in-time",
        "Let pump and fan run on, keep lines of the turbo's water rising to the tank, or take a "
        "cap of higher pressure.",
    ),
}


@dataclass(frozen=True, slots=True)
class Passed:
    """When a value passes its limit [s]: itself, at the earliest and at the latest.

    None where it does not.
    """

    time: float | None = None
    first: float | None = None
    last: float | None = None


def passed(series: Series, limit: float, is_least: bool) -> Passed:
    """Tell when a series passes a limit for the first time.

    Parameters
    ----------
    series : Series
        A value over time.
    limit : float
        In its unit. [any]
    is_least : bool
        Whether the limit is a least one.

    Returns
    -------
    Passed
        Between two moments on the straight line between them.

    Examples
    --------
    >>> warm = Series("oil", "tank", "K", (0.0, 60.0), (380.0, 410.0), (375.0, 395.0), ())
    >>> passed(warm, 400.0, is_least=False)
    Passed(time=40.0, first=40.0, last=None)
    """
    sign = -1.0 if is_least else 1.0
    low = series.low or series.values
    high = series.high or series.values
    soon, late = (low, high) if is_least else (high, low)
    return Passed(
        *(_crossing(series.times, row, limit, sign) for row in (series.values, soon, late))
    )


def _crossing(
    times: Sequence[float], values: Sequence[float], limit: float, sign: float
) -> float | None:
    before = None
    for time, value in zip(times, values, strict=True):
        over = sign * (value - limit)
        if over > 0.0:
            if before is None:
                return time
            share = -before[1] / (over - before[1])
            return before[0] + share * (time - before[0])
        before = (time, over)
    return None


def clock(time: float) -> str:
    """Return a time as it is told: in seconds up to two minutes.

    Parameters
    ----------
    time : float
        The time. [s]

    Returns
    -------
    str
        With its unit.

    Examples
    --------
    >>> clock(8.2), clock(600.0), clock(511.0)
    ('8 s', '10 min', '8.5 min')
    """
    if time < 120.0:
        return f"{time:.0f} s"
    return f"{time / 60.0:.1f}".removesuffix(".0") + " min"


def found_in_time(car: Car, told: Iterable[Told]) -> Iterator[Finding]:
    """Tell what passes its limit in a cycle, each where it is worst, and what ice does.

    Parameters
    ----------
    car : Car
        The car document as read.
    told : Iterable of Told
        Systems through cycles.

    Yields
    ------
    Finding
        One for a code and what it is about.
    """
    found: dict[tuple[str, str], list[tuple[Told, Held]]] = {}
    for one in told:
        for held in one.margins:
            if held.margin.verdict is not Verdict.MET:
                code, _ = _CODES[held.margin.what]
                found.setdefault((code, one.state.system), []).append((one, held))
        for series in one.ice:
            yield from _ice(one, series)
    for (code, _), those in sorted(found.items(), key=lambda item: item[0]):
        those.sort(key=lambda f: (f[1].margin.verdict is not Verdict.NOT_MET, -_over(f[1].margin)))
        yield _finding(car, code, those)


def _over(margin: Margin) -> float:
    """How far a margin is beyond its limit, in its unit."""
    over = margin.value.value - margin.limit.value
    return -over if margin.is_least else over


def _finding(car: Car, code: str, found: Sequence[tuple[Told, Held]]) -> Finding:
    one, held = found[0]
    margin, cycle = held.margin, one.state.condition
    is_fuel = margin.what == "fuel temperature"
    name, shown = words_of("oil temperature" if is_fuel else margin.what)
    name = "fuel" if is_fuel else name
    limit, value = shown(margin.limit.value), shown(margin.value.value)
    text = f"{name.capitalize()} at {margin.where.replace(':', ' ')} {_course(held, cycle, shown)}"
    others = [
        f"{shown(h.margin.value.value)} in {o.state.condition}"
        for o, h in found[1:]
        if o.state.condition != cycle
    ]
    if others:
        text += f" Also {', '.join(dict.fromkeys(others))}."
    return Finding(
        code,
        RULES[code],
        (subject(car, margin.where),),
        text,
        _remedy(margin),
        value=value,
        limit=limit,
        source="common practice",
        grade=margin.limit.grade,
        system=one.state.system,
        measure=_over(margin),
        printed=margin.value.value,
        is_less_worse=margin.is_least,
    )


def _remedy(margin: Margin) -> str:
    """What to do: where it is not known well enough, what to measure comes before all else."""
    way = _CODES[margin.what][1]
    if margin.verdict is Verdict.NOT_MET:
        return way
    way = way[:1].lower() + way[1:]
    return f"Measure {margin.measure}, or type the figures that are assumed. If it does pass: {way}"


def _course(held: Held, cycle: str, shown: Callable[[float], str]) -> str:
    """What a margin does in a cycle, from its verb on."""
    margin, series = held.margin, held.series
    limit, low, high = (shown(v) for v in (margin.limit.value, margin.value.low, margin.value.high))
    most = "least" if margin.is_least else "highest"
    peak = f"{most} {shown(margin.value.value)} ({low} to {high}) after {clock(held.when)}"
    # The limit of an oil pressure goes with the speed: there is no one time at which it passes.
    is_one = margin.what != "gallery pressure"
    by = passed(series, margin.limit.value, margin.is_least) if is_one else Passed()
    if margin.verdict is not Verdict.NOT_MET:
        soon = f", {clock(by.first)} into it at the soonest" if by.first else ""
        most = f", most of it {held.doubt}" if held.doubt else ""
        return (
            f"may pass {limit} in {cycle}{soon}: {peak}. The limit lies within what is not "
            f"known{most}."
        )
    if by.time is None:
        return f"does not hold {limit} in {cycle}: {peak}."
    if by.time == 0.0:
        return f"is past {limit} when {cycle} begins: {peak}."
    text = f"passes {limit} {clock(by.time)} into {cycle}"
    if by.first is not None and by.last is not None and clock(by.first) != clock(by.last):
        text += f" ({clock(by.first)} to {clock(by.last)})"
    return f"{text}: {peak}."


def _ice(one: Told, series: Series) -> Iterator[Finding]:
    gone = passed(series, _GONE, is_least=True)
    if gone.time is None:
        return
    said = f"{series.values[0]:.1f} kg of ice in {series.where}"
    band = ""
    if gone.first is not None and gone.last is not None:
        band = f" ({clock(gone.first)} to {clock(gone.last)})"
    yield Finding(
        "ice-gone",
        RULES["ice-gone"],
        (series.where,),
        f"{said} are gone {clock(gone.time)} into {one.state.condition}{band}; from then on the "
        "charge coolant warms up.",
        "Take more ice, or start its pump later.",
        system=one.state.system,
        measure=-gone.time,
    )
