# SPDX-License-Identifier: Apache-2.0
"""Hard tube through a panel: bent first, its hole drilled where it comes, in a grommet."""

import pytest

from linewright.car.read import read_text
from linewright.plan.make import make
from linewright.plan.model import Plan


def _plan(line: str = "", holes: str = "") -> Plan:
    return make(
        read_text(
            f"""linewright = 1
[car]
name = "Bench"
placed = "final"
[systems.fuel]
fluid = "petrol"
hose  = "hard tube"
size  = "-6"
[components]
REG = {{ kind = "fuel regulator", system = "fuel", at = "0, 0, 500 mm" }}
FIL = {{ kind = "fuel filter", system = "fuel", at = "600, 30, 500 mm" }}
[ports]
"REG.out" = {{ end = "-6 AN male", at_car = "0, 0, 500 mm", points_car = "rearward" }}
"FIL.in"  = {{ end = "-6 AN male", at_car = "600, 30, 500 mm", points_car = "forward" }}
[lines]
F01 = {{ from = "REG.out", to = "FIL.in"{line} }}
[panels.wall]
thickness = "1 mm"
at = "250, 0, 500 mm"
points = "rearward"
{holes}
"""
        )
    )


def test_a_tube_that_passes_a_panel_says_where_its_hole_is_drilled() -> None:
    plan = _plan(', passes = ["wall"]')
    (route,) = plan.routes.courses
    codes = {finding.code for finding in plan.checked.findings}

    assert route.holes == (("wall", pytest.approx((0.25, 0.0, 0.5))),)
    assert not codes & {"no-route", "hole-missing", "pass-unsealed"}
    assert any(row.code.startswith("grommet") for row in plan.takeoff.rows)
    assert any(hole.where.startswith("wall") for hole in plan.takeoff.holes)


def test_the_hand_is_told_of_the_grommet() -> None:
    (step,) = (s for s in _plan(', passes = ["wall"]').checked.steps if s.code == "grommet")

    assert step.text == (
        "F01: one tube through wall, in a grommet; the edge of the hole may not touch it."
    )


def test_a_tube_that_may_not_pass_it_is_told_to() -> None:
    (found,) = (f for f in _plan().checked.findings if f.code == "no-route")

    assert found.remedy.startswith('wall is in the way: say `passes = ["wall"]` at the line')


def test_a_hole_that_is_out_of_the_way_is_told_as_that() -> None:
    far = 'holes = [{ at = "250, 900, 900 mm", bore = "12 mm", for = "F01" }]'
    (found,) = (
        f for f in _plan(', passes = ["wall"]', far).checked.findings if f.code == "no-route"
    )

    assert found.remedy == "Its hole in wall is out of its way or too narrow: move it, or widen it."
