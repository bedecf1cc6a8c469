# SPDX-License-Identifier: Apache-2.0
"""Corners of a bent tube between two ends: the cheapest walks of each number of bends.

Candidate corners lie on the axes of both ends and on the grid that ends and bodies span. A
tube is a walk along sides between them in which each side holds the trims of the bends at both
its ends and the straight that the bender grips.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from math import radians
from typing import TYPE_CHECKING

from linewright.base.vectors import Vector, ahead

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Whole = NDArray[np.int64]

#: A corner that turns by less is not worth a bend. [rad]
LEAST = radians(10.0)

#: What a turn may be over the most, where lengths are rounded. [rad]
OVER = radians(0.01)

#: Grid corners that are looked at, at most.
_NODES = 400

#: Corners on the axis of an end, and lines of the grid along an axis of the car, at most.
_ON_AXIS, _LINES = 28, 12

#: Places that are nearer to one another are one. [m]
_NEAR = 0.004

#: Walks that are handed out, of one number of bends.
_WALKS = 24

#: Fewer bends than these need corners on the axes of both ends alone.
_FREE_FROM = 3

#: Whether sides from points to points are clear of everything. (n, 3), (n, 3) to (n,)
Clear = Callable[["Floats", "Floats"], "NDArray[np.bool_]"]


@dataclass(frozen=True, slots=True)
class Bending:
    """What a bench can do with a tube: radius, straights at its ends and between bends. [m]

    ``end`` is the least straight where it begins, ``last`` where it ends.
    ``lean`` is how far its ends may lean off the axes that they meet [rad], ``beside`` how far
    off they may stand [m]. ``price`` is what a bend is worth [m of tube], ``most`` the most that
    one bend turns [rad].
    """

    radius: float
    end: float
    last: float
    between: float
    most_bends: int
    lean: float = 0.0
    beside: float = 0.0
    price: float = 0.1
    most: float = radians(135.0)


@dataclass(frozen=True, slots=True)
class _Ray:
    """One end: where the tube starts, the way it leaves, and its place among the corners."""

    at: Vector
    way: Vector
    node: int


class Graph:
    """Corners and sides between two ends.

    Parameters
    ----------
    a, b : tuple of Vector
        Where the tube starts at both ends, and the way it leaves there (unit).
    keep : Bending
        What the bench can do.
    spans : sequence of float, for each axis
        Places along x, y and z through which a tube may run beside those of its ends. [m]
    clear : callable
        Whether sides are clear.
    out : callable
        What points (n, 3) cost for where they are (n,). [m of tube]
    """

    def __init__(
        self,
        a: tuple[Vector, Vector],
        b: tuple[Vector, Vector],
        keep: Bending,
        spans: Sequence[Sequence[float]],
        clear: Clear,
        out: Callable[["Floats"], "Floats"],
    ) -> None:
        import numpy as np

        self.keep, self.clear = keep, clear
        points: list[Vector] = [a[0], b[0]]
        self.rays = (_Ray(*a, 0), _Ray(*b, 1))
        self.on: list[list[int]] = [[], []]
        self.axes: list[Vector] = []
        for k, (own, other) in enumerate(((a, b), (b, a))):
            straight = keep.last if k else keep.end
            for far in _reaches(own, other, straight, keep.radius, spans):
                self.on[k].append(len(points))
                points.append(ahead(own[0], own[1], far))
        meet = _meeting(a, b, keep)
        if meet is not None:
            self.on[0].append(len(points))
            self.on[1].append(len(points))
            points.append(meet)
        self.first_free = len(points)
        points += _grid(a, b, keep, spans, [points[i] for side in self.on for i in side])
        self.points = np.array(points, dtype=np.float64)
        self.out = out(self.points)
        self.layers: list[tuple[Floats, Floats, Whole]] = []
        self._sides(free=False)

    def _sides(self, *, free: bool) -> None:
        """Sides as pairs of corners, those that are clear."""
        import numpy as np

        a, b = self.rays
        pairs: list[tuple[int, int]] = [(a.node, i) for i in self.on[0]]
        pairs += [(i, b.node) for i in self.on[1]]
        pairs += [(i, j) for i in self.on[0] for j in self.on[1] if i != j]
        pairs.append((a.node, b.node))
        if free:
            grid = range(self.first_free, len(self.points))
            pairs += [(i, n) for i in self.on[0] for n in grid]
            pairs += [(n, j) for j in self.on[1] for n in grid]
            pairs += _along_axes(self.points, self.first_free)
        whole = np.array(sorted(set(pairs)), dtype=np.int64)
        way = self.points[whole[:, 1]] - self.points[whole[:, 0]]
        far = np.sqrt((way * way).sum(axis=1))
        keep = far > 1e-6
        whole, way, far = whole[keep], way[keep], far[keep]
        ok = self.clear(self.points[whole[:, 0]], self.points[whole[:, 1]])
        self.pairs, self.far = whole[ok], far[ok]
        self.way = way[ok] / self.far[:, None]
        order = np.argsort(self.pairs[:, 0], kind="stable")
        self.pairs, self.far, self.way = self.pairs[order], self.far[order], self.way[order]

    def walks(self) -> Iterator[list[list[Vector]]]:
        """Walks by their number of bends, cheapest first; each is its corners with both ends.

        Yields
        ------
        list of list of Vector
            Those with no bend, with one, with two and so on.
        """
        for bends in range(self.keep.most_bends + 1):
            if bends == _FREE_FROM:
                self._sides(free=True)
                self.layers = []
            yield self._with(bends)

    def _with(self, bends: int) -> list[list[Vector]]:
        import numpy as np

        if not self.layers:
            self.layers.append(self._started())
        while len(self.layers) <= bends:
            self.layers.append(self._bent(self.layers[-1]))
        cost, trim, _ = self.layers[bends]
        lean = np.cos(self.keep.lean + 1e-6)
        b = self.rays[1]
        home = self.pairs[:, 1] == b.node
        home &= self.way @ -np.array(b.way) >= lean
        home &= np.isfinite(cost)
        home &= self.far - trim >= self.keep.last + (self.keep.end if not bends else 0.0) - 1e-9
        found = np.flatnonzero(home)
        found = found[np.lexsort((found, cost[found]))][:_WALKS]
        return [self._corners(bends, int(edge)) for edge in found]

    def _corners(self, layer: int, edge: int) -> list[Vector]:
        nodes = [int(self.pairs[edge, 1])]
        for k in range(layer, -1, -1):
            nodes.append(int(self.pairs[edge, 0]))
            edge = int(self.layers[k][2][edge])
        found = [self.points[n] for n in reversed(nodes)]
        return [(float(p[0]), float(p[1]), float(p[2])) for p in found]

    def _started(self) -> "tuple[Floats, Floats, Whole]":
        import numpy as np

        a = self.rays[0]
        cost = np.full(len(self.pairs), np.inf)
        first = self.pairs[:, 0] == a.node
        first &= self.way @ np.array(a.way) >= np.cos(self.keep.lean + 1e-6)
        cost[first] = self.far[first] + self._climb(self.pairs[first])
        return cost, np.zeros(len(self.pairs)), np.full(len(self.pairs), -1, dtype=np.int64)

    def _climb(self, pairs: "Whole") -> "Floats":
        """What going further out along sides costs; coming in again costs nothing. [m]"""
        import numpy as np

        return np.maximum(self.out[pairs[:, 1]] - self.out[pairs[:, 0]], 0.0)

    def _bent(self, before: "tuple[Floats, Floats, Whole]") -> "tuple[Floats, Floats, Whole]":
        """One bend more: least cost of walks that end in each side, their trim and their past."""
        import numpy as np

        cost, trim, _ = before
        keep, count = self.keep, len(self.pairs)
        best, trims = np.full(count, np.inf), np.zeros(count)
        came = np.full(count, -1, dtype=np.int64)
        starts = np.searchsorted(self.pairs[:, 0], np.arange(len(self.points) + 1))
        climb = self._climb(self.pairs)
        live = np.flatnonzero(np.isfinite(cost))
        into = self.pairs[live, 1]
        order = np.argsort(into, kind="stable")
        live, into = live[order], into[order]
        bounds = np.searchsorted(into, np.arange(len(self.points) + 1))
        for node in range(len(self.points)):
            inside = live[bounds[node] : bounds[node + 1]]
            low, high = int(starts[node]), int(starts[node + 1])
            if not len(inside) or low == high:
                continue
            cosine = np.clip(self.way[inside] @ self.way[low:high].T, -1.0, 1.0)
            turn = np.arccos(cosine)
            cut = keep.radius * np.tan(turn / 2.0)
            least = np.where(self.pairs[inside, 0] == self.rays[0].node, keep.end, keep.between)
            ok = (turn >= LEAST) & (turn <= keep.most + OVER)
            ok &= (self.far[inside] - trim[inside] - least)[:, None] - cut >= -1e-9
            ok &= self.far[None, low:high] - cut >= -1e-9
            total = cost[inside][:, None] + (self.far + climb)[None, low:high]
            total += keep.radius * turn - 2.0 * cut
            total[~ok] = np.inf
            which = np.argmin(total, axis=0)
            columns = np.arange(high - low)
            best[low:high] = total[which, columns]
            trims[low:high] = cut[which, columns]
            came[low:high] = inside[which]
        return best, trims, came


def _reaches(
    own: tuple[Vector, Vector],
    other: tuple[Vector, Vector],
    straight: float,
    radius: float,
    spans: Sequence[Sequence[float]],
) -> list[float]:
    """How far along its axis the first corner of an end may lie. [m]"""
    at, way = own
    trims = [straight + radius * t for t in (1.0, 0.4142, 0.5774, 0.2679, 1.5, 2.4142)]
    least = min(trims)
    level: list[float] = []
    beside: list[float] = []
    for k in range(3):
        if abs(way[k]) < 0.3:
            continue
        # Level with the other end, and with where its own first corner may be.
        places = [other[0][k] + far * other[1][k] for far in (0.0, *trims)]
        level += [(place - at[k]) / way[k] for place in places]
        beside += [(place - at[k]) / way[k] for place in spans[k]]
    far = max(abs(other[0][k] - at[k]) for k in range(3))
    shares = [least + far * share for share in (0.25, 0.5, 0.75, 1.0)]
    found = [round(f, 6) for f in (*trims, *level, *shares, *sorted(beside))]
    return _thinned([f for f in found if least - 1e-6 <= f < 4.0], _ON_AXIS)


def _thinned(values: Sequence[float], most: int) -> list[float]:
    """The first so many values, without those that are near one before them, in order."""
    kept: list[float] = []
    for value in values:
        if len(kept) < most and all(abs(value - other) > _NEAR for other in kept):
            kept.append(value)
    return sorted(kept)


def _meeting(a: tuple[Vector, Vector], b: tuple[Vector, Vector], keep: Bending) -> Vector | None:
    """Where the axes of both ends meet ahead of both, as nearly as the ends allow."""
    import numpy as np

    p, u = np.array(a[0]), np.array(a[1])
    q, v = np.array(b[0]), np.array(b[1])
    c = float(u @ v)
    if 1.0 - c * c < 1e-6:
        return None
    w = q - p
    s = float((w @ u - c * (w @ v)) / (1.0 - c * c))
    t = float((c * (w @ u) - w @ v) / (1.0 - c * c))
    if s <= keep.end or t <= keep.last:
        return None
    one, two = p + s * u, q + t * v
    if float(np.linalg.norm(one - two)) > max(2.0 * keep.beside, 1e-6):
        return None
    middle = (one + two) / 2.0
    return float(middle[0]), float(middle[1]), float(middle[2])


def _grid(
    a: tuple[Vector, Vector],
    b: tuple[Vector, Vector],
    keep: Bending,
    spans: Sequence[Sequence[float]],
    on_axes: Sequence[Vector],
) -> list[Vector]:
    """Corners where planes square to the car's axes cross, those nearest to both ends."""
    import numpy as np

    step = keep.radius + keep.end
    lines: list[list[float]] = []
    for k in range(3):
        values = [a[0][k], b[0][k]]
        for at, way in (a, b):
            values += [at[k] + j * step * way[k] for j in (1, 2)]
        values += [(a[0][k] + b[0][k]) / 2.0, *spans[k], *(p[k] for p in on_axes)]
        lines.append(_thinned([round(v, 6) for v in values], _LINES))
    grid = np.array(np.meshgrid(*lines, indexing="ij"), dtype=np.float64).reshape(3, -1).T
    way_round = np.linalg.norm(grid - np.array(a[0]), axis=1)
    way_round += np.linalg.norm(grid - np.array(b[0]), axis=1)
    order = np.lexsort((grid[:, 2], grid[:, 1], grid[:, 0], way_round.round(6)))[:_NODES]
    return [(float(p[0]), float(p[1]), float(p[2])) for p in grid[order]]


def _along_axes(points: "Floats", first: int) -> list[tuple[int, int]]:
    """Pairs of grid corners on one line along an axis."""
    from collections import defaultdict

    found: list[tuple[int, int]] = []
    for k in range(3):
        rows: dict[tuple[float, float], list[int]] = defaultdict(list)
        for n in range(first, len(points)):
            p = points[n]
            rows[float(p[(k + 1) % 3]), float(p[(k + 2) % 3])].append(n)
        for row in rows.values():
            found += [(i, j) for i in row for j in row if i != j]
    return found
