# SPDX-License-Identifier: Apache-2.0
"""The course of one hose: which ends, how turned, which way; and every pair that works.

Cost, in metres of hose: what lies outside the ports and their bodies (up, down and to all
sides) times a weight that goes before all else, then the price of the ends as hose, bends,
and the length itself. Courses are shortest curve-straight-curves; where none of them is clear
the hose is led round what blocks it (`_lattice`). Elbows stand every 30° first, and
the best are turned downhill to within 2°.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import inf, pi
from typing import TYPE_CHECKING

from linewright.base.vectors import Vector, unit
from linewright.routes.around import around, region_of
from linewright.routes.courses import UP, bend_count, described, ends_of, rounded
from linewright.routes.gravity import STOP, fault, pose_row, toll, under_rule
from linewright.routes.pairs import (
    COARSE,
    MARGIN,
    Best,
    End,
    all_pairs,
    direct,
    is_typed,
    part,
    pose_side,
)
from linewright.routes.remembered import TOLD, keeps
from linewright.routes.route import BandRow, Route
from linewright.routes.tasks import Kind, Outcome, Pose, Rule, Side, Task, Weights
from linewright.space.clock import clock
from linewright.space.free import collar
from linewright.space.model import Limits, Setting
from linewright.space.path import Path, extremes, fits, length, point, sample_lines

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

__all__ = [
    "TOLD",
    "Outcome",
    "Pose",
    "Side",
    "Task",
    "Weights",
    "bend_count",
    "ends_of",
    "lay_line",
]

#: Why a pair of ends is not taken whose course is clear but goes against gravity.
_AGAINST = {
    Kind.FALLS: "no course of it falls enough all the way",
    Kind.RISES: "no course of it rises all the way",
    Kind.NO_TRAP: "each course of it has a high point or a sag that traps",
}

#: Poses along a course round bodies from which both ends are looked for anew.
_POSES = 7


def _tall(points: Sequence[Vector]) -> float:
    return max(p[2] for p in points) - min(p[2] for p in points)


@dataclass(frozen=True, slots=True)
class _Found:
    """A course with the pair it takes: what that costs, and all pairs by the same poses."""

    cost: float
    route: Route
    pairs: list[list[Best]]
    poses: list[Pose]


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
    # Nothing is nearer than half its diameter to the face that a hose stands on.
    lead = max(limits.straight, limits.outside / 2.0 + 1.1 * MARGIN)
    a, b = End(task, task.a, lead, step), End(task, task.b, lead, step)
    region = region_of(task, a, b)
    pairs: list[list[Best]] = []
    found: _Found | None = None
    if not task.through:
        pairs = _direct(task, a, b, step)
        found = _chosen(task, a, b, pairs, [])
    blocked: list[str] = []
    # What gravity asks goes before all else: it is kept on the way round, if not at once.
    rules = (task.gravity, None) if task.gravity is not None else (None,)
    for rule in rules:
        if found is not None and (found.cost < STOP or rule is None):
            break
        other = _round(task, a, b, step, region, rule, blocked)
        if other is not None and (found is None or other.cost < found.cost):
            found = other
    if found is None:
        band = () if task.through else _failed(task, pairs)
        return Outcome(None, band, (region,), tuple(dict.fromkeys(blocked)))
    band = _band(task, a, b, found)
    route = replace(found.route, band=band)
    return Outcome(route, band, (region,), (), tuple(found.poses), found.cost)


def _direct(task: Task, a: End, b: End, step: float) -> list[list[Best]]:
    """The best course of each pair that leads from end to end at once."""
    pairs = direct(task, a, b, step)
    i, j = _taken(a), _taken(b)
    if i and j and task.effort >= 1.0 and all(pairs[k][m].state != 2 for k in i for m in j):
        # Nothing yet: those that may be taken are looked at all round.
        one, two = part(task, a, i, step), part(task, b, j, step)
        again = all_pairs(task, one, two, step, COARSE**2)
        for k, row in zip(i, again, strict=True):
            for m, best in zip(j, row, strict=True):
                if best.state == 2:
                    pairs[k][m] = best
    under_rule(task, a, b, pairs, step)
    return pairs


def _taken(end: End) -> list[int]:
    """Numbers of the hose ends that may be taken."""
    return [k for k in range(len(end.side.shapes)) if is_typed(end, k)]


def _round(
    task: Task,
    a: End,
    b: End,
    step: float,
    region: tuple[Vector, Vector],
    rule: Rule | None,
    blocked: list[str],
) -> _Found | None:
    """The course by way of poses: those it has to pass, and those round what is in the way."""
    if task.looks is not None:
        task.looks.everywhere = True
    found: _Found | None = None
    for poses, settings in _led(task, a, b, step, region, rule, blocked):
        found = _by_halves(task, a, b, poses, step)
        if found is None and settings:
            found = _as_found(task, a, b, poses, settings)
        if found is not None:
            break
        blocked += _blockers(task, a, b, all_pairs(task, a, b, step))
    if found is None or task.through:
        return found
    return _eased(task, a, b, found, step)


def _as_found(
    task: Task, a: End, b: End, poses: list[Pose], settings: tuple[int, int]
) -> _Found | None:
    """The course from the very settings of both ends that the way round was found by."""
    pairs = [[Best(0.0, 0.0, inf, 1, -1) for _ in b.side.shapes] for _ in a.side.shapes]
    i, j = (int(end.which[k]) for end, k in zip((a, b), settings, strict=True))
    turn_a, turn_b = float(a.turns[settings[0]]), float(b.turns[settings[1]])
    run = _run(a.rows[settings[0]], poses, b.rows[settings[1]], task.limits)
    ends = float(a.rows[settings[0], 12] + b.rows[settings[1], 12])
    pairs[i][j] = Best(turn_a, turn_b, run + ends, 2, -1)
    return _chosen(task, a, b, pairs, poses, plain=True)


def _run(row_a: "Floats", poses: list[Pose], row_b: "Floats", limits: Limits) -> float:
    """Length of a course by way of poses; infinite where there is none. [m]"""
    path = rounded(row_a, poses, row_b, limits)
    return inf if path is None else length(path)


def _eased(task: Task, a: End, b: End, found: _Found, step: float) -> _Found:
    """The best of a course round bodies and of those that share but one pose with it."""
    path, best = found.route.path, found
    run = found.route.length
    for k in range(1, _POSES + 1):
        on = run * k / (_POSES + 1)
        at, ahead_ = point(path, on), point(path, on + 1e-4)
        way = (ahead_[0] - at[0], ahead_[1] - at[1], ahead_[2] - at[2])
        other = _by_halves(task, a, b, [(at, unit(way))], step, best.cost - 1e-6)
        if other is not None:
            best = other
    return best


def _led(
    task: Task,
    a: End,
    b: End,
    step: float,
    region: tuple[Vector, Vector],
    rule: Rule | None,
    blocked: list[str],
) -> Iterator[tuple[list[Pose], tuple[int, int] | None]]:
    """Every pose on the way: those it has to pass, and those round what is in the way.

    With the settings of both ends that the way was found by, if it is one leg: then there may
    be more ways. What is in the way of a leg that has none goes to ``blocked``.
    """
    if not task.through:
        is_led = False
        for found, i, j in around(task, a, b, step, region, rule):
            is_led = True
            yield found, (i, j)
        if not is_led:
            blocked += _blockers(task, a, b, all_pairs(task, a, b, step))
        return
    poses: list[Pose] = []
    before = a
    for pose in task.through:
        there = End(task, pose_side(pose, -1.0), 0.0, step)
        between = _between(task, before, there, step, rule, blocked)
        if between is None:
            return
        poses += [*between, pose]
        before = End(task, pose_side(pose, 1.0), 0.0, step)
    between = _between(task, before, b, step, rule, blocked)
    if between is not None:
        yield [*poses, *between], None


def _between(
    task: Task, a: End, b: End, step: float, rule: Rule | None, blocked: list[str]
) -> list[Pose] | None:
    """Poses on the way of one leg; none where it needs none."""
    one, two = part(task, a, _taken(a), step), part(task, b, _taken(b), step)
    pairs = all_pairs(task, one, two, step)
    if rule is not None:
        under_rule(task, one, two, pairs, step)
    if any(best.state == 2 and best.cost < STOP for row in pairs for best in row):
        return []
    region = region_of(replace(task, a=a.side, b=b.side, through=()), a, b)
    for found, _, _ in around(task, a, b, step, region, rule):
        return found
    blocked += _blockers(task, a, b, all_pairs(task, a, b, step))
    return None


def _by_halves(
    task: Task, a: End, b: End, poses: list[Pose], step: float, under: float = inf
) -> _Found | None:
    """Choose each end by its own way to the first and last pose, if it costs less than that."""
    there = End(task, pose_side(poses[0], -1.0), 0.0, step)
    back = End(task, pose_side(poses[-1], 1.0), 0.0, step)
    near, far = all_pairs(task, a, there, step), all_pairs(task, back, b, step)
    under_rule(task, a, there, near, step)
    under_rule(task, back, b, far, step)
    middle = _middle(task, poses)
    pairs = [
        [
            Best(
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
    return _chosen(task, a, b, pairs, poses, under)


def _middle(task: Task, poses: list[Pose]) -> float:
    from linewright.routes import _courses

    ends = [
        (
            End(task, pose_side(one, 1.0), 0.0, 0.01).rows[0],
            End(task, pose_side(two, -1.0), 0.0, 0.01).rows[0],
        )
        for one, two in pairwise(poses)
    ]
    radius = task.limits.bend_radius
    return sum(float(_courses.between(x, y, radius)[0]) * radius for x, y in ends)


def _chosen(
    task: Task,
    a: End,
    b: End,
    pairs: list[list[Best]],
    poses: list[Pose],
    under: float = inf,
    plain: bool = False,
) -> _Found | None:
    """The best pair that may be taken, costs less than that and stands the last check."""
    order = sorted(
        (best.cost, a.side.shapes[i].angle, b.side.shapes[j].angle, i, j)
        for i, row in enumerate(pairs)
        for j, best in enumerate(row)
        if best.state == 2 and best.cost < under and is_typed(a, i) and is_typed(b, j)
    )
    for _, _, _, i, j in order:
        route = _route(task, a, b, pairs[i][j], i, j, poses)
        if isinstance(route, str):
            pairs[i][j] = replace(pairs[i][j], state=1)
            continue
        cost, _ = _charged(task, a, b, pairs[i][j], i, j, poses, plain)
        return _Found(cost, route, pairs, poses)
    return None


def _charged(
    task: Task,
    a: End,
    b: End,
    best: Best,
    i: int,
    j: int,
    poses: list[Pose],
    plain: bool = False,
) -> tuple[float, float]:
    """Cost of a course with what the whole of it pays for breaking its rule, and without.

    ``plain`` says that its cost has nothing of that yet.
    """
    if task.gravity is None:
        return best.cost, best.cost
    stick_a, stick_b = float(a.shapes[i, 3]), float(b.shapes[j, 3])
    row_a, row_b = a.row(i, best.turn_a), b.row(j, best.turn_b)
    whole = toll(fault(task, row_a, row_b, (stick_a, stick_b), poses))
    parts = 0.0 if plain else whole
    if poses and not plain:
        # Its parts paid for themselves.
        parts = toll(fault(task, row_a, pose_row(poses[0], -1.0), (stick_a, 0.0)))
        parts += toll(fault(task, pose_row(poses[-1], 1.0), row_b, (0.0, stick_b)))
    return best.cost - parts + whole, best.cost - parts


def _route(
    task: Task, a: End, b: End, best: Best, i: int, j: int, poses: list[Pose]
) -> Route | str:
    """The route of one pair; a word on why not where the last check fails."""
    limits = task.limits
    row_a, row_b = a.row(i, best.turn_a), b.row(j, best.turn_b)
    path = rounded(row_a, poses, row_b, limits)
    if path is None:
        return "no course"
    if fits(path) is not None:
        return "its bends do not fit"
    if bend_count(path) > limits.most_bends:
        return f"more than {limits.most_bends} bends"
    points, on = sample_lines(path, 0.005)
    if poses and _meets_itself(points, on, limits):
        return "it would loop through itself"
    near = keeps(task, path)
    if isinstance(near, str):
        return near
    set_a = collar(task.a.frame, task.a.shapes[i], best.turn_a % (2.0 * pi))
    set_b = collar(task.b.frame, task.b.shapes[j], best.turn_b % (2.0 * pi))
    highs: list[Vector] = []
    lows: list[Vector] = []
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
        near,
        highs=tuple(highs),
        lows=tuple(lows),
        follows=task.follows,
    )
    every = [*ends_of(task, made), *((float(x), float(y), float(z)) for x, y, z in points)]
    return replace(made, height=_tall(every))


def _meets_itself(points: "Floats", on: "Floats", limits: Limits) -> bool:
    """Whether a course comes back to itself after more than half a turn."""
    import numpy as np

    kept = slice(None, None, 2)
    p, along = points[kept], on[kept]
    gap = np.linalg.norm(p[:, None, :] - p[None, :, :], axis=2)
    far = along[None, :] - along[:, None] > 1.2 * pi * limits.bend_radius
    return bool(np.any(gap[far] < limits.outside + limits.clearance))


def _clock(path: Path, a: Setting, b: Setting) -> float | None:
    if not a.shape.angle or not b.shape.angle:
        return None
    return clock(path, a.side, b.side)


def _band(task: Task, a: End, b: End, found: _Found) -> tuple[BandRow, ...]:
    rows = []
    for i, one in enumerate(a.side.shapes):
        for j, two in enumerate(b.side.shapes):
            best = found.pairs[i][j]
            price = one.price_index + two.price_index
            why, cost = "", best.cost
            if best.state != 2:
                why = _why(task, best)
            elif task.gravity is not None:
                charged, cost = _charged(task, a, b, best, i, j, found.poses)
                if charged >= STOP > found.cost:
                    why = _AGAINST[task.gravity.kind]
            if why:
                rows.append(BandRow(one.angle, two.angle, False, price_index=price, why_not=why))
                continue
            told = described(a.row(i, best.turn_a), found.poses, b.row(j, best.turn_b), task.limits)
            if told is None:
                continue
            run, height, bends = told
            rows.append(
                BandRow(
                    one.angle,
                    two.angle,
                    True,
                    run + one.reach + two.reach,
                    height,
                    bends,
                    price,
                    cost,
                    turns=(best.turn_a, best.turn_b),
                )
            )
    return tuple(rows)


def _why(task: Task, best: Best) -> str:
    if best.state == 0:
        return f"would loop: no course at {task.limits.bend_radius * 1e3:.0f} mm radius"
    if best.blocker >= 0:
        return f"{task.scene.name_of(best.blocker)} is in the way of its straightest course"
    return "the hose end itself has no room"


def _blockers(task: Task, a: End, b: End, pairs: list[list[Best]]) -> tuple[str, ...]:
    """What is in the way of courses, most often first; then of the hose ends themselves."""
    rows = [best.blocker for row in pairs for best in row if best.blocker >= 0]
    rows = rows or [int(w) for end in (a, b) for w in end.who if w >= 0]
    names = [task.scene.name_of(row) for row in rows]
    return tuple(sorted(set(names), key=lambda n: (-names.count(n), n)))


def _failed(task: Task, pairs: list[list[Best]]) -> tuple[BandRow, ...]:
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
