# SPDX-License-Identifier: Apache-2.0
"""Hard tube between what moves and what does not."""

from linewright.base.finding import Severity
from linewright.car.read import read_text
from linewright.checks.flex import check

TEXT = """
linewright = 1
[car]
name = "Bench"
[systems.fuel]
fluid = "petrol"
hose  = "hard tube"
size  = "-6"
[components]
REG  = { kind = "fuel regulator", system = "fuel" }
RAIL = { kind = "fuel rail", system = "fuel", rides = "engine" }
[ports]
"REG.out" = { end = "-6 AN male" }
"RAIL.in" = { end = "-6 AN male" }
[lines]
F01 = { from = "REG.out", to = "RAIL.in", string = "700 mm" }
"""


def test_a_hard_tube_from_the_chassis_to_the_engine_is_a_stop() -> None:
    (finding,) = check(read_text(TEXT))

    assert finding.code == "no-flex"
    assert finding.severity is Severity.STOP
    assert finding.source == "us-army-al0907"
    assert finding.reason == (
        "F01 is hard tube from REG (rides on the chassis) to RAIL (rides on the engine), which "
        "move against each other: it cracks, or breaks off what it is screwed to."
    )
    assert finding.remedy == (
        "Have hose, or a piece of hose in it, with 38 mm of slack from its last support to what "
        "moves."
    )


def test_a_hard_tube_on_one_body_and_a_hose_across_are_right() -> None:
    assert not list(check(read_text(TEXT.replace('rides = "engine"', 'rides = "chassis"'))))
    assert not list(check(read_text(TEXT.replace("hard tube", "rubber braided"))))
