# SPDX-License-Identifier: Apache-2.0
"""Other orders to compare with: soonest, fewest boxes, one or two suppliers, one fewer."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations

from linewright.base.money import Money
from linewright.order.goods import Goods
from linewright.order.problem import Limits
from linewright.order.result import Choice
from linewright.order.solve import Solution, best
from linewright.order.wishes import Wishes
from linewright.order.written import boxes, half_up


@dataclass(frozen=True, slots=True)
class Compared:
    """The chosen order beside others: simpler ones, and the trade-off."""

    simpler: tuple[Choice, ...]
    trade_off: tuple[Choice, ...]


def money(exact: Fraction, currency: str) -> Money:
    """An exact sum, rounded half up.

    Parameters
    ----------
    exact : Fraction
        The exact sum, in smallest units.
    currency : str
        Three letters of ISO 4217.

    Returns
    -------
    Money
        The sum in whole smallest units.
    """
    return Money(currency, half_up(exact))


def to_pay(goods: Goods, solution: Solution) -> Money:
    """What its boxes come to, each rounded as its supplier bills it.

    Parameters
    ----------
    goods : Goods
        Needs and offers.
    solution : Solution
        What is bought.

    Returns
    -------
    Money
        The sum in the shop's currency.
    """
    packed = boxes(goods, solution, {})
    return Money(goods.currency, sum(box.whole.minor for box in packed))


def names_of(goods: Goods, solution: Solution) -> tuple[str, ...]:
    """Suppliers of an order, in the order of their names.

    Parameters
    ----------
    goods : Goods
        Needs and offers.
    solution : Solution
        What is bought.

    Returns
    -------
    tuple of str
        Names, each once.
    """
    return tuple(sorted({goods.goods[i].supplier.name for i in solution.counts}))


def days_of(goods: Goods, solution: Solution) -> int:
    """Days to the last box of an order.

    Parameters
    ----------
    goods : Goods
        Needs and offers.
    solution : Solution
        What is bought.

    Returns
    -------
    int
        The number of days.
    """
    return max((goods.goods[i].lead for i in solution.counts), default=0)


def choice(name: str, goods: Goods, found: Solution | None, chosen: Solution, why: str) -> Choice:
    """Compare an order with the chosen one.

    Parameters
    ----------
    name : str
        Its name.
    goods : Goods
        Needs and offers.
    found : Solution or None
        The order to show; None where there is none.
    chosen : Solution
        The cheapest order.
    why : str
        Why there is none, or why it is in the order.

    Returns
    -------
    Choice
        A row of the comparison.
    """
    if found is None:
        return Choice(name, None, None, None, None, why=why)
    suppliers = names_of(goods, found)
    price = to_pay(goods, found)
    return Choice(
        name=name,
        price=price,
        more=price - to_pay(goods, chosen),
        days=days_of(goods, found),
        boxes=len(suppliers),
        suppliers=suppliers,
        is_proved=found.is_proved,
    )


def compare(goods: Goods, wishes: Wishes, chosen: Solution) -> Compared:
    """Work out what else could be ordered.

    Parameters
    ----------
    goods : Goods
        Needs and offers.
    wishes : Wishes
        With the budget that the others have to keep to.
    chosen : Solution
        The cheapest order.

    Returns
    -------
    Compared
        One supplier only and two only; cheapest, soonest, fewest boxes.
    """
    budget = None if wishes.budget is None else Fraction(wishes.budget.minor)
    within = Limits(budget=budget)
    many = len(names_of(goods, chosen))
    fewest = best(goods, wishes, within, few=True) if many > 1 else chosen
    least = len(names_of(goods, fewest)) if fewest else many
    simpler = []
    for most, name in ((1, "one supplier only"), (2, "two suppliers only")):
        if many <= most:
            continue
        if most < least:
            simpler.append(choice(name, goods, None, chosen, missing(goods, most)))
        else:
            known = fewest if fewest and most == least and budget is None else None
            found = known or best(goods, wishes, Limits(suppliers=most))
            simpler.append(choice(name, goods, found, chosen, missing(goods, most)))
    over = "no order keeps within the budget"
    soon = soonest(goods, wishes, within, chosen)
    return Compared(
        tuple(simpler),
        (
            choice("cheapest", goods, chosen, chosen, ""),
            choice("soonest", goods, soon, chosen, over),
            choice("fewest boxes", goods, fewest, chosen, over),
        ),
    )


def soonest(goods: Goods, wishes: Wishes, within: Limits, chosen: Solution) -> Solution | None:
    """Find the order whose last box comes first, and of those the cheapest.

    Parameters
    ----------
    goods : Goods
        Needs and offers.
    wishes : Wishes
        What the builder wishes.
    within : Limits
        The budget.
    chosen : Solution
        The cheapest order: no later one is looked for.

    Returns
    -------
    Solution or None
        None where no order keeps to the budget.
    """
    last = days_of(goods, chosen)
    for days in sorted({good.lead for good in goods.goods if good.lead < last}):
        if _may_arrive(goods, days):
            found = best(goods, wishes, Limits(days=days, budget=within.budget))
            if found is not None:
                return found
    fits = within.budget is None or chosen.cost <= within.budget
    return chosen if fits else None


def _may_arrive(goods: Goods, days: int) -> bool:
    """Whether each need, taken alone, can be there by a day."""
    stands: dict[str, list[str]] = {}
    for asked, other in goods.stands_in:
        stands.setdefault(asked, []).append(other)
    for need in goods.needs.parts:
        codes = [need.code, *stands.get(need.code, ())]
        early = [goods.goods[i] for code in codes for i in goods.of(code)]
        if sum(g.most * g.size for g in early if g.lead <= days) < need.count:
            return False
    for hose in goods.needs.hoses:
        early = [goods.goods[i] for i in goods.of(hose.code)]
        room = sum(g.most * g.size for g in early if g.lead <= days)
        if room + sum(rest.length for rest in hose.offcuts) < hose.total:
            return False
    return True


def missing(goods: Goods, most: int) -> str:
    """Say how much so few suppliers would leave open, at best.

    Parameters
    ----------
    goods : Goods
        Needs and offers.
    most : int
        How many at most.

    Returns
    -------
    str
        A sentence.
    """
    stands: dict[str, set[str]] = {}
    for asked, other in goods.stands_in:
        stands.setdefault(asked, set()).add(other)
    wanted = [need.code for need in goods.needs.parts]
    wanted += [hose.code for hose in goods.needs.hoses if not hose.offcuts]
    sold: dict[str, set[str]] = {}
    for good in goods.goods:
        sold.setdefault(good.supplier.name, set()).add(good.offer.part or "")

    def left(names: tuple[str, ...]) -> int:
        codes = set().union(*(sold[name] for name in names))
        return sum(not ({code, *stands.get(code, ())} & codes) for code in wanted)

    several = list(combinations(sorted(sold), min(most, len(sold))))
    names = min(several, key=lambda some: (left(some), some))
    lost = left(names)
    who = " with ".join(names)
    if not lost:
        return f"{who} offer every part, but not as many as are needed"
    return f"the most of it is sold by {who}, without {lost} of {len(wanted)} parts and hoses"


def without_each(
    goods: Goods,
    solution: Solution,
    again: Callable[[str], Solution | None],
) -> dict[str, str]:
    """Say what leaving each supplier out would cost.

    Parameters
    ----------
    goods : Goods
        Needs and offers.
    solution : Solution
        The order.
    again : callable
        The best order without one supplier; None where some need could not be met.

    Returns
    -------
    dict of str to str
        In words, by supplier.
    """
    told = {}
    for name in names_of(goods, solution):
        other = again(name)
        if other is not None:
            more = money(other.cost - solution.cost, goods.currency)
            told[name] = f"without it the order costs {more} more"
    return told
