# SPDX-License-Identifier: Apache-2.0
"""Money is exact and never of two currencies at once."""

from decimal import Decimal

import pytest

from linewright.base.money import Money


def test_amounts_round_half_up_to_the_smallest_unit_of_their_currency() -> None:
    amounts = [
        str(Money.of(a, c)) for a, c in (("1.005", "EUR"), ("12.5", "JPY"), ("1.0005", "KWD"))
    ]

    assert amounts == ["1.01 EUR", "13 JPY", "1.001 KWD"]


def test_two_currencies_are_never_added() -> None:
    with pytest.raises(
        ValueError, match=r"10\.00 EUR and 5\.00 GBP are of two currencies: convert one first"
    ):
        Money.of(10, "EUR") + Money.of(5, "GBP")


def test_a_typed_rate_converts() -> None:
    assert Money.of("19.99", "GBP").converted(Decimal("1.17"), "EUR") == Money.of("23.39", "EUR")


@pytest.mark.parametrize(("amount", "currency"), [("1", "eur"), ("1", "EURO"), ("NaN", "EUR")])
def test_what_is_no_money_is_refused(amount: str, currency: str) -> None:
    with pytest.raises(ValueError, match=r"currency|amount"):
        Money.of(amount, currency)
