# SPDX-License-Identifier: Apache-2.0
"""Where the cards of a diagram stand: graphlay's order, folded to the sheet, then bettered.

graphlay gives the layers and the order in them. A long system would be a strip, so its
picture is folded onto as many rows as suit the sheet, on slots; then cards change slots and
sides as long as that makes the lines shorter, straighter and less crossed.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, sqrt
from random import Random

from linewright.scene.card import CELL, DOWN, LEFT, RIGHT, UP, Card, Pad, card, faces
from linewright.scene.network import Link, Network, Node, owner
from linewright.scene.router import STEPS

#: Width to height of the part of a sheet that a diagram fills.
ASPECT = 1.65

#: What a straight connection pays for each crossing, for leaving the wrong way, per cell. [-]
_CROSSED, _BACKWARDS, _SIDEWAYS, _FAR = 30.0, 9.0, 4.0, 0.15

#: Cells that a line runs straight out of its port before the estimate lets it turn.
_STUB = 2.0

Spot = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Placed:
    """A card and the grid point of its upper left corner."""

    card: Card
    x: int
    y: int

    def port(self, pad: Pad) -> tuple[int, int]:
        """Grid point of a port on the edge."""
        return self.x + pad.x, self.y + pad.y


@dataclass(frozen=True, slots=True)
class Layout:
    """All cards in place, on a grid of so many points."""

    placed: tuple[Placed, ...]
    width: int
    height: int


def _graphlay_spots(
    nodes: Sequence[Node], cards: Sequence[Card], links: Sequence[Link]
) -> list[Spot]:
    """Centres as graphlay sets them, folded to the aspect of the sheet. [cells]"""
    import graphlay

    graph = graphlay.Graph()
    for node, one in zip(nodes, cards, strict=True):
        graph.node(node.id, width=one.width * CELL, height=one.height * CELL)
    known = {node.id for node in nodes}
    seen = set()
    for link in links:
        ends = owner(link.source), owner(link.target)
        if ends[0] != ends[1] and ends not in seen and known.issuperset(ends):
            seen.add(ends)
            graph.edge(*ends)
    options = {
        "spacing": {"layer_gap": 24.0, "node_gap": 16.0},
        "wrap": {"viewport_aspect": ASPECT},
    }
    spots = graphlay.layout(graph, options=options).positions()
    return [(spots[n.id][0] / CELL, spots[n.id][1] / CELL) for n in nodes]


class _Board:
    """Slots with a card on each, or none, and what the present places cost."""

    def __init__(self, nodes: Sequence[Node], links: Sequence[Link], cards: Sequence[Card]) -> None:
        self.count = len(nodes)
        self.faces = [
            tuple((face, _ports(card(node, face))) for face in faces(node)) for node in nodes
        ]
        number = {node.id: i for i, node in enumerate(nodes)}
        self.ends = [
            (number[owner(a)], a, number[owner(b)], b)
            for a, b in ((link.source, link.target) for link in links)
        ]
        self.fits = [link.is_fit for link in links]
        self.of: list[list[int]] = [[] for _ in nodes]
        for i, (a, _, b, _) in enumerate(self.ends):
            self.of[a].append(i)
            if b != a:
                self.of[b].append(i)
        self.columns = max(1, round(sqrt(self.count * ASPECT * 0.8)))
        self.rows = ceil(self.count / self.columns)
        widths = [c.width + c.margins[0] + c.margins[2] for c in cards]
        heights = [c.height + c.margins[1] + c.margins[3] for c in cards]
        self.step = (sum(widths) / len(widths) + 5.0, sum(heights) / len(heights) + 3.0)
        self.slot = [0] * self.count
        self.face = [0] * self.count
        self.lines: list[tuple[float, float, float, float]] = [(0, 0, 0, 0)] * len(self.ends)
        self.base: list[float] = [0.0] * len(self.ends)

    def seed(self, spots: Sequence[Spot]) -> None:
        """Put each card on the free slot nearest to its spot, those on the left first."""
        xs, ys = [s[0] for s in spots], [s[1] for s in spots]
        wide, high = max(xs) - min(xs) or 1.0, max(ys) - min(ys) or 1.0
        free = set(range(self.columns * self.rows))
        for i in sorted(range(self.count), key=lambda i: (round(xs[i], 3), ys[i])):
            x = (xs[i] - min(xs)) / wide * (self.columns - 1)
            y = (ys[i] - min(ys)) / high * (self.rows - 1)

            def away(slot: int, x: float = x, y: float = y) -> tuple[float, int]:
                row, column = divmod(slot, self.columns)
                return (column - x) ** 2 + (row - y) ** 2, slot

            self.slot[i] = min(free, key=away)
            free.discard(self.slot[i])

    def measure(self, link: int) -> None:
        """Reckon the straight line of a link and what it costs without crossings."""
        a, port_a, b, port_b = self.ends[link]
        ax, ay, sa = self.point(a, port_a)
        bx, by, sb = self.point(b, port_b)
        dx, dy = bx - ax, by - ay
        ux, uy = STEPS[sa]
        vx, vy = STEPS[sb]
        out, back = dx * ux + dy * uy, -(dx * vx + dy * vy)
        far = abs(dx) + abs(dy)
        cost = far * (1.0 + _FAR * far / (self.step[0] + self.step[1]))
        cost += _BACKWARDS * ((out < 1) + (back < 1))
        if abs(dx * uy - dy * ux) > 1:
            cost += _SIDEWAYS
        self.base[link] = cost * (3.0 if self.fits[link] else 1.0)
        self.lines[link] = (ax + _STUB * ux, ay + _STUB * uy, bx + _STUB * vx, by + _STUB * vy)

    def point(self, node: int, port: str) -> tuple[float, float, int]:
        row, column = divmod(self.slot[node], self.columns)
        x, y, side = self.faces[node][self.face[node]][1][port]
        return column * self.step[0] + x, row * self.step[1] + y, side

    def cost(self, links: Sequence[int]) -> float:
        """Cost of some links, their crossings with all others among it."""
        total = 0.0
        chosen = set(links)
        lines = self.lines
        for i in links:
            total += self.base[i]
            ax, ay, bx, by = lines[i]
            for j, (cx, cy, dx, dy) in enumerate(lines):
                if j == i or (j in chosen and j < i):
                    continue
                side_c = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
                side_d = (bx - ax) * (dy - ay) - (by - ay) * (dx - ax)
                if side_c * side_d >= 0:
                    continue
                side_a = (dx - cx) * (ay - cy) - (dy - cy) * (ax - cx)
                side_b = (dx - cx) * (by - cy) - (dy - cy) * (bx - cx)
                if side_a * side_b < 0:
                    total += _CROSSED
        return total

    def improve(self, moves: int, seed: int = 1) -> None:
        """Swap, move and flip cards; a worse state is kept now and then while it is hot."""
        chance = Random(seed)
        slots = self.columns * self.rows
        holder = {s: i for i, s in enumerate(self.slot)}
        for link in range(len(self.ends)):
            self.measure(link)
        heat = 30.0
        old_face = 0
        now = best = self.cost(range(len(self.ends)))
        kept = (list(self.slot), list(self.face))
        for _ in range(moves):
            heat *= 0.02 ** (1 / moves)
            i = chance.randrange(self.count)
            if chance.random() < 0.25:
                moved = [i]
                links = self.of[i]
                before = self.cost(links)
                old_face = self.face[i]
                self.face[i] = (old_face + chance.randrange(1, len(self.faces[i]))) % len(
                    self.faces[i]
                )
                undo = None
            else:
                row, column = divmod(self.slot[i], self.columns)
                if chance.random() < 0.6:
                    dx, dy = chance.choice(STEPS)
                    row, column = row + dy, column + dx
                    if not (0 <= row < self.rows and 0 <= column < self.columns):
                        continue
                    target = row * self.columns + column
                else:
                    target = chance.randrange(slots)
                if target == self.slot[i]:
                    continue
                other = holder.get(target)
                moved = [i] if other is None else [i, other]
                links = sorted({link for m in moved for link in self.of[m]})
                before = self.cost(links)
                undo = (self.slot[i], target)
                self._swap(i, other, target, holder)
            for link in links:
                self.measure(link)
            change = self.cost(links) - before
            if change <= 0 or chance.random() < 2.718281828 ** (-change / heat):
                now += change
                if now < best - 1e-9:
                    best = now
                    kept = (list(self.slot), list(self.face))
                continue
            if undo is None:
                self.face[i] = old_face
            else:
                self._swap(i, moved[1] if len(moved) > 1 else None, undo[0], holder)
            for link in links:
                self.measure(link)
        self.slot, self.face = kept

    def _swap(self, i: int, other: int | None, target: int, holder: dict[int, int]) -> None:
        """Put card i on a slot; the other card, if any, takes the one it leaves."""
        left = self.slot[i]
        del holder[left]
        self.slot[i] = target
        holder[target] = i
        if other is not None:
            self.slot[other] = left
            holder[left] = other


def _ports(one: Card) -> dict[str, tuple[float, float, int]]:
    """Ports about the middle of the card, with their sides.

    All ports of a side stand in its middle: their order is chosen later, by where they lead.
    """
    middles = {}
    for side in range(4):
        here = [p for p in one.pads if p.side == side]
        if here:
            x = sum(p.x for p in here) / len(here) - one.width / 2
            y = sum(p.y for p in here) / len(here) - one.height / 2
            middles[side] = x, y, side
    return {p.pin.id: middles[p.side] for p in one.pads}


def _ordered(board: _Board, nodes: Sequence[Node]) -> list[Card]:
    """Cards with the ports of each side in the order of what they lead to."""
    partner: dict[str, tuple[float, float]] = {}
    for a, port_a, b, port_b in board.ends:
        partner[port_a] = board.point(b, port_b)[:2]
        partner[port_b] = board.point(a, port_a)[:2]
    cards = []
    for i, node in enumerate(nodes):
        face = board.faces[i][board.face[i]][0]
        plain = card(node, face)
        order: dict[str, int] = {}
        for side in range(4):
            pads = [p for p in plain.pads if p.side == side]
            axis = 1 if side in (LEFT, RIGHT) else 0
            linked = sorted((p for p in pads if p.pin.id in partner),
                            key=lambda p: partner[p.pin.id][axis])  # fmt: skip
            order |= {p.pin.id: rank for rank, p in enumerate(linked)}
            order |= {p.pin.id: 99 for p in pads if p.pin.id not in partner}
        cards.append(card(node, face, order))
    return cards


def place(network: Network, *, gap: int = 4, moves: int | None = None, seed: int = 1) -> Layout:
    """Give every card its place on the grid.

    Parameters
    ----------
    network : Network
        What to draw.
    gap : int
        Cells left free between cards for the lines.
    moves : int, optional
        Tries to better the places; by the size of the network if left out.
    seed : int
        Which of the possible ways of trying; the same one gives the same places.

    Returns
    -------
    Layout
        Cards on grid points, and the size of the grid.
    """
    nodes, links = network.nodes, network.links
    if not nodes:
        return Layout((), 8, 8)
    cards = [card(node) for node in nodes]
    board = _Board(nodes, links, cards)
    board.seed(_graphlay_spots(nodes, cards, links))
    if links:
        board.improve(moves if moves is not None else min(400 + 80 * len(nodes), 2200), seed)
    cards = _ordered(board, nodes)
    return _set_out(board, cards, gap)


def _set_out(board: _Board, cards: Sequence[Card], gap: int) -> Layout:
    """Columns and rows as wide as their cards; cards on one axis, or where lines run straight."""
    where = [divmod(slot, board.columns) for slot in board.slot]
    rows = sorted({row for row, _ in where})
    columns = sorted({column for _, column in where})
    lift = _straightened(board, cards, where, upright=False)
    slide = _straightened(board, cards, where, upright=True)
    x = gap
    axis = {}
    for column in columns:
        inside = [i for i, (_, k) in enumerate(where) if k == column]
        before = max(cards[i].margins[LEFT] - slide[i] for i in inside)
        after = max(cards[i].width + cards[i].margins[RIGHT] + slide[i] for i in inside)
        axis[column] = x + before
        x = axis[column] + after + gap
    y = gap
    level = {}
    for row in rows:
        inside = [i for i, (k, _) in enumerate(where) if k == row]
        above = max(cards[i].margins[UP] - lift[i] for i in inside)
        under = max(cards[i].height + cards[i].margins[DOWN] + lift[i] for i in inside)
        level[row] = y + above
        y = level[row] + under + max(gap - 1, 3)
    placed = tuple(
        Placed(one, axis[column] + slide[i], level[row] + lift[i])
        for i, (one, (row, column)) in enumerate(zip(cards, where, strict=True))
    )
    return Layout(placed, x, y + 1)


def _straightened(
    board: _Board, cards: Sequence[Card], where: Sequence[tuple[int, int]], *, upright: bool
) -> list[int]:
    """Shift each card across its row or column, so that lines to its neighbours are straight.

    A card without such a line lies with its middle port on the axis.
    """
    pads = [{p.pin.id: p for p in one.pads} for one in cards]
    lanes: dict[int, list[int]] = {}
    for i, (row, column) in enumerate(where):
        lanes.setdefault(column if upright else row, []).append(i)
    place = {i: (row if upright else column) for i, (row, column) in enumerate(where)}
    after: dict[int, int] = {}
    for lane in lanes.values():
        lane.sort(key=place.__getitem__)
        after |= dict(pairwise(lane))
    forward = DOWN if upright else RIGHT
    joins: list[list[tuple[int, int, int, int]]] = [[] for _ in cards]  # other, mine, its, weight
    for (a, port_a, b, port_b), fit in zip(board.ends, board.fits, strict=True):
        pa, pb = pads[a][port_a], pads[b][port_b]
        if pa.side == forward ^ 2:
            a, pa, b, pb = b, pb, a, pa
        if after.get(a) != b or pa.side != forward or pb.side != forward ^ 2:
            continue
        mine, its = (pa.x, pb.x) if upright else (pa.y, pb.y)
        joins[a].append((b, mine, its, 2 if fit else 1))
        joins[b].append((a, its, mine, 2 if fit else 1))
    shift = [-(one.width // 2) if upright else -_spine(one) for one in cards]
    fixed = list(shift)
    for _ in range(3):
        for i, found in enumerate(joins):
            if not found:
                continue
            gains: dict[int, int] = {}
            for other, mine, its, weight in found:
                wanted = shift[other] + its - mine
                if abs(wanted - fixed[i]) <= 4:
                    gains[wanted] = gains.get(wanted, 0) + weight
            if gains:
                shift[i] = min(gains, key=lambda s: (-gains[s], abs(s - fixed[i]), s))
    return shift


def _spine(one: Card) -> int:
    """Row of a card that lines up with its neighbours: that of its middle side port."""
    ys = sorted(p.y for p in one.pads if p.side in (LEFT, RIGHT))
    return ys[len(ys) // 2] if ys else one.height // 2
