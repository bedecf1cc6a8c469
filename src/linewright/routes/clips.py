# SPDX-License-Identifier: Apache-2.0
"""How many clips hold a piece of hose, tube or pipe."""

import re
from fractions import Fraction
from functools import cache
from math import ceil

from linewright.car.model import Car, Construction, Line, Medium
from linewright.joints.offered import setting
from linewright.tables.load import rows

#: Lengths nearer than this to a whole number of spacings count as whole. [-]
_EXACT = 1e-9

_SUPPORT = re.compile(
    r"max distance between supports, (?P<inches>[\d/-]+) in OD (?P<metal>\w+) tube"
)
_MILLIMETRES = re.compile(r"\((\d+) mm\)")


def spacing(car: Car, line: Line) -> float:
    """Greatest distance between the clips of a line.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        The line.

    Returns
    -------
    float
        The setting for fuel or for all else; for hard tube no more than the table of its
        metal and size. [m]
    """
    name = "clip-spacing-fuel" if line.medium is Medium.FUEL else "clip-spacing"
    usual = setting(car, name).value
    if line.construction is not Construction.TUBE:
        return usual
    metal = "aluminium" if "alumin" in line.hose.lower() else "steel"
    return min(usual, _tube_supports().get((metal, line.size), usual))


@cache
def _tube_supports() -> dict[tuple[str, str], float]:
    """Greatest distance between supports of hard tube, by metal and dash [m]."""
    found = {}
    for row in rows("hose_practice"):
        what = _SUPPORT.fullmatch(row["rule"])
        metres = _MILLIMETRES.search(row["value"])
        if what and metres:
            inches = sum(Fraction(part) for part in what["inches"].split("-"))
            found[what["metal"], f"-{int(inches * 16)}"] = float(metres[1]) / 1000
    return found


def count(string: float, between: float, line: Line) -> int:
    """Clips for one piece: one per started spacing.

    Parameters
    ----------
    string : float
        Length of the piece along its path. [m]
    between : float
        Greatest distance between clips. [m]
    line : Line
        The line; a reference hose is tied to what it runs along, a clamped hose or a
        charge pipe is held at both of its joints.

    Returns
    -------
    int
        Number of clips.

    Examples
    --------
    >>> from linewright.car.model import Construction, Line
    >>> line = Line("O01", "A.out", "B.in", "oil", None, "-10", "rubber", Construction.HOSE)
    >>> [count(metres, 0.450, line) for metres in (0.700, 0.450, 0.900, 0.950)]
    [2, 1, 2, 3]
    """
    if line.service == "reference" or line.construction is Construction.PIPE:
        return 0
    started = ceil(string / between - _EXACT)
    if line.construction is Construction.CLAMPED:
        return max(0, started - 1)
    return max(1, started)
