# SPDX-License-Identifier: Apache-2.0
"""How far points are from bodies: the compiled part.

Distances are signed, negative inside. They are exact outside each body, and inside one
without holes; none changes by more than a point moves, on which `nearest.along_of` relies.
"""

from math import inf, sqrt

import numpy as np
from numpy.typing import NDArray

from linewright.base.kernels import njit

Reals = NDArray[np.float64]
Whole = NDArray[np.int64]

#: What a body is; all below ``HOLED`` are plain.
BOX, CYLINDER, CAPSULE, HALF_SPACE, HOLED, MESH = 0, 1, 2, 3, 4, 5


@njit
def off_box(box: Reals, k: int, x: float, y: float, z: float) -> float:
    """Square of the distance to a box along the axes, 0 inside."""
    a = max(box[k, 0] - x, 0.0, x - box[k, 3])
    b = max(box[k, 1] - y, 0.0, y - box[k, 4])
    c = max(box[k, 2] - z, 0.0, z - box[k, 5])
    return float(a * a + b * b + c * c)


@njit
def off_triangle(
    corners: Reals, t: int, x: float, y: float, z: float
) -> tuple[float, int, float, float, float]:
    """Square of the distance to a triangle, which feature is nearest, and the way to it.

    The regions are those of Ericson, Real-Time Collision Detection (2005), 5.1.5.
    """
    ax, ay, az = corners[t, 0, 0], corners[t, 0, 1], corners[t, 0, 2]
    ux, uy, uz = corners[t, 1, 0] - ax, corners[t, 1, 1] - ay, corners[t, 1, 2] - az
    vx, vy, vz = corners[t, 2, 0] - ax, corners[t, 2, 1] - ay, corners[t, 2, 2] - az
    px, py, pz = x - ax, y - ay, z - az
    d1, d2 = ux * px + uy * py + uz * pz, vx * px + vy * py + vz * pz
    uu, vv = ux * ux + uy * uy + uz * uz, vx * vx + vy * vy + vz * vz
    uv = ux * vx + uy * vy + uz * vz
    d3, d4 = d1 - uu, d2 - uv  # the same two seen from b
    d5, d6 = d1 - uv, d2 - vv  # and from c
    vc = d1 * d4 - d3 * d2
    vb = d5 * d2 - d1 * d6
    va = d3 * d6 - d5 * d4
    if d1 <= 0.0 and d2 <= 0.0:
        feature, s, r = 4, 0.0, 0.0
    elif d3 >= 0.0 and d4 <= d3:
        feature, s, r = 5, 1.0, 0.0
    elif d6 >= 0.0 and d5 <= d6:
        feature, s, r = 6, 0.0, 1.0
    elif vc <= 0.0 and d1 >= 0.0 and d3 <= 0.0:
        feature, s, r = 1, d1 / (d1 - d3), 0.0
    elif vb <= 0.0 and d2 >= 0.0 and d6 <= 0.0:
        feature, s, r = 3, 0.0, d2 / (d2 - d6)
    elif va <= 0.0 and d4 - d3 >= 0.0 and d5 - d6 >= 0.0:
        r = (d4 - d3) / ((d4 - d3) + (d5 - d6))
        feature, s = 2, 1.0 - r
    else:
        whole = va + vb + vc
        feature, s, r = 0, vb / whole, vc / whole
    qx, qy, qz = px - s * ux - r * vx, py - s * uy - r * vy, pz - s * uz - r * vz
    return qx * qx + qy * qy + qz * qz, feature, qx, qy, qz


@njit
def in_own_axes(solid: Reals, i: int, x: float, y: float, z: float) -> tuple[float, float, float]:
    """A point of the car in a body's own axes: the columns of its turn."""
    x, y, z = x - solid[i, 0], y - solid[i, 1], z - solid[i, 2]
    return (
        x * solid[i, 3] + y * solid[i, 6] + z * solid[i, 9],
        x * solid[i, 4] + y * solid[i, 7] + z * solid[i, 10],
        x * solid[i, 5] + y * solid[i, 8] + z * solid[i, 11],
    )


@njit
def off_solid(kind: int, solid: Reals, i: int, x: float, y: float, z: float) -> float:
    """Signed distance to a box, cylinder, capsule or half-space."""
    u, v, w = in_own_axes(solid, i, x, y, z)
    if kind == HALF_SPACE:
        return float(w)
    over = abs(w) - solid[i, 14]
    if kind == CAPSULE:
        over = max(over, 0.0)
        return float(sqrt(u * u + v * v + over * over) - solid[i, 12])
    if kind == CYLINDER:
        out = sqrt(u * u + v * v) - solid[i, 12]
        if out <= 0.0 or over <= 0.0:
            return float(max(out, over))
        return sqrt(out * out + over * over)
    p, q = abs(u) - solid[i, 12], abs(v) - solid[i, 13]
    most = max(p, q, over)
    if most <= 0.0:
        return float(most)
    p, q, over = max(p, 0.0), max(q, 0.0), max(over, 0.0)
    return sqrt(p * p + q * q + over * over)


@njit
def off_holed(
    solid: Reals, holes: Reals, begin: int, end: int, i: int, x: float, y: float, z: float
) -> float:
    """Signed distance to a box with round holes along its z."""
    u, v, w = in_own_axes(solid, i, x, y, z)
    over = max(abs(w) - solid[i, 14], 0.0)
    found = off_solid(BOX, solid, i, x, y, z)
    for h in range(begin, end):
        out = sqrt((u - holes[h, 0]) ** 2 + (v - holes[h, 1]) ** 2) - holes[h, 2]
        if out < 0.0:
            return sqrt(out * out + over * over)
        if found < 0.0:
            found = max(found, -out)
    return found


@njit
def off_mesh(
    root: int,
    is_closed: bool,
    box: Reals,
    left: Whole,
    begin: Whole,
    end: Whole,
    corners: Reals,
    normals: Reals,
    x: float,
    y: float,
    z: float,
    best: float,
    stack: Whole,
    bound: Reals,
) -> float:
    """Signed distance to a mesh in its own axes; infinite where it is over ``best``.

    Inside and outside are told apart by the angle-weighted normal of the nearest feature
    (Bærentzen and Aanæs 2005). An open mesh has no inside.
    """
    near = inf
    if best < inf and (not is_closed or off_box(box, root, x, y, z) > 0.0):
        # Only outside may what is too far be left alone: inside, far is deep.
        near = max(best, 0.0) ** 2 * (1.0 + 1e-12) + 1e-300
    limit = near
    sign = 1.0
    top = 0
    stack[0], bound[0] = root, off_box(box, root, x, y, z)
    while top >= 0:
        k, off = stack[top], bound[top]
        top -= 1
        if off > near:
            continue
        if left[k]:
            one = left[k]
            two = one + 1
            to_one = off_box(box, one, x, y, z)
            to_two = off_box(box, two, x, y, z)
            if to_one < to_two:
                one, two, to_one, to_two = two, one, to_two, to_one
            if to_one <= near:
                top += 1
                stack[top], bound[top] = one, to_one
            if to_two <= near:
                top += 1
                stack[top], bound[top] = two, to_two
            continue
        for t in range(begin[k], end[k]):
            square, feature, qx, qy, qz = off_triangle(corners, t, x, y, z)
            if square < near:
                near = square
                ahead = (
                    qx * normals[t, feature, 0]
                    + qy * normals[t, feature, 1]
                    + qz * normals[t, feature, 2]
                )
                sign = 1.0 if ahead >= 0.0 else -1.0
    if near == limit:
        return inf
    return sign * sqrt(near) if is_closed else sqrt(near)
