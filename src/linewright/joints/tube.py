# SPDX-License-Identifier: Apache-2.0
"""Hard tube: a flare, its nut and sleeve at each end, and what stands between it and the port."""

from linewright.car.model import Car, Line, Port
from linewright.catalogue.stock import Catalogue
from linewright.ends.end import End, Family
from linewright.joints import missing, reasons, steps
from linewright.joints.chain import Options, join
from linewright.joints.clamped import grommets
from linewright.joints.model import Joints, Termination
from linewright.joints.offered import NOTHING, is_aluminium, merged
from linewright.joints.place import Place


def tubes(car: Car, catalogue: Catalogue, line: Line, ports: tuple[Port, Port]) -> Joints:
    """Offer both ends of a line of hard tube.

    Parameters
    ----------
    car : Car
        The car document as read.
    catalogue : Catalogue
        Parts to build with.
    line : Line
        A line of hard tube; its size is the dash of its outside diameter.
    ports : tuple of Port
        Its two ports, A first.

    Returns
    -------
    Joints
        Two terminations; each chain ends in the tube nut.
    """
    far = End(Family.TUBE, line.size)
    found = [NOTHING]
    for side, port, said in zip("AB", ports, line.ends, strict=True):
        place = Place(car, f"{line.id}.{side}", port, line, None, line.size)
        options = Options(
            is_aluminium=is_aluminium(car, port),
            via=said.via,
            fit=said.fit,
            room=port.room,
            is_tube=True,
        )
        if port.end.is_unknown:
            offered = tuple(
                chain
                for end in port.readings
                for chain in join(end, far, catalogue, options=options)[:1]
            )
            blank = Termination(line.id, line.id, side, port.id, None, offered, 0)
            found.append(Joints((blank,), ()))
            continue
        chains = join(port.end, far, catalogue, options=options)
        if not chains:
            blank = Termination(line.id, line.id, side, port.id, None, (), 0)
            finding = missing.no_chain(place, port.end, far, catalogue, options)
            found.append(Joints((blank,), (), (finding,)))
            continue
        best, *others = (reasons.coded(place, one) for one in chains)
        done = Termination(line.id, line.id, side, port.id, best, tuple(others), 0)
        found.append(
            Joints(
                (done,),
                (),
                reasons.findings(place, best),
                steps.steps(place, best),
            )
        )
    return merged((*found, grommets(line)))
