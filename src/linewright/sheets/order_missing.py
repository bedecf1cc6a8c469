# SPDX-License-Identifier: Apache-2.0
"""What an order leaves out, told once for each reason."""

from linewright.base.shown import counted
from linewright.order.choose import what_of
from linewright.order.result import Order
from linewright.sheets.table import Align, Column, Table


def missing(order: Order) -> tuple[str, ...]:
    """Say what nobody sells, or too little of, under its reasons.

    Parameters
    ----------
    order : Order
        The order.

    Returns
    -------
    tuple of str
        A sentence, then each reason with what is short for it a line each, indented; nothing
        where all is in the order.

    Notes
    -----
    What comes late is in the order, and is not told here.
    """
    by_why: dict[str, list[str]] = {}
    for short in order.shorts:
        if not short.is_late:
            by_why.setdefault(short.why, []).append(what_of(short))
    if not by_why:
        return ()
    many = sum(len(found) for found in by_why.values())
    them = "it" if many == 1 else "them"
    lines = [
        f"ask  not-sold: {counted(many, 'thing')} {'is' if many == 1 else 'are'} not in the order. "
        f"Add offers for {them}; the rest of the order stands."
    ]
    for why, found in sorted(by_why.items(), key=lambda pair: (-len(pair[1]), pair[0])):
        lines.append(f"  {why}:")
        lines += [f"    {what}" for what in found]
    return tuple(lines)


def short_list(order: Order) -> Table:
    """List what is not in the order, or comes late, with why.

    Parameters
    ----------
    order : Order
        The order.

    Returns
    -------
    Table
        One row a part or hose.
    """
    return Table(
        "not-ordered",
        "Not in the order, or late",
        (
            Column("What", 3.4),
            Column("Missing", 0.7, Align.RIGHT),
            Column("Pieces", 1.4),
            Column("Why", 4.0),
        ),
        tuple(
            (
                f"{short.name}\n{short.code}" if short.name != short.code else short.code,
                str(short.missing) if short.missing else "reserve",
                ", ".join(short.runs),
                f"late: {short.why}" if short.is_late else short.why,
            )
            for short in order.shorts
        ),
        empty="All of it is ordered.",
    )
