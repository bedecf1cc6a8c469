# SPDX-License-Identifier: Apache-2.0
"""The way round what blocks the straightest courses of a hose."""

from linewright.base.vectors import Vector, unit
from linewright.routes.gravity import numbers
from linewright.routes.pairs import MARGIN, End
from linewright.routes.tasks import Pose, Rule, Task

#: Cells in which the way home is reckoned are no finer than this. [m]
_CELL = 0.05

#: Nodes that the way round is looked for among, before it is given up.
NODES = 400


def around(
    task: Task,
    a: End,
    b: End,
    step: float,
    region: tuple[Vector, Vector],
    gravity: Rule | None = None,
) -> tuple[list[Pose], int, int] | None:
    """Poses of a way round what blocks the straightest courses.

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
        What it keeps all the way.

    Returns
    -------
    tuple or None
        Poses in order from A, and the numbers of the settings of A and B that it was found
        from and to; None if no way was found.
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
        return None
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
            rule,
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
    m = _lattice.shortened(
        *task.question, poses, radius, keep, step, task.weights.bend, rule, chosen
    )
    kept = chosen[1 : m - 1] if m else range(1, len(poses) - 1)
    found = [
        ((float(p[0]), float(p[1]), float(p[2])), unit((float(p[3]), float(p[4]), float(p[5]))))
        for p in (poses[k] for k in kept)
    ]
    ends = int(told[0]), int(told[1])
    if found:
        return found, *ends
    # The settings found run home at once, though no pair tried before did: a pose after the
    # straight holds it.
    start = a.rows[told[0]]
    at = (float(start[0]), float(start[1]), float(start[2]))
    return [(at, unit((float(start[3]), float(start[4]), float(start[5]))))], *ends


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
