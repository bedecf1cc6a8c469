# SPDX-License-Identifier: Apache-2.0
"""Heights: pumps that stand below their tank, drains that fall, caps that are highest.

Only heights that were typed count; where they are not, the builder is asked for them.
"""

from collections.abc import Iterator

from linewright.base.evidence import Grade
from linewright.base.finding import Finding, Severity
from linewright.car.model import Car, Component, Line, Role
from linewright.checks.raising import raised
from linewright.checks.topology import Topology, kind_role
from linewright.space.positions import position

#: Pumps that have to stand in fluid before they start, and the tanks that flood them.
_FLOODED = {
    "fuel pump": ("fuel cell", "surge pot"),
    "lift pump": ("fuel cell",),
    "charge-coolant pump": ("charge-coolant reservoir",),
    "electric water pump": ("header tank",),
}

_CAPPED = ("header tank", "charge-coolant reservoir")


def check(car: Car, topology: Topology) -> Iterator[Finding]:
    """Compare heights.

    Parameters
    ----------
    car : Car
        The car document as read.
    topology : Topology
        The same car as a graph.

    Yields
    ------
    Finding
        ``pump-not-flooded``, ``drain-rises``, ``level-unknown``, ``cap-not-highest``.
    """
    yield from _pumps(car, topology)
    yield from _drains(car, topology)
    yield from _caps(car, topology)


def height(car: Car, port: str) -> float | None:
    """Height of a port in the car's frame, where it was placed itself.

    Parameters
    ----------
    car : Car
        The car document as read.
    port : str
        Its id.

    Returns
    -------
    float or None
        z over the datum; None where only a component stands for it. [m]
    """
    found = position(car, port)
    return found.at[2] if found is not None and found.is_own else None


def _pumps(car: Car, topology: Topology) -> Iterator[Finding]:
    for pump in topology.of_kind(*_FLOODED):
        inlet = next(
            (p.id for p in pump.ports.values() if kind_role(pump, p.name) is Role.IN), None
        )
        if inlet is None or pump.traits.get("self-priming") or pump.traits.get("in-tank"):
            continue
        reach = topology.before(inlet)
        tank = next((c for c in reach.components if c.kind in _FLOODED[pump.kind]), None)
        if tank is None:
            continue
        outlet = next((p for p in reach.ports if p.startswith(f"{tank.id}.")), f"{tank.id}.out")
        yield from _flooded(car, topology, pump, inlet, tank, outlet)


def _flooded(
    car: Car, topology: Topology, pump: Component, inlet: str, tank: Component, outlet: str
) -> Iterator[Finding]:
    low = _low_level(car, tank, outlet)
    own = _anywhere(car, inlet)
    system = topology.system_of(inlet)
    if own is None or low is None:
        unknown = [i for i, z in ((inlet, own), (outlet, low)) if z is None]
        yield raised(
            "pump-not-flooded",
            (pump.id, tank.id),
            f"Whether {pump.id} stands below {tank.id} and is flooded is not known: the height "
            f"of {' and of '.join(unknown)} is not typed.",
            "Type z of both, or say `self-priming = true` if the pump's maker does.",
            system=system,
        )
        return
    if own <= low:
        return
    yield raised(
        "pump-not-flooded",
        (pump.id, tank.id),
        f"{inlet} stands {(own - low) * 1000:.0f} mm above {outlet}: when the tank is low the pump "
        "draws air, and it never primes itself.",
        f"Put {pump.id} below the outlet of {tank.id}, or take a pump whose maker calls it "
        "self-priming.",
        severity=Severity.STOP,
        system=system,
        value=f"{own * 1000:.0f} mm",
        limit=f"{low * 1000:.0f} mm",
        measure=own - low,
        printed=own,
    )


def _anywhere(car: Car, port: str) -> float | None:
    """Height of a port, or of the placed component that stands in for it. [m]"""
    found = position(car, port)
    return found.at[2] if found is not None else None


def _low_level(car: Car, tank: Component, outlet: str) -> float | None:
    """Height to which a tank empties: as typed, else its floor, else its lowest outlet. [m]"""
    level = tank.traits.get("level")
    if isinstance(level, int | float) and not isinstance(level, bool):
        return float(level)
    if tank.place is not None and tank.size is not None and tank.place.anchor == "middle":
        return tank.place.at[2] - tank.size[2] / 2
    if tank.place is not None and tank.place.anchor == "foot":
        return tank.place.at[2]
    port = car.port(outlet)
    is_low = port is not None and port.points is not None and port.points[2] < 0
    return height(car, outlet) if is_low else None


def _drains(car: Car, topology: Topology) -> Iterator[Finding]:
    """Lines that gravity has to empty."""
    for line in car.lines.values():
        port = car.port(line.from_port)
        owner = car.components.get(line.from_port.partition(".")[0])
        is_drain = line.service == "drain"
        if port is not None and owner is not None and kind_role(owner, port.name) is Role.DRAIN:
            is_drain = True
        if not is_drain or _is_pumped(topology, line):
            continue
        top, foot = height(car, line.from_port), height(car, line.to_port)
        level = _level(car, line)
        if top is not None and foot is not None and foot >= top:
            yield _rises(line, top, foot, line.to_port)
        elif level is not None and foot is not None and foot <= level:
            yield raised(
                "drain-rises",
                (line.id,),
                f"{line.id} ends at {line.to_port}, {(level - foot) * 1000:.0f} mm under the oil: "
                "it backs up and the turbo's seals pass oil.",
                "Let it end above the running level, away from where the crank throws oil.",
                system=line.system,
                value=f"{foot * 1000:.0f} mm",
                limit=f"{level * 1000:.0f} mm",
                measure=level - foot,
                printed=foot,
                is_less_worse=True,
            )
        elif level is not None and top is not None and foot is not None:
            yield from _spray(car, line)
        elif top is None or foot is None or level is None:
            missing = [f"z of {i}" for i, z in _named(line, top, foot) if z is None]
            if level is None:
                missing.append("the height of the oil while it runs")
            yield raised(
                "level-unknown",
                (line.id,),
                f"That {line.id} falls all the way and ends above the oil is not proved without "
                f"{' and '.join(missing)}.",
                "Type z at both ports, and `oil-level` at the engine or sump.",
                system=line.system,
            )


def _spray(car: Car, line: Line) -> Iterator[Finding]:
    """A drain that ends over the oil: whether the crank throws oil at it is asked."""
    owner = car.components.get(line.to_port.partition(".")[0])
    if owner is None or owner.kind not in ("engine", "sump") or "windage-clear" in owner.traits:
        return
    yield raised(
        "drain-in-spray",
        (line.id, owner.id),
        f"{line.id} ends at {line.to_port}, above the oil; whether that is behind the windage "
        "tray, away from where the crank throws oil, is not said. Thrown oil backs a drain up as a "
        "high level does.",
        f"Look into {owner.id} and say `windage-clear = true` there; else move the drain aside or "
        "put a baffle before it.",
        system=line.system,
    )


def _named(
    line: Line, top: float | None, foot: float | None
) -> tuple[tuple[str, float | None], ...]:
    return ((line.from_port, top), (line.to_port, foot))


def _rises(line: Line, top: float, foot: float, where: str) -> Finding:
    return raised(
        "drain-rises",
        (line.id,),
        f"{line.id} has to drain by gravity and ends {(foot - top) * 1000:.0f} mm higher, at "
        f"{where}.",
        "Lead it down all the way, within 15° of straight down at its start, or fit a scavenge "
        "pump.",
        system=line.system,
        value=f"{foot * 1000:.0f} mm",
        limit=f"{top * 1000:.0f} mm",
        measure=foot - top,
        printed=foot,
        grade=Grade.RELAYED,
        source="public-practice-pages",
    )


def _is_pumped(topology: Topology, line: Line) -> bool:
    return topology.car.components[line.to_port.partition(".")[0]].kind in (
        "dry-sump pump",
        "scavenge screen",
    )


def _level(car: Car, line: Line) -> float | None:
    owner = car.components.get(line.to_port.partition(".")[0])
    level = owner.traits.get("oil-level") if owner else None
    if level is None:
        level = next(
            (c.traits["oil-level"] for c in car.components.values() if "oil-level" in c.traits),
            None,
        )
    return float(level) if isinstance(level, int | float) else None


def _caps(car: Car, topology: Topology) -> Iterator[Finding]:
    """Fillers that something else in the same loop stands above."""
    for tank in topology.of_kind(*_CAPPED):
        filler = next((p.id for p in tank.ports.values() if p.role is Role.FILL), None)
        cap = height(car, filler) if filler else None
        system = next(iter(topology.systems_of[tank.id]), None)
        if cap is None or system is None:
            continue
        above = [
            (z, port.id)
            for port in car.ports
            if port.component != tank.id
            and topology.is_connected(port.id)
            and topology.system_of(port.id) == system
            and (z := height(car, port.id)) is not None
            and z > cap
        ]
        if not above:
            continue
        z, highest = max(above)
        yield raised(
            "cap-not-highest",
            (str(filler), highest),
            f"{highest} stands {(z - cap) * 1000:.0f} mm above the cap at {filler}: air collects "
            "there, and filling does not reach it.",
            f"Raise {tank.id}, or give {highest} a bleed of its own and a fill procedure.",
            system=system,
            value=f"{z * 1000:.0f} mm",
            limit=f"{cap * 1000:.0f} mm",
            measure=z - cap,
            printed=z,
            source="A Systems Engineering Approach to Engine Cooling Design, fill and drain",
            grade=Grade.READ,
        )
