# SPDX-License-Identifier: Apache-2.0
"""Ratings of hose against the hose table; what is missing is asked for, never guessed."""

import pytest

from linewright.base.finding import Severity
from tests.unit.checks.small_plans import (
    COOLANT,
    FUEL,
    OIL,
    about,
    clamped,
    found,
    line,
    plan,
    thing,
)

ENDS = {"in": "-10 flare male", "out": "-10 flare male"}
TWO = thing("a", "inline oil filter", ENDS) + thing("b", "inline oil filter", ENDS)
FUEL_ENDS = {"in": "-6 flare male", "out": "-6 flare male"}
FUEL_TWO = thing("a", "fuel filter", FUEL_ENDS) + thing("b", "fuel filter", FUEL_ENDS)
BEADS = {"in": "38 mm bead", "out": "38 mm bead"}
COOLANT_TWO = thing("a", "heater", BEADS) + thing("b", "heater", BEADS)


def test_hose_that_is_sold_in_two_bores_is_asked_about_once_for_a_system() -> None:
    # 12.7 mm is read in a standard, 14.3 mm is practice: sources disagree, both are shown.
    small = plan(OIL, TWO, line("O01", "a.out", "b.in"), line("O02", "b.out", "a.in"))
    (finding,) = found(small, "hose-bore")

    assert finding.about == ("oil",)
    assert finding.severity is Severity.ASK
    assert finding.value == "12.7 mm or 14.3 mm"


def test_hose_of_one_bore_is_not_asked_about() -> None:
    assert found(plan(FUEL, FUEL_TWO, line("F01", "a.out", "b.in")), "hose-bore") == ()


def test_the_print_of_a_fuel_hose_is_asked_for() -> None:
    (finding,) = found(plan(FUEL, FUEL_TWO, line("F01", "a.out", "b.in")), "hose-rating")

    assert finding.severity is Severity.ASK
    assert finding.remedy == (
        "Read the print on the hose or its data sheet: burst pressure, temperature range. One "
        "international rule asks for 70 bar burst at 135 °C; look up the book that binds you."
    )


def test_the_print_of_a_fuel_hose_under_suction_is_asked_for_its_vacuum_too() -> None:
    small = plan(FUEL, FUEL_TWO, line("F01", "a.out", "b.in", 'service = "suction"'))
    (finding,) = found(small, "hose-rating")

    assert "and the vacuum rating for the suction side (F01)" in finding.remedy


def test_a_working_pressure_that_is_not_in_the_data_is_asked_for() -> None:
    small = plan(COOLANT + 'highest = "1.3 bar"\n', COOLANT_TWO, clamped("C01", "a.out", "b.in"))
    (finding,) = found(small, "rating-missing")

    assert finding.severity is Severity.ASK
    assert finding.about == ("coolant",)
    assert finding.limit == "1.3 bar"


def test_a_missing_rating_is_asked_for_whether_or_not_the_pressure_is_typed() -> None:
    small = plan(COOLANT, COOLANT_TWO, clamped("C01", "a.out", "b.in"))
    (finding,) = found(small, "rating-missing")

    assert finding.reason == (
        "The data has no working pressure for the hose of coolant: 38 silicone (C01)."
    )
    assert finding.remedy == (
        "Read the print on the hose or its data sheet for its working pressure at coolant's "
        "temperature."
    )


def test_a_vent_holds_no_pressure_to_rate() -> None:
    vent = clamped("C01", "a.out", "b.in", 'service = "vent"')

    assert found(plan(COOLANT, COOLANT_TWO, vent), "rating-missing") == ()


def test_hose_that_is_rated_for_less_is_a_stop() -> None:
    small = plan(
        FUEL + 'highest = "150 bar"\n', FUEL_TWO, line("F01", "a.out", "b.in")
    )  # 135 bar for -6 in a maker's catalogue
    (finding,) = found(small, "rating-exceeded")

    assert finding.severity is Severity.STOP
    assert finding.about == ("fuel", "F01")
    assert (finding.value, finding.limit) == ("150.0 bar", "135.0 bar")


def test_a_name_that_stands_for_several_hoses_is_asked_about() -> None:
    hot = OIL + 'hottest = "160 °C"\n'
    (finding,) = found(plan(hot, TWO, line("O01", "a.out", "b.in")), "rating-exceeded")

    assert finding.severity is Severity.ASK
    assert finding.reason.endswith("Hose sold under that name differs in this.")


def test_a_suction_hose_without_a_vacuum_figure_is_asked_about_and_never_stopped() -> None:
    small = plan(COOLANT, COOLANT_TWO, clamped("C01", "a.out", "b.in", 'service = "suction"'))
    (finding,) = found(small, "suction-rating")

    assert finding.severity is Severity.ASK
    assert all(f.code != "suction-rating" for f in small.stops)


@pytest.mark.parametrize(("string", "stops"), [("600 mm", 1), ("400 mm", 0)])
def test_long_soft_hose_under_suction_is_a_stop(string: str, stops: int) -> None:
    # 18 in = 457 mm, read in a military specification of low-pressure rubber hose.
    barbs = {"in": "12 mm barb", "out": "12 mm barb"}
    small = plan(
        OIL,
        thing("a", "inline oil filter", barbs) + thing("b", "inline oil filter", barbs),
        clamped(
            "O01",
            "a.out",
            "b.in",
            'size = "12 mm"',
            'hose = "NBR"',
            'service = "suction"',
            f'string = "{string}"',
        ),
    )

    assert len(found(small, "hose-collapses")) == stops
    assert about(small, "hose-collapses") == [("O01",)] * stops


@pytest.mark.parametrize(
    ("kind", "millimetres", "asks"),
    [("radiator", 460, 1), ("radiator", 450, 0), ("header tank", 900, 0)],
)
def test_a_long_soft_hose_into_a_water_pump_is_asked_about(
    kind: str, millimetres: int, asks: int
) -> None:
    port = "feed" if kind == "header tank" else "out"
    parts = thing("a", kind, {port: "38 mm bead"}) + thing("b", "water pump", {"in": "38 mm bead"})
    run = clamped("C01", f"a.{port}", "b.in", f'string = "{millimetres} mm"')
    small = plan(COOLANT, parts, run)

    assert small.car.lines["C01"].service == "suction"
    assert [f.severity for f in found(small, "hose-collapses")] == [Severity.ASK] * asks
    assert about(small, "suction-rating") == [("coolant",)]


def test_a_line_from_a_pump_into_a_pump_is_no_suction() -> None:
    beads = {"in": "38 mm bead", "out": "38 mm bead"}
    pumps = thing("a", "electric water pump", beads) + thing("b", "water pump", beads)
    small = plan(COOLANT, pumps, clamped("C01", "a.out", "b.in"))

    assert small.car.lines["C01"].service == "pressure"
