# SPDX-License-Identifier: Apache-2.0
"""What can stand in a book, before anybody chooses a paper: pictures, plots, cards, notes."""

from dataclasses import dataclass

from linewright.sheets.cards import HoseCard
from linewright.sheets.courses import CourseCard
from linewright.sheets.flow_page import SystemPage
from linewright.sheets.table import Table


@dataclass(frozen=True, slots=True)
class Picture:
    """A page with a drawing: the system it shows, "" for all, and the name of its file."""

    system: str
    title: str
    file: str


@dataclass(frozen=True, slots=True)
class Plots:
    """Drawings one below the other, as many on a page as go there."""

    title: str
    pictures: tuple[Picture, ...]


@dataclass(frozen=True, slots=True)
class Cards:
    """Pages with the whole course of each laid hose, two on a page where they are short enough."""

    title: str
    cards: tuple[CourseCard, ...]


@dataclass(frozen=True, slots=True)
class Hoses:
    """Pages with a card for each piece to make, in two columns."""

    title: str
    cards: tuple[HoseCard, ...]


@dataclass(frozen=True, slots=True)
class Note:
    """Something said: a head with its shape, what it is about, the words, the way out."""

    head: str
    about: str
    text: str
    way: str
    source: str = ""


@dataclass(frozen=True, slots=True)
class Notes:
    """Notes in two columns."""

    title: str
    notes: tuple[Note, ...]
    foot: str = ""
    empty: str = "Nothing to say."


#: All that can stand in a chapter.
Leaf = Picture | Plots | Table | Cards | Hoses | Notes | SystemPage


@dataclass(frozen=True, slots=True)
class Chapter:
    """Leaves under one title, from a new page on."""

    title: str
    leaves: tuple[Leaf, ...]
