# SPDX-License-Identifier: Apache-2.0
"""What zones ask of a course: heat, movement, free rooms, the driver, and what drips fall on."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import ceil, dist
from typing import TYPE_CHECKING

from linewright.base.evidence import Grade
from linewright.base.finding import Finding, Severity
from linewright.base.vectors import Vector, ahead, square, turned_about
from linewright.car.model import Car, Condition, Line, Medium, ZoneKind
from linewright.joints.offered import setting
from linewright.proofs.course import course
from linewright.proofs.found import at, found, mm
from linewright.routes.route import Route
from linewright.space.bodies import Solid
from linewright.space.moving import sweep, swept
from linewright.space.path import sample

if TYPE_CHECKING:
    from linewright.space.meshes import Drawn
    from linewright.space.obstacles import Scene

#: Courses are looked at in points this far apart; between them they are straight enough. [m]
_STEP = 0.005

#: So near to a port a hose is what its port makes it. [m]
_JOINT = 0.06

#: Drops are followed down in steps of this. [m]
_DROP = 0.005

#: As far as any drop falls in a car. [m]
_DEEP = 3.0

#: Directions round a joint that drips may fall beside it, as turns. [rad]
_ROUND = tuple(k * 0.7853981633974483 for k in range(8))


@dataclass(frozen=True, slots=True)
class Asked:
    """One hose as zones see it: its course, what its ends ride on, and where its joints are."""

    hose: str
    line: Line
    route: Route
    outside: float
    rides: tuple[str, ...]
    joints: tuple[tuple[str, Vector], ...]

    @property
    def is_liquid(self) -> bool:
        """Whether a leak drips."""
        return self.line.medium is not Medium.AIR and self.line.service != "reference"


def ask(hose: str, line: Line, route: Route, outside: float, rides: Iterable[str]) -> Asked:
    """Put together what zones look at.

    Parameters
    ----------
    hose : str
        The hose.
    line : Line
        Its line.
    route : Route
        Its course.
    outside : float
        Its diameter. [m]
    rides : iterable of str
        What carries its ends.

    Returns
    -------
    Asked
        Its joints stand at its two ports.
    """
    path = course(route)
    joints = (
        (f"{hose}.A", path.corners[0]),
        (f"{hose}.B", path.corners[-1]),
    )
    return Asked(hose, line, route, outside, tuple(rides), joints)


def zones(
    car: Car,
    asked: Asked,
    solids: Iterable[Solid],
    conditions: tuple[Condition, ...],
    meshes: "Mapping[tuple[str, float], Drawn] | None" = None,
) -> tuple[Finding, ...]:
    """Say what the zones of a car have against a hose.

    Parameters
    ----------
    car : Car
        The car document as read.
    asked : Asked
        The hose.
    solids : iterable of Solid
        Bodies and zones of the car; only its zones are looked at.
    conditions : tuple of Condition
        Where down is, for drips; only those that are held count.
    meshes : mapping, optional
        What was read of each mesh; a zone whose mesh is not among them is left out.

    Returns
    -------
    tuple of Finding
        ``near-hot``, ``near-moving``, ``in-zone``, ``driver-joint``, ``driver-line``,
        ``drips-on``; in the order of the zones.
    """
    told: list[Finding] = []
    for solid in solids:
        if solid.zone is None:
            continue
        scene = _alone(car, asked, solid, meshes)
        if not scene.obstacles:
            continue
        match solid.zone:
            case ZoneKind.HOT:
                told += _hot(car, asked, solid, scene)
                told += _drips(car, asked, solid, scene, conditions)
            case ZoneKind.MOVING:
                told += _moving(asked, solid, scene)
            case ZoneKind.KEEP_OUT:
                told += _free(asked, solid, scene)
            case ZoneKind.DRIVER:
                told += _driver(asked, solid, scene)
            case ZoneKind.SPILL_SENSITIVE:
                told += _drips(car, asked, solid, scene, conditions)
    return tuple(told)


def _alone(
    car: Car, asked: Asked, solid: Solid, meshes: "Mapping[tuple[str, float], Drawn] | None"
) -> "Scene":
    """A zone by itself, grown by how it moves against the hose."""
    from linewright.space.obstacles import Scene

    by = sweep(car, solid.rides, asked.rides)
    return Scene.build([swept(solid, by)], meshes, {solid.rides: by.reach})


def _nearest(asked: Asked, scene: "Scene") -> tuple[float, Vector]:
    """Least gap from a hose to what is in a scene, after all movement, and where."""
    points = sample(course(asked.route), _STEP)
    least = scene.least_along(points, asked.outside / 2.0)
    return least.gap, least.at


def _hot(car: Car, asked: Asked, solid: Solid, scene: "Scene") -> Iterable[Finding]:
    gap, where = _nearest(asked, scene)
    if gap >= solid.clearance - 1e-6:
        return
    never = setting(car, "clearance-hot-least").value
    zone = car.zones.get(solid.id)
    is_shielded = zone is not None and zone.is_shielded
    shield = ", behind its shield" if is_shielded else ""
    # What is screwed on a hot part cannot be led away from it.
    is_joint = any(dist(where, spot) < _JOINT for _, spot in asked.joints)
    way_out = (
        "Lead it away or put a shield between and say `shielded = true`; a sleeve does not raise "
        "what a hose stands."
    )
    if is_joint:
        way_out = (
            "Its port is that near: turn the hose end away from it, cover both with "
            f"{'a closer' if is_shielded else 'a'} shield, and take a hose that stands the heat "
            "there."
        )
    yield found(
        "near-hot",
        (asked.hose, solid.id),
        f"{asked.hose} comes within {_gap(gap)} of {solid.id}{shield}, after all movement, at "
        f"{at(where)}.",
        way_out,
        system=asked.line.system,
        value=_gap(gap),
        limit=mm(solid.clearance),
        measure=solid.clearance - gap,
        severity=Severity.STOP if gap < never - 1e-6 and not is_joint else None,
    )


def _moving(asked: Asked, solid: Solid, scene: "Scene") -> Iterable[Finding]:
    gap, where = _nearest(asked, scene)
    if gap >= solid.clearance - 1e-6:
        return
    how = "is hit by" if gap < 0.0 else f"comes within {_gap(gap)} of"
    yield found(
        "near-moving",
        (asked.hose, solid.id),
        f"{asked.hose} {how} {solid.id} somewhere in its travel, at {at(where)}.",
        "Lead it away or clip it back, or type the travel as measured.",
        system=asked.line.system,
        value=_gap(gap),
        limit=mm(solid.clearance),
        measure=solid.clearance - gap,
        severity=Severity.STOP if gap < 0.0 else None,
    )


def _free(asked: Asked, solid: Solid, scene: "Scene") -> Iterable[Finding]:
    gap, where = _nearest(asked, scene)
    if gap >= -1e-6:
        return
    yield found(
        "in-zone",
        (asked.hose, solid.id),
        f"{asked.hose} runs {mm(-gap)} deep through {solid.id}, which is to be kept free, at "
        f"{at(where)}.",
        "Give it another way, by a guide for instance, or make that room smaller.",
        system=asked.line.system,
        value=mm(-gap),
        limit=mm(0.0),
        measure=-gap,
        grade=Grade.STATED,
    )


def _driver(asked: Asked, solid: Solid, scene: "Scene") -> Iterable[Finding]:
    import numpy as np

    inside = [
        (name, spot) for name, spot in asked.joints if scene.least(np.array([spot]), 0.0).gap < 0.0
    ]
    if inside and asked.is_liquid:
        places = " and ".join(f"{name}, {at(spot)}," for name, spot in inside)
        are = "lies" if len(inside) == 1 else "lie"
        yield found(
            "driver-joint",
            (asked.hose, solid.id),
            f"Joint {places} {are} in {solid.id}: what leaks there reaches the driver.",
            "Move it out of that room, to a bulkhead for instance, or box it in. Rulebooks "
            "differ: look it up in the current book of the body concerned.",
            system=asked.line.system,
            measure=float(len(inside)),
            source="student-formula-rule-book; two-public-regulation-texts-derived-fia",
            grade=Grade.READ,
        )
    gap, where = _nearest(asked, scene)
    if gap < 0.0 and asked.is_liquid:
        yield found(
            "driver-line",
            (asked.hose, solid.id),
            f"{asked.hose} runs through {solid.id}, at {at(where)} for instance.",
            "Rulebooks ask for steel tube, metal braid or a box there, or forbid it: look it up "
            "in the current book of the body concerned.",
            system=asked.line.system,
            source="student-formula-rule-book; two-public-regulation-texts-derived-fia",
            grade=Grade.READ,
        )


def _drips(
    car: Car, asked: Asked, solid: Solid, scene: "Scene", conditions: tuple[Condition, ...]
) -> Iterable[Finding]:
    if not asked.is_liquid:
        return
    margin = setting(car, "drip-margin").value
    for name, spot in asked.joints:
        for each in conditions:
            if not each.is_held:
                continue
            fall = _falls(spot, each.down, margin, scene)
            if fall is None:
                continue
            where = "straight above" if each.down[2] < -0.9999 else f"in {each.name} above"
            yield found(
                "drips-on",
                (asked.hose, solid.id),
                f"Joint {name} at {at(spot)} is {where} {solid.id}, {mm(fall)} over it: what "
                "weeps there drips on it.",
                "Move the joint aside, or put a shield under it that leads the drip away.",
                system=asked.line.system,
                value=mm(fall),
                measure=1.0 / max(fall, 1e-3),
                printed=fall,
                is_less_worse=True,
                severity=_weight(car, asked, solid),
            )
            return


def _weight(car: Car, asked: Asked, solid: Solid) -> Severity | None:
    """Fuel and oil on what is hot start fires: a stop where no shield catches them."""
    burns = asked.line.medium in (Medium.FUEL, Medium.OIL)
    zone = car.zones.get(solid.id)
    is_bare = solid.zone is ZoneKind.HOT and not (zone is not None and zone.is_shielded)
    return Severity.STOP if burns and is_bare else None


def _falls(spot: Vector, down: Vector, margin: float, scene: "Scene") -> float | None:
    """How far a drop falls from a joint, or from beside it, before it meets a zone. [m]"""
    import numpy as np

    ends = np.array([spot, ahead(spot, down, _DEEP)])
    # Most joints are nowhere above it: then no drop has to be followed.
    if not scene.near(ends.min(axis=0) - margin - _DROP, ends.max(axis=0) + margin + _DROP):
        return None
    aside = square(down)
    starts = [spot]
    starts += [ahead(spot, turned_about(down, turn, aside), margin) for turn in _ROUND]
    steps = np.arange(0, ceil(_DEEP / _DROP) + 1) * _DROP
    best: float | None = None
    for start in starts:
        points = np.array(start) + steps[:, None] * np.array(down)
        gaps, _ = scene.gaps(points, 0.0)
        met = np.flatnonzero(gaps <= _DROP / 2.0)
        # What begins in the zone is beside it, not above: that it is near is told elsewhere.
        if len(met) and met[0] > 0:
            fall = float(steps[met[0]])
            best = fall if best is None else min(best, fall)
    return best


def _gap(gap: float) -> str:
    return mm(max(gap, 0.0))
