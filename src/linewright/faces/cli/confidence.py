# SPDX-License-Identifier: Apache-2.0
"""``linewright confidence``: how sure one order is, and what would make it surer."""

import shutil
import sys
import textwrap
from collections.abc import Sequence
from decimal import Decimal, InvalidOperation
from pathlib import Path

from linewright.base.errors import OrderError
from linewright.base.money import Money
from linewright.car.model import Car
from linewright.faces.cli.order import Asked, chosen_for, print_table, put_json, shelf_of
from linewright.faces.cli.version import version
from linewright.sheets import confidence as sheets
from linewright.sheets.table import Table
from linewright.studies.case import case
from linewright.studies.confidence import confidence as counted
from linewright.studies.record import record_confidence
from linewright.studies.spares import Curve, curve, spares

#: A smaller chance than this says to measure first, and nothing of spares. [-]
_EARLY = 0.05

_WHEN = "Reckoned from when every port and every hose end is measured. "


def confidence(
    car: Path,
    asked: Asked,
    level: float | None = None,
    tied: Sequence[str] = (),
    second: str = "",
) -> int:
    """Tell how sure the order of a car is; return the exit code.

    ``level`` is the wanted chance in percent, ``tied`` are lists of ports with one cause,
    ``second`` is what a second order costs.
    """
    if level is not None and not 0 < level < 100:
        raise OrderError(f"--level {level:g} is no chance: write percent, as --level 90.")
    plan, order, market = chosen_for(car, asked)
    ties = _ties(plan.car, tied)
    currency = market.currency if order.total is not None else ""
    price = _second(second, currency)
    gathered = case(plan, order, market, ties, tell=_say, shelf=shelf_of(asked.shelf))
    found = counted(gathered, tell=_say)
    # Spares are of use once what is unknown has been measured and its parts are ordered, and
    # where next to nothing is known, once all of it is.
    is_early = found.known.share < _EARLY
    later = gathered.settled if is_early else gathered.measured
    points = curve(later, tell=_say)
    wanted = None if level is None else spares(later, level / 100)
    _say("")
    if asked.json is not None:
        written = record_confidence(plan.car, found, points, wanted, currency, version=version())
        put_json(written, asked.json)
    is_printed = str(asked.json) != "-"

    width = min(shutil.get_terminal_size((100, 40)).columns, 110)
    if is_printed:
        print(plan.car.name)
        print(textwrap.fill(sheets.headline(found), width))
    tables = [
        sheets.chance_table(found),
        *((sheets.elsewhere_table(found),) if found.elsewhere else ()),
        sheets.trouble_table(found),
        sheets.path_table(found) if found.unknown else sheets.measure_table(found),
        sheets.curve_table(points, currency, price, _WHEN if is_early else ""),
    ]
    if wanted is not None:
        names = {unit.code: unit.name for unit in gathered.units}
        tables.append(sheets.spares_table(wanted, names, currency))
    for table in tables if is_printed else ():
        print()
        print_table(table, width)
    if asked.out is not None:
        _write(plan.car, tables, asked.out, asked.paper)
        _draw(plan.car, points, currency, price, asked.out)
        if is_printed:
            print(f"\nWritten to {asked.out}.")
    return 0


def _ties(car: Car, tied: Sequence[str]) -> dict[str, str]:
    ties: dict[str, str] = {}
    for number, text in enumerate(tied, 1):
        ports = [part.strip() for part in text.split(",") if part.strip()]
        if len(ports) < 2:
            raise OrderError(f'--tie "{text}" names one port: tie two or more, as --tie A.in,B.in.')
        for port in ports:
            if car.port(port) is None:
                raise OrderError(f'--tie "{text}": "{port}" is no port of {car.name}.')
            if port in ties:
                raise OrderError(f'--tie "{text}": {port} is tied already; name all in one list.')
            ties[port] = f"tie {number}"
    return ties


def _second(text: str, currency: str) -> float | None:
    if not text:
        return None
    if not currency:
        raise OrderError("--second is money, and there are no offers: without them nothing is.")
    try:
        return float(Money.of(Decimal(text.replace(currency, "").strip()), currency).minor)
    except (InvalidOperation, ValueError) as error:
        raise OrderError(
            f'--second "{text}" is no amount of {currency}; write it as 60 or 60.00.'
        ) from error


def _write(car: Car, tables: Sequence[Table], folder: Path, paper: str) -> None:
    from linewright.faces.files.lists import csv_text
    from linewright.faces.files.pdf import tables_pdf
    from linewright.faces.files.whole import write_whole

    data = tables_pdf(car.name, car.sha256[:8], tables, paper=paper)
    write_whole(folder / "confidence.pdf", data)
    for table in tables:
        write_whole(folder / f"{table.name}.csv", csv_text(table, is_strict=True))


def _draw(car: Car, points: Curve, currency: str, price: float | None, folder: Path) -> None:
    from datetime import date

    from linewright.faces.files.svg import svg
    from linewright.faces.files.whole import write_whole
    from linewright.scene.plots import Page
    from linewright.scene.plots_confidence import draw_curve

    best = None
    if price is not None:
        best = min(
            range(len(points.points)), key=lambda i: sheets.expected(points.points[i], price)
        )
    page = Page(car.name, car.sha256[:8], date.today().isoformat())
    write_whole(folder / "confidence.svg", svg(draw_curve(points, currency, page, best)))


def _say(text: str) -> None:
    if sys.stderr.isatty():
        print(f"\r{text}\x1b[K", end="", file=sys.stderr, flush=True)
