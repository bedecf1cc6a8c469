# SPDX-License-Identifier: Apache-2.0
"""Amounts as suppliers write them: prices, packs, lengths, stock, days."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache

from linewright.base.money import Money
from linewright.order.model import SoldAs

_SIGNS = {
    "€": "EUR", "£": "GBP", "¥": "JPY", "₹": "INR", "zł": "PLN", "us$": "USD", "a$": "AUD",
    "au$": "AUD", "c$": "CAD", "ca$": "CAD", "nz$": "NZD", "euro": "EUR", "euros": "EUR",
    "pound": "GBP", "pounds": "GBP", "fr": "CHF", "sfr": "CHF", "dollar": "$", "dollars": "$",
    "$": "$", "kr": "kr",
}  # fmt: skip

#: What one sign may mean, likeliest first.
_SHARED = {
    "$": ("USD", "AUD", "CAD", "NZD", "HKD", "SGD", "MXN"),
    "kr": ("SEK", "NOK", "DKK", "ISK"),
}

#: Capital words that stand beside prices and are no currency.
_NOT_MONEY = frozenset({"NET", "VAT", "INC", "TAX", "PCS", "PER", "EXC", "RRP", "MTR", "EXW"})

#: More than this, in smallest units, is a slip of the pen: a barcode in the column of prices.
_MOST = 1_000_000_000
_MOST_SAID = "1,000,000,000 of the smallest coins"

_NUMBER = re.compile(r"[-−–(]?\s*[\d][\d.,'’\u00a0\u202f ]*\)?|[-−–]?[.,]\d+")
_WORDS = re.compile(r"[A-Za-zł]*\$|[€£¥₹]|[A-Za-zł]+")

FOOT, YARD, INCH = 0.3048, 0.9144, 0.0254

_METRES = {
    "m": 1.0, "mtr": 1.0, "mtrs": 1.0, "metre": 1.0, "metres": 1.0, "meter": 1.0,
    "meters": 1.0, "lfm": 1.0, "lm": 1.0, "ft": FOOT, "foot": FOOT, "feet": FOOT, "'": FOOT,
    "yd": YARD, "yard": YARD, "yards": YARD, "cm": 0.01,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Unit:
    """What one unit of an offer is: so many pieces, a step of length, a coil. [m]"""

    sold_as: SoldAs = SoldAs.PIECES
    pack: int = 1
    length: float | None = None


def decimal_sign(texts: Iterable[str]) -> str:
    """Tell which sign a list of prices sets its decimals with.

    Parameters
    ----------
    texts : Iterable of str
        Prices as they stand in the list.

    Returns
    -------
    str
        A comma or a point; empty where nothing in the list tells.

    Examples
    --------
    >>> decimal_sign(["12,50", "1.250"]), decimal_sign(["1,250"])
    (',', '')
    """
    commas = points = 0
    for text in texts:
        found = _NUMBER.search(text)
        if found is None:
            continue
        number = re.sub(r"[^\d.,]", "", found.group()).strip(".,")
        last = max(number.rfind(","), number.rfind("."))
        if last < 0:
            continue
        sign = number[last]
        other = "," if sign == "." else "."
        if other in number or (number.count(sign) == 1 and len(number) - last - 1 != 3):
            commas += sign == ","
            points += sign == "."
    if commas == points:
        return ""
    return "," if commas > points else "."


def number(text: str, sign: str = "") -> Decimal:
    """Read a number with commas or points.

    Parameters
    ----------
    text : str
        The number; a minus or brackets make it negative.
    sign : str, optional
        What the list sets its decimals with, as `decimal_sign` tells it.

    Returns
    -------
    Decimal
        Exactly what was written.

    Raises
    ------
    ValueError
        If there is no number, or if it can be read in two ways.

    Examples
    --------
    >>> number("1.234,50"), number("1,250", ",")
    (Decimal('1234.50'), Decimal('1.250'))
    """
    minus = text.strip()[:1] in "-−–(" and bool(text.strip())
    bare = re.sub(r"[^\d.,]", "", text).rstrip(".,")
    if not bare:
        raise ValueError("there is no number")
    last = max(bare.rfind(","), bare.rfind("."))
    if last >= 0:
        mark = bare[last]
        other = "," if mark == "." else "."
        behind = len(bare) - last - 1
        if bare.count(mark) > 1:
            if other in bare:
                raise ValueError(f'"{text.strip()}" is no number')
            is_decimal = False
        elif other in bare:
            is_decimal = True
        elif behind == 3 and last > 0 and bare[0] != "0":
            if not sign:
                whole, part = bare[:last], bare[last + 1 :]
                raise ValueError(
                    f'"{text.strip()}" may be {whole}.{part} or {whole}{part}: write it with '
                    "two decimals"
                )
            is_decimal = mark == sign
        else:
            is_decimal = True
        bare = bare.replace(other, "")
        bare = bare.replace(mark, "." if is_decimal else "")
    value = Decimal(bare)
    return -value if minus else value


@lru_cache(20_000)
def price(text: str, currency: str = "", sign: str = "") -> Money:
    """Read a price.

    Parameters
    ----------
    text : str
        The price as it stands, with or without a sign or a word for its currency.
    currency : str, optional
        The supplier's currency, where the text has none or shares its sign with others.
    sign : str, optional
        What the list sets its decimals with.

    Returns
    -------
    Money
        A price above nothing.

    Raises
    ------
    ValueError
        If there is no price, no currency, or the price is nothing or less.

    Examples
    --------
    >>> str(price("€ 1.234,50")), str(price("12.5", "GBP"))
    ('1,234.50 EUR', '12.50 GBP')
    """
    found = _NUMBER.search(text)
    if found is None:
        raise ValueError(f'price "{text.strip()}" is no amount' if text.strip() else "no price")
    rest = text[: found.start()] + " " + text[found.end() :]
    if re.search(r"\d", rest):
        raise ValueError(f'price "{text.strip()}" holds two numbers: write one')
    named = ""
    for word in _WORDS.findall(rest):
        known = _SIGNS.get(word.lower())
        if known is None and len(word) == 3 and word.isascii() and word.isupper():
            known = None if word in _NOT_MONEY else word
        if known is None and word.lower() in ("p", "pence") and currency in ("", "GBP"):
            amount = number(found.group(), sign) / 100
            return _positive(text, Money.of(amount, "GBP"))
        if known:
            named = known
    if named in _SHARED:
        named = currency if currency in _SHARED[named] else ("" if named == "kr" else "USD")
    if named and currency and named != currency:
        raise ValueError(f"price is in {named}, the supplier's prices are in {currency}")
    if not (named or currency):
        raise ValueError(
            f'price "{text.strip()}" has no currency: give the supplier one in the terms'
        )
    return _positive(text, Money.of(number(found.group(), sign), named or currency))


def _positive(text: str, money: Money) -> Money:
    if money.minor <= 0:
        what = "nothing" if money.minor == 0 else "negative"
        raise ValueError(f'price "{text.strip()}" is {what}: a price is above 0')
    if money.minor > _MOST:
        raise ValueError(
            f'price "{text.strip()[:40]}" is no price of one part: it is above {_MOST_SAID}'
        )
    return money


def currency_of(texts: Iterable[str]) -> str:
    """Tell the currency that most prices of a list are in.

    Parameters
    ----------
    texts : Iterable of str
        Prices as they stand in the list.

    Returns
    -------
    str
        Three letters of ISO 4217; empty where none says.

    Examples
    --------
    >>> currency_of(["£3.20", "4.50", "£1"])
    'GBP'
    """
    counts: dict[str, int] = {}
    for text in texts:
        for word in _WORDS.findall(text):
            known = _SIGNS.get(word.lower(), "")
            if not known and len(word) == 3 and word.isupper() and word not in _NOT_MONEY:
                known = word
            if known and known != "kr":
                known = "USD" if known == "$" else known
                counts[known] = counts.get(known, 0) + 1
    return max(counts, key=lambda key: (counts[key], key)) if counts else ""


_PER = re.compile(r"(?:per|by the|/|a|je|pro|par)?\s*(?:running |linear |lin\.? )?([a-z']+)\.?\Z")
_LENGTH = re.compile(
    r"(\d+(?:[.,]\d+)?)\s*(?:-\s*)?(m|mtrs?|met(?:re|er)s?|ft|foot|feet|yards?|yd|cm|')\b\.?"
)
_COUNT = re.compile(r"(?:\D|\A)(\d{1,5})(?!\d|[.,]\d)")
_EACH = frozenset(
    [
        "ea",
        "each",
        "pc",
        "pcs",
        "piece",
        "pieces",
        "stk",
        "stück",
        "stueck",
        "st",
        "unit",
        "units",
        "pair",
        "pairs",
        "pr",
        "set",
        "1",
        "pk",
        "pack",
        "packs",
        "bag",
        "box",
        "bx",
        "qty",
        "item",
        "items",
        "off",
    ]
)


@lru_cache(20_000)
def unit(text: str, pack: str = "", length: str = "") -> Unit:
    """Read what one unit of an offer is.

    Parameters
    ----------
    text : str
        The unit: "each", "per foot", "m", "coil 5 m".
    pack : str, optional
        The pack size: "10", "pack of 10", or a length.
    length : str, optional
        A length of its own column; metres where it has no unit.

    Returns
    -------
    Unit
        Pieces, a step of length, or a coil.

    Raises
    ------
    ValueError
        If it cannot be read.

    Examples
    --------
    >>> unit("per foot").length, unit("", "pack of 10").pack, unit("coil 5 m").length
    (0.3048, 10, 5.0)
    """
    said = text.strip().lower()
    coil = _coil(length, is_metres=True) or _coil(said) or _coil(pack)
    if coil is not None:
        return Unit(SoldAs.COIL, 1, coil)
    per = _PER.match(said)
    if per and per.group(1) in _METRES:
        return Unit(SoldAs.CUT, 1, _METRES[per.group(1)])
    count = _pack(pack) if pack.strip() else None
    if not said or (per and per.group(1) in _EACH) or said in _EACH:
        return Unit(SoldAs.PIECES, 2 if said.startswith("pair") and not count else count or 1)
    if any(word in said for word in ("roll", "coil", "reel")):
        raise ValueError(f'unit "{text.strip()}" does not say how long it is')
    numbers = _COUNT.findall(said)
    if len(numbers) == 1:
        return Unit(SoldAs.PIECES, _pack(numbers[0]))
    raise ValueError(f'unit "{text.strip()}" is not known; say each, a pack of 10, per m, per ft')


def _coil(text: str, *, is_metres: bool = False) -> float | None:
    said = text.strip().lower()
    found = _LENGTH.search(said)
    if found is None:
        if is_metres and said:
            metres = number(said, "." if "." in said else ",")
            if metres <= 0:
                raise ValueError(f'length "{said}" is not above 0')
            return float(metres)
        return None
    value = float(found.group(1).replace(",", "."))
    if value <= 0:
        raise ValueError(f'length "{said}" is not above 0')
    is_one = value == 1 and not is_metres and re.match(r"(?:per|/|by|1)\s*", said)
    return None if is_one else round(value * _METRES[found.group(2)], 6)


def _pack(text: str) -> int:
    numbers = re.findall(r"-?\d+(?:[.,]\d+)?", text)
    if not numbers and text.strip().lower() in _EACH:
        return 2 if text.strip().lower().startswith("pair") else 1
    if len(numbers) != 1:
        raise ValueError(f'pack size "{text.strip()}" is no whole number')
    value = Decimal(numbers[0].replace(",", "."))
    if value != value.to_integral_value() or value < 1:
        raise ValueError(f'pack size "{text.strip()}" is not a whole number from 1')
    return int(value)


_NONE = frozenset(("sold out", "out of stock", "none", "no", "discontinued", "unavailable", "n"))
_SOME = frozenset(("in stock", "yes", "available", "y", "auf lager", "en stock", "instock", "ok"))


@lru_cache(5_000)
def stock(text: str) -> int | None:
    """Read how many units are in stock.

    Parameters
    ----------
    text : str
        As it stands in the list: a number, or words.

    Returns
    -------
    int or None
        None where some are and nobody counted [-].

    Raises
    ------
    ValueError
        If it cannot be read.

    Examples
    --------
    >>> stock("> 50"), stock("sold out"), stock("in stock")
    (50, 0, None)
    """
    said = text.strip().lower()
    if not said or said in _SOME:
        return None
    if said in _NONE:
        return 0
    found = re.fullmatch(r"[>≥~+]?\s*(-?\d+)(?:[.,]0+)?\s*\+?\s*[a-zü ]*", said)
    if found is None or int(found.group(1)) < 0:
        raise ValueError(f'stock "{text.strip()}" cannot be read: taken as not said')
    return int(found.group(1))


@lru_cache(5_000)
def days(text: str) -> int | None:
    """Read a lead time.

    Parameters
    ----------
    text : str
        As it stands in the list, in days, weeks or months.

    Returns
    -------
    int or None
        Days, of a range the longer [d]; None where nothing is said.

    Raises
    ------
    ValueError
        If it cannot be read.

    Examples
    --------
    >>> days("2-3 weeks"), days("next day"), days("5")
    (21, 1, 5)
    """
    said = text.strip().lower()
    if not said or said in _SOME:
        return None
    if said in ("next day", "tomorrow", "overnight"):
        return 1
    if said in ("same day", "today", "collect"):
        return 0
    numbers = [int(n) for n in re.findall(r"\d+", said)]
    if not numbers or said.startswith("-") or "." in said:
        raise ValueError(f'lead time "{text.strip()}" cannot be read: taken as not said')
    step = 7 if re.search(r"w(ee)?ks?\b|woche|semaine", said) else 1
    step = 30 if re.search(r"month|monat|mois", said) else step
    return max(numbers) * step
