# SPDX-License-Identifier: Apache-2.0
"""Three ways to buy that need no search: cheapest offer each, one supplier, greedy."""

from math import ceil

from linewright.order.model import Market, Offer, SoldAs
from linewright.takeoff.model import Takeoff

#: Units of an offer that some need takes, worked out plainly.
Cart = dict[int, int]


def plain_rules(takeoff: Takeoff, market: Market, kerf: float = 0.003) -> dict[str, int | None]:
    """What each rule pays in smallest units; None where it covers not all of it."""
    names = sorted({offer.supplier for offer in market.offers})
    singles = [_by_rule(takeoff, market, kerf, [name], set()) for name in names]
    known = [cost for cost in singles if cost is not None]
    return {
        "cheapest offer each": _by_rule(takeoff, market, kerf, names, set()),
        "one supplier": min(known, default=None),
        "greedy": _greedy(takeoff, market, kerf, names),
    }


def _greedy(takeoff: Takeoff, market: Market, kerf: float, names: list[str]) -> int | None:
    """Cheapest each, and then leave out one supplier after another while that saves money."""
    kept = list(names)
    best = _by_rule(takeoff, market, kerf, kept, set())
    while True:
        fewer = {
            name: _by_rule(takeoff, market, kerf, [n for n in kept if n != name], set())
            for name in kept
        }
        known = {name: cost for name, cost in fewer.items() if cost is not None}
        name = min(known, key=lambda n: (known[n], n), default=None)
        if name is None or (best is not None and known[name] >= best):
            return best
        best = known[name]
        kept.remove(name)


def _by_rule(
    takeoff: Takeoff, market: Market, kerf: float, names: list[str], out: set[int]
) -> int | None:
    """Each need from its cheapest offers; a box below its smallest order is left out."""
    cart: Cart = {}
    for row in takeoff.rows:
        taken = _part(row.code, row.order, market, names, out)
        if taken is None:
            return None
        cart |= taken
    for hose in takeoff.hoses:
        lengths = [length for _, length in hose.pieces]
        taken = _hose(hose.code, lengths, hose.order, market, names, kerf, out)
        if taken is None:
            return None
        cart |= taken
    low = _too_small(cart, market)
    if low:
        rest = [name for name in names if name not in low]
        return _by_rule(takeoff, market, kerf, rest, out) if rest else None
    return _price(cart, market)


def _part(code: str, need: int, market: Market, names: list[str], out: set[int]) -> Cart | None:
    left, cart = need, {}
    offers = [
        (offer.price.minor * ceil(need / offer.pack), i, offer)
        for i, offer in enumerate(market.offers)
        if offer.part == code and offer.supplier in names and i not in out
    ]
    for _, i, offer in sorted(offers, key=lambda each: each[:2]):
        units = min(ceil(left / offer.pack), offer.stock if offer.stock is not None else 10**6)
        if units > 0:
            cart[i] = units
            left -= units * offer.pack
        if left <= 0:
            return cart
    return None


def _hose(
    code: str,
    lengths: list[float],
    total: float,
    market: Market,
    names: list[str],
    kerf: float,
    out: set[int],
) -> Cart | None:
    """One offer alone, first fit with the longest first; the cheapest such."""
    best: tuple[int, Cart] | None = None
    for i, offer in enumerate(market.offers):
        if offer.part != code or offer.supplier not in names or i in out:
            continue
        units = _units(offer, lengths, total, kerf)
        if units is None or (offer.stock is not None and units > offer.stock):
            continue
        cost = units * offer.price.minor
        if best is None or cost < best[0]:
            best = cost, {i: units}
    return None if best is None else best[1]


def _units(offer: Offer, lengths: list[float], total: float, kerf: float) -> int | None:
    each = offer.length or 1.0
    if offer.sold_as is SoldAs.CUT:
        return ceil((max(total, sum(lengths) + kerf * len(lengths))) / each - 1e-9)
    bars: list[float] = []
    for length in sorted(lengths, reverse=True):
        for at, room in enumerate(bars):
            if room >= length + kerf:
                bars[at] -= length + kerf
                break
        else:
            if length > each:
                return None
            bars.append(each + kerf - length - kerf)
    return max(len(bars), ceil(total / each - 1e-9))


def _too_small(cart: Cart, market: Market) -> set[str]:
    goods = _goods(cart, market)
    least = {s.name: s.smallest_order.minor for s in market.suppliers if s.smallest_order}
    return {name for name, worth in goods.items() if worth < least.get(name, 0)}


def _goods(cart: Cart, market: Market) -> dict[str, int]:
    goods: dict[str, int] = {}
    for i, units in cart.items():
        offer = market.offers[i]
        goods[offer.supplier] = goods.get(offer.supplier, 0) + units * offer.price.minor
    return goods


def _price(cart: Cart, market: Market) -> int:
    terms = {supplier.name: supplier for supplier in market.suppliers}
    whole = 0
    for name, worth in _goods(cart, market).items():
        supplier = terms[name]
        fee = supplier.shipping[0][1].minor if supplier.shipping else 0
        if supplier.free_above and worth >= supplier.free_above.minor:
            fee = 0
        whole += worth + fee
    return whole
