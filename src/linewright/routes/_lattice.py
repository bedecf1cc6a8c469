# SPDX-License-Identifier: Apache-2.0
"""A way round bodies for a hose that bends no tighter than it may: the compiled part.

From every setting of end A the hose grows by straights and arcs of the least radius, the most
promising first (A* on poses, Hart, Nilsson and Raphael 1968; poses that lie close together
count as one). From each pose reached it is tried to run straight home by the shortest curve
to settings of end B. The way found is then drawn taut by `shortened`.
"""

from math import cos, floor, inf, isfinite, pi, sin, sqrt
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from linewright.base.kernels import njit
from linewright.routes._courses import LOOP, MOST, WIDE, between, clear, course, turning
from linewright.routes._gravity import grows, keeps, risen
from linewright.space.nearest import Bodies, Flags, Tree

if TYPE_CHECKING:
    from numpy.typing import NDArray

Floats: TypeAlias = "NDArray[np.float64]"
Whole: TypeAlias = "NDArray[np.int64]"

# Pieces that a hose may grow by from each pose, and how many in a row.
GROWN, DEEP = 19, 14


@njit
def _pose_row(x: Floats, way: float, row: Floats) -> None:
    """A pose (place, direction of travel) as a row that leaves along (1) or against (-1) it."""
    for k in range(3):
        row[k] = row[6 + k] = row[9 + k] = row[13 + k] = row[16 + k] = row[19 + k] = row[22 + k] = (
            x[k]
        )
        row[3 + k] = way * x[3 + k]
    row[12] = 0.0


@njit
def _key(x: Floats, cell: float) -> int:
    """One number for poses that lie close together."""
    key = 0
    for k in range(3):
        key = key * 4096 + floor(x[k] / cell) + 2048
    for k in range(3):
        key = key * 8 + floor(2.0 * x[3 + k] + 0.5) + 3
    return key


@njit
def _seen(table: Whole, best: Floats, key: int, value: float) -> bool:
    """Whether that pose was reached no dearer before; it is noted if not."""
    slots = table.shape[0]
    slot = (key * 11400714819323 >> 7) & (slots - 1)
    for _ in range(slots):
        if table[slot] == key:
            if best[slot] <= value + 1e-9:
                return True
            best[slot] = value
            return False
        if table[slot] == -1:
            table[slot] = key
            best[slot] = value
            return False
        slot = (slot + 1) & (slots - 1)
    return True


@njit
def _push(heap: Whole, size: int, f: Floats, node: int) -> None:
    i = size
    heap[i] = node
    while i > 0:
        up = (i - 1) >> 1
        if f[heap[up]] <= f[heap[i]]:
            break
        heap[up], heap[i] = heap[i], heap[up]
        i = up


@njit
def _pop(heap: Whole, size: int, f: Floats) -> int:
    top = heap[0]
    heap[0] = heap[size - 1]
    size -= 1
    i = 0
    while True:
        low = 2 * i + 1
        if low >= size:
            return int(top)
        if low + 1 < size and f[heap[low + 1]] < f[heap[low]]:
            low += 1
        if f[heap[i]] <= f[heap[low]]:
            return int(top)
        heap[i], heap[low] = heap[low], heap[i]
        i = low


@njit
def _left(x: Floats, goal: Floats, radius: float, d: Floats) -> float:
    """About how far it is from a pose to a setting of end B."""
    for k in range(3):
        d[k] = goal[k] - x[k]
    far = sqrt(d[0] * d[0] + d[1] * d[1] + d[2] * d[2])
    return float(far + radius * turning(d, x, goal) + goal[12])


@njit
def far_home(
    free: "NDArray[np.bool_]", low: Floats, cell: float, goals: Floats, ok: Flags, left: Floats
) -> None:
    """How far it is home from each cell, round bodies but without regard to bends.

    Cells run on to their 26 neighbours; they are swept to and fro until nothing changes.
    """
    nx, ny, nz = free.shape
    left[:] = inf
    for j in range(goals.shape[0]):
        if ok[j]:
            i = min(max(int((goals[j, 0] - low[0]) / cell), 0), nx - 1)
            k = min(max(int((goals[j, 1] - low[1]) / cell), 0), ny - 1)
            m = min(max(int((goals[j, 2] - low[2]) / cell), 0), nz - 1)
            left[i, k, m] = min(left[i, k, m], goals[j, 12])
    steps = (0.0, cell, cell * sqrt(2.0), cell * sqrt(3.0))
    for sweep in range(64):
        changed = False
        for p in range(nx):
            i = p if sweep & 1 else nx - 1 - p
            for q in range(ny):
                k = q if sweep & 2 else ny - 1 - q
                for r in range(nz):
                    m = r if sweep & 4 else nz - 1 - r
                    if not free[i, k, m]:
                        continue
                    best = left[i, k, m]
                    for di in range(max(i - 1, 0), min(i + 2, nx)):
                        for dk in range(max(k - 1, 0), min(k + 2, ny)):
                            for dm in range(max(m - 1, 0), min(m + 2, nz)):
                                far = abs(di - i) + abs(dk - k) + abs(dm - m)
                                best = min(best, left[di, dk, dm] + steps[far])
                    if best < left[i, k, m] - 1e-9:
                        left[i, k, m] = best
                        changed = True
        if not changed:
            return


@njit
def _field(x: float, y: float, z: float, low: Floats, cell: float, left: Floats) -> float:
    i, k, m = int((x - low[0]) / cell), int((y - low[1]) / cell), int((z - low[2]) / cell)
    nx, ny, nz = left.shape
    if not (0 <= i < nx and 0 <= k < ny and 0 <= m < nz):
        return inf
    return float(left[i, k, m])


@njit
def _home(x: Floats, radius: float, low: Floats, cell: float, left: Floats) -> float:
    """About what is left from a pose: half a radius ahead, where its heading has told."""
    run = 0.6 * radius
    here = _field(x[0], x[1], x[2], low, cell, left)
    ahead = _field(x[0] + run * x[3], x[1] + run * x[4], x[2] + run * x[5], low, cell, left)
    if isfinite(ahead):
        return ahead + run
    return here + 3.0 * run if isfinite(here) else inf


@njit
def around(
    b: Bodies,
    tree: Tree,
    off: Floats,
    slack: Floats,
    live: Flags,
    starts: Floats,
    ok_a: Flags,
    goals: Floats,
    ok_b: Flags,
    radius: float,
    keep: float,
    step: float,
    low: Floats,
    high: Floats,
    bend: float,
    most: int,
    size: float,
    greed: float,
    grid: float,
    left: Floats,
    rule: Floats,
    way: Floats,
    told: Whole,
) -> int:
    """Poses of a clear way from some start to some goal; how many, 0 if none was found.

    ``way`` receives them (place, direction), the first at the start; ``told`` the start, the
    goal and the nodes looked at. ``size`` scales the pieces that the hose grows by;
    ``left`` is how far it is home from cells of ``grid`` (`far_home`); ``rule`` what gravity
    asks (`_gravity`).
    """
    cap = most * GROWN + starts.shape[0]
    x, g, f = np.empty((cap, 6)), np.empty(cap), np.empty(cap)
    parent, depth = np.full(cap, -1, np.int64), np.zeros(cap, np.int64)
    heap, high_by = np.empty(cap, np.int64), np.zeros(cap, np.bool_)
    slots = 1 << 16
    while slots < cap:
        slots *= 2
    table, reached = np.full(slots, -1, np.int64), np.empty(slots)
    one, points = np.empty(WIDE), np.empty((MOST, 3))
    count = 0
    waiting = 0
    for i in range(starts.shape[0]):
        if not ok_a[i]:
            continue
        points[0, :] = starts[i, 22:25]
        n = 1
        far = sqrt(
            (starts[i, 0] - points[0, 0]) ** 2
            + (starts[i, 1] - points[0, 1]) ** 2
            + (starts[i, 2] - points[0, 2]) ** 2
        )
        m = int(far / step) + 1
        for k in range(1, m + 1):
            for c in range(3):
                points[n, c] = starts[i, 22 + c] + k / m * (starts[i, c] - starts[i, 22 + c])
            n += 1
        if clear(b, tree, off, slack, live, points, n, keep) >= 0:
            continue
        x[count, :] = starts[i, 0:6]
        g[count] = starts[i, 12]
        f[count] = g[count] + greed * _home(x[count], radius, low, grid, left)
        if not isfinite(f[count]):
            f[count] = 1e6
        parent[count] = -2 - i
        high_by[count] = rule[0] == 3.0 and risen(rule, starts[i], 1.0)
        _push(heap, waiting, f, count)
        waiting += 1
        count += 1
    best, best_node, best_goal = inf, -1, -1
    looked = 0
    near, apart = np.empty(goals.shape[0]), np.empty(3)
    cell = 0.3 * radius * size
    child = np.empty(6)
    side, other = np.empty(3), np.empty(3)
    while waiting > 0 and looked < most:
        node = _pop(heap, waiting, f)
        waiting -= 1
        if f[node] >= best:
            break
        looked += 1
        # Home from here: to the three goals that seem nearest, and one in turn.
        _pose_row(x[node], 1.0, one)
        for j in range(goals.shape[0]):
            near[j] = _left(x[node], goals[j], radius, apart) if ok_b[j] else inf
        for tried in range(4):
            j = int(np.argmin(near)) if tried < 3 else looked % goals.shape[0]
            if not isfinite(near[j]):
                continue
            near[j] = inf
            dx = goals[j, 0] - x[node, 0]
            dy = goals[j, 1] - x[node, 1]
            dz = goals[j, 2] - x[node, 2]
            if g[node] + sqrt(dx * dx + dy * dy + dz * dz) + goals[j, 12] >= best:
                continue
            found = between(one, goals[j], radius)
            if not isfinite(found[0]) or found[1] > LOOP or found[2] > LOOP:
                continue
            bends = (found[1] > 0.02) + (found[2] > 0.02)
            total = g[node] + found[0] * radius + goals[j, 12] + bend * bends
            if total >= best or not keeps(rule, high_by[node], one, goals[j], found, radius):
                continue
            n = course(one, goals[j], found, radius, step, points)
            if clear(b, tree, off, slack, live, points, n, keep) < 0:
                best, best_node, best_goal = total, node, j
        if depth[node] >= DEEP:
            continue
        # Grow by a short or a long straight, or by an arc to one of eight sides.
        if abs(x[node, 5]) < 0.9:
            far = sqrt(x[node, 3] ** 2 + x[node, 4] ** 2)
            side[0], side[1], side[2] = -x[node, 4] / far, x[node, 3] / far, 0.0
        else:
            far = sqrt(x[node, 4] ** 2 + x[node, 5] ** 2)
            side[0], side[1], side[2] = 0.0, -x[node, 5] / far, x[node, 4] / far
        other[0] = x[node, 4] * side[2] - x[node, 5] * side[1]
        other[1] = x[node, 5] * side[0] - x[node, 3] * side[2]
        other[2] = x[node, 3] * side[1] - x[node, 4] * side[0]
        for grow in range(18):
            turn, swing, run = 0.0, 0.0, 0.7 * radius * size
            if grow == 17:
                run = 2.4 * radius * size
            elif grow > 8:
                turn, swing = pi / 8.0 * size, (grow - 9.0) * pi / 4.0
                run = turn * radius
            elif grow > 0:
                turn, swing = pi / 3.0 * size, (grow - 0.5) * pi / 4.0
                run = turn * radius
            cosine, sine = cos(swing), sin(swing)
            pieces = int(run / step) + 1
            for i in range(pieces):
                t = (i + 1) / pieces
                if turn > 0.0:
                    along, aside = radius * sin(t * turn), radius * (1.0 - cos(t * turn))
                else:
                    along, aside = run * t, 0.0
                for k in range(3):
                    inward = cosine * side[k] + sine * other[k]
                    points[i, k] = x[node, k] + along * x[node, 3 + k] + aside * inward
            for k in range(3):
                inward = cosine * side[k] + sine * other[k]
                child[k] = points[pieces - 1, k]
                child[3 + k] = cos(turn) * x[node, 3 + k] + sin(turn) * inward
            out = False
            for k in range(3):
                out = out or child[k] < low[k] or child[k] > high[k]
            if out:
                continue
            up = grows(rule, high_by[node], x[node, 2], x[node, 5], child[2], child[5])
            if up < 0:
                continue
            value = g[node] + run + (bend if turn > 0.0 else 0.0)
            home = _home(child, radius, low, grid, left)
            if not isfinite(home) or value + home - radius >= best:
                continue
            if clear(b, tree, off, slack, live, points, pieces, keep) >= 0:
                continue
            if _seen(table, reached, 2 * _key(child, cell) + up, value):
                continue
            if count >= cap:
                break
            x[count, :] = child
            g[count], f[count] = value, value + greed * home
            parent[count], depth[count] = node, depth[node] + 1
            high_by[count] = up == 1
            _push(heap, waiting, f, count)
            waiting += 1
            count += 1
    told[2] = looked
    if best_node < 0:
        return 0
    length, node = 1, best_node
    while parent[node] >= 0:
        length += 1
        node = parent[node]
    told[0], told[1] = -2 - parent[node], best_goal
    node = best_node
    for i in range(length - 1, -1, -1):
        way[i, :] = x[node]
        node = parent[node]
    return length


@njit
def shortened(
    b: Bodies,
    tree: Tree,
    off: Floats,
    slack: Floats,
    live: Flags,
    poses: Floats,
    radius: float,
    keep: float,
    step: float,
    bend: float,
    rule: Floats,
    chosen: Whole,
) -> int:
    """Fewest, shortest legs through some of the poses in order, from the first to the last.

    ``chosen`` receives the numbers of those kept; how many, 0 where no way is clear.
    """
    n = poses.shape[0]
    best, back = np.full(n, inf), np.full(n, -1, np.int64)
    best[0] = 0.0
    one, two, points = np.empty(WIDE), np.empty(WIDE), np.empty((MOST, 3))
    for j in range(1, n):
        _pose_row(poses[j], -1.0, two)
        for i in range(j):
            if not isfinite(best[i]):
                continue
            _pose_row(poses[i], 1.0, one)
            found = between(one, two, radius)
            if not isfinite(found[0]) or found[1] > LOOP or found[2] > LOOP:
                continue
            bends = (found[1] > 0.02) + (found[2] > 0.02)
            total = best[i] + found[0] * radius + bend * bends
            if total >= best[j] - 1e-9 or not keeps(rule, False, one, two, found, radius):
                continue
            m = course(one, two, found, radius, step, points)
            if clear(b, tree, off, slack, live, points, m, keep) >= 0:
                continue
            best[j], back[j] = total, i
    if not isfinite(best[n - 1]):
        return 0
    length, j = 1, n - 1
    while back[j] >= 0:
        length += 1
        j = back[j]
    j = n - 1
    for i in range(length - 1, -1, -1):
        chosen[i] = j
        j = back[j]
    return length
