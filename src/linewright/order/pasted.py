# SPDX-License-Identifier: Apache-2.0
"""Offers out of pasted text: a basket page, a mail, lines typed by hand."""

import re

from linewright.order.model import Told
from linewright.order.offers import Listing

_BEFORE = r"(?:[A-Z]{1,2}\$|[€£$¥]|\b(?:EUR|GBP|USD|CHF|AUD|CAD|SEK|NOK|DKK)\b)"
_BEHIND = (
    r"(?:€|£|\bEUR\b|\bGBP\b|\bUSD\b|\bCHF\b|\bAUD\b|\bCAD\b|\bSEK\b|\bNOK\b"
    r"|\bDKK\b|\bkr\b|\beuros?\b|\bpounds?\b|\bp\b(?=\s|$))"
)
# Blanks part thousands alone: what stands behind a price may be a number of its own.
_AMOUNT = r"-?(?:\d{1,3}(?: \d{3})+(?:[.,]\d{1,2})?(?![\d.,]| in stock)|\d[\d.,']*)"
_SIGN_FIRST = re.compile(rf"{_BEFORE}\s?{_AMOUNT}")
_MONEY = re.compile(rf"(?:{_SIGN_FIRST.pattern}|-?\d[\d.,']*\s?{_BEHIND})")
_BETWEEN = re.compile(rf"(\d[\d.,']*)\s?{_BEFORE}\s?(-?\d[\d.,']*)")
_PENNIES = re.compile(r"[.,]\d{2}\Z")
_BARE = re.compile(r"(?<![\d./x-])-?\d{1,5}[.,]\d{2}(?!\d|[.,x/]|\s?(?:mm|m|in|\"|bar|ft|psi)\b)")
_NOISE = re.compile(
    r"\s*(?:(?:sub)?total|subtotal|shipping|delivery|postage|vat|tax|discount|carriage|grand total|"
    r"voucher|balance|you save|was|mwst|versand|order total|basket|items? in|p&p)\b",
    re.IGNORECASE,
)
_QUANTITY = re.compile(
    r"\s*(?:qty|quantity|menge|anzahl)\.?\s*:?\s*(\d+)|\s*(\d+)\s*(?:x|×|@|off)\s+(?=\D|-)",
    re.IGNORECASE,
)
_NUMBER = re.compile(
    r"\s*(?:sku|item|art(?:icle)?|ref|code|part)\s*(?:no|nr|number|code)?\s*[.:#]*\s+?([A-Z0-9][\w./-]{2,30})\s*",
    re.IGNORECASE,
)
# A supplier's own number at the head of a line, set apart by a gap; a size of the trade is none.
_HEAD = re.compile(
    r"\s*(?!(?:AN|SAE|JIC|ORB|ORFS|NPTF?|BSPP?|BSPT|UNF?|AS|M|G|R|RC|DN)-?\d)"
    r"([A-Z]{1,6}-?\d[A-Z0-9./-]*)(?:\s*\t\s*|\s{2,}|\s*[:|]\s+)(?=\S)"
)
_STOCK = re.compile(r"\s*(in stock|out of stock|sold out|\d+ in stock)\.?\s*\Z", re.IGNORECASE)
_STOCK_BEHIND = re.compile(r"\s(in stock|out of stock|sold out|\d+ in stock)\.?\Z", re.IGNORECASE)
_LEAD = re.compile(
    r"\s*(?:delivery|dispatch(?:ed)?|ships?|lead time)\s*(?:in|within|:)?\s*"
    r"(\d+(?:\s*-\s*\d+)?\s*(?:working )?(?:days?|weeks?))",
    re.IGNORECASE,
)
_HEADINGS = ("number", "description", "price", "stock", "lead time")


def listed(text: str, name: str, supplier: str) -> tuple[Listing, tuple[Told, ...]]:
    """Make a list of pasted text.

    Parameters
    ----------
    text : str
        A basket page, a mail, or lines typed by hand.
    name : str
        Name of the file, for places.
    supplier : str
        Whose offers they are; a line "supplier: NAME" changes it only in its file's terms.

    Returns
    -------
    tuple
        The list, one row an offer, and the lines that hold words and no price.

    Notes
    -----
    A line with a price is an offer; where it has the price alone, the words are those of the
    lines before it, up to the offer before. Of several prices in a line the first is of one
    unit, the last of the line. Quantities ("2 x ...") are what somebody put into a basket: they
    are no pack. Lines of totals, tax and shipping are passed over. A line that begins with "-"
    and a dash size keeps it.

    Examples
    --------
    >>> found, _ = listed("2 x AN8 straight hose end, PTFE\\n£9.50  £19.00", "basket.txt", "shop")
    >>> found.rows[1]
    (1, ('', 'AN8 straight hose end, PTFE', '£9.50', '', ''))
    """
    rows: list[tuple[int, tuple[str, ...]]] = [(0, _HEADINGS)]
    left: list[Told] = []
    held: list[tuple[int, str]] = []
    number = stock = lead = ""

    def let_go() -> None:
        left.extend(
            Told(f"{name} row {at}", words[:90], "no price stands with these words")
            for at, words in held
        )
        held.clear()

    for at, line in enumerate(text.splitlines(), 1):
        head = _HEAD.match(line)
        words = " ".join(line[head.end() if head else 0 :].split())
        if not words:
            continue
        if words.startswith(">"):  # an answered mail quotes the question
            words = words.lstrip("> ")
        if found := _LEAD.match(words):
            lead = found.group(1)
            if rows[1:] and not held:
                rows[-1] = (rows[-1][0], (*rows[-1][1][:4], lead))
                lead = ""
            continue
        if _NOISE.match(words):
            continue
        if found := _STOCK.fullmatch(words):
            stock = found.group(1)
            if rows[1:] and not held:
                rows[-1] = (rows[-1][0], (*rows[-1][1][:3], stock, rows[-1][1][4]))
                stock = ""
            continue
        if (found := _NUMBER.match(words)) and found.end() == len(words):
            number = found.group(1)
            continue
        prices = _prices(words)
        if not prices:
            words = " ".join(line.split()).lstrip("> ")
            said = _QUANTITY.sub("", words, count=1).strip() if _QUANTITY.match(words) else words
            if re.search(r"[A-Za-z]{2}|\d", said) and not re.fullmatch(r"[\d\s]*", said):
                held.append((at, said))
            continue
        first = prices[0]
        rest = words[: first.start()] + " " + words[prices[-1].end() :]
        rest = _QUANTITY.sub("", rest, count=1) if _QUANTITY.match(rest) else rest
        rest = re.sub(r"\s*(?:@|à|:|=|\||-|–)\s*\Z", "", rest.strip()).strip(" |;\t")
        rest = re.sub(
            r"\b(?:each|ea|total|add|remove|qty)\b\.?:?(?:\s*\d+\b)?\s*\Z", "", rest
        ).strip()
        if found := _STOCK_BEHIND.search(rest):
            stock, rest = found.group(1), rest[: found.start()].rstrip(" ,;|-–")
        if re.search(r"[A-Za-z]{2}", rest):
            let_go()
            start, said = at, rest
        elif held:
            start, said = held[-1]
            if len(held) > 1 and not re.search(r"[A-Za-z]{3}.*\d|\d.*[A-Za-z]{3}", said):
                start, said = held[-2][0], f"{held[-2][1]} {said}"
                held.pop()
            held.pop()
            let_go()
        else:
            left.append(Told(f"{name} row {at}", words[:90], "no words stand with this price"))
            continue
        if head:
            number = head.group(1)
        rows.append((start, (number, said, first.group().strip(), stock, lead)))
        number = stock = lead = ""
    let_go()
    return Listing(name, supplier, rows), tuple(left)


def _prices(words: str) -> list[re.Match[str]]:
    """Prices in a line; of a sign between two numbers, "hose -10 £ 18.40", the right one."""
    between = list(_BETWEEN.finditer(words))
    is_behind = any(
        re.match(rf"\s?{_BEHIND}", words[found.end(2) :])
        or (_PENNIES.search(found.group(1)) and not _PENNIES.search(found.group(2)))
        for found in between
    )
    money = _SIGN_FIRST if between and not is_behind else _MONEY
    return list(money.finditer(words)) or list(_BARE.finditer(words))
