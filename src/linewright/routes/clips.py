# SPDX-License-Identifier: Apache-2.0
"""How many clips hold a piece of hose, tube or pipe."""

from math import ceil

from linewright.car.model import Car, Construction, Line, Medium
from linewright.joints.offered import setting

#: Lengths nearer than this to a whole number of spacings count as whole. [-]
_EXACT = 1e-9


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
        The setting for fuel or for all else. [m]
    """
    name = "clip-spacing-fuel" if line.medium is Medium.FUEL else "clip-spacing"
    return setting(car, name).value


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
