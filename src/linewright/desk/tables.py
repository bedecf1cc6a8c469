# SPDX-License-Identifier: Apache-2.0
"""Suppliers' lists as files: CSV and XLSX read as text, cell by cell, nothing worked out."""

import csv
import io
import zipfile
from collections.abc import Iterator
from datetime import date, datetime
from pathlib import Path
from typing import Any

from linewright.base.errors import MissingToolError, OrderError

#: Larger files are not read: no supplier's list is that long.
MOST_BYTES = 200 * 1024 * 1024
MOST_ROWS = 1_000_000

Rows = list[tuple[int, tuple[str, ...]]]


def read_bytes(path: Path) -> bytes:
    """Read a file, not a huge one.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    bytes
        All of it.

    Raises
    ------
    OrderError
        If it cannot be read or is too large.
    """
    try:
        size = path.stat().st_size
        if size > MOST_BYTES:
            raise OrderError(
                f"{path.name} is {size / 1048576:.0f} MB; lists are read up to "
                f"{MOST_BYTES // 1048576} MB: cut it down to the goods that you look for."
            )
        return path.read_bytes()
    except OSError as error:
        raise OrderError(f"{path.name} cannot be read: {error.strerror or error}.") from error


def decoded(data: bytes) -> str:
    """Bytes as text: by the byte-order mark, else UTF-8, else the Western code page.

    Parameters
    ----------
    data : bytes
        The file.

    Returns
    -------
    str
        Its text without the mark.

    Examples
    --------
    >>> decoded("3,20 €".encode("cp1252")), decoded("a".encode("utf-16"))
    ('3,20 €', 'a')
    """
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return data.decode("utf-16", errors="replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")


def csv_rows(text: str, name: str) -> Rows:
    """Rows of a CSV, whichever sign parts its cells.

    Parameters
    ----------
    text : str
        The file's text.
    name : str
        Its name, for messages.

    Returns
    -------
    list of (int, tuple of str)
        Number of the row in the file and its cells.

    Raises
    ------
    OrderError
        If it is no text.

    Examples
    --------
    >>> csv_rows("a;b\\n1,5;2", "x.csv")
    [(1, ('a', 'b')), (2, ('1,5', '2'))]
    """
    if "\0" in text[:100_000]:
        raise OrderError(f"{name} is no text: save the list as CSV or XLSX.")
    head = text[:20_000].splitlines()[:60]
    found: Rows = []
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=_delimiter(head))
    before = 0
    while True:
        try:
            cells = next(reader)
        except StopIteration:
            return found
        except csv.Error as error:
            raise OrderError(
                f"{name} breaks off in line {reader.line_num}: {error}. Save the list anew."
            ) from error
        found.append((before + 1, tuple(cells)))
        before = reader.line_num
        if len(found) > MOST_ROWS:
            raise OrderError(f"{name} has more than {MOST_ROWS:,} rows: cut it down.")


def _delimiter(lines: list[str]) -> str:
    """The sign that parts most lines into most cells of the same number."""

    def rank(sign: str) -> tuple[int, int]:
        rows = [row for row in csv.reader(lines, delimiter=sign) if row]
        counts = [len(row) for row in rows if len(row) > 1]
        if not counts:
            return (0, 0)
        usual = max(set(counts), key=lambda n: (counts.count(n), n))
        return (counts.count(usual), usual)

    try:
        return max((";", "\t", "|", ","), key=rank)
    except csv.Error:
        return ","


def xlsx_sheets(path: Path) -> Iterator[tuple[str, Rows]]:
    """Sheets of an XLSX file as text; formulas stay the text that they are.

    Parameters
    ----------
    path : Path
        The file.

    Yields
    ------
    tuple of (str, list)
        Name of the sheet and its rows.

    Raises
    ------
    OrderError
        If the file is broken or far too large.
    MissingToolError
        If the reader of workbooks is not installed.
    """
    try:
        import openpyxl
    except ImportError as error:
        raise MissingToolError(
            "openpyxl is not installed, so XLSX files cannot be read. Save the list as CSV, or "
            "install linewright with its dependencies: pip install linewright."
        ) from error
    read_bytes(path)
    try:
        with zipfile.ZipFile(path) as packed:
            whole = sum(item.file_size for item in packed.infolist())
        if whole > 5 * MOST_BYTES:
            raise OrderError(f"{path.name} unpacks to {whole / 1048576:.0f} MB: save it as CSV.")
        book = openpyxl.load_workbook(path, read_only=True, data_only=False, keep_links=False)
    except OrderError:
        raise
    except Exception as error:  # whatever a broken file makes the reader trip over
        raise OrderError(
            f"{path.name} is no XLSX file that can be read ({type(error).__name__}): save it anew."
        ) from error
    try:
        for sheet in book.worksheets:
            if getattr(sheet, "sheet_state", "visible") != "visible":
                continue
            rows: Rows = []
            for number, cells in enumerate(sheet.iter_rows(values_only=True), 1):
                if any(cell is not None for cell in cells):
                    rows.append((number, tuple(_text(cell) for cell in cells)))
                if number > MOST_ROWS:
                    raise OrderError(f"{path.name} has more than {MOST_ROWS:,} rows: cut it down.")
            yield sheet.title, rows
    except OrderError:
        raise
    except Exception as error:  # a file that breaks off in the middle
        raise OrderError(
            f"{path.name} breaks off while it is read ({type(error).__name__}): save it anew."
        ) from error
    finally:
        book.close()


def _text(cell: Any) -> str:
    if cell is None:
        return ""
    if isinstance(cell, str):
        return cell
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, float):
        # Two decimals at least, so that a price of 1.25 in a cell never looks like 1250.
        return str(int(cell)) if cell.is_integer() and abs(cell) < 1e15 else _decimals(cell)
    if isinstance(cell, (datetime, date)):
        return cell.isoformat()[:10]
    return str(getattr(cell, "text", cell))


def _decimals(value: float) -> str:
    text = repr(round(value, 6))
    if "e" in text:
        return f"{value:.6f}"
    whole, _, part = text.partition(".")
    return f"{whole}.{part.ljust(2, '0')}0" if len(part) == 3 else f"{whole}.{part.ljust(2, '0')}"
