# SPDX-License-Identifier: Apache-2.0
"""``linewright order``: what to buy of whom, what to cut from what; nothing is ever sent."""

import csv
import shutil
import sys
import textwrap
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

from linewright.base.errors import OrderError, UnitError
from linewright.base.ids import natural_key
from linewright.base.money import Money
from linewright.car.read import read
from linewright.faces.cli.version import version
from linewright.order.choose import choose
from linewright.order.model import Market, Shelf
from linewright.order.needs import split
from linewright.order.result import Order
from linewright.order.verify import verify
from linewright.order.wishes import Wishes, wishes
from linewright.plan.make import make
from linewright.plan.model import Plan
from linewright.sheets import order as sheets
from linewright.sheets.order_missing import missing, short_list
from linewright.sheets.order_names import names
from linewright.sheets.order_stops import stops
from linewright.sheets.table import Align, Table

#: Stops of the plan that are named above an order.
_STOPS_SHOWN = 8


@dataclass(frozen=True, slots=True)
class Asked:
    """What was typed on the command line."""

    offers: Sequence[Path] = ()
    terms: Path | None = None
    shelf: Path | None = None
    out: Path | None = None
    hold: Sequence[str] = ()
    is_unconfirmed_held: bool = False
    both: Sequence[str] = ()
    by: Sequence[str] = ()
    budget: str = ""
    seconds: float = 20.0
    paper: str = "a4"
    is_quick: bool = False
    in_space: bool = True
    json: Path | None = None


def order(car: Path, asked: Asked) -> int:
    """Choose an order for a car; return the exit code."""
    from linewright.plan.record_order import record_order

    plan, chosen, market = chosen_for(car, asked)
    if asked.json is not None:
        put_json(record_order(plan.car, chosen, version=version()), asked.json)
    is_printed = str(asked.json) != "-"
    if is_printed:
        show(plan, chosen, market)
    if asked.out is not None:
        _write(plan, chosen, market, asked.out, asked.paper.lower())
        if is_printed:
            print(f"\nWritten to {asked.out}. Nothing was sent to anybody.")
    return 1 if plan.stops else 0


def put_json(written: dict[str, Any], file: Path) -> None:
    """Write a record into a file; - prints it."""
    from linewright.faces.files.whole import write_whole
    from linewright.plan.record import dumps

    text = dumps(written)
    if str(file) == "-":
        sys.stdout.write(text)
    else:
        write_whole(file, text)


def chosen_for(car: Path, asked: Asked) -> tuple[Plan, Order, Market]:
    """Plan a car and choose its order, checked promise by promise."""
    if asked.paper.lower() not in ("a4", "letter"):
        raise UnitError(f'--paper "{asked.paper}" is not a paper of the pages; say a4 or letter.')
    if not asked.seconds > 0:
        raise OrderError(
            f"--seconds {asked.seconds:g} is no time to search: write more than 0, as --seconds 20."
        )
    market = market_of(asked.offers, asked.terms)
    _say("planning ...")
    plan = make(read(car), in_space=asked.in_space)
    market = recognised(market, plan, asked.offers)
    wished = _wishes(plan, asked, market)
    shelf = shelf_of(asked.shelf)
    _say("choosing ...")
    chosen = choose(plan.takeoff, market, shelf, wished, is_compared=not asked.is_quick)
    released, _ = split(plan.takeoff, wished)
    wrong = () if chosen.total is None else verify(chosen, released, market, shelf, wished)
    if wrong:
        raise AssertionError("the order breaks its own promises:\n" + "\n".join(wrong))
    _say("")
    return plan, chosen, market


def market_of(paths: Sequence[Path], terms: Path | None) -> Market:
    """Read offers; a folder means all files in it."""
    from linewright.desk import offers

    files, found = offers.files_of(paths)
    market = offers.read(files, terms or found)
    if files and not market.offers:
        rows = "\n".join(f"{told.place}: {told.reason}" for told in market.refused)
        raise OrderError(f"No offer could be read of {', '.join(str(f) for f in files)}.\n{rows}")
    return market


def recognised(market: Market, plan: Plan, paths: Sequence[Path]) -> Market:
    """Say what each offer is; what is not sure stays without a part and is not bought.

    Parameters
    ----------
    market : Market
        Offers as read.
    plan : Plan
        What is needed: an offer that names one of these codes is taken at its word.
    paths : Sequence of Path
        Where the offers were read; answers given before stand beside the first.

    Returns
    -------
    Market
        With our codes in its offers.
    """
    from linewright.desk import answers
    from linewright.order.answers import decide

    if not market.offers:
        return market
    beside = paths[0] if paths[0].is_dir() else paths[0].parent
    decided = decide(market, answers.read(beside / answers.NAME)).market
    known = {row.code for row in plan.takeoff.rows} | {row.code for row in plan.takeoff.hoses}
    known |= {row.code for either in plan.takeoff.either for row in either.rows}
    offers = tuple(
        said if said.part in known else found
        for said, found in zip(market.offers, decided.offers, strict=True)
    )
    return replace(market, offers=offers)


def _doubtful(market: Market) -> int:
    """How many offers may be parts, and are not sure enough to be bought unasked."""
    from linewright.order.recognise import Verdict, recognise

    left = [offer for offer in market.offers if offer.part is None]
    return sum(recognise(offer).verdict is Verdict.ASK for offer in left)


def shelf_of(path: Path | None) -> Shelf:
    """Read what the shop owns; nothing where no file is named."""
    if path is None:
        return Shelf()
    from linewright.desk import shelf

    return shelf.read(path)


def _wishes(plan: Plan, asked: Asked, market: Market) -> Wishes:
    ports = {either.port for either in plan.takeoff.either}
    for port in asked.both:
        if port not in ports and port != "all":
            known = ", ".join(sorted(ports, key=natural_key)) or "none"
            raise OrderError(
                f'--both "{port}" is no port that can be read in several ways. Such ports: {known}.'
            )
    codes = {row.code for row in plan.takeoff.rows} | {row.code for row in plan.takeoff.hoses}
    known_ids = codes | set(plan.car.systems) | set(plan.car.lines)
    for name in asked.hold:
        if name not in known_ids:
            raise OrderError(f'--hold "{name}" is no system, line or part of {plan.car.name}.')
    return replace(
        wishes(plan.car.settings),
        latest=_days(asked.by, plan.car.systems),
        budget=_budget(asked.budget, market.currency),
        hold=frozenset(asked.hold),
        is_unconfirmed_held=asked.is_unconfirmed_held,
        both=frozenset(ports if "all" in asked.both else asked.both),
        seconds=asked.seconds,
        show=plan.car.show,
    )


def _budget(text: str, currency: str) -> Money | None:
    if not text:
        return None
    number = text.replace(currency, "").strip()
    try:
        return Money.of(Decimal(number), currency)
    except (InvalidOperation, ValueError) as error:
        raise OrderError(
            f'--budget "{text}" is no amount of {currency}; write it as 850 or 850.00.'
        ) from error


def _days(said: Sequence[str], systems: Mapping[str, object]) -> tuple[tuple[str, int], ...]:
    found = []
    for text in said:
        system, _, when = text.partition("=")
        if system not in systems:
            known = ", ".join(sorted(systems)) or "none"
            raise OrderError(f'--by "{text}": "{system}" is no system. Systems: {known}.')
        if when.isascii() and when.isdigit():
            found.append((system, int(when)))
            continue
        try:
            day = date.fromisoformat(when)
        except ValueError as error:
            raise OrderError(
                f'--by "{text}": write days from today or a date, as oil=14 or oil=2031-05-20.'
            ) from error
        found.append((system, (day - date.today()).days))
    return tuple(sorted(found))


def _say(text: str) -> None:
    if sys.stderr.isatty():
        print(f"\r{text}\x1b[K", end="", file=sys.stderr, flush=True)


def show(plan: Plan, chosen: Order, market: Market) -> None:
    """Print the order: by supplier, other ways to buy it, what is missing."""
    width = min(shutil.get_terminal_size((100, 40)).columns, 110)

    def wrapped(text: str, indent: str = "") -> None:
        print(textwrap.fill(text, width, initial_indent=indent, subsequent_indent=indent))

    print(plan.car.name)
    if plan.stops:
        wrapped(_stopped(plan))
        for finding in plan.stops[:_STOPS_SHOWN]:
            wrapped(f"{finding.code}: {', '.join(finding.about)}", "  ")
        if len(plan.stops) > _STOPS_SHOWN:
            wrapped(f"and {len(plan.stops) - _STOPS_SHOWN} more: linewright plan tells all", "  ")
    print()
    if chosen.total is None:
        print_table(sheets.whole_list(chosen), width)
    else:
        print_table(sheets.by_supplier(chosen), width, last_below=True)
        print()
        print_table(sheets.trade_off(chosen), width)
    for table in (sheets.both_table(chosen), sheets.shelf_list(chosen)):
        if table.rows:
            print()
            print_table(table, width)
    holding = chosen.holding
    if holding is not None:
        print()
        if holding.more is None:
            wrapped(f"Held: {', '.join(holding.held)}. What is held can not be bought as offered.")
        else:
            wrapped(
                f"Held: {', '.join(holding.held)}. The rest will cost {holding.later}; buying it "
                f"apart costs {holding.more} more, of it {holding.shipping} shipping."
            )
    if chosen.findings:
        print()
        for finding in chosen.findings:
            if finding.code == "not-sold":
                continue  # in one block below
            wrapped(f"{finding.severity}  {finding.code}: {finding.reason}")
    lacks = missing(chosen)
    if lacks:
        wrapped(lacks[0])
        for line in lacks[1:]:
            indent = " " * (len(line) - len(line.lstrip()))
            print(textwrap.fill(line, width, subsequent_indent=f"{indent}  "))
    doubtful = _doubtful(market)
    other = sum(offer.part is None for offer in market.offers) - doubtful
    print()
    unread = [told for told in market.refused if told.is_file]
    if unread:
        print("Lists that could not be read, so that nothing of them is in the order:")
        for told in unread:
            wrapped(f"{told.place}: {told.reason}", "  ")
    if len(market.refused) > len(unread):
        wrapped(
            f"Rows of the offers that could not be read: {len(market.refused) - len(unread)}; "
            "linewright offers tells why."
        )
    if doubtful:
        wrapped(
            f"{_many(doubtful)} may be a part of this car or may not, left out: see "
            "linewright offers, which asks about each."
        )
    if other > 0:
        wrapped(f"{_many(other)} left out: nothing that a car is plumbed with, or not understood.")
    for said in chosen.assumed:
        wrapped(f"· {said}")


def _stopped(plan: Plan) -> str:
    many = "1 stop" if len(plan.stops) == 1 else f"{len(plan.stops)} stops"
    what = "what it is about is" if len(plan.stops) == 1 else "what they are about is"
    return (
        f"The plan has {many}: {what} not to be ordered. Hold it with --hold, or settle it first."
    )


def _many(count: int) -> str:
    return "1 offer" if count == 1 else f"{count} offers"


def print_table(table: Table, width: int, *, last_below: bool = False) -> None:
    """Print a table; the last column of a wide one stands below its row."""
    print(f"{table.title}:")
    below = table.columns[-1] if last_below else None
    # Boxes to tick and long lists of ids are for paper.
    shown = [
        i
        for i, column in enumerate(table.columns)
        if column.head and column.head != "Asked for by" and column is not below
    ]
    columns = [table.columns[i] for i in shown]
    rows = [[row[i].split("\n")[-1] for i in shown] for row in table.rows]
    heads = [column.head for column in columns]
    widths = [max([len(head), *(len(row[i]) for row in rows)]) for i, head in enumerate(heads)]
    groups = dict(table.groups)

    def line(cells: Sequence[str]) -> str:
        said = [
            cell.rjust(w) if column.align is Align.RIGHT else cell.ljust(w)
            for cell, w, column in zip(cells, widths, columns, strict=True)
        ]
        return "  " + "  ".join(said).rstrip()

    if table.rows:
        print(line(heads))
    for number, row in enumerate(rows):
        if number in groups:
            print(f"  {groups[number]}")
        text = line(row)
        print(
            textwrap.fill(text, max(width, 60), subsequent_indent="      ")
            if len(text) > width
            else text
        )
        if below is not None and table.rows[number][-1]:
            said = table.rows[number][-1]
            print(textwrap.fill(said, width, initial_indent="      ", subsequent_indent="      "))
    if not table.rows:
        print(f"  {table.empty}")
    elif table.note:
        print(textwrap.fill(table.note, width))


def _drop_old(folder: Path, written: set[str]) -> None:
    """Delete the papers of an earlier order here to suppliers of whom nothing is ordered now.

    Only what the summary of that order names: everything else in the folder is somebody's own.
    """
    if "order-stops" not in written:
        (folder / "order-stops.csv").unlink(missing_ok=True)
    summary = folder / "order-summary.csv"
    if not summary.is_file():
        return
    rows = list(csv.reader(summary.read_text(encoding="utf-8-sig").splitlines()))
    for name in names(row[0] for row in rows[1:] if row).values():
        if name not in written:
            for ending in (".csv", ".pdf"):
                (folder / f"{name}{ending}").unlink(missing_ok=True)


def _write(plan: Plan, chosen: Order, market: Market, folder: Path, paper: str) -> None:
    from linewright.faces.files.lists import csv_text, workbook
    from linewright.faces.files.pdf import tables_pdf
    from linewright.faces.files.whole import write_whole

    def pdf(name: str, tables: Sequence[Table]) -> None:
        data = tables_pdf(plan.car.name, plan.car.sha256[:8], tables, paper=paper)
        write_whole(folder / f"{name}.pdf", data)

    stopped = (stops(plan),) if plan.stops else ()
    lists: tuple[Table, ...]
    if chosen.total is None:
        lists = (*stopped, sheets.whole_list(chosen), sheets.shelf_list(chosen))
        pdf("to-buy", lists)
    else:
        named = names(box.supplier for box in chosen.boxes)
        boxes = tuple(sheets.box_table(box, named[box.supplier]) for box in chosen.boxes)
        plans = (sheets.cutting_plan(chosen, plan.car.show), sheets.shelf_list(chosen))
        first = (sheets.by_supplier(chosen), sheets.trade_off(chosen), short_list(chosen))
        either = (sheets.both_table(chosen),) if chosen.both else ()
        pdf("order", (*stopped, *first, *either, *plans))
        for table in boxes:
            pdf(table.name, (table,))
        check = sheets.check_list(chosen, plan.car.show)
        pdf("check-list", (check, *plans))
        lines = sheets.order_lines(chosen, market)
        lists = (*stopped, *first, *either, lines, *boxes, *plans, check)
    _drop_old(folder, {table.name for table in lists})
    for table in lists:
        write_whole(folder / f"{table.name}.csv", csv_text(table, is_strict=True))
    write_whole(folder / "order.xlsx", workbook(lists))
