# SPDX-License-Identifier: Apache-2.0
"""What may be bought in another's place, without touching a seal or a kind of hose."""

from linewright.catalogue.part import Part
from linewright.catalogue.stock import Catalogue

#: Traits that say how an elbow turns: a substitute may differ in these alone.
_TURNS = frozenset({"fixed", "full swivel"})


def may_replace(wanted: Part, other: Part) -> str:
    """Say why one part may stand in for another.

    Parameters
    ----------
    wanted : Part
        What the takeoff asks for.
    other : Part
        What is on offer.

    Returns
    -------
    str
        The reason in words; empty where it may not.

    Notes
    -----
    Only a hose end that turns in full may replace the same one that is fixed: same ends (so
    the same seat, the same seal and the same kind of hose), angle, legs, material, bore and
    hardware in the bag. A larger pack of the same part is no substitute: it is the part.
    """
    is_same = (
        wanted.shape == other.shape == "hose end"
        and wanted.ends == other.ends
        and wanted.angle == other.angle
        and wanted.legs == other.legs
        and wanted.material == other.material
        and wanted.comes_with == other.comes_with
        and (wanted.bore is None or (other.bore is not None and other.bore >= wanted.bore))
        and wanted.traits - _TURNS == other.traits - _TURNS
    )
    if is_same and "fixed" in wanted.traits and "full swivel" in other.traits:
        return "full swivel in place of fixed: the same seat, hose and angle"
    return ""


def substitutes(catalogue: Catalogue, code: str, offered: frozenset[str]) -> tuple[str, ...]:
    """Codes on offer that may be bought in place of a part.

    Parameters
    ----------
    catalogue : Catalogue
        Where both parts stand; what is in no catalogue is never replaced.
    code : str
        What the takeoff asks for.
    offered : frozenset of str
        Codes of all that is on offer or on the shelf.

    Returns
    -------
    tuple of str
        In the order of the codes.
    """
    known = {part.code: part for part in catalogue.parts}
    wanted = known.get(code)
    if wanted is None or wanted.shape != "hose end":
        return ()
    others = (known[other] for other in offered if other in known and other != code)
    return tuple(sorted(other.code for other in others if may_replace(wanted, other)))
