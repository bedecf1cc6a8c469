# SPDX-License-Identifier: Apache-2.0
"""Hoses in free space by trying every 5° of both elbows: an answer to hold the search against.

It shares with the search only the curve-straight-curve from one directed point to another,
which is checked by itself (`tests/unit/space/test_free.py`, `tests/worked/test_free_space.py`).
Where an elbow puts its collar, what a course costs and how all settings are gone through is
written here anew.
"""

from math import inf, pi
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from linewright.base.kernels import njit, prange
from linewright.routes.tasks import Side, Task
from linewright.space._curves import PLACES, joined_within

if TYPE_CHECKING:
    from numpy.typing import NDArray

Floats: TypeAlias = "NDArray[np.float64]"

PLACED = 72
# What is refused as a loop, and from where on a bend counts in full: docs/reference/routes.md.
LOOP, FULL = 1.2 * pi, pi / 18.0


def _turned(vector: Floats, axis: Floats, angle: float) -> Floats:
    """Rodrigues' rotation."""
    c, s = np.cos(angle), np.sin(angle)
    turned: Floats = c * vector + s * np.cross(axis, vector) + (1 - c) * (axis @ vector) * axis
    return turned


def placed(side: Side, straight: float, end: float) -> list[Floats]:
    """Settings of each hose end: where the lead ends, its direction, low, high, cost."""
    origin, out = np.array(side.frame.origin), np.array(side.frame.out)
    across = np.array(side.frame.side)
    cheapest = side.shapes[0].price_index
    found = []
    for shape in side.shapes:
        rows = []
        for k in range(PLACED if shape.angle else 1):
            way = _turned(across, out, 2.0 * pi * k / PLACED)
            # The hose leaves along the port, bent by the elbow towards ``way``.
            leave = _turned(out, np.cross(out, way), np.radians(shape.angle))
            inner = _turned(way, np.cross(out, way), np.radians(shape.angle))
            seat = origin + shape.stick_out * out
            collar = seat + shape.reach * leave - shape.drop * inner
            lead = collar + straight * leave
            bent = np.sin(np.radians(shape.angle))
            leg = shape.drop / bent if bent > 0.02 else shape.drop / 2.0
            corner = seat + leg * out if shape.angle else collar
            marks = np.stack([origin, lead, collar, corner])
            cost = end * shape.price_index / cheapest + shape.reach + straight
            rows.append([*lead, *leave, *marks.min(axis=0), *marks.max(axis=0), cost])
        found.append(np.array(rows))
    return found


@njit
def _reach(at: float, along: float, inward: float, turn: float, way: float, radius: float) -> float:
    """How far an arc gets along one axis, up (way 1) or down (-1)."""
    best = max(way * at, way * (at + radius * (np.sin(turn) * along + (1 - np.cos(turn)) * inward)))
    size = np.sqrt(along * along + inward * inward)
    if size > 0.0:
        # The height is at + R·inward + R·size·cos(angle - top): at the top it is greatest.
        top = np.arctan2(way * along, -way * inward) % (2.0 * np.pi)
        if top < turn:
            best = max(best, way * (at + radius * inward) + radius * size)
    return float(best)


@njit
def _least(one: Floats, two: Floats, radius: float, box: Floats, w: Floats) -> float:
    best = inf
    for i in range(one.shape[0]):
        for j in range(two.shape[0]):
            a, b = one[i], two[j]
            far = np.sqrt(np.sum((b[0:3] - a[0:3]) ** 2))
            # No course is shorter than its chord.
            if far + a[12] + b[12] >= best:
                continue
            d = (b[0:3] - a[0:3]) / radius
            found = joined_within(
                d[0], d[1], d[2], a[3], a[4], a[5], -b[3], -b[4], -b[5], PLACES, LOOP, inf
            )
            size, u, v = found[0], found[1], found[2]
            if size == inf:
                continue
            p = np.array([found[3], found[4], found[5]])
            q = np.array([found[6], found[7], found[8]])
            out = 0.0
            for k in range(3):
                high = max(a[9 + k], b[9 + k])
                high = max(high, _reach(a[k], a[3 + k], p[k], u, 1.0, radius))
                high = max(high, _reach(b[k], b[3 + k], q[k], v, 1.0, radius))
                low = max(-a[6 + k], -b[6 + k])
                low = max(low, _reach(a[k], a[3 + k], p[k], u, -1.0, radius))
                low = max(low, _reach(b[k], b[3 + k], q[k], v, -1.0, radius))
                out += max(0.0, high - box[3 + k]) + max(0.0, low + box[k])
            bent, bent2 = min(u / FULL, 1.0), min(v / FULL, 1.0)
            n, m = np.cross(a[3:6], p), np.cross(b[3:6], q)
            leaning = np.sum(np.cross(n, m) ** 2) * max(0.0, 1.0 - (size - u - v) * radius / w[3])
            cost = size * radius + a[12] + b[12] + w[0] * out + w[1] * (bent + bent2)
            best = min(best, cost + w[2] * bent * bent2 * leaning)
    return best


@njit(parallel=True)
def _every(
    one: Floats, first: Floats, two: Floats, last: Floats, more: Floats, w: Floats, best: Floats
) -> None:
    n = last.shape[0] - 1
    for p in prange((first.shape[0] - 1) * n):
        i, j = p // n, p % n
        a, b = one[int(first[i]) : int(first[i + 1])], two[int(last[j]) : int(last[j + 1])]
        best[i, j] = _least(a, b, more[0], more[1:7], w)


def exhaustive(task: Task) -> Floats:
    """Least cost of every pair of hose ends over 5° settings of both elbows; inf for none."""
    limits, w = task.limits, task.weights
    a, b = (placed(side, limits.straight, w.end) for side in (task.a, task.b))
    first, last = (np.cumsum([0.0, *(len(rows) for rows in found)]) for found in (a, b))
    best = np.full((len(a), len(b)), inf)
    more = np.array([limits.bend_radius, *task.box[0], *task.box[1]])
    weights = np.array([w.outside, w.bend, w.plane, w.between * limits.outside])
    _every(np.concatenate(a), first, np.concatenate(b), last, more, weights, best)
    return best
