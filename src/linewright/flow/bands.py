# SPDX-License-Identifier: Apache-2.0
"""Bands: what bores, viscosity, losses, demands and heats that are not known do to a result.

Each doubt is moved to both ends of its central 95 %, one at a time, and all rows are solved in
one batch. Independent doubts add up by the root of their squares, so the band is the central
95 % as long as a result goes straight with them.
"""

from collections import defaultdict
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linewright.base.evidence import Figure
from linewright.flow import laws
from linewright.flow.heat import Warmth, warm
from linewright.flow.model import Band
from linewright.flow.pack import Packed
from linewright.flow.solve import Variants, solve_many
from linewright.flow.spread import known
from linewright.flow.steady import Settled, work

Values = NDArray[np.float64]

#: How doubts of what a link passes, and of what a pump rises to, are named.
PASSES, LIFTS = "what passes: ", "what it rises to: "
#: How the doubt of the temperature at which a fluid stands is named.
STANDS = "temperature after a hard run"


@dataclass(frozen=True)
class Study:
    """A settled state with each doubt at both its ends: first the state itself, then pairs.

    ``flows`` [kg/s] and ``pressures`` [Pa] have a row a variant; ``doubts`` names the pairs.
    ``nodes`` are temperatures the same way, for the doubts of heat alone [K]. ``density`` has
    the rows of link densities.
    """

    state: Settled
    doubts: tuple[str, ...]
    flows: Values
    pressures: Values
    nodes: Values

    def flow(self, link: str) -> Band:
        """Flow of a link. [kg/s]"""
        return spread(self.flows[:, self.state.packed.link[link]])

    def pressure(self, node: str) -> Band:
        """Pressure at a node. [Pa]"""
        return spread(self.pressures[:, self.state.packed.node[node]])

    def temperature(self, node: str) -> Band:
        """Temperature at a node. [K]"""
        return spread(self.nodes[:, self.state.packed.node[node]])

    def lost(self, link: str) -> Band:
        """Drop of a link from its first to its second node, without height. [Pa]"""
        packed = self.state.packed
        i = packed.link[link]
        a, b = packed.topology.first[i], packed.topology.second[i]
        rise = packed.density[i] * laws.GRAVITY * (packed.height[a] - packed.height[b])
        return spread(self.pressures[:, a] - self.pressures[:, b] + rise)


def spread(values: Values) -> Band:
    """Return the band of a result over its rows.

    Parameters
    ----------
    values : array
        The result itself, then two for each doubt.

    Returns
    -------
    Band
        Root of the sum of squares of what each doubt does to either side.

    Examples
    --------
    >>> spread(np.array([10.0, 7.0, 13.0, 6.0, 10.0]))
    Band(value=10.0, low=5.0, high=13.0)
    """
    value = float(values[0])
    pairs = values[1:].reshape(-1, 2) - value
    if not pairs.size:
        return Band(value, value, value)
    first, second = pairs[:, 0], pairs[:, 1]
    down = np.minimum(np.minimum(first, second), 0.0)
    up = np.maximum(np.maximum(first, second), 0.0)
    return Band(value, value - float(np.sqrt(down @ down)), value + float(np.sqrt(up @ up)))


def spread_all(rows: Values) -> tuple[Values, Values, Values]:
    """Return the bands of many results.

    Parameters
    ----------
    rows : array
        A row a result, each as `spread` takes it.

    Returns
    -------
    tuple of array
        The results themselves, their low and their high ends.

    Examples
    --------
    >>> [end.tolist() for end in spread_all(np.array([[10.0, 7.0, 13.0, 6.0, 10.0]]))]
    [[10.0], [5.0], [13.0]]
    """
    value = rows[:, 0]
    pairs = rows[:, 1:].reshape(len(rows), -1, 2) - value[:, None, None]
    down = np.minimum(pairs.min(axis=2), 0.0)
    up = np.maximum(pairs.max(axis=2), 0.0)
    low = value - np.sqrt((down * down).sum(axis=1))
    return value, low, value + np.sqrt((up * up).sum(axis=1))


def study(state: Settled) -> Study:
    """Solve a settled state again with each doubt at both its ends, in one batch.

    Parameters
    ----------
    state : Settled
        A system in a condition.

    Returns
    -------
    Study
        All rows.
    """
    packed = state.packed
    groups = _groups(state)
    count = 1 + 2 * len(groups)
    rows = _Rows(
        np.repeat(packed.numbers[None], count, axis=0),
        np.repeat(packed.bore[None], count, axis=0),
        np.repeat(packed.viscosity[None], count, axis=0),
        np.repeat(packed.demand[None], count, axis=0),
    )
    for place, (name, ends) in enumerate(groups.items()):
        for side in (0, 1):
            _apply(packed, rows, 1 + 2 * place + side, name, ends, side)
    found = solve_many(
        packed,
        Variants(
            numbers=rows.numbers, bore=rows.bore, viscosity=rows.viscosity, demand=rows.demand
        ),
        state.found,
    )
    flows, pressures = found.flows, found.pressures
    # A variant that did not settle tells nothing: it counts as the state itself.
    lost = found.iterations < 0
    lost[0] = True
    flows[lost], pressures[lost] = state.found.flows, state.found.pressures
    return Study(state, tuple(groups), flows, pressures, _warmths(state))


@dataclass(frozen=True)
class _Rows:
    numbers: Values
    bore: Values
    viscosity: Values
    demand: Values


_Ends = list[tuple[int, float, float]]


def _groups(state: Settled) -> dict[str, _Ends]:
    """Doubts by name, each with the links (or, less than 0, nodes) that it moves and how far."""
    packed, built = state.packed, state.built
    every = range(packed.density.size)
    found: dict[str, _Ends] = {}
    for name in ("viscosity", "loss"):
        bounds = known(name)
        found[name] = [(i, bounds.low, bounds.high) for i in every]
    if built.stands is not None and built.stands.low is not None:
        low, high = _thinner(state, built.stands)
        found[STANDS] = [(i, low, high) for i in every]
    bores: dict[str, _Ends] = defaultdict(list)
    for link, (size, low, high) in built.bores.items():
        bores[size].append((packed.link[link], low, high))
    found |= bores
    others: dict[str, _Ends] = defaultdict(list)
    for doubt in built.doubts:
        if doubt.link.startswith("node "):
            place = -1 - packed.node[doubt.link.removeprefix("node ")]
        elif doubt.link.startswith("head "):
            place = packed.link[doubt.link.removeprefix("head ")]
            others[f"{LIFTS}{doubt.name}"].append((place, doubt.low, doubt.high))
            continue
        else:
            place = packed.link[doubt.link]
        others[f"{PASSES}{doubt.name}"].append((place, doubt.low, doubt.high))
    found |= others
    return found


def _thinner(state: Settled, stands: Figure) -> tuple[float, float]:
    """Factors on viscosity where the fluid is as hot, and as cool, as it may stand."""
    fluid, limits = state.built.fluid, _limits(state)
    at, low, high = (
        fluid.viscosity(min(max(t, limits[0]), limits[1]))
        for t in (stands.value, stands.low or stands.value, stands.high or stands.value)
    )
    return float(high / at), float(low / at)


def _apply(packed: Packed, rows: _Rows, row: int, name: str, ends: _Ends, side: int) -> None:
    kinds = packed.topology.kinds
    for place, low, high in ends:
        factor = high if side else low
        if place < 0:
            rows.demand[row, -1 - place] *= factor
        elif name in ("viscosity", STANDS):
            rows.viscosity[row, place] *= factor
        elif name.startswith("bore "):
            rows.bore[row, place] *= factor
        elif name == "loss":
            _losing(kinds[place], rows.numbers[row, place], factor)
        elif name.startswith(LIFTS):
            rows.numbers[row, place, :3] *= factor
        else:
            _passing(kinds[place], rows.numbers[row, place], factor)


def _losing(kind: int, numbers: Values, factor: float) -> None:
    """Make a link lose so many times as much besides the friction of its wall."""
    if kind <= laws.LINE_CONVOLUTED:
        numbers[1:3] *= factor
    elif kind == laws.LOSS:
        numbers[:2] *= factor
    elif kind == laws.ORIFICE:
        numbers[0] /= factor**0.5
    elif kind >= laws.FIRST_VALVE:
        numbers[3:5] *= factor


def _passing(kind: int, numbers: Values, factor: float) -> None:
    """Make a link pass so many times as much at the same pressures."""
    if kind == laws.LOSS:
        numbers[0] /= factor
        numbers[1] /= factor**2
    elif kind == laws.DISPLACEMENT:
        numbers[0] *= factor
    elif kind == laws.CENTRIFUGAL:
        numbers[1] /= factor
        numbers[2] /= factor**2


def _warmths(state: Settled) -> Values:
    """Temperatures of nodes with heats and conductances at their ends."""
    # What is hotter than the fluid can be is shown as its limit.
    rows = [np.clip(state.at_nodes, *_limits(state))]
    stands = state.built.stands
    if stands is not None:
        ends = [stands.value if end is None else end for end in (stands.low, stands.high)]
        return np.array(
            [*rows, *(np.full(rows[0].size, np.clip(t, *_limits(state))) for t in ends)]
        )
    if state.warmth is None:
        return np.array(rows)
    built = state.built
    low = min((h.low for h in built.heats), default=1.0)
    high = max((h.high for h in built.heats), default=1.0)
    conducts = known("heat-conductance")
    # A control that throttles takes up what is more or less.
    is_controlled = state.held < 0.95
    pairs = [(low, 1.0), (high, 1.0), (1.0, conducts.low), (1.0, conducts.high)]
    mean = float(np.clip(state.at_nodes.mean(), *_limits(state)))
    heat_capacity = built.fluid.heat_capacity(mean)
    for given, factor in pairs:
        if is_controlled:
            rows.append(rows[0])
            continue
        found: Warmth = warm(
            built,
            state.plumb,
            state.found.flows,
            work(state),
            heat_capacity,
            state.others,
            start=built.start,
            given=given,
            factor=factor,
            held=state.held,
        )
        rows.append(np.clip(found.nodes, *_limits(state)))
    return np.array(rows)


def _limits(state: Settled) -> tuple[float, float]:
    return state.built.fluid.limits.coldest, state.built.fluid.limits.hottest


def shifted(band: Band, by: float) -> Band:
    """Return a band moved by so much.

    Parameters
    ----------
    band : Band
        A band.
    by : float
        In its unit. [any]

    Returns
    -------
    Band
        Moved.
    """
    return Band(float(band.value + by), float(band.low + by), float(band.high + by))
