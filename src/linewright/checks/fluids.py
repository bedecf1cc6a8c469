# SPDX-License-Identifier: Apache-2.0
"""Hose against the fluid in it: what swells, dissolves or sparks."""

from collections.abc import Iterator

from linewright.base.errors import LinewrightError
from linewright.base.finding import Finding, Severity
from linewright.base.ids import natural_key
from linewright.car.model import Car, Construction, Line, Medium, System
from linewright.car.table import nearest, said
from linewright.checks.raising import raised
from linewright.tables import hoses, materials
from linewright.tables.hoses import HoseFamily
from linewright.tables.materials import Rating

#: Lines in which fuel does not run: nothing charges the liner.
_STILL = ("vent", "reference")


def check(car: Car) -> Iterator[Finding]:
    """Look at what each line's hose is made of.

    Parameters
    ----------
    car : Car
        The car document as read.

    Yields
    ------
    Finding
        ``fluid-unfit`` once for each hose of a system (a stop; a warning where its life is
        short; an ask where the data has no word on it), ``carbon-liner`` for each line,
        ``fluid-unknown`` for each system.
    """
    yield from _unknown(car)
    hoses_of: dict[tuple[str, str], list[str]] = {}
    for line in car.lines.values():
        family = _family(line)
        if family is None:
            continue
        yield from _sparks(line, family)
        if line.system in car.systems and line.service != "reference":
            hoses_of.setdefault((line.system or "", family.key), []).append(line.id)
    for (system, key), lines in hoses_of.items():
        ids = tuple(sorted(lines, key=natural_key))
        yield from _liner(car.systems[system], hoses.FAMILIES[key], ids)


def _unknown(car: Car) -> Iterator[Finding]:
    """Fluids whose name says nothing: what is fit is then told by the medium alone."""
    for system in sorted(car.systems.values(), key=lambda s: natural_key(s.id)):
        medium = system.medium.value
        if materials.is_known(medium, system.fluid):
            continue
        names = materials.known_as(medium)
        taken = materials.fluid_class(medium, system.fluid)
        yield raised(
            "fluid-unknown",
            (system.id,),
            f"{said(system.fluid)} of {system.id} is no fluid that the data knows; hose and seals "
            f"are chosen as for {taken}.",
            f"Known as {medium}: {', '.join(names)}; write one of them."
            f"{nearest(system.fluid, names)} For any other fluid ask the makers of hose and seals.",
            system=system.id,
            value=system.fluid,
        )


def _liner(system: System, family: HoseFamily, lines: tuple[str, ...]) -> Iterator[Finding]:
    """What the fluid does to the liner."""
    found = materials.liner(family.liner, system.medium.value, system.fluid)
    what = f"{family.name} (liner {family.liner}) in {', '.join(lines)}"
    if found is None:
        yield raised(
            "fluid-unfit",
            lines,
            f"Whether {what} stands {system.fluid} is not in the data.",
            "Ask its maker, or look for the fluid on the print of the hose.",
            severity=Severity.ASK,
            system=system.id,
        )
        return
    if found.rating.is_fit:
        return
    # Oil mist in air is little of it: worth a word, no more.
    weight = {Rating.UNFIT: Severity.STOP, Rating.LIMITED: Severity.WARN}[found.rating]
    if system.medium is Medium.AIR and weight is Severity.WARN:
        weight = Severity.NOTE
    note = f": {found.note}" if found.note else ""
    better = _better(system, family)
    yield raised(
        "fluid-unfit",
        lines,
        f"{what} is {found.rating.value} for {system.fluid}{note}.",
        f"Take hose that is fit for it: {better}; or enter its date of replacement and "
        "overrule this with the reason."
        if weight is not Severity.STOP
        else f"Take hose that is fit for it: {better}.",
        severity=weight,
        system=system.id,
        value=found.rating.value,
        limit="good or usable",
        source=found.source,
        grade=found.grade,
    )


def _better(system: System, instead_of: HoseFamily) -> str:
    """Hose families whose liner stands the fluid, of the same construction where there are any."""
    fit = [
        family
        for family in hoses.FAMILIES.values()
        if family.construction in ("hose", "clamped")
        and family.ends not in ("tube", "pipe")
        and (found := materials.liner(family.liner, system.medium.value, system.fluid))
        and found.rating.is_fit
        and (system.medium is not Medium.FUEL or family.ends != "PTFE" or family.conductive)
    ]
    alike = [family for family in fit if family.construction == instead_of.construction]
    return ", ".join(family.name for family in alike or fit) or "none is in the data"


def _family(line: Line) -> HoseFamily | None:
    if line.construction in (Construction.TUBE, Construction.PIPE):
        return None
    try:
        return hoses.family(line.hose)
    except LinewrightError:
        return None


def _sparks(line: Line, family: HoseFamily) -> Iterator[Finding]:
    """Fuel running over PTFE that does not conduct (PRACTICE: trade pages, relayed)."""
    if line.medium is not Medium.FUEL or family.ends != "PTFE" or family.conductive:
        return
    if line.service in _STILL:
        return
    is_silent = family.conductive is None
    yield raised(
        "carbon-liner",
        (line.id,),
        f"{line.id}: fuel in {family.name}, whose liner "
        + ("is not said to conduct" if is_silent else "does not conduct")
        + ": the running fuel charges it, and sparks pin-hole it.",
        'Take PTFE hose with a conductive liner ("PTFE full-bore conductive"), its ends earthed.',
        system=line.system,
        source="common-practice-no-source",
    )
