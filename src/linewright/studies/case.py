# SPDX-License-Identifier: Apache-2.0
"""From a plan and its order to the case that its chance is reckoned from."""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from math import ceil

from linewright.base.ids import natural_key
from linewright.base.money import Money, digits
from linewright.car.model import Car
from linewright.catalogue import stock
from linewright.joints.offered import setting
from linewright.order.model import Market, Offer, Shelf, SoldAs
from linewright.order.result import Length, Order
from linewright.plan.model import Plan
from linewright.routes.model import Run
from linewright.studies.causes import causes, losses, scatter
from linewright.studies.model import Case, Cause, Kind, Outcome, Stock, Stretch, Unit
from linewright.takeoff.model import HoseRow

#: Lengths nearer than this are one. [m]
_HAIR = 1e-3


def case(
    plan: Plan,
    order: Order | None = None,
    market: Market | None = None,
    ties: Mapping[str, str] | None = None,
    tell: Callable[[str], None] | None = None,
    shelf: Shelf | None = None,
) -> Case:
    """Gather all that the chance of an order is reckoned from.

    Parameters
    ----------
    plan : Plan
        The plan that the order was made for.
    order : Order, optional
        What is bought and taken from the shelf. Without one, or without offers, the plan's own
        list is taken as bought.
    market : Market, optional
        Where more could be bought. Without offers, prices are indices and no money.
    ties : mapping of str to str, optional
        For ports with a common cause, its name.
    tell : callable, optional
        Is told what is being done.
    shelf : Shelf, optional
        What the shop owns: offcuts of hose that nothing is planned to be cut from are had too.

    Returns
    -------
    Case
        With the seed of the document.
    """
    found = causes(plan, ties, tell)
    bought = order if order is not None and order.total is not None else None
    need = {row.code: row.need for row in plan.takeoff.rows if row.need}
    have = _have(plan, bought)
    owned = shelf or Shelf()
    stocks = tuple(_stock(plan, row, bought, owned) for row in plan.takeoff.hoses)
    supplier = tuple(_late(plan.car, bought)) if bought is not None else ()
    codes = _codes(need, (*found, *supplier), stocks)
    if market is not None and market.offers and bought is not None:
        units = tuple(_offered(market, codes))
    else:
        units = tuple(_indexed(plan, codes))
    return Case(
        need=need,
        have=have,
        causes=(*found, *supplier),
        losses=losses(plan),
        stocks=stocks,
        units=units,
        elsewhere=tuple(short.name for short in bought.shorts) if bought is not None else (),
        seed=plan.car.seed,
    )


def _have(plan: Plan, order: Order | None) -> dict[str, int]:
    if order is None:
        return {row.code: row.order for row in plan.takeoff.rows}
    have: Counter[str] = Counter()
    for box in order.boxes:
        for line in box.lines:
            if line.is_length:
                continue
            have[line.part] += round(line.gives)
            for code, count in line.stands_for:  # bought in place of another part
                have[code] += count
                have[line.part] -= count
    for use in order.from_shelf:
        have[use.stands_for] += use.count
    for short in order.shorts:  # to be found elsewhere
        have[short.code] += short.missing
    return dict(have)


def _late(car: Car, order: Order) -> Iterable[Cause]:
    """Each line of the order may come short or wrong; spares of that supplier would be no help."""
    share = setting(car, "confidence-supplier").value
    for box in order.boxes:
        for line in box.lines:
            outcome = Outcome(share, (), "comes short or wrong", is_coverable=False)
            yield Cause(Kind.SUPPLIER, f"{box.supplier}: {line.number or line.part}", (outcome,))


def _stock(plan: Plan, row: HoseRow, order: Order | None, shelf: Shelf) -> Stock:
    runs = {run.id: run for run in plan.routes.runs}
    common = setting(plan.car, "confidence-tape").value
    pieces = tuple(_stretch(runs.get(run), run, length, common) for run, length in row.pieces)
    lengths: tuple[float, ...] = (row.order,)
    if order is not None:
        cut = [length for length in order.cuts if length.part == row.code]
        placed = {run for length in cut for run, _ in length.pieces}
        # What nobody sells enough of is reckoned as found elsewhere, each piece by itself.
        found = (p.length + p.length * 3 * p.sigma for p in pieces if p.piece not in placed)
        lengths = (
            *(length.length for length in cut),
            *_reserve(order, shelf, row.code, cut),
            *found,
        )
    return Stock(row.code, lengths, pieces)


def _reserve(order: Order, shelf: Shelf, code: str, cut: list[Length]) -> tuple[float, ...]:
    """What is had of a hose to spare, where no piece is planned to be cut from it."""
    bought = sum(b.gives for box in order.boxes for b in box.lines if b.part == code)
    spare = bought - sum(length.length for length in cut if not length.is_owned)
    owned = [offcut.length for offcut in shelf.offcuts if offcut.part == code]
    for length in cut:
        if length.is_owned:
            nearest = min(owned, key=lambda o: abs(o - length.length), default=None)
            if nearest is not None:
                owned.remove(nearest)
    return (*([spare] if spare > _HAIR else []), *owned)


def _stretch(run: Run | None, name: str, length: float, common: float) -> Stretch:
    """A piece may take up half of its slack before it is too short."""
    sigma = scatter(run.string) if run is not None else 0.0
    slack = run.slack / 2 if run is not None else 0.0
    return Stretch(name, length, sigma, common, slack)


def _codes(
    need: Mapping[str, int], found: Iterable[Cause], stocks: Iterable[Stock]
) -> tuple[str, ...]:
    """Parts of which more may be needed."""
    more = {c for cause in found for o in cause.outcomes for c, n in o.change if n > 0}
    return tuple(sorted({*more, *need, *(s.code for s in stocks)}, key=natural_key))


def _offered(market: Market, codes: Iterable[str]) -> Iterable[Unit]:
    """The cheapest offer of each part: one pack, one coil, or the shortest cut."""
    rates = {s.name: (s.rate, s.tax, s.wish) for s in market.suppliers}
    best: dict[str, tuple[Fraction, str, Offer]] = {}
    for offer in market.offers:
        rate, tax, wish = rates[offer.supplier]
        if offer.part is None or wish == "barred" or offer.stock == 0:
            continue
        minor = Money(market.currency, 0)
        shift = Fraction(10) ** (digits(minor.currency) - digits(offer.price.currency))
        price = offer.price.minor * Fraction(rate) * (1 + Fraction(tax)) * shift
        entry = (price, offer.id, offer)
        if offer.part not in best or entry[:2] < best[offer.part][:2]:
            best[offer.part] = entry
    for code in codes:
        if code in best:
            price, _, offer = best[code]
            is_back = offer.is_returnable is not False and offer.sold_as is SoldAs.PIECES
            refund = float(offer.refund_share or 0.0) if is_back else 0.0
            length = None if offer.sold_as is SoldAs.PIECES else offer.length
            if offer.sold_as is SoldAs.CUT and length:
                # Cut to order, a metre at least in one piece.
                steps = ceil(1.0 / length - 1e-9)
                price, length = price * steps, length * steps
            yield Unit(code, offer.description or code, float(price), offer.pack, length, refund)


def _indexed(plan: Plan, codes: Iterable[str]) -> Iterable[Unit]:
    """Without offers: price indices, and hose by the metre."""
    rows = {row.code: row for row in plan.takeoff.rows}
    hoses = {row.code: row for row in plan.takeoff.hoses}
    catalogue = stock.generic()
    for code in codes:
        if code in hoses:
            yield Unit(code, hoses[code].name, 1.0, length=1.0)
            continue
        row = rows.get(code)
        if row is not None:
            yield Unit(code, row.name, row.price_index or 0.1)
            continue
        try:
            part = catalogue.part(code)
        except LookupError:
            yield Unit(code, code, 0.1)
        else:
            yield Unit(code, part.name, part.price_index)
