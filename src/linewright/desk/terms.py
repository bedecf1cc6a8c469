# SPDX-License-Identifier: Apache-2.0
"""The suppliers' terms in a plain file that the builder owns."""

import tomllib
from collections.abc import Mapping
from datetime import date
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

from linewright.base.errors import OrderError
from linewright.base.money import Money
from linewright.order import amounts
from linewright.order.columns import FIELDS
from linewright.order.model import Supplier
from linewright.order.offers import Terms

_KEYS = (
    "currency", "rate", "rate-day", "tax", "shipping", "free-above", "smallest-order", "wish",
    "lead-days", "files", "columns",
)  # fmt: skip


def read(path: Path) -> Terms:
    """Read the terms.

    Parameters
    ----------
    path : Path
        The file, TOML.

    Returns
    -------
    Terms
        Suppliers in the order of the file.

    Raises
    ------
    OrderError
        If the file cannot be read or says what cannot be; every fault is listed.
    """
    try:
        text = path.read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        raise OrderError(f"{path.name} cannot be read: {error}.") from error
    return read_text(text, path.name)


def read_text(text: str, name: str = "suppliers.toml") -> Terms:
    """Read the terms from the text of their file.

    Parameters
    ----------
    text : str
        TOML.
    name : str
        Name of the file, for messages.

    Returns
    -------
    Terms
        Suppliers in the order of the file.

    Raises
    ------
    OrderError
        With every fault, a line each.

    Examples
    --------
    >>> terms = read_text('currency = "GBP"\\n[supplier.barn]\\nshipping = 6.5\\n')
    >>> terms.suppliers[0].shipping
    ((Money(currency='GBP', minor=0), Money(currency='GBP', minor=650)),)
    """
    try:
        document = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise OrderError(f"{name} is no TOML: {error}.") from error
    faults: list[str] = []
    shop = str(document.get("currency", ""))
    _check_currency("currency", shop, faults)
    for key in document:
        if key not in ("currency", "supplier"):
            faults.append(f"{key}: no such key; the keys here are currency and [supplier.NAME]")
    suppliers, columns, files = [], {}, {}
    tables = document.get("supplier", {})
    if not isinstance(tables, dict):
        faults.append("supplier: write a table [supplier.NAME] for each")
        tables = {}
    for supplier, table in tables.items():
        if not isinstance(table, dict):
            faults.append(f"supplier.{supplier}: write a table [supplier.{supplier}]")
            continue
        reader = _Table(f"supplier.{supplier}", table, faults)
        suppliers.append(reader.supplier(supplier, shop))
        columns[supplier] = reader.columns()
        files[supplier] = reader.files()
    if faults:
        raise OrderError("\n".join(f"{name}: {fault}" for fault in faults))
    columns = {key: value for key, value in columns.items() if value}
    return Terms(shop, tuple(suppliers), columns, files)


def _check_currency(key: str, text: str, faults: list[str]) -> None:
    if text and not (len(text) == 3 and text.isascii() and text.isalpha() and text.isupper()):
        faults.append(f'{key}: "{text}" is not three capital letters, such as EUR')


class _Table:
    """One supplier's table; faults are collected."""

    def __init__(self, key: str, table: Mapping[str, Any], faults: list[str]) -> None:
        self.key, self.table, self.faults = key, table, faults
        for name in table:
            if name not in _KEYS:
                faults.append(f"{key}.{name}: no such key; the keys are {', '.join(_KEYS)}")

    def supplier(self, name: str, shop: str) -> Supplier:
        currency = str(self.table.get("currency", shop))
        _check_currency(f"{self.key}.currency", currency, self.faults)
        if not currency:
            self.faults.append(f"{self.key}.currency: say in which currency its prices are")
        self.currency = currency if len(currency) == 3 and currency.isupper() else "EUR"
        wish = self.table.get("wish", "")
        if wish not in ("", "preferred", "barred"):
            self.faults.append(f'{self.key}.wish: "{wish}" is neither preferred nor barred')
            wish = ""
        lead = self.table.get("lead-days")
        if lead is not None and (not isinstance(lead, int) or isinstance(lead, bool) or lead < 0):
            self.faults.append(f'{self.key}.lead-days: "{lead}" is not a whole number of days')
            lead = None
        rate, day = self._rate(shop)
        return Supplier(
            name,
            self.currency,
            self._shipping(),
            self._money("free-above"),
            self._money("smallest-order"),
            rate,
            day,
            self._share("tax"),
            lead,
            wish,
        )

    def _rate(self, shop: str) -> tuple[Decimal, date | None]:
        rate, day = self.table.get("rate"), self.table.get("rate-day")
        if rate is None:
            return Decimal(1), None
        value = self._decimal("rate", rate)
        if value is not None and value <= 0:
            self.faults.append(f"{self.key}.rate: {rate} is not above 0")
        if not isinstance(day, date):
            self.faults.append(
                f"{self.key}.rate-day: say of which day the rate is, such as 2026-11-20"
            )
            day = None
        if not shop:
            self.faults.append(
                f'{self.key}.rate: say at the top into which currency, such as currency = "EUR"'
            )
        return value or Decimal(1), day

    def _decimal(self, key: str, value: Any) -> Decimal | None:
        try:
            if isinstance(value, bool):
                raise ValueError
            found = Decimal(str(value).strip().removesuffix("%").strip())
            if not found.is_finite():
                raise ValueError
        except (InvalidOperation, ValueError):
            self.faults.append(f'{self.key}.{key}: "{value}" is not a number')
            return None
        return found / 100 if isinstance(value, str) and value.strip().endswith("%") else found

    def _share(self, key: str) -> Decimal:
        if key not in self.table:
            return Decimal(0)
        value = self._decimal(key, self.table[key])
        if value is not None and not 0 <= value < 1:
            self.faults.append(
                f'{self.key}.{key}: {self.table[key]} is no share; write "20 %" or 0.2'
            )
        return value or Decimal(0)

    def _money(self, key: str, value: Any = None) -> Money | None:
        value = self.table.get(key) if value is None else value
        if value is None:
            return None
        try:
            if isinstance(value, str):
                sign = amounts.decimal_sign([value])
                number = amounts.number(value, sign)
            else:
                number = Decimal(str(value))
            if not number.is_finite() or number < 0 or isinstance(value, bool):
                raise ValueError
            return Money.of(number, self.currency)
        except (InvalidOperation, ValueError):
            self.faults.append(f'{self.key}.{key}: "{value}" is not an amount from 0')
            return None

    def _shipping(self) -> tuple[tuple[Money, Money], ...]:
        said = self.table.get("shipping")
        if said is None:
            return ()
        steps = said if isinstance(said, list) else [[0, said]]
        found = []
        for step in steps:
            if not (isinstance(step, list) and len(step) == 2):
                self.faults.append(
                    f"{self.key}.shipping: write one price, or steps "
                    "[[goods from, price], ...] such as [[0, 6.50], [50, 4]]"
                )
                return ()
            above, price = self._money("shipping", step[0]), self._money("shipping", step[1])
            if above is None or price is None:
                return ()
            found.append((above, price))
        found.sort()
        if found and found[0][0].minor != 0:
            self.faults.append(f"{self.key}.shipping: the first step has to be from 0")
        return tuple(found)

    def columns(self) -> dict[str, str]:
        said = self.table.get("columns", {})
        if not isinstance(said, dict):
            self.faults.append(f"{self.key}.columns: write a table of headings by field")
            return {}
        for name, heading in said.items():
            if name not in FIELDS:
                self.faults.append(
                    f"{self.key}.columns.{name}: no such field; the fields are {', '.join(FIELDS)}"
                )
            elif not isinstance(heading, str):
                self.faults.append(f"{self.key}.columns.{name}: a heading is text")
        return {str(name): str(heading) for name, heading in said.items()}

    def files(self) -> tuple[str, ...]:
        said = self.table.get("files", [])
        if not (isinstance(said, list) and all(isinstance(word, str) for word in said)):
            self.faults.append(f'{self.key}.files: write a list such as ["price-list"]')
            return ()
        return tuple(said)


def remember(path: Path, columns: Mapping[str, Mapping[str, str]], currency: str) -> list[str]:
    """Write how columns were read into the terms, for suppliers that have none there.

    Parameters
    ----------
    path : Path
        The file of the terms; it is made where there is none. What stands in it stays as it is.
    columns : Mapping
        Headings by field, by supplier.
    currency : str
        The shop's currency, for a new file.

    Returns
    -------
    list of str
        The suppliers that were written.
    """
    import tomlkit

    text = path.read_text(encoding="utf-8") if path.exists() else ""
    document = tomlkit.parse(text)
    if "currency" not in document and not text.strip():
        document["currency"] = currency
    suppliers = document.setdefault("supplier", tomlkit.table(is_super_table=True))
    written = []
    for name, headings in columns.items():
        table = suppliers.get(name)
        if table is None:
            table = tomlkit.table()
            suppliers[name] = table
        if "columns" in table:
            continue
        table["columns"] = tomlkit.table()
        for field, heading in headings.items():
            table["columns"][field] = heading
        written.append(name)
    if written:
        path.write_text(tomlkit.dumps(document), encoding="utf-8")
    return written
