# SPDX-License-Identifier: Apache-2.0
"""From an offer of the trade and its lengths to a part with all its figures."""

from functools import cache

from linewright.base.evidence import Grade, weakest
from linewright.catalogue.codes import code_of
from linewright.catalogue.figures import bore_of, dash_figures, factor, largest_dash
from linewright.catalogue.part import Availability, Part, Turns
from linewright.catalogue.trade import Offer
from linewright.ends.end import End, Family, Gender
from linewright.ends.mating import SealNeed
from linewright.ends.words import show


@cache
def end_name(end: End) -> str:
    """Name of an end inside the name of a part.

    Parameters
    ----------
    end : End
        An end of a part.

    Returns
    -------
    str
        Its name in the words of the trade.

    Examples
    --------
    >>> end_name(End(Family.ORB_UNF, "-8", Gender.MALE))
    '-8 ORB male'
    """
    if end.family is Family.HOSE:
        return f"{end.size} mm hose" if end.kind == "clamped" else f"{end.size} {end.kind} hose"
    return "weld" if end.family is Family.WELD else show(end)


@cache
def _grades(bore: Grade | None, lengths: Grade, sold: Grade) -> tuple[tuple[str, Grade], ...]:
    figures = [("availability", sold), ("legs", lengths), ("mass", Grade.RECALLED)]
    if bore is not None:
        figures.append(("bore", bore))
    figures.append(("price_index", Grade.RECALLED))
    return tuple(sorted(figures))


def name_of(offer: Offer) -> str:
    """Name of a part, as a parts list prints it.

    Parameters
    ----------
    offer : Offer
        What the trade offers.

    Returns
    -------
    str
        Shape with its angle, ends from the port outwards, then traits and metal.
    """
    turn = f" {offer.angle}°" if offer.angle and not offer.shape.startswith("banjo") else ""
    spoken = [t for t in offer.traits if t not in ("silicone", "olive", "bead", "pipe")]
    if offer.shape == "hose end":
        head = f"hose end {offer.ends[1].size} {offer.ends[1].kind}, "
        kind = "full swivel" if "full swivel" in spoken else "fixed"
        return f"{head}{offer.angle}°, {kind}" if offer.angle else f"{head}straight, {kind}"
    ends = " to ".join(end_name(end) for end in offer.ends[:1])
    if len(offer.ends) > 1:
        ends += " to " + " and ".join(end_name(end) for end in offer.ends[1:])
    tail = [t for t in spoken if t not in offer.shape and t != "fixed"]
    if offer.material not in ("aluminium", "silicone"):
        tail.append(offer.material)
    head = f"silicone {offer.shape}" if offer.material == "silicone" else offer.shape
    head = "silicone hose" if offer.shape == "silicone" else head
    return ", ".join([f"{head}{turn}, {ends}", *tail])


def make(
    offer: Offer,
    *,
    legs: tuple[float, ...],
    price: float,
    mass: float,
    bore: float | None = None,
    turns: Turns = Turns.FIXED,
    comes_with: tuple[SealNeed, ...] = (),
    traits: tuple[str, ...] = (),
    lengths: Grade = Grade.RECALLED,
) -> Part:
    """Make a part of an offer.

    Parameters
    ----------
    offer : Offer
        What the trade offers.
    legs : tuple of float
        Length from the corner to each mating plane. [m]
    price : float
        Index price of the part in aluminium, stocked. [-]
    mass : float
        Mass in aluminium. [kg]
    bore : float, optional
        Something narrower inside than the ends are. [m]
    turns : Turns
        Whether it can be pointed.
    comes_with : tuple of SealNeed
        What is in the same bag.
    traits : tuple of str
        Words beside those of the offer.
    lengths : Grade
        How the legs are known.

    Returns
    -------
    Part
        The part, with the grade of each of its figures.
    """
    known = [found for found in map(bore_of, offer.ends) if found is not None]
    narrow = [found[0] for found in known] + ([bore] if bore is not None else [])
    grades = [found[1] for found in known] + ([Grade.PRACTICE] if bore is not None else [])
    if offer.availability is not Availability.STOCKED:
        price *= factor(f"price {offer.availability.value}")
    if offer.material in ("steel", "stainless"):
        mass *= factor("steel density ratio")
    return Part(
        code=code_of(offer.shape, offer.ends, offer.angle, offer.traits),
        name=name_of(offer),
        shape=offer.shape,
        ends=offer.ends,
        angle=offer.angle,
        legs=tuple(round(leg, 6) for leg in legs),
        bore=round(min(narrow), 6) if narrow else None,
        turns=turns,
        availability=offer.availability,
        price_index=round(price, 3),
        mass=round(mass, 5),
        material=offer.material,
        comes_with=comes_with,
        traits=frozenset((*offer.traits, *traits)),
        grades=_grades(weakest(grades) if grades else None, lengths, offer.grade),
    )


def body(end: End, dash: str) -> float:
    """Length that one end adds to a part, from the spanner part to its mating plane.

    Parameters
    ----------
    end : End
        The end.
    dash : str
        Dash size of the part, for ends that have none of their own.

    Returns
    -------
    float
        Length. [m]
    """
    if end.family is Family.BEAD:
        return factor("bead stub mm")
    if end.family is Family.BARB:
        return factor("barb stub mm")
    if end.family in (Family.FLARE_37, Family.FLARE_45) and end.gender is Gender.MALE:
        return dash_figures(end.size).cone
    if end.gender is Gender.MALE:
        return 0.0  # a stud goes into its port up to the mating plane
    return dash_figures(dash).cone if end.family is not Family.WELD else 0.0


def thickest(offer: Offer) -> str:
    """Dash size that sets the spanner part of an offer.

    Parameters
    ----------
    offer : Offer
        What the trade offers.

    Returns
    -------
    str
        The largest dash among its ends.
    """
    return largest_dash(offer.ends)
