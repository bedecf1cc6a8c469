# SPDX-License-Identifier: Apache-2.0
"""Losses of fittings: steps of bore, elbows, hose ends.

A loss is a coefficient times the velocity head on a bore that must be said. At low Reynolds
numbers, as of cold oil, a constant coefficient is far too low, so each has a part that goes as
1/Re beside it.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from math import log10

from linewright.base.dimensions import INCH
from linewright.base.errors import TableError
from linewright.tables.fluids import loss
from linewright.tables.load import rows

# Roughness of the steel that Crane's factors of size are for.
_STEEL = 0.0018 * INCH
# Hooper's laminar part of a contraction, with the Reynolds number on the large bore.
_CONTRACTION_LAMINAR = 160.0


@dataclass(frozen=True, slots=True)
class Coefficient:
    """A loss (``k`` + ``laminar`` / Re) times the velocity head, both on ``bore`` [m]. [-]"""

    k: float
    laminar: float
    bore: float

    def on(self, bore: float) -> "Coefficient":
        """Return the same loss on another bore [m]."""
        ratio = bore / self.bore
        # Velocity goes as 1/bore², so its head as the fourth power and Re as 1/bore.
        return Coefficient(self.k * ratio**4, self.laminar * ratio**3, bore)

    def at(self, reynolds: float) -> float:
        """Return the coefficient at a Reynolds number on its bore."""
        return self.k + self.laminar / reynolds


def total(parts: Sequence[Coefficient], bore: float) -> Coefficient:
    """Return the sum of losses in a row, on one bore.

    Parameters
    ----------
    parts : Sequence of Coefficient
        Each on a bore of its own.
    bore : float
        The bore to count on. [m]

    Returns
    -------
    Coefficient
        On ``bore``.

    Examples
    --------
    >>> total([Coefficient(1.0, 0.0, 0.01), Coefficient(1.0, 0.0, 0.02)], 0.02).k
    17.0
    """
    moved = [part.on(bore) for part in parts]
    return Coefficient(sum(m.k for m in moved), sum(m.laminar for m in moved), bore)


def expansion(small: float, large: float) -> Coefficient:
    """Return the loss of a sudden widening, after Borda and Carnot.

    Parameters
    ----------
    small, large : float
        Bores. [m]

    Returns
    -------
    Coefficient
        On the small bore.

    Examples
    --------
    >>> round(expansion(0.008, 0.010).k, 2)
    0.13
    """
    ratio = small / large
    return Coefficient((1.0 - ratio * ratio) ** 2, 0.0, small)


def contraction(large: float, small: float) -> Coefficient:
    """Return the loss of a sudden narrowing, after Rennels; its laminar part after Hooper.

    Parameters
    ----------
    large, small : float
        Bores. [m]

    Returns
    -------
    Coefficient
        On the small bore.

    Examples
    --------
    >>> round(contraction(0.010, 0.008).k, 2)
    0.23
    """
    ratio = small / large
    jet = 1.0 + 0.622 * (1.0 - 0.215 * ratio**2 - 0.785 * ratio**5)
    k = 0.0696 * (1.0 - ratio**5) * jet**2 + (jet - 1.0) ** 2
    laminar = _CONTRACTION_LAMINAR * (1.0 - ratio**4) / ratio
    return Coefficient(k, laminar, small)


def contraction_laminar(large: float, small: float, reynolds: float) -> float:
    """Return the coefficient of a sudden narrowing in laminar flow, after Hooper.

    Parameters
    ----------
    large, small : float
        Bores. [m]
    reynolds : float
        On the large bore, below 2500. [-]

    Returns
    -------
    float
        On the small bore. [-]

    Examples
    --------
    >>> round(contraction_laminar(1.0, 0.4, 1000.0), 4)
    1.3252
    """
    return (1.2 + _CONTRACTION_LAMINAR / reynolds) * (1.0 - (small / large) ** 4)


def steps(bores: Sequence[float], on: float) -> Coefficient:
    """Return the loss of all steps along a row of bores.

    Parameters
    ----------
    bores : Sequence of float
        In the order of the flow. [m]
    on : float
        The bore to count on. [m]

    Returns
    -------
    Coefficient
        On ``on``; nothing for a row that does not change.

    Examples
    --------
    >>> round(steps([0.010, 0.008, 0.010], 0.010).k, 2)
    0.88
    """
    parts = []
    for before, after in pairwise(bores):
        if after > before:
            parts.append(expansion(before, after))
        elif after < before:
            parts.append(contraction(before, after))
    return total(parts, on)


def three_k(
    laminar: float, k: float, size: float, bore: float, nominal: float = 0.0
) -> Coefficient:
    """Return a loss by the 3-K method of Darby (1999).

    Parameters
    ----------
    laminar, k, size : float
        The three constants of the fitting: K1, Ki, Kd. [-]
    bore : float
        Its bore. [m]
    nominal : float
        Its nominal size; the bore where left out. [m]

    Returns
    -------
    Coefficient
        On ``bore``.

    Examples
    --------
    >>> round(three_k(950.0, 0.25, 4.0, 2 * 0.0254).at(1e4), 5)
    1.15725
    """
    inches = (nominal or bore) / INCH
    return Coefficient(k * (1.0 + size / inches**0.3), laminar, bore)


def two_k(laminar: float, k: float, bore: float) -> Coefficient:
    """Return a loss by the 2-K method of Hooper (1981).

    Parameters
    ----------
    laminar, k : float
        The two constants of the fitting: K1 and that at high Reynolds numbers. [-]
    bore : float
        Its bore. [m]

    Returns
    -------
    Coefficient
        On ``bore``.

    Examples
    --------
    >>> two_k(1500.0, 4.0, 2 * 0.0254).at(1e4)
    6.15
    """
    return Coefficient(k * (1.0 + INCH / bore), laminar, bore)


@cache
def _three_k_rows() -> dict[str, tuple[float, float, float]]:
    found = {}
    for row in rows("fittings_loss"):
        numbers = re.search(r"Km = ([\d.]+), Ki = ([\d.]+), Kd = ([\d.]+)", row["k_or_formula"])
        if numbers:
            a, b, c = numbers.groups()
            found[row["element"]] = (float(a), float(b), float(c))
    return found


def three_k_of(element: str, bore: float) -> Coefficient:
    """Return the 3-K loss of a fitting of the tables.

    Parameters
    ----------
    element : str
        As in ``fittings_loss.csv``, e.g. ``Elbow, 90 deg, (r/D = 2)``.
    bore : float
        Its bore. [m]

    Returns
    -------
    Coefficient
        On ``bore``.

    Raises
    ------
    TableError
        If the tables have no such fitting.

    Examples
    --------
    >>> round(three_k_of("Elbow, 90 deg, (r/D = 2)", 0.0143).at(1e4), 1)
    0.4
    """
    try:
        return three_k(*_three_k_rows()[element], bore)
    except KeyError as error:
        raise TableError(f"There is no 3-K fitting {element} in fittings_loss.csv.") from error


# Laminar part of bends by their angle: Darby's elbows of 45, 90 and 180 degrees.
_LAMINAR = {
    45: "Elbow, 45 deg, long radius, (r/D = 1.5)",
    90: "Elbow, 90 deg, threaded, long radius, (r/D = 1.5)",
    180: "Elbow, 180 deg, all, (r/D = 1.5)",
}


def hose_end(angle: float, bore: float, is_forged: bool = False) -> Coefficient:
    """Return the loss of a hose end or elbow besides its steps of bore.

    Parameters
    ----------
    angle : float
        Change of direction. [deg]
    bore : float
        Bore of its tube or drilling. [m]
    is_forged : bool
        Sharp inside, as drilled elbows are; else swept.

    Returns
    -------
    Coefficient
        On ``bore``.

    Examples
    --------
    >>> hose_end(90.0, 0.0116).k, hose_end(90.0, 0.0116, is_forged=True).k
    (0.35, 1.2)
    """
    if is_forged and angle > 0.0:
        points = [(0.0, 0.0), *((float(a), loss(f"forged-{a}").value) for a in (45, 90))]
    else:
        swept = ((float(a), loss(f"swept-{a}").value) for a in (45, 90, 120, 180))
        points = [(0.0, loss("straight").value), *swept]
    known = [(0.0, 0.0), *((float(a), _three_k_rows()[e][0]) for a, e in _LAMINAR.items())]
    return Coefficient(_between(points, angle), _between(known, angle), bore)


def _between(points: Sequence[tuple[float, float]], at: float) -> float:
    for (x0, y0), (x1, y1) in pairwise(points):
        if at <= x1:
            return y0 + (y1 - y0) * (at - x0) / (x1 - x0)
    return points[-1][1]


def crane_factor(bore: float) -> float:
    """Return Crane's factor of size fT: friction in fully rough flow in steel of a bore.

    Parameters
    ----------
    bore : float
        Of the pipe. [m]

    Returns
    -------
    float
        A factor of size, and not the friction of smooth hose. [-]

    Examples
    --------
    >>> round(crane_factor(0.0143), 4)
    0.0266
    """
    return 0.25 / log10(_STEEL / 3.7 / bore) ** 2
