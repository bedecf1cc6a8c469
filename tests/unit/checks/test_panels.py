# SPDX-License-Identifier: Apache-2.0
"""Passes through panels; the grip of a bulkhead fitting is an estimate."""

from dataclasses import replace

from linewright.checks.panels import check
from linewright.checks.topology import Topology
from tests.unit.checks.small_plans import FUEL, about, found, line, plan, thing

ENDS = {"in": "-6 ORB female", "out": "-6 ORB female"}
TWO = thing("a", "fuel filter", ENDS) + thing("b", "fuel filter", ENDS)
FLOOR = '[panels.floor]\nthickness = "1.5 mm"\n'
THICK = '[panels.floor]\nthickness = "40 mm"\n'
PASSED = line("F01", "a.out", "b.in", 'passes = ["floor"]')


def test_a_line_through_a_panel_thicker_than_the_grip_is_a_stop() -> None:
    (finding,) = found(plan(FUEL, THICK, TWO, PASSED), "grip-exceeded")

    assert finding.about == ("F01", "floor")
    assert (finding.value, finding.limit) == ("40 mm", "19 mm")


def test_a_line_through_sheet_is_quiet() -> None:
    small = plan(FUEL, FLOOR, TWO, PASSED)

    assert found(small, "grip-exceeded") == ()
    assert found(small, "hole-missing") == ()


def test_a_bulkhead_without_its_panel_is_asked_about() -> None:
    bulkhead = thing("bh", "bulkhead", None, 'size = "-6"')
    small = plan(
        FUEL, TWO, bulkhead, line("F01", "a.out", "bh.inside"), line("F02", "bh.outside", "b.in")
    )

    assert about(small, "panel-unknown") == [("bh",)]


def test_a_pass_without_its_hole_in_the_list_is_a_stop() -> None:
    small = plan(FUEL, FLOOR, TWO, PASSED)
    without = replace(small.takeoff, holes=())
    codes = [(f.code, f.about) for f in check(small.car, Topology(small.car), without)]

    assert codes == [("hole-missing", ("F01", "floor"))]
