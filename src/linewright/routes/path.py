# SPDX-License-Identifier: Apache-2.0
"""A centreline of straights and arcs: corners with the radius of each bend."""

from dataclasses import dataclass

Vector = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Path:
    """A polyline whose inner corners are rounded: ``radii`` has one radius a corner. [m]"""

    corners: tuple[Vector, ...]
    radii: tuple[float, ...]
