# SPDX-License-Identifier: Apache-2.0
"""Where no chain leads: the smallest step that is missing."""

from linewright.base.finding import Finding, Severity
from linewright.catalogue.stock import Catalogue
from linewright.ends.end import End, Family
from linewright.ends.words import show
from linewright.joints.chain import Options, join
from linewright.joints.graph import Graph, graph
from linewright.joints.offered import angle_word
from linewright.joints.place import Place
from linewright.joints.rank import MOST_PARTS


def no_chain(place: Place, near: End, far: End, catalogue: Catalogue, options: Options) -> Finding:
    """Say which step no part makes.

    Parameters
    ----------
    place : Place
        Where a chain was wanted.
    near : End
        The port's end.
    far : End
        Where it should have led.
    catalogue : Catalogue
        The parts that were tried.
    options : Options
        What the chain had to do.

    Returns
    -------
    Finding
        A stop that names the missing step and the way out.
    """
    step, remedy = missing_step(near, far, catalogue, options)
    return Finding(
        code="no-chain",
        severity=Severity.STOP,
        about=place.about,
        reason=f"{place.where}: {step}",
        remedy=remedy,
        system=place.system,
    )


def missing_step(near: End, far: End, catalogue: Catalogue, options: Options) -> tuple[str, str]:
    """Say in words which step between two ends no part makes.

    Parameters
    ----------
    near : End
        The end to start from.
    far : End
        The end to arrive at.
    catalogue : Catalogue
        The parts that were tried.
    options : Options
        What the chain had to do.

    Returns
    -------
    tuple of str
        The missing step, and a way out.
    """
    network = graph(catalogue)
    known = {part.code for part in catalogue.parts}
    if strange := [code for code in options.via if code not in known]:
        return (
            f"the part {strange[0]!r} that it must go by is not in the catalogue.",
            "Take a code from the parts list, or describe the part in your hand under [parts].",
        )
    if near.family is Family.BANJO and far.family is Family.HOSE:
        return (
            f"{show(near)} is an eye with its bolt, and a hose end does not go on one.",
            "A hole that a banjo bolt goes into is typed as the hole, such as "
            f'"{near.size} flat face"; an eye stands in the line\'s ends.',
        )
    if far.family is Family.HOSE and (text := _hose_end(far, catalogue, options)):
        return text
    for end in (near, far):
        if end.family in (Family.BEAD, Family.BARB) and not network.steps(end):
            return _no_coupler(end, catalogue)
    if not any(step.is_eligible for step in network.steps(near)):
        return (
            f"no part that the trade sells joins {show(near)}.",
            "Measure the port again; if it is right, change the port, or describe the part in "
            "your hand under [parts].",
        )
    if options.fit or options.via:
        plain = Options(
            options.angle,
            options.is_full_swivel,
            options.hose_bore,
            options.room,
            options.is_aluminium,
        )
        if join(near, far, catalogue, options=plain):
            wanted = ", ".join((*options.fit, *options.via))
            return (
                f"no part from {show(near)} to {show(far)} carries what is asked for: {wanted}.",
                "Leave it out here and make it a component of the line, with ports of its own.",
            )
    if options.angle not in (None, 0) and far.family is Family.HOSE:
        straight = Options(None, options.is_full_swivel, options.hose_bore)
        if join(near, far, catalogue, options=straight):
            return (
                f"no hose end or elbow on {show(near)} turns by {angle_word(options.angle or 0)}.",
                "Type an angle that is sold, or leave it open.",
            )
    here = _told(network, near, far, catalogue)
    there = _told(network, far, near, catalogue)
    onward = f"the parts on {show(near)} lead to {', '.join(here[:4])}"
    back = (
        f"{show(far)} is reached from {', '.join(there[:4])}"
        if there
        else f"no part leads to {show(far)}"
    )
    return (
        f"no chain of up to {MOST_PARTS} parts joins {show(near)} to {show(far)}: "
        f"{onward}; {back}.",
        "Take a line nearer the port's size, or change the port."
        if far.family is Family.HOSE
        else "Change one of the two ends, or lay a hose between them.",
    )


def _no_coupler(end: End, catalogue: Catalogue) -> tuple[str, str]:
    """No coupler of a spigot's size is sold: name the sizes on either side."""
    sizes = sorted({float(e.size) for p in catalogue.of_shape("coupler") for e in p.ends})
    wanted = float(end.size)
    below = [size for size in sizes if size < wanted][-1:]
    above = [size for size in sizes if size > wanted][:1]
    sold = " and ".join(f"{size:g} mm" for size in below + above)
    return (
        f"no silicone coupler on {show(end)} is sold; the nearest sizes sold are {sold}.",
        "Measure the neck again, or have it changed for one of those sizes.",
    )


def _told(network: Graph, start: End, aim: End, catalogue: Catalogue) -> list[str]:
    """Ends that parts on `start` leave open: those near the aim first, then the common ones."""
    outs = {step.out for step in network.steps(start) if step.is_eligible} - {start}
    # How many parts can be put on an end says how common it is in the trade.
    common = {end: len(catalogue.facing(end)) for end in outs}

    def order(end: End) -> tuple[bool, float, bool, int, str]:
        is_other = end.family is not aim.family or (end.kind != aim.kind)
        is_strange = end.family is not start.family or end.size != start.size
        return (
            is_other,
            0.0 if is_other else _apart(end, aim),
            is_strange,
            -common[end],
            show(end),
        )

    return list(dict.fromkeys(show(end) for end in sorted(outs, key=order)))


def _apart(end: End, aim: End) -> float:
    """How far two sizes of one family are apart, where they are numbers [-]."""
    try:
        return abs(float(end.size) - float(aim.size))
    except ValueError:
        return 0.0 if end.size == aim.size else 1.0


def _hose_end(far: End, catalogue: Catalogue, options: Options) -> tuple[str, str] | None:
    """Whether the hose end itself is what is missing."""
    ends = [p for p in catalogue.hose_ends(far.kind, far.size) if "banjo" not in p.shape]
    if far.kind == "clamped":
        return None
    if not ends:
        sizes = sorted(
            {
                e.size
                for p in catalogue.parts
                if "hose end" in p.shape
                for e in p.ends
                if e.family is Family.HOSE and e.kind == far.kind
            },
            key=lambda size: int(size.lstrip("-")) if size.lstrip("-").isdigit() else 0,
        )
        return (
            f"no hose end for {far.size} {far.kind} hose is sold; sold: {', '.join(sizes)}.",
            "Take a dash that is sold.",
        )
    if options.is_full_swivel:
        ends = [p for p in ends if "full swivel" in p.traits]
    angles = sorted({p.angle for p in ends})
    if options.angle is not None and options.angle not in angles:
        # An elbow with a straight end could still have made the turn; it did not.
        swivel = "full swivel " if options.is_full_swivel else ""
        words = ", ".join(angle_word(a) for a in angles) or "none"
        return (
            f"no {swivel}hose end for {far.size} {far.kind} hose turns by "
            f"{angle_word(options.angle)}; sold: {words}.",
            "Type an angle that is sold.",
        )
    return None
