# SPDX-License-Identifier: Apache-2.0
"""What the joints stage chose, walked once: every part and joint with its id and system."""

from collections.abc import Iterator
from dataclasses import dataclass

from linewright.car.model import Car, Line, System
from linewright.catalogue.part import Part
from linewright.ends.mating import SealNeed
from linewright.joints.model import Chain, Fit, Joints, Mated, Termination


@dataclass(frozen=True, slots=True)
class Spot:
    """One chain and where it sits: ``id`` is what its joints are numbered under."""

    id: str
    ports: tuple[str, ...]
    chain: Chain
    line: Line | None
    system: System | None
    is_certain: bool
    termination: Termination | None = None
    fit: Fit | None = None

    def joint_id(self, number: int) -> str:
        """Id of the joint with this number, counted from the port."""
        return f"{self.id}.{number}"

    @property
    def numbered(self) -> Iterator[tuple[str, Mated]]:
        """All joints with their ids, from the port outwards."""
        return ((self.joint_id(n), mated) for n, mated in enumerate(self.chain.joints, 1))

    @property
    def parts(self) -> Iterator[tuple[str, Part]]:
        """All parts with the id of the joint on their port's side, or of the spot itself."""
        last = len(self.chain.joints)
        return (
            (self.joint_id(n) if n <= last else self.id, part)
            for n, part in enumerate(self.chain.parts, 1)
        )

    @property
    def needs(self) -> Iterator[tuple[str, Mated, SealNeed]]:
        """All that the joints need beside their ends, with the joint's id."""
        return (
            (joint, mated, need) for joint, mated in self.numbered for need in mated.mating.seals
        )


def spots(car: Car, joints: Joints) -> tuple[Spot, ...]:
    """Every chain that the joints stage chose.

    Parameters
    ----------
    car : Car
        The car document as read.
    joints : Joints
        What the joints stage offered.

    Returns
    -------
    tuple of Spot
        Terminations, then fits, in their own order; what has no chain is left out.
    """
    found: list[Spot] = []
    for end in joints.terminations:
        if end.chain is not None:
            found.append(at_end(car, end, end.chain))
    for fit in joints.fits:
        if fit.chain is None:
            continue
        line = car.lines.get(fit.line) if fit.line else None
        found.append(
            Spot(
                id=fit.ports[0] if fit.ports else f"{fit.line}.{fit.panel}",
                ports=fit.ports,
                chain=fit.chain,
                line=line,
                system=_system(car, line, fit.ports),
                is_certain=all(_is_known(car, port) for port in fit.ports),
                fit=fit,
            )
        )
    return tuple(found)


def at_end(car: Car, end: Termination, chain: Chain) -> Spot:
    """One chain at the end of a piece of hose.

    Parameters
    ----------
    car : Car
        The car document as read.
    end : Termination
        The end.
    chain : Chain
        The chain that was chosen for it, or another that was offered.

    Returns
    -------
    Spot
        The chain with its ids, line and system.
    """
    line = car.lines.get(end.line)
    return Spot(
        id=f"{end.hose}.{end.side}",
        ports=(end.port,),
        chain=chain,
        line=line,
        system=_system(car, line, (end.port,)),
        is_certain=_is_known(car, end.port),
        termination=end,
    )


def _is_known(car: Car, port_id: str) -> bool:
    port = car.port(port_id)
    return port is None or port.known.is_confirmed


def _system(car: Car, line: Line | None, ports: tuple[str, ...]) -> System | None:
    """The system of a line, else of the port's medium, else of its component."""
    if line is not None and line.system is not None:
        return car.systems.get(line.system)
    for port_id in ports:
        port = car.port(port_id)
        if port is None:
            continue
        component = car.components[port.component]
        own = car.systems.get(component.system) if component.system else None
        if port.medium is None or (own is not None and own.medium is port.medium):
            if own is not None:
                return own
            continue
        for system in car.systems.values():
            if system.medium is port.medium:
                return system
    return None
