# SPDX-License-Identifier: Apache-2.0
"""Fuel as a graph: what the trade knows, common practice without a source."""

from tests.unit.checks.small_plans import FUEL, about, found, line, plan, thing

CELL = thing(
    "cell",
    "fuel cell",
    {"pick-up": "-8 ORB female", "return": "-6 ORB female", "drain": "-6 ORB female"},
)
ENDS = {"in": "-8 ORB female", "out": "-6 ORB female"}
Y = thing(
    "y", "Y block", {"in": "-6 flare male", "out-1": "-6 flare male", "out-2": "-6 flare male"}
)
RAIL = thing("rail", "fuel rail", {"in": "-6 ORB female", "out": "-6 ORB female"})
REGULATOR = thing(
    "reg",
    "fuel regulator",
    {"in": "-6 ORB female", "return": "-6 ORB female", "reference": "5 mm barb"},
)


def _two_pumps(first: str, second: str) -> str:
    return (
        thing("p1", "fuel pump", ENDS)
        + thing("p2", "fuel pump", ENDS)
        + Y
        + RAIL
        + line("F01", "p1.out", "y.out-1", f"ends = [{first}, 'straight']")
        + line("F02", "p2.out", "y.out-2", f"ends = [{second}, 'straight']")
        + line("F03", "y.in", "rail.in")
    )


VALVE = "{ angle = 'straight', fit = ['check valve'] }"


def test_parallel_pumps_of_which_one_has_no_check_valve_are_warned_of() -> None:
    (finding,) = found(plan(FUEL, _two_pumps(VALVE, "'straight'")), "no-check-valves-parallel")

    assert finding.about == ("p1", "p2")
    assert finding.reason == (
        "p1 and p2 deliver into one line, and p2 can be pushed backwards while the other runs."
    )


def test_parallel_pumps_with_a_check_valve_each_are_quiet() -> None:
    assert found(plan(FUEL, _two_pumps(VALVE, VALVE)), "no-check-valves-parallel") == ()


def test_a_lift_pump_and_a_main_pump_in_a_row_are_not_parallel() -> None:
    text = (
        thing("lift", "lift pump", ENDS)
        + thing("main", "fuel pump", ENDS)
        + thing("pot", "surge pot", {"lift-in": "-6 ORB female", "out": "-8 ORB female"})
        + line("F01", "lift.out", "pot.lift-in")
        + line("F02", "pot.out", "main.in", 'size = "-8"')
        + RAIL
        + line("F03", "main.out", "rail.in")
    )

    assert found(plan(FUEL, text), "no-check-valves-parallel") == ()


def test_a_pump_that_pumps_into_a_dead_end_is_a_stop() -> None:
    text = thing("p1", "fuel pump", ENDS) + RAIL + line("F01", "p1.out", "rail.in")

    assert about(plan(FUEL, text), "dead-head") == [("p1",)]


def test_a_pump_with_a_return_is_not_dead_headed() -> None:
    text = (
        CELL
        + thing("p1", "fuel pump", ENDS)
        + RAIL
        + REGULATOR
        + line("F01", "p1.out", "rail.in")
        + line("F02", "rail.out", "reg.in")
        + line("F03", "reg.return", "cell.return")
    )

    assert found(plan(FUEL, text), "dead-head") == ()


def test_a_pump_that_lets_off_by_itself_is_not_dead_headed() -> None:
    text = (
        thing("p1", "fuel pump", ENDS, 'relief = "in the pump"')
        + RAIL
        + line("F01", "p1.out", "rail.in")
    )

    assert found(plan(FUEL, text), "dead-head") == ()


def test_fuel_in_clamped_hose_is_warned_of_and_its_vent_is_not() -> None:
    text = (
        thing("a", "component", {"out": "8 mm barb", "vent": "8 mm barb"})
        + thing("b", "component", {"in": "8 mm barb", "vent": "8 mm barb"})
        + line("F01", "a.out", "b.in", 'size = "8 mm"', 'hose = "fuel J30R9"').replace(
            'ends = ["straight", "straight"]', ""
        )
        + line(
            "V01", "a.vent", "b.vent", 'size = "8 mm"', 'hose = "fuel J30R9"', 'service = "vent"'
        ).replace('ends = ["straight", "straight"]', "")
    )

    assert about(plan(FUEL, text), "clamp-on-fuel") == [("F01",)]


def test_the_drain_plug_of_the_cell_is_noted() -> None:
    noted = plan(FUEL, CELL, '[closed]\n"cell.drain" = "plug"\n')

    assert about(noted, "drain-lowest") == [("cell.drain",)]
    assert found(plan(FUEL, CELL), "drain-lowest") == ()
