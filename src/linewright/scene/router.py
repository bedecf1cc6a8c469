# SPDX-License-Identifier: Apache-2.0
"""Lines on a grid: square corners, fixed ports, never through a box.

A cheapest-path search over (point, direction). A library's router is not used: those that
keep ports fixed are not to be had in a small package (docs/decisions).
"""

import itertools
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush

from linewright.base.errors import LinewrightError

GridPoint = tuple[int, int]

#: Right, down, left, up; the opposite of d is d ^ 2.
STEPS: tuple[GridPoint, ...] = ((1, 0), (0, 1), (-1, 0), (0, -1))

#: What a path pays, in grid steps: each corner, each crossing, each step on another line,
#: each step right beside a box, each step across the mouth of a foreign port.
BEND, CROSSING, ON_ANOTHER, BESIDE, MOUTH = 8.0, 14.0, 60.0, 1.5, 24.0

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
        self.dear = [0.0] * count
        self.mouth: dict[int, str] = {}  # point before a port -> net
        self.along: tuple[dict[int, dict[str, int]], dict[int, dict[str, int]]] = ({}, {})
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
                else:
                    self.dear[at] = BESIDE

    def occupy(self, path: Sequence[int], net: str, count: int) -> None:
        """Write a path into the grid (count 1) or take it out (count -1)."""
        for a, b in itertools.pairwise(path):
            used = self.along[0 if abs(a - b) == 1 else 1]
            for point in (a, b):
                nets = used.setdefault(point, {})
                nets[net] = nets.get(net, 0) + count
                if nets[net] == 0:
                    del nets[net]
                    if not nets:
                        del used[point]


def _others(used: Mapping[int, Mapping[str, int]], point: int, net: str) -> bool:
    nets = used.get(point)
    return nets is not None and (len(nets) > 1 or net not in nets)


def _search(grid: Grid, wire: Wire) -> list[int] | None:
    """Cheapest path of one wire as a list of neighbouring points."""
    width = grid.width
    moves = (1, width, -1, -width)
    start = wire.source.at[1] * width + wire.source.at[0]
    goal_x, goal_y = wire.target.at
    goal = goal_y * width + goal_x
    arrive = wire.target.side ^ 2
    blocked, dear, mouth, net = grid.blocked, grid.dear, grid.mouth, wire.net
    horizontal, vertical = grid.along
    best: dict[int, float] = {start * 4 + wire.source.side: 0.0}
    came: dict[int, int] = {}
    done: set[int] = set()
    heap: list[tuple[float, int, int]] = [(0.0, 0, start * 4 + wire.source.side)]
    tick = 0
    while heap:
        _, _, state = heappop(heap)
        if state in done:
            continue
        done.add(state)
        point, heading = state >> 2, state & 3
        if point == goal and heading == arrive:
            path = [point]
            while state in came:
                state = came[state]
                if state >> 2 != path[-1]:
                    path.append(state >> 2)
            return path[::-1]
        so_far = best[state]
        corner_busy = _others(horizontal, point, net) or _others(vertical, point, net)
        for turn in range(4):
            if turn == heading ^ 2:
                continue
            cost = so_far
            if turn != heading:
                cost += BEND + (ON_ANOTHER if corner_busy else 0.0)
            if point == goal:  # only a last turn on the spot is left
                if turn != arrive:
                    continue
                following = goal
            else:
                following = point + moves[turn]
                if blocked[following]:
                    continue
                cost += 1.0 + dear[following]
                owner = mouth.get(following)
                if owner is not None and owner != net:
                    cost += MOUTH
                same, across = (horizontal, vertical) if turn % 2 == 0 else (vertical, horizontal)
                if _others(same, following, net):
                    cost += ON_ANOTHER
                elif _others(across, following, net):
                    cost += CROSSING
            key = following * 4 + turn
            if cost < best.get(key, 1e18):
                best[key] = cost
                came[key] = state
                x, y = following % width, following // width
                dx, dy = goal_x - x, goal_y - y
                rest = float(abs(dx) + abs(dy))
                if (dx and dy) or ((dx * STEPS[turn][0] + dy * STEPS[turn][1]) <= 0 and (dx or dy)):
                    rest += BEND
                tick += 1
                heappush(heap, (cost + rest, tick, key))
    return None


def _corners(path: Sequence[int], width: int) -> tuple[GridPoint, ...]:
    """Both ends and the corners of a path."""
    points = [(p % width, p // width) for p in path]
    kept = points[:1]
    for before, here, after in zip(points, points[1:], points[2:], strict=False):
        if (here[0] - before[0], here[1] - before[1]) != (after[0] - here[0], after[1] - here[1]):
            kept.append(here)
    return (*kept, points[-1]) if len(points) > 1 else (points[0], points[0])


def _conflicts(grid: Grid) -> tuple[int, int]:
    """Crossings of different nets, and points that two nets share in one direction."""
    horizontal, vertical = grid.along
    overlaps = sum(len(n) - 1 for used in grid.along for n in used.values() if len(n) > 1)
    crossings = 0
    for point, nets in horizontal.items():
        crossings += sum(1 for a in nets for b in vertical.get(point, ()) if a != b)
    return crossings, overlaps


def lay(grid: Grid, wires: Iterable[Wire], passes: int = PASSES) -> Laid:
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
    Laid
        The corners of each wire, crossings and overlaps.

    Raises
    ------
    RoutingError
        If a wire finds no way.
    """

    def span(wire: Wire) -> int:
        (ax, ay), (bx, by) = wire.source.at, wire.target.at
        return abs(ax - bx) + abs(ay - by)

    order = sorted(wires, key=lambda wire: (span(wire), wire.id))
    for wire in order:
        for end in (wire.source, wire.target):
            grid.mouth[end.at[1] * grid.width + end.at[0]] = wire.net
    paths: dict[str, list[int]] = {}
    for round_number in range(1 + passes):
        changed = False
        for wire in order:
            old = paths.get(wire.id)
            if old is not None:
                grid.occupy(old, wire.net, -1)
            path = _search(grid, wire)
            if path is None:
                raise RoutingError(
                    f"{wire.id} finds no way between the boxes of the diagram; "
                    "set the boxes wider apart."
                )
            grid.occupy(path, wire.net, 1)
            changed = changed or path != old
            paths[wire.id] = path
        if round_number and not changed:
            break
    crossings, overlaps = _conflicts(grid)
    corners = {key: _corners(path, grid.width) for key, path in sorted(paths.items())}
    return Laid(corners, crossings, overlaps)
