# SPDX-License-Identifier: Apache-2.0
"""Heat that flows carry between lumps, as one linear system of all variants of coupled systems."""

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from linewright.flow.draft import Core
from linewright.flow.followed import Followed
from linewright.flow.heat import REST, Stream, conducted
from linewright.flow.implicit import Values

Places = NDArray[np.int64]

#: What passes through a short part in which nothing flows, so that a sensor at a dead end feels
#: its fluid within a minute or so. [W/K]
_RESTING = 0.1


class Board:
    """The linear system of some lumps: ``matrix`` and ``right`` of `implicit.Stepper`.

    Beside them it keeps account of what leaves for the air (``air`` for each kelvin [W/K], less
    ``from_air`` [W]), of what is put in (``put`` [W]) and of what flows bring across the bounds
    of the system (``opens`` for each kelvin [W/K]).
    """

    def __init__(self, variants: int, lumps: int) -> None:
        shape = (variants, lumps)
        self.variants, self.lumps = shape
        self.matrix = np.zeros((variants, lumps, lumps))
        self.right = np.zeros(shape)
        self.air, self.from_air = np.zeros(shape), np.zeros(variants)
        self.opens = np.zeros(shape)
        self.put = np.zeros(variants)
        self._row = np.arange(variants)[:, None]

    def add(self, rows: Places, columns: Places, values: Values) -> None:
        """Add heat that leaves a row for each kelvin of a column. [W/K]"""
        np.add.at(self.matrix, (self._row, rows, columns), values)

    def gain(self, rows: Places, heat: Values) -> None:
        """Put heat in. [W]"""
        np.add.at(self.right, (self._row, rows), heat)
        self.put += np.broadcast_to(heat, (self.variants, rows.shape[-1])).sum(axis=1)

    def tie(self, a: int, b: int, conductance: Values | float) -> None:
        """Let heat pass between two lumps. [W/K]"""
        for one, other in ((a, b), (b, a)):
            self.matrix[:, one, one] += conductance
            self.matrix[:, one, other] -= conductance

    def lose(self, rows: Places, at: Places, conductance: Values, around: float) -> None:
        """Let a row lose to the air [K] what the warmth of another lump drives. [W/K]"""
        self.add(rows, at, conductance)
        np.add.at(self.right, (self._row, rows), conductance * around)
        np.add.at(self.air, (self._row, at), conductance)
        whole = np.broadcast_to(conductance, (self.variants, rows.shape[-1]))
        self.from_air += around * whole.sum(axis=1)

    def carry(self, up: Places, down: Places, rate: Values, is_pinned: NDArray[np.bool_]) -> None:
        """Let flows of a capacity rate [W/K] carry heat from lump to lump."""
        self.add(down, down, rate)
        self.add(down, up, -rate)
        into = np.where(is_pinned[down], 0.0, rate)
        np.add.at(self.opens, (self._row, up), into)
        np.add.at(self.opens, (self._row, down), -into)

    def pin(self, row: int, temperature: float) -> None:
        """Hold a lump at a temperature. [K]"""
        self.matrix[:, row] = 0.0
        self.matrix[:, row, row] = 1.0
        self.right[:, row] = temperature


def assemble(board: Board, part: Followed, is_pinned: NDArray[np.bool_]) -> None:
    """Enter a system into a board, but for its cores.

    Parameters
    ----------
    board : Board
        Of its group.
    part : Followed
        The system, its flows solved.
    is_pinned : array
        Which lumps of the group are held at a temperature.
    """
    case, plumb, masses = part.built.case, part.plumb, part.masses
    up, down, rate = part.up, part.down, part.rate
    board.carry(up, down, rate, is_pinned)
    moves = rate > 0.0
    lost = np.where(moves, -np.expm1(-plumb.walls / np.where(moves, rate, 1.0)), 0.0) * rate
    board.lose(down, up, lost, plumb.around)
    stands = np.where(moves, 0.0, 0.5 * plumb.walls)
    for ends in (plumb.first, plumb.second):
        places = np.broadcast_to(part.offset + plumb.unknown[ends], stands.shape)
        board.lose(places, places, stands, plumb.around)
    rests = np.where(moves | part.is_line, 0.0, _RESTING)
    for one, other in ((up, down), (down, up)):
        board.add(one, one, rests)
        board.add(one, other, -rests)
    board.gain(down, np.where(moves, part.works, 0.0))
    for i, power in part.plain:
        board.gain(down[:, i : i + 1], power[:, None])
    variants = np.arange(board.variants)
    for number, (metal, i, power) in enumerate(part.heated):
        row = part.first_metal + number
        at = np.full((1, 1), row)
        board.gain(at, power[:, None])
        node = down[:, i]
        board.matrix[:, row, row] += metal.conductance
        board.matrix[variants, row, node] -= metal.conductance
        board.matrix[variants, node, node] += metal.conductance
        board.matrix[variants, node, row] -= metal.conductance
        if metal.to_air and not case.is_running:
            board.lose(at, at, np.full((1, 1), metal.to_air), case.air)
    cooled = [(part.offset + place, conductance) for place, conductance in plumb.sinks]
    cooled += [(part.lump(name), conductance) for name, conductance in masses.sinks.items()]
    for place, conductance in cooled:
        at = np.full((1, 1), place)
        board.lose(at, at, np.full((1, 1), conductance), case.air)
    if case.is_running:
        for name, warmed in masses.warms.items():
            board.gain(np.full((1, 1), part.lump(name)), np.full((1, 1), warmed))


def passes(
    part: Followed, core: Core, others: Mapping[str, Followed]
) -> tuple[Values, Places | None]:
    """Return what a core passes for each kelvin between its inlets, and the other one's inlet.

    Parameters
    ----------
    part : Followed
        The system.
    core : Core
        One of its cores.
    others : Mapping
        Systems that share a component with it, by component.

    Returns
    -------
    tuple of (array, array or None)
        For each variant [W/K], and where the other fluid comes in; None where that is air.
    """
    i = part.link[core.link]
    flows = np.abs(part.flows[:, i])
    if core.air_flow is not None:
        cp = part.air_heat
        streams = [Stream(core.air_flow, cp, core.air)] * len(flows)
        inlets = None
    else:
        other = others.get(core.where)
        if other is None:
            return np.zeros(len(flows)), None
        j = next(other.link[c.link] for c in other.built.cores if c.where == core.where)
        against = np.abs(other.flows[:, j])
        streams = [Stream(float(f), float(c), 0.0) for f, c in zip(against, other.cp, strict=True)]
        inlets = other.up[:, j]
    found: list[float] = []
    for flow, cp, stream, factor in zip(flows, part.cp, streams, part.conducts, strict=True):
        is_moving = flow > REST and stream.flow > REST
        found.append(conducted(core, float(flow), float(cp), stream, factor) if is_moving else 0.0)
    return np.array(found), inlets
