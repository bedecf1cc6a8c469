# SPDX-License-Identifier: Apache-2.0
"""From places to lines: lay them, then change ports over where that saves crossings.

The places were chosen by an estimate. Here each change is judged by the lines as they are
really laid: two ports of one side change places, or a card is turned round where it stands.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from linewright.scene.card import Card, card
from linewright.scene.faces import faces
from linewright.scene.layout import Layout, Placed
from linewright.scene.network import Link, owner
from linewright.scene.router import STEPS, Grid, Terminal, Web, Wire, lay


def grid_of(layout: Layout) -> Grid:
    """Grid with the cards, and what ends their ports, closed to lines.

    Parameters
    ----------
    layout : Layout
        Cards in place.

    Returns
    -------
    Grid
        The grid; the way out of each port that carries a line is open.
    """
    grid = Grid(layout.width, layout.height)
    for placed in layout.placed:
        one = placed.card
        grid.block(placed.x, placed.y, placed.x + one.width, placed.y + one.height)
        for left, top, right, bottom in one.outside:
            grid.block(placed.x + left, placed.y + top, placed.x + right, placed.y + bottom)
    for placed in layout.placed:
        for pad in placed.card.pads:
            if pad.pin.linked:
                x, y = placed.port(pad)
                dx, dy = STEPS[pad.side]
                grid.blocked[(y + dy) * grid.width + x + dx] = 0
    return grid


def terminals(layout: Layout) -> dict[str, Terminal]:
    """First free point before each port, by port id.

    Parameters
    ----------
    layout : Layout
        Cards in place.

    Returns
    -------
    dict
        Where the lines start and end.
    """
    found = {}
    for placed in layout.placed:
        for pad in placed.card.pads:
            x, y = placed.port(pad)
            dx, dy = STEPS[pad.side]
            found[pad.pin.id] = Terminal((x + dx, y + dy), pad.side)
    return found


def _others(one: Card) -> Iterator[Card]:
    """The same component otherwise: ports of a side changed over, or turned round."""
    rank = {p.pin.id: n for n, p in enumerate(one.pads)}
    for side in range(4):
        here = [p.pin for p in one.pads if p.side == side and p.pin.linked]
        for a, b in pairwise(here):
            order = rank | {a.id: rank[b.id], b.id: rank[a.id]}
            yield card(one.node, one.face, order)
    if one.outside:
        return
    for face in faces(one.node):
        other = card(one.node, face, rank)
        if face != one.face and (other.width, other.height) == (one.width, one.height):
            if other.outside:
                continue
            yield other


def first_lay(layout: Layout, links: Sequence[Link]) -> Web:
    """Lay all lines once, which is enough to tell a good layout from a poor one.

    Parameters
    ----------
    layout : Layout
        Cards in place.
    links : Sequence of Link
        What to connect.

    Returns
    -------
    Web
        The lines.
    """
    at = terminals(layout)
    wires = [Wire(k.id, at[k.source], at[k.target], k.id) for k in links]
    return lay(grid_of(layout), wires, passes=0)


def settle(layout: Layout, links: Sequence[Link], tries: int) -> tuple[Layout, Web]:
    """Lay all lines, and better the cards by what the lines really cost.

    Parameters
    ----------
    layout : Layout
        Cards in place.
    links : Sequence of Link
        What to connect.
    tries : int
        Most lines to lay again in search of something better.

    Returns
    -------
    tuple
        The layout with its cards as they are now, and the lines.
    """

    def wire(link: Link) -> Wire:
        return Wire(link.id, at[link.source], at[link.target], link.id)

    at = terminals(layout)
    web = lay(grid_of(layout), [wire(link) for link in links])
    placed = list(layout.placed)
    of: dict[str, list[Link]] = {}
    for link in links:
        for node in {owner(link.source), owner(link.target)}:
            of.setdefault(node, []).append(link)
    changed = True
    while changed and tries > 0:
        changed = False
        for i in range(len(placed)):
            mine = of.get(placed[i].card.node.id, [])
            for other in _others(placed[i].card):
                if tries < len(mine):
                    break
                before = dict(at)
                trial = Placed(other, placed[i].x, placed[i].y)
                pays = 0.0
                old = {}
                for link in mine:
                    pays += web.cost(link.id)
                    old[link.id] = web.take_up(link.id)
                at |= terminals(replace(layout, placed=(trial,)))
                web.add(wire(link) for link in mine)
                left: float | None = pays - 1e-6
                for link in mine:
                    tries -= 1
                    cost = web.lay(link.id, left if left is not None else 0.0)
                    left = None if cost is None or left is None else left - cost
                    if left is None:
                        break
                if left is not None:
                    placed[i], changed = trial, True
                    break
                for link in mine:
                    web.take_up(link.id)
                at = before
                web.add(wire(link) for link in mine)
                for key, path in old.items():
                    if path is not None:
                        web.put(key, path)
    for link in links:  # once more in view of all the changes
        web.take_up(link.id)
        web.lay(link.id)
    return replace(layout, placed=tuple(placed)), web
