# SPDX-License-Identifier: Apache-2.0
"""Of what a seal is made, for the fluid it meets and how hot it gets."""

from dataclasses import dataclass

from linewright.base.evidence import Grade
from linewright.car.model import System
from linewright.ends.end import End, Family
from linewright.ends.mating import SealNeed
from linewright.tables import materials

#: What fittings come with unless the shop says otherwise [common practice].
AS_SUPPLIED = "NBR"

_RUBBER = ("o-ring", "face o-ring")


@dataclass(frozen=True, slots=True)
class Choice:
    """Material of one seal; empty where none is asked for, known or fit."""

    material: str
    grade: Grade
    note: str = ""
    is_fit: bool = True
    is_supplied_fit: bool = True  # the ring that comes with the fitting would do as well


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
    """Rubber of an O-ring in one system.

    Parameters
    ----------
    system : System or None
        The system; None where nobody knows which fluid the joint meets.

    Returns
    -------
    Choice
        The material by the fluid and its hottest; ``is_fit`` is False where none will do.
    """
    if system is None:
        return Choice("", Grade.PRACTICE, "material by the fluid: its system is not known")
    medium, fluid = system.medium.value, system.fluid
    hot = system.temperature.value if system.temperature else None
    found = materials.ring_for(medium, fluid, hot)
    supplied = _supplied_fits(medium, fluid, hot)
    if found is None:
        note = "no ring material in the data is fit"
        return Choice("", Grade.PRACTICE, note, is_fit=False, is_supplied_fit=supplied)
    if found.rating.is_fit:
        note = "" if supplied else "in place of the rings that come with the fittings"
        return Choice(found.material, found.grade, note, is_supplied_fit=supplied)
    note = f"{found.rating.value} in {fluid}: {found.note}".rstrip(": ")
    return Choice(found.material, found.grade, note, is_supplied_fit=supplied)


def _supplied_fits(medium: str, fluid: str, hot: float | None) -> bool:
    usual = materials.ring(AS_SUPPLIED, medium, fluid)
    if usual is None or not usual.rating.is_fit:
        return False
    return usual.stands(materials.hottest_usual(medium) if hot is None else hot)
