# SPDX-License-Identifier: Apache-2.0
"""Bends and straight pipe to buy for charge pipes, tube with its waste."""

import pytest

from linewright.car.read import read_text
from linewright.plan.make import make

CAR = """
linewright = 1
[car]
name = "test bench"
[systems.air]
fluid = "air"
hottest = "160 °C"
highest = "1.5 bar"
[systems.fuel]
fluid = "petrol"
hose = "tube aluminium"
size = "-6"
[components.turbo]
kind = "turbo"
rides = "engine"
ports.compressor-out = { end = "51 mm bead", at_car = "300, 370, 560 mm", points = "right" }
[components.charge-cooler]
kind = "charge cooler"
ports.air-in = { end = "63 mm bead", at_car = "-500, 260, 350 mm", points = "right" }
[components.pump]
kind = "fuel pump"
ports.out = { end = "-6 flare male", at_car = "2000, -300, 200 mm", points = "forward" }
[components.filter]
kind = "fuel filter"
ports.in = { end = "-6 flare male", at_car = "1000, -300, 200 mm", points = "rearward" }
[lines]
A01 = { from = "turbo.compressor-out", to = "charge-cooler.air-in", hose = "charge pipe", size = "63 mm" }
F01 = { from = "pump.out", to = "filter.in" }
"""

PLAN = make(read_text(CAR))


def test_bends_of_a_charge_pipe_are_counted_by_outside_angle_and_radius() -> None:
    rows = [(row.code, row.need) for row in PLAN.takeoff.rows if row.code.startswith("bend-")]

    assert rows == [("bend-63-90-r94", 2)]


def test_couplers_and_clamps_stand_at_both_ends_of_a_charge_pipe() -> None:
    rows = {row.code: row.need for row in PLAN.takeoff.rows}

    assert rows["coupler-hose-63-to-hose-51-hump"] == 1
    assert rows["coupler-hose-63-to-hose-63"] == 1
    assert sum(n for code, n in rows.items() if code.startswith("t-bolt-clamp")) == 4


def test_straight_pipe_is_bought_for_what_no_leg_of_a_bend_makes() -> None:
    (pipe,) = (row for row in PLAN.takeoff.hoses if row.code == "pipe 63 mm aluminium")
    (course,) = (route for route in PLAN.routes.courses if route.id == "A01")

    # Two legs of 100 mm at each of two bends are in the bends.
    straight = course.length - 2 * 0.094 * 3.14159265 / 2
    assert pipe.need < straight - 0.100
    assert [name for name, _ in pipe.pieces] == ["A01"]


def test_tube_is_bought_with_its_waste() -> None:
    (tube,) = (row for row in PLAN.takeoff.hoses if row.code == "tube -6 aluminium")

    # A metre from port to port, 10 % and one cut allowance.
    assert tube.need == pytest.approx(1.0 * 1.1 + 0.025)
