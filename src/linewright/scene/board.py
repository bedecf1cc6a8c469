# SPDX-License-Identifier: Apache-2.0
"""Slots with cards on them, and the search for a better way to fill them.

What a way of filling costs is an estimate: links are straight strokes between the middles of
the sides they leave by. How they really run is settled afterwards, by the router.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, exp, sqrt
from random import Random

from linewright.scene.card import Card, card
from linewright.scene.faces import Face, faces
from linewright.scene.network import Link, Node, owner
from linewright.scene.router import STEPS

#: Width to height of the part of a sheet that a diagram fills.
ASPECT = 1.65

#: What a straight connection pays for each crossing, for leaving the wrong way, for a corner,
#: and for length beyond that of a neighbour. [cells]
_CROSSED, _BACKWARDS, _SIDEWAYS, _FAR = 30.0, 9.0, 4.0, 0.15

#: Cells that a line runs straight out of its port before the estimate lets it turn.
_STUB = 2.0

#: Two ports screwed together want to stand together more than two ends of a hose.
_FIT = 3.0

#: Worsening that is kept with a chance of 1/e at the start, and its share left at the end.
_HEAT, _COOLED = 30.0, 0.02

Spot = tuple[float, float]
Seat = tuple[float, float, int, int]  # of a port about the middle of its card, and its heading
Stroke = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class End:
    """One end of a link: the card's number and the port's id."""

    card: int
    port: str


class Board:
    """Slots with a card on each, or none, and what the present places cost."""

    def __init__(self, nodes: Sequence[Node], links: Sequence[Link], cards: Sequence[Card]) -> None:
        self.count = len(nodes)
        number = {node.id: i for i, node in enumerate(nodes)}
        self.ends = [
            (End(number[owner(k.source)], k.source), End(number[owner(k.target)], k.target))
            for k in links
        ]
        self.fits = [link.is_fit for link in links]
        self.faces: list[tuple[Face, ...]] = [faces(node) for node in nodes]
        seats = [[_seats(card(node, face)) for face in faces(node)] for node in nodes]
        self._seats: list[tuple[list[Seat], list[Seat]]] = [  # by link, then by face of its card
            ([s[a.port] for s in seats[a.card]], [s[b.port] for s in seats[b.card]])
            for a, b in self.ends
        ]
        self.of: list[list[int]] = [[] for _ in nodes]
        for i, (a, b) in enumerate(self.ends):
            for one in {a.card, b.card}:
                self.of[one].append(i)
        self.columns = max(1, round(sqrt(self.count * ASPECT * 0.8)))
        self.rows = ceil(self.count / self.columns)
        widths = [c.width + c.margins[0] + c.margins[2] for c in cards]
        heights = [c.height + c.margins[1] + c.margins[3] for c in cards]
        wide, high = sum(widths) / len(widths) + 5.0, sum(heights) / len(heights) + 3.0
        self._far = _FAR / (wide + high)
        self._spots = [
            (column * wide, row * high)
            for row in range(self.rows)
            for column in range(self.columns)
        ]
        self.slot = list(range(self.count))
        self.face = [0] * self.count
        self._strokes: list[Stroke] = [(0.0, 0.0, 0.0, 0.0)] * len(self.ends)
        self._base = [0.0] * len(self.ends)

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

    def point(self, end: End, link: int) -> Spot:
        """Where an end of a link is, in cells."""
        side = 0 if end is self.ends[link][0] else 1
        x, y = self._spots[self.slot[end.card]]
        seat = self._seats[link][side][self.face[end.card]]
        return x + seat[0], y + seat[1]

    def _measure(self, link: int) -> None:
        """Reckon the stroke of a link and what it costs without crossings."""
        a, b = self.ends[link]
        seats_a, seats_b = self._seats[link]
        ax, ay, ux, uy = seats_a[self.face[a.card]]
        bx, by, vx, vy = seats_b[self.face[b.card]]
        spot_a, spot_b = self._spots[self.slot[a.card]], self._spots[self.slot[b.card]]
        ax, ay, bx, by = ax + spot_a[0], ay + spot_a[1], bx + spot_b[0], by + spot_b[1]
        dx, dy = bx - ax, by - ay
        far = abs(dx) + abs(dy)
        cost = far * (1.0 + self._far * far)
        if dx * ux + dy * uy < 1:
            cost += _BACKWARDS
        if dx * vx + dy * vy > -1:
            cost += _BACKWARDS
        if abs(dx * uy - dy * ux) > 1:
            cost += _SIDEWAYS
        self._base[link] = cost * _FIT if self.fits[link] else cost
        self._strokes[link] = (ax + _STUB * ux, ay + _STUB * uy, bx + _STUB * vx, by + _STUB * vy)

    def _cost(self, links: Sequence[int]) -> float:
        """Cost of some links, their crossings with all others among it."""
        total = 0.0
        strokes = self._strokes
        for n, i in enumerate(links):
            total += self._base[i]
            ax, ay, bx, by = strokes[i]
            ex, ey = bx - ax, by - ay
            before = links[:n]
            for j, (cx, cy, dx, dy) in enumerate(strokes):
                of_c = ex * (cy - ay) - ey * (cx - ax)
                of_d = ex * (dy - ay) - ey * (dx - ax)
                if of_c * of_d >= 0.0 or j in before:
                    continue
                fx, fy = dx - cx, dy - cy
                if (fx * (ay - cy) - fy * (ax - cx)) * (fx * (by - cy) - fy * (bx - cx)) < 0.0:
                    total += _CROSSED
        return total

    def improve(self, moves: int, seed: int) -> None:
        """Swap, move and turn cards; a worse state is kept now and then while it is hot."""
        chance = Random(seed)
        holder = {s: i for i, s in enumerate(self.slot)}
        for link in range(len(self.ends)):
            self._measure(link)
        heat = _HEAT
        cooling = _COOLED ** (1 / max(moves, 1))
        gain = 0.0
        best = 0.0
        kept = (list(self.slot), list(self.face))
        for _ in range(moves):
            heat *= cooling
            i = chance.randrange(self.count)
            old_slot, old_face = self.slot[i], self.face[i]
            other: int | None = None
            links = self.of[i]
            target = old_slot
            if chance.random() >= 0.25:
                target = self._target(old_slot, chance)
                if target == old_slot:
                    continue
                other = holder.get(target)
                if other is not None:
                    links = sorted({*links, *self.of[other]})
            before = self._cost(links)
            strokes, base = list(self._strokes), list(self._base)
            if target == old_slot:
                count = len(self.faces[i])
                self.face[i] = (old_face + chance.randrange(1, count)) % count
            else:
                self._swap(i, other, target, holder)
            for link in links:
                self._measure(link)
            change = self._cost(links) - before
            if change <= 0 or chance.random() < exp(-change / heat):
                gain -= change
                if gain > best + 1e-9:
                    best = gain
                    kept = (list(self.slot), list(self.face))
                continue
            self._strokes, self._base = strokes, base
            self.face[i] = old_face
            if target != old_slot:
                self._swap(i, other, old_slot, holder)
        self.slot, self.face = kept

    def _target(self, slot: int, chance: Random) -> int:
        """Slot to try: a neighbour more often than any; the same one for "off the board"."""
        if chance.random() >= 0.6:
            return chance.randrange(self.columns * self.rows)
        row, column = divmod(slot, self.columns)
        dx, dy = chance.choice(STEPS)
        row, column = row + dy, column + dx
        if 0 <= row < self.rows and 0 <= column < self.columns:
            return row * self.columns + column
        return slot

    def _swap(self, i: int, other: int | None, target: int, holder: dict[int, int]) -> None:
        """Put card i on a slot; the other card, if any, takes the one it leaves."""
        left = self.slot[i]
        del holder[left]
        self.slot[i] = target
        holder[target] = i
        if other is not None:
            self.slot[other] = left
            holder[left] = other


def _seats(one: Card) -> dict[str, Seat]:
    """Ports about the middle of the card, with their headings.

    All ports of a side stand in its middle: their order is chosen later, by where they lead.
    """
    middles = {}
    for side in range(4):
        here = [p for p in one.pads if p.side == side]
        if here:
            x = sum(p.x for p in here) / len(here) - one.width / 2
            y = sum(p.y for p in here) / len(here) - one.height / 2
            middles[side] = x, y, *STEPS[side]
    return {p.pin.id: middles[p.side] for p in one.pads}
