# SPDX-License-Identifier: Apache-2.0
"""Filters; the limits are common practice, 100 µm on a suction side is a setting."""

import pytest

from tests.unit.checks.small_plans import FUEL, OIL, about, found, line, plan, thing

CELL = thing("cell", "fuel cell", {"pick-up": "-8 ORB female", "return": "-6 ORB female"})
PUMP = thing("pump", "fuel pump", {"in": "-8 ORB female", "out": "-6 ORB female"})
ENDS = {"in": "-8 ORB female", "out": "-8 ORB female"}


def _suction(micron: int) -> str:
    return (
        CELL
        + PUMP
        + thing("sieve", "fuel strainer", ENDS, f"micron = {micron}")
        + line("F01", "cell.pick-up", "sieve.in", 'size = "-8"')
        + line("F02", "sieve.out", "pump.in", 'size = "-8"')
    )


def test_a_filter_finer_than_a_pump_can_draw_through_is_warned_of() -> None:
    (finding,) = found(plan(FUEL, _suction(40)), "filter-too-fine")

    assert finding.about == ("sieve", "pump")
    assert finding.value == "40 µm"
    assert finding.limit == "100 µm"
    assert finding.measure == pytest.approx(60)
    assert finding.reason == (
        "sieve (40 µm) stands before pump: a filter finer than 100 µm starves a pump that has to "
        "draw through it."
    )


def test_a_strainer_of_the_limit_itself_is_none() -> None:
    assert found(plan(FUEL, _suction(100)), "filter-too-fine") == ()


def test_a_fine_filter_after_the_lift_pump_is_pushed_through() -> None:
    lift = thing("lift", "lift pump", {"in": "-8 ORB female", "out": "-6 ORB female"})
    text = (
        CELL
        + lift
        + PUMP
        + thing("fine", "fuel filter", ENDS, "micron = 10")
        + line("F01", "cell.pick-up", "lift.in", 'size = "-8"')
        + line("F02", "lift.out", "fine.in")
        + line("F03", "fine.out", "pump.in", 'size = "-8"')
    )
    assert found(plan(FUEL, text), "filter-too-fine") == ()


def test_a_pump_whose_fuel_meets_no_fine_filter_is_warned_of() -> None:
    assert about(plan(FUEL, _suction(100)), "no-filter") == [("pump",)]


def test_a_carburettor_is_told_of_its_jets_and_not_of_injectors() -> None:
    carb = thing("carb", "carburettor", {"in": "-6 ORB female"})
    text = _suction(100) + carb + line("F03", "pump.out", "carb.in", 'size = "-6"')
    (finding,) = found(plan(FUEL, text), "no-filter")

    assert finding.reason == (
        "Between pump and the carburettor's jets and needle there is no fine filter."
    )
    assert finding.remedy == "Fit a fuel filter after pump."


def test_a_dry_sump_without_an_oil_filter_is_warned_of() -> None:
    pump = thing("pump", "dry-sump pump", {"inlet": "-12 ORB female", "pressure": "-10 ORB female"})
    head = thing("head", "inline oil filter", {"in": "-10 ORB female", "out": "-10 ORB female"})

    assert about(plan(OIL, pump), "no-filter") == [("pump",)]
    assert found(plan(OIL, pump, head), "no-filter") == ()


def test_a_line_that_enters_at_an_outlet_runs_it_backwards() -> None:
    text = thing("a", "fuel filter", ENDS) + PUMP + line("F01", "pump.out", "a.out", 'size = "-8"')
    (finding,) = found(plan(FUEL, text), "flow-reversed")

    assert finding.about == ("a", "F01")
    assert finding.reason == (
        "F01 enters at a.out, which is marked the other way: a (fuel filter) is run through "
        "backwards."
    )


def test_a_line_that_leaves_by_an_inlet_runs_it_backwards() -> None:
    text = thing("a", "fuel filter", ENDS) + PUMP + line("F01", "a.in", "pump.in", 'size = "-8"')
    (finding,) = found(plan(FUEL, text), "flow-reversed")

    assert "F01 leaves by a.in" in finding.reason


def test_a_return_and_a_vent_are_not_backwards() -> None:
    text = (
        CELL
        + thing("regulator", "fuel regulator", {"in": "-6 ORB female", "return": "-6 ORB female"})
        + line("F01", "regulator.return", "cell.return")
    )

    assert found(plan(FUEL, text), "flow-reversed") == ()


def test_a_check_valve_that_faces_backwards_is_warned_of() -> None:
    valve = thing("valve", "check valve", None, 'size = "-6"')
    right = plan(FUEL, PUMP, valve, line("F01", "pump.out", "valve.in"))
    wrong = plan(FUEL, PUMP, valve, line("F01", "pump.out", "valve.out"))

    assert found(right, "flow-reversed") == ()
    assert about(wrong, "flow-reversed") == [("valve", "F01")]


def test_a_vent_breathes_both_ways_and_has_no_wrong_one() -> None:
    can = thing("can", "catch can", {"in": "-8 flare male"})
    tank = thing("tank", "dry-sump tank", {"vent": "-8 flare male"})
    vent = line("V01", "can.in", "tank.vent", 'size = "-8"', 'service = "vent"')

    assert found(plan(OIL, can, tank, vent), "flow-reversed") == ()
