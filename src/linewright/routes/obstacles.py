# SPDX-License-Identifier: Apache-2.0
"""Bodies that lines go round, and how far a centreline stays off them."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import hypot, isfinite, sqrt
from threading import Lock
from typing import TYPE_CHECKING, NamedTuple

from linewright.base.frames import Rotation
from linewright.base.vectors import Vector, cross, unit
from linewright.car.model import Shape
from linewright.routes.bodies import Solid, panel_axes

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from linewright.routes.distances import Bodies, Tree
    from linewright.routes.meshes import Drawn

    Reals = NDArray[np.float64]
    Whole = NDArray[np.int64]

#: A wall without a size reaches as far as any car. [m]
_FAR = 1e3

#: Points that one core takes at a time; fewer are not worth sharing.
_BLOCK = 256

#: Bodies in a box that is not divided further.
_LEAF = 2

# numba's plainest thread pool ends the process when two threads use it at once.
_ONE_AT_A_TIME = Lock()


@dataclass(frozen=True, slots=True)
class Tube:
    """Another hose: round, along points in order. Lengths in m."""

    id: str
    points: tuple[Vector, ...]
    radius: float
    clearance: float = 0.0
    rides: str = "chassis"


@dataclass(frozen=True, slots=True)
class Opening:
    """A round hole in a wall: its middle in the car, and its radius. [m]"""

    at: Vector
    radius: float


@dataclass(frozen=True, slots=True)
class Wall:
    """A panel with its holes. ``at`` is in the middle of its thickness. Lengths in m.

    ``size`` is how far it goes (level, and square to that); without it, it has no edge.
    """

    id: str
    at: Vector
    points: Vector
    thickness: float
    size: tuple[float, float] | None = None
    holes: tuple[Opening, ...] = ()
    clearance: float = 0.0
    rides: str = "chassis"


@dataclass(frozen=True, slots=True)
class HalfSpace:
    """All that lies behind a plane, as the ground under the car. ``points`` away from it. [m]"""

    id: str
    at: Vector
    points: Vector
    clearance: float = 0.0
    rides: str = "chassis"


Obstacle = Solid | Tube | Wall | HalfSpace


class Least(NamedTuple):
    """The tightest place: gap [m], index of its point, id of the body ("" where there is none)."""

    gap: float
    index: int
    body: str


class Tightest(NamedTuple):
    """The tightest place of a polyline: gap [m], piece, id of the body, and where [m]."""

    gap: float
    index: int
    body: str
    at: Vector


@dataclass(frozen=True, slots=True)
class _Row:
    """One body as the kernels know it."""

    kind: int
    middle: Vector
    turn: Rotation
    half: Vector
    grown: float = 0.0
    holes: tuple[Vector, ...] = ()
    file: tuple[str, float] | None = None


def _swept(turn: Rotation, grown: Vector) -> tuple[Vector, float]:
    """How much a travel along the car's axes adds along a body's own, and across its z."""
    own = tuple(sum(abs(turn[row][k]) * grown[row] for row in range(3)) for k in range(3))
    across = 0.0
    for sy in (1.0, -1.0):
        for sz in (1.0, -1.0):
            arrow = (grown[0], sy * grown[1], sz * grown[2])
            along = sum(arrow[row] * turn[row][2] for row in range(3))
            square = sum(a * a for a in arrow) - along * along
            across = max(across, sqrt(max(0.0, square)))
    return (own[0], own[1], own[2]), across


def _solid_row(solid: Solid) -> _Row:
    from linewright.routes import distances

    # Travel sweeps a body along the car's axes. What is kept clear is the body of the same
    # shape round all of that: never less than is swept, more where it lies askew.
    add, across = _swept(solid.turn, solid.grown)
    if solid.shape is Shape.MESH:
        most = sqrt(sum(g * g for g in solid.grown))
        file = (solid.file, solid.scale)
        return _Row(distances.MESH, solid.middle, solid.turn, (0.0, 0.0, 0.0), most, file=file)
    if solid.size is None:
        raise ValueError(f"{solid.id}: a {solid.shape.value} without a size; give it one")
    x, y, z = (side / 2.0 for side in solid.size)
    match solid.shape:
        case Shape.BOX:
            half = (x + add[0], y + add[1], z + add[2])
            return _Row(distances.BOX, solid.middle, solid.turn, half)
        case Shape.CYLINDER:
            half = (x + across, x + across, z + add[2])
            return _Row(distances.CYLINDER, solid.middle, solid.turn, half)
        case _:
            half = (x + across, x + across, max(0.0, z - x) + add[2])
            return _Row(distances.CAPSULE, solid.middle, solid.turn, half)


def _columns(a: Vector, b: Vector, c: Vector) -> Rotation:
    return ((a[0], b[0], c[0]), (a[1], b[1], c[1]), (a[2], b[2], c[2]))


def _wall_row(wall: Wall) -> _Row:
    from linewright.routes import distances

    points = unit(wall.points)
    level, other = panel_axes(points)
    turn = _columns(level, other, points)
    if cross(level, other)[0] * points[0] + cross(level, other)[1] * points[1] < 0.0:
        turn = _columns(other, level, points)
    wide, high = wall.size or (2.0 * _FAR, 2.0 * _FAR)
    holes = []
    for hole in wall.holes:
        arrow = tuple(h - a for h, a in zip(hole.at, wall.at, strict=True))
        u, v = (sum(arrow[row] * turn[row][k] for row in range(3)) for k in range(2))
        holes.append((u, v, hole.radius))
    half = (wide / 2.0, high / 2.0, wall.thickness / 2.0)
    return _Row(distances.BOX, wall.at, turn, half, holes=tuple(holes))


def _tube_rows(tube: Tube) -> list[_Row]:
    from linewright.routes import distances

    rows = []
    points = tube.points if len(tube.points) > 1 else tube.points * 2
    for a, b in zip(points, points[1:], strict=False):
        way = (b[0] - a[0], b[1] - a[1], b[2] - a[2])
        far = hypot(*way)
        middle = ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0, (a[2] + b[2]) / 2.0)
        along = unit(way) if far > 0.0 else (0.0, 0.0, 1.0)
        level, other = panel_axes(along)
        turn = _columns(level, other, along)
        half = (tube.radius, tube.radius, far / 2.0)
        rows.append(_Row(distances.CAPSULE, middle, turn, half))
    return rows


def _rows(each: Obstacle) -> list[_Row]:
    from linewright.routes import distances

    if isinstance(each, Solid):
        found = [_solid_row(each)]
    elif isinstance(each, Tube):
        found = _tube_rows(each)
    elif isinstance(each, Wall):
        found = [_wall_row(each)]
    else:
        points = unit(each.points)
        level, other = panel_axes(points)
        turn = _columns(level, other, points)
        found = [_Row(distances.HALF_SPACE, each.at, turn, (0.0, 0.0, 0.0))]
    for row in found:
        numbers = (*row.middle, *row.half, *(m for line in row.turn for m in line), row.grown)
        if not all(isfinite(number) for number in numbers) or min(row.half) < 0.0:
            raise ValueError(
                f"{each.id}: at {row.middle}, half sizes {row.half}: sizes and places must be "
                "numbers, and no size less than nothing"
            )
    return found


@dataclass(frozen=True, slots=True, eq=False)
class Scene:
    """Bodies in space, ready to be asked. Make one with `Scene.build`.

    ``obstacles`` are in the order of their ids. What an id names may be several rows (a hose
    is a row of capsules); ``owner`` says of each row whose it is.
    """

    obstacles: tuple[Obstacle, ...]
    _bodies: "Bodies"
    _tree: "Tree"
    _low: "Reals"
    _high: "Reals"
    _owner: "Whole"
    _grown: "Reals"  # of each row: movement beside what its shape holds
    _asked: "Reals"  # of each row: the clearance that it asks
    _off: "tuple[tuple[Reals, Reals], tuple[Reals, Reals]]"  # bare and asked: off, slack

    @staticmethod
    def build(
        obstacles: Iterable[Obstacle],
        meshes: Mapping[tuple[str, float], "Drawn"] | None = None,
        moved: Mapping[str, float] | None = None,
    ) -> "Scene":
        """Make bodies ready to be asked.

        Parameters
        ----------
        obstacles : iterable of Solid, Tube, Wall or HalfSpace
            What lines go round; ids all different.
        meshes : mapping, optional
            What was read of each mesh, by file and scale (`meshes.read_all`). A solid whose
            mesh is not among them is left out.
        moved : mapping of str to float, optional
            How far bodies may come nearer, by what they ride on (`bodies.growth`). [m]

        Returns
        -------
        Scene
            The bodies, grown by their travel and that.

        Raises
        ------
        ValueError
            If two have one id, or one has a size that is no size.
        """
        import numpy as np

        from linewright.routes import distances

        meshes = meshes or {}
        kept = [
            each
            for each in sorted(obstacles, key=lambda each: each.id)
            if not isinstance(each, Solid)
            or each.shape is not Shape.MESH
            or (each.file, each.scale) in meshes
        ]
        for one, two in zip(kept, kept[1:], strict=False):
            if one.id == two.id:
                raise ValueError(f"{one.id}: two bodies have this id; name one of them otherwise")
        rows: list[_Row] = []
        owner: list[int] = []
        for number, each in enumerate(kept):
            found = _rows(each)
            rows += found
            owner += [number] * len(found)
        bodies, low, high = _arrays(rows, meshes)
        tree = distances.Tree(*distances.grow_tree(low, high, _LEAF))
        owners = np.array(owner, dtype=np.int64)
        asked = np.array([each.clearance for each in kept], dtype=np.float64)[owners]
        scene = Scene(
            tuple(kept),
            bodies,
            tree,
            low,
            high,
            owners,
            np.array([row.grown for row in rows], dtype=np.float64),
            asked,
            ((asked, asked), (asked, asked)),
        )
        return scene.moved(moved or {})

    def moved(self, by: Mapping[str, float]) -> "Scene":
        """The same bodies for a line that moves against them otherwise.

        Parameters
        ----------
        by : mapping of str to float
            How far bodies may come nearer, by what they ride on; not named is nothing. [m]

        Returns
        -------
        Scene
            It shares all but the growth with this one, so this is cheap.
        """
        import numpy as np

        from linewright.routes import distances

        ride = [by.get(each.rides, 0.0) for each in self.obstacles]
        bare = self._grown + np.array(ride, dtype=np.float64)[self._owner]
        asked = bare + self._asked
        return Scene(
            self.obstacles,
            self._bodies,
            self._tree,
            self._low,
            self._high,
            self._owner,
            self._grown,
            self._asked,
            (
                (bare, distances.most_below(self._tree, bare)),
                (asked, distances.most_below(self._tree, asked)),
            ),
        )

    def _question(
        self, asked: bool, leave: Collection[str], bare: Collection[str]
    ) -> "tuple[Bodies, Tree, Reals, Reals, NDArray[np.bool_]]":
        """What every kernel is handed first."""
        import numpy as np

        off, slack = self._off[1 if asked else 0]
        live = np.ones(len(self.obstacles), dtype=np.bool_)
        if leave:
            live[[i for i, each in enumerate(self.obstacles) if each.id in leave]] = False
        if asked and bare:
            # The slack of the tree may stay: it is the most that is taken off, or more.
            touched = [i for i, each in enumerate(self.obstacles) if each.id in bare]
            off = np.where(np.isin(self._owner, touched), self._off[0][0], off)
        return self._bodies, self._tree, off, slack, live[self._owner]

    def least(
        self,
        points: "Reals",
        radius: float,
        *,
        asked: bool = False,
        leave: Collection[str] = (),
        bare: Collection[str] = (),
    ) -> Least:
        """Least gap between balls round some points and all bodies.

        Parameters
        ----------
        points : ndarray
            Points (n, 3) of the car. [m]
        radius : float
            Of the hose. [m]
        asked : bool
            Take off each body the clearance that it asks, so that the least is what is to
            spare of it.
        leave : collection of str
            Ids of bodies that are not looked at.
        bare : collection of str
            Ids of bodies whose clearance is not asked, only that nothing touches.

        Returns
        -------
        Least
            Gap, negative by how deep they overlap; of equal ones the first point, and there
            the body of the lower id. Infinite, -1 and "" where there is nothing.
        """
        import numpy as np

        from linewright.routes import distances

        points = np.ascontiguousarray(points, dtype=np.float64)
        question = self._question(asked, leave, bare)
        gap, at, which = distances.least_of(*question, points, 0, len(points), -np.inf)
        return Least(gap - radius, at, self._name(which))

    def least_along(
        self,
        points: "Reals",
        radius: float,
        *,
        asked: bool = False,
        leave: Collection[str] = (),
        bare: Collection[str] = (),
        within: float = 5e-4,
    ) -> Tightest:
        """Least gap between a tube along a polyline and all bodies, between its points too.

        Parameters
        ----------
        points : ndarray
            Points (n, 3) of the centreline in order. [m]
        radius : float
            Of the hose. [m]
        asked, leave, bare
            As for `least`.
        within : float
            How much the gap that is told may be too great. [m]

        Returns
        -------
        Tightest
            Gap, the piece (counted from 0) in which it is, the body, and the point of the
            centreline. Infinite where there is nothing.
        """
        import numpy as np

        from linewright.routes import distances

        points = np.ascontiguousarray(points, dtype=np.float64)
        if not len(points):
            return Tightest(np.inf, -1, "", (0.0, 0.0, 0.0))
        question = self._question(asked, leave, bare)
        gap, at, which, x, y, z = distances.along_of(
            *question, points, 0, len(points), -np.inf, within
        )
        return Tightest(gap - radius, at, self._name(which), (float(x), float(y), float(z)))

    def least_many(
        self,
        paths: "Sequence[Reals]",
        radius: float,
        *,
        asked: bool = False,
        leave: Collection[str] = (),
        bare: Collection[str] = (),
        enough: float = -float("inf"),
    ) -> list[Least]:
        """`least` for many sets of points at once, on all cores.

        Parameters
        ----------
        paths : sequence of ndarray
            Points (n, 3) of each; or one array (m, n, 3). [m]
        radius : float
            Of the hose. [m]
        asked, leave, bare
            As for `least`.
        enough : float
            A set is given up at its first gap under this: what is told of it then is some gap
            that is too small, not the least. [m]

        Returns
        -------
        list of Least
            One for each set, in order.
        """
        import numpy as np

        from linewright.routes import distances

        count = len(paths)
        if not count:
            return []
        points = np.ascontiguousarray(np.concatenate(list(paths)), dtype=np.float64)
        starts = np.zeros(count + 1, dtype=np.int64)
        np.cumsum([len(path) for path in paths], out=starts[1:])
        gaps, at = np.empty(count), np.empty(count, dtype=np.int64)
        which = np.empty(count, dtype=np.int64)
        question = self._question(asked, leave, bare)
        limits = np.full(count, enough + radius)
        with _ONE_AT_A_TIME:
            distances.least_paths(*question, points, starts, limits, gaps, at, which)
        return [
            Least(float(gap) - radius, int(n), self._name(int(w)))
            for gap, n, w in zip(gaps, at, which, strict=True)
        ]

    def least_along_many(
        self,
        paths: "Sequence[Reals]",
        radius: float,
        *,
        asked: bool = False,
        leave: Collection[str] = (),
        bare: Collection[str] = (),
        within: float = 5e-4,
        enough: float = -float("inf"),
    ) -> list[Tightest]:
        """`least_along` for many polylines at once, on all cores.

        Parameters
        ----------
        paths : sequence of ndarray
            Points (n, 3) of each, at least one; or one array (m, n, 3). [m]
        radius : float
            Of the hose. [m]
        asked, leave, bare, within
            As for `least_along`.
        enough : float
            As for `least_many`.

        Returns
        -------
        list of Tightest
            One for each polyline, in order.
        """
        import numpy as np

        from linewright.routes import distances

        count = len(paths)
        if not count:
            return []
        points = np.ascontiguousarray(np.concatenate(list(paths)), dtype=np.float64)
        starts = np.zeros(count + 1, dtype=np.int64)
        np.cumsum([len(path) for path in paths], out=starts[1:])
        gaps, where = np.empty(count), np.empty((count, 3))
        at, which = np.empty(count, dtype=np.int64), np.empty(count, dtype=np.int64)
        question = self._question(asked, leave, bare)
        limits = np.full(count, enough + radius)
        with _ONE_AT_A_TIME:
            distances.along_paths(*question, points, starts, limits, within, gaps, at, which, where)
        return [
            Tightest(
                float(gap) - radius, int(n), self._name(int(w)), (float(x), float(y), float(z))
            )
            for gap, n, w, (x, y, z) in zip(gaps, at, which, where, strict=True)
        ]

    def gaps(
        self,
        points: "Reals",
        radius: float = 0.0,
        *,
        asked: bool = False,
        leave: Collection[str] = (),
        bare: Collection[str] = (),
    ) -> "tuple[Reals, Whole]":
        """Gap at every point, and to which of ``obstacles``.

        Parameters
        ----------
        points : ndarray
            Points (n, 3) of the car. [m]
        radius : float
            Of the ball round each. [m]
        asked, leave, bare
            As for `least`.

        Returns
        -------
        tuple of ndarray
            Gaps (n,) [m]; places in ``obstacles`` (n,), -1 where there is nothing.
        """
        import numpy as np

        from linewright.routes import distances

        points = np.ascontiguousarray(points, dtype=np.float64)
        gaps, which = np.empty(len(points)), np.empty(len(points), dtype=np.int64)
        question = self._question(asked, leave, bare)
        if len(points) > 4 * _BLOCK:
            with _ONE_AT_A_TIME:
                distances.all_points(*question, points, gaps, which, _BLOCK)
        else:
            distances.each_point(*question, points, gaps, which, 0, len(points))
        gaps -= radius
        owners = np.append(self._owner, -1)  # so that -1 stays -1
        return gaps, owners[which]

    def near(self, low: "Reals | Vector", high: "Reals | Vector") -> tuple[Obstacle, ...]:
        """Bodies that a search saw, if it asked nothing outside some boxes.

        Parameters
        ----------
        low, high : ndarray or Vector
            Corners of a box along the car's axes, or of several (k, 3): of the points that
            were asked, and the radius of the hose round them. [m]

        Returns
        -------
        tuple of Obstacle
            Those whose own box, grown by movement and the clearance they ask, meets one of
            them; in the order of their ids. No other can come under its clearance there.
        """
        import numpy as np

        if not self.obstacles:
            return ()
        lows, highs = np.atleast_2d(np.asarray(low)), np.atleast_2d(np.asarray(high))
        off = self._off[1][0][:, None]
        below, above = self._low - off, self._high + off
        hit = np.zeros(len(off), dtype=np.bool_)
        for a, b in zip(lows, highs, strict=True):
            hit |= (below <= b).all(axis=1) & (above >= a).all(axis=1)
        return tuple(self.obstacles[i] for i in np.unique(self._owner[hit]))

    def _name(self, row: int) -> str:
        return self.obstacles[self._owner[row]].id if row >= 0 else ""


def _arrays(
    rows: Sequence[_Row], meshes: Mapping[tuple[str, float], "Drawn"]
) -> "tuple[Bodies, Reals, Reals]":
    """Rows as arrays, and the box round each before movement."""
    import numpy as np

    from linewright.routes import distances

    n = len(rows)
    kind = np.array([row.kind for row in rows], dtype=np.int64)
    middle = np.array([row.middle for row in rows], dtype=np.float64).reshape(n, 3)
    turn = np.array([row.turn for row in rows], dtype=np.float64).reshape(n, 3, 3)
    half = np.array([row.half for row in rows], dtype=np.float64).reshape(n, 3)
    first, last = np.zeros(n, dtype=np.int64), np.zeros(n, dtype=np.int64)
    holes: list[Vector] = []
    # A cylinder or capsule reaches along each axis of the car by its length and its disc.
    along = np.abs(turn[:, :, 2])
    across = np.sqrt(np.maximum(0.0, 1.0 - along**2))
    reach = np.einsum("nij,nj->ni", np.abs(turn), half)
    is_round = kind == distances.CYLINDER
    reach[is_round] = (along * half[:, 2:] + across * half[:, :1])[is_round]
    is_capsule = kind == distances.CAPSULE
    reach[is_capsule] = (along * half[:, 2:] + half[:, :1])[is_capsule]
    reach[kind == distances.HALF_SPACE] = 1e6
    low, high = middle - reach, middle + reach
    drawn: list[Drawn] = []
    roots: dict[tuple[str, float], int] = {}
    nodes = faces = 0
    shifts: list[tuple[int, int]] = []
    for i, row in enumerate(rows):
        if row.holes:
            first[i], last[i] = len(holes), len(holes) + len(row.holes)
            holes += row.holes
        if row.file is None:
            continue
        mesh = meshes[row.file]
        if row.file not in roots:
            roots[row.file] = nodes
            shifts.append((nodes, faces))
            drawn.append(mesh)
            nodes += len(mesh.left)
            faces += len(mesh.corners)
        first[i], last[i] = roots[row.file], 1 if mesh.is_closed else 0
        there = mesh.corners.reshape(-1, 3) @ turn[i].T + middle[i]
        low[i], high[i] = there.min(axis=0), there.max(axis=0)
    bodies = distances.Bodies(
        kind,
        middle,
        turn,
        half,
        first,
        last,
        np.array(holes, dtype=np.float64).reshape(-1, 3),
        _joined([mesh.corners for mesh in drawn], (0, 3, 3)),
        _joined([mesh.normals for mesh in drawn], (0, 7, 3)),
        _joined([mesh.low for mesh in drawn], (0, 3)),
        _joined([mesh.high for mesh in drawn], (0, 3)),
        _counted(
            [np.where(m.left > 0, m.left + s, 0) for m, (s, _) in zip(drawn, shifts, strict=True)]
        ),
        _counted([mesh.begin + s for mesh, (_, s) in zip(drawn, shifts, strict=True)]),
        _counted([mesh.end + s for mesh, (_, s) in zip(drawn, shifts, strict=True)]),
    )
    return bodies, low, high


def _joined(parts: "list[Reals]", shape: tuple[int, ...]) -> "Reals":
    import numpy as np

    return np.concatenate([np.zeros(shape), *parts])


def _counted(parts: "list[Whole]") -> "Whole":
    import numpy as np

    return np.concatenate([np.zeros(0, dtype=np.int64), *parts])
