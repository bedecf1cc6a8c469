# SPDX-License-Identifier: Apache-2.0
"""The way round what blocks the straightest courses of a hose."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from linewright.base.vectors import Vector, unit
from linewright.routes.gravity import numbers
from linewright.routes.pairs import MARGIN, End
from linewright.routes.tasks import Pose, Rule, Task

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

#: Cells in which the way home is reckoned are no finer than this. [m]
_CELL = 0.05


@dataclass(frozen=True, slots=True)
class Try:
    """One way of looking: how long its pieces are, among how many nodes, how greedily.

    ``size`` 1 is pieces of a third of a turn at most. ``greed`` over 1 trusts what is left home
    more than what lies behind: quicker, and the way found is drawn taut anyway. ``back`` grows
    the hose from end B: one end may stand in a pocket that is easier to leave than to find.
    """

    size: float
    nodes: int
    greed: float = 1.4
    back: bool = False


#: What is tried in turn, the cheapest first: most of what can be found is found by the first.
#: The first alone is what a part of the effort is spent on.
TRIES = (
    Try(1.0, 400),
    Try(0.6, 400),
    Try(1.0, 1000, 2.0),
    Try(1.0, 1000, 2.0, back=True),
    Try(1.0, 4000, 2.0),
    Try(1.0, 4000, 2.0, back=True),
)

#: Poses and the numbers of the settings of A and B that a way leads from and to.
Way = tuple[list[Pose], int, int]


def around(
    task: Task,
    a: End,
    b: End,
    step: float,
    region: tuple[Vector, Vector],
    gravity: Rule | None = None,
) -> Iterator[Way]:
    """Ways round what blocks the straightest courses, each looked for when it is asked for.

    Parameters
    ----------
    task : Task
        The hose.
    a, b : End
        Settings of its ends.
    step : float
        Between points at which it is looked at. [m]
    region : tuple of Vector
        Low and high corner of where it may go. [m]
    gravity : Rule, optional
        What it keeps all the way; it is then looked for from end A alone.

    Yields
    ------
    tuple
        Poses in order from A, and the numbers of the settings of A and B that the way was found
        from and to. Nothing where no way was found.
    """
    import numpy as np

    from linewright.routes import _gravity, _lattice

    radius, keep = task.limits.bend_radius, task.limits.outside / 2.0 + MARGIN
    way, told = np.zeros((64, 6)), np.zeros(3, dtype=np.int64)
    ok_a, ok_b = a.allowed(a.side.angle).copy(), b.allowed(b.side.angle).copy()
    rule = numbers(gravity)
    _gravity.ends_keep(rule, a.rows, a.shapes[a.which, 3], 1.0, ok_a)
    _gravity.ends_keep(rule, b.rows, b.shapes[b.which, 3], -1.0, ok_b)
    if not ok_a.any() or not ok_b.any():
        return
    cell = max(_CELL, radius / 3.5)
    low, high = np.array(region[0]), np.array(region[1])
    count = np.ceil((high - low) / cell).astype(np.int64)
    axes = [low[k] + cell * (np.arange(count[k]) + 0.5) for k in range(3)]
    points = np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1).reshape(-1, 3)
    gaps, _ = task.scene.gaps(points, asked=True, leave=task.leave, bare=task.bare)
    # A cell counts as free where a hose may pass somewhere in it.
    free = (gaps > keep - cell / 2.0).reshape(tuple(count))
    left: dict[bool, Floats] = {}
    for each in TRIES if task.effort >= 1.0 else TRIES[:1]:
        if each.back and gravity is not None:
            continue
        starts, ok_starts, goals, ok_goals = a.rows, ok_a, b.rows, ok_b
        if each.back:
            starts, ok_starts, goals, ok_goals = goals, ok_goals, starts, ok_starts
        if each.back not in left:
            left[each.back] = np.empty(tuple(count))
            _lattice.far_home(free, low, cell, goals, ok_goals, left[each.back])
        n = _lattice.around(
            *task.question,
            starts,
            ok_starts,
            goals,
            ok_goals,
            radius,
            keep,
            step,
            low,
            high,
            task.weights.bend,
            round(each.nodes * task.effort),
            each.size,
            each.greed,
            cell,
            left[each.back],
            rule,
            way,
            told,
        )
        if n:
            goal = goals[told[1]]
            poses = np.vstack((way[:n], np.concatenate((goal[:3], -goal[3:6]))[None, :]))
            ends = int(told[0]), int(told[1])
            if each.back:
                poses, ends = np.ascontiguousarray(poses[::-1]), (ends[1], ends[0])
                poses[:, 3:] *= -1.0
            yield _taut(task, step, rule, poses), *ends


def _taut(task: Task, step: float, rule: "Floats", poses: "Floats") -> list[Pose]:
    """Those of the poses on a way that it needs."""
    import numpy as np

    from linewright.routes import _lattice

    radius, keep = task.limits.bend_radius, task.limits.outside / 2.0 + MARGIN
    chosen = np.zeros(len(poses), dtype=np.int64)
    m = _lattice.shortened(
        *task.question, poses, radius, keep, step, task.weights.bend, rule, chosen
    )
    kept = chosen[1 : m - 1] if m else range(1, len(poses) - 1)
    # Where the settings found run home at once, though no pair tried before did, a pose after
    # the straight holds it.
    return [
        ((float(p[0]), float(p[1]), float(p[2])), unit((float(p[3]), float(p[4]), float(p[5]))))
        for p in (poses[k] for k in (kept if len(kept) else [0]))
    ]


def region_of(task: Task, a: End, b: End) -> tuple[Vector, Vector]:
    """Where bodies are looked at: as far round the ends as hoses bend.

    Parameters
    ----------
    task : Task
        The hose.
    a, b : End
        Settings of its ends.

    Returns
    -------
    tuple of Vector
        Low and high corner. [m]
    """
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
