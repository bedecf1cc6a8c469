# SPDX-License-Identifier: Apache-2.0
"""Hose ends by hose family, dash, angle, fixed or full swivel."""

from linewright.base.errors import CatalogueError
from linewright.catalogue.figures import dash_figures, factor
from linewright.catalogue.making import make
from linewright.catalogue.part import Part, Turns
from linewright.catalogue.trade import Offer
from linewright.ends.mating import SealNeed

_PRICES = {
    0: None,
    30: "price elbow hose end 30 60",
    45: "price elbow hose end 45 90",
    60: "price elbow hose end 30 60",
    90: "price elbow hose end 45 90",
    120: "price elbow hose end 120 150 180",
    150: "price elbow hose end 120 150 180",
    180: "price elbow hose end 120 150 180",
}


def hose_end(offer: Offer) -> Part:
    """Make a hose end; the nut of each turns, only a full swivel lets the elbow turn too.

    Parameters
    ----------
    offer : Offer
        What the trade offers: the swivel nut first, then what grips the hose.

    Returns
    -------
    Part
        The part; an end for PTFE hose brings its olive.

    Raises
    ------
    CatalogueError
        If an end for PTFE hose has no olive, or the trade has no such dash or angle.
    """
    nut, grip = offer.ends
    figures = dash_figures(nut.size)
    straight, leg, socket = figures.hose_end, figures.hose_end_leg, figures.hose_end_socket
    if straight is None or leg is None or socket is None or offer.angle not in _PRICES:
        raise CatalogueError(
            f"hose end {grip.size} {grip.kind} {offer.angle}°: not sold; angles are "
            f"{', '.join(str(angle) for angle in _PRICES)}, and the dash needs its lengths in "
            "part_sizes.csv"
        )
    if grip.kind == "PTFE" and "olive" not in offer.traits:
        raise CatalogueError(
            f"hose end {grip.size} PTFE {offer.angle}°: an end for PTFE hose seals on an olive; "
            "the trade sells none without. Give it the trait 'olive'."
        )
    price = figures.hose_end_price
    scale = _PRICES[offer.angle]
    if scale:
        price *= factor(scale)
    is_free = "full swivel" in offer.traits
    if is_free:
        price *= factor("price full swivel")
    if grip.kind == "push-on":
        price *= factor("price push-on")
    bent = factor(f"leg {offer.angle}") if offer.angle else 0.0
    return make(
        offer,
        # A straight end is measured from its seat: the nut covers the cone.
        legs=(leg * bent, socket) if offer.angle else (straight / 2, straight / 2),
        price=price,
        mass=(figures.hose_end_mass or 0.0) * (factor("mass elbow") if offer.angle else 1.0),
        turns=Turns.FREE if is_free else Turns.FIXED,
        comes_with=(SealNeed("olive", grip.size, is_seal=False),)
        if "olive" in offer.traits
        else (),
    )
