# SPDX-License-Identifier: Apache-2.0
"""Worked systems A and B: exactly the findings that their right answers name.

Right answers: common practice throughout, written down before the tool was (sections 7 and 8
of the acceptance examples).
"""

from collections import Counter
from pathlib import Path

import pytest

from linewright.base.finding import Severity
from linewright.car.read import read
from linewright.plan.make import make
from linewright.plan.model import Plan

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.fixture(scope="module")
def roadster() -> Plan:
    return make(read(EXAMPLES / "club-roadster" / "car.toml"))


@pytest.fixture(scope="module")
def boot() -> Plan:
    return make(read(EXAMPLES / "e85-boot" / "car.toml"))


def _codes(plan: Plan, *severities: Severity) -> Counter[str]:
    return Counter(f.code for f in plan.findings if f.severity in severities)


def _ports(plan: Plan, code: str) -> set[str]:
    return {i for f in plan.findings if f.code == code for i in f.about}


def test_system_a_warns_of_tapers_at_seven_ports_and_of_nothing_else(roadster: Plan) -> None:
    assert _codes(roadster, Severity.STOP) == Counter()
    assert _codes(roadster, Severity.WARN) == Counter({"taper-in-aluminium": 7})
    assert _ports(roadster, "taper-in-aluminium") == {
        "TOP.OUT",
        "TOP.IN",
        "FH.in-L",
        "FH.in-R",
        "FH.out-L",
        "FH.out-R",
        "FH.gauge",
    }


def test_system_a_asks_three_things(roadster: Plan) -> None:
    assert _codes(roadster, Severity.ASK) == Counter(
        {"filter-bypass": 1, "cooler-direction": 1, "hose-bore": 1}
    )


def test_system_a_notes_that_its_filter_thread_is_also_a_dash_eight(roadster: Plan) -> None:
    (note,) = (f for f in roadster.findings if f.code == "look-alike")

    assert "3/4-16" in note.reason
    assert "-8 flare" in note.reason
    assert "-8 ORB" in note.reason
    assert "ENG.filter" in note.about


def test_system_a_asks_for_the_bore_with_both_bores(roadster: Plan) -> None:
    (ask,) = (f for f in roadster.findings if f.code == "hose-bore")

    assert ask.value == "12.7 mm or 14.3 mm"


def test_system_a_has_the_plate_marked(roadster: Plan) -> None:
    assert ("mark-out-in", ("TOP",)) in {(s.code, s.about) for s in roadster.checked.steps}


def test_system_a_answers_every_port_and_function(roadster: Plan) -> None:
    missing = {row.id for row in roadster.checked.proof if row.state in ("missing", "unknown")}

    assert missing == {"FH.bypass"}


def test_system_b_warns_of_the_rings_in_the_bag_only(boot: Plan) -> None:
    assert _codes(boot, Severity.STOP) == Counter()
    assert _codes(boot, Severity.WARN) == Counter({"seal-as-supplied": 1})


def test_system_b_asks_three_things(boot: Plan) -> None:
    assert _codes(boot, Severity.ASK) == Counter(
        {"pump-not-flooded": 1, "fuel-shut-off": 1, "hose-rating": 1}
    )


def test_system_b_notes_its_lowest_point(boot: Plan) -> None:
    assert {f.about for f in boot.findings if f.code == "drain-lowest"} == {("FC.drain",)}


def test_system_b_prints_the_steps_at_bent_ends_and_at_the_engine(boot: Plan) -> None:
    steps = {(s.code, s.about) for s in boot.checked.steps}

    assert {("clock-ends", (line,)) for line in ("F05", "F06", "F07")} <= steps
    assert {("slack-at-engine", ("F05",)), ("slack-at-engine", ("F07",))} <= steps
    assert ("slack-at-engine", ("F04",)) not in steps


def test_system_b_has_one_open_end_and_that_on_purpose(boot: Plan) -> None:
    open_ends = {row.id for row in boot.checked.proof if row.state == "open"}

    assert open_ends == {"BH3.outside"}


def test_system_b_answers_every_port_and_function_but_the_shut_off(boot: Plan) -> None:
    missing = {row.id for row in boot.checked.proof if row.state in ("missing", "unknown")}

    assert missing == {"FC.shut-off"}
