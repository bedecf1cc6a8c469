# SPDX-License-Identifier: Apache-2.0
"""Which lines must fall, which must rise, and where what should move on is trapped.

A drain falls all the way, in every condition. A liquid bleed rises all the way to its tank.
A gas vent may rise, cross and fall to its outlet; only a sag between two higher points holds
the liquid that closes it. A hump in a coolant line holds air only while the flow is too slow
to carry it along.
"""

from dataclasses import replace
from math import degrees, radians

from linewright.base.evidence import Grade
from linewright.base.finding import Finding, Severity
from linewright.base.vectors import dot
from linewright.car.model import Car, Condition, Line, Medium
from linewright.joints.offered import setting
from linewright.proofs.course import course, dip, pockets
from linewright.proofs.downs import LEVEL, WAYS, Proof, also_in, downs, prove, spoken, stops_at, up
from linewright.proofs.found import at, found, mm
from linewright.proofs.traps import humps, idle_flow, trap
from linewright.routes.route import Route
from linewright.space.path import Path

_COOLANTS = (Medium.COOLANT, Medium.CHARGE_COOLANT)

#: Lines in which something stands, not flows.
_STILL = ("reference", "vent", "bleed", "drain")


def falls(car: Car, line: Line, route: Route, bore: float | None) -> tuple[Finding, ...]:
    """Say where a route does not fall or rise as its service asks.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        The line that the hose belongs to.
    route : Route
        The hose in space; end A is where its line comes from.
    bore : float or None
        Bore of the hose. [m]

    Returns
    -------
    tuple of Finding
        ``drain-flat``, ``bleed-dips``, ``vent-sags``, ``suction-trap`` or ``coolant-hump``.
    """
    path = course(route)
    conditions = downs(car)
    least_pocket = setting(car, "pocket-least").value
    match line.service:
        case "drain":
            rise = radians(setting(car, "drain-fall").value)
            return drain(line, route.id, path, conditions, rise)
        case "bleed":
            rising = _towards_tank(car, line, path)
            return bleed(line, route.id, rising, conditions, least_pocket)
        case "vent":
            return vent(line, route.id, path, conditions, least_pocket)
        case "suction" if line.medium is not Medium.AIR:
            return trap(line, route.id, path, conditions, least_pocket)
    if line.medium not in _COOLANTS or line.service in _STILL:
        return ()
    slow = setting(car, "hump-velocity").value
    return humps(line, route.id, path, bore, idle_flow(car, line), slow, least_pocket, conditions)


def _towards_tank(car: Car, line: Line, path: Path) -> Path:
    """A bleed from where its air comes, whichever way the line was typed."""
    a, b = car.port(line.from_port), car.port(line.to_port)
    is_inlet = [
        port is not None and port.role is not None and port.role.is_inlet for port in (a, b)
    ]
    return _back(path) if is_inlet == [True, False] else path


def _back(path: Path) -> Path:
    return Path(path.corners[::-1], path.radii[::-1])


def _weight(proofs: list[Proof]) -> Severity:
    """A stop where it is so while the car stands or lasts; a warning where it is over soon."""
    return Severity.STOP if any(p.condition.is_held for p in proofs) else Severity.WARN


def _deg(angle: float) -> str:
    return f"{degrees(angle) + 0.0:.1f}°"


def _slope(rise: float) -> str:
    return f"falls {_deg(rise)}" if rise >= 0.0 else f"rises {_deg(-rise)}"


def drain(
    line: Line, hose: str, path: Path, conditions: tuple[Condition, ...], fall: float
) -> tuple[Finding, ...]:
    """Prove a drain in every condition.

    Parameters
    ----------
    line : Line
        The line.
    hose : str
        Which hose of it.
    path : Path
        The course of the fluid, from what is drained.
    conditions : tuple of Condition
        Where down is.
    fall : float
        Least fall below level. [rad]

    Returns
    -------
    tuple of Finding
        None, or one ``drain-flat`` for the worst condition that names the others: a stop if it
        fails where the car stands or for long, else a warning.
    """
    failing = [p for p in prove(path, conditions, falls=True) if not p.holds(fall)]
    if not failing:
        return ()
    held = [p for p in failing if p.condition.is_held] or failing
    # Of conditions that are as bad the first is told: level ground, where it is one of them.
    worst = min(held, key=lambda p: round(p.slope.rise, 6))
    also = [p.condition.name for p in failing if p is not worst]
    spot = worst.slope
    return (
        found(
            "drain-flat",
            (hose,),
            f"{hose} drains by gravity alone. In {spoken(worst.condition.name)} it "
            f"{_slope(spot.rise)} at {at(spot.at)}, {mm(spot.along)} from {line.from_port}; it "
            f"should fall {degrees(fall):.0f}° or more.{also_in(also)} {stops(path)}",
            "Lead it steeper there, lower its end or lift its start, take a straight hose end "
            "where the elbow lies flat, or fit a scavenge pump.",
            system=line.system,
            value=f"{degrees(spot.rise):.1f}°",
            limit=f"{degrees(fall):.0f}°",
            measure=fall - spot.rise,
            severity=_weight(failing),
        ),
    )


def stops(path: Path) -> str:
    """Say at which accelerations on level ground a drain stops.

    Parameters
    ----------
    path : Path
        The course of the fluid, from what is drained.

    Returns
    -------
    str
        A sentence.

    Examples
    --------
    >>> stops(Path(((0.0, 0.0, 0.0), (-0.2, 0.0, -0.2)), ()))
    'On level ground its flow stops at 1.00 g of speeding up.'
    """
    limits = {name: stops_at(path, way) for name, way in WAYS.items()}
    if 0.0 in limits.values():
        return "It stands still even on level ground."
    told = [f"{share:.2f} g of {name}" for name, share in limits.items() if share is not None]
    if not told:
        return "No acceleration on level ground stops its flow."
    return f"On level ground its flow stops at {', '.join(told)}."


def bleed(
    line: Line, hose: str, path: Path, conditions: tuple[Condition, ...], least_depth: float
) -> tuple[Finding, ...]:
    """Prove that a liquid bleed rises all the way.

    Parameters
    ----------
    line : Line
        The line.
    hose : str
        Which hose of it.
    path : Path
        The course towards the tank.
    conditions : tuple of Condition
        Where down is; only those that are held count, since no air settles in a passing one.
    least_depth : float
        Falls of no more in all are left alone: they are within a tape's doubt. [m]

    Returns
    -------
    tuple of Finding
        None, or one ``bleed-dips``: a stop on level ground, a warning on a slope only.
    """
    held = [(dip(path, up(each)), each) for each in conditions if each.is_held]
    failing = [each for each in held if each[0].depth > least_depth]
    if not failing:
        return ()
    level = [each for each in failing if each[1].name == LEVEL.name]
    worst, where = max(level or failing, key=lambda each: (each[0].depth, each[1].name))
    also = [each.name for _, each in failing if each is not where]
    return (
        found(
            "bleed-dips",
            (hose,),
            f"{hose} bleeds air off and has to rise all the way to its tank. In "
            f"{spoken(where.name)} it falls {mm(worst.depth)} to {at(worst.at)}: liquid stands "
            f"there and no more air passes.{also_in(also)}",
            "Lift that place or clip it up, shorten the hose, or lift the tank.",
            system=line.system,
            value=mm(worst.depth),
            limit=mm(least_depth),
            measure=worst.depth,
            severity=Severity.STOP if level else Severity.WARN,
            source="heavy-duty-engine-installation-manual-4",
            grade=Grade.RELAYED,
        ),
    )


def vent(
    line: Line, hose: str, path: Path, conditions: tuple[Condition, ...], least_depth: float
) -> tuple[Finding, ...]:
    """Look for sags of a gas vent in which liquid stays.

    Parameters
    ----------
    line : Line
        The line.
    hose : str
        Which hose of it.
    path : Path
        Its course.
    conditions : tuple of Condition
        Where down is; only those that are held count.
    least_depth : float
        Sags that are no deeper are left alone. [m]

    Returns
    -------
    tuple of Finding
        None, or one ``vent-sags`` for the deepest.
    """
    sags = [
        (pocket, each)
        for each in conditions
        if each.is_held
        for pocket in pockets(path, each.down, least_depth)
    ]
    if not sags:
        return ()
    level = [sag for sag in sags if sag[1].name == LEVEL.name]
    deepest, where = max(level or sags, key=lambda sag: (sag[0].depth, sag[1].name))
    return (
        found(
            "vent-sags",
            (hose,),
            f"{hose} vents gas. In {spoken(where.name)} it sags {mm(deepest.depth)} between two "
            f"higher points, lowest at {at(deepest.at)}: liquid that gets there stays and closes "
            "it.",
            "Clip it so that it goes up and then down once; a vent may fall to its outlet.",
            system=line.system,
            value=mm(deepest.depth),
            limit=mm(least_depth),
            measure=deepest.depth,
            severity=Severity.STOP if level else Severity.WARN,
        ),
    )


def marked(route: Route) -> Route:
    """Name the high and low points of a route's whole course, hose ends too.

    Parameters
    ----------
    route : Route
        A hose in space.

    Returns
    -------
    Route
        The same with ``highs`` and ``lows`` on level ground; both ports count where the
        course leaves them downward or upward.
    """
    path = course(route)
    first, last = path.corners[0], path.corners[-1]
    above = up(LEVEL)
    highs = [each.at for each in pockets(path, above, 0.0)]
    lows = [each.at for each in pockets(path, LEVEL.down, 0.0)]
    heights = [dot(point, above) for point in (first, last)]
    tops = [dot(point, above) for point in highs]
    if max(heights) >= max(tops, default=-1e9):
        highs.append(first if heights[0] >= heights[1] else last)
    floors = [dot(point, above) for point in lows]
    if min(heights) <= min(floors, default=1e9):
        lows.append(first if heights[0] <= heights[1] else last)
    return replace(route, highs=tuple(highs), lows=tuple(lows))
