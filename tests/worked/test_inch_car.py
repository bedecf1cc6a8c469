# SPDX-License-Identifier: Apache-2.0
"""A rich car whose builder has inches: nothing that is told of it is metric.

Sizes by which parts are bought (a 38 mm bead, a filter of 100 µm) are names and stay; so does what
is to be typed, in quotes.
"""

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from linewright.car.read import read_text
from linewright.plan.make import make
from linewright.plan.model import Plan
from linewright.sheets.findings import findings_list
from linewright.sheets.lists import cut_list, hole_list, hose_list, parts_list
from linewright.sheets.spatial import space_table

CARS = Path(__file__).parents[2] / "examples"
#: A number with a metric unit.
METRIC = re.compile(
    r"\d ?(?:mm|cm|m|kPa|bar|mbar|MPa|°C|K|L|L/min|L/h|m/s|kg|g|kW|N m|km/h|mm²|cm²)(?![\w/²³])"
)
#: What is to be typed, and sizes by which parts are bought.
NAMES = re.compile(
    r"`[^`]*`|\"[^\"]*\"|\b[\d.]+ mm (?:bead|barb|hose|silicone|bore|V-band|across flats)\b"
)


@cache
def plan(name: str) -> Plan:
    text = (CARS / name / "car.toml").read_text(encoding="utf-8")
    return make(read_text(text.replace("[car]\n", '[car]\nshow = "inch"\n', 1)), with_flow=True)


def _metric(text: str | None) -> bool:
    return METRIC.search(NAMES.sub("", text or "")) is not None


def _told(of: Plan) -> Iterator[tuple[str, str | None]]:
    for each in of.checked.findings:
        for text in (each.reason, each.remedy, each.value, each.limit):
            yield each.code, text
    for step in of.checked.steps:
        yield step.code, step.text
    for risk in of.checked.risks:
        yield risk.kind, risk.what
        yield risk.kind, risk.remedy
    for proof in of.checked.proof:
        yield proof.id, proof.reason


@pytest.mark.parametrize("name", ["juniper", "planted"])
def test_no_finding_step_or_risk_of_an_inch_car_is_metric(name: str) -> None:
    told = list(_told(plan(name)))

    assert len({code for code, text in told if text and re.search(r"\d ?(in|psi|°F)\b", text)}) > 5
    assert [(code, text) for code, text in told if _metric(text)] == []


def test_no_list_of_an_inch_car_is_metric_but_in_names_of_parts() -> None:
    of = plan("juniper")
    lists = (
        space_table(of.car, of.routes.courses),
        parts_list(of),
        hose_list(of),
        cut_list(of),
        hole_list(of),
        findings_list(of),
    )
    named = ("Part", "Code", "Hose", "By the", "End A", "End B", "What", "Source")
    found = [
        (table.name, column.head, text)
        for table in lists
        for row in table.rows
        for column, text in zip(table.columns, row, strict=True)
        if column.head not in named and _metric(text)
    ]

    assert found == []
    assert not any(_metric(table.note) for table in lists)
