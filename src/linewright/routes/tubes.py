# SPDX-License-Identifier: Apache-2.0
"""Hard tube and charge pipe: which bends are stocked for a line, and what its ends take up."""

from collections.abc import Iterable
from dataclasses import replace
from math import radians

from linewright.base.codes import RULES
from linewright.base.dimensions import INCH
from linewright.base.finding import Finding
from linewright.base.ids import natural_key
from linewright.car.model import Car, Construction, Line
from linewright.catalogue.part import Part
from linewright.joints.model import Termination
from linewright.joints.offered import setting
from linewright.routes.shapes import BENT, bent_outside, chain_shapes
from linewright.routes.tube_graph import Bending
from linewright.space.model import EndShape, Limits
from linewright.space.ports import port_frame
from linewright.tables.bends import Stocked, bender_shoes, mandrel_bends, stocked_outsides

#: Pipe and spigot never touch in a coupler. [m]
_GAP = 0.005

#: The most that one bend turns: a shoe hits the tube beyond; a pipe wants no half turns. [deg]
_MOST = {Construction.TUBE: 135, Construction.PIPE: 90}

_COUPLERS = ("coupler", "silicone")


def stock_of(line: Line) -> Stocked | None:
    """The tightest bend that is stocked for a line.

    Parameters
    ----------
    line : Line
        A line of hard tube or of charge pipe.

    Returns
    -------
    Stocked or None
        Mandrel bends for pipe, the shoe of a bender for tube; None where there is none.
    """
    size = bent_outside(line)
    if size is None:
        return None
    found = (
        mandrel_bends(size)
        if line.construction is Construction.PIPE
        else bender_shoes(size, line.hose.removeprefix("tube").strip())
    )
    return found[0] if found else None


def unstocked(car: Car, lines: Iterable[Line]) -> tuple[Finding, ...]:
    """Lines of tube or pipe for whose size nobody stocks a bend.

    Parameters
    ----------
    car : Car
        The car document as read.
    lines : iterable of Line
        Its lines.

    Returns
    -------
    tuple of Finding
        ``no-stocked-bend`` for each whose ends are placed, with the nearest size that is stocked.
    """
    found = []
    for line in sorted(lines, key=lambda each: natural_key(each.id)):
        size = bent_outside(line)
        if line.construction not in BENT or size is None or stock_of(line) is not None:
            continue
        if port_frame(car, line.from_port) is None or port_frame(car, line.to_port) is None:
            continue
        is_pipe = line.construction is Construction.PIPE
        near = _nearest(size, stocked_outsides("mandrel" if is_pipe else "bender"))
        word = "charge pipe" if is_pipe else "hard tube"
        shown = _shown(size, line.size)
        other = _shown(near, "-" if line.size.startswith("-") else "")
        found.append(
            Finding(
                code="no-stocked-bend",
                severity=RULES["no-stocked-bend"],
                about=(line.id,),
                reason=(
                    f"{line.id}: no bend is stocked for {word} of {shown} outside, so it has no "
                    "course in space."
                ),
                remedy=f"The nearest that is stocked is {other}: take that size, or have hose.",
                value=shown,
                limit=other,
                source="common practice",
                system=line.system,
            )
        )
    return tuple(found)


def _nearest(size: float, others: Iterable[float]) -> float:
    return min(others, key=lambda other: (round(abs(other - size), 6), other))


def _shown(size: float, typed: str) -> str:
    if typed.startswith("-"):
        return f"-{round(size / INCH * 16)} ({size * 1e3:.1f} mm)"
    return f"{size * 1e3:g} mm"


def bench_words(line: Line) -> str:
    """Say what is bent for a line.

    Parameters
    ----------
    line : Line
        Any line.

    Returns
    -------
    str
        Empty for hose.

    Examples
    --------
    >>> line = Line("A01", "a.b", "c.d", None, None, "63", "pipe aluminium", Construction.PIPE)
    >>> bench_words(line)
    'charge pipe of 63 mm in the bends that are stocked'
    """
    size = bent_outside(line)
    if line.construction not in BENT or size is None:
        return ""
    word = "charge pipe" if line.construction is Construction.PIPE else "hard tube"
    return f"{word} of {_shown(size, line.size)} in the bends that are stocked"


def bending(car: Car, line: Line, stock: Stocked) -> Bending:
    """What the bench can do with a line.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        A line of hard tube or of charge pipe.
    stock : Stocked
        The bend that is stocked for it.

    Returns
    -------
    Bending
        Its radius and straights. The ends of a pipe may stand and lean off their axes as far as
        couplers take; those of a tube may not.
    """
    is_pipe = line.construction is Construction.PIPE
    return Bending(
        stock.radius.value,
        stock.end,
        stock.end,
        stock.between,
        tube_limits(car, line, stock).most_bends,
        radians(setting(car, "coupler-tilt").value) if is_pipe else 0.0,
        setting(car, "coupler-offset").value if is_pipe else 0.0,
        setting(car, "pipe-bend" if is_pipe else "tube-bend").value,
        radians(max(angle for angle in stock.angles if angle <= _MOST[line.construction])),
    )


def tube_limits(car: Car, line: Line, stock: Stocked) -> Limits:
    """What the centreline of a line keeps.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        A line of hard tube or of charge pipe.
    stock : Stocked
        The bend that is stocked for it.

    Returns
    -------
    Limits
        Radius of the bend, straight at each end, clearance, most bends.
    """
    gap = line.clearance.value if line.clearance is not None else setting(car, "clearance").value
    most = setting(car, "most-bends").value if line.most_bends is None else line.most_bends
    why = "the tightest bend that is stocked"
    return Limits(stock.outside, stock.radius.value, stock.end, gap, round(most), why)


def tube_shapes(car: Car, end: Termination) -> tuple[EndShape, ...]:
    """What stands between a port and the very end of a tube or pipe.

    Parameters
    ----------
    car : Car
        The car document as read.
    end : Termination
        What the joints stage chose there.

    Returns
    -------
    tuple of EndShape
        One, straight or bent by an elbow; empty where nothing is chosen. A tube nut goes over
        the tube, and both a spigot and a pipe go so far into their coupler.
    """
    if end.chain is None:
        return ()
    grip = setting(car, "clamp-grip").value
    parts = tuple(_cut(part, grip) for part in end.chain.parts if part.shape != "tube nut")
    shapes = chain_shapes(
        replace(end.chain, parts=parts), (EndShape(0, 0.0, 0.0, price_index=0.0),)
    )
    return tuple(replace(shape, turns="free" if shape.angle else "set") for shape in shapes)


def _cut(part: Part, grip: float) -> Part:
    """A coupler as long as what is free between the two pipes in it."""
    if part.shape not in _COUPLERS:
        return part
    return replace(part, legs=tuple(max(leg - grip, _GAP / 2.0) for leg in part.legs))
