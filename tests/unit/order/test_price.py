# SPDX-License-Identifier: Apache-2.0
"""What suppliers charge: steps, thresholds, smallest orders."""

from decimal import Decimal
from fractions import Fraction

import pytest

from linewright.base.money import Money
from linewright.order.model import Supplier
from linewright.order.price import Mode, factor, modes, shipping
from tests.markets import eur

STEPS = Supplier(
    "A",
    "EUR",
    shipping=((eur("0"), eur("8")), (eur("50"), eur("5"))),
    free_above=eur("200"),
    smallest_order=eur("20"),
)


@pytest.mark.parametrize(
    ("goods", "price"),
    [("0", "0"), ("20", "8"), ("49.99", "8"), ("50", "5"), ("199.99", "5"), ("200", "0")],
)
def test_the_last_step_reached_counts(goods: str, price: str) -> None:
    assert shipping(STEPS, eur(goods)) == eur(price)


def test_steps_begin_at_the_smallest_order_and_leave_no_gap() -> None:
    assert modes(STEPS) == (Mode(2000, 4999, 800), Mode(5000, 19999, 500), Mode(20000, None, 0))


def test_steps_below_the_smallest_order_are_gone() -> None:
    supplier = Supplier("A", "EUR", STEPS.shipping, smallest_order=eur("60"))

    assert modes(supplier) == (Mode(6000, None, 500),)


def test_no_terms_are_no_shipping() -> None:
    assert modes(Supplier("A", "EUR")) == (Mode(0, None, 0),)


def test_rates_shift_smallest_units_exactly() -> None:
    """A yen has no smaller unit, so one is 100 times a cent before the rate."""
    yen = Supplier("A", "JPY", rate=Decimal("0.0061"), tax=Decimal("0.1"))

    assert factor(yen, "EUR") == Fraction(61, 10000) * Fraction(11, 10) * 100
    assert 1000 * factor(yen, "EUR") == 671
    assert shipping(yen, Money("JPY", 10)).minor == 0
