# SPDX-License-Identifier: Apache-2.0
"""Functions that a kind brings; what must be there is common practice without a source."""

import pytest

from linewright.base.finding import Severity
from tests.unit.checks.small_plans import AIR, COOLANT, FUEL, OIL, about, found, line, plan, thing

CELL_PORTS = {"pick-up": "-8 ORB female", "vent": "-8 ORB female"}


def _missing(of: object) -> set[str]:
    return {about[0] for about in about_of(of)}


def about_of(of: object) -> list[tuple[str, ...]]:
    return about(of, "missing-function")  # type: ignore[arg-type]


def test_a_tank_that_nobody_described_is_asked_for_all_that_a_tank_needs() -> None:
    small = plan(OIL, thing("tank", "dry-sump tank"))

    assert _missing(small) == {
        "tank.feed",
        "tank.return",
        "tank.vent",
        "tank.drain",
        "tank.fill",
        "tank.level",
    }


def test_a_tank_without_a_vent_is_a_stop_and_one_without_a_drain_is_a_question() -> None:
    small = plan(OIL, thing("tank", "dry-sump tank"))
    weights = {f.about[0]: f.severity for f in found(small, "missing-function")}

    assert weights["tank.vent"] is Severity.STOP
    assert weights["tank.drain"] is Severity.ASK


def test_an_answer_of_none_with_its_reason_is_an_answer() -> None:
    small = plan(
        OIL,
        thing("tank", "dry-sump tank"),
        '[closed]\n"tank.drain" = "none, because it is pumped out by hand"\n',
    )
    proof = {row.id: row for row in small.checked.proof}

    assert "tank.drain" not in _missing(small)
    assert proof["tank.drain"].state == "none"
    assert proof["tank.drain"].reason == "it is pumped out by hand"
    assert proof["tank.drain"].is_function


def test_the_text_of_a_missing_function_says_how_to_answer_it() -> None:
    small = plan(OIL, thing("tank", "dry-sump tank"))
    (finding,) = (f for f in found(small, "missing-function") if f.about == ("tank.level",))

    assert finding.reason == "Not answered for tank (dry-sump tank): how its level is checked."
    assert finding.remedy == (
        "Name the dipstick, sight tube or sensor. Or answer it under [closed]: "
        '"tank.level" = "none, because ...".'
    )


def test_a_cooler_without_a_thermostat_is_asked_about_and_with_one_it_is_not() -> None:
    cooler = thing("cooler", "oil cooler", {"in": "-10 ORB female", "out": "-10 ORB female"})

    assert about(plan(OIL, cooler), "no-thermostat") == [("cooler",)]
    assert found(plan(OIL, cooler, thing("th", "oil thermostat")), "no-thermostat") == ()


def test_a_thermostat_in_another_system_does_not_count() -> None:
    second = OIL.replace("systems.oil", "systems.gearbox")
    cooler = thing("cooler", "oil cooler", {"in": "-10 ORB female"}, 'system = "oil"')
    other = thing("th", "oil thermostat", None, 'system = "gearbox"')

    assert about(plan(OIL, second, cooler, other), "no-thermostat") == [("cooler",)]


def test_a_filter_head_asks_where_its_bypass_is_unless_a_part_of_its_system_says() -> None:
    head = thing("head", "remote filter head")
    told = thing("block", "engine", None, 'bypass = "in the block"')

    assert about(plan(OIL, head), "filter-bypass") == [("head",)]
    assert found(plan(OIL, head, told), "filter-bypass") == ()


def test_a_cell_without_its_strap_is_warned_of() -> None:
    bare = plan(FUEL, thing("cell", "fuel cell", CELL_PORTS))
    bonded = plan(FUEL, thing("cell", "fuel cell", CELL_PORTS, "bonded = true"))

    assert about(bare, "bond-missing") == [("cell",)]
    assert found(bonded, "bond-missing") == ()


def test_a_cell_asks_for_its_shut_off_unless_there_is_one() -> None:
    cell = thing("cell", "fuel cell", CELL_PORTS)
    tap = thing("tap", "fuel shut-off valve", {"in": "-8 ORB female", "out": "-8 ORB female"})

    assert about(plan(FUEL, cell), "fuel-shut-off") == [("cell",)]
    assert found(plan(FUEL, cell, tap), "fuel-shut-off") == ()


def test_naming_the_rules_does_not_answer_for_the_shut_off() -> None:
    named = thing("cell", "fuel cell", CELL_PORTS, 'profile = "hill climb"')
    placed = thing("cell", "fuel cell", CELL_PORTS, 'shut-off = "by the seat"')

    assert about(plan(FUEL, named), "fuel-shut-off") == [("cell",)]
    assert found(plan(FUEL, placed), "fuel-shut-off") == ()


def test_a_rail_without_a_fine_filter_before_it_is_a_stop() -> None:
    pump = thing("pump", "fuel pump", {"in": "-8 ORB female", "out": "-6 ORB female"})
    rail = thing("rail", "fuel rail", {"in": "-6 ORB female"})
    small = plan(FUEL, pump, rail, line("F01", "pump.out", "rail.in"))

    assert about(small, "filter-before-injectors") == [("rail",)]
    assert about(small, "no-strainer") == [("pump",)]
    assert about(small, "check-valve-missing") == [("pump",)]


@pytest.mark.parametrize(("extra", "codes"), [("strainer = true", 0), ("strainer = false", 1)])
def test_a_pump_with_a_sock_needs_no_strainer(extra: str, codes: int) -> None:
    pump = thing("pump", "fuel pump", {"in": "-8 ORB female", "out": "-6 ORB female"}, extra)

    assert len(found(plan(FUEL, pump), "no-strainer")) == codes


def test_every_scavenge_inlet_needs_its_screen() -> None:
    flares = {"in": "-10 flare male", "out": "-10 flare male"}
    pump = thing(
        "pump",
        "dry-sump pump",
        {"scavenge-1": "-10 flare male", "scavenge-2": "-10 flare male"},
    )
    screens = thing("s1", "scavenge screen", flares) + thing("s2", "scavenge screen", flares)
    one = line("O01", "s1.out", "pump.scavenge-1")
    two = line("O02", "s2.out", "pump.scavenge-2")

    assert "pump.screens" in _missing(plan(OIL, pump, screens, one))
    assert "pump.screens" not in _missing(plan(OIL, pump, screens, one, two))


def test_a_turbo_in_a_car_without_coolant_is_not_asked_for_its_water() -> None:
    turbo = thing("turbo", "turbo", {"oil-in": "M12x1.5 flat face female"})

    assert not {"turbo.water", "turbo.compressor-in"} & _missing(plan(OIL, turbo))
    assert "turbo.water" in _missing(plan(OIL, COOLANT, turbo))
    assert "turbo.compressor-in" in _missing(plan(OIL, AIR, turbo))


def test_an_engine_is_asked_for_the_turbos_oil_only_if_there_is_a_turbo() -> None:
    block = thing("block", "engine", {"oil-feed": "-10 ORB female"})
    plain = {row.id for row in plan(OIL, block).checked.proof}
    boosted = {row.id for row in plan(OIL, block, thing("turbo", "turbo")).checked.proof}

    assert "block.turbo-drain" not in plain
    assert "block.turbo-drain" in boosted


def test_a_regulator_is_boosted_where_the_car_has_a_turbo() -> None:
    regulator = thing("reg", "fuel regulator", {"in": "-6 ORB female", "reference": "5 mm barb"})
    answer = '[closed]\n"reg.reference" = "open, because it is not used"\n'

    assert found(plan(FUEL, regulator, answer), "reference-missing") == ()
    assert about(plan(FUEL, regulator, thing("turbo", "turbo"), answer), "reference-missing") == [
        ("reg.reference",)
    ]


def test_a_vent_without_a_roll_over_valve_is_a_stop() -> None:
    small = plan(FUEL, thing("cell", "fuel cell", CELL_PORTS))

    assert about(small, "vent-rollover") == [("cell.vent",)]


@pytest.mark.parametrize(
    ("traits", "others", "is_asked"),
    [
        ("", "", False),
        ('tank = "cell"', "", False),
        # Two tanks, and nobody says in which it hangs.
        ("", 'spare = { kind = "fuel cell" }', True),
        ('tank = "cell"', 'spare = { kind = "fuel cell" }', False),
    ],
)
def test_a_pump_module_is_the_pick_up_of_the_tank_that_it_hangs_in(
    traits: str, others: str, is_asked: bool
) -> None:
    text = (
        '[components]\ncell = { kind = "fuel cell" }\n'
        f'pump = {{ kind = "in-tank fuel pump"{", " if traits else ""}{traits} }}\n{others}\n'
    )
    small = plan(FUEL, text)

    assert ("cell.pick-up" in _missing(small)) is is_asked
