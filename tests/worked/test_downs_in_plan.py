# SPDX-License-Identifier: Apache-2.0
"""Down is not always z: cases R2, R3 and R7, heads and short hoses, through the whole plan.

By hand: a straight that falls by an angle stops at its tangent in g; a flow through a bore has the
velocity that continuity gives; a head is the distance along down, heavier as down leans.
"""

import re
from math import pi

import pytest

from linewright.base.finding import Finding, Severity
from linewright.car.read import read_text
from linewright.plan.make import make


def _car(use: str, system: str, components: str, ports: str, lines: str) -> str:
    return f"""
linewright = 1
[car]
name = "Bench"
placed = "final"
use = "{use}"
{system}
[components]
{components}
[ports]
{ports}
[lines]
{lines}
"""


OIL = '[systems.oil]\nfluid = "10W-40"\nhose = "rubber braided"\nsize = "-10"\n'
COOLANT = '[systems.coolant]\nfluid = "50 % glycol"\nhose = "rubber braided"\nsize = "-16"\n'
FUEL = '[systems.fuel]\nfluid = "petrol"\nhose = "rubber braided"\nsize = "-8"\n'


def _found(text: str, code: str) -> tuple[Finding, ...]:
    plan = make(read_text(text))
    assert plan.routes.courses

    return tuple(f for f in plan.checked.findings if f.code == code)


def _drain(use: str) -> str:
    """A drain straight from one port to another that falls 30° forward."""
    return _car(
        use,
        OIL,
        'TU = { kind = "turbo", system = "oil", rides = "engine", at = "0, 0, 600 mm" }\n'
        'EN = { kind = "engine", rides = "engine", at = "-520, 0, 300 mm", oil-level = "100 mm" }',
        '"TU.oil-out" = { end = "-10 AN male", at_car = "0, 0, 600 mm", '
        'points_car = "forward, 30° down" }\n'
        '"EN.oil-drain" = { end = "-10 AN male", at_car = "-519.615, 0, 300 mm", '
        'points_car = "rearward, 30° up" }',
        'D01 = { from = "TU.oil-out", to = "EN.oil-drain" }',
    )


def test_r2_a_drain_that_falls_30_degrees_forward_stops_at_0_58_g() -> None:
    (found,) = _found(_drain("circuit"), "drain-flat")

    assert found.severity is Severity.WARN
    assert "On level ground its flow stops at 0.58 g of speeding up." in found.reason


def test_r2_what_a_start_asks_depends_on_the_use_of_the_car() -> None:
    asked = {use: _found(_drain(use), "drain-flat") for use in ("drag strip", "circuit", "road")}
    falls = {
        use: re.findall(r"In (\S+) it (?:falls|rises)", f[0].reason)
        for use, f in asked.items()
        if f
    }

    assert falls["drag strip"] == ["launch"]
    assert "rises" in asked["drag strip"][0].reason


def _loop(idle: int, foot: int = 500) -> str:
    return _car(
        "road",
        COOLANT,
        'WP = { kind = "water pump", system = "coolant", rides = "engine", at = "0, 0, 500 mm", '
        f'idle-flow = "{idle} L/min" }}\n'
        'RA = { kind = "radiator", system = "coolant", at = "-900, 0, 500 mm" }',
        '"WP.out" = { end = "-16 AN male", at_car = "0, 0, 500 mm", points_car = "up" }\n'
        f'"RA.in" = {{ end = "-16 AN male", at_car = "-900, 0, {foot} mm", points_car = "up" }}',
        'C01 = { from = "WP.out", to = "RA.in", ends = ["straight", "straight"] }',
    )


def test_r3_a_hump_is_found_at_8_litres_a_minute_and_swept_at_30() -> None:
    (slow,) = _found(_loop(8), "coolant-hump")

    assert slow.value == f"{8 / 60000 / (pi * 0.0222**2 / 4):.2f} m/s" == "0.34 m/s"
    assert slow.limit == "0.6 m/s"
    assert _found(_loop(30), "coolant-hump") == ()


def _vent(a: str, b: str, guide: str = "") -> str:
    """A tank's vent by way of a roll-over valve, from there to its outlet."""
    return _car(
        "circuit",
        FUEL,
        'RV = { kind = "roll-over valve", system = "fuel", at = "3000, 0, 600 mm" }\n'
        'OUT = { kind = "component", system = "fuel", at = "3000, 600, 300 mm" }',
        f'"RV.out" = {{ end = "-8 AN male", {a} }}\n"OUT.in" = {{ end = "-8 AN male", {b} }}',
        f'V01 = {{ from = "RV.out", to = "OUT.in", service = "vent"{guide} }}',
    )


def test_r7_a_vent_that_rises_crosses_and_falls_has_no_finding() -> None:
    up = 'at_car = "3000, 0, 600 mm", points_car = "up"'
    low = 'at_car = "3000, 600, 300 mm", points_car = "up"'

    assert _found(_vent(up, low), "vent-sags") == ()


def test_r7_a_sag_between_two_higher_points_is_found() -> None:
    one = 'at_car = "3000, 0, 600 mm", points_car = "down"'
    two = 'at_car = "3000, 600, 600 mm", points_car = "down"'
    (found,) = _found(_vent(one, two), "vent-sags")

    assert found.severity is Severity.STOP
    assert found.limit == "5 mm"


def _suction(tank_z: int, far: int) -> str:
    return _car(
        "circuit",
        OIL,
        'TA = { kind = "oil tank", system = "oil", at = "0, 0, 600 mm" }\n'
        'PU = { kind = "dry-sump pump", system = "oil", at = "-500, 0, 300 mm" }',
        f'"TA.feed" = {{ end = "-10 AN male", at_car = "{far}, 0, {tank_z} mm", '
        'points_car = "forward" }\n'
        '"PU.pressure-in" = { end = "-10 AN male", at_car = "-500, 0, 300 mm", '
        'points_car = "rearward" }',
        'O01 = { from = "TA.feed", to = "PU.pressure-in", service = "suction" }',
    )


def test_a_tank_far_behind_its_pump_is_a_lift_where_the_car_speeds_up() -> None:
    (found,) = _found(_suction(310, 2000), "suction-lifts")

    assert "launch" in found.reason or "nose-up" in found.reason
    assert found.limit == "100 mm"


def test_a_suction_line_in_two_pieces_is_held_as_a_whole() -> None:
    # Each piece lifts about half; nose-up lasts, and 2500 mm at 18 % are 443 mm in all.
    wall = '[panels.wall]\nthickness = "1 mm"\nat = "800, 0, 300 mm"\npoints = "forward"\n'
    text = _suction(300, 2000).replace('"suction" }', '"suction", passes = ["wall"] }') + wall
    (found,) = _found(text, "suction-lifts")
    plan = make(read_text(text))

    assert [run.id for run in plan.routes.runs] == ["O01a", "O01b"]
    assert found.about == ("O01",)
    assert found.value == "443 mm"
    assert found.reason == (
        "In nose-up the end of O01 at the pump stands 443 mm of the fluid's own head above its end "
        "at the tank, were it level: the pump has to lift that. So too in: launch."
    )


def test_a_tank_well_above_its_pump_and_near_it_is_none() -> None:
    assert _found(_suction(800, 100), "suction-lifts") == ()


def _short(gap: int, placed: str) -> str:
    return _car(
        "road",
        OIL,
        'TA = { kind = "oil tank", system = "oil", at = "0, 0, 500 mm" }\n'
        f'CO = {{ kind = "oil cooler", system = "oil", at = "{gap}, 0, 500 mm" }}',
        '"TA.out" = { end = "-10 AN male", at_car = "0, 0, 500 mm", points_car = "rearward", '
        f'placed = "{placed}" }}\n'
        f'"CO.in" = {{ end = "-10 AN male", at_car = "{gap}, 0, 500 mm", points_car = "forward", '
        f'placed = "{placed}" }}',
        'L01 = { from = "TA.out", to = "CO.in", ends = ["straight", "straight"] }',
    )


def test_a_hose_under_five_diameters_says_what_misalignment_it_takes() -> None:
    (found,) = _found(_short(225, "taped"), "hose-stiff")

    assert found.severity is Severity.WARN
    assert re.search(r"takes \d+\.\d mm sidewise or \d+°", found.reason)
    assert "a coupler or a swivel" in found.remedy


@pytest.mark.parametrize("gap", [400, 700])
def test_a_longer_hose_is_not_called_stiff(gap: int) -> None:
    assert _found(_short(gap, "taped"), "hose-stiff") == ()
