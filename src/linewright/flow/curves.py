# SPDX-License-Identifier: Apache-2.0
"""A property over temperature, between and beyond the rows of a table.

Rows are joined by straight lines in the coordinates in which the property is nearly straight,
and the last line goes on beyond them, so that ten kelvin between rows lose nothing.
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from math import exp, log, log10
from typing import overload

import numpy as np
from numpy.typing import NDArray

Values = NDArray[np.float64]


class Scale(StrEnum):
    """Coordinates in which a property is nearly straight."""

    PLAIN = "plain"  # value over temperature
    ANDRADE = "Andrade"  # its logarithm over the inverse: vapour pressure, thin liquids
    WALTHER = "Walther"  # ASTM D341: log log (mm2/s + 0.7) over log T, for oil


# What ASTM D341 adds to a viscosity, and the unit that it is for.
_ADDED = 0.7
_MM2 = 1e-6


@dataclass(frozen=True, slots=True)
class Curve:
    """A property over temperature.

    Parameters
    ----------
    temperatures : Sequence of float
        At least one, rising. [K]
    values : Sequence of float
        One for each temperature. [SI]
    scale : Scale
        The coordinates to join them in.
    low, high : float
        Between which temperatures the figures hold; the first and last where left out. [K]

    Examples
    --------
    Two points of ASTM D341 give the viscosity anywhere:

    >>> oil = Curve((313.15, 373.15), (32e-6, 5.4e-6), Scale.WALTHER)
    >>> round(oil(353.15) * 1e6, 1)
    8.5
    """

    temperatures: Sequence[float]
    values: Sequence[float]
    scale: Scale = Scale.PLAIN
    low: float | None = None
    high: float | None = None
    _at: tuple[float, ...] = field(init=False, repr=False, compare=False)
    _heights: tuple[float, ...] = field(init=False, repr=False, compare=False)
    _slopes: tuple[float, ...] = field(init=False, repr=False, compare=False)
    _arrays: tuple[Values, Values, Values] = field(init=False, repr=False, compare=False)

    @property
    def range(self) -> tuple[float, float]:
        """Between which temperatures the figures hold. [K]"""
        low = self.temperatures[0] if self.low is None else self.low
        return low, self.temperatures[-1] if self.high is None else self.high

    def __post_init__(self) -> None:
        at = [self._across(t) for t in self.temperatures]
        up = [self._up(v) for v in self.values]
        steps = zip(at, at[1:], up, up[1:], strict=False)
        slopes = [(d - c) / (b - a) for a, b, c, d in steps] or [0.0]
        for name, found in (("_at", at), ("_heights", up), ("_slopes", slopes)):
            object.__setattr__(self, name, tuple(found))
        object.__setattr__(self, "_arrays", tuple(np.array(v) for v in (at, up, slopes)))

    @overload
    def __call__(self, temperature: float) -> float: ...
    @overload
    def __call__(self, temperature: Values) -> Values: ...
    def __call__(self, temperature: float | Values) -> float | Values:
        """Return the property at one temperature [K] or many."""
        if isinstance(temperature, np.ndarray):
            return self._many(temperature)
        across = self._across(temperature)
        left = min(max(bisect_left(self._at, across) - 1, 0), len(self._slopes) - 1)
        return self._down(self._heights[left] + self._slopes[left] * (across - self._at[left]))

    def _many(self, temperature: Values) -> Values:
        if self.scale is Scale.PLAIN:
            across = temperature
        else:
            across = -1.0 / temperature if self.scale is Scale.ANDRADE else np.log10(temperature)
        at, heights, slopes = self._arrays
        # What is beyond the first or the last row goes on from the rows beside it.
        left = np.searchsorted(at[1:-1], across) if len(at) > 2 else 0
        up = heights[left] + slopes[left] * (across - at[left])
        if self.scale is Scale.PLAIN:
            return np.asarray(up, dtype=np.float64)
        if self.scale is Scale.ANDRADE:
            return np.asarray(np.exp(up), dtype=np.float64)
        return np.asarray((10.0 ** (10.0**up) - _ADDED) * _MM2, dtype=np.float64)

    def _across(self, temperature: float) -> float:
        if self.scale is Scale.PLAIN:
            return float(temperature)
        return -1.0 / temperature if self.scale is Scale.ANDRADE else log10(temperature)

    def _up(self, value: float) -> float:
        if self.scale is Scale.PLAIN:
            return float(value)
        return log(value) if self.scale is Scale.ANDRADE else log10(log10(value / _MM2 + _ADDED))

    def _down(self, up: float) -> float:
        if self.scale is Scale.PLAIN:
            return up
        if self.scale is Scale.ANDRADE:
            return exp(up)
        found: float = (10.0 ** (10.0**up) - _ADDED) * _MM2
        return found


def mixed(first: Curve, second: Curve, share: float) -> Curve:
    """Return a property between two fluids of one family.

    Parameters
    ----------
    first, second : Curve
        Of one scale.
    share : float
        How far from the first to the second, 0 to 1. [-]

    Returns
    -------
    Curve
        At all temperatures of both, in straight steps of the scale; it holds where both do.

    Examples
    --------
    >>> water, strong = Curve((280.0, 300.0), (1000.0, 990.0)), Curve((280.0,), (1100.0,))
    >>> mixed(water, strong, 0.5)(300.0)
    1045.0
    """
    at = sorted({*first.temperatures, *second.temperatures})
    values = []
    for temperature in at:
        a, b = (first._up(curve(temperature)) for curve in (first, second))
        values.append(first._down((1.0 - share) * a + share * b))
    low = max(first.range[0], second.range[0])
    high = min(first.range[1], second.range[1])
    return Curve(tuple(at), tuple(values), first.scale, low, high)
