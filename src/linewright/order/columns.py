# SPDX-License-Identifier: Apache-2.0
"""Which column of a supplier's list says what: guessed from its heading, or as typed."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

#: Fields of an offer, with the headings that mean them.
_HEADINGS = {
    "part": "our code|our part|our part code|linewright code|linewright|code of ours",
    "supplier": "supplier|vendor|shop|seller|lieferant|haendler|fournisseur|merchant|store",
    "number": "number|no|nr|sku|part no|part number|part nr|item no|item number|item code|article|"
    "article no|article number|art nr|art no|artikelnummer|artikelnr|artikel nr|code|ref|"
    "reference|order code|order no|stock code|product code|mpn|catalogue no|catalog no|cat no|"
    "supplier number|supplier no|suppliers number|supplier's number|bestellnummer|teilenummer",
    "description": "description|desc|item description|product description|name|product name|title|"
    "product|item|text|bezeichnung|beschreibung|artikelbezeichnung|designation|details|article text"
    "|article description|produkt|libelle|what it is|what|bezeichnung des artikels|goods",
    "price": "price|unit price|cost|unit cost|preis|einzelpreis|stueckpreis|prix|prix unitaire|net|"
    "net price|list price|price each|price ea|each|your price|sell price|sale price|amount|"
    "price net|nettopreis|price ex vat|price per unit|trade price|price per pack|pack price|"
    "netto|netto preis|preis netto|net each|each net|unit price net|stk preis",
    "currency": "currency|curr|ccy|waehrung|devise|cur",
    "pack": "pack|pack size|pack qty|packsize|pack quantity|qty per pack|quantity per pack|pcs|"
    "pieces|pieces per pack|vpe|ve|packung|units per pack|per pack|pack of|content|conditionnement|"
    "package|price per",
    "stock": "stock|qty available|available|availability|in stock|on hand|stock level|bestand|"
    "avail|lagerbestand|lager|qty|stock qty|quantity available|verfuegbar|disponible|"
    "quantity in stock",
    "lead": "lead|lead time|leadtime|delivery|delivery time|lead days|lead time days|days|"
    "lieferzeit|dispatch|delai|ships in|delivery days|lead time (days)|weeks|lead weeks|"
    "lead time weeks|lead time in weeks|delivery weeks|liefertage|lieferwochen|wochen",
    "unit": "unit|uom|sold by|sold as|einheit|unite|unit of measure|unit of sale|me|per",
    "length": "length|coil length|roll length|length m|laenge|longueur|coil|fixed length|metres",
    "returnable": "returnable|returns|can be returned|rueckgabe",
    "refund": "refund|refund share|refund percent|refund %",
    "return_days": "return days|return within|returns days|days to return|return period",
    "shape": "type|shape|fitting|kind|category|fitting type|typ|form",
    "ends": "ends|connection|connections|anschluss",
    "thread": "thread|port thread|gewinde|filetage|thread size|port",
    "dash": "dash|an size|an|jic|dash size|size|flare size|hose size|groesse|taille",
    "angle": "angle|bend|winkel|degrees|deg",
    "hose": "hose|hose type|for hose|schlauch",
    "swivel": "swivel|turns|drehbar",
    "material": "material|werkstoff|materiau|finish",
}  # fmt: skip

FIELDS = tuple(_HEADINGS)

#: Fields that say what the thing is, where no description does.
ATTRIBUTES = ("shape", "ends", "thread", "dash", "angle", "hose", "swivel", "material")

_WORDS = {word: field for field, words in _HEADINGS.items() for word in words.split("|")}

_UNITS = {
    "per foot": "per ft", "per ft": "per ft", "/ft": "per ft", "per metre": "per m",
    "per meter": "per m", "per m": "per m", "/m": "per m", "per mtr": "per m",
}  # fmt: skip


#: Signs of currencies in headings, the longer before the shorter.
_SIGNS = (
    ("€", "EUR"), ("£", "GBP"), ("us$", "USD"), ("au$", "AUD"), ("nz$", "NZD"), ("ca$", "CAD"),
    ("a$", "AUD"), ("c$", "CAD"), ("$", "USD"),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Columns:
    """Where each field stands: index of the column by field.

    ``currency`` and ``unit`` are what the price's heading itself says ("Price (EUR)",
    "price per ft"); ``first`` is the index of the first row of goods.
    """

    index: Mapping[str, int]
    first: int
    headings: Mapping[str, str]
    currency: str = ""
    unit: str = ""


def plain(heading: str) -> str:
    """Write a heading in small letters without marks.

    Parameters
    ----------
    heading : str
        As it stands in the list.

    Returns
    -------
    str
        The same, to be compared.

    Examples
    --------
    >>> plain(" Preis (EUR) *")
    'preis (eur)'
    """
    text = heading.lower().replace("ä", "ae").replace("ö", "oe").replace("ü", "ue")
    text = text.replace("é", "e").replace("ß", "ss").replace("_", " ").replace("#", " no ")
    text = re.sub(r"[*:.]", " ", text)
    return " ".join(text.split())


def field_of(heading: str) -> tuple[str, str, str]:
    """Tell which field a heading means, and the currency and unit that it names.

    Parameters
    ----------
    heading : str
        As it stands in the list.

    Returns
    -------
    tuple of str
        Field, currency and unit, each empty where the heading does not say.

    Examples
    --------
    >>> field_of("Preis (EUR)"), field_of("Art.-Nr.")[0], field_of("Price per ft, GBP")
    (('price', 'EUR', ''), 'number', ('price', 'GBP', 'per ft'))
    """
    text = plain(heading)
    if not text or len(text) > 60:
        return "", "", ""
    if text in _WORDS:
        return _WORDS[text], "", ""
    currency = unit = ""
    for sign, code in _SIGNS:
        if sign in text:
            currency, text = code, text.replace(sign, " ")
            break
    found = re.search(r"\b(eur|gbp|usd|chf|aud|cad|nzd|sek|nok|dkk|jpy|pln|czk)\b", text)
    if found:
        currency, text = found.group(1).upper(), text.replace(found.group(1), " ")
    for words, short in _UNITS.items():
        if text.replace("(", "").replace(")", "").rstrip(" ,").endswith(words):
            unit, text = short, text.replace(words, " ")
    text = " ".join(re.sub(r"[(),/\[\]-]", " ", text).split())
    text = re.sub(r"\b(ex|exc|excl|inc|incl|without|plus) (vat|tax|gst|mwst)\b", "", text).strip()
    if not text and currency:
        return "price", currency, unit
    field = _WORDS.get(text, "") or _WORDS.get(text.replace(" ", ""), "")
    return field, currency, unit


def likeliest(rows: Sequence[Sequence[str]]) -> int | None:
    """Find the row that looks most like headings, where none could be read as such.

    Parameters
    ----------
    rows : Sequence of sequence of str
        The first rows of the list.

    Returns
    -------
    int or None
        Index of the row with most cells of words; None where no row has any.
    """

    def words(at: int) -> int:
        return sum(bool(re.search(r"[^\W\d]{2}", cell)) for cell in rows[at])

    best = max(range(min(len(rows), 40)), key=lambda at: (words(at), -at), default=None)
    return best if best is not None and words(best) else None


def guess(rows: Sequence[Sequence[str]], typed: Mapping[str, str] | None = None) -> Columns | None:
    """Find the row of headings and say which column is what.

    Parameters
    ----------
    rows : Sequence of sequence of str
        The first rows of the list.
    typed : Mapping of str to str, optional
        Headings by field, as the supplier's terms give them; they go before the guess.

    Returns
    -------
    Columns or None
        None where no row names a price and something to know the goods by.

    Notes
    -----
    Headings may stand in two rows, the upper one merged over several columns: its word then
    goes before each of the words below it.
    """
    best: Columns | None = None
    for at in range(min(len(rows), 40)):
        tries = [(tuple(rows[at]), at + 1)]
        if at + 1 < len(rows) and not any(re.search(r"\d", c) for c in rows[at + 1]):
            tries.append((_two_rows(rows[at], rows[at + 1]), at + 2))
        for headings, first in tries:
            found = _read_headings(headings, first, typed or {})
            if found and (best is None or len(found.index) > len(best.index)):
                best = found
    return best


def _two_rows(upper: Sequence[str], lower: Sequence[str]) -> tuple[str, ...]:
    joined, over = [], ""
    for i in range(max(len(upper), len(lower))):
        above = upper[i].strip() if i < len(upper) else ""
        below = lower[i].strip() if i < len(lower) else ""
        over = above or over
        if not below:
            joined.append(above)
            continue
        both = f"{over} {below}".strip()
        joined.append(below if field_of(below)[0] and not field_of(both)[0] else both)
    return tuple(joined)


def _read_headings(headings: Sequence[str], first: int, typed: Mapping[str, str]) -> Columns | None:
    index: dict[str, int] = {}
    names: dict[str, str] = {}
    currency = unit = ""
    for field, heading in typed.items():
        places = [i for i, cell in enumerate(headings) if plain(cell) == plain(heading)]
        if places:
            index[field], names[field] = places[0], headings[places[0]].strip()
            if field == "price":
                _, currency, unit = field_of(heading)
    if any(field not in index for field in typed):
        return None
    for i, cell in enumerate(headings):
        field, in_currency, per = field_of(cell)
        if not field or i in index.values() or field in typed:
            continue
        if field in index:
            continue
        index[field], names[field] = i, cell.strip()
        if field == "price":
            currency, unit = in_currency, per
    if "description" not in index and "shape" in index and "part" not in index:
        pass  # attributes alone may say what it is
    knows = {"description", "part", "number", "shape"} & index.keys()
    if "price" not in index or not knows:
        return None
    return Columns(index, first, names, currency, unit)
