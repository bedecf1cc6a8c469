# SPDX-License-Identifier: Apache-2.0
"""Lines of pasted text: what is the price, what is a size, what is the supplier's number."""

import pytest

from linewright.order.pasted import listed


def _row(line: str) -> tuple[str, ...]:
    found, left = listed(line, "basket.txt", "barn")

    assert left == ()
    ((_, cells),) = found.rows[1:]
    return cells


@pytest.mark.parametrize(
    ("line", "price"),
    [
        ("Rubber hose -10   £ 18.40 per metre", "£ 18.40"),
        ("O-ring 16 £1.20", "£1.20"),
        ("O-ring 16 EUR 1.20", "EUR 1.20"),
        ("hose end 9,50 € 19,00 €", "9,50 €"),
        ("hose end £9.50 £19.00", "£9.50"),
        ("2 x hose end 9.50 EUR 19.00 EUR", "9.50 EUR"),
        ("hose end 9,50 € 10 in stock", "9,50 €"),
        ("hose end 9 GBP", "9 GBP"),
        ("hose end £ 9 10 in stock", "£ 9"),
        ("coil of hose € 1 250,00", "€ 1 250,00"),
    ],
)
def test_a_size_that_stands_before_the_sign_of_a_price_is_not_the_price(
    line: str, price: str
) -> None:
    assert _row(line)[2] == price


@pytest.mark.parametrize(
    ("line", "number", "words"),
    [
        ("DS-6  -10 hose end straight  £ 13.10", "DS-6", "-10 hose end straight"),
        ("HB100\those end straight £ 13.10", "HB100", "hose end straight"),
        ("AN8  straight hose end £ 13.10", "", "AN8 straight hose end"),
        ("M22x1.5  washer £ 0.35", "", "M22x1.5 washer"),
        ("AS568-908  O-ring £ 0.35", "", "AS568-908 O-ring"),
        ("DS-6 hose end straight £ 13.10", "", "DS-6 hose end straight"),
    ],
)
def test_a_number_set_apart_at_the_head_of_a_line_is_no_part_of_its_words(
    line: str, number: str, words: str
) -> None:
    assert _row(line)[:2] == (number, words)


def test_a_line_that_says_in_stock_behind_its_price_says_its_stock() -> None:
    assert _row("hose end -6 £ 9.10 in stock") == ("", "hose end -6", "£ 9.10", "in stock", "")
    assert _row("hose end -6 £ 9.10 3 in stock")[3] == "3 in stock"
