# SPDX-License-Identifier: Apache-2.0
"""What a cycle shows of a system: series over time, its state when it is hottest, its margins."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

import numpy as np

from linewright.base.dimensions import ZERO_CELSIUS
from linewright.base.evidence import Figure
from linewright.car.model import Car, Medium
from linewright.flow.bands import LIFTS, PASSES, Study, shifted, spread_all, study
from linewright.flow.cycle import Moment, Tale
from linewright.flow.defaults import chosen
from linewright.flow.implicit import Values
from linewright.flow.margins import judged
from linewright.flow.model import Band, Margin, Series, SystemState
from linewright.flow.properties import Fluid
from linewright.flow.states import state_of
from linewright.flow.steady import Settled, begin
from linewright.tables.practice import figure
from linewright.tables.rules import rule


@dataclass(frozen=True, slots=True)
class Held:
    """A margin of a cycle with its series, and when it is least [s].

    ``doubt`` says what of that which is not known moves it most.
    """

    margin: Margin
    series: Series
    when: float
    doubt: str = ""


@dataclass(frozen=True)
class Told:
    """A system through a cycle: its state, its margins, and what ice is left."""

    tale: Tale
    state: SystemState
    margins: tuple[Held, ...]
    ice: tuple[Series, ...] = ()


def told(car: Car, tale: Tale) -> Told:
    """Say what became of a system through a cycle.

    Parameters
    ----------
    car : Car
        The car document as read.
    tale : Tale
        The system, followed.

    Returns
    -------
    Told
        Ports and lines of its state are those of the moment when it is hottest.
    """
    watched = tuple(_temperatures(tale))
    ice = tuple(_ice(tale))
    series = [*watched, *ice]
    margins: list[Held] = []
    hottest = _hottest(tale, watched)
    built = tale.moments[0].part.built
    medium = built.system.medium
    if medium is Medium.OIL:
        pressure = _pressure(tale)
        if pressure is not None:
            series.append(pressure[0])
            margins += [pressure[1]] if pressure[1] is not None else []
    boiling = _boiling(tale)
    if boiling is not None:
        series.append(boiling)
        usual = rule("R57")
        limit = Figure(usual.low or usual.value, "K", usual.grade, usual.basis)
        least = Band(min(boiling.values), min(boiling.low), min(boiling.high))
        measure = "temperature and pressure where it is hottest"
        verdict = judged(least, limit, is_least=True)
        where = boiling.where
        one = Margin("boiling margin", where, least, limit, "K", True, verdict, measure)
        when = boiling.times[boiling.values.index(least.value)]
        margins.append(Held(one, boiling, when))
    peak = _peak(car, tale, watched)
    if peak is not None:
        margins.insert(0, peak)
    shown = replace(
        state_of(seen(hottest)),
        condition=tale.cycle.name,
        series=tuple(series),
        margins=tuple(held.margin for held in margins),
    )
    return Told(tale, shown, tuple(margins), ice)


def seen(moment: Moment) -> Study:
    """Return a moment as a state that is solved with all its doubts.

    Parameters
    ----------
    moment : Moment
        A system at a time.

    Returns
    -------
    Study
        Flows and pressures with the doubts of lines and parts, temperatures with those of heat.
    """
    part, limits = moment.part, moment.part.built.fluid.limits
    nodes = np.clip(moment.nodes(), limits.coldest, limits.hottest)
    state: Settled = begin(part.built, packed=part.cold)
    state.packed, state.solution = moment.solution.packed, moment.solution
    state.at_nodes = nodes[0]
    first, second = part.plumb.first, part.plumb.second
    state.temperature = 0.5 * (nodes[0][first] + nodes[0][second])
    found = study(state)
    return Study(state, found.doubts, found.flows, found.pressures, nodes)


def _series(what: str, where: str, unit: str, tale: Tale, rows: list[Values]) -> Series:
    """A series of what each moment has a row of, itself and then its doubts in pairs."""
    value, low, high = spread_all(np.asarray(rows, dtype=np.float64))
    return Series(
        what,
        where,
        unit,
        tuple(float(m.time) for m in tale.moments),
        tuple(value.tolist()),
        tuple(low.tolist()),
        tuple(high.tolist()),
    )


def _watched(tale: Tale) -> dict[str, str]:
    """Nodes of a system whose temperatures are told, and how each is called."""
    part = tale.moments[0].part
    built, marks = part.built, part.built.marks
    at = {n.id: n.id for n in built.network.nodes}
    found: dict[str, str] = {}
    links = {link.id: link for link in built.network.links}
    for mark in ("gallery", "coolant out", "compressor out", "manifold", "rail"):
        if marks.get(mark) in at:
            found[marks[mark]] = marks[mark].replace(":jacket-out", ":coolant-out")
    for core in built.cores:
        link = links[core.link]
        found.setdefault(link.b, f"{core.where}:out")
    for heat in built.heats:
        if heat.where != built.case.engine.id:
            found.setdefault(links[heat.link].b, heat.where)
    for pool in dict.fromkeys(built.pools.values()):
        node = next(n for n, p in built.pools.items() if p == pool and n in at)
        found.setdefault(node, pool)
    return found


def _temperatures(tale: Tale) -> Iterator[Series]:
    hottest = tale.moments[0].part.built.fluid.limits.hottest
    names = {Medium.AIR: "charge temperature"}
    medium = tale.moments[0].part.built.system.medium
    what = names.get(medium, f"{medium.value} temperature")
    for node, where in _watched(tale).items():
        # What is hotter than the fluid can be is shown as its limit.
        rows = [np.minimum(m.at(node), hottest) for m in tale.moments]
        yield _series(what, where, "K", tale, rows)


def _ice(tale: Tale) -> Iterator[Series]:
    rows = [m.ice for m in tale.moments if m.ice is not None]
    if len(rows) == len(tale.moments):
        where = tale.moments[0].part.masses.ice[0].where
        yield _series("ice", where.partition(":")[0].partition(".")[0], "kg", tale, rows)


def _hottest(tale: Tale, watched: tuple[Series, ...]) -> Moment:
    heat = np.max([one.values for one in watched], axis=0) if watched else None
    if heat is None:
        return tale.moments[-1]
    return tale.moments[int(np.argmax(heat))]


def _peak(car: Car, tale: Tale, watched: tuple[Series, ...]) -> Held | None:
    """The hottest that a fluid gets where its limit is held against it."""
    built = tale.moments[0].part.built
    system, medium = built.system, built.system.medium
    usual = {
        Medium.OIL: ("oil temperature", "hottest-oil"),
        Medium.COOLANT: ("coolant temperature", "hottest-coolant"),
        Medium.CHARGE_COOLANT: ("coolant temperature", "hottest-charge-coolant"),
        Medium.FUEL: ("fuel temperature", "hottest-fuel"),
    }.get(medium)
    if usual is None or not watched:
        return None
    shown = watched
    if medium is Medium.OIL and "gallery" in built.marks:
        shown = tuple(s for s in watched if s.where == built.marks["gallery"])
    one = max(shown, key=lambda s: max(s.values))
    limit = system.temperature or figure(usual[1])
    value = Band(max(one.values), max(one.low), max(one.high))
    verdict = judged(value, limit, is_least=False)
    what = usual[0]
    measure = f"the {medium.value} temperature"
    margin = Margin(what, one.where, value, limit, "K", False, verdict, measure)
    return Held(margin, one, one.times[one.values.index(value.value)])


def _pressure(tale: Tale) -> tuple[Series, Held | None] | None:
    """Oil pressure in the gallery over the air, and where it is least for its speed."""
    gallery = tale.moments[0].part.built.marks.get("gallery")
    if gallery is None:
        return None
    moments = tale.moments
    values = [m.pressure(gallery) - m.part.built.case.ambient for m in moments]
    times = tuple(float(m.time) for m in moments)
    series = Series("oil pressure", gallery, "Pa", times, tuple(values))
    per = chosen(moments[0].part.built.typed, "gallery-least")

    def over(moment: Moment, value: float) -> float:
        case = moment.part.built.case
        return value - per.value * case.speed * 60.0 / 1000.0 if case.is_firing else np.inf

    ahead = [over(m, v) for m, v in zip(moments, values, strict=True)]
    worst = int(np.argmin(ahead))
    if not np.isfinite(ahead[worst]):
        return series, None
    moment = moments[worst]
    case = moment.part.built.case
    found = seen(moment)
    value = shifted(found.pressure(gallery), -case.ambient)
    least = per.value * case.speed * 60.0 / 1000.0
    limit = Figure(least, "Pa", per.grade, "0.5 bar for 1000 turns a minute")
    verdict = judged(value, limit, is_least=True)
    warm = float(moment.at(gallery)[0]) - ZERO_CELSIUS
    measure = (
        f"the oil pressure in the gallery at {case.speed * 60.0:.0f} turns a minute with the oil "
        f"at {warm:.0f} °C"
    )
    margin = Margin("gallery pressure", gallery, value, limit, "Pa", True, verdict, measure)
    rows = found.pressures[:, found.state.packed.node[gallery]]
    return series, Held(margin, series, float(moment.time), _most(rows, found.doubts))


def _most(rows: Values, doubts: tuple[str, ...]) -> str:
    """Which doubt moves a result most, in words: itself first in its rows, then pairs."""
    if not doubts:
        return ""
    moved = np.abs(rows[1:].reshape(-1, 2) - rows[0]).max(axis=1)
    name = doubts[int(np.argmax(moved))]
    if name.startswith(PASSES):
        return f"the {name.removeprefix(PASSES)}"
    if name.startswith(LIFTS):
        return f"the {name.removeprefix(LIFTS)}"
    said = {"viscosity": "how thick the oil is", "loss": "what filter, cooler and fittings lose"}
    return said.get(name, f"the {name}")


def _boils_at(fluid: Fluid) -> Callable[[Values], Values]:
    grid = np.linspace(fluid.limits.coldest, fluid.limits.hottest, 200)
    steam = fluid.vapour_pressure(grid)
    return lambda pressure: np.interp(pressure, steam, grid, right=np.inf)


def _boiling(tale: Tale) -> Series | None:
    """Margin to boiling where it is least, moment by moment. [K]"""
    built = tale.moments[0].part.built
    if built.system.medium not in (Medium.COOLANT, Medium.CHARGE_COOLANT):
        return None
    at = _boils_at(built.fluid)
    rows, places = [], []
    for moment in tale.moments:
        boils = at(np.maximum(1e3, moment.solution.pressures))
        apart = boils - moment.nodes()
        place = int(np.argmin(apart[0]))
        rows.append(apart[:, place])
        places.append(place)
    if not all(np.isfinite(row).all() for row in rows):
        return None
    worst = int(np.argmin([row[0] for row in rows]))
    where = built.network.nodes[places[worst]].id
    return _series("boiling margin", where, "K diff", tale, rows)
