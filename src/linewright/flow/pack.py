# SPDX-License-Identifier: Apache-2.0
"""A network as arrays, with the order of elimination, made once and solved many times."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from linewright.base.errors import FlowError
from linewright.flow import laws
from linewright.flow.elimination import order
from linewright.flow.faults import faults
from linewright.flow.iterate import Topology
from linewright.flow.network import (
    Centrifugal,
    Check,
    Displacement,
    FrictionLaw,
    Line,
    Link,
    Loss,
    Network,
    Orifice,
    Reducing,
    Regulator,
    Relief,
)

#: Numbers of a link beside length, bore, speed and fluid.
NUMBERS = 6


@dataclass(frozen=True, slots=True)
class Packed:
    """A network as arrays: n links, v nodes.

    ``node`` and ``link`` find the place of an id. Of shape (n,): ``length``, ``bore`` [m], nan
    for links without; ``speed`` [- or turns/s]; ``density`` [kg/m3]; ``viscosity`` [m2/s];
    ``numbers``, shape (n, 6), the other numbers of each law. Of shape (v,): ``height`` [m],
    ``pressure`` [Pa], nan where it is sought, and ``demand`` [kg/s].
    """

    network: Network
    node: Mapping[str, int]
    link: Mapping[str, int]
    topology: Topology
    numbers: np.ndarray
    reference: np.ndarray
    length: np.ndarray
    bore: np.ndarray
    speed: np.ndarray
    density: np.ndarray
    viscosity: np.ndarray
    height: np.ndarray
    pressure: np.ndarray
    demand: np.ndarray


def _kind(link: Link) -> int:
    if isinstance(link, Line):
        if link.pitch:
            return laws.LINE_CONVOLUTED
        return laws.LINE if link.law is FrictionLaw.CHURCHILL else laws.LINE_GENERAL
    return {
        Loss: laws.LOSS,
        Orifice: laws.ORIFICE,
        Centrifugal: laws.CENTRIFUGAL,
        Displacement: laws.DISPLACEMENT,
        Relief: laws.ONE_WAY,
        Check: laws.ONE_WAY,
        Regulator: laws.BACK_PRESSURE,
        Reducing: laws.REDUCING,
    }[type(link)]


def _numbers(link: Link) -> tuple[float, ...]:
    """The numbers of a law, in the order that `laws.constants` takes them."""
    match link:
        case Line():
            bends = (link.arc, link.bend_radius, link.pitch)
            return (link.roughness, link.k, link.k_laminar, *bends)
        case Loss():
            return (link.viscous, link.inertial)
        case Orifice():
            return (link.coefficient, link.ratio, link.slow)
        case Centrifugal():
            return link.curve
        case Displacement():
            return (link.displacement, link.slip)
        case Relief():
            return (link.opens, link.rise, link.flow)
        case Check():
            return (link.opens, 0.0, 0.0, link.viscous, link.inertial)
        case Regulator() | Reducing():
            return (0.0, link.rise, link.flow, link.viscous, link.inertial, link.holds)


def pack(network: Network) -> Packed:
    """Turn a network into arrays, and choose the order of elimination.

    Parameters
    ----------
    network : Network
        Nodes, links, and what fills them.

    Returns
    -------
    Packed
        What `solve` and `solve_many` take, as often as wanted.

    Raises
    ------
    FlowError
        If the network cannot be solved; the message has every fault, a line each.

    See Also
    --------
    linewright.flow.faults.faults : The same faults, as values.
    """
    found = faults(network)
    if found:
        raise FlowError("\n".join(fault.text for fault in found), found)
    node = {n.id: i for i, n in enumerate(network.nodes)}
    link = {k.id: i for i, k in enumerate(network.links)}
    free = [i for i, n in enumerate(network.nodes) if n.pressure is None]
    ends = [(node[k.a], node[k.b]) for k in network.links]
    plan = order(len(node), free, ends)
    turns = [(int(plan.place[a]), int(plan.place[b])) for a, b in ends]
    kinds = [_kind(k) for k in network.links]
    numbers = np.zeros((len(link), NUMBERS))
    for i, one in enumerate(network.links):
        values = _numbers(one)
        numbers[i, : len(values)] = values
    references = [getattr(k, "reference", None) for k in network.links]
    states = [network.state(k.id) for k in network.links]
    by_turn = np.empty(len(free), dtype=np.int64)
    for i in free:
        by_turn[plan.place[i]] = i
    topology = Topology(
        kinds=np.array(kinds, dtype=np.int64),
        first=np.array([a for a, _ in ends], dtype=np.int64),
        second=np.array([b for _, b in ends], dtype=np.int64),
        first_turn=np.array([a for a, _ in turns], dtype=np.int64),
        second_turn=np.array([b for _, b in turns], dtype=np.int64),
        entries=np.array(
            [plan.entry(a, b) if max(a, b) < plan.size else -1 for a, b in turns], dtype=np.int64
        ),
        references=np.array([-1 if r is None else node[r] for r in references], dtype=np.int64),
        free=by_turn,
        starts=plan.starts,
        rows=plan.rows,
        targets=plan.targets,
        symmetric=not {laws.BACK_PRESSURE, laws.REDUCING} & set(kinds),
    )
    return Packed(
        network=network,
        node=node,
        link=link,
        topology=topology,
        numbers=numbers,
        reference=np.array([getattr(k, "reference_pressure", 0.0) for k in network.links]),
        length=np.array([getattr(k, "length", np.nan) for k in network.links]),
        bore=np.array([getattr(k, "bore", np.nan) for k in network.links]),
        speed=np.array([getattr(k, "speed", np.nan) for k in network.links]),
        density=np.array([s.density for s in states]),
        viscosity=np.array([s.viscosity for s in states]),
        height=np.array([n.height for n in network.nodes], dtype=float),
        pressure=np.array([np.nan if n.pressure is None else n.pressure for n in network.nodes]),
        demand=np.array([n.demand for n in network.nodes], dtype=float),
    )
