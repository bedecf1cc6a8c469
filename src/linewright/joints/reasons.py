# SPDX-License-Identifier: Apache-2.0
"""What a chosen chain gives cause to say: room, bores, tapers, banjos, special orders."""

from collections.abc import Iterator
from dataclasses import replace

from linewright.base.finding import Finding, Severity
from linewright.catalogue.part import Turns
from linewright.ends.end import Family, Gender
from linewright.joints import bores
from linewright.joints.chain import show
from linewright.joints.model import Chain
from linewright.joints.offered import cited, is_aluminium, setting
from linewright.joints.place import Place

_TAPERS = (Family.NPT, Family.NPTF, Family.BSPT)


def findings(place: Place, chain: Chain) -> tuple[Finding, ...]:
    """All that one chosen chain gives cause to say.

    Parameters
    ----------
    place : Place
        Where it stands.
    chain : Chain
        The chain.

    Returns
    -------
    tuple of Finding
        In the order of their codes' weight as the rules have it.
    """
    found: list[Finding] = []
    for rule in _RULES:
        found.extend(rule(place, chain))
    return tuple(replace(f, system=place.system) for f in found)


def coded(place: Place, chain: Chain) -> Chain:
    """The chain with the codes of what it gives cause to say.

    Parameters
    ----------
    place : Place
        Where it stands, or would stand.
    chain : Chain
        The chain.

    Returns
    -------
    Chain
        The same chain; ``codes`` sorted, each once.
    """
    return replace(chain, codes=tuple(sorted({f.code for f in findings(place, chain)})))


def _room(place: Place, chain: Chain) -> Iterator[Finding]:
    port = place.port
    if port is None or port.room is None or chain.stick_out <= port.room:
        return
    yield Finding(
        code="no-room",
        severity=Severity.STOP,
        about=place.about,
        reason=(
            f"{place.where}: {show(chain.parts)} stands out {chain.stick_out * 1000:.0f} mm; "
            f"{port.room * 1000:.0f} mm is free, and nothing that the trade sells is lower."
        ),
        remedy=(
            "Give the port more room, turn the component, or use a port elsewhere; an elbow "
            "or a banjo is lower where its angle is the one typed."
        ),
        value=f"{chain.stick_out * 1000:.0f} mm",
        limit=f"{port.room * 1000:.0f} mm",
        measure=chain.stick_out - port.room,
        printed=chain.stick_out,
    )


def _spot_face(place: Place, chain: Chain) -> Iterator[Finding]:
    banjo, port = bores.first_of(chain, "banjo"), place.port
    if banjo is None or port is None:
        return
    missing = [
        what
        for what, value in (
            ("the width of the flat face round the hole", port.spot_face),
            ("the depth of the hole", port.depth),
        )
        if value is None
    ]
    if not missing:
        return
    yield Finding(
        code="spot-face-unknown",
        severity=Severity.ASK,
        about=place.about,
        reason=(
            f"{place.where}: a banjo seals on two washers on flat faces, and "
            f"{' and '.join(missing)} {'are' if len(missing) > 1 else 'is'} not known."
        ),
        remedy=(
            "Measure it: the face has to be wider than the washer, the hole deeper than the "
            "bolt reaches."
        ),
    )


def _female_is_aluminium(place: Place, chain: Chain, index: int) -> bool:
    """Whether the female half of a joint is of aluminium."""
    joint = chain.joints[index]
    if joint.near.gender is Gender.MALE:
        return index < len(chain.parts) and "alumin" in chain.parts[index].material
    if index == 0:
        return place.port is not None and is_aluminium(place.car, place.port)
    return "alumin" in chain.parts[index - 1].material


def is_taper_in_aluminium(place: Place, chain: Chain) -> bool:
    """Whether the joint at the port itself wedges a taper thread in aluminium.

    Parameters
    ----------
    place : Place
        Where the chain stands.
    chain : Chain
        The chain.

    Returns
    -------
    bool
        A bushing's own hole is not asked about: it is a bought part, made for it.
    """
    is_taper = bool(chain.joints) and chain.port.family in _TAPERS
    return is_taper and place.port is not None and _female_is_aluminium(place, chain, 0)


def _taper(place: Place, chain: Chain) -> Iterator[Finding]:
    if place.port is None or not is_taper_in_aluminium(place, chain):
        return
    yield Finding(
        code="taper-in-aluminium",
        severity=Severity.WARN,
        about=(place.port.id,),
        reason=(
            f"{place.where}: a taper thread wedges in aluminium; it can split the boss, and it "
            "wears at each remaking."
        ),
        remedy=(
            "Tighten by turns past hand tight, never back off to point it; or have the port "
            "opened to an O-ring boss."
        ),
    )


def _elbow(place: Place, chain: Chain) -> Iterator[Finding]:
    for index, part in enumerate(chain.parts):
        if part.angle == 0 or part.turns is not Turns.CHANCE:
            continue
        if chain.joints[index].near.family not in _TAPERS:
            continue
        yield Finding(
            code="taper-elbow",
            severity=Severity.WARN,
            about=place.about,
            reason=(
                f"{place.where}: {part.name} stops where its taper does, up to half a turn from "
                "where it should point, and may not be backed off."
            ),
            remedy=f"Take a straight adaptor and a {part.angle}° hose end or swivel elbow.",
        )


def _special(place: Place, chain: Chain) -> Iterator[Finding]:
    if not chain.rank[1]:
        return
    names = [p.name for p in chain.parts if p.availability.value == "special" and not p.held]
    yield Finding(
        code="part-special",
        severity=Severity.NOTE,
        about=place.about,
        reason=(
            f"{place.where}: only a special order will do: {', '.join(names)}. No stocked or "
            "catalogued part makes this joint."
        ),
        remedy="Order it first, from a hydraulic supplier; or change the port.",
    )


def _long(place: Place, chain: Chain) -> Iterator[Finding]:
    if chain.port.family in (Family.BEAD, Family.BARB):
        return  # a coupler of soft hose does not lever on the neck
    adaptors = chain.adaptors
    rise = 0.0
    for part in adaptors:
        rise += part.stick_out
        if part.angle:
            break
    limit = setting(place.car, "stick-out")
    if rise <= limit.value:
        return
    yield Finding(
        code="stick-out",
        severity=Severity.WARN,
        about=place.about,
        reason=(
            f"{place.where}: {len(adaptors)} adaptors stand out {rise * 1000:.0f} mm before the "
            "hose begins; they lever on the port when the car shakes."
        ),
        remedy="Change the port for one that takes fewer adaptors, or support the chain.",
        value=f"{rise * 1000:.0f} mm",
        limit=f"{limit.value * 1000:.0f} mm",
        source=cited(place.car, "stick-out"),
        grade=limit.grade,
        measure=rise,
    )


_RULES = (
    _room,
    bores.choke,
    bores.neck,
    bores.banjo,
    _spot_face,
    _taper,
    _elbow,
    _special,
    _long,
)
