# SPDX-License-Identifier: Apache-2.0
"""Every pair of hose ends: the best setting of both, and whether its course is clear."""

from dataclasses import dataclass, replace
from math import dist, pi, radians
from typing import TYPE_CHECKING

from linewright.base.vectors import ahead, cross, dot, unit
from linewright.routes._asked import Effort, Hose, Settings
from linewright.routes.looks import STRETCHES
from linewright.routes.tasks import Pose, Side, Task
from linewright.space.model import EndShape, Frame

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

#: Places of an elbow that are tried first, in a full turn; then it is turned downhill.
COARSE = 12

#: Courses of one pair that are asked whether they are clear.
TRIED = 24

#: So many of the best pairs are looked at again, from so many places of their elbows.
_AGAIN, _FINER = 5, 24

#: Ports are near that stand no more bend radii apart. There a course without a loop may stand in
#: a few degrees only: all pairs are looked at from so many places of each elbow, and pairs with
#: one elbow from so many of that.
_NEAR, _FINE, _FINEST = 3.0, 18, 72

#: How much is tried at first, and where ports are near.
_QUICK = Effort(TRIED, 3, 0.25, 0.1, 2)
_THOROUGH = Effort(TRIED, 9, 0.5, 0.2, 2)

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

    @property
    def settings(self) -> Settings:
        """What kernels are handed of this end.

        Returns
        -------
        Settings
            All of it.
        """
        return Settings(
            self.question[4],
            self.frame,
            self.shapes,
            float(self.straight),
            self.rows,
            self.turns,
            self.ok,
            self.first,
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

    def boxes(self) -> "Floats":
        """Boxes round each hose end from seat to collar, however its elbow is turned.

        Returns
        -------
        ndarray
            Low and high corner, of its centreline, by hose end. [m]
        """
        import numpy as np

        origin, out = self.frame[:3], self.frame[3:6]
        # Seat and corner stand on the axis of the port, and the collar runs round it.
        on = self.rows[self.first[:-1], 13:22].reshape(-1, 3, 3) - origin
        along = on @ out
        wide = np.linalg.norm(on[:, 0] - along[:, :1] * out, axis=1)[:, None]
        wide = wide * np.sqrt(np.maximum(1.0 - out * out, 0.0))
        ends = origin + np.stack([along.min(axis=1), along.max(axis=1)])[..., None] * out
        return np.concatenate([ends.min(axis=0) - wide, ends.max(axis=0) + wide], axis=1)

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


def _call(end: End) -> tuple[bytes, ...]:
    """What tells one end that is asked for from another."""
    return end.frame.tobytes(), end.shapes.tobytes(), end.turns.tobytes()


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


def asked_hose(task: Task, step: float, weighed: "Floats") -> Hose:
    """What kernels are handed of a hose.

    Parameters
    ----------
    task : Task
        The hose.
    step : float
        Between points at which a course is looked at. [m]
    weighed : ndarray
        Its `weights`, or the first two of them.

    Returns
    -------
    Hose
        All of it.
    """
    import numpy as np

    return Hose(
        float(task.limits.bend_radius),
        task.limits.outside / 2.0 + MARGIN,
        float(step),
        np.array([*task.box[0], *task.box[1]]),
        weighed,
    )


def all_pairs(
    task: Task, a: End, b: End, step: float, tried: int = TRIED, effort: Effort = _QUICK
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
    tried : int
        Courses of one pair that are asked whether they are clear. [-]
    effort : Effort
        How much is tried besides.

    Returns
    -------
    list of list of Best
        By number of the hose end at A, then at B.
    """
    import numpy as np

    from linewright.routes import _pairs
    from linewright.space.obstacles import ONE_AT_A_TIME

    room = task.limits.outside / 2.0 + MARGIN
    looks = task.looks
    name = (*_call(a), *_call(b), step, tried, effort)
    known = None if looks is None else looks.known(name, task.scene.row_of)
    if known is None:
        answers = np.zeros((len(a.side.shapes) * len(b.side.shapes), 5 + 6 * STRETCHES))
        which = np.arange(len(answers))
    else:
        answers, which = known
    hose = asked_hose(task, step, weights(task))
    effort = effort._replace(tried=tried)
    asked = (*task.question, hose, a.settings, b.settings, answers, effort, which)
    if len(which) <= _FEW:
        _pairs.few_pairs(*asked)
    else:
        with ONE_AT_A_TIME:
            _pairs.all_pairs(*asked)
    if looks is not None:
        looks.note(answers[:, 5:], room)
        for end in (a, b):
            looks.note_near(end.frame[None, :3], end.reach + task.limits.outside / 2.0)
        blockers = [task.scene.name_of(int(row)) for row in answers[:, 4]]
        looks.keep(name, answers, blockers, room, (a.boxes(), b.boxes()))
    n = len(b.side.shapes)
    return [
        [
            Best(float(r[0]), float(r[1]), float(r[2]), int(r[3]), int(r[4]))
            for r in answers[i * n : (i + 1) * n]
        ]
        for i in range(len(a.side.shapes))
    ]


def direct(task: Task, a: End, b: End, step: float) -> list[list[Best]]:
    """Best course of every pair of hose ends, looked for more finely where ports are near.

    Parameters
    ----------
    task : Task
        The hose.
    a, b : End
        Settings of its ends.
    step : float
        Between points at which a course is looked at. [m]

    Returns
    -------
    list of list of Best
        By number of the hose end at A, then at B.
    """
    apart = dist(task.a.frame.origin, task.b.frame.origin)
    if task.effort >= 1.0 and apart <= _NEAR * task.limits.bend_radius:
        return _finely(task, a, b, step)
    pairs = all_pairs(task, a, b, step)
    ranked = sorted(
        (best.cost, i, j)
        for i, row in enumerate(pairs)
        for j, best in enumerate(row)
        if best.state == 2 and is_typed(a, i) and is_typed(b, j)
    )
    # The best are looked at again, from more places of their elbows.
    for _, i, j in ranked[:_AGAIN]:
        one, two = part(task, a, [i], step, _FINER), part(task, b, [j], step, _FINER)
        _put(pairs, [i], [j], all_pairs(task, one, two, step, _FINER**2))
    return pairs


def _finely(task: Task, a: End, b: End, step: float) -> list[list[Best]]:
    """The same from so many places that little is missed between them."""
    every_a, every_b = list(range(len(a.side.shapes))), list(range(len(b.side.shapes)))
    one, two = part(task, a, every_a, step, _FINE), part(task, b, every_b, step, _FINE)
    pairs = all_pairs(task, one, two, step, effort=_THOROUGH)
    # With a straight hose end there is but one elbow to turn.
    unbent_a = [i for i in every_a if not a.side.shapes[i].angle]
    unbent_b = [j for j in every_b if not b.side.shapes[j].angle]
    if unbent_a:
        one, two = part(task, a, unbent_a, step), part(task, b, every_b, step, _FINEST)
        found = all_pairs(task, one, two, step, effort=_THOROUGH)
        _put(pairs, unbent_a, every_b, found)
    if unbent_b:
        one, two = part(task, a, every_a, step, _FINEST), part(task, b, unbent_b, step)
        found = all_pairs(task, one, two, step, effort=_THOROUGH)
        _put(pairs, every_a, unbent_b, found)
    return pairs


def _put(
    pairs: list[list[Best]], rows: list[int], columns: list[int], found: list[list[Best]]
) -> None:
    """Put what is found cheaper for some pairs in the place of what was."""
    for i, row in zip(rows, found, strict=True):
        for j, best in zip(columns, row, strict=True):
            if best.state == 2 and best.cost < pairs[i][j].cost - 1e-9:
                pairs[i][j] = best


def part(task: Task, end: End, kept: list[int], step: float, places: int = COARSE) -> End:
    """Some of the hose ends of an end, at the prices that they have among all.

    Parameters
    ----------
    task : Task
        The hose.
    end : End
        One of its ends, at as many places of each elbow as are tried first.
    kept : list of int
        Numbers of the hose ends.
    step : float
        Between points at which a course is looked at. [m]
    places : int
        Places of each elbow. [-]

    Returns
    -------
    End
        With those hose ends, in that order.
    """
    if len(kept) == len(end.side.shapes) and places == COARSE:
        return end
    shapes = tuple(end.side.shapes[k] for k in kept)
    found = End(task, replace(end.side, shapes=shapes), end.straight, step, places)
    for n, k in enumerate(kept):
        found.rows[found.which == n, 12] += end.shapes[k, 4] - found.shapes[n, 4]
        found.shapes[n, 4] = end.shapes[k, 4]
    return found


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
