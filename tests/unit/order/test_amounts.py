# SPDX-License-Identifier: Apache-2.0
"""Amounts as suppliers write them."""

import re
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linewright.base.money import Money
from linewright.order import amounts
from linewright.order.model import SoldAs
from linewright.order.packs import pack_of


@pytest.mark.parametrize(
    ("text", "currency", "sign", "shown"),
    [
        ("12,50", "EUR", "", "12.50 EUR"),
        ("€ 1.234,50", "", "", "1,234.50 EUR"),
        ("£1,234.50", "", "", "1,234.50 GBP"),
        ("1'234.50 CHF", "", "", "1,234.50 CHF"),
        ("85p", "GBP", "", "0.85 GBP"),
        ("$12", "AUD", "", "12.00 AUD"),
        ("1,250", "EUR", ",", "1.25 EUR"),
        ("1,250", "EUR", ".", "1,250.00 EUR"),
        ("0,950", "EUR", "", "0.95 EUR"),
        ("9.99 net", "EUR", "", "9.99 EUR"),
    ],
)
def test_prices_are_read_as_they_are_written(
    text: str, currency: str, sign: str, shown: str
) -> None:
    assert str(amounts.price(text, currency, sign)) == shown


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "no price"),
        ("on request", 'price "on request" is no amount'),
        ("0.00", 'price "0.00" is nothing: a price is above 0'),
        ("-3,00", 'price "-3,00" is negative: a price is above 0'),
        ("(4.00)", 'price "(4.00)" is negative: a price is above 0'),
        ("£5", "price is in GBP, the supplier's prices are in EUR"),
        ("5.00 / 10", 'price "5.00 / 10" holds two numbers: write one'),
        ("1,250", '"1,250" may be 1.250 or 1250: write it with two decimals'),
    ],
)
def test_what_is_no_price_is_told_with_its_reason(text: str, message: str) -> None:
    with pytest.raises(ValueError, match=f"^{re.escape(message)}$"):
        amounts.price(text, "EUR")


@given(st.integers(1, 10**9), st.sampled_from([",", "."]))
def test_any_price_written_with_its_sign_is_read_back(minor: int, sign: str) -> None:
    other = "." if sign == "," else ","
    whole = f"{minor // 100:,}".replace(",", other)
    text = f"{whole}{sign}{minor % 100:02d}"

    assert amounts.price(text, "EUR", sign) == Money("EUR", minor)


@pytest.mark.parametrize(
    ("unit", "pack", "length", "expected"),
    [
        ("each", "", "", amounts.Unit()),
        ("", "10", "", amounts.Unit(pack=10)),
        ("pack of 25", "", "", amounts.Unit(pack=25)),
        ("per foot", "", "", amounts.Unit(SoldAs.CUT, 1, 0.3048)),
        ("m", "", "", amounts.Unit(SoldAs.CUT, 1, 1.0)),
        ("roll 20 m", "", "", amounts.Unit(SoldAs.COIL, 1, 20.0)),
        ("coil", "", "5", amounts.Unit(SoldAs.COIL, 1, 5.0)),
        ("", "12 ft", "", amounts.Unit(SoldAs.COIL, 1, 3.6576)),
    ],
)
def test_units_are_pieces_steps_or_coils(
    unit: str, pack: str, length: str, expected: amounts.Unit
) -> None:
    assert amounts.unit(unit, pack, length) == expected


@pytest.mark.parametrize(
    ("unit", "pack", "message"),
    [
        ("roll", "", 'unit "roll" does not say how long it is'),
        ("", "2.5", 'pack size "2.5" is not a whole number from 1'),
        ("", "0", 'pack size "0" is not a whole number from 1'),
        ("heap", "", 'unit "heap" is not known; say each, a pack of 10, per m, per ft'),
    ],
)
def test_units_that_say_nothing_are_refused(unit: str, pack: str, message: str) -> None:
    with pytest.raises(ValueError, match=f"^{re.escape(message)}$"):
        amounts.unit(unit, pack)


@pytest.mark.parametrize(
    ("text", "pack"),
    [("O-ring, PK25", 25), ("clips bag of 10", 10), ("adaptor new pair", 2), ("seal (10)", 10)],
)
def test_packs_are_read_out_of_descriptions(text: str, pack: int) -> None:
    found = pack_of(text)

    assert found is not None
    assert found.pack == pack


@pytest.mark.parametrize("text", ["elbow 1/2 NPT x 90", "M14x1.5 stud", "AN8 to AN6"])
def test_sizes_and_angles_are_no_packs(text: str) -> None:
    assert pack_of(text) is None


def test_a_list_tells_which_sign_sets_its_decimals() -> None:
    assert amounts.decimal_sign(["1.250", "3,50", "12"]) == ","
    assert amounts.number("1.250", ",") == Decimal(1250)


@pytest.mark.parametrize(("text", "days"), [("2-4 weeks", 28), ("3 days", 3), ("next day", 1)])
def test_of_a_span_of_days_the_longer_counts(text: str, days: int) -> None:
    assert amounts.days(text) == days


def test_stock_that_cannot_be_read_is_told() -> None:
    with pytest.raises(ValueError, match=r'^stock "-4" cannot be read: taken as not said$'):
        amounts.stock("-4")


def test_a_barcode_is_no_price() -> None:
    with pytest.raises(ValueError, match="no price of one part") as caught:
        amounts.price("4006381333931", "EUR")

    assert str(caught.value) == (
        'price "4006381333931" is no price of one part: it is above 1,000,000,000 of the smallest coins'
    )
    assert amounts.price("10000000", "EUR") == Money.of(10_000_000, "EUR")
