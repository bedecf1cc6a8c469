# SPDX-License-Identifier: Apache-2.0
"""Where the cards of a diagram stand: graphlay's order, folded to the sheet, then bettered.

graphlay gives the layers and the order in them. A long system would be a strip, so its
picture is folded onto as many rows as suit the sheet, on slots; then cards change slots and
sides as long as that makes the lines shorter, straighter and less crossed.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from linewright.scene.board import ASPECT, Board, Spot
from linewright.scene.card import Card, Pad, card
from linewright.scene.faces import CELL, DOWN, LEFT, RIGHT, UP
from linewright.scene.network import Link, Network, Node, owner


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


def _ordered(board: Board, nodes: Sequence[Node]) -> list[Card]:
    """Cards with the ports of each side in the order of what they lead to."""
    partner: dict[str, tuple[float, float]] = {}
    for link, (a, b) in enumerate(board.ends):
        partner[a.port] = board.point(b, link)
        partner[b.port] = board.point(a, link)
    cards = []
    for i, node in enumerate(nodes):
        face = board.faces[i][board.face[i]]
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
    board = Board(nodes, links, cards)
    board.seed(_graphlay_spots(nodes, cards, links))
    if links:
        board.improve(moves if moves is not None else min(400 + 80 * len(nodes), 2200), seed)
    cards = _ordered(board, nodes)
    return _set_out(board, cards, gap)


def _set_out(board: Board, cards: Sequence[Card], gap: int) -> Layout:
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
        x = axis[column] + after + gap + 1  # room for a number between neighbours
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
    board: Board, cards: Sequence[Card], where: Sequence[tuple[int, int]], *, upright: bool
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
    for (end_a, end_b), fit in zip(board.ends, board.fits, strict=True):
        a, b = end_a.card, end_b.card
        pa, pb = pads[a][end_a.port], pads[b][end_b.port]
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
