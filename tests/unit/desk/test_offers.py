# SPDX-License-Identifier: Apache-2.0
"""Offers from files: CSV, XLSX, pasted text, terms and answers."""

import time
from pathlib import Path

import openpyxl
import pytest

from linewright.base.errors import OrderError
from linewright.desk import answers, terms
from linewright.desk.offers import files_of, read, read_all
from linewright.order.answers import Answer, decide

_ROWS = "SKU;Description;Price\n1;AN8 plug, größe;3,50\n"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
@pytest.mark.parametrize("sign", [";", "\t", "|"])
def test_a_csv_of_any_encoding_and_sign_is_read(tmp_path: Path, encoding: str, sign: str) -> None:
    path = tmp_path / "barn.csv"
    path.write_bytes(_ROWS.replace(";", sign).encode(encoding))
    market = read([path], terms.read_text('currency = "EUR"\n[supplier.barn]\n'))

    assert [(o.supplier, o.description, str(o.price)) for o in market.offers] == [
        ("barn", "AN8 plug, größe", "3.50 EUR")
    ]


def _workbook(path: Path) -> None:
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.append(["Our list", None, None, None])
    sheet.append(["Article", None, "Price", None])
    sheet.append(["number", "description", "GBP", "pack"])
    sheet.merge_cells("A2:B2")
    sheet.merge_cells("C2:D2")
    sheet.append([7, "AN8 plug", 3.5, 1])
    sheet.append([8, "AN6 plug", "=C4*2", 1])
    sheet.append([9, "AN4 plug", 1.125, 10])
    book.save(path)


def test_a_workbook_with_merged_headings_is_read_and_no_formula_worked_out(tmp_path: Path) -> None:
    path = tmp_path / "north.xlsx"
    _workbook(path)
    market = read([path])

    assert [(o.number, str(o.price), o.pack) for o in market.offers] == [
        ("7", "3.50 GBP", 1), ("9", "1.13 GBP", 10),
    ]  # fmt: skip
    assert [told.reason for told in market.refused] == [
        'price is a formula, "=C4*2": formulas are not worked out, paste the values'
    ]


def test_a_broken_file_is_told_and_the_others_still_load(tmp_path: Path) -> None:
    good, cut, binary = tmp_path / "a.csv", tmp_path / "b.xlsx", tmp_path / "c.csv"
    good.write_text("Description,Price (EUR)\nAN8 plug,3.50\n", encoding="utf-8")
    _workbook(cut)
    cut.write_bytes(cut.read_bytes()[:900])
    binary.write_bytes(b"\x00\x01\x02" * 50)
    market = read([good, cut, binary, tmp_path / "none.csv", tmp_path / "x.docx"])

    assert len(market.offers) == 1
    assert [told.reason for told in market.refused] == [
        "is no XLSX file that can be read (BadZipFile): save it anew.",
        "is no text: save the list as CSV or XLSX.",
        "cannot be read: No such file or directory.",
        'ends in ".docx": lists are read from .csv, .tsv, .xlsx and .txt.',
    ]


def test_a_link_to_nowhere_in_a_folder_is_told(tmp_path: Path) -> None:
    (tmp_path / "gone.csv").symlink_to(tmp_path / "nowhere.csv")

    files, _ = files_of([tmp_path])
    refused = read(files).refused

    assert [(told.place, told.reason, told.is_file) for told in refused] == [
        ("gone.csv", "cannot be read: No such file or directory.", True)
    ]


_BASKET = """\
Your basket (3 items)

2 x AN8 straight hose end, PTFE, black
£9.50      £19.00
In stock

1/2 NPT to -10 male flare adaptor   £6.20
Qty: 4
Thread paste for oil
Subtotal £43.80
Shipping £4.95
"""


def test_a_pasted_basket_gives_its_offers_without_the_sums(tmp_path: Path) -> None:
    path = tmp_path / "barn.txt"
    path.write_text(_BASKET, encoding="utf-8")
    market = read([path])

    assert [(o.description, str(o.price), o.pack) for o in market.offers] == [
        ("AN8 straight hose end, PTFE, black", "9.50 GBP", 1),
        ("1/2 NPT to -10 male flare adaptor", "6.20 GBP", 1),
    ]
    assert [told.text for told in market.refused] == [
        "Your basket (3 items)", "Thread paste for oil",
    ]  # fmt: skip


def test_terms_are_read_and_every_fault_in_them_is_listed() -> None:
    text = (
        'currency = "EUR"\n[supplier.barn]\ncurrency = "GBP"\nrate = 1.17\nrate-day = 2026-11-20\n'
        'tax = "20 %"\nshipping = [[0, 6.5], [50, "4,00"]]\nfree-above = 100\nwish = "preferred"\n'
    )
    supplier = terms.read_text(text).suppliers[0]
    bad = 'currency = "euro"\n[supplier.barn]\nrate = 0\nwish = "best"\npostage = 3\ntax = 20\n'

    assert [(str(a), str(b)) for a, b in supplier.shipping] == [
        ("0.00 GBP", "6.50 GBP"), ("50.00 GBP", "4.00 GBP"),
    ]  # fmt: skip
    assert (str(supplier.tax), str(supplier.free_above)) == ("0.2", "100.00 GBP")
    with pytest.raises(OrderError) as caught:
        terms.read_text(bad)
    assert str(caught.value).splitlines() == [
        'suppliers.toml: currency: "euro" is not three capital letters, such as EUR',
        "suppliers.toml: supplier.barn.postage: no such key; the keys are currency, rate, rate-day, "
        "tax, shipping, free-above, smallest-order, wish, lead-days, files, columns",
        'suppliers.toml: supplier.barn.currency: "euro" is not three capital letters, such as EUR',
        'suppliers.toml: supplier.barn.wish: "best" is neither preferred nor barred',
        "suppliers.toml: supplier.barn.rate: 0 is not above 0",
        "suppliers.toml: supplier.barn.rate-day: say of which day the rate is, such as 2026-11-20",
        'suppliers.toml: supplier.barn.tax: 20 is no share; write "20 %" or 0.2',
    ]


def test_columns_once_guessed_are_remembered_beside_what_the_builder_wrote(tmp_path: Path) -> None:
    path = tmp_path / "suppliers.toml"
    path.write_text('currency = "EUR"  # ours\n[supplier.north]\nlead-days = 3\n', encoding="utf-8")
    lists = tmp_path / "barn.csv"
    lists.write_text("Ref,Bezeichnung,Preis\n1,AN8 plug,3.50\n", encoding="utf-8")
    loaded = read_all([lists], terms.read_text('currency = "EUR"\n[supplier.barn]\n'))

    assert terms.remember(path, loaded.columns, "EUR") == ["barn"]
    assert terms.remember(path, loaded.columns, "EUR") == []
    text = path.read_text(encoding="utf-8")
    assert text.startswith('currency = "EUR"  # ours\n[supplier.north]\nlead-days = 3\n')
    assert terms.read_text(text).columns["barn"] == {
        "number": "Ref", "description": "Bezeichnung", "price": "Preis",
    }  # fmt: skip


def test_answers_are_kept_in_a_file_that_runs_nothing_and_come_back_the_same(
    tmp_path: Path,
) -> None:
    path = tmp_path / "answers.csv"
    given = (
        Answer("barn", "7", "-8 O-rings", "O-ring AS568-908, FKM", True, "Kit", "2026-11-20"),
        Answer("=cmd", "@x", "+1", "-y", False),
    )
    answers.add(path, given[:1])
    answers.add(path, given[1:])

    assert answers.read(path) == given
    cells = [c for line in path.read_text(encoding="utf-8").splitlines() for c in line.split(",")]
    assert not [c for c in cells if c[:1] in "=+-@" and c]


def test_a_yes_beside_the_lists_is_put_into_the_offers(tmp_path: Path) -> None:
    lists = tmp_path / "barn.csv"
    lists.write_text("Ref,Item description,Price (EUR)\n7,-8 O-rings,3.50\n", encoding="utf-8")
    code = "O-ring AS568-908, FKM"
    answers.add(tmp_path / answers.NAME, [Answer("barn", "7", "-8 O-rings", code, True)])

    assert [offer.part for offer in read([lists]).offers] == [code]


def test_an_answer_that_is_neither_yes_nor_no_is_told_with_its_line(tmp_path: Path) -> None:
    path = tmp_path / "answers.csv"
    path.write_text("supplier,number,description,part,answer\na,1,b,c,maybe\n", encoding="utf-8")

    with pytest.raises(OrderError) as caught:
        answers.read(path)
    assert str(caught.value) == 'answers.csv, line 2: answer "maybe" is neither yes nor no.'


def test_a_hundred_thousand_rows_are_read_and_recognised_in_time(tmp_path: Path) -> None:
    dashes, pipes = (3, 4, 6, 8, 10, 12, 16), ("1/8", "1/4", "3/8", "1/2", "3/4")
    kinds = (
        "AN{d} 45 degree hose end for PTFE hose, {c}", "{p} NPT male to AN{d} male adaptor, {c}",
        "Workshop stool {n} {c}", "M18x1.5 to -{d} JIC male, alu, {c}", "Bulb {n} W",
    )  # fmt: skip
    rows = ["SKU,Description,Price (GBP),Stock"]
    for n in range(100_000):
        text = kinds[n % 5].format(
            d=dashes[n % 7], p=pipes[n // 5 % 5], c=("black", "blue", "red")[n % 3], n=n % 4000
        )
        rows.append(f'X{n},"{text}",{n % 90 + 1}.50,{n % 40}')
    path = tmp_path / "big.csv"
    path.write_text("\n".join(rows), encoding="utf-8")
    start = time.process_time()
    decided = decide(read_all([path]).market)

    assert len(decided.seen) == 100_000
    assert sum(each.how == "accepted" for each in decided.seen) > 30_000
    assert time.process_time() - start < 10
