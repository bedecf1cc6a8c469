# SPDX-License-Identifier: Apache-2.0
"""Hose clamped on beads and barbs, and silicone shapes that are a whole line by themselves."""

from dataclasses import replace
from math import dist

from linewright.base.finding import Finding, Severity, WorkStep
from linewright.base.frames import Vector, placed, rotation
from linewright.car.model import Car, Construction, Line, Medium, Port
from linewright.catalogue.part import Part
from linewright.catalogue.stock import Catalogue
from linewright.ends.end import Family
from linewright.ends.mates import mates
from linewright.ends.words import show
from linewright.joints import missing, moulded, reasons, steps
from linewright.joints.chain import Options, join
from linewright.joints.model import Chain, Fit, Joints, Mated, Termination
from linewright.joints.offered import NOTHING, is_aluminium, merged
from linewright.joints.place import Place
from linewright.joints.rank import is_special
from linewright.joints.side import bore_of_hose, hose_of

_SPIGOTS = (Family.BEAD, Family.BARB)
#: What silicone shapes are made for; oil and fuel swell them.
_SILICONE = (Medium.COOLANT, Medium.CHARGE_COOLANT, Medium.AIR)

#: A moulded shape may be held this much apart at its ends, beyond its own legs [m].
_STRETCH = 0.050

#: The longest coupler that the trade sells; what is further apart wants a hose or a pipe. [m]
_COUPLER = 0.150

#: As far as both legs of a moulded elbow reach. [m]
_LEGS = 0.250


def clamped(car: Car, catalogue: Catalogue, line: Line, ports: tuple[Port, Port]) -> Joints:
    """Offer both ends of a clamped hose.

    Parameters
    ----------
    car : Car
        The car document as read.
    catalogue : Catalogue
        Parts to build with.
    line : Line
        A line of clamped hose; its size is the hose's bore in mm.
    ports : tuple of Port
        Its two ports, A first.

    Returns
    -------
    Joints
        Two terminations. Where one silicone shape is the whole line, it stands in the
        chain of end A, which says so in ``is_whole_line``.
    """
    is_bent = any(end.angle for end in line.ends)
    is_far = is_apart(car, line, ports, _LEGS if is_bent else _COUPLER)
    if not is_far and (whole := whole_line(catalogue, line, ports)):
        return merged((whole, grommets(line)))
    found = [NOTHING]
    far = hose_of(line)
    bore = bore_of_hose(line)
    for side, port, said in zip("AB", ports, line.ends, strict=True):
        place = Place(car, f"{line.id}.{side}", port, line, bore, line.size)
        options = Options(
            angle=None,
            is_aluminium=is_aluminium(car, port),
            via=said.via,
            fit=said.fit,
            has_joiners=True,
            has_reducers=True,
            is_tube=port.end.family is Family.TUBE,
        )
        if port.end.is_unknown:
            offered = tuple(
                chain
                for end in port.readings
                for chain in join(end, far, catalogue, options=options)[:1]
            )
            found.append(_blank(line, side, port, offered))
            continue
        chains = join(port.end, far, catalogue, options=options)
        if not chains:
            finding = (
                _size_differs(catalogue, line, port, ports[side == "A"])
                if port.end.family in _SPIGOTS
                else missing.no_chain(place, port.end, far, catalogue, options)
            )
            found.append(replace(_blank(line, side, port), findings=(finding,)))
            continue
        turns = () if said.via or said.fit else moulded.elbows(catalogue, line, port)
        bent = moulded.typed(turns, said.angle)
        best, *others = (reasons.coded(place, one) for one in chains)
        if bent is not None:
            best, others = bent, [best, *others]
        made = (moulded.step(place.id, line.id, port.id, best),) if bent is not None else ()
        angle = said.angle or 0 if bent is not None else 0
        is_open = said.angle is None
        done = Termination(
            line.id,
            line.id,
            side,
            port.id,
            best,
            tuple(others),
            angle,
            elbows=turns if is_open or bent is not None else (),
        )
        found.append(
            Joints(
                (done,),
                (),
                reasons.findings(place, best),
                (*steps.steps(place, best), *made),
            )
        )
    return merged((*found, grommets(line)))


def whole_line(catalogue: Catalogue, line: Line, ports: tuple[Port, Port]) -> Joints | None:
    """One silicone coupler or elbow that makes the whole line.

    Parameters
    ----------
    catalogue : Catalogue
        Parts to build with.
    line : Line
        A clamped hose or a charge pipe.
    ports : tuple of Port
        Its two ports, A first.

    Returns
    -------
    Joints or None
        Two terminations, if both ports are spigots of which one shape fits both, and the
        line is no longer than that shape; a hump is taken where the two move apart. Two
        spigots of one size with no turn between them are left to plain hose or pipe.
    """
    near, far = ports[0].end, ports[1].end
    if near.family not in _SPIGOTS or far.family not in _SPIGOTS:
        return None
    typed = [end.angle for end in line.ends if end.angle]
    angle = sum(typed)
    is_charge = line.medium is not None and line.medium.value == "charge air"
    if near.size == far.size and not angle and not is_charge:
        return None
    best: tuple[tuple[float, ...], Part, int] | None = None
    for part, index in catalogue.facing(near):
        if part.shape not in ("coupler", "silicone") or len(part.ends) != 2:
            continue
        if part.angle != angle or not mates(far, part.ends[1 - index]).ok:
            continue
        if angle == 0 and ("hump" in part.traits) != (line.crosses and is_charge):
            continue
        if line.string is None and near.size == far.size:
            continue
        if line.string is not None and line.string.value > sum(part.legs) + _STRETCH:
            continue
        key = (float(is_special(part)), part.price_index, sum(part.legs), float(index))
        if best is None or key < best[0]:
            best = (key, part, index)
    if best is None:
        return None
    _, part, index = best
    first = _half(ports[0], part, index, carries=True)
    second = _half(ports[1], part, 1 - index, carries=False)
    step = WorkStep(
        "bead-clamp",
        (line.id,),
        f"{line.id}: {part.name} between {ports[0].id} and {ports[1].id}; clamps behind the "
        "beads, sized by the outside of the hose on the spigot"
        + ("; fix the pipe to the body near the coupler." if is_charge else "."),
    )
    return Joints(
        (
            Termination(line.id, line.id, "A", ports[0].id, first, (), angle),
            Termination(line.id, line.id, "B", ports[1].id, second, (), 0),
        ),
        (),
        (),
        (step,),
    )


def is_apart(car: Car, line: Line, ports: tuple[Port, Port], most: float = _COUPLER) -> bool:
    """Whether a line of which no length is typed has its ports further apart than one shape.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        The line.
    ports : tuple of Port
        Its two ports.
    most : float
        How far the shape reaches. [m]

    Returns
    -------
    bool
        False too where their places are not known.
    """
    a, b = (_near(car, port) for port in ports)
    return line.string is None and a is not None and b is not None and dist(a, b) > most


def _near(car: Car, port: Port) -> Vector | None:
    """Where a port is, near enough: whatever point of its component was placed is its middle."""
    place = car.components[port.component].place
    if port.at_car is not None or place is None:
        return port.at_car
    turn = rotation(place.yaw, place.pitch, place.roll)
    return placed(place.at, turn, port.at or (0.0, 0.0, 0.0))


def _half(port: Port, part: Part, index: int, *, carries: bool) -> Chain:
    mating = mates(port.end, part.ends[index])
    return Chain(
        port=port.end,
        parts=(part,) if carries else (),
        joints=(Mated(port.end, part.ends[index], mating),),
        bore=part.bore,
        price_index=part.price_index if carries else 0.0,
        stick_out=0.0,
        rank=(0.0, float(is_special(part)), 0.0, 1.0, 0.0, part.price_index, 0.0),
        reason="one silicone shape fits both spigots: two joints, no adaptor",
        is_whole_line=True,
    )


def _blank(line: Line, side: str, port: Port, offered: tuple[Chain, ...] = ()) -> Joints:
    return Joints((Termination(line.id, line.id, side, port.id, None, offered, 0),), ())


def _size_differs(catalogue: Catalogue, line: Line, port: Port, other: Port) -> Finding:
    return Finding(
        code="size-differs",
        severity=Severity.STOP,
        about=(port.id, line.id),
        reason=(
            f"{line.id}: hose of {line.size} mm bore on {port.id} ({show(port.end)}); hose is "
            "neither stretched over a larger spigot nor clamped down on a smaller one."
        ),
        remedy=_way_out(catalogue, line, port, other),
        value=f"{line.size} mm",
        limit=f"{port.end.size} mm",
        system=line.system,
    )


def _way_out(catalogue: Catalogue, line: Line, port: Port, other: Port) -> str:
    own = f"hose of the spigot's own size, {port.end.size} mm"
    if other.end.family not in _SPIGOTS or other.end.size == port.end.size:
        return f"Take {own}."
    if line.medium not in _SILICONE:
        return f"Take {own}, or change the spigot for one of {line.size} mm."
    # Where nothing is sold on the hose's bore, that is the odd size of the two.
    odd, kept = port.end.size, line.size
    sold = _sold_beside(catalogue, kept, odd)
    if not sold:
        odd, kept = kept, odd
        sold = _sold_beside(catalogue, kept, odd)
    if not sold:
        return f"No silicone reducer on {odd} mm or on {kept} mm is sold; change the two necks."
    sizes = [f"{size} mm" for size in sold]
    return (
        f"No silicone reducer between {odd} mm and {kept} mm is sold; the nearest on {kept} mm "
        f"{'is' if len(sizes) == 1 else 'are'} for {' and '.join(sizes)}. Measure the neck of "
        f"{odd} mm again, or have it changed for one of {' or '.join(sizes)}."
    )


def _sold_beside(catalogue: Catalogue, bore: str, wanted: str) -> tuple[str, ...]:
    """Sizes next below and above `wanted` from which a reducer leads to `bore`."""
    sizes = {
        end.size
        for part in catalogue.of_shape("coupler")
        if "reducing" in part.traits and bore in {e.size for e in part.ends}
        for end in part.ends
        if end.size != bore
    }
    below = [size for size in sizes if float(size) < float(wanted)]
    above = [size for size in sizes if float(size) > float(wanted)]
    return (*sorted(below, key=float)[-1:], *sorted(above, key=float)[:1])


def grommets(line: Line) -> Joints:
    """What goes through its panels in one piece goes in a grommet.

    Parameters
    ----------
    line : Line
        A line of clamped hose or of hard tube.

    Returns
    -------
    Joints
        A fit and a work step for each panel.
    """
    what = "tube" if line.construction is Construction.TUBE else "hose"
    return Joints(
        (),
        tuple(Fit((), "grommet", None, panel, line.id) for panel in line.passes),
        (),
        tuple(
            WorkStep(
                "grommet",
                (line.id, panel),
                f"{line.id}: one {what} through {panel}, in a grommet; the edge of the hole "
                "may not touch it.",
            )
            for panel in line.passes
        ),
    )
