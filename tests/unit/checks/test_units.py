# SPDX-License-Identifier: Apache-2.0
"""What the checks say in the units of the car, and overrules that are typed off it."""

import pytest

from linewright.base.finding import Finding, Overrule, Severity
from linewright.car.quantities import accepted
from linewright.checks.accepted import is_worse
from linewright.checks.units import finding_in


def _unheld(far: float) -> Finding:
    return Finding(
        "clip-spacing",
        Severity.WARN,
        ("O01",),
        f"O01 is unheld for {far * 1e3:.0f} mm.",
        'Move it 40 mm, as `at = "40 mm"`.',
        value=f"{far * 1e3:.0f} mm",
        limit="450 mm",
        measure=far - 0.45,
        printed=far,
    )


def test_a_finding_of_an_inch_car_has_no_millimetres() -> None:
    found = finding_in(_unheld(0.955), "inch")

    assert found.reason == "O01 is unheld for 37 5/8 in."
    assert found.remedy == 'Move it 1 9/16 in, as `at = "40 mm"`.'
    assert (found.value, found.limit) == ("37 5/8 in", "17 11/16 in")
    assert found.key == _unheld(0.955).key


@pytest.mark.parametrize("millimetres", range(940, 960))
def test_a_value_typed_off_an_inch_print_covers_its_finding(millimetres: int) -> None:
    finding = _unheld(millimetres / 1e3)
    typed = finding_in(finding, "inch").value or ""
    lived_with = Overrule("clip-spacing", ("O01",), "so it is", accepted=accepted(typed))

    assert not is_worse(finding, lived_with, "inch")
    assert is_worse(_unheld((millimetres + 3) / 1e3), lived_with, "inch")


def test_a_margin_printed_in_fahrenheit_is_no_temperature() -> None:
    near = Finding(
        "near-boiling",
        Severity.WARN,
        ("E",),
        "",
        value="8 K",
        limit="10 K",
        measure=8.0,
        is_less_worse=True,
    )
    typed = finding_in(near, "inch").value or ""
    lived_with = Overrule("near-boiling", ("E",), "so it is", accepted=accepted(typed))

    assert typed == "14 °F"
    assert not is_worse(near, lived_with, "inch")
