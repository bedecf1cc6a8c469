# SPDX-License-Identifier: Apache-2.0
"""An axle's travel along the car's axes: what lines keep off, and slack.

Bump and droop are how an axle is measured in a workshop: at ride height, then on the bump stop and
hanging [common practice]; the numbers follow from the places by hand.
"""

import pytest

from linewright.car.read import read_text
from linewright.plan.make import make
from linewright.plan.model import Plan


def _plan(height: int, moves: str, rides: str = "chassis") -> Plan:
    """A hose 500 mm over the ground; the lid of a box on the axle is so high."""
    return make(
        read_text(
            f"""linewright = 1
[car]
name = "Axle"
placed = "final"
[systems.oil]
fluid = "10W-40"
hose  = "rubber braided"
size  = "-10"
[components]
TA = {{ kind = "oil tank", at = "0, 0, 500 mm" }}
CO = {{ kind = "oil cooler", at = "800, 0, 500 mm", rides = "{rides}" }}
[ports]
"TA.out" = {{ end = "-10 AN male", at_car = "0, 0, 500 mm", points_car = "rearward" }}
"CO.in"  = {{ end = "-10 AN male", at_car = "800, 0, 500 mm", points_car = "forward" }}
[lines]
L01 = {{ from = "TA.out", to = "CO.in", string = "820 mm" }}
[bodies.BOX]
at    = "400, 0, {height - 50} mm"
size  = "100 x 400 x 100 mm"
rides = "axle"
[movement]
axle = {moves}
"""
        )
    )


def _low(plan: Plan) -> float:
    (route,) = plan.routes.courses
    return min(z for _, _, z in route.path.corners)


def _high(plan: Plan) -> float:
    (route,) = plan.routes.courses
    return max(z for _, _, z in route.path.corners)


def test_a_hose_over_an_axle_clears_its_bump() -> None:
    # The lid 90 mm under the hose: 100 mm of bump take that, 30 mm do not.
    tight = _plan(410, '{ bump = "100 mm", droop = "150 mm" }')
    roomy = _plan(410, '{ bump = "30 mm", droop = "150 mm" }')

    assert _high(tight) > 0.52 or _low(tight) < 0.48
    assert _high(roomy) == pytest.approx(0.5, abs=1e-6)


def test_droop_takes_nothing_from_what_lies_over_an_axle() -> None:
    # All ways alike, 150 mm of droop would have counted upward too.
    plan = _plan(410, '"150 mm"')

    assert _high(plan) > 0.52 or _low(plan) < 0.48


def test_a_hose_to_an_axle_is_cut_with_its_travel() -> None:
    still, moved = (
        _plan(200, '{ bump = "80 mm", droop = "100 mm", y = "20 mm" }', rides=ride).routes.runs[0]
        for ride in ("chassis", "axle")
    )

    assert still.assembly is not None
    assert moved.assembly is not None
    assert moved.assembly.value - still.assembly.value == pytest.approx((0.1**2 + 0.02**2) ** 0.5)


def test_the_work_step_says_that_slack() -> None:
    plan = _plan(200, '{ bump = "80 mm", droop = "100 mm" }', rides="axle")
    (step,) = (s for s in plan.checked.steps if s.code == "slack-at-engine")

    assert step.text == (
        "L01 goes from one body to another that moves: leave 100 mm free between its last clip and "
        "the moving end."
    )
