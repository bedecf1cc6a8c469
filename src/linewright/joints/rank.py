# SPDX-License-Identifier: Apache-2.0
"""What makes one chain better than another, and how that is said in words.

Stops come first; then special parts (where stocked or catalogued will do, none is taken);
then whether the chain points as the builder typed it; then joints, where a taper in
aluminium counts two and a banjo counts two; then the least bore, with no credit beyond
the hose's own; then the price index; then how far it stands out.
"""

from collections.abc import Sequence

from linewright.catalogue.part import Availability, Part, Turns
from linewright.ends.end import End, Family
from linewright.ends.mating import Mating

#: Names of the fields of ``Chain.rank``, smaller is better in each.
FIELDS = ("stops", "special", "departs", "joints", "bore_lost", "price", "stick_out")

#: Steps in which criteria are compared: 0.01 mm of bore and of length, 0.001 of price.
BORE_STEP, LENGTH_STEP, PRICE_STEP = 1e-5, 1e-5, 1e-3

#: A chain longer than this is not looked for.
MOST_PARTS = 4

_TAPERS = (Family.NPT, Family.NPTF, Family.BSPT)


def joint_weight(near: End, far: End, mating: Mating, *, is_aluminium: bool) -> int:
    """How many joints one mated pair counts for when chains are ranked.

    Parameters
    ----------
    near : End
        The end on the port's side.
    far : End
        The end put on it.
    mating : Mating
        What `mates` says of the pair.
    is_aluminium : bool
        Whether the female half is of aluminium.

    Returns
    -------
    int
        0 for a weld or a hose in its own end, 1 as a rule, 2 for a taper in aluminium
        and for a banjo with its two sealing faces. [-]
    """
    if not mating.is_counted:
        return 0
    is_taper = mating.is_taper or (near.family in _TAPERS and far.family in _TAPERS)
    is_banjo = Family.BANJO in (near.family, far.family)
    return 1 + (is_taper and is_aluminium) + is_banjo


def departure(part: Part, *, is_hose_end: bool) -> int:
    """How far a bent part departs from an angle typed for the hose end.

    Parameters
    ----------
    part : Part
        The part.
    is_hose_end : bool
        Whether it is the plain hose end that the typed angle is meant for.

    Returns
    -------
    int
        0 straight or the hose end itself, 1 another part that can be pointed, 2 an elbow
        that stops where its thread does. [-]
    """
    if part.angle == 0 or is_hose_end:
        return 0
    if "banjo" in part.shape or part.turns in (Turns.FREE, Turns.SET):
        return 1
    return 2


def is_special(part: Part) -> bool:
    """Whether a part has to be ordered specially.

    Parameters
    ----------
    part : Part
        The part.

    Returns
    -------
    bool
        True for availability special, unless the builder holds the part in his hand.
    """
    return part.availability is Availability.SPECIAL and not part.held


def difference(best: Sequence[float], other: Sequence[float], *, room: float | None = None) -> str:
    """Say why one rank is worse than another, by the first field that differs.

    Parameters
    ----------
    best : Sequence of float
        The rank of the chain that was chosen.
    other : Sequence of float
        The rank of the other one.
    room : float, optional
        Free space out from the port. [m]

    Returns
    -------
    str
        A short clause, e.g. ``one joint more``.

    Examples
    --------
    >>> difference((0, 0, 0, 2, -0.0099, 2.0, 0.05), (0, 0, 0, 3, -0.0099, 2.5, 0.06))
    'one joint more'
    >>> difference((0, 0, 0, 2, -0.0099, 2.0, 0.05), (0, 1, 0, 2, -0.0099, 2.5, 0.06))
    'it needs a part on special order'
    """
    for name, mine, theirs in zip(FIELDS, best, other, strict=True):
        if mine == theirs:
            continue
        match name:
            case "stops":
                if theirs < mine:
                    return "it would fit the room"
                limit = f", {room * 1000:.0f} mm is free" if room is not None else ""
                return f"it stands out {other[-1] * 1000:.0f} mm{limit}"
            case "special":
                return "it needs a part on special order"
            case "departs":
                if theirs >= 2:
                    return "its elbow stops where the taper does, not where it should point"
                return "it turns at another part than the hose end"
            case "joints":
                more = round(theirs - mine)
                return "one joint more" if more == 1 else f"{more} joints more"
            case "bore_lost":
                return f"least bore {-theirs * 1000:.1f} mm, not {-mine * 1000:.1f} mm"
            case "price":
                return f"price index {theirs:.2f}, not {mine:.2f}"
            case _:
                return f"it stands out {(theirs - mine) * 1000:.0f} mm further"
    return "equal in all that counts; the smaller code is taken"
