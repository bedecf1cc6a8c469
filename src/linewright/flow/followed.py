# SPDX-License-Identifier: Apache-2.0
"""A system that is followed through time: its lumps, and its flows at their temperatures.

Flows change slowly with temperature, so they stand as they are solved until temperatures or
thermostats have moved by some way. All variants of the heat that is not known well are solved
together, each at its own temperatures.
"""

from collections.abc import Sequence
from dataclasses import replace
from math import exp

import numpy as np
from numpy.typing import NDArray

from linewright.flow.boiling import sealed
from linewright.flow.build import Built
from linewright.flow.defaults import chosen
from linewright.flow.fluids import air as air_itself
from linewright.flow.heat import REST
from linewright.flow.implicit import Values
from linewright.flow.lumps import Masses, Metal
from linewright.flow.network import Centrifugal, Displacement
from linewright.flow.pack import Packed
from linewright.flow.solve import Solution, Variants, solve, solve_many
from linewright.flow.steady import begin, film

Places = NDArray[np.int64]

#: What a place in a network holds beside the fluid that is counted: so that none holds nothing.
_LEAST = 5.0  # [J/K]
#: At rest new flows are taken over by half, since they and what drives them swing else. [-]
_EASED = 0.5
#: Flows are solved again when a fluid is that much thicker or thinner [-], at rest when it is
#: so much warmer or colder, since there its own weight moves it [K].
_THICKER, _REACH_AT_REST = 0.08, 2.0
#: Where that changed flows by less than a share of the largest, they stand for longer: this much
#: longer each time, so many times as long at most; where by more than another, for less.
_LITTLE, _MUCH, _LONGER, _LONGEST = 0.005, 0.02, 1.5, 3.0
#: Largest flow under which a system stands. [kg/s]
_STANDS = 1e-4
#: Or when a thermostat has moved so far. [-]
_LIFTED = 0.05
#: Range over which a control that holds a temperature opens and shuts [K], and its least share.
_SPAN, _SHUT = 12.0, 0.003
#: Lags in which it does away with what is left over: so slow that it does not swing. [-]
_SETTLES = 12.0
#: Turns in which stages and the air in their oil find each other at new temperatures.
_TURNS = 3


class Followed:
    """A system in a phase of a cycle, for all variants.

    Parameters
    ----------
    built : Built
        The system as the phase has it.
    masses : Masses
        What holds heat in it.
    sides, conducts, holds : array
        Of each variant: its heats as reckoned (0) or at their low (-1) or high end (1), factors
        on conductances of cores and on capacities. [-]
    packed : Packed, optional
        Its network, where that is packed already.
    """

    def __init__(
        self,
        built: Built,
        masses: Masses,
        sides: Values,
        conducts: Values,
        holds: Values,
        packed: Packed | None = None,
    ) -> None:
        state = begin(built, packed=packed)
        self.built, self.masses = built, masses
        self.conducts, self.holds = conducts, holds
        self.packed, self.plumb, self.link = state.packed, state.plumb, state.packed.link
        names = (built.pools.get(n.id, n.id) for n in built.network.nodes)
        self.nodes = tuple(dict.fromkeys(names))
        powers = {
            h.link: h.power * np.where(sides < 0.0, h.low, np.where(sides > 0.0, h.high, 1.0))
            for h in built.heats
        }
        nothing = np.zeros(sides.size)
        self.heated: tuple[tuple[Metal, int, Values], ...] = tuple(
            (m, self.link[m.link], powers.get(m.link, nothing)) for m in masses.metals
        )
        taken = {metal.link for metal in masses.metals}
        self.plain = tuple((self.link[h], power) for h, power in powers.items() if h not in taken)
        self.keys = (*self.nodes, *(metal.id for metal in masses.metals))
        self.offset = 0
        self.air_heat = air_itself().heat_capacity(built.case.air)
        count, links = sides.size, len(built.network.links)
        self.flows = np.zeros((count, links))
        self.pressures = np.zeros((count, len(built.network.nodes)))
        self.works = np.zeros((count, links))
        # Capacity rate of each link [W/K], and the lumps that it is fed from and leads to.
        self.rate = np.zeros((count, links))
        self.up = self.down = np.zeros((count, links), dtype=np.int64)
        self.density = np.tile(self.packed.density, (count, 1))
        self.viscosity = np.tile(self.packed.viscosity, (count, 1))
        self.cp = np.full(count, 1.0)
        self.opening = np.full((count, len(built.thermostats)), 0.5)
        self.held = np.ones(count)  # what a control lets cores give
        self._held_then = np.ones(count)
        self._steady = np.ones(count)  # what it would let them give at its temperature
        self.reach = _REACH_AT_REST
        self._longer = 1.0
        self.held_by = np.zeros((0, 0))  # heat that its lumps hold since it was solved [J/K]
        self.is_stale = True  # its flows are those of other temperatures
        self.share = np.ones((count, 1))  # of oil in what stages bring back
        stages = [k.id for k in built.network.links if isinstance(k, Displacement)]
        self.stages = np.array([self.link[s] for s in stages], dtype=np.int64)
        self.fill = np.ones((count, len(stages)))
        self.is_mixed = np.array([k.id in built.mixed for k in built.network.links])
        self.is_line = np.array([k.id in built.runs for k in built.network.links])
        self.pumps = np.array(
            [isinstance(k, Displacement | Centrifugal) for k in built.network.links]
        )
        thermostats = built.thermostats
        self._felt = np.array([self.packed.node[t.node] for t in thermostats], dtype=np.int64)
        self._opens = np.array([t.opens for t in thermostats])
        self._span = np.array([t.span for t in thermostats])
        self._metals = np.array([metal.capacity for metal, _, _ in self.heated])
        self.lag = chosen(built.typed, "thermostat-lag").value
        self.solution: Solution | None = None
        self.cold = state.packed
        volumes, solids = np.zeros(len(self.nodes)), np.zeros(len(self.nodes))
        for node, place in zip(built.network.nodes, self.plumb.unknown, strict=True):
            volumes[place] += masses.volumes.get(node.id, 0.0)
            solids[place] += masses.solids.get(node.id, 0.0)
        self.volumes, self.solids = volumes, solids

    @property
    def first_metal(self) -> int:
        """Place of the first metal among the lumps of the group."""
        return self.offset + len(self.nodes)

    def lump(self, node: str) -> int:
        """Place of a node among the lumps of the group."""
        return self.offset + int(self.plumb.unknown[self.packed.node[node]])

    def mine(self, temperatures: Values) -> Values:
        """Temperatures of the nodes of the network, of those of the group's lumps. [K]"""
        return temperatures[:, self.offset + self.plumb.unknown]

    def capacity(self, temperatures: Values) -> Values:
        """Heat that each of its lumps holds, metals last. [J/K]"""
        fluid, limits = self.built.fluid, self.built.fluid.limits
        at = temperatures[:, self.offset : self.offset + len(self.nodes)]
        dense = fluid.density(np.minimum(limits.hottest, np.maximum(limits.coldest, at)))
        held = self.volumes * dense * self.cp[:, None] + self.solids + _LEAST
        whole = np.empty((len(held), len(self.keys)))
        whole[:, : len(self.nodes)], whole[:, len(self.nodes) :] = held, self._metals
        return np.asarray(whole * self.holds[:, None])

    def has_moved(self, temperatures: Values) -> bool:
        """Whether its fluid has become so much thicker or thinner, or a thermostat has moved."""
        mine = temperatures[:, self.offset : self.offset + len(self.nodes)]
        if float(np.abs(mine - self._solved_at).max()) > self.reach * self._longer:
            return True
        return float(np.abs(self.opening - self._opened).max(initial=0.0)) > _LIFTED

    def is_let_more(self) -> bool:
        """Whether a control lets its cores give so much more or less than was reckoned with."""
        apart = np.log(self.held / self._held_then) if self.built.held else np.zeros(1)
        return 0.5 * float(np.abs(apart).max()) > _LIFTED

    def note_control(self) -> None:
        """Take a note of what a control lets cores give, as it is reckoned with. [-]"""
        self._held_then = self.held.copy()

    def solve(self, temperatures: Values) -> None:
        """Solve flows and pressures of all variants at temperatures of the group. [K]"""
        self._solved_at = temperatures[:, self.offset : self.offset + len(self.nodes)].copy()
        self._opened = self.opening.copy()
        self.is_stale = False
        built, fluid = self.built, self.built.fluid
        limits = fluid.limits
        nodes = np.clip(self.mine(temperatures), limits.coldest, limits.hottest)
        first, second = self.plumb.first, self.plumb.second
        at = 0.5 * (nodes[:, first] + nodes[:, second])
        mean = nodes.mean(axis=1)
        self.cp = fluid.heat_capacity(mean)
        if built.case.is_running:
            coldest = float(mean.min())
            thick, thin = (
                fluid.viscosity(coldest),
                fluid.viscosity(min(coldest + 1.0, limits.hottest)),
            )
            self.reach = _THICKER / max(abs(float(np.log(thin / thick))), 1e-3)
        pressure = self._pressure(nodes)
        before = self.flows.copy()
        is_first = self.solution is None
        for _ in range(_TURNS if built.mixed else 1):
            density, viscosity = self._filled(at)
            self._solved(density, viscosity, self._numbers(), pressure)
            if not (self._aired() | self._starved()):
                break
        if not is_first:
            self._weigh(before)
        if not built.case.is_running and not is_first:
            self.flows = before + _EASED * (self.flows - before)
        rises = self.pressures[:, second] - self.pressures[:, first]
        works = np.where(self.pumps, rises * self.flows / self.density, 0.0)
        # A motor's waste goes into the fuel that flows through its pump.
        self.works = np.maximum(0.0, works) / self.masses.pump_good
        size, unknown = np.abs(self.flows), self.offset + self.plumb.unknown
        self.rate = np.where(size > REST, size, 0.0) * self.cp[:, None]
        is_ahead = self.flows >= 0.0
        self.up = np.where(is_ahead, unknown[first], unknown[second])
        self.down = np.where(is_ahead, unknown[second], unknown[first])

    def _weigh(self, before: Values) -> None:
        """Let flows stand for longer where they have hardly changed, for less where much."""
        whole = max(float(np.abs(self.flows).max()), _STANDS)
        changed = float(np.abs(self.flows - before).max()) / whole
        if changed < _LITTLE:
            self._longer = min(_LONGEST, _LONGER * self._longer)
        elif changed > _MUCH:
            self._longer = max(1.0, self._longer / _LONGER)

    def _filled(self, at: Values) -> tuple[Values, Values]:
        built, fluid = self.built, self.built.fluid
        if fluid.is_gas:
            known = self.pressures
            if self.solution is None:
                typed = np.nan_to_num(self.packed.pressure, nan=built.case.ambient)
                known = np.tile(typed, (len(at), 1))
            mean = 0.5 * (known[:, self.plumb.first] + known[:, self.plumb.second])
            density = mean * fluid.density(at, 1.0)
            return density, fluid.viscosity(at) * fluid.density(at) / density
        bearings = built.marks.get("bearings")
        if bearings is not None:
            at = at.copy()
            i, rise = self.link[bearings], chosen(built.typed, "film-rise").value
            at[:, i] = film(at[:, i], rise)
        density, viscosity = fluid.density(at), fluid.viscosity(at)
        if built.mixed:
            density = np.where(self.is_mixed, density * self.share, density)
            viscosity = np.where(self.is_mixed, viscosity / self.share, viscosity)
        return density, viscosity

    def _numbers(self) -> Values:
        base = self.cold.numbers
        numbers = np.tile(base, (len(self.flows), 1, 1))
        numbers[:, self.stages, 0] *= self.fill
        for place, thermostat in enumerate(self.built.thermostats):
            x = self.opening[:, place, None]
            for name, share in ((thermostat.warm, x), (thermostat.cold, 1.0 - x)):
                wide = thermostat.least + (1.0 - thermostat.least) * share
                numbers[:, self.link[name], :2] /= wide**2
        return numbers

    def _pressure(self, nodes: Values) -> Values:
        """Pressures that are given: that of a tank under its cap goes with the temperature."""
        base = np.tile(self.cold.pressure, (len(nodes), 1))
        tank, case = self.built.sealed, self.built.case
        if tank is None or case.state == "cold":
            return base
        for row, at in zip(base, nodes.mean(axis=1), strict=True):
            found = sealed(
                self.built.fluid, tank.system, tank.gas, 293.15, float(at), tank.cap, case.ambient
            )
            for name in tank.nodes:
                row[self.packed.node[name]] += found.pressure - case.ambient
        return base

    def _solved(
        self, density: Values, viscosity: Values, numbers: Values, pressure: Values
    ) -> None:
        packed = replace(
            self.cold,
            density=density[0],
            viscosity=viscosity[0],
            numbers=numbers[0],
            pressure=pressure[0],
        )
        if self.solution is None:
            self.solution = solve(packed)
        found = solve_many(
            packed,
            Variants(density=density, viscosity=viscosity, numbers=numbers, pressure=pressure),
            self.solution,
            is_checked=False,
        )
        # A variant that does not settle goes on as the first of them does.
        lost = found.iterations < 0
        if lost[0]:
            alone = solve(packed)
            found.flows[0], found.pressures[0] = alone.flows, alone.pressures
            found.states[0] = alone.states
            lost[0] = False
        found.flows[lost], found.pressures[lost] = found.flows[0], found.pressures[0]
        self.packed, self.flows, self.pressures = packed, found.flows, found.pressures
        self.density, self.viscosity = density, viscosity
        self.solution = Solution(packed, self.flows[0], self.pressures[0], found.states[0], 0, 0, 0)

    def now(self) -> Solution:
        """Flows and pressures of the first variant."""
        assert self.solution is not None
        flows, pressures = self.flows[0].copy(), self.pressures[0].copy()
        return replace(self.solution, flows=flows, pressures=pressures)

    def _aired(self) -> bool:
        """Renew the share of oil that stages bring back; tell whether it changed by much."""
        marks = self.built.marks
        stage = marks.get("pressure stage")
        mixed = self.stages[self.is_mixed[self.stages]]
        if stage is None or not mixed.size:
            return False
        goes = self.flows[:, self.link[stage]] - self.flows[:, self.link[marks["relief"]]]
        comes = self.flows[:, mixed].sum(axis=1)
        is_fed = (goes > 0.0) & (comes > 0.0)
        ratio = np.where(is_fed, goes / np.where(comes > 0.0, comes, 1.0), 1.0)[:, None]
        new = np.clip(self.share * ratio, 0.05, 1.0)
        # What is left after the last turn is a hair: the flows of the stages take it up.
        self.flows[:, self.is_mixed] *= np.where(new < 1.0, ratio, 1.0)
        moved = float(np.abs(new - self.share).max())
        self.share = new
        return moved > 1e-3

    def _starved(self) -> bool:
        """Let stages move no more than reaches them; tell whether that changed by much."""
        if not self.stages.size:
            return False
        case, moved = self.built.case, 0.0
        floor = chosen(self.built.typed, "suction-floor").value
        for place, i in enumerate(self.stages):
            at = self.plumb.first[i]
            if not np.isnan(self.cold.pressure[at]) or self.cold.speed[i] <= 0.0:
                continue
            inlet, old = self.pressures[:, at], self.fill[:, place]
            ratio = (case.ambient - floor) / np.maximum(case.ambient - inlet, 1e-6)
            is_touched = (old < 1.0) | (inlet < floor)
            new = np.where(is_touched, np.clip(old * ratio, 1e-3, 1.0), old)
            moved = max(moved, float(np.abs(new - old).max()))
            self.fill[:, place] = new
        return moved > 1e-3

    def wax(self, temperatures: Values, time: float | None) -> None:
        """Let thermostats follow their temperatures for a time [s]; at once where it is None."""
        if not self.built.thermostats and not self.built.held:
            return
        nodes = self.mine(temperatures)
        lag = self.lag
        part = 1.0 if time is None else 1.0 - exp(-time / lag)
        if self.built.thermostats:
            wanted = (nodes[:, self._felt] - self._opens) / self._span
            wanted = np.minimum(1.0, np.maximum(0.0, wanted))
            self.opening += part * (wanted - self.opening)

        if self.built.held:
            held = self.built.held[0]
            over = (nodes[:, self.packed.node[held.node]] - held.temperature) / _SPAN
            if time is not None:
                near = np.minimum(1.0, np.maximum(-1.0, over))
                self._steady *= np.exp(near * time / (_SETTLES * lag))
            # What a control cannot do it does not save up.
            bounds = np.exp(-np.minimum(5.0, np.maximum(-5.0, over)))
            self._steady = np.minimum(bounds, np.maximum(_SHUT * bounds, self._steady))
            # Far from its temperature it opens whatever it has learnt.
            wanted = np.maximum(self._steady / bounds, over - 0.5)
            wanted = np.minimum(1.0, np.maximum(_SHUT, wanted))
            self.held = self.held + part * (wanted - self.held)

    def hold(self, share: float) -> None:
        """Begin with a control that lets cores give a share of what they could. [-]"""
        self.held[:] = self._steady[:] = share

    def take_over(self, old: "Followed") -> None:
        """Go on from the phase before with what is not a temperature."""
        if self.opening.shape == old.opening.shape:
            self.opening = old.opening.copy()
        self.share, self.held, self._steady = old.share.copy(), old.held.copy(), old._steady.copy()


def coupled(parts: Sequence[Followed]) -> tuple[tuple[Followed, ...], ...]:
    """Sort systems into groups that pass heat to each other.

    Parameters
    ----------
    parts : sequence of Followed
        Systems of one phase.

    Returns
    -------
    tuple of tuple of Followed
        By the components that they share as cores, and by the engine whose metal they warm.
    """
    groups: list[list[Followed]] = []
    for part in parts:
        tied = [g for g in groups if any(_meet(part, other) for other in g)]
        groups = [g for g in groups if g not in tied]
        groups.append([other for g in tied for other in g] + [part])
    return tuple(tuple(g) for g in groups)


def _meet(one: Followed, other: Followed) -> bool:
    shared = {c.where for c in one.built.cores if c.air_flow is None}
    if shared & {c.where for c in other.built.cores if c.air_flow is None}:
        return True
    has_metal = [any(m.of == "engine" for m in p.masses.metals) for p in (one, other)]
    return all(has_metal) and bool(one.masses.bridge or other.masses.bridge)
