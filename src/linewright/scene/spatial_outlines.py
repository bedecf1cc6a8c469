# SPDX-License-Identifier: Apache-2.0
"""How bodies look from one side: corners, triangles, silhouettes, and what covers what."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import cos, pi, sin
from typing import TYPE_CHECKING

from linewright.base.frames import placed
from linewright.base.vectors import Vector, dot
from linewright.car.model import Shape
from linewright.space.bodies import Solid

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Reals = NDArray[np.float64]

Flat = tuple[float, float]

#: Sides of what is round.
_ROUND = 48

#: A point must lie this far behind a surface to be covered by it. [m]
_BEHIND = 0.002


@dataclass(frozen=True, slots=True)
class Eye:
    """From where the car is looked at: unit arrows along paper, up paper, and out of it."""

    right: Vector
    up: Vector
    toward: Vector

    def flat(self, point: Vector) -> Flat:
        """Where a point is seen: to the right, and up. [m]"""
        return dot(point, self.right), dot(point, self.up)

    def near(self, point: Vector) -> float:
        """How near a point is; more is nearer. [m]"""
        return dot(point, self.toward)


@dataclass(frozen=True, slots=True, eq=False)
class Seen:
    """A body as it is seen: silhouette, faces that look at the eye, triangles with nearness.

    ``corners`` are (t, 3, 3): right, up and nearness of each corner of each triangle. [m]
    """

    id: str
    outline: tuple[Flat, ...]
    faces: tuple[tuple[Flat, ...], ...]
    top: float
    corners: "Reals"

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, right, low, high of the silhouette. [m]"""
        xs, ys = [p[0] for p in self.outline], [p[1] for p in self.outline]
        return min(xs), max(xs), min(ys), max(ys)


def hull(points: Sequence[Flat]) -> tuple[Flat, ...]:
    """Convex hull of points, counter-clockwise.

    Parameters
    ----------
    points : Sequence of tuple of float
        Any points.

    Returns
    -------
    tuple of tuple of float
        Its corners, none of them on a side.

    Examples
    --------
    >>> hull([(0, 0), (2, 0), (1, 1), (2, 2), (0, 2), (1, 0)])
    ((0, 0), (2, 0), (2, 2), (0, 2))
    """
    # Points that a turn has put a rounding error apart must sort as one, or corners are lost.
    ordered = sorted({(round(x, 9), round(y, 9)) for x, y in points})
    if len(ordered) < 3:
        return tuple(ordered)

    def half(row: Sequence[Flat]) -> list[Flat]:
        kept: list[Flat] = []
        for p in row:
            while len(kept) > 1:
                (ax, ay), (bx, by) = kept[-2], kept[-1]
                if (bx - ax) * (p[1] - ay) - (by - ay) * (p[0] - ax) > 1e-15:
                    break
                kept.pop()
            kept.append(p)
        return kept[:-1]

    return tuple(half(ordered) + half(ordered[::-1]))


def _rings(solid: Solid) -> list[tuple[float, float]]:
    """Radius and height of the rings of a round body, from its foot up. [m]"""
    assert solid.size is not None
    radius, half = solid.size[0] / 2.0, solid.size[2] / 2.0
    if solid.shape is Shape.CYLINDER:
        return [(radius, -half), (radius, half)]
    straight = max(0.0, half - radius)
    steps = 8
    lower = [
        (radius * max(sin(pi / 2 * i / steps), 1e-3), -straight - radius * cos(pi / 2 * i / steps))
        for i in range(steps + 1)
    ]
    return [*lower, *((r, -z) for r, z in lower[::-1])]


def own_faces(solid: Solid) -> tuple[tuple[Vector, ...], tuple[tuple[int, ...], ...]]:
    """Corners and faces of a body in its own axes, faces counter-clockwise from outside.

    Parameters
    ----------
    solid : Solid
        A box, cylinder or capsule, or a mesh that can be read.

    Returns
    -------
    tuple
        Corners [m], and for each face the numbers of its corners; both empty for a mesh that
        cannot be read.
    """
    if solid.shape is Shape.MESH:
        return _mesh(solid.file, solid.scale)
    if solid.size is None:
        return (), ()
    if solid.shape is Shape.BOX:
        x, y, z = (s / 2.0 for s in solid.size)
        corners = tuple((i * x, j * y, k * z) for i in (-1, 1) for j in (-1, 1) for k in (-1, 1))
        faces = (
            (0, 1, 3, 2),
            (4, 6, 7, 5),
            (0, 4, 5, 1),
            (2, 3, 7, 6),
            (0, 2, 6, 4),
            (1, 5, 7, 3),
        )
        return corners, faces
    rings = _rings(solid)
    n = _ROUND
    points = [
        (r * cos(2 * pi * i / n), r * sin(2 * pi * i / n), z) for r, z in rings for i in range(n)
    ]
    sides = [
        (k * n + i, k * n + (i + 1) % n, (k + 1) * n + (i + 1) % n, (k + 1) * n + i)
        for k in range(len(rings) - 1)
        for i in range(n)
    ]
    last = (len(rings) - 1) * n
    ends = [tuple(range(n - 1, -1, -1)), tuple(range(last, last + n))]
    return tuple(points), (*ends, *sides)


@lru_cache(maxsize=32)
def _mesh(file: str, scale: float) -> tuple[tuple[Vector, ...], tuple[tuple[int, ...], ...]]:
    from linewright.space.meshes import read

    found, _ = read(file, scale)
    if found is None:
        return (), ()
    points = [(float(p[0]), float(p[1]), float(p[2])) for p in found.corners.reshape(-1, 3)]
    faces = tuple((3 * i, 3 * i + 1, 3 * i + 2) for i in range(len(points) // 3))
    return tuple(points), faces


def in_car(solid: Solid) -> tuple[tuple[Vector, ...], tuple[tuple[int, ...], ...]]:
    """Corners and faces of a body where it lies in the car.

    Parameters
    ----------
    solid : Solid
        The body.

    Returns
    -------
    tuple
        As `own_faces`.
    """
    corners, faces = own_faces(solid)
    return tuple(placed(solid.middle, solid.turn, c) for c in corners), faces


def _normal(points: Sequence[Vector]) -> Vector:
    """Sum over the sides of a face: right for faces of any number of corners."""
    x = y = z = 0.0
    for a, b in zip(points, (*points[1:], points[0]), strict=True):
        x += (a[1] - b[1]) * (a[2] + b[2])
        y += (a[2] - b[2]) * (a[0] + b[0])
        z += (a[0] - b[0]) * (a[1] + b[1])
    return x, y, z


def seen(solid: Solid, eye: Eye) -> Seen | None:
    """A body as it is seen.

    Parameters
    ----------
    solid : Solid
        The body.
    eye : Eye
        From where.

    Returns
    -------
    Seen or None
        None for a mesh that cannot be read.
    """
    import numpy as np

    points, faces = in_car(solid)
    if not points:
        return None
    flat = [eye.flat(p) for p in points]
    near = [eye.near(p) for p in points]
    shown: list[tuple[Flat, ...]] = []
    # Of round bodies and meshes only the flat ends are worth their edges.
    edged = faces if solid.shape is Shape.BOX else faces[:2]
    if solid.shape in (Shape.BOX, Shape.CYLINDER):
        for face in edged:
            normal = _normal([points[i] for i in face])
            size = dot(normal, normal) ** 0.5
            if dot(normal, eye.toward) > 0.02 * size:
                shown.append(tuple(flat[i] for i in face))
    triangles = [(face[0], face[i], face[i + 1]) for face in faces for i in range(1, len(face) - 1)]
    table = np.column_stack([np.array(flat), np.array(near)])
    return Seen(
        solid.id, hull(flat), tuple(shown), max(near), table[np.array(triangles, dtype=np.int64)]
    )


def reach(solid: Solid, eye: Eye) -> tuple[Flat, ...]:
    """Silhouette of all places that a body with travel may take.

    Parameters
    ----------
    solid : Solid
        The body; ``grown`` is its travel.
    eye : Eye
        From where.

    Returns
    -------
    tuple of tuple of float
        The hull of the body at the ends of its travel. [m]
    """
    points, _ = in_car(solid)
    gx, gy, gz = solid.grown
    moves = {(i * gx, j * gy, k * gz) for i in (-1, 1) for j in (-1, 1) for k in (-1, 1)}
    return hull([eye.flat((p[0] + d[0], p[1] + d[1], p[2] + d[2])) for d in moves for p in points])


def covered(points: Sequence[Vector], bodies: Sequence[Seen], eye: Eye) -> list[bool]:
    """Which points a nearer body hides.

    Parameters
    ----------
    points : Sequence of Vector
        Points in the car. [m]
    bodies : Sequence of Seen
        What may stand before them.
    eye : Eye
        From where.

    Returns
    -------
    list of bool
        One a point, in order.
    """
    import numpy as np

    if not points:
        return []
    table = np.array([(*eye.flat(p), eye.near(p)) for p in points])
    found = np.zeros(len(points), dtype=bool)
    for body in bodies:
        left, right, low, high = body.box
        inside = (
            (table[:, 0] >= left)
            & (table[:, 0] <= right)
            & (table[:, 1] >= low)
            & (table[:, 1] <= high)
            & (table[:, 2] < body.top - _BEHIND)
            & ~found
        )
        rows = np.flatnonzero(inside)
        few = max(1, 200_000 // len(body.corners))
        for start in range(0, len(rows), few):
            part = rows[start : start + few]
            found[part] = _tops(body.corners, table[part, :2]) > table[part, 2] + _BEHIND
    return [bool(f) for f in found]


def _tops(corners: "Reals", places: "Reals") -> "Reals":
    """Nearness of the nearest triangle at each place; minus infinity beside the body."""
    import numpy as np

    a, b, c = corners[:, 0], corners[:, 1], corners[:, 2]
    ab, ac = (b - a)[None], (c - a)[None]
    det = ab[..., 0] * ac[..., 1] - ac[..., 0] * ab[..., 1]
    is_real = np.abs(det) > 1e-14
    safe = np.where(is_real, det, 1.0)
    x = places[:, :1] - a[None, :, 0]
    y = places[:, 1:] - a[None, :, 1]
    u = (x * ac[..., 1] - ac[..., 0] * y) / safe
    v = (ab[..., 0] * y - x * ab[..., 1]) / safe
    hit = is_real & (u >= -1e-9) & (v >= -1e-9) & (u + v <= 1.0 + 1e-9)
    depth = a[None, :, 2] + u * ab[..., 2] + v * ac[..., 2]
    top: Reals = np.where(hit, depth, -np.inf).max(axis=1)
    return top


def hatched(
    outline: Sequence[Flat], angle: float, gap: float, *, rim: float | None = None
) -> list[tuple[Flat, Flat]]:
    """Strokes that fill a convex outline.

    Parameters
    ----------
    outline : Sequence of tuple of float
        Its corners.
    angle : float
        Of the strokes. [rad]
    gap : float
        Between two, in the unit of the corners. [-]
    rim : float or None
        Strokes longer than eight of it are drawn that far in from both ends only: what a large
        room holds stays readable. [-]

    Returns
    -------
    list of tuple
        Both ends of each.

    Examples
    --------
    >>> hatched([(0, 0), (4, 0), (4, 2), (0, 2)], 0.0, 1.0)
    [((0.0, 1.0), (4.0, 1.0))]
    """
    c, s = cos(angle), sin(angle)
    turned = [(x * c + y * s, -x * s + y * c) for x, y in outline]
    if len(turned) < 3:
        return []
    low, high = min(p[1] for p in turned), max(p[1] for p in turned)
    first = int(low // gap) + 1
    strokes = []
    for k in range(first, int(high // gap) + 1):
        level = k * gap
        if level >= high:
            break
        cuts = []
        for (ax, ay), (bx, by) in zip(turned, (*turned[1:], turned[0]), strict=True):
            if (ay < level) != (by < level):
                cuts.append(ax + (bx - ax) * (level - ay) / (by - ay))
        if len(cuts) == 2 and cuts[0] != cuts[1]:
            x0, x1 = sorted(cuts)
            parts = [(x0, x1)]
            if rim is not None and x1 - x0 > 8 * rim:
                parts = [(x0, x0 + rim), (x1 - rim, x1)]
            strokes += [
                ((a * c - level * s, a * s + level * c), (b * c - level * s, b * s + level * c))
                for a, b in parts
            ]
    return strokes
