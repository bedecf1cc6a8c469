# SPDX-License-Identifier: Apache-2.0
"""Of what a seal is made, for the fluid it meets and how hot it gets."""

from dataclasses import dataclass

from linewright.base.evidence import Grade
from linewright.car.model import System
from linewright.ends.end import End, Family
from linewright.ends.mating import SealNeed
from linewright.tables.materials import ring_for

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
    """Rubber of an O-ring, or of the ring bonded into a washer.

    Parameters
    ----------
    system : System or None
        The system whose fluid the seal meets; None where it is not known.

    Returns
    -------
    Choice
        Without a system no material is chosen. ``is_fit`` is False where nothing in the data
        stands the fluid at its heat.
    """
    if system is None:
        return Choice("", Grade.PRACTICE, "material by the fluid it meets: not known here")
    hot = system.temperature.value if system.temperature else None
    found = ring_for(system.medium.value, system.fluid, hot)
    if found is None:
        return Choice("", Grade.RELAYED, is_fit=False)
    note = "" if found.rating.is_fit else f"{found.rating} in {system.fluid}: {found.note}"
    return Choice(found.material, found.grade, note)
