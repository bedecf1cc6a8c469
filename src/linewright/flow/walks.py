# SPDX-License-Identifier: Apache-2.0
"""What plots show of a solved system: pressures from pump to pump, and pumps on their circuits."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linewright.flow import laws
from linewright.flow.bands import Study, spread
from linewright.flow.limiting import way_to
from linewright.flow.model import Band, PumpCurve, Walk, WalkStep
from linewright.flow.network import Centrifugal, Displacement
from linewright.flow.solve import Variants, solve_many
from linewright.flow.spread import known

Values = NDArray[np.float64]

#: Speeds at which a pump is run to find what its circuit takes, over its own. [-]
_SPEEDS = np.linspace(0.1, 1.3, 13)

#: A pump's own curve is drawn up to this many times the rise that it gives. [-]
_HIGHEST = 2.0

#: Links of a component that are only the way in or out of it.
_WAYS = ("through", "entry", "exit")

#: Fewer links than this are no circuit worth a plot.
_FEWEST = 3


@dataclass(frozen=True, slots=True)
class _Pump:
    """A pump: its link, its place among the links, and the component that it is in."""

    link: Centrifugal | Displacement
    place: int
    component: str


def _pumps(study: Study) -> Iterator[_Pump]:
    """Pumps that push fluid without air, and do."""
    built = study.state.built
    for place, link in enumerate(built.network.links):
        if not isinstance(link, Centrifugal | Displacement) or "scavenge" in link.id:
            continue
        if study.flows[0, place] > 0.0:
            yield _Pump(link, place, built.where.get(link.id, (link.id,))[0])


def _step(study: Study, link: str, node: str) -> WalkStep:
    built = study.state.built
    run = built.runs.get(link)
    pressure = study.pressure(node)
    if run is not None:
        size = f"{run.size} mm" if run.size[:1].isdigit() else run.size
        made = "hose" if "tube" not in run.hose and "pipe" not in run.hose else run.hose.split()[0]
        return WalkStep(f"{made} {size}", (link,), pressure)
    what = link.partition(":")[2].partition(":")[0].replace("-", " ") or "part"
    what = "through" if what == "way" else what
    return WalkStep(what, (built.where.get(link, (link,))[0],), pressure)


def _joined(steps: Sequence[WalkStep]) -> tuple[WalkStep, ...]:
    """Steps of one component after each other as one, under the name of what it does."""
    found: list[WalkStep] = []
    for step in steps:
        if found and found[-1].where == step.where and len(found) > 1:
            last = found[-1]
            what = step.what if last.what in _WAYS else last.what
            found[-1] = WalkStep(what, last.where, step.pressure)
        else:
            found.append(step)
    return tuple(found)


def _nodes(study: Study, start: str, links: Sequence[str]) -> list[str]:
    """Nodes that a chain of links comes to, one after the other."""
    at, found = start, []
    by_id = {link.id: link for link in study.state.built.network.links}
    for name in links:
        link = by_id[name]
        at = link.b if link.a == at else link.a
        found.append(at)
    return found


def walks(study: Study) -> tuple[Walk, ...]:
    """Follow the pressure from each pump on, and on to its own inlet.

    Parameters
    ----------
    study : Study
        Solved with its doubts.

    Returns
    -------
    tuple of Walk
        One for each pump whose circuit has parts; where the fluid comes to a tank or another
        pump on its way, the walk goes on where the pump draws from.
    """
    found = []
    for pump in _pumps(study):
        outlet, inlet = pump.link.b, pump.link.a
        steps = [WalkStep("pump outlet", (pump.component,), study.pressure(outlet))]
        down = way_to(study, outlet, downstream=True)
        reached = _nodes(study, outlet, down)
        for name, node in zip(down, reached, strict=True):
            steps.append(_step(study, name, node))
            if node == inlet:
                break
        if inlet not in reached:
            up = way_to(study, inlet)
            before = [inlet, *_nodes(study, inlet, up)]
            source = before[-1]
            if up and (not reached or source != reached[-1]):
                owner = study.state.built.pools.get(source, source.partition(".")[0])
                steps.append(WalkStep("from", (owner,), study.pressure(source)))
            for name, node in zip(reversed(up), reversed(before[:-1]), strict=True):
                steps.append(_step(study, name, node))
        if len(steps) > _FEWEST:
            found.append(Walk(pump.component, _joined(steps)))
    return tuple(found)


def pump_curves(study: Study) -> tuple[PumpCurve, ...]:
    """Draw what each pump gives over what its circuit takes.

    Parameters
    ----------
    study : Study
        Solved with its doubts.

    Returns
    -------
    tuple of PumpCurve
        One for each pump that runs; a valve beside it counts as its circuit.

    Notes
    -----
    What the circuit takes is found by running the pump at other speeds, all in one batch, with
    viscosity and losses at both ends of what is known of them.
    """
    return tuple(curve for pump in _pumps(study) if (curve := _curve(study, pump)) is not None)


def _curve(study: Study, pump: _Pump) -> PumpCurve | None:
    packed = study.state.packed
    density = float(packed.density[pump.place])
    a, b = packed.node[pump.link.a], packed.node[pump.link.b]
    band_of = study.flow(pump.link.id)
    flow = Band(band_of.value / density, band_of.low / density, band_of.high / density)
    rises_of = study.pressures[:, b] - study.pressures[:, a]
    rise = spread(rises_of)
    taken = [_taken(study, pump, name, side) for name, side in _DOUBTS]
    if taken[0] is None or len(taken[0][0]) < _FEWEST:
        return None
    base_flows, _ = taken[0]
    own_flows, _ = _own(study, pump, rise.value)
    most = 1.25 * max(flow.value, flow.high)
    xs = np.unique(np.concatenate([base_flows / density, own_flows / density]))
    xs = xs[(xs >= 0.0) & (xs <= most)]
    takes = [np.interp(xs, one[0] / density, one[1]) if one is not None else None for one in taken]
    middle = takes[0]
    assert middle is not None
    apart = [one - middle for one in takes[1:] if one is not None]
    down = np.sqrt(sum((np.minimum(d, 0.0) ** 2 for d in apart), np.zeros_like(xs)))
    up = np.sqrt(sum((np.maximum(d, 0.0) ** 2 for d in apart), np.zeros_like(xs)))
    gives = [_gives(study, pump, float(x) * density) for x in xs]
    return PumpCurve(
        pump.component,
        tuple(map(float, xs)),
        tuple(gives),
        tuple(map(float, middle)),
        flow,
        rise,
        tuple(map(float, middle - down)),
        tuple(map(float, middle + up)),
    )


_DOUBTS = (("", 0), ("viscosity", 0), ("viscosity", 1), ("loss", 0), ("loss", 1))


def _taken(study: Study, pump: _Pump, doubt: str, side: int) -> tuple[Values, Values] | None:
    """Flows [kg/s] and what the circuit takes at them [Pa], by the pump at other speeds."""
    packed = study.state.packed
    count = len(_SPEEDS)
    speed = np.repeat(packed.speed[None], count, axis=0)
    speed[:, pump.place] *= _SPEEDS
    viscosity = np.repeat(packed.viscosity[None], count, axis=0)
    numbers = np.repeat(packed.numbers[None], count, axis=0)
    if doubt:
        bounds = known(doubt)
        factor = bounds.high if side else bounds.low
        if doubt == "viscosity":
            viscosity *= factor
        else:
            kinds = packed.topology.kinds
            numbers[:, kinds <= laws.LINE_CONVOLUTED, 1:3] *= factor
            numbers[:, kinds == laws.LOSS, :2] *= factor
    found = solve_many(
        packed, Variants(speed=speed, viscosity=viscosity, numbers=numbers), study.state.found
    )
    good = found.iterations >= 0
    a, b = packed.node[pump.link.a], packed.node[pump.link.b]
    flows = found.flows[good, pump.place]
    rises = found.pressures[good, b] - found.pressures[good, a]
    order = np.argsort(flows)
    return (flows[order], rises[order]) if good.sum() >= _FEWEST else None


def _row(study: Study, pump: _Pump) -> tuple[int, Values]:
    packed, i = study.state.packed, pump.place
    row = np.zeros(9)
    kind = int(packed.topology.kinds[i])
    laws.constants(
        kind,
        packed.numbers[i],
        0.0,
        1.0,
        float(packed.speed[i]),
        float(packed.density[i]),
        float(packed.viscosity[i]),
        0.0,
        row,
    )
    return kind, row


def _gives(study: Study, pump: _Pump, flow: float) -> float:
    """Rise that a pump gives at a flow. [Pa]"""
    kind, row = _row(study, pump)
    return -float(laws.smooth_drop(kind, row, flow)[0])


def _own(study: Study, pump: _Pump, rise: float) -> tuple[Values, Values]:
    """Points of a pump's own curve: flows [kg/s] at rises up to twice the one it gives [Pa]."""
    kind, row = _row(study, pump)
    start = float(study.flows[0, pump.place])
    rises = np.linspace(0.0, _HIGHEST * max(rise, 1.0), 9)
    flows = [float(laws.smooth_flow(kind, row, -float(r), start)[0]) for r in rises]
    return np.array(flows), rises
