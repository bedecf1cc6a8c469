# SPDX-License-Identifier: Apache-2.0
"""Straight parts between two threads: adaptors, unions, reducers, bushings, sensors, inline."""

from linewright.base.errors import CatalogueError
from linewright.catalogue.figures import bore_of, dash_figures, factor
from linewright.catalogue.making import body, make, thickest
from linewright.catalogue.part import Part
from linewright.catalogue.trade import Offer

#: Shape to the factor on the price of an adaptor of that size.
_PRICES = {
    "adaptor": None,
    "union": "price union",
    "reducer": "price reducer",
    "bushing": "price bushing",
    "sensor adaptor": "price sensor adaptor",
    "barb adaptor": "price barb",
    "barb joiner": "price barb",
    "bead adaptor": "price bead adaptor",
    "screen": "price inline",
    "inline filter": "price inline",
    "check valve": "price check valve",
    "restrictor": "price jet",
    "jet": "price jet",
}
_INLINE = ("screen", "inline filter", "check valve")
#: Shapes that this module makes.
SHAPES = tuple(_PRICES)


def _narrowed(offer: Offer) -> float | None:
    """Bore inside a part that holds something, or None where it only has its ends."""
    if offer.shape == "jet":
        return factor("jet bore mm")
    if offer.shape == "restrictor":
        return factor("restrictor bore mm")
    if "check valve" in offer.traits:
        known = [found[0] for found in map(bore_of, offer.ends) if found]
        return round(min(known) * factor("check valve share"), 6)
    return None


def adaptor(offer: Offer) -> Part:
    """Make a straight part of two threads.

    Parameters
    ----------
    offer : Offer
        What the trade offers.

    Returns
    -------
    Part
        The part.

    Raises
    ------
    CatalogueError
        If the shape is not one of `SHAPES`.
    """
    if offer.shape not in _PRICES:
        raise CatalogueError(
            f"{offer.shape!r} is no straight adaptor; this module makes {', '.join(SHAPES)}"
        )
    dash = thickest(offer)
    figures = dash_figures(dash)
    price = figures.adaptor_price
    scale = _PRICES[offer.shape]
    if scale:
        price *= factor(scale)
    if offer.shape == "adaptor" and "check valve" in offer.traits:
        price *= factor("price check valve")
    if "locking" in offer.traits:
        price *= factor("price locking")
    near, far = offer.ends
    inside = factor("inline body mm") if offer.shape in _INLINE else 0.0
    return make(
        offer,
        legs=(
            figures.hexagon + inside + body(near, dash),
            body(far, dash),
        ),
        price=price,
        mass=figures.adaptor_mass * (factor("mass inline") if inside else 1.0),
        bore=_narrowed(offer),
    )
