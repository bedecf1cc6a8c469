# SPDX-License-Identifier: Apache-2.0
"""Where a hose is held: clips along its course, never in a bend, and where the plane changes."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import pi, radians

from linewright.base.finding import Finding, Severity
from linewright.base.vectors import Vector, between
from linewright.car.model import Car, Construction, Line
from linewright.joints.offered import setting
from linewright.proofs.found import at, found, mm
from linewright.routes import clips
from linewright.space.path import Arc, Path, elements, length, point

#: A bend under this turn does not take up an engine's movement. [rad]
_BEND = radians(30.0)

#: A straight that is shorter than this is none. [m]
_NOTHING = 1e-6


@dataclass(frozen=True, slots=True)
class Clip:
    """One clip: where, how far from collar A [m], and why there."""

    at: Vector
    along: float
    why: str


@dataclass(frozen=True, slots=True)
class Held:
    """How a hose is held.

    ``unheld`` are spans between supports over the spacing, from and to along it [m];
    ``twisted`` are places where the plane of bends changes and no clip fits.
    """

    clips: tuple[Clip, ...]
    unheld: tuple[tuple[float, float], ...] = ()
    twisted: tuple[Vector, ...] = ()


@dataclass(frozen=True, slots=True)
class Rules:
    """What a hose's clips keep.

    ``spacing`` between supports, ``half`` the width of a clip, ``engine`` the least distance
    of a clip from an end that moves [m]; ``plane`` is the turn between two planes of bends
    that twists a hose [rad]. ``count`` is how many clips the length asks for.
    """

    spacing: float
    half: float
    engine: float
    plane: float
    count: int


def rules(car: Car, line: Line, run: float) -> Rules:
    """What holds for the clips of a line.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        The line.
    run : float
        Length of the hose, collar to collar. [m]

    Returns
    -------
    Rules
        Settings of the car or of the trade.
    """
    between_clips = clips.spacing(car, line)
    return Rules(
        between_clips,
        setting(car, "clip-half").value,
        setting(car, "clip-engine-clamped").value,
        radians(setting(car, "plane-change").value),
        clips.count(run, between_clips, line),
    )


@dataclass(frozen=True, slots=True)
class _Run:
    """Straights and bends of a path, each from and to along it."""

    straights: list[tuple[float, float]]
    bends: list[tuple[float, float, Vector, float]]  # from, to, axis, angle


def _taken_apart(path: Path) -> _Run:
    straights: list[tuple[float, float]] = []
    bends: list[tuple[float, float, Vector, float]] = []
    here = 0.0
    for piece in elements(path):
        end = here + piece.length
        if isinstance(piece, Arc):
            last = bends[-1] if bends else None
            # A wide bend stands as several arcs that touch.
            if last and here - last[1] < _NOTHING and between(last[2], piece.axis) < 1e-4:
                bends[-1] = (last[0], end, last[2], last[3] + piece.angle)
            else:
                bends.append((here, end, piece.axis, piece.angle))
        elif straights and here - straights[-1][1] < _NOTHING:
            straights[-1] = (straights[-1][0], end)
        else:
            straights.append((here, end))
        here = end
    return _Run(straights, bends)


def hold(path: Path, keep: Rules, moving: tuple[bool, bool] = (False, False)) -> Held:
    """Place the clips of one hose.

    Parameters
    ----------
    path : Path
        Its centreline, collar to collar.
    keep : Rules
        What its clips keep.
    moving : tuple of bool
        Whether end A and end B ride on something that moves against the chassis.

    Returns
    -------
    Held
        One clip in the straight at each change of plane, the others shared out evenly, each
        in a straight. Next to a moving end there is none before the first bend of 30° or more,
        or, where there is none within the spacing, before the engine's distance.

    Examples
    --------
    >>> straight = Path(((0.0, 0.0, 0.0), (0.9, 0.0, 0.0)), ())
    >>> [round(c.along, 3) for c in hold(straight, Rules(0.45, 0.008, 0.076, 0.09, 2)).clips]
    [0.225, 0.675]
    """
    whole = length(path)
    if keep.count == 0:
        return Held(())
    parts = _taken_apart(path)
    first, last = _free(parts, whole, keep, moving)
    seats = [
        (max(a + keep.half, first), min(b - keep.half, last))
        for a, b in parts.straights
        if min(b - keep.half, last) >= max(a + keep.half, first)
    ]
    placed: dict[float, str] = {}
    twisted: list[Vector] = []
    for (_, end, axis, _), (start, _, other, _) in pairwise(parts.bends):
        turn = between(axis, other)
        if min(turn, pi - turn) <= keep.plane:
            continue
        middle = (end + start) / 2.0
        if any(a - 1e-9 <= middle <= b + 1e-9 for a, b in seats):
            placed[middle] = "the plane of its bends changes"
        elif first <= middle <= last:
            twisted.append(point(path, middle))
    _share_out(placed, seats, whole, keep)
    stops = [0.0, *sorted(placed), whole]
    unheld = tuple((a, b) for a, b in pairwise(stops) if b - a > keep.spacing + 1e-6)
    made = tuple(Clip(point(path, along), along, placed[along]) for along in sorted(placed))
    return Held(made, unheld, tuple(twisted))


def _free(parts: _Run, whole: float, keep: Rules, moving: tuple[bool, bool]) -> tuple[float, float]:
    """From and to where clips may be: movement is left to the hose beyond."""
    first, last = 0.0, whole
    if moving[0]:
        wide = [b for _, b, _, angle in parts.bends if angle >= _BEND and b <= keep.spacing]
        first = max(keep.engine, min(wide, default=0.0))
    if moving[1]:
        wide = [
            whole - a
            for a, _, _, angle in parts.bends
            if angle >= _BEND and whole - a <= keep.spacing
        ]
        last = whole - max(keep.engine, min(wide, default=0.0))
    return first, last


def _share_out(
    placed: dict[float, str], seats: Sequence[tuple[float, float]], whole: float, keep: Rules
) -> None:
    """Add clips in the straights, evenly, and close what is still too far apart."""
    pitch = whole / keep.count
    for number in range(keep.count):
        wanted = (number + 0.5) * pitch
        # A clip at a change of plane does for the one that would be near it.
        if any(abs(wanted - each) < pitch / 2.0 for each in placed):
            continue
        spot = _nearest(seats, wanted)
        if spot is not None and all(abs(spot - each) > 4.0 * keep.half for each in placed):
            placed[spot] = "the spacing"
    for _ in range(keep.count + 2):
        stops = [0.0, *sorted(placed), whole]
        wide = next(
            ((a, b) for a, b in pairwise(stops) if b - a > keep.spacing + 1e-6),
            None,
        )
        if wide is None:
            return
        spot = _nearest(seats, (wide[0] + wide[1]) / 2.0)
        if spot is None or not wide[0] + 4.0 * keep.half < spot < wide[1] - 4.0 * keep.half:
            return
        placed[spot] = "the spacing"


def _nearest(seats: Sequence[tuple[float, float]], wanted: float) -> float | None:
    spots = [min(max(wanted, a), b) for a, b in seats]
    return min(spots, key=lambda spot: (abs(spot - wanted), spot), default=None)


def supports(
    car: Car, hose: str, line: Line, path: Path, moving: tuple[bool, bool]
) -> tuple[Held, tuple[Finding, ...]]:
    """Hold one hose, and say where it cannot be held.

    Parameters
    ----------
    car : Car
        The car document as read.
    hose : str
        The hose.
    line : Line
        Its line.
    path : Path
        Its centreline, collar to collar.
    moving : tuple of bool
        Whether end A and end B move against the chassis.

    Returns
    -------
    tuple
        How it is held, and ``clip-plane`` and ``clip-spacing``.
    """
    keep = rules(car, line, length(path))
    held = hold(path, keep, moving)
    told: list[Finding] = []
    if held.twisted and line.construction is Construction.HOSE:
        places = " and ".join(at(spot) for spot in held.twisted)
        told.append(
            found(
                "clip-plane",
                (hose,),
                f"{hose} bends in two planes; where the plane changes, at {places}, there is no "
                f"straight of {mm(2.0 * keep.half)} for a clip, so its ends can twist it.",
                "Turn an elbow so that the bends lie in one plane, or lead it wider there.",
                system=line.system,
                value=mm(0.0),
                limit=mm(2.0 * keep.half),
                measure=float(len(held.twisted)),
                source="common practice",
            )
        )
    if held.unheld:
        most = setting(car, "clip-spacing-most").value
        a, b = max(held.unheld, key=lambda span: (span[1] - span[0], -span[0]))
        told.append(
            found(
                "clip-spacing",
                (hose,),
                f"{hose} is unheld for {mm(b - a)}, from {at(point(path, a))} to "
                f"{at(point(path, b))}: no clip goes in a bend, nor next to an end that moves.",
                "Lead it so that a straight falls between, or carry it along a bracket.",
                system=line.system,
                value=mm(b - a),
                limit=mm(keep.spacing),
                measure=b - a - keep.spacing,
                severity=Severity.NOTE if b - a <= most else None,
            )
        )
    return held, tuple(told)
