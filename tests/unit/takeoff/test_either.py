# SPDX-License-Identifier: Apache-2.0
"""A port that reads two ways: what to order so that neither answer holds up the line."""

from linewright.car.read import read_text
from linewright.joints import termination
from linewright.joints.model import Joints
from linewright.routes.lengths import lay
from linewright.takeoff.count import count
from linewright.takeoff.model import Takeoff

DOCUMENT = """
linewright = 1
[car]
name = "test"
[systems.oil]
fluid = "10W-40"
hose = "rubber braided"
size = "-6"
[components]
A = { kind = "component", system = "oil" }
B = { kind = "component", system = "oil" }
[ports]
"A.out" = { end = "PORT", role = "out", known = "read" }
"B.in" = { end = "-6 flare male", role = "in", known = "read" }
[lines]
O01 = { from = "A.out", to = "B.in", string = "500 mm", ends = ["straight", "straight"] }
"""


def _take(port: str) -> tuple[Joints, Takeoff]:
    car = read_text(DOCUMENT.replace("PORT", port))
    joints = termination.offer(car)
    return joints, count(car, joints, lay(car, joints))


def test_both_readings_of_a_quarter_inch_port_are_two_adaptors_and_one_washer() -> None:
    # Case J06: parallel or taper, order-both.
    takeoff = _take("1/4 BSP female")[1]
    (either,) = takeoff.either
    adaptors = [row for row in either.rows if row.group == "adaptors"]
    seals = [row for row in either.rows if row.group == "seals"]

    assert either.port == "A.out"
    assert {word.split()[0] for word in either.readings} == {"bspp", "bspt"}
    assert [row.order for row in adaptors] == [1, 1]
    assert [(row.order, row.name.startswith("washer for G 1/4")) for row in seals] == [(1, True)]
    assert either.price_index > 0


def test_readings_are_told_in_words_and_those_that_nothing_fits_are_named_too() -> None:
    (either,) = _take("M18x1.5 female")[1].either

    assert either.told == ("M18x1.5 flat face female", "M18x1.5 ISO 6149 female")
    assert either.without == ("other: M18x1.5 with cone female",)


def test_what_all_readings_share_is_on_the_list_and_not_doubled() -> None:
    takeoff = _take("1/4 BSP female")[1]
    ends = [row for row in takeoff.rows if row.group == "hose ends"]
    (either,) = takeoff.either

    assert sum(row.need for row in ends) == 2
    assert not any(row.group == "hose ends" for row in either.rows)
    assert not [row for row in takeoff.rows if row.group == "adaptors"]


def test_a_port_that_is_read_needs_no_second_order() -> None:
    assert _take("G 1/4 female")[1].either == ()


def test_a_port_that_nobody_measured_has_no_readings_to_cover() -> None:
    assert _take("?")[1].either == ()
