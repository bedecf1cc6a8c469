# SPDX-License-Identifier: Apache-2.0
"""What moves against a line: how far, what a body sweeps then, and the slack that asks."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import product
from math import sqrt

from linewright.base.evidence import Figure, Grade, weakest
from linewright.base.vectors import Vector, ahead, dot, unit
from linewright.car.model import Car, Line, Travel
from linewright.joints.offered import cited, setting
from linewright.space.bodies import Solid
from linewright.space.outlines import HalfSpace, Obstacle, Tube

#: What moves unless the builder says otherwise, and the setting that says how far.
_MOVING = {
    "engine": "engine-movement-top",
    "exhaust": "exhaust-movement",
    "axle": "axle-movement",
}

_STILL: Vector = (0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Sweep:
    """How far something goes against something else: all ways alike, and along the car's axes.

    ``low`` is the way back along x, y and z, ``high`` the way on; both come on top of ``reach``.
    """

    reach: float = 0.0
    low: Vector = _STILL
    high: Vector = _STILL

    @property
    def is_along_axes(self) -> bool:
        """Whether it goes further one way than another."""
        return self.low != _STILL or self.high != _STILL

    @property
    def most(self) -> float:
        """The farthest that it goes. [m]"""
        return self.reach + max(
            sqrt(sum(c * c for c in corner))
            for corner in product(*zip(self.low, self.high, strict=True))
        )


def movement(car: Car, rides: str) -> Figure | Travel:
    """How far what rides on a body goes from where it was measured.

    Parameters
    ----------
    car : Car
        The car document as read.
    rides : str
        The word of ``rides``.

    Returns
    -------
    Figure or Travel
        As typed under ``[movement]``, else the trade's figure, for all ways alike; nothing for
        the chassis and for words that nobody gave a figure. [m]
    """
    typed = car.movement.get(rides)
    if typed is not None:
        return typed
    name = _MOVING.get(rides)
    if name is not None:
        return setting(car, name)
    return Figure(0.0, "m", Grade.PRACTICE, f"{rides}: no movement said")


def _own(car: Car, rides: str) -> Sweep:
    moves = movement(car, rides)
    if isinstance(moves, Travel):
        return Sweep(0.0, moves.low, moves.high)
    return Sweep(moves.value)


def sweep(car: Car, rides: str, line_rides: Iterable[str]) -> Sweep:
    """How far a body may come towards a line by riding on something else.

    Parameters
    ----------
    car : Car
        The car document as read.
    rides : str
        What carries the body.
    line_rides : Iterable of str
        What carries the ends of the line.

    Returns
    -------
    Sweep
        Nothing where all of them ride together; else the body's movement against the most of
        the line's ends that it does not ride with.
    """
    others = [_own(car, other) for other in sorted({o for o in line_rides if o != rides})]
    if not others:
        return Sweep()
    own = _own(car, rides)
    # The line goes one way: seen from it, the body goes the other.
    low = [own.low[k] - max(other.high[k] for other in others) for k in range(3)]
    high = [own.high[k] - min(other.low[k] for other in others) for k in range(3)]
    return Sweep(
        own.reach + max(other.reach for other in others),
        (low[0] + 0.0, low[1] + 0.0, low[2] + 0.0),
        (high[0] + 0.0, high[1] + 0.0, high[2] + 0.0),
    )


def growth(car: Car, rides: str, line_rides: Iterable[str]) -> float:
    """How far a body may come towards a line in every way alike.

    Parameters
    ----------
    car, rides, line_rides
        As for `sweep`.

    Returns
    -------
    float
        What `swept` does not hold already. [m]
    """
    return sweep(car, rides, line_rides).reach


def swept(each: Obstacle, by: Sweep) -> Obstacle:
    """An obstacle with all that it takes by moving along the car's axes.

    Parameters
    ----------
    each : Solid, Tube, Wall or HalfSpace
        Where it was measured.
    by : Sweep
        How far it goes.

    Returns
    -------
    Obstacle
        Never less than it sweeps. What it goes all ways alike is not in it: a scene adds that.
    """
    if not by.is_along_axes:
        return each
    (ax, ay, az), (bx, by_, bz) = by.low, by.high
    shift = ((ax + bx) / 2.0, (ay + by_) / 2.0, (az + bz) / 2.0)
    half = ((bx - ax) / 2.0, (by_ - ay) / 2.0, (bz - az) / 2.0)
    if isinstance(each, Solid):
        grown = (each.grown[0] + half[0], each.grown[1] + half[1], each.grown[2] + half[2])
        return replace(each, middle=ahead(each.middle, shift, 1.0), grown=grown)
    if isinstance(each, Tube):
        points = tuple(ahead(point, shift, 1.0) for point in each.points)
        return replace(each, points=points, radius=each.radius + sqrt(dot(half, half)))
    normal = unit(each.points)
    along = sum(abs(n) * h for n, h in zip(normal, half, strict=True))
    if isinstance(each, HalfSpace):
        return replace(each, at=ahead(each.at, normal, dot(normal, shift) + along))
    # A wall takes more across; along itself it has no end, or the sweep of its edges.
    wide = 2.0 * sqrt(max(0.0, dot(half, half) - along * along))
    size = each.size and (each.size[0] + wide, each.size[1] + wide)
    holes = tuple(
        replace(hole, at=ahead(hole.at, shift, 1.0), radius=max(0.0, hole.radius - wide / 2.0))
        for hole in each.holes
    )
    return replace(
        each,
        at=ahead(each.at, shift, 1.0),
        thickness=each.thickness + 2.0 * along,
        size=size,
        holes=holes,
    )


def travel_words(car: Car, rides: str) -> str:
    """Say how far what rides on a body goes.

    Parameters
    ----------
    car : Car
        The car document as read.
    rides : str
        The word of ``rides``.

    Returns
    -------
    str
        As in "the axle (80 mm all ways, practice)".
    """
    moves = movement(car, rides)
    if isinstance(moves, Travel):
        ways = [
            f"{name} {low * 1e3:.0f} to {high * 1e3:.0f} mm"
            for name, low, high in zip("xyz", moves.low, moves.high, strict=True)
            if low or high
        ]
        return f"the {rides} ({', '.join(ways) or 'none'}, {moves.grade})"
    return f"the {rides} ({moves.value * 1e3:.0f} mm all ways, {moves.grade})"


def slack(car: Car, line: Line) -> Figure:
    """Free length that a hose needs between its last support and an end that moves.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        A line between what moves.

    Returns
    -------
    Figure
        The trade's figure for an engine, or how far its ends go apart where that is more: no
        hose is asked for more length than its ends travel. [m]
    """
    least = setting(car, "engine-slack")
    owners = [car.components.get(p.partition(".")[0]) for p in (line.from_port, line.to_port)]
    rides = [owner.rides for owner in owners if owner is not None]
    if len(rides) < 2:
        return least
    most = sweep(car, rides[0], rides[1:]).most
    if most <= least.value:
        return least
    moves = [movement(car, ride) for ride in rides if ride != "chassis"]
    who = " and the ".join(sorted({ride for ride in rides if ride != "chassis"}))
    return Figure(most, "m", weakest([each.grade for each in moves]), f"travel of the {who}")


def slack_source(car: Car, line: Line) -> str:
    """Where the slack of a line comes from.

    Parameters
    ----------
    car, line
        As for `slack`.

    Returns
    -------
    str
        A key of the sources, or ``the car document``.
    """
    owners = [car.components.get(p.partition(".")[0]) for p in (line.from_port, line.to_port)]
    rides = [owner.rides for owner in owners if owner is not None]
    if slack(car, line) == setting(car, "engine-slack"):
        return cited(car, "engine-slack")
    names = [_MOVING[r] for r in rides if r in _MOVING and r not in car.movement]
    return cited(car, names[0]) if names else "the car document"


class Swept:
    """The bodies of a car as lines see them that ride on different things; each made once."""

    def __init__(self, car: Car, fixed: Iterable[Obstacle]) -> None:
        self.car, self.fixed = car, tuple(fixed)
        self._known: dict[object, tuple[Obstacle, ...]] = {}

    def of(self, rides: tuple[str, ...], held: frozenset[str]) -> tuple[Obstacle, ...]:
        """All bodies with what they sweep against a line.

        Parameters
        ----------
        rides : tuple of str
            What carries the ends of the line.
        held : frozenset of str
            Panels that hold the line where it goes through them: they do not come nearer.

        Returns
        -------
        tuple of Obstacle
            In their order.
        """
        key = (rides, held)
        if key not in self._known:
            ways = {ride: sweep(self.car, ride, rides) for ride in {o.rides for o in self.fixed}}
            self._known[key] = tuple(
                each if each.id in held else swept(each, ways[each.rides]) for each in self.fixed
            )
        return self._known[key]
