# SPDX-License-Identifier: Apache-2.0
"""Reading the shipped tables: rows as text, sources by key."""

import csv
import io
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from linewright.base.errors import TableError


@dataclass(frozen=True, slots=True)
class Source:
    """A source of figures: its key, its title, and what sort of text it is."""

    key: str
    title: str
    kind: str


@cache
def rows(name: str) -> tuple[dict[str, str], ...]:
    """Return the rows of a shipped table, every cell as text.

    Parameters
    ----------
    name : str
        Name of the table without its ending, e.g. ``threads``.

    Returns
    -------
    tuple of dict
        One mapping a row, by column name.

    Raises
    ------
    TableError
        If there is no such table, or a row has more cells than the heading.
    """
    place = files("linewright.tables").joinpath("data", f"{name}.csv")
    try:
        text = place.read_text(encoding="utf-8")
    except (FileNotFoundError, NotADirectoryError) as error:
        raise TableError(f"There is no table {name}.csv among the shipped tables.") from error
    read = tuple(csv.DictReader(io.StringIO(text)))
    for number, row in enumerate(read, 2):
        if None in row or None in row.values():
            raise TableError(f"{name}.csv, line {number}: cells and headings differ in number.")
    return read


@cache
def sources() -> Mapping[str, Source]:
    """Return the sources that the tables cite, by key.

    Returns
    -------
    Mapping of str to Source
        In the order of the file.
    """
    text = files("linewright.tables").joinpath("sources.toml").read_text(encoding="utf-8")
    return MappingProxyType(
        {key: Source(key, item["title"], item["kind"]) for key, item in tomllib.loads(text).items()}
    )
