# SPDX-License-Identifier: Apache-2.0
"""Drawn bodies: triangles read from STL files, put in order, and judged."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path as File
from typing import TYPE_CHECKING

from linewright.base.evidence import Grade
from linewright.base.finding import Finding, Severity
from linewright.car.model import Shape
from linewright.space.bodies import Solid

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Reals = NDArray[np.float64]
    Whole = NDArray[np.int64]

#: Triangles in a box that is not divided further.
_LEAF = 4


@dataclass(frozen=True, slots=True, eq=False)
class Drawn:
    """A mesh as the kernels know it (`nearest.Bodies`), in its own axes. [m]"""

    corners: "Reals"
    normals: "Reals"
    box: "Reals"
    left: "Whole"
    begin: "Whole"
    end: "Whole"
    is_closed: bool


def drawn(vertices: "Reals", faces: "Whole") -> tuple[Drawn, str]:
    """Put the triangles of a mesh in order, and say what is wrong with it.

    Parameters
    ----------
    vertices : ndarray
        Points (v, 3), each one once. [m]
    faces : ndarray
        Their numbers (t, 3), counter-clockwise seen from outside.

    Returns
    -------
    Drawn
        The mesh. One whose triangles face inward is turned out; one that is not closed has no
        inside, and counts as a shell of no thickness.
    str
        "" where it is sound; else "inverted", "open" or "empty".

    Examples
    --------
    >>> import numpy as np
    >>> corner = np.array([[0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1.0]])
    >>> drawn(corner, np.array([[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]]))[1]
    ''
    >>> drawn(corner, np.array([[0, 2, 1], [0, 1, 3], [0, 3, 2]]))[1]
    'open'
    """
    import numpy as np

    from linewright.space import nearest

    faces = np.asarray(faces, dtype=np.int64).reshape(-1, 3)
    a, b, c = faces.T
    faces = faces[(a != b) & (b != c) & (c != a)]
    if not len(faces):
        none = np.zeros(0, dtype=np.int64)
        empty = Drawn(
            np.zeros((0, 3, 3)), np.zeros((0, 7, 3)), np.zeros((0, 6)), none, none, none, False
        )
        return empty, "empty"
    is_closed, fault = _is_closed(faces), ""
    corners = np.asarray(vertices, dtype=np.float64)[faces]
    if not is_closed:
        fault = "open"
    elif np.einsum("ij,ij->", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])) < 0.0:
        fault = "inverted"
        faces = faces[:, ::-1]
        corners = corners[:, ::-1]
    low, high = corners.min(axis=1), corners.max(axis=1)
    box, left, begin, end, order = nearest.grow_tree(low, high, _LEAF)
    normals = _normals(corners, faces, len(vertices))
    found = Drawn(
        np.ascontiguousarray(corners[order]), normals[order], box, left, begin, end, is_closed
    )
    return found, fault


def _is_closed(faces: "Whole") -> bool:
    """Whether every edge is gone along once each way, so that the triangles agree on outside."""
    import numpy as np

    edges = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]])
    most = int(faces.max()) + 1
    there, times = np.unique(edges[:, 0] * most + edges[:, 1], return_counts=True)
    back = np.unique(edges[:, 1] * most + edges[:, 0])
    return bool((times == 1).all()) and np.array_equal(there, back)


def _normals(corners: "Reals", faces: "Whole", count: int) -> "Reals":
    """Normals of every face, its edges and its corners: those are sums over what meets there."""
    import numpy as np

    n = len(faces)
    found = np.zeros((n, 7, 3))
    face = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    size = np.linalg.norm(face, axis=1, keepdims=True)
    face = np.divide(face, size, out=np.zeros_like(face), where=size > 0.0)
    found[:, 0] = face
    # An edge has the same number whichever way it is gone along.
    ends = np.stack([faces, np.roll(faces, -1, axis=1)], axis=2)
    key = ends.min(axis=2) * count + ends.max(axis=2)
    _, number = np.unique(key.ravel(), return_inverse=True)
    number = number.reshape(n, 3)
    edge = np.zeros((int(number.max()) + 1, 3))
    corner = np.zeros((count, 3))
    for k in range(3):
        np.add.at(edge, number[:, k], face)
        one = corners[:, (k + 1) % 3] - corners[:, k]
        two = corners[:, (k + 2) % 3] - corners[:, k]
        wide = np.linalg.norm(np.cross(one, two), axis=1)
        angle = np.arctan2(wide, np.einsum("ij,ij->i", one, two))
        np.add.at(corner, faces[:, k], angle[:, None] * face)
    for k in range(3):
        found[:, 1 + k] = edge[number[:, k]]
        found[:, 4 + k] = corner[faces[:, k]]
    return found


def read(file: str, scale: float) -> tuple[Drawn | None, str]:
    """Read a mesh from an STL file.

    Parameters
    ----------
    file : str
        Where it is.
    scale : float
        What one of its units is. [m]

    Returns
    -------
    Drawn or None
        The mesh; None where there is none.
    str
        As `drawn`, or why the file cannot be read.
    """
    import numpy as np
    import trimesh

    path = File(file)
    if not path.is_file():
        return None, "the file is not there"
    try:
        with path.open("rb") as stream:
            loaded = trimesh.load_mesh(stream, file_type="stl", process=False)
        vertices = np.asarray(loaded.vertices, dtype=np.float64) * scale
        faces = np.asarray(loaded.faces, dtype=np.int64)
    except (OSError, ValueError, IndexError, KeyError, TypeError, AttributeError):
        return None, "it cannot be read as STL"
    if not len(faces):
        return None, "it holds no triangle"
    if not np.isfinite(vertices).all():
        return None, "some of its points are no numbers"
    # STL says each corner anew for every triangle, in single figures: equal ones are one.
    vertices, same = np.unique(vertices, axis=0, return_inverse=True)
    found, fault = drawn(vertices, same.ravel()[faces])
    return (None, "it holds no triangle") if fault == "empty" else (found, fault)


def read_all(
    solids: Iterable[Solid],
) -> tuple[dict[tuple[str, float], Drawn], tuple[Finding, ...]]:
    """Read the mesh of every body that has one, and say what is wrong with them.

    Parameters
    ----------
    solids : iterable of Solid
        Bodies of a car (`bodies.bodies`).

    Returns
    -------
    dict
        Meshes by file and scale; those that cannot be read are not in it.
    tuple of Finding
        For meshes that are missing, open or inside out.
    """
    meshes: dict[tuple[str, float], Drawn] = {}
    faults: dict[tuple[str, float], str] = {}
    findings: list[Finding] = []
    for solid in solids:
        if solid.shape is not Shape.MESH:
            continue
        key = (solid.file, solid.scale)
        if key not in faults:
            found, faults[key] = read(*key)
            if found is not None:
                meshes[key] = found
        finding = _finding(solid, faults[key], key in meshes)
        if finding is not None:
            findings.append(finding)
    return meshes, tuple(findings)


def _finding(solid: Solid, fault: str, is_usable: bool) -> Finding | None:
    name = File(solid.file).name
    if not is_usable:
        return Finding(
            "mesh-unreadable",
            Severity.ASK,
            (solid.id,),
            f"{solid.id}: {name} is left out of the car, so lines may run through it: {fault}.",
            "Put the STL file beside the document, or give the body a shape and a size.",
            grade=Grade.STATED,
        )
    if fault == "open":
        return Finding(
            "mesh-open",
            Severity.WARN,
            (solid.id,),
            f"{solid.id}: {name} has gaps, or triangles that face different ways, so it has no "
            "inside. Lines keep off its surface, and one that runs wholly within is not found "
            "out.",
            "Close it and let all triangles face out, or give the body a shape and a size.",
            grade=Grade.STATED,
        )
    if fault == "inverted":
        return Finding(
            "mesh-inverted",
            Severity.NOTE,
            (solid.id,),
            f"{solid.id}: the triangles of {name} face inward; they are taken as facing out.",
            "Nothing, if it is a body; if it is a room to stay within, draw its walls as bodies.",
            grade=Grade.STATED,
        )
    return None
