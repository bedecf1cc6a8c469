# SPDX-License-Identifier: Apache-2.0
"""A centreline of straights and arcs: corners with the radius of each bend."""

from dataclasses import dataclass
from itertools import pairwise
from math import atan2, ceil, cos, dist, pi, sin, tan
from typing import TYPE_CHECKING

from linewright.base.vectors import Vector, ahead, between, cross, dot, turned_about, unit

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

# Below this a straight has no length and a corner no turn: a nanometre, a thousandth of a
# second of arc. It is far under any tape, and far over what doubles lose on a car.
NOTHING = 1e-9

# Below this sine a piece is level: 0.2 arc seconds.
LEVEL = 1e-6


@dataclass(frozen=True, slots=True)
class Path:
    """A polyline whose inner corners are rounded: ``radii`` has one radius a corner. [m]"""

    corners: tuple[Vector, ...]
    radii: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Straight:
    """A straight piece of a centreline. [m]"""

    start: Vector
    end: Vector
    along: Vector
    length: float


@dataclass(frozen=True, slots=True)
class Arc:
    """A bend: it starts along ``along``, turns towards ``inward`` by ``angle`` [rad]. SI.

    ``axis`` is along × inward, so the turn is right-handed about it.
    """

    start: Vector
    end: Vector
    centre: Vector
    along: Vector
    inward: Vector
    axis: Vector
    radius: float
    angle: float
    length: float


@dataclass(frozen=True, slots=True)
class Bend:
    """A row of a bend schedule: straight before it [m], rotation and angle [rad].

    ``rotation`` turns the plane of the bend before into that of this one, right-handed about
    the direction of travel, and is 0 for the first.
    """

    straight: float
    rotation: float
    angle: float


@dataclass(frozen=True, slots=True)
class Extreme:
    """A local high or low point of a centreline: where, and how far along it. [m]"""

    is_high: bool
    at: Vector
    along: float


@dataclass(frozen=True, slots=True)
class _Corner:
    at: Vector
    into: Vector
    out: Vector
    turn: float
    radius: float
    trim: float


def _legs(path: Path) -> list[tuple[Vector, float]]:
    """Direction and length of each side of the polyline; no length has no direction."""
    if len(path.corners) < 2 or len(path.radii) != len(path.corners) - 2:
        raise ValueError(
            f"path with {len(path.corners)} corners and {len(path.radii)} radii: needs two "
            "points or more, and one radius for each inner one"
        )
    found = []
    for a, b in pairwise(path.corners):
        far = dist(a, b)
        way = (b[0] - a[0], b[1] - a[1], b[2] - a[2])
        found.append((unit(way) if far > 0.0 else (0.0, 0.0, 0.0), far))
    return found


def _rounded(path: Path) -> tuple[list[tuple[Vector, float]], list[_Corner]]:
    legs = _legs(path)
    rounds = []
    for i, radius in enumerate(path.radii):
        (into, _), (out, _) = legs[i], legs[i + 1]
        turn = between(into, out)
        trim = radius * tan(turn / 2.0) if turn > NOTHING else 0.0
        rounds.append(_Corner(path.corners[i + 1], into, out, turn, radius, trim))
    return legs, rounds


def elements(path: Path) -> tuple[Straight | Arc, ...]:
    """Take a path apart into its straights and arcs, in order.

    Parameters
    ----------
    path : Path
        Corners and radii; see `fits` for whether they can be.

    Returns
    -------
    tuple of Straight or Arc
        From the first corner to the last. What has no length is left out.

    Raises
    ------
    ValueError
        If the numbers of corners and radii do not belong together, or a corner turns right
        back.

    Examples
    --------
    >>> bend = Path(((0.0, 0.0, 0.0), (0.3, 0.0, 0.0), (0.3, 0.3, 0.0)), (0.1,))
    >>> [round(piece.length, 4) for piece in elements(bend)]
    [0.2, 0.1571, 0.2]
    """
    legs, rounds = _rounded(path)
    pieces: list[Straight | Arc] = []
    here = path.corners[0]
    for i, (along, far) in enumerate(legs):
        before = rounds[i - 1].trim if i > 0 else 0.0
        after = rounds[i].trim if i < len(rounds) else 0.0
        free = far - before - after
        if free > NOTHING:
            end = ahead(here, along, free)
            pieces.append(Straight(here, end, along, free))
            here = end
        if i < len(rounds) and rounds[i].turn > NOTHING:
            arc = _arc(rounds[i])
            pieces.append(arc)
            here = arc.end
    return tuple(pieces)


def _arc(corner: _Corner) -> Arc:
    start = ahead(corner.at, corner.into, -corner.trim)
    end = ahead(corner.at, corner.out, corner.trim)
    c = dot(corner.into, corner.out)
    flat = ahead(corner.out, corner.into, -c)
    if not dot(flat, flat) > 0.0:
        raise ValueError(
            f"corner at {corner.at}: turns right back, so its bend has no plane; give it two "
            "corners"
        )
    inward = unit(flat)
    centre = ahead(start, inward, corner.radius)
    axis = cross(corner.into, inward)
    return Arc(
        start,
        end,
        centre,
        corner.into,
        inward,
        axis,
        corner.radius,
        corner.turn,
        corner.radius * corner.turn,
    )


def length(path: Path) -> float:
    """Developed length: straights and arcs laid end to end.

    Parameters
    ----------
    path : Path
        The centreline.

    Returns
    -------
    float
        Its length. [m]

    Examples
    --------
    A tube worked by hand, in metres:

    >>> tube = Path(
    ...     ((0, 0, 0), (0.2, 0, 0), (0.2, 0.15, 0), (0.2, 0.15, 0.12), (0.32, 0.15, 0.22)),
    ...     (0.0286, 0.0286, 0.0286),
    ... )
    >>> round(length(tube), 5)
    0.59992
    """
    legs, rounds = _rounded(path)
    return sum(far for _, far in legs) + sum(r.radius * r.turn - 2.0 * r.trim for r in rounds)


def fits(path: Path) -> str | None:
    """Say why the corners of a path cannot be rounded as it says.

    Parameters
    ----------
    path : Path
        The centreline.

    Returns
    -------
    str or None
        None if each side of the polyline holds the trims of the bends at both its ends to a
        micrometre;
        otherwise which side is too short, with what it has and needs.

    Examples
    --------
    >>> fits(Path(((0.0, 0.0, 0.0), (0.1, 0.0, 0.0), (0.1, 0.3, 0.0)), (0.12,)))
    'from corner 1 to 2: 100.0 mm, the bends there need 120.0 mm'
    """
    legs, rounds = _rounded(path)
    for i, (_, far) in enumerate(legs):
        need = (rounds[i - 1].trim if i > 0 else 0.0) + (rounds[i].trim if i < len(rounds) else 0.0)
        if need > far + 1e-6 or need > 1e6:
            shown = "no end of length" if need > 1e6 else f"{need * 1e3:.1f} mm"
            return (
                f"from corner {i + 1} to {i + 2}: {far * 1e3:.1f} mm, the bends there need {shown}"
            )
    return None


def directions(path: Path) -> tuple[Vector, Vector]:
    """Directions of travel at both ends of a path.

    Parameters
    ----------
    path : Path
        The centreline.

    Returns
    -------
    tuple of Vector
        At its start and at its end, unit.
    """
    legs = _legs(path)
    return legs[0][0], legs[-1][0]


def carry(path: Path, side: Vector) -> Vector:
    """Carry an arrow along a path without twisting it.

    Parameters
    ----------
    path : Path
        The centreline.
    side : Vector
        An arrow at its start, as a mark on the hose there.

    Returns
    -------
    Vector
        The same mark at its end: turned by each arc about that arc's own axis.

    Examples
    --------
    >>> bend = Path(((0.0, 0.0, 0.0), (0.3, 0.0, 0.0), (0.3, 0.3, 0.0)), (0.1,))
    >>> x, y, z = carry(bend, (0.0, 1.0, 0.0))
    >>> round(x, 9), round(y, 9), round(z, 9)
    (-1.0, 0.0, 0.0)
    """
    _, rounds = _rounded(path)
    for corner in rounds:
        if corner.turn > NOTHING:
            axis = unit(cross(corner.into, corner.out))
            side = turned_about(axis, corner.turn, side)
    return side


def sample_lines(path: Path, step: float) -> tuple["NDArray[np.float64]", "NDArray[np.float64]"]:
    """Points along a path, and how far along it each lies.

    Parameters
    ----------
    path : Path
        The centreline.
    step : float
        Greatest distance along it between two points. [m]

    Returns
    -------
    tuple of ndarray
        Points (n, 3) and arc lengths (n,), evenly spaced in each straight and each arc; both
        ends and every tangent point are among them. [m]

    Raises
    ------
    ValueError
        If the step is not more than nothing.
    """
    import numpy as np

    if not step > 0.0:
        raise ValueError(f"step {step}: must be more than 0 m")
    points = [np.array([path.corners[0]], dtype=np.float64)]
    lines = [np.zeros(1)]
    run = 0.0
    for piece in elements(path):
        n = max(1, ceil(piece.length / step - 1e-9))
        share = np.arange(1, n + 1) / n
        start = np.array(piece.start)
        along = np.array(piece.along)
        if isinstance(piece, Straight):
            there = start + (share * piece.length)[:, None] * along
        else:
            angle = share * piece.angle
            inward = np.array(piece.inward)
            there = start + piece.radius * (
                np.sin(angle)[:, None] * along + (1.0 - np.cos(angle))[:, None] * inward
            )
        points.append(there)
        lines.append(run + share * piece.length)
        run += piece.length
    return np.concatenate(points), np.concatenate(lines)


def sample(path: Path, step: float) -> "NDArray[np.float64]":
    """Points along a path.

    Parameters
    ----------
    path : Path
        The centreline.
    step : float
        Greatest distance along it between two points. [m]

    Returns
    -------
    ndarray
        Points (n, 3), as `sample_lines` gives them. [m]
    """
    return sample_lines(path, step)[0]


def bends(path: Path) -> tuple[Bend, ...]:
    """Bend schedule: straight before, rotation and angle of each bend.

    Parameters
    ----------
    path : Path
        The centreline.

    Returns
    -------
    tuple of Bend
        One a bend, in order; corners without a turn only lengthen the straight. The straight
        after the last bend is the last of `elements`.

    Notes
    -----
    There is no common sign of rotation among benders; here it is right-handed about the
    direction of travel. Print the picture beside it.
    """
    rows: list[Bend] = []
    straight = 0.0
    before: Vector | None = None
    for piece in elements(path):
        if isinstance(piece, Straight):
            straight += piece.length
            continue
        rotation = 0.0
        if before is not None:
            rotation = atan2(dot(piece.along, cross(before, piece.axis)), dot(before, piece.axis))
        rows.append(Bend(straight, rotation, piece.angle))
        straight, before = 0.0, piece.axis
    return tuple(rows)


def extremes(path: Path, up: Vector) -> tuple[Extreme, ...]:
    """Local high and low points of a path between its ends.

    Parameters
    ----------
    path : Path
        The centreline.
    up : Vector
        Which way is up; any length.

    Returns
    -------
    tuple of Extreme
        In order along the path. A level stretch between a rise and a fall gives one, in its
        middle; the ends themselves are none.

    Examples
    --------
    >>> hump = Path(((0, 0, 0), (0, 0, 0.3), (0.4, 0, 0.3), (0.4, 0, 0)), (0.1, 0.1))
    >>> [(e.is_high, e.at, round(e.along, 4)) for e in extremes(hump, (0.0, 0.0, 1.0))]
    [(True, (0.2, 0.0, 0.3), 0.4571)]
    """
    up = unit(up)
    found: list[Extreme] = []
    slope = 0
    left_at = 0.0  # where the last rise or fall ended
    run = 0.0
    for piece in elements(path):
        for begin, end, sign in _slopes(piece, up):
            if sign != 0:
                if slope * sign < 0:
                    along = (left_at + run + begin) / 2.0
                    found.append(Extreme(sign < 0, point(path, along), along))
                slope, left_at = sign, run + end
        run += piece.length
    return tuple(found)


def _slopes(piece: Straight | Arc, up: Vector) -> list[tuple[float, float, int]]:
    """Where a piece rises (1), falls (-1) or is level (0): from, to [m]."""
    rise = dot(piece.along, up)
    if isinstance(piece, Straight):
        return [(0.0, piece.length, _sign(rise))]
    # The slope over an arc is rise·cos + swing·sin: it vanishes once every half turn.
    swing = dot(piece.inward, up)
    if abs(rise) < LEVEL and abs(swing) < LEVEL:
        return [(0.0, piece.length, 0)]
    turn = atan2(-rise, swing) % pi
    stops = [0.0, *(t for t in (turn, turn + pi) if LEVEL < t < piece.angle - LEVEL), piece.angle]
    parts = []
    for begin, end in pairwise(stops):
        middle = (begin + end) / 2.0
        sign = _sign(rise * cos(middle) + swing * sin(middle))
        parts.append((begin * piece.radius, end * piece.radius, sign))
    return parts


def _sign(slope: float) -> int:
    return 0 if abs(slope) < LEVEL else (1 if slope > 0.0 else -1)


def point(path: Path, along: float) -> Vector:
    """Point of a path some way along it.

    Parameters
    ----------
    path : Path
        The centreline.
    along : float
        How far from its start; kept between its ends. [m]

    Returns
    -------
    Vector
        Where that is. [m]

    Examples
    --------
    >>> bend = Path(((0.0, 0.0, 0.0), (0.3, 0.0, 0.0), (0.3, 0.3, 0.0)), (0.1,))
    >>> point(bend, 0.1)
    (0.1, 0.0, 0.0)
    """
    left = max(0.0, along)
    here = path.corners[0]
    for piece in elements(path):
        if left <= piece.length:
            if isinstance(piece, Straight):
                return ahead(piece.start, piece.along, left)
            angle = left / piece.radius
            there = ahead(piece.start, piece.along, piece.radius * sin(angle))
            return ahead(there, piece.inward, piece.radius * (1.0 - cos(angle)))
        left -= piece.length
        here = piece.end
    return here
