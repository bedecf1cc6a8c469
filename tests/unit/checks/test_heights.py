# SPDX-License-Identifier: Apache-2.0
"""Heights of pumps, drains and caps; common practice and turbo makers' pages."""

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


def _cell(z: int) -> str:
    return thing(
        "cell",
        "fuel cell",
        {"pick-up": "-8 ORB female"},
        f'at.middle = "2800, 0, {z} mm"',
        'size = "400 x 400 x 200 mm"',
        'placed = "taped"',
    )


def _pump(z: int, *more: str) -> str:
    return thing(
        "pump",
        "fuel pump",
        {"in": "-8 ORB female", "out": "-6 ORB female"},
        f'at.middle = "3000, 0, {z} mm"',
        'placed = "taped"',
        *more,
    )


FEED = line("F01", "cell.pick-up", "pump.in", 'size = "-8"')


def test_a_pump_of_unknown_height_is_asked_about() -> None:
    bare = thing("pump", "fuel pump", {"in": "-8 ORB female", "out": "-6 ORB female"})
    (finding,) = found(plan(FUEL, _cell(400), bare, FEED), "pump-not-flooded")

    assert finding.severity is Severity.ASK
    assert finding.about == ("pump", "cell")
    assert finding.reason == (
        "Whether pump stands below cell and is flooded is not known: the height of pump.in is not "
        "typed."
    )


def test_a_pump_above_the_floor_of_its_tank_is_a_stop() -> None:
    # The cell's floor is at 400 - 100 = 300 mm.
    (finding,) = found(plan(FUEL, _cell(400), _pump(350), FEED), "pump-not-flooded")

    assert finding.severity is Severity.STOP
    assert (finding.value, finding.limit) == ("350 mm", "300 mm")
    assert finding.measure == pytest.approx(0.05)


@pytest.mark.parametrize(
    "pump", [_pump(250), _pump(350, "self-priming = true"), _pump(350, "in-tank = true")]
)
def test_a_pump_below_or_one_that_primes_itself_is_quiet(pump: str) -> None:
    assert found(plan(FUEL, _cell(400), pump, FEED), "pump-not-flooded") == ()


def _drain(top: int, foot: int, level: str = "") -> str:
    turbo = thing(
        "turbo",
        "turbo",
        {
            "oil-in": "M12x1.5 flat face",
            "oil-out": f'{{ end = "-10 flare male", known = "read", at_car = "0, 0, {top} mm" }}',
        },
    )
    hole = f'{{ end = "-10 flare male", known = "read", at_car = "0, 200, {foot} mm" }}'
    sump = thing("sump", "sump", {"turbo-drain": hole}, level)
    return turbo + sump + line("D01", "turbo.oil-out", "sump.turbo-drain")


def test_a_drain_that_rises_is_a_stop() -> None:
    (finding,) = found(plan(OIL, _drain(400, 450)), "drain-rises")

    assert finding.about == ("D01",)
    assert finding.reason == (
        "D01 has to drain by gravity and ends 50 mm higher, at sump.turbo-drain."
    )


def test_a_drain_that_ends_under_the_oil_is_a_stop() -> None:
    (finding,) = found(plan(OIL, _drain(400, 150, 'oil-level = "180 mm"')), "drain-rises")

    assert (finding.value, finding.limit) == ("150 mm", "180 mm")


def test_a_drain_without_the_level_of_the_oil_is_asked_about() -> None:
    (finding,) = found(plan(OIL, _drain(400, 150)), "level-unknown")

    assert finding.reason == (
        "That D01 falls all the way and ends above the oil is not proved without the height of "
        "the oil while it runs."
    )


def test_a_drain_that_falls_to_above_the_oil_is_quiet() -> None:
    small = plan(OIL, _drain(400, 250, 'oil-level = "180 mm"'))

    assert found(small, "drain-rises") == ()
    assert found(small, "level-unknown") == ()


def _loop(cap: int) -> str:
    header = thing(
        "header",
        "header tank",
        {
            "fill": f'{{ end = "-16 flare male", known = "read", at_car = "0, 0, {cap} mm" }}',
            "feed": '{ end = "38 mm bead", known = "read", at_car = "0, 0, 600 mm" }',
        },
    )
    block = thing(
        "block",
        "engine",
        {"coolant-in": '{ end = "38 mm bead", known = "read", at_car = "0, 0, 700 mm" }'},
    )
    return header + block + clamped("C01", "header.feed", "block.coolant-in")


def test_something_above_the_cap_is_warned_of() -> None:
    (finding,) = found(plan(COOLANT, _loop(650)), "cap-not-highest")

    assert finding.about == ("header.fill", "block.coolant-in")
    assert finding.measure == pytest.approx(0.05)


def test_a_cap_above_all_is_quiet() -> None:
    assert about(plan(COOLANT, _loop(720)), "cap-not-highest") == []
