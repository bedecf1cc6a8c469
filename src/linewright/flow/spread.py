# SPDX-License-Identifier: Apache-2.0
"""What is not known well, as factors on what is reckoned with; corners and samples of them.

A result carries a band because bore, viscosity and losses are not known to the last digit.
Each doubt is a `Spread`; a study draws a table of factors, a row a variant, and solves all rows
in one batch.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import log

import numpy as np
from numpy.typing import NDArray

from linewright.base.evidence import Figure, Grade
from linewright.flow.model import Band
from linewright.tables.fluids import spread


@dataclass(frozen=True, slots=True)
class Spread:
    """How far one truth may lie from what is reckoned with.

    ``what`` is its name in ``spreads.csv``, ``where`` the line, fluid or part it is of, empty
    for all alike. The truth over the value reckoned with is between ``low`` and ``high``, the
    bounds of the central 95 %. [-]
    """

    what: str
    low: float
    high: float
    grade: Grade
    where: str = ""


def known(what: str, where: str = "") -> Spread:
    """Return a doubt as the tables have it.

    Parameters
    ----------
    what : str
        bore, viscosity, loss, bend, convoluted or heat-conductance.
    where : str
        What it is of.

    Returns
    -------
    Spread
        With its grade.

    Examples
    --------
    >>> known("loss").high
    1.3
    """
    figure = spread(what)
    return Spread(what, figure.low or 1.0, figure.high or 1.0, figure.grade, where)


def of_bores(bores: Sequence[Figure], where: str = "") -> Spread:
    """Return the doubt in a bore: that of its making, and that of sources that disagree.

    Parameters
    ----------
    bores : Sequence of Figure
        All that the tables have for it, the one reckoned with first. [m]
    where : str
        What it is of.

    Returns
    -------
    Spread
        On the first bore.

    Examples
    --------
    >>> ten = [Figure(v, "m", Grade.READ) for v in (0.0127, 0.0143)]
    >>> round(of_bores(ten).high, 3)
    1.16
    """
    made = known("bore", where)
    first = bores[0].value
    least, most = (pick(b.value for b in bores) / first for pick in (min, max))
    return Spread("bore", least * made.low, most * made.high, made.grade, where)


def corners(spreads: Sequence[Spread]) -> NDArray[np.float64]:
    """Return all corners of some doubts.

    Parameters
    ----------
    spreads : Sequence of Spread
        At most 16, since every one doubles the corners.

    Returns
    -------
    array
        Factors, a row a corner and a column a doubt; the first row is all ones. [-]

    Raises
    ------
    ValueError
        If there are more than 16 doubts.

    Examples
    --------
    >>> corners([known("loss")]).tolist()
    [[1.0], [0.7], [1.3]]
    """
    if len(spreads) > 16:
        raise ValueError(f"{len(spreads)} doubts have too many corners; draw a sample of them.")
    ends = np.array([[s.low, s.high] for s in spreads], dtype=np.float64).reshape(-1, 2)
    count = len(spreads)
    chosen = (np.arange(2**count)[:, None] >> np.arange(count)) & 1
    found = np.where(chosen == 1, ends[:, 1], ends[:, 0])
    return np.vstack([np.ones((1, count)), found])


def sample(spreads: Sequence[Spread], count: int, seed: int) -> NDArray[np.float64]:
    """Return a sample of some doubts, the same for the same seed.

    Parameters
    ----------
    spreads : Sequence of Spread
        Each is log-normal on either side of 1, with its bounds at 2.5 and 97.5 %.
    count : int
        How many rows.
    seed : int
        Seed of the sample.

    Returns
    -------
    array
        Factors, a row a draw and a column a doubt; the first row is all ones. [-]

    Examples
    --------
    >>> drawn = sample([known("viscosity")], 2000, 1)
    >>> bool(0.03 < (drawn < 0.85).mean() + (drawn > 1.15).mean() < 0.07)
    True
    """
    normal = np.random.Generator(np.random.Philox(seed)).standard_normal((count, len(spreads)))
    down = np.array([log(s.low) for s in spreads]) / -_TWO_SIDED
    up = np.array([log(s.high) for s in spreads]) / _TWO_SIDED
    found = np.exp(np.where(normal < 0.0, down, up) * normal)
    found[:1] = 1.0
    return np.asarray(found, dtype=np.float64)


#: Standard deviations from the middle to the end of the central 95 %.
_TWO_SIDED = 1.959964


def band(values: NDArray[np.float64]) -> Band:
    """Return the band of a result over the rows of a sample, the first being the value itself.

    Parameters
    ----------
    values : array
        One a row of `sample`, or of `corners` (whose least and greatest then stand).

    Returns
    -------
    Band
        Central 95 %, widened to hold the value.

    Examples
    --------
    >>> band(np.array([2.0, 1.0, 4.0]))
    Band(value=2.0, low=1.0, high=4.0)
    """
    value = float(values[0])
    few = len(values) < 100
    low, high = np.quantile(values, (0.0, 1.0) if few else (0.025, 0.975))
    return Band(value, min(value, float(low)), max(value, float(high)))
