# SPDX-License-Identifier: Apache-2.0
"""Which lines must fall, which must rise, and where what should move on is trapped.

A drain falls all the way, in every condition. A liquid bleed rises all the way to its tank.
A gas vent may rise, cross and fall to its outlet; only a sag between two higher points holds
the liquid that closes it. A hump in a coolant line holds air only while the flow is too slow
to carry it along.
"""

from dataclasses import dataclass, replace
from math import degrees, pi, radians

from linewright.base.evidence import Grade
from linewright.base.finding import Finding, Severity
from linewright.base.vectors import Vector, dot
from linewright.car.model import Car, Component, Condition, Line, Medium
from linewright.joints.offered import setting
from linewright.routes.course import course, dip, pockets
from linewright.routes.downs import LEVEL, WAYS, Proof, downs, head, prove, stops_at
from linewright.routes.found import at, found, mm
from linewright.routes.path import Path
from linewright.routes.route import Route

_COOLANTS = (Medium.COOLANT, Medium.CHARGE_COOLANT)

#: Lines in which something stands, not flows.
_STILL = ("reference", "vent", "bleed", "drain")


@dataclass(frozen=True, slots=True)
class Flow:
    """What runs through a coolant line while air has to be carried out of it. [m3/s]

    ``idle`` is None where nobody typed it; ``of`` is the pump that was asked, "" for none.
    """

    idle: float | None
    of: str = ""


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
        ``drain-flat``, ``bleed-dips``, ``vent-sags``, ``suction-trap``, ``suction-lifts`` or
        ``coolant-hump``.
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
            least_lift = setting(car, "suction-lift").value
            found_here = trap(line, route.id, path, conditions, least_pocket)
            return (*found_here, *lift(line, route.id, path, conditions, least_lift))
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


def _too(names: list[str]) -> str:
    return f" So too in: {', '.join(names)}." if names else ""


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
            f"{hose} drains by gravity alone. In {worst.condition.name} it {_slope(spot.rise)} at "
            f"{at(spot.at)}, {mm(spot.along)} from {line.from_port}; it should fall "
            f"{degrees(fall):.0f}° or more.{_too(also)} {stops(path)}",
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
    held = [(dip(path, _up(each)), each) for each in conditions if each.is_held]
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
            f"{hose} bleeds air off and has to rise all the way to its tank. In {where.name} it "
            f"falls {mm(worst.depth)} to {at(worst.at)}: liquid stands there and no more air "
            f"passes.{_too(also)}",
            "Lift that place or clip it up, shorten the hose, or lift the tank.",
            system=line.system,
            value=mm(worst.depth),
            limit=mm(least_depth),
            measure=worst.depth,
            severity=Severity.STOP if level else Severity.WARN,
            source="engine installation manual",
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
            f"{hose} vents gas. In {where.name} it sags {mm(deepest.depth)} between two higher "
            f"points, lowest at {at(deepest.at)}: liquid that gets there stays and closes it.",
            "Clip it so that it goes up and then down once; a vent may fall to its outlet.",
            system=line.system,
            value=mm(deepest.depth),
            limit=mm(least_depth),
            measure=deepest.depth,
            severity=Severity.STOP if level else Severity.WARN,
        ),
    )


def trap(
    line: Line, hose: str, path: Path, conditions: tuple[Condition, ...], least_depth: float
) -> tuple[Finding, ...]:
    """Look for high points of a suction line, which hold air before the pump.

    Parameters
    ----------
    line : Line
        The line.
    hose : str
        Which hose of it.
    path : Path
        Its course.
    conditions : tuple of Condition
        Where down is; level ground is looked at, where the line is filled.
    least_depth : float
        Humps that are no higher are left alone. [m]

    Returns
    -------
    tuple of Finding
        None, or one ``suction-trap`` for the highest hump.
    """
    humps_here = pockets(path, _up(_level(conditions)), least_depth)
    if not humps_here:
        return ()
    worst = max(humps_here, key=lambda pocket: pocket.depth)
    return (
        found(
            "suction-trap",
            (hose,),
            f"{hose} leads to a pump's inlet over a hump of {mm(worst.depth)} at {at(worst.at)}: "
            "air stays there when it is filled, and the pump draws it.",
            "Lead it so that it only falls to the pump or only rises back to the tank.",
            system=line.system,
            value=mm(worst.depth),
            limit=mm(least_depth),
            measure=worst.depth,
        ),
    )


def lift(
    line: Line,
    hose: str,
    path: Path,
    conditions: tuple[Condition, ...],
    least_lift: float = 0.0,
) -> tuple[Finding, ...]:
    """Compare the two ends of a suction line in every condition.

    Parameters
    ----------
    line : Line
        The line.
    hose : str
        Which hose of it.
    path : Path
        Its course.
    conditions : tuple of Condition
        Where down is.
    least_lift : float
        Lifts of no more are left alone. [m]

    Returns
    -------
    tuple of Finding
        None, or one ``suction-lifts`` for the greatest lift: a warning where it lasts, a note
        where it passes. Level ground is told by the rule on pumps below their tanks.
    """
    a, b = path.corners[0], path.corners[-1]
    lifts = [(-head(a, b, each), each) for each in conditions if each.name != LEVEL.name]
    lifts = [each for each in lifts if each[0] > least_lift + 1e-6]
    if not lifts:
        return ()
    held = [each for each in lifts if each[1].is_held]
    high, where = max(held or lifts, key=lambda each: (each[0], each[1].name))
    also = [each.name for _, each in lifts if each is not where]
    return (
        found(
            "suction-lifts",
            (hose,),
            f"In {where.name} the end of {hose} at the pump stands {mm(high)} of the fluid's own "
            f"head above its end at the tank, were it level: the pump has to lift that."
            f"{_too(also)}",
            "Put the pump lower or nearer to the tank, along the car as well as across, or count "
            "it in the pump's suction.",
            system=line.system,
            value=mm(high),
            limit=mm(least_lift),
            measure=high,
            severity=Severity.WARN if held else Severity.NOTE,
        ),
    )


def humps(
    line: Line,
    hose: str,
    path: Path,
    bore: float | None,
    flow: Flow,
    slow: float,
    least_depth: float,
    conditions: tuple[Condition, ...] = (LEVEL,),
) -> tuple[Finding, ...]:
    """Look for humps of a coolant line in which air stays at idle.

    Parameters
    ----------
    line : Line
        The line.
    hose : str
        Which hose of it.
    path : Path
        Its course.
    bore : float or None
        Bore of the hose. [m]
    flow : Flow
        What runs through it when it is filled and at idle.
    slow : float
        Velocity under which air is not carried along. [m/s]
    least_depth : float
        Humps that are no higher are left alone. [m]
    conditions : tuple of Condition
        Where down is; level ground is looked at, where the loop is filled.

    Returns
    -------
    tuple of Finding
        None, or one ``coolant-hump`` that names every hump: a warning where the flow is too
        slow, an ask where it or the bore is not known.

    Examples
    --------
    >>> from linewright.car.model import Construction
    >>> line = Line("C01", "P.out", "R.in", "c", Medium.COOLANT, "-16", "EPDM", Construction.HOSE)
    >>> hump = Path(((0, 0, 0), (0.2, 0, 0.03), (0.4, 0, 0)), (0.001,))
    >>> (slow,) = humps(line, "C01", hump, 0.0222, Flow(8 / 60000), 0.6, 0.005)
    >>> slow.value, slow.limit
    ('0.34 m/s', '0.6 m/s')
    >>> humps(line, "C01", hump, 0.0222, Flow(30 / 60000), 0.6, 0.005)
    ()
    """
    high = pockets(path, _up(_level(conditions)), least_depth)
    if not high:
        return ()
    places = " and ".join(f"{mm(each.depth)} at {at(each.at)}" for each in high)
    humped = f"{hose} goes over a hump of {places}"
    system = line.system
    worst = max(each.depth for each in high)
    way_out = "Lead it without the hump, or fit a bleed at its highest point."
    if flow.idle is None or bore is None:
        pump = f"`idle-flow` at {flow.of}" if flow.of else "a pump with its `idle-flow`"
        missing = pump if flow.idle is None else f"the bore of {hose}"
        return (
            found(
                "coolant-hump",
                (hose,),
                f"{humped}. Whether the flow carries the air along when it is filled and at idle "
                f"is not known; it takes {slow:g} m/s.",
                f"Type {missing}. Or: {way_out[0].lower()}{way_out[1:]}",
                system=system,
                value=mm(worst),
                severity=Severity.ASK,
            ),
        )
    speed = flow.idle / (pi * bore * bore / 4.0)
    if speed >= slow:
        return ()
    return (
        found(
            "coolant-hump",
            (hose,),
            f"{humped}. At {flow.idle * 6e4:.3g} L/min the coolant goes {speed:.2f} m/s, under the "
            f"{slow:g} m/s that carry air along: air stays there.",
            way_out,
            system=system,
            value=f"{speed:.2f} m/s",
            limit=f"{slow:g} m/s",
            measure=slow - speed,
        ),
    )


def idle_flow(car: Car, line: Line) -> Flow:
    """What runs through a coolant line when it is filled and at idle.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        A line of coolant.

    Returns
    -------
    Flow
        As typed as ``idle-flow`` at the pump of its system; an electric pump's ``flow`` does as
        well, since it runs alike at idle. Where lines branch this is more than each one has.
    """
    pumps = [
        each
        for each in car.components.values()
        if "pump" in each.kind and each.system == line.system and _is_coolant(car, each, line)
    ]
    for pump in pumps:
        names = ("idle-flow",) if pump.kind == "water pump" else ("idle-flow", "flow")
        for name in names:
            value = pump.traits.get(name)
            if isinstance(value, int | float) and not isinstance(value, bool):
                return Flow(float(value), pump.id)
    return Flow(None, pumps[0].id if pumps else "")


def _is_coolant(car: Car, pump: Component, line: Line) -> bool:
    system = car.systems.get(pump.system or "")
    return system is None or system.medium is line.medium


def _level(conditions: tuple[Condition, ...]) -> Condition:
    return next((each for each in conditions if each.name == LEVEL.name), LEVEL)


def _up(condition: Condition) -> Vector:
    x, y, z = condition.down
    return (-x, -y, -z)


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
    up = _up(LEVEL)
    highs = [each.at for each in pockets(path, up, 0.0)]
    lows = [each.at for each in pockets(path, LEVEL.down, 0.0)]
    heights = [dot(point, up) for point in (first, last)]
    tops = [dot(point, up) for point in highs]
    if max(heights) >= max(tops, default=-1e9):
        highs.append(first if heights[0] >= heights[1] else last)
    floors = [dot(point, up) for point in lows]
    if min(heights) <= min(floors, default=1e9):
        lows.append(first if heights[0] <= heights[1] else last)
    return replace(route, highs=tuple(highs), lows=tuple(lows))
