# SPDX-License-Identifier: Apache-2.0
"""What stands too close: neighbouring nuts, a stud in a short hole, weight on a small thread."""

from collections.abc import Iterator
from functools import lru_cache
from itertools import combinations
from math import cos, dist, pi

from linewright.base.evidence import Figure, Grade, weakest
from linewright.base.finding import Finding
from linewright.car.model import Car, Component, Port
from linewright.catalogue.part import Part
from linewright.checks.raising import raised
from linewright.checks.topology import Topology
from linewright.ends.end import End, Family
from linewright.joints.model import Chain, Joints
from linewright.joints.offered import setting
from linewright.tables.load import rows
from linewright.takeoff.wanted import Spot, spots

_SENSORS = ("pressure sensor", "temperature sensor", "gauge")


def check(car: Car, topology: Topology, joints: Joints) -> Iterator[Finding]:
    """Look at what stands on and beside each port.

    Parameters
    ----------
    car : Car
        The car document as read.
    topology : Topology
        The same car as a graph.
    joints : Joints
        The chains chosen.

    Yields
    ------
    Finding
        ``ports-too-near``, ``plug-too-deep``, ``heavy-on-small-thread``.
    """
    found = spots(car, joints)
    yield from _nuts(car, topology, found)
    yield from _depths(car, topology, found)
    yield from _weights(car, topology, found)


@lru_cache
def nut_flats() -> dict[str, Figure]:
    """Width across flats of swivel nuts by dash.

    Returns
    -------
    dict
        Dash to figure, graded as in the table. [m]
    """
    return {
        row["dash"]: Figure(float(row["flats_mm"]) / 1000, "m", Grade(row["grade"]), row["source"])
        for row in rows("nut_flats")
    }


@lru_cache
def stud_lengths() -> dict[tuple[str, str], Figure]:
    """Length of the threaded stud of plugs and adaptors, by family and size.

    Returns
    -------
    dict
        (family, size) to figure, graded as in the table. [m]
    """
    return {
        (row["family"], row["size"]): Figure(
            float(row["length_mm"]) / 1000, "m", Grade(row["grade"]), row["source"]
        )
        for row in rows("stud_lengths")
    }


def _nut(chain: Chain) -> tuple[str, Figure] | None:
    """Dash and flats of the widest swivel nut that a spanner must turn at a port."""
    sizes = [
        end.size
        for part in chain.parts
        for end in part.ends
        if end.family is Family.FLARE_37 and end.size in nut_flats()
    ]
    return max(
        ((size, nut_flats()[size]) for size in sizes), key=lambda nut: nut[1].value, default=None
    )


def _nuts(car: Car, topology: Topology, found: tuple[Spot, ...]) -> Iterator[Finding]:
    """Neighbouring ports whose nuts foul each other (case R4)."""
    gap = setting(car, "nut-clearance")
    at: dict[str, list[tuple[Port, str, Figure]]] = {}
    for spot in found:
        port = car.port(spot.ports[0]) if spot.termination is not None else None
        nut = _nut(spot.chain)
        if port is not None and nut is not None and (port.at or port.at_car):
            at.setdefault(port.component, []).append((port, *nut))
    for near in at.values():
        for (a, dash_a, flats_a), (b, dash_b, flats_b) in combinations(near, 2):
            places = (a.at, b.at) if a.at and b.at else (a.at_car, b.at_car)
            if places[0] is None or places[1] is None or not _looks_alike(a, b):
                continue
            apart = dist(places[0], places[1])
            corners = (flats_a.value + flats_b.value) / 2 / cos(pi / 6)
            need = corners + gap.value
            if apart >= need:
                continue
            shown = " and ".join(dict.fromkeys((dash_a, dash_b)))
            yield raised(
                "ports-too-near",
                (a.id, b.id),
                f"{a.id} and {b.id} are {apart * 1000:.1f} mm apart; {shown} nuts measure "
                f"{corners * 1000:.1f} mm across their corners there and need "
                f"{need * 1000:.1f} mm to pass each other with a spanner.",
                "Take a longer adaptor at one of them, or a 45° end, so that the nuts stand at "
                "different heights.",
                system=topology.system_of(a.id),
                value=f"{apart * 1000:.1f} mm",
                limit=f"{need * 1000:.1f} mm",
                measure=need - apart,
                printed=apart,
                is_less_worse=True,
                source=flats_a.basis,
                grade=weakest([flats_a.grade, flats_b.grade, gap.grade]),
            )


def _looks_alike(a: Port, b: Port) -> bool:
    """Whether two ports point the same way, so that their nuts stand side by side."""
    if a.points is None or b.points is None:
        return True
    return sum(p * q for p, q in zip(a.points, b.points, strict=True)) > 0.5


def _depths(car: Car, topology: Topology, found: tuple[Spot, ...]) -> Iterator[Finding]:
    """Studs longer than the hole that the builder measured."""
    for spot in found:
        port = car.port(spot.ports[0]) if spot.ports else None
        if port is None or port.depth is None or not spot.chain.parts:
            continue
        stud = _stud(port.end, spot.chain.parts[0])
        if stud is None or stud.value <= port.depth:
            continue
        yield raised(
            "plug-too-deep",
            (port.id,),
            f"The {spot.chain.parts[0].name} goes {stud.value * 1000:.1f} mm into {port.id}, whose "
            f"hole is {port.depth * 1000:.1f} mm deep: it stops before it seals, or hits what is "
            "behind.",
            "Measure the stud in your hand; shorten it by its thread end, or have the hole "
            "tapped deeper.",
            system=topology.system_of(port.id),
            value=f"{stud.value * 1000:.1f} mm",
            limit=f"{port.depth * 1000:.1f} mm",
            measure=stud.value - port.depth,
            printed=stud.value,
            source=stud.basis,
            grade=stud.grade,
        )


def _stud(end: End, part: Part) -> Figure | None:
    if not part.ends:
        return None
    return stud_lengths().get((end.family.value, end.size))


def _is_small(end: End) -> bool:
    return end.size in ("1/8", "R 1/8", "Rc 1/8", "G 1/8", "M10x1")


def _weights(car: Car, topology: Topology, found: tuple[Spot, ...]) -> Iterator[Finding]:
    """Senders on a 1/8 thread of a shaking engine (case J14)."""
    limit = setting(car, "small-thread-mass")
    for spot in found:
        if spot.fit is None or spot.fit.how != "on" or len(spot.ports) < 2:
            continue
        host = car.port(spot.ports[0])
        sensor = car.components.get(spot.ports[1].partition(".")[0])
        if host is None or sensor is None or sensor.kind not in _SENSORS:
            continue
        if sensor.rides != "engine" or not _is_small(host.end):
            continue
        why = _heavy(sensor, spot.chain, limit)
        if why is None:
            continue
        yield raised(
            "heavy-on-small-thread",
            (sensor.id, host.id),
            f"{sensor.id} hangs on the small thread of {host.id}, which shakes with the engine, "
            f"{why}: the thread breaks off.",
            "Lead a -3 or -4 hose from the port to a block on the chassis, and put the sender "
            "there.",
            system=topology.system_of(host.id),
            grade=limit.grade,
        )


def _heavy(sensor: Component, chain: Chain, limit: Figure) -> str | None:
    if sensor.mass is not None and sensor.mass.value > limit.value:
        return f"and weighs {sensor.mass.value * 1000:.0f} g"
    if sensor.traits.get("heavy") is True:
        return "and is heavy"
    if chain.parts and sensor.traits.get("heavy") is not False:
        return "at the end of an adaptor"
    return None
