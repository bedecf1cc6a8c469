# SPDX-License-Identifier: Apache-2.0
"""Every promise of an order checked one by one, by code that shares nothing with the search.

It reads the order as a shop would: line by line, against the takeoff, the offers, the shelf
and the suppliers' terms.
"""

from collections.abc import Iterator
from decimal import ROUND_HALF_UP, Decimal

from linewright.order.model import Market, Offer, Shelf, SoldAs, Supplier
from linewright.order.result import Box, Order, OrderLine
from linewright.order.wishes import Wishes
from linewright.takeoff.model import Takeoff

#: Lengths are held to a twentieth of a millimetre. [m]
_EXACT = 5e-5


def verify(
    order: Order, takeoff: Takeoff, market: Market, shelf: Shelf, wishes: Wishes
) -> tuple[str, ...]:
    """Say what is wrong with an order.

    Parameters
    ----------
    order : Order
        What was chosen.
    takeoff : Takeoff
        What it has to cover, without what is held.
    market : Market
        What was on offer.
    shelf : Shelf
        What was owned.
    wishes : Wishes
        What was wished.

    Returns
    -------
    tuple of str
        One sentence for each breach; empty where the order keeps to everything.
    """
    return (
        *_lines(order, market),
        *_sums(order, market),
        *_shelf(order, shelf),
        *_parts(order, takeoff, wishes),
        *_hoses(order, takeoff, market, shelf, wishes),
    )


def _offer(line: OrderLine, box: Box, market: Market) -> Offer | None:
    for offer in market.offers:
        is_it = (offer.supplier, offer.number, offer.description, offer.part, offer.price)
        if is_it == (box.supplier, line.number, line.description, line.part, line.price):
            return offer
    return None


def _lines(order: Order, market: Market) -> Iterator[str]:
    taken: dict[str, int] = {}
    barred = {s.name for s in market.suppliers if s.wish == "barred"}
    for box in order.boxes:
        if box.supplier in barred:
            yield f"{box.supplier} is barred and is in the order"
        for line in box.lines:
            offer = _offer(line, box, market)
            if offer is None:
                yield f"{box.supplier} does not offer {line.part} at {line.price}"
                continue
            if line.count < 1 or line.count != int(line.count):
                yield f"{offer.id}: {line.count} is no whole number of units"
            each = offer.pack if offer.sold_as is SoldAs.PIECES else offer.length or 0.0
            if abs(line.gives - each * line.count) > _EXACT * max(line.count, 1):
                yield f"{offer.id}: {line.count} units give {each * line.count}, not {line.gives}"
            key = f"{offer.id} {offer.place}"
            taken[key] = taken.get(key, 0) + line.count
            if offer.stock is not None and taken[key] > offer.stock:
                yield f"{offer.id}: {taken[key]} are ordered and {offer.stock} are in stock"


def _sums(order: Order, market: Market) -> Iterator[str]:
    terms = {supplier.name: supplier for supplier in market.suppliers}
    whole = 0
    for box in order.boxes:
        supplier = terms.get(box.supplier) or Supplier(box.supplier, box.goods.currency)
        goods = 0
        for line in box.lines:
            if line.total.minor != line.price.minor * line.count:
                yield f"{box.supplier}: {line.count} at {line.price} is not {line.total}"
            goods += line.total.minor
        if goods != box.goods.minor:
            yield f"{box.supplier}: its lines come to {goods}, not {box.goods}"
        if supplier.smallest_order is not None and goods < supplier.smallest_order.minor:
            yield f"{box.supplier}: {box.goods} is below its smallest order"
        fee = _fee(supplier, goods)
        if fee != box.shipping.minor:
            yield f"{box.supplier}: shipping is {fee}, not {box.shipping}"
        tax = _rounded(Decimal(goods + fee) * supplier.tax)
        if tax != box.tax.minor or goods + fee + tax != box.total.minor:
            yield f"{box.supplier}: tax is {tax} and the total {goods + fee + tax}"
        if supplier.currency == order.currency and box.whole.minor != box.total.minor:
            yield f"{box.supplier}: {box.total} is told as {box.whole}"
        if supplier.currency != order.currency:
            told = box.total.amount * supplier.rate
            if abs(told - box.whole.amount) > Decimal("0.5"):
                yield f"{box.supplier}: {box.total} is {told} {order.currency}, not {box.whole}"
        whole += box.whole.minor
    if order.total is not None and order.total.minor != whole:
        yield f"the boxes come to {whole}, not {order.total}"


def _fee(supplier: Supplier, goods: int) -> int:
    if supplier.free_above is not None and goods >= supplier.free_above.minor:
        return 0
    steps = sorted(supplier.shipping, key=lambda step: step[0].minor)
    fee = steps[0][1].minor if steps else 0
    for start, price in steps:
        if goods >= start.minor:
            fee = price.minor
    return fee


def _rounded(amount: Decimal) -> int:
    return int(amount.to_integral_value(ROUND_HALF_UP))


def _shelf(order: Order, shelf: Shelf) -> Iterator[str]:
    used: dict[tuple[str, str], int] = {}
    for use in order.from_shelf:
        used[use.bin, use.part] = used.get((use.bin, use.part), 0) + use.count
        if use.part != use.stands_for and not _stands_in(use.stands_for, use.part):
            yield f"{use.part} from the shelf may not stand in for {use.stands_for}"
    for (bin_, part), count in used.items():
        had = sum(i.count for i in shelf.items if (i.bin, i.part) == (bin_, part))
        if count > had:
            yield f"{count} of {part} are taken from bin {bin_}, which has {had}"


def _stands_in(asked: str, bought: str) -> bool:
    """Only a hose end that turns in full for the same that is fixed."""
    return asked.startswith(("hose-end-", "banjo-hose-end-")) and bought == asked.replace(
        "-fixed", "-full-swivel"
    )


def _wanted(order: Order, takeoff: Takeoff, wishes: Wishes) -> dict[str, int]:
    wanted: dict[str, int] = {}
    for row in takeoff.rows:
        wanted[row.code] = wanted.get(row.code, 0) + row.order
    for either in takeoff.either:
        if either.port in wishes.both:
            for row in either.rows:
                wanted[row.code] = wanted.get(row.code, 0) + row.order
    for short in order.shorts:
        if not short.is_late and not short.runs:
            wanted[short.code] = wanted.get(short.code, 0) - short.missing
    return wanted


def _parts(order: Order, takeoff: Takeoff, wishes: Wishes) -> Iterator[str]:
    lines = [line for box in order.boxes for line in box.lines if not line.is_length]
    late = {short.code for short in order.shorts if short.is_late}
    days = sorted({day for _, day in wishes.latest})
    latest = dict(wishes.latest)
    for day in (None, *days):
        had: dict[str, float] = {}
        lent: dict[str, float] = {}
        for use in order.from_shelf:
            had[use.stands_for] = had.get(use.stands_for, 0) + use.count
        for line in lines:
            if day is None or line.days <= day:
                had[line.part] = had.get(line.part, 0) + line.gives
        for line in lines:
            for asked, count in line.stands_for:
                if not _stands_in(asked, line.part):
                    yield f"{line.part} may not stand in for {asked}"
                if day is None or line.days <= day:
                    lent[line.part] = lent.get(line.part, 0) + count
                    had[asked] = had.get(asked, 0) + count
        wanted = _wanted(order, takeoff, wishes)
        if day is not None:
            wanted = {}
            for row in takeoff.rows:
                asked_by = sum(
                    n for system, n in row.by_system if latest.get(system, day + 1) <= day
                )
                wanted[row.code] = wanted.get(row.code, 0) + asked_by
        for code, count in sorted(wanted.items()):
            has = had.get(code, 0) - (lent.get(code, 0) if day is None else 0)
            if has < count and not (day is not None and (code in late or _is_short(order, code))):
                by = "" if day is None else f" within {day} days"
                yield f"{count} of {code} are needed{by}, and {has:g} are there"


def _is_short(order: Order, code: str) -> bool:
    return any(short.code == code for short in order.shorts)


def _hoses(
    order: Order, takeoff: Takeoff, market: Market, shelf: Shelf, wishes: Wishes
) -> Iterator[str]:
    latest = dict(wishes.latest)
    arrives = {
        f"{box.supplier}: {line.number or line.description}": line.days
        for box in order.boxes
        for line in box.lines
        if line.is_length
    }
    kinds = {offer.id: offer for offer in market.offers}
    for row in takeoff.hoses:
        lost = {run for short in order.shorts if not short.is_late for run in short.runs}
        late = {run for short in order.shorts if short.is_late for run in short.runs}
        cuts = [cut for cut in order.cuts if cut.part == row.code]
        seen = [run for cut in cuts for run, _ in cut.pieces]
        for run, length in row.pieces:
            if run in lost:
                continue
            if seen.count(run) != 1:
                yield f"piece {run} is cut {seen.count(run)} times"
                continue
            cut = next(c for c in cuts if run in dict(c.pieces))
            if dict(cut.pieces)[run] < length - _EXACT:
                yield f"piece {run} is cut shorter than {length} m"
            system = dict(zip((r for r, _ in row.pieces), row.systems, strict=False)).get(run, "")
            due = latest.get(system)
            comes = 0 if cut.is_owned else arrives.get(cut.source, 0)
            if due is not None and comes > due and run not in late:
                yield f"piece {run} is due in {due} days and its hose takes {comes}"
        for cut in cuts:
            takes = sum(length for _, length in cut.pieces)
            takes += wishes.kerf * max(len(cut.pieces) - 1, 0)
            if takes > cut.length + _EXACT:
                yield f"{cut.source} gives {cut.length} m and {takes} m are cut from it"
        yield from _bought(order, row.code, shelf, kinds)
        whole = sum(
            line.gives for box in order.boxes for line in box.lines if line.part == row.code
        )
        owned = sum(offcut.length for offcut in shelf.offcuts if offcut.part == row.code)
        asked = row.order - sum(length for run, length in row.pieces if run in lost)
        if whole + owned < asked - _EXACT * (1 + len(row.pieces)) and not _is_short(
            order, row.code
        ):
            yield f"{asked} m of {row.code} are to be there, and {whole + owned} m are"


def _bought(order: Order, code: str, shelf: Shelf, kinds: dict[str, Offer]) -> Iterator[str]:
    """Every length that is cut was bought, or is on the shelf, and once."""
    owned = sorted((offcut.bin, offcut.length) for offcut in shelf.offcuts if offcut.part == code)
    for cut in (c for c in order.cuts if c.part == code):
        if cut.is_owned:
            found = [o for o in owned if f"shelf {o[0]}".rstrip() == cut.source]
            found = [o for o in found if abs(o[1] - cut.length) < 2 * _EXACT]
            if not found:
                yield f"{cut.source} has no rest of {cut.length} m"
            else:
                owned.remove(found[0])
    for box in order.boxes:
        for line in box.lines:
            if line.part != code or not line.is_length:
                continue
            source = f"{box.supplier}: {line.number or line.description}"
            cuts = [c for c in order.cuts if c.part == code and c.source == source]
            offer = kinds.get(source)
            if offer is None:
                continue
            many = 1 if offer.sold_as is SoldAs.CUT else line.count
            each = line.gives if offer.sold_as is SoldAs.CUT else (offer.length or 0.0)
            if len(cuts) > many:
                yield f"{source}: {many} lengths are bought and {len(cuts)} are cut"
            for cut in cuts:
                if cut.length > each + _EXACT:
                    yield f"{source}: {cut.length} m are cut from {each} m"
