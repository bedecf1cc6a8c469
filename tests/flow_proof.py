# SPDX-License-Identifier: Apache-2.0
"""Proof of a solved flow network from its own statement, by formulas written out anew.

Nothing here comes from the solver but the values to be proved.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import log, pi

from linewright.flow.network import (
    Centrifugal,
    Check,
    Displacement,
    FrictionLaw,
    Line,
    Link,
    Loss,
    Network,
    Node,
    Orifice,
    Reducing,
    Regulator,
    Relief,
    State,
)

_G = 9.80665
# What a shut valve may let by: a billionth of its own flow, for each bar.
_LEAK = 1.001e-9


@dataclass(frozen=True, slots=True)
class Proof:
    """How far a solution is from the truth.

    ``balance`` is the most that a node lacks, over the largest flow (0.1 g/s at rest), ``drop``
    the most that a drop is wrong over 1 bar and the pressures at its ends, ``energy`` the sum of
    all powers over that of their sizes (of 0.1 g/s at 1 bar at rest), ``valves`` what is wrong with them, in words.
    """

    balance: float
    drop: float
    energy: float
    valves: tuple[str, ...]


def friction(law: FrictionLaw, reynolds: float, rough: float) -> float:
    """Darcy factor by Churchill (1977), or by 64/Re, Dunlop (1991) and Swamee-Jain."""
    if law is FrictionLaw.CHURCHILL:
        if reynolds < 100.0:
            return 64.0 / reynolds
        a = (2.457 * log(1.0 / ((7.0 / reynolds) ** 0.9 + 0.27 * rough))) ** 16
        b = (37530.0 / reynolds) ** 16
        return 8.0 * ((8.0 / reynolds) ** 12 + (a + b) ** -1.5) ** (1.0 / 12.0)
    if reynolds < 2000.0:
        return 64.0 / reynolds
    if reynolds > 4000.0:
        return (-0.8685889638 * log(rough / 3.7 + 5.74 / reynolds**0.9)) ** -2
    y2 = rough / 3.7 + 5.74 / 4000.0**0.9
    y3 = -0.8685889638 * log(y2)
    fa = y3**-2
    fb = fa * (2.0 - 0.00514215 / (y2 * y3))
    r = reynolds / 2000.0
    cubic = (
        0.128 - 17.0 * fa + 2.5 * fb,
        -0.128 + 13.0 * fa - 2.0 * fb,
        0.032 - 3.0 * fa + 0.5 * fb,
    )
    return 7.0 * fa - fb + r * (cubic[0] + r * (cubic[1] + r * cubic[2]))


def _two_terms(viscous: float, inertial: float, fill: State, q: float) -> float:
    return fill.density * (viscous * fill.viscosity + 0.5 * inertial * abs(q)) * q


def law_drop(link: Link, fill: State, flow: float) -> float:
    """Drop from a to b of a link that is no valve, at a flow. [Pa]"""
    q = flow / fill.density
    match link:
        case Line():
            if flow == 0.0:
                return 0.0
            assert not link.arc
            assert not link.pitch
            speed = abs(q) / (0.25 * pi * link.bore**2)
            reynolds = speed * link.bore / fill.viscosity
            factor = friction(link.law, reynolds, link.roughness / link.bore)
            heads = factor * link.length / link.bore + link.k + link.k_laminar / reynolds
            return (1.0 if flow > 0.0 else -1.0) * heads * 0.5 * fill.density * speed**2
        case Loss():
            return _two_terms(link.viscous, link.inertial, fill, q)
        case Orifice():
            if flow == 0.0:
                return 0.0
            area = 0.25 * pi * link.bore**2
            reynolds = abs(q) / area * link.bore / fill.viscosity
            passes = link.coefficient / (1.0 + link.slow / reynolds**0.5) * area
            beside = 1.0 - link.ratio**4
            return 0.5 * fill.density * beside * q * abs(q) / passes**2
        case Centrifugal():
            a0, a1, a2 = link.curve
            n = link.speed
            return -fill.density * _G * (a0 * n * n + a1 * n * q + a2 * q * abs(q))
        case Displacement():
            lost = link.displacement * link.speed - q
            return -lost * fill.density * fill.viscosity / link.slip
    raise AssertionError(link)


def _full_flow(link: Link, fill: State) -> float:
    """Flow of a valve in kg/s: what it is given for, or that at 1 bar."""
    if isinstance(link, Relief | Regulator | Reducing):
        return link.flow * fill.density
    assert isinstance(link, Check)
    low, high = 0.0, 1e6
    for _ in range(200):
        middle = 0.5 * (low + high)
        if _two_terms(link.viscous, link.inertial, fill, middle / fill.density) > 1e5:
            high = middle
        else:
            low = middle
    return low


def _valve(
    link: Link,
    fill: State,
    flow: float,
    before: float,
    after: float,
    drop: float,
    against: float,
    speck: float,
) -> str:
    """What is wrong with a valve, if anything.

    A flow of a ``speck`` is none: the solver need not tell it from a leak.
    """
    near = 1e-6 * (1e5 + abs(before) + abs(after))
    leak = _LEAK * _full_flow(link, fill) * abs(drop) / 1e5 + speck
    is_shut = abs(flow) <= leak
    if flow < -leak:
        return f"{link.id} lets {-flow:g} kg/s back"
    q = flow / fill.density
    if isinstance(link, Relief):
        wide = link.opens + link.rise * q / link.flow
    elif isinstance(link, Check):
        wide = link.opens + _two_terms(link.viscous, link.inertial, fill, q)
    else:
        assert isinstance(link, Regulator | Reducing)
        wide = _two_terms(link.viscous, link.inertial, fill, q)
    if isinstance(link, Relief | Check):
        if is_shut:
            return f"{link.id} is shut at {drop:g} Pa" if drop > link.opens + near else ""
        return f"{link.id} is open at {drop:g}, not {wide:g} Pa" if abs(wide - drop) > near else ""
    if isinstance(link, Regulator):
        over = before - against - link.holds
    else:
        over = against + link.holds - after
    holds = link.rise * q / link.flow
    if is_shut:
        wrong = min(over, drop) > near
        return f"{link.id} is shut at {drop:g} and {over:g} Pa" if wrong else ""
    # It throttles, or is wide open: of the two laws the one that lets less by is met.
    if abs(over - holds) <= near and drop >= wide - near:
        return ""
    if abs(drop - wide) <= near and over >= holds - near:
        return ""
    return f"{link.id} passes {flow:g} kg/s at {drop:g} and {over:g} Pa"


def prove(network: Network, flows: Mapping[str, float], pressures: Mapping[str, float]) -> Proof:
    """Hold a solution against the statement of its network."""
    nodes: dict[str, Node] = {n.id: n for n in network.nodes}
    lacks = {n.id: -n.demand for n in network.nodes}
    wrong: list[str] = []
    worst = power = powers = 0.0
    largest = max((abs(f) for f in flows.values()), default=0.0)
    speck = 1e-10 * largest + 1e-12
    for link in network.links:
        fill, flow = network.state(link.id), flows[link.id]
        before, after = pressures[link.a], pressures[link.b]
        static = fill.density * _G * (nodes[link.a].height - nodes[link.b].height)
        drop = before - after + static
        lacks[link.a] -= flow
        lacks[link.b] += flow
        taken = drop
        if isinstance(link, Relief | Check | Regulator | Reducing):
            reference = getattr(link, "reference", None)
            against = (
                pressures[reference] if reference else getattr(link, "reference_pressure", 0.0)
            )
            said = _valve(link, fill, flow, before, after, drop, against, speck)
            wrong += [said] if said else []
        else:
            taken = law_drop(link, fill, flow)
            worst = max(worst, abs(taken - drop) / (1e5 + abs(before) + abs(after)))
        # What the link takes, less what height gives: made up by the nodes below.
        power += flow * (taken - static)
        powers += abs(flow * taken) + abs(flow * static)
    for node in network.nodes:
        # A fixed node gives what its links carry off, another what is fed to it.
        given = -lacks[node.id] if node.pressure is not None else -node.demand
        power -= pressures[node.id] * given
        powers += abs(pressures[node.id] * given)
        if node.pressure is not None:
            assert pressures[node.id] == node.pressure
    free = [abs(lacks[n.id]) for n in network.nodes if n.pressure is None]
    return Proof(
        balance=max(free, default=0.0) / max(largest, 1e-4),
        drop=worst,
        energy=abs(power) / max(powers, 10.0),
        valves=tuple(wrong),
    )
