# SPDX-License-Identifier: Apache-2.0
"""Filters: on the right side of the pump, not too fine before it, the right way round."""

from collections.abc import Iterator

from linewright.base.finding import Finding
from linewright.base.ids import natural_key
from linewright.car.model import Car, Component, Line, Role
from linewright.checks.raising import raised
from linewright.checks.topology import Topology, kind_role
from linewright.joints.offered import setting

_PUMPS = ("fuel pump", "lift pump", "dry-sump pump")
_FILTERS = ("fuel strainer", "fuel filter", "scavenge screen", "inline oil filter")
_OIL_FILTERS = ("remote filter head", "inline oil filter", "filter canister")

#: Lines that carry a signal or breathe both ways: neither end is up or down stream.
_STILL = ("reference", "vent")


def check(car: Car, topology: Topology) -> Iterator[Finding]:
    """Look at filters and at the way things face in their lines.

    Parameters
    ----------
    car : Car
        The car document as read.
    topology : Topology
        The same car as a graph.

    Yields
    ------
    Finding
        ``filter-too-fine``, ``no-filter``, ``flow-reversed``.
    """
    yield from _too_fine(car, topology)
    yield from _unfiltered(car, topology)
    yield from _reversed(car)


def _too_fine(car: Car, topology: Topology) -> Iterator[Finding]:
    """Filters before a pump that are finer than a pump can draw through."""
    limit = setting(car, "suction-filter")
    for pump in topology.of_kind(*_PUMPS):
        for port in pump.ports.values():
            if kind_role(pump, port.name) is not Role.IN:
                continue
            for part in _drawn_through(topology, port.id):
                micron = part.traits.get("micron")
                if part.kind not in _FILTERS or not isinstance(micron, int | float):
                    continue
                if micron * 1e-6 >= limit.value * (1 - 1e-9):
                    continue
                shown = f"{limit.value * 1e6:.0f} µm"
                yield raised(
                    "filter-too-fine",
                    (part.id, pump.id),
                    f"{part.id} ({micron:g} µm) stands before {pump.id}: a filter finer than "
                    f"{shown} starves a pump that has to draw through it.",
                    f"Put a strainer of {shown} or coarser before {pump.id} and the fine filter "
                    "after it.",
                    system=topology.system_of(port.id),
                    value=f"{micron:g} µm",
                    limit=shown,
                    measure=limit.value * 1e6 - float(micron),
                    printed=float(micron) * 1e-6,
                    is_less_worse=True,
                    grade=limit.grade,
                )


def _drawn_through(topology: Topology, port: str) -> tuple[Component, ...]:
    """What stands between a pump and the tank or pot that it draws from."""
    met: list[Component] = []
    for part in topology.before(port).components:
        if part.kind in _PUMPS:
            return ()  # another pump pushes: nothing is drawn through
        if part.kind == "surge pot":
            break
        met.append(part)
    return tuple(met)


def _unfiltered(car: Car, topology: Topology) -> Iterator[Finding]:
    """Pumps whose fluid meets no fine filter."""
    for pump in topology.of_kind("dry-sump pump"):
        systems = set(topology.systems_of[pump.id])
        if any(systems & set(topology.systems_of[c.id]) for c in topology.of_kind(*_OIL_FILTERS)):
            continue
        if f"{pump.id}.filter" in car.closed or pump.traits.get("filter"):
            continue
        yield _no_filter(topology, pump, "the bearings", "an oil filter")
    if topology.of_kind("fuel rail"):
        return  # the rail asks for itself
    for pump in topology.of_kind("fuel pump", "in-tank fuel pump"):
        out = f"{pump.id}.out"
        if not topology.after(out).has(("fuel filter",)):
            is_carburetted = bool(topology.of_kind("carburettor"))
            what = (
                "the carburettor's jets and needle" if is_carburetted else "the injectors or jets"
            )
            fit = "a fuel filter" if is_carburetted else "a filter of about 10 µm"
            yield _no_filter(topology, pump, what, fit)


def _no_filter(topology: Topology, pump: Component, what: str, remedy: str) -> Finding:
    return raised(
        "no-filter",
        (pump.id,),
        f"Between {pump.id} and {what} there is no fine filter.",
        f"Fit {remedy} after {pump.id}.",
        system=next(iter(topology.systems_of[pump.id]), None),
    )


def _reversed(car: Car) -> Iterator[Finding]:
    """Components that their lines run through backwards."""
    wrong: dict[str, list[tuple[Line, str]]] = {}
    for line in car.lines.values():
        if line.service in _STILL:
            continue
        for port_id, is_entry in ((line.from_port, False), (line.to_port, True)):
            port = car.port(port_id)
            if port is None:
                continue
            role = kind_role(car.components[port.component], port.name)
            is_inlet = role in (Role.IN, Role.RETURN)
            is_outlet = role in (Role.OUT, Role.DRAIN, Role.VENT)
            if (is_entry and is_outlet) or (not is_entry and is_inlet):
                wrong.setdefault(port.component, []).append((line, port.name))
    for name in sorted(wrong, key=natural_key):
        component = car.components[name]
        lines = tuple(sorted({line.id for line, _ in wrong[name]}, key=natural_key))
        first, where = wrong[name][0]
        way = "enters at" if first.to_port == f"{name}.{where}" else "leaves by"
        yield raised(
            "flow-reversed",
            (name, *lines),
            f"{first.id} {way} {name}.{where}, which is marked the other way: {name} "
            f"({component.name or component.kind}) is run through backwards.",
            f"Swap the lines at {name}, or turn it round; if the line is only typed the wrong "
            "way round, swap its `from` and `to`.",
            system=first.system,
            source="component marking: arrow or IN and OUT",
        )
