# SPDX-License-Identifier: Apache-2.0
"""The course of one hard tube or charge pipe: straights, and bends of one stocked radius."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import dist, inf, pi
from typing import TYPE_CHECKING

from linewright.base.vectors import Vector, ahead, between, dot, unit
from linewright.routes.courses import ends_of, polyline
from linewright.routes.route import BandRow, Clearance, Route
from linewright.routes.search import lay_line
from linewright.routes.tasks import Outcome, Task
from linewright.routes.tube_graph import LEAST, OVER, Bending, Graph
from linewright.space.bodies import Solid
from linewright.space.free import collar
from linewright.space.model import Setting
from linewright.space.path import Path, Straight, elements, extremes, fits, length

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

_UP: Vector = (0.0, 0.0, 1.0)

#: Gaps wider than this are not told. [m]
_TOLD = 0.2

#: How far the polyline that is looked at may be off the centreline. [m]
_OFF = 0.0005

#: Steps in which corners are moved to make a tube shorter. [m]
_STEPS = (0.040, 0.020, 0.010, 0.005, 0.002)

#: What a shorter tube must save to be worth a move. [m]
_SAVES = 0.0005

#: Walks of one number of bends that are shortened.
_SHORTENED = 4

#: Settings of elbows that are tried on a spigot, beside that towards the other end. [rad]
_TURNS = (0.0, pi / 2.0, pi, 3.0 * pi / 2.0)

#: Room round both ends in which bodies give places for corners. [m]
_ROOM = 0.25


@dataclass(frozen=True, slots=True)
class Found:
    """A course with both its ends, and what it costs. [m of tube]"""

    path: Path
    a: Setting
    b: Setting
    cost: float


def laying(keep: Bending | None) -> Callable[[Task], Outcome]:
    """The search for a line.

    Parameters
    ----------
    keep : Bending or None
        What the bench can do with a tube or pipe; None for hose.

    Returns
    -------
    callable
        From what is asked to what comes of it.
    """
    return lay_line if keep is None else lambda task: lay_tube(task, keep)


def lay_tube(task: Task, keep: Bending) -> Outcome:
    """Lay one hard tube or charge pipe.

    Parameters
    ----------
    task : Task
        The tube, its two ends, what it keeps and what it goes round.
    keep : Bending
        What the bench can do with it.

    Returns
    -------
    Outcome
        The cheapest route: what lies outside the ports and their bodies goes before all else,
        then bends, then length. None where none was found, then with what is in the way of its
        straightest course.
    """
    reach = _looked(task)
    best: Found | None = None
    for a, b in _settings(task):
        found = _course(task, keep, a, b)
        if found is not None and (best is None or found.cost < best.cost - 1e-9):
            best = found
    if best is None:
        return Outcome(None, (), (reach,), _blockers(task))
    route = _route(task, best)
    return Outcome(route, route.band, (reach,))


def _settings(task: Task) -> Iterator[tuple[Setting, Setting]]:
    sides = []
    for side, other in ((task.a, task.b), (task.b, task.a)):
        own: list[Setting] = []
        for shape in side.shapes:
            if side.angle is not None and shape.angle != side.angle and shape.turns != "fixed":
                continue
            if not shape.angle:
                own.append(collar(side.frame, shape, 0.0))
                continue
            turned = [collar(side.frame, shape, turn) for turn in _TURNS]
            goal = other.frame.origin
            turned.sort(key=lambda s: round(dist(ahead(s.collar, s.n, -0.1), goal), 6))
            own += turned
        sides.append(own)
    for a in sides[0]:
        for b in sides[1]:
            yield a, b


def _course(task: Task, keep: Bending, a: Setting, b: Setting) -> Found | None:
    """The best course between two settings, by way of the poses that it has to pass."""
    first = (a.collar, _back(a.n))
    last = (b.collar, _back(b.n))
    if not task.through:
        corners = _leg(task, keep, first, last)
    else:
        corners = _led(task, keep, first, last)
    if corners is None:
        return None
    path = Path(tuple(corners), (keep.radius,) * (len(corners) - 2))
    if len(path.radii) > keep.most_bends or not _is_clear(task, path):
        return None
    # An elbow of silicone at an end is a bend that has to be bought as well.
    elbows = bool(a.shape.angle) + bool(b.shape.angle)
    return Found(path, a, b, _cost(task, keep, corners) + elbows * keep.price)


def _back(n: Vector) -> Vector:
    return (-n[0], -n[1], -n[2])


def _led(
    task: Task, keep: Bending, first: tuple[Vector, Vector], last: tuple[Vector, Vector]
) -> list[Vector] | None:
    """Corners leg by leg from pose to pose."""
    corners: list[Vector] = [first[0]]
    here = first
    for number, (at, way) in enumerate((*task.through, (last[0], _back(last[1])))):
        is_last = number == len(task.through)
        # On a guide there is no end to be flared, only half of what the bender grips.
        grip = keep.between / 2.0
        begin, stop = keep.end if number == 0 else grip, keep.last if is_last else grip
        leg = _leg(task, replace(keep, end=begin, last=stop), here, (at, _back(way)))
        if leg is None:
            return None
        corners += leg[1:-1]
        here = (at, way)
    return [*corners, last[0]]


def _leg(
    task: Task, keep: Bending, a: tuple[Vector, Vector], b: tuple[Vector, Vector]
) -> list[Vector] | None:
    """Corners of the best course from one end to another, with both ends."""
    graph = Graph(
        a,
        b,
        keep,
        _places(task, keep, a[0], b[0]),
        lambda p, q: _clear(task, p, q),
        lambda p: _outside(task, p),
    )
    best: list[Vector] | None = None
    least = inf
    for bends, walks in enumerate(graph.walks()):
        if bends * keep.price + dist(a[0], b[0]) >= least:
            break
        paths = [Path(tuple(w), (keep.radius,) * (len(w) - 2)) for w in walks]
        good = [w for w, path in zip(walks, paths, strict=True) if _is_clear(task, path)]
        for walk in good[:_SHORTENED]:
            walk = _shortened(task, keep, walk, a[1], b[1])
            cost = _cost(task, keep, walk)
            if cost < least - 1e-9:
                best, least = walk, cost
    return best


def _outside(task: Task, points: "Floats") -> "Floats":
    """What points cost for lying outside the ports, their bodies and guides. [m of tube]"""
    import numpy as np

    low, high = (np.array(corner) for corner in task.box)
    beyond = np.maximum(np.maximum(low - points, points - high), 0.0)
    cost: Floats = task.weights.outside * beyond.sum(axis=1)
    return cost


def _cost(task: Task, keep: Bending, corners: Sequence[Vector]) -> float:
    """What a walk costs: the most of each axis outside, its bends and its length. [m of tube]"""
    beyond = 0.0
    for k in range(3):
        values = [p[k] for p in corners]
        beyond += max(task.box[0][k] - min(values), 0.0) + max(max(values) - task.box[1][k], 0.0)
    bends = len(corners) - 2
    run = length(Path(tuple(corners), (keep.radius,) * bends))
    return task.weights.outside * beyond + bends * keep.price + run


def _places(task: Task, keep: Bending, a: Vector, b: Vector) -> list[list[float]]:
    """Places beside bodies near both ends, along each axis, where a tube may run. [m]"""
    low = [min(a[k], b[k]) - _ROOM - 2.0 * keep.radius for k in range(3)]
    high = [max(a[k], b[k]) + _ROOM + 2.0 * keep.radius for k in range(3)]
    places: list[list[float]] = [[], [], []]
    for each in task.scene.obstacles:
        box = each.box if isinstance(each, Solid) else None
        if box is None:
            continue
        off = each.clearance + task.limits.outside / 2.0 + 0.005
        if any(box[0][k] > high[k] or box[1][k] < low[k] for k in range(3)):
            continue
        for k in range(3):
            for place in (box[0][k] - off, box[1][k] + off):
                if low[k] <= place <= high[k]:
                    places[k].append(place)
    return places


def _clear(task: Task, starts: "Floats", ends: "Floats") -> "NDArray[np.bool_]":
    """Which straight sides keep their clearance; at a port the tube's own rim does not count."""
    import numpy as np

    sides = np.stack([starts, ends], axis=1)
    sides = sides.copy()
    rim = task.limits.outside / 2.0 + 2.0 * _OFF
    for one in (task.a, task.b):
        at = np.array(one.frame.origin)
        for k, other in ((0, 1), (1, 0)):
            near = np.linalg.norm(sides[:, k] - at, axis=1) < 2.0 * rim + one.shapes[0].stick_out
            way = sides[near, other] - sides[near, k]
            far = np.linalg.norm(way, axis=1)[:, None]
            sides[near, k] += way * np.minimum(rim / np.maximum(far, 1e-9), 0.5)
    found = task.scene.least_along_many(
        list(sides),
        task.limits.outside / 2.0,
        asked=True,
        leave=task.leave,
        bare=task.bare,
        enough=_OFF,
    )
    return np.array([not each.body or each.gap >= _OFF for each in found], dtype=np.bool_)


def _seen(task: Task, path: Path) -> "Floats":
    """The centreline as a polyline without the rim at both ends."""
    import numpy as np

    points = [np.array(p) for p in polyline(path, _OFF)]
    rim = task.limits.outside / 2.0 + 2.0 * _OFF
    for k, other in ((0, 1), (-1, -2)):
        way = points[other] - points[k]
        far = float(np.linalg.norm(way))
        points[k] = points[k] + way * min(rim / max(far, 1e-9), 0.5)
    return np.array(points)


def _is_clear(task: Task, path: Path) -> bool:
    if fits(path) is not None:
        return False
    near = task.scene.least_along(
        _seen(task, path),
        task.limits.outside / 2.0,
        asked=True,
        leave=task.leave,
        bare=task.bare,
    )
    return not near.body or near.gap >= _OFF


def _is_bendable(keep: Bending, path: Path, first: Vector, last: Vector) -> bool:
    """Whether every straight is long enough for the bench, and both ends lie on their axes."""
    if fits(path) is not None or not path.radii:
        return fits(path) is None
    runs: list[float] = [0.0]
    for piece in elements(path):
        if isinstance(piece, Straight):
            runs[-1] += piece.length
        else:
            runs.append(0.0)
    if len(runs) != len(path.radii) + 1:
        return False
    if runs[0] < keep.end - 1e-9 or runs[-1] < keep.last - 1e-9:
        return False
    if any(run < keep.between - 1e-9 for run in runs[1:-1]):
        return False
    legs = [unit((q[0] - p[0], q[1] - p[1], q[2] - p[2])) for p, q in pairwise(path.corners)]
    turns = [between(one, two) for one, two in pairwise(legs)]
    if any(not LEAST <= turn <= keep.most + OVER for turn in turns):
        return False
    return dot(legs[0], first) > 0.0 and dot(_back(legs[-1]), last) > 0.0


def _shortened(
    task: Task, keep: Bending, corners: list[Vector], first: Vector, last: Vector
) -> list[Vector]:
    """The same bends with their corners moved until the tube gets no shorter."""
    if len(corners) < 4:
        return corners
    axes = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    best, cost = corners, _cost(task, keep, corners)
    for step in _STEPS:
        for _ in range(12):
            moved = False
            for k in range(1, len(corners) - 1):
                ways: tuple[Vector, ...] = axes
                if k == 1:
                    ways = (first,)
                elif k == len(corners) - 2:
                    ways = (last,)
                for way in ways:
                    for sign in (1.0, -1.0):
                        other = [*best]
                        other[k] = ahead(best[k], way, sign * step)
                        now = _cost(task, keep, other)
                        if now > cost - _SAVES:
                            continue
                        path = Path(tuple(other), (keep.radius,) * (len(other) - 2))
                        if _is_bendable(keep, path, first, last) and _is_clear(task, path):
                            best, cost, moved = other, now, True
            if not moved:
                break
    return best


def _route(task: Task, found: Found) -> Route:
    path = found.path
    own = task.leave | task.a.own | task.b.own
    near = task.scene.least_along(_seen(task, path), task.limits.outside / 2.0, leave=own)
    marks = extremes(path, _UP)
    made = Route(
        task.id,
        found.a,
        found.b,
        path,
        length(path),
        None,
        0.0,
        Clearance(near.gap, near.body, near.at) if near.gap < _TOLD else None,
        band=_band(found),
        highs=tuple(e.at for e in marks if e.is_high),
        lows=tuple(e.at for e in marks if not e.is_high),
        follows=task.follows,
    )
    z = [p[2] for p in (*ends_of(task, made), *polyline(path, _OFF))]
    return replace(made, height=max(z) - min(z))


def _band(found: Found) -> tuple[BandRow, ...]:
    """The pair of ends that was taken; a tube has no others to choose from."""
    one, two = found.a.shape, found.b.shape
    z = [p[2] for p in found.path.corners]
    return (
        BandRow(
            one.angle,
            two.angle,
            True,
            length(found.path) + one.reach + two.reach,
            max(z) - min(z),
            len(found.path.radii),
            one.price_index + two.price_index,
            found.cost,
            turns=(found.a.turn, found.b.turn),
        ),
    )


def _looked(task: Task) -> tuple[Vector, Vector]:
    points = [task.a.frame.origin, task.b.frame.origin, *(at for at, _ in task.through)]
    room = 2.0 * task.limits.bend_radius + _ROOM
    low = [min(p[k] for p in points) - room for k in range(3)]
    high = [max(p[k] for p in points) + room for k in range(3)]
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def _blockers(task: Task) -> tuple[str, ...]:
    """What stands between both ends, the deepest in the way first."""
    import numpy as np

    names: list[str] = []
    for a, b in _settings(task):
        lead = task.limits.bend_radius + task.limits.straight
        way = [a.collar, ahead(a.collar, a.n, -lead), ahead(b.collar, b.n, -lead), b.collar]
        for _ in range(3):
            near = task.scene.least_along(
                np.array(way),
                task.limits.outside / 2.0,
                asked=True,
                leave=task.leave | task.a.own | task.b.own | frozenset(names),
                bare=task.bare,
            )
            if not near.body or near.gap >= _OFF:
                break
            names.append(near.body)
        break
    return tuple(dict.fromkeys(names))
