# SPDX-License-Identifier: Apache-2.0
"""Mistakes of the trade that show in space, each planted in a small car with coordinates.

The rows are those of a list of forty common mistakes [common practice, with the manuals that its
rules cite]; the numbers are those of that list. Each goes through the whole plan; beside each
stands the same car done right, in which the finding is not.
"""

from dataclasses import dataclass

import pytest

from linewright.base.finding import Severity
from linewright.car.read import read_text
from linewright.plan.make import make
from linewright.space.clock import said

STOP, WARN, ASK = Severity.STOP, Severity.WARN, Severity.ASK
HEAD = 'linewright = 1\n[car]\nname = "Bench"\nplaced = "final"\nuse = "road"\n'


def _oil(a: str, b: str, line: str = "", more: str = "") -> str:
    """One -10 oil hose from a tank to a cooler: where each is and the way it points."""
    one, two = (end.rsplit(", ", 1) for end in (a, b))
    return f"""{HEAD}
[systems.oil]
fluid = "10W-40"
hose  = "rubber braided"
size  = "-10"
[components]
TA = {{ kind = "oil tank", system = "oil", at = "{one[0]} mm" }}
CO = {{ kind = "oil cooler", system = "oil", at = "{two[0]} mm" }}
[ports]
"TA.out" = {{ end = "-10 AN male", at_car = "{one[0]} mm", points_car = "{one[1]}" }}
"CO.in"  = {{ end = "-10 AN male", at_car = "{two[0]} mm", points_car = "{two[1]}" }}
[lines]
L01 = {{ from = "TA.out", to = "CO.in"{line} }}
{more}"""


def _drain(foot: str, level: int) -> str:
    """A turbo's drain, down from 600 mm over the ground."""
    at, way = foot.rsplit(", ", 1)
    return f"""{HEAD}
[systems.oil]
fluid = "10W-40"
hose  = "rubber braided"
size  = "-10"
[components]
TU = {{ kind = "turbo", system = "oil", rides = "engine", at = "0, 0, 600 mm" }}
EN = {{ kind = "engine", rides = "engine", at = "0, 300, 200 mm", oil-level = "{level} mm" }}
[ports]
"TU.oil-out"   = {{ end = "-10 AN male", at_car = "0, 0, 600 mm", points_car = "down" }}
"EN.oil-drain" = {{ end = "-10 AN male", at_car = "{at} mm", points_car = "{way}" }}
[lines]
D01 = {{ from = "TU.oil-out", to = "EN.oil-drain" }}
"""


def _coolant(ways: tuple[str, str], foot: int, idle: int) -> str:
    """A -12 hose from a water pump to a radiator before it."""
    return f"""{HEAD}
[systems.coolant]
fluid = "50 % glycol"
hose  = "rubber braided"
size  = "-12"
[components.WP]
kind      = "water pump"
system    = "coolant"
rides     = "engine"
at        = "0, 0, 500 mm"
idle-flow = "{idle} L/min"
[components.RA]
kind   = "radiator"
system = "coolant"
at     = "-600, 0, 500 mm"
[ports]
"WP.out" = {{ end = "-12 AN male", at_car = "0, 0, 500 mm", points_car = "{ways[0]}" }}
"RA.in"  = {{ end = "-12 AN male", at_car = "-600, 0, {foot} mm", points_car = "{ways[1]}" }}
[lines]
C01 = {{ from = "WP.out", to = "RA.in", ends = ["straight", "straight"] }}
"""


def _radiator(z: int, bleed: str = "") -> str:
    """A radiator 400 mm high, 300 to 700 mm over the datum, with its hoses at 350 and at z mm."""
    return f"""{HEAD}
[systems.coolant]
fluid = "50 % glycol"
hose  = "EPDM"
size  = "38 mm"
[components]
RA = {{ kind = "radiator", at = "0, 0, 500 mm", size = "50 x 600 x 400 mm" }}
WP = {{ kind = "water pump", system = "coolant", rides = "engine", at = "900, 0, 500 mm" }}
[ports]
"RA.in"  = {{ end = "38 mm bead", at_car = "40, 200, {z} mm", points_car = "rearward" }}
"RA.out" = {{ end = "38 mm bead", at_car = "40, -200, 350 mm", points_car = "rearward" }}
"WP.in"  = {{ end = "38 mm bead", at_car = "900, -200, 350 mm", points_car = "forward" }}
"WP.out" = {{ end = "38 mm bead", at_car = "900, 200, {z} mm", points_car = "forward" }}
{bleed}
[lines]
C01 = {{ from = "WP.out", to = "RA.in" }}
C02 = {{ from = "RA.out", to = "WP.in" }}
"""


def _mocked(length: int, aside: int = 200) -> str:
    """A hose that goes so far aside in 800 mm, mocked up so long."""
    ends = f', ends = ["straight", "straight"], mocked-up = "{length} mm"'
    return _oil("0, 0, 500, rearward", f"800, {aside}, 500, forward", ends)


def _clipped(rides: str, far: int) -> str:
    """A hose whose last straight is all that is left beside a bend at its end."""
    one = "0, 0, 500, rearward"
    text = _oil(one, f"{far}, 0, 500, forward", ', ends = ["straight", "straight"]')
    return text.replace('kind = "oil cooler",', f'kind = "oil cooler", rides = "{rides}",')


def _bleed(tank: str, cap: int = 800) -> str:
    """A -4 bleed from the top of an engine, at 500 mm, to its header tank."""
    at, way = tank.rsplit(", ", 1)
    return f"""{HEAD}
[systems.coolant]
fluid = "50 % glycol"
hose  = "rubber braided"
size  = "-4"
[components]
EN = {{ kind = "engine", rides = "engine", at = "0, 0, 500 mm" }}
HE = {{ kind = "header tank", system = "coolant", at = "600, 0, 700 mm" }}
[ports]
"EN.bleed" = {{ end = "-4 AN male", at_car = "0, 0, 500 mm", points_car = "up", role = "vent", \
medium = "coolant" }}
"HE.bleed" = {{ end = "-4 AN male", at_car = "{at} mm", points_car = "{way}", role = "in" }}
"HE.cap"   = {{ end = "50 mm bead", at_car = "600, 0, {cap} mm", role = "fill" }}
[lines]
V01 = {{ from = "EN.bleed", to = "HE.bleed", service = "bleed" }}
"""


def _fuel(hose: str) -> str:
    """A fuel line from the chassis to the engine."""
    return f"""{HEAD}
[systems.fuel]
fluid = "petrol"
hose  = "{hose}"
size  = "-6"
[components]
REG  = {{ kind = "fuel regulator", system = "fuel", at = "0, 0, 500 mm" }}
RAIL = {{ kind = "fuel rail", system = "fuel", rides = "engine", at = "500, 0, 500 mm" }}
[ports]
"REG.out" = {{ end = "-6 AN male", at_car = "0, 0, 500 mm", points_car = "rearward" }}
"RAIL.in" = {{ end = "-6 AN male", at_car = "600, 30, 500 mm", points_car = "forward" }}
[lines]
F01 = {{ from = "REG.out", to = "RAIL.in" }}
"""


#: A closed box round two ports that look at each other, 190 mm apart.
CAGE = "".join(
    f'[bodies.{name}]\nat = "{at} mm"\nsize = "{size} mm"\n'
    for name, at, size in (
        ("left", "95, -60, 500", "400 x 60 x 400"),
        ("right", "95, 120, 500", "400 x 60 x 400"),
        ("over", "95, 30, 600", "400 x 300 x 60"),
        ("under", "95, 30, 400", "400 x 300 x 60"),
        ("before", "-60, 30, 500", "60 x 300 x 400"),
        ("behind", "250, 30, 500", "60 x 300 x 400"),
    )
)
WALL = '[panels.wall]\nthickness = "{} mm"\nat = "500, 0, 500 mm"\npoints = "rearward"\n'
WELL = "".join(
    f'[bodies.{name}]\nat = "{at} mm"\nsize = "{size} mm"\n'
    for name, at, size in (
        ("under", "60, 0, 470", "200 x 300 x 25"),
        ("over", "60, 0, 530", "200 x 300 x 25"),
        ("left", "60, -40, 500", "200 x 30 x 60"),
        ("right", "60, 40, 500", "200 x 30 x 60"),
    )
)


def _zone(kind: str, at: str, more: str = "") -> str:
    return f'[zones.Z]\nkind = "{kind}"\nat = "{at} mm"\nsize = "200 x 60 x 300 mm"\n{more}'


HOT = 'surface = "500 °C"\n'
FAR = ("0, 0, 500, rearward", "800, 0, 500, forward")
TURNED = ("0, 0, 500, up", "500, 250, 450, right")
LONG = ("0, 0, 500, rearward", "1000, 60, 500, forward")


@dataclass(frozen=True)
class Row:
    """One mistake: its car, what has to be found with which numbers, and the car done right."""

    number: int
    planted: str
    code: str
    severity: Severity
    about: tuple[str, ...]
    value: str | None
    limit: str | None
    way_out: str
    right: str


ROWS = (
    Row(
        10,
        _drain("500, 0, 560, forward", 150),
        "drain-flat",
        STOP,
        ("D01",),
        "-10.2°",
        "15°",
        "scavenge pump",
        _drain("0, 12, 100, up", 50),
    ),
    Row(
        11,
        _drain("0, 12, 100, up", 250),
        "drain-rises",
        STOP,
        ("D01",),
        "100 mm",
        "250 mm",
        "above the running level, away from where the crank throws oil",
        _drain("0, 12, 100, up", 50),
    ),
    Row(
        11,
        _drain("0, 12, 100, up", 50),
        "drain-in-spray",
        ASK,
        ("D01", "EN"),
        None,
        None,
        "`windage-clear = true`",
        _drain("0, 12, 100, up", 50).replace("oil-level", "windage-clear = true, oil-level"),
    ),
    Row(
        13,
        _oil("0, 0, 500, rearward", "250, 120, 500, forward", ', string = "290 mm"'),
        "bend-tight",
        STOP,
        ("L01",),
        "290 mm",
        "999 mm",
        "more length and room",
        _oil("0, 0, 500, rearward", "600, 60, 500, forward", ', string = "610 mm"'),
    ),
    Row(
        13,
        _oil("0, 0, 500, rearward", "190, 60, 500, forward", more=CAGE),
        "no-route",
        STOP,
        ("L01",),
        "none of those tried",
        "one course",
        "",
        _oil("0, 0, 500, rearward", "600, 60, 500, forward"),
    ),
    Row(
        15,
        _oil("0, 0, 600, down", "0, 60, 250, up", ', ends = ["90", "90"]'),
        "clip-plane",
        WARN,
        ("L01",),
        "0 mm",
        "16 mm",
        "Turn an elbow",
        _oil("0, 0, 600, down", "0, 0, 250, up"),
    ),
    Row(
        16,
        _oil(*FAR, ', string = "700 mm"'),
        "string-too-short",
        STOP,
        ("L01",),
        "700 mm",
        "800 mm",
        "Lay the string again",
        _oil(*FAR, ', string = "810 mm"'),
    ),
    Row(
        16,
        _oil(*FAR, ', string = "1100 mm"'),
        "length-differs",
        ASK,
        ("L01",),
        "300 mm",
        "90 mm",
        "Lay the string again",
        _oil(*FAR, ', string = "810 mm"'),
    ),
    Row(
        16,
        _mocked(826),
        "hose-slack",
        WARN,
        ("L01",),
        "4.8%",
        "5%",
        "Mock it up again",
        _mocked(850),
    ),
    Row(
        16,
        _mocked(895, 400),
        "hose-slack",
        STOP,
        ("L01",),
        "1.1%",
        "2%",
        "Mock it up again",
        _mocked(938, 400),
    ),
    Row(
        16,
        _mocked(900),
        "hose-slack",
        Severity.NOTE,
        ("L01",),
        "14.2%",
        "10%",
        "let the course decide",
        _mocked(850),
    ),
    Row(
        19,
        _oil(*TURNED, ', ends = ["90", "90"], crimped = true'),
        "clock-crimped",
        STOP,
        ("L01",),
        "80°",
        None,
        "Hold both ends in place on the car",
        _oil(*TURNED, ', ends = ["90", "90"]'),
    ),
    Row(
        24,
        _radiator(500),
        "coolant-top",
        WARN,
        ("RA",),
        "200 mm",
        "30 mm",
        "Bleed it at its top",
        _radiator(680),
    ),
    Row(
        24,
        _coolant(("up", "up"), 500, 6),
        "coolant-hump",
        WARN,
        ("C01",),
        "0.50 m/s",
        "0.6 m/s",
        "fit a bleed at its highest point",
        _coolant(("forward", "rearward"), 600, 6),
    ),
    Row(
        25,
        _bleed("600, 0, 400, up"),
        "bleed-dips",
        STOP,
        ("V01",),
        "122 mm",
        "5 mm",
        "lift the tank",
        _bleed("0, 300, 760, down"),
    ),
    Row(
        27,
        _bleed("0, 300, 760, down", cap=450),
        "cap-not-highest",
        WARN,
        ("HE.cap", "EN.bleed"),
        "500 mm",
        "450 mm",
        "a bleed of its own and a fill procedure",
        _bleed("0, 300, 760, down"),
    ),
    Row(
        37,
        _fuel("hard tube"),
        "no-flex",
        STOP,
        ("F01",),
        "0 mm",
        "38 mm",
        "Have hose",
        _fuel("rubber braided"),
    ),
    Row(
        38,
        _oil(*FAR, more=_zone("hot", "800, 120, 500", HOT)),
        "near-hot",
        WARN,
        ("L01", "Z"),
        "79 mm",
        "100 mm",
        "put a shield between",
        _oil(*FAR, more=_zone("hot", "800, 300, 500", HOT)),
    ),
    Row(
        38,
        _oil(*FAR, more=_zone("hot", "0, 0, 100", HOT)),
        "drips-on",
        STOP,
        ("L01", "Z"),
        "250 mm",
        None,
        "Move the joint aside",
        _oil(*FAR, more=_zone("hot", "0, 200, 100", HOT)),
    ),
    Row(
        38,
        _oil(*FAR, more=_zone("driver", "800, 0, 500")),
        "driver-joint",
        WARN,
        ("L01", "Z"),
        None,
        None,
        "bulkhead",
        _oil(*FAR, more=_zone("driver", "800, 200, 500")),
    ),
    Row(
        39,
        _oil(*LONG, more=WALL.format(1)),
        "no-route",
        STOP,
        ("L01",),
        "none of those tried",
        "one course",
        'say `passes = ["wall"]` at the line for a bulkhead fitting there',
        _oil(*LONG, ', passes = ["wall"]', WALL.format(1)),
    ),
    Row(
        39,
        _oil(*LONG, ', passes = ["wall"]', WALL.format(30)),
        "grip-exceeded",
        STOP,
        ("L01", "wall"),
        "30 mm",
        "19 mm",
        "Thin the place down",
        _oil(*LONG, ', passes = ["wall"]', WALL.format(1)),
    ),
    Row(
        39,
        _oil(*FAR, more=WELL),
        "spanner-room",
        WARN,
        ("L01", "TA.out"),
        "0°",
        "30°",
        "longer adaptor",
        _oil(*FAR),
    ),
)


@pytest.mark.parametrize("row", ROWS, ids=[f"{row.number}-{row.code}" for row in ROWS])
def test_a_planted_mistake_is_found_with_its_numbers_and_a_way_out(row: Row) -> None:
    findings = make(read_text(row.planted)).checked.findings
    (found,) = (f for f in findings if f.code == row.code and f.about == row.about)

    assert found.severity is row.severity
    assert (found.value, found.limit) == (row.value, row.limit)
    assert row.way_out in found.remedy


@pytest.mark.parametrize("row", ROWS, ids=[f"{row.number}-{row.code}" for row in ROWS])
def test_the_same_car_done_right_has_none(row: Row) -> None:
    plan = make(read_text(row.right))

    assert row.code not in {f.code for f in plan.checked.findings}
    assert row.number == 37 or plan.routes.courses


def test_mistake_13_names_the_radius_that_binds_and_14_the_straight() -> None:
    (row,) = (row for row in ROWS if (row.number, row.code) == (13, "no-route"))
    (found,) = (f for f in make(read_text(row.planted)).checked.findings if f.code == "no-route")

    assert "bend radius 168 mm" in found.reason
    assert "straight 46 mm after each end" in found.reason


def test_mistake_14_no_bend_starts_nearer_to_a_collar_than_twice_the_diameter() -> None:
    # -10 hose of 22.9 mm: 2 x OD [FAA-H-8083-30]; the straight is kept at both ends.
    (route,) = make(read_text(_oil("0, 0, 500, up", "400, 0, 500, up"))).routes.courses
    trims = [
        sum((a - b) ** 2 for a, b in zip(p, q, strict=True)) ** 0.5
        for p, q in (route.path.corners[:2], route.path.corners[-2:])
    ]

    assert min(trims) >= 0.0458 - 1e-6


@pytest.mark.parametrize(("rides", "least"), [("chassis", 0.055), ("engine", 0.076)])
def test_mistake_37_no_clip_is_nearer_to_what_moves_than_three_inches(
    rides: str, least: float
) -> None:
    # 110 mm of hose want their clip in the middle; from an engine 76 mm are kept [US Army
    # AL0907, p.59, as relayed].
    (route,) = make(read_text(_clipped(rides, 230))).routes.courses
    (clip,) = route.clips
    end = route.path.corners[-1]
    far = sum((a - b) ** 2 for a, b in zip(clip, end, strict=True)) ** 0.5

    assert far == pytest.approx(least, abs=5e-4)


def test_mistake_19_the_clock_angle_names_its_mirror_as_the_wrong_one() -> None:
    text = _oil("0, 0, 500, up", "500, 250, 450, right", ', ends = ["90", "90"]')
    (route,) = make(read_text(text)).routes.courses

    assert route.clock_deg is not None
    shown = round(route.clock_deg)
    assert said(route.clock_deg) == (
        f"{shown}°: near elbow at six o'clock, counter-clockwise, seen from end A "
        f"({360 - shown}° is its mirror: wrong)"
    )


def test_mistake_19_a_hose_with_a_straight_end_has_no_clock_angle() -> None:
    (route,) = make(read_text(_oil(*FAR))).routes.courses

    assert route.clock_deg is None
