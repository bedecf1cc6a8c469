# SPDX-License-Identifier: Apache-2.0
"""One end of one piece of hose: the chain from its port to the hose."""

from linewright.base.evidence import Figure
from linewright.base.finding import Finding, Severity
from linewright.car.model import Car, Line, LineEnd, Port
from linewright.catalogue.stock import Catalogue
from linewright.ends.end import End, Family, Gender
from linewright.joints import missing, reasons, steps
from linewright.joints.chain import Options, join
from linewright.joints.model import Joints, Termination
from linewright.joints.offered import angle_word, is_aluminium, merged
from linewright.joints.place import Place
from linewright.tables import hoses


def hose_of(line: Line) -> End:
    """The end that a line's hose is, before a hose end is put in it.

    Parameters
    ----------
    line : Line
        A line of hose, screwed or clamped.

    Returns
    -------
    End
        E.g. ``hose -10 rubber f`` or ``hose 38 clamped f``.
    """
    return End(Family.HOSE, line.size, Gender.FEMALE, kind=hoses.family(line.hose).ends)


def bore_of_hose(line: Line) -> Figure | None:
    """Bore of a line's hose; the widest, where a family is sold in several bores.

    Parameters
    ----------
    line : Line
        A line of hose.

    Returns
    -------
    Figure or None
        Its bore [m], None where the family has no row for that size. The widest is the
        careful choice: it is the one that a port chokes most.
    """
    try:
        found = hoses.size(hoses.family(line.hose).key, line.size)
    except LookupError:
        return None
    return max(found.bores, key=lambda bore: bore.value, default=found.bore)


def terminate(
    car: Car,
    catalogue: Catalogue,
    line: Line,
    side: str,
    *,
    hose: str,
    near: End,
    port: Port | None,
    port_id: str,
    said: LineEnd,
) -> Joints:
    """Offer one end of one piece of hose.

    Parameters
    ----------
    car : Car
        The car document as read.
    catalogue : Catalogue
        Parts to build with.
    line : Line
        The line that the piece belongs to.
    side : str
        ``A`` or ``B``.
    hose : str
        Id of the piece.
    near : End
        What it is to be put on: the port's end, or a bulkhead's.
    port : Port or None
        The port; None at a bulkhead that only a panel pass brings.
    port_id : str
        Id of the port, or of the pass.
    said : LineEnd
        What the builder says of this end.

    Returns
    -------
    Joints
        One termination with its findings and steps.
    """
    family = hoses.family(line.hose)
    far = hose_of(line)
    bore = bore_of_hose(line)
    spot = f"{hose}.{side}"
    angles = sold_angles(catalogue, far)
    options = Options(
        angle=said.angle,
        is_full_swivel=said.swivel == "full",
        hose_bore=bore.value if bore else None,
        room=port.room if port else None,
        is_aluminium=port is not None and is_aluminium(car, port),
        via=said.via,
        fit=said.fit,
        is_tube=near.family is Family.TUBE,
    )
    place = Place(car, spot, port, line, bore, line.size)
    found = list(_mixed(place, family, said))
    if near.is_unknown:
        readings = port.readings if port else ()
        best = [join(end, far, catalogue, options=options)[:1] for end in readings]
        offered = tuple(chain for chains in best for chain in chains)
        blank = Termination(
            hose,
            line.id,
            side,
            port_id,
            None,
            offered,
            said.angle,
            angles if said.angle is None else (),
        )
        return Joints((blank,), (), tuple(found))
    chains = join(near, far, catalogue, options=options)
    if not chains:
        found.append(missing.no_chain(place, near, far, catalogue, options))
        blank = Termination(hose, line.id, side, port_id, None, (), said.angle)
        return Joints((blank,), (), tuple(found))
    best_chain, *others = (reasons.coded(place, found_chain) for found_chain in chains)
    is_open = said.angle is None and not _has_banjo(best_chain.parts)
    done = Termination(
        hose=hose,
        line=line.id,
        side=side,
        port=port_id,
        chain=best_chain,
        alternatives=tuple(others),
        angle=said.angle if said.angle is not None else (None if is_open else 90),
        angles=angles if is_open else (),
        is_bulkhead=port is None,
    )
    if is_open:
        found.append(_open_angle(place, angles))
    return merged(
        (
            Joints((done,), (), tuple(found)),
            Joints((), (), reasons.findings(place, best_chain), steps.steps(place, best_chain)),
        )
    )


def sold_angles(catalogue: Catalogue, far: End) -> tuple[int, ...]:
    """Angles in which hose ends for one hose are sold.

    Parameters
    ----------
    catalogue : Catalogue
        The parts.
    far : End
        The hose.

    Returns
    -------
    tuple of int
        From 0 upwards. [deg]
    """
    ends = catalogue.hose_ends(far.kind, far.size)
    return tuple(sorted({p.angle for p in ends if "banjo" not in p.shape}))


def _has_banjo(parts: tuple[object, ...]) -> bool:
    return any("banjo hose end" in getattr(part, "shape", "") for part in parts)


def _open_angle(place: Place, angles: tuple[int, ...]) -> Finding:
    words = ", ".join(angle_word(a) for a in angles)
    return Finding(
        code="open-angle",
        severity=Severity.ASK,
        about=(place.id, *((place.line.id,) if place.line else ())),
        reason=(
            f"{place.id}: the angle of the hose end at {place.where} is open; a straight one "
            f"stands in. Sold: {words}."
        ),
        remedy=(
            "Hold the part up, look which way the hose wants to leave, and type the angle in "
            "the line's ends."
        ),
        system=place.system,
    )


def _mixed(place: Place, family: hoses.HoseFamily, said: LineEnd) -> tuple[Finding, ...]:
    """Hose ends typed of another family or dash than the hose."""
    line = place.line
    found: list[Finding] = []
    if line is None:
        return ()
    about = (place.id, line.id)
    if said.size is not None and said.size != line.size:
        found.append(
            Finding(
                code="dash-differs",
                severity=Severity.STOP,
                about=about,
                reason=(
                    f"{place.id}: a {said.size} hose end is typed for a {line.size} hose; it "
                    "does not grip."
                ),
                remedy=(
                    f"Take a {line.size} hose end and let the adaptor change size; or make the "
                    f"whole line {said.size}."
                ),
                value=said.size,
                limit=line.size,
                system=line.system,
            )
        )
    if said.hose is not None:
        typed = hoses.family(said.hose)
        if typed.ends != family.ends:
            found.append(
                Finding(
                    code="hose-family-mix",
                    severity=Severity.STOP,
                    about=about,
                    reason=(
                        f"{place.id}: a hose end for {typed.ends} hose is typed on "
                        f"{family.ends} hose; nipple and socket are made for one hose family "
                        "and blow off another."
                    ),
                    remedy=(
                        f"Buy {line.size} hose ends for {family.ends} hose; or lay the line in "
                        f"{typed.name} if its fluid allows."
                    ),
                    value=typed.ends,
                    limit=family.ends,
                    source="navy-training-manual-navedtra-14315-p",
                    system=line.system,
                )
            )
    return tuple(found)
