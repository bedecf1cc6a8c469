# SPDX-License-Identifier: Apache-2.0
"""Fuel: parallel pumps, a pump that pumps against nothing, clamps, the lowest point."""

from collections.abc import Iterator

from linewright.base.finding import Finding
from linewright.base.ids import natural_key
from linewright.car.model import Car, Component, Construction, Medium, Role
from linewright.checks.raising import raised
from linewright.checks.topology import STORES, Topology, kind_role

_POSITIVE = ("fuel pump", "in-tank fuel pump")
_RELIEFS = ("fuel regulator", "carburettor")


def check(car: Car, topology: Topology) -> Iterator[Finding]:
    """Look at the fuel systems as graphs.

    Parameters
    ----------
    car : Car
        The car document as read.
    topology : Topology
        The same car as a graph.

    Yields
    ------
    Finding
        ``no-check-valves-parallel``, ``dead-head``, ``clamp-on-fuel``, ``drain-lowest``.
    """
    yield from _parallel(topology)
    yield from _dead_headed(topology)
    yield from _clamped(car)
    yield from _drains(car, topology)


def _valve(topology: Topology, pump: Component) -> bool:
    if pump.traits.get("check-valve"):
        return True
    reach = topology.after(f"{pump.id}.out")
    near = [line for line in reach.lines if line.from_port == f"{pump.id}.out"]
    if any(fit.startswith("check valve") for ln in near for end in ln.ends for fit in end.fit):
        return True
    return bool(reach.components) and reach.components[0].kind == "check valve"


def _parallel(topology: Topology) -> Iterator[Finding]:
    """Pumps whose outlets meet, so that one can push fuel back through another."""
    pumps = topology.of_kind(*_POSITIVE, "lift pump")
    met = {
        p.id: {
            c.id
            for c in topology.after(f"{p.id}.out").components
            if c.kind not in STORES and c.kind != "surge pot"
        }
        for p in pumps
    }
    for number, first in enumerate(pumps):
        for second in pumps[number + 1 :]:
            shared = met[first.id] & met[second.id]
            if second.id in met[first.id] or first.id in met[second.id] or not shared:
                continue
            lacking = [p.id for p in (first, second) if not _valve(topology, p)]
            if lacking:
                yield raised(
                    "no-check-valves-parallel",
                    (first.id, second.id),
                    f"{first.id} and {second.id} deliver into one line, and "
                    f"{' and '.join(lacking)} can be pushed backwards while the other runs.",
                    "Fit a check valve right after each pump.",
                    system=topology.system_of(f"{first.id}.out"),
                )


def _dead_headed(topology: Topology) -> Iterator[Finding]:
    """Positive pumps from which nothing leads back or lets off pressure."""
    for pump in topology.of_kind(*_POSITIVE):
        out = f"{pump.id}.out"
        if not topology.is_connected(out):
            continue
        reach = topology.after(out)
        ends_in_tank = any(c.kind in ("fuel cell", "surge pot") for c in reach.components)
        has_relief = reach.has(_RELIEFS) or any(c.traits.get("relief") for c in reach.components)
        if ends_in_tank or has_relief or pump.traits.get("relief"):
            continue
        yield raised(
            "dead-head",
            (pump.id,),
            f"{pump.id} has neither a return nor a relief after it: with the injectors shut its "
            "pressure has nowhere to go.",
            "Lead the rail through a regulator and a return to the cell, or say "
            '`relief = "in the pump"` on the component that has one.',
            system=topology.system_of(out),
        )


def _clamped(car: Car) -> Iterator[Finding]:
    for line in car.lines.values():
        if line.medium is not Medium.FUEL or line.construction is not Construction.CLAMPED:
            continue
        if line.service != "pressure":
            continue
        yield raised(
            "clamp-on-fuel",
            (line.id,),
            f"{line.id} carries fuel under pressure in clamped hose: worm-drive clamps cut it and "
            "loosen.",
            "Take hose with screwed ends; else full-wrap fuel clamps on a bead or barb, never worm "
            "drive. Look the rule up in the current book of the body concerned.",
            system=line.system,
        )


def _drains(car: Car, topology: Topology) -> Iterator[Finding]:
    """Plugs to be opened with care: what runs out is the whole tank."""
    for cell in topology.of_kind("fuel cell"):
        for port in sorted(cell.ports.values(), key=lambda p: natural_key(p.id)):
            closed = car.closed.get(port.id)
            if kind_role(cell, port.name) is not Role.EMPTY or closed is None:
                continue
            if closed.how in ("plug", "cap"):
                yield raised(
                    "drain-lowest",
                    (port.id,),
                    f"The plug at {port.id} is the lowest point: behind it stands the whole cell.",
                    "Open it with the tank empty, cold, in the open air, over a bonded can.",
                    system=topology.system_of(port.id),
                )
