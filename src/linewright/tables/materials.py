# SPDX-License-Identifier: Apache-2.0
"""What a seal or a hose liner is made of, and whether it stands the fluid and its heat.

Where sources disagree the stricter rating is used and the note of the row says so.
"""

import re
from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from linewright.base.dimensions import ZERO_CELSIUS
from linewright.base.evidence import Grade
from linewright.tables.load import rows
from linewright.tables.practice import figure


class Rating(StrEnum):
    """How well a material stands a fluid, best first."""

    GOOD = "good"
    USABLE = "usable"
    LIMITED = "limited"
    UNFIT = "unfit"

    @property
    def is_fit(self) -> bool:
        """Whether it may be ordered for the fluid without a further word."""
        return self in (Rating.GOOD, Rating.USABLE)


@dataclass(frozen=True, slots=True)
class Fitness:
    """One material in one class of fluid; temperatures in K, None where no row has them.

    ``rank`` orders what the trade takes for rings, 1 first; None where it is no ring.
    """

    material: str
    fluid: str
    use: str
    rating: Rating
    rank: int | None
    coldest: float | None
    hottest: float | None
    grade: Grade
    source: str
    note: str

    def stands(self, temperature: float) -> bool:
        """Whether it stands a temperature.

        Parameters
        ----------
        temperature : float
            Hottest in service. [K]

        Returns
        -------
        bool
            True also where no row has a limit.
        """
        return self.hottest is None or temperature <= self.hottest


_ETHANOL = re.compile(r"\be\s?-?(?:[2-9]\d|100)\b|ethanol|\bflex\b")
_METHANOL = re.compile(r"\bm\s?-?(?:[2-9]\d|100)\b|methanol")

#: Class of fluid where its name says no more than the medium does.
_BY_MEDIUM = {
    "oil": "oil",
    "coolant": "coolant",
    "charge coolant": "coolant",
    "fuel": "petrol",
    "charge air": "air",
}


#: What names a fluid of each class of medium; anything else is told by its medium alone.
_NAMES = {
    "oil": re.compile(r"\b\d{1,2}\s?w\b|\b\d{1,2}w\s?-?\s?\d{1,3}\b|\boils?\b|\bsae\b|\batf\b"),
    "coolant": re.compile(r"\bwater\b|glycol\b|\bcoolant\b|\banti-?freeze\b"),
    "petrol": re.compile(
        r"\bpetrol\b|\bgasoline\b|\b\d{2,3}\s?(?:ron|aki|octane)\b|\bron\s?\d|\b[em]\s?-?\d{1,3}\b"
        r"|ethanol|\bflex\b"
    ),
    "air": re.compile(r"\bair\b|\bboost\b"),
}
_TYPED = {
    "oil": ("15W-50", "SAE 30", "ATF", "oil"),
    "coolant": ("50 % glycol", "water", "antifreeze", "coolant"),
    "petrol": ("petrol", "98 RON", "E10", "E85", "ethanol", "methanol"),
    "air": ("air",),
}
_WITHOUT = re.compile(r"ethanol[- ]free|(?:without|no|free of) ethanol")


def fluid_class(medium: str, fluid: str) -> str:
    """Tell the class of a fluid that the rows are kept by.

    Parameters
    ----------
    medium : str
        Medium of the system: oil, coolant, charge coolant, fuel or charge air.
    fluid : str
        The fluid as typed.

    Returns
    -------
    str
        oil, coolant, petrol (up to 15 % ethanol), ethanol, methanol or air; empty for a
        medium that is none of these.

    Examples
    --------
    >>> fluid_class("fuel", "E85")
    'ethanol'
    >>> fluid_class("fuel", "98 RON E10"), fluid_class("fuel", "petrol without ethanol")
    ('petrol', 'petrol')
    """
    if medium == "fuel":
        text = _WITHOUT.sub("", fluid.lower())
        if _METHANOL.search(text):
            return "methanol"
        if _ETHANOL.search(text):
            return "ethanol"
    return _BY_MEDIUM.get(medium, "")


def is_known(medium: str, fluid: str) -> bool:
    """Tell whether a fluid is one that the rows speak of.

    Parameters
    ----------
    medium : str
        Medium of the system.
    fluid : str
        The fluid as typed.

    Returns
    -------
    bool
        False where its class was told by the medium alone, its name saying nothing.

    Examples
    --------
    >>> is_known("fuel", "98 RON"), is_known("fuel", "kerosine")
    (True, False)
    """
    names = _NAMES.get(_BY_MEDIUM.get(medium, ""))
    return names is None or names.search(fluid.lower()) is not None


def known_as(medium: str) -> tuple[str, ...]:
    """Names by which fluids of a medium are known, as a builder would type them.

    Parameters
    ----------
    medium : str
        Medium of the system.

    Returns
    -------
    tuple of str
        The commonest first.
    """
    return _TYPED.get(_BY_MEDIUM.get(medium, ""), ())


def _kelvin(text: str) -> float | None:
    return float(text) + ZERO_CELSIUS if text else None


@cache
def fitnesses() -> tuple[Fitness, ...]:
    """Return every row of the table of materials against fluids.

    Returns
    -------
    tuple of Fitness
        In the order of the table.
    """
    return tuple(
        Fitness(
            row["material"],
            row["fluid"],
            row["use"],
            Rating(row["rating"]),
            int(row["rank"]) if row["rank"] else None,
            _kelvin(row["coldest_c"]),
            _kelvin(row["hottest_c"]),
            Grade(row["grade"]),
            row["source"],
            row["note"],
        )
        for row in rows("fitness")
    )


def _for(use: str, fluid: str) -> tuple[Fitness, ...]:
    return tuple(f for f in fitnesses() if f.fluid == fluid and f.use in (use, "both"))


def hottest_usual(medium: str) -> float:
    """Return how hot a fluid gets where the document does not say.

    Parameters
    ----------
    medium : str
        Medium of the system.

    Returns
    -------
    float
        The default of the trade. [K]
    """
    return figure(f"hottest-{medium.replace(' ', '-')}").value


@cache
def ring_for(medium: str, fluid: str, temperature: float | None = None) -> Fitness | None:
    """Choose the rubber of an O-ring.

    Parameters
    ----------
    medium : str
        Medium of the system.
    fluid : str
        The fluid as typed.
    temperature : float or None, optional
        Hottest in service; the trade's default for the medium where left out. [K]

    Returns
    -------
    Fitness or None
        The first in the trade's order that is good and stands the heat; failing that one
        that is usable, then one of limited fitness (``rating`` says so). None where no
        material in the table will do.

    Examples
    --------
    >>> ring_for("oil", "15W-50", 403.15).material
    'FKM'
    >>> ring_for("coolant", "50 % glycol").material
    'EPDM'
    """
    hot = hottest_usual(medium) if temperature is None else temperature
    able = [
        f
        for f in _for("seal", fluid_class(medium, fluid))
        if f.rank is not None and f.rating is not Rating.UNFIT and f.stands(hot)
    ]
    order = list(Rating)
    return min(able, key=lambda f: (order.index(f.rating), f.rank or 0), default=None)


def ring(material: str, medium: str, fluid: str) -> Fitness | None:
    """Look up a ring of a given rubber.

    Parameters
    ----------
    material : str
        Rubber, e.g. ``NBR``.
    medium : str
        Medium of the system.
    fluid : str
        The fluid as typed.

    Returns
    -------
    Fitness or None
        None where the table has no row.
    """
    found = (f for f in _for("seal", fluid_class(medium, fluid)) if f.material == material)
    return next(found, None)


def liner(material: str, medium: str, fluid: str) -> Fitness | None:
    """Look up what a hose is lined with, or a tube is made of.

    Parameters
    ----------
    material : str
        Liner as the hose family has it; what follows a comma (``PTFE, carbon-filled``) does
        not change how it stands a fluid.
    medium : str
        Medium of the system.
    fluid : str
        The fluid as typed.

    Returns
    -------
    Fitness or None
        None where the table has no row: then nothing is known, good or bad.

    Examples
    --------
    >>> liner("EPDM", "oil", "15W-50").rating
    <Rating.UNFIT: 'unfit'>
    """
    bare = material.partition(",")[0]
    found = (f for f in _for("liner", fluid_class(medium, fluid)) if f.material == bare)
    return next(found, None)
