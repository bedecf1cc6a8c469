# SPDX-License-Identifier: Apache-2.0
"""An order as JSON values: money as text with its currency, lengths in metres."""

from linewright.base.evidence import Grade
from linewright.base.finding import Finding, Severity
from linewright.base.money import Money
from linewright.car.model import Car
from linewright.order.goods import Short
from linewright.order.result import Both, Box, Choice, Length, Order, OrderLine
from linewright.plan.record import tables_digest
from linewright.plan.shapes import (
    COUNT,
    MAYBE_COUNT,
    MAYBE_NUMBER,
    MONEY,
    NUMBER,
    TEXT,
    YES_NO,
    Json,
    headed,
    keyed,
    many,
    maybe,
)

#: Version of the meaning of the keys; a new key keeps it, a changed one raises it.
FORMAT = 1


def head(car: Car, kind: str, form: int, version: str) -> Json:
    """Write what every record begins with.

    Parameters
    ----------
    car : Car
        Whose record it is.
    kind : str
        What it records.
    form : int
        Version of the meaning of its keys.
    version : str
        Version of linewright that made it.

    Returns
    -------
    dict
        Version, format, kind, and digests of the document and of the tables.
    """
    return {
        "linewright": version,
        "format": form,
        "kind": kind,
        "document": {"name": car.name, "sha256": car.sha256},
        "tables": {"sha256": tables_digest()},
    }


def record_order(car: Car, order: Order, *, version: str) -> Json:
    """Write an order down as JSON values.

    Parameters
    ----------
    car : Car
        The car that it is for.
    order : Order
        What to record.
    version : str
        Version of linewright that made it.

    Returns
    -------
    dict
        Keys as in docs/reference/order-json.md; null where there is none.
    """
    proof, holding = order.proof, order.holding
    return {
        **head(car, "order", FORMAT, version),
        "currency": order.currency,
        "total": price(order.total),
        "proof": proof
        and {
            "price": price(proof.price),
            "bound": price(proof.bound),
            "gap": proof.gap,
            "optimal": proof.is_optimal,
        },
        "boxes": [_box(box) for box in order.boxes],
        "cuts": [_cut(cut) for cut in order.cuts],
        "shelf": [
            {"bin": use.bin, "part": use.part, "count": use.count, "stands_for": use.stands_for}
            for use in order.from_shelf
        ],
        "shorts": [_short(short) for short in order.shorts],
        "simpler": [_choice(choice) for choice in order.simpler],
        "trade_off": [_choice(choice) for choice in order.trade_off],
        "holding": holding
        and {
            "held": list(holding.held),
            "later": price(holding.later),
            "more": price(holding.more),
            "shipping": price(holding.shipping),
        },
        "both": [_both(both) for both in order.both],
        "listed": [
            {
                "group": row.group,
                "code": row.code,
                "name": row.name,
                "count": row.count,
                "price_index": row.price_index,
                "because": list(row.because),
            }
            for row in order.listed
        ],
        "findings": [_finding(finding) for finding in order.findings],
        "assumed": list(order.assumed),
    }


def price(money: Money | None) -> Json | None:
    """Write an amount as text, with its currency.

    Parameters
    ----------
    money : Money or None
        The amount.

    Returns
    -------
    dict or None
        None where there is none.
    """
    if money is None:
        return None
    return {"amount": str(money.amount), "currency": money.currency}


def _box(box: Box) -> Json:
    return {
        "supplier": box.supplier,
        "goods": price(box.goods),
        "shipping": price(box.shipping),
        "tax": price(box.tax),
        "total": price(box.total),
        "whole": price(box.whole),
        "rate": box.rate,
        "days": box.days,
        "why": list(box.why),
        "lines": [_line(line) for line in box.lines],
    }


def _line(line: OrderLine) -> Json:
    is_long = line.is_length
    return {
        "number": line.number,
        "description": line.description,
        "part": line.part,
        "count": line.count,
        "unit": line.unit,
        "price": price(line.price),
        "total": price(line.total),
        "pieces": None if is_long else round(line.gives),
        "length_m": round(line.gives, 9) if is_long else None,
        "surplus_pieces": None if is_long else round(line.surplus),
        "surplus_m": round(line.surplus, 9) if is_long else None,
        "days": line.days,
        "days_assumed": line.is_assumed,
        "stock_assumed": line.is_stock_assumed,
        "because": list(line.because),
        "stands_for": [{"part": part, "count": count} for part, count in line.stands_for],
        "refund": line.refund,
        "note": line.note,
    }


def _cut(cut: Length) -> Json:
    return {
        "part": cut.part,
        "source": cut.source,
        "which": cut.which,
        "length_m": round(cut.length, 9),
        "pieces": [{"run": run, "length_m": round(long, 9)} for run, long in cut.pieces],
        "left_m": round(cut.left, 9),
        "kept": cut.is_useful,
        "owned": cut.is_owned,
    }


def _short(short: Short) -> Json:
    return {
        "code": short.code,
        "name": short.name,
        "missing": short.missing,
        "runs": list(short.runs),
        "late": short.is_late,
        "why": short.why,
    }


def _choice(choice: Choice) -> Json:
    return {
        "name": choice.name,
        "price": price(choice.price),
        "more": price(choice.more),
        "days": choice.days,
        "boxes": choice.boxes,
        "suppliers": list(choice.suppliers),
        "proved": choice.is_proved,
        "why": choice.why,
    }


def _both(both: Both) -> Json:
    return {
        "port": both.port,
        "readings": list(both.readings),
        "gross": price(both.gross),
        "back": price(both.back),
        "net": price(both.net),
        "ordered": both.is_ordered,
        "missing": list(both.missing),
        "return_days": both.until_days,
        "without": list(both.without),
    }


def _finding(finding: Finding) -> Json:
    return {
        "code": finding.code,
        "severity": finding.severity.value,
        "about": list(finding.about),
        "reason": finding.reason,
        "remedy": finding.remedy,
        "value": finding.value,
        "limit": finding.limit,
        "grade": finding.grade.value,
    }


def schema_order() -> Json:
    """Return the schema of what `record_order` writes.

    Returns
    -------
    dict
        JSON Schema, draft 2020-12; keys that it does not name do not occur.
    """
    sum_, text, words = maybe(MONEY), TEXT, many(TEXT)
    maybe_text: Json = {"type": ["string", "null"]}
    line = keyed(
        number=text,
        description=text,
        part=text,
        count=COUNT,
        unit=text,
        price=MONEY,
        total=MONEY,
        pieces=MAYBE_COUNT,
        length_m=MAYBE_NUMBER,
        surplus_pieces=MAYBE_COUNT,
        surplus_m=MAYBE_NUMBER,
        days=COUNT,
        days_assumed=YES_NO,
        stock_assumed=YES_NO,
        because=words,
        stands_for=many(keyed(part=text, count=COUNT)),
        refund=text,
        note=text,
    )
    box = keyed(
        **dict.fromkeys(("goods", "shipping", "tax", "total", "whole"), MONEY),
        supplier=text,
        rate=text,
        days=COUNT,
        why=words,
        lines=many(line),
    )
    cut = keyed(
        part=text,
        source=text,
        which=COUNT,
        length_m=NUMBER,
        pieces=many(keyed(run=text, length_m=NUMBER)),
        left_m=NUMBER,
        kept=YES_NO,
        owned=YES_NO,
    )
    choice = keyed(
        name=text,
        price=sum_,
        more=sum_,
        days=MAYBE_COUNT,
        boxes=MAYBE_COUNT,
        suppliers=words,
        proved=YES_NO,
        why=text,
    )
    finding = keyed(
        code=text,
        severity={"enum": [s.value for s in Severity]},
        about=words,
        reason=text,
        remedy=text,
        value=maybe_text,
        limit=maybe_text,
        grade={"enum": [g.value for g in Grade]},
    )
    both = keyed(
        **dict.fromkeys(("gross", "back", "net"), MONEY),
        port=text,
        readings=words,
        ordered=YES_NO,
        missing=words,
        return_days=MAYBE_COUNT,
        without=words,
    )
    listed = keyed(
        group=text, code=text, name=text, count=text, price_index=MAYBE_NUMBER, because=words
    )
    short = keyed(code=text, name=text, missing=COUNT, runs=words, late=YES_NO, why=text)
    return headed(
        "order",
        FORMAT,
        "An order of linewright",
        currency=text,
        total=sum_,
        proof=maybe(keyed(price=MONEY, bound=MONEY, gap=NUMBER, optimal=YES_NO)),
        boxes=many(box),
        cuts=many(cut),
        shelf=many(keyed(bin=text, part=text, count=COUNT, stands_for=text)),
        shorts=many(short),
        simpler=many(choice),
        trade_off=many(choice),
        holding=maybe(keyed(held=words, later=sum_, more=sum_, shipping=sum_)),
        both=many(both),
        listed=many(listed),
        findings=many(finding),
        assumed=words,
    )
