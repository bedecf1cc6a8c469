# SPDX-License-Identifier: Apache-2.0
"""From what is needed, offered and owned to one order: the door to this package."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from linewright.base.errors import OrderError
from linewright.base.finding import Finding, Severity
from linewright.base.money import Money
from linewright.base.shown import show_length, show_run
from linewright.catalogue.stock import Catalogue, generic
from linewright.order.frontier import compare, money, without_each
from linewright.order.goods import Goods, Short, goods_for
from linewright.order.model import Market, Offcut, Shelf, ShelfItem
from linewright.order.needs import TENTHS, Needs, needs, split
from linewright.order.price import shipping
from linewright.order.result import Both, Holding, Length, Listed, Order, Proof
from linewright.order.shelf import ShelfUse, net
from linewright.order.solve import Solution, best, meetable
from linewright.order.wishes import Wishes
from linewright.order.written import boxes, half_up, lengths, reasons
from linewright.takeoff.model import Takeoff


@dataclass(frozen=True, slots=True)
class _Found:
    goods: Goods
    uses: tuple[ShelfUse, ...]
    solution: Solution


def choose(
    takeoff: Takeoff,
    market: Market,
    shelf: Shelf | None = None,
    wishes: Wishes | None = None,
    catalogue: Catalogue | None = None,
    *,
    is_compared: bool = True,
) -> Order:
    """Choose the cheapest order that covers what is needed, and say how good it is.

    Parameters
    ----------
    takeoff : Takeoff
        What has to exist: rows with their spares, hose with its pieces.
    market : Market
        What is on offer, recognised as parts, and the suppliers' terms.
    shelf : Shelf, optional
        What the shop owns: it is used first.
    wishes : Wishes, optional
        Dates, budget, preferences, holds.
    catalogue : Catalogue, optional
        Says which part may replace which; the generic parts where left out.
    is_compared : bool
        Whether other orders are worked out beside it: simpler ones, the soonest, what each
        supplier is worth, what holding costs.

    Returns
    -------
    Order
        What nobody sells is named in ``shorts``, and the rest is ordered all the same.

    Raises
    ------
    OrderError
        If currencies, rates or offers contradict each other.
    """
    shelf, wishes = shelf or Shelf(), wishes or Wishes()
    catalogue = generic() if catalogue is None else catalogue
    now, later = split(takeoff, wishes)
    wanted, uses = net(needs(now, wishes), shelf, catalogue)
    if not any(offer.part for offer in market.offers):
        return _listed(now, wanted, uses, market, wishes.show)
    found = _find(now, market, shelf, wishes, catalogue)
    if found is None:
        raise OrderError(
            "These offers can not be made into an order: terms of the suppliers contradict each "
            "other. Look at their smallest orders and steps of shipping."
        )
    goods, solution = found.goods, found.solution
    compared = compare(goods, wishes, solution) if is_compared else None
    without: dict[str, str] = {}
    if is_compared:
        without = without_each(
            goods, solution, lambda name: _without(found, market, wishes, catalogue, name)
        )
    packed = boxes(goods, solution, reasons(goods, solution, without))
    cuts = lengths(goods, solution, wishes)
    order = Order(
        currency=market.currency,
        boxes=packed,
        cuts=cuts,
        from_shelf=found.uses,
        shorts=goods.shorts,
        total=Money(market.currency, sum(box.whole.minor for box in packed)),
        proof=_proof(solution, market.currency),
        simpler=compared.simpler if compared else (),
        trade_off=compared.trade_off if compared else (),
        both=_both(takeoff, found, market, shelf, wishes, catalogue) if is_compared else (),
        assumed=_assumed(goods, solution, wishes),
    )
    if is_compared and (later.rows or later.hoses):
        held = _holding(takeoff, later, found, cuts, market, shelf, wishes, catalogue)
        order = replace(order, holding=held)
    return replace(order, findings=tuple(_findings(order, wishes)))


def _find(
    takeoff: Takeoff, market: Market, shelf: Shelf, wishes: Wishes, catalogue: Catalogue
) -> _Found | None:
    wanted, uses = net(needs(takeoff, wishes), shelf, catalogue)
    goods = goods_for(wanted, market, wishes, catalogue, frozenset())
    solution = best(goods, wishes)
    if solution is None:
        goods = meetable(goods, wishes)
        solution = best(goods, wishes)
    return None if solution is None else _Found(goods, uses, solution)


def _without(
    found: _Found, market: Market, wishes: Wishes, catalogue: Catalogue, name: str
) -> Solution | None:
    goods = goods_for(found.goods.needs, market, wishes, catalogue, frozenset((name,)))
    return None if goods.shorts else best(goods, wishes)


def _proof(solution: Solution, currency: str) -> Proof:
    price = money(solution.reckoned, currency)
    bound = price if solution.is_proved else Money(currency, int(solution.bound))
    return Proof(price, bound, solution.gap, solution.is_proved)


def _listed(
    takeoff: Takeoff, wanted: Needs, uses: tuple[ShelfUse, ...], market: Market, show: str
) -> Order:
    """No offers at all: the whole list with counts, and index prices that are no money."""
    left = {need.code: need.count for need in wanted.parts}
    rows = []
    for row in takeoff.rows:
        count = min(left.get(row.code, 0), row.order)
        if count:
            left[row.code] -= count
            unit = "" if row.unit == "piece" else f" {row.unit}"
            said = f"{count}{unit}"
            rows.append(Listed(row.group, row.code, row.name, said, row.price_index, row.because))
    for hose in takeoff.hoses:
        many = "1 piece" if len(hose.pieces) == 1 else f"{len(hose.pieces)} pieces"
        said = f"{show_run(hose.order, show)} for {many}"
        rows.append(Listed("hose by length", hose.code, hose.name, said, None, hose.because))
    return Order(market.currency, (), (), uses, (), None, None, listed=tuple(rows))


def _assumed(goods: Goods, solution: Solution, wishes: Wishes) -> tuple[str, ...]:
    """Defaults that the order rests on, in words."""
    used = [goods.goods[i] for i in sorted(solution.counts)]
    told = []
    stocks = sum(good.offer.stock is None for good in used)
    leads = sum(good.offer.lead_days is None and good.supplier.lead_days is None for good in used)
    if stocks:
        told.append(f"stock of {stocks} of {len(used)} lines is not said: taken as enough")
    if leads:
        days = ", ".join(f"{ease} {day} days" for ease, day in wishes.leads)
        told.append(f"arrival of {leads} of {len(used)} lines is not said: {days}")
    if goods.needs.hoses:
        told.append(
            f"{show_length(wishes.kerf, wishes.show)} lost to each cut; from "
            f"{show_length(wishes.useful, wishes.show)} on a rest is kept"
        )
        told.append("hose sold by length comes in one length")
    if any(good.supplier.wish == "preferred" for good in goods.goods):
        told.append(f"goods of preferred suppliers may be {wishes.preferred_share:.0%} dearer")
    return tuple(told)


def _ships(goods: Goods, solution: Solution) -> Fraction:
    """Shipping of an order with its tax, in smallest units of the shop's currency."""
    whole = Fraction(0)
    for name, supplier in goods.suppliers.items():
        worth = sum(
            goods.goods[i].offer.price.minor * count
            for i, count in solution.counts.items()
            if goods.goods[i].supplier.name == name
        )
        charged = shipping(supplier, Money(supplier.currency, worth))
        taxed = charged.minor * Fraction(supplier.rate) * (1 + Fraction(supplier.tax))
        one, other = Money.of(1, supplier.currency).minor, Money.of(1, goods.currency).minor
        whole += taxed * Fraction(other, one)
    return whole


def _left_over(found: _Found, cuts: Sequence[Length], shelf: Shelf) -> Shelf:
    """What the shop owns once the released order has come and its hose is cut."""
    goods, solution = found.goods, found.solution
    owned: dict[tuple[str, str], int] = {}
    for item in shelf.items:
        owned[item.bin, item.part] = owned.get((item.bin, item.part), 0) + item.count
    for use in found.uses:
        owned[use.bin, use.part] -= use.count
    spare: dict[str, int] = {need.code: -need.count for need in goods.needs.parts}
    for (asked, other), count in solution.swaps.items():
        spare[asked] = spare.get(asked, 0) + count
        spare[other] = spare.get(other, 0) - count
    for i, count in solution.counts.items():
        good = goods.goods[i]
        if not good.is_hose:
            code = good.offer.part or ""
            spare[code] = spare.get(code, 0) + good.size * count
    for code, count in spare.items():
        if count > 0:
            owned["released", code] = owned.get(("released", code), 0) + count
    cut = {(c.source, c.part, round(c.length * TENTHS)) for c in cuts if c.is_owned}
    rests = [Offcut("released", c.part, c.left) for c in cuts if c.is_useful]
    kept = [
        o
        for o in shelf.offcuts
        if (f"shelf {o.bin}".rstrip(), o.part, round(o.length * TENTHS)) not in cut
    ]
    items = tuple(ShelfItem(b, part, n) for (b, part), n in sorted(owned.items()) if n > 0)
    return Shelf(items, (*kept, *rests))


def _holding(
    takeoff: Takeoff,
    later: Takeoff,
    found: _Found,
    cuts: Sequence[Length],
    market: Market,
    shelf: Shelf,
    wishes: Wishes,
    catalogue: Catalogue,
) -> Holding:
    """Price the rest bought on its own afterwards against all bought at once."""
    free = replace(wishes, hold=frozenset(), is_unconfirmed_held=False, both=frozenset())
    rest = _find(later, market, _left_over(found, cuts, shelf), free, catalogue)
    whole = _find(takeoff, market, shelf, replace(free, both=wishes.both), catalogue)
    held = tuple(sorted(wishes.hold)) + (
        ("all that is unconfirmed",) if wishes.is_unconfirmed_held else ()
    )
    if rest is None or whole is None:
        return Holding(held, None, None, None)
    more = found.solution.cost + rest.solution.cost - whole.solution.cost
    ships = (
        _ships(found.goods, found.solution)
        + _ships(rest.goods, rest.solution)
        - _ships(whole.goods, whole.solution)
    )
    unit = market.currency
    return Holding(held, money(rest.solution.cost, unit), money(more, unit), money(ships, unit))


def _both(
    takeoff: Takeoff,
    found: _Found,
    market: Market,
    shelf: Shelf,
    wishes: Wishes,
    catalogue: Catalogue,
) -> tuple[Both, ...]:
    """Price what covers each open port, net of what goes back once it is known."""
    told = []
    now, _ = split(takeoff, wishes)
    for either in takeoff.either:
        is_ordered = either.port in wishes.both
        others = wishes.both - {either.port}
        plain = (
            found
            if not is_ordered
            else _find(now, market, shelf, replace(wishes, both=others), catalogue)
        )
        full = (
            found
            if is_ordered
            else _find(
                replace(now, either=takeoff.either),
                market,
                shelf,
                replace(wishes, both=others | {either.port}),
                catalogue,
            )
        )
        if plain is None or full is None:
            continue
        gross = full.solution.cost - plain.solution.cost
        codes = {row.code for row in either.rows}
        share = Fraction(len(either.readings) - 1, max(len(either.readings), 1))
        back, until = Fraction(0), []
        for i, count in full.solution.back.items():
            good = full.goods.goods[i]
            if good.offer.part in codes:
                back += good.back * count * share
                until += [good.offer.return_days] if good.offer.return_days else []
        known = {short.code for short in found.goods.shorts if not short.is_late}
        lost = {short.code for short in full.goods.shorts if not short.is_late}
        unit = market.currency
        told.append(
            Both(
                port=either.port,
                readings=either.told or either.readings,
                gross=money(gross, unit),
                back=money(back, unit),
                net=Money(unit, half_up(gross) - half_up(back)),
                is_ordered=is_ordered,
                missing=tuple(sorted((lost - known) & codes)),
                until_days=min(until, default=None),
                without=either.without,
            )
        )
    return tuple(told)


def _findings(order: Order, wishes: Wishes) -> list[Finding]:
    found = [_short(short) for short in order.shorts]
    if wishes.budget is not None and order.total is not None:
        budget = wishes.budget
        if order.total.currency == budget.currency and order.total.minor > budget.minor:
            found.append(
                Finding(
                    "over-budget",
                    Severity.WARN,
                    ("order",),
                    f"The cheapest order costs {order.total}, {order.total - budget} more than "
                    f"the budget of {budget}.",
                    "Hold a system, look for further offers, or raise the budget.",
                    value=str(order.total),
                    limit=str(budget),
                )
            )
    proof = order.proof
    if proof is not None and not proof.is_optimal:
        found.append(
            Finding(
                "order-not-proved",
                Severity.NOTE,
                ("order",),
                f"No cheaper order was found, but one may exist: none costs less than "
                f"{proof.bound}, {proof.gap:.2%} below this one.",
                "Give the search more time, or take the order as it is.",
            )
        )
    return found


def what_of(short: Short) -> str:
    """Say how many of what are short, or which pieces of a hose.

    Parameters
    ----------
    short : Short
        What is missing or late.

    Returns
    -------
    str
        Words for within a sentence.
    """
    if not short.missing:
        return f"the reserve of {short.name}"
    if short.runs:
        return f"{short.name} for {', '.join(short.runs)}"
    return f"{short.missing} of {short.name}"


def _short(short: Short) -> Finding:
    what = what_of(short)
    is_many = short.missing > 1 and not short.runs
    if not short.missing:
        what = f"T{what[1:]}"
    if short.is_late:
        return Finding(
            "arrives-late",
            Severity.WARN,
            (short.code,),
            f"{what} {'come' if is_many else 'comes'} after the day of need: {short.why}. "
            "Ordered all the same.",
            "Find an offer that is sooner, or move the day.",
        )
    return Finding(
        "not-sold",
        Severity.ASK,
        (short.code,),
        f"{what} {'are' if is_many else 'is'} not in the order: {short.why}.",
        "Add an offer for it; the rest of the order stands.",
    )
