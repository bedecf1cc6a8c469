# SPDX-License-Identifier: Apache-2.0
"""Oil: how coolers hang, what a turbo is fed with, suction lines, marks on take-off plates."""

from collections.abc import Iterator
from math import pi

from linewright.base.finding import Finding, WorkStep
from linewright.car.model import Car, Component, Line, Medium, Role
from linewright.checks.raising import raised
from linewright.checks.topology import Topology, kind_role
from linewright.joints.offered import setting
from linewright.joints.side import bore_of_hose

_FACES_DOWN = -0.5  # a port whose direction falls by more than 30° counts as pointing down


def check(car: Car, topology: Topology) -> Iterator[Finding]:
    """Look at the oil systems.

    Parameters
    ----------
    car : Car
        The car document as read.
    topology : Topology
        The same car as a graph.

    Yields
    ------
    Finding
        ``cooler-direction``, ``cooler-ports-down``, ``turbo-feed``, ``screen-missing``,
        ``jet-doubtful``, ``drain-small``, ``suction-size``, ``dead-head``.
    """
    yield from _coolers(topology)
    yield from _turbos(car, topology)
    yield from _jets(car, topology)
    yield from _doubtful_jets(car, topology)
    yield from _drains(car, topology)
    yield from _suction(car, topology)
    yield from _dead_headed(car, topology)


def steps(topology: Topology) -> Iterator[WorkStep]:
    """Work steps of the oil systems.

    Parameters
    ----------
    topology : Topology
        The car as a graph.

    Yields
    ------
    WorkStep
        To mark OUT and IN on each take-off plate.
    """
    for plate in topology.of_kind("filter take-off plate"):
        yield WorkStep(
            "mark-out-in",
            (plate.id,),
            f"Mark OUT and IN on {plate.id}: the outer ring is where oil comes out of the "
            "engine, the centre where it goes back. Swapped, the filter runs backwards.",
        )


def _coolers(topology: Topology) -> Iterator[Finding]:
    for cooler in topology.of_kind("oil cooler"):
        ports = [p for p in cooler.ports.values() if kind_role(cooler, p.name) is not Role.EMPTY]
        ways = [p.points_car or p.points for p in ports]
        facing = cooler.traits.get("facing")
        system = next(iter(topology.systems_of[cooler.id]), None)
        down = [p.id for p, way in zip(ports, ways, strict=True) if way and way[2] < _FACES_DOWN]
        if facing == "down":
            down = [p.id for p in ports]
        if down:
            yield raised(
                "cooler-ports-down",
                (cooler.id,),
                f"{' and '.join(down)} point down: air stays in the top of {cooler.id}.",
                "Turn the cooler so that its ports point up, or to the side with the inlet low.",
                system=system,
                value="down",
                limit="up or to the side",
            )
        elif facing is None and any(way is None for way in ways):
            yield raised(
                "cooler-direction",
                (cooler.id,),
                f"Which way the ports of {cooler.id} point is not known: ports up is best, to "
                "the side with the inlet low is next, down traps air.",
                f'Say `facing = "up"`, "side" or "down" at {cooler.id}, or type `points` at its '
                "ports.",
                system=system,
            )


def _turbos(car: Car, topology: Topology) -> Iterator[Finding]:
    for turbo in topology.of_kind("turbo"):
        limit = turbo.traits.get("limit")
        port = f"{turbo.id}.oil-in"
        system = car.systems.get(topology.system_of(port) or "")
        if not isinstance(limit, int | float) or system is None or system.gauge_pressure is None:
            continue
        highest = system.gauge_pressure.value
        reach = topology.before(port)
        is_limited = bool(turbo.traits.get("jet")) or reach.has_fit(("jet", "restrictor"))
        if highest <= limit or is_limited or reach.has(("restrictor",)):
            continue
        yield raised(
            "turbo-feed",
            (port,),
            f"The oil system reaches {highest / 1e5:.1f} bar, and {turbo.id} takes "
            f"{limit / 1e5:.1f} bar: its seals will pass oil.",
            'Fit a jet at the turbo (`fit = ["jet 1 mm"]` at that end of the line) with a '
            "screen before it, or a regulator; ask the maker of the turbo.",
            system=system.id,
            value=f"{highest / 1e5:.1f} bar",
            limit=f"{limit / 1e5:.1f} bar",
            measure=highest - float(limit),
        )


def _jets(car: Car, topology: Topology) -> Iterator[Finding]:
    """Jets that the first speck of dirt will shut."""
    for line in car.lines.values():
        if line.medium is not Medium.OIL:
            continue
        if not any(fit.startswith("jet") for end in line.ends for fit in end.fit):
            continue
        reach = topology.before(line.to_port)
        own = any(fit.startswith("screen") for end in line.ends for fit in end.fit)
        if own or reach.has(("scavenge screen",)) or reach.has_fit(("screen",)):
            continue
        yield raised(
            "screen-missing",
            (line.id,),
            f"{line.id} has a jet and no screen before it: the first flake of swarf shuts it.",
            'Add `fit = ["screen"]` at the end of the line where the oil comes from.',
            system=line.system,
        )


def _doubtful_jets(car: Car, topology: Topology) -> Iterator[Finding]:
    """Two jets in one feed, or one before plain bearings, where practice differs."""
    for line in car.lines.values():
        turbo = car.components[line.to_port.partition(".")[0]]
        if line.medium is not Medium.OIL or turbo.kind != "turbo":
            continue
        jets = sum(fit.startswith("jet") for end in line.ends for fit in end.fit)
        if jets > 1:
            yield raised(
                "jet-doubtful",
                (line.id,),
                f"{line.id} has a jet at both ends: the turbo gets less oil than either lets by.",
                "Keep the one at the turbo.",
                system=line.system,
            )
        elif jets and turbo.traits.get("bearing") == "journal":
            yield raised(
                "jet-doubtful",
                (line.id,),
                f"{line.id} has a jet, and {turbo.id} has plain bearings, which want more oil than "
                "balls do: practice differs here.",
                "Ask the maker of the turbo; if a jet is right, overrule this with the answer.",
                system=line.system,
            )


def _drains(car: Car, topology: Topology) -> Iterator[Finding]:
    """Drains of a turbo that are narrower than the oil froth needs (case J10)."""
    least = setting(car, "turbo-drain-dash")
    for turbo in topology.of_kind("turbo"):
        for line in topology.lines_at.get(f"{turbo.id}.oil-out", ()):
            dash = line.size.lstrip("-")
            if not line.size.startswith("-") or not dash.isdigit() or int(dash) >= least.value:
                continue
            yield raised(
                "drain-small",
                (line.id,),
                f"{line.id} drains {turbo.id} in {line.size}: oil leaves a turbo as froth, by its "
                "own weight alone.",
                f"Take -{least.value:.0f}, -12 for a large frame, and no less than the outlet of "
                "the turbo.",
                system=line.system,
                value=line.size,
                limit=f"-{least.value:.0f}",
                measure=least.value - int(dash),
                source="public-practice-pages",
                grade=least.grade,
            )


def _suction(car: Car, topology: Topology) -> Iterator[Finding]:
    """Suction lines in which oil of a known flow runs faster than practice has it."""
    limit = setting(car, "suction-velocity")
    for pump in topology.of_kind("dry-sump pump"):
        flow = pump.traits.get("flow")
        for line in _feeding(topology, pump):
            bore = bore_of_hose(line)
            if bore is None or not isinstance(flow, int | float):
                continue
            speed = float(flow) / (pi * bore.value**2 / 4)
            if speed <= limit.value:
                continue
            yield raised(
                "suction-size",
                (line.id, pump.id),
                f"{flow * 60e3:.0f} L/min through {bore.value * 1000:.1f} mm runs at "
                f"{speed:.1f} m/s in {line.id}, on the suction side.",
                f"Take a larger hose than {line.size}, or shorten it and raise the tank; racing "
                "practice accepts more than this hydraulic figure.",
                system=line.system,
                value=f"{speed:.1f} m/s",
                limit=f"{limit.value:.1f} m/s",
                measure=speed,
                grade=limit.grade,
            )


def _dead_headed(car: Car, topology: Topology) -> Iterator[Finding]:
    """Pressure stages that a document says have no relief valve, anywhere in their system."""
    for pump in topology.of_kind("dry-sump pump"):
        answer = car.closed.get(f"{pump.id}.relief")
        if answer is None or answer.how != "none" or pump.traits.get("relief"):
            continue
        systems = set(topology.systems_of[pump.id])
        others = (c for c in car.components.values() if c.id != pump.id and c.traits.get("relief"))
        if any(systems & set(topology.systems_of[c.id]) for c in others):
            continue
        yield raised(
            "dead-head",
            (pump.id,),
            f"{pump.id} displaces oil at any pressure and nothing lets it off: with cold oil or a "
            "blocked filter its pressure has nowhere to go.",
            'Fit a relief valve, and say where: `relief = "in the pump"` on the component that has '
            "it.",
            system=next(iter(topology.systems_of[pump.id]), None),
        )


def _feeding(topology: Topology, pump: Component) -> Iterator[Line]:
    for port in pump.ports.values():
        if port.name.startswith("scavenge") or kind_role(pump, port.name) is not Role.IN:
            continue
        yield from (ln for ln in topology.lines_at.get(port.id, ()) if ln.to_port == port.id)
