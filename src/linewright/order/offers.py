# SPDX-License-Identifier: Apache-2.0
"""Rows of suppliers' lists made into offers; what cannot be loaded is told with its reason."""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal

from linewright.order import amounts
from linewright.order.columns import ATTRIBUTES, Columns, guess, likeliest
from linewright.order.model import Market, Offer, SoldAs, Supplier, Told
from linewright.order.packs import pack_of

_Cell = Callable[[str], str]
_Read = Callable[[str], int | None]

#: How much of a row is shown where it is refused.
_SHOWN = 90


@dataclass(frozen=True, slots=True)
class Listing:
    """One sheet of a supplier's list as text: ``rows`` are (number of the row, cells).

    ``file`` is its name as people know it, ``supplier`` whose list it is unless a column
    says otherwise.
    """

    file: str
    supplier: str
    rows: Sequence[tuple[int, Sequence[str]]]


@dataclass(frozen=True, slots=True)
class Terms:
    """Terms of all suppliers, and the shop's own currency.

    ``columns`` are the headings of each supplier's list by field; ``files`` are words that
    the names of its files begin with.
    """

    currency: str = ""
    suppliers: tuple[Supplier, ...] = ()
    columns: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    files: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    def of_file(self, stem: str) -> str:
        """Whose list a file is: a supplier whose name or typed word it begins with."""
        plain = _plain(stem)
        fits = [
            (len(_plain(word)), supplier.name)
            for supplier in self.suppliers
            for word in (supplier.name, *self.files.get(supplier.name, ()))
            if plain.startswith(_plain(word))
        ]
        return max(fits)[1] if fits else stem


@dataclass(frozen=True, slots=True)
class Loaded:
    """What came of lists: the market, and how the columns of each supplier were read."""

    market: Market
    columns: Mapping[str, Mapping[str, str]]


def _plain(text: str) -> str:
    return re.sub(r"[\W_]+", "-", text.casefold()).strip("-")


def load(listings: Iterable[Listing], terms: Terms | None = None) -> Loaded:
    """Make offers of lists.

    Parameters
    ----------
    listings : Iterable of Listing
        The lists as text.
    terms : Terms, optional
        What is known of the suppliers.

    Returns
    -------
    Loaded
        Every good row as an offer that nobody has recognised yet; every other row with the
        reason it was refused for.

    Notes
    -----
    Two rows of one supplier's number with the same pack are one offer: the later is refused.
    Prices stay in the supplier's currency; one that differs from the shop's needs a rate.
    """
    reader = _Reader(terms or Terms())
    for listing in listings:
        reader.listing(listing)
    return reader.done()


class _Reader:
    """Loads lists one after another and remembers what it has seen."""

    def __init__(self, terms: Terms) -> None:
        self.terms = terms
        self.known = {supplier.name: supplier for supplier in terms.suppliers}
        self.by_plain = {_plain(name): name for name in self.known}
        self.currency = {name: supplier.currency for name, supplier in self.known.items()}
        self.offers: list[Offer] = []
        self.refused: list[Told] = []
        self.noted: list[Told] = []
        self.columns: dict[str, dict[str, str]] = {}
        self.seen: dict[tuple[str, str, int, float | None], Offer] = {}

    def listing(self, listing: Listing) -> None:
        """Load one list."""
        typed = self.terms.columns.get(listing.supplier)
        columns = guess([cells for _, cells in listing.rows[:60]], typed)
        if columns is None:
            names = ", ".join(f'{key} = "{value}"' for key, value in (typed or {}).items())
            shown = _headings(listing)
            self.refused.append(
                Told(
                    listing.file,
                    " | ".join(listing.rows[0][1])[:_SHOWN] if listing.rows else "",
                    f"no row of headings has the columns {names}: look at the supplier's "
                    f"terms; {shown}"
                    if typed
                    else "no row of headings names a price and a description: name the columns "
                    f'in the terms, such as [supplier."{listing.supplier}".columns] '
                    f'price = "..."; {shown}',
                    is_file=True,
                )
            )
            return
        self.columns.setdefault(listing.supplier, dict(columns.headings))
        body = listing.rows[columns.first :]
        at = columns.index["price"]
        prices = [cells[at] for _, cells in body if at < len(cells)]
        sign = amounts.decimal_sign(prices)
        heading = columns.currency or amounts.currency_of(prices[:2000])
        for row, cells in body:
            if not any(cell.strip() for cell in cells):
                continue
            place = f"{listing.file} row {row}"
            try:
                self._row(place, cells, columns, listing.supplier, sign, heading)
            except ValueError as error:
                shown = " | ".join(c.strip() for c in cells if c.strip())
                self.refused.append(Told(place, shown[:_SHOWN], str(error)))

    def _row(
        self,
        place: str,
        cells: Sequence[str],
        columns: Columns,
        supplier: str,
        sign: str,
        heading: str,
    ) -> None:
        index = columns.index

        def cell(name: str) -> str:
            at = index.get(name, -1)
            return cells[at].strip() if 0 <= at < len(cells) else ""

        for name in index:
            if cell(name).startswith("=") and len(cell(name)) > 1:
                raise ValueError(
                    f'{name} is a formula, "{cell(name)[:40]}": formulas are not worked out, '
                    "paste the values"
                )
        if name := cell("supplier"):
            supplier = self.by_plain.setdefault(_plain(name), name)
        description = " ".join(cell("description").split())
        words = self._attributes(cell)
        part = cell("part")
        number = cell("number")
        if not (description or part or words or number):
            raise ValueError("the row says neither what it is nor its number")
        if not description:
            description = " ".join(words.split()) or part
        currency = cell("currency").upper() or heading
        ours = self.currency.get(supplier, "")
        if currency and ours and currency != ours:
            raise ValueError(
                f"price is in {currency}, the prices of {supplier} are in {ours}: one supplier "
                "has one currency"
            )
        money = amounts.price(cell("price"), ours or currency, sign)
        self.currency.setdefault(supplier, money.currency)
        sold = self._unit(cell, columns, description)
        stock = self._lenient(place, description, amounts.stock, cell("stock"))
        wait = cell("lead")
        if _BARE.fullmatch(wait) and _IN_WEEKS.search(columns.headings.get("lead", "")):
            wait = f"{wait} weeks"
        lead = self._lenient(place, description, amounts.days, wait)
        offer = Offer(
            supplier=supplier,
            number=number,
            description=description,
            price=money,
            sold_as=sold.sold_as,
            pack=sold.pack,
            length=sold.length,
            stock=stock,
            lead_days=lead,
            is_returnable=_yes_no(cell("returnable")),
            refund_share=_share(cell("refund")),
            return_days=self._lenient(place, description, amounts.days, cell("return_days")),
            part=part or None,
            place=place,
            attributes=words,
        )
        self._take(offer)

    def _attributes(self, cell: _Cell) -> str:
        found = []
        for name in ATTRIBUTES:
            text = cell(name)
            if not text:
                continue
            if name == "dash":
                text = re.sub(r"\A#?(\d{1,2})\Z", r"-\1", text)
            elif name == "angle":
                text = re.sub(r"\A(\d{2,3})\Z", r"\1 deg", text)
                text = "straight" if text in ("0", "0 deg") else text
            elif name == "hose":
                text = f"for {text} hose" if "hose" not in text.lower() else f"for {text}"
            elif name == "swivel":
                text = _TURNS.get(text.lower(), text)
            found.append(text)
        return ", ".join(found)

    def _unit(self, cell: _Cell, columns: Columns, description: str) -> amounts.Unit:
        said = pack_of(description)
        unit, pack, length = cell("unit") or columns.unit, cell("pack"), cell("length")
        if not (unit or pack or length):
            return said or amounts.Unit()
        typed = amounts.unit(unit, pack, length)
        if said is None or said == typed:
            return typed
        if typed == amounts.Unit() and (not pack or said.sold_as is not SoldAs.PIECES):
            return said  # "each", or one, of what the description says: a metre, a coil
        if said.sold_as is SoldAs.PIECES and typed.sold_as is SoldAs.PIECES:
            raise ValueError(
                f"the description says a pack of {said.pack}, the column {typed.pack}: "
                "which of them the price is for is not plain"
            )
        return typed

    def _lenient(self, place: str, description: str, read: _Read, text: str) -> int | None:
        if not text:
            return None
        try:
            return read(text)
        except ValueError as error:
            self.noted.append(Told(place, description[:_SHOWN], str(error)))
            return None

    def _take(self, offer: Offer) -> None:
        name = offer.number or offer.description
        key = (offer.supplier, name, offer.pack, offer.length)
        before = self.seen.get(key)
        if before is not None:
            what = "the same"
            if before.price != offer.price:
                what = f"{before.price} there, {offer.price} here"
            elif before.description != offer.description:
                what = "another description"
            raise ValueError(f"{name} stands already in {before.place} ({what})")
        self.seen[key] = offer
        self.offers.append(offer)

    def done(self) -> Loaded:
        """Say in which currencies it all is, and refuse what no rate was typed for."""
        counts: dict[str, int] = {}
        for offer in self.offers:
            counts[offer.price.currency] = counts.get(offer.price.currency, 0) + 1
        common = max(counts, key=lambda key: (counts[key], key)) if counts else "EUR"
        shop = self.terms.currency or common
        suppliers = []
        for name in sorted({offer.supplier for offer in self.offers} | set(self.known)):
            supplier = self.known.get(name) or Supplier(name, self.currency[name])
            has_rate = supplier.rate != 1 or supplier.rate_day is not None
            if supplier.currency != shop and not has_rate:
                bad = [offer for offer in self.offers if offer.supplier == name]
                self.offers = [offer for offer in self.offers if offer.supplier != name]
                self.refused += [
                    Told(
                        offer.place,
                        offer.description[:_SHOWN],
                        f"no rate from {supplier.currency} to {shop}: type rate and rate-day of "
                        f'[supplier."{name}"]',
                    )
                    for offer in bad
                ]
                continue
            suppliers.append(supplier)
        market = Market(
            shop, tuple(suppliers), tuple(self.offers), tuple(self.refused), tuple(self.noted)
        )
        return Loaded(market, self.columns)


#: A heading that says so means weeks where a cell is a bare number.
_BARE = re.compile(r"\d+(?:\s*[-–]\s*\d+)?")
_IN_WEEKS = re.compile(r"weeks|wochen", re.IGNORECASE)


def _headings(listing: Listing) -> str:
    """Show the row that looks most like headings."""
    at = likeliest([cells for _, cells in listing.rows[:60]])
    if at is None:
        return "no row has words"
    number, cells = listing.rows[at]
    said = ", ".join(f'"{cell.strip()[:30]}"' for cell in cells[:16] if cell.strip())
    return f"seen in row {number}: {said}"


_TURNS = {
    "yes": "full swivel", "y": "full swivel", "full": "full swivel", "360": "full swivel",
    "no": "fixed", "n": "fixed", "none": "fixed",
}  # fmt: skip


def _yes_no(text: str) -> bool | None:
    said = text.strip().lower()
    if said in ("yes", "y", "true", "1", "ja", "oui"):
        return True
    return False if said in ("no", "n", "false", "0", "nein", "non") else None


def _share(text: str) -> float | None:
    found = re.fullmatch(r"(\d+(?:[.,]\d+)?)\s*(%)?", text.strip())
    if found is None:
        return None
    value = float(Decimal(found.group(1).replace(",", ".")))
    value = value / 100 if found.group(2) or value > 1 else value
    return value if value <= 1 else None


def accepted(market: Market, parts: Mapping[str, str]) -> Market:
    """Put in what offers were recognised as, by their place.

    Parameters
    ----------
    market : Market
        Offers as loaded.
    parts : Mapping of str to str
        Our code by the place of the offer.

    Returns
    -------
    Market
        The same, with ``part`` of each offer set or taken away.
    """
    offers = tuple(replace(offer, part=parts.get(offer.place)) for offer in market.offers)
    return replace(market, offers=offers)
