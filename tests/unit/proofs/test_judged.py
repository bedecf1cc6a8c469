# SPDX-License-Identifier: Apache-2.0
"""Laid hoses judged all together: a small car with a drain, a hot zone below it and a wall."""

from math import radians

import pytest

from linewright.base.finding import Finding, Severity
from linewright.car.model import Car
from linewright.car.read import read_text
from linewright.joints.model import Joints
from linewright.joints.termination import offer
from linewright.proofs.judged import judge
from linewright.routes.route import BandRow, Route
from linewright.routes.shapes import end_shapes
from linewright.space.free import collar, shortest
from linewright.space.path import length
from linewright.space.ports import port_frame

TEXT = """
linewright = 1
[car]
name = "Bench"
placed = "taped"
use = "road"
[systems.oil]
fluid = "10W-40"
hose = "rubber braided"
size = "-10"
[components]
TU = { kind = "turbo", system = "oil", rides = "engine", at = "0, 0, 600 mm" }
EN = { kind = "engine", rides = "engine", at = "0, 300, 200 mm" }
[ports]
"TU.oil-out" = { end = "-10 AN male", at_car = "0, 0, 600 mm", points_car = "down" }
"EN.oil-drain" = { end = "-10 AN male", at_car = "0, 300, 200 mm", points_car = "up" }
[lines]
D01 = { from = "TU.oil-out", to = "EN.oil-drain", string = "700 mm" }
[zones.pipe]
kind = "hot"
at = "0, 0, 100 mm"
size = "200 x 200 x 100 mm"
"""
RADIUS, STRAIGHT = 0.10, 0.035


@pytest.fixture(scope="module")
def car() -> Car:
    return read_text(TEXT)


@pytest.fixture(scope="module")
def joints(car: Car) -> Joints:
    return offer(car)


def _route(car: Car, angles: tuple[int, int], turns: tuple[float, float]) -> Route:
    shapes = {shape.angle: shape for shape in end_shapes("rubber", "-10")}
    frames = [port_frame(car, name) for name in ("TU.oil-out", "EN.oil-drain")]
    assert frames[0] is not None
    assert frames[1] is not None
    a = collar(frames[0], shapes[angles[0]], radians(turns[0]))
    b = collar(frames[1], shapes[angles[1]], radians(turns[1]))
    leave = [(-each.n[0], -each.n[1], -each.n[2]) for each in (a, b)]
    path = shortest(a.collar, leave[0], b.collar, leave[1], RADIUS, STRAIGHT)
    assert path is not None
    band = (BandRow(*angles, True, length(path), cost=1.0),)
    return Route("D01", a, b, path, length(path), None, 0.4, None, band)


def _by_code(findings: tuple[Finding, ...]) -> dict[str, Finding]:
    return {each.code: each for each in findings}


def test_a_drain_into_a_flat_elbow_is_told_with_its_clips_and_drips(
    car: Car, joints: Joints
) -> None:
    # Straight down from the turbo, then level into a 90 at the engine that looks at it.
    judged = judge(car, joints, [_route(car, (0, 90), (0.0, 90.0))])
    found = _by_code(judged.findings)
    (route,) = judged.routes

    assert found["drain-flat"].severity is Severity.STOP
    assert found["drain-flat"].reason.startswith("D01 drains by gravity alone. In level it falls 0")
    assert found["drips-on"].about == ("D01", "pipe")
    assert found["drips-on"].severity is Severity.STOP
    assert route.highs[0] == pytest.approx((0.0, 0.0, 0.6))
    assert len(route.lows) == 1
    assert len(route.clips) >= 1


def test_a_drain_that_falls_all_the_way_is_not_told(car: Car, joints: Joints) -> None:
    # Both ends straight, one above the other and a little aside.
    text = TEXT.replace('"0, 300, 200 mm", points_car', '"0, 60, 100 mm", points_car')
    beside = read_text(text)
    judged = judge(beside, joints, [_route(beside, (0, 0), (0.0, 0.0))])

    assert "drain-flat" not in _by_code(judged.findings)


def test_a_wall_in_the_way_that_the_line_does_not_name_is_a_stop(car: Car, joints: Joints) -> None:
    wall = '[panels.shelf]\nthickness = "1 mm"\nat = "0, 0, 500 mm"\npoints = "up"\n'
    walled = read_text(TEXT + wall)
    judged = judge(walled, joints, [_route(walled, (0, 90), (0.0, 90.0))])

    assert _by_code(judged.findings)["pass-unsealed"].about == ("D01", "shelf")


def test_the_same_car_is_judged_the_same_twice(car: Car, joints: Joints) -> None:
    route = _route(car, (0, 90), (0.0, 90.0))

    assert judge(car, joints, [route]) == judge(car, joints, [route])
