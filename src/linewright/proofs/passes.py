# SPDX-License-Identifier: Apache-2.0
"""Where a course goes through a panel, and what seals it there."""

from dataclasses import dataclass
from math import asin, atan2, cos, dist, hypot, pi, sin

from linewright.base.finding import Finding
from linewright.base.vectors import Vector, ahead, dot, unit
from linewright.car.model import Car, Hole, Line, Panel
from linewright.proofs.found import at, found
from linewright.space.bodies import panel_axes
from linewright.space.path import Arc, Path, Straight, elements

#: Two places of one course nearer than this are one. [m]
_SAME = 1e-6


@dataclass(frozen=True, slots=True)
class Pass:
    """One place where a course goes through a panel: the given hole it takes, if any."""

    panel: str
    at: Vector
    hole: Hole | None = None


def through(path: Path, panel: Panel) -> tuple[Vector, ...]:
    """Where a path meets the middle of a panel.

    Parameters
    ----------
    path : Path
        A course.
    panel : Panel
        A panel; one without a place or direction is met nowhere.

    Returns
    -------
    tuple of Vector
        In order along the path, exact in straights and arcs; beyond the panel's edge it is not
        met. [m]

    Examples
    --------
    >>> from linewright.base.evidence import Figure, Grade
    >>> wall = Panel("w", Figure(0.002, "m", Grade.STATED), at=(1, 0, 0), points=(1, 0, 0))
    >>> through(Path(((0, 0, 0), (2, 0, 0.5)), ()), wall)
    ((1.0, 0.0, 0.25),)
    """
    if panel.at is None or panel.points is None:
        return ()
    normal = unit(panel.points)
    level = dot(normal, panel.at)
    met: list[Vector] = []
    for piece in elements(path):
        for spot in _met(piece, normal, level):
            if _is_in(panel, panel.at, normal, spot) and all(dist(spot, m) > _SAME for m in met):
                met.append(spot)
    return tuple(met)


def _met(piece: Straight | Arc, normal: Vector, level: float) -> list[Vector]:
    off = dot(normal, piece.start) - level
    along = dot(normal, piece.along)
    if isinstance(piece, Straight):
        if abs(along) < 1e-12:
            return []
        far = -off / along
        return [ahead(piece.start, piece.along, far)] if 0.0 <= far <= piece.length else []
    inward = dot(normal, piece.inward)
    swing = hypot(along, inward)
    if swing < 1e-12:
        return []
    # off + r (along·sin t + inward·(1 − cos t)) = 0
    sine = -(off / piece.radius + inward) / swing
    if abs(sine) > 1.0:
        return []
    lead, turn = atan2(inward, along), asin(sine)
    turns = {(lead + turn) % (2.0 * pi), (lead + pi - turn) % (2.0 * pi)}
    return [_on(piece, t) for t in sorted(turns) if t <= piece.angle]


def _on(piece: Arc, turn: float) -> Vector:
    there = ahead(piece.start, piece.along, piece.radius * sin(turn))
    return ahead(there, piece.inward, piece.radius * (1.0 - cos(turn)))


def _is_in(panel: Panel, middle: Vector, normal: Vector, spot: Vector) -> bool:
    if panel.size is None:
        return True
    level, other = panel_axes(normal)
    off = (spot[0] - middle[0], spot[1] - middle[1], spot[2] - middle[2])
    wide, high = panel.size
    return abs(dot(off, level)) <= wide / 2.0 and abs(dot(off, other)) <= high / 2.0


def passes(car: Car, line: Line, path: Path) -> tuple[Pass, ...]:
    """Every place where a course goes through a panel of the car.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        The line that the hose belongs to.
    path : Path
        The course of one of its hoses.

    Returns
    -------
    tuple of Pass
        Panels in the order of the document, places in order along the course. A hole that the
        panel has for this line, or for any, is taken where the course goes through it.
    """
    made = []
    for panel in car.panels.values():
        for spot in through(path, panel):
            made.append(Pass(panel.id, spot, _hole(panel, line.id, spot)))
    return tuple(made)


def _hole(panel: Panel, line: str, spot: Vector) -> Hole | None:
    fits = [
        hole
        for hole in panel.holes
        if hole.line in ("", line)
        and hole.bore is not None
        and dist(_flat(panel, hole.at), spot) <= hole.bore / 2.0
    ]
    return min(fits, key=lambda hole: dist(hole.at, spot), default=None)


def _flat(panel: Panel, point: Vector) -> Vector:
    """A hole's middle in the middle of the panel's thickness."""
    assert panel.at is not None
    assert panel.points is not None
    normal = unit(panel.points)
    return ahead(point, normal, dot(normal, panel.at) - dot(normal, point))


def unsealed(hose: str, line: Line, made: tuple[Pass, ...]) -> tuple[Finding, ...]:
    """Say which passes have no hole: no bulkhead fitting and no grommet.

    Parameters
    ----------
    hose : str
        The hose.
    line : Line
        Its line.
    made : tuple of Pass
        Where it goes through panels.

    Returns
    -------
    tuple of Finding
        One ``pass-unsealed`` for each panel.
    """
    told = []
    for panel in dict.fromkeys(each.panel for each in made if each.hole is None):
        spots = [each.at for each in made if each.panel == panel and each.hole is None]
        told.append(
            found(
                "pass-unsealed",
                (hose, panel),
                f"{hose} goes through {panel} at {' and '.join(at(spot) for spot in spots)}, with "
                "no bulkhead fitting and no grommet there.",
                f'Say `passes = ["{panel}"]` at {line.id}, give {panel} a hole with its bore, or '
                "lead the line round it by a guide.",
                system=line.system,
                measure=float(len(spots)),
                source="student-formula-rule-book; faa-h-8083-30-general-handbook",
            )
        )
    return tuple(told)
