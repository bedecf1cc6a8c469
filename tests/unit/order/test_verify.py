# SPDX-License-Identifier: Apache-2.0
"""The checker finds each breach that is planted in a good order."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from linewright.base.money import Money
from linewright.catalogue.stock import Catalogue
from linewright.order.choose import choose
from linewright.order.model import Market, Offcut, Offer, Shelf, ShelfItem, SoldAs, Supplier
from linewright.order.result import Box, Order, OrderLine
from linewright.order.shelf import ShelfUse
from linewright.order.verify import verify
from linewright.order.wishes import Wishes
from linewright.takeoff.model import Takeoff
from tests.markets import eur, hose, part, takeoff

WHAT = takeoff([part("a", 4), part("b", 1, system="fuel")], [hose("hose h", [0.9, 0.7, 0.5])])
SHELF = Shelf((ShelfItem("B1", "a", 1),), (Offcut("H1", "hose h", 0.6),))
MARKET = Market(
    "EUR",
    (
        Supplier("A", "EUR", ((eur("0"), eur("5")),), smallest_order=eur("10")),
        Supplier("B", "EUR", ((eur("0"), eur("5")),), wish="barred"),
    ),
    (
        Offer("A", "A1", "a", eur("6"), stock=9, lead_days=3, part="a"),
        Offer("A", "A2", "b", eur("7"), stock=9, lead_days=9, part="b"),
        Offer("A", "A3", "hose h", eur("20"), SoldAs.COIL, length=2.0, stock=3, part="hose h"),
    ),
)
WISHES = Wishes()
GOOD = choose(WHAT, MARKET, SHELF, WISHES, Catalogue(()), is_compared=False)


def lines(order: Order, change: Callable[[OrderLine], OrderLine]) -> Order:
    """The order with each line changed."""
    box = order.boxes[0]
    return replace(order, boxes=(replace(box, lines=tuple(change(x) for x in box.lines)),))


def box(order: Order, **more: object) -> Order:
    """The order with its box changed."""
    return replace(order, boxes=(replace(order.boxes[0], **more),))  # type: ignore[arg-type]


def said(order: Order, wishes: Wishes = WISHES, what: Takeoff = WHAT) -> str:
    """What the checker says."""
    return "; ".join(verify(order, what, MARKET, SHELF, wishes))


def only(number: str, **more: object) -> Callable[[OrderLine], OrderLine]:
    """A change of one line."""
    return lambda line: replace(line, **more) if line.number == number else line  # type: ignore[arg-type]


def test_a_good_order_has_no_breach() -> None:
    assert said(GOOD) == ""
    assert {line.number for line in GOOD.boxes[0].lines} == {"A1", "A2", "A3"}


def _without(order: Order, number: str) -> Order:
    first: Box = order.boxes[0]
    return box(order, lines=tuple(line for line in first.lines if line.number != number))


@pytest.mark.parametrize(
    ("broken", "breach"),
    [
        (_without(GOOD, "A1"), "4 of a are needed, and 1 are there"),
        (lines(GOOD, only("A1", count=2)), "2 units give 2, not 3"),
        (lines(GOOD, only("A1", price=eur("5"))), "A does not offer a at 5.00 EUR"),
        (lines(GOOD, only("A1", count=30, gives=30.0)), "30 are ordered and 9 are in stock"),
        (lines(GOOD, only("A1", total=eur("1"))), "3 at 6.00 EUR is not 1.00 EUR"),
        (lines(GOOD, only("A2", stands_for=(("a", 1),))), "b may not stand in for a"),
        (box(GOOD, shipping=eur("0")), "shipping is 500, not 0.00 EUR"),
        (box(GOOD, goods=eur("1")), "its lines come to"),
        (box(GOOD, supplier="B"), "B is barred and is in the order"),
        (box(GOOD, tax=eur("1")), "tax is 0"),
        (box(GOOD, whole=eur("1")), "is told as 1.00 EUR"),
        (replace(GOOD, total=Money("EUR", 1)), "the boxes come to"),
        (replace(GOOD, from_shelf=(ShelfUse("B1", "a", 3, "a"),)), "bin B1, which has 1"),
        (replace(GOOD, from_shelf=(ShelfUse("B1", "a", 1, "b"),)), "may not stand in for b"),
        (replace(GOOD, cuts=GOOD.cuts[1:]), "is cut 0 times"),
        (replace(GOOD, cuts=(*GOOD.cuts, GOOD.cuts[0])), "is cut 2 times"),
        (
            replace(GOOD, cuts=tuple(replace(cut, length=0.7) for cut in GOOD.cuts)),
            "gives 0.7 m and",
        ),
        (
            replace(
                GOOD,
                cuts=tuple(
                    replace(cut, pieces=tuple((run, 0.1) for run, _ in cut.pieces))
                    for cut in GOOD.cuts
                ),
            ),
            "is cut shorter than",
        ),
        (
            replace(GOOD, cuts=tuple(replace(cut, length=9.0) for cut in GOOD.cuts)),
            "9.0 m are cut from 2.0 m",
        ),
        (_without(GOOD, "A3"), "m of hose h are to be there, and 0.6 m are"),
    ],
)
def test_a_planted_breach_is_found(broken: Order, breach: str) -> None:
    assert breach in said(broken)


def test_an_order_below_the_smallest_is_found() -> None:
    small = box(GOOD, lines=GOOD.boxes[0].lines[1:2])

    assert "is below its smallest order" in said(small)


def test_a_date_that_is_not_kept_is_found() -> None:
    assert "1 of b are needed within 5 days, and 0 are there" in said(
        GOOD, Wishes(latest=(("fuel", 5),))
    )


def test_hose_that_comes_too_late_is_found() -> None:
    late = lines(GOOD, only("A3", days=30))

    assert "is due in 5 days and its hose takes 30" in said(late, Wishes(latest=(("oil", 5),)))
