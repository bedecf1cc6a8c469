# SPDX-License-Identifier: Apache-2.0
"""Hose too short to bend: less than five outside diameters between its collars."""

import pytest

from linewright.base.finding import Severity
from tests.unit.checks.small_plans import FUEL, found, line, plan, thing

ENDS = {"in": "-6 flare male", "out": "-6 flare male"}
TWO = thing("a", "fuel filter", ENDS) + thing("b", "fuel filter", ENDS)


@pytest.mark.parametrize(("millimetres", "notes"), [(120, 1), (300, 0)])
def test_a_stub_of_hose_is_noted(millimetres: int, notes: int) -> None:
    text = line("F01", "a.out", "b.in").replace("500 mm", f"{millimetres} mm")
    said = found(plan(FUEL, TWO, text), "hose-short")

    assert [(f.about, f.severity) for f in said] == [(("F01",), Severity.NOTE)] * notes
