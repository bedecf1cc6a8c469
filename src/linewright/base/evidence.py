# SPDX-License-Identifier: Apache-2.0
"""How a thing is known, and figures that carry it (docs/nomenclature.md)."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum


class Grade(StrEnum):
    """How the source of a figure is known, best first."""

    READ = "read"
    DERIVED = "derived"
    STATED = "stated"
    RELAYED = "relayed"
    PRACTICE = "practice"
    RECALLED = "recalled"

    @property
    def rank(self) -> int:
        """Place in the order of trust, 0 for the best. [-]"""
        return tuple(Grade).index(self)


class Known(StrEnum):
    """How the end of a port is known, best first."""

    READ = "read"
    TRIED = "tried"
    CALLIPER = "calliper"
    LOOKS = "looks"
    GUESS = "guess"
    UNKNOWN = "unknown"

    @property
    def is_confirmed(self) -> bool:
        """Whether an order may rest on it: read, tried, or callipered."""
        return self in (Known.READ, Known.TRIED, Known.CALLIPER)


class Placed(StrEnum):
    """How a position or a direction is known, best first."""

    FINAL = "final"
    MOCKED_UP = "mocked-up"
    TAPED = "taped"
    PHOTO = "photo"
    GUESS = "guess"


def weakest(grades: Iterable[Grade]) -> Grade:
    """Return the least trusted of some grades; a result is no better than it.

    Parameters
    ----------
    grades : Iterable of Grade
        What the result rests on.

    Returns
    -------
    Grade
        The last of them in the order of trust; `Grade.READ` for none.

    Examples
    --------
    >>> weakest([Grade.READ, Grade.RECALLED, Grade.PRACTICE])
    <Grade.RECALLED: 'recalled'>
    """
    return max(grades, key=lambda grade: grade.rank, default=Grade.READ)


@dataclass(frozen=True, slots=True)
class Figure:
    """A value in SI with its unit, its grade and what it rests on.

    ``low`` and ``high`` bound the central 95 % where the spread is known.
    """

    value: float
    unit: str
    grade: Grade
    basis: str = ""
    low: float | None = None
    high: float | None = None
