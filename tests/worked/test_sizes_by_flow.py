# SPDX-License-Identifier: Apache-2.0
"""Sizes that are left to the tool and that flow chooses, each held against the car planned whole.

What is chosen has to meet its limits, and the next smaller size has to miss the one that is named.
Limits are common practice; the pressures of case F1 were computed beforehand [computed].
"""

import re
from functools import cache

import pytest

from linewright.base.finding import Finding, Severity
from linewright.car.read import read_text
from linewright.flow.limiting import closeness
from linewright.flow.model import Margin, Verdict
from linewright.flow.smallest import Smallest
from linewright.plan import sizes
from linewright.plan.make import Memo, make
from linewright.plan.model import Plan
from linewright.plan.record import dumps, record
from linewright.plan.sizes import settle
from tests.flowing import EXAMPLES
from tests.worked.test_flow_in_cars import F1

ROADSTER = (EXAMPLES / "club-roadster" / "car.toml").read_text(encoding="utf-8")
SIZE = re.compile(r"^(L\d +=.*?)( ?\})$", re.MULTILINE)
SUCTION = F1.replace("FLOW", "89").replace('size = "-SIZE"', 'size = "auto"')


def sized(size: str) -> str:
    """System A with all of its hoses in a size."""
    text, count = SIZE.subn(rf'\1, size = "{size}"\2', ROADSTER)
    assert count == 5
    return text


@cache
def planned(text: str) -> Plan:
    return make(read_text(text), in_space=False, with_flow=True)


def told(plan: Plan, line: str) -> Finding:
    (found,) = (f for f in plan.findings if f.code == "size-chosen" and f.about == (line,))
    return found


def held(plan: Plan, system: str, what: str, where: str) -> list[Margin]:
    assert plan.flows is not None
    return [
        m
        for s in plan.flows.states
        if s.system == system and s.condition != "cold-start"
        for m in s.margins
        if (m.what, m.where) == (what, where)
    ]


def test_a_suction_gets_the_smallest_hose_that_does_not_starve_its_pump() -> None:
    plan = planned(SUCTION.replace("SIZE", "20"))

    assert plan.car.lines["O01"].size == "-20"
    assert told(plan, "O01").reason.startswith(
        "O01: -20 is the smallest rubber braided hose with pump inlet at least 0.85 bar absolute: "
        "it gives "
    )
    assert "-16 gives " in told(plan, "O01").reason
    assert all(m.verdict is Verdict.MET for m in held(plan, "oil", "pump inlet", "pump.inlet"))


def test_the_next_smaller_suction_misses_what_is_named() -> None:
    plan = planned(SUCTION.replace("SIZE", "20").replace('"auto"', '"-16"'))

    worst = min(held(plan, "oil", "pump inlet", "pump.inlet"), key=closeness)
    assert worst.verdict is not Verdict.MET


def test_a_line_that_no_size_helps_keeps_the_largest_and_says_what_is_missed() -> None:
    plan = planned(SUCTION.replace("SIZE", "16"))

    assert plan.car.lines["O01"].size == "-16"
    assert told(plan, "O01").reason.startswith(
        "O01: -16 is the largest rubber braided hose that its ports take, and it keeps that, since "
        "no size gives pump inlet at least 0.85 bar absolute: it is 0."
    )


def test_system_a_is_minus_ten_where_its_velocity_settles_it() -> None:
    plan = planned(sized("auto"))

    assert {line.size for line in plan.car.lines.values()} == {"-10"}
    for name in plan.car.lines:
        assert "with velocity at most 6.0 m/s: it gives 3." in told(plan, name).reason
        assert all(m.verdict is Verdict.MET for m in held(plan, "oil", "velocity", name))


@pytest.mark.parametrize("name", ["L1", "L2", "L3", "L4", "L5"])
def test_one_line_of_system_a_in_one_size_less_is_too_fast_for_what_is_known(name: str) -> None:
    text, count = re.subn(rf'(?m)^({name} +=.*?size = )"-10"', r'\1"-8"', sized("-10"))
    assert count == 1
    plan = planned(text)

    assert any(m.verdict is not Verdict.MET for m in held(plan, "oil", "velocity", name))


def test_the_size_table_says_what_flow_chose_and_shows_the_others() -> None:
    plan = planned(sized("auto"))
    assert plan.flows is not None
    rows = [row for row in plan.flows.sizes if row.line == "L1"]

    assert [row.size for row in rows] == ["-6", "-8", "-10", "-12", "-16"]
    (chosen,) = (row for row in rows if row.is_chosen)
    assert chosen.why.startswith(
        "chosen by flow: the smallest with velocity at most 6.0 m/s; gallery pressure "
    )


def test_a_pump_that_turns_freely_keeps_its_flow() -> None:
    text = (EXAMPLES / "juniper" / "car.toml").read_text(encoding="utf-8")
    text, count = re.subn(r"(?m)^(W0[34] = \{)", r'\1 size = "auto",', text)
    assert count == 2
    plan = planned(text)

    for name in ("W03", "W04"):
        assert " hose with flow of the pump at least " in told(plan, name).reason


def test_sizes_are_the_same_from_a_memory_as_without() -> None:
    car = read_text(SUCTION.replace("SIZE", "20"))
    memo = Memo()
    make(read_text(SUCTION.replace("SIZE", "16")), memo=memo)

    once = dumps(record(make(car), version="t"))
    assert once == dumps(record(make(car), version="t"))
    assert once == dumps(record(make(car, memo=memo), version="t"))


def test_a_car_whose_sizes_are_typed_asks_flow_for_nothing(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(sizes, "reckon", lambda *_: pytest.fail("flow was asked"))

    assert make(read_text(ROADSTER), in_space=False).car.lines


def test_answers_that_go_round_leave_the_larger() -> None:
    turn = {"-12": "-8", "-8": "-10", "-10": "-8"}
    found = settle({"L1": "-12"}, lambda now: {"L1": turn[now["L1"]]}, 9)

    assert found.sizes == {"L1": "-10"}
    assert found.tried == ({"L1": "-8"}, {"L1": "-10"})


def test_no_more_is_asked_than_the_setting_says() -> None:
    asked: list[str] = []
    larger = {"-4": "-6", "-6": "-8", "-8": "-10", "-10": "-12", "-12": "-16"}

    def ask(now: dict[str, str]) -> dict[str, str]:
        asked.append(now["L1"])
        return {"L1": larger[now["L1"]]}

    found = settle({"L1": "-4"}, ask, 3)

    assert asked == ["-4", "-6", "-8"]
    assert found.sizes == {"L1": "-10"}


def test_sizes_that_do_not_settle_are_told(monkeypatch: pytest.MonkeyPatch) -> None:
    def turning(car, routes, judged, open_to):  # type: ignore[no-untyped-def]
        size = "-20" if car.lines["O01"].size == "-16" else "-16"
        return {"O01": Smallest("O01", size, "-20")}

    monkeypatch.setattr(sizes, "smallest", turning)
    plan = make(read_text(SUCTION.replace("SIZE", "20")), in_space=False)
    (found,) = (f for f in plan.findings if f.code == "size-unsettled")

    assert found.severity is Severity.WARN
    assert found.reason == (
        "Sizes by flow did not settle: what fits one does not fit the next (O01: -20, -16). The "
        "larger stands."
    )
    assert plan.car.lines["O01"].size == "-20"
    assert (
        "-20 stands: flow asks for -20, then for -16, and does not settle"
        in told(plan, "O01").reason
    )
