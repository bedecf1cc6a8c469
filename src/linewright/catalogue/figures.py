# SPDX-License-Identifier: Apache-2.0
"""Figures that parts are made of: bores, lengths, masses and index prices by size.

Nearly all are from memory or common practice and say so by their grade; what is read is the
nipple bore of reusable hose ends.
"""

import re
from dataclasses import dataclass
from functools import cache

from linewright.base.errors import TableError
from linewright.base.evidence import Figure, Grade
from linewright.ends.end import End, Family
from linewright.tables.load import rows

_MM = 1e-3


@dataclass(frozen=True, slots=True)
class Dash:
    """What goes with one dash size: lengths [m], masses [kg], index prices [-].

    ``cone`` is the length of the male cone end, ``hexagon`` of the spanner part, ``boss_leg``
    from an O-ring boss face to the outlet axis of an adjustable elbow, ``elbow_leg`` the same
    for other elbow adaptors; ``hose_end`` runs from the seat of a straight hose end to its
    collar, ``hose_end_leg`` from the seat of a 90° end to its corner, ``hose_end_socket`` from
    the corner to the collar, ``hose_end_u`` across a 180° end from the middle of one leg to that
    of the other. None where the trade has no such part.
    """

    cone: float
    hexagon: float
    boss_leg: float | None
    elbow_leg: float
    hose_end: float | None
    hose_end_leg: float | None
    hose_end_socket: float | None
    hose_end_price: float
    adaptor_price: float
    hose_end_mass: float | None
    adaptor_mass: float
    grade: Grade
    hose_end_u: float | None = None
    hose_price: float | None = None  # of one metre of rubber hose


@cache
def _dashes() -> dict[str, Dash]:
    def length(text: str) -> float:
        return float(text) * _MM

    def perhaps(text: str) -> float | None:
        return float(text) * _MM if text else None

    return {
        row["dash"]: Dash(
            length(row["cone_mm"]),
            length(row["hex_mm"]),
            perhaps(row["boss_leg_mm"]),
            length(row["elbow_leg_mm"]),
            perhaps(row["hose_end_mm"]),
            perhaps(row["hose_end_leg_mm"]),
            perhaps(row["hose_end_socket_mm"]),
            float(row["hose_end_price"]),
            float(row["adaptor_price"]),
            perhaps(row["hose_end_g"]),
            length(row["adaptor_g"]),
            Grade(row["grade"]),
            perhaps(row["hose_end_u_mm"]),
            float(row["hose_price_per_m"]) if row["hose_price_per_m"] else None,
        )
        for row in rows("part_sizes")
    }


def dash_figures(dash: str) -> Dash:
    """Lengths, masses and prices of one dash size.

    Parameters
    ----------
    dash : str
        The size, such as ``-10``.

    Returns
    -------
    Dash
        Its figures.

    Raises
    ------
    TableError
        If the table has no such size.
    """
    try:
        return _dashes()[dash]
    except KeyError:
        known = ", ".join(_dashes())
        raise TableError(
            f"part_sizes.csv has no dash {dash!r}; it has {known}. Add a row."
        ) from None


@cache
def _factors() -> dict[str, Figure]:
    return {
        row["name"]: Figure(float(row["value"]), "-", Grade(row["grade"]), row["source"])
        for row in rows("part_factors")
    }


def factor(name: str) -> float:
    """One factor of ``part_factors.csv``.

    Parameters
    ----------
    name : str
        Its name; one that ends in ``mm`` is a length.

    Returns
    -------
    float
        The factor, in SI where it is a length. [- or m]

    Raises
    ------
    TableError
        If the table has no such name.

    Examples
    --------
    >>> factor("price banjo"), factor("silicone coupler mm")
    (2.0, 0.075)
    """
    try:
        value = _factors()[name].value
    except KeyError:
        raise TableError(f"part_factors.csv has no row {name!r}; add one") from None
    return value * _MM if name.endswith(" mm") else value


@cache
def _bores() -> dict[tuple[Family, str], tuple[float, str, Grade]]:
    return {
        (Family(row["family"]), row["size"]): (
            float(row["bore_mm"]) * _MM,
            row["dash"],
            Grade(row["grade"]),
        )
        for row in rows("end_bores")
    }


@cache
def nipples() -> dict[str, tuple[float, Grade]]:
    """Least bore of reusable hose ends by dash [m], with its grade.

    Returns
    -------
    dict
        Dash to (bore, grade).
    """
    found: dict[str, tuple[float, Grade]] = {}
    pattern = re.compile(r"dash (-\d+): .*least bore at nipple ([\d.]+) mm")
    for row in rows("fittings_loss"):
        if not row["element"].startswith("straight reusable hose end"):
            continue
        match = pattern.match(row["parameters"])
        if match:
            found[match[1]] = float(match[2]) * _MM, Grade(row["grade"])
    for (family, size), (bore, _, grade) in _bores().items():
        if family is Family.HOSE:
            found.setdefault(size, (bore, grade))
    return found


@cache
def bore_of(end: End) -> tuple[float, Grade] | None:
    """Bore of a part at one of its ends.

    Parameters
    ----------
    end : End
        An end of a part.

    Returns
    -------
    tuple or None
        Bore [m] and its grade; None where the end does not narrow a part (a weld, a tube, a
        clamped hose, a V-band).
    """
    if end.family is Family.HOSE:
        if end.kind == "clamped":
            return float(end.size) * _MM, Grade.PRACTICE
        return nipples().get(end.size)
    if end.family is Family.VBAND:
        return None
    found = _bores().get((end.family, end.size))
    return (found[0], found[2]) if found else None


@cache
def dash_of(end: End) -> str | None:
    """Dash size that an end is nearest to, for lengths, masses and prices.

    Parameters
    ----------
    end : End
        An end of a part.

    Returns
    -------
    str or None
        A dash size; None for ends of clamped hose, welds and V-bands.
    """
    if end.family in (Family.TUBE, Family.HOSE) and end.size.startswith("-"):
        return end.size
    found = _bores().get((end.family, end.size))
    return found[1] if found else None


def largest_dash(ends: tuple[End, ...]) -> str:
    """Largest dash size among some ends.

    Parameters
    ----------
    ends : tuple of End
        Ends of one part.

    Returns
    -------
    str
        The dash; ``-10`` where none has one.
    """
    dashes = [dash for dash in map(dash_of, ends) if dash]
    return max(dashes, key=lambda dash: int(dash[1:]), default="-10")
