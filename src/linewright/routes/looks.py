# SPDX-License-Identifier: Apache-2.0
"""Where the search of a hose looked at bodies: only what it saw there can change its answer."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from linewright.space.bodies import Solid
from linewright.space.model import EndShape

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from linewright.space.outlines import Obstacle

    Floats = NDArray[np.float64]

#: Beyond what is reckoned: nothing hangs by rounding. [m]
_SPARE = 0.001

#: Which way the corners of a box go out.
_OUT = (-1.0, -1.0, -1.0, 1.0, 1.0, 1.0)

#: Boxes that the points of a course are noted in.
STRETCHES = 8


@dataclass(frozen=True, slots=True)
class Asked:
    """What came of all pairs of hose ends of one question, and where each looked at bodies."""

    answers: "Floats"  # a row for each pair (`_pairs.one_pair`), with the boxes it looked in
    blockers: tuple[str, ...]  # who is in the way of each
    seen: "Floats"  # boxes of all pairs, one after the other, with what the hose is thick [m]


class Looks:
    """Where bodies were looked at: boxes round all points of courses that were checked.

    What keeps off all of them by what is asked of it changes no check. ``everywhere`` says that
    more was looked at than is noted. Pairs of hose ends are kept by the question: one whose
    courses met nothing that changed need not be asked again.
    """

    __slots__ = ("_before", "_changed", "everywhere", "found", "pairs")

    def __init__(
        self,
        before: "dict[object, Asked] | None" = None,
        changed: "Iterable[tuple[Obstacle, float]]" = (),
    ) -> None:
        self.everywhere = False
        self.found: list[Floats] = []
        self.pairs: dict[object, Asked] = {}
        self._before, self._changed = before or {}, tuple(changed)

    def known(
        self, question: object, row_of: Callable[[str], int]
    ) -> "tuple[Floats, NDArray[np.int64]] | None":
        """What the same question brought before, where that would still come of it.

        Parameters
        ----------
        question : object
            What was asked.
        row_of : callable
            The row of a body in the scene as it is now, by name.

        Returns
        -------
        tuple of ndarray, or None
            Answers for all pairs, and the numbers of those that have to be asked again. None
            where nothing is known of any.
        """
        import numpy as np

        kept = None if self.everywhere else self._before.get(question)
        if kept is None:
            return None
        count = len(kept.answers)
        again = np.zeros(count, dtype=np.bool_)
        for each in self._changed:
            again |= self._met(kept.seen, *each).reshape(count, -1).any(axis=1)
        answers = kept.answers.copy()
        rows = {name: row_of(name) if name else -1 for name in set(kept.blockers)}
        answers[:, 4] = [rows[name] for name in kept.blockers]
        return answers, np.flatnonzero(again)

    def keep(
        self,
        question: object,
        answers: "Floats",
        blockers: Sequence[str],
        room: float,
        ends: "tuple[Floats, Floats]",
    ) -> None:
        """Keep what came of all pairs.

        Parameters
        ----------
        question : object
            What was asked.
        answers : ndarray
            As `_pairs.one_pair` makes them.
        blockers : sequence of str
            Who is in the way of each.
        room : float
            What a hose is thick to each side. [m]
        ends : tuple of ndarray
            Boxes that each hose end stands in however it is turned, at A and at B. [m]
        """
        import numpy as np

        if self.everywhere:
            return
        count, (a, b) = len(answers), ends
        boxes = np.empty((count, STRETCHES + 2, 6))
        boxes[:, :STRETCHES] = answers[:, 5:].reshape(count, STRETCHES, 6)
        boxes[:, STRETCHES], boxes[:, -1] = np.repeat(a, len(b), axis=0), np.tile(b, (len(a), 1))
        seen = boxes.reshape(-1, 6) + (room + _SPARE) * np.array(_OUT)
        self.pairs[question] = Asked(answers, tuple(blockers), seen)

    def forget(self) -> None:
        """Let go of what was known before: the search is done."""
        self._before, self._changed = {}, ()

    def note(self, seen: "Floats", room: float) -> None:
        """Note boxes round points.

        Parameters
        ----------
        seen : ndarray
            As `_courses.note` makes them. [m]
        room : float
            What a hose is thick to each side. [m]
        """
        import numpy as np

        boxes = seen.reshape(-1, 6)
        boxes = boxes[np.isfinite(boxes[:, 0])]
        self.found.append(boxes + (room + _SPARE) * np.array(_OUT))

    def note_near(self, places: "Floats", room: float) -> None:
        """Note all that is near some places.

        Parameters
        ----------
        places : ndarray
            Ports (n, 3). [m]
        room : float
            How near. [m]
        """
        import numpy as np

        self.note(np.concatenate([places.min(axis=0), places.max(axis=0)]), room)

    def note_draws(
        self,
        ends: "Sequence[Floats]",
        shapes: tuple[EndShape, EndShape],
        leads: tuple[float, float],
        seen: "Floats",
        room: float,
    ) -> None:
        """Note courses from draws of one port to draws of another.

        Parameters
        ----------
        ends : sequence of ndarray
            Draws of both (`doubt.drawn`).
        shapes : tuple of EndShape
            Their hose ends.
        leads : tuple of float
            The straight after each. [m]
        seen : ndarray
            As for `note`.
        room : float
            What the hose is thick to each side. [m]
        """
        self.note(seen, room)
        for places, shape, lead in zip(ends, shapes, leads, strict=True):
            # The corner of an elbow of 30° or more is within twice its drop of its seat.
            far = shape.stick_out + 2.0 * abs(shape.drop) + abs(shape.reach) + lead
            self.note_near(places[:, :3], far + room)

    def boxes(self) -> "Floats":
        """All boxes, low and high corner, shape (n, 6).

        Returns
        -------
        ndarray
            Of the centreline and what it is thick. [m]
        """
        import numpy as np

        if len(self.found) > 1:
            self.found = [np.unique(np.concatenate(self.found), axis=0)]
        return self.found[0] if self.found else np.empty((0, 6))

    def meet(self, each: "Obstacle", moved: float) -> bool:
        """Whether a body may have been seen.

        Parameters
        ----------
        each : Solid, Tube, Wall or HalfSpace
            The body.
        moved : float
            How far it may come nearer by what it rides on. [m]

        Returns
        -------
        bool
            True as well where that cannot be told cheaply.
        """
        return bool(self._met(self.boxes(), each, moved).any())

    @staticmethod
    def _met(seen: "Floats", each: "Obstacle", moved: float) -> "NDArray[np.bool_]":
        """Which boxes a body may have been seen in; all where that cannot be told cheaply."""
        import numpy as np

        from linewright.space.outlines import Tube

        room = max(each.clearance, 0.0) + moved
        if isinstance(each, Tube):
            room += each.radius
            points = np.array(each.points if len(each.points) > 1 else each.points * 2)
            low = np.minimum(points[:-1], points[1:])
            high = np.maximum(points[:-1], points[1:])
        elif isinstance(each, Solid) and each.box is not None:
            room += max(each.grown)
            low, high = np.array(each.box[:1]), np.array(each.box[1:])
        else:
            return np.ones(max(len(seen), 1), dtype=np.bool_)
        boxes = seen[:, None]
        inside = (boxes[..., :3] <= high + room) & (boxes[..., 3:] >= low - room)
        met: NDArray[np.bool_] = inside.all(axis=2).any(axis=1)
        return met


def nothing_seen() -> "Floats":
    """Empty boxes, one for each stretch of a course.

    Returns
    -------
    ndarray
        As `_courses.note` widens them.
    """
    import numpy as np

    return np.tile(np.repeat([np.inf, -np.inf], 3), STRETCHES)
