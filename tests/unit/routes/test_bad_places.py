# SPDX-License-Identifier: Apache-2.0
"""Documents with bad places: each is told, and every other hose is laid all the same."""

import struct
import time
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from linewright.base.errors import DocumentError
from linewright.base.finding import Finding
from linewright.car.model import Body, Car, Mesh, Place, Shape
from linewright.car.read import read_text
from linewright.joints.termination import offer
from linewright.plan.make import make
from linewright.routes.lay_space import lay_all
from tests.grown import grown, text
from tests.unit.space.test_meshes import CUBE, FACES

ALL = {"O001", "O002", "O003", "O004", "O005"}
FAR = (10.0, 5.0, 5.0)


def planned(car: Car) -> tuple[dict[str, Finding], set[str]]:
    """What was found, by code, and hoses that are laid."""
    plan = make(car, in_space=True)
    return {f.code: f for f in plan.findings}, {route.id for route in lay(car)}


def lay(car: Car) -> tuple[object, ...]:
    return lay_all(car, offer(car)).routes


def with_bodies(car: Car, *bodies: Body) -> Car:
    return replace(car, bodies={**car.bodies, **{b.id: b for b in bodies}})


def test_a_port_in_a_body_is_told_and_the_other_hoses_are_laid() -> None:
    # The cooler's ports stand in a block: what ends there cannot go, the other two can.
    car = grown(5)
    at = car.components["cooler0"].place
    assert at is not None
    found, laid = planned(with_bodies(car, Body("block", Place(at.at), Shape.BOX, (0.3, 0.4, 0.3))))

    assert "port-in-body" in found
    assert "cooler0" in found["port-in-body"].reason
    assert {"O001", "O004"} <= laid


def test_bodies_in_one_another_are_told_and_all_hoses_are_laid() -> None:
    outer = Body("outer", Place(FAR), Shape.BOX, (1.0, 1.0, 1.0))
    inner = Body("inner", Place(FAR), Shape.BOX, (0.2, 0.2, 0.2))
    found, laid = planned(with_bodies(grown(5), outer, inner))

    assert set(found["body-in-body"].about) == {"inner", "outer"}
    assert laid == ALL


def test_a_line_whose_ends_coincide_is_told_and_the_others_are_laid() -> None:
    both = text(5).replace(
        'low = { end = "-8 ORB female", known = "read", at = "40, 100, -90 mm", points = "right"',
        'low = { end = "-8 ORB female", known = "read", at_car = "270, 240, 310 mm", points = "left"',
    )
    both = both.replace(
        'in = { end = "-8 ORB female", known = "read", at = "0, -60, -20 mm", points = "left"',
        'in = { end = "-8 ORB female", known = "read", at_car = "270, 240, 310 mm", points = "left"',
    )
    found, laid = planned(read_text(both, file="car.toml"))

    assert "ends-coincide" in found
    assert "O001" in found["ends-coincide"].about
    assert ALL - {"O001"} <= laid


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ('size = "60 x 300 x 60 mm"', 'size = "60 x 0 x 60 mm"', "0"),
        ('points = "up", role = "in"', 'points = "0, 0, 0", role = "in"', "is no direction"),
    ],
)
def test_what_is_no_size_or_no_direction_is_refused_by_name(
    before: str, after: str, said: str
) -> None:
    assert before in text(5)
    with pytest.raises(DocumentError, match=said):
        read_text(text(5).replace(before, after), file="car.toml")


def stl(path: Path, faces: NDArray[np.int64]) -> None:
    """A binary STL of a cube of 2 units."""
    with path.open("wb") as file:
        file.write(b" " * 80 + struct.pack("<I", len(faces)))
        for face in faces:
            file.write(struct.pack("<3f", 0, 0, 0))
            for corner in CUBE[face]:
                file.write(struct.pack("<3f", *corner))
            file.write(b"\0\0")


@pytest.mark.parametrize(
    ("faces", "code"),
    [(FACES[:-1], "mesh-open"), (FACES[:, ::-1], "mesh-inverted"), (None, "mesh-unreadable")],
)
def test_open_inverted_and_missing_meshes_are_told_and_all_hoses_are_laid(
    tmp_path: Path, faces: NDArray[np.int64] | None, code: str
) -> None:
    file = tmp_path / "thing.stl"
    if faces is not None:
        stl(file, faces)
    thing = Body("thing", Place(FAR), Shape.MESH, None, Mesh(str(file), 0.1))
    found, laid = planned(with_bodies(grown(5), thing))

    assert found[code].about == ("thing",)
    assert laid == ALL


def test_a_thousand_bodies_are_gone_round_in_bounded_time() -> None:
    random = np.random.default_rng(4)
    car = grown(5)
    # A dust of small bodies round the car, none of them near the blocks with the ports.
    bodies: list[Body] = []
    while len(bodies) < 1000:
        x, y, z = (float(v) for v in random.uniform((-2.0, -2.0, -1.0), (3.0, 2.0, 2.0)))
        if not (-0.4 < x < 1.0 and -0.7 < y < 0.7 and 0.0 < z < 1.1):
            bodies.append(Body(f"n{len(bodies)}", Place((x, y, z)), Shape.BOX, (0.06, 0.05, 0.04)))
    lay(car)
    start = time.perf_counter()
    plain = lay(car)
    plain_took = time.perf_counter() - start
    start = time.perf_counter()
    laid = lay(with_bodies(car, *bodies))
    took = time.perf_counter() - start

    assert len(laid) == len(plain) == 5
    # Most of it is asking where they are; one by one along each course would take a minute.
    assert took < 5.0 + 5.0 * plain_took
