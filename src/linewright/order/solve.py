# SPDX-License-Identifier: Apache-2.0
"""The search: HiGHS proposes what to buy, and every hose is cut from it, or that is forbidden.

What cannot be cut is first made as large as it can be and still not do, so that one round
rules out as much as possible. As each round only adds what is proved, the last answer is the
best of all that can be cut.
"""

import time
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from linewright.base.errors import OrderError
from linewright.base.money import Money
from linewright.order import cutting
from linewright.order.cutting import Cutting
from linewright.order.goods import Goods, Short, bars_of
from linewright.order.model import SoldAs
from linewright.order.needs import HoseNeed, Needs
from linewright.order.price import factor, shipping
from linewright.order.problem import Limits, Problem, build, forbid, weight
from linewright.order.rows import Answer, solve
from linewright.order.wishes import Wishes

#: Rounds after which the search for coils that can be cut gives up.
_ROUNDS = 200


@dataclass(frozen=True, slots=True)
class Solution:
    """What to buy.

    ``counts`` are units by index of the offer, ``swaps`` pieces that stand in by (code asked
    for, code bought), ``cuttings`` the plan of each hose. ``cost`` is all that is paid, and
    ``reckoned`` what was made least (less what preferred suppliers and refunds are worth);
    ``bound`` is what no order can be below. All in smallest units of the shop's currency.
    """

    counts: Mapping[int, int]
    swaps: Mapping[tuple[str, str], int]
    back: Mapping[int, int]
    cuttings: Mapping[str, Cutting]
    cost: Fraction
    reckoned: Fraction
    bound: float
    is_proved: bool
    rounds: int

    @property
    def gap(self) -> float:
        """How far the bound lies below what is reckoned, as a share of it. [-]"""
        whole = float(self.reckoned)
        return 0.0 if self.is_proved or not whole else max(whole - self.bound, 0.0) / abs(whole)


def spent(goods: Goods, counts: Mapping[int, int]) -> Fraction:
    """What is paid for so many units, shipping and tax included, exactly.

    Parameters
    ----------
    goods : Goods
        The offers.
    counts : Mapping of int to int
        Units by index of the offer.

    Returns
    -------
    Fraction
        In smallest units of the shop's currency, nothing rounded.
    """
    whole = Fraction(0)
    for name, supplier in goods.suppliers.items():
        worth = sum(
            goods.goods[i].offer.price.minor * count
            for i, count in counts.items()
            if goods.goods[i].supplier.name == name
        )
        if any(goods.goods[i].supplier.name == name for i, count in counts.items() if count):
            charged = shipping(supplier, Money(supplier.currency, worth)).minor if worth else 0
            whole += (worth + charged) * factor(supplier, goods.currency)
    return whole


def best(
    goods: Goods, wishes: Wishes, limits: Limits | None = None, *, few: bool = False
) -> Solution | None:
    """Find the cheapest order.

    Parameters
    ----------
    goods : Goods
        Needs that can be met, and offers.
    wishes : Wishes
        What the builder wishes.
    limits : Limits, optional
        Most suppliers, days and money.
    few : bool
        Whether as few suppliers as possible come before price.

    Returns
    -------
    Solution or None
        None where no order keeps to the limits.
    """
    limits = limits or Limits()
    problem = build(goods, wishes, limits)
    until = time.monotonic() + wishes.seconds
    if few:
        counted = [0.0] * len(problem.model.low)
        for column in problem.used.values():
            counted[column] = 1.0
        found = _rounds(problem, until, counted)
        if found is None:
            return None
        boxes = sum(
            any(goods.goods[i].supplier.name == name for i, n in found.counts.items() if n)
            for name in problem.used
        )
        return best(goods, wishes, replace(limits, suppliers=boxes))
    return _rounds(problem, until, None)


def _rounds(problem: Problem, until: float, cost: list[float] | None) -> Solution | None:
    bound, is_proved = float("-inf"), True
    for number in range(1, _ROUNDS + 1):
        costs = None
        if cost is not None:
            costs = cost + [0.0] * (len(problem.model.low) - len(cost))
        answer = _asked(problem, until, costs)
        if is_proved:
            bound = max(bound, answer.bound)
        if answer.values is None:
            return None
        counts = _counts(problem, answer)
        cuttings, is_sure = _cut_all(problem, counts, until)
        is_proved = is_proved and is_sure
        out_of_time = answer.is_out_of_time or time.monotonic() > until or number == _ROUNDS
        if out_of_time and len(cuttings) < len(problem.goods.needs.hoses):
            repaired = _repaired(problem, counts, cuttings)
            if repaired is None:
                return None
            counts, cuttings = repaired
        if len(cuttings) == len(problem.goods.needs.hoses):
            return _solution(problem, answer, counts, cuttings, bound, is_proved, number)
    return None


def _asked(problem: Problem, until: float, costs: list[float] | None) -> Answer:
    """Ask HiGHS; where time ran out before any order was found, ask on for one."""
    for longer in (0.0, 10.0, 60.0):
        answer = solve(problem.model, until - time.monotonic() + longer, costs)
        if answer.values is not None or not answer.is_out_of_time:
            return answer
    raise OrderError(
        "No order was found in the time allowed, and none was proved impossible. Allow more with "
        "--seconds, or leave out a date or a limit."
    )


def _counts(problem: Problem, answer: Answer) -> dict[int, int]:
    values = answer.values or ()
    counts = {
        i: sum(round(values[column]) for column, _ in problem.bought(i)) for i in problem.units
    }
    return {i: count for i, count in counts.items() if count}


def _cut_all(
    problem: Problem, counts: Mapping[int, int], until: float
) -> tuple[dict[str, Cutting], bool]:
    """Plans of the hoses that can be cut; the others are forbidden in the model."""
    plans: dict[str, Cutting] = {}
    is_sure = True
    for need in problem.goods.needs.hoses:
        try:
            plan = _plan(problem, need, counts)
        except cutting.UnprovedError:
            plan, is_sure = None, False
        if plan is not None:
            plans[need.code] = plan
        else:
            forbid(problem, need, _grown(problem, need, counts, until))
    return plans, is_sure


def _plan(problem: Problem, need: HoseNeed, counts: Mapping[int, int]) -> Cutting | None:
    return cutting.cut(need.pieces, bars_of(need, problem.goods, counts), problem.kerf)


def _grown(
    problem: Problem, need: HoseNeed, counts: Mapping[int, int], until: float
) -> dict[int, int]:
    """Make a set of coils that does not do as large as it can be and still not do."""
    goods = problem.goods
    grown = {i: counts.get(i, 0) for i in goods.of(need.code) if i in problem.units}
    for i in sorted(grown, key=lambda i: (goods.goods[i].size, i)):
        good = goods.goods[i]
        most = good.most
        low, high = grown[i], most + 1  # low does not do; high may
        step = 1 if good.offer.sold_as is not SoldAs.CUT else max(1, (high - low) // 2)
        while high - low > 1 and time.monotonic() < until:
            middle = min(low + step, high - 1)
            try:
                plan = _plan(problem, need, {**grown, i: middle})
            except cutting.UnprovedError:
                plan = ()
            if plan is None:
                low = middle
                step = 1 if good.offer.sold_as is not SoldAs.CUT else max(1, (high - low) // 2)
            else:
                high = middle
                step = max(1, (high - low) // 2)
        grown[i] = low
    return grown


def _repaired(
    problem: Problem, counts: Mapping[int, int], cuttings: Mapping[str, Cutting]
) -> tuple[dict[int, int], dict[str, Cutting]] | None:
    """Out of time: add units of hose, the cheapest first, until the plain rule cuts all."""
    goods = problem.goods
    full, plans = dict(counts), dict(cuttings)
    for need in goods.needs.hoses:
        if need.code in plans:
            continue
        choices = [i for i in goods.of(need.code) if i in problem.units]
        plan = None
        while plan is None:
            longest = max(piece.length for piece in need.pieces)
            able = [
                i
                for i in choices
                if full.get(i, 0) < goods.goods[i].most
                and (goods.goods[i].size >= longest or goods.goods[i].offer.sold_as is SoldAs.CUT)
            ] or [i for i in choices if full.get(i, 0) < goods.goods[i].most]
            if not able:
                return None
            pick = min(able, key=lambda i: (goods.goods[i].cost / goods.goods[i].size, i))
            full[pick] = full.get(pick, 0) + 1
            plan = cutting.by_rule(need.pieces, bars_of(need, goods, full), problem.kerf)
        plans[need.code] = plan
    return full, plans


def _solution(
    problem: Problem,
    answer: Answer,
    counts: dict[int, int],
    cuttings: dict[str, Cutting],
    bound: float,
    is_proved: bool,
    rounds: int,
) -> Solution:
    goods, values = problem.goods, answer.values or ()
    cost = spent(goods, counts)
    back = {i: round(values[c]) for i, c in problem.back.items() if round(values[c])}
    returned = {need.code: need.returned for need in goods.needs.parts}
    reckoned = cost
    for i, count in counts.items():
        good = goods.goods[i]
        reckoned -= (good.cost - weight(good, problem.wishes)) * count
    for i, count in back.items():
        good = goods.goods[i]
        reckoned -= good.back * Fraction(returned.get(good.offer.part or "", 0.0)) * count
    least = bound * problem.unit
    # Money comes in whole smallest units: nothing lies between the bound and one above it.
    is_tight = float(reckoned) <= ceil(least - 1e-3) + 0.5
    return Solution(
        counts=counts,
        swaps={pair: round(values[c]) for pair, c in problem.swaps.items() if round(values[c])},
        back=back,
        cuttings=cuttings,
        cost=cost,
        reckoned=reckoned,
        bound=least,
        is_proved=is_proved and is_tight,
        rounds=rounds,
    )


def meetable(goods: Goods, wishes: Wishes) -> Goods:
    """Leave out what no order can meet, where stock and smallest orders are at odds.

    Parameters
    ----------
    goods : Goods
        Needs that look as if they could be met.
    wishes : Wishes
        What the builder wishes.

    Returns
    -------
    Goods
        The same where an order exists; else with what is left out named.
    """
    problem = build(goods, wishes, Limits(), may_miss=True)
    cost = [0.0] * len(problem.model.low)
    hoses = {need.code: need for need in goods.needs.hoses}
    for code, column in problem.missing.items():
        cost[column] = float(len(hoses[code].pieces)) if code in hoses else 1.0
    answer = solve(problem.model, wishes.seconds, cost)
    if answer.values is None:
        return goods
    lost = {code: round(answer.values[c]) for code, c in problem.missing.items()}
    why = "no supplier takes an order so small, or its stock is asked for twice"
    shorts = list(goods.shorts)
    parts, kept = [], []
    for need in goods.needs.parts:
        missing = lost.get(need.code, 0)
        if missing:
            shorts.append(Short(need.code, need.name, missing, why=why))
        if need.count > missing:
            left = need.count - missing
            due = tuple((day, min(count, left)) for day, count in need.due)
            parts.append(replace(need, count=left, due=due, both=min(need.both, left)))
    for hose in goods.needs.hoses:
        if lost.get(hose.code):
            runs = tuple(p.run for p in hose.pieces)
            shorts.append(Short(hose.code, hose.name, len(runs), runs, why=why))
        else:
            kept.append(hose)
    return replace(goods, needs=Needs(tuple(parts), tuple(kept)), shorts=tuple(shorts))
