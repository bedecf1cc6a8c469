# SPDX-License-Identifier: Apache-2.0
"""Charge air: reference signals that another consumer pulls down."""

from collections.abc import Iterator

from linewright.base.finding import Finding
from linewright.car.model import Car, Role
from linewright.checks.raising import raised
from linewright.checks.topology import Topology, kind_role

_THIRSTY = ("blow-off valve", "boost solenoid", "wastegate")


def check(car: Car, topology: Topology) -> Iterator[Finding]:
    """Look at the reference lines.

    Parameters
    ----------
    car : Car
        The car document as read.
    topology : Topology
        The same car as a graph.

    Yields
    ------
    Finding
        ``reference-shared`` where a regulator's signal is teed off another's.
    """
    for regulator in topology.of_kind("fuel regulator"):
        for port in regulator.ports.values():
            if kind_role(regulator, port.name) is not Role.SENSOR or port.name == "gauge":
                continue
            others = [
                c.id
                for tee in _tees(topology, port.id)
                for p in car.components[tee].ports.values()
                for line in topology.lines_at.get(p.id, ())
                for end in (line.from_port, line.to_port)
                if (c := car.components[end.partition(".")[0]]).kind in _THIRSTY
            ]
            if others:
                yield raised(
                    "reference-shared",
                    (port.id, *dict.fromkeys(others)),
                    f"The reference of {regulator.id} is teed into the line of "
                    f"{', '.join(dict.fromkeys(others))}: its signal drops whenever that works.",
                    f"Give {port.id} a line of its own from the inlet manifold.",
                    system=topology.system_of(port.id),
                )


def _tees(topology: Topology, port: str) -> Iterator[str]:
    for line in topology.lines_at.get(port, ()):
        for end in (line.from_port, line.to_port):
            name = end.partition(".")[0]
            if topology.car.components[name].kind in ("tee", "Y block"):
                yield name
