# SPDX-License-Identifier: Apache-2.0
"""Lists as CSV for any program, and as one workbook."""

import csv
import io
from collections.abc import Sequence
from pathlib import Path

from linewright.base.errors import MissingToolError
from linewright.faces.files.whole import write_whole
from linewright.sheets.table import Align, Table

#: A cell that starts like this would be run as a formula by a spreadsheet.
_FORMULA = ("=", "+", "@", "\t", "\r")


def _is_number(text: str) -> bool:
    return text.isascii() and text.isdigit()


def csv_text(table: Table, *, is_strict: bool = False) -> str:
    """Write a table as CSV text: headings first, a line a row.

    Parameters
    ----------
    table : Table
        The table; its groups are not written.
    is_strict : bool
        Whether a cell that starts with a minus is taken for a formula too: for tables with
        words of other people. In our own, "-10" is a size.

    Returns
    -------
    str
        Comma-separated, quoted where needed, line feeds.
    """
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow([column.head for column in table.columns])
    formula = (*_FORMULA, "-") if is_strict else _FORMULA
    for row in table.rows:
        writer.writerow([f"'{c}" if c.startswith(formula) else c for c in row])
    return stream.getvalue()


def _sheet_name(title: str, taken: set[str]) -> str:
    """A title as a workbook takes it: 31 signs, some of them barred, no two alike."""
    clean = " ".join(title.translate(str.maketrans("[]:*?/\\", "       ")).split()).strip("'")
    name, number = clean[:31], 2
    while name.lower() in taken:
        name, number = f"{clean[:27]} {number}", number + 1
    taken.add(name.lower())
    return name


def workbook(tables: Sequence[Table]) -> bytes:
    """Write tables as the sheets of one XLSX workbook.

    Parameters
    ----------
    tables : Sequence of Table
        One sheet each; titles name the sheets.

    Returns
    -------
    bytes
        The workbook; the same bytes for the same tables.

    Raises
    ------
    MissingToolError
        If xlsxwriter is not installed.
    """
    try:
        import xlsxwriter
    except ImportError as error:
        raise MissingToolError(
            "xlsxwriter is not installed, so no workbook can be written. "
            "Install linewright with its dependencies: pip install linewright."
        ) from error
    from datetime import datetime

    stream = io.BytesIO()
    book = xlsxwriter.Workbook(stream, {"in_memory": True, "strings_to_formulas": False})
    book.set_properties({"created": datetime(2000, 1, 1)})  # no clock: the same bytes twice
    head = book.add_format({"bold": True, "bottom": 1, "text_wrap": True, "valign": "top"})
    left = book.add_format({"text_wrap": True, "valign": "top"})
    right = book.add_format({"align": "right", "valign": "top"})
    taken: set[str] = set()
    for table in tables:
        sheet = book.add_worksheet(_sheet_name(table.title, taken))
        sheet.freeze_panes(1, 0)
        sheet.set_landscape()
        sheet.repeat_rows(0)
        sheet.fit_to_pages(1, 0)
        for number, column in enumerate(table.columns):
            sheet.set_column(number, number, 12 * column.share)
            sheet.write_string(0, number, column.head, head)
        for line, row in enumerate(table.rows, 1):
            for number, cell in enumerate(row):
                style = right if table.columns[number].align is Align.RIGHT else left
                if style is right and _is_number(cell):
                    sheet.write_number(line, number, int(cell), style)
                else:
                    sheet.write_string(line, number, cell, style)
    book.close()
    return stream.getvalue()


def write_lists(tables: Sequence[Table], folder: Path) -> tuple[Path, ...]:
    """Write a CSV file for each table and one workbook of all.

    Parameters
    ----------
    tables : Sequence of Table
        The lists; a table's name is its file's name.
    folder : Path
        Where to; made if missing.

    Returns
    -------
    tuple of Path
        The files written, each whole.
    """
    written = [write_whole(folder / f"{table.name}.csv", csv_text(table)) for table in tables]
    written.append(write_whole(folder / "lists.xlsx", workbook(tables)))
    return tuple(written)
