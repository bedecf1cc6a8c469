# SPDX-License-Identifier: Apache-2.0
"""The shelf as a file: what is read, and what is refused with its row."""

from pathlib import Path

import pytest

from linewright.base.errors import OrderError
from linewright.desk.shelf import read
from linewright.order.model import Offcut, ShelfItem


def _file(folder: Path, text: str) -> Path:
    path = folder / "shelf.csv"
    path.write_text(text, encoding="utf-8")
    return path


def test_pieces_and_offcuts_are_read(tmp_path: Path) -> None:
    text = (
        "bin,part,count,length\n"
        'A1,"washer 12 mm bore, aluminium",10,\n'
        "H1,hose -8 rubber braided,2,600 mm\n"
        "H2,hose -6 rubber braided,,4 ft\n"
    )

    shelf = read(_file(tmp_path, text))

    assert shelf.items == (ShelfItem("A1", "washer 12 mm bore, aluminium", 10),)
    assert [(o.bin, o.part, round(o.length, 6)) for o in shelf.offcuts] == [
        ("H1", "hose -8 rubber braided", 0.6),
        ("H1", "hose -8 rubber braided", 0.6),
        ("H2", "hose -6 rubber braided", 1.2192),
    ]
    assert isinstance(shelf.offcuts[0], Offcut)


def test_every_row_that_makes_no_sense_is_named(tmp_path: Path) -> None:
    text = "bin,part,count,length\nA1,,3,\nA2,a,few,\nA3,b,,\nA4,c,,0 mm\n"

    with pytest.raises(OrderError) as refused:
        read(_file(tmp_path, text))

    assert str(refused.value) == (
        "shelf.csv row 2: no part is named. Write its code as the parts list does.\n"
        'shelf.csv row 3: count "few" is no whole number of pieces.\n'
        "shelf.csv row 4: b has neither a count nor a length.\n"
        'shelf.csv row 5: length "0 mm" is not above nothing.'
    )


def test_a_file_without_the_column_part_is_refused(tmp_path: Path) -> None:
    with pytest.raises(OrderError) as refused:
        read(_file(tmp_path, "where,what\nA1,a\n"))

    assert str(refused.value) == (
        "shelf.csv has no column part. Its first row names the columns: bin, part, count, length."
    )


def test_an_empty_file_is_an_empty_shelf(tmp_path: Path) -> None:
    assert read(_file(tmp_path, "")).items == ()
