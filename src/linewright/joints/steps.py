# SPDX-License-Identifier: Apache-2.0
"""Lines that a sheet prints for the hand that makes a chain up."""

from linewright.base.finding import WorkStep
from linewright.ends.end import Family
from linewright.joints.model import Chain
from linewright.joints.place import Place
from linewright.joints.reasons import is_taper_in_aluminium


def steps(place: Place, chain: Chain) -> tuple[WorkStep, ...]:
    """Lines that a sheet prints for the hand that makes this chain up.

    Parameters
    ----------
    place : Place
        Where it stands.
    chain : Chain
        The chain.

    Returns
    -------
    tuple of WorkStep
        In the order in which they are done.
    """
    found: list[WorkStep] = []
    about = place.about
    if is_taper_in_aluminium(place, chain):
        found.append(
            WorkStep(
                "taper-in-aluminium",
                about,
                "Paste on the male thread, first threads bare; two to three turns past hand "
                "tight; never back off to align.",
            )
        )
    for part in chain.parts:
        if part.angle and "lock nut" in part.traits:
            found.append(
                WorkStep(
                    "adjustable-elbow",
                    about,
                    f"{part.name}: run it in, back off one turn at most to point it, hold it, "
                    "tighten the lock nut.",
                )
            )
    if any("banjo" in part.shape for part in chain.parts):
        found.append(
            WorkStep("banjo", about, "Two new washers, one on each side of the eye; faces clean.")
        )
    if any(Family.WELD in (j.near.family, j.far.family) for j in chain.joints):
        found.append(
            WorkStep(
                "weld",
                about,
                "Weld before paint and before the part goes back into the car, with a plug "
                "screwed in and no O-ring; then leak-test.",
            )
        )
    return tuple(found)
