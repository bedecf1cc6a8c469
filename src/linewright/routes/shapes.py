# SPDX-License-Identifier: Apache-2.0
"""Hose ends in space, with true legs, and what the centreline of a hose must keep."""

from dataclasses import replace
from functools import cache
from math import cos, pi, sin

from linewright.base.dimensions import INCH
from linewright.base.errors import CatalogueError
from linewright.base.evidence import Figure, Grade, weakest
from linewright.car.model import Car, Construction, Line
from linewright.catalogue import stock
from linewright.catalogue.figures import dash_figures
from linewright.catalogue.part import Part, Turns
from linewright.joints import moulded
from linewright.joints.model import Chain, Termination
from linewright.joints.offered import setting
from linewright.space.model import EndShape, Limits
from linewright.tables import hoses

#: What is bent on a bench and not hung.
BENT = (Construction.TUBE, Construction.PIPE)


def _shape(part: Part, dash: str) -> EndShape | None:
    """The shape of one hose end; None for a 180° end whose centre distance nobody noted."""
    turns = Turns.FREE if part.turns is Turns.FREE else Turns.SET
    if part.angle == 0:
        return EndShape(0, sum(part.legs), 0.0, price_index=part.price_index, turns=turns.value)
    drop = part.legs[0] * sin(pi * part.angle / 180.0)
    if part.angle == 180:
        across = dash_figures(dash).hose_end_u
        if across is None:
            return None
        drop = across
    return EndShape(part.angle, reach(part), drop, price_index=part.price_index, turns=turns.value)


def reach(part: Part) -> float:
    """How far a hose end reaches beyond its collar, along the hose laid straight.

    Parameters
    ----------
    part : Part
        A hose end; a banjo's reaches to the middle of its eye.

    Returns
    -------
    float
        To its seat, or to the middle of its outlet. [m]
    """
    if part.angle == 0:
        return sum(part.legs)
    leg, socket = part.legs
    return socket if "banjo" in part.shape else socket + leg * cos(pi * part.angle / 180.0)


@cache
def end_shapes(family_ends: str, dash: str, is_full_swivel: bool = False) -> tuple[EndShape, ...]:
    """Every angle of hose end that is sold for a hose, with its true legs.

    Parameters
    ----------
    family_ends : str
        Family of ends that the hose takes: ``rubber``, ``PTFE``, ``push-on``.
    dash : str
        Dash size of the hose.
    is_full_swivel : bool
        Take those whose elbow turns on its nut.

    Returns
    -------
    tuple of EndShape
        By angle, 0 first; empty where none are sold. Of one angle the cheapest is taken.

    Notes
    -----
    A leg runs from the corner of the bent tube, so the seat of a bent end is at
    socket leg + port leg·cos(angle) along the hose and port leg·sin(angle) to its side. A
    180° end has no corner: its legs lie a centre distance apart.

    Examples
    --------
    >>> [shape.angle for shape in end_shapes("rubber", "-10")]
    [0, 30, 45, 60, 90, 120, 150, 180]
    >>> bent = end_shapes("rubber", "-10")[4]
    >>> round(bent.reach, 4), round(bent.drop, 4)
    (0.062, 0.034)
    """
    best: dict[int, Part] = {}
    for part in stock.generic().hose_ends(family_ends, dash):
        is_fit = ("full swivel" in part.traits) == is_full_swivel or part.angle == 0
        if part.shape != "hose end" or not is_fit:
            continue
        other = best.get(part.angle)
        if other is None or (part.price_index, part.code) < (other.price_index, other.code):
            best[part.angle] = part
    shapes = (_shape(best[angle], dash) for angle in sorted(best))
    return tuple(shape for shape in shapes if shape is not None)


def chain_shapes(chain: Chain, shapes: tuple[EndShape, ...]) -> tuple[EndShape, ...]:
    """Hose ends as they stand on a port with the adaptors of a chain between.

    Parameters
    ----------
    chain : Chain
        What stands between the port and the hose.
    shapes : tuple of EndShape
        Hose ends on a bare port.

    Returns
    -------
    tuple of EndShape
        With what the adaptors stand out. An elbow adaptor under a straight hose end is one
        bent end; what is bent twice is left out, and a banjo's eye is the bend of its hose end.
    """
    out = 0.0
    elbow: Part | None = None
    after = 0.0
    for part in chain.adaptors:
        if part.angle:
            if elbow is not None:
                return ()
            elbow = part
        elif elbow is None:
            out += sum(part.legs)
        else:
            after += sum(part.legs)
    end = chain.hose_end
    if elbow is None and end is not None and "banjo" in end.shape:
        elbow, shapes = end, (EndShape(0, 0.0, 0.0, price_index=end.price_index),)
    if elbow is None:
        return tuple(replace(shape, stick_out=shape.stick_out + out) for shape in shapes)
    near, far = elbow.legs[0], elbow.legs[1] + after
    bend = pi * elbow.angle / 180.0
    return tuple(
        EndShape(
            elbow.angle,
            shape.reach + far + near * cos(bend),
            near * sin(bend),
            out,
            shape.price_index,
            elbow.turns.value,
        )
        for shape in shapes
        if shape.angle == 0
    )


def shapes_at(car: Car, line: Line, end: Termination) -> tuple[EndShape, ...]:
    """Hose ends that may stand at one end of a hose.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        The line that the hose belongs to.
    end : Termination
        What the joints stage offers there.

    Returns
    -------
    tuple of EndShape
        By angle; a clamped hose slides on straight, or is clamped on the joiner of a moulded
        elbow. Empty where nothing is chosen.
    """
    chain = end.chain
    if chain is None:
        return ()
    if end.elbows:
        return moulded_shapes(car, end)
    if line.construction is not Construction.HOSE or chain.hose_end is None:
        return chain_shapes(chain, (EndShape(0, 0.0, 0.0, price_index=0.0),))
    said = line.ends[0 if end.side == "A" else 1]
    shapes = end_shapes(hoses.family(line.hose).ends, line.size, said.swivel == "full")
    return chain_shapes(chain, shapes)


def moulded_shapes(car: Car, end: Termination) -> tuple[EndShape, ...]:
    """The end of a clamped hose: slid on the spigot, and on each moulded elbow in turn.

    Parameters
    ----------
    car : Car
        The car document as read.
    end : Termination
        What the joints stage offers there, with its elbows.

    Returns
    -------
    tuple of EndShape
        By angle. An elbow goes over the spigot by the grip of a clamp, and over its joiner too,
        so its legs count from there; the hose begins at the joiner's far bead.
    """
    straight = next(
        (
            chain
            for chain in (end.chain, *end.alternatives)
            if chain is not None and moulded.elbow_of(chain) is None
        ),
        None,
    )
    found: list[EndShape] = []
    if straight is not None:
        found += chain_shapes(straight, (EndShape(0, 0.0, 0.0, price_index=0.0),))
    for chain in end.elbows:
        elbow = moulded.elbow_of(chain)
        if elbow is None:
            continue
        near, far = _legs(car, chain)
        bend = pi * elbow.angle / 180.0
        reach, drop = far + near * cos(bend), near * sin(bend)
        price = chain.price_index
        found.append(EndShape(elbow.angle, reach, drop, 0.0, price, elbow.turns.value))
    return tuple(found)


def _legs(car: Car, chain: Chain) -> tuple[float, float]:
    """Both legs of a moulded elbow from the spigot's end to where its hose begins. [m]"""
    grip = setting(car, "clamp-grip").value
    elbow, joiner = chain.parts[0], chain.parts[-1]
    near = max(0.0, elbow.legs[0] - grip)
    return near, max(0.0, elbow.legs[1] - grip) + sum(joiner.legs)


def moulded_run(car: Car, chain: Chain | None) -> float | None:
    """Length of path through a moulded elbow and its joiner.

    Parameters
    ----------
    car : Car
        The car document as read.
    chain : Chain or None
        What stands between a spigot and a clamped hose.

    Returns
    -------
    float or None
        From the spigot's end to where the hose begins [m]; None where there is no elbow.
    """
    if chain is None or moulded.elbow_of(chain) is None:
        return None
    return sum(_legs(car, chain))


def bent_outside(line: Line) -> float | None:
    """Outside diameter of a tube or pipe.

    Parameters
    ----------
    line : Line
        A line of hard tube or of charge pipe.

    Returns
    -------
    float or None
        A dash is sixteenths of an inch, all else millimetres; None while its size is open. [m]

    Examples
    --------
    >>> line = Line("F01", "a.b", "c.d", None, None, "-6", "tube steel", Construction.TUBE)
    >>> bent_outside(line)
    0.009525
    """
    if line.size.startswith("-") and line.size[1:].isdigit():
        return int(line.size[1:]) * INCH / 16.0
    try:
        return float(line.size) / 1000.0
    except ValueError:
        return None


def outside(car: Car, line: Line) -> Figure:
    """Outside diameter of a line's hose, tube or pipe.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        A line of hose.

    Returns
    -------
    Figure
        From the data; else its bore with a wall of the trade. [m]
    """
    bent = bent_outside(line) if line.construction in BENT else None
    if bent is not None:
        return Figure(bent, "m", Grade.DERIVED, "its size is its outside")
    size = _size(line)
    if size.outside is not None:
        return size.outside
    bore = max(size.bores, key=lambda b: b.value, default=None)
    wall = setting(car, "hose-wall")
    value = (bore.value if bore else 0.0) + 2.0 * wall.value
    return Figure(value, "m", weakest([wall.grade]), "bore and a wall of the trade")


def _size(line: Line) -> hoses.HoseSize:
    try:
        return hoses.size(hoses.family(line.hose).key, line.size)
    except CatalogueError:
        return hoses.HoseSize(
            line.hose, line.size, None, None, None, None, None, None, "", None, ()
        )


def bend_radius(car: Car, line: Line) -> Figure:
    """Least radius to which a hose's centreline is bent.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        A line of hose.

    Returns
    -------
    Figure
        The greater of the published radius, brought from the inside of the curve to the
        centreline, and a factor times it; more where the hose moves. Without a published one,
        so many bores. [m]

    Notes
    -----
    Published radii are to the inside of the curve for rubber and fluoropolymer hose.
    """
    is_suction = line.service == "suction"
    factor = setting(car, "bend-radius-factor-suction" if is_suction else "bend-radius-factor")
    size, od = _size(line), outside(car, line)
    moving = setting(car, "bend-radius-factor-moving")
    grades = [od.grade, factor.grade]
    if size.bend_radius is not None:
        published = size.bend_radius.value
        value = max(published + od.value / 2.0, factor.value * published)
        grades.append(size.bend_radius.grade)
        basis = f"published {published * 1e3:.0f} mm to the inside of the curve"
        if factor.value * published >= published + od.value / 2.0:
            basis += f", × {factor.value:g}{' as it sucks' if is_suction else ''}"
        else:
            basis += ", and half the hose to its middle"
    else:
        is_clamped = line.construction is Construction.CLAMPED
        bores = setting(car, "bend-radius-bores-clamped" if is_clamped else "bend-radius-bores")
        bore = max((b.value for b in size.bores), default=od.value)
        value = bores.value * bore
        basis = f"none is published: {bores.value:g} bores of {bore * 1e3:.1f} mm, assumed"
        grades.append(Grade.PRACTICE)
    if line.crosses:
        value *= moving.value
        basis += f", × {moving.value:g} as it moves"
        grades.append(moving.grade)
    return Figure(value, "m", weakest(grades), basis)


def limits(car: Car, line: Line) -> Limits:
    """What the centreline of a line's hose must keep.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        A line of hose.

    Returns
    -------
    Limits
        Least radius, straight after each collar, clearance, most bends.
    """
    od, radius = outside(car, line).value, bend_radius(car, line)
    return Limits(
        od,
        radius.value,
        # A clamped hose has its grip behind it, and no socket that must not be levered.
        setting(car, "straight-after-collar").value * od
        if line.construction is Construction.HOSE
        else od / 2.0,
        line.clearance.value if line.clearance is not None else setting(car, "clearance").value,
        line.most_bends if line.most_bends is not None else round(setting(car, "most-bends").value),
        radius.basis,
    )
