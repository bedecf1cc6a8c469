# SPDX-License-Identifier: Apache-2.0
"""The order as tables: by supplier, the trade-off, the cutting plan, the check list."""

from linewright.base.ids import natural_key
from linewright.base.shown import counted
from linewright.order.model import Market
from linewright.order.result import Box, Choice, Order
from linewright.sheets import figures
from linewright.sheets.table import Align, Column, Table

_RIGHT = Align.RIGHT


def ids(because: tuple[str, ...], most: int = 6) -> str:
    """Ids that ask for a line, cut short: the parts list has them all.

    Parameters
    ----------
    because : tuple of str, ...
        Ids.
    most : int
        How many at most.

    Returns
    -------
    str
        The ids in one text.
    """
    named = sorted(because, key=natural_key)
    more = f" and {len(named) - most} more" if len(named) > most else ""
    return ", ".join(named[:most]) + more


def by_supplier(order: Order) -> Table:
    """Sum up the order, a row a box.

    Parameters
    ----------
    order : Order
        The order.

    Returns
    -------
    Table
        With the sum in its note.
    """
    rows = []
    for box in order.boxes:
        rows.append(
            (
                box.supplier,
                str(len(box.lines)),
                str(box.goods),
                str(box.shipping),
                str(box.tax) if box.tax.minor else "–",
                str(box.whole),
                counted(box.days, "day"),
                "; ".join(box.why),
            )
        )
    total = f"In all {order.total} with shipping and tax. " if order.total else ""
    return Table(
        "order-summary",
        "Order by supplier",
        (
            Column("Supplier", 1.6),
            Column("Lines", 0.5, _RIGHT),
            Column("Goods", 1.1, _RIGHT),
            Column("Shipping", 1.0, _RIGHT),
            Column("Tax", 0.9, _RIGHT),
            Column("To pay", 1.2, _RIGHT),
            Column("There in", 0.8, _RIGHT),
            Column("Why", 3.6),
        ),
        tuple(rows),
        note=f"{total}{proved(order)}".strip(),
        empty="Nothing to buy.",
    )


def proved(order: Order) -> str:
    """Say how good the order is, in a sentence.

    Parameters
    ----------
    order : Order
        The order.

    Returns
    -------
    str
        The sentence; empty where nothing was ordered.
    """
    if order.proof is None:
        return ""
    if order.proof.is_optimal:
        return "Proved: no order of these offers that covers the same costs less."
    return (
        f"Not proved: a cheaper order may exist, but none below {order.proof.bound} "
        f"({order.proof.gap:.2%} less)."
    )


def box_table(box: Box, name: str) -> Table:
    """List what is ordered of one supplier.

    Parameters
    ----------
    box : Box
        Its part of the order.
    name : str
        What the list is called, as a file.

    Returns
    -------
    Table
        One row a line; sums in the note.
    """
    rows = []
    for line in box.lines:
        notes = [f"in place of {count} {asked}" for asked, count in line.stands_for if count]
        notes += [line.note] if line.note else []
        if line.surplus and not line.is_length:
            notes.append(f"{line.surplus:g} more than asked for")
        notes.append(line.refund)
        about = " (assumed)" if line.is_assumed else ""
        rows.append(
            (
                line.number or "–",
                f"{line.description}\n{line.part}",
                str(line.count),
                line.unit,
                str(line.price),
                str(line.total),
                f"{counted(line.days, 'day')}{about}",
                ids(line.because),
                "; ".join(notes),
            )
        )
    sums = f"Goods {box.goods}, shipping {box.shipping}"
    sums += f", tax {box.tax}" if box.tax.minor else ""
    sums += f". To pay {box.total}"
    sums += f", that is {box.whole} at {box.rate}." if box.rate else "."
    return Table(
        name,
        f"Order: {box.supplier}",
        (
            Column("Number", 1.1),
            Column("What, and its code", 3.4),
            Column("Count", 0.6, _RIGHT),
            Column("Unit", 1.0),
            Column("Price", 1.0, _RIGHT),
            Column("Sum", 1.0, _RIGHT),
            Column("There in", 0.9),
            Column("Asked for by", 1.9),
            Column("Note", 1.9),
        ),
        tuple(rows),
        note=f"{sums} Nothing is sent: order it yourself, and check stock and price first.",
        is_wide=True,
    )


def trade_off(order: Order) -> Table:
    """Show the order beside others: cheapest, soonest, fewest boxes, one and two suppliers.

    Parameters
    ----------
    order : Order
        The order with what it was compared with.

    Returns
    -------
    Table
        One row a choice.
    """
    return Table(
        "trade-off",
        "Other ways to buy it",
        (
            Column("Choice", 1.5),
            Column("To pay", 1.2, _RIGHT),
            Column("More", 1.1, _RIGHT),
            Column("All there in", 0.9, _RIGHT),
            Column("Boxes", 0.6, _RIGHT),
            Column("Suppliers, or why not", 4.0),
        ),
        tuple(_choice(each) for each in (*order.trade_off, *order.simpler)),
        empty="Not compared.",
    )


def _choice(choice: Choice) -> tuple[str, ...]:
    if choice.price is None or choice.more is None:
        return choice.name, "–", "–", "–", "–", choice.why
    more = str(choice.more) if choice.more.minor else "–"
    unproved = "" if choice.is_proved else " (not proved the cheapest)"
    return (
        choice.name,
        str(choice.price),
        more,
        counted(choice.days or 0, "day"),
        str(choice.boxes),
        ", ".join(choice.suppliers) + unproved,
    )


def cutting_plan(order: Order, show: str = "metric") -> Table:
    """List each length with the pieces that are cut from it.

    Parameters
    ----------
    order : Order
        The order.
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    Table
        Grouped by hose; the longest piece is cut first.
    """
    rows: list[tuple[str, ...]] = []
    groups: list[tuple[int, str]] = []
    for cut in order.cuts:
        if not groups or groups[-1][1] != cut.part:
            groups.append((len(rows), cut.part))
        left = "nothing"
        if cut.left > 0:
            left = f"{figures.length(cut.left, show)} {'kept' if cut.is_useful else 'scrap'}"
        rows.append(
            (
                "□",
                f"{cut.source}{f', no. {cut.which}' if cut.which > 1 else ''}",
                figures.length(cut.length, show),
                ", ".join(
                    f"{run} {figures.length(long, show, unit=False)}" for run, long in cut.pieces
                )
                or "whole",
                left,
            )
        )
    return Table(
        "cutting-plan",
        "What to cut from what",
        (
            Column("", 0.2),
            Column("From", 2.4),
            Column("Length", 0.9, _RIGHT),
            Column(f"Pieces ({'in' if show == 'inch' else 'mm'})", 4.0),
            Column("Left", 1.1, _RIGHT),
        ),
        tuple(rows),
        note="Lengths to reckon with, cutting allowance included: mark each hose on the car "
        "before it is cut.",
        empty="Nothing to cut.",
        groups=tuple(groups),
    )


def shelf_list(order: Order) -> Table:
    """List what is taken from the shelf, by bin.

    Parameters
    ----------
    order : Order
        The order.

    Returns
    -------
    Table
        One row a bin and part.
    """
    return Table(
        "from-shelf",
        "From the shelf",
        (
            Column("", 0.2),
            Column("Bin", 1.0),
            Column("Part", 3.5),
            Column("Count", 0.6, _RIGHT),
            Column("In place of", 3.0),
        ),
        tuple(
            (
                "□",
                use.bin,
                use.part,
                str(use.count),
                "" if use.part == use.stands_for else use.stands_for,
            )
            for use in order.from_shelf
        ),
        empty="Nothing of what is needed is on the shelf.",
    )


def check_list(order: Order, show: str = "metric") -> Table:
    """List what has to be in each box, to be ticked when it arrives.

    Parameters
    ----------
    order : Order
        The order.
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    Table
        Grouped by supplier, with room for what came.
    """
    rows: list[tuple[str, ...]] = []
    groups: list[tuple[int, str]] = []
    for box in order.boxes:
        groups.append(
            (
                len(rows),
                f"{box.supplier}: {counted(len(box.lines), 'line')}, {counted(box.days, 'day')}",
            )
        )
        for line in box.lines:
            many = figures.run(line.gives, show) if line.is_length else f"{line.gives:g}"
            rows.append(("□", line.number or "–", f"{line.description}\n{line.part}", many, "", ""))
    return Table(
        "check-list",
        "Check list for the boxes",
        (
            Column("", 0.2),
            Column("Number", 1.2),
            Column("What, and its code", 4.0),
            Column("Pieces", 0.8, _RIGHT),
            Column("Came", 0.8),
            Column("Bin", 0.8),
        ),
        tuple(rows),
        note="Try each thread by hand and look at each seat before it goes into its bin.",
        groups=tuple(groups),
    )


def whole_list(order: Order) -> Table:
    """List all that is needed where there are no offers: counts and index prices, no money.

    Parameters
    ----------
    order : Order
        An order without offers.

    Returns
    -------
    Table
        By family and size. There is no sum.
    """
    rows: list[tuple[str, ...]] = []
    groups: list[tuple[int, str]] = []
    for row in order.listed:
        if not groups or groups[-1][1] != row.group:
            groups.append((len(rows), row.group))
        index = "–" if row.price_index is None else f"{row.price_index:.2f}"
        rows.append(("□", f"{row.name}\n{row.code}", row.count, index, ids(row.because)))
    return Table(
        "to-buy",
        "All that is needed",
        (
            Column("", 0.2),
            Column("Part and its code", 4.4),
            Column("Count", 1.2, _RIGHT),
            Column("Price index", 0.8, _RIGHT),
            Column("Asked for by", 2.8),
        ),
        tuple(rows),
        note="No offers were given. The price index compares parts (a straight -6 hose end is 1); "
        "it is no money, and its sum is none either.",
        empty="Nothing to buy.",
        groups=tuple(groups),
    )


def both_table(order: Order) -> Table:
    """List what covering every reading of an open port costs, net of what goes back.

    Parameters
    ----------
    order : Order
        The order.

    Returns
    -------
    Table
        One row a port.
    """
    rows = []
    for both in order.both:
        # Parts that nobody sells cost nothing, and that is no price.
        is_unsold = bool(both.missing) and not both.gross.minor
        state = "in the order" if both.is_ordered else f"add with --both {both.port}"
        if both.until_days is not None:
            state += f"; send back within {counted(both.until_days, 'day')}"
        if both.missing:
            state += f"; nobody sells {', '.join(both.missing)}"
        rows.append(
            (
                both.port,
                " or ".join(
                    (*both.readings, *(f"{reading} (no part fits)" for reading in both.without))
                ),
                *(("–",) * 3 if is_unsold else (str(both.gross), str(both.back), str(both.net))),
                state,
            )
        )
    return Table(
        "order-both",
        "Ports that can be read in several ways",
        (
            Column("Port", 1.2),
            Column("Readings", 2.6),
            Column("All of them", 1.0, _RIGHT),
            Column("Comes back", 1.0, _RIGHT),
            Column("Net", 1.0, _RIGHT),
            Column("", 2.4),
        ),
        tuple(rows),
        note="What comes back is expected with each reading as likely as the others.",
        empty="None.",
    )


def order_lines(order: Order, market: Market) -> Table:
    """Every line of every box in one table, for a spreadsheet.

    Parameters
    ----------
    order : Order
        The order.
    market : Market
        Where offers were read.

    Returns
    -------
    Table
        One row a line, sums as plain numbers with their currency beside them.
    """
    places = {(offer.supplier, offer.number, offer.part): offer.place for offer in market.offers}
    rows = tuple(
        (
            box.supplier,
            line.number,
            line.description,
            line.part,
            str(line.count),
            line.unit,
            f"{line.price.amount}",
            f"{line.total.amount}",
            box.goods.currency,
            str(line.days),
            ", ".join(line.because),
            places.get((box.supplier, line.number, line.part), ""),
        )
        for box in order.boxes
        for line in box.lines
    )
    heads = (
        "Supplier", "Number", "Description", "Our code", "Count", "Unit", "Price", "Sum",
        "Currency", "Days", "Asked for by", "Read from",
    )  # fmt: skip
    return Table("order-lines", "All lines", tuple(Column(head) for head in heads), rows)
