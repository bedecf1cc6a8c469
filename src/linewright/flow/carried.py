# SPDX-License-Identifier: Apache-2.0
"""Heat that flows carry between lumps, as one linear system of all variants of coupled systems."""

from collections.abc import Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from linewright.base.kernels import njit
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
        self.rows = np.arange(variants)

    def gain(self, row: Places | int, heat: Values | float) -> None:
        """Put heat into a lump, of each variant its own where so given. [W]"""
        self.right[self.rows, row] += heat
        self.put += heat

    def tie(self, a: Places | int, b: Places | int, conductance: Values | float) -> None:
        """Let heat pass between two lumps. [W/K]"""
        for one, other in ((a, b), (b, a)):
            self.matrix[self.rows, one, one] += conductance
            self.matrix[self.rows, one, other] -= conductance

    def lose(
        self, row: Places | int, at: Places | int, conductance: Values | float, around: float
    ) -> None:
        """Let a lump lose to the air [K] what the warmth of another lump drives. [W/K]"""
        self.matrix[self.rows, row, at] += conductance
        self.right[self.rows, row] += conductance * around
        self.air[self.rows, at] += conductance
        self.from_air += conductance * around

    def pin(self, row: int, temperature: float) -> None:
        """Hold a lump at a temperature. [K]"""
        self.matrix[:, row] = 0.0
        self.matrix[:, row, row] = 1.0
        self.right[:, row] = temperature


@njit
def _links(
    flows: Any,
    rates: Any,
    works: Any,
    first: Any,
    second: Any,
    walls: Any,
    is_line: Any,
    is_pinned: Any,
    around: float,
    board: Any,
) -> None:
    """Enter what all links carry, what their walls lose and what work warms their fluid."""
    matrix, right, air, from_air, opens, put = board
    for v in range(flows.shape[0]):
        m = matrix[v]
        for i in range(flows.shape[1]):
            is_ahead = flows[v, i] >= 0.0
            up = first[i] if is_ahead else second[i]
            down = second[i] if is_ahead else first[i]
            rate = rates[v, i]
            if rate > 0.0:
                lost = -np.expm1(-walls[i] / rate) * rate
                m[down, down] += rate
                m[down, up] += lost - rate
                if not is_pinned[down]:
                    opens[v, up] += rate
                    opens[v, down] -= rate
                air[v, up] += lost
                from_air[v] += lost * around
                right[v, down] += lost * around + works[v, i]
                put[v] += works[v, i]
                continue
            stands = 0.5 * walls[i]
            for end in (up, down):
                m[end, end] += stands
                air[v, end] += stands
                right[v, end] += stands * around
            from_air[v] += 2.0 * stands * around
            if not is_line[i]:
                m[up, up] += _RESTING
                m[up, down] -= _RESTING
                m[down, down] += _RESTING
                m[down, up] -= _RESTING


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
    case, plumb, masses, down = part.built.case, part.plumb, part.masses, part.down
    unknown = part.offset + plumb.unknown
    _links(
        part.flows,
        part.rate,
        part.works,
        unknown[plumb.first],
        unknown[plumb.second],
        plumb.walls,
        part.is_line,
        is_pinned,
        plumb.around,
        (board.matrix, board.right, board.air, board.from_air, board.opens, board.put),
    )
    for i, power in part.plain:
        board.gain(down[:, i], power)
    for number, (metal, i, power) in enumerate(part.heated):
        row = part.first_metal + number
        board.gain(row, power)
        board.tie(row, down[:, i], metal.conductance)
        if metal.to_air and not case.is_running:
            board.lose(row, row, metal.to_air, case.air)
    cooled = [(part.offset + place, conductance) for place, conductance in plumb.sinks]
    cooled += [(part.lump(name), conductance) for name, conductance in masses.sinks.items()]
    for place, conductance in cooled:
        board.lose(place, place, conductance, case.air)
    if case.is_running:
        for name, warmed in masses.warms.items():
            board.gain(part.lump(name), warmed)


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
