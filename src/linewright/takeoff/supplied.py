# SPDX-License-Identifier: Apache-2.0
"""Rings that lie in the bag with the fittings, and seals that nothing fits."""

from collections.abc import Iterable

from linewright.base.codes import RULES
from linewright.base.evidence import Grade, weakest
from linewright.base.finding import Finding
from linewright.base.ids import natural_key
from linewright.car.model import Medium, System
from linewright.tables import materials
from linewright.takeoff.materials import AS_SUPPLIED, Choice, choose
from linewright.takeoff.wanted import Spot

_RINGS = ("o-ring", "face o-ring")


def findings(found: Iterable[Spot]) -> tuple[Finding, ...]:
    """What the material of the seals has to say: one finding for each system.

    Parameters
    ----------
    found : Iterable of Spot
        The chains with their joints.

    Returns
    -------
    tuple of Finding
        ``seal-as-supplied`` where the usual rings will not do and others are ordered;
        ``fluid-unfit`` where no ring in the data is fit for the fluid.
    """
    rings: dict[str, list[tuple[str, str, Choice]]] = {}
    systems: dict[str, System] = {}
    for spot in found:
        for joint, mated, need in spot.needs:
            if need.what not in _RINGS or spot.system is None:
                continue
            systems[spot.system.id] = spot.system
            choice = choose(need, mated.near, mated.far, spot.system)
            rings.setdefault(spot.system.id, []).append((joint, need.size, choice))
    out: list[Finding] = []
    for name in sorted(rings, key=natural_key):
        system, placed = systems[name], rings[name]
        if not all(choice.is_fit for _, _, choice in placed):
            out.append(_unfit(system, placed))
        elif _is_worth_saying(system) and any(
            not choice.is_supplied_fit for _, _, choice in placed
        ):
            out.append(_as_supplied(system, placed))
    return tuple(out)


def _is_worth_saying(system: System) -> bool:
    """Fuel always; oil only where the builder says how hot it gets.

    The right rings are ordered in both cases. Without a temperature nothing shows that the
    rings in the bag would not do.
    """
    is_hot = system.medium is Medium.OIL and system.temperature is not None
    return is_hot or system.medium is Medium.FUEL


def _as_supplied(system: System, placed: list[tuple[str, str, Choice]]) -> Finding:
    fit = sorted({c.material for _, _, c in placed if c.material != AS_SUPPLIED})
    sizes = sorted({size for _, size, _ in placed}, key=natural_key)
    ordered = ", ".join(f"{size} {material}" for size in sizes for material in fit)
    return Finding(
        code="seal-as-supplied",
        severity=RULES["seal-as-supplied"],
        # About the system, not its joints: one more joint does not undo a decision on it.
        about=(system.id,),
        reason=(
            f"Fittings for {system.id} mostly come with {AS_SUPPLIED} rings, which are not "
            f"meant for {_conditions(system)}{_blend(system)}."
        ),
        remedy=f"Put the rings of this order in instead ({ordered}); throw the others away.",
        value=AS_SUPPLIED,
        limit=" or ".join(fit),
        source="seal materials table",
        grade=weakest([Grade.PRACTICE, *(c.grade for _, _, c in placed)]),
        system=system.id,
    )


def _unfit(system: System, placed: list[tuple[str, str, Choice]]) -> Finding:
    where = [joint for joint, _, choice in placed if not choice.is_fit]
    return Finding(
        code="fluid-unfit",
        severity=RULES["fluid-unfit"],
        about=tuple(sorted(where, key=natural_key)),
        reason=f"No seal material in the data is fit for {_conditions(system)} in {system.id}.",
        remedy="Ask the maker of the fluid for a seal material, or use joints that seal on metal.",
        value=_conditions(system),
        source="seal materials table",
        grade=weakest(choice.grade for _, _, choice in placed),
        system=system.id,
    )


def _blend(system: System) -> str:
    """What the rows on petrol were measured in: pump petrol may hold ethanol."""
    if materials.fluid_class(system.medium.value, system.fluid) != "petrol":
        return ""
    return ", rated as petrol with 10 % ethanol, which pump petrol may hold"


def _conditions(system: System) -> str:
    hot = f" at {system.temperature.value - 273.15:.0f} °C" if system.temperature else ""
    return f"{system.fluid}{hot}"
