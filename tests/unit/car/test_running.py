# SPDX-License-Identifier: Apache-2.0
"""What the car does in a condition: as typed, completed, written, and every refusal in full."""

from math import pi

import pytest

from linewright.base.errors import DocumentError
from linewright.base.evidence import Grade
from linewright.car.document import document
from linewright.car.model import Condition
from linewright.car.read import read_text
from linewright.car.running import running_in, usual

HEAD = """\
linewright = 1
[car]
name = "Small"
[systems.oil]
fluid = "15W-50"
hose = "rubber braided"
size = "-10"
[components]
TANK = { kind = "dry-sump tank" }
FAN = { kind = "oil cooler" }
[conditions]
"""

CLIMB = (
    HEAD
    + """\
[conditions.climb]
engine-speed = "6800 rpm"
power = "100 %"
boost = "1.5 bar"
air = "30 °C"
altitude = "1500 m"
car-speed = "72 km/h"
voltage = "13.2 V"
start = { oil = "80 °C" }
off = ["FAN"]
lasts = "3 min"
steps = [{ at = "90 s", power = "0 %" }, { at = "100 s", power = "100 %", air = "28 °C" }]
"""
)


def test_a_condition_says_what_the_car_does() -> None:
    climb = read_text(CLIMB).conditions["climb"]
    does = climb.running

    assert climb.down == (0.0, 0.0, -1.0)
    assert {key: figure.value for key, figure in does.figures.items()} == pytest.approx(
        {
            "engine-speed": 6800 * 2 * pi / 60,
            "power": 1.0,
            "boost": 1.5e5,
            "air": 303.15,
            "altitude": 1500.0,
            "car-speed": 20.0,
            "voltage": 13.2,
        }
    )
    assert does.start["oil"].value == pytest.approx(353.15)
    assert does.off == ("FAN",)
    assert does.lasts is not None
    assert does.lasts.value == 180.0
    assert [(step.at, sorted(step.figures)) for step in does.steps] == [
        (90.0, ["power"]),
        (100.0, ["air", "power"]),
    ]


def test_what_is_read_comes_back_from_the_document_that_is_written() -> None:
    car = read_text(CLIMB)

    assert read_text(document(car)).conditions == car.conditions


def test_what_is_not_typed_comes_from_the_usual_condition_of_that_name() -> None:
    car = read_text(HEAD + 'hot-idle = { air = "40 °C" }\n')
    does = running_in(car.conditions["hot-idle"])

    assert does.figures["air"].grade is Grade.STATED
    assert does.figures["engine-speed"].grade is Grade.PRACTICE
    assert does.figures["engine-speed"].value == pytest.approx(900 * 2 * pi / 60)


def test_a_condition_of_its_own_name_is_completed_by_full_power() -> None:
    does = running_in(Condition("corner", (0.0, 0.0, -1.0)))

    assert does.figures == usual()["full-power"][0].figures


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            'x = { engine-speed = "6800" }',
            'engine-speed: "6800" has no unit; allowed: rpm, 1/min, rad/s. Write for example '
            '"6500 rpm".',
        ),
        ('x = { power = "120 %" }', 'power: "120 %" is more than 100 %, all that it gives.'),
        (
            'x = { power = "50 %", off = ["PUMP"] }',
            'off #1: there is no component "PUMP". Components: TANK, FAN.',
        ),
        (
            'x = { power = "50 %", start = { water = "80 °C" } }',
            'start.water: there is no system "water". Systems: oil.',
        ),
        (
            'x = { steps = [{ power = "5 %" }] }',
            'steps #1: "at" is missing: when it begins, as in at = "10 s".',
        ),
        (
            'x = { steps = [{ at = "9 s", power = "5 %" }, { at = "9 s", power = "7 %" }] }',
            'steps #2.at: "9 s" is not after the step before; put them in order.',
        ),
        (
            'x = { steps = [{ at = "9 s" }] }',
            "steps #1: changes nothing; say one of engine-speed, power, boost, air, altitude, "
            "car-speed, voltage.",
        ),
    ],
)
def test_each_fault_has_its_own_message(text: str, said: str) -> None:
    with pytest.raises(DocumentError) as caught:
        read_text(HEAD + text + "\n")

    assert str(caught.value) == f"car.toml, line 12: conditions.x.{said}"
