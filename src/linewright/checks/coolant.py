# SPDX-License-Identifier: Apache-2.0
"""Coolant: bleeds that would rob the engine of flow."""

from collections.abc import Iterator

from linewright.base.finding import Finding
from linewright.car.model import Car, Medium, Role
from linewright.checks.raising import raised
from linewright.checks.topology import Topology, kind_role
from linewright.joints.offered import setting
from linewright.space.bodies import component_solid
from linewright.space.positions import position

_TANKS = ("header tank", "swirl pot")

#: What holds coolant up to its top; a tank has its air there.
_CORES = ("radiator", "heater")


def check(car: Car, topology: Topology) -> Iterator[Finding]:
    """Look at the coolant systems.

    Parameters
    ----------
    car : Car
        The car document as read.
    topology : Topology
        The same car as a graph.

    Yields
    ------
    Finding
        ``restrictor-missing`` for bleeds from the pressure side without a restrictor;
        ``coolant-top`` for parts whose top nothing bleeds.
    """
    yield from _tops(car, topology)
    for line in car.lines.values():
        if line.medium is not Medium.COOLANT or not _is_bleed_of_engine(car, line.from_port):
            continue
        reach = topology.after(line.from_port)
        if not reach.has(_TANKS) or reach.has(("restrictor",)):
            continue
        if reach.has_fit(("restrictor", "jet")):
            continue
        yield raised(
            "restrictor-missing",
            (line.id,),
            f"{line.id} bleeds {line.from_port} to the header tank without a restrictor: it "
            "carries coolant past the radiator all the time.",
            'Add `fit = ["restrictor 2 mm"]` at one of its ends (1.5 to 2.5 mm is usual).',
            system=line.system,
        )


def _tops(car: Car, topology: Topology) -> Iterator[Finding]:
    """Cooled parts whose top stands over all that could let air out of it."""
    limit = setting(car, "top-pocket")
    for part in topology.of_kind(*_CORES):
        body = component_solid(car, part)
        if body is None or body.box is None:
            continue
        top = body.box[1][2]
        ways = [
            (found.at[2], port.id)
            for port in part.ports.values()
            if topology.is_connected(port.id) or port.role in (Role.VENT, Role.FILL)
            if (found := position(car, port.id)) is not None and found.is_own
        ]
        if not ways or f"{part.id}.bleed" in car.closed:
            continue
        high, name = max(ways)
        if top - high <= limit.value + 1e-9:
            continue
        yield raised(
            "coolant-top",
            (part.id,),
            f"The top of {part.id} stands {(top - high) * 1000:.0f} mm above {name}, the highest "
            "of its ports: air gathers over it when it is filled and stays.",
            "Bleed it at its top, up to the header tank or by a screw; or turn it so that a port "
            "is its highest point.",
            system=next(iter(topology.systems_of[part.id]), None),
            value=f"{(top - high) * 1000:.0f} mm",
            limit=f"{limit.value * 1000:.0f} mm",
            measure=top - high,
            grade=limit.grade,
        )


def _is_bleed_of_engine(car: Car, port_id: str) -> bool:
    port = car.port(port_id)
    if port is None:
        return False
    component = car.components[port.component]
    return component.kind == "engine" and kind_role(component, port.name) is Role.VENT
