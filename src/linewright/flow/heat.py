# SPDX-License-Identifier: Apache-2.0
"""The thermal pass: temperatures of all nodes of a network whose flows are known.

Every node mixes what flows in; every link changes what flows through it by a heat, by a core or
by its wall. With the flows known this is one linear system.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linewright.flow.build import Built
from linewright.flow.draft import Core
from linewright.flow.exchangers import effectiveness
from linewright.flow.line_heat import line_conductance
from linewright.flow.network import Line
from linewright.flow.pack import Packed
from linewright.tables.fluids import heat_figure

Values = NDArray[np.float64]

#: Exchange between the ends of every link, so that what stands takes its neighbours'
#: temperature. [kg/s]
_STIR = 1e-7
#: Flow under which a link carries no heat. [kg/s]
REST = 1e-6
#: Air round a line over the air outside, with the engine running. [K]
_WARMER = 20.0


@dataclass(frozen=True, slots=True)
class Stream:
    """One side of an exchanger that another system flows through: flow, heat, inlet [K]."""

    flow: float
    heat_capacity: float
    inlet: float


@dataclass(frozen=True, slots=True)
class Warmth:
    """Temperatures of a system: of nodes, and of links at their inlet and outlet [K].

    ``given`` is the heat that each component gives to the fluid [W].
    """

    nodes: Values
    inlets: Values
    outlets: Values
    given: Mapping[str, float]


@dataclass(frozen=True)
class Plumb:
    """What of a network does not change from pass to pass."""

    first: NDArray[np.int64]
    second: NDArray[np.int64]
    unknown: NDArray[np.int64]
    count: int
    walls: Values
    around: float
    sinks: tuple[tuple[int, float], ...]
    pinned: tuple[tuple[int, float], ...]
    link: Mapping[str, int]


def plumb(built: Built, packed: Packed) -> Plumb:
    """Prepare the thermal pass of a network.

    Parameters
    ----------
    built : Built
        The system.
    packed : Packed
        Its network.

    Returns
    -------
    Plumb
        Indices and conductances.
    """
    names: dict[str, int] = {}
    unknown = []
    for node in built.network.nodes:
        key = built.pools.get(node.id, node.id)
        unknown.append(names.setdefault(key, len(names)))
    wall = heat_figure("hose-wall").value
    outer = heat_figure("outside-still").value
    walls = np.zeros(len(built.network.links))
    for i, link in enumerate(built.network.links):
        if isinstance(link, Line) and link.id in built.runs and not built.fluid.is_gas:
            outside = link.bore + 0.008
            walls[i] = link.length * line_conductance(link.bore, outside, 500.0, wall, outer)
    place = packed.node
    return Plumb(
        first=packed.topology.first,
        second=packed.topology.second,
        unknown=np.array(unknown, dtype=np.int64),
        count=len(names),
        walls=walls,
        around=built.case.air + (_WARMER if built.case.is_running else 0.0),
        sinks=tuple((unknown[place[n]], g) for n, g in built.sinks.items() if n in place),
        pinned=tuple((unknown[place[n]], t) for n, t in built.pinned.items() if n in place),
        link=packed.link,
    )


def conducted(core: Core, flow: float, heat: float, other: Stream, factor: float) -> float:
    """Return the heat that a core gives for each kelvin between its inlets. [W/K]

    Parameters
    ----------
    core : Core
        The core.
    flow : float
        Of this system. [kg/s]
    heat : float
        Capacity of its fluid. [J/(kg K)]
    other : Stream
        The other side.
    factor : float
        On its conductance. [-]

    Returns
    -------
    float
        Effectiveness times the lesser capacity rate. [W/K]
    """
    low, high = sorted((flow * heat, other.flow * other.heat_capacity))
    if low <= 0.0:
        return 0.0
    pair = (flow, other.flow) if core.is_first else (other.flow, flow)
    units = factor * core.exchanger.at(*pair) / low
    return effectiveness(core.exchanger.arrangement, units, low / high) * low


def warm(
    built: Built,
    p: Plumb,
    flows: Values,
    rises: Values,
    heat_capacity: float,
    others: Mapping[str, Stream],
    *,
    start: float,
    given: float = 1.0,
    factor: float = 1.0,
    held: float = 1.0,
) -> Warmth:
    """Find the temperatures of a network.

    Parameters
    ----------
    built : Built
        The system.
    p : Plumb
        Of `plumb`.
    flows : array
        Of its links [kg/s].
    rises : array
        Work that each link does on the fluid. [W]
    heat_capacity : float
        Of the fluid. [J/(kg K)]
    others : Mapping
        The other side of each core, by component.
    start : float
        What has no heat from anywhere is as warm as that. [K]
    given, factor, held : float
        Factors on heats, on conductances, and on what cores give by a control. [-]

    Returns
    -------
    Warmth
        Temperatures and heats.
    """
    size = np.abs(flows)
    is_ahead = flows >= 0.0
    up = p.unknown[np.where(is_ahead, p.first, p.second)]
    down = p.unknown[np.where(is_ahead, p.second, p.first)]
    rate = np.maximum(size, REST) * heat_capacity
    moves = size > REST
    keep = np.where(moves, np.exp(-p.walls / rate), 1.0)
    add = (1.0 - keep) * p.around + np.where(moves, rises / rate, 0.0)
    for heat in built.heats:
        i = p.link[heat.link]
        if moves[i]:
            add[i] += given * heat.power / rate[i]
    cores = []
    for core in built.cores:
        i = p.link[core.link]
        other = others.get(core.where)
        if other is None or not moves[i]:
            continue
        # A control throttles what goes to the air; what goes to another fluid it has no hold of.
        share = held if core.air_flow is not None else 1.0
        passes = share * conducted(core, float(size[i]), heat_capacity, other, factor)
        part = passes / rate[i]
        keep[i] *= 1.0 - part
        add[i] = add[i] * (1.0 - part) + part * other.inlet
        cores.append((core, i, passes, other.inlet))
    matrix = np.zeros((p.count, p.count))
    right = np.zeros(p.count)
    carried = np.where(moves, size, 0.0)
    np.add.at(matrix, (down, down), carried + _STIR)
    np.add.at(matrix, (down, up), -carried * keep - _STIR)
    np.add.at(matrix, (up, up), _STIR)
    np.add.at(matrix, (up, down), -_STIR)
    np.add.at(right, down, carried * add)
    for node, conductance in p.sinks:
        matrix[node, node] += conductance / heat_capacity
        right[node] += conductance / heat_capacity * built.case.air
    matrix[np.diag_indices(p.count)] += 1e-9
    right += 1e-9 * start
    for node, temperature in p.pinned:
        matrix[node] = 0.0
        matrix[node, node] = 1.0
        right[node] = temperature
    found: Values = np.asarray(np.linalg.solve(matrix, right), dtype=np.float64)
    inlets = found[up]
    outlets: Values = np.asarray(
        np.where(moves, keep * inlets + add, found[down]), dtype=np.float64
    )
    sums: dict[str, float] = {}
    for heat in built.heats:
        sums[heat.where] = sums.get(heat.where, 0.0) + given * heat.power
    for core, i, passes, inlet in cores:
        given_here = passes * (inlet - float(inlets[i]))
        sums[core.where] = sums.get(core.where, 0.0) + given_here
    return Warmth(found[p.unknown], inlets, outlets, sums)
