# SPDX-License-Identifier: Apache-2.0
"""Every order there is, tried one after another: slow, plain, and sharing no code."""

from fractions import Fraction
from itertools import product

from linewright.order.model import Market, Offer, SoldAs, Supplier
from linewright.takeoff.model import Takeoff


def cheapest(takeoff: Takeoff, market: Market, kerf: float, most: int = 6) -> Fraction | None:
    """Least cost of all orders of up to so many units of each offer; None if none will do."""
    offers = market.offers
    best: Fraction | None = None
    room = [range(min(most, o.stock if o.stock is not None else most) + 1) for o in offers]
    by_code: dict[str, list[int]] = {}
    for at, offer in enumerate(offers):
        by_code.setdefault(offer.part or "", []).append(at)
    # Each part's or hose's own choices first: only those that cover it are combined.
    choices: list[list[dict[int, int]]] = []
    for row in takeoff.rows:
        mine = by_code.get(row.code, [])
        choices.append(
            [
                dict(zip(mine, counts, strict=True))
                for counts in product(*(room[i] for i in mine))
                if sum(offers[i].pack * n for i, n in zip(mine, counts, strict=True)) >= row.order
            ]
        )
    for hose in takeoff.hoses:
        mine = by_code.get(hose.code, [])
        choices.append(
            [
                dict(zip(mine, counts, strict=True))
                for counts in product(*(room[i] for i in mine))
                if _yields(
                    [length for _, length in hose.pieces],
                    hose.order,
                    [(offers[i], n) for i, n in zip(mine, counts, strict=True)],
                    kerf,
                )
            ]
        )
    terms = {s.name: s for s in market.suppliers}
    for some in product(*choices):
        counts = {i: n for each in some for i, n in each.items()}
        cost = _cost(offers, counts, terms)
        if cost is not None and (best is None or cost < best):
            best = cost
    return best


def _cost(
    offers: tuple[Offer, ...], counts: dict[int, int], terms: dict[str, Supplier]
) -> Fraction | None:
    goods: dict[str, int] = {}
    for i, n in counts.items():
        if n:
            goods[offers[i].supplier] = goods.get(offers[i].supplier, 0) + n * offers[i].price.minor
    whole = Fraction(0)
    for name, worth in goods.items():
        supplier = terms[name]
        if supplier.smallest_order and worth < supplier.smallest_order.minor:
            return None
        fee = 0
        for start, price in sorted(supplier.shipping, key=lambda step: step[0].minor):
            if worth >= start.minor:
                fee = price.minor
        if supplier.free_above and worth >= supplier.free_above.minor:
            fee = 0
        whole += (worth + fee) * (1 + Fraction(supplier.tax))
    return whole


def _yields(
    pieces: list[float], total: float, bought: list[tuple[Offer, int]], kerf: float
) -> bool:
    bars: list[float] = []
    for offer, count in bought:
        if offer.sold_as is SoldAs.CUT:
            bars += [(offer.length or 0) * count] if count else []
        else:
            bars += [offer.length or 0.0] * count
    if sum(bars) < total - 1e-9:
        return False
    return _place(sorted(pieces, reverse=True), [bar + kerf for bar in bars], kerf)


def _place(pieces: list[float], left: list[float], kerf: float) -> bool:
    if not pieces:
        return True
    tried = set()
    for at, room in enumerate(left):
        if room >= pieces[0] + kerf - 1e-9 and round(room, 6) not in tried:
            tried.add(round(room, 6))
            if _place(pieces[1:], [*left[:at], room - pieces[0] - kerf, *left[at + 1 :]], kerf):
                return True
    return False
