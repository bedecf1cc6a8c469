# SPDX-License-Identifier: Apache-2.0
"""Parts with three ends or more: tees, Y blocks, gauge adaptors, filter plates and heads."""

from linewright.catalogue.figures import dash_figures, factor
from linewright.catalogue.making import body, make, thickest
from linewright.catalogue.part import Part, Turns
from linewright.catalogue.trade import Offer
from linewright.ends.mating import SealNeed

_PRICES = {
    "tee": "price tee",
    "y block": "price y block",
    "gauge adaptor": "price gauge adaptor",
    "barb tee": "price barb",
}


def branch(offer: Offer) -> Part:
    """Make a part that divides a line.

    Parameters
    ----------
    offer : Offer
        What the trade offers.

    Returns
    -------
    Part
        The part; a tee on a swivel nut can be pointed.
    """
    dash = thickest(offer)
    figures = dash_figures(dash)
    if offer.shape == "gauge adaptor":
        legs = tuple(figures.hexagon + body(end, dash) for end in offer.ends)
    else:
        legs = tuple(
            figures.elbow_leg if end.swivel else figures.hexagon + body(end, dash)
            for end in offer.ends
        )
    return make(
        offer,
        legs=legs,
        price=(figures.adaptor_price + (figures.hose_end_price if offer.shape != "barb tee" else 0))
        * factor(_PRICES[offer.shape]),
        mass=figures.adaptor_mass * factor("mass tee"),
        turns=Turns.FREE if any(end.swivel for end in offer.ends) else Turns.FIXED,
    )


def filter_mount(offer: Offer) -> Part:
    """Make a take-off plate for an engine's filter mount, or a remote filter head.

    Parameters
    ----------
    offer : Offer
        What the trade offers: the spin-on end first.

    Returns
    -------
    Part
        The part; a plate brings the gasket of its land.
    """
    is_plate = offer.shape == "take-off plate"
    height = factor("plate height mm")
    gasket = SealNeed("gasket", f"{offer.ends[0].size} spin-on land")
    return make(
        offer,
        legs=tuple(height for _ in offer.ends),
        price=factor("price plate" if is_plate else "price filter head"),
        mass=dash_figures("-10").adaptor_mass
        * factor("mass plate" if is_plate else "mass filter head"),
        comes_with=(gasket,) if is_plate else (),
    )
