# SPDX-License-Identifier: Apache-2.0
"""What the shop owns is used first, the exact part before what may stand in for it."""

from dataclasses import dataclass, replace

from linewright.base.ids import natural_key
from linewright.catalogue.stock import Catalogue
from linewright.order.model import Shelf
from linewright.order.needs import HoseNeed, Needs, PartNeed, Rest, down
from linewright.order.substitutes import substitutes


@dataclass(frozen=True, slots=True)
class ShelfUse:
    """So many of a part taken from a bin; ``stands_for`` is the code that asked for it."""

    bin: str
    part: str
    count: int
    stands_for: str


def net(needs: Needs, shelf: Shelf, catalogue: Catalogue) -> tuple[Needs, tuple[ShelfUse, ...]]:
    """Take from the shelf what it has.

    Parameters
    ----------
    needs : Needs
        All that has to be there.
    shelf : Shelf
        What the shop owns.
    catalogue : Catalogue
        Where it stands what may replace what.

    Returns
    -------
    Needs
        What is left to buy. Hose keeps all its pieces, with the offcuts they may be cut
        from: however short, an offcut is offered to the cutting plan and stays on the
        shelf where nothing is cut from it.
    tuple of ShelfUse
        What is taken, and from where.
    """
    stock: dict[str, list[tuple[str, int]]] = {}
    for item in sorted(shelf.items, key=lambda i: (natural_key(i.bin), i.part)):
        if item.count > 0:
            stock.setdefault(item.part, []).append((item.bin, item.count))
    uses: list[ShelfUse] = []
    parts = [_take(need, need.code, stock, uses) for need in needs.parts]
    for at, need in enumerate(parts):
        for other in substitutes(catalogue, need.code, frozenset(stock)) if need.count else ():
            parts[at] = _take(parts[at], other, stock, uses)
    hoses = tuple(replace(need, offcuts=_offcuts(need, shelf)) for need in needs.hoses)
    return Needs(tuple(need for need in parts if need.count), hoses), tuple(uses)


def _take(
    need: PartNeed, code: str, stock: dict[str, list[tuple[str, int]]], uses: list[ShelfUse]
) -> PartNeed:
    left = need.count
    bins = []
    for bin_, count in stock.get(code, ()):
        taken = min(left, count)
        if taken:
            uses.append(ShelfUse(bin_, code, taken, need.code))
        left -= taken
        if count > taken:
            bins.append((bin_, count - taken))
    if code in stock:
        stock[code] = bins
    taken = need.count - left
    due = tuple((day, count - taken) for day, count in need.due if count > taken)
    return replace(need, count=left, due=due, both=min(need.both, left))


def _offcuts(need: HoseNeed, shelf: Shelf) -> tuple[Rest, ...]:
    rests = [Rest(o.bin, down(o.length)) for o in shelf.offcuts if o.part == need.code]
    return tuple(sorted((r for r in rests if r.length > 0), key=lambda r: (r.length, r.bin)))
