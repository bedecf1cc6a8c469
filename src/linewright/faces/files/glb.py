# SPDX-License-Identifier: Apache-2.0
"""The car in space as GLB for any viewer: bodies, and each hose as a tube of its own name."""

from itertools import pairwise
from math import atan2, cos, pi, sin
from typing import TYPE_CHECKING

from linewright.base.vectors import Vector, cross, dot, square, turned_about, unit
from linewright.car.model import ZoneKind
from linewright.faces.files.dxf import chords
from linewright.scene.linetypes import ink_of
from linewright.scene.spatial_marks import slab_corners
from linewright.scene.spatial_outlines import in_car
from linewright.scene.spatial_things import Hose, Slab, Space
from linewright.space.bodies import Solid

if TYPE_CHECKING:
    import trimesh
    from numpy.typing import NDArray

#: Sides of a tube, and how far a facet along it may lie off its bend. [-], [m]
_SIDES, _OFF = 24, 5e-4

Colour = tuple[int, int, int, int]

_BODY: Colour = (190, 190, 184, 255)
_WALL: Colour = (120, 120, 120, 150)
_END: Colour = (45, 45, 48, 255)
_ZONES: dict[ZoneKind, Colour] = {
    ZoneKind.HOT: (213, 94, 0, 70),
    ZoneKind.KEEP_OUT: (120, 120, 120, 70),
    ZoneKind.MOVING: (86, 180, 233, 60),
    ZoneKind.DRIVER: (0, 158, 115, 50),
    ZoneKind.SPILL_SENSITIVE: (230, 159, 0, 60),
}


def upright(point: Vector) -> Vector:
    """A point of the car in the axes of glTF: left is x, up is y, forward is z.

    Parameters
    ----------
    point : Vector
        x rearward, y to the right, z up. [m]

    Returns
    -------
    Vector
        The same point; both frames are right-handed. [m]

    Examples
    --------
    >>> upright((-1.0, 2.0, 3.0))
    (-2.0, 3.0, 1.0)
    """
    x, y, z = point
    return -y + 0.0, z, -x + 0.0


def _colour(text: str) -> Colour:
    red, green, blue = (int(text[i : i + 2], 16) for i in (1, 3, 5))
    return red, green, blue, 255


def _mesh(
    points: "list[Vector] | tuple[Vector, ...]", faces: list[tuple[int, int, int]], colour: Colour
) -> "trimesh.Trimesh":
    import numpy as np
    import trimesh
    from trimesh.visual import TextureVisuals
    from trimesh.visual.material import PBRMaterial

    material = PBRMaterial(  # type: ignore[no-untyped-call]
        baseColorFactor=list(colour),
        metallicFactor=0.0,
        roughnessFactor=0.8,
        alphaMode="OPAQUE" if colour[3] == 255 else "BLEND",
        doubleSided=colour[3] != 255,
    )
    vertices: NDArray[np.float64] = np.array([upright(p) for p in points])
    return trimesh.Trimesh(
        vertices=vertices,
        faces=np.array(faces, dtype=np.int64),
        process=False,
        visual=TextureVisuals(material=material),  # type: ignore[no-untyped-call]
    )


def _solid(solid: Solid, colour: Colour) -> "trimesh.Trimesh | None":
    points, faces = in_car(solid)
    triangles = [(face[0], face[i], face[i + 1]) for face in faces for i in range(1, len(face) - 1)]
    return _mesh(points, triangles, colour) if triangles else None


def tube(
    points: tuple[Vector, ...], radius: float
) -> tuple[list[Vector], list[tuple[int, int, int]]]:
    """Sweep a circle along points, without twist, both ends closed.

    Parameters
    ----------
    points : tuple of Vector
        Points along its middle; no two that follow are the same. [m]
    radius : float
        Its radius. [m]

    Returns
    -------
    tuple
        Corners [m], and triangles that face outward.
    """
    ways = [unit((b[0] - a[0], b[1] - a[1], b[2] - a[2])) for a, b in pairwise(points)]
    rim = square(ways[0])
    corners: list[Vector] = []
    for i, at in enumerate(points):
        before, after = ways[max(i - 1, 0)], ways[min(i, len(ways) - 1)]
        axis = cross(before, after)
        size = dot(axis, axis) ** 0.5
        angle = atan2(size, dot(before, after))
        half = rim
        stretch = 1.0
        if size > 1e-12:
            axis = unit(axis)
            half = turned_about(axis, angle / 2.0, rim)
            rim = turned_about(axis, angle, rim)
            # Rings stand in the mitre of two chords, so that the tube keeps its width.
            stretch = 1.0 / max(cos(angle / 2.0), 0.5)
            along = turned_about(axis, angle / 2.0, before)
        else:
            axis, along = half, before
        other = cross(along, half)
        bent = cross(along, axis) if size > 1e-12 else half
        for k in range(_SIDES):
            c, s = cos(2 * pi * k / _SIDES), sin(2 * pi * k / _SIDES)
            arm: Vector = (
                c * half[0] + s * other[0],
                c * half[1] + s * other[1],
                c * half[2] + s * other[2],
            )
            more = (stretch - 1.0) * dot(arm, bent)
            corners.append(
                (
                    at[0] + radius * (arm[0] + more * bent[0]),
                    at[1] + radius * (arm[1] + more * bent[1]),
                    at[2] + radius * (arm[2] + more * bent[2]),
                )
            )
    faces: list[tuple[int, int, int]] = []
    n = _SIDES
    for i in range(len(points) - 1):
        for k in range(n):
            a, b = i * n + k, i * n + (k + 1) % n
            faces += [(a, b, b + n), (a, b + n, a + n)]
    last = (len(points) - 1) * n
    faces += [(0, k + 1, k) for k in range(1, n - 1)]
    faces += [(last, last + k, last + k + 1) for k in range(1, n - 1)]
    return corners, faces


def _apart(points: tuple[Vector, ...]) -> tuple[Vector, ...]:
    kept = [points[0]]
    for p in points[1:]:
        if max(abs(a - b) for a, b in zip(p, kept[-1], strict=True)) > 1e-7:
            kept.append(p)
    return tuple(kept)


def _hose(hose: Hose) -> "trimesh.Trimesh":
    points = _apart(chords(hose.path, _OFF))
    corners, faces = tube(points, hose.outside / 2.0)
    return _mesh(corners, faces, _colour(ink_of(hose.system)))


def _slab(slab: Slab) -> "trimesh.Trimesh | None":
    if slab.wide is None or slab.high is None:
        return None
    corners = slab_corners(slab, slab.wide, slab.high)
    quads = (
        (0, 1, 3, 2),
        (4, 6, 7, 5),
        (0, 4, 5, 1),
        (2, 3, 7, 6),
        (0, 2, 6, 4),
        (1, 5, 7, 3),
    )
    faces = [t for q in quads for t in ((q[0], q[1], q[2]), (q[0], q[2], q[3]))]
    return _mesh(corners, faces, _WALL)


def glb(space: Space) -> bytes | None:
    """Write the car in space as binary glTF 2.0.

    Parameters
    ----------
    space : Space
        The car in space.

    Returns
    -------
    bytes or None
        None where nothing has a place. Metres, y up, the car looking along +z. A hose is a node
        under its number, its ends ``O01.A`` and ``O01.B``; a body ``body:<id>``, a zone
        ``zone:<id>``, a wall ``wall:<id>``. The same bytes for the same car.
    """
    if space.is_empty:
        return None
    import trimesh

    scene = trimesh.Scene(base_frame="car")

    def add(name: str, mesh: "trimesh.Trimesh | None") -> None:
        if mesh is not None:
            scene.add_geometry(mesh, node_name=name, geom_name=name)

    for solid in space.solids:
        add(f"body:{solid.id}", _solid(solid, _BODY))
    for slab in space.slabs:
        add(f"wall:{slab.id}", _slab(slab))
    for hose in space.hoses:
        add(hose.id, _hose(hose))
        for side, end in zip("AB", hose.ends, strict=True):
            points = _apart(end)
            if len(points) > 1:
                corners, faces = tube(points, hose.outside * 0.45)
                add(f"{hose.id}.{side}", _mesh(corners, faces, _END))
    for zone in space.zones:
        if zone.zone is not None:
            add(f"zone:{zone.id}", _solid(zone, _ZONES[zone.zone]))
    if not scene.geometry:
        return None
    found: bytes = scene.export(file_type="glb")  # type: ignore[no-untyped-call]
    return found
