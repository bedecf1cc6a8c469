# SPDX-License-Identifier: Apache-2.0
"""Functions that a kind brings: answered by a port, a part in the flow, a trait, or a word.

So the proof covers what nobody typed: a tank without a vent, a pump without a strainer.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from linewright.base.evidence import Grade
from linewright.base.finding import Finding
from linewright.car.kinds import KINDS, Function
from linewright.car.model import Car, Component, Role
from linewright.checks.model import PortProof
from linewright.checks.topology import Topology, kind_role

#: Functions that only a line or a part answers; closing the port leaves the fault.
ONLY_CONNECTED = frozenset({"reference-missing"})


@dataclass(frozen=True, slots=True)
class Answer:
    """How one function of one component stands.

    ``port`` is the port that stands for it, where it has one. ``finding`` is None where
    the function is answered.
    """

    component: str
    function: Function
    proof: PortProof
    finding: Finding | None = None
    port: str | None = None


def answers(car: Car, topology: Topology) -> tuple[Answer, ...]:
    """Ask every component for the functions of its kind.

    Parameters
    ----------
    car : Car
        The car document as read.
    topology : Topology
        The same car as a graph.

    Returns
    -------
    tuple of Answer
        One for each function that applies, in the order of the document.
    """
    return tuple(
        _answer(car, topology, component, function)
        for component in car.components.values()
        if component.kind in KINDS
        for function in KINDS[component.kind].functions
        if _applies(car, topology, component, function)
    )


def _applies(car: Car, topology: Topology, component: Component, function: Function) -> bool:
    if function.medium is not None:
        media = {system.medium for system in car.systems.values()}
        if function.medium not in media:
            return False
    return not function.when or is_so(car, topology, component, function.when)


def is_so(car: Car, topology: Topology, component: Component, trait: str) -> bool:
    """Whether something holds of a component: it says so, or the car does.

    Parameters
    ----------
    car : Car
        The car document as read.
    topology : Topology
        The same car as a graph.
    component : Component
        The component.
    trait : str
        A trait, or the kind whose presence counts. An engine with a turbo or a compressor,
        or one that calls itself boosted, makes everything boosted that does not deny it.

    Returns
    -------
    bool
        The component's own word counts before the car's.
    """
    own = component.traits.get(trait)
    if own is not None:
        return bool(own)
    if trait == "boosted":
        return bool(topology.of_kind("turbo", "compressor")) or any(
            c.traits.get("boosted") is True or c.traits.get("turbo") is True
            for c in car.components.values()
        )
    return bool(topology.of_kind(trait)) or any(
        c.traits.get(trait) is True for c in car.components.values() if c.kind == component.kind
    )


def _answer(car: Car, topology: Topology, component: Component, function: Function) -> Answer:
    name = f"{component.id}.{function.name}"
    own = [p.id for p in component.ports.values() if _stands_for(component, p.name, function)]
    port = next((p for p in own), None)
    system = _system(topology, component, function, port)
    state, by, reason = _state(car, topology, component, function, own)
    proof = PortProof(name, system, state, by, reason, is_function=True)
    if state != "missing":
        return Answer(component.id, function, proof, None, port)
    return Answer(component.id, function, proof, _finding(component, function, system, port), port)


def _stands_for(component: Component, port: str, function: Function) -> bool:
    """Whether a port is one of those that answer a function, by its longest known name."""
    if port in function.ports:
        return True
    like = KINDS[component.kind].port(port)
    return like is not None and like.name in function.ports


def _state(
    car: Car, topology: Topology, component: Component, function: Function, own: list[str]
) -> tuple[str, str, str]:
    closed = car.closed.get(f"{component.id}.{function.name}")
    must_connect = function.code in ONLY_CONNECTED
    if closed is not None and closed.what not in own and not must_connect:
        return _WORDS.get(closed.how, closed.how), "", closed.reason
    for port in own:
        if topology.is_connected(port):
            lines = topology.lines_at.get(port, ())
            return "mated", lines[0].id if lines else topology.screwed[port], ""
        shut = car.closed.get(port)
        if shut is not None and not must_connect:
            return _WORDS.get(shut.how, shut.how), port, shut.reason
    if not must_connect and function.ports:
        # The kind's own port, answered without having been typed.
        for name in function.ports:
            shut = car.closed.get(f"{component.id}.{name}")
            if shut is not None:
                return _WORDS.get(shut.how, shut.how), "", shut.reason
    by = _by_trait(car, topology, component, function) or _by_part(
        car, topology, component, function
    )
    by = by or _by_module(topology, component, function)
    return ("mated", by, "") if by else ("missing", "", "")


_WORDS = {"plug": "plugged", "cap": "capped"}


def _neighbours(car: Car, topology: Topology, component: Component) -> Iterable[Component]:
    systems = set(topology.systems_of[component.id])
    return (
        other for other in car.components.values() if systems & set(topology.systems_of[other.id])
    )


def _by_trait(car: Car, topology: Topology, component: Component, function: Function) -> str | None:
    asked: tuple[Component, ...] = (component,)
    if function.where == "system":
        asked = (component, *_neighbours(car, topology, component))
    for other in asked:
        for trait in function.traits:
            value = other.traits.get(trait)
            if value is None or value is False:
                continue
            return other.id if value is True else f"{other.id}: {value}"
    return None


def _by_part(car: Car, topology: Topology, component: Component, function: Function) -> str | None:
    where, _, place = function.where.partition(" ")
    if where == "system":
        return next(
            (
                c.id
                for c in _neighbours(car, topology, component)
                if c.kind in function.kinds and c is not component
            ),
            None,
        )
    if where in ("before", "after", "on"):
        return _by_flow(topology, component, function, where, place)
    return next(  # a port of a component of that kind
        (
            f"{c.id}.{place}"
            for c in topology.of_kind(where)
            if topology.is_connected(f"{c.id}.{place}")
        ),
        None,
    )


def _by_flow(
    topology: Topology, component: Component, function: Function, where: str, place: str
) -> str | None:
    """The part that stands in the flow at every port in question."""
    ports = [p.id for p in component.ports.values() if _is_asked(component, p.name, where, place)]
    met: list[str] = []
    for port in ports:
        reach = topology.before(port) if where == "before" else topology.after(port)
        part = next((c.id for c in reach.components if c.kind in function.kinds), None)
        if part is None and reach.has_fit(function.fits):
            part = next(line.id for line in reach.lines if _carries(line.ends, function.fits))
        if part is None:
            return None
        met.append(part)
    return met[0] if met else None


def _by_module(topology: Topology, tank: Component, function: Function) -> str | None:
    """The pump module in a tank: its inlet is the pick-up, and its ports serve the tank."""
    modules = topology.of_kind("in-tank fuel pump")
    tanks = topology.of_kind("fuel cell")
    if tank not in tanks:
        return None
    for module in modules:
        named = module.traits.get("tank")
        if named != tank.id and (named is not None or len(tanks) > 1):
            continue
        if function.name == "pick-up":
            return module.id
        if topology.is_connected(f"{module.id}.{function.name}"):
            return f"{module.id}.{function.name}"
    return None


def _carries(ends: Iterable[object], words: tuple[str, ...]) -> bool:
    return any(
        fit.startswith(word)
        for end in ends
        for fit in (*getattr(end, "fit", ()), *getattr(end, "via", ()))
        for word in words
    )


def _is_asked(component: Component, port: str, where: str, place: str) -> bool:
    if place:
        like = KINDS[component.kind].port(port)
        return port == place or (like is not None and like.name == place)
    role = kind_role(component, port)
    return role in ((Role.IN,) if where == "before" else (Role.OUT,))


def _system(
    topology: Topology, component: Component, function: Function, port: str | None
) -> str | None:
    if port is not None:
        return topology.system_of(port)
    if function.medium is not None:
        for system in topology.car.systems.values():
            if system.medium is function.medium:
                return system.id
    return next(iter(topology.systems_of[component.id]), None)


def _finding(
    component: Component, function: Function, system: str | None, port: str | None
) -> Finding:
    about = f"{component.id}.{function.name}"
    if function.code != "missing-function":
        about = port or component.id
        where = function.where.partition(" ")
        if where[0] == "on" and where[2] in component.ports:
            about = f"{component.id}.{where[2]}"
    return Finding(
        code=function.code,
        severity=function.severity,
        about=(about,),
        reason=f"Not answered for {component.id} ({component.kind}): {function.words}.",
        remedy=f"{function.remedy} Or answer it under [closed]: "
        f'"{component.id}.{function.name}" = "none, because ...".'
        if function.code not in ONLY_CONNECTED
        else function.remedy,
        source="common practice",
        grade=Grade.PRACTICE,
        system=system,
    )
