# SPDX-License-Identifier: Apache-2.0
"""Steps in time of lumps of heat that flows and walls tie together, many variants at once.

``capacity`` dT/dt = ``right`` - ``matrix`` T, with all three standing still over a step. The step
is the stiffly accurate one of Alexander [1]_: of second order, stable and damping at any length,
so that a node without capacity is simply where its neighbours put it. Heat that flows during a
step is what flows at the mean of its two stages, so that heat in less heat out is what is stored,
but for rounding.

References
----------
.. [1] R. Alexander, Diagonally implicit Runge-Kutta methods for stiff ODEs, SIAM J. Numer.
   Anal. 14 (1977), method of two stages.
"""

from dataclasses import dataclass
from math import sqrt

import numpy as np
from numpy.typing import NDArray

Values = NDArray[np.float64]

_GAMMA = 1.0 - 1.0 / sqrt(2.0)
_AHEAD = (1.0 - _GAMMA) / _GAMMA


@dataclass(frozen=True, slots=True)
class Taken:
    """A step taken: temperatures at its end, their mean that heat flows at, its error. [K]"""

    end: Values
    mean: Values
    error: Values


class Stepper:
    """Steps of one length through one network.

    Parameters
    ----------
    capacity : array
        A row a variant, a column a lump; 0 where a lump follows at once. [J/K]
    matrix : array
        For each variant a square: heat that leaves a lump for each kelvin of another. [W/K]
    step : float
        Length of a step. [s]

    Examples
    --------
    A lump in air loses 63 % of its difference in one time constant, in 40 steps of it:

    >>> stepper = Stepper(np.array([[1000.0]]), np.array([[[10.0]]]), 2.5)
    >>> hot = np.array([[100.0]])
    >>> for _ in range(40):
    ...     hot = stepper.take(hot, np.zeros((1, 1))).end
    >>> round(float(hot[0, 0]), 2)
    36.79
    """

    def __init__(self, capacity: Values, matrix: Values, step: float) -> None:
        self.step = step
        self._kept = capacity / (_GAMMA * step)
        whole = matrix.copy()
        places = np.arange(capacity.shape[1])
        whole[:, places, places] += self._kept
        self._inverse = np.linalg.inv(whole)

    def _through(self, heat: Values) -> Values:
        return np.asarray(np.matmul(self._inverse, heat[:, :, None])[:, :, 0])

    def take(self, start: Values, right: Values) -> Taken:
        """Take a step from temperatures [K], with heat that does not hang on them [W]."""
        first = self._through(self._kept * start + right)
        rise = first - start
        end = self._through(self._kept * (start + _AHEAD * rise) + right)
        # What the second stage adds to the rate of the first, damped as the step itself is.
        apart = end - start - (1.0 + _AHEAD) * rise
        error = np.abs(_GAMMA * self._through(self._kept * apart)).max(axis=1)
        return Taken(end, (1.0 - _GAMMA) * first + _GAMMA * end, error)

    def response(self, heat: Values) -> Values:
        """Return by how much the end of a step is warmer for heat put in through all of it."""
        nothing = np.zeros_like(self._kept)
        return self.take(nothing, heat).end
