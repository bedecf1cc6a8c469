# SPDX-License-Identifier: Apache-2.0
"""What one hose is laid among: bodies, walls and the hoses that lie already near it."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from linewright.base.vectors import Vector
from linewright.car.model import Car, Shape
from linewright.joints.offered import setting
from linewright.routes.courses import polyline
from linewright.routes.route import Route
from linewright.routes.spans import Span
from linewright.routes.tasks import Outcome
from linewright.space.bodies import Solid
from linewright.space.moving import Swept, growth, sweep, swept
from linewright.space.path import Path

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from linewright.space.meshes import Drawn
    from linewright.space.obstacles import Known, Obstacle, Scene

    Floats = NDArray[np.float64]

#: How far the polyline that stands for a laid hose may be off its centreline. [m]
OFF = 0.0005

#: Room for a grommet round a hose that goes through a panel uncut. [m]
_GROMMET = 0.004


class Among:
    """All that the hoses of one car are laid among; what several of them need is made once."""

    def __init__(self, car: Car, solids: Sequence[Solid]) -> None:
        from linewright.space.meshes import read_all
        from linewright.space.outlines import standing

        self.car = car
        self.clearance = setting(car, "clearance").value
        self._edge = setting(car, "panel-edge").value
        self._meshes: Mapping[tuple[str, float], Drawn] = read_all(solids)[0]
        self._swept = Swept(car, (*solids, *standing(car)))
        self._rides = sorted({solid.rides for solid in solids} | {"chassis"})
        self._moves: dict[tuple[str, ...], tuple[tuple[str, float], ...]] = {}
        self._boxes: dict[object, tuple[Floats, Floats]] = {}
        self._shown: dict[int, tuple[Path, tuple[Vector, ...], Vector, Vector]] = {}
        self._tubes: dict[tuple[object, ...], Obstacle] = {}
        self._rows: Known = {}

    def moves(self, span: Span) -> tuple[tuple[str, float], ...]:
        """How far bodies come nearer to a hose all ways alike, by what they ride on.

        Parameters
        ----------
        span : Span
            The hose.

        Returns
        -------
        tuple
            Words of ``rides`` in order, with the way. [m]
        """
        if span.rides not in self._moves:
            self._moves[span.rides] = tuple(
                (ride, growth(self.car, ride, span.rides)) for ride in self._rides
            )
        return self._moves[span.rides]

    def polyline(self, route: Route) -> tuple[Vector, ...]:
        """The centreline of a laid hose, as what stands for it.

        Parameters
        ----------
        route : Route
            Its course.

        Returns
        -------
        tuple of Vector
            A polyline that is nowhere further off than `OFF`. [m]
        """
        return self._drawn(route)[1]

    def _drawn(self, route: Route) -> tuple[Path, tuple[Vector, ...], Vector, Vector]:
        """With the low and high corner of the box round it."""
        found = self._shown.get(id(route.path))
        # The path is held as well, so that its number names no other.
        if found is None or found[0] is not route.path:
            points = polyline(route.path, OFF)
            low, high = ([rim(p[k] for p in points) for k in range(3)] for rim in (min, max))
            found = (route.path, points, (low[0], low[1], low[2]), (high[0], high[1], high[2]))
            self._shown[id(route.path)] = found
        return found

    def near(
        self,
        span: Span,
        done: Mapping[str, Outcome],
        by_id: Mapping[str, Span],
        reach: Collection[Vector],
        widened: Mapping[str, float] | None = None,
    ) -> "tuple[Obstacle, ...]":
        """Bodies and laid hoses near some points, as one hose sees them.

        Parameters
        ----------
        span : Span
            The hose.
        done : mapping of str to Outcome
            Hoses that lie already.
        by_id : mapping of str to Span
            All hoses.
        reach : collection of Vector
            Its ports, and what it follows. [m]
        widened : mapping of str to float, optional
            By how much less some bodies ask for clearance. [m]

        Returns
        -------
        tuple of Obstacle
            In the order of their ids.
        """
        from linewright.space.obstacles import HalfSpace, Tube, Wall

        room = 3.0 * span.limits.bend_radius + 0.2
        low = [min(p[k] for p in reach) - room for k in range(3)]
        high = [max(p[k] for p in reach) + room for k in range(3)]
        near = self._fixed(span, low, high)
        for name, outcome in done.items():
            if outcome.route is None or name == span.id:
                continue
            _, points, one, two = self._drawn(outcome.route)
            if (
                one[0] <= high[0]
                and two[0] >= low[0]
                and one[1] <= high[1]
                and two[1] >= low[1]
                and one[2] <= high[2]
                and two[2] >= low[2]
            ):
                near.append(self._tube(name, points, by_id[name], span))
        if span.through:
            # The panel holds the hose there, so its ends' movement takes nothing off the hole.
            play = growth(self.car, "chassis", span.rides)
            bore = span.limits.outside / 2.0 + _GROMMET + play
            near = _pierced(near, dict(span.holes), bore)
        elif span.panels:
            # A piece that ends at a panel stays on its side, also some way beyond its edge.
            near = [
                self._widened(o) if isinstance(o, Wall) and o.id in span.panels else o for o in near
            ]
        if span.bending is not None:
            # A tube is bent first: its hole is drilled where it comes, if there is none yet.
            passed = span.line.passes
            near = [o for o in near if not (isinstance(o, Wall) and o.id in passed and not o.holes)]
        own = span.limits.clearance
        if own != self.clearance:
            near = [
                o
                if isinstance(o, HalfSpace | Tube) or (isinstance(o, Solid) and o.zone is not None)
                else replace(o, clearance=own)
                for o in near
            ]
        if widened:
            near = [
                replace(o, clearance=o.clearance - widened[o.id]) if o.id in widened else o
                for o in near
            ]
        return tuple(sorted(near, key=lambda each: each.id))

    def _fixed(self, span: Span, low: Sequence[float], high: Sequence[float]) -> "list[Obstacle]":
        """What stands still and can come into a box."""
        import numpy as np

        held = span.panels if span.through else frozenset[str]()
        fixed = self._swept.of(span.rides, held)
        if (span.rides, held) not in self._boxes:
            boxes = [_box(each) for each in fixed]
            lows, highs = (np.array([box[k] for box in boxes]).reshape(-1, 3) for k in (0, 1))
            self._boxes[span.rides, held] = (lows, highs)
        lows, highs = self._boxes[span.rides, held]
        meet = ((lows <= high) & (highs >= low)).all(axis=1)
        return [fixed[k] for k in np.flatnonzero(meet)]

    def _tube(self, name: str, points: tuple[Vector, ...], other: Span, span: Span) -> "Obstacle":
        """A laid hose as another sees it."""
        from linewright.space.obstacles import Tube

        radius = other.limits.outside / 2.0 + OFF
        # The polyline of a course is kept in ``_shown``, so its number names no other.
        key = (name, id(points), radius, span.rides, span.limits.clearance)
        if key not in self._tubes:
            by = sweep(self.car, "chassis", span.rides)
            self._tubes[key] = swept(Tube(name, points, radius, span.limits.clearance), by)
        return self._tubes[key]

    def _widened(self, wall: "Obstacle") -> "Obstacle":
        from linewright.space.obstacles import Wall

        assert isinstance(wall, Wall)
        edge = self._edge
        return replace(wall, size=wall.size and (wall.size[0] + edge, wall.size[1] + edge))

    def scene(self, span: Span, near: "Sequence[Obstacle]") -> "Scene":
        """What is near a hose, ready to be asked.

        Parameters
        ----------
        span : Span
            The hose.
        near : sequence of Obstacle
            As `near` tells it.

        Returns
        -------
        Scene
            With what each body moves against the hose.
        """
        from linewright.space.obstacles import Scene

        return Scene.build(near, self._meshes, dict(self.moves(span)), self._rows)


def _box(each: "Obstacle") -> tuple[Vector, Vector]:
    """The box that a body can come into, grown by its gap and movement; no end to all others."""
    nowhere = float("inf")
    if not isinstance(each, Solid) or each.shape is Shape.MESH or each.box is None:
        return (-nowhere, -nowhere, -nowhere), (nowhere, nowhere, nowhere)
    room = each.clearance + max(each.grown)
    one, two = each.box
    return (
        (one[0] - room, one[1] - room, one[2] - room),
        (two[0] + room, two[1] + room, two[2] + room),
    )


def _pierced(near: "list[Obstacle]", holes: Mapping[str, Vector], bore: float) -> "list[Obstacle]":
    from linewright.space.obstacles import Opening, Wall

    return [
        replace(o, holes=(*o.holes, Opening(holes[o.id], bore)))
        if isinstance(o, Wall) and o.id in holes
        else o
        for o in near
    ]


def owner(obstacle: "Obstacle") -> str:
    """The component whose body something is.

    Parameters
    ----------
    obstacle : Obstacle
        The body.

    Returns
    -------
    str
        Its id, "" for what belongs to none.
    """
    return obstacle.component if isinstance(obstacle, Solid) else ""
