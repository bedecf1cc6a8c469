# SPDX-License-Identifier: Apache-2.0
"""How sure an order is, as JSON: it keeps to its schema, and an index is no money."""

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from linewright.faces.cli.confidence import confidence
from linewright.faces.cli.order import Asked
from linewright.studies.record import schema_confidence
from tests.expected import ROOT

_CAR = ROOT / "examples" / "club-roadster" / "car.toml"


def _written(file: Path, **more: Any) -> dict[str, Any]:
    confidence(_CAR, Asked(is_quick=True, in_space=False, json=file, **more), level=25)
    whole: dict[str, Any] = json.loads(file.read_text(encoding="utf-8"))
    return whole


def test_without_offers_it_keeps_to_the_schema_and_has_indices(tmp_path: Path) -> None:
    written = _written(tmp_path / "sure.json")
    jsonschema.Draft202012Validator(schema_confidence()).validate(written)

    assert written["kind"] == "confidence"
    assert written["currency"] is None
    assert written["spares"]["level"] == 0.25
    assert all(point["price"] is None for point in written["curve"])
    assert written["curve"][-1]["price_index"] > 0


def test_with_offers_money_is_text_and_what_nobody_offers_is_named(tmp_path: Path) -> None:
    (tmp_path / "barn.csv").write_text(
        "Number,Our code,Price EUR,Unit\nH10,hose -10 rubber braided,9.00,per m\n", encoding="utf-8"
    )
    written = _written(tmp_path / "sure.json", offers=(tmp_path / "barn.csv",))
    jsonschema.Draft202012Validator(schema_confidence()).validate(written)

    assert written["currency"] == "EUR"
    assert written["curve"][0]["price"] == {"amount": "0.00", "currency": "EUR"}
    assert written["curve"][0]["price_index"] is None
    assert written["elsewhere"]


def test_json_alone_goes_to_the_output(capsys: pytest.CaptureFixture[str]) -> None:
    confidence(_CAR, Asked(is_quick=True, in_space=False, json=Path("-")))

    assert json.loads(capsys.readouterr().out)["document"]["name"] == "Club roadster"


def test_the_schema_in_the_docs_is_the_one_in_force() -> None:
    kept = (ROOT / "docs" / "reference" / "confidence.schema.json").read_text(encoding="utf-8")

    assert json.loads(kept) == schema_confidence()
