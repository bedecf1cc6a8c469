# SPDX-License-Identifier: Apache-2.0
"""Coupled systems followed through time in steps, with an account of all their heat."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from linewright.base.kernels import njit
from linewright.flow.carried import Board, assemble, passes
from linewright.flow.followed import Followed
from linewright.flow.implicit import Stepper, Taken, Tied, Values
from linewright.flow.lumps import Ice
from linewright.tables.fluids import heat_figure

#: Error of a step at which it is halved, and share of it under which the next is doubled. [K]
_MOST, _LITTLE = 0.2, 1.0 / 16.0
#: First, least and longest step. [s]
_FIRST, _SHORTEST, _LONGEST = 0.25, 1e-3, 15.0
#: Ice melts from now on a surface that much smaller. [-]
_MELTED = 0.05
#: Temperature of melting ice. [K]
_ICE = 273.15


@dataclass
class Account:
    """Heat of a group up to now, a figure a variant. [J]

    What was ``put`` in, what went to the ``air`` and to ``ice``, what flows brought across the
    bounds of the group, and what its lumps have ``stored``.
    """

    put: Values
    air: Values
    ice: Values
    brought: Values
    stored: Values

    def amiss(self) -> Values:
        """Heat in less heat out less what is stored, over what was put in. [-]"""
        left = self.put + self.brought - self.air - self.ice - self.stored
        whole = np.abs(self.put) + np.abs(self.stored) + np.abs(self.air)
        return np.asarray(left / np.maximum(whole, 1.0))


@njit
def _enter(step: float, board: Any, temperatures: Any, account: Any) -> None:
    """Enter a step into the account of heat of every variant."""
    put, air, from_air, opens, capacity = board
    start, mean, end = temperatures
    all_put, all_air, all_brought, all_stored = account
    for v in range(mean.shape[0]):
        lost = brought = stored = 0.0
        for i in range(mean.shape[1]):
            lost += air[v, i] * mean[v, i]
            brought += opens[v, i] * mean[v, i]
            stored += capacity[v, i] * (end[v, i] - start[v, i])
        all_put[v] += step * put[v]
        all_air[v] += step * (lost - from_air[v])
        all_brought[v] += step * brought
        all_stored[v] += stored


@dataclass
class _Melting:
    ice: Ice
    place: int
    melted: Values  # [kg]
    speed: Values  # [kg/s]
    conductance: Values  # [W/K]
    taken: Values  # with what warms its water [W/K]
    reckoned: Values  # what had melted when the conductance was reckoned


@dataclass
class Group:
    """Systems that pass heat to each other, stepped together.

    ``parts`` are the systems, ``temperatures`` of all their lumps a row a variant [K], ``time``
    since the start [s]. ``seen`` is called after every step.
    """

    parts: tuple[Followed, ...]
    temperatures: Values
    seen: Callable[["Group"], None]
    time: float = 0.0
    steps: int = 0
    solved: int = 0
    account: Account = field(init=False)
    _step: float = _FIRST

    def __post_init__(self) -> None:
        nothing = np.zeros(len(self.temperatures))
        self.account = Account(*(nothing.copy() for _ in range(5)))
        self._melting: list[_Melting] = []
        self._begun()
        for part in self.parts:
            for ice in part.masses.ice:
                melted = np.zeros(len(self.temperatures))
                self._melting.append(
                    _Melting(
                        ice, part.lump(ice.where), melted, nothing, nothing, nothing, nothing - 1.0
                    )
                )

    def _begun(self) -> None:
        offset = 0
        for part in self.parts:
            part.offset = offset
            offset += len(part.keys)
        self._pinned = np.zeros(offset, dtype=bool)
        for part in self.parts:
            for place, _ in part.plumb.pinned:
                self._pinned[part.offset + place] = True
        self._is_stale = True
        self._step = _FIRST
        self._steppers: dict[float, Stepper] = {}
        self._tied = Tied()

    def enter(self, parts: Sequence[Followed]) -> None:
        """Go on with the same systems as another phase has them."""
        known: dict[tuple[str, str], Values] = {}
        for part in self.parts:
            for place, key in enumerate(part.keys):
                known[part.built.system.id, key] = self.temperatures[:, part.offset + place]
        by_name = {part.built.system.id: part for part in parts}
        old = self.parts
        self.parts = tuple(by_name[p.built.system.id] for p in old)
        self._begun()
        columns = []
        for part, before in zip(self.parts, old, strict=True):
            part.take_over(before)
            system = part.built.system.id
            mean = np.mean([known[system, key] for key in before.nodes], axis=0)
            columns += [known.get((system, key), mean) for key in part.keys]
        self.temperatures = np.array(columns).T.copy()
        for melting in self._melting:
            part = next(p for p in self.parts if melting.ice in p.masses.ice)
            melting.place = part.lump(melting.ice.where)

    def ice_left(self, where: str) -> Values:
        """Ice that is left at a node. [kg]"""
        melting = next(m for m in self._melting if m.ice.where == where)
        return melting.ice.mass - melting.melted

    # ------------------------------------------------------------------------ renewing
    def _renew(self) -> None:
        """Solve flows at the temperatures now, and draw up what they carry."""
        for part in self.parts:
            # What passes heat to a system that has moved may not have moved itself.
            if part.is_stale or not part.held_by.size:
                part.solve(self.temperatures)
                part.held_by = part.capacity(self.temperatures)
            part.note_control()
        self.solved += 1
        board = Board(*self.temperatures.shape)
        for part in self.parts:
            assemble(board, part, self._pinned)
        for part in self.parts:
            self._cores(board, part)
        self._bridge(board)
        for melting in self._melting:
            left = 1.0 - melting.melted / melting.ice.mass
            is_left = left > 1e-9
            share = np.where(is_left, np.maximum(left, _MELTED) ** (2.0 / 3.0), 0.0)
            melting.reckoned = melting.melted.copy()
            melting.conductance = share * melting.ice.conductance
            water = np.where(is_left, melting.speed, 0.0) * heat_figure("water-heat").value
            melting.taken = melting.conductance + water
            board.matrix[:, melting.place, melting.place] += melting.taken
            board.right[:, melting.place] += melting.taken * _ICE
        for part in self.parts:
            for place, temperature in part.plumb.pinned:
                board.pin(part.offset + place, temperature)
        self._board = board
        self._capacity = np.concatenate([part.held_by for part in self.parts], axis=1)
        for melting in self._melting:
            self._capacity[:, melting.place] += melting.melted * heat_figure("water-heat").value
        self._capacity[:, self._pinned] = 0.0
        self._tied.see(board.matrix)
        self._steppers = {}
        self._is_stale = False

    def _cores(self, board: Board, part: Followed) -> None:
        others = {
            core.where: other
            for other in self.parts
            if other is not part
            for core in other.built.cores
            if core.air_flow is None
        }
        variants = board.rows
        for core in part.built.cores:
            conductance, inlet = passes(part, core, others)
            i = part.link[core.link]
            up, down = part.up[:, i], part.down[:, i]
            if core.air_flow is None:
                if inlet is not None:
                    board.matrix[variants, down, up] += conductance
                    board.matrix[variants, down, inlet] -= conductance
                continue
            board.lose(down, up, part.held * conductance, core.air)

    def _bridge(self, board: Board) -> None:
        """Heat from what the coolant of an engine warms to what its oil warms, at rest."""
        if self.parts[0].built.case.is_running:
            return
        rows = {
            part.built.system.id: (part, part.first_metal + number)
            for part in self.parts
            for number, (metal, _, _) in enumerate(part.heated)
            if metal.of == "engine"
        }
        bridge = max((part.masses.bridge for part, _ in rows.values()), default=0.0)
        if len(rows) == 2 and bridge:
            (_, a), (_, b) = rows.values()
            board.tie(a, b, bridge)

    # ------------------------------------------------------------------------ stepping
    def _stepper(self, step: float) -> Stepper:
        found = self._steppers.get(step)
        if found is None:
            turns = self._tied.order
            found = Stepper(self._capacity, self._board.matrix, step, turns)
            self._steppers[step] = found
        return found

    def _take(self, step: float) -> Taken:
        return self._stepper(step).take(self.temperatures, self._board.right)

    def advance(self, until: float) -> None:
        """Step to a time. [s]"""
        while self.time < until - 1e-9:
            if self._is_stale:
                self._renew()
            left = until - self.time
            step = left if left < 1.5 * self._step else self._step
            taken = self._take(step)
            worst = float(taken.error.max())
            if worst > _MOST and step > _SHORTEST:
                self._step = 0.5 * step
                continue
            shorter = self._until_gone(taken, step)
            if shorter is not None:
                step = shorter
                taken = self._take(step)
            self._accept(taken, step)
            if worst < _LITTLE * _MOST and step >= self._step:
                self._step = min(2.0 * self._step, _LONGEST)

    def _taken_by_ice(self, melting: _Melting, mean: Values) -> Values:
        """Heat that melts ice [W], that which warms its water left out."""
        return np.maximum(0.0, melting.conductance * (mean[:, melting.place] - _ICE))

    def _until_gone(self, taken: Taken, step: float) -> float | None:
        """A shorter step, where in this one some ice would be gone before its end. [s]"""
        shortest = step
        for melting in self._melting:
            speed = self._taken_by_ice(melting, taken.mean) / heat_figure("ice-melts").value
            left = melting.ice.mass - melting.melted
            goes = (speed * step > left) & (left > 1e-9 * melting.ice.mass)
            if goes.any():
                shortest = min(shortest, float((left[goes] / speed[goes]).min()))
        return max(shortest, _SHORTEST) if shortest < 0.999 * step else None

    def _accept(self, taken: Taken, step: float) -> None:
        board, account, mean = self._board, self.account, taken.mean
        _enter(
            step,
            (board.put, board.air, board.from_air, board.opens, self._capacity),
            (self.temperatures, mean, taken.end),
            (account.put, account.air, account.brought, account.stored),
        )
        for melting in self._melting:
            melts = self._taken_by_ice(melting, mean)
            speed = melts / heat_figure("ice-melts").value
            account.ice += step * melting.taken * (mean[:, melting.place] - _ICE)
            melting.melted = np.minimum(melting.ice.mass, melting.melted + step * speed)
            melting.speed = speed
            is_gone = (melting.melted >= melting.ice.mass * (1.0 - 1e-9)) & (
                melting.conductance > 0.0
            )
            apart = melting.melted - melting.reckoned
            if is_gone.any() or float(apart.max()) > _MELTED * melting.ice.mass:
                self._is_stale = True
        self.temperatures = taken.end
        self.time += step
        self.steps += 1
        for part in self.parts:
            part.wax(self.temperatures, step)
        self._is_stale = self._has_moved() or self._is_stale
        self.seen(self)

    def _has_moved(self) -> bool:
        """Whether a fluid has become so much thicker or thinner, or a control has moved."""
        for part in self.parts:
            part.is_stale = part.has_moved(self.temperatures)
        return any(part.is_stale or part.is_let_more() for part in self.parts)
