# SPDX-License-Identifier: Apache-2.0
"""A route checked at every millimetre, by other formulas than those that found it.

It imports nothing of the package: bodies come as values with the fields of `Solid`, `Tube`,
`Wall` and `HalfSpace`, and are told apart by those. A point's distance to a body is that to
the nearest point of it, which is worked out; the package never works that point out. Meshes
are tried triangle by triangle, and inside is where the solid angles of all triangles add up
(van Oosterom and Strackee 1983). Travel is tried at the corners of its box.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise, product
from typing import Any

import numpy as np
from numpy.typing import NDArray

Reals = NDArray[np.float64]

STEP = 1e-3


@dataclass(frozen=True)
class Fault:
    """What is wrong with a route, and where."""

    what: str
    body: str
    least: float
    limit: float
    at: tuple[float, float, float]


def samples(corners: Sequence[Any], radii: Sequence[float], step: float = STEP) -> Reals:
    """Points along a rounded polyline, no two further apart than a step."""
    p = np.asarray(corners, dtype=np.float64)
    pieces: list[Reals] = []
    here = p[0]
    for i, radius in enumerate(radii, start=1):
        u, v = p[i] - p[i - 1], p[i + 1] - p[i]
        u, v = u / np.linalg.norm(u), v / np.linalg.norm(v)
        turn = np.arccos(np.clip(u @ v, -1.0, 1.0))
        if turn < 1e-7 or radius < 1e-9:
            if turn >= 1e-7:
                pieces.append(_straight(here, p[i], step))
                here = p[i]
            continue
        # The middle of the arc lies on the bisector of the corner.
        into = (v - u) / np.linalg.norm(v - u)
        middle = p[i] + into * radius / np.cos(turn / 2)
        start = p[i] - u * radius * np.tan(turn / 2)
        pieces.append(_straight(here, start, step))
        share = np.linspace(0.0, 1.0, max(2, int(np.ceil(turn * radius / step)) + 1))[:, None]
        one, two = start - middle, p[i] + v * radius * np.tan(turn / 2) - middle
        arc = (np.sin((1 - share) * turn) * one + np.sin(share * turn) * two) / np.sin(turn)
        pieces.append(middle + arc)
        here = middle + two
    pieces.append(_straight(here, p[-1], step))
    return np.concatenate(pieces)


def _straight(a: Reals, b: Reals, step: float) -> Reals:
    n = max(2, int(np.ceil(np.linalg.norm(b - a) / step)) + 1)
    return a + np.linspace(0.0, 1.0, n)[:, None] * (b - a)


@dataclass(frozen=True)
class Piece:
    """A straight or an arc of a course, from raw geometry: ends, ways there, and its radius."""

    begin: Reals
    end: Reals
    way_in: Reals
    way_out: Reals
    length: float
    radius: float


def pieces(corners: Sequence[Any], radii: Sequence[float]) -> list[Piece]:
    """Straights and arcs of a rounded polyline; nothing is put right where they do not fit.

    Trims follow from the angle between two sides and the radius typed there; a straight whose
    trims overlap runs backwards, which the ways of its neighbours then show.
    """
    p = np.asarray(corners, dtype=np.float64)
    found: list[Piece] = []
    here = p[0]
    for i, radius in enumerate(radii, start=1):
        u = (p[i] - p[i - 1]) / np.linalg.norm(p[i] - p[i - 1])
        v = (p[i + 1] - p[i]) / np.linalg.norm(p[i + 1] - p[i])
        turn = 2.0 * np.arctan2(np.linalg.norm(v - u), np.linalg.norm(v + u))
        if turn < 1e-9:
            continue
        if radius < 1e-9:
            _add(found, here, p[i])
            here = p[i]
            continue
        trim = radius * np.tan(turn / 2)
        _add(found, here, p[i] - u * trim)
        # The tangents at both ends, from the middle of the arc and not from the sides.
        middle = p[i] + (v - u) / np.linalg.norm(v - u) * radius / np.cos(turn / 2)
        one, two = p[i] - u * trim - middle, p[i] + v * trim - middle
        axis = np.cross(one, two)
        axis = axis / np.linalg.norm(axis)
        ways = [np.cross(axis, arm) / np.linalg.norm(arm) for arm in (one, two)]
        found.append(
            Piece(p[i] - u * trim, p[i] + v * trim, ways[0], ways[1], turn * radius, radius)
        )
        here = p[i] + v * trim
    _add(found, here, p[-1])
    return found


def _add(found: list[Piece], a: Reals, b: Reals) -> None:
    far = float(np.linalg.norm(b - a))
    # Less than ten nanometres is rounding, whichever way it runs.
    if far > 1e-8:
        way = (b - a) / far
        found.append(Piece(a, b, way, way, far, np.inf))


def kinks(found: Sequence[Piece]) -> list[tuple[float, Reals]]:
    """Angle between the ways of neighbours where it is not the same way. [rad]"""
    told = []
    for one, two in pairwise(found):
        off = float(np.linalg.norm(one.way_out - two.way_in))
        # Straights of a few micrometres have no way of their own in double precision.
        doubt = 1e-6 + 1e-12 / min(one.length, two.length)
        if off > doubt:
            told.append((off, one.end))
    return told


def tightest(points: Reals, step: float = STEP) -> tuple[float, Reals]:
    """Least radius of the circles through three neighbours, a step apart along the curve.

    The points given lie much nearer together and are thinned, so that those kept lie on the
    curve and not on chords of it: a circle through three points of an arc is that arc.
    """
    far = np.r_[0.0, np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))]
    keep = np.unique(np.searchsorted(far, np.arange(0.0, far[-1], step)))
    q = points[keep]
    a, b, c = q[:-2], q[1:-1], q[2:]
    area = np.linalg.norm(np.cross(b - a, c - a), axis=1)
    sides = (
        np.linalg.norm(b - a, axis=1)
        * np.linalg.norm(c - b, axis=1)
        * np.linalg.norm(c - a, axis=1)
    )
    found = sides / np.maximum(2.0 * area, 1e-15)
    n = int(np.argmin(found))
    return float(found[n]), b[n]


def distance(body: Any, points: Reals) -> Reals:
    """Signed distance of points to one body where it stands."""
    if hasattr(body, "shape"):
        own = (points - np.array(body.middle)) @ np.array(body.turn)
        return _solid(body, own)
    if hasattr(body, "radius"):
        ends = np.array(body.points, dtype=np.float64)
        every = [_to_segment(points, a, b) for a, b in pairwise(ends)]
        return np.min(every, axis=0) - body.radius
    normal = np.array(body.points, dtype=np.float64)
    normal /= np.linalg.norm(normal)
    high = (points - np.array(body.at)) @ normal
    if not hasattr(body, "thickness"):
        return high
    return _wall(body, points - np.array(body.at), normal, high)


def _to_segment(points: Reals, a: Reals, b: Reals) -> Reals:
    way = b - a
    share = np.clip((points - a) @ way / max(float(way @ way), 1e-30), 0.0, 1.0)
    return np.asarray(np.linalg.norm(points - a - share[:, None] * way, axis=1))


def _signed(own: Reals, nearest: Reals, depth: Reals) -> Reals:
    """Outside as far as the nearest point of the body, inside as deep as its faces."""
    return np.where(depth > 0.0, -depth, np.linalg.norm(own - nearest, axis=1))


def _solid(body: Any, own: Reals) -> Reals:
    match str(body.shape):
        case "box":
            half = np.array(body.size) / 2
            return _signed(own, np.clip(own, -half, half), np.min(half - np.abs(own), axis=1))
        case "cylinder":
            radius, half = body.size[0] / 2, body.size[2] / 2
            out = np.linalg.norm(own[:, :2], axis=1)
            shrunk = np.minimum(1.0, radius / np.maximum(out, 1e-12))[:, None]
            nearest = np.c_[own[:, :2] * shrunk, np.clip(own[:, 2], -half, half)]
            return _signed(own, nearest, np.minimum(radius - out, half - np.abs(own[:, 2])))
        case "capsule":
            top = np.array([0.0, 0.0, max(0.0, body.size[2] / 2 - body.size[0] / 2)])
            return _to_segment(own, -top, top) - body.size[0] / 2
    raise AssertionError(f"no formula for {body.shape}")


def _wall(body: Any, off: Reals, normal: Reals, high: Reals) -> Reals:
    depth = body.thickness / 2 - np.abs(high)
    nearest = (
        off - (high - np.clip(high, -body.thickness / 2, body.thickness / 2))[:, None] * normal
    )
    if body.size is not None:
        level = np.cross((0.0, 0.0, 1.0), normal)
        if np.linalg.norm(level) < 0.02:
            level = np.cross(normal, (1.0, 0.0, 0.0))
        level /= np.linalg.norm(level)
        for axis, size in ((level, body.size[0]), (np.cross(normal, level), body.size[1])):
            along = off @ axis
            over = along - np.clip(along, -size / 2, size / 2)
            nearest = nearest - over[:, None] * axis
            depth = np.minimum(depth, size / 2 - np.abs(along))
    found = _signed(off, nearest, depth)
    for hole in body.holes:
        across = off - (np.array(hole.at) - np.array(body.at))
        across = across - (across @ normal)[:, None] * normal
        rim = hole.radius - np.linalg.norm(across, axis=1)
        beyond = np.maximum(np.abs(high) - body.thickness / 2, 0.0)
        found = np.where(
            rim > 0.0, np.hypot(rim, beyond), np.where(found < 0, np.maximum(found, rim), found)
        )
    return found


def mesh_distance(triangles: Reals, own: Reals) -> Reals:
    """Signed distance to a closed mesh, triangle by triangle."""
    least = np.full(len(own), np.inf)
    angle = np.zeros(len(own))
    for a, b, c in triangles:
        normal = np.cross(b - a, c - a)
        normal = normal / np.linalg.norm(normal)
        high = (own - a) @ normal
        foot = own - high[:, None] * normal
        within = np.ones(len(own), dtype=bool)
        for one, two in ((a, b), (b, c), (c, a)):
            within &= np.cross(two - one, foot - one) @ normal >= 0.0
            least = np.minimum(least, _to_segment(own, one, two))
        least = np.where(within, np.minimum(least, np.abs(high)), least)
        p, q, r = a - own, b - own, c - own
        x, y, z = (np.linalg.norm(v, axis=1) for v in (p, q, r))
        over = np.einsum("ij,ij->i", p, np.cross(q, r))
        under = (
            x * y * z
            + np.einsum("ij,ij->i", p, q) * z
            + np.einsum("ij,ij->i", q, r) * x
            + np.einsum("ij,ij->i", r, p) * y
        )
        angle += 2.0 * np.arctan2(over, under)
    return np.where(np.abs(angle) > 2.0 * np.pi, -least, least)


def gaps(
    body: Any,
    points: Reals,
    radius: float,
    moved: float = 0.0,
    triangles: Reals | None = None,
) -> Reals:
    """Gap of a hose at each point to a body in the worst place of its travel."""
    travel = np.array(getattr(body, "grown", (0.0, 0.0, 0.0)))
    least = np.full(len(points), np.inf)
    for signs in {tuple(np.sign(travel) * s) for s in product((-1, 0, 1), repeat=3)}:
        there = points - np.array(signs) * travel
        if triangles is None:
            found = distance(body, there)
        else:
            own = (there - np.array(body.middle)) @ np.array(body.turn)
            found = mesh_distance(triangles, own)
        least = np.minimum(least, found)
    return least - radius - moved


def check(
    corners: Sequence[Any],
    radii: Sequence[float],
    radius: float,
    bodies: Iterable[Any],
    *,
    bend_radius: float = 0.0,
    straight: float = 0.0,
    moved: Mapping[str, float] | None = None,
    limits: Mapping[str, float] | None = None,
    leave: Collection[str] = (),
    triangles: Mapping[str, Reals] | None = None,
    slack: float = 2e-4,
) -> list[Fault]:
    """What is wrong with the course of a hose; nothing if it is good.

    ``limits`` is the gap that a body asks where it is not its own ``clearance``, by id;
    ``moved`` is by what bodies ride on; ``triangles`` of the bodies that are meshes. ``slack``
    [m] is what a gap may be missed by; radii and straights after both collars are held to a
    hundredth of a millimetre, and directions where pieces meet to a microradian.
    """
    points = samples(corners, radii)
    faults = []
    course = pieces(corners, radii)
    for off, where in kinks(course):
        faults.append(Fault("kink", "", off, 0.0, _spot(where)))
    # The radius of each arc as its own ends tell it, to a hundredth of a millimetre; then that of
    # the circle through each three points a millimetre apart: a double tells their sagitta, some
    # micrometres, to a billionth, so that a tenth of a thousandth is ample.
    for each in course:
        if np.isfinite(each.radius) and each.length > 1e-6:
            bow = 2.0 * np.arctan2(
                np.linalg.norm(each.way_out - each.way_in),
                np.linalg.norm(each.way_out + each.way_in),
            )
            told = float(np.linalg.norm(each.end - each.begin) / (2.0 * np.sin(bow / 2.0)))
            if told < bend_radius - 1e-5:
                faults.append(Fault("bend", "", told, bend_radius, _spot(each.begin)))
    tight, where = tightest(samples(corners, radii, STEP / 20.0))
    if tight < (1.0 - 1e-4) * bend_radius:
        faults.append(Fault("curve", "", tight, bend_radius, _spot(where)))
    for which, piece in (("A", course[0]), ("B", course[-1])):
        run = piece.length if not np.isfinite(piece.radius) else 0.0
        if run < straight - 1e-5:
            faults.append(Fault("straight", which, run, straight, _spot(piece.begin)))
    for i, (a, b) in enumerate(pairwise(np.asarray(corners, dtype=np.float64))):
        need = sum(_trim(corners, radii, k) for k in (i - 1, i) if 0 <= k < len(radii))
        if need > np.linalg.norm(b - a) + slack:
            faults.append(Fault("corner", "", float(np.linalg.norm(b - a)), need, tuple(a)))
    for body in bodies:
        if body.id in leave:
            continue
        found = gaps(
            body,
            points,
            radius,
            (moved or {}).get(body.rides, 0.0),
            (triangles or {}).get(body.id),
        )
        limit = (limits or {}).get(body.id, body.clearance)
        n = int(np.argmin(found))
        if found[n] < limit - slack:
            at = (float(points[n, 0]), float(points[n, 1]), float(points[n, 2]))
            faults.append(Fault("gap", body.id, float(found[n]), limit, at))
    return faults


def _spot(at: Reals) -> tuple[float, float, float]:
    return (float(at[0]), float(at[1]), float(at[2]))


def _trim(corners: Sequence[Any], radii: Sequence[float], k: int) -> float:
    p = np.asarray(corners, dtype=np.float64)
    u, v = p[k + 1] - p[k], p[k + 2] - p[k + 1]
    cosine = u @ v / np.linalg.norm(u) / np.linalg.norm(v)
    return float(radii[k] * np.sqrt(max(0.0, 1 - cosine) / max(1 + cosine, 1e-12)))
