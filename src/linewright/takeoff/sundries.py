# SPDX-License-Identifier: Apache-2.0
"""The small things that make a second order: paste, clips, olives, straps, caps, tags."""

from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from math import ceil

from linewright.car.model import Car, Component, Line, Medium
from linewright.catalogue import sundries as shelf
from linewright.catalogue.part import Part
from linewright.ends.end import Family
from linewright.routes.model import Routes, Run
from linewright.takeoff import girth
from linewright.takeoff.merge import Spares, Want, of_part
from linewright.takeoff.wanted import Spot

#: Paste by the class of fluid, as the catalogue codes it: one tube each for a car.
_PASTE = {
    Medium.OIL: "paste-oil",
    Medium.FUEL: "paste-fuel",
    Medium.COOLANT: "paste-coolant",
    Medium.CHARGE_COOLANT: "paste-coolant",
    Medium.AIR: "paste-oil",
}

#: Kinds that are bonded to the body by a strap of their own.
_BONDED = ("fuel cell", "fuel tank")

#: Words that tell which sleeve is meant, and what its code begins with.
_SLEEVES = {"fire": "fire-sleeve", "heat": "heat-sleeve"}


def shelved(code: str) -> Part | None:
    """A sundry of the catalogue by its code.

    Parameters
    ----------
    code : str
        As in sundries.csv, with its size.

    Returns
    -------
    Part or None
        None where the catalogue has no such thing.
    """
    return _by_code().get(code)


@cache
def _by_code() -> dict[str, Part]:
    return {part.code: part for part in shelf.sundries()}


def paste(found: Iterable[Spot]) -> Iterator[Want]:
    """One tube of paste for each class of fluid, with the joints that it is for.

    Parameters
    ----------
    found : Iterable of Spot
        The chains with their joints.

    Yields
    ------
    Want
        The first joint of each fluid asks for the tube, the others share it.
    """
    joints: dict[str, list[tuple[Spot, str]]] = {}
    for spot in found:
        code = _PASTE[spot.system.medium if spot.system else Medium.OIL]
        for joint, _, need in spot.needs:
            if need.what == "paste":
                joints.setdefault(code, []).append((spot, joint))
    for code, places in joints.items():
        many = "1 joint" if len(places) == 1 else f"{len(places)} joints"
        for number, (spot, joint) in enumerate(places):
            yield of_part(
                shelved(code),
                code.replace("paste-", "thread paste, "),
                "sealant",
                spot.system.id if spot.system else None,
                joint,
                count=1 if number == 0 else 0,
                unit="tube",
                note=f"{many}; keep it off the first two threads, no tape",
                is_certain=spot.is_certain,
            )


def olives(found: Iterable[Spot]) -> Iterator[Want]:
    """Spare olives for PTFE hose ends; the first one comes in the end.

    Parameters
    ----------
    found : Iterable of Spot
        The chains.

    Yields
    ------
    Want
        None needed, half as many spare as there are ends.
    """
    for spot in found:
        for joint, part in spot.parts:
            dash = _olive(part)
            if dash is not None:
                yield of_part(
                    shelf.hardware_for("olive", dash),
                    f"spare olive {dash}, for PTFE hose ends",
                    "seals",
                    spot.system.id if spot.system else None,
                    joint,
                    count=0,
                    spares=Spares.SEAL,
                    spare_base=1,
                    is_certain=spot.is_certain,
                    note="one comes in each end; a new one each time an end is remade",
                )


def _olive(part: Part) -> str | None:
    return next((need.size for need in part.comes_with if need.what == "olive"), None)


def clips(car: Car, routes: Routes) -> Iterator[Want]:
    """Lined clips by the outside of what they hold, each with its screw and nut.

    Parameters
    ----------
    car : Car
        The car document as read.
    routes : Routes
        All runs with their clip counts.

    Yields
    ------
    Want
        Clips, then as many screws and nuts.
    """
    for run in routes.runs:
        if not run.clips:
            continue
        over = girth.outside(car, car.lines[run.line])
        size = f"{over.value * 1000:.1f} mm"
        yield of_part(
            shelf.clip_for(over.value),
            f"P-clip, lined, for {size}",
            "clips",
            run.system,
            run.id,
            count=run.clips,
            grade=over.grade,
            note=f"{girth.for_outside(over)}, one per started {run.clip_spacing * 1000:.0f} mm",
        )
        yield of_part(
            shelved("clip-screw-and-nut"),
            "clip screw and nut",
            "clips",
            run.system,
            run.id,
            count=run.clips,
        )


def straps(car: Car) -> Iterator[Want]:
    """A bonding strap for each fuel cell.

    Parameters
    ----------
    car : Car
        The car document as read.

    Yields
    ------
    Want
        One strap for cell and filler, to the body.
    """
    for component in car.components.values():
        if component.kind in _BONDED:
            yield of_part(
                shelved("bonding-strap"),
                "bonding strap, cell and filler to body",
                "hardware",
                _fuel_system(car, component),
                component.id,
            )


def _fuel_system(car: Car, component: Component) -> str | None:
    if component.system:
        return component.system
    return next((s.id for s in car.systems.values() if s.medium is Medium.FUEL), None)


def tags_and_caps(car: Car, routes: Routes, found: Sequence[Spot]) -> Iterator[Want]:
    """Two tags for each piece, a dust cap for each hose end, test caps by dash, sleeves.

    Parameters
    ----------
    car : Car
        The car document as read.
    routes : Routes
        All runs.
    found : Sequence of Spot
        The chains.

    Yields
    ------
    Want
        Things of the bench, and what is drawn over a hose.
    """
    for run in routes.runs:
        yield of_part(
            shelved("hose-tag"),
            "hose tag",
            "sundries",
            run.system,
            run.id,
            count=2,
            note="one at each end, with the id of the piece",
        )
        line = car.lines[run.line]
        if line.sleeve and run.buy is not None:
            yield _sleeve(car, line, run, run.buy.value)
    seen: set[str] = set()
    for spot in found:
        part = spot.chain.hose_end
        if part is None or part.ends[0].family is not Family.FLARE_37:
            continue
        dash = part.ends[0].size
        system = spot.system.id if spot.system else None
        yield of_part(shelved(f"dust-cap{dash}"), f"dust cap {dash}", "sundries", system, spot.id)
        if dash not in seen:
            seen.add(dash)
            yield of_part(
                shelved(f"test-cap-set{dash}"),
                f"set of test caps {dash}",
                "sundries",
                system,
                spot.id,
                note="one set of each size tests every hose, one after the other",
            )


def _sleeve(car: Car, line: Line, run: Run, metres: float) -> Want:
    """Sleeve by the metre: the smallest whose bore goes over the hose."""
    over = girth.outside(car, line)
    prefix = next((c for word, c in _SLEEVES.items() if word in line.sleeve), "chafe-sleeve")
    bores = (
        (int(part.code.rpartition("-")[2]), part)
        for part in shelf.sundries()
        if part.code.startswith(prefix)
    )
    fitting = sorted(
        ((bore, part) for bore, part in bores if bore / 1000 >= over.value),
        key=lambda item: item[0],
    )
    return of_part(
        fitting[0][1] if fitting else None,
        f"sleeve, {line.sleeve}, over {over.value * 1000:.1f} mm",
        "sundries",
        run.system,
        run.id,
        count=ceil(metres),
        unit="m",
        grade=over.grade,
        note=f"{line.sleeve}, over {over.value * 1000:.1f} mm",
    )
