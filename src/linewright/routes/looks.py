# SPDX-License-Identifier: Apache-2.0
"""Where the search of a hose looked at bodies: only what it saw there can change its answer."""

from collections.abc import Sequence
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

#: Boxes that the points of a course are noted in.
STRETCHES = 8


class Looks:
    """Where bodies were looked at: boxes round all points of courses that were checked.

    What keeps off all of them by what is asked of it changes no check. ``everywhere`` says that
    more was looked at than is noted.
    """

    __slots__ = ("everywhere", "found")

    def __init__(self) -> None:
        self.everywhere = False
        self.found: list[Floats] = []

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
        out = (room + _SPARE) * np.array([-1.0, -1.0, -1.0, 1.0, 1.0, 1.0])
        self.found.append(boxes + out)

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
            return True
        boxes = self.boxes()[:, None]
        inside = (boxes[..., :3] <= high + room) & (boxes[..., 3:] >= low - room)
        return bool(inside.all(axis=2).any())


def nothing_seen() -> "Floats":
    """Empty boxes, one for each stretch of a course.

    Returns
    -------
    ndarray
        As `_courses.note` widens them.
    """
    import numpy as np

    return np.tile(np.repeat([np.inf, -np.inf], 3), STRETCHES)
