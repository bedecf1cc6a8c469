# SPDX-License-Identifier: Apache-2.0
"""Published answers on flow and heat, each with its source and tolerance, against our code.

The rows are ``worked_examples.csv``: a book's or a library's answer as ``expected``, where it
stands as ``source`` and ``place``. What an independent recomputation gave is in ``recomputed``;
the answers here come from linewright alone.
"""

import json

import pytest

from linewright.tables.load import rows
from tests.worked import flow_lines, flow_machines, flow_networks

#: Rows that are no test of linewright, and why.
OUT_OF_SCOPE = {
    "F06": "the laminar law forced on a turbulent flow, to show that it is wrong",
    "O02": "Manning's formula, which knows no viscosity, is not used for oil",
    "H03": "read from a chart, and below what even pure counterflow needs",
    "H07": "fouling is not reckoned with",
    "H11": "a heat flux that is given, so that only a heat balance is left",
    "V02": "the tables of the viscosity index are not shipped; no result needs it",
    "V22": "a limit, with nothing to compute; see the test of oils and their grades",
    "V23": "a limit, with nothing to compute; see the test of oils and their grades",
    "V24": "viscosity at high shear, which no line has",
}
#: Rows that we miss on good grounds: how far at most [%], and why.
MISSED = {"V04": (2.0, "the book draws a straight line between two rows; ASTM D341 bends below it")}
ROWS = {row["id"]: row for row in rows("worked_examples")}
LISTS = flow_networks.ANSWERS
NUMBERS = flow_lines.ANSWERS | flow_machines.ANSWERS | flow_networks.NUMBERS


def test_every_row_is_computed_or_has_a_reason_why_not() -> None:
    assert set(ROWS) == set(NUMBERS) | set(LISTS) | set(OUT_OF_SCOPE)
    assert not (set(NUMBERS) | set(LISTS)) & set(OUT_OF_SCOPE)


@pytest.mark.parametrize("number", sorted(NUMBERS))
def test_a_published_answer_is_met_within_its_tolerance(number: str) -> None:
    row = ROWS[number]
    found = NUMBERS[number](json.loads(row["inputs"]))
    expected = float(row["expected"])
    tolerance = MISSED.get(number, (float(row["tolerance_percent"]), ""))[0]

    assert abs(found - expected) <= tolerance / 100.0 * abs(expected), (row["source"], found)


@pytest.mark.parametrize("number", sorted(LISTS))
def test_a_published_network_is_met_within_its_tolerance(number: str) -> None:
    row = ROWS[number]
    found = LISTS[number](json.loads(row["inputs"]))
    expected, tolerance = json.loads(row["expected"]), float(row["tolerance_percent"])
    most = max(abs(value) for value in expected)

    assert len(found) == len(expected)
    for ours, theirs in zip(found, expected, strict=True):
        # Flows of one network are held against its largest; P11 has a flow and a head.
        scale = abs(theirs) if number == "P11" else most
        assert abs(ours - theirs) <= tolerance / 100.0 * scale, (row["source"], found)
