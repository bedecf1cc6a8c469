# SPDX-License-Identifier: Apache-2.0
"""Bodies that lines go round, and how far a centreline stays off them."""

from collections.abc import Collection, Iterable, Mapping, MutableMapping, Sequence
from dataclasses import dataclass, field
from threading import Lock
from typing import TYPE_CHECKING

from linewright.base.vectors import Vector
from linewright.car.model import Shape
from linewright.space.bodies import Solid
from linewright.space.outlines import (
    HalfSpace,
    Obstacle,
    Opening,
    Row,
    Tube,
    Wall,
    arrays,
    rows,
    walls,
)
from linewright.space.tightest import Least, Tightest

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from linewright.space.meshes import Drawn
    from linewright.space.nearest import Bodies, Tree

    Reals = NDArray[np.float64]
    Whole = NDArray[np.int64]
    #: Bodies, tree, what is taken off each, the most of that in each node, which are looked at.
    Question = tuple[Bodies, Tree, Reals, Reals, NDArray[np.bool_]]

__all__ = [
    "HalfSpace",
    "Least",
    "Obstacle",
    "Opening",
    "Scene",
    "Solid",
    "Tightest",
    "Tube",
    "Wall",
    "walls",
]

#: Points that one core takes at a time; fewer are not worth sharing.
_BLOCK = 256

#: Bodies in a box that is not divided further.
_LEAF = 4

ONE_AT_A_TIME = Lock()  # numba's plainest thread pool ends a process whose threads use it at once


Known = MutableMapping[int, tuple[Obstacle, list[Row]]]  # rows by the number of the very object


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
    _known: "dict[object, Question]" = field(default_factory=dict)  # what was asked before

    @staticmethod
    def build(
        obstacles: Iterable[Obstacle],
        meshes: Mapping[tuple[str, float], "Drawn"] | None = None,
        moved: Mapping[str, float] | None = None,
        known: Known | None = None,
    ) -> "Scene":
        """Make bodies ready to be asked.

        Parameters
        ----------
        obstacles : iterable of Solid, Tube, Wall or HalfSpace
            What lines go round. Of one id may be several, as a thing and the hot zone that it is.
        meshes : mapping, optional
            What was read of each mesh, by file and scale (`meshes.read_all`). A solid whose
            mesh is not among them is left out.
        moved : mapping of str to float, optional
            How far bodies may come nearer, by what they ride on (`bodies.growth`). [m]
        known : mutable mapping, optional
            Rows of bodies of other scenes; it is added to.

        Returns
        -------
        Scene
            The bodies, grown by their travel and that.

        Raises
        ------
        ValueError
            If one has a size that is no size.
        """
        import numpy as np

        from linewright.space import nearest

        meshes, known = meshes or {}, {} if known is None else known
        kept = [
            each
            for each in sorted(obstacles, key=lambda each: each.id)
            if not isinstance(each, Solid)
            or each.shape is not Shape.MESH
            or (each.file, each.scale) in meshes
        ]
        built: list[Row] = []
        owner: list[int] = []
        for number, each in enumerate(kept):
            if id(each) not in known:  # it is held as well, so that its number names no other
                known[id(each)] = (each, rows(each))
            found = known[id(each)][1]
            built += found
            owner += [number] * len(found)
        bodies, low, high = arrays(built, meshes)
        tree = nearest.Tree(*nearest.grow_tree(low, high, _LEAF))
        owners = np.array(owner, dtype=np.int64)
        asked = np.array([each.clearance for each in kept], dtype=np.float64)[owners]
        scene = Scene(
            tuple(kept),
            bodies,
            tree,
            low,
            high,
            owners,
            np.array([row.grown for row in built], dtype=np.float64),
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

        from linewright.space import nearest

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
                (bare, nearest.most_below(self._tree, bare)),
                (asked, nearest.most_below(self._tree, asked)),
            ),
        )

    def _question(self, asked: bool, leave: Collection[str], bare: Collection[str]) -> "Question":
        """What every kernel is handed first; none of them may write to it."""
        key = asked, frozenset(leave), frozenset(bare)
        return self._known.get(key) or self._known.setdefault(key, self._made(*key))

    def _made(self, asked: bool, leave: frozenset[str], bare: frozenset[str]) -> "Question":
        import numpy as np

        off, slack = self._off[1 if asked else 0]
        live = np.ones(len(self.obstacles), dtype=np.bool_)
        if leave:
            live[[i for i, each in enumerate(self.obstacles) if each.id in leave]] = False
        if asked and bare:
            # The slack of the tree may stay: it is the most that is taken off, or more.
            touched = np.array([each.id in bare for each in self.obstacles], dtype=np.bool_)
            off = np.where(touched[self._owner], self._off[0][0], off)
        return self._bodies, self._tree, off, slack, live[self._owner]

    def question(self, *, leave: Collection[str] = (), bare: Collection[str] = ()) -> "Question":
        """What kernels of `nearest` are handed first, to ask what is to spare of clearances.

        Parameters
        ----------
        leave, bare
            As for `least`.

        Returns
        -------
        tuple
            Bodies, tree, what is taken off each, the most of that in each node, and which are
            looked at.
        """
        return self._question(True, leave, bare)

    def name_of(self, row: int) -> str:
        """Id of the body that a kernel names by its row, as `nearest` tells it.

        Parameters
        ----------
        row : int
            -1 for none.

        Returns
        -------
        str
            The id, "" for none.
        """
        return self.obstacles[self._owner[row]].id if row >= 0 else ""

    def row_of(self, name: str) -> int:
        """The first row of a body; -1 for one that is not there."""
        for row, number in enumerate(self._owner):
            if self.obstacles[number].id == name:
                return row
        return -1

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
            Points (n, 3) of the car, quickest in order along the hose. [m]
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
            Gap, negative by how deep they overlap; at one point, of equal bodies that of the
            lower id. Infinite, -1 and "" where there is nothing.
        """
        import numpy as np

        from linewright.space import nearest

        points = np.ascontiguousarray(points, dtype=np.float64)
        question = self._question(asked, leave, bare)
        gap, at, which = nearest.least_of(*question, points, 0, len(points), -np.inf)
        return Least(float(gap) - radius, int(at), self.name_of(which))

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

        from linewright.space import nearest

        points = np.ascontiguousarray(points, dtype=np.float64)
        if not len(points):
            return Tightest(np.inf, -1, "", (0.0, 0.0, 0.0))
        question = self._question(asked, leave, bare)
        gap, at, which, x, y, z = nearest.along_of(
            *question, points, 0, len(points), -np.inf, within
        )
        where = (float(x), float(y), float(z))
        return Tightest(float(gap) - radius, int(at), self.name_of(which), where)

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

        from linewright.space import nearest

        count = len(paths)
        if not count:
            return []
        points, starts = _in_a_row(paths)
        gaps, at = np.empty(count), np.empty(count, dtype=np.int64)
        which = np.empty(count, dtype=np.int64)
        question = self._question(asked, leave, bare)
        limits = np.full(count, enough + radius)
        asked_of = (*question, points, starts, limits, gaps, at, which)
        if len(points) > 8 * _BLOCK:
            with ONE_AT_A_TIME:
                nearest.least_paths(*asked_of)
        else:
            nearest.few_paths(*asked_of)
        return [
            Least(float(gap) - radius, int(n), self.name_of(int(w)))
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

        from linewright.space import nearest

        count = len(paths)
        if not count:
            return []
        points, starts = _in_a_row(paths)
        gaps, where = np.empty(count), np.empty((count, 3))
        at, which = np.empty(count, dtype=np.int64), np.empty(count, dtype=np.int64)
        question = self._question(asked, leave, bare)
        limits = np.full(count, enough + radius)
        with ONE_AT_A_TIME:
            nearest.along_paths(*question, points, starts, limits, within, gaps, at, which, where)
        return [
            Tightest(
                float(gap) - radius, int(n), self.name_of(int(w)), (float(x), float(y), float(z))
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

        from linewright.space import nearest

        points = np.ascontiguousarray(points, dtype=np.float64)
        gaps, which = np.empty(len(points)), np.empty(len(points), dtype=np.int64)
        question = self._question(asked, leave, bare)
        if len(points) > 4 * _BLOCK:
            with ONE_AT_A_TIME:
                nearest.all_points(*question, points, gaps, which, _BLOCK)
        else:
            nearest.each_point(*question, points, gaps, which, 0, len(points))
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


def _in_a_row(paths: "Sequence[Reals]") -> "tuple[Reals, Whole]":
    """Points of all polylines one after the other, and where each begins."""
    import numpy as np

    points = np.ascontiguousarray(np.concatenate(list(paths)), dtype=np.float64)
    return points, np.cumsum([0, *(len(path) for path in paths)], dtype=np.int64)
