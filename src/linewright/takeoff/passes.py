# SPDX-License-Identifier: Apache-2.0
"""Passes through panels: a nut and two panel washers for each."""

from collections.abc import Iterable, Iterator

from linewright.car.model import Car, Line
from linewright.catalogue.sundries import hardware_for, sundries
from linewright.ends.end import Family
from linewright.joints.model import Joints
from linewright.routes.model import Routes
from linewright.tables.nuts import bulkhead_flats
from linewright.takeoff import girth
from linewright.takeoff.merge import Spares, Want, of_part
from linewright.takeoff.wanted import Spot

#: A panel washer lies on each face of the panel.
_WASHERS = 2


def wants(car: Car, joints: Joints, routes: Routes, found: Iterable[Spot]) -> Iterator[Want]:
    """Hardware that clamps each bulkhead fitting in its panel.

    Parameters
    ----------
    car : Car
        The car document as read.
    joints : Joints
        What the joints stage offered; grommets stand in it without a chain.
    routes : Routes
        The courses: a hose that goes through a hole that is there takes a grommet as well.
    found : Iterable of Spot
        The chains.

    Yields
    ------
    Want
        A nut, then two washers, for each bulkhead fitting; a grommet for each hose that goes
        through in one piece.
    """
    for spot in found:
        for joint, part in spot.parts:
            if not part.shape.startswith("bulkhead"):
                continue
            dash = next((e.size for e in part.ends if e.family is Family.FLARE_37), "")
            system = spot.system.id if spot.system else None
            flats = bulkhead_flats(dash)
            yield of_part(
                hardware_for("nut", dash),
                f"bulkhead nut {dash}",
                "hardware",
                system,
                joint,
                is_certain=spot.is_certain,
                note=f"{flats.value * 1000:.2f} mm across flats" if flats else "",
            )
            yield of_part(
                hardware_for("panel washer", dash),
                f"panel washer {dash}",
                "hardware",
                system,
                joint,
                count=_WASHERS,
                spares=Spares.SEAL,
                is_certain=spot.is_certain,
                note="one on each face of the panel",
            )
    for fit in joints.fits:
        line = car.lines.get(fit.line or "")
        if fit.how == "grommet" and line is not None:
            yield _grommet(car, line, fit.panel or "")
    yield from _through(car, joints, routes)


def _through(car: Car, joints: Joints, routes: Routes) -> Iterator[Want]:
    """A grommet for each hole that a course takes and that no fitting is in."""
    fitted = {(fit.line, fit.panel) for fit in joints.fits}
    lines = {run.id: car.lines[run.line] for run in routes.runs}
    for course in routes.courses:
        line = lines[course.id]
        for panel in dict.fromkeys(panel for panel, _ in course.holes):
            if (line.id, panel) not in fitted:
                yield _grommet(car, line, panel)


def _grommet(car: Car, line: Line, panel: str) -> Want:
    """The smallest grommet that the hose goes through."""
    over = girth.outside(car, line)
    sized = {int(p.code.rpartition("-")[2]): p for p in sundries() if p.shape == "grommet"}
    part = next((sized[mm] for mm in sorted(sized) if mm / 1000 >= over.value - 1e-9), None)
    size = f"{over.value * 1000:.1f} mm"
    return of_part(
        part,
        f"panel grommet for {size} hose outside",
        "hardware",
        line.system,
        f"{line.id}.{panel}",
        grade=over.grade,
        note=girth.for_outside(over),
    )
