# SPDX-License-Identifier: Apache-2.0
"""Rows of lists made into offers."""

from datetime import date
from decimal import Decimal

import pytest

from linewright.order.model import Supplier, Told
from linewright.order.offers import Listing, Loaded, Terms, load

_HEAD = ("SKU", "Description", "Price", "Pack", "Stock", "Lead time")


def _load(
    *rows: tuple[str, ...], head: tuple[str, ...] = _HEAD, terms: Terms | None = None
) -> Loaded:
    listing = Listing("barn.csv", "barn", [(1, head), *enumerate(rows, 2)])
    return load([listing], terms or Terms("EUR", (Supplier("barn", "EUR"),)))


def test_good_rows_load_beside_bad_ones_and_each_bad_one_has_its_reason() -> None:
    market = _load(
        ("1", "AN8 plug", "3,50", "1", "4", "2 days"),
        ("2", "AN6 plug", "-1,00", "1", "", ""),
        ("3", "AN4 plug", "0", "1", "", ""),
        ("4", "=A1*2", "3,00", "1", "", ""),
        ("5", "AN4 plug", "=1+2", "1", "", ""),
        ("1", "AN8 plug", "3,60", "1", "", ""),
        ("6", "Washers, pack of 10", "3,00", "1", "", ""),
        ("7", "thing", "2,00", "1", "many", ""),
        ("", "", "2,00", "1", "", ""),
    ).market

    assert [offer.number for offer in market.offers] == ["1", "7"]
    assert [(told.place, told.reason) for told in market.refused] == [
        ("barn.csv row 3", 'price "-1,00" is negative: a price is above 0'),
        ("barn.csv row 4", 'price "0" is nothing: a price is above 0'),
        (
            "barn.csv row 5",
            'description is a formula, "=A1*2": formulas are not worked out, paste the values',
        ),
        (
            "barn.csv row 6",
            'price is a formula, "=1+2": formulas are not worked out, paste the values',
        ),
        ("barn.csv row 7", "1 stands already in barn.csv row 2 (3.50 EUR there, 3.60 EUR here)"),
        (
            "barn.csv row 8",
            "the description says a pack of 10, the column 1: which of them the price is for "
            "is not plain",
        ),
        ("barn.csv row 10", "the row says neither what it is nor its number"),
    ]
    assert market.noted == (
        Told("barn.csv row 9", "thing", 'stock "many" cannot be read: taken as not said'),
    )


def test_headings_may_stand_in_two_rows_with_merged_words() -> None:
    rows = [
        (1, ("Price list 2026", "", "", "")),
        (2, ("Article", "", "Price", "")),
        (3, ("number", "text", "EUR", "pack")),
        (4, ("7", "-8 JIC plug", "2,50", "5")),
    ]
    market = load([Listing("x.csv", "x", rows)]).market

    assert [(o.number, o.description, str(o.price), o.pack) for o in market.offers] == [
        ("7", "-8 JIC plug", "2.50 EUR", 5)
    ]


def test_typed_headings_go_before_the_guess() -> None:
    terms = Terms(
        "EUR", (Supplier("barn", "EUR"),), {"barn": {"price": "Deal", "description": "What"}}
    )
    market = _load(("9,00", "AN8 plug", "4,00"), head=("Price", "What", "Deal"), terms=terms).market

    assert [str(offer.price) for offer in market.offers] == ["4.00 EUR"]


def test_a_list_without_a_price_says_which_columns_to_name() -> None:
    market = _load(("1", "2"), head=("Foo", "Bar")).market

    assert [told.reason for told in market.refused] == [
        "no row of headings names a price and a description: name the columns in the terms, "
        'such as [supplier."barn".columns] price = "..."; seen in row 1: "Foo", "Bar"'
    ]


def test_headings_of_the_trade_are_guessed_and_weeks_are_counted_as_such() -> None:
    head = ("Code", "What it is", "Each (US$)", "Avail", "Weeks")
    terms = Terms("USD", (Supplier("barn", "USD"),))
    loaded = _load(
        ("Q1", "AN8 plug", "3.20", "9", "2"),
        ("Q2", "AN6 plug", "3.10", "9", "2-3"),
        ("Q3", "AN4 plug", "3.00", "9", "4 days"),
        head=head,
        terms=terms,
    )

    assert loaded.columns["barn"] == {
        "number": "Code", "description": "What it is", "price": "Each (US$)", "stock": "Avail",
        "lead": "Weeks",
    }  # fmt: skip
    assert [(str(o.price), o.lead_days) for o in loaded.market.offers] == [
        ("3.20 USD", 14), ("3.10 USD", 21), ("3.00 USD", 4),
    ]  # fmt: skip


def test_a_net_price_with_its_currency_in_the_heading_is_a_price() -> None:
    market = _load(
        ("AN8 plug", "7,40", "3"), head=("Bezeichnung", "Netto EUR", "Liefertage")
    ).market

    assert [(str(o.price), o.lead_days) for o in market.offers] == [("7.40 EUR", 3)]


def test_a_price_in_another_currency_needs_its_rate() -> None:
    without = Terms("EUR", (Supplier("barn", "GBP"),))
    with_rate = Terms(
        "EUR", (Supplier("barn", "GBP", rate=Decimal("1.17"), rate_day=date(2026, 11, 20)),)
    )
    row = ("1", "AN8 plug", "3.50", "1", "", "")

    assert [t.reason for t in _load(row, terms=without).market.refused] == [
        'no rate from GBP to EUR: type rate and rate-day of [supplier."barn"]'
    ]
    assert [str(o.price) for o in _load(row, terms=with_rate).market.offers] == ["3.50 GBP"]


@pytest.mark.parametrize(
    ("unit", "sold_as", "length"),
    [("per ft", "cut", 0.3048), ("m", "cut", 1.0), ("coil 10 m", "coil", 10.0)],
)
def test_units_may_differ_from_row_to_row(unit: str, sold_as: str, length: float) -> None:
    market = _load(("hose -8", "4.50", unit), head=("Description", "Price", "Unit")).market

    assert [(o.sold_as.value, o.length) for o in market.offers] == [(sold_as, length)]


def test_columns_such_as_dash_and_angle_are_kept_as_words() -> None:
    market = _load(
        ("hose end", "8", "45", "PTFE", "no", "4.50"),
        head=("Type", "Dash", "Angle", "Hose", "Swivel", "Price"),
    ).market

    assert market.offers[0].attributes == "hose end, -8, 45 deg, for PTFE hose, fixed"


@pytest.mark.parametrize(
    ("words", "sold_as", "length"),
    [
        ("silicone hose 16 mm, per ft", "cut", 0.3048),
        ("rubber braided hose -10, per m", "cut", 1.0),
        ("PTFE hose -6, 5 m coil", "coil", 5.0),
    ],
)
def test_a_pack_of_one_is_one_of_the_lengths_that_the_words_say(
    words: str, sold_as: str, length: float
) -> None:
    market = _load((words, "4.50", "1"), head=("Description", "Price", "Pack")).market

    assert [(o.sold_as.value, o.length) for o in market.offers] == [(sold_as, length)]


def test_suppliers_whose_names_are_in_no_latin_letters_are_told_apart() -> None:
    market = _load(
        ("Север", "AN8 plug", "3.50 EUR"),
        ("Юг", "AN8 plug", "4.50 EUR"),
        ("ЮГ.", "AN6 plug", "4.50 EUR"),
        head=("Supplier", "Description", "Price"),
    ).market

    assert [offer.supplier for offer in market.offers] == ["Север", "Юг", "Юг"]
