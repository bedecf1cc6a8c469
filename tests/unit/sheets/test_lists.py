# SPDX-License-Identifier: Apache-2.0
"""The lists say what the plan holds, row for row."""

from dataclasses import replace
from functools import cache

from linewright.base.finding import Severity
from linewright.plan.model import Plan
from linewright.sheets import findings, lists
from linewright.sheets.book import book, verdict
from linewright.sheets.buying import buying_list, system_letters
from linewright.sheets.grounds import grounds
from linewright.sheets.measure import measure_list, plug_list, to_measure
from linewright.sheets.table import Table
from tests.expected import ROOT, planned


@cache
def _plan(name: str) -> Plan:
    return planned(ROOT / "examples" / name)


def _column(table: Table, head: str) -> list[str]:
    place = [column.head for column in table.columns].index(head)
    return [row[place] for row in table.rows]


def test_every_row_of_every_table_has_a_cell_for_each_column() -> None:
    for name in ("juniper", "club-roadster", "e85-boot", "planted"):
        leaves = (*book(_plan(name), ()).leaves, *grounds(_plan(name)).leaves)
        tables = [leaf for leaf in leaves if isinstance(leaf, Table)]

        assert tables
        for table in tables:
            assert {len(row) for row in table.rows} <= {len(table.columns)}, table.title


def test_the_line_list_has_a_row_for_each_piece_in_natural_order() -> None:
    plan = _plan("juniper")
    shown = _column(lists.line_list(plan), "Line")

    assert sorted(shown) == sorted(run.id for run in plan.routes.runs)
    assert shown.index("O01a") < shown.index("O02") < shown.index("O11a")


def test_a_port_without_a_chain_says_measure() -> None:
    plan = _plan("juniper")
    table = lists.line_list(plan)
    ends = dict(zip(_column(table, "Line"), _column(table, "End B"), strict=True))

    assert ends["F02"] == "not chosen: measure the port"


def test_the_parts_list_names_every_id_and_the_one_of_the_book_says_how_many_more() -> None:
    plan = _plan("juniper")
    row = next(r for r in plan.takeoff.rows if len(r.because) > 6)
    short, whole = buying_list(plan), lists.parts_list(plan)
    asked = dict(
        zip(_column(short, "Part and its code"), _column(short, "Asked for by"), strict=True)
    )
    every = dict(zip(_column(whole, "Code"), _column(whole, "Asked for by"), strict=True))

    assert f"and {len(row.because) - 6} more" in asked[f"{row.name}\n{row.code}"]
    assert every[row.code] == ", ".join(row.because)


def test_the_parts_to_buy_say_what_each_system_needs_of_them() -> None:
    plan = _plan("juniper")
    table = buying_list(plan)
    shares = dict(zip(_column(table, "Part and its code"), _column(table, "For"), strict=True))
    letters = system_letters(plan.car)

    assert letters == {
        "oil": "O",
        "coolant": "C",
        "charge-coolant": "W",
        "fuel": "F",
        "charge-air": "A",
    }
    assert len(table.rows) == len(plan.takeoff.rows)
    for row in plan.takeoff.rows:
        told = dict(
            word.split(" ") for word in shares[f"{row.name}\n{row.code}"].split(", ") if word
        )
        assert {k: int(n) for k, n in told.items()} == {
            letters.get(system, system): need for system, need in row.by_system if need
        }


def test_systems_that_share_a_letter_are_told_by_their_names() -> None:
    car = _plan("juniper").car
    twice = {**car.systems, "cooler-oil": replace(car.systems["oil"], id="cooler-oil")}

    assert system_letters(replace(car, systems=twice)) == {}


def test_cut_list_has_a_box_to_tick_and_a_reason_where_no_length_stands() -> None:
    table = lists.cut_list(_plan("club-roadster"))
    cuts = dict(zip(_column(table, "Line"), _column(table, "Cut"), strict=True))
    notes = dict(zip(_column(table, "Line"), _column(table, "Note"), strict=True))

    assert cuts["L1"] == "–"
    assert "cut in place" in notes["L1"]
    assert cuts["L2"].endswith("mm [M]") or cuts["L2"].endswith("mm [P]")
    assert set(_column(table, "Made")) == {"□"}


def test_findings_stand_worst_first_with_word_and_shape() -> None:
    table = findings.findings_list(_plan("planted"))
    weights = _column(table, "Weight")
    order = ["■ stop", "▲ warn", "◆ ask", "○ note"]

    assert weights == sorted(weights, key=order.index)
    assert weights[0] == "■ stop"


def test_risks_of_one_kind_are_told_together_and_none_is_lost() -> None:
    plan = _plan("juniper")
    table = findings.risk_list(plan)
    told = [i.strip() for cell in _column(table, "About") for i in cell.split(",")]

    assert sorted(told) == sorted(i for risk in plan.checked.risks for i in risk.about)
    assert len(table.rows) < len(plan.checked.risks)


def test_steps_are_told_once_and_none_is_lost() -> None:
    plan = _plan("juniper")
    table = findings.step_list(plan)
    told = {i.strip() for cell in _column(table, "At") for i in cell.split(",")}

    assert told == {step.about[0] for step in plan.checked.steps}
    assert len(set(_column(table, "Step"))) == len(table.rows)


def test_every_default_is_in_the_list() -> None:
    plan = _plan("e85-boot")
    told = {
        (section, owner, name, value)
        for section, owners, name, value, _ in findings.default_list(plan).rows
        for owner in (owners.split(", ") or [""])
    }
    assumed = set()
    for key, value, _ in plan.car.assumed:
        section, _, rest = key.partition(".")
        owner, _, name = rest.rpartition(".")
        assumed.add((section, owner, name, value))

    assert assumed
    assert assumed <= told


def test_the_proof_lists_every_port() -> None:
    plan = _plan("juniper")
    listed = _column(findings.proof_list(plan), "Port or function")

    assert {port.id for port in plan.car.ports} <= set(listed)


def test_the_verdict_counts_what_is_not_overruled() -> None:
    plan = _plan("club-roadster")
    stand = [f.severity for f in plan.findings if f.overruled is None]
    warns, asks = stand.count(Severity.WARN), stand.count(Severity.ASK)

    assert verdict(_plan("planted")).startswith("Do not order yet: ")
    assert warns > 1
    assert asks > 1
    assert verdict(plan).startswith(f"No stop. {warns} warnings, {asks} asks;")


def test_ports_to_measure_start_with_the_unknown_ones() -> None:
    plan = _plan("juniper")
    ports = to_measure(plan)
    unknown = [port.end.is_unknown for port, _ in ports]

    assert unknown[0]
    assert unknown == sorted(unknown, reverse=True)
    assert [row[0] for row in measure_list(plan).rows] == [port.id for port, _ in ports]
    assert 1 <= len(plug_list(plan).rows) <= 8
