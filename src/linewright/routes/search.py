# SPDX-License-Identifier: Apache-2.0
"""The course of one hose: which ends, how turned, which way; and every pair that works.

Cost, in metres of hose: what lies outside the ports and their bodies (up, down and to all
sides) times a weight that goes before all else, then the price of the ends as hose, bends,
and the length itself. Courses are shortest curve-straight-curves; where none of them is clear
the hose is led round what blocks it (`_lattice`). Elbows stand at eighths of a turn first,
and the best are turned downhill to within 2°.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from math import ceil, cos, isfinite, pi, radians, sin, tan
from typing import TYPE_CHECKING, Any

from linewright.base.vectors import Vector, ahead, cross, dot, unit
from linewright.routes.clock import clock
from linewright.routes.free import collar
from linewright.routes.path import Path, extremes, fits, length, point, sample
from linewright.routes.route import (
    BandRow,
    Clearance,
    EndShape,
    Frame,
    Limits,
    Route,
    Setting,
)

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from linewright.routes.obstacles import Scene

    Floats = NDArray[np.float64]

UP: Vector = (0.0, 0.0, 1.0)

#: Places of an elbow that are tried first, in a full turn; then it is turned downhill.
COARSE = 8
FINEST = radians(2.0)

#: Courses of one pair of ends that are searched all round where aiming is in doubt.
_DOUBTS = 24

#: Courses of one pair that are asked whether they are clear.
_TRIED = 24

#: So many of the best pairs are looked at again, from so many places of their elbows.
_AGAIN, _FINER = 3, 16

#: So few pairs are not worth sharing among cores.
_FEW = 8

#: What a course keeps off beyond its limit while it is looked for between points. [m]
MARGIN = 0.0015

#: Gaps wider than this are not told. [m]
TOLD = 0.2

#: Cells in which the way home is reckoned are no finer than this. [m]
_CELL = 0.05

#: Nodes that the way round is looked for among, before it is given up.
NODES = 400

#: Poses along a course round bodies from which both ends are looked for anew.
_POSES = 11

#: A null hose end: a pose on the way, where the hose goes on.
_THROUGH = EndShape(0, 0.0, 0.0, price_index=0.0)

Pose = tuple[Vector, Vector]


@dataclass(frozen=True, slots=True)
class Weights:
    """What a metre outside, a straight hose end and a bend are worth. [m of hose]"""

    outside: float = 8.0
    end: float = 0.6
    bend: float = 0.05


@dataclass(frozen=True, slots=True)
class Side:
    """One end of the hose: its port, what may stand there, and whose body it is on.

    ``own`` are bodies that the hose end itself may stand against.
    """

    frame: Frame
    shapes: tuple[EndShape, ...]
    own: frozenset[str] = frozenset()
    angle: int | None = None  # the builder's, where he typed it


@dataclass(frozen=True)
class Task:
    """One hose to be laid. ``box`` is what sticks out anyway: low and high corner [m].

    ``through`` are poses that it has to pass in order; ``bare`` and ``leave`` as for `Scene`.
    """

    id: str
    a: Side
    b: Side
    limits: Limits
    scene: "Scene"
    box: tuple[Vector, Vector]
    through: tuple[Pose, ...] = ()
    bare: frozenset[str] = frozenset()
    leave: frozenset[str] = frozenset()
    weights: Weights = field(default_factory=Weights)
    follows: tuple[str, ...] = ()
    effort: float = 1.0  # share of the search that is spent before it is given up

    @cached_property
    def question(self) -> tuple[Any, ...]:
        """What the kernels are asked with."""
        return self.scene.question(leave=self.leave, bare=self.bare)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of one hose. ``looked`` are boxes in which bodies were looked at.

    ``route`` is None where nothing works; ``blocked`` are then bodies in the way.
    """

    route: Route | None
    band: tuple[BandRow, ...]
    looked: tuple[tuple[Vector, Vector], ...]
    blocked: tuple[str, ...] = ()
    poses: tuple[Pose, ...] = ()


class _End:
    """All coarse settings of one end as arrays, and whether each stands clear."""

    def __init__(
        self, task: Task, side: Side, straight: float, step: float, places: int = COARSE
    ) -> None:
        import numpy as np

        from linewright.routes import _courses

        self.side, self.straight = side, straight
        out = unit(side.frame.out)
        right = unit(ahead(side.frame.side, out, -dot(side.frame.side, out)))
        self.frame = np.array([*side.frame.origin, *out, *right, *cross(out, right)])
        base = side.shapes[0].price_index or 1.0
        self.shapes = np.array(
            [
                [
                    radians(s.angle),
                    s.reach,
                    s.drop,
                    s.stick_out,
                    task.weights.end * s.price_index / base,
                ]
                for s in side.shapes
            ]
        )
        counts = [places if s.angle else 1 for s in side.shapes]
        self.first = np.concatenate(([0], np.cumsum(counts))).astype(np.int64)
        self.which = np.repeat(np.arange(len(counts)), counts)
        self.turns = np.concatenate([2.0 * pi / n * np.arange(n) for n in counts])
        self.rows = np.zeros((len(self.turns), _courses.WIDE))
        self.who = np.full(len(self.turns), -1, dtype=np.int64)
        self.question = task.scene.question(leave=task.leave | side.own, bare=task.bare)
        keep = task.limits.outside / 2.0
        _courses.settings(
            *self.question,
            self.frame,
            self.shapes,
            straight,
            self.turns,
            self.which,
            step,
            keep,
            self.rows,
            self.who,
        )
        self.ok = self.who < 0

    def allowed(self, angle: int | None) -> "NDArray[np.bool_]":
        """Settings that stand clear, of the builder's angle where he typed one."""
        import numpy as np

        if angle is None:
            return self.ok
        fit = np.array([s.angle == angle for s in self.side.shapes])
        return self.ok & fit[self.which]

    def row(self, shape: int, turn: float) -> "Floats":
        import numpy as np

        from linewright.routes import _courses

        row = np.zeros(_courses.WIDE)
        _courses.set_row(self.frame, self.shapes[shape], self.straight, turn, row)
        return row


@dataclass(frozen=True, slots=True)
class _Best:
    """The best of one pair of shapes: turns, cost, state (see `_courses.one_pair`), blocker."""

    turn_a: float
    turn_b: float
    cost: float
    state: int
    blocker: int


def _pose_side(pose: Pose, way: float) -> Side:
    at, along = pose
    out = (way * along[0], way * along[1], way * along[2])
    side = (0.0, 0.0, 1.0) if abs(out[2]) < 0.9 else (1.0, 0.0, 0.0)
    return Side(Frame(at, out, unit(ahead(side, out, -dot(side, out)))), (_THROUGH,))


def _pairs(
    task: Task, a: _End, b: _End, step: float, tried: int = _TRIED, doubts: int = _DOUBTS
) -> list[list[_Best]]:
    import numpy as np

    from linewright.routes import _courses
    from linewright.routes.obstacles import ONE_AT_A_TIME

    answers = np.zeros((len(a.side.shapes) * len(b.side.shapes), 5))
    leads = np.array([a.straight, b.straight, pi / COARSE, FINEST])
    w = task.weights
    asked = (
        *task.question,
        a.question[4],
        b.question[4],
        a.frame,
        b.frame,
        a.shapes,
        b.shapes,
        leads,
        a.rows,
        a.turns,
        a.ok,
        a.first,
        b.rows,
        b.turns,
        b.ok,
        b.first,
        task.limits.bend_radius,
        task.limits.outside / 2.0 + MARGIN,
        step,
        np.array([*task.box[0], *task.box[1]]),
        np.array([w.outside, w.bend]),
        answers,
        tried,
        doubts,
    )
    if len(answers) <= _FEW:
        _courses.few_pairs(*asked)
    else:
        with ONE_AT_A_TIME:
            _courses.all_pairs(*asked)
    n = len(b.side.shapes)
    return [
        [
            _Best(float(r[0]), float(r[1]), float(r[2]), int(r[3]), int(r[4]))
            for r in answers[i * n : (i + 1) * n]
        ]
        for i in range(len(a.side.shapes))
    ]


def _deepened(task: Task, a: _End, b: _End, pairs: list[list[_Best]], step: float) -> bool:
    """Look again at the best pairs, from more places of their elbows; whether there are any."""
    ranked = sorted(
        (best.cost, i, j)
        for i, row in enumerate(pairs)
        for j, best in enumerate(row)
        if best.state == 2 and _is_typed(a, i) and _is_typed(b, j)
    )
    for _, i, j in ranked[:_AGAIN]:
        one = _End(task, replace(a.side, shapes=(a.side.shapes[i],)), a.straight, step, _FINER)
        two = _End(task, replace(b.side, shapes=(b.side.shapes[j],)), b.straight, step, _FINER)
        # Prices go by the cheapest of all ends, not by the one looked at again.
        for end, price in ((one, a.shapes[i, 4]), (two, b.shapes[j, 4])):
            end.rows[:, 12] += price - end.shapes[0, 4]
            end.shapes[0, 4] = price
        found = _pairs(task, one, two, step, 256, 8 * _DOUBTS)[0][0]
        if found.state == 2 and found.cost < pairs[i][j].cost - 1e-9:
            pairs[i][j] = found
    return bool(ranked)


def _around(
    task: Task, a: _End, b: _End, step: float, region: tuple[Vector, Vector]
) -> list[Pose] | None:
    """Poses of a way round what blocks the straightest courses; None if none was found."""
    import numpy as np

    from linewright.routes import _lattice

    radius, keep = task.limits.bend_radius, task.limits.outside / 2.0 + MARGIN
    way, told = np.zeros((64, 6)), np.zeros(3, dtype=np.int64)
    ok_a, ok_b = a.allowed(a.side.angle), b.allowed(b.side.angle)
    cell = max(_CELL, radius / 3.5)
    low, high = np.array(region[0]), np.array(region[1])
    count = np.ceil((high - low) / cell).astype(np.int64)
    axes = [low[k] + cell * (np.arange(count[k]) + 0.5) for k in range(3)]
    points = np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1).reshape(-1, 3)
    gaps, _ = task.scene.gaps(points, asked=True, leave=task.leave, bare=task.bare)
    # A cell counts as free where a hose may pass somewhere in it.
    free = (gaps > keep - cell / 2.0).reshape(tuple(count))
    left = np.empty(tuple(count))
    _lattice.far_home(free, low, cell, b.rows, ok_b, left)
    for size in (1.0, 0.6) if task.effort >= 1.0 else (1.0,):
        n = _lattice.around(
            *task.question,
            a.rows,
            ok_a,
            b.rows,
            ok_b,
            radius,
            keep,
            step,
            low,
            high,
            task.weights.bend,
            round(NODES * task.effort),
            size,
            cell,
            left,
            way,
            told,
        )
        if n:
            break
    else:
        return None
    goal = b.rows[told[1]]
    poses = np.vstack((way[:n], np.concatenate((goal[:3], -goal[3:6]))[None, :]))
    chosen = np.zeros(len(poses), dtype=np.int64)
    m = _lattice.shortened(*task.question, poses, radius, keep, step, task.weights.bend, chosen)
    kept = chosen[1 : m - 1] if m else range(1, len(poses) - 1)
    found = [
        ((float(p[0]), float(p[1]), float(p[2])), unit((float(p[3]), float(p[4]), float(p[5]))))
        for p in (poses[k] for k in kept)
    ]
    if found:
        return found
    # The settings found run home at once, though no pair tried before did: a pose after the
    # straight holds it.
    start = a.rows[told[0]]
    return [
        (
            (float(start[0]), float(start[1]), float(start[2])),
            unit((float(start[3]), float(start[4]), float(start[5]))),
        )
    ]


def _corners(a: "Floats", b: "Floats", radius: float) -> list[Vector] | None:
    """Corners of the shortest curve-straight-curve from one row to another."""
    from linewright.routes import _courses

    found = _courses.between(a, b, radius)
    if not isfinite(found[0]):
        return None
    first = _arc(a[0:3], a[3:6], found[3:6], found[1], radius)
    last = _arc(b[0:3], b[3:6], found[6:9], found[2], radius)
    return [*first, *reversed(last)]


def _arc(
    at: "Floats", along: "Floats", inward: Sequence[float], turn: float, radius: float
) -> list[Vector]:
    """Corners of one arc, of no more than a third of a turn each."""
    if turn <= 1e-7:
        return []
    pieces = max(1, ceil(turn / (2.0 * pi / 3.0) - 1e-9))
    half = turn / pieces / 2.0
    found = []
    for k in range(pieces):
        # The corner lies on the tangent, a trim beyond where the piece starts.
        t = 2.0 * k * half
        x, y = radius * sin(t), radius * (1.0 - cos(t))
        x += radius * tan(half) * cos(t)
        y += radius * tan(half) * sin(t)
        p = [float(at[i] + x * along[i] + y * inward[i]) for i in range(3)]
        found.append((p[0], p[1], p[2]))
    return found


def _path(a: "Floats", poses: Sequence[Pose], b: "Floats", limits: Limits) -> Path | None:
    import numpy as np

    rows = [a]
    for at, along in poses:
        row = np.zeros(len(a))
        row[0:3], row[3:6] = at, along
        rows.append(row)
    rows.append(b)
    corners: list[Vector] = []
    for i in range(len(rows) - 1):
        end = rows[i + 1].copy()
        if i < len(rows) - 2:
            end[3:6] = -end[3:6]
        piece = _corners(rows[i], end, limits.bend_radius)
        if piece is None:
            return None
        corners += piece
    start = (float(a[13]), float(a[14]), float(a[15]))
    end_at = (float(b[13]), float(b[14]), float(b[15]))
    return Path((start, *corners, end_at), (limits.bend_radius,) * len(corners))


def bend_count(path: Path) -> int:
    """How many bends a hose has: pieces of one arc count once.

    Parameters
    ----------
    path : Path
        Its centreline.

    Returns
    -------
    int
        Arcs that follow one another in one plane without a straight are one bend. [-]
    """
    from linewright.routes.path import Arc, elements

    count, before = 0, None
    for piece in elements(path):
        if not isinstance(piece, Arc):
            if piece.length > 1e-6:
                before = None
            continue
        if piece.angle > radians(1.0) and (before is None or dot(before, piece.axis) < 0.9999):
            count += 1
        before = piece.axis
    return count


def ends_of(task: Task, route: Route) -> list[Vector]:
    """Points of the hose ends themselves: port, seat and collar at both ends.

    Parameters
    ----------
    task : Task
        The hose.
    route : Route
        Its course.

    Returns
    -------
    list of Vector
        In order from port A to port B. [m]
    """
    found = []
    for side, setting in ((task.a, route.a), (task.b, route.b)):
        seat = ahead(side.frame.origin, unit(side.frame.out), setting.shape.stick_out)
        bend = radians(setting.shape.angle)
        leg = setting.shape.drop / sin(bend) if sin(bend) > 0.02 else setting.shape.drop / 2.0
        found += [side.frame.origin, ahead(seat, unit(side.frame.out), leg), setting.collar]
    return [*found[:3], *reversed(found[3:])]


def _tall(points: Sequence[Vector]) -> float:
    return max(p[2] for p in points) - min(p[2] for p in points)


def lay_line(task: Task) -> Outcome:
    """Lay one hose: choose its ends, how they are turned and its course.

    Parameters
    ----------
    task : Task
        The hose, its two ends, what it keeps and what it goes round.

    Returns
    -------
    Outcome
        The route with the band of all pairs of ends; where the builder typed angles, only
        those are taken for the route. None where nothing works.
    """
    if not task.a.shapes or not task.b.shapes:
        return Outcome(None, (), ())
    limits = task.limits
    step = min(max(limits.bend_radius / 12.0, 0.005), 0.010)
    a, b = _End(task, task.a, limits.straight, step), _End(task, task.b, limits.straight, step)
    region = _region(task, a, b)
    if not task.through:
        pairs = _pairs(task, a, b, step)
        if not _deepened(task, a, b, pairs, step) and task.effort >= 1.0:
            pairs = _pairs(task, a, b, step, COARSE**2, COARSE**2)
        found = _chosen(task, a, b, pairs, [], step)
        if found is not None:
            return replace(found, looked=(region,))
    blocked: list[str] = []
    poses = _led(task, a, b, step, region, blocked)
    if poses is None:
        band = () if task.through else _failed(task, pairs)
        return Outcome(None, band, (region,), tuple(dict.fromkeys(blocked)))
    found = _by_halves(task, a, b, poses, step)
    if found is None:
        band = () if task.through else _failed(task, pairs)
        return Outcome(None, band, (region,), ())
    if not task.through:
        found = _eased(task, a, b, found, step)
    return replace(found, looked=(region,))


def _eased(task: Task, a: _End, b: _End, found: Outcome, step: float) -> Outcome:
    """The best of a course round bodies and of those that share but one pose with it."""
    assert found.route is not None
    path, best = found.route.path, found
    run = found.route.length
    for k in range(1, _POSES + 1):
        on = run * k / (_POSES + 1)
        at, ahead_ = point(path, on), point(path, on + 1e-4)
        way = (ahead_[0] - at[0], ahead_[1] - at[1], ahead_[2] - at[2])
        other = _by_halves(task, a, b, [(at, unit(way))], step)
        if other is not None and _price(other) < _price(best) - 1e-6:
            best = other
    return best


def _price(outcome: Outcome) -> float:
    """Cost of the pair that an outcome takes."""
    route = outcome.route
    assert route is not None
    pair = (route.a.shape.angle, route.b.shape.angle)
    return min(r.cost for r in outcome.band if r.cost and (r.angle_a, r.angle_b) == pair)


def _region(task: Task, a: _End, b: _End) -> tuple[Vector, Vector]:
    """Where bodies are looked at: as far round the ends as hoses bend."""
    import numpy as np

    points = [a.rows[:, :3], b.rows[:, :3], np.array([task.a.frame.origin, task.b.frame.origin])]
    points += [np.array([at]) for at, _ in task.through]
    every = np.concatenate(points)
    room = 3.0 * task.limits.bend_radius + 0.1
    low, high = every.min(axis=0) - room, every.max(axis=0) + room
    return (float(low[0]), float(low[1]), float(low[2])), (
        float(high[0]),
        float(high[1]),
        float(high[2]),
    )


def _led(
    task: Task,
    a: _End,
    b: _End,
    step: float,
    region: tuple[Vector, Vector],
    blocked: list[str],
) -> list[Pose] | None:
    """Every pose on the way: those it has to pass, and those round what is in the way."""
    poses: list[Pose] = []
    before = a
    for pose in task.through:
        there = _End(task, _pose_side(pose, -1.0), 0.0, step)
        between = _between(task, before, there, step, region, blocked)
        if between is None:
            return None
        poses += [*between, pose]
        before = _End(task, _pose_side(pose, 1.0), 0.0, step)
    between = _between(task, before, b, step, region, blocked)
    return None if between is None else [*poses, *between]


def _between(
    task: Task,
    a: _End,
    b: _End,
    step: float,
    region: tuple[Vector, Vector],
    blocked: list[str],
) -> list[Pose] | None:
    """Poses on the way of one leg; none where it needs none."""
    pairs = _pairs(task, a, b, step)
    if task.through:
        for i, row in enumerate(pairs):
            for j, best in enumerate(row):
                if best.state == 2 and _is_typed(a, i) and _is_typed(b, j):
                    return []
    found = _around(task, a, b, step, region)
    if found is None:
        blocked += _blockers(task, a, b, pairs)
    return found


def _is_typed(end: _End, shape: int) -> bool:
    return end.side.angle is None or end.side.shapes[shape].angle == end.side.angle


def _by_halves(task: Task, a: _End, b: _End, poses: list[Pose], step: float) -> Outcome | None:
    """Choose each end by its own way to the first and last pose."""
    there = _End(task, _pose_side(poses[0], -1.0), 0.0, step)
    back = _End(task, _pose_side(poses[-1], 1.0), 0.0, step)
    near, far = _pairs(task, a, there, step), _pairs(task, back, b, step)
    middle = _middle(task, poses)
    pairs = [
        [
            _Best(
                one[0].turn_a,
                two.turn_b,
                one[0].cost + two.cost + middle,
                min(one[0].state, two.state),
                max(one[0].blocker, two.blocker),
            )
            for two in far[0]
        ]
        for one in near
    ]
    return _chosen(task, a, b, pairs, poses, step)


def _middle(task: Task, poses: list[Pose]) -> float:
    from linewright.routes import _courses

    ends = [
        (
            _End(task, _pose_side(one, 1.0), 0.0, 0.01).rows[0],
            _End(task, _pose_side(two, -1.0), 0.0, 0.01).rows[0],
        )
        for one, two in zip(poses, poses[1:], strict=False)
    ]
    radius = task.limits.bend_radius
    return sum(float(_courses.between(x, y, radius)[0]) * radius for x, y in ends)


def _chosen(
    task: Task, a: _End, b: _End, pairs: list[list[_Best]], poses: list[Pose], step: float
) -> Outcome | None:
    """The best pair that may be taken and stands the last check, and the band of all."""
    order = sorted(
        (best.cost, a.side.shapes[i].angle, b.side.shapes[j].angle, i, j)
        for i, row in enumerate(pairs)
        for j, best in enumerate(row)
        if best.state == 2 and _is_typed(a, i) and _is_typed(b, j)
    )
    for _, _, _, i, j in order:
        route = _route(task, a, b, pairs[i][j], i, j, poses)
        if isinstance(route, str):
            pairs[i][j] = replace(pairs[i][j], state=1)
            continue
        band = _band(task, a, b, pairs, poses)
        return Outcome(replace(route, band=band), band, (), (), tuple(poses))
    return None


def _route(
    task: Task, a: _End, b: _End, best: _Best, i: int, j: int, poses: list[Pose]
) -> Route | str:
    """The route of one pair; a word on why not where the last check fails."""
    limits = task.limits
    row_a, row_b = a.row(i, best.turn_a), b.row(j, best.turn_b)
    path = _path(row_a, poses, row_b, limits)
    if path is None:
        return "no course"
    if fits(path) is not None:
        return "its bends do not fit"
    if bend_count(path) > limits.most_bends:
        return f"more than {limits.most_bends} bends"
    points = sample(path, 0.005)
    gap = task.scene.least_along(
        points, limits.outside / 2.0, asked=True, leave=task.leave, bare=task.bare
    )
    if gap.gap < 5e-4:
        return f"comes too near {gap.body}"
    set_a = collar(task.a.frame, task.a.shapes[i], best.turn_a % (2.0 * pi))
    set_b = collar(task.b.frame, task.b.shapes[j], best.turn_b % (2.0 * pi))
    near = task.scene.least_along(points, limits.outside / 2.0, leave=task.leave)
    highs, lows = [], []
    for extreme in extremes(path, UP):
        (highs if extreme.is_high else lows).append(extreme.at)
    made = Route(
        task.id,
        set_a,
        set_b,
        path,
        length(path),
        _clock(path, set_a, set_b),
        0.0,
        Clearance(near.gap, near.body, near.at) if near.gap < TOLD else None,
        highs=tuple(highs),
        lows=tuple(lows),
        follows=task.follows,
    )
    every = [*ends_of(task, made), *((float(x), float(y), float(z)) for x, y, z in points)]
    return replace(made, height=_tall(every))


def _clock(path: Path, a: Setting, b: Setting) -> float | None:
    if not a.shape.angle or not b.shape.angle:
        return None
    return clock(path, a.side, b.side)


def _band(
    task: Task, a: _End, b: _End, pairs: list[list[_Best]], poses: list[Pose]
) -> tuple[BandRow, ...]:
    rows = []
    base = 1.0
    for i, one in enumerate(a.side.shapes):
        for j, two in enumerate(b.side.shapes):
            best = pairs[i][j]
            price = (one.price_index + two.price_index) / base
            if best.state != 2:
                rows.append(
                    BandRow(
                        one.angle, two.angle, False, price_index=price, why_not=_why(task, best)
                    )
                )
                continue
            path = _path(a.row(i, best.turn_a), poses, b.row(j, best.turn_b), task.limits)
            if path is None:
                continue
            rows.append(
                BandRow(
                    one.angle,
                    two.angle,
                    True,
                    length(path) + one.reach + two.reach,
                    _height(task, a, b, i, j, best, path),
                    bend_count(path),
                    price,
                    best.cost,
                )
            )
    return tuple(rows)


def _height(task: Task, a: _End, b: _End, i: int, j: int, best: _Best, path: Path) -> float:
    row_a, row_b = a.row(i, best.turn_a), b.row(j, best.turn_b)
    found = [path.corners[0], path.corners[-1], *(e.at for e in extremes(path, UP))]
    z = [p[2] for p in found]
    z += [float(r[k]) for r in (row_a, row_b) for k in (8, 11)]
    return max(z) - min(z)


def _why(task: Task, best: _Best) -> str:
    if best.state == 0:
        return f"would loop: no course at {task.limits.bend_radius * 1e3:.0f} mm radius"
    if best.blocker >= 0:
        return f"{task.scene.name_of(best.blocker)} is in the way of its straightest course"
    return "the hose end itself has no room"


def _blockers(task: Task, a: _End, b: _End, pairs: list[list[_Best]]) -> tuple[str, ...]:
    """What is in the way of courses, most often first; then of the hose ends themselves."""
    rows = [best.blocker for row in pairs for best in row if best.blocker >= 0]
    rows = rows or [int(w) for end in (a, b) for w in end.who if w >= 0]
    names = [task.scene.name_of(row) for row in rows]
    return tuple(sorted(set(names), key=lambda n: (-names.count(n), n)))


def _failed(task: Task, pairs: list[list[_Best]]) -> tuple[BandRow, ...]:
    return tuple(
        BandRow(
            one.angle,
            two.angle,
            False,
            price_index=one.price_index + two.price_index,
            why_not=_why(task, pairs[i][j]),
        )
        for i, one in enumerate(task.a.shapes)
        for j, two in enumerate(task.b.shapes)
    )


def blocked_names(outcome: Outcome, within: Collection[str]) -> tuple[str, ...]:
    """Bodies in the way that are among some ids."""
    return tuple(name for name in outcome.blocked if name in within)
