# SPDX-License-Identifier: Apache-2.0
"""The record of a plan keeps to its schema, and its schema stands in the docs."""

import json
from collections.abc import Iterator
from pathlib import Path

import jsonschema
import pytest

from linewright.plan.record import document_name, dumps, record, tables_digest
from linewright.plan.schema import schema
from tests.expected import EXAMPLES, ROOT, planned


@pytest.mark.parametrize("folder", EXAMPLES, ids=lambda p: p.name)
def test_every_example_keeps_to_the_schema(folder: Path) -> None:
    written = record(planned(folder), version="0")

    jsonschema.Draft202012Validator(schema()).validate(json.loads(dumps(written)))


@pytest.mark.parametrize("folder", EXAMPLES, ids=lambda p: p.name)
def test_lists_are_sorted_and_ids_are_unique(folder: Path) -> None:
    written = record(planned(folder), version="0")

    for name in ("systems", "components", "ports", "lines", "runs"):
        ids = [item["id"] for item in written[name]]
        assert len(set(ids)) == len(ids), name
    codes = [item["code"] for item in written["parts"]]
    assert len(set(codes)) == len(codes)


def test_a_joint_id_names_one_joint() -> None:
    for folder in EXAMPLES:
        ids = [joint["id"] for joint in record(planned(folder), version="0")["joints"]]

        assert len(set(ids)) == len(ids), folder.name


def test_the_schema_in_the_docs_is_the_one_in_force() -> None:
    kept = (ROOT / "docs" / "reference" / "plan.schema.json").read_text(encoding="utf-8")

    assert json.loads(kept) == schema()


def test_numbers_have_nine_figures_and_no_negative_zero() -> None:
    written = json.loads(dumps(record(planned(EXAMPLES[0]), version="0")))
    numbers = [n for n in _numbers(written) if isinstance(n, float)]

    assert len(numbers) > 50
    assert [n for n in numbers if float(f"{n:.9g}") != n or str(n).startswith("-0.0")] == []
    assert {p["run"]: p["buy_m"] for h in written["hoses"] for p in h["pieces"]}["L1"] == 0.805


def test_a_number_that_is_none_is_refused() -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        dumps({"x": float("nan")})


def _numbers(value: object) -> Iterator[object]:
    if isinstance(value, dict):
        for item in value.values():
            yield from _numbers(item)
    elif isinstance(value, list):
        for item in value:
            yield from _numbers(item)
    else:
        yield value


def test_the_tables_have_one_digest() -> None:
    once = tables_digest()
    tables_digest.cache_clear()

    assert len(once) == 64
    assert tables_digest() == once


def test_a_document_name_is_fit_for_a_file() -> None:
    from linewright.car.model import Car

    assert document_name(Car(name="Éclair №5 / test")) == "éclair-5-test"
    assert document_name(Car(name="???")) == "car"
