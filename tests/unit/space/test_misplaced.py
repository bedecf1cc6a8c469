# SPDX-License-Identifier: Apache-2.0
"""What cannot be where it was typed is told, and everything else is left in peace."""

import random
from dataclasses import replace
from math import cos, dist, pi, sin
from pathlib import Path

import pytest

from linewright.base.frames import placed, rotation
from linewright.car.model import Car, Shape
from linewright.car.read import read, read_text
from linewright.space.bodies import Solid
from linewright.space.misplaced import depth, misplaced

EXAMPLES = Path(__file__).parents[3] / "examples"

HEAD = """\
linewright = 1
[car]
name = "Small"
placed = "taped"
[systems.oil]
fluid = "15W-50"
hose = "rubber braided"
size = "-10"
[components.TANK]
kind = "dry-sump tank"
at = "3, 0, 0.5 m"
size = "0.2 x 0.2 x 0.4 m"
[components.CO]
kind = "oil cooler"
at = "1, 0, 0.5 m"
size = "0.1 x 0.3 x 0.3 m"
[lines]
O01 = { from = "TANK.feed", to = "CO.in" }
"""
FEED = '[ports."TANK.feed"]\nat = "0, 0, -0.2 m"\npoints = "down"\n'
INLET = '[ports."CO.in"]\nat = "0, 0.1, 0.15 m"\npoints = "up"\n'


def told(text: str) -> list[tuple[str, tuple[str, ...], str]]:
    return [(f.code, f.about, f.reason) for f in misplaced(read_text(HEAD + text))]


def test_a_car_that_is_well_taped_is_left_in_peace() -> None:
    assert told(FEED + INLET) == []


def test_a_port_deep_in_another_body_is_told() -> None:
    body = '[bodies.rail]\nat = "1, 0.1, 0.66 m"\nsize = "100 x 100 x 100 mm"\n'

    assert told(FEED + INLET + body) == [
        ("port-in-body", ("CO.in", "rail"), "CO.in lies 40 mm deep in rail.")
    ]


def test_a_port_under_the_skin_of_its_own_component_is_told() -> None:
    port = FEED.replace("-0.2 m", "-0.1 m")

    assert told(port + INLET) == [
        (
            "port-in-body",
            ("TANK.feed", "TANK"),
            "TANK.feed lies 100 mm under the surface of TANK, and what is screwed on it would too.",
        )
    ]


def test_a_port_that_points_into_its_component_is_told() -> None:
    port = FEED.replace('"down"', '"up"')

    assert told(port + INLET) == [
        (
            "port-in-body",
            ("TANK.feed", "TANK"),
            "TANK.feed points into TANK: no hose can leave it that way.",
        )
    ]


def test_a_port_under_the_ground_is_told() -> None:
    on_ground = replace(read_text(HEAD + FEED + INLET), ground=0.2)
    car = replace(read_text(HEAD + FEED + INLET), ground=0.4)
    (finding,) = misplaced(car)

    assert misplaced(on_ground) == ()
    assert (finding.code, finding.about) == ("port-outside", ("TANK.feed",))
    assert finding.reason == "TANK.feed lies 100 mm under the ground: no line is laid there."
    assert finding.remedy == "Tape the place of the port again, or that of the ground."


def test_a_port_outside_the_skin_of_the_car_is_told() -> None:
    skin = '[panels.side]\nskin = true\nat = "0, 0.05, 0.5 m"\npoints = "right"\n'
    wide = skin + 'size = "1 x 10 m"\n'

    assert told(FEED + INLET + skin) == [
        (
            "port-outside",
            ("CO.in", "side"),
            "CO.in lies 50 mm outside side, the skin of the car: no line is laid there.",
        )
    ]
    assert told(FEED + INLET + wide) == []


def test_a_little_under_the_skin_is_the_tape_and_not_the_port() -> None:
    assert told(FEED.replace("-0.2 m", "-0.195 m") + INLET) == []


def test_a_port_that_is_only_guessed_is_not_blamed() -> None:
    port = FEED.replace("-0.2 m", "-0.1 m") + 'placed = "guess"\n'

    assert told(port + INLET) == []


def test_a_body_wholly_in_another_is_told_once() -> None:
    inner = '[bodies.pan]\nat = "2, 0, 0.5 m"\nsize = "50 dia x 80 mm"\n'
    outer = '[bodies.box]\nat = "2, 0, 0.5 m"\nsize = "100 x 100 x 100 mm"\n'

    assert told(FEED + INLET + inner + outer) == [
        ("body-in-body", ("pan", "box"), "pan lies wholly in box; lines go round box alone.")
    ]


def test_two_bodies_in_one_place_are_told_once() -> None:
    one = '[bodies.{}]\nat = "2, 0, 0.5 m"\nsize = "100 x 100 x 100 mm"\n'

    found = told(FEED + INLET + one.format("a") + one.format("b"))

    assert [about for _, about, _ in found] == [("a", "b")]


def test_bodies_that_only_touch_or_overlap_are_left_in_peace() -> None:
    one = '[bodies.{}]\nat = "{}, 0, 0.5 m"\nsize = "100 x 100 x 100 mm"\n'

    assert told(FEED + INLET + one.format("a", 2.0) + one.format("b", 2.05)) == []


def test_a_zone_round_a_body_is_no_body() -> None:
    zone = '[zones.hot]\nkind = "hot"\nof = "TANK"\n'

    assert told(FEED + INLET + zone) == []


def test_a_line_from_a_place_to_itself_is_told() -> None:
    port = '[ports."CO.in"]\nat_car = "3, 0, 0.3 m"\npoints = "up"\n'

    assert (
        "ends-coincide",
        ("O01",),
        "O01: TANK.feed and CO.in were typed at one and the same place, so there is no way "
        "between them.",
    ) in told(FEED + port)


@pytest.mark.parametrize("name", ["club-roadster", "e85-boot", "juniper"])
def test_the_examples_are_well_taped(name: str) -> None:
    assert misplaced(read(EXAMPLES / name / "car.toml")) == ()


def _surface(shape: Shape) -> list[tuple[float, float, float]]:
    """Points all over a body of 0.2 by 0.2 by 0.5 m about its middle, about 10 mm apart."""
    grid = [k / 20 for k in range(-20, 21)]
    found: list[tuple[float, float, float]] = []
    for u in grid:
        for v in grid:
            if shape is Shape.BOX:
                found += [(0.1 * u, 0.1 * v, s * 0.25) for s in (-1, 1)]
                found += [(s * 0.1, 0.1 * u, 0.25 * v) for s in (-1, 1)]
                found += [(0.1 * u, s * 0.1, 0.25 * v) for s in (-1, 1)]
                continue
            x, y = 0.1 * cos(pi * u), 0.1 * sin(pi * u)
            high = 0.25 if shape is Shape.CYLINDER else 0.15
            found.append((x, y, high * v))
            if shape is Shape.CYLINDER:
                found += [(x * abs(v), y * abs(v), s * 0.25) for s in (-1, 1)]
            else:
                flat, rise = cos(pi / 2 * abs(v)), 0.1 * sin(pi / 2 * abs(v))
                found += [(x * flat, y * flat, s * (0.15 + rise)) for s in (-1, 1)]
    return found


@pytest.mark.parametrize("shape", [Shape.BOX, Shape.CYLINDER, Shape.CAPSULE])
def test_depth_is_the_way_to_the_nearest_point_of_the_surface(shape: Shape) -> None:
    """Another way: points all over the surface, and the nearest of them."""
    draw = random.Random(7)
    turn, middle = rotation(0.4, -0.7, 1.1), (1.0, -0.5, 0.3)
    solid = Solid("s", shape, middle, turn, (0.2, 0.2, 0.5))
    surface = [placed(middle, turn, point) for point in _surface(shape)]
    inside = 0
    for _ in range(60):
        x, y, z = (draw.uniform(-1, 1) * side for side in (0.1, 0.1, 0.25))
        point = placed(middle, turn, (x, y, z))
        nearest = min(dist(point, other) for other in surface)
        found = depth(solid, point)
        inside += found > 0.0

        assert abs(found) <= nearest + 1e-9
        assert found <= 0.0 or nearest <= found + 0.008

    assert inside > 30


def test_depth_of_a_mesh_is_not_known_here() -> None:
    mesh = Solid("m", Shape.MESH, (0.0, 0.0, 0.0), rotation(0, 0, pi), None, "block.stl")

    assert depth(mesh, (0.0, 0.0, 0.0)) < 0.0
    assert misplaced(Car("x")) == ()
