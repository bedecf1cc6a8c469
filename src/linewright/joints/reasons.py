# SPDX-License-Identifier: Apache-2.0
"""What a chosen chain has to say: choke, taper in aluminium, banjo, room, special order."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from linewright.base.evidence import Figure, Grade, weakest
from linewright.base.finding import Finding, Severity, WorkStep
from linewright.car.model import Car, Line, Port
from linewright.catalogue.figures import bore_of
from linewright.catalogue.part import Part, Turns
from linewright.ends.end import End, Family, Gender
from linewright.joints.chain import show
from linewright.joints.graph import FUNCTIONS
from linewright.joints.model import Chain
from linewright.joints.offered import is_aluminium, setting

_TAPERS = (Family.NPT, Family.NPTF, Family.BSPT)

#: Lines that carry next to no flow, or are meant to be narrow.
_NO_FLOW = ("reference", "bleed")


@dataclass(frozen=True, slots=True)
class Place:
    """Where a chain stands: the ids that its findings are about."""

    car: Car
    id: str  # of the end of the piece of hose, ``O01.A``, or of the port
    port: Port | None
    line: Line | None = None
    hose_bore: Figure | None = None
    size: str = ""

    @property
    def about(self) -> tuple[str, ...]:
        """Ids for a finding: the port and the line, or the end where there is no port."""
        ids = (self.port.id if self.port else self.id, self.line.id if self.line else "")
        return tuple(i for i in ids if i)

    @property
    def system(self) -> str | None:
        """Id of the line's system, or of the component's."""
        if self.line is not None:
            return self.line.system
        owner = self.car.components.get(self.port.component) if self.port else None
        return owner.system if owner else None

    @property
    def where(self) -> str:
        """The port in words."""
        return f"{self.port.id} ({self.port.end})" if self.port else self.id


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
    for rule in (_room, _choke, _neck, _banjo, _spot_face, _taper, _elbow, _special, _long):
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
    )


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


def _choke(place: Place, chain: Chain) -> Iterator[Finding]:
    line, hose = place.line, place.hose_bore
    bore = plain_bore(chain)
    if line is None or hose is None or bore is None or line.service in _NO_FLOW:
        return
    if any("banjo" in part.shape for part in chain.parts):
        return  # the banjo has its own finding
    is_suction = line.service == "suction"
    limit = setting(place.car, "choke-suction" if is_suction else "choke-pressure")
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
        source=limit.basis,
        grade=grade,
        measure=1 - share,
    )


_DASHES = ("-3", "-4", "-6", "-8", "-10", "-12", "-16", "-20")


def _smaller(dash: str) -> str:
    place = _DASHES.index(dash) if dash in _DASHES else 0
    return _DASHES[place - 1] if place else ""


def _neck(place: Place, chain: Chain) -> Iterator[Finding]:
    """A line much smaller than the beaded neck that it is led into."""
    line, hose = place.line, place.hose_bore
    if line is None or hose is None or chain.port.family is not Family.BEAD:
        return
    if not any("bead" in part.shape for part in chain.parts):
        return
    neck = bore_of(chain.port)
    if neck is None:
        return
    limit = setting(place.car, "choke-neck")
    share = _share(hose.value, neck[0])
    if share >= limit.value:
        return
    yield Finding(
        code="choke",
        severity=Severity.WARN,
        about=place.about,
        reason=(
            f"{place.where}: a hose of {hose.value * 1000:.1f} mm bore on a neck of about "
            f"{neck[0] * 1000:.0f} mm leaves {share:.0%} of the area."
        ),
        remedy=(
            f"Cut the neck and weld on a {place.size} cone, which saves the coupler; or run the "
            f"line in {chain.port.size} mm hose."
        ),
        value=f"{share:.0%}",
        limit=f"{limit.value:.0%}",
        source=limit.basis,
        grade=weakest([neck[1], hose.grade, limit.grade]),
        measure=1 - share,
    )


def _banjo(place: Place, chain: Chain) -> Iterator[Finding]:
    banjo = _first(chain, "banjo")
    hose = place.hose_bore
    if banjo is None or banjo.bore is None or hose is None:
        return
    limit = setting(place.car, "choke-pressure")
    share = _share(banjo.bore, hose.value)
    if share >= limit.value:
        return
    yield Finding(
        code="banjo-bore",
        severity=Severity.WARN,
        about=place.about,
        reason=(
            f"{place.where}: the banjo's least bore of {banjo.bore * 1000:.1f} mm leaves "
            f"{share:.0%} of the area of a hose of {hose.value * 1000:.1f} mm bore."
        ),
        remedy=(
            "Take a stud and an angled hose end if there is room for them, or check that the "
            "flow is small here."
        ),
        value=f"{share:.0%}",
        limit=f"{limit.value:.0%}",
        source=limit.basis,
        grade=weakest([Grade.RECALLED, hose.grade, limit.grade]),
        measure=1 - share,
    )


def _spot_face(place: Place, chain: Chain) -> Iterator[Finding]:
    banjo, port = _first(chain, "banjo"), place.port
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


def _first(chain: Chain, shape: str) -> Part | None:
    return next((part for part in chain.parts if shape in part.shape), None)


def _female_is_aluminium(place: Place, chain: Chain, index: int) -> bool:
    """Whether the female half of a joint is of aluminium."""
    joint = chain.joints[index]
    if joint.near.gender is Gender.MALE:
        return index < len(chain.parts) and "alumin" in chain.parts[index].material
    if index == 0:
        return place.port is not None and is_aluminium(place.car, place.port)
    return "alumin" in chain.parts[index - 1].material


def _taper(place: Place, chain: Chain) -> Iterator[Finding]:
    # Only the port itself: a bushing's own hole is a bought part, made for it.
    if not chain.joints or place.port is None or chain.port.family not in _TAPERS:
        return
    if not chain.joints[0].mating.ok or not _female_is_aluminium(place, chain, 0):
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
        source=limit.basis,
        grade=limit.grade,
        measure=rise,
    )


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
    if any(f.code == "taper-in-aluminium" for f in _taper(place, chain)):
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
