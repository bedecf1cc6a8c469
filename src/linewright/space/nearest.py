# SPDX-License-Identifier: Apache-2.0
"""Which body is nearest, of many, to many points: the compiled part."""

from math import inf, sqrt
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from linewright.base.kernels import njit, prange
from linewright.space.distances import (
    HOLED,
    Reals,
    Whole,
    in_own_axes,
    off_box,
    off_holed,
    off_mesh,
    off_solid,
)

Flags = NDArray[np.bool_]

# A tree of halves is no deeper than this for any number of bodies that memory holds.
DEPTH = 64


class Tree(NamedTuple):
    """Boxes around boxes: what lies far off is passed over in one step.

    A node holds the items ``order[first]`` to ``order[last - 1]``; ``left`` is its first
    child, its second follows that; 0 marks a leaf. ``box`` is its low and high corner.
    """

    box: Reals  # (nodes, 6)
    left: Whole
    first: Whole
    last: Whole
    order: Whole


class Bodies(NamedTuple):
    """Bodies as arrays, one row each; in own axes the long or square one is z.

    ``solid`` holds the middle; the rows that turn own axes into the car's; half sizes: of a
    cylinder radius, radius, half length, of a capsule the same with the length of its core.
    """

    kind: Whole
    solid: Reals  # (n, 15)
    first: Whole  # first hole of a box; root of a mesh's tree
    last: Whole  # after its last hole; 1 for a closed mesh
    holes: Reals  # (m, 3): x and y in the box's own axes, radius
    corners: Reals  # (t, 3, 3): of every triangle, in its mesh's own axes
    normals: Reals  # (t, 7, 3): of the face, its edges ab, bc, ca and its corners a, b, c
    box: Reals  # trees of the meshes, one after the other; their triangles are in order
    left: Whole
    begin: Whole
    end: Whole


@njit
def grow_tree(low: Reals, high: Reals, leaf: int) -> tuple[Reals, Whole, Whole, Whole, Whole]:
    """Build a tree by halving along the longest side; ties keep the order of the items."""
    n = low.shape[0]
    most = max(1, 2 * n)
    box = np.empty((most, 6))
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
            box[k, j], box[k, 3 + j] = inf, -inf
            near, far = inf, -inf
            for i in range(a, b):
                o = order[i]
                box[k, j] = min(box[k, j], low[o, j])
                box[k, 3 + j] = max(box[k, 3 + j], high[o, j])
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
    return box[:nodes].copy(), left[:nodes], first[:nodes], last[:nodes], order


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
    kinds, solid = b.kind, b.solid
    box, left, first, last, order = tree.box, tree.left, tree.first, tree.last, tree.order
    if order.shape[0] == 0:
        return best, who
    stack, bound = work[:DEPTH], far[:DEPTH]
    top = 0
    stack[0], bound[0] = 0, -inf
    while top >= 0:
        k, least = stack[top], bound[top]
        top -= 1
        if least > best or (least == best and who < 0):
            continue
        if left[k]:
            one = left[k]
            two = one + 1
            square = off_box(box, one, x, y, z)
            to_one = sqrt(square) - slack[one] if square > 0.0 else -inf
            square = off_box(box, two, x, y, z)
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
        for j in range(first[k], last[k]):
            i = order[j]
            if not live[i]:
                continue
            kind = kinds[i]
            if kind < HOLED:
                gap = off_solid(kind, solid, i, x, y, z)
            elif kind == HOLED:
                gap = off_holed(solid, b.holes, b.first[i], b.last[i], i, x, y, z)
            else:
                u, v, w = in_own_axes(solid, i, x, y, z)
                gap = off_mesh(
                    b.first[i],
                    b.last[i] == 1,
                    b.box,
                    b.left,
                    b.begin,
                    b.end,
                    b.corners,
                    b.normals,
                    u,
                    v,
                    w,
                    best + off[i],
                    work[DEPTH:],
                    far[DEPTH:],
                )
            gap -= off[i]
            if gap < best or (gap == best and 0 <= i < who):
                best, who = gap, i
    return best, who


@njit
def _run(points: Reals, begin: int, end: int) -> Reals:
    """How far along the points each lies, straight from one to the next."""
    run = np.zeros(end - begin)
    for n in range(1, end - begin):
        x = points[begin + n, 0] - points[begin + n - 1, 0]
        y = points[begin + n, 1] - points[begin + n - 1, 1]
        z = points[begin + n, 2] - points[begin + n - 1, 2]
        run[n] = run[n - 1] + sqrt(x * x + y * y + z * z)
    return run


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
    """Least distance of some points in a row, at which of them, to which body.

    Points up to r along from one that is g off are at least g - r off: whole stretches are
    passed over. It stops at the first that is under ``enough``.
    """
    best, at, which = inf, -1, -1
    if end <= begin:
        return best, at, which
    work, far = np.empty(2 * DEPTH, np.int64), np.empty(2 * DEPTH)
    run = _run(points, begin, end)
    froms, tos = np.empty(DEPTH, np.int64), np.empty(DEPTH, np.int64)
    top = 0
    froms[0], tos[0] = 0, end - begin
    while top >= 0:
        i, j = froms[top], tos[top]
        top -= 1
        m = (i + j) // 2
        reach = max(run[m] - run[i], run[j - 1] - run[m])
        x, y, z = points[begin + m, 0], points[begin + m, 1], points[begin + m, 2]
        gap, who = nearest(b, tree, off, slack, live, x, y, z, best + reach, work, far)
        if who < 0:
            continue
        if gap < best:
            best, at, which = gap, m, who
            if best < enough:
                break
        if m + 1 < j:
            top += 1
            froms[top], tos[top] = m + 1, j
        if i < m:
            top += 1
            froms[top], tos[top] = i, m
    return best, at, which


@njit
def met(
    b: Bodies,
    tree: Tree,
    off: Reals,
    slack: Reals,
    live: Flags,
    points: Reals,
    end: int,
    keep: float,
) -> int:
    """Which body the first points in a row come nearer to than ``keep``; -1 for none.

    As `least_of`, but stretches that keep off by enough are not measured.
    """
    if end <= 0:
        return -1
    work, far = np.empty(2 * DEPTH, np.int64), np.empty(2 * DEPTH)
    run = _run(points, 0, end)
    froms, tos = np.empty(DEPTH, np.int64), np.empty(DEPTH, np.int64)
    top = 0
    froms[0], tos[0] = 0, end
    while top >= 0:
        i, j = froms[top], tos[top]
        top -= 1
        m = (i + j) // 2
        reach = max(run[m] - run[i], run[j - 1] - run[m])
        x, y, z = points[m, 0], points[m, 1], points[m, 2]
        gap, who = nearest(b, tree, off, slack, live, x, y, z, keep + reach, work, far)
        if who < 0:
            continue
        if gap < keep:
            return who
        if m + 1 < j:
            top += 1
            froms[top], tos[top] = m + 1, j
        if i < m:
            top += 1
            froms[top], tos[top] = i, m
    return -1


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

    A stretch that reaches h to both sides of a point comes no nearer than that point less h.
    It is parted until that is no better than what is found, or h is under ``within``: so the
    least that is told is at most ``within`` too great.
    """
    work, far = np.empty(2 * DEPTH, np.int64), np.empty(2 * DEPTH)
    bx, by, bz = points[begin, 0], points[begin, 1], points[begin, 2]
    best, which = nearest(b, tree, off, slack, live, bx, by, bz, inf, work, far)
    if which < 0:
        return best, -1, which, bx, by, bz
    at = 0
    run = _run(points, begin, end)
    froms, tos = np.empty(2 * DEPTH, np.int64), np.empty(2 * DEPTH, np.int64)
    starts, parts = np.empty(2 * DEPTH), np.empty(2 * DEPTH)
    # Stretches of whole pieces, from one corner to another; then parts of one piece.
    top = -1
    if end - begin > 1 and best >= enough:
        top = 0
        froms[0], tos[0], starts[0], parts[0] = 0, end - begin - 1, 0.0, 1.0
    while top >= 0:
        i, j, start, part = froms[top], tos[top], starts[top], parts[top]
        top -= 1
        m = begin + (i + j) // 2
        x, y, z = points[m, 0], points[m, 1], points[m, 2]
        reach = max(run[m - begin] - run[i], run[j] - run[m - begin])
        share = start + 0.5 * part
        if j - i == 1:
            x += share * (points[m + 1, 0] - x)
            y += share * (points[m + 1, 1] - y)
            z += share * (points[m + 1, 2] - z)
            reach = 0.5 * part * (run[j] - run[i])
        limit = best - within + reach
        gap, who = nearest(b, tree, off, slack, live, x, y, z, limit, work, far)
        if who < 0:
            continue
        if gap < best:
            best, at, which, bx, by, bz = gap, min(m - begin, j - 1), who, x, y, z
            if best < enough:
                break
        if j - i > 1:
            top += 1
            froms[top], tos[top], starts[top], parts[top] = m - begin, j, 0.0, 1.0
            top += 1
            froms[top], tos[top], starts[top], parts[top] = i, m - begin, 0.0, 1.0
        elif reach > within:
            top += 1
            froms[top], tos[top], starts[top], parts[top] = i, j, share, 0.5 * part
            top += 1
            froms[top], tos[top], starts[top], parts[top] = i, j, start, 0.5 * part
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
    gap, px, py, pz = inf, 0.0, 0.0, 0.0
    for n in range(begin, end):
        x, y, z = points[n, 0], points[n, 1], points[n, 2]
        # From the point before, the gap has grown by no more than the step.
        step = sqrt((x - px) ** 2 + (y - py) ** 2 + (z - pz) ** 2)
        limit = gap + step + 1e-9 * (1.0 + step)
        gap, who = nearest(b, tree, off, slack, live, x, y, z, limit, work, far)
        if who < 0:
            gap, who = nearest(b, tree, off, slack, live, x, y, z, inf, work, far)
        gaps[n], which[n] = gap, who
        px, py, pz = x, y, z


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


@njit
def few_paths(
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
    """`least_paths` on this core: no waiting for others."""
    for p in range(starts.shape[0] - 1):
        gaps[p], at[p], which[p] = least_of(
            b, tree, off, slack, live, points, starts[p], starts[p + 1], enough[p]
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
