# SPDX-License-Identifier: Apache-2.0
"""Least bores that take too much of a line: ports, banjos, and lines led into wide necks."""

from collections.abc import Iterator

from linewright.base.evidence import Grade, weakest
from linewright.base.finding import Finding, Severity
from linewright.catalogue.figures import bore_of
from linewright.catalogue.part import Part
from linewright.ends.end import End, Family, Gender
from linewright.joints.graph import FUNCTIONS
from linewright.joints.model import Chain
from linewright.joints.offered import cited, setting
from linewright.joints.place import Place

#: Lines that carry next to no flow, or are meant to be narrow.
_NO_FLOW = ("reference", "bleed")


def first_of(chain: Chain, shape: str) -> Part | None:
    """First part of a chain with a word in its shape.

    Parameters
    ----------
    chain : Chain
        The chain.
    shape : str
        The word, e.g. ``banjo``.

    Returns
    -------
    Part or None
        None where no part has it.
    """
    return next((part for part in chain.parts if shape in part.shape), None)


def plain_bore(chain: Chain) -> float | None:
    """Least bore of a chain's adaptors, without what is narrow on purpose.

    Parameters
    ----------
    chain : Chain
        The chain.

    Returns
    -------
    float or None
        Least bore; None where no adaptor with a known bore is in it. [m]
    """
    bores = [
        part.bore
        for part in chain.adaptors
        if part.bore is not None and not part.traits.intersection(FUNCTIONS)
    ]
    return min(bores, default=None)


def _share(bore: float, of: float) -> float:
    return (bore / of) ** 2


def choke(place: Place, chain: Chain) -> Iterator[Finding]:
    """A port or adaptor that takes too much of the line's area.

    Parameters
    ----------
    place : Place
        Where the chain stands.
    chain : Chain
        The chain.

    Yields
    ------
    Finding
        One at most.
    """
    line, hose = place.line, place.hose_bore
    bore = plain_bore(chain)
    if line is None or hose is None or bore is None or line.service in _NO_FLOW:
        return
    if any("banjo" in part.shape for part in chain.parts):
        return  # the banjo has its own finding
    is_suction = line.service == "suction"
    name = "choke-suction" if is_suction else "choke-pressure"
    limit = setting(place.car, name)
    share = _share(bore, hose.value)
    # What the dash itself takes, no other adaptor gives back: only what is narrower than
    # the line's own cone is held against the port.
    own = bore_of(End(Family.FLARE_37, place.size, Gender.MALE))
    spared = setting(place.car, "choke-own-size")
    if share >= limit.value or own is None or _share(bore, own[0]) >= spared.value:
        return
    grade = weakest([Grade.RECALLED, hose.grade, limit.grade])
    port_size = chain.port.size
    smaller = _smaller(place.size)
    ways = []
    if chain.port.family is Family.ORB_UNF or chain.port.family is Family.FLARE_37:
        ways.append(f"a {place.size} bung or port in place of {port_size}")
    else:
        ways.append(f"a larger port for a {place.size} line")
    if smaller:
        ways.append(f"the line a size down, {smaller}: the port passes no more")
    yield Finding(
        code="choke",
        severity=Severity.WARN,
        about=place.about,
        reason=(
            f"{place.where}: least bore {bore * 1000:.1f} mm in a hose of "
            f"{hose.value * 1000:.1f} mm bore leaves {share:.0%} of the area"
            + (" on the suction side." if is_suction else ".")
        ),
        remedy="; or ".join(ways) + ".",
        value=f"{share:.0%}",
        limit=f"{limit.value:.0%}",
        source=cited(place.car, name),
        grade=grade,
        measure=1 - share,
        printed=share,
        is_less_worse=True,
    )


_DASHES = ("-3", "-4", "-6", "-8", "-10", "-12", "-16", "-20")


def _smaller(dash: str) -> str:
    place = _DASHES.index(dash) if dash in _DASHES else 0
    return _DASHES[place - 1] if place else ""


def neck(place: Place, chain: Chain) -> Iterator[Finding]:
    """A line much smaller than the beaded neck that it is led into.

    Parameters
    ----------
    place : Place
        Where the chain stands.
    chain : Chain
        The chain.

    Yields
    ------
    Finding
        One at most.
    """
    line, hose = place.line, place.hose_bore
    if line is None or hose is None or chain.port.family is not Family.BEAD:
        return
    if not any("bead" in part.shape for part in chain.parts):
        return
    of_neck = bore_of(chain.port)
    if of_neck is None:
        return
    limit = setting(place.car, "choke-neck")
    share = _share(hose.value, of_neck[0])
    if share >= limit.value:
        return
    yield Finding(
        code="choke",
        severity=Severity.WARN,
        about=place.about,
        reason=(
            f"{place.where}: a hose of {hose.value * 1000:.1f} mm bore on a neck of about "
            f"{of_neck[0] * 1000:.0f} mm leaves {share:.0%} of the area."
        ),
        remedy=(
            f"Cut the neck and weld on a {place.size} cone, which saves the coupler; or run the "
            f"line in {chain.port.size} mm hose."
        ),
        value=f"{share:.0%}",
        limit=f"{limit.value:.0%}",
        source=cited(place.car, "choke-neck"),
        grade=weakest([of_neck[1], hose.grade, limit.grade]),
        measure=1 - share,
        printed=share,
        is_less_worse=True,
    )


def banjo(place: Place, chain: Chain) -> Iterator[Finding]:
    """A banjo that takes too much of the line's area.

    Parameters
    ----------
    place : Place
        Where the chain stands.
    chain : Chain
        The chain.

    Yields
    ------
    Finding
        One at most.
    """
    part = first_of(chain, "banjo")
    hose = place.hose_bore
    if part is None or part.bore is None or hose is None:
        return
    limit = setting(place.car, "choke-pressure")
    share = _share(part.bore, hose.value)
    if share >= limit.value:
        return
    yield Finding(
        code="banjo-bore",
        severity=Severity.WARN,
        about=place.about,
        reason=(
            f"{place.where}: the banjo's least bore of {part.bore * 1000:.1f} mm leaves "
            f"{share:.0%} of the area of a hose of {hose.value * 1000:.1f} mm bore."
        ),
        remedy=(
            "Take a stud and an angled hose end if there is room for them, or check that the "
            "flow is small here."
        ),
        value=f"{share:.0%}",
        limit=f"{limit.value:.0%}",
        source=cited(place.car, "choke-pressure"),
        grade=weakest([Grade.RECALLED, hose.grade, limit.grade]),
        measure=1 - share,
        printed=share,
        is_less_worse=True,
    )
