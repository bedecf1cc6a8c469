# SPDX-License-Identifier: Apache-2.0
"""How far a hose gives way: drawn back, sidewise, and in angle.

All of it is plain geometry of arcs that are bent no tighter than the hose allows: what a hose
does beyond that is not reckoned with.
"""

from dataclasses import dataclass
from math import cos, sin

from linewright.base.vectors import Vector, ahead
from linewright.proofs.course import outlet
from linewright.routes.route import Route
from linewright.space.free import shortest
from linewright.space.model import Limits, Setting
from linewright.space.path import fits, length


@dataclass(frozen=True, slots=True)
class Gives:
    """What misalignment a hose takes between its collars: sidewise [m] and in angle [rad]."""

    aside: float
    angle: float


def gives(run: float, limits: Limits) -> Gives:
    """Misalignment that a straight hose takes.

    Parameters
    ----------
    run : float
        Free hose, collar to collar. [m]
    limits : Limits
        Its least radius and the straight after each collar.

    Returns
    -------
    Gives
        Sidewise by two opposite arcs, in angle by one. Nothing where the straights are all of
        it.

    Examples
    --------
    >>> some = gives(0.10, Limits(0.0234, 0.168, 0.0))
    >>> round(some.aside * 1000, 1), round(some.angle, 3)
    (14.8, 0.595)
    """
    bent = max(0.0, run - 2.0 * limits.straight)
    half = bent / 2.0 / limits.bend_radius
    return Gives(2.0 * limits.bend_radius * (1.0 - cos(half)), bent / limits.bend_radius)


def bows(run: float, limits: Limits) -> float:
    """How much nearer the ends of a straight hose can come by its bowing out.

    Parameters
    ----------
    run : float
        Free hose, collar to collar. [m]
    limits : Limits
        Its least radius and the straight after each collar.

    Returns
    -------
    float
        Between ends that keep their direction: four arcs of a quarter each. [m]

    Examples
    --------
    >>> round(bows(0.20, Limits(0.0234, 0.168, 0.0)) * 1000, 1)
    2.9
    """
    bent = max(0.0, run - 2.0 * limits.straight)
    quarter = bent / 4.0 / limits.bend_radius
    return bent - 4.0 * limits.bend_radius * sin(quarter)


def short_of_travel(
    route: Route, limits: Limits, side: str, travel: float, slack: float = 0.0
) -> float:
    """What is missing before a hose end can be drawn back to put its nut on.

    Parameters
    ----------
    route : Route
        The hose, its other end made up.
    limits : Limits
        What its centreline keeps; give the radius to which it may be bowed by hand.
    side : str
        ``"A"`` or ``"B"``: the end that is put on last.
    travel : float
        How far it is drawn back along its port. [m]
    slack : float
        What the hose is longer than its route. [m]

    Returns
    -------
    float
        0 where it goes: the course from the other collar to the one drawn back is no longer
        than the hose with its slack, and what the bare route is longer can bow out. Else the
        length of hose that is missing, or that has nowhere to go. [m]
    """
    fixed, drawn = (route.a, route.b) if side == "B" else (route.b, route.a)
    there = ahead(drawn.collar, outlet(drawn), -travel)
    back = shortest(
        fixed.collar, _leaves(fixed), there, _leaves(drawn), limits.bend_radius, limits.straight
    )
    if back is None or fits(back) is not None:
        return travel
    need = length(back)
    if need > route.length + slack + 1e-6:
        return need - route.length - slack
    return max(0.0, route.length - need - bows(route.length, limits))


def _leaves(end: Setting) -> Vector:
    return (-end.n[0], -end.n[1], -end.n[2])
