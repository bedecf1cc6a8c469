# SPDX-License-Identifier: Apache-2.0
"""Every pair of hose ends: the best setting of both, and whether its course is clear."""

from dataclasses import dataclass, replace
from math import pi, radians
from typing import TYPE_CHECKING

from linewright.base.vectors import ahead, cross, dot, unit
from linewright.routes.looks import STRETCHES
from linewright.routes.tasks import Pose, Side, Task
from linewright.space.model import EndShape, Frame

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

#: Places of an elbow that are tried first, in a full turn; then it is turned downhill.
COARSE = 12
FINEST = radians(1.0)

#: Courses of one pair of ends that are searched all round where aiming is in doubt.
_DOUBTS = COARSE**2

#: Courses of one pair that are asked whether they are clear.
_TRIED = 24

#: So many of the best pairs are looked at again, from so many places of their elbows.
_AGAIN, _FINER = 5, 24

#: So few pairs are not worth sharing among cores.
_FEW = 8

#: What a course keeps off beyond its limit while it is looked for between points. [m]
MARGIN = 0.0015

#: A null hose end: a pose on the way, where the hose goes on.
THROUGH = EndShape(0, 0.0, 0.0, price_index=0.0)


class End:
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
                    min(straight, task.limits.outside / 2.0) + 1.1 * MARGIN,
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
        # The farthest from its port: where the hose begins, the collar or the elbow's corner.
        self.reach = max(
            float(np.linalg.norm(self.rows[:, k : k + 3] - self.frame[:3], axis=1).max())
            for k in (0, 13, 16)
        )

    def allowed(self, angle: int | None) -> "NDArray[np.bool_]":
        """Settings that stand clear, of the builder's angle where he typed one.

        Parameters
        ----------
        angle : int or None
            That angle. [deg]

        Returns
        -------
        ndarray of bool
            For each setting.
        """
        import numpy as np

        if angle is None:
            return self.ok
        fit = np.array([s.angle == angle for s in self.side.shapes])
        found: NDArray[np.bool_] = self.ok & fit[self.which]
        return found

    def row(self, shape: int, turn: float) -> "Floats":
        """One setting as the kernels know it.

        Parameters
        ----------
        shape : int
            Number of the hose end. [-]
        turn : float
            Its elbow's place. [rad]

        Returns
        -------
        ndarray
            The row (`_courses`).
        """
        import numpy as np

        from linewright.routes import _courses

        row = np.zeros(_courses.WIDE)
        _courses.set_row(self.frame, self.shapes[shape], self.straight, turn, row)
        return row


@dataclass(frozen=True, slots=True)
class Best:
    """The best of one pair of shapes: turns, cost, state (see `_pairs.one_pair`), blocker."""

    turn_a: float
    turn_b: float
    cost: float
    state: int
    blocker: int


def pose_side(pose: Pose, way: float) -> Side:
    """A pose on the way as an end of the hose before or after it.

    Parameters
    ----------
    pose : Pose
        The place and the direction of travel.
    way : float
        1 for a hose that leaves it, -1 for one that comes to it. [-]

    Returns
    -------
    Side
        With a null hose end.
    """
    at, along = pose
    out = (way * along[0], way * along[1], way * along[2])
    side = (0.0, 0.0, 1.0) if abs(out[2]) < 0.9 else (1.0, 0.0, 0.0)
    return Side(Frame(at, out, unit(ahead(side, out, -dot(side, out)))), (THROUGH,))


def weights(task: Task) -> "Floats":
    """What a course of a hose is weighed by, as the kernels take it.

    Parameters
    ----------
    task : Task
        The hose.

    Returns
    -------
    ndarray
        A metre outside, a bend, planes that cross, and the straight that undoes that. [m]
    """
    import numpy as np

    w = task.weights
    return np.array([w.outside, w.bend, w.plane, max(w.between * task.limits.outside, 1e-6)])


def all_pairs(
    task: Task, a: End, b: End, step: float, tried: int = _TRIED, doubts: int = _DOUBTS
) -> list[list[Best]]:
    """Best course of every pair of hose ends.

    Parameters
    ----------
    task : Task
        The hose.
    a, b : End
        Settings of its ends.
    step : float
        Between points at which a course is looked at. [m]
    tried, doubts : int
        Courses of one pair that are asked whether they are clear, and that are searched all
        round where aiming is in doubt. [-]

    Returns
    -------
    list of list of Best
        By number of the hose end at A, then at B.
    """
    import numpy as np

    from linewright.routes import _pairs
    from linewright.space.obstacles import ONE_AT_A_TIME

    answers = np.zeros((len(a.side.shapes) * len(b.side.shapes), 5 + 6 * STRETCHES))
    leads = np.array([a.straight, b.straight, pi / COARSE, FINEST])
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
        weights(task),
        answers,
        tried,
        doubts,
    )
    if len(answers) <= _FEW:
        _pairs.few_pairs(*asked)
    else:
        with ONE_AT_A_TIME:
            _pairs.all_pairs(*asked)
    if task.looks is not None:
        task.looks.note(answers[:, 5:], task.limits.outside / 2.0 + MARGIN)
        for end in (a, b):
            task.looks.note_near(end.frame[None, :3], end.reach + task.limits.outside / 2.0)
    n = len(b.side.shapes)
    return [
        [
            Best(float(r[0]), float(r[1]), float(r[2]), int(r[3]), int(r[4]))
            for r in answers[i * n : (i + 1) * n]
        ]
        for i in range(len(a.side.shapes))
    ]


def deepened(task: Task, a: End, b: End, pairs: list[list[Best]], step: float) -> bool:
    """Look again at the best pairs, from more places of their elbows.

    Parameters
    ----------
    task : Task
        The hose.
    a, b : End
        Settings of its ends.
    pairs : list of list of Best
        What `all_pairs` found; what is found better is put in its place.
    step : float
        Between points at which a course is looked at. [m]

    Returns
    -------
    bool
        Whether any pair works that may be taken.
    """
    ranked = sorted(
        (best.cost, i, j)
        for i, row in enumerate(pairs)
        for j, best in enumerate(row)
        if best.state == 2 and is_typed(a, i) and is_typed(b, j)
    )
    for _, i, j in ranked[:_AGAIN]:
        one = End(task, replace(a.side, shapes=(a.side.shapes[i],)), a.straight, step, _FINER)
        two = End(task, replace(b.side, shapes=(b.side.shapes[j],)), b.straight, step, _FINER)
        # Prices go by the cheapest of all ends, not by the one looked at again.
        for end, price in ((one, a.shapes[i, 4]), (two, b.shapes[j, 4])):
            end.rows[:, 12] += price - end.shapes[0, 4]
            end.shapes[0, 4] = price
        found = all_pairs(task, one, two, step, _FINER**2, 6 * _DOUBTS)[0][0]
        if found.state == 2 and found.cost < pairs[i][j].cost - 1e-9:
            pairs[i][j] = found
    return bool(ranked)


def is_typed(end: End, shape: int) -> bool:
    """Whether a hose end may be taken: the builder typed its angle, or none.

    Parameters
    ----------
    end : End
        One end of the hose.
    shape : int
        Number of the hose end. [-]

    Returns
    -------
    bool
        As said.
    """
    return end.side.angle is None or end.side.shapes[shape].angle == end.side.angle
