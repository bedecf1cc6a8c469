# SPDX-License-Identifier: Apache-2.0
"""Of what a seal is made, for the fluid it meets and how hot it gets."""

from dataclasses import dataclass

from linewright.base.evidence import Grade
from linewright.car.model import System
from linewright.ends.end import End, Family
from linewright.ends.mating import SealNeed

#: What fittings come with unless the shop says otherwise [common practice].
AS_SUPPLIED = "NBR"

_RUBBER = ("o-ring", "face o-ring")


@dataclass(frozen=True, slots=True)
class Choice:
    """Material of one seal; empty where none is asked for or none fits."""

    material: str
    grade: Grade
    note: str = ""
    is_fit: bool = True


def choose(need: SealNeed, near: End, far: End, system: System | None) -> Choice:
    """Material of one seal.

    Parameters
    ----------
    need : SealNeed
        What the joint needs.
    near : End
        The end on the port's side.
    far : End
        Its mate.
    system : System or None
        The system whose fluid the seal meets; None where it is not known.

    Returns
    -------
    Choice
        Rubber for O-rings, aluminium or bonded for washers, none for gaskets of metal.
    """
    if need.what in _RUBBER:
        return rubber(system)
    if need.what == "washer":
        elastomer = rubber(system)
        if Family.BSPP in (near.family, far.family) and Family.BANJO not in (
            near.family,
            far.family,
        ):
            material = f"bonded, {elastomer.material}" if elastomer.material else "bonded"
            return Choice(material, elastomer.grade, is_fit=elastomer.is_fit)
        instead = f"or bonded with {elastomer.material}" if elastomer.material else ""
        return Choice("aluminium", Grade.PRACTICE, instead)
    return Choice("", Grade.PRACTICE)


def rubber(system: System | None) -> Choice:
    return Choice("FKM", Grade.PRACTICE)
