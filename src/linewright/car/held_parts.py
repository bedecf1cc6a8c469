# SPDX-License-Identifier: Apache-2.0
"""Parts that the builder holds in his hand: ``[parts.X]``."""

from linewright.base import units
from linewright.base.errors import AmbiguousEndError
from linewright.base.evidence import Grade
from linewright.car.quantities import ANGLES
from linewright.car.sections import word_id
from linewright.car.table import Table, listed, said
from linewright.catalogue.part import Part
from linewright.ends import notation
from linewright.ends.end import End


def part_end(text: str) -> End:
    """Read an end of a part: what can be read in several ways is refused here.

    Parameters
    ----------
    text : str
        As the trade writes it, with its gender.

    Returns
    -------
    End
        The end.
    """
    return notation.read(text, on_component=False).end


def parts(root: Table) -> tuple[Part, ...]:
    """Read ``[parts.X]``: what the builder holds in his hand.

    Parameters
    ----------
    root : Table
        The document.

    Returns
    -------
    tuple of Part
        Each marked as held.
    """
    table = root.table("parts", "list of parts")
    found: list[Part] = []
    for name, value in table.items() if table else ():
        path = ("parts", name)
        part = Table(value, path, root.log, "part")
        if not word_id(root.log, path, "part") or not isinstance(value, dict):
            continue
        ends: list[End] = []
        for text in part.texts("ends"):
            try:
                ends.append(part_end(text))
            except AmbiguousEndError as error:
                part.fault("ends", f"{error} A part in the hand can be measured.")
            except ValueError as error:
                part.fault("ends", str(error))
        if not part.has("ends"):
            part.fault("", 'its ends are missing; write ends = ["1/2 NPT male", "-10 flare male"].')
        angle = part.text("angle", "0") if isinstance(part.raw("angle"), str) else part.raw("angle")
        degrees = {str(a): a for a in ANGLES}.get(str(angle or 0).rstrip("° "))
        if degrees is None or isinstance(angle, bool):
            part.fault(
                "angle",
                f"{said(angle)} is no angle of a part; allowed: {listed(map(str, ANGLES))}.",
            )
        bore = part.figure("bore", units.length, "m", above=0)
        weight = part.figure("mass", units.mass, "kg", above=0)
        shape = part.text("shape", "adaptor")
        found.append(
            Part(
                code=name,
                name=part.text("name") or part.text("note") or f"{shape} {name}",
                shape=shape,
                ends=tuple(ends),
                angle=degrees or 0,
                bore=bore.value if bore else None,
                mass=weight.value if weight else None,
                material=part.text("material", "aluminium"),
                price_index=0.0,
                grades=(("bore", Grade.STATED),) if bore else (),
                held=True,
            )
        )
        part.done()
    return tuple(found)
