# SPDX-License-Identifier: Apache-2.0
"""Straight hard tube between two fixed ends; MIL-H-8891A, 3.11.4.5."""

from linewright.car.read import read_text
from linewright.plan.make import make

CAR = """
linewright = 1
[car]
name = "test bench"
[systems.fuel]
fluid = "petrol"
hose = "tube aluminium"
size = "-6"
[components.pump]
kind = "fuel pump"
ports.out = {{ end = "-6 flare male", at_car = "0, 0, 0 mm", points = "rearward" }}
[components.filter]
kind = "fuel filter"
ports.in = {{ end = "-6 flare male", at_car = "{at}", points = "{points}" }}
[lines]
F01 = {{ from = "pump.out", to = "filter.in" }}
"""


def told(at: str, points: str) -> list[tuple[str, str, str]]:
    plan = make(read_text(CAR.format(at=at, points=points)))
    return [(f.code, f.reason, f.remedy) for f in plan.findings if "F01" in f.about]


def test_a_straight_tube_between_two_fixed_ends_is_warned_of() -> None:
    assert told("1000, 0, 0 mm", "forward") == [
        (
            "tube-straight",
            "F01 is hard tube without a bend from pump.out to filter.in: nothing gives when it "
            "warms up or shakes, and it cannot be put on between two fixed ends.",
            "Turn or move one of its ends so that it has a bend, or have hose.",
        )
    ]


def test_a_tube_with_a_bend_is_not() -> None:
    assert told("1000, 500, 0 mm", "left") == []
