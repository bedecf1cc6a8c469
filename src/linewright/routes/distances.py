# SPDX-License-Identifier: Apache-2.0
"""How far points are from bodies: the compiled part.

Distances are signed, negative inside. They are exact outside each body, and inside one
without holes; none changes by more than a point moves, on which `along_of` relies.
"""

from math import inf, sqrt
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from linewright.base.kernels import njit, prange

Reals = NDArray[np.float64]
Whole = NDArray[np.int64]
Flags = NDArray[np.bool_]

BOX, CYLINDER, CAPSULE, HALF_SPACE, MESH = 0, 1, 2, 3, 4

# A tree of halves is no deeper than this for any number of bodies that memory holds.
DEPTH = 64


class Tree(NamedTuple):
    """Boxes around boxes: what lies far off is passed over in one step.

    A node holds the items ``order[first]`` to ``order[last - 1]``; ``left`` is its first
    child, its second follows that; 0 marks a leaf.
    """

    low: Reals  # (nodes, 3)
    high: Reals
    left: Whole
    first: Whole
    last: Whole
    order: Whole


class Bodies(NamedTuple):
    """Bodies as arrays, one row each; in own axes the long or square one is z."""

    kind: Whole
    middle: Reals  # (n, 3)
    turn: Reals  # (n, 3, 3): rows turn own axes into the car's
    half: Reals  # (n, 3): half sizes; radius, radius, half length (of a capsule: of its core)
    first: Whole  # first hole of a box; root of a mesh's tree
    last: Whole  # after its last hole; 1 for a closed mesh
    holes: Reals  # (m, 3): x and y in the box's own axes, radius
    corners: Reals  # (t, 3, 3): of every triangle, in its mesh's own axes
    normals: Reals  # (t, 7, 3): of the face, its edges ab, bc, ca and its corners a, b, c
    low: Reals  # trees of the meshes, one after the other
    high: Reals
    left: Whole
    begin: Whole
    end: Whole


@njit
def grow_tree(
    low: Reals, high: Reals, leaf: int
) -> tuple[Reals, Reals, Whole, Whole, Whole, Whole]:
    """Build a tree by halving along the longest side; ties keep the order of the items."""
    n = low.shape[0]
    most = max(1, 2 * n)
    lows = np.empty((most, 3))
    highs = np.empty((most, 3))
    left = np.zeros(most, np.int64)
    first = np.zeros(most, np.int64)
    last = np.zeros(most, np.int64)
    order = np.arange(n)
    last[0] = n
    nodes = 1
    k = 0
    while k < nodes:
        a, b = first[k], last[k]
        wide, axis = -1.0, 0
        for j in range(3):
            lows[k, j], highs[k, j] = inf, -inf
            near, far = inf, -inf
            for i in range(a, b):
                o = order[i]
                lows[k, j] = min(lows[k, j], low[o, j])
                highs[k, j] = max(highs[k, j], high[o, j])
                centre = 0.5 * (low[o, j] + high[o, j])
                near, far = min(near, centre), max(far, centre)
            if far - near > wide:
                wide, axis = far - near, j
        if b - a > leaf:
            keys = np.empty(b - a)
            for i in range(a, b):
                keys[i - a] = low[order[i], axis] + high[order[i], axis]
            order[a:b] = order[a:b][np.argsort(keys, kind="mergesort")]
            left[k] = nodes
            first[nodes], last[nodes] = a, (a + b) // 2
            first[nodes + 1], last[nodes + 1] = (a + b) // 2, b
            nodes += 2
        k += 1
    return lows[:nodes], highs[:nodes], left[:nodes], first[:nodes], last[:nodes], order


@njit
def most_below(tree: Tree, value: Reals) -> Reals:
    """Greatest value of the items in each node of a tree."""
    found = np.full(tree.left.shape[0], -inf)
    for k in range(tree.left.shape[0] - 1, -1, -1):
        if tree.left[k]:
            found[k] = max(found[tree.left[k]], found[tree.left[k] + 1])
        else:
            for i in range(tree.first[k], tree.last[k]):
                found[k] = max(found[k], value[tree.order[i]])
    return found


@njit
def _off_box(low: Reals, high: Reals, k: int, x: float, y: float, z: float) -> float:
    """Square of the distance to a box along the axes, 0 inside."""
    a = max(low[k, 0] - x, 0.0, x - high[k, 0])
    b = max(low[k, 1] - y, 0.0, y - high[k, 1])
    c = max(low[k, 2] - z, 0.0, z - high[k, 2])
    return a * a + b * b + c * c


@njit
def _off_triangle(
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
def _off_mesh(
    b: Bodies, i: int, x: float, y: float, z: float, best: float, stack: Whole, bound: Reals
) -> float:
    """Signed distance to a mesh, or something over ``best`` where it is further than that.

    Inside and outside are told apart by the angle-weighted normal of the nearest feature
    (Bærentzen and Aanæs 2005). An open mesh has no inside.
    """
    root = b.first[i]
    is_closed = b.last[i] == 1
    near = inf
    if best < inf and (not is_closed or _off_box(b.low, b.high, root, x, y, z) > 0.0):
        # Only outside may what is too far be left alone: inside, far is deep.
        near = max(best, 0.0) ** 2 * (1.0 + 1e-12) + 1e-300
    limit = near
    sign = 1.0
    top = 0
    stack[0], bound[0] = root, _off_box(b.low, b.high, root, x, y, z)
    while top >= 0:
        k, off = stack[top], bound[top]
        top -= 1
        if off > near:
            continue
        if b.left[k]:
            one = b.left[k]
            two = one + 1
            to_one = _off_box(b.low, b.high, one, x, y, z)
            to_two = _off_box(b.low, b.high, two, x, y, z)
            if to_one < to_two:
                one, two, to_one, to_two = two, one, to_two, to_one
            if to_one <= near:
                top += 1
                stack[top], bound[top] = one, to_one
            if to_two <= near:
                top += 1
                stack[top], bound[top] = two, to_two
            continue
        for t in range(b.begin[k], b.end[k]):
            square, feature, qx, qy, qz = _off_triangle(b.corners, t, x, y, z)
            if square < near:
                near = square
                n = b.normals[t, feature]
                sign = 1.0 if qx * n[0] + qy * n[1] + qz * n[2] >= 0.0 else -1.0
    if near == limit:
        return inf
    return sign * sqrt(near) if is_closed else sqrt(near)


@njit
def _off_body(
    b: Bodies, i: int, x: float, y: float, z: float, best: float, stack: Whole, bound: Reals
) -> float:
    """Signed distance of a point of the car to one body."""
    x, y, z = x - b.middle[i, 0], y - b.middle[i, 1], z - b.middle[i, 2]
    # Own axes are the columns of the turn.
    w = x * b.turn[i, 0, 2] + y * b.turn[i, 1, 2] + z * b.turn[i, 2, 2]
    kind = b.kind[i]
    if kind == HALF_SPACE:
        return w
    u = x * b.turn[i, 0, 0] + y * b.turn[i, 1, 0] + z * b.turn[i, 2, 0]
    v = x * b.turn[i, 0, 1] + y * b.turn[i, 1, 1] + z * b.turn[i, 2, 1]
    if kind == MESH:
        return _off_mesh(b, i, u, v, w, best, stack, bound)
    over = abs(w) - b.half[i, 2]
    if kind == CAPSULE:
        over = max(over, 0.0)
        return sqrt(u * u + v * v + over * over) - b.half[i, 0]
    if kind == CYLINDER:
        out = sqrt(u * u + v * v) - b.half[i, 0]
        if out <= 0.0 or over <= 0.0:
            return max(out, over)
        return sqrt(out * out + over * over)
    p, q = abs(u) - b.half[i, 0], abs(v) - b.half[i, 1]
    most = max(p, q, over)
    if most > 0.0:
        p, q, r = max(p, 0.0), max(q, 0.0), max(over, 0.0)
        found = sqrt(p * p + q * q + r * r)
    else:
        found = most
    for h in range(b.first[i], b.last[i]):
        out = sqrt((u - b.holes[h, 0]) ** 2 + (v - b.holes[h, 1]) ** 2) - b.holes[h, 2]
        if out < 0.0:
            return sqrt(out * out + max(over, 0.0) ** 2)
        if found < 0.0:
            found = max(found, -out)
    return found


@njit
def nearest(
    b: Bodies,
    tree: Tree,
    off: Reals,
    slack: Reals,
    live: Flags,
    x: float,
    y: float,
    z: float,
    best: float,
    work: Whole,
    far: Reals,
) -> tuple[float, int]:
    """Least distance to any live body under ``best``, and to which; ``best`` and -1 if none.

    ``off`` is taken off the distance of each body, ``slack`` is the most of it in each node.
    Of equal bodies the first counts, whatever the shape of the tree.
    """
    who = -1
    if tree.order.shape[0] == 0:
        return best, who
    stack, bound = work[:DEPTH], far[:DEPTH]
    inner, depth = work[DEPTH:], far[DEPTH:]
    top = 0
    stack[0], bound[0] = 0, -inf
    while top >= 0:
        k, least = stack[top], bound[top]
        top -= 1
        if least > best or (least == best and who < 0):
            continue
        if tree.left[k]:
            one = tree.left[k]
            two = one + 1
            square = _off_box(tree.low, tree.high, one, x, y, z)
            to_one = sqrt(square) - slack[one] if square > 0.0 else -inf
            square = _off_box(tree.low, tree.high, two, x, y, z)
            to_two = sqrt(square) - slack[two] if square > 0.0 else -inf
            if to_one < to_two:
                one, two, to_one, to_two = two, one, to_two, to_one
            if to_one <= best:
                top += 1
                stack[top], bound[top] = one, to_one
            if to_two <= best:
                top += 1
                stack[top], bound[top] = two, to_two
            continue
        for j in range(tree.first[k], tree.last[k]):
            i = tree.order[j]
            if live[i]:
                gap = _off_body(b, i, x, y, z, best + off[i], inner, depth) - off[i]
                if gap < best or (gap == best and 0 <= i < who):
                    best, who = gap, i
    return best, who


@njit
def least_of(
    b: Bodies,
    tree: Tree,
    off: Reals,
    slack: Reals,
    live: Flags,
    points: Reals,
    begin: int,
    end: int,
    enough: float,
) -> tuple[float, int, int]:
    """Least distance of some points, at which of them, to which body.

    It stops at the first that is under ``enough``.
    """
    work, far = np.empty(2 * DEPTH, np.int64), np.empty(2 * DEPTH)
    best, at, which = inf, -1, -1
    for n in range(begin, end):
        x, y, z = points[n, 0], points[n, 1], points[n, 2]
        gap, who = nearest(b, tree, off, slack, live, x, y, z, best, work, far)
        if who >= 0:
            best, at, which = gap, n - begin, who
            if best < enough:
                break
    return best, at, which


@njit
def along_of(
    b: Bodies,
    tree: Tree,
    off: Reals,
    slack: Reals,
    live: Flags,
    points: Reals,
    begin: int,
    end: int,
    enough: float,
    within: float,
) -> tuple[float, int, int, float, float, float]:
    """Least distance of a polyline, in which of its pieces, to which body, and where.

    A piece that reaches h to both sides of its middle comes no nearer than the middle less h.
    It is halved until that is no better than what is found, or h is under ``within``: so the
    least is at most ``within`` too great.
    """
    best, at, which = least_of(b, tree, off, slack, live, points, begin, end, enough)
    if which < 0 or best < enough:
        n = begin + max(at, 0)
        return best, at, which, points[n, 0], points[n, 1], points[n, 2]
    bx, by, bz = points[begin + at, 0], points[begin + at, 1], points[begin + at, 2]
    at = max(0, min(at, end - begin - 2))
    work, far = np.empty(2 * DEPTH, np.int64), np.empty(2 * DEPTH)
    starts, parts = np.empty(DEPTH), np.empty(DEPTH)
    for n in range(begin, end - 1):
        px, py, pz = points[n, 0], points[n, 1], points[n, 2]
        dx, dy, dz = points[n + 1, 0] - px, points[n + 1, 1] - py, points[n + 1, 2] - pz
        long = sqrt(dx * dx + dy * dy + dz * dz)
        top = 0
        starts[0], parts[0] = 0.0, 1.0
        while top >= 0:
            start, part = starts[top], parts[top]
            top -= 1
            half = 0.5 * part * long
            share = start + 0.5 * part
            x, y, z = px + share * dx, py + share * dy, pz + share * dz
            # What the middle is asked: does anything come within best less ``within`` there?
            limit = best - within + half
            gap, who = nearest(b, tree, off, slack, live, x, y, z, limit, work, far)
            if who < 0:
                continue
            if gap < best:
                best, at, which, bx, by, bz = gap, n - begin, who, x, y, z
                if best < enough:
                    return best, at, which, bx, by, bz
            if half > within and top + 2 < DEPTH:
                top += 1
                starts[top], parts[top] = share, 0.5 * part
                top += 1
                starts[top], parts[top] = start, 0.5 * part
    return best, at, which, bx, by, bz


@njit
def each_point(
    b: Bodies,
    tree: Tree,
    off: Reals,
    slack: Reals,
    live: Flags,
    points: Reals,
    gaps: Reals,
    which: Whole,
    begin: int,
    end: int,
) -> None:
    """Distance of every point to its nearest body."""
    work, far = np.empty(2 * DEPTH, np.int64), np.empty(2 * DEPTH)
    for n in range(begin, end):
        gaps[n], which[n] = nearest(
            b,
            tree,
            off,
            slack,
            live,
            points[n, 0],
            points[n, 1],
            points[n, 2],
            inf,
            work,
            far,
        )


@njit(parallel=True)
def all_points(
    b: Bodies,
    tree: Tree,
    off: Reals,
    slack: Reals,
    live: Flags,
    points: Reals,
    gaps: Reals,
    which: Whole,
    block: int,
) -> None:
    """`each_point` on all cores, in blocks."""
    n = points.shape[0]
    for c in prange((n + block - 1) // block):
        each_point(
            b,
            tree,
            off,
            slack,
            live,
            points,
            gaps,
            which,
            c * block,
            min(n, (c + 1) * block),
        )


@njit(parallel=True)
def least_paths(
    b: Bodies,
    tree: Tree,
    off: Reals,
    slack: Reals,
    live: Flags,
    points: Reals,
    starts: Whole,
    enough: Reals,
    gaps: Reals,
    at: Whole,
    which: Whole,
) -> None:
    """`least_of` for many sets of points on all cores; set p is starts[p] to starts[p+1]."""
    for p in prange(starts.shape[0] - 1):
        gaps[p], at[p], which[p] = least_of(
            b, tree, off, slack, live, points, starts[p], starts[p + 1], enough[p]
        )


@njit(parallel=True)
def along_paths(
    b: Bodies,
    tree: Tree,
    off: Reals,
    slack: Reals,
    live: Flags,
    points: Reals,
    starts: Whole,
    enough: Reals,
    within: float,
    gaps: Reals,
    at: Whole,
    which: Whole,
    where: Reals,
) -> None:
    """`along_of` for many polylines on all cores."""
    for p in prange(starts.shape[0] - 1):
        gaps[p], at[p], which[p], where[p, 0], where[p, 1], where[p, 2] = along_of(
            b, tree, off, slack, live, points, starts[p], starts[p + 1], enough[p], within
        )
