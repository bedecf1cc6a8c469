# SPDX-License-Identifier: Apache-2.0
"""Steady states: flow, heat and viscosity in turn until all three agree, all systems at once."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from linewright.flow.boiling import sealed
from linewright.flow.build import Built
from linewright.flow.defaults import chosen
from linewright.flow.draft import Thermostat
from linewright.flow.fluids import air as air_itself
from linewright.flow.heat import Plumb, Stream, Warmth, plumb, warm
from linewright.flow.network import Centrifugal, Displacement
from linewright.flow.pack import Packed, pack
from linewright.flow.properties import AnyOf
from linewright.flow.solve import Solution, solve

Values = NDArray[np.float64]

#: Largest change of a temperature at which it is settled. [K]
SETTLED = 0.05
#: Most passes before the answer is called unsettled.
MOST = 80
_RELAXED = 0.6
# Most passes of flows alone, and the share of oil to which they must come back. [-]
_EVEN, _EQUAL = 60, 1e-9
# Oil from here on is not warmed in films any more, and over this range less and less. [K]
_HOT, _WARMING = 373.15, 60.0


@dataclass
class Settled:
    """A system in a condition, settled: flows, pressures, temperatures.

    ``packed`` has density and viscosity as they settled, ``solution`` its flows. ``warmth`` is
    None where all is as warm as at the start. ``air`` is the share of air that scavenge pumps
    return, ``held`` what a control lets cores give [-], ``opening`` how far each thermostat is.
    ``fill`` is the share of its displacement that a starved stage still moves, by its link [-].
    """

    built: Built
    packed: Packed
    plumb: Plumb
    base: Values  # numbers of its links as drawn up
    fixed: Values  # pressures as drawn up
    temperature: Values  # of links
    at_nodes: Values
    solution: Solution | None = None
    warmth: Warmth | None = None
    others: Mapping[str, Stream] = field(default_factory=dict)
    air: float = 0.0
    held: float = 1.0
    opening: dict[str, float] = field(default_factory=dict)
    fill: dict[str, float] = field(default_factory=dict)
    is_settled: bool = False
    passes: int = 0

    @property
    def found(self) -> Solution:
        """Flows and pressures."""
        assert self.solution is not None
        return self.solution

    def hottest(self) -> float:
        """Temperature where the engine lets its coolant go, else of the hottest node. [K]"""
        out = self.built.marks.get("coolant out")
        if out is not None and out in self.packed.node:
            return float(self.at_nodes[self.packed.node[out]])
        return float(self.at_nodes.max())


def begin(built: Built, start: float | None = None, packed: Packed | None = None) -> Settled:
    """Prepare a system for `settle`.

    Parameters
    ----------
    built : Built
        The system; its network must be well-posed.
    start : float, optional
        Temperature to begin at, that of the system where left out. [K]
    packed : Packed, optional
        Its network, where that is packed already.

    Returns
    -------
    Settled
        Not settled yet.

    Raises
    ------
    FlowError
        If the network cannot be solved.
    """
    if packed is None:
        packed = pack(built.network)
    count = len(built.network.links)
    at = built.start if start is None else start
    state = Settled(
        built,
        packed,
        plumb(built, packed),
        packed.numbers,
        packed.pressure,
        np.full(count, at),
        np.full(len(built.network.nodes), at),
    )
    for thermostat in built.thermostats:
        state.opening[thermostat.where] = 0.5 if built.is_warming else lift(at, thermostat)
    return state


def lift(temperature: float, thermostat: Thermostat) -> float:
    """Return how far a thermostat is open that has had its time.

    Parameters
    ----------
    temperature : float
        That it feels. [K]
    thermostat : Thermostat
        The thermostat.

    Returns
    -------
    float
        0 to 1. [-]

    Examples
    --------
    >>> half = Thermostat("TH", "n", "to-cooler", "past", opens=355.0, span=12.0, least=0.05)
    >>> lift(361.0, half)
    0.5
    """
    return min(1.0, max(0.0, (temperature - thermostat.opens) / thermostat.span))


def settle(states: Sequence[Settled]) -> None:
    """Let all systems of a condition settle together.

    Parameters
    ----------
    states : Sequence of Settled
        Of one condition; they are filled in.

    Raises
    ------
    FlowError
        If a network does not settle at some temperature.
    """
    streams: dict[str, dict[str, Stream]] = {}
    for number in range(MOST):
        worst = 0.0
        for state in states:
            worst = max(worst, _pass(state, streams, number))
        for state in states:
            state.passes = number + 1
        if number >= 1 and worst < SETTLED:
            for state in states:
                _even(state)
                state.is_settled = True
            return


def _pass(state: Settled, streams: dict[str, dict[str, Stream]], number: int) -> float:
    built = state.built
    if not built.is_warming and number > 1 and not built.mixed and not state.fill:
        return 0.0
    fluid, limits = built.fluid, built.fluid.limits
    at = np.clip(state.temperature, limits.coldest, limits.hottest)
    state.packed = _filled(state, at)
    state.solution = solve(state.packed, state.solution)
    change = max(_aired(state), _starved(state))
    mean = float(np.clip(state.at_nodes.mean(), limits.coldest, limits.hottest))
    heat_capacity = fluid.heat_capacity(mean)
    _publish(state, streams, heat_capacity)
    if not built.is_warming:
        return change
    state.others = _others(state, streams)
    state.warmth = _warmed(state)
    new = 0.5 * (state.warmth.inlets + state.warmth.outlets)
    moved = float(np.abs(new - state.temperature).max(initial=0.0))
    state.temperature = state.temperature + _RELAXED * (new - state.temperature)
    state.at_nodes = state.warmth.nodes
    return max(change, moved, _controlled(state))


def film(temperature: AnyOf, rise: float) -> AnyOf:
    """Return how warm oil is in the films of bearings: shear warms it, the more the colder.

    Parameters
    ----------
    temperature : float or array
        Of the oil that comes. [K]
    rise : float
        Of cold oil. [K]

    Returns
    -------
    float or array
        Temperature in the film. [K]

    Examples
    --------
    >>> [round(film(273.15 + t, 40.0) - 273.15) for t in (0, 40, 70, 100)]
    [40, 80, 90, 100]
    """
    if isinstance(temperature, np.ndarray):
        return temperature + rise * np.clip((_HOT - temperature) / _WARMING, 0.0, 1.0)
    return temperature + rise * min(1.0, max(0.0, (_HOT - temperature) / _WARMING))


def _filled(state: Settled, at: Values) -> Packed:
    """The network filled by what each link has at its temperature."""
    built, packed = state.built, replace(state.packed, numbers=state.base, pressure=state.fixed)
    fluid = built.fluid
    if fluid.is_gas:
        pressure = packed.pressure.copy()
        known = np.nan_to_num(pressure, nan=built.case.ambient + built.case.boost)
        if state.solution is not None:
            known = state.found.pressures
        mean = 0.5 * (known[packed.topology.first] + known[packed.topology.second])
        density = mean / (fluid.density(300.0, 1.0) ** -1 / 300.0 * at)
        dynamic = fluid.viscosity(at) * fluid.density(at)
        viscosity = dynamic / density
    else:
        if (bearings := built.marks.get("bearings")) is not None:
            at = at.copy()
            at[packed.link[bearings]] = film(
                float(at[packed.link[bearings]]), chosen(built.typed, "film-rise").value
            )
        density, viscosity = fluid.density(at), fluid.viscosity(at)
    if built.mixed:
        is_mixed = np.array([link.id in built.mixed for link in built.network.links])
        share = 1.0 - state.air
        density = np.where(is_mixed, density * share, density)
        viscosity = np.where(is_mixed, viscosity / share, viscosity)
    numbers = packed.numbers.copy() if built.thermostats or state.fill else packed.numbers
    for name, share in state.fill.items():
        numbers[packed.link[name], 0] *= share
    if built.thermostats:
        for thermostat in built.thermostats:
            x = state.opening[thermostat.where]
            for name, share in ((thermostat.warm, x), (thermostat.cold, 1.0 - x)):
                open_share = thermostat.least + (1.0 - thermostat.least) * share
                numbers[packed.link[name], :2] /= open_share**2
    pressure = packed.pressure
    if built.sealed is not None and built.case.state != "cold":
        pressure = pressure.copy()
        hot = float(np.clip(state.at_nodes.mean(), fluid.limits.coldest, fluid.limits.hottest))
        tank = built.sealed
        case = built.case
        found = sealed(fluid, tank.system, tank.gas, 293.15, hot, tank.cap, case.ambient)
        for name in tank.nodes:
            pressure[packed.node[name]] += found.pressure - case.ambient
    return replace(packed, density=density, viscosity=viscosity, numbers=numbers, pressure=pressure)


def _aired(state: Settled) -> float:
    """Renew the share of air in what is scavenged; return by how much it changed, times 10.

    What the stages bring back is as much oil as the engine lets go, and air for the rest.
    """
    built = state.built
    stage = built.marks.get("pressure stage")
    if not built.mixed or stage is None or built.scavenged <= 0.0:
        return 0.0
    link, flows = state.packed.link, state.found.flows
    oil = flows[link[stage]] - flows[link[built.marks["relief"]]]
    returned = sum(flows[link[name]] for name in _stages(built) if name in built.mixed)
    if oil <= 0.0 or returned <= 0.0:
        return 0.0
    new = float(min(0.95, max(0.0, 1.0 - (1.0 - state.air) * oil / returned)))
    change = abs(new - state.air)
    state.air = new
    return 10.0 * change


def _stages(built: Built) -> tuple[str, ...]:
    return tuple(k.id for k in built.network.links if isinstance(k, Displacement))


def _starved(state: Settled) -> float:
    """Let a stage move no more than reaches it; return by how much that changed, times 10.

    No liquid is drawn below a pressure at which it foams and boils: there the stage fills with
    froth, and what it moves is what the air outside pushes through its suction.
    """
    built, found, packed = state.built, state.found, state.packed
    floor, worst = chosen(built.typed, "suction-floor").value, 0.0
    for name in _stages(built):
        i = packed.link[name]
        at = packed.topology.first[i]
        if not np.isnan(packed.pressure[at]) or packed.speed[i] <= 0.0:
            continue
        inlet, old = float(found.pressures[at]), state.fill.get(name, 1.0)
        if old == 1.0 and inlet >= floor:
            continue
        ratio = (built.case.ambient - floor) / max(built.case.ambient - inlet, 1e-6)
        state.fill[name] = min(1.0, max(1e-3, old * ratio))
        worst = max(worst, abs(state.fill[name] - old))
    return 10.0 * worst


def _even(state: Settled) -> None:
    """Go on with flows alone until as much oil comes back as goes out."""
    if not state.built.mixed:
        return
    limits = state.built.fluid.limits
    at = np.clip(state.temperature, limits.coldest, limits.hottest)
    for _ in range(_EVEN):
        state.packed = _filled(state, at)
        state.solution = solve(state.packed, state.solution)
        if max(_aired(state), _starved(state)) < _EQUAL:
            break
    if state.warmth is not None:
        state.warmth = _warmed(state)
        state.at_nodes = state.warmth.nodes


def _warmed(state: Settled) -> Warmth:
    built, limits = state.built, state.built.fluid.limits
    mean = float(np.clip(state.at_nodes.mean(), limits.coldest, limits.hottest))
    return warm(
        built,
        state.plumb,
        state.found.flows,
        work(state),
        built.fluid.heat_capacity(mean),
        state.others,
        start=built.start,
        held=state.held,
    )


def work(state: Settled) -> Values:
    """Work that pumps do on what flows through them. [W]

    Parameters
    ----------
    state : Settled
        A settled system.

    Returns
    -------
    Values
        Work that pumps do on what flows through them. [W]
    """
    found, packed = state.found, state.packed
    work = np.zeros(found.flows.size)
    for i, link in enumerate(state.built.network.links):
        if isinstance(link, Displacement | Centrifugal):
            a, b = packed.topology.first[i], packed.topology.second[i]
            rise = found.pressures[b] - found.pressures[a]
            work[i] = max(0.0, rise * found.flows[i] / packed.density[i])
    return work


def _publish(state: Settled, streams: dict[str, dict[str, Stream]], heat_capacity: float) -> None:
    for core in state.built.cores:
        if core.air_flow is not None:
            continue
        i = state.packed.link[core.link]
        flow = float(state.found.flows[i])
        a, b = state.packed.topology.first[i], state.packed.topology.second[i]
        inlet = float(state.at_nodes[a if flow >= 0.0 else b])
        mine = streams.setdefault(core.where, {})
        mine[state.built.system.id] = Stream(abs(flow), heat_capacity, inlet)


def _others(state: Settled, streams: Mapping[str, Mapping[str, Stream]]) -> dict[str, Stream]:
    found = {}
    for core in state.built.cores:
        if core.air_flow is not None:
            cp = air_itself().heat_capacity(core.air)
            found[core.where] = Stream(core.air_flow, cp, core.air)
            continue
        for system, stream in streams.get(core.where, {}).items():
            if system != state.built.system.id:
                found[core.where] = stream
    return found


def _controlled(state: Settled) -> float:
    """Move thermostats and controls; return by how much, in kelvins of what they feel."""
    assert state.warmth is not None
    nodes, place = state.warmth.nodes, state.packed.node
    worst = 0.0
    for thermostat in state.built.thermostats:
        wanted = lift(float(nodes[place[thermostat.node]]), thermostat)
        old = state.opening[thermostat.where]
        state.opening[thermostat.where] = old + 0.3 * (wanted - old)
        worst = max(worst, abs(wanted - old) * thermostat.span * 0.5)
    air = state.built.case.air
    for held in state.built.held:
        now = float(nodes[place[held.node]]) - air
        want = held.temperature - air
        if want <= 0.0:
            continue
        old = state.held
        state.held = min(1.0, old * min(2.0, max(0.2, now / want)))
        if old < 1.0 or state.held < 1.0:
            worst = max(worst, abs(state.held - old) / max(old, 1e-6) * want)
    return worst
