# SPDX-License-Identifier: Apache-2.0
"""Files are written whole, lists read back as they were."""

import csv
import io
from pathlib import Path

import openpyxl
import pytest

from linewright.base.errors import OutputError
from linewright.faces.files.lists import csv_text, workbook, write_lists
from linewright.faces.files.whole import write_whole
from linewright.sheets.table import Align, Column, Table

TABLE = Table(
    "parts",
    "Parts list",
    (Column("Part", 3.0), Column("Need", 1.0, Align.RIGHT)),
    (('stud 1/2 NPT, "black"', "4"), ("-8 plug", "12"), ("=1+1", "1")),
)


def test_csv_reads_back_and_no_cell_is_a_formula() -> None:
    rows = list(csv.reader(io.StringIO(csv_text(TABLE))))

    assert rows[0] == ["Part", "Need"]
    assert rows[1] == ['stud 1/2 NPT, "black"', "4"]
    assert rows[2] == ["-8 plug", "12"]
    assert rows[3] == ["'=1+1", "1"]


def test_workbook_reads_back_with_numbers_as_numbers() -> None:
    book = openpyxl.load_workbook(io.BytesIO(workbook([TABLE])))
    sheet = book["Parts list"]

    assert [c.value for c in sheet[2]] == ['stud 1/2 NPT, "black"', 4]
    assert sheet["A4"].data_type == "s"


def test_workbook_has_the_same_bytes_twice() -> None:
    assert workbook([TABLE]) == workbook([TABLE])


def test_lists_are_written_under_their_names(tmp_path: Path) -> None:
    written = write_lists([TABLE], tmp_path / "new" / "folder")

    assert [p.name for p in written] == ["parts.csv", "lists.xlsx"]
    assert all(p.stat().st_size for p in written)


def test_a_failed_write_leaves_the_old_file_and_nothing_half_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "plan.json"
    write_whole(target, "old")

    def refuse(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", refuse)
    with pytest.raises(OutputError) as caught:
        write_whole(target, "new")

    assert str(caught.value) == (
        f"{target} cannot be written: No space left on device. "
        "Name a folder that you may write to, with space left on its disk."
    )
    assert target.read_text() == "old"
    assert [p.name for p in tmp_path.iterdir()] == ["plan.json"]


def test_a_folder_that_is_a_file_is_refused_plainly(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("in the way")

    with pytest.raises(OutputError, match="cannot be written"):
        write_whole(tmp_path / "out" / "book.pdf", b"")
