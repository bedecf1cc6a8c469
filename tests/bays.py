# SPDX-License-Identifier: Apache-2.0
"""Generated bays: bodies thrown at random round a hose that is known to lie clear of them."""

from dataclasses import dataclass
from math import pi

import numpy as np
from numpy.typing import NDArray

from linewright.base.frames import rotation
from linewright.base.vectors import Vector, ahead, dot, unit
from linewright.car.model import Shape
from linewright.routes.shapes import end_shapes
from linewright.space.bodies import Solid
from linewright.space.free import collar, shortest
from linewright.space.model import Frame, Limits, Setting
from linewright.space.path import Path, sample
from tests import dense_check

SIZE = (1.4, 0.9, 0.7)
LIMITS = Limits(0.0196, 0.141, 0.0392, 0.010)
SHAPES = end_shapes("rubber", "-8")


@dataclass(frozen=True)
class Bay:
    """Two ports, bodies, and the course of the hose that was there first."""

    a: Frame
    b: Frame
    bodies: tuple[Solid, ...]
    planted: tuple[Path, ...]


def _arrow(random: np.random.Generator) -> Vector:
    x, y, z = random.normal(size=3)
    return unit((float(x), float(y), float(z)))


def _point(random: np.random.Generator, rim: float) -> Vector:
    x, y, z = (float(random.uniform(rim, side - rim)) for side in SIZE)
    return (x, y, z)


def _frame(random: np.random.Generator) -> Frame:
    out = _arrow(random)
    side = _arrow(random)
    return Frame(_point(random, 0.1), out, unit(ahead(side, out, -dot(side, out))))


def planted(random: np.random.Generator) -> tuple[Frame, Frame, list[Path], list[Setting]]:
    """A hose by way of none to two poses, its ends of any angle and turn."""
    while True:
        ports = _frame(random), _frame(random)
        shapes = [SHAPES[int(random.integers(len(SHAPES)))] for _ in ports]
        ends = [
            collar(port, shape, float(random.uniform(0, 2 * pi)))
            for port, shape in zip(ports, shapes, strict=True)
        ]
        stops = [(_point(random, 0.15), _arrow(random)) for _ in range(int(random.integers(3)))]
        starts = [(ends[0].collar, ends[0].n), *((at, (-w[0], -w[1], -w[2])) for at, w in stops)]
        goals = [*stops, (ends[1].collar, (-ends[1].n[0], -ends[1].n[1], -ends[1].n[2]))]
        paths = []
        for k, ((at, n), (to, way)) in enumerate(zip(starts, goals, strict=True)):
            lead_a = LIMITS.straight if k == 0 else 0.0
            lead_b = LIMITS.straight if k == len(stops) else 0.0
            go: Vector = (-n[0], -n[1], -n[2])
            leg = shortest(
                ahead(at, go, lead_a),
                go,
                ahead(to, way, -lead_b),
                (-way[0], -way[1], -way[2]),
                LIMITS.bend_radius,
                0.0,
            )
            if leg is None:
                break
            corners = leg.corners
            paths.append(Path((at, *corners[1:-1], to), leg.radii) if corners else leg)
        if len(paths) != len(starts):
            continue
        points = np.concatenate([sample(path, 0.01) for path in paths])
        inside = np.all((points > -0.05) & (points < np.array(SIZE) + 0.05))
        if inside and len(points) < 350:
            return ports[0], ports[1], paths, ends


def bay(seed: int, count: int = 30) -> Bay:
    """A bay with so many bodies, none nearer to the planted hose than it may be."""
    random = np.random.default_rng(seed)
    a, b, paths, ends = planted(random)
    near = near_to(a, b, paths, ends)
    return Bay(a, b, tuple(thrown(random, near, count, [])), tuple(paths))


def walled(seed: int, count: int = 30, slabs: int = 3) -> Bay:
    """The same with slabs across the way from port to port: the planted hose goes round them."""
    random = np.random.default_rng([seed, slabs])
    a, b, paths, ends = planted(random)
    near = near_to(a, b, paths, ends)
    bodies: list[Solid] = []
    one, two = np.array(a.origin), np.array(b.origin)
    for _ in range(400):
        if len(bodies) == slabs:
            break
        along = float(random.uniform(0.2, 0.8))
        middle = one + along * (two - one) + random.normal(scale=0.08, size=3)
        # Its thin side looks from port to port, by and large.
        way = (two - one) / np.linalg.norm(two - one) + random.normal(scale=0.25, size=3)
        yaw, pitch = (
            float(np.arctan2(way[1], way[0])),
            float(np.arctan2(-way[2], np.hypot(*way[:2]))),
        )
        wide, high = (float(v) for v in random.uniform(0.35, 0.8, 2))
        x, y, z = (float(v) for v in middle)
        slab = Solid(
            f"s{len(bodies)}",
            Shape.BOX,
            (x, y, z),
            rotation(yaw, pitch, float(random.uniform(-pi, pi))),
            (0.04, wide, high),
            clearance=LIMITS.clearance,
        )
        if dense_check.gaps(slab, near, LIMITS.outside / 2.0).min() > LIMITS.clearance + 0.004:
            bodies.append(slab)
    return Bay(a, b, tuple(thrown(random, near, count, bodies)), tuple(paths))


def near_to(a: Frame, b: Frame, paths: list[Path], ends: list[Setting]) -> "Reals":
    """Points of a hose and of its ends, which no body may come near."""
    points = np.concatenate([sample(path, 0.004) for path in paths])
    fittings = []
    for port, end in zip((a, b), ends, strict=True):
        tip = np.array(port.origin)
        bend = tip + np.array(port.out) * 0.04
        collar_at = np.array(end.collar)
        for from_, to in ((tip, bend), (bend, collar_at), (tip, collar_at)):
            fittings.append(from_ + np.linspace(0, 1, 15)[:, None] * (to - from_))
    return np.concatenate([points, *fittings])


def thrown(
    random: np.random.Generator, near: "Reals", count: int, bodies: list[Solid]
) -> list[Solid]:
    """Bodies thrown at random till there are so many, none near to those points."""
    while len(bodies) < count:
        shape = (Shape.BOX, Shape.CYLINDER, Shape.CAPSULE)[int(random.integers(3))]
        x, y, z = (float(v) for v in random.uniform(0.06, 0.35, 3))
        size = (x, y, z) if shape is Shape.BOX else (x, x, z + (x if shape is Shape.CAPSULE else 0))
        solid = Solid(
            f"b{len(bodies):02}",
            shape,
            _point(random, 0.0),
            rotation(*(float(t) for t in random.uniform(-pi, pi, 3))),
            size,
            clearance=LIMITS.clearance,
        )
        gap = dense_check.gaps(solid, near, LIMITS.outside / 2.0)
        if gap.min() > LIMITS.clearance + 0.004:
            bodies.append(solid)
    return bodies


Reals = NDArray[np.float64]
