# SPDX-License-Identifier: Apache-2.0
"""No hose of the demo car winds round others that could as well lie round it."""

from math import degrees

from linewright.car.read import read
from linewright.plan.make import make
from linewright.space.path import bends
from tests.expected import ROOT


def test_no_hose_of_the_demo_car_turns_more_than_once_and_a_quarter_round() -> None:
    plan = make(read(ROOT / "examples" / "juniper" / "car.toml"))
    turned = {
        route.id: degrees(sum(bend.angle for bend in bends(route.path)))
        + route.a.shape.angle
        + route.b.shape.angle
        for route in plan.routes.courses
    }

    assert len(turned) >= 51
    assert {name for name, angle in turned.items() if angle > 450} == set()
