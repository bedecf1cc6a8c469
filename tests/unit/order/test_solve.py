# SPDX-License-Identifier: Apache-2.0
"""The search against every order there is, and against three plain rules."""

import pytest

from linewright.catalogue.stock import Catalogue
from linewright.order.choose import choose
from linewright.order.goods import goods_for
from linewright.order.model import Shelf
from linewright.order.needs import needs
from linewright.order.solve import best
from linewright.order.verify import verify
from linewright.order.wishes import Wishes
from tests.brute_order import cheapest
from tests.markets import large, small
from tests.plain_rules import plain_rules

NONE = Catalogue(())


def _same_as_trying_all(seeds: range) -> tuple[int, int]:
    """How many cases have an order, and how many have none; each checked."""
    wishes, some, none = Wishes(), 0, 0
    for seed in seeds:
        what, of = small(seed)
        least = cheapest(what, of, wishes.kerf)
        goods = goods_for(needs(what, wishes), of, wishes, NONE, frozenset())
        found = None if goods.shorts else best(goods, wishes)
        order = choose(what, of, Shelf(), wishes, NONE, is_compared=False)

        assert (None if found is None else found.cost) == least, seed
        assert found is None or found.is_proved, seed
        assert bool(order.shorts) == (least is None), seed
        assert verify(order, what, of, Shelf(), wishes) == (), seed

        some += found is not None
        none += found is None
    return some, none


def test_the_order_costs_what_the_best_of_all_orders_costs_in_eighty_small_cases() -> None:
    some, none = _same_as_trying_all(range(80))

    assert some > 40
    assert none > 5


@pytest.mark.prove
def test_the_order_costs_what_the_best_of_all_orders_costs_in_five_hundred_small_cases() -> None:
    some, none = _same_as_trying_all(range(500))

    assert some > 300
    assert none > 50


@pytest.mark.parametrize("seed", [1, 2, 4])
def test_a_large_order_is_proved_checked_and_never_dearer_than_plain_rules(seed: int) -> None:
    what, of = large(seed)

    order = choose(what, of, Shelf(), Wishes(seconds=120), NONE, is_compared=False)

    assert order.proof is not None
    assert order.proof.is_optimal
    assert verify(order, what, of, Shelf(), Wishes()) == ()
    assert order.total is not None
    ruled = [cost for cost in plain_rules(what, of).values() if cost is not None]
    assert ruled
    assert all(order.total.minor <= cost for cost in ruled)
