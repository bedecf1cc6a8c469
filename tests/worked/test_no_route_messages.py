# SPDX-License-Identifier: Apache-2.0
"""What is said of a hose that finds no course, whole: which end, what is in the way, what frees it.

The radius is that of the hose table: 140 mm for -10 to the inside of the curve; 1.2 times that in
use, 1.5 times where it sucks, 1.25 times either where it moves [common practice].
"""

import pytest

from linewright.base.finding import Finding
from linewright.car.read import read_text
from linewright.plan.make import make
from linewright.sheets.blocks import blocks

HEAD = 'linewright = 1\n[car]\nname = "Bench"\nplaced = "final"\nuse = "road"\n'
OIL = '[systems.oil]\nfluid = "10W-40"\nhose = "rubber braided"\nsize = "-10"\n'


def _box(name: str, at: str, size: str, rides: str = "chassis") -> str:
    return f'[bodies.{name}]\nat = "{at} mm"\nsize = "{size} mm"\nrides = "{rides}"\n'


def _car(a: str, b: str, more: str, line: str = "", rides: str = "chassis") -> str:
    (at, way), (to, back) = (end.rsplit(", ", 1) for end in (a, b))
    return f"""{HEAD}{OIL}
[components]
TA = {{ kind = "oil tank", at = "{at} mm" }}
CO = {{ kind = "oil cooler", at = "{to} mm", rides = "{rides}" }}
[ports]
"TA.out" = {{ end = "-10 AN male", at_car = "{at} mm", points_car = "{way}" }}
"CO.in"  = {{ end = "-10 AN male", at_car = "{to} mm", points_car = "{back}" }}
[lines]
L01 = {{ from = "TA.out", to = "CO.in"{line} }}
{more}"""


def _told(text: str) -> Finding:
    (found,) = (f for f in make(read_text(text)).checked.findings if f.code == "no-route")
    return found


FACING = ("0, 0, 500, rearward", "600, 0, 500, forward")
#: A tunnel round both ports, closed at its ends; its floor is the axle's.
TUNNEL = "".join(
    [
        _box("left", "300, -70, 500", "1000 x 40 x 600"),
        _box("right", "300, 70, 500", "1000 x 40 x 600"),
        _box("roof", "300, 0, 570", "1000 x 200 x 40"),
        _box("front", "-60, 0, 500", "60 x 400 x 600"),
        _box("rear", "660, 0, 500", "60 x 400 x 600"),
        _box("deck", "300, 0, 330", "1000 x 200 x 40"),
        _box("floor", "300, 0, 400", "160 x 200 x 100", "axle"),
    ]
)


#: A cup over the port at B: 65 mm off on all sides.
CUP = "".join(
    [
        _box("lid", "520, 0, 500", "30 x 300 x 300"),
        _box("left", "600, -75, 500", "160 x 20 x 300"),
        _box("right", "600, 75, 500", "160 x 20 x 300"),
        _box("roof", "600, 0, 575", "160 x 300 x 20"),
        _box("foot", "600, 0, 425", "160 x 300 x 20"),
        _box("back", "680, 0, 500", "30 x 300 x 300"),
    ]
)


def test_travel_that_binds_is_named_with_how_it_is_known() -> None:
    found = _told(_car(*FACING, TUNNEL))

    assert found.reason == (
        "L01: no course was found from TA.out to CO.in with any of 64 pairs of hose ends; what "
        "binds: bend radius 168 mm (published 140 mm to the inside of the curve, × 1.2); 10 mm "
        "clearance to floor after 80 mm of travel and 10 mm clearance to deck and 10 mm clearance "
        "to front; straight 46 mm after each end."
    )
    assert found.remedy == (
        "It goes where nothing moves: what binds is the travel of the axle (80 mm all ways, "
        "practice). Measure it and type it under [movement], along each axis where it is not "
        "alike, or move one of them aside."
    )


def test_travel_that_is_measured_frees_it() -> None:
    axle = '[movement]\naxle = { bump = "20 mm", droop = "90 mm" }\n'
    plan = make(read_text(_car(*FACING, TUNNEL + axle)))

    assert "no-route" not in {f.code for f in plan.checked.findings}


@pytest.mark.parametrize(
    ("line", "rides", "factors"),
    [
        ("", "chassis", "168 mm (published 140 mm to the inside of the curve, × 1.2)"),
        (
            ', service = "suction"',
            "chassis",
            "210 mm (published 140 mm to the inside of the curve, × 1.5 as it sucks)",
        ),
        (
            "",
            "engine",
            "210 mm (published 140 mm to the inside of the curve, × 1.2, × 1.25 as it moves)",
        ),
    ],
)
def test_a_bend_radius_says_its_factors(line: str, rides: str, factors: str) -> None:
    found = _told(_car(*FACING, CUP, line, rides))

    assert f"what binds: bend radius {factors}; " in found.reason


def test_an_end_that_is_boxed_in_is_named_with_what_boxes_it_in() -> None:
    found = _told(_car(*FACING, CUP))

    assert found.reason == (
        "L01: no course was found from TA.out to CO.in with any of 64 pairs of hose ends; what "
        "binds: bend radius 168 mm (published 140 mm to the inside of the curve, × 1.2); 10 mm "
        "clearance to back and 10 mm clearance to lid and 10 mm clearance to right; straight 46 mm "
        "after each end. End B at CO.in is boxed in by lid and back and right, whichever hose end "
        "stands there."
    )


def test_the_least_room_that_frees_an_end_is_told() -> None:
    assert _told(_car(*FACING, CUP)).remedy == "It goes with 40 mm more room at back."


def test_a_zone_is_named_with_its_kind() -> None:
    shut = CUP.replace("[bodies.lid]", '[zones.K]\nkind = "keep-out"')
    found = _told(_car(*FACING, shut))

    assert "the keep-out zone K" in found.reason


def test_two_lines_without_a_course_are_told_with_the_cause_of_each() -> None:
    car = read_text(_car(*FACING, TUNNEL))
    one = Finding(
        "no-route", _told(_car(*FACING, TUNNEL)).severity, ("L01",), "L01: shut.", "Move."
    )
    two = Finding("no-route", one.severity, ("L02",), "L02: a wall is in the way.", "Move.")
    (block,) = blocks(car, (one, two))

    assert block.reason == "2 lines find no course, each for its own cause."
    assert block.rows == (("L01", "shut."), ("L02", "a wall is in the way."))
    assert block.is_list
