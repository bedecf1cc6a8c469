# SPDX-License-Identifier: Apache-2.0
"""What makes a network impossible to solve, named before it is iterated on."""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from math import inf, isfinite

from linewright.flow.network import (
    Centrifugal,
    Check,
    Displacement,
    Line,
    Link,
    Loss,
    Network,
    Node,
    Orifice,
    Reducing,
    Regulator,
    Relief,
)


class Ill(StrEnum):
    """In what way a network is ill-posed."""

    NAMES = "names"
    NUMBER = "number"
    NO_LOSS = "no loss"
    RISING_CURVE = "rising curve"
    NO_SLIP = "no slip"
    ROLES = "contradictory roles"
    NO_REFERENCE = "no pressure reference"
    DEAD_HEADED = "dead-headed"
    STARVED = "starved"


@dataclass(frozen=True, slots=True)
class NetworkFault:
    """One fault: in what way, the ids it is about, and in words with the way out."""

    kind: Ill
    about: tuple[str, ...]
    text: str


_ONE_WAY = (Relief, Check, Regulator, Reducing, Displacement)


def faults(network: Network) -> tuple[NetworkFault, ...]:
    """Name all that makes a network impossible to solve.

    Parameters
    ----------
    network : Network
        What is to be solved.

    Returns
    -------
    tuple of NetworkFault
        Names and numbers first; only where those are in order the ways through the network.
        Empty for a network that `solve` can solve.

    Examples
    --------
    >>> from linewright.flow.network import Line, State
    >>> water = State(density=998.0, viscosity=1.0e-6)
    >>> lost = Network((Node("A"), Node("B")), (Line("L", "A", "B", 1.0, 0.01),), water)
    >>> print(faults(lost)[0].text)
    A, B: joined to no fixed pressure, so only differences of pressure are known. Open it to ...
    """
    found = [*_names(network), *_numbers(network)]
    if found:
        return tuple(found)
    found += _roles(network)
    lost = list(_lost(network))
    found += lost
    if not lost:
        found += _ways(network)
    return tuple(found)


def _names(network: Network) -> Iterator[NetworkFault]:
    for what, ids in (
        ("node", [n.id for n in network.nodes]),
        ("link", [k.id for k in network.links]),
    ):
        for name, count in Counter(ids).items():
            if count > 1:
                text = f"{name}: {count} {what}s have this id. Give each its own."
                yield NetworkFault(Ill.NAMES, (name,), text)
    nodes = {n.id for n in network.nodes}
    links = {k.id for k in network.links}
    for link in network.links:
        reference = getattr(link, "reference", None)
        for name in (link.a, link.b, *([reference] if reference is not None else [])):
            if name not in nodes:
                text = f"{link.id}: there is no node {name}. Add it, or join another."
                yield NetworkFault(Ill.NAMES, (link.id, name), text)
        if link.a == link.b:
            text = f"{link.id}: both its ends are {link.a}. Join two nodes."
            yield NetworkFault(Ill.NAMES, (link.id,), text)
    for name in network.states:
        if name not in links:
            text = f"{name}: there is no such link to fill."
            yield NetworkFault(Ill.NAMES, (name,), text)


def _number(
    where: str, what: str, value: float, unit: str, least: float, over: bool
) -> Iterator[NetworkFault]:
    if not isfinite(value) or value < least or (over and value == least):
        limit = f"more than {least:g}" if over else f"at least {least:g}"
        if least == -inf:
            limit = "a number"
        text = f"{where}: {what} is {value:g} {unit}".rstrip() + f"; it must be {limit}."
        yield NetworkFault(Ill.NUMBER, (where,), text)


# Numbers of each kind: name, unit, least, and whether it must be more than that.
_LIMITS: dict[type, tuple[tuple[str, str, float, bool], ...]] = {
    Line: (
        ("length", "m", 0.0, True),
        ("bore", "m", 0.0, True),
        ("roughness", "m", 0.0, False),
        ("k", "", 0.0, False),
        ("k_laminar", "", 0.0, False),
        ("arc", "m", 0.0, False),
        ("bend_radius", "m", 0.0, False),
        ("pitch", "m", 0.0, False),
    ),
    Loss: (("viscous", "1/m3", 0.0, False), ("inertial", "1/m4", 0.0, False)),
    Orifice: (
        ("bore", "m", 0.0, True),
        ("coefficient", "", 0.0, True),
        ("ratio", "", 0.0, False),
        ("slow", "", 0.0, False),
    ),
    Centrifugal: (("speed", "", 0.0, False),),
    Displacement: (
        ("displacement", "m3", 0.0, True),
        ("speed", "1/s", 0.0, False),
    ),
    Relief: (("opens", "Pa", 0.0, False), ("rise", "Pa", 0.0, True), ("flow", "m3/s", 0.0, True)),
    Check: (
        ("opens", "Pa", 0.0, False),
        ("viscous", "1/m3", 0.0, False),
        ("inertial", "1/m4", 0.0, False),
    ),
    Regulator: (
        ("holds", "Pa", -inf, False),
        ("rise", "Pa", 0.0, True),
        ("flow", "m3/s", 0.0, True),
        ("viscous", "1/m3", 0.0, False),
        ("inertial", "1/m4", 0.0, False),
        ("reference_pressure", "Pa", 0.0, False),
    ),
}
_LIMITS[Reducing] = _LIMITS[Regulator]


def _numbers(network: Network) -> Iterator[NetworkFault]:
    for node in network.nodes:
        yield from _number(node.id, "height", node.height, "m", -inf, False)
        yield from _number(node.id, "demand", node.demand, "kg/s", -inf, False)
        if node.pressure is not None:
            yield from _number(node.id, "pressure", node.pressure, "Pa", 0.0, False)
    for link in network.links:
        state = network.state(link.id)
        yield from _number(link.id, "density", state.density, "kg/m3", 0.0, True)
        yield from _number(link.id, "viscosity", state.viscosity, "m2/s", 0.0, True)
        for name, unit, least, over in _LIMITS[type(link)]:
            what = name.replace("_", " ")
            yield from _number(link.id, what, getattr(link, name), unit, least, over)
        yield from _laws(link)


def _laws(link: Link) -> Iterator[NetworkFault]:
    if isinstance(link, Line) and 0.0 < link.length < link.arc:
        text = f"{link.id}: {link.arc:g} m of it lie in bends, but it is {link.length:g} m long."
        yield NetworkFault(Ill.NUMBER, (link.id,), text)
    if isinstance(link, Orifice) and link.ratio >= 1.0:
        text = f"{link.id}: the hole is {link.ratio:g} times its pipe; it must be the smaller."
        yield NetworkFault(Ill.NUMBER, (link.id,), text)
    if isinstance(link, Loss | Check | Regulator | Reducing) and not (
        link.viscous or link.inertial
    ):
        text = f"{link.id}: it loses nothing at any flow. Give a drop at a flow, or leave it out."
        yield NetworkFault(Ill.NO_LOSS, (link.id,), text)
    if isinstance(link, Centrifugal):
        shut, first, second = link.curve
        for value in link.curve:
            yield from _number(link.id, "a figure of its curve", value, "", -inf, False)
        if shut < 0.0:
            text = f"{link.id}: its head without flow is {shut:g} m. Turn the pump round."
            yield NetworkFault(Ill.NUMBER, (link.id,), text)
        if first > 0.0 or second > 0.0:
            text = (
                f"{link.id}: its head rises with flow somewhere (a1 = {first:g} s/m2, "
                f"a2 = {second:g} s2/m5), so that one head has two flows. Give points that fall."
            )
            yield NetworkFault(Ill.RISING_CURVE, (link.id,), text)
        elif first == 0.0 and second == 0.0:
            text = f"{link.id}: its head is the same at any flow. Give a second point."
            yield NetworkFault(Ill.RISING_CURVE, (link.id,), text)
    if isinstance(link, Displacement) and not link.slip > 0.0:
        text = (
            f"{link.id}: its slip is {link.slip:g} m3, so it gives all it displaces, or more, at "
            "any pressure. Give a volumetric efficiency under 100 %."
        )
        yield NetworkFault(Ill.NO_SLIP, (link.id,), text)


def _roles(network: Network) -> Iterator[NetworkFault]:
    nodes = {n.id: n for n in network.nodes}
    for node in network.nodes:
        if node.pressure is not None and node.demand:
            text = (
                f"{node.id}: it has a fixed pressure and a demand of {node.demand:g} kg/s. What "
                "flows there follows from the pressure: give one of the two."
            )
            yield NetworkFault(Ill.ROLES, (node.id,), text)
    for link in network.links:
        if not isinstance(link, Regulator | Reducing):
            continue
        held = link.a if isinstance(link, Regulator) else link.b
        if nodes[held].pressure is not None:
            text = f"{link.id}: it holds the pressure at {held}, which is fixed. Take one away."
            yield NetworkFault(Ill.ROLES, (link.id, held), text)
        reference = link.reference
        if reference is None:
            continue
        if nodes[reference].pressure is None:
            text = (
                f"{link.id}: its reference {reference} has no fixed pressure. Refer to a node "
                "that has, or give the pressure as a number."
            )
            yield NetworkFault(Ill.ROLES, (link.id, reference), text)


def _reached(begin: Iterable[str], steps: dict[str, list[str]]) -> set[str]:
    found = set(begin)
    ahead = list(found)
    while ahead:
        for other in steps.get(ahead.pop(), ()):
            if other not in found:
                found.add(other)
                ahead.append(other)
    return found


def _lost(network: Network) -> Iterator[NetworkFault]:
    steps: dict[str, list[str]] = {}
    for link in network.links:
        steps.setdefault(link.a, []).append(link.b)
        steps.setdefault(link.b, []).append(link.a)
    reached = _reached((n.id for n in network.nodes if n.pressure is not None), steps)
    for node in network.nodes:
        if node.id in reached:
            continue
        part = _reached([node.id], steps)
        reached |= part
        names = tuple(n.id for n in network.nodes if n.id in part)
        text = (
            f"{', '.join(names)}: joined to no fixed pressure, so only differences of pressure "
            "are known. Open it to a tank or to the air, or give one pressure."
        )
        yield NetworkFault(Ill.NO_REFERENCE, names, text)


def _ways(network: Network) -> Iterator[NetworkFault]:
    """What must flow, by demand or by a positive pump, but has no way that valves allow.

    A relief or check valve opens to what is pushed at it and to what is drawn from it. A
    back-pressure regulator does not open to a draw, nor a reducing one to a push.
    """
    ahead: dict[str, list[str]] = {}
    back: dict[str, list[str]] = {}
    for link in network.links:
        if not isinstance(link, Regulator):
            ahead.setdefault(link.a, []).append(link.b)
        if not isinstance(link, Reducing):
            back.setdefault(link.b, []).append(link.a)
        if not isinstance(link, _ONE_WAY):
            ahead.setdefault(link.b, []).append(link.a)
            back.setdefault(link.a, []).append(link.b)
    fixed = [n.id for n in network.nodes if n.pressure is not None]
    can_leave = _reached(fixed, back)
    can_come = _reached(fixed, ahead)
    for link in network.links:
        if not isinstance(link, Displacement) or link.speed == 0.0:
            continue
        if link.b not in can_leave:
            text = (
                f"{link.id}: what it pumps into {link.b} has no way out, so its pressure rises "
                "until something bursts. Give it a relief valve or a way back to the tank."
            )
            yield NetworkFault(Ill.DEAD_HEADED, (link.id, link.b), text)
        if link.a not in can_come:
            text = (
                f"{link.id}: nothing can flow to its inlet {link.a} when it draws. Give it a "
                "feed that no back-pressure regulator and no valve the wrong way round closes."
            )
            yield NetworkFault(Ill.STARVED, (link.id, link.a), text)
    for node in network.nodes:
        yield from _drawn(node, can_come, can_leave)


def _drawn(node: Node, can_come: set[str], can_leave: set[str]) -> Iterator[NetworkFault]:
    if node.demand > 0.0 and node.id not in can_come:
        text = (
            f"{node.id}: {node.demand:g} kg/s are drawn, but nothing can flow to it. Give it a "
            "feed that no back-pressure regulator and no valve the wrong way round closes."
        )
        yield NetworkFault(Ill.STARVED, (node.id,), text)
    if node.demand < 0.0 and node.id not in can_leave:
        text = f"{node.id}: {-node.demand:g} kg/s are fed, but have no way out. Give them one."
        yield NetworkFault(Ill.DEAD_HEADED, (node.id,), text)
