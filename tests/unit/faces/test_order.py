# SPDX-License-Identifier: Apache-2.0
"""``linewright order`` as it is typed: what it prints, writes and refuses."""

import csv
import io
import re
from datetime import date, timedelta
from pathlib import Path

import openpyxl
import pytest

from linewright.base.errors import OrderError
from linewright.faces.cli.order import Asked, _days, order
from tests.expected import ROOT

JUNIPER = ROOT / "examples" / "juniper"
ROADSTER = ROOT / "examples" / "club-roadster" / "car.toml"

HEADS = "Number,Our code,Description,Price EUR,Pack,Stock,Lead days,Unit\n"


@pytest.fixture(autouse=True)
def _wide(monkeypatch: pytest.MonkeyPatch) -> None:
    """As wide as a wide terminal, whatever the tests are run in."""
    monkeypatch.setenv("COLUMNS", "110")


def _asked(**more: object) -> Asked:
    return Asked(in_space=False, **more)  # type: ignore[arg-type]


def _cells(path: Path) -> list[list[str]]:
    return list(csv.reader(io.StringIO(path.read_text(encoding="utf-8"))))


def test_the_example_s_offers_are_ordered_proved_and_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    asked = _asked(
        offers=(JUNIPER / "offers",), shelf=JUNIPER / "shelf.csv", out=tmp_path, is_quick=True
    )

    order(JUNIPER / "car.toml", asked)

    said = capsys.readouterr().out
    names = {path.name for path in tmp_path.iterdir()}
    assert "Proved: no order of these offers that covers the same" in said
    assert "\nask  not-sold: " in said
    assert "\n  nobody offers it:\n" in said
    assert "\n    1 of screen, -4 flare nut to -4 flare male\n" in said
    assert said.count("nobody offers it") == 1
    assert said.rstrip().endswith("Nothing was sent to anybody.")
    assert {
        "order.pdf", "order.xlsx", "check-list.pdf", "check-list.csv", "cutting-plan.csv",
        "order-lines.csv", "order-quarry.csv", "order-quarry.pdf", "order-north-lane.pdf",
    } <= names  # fmt: skip
    assert (tmp_path / "order-quarry.pdf").read_bytes().startswith(b"%PDF")


def test_the_lines_add_up_to_the_goods_of_each_supplier(tmp_path: Path) -> None:
    asked = _asked(offers=(JUNIPER / "offers",), out=tmp_path, is_quick=True)

    order(JUNIPER / "car.toml", asked)

    lines = _cells(tmp_path / "order-lines.csv")[1:]
    for row in _cells(tmp_path / "order-summary.csv")[1:]:
        supplier, count, goods = row[0], row[1], row[2].split()[0].replace(",", "")
        mine = [line for line in lines if line[0] == supplier]

        assert len(mine) == int(count)
        assert f"{sum(float(line[7]) for line in mine):.2f}" == goods


def test_without_offers_there_is_a_whole_list_and_no_sum_of_money(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Case B4: no price list at all."""
    order(ROADSTER, _asked(out=tmp_path))

    said = capsys.readouterr().out
    assert "All that is needed:" in said
    assert "it is no money, and its sum is none" in " ".join(said.split())
    assert "EUR" not in said
    assert {path.name for path in tmp_path.iterdir()} == {
        "to-buy.pdf", "to-buy.csv", "from-shelf.csv", "order.xlsx"
    }  # fmt: skip


def test_cells_that_would_be_run_as_formulas_are_not(tmp_path: Path) -> None:
    offers = tmp_path / "evil.csv"
    rows = "".join(
        f"{sign}1,hose-tag,{sign}2+5 tags,0.40,1,500,2,each\n" for sign in ("=", "+", "-", "@")
    )
    offers.write_text(HEADS + rows, encoding="utf-8")

    order(ROADSTER, _asked(offers=(offers,), out=tmp_path / "out", is_quick=True))

    for path in (tmp_path / "out").glob("*.csv"):
        for row in _cells(path):
            for cell in row:
                assert not cell.startswith(("=", "+", "-", "@")), path.name
    book = openpyxl.load_workbook(tmp_path / "out" / "order.xlsx")
    kinds = {cell.data_type for sheet in book for row in sheet.rows for cell in row}
    assert "f" not in kinds


def test_an_offer_in_the_trade_s_words_is_bought_and_a_doubtful_one_is_not(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    offers = tmp_path / "mail.csv"
    rows = (
        "K1,,-8 ORB male to -8 AN male adaptor,4.10,1,50,2,each\n"
        "K2,,adaptor -8,3.10,1,50,2,each\n"
        "K3,,garden gnome,9.10,1,50,2,each\n"
    )
    offers.write_text(HEADS + rows, encoding="utf-8")

    order(JUNIPER / "car.toml", _asked(offers=(offers,), out=tmp_path / "out", is_quick=True))

    said = " ".join(capsys.readouterr().out.split())
    lines = _cells(tmp_path / "out" / "order-lines.csv")[1:]
    assert [(line[1], line[3]) for line in lines] == [("K1", "adaptor-orb-8-m-to-flare-8-m")]
    assert "1 offer may be a part of this car or may not, left out" in said
    assert "1 offer left out: nothing that a car is plumbed with" in said


@pytest.mark.parametrize(
    ("more", "message"),
    [
        (
            {"by": ("gas=14",)},
            '--by "gas=14": "gas" is no system. Systems: oil.',
        ),
        (
            {"by": ("oil=soon",)},
            '--by "oil=soon": write days from today or a date, as oil=14 or oil=2031-05-20.',
        ),
        ({"hold": ("Z99",)}, '--hold "Z99" is no system, line or part of Club roadster.'),
        (
            {"both": ("nowhere",)},
            '--both "nowhere" is no port that can be read in several ways. Such ports: none.',
        ),
        ({"budget": "lots"}, '--budget "lots" is no amount of EUR; write it as 850 or 850.00.'),
    ],
)
def test_what_cannot_be_meant_is_refused(more: dict[str, object], message: str) -> None:
    with pytest.raises(OrderError) as refused:
        order(ROADSTER, _asked(**more))

    assert str(refused.value) == message


@pytest.mark.parametrize("seconds", [-1.0, 0.0, float("nan")])
def test_a_search_without_time_is_refused(seconds: float) -> None:
    with pytest.raises(OrderError) as refused:
        order(ROADSTER, _asked(seconds=seconds))

    assert str(refused.value) == (
        f"--seconds {seconds:g} is no time to search: write more than 0, as --seconds 20."
    )


def test_a_car_shown_in_inches_has_its_order_in_feet_and_inches(tmp_path: Path) -> None:
    text = ROADSTER.read_text(encoding="utf-8")
    car = tmp_path / "car.toml"
    car.write_text(text.replace("[car]\n", '[car]\nshow = "inch"\n'), encoding="utf-8")
    (tmp_path / "barn.csv").write_text(
        "Number,Our code,Price EUR,Unit\nH10,hose -10 rubber braided,9.00,coil 6 m\n",
        encoding="utf-8",
    )

    order(car, _asked(out=tmp_path / "bare"))
    order(car, _asked(offers=(tmp_path / "barn.csv",), out=tmp_path / "out", is_quick=True))

    needed = {row[1]: row[2] for row in _cells(tmp_path / "bare" / "to-buy.csv")[1:]}
    cuts = _cells(tmp_path / "out" / "cutting-plan.csv")
    checked = _cells(tmp_path / "out" / "check-list.csv")[1:]
    assert [count for count in needed.values() if " ft for " in count]
    assert not [count for count in needed.values() if " m for " in count]
    assert "Pieces (in)" in cuts[0]
    assert any("236 1/4 in" in row for row in cuts[1:])
    assert not [cell for row in cuts[1:] for cell in row if cell.endswith("mm")]
    assert any("19.7 ft" in row for row in checked)


def test_a_list_that_cannot_be_read_is_named_beside_the_order_of_the_others(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "barn.csv").write_text(
        "Number,Our code,Price EUR,Unit\nH10,hose -10 rubber braided,9.00,per m\n,,,\nX,,-1,\n",
        encoding="utf-8",
    )
    (tmp_path / "gone.csv").symlink_to(tmp_path / "nowhere.csv")

    order(ROADSTER, _asked(offers=(tmp_path,), is_quick=True))

    assert (
        "Lists that could not be read, so that nothing of them is in the order:\n"
        "  gone.csv: cannot be read: No such file or directory.\n"
        "Rows of the offers that could not be read: 1; linewright offers tells why.\n"
    ) in capsys.readouterr().out


def test_a_date_is_counted_in_days_from_today() -> None:
    day = date.today() + timedelta(days=12)

    assert _days((f"oil={day.isoformat()}", "fuel=5"), {"oil": 0, "fuel": 0}) == (
        ("fuel", 5),
        ("oil", 12),
    )


def test_a_plan_with_stops_says_how_many_and_which_before_its_order(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = ROADSTER.read_text(encoding="utf-8")
    line = '"FH.in-R"       = "plug"\n'
    assert text.count(line) == 1
    car = tmp_path / "car.toml"
    car.write_text(text.replace(line, ""), encoding="utf-8")

    code = order(car, _asked(out=tmp_path / "out"))

    assert code == 1
    assert _cells(tmp_path / "out" / "order-stops.csv")[1][:2] == ["open-port", "FH.in-R"]
    book = openpyxl.load_workbook(tmp_path / "out" / "order.xlsx")
    assert book.sheetnames[0] == "Do not order yet, stops first"
    assert capsys.readouterr().out.startswith(
        "Club roadster\n"
        "The plan has 1 stop: what it is about is not to be ordered. Hold it with --hold, or settle it first.\n"
        "  open-port: FH.in-R\n"
    )


def test_readings_that_nobody_sells_the_parts_of_have_no_price(
    tmp_path: Path,
) -> None:
    text = ROADSTER.read_text(encoding="utf-8")
    end = '{ end = "M22x1.5 flat face", known = "read" }'
    assert f'"TH.engine-in" = {end}' in " ".join(text.split())
    car = tmp_path / "car.toml"
    said = re.sub(r'("TH.engine-in"\s*= \{ end = )"[^"]*"', r'\1"1/2 BSP"', text)
    assert said != text
    car.write_text(said, encoding="utf-8")
    (tmp_path / "barn.csv").write_text(
        "Number,Description,Price EUR\nA1,Plug 1/2 NPT male,2.00\n", encoding="utf-8"
    )

    order(car, _asked(offers=(tmp_path / "barn.csv",), out=tmp_path / "out"))

    rows = _cells(tmp_path / "out" / "order-both.csv")
    assert [row[2:5] for row in rows[1:]] == [["–", "–", "–"]]
    assert "nobody sells" in rows[1][5]


def test_suppliers_named_alike_or_like_a_list_have_their_own_files(tmp_path: Path) -> None:
    (tmp_path / "all.csv").write_text(
        "Supplier,Number,Our code,Price EUR,Stock\n"
        "lines,A1,adaptor-flat-m22x1.5-m-to-flare-10-m,4.00,1\n"
        "A & B,A1,adaptor-flat-m22x1.5-m-to-flare-10-m,4.00,1\n"
        "../lines 2,A2,plug-npt-half-m,2.00,9\n",
        encoding="utf-8",
    )

    order(ROADSTER, _asked(offers=(tmp_path / "all.csv",), out=tmp_path / "out", is_quick=True))

    written = {path.name for path in (tmp_path / "out").glob("order-*.pdf")}
    assert written == {"order-a-b.pdf", "order-lines-2.pdf", "order-lines-3.pdf"}
    assert _cells(tmp_path / "out" / "order-lines.csv")[0][0] == "Supplier"
    assert sorted(row[0] for row in _cells(tmp_path / "out" / "order-lines.csv")[1:]) == [
        "../lines 2", "A & B", "lines"
    ]  # fmt: skip


def test_papers_of_an_earlier_order_to_a_supplier_who_gets_none_now_are_gone(
    tmp_path: Path,
) -> None:
    rows = "Number,Our code,Price EUR,Stock\nA1,plug-npt-half-m,4.00,9\n"
    offers = tmp_path / "offers"
    offers.mkdir()
    (offers / "barn.csv").write_text(rows, encoding="utf-8")
    out = tmp_path / "out"
    asked = _asked(offers=(offers,), out=out, is_quick=True)
    order(ROADSTER, asked)
    (out / "order-notes.pdf").write_bytes(b"mine")
    assert (out / "order-barn.pdf").is_file()
    (offers / "mill.csv").write_text(rows.replace("4.00", "3.00"), encoding="utf-8")

    order(ROADSTER, asked)

    assert {path.name for path in out.glob("order-*.pdf")} == {"order-mill.pdf", "order-notes.pdf"}
    assert not (out / "order-barn.csv").exists()
