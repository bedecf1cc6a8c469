# SPDX-License-Identifier: Apache-2.0
"""Coolant: bleeds that would rob the engine of flow."""

from collections.abc import Iterator

from linewright.base.finding import Finding
from linewright.car.model import Car, Medium, Role
from linewright.checks.raising import raised
from linewright.checks.topology import Topology, kind_role

_TANKS = ("header tank", "swirl pot")


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
        ``restrictor-missing`` for bleeds from the pressure side without a restrictor.
    """
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


def _is_bleed_of_engine(car: Car, port_id: str) -> bool:
    port = car.port(port_id)
    if port is None:
        return False
    component = car.components[port.component]
    return component.kind == "engine" and kind_role(component, port.name) is Role.VENT
