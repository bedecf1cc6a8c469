# SPDX-License-Identifier: Apache-2.0
"""In which draws of its ports the pairs of hose ends of one hose still work.

The elbows are turned again and the hose is cut to length in each draw, for that is what a
builder would do. A line that has to fall, rise or trap nothing has to in a draw too, by a part
of its limit, unless it does not as typed. A course that is led round something is asked so
half by half.
"""

from collections.abc import Sequence
from dataclasses import replace
from math import radians
from typing import TYPE_CHECKING

from linewright.base.vectors import Vector, unit
from linewright.routes.courses import rounded
from linewright.routes.doubt import Doubt, Known, drawn
from linewright.routes.gravity import STOP, eased, numbers
from linewright.routes.looks import nothing_seen
from linewright.routes.pairs import THROUGH, pose_side
from linewright.routes.route import BandRow
from linewright.routes.tasks import Outcome, Side, Task
from linewright.space.model import EndShape, Frame, Limits
from linewright.space.path import Path, length, point, sample_lines

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from linewright.space.nearest import Bodies, Tree

    Floats = NDArray[np.float64]
    Flags = NDArray[np.bool_]
    Whole = NDArray[np.int64]

#: Angles of the hose ends at A and B. [deg]
Pair = tuple[int, int]

#: What the kernel says of a draw in which a pair works.
_WORKS = 2

#: So many other places of the elbows are tried where those that were found do not work.
_TRIED = 3

#: Points at which a course is looked at are so far apart. [m]
_STEP = 0.012


class Trial:
    """One hose, to be asked in which draws its pairs work."""

    def __init__(self, task: Task, outcome: Outcome, doubt: Doubt) -> None:
        import numpy as np

        self.task, self.poses, self.doubt = task, outcome.poses, doubt
        self.ends = ends = ends_of(task)
        bodies, tree, asked, slack, live = task.question
        touch = task.scene.question(leave=task.leave, bare=[o.id for o in task.scene.obstacles])[2]
        # In a draw a clearance may be used up in part: that is what it is for.
        off = touch + doubt.gap * (asked - touch)
        fixed, moving = live, []
        for carrier in dict.fromkeys((ends[0].carrier, ends[1].carrier)):
            own = {o.id for o in task.scene.obstacles if getattr(o, "component", "") == carrier}
            rest = task.scene.question(leave={*task.leave, *own})[4]
            moving.append(live & ~rest)
            fixed = fixed & rest
        if len(moving) == 1:
            moving.append(np.zeros_like(live))
        self.scene: tuple[Bodies, Tree, Floats, Floats] = (bodies, tree, off, slack)
        self.live: tuple[Flags, Flags, Flags] = (fixed, moving[0], moving[1])
        self._draws: dict[tuple[Known, int, int], Floats] = {}
        self._backs: dict[Pair, tuple[tuple[Floats, Floats], ...]] = {}
        self.rule = numbers(eased(task.gravity, doubt.gap) if outcome.cost < STOP else None)
        self.typed = np.concatenate([_still(ends[0]), _still(ends[1])])
        self.near = task.scene.question(leave=task.leave | task.a.own | task.b.own)[4]

    def works(self, row: BandRow, a: Known, b: Known, first: int, last: int) -> "Flags":
        """In which draws a pair works.

        Parameters
        ----------
        row : BandRow
            The pair, with the turns of its elbows for the ports as typed.
        a, b : Known
            Both ends, as they are known.
        first, last : int
            Which draws.

        Returns
        -------
        ndarray of bool
            One for each draw.
        """
        import numpy as np

        ends = [self._drawn(each, first, last) for each in (a, b)]
        shapes = shape_of(self.task.a, row.angle_a), shape_of(self.task.b, row.angle_b)
        straight = self.task.limits.straight
        found = np.zeros(last - first, dtype=np.int64)
        if not self.poses:
            typed = self.typed[:1], self.typed[1:]
            self._leg((ends[0], ends[1]), typed, shapes, (straight, straight), row.turns, found)
        works: Flags = found == _WORKS
        if works.all():
            return works
        moved = (ends[0][:, :3] - self.typed[0, :3] + ends[1][:, :3] - self.typed[1, :3]) / 2.0
        for near, far in self._ways(row):
            # Where the ends are too near for any course, a shorter one does not help.
            half = found.copy() if self.poses else np.where(found == 0, -1, found)
            for side, still in enumerate((near, far)):
                if side:
                    # What the first half cannot do the second need not.
                    half = np.where(half == _WORKS, found, -1)
                there = np.repeat(still, len(found), axis=0)
                there[:, :3] += moved
                self._leg(
                    (there, ends[1]) if side else (ends[0], there),
                    (there[:1], self.typed[1:]) if side else (self.typed[:1], there[:1]),
                    (THROUGH, shapes[1]) if side else (shapes[0], THROUGH),
                    (0.0, straight) if side else (straight, 0.0),
                    (0.0, row.turns[1]) if side else (row.turns[0], 0.0),
                    half,
                )
            found[half == _WORKS] = _WORKS
        return np.asarray(found == _WORKS)

    def _drawn(self, known: Known, first: int, last: int) -> "Floats":
        """Draws of one end; they are the same for each pair."""
        key = (known, first, last)
        if key not in self._draws:
            self._draws[key] = drawn(known, self.doubt.seed, first, last)
        return self._draws[key]

    def _ways(self, row: BandRow) -> "tuple[tuple[Floats, Floats], ...]":
        """Frames up to where either end may turn a course aside, as an end of each half."""
        pair = pair_of(row)
        if pair not in self._backs:
            path = self._course(row)
            shares: list[tuple[float, float]] = []
            if path is not None:
                if self.poses:
                    on = [_share(path, self.poses[k][0]) for k in (0, -1)]
                    shares.append((on[0], on[1]))
                if len(self.poses) < 2:
                    shares.append((0.5, 0.5))
            self._backs[pair] = tuple(
                (_there(path, near, -1.0), _there(path, far, 1.0)) for near, far in shares if path
            )
        return self._backs[pair]

    def _course(self, row: BandRow) -> Path | None:
        """The course of a pair for the ports as typed."""
        task = self.task
        rows = []
        for side, angle, turn in (
            (task.a, row.angle_a, row.turns[0]),
            (task.b, row.angle_b, row.turns[1]),
        ):
            rows.append(setting_row(side.frame, shape_of(side, angle), task.limits, turn))
        return rounded(rows[0], self.poses, rows[1], task.limits)

    def _leg(
        self,
        ends: "Sequence[Floats]",
        typed: "tuple[Floats, Floats]",
        shapes: tuple[EndShape, EndShape],
        leads: tuple[float, float],
        turns: tuple[float, float],
        states: "Whole",
    ) -> None:
        """Note in which draws a course from one end to another works that did not yet."""
        import numpy as np

        from linewright.routes import _survival

        limits = self.task.limits
        seen = nothing_seen()
        _survival.survives(
            *self.scene,
            *self.live,
            self.near,
            ends[0],
            ends[1],
            np.concatenate(typed),
            _shape_row(shapes[0], leads[0], limits),
            _shape_row(shapes[1], leads[1], limits),
            np.array(leads),
            np.array(turns),
            limits.bend_radius,
            limits.outside / 2.0,
            _STEP,
            _TRIED,
            self.rule,
            seen,
            states,
        )
        if self.task.looks is not None:
            self.task.looks.note_draws(ends, shapes, leads, seen, limits.outside / 2.0)


def _there(path: Path, share: float, way: float) -> "Floats":
    """A place on a course, such a share along it, as the end of the hose up to it or from it."""
    on = length(path) * share
    at, ahead_ = point(path, on), point(path, on + 1e-4)
    along = unit((ahead_[0] - at[0], ahead_[1] - at[1], ahead_[2] - at[2]))
    return _still(Known("", pose_side((at, along), way).frame))


def _share(path: Path, at: Vector) -> float:
    """How far along a course it is nearest to a point, as a share of its length."""
    import numpy as np

    points, on = sample_lines(path, _STEP / 4.0)
    nearest = int(np.argmin(np.sum((points - np.array(at)) ** 2, axis=1)))
    return float(on[nearest] / on[-1])


def _still(known: Known) -> "Floats":
    """An end as typed."""
    return drawn(replace(known, frame=replace(known.frame, spread=0.0, tilt=0.0)), 0, 0, 1)


def _shape_row(shape: EndShape, lead: float, limits: Limits) -> "Floats":
    """A hose end as the kernels know it (`_courses.set_row`), at no cost."""
    import numpy as np

    rim = min(lead, limits.outside / 2.0)
    return np.array([radians(shape.angle), shape.reach, shape.drop, shape.stick_out, 0.0, rim])


def setting_row(frame: Frame, shape: EndShape, limits: Limits, turn: float) -> "Floats":
    """One setting of a hose end as the kernels know it.

    Parameters
    ----------
    frame : Frame
        The port.
    shape : EndShape
        The hose end.
    limits : Limits
        What the hose keeps.
    turn : float
        The elbow's place on its port. [rad]

    Returns
    -------
    ndarray
        The row (`_courses`).
    """
    import numpy as np

    from linewright.routes import _courses

    row = np.zeros(_courses.WIDE)
    still = _still(Known("", frame))[0]
    _courses.set_row(still, _shape_row(shape, limits.straight, limits), limits.straight, turn, row)
    return row


def shape_of(side: Side, angle: int) -> EndShape:
    """The hose end of an angle.

    Parameters
    ----------
    side : Side
        One end of the hose.
    angle : int
        One of those that may stand there. [deg]

    Returns
    -------
    EndShape
        As said.
    """
    return next(shape for shape in side.shapes if shape.angle == angle)


def ends_of(task: Task) -> tuple[Known, Known]:
    """Both ends as they are known; one without a name goes by the hose and its side.

    Parameters
    ----------
    task : Task
        The hose.

    Returns
    -------
    tuple of Known
        At A and at B.
    """
    a, b = (
        Known(side.port or f"{task.id}.{end}", side.frame)
        for side, end in ((task.a, "A"), (task.b, "B"))
    )
    return a, b


def pair_of(row: BandRow) -> Pair:
    """The hose ends of a row of the band.

    Parameters
    ----------
    row : BandRow
        The row.

    Returns
    -------
    Pair
        As said.
    """
    return row.angle_a, row.angle_b
