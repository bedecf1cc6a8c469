# SPDX-License-Identifier: Apache-2.0
"""Clamped hose: silicone shapes, and the pipes and flanges of the charge air."""

from math import pi

from linewright.base.evidence import Grade
from linewright.catalogue.figures import bore_of, dash_figures, factor
from linewright.catalogue.making import make
from linewright.catalogue.part import Part, Turns
from linewright.catalogue.trade import Offer

_MM = 1e-3


def bore_price(bore_mm: float) -> float:
    """Index price of a plain silicone coupler.

    Parameters
    ----------
    bore_mm : float
        Its larger bore, as it is named. [mm]

    Returns
    -------
    float
        Index price. [-]
    """
    return factor("price silicone base") + factor("price silicone per mm") * bore_mm


def silicone(offer: Offer) -> Part:
    """Make a silicone shape that is clamped on beads at both ends.

    Parameters
    ----------
    offer : Offer
        What the trade offers; the larger bore first.

    Returns
    -------
    Part
        The part. It can be turned on its spigots until the clamps are tight.
    """
    bore = max(float(end.size) for end in offer.ends)
    price = bore_price(bore)
    if offer.angle:
        price *= factor("price silicone 180" if offer.angle == 180 else "price silicone elbow")
    for trait, scale in (("reducing", "price silicone reducing"), ("hump", "price silicone hump")):
        if trait in offer.traits:
            price *= factor(scale)
    is_small = bore * _MM < factor("silicone small bore mm")
    leg = factor("silicone leg small mm" if is_small else "silicone leg mm")
    if not offer.angle:
        leg = factor("silicone hump mm" if "hump" in offer.traits else "silicone coupler mm") / 2
    wall = factor("mass silicone wall mm")
    mass = pi * (bore * _MM + wall) * wall * 2 * leg * factor("silicone density")
    return make(
        offer,
        legs=(leg, leg),
        price=price,
        mass=mass,
        turns=Turns.SET if offer.angle else Turns.FIXED,
        lengths=Grade.PRACTICE,
    )


def pipe(offer: Offer) -> Part:
    """Make a charge pipe with a bead at both ends.

    Parameters
    ----------
    offer : Offer
        What the trade offers.

    Returns
    -------
    Part
        The part.
    """
    outside = float(offer.ends[0].size) * _MM
    leg = factor("pipe leg mm")
    wall = factor("pipe wall mm")
    return make(
        offer,
        legs=(leg, leg),
        price=bore_price(float(offer.ends[0].size)) * factor("price pipe"),
        mass=pi * (outside - wall) * wall * 2 * leg * factor("aluminium density"),
        turns=Turns.SET if offer.angle else Turns.FIXED,
        lengths=Grade.PRACTICE,
    )


def joiner(offer: Offer) -> Part:
    """Make a short tube with a bead at both ends, which joins two hoses.

    Parameters
    ----------
    offer : Offer
        What the trade offers.

    Returns
    -------
    Part
        The part.
    """
    outside = float(offer.ends[0].size) * _MM
    leg = factor("bead joiner mm") / 2
    wall = factor("pipe wall mm")
    return make(
        offer,
        legs=(leg, leg),
        price=bore_price(float(offer.ends[0].size)) * factor("price bead joiner"),
        mass=pi * (outside - wall) * wall * 2 * leg * factor("aluminium density"),
        bore=outside - 2 * wall,
        lengths=Grade.PRACTICE,
    )


def v_band_flange(offer: Offer) -> Part:
    """Make one half of a V-band joint, to be welded to its pipe.

    Parameters
    ----------
    offer : Offer
        What the trade offers.

    Returns
    -------
    Part
        The part; the band itself is a part without ends.
    """
    outside = float(offer.ends[0].size)
    return make(
        offer,
        legs=(factor("v-band flange mm"), 0.0),
        price=bore_price(outside) * factor("price v-band flange"),
        mass=dash_figures("-20").adaptor_mass * factor("mass v-band flange"),
        bore=outside * _MM - 2 * factor("pipe wall mm"),
        lengths=Grade.PRACTICE,
    )


def tube_nut(offer: Offer) -> Part:
    """Make a tube nut, with its sleeve where the flare is 37°.

    Parameters
    ----------
    offer : Offer
        What the trade offers: the nut first, then the tube.

    Returns
    -------
    Part
        The part.
    """
    figures = dash_figures(offer.ends[1].size)
    known = bore_of(offer.ends[0])
    return make(
        offer,
        legs=(factor("tube nut mm"), 0.0),
        price=figures.adaptor_price * factor("price tube nut"),
        mass=figures.adaptor_mass * factor("mass tube nut"),
        bore=known[0] if known else None,
        lengths=Grade.PRACTICE,
    )
