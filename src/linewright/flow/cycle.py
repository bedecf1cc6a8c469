# SPDX-License-Identifier: Apache-2.0
"""A car followed through a condition that lasts: all its lumps of heat, phase by phase."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, fields, replace

import numpy as np

from linewright.base.errors import LinewrightError
from linewright.car.model import Car, Medium
from linewright.flow.build import Built, Ways, build
from linewright.flow.case import Case, Cycle
from linewright.flow.defaults import Ledger
from linewright.flow.followed import Followed, coupled
from linewright.flow.group import Account, Group
from linewright.flow.implicit import Values
from linewright.flow.lumps import Masses, lumps
from linewright.flow.pack import Packed, pack
from linewright.flow.solve import Solution
from linewright.flow.spread import known
from linewright.flow.steady import Settled, begin, settle
from linewright.joints.model import Joints

#: Doubts of a cycle, each moved to both of its ends: heats, conductances, what holds heat.
DOUBTS = ("heat", "heat-conductance", "heat-capacity")
#: Most moments of a cycle that are kept.
_KEPT = 160
_AMISS = (LinewrightError, ArithmeticError, ValueError, LookupError)
#: What of a case makes a system another one, beside temperatures that are typed.
_SAME = frozenset(
    ("speed", "load", "boost", "ambient", "air", "car_speed", "voltage", "down", "state", "off")
)
#: Ice keeps its tank near its own temperature until the pump runs. [K]
_ICED = 275.15


@dataclass(frozen=True, slots=True)
class Moment:
    """A system at a time of its cycle [s].

    ``temperatures`` of its lumps, a row a variant [K]; ``solution`` has its flows and pressures
    in the first variant. ``part`` is the system in its phase, ``ice`` what is left of it [kg].
    """

    time: float
    part: Followed
    temperatures: Values
    solution: Solution
    ice: Values | None = None

    def at(self, node: str) -> Values:
        """Temperature at a node, or of a metal, in every variant. [K]"""
        keys = self.part.keys
        if node in self.part.packed.node:
            return self.temperatures[:, int(self.part.plumb.unknown[self.part.packed.node[node]])]
        return self.temperatures[:, keys.index(node)]

    def nodes(self) -> Values:
        """Temperatures of all nodes of its network, a row a variant. [K]"""
        return self.temperatures[:, self.part.plumb.unknown]

    def pressure(self, node: str) -> float:
        """Pressure at a node. [Pa]"""
        return self.solution.pressure(node)


@dataclass
class Tale:
    """What became of a system through a cycle."""

    system: str
    cycle: Cycle
    moments: list[Moment] = field(default_factory=list)

    @property
    def times(self) -> Values:
        """Times of all moments. [s]"""
        return np.array([m.time for m in self.moments])


@dataclass(frozen=True)
class Followings:
    """All systems through a cycle: their tales, and what failed.

    ``accounts`` has the account of heat of the group that each system is in.
    """

    cycle: Cycle
    tales: tuple[Tale, ...]
    accounts: Mapping[str, Account]
    failed: Mapping[str, str]
    steps: int = 0
    solved: int = 0


@dataclass
class Maker:
    """Draws up systems for cases, each once."""

    car: Car
    joints: Joints
    ways: Ways
    ledger: Ledger
    _built: dict[tuple[object, ...], Built] = field(default_factory=dict)
    _masses: dict[str, Masses] = field(default_factory=dict)
    _packed: dict[int, tuple[Built, Packed]] = field(default_factory=dict)
    settled: dict[tuple[int, ...], dict[str, Settled]] = field(default_factory=dict)

    def built(self, system: str, case: Case) -> Built:
        """Return a system in a case."""
        # What is called differently and is the same is built once.
        start = tuple(sorted((name, figure.value) for name, figure in case.start.items()))
        key = (system, start, *(getattr(case, f.name) for f in fields(case) if f.name in _SAME))
        found = self._built.get(key)
        if found is None:
            one = self.car.systems[system]
            found = build(self.car, self.joints, self.ways, one, case, self.ledger)
            self._built[key] = found
        return found

    def packed(self, built: Built) -> Packed:
        """Return the network of a system that was drawn up here."""
        found = self._packed.get(id(built))
        if found is None:
            found = self._packed[id(built)] = built, pack(built.network)
        return found[1]

    def masses(self, system: str, case: Case) -> Masses:
        """Return what holds heat in a system: it is the same in all cases."""
        if system not in self._masses:
            full = replace(case, load=1.0, speed=case.engine.rated.value, state="hot")
            self._masses[system] = lumps(self.car, self.built(system, full), self.ledger)
        return self._masses[system]


def follow(maker: Maker, cycle: Cycle, only: Iterable[str] = ()) -> Followings:
    """Follow all systems of a car through a cycle.

    Parameters
    ----------
    maker : Maker
        Draws up the systems of the car.
    cycle : Cycle
        What the car does.
    only : Iterable of str
        These systems and those that they pass heat to; all where left out.

    Returns
    -------
    Followings
        A system that cannot be followed is left out, with the reason.
    """
    failed: dict[str, str] = {}
    names = []
    for name in maker.car.systems:
        try:
            builts = [maker.built(name, phase.case) for phase in cycle.phases]
            if all(b.network.links for b in builts):
                maker.packed(builts[0])
                names.append(name)
        except _AMISS as error:
            failed[name] = " ".join(str(error).split("\n"))
    start = _settled(maker, cycle, names)
    factors = _factors()
    first = [_part(maker, name, cycle.phases[0].case, factors) for name in names]
    wanted = set(only)
    tales = {name: Tale(name, cycle) for name in names}
    groups = []
    for parts in coupled(first):
        mine = [part.built.system.id for part in parts]
        if wanted and not wanted & set(mine):
            continue
        group = Group(parts, _begun(parts, start, cycle), _keeper(tales, cycle.lasts))
        try:
            _through(maker, cycle, group, mine, factors, start)
            groups.append(group)
        except _AMISS as error:
            for name in mine:
                failed[name] = " ".join(str(error).split("\n"))
                tales.pop(name)
    told = tuple(t for t in tales.values() if len(t.moments) > 1)
    return Followings(
        cycle,
        told,
        {p.built.system.id: g.account for g in groups for p in g.parts},
        failed,
        sum(g.steps for g in groups),
        sum(g.solved for g in groups),
    )


_Factors = tuple[Values, Values, Values]


def _factors() -> _Factors:
    """Which end of their heats variants have, and their factors on conductances and capacities."""
    count = 1 + 2 * len(DOUBTS)
    sides, conducts, holds = np.zeros(count), np.ones(count), np.ones(count)
    sides[1:3] = -1.0, 1.0
    for row, name, at in ((conducts, DOUBTS[1], 3), (holds, DOUBTS[2], 5)):
        doubt = known(name)
        row[at : at + 2] = doubt.low, doubt.high
    return sides, conducts, holds


def _part(maker: Maker, name: str, case: Case, factors: _Factors) -> Followed:
    built = maker.built(name, case)
    return Followed(built, maker.masses(name, case), *factors, maker.packed(built))


def _settled(maker: Maker, cycle: Cycle, names: Sequence[str]) -> dict[str, Settled]:
    """Systems as they stand before a cycle; those that start cold stand nowhere."""
    if cycle.phases[0].case.state == "cold":
        return {}
    found = {}
    for name in names:
        try:
            built = maker.built(name, cycle.before)
            found[name] = begin(built, packed=maker.packed(built))
        except _AMISS:
            continue
    # Most that a car does begins after the same cruise.
    known = tuple(id(state.built) for state in found.values())
    if known not in maker.settled:
        try:
            settle(list(found.values()))
        except _AMISS:
            found = {}
        maker.settled[known] = {name: state for name, state in found.items() if state.is_settled}
    return maker.settled[known]


def _begun(parts: Sequence[Followed], start: Mapping[str, Settled], cycle: Cycle) -> Values:
    """Temperatures at the start of a group, all variants alike. [K]"""
    columns: list[float] = []
    for part in parts:
        built, case = part.built, cycle.phases[0].case
        typed = case.start.get(built.system.id)
        state = start.get(built.system.id)
        at = dict.fromkeys(part.keys, built.start)
        if typed is not None:
            at = dict.fromkeys(part.keys, typed.value)
        elif state is not None and built.system.medium is not Medium.FUEL:
            for node, temperature in zip(state.built.network.nodes, state.at_nodes, strict=True):
                key = state.built.pools.get(node.id, node.id)
                if key in at:
                    at[key] = float(temperature)
            powers = {heat.link: heat.power for heat in state.built.heats}
            for metal, i, _ in part.heated:
                # Metal stands over its fluid by what drives its heat.
                behind = built.network.nodes[int(part.plumb.second[i])].id
                cool = at[built.pools.get(behind, behind)]
                at[metal.id] = cool + powers.get(metal.link, 0.0) / metal.conductance
        for ice in part.masses.ice:
            key = built.pools.get(ice.where, ice.where)
            at[key] = min(at[key], _ICED)
        columns += [at[key] for key in part.keys]
    return np.tile(np.array(columns), (len(parts[0].flows), 1))


def _keeper(tales: Mapping[str, Tale], lasts: float) -> Callable[[Group], None]:
    """Keep moments of a group, no closer to each other than is of use."""

    def keep(group: Group) -> None:
        for part in group.parts:
            moments = tales[part.built.system.id].moments
            # Phases begin with a moment of their own; the last one of all is always kept.
            is_apart = not moments or group.time - moments[-1].time >= lasts / _KEPT
            if not is_apart and group.time < lasts - 1e-6 and moments[-1].part is part:
                continue
            whole = slice(part.offset, part.offset + len(part.keys))
            ice = [group.ice_left(i.where) for i in part.masses.ice]
            moments.append(
                Moment(
                    group.time,
                    part,
                    group.temperatures[:, whole].copy(),
                    part.now(),
                    np.sum(ice, axis=0) if ice else None,
                )
            )

    return keep


def _through(
    maker: Maker,
    cycle: Cycle,
    group: Group,
    names: Sequence[str],
    factors: _Factors,
    start: Mapping[str, Settled],
) -> None:
    for part in group.parts:
        state = start.get(part.built.system.id)
        part.hold(1.0 if state is None else state.held)
        part.wax(group.temperatures, None)
        part.solve(group.temperatures)
    group.seen(group)
    ends = [phase.begins for phase in cycle.phases[1:]] + [cycle.lasts]
    for number, (phase, end) in enumerate(zip(cycle.phases, ends, strict=True)):
        if number:
            group.enter([_part(maker, name, phase.case, factors) for name in names])
        group.advance(end)
