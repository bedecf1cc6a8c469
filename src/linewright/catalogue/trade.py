# SPDX-License-Identifier: Apache-2.0
"""What the trade sells, as read from ``trade.csv``: one offer for each part.

The table has one row for each shape and pair of ends. ``*`` in an end stands for each size
listed; ``#`` for the second of a pair ``larger>smaller``. A size stands in the column of its
availability; what stands in none is not sold and so is not in the catalogue.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from linewright.base.errors import TableError
from linewright.base.evidence import Grade
from linewright.catalogue.part import Availability
from linewright.ends.end import End, Family, Gender
from linewright.tables.load import rows

_GENDERS = {"m": Gender.MALE, "f": Gender.FEMALE}
_KINDED = (Family.HOSE, Family.WELD)


@dataclass(frozen=True, slots=True)
class Offer:
    """One part as the trade offers it, before its figures are reckoned."""

    shape: str
    ends: tuple[End, ...]
    angle: int
    traits: tuple[str, ...]
    material: str
    availability: Availability
    grade: Grade


@cache
def end_of(text: str) -> End:
    """Read an end in its canonical form.

    Parameters
    ----------
    text : str
        An end as ``str(end)`` writes it; the builder's own words are read by the notation.

    Returns
    -------
    End
        The end.

    Raises
    ------
    TableError
        If the first word is no family.

    Examples
    --------
    >>> str(end_of("flare_37 -10 f swivel")), str(end_of("hose -10 rubber m"))
    ('flare_37 -10 f swivel', 'hose -10 rubber m')
    """
    first, *words = text.split()
    try:
        family = Family(first)
    except ValueError:
        raise TableError(
            f"trade.csv, end {text!r}: {first!r} is no family; see ends/end.py for the list"
        ) from None
    swivel = words[-1:] == ["swivel"]
    if swivel:
        words.pop()
    gender = _GENDERS.get(words[-1] if words else "", Gender.NONE)
    if gender is not Gender.NONE:
        words.pop()
    kind = words.pop() if family in _KINDED else ""
    return End(family, " ".join(words), gender, swivel, kind)


def offers() -> Iterator[Offer]:
    """Everything in ``trade.csv``, a row after the other.

    Yields
    ------
    Offer
        One part.

    Raises
    ------
    TableError
        If an end in the table cannot be read.
    """
    for row in rows("trade"):
        grade = Grade(row["grade"])
        angles = [int(angle) for angle in row["angles"].split()]
        traits = tuple(trait for trait in row["traits"].split(";") if trait)
        patterns = [row["near"], *(far for far in row["far"].split(" + ") if far)]
        for availability in Availability:
            material = row["material"] or (
                "steel" if availability is Availability.SPECIAL else "aluminium"
            )
            for size in row[availability.value].split(";"):
                if not size:
                    continue
                first, _, second = size.partition(">")
                ends = tuple(
                    end_of(pattern.replace("*", first).replace("#", second)) for pattern in patterns
                )
                for angle in angles:
                    yield Offer(row["shape"], ends, angle, traits, material, availability, grade)
