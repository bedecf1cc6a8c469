# SPDX-License-Identifier: Apache-2.0
"""Adaptors, hose ends, plugs and caps: the parts of every chosen chain, by id."""

from collections.abc import Iterable, Iterator

from linewright.base.evidence import Grade, weakest
from linewright.car.model import Car, Construction, Line
from linewright.catalogue import stock
from linewright.catalogue.part import Part
from linewright.joints.model import Joints, Termination
from linewright.tables import hoses
from linewright.takeoff.merge import Spares, Want
from linewright.takeoff.wanted import Spot

_PLUGS = ("plug", "cap")

#: Shapes of silicone and pipe that are hose rather than adaptor.
_SHAPES = ("coupler", "silicone", "pipe")


def wants(found: Iterable[Spot]) -> Iterator[Want]:
    """Every part of every chain, less what the builder holds in his hand.

    Parameters
    ----------
    found : Iterable of Spot
        The chains.

    Yields
    ------
    Want
        One for each part.
    """
    for spot in found:
        for joint, part in spot.parts:
            if not part.held:
                yield _want(spot, joint, part)


def unsettled(car: Car, joints: Joints) -> Iterator[Want]:
    """Hose ends at ports that nobody has measured: whatever the port turns out to be.

    Parameters
    ----------
    car : Car
        The car document as read.
    joints : Joints
        What the joints stage offered.

    Yields
    ------
    Want
        The hose end that all readings of the port agree on, or that the line's own size and
        typed angle ask for; never certain.
    """
    for end in joints.terminations:
        line = car.lines.get(end.line)
        if end.chain is not None or line is None or line.construction is not Construction.HOSE:
            continue
        port = car.port(end.port)
        if port is None or not port.end.is_unknown:
            continue
        part = agreed(end, line)
        if part is not None:
            yield Want(
                code=part.code,
                name=_name(part),
                group="hose ends",
                system=line.system,
                because=f"{end.hose}.{end.side}",
                spares=Spares.HOSE_END,
                price_index=part.price_index,
                availability=part.availability.value,
                is_certain=False,
                note=f"{end.port} is not measured: check before ordering",
            )


def agreed(end: Termination, line: Line) -> Part | None:
    """Hose end that an end needs whatever its port turns out to be.

    Parameters
    ----------
    end : Termination
        An end whose port is not settled.
    line : Line
        Its line.

    Returns
    -------
    Part or None
        The one that all readings share; with no reading the one of the line's own size and
        typed angle; None where readings differ or the angle is open.
    """
    offered = {chain.hose_end for chain in end.alternatives}
    if len(offered) == 1:
        return offered.pop()
    if offered or end.angle is None:
        return None
    said = line.ends["AB".index(end.side)]
    family = hoses.family(line.hose)
    return next(
        (
            part
            for part in stock.generic().hose_ends(family.ends, line.size)
            if part.shape == "hose end"
            and part.angle == end.angle
            and ("full swivel" in part.traits) == (said.swivel == "full" and part.angle != 0)
        ),
        None,
    )


def _want(spot: Spot, joint: str, part: Part) -> Want:
    is_hose_end = "hose end" in part.shape
    end = spot.termination
    is_open = is_hose_end and end is not None and end.angle is None
    is_unsure = end is not None and not end.is_sure
    note = ""
    if is_open and end is not None:
        angles = ", ".join("straight" if a == 0 else f"{a}°" for a in end.angles)
        note = f"angle of {spot.id} open: {angles or 'not tried yet'}"
    elif is_hose_end and end is not None and end.is_routed:
        note = "angles as laid in space"
    return Want(
        code=part.code,
        name=_name(part) if is_hose_end else part.name,
        group=group(part),
        system=spot.system.id if spot.system else None,
        because=joint,
        spares=Spares.HOSE_END if is_hose_end else Spares.NONE,
        price_index=part.price_index,
        availability=part.availability.value,
        # What is asked is whether the part exists; what it weighs or costs does not weaken that.
        grade=weakest([Grade.DERIVED, *(g for name, g in part.grades if name == "availability")]),
        is_certain=spot.is_certain and not is_open and not (is_hose_end and is_unsure),
        note=note,
    )


def group(part: Part) -> str:
    """Group of the parts list that a part belongs to.

    Parameters
    ----------
    part : Part
        Any part.

    Returns
    -------
    str
        One of ``hose ends``, ``plugs``, ``hose`` (moulded shapes, pipes), ``hardware`` or
        ``adaptors``.
    """
    if "hose end" in part.shape:
        return "hose ends"
    if part.shape in _PLUGS:
        return "plugs"
    if part.shape in _SHAPES:
        return "hose"
    return "hardware" if part.shape == "banjo bolt" else "adaptors"


def _name(part: Part) -> str:
    """The part's name, with the angle and the kind of swivel if it does not say them."""
    name = part.name
    if part.shape.startswith("banjo"):
        return f"{name}, turns on its bolt until tight"
    angle = "straight" if part.angle == 0 else f"{part.angle}°"
    if str(part.angle) not in name and "straight" not in name:
        name += f", {angle}"
    if "swivel" not in name and "fixed" not in name:
        name += ", full swivel" if "full swivel" in part.traits else ", fixed elbow"
    return name
