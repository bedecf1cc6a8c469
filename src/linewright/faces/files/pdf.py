# SPDX-License-Identifier: Apache-2.0
"""The shop book as PDF, set by typst: fonts embedded, no network, the same bytes twice."""

import json
import re
import tempfile
from collections.abc import Mapping, Sequence
from functools import lru_cache
from importlib.metadata import PackageNotFoundError
from importlib.metadata import files as package_files
from importlib.resources import files
from math import inf
from pathlib import Path
from typing import Any

from linewright.base.errors import MissingToolError
from linewright.faces.files.whole import write_whole
from linewright.sheets.book import Book
from linewright.sheets.cards import TICKS
from linewright.sheets.courses import BAND_HEADS, BEND_HEADS
from linewright.sheets.flow_page import SystemPage
from linewright.sheets.leaves import Cards, Hoses, Leaf, Notes, Picture, Plots
from linewright.sheets.table import Table

#: An id such as "turbo.water-in" may be broken after its dot, as typst does after a hyphen.
_DOTTED = re.compile(r"(?<=[a-z0-9])\.(?=[a-z])", re.IGNORECASE)

_SIZE = re.compile(r'<svg[^>]* width="([\d.]+)mm" height="([\d.]+)mm"')

#: A drawing wider than this many times its height is on no usual paper. [-]
_LONG = 1.6

#: Widest drawing [mm] that a sheet takes, and the sheet for either paper of the book.
_SHEETS: tuple[tuple[float, Mapping[str, str]], ...] = (
    (297, {"a4": "a4", "letter": "us-letter"}),
    (432, {"a4": "a3", "letter": "us-tabloid"}),
    (594, {"a4": "a2", "letter": "a2"}),
    (inf, {"a4": "a1", "letter": "a1"}),
)

#: Names that typst gives the papers.
PAPERS: Mapping[str, str] = {"a4": "a4", "letter": "us-letter"}


@lru_cache
def font_folder() -> Path:
    """Return the folder of the one font family that is used.

    Returns
    -------
    Path
        Where the font package keeps its files.

    Raises
    ------
    MissingToolError
        If the font package is not installed.
    """
    try:
        listed = package_files("fontpkg-inter") or ()
    except PackageNotFoundError:
        listed = ()
    for entry in listed:
        if str(entry).endswith(".ttf"):
            return Path(str(entry.locate())).parent
    raise MissingToolError(
        "The font package fontpkg-inter is not installed, so no PDF can be set. "
        "Install linewright with its dependencies: pip install linewright."
    )


def _table(table: Table) -> dict[str, Any]:
    return {
        "kind": "table",
        "title": table.title,
        "wide": table.is_wide,
        "at-the-car": table.is_written_on,
        "halved": table.is_halved,
        "columns": [
            {"head": c.head, "share": c.share, "align": c.align.value} for c in table.columns
        ],
        "rows": [[_DOTTED.sub(".\u200b", cell) for cell in row] for row in table.rows],
        "groups": [list(group) for group in table.groups],
        "note": table.note,
        "empty": table.empty,
    }


def _picture(picture: Picture, svg: str, paper: str) -> dict[str, Any]:
    """A drawing keeps its own size: what was drawn for A3 is not shrunk onto A4."""
    found = _SIZE.search(svg)
    width, height = (float(found[1]), float(found[2])) if found else (0.0, 0.0)
    sheet = next(sizes[paper] for least, sizes in _SHEETS if width <= least)
    # A sheet longer than the papers are keeps its own size.
    own = [width, height] if height and width > _LONG * height else None
    return {
        "kind": "picture",
        "title": picture.title,
        "file": picture.file,
        "sheet": sheet,
        "own": own,
    }


def _cards(page: Cards) -> dict[str, Any]:
    """Cards of hoses; where the clock's hands stand is reckoned here, typst only draws them."""
    return {
        "kind": "cards",
        "title": page.title,
        "bend-heads": list(BEND_HEADS),
        "band-heads": list(BAND_HEADS),
        "cards": [
            {
                "id": card.id,
                "title": _DOTTED.sub(".\u200b", card.title),
                "clock": None if card.clock_deg is None else round(card.clock_deg, 1),
                "rows": [[name, _DOTTED.sub(".\u200b", words)] for name, words in card.rows],
                "bends": [list(row) for row in card.bends],
                "band": [list(row) for row in card.band],
                "note": card.band_note,
            }
            for card in page.cards
        ],
    }


def _system(page: SystemPage) -> dict[str, Any]:
    return {
        "kind": "system",
        "title": page.title,
        "verdict": page.verdict,
        "sentences": [list(pair) for pair in page.sentences],
        "tables": [_table(table) for table in page.tables],
        "caution": page.caution,
    }


def _dots(words: str) -> str:
    return _DOTTED.sub(".\u200b", words)


def _plots(page: Plots) -> dict[str, Any]:
    return {"kind": "plots", "title": page.title, "files": [p.file for p in page.pictures]}


def _hoses(page: Hoses) -> dict[str, Any]:
    return {
        "kind": "hoses",
        "title": page.title,
        "ticks": list(TICKS),
        "cards": [
            {
                "id": card.id,
                "hose": card.hose,
                "cut": card.cut,
                "clock": None if card.clock_deg is None else round(card.clock_deg, 1),
                "rows": [[name, _dots(words)] for name, words in card.rows],
            }
            for card in page.cards
        ],
    }


def _notes(page: Notes) -> dict[str, Any]:
    return {
        "kind": "notes",
        "title": page.title,
        "notes": [
            [_dots(words) for words in (note.head, note.about, note.text, note.way, note.source)]
            for note in page.notes
        ],
        "foot": page.foot,
        "empty": page.empty,
    }


def _leaf(page: Leaf, drawings: Mapping[str, str], paper: str) -> dict[str, Any]:
    if isinstance(page, Picture):
        return _picture(page, drawings[page.file], paper)
    if isinstance(page, Plots):
        return _plots(page)
    if isinstance(page, Cards):
        return _cards(page)
    if isinstance(page, Hoses):
        return _hoses(page)
    if isinstance(page, Notes):
        return _notes(page)
    return _system(page) if isinstance(page, SystemPage) else _table(page)


def book_pdf(book: Book, drawings: Mapping[str, str], *, paper: str = "a4") -> bytes:
    """Set the shop book.

    Parameters
    ----------
    book : Book
        What stands on its pages.
    drawings : Mapping of str to str
        SVG text by the file name that the book's pictures give.
    paper : str
        ``a4`` or ``letter``.

    Returns
    -------
    bytes
        A PDF with its fonts embedded; the same bytes for the same book.

    Raises
    ------
    MissingToolError
        If typst or the font is not installed.
    """
    data = {
        "cover": True,
        "title": book.title,
        "paper": PAPERS[paper],
        "car": book.car,
        "note": book.note,
        "revision": book.revision,
        "date": book.date,
        "version": book.version,
        "verdict": book.verdict,
        "summary": [list(pair) for pair in book.summary],
        "cautions": list(book.cautions),
        "legend": book.legend,
        "beside": book.beside,
        "chapters": [
            {
                "title": chapter.title,
                "leaves": [_leaf(leaf, drawings, paper) for leaf in chapter.leaves],
            }
            for chapter in book.chapters
        ],
    }
    return _set(data, drawings)


def tables_pdf(
    car: str,
    revision: str,
    tables: Sequence[Leaf],
    *,
    paper: str = "a4",
    date: str = "",
    drawings: Mapping[str, str] | None = None,
) -> bytes:
    """Set tables and other pages alone, with the head and foot of the book's pages.

    Parameters
    ----------
    car : str
        Name of the car.
    revision : str
        Short digest of its document.
    tables : Sequence of Table, SystemPage, Picture or Cards
        What to print.
    paper : str
        ``a4`` or ``letter``.
    date : str
        The day it is printed; empty for none.
    drawings : Mapping of str to str, optional
        SVG text by the file name that pictures give.

    Returns
    -------
    bytes
        A PDF.
    """
    data = {
        "cover": False,
        "title": tables[0].title.lower(),
        "paper": PAPERS[paper],
        "car": car,
        "revision": revision,
        "date": date,
        "chapters": [
            {"title": "", "leaves": [_leaf(page, drawings or {}, paper) for page in tables]}
        ],
    }
    return _set(data, drawings or {})


def _set(data: Mapping[str, Any], drawings: Mapping[str, str]) -> bytes:
    try:
        import typst
    except ImportError as error:
        raise MissingToolError(
            "typst is not installed, so no PDF can be set. Install linewright with its "
            "dependencies: pip install linewright."
        ) from error
    template = files("linewright.faces.files").joinpath("book.typ").read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory(prefix="linewright-") as name:
        folder = Path(name)
        (folder / "book.typ").write_text(template, encoding="utf-8")
        (folder / "data.json").write_text(json.dumps(data), encoding="utf-8")
        for file, svg in drawings.items():
            (folder / file).write_text(svg, encoding="utf-8")
        pdf: bytes = typst.compile(
            str(folder / "book.typ"),
            root=str(folder),
            font_paths=[str(font_folder())],
            ignore_system_fonts=True,
            timestamp=0,
        )
    return pdf


def write_book(book: Book, drawings: Mapping[str, str], path: Path, *, paper: str = "a4") -> Path:
    """Write the shop book to a file, whole or not at all.

    Parameters
    ----------
    book : Book
        What stands on its pages.
    drawings : Mapping of str to str
        SVG text by file name.
    path : Path
        Where to.
    paper : str
        ``a4`` or ``letter``.

    Returns
    -------
    Path
        The same path.
    """
    return write_whole(path, book_pdf(book, drawings, paper=paper))
