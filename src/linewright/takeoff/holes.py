# SPDX-License-Identifier: Apache-2.0
"""The hole and bung list: what has to be drilled or welded, and before what."""

from collections.abc import Iterable, Mapping

from linewright.base.evidence import Figure, weakest
from linewright.base.ids import natural_key
from linewright.base.vectors import Vector
from linewright.car.model import Car
from linewright.catalogue.part import Part
from linewright.ends.end import Family
from linewright.joints.model import Fit, Joints
from linewright.joints.offered import setting
from linewright.proofs.found import at
from linewright.routes.model import Routes
from linewright.tables import threads
from linewright.takeoff.model import Hole
from linewright.takeoff.wanted import Spot


def holes(car: Car, joints: Joints, routes: Routes, found: Iterable[Spot]) -> tuple[Hole, ...]:
    """Every hole in a panel and every bung in a tank, pan or pipe.

    Parameters
    ----------
    car : Car
        The car document as read.
    joints : Joints
        What the joints stage offered; grommets stand in it without a chain.
    routes : Routes
        The courses, which say where a hole comes.
    found : Iterable of Spot
        The chains.

    Returns
    -------
    tuple of Hole
        In the order of their ids.
    """
    rows = []
    spots = _spots(routes)
    for spot in found:
        for joint, part in spot.parts:
            if part.shape.startswith("bulkhead"):
                rows.append(_pass(car, spot, joint, part, spots))
        for number, mated in enumerate(spot.chain.joints, 1):
            if Family.WELD in (mated.near.family, mated.far.family):
                rows.append(_bung(car, spot, number))
    rows.extend(_grommet(fit, car, spots) for fit in joints.fits if fit.how == "grommet")
    return tuple(sorted(rows, key=lambda row: natural_key(row.id)))


def thread_hole(car: Car, dash: str) -> Figure:
    """Hole in a panel for a bulkhead fitting of one dash.

    Parameters
    ----------
    car : Car
        Its settings may replace the default clearance.
    dash : str
        The fitting's dash, e.g. ``-6``.

    Returns
    -------
    Figure
        The thread's outside diameter and the clearance [m].
    """
    thread = threads.thread(Family.FLARE_37.value, dash)
    clearance = setting(car, "bulkhead-hole-clearance")
    # A drill comes in tenths; a half tenth goes down, the washer covers either.
    tenths = round((thread.major + clearance.value) * 1e4 - 1e-6)
    return Figure(
        tenths / 1e4,
        "m",
        weakest([thread.grade, clearance.grade]),
        f"thread {thread.major * 1000:.2f} mm and {clearance.value * 1000:g} mm",
    )


def _spots(routes: Routes) -> dict[tuple[str, str], Vector]:
    """Where the courses go through panels, by line and panel."""
    lines = {run.id: run.line for run in routes.runs}
    return {
        (lines[course.id], panel): spot for course in routes.courses for panel, spot in course.holes
    }


def _pass(
    car: Car, spot: Spot, joint: str, part: Part, spots: Mapping[tuple[str, str], Vector]
) -> Hole:
    dash = next((e.size for e in part.ends if e.family is Family.FLARE_37), None)
    panel = spot.fit.panel if spot.fit else None
    return Hole(
        id=spot.id,
        what=f"hole for {part.name}",
        where=_where(car, panel, spots.get((spot.line.id if spot.line else "", panel or ""))),
        diameter=thread_hole(car, dash) if dash else None,
        gate="before paint",
        because=tuple(dict.fromkeys((joint, *spot.ports))),
        note="deburr both sides; a panel washer on each face; leave room for a spanner on the nut",
    )


def _where(car: Car, panel_id: str | None, spot: Vector | None) -> str:
    panel = car.panels.get(panel_id or "")
    if panel is None:
        return panel_id or "panel not named"
    place = f", at {at(spot)} as laid in space" if spot is not None else ""
    return f"{panel.id}, {panel.material} {panel.thickness.value * 1000:g} mm{place}"


def _grommet(fit: Fit, car: Car, spots: Mapping[tuple[str, str], Vector]) -> Hole:
    return Hole(
        id=f"{fit.line}.{fit.panel}",
        what=f"hole with grommet for {fit.line}",
        where=_where(car, fit.panel, spots.get((fit.line or "", fit.panel or ""))),
        diameter=None,
        gate="before paint",
        because=tuple(name for name in (fit.line, fit.panel) if name),
        note="hole as the grommet in the hand measures; deburr it, nothing may touch the hose",
    )


def _bung(car: Car, spot: Spot, number: int) -> Hole:
    parts = spot.chain.parts
    if parts:
        what = parts[min(number, len(parts)) - 1].name
    else:
        port = car.port(spot.ports[-1])
        what = car.components[port.component].kind if port else "bung"
    joint = spot.joint_id(number)
    return Hole(
        id=joint,
        what=f"weld {what}",
        where=" and ".join(spot.ports),
        diameter=None,
        gate="before paint; leak-tested before it goes into the car",
        because=tuple(dict.fromkeys((joint, *spot.ports))),
        note=(
            "hole as the bung in the hand measures; no O-ring or wanted plug in place while "
            "welding; bung and wall of one metal"
        ),
    )
