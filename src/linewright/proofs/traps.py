# SPDX-License-Identifier: Apache-2.0
"""High points of lines in which something flows: air before a pump, air in coolant, lift."""

from dataclasses import dataclass
from math import pi

from linewright.base.finding import Finding, Severity
from linewright.base.vectors import Vector
from linewright.car.model import Car, Component, Condition, Line
from linewright.proofs.course import pockets
from linewright.proofs.downs import LEVEL, also_in, head, spoken, up
from linewright.proofs.found import at, found, mm
from linewright.space.path import Path


@dataclass(frozen=True, slots=True)
class Flow:
    """What runs through a coolant line while air has to be carried out of it. [m3/s]

    ``idle`` is None where nobody typed it; ``of`` is the pump that was asked, "" for none.
    """

    idle: float | None
    of: str = ""


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
    humps_here = pockets(path, up(_level(conditions)), least_depth)
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
    ends: tuple[Vector, Vector],
    conditions: tuple[Condition, ...],
    least_lift: float = 0.0,
) -> tuple[Finding, ...]:
    """Compare the two ends of a suction line in every condition.

    Parameters
    ----------
    line : Line
        The whole line, also where panels cut it into pieces.
    ends : tuple of Vector
        Its ports, that at the tank first. [m]
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
    a, b = ends
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
            (line.id,),
            f"In {spoken(where.name)} the end of {line.id} at the pump stands {mm(high)} of the "
            f"fluid's own head above its end at the tank, were it level: the pump has to lift that."
            f"{also_in(also)}",
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
    >>> from linewright.car.model import Construction, Medium
    >>> line = Line("C01", "P.out", "R.in", "c", Medium.COOLANT, "-16", "EPDM", Construction.HOSE)
    >>> hump = Path(((0, 0, 0), (0.2, 0, 0.03), (0.4, 0, 0)), (0.001,))
    >>> (slow,) = humps(line, "C01", hump, 0.0222, Flow(8 / 60000), 0.6, 0.005)
    >>> slow.value, slow.limit
    ('0.34 m/s', '0.6 m/s')
    >>> humps(line, "C01", hump, 0.0222, Flow(30 / 60000), 0.6, 0.005)
    ()
    """
    high = pockets(path, up(_level(conditions)), least_depth)
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
