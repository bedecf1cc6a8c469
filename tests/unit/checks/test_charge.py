# SPDX-License-Identifier: Apache-2.0
"""Charge air: references; common practice without a source (case J15)."""

from tests.unit.checks.small_plans import AIR, FUEL, about, clamped, found, plan, thing

REGULATOR = thing("reg", "fuel regulator", {"reference": "5 mm barb"}, "boosted = true")
VALVE = thing("valve", "blow-off valve", {"reference": "5 mm barb"})
MANIFOLD = thing("man", "inlet manifold", {"reference": "5 mm barb", "reference-2": "5 mm barb"})
TEE = thing("tee", "tee", {"run-a": "5 mm barb", "run-b": "5 mm barb", "branch": "5 mm barb"})


def _reference(name: str, start: str, finish: str) -> str:
    return clamped(
        name,
        start,
        finish,
        'size = "5 mm"',
        'hose = "reference"',
        'service = "reference"',
        'system = "air"',
    )


def test_a_reference_teed_off_the_blow_off_line_is_warned_of() -> None:
    small = plan(
        FUEL,
        AIR,
        REGULATOR,
        VALVE,
        MANIFOLD,
        TEE,
        _reference("R01", "man.reference", "tee.run-a"),
        _reference("R02", "tee.branch", "valve.reference"),
        _reference("R03", "tee.run-b", "reg.reference"),
    )
    (finding,) = found(small, "reference-shared")

    assert finding.about == ("reg.reference", "valve")
    assert finding.remedy == "Give reg.reference a line of its own from the inlet manifold."


def test_a_reference_of_its_own_is_quiet() -> None:
    small = plan(
        FUEL,
        AIR,
        REGULATOR,
        VALVE,
        MANIFOLD,
        _reference("R01", "man.reference", "reg.reference"),
        _reference("R02", "man.reference-2", "valve.reference"),
    )

    assert found(small, "reference-shared") == ()
    assert found(small, "reference-missing") == ()


def test_a_blow_off_valve_without_its_reference_is_a_stop() -> None:
    assert about(plan(AIR, VALVE), "reference-missing") == [("valve.reference",)]
