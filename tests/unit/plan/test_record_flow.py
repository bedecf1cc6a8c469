# SPDX-License-Identifier: Apache-2.0
"""The record of flow keeps to its schema, says its units, and holds all that there is."""

import json
from collections.abc import Iterator
from dataclasses import fields, replace
from typing import Any

import jsonschema
import pytest

from linewright.flow.model import Flows, SystemState
from linewright.plan.record import dumps
from linewright.plan.record_flow import record_flow, schema_flow
from tests.expected import ROOT
from tests.flows import flows, juniper


def _written(found: Flows) -> dict[str, Any]:
    text = dumps(record_flow(juniper(), found, version="0"))
    whole: dict[str, Any] = json.loads(text)
    return whole


def test_results_keep_to_the_schema() -> None:
    also = replace(flows().states[0], also=flows().states[1])
    for found in (flows(), Flows(), replace(flows(), states=(also,))):
        jsonschema.Draft202012Validator(schema_flow()).validate(_written(found))


def test_the_schema_refuses_a_key_that_it_does_not_name() -> None:
    written = _written(flows())
    written["states"][0]["lines"][0]["drop_bar"] = 1.0

    with pytest.raises(jsonschema.ValidationError, match="drop_bar"):
        jsonschema.Draft202012Validator(schema_flow()).validate(written)


def test_the_schema_in_the_docs_is_the_one_in_force() -> None:
    kept = (ROOT / "docs" / "reference" / "flow.schema.json").read_text(encoding="utf-8")

    assert json.loads(kept) == schema_flow()


def test_every_part_of_a_state_is_written() -> None:
    assert set(_written(flows())["states"][0]) == {f.name for f in fields(SystemState)}


def test_states_stand_in_the_order_of_the_document_and_lines_by_id() -> None:
    written = _written(flows())

    assert [s["condition"] for s in written["states"]] == ["full-power", "hot-idle"]
    lines = [line["id"] for line in written["states"][0]["lines"]]
    assert lines == ["O01", "O02", "O03", "O04", "O05", "O06", "O12"]


def test_a_value_is_written_with_unit_band_and_grade() -> None:
    margin = _written(flows())["states"][0]["margins"][1]

    assert margin["value"] == {
        "value": 62_000.0,
        "unit": "Pa",
        "low": 50_000.0,
        "high": 74_000.0,
        "grade": "practice",
        "basis": "computed",
    }
    assert (margin["least"], margin["verdict"]) == (True, "not met")


def _all(value: object) -> Iterator[object]:
    if isinstance(value, dict):
        for item in value.values():
            yield from _all(item)
    elif isinstance(value, list):
        for item in value:
            yield from _all(item)
    else:
        yield value


def test_numbers_have_nine_figures_and_the_same_results_the_same_bytes() -> None:
    numbers = [n for n in _all(_written(flows())) if isinstance(n, float)]

    assert len(numbers) > 300
    assert [n for n in numbers if float(f"{n:.9g}") != n or str(n) == "-0.0"] == []
    one, two = (dumps(record_flow(juniper(), flows(), version="0")) for _ in range(2))
    assert one == two
