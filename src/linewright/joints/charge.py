# SPDX-License-Identifier: Apache-2.0
"""Charge pipes: couplers on beads, V-band flanges to be welded."""

from linewright.car.model import Car, Line, Port
from linewright.catalogue.stock import Catalogue
from linewright.ends.end import End, Family, Gender
from linewright.ends.mates import mates
from linewright.joints import missing, reasons, steps
from linewright.joints.chain import Options, join
from linewright.joints.clamped import is_apart, whole_line
from linewright.joints.model import Chain, Joints, Mated, Termination
from linewright.joints.offered import NOTHING, merged
from linewright.joints.place import Place
from linewright.joints.rank import is_special


def pipes(car: Car, catalogue: Catalogue, line: Line, ports: tuple[Port, Port]) -> Joints:
    """Offer both ends of a charge pipe.

    Parameters
    ----------
    car : Car
        The car document as read.
    catalogue : Catalogue
        Parts to build with.
    line : Line
        A pipe; its size is the outside diameter in mm.
    ports : tuple of Port
        Its two ports, A first.

    Returns
    -------
    Joints
        Two terminations: a coupler on each bead (with a hump at the end that moves), or
        a V-band flange to be welded on the pipe. Where one coupler reaches from port to
        port it is the whole line.
    """
    if not is_apart(car, line, ports) and (whole := whole_line(catalogue, line, ports)):
        return whole
    found = [NOTHING]
    for side, port, said in zip("AB", ports, line.ends, strict=True):
        place = Place(car, f"{line.id}.{side}", port, line, None, line.size)
        far = _far(line, port)
        options = Options(
            via=said.via,
            fit=said.fit,
            has_reducers=True,
            takes_movement=line.crosses and _moves(car, port),
        )
        if port.end.is_unknown:
            blank = Termination(line.id, line.id, side, port.id, None, (), 0)
            found.append(Joints((blank,), ()))
            continue
        chains = join(port.end, far, catalogue, options=options)
        if not chains:
            blank = Termination(line.id, line.id, side, port.id, None, (), 0)
            finding = missing.no_chain(place, port.end, far, catalogue, options)
            found.append(Joints((blank,), (), (finding,)))
            continue
        if said.angle and (elbow := _elbow(catalogue, port, far, said.angle)):
            chains = (elbow, *chains)
        best, *others = (reasons.coded(place, one) for one in chains)
        found.append(
            Joints(
                (
                    Termination(
                        line.id,
                        line.id,
                        side,
                        port.id,
                        best,
                        tuple(others),
                        best.parts[0].angle if best.parts else 0,
                    ),
                ),
                (),
                reasons.findings(place, best),
                steps.steps(place, best),
            )
        )
    return merged(found)


def _elbow(catalogue: Catalogue, port: Port, far: End, angle: int) -> Chain | None:
    """An elbow of silicone between a spigot and a pipe, where the builder typed its angle."""
    found = [
        (part.price_index, part.code, part, index)
        for part, index in catalogue.facing(port.end)
        if part.shape in ("silicone", "coupler")
        and part.angle == angle
        and len(part.ends) == 2
        and mates(far, part.ends[1 - index]).ok
        and not is_special(part)
    ]
    if not found:
        return None
    *_, part, index = min(found, key=lambda each: each[:2])
    near, out = part.ends[index], part.ends[1 - index]
    return Chain(
        port=port.end,
        parts=(part,),
        joints=(
            Mated(port.end, near, mates(port.end, near)),
            Mated(out, far, mates(out, far)),
        ),
        bore=part.bore,
        price_index=part.price_index,
        stick_out=part.legs[0],
        rank=(0.0, 0.0, 0.0, 2.0, 0.0, part.price_index, 0.0),
        reason="the elbow of silicone that was typed",
    )


def _moves(car: Car, port: Port) -> bool:
    return car.components[port.component].rides != "chassis"


def _far(line: Line, port: Port) -> End:
    """The pipe's own end: a bead, or bare metal where a flange is welded on it."""
    if port.end.family in (Family.VBAND, Family.FLANGE):
        return End(Family.WELD, "", Gender.FEMALE, kind="aluminium")
    return End(Family.BEAD, line.size, Gender.MALE)
