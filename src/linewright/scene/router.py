# SPDX-License-Identifier: Apache-2.0
"""Lines on a grid: square corners, fixed ports, never through a box.

A cheapest-path search over (point, direction). A library's router is not used: those that
keep ports fixed are not to be had in a small package (docs/decisions).
"""

from collections import deque
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from heapq import heappop, heappush
from itertools import pairwise

from linewright.base.errors import LinewrightError

GridPoint = tuple[int, int]

#: Right, down, left, up; the opposite of d is d ^ 2.
STEPS: tuple[GridPoint, ...] = ((1, 0), (0, 1), (-1, 0), (0, -1))

#: What a path pays, in grid steps: each corner, each crossing, each step on another line,
#: each step right beside a box, each step across the mouth of a foreign port, each corner
#: that nearly runs into another line, as if it went on there.
BEND, CROSSING, ON_ANOTHER, BESIDE, MOUTH, TOUCH = 8.0, 25.0, 80.0, 1.5, 24.0, 5.0

#: More than any path pays.
_FAR = 1e18

#: Times that every line is taken up and laid again in view of all the others.
PASSES = 3


class RoutingError(LinewrightError):
    """A line finds no way between the boxes; the boxes have to stand wider apart."""


@dataclass(frozen=True, slots=True)
class Terminal:
    """Where a line starts or ends: the first free point and the side it leaves by."""

    at: GridPoint
    side: int  # index into STEPS, away from the box


@dataclass(frozen=True, slots=True)
class Wire:
    """A connection to be laid; wires of one ``net`` may run on each other."""

    id: str
    source: Terminal
    target: Terminal
    net: str


@dataclass(frozen=True, slots=True)
class Laid:
    """All wires as laid, with what is left of their conflicts."""

    paths: Mapping[str, tuple[GridPoint, ...]]  # corners and both ends
    crossings: int
    overlaps: int


class Grid:
    """The sheet as points: blocked ones, dear ones, and what runs where."""

    def __init__(self, width: int, height: int) -> None:
        self.width, self.height = width, height
        count = width * height
        self.blocked = bytearray(count)
        self.extra = [0.0] * count  # what a step onto a point pays beside its length
        self.xs = [at % width for at in range(count)]
        self.ys = [at // width for at in range(count)]
        # How often a point is run through level and upright, in all and by net.
        self.used = (bytearray(count), bytearray(count))
        self.nets: tuple[dict[int, dict[str, int]], dict[int, dict[str, int]]] = ({}, {})
        for x in range(width):
            self.blocked[x] = self.blocked[(height - 1) * width + x] = 1
        for y in range(height):
            self.blocked[y * width] = self.blocked[y * width + width - 1] = 1

    def block(self, left: int, top: int, right: int, bottom: int) -> None:
        """Close all points of a rectangle, edges included; those beside it become dear."""
        for y in range(max(top - 1, 0), min(bottom + 2, self.height)):
            for x in range(max(left - 1, 0), min(right + 2, self.width)):
                at = y * self.width + x
                if left <= x <= right and top <= y <= bottom:
                    self.blocked[at] = 1
                elif self.extra[at] == 0.0:
                    self.extra[at] = BESIDE

    def occupy(self, path: Sequence[int], net: str, count: int) -> None:
        """Write a path into the grid (count 1) or take it out (count -1)."""
        for a, b in pairwise(path):
            way = 0 if abs(a - b) == 1 else 1
            used, by_net = self.used[way], self.nets[way]
            for point in (a, b):
                used[point] += count
                nets = by_net.setdefault(point, {})
                nets[net] = nets.get(net, 0) + count
                if nets[net] == 0:
                    del nets[net]
                    if not nets:
                        del by_net[point]


@lru_cache(maxsize=4)
def _least_bends(arrive: int) -> tuple[int, ...]:
    """Fewest corners on an empty grid, by the signs of what is left and the heading.

    Entry ``((sign x + 1) * 3 + sign y + 1) * 4 + heading``: walked back from the goal.
    """
    reach = 5
    known = {(0, 0, arrive): 0}
    edge = deque([(0, 0, arrive)])
    while edge:
        x, y, heading = edge.popleft()
        bends = known[(x, y, heading)]
        dx, dy = STEPS[heading]
        back = (x - dx, y - dy, heading)
        if abs(back[0]) <= reach and abs(back[1]) <= reach and known.get(back, 99) > bends:
            known[back] = bends
            edge.appendleft(back)
        for turn in (heading ^ 1, heading ^ 3):
            if known.get((x, y, turn), 99) > bends + 1:
                known[(x, y, turn)] = bends + 1
                edge.append((x, y, turn))
    table = []
    for sx in (-1, 0, 1):
        for sy in (-1, 0, 1):
            for heading in range(4):
                # What is left points from here to the goal, so here is at minus that.
                table.append(
                    min(known[(-sx * n, -sy * n, heading)] for n in range(1, 4))
                    if sx or sy
                    else known[(0, 0, heading)]
                )
    return tuple(table)


def _search(grid: Grid, wire: Wire, limit: float) -> tuple[list[int] | None, float]:
    """Cheapest path of one wire as neighbouring points, and its cost; None above `limit`.

    Wires of the same net must not lie in the grid. This is where the time goes, so the loop
    is written out and reads flat arrays.
    """
    width = grid.width
    moves = (1, width, -1, -width)
    start = wire.source.at[1] * width + wire.source.at[0]
    goal_x, goal_y = wire.target.at
    goal = goal_y * width + goal_x
    arrive = wire.target.side ^ 2
    bends = _least_bends(arrive)
    blocked, extra, xs, ys = grid.blocked, grid.extra, grid.xs, grid.ys
    level, upright = grid.used
    first = start * 4 + wire.source.side
    best = [_FAR] * (4 * len(blocked))
    best[first] = 0.0
    came: dict[int, int] = {}
    heap: list[tuple[float, int, int, float]] = [(0.0, 0, first, 0.0)]
    tick = 0
    while heap:
        estimate, _, state, so_far = heappop(heap)
        if so_far > best[state]:
            continue
        if estimate > limit:
            return None, estimate
        point, heading = state >> 2, state & 3
        if point == goal and heading == arrive:
            path = [point]
            while state in came:
                state = came[state]
                if state >> 2 != path[-1]:
                    path.append(state >> 2)
            return path[::-1], so_far
        corner = BEND
        if level[point] or upright[point]:
            corner += ON_ANOTHER
        ahead = point + moves[heading]
        if level[ahead] or upright[ahead]:
            corner += TOUCH
        for turn in (heading, heading ^ 1, heading ^ 3):
            cost = so_far if turn == heading else so_far + corner
            if point == goal:  # only a last turn on the spot is left
                if turn != arrive:
                    continue
                following = goal
            else:
                following = point + moves[turn]
                if blocked[following]:
                    continue
                cost += 1.0 + extra[following]
                if turn & 1:
                    if upright[following]:
                        cost += ON_ANOTHER
                    elif level[following]:
                        cost += CROSSING
                elif level[following]:
                    cost += ON_ANOTHER
                elif upright[following]:
                    cost += CROSSING
            key = following * 4 + turn
            if cost < best[key]:
                best[key] = cost
                came[key] = state
                dx, dy = goal_x - xs[following], goal_y - ys[following]
                signs = (((dx > 0) - (dx < 0) + 1) * 3 + (dy > 0) - (dy < 0) + 1) * 4 + turn
                tick -= 1  # among equals the newest, which is the nearest to the goal
                heappush(heap, (cost + abs(dx) + abs(dy) + BEND * bends[signs], tick, key, cost))
    return None, _FAR


def _ways(path: Sequence[int], last: int) -> list[int]:
    """Step taken from each point of a path, the last one being into the port."""
    return [b - a for a, b in pairwise(path)] + [last]


def _corners(path: Sequence[int], width: int) -> tuple[GridPoint, ...]:
    """Both ends and the corners of a path."""
    points = [(p % width, p // width) for p in path]
    kept = points[:1]
    for before, here, after in zip(points, points[1:], points[2:], strict=False):
        if (here[0] - before[0], here[1] - before[1]) != (after[0] - here[0], after[1] - here[1]):
            kept.append(here)
    return (*kept, points[-1]) if len(points) > 1 else (points[0], points[0])


class Web:
    """Wires on a grid, and the paths they have."""

    def __init__(self, grid: Grid) -> None:
        self.grid = grid
        self.wires: dict[str, Wire] = {}
        self.paths: dict[str, list[int]] = {}
        self._mouths: dict[int, int] = {}  # points before ports, and how many wires end there

    def add(self, wires: Iterable[Wire]) -> None:
        """Add wires, or put others in the place of those with the same id; lays nothing."""
        for wire in wires:
            old = self.wires.get(wire.id)
            if old is not None:
                self._mouth(old, -1)
            self.wires[wire.id] = wire
            self._mouth(wire, 1)

    def _mouth(self, wire: Wire, count: int) -> None:
        """Make the way into the ports of a wire dear for the others, or free again."""
        for end in (wire.source, wire.target):
            at = end.at[1] * self.grid.width + end.at[0]
            before = self._mouths.get(at, 0)
            self._mouths[at] = before + count
            self.grid.extra[at] += MOUTH * ((before + count > 0) - (before > 0))

    def _alike(self, key: str) -> list[str]:
        """Other wires of the same net that lie."""
        net = self.wires[key].net
        return [k for k, w in self.wires.items() if w.net == net and k != key and k in self.paths]

    def take_up(self, key: str) -> list[int] | None:
        """Take a path out of the grid."""
        path = self.paths.pop(key, None)
        if path is not None:
            self.grid.occupy(path, self.wires[key].net, -1)
        return path

    def put(self, key: str, path: list[int]) -> None:
        """Write a path into the grid."""
        self.grid.occupy(path, self.wires[key].net, 1)
        self.paths[key] = path

    def lay(self, key: str, limit: float = _FAR) -> float | None:
        """Lay one wire in view of those that lie; its cost, or None where it is above `limit`.

        Raises `RoutingError` if it finds no way.
        """
        wire = self.wires[key]
        alike = self._alike(key)
        for other in alike:
            self.grid.occupy(self.paths[other], wire.net, -1)
        self._mouth(wire, -1)
        path, cost = _search(self.grid, wire, limit)
        self._mouth(wire, 1)
        for other in alike:
            self.grid.occupy(self.paths[other], wire.net, 1)
        if path is None:
            if cost < _FAR:
                return None
            raise RoutingError(
                f"{key} finds no way between the boxes of the diagram; set the boxes wider apart."
            )
        self.put(key, path)
        return cost

    def cost(self, key: str) -> float:
        """What a wire pays, laid as it is, in view of the others."""
        wire, path, grid = self.wires[key], self.paths[key], self.grid
        alike = [*self._alike(key), key]
        for other in alike:
            grid.occupy(self.paths[other], wire.net, -1)
        self._mouth(wire, -1)
        level, upright = grid.used
        moves = (1, grid.width, -1, -grid.width)
        heading = moves[wire.source.side]
        total = 0.0
        for point, way in zip(path, _ways(path, moves[wire.target.side ^ 2]), strict=True):
            if way != heading:
                ahead = point + heading
                total += BEND + ON_ANOTHER * bool(level[point] or upright[point])
                total += TOUCH * bool(level[ahead] or upright[ahead])
                heading = way
            if point == path[-1]:
                break
            following = point + way
            along, across = (level, upright) if abs(way) == 1 else (upright, level)
            total += 1.0 + grid.extra[following]
            total += ON_ANOTHER if along[following] else CROSSING * bool(across[following])
        self._mouth(wire, 1)
        for other in alike:
            grid.occupy(self.paths[other], wire.net, 1)
        return total

    def conflicts(self) -> tuple[int, int]:
        """Crossings of different nets, and points that two nets share in one direction."""
        level, upright = self.grid.nets
        overlaps = sum(len(n) - 1 for used in self.grid.nets for n in used.values() if len(n) > 1)
        crossings = 0
        for point in level.keys() & upright.keys():
            nets = upright[point]
            crossings += sum(1 for a in level[point] for b in nets if a != b)
        return crossings, overlaps

    def laid(self) -> Laid:
        """What came of it."""
        crossings, overlaps = self.conflicts()
        corners = {k: _corners(path, self.grid.width) for k, path in sorted(self.paths.items())}
        return Laid(corners, crossings, overlaps)


def lay(grid: Grid, wires: Iterable[Wire], passes: int = PASSES) -> Web:
    """Lay all wires, the shortest first, then each again in view of the others.

    Parameters
    ----------
    grid : Grid
        The boxes; what is laid is written into it.
    wires : Iterable of Wire
        What to connect.
    passes : int
        Times that all are taken up and laid again.

    Returns
    -------
    Web
        The wires with their paths.

    Raises
    ------
    RoutingError
        If a wire finds no way.
    """
    web = Web(grid)
    web.add(wires)

    def span(wire: Wire) -> int:
        (ax, ay), (bx, by) = wire.source.at, wire.target.at
        return abs(ax - bx) + abs(ay - by)

    order = sorted(web.wires.values(), key=lambda wire: (span(wire), wire.id))
    for wire in order:
        web.lay(wire.id)
    for _ in range(passes):
        changed = False
        for wire in order:
            old = web.take_up(wire.id)
            web.lay(wire.id)
            changed = changed or web.paths[wire.id] != old
        if not changed:
            break
    return web
