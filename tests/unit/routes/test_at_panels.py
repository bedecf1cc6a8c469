# SPDX-License-Identifier: Apache-2.0
"""Pieces of a line between panels, and hose ends that nobody sells at an angle."""

import numpy as np
import pytest

from linewright.car.read import read_text
from linewright.joints.termination import offer
from linewright.plan.make import make
from linewright.routes.spans import spans
from linewright.space.bodies import bodies
from linewright.space.path import sample

PANEL = """\
linewright = 1
[car]
name = "Two rooms"
placed = "final"
known = "read"
[systems.oil]
fluid = "15W-50"
hose = "rubber braided"
size = "-8"
[panels.wall]
thickness = "1.5 mm"
at = "1000, 0, 500 mm"
points = "rearward"
size = "300 x 300 mm"
holes = ["1000, 100, 450 mm"]
[components.TANK]
kind = "dry-sump tank"
at = "1700, 0, 500 mm"
size = "200 x 200 x 300 mm"
[components.PUMP]
kind = "dry-sump pump"
at = "200, 0, 500 mm"
size = "200 x 150 x 150 mm"
rides = "engine"
[ports]
"TANK.feed" = { end = "-8 flare male", at = "0, 0, -150 mm", points = "down" }
"PUMP.inlet" = { end = "-8 flare male", at = "100, 0, 0 mm", points = "rearward" }
[lines]
O01 = { from = "TANK.feed", to = "PUMP.inlet", passes = ["wall"] }
"""

ANGLE = """\
linewright = 1
[car]
name = "Front"
placed = "taped"
known = "read"
[systems.coolant]
fluid = "50 % glycol"
hose = "silicone"
size = "38 mm"
[components.ENG]
kind = "engine"
at = "0, 0, 500 mm"
size = "600 x 450 x 500 mm"
[components.RAD]
kind = "radiator"
at = "-700, 0, 450 mm"
size = "60 x 550 x 400 mm"
[ports]
"ENG.coolant-in" = { end = "38 mm bead", at = "-300, -100, -50 mm", points = "forward" }
"RAD.out" = { end = "38 mm bead", at = "30, -220, -150 mm", points = "rearward" }
[lines]
C02 = { from = "RAD.out", to = "ENG.coolant-in", ends = [ENDS] }
"""


def test_a_piece_stays_on_its_side_of_the_panel_also_beyond_its_edge() -> None:
    car = read_text(PANEL)
    courses = {route.id: route for route in make(car).routes.courses}

    assert set(courses) == {"O01a", "O01b"}
    for name, way in (("O01a", 1.0), ("O01b", -1.0)):
        points = sample(courses[name].path, 0.005)
        assert float(np.min(way * (points[:, 0] - 1.0))) > 0.0, name


def test_only_the_piece_that_moves_is_bent_wider_for_it() -> None:
    car = read_text(PANEL)
    found = {s.id: s.limits.bend_radius for s in spans(car, offer(car), bodies(car))}

    assert car.lines["O01"].crosses
    assert found["O01b"] == pytest.approx(1.25 * found["O01a"])


@pytest.mark.parametrize("ends", ['"straight", "120"', '"120", "90"', '"30", "straight"'])
def test_an_angle_at_which_no_end_is_sold_is_told_and_ends_no_plan(ends: str) -> None:
    plan = make(read_text(ANGLE.replace("ENDS", ends)))

    assert [f.about for f in plan.stops if f.code == "no-route"] == [("C02",)]
