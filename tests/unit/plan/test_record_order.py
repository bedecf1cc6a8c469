# SPDX-License-Identifier: Apache-2.0
"""An order as JSON keeps to its schema, says its units, and has no money in floats."""

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from linewright.faces.cli.order import Asked, order
from linewright.plan.record_order import schema_order
from tests.expected import ROOT

_JUNIPER = ROOT / "examples" / "juniper"
_ROADSTER = ROOT / "examples" / "club-roadster" / "car.toml"


def _written(file: Path, car: Path, **more: Any) -> dict[str, Any]:
    order(car, Asked(in_space=False, json=file, **more))
    whole: dict[str, Any] = json.loads(file.read_text(encoding="utf-8"))
    return whole


def test_an_order_with_offers_keeps_to_the_schema_and_adds_up(tmp_path: Path) -> None:
    written = _written(
        tmp_path / "order.json",
        _JUNIPER / "car.toml",
        offers=(_JUNIPER / "offers",),
        shelf=_JUNIPER / "shelf.csv",
        is_quick=True,
    )
    jsonschema.Draft202012Validator(schema_order()).validate(written)
    lines = [line for box in written["boxes"] for line in box["lines"]]

    assert written["kind"] == "order"
    assert written["proof"]["optimal"] is True
    assert isinstance(written["total"]["amount"], str)
    for box in written["boxes"]:
        cents = [int(line["total"]["amount"].replace(".", "")) for line in box["lines"]]
        assert sum(cents) == int(box["goods"]["amount"].replace(".", ""))
    assert all((line["pieces"] is None) != (line["length_m"] is None) for line in lines)
    assert any(line["length_m"] for line in lines)
    assert [short["name"] for short in written["shorts"]]


def test_an_order_compared_with_others_keeps_to_the_schema(tmp_path: Path) -> None:
    (tmp_path / "barn.csv").write_text(
        "Number,Our code,Price EUR,Unit\nH10,hose -10 rubber braided,9.00,per m\n", encoding="utf-8"
    )
    written = _written(
        tmp_path / "order.json",
        _ROADSTER,
        offers=(tmp_path / "barn.csv",),
        hold=("L1",),
    )
    jsonschema.Draft202012Validator(schema_order()).validate(written)

    assert written["holding"]["held"] == ["L1"]
    assert written["trade_off"]


def test_without_offers_there_is_no_money_in_it(tmp_path: Path) -> None:
    written = _written(tmp_path / "order.json", _ROADSTER)
    jsonschema.Draft202012Validator(schema_order()).validate(written)

    assert written["total"] is None
    assert written["boxes"] == []
    assert written["listed"]


def test_json_alone_goes_to_the_output(capsys: pytest.CaptureFixture[str]) -> None:
    order(_ROADSTER, Asked(in_space=False, json=Path("-")))

    assert json.loads(capsys.readouterr().out)["document"]["name"] == "Club roadster"


def test_the_schema_refuses_a_key_that_it_does_not_name(tmp_path: Path) -> None:
    written = _written(tmp_path / "order.json", _ROADSTER)
    written["listed"][0]["price"] = 1.0

    with pytest.raises(jsonschema.ValidationError, match="price"):
        jsonschema.Draft202012Validator(schema_order()).validate(written)


def test_the_schema_in_the_docs_is_the_one_in_force() -> None:
    kept = (ROOT / "docs" / "reference" / "order.schema.json").read_text(encoding="utf-8")

    assert json.loads(kept) == schema_order()
