# SPDX-License-Identifier: Apache-2.0
"""Sparse elimination for networks: the order once a topology, the numbers in each iteration.

The matrix of a network has positive diagonals, no positive entry elsewhere, and columns that
sum to zero or more. Kept as the sizes of the other entries and the column sums, it is
eliminated without one subtraction (Alfa, Xue and Ye 2002), so that a shut valve beside a wide
pipe, 1 to 10¹⁵, costs no digits. Where all links work both ways alike the matrix is symmetric,
and one half of it is carried: an LDLᵀ; regulators that feel one side only make it an LU.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np

from linewright.base.kernels import njit


@dataclass(frozen=True, slots=True)
class Elimination:
    """The order in which unknowns go, and where each number falls.

    ``place`` has for each node its turn, or ``size`` where it is fixed. Entries of column j,
    below the diagonal, are ``starts[j]`` to ``starts[j + 1]``, at ``rows``; ``targets`` has for
    every pair of entries of a column the entry that they change, in the order of the loops.
    """

    size: int
    place: np.ndarray
    starts: np.ndarray
    rows: np.ndarray
    targets: np.ndarray

    def entry(self, first: int, second: int) -> int:
        """Return the entry that two unknowns share, by their turns."""
        low, high = min(first, second), max(first, second)
        begin, end = int(self.starts[low]), int(self.starts[low + 1])
        return begin + int(np.searchsorted(self.rows[begin:end], high))


def order(count: int, free: Iterable[int], pairs: Iterable[tuple[int, int]]) -> Elimination:
    """Choose the order of elimination by least degree.

    Parameters
    ----------
    count : int
        Number of nodes.
    free : Iterable of int
        The nodes that are unknowns.
    pairs : Iterable of tuple of int
        The two nodes of each link; those with a fixed node are passed over.

    Returns
    -------
    Elimination
        The order and the places of all entries, those that fill in too.

    Notes
    -----
    The node with the fewest neighbours goes first, and its neighbours become each other's
    (Tinney and Walker 1967); of equals the first in the list, so the order is always the same.

    Examples
    --------
    A path of four nodes whose ends are fixed has one entry and nothing fills in.

    >>> found = order(4, [1, 2], [(0, 1), (1, 2), (2, 3)])
    >>> found.size, found.rows.tolist(), found.targets.tolist()
    (2, [1], [])
    """
    return _order(count, tuple(free), tuple(pairs))


# The systems of a car are tied alike in most conditions.
@lru_cache(maxsize=256)
def _order(count: int, free: tuple[int, ...], pairs: tuple[tuple[int, int], ...]) -> Elimination:
    neighbours: dict[int, set[int]] = {node: set() for node in free}
    for a, b in pairs:
        if a in neighbours and b in neighbours and a != b:
            neighbours[a].add(b)
            neighbours[b].add(a)
    size = len(neighbours)
    place = np.full(count, size, dtype=np.int64)
    columns: list[set[int]] = []
    for turn in range(size):
        node = min(neighbours, key=lambda n: (len(neighbours[n]), n))
        around = neighbours.pop(node)
        for one in around:
            neighbours[one] |= around
            neighbours[one] -= {one, node}
        place[node] = turn
        columns.append(around)
    entries = [sorted(int(place[n]) for n in around) for around in columns]
    starts = np.zeros(size + 1, dtype=np.int64)
    starts[1:] = np.cumsum([len(column) for column in entries])
    at = {
        (j, i): int(starts[j]) + k for j, column in enumerate(entries) for k, i in enumerate(column)
    }
    targets = [
        at[column[s], column[t]]
        for column in entries
        for s in range(len(column))
        for t in range(s + 1, len(column))
    ]
    return Elimination(
        size=size,
        place=place,
        starts=starts,
        rows=np.array([i for column in entries for i in column], dtype=np.int64),
        targets=np.array(targets, dtype=np.int64),
    )


@njit
def eliminate_symmetric(
    starts: Any, rows: Any, targets: Any, lower: Any, sums: Any, inverse: Any, x: Any
) -> None:
    """Solve in place: sizes of entries in ``lower``, column sums ``sums``, right side ``x``."""
    size = starts.size - 1
    pair = 0
    for k in range(size):
        begin, end = starts[k], starts[k + 1]
        pivot = sums[k]
        for s in range(begin, end):
            pivot += lower[s]
        scale = 1.0 / pivot
        inverse[k] = scale
        value = x[k] * scale
        x[k] = value
        left = sums[k] * scale
        for s in range(begin, end):
            here = lower[s]
            x[rows[s]] += here * value
            sums[rows[s]] += here * left
            share = here * scale
            for t in range(s + 1, end):
                lower[targets[pair]] += lower[t] * share
                pair += 1
    for k in range(size - 1, -1, -1):
        found = 0.0
        for s in range(starts[k], starts[k + 1]):
            found += lower[s] * x[rows[s]]
        x[k] += found * inverse[k]


@njit
def eliminate(
    starts: Any, rows: Any, targets: Any, lower: Any, upper: Any, sums: Any, inverse: Any, x: Any
) -> None:
    """Solve in place, where ``upper`` has the entries above the diagonal, each at its mirror's."""
    size = starts.size - 1
    pair = 0
    for k in range(size):
        begin, end = starts[k], starts[k + 1]
        pivot = sums[k]
        for s in range(begin, end):
            pivot += lower[s]
        scale = 1.0 / pivot
        inverse[k] = scale
        value = x[k] * scale
        x[k] = value
        left = sums[k] * scale
        for s in range(begin, end):
            x[rows[s]] += lower[s] * value
            sums[rows[s]] += upper[s] * left
            share_down = lower[s] * scale
            share_up = upper[s] * scale
            for t in range(s + 1, end):
                lower[targets[pair]] += lower[t] * share_up
                upper[targets[pair]] += upper[t] * share_down
                pair += 1
    for k in range(size - 1, -1, -1):
        found = 0.0
        for s in range(starts[k], starts[k + 1]):
            found += upper[s] * x[rows[s]]
        x[k] += found * inverse[k]
