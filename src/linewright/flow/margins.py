# SPDX-License-Identifier: Apache-2.0
"""Margins: what must stay on one side of a limit, and whether it is known to."""

from collections.abc import Iterator
from dataclasses import replace
from math import hypot, isfinite, pi

import numpy as np

from linewright.base.evidence import Figure, Grade
from linewright.car.model import Component, Medium
from linewright.flow.bands import Study, shifted, spread
from linewright.flow.boiling import least_gas
from linewright.flow.build import Built
from linewright.flow.defaults import chosen, number
from linewright.flow.drains import dwell
from linewright.flow.model import Band, Margin, SystemState, Verdict
from linewright.flow.network import Centrifugal, Regulator
from linewright.flow.spread import known
from linewright.tables.practice import figure
from linewright.tables.rules import rule


def judged(value: Band, limit: Figure, is_least: bool) -> Verdict:
    """Hold a value against a limit.

    Parameters
    ----------
    value : Band
        With its band.
    limit : Figure
        The limit.
    is_least : bool
        Whether it is a least one.

    Returns
    -------
    Verdict
        Unsure where the limit lies within the band.

    Examples
    --------
    >>> judged(Band(3.0, 2.0, 4.0), Figure(2.5, "-", Grade.PRACTICE), True)
    <Verdict.UNSURE: 'not known well enough'>
    """
    at = limit.value
    low, high = (value.low, value.high) if is_least else (-value.high, -value.low)
    at = at if is_least else -at
    if low >= at:
        return Verdict.MET
    return Verdict.NOT_MET if high < at else Verdict.UNSURE


def _margin(
    what: str,
    where: str,
    value: Band,
    limit: Figure,
    unit: str,
    measure: str,
    is_least: bool = True,
) -> Margin:
    return Margin(
        what, where, value, limit, unit, is_least, judged(value, limit, is_least), measure
    )


def margins(
    study: Study, state: SystemState, components: dict[str, Component]
) -> tuple[Margin, ...]:
    """Return all margins of a system in a condition.

    Parameters
    ----------
    study : Study
        Solved with its doubts.
    state : SystemState
        Its ports and lines.
    components : dict
        Of the car, by id.

    Returns
    -------
    tuple of Margin
        In the order of the flow.
    """
    built = study.state.built
    by_medium = {
        Medium.OIL: _oil,
        Medium.COOLANT: _coolant,
        Medium.CHARGE_COOLANT: _coolant,
        Medium.FUEL: _fuel,
        Medium.AIR: _air,
    }
    found = list(by_medium[built.system.medium](study, components))
    found += _speeds(study, state)
    return tuple(found)


def total_head(study: Study, node: str) -> Band:
    """Pressure that a pump feels at its inlet: less what the speed there takes. [Pa]

    Parameters
    ----------
    study : Study
        A system, solved with its doubts.
    node : str
        Of the network.

    Returns
    -------
    Band
        Pressure that a pump feels at its inlet: less what the speed there takes. [Pa]
    """
    built, packed = study.state.built, study.state.packed
    pressure = study.pressure(node)
    run = next((r for r in built.runs.values() if built.node(r.ends[1].port) == node), None)
    if run is None:
        return pressure
    i = packed.link[run.id]
    bore = built.ways[run.id].stretches[-1].bore.value
    speed = abs(float(study.flows[0, i])) / packed.density[i] / (0.25 * pi * bore**2)
    return shifted(pressure, -0.5 * packed.density[i] * speed**2)


def _oil(study: Study, components: dict[str, Component]) -> Iterator[Margin]:
    built = study.state.built
    case, marks = built.case, built.marks
    inlet = marks.get("pump inlet")
    if inlet is not None and inlet not in built.pools and case.is_running:
        yield _margin(
            "pump inlet",
            inlet,
            total_head(study, inlet),
            rule("R50"),
            "Pa",
            "the pressure at the pump's inlet with a gauge that reads below the air",
        )
    gallery = marks.get("gallery")
    if gallery is not None and case.is_running:
        per = chosen(built.typed, "gallery-least")
        least = per.value * case.speed * 60.0 / 1000.0
        limit = Figure(least, "Pa", per.grade, "0.5 bar for 1000 turns a minute")
        if built.case.state != "cold":
            value = shifted(study.pressure(gallery), -case.ambient)
            yield _margin("gallery pressure", gallery, value, limit, "Pa", "the oil pressure")
        # Where the oil stands after a hard run, its temperature is said and not reckoned.
        if built.case.state != "cold" and built.stands is None:
            hottest = built.system.temperature or figure("hottest-oil")
            yield _margin(
                "oil temperature",
                gallery,
                study.temperature(gallery),
                hottest,
                "K",
                "the oil temperature",
                is_least=False,
            )
    yield from _scavenged(study, components)
    if case.is_running:
        yield from _turbos(study, components)


def _scavenged(study: Study, components: dict[str, Component]) -> Iterator[Margin]:
    built = study.state.built
    stage = built.marks.get("pressure stage")
    if stage is None or not built.mixed or not built.case.is_running:
        return
    packed = study.state.packed
    i, j = packed.link[stage], packed.link[built.marks["relief"]]
    oil = (study.flows[:, i] - study.flows[:, j]) / packed.density[i]
    if oil[0] <= 0.0:
        return
    usual = rule("R40")
    least = Figure(usual.low or usual.value, "-", usual.grade, "scavenge over pressure flow")
    where = stage.partition(":")[0]
    value = spread(built.scavenged / oil)
    yield _margin(
        "scavenge over pressure flow",
        where,
        value,
        least,
        "-",
        "displacement of all scavenge stages",
    )
    tank = next((c for c in components.values() if c.kind == "dry-sump tank" and c.volume), None)
    if tank is not None and tank.volume is not None:
        held = tank.volume.value * chosen(built.typed, "oil-level").value
        stays = rule("R43")
        limit = Figure(stays.low or stays.value, "s", stays.grade, stays.basis)
        value = spread(held / oil)
        assert value.value == dwell(held, float(oil[0]))
        yield _margin("oil in the tank", tank.id, value, limit, "s", "the oil level while running")


def _turbos(study: Study, components: dict[str, Component]) -> Iterator[Margin]:
    built = study.state.built
    for mark in built.marks:
        name = mark.removeprefix("turbo ")
        if name == mark:
            continue
        port = built.node(f"{name}.oil-in")
        most = number(components[name], "limit")
        if most is None or port not in study.state.packed.node:
            continue
        value = shifted(study.pressure(port), -built.case.ambient)
        limit = Figure(most, "Pa", Grade.STATED, f"limit of {name}")
        what = "turbo feed pressure"
        yield _margin(what, f"{name}.oil-in", value, limit, "Pa", "it with a gauge", is_least=False)


def _coolant(study: Study, components: dict[str, Component]) -> Iterator[Margin]:
    yield from _boiling(study)
    built = study.state.built
    hot = built.system.temperature or figure(
        "hottest-coolant" if built.system.medium is Medium.COOLANT else "hottest-charge-coolant"
    )
    if built.is_warming:
        node = _hottest(study)
        value = study.temperature(node)
        what = "coolant temperature"
        yield _margin(what, node, value, hot, "K", "the coolant temperature", is_least=False)
    yield from _header(study)
    tank = built.sealed
    if tank is not None and built.case.state != "cold":
        at = min(study.state.hottest(), built.fluid.limits.hottest)
        least = least_gas(built.fluid, tank.system, 293.15, at)
        limit = Figure(least, "m3", Grade.DERIVED, "twice what the coolant grows by")
        value = Band(tank.gas, tank.least, tank.most)
        measure = f"the air in {tank.where} when cold, and the coolant in the car"
        held = _margin("air in the header tank", tank.where, value, limit, "m3", measure)
        if tank.assumed is not None and held.verdict is not Verdict.MET:
            # A tank that nobody has looked at is not told to be too small.
            why = f"the volume of {tank.where} is assumed: measure it and type it"
            held = replace(held, verdict=Verdict.UNSURE, doubt=why)
        yield held


def _header(study: Study) -> Iterator[Margin]:
    """Where the feed of the header meets the loop: near the inlet of the pump, by pressure."""
    built, packed = study.state.built, study.state.packed
    tank, inlet = built.marks.get("header"), built.marks.get("pump inlet")
    pump = next((k for k in built.network.links if isinstance(k, Centrifugal)), None)
    run = next((r for r in built.runs.values() if r.ends[0].port.startswith(f"{tank}.feed")), None)
    if tank is None or inlet is None or pump is None or run is None or not built.case.is_full:
        return
    place = packed.node
    rows = study.pressures
    rise = float(rows[0, place[pump.b]] - rows[0, place[pump.a]])
    if rise <= 0.0:
        return
    over = spread(rows[:, place[built.node(run.ends[1].port)]] - rows[:, place[inlet]])
    part = chosen(built.typed, "header-part")
    limit = Figure(part.value * rise, "Pa", part.grade, part.basis)
    measure = "where the feed of the header meets the loop"
    yield _margin("header feed", run.line, over, limit, "Pa", measure, is_least=False)


def _hottest(study: Study) -> str:
    nodes = study.state.built.network.nodes
    return nodes[int(study.state.at_nodes.argmax())].id


def _boiling(study: Study) -> Iterator[Margin]:
    built = study.state.built
    fluid, place = built.fluid, study.state.packed.node
    limits = fluid.limits
    hot_all = np.clip(study.state.at_nodes, limits.coldest, limits.hottest)
    near = fluid.vapour_pressure(hot_all) / np.maximum(1e3, study.pressures[0])
    node_id = built.network.nodes[int(near.argmax())].id
    i = place[node_id]
    left = fluid.boils_at(max(1e3, float(study.pressures[0, i]))) - float(study.nodes[0, i])
    if not isfinite(left):
        return
    there, hot = study.pressure(node_id), study.temperature(node_id)
    boils = [fluid.boils_at(max(1e3, p)) for p in (there.value, there.low, there.high)]
    down = hypot(boils[0] - boils[1], hot.high - hot.value)
    up = hypot(boils[2] - boils[0], hot.value - hot.low)
    value = Band(left, left - down, left + up)
    usual = rule("R57")
    limit = Figure(usual.low or usual.value, "K", usual.grade, usual.basis)
    measure = "temperature and pressure where it is hottest"
    yield _margin("boiling margin", node_id, value, limit, "K", measure)


def _fuel(study: Study, components: dict[str, Component]) -> Iterator[Margin]:
    built = study.state.built
    if not built.case.is_running:
        return
    marks, case = built.marks, built.case
    for mark in ("lift inlet", "pump inlet"):
        node = marks.get(mark)
        if node is None:
            continue
        value = _over_vapour(study, node)
        measure = "the temperature of the fuel in the tank and the pressure at the inlet"
        yield _margin(
            "inlet over vapour", node, value, chosen(built.typed, "vapour-margin"), "Pa", measure
        )
    yield from _carburettors(study, components)
    holder = components.get(marks.get("regulator", ""))
    if holder is not None and "rail" in marks:
        rail = marks["rail"]
        refers = case.ambient + (case.boost if _refers(built) else 0.0)
        sets = number(holder, "setting") or rule("R83").value
        droop = chosen(built.typed, "rail-droop")
        value = shifted(study.pressure(rail), -refers)
        limit = Figure(sets * (1.0 - droop.value), "Pa", droop.grade, "setting less its droop")
        measure = "the rail pressure at full power, and the voltage at the pump"
        yield _margin("rail pressure", rail, value, limit, "Pa", measure)
    if "return" in marks:
        node = marks["return"]
        value = shifted(study.pressure(node), -case.ambient)
        limit = chosen(built.typed, "return-pressure")
        measure = "the pressure behind the regulator at idle"
        yield _margin("return pressure", node, value, limit, "Pa", measure, is_least=False)
    if "pot" in marks:
        yield from _pot(study, marks["pot"])


def _over_vapour(study: Study, node: str) -> Band:
    """Pressure at a pump's inlet over that of the vapour, which is not known well itself. [Pa]"""
    built = study.state.built
    case, fluid = built.case, built.fluid
    there = total_head(study, node)
    at = float(study.nodes[0, study.state.packed.node[node]])
    if built.system.id in case.start:
        below = above = chosen(built.typed, "fuel-temperature-doubt").value
    else:
        over = chosen(built.typed, "fuel-warming")
        least, most = over.low or over.value, over.high or over.value
        below, above = over.value - least, most - over.value
    coldest, hottest = fluid.limits.coldest, fluid.limits.hottest
    vapour = [
        fluid.vapour_pressure(min(max(t, coldest), hottest)) for t in (at, at - below, at + above)
    ]
    doubt = known("vapour-pressure")
    down = hypot(there.value - there.low, vapour[2] - vapour[0], vapour[0] * (doubt.high - 1.0))
    up = hypot(there.high - there.value, vapour[0] - vapour[1], vapour[0] * (1.0 - doubt.low))
    value = there.value - vapour[0]
    return Band(value, value - down, value + up)


def _carburettors(study: Study, components: dict[str, Component]) -> Iterator[Margin]:
    """Float chambers: their needles hold no more than so much, and need a little."""
    built = study.state.built
    is_pumped = "pump inlet" in built.marks
    for mark, node in built.marks.items():
        name = mark.removeprefix("carburettor ")
        if name == mark:
            continue
        typed = number(components[name], "limit")
        most = (
            chosen(built.typed, "carburettor-most")
            if typed is None
            else Figure(typed, "Pa", Grade.STATED, f"limit of {name}")
        )
        value = shifted(study.pressure(node), -built.case.ambient)
        measure = "the fuel pressure at the carburettor with a gauge"
        what = "carburettor pressure"
        yield _margin(what, node, value, most, "Pa", measure, is_least=False)
        if is_pumped:
            least = chosen(built.typed, "carburettor-least")
            yield _margin("carburettor feed", node, value, least, "Pa", measure)


def _refers(built: Built) -> bool:
    at = next((k for k in built.network.links if isinstance(k, Regulator)), None)
    return at is not None and at.reference_pressure > built.case.ambient


def _pot(study: Study, pot: str) -> Iterator[Margin]:
    packed = study.state.packed
    name = pot.partition(":")[0]
    link = f"{name}.overflow:way"
    if link not in packed.link:
        return
    i = packed.link[link]
    value = spread(-study.flows[:, i] / packed.density[i])
    limit = Figure(0.0, "m3/s", Grade.DERIVED, "more is lifted than the engine takes")
    yield _margin("overflow of the pot", name, value, limit, "m3/s", "the flow of the lift pump")


def _air(study: Study, components: dict[str, Component]) -> Iterator[Margin]:
    built = study.state.built
    start, end = built.marks.get("compressor out"), built.marks.get("manifold")
    if start is None or end is None or not built.case.is_full:
        return
    place = study.state.packed.node
    value = spread(study.pressures[:, place[start]] - study.pressures[:, place[end]])
    limit = chosen(built.typed, "charge-loss")
    measure = "the pressure before and after the cooler"
    yield _margin("charge pressure loss", start, value, limit, "Pa", measure, is_least=False)


def _speeds(study: Study, state: SystemState) -> Iterator[Margin]:
    """Velocities: they only warn, what decides is pressure."""
    built = study.state.built
    for name, line in sorted(state.lines.items()):
        service = _service(built, name)
        limit = _speed_limit(built.system.medium, service)
        if limit is None or line.flow.value == 0.0:
            continue
        ends = sorted(line.velocity * f / line.flow.value for f in (line.flow.low, line.flow.high))
        value = Band(line.velocity, ends[0], ends[1])
        yield _margin("velocity", name, value, limit, "m/s", "the flow", is_least=False)


def _service(built: Built, line: str) -> str:
    pump = built.marks.get("pump inlet")
    for run in built.runs.values():
        if run.line == line and built.node(run.ends[1].port) == pump:
            return "suction"
    if any(r.line == line and r.id in built.mixed for r in built.runs.values()):
        return "scavenge"
    return "pressure"


def _speed_limit(medium: Medium, service: str) -> Figure | None:
    most = {
        (Medium.OIL, "suction"): "R01",
        (Medium.OIL, "scavenge"): "R05",
        (Medium.FUEL, "suction"): "R10",
        (Medium.AIR, "pressure"): "R12",
    }.get((medium, service))
    if most is not None:
        usual = rule(most)
        return Figure(usual.high or usual.value, "m/s", usual.grade, usual.basis)
    if medium is Medium.OIL:
        return figure("velocity-oil-pressure")
    if medium is Medium.COOLANT or medium is Medium.CHARGE_COOLANT:
        return figure("velocity-coolant")
    return figure("velocity-fuel") if medium is Medium.FUEL else None
