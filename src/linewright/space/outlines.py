# SPDX-License-Identifier: Apache-2.0
"""What lines go round, besides bodies: hoses, walls, the ground; and all of it as arrays."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import hypot, isfinite, sqrt
from typing import TYPE_CHECKING

from linewright.base.frames import Rotation
from linewright.base.vectors import Vector, ahead, unit
from linewright.car.model import Car, Shape
from linewright.joints.offered import setting
from linewright.space.bodies import Solid, panel_axes

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from linewright.space.meshes import Drawn
    from linewright.space.nearest import Bodies

    Reals = NDArray[np.float64]
    Whole = NDArray[np.int64]

#: A wall without a size reaches as far as any car. [m]
_FAR = 1e3

#: How thick the skin of a car is outward, for what goes round it. [m]
_OUTSIDE = 4.0

#: What the ground is called. No id has a space, so it is not taken for a part of the car.
GROUND = "the ground"

#: A piece of a hose that is shorter than this has no direction. [m]
_NOTHING = 1e-12


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


def walls(car: Car, line: str = "") -> tuple[Wall, ...]:
    """The walls of a car whose place is known, with the holes that a line may take.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : str
        Whose holes count beside those that are for any line.

    Returns
    -------
    tuple of Wall
        In the order of the document. A hole of which no bore was typed is none here.
    """
    return tuple(
        Wall(
            panel.id,
            panel.at,
            panel.points,
            panel.thickness.value,
            panel.size,
            tuple(
                Opening(hole.at, hole.bore / 2.0)
                for hole in panel.holes
                if hole.bore is not None and hole.line in ("", line)
            ),
            setting(car, "clearance").value,
        )
        for panel in car.panels.values()
        if panel.at is not None and panel.points is not None
    )


def standing(car: Car) -> tuple[Obstacle, ...]:
    """Walls with all their holes, the skin of a car and the ground under it.

    Parameters
    ----------
    car : Car
        The car document as read.

    Returns
    -------
    tuple of Wall or HalfSpace
        Panels in the order of the document; the ground last, if its height was said.
    """
    gap = setting(car, "clearance").value
    found: list[Obstacle] = []
    for panel in car.panels.values():
        if panel.at is None or panel.points is None:
            continue
        points, thick = unit(panel.points), panel.thickness.value
        holes = tuple(Opening(h.at, h.bore / 2.0) for h in panel.holes if h.bore)
        at = ahead(panel.at, points, (_OUTSIDE - thick) / 2.0) if panel.is_skin else panel.at
        thick = _OUTSIDE if panel.is_skin else thick
        found.append(Wall(panel.id, at, points, thick, panel.size, holes, gap))
    if car.ground is not None:
        room = setting(car, "ground-clearance").value
        found.append(HalfSpace(GROUND, (0.0, 0.0, car.ground), (0.0, 0.0, 1.0), room))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class Row:
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


def _solid_row(solid: Solid) -> Row:
    from linewright.space import distances

    # Travel sweeps a body along the car's axes. What is kept clear is the body of the same
    # shape round all of that: never less than is swept, more where it lies askew.
    add, across = _swept(solid.turn, solid.grown)
    if solid.shape is Shape.MESH:
        most = sqrt(sum(g * g for g in solid.grown))
        file = (solid.file, solid.scale)
        return Row(distances.MESH, solid.middle, solid.turn, (0.0, 0.0, 0.0), most, file=file)
    if solid.size is None:
        raise ValueError(f"{solid.id}: a {solid.shape.value} without a size; give it one")
    x, y, z = (side / 2.0 for side in solid.size)
    match solid.shape:
        case Shape.BOX:
            half = (x + add[0], y + add[1], z + add[2])
            return Row(distances.BOX, solid.middle, solid.turn, half)
        case Shape.CYLINDER:
            half = (x + across, x + across, z + add[2])
            return Row(distances.CYLINDER, solid.middle, solid.turn, half)
        case _:
            half = (x + across, x + across, max(0.0, z - x) + add[2])
            return Row(distances.CAPSULE, solid.middle, solid.turn, half)


def _columns(a: Vector, b: Vector, c: Vector) -> Rotation:
    return ((a[0], b[0], c[0]), (a[1], b[1], c[1]), (a[2], b[2], c[2]))


def _wall_row(wall: Wall) -> Row:
    from linewright.space import distances

    points = unit(wall.points)
    level, other = panel_axes(points)
    turn = _columns(level, other, points)
    wide, high = wall.size or (2.0 * _FAR, 2.0 * _FAR)
    holes = []
    for hole in wall.holes:
        arrow = tuple(h - a for h, a in zip(hole.at, wall.at, strict=True))
        u, v = (sum(arrow[row] * turn[row][k] for row in range(3)) for k in range(2))
        holes.append((u, v, hole.radius))
    half = (wide / 2.0, high / 2.0, wall.thickness / 2.0)
    kind = distances.HOLED if holes else distances.BOX
    return Row(kind, wall.at, turn, half, holes=tuple(holes))


def _tube_rows(tube: Tube) -> list[Row]:
    from linewright.space import distances

    rows = []
    points = tube.points if len(tube.points) > 1 else tube.points * 2
    for a, b in pairwise(points):
        way = (b[0] - a[0], b[1] - a[1], b[2] - a[2])
        far = hypot(*way)
        middle = ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0, (a[2] + b[2]) / 2.0)
        along = unit(way) if far > _NOTHING else (0.0, 0.0, 1.0)
        level, other = panel_axes(along)
        turn = _columns(level, other, along)
        half = (tube.radius, tube.radius, far / 2.0)
        rows.append(Row(distances.CAPSULE, middle, turn, half))
    return rows


def rows(each: Obstacle) -> list[Row]:
    """Rows that stand for one obstacle in the kernels.

    Parameters
    ----------
    each : Obstacle
        A solid, a tube, a wall or a half-space.

    Returns
    -------
    list of Row
        One or several.

    Raises
    ------
    ValueError
        If it is no obstacle.
    """
    from linewright.space import distances

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
        found = [Row(distances.HALF_SPACE, each.at, turn, (0.0, 0.0, 0.0))]
    for row in found:
        numbers = (*row.middle, *row.half, *(m for line in row.turn for m in line), row.grown)
        if not all(isfinite(number) for number in numbers) or min(row.half) < 0.0:
            raise ValueError(
                f"{each.id}: at {row.middle}, half sizes {row.half}: sizes and places must be "
                "numbers, and no size less than nothing"
            )
    return found


def arrays(
    found: Sequence[Row], meshes: Mapping[tuple[str, float], "Drawn"]
) -> "tuple[Bodies, Reals, Reals]":
    """Rows as arrays, and the box round each before movement.

    Parameters
    ----------
    found : Sequence of Row
        All rows of a scene.
    meshes : Mapping
        Meshes that rows refer to, by file and unit.

    Returns
    -------
    tuple
        Bodies for the kernels, low and high corners of the boxes, shape (n, 3).
    """
    import numpy as np

    from linewright.space import distances, nearest

    n = len(found)
    kind = np.array([row.kind for row in found], dtype=np.int64)
    middle = np.array([row.middle for row in found], dtype=np.float64).reshape(n, 3)
    turn = np.array([row.turn for row in found], dtype=np.float64).reshape(n, 3, 3)
    half = np.array([row.half for row in found], dtype=np.float64).reshape(n, 3)
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
    for i, row in enumerate(found):
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
    bodies = nearest.Bodies(
        kind,
        np.concatenate([middle, turn.reshape(n, 9), half], axis=1),
        first,
        last,
        np.array(holes, dtype=np.float64).reshape(-1, 3),
        _joined([mesh.corners for mesh in drawn], (0, 3, 3)),
        _joined([mesh.normals for mesh in drawn], (0, 7, 3)),
        _joined([mesh.box for mesh in drawn], (0, 6)),
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
