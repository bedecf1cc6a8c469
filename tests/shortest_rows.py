# SPDX-License-Identifier: Apache-2.0
"""Lengths of the shortest curve-straight-curve hoses of many pairs of collars at once."""

from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from linewright.base.kernels import njit
from linewright.space._curves import PLACES, joined

if TYPE_CHECKING:
    from numpy.typing import NDArray

Floats: TypeAlias = "NDArray[np.float64]"


@njit
def _each(starts: Floats, leaving: Floats, ends: Floats, arriving: Floats, found: Floats) -> None:
    for i in range(starts.shape[0]):
        d, a, e = ends[i] - starts[i], leaving[i], arriving[i]
        path = joined(d[0], d[1], d[2], a[0], a[1], a[2], e[0], e[1], e[2], PLACES)
        found[i, 0], found[i, 1], found[i, 2] = path[0], path[1], path[2]


def shortest_many(
    a_points: Floats,
    a_dirs: Floats,
    b_points: Floats,
    b_dirs: Floats,
    radius: float,
    straight: float,
) -> tuple[Floats, Floats]:
    """Lengths (n,), inf where there is none [m], and turns at A and B (n, 2) [rad].

    Collars and unit directions are as in `free.shortest`, each (n, 3), or (3,) for one that
    all share.
    """
    rows = np.broadcast_arrays(*(np.atleast_2d(x) for x in (a_points, a_dirs, b_points, b_dirs)))
    start, leave, end, back = (np.ascontiguousarray(x, dtype=np.float64) for x in rows)
    found = np.empty((len(start), 3))
    _each(
        (start + straight * leave) / radius, leave, (end + straight * back) / radius, -back, found
    )
    return found[:, 0] * radius + 2.0 * straight, found[:, 1:]


def shortest_pairs(
    a_points: Floats,
    a_dirs: Floats,
    b_points: Floats,
    b_dirs: Floats,
    radius: float,
    straight: float,
) -> tuple[Floats, Floats]:
    """The same from each of m starts to each of n ends: (m, n), and turns (m, n, 2)."""
    m, n = len(a_points), len(b_points)
    lengths, turns = shortest_many(
        np.repeat(a_points, n, axis=0),
        np.repeat(a_dirs, n, axis=0),
        np.tile(b_points, (m, 1)),
        np.tile(b_dirs, (m, 1)),
        radius,
        straight,
    )
    return lengths.reshape(m, n), turns.reshape(m, n, 2)
