# SPDX-License-Identifier: Apache-2.0
"""Drawn bodies: read from STL files, judged, and measured against triangle by triangle."""

from math import cos, pi, sin
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from linewright.base.evidence import Grade
from linewright.base.finding import Finding, Severity
from linewright.base.frames import rotation
from linewright.car.model import Shape
from linewright.space import meshes
from linewright.space.obstacles import Scene, Solid
from tests import dense_check

Reals = NDArray[np.float64]
Whole = NDArray[np.int64]

CUBE = np.array([[x, y, z] for x in (-1, 1) for y in (-1, 1) for z in (-1, 1)], dtype=np.float64)
# Six faces, two triangles each, counter-clockwise from outside.
SIDES = ((0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3))
FACES = np.array([f for a, b, c, d in SIDES for f in ((a, b, c), (a, c, d))])


def bracket() -> tuple[Reals, Whole]:
    """An L, extruded: a body with an inward edge, where plain face normals tell wrong."""
    shape = [(0, 0), (0.3, 0), (0.3, 0.1), (0.1, 0.1), (0.1, 0.3), (0, 0.3)]
    points = np.array([(x, y, z) for z in (0.0, 0.2) for x, y in shape])
    caps = [(0, 1, 2), (0, 2, 3), (0, 3, 4), (0, 4, 5)]
    faces = [(c, b, a) for a, b, c in caps] + [(a + 6, b + 6, c + 6) for a, b, c in caps]
    for i in range(6):
        j = (i + 1) % 6
        faces += [(i, j, j + 6), (i, j + 6, i + 6)]
    return points, np.array(faces)


def ring(n: int = 24, m: int = 12) -> tuple[Reals, Whole]:
    """A torus of 0.2 m with a section of 0.05 m: not convex, with a hole through it."""
    points, faces = [], []
    for i in range(n):
        for j in range(m):
            a, b = 2 * pi * i / n, 2 * pi * j / m
            out = 0.2 + 0.05 * cos(b)
            points.append((out * cos(a), out * sin(a), 0.05 * sin(b)))
            p, q = i * m + j, (i + 1) % n * m + j
            s, r = i * m + (j + 1) % m, (i + 1) % n * m + (j + 1) % m
            faces += [(p, q, r), (p, r, s)]
    return np.array(points), np.array(faces)


def blade() -> tuple[Reals, Whole]:
    """A thin spike, askew: its edges and tips are so sharp that no one face tells outside."""
    points = np.array(
        [(0.35, 0.3, 0.02), (-0.3, 0.05, 0.0), (-0.3, -0.05, 0.0), (-0.28, 0.0, 0.03)]
    )
    return points, np.array([(0, 1, 2), (0, 3, 1), (0, 2, 3), (1, 3, 2)])[:, ::-1]


def write(path: Path, points: Reals, faces: Whole) -> None:
    lines = ["solid thing"]
    for a, b, c in points[faces]:
        lines += ["facet normal 0 0 0", "outer loop"]
        lines += [f"vertex {x:.9g} {y:.9g} {z:.9g}" for x, y, z in (a, b, c)]
        lines += ["endloop", "endfacet"]
    path.write_text("\n".join([*lines, "endsolid thing", ""]), encoding="ascii")


def solid(file: Path, scale: float = 1.0, **more: object) -> Solid:
    return Solid(
        "block",
        Shape.MESH,
        (0.1, -0.2, 0.3),
        rotation(0.4, -0.3, 0.9),
        file=str(file),
        scale=scale,
        **more,  # type: ignore[arg-type]
    )


@pytest.mark.parametrize("thing", [bracket(), ring(), (CUBE * 0.1, FACES), blade()], ids="LOCB")
@given(seed=st.integers(0, 10_000))
@settings(max_examples=15, deadline=None)
def test_gaps_to_a_mesh_agree_with_every_triangle_tried(
    thing: tuple[Reals, Whole], seed: int
) -> None:
    points, faces = thing
    drawn, fault = meshes.drawn(points, faces)
    body = solid(Path("thing.stl"))
    scene = Scene.build([body], {("thing.stl", 1.0): drawn})
    cloud = np.random.default_rng(seed).uniform(-0.4, 0.4, (150, 3))
    there = cloud @ np.array(body.turn).T + np.array(body.middle)
    expected = dense_check.mesh_distance(points[faces], cloud)

    assert fault == ""
    assert scene.gaps(there)[0] == pytest.approx(expected, abs=1e-9)
    least = scene.least(there, 0.01)
    assert least.gap == pytest.approx(expected.min() - 0.01, abs=1e-9)


def test_a_meshed_box_is_as_far_as_the_box_it_draws() -> None:
    drawn, _ = meshes.drawn(CUBE * 0.1, FACES)
    mesh = solid(Path("cube.stl"))
    plain = Solid("block", Shape.BOX, mesh.middle, mesh.turn, (0.2, 0.2, 0.2))
    cloud = np.random.default_rng(5).uniform(-0.5, 0.7, (20_000, 3))

    one, _ = Scene.build([mesh], {("cube.stl", 1.0): drawn}).gaps(cloud)
    two, _ = Scene.build([plain]).gaps(cloud)
    assert (two < 0.0).sum() > 20
    assert one == pytest.approx(two, abs=1e-12)


def test_two_bodies_of_one_file_share_its_triangles() -> None:
    drawn, _ = meshes.drawn(CUBE * 0.1, FACES)
    turn = rotation(0.0, 0.0, 0.0)
    pair = [
        Solid(name, Shape.MESH, (x, 0.0, 0.0), turn, file="cube.stl")
        for name, x in (("left", -1.0), ("right", 1.0))
    ]
    scene = Scene.build(pair, {("cube.stl", 1.0): drawn})

    assert scene.least(np.array([[-0.5, 0.0, 0.0]]), 0.0) == (pytest.approx(0.4), 0, "left")
    assert scene.least(np.array([[0.7, 0.0, 0.0]]), 0.0) == (pytest.approx(0.2), 0, "right")
    assert len(scene._bodies.corners) == 12


def test_a_mesh_keeps_its_clearance_and_its_travel() -> None:
    drawn, _ = meshes.drawn(CUBE * 0.1, FACES)
    body = Solid(
        "block",
        Shape.MESH,
        (0.0, 0.0, 0.0),
        rotation(0.0, 0.0, 0.0),
        file="cube.stl",
        grown=(0.02, 0.0, 0.0),
        clearance=0.03,
    )
    scene = Scene.build([body], {("cube.stl", 1.0): drawn})
    points = np.array([[0.3, 0.0, 0.0]])

    assert scene.least(points, 0.01).gap == pytest.approx(0.17)
    assert scene.least(points, 0.01, asked=True).gap == pytest.approx(0.14)


def test_an_stl_file_is_read_in_its_own_unit(tmp_path: Path) -> None:
    file = tmp_path / "cube.stl"
    write(file, CUBE * 100.0, FACES)
    body = solid(file, 0.001)
    found, findings = meshes.read_all([body])
    gap = Scene.build([body], found).least(np.array([[0.1, -0.2, 0.3]]), 0.0).gap

    assert findings == ()
    assert found[str(file), 0.001].is_closed
    assert gap == pytest.approx(-0.1)


def test_an_stl_file_of_bytes_is_read_as_one_of_letters(tmp_path: Path) -> None:
    file = tmp_path / "cube.stl"
    row = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("more", "<u2")])
    rows = np.zeros(12, dtype=row)
    rows["corners"] = (CUBE * 0.1)[FACES]
    file.write_bytes(b"\0" * 80 + np.uint32(12).tobytes() + rows.tobytes())
    found, fault = meshes.read(str(file), 1.0)

    assert fault == ""
    assert found is not None
    assert found.is_closed
    assert len(found.corners) == 12


def test_a_mesh_with_gaps_is_a_shell_and_says_so(tmp_path: Path) -> None:
    file = tmp_path / "lid-off.stl"
    write(file, CUBE * 0.1, FACES[2:])
    body = solid(file)
    found, findings = meshes.read_all([body])

    assert findings == (
        Finding(
            "mesh-open",
            Severity.WARN,
            ("block",),
            "block: lid-off.stl has gaps, or triangles that face different ways, so it has no "
            "inside. Lines keep off its surface, and one that runs wholly within is not found "
            "out.",
            "Close it and let all triangles face out, or give the body a shape and a size.",
            grade=Grade.STATED,
        ),
    )
    middle = Scene.build([body], found).least(np.array([body.middle]), 0.0)
    assert middle.gap == pytest.approx(0.1)


def test_one_triangle_turned_over_makes_a_mesh_open() -> None:
    faces = FACES.copy()
    faces[4] = faces[4][::-1]

    assert meshes.drawn(CUBE, faces)[1] == "open"


def test_a_mesh_inside_out_is_turned_and_says_so(tmp_path: Path) -> None:
    file = tmp_path / "cube.stl"
    write(file, CUBE * 0.1, FACES[:, ::-1])
    body = solid(file)
    found, findings = meshes.read_all([body])

    assert findings == (
        Finding(
            "mesh-inverted",
            Severity.NOTE,
            ("block",),
            "block: the triangles of cube.stl face inward; they are taken as facing out.",
            "Nothing, if it is a body; if it is a room to stay within, draw its walls as bodies.",
            grade=Grade.STATED,
        ),
    )
    assert Scene.build([body], found).least(np.array([body.middle]), 0.0).gap == pytest.approx(-0.1)


@pytest.mark.parametrize(
    ("content", "why"),
    [
        (None, "the file is not there"),
        (b"", "it holds no triangle"),
        (b"these are no triangles, however long one reads" * 20, "it holds no triangle"),
        (b"solid x\nvertex 0 0 0\nvertex one two three\nendsolid x\n", "it cannot be read as STL"),
        (b"solid nothing\nendsolid nothing\n", "it holds no triangle"),
        (
            b"solid x\nfacet normal 0 0 0\nouter loop\nvertex 0 0 0\nvertex nan 0 0\n"
            b"vertex 0 1 0\nendloop\nendfacet\nendsolid x\n",
            "some of its points are no numbers",
        ),
        (
            b"solid x\nfacet normal 0 0 0\nouter loop\nvertex 0 0 0\nvertex 0 0 0\n"
            b"vertex 0 1 0\nendloop\nendfacet\nendsolid x\n",
            "it holds no triangle",
        ),
    ],
)
def test_a_mesh_that_cannot_be_used_is_left_out_and_asked_for(
    tmp_path: Path, content: bytes | None, why: str
) -> None:
    file = tmp_path / "block.stl"
    if content is not None:
        file.write_bytes(content)
    body = solid(file)
    found, findings = meshes.read_all([body, body])

    assert found == {}
    assert findings[0] == Finding(
        "mesh-unreadable",
        Severity.ASK,
        ("block",),
        f"block: block.stl is left out of the car, so lines may run through it: {why}.",
        "Put the STL file beside the document, or give the body a shape and a size.",
        grade=Grade.STATED,
    )
    assert Scene.build([body], found).obstacles == ()
