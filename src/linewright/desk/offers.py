# SPDX-License-Identifier: Apache-2.0
"""Offers from files: price lists, basket pages, mails."""

from collections.abc import Iterable, Iterator
from pathlib import Path

from linewright.base.errors import OrderError
from linewright.desk import answers, tables
from linewright.desk.terms import read as read_terms
from linewright.order.answers import put_in
from linewright.order.model import Market, Told
from linewright.order.offers import Listing, Loaded, Terms, load
from linewright.order.pasted import listed

_TEXTS = (".txt", ".eml", ".md")
_CSV = (".csv", ".tsv", ".tab")


def read(paths: Iterable[Path | str], terms: Path | Terms | None = None) -> Market:
    """Read offers from files.

    Parameters
    ----------
    paths : Iterable of Path
        CSV and XLSX lists of any columns, and pasted text (TXT).
    terms : Path or Terms, optional
        What is known of the suppliers, or the file that says it.

    Returns
    -------
    Market
        Good rows as offers, with our code only where the list or a yes in the ``answers.csv``
        beside it gives one; the other rows with their reasons. A file that cannot be read at
        all is one of those.
    """
    files = [Path(path) for path in paths]
    market = read_all(files, terms).market
    beside = dict.fromkeys(path.parent / answers.NAME for path in files)
    return put_in(market, [answer for place in beside for answer in answers.read(place)])


def files_of(paths: Iterable[Path]) -> tuple[list[Path], Path | None]:
    """Files that are meant: a folder means all lists in it.

    Parameters
    ----------
    paths : Iterable of Path
        Files and folders.

    Returns
    -------
    list of Path
        The files, without answers and terms.
    Path or None
        The terms ``suppliers.toml`` of the first folder that has them.
    """
    files: list[Path] = []
    terms: Path | None = None
    for path in paths:
        inside = (
            sorted(p for p in path.iterdir() if p.is_file() or p.is_symlink())
            if path.is_dir()
            else [path]
        )
        files += [p for p in inside if p.suffix.lower() != ".toml" and p.name[:1] != "."]
        beside = (path if path.is_dir() else path.parent) / "suppliers.toml"
        if terms is None and beside.exists():
            terms = beside
    return [path for path in files if path.name != answers.NAME], terms


def read_all(paths: Iterable[Path | str], terms: Path | Terms | None = None) -> Loaded:
    """Read offers from files, with the columns as they were understood.

    Parameters
    ----------
    paths : Iterable of Path
        As for `read`.
    terms : Path or Terms, optional
        As for `read`.

    Returns
    -------
    Loaded
        The market and the headings by supplier.
    """
    known = read_terms(terms) if isinstance(terms, Path) else terms or Terms()
    broken: list[Told] = []
    loaded = load(_listings([Path(path) for path in paths], known, broken), known)
    market = loaded.market
    if broken:
        refused = (*broken, *market.refused)
        market = Market(market.currency, market.suppliers, market.offers, refused, market.noted)
    return Loaded(market, loaded.columns)


def _listings(paths: list[Path], terms: Terms, broken: list[Told]) -> Iterator[Listing]:
    for path in paths:
        if path.name == answers.NAME:
            continue
        supplier = terms.of_file(path.stem)
        kind = path.suffix.lower()
        try:
            if kind in (".xlsx", ".xlsm"):
                for sheet, rows in tables.xlsx_sheets(path):
                    if rows:
                        yield Listing(f"{path.name}, {sheet},", supplier, rows)
            elif kind in _CSV:
                text = tables.decoded(tables.read_bytes(path))
                rows = tables.csv_rows(text, path.name)
                if not rows:
                    raise OrderError(f"{path.name} is empty.")
                yield Listing(path.name, supplier, rows)
            elif kind in _TEXTS:
                text = tables.decoded(tables.read_bytes(path))
                listing, left = listed(text, path.name, supplier)
                broken.extend(left)
                yield listing
            else:
                raise OrderError(
                    f'{path.name} ends in "{kind}": lists are read from .csv, .tsv, .xlsx and .txt.'
                )
        except OrderError as error:
            reason = str(error).removeprefix(f"{path.name} ")  # told beside its name
            broken.append(Told(path.name, "", reason, is_file=True))
