# SPDX-License-Identifier: Apache-2.0
"""Panels: a bulkhead's grip against what it has to hold, a hole for every pass."""

from collections.abc import Iterator

from linewright.base.finding import Finding
from linewright.car.model import Car, Component
from linewright.checks.raising import raised
from linewright.checks.topology import Topology
from linewright.joints.offered import setting
from linewright.takeoff.model import Takeoff


def check(car: Car, topology: Topology, takeoff: Takeoff) -> Iterator[Finding]:
    """Look at every pass through a panel.

    Parameters
    ----------
    car : Car
        The car document as read.
    topology : Topology
        The same car as a graph.
    takeoff : Takeoff
        The hole list.

    Yields
    ------
    Finding
        ``grip-exceeded``, ``hole-missing``, ``panel-unknown``.
    """
    bulkheads = topology.of_kind("bulkhead")
    for bulkhead in bulkheads:
        if bulkhead.panel is None:
            yield _homeless(topology, bulkhead)
            continue
        yield from _grip(car, bulkhead.id, bulkhead.panel, _system(topology, bulkhead))
    for line in car.lines.values():
        for panel in line.passes:
            yield from _grip(car, line.id, panel, line.system)
    yield from _holes(car, topology, takeoff)


def _grip(car: Car, who: str, panel_id: str, system: str | None) -> Iterator[Finding]:
    panel = car.panels.get(panel_id)
    if panel is None:
        return
    limit = setting(car, "bulkhead-grip")
    if panel.thickness.value <= limit.value:
        return
    thick, most = f"{panel.thickness.value * 1000:g} mm", f"{limit.value * 1000:.0f} mm"
    yield raised(
        "grip-exceeded",
        (who, panel_id),
        f"{who} has to clamp {panel_id}, {thick} thick; a bulkhead fitting grips about {most} "
        "of panel, doubler and washers together.",
        "Thin the place down with a plate of its own, or pass it with a tube and a seal; measure "
        "the grip of the fitting in your hand.",
        system=system,
        value=thick,
        limit=most,
        measure=panel.thickness.value,
        grade=limit.grade,
    )


def _homeless(topology: Topology, bulkhead: Component) -> Finding:
    return raised(
        "panel-unknown",
        (bulkhead.id,),
        f"Which panel {bulkhead.id} sits in is not said, so its hole and its grip are not known.",
        f'Say `panel = "..."` at {bulkhead.id}, and give the panel its thickness under [panels].',
        system=_system(topology, bulkhead),
    )


def _holes(car: Car, topology: Topology, takeoff: Takeoff) -> Iterator[Finding]:
    """Every pass has a row of the hole list that names it."""
    listed = {i for hole in takeoff.holes for i in (hole.id, *hole.because)}
    passing = [(c.id, c.panel, _system(topology, c)) for c in topology.of_kind("bulkhead")]
    passing += [(line.id, p, line.system) for line in car.lines.values() for p in line.passes]
    for who, panel, system in passing:
        if panel is None or any(i == who or i.startswith(f"{who}.") for i in listed):
            continue
        yield raised(
            "hole-missing",
            (who, panel),
            f"{who} passes {panel}, and the hole list has no hole for it.",
            "Give the bulkhead its size and the panel its thickness; drill before paint.",
            system=system,
        )


def _system(topology: Topology, component: Component) -> str | None:
    return next(iter(topology.systems_of[component.id]), None)
