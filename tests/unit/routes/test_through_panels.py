# SPDX-License-Identifier: Apache-2.0
"""Where lines go through panels: straight ahead of a port that is near, and held by a grommet."""

import pytest

from linewright.car.read import read_text
from linewright.joints.termination import offer
from linewright.routes.lay_space import lay_all
from linewright.routes.route import Route

CAR = """\
linewright = 1
[car]
name = "Mid"
placed = "final"
[systems.coolant]
fluid = "glycol"
hose = "silicone"
size = "32 mm"
[panels.bulkhead]
thickness = "1.5 mm"
at = "-1000, 0, 400 mm"
points = "forward"
size = "1500 x 1000 mm"
[components.ENG]
kind = "engine"
at.middle = "-500, 0, 400 mm"
size = "600 x 500 x 500 mm"
[components.ENG.ports]
coolant-out = {{ end = "32 mm bead", at_car = "-820, -150, 400 mm", points = "forward" }}
[components.radiator]
kind = "radiator"
at.middle = "-2900, 0, 300 mm"
size = "80 x 600 x 400 mm"
[components.radiator.ports]
in = {{ end = "32 mm bead", at = "40, 100, 0 mm", points = "rearward" }}
[lines]
C01 = {{ from = "{a}", to = "{b}", passes = ["bulkhead"] }}
"""
ENGINE, RADIATOR = "ENG.coolant-out", "radiator.in"


def laid(a: str, b: str) -> Route:
    car = read_text(CAR.format(a=a, b=b))
    (route,) = lay_all(car, offer(car)).routes
    return route


@pytest.mark.parametrize(("a", "b"), [(ENGINE, RADIATOR), (RADIATOR, ENGINE)])
def test_a_panel_near_a_port_is_passed_straight_ahead_of_it(a: str, b: str) -> None:
    ((panel, at),) = laid(a, b).holes

    assert panel == "bulkhead"
    assert at == pytest.approx((-1.0, -0.15, 0.4), abs=0.041)


def test_a_hose_from_the_engine_goes_through_a_grommet_in_one_piece() -> None:
    # The engine moves 20 mm, far more than the room round the hose in its grommet.
    route = laid(ENGINE, RADIATOR)

    assert route.id == "C01"
    assert route.path.corners[0][0] > -1.0 > route.path.corners[-1][0]
