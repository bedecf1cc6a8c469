# SPDX-License-Identifier: Apache-2.0
"""Parts that end a line or begin one: plugs, caps, weld bungs, drain flanges."""

from linewright.catalogue.clamped import bore_price
from linewright.catalogue.figures import dash_figures, factor
from linewright.catalogue.making import body, make, thickest
from linewright.catalogue.part import Part
from linewright.catalogue.trade import Offer
from linewright.ends.end import Family


def closure(offer: Offer) -> Part:
    """Make a plug or a cap.

    Parameters
    ----------
    offer : Offer
        What the trade offers.

    Returns
    -------
    Part
        The part; it has one end and no bore.
    """
    (end,) = offer.ends
    dash = thickest(offer)
    figures = dash_figures(dash)
    price = figures.adaptor_price
    if end.family is Family.HOSE:
        price = bore_price(float(end.size))
    return make(
        offer,
        legs=(figures.hexagon + body(end, dash),),
        price=price * factor("price plug"),
        mass=figures.adaptor_mass * factor("mass plug"),
    )


def bung(offer: Offer) -> Part:
    """Make a weld bung or a beaded stub to be welded.

    Parameters
    ----------
    offer : Offer
        What the trade offers: the weld first.

    Returns
    -------
    Part
        The part, in the metal it is to be welded to.
    """
    dash = thickest(offer)
    figures = dash_figures(dash)
    return make(
        offer,
        legs=(factor("bung mm"), body(offer.ends[1], dash)),
        price=figures.adaptor_price * factor("price bung"),
        mass=figures.adaptor_mass,
    )


def drain_flange(offer: Offer) -> Part:
    """Make a bolted flange with a cone, for the oil drain of a turbocharger.

    Parameters
    ----------
    offer : Offer
        What the trade offers.

    Returns
    -------
    Part
        The part; gasket and bolts are asked for by the joint it makes.
    """
    dash = thickest(offer)
    figures = dash_figures(dash)
    return make(
        offer,
        legs=(factor("drain flange mm"), body(offer.ends[1], dash)),
        price=figures.adaptor_price * factor("price drain flange"),
        mass=figures.adaptor_mass * factor("mass drain flange"),
    )
