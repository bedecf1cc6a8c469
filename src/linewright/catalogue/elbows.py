# SPDX-License-Identifier: Apache-2.0
"""Parts that turn: elbows with and without a lock nut, bulkheads, banjo eyes."""

from linewright.base.errors import CatalogueError
from linewright.catalogue.figures import dash_figures, factor
from linewright.catalogue.making import body, make, thickest
from linewright.catalogue.part import Part, Turns
from linewright.catalogue.trade import Offer
from linewright.ends.end import Family
from linewright.ends.mating import SealNeed


def _turns(offer: Offer) -> Turns:
    """Free for a swivel nut, set for a lock nut, and by chance on a taper."""
    if offer.ends[0].swivel:
        return Turns.FREE
    if "lock nut" in offer.traits:
        return Turns.SET
    return Turns.CHANCE


def elbow(offer: Offer) -> Part:
    """Make an elbow adaptor.

    It costs more than a straight adaptor and a straight hose end together, so that a straight
    adaptor under a bent hose end is the cheaper way round a corner.

    Parameters
    ----------
    offer : Offer
        What the trade offers.

    Returns
    -------
    Part
        The part; an elbow with a lock nut brings the nut and its backing washer.

    Raises
    ------
    CatalogueError
        If it has neither a swivel nut, nor a lock nut, nor a taper thread to hold it: the trade
        sells no such elbow.
    """
    near, far = offer.ends
    dash = thickest(offer)
    figures = dash_figures(dash)
    turns = _turns(offer)
    if turns is Turns.CHANCE and near.family not in (Family.NPT, Family.NPTF, Family.BSPT):
        raise CatalogueError(
            f"elbow {near} to {far}: nothing holds its direction; the trade sells such elbows "
            "with a lock nut or a swivel nut only. Give it the trait 'lock nut'."
        )
    bag: tuple[SealNeed, ...] = ()
    leg = figures.elbow_leg
    if turns is Turns.SET:
        leg = figures.boss_leg or figures.elbow_leg
        bag = (
            SealNeed("lock nut", near.size, is_seal=False),
            SealNeed("backing washer", near.size, is_seal=False),
        )
    scale = factor(f"leg {offer.angle}")
    return make(
        offer,
        legs=(leg * scale, (figures.hexagon + body(far, dash)) * scale),
        price=(figures.adaptor_price + figures.hose_end_price) * factor("price elbow adaptor"),
        mass=figures.adaptor_mass * factor("mass elbow"),
        turns=turns,
        comes_with=bag,
    )


def bulkhead(offer: Offer) -> Part:
    """Make a bulkhead fitting: straight, bent, or a tee.

    Nut and panel washers are ordered by the panel they clamp, so they do not come with it.

    Parameters
    ----------
    offer : Offer
        What the trade offers; the first end is the long one, through the panel.

    Returns
    -------
    Part
        The part.
    """
    dash = thickest(offer)
    figures = dash_figures(dash)
    bent = bool(offer.angle) or len(offer.ends) > 2
    long_leg = figures.cone * 2 + figures.hexagon  # thread for panel and nut beside the cone
    short = figures.elbow_leg if bent else figures.cone
    return make(
        offer,
        legs=(long_leg, *(short for _ in offer.ends[1:])),
        price=figures.hose_end_price * factor("price bulkhead bent" if bent else "price bulkhead"),
        mass=figures.adaptor_mass * factor("mass bulkhead bent" if bent else "mass bulkhead"),
        turns=Turns.SET if bent else Turns.FIXED,
    )


def banjo(offer: Offer) -> Part:
    """Make a banjo eye on a cone or on a hose end; its bolt is a part of its own.

    Parameters
    ----------
    offer : Offer
        What the trade offers.

    Returns
    -------
    Part
        The part; it can be pointed while the bolt is tightened.
    """
    dash = thickest(offer)
    figures = dash_figures(dash)
    is_hose = offer.ends[1].family is Family.HOSE
    neck = factor("banjo neck mm") if not is_hose else (figures.hose_end or 0.0)
    bag = (SealNeed("olive", offer.ends[1].size, is_seal=False),) if "olive" in offer.traits else ()
    return make(
        offer,
        legs=(factor("banjo height mm"), neck),
        price=figures.hose_end_price * factor("price banjo"),
        mass=figures.adaptor_mass * factor("mass banjo") + (figures.hose_end_mass or 0.0) * is_hose,
        turns=Turns.SET,
        comes_with=bag,
    )
