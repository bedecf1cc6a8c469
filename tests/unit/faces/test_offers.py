# SPDX-License-Identifier: Apache-2.0
"""``linewright offers``: what it prints, asks and writes."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from linewright.faces.cli.main import app

_LIST = """\
SKU,Item description,Price (EUR),Pack
1,1/2 NPT to -10 male flare adaptor,6.20,1
2,-8 ORB O-rings,3.00,10
3,Workshop stool,30.00,1
4,AN8 union,-1,1
"""


@pytest.fixture
def lists(tmp_path: Path) -> Path:
    """A supplier's list."""
    path = tmp_path / "barn.csv"
    path.write_text(_LIST, encoding="utf-8")
    return path


def _run(*words: str) -> str:
    result = CliRunner().invoke(app, ["offers", *words], catch_exceptions=False)
    assert result.exit_code == 0
    return result.output


def test_rows_are_shown_asked_and_refused(lists: Path) -> None:
    assert _run("-", str(lists)) == (
        "3 offers of 1 supplier: 1 recognised, 0 answered, 1 to ask, 1 nothing of ours; "
        "1 row refused.\n"
        "\n"
        "Columns, as they were taken\n"
        '  barn: number is "SKU", description is "Item description", price is "Price (EUR)", pack is '
        '"Pack"\n'
        "\n"
        "Recognised\n"
        "  barn: 1: 6.20 EUR each\n"
        "      adaptor-npt-half-m-to-flare-10-m (0.98)\n"
        "\n"
        "To ask (answer with --yes ID or --no ID)\n"
        "  Q4b61a2  barn: 2: -8 ORB O-rings\n"
        "      is it O-ring AS568-908, NBR (or O-ring AS568-908, FKM, O-ring AS568-908, EPDM)? "
        "O-ring AS568-908, of which rubber is not said: more than one fits\n"
        "\n"
        "Refused\n"
        '  barn.csv row 5: price "-1" is negative: a price is above 0\n'
    )


def test_a_hose_sold_each_without_a_length_is_asked_about(tmp_path: Path) -> None:
    path = tmp_path / "barn.csv"
    path.write_text("SKU,Description,Price EUR,Unit\n1,-10 rubber braided hose,18.00,each\n")

    assert (
        "To ask of the supplier\n"
        "  barn: 1: -10 rubber braided hose\n"
        "      how long is one? It is a hose, sold each, with no length: say per m, per ft or the "
        "length in the list, or it is not bought.\n"
    ) in _run("-", str(path))


def _record(lists: Path, *words: str) -> dict[str, list[dict[str, str]]]:
    record: dict[str, list[dict[str, str]]] = json.loads(
        _run("-", str(lists), "--json", "-", *words)
    )
    return record


def test_a_typed_answer_is_kept_with_who_gave_it_and_not_asked_again(lists: Path) -> None:
    question = next(o["question"] for o in _record(lists)["offers"] if o["question"])
    _run("-", str(lists), "--yes", f"{question}=O-ring AS568-908, FKM", "--who", "Kit")
    record = _record(lists)
    kept = (lists.parent / "answers.csv").read_text(encoding="utf-8").splitlines()

    assert [o["question"] for o in record["offers"]] == [None, None, None]
    assert [o["part"] for o in record["offers"]][1] == "O-ring AS568-908, FKM"
    assert kept[1].startswith('barn,2,\'-8 ORB O-rings,"O-ring AS568-908, FKM",yes,Kit,2')


def test_an_answer_to_no_question_is_refused_with_the_questions(lists: Path) -> None:
    result = CliRunner().invoke(app, ["offers", "-", str(lists), "--no", "Q000000"])

    assert str(result.exception).startswith('"Q000000" is no question that is asked; the questions')


def test_the_columns_are_written_into_the_terms_when_asked(lists: Path) -> None:
    out = _run("-", str(lists), "--remember")

    assert out.startswith("Columns of barn written to suppliers.toml.\n")
    assert '[supplier.barn.columns]\nnumber = "SKU"' in (lists.parent / "suppliers.toml").read_text(
        encoding="utf-8"
    )
