# SPDX-License-Identifier: Apache-2.0
"""What is told of the tightest place between a hose and all bodies."""

from typing import NamedTuple

from linewright.base.vectors import Vector


class Least(NamedTuple):
    """The tightest place: gap [m], number of its point, id of the body ("" where there is none)."""

    gap: float
    point: int
    body: str


class Tightest(NamedTuple):
    """The tightest place of a polyline: gap [m], piece, id of the body, and where [m]."""

    gap: float
    piece: int
    body: str
    at: Vector
