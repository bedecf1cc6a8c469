# SPDX-License-Identifier: Apache-2.0
"""Hose against its fluid, by the table of liners; sources and grades stand in its rows."""

import pytest

from linewright.base.finding import Severity
from tests.unit.checks.small_plans import FUEL, OIL, about, clamped, found, line, plan, thing

FLARES = {"in": "-6 flare male", "out": "-6 flare male"}
TWO = thing("a", "fuel filter", FLARES) + thing("b", "fuel filter", FLARES)
BEADS = {"in": "16 mm bead", "out": "16 mm bead"}
OIL_TWO = thing("a", "inline oil filter", BEADS) + thing("b", "inline oil filter", BEADS)


@pytest.mark.parametrize(
    ("hose", "stops"), [("PTFE full-bore", 1), ("PTFE", 1), ("PTFE full-bore conductive", 0)]
)
def test_fuel_in_ptfe_that_does_not_conduct_is_a_stop(hose: str, stops: int) -> None:
    small = plan(FUEL, TWO, line("F01", "a.out", "b.in", f'hose = "{hose}"'))

    assert about(small, "carbon-liner") == [("F01",)] * stops


def test_a_vent_charges_no_liner() -> None:
    small = plan(
        FUEL, TWO, line("F01", "a.out", "b.in", 'hose = "PTFE full-bore"', 'service = "vent"')
    )

    assert found(small, "carbon-liner") == ()


@pytest.mark.parametrize("hose", ["silicone", "EPDM"])
def test_coolant_hose_in_oil_is_a_stop(hose: str) -> None:
    small = plan(
        OIL, OIL_TWO, clamped("O01", "a.out", "b.in", f'hose = "{hose}"', 'size = "16 mm"')
    )
    (finding,) = found(small, "fluid-unfit")

    assert finding.severity is Severity.STOP
    assert finding.about == ("O01",)
    assert finding.remedy == (
        "Take hose that is fit for it: nitrile breather hose, fuel hose SAE J30R9, fuel hose SAE "
        "J30R14."
    )
    assert finding.value == "unfit"


def test_rubber_race_hose_in_e85_is_warned_of_for_its_short_life() -> None:
    small = plan(FUEL, TWO, line("F01", "a.out", "b.in", 'hose = "rubber braided"'))
    (finding,) = found(small, "fluid-unfit")

    assert finding.severity is Severity.WARN
    assert "replace after 12 to 18 months" in finding.reason
    assert "full bore, conductive liner" in finding.remedy


def test_hose_that_stands_its_fluid_is_quiet() -> None:
    flares = {"in": "-10 flare male", "out": "-10 flare male"}
    two = thing("a", "inline oil filter", flares) + thing("b", "inline oil filter", flares)

    assert found(plan(OIL, two, line("O01", "a.out", "b.in")), "fluid-unfit") == ()


@pytest.mark.parametrize(
    ("fluid", "hint"),
    [("watermelon", ""), ("kerosine", ""), ("diesel", ""), ("petrl", ' Did you mean "petrol"?')],
)
def test_a_fluid_that_the_data_does_not_know_is_asked_about(fluid: str, hint: str) -> None:
    (finding,) = found(
        plan(FUEL.replace("E85", fluid), TWO, line("F01", "a.out", "b.in")), "fluid-unknown"
    )

    assert finding.severity is Severity.ASK
    assert finding.reason == (
        f'"{fluid}" of fuel is no fluid that the data knows; hose and seals are chosen as for '
        "petrol."
    )
    assert finding.remedy == (
        "Known as fuel: petrol, 98 RON, E10, E85, ethanol, methanol; write one of them."
        f"{hint} For any other fluid ask the makers of hose and seals."
    )


@pytest.mark.parametrize("fluid", ["petrol", "98 RON E10", "E85", "M100", "ethanol-free petrol"])
def test_a_fuel_that_is_known_is_not_asked_about(fluid: str) -> None:
    assert (
        found(plan(FUEL.replace("E85", fluid), TWO, line("F01", "a.out", "b.in")), "fluid-unknown")
        == ()
    )


@pytest.mark.parametrize(
    ("fluid", "blend"),
    [("98 RON", ", rated as petrol with 10 % ethanol, which pump petrol may hold"), ("E85", "")],
)
def test_the_rings_in_the_bag_are_judged_by_a_blend_that_is_named(fluid: str, blend: str) -> None:
    boss = {"in": "-6 ORB female", "out": "-6 ORB female"}
    parts = thing("a", "fuel filter", boss) + thing("b", "fuel filter", boss)
    small = plan(FUEL.replace("E85", fluid), parts, line("F01", "a.out", "b.in"))
    (finding,) = found(small, "seal-as-supplied")

    assert finding.reason == (
        f"Fittings for fuel mostly come with NBR rings, which are not meant for {fluid}{blend}."
    )
