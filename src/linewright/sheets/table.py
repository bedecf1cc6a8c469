# SPDX-License-Identifier: Apache-2.0
"""A table as the lists and the book share it: words only, ready to print."""

from dataclasses import dataclass
from enum import StrEnum


class Align(StrEnum):
    """How a column stands."""

    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True)
class Column:
    """A heading, its share of the width [-], and how it stands."""

    head: str
    share: float = 1.0
    align: Align = Align.LEFT


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of words under headings; ``note`` stands below, ``empty`` instead of no rows.

    ``groups`` holds (index of the first row, words) of the rules between groups of rows.
    What ``is_written_on`` is filled in at the car: large type, and room for a pencil. A table
    ``is_halved`` stands in two halves beside each other on paper.
    """

    name: str
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""
    empty: str = "Nothing here."
    groups: tuple[tuple[int, str], ...] = ()
    is_wide: bool = False
    is_written_on: bool = False
    is_halved: bool = False
