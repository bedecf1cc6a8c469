# SPDX-License-Identifier: Apache-2.0
"""All hoses of a car: order, one beside the other, guides, panels, and what is remembered."""

from dataclasses import replace
from math import dist

import numpy as np
import pytest

from linewright.base.evidence import Figure, Grade
from linewright.base.ids import natural_key
from linewright.car.model import (
    Body,
    Car,
    Component,
    Construction,
    Guide,
    Line,
    LineEnd,
    Medium,
    Panel,
    Place,
    Port,
    Shape,
    Vector,
)
from linewright.ends.notation import read
from linewright.joints.termination import offer
from linewright.routes.lay_space import lay_all
from linewright.routes.remembered import Memo
from linewright.routes.route import Route
from linewright.space.path import Path, sample

ORB = read("-8 ORB female").end


def component(name: str, at: Vector, ports: dict[str, tuple[Vector, Vector]]) -> Component:
    """A block of 100 mm with ports: where on it, and which way they point."""
    made = {
        key: Port(f"{name}.{key}", name, key, ORB, at=spot, points=way)
        for key, (spot, way) in ports.items()
    }
    size = (0.1, 0.1, 0.1)
    return Component(name, "tank", place=Place(at), size=size, shape=Shape.BOX, ports=made)


def line(name: str, a: str, b: str, **more: object) -> Line:
    made = Line(name, a, b, None, Medium.OIL, "-8", "rubber braided", Construction.HOSE)
    return replace(made, **more)  # type: ignore[arg-type]


def car(*lines: Line, **more: object) -> Car:
    """Two blocks 1.2 m apart that look at each other with three ports each."""
    a = {f"p{k}": ((0.05, 0.03 * k, 0.0), (1.0, 0.0, 0.0)) for k in (-1, 0, 1)}
    b = {f"p{k}": ((-0.05, 0.03 * k, 0.0), (-1.0, 0.0, 0.0)) for k in (-1, 0, 1)}
    parts = (component("A", (0.0, 0.0, 0.5), a), component("B", (1.3, 0.0, 0.5), b))
    made = Car("x", components={c.id: c for c in parts}, lines={each.id: each for each in lines})
    return replace(made, **more)  # type: ignore[arg-type]


STRAIGHT = line("O01", "A.p0", "B.p0")
BESIDE = line("O02", "A.p1", "B.p-1")


def routes(asked: Car) -> dict[str, Route]:
    return {route.id: route for route in lay_all(asked, offer(asked)).routes}


def box(name: str, at: Vector, size: Vector = (0.1, 0.4, 0.4)) -> Body:
    return Body(name, Place(at), Shape.BOX, size)


def points(route: Route) -> np.ndarray:
    return sample(route.path, 0.004)


def least(one: Route, two: Route) -> float:
    a, b = points(one), points(two)
    return float(np.linalg.norm(a[:, None] - b[None], axis=2).min())


def test_two_ports_that_face_each_other_are_joined_straight() -> None:
    (route,) = routes(car(STRAIGHT)).values()

    assert (route.a.shape.angle, route.b.shape.angle) == (0, 0)
    assert route.path.radii == ()
    assert route.clock_deg is None


def test_a_line_without_coordinates_is_left_to_its_string() -> None:
    asked = car(STRAIGHT)
    blind = replace(asked.components["B"], place=None)
    asked = replace(asked, components={**asked.components, "B": blind})
    laid = lay_all(asked, offer(asked))

    assert (laid.routes, laid.findings) == ((), ())


def test_hoses_keep_off_one_another() -> None:
    laid = routes(car(STRAIGHT, BESIDE))

    assert set(laid) == {"O01", "O02"}
    assert least(laid["O01"], laid["O02"]) >= 0.0199 + 0.010 - 0.001


def test_a_hose_goes_round_a_body() -> None:
    (route,) = routes(car(STRAIGHT, bodies={"post": box("post", (0.65, 0.0, 0.5))})).values()

    assert route.clearance is not None
    assert route.clearance.from_what == "post"
    assert route.clearance.gap >= 0.010


def test_a_hose_follows_its_guide_and_the_next_lies_beside_it() -> None:
    guide = Guide("sill", ((0.1, 0.0, 0.1), (1.2, 0.0, 0.1)))
    lines = (replace(STRAIGHT, follows=("sill",)), replace(BESIDE, follows=("sill",)))
    laid = routes(car(*lines, guides={"sill": guide}))
    middle = np.array([0.65, 0.0, 0.1])
    off = {name: np.linalg.norm(points(r) - middle, axis=1).min() for name, r in laid.items()}

    assert off["O01"] < 0.003
    assert off["O02"] < 0.10
    assert least(laid["O01"], laid["O02"]) >= 0.0199 + 0.010 - 0.001
    assert laid["O01"].follows == ("sill",)


def test_a_line_through_a_panel_is_two_hoses_that_meet_it_square() -> None:
    wall = Panel("wall", Figure(0.0015, "m", Grade.STATED), at=(0.65, 0.0, 0.5), points=(1, 0, 0))
    laid = routes(car(replace(STRAIGHT, passes=("wall",)), panels={"wall": wall}))

    assert list(laid) == ["O01a", "O01b"]
    (hole,) = {at for route in laid.values() for _, at in route.holes}
    assert hole == pytest.approx((0.65, 0.0, 0.5))
    assert laid["O01a"].path.corners[-1][0] < 0.65 < laid["O01b"].path.corners[0][0]


def test_a_hose_that_may_not_pass_a_wall_is_told_so() -> None:
    wall = Panel("wall", Figure(0.0015, "m", Grade.STATED), at=(0.65, 0.0, 0.5), points=(1, 0, 0))
    asked = car(STRAIGHT, panels={"wall": wall})
    laid = lay_all(asked, offer(asked))
    (finding,) = laid.findings

    assert laid.routes == ()
    assert (finding.code, finding.about) == ("no-route", ("O01",))
    assert "10 mm clearance to wall" in finding.reason


def test_typed_ends_that_cannot_be_name_ends_that_can() -> None:
    ends = (LineEnd(angle=180), LineEnd(angle=180))
    post = box("post", (0.65, 0.0, 0.5), (0.9, 0.5, 0.9))
    asked = car(replace(STRAIGHT, ends=ends), bodies={"post": post})
    (finding,) = lay_all(asked, offer(asked)).findings

    assert finding.code == "no-route"
    assert finding.remedy.startswith("Other ends do: ")


def test_the_memo_changes_nothing_and_spares_what_was_not_touched() -> None:
    far, near = box("far", (0.65, 3.0, 0.5)), box("near", (0.65, 0.4, 0.5), (0.1, 0.1, 0.1))
    asked = car(STRAIGHT, BESIDE, bodies={"far": far, "near": near})
    memo: Memo = {}
    cold = lay_all(asked, offer(asked), memo)
    warm = lay_all(asked, offer(asked), memo)
    moved = replace(asked, bodies={"far": box("far", (0.65, 3.1, 0.5)), "near": near})
    spared = lay_all(moved, offer(moved), memo)
    met = replace(asked, bodies={"far": far, "near": box("near", (0.65, 0.0, 0.5))})
    again = lay_all(met, offer(met), memo)

    assert sorted(cold.searched, key=natural_key) == ["O01", "O02"]
    assert (warm.searched, warm.routes) == ((), cold.routes)
    assert (spared.searched, spared.routes) == ((), cold.routes)
    assert again.searched
    assert again.routes == lay_all(met, offer(met)).routes


def test_the_same_car_is_laid_the_same_twice() -> None:
    asked = car(STRAIGHT, BESIDE, bodies={"post": box("post", (0.65, 0.0, 0.5))})

    assert lay_all(asked, offer(asked)) == lay_all(asked, offer(asked))


def test_a_drain_is_laid_before_all_others() -> None:
    drain = line("O09", "A.p-1", "B.p1", service="drain")
    asked = car(STRAIGHT, drain)

    assert lay_all(asked, offer(asked)).order[0] == "O09"


def test_ends_of_a_route_are_its_collars() -> None:
    (route,) = routes(car(STRAIGHT)).values()
    path: Path = route.path

    assert dist(path.corners[0], route.a.collar) == 0.0
    assert dist(path.corners[-1], route.b.collar) == 0.0
