# SPDX-License-Identifier: Apache-2.0
"""Steps in time of lumps of heat that flows and walls tie together, many variants at once.

``capacity`` dT/dt = ``right`` - ``matrix`` T, with all three standing still over a step. The step
is the stiffly accurate one of Alexander [1]_: of second order, stable and damping at any length,
so that a node without capacity is simply where its neighbours put it. Heat that flows during a
step is what flows at the mean of its two stages, so that heat in less heat out is what is stored,
but for rounding.

A lump is tied to few others, so that its equations are eliminated in an order of least fill
[2]_. No row has more in its other entries than on its diagonal, so that no row is exchanged.

References
----------
.. [1] R. Alexander, Diagonally implicit Runge-Kutta methods for stiff ODEs, SIAM J. Numer.
   Anal. 14 (1977), method of two stages.
.. [2] W. F. Tinney, J. W. Walker, Direct solutions of sparse network equations by optimally
   ordered triangular factorization, Proc. IEEE 55 (1967).
"""

from dataclasses import dataclass
from math import sqrt
from typing import Any

import numpy as np
from numpy.typing import NDArray

from linewright.base.kernels import njit
from linewright.flow.elimination import Elimination, order

Values = NDArray[np.float64]

_GAMMA = 1.0 - 1.0 / sqrt(2.0)
_AHEAD = (1.0 - _GAMMA) / _GAMMA


@dataclass(frozen=True, slots=True)
class Taken:
    """A step taken: temperatures at its end, their mean that heat flows at, its error. [K]"""

    end: Values
    mean: Values
    error: Values


@njit
def _factor(
    matrix: Any, kept: Any, place: Any, starts: Any, rows: Any, targets: Any, factors: Any
) -> None:
    """Factor the matrices of all variants, ``kept`` on their diagonals, into lower and upper."""
    lower, upper, inverse = factors
    size = place.size
    node = np.empty(size, dtype=np.int64)
    for i in range(size):
        node[place[i]] = i
    for v in range(matrix.shape[0]):
        a, low, up, pivots = matrix[v], lower[v], upper[v], inverse[v]
        for k in range(size):
            here = node[k]
            pivots[k] = a[here, here] + kept[v, here]
            for s in range(starts[k], starts[k + 1]):
                other = node[rows[s]]
                low[s] = a[other, here]
                up[s] = a[here, other]
        pair = 0
        for k in range(size):
            scale = 1.0 / pivots[k]
            pivots[k] = scale
            for s in range(starts[k], starts[k + 1]):
                share_down, share_up = low[s] * scale, up[s] * scale
                pivots[rows[s]] -= low[s] * share_up
                for t in range(s + 1, starts[k + 1]):
                    low[targets[pair]] -= low[t] * share_up
                    up[targets[pair]] -= up[t] * share_down
                    pair += 1


@njit
def _through(starts: Any, rows: Any, low: Any, up: Any, inverse: Any, x: Any) -> None:
    """Solve in place, the right side in the order of elimination."""
    size = inverse.size
    for k in range(size):
        value = x[k] * inverse[k]
        x[k] = value
        for s in range(starts[k], starts[k + 1]):
            x[rows[s]] -= low[s] * value
    for k in range(size - 1, -1, -1):
        found = 0.0
        for s in range(starts[k], starts[k + 1]):
            found += up[s] * x[rows[s]]
        x[k] -= found * inverse[k]


@njit
def _take(
    kept: Any, place: Any, starts: Any, rows: Any, factors: Any, start: Any, right: Any, out: Any
) -> None:
    """Both stages of a step of all variants, and its error."""
    lower, upper, inverse = factors
    end, mean, error = out
    size = place.size
    x = np.empty(size)
    first = np.empty(size)
    for v in range(start.shape[0]):
        low, up, pivots = lower[v], upper[v], inverse[v]
        for i in range(size):
            x[place[i]] = kept[v, i] * start[v, i] + right[v, i]
        _through(starts, rows, low, up, pivots, x)
        for i in range(size):
            first[i] = x[place[i]]
        for i in range(size):
            ahead = start[v, i] + _AHEAD * (first[i] - start[v, i])
            x[place[i]] = kept[v, i] * ahead + right[v, i]
        _through(starts, rows, low, up, pivots, x)
        for i in range(size):
            end[v, i] = x[place[i]]
            mean[v, i] = (1.0 - _GAMMA) * first[i] + _GAMMA * end[v, i]
        # What the second stage adds to the rate of the first, damped as the step itself is.
        for i in range(size):
            apart = end[v, i] - start[v, i] - (1.0 + _AHEAD) * (first[i] - start[v, i])
            x[place[i]] = kept[v, i] * apart
        _through(starts, rows, low, up, pivots, x)
        worst = 0.0
        for i in range(size):
            worst = max(worst, abs(_GAMMA * x[i]))
        error[v] = worst


class Tied:
    """Which lumps of a group are tied to which, and the order in which they are eliminated."""

    def __init__(self) -> None:
        self._known: NDArray[np.bool_] | None = None
        self.order: Elimination = order(0, (), ())

    def see(self, matrix: Values) -> Elimination:
        """Return the order for some matrices: the one before, where they tie nothing else."""
        ties = (matrix != 0.0).any(axis=0)
        ties |= ties.T
        if self._known is None or (ties & ~self._known).any():
            self._known = ties if self._known is None else ties | self._known
            pairs = zip(
                *(side.tolist() for side in np.nonzero(np.triu(self._known, 1))), strict=True
            )
            self.order = order(len(ties), range(len(ties)), pairs)
        return self.order


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
    turns : Elimination, optional
        Order of elimination, as `Tied` has it; found where it is left out.

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

    def __init__(
        self, capacity: Values, matrix: Values, step: float, turns: Elimination | None = None
    ) -> None:
        self.step = step
        self._kept = capacity / (_GAMMA * step)
        self._turns = Tied().see(matrix) if turns is None else turns
        t, variants = self._turns, len(capacity)
        shape = (variants, t.rows.size)
        self._factors = (np.empty(shape), np.empty(shape), np.empty((variants, t.size)))
        _factor(matrix, self._kept, t.place, t.starts, t.rows, t.targets, self._factors)

    def take(self, start: Values, right: Values) -> Taken:
        """Take a step from temperatures [K], with heat that does not hang on them [W]."""
        t = self._turns
        out = (np.empty_like(start), np.empty_like(start), np.empty(len(start)))
        _take(self._kept, t.place, t.starts, t.rows, self._factors, start, right, out)
        return Taken(*out)

    def response(self, heat: Values) -> Values:
        """Return by how much the end of a step is warmer for heat put in through all of it."""
        nothing = np.zeros_like(self._kept)
        return self.take(nothing, heat).end
