# SPDX-License-Identifier: Apache-2.0
"""Bends that are stocked: mandrel bends of charge pipe, shoes of benders for hard tube."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from linewright.base.evidence import Figure, Grade, weakest
from linewright.tables.load import rows

_MM = 1e-3

#: An outside is that of a row if it is no further off than this. [m]
_SAME = 6e-5


@dataclass(frozen=True, slots=True)
class Stocked:
    """One bend that is to be had for a tube or pipe. SI, angles in degrees.

    ``radius`` is to the centreline. A charge pipe is cut from a bend of one of ``angles`` with a
    straight ``leg`` at each end; a bender goes to any angle up to the last of ``angles``.
    ``end`` is the least straight at an end (a flare with its nut and sleeve, or a bead in a
    coupler), ``between`` that between two bends (grip of the bender, or a weld to be dressed).
    """

    outside: float
    radius: Figure
    angles: tuple[int, ...]
    leg: float
    end: float
    between: float


@cache
def _all(use: str) -> tuple[Stocked, ...]:
    found = [
        Stocked(
            float(row["outside_mm"]) * _MM,
            Figure(float(row["radius_mm"]) * _MM, "m", Grade(row["grade"]), row["place"]),
            tuple(int(angle) for angle in row["angles"].split()),
            float(row["leg_mm"] or 0) * _MM,
            float(row["straight_end_mm"]) * _MM,
            float(row["straight_between_mm"]) * _MM,
        )
        for row in rows("bends")
        if row["use"] == use
    ]
    return tuple(sorted(found, key=lambda bend: (bend.outside, bend.radius.value)))


@cache
def _least() -> Mapping[tuple[str, int], Figure]:
    """Least radius of a tube's centreline [m], by metal and outside in tenths of a millimetre."""
    found = {}
    for row in rows("tube"):
        if row["use"] == "least bend radius, centre line":
            metal = "aluminium" if row["material"].startswith("alumin") else "steel"
            outside = float(row["tube_od_mm"]) * _MM
            figure = Figure(
                float(row["least_bend_radius_mm"]) * _MM, "m", Grade(row["grade"]), row["place"]
            )
            found[metal, _tenths(outside)] = figure
    return MappingProxyType(found)


def _tenths(outside: float) -> int:
    return round(outside * 1e4)


def mandrel_bends(outside: float) -> tuple[Stocked, ...]:
    """Mandrel bends of charge pipe that are stocked for an outside diameter.

    Parameters
    ----------
    outside : float
        Of the pipe. [m]

    Returns
    -------
    tuple of Stocked
        The tightest first; empty where none is stocked.

    Examples
    --------
    >>> [round(bend.radius.value, 4) for bend in mandrel_bends(0.063)]
    [0.094]
    """
    return tuple(bend for bend in _all("mandrel") if abs(bend.outside - outside) < _SAME)


def bender_shoes(outside: float, metal: str) -> tuple[Stocked, ...]:
    """Shoes of hand benders that take a hard tube without flattening it.

    Parameters
    ----------
    outside : float
        Of the tube. [m]
    metal : str
        ``aluminium``; all else is bent as steel.

    Returns
    -------
    tuple of Stocked
        The tightest first: those that are no tighter than the least radius of the metal, where
        one is known; each radius carries the weaker grade of both.

    Examples
    --------
    >>> [round(shoe.radius.value, 4) for shoe in bender_shoes(0.009525, "aluminium")]
    [0.0238, 0.0349]
    >>> [round(shoe.radius.value, 4) for shoe in bender_shoes(0.009525, "steel")]
    [0.0349]
    """
    word = "aluminium" if metal == "aluminium" else "steel"
    least = _least().get((word, _tenths(outside)))
    found = []
    for shoe in _all("bender"):
        if abs(shoe.outside - outside) >= _SAME:
            continue
        radius = shoe.radius
        if least is not None:
            # A least radius is told to a tenth of a millimetre.
            if radius.value < least.value - 1e-4:
                continue
            grade = weakest([radius.grade, least.grade])
            radius = Figure(radius.value, "m", grade, radius.basis)
        found.append(Stocked(shoe.outside, radius, shoe.angles, shoe.leg, shoe.end, shoe.between))
    return tuple(found)


def stocked_outsides(use: str) -> tuple[float, ...]:
    """Outside diameters for which bends are stocked.

    Parameters
    ----------
    use : str
        ``mandrel`` or ``bender``.

    Returns
    -------
    tuple of float
        From the thinnest to the thickest. [m]
    """
    return tuple(dict.fromkeys(bend.outside for bend in _all(use)))
