# SPDX-License-Identifier: Apache-2.0
"""Can it be put on: a nut that turns alone, travel to engage it, room for hand and spanner."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from functools import cache
from math import ceil, cos, degrees, radians, sin, sqrt
from typing import TYPE_CHECKING

from linewright.base.evidence import Figure, Grade
from linewright.base.finding import Finding, Severity
from linewright.base.vectors import Vector, ahead, cross, square, unit
from linewright.car.model import Car, Line
from linewright.ends.end import Family
from linewright.joints.model import Chain, Termination
from linewright.joints.offered import setting
from linewright.proofs.course import outlet
from linewright.proofs.found import at, found, mm
from linewright.proofs.stiffness import gives, short_of_travel
from linewright.routes.route import Route
from linewright.space.model import Frame, Limits, Setting
from linewright.tables.load import rows

if TYPE_CHECKING:
    from linewright.space.obstacles import Scene

#: Swings are looked at in steps of this. [deg]
_STEP = 5

#: Half the thickness of a spanner with room to hold it. [m]
_HANDLE = 0.008

#: What a handle keeps off the face that its nut stands on. [m]
_SKIN = 0.001

#: Two sigma hold a position in 95 % of cases. [-]
_SIGMAS = 1.96

#: What is less is no travel that anyone misses. [m]
_TOLD = 0.0005

#: Joints that are made with the hose standing still: a bolt through an eye, a thing slid on.
_APART = (Family.BANJO, Family.BEAD, Family.BARB, Family.FLANGE, Family.VBAND, Family.QC)


@dataclass(frozen=True, slots=True)
class Swing:
    """Room round a nut [deg]: the widest free swing of a spanner, and of fingers in all."""

    spanner: float
    fingers: float


@cache
def _flats() -> dict[str, Figure]:
    return {
        row["dash"]: Figure(float(row["flats_mm"]) / 1000, "m", Grade(row["grade"]), row["source"])
        for row in rows("nut_flats")
    }


def turns_alone(chain: Chain) -> bool:
    """Tell whether a hose can be made up on its port without turning the hose.

    Parameters
    ----------
    chain : Chain
        What stands between the port and the hose.

    Returns
    -------
    bool
        By a nut that turns by itself, a banjo's bolt, a flange, or by sliding on.
    """
    ends = [end for part in chain.parts for end in part.ends]
    return chain.hose_end is None or any(e.swivel or e.family in _APART for e in ends)


def last_nut(hose: str, line: Line, ends: Iterable[Termination]) -> tuple[Finding, ...]:
    """Look for the nut that is tightened last.

    Parameters
    ----------
    hose : str
        The hose.
    line : Line
        Its line.
    ends : iterable of Termination
        What stands at both its ends.

    Returns
    -------
    tuple of Finding
        None, or one ``last-nut``: both ends would be screwed in with the hose. What nothing is
        chosen for is not judged.
    """
    chains = [each.chain for each in ends]
    fixed = [each for each in chains if each is not None and not turns_alone(each)]
    if len(fixed) < 2:
        return ()
    names = " and ".join(f"a {each.hose_end.name}" for each in fixed if each.hose_end)
    return (
        found(
            "last-nut",
            (hose,),
            f"{hose} has {names}: both are screwed in with the hose, and the last one twists it.",
            "Take a hose end with a swivel nut at one end, with an adaptor that it fits.",
            system=line.system,
        ),
    )


def travel(
    car: Car, hose: str, line: Line, route: Route, limits: Limits, slack: float
) -> tuple[Finding, ...]:
    """See whether one end of a hose can be drawn back to put its nut on.

    Parameters
    ----------
    car : Car
        The car document as read.
    hose : str
        The hose.
    line : Line
        Its line.
    route : Route
        Its course.
    limits : Limits
        What its centreline keeps.
    slack : float
        What it is longer than its course. [m]

    Returns
    -------
    tuple of Finding
        None, or one ``no-travel`` where neither end can be the last.
    """
    far = setting(car, "nut-travel").value
    by_hand = replace(
        limits, bend_radius=limits.bend_radius * setting(car, "handling-radius").value
    )
    missing = min(short_of_travel(route, by_hand, side, far, slack) for side in ("A", "B"))
    if missing <= _TOLD:
        return ()
    return (
        found(
            "no-travel",
            (hose,),
            f"{hose} is {mm(route.length)} long between its collars and cannot be drawn back "
            f"{mm(far)} at either end to put its last nut on: {_tenths(missing)} are in the way.",
            "Give it a bend or more length, take an elbow at one end, or put a union in it.",
            system=line.system,
            value=_tenths(far - min(missing, far)),
            limit=mm(far),
            measure=missing,
        ),
    )


def _tenths(length: float) -> str:
    return f"{length * 1000:.1f} mm"


def short(
    car: Car, hose: str, line: Line, route: Route, limits: Limits, ports: tuple[Frame, Frame]
) -> tuple[Finding, ...]:
    """Say what misalignment a short hose takes, and whether its ports are known that well.

    Parameters
    ----------
    car : Car
        The car document as read.
    hose : str
        The hose.
    line : Line
        Its line.
    route : Route
        Its course.
    limits : Limits
        What its centreline keeps.
    ports : tuple of Frame
        Its ports with the spread of each.

    Returns
    -------
    tuple of Finding
        None for a hose of five times its diameter or more. Else one ``hose-stiff``: a note
        where it takes what the ports may be out by, a warning where it does not.
    """
    limit = setting(car, "hose-shortest").value * limits.outside
    if route.length >= limit:
        return ()
    takes = gives(route.length, limits)
    spread = _SIGMAS * sqrt(sum(port.spread**2 for port in ports))
    tilt = _SIGMAS * sqrt(sum(port.tilt**2 for port in ports))
    is_enough = takes.aside >= spread and takes.angle >= tilt
    takes_all = f"{_tenths(takes.aside)} sidewise or {degrees(takes.angle):.0f}°"
    known = f"{mm(spread)} and {degrees(tilt):.0f}° (95 %)"
    reason = (
        f"{hose} has {mm(route.length)} of free hose, under five times its diameter: bent no "
        f"tighter than it may be it takes {takes_all}. Its ports are known to {known}."
    )
    way_out = (
        "Mount both parts before it is cut, and keep them there."
        if is_enough
        else "Measure both ports once the parts are mounted, or put a coupler or a swivel in its "
        "place."
    )
    return (
        found(
            "hose-stiff",
            (hose,),
            reason,
            way_out,
            system=line.system,
            value=_tenths(takes.aside),
            limit=mm(spread),
            measure=spread - takes.aside,
            severity=Severity.NOTE if is_enough else None,
            grade=Grade.DERIVED,
        ),
    )


def swing(
    end: Setting, flats: float, reach: float, fingers: float, scene: "Scene", leave: Collection[str]
) -> Swing:
    """Measure the room round a nut.

    Parameters
    ----------
    end : Setting
        The hose end that it is on.
    flats : float
        Its width across flats. [m]
    reach : float
        Length of the spanner from the middle of the nut. [m]
    fingers : float
        Room that fingers need beside the nut. [m]
    scene : Scene
        What stands round it.
    leave : collection of str
        What is not looked at, such as the hose itself.

    Returns
    -------
    Swing
        The widest run of directions, square to the port, in which a handle is free all along,
        and the sum of those in which fingers are. What the nut itself stands in counts for
        nothing: an outline that is too large.
    """
    import numpy as np

    seat, axis = seat_of(end), outlet(end)
    # The nut reaches back from its seat by about its width; hands come from the hose's side.
    middle = ahead(seat, axis, -max(flats / 2.0, _HANDLE + _SKIN))
    behind = ahead(seat, axis, -max(flats / 2.0, fingers / 2.0 + _SKIN))
    one = square(axis)
    two = cross(axis, one)
    corner = flats / sqrt(3.0)
    skip = {*leave, *_stands_in(scene, middle, leave)}
    count = 360 // _STEP
    turns = [radians(number * _STEP) for number in range(count)]
    ways = np.array(
        [
            unit(
                (
                    cos(turn) * one[0] + sin(turn) * two[0],
                    cos(turn) * one[1] + sin(turn) * two[1],
                    cos(turn) * one[2] + sin(turn) * two[2],
                )
            )
            for turn in turns
        ]
    )
    start = corner + _HANDLE
    steps = max(2, ceil((reach - start) / _HANDLE))
    along = np.array([start + (reach - start) * k / steps for k in range(steps + 1)])
    handles = np.array(middle) + along[None, :, None] * ways[:, None, :]
    least = scene.least_many(handles, _HANDLE, leave=skip, enough=0.0)
    free = [each.gap >= 0.0 for each in least]
    tips = np.array(behind) + (corner + fingers / 2.0) * ways
    near = scene.gaps(tips, fingers / 2.0, leave=skip)[0] >= 0.0
    return Swing(_widest(free), float(near.sum()) * _STEP)


def _stands_in(scene: "Scene", middle: Vector, leave: Collection[str]) -> frozenset[str]:
    """Bodies in which a nut stands, peeled off one after the other."""
    import numpy as np

    gone: set[str] = set()
    while True:
        least = scene.least(np.array([middle]), 0.0, leave={*leave, *gone})
        if least.gap >= 0.0 or not least.body:
            return frozenset(gone)
        gone.add(least.body)


def _widest(free: list[bool]) -> float:
    """Widest run of free directions round a circle. [deg]"""
    if all(free):
        return 360.0
    best = run = 0
    for each in (*free, *free):
        run = run + 1 if each else 0
        best = max(best, run)
    # So many directions have one step fewer between them.
    return max(0, min(best, len(free)) - 1) * float(_STEP)


def seat_of(end: Setting) -> Vector:
    """Where the nut of a hose end has its seat.

    Parameters
    ----------
    end : Setting
        The hose end as it stands.

    Returns
    -------
    Vector
        The point. [m]
    """
    return ahead(ahead(end.collar, end.n, end.shape.reach), end.side, end.shape.drop)


def farthest(car: Car, line: Line) -> float:
    """How far from its seat a body can stand in the way of hand and spanner.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        The line.

    Returns
    -------
    float
        The spanner, its handle, the nut and fingers together, which is more than any of them
        reaches. 0 where the nut is not in the data. [m]
    """
    nut = _flats().get(line.size)
    if nut is None:
        return 0.0
    reach = setting(car, "spanner-reach").value * nut.value
    fingers = setting(car, "finger-room").value
    return reach + 2.0 * nut.value + 2.0 * fingers + 2.0 * _HANDLE


def room(
    car: Car,
    hose: str,
    line: Line,
    route: Route,
    ends: tuple[str, str],
    scene: "Scene",
    leave: Collection[str] = (),
) -> tuple[Finding, ...]:
    """See whether hand and spanner reach both nuts of a hose.

    Parameters
    ----------
    car : Car
        The car document as read.
    hose : str
        The hose.
    line : Line
        Its line.
    route : Route
        Its course.
    ends : tuple of str
        What its two ends are on, in words: ports.
    scene : Scene
        What stands round it.
    leave : collection of str
        What is not looked at, such as the hose itself.

    Returns
    -------
    tuple of Finding
        ``spanner-room`` and ``hand-room``. A size whose nut is not in the data is not judged.
    """
    nut = _flats().get(line.size)
    if nut is None:
        return ()
    swing_least = setting(car, "spanner-swing").value
    flip = setting(car, "spanner-flip").value
    reach = setting(car, "spanner-reach").value * nut.value
    fingers = setting(car, "finger-room").value
    told: list[Finding] = []
    for setting_, port in zip((route.a, route.b), ends, strict=True):
        has = swing(setting_, nut.value, reach, fingers, scene, leave)
        where = f"the nut of {hose} at {port}, {at(seat_of(setting_))},"
        if has.spanner < swing_least - 1e-9:
            is_flipped = has.spanner >= flip - 1e-9
            how = (
                f"it takes the {flip:.0f}° of one that is turned over each time"
                if is_flipped
                else f"even turned over each time it needs {flip:.0f}°"
            )
            told.append(
                found(
                    "spanner-room",
                    (hose, port),
                    f"A spanner {mm(reach)} long has {has.spanner:.0f}° to swing on {where} of "
                    f"{swing_least:.0f}°; {how}.",
                    "Turn the elbow, take a longer adaptor or a shorter spanner, or put this nut "
                    "on before its neighbours.",
                    system=line.system,
                    value=f"{has.spanner:.0f}°",
                    limit=f"{swing_least:.0f}°",
                    measure=swing_least - has.spanner,
                    severity=Severity.NOTE if is_flipped else None,
                )
            )
        if has.fingers < 180.0:
            told.append(
                found(
                    "hand-room",
                    (hose, port),
                    f"Fingers reach {where} on {has.fingers:.0f}° of its round; half of it is "
                    "needed to start the thread by hand.",
                    "Turn the elbow or take a longer adaptor; a thread started with a spanner is "
                    "crossed.",
                    system=line.system,
                    value=f"{has.fingers:.0f}°",
                    limit="180°",
                    measure=180.0 - has.fingers,
                )
            )
    return tuple(told)
