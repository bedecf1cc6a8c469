# SPDX-License-Identifier: Apache-2.0
"""Mistakes of the trade that flow, pressures and heights show, each beside the same car done right.

The rows are those of a list of forty common mistakes [common practice, with the manuals that its
rules cite]; the numbers are those of that list. What is planted raises its finding, and the car
without it is silent.
"""

from dataclasses import dataclass, replace
from functools import cache

import pytest

from linewright.base.finding import Finding, Severity
from linewright.car.read import read_text
from linewright.checks.run import run as checked
from linewright.flow.run import run
from linewright.joints.termination import offer
from linewright.routes.lengths import lay
from linewright.takeoff.count import count
from tests.flowing import EXAMPLES, Change
from tests.worked.test_flow_in_cars import F1

STOP, WARN, ASK, NOTE = Severity.STOP, Severity.WARN, Severity.ASK, Severity.NOTE
JUNIPER = (EXAMPLES / "juniper" / "car.toml").read_text(encoding="utf-8")
ROADSTER = (EXAMPLES / "club-roadster" / "car.toml").read_text(encoding="utf-8")
WARM = ("hot-idle", "full-power")

#: An open reservoir beside a pump that draws from it by soft hose.
LOOP = """
linewright = 1
[car]
name = "Loop"
[systems.charge-coolant]
fluid = "50 % glycol"
hose  = "silicone"
size  = "19 mm"
[components.ENG]
kind = "engine"
power = "150 kW"
at.middle = "0, 0, 500 mm"
[components.RES]
kind = "charge-coolant reservoir"
at.middle = "500, 0, 500 mm"
[components.RES.ports]
out = { end = "19 mm bead", at = "0, 0, 0 mm", points = "down", known = "read" }
in  = { end = "19 mm bead", at = "0, 0, 0 mm", points = "up", known = "read" }
[components.PUMP]
kind = "charge-coolant pump"
flow = "60 L/min"
at.middle = "0, 0, 500 mm"
[components.PUMP.ports]
in  = { end = "19 mm bead", at = "0, 0, 0 mm", points = "left", known = "read" }
out = { end = "19 mm bead", at = "0, 0, 0 mm", points = "right", known = "read" }
[lines]
W01 = { from = "RES.out", to = "PUMP.in", string = "400 mm" }
W02 = { from = "PUMP.out", to = "RES.in", string = "400 mm" }
"""


@dataclass(frozen=True)
class Row:
    """One mistake: its number, what it raises about what, the car, what is planted in it."""

    number: int
    code: str
    about: tuple[str, ...]
    severity: Severity
    text: str
    plant: tuple[Change, ...]
    heal: tuple[Change, ...] = ()
    only: tuple[str, ...] = WARM


def _line(name: str, text: str) -> Change:
    """The line of a car's document that a key begins."""
    (found,) = (row for row in text.splitlines() if row.startswith(f"{name} ") and "from" in row)
    return found, found


def _without(name: str, old: str, new: str = "", text: str = JUNIPER) -> Change:
    found, _ = _line(name, text)
    assert old in found
    return found, found.replace(old, new)


#: Juniper with the filler of its header typed.
FILLED = JUNIPER.replace(
    "[components.header.ports]",
    '[components.header.ports]\nfill = { end = "50 mm bead", at = "0, 0, 100 mm", role = "fill" }',
)
SUCTION = F1.replace("FLOW", "89")
ROWS = (
    Row(
        10,
        "drain-small",
        ("D01",),
        WARN,
        JUNIPER,
        (_without("D01", 'size = "-10"', 'size = "-6"'),),
    ),
    Row(
        10,
        "drain-overfull",
        ("D01",),
        WARN,
        JUNIPER,
        (
            (', fit = ["jet 1 mm"] }', " }"),
            ('limit     = "4 bar"', 'limit     = "9 bar"\noil-hole = "4 mm"'),
        ),
    ),
    Row(
        11,
        "drain-rises",
        ("D01",),
        STOP,
        JUNIPER,
        (('power     = "330 kW"', 'power     = "330 kW"\noil-level = "600 mm"'),),
        (('power     = "330 kW"', 'power     = "330 kW"\noil-level = "60 mm"'),),
    ),
    Row(
        12,
        "turbo-feed-high",
        ("turbo.oil-in",),
        WARN,
        JUNIPER,
        (('limit     = "4 bar"', 'limit     = "0.2 bar"'),),
    ),
    Row(
        17,
        "hose-sucked",
        ("W01",),
        STOP,
        LOOP,
        (
            (
                'to = "PUMP.in", string = "400 mm"',
                'to = "PUMP.in", string = "2500 mm", service = "pressure"',
            ),
        ),
        (
            (
                'to = "PUMP.in", string = "400 mm"',
                'to = "PUMP.in", string = "2500 mm", service = "pressure"',
            ),
            ('flow = "60 L/min"', 'flow = "8 L/min"'),
        ),
    ),
    Row(
        17,
        "hose-collapses",
        ("W01",),
        ASK,
        LOOP,
        (('to = "PUMP.in", string = "400 mm"', 'to = "PUMP.in", string = "2500 mm"'),),
    ),
    Row(
        18,
        "pump-starves",
        ("pump.inlet",),
        WARN,
        SUCTION,
        (("-SIZE", "-16"),),
        (("-SIZE", "-20"),),
        ("full-power",),
    ),
    Row(
        18,
        "velocity-high",
        ("O01",),
        NOTE,
        SUCTION.replace("89", "20").replace('"110 L/min"', '"15 L/min"'),
        (("-SIZE", "-8"),),
        (("-SIZE", "-20"),),
        ("full-power",),
    ),
    Row(
        23,
        "elbow-costly",
        ("O01",),
        NOTE,
        SUCTION.replace("-SIZE", "-16"),
        (
            (
                'string = "3350 mm", ends = ["straight", "straight"]',
                'string = "3350 mm", ends = ["90", "90"]',
            ),
        ),
        (),
        ("full-power",),
    ),
    Row(
        26,
        "expansion-small",
        ("header",),
        WARN,
        JUNIPER,
        (),
        (('volume    = "2 L"', 'volume    = "9 L"'),),
    ),
    Row(
        26,
        "catch-can-small",
        ("overflow-can",),
        WARN,
        JUNIPER,
        (('"100 dia x 160 mm"', '"80 dia x 100 mm"'),),
    ),
    Row(
        27,
        "cap-not-highest",
        ("header",),
        WARN,
        FILLED,
        (('at.middle = "820, -250, 860 mm"', 'at.middle = "820, -250, 360 mm"'),),
    ),
    Row(
        28,
        "header-far",
        ("C04",),
        WARN,
        JUNIPER,
        (
            (
                'from = "header.feed", to = "water-pump.feed"',
                'from = "header.feed", to = "ENG.heater-in"',
            ),
        ),
    ),
    Row(
        29,
        "pump-not-flooded",
        ("lift-pump",),
        STOP,
        JUNIPER,
        (("self-priming = true\n", ""),),
    ),
    Row(30, "dead-head", ("pump-1",), STOP, JUNIPER, ((f"{_line('F11', JUNIPER)[0]}\n", ""),)),
    Row(
        30,
        "dead-head",
        ("pump",),
        STOP,
        F1.replace("SIZE", "20").replace("FLOW", "89"),
        (("[lines]", '[closed]\n"pump.relief" = "none, because it is a short race"\n[lines]'),),
        (("[lines]", '[closed]\n"ENG.breather" = "none, because it is a short race"\n[lines]'),),
        ("full-power",),
    ),
    Row(
        31,
        "no-check-valves-parallel",
        ("pump-1", "pump-2"),
        WARN,
        JUNIPER,
        (_without("F06", ', fit = ["check valve"]'),),
    ),
    Row(
        31,
        "flow-reversed",
        ("fuel-filter",),
        WARN,
        JUNIPER,
        (
            _without("F08", "fuel-filter.in", "fuel-filter.out"),
            _without("F09", "fuel-filter.out", "fuel-filter.in"),
        ),
    ),
    Row(
        33,
        "cooler-ports-down",
        ("oil-cooler",),
        WARN,
        JUNIPER,
        (
            (
                'name      = "industrial oil cooler"',
                'name = "industrial oil cooler"\nfacing = "down"',
            ),
        ),
    ),
)


def _changed(text: str, changes: tuple[Change, ...]) -> str:
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    return text


@cache
def _found(text: str, only: tuple[str, ...]) -> tuple[Finding, ...]:
    """All that is said of a car with its flow in some conditions."""
    car = read_text(text)
    joints = offer(car)
    routes = lay(car, joints)
    takeoff = count(car, joints, routes)
    return checked(car, joints, routes, takeoff, run(car, joints, routes, only)).findings


def _told(row: Row, changes: tuple[Change, ...]) -> list[Finding]:
    found = _found(_changed(row.text, changes), row.only)
    return [
        f
        for f in found
        if f.code == row.code
        and set(row.about) <= {i for a in f.about for i in (a, a.partition(".")[0])}
    ]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.number}-{row.code}")
def test_a_mistake_is_found(row: Row) -> None:
    found = _told(row, row.plant)

    assert found
    assert {f.severity for f in found} == {row.severity}
    assert all(f.remedy for f in found)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.number}-{row.code}")
def test_the_same_car_done_right_is_silent(row: Row) -> None:
    assert _told(row, row.heal) == []


def test_a_cooler_without_thermostat_or_bypass_asks_for_the_climate() -> None:
    car = read_text(ROADSTER)
    right = {f.code for f in _found(ROADSTER, WARM)}
    gone = replace(car)
    assert gone.components["TH"].kind == "oil thermostat"
    lines = [
        row
        for row in ROADSTER.splitlines()
        if not row.startswith(("L2 ", "L3 ", "L4 ", "L5 ", "TH ", '"TH.'))
    ]
    lines = [row for row in lines if "TH." not in row]
    straight = (
        'L2 = { from = "FH.out-R", to = "CO.in", string = "1350 mm", ends = ["straight", "90"] }\n'
        'L5 = { from = "CO.out", to = "TOP.IN", string = "1600 mm", ends = ["45", "90"] }'
    )
    wrong = "\n".join(lines).replace("[lines]", f"[lines]\n{straight}")

    assert "no-thermostat" not in right
    assert ("no-thermostat", ASK) in {(f.code, f.severity) for f in _found(wrong, WARM)}
