# SPDX-License-Identifier: Apache-2.0
"""Words on a view to scale: near what they name, off the hoses, never over one another."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, cos, hypot, pi, sin
from typing import TYPE_CHECKING

from linewright.scene.drawing import Box, Pen, Point, Text
from linewright.scene.text import set_text, text_width

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

#: Clear space between two labels, and the side of a cell of what is covered. [mm]
CLEAR, CELL = 0.6, 0.5

#: How far from its place a label may stand, nearest first; farther ones get a leader. [mm]
_AWAY = (0.7, 1.6, 3.5, 6.0, 9.0, 13.0, 18.0, 25.0, 34.0, 46.0, 60.0)
_LEADER_FROM = 2.0
_WAYS = 24

#: What a label pays: for covering hoses wholly, for each mm away, for each hose mm it crosses.
_COVERS, _FAR, _CROSSES, _SHORTER = 60.0, 0.5, 0.8, 2.0

Segment = tuple[Point, Point]

#: How far letters reach above the baseline, and how high they are in all. [em]
_ASCENT = -Text((0.0, 0.0), "", 1.0, 0.0).box.top
_HIGH = Text((0.0, 0.0), "", 1.0, 0.0).box.height


@dataclass(frozen=True, slots=True)
class Want:
    """What wants a label: wordings, the best first, and places with what each costs.

    ``inside`` is a box in which it may stand without pointing, the body's own. What has ``if_room``
    gets a label only where one stands free beside it, and is not missed else.
    """

    id: str
    wordings: tuple[str, ...]
    places: tuple[tuple[Point, float, float], ...]  # point, free radius round it, cost
    size: float
    bold: bool = False
    pen: Pen = Pen.INK
    inside: Box | None = None
    if_room: bool = False


@dataclass(frozen=True, slots=True)
class Label:
    """A label in its place; ``leader`` runs from what it names to its box."""

    id: str
    text: Text
    box: Box
    leader: Segment | None


class Cover:
    """What of the paper is covered: cells that count hoses and ports."""

    def __init__(self, room: Box) -> None:
        import numpy as np

        self.room = room
        self.columns = ceil(room.width / CELL) + 1
        self.rows = ceil(room.height / CELL) + 1
        self.cells: NDArray[np.float64] = np.zeros((self.rows, self.columns))
        self._sums: NDArray[np.float64] | None = None

    def add(self, at: Point, radius: float, weight: float = 1.0) -> None:
        """Cover a square about a point. [mm]"""
        x0, y0 = self._cell((at[0] - radius, at[1] - radius))
        x1, y1 = self._cell((at[0] + radius, at[1] + radius))
        part = self.cells[y0 : y1 + 1, x0 : x1 + 1]
        part[part < weight] = weight
        self._sums = None

    def add_line(self, points: Sequence[Point], radius: float, weight: float = 1.0) -> None:
        """Cover a stroke of some half width. [mm]"""
        for a, b in pairwise(points):
            steps = max(1, ceil(hypot(b[0] - a[0], b[1] - a[1]) / CELL))
            for i in range(steps + 1):
                t = i / steps
                self.add((a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t), radius, weight)

    def _cell(self, at: Point) -> tuple[int, int]:
        x = int((at[0] - self.room.left) / CELL)
        y = int((at[1] - self.room.top) / CELL)
        return min(max(x, 0), self.columns - 1), min(max(y, 0), self.rows - 1)

    def share(self, box: Box) -> float:
        """How much of a box is covered, 0 to 1. [-]"""
        import numpy as np

        if self._sums is None:
            self._sums = np.zeros((self.rows + 1, self.columns + 1))
            self._sums[1:, 1:] = self.cells.cumsum(axis=0).cumsum(axis=1)
        x0, y0 = self._cell((box.left, box.top))
        x1, y1 = self._cell((box.right, box.bottom))
        sums = self._sums
        total = sums[y1 + 1, x1 + 1] - sums[y0, x1 + 1] - sums[y1 + 1, x0] + sums[y0, x0]
        return float(total) / ((x1 - x0 + 1) * (y1 - y0 + 1))

    def crossed(self, at: Point, way: Point, farthest: float) -> "NDArray[np.float64]":
        """How much of a ray lies on what is covered, up to each half mm of it. [mm]"""
        import numpy as np

        steps = np.arange(ceil(farthest / CELL) + 2) * CELL
        x = ((at[0] + way[0] * steps - self.room.left) / CELL).astype(np.int64)
        y = ((at[1] + way[1] * steps - self.room.top) / CELL).astype(np.int64)
        cells = self.cells[y.clip(0, self.rows - 1), x.clip(0, self.columns - 1)]
        total: NDArray[np.float64] = cells.cumsum() * CELL
        return total


def _crosses(s: Segment, t: Segment) -> bool:
    def side(a: Point, b: Point, p: Point) -> float:
        return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])

    (a, b), (c, d) = s, t
    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


class _Board:
    def __init__(self, cover: Cover, taken: Sequence[Box]) -> None:
        self.cover = cover
        self.boxes: list[Box] = list(taken)
        self.leaders: list[Segment] = []

    def is_free(self, box: Box, leader: Segment | None, *, may_cross: bool = False) -> bool:
        if not self.cover.room.holds(box) or any(box.meets(b, CLEAR) for b in self.boxes):
            return False
        if any(box.cut_by(a, b, CLEAR / 2) for a, b in self.leaders):
            return False
        if leader is None:
            return True
        if any(b.cut_by(*leader, CLEAR / 2) for b in self.boxes):
            return False
        return may_cross or not any(_crosses(leader, other) for other in self.leaders)


def _box(centre: Point, width: float, size: float) -> Box:
    half = _HIGH * size / 2
    return Box(centre[0] - width / 2, centre[1] - half, centre[0] + width / 2, centre[1] + half)


def _outside(
    want: Want, width: float, board: _Board, extra: float
) -> list[tuple[float, Box, Segment | None]]:
    found = []
    half = _HIGH * want.size / 2
    for at, radius, cost in want.places:
        for way in range(_WAYS):
            c, s = cos(2 * pi * way / _WAYS), sin(2 * pi * way / _WAYS)
            clear = radius + 0.5
            start = (at[0] + c * clear, at[1] + s * clear)
            crossed = board.cover.crossed(start, (c, s), _AWAY[-1])
            # How far the box reaches back towards its place along this way.
            back = min(
                width / 2 / abs(c) if abs(c) > 1e-9 else 1e9,
                half / abs(s) if abs(s) > 1e-9 else 1e9,
            )
            for away in _AWAY:
                far = radius + away + back
                box = _box((at[0] + c * far, at[1] + s * far), width, want.size)
                total = cost + extra + _FAR * away
                if not board.cover.room.holds(box):
                    break
                total += _COVERS * board.cover.share(box)
                leader = None
                if away > _LEADER_FROM:
                    tip = (at[0] + c * radius * 0.4, at[1] + s * radius * 0.4)
                    end = (at[0] + c * (radius + away - 0.4), at[1] + s * (radius + away - 0.4))
                    leader = (tip, end)
                    total += 3.0 + _CROSSES * float(crossed[int(away / CELL)])
                found.append((total, box, leader))
    return found


def _within(
    want: Want, width: float, board: _Board, extra: float
) -> list[tuple[float, Box, Segment | None]]:
    room = want.inside
    high = _HIGH * want.size
    if room is None or width + 1.2 > room.width or high + 0.8 > room.height:
        return []
    found: list[tuple[float, Box, Segment | None]] = []
    steps = 8
    for i in range(steps + 1):
        for j in range(steps + 1):
            u, v = i / steps - 0.5, j / steps - 0.5
            centre = (
                (room.left + room.right) / 2 + u * (room.width - width - 1.2),
                (room.top + room.bottom) / 2 + v * (room.height - high - 0.8),
            )
            box = _box(centre, width, want.size)
            total = extra + 2.0 * hypot(u, v) + _COVERS * board.cover.share(box)
            found.append((total, box, None))
    return found


def set_labels(
    wants: Sequence[Want], cover: Cover, taken: Sequence[Box] = ()
) -> tuple[tuple[Label, ...], tuple[str, ...]]:
    """Give each thing its label, in order.

    Parameters
    ----------
    wants : Sequence of Want
        The most important first.
    cover : Cover
        What the labels should keep off, and the room they have.
    taken : Sequence of Box
        What they must keep off.

    Returns
    -------
    tuple
        The labels, and the ids of what found no free place.
    """
    board = _Board(cover, taken)
    labels: list[Label] = []
    lost = []
    for want in wants:
        tries: list[tuple[float, int, Box, Segment | None]] = []
        for number, wording in enumerate(want.wordings):
            width = text_width(wording, want.size, bold=want.bold)
            extra = _SHORTER * number
            rows = _within(want, width, board, extra)
            # The longer wording is for those with room of their own.
            if wording == want.wordings[-1]:
                rows += _outside(want, width, board, extra)
            tries += [(cost, number, box, leader) for cost, box, leader in rows]
        tries.sort(key=lambda t: (t[0], t[1], t[2].left, t[2].top))
        if want.if_room:
            tries = [t for t in tries if t[3] is None and not cover.share(t[2])]
        best = next((t for t in tries if board.is_free(t[2], t[3])), None)
        if best is None and want.if_room:
            continue
        if best is None:
            # Rather a leader over another than nothing said.
            best = next((t for t in tries if board.is_free(t[2], t[3], may_cross=True)), None)
        if best is None:
            lost.append(want.id)
            continue
        _, number, box, leader = best
        text = set_text(
            want.wordings[number],
            (box.left, box.top + _ASCENT * want.size),
            want.size,
            bold=want.bold,
            pen=want.pen,
            about=want.id,
            is_clear=True,
        )
        labels.append(Label(want.id, text, text.box, leader))
        board.boxes.append(text.box)
        if leader is not None:
            board.leaders.append(leader)
    return tuple(labels), tuple(lost)
