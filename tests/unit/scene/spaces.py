# SPDX-License-Identifier: Apache-2.0
"""Small cars in space made by hand for the tests of views; all are invented."""

import random

from linewright.base.frames import rotation
from linewright.base.vectors import Vector
from linewright.car.model import Shape, ZoneKind
from linewright.scene.spatial_things import Dot, Hose, Slab, Space
from linewright.space.bodies import Solid
from linewright.space.path import Path

LEVEL = rotation(0.0, 0.0, 0.0)


def box(key: str, middle: Vector, size: Vector, yaw: float = 0.0, pitch: float = 0.0) -> Solid:
    """A box in the car."""
    return Solid(key, Shape.BOX, middle, rotation(yaw, pitch, 0.0), size)


def hose(
    key: str,
    path: Path,
    outside: float = 0.025,
    ends: tuple[tuple[Vector, ...], tuple[Vector, ...]] | None = None,
) -> Hose:
    """A hose of the oil system; without hose ends unless they are given."""
    bare = ends or ((path.corners[0],), (path.corners[-1],))
    return Hose(key, key, ("a.out", "b.in"), "oil", "O", "O", outside, path, bare)


def straight(key: str, a: Vector, b: Vector, outside: float = 0.025) -> Hose:
    """A straight hose."""
    return hose(key, Path((a, b), ()), outside)


BENT = Path(
    ((0.0, 0.0, 0.3), (0.6, 0.0, 0.3), (0.6, 0.5, 0.3), (0.6, 0.5, 0.8), (0.9, 0.5, 0.8)),
    (0.15, 0.12, 0.1),
)


def bay() -> Space:
    """A bay with one of everything."""
    solids = (
        box("ENG", (0.4, 0.0, 0.3), (0.6, 0.4, 0.3)),
        Solid("can", Shape.CYLINDER, (1.2, 0.3, 0.4), LEVEL, (0.2, 0.2, 0.5)),
        Solid("acc", Shape.CAPSULE, (1.2, -0.3, 0.4), rotation(0, 0.4, 0), (0.1, 0.1, 0.4)),
    )
    zones = (
        Solid(
            "wheel",
            Shape.CYLINDER,
            (0.0, -0.7, 0.3),
            rotation(0.0, 0.0, 1.5707963267948966),
            (0.6, 0.6, 0.2),
            zone=ZoneKind.MOVING,
            grown=(0.05, 0.0, 0.08),
        ),
    )
    wall = Slab(
        "firewall",
        (0.9, 0.0, 0.5),
        (1.0, 0.0, 0.0),
        (0.0, 1.0, 0.0),
        (0.0, 0.0, 1.0),
        0.0012,
        0.6,
        0.4,
        (((0.9, 0.2, 0.5), 0.015),),
    )
    ends = (((0.0, 0.0, 0.24), (0.0, 0.0, 0.3)), ((0.95, 0.5, 0.8), (0.9, 0.5, 0.8)))
    return Space(
        solids,
        zones,
        (wall,),
        (Dot("ENG.out", (0.0, 0.0, 0.24), (0.0, 0.0, -1.0)), Dot("can.in", (1.2, 0.2, 0.5), None)),
        (hose("O01", BENT, 0.0254, ends), straight("O02", (0.2, 0.6, 0.1), (1.4, -0.5, 0.1))),
        {"ENG": "engine"},
        (("O", "oil"),),
    )


def crowd(seed: int, count: int = 24) -> Space:
    """A crowded bay drawn from a seed."""
    draws = random.Random(seed)

    def point() -> Vector:
        return draws.uniform(0, 1.6), draws.uniform(-0.6, 0.6), draws.uniform(0, 0.9)

    solids = tuple(
        box(
            f"part-{i}",
            point(),
            (draws.uniform(0.03, 0.5), draws.uniform(0.03, 0.3), draws.uniform(0.03, 0.3)),
            draws.uniform(0, 3),
        )
        for i in range(count)
    )
    hoses = tuple(
        straight(f"O{i:02}", point(), point(), draws.uniform(0.01, 0.05))
        for i in range(1, count + 1)
    )
    dots = tuple(Dot(f"part-{i}.a", point(), (0.0, 0.0, 1.0)) for i in range(count))
    return Space(solids, (), (), dots, hoses, {}, (("O", "oil"),))
