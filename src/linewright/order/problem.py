# SPDX-License-Identifier: Apache-2.0
"""One mixed-integer model of an order: packs, shipping, stock, dates, budget, hose.

Which piece is cut from which coil is not in it. It holds what every cutting plan must obey,
and `forbid` adds what a search for a plan has disproved: so many coils and no more.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise
from math import ceil

from linewright.base.money import digits
from linewright.order.cutting import Bar, best_fill, most_pieces
from linewright.order.goods import Good, Goods
from linewright.order.model import SoldAs
from linewright.order.needs import HoseNeed, PartNeed, Piece, down
from linewright.order.price import factor, modes
from linewright.order.rows import Model
from linewright.order.wishes import Wishes


@dataclass(frozen=True, slots=True)
class Limits:
    """What else an order has to keep to; None where it does not matter.

    ``days`` are to the last box, ``budget`` is in smallest units of the shop's currency.
    """

    suppliers: int | None = None
    days: int | None = None
    budget: Fraction | None = None


@dataclass(slots=True)
class Problem:
    """The model, and which of its columns mean what.

    ``units`` and ``extra`` are columns of units bought by index of the offer: what is needed,
    and what is bought only to reach a threshold. ``used`` are columns of suppliers;
    ``swaps`` of pieces that stand in for others; ``back`` of units returned. ``missing`` are
    columns of what is left out, where the model is built to find that.
    """

    goods: Goods
    wishes: Wishes
    limits: Limits
    model: Model = field(default_factory=Model)
    units: dict[int, int] = field(default_factory=dict)
    extra: dict[int, int] = field(default_factory=dict)
    used: dict[str, int] = field(default_factory=dict)
    swaps: dict[tuple[str, str], int] = field(default_factory=dict)
    back: dict[int, int] = field(default_factory=dict)
    missing: dict[str, int] = field(default_factory=dict)
    spent: list[tuple[int, float]] = field(default_factory=list)

    @property
    def unit(self) -> float:
        """Smallest units in one of the shop's currency."""
        return 10.0 ** digits(self.goods.currency)

    @property
    def kerf(self) -> int:
        """Lost to each cut. [0.1 mm]"""
        return down(self.wishes.kerf)

    def bought(self, index: int) -> list[tuple[int, float]]:
        """Terms that count the units bought of one offer."""
        columns = [self.units[index]] if index in self.units else []
        if index in self.extra:
            columns.append(self.extra[index])
        return [(column, 1.0) for column in columns]


def weight(good: Good, wishes: Wishes) -> Fraction:
    """What a unit counts in choosing: its cost, less what a preferred supplier is worth.

    Parameters
    ----------
    good : Good
        The offer as the search sees it.
    wishes : Wishes
        What the builder wishes.

    Returns
    -------
    Fraction
        Exact, in smallest units of the shop's currency.
    """
    share = Fraction(wishes.preferred_share) if good.supplier.wish == "preferred" else Fraction(0)
    return good.cost * (1 - share)


def build(goods: Goods, wishes: Wishes, limits: Limits, *, may_miss: bool = False) -> Problem:
    """Write the model.

    Parameters
    ----------
    goods : Goods
        Needs, and the offers that meet them.
    wishes : Wishes
        What the builder wishes.
    limits : Limits
        What else to keep to.
    may_miss : bool
        Whether needs may be left open, to find which cannot be met.

    Returns
    -------
    Problem
        The model with its columns.
    """
    problem = Problem(goods, wishes, limits)
    _suppliers(problem)
    for need in goods.needs.parts:
        if may_miss:
            problem.missing[need.code] = problem.model.column(0, need.count)
    for asked, other in goods.stands_in:
        most = next((n.count for n in goods.needs.parts if n.code == asked), 0)
        if most:
            problem.swaps[asked, other] = problem.model.column(0, most)
    for need in goods.needs.parts:
        _part(problem, need)
    known = {need.code for need in goods.needs.parts}
    for other in sorted({other for _, other in goods.stands_in} - known):
        _part(problem, PartNeed(other, other, 0))
    for hose in goods.needs.hoses:
        _hose(problem, hose, may_miss=may_miss)
    if limits.budget is not None:
        problem.model.row(problem.spent, high=float(limits.budget) / problem.unit)
    if limits.suppliers is not None:
        problem.model.row([(c, 1.0) for c in problem.used.values()], high=limits.suppliers)
    return problem


def _suppliers(problem: Problem) -> None:
    """Columns of units, and of each supplier's step of shipping."""
    goods, model, unit = problem.goods, problem.model, problem.unit
    by_supplier: dict[str, list[int]] = {}
    for i, good in enumerate(goods.goods):
        if problem.limits.days is None or good.lead <= problem.limits.days:
            by_supplier.setdefault(good.supplier.name, []).append(i)
    for name, indices in sorted(by_supplier.items()):
        supplier = goods.suppliers[name]
        steps = modes(supplier)
        one = float(factor(supplier, goods.currency)) / unit
        own = 10.0 ** digits(supplier.currency)
        used = model.column(0, 1)
        problem.used[name] = used
        at_step = [model.column(0, 1, step.price * one) for step in steps]
        problem.spent += [(c, s.price * one) for c, s in zip(at_step, steps, strict=True)]
        model.row([(used, -1.0), *((c, 1.0) for c in at_step)], 0.0, 0.0)
        threshold = max(step.low for step in steps)
        worth: list[tuple[int, float]] = []
        for i in indices:
            good = goods.goods[i]
            price = good.offer.price.minor
            cost = float(weight(good, problem.wishes)) / unit
            column = model.column(0, good.most, cost)
            problem.units[i] = column
            model.row([(column, 1.0), (used, -float(good.most))], high=0.0)
            spent = [(column, float(good.cost) / unit)]
            worth.append((column, price / own))
            more = _more(good, threshold)
            if more:
                extra = model.column(0, more, cost)
                problem.extra[i] = extra
                model.row([(extra, 1.0), (used, -float(more))], high=0.0)
                spent.append((extra, float(good.cost) / unit))
                worth.append((extra, price / own))
                if good.offer.stock is not None:
                    model.row([(column, 1.0), (extra, 1.0)], high=good.offer.stock)
            problem.spent += spent
        if threshold > 0:
            lows = [(c, -step.low / own) for c, step in zip(at_step, steps, strict=True)]
            model.row([*worth, *lows], low=0.0)
        if any(b.price > a.price for a, b in pairwise(steps)):
            # Dearer from some price of goods on: a step must not be claimed above its end.
            most = sum(model.high[c] * value for c, value in worth)
            highs = [
                (c, -(most if step.high is None else step.high / own))
                for c, step in zip(at_step, steps, strict=True)
            ]
            model.row([*worth, *highs], high=0.0)


def _more(good: Good, threshold: int) -> int:
    """Units that may be bought over the need, to reach a threshold of shipping or order."""
    if threshold <= 0 or good.offer.price.minor <= 0:
        return 0
    more = ceil(threshold / good.offer.price.minor)
    stock = good.offer.stock
    return more if stock is None else max(min(more, stock - good.most), 0)


def _part(problem: Problem, need: PartNeed) -> None:
    goods, model = problem.goods, problem.model
    stand_ins = [c for (asked, _), c in problem.swaps.items() if asked == need.code]
    given = [c for (_, other), c in problem.swaps.items() if other == need.code]

    def supply(day: int | None) -> list[tuple[int, float]]:
        terms = []
        for i in goods.of(need.code):
            good = goods.goods[i]
            if day is None or good.lead <= day:
                terms += [(c, v * good.size) for c, v in problem.bought(i)]
        return terms

    swaps = [*((c, 1.0) for c in stand_ins), *((c, -1.0) for c in given)]
    lost = [(problem.missing[need.code], 1.0)] if need.code in problem.missing else []
    model.row([*supply(None), *swaps, *lost], low=need.count)
    for day, count in need.due:
        early = [
            (c, v * goods.goods[i].size)
            for asked, other in goods.stands_in
            if asked == need.code and problem.swaps.get((asked, other)) is not None
            for i in goods.of(other)
            if goods.goods[i].lead <= day
            for c, v in problem.bought(i)
        ]
        # What stands in counts by its swap; of it only what has arrived by then.
        if early:
            by_then = model.column(0, count)
            model.row([(by_then, 1.0), *((c, -1.0) for c in stand_ins)], high=0.0)
            model.row([(by_then, 1.0), *((c, -v) for c, v in early)], high=0.0)
            model.row([*supply(day), (by_then, 1.0), *lost], low=count)
        else:
            model.row([*supply(day), *((c, -1.0) for c in given), *lost], low=count)
    if need.both:
        _returns(problem, need)


def _returns(problem: Problem, need: PartNeed) -> None:
    """What of "order both" goes back once the port is known lowers what it counts in choosing."""
    model, goods = problem.model, problem.goods
    terms = []
    for i in goods.of(need.code):
        good = goods.goods[i]
        back = good.back
        if back and i in problem.units:
            worth = float(back) * need.returned / problem.unit
            column = model.column(0, need.both // good.size, -worth)
            problem.back[i] = column
            model.row([(column, 1.0), *((c, -v) for c, v in problem.bought(i))], high=0.0)
            terms.append((column, float(good.size)))
    if terms:
        model.row(terms, high=need.both)


def _hose(problem: Problem, need: HoseNeed, *, may_miss: bool) -> None:
    """Length in all, and what every cutting plan obeys for the pieces from each length up."""
    model, goods, kerf = problem.model, problem.goods, problem.kerf
    lost: int | None = None
    if may_miss:
        lost = problem.missing[need.code] = model.column(0, 1)
    on_shelf = sum(rest.length for rest in need.offcuts)
    lengths = [
        (c, v * goods.goods[i].size) for i in goods.of(need.code) for c, v in problem.bought(i)
    ]
    _at_least(problem, lengths, need.total - on_shelf, lost)
    dues = [None, *sorted({p.due for p in need.pieces if p.due is not None})]
    for due in dues:
        some = [p for p in need.pieces if due is None or (p.due is not None and p.due <= due)]
        for least in sorted({piece.length for piece in some}):
            pieces = [piece for piece in some if piece.length >= least]
            _bounds(problem, need, pieces, lost, kerf)


def _bounds(
    problem: Problem, need: HoseNeed, some: Sequence[Piece], lost: int | None, kerf: int
) -> None:
    """Pieces must find room on the bars by length, and by number."""
    goods = problem.goods
    owned = [Bar(rest.length) for rest in need.offcuts]
    length = float(sum(piece.length + kerf for piece in some))
    length -= sum(best_fill(some, bar, kerf) for bar in owned)
    number = float(len(some) - sum(most_pieces(some, bar, kerf) for bar in owned))
    shortest = min(piece.length for piece in some)
    by_length: list[tuple[int, float]] = []
    by_number: list[tuple[int, float]] = []
    for i in goods.of(need.code):
        good, columns = goods.goods[i], problem.bought(i)
        if not columns:
            continue
        if good.offer.sold_as is SoldAs.CUT:
            if all(p.due is not None and good.lead > p.due for p in some):
                continue
            # In one length; the last cut of each length costs nothing.
            length, number = length - kerf, number - kerf / (shortest + kerf)
            room, count = float(good.size), good.size / (shortest + kerf)
        else:
            bar = Bar(good.size, good.lead)
            room, count = float(best_fill(some, bar, kerf)), float(most_pieces(some, bar, kerf))
        by_length += [(column, room) for column, _ in columns]
        by_number += [(column, count) for column, _ in columns]
    _at_least(problem, by_length, length, lost)
    _at_least(problem, by_number, number, lost)


def _at_least(
    problem: Problem, terms: list[tuple[int, float]], low: float, lost: int | None
) -> None:
    """Hold a sum up, scaled so that the solver sees numbers near one."""
    if low <= 0:
        return
    scale = max((value for _, value in terms), default=1.0) or 1.0
    found = [(c, value / scale) for c, value in terms]
    if lost is not None:
        found.append((lost, low / scale))
    problem.model.row(found, low=low / scale)


def forbid(problem: Problem, need: HoseNeed, counts: Mapping[int, int]) -> None:
    """Add that so many units of each offer, and no more of any, are not enough.

    Parameters
    ----------
    problem : Problem
        The model.
    need : HoseNeed
        The hose whose pieces cannot be cut from them.
    counts : Mapping of int to int
        Units by index of the offer.
    """
    goods, model = problem.goods, problem.model
    kinds: dict[tuple[int, int] | int, list[int]] = {}
    for i in goods.of(need.code):
        good = goods.goods[i]
        if i in problem.units:
            key = i if good.offer.sold_as is SoldAs.CUT else (good.size, good.lead)
            kinds.setdefault(key, []).append(i)
    flags = []
    for indices in kinds.values():
        bought = [term for i in indices for term in problem.bought(i)]
        next_up = sum(counts.get(i, 0) for i in indices) + 1
        if sum(model.high[c] for c, _ in bought) < next_up:
            continue
        flag = model.column(0, 1)
        model.row([*bought, (flag, -float(next_up))], low=0.0)
        flags.append((flag, 1.0))
    lost = problem.missing.get(need.code)
    if lost is not None:
        flags.append((lost, 1.0))
    model.row(flags, low=1.0)
