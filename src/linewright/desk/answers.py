# SPDX-License-Identifier: Apache-2.0
"""Answers about offers in a plain CSV that the builder owns: what, yes or no, who, when."""

import csv
import io
from collections.abc import Iterable
from pathlib import Path

from linewright.base.errors import OrderError
from linewright.desk import tables
from linewright.order.answers import Answer

#: Name of the file, beside the lists.
NAME = "answers.csv"

#: A cell that starts like this would be run as a formula by a spreadsheet.
_FORMULA = ("=", "+", "-", "@", "\t", "\r")

_HEADINGS = ("supplier", "number", "description", "part", "answer", "who", "when")


def read(path: Path) -> tuple[Answer, ...]:
    """Read the answers given so far.

    Parameters
    ----------
    path : Path
        The file; where there is none, no answer was given.

    Returns
    -------
    tuple of Answer
        In the order in which they were given.

    Raises
    ------
    OrderError
        If a row is neither yes nor no, with its line.
    """
    if not path.exists():
        return ()
    rows = tables.csv_rows(tables.decoded(tables.read_bytes(path)), path.name)
    if not rows:
        return ()
    headings = [cell.strip().lower() for cell in rows[0][1]]
    missing = [name for name in _HEADINGS[:5] if name not in headings]
    if missing:
        raise OrderError(f"{path.name} has no column {', '.join(missing)}.")
    found = []
    for line, cells in rows[1:]:
        row = dict(zip(headings, (_unescaped(cell) for cell in cells), strict=False))
        if not any(row.values()):
            continue
        said = row.get("answer", "").strip().lower()
        if said not in ("yes", "y", "no", "n"):
            raise OrderError(f'{path.name}, line {line}: answer "{said}" is neither yes nor no.')
        found.append(
            Answer(
                row["supplier"],
                row["number"],
                row["description"],
                row.get("part", ""),
                said in ("yes", "y"),
                row.get("who", ""),
                row.get("when", ""),
            )
        )
    return tuple(found)


def _inert(cell: str) -> str:
    """Keep a spreadsheet from running a cell as a formula."""
    return f"'{cell}" if cell[:1] in _FORMULA else cell


def _unescaped(cell: str) -> str:
    """Take away the quote that keeps a cell from being read as a formula."""
    return cell[1:] if cell[:1] == "'" and cell[1:2] in _FORMULA else cell


def add(path: Path, answers: Iterable[Answer]) -> None:
    """Add answers at the end of the file; it is made where there is none.

    Parameters
    ----------
    path : Path
        The file.
    answers : Iterable of Answer
        The new answers.

    Raises
    ------
    OrderError
        If it cannot be written.
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    is_new = not path.exists() or not path.read_text(encoding="utf-8-sig").strip()
    if is_new:
        writer.writerow(_HEADINGS)
    elif not path.read_text(encoding="utf-8-sig").endswith("\n"):
        text.write("\n")
    for each in answers:
        cells = (each.supplier, each.number, each.description, each.part)
        said = "yes" if each.is_yes else "no"
        writer.writerow([_inert(c) for c in (*cells, said, each.who, each.when)])
    try:
        with path.open("a", encoding="utf-8", newline="") as file:
            file.write(text.getvalue())
    except OSError as error:
        raise OrderError(f"{path.name} cannot be written: {error.strerror}.") from error
