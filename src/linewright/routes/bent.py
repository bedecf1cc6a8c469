# SPDX-License-Identifier: Apache-2.0
"""Bend schedule of a laid tube or pipe: straight, rotation, angle, and what it is cut from."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import degrees

from linewright.base.evidence import Figure
from linewright.base.ids import natural_key
from linewright.car.model import Car, Construction, Line
from linewright.joints.offered import setting
from linewright.routes.model import Routes
from linewright.routes.route import Route
from linewright.routes.shapes import BENT
from linewright.routes.tubes import stock_of
from linewright.space.path import Straight, bends, elements
from linewright.tables.bends import Stocked

#: An angle is that of a stocked bend if it is no more than this over it. [deg]
_SAME = 0.05


@dataclass(frozen=True, slots=True)
class BendRow:
    """One bend: the straight before it [m], its rotation and angle [rad].

    ``rotation`` turns the plane of the bend before into that of this one, right-handed about
    the direction from A to B; the first has none. ``stocked`` is the angle of the mandrel bend
    that it is cut from [deg], None for a tube that a bender bends.
    """

    straight: float
    rotation: float
    angle: float
    stocked: int | None = None


@dataclass(frozen=True, slots=True)
class Schedule:
    """How one tube or pipe is made. Lengths in m.

    ``last`` is the straight after the last bend, ``developed`` the centreline from end to end,
    ``blank`` what to cut before bending: developed and what is squared off at both ends.
    ``inserts`` are straight pieces of a charge pipe that no leg of a bend makes, in order;
    ``welds`` joins between its pieces.
    """

    id: str
    line: str
    is_pipe: bool
    outside: float
    radius: Figure
    bends: tuple[BendRow, ...]
    last: float
    developed: float
    blank: float
    inserts: tuple[float, ...] = ()
    welds: int = 0


def schedules(car: Car, routes: Routes) -> tuple[Schedule, ...]:
    """Bend schedules of all tubes and pipes that are laid in space.

    Parameters
    ----------
    car : Car
        The car document as read.
    routes : Routes
        The lengths and courses.

    Returns
    -------
    tuple of Schedule
        In the order of their ids.
    """
    lines = {run.id: car.lines[run.line] for run in routes.runs}
    found = []
    for route in sorted(routes.courses, key=lambda r: natural_key(r.id)):
        line = lines.get(route.id)
        stock = stock_of(line) if line is not None and line.construction in BENT else None
        if line is not None and stock is not None:
            found.append(schedule(car, line, route, stock))
    return tuple(found)


def schedule(car: Car, line: Line, route: Route, stock: Stocked) -> Schedule:
    """How one tube or pipe is made.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        Its line.
    route : Route
        Its course.
    stock : Stocked
        The bend that is stocked for it.

    Returns
    -------
    Schedule
        Bends in order from A. A pipe is cut from the least stocked bend that is enough; a bend
        that is cut down has lost the leg at its cut.
    """
    is_pipe = line.construction is Construction.PIPE
    rows = tuple(
        BendRow(
            bend.straight,
            bend.rotation,
            bend.angle,
            _enough(degrees(bend.angle), stock.angles) if is_pipe else None,
        )
        for bend in bends(route.path)
    )
    pieces = elements(route.path)
    last = pieces[-1].length if pieces and isinstance(pieces[-1], Straight) else 0.0
    spare = setting(car, "bend-end").value
    inserts = _inserts(rows, last, stock.leg) if is_pipe else ()
    return Schedule(
        route.id,
        line.id,
        is_pipe,
        stock.outside,
        stock.radius,
        rows,
        last,
        route.length,
        route.length + 2.0 * spare,
        tuple(run for run in inserts if run > 0.0),
        max(len(rows) + sum(run > 0.0 for run in inserts) - 1, 0) if is_pipe else 0,
    )


def _enough(angle: float, angles: Sequence[int]) -> int:
    """The least stocked bend from which an angle can be cut. [deg]"""
    return next((each for each in angles if each >= angle - _SAME), angles[-1])


def _inserts(rows: Sequence[BendRow], last: float, leg: float) -> tuple[float, ...]:
    """Straight pipe that is needed in each straight beside the legs of the bends. [m]

    Examples
    --------
    A right angle between straights of 150 and 80 mm, from a bend with legs of 100 mm:

    >>> [round(run, 3) for run in _inserts([BendRow(0.150, 0.0, 1.5708, 90)], 0.080, 0.100)]
    [0.05, 0.0]

    The same bend cut down to 60° keeps one leg, where the longer straight is:

    >>> [round(run, 3) for run in _inserts([BendRow(0.150, 0.0, 1.0472, 90)], 0.080, 0.100)]
    [0.05, 0.08]
    """
    left = [*(row.straight for row in rows), last]
    for k, row in enumerate(rows):
        is_whole = row.stocked is not None and degrees(row.angle) >= row.stocked - _SAME
        sides = (k, k + 1) if is_whole else (max((k, k + 1), key=lambda s: (left[s], -s)),)
        for side in sides:
            left[side] = max(left[side] - leg, 0.0)
    # What is shorter than a saw cut is none.
    return tuple(run if run > 0.001 else 0.0 for run in left)
