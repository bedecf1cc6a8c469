# SPDX-License-Identifier: Apache-2.0
"""Moulded silicone elbows at the ends of a clamped hose: elbow, joiner, hose.

Straight hose does not turn a corner at a spigot; the trade sells moulded elbows for that. The
elbow is clamped on the spigot, a short tube with a bead at both ends goes in its other leg, and
the hose is clamped on that tube.
"""

from collections.abc import Iterable

from linewright.base.finding import WorkStep
from linewright.car.model import Line, Medium, Port
from linewright.catalogue.part import Part
from linewright.catalogue.stock import Catalogue
from linewright.ends.end import End, Family
from linewright.ends.mates import mates
from linewright.joints.model import Chain, Mated
from linewright.joints.rank import is_special
from linewright.joints.side import hose_of

_SPIGOTS = (Family.BEAD, Family.BARB)

#: What silicone is made for; oil and fuel swell it.
_SILICONE = (Medium.COOLANT, Medium.CHARGE_COOLANT, Medium.AIR)

#: A whole turn back is led by the hose itself. [deg]
_ANGLES = (45, 90)

#: Smaller hose is bent by hand. [mm]
_SMALLEST = 13.0

_JOINERS = ("bead joiner", "barb joiner")


def elbows(catalogue: Catalogue, line: Line, port: Port) -> tuple[Chain, ...]:
    """Chains with a moulded elbow between a spigot and a clamped hose.

    Parameters
    ----------
    catalogue : Catalogue
        Parts to build with.
    line : Line
        A line of clamped hose.
    port : Port
        One of its ports.

    Returns
    -------
    tuple of Chain
        One for each angle that is sold, by angle: elbow and joiner. A reducing elbow where the
        hose is of another size than the spigot; none on what is no spigot, for media that swell
        silicone, and for hose of no size that joiners are sold in.
    """
    if port.end.family not in _SPIGOTS or line.medium not in _SILICONE:
        return ()
    if line.service in ("reference", "drain") or _bore(line) < _SMALLEST:
        return ()
    hose = hose_of(line)
    joiner = _cheapest(
        part
        for part, _ in catalogue.facing(hose)
        if part.shape in _JOINERS and all(mates(end, hose).ok for end in part.ends)
    )
    if joiner is None:
        return ()
    found = []
    for angle in _ANGLES:
        fitting: dict[Part, int] = {}
        for part, index in catalogue.facing(port.end):
            if part.shape != "silicone" or part.angle != angle or len(part.ends) != 2:
                continue
            if mates(part.ends[1 - index], joiner.ends[0]).ok:
                fitting.setdefault(part, index)
        elbow = _cheapest(fitting)
        if elbow is not None:
            found.append(_chain(port.end, elbow, fitting[elbow], joiner, hose))
    return tuple(found)


def _bore(line: Line) -> float:
    """Bore of a clamped hose as its size names it; nothing while it is open. [mm]"""
    try:
        return float(line.size)
    except ValueError:
        return 0.0


def _cheapest(parts: Iterable[Part]) -> Part | None:
    return min(parts, key=lambda p: (is_special(p), p.price_index, p.code), default=None)


def _chain(port: End, elbow: Part, index: int, joiner: Part, hose: End) -> Chain:
    pairs = (
        (port, elbow.ends[index]),
        (elbow.ends[1 - index], joiner.ends[0]),
        (joiner.ends[1], hose),
    )
    price = elbow.price_index + joiner.price_index
    bores = [part.bore for part in (elbow, joiner) if part.bore is not None]
    special = float(is_special(elbow) or is_special(joiner))
    return Chain(
        port=port,
        parts=(elbow, joiner),
        joints=tuple(Mated(a, b, mates(a, b)) for a, b in pairs),
        bore=min(bores, default=None),
        price_index=price,
        stick_out=elbow.legs[index],
        rank=(0.0, special, 0.0, 3.0, -min(bores, default=0.0), price, elbow.legs[index]),
        reason="a moulded elbow turns the hose at the spigot: three joints where a hose has one",
    )


def elbow_of(chain: Chain | None) -> Part | None:
    """The moulded elbow of a chain.

    Parameters
    ----------
    chain : Chain or None
        What stands between a spigot and a hose.

    Returns
    -------
    Part or None
        None where there is none before the hose, as in a shape that is a whole line.
    """
    if chain is None or chain.is_whole_line:
        return None
    is_bent = (part for part in chain.parts if part.shape == "silicone" and part.angle)
    return next(is_bent, None)


def typed(chains: tuple[Chain, ...], angle: int | None) -> Chain | None:
    """The chain that turns by an angle.

    Parameters
    ----------
    chains : tuple of Chain
        As `elbows` gives them.
    angle : int or None
        What was typed or chosen. [deg]

    Returns
    -------
    Chain or None
        None where it is not among them.
    """
    for chain in chains:
        elbow = elbow_of(chain)
        if elbow is not None and elbow.angle == angle:
            return chain
    return None


def step(spot: str, line: str, port: str, chain: Chain) -> WorkStep:
    """What the hand does at a moulded elbow.

    Parameters
    ----------
    spot : str
        The end of the hose, as in ``C01.A``.
    line : str
        The line.
    port : str
        The spigot.
    chain : Chain
        Elbow and joiner.

    Returns
    -------
    WorkStep
        In the order of the parts.
    """
    elbow, joiner = chain.parts[0], chain.parts[-1]
    return WorkStep(
        "moulded-elbow",
        (spot, line),
        f"{spot}: clamp the {elbow.angle}° silicone elbow on {port}, the {joiner.shape} in its "
        "other leg and the hose on that; point the elbow before its clamps are tight, each clamp "
        "behind its bead.",
    )
