# SPDX-License-Identifier: Apache-2.0
"""``linewright offers``: what suppliers offer, what it is, and what has to be asked."""

import json
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from linewright.base.errors import OrderError
from linewright.desk import answers as desk_answers
from linewright.desk.offers import files_of, read_all
from linewright.desk.terms import remember
from linewright.order.answers import Answer, Decided, Seen, decide
from linewright.order.model import Offer, SoldAs

#: So many rows of each sort are printed; the JSON has all.
_MOST = 40


@dataclass(frozen=True, slots=True)
class Asked:
    """What was typed beside the car and the files."""

    terms: Path | None = None
    answers: Path | None = None
    yes: Sequence[str] = ()
    no: Sequence[str] = ()
    who: str = ""
    is_remembered: bool = False
    json: Path | None = None
    is_all: bool = False


def offers(car: str, paths: Sequence[Path], asked: Asked) -> int:
    """Print what each row is, the questions and the refused rows; return the exit code."""
    files, found = files_of(paths)
    terms = asked.terms or found
    place = asked.answers or _beside(paths) / desk_answers.NAME
    loaded = read_all(files, terms)
    needed = None if car == "-" else _needed(Path(car))
    known = needed or {}
    decided = decide(loaded.market, desk_answers.read(place), known)
    if asked.yes or asked.no:
        new = tuple(_answers(decided, asked))
        desk_answers.add(place, new)
        print(f"{_many(len(new), 'answer')} written to {place.name}.")
        decided = decide(loaded.market, desk_answers.read(place), known)
    if asked.is_remembered:
        target = terms or _beside(paths) / "suppliers.toml"
        written = remember(target, loaded.columns, loaded.market.currency)
        print(f"Columns of {', '.join(written) or 'no new supplier'} written to {target.name}.")
    if asked.json is not None:
        text = json.dumps(record(decided, needed), indent=2, ensure_ascii=False) + "\n"
        if str(asked.json) == "-":
            sys.stdout.write(text)
            return 0
        from linewright.faces.files.whole import write_whole

        write_whole(asked.json, text)
        print(f"Written: {asked.json}")
    _print(decided, needed, loaded.columns, is_all=asked.is_all)
    return 0


def _beside(paths: Sequence[Path]) -> Path:
    first = paths[0]
    return first if first.is_dir() else first.parent


def _needed(car: Path) -> dict[str, str]:
    """What the car takes: names by code."""
    from linewright.car.read import read
    from linewright.plan.make import make

    takeoff = make(read(car), in_space=False).takeoff
    named = {row.code: row.name for row in takeoff.rows}
    return named | {row.code: row.name for row in takeoff.hoses}


def _answers(decided: Decided, asked: Asked) -> list[Answer]:
    waiting = {each.question: each for each in decided.questions}
    when = datetime.now(UTC).isoformat(timespec="seconds")
    found = []
    for text, is_yes in [*((t, True) for t in asked.yes), *((t, False) for t in asked.no)]:
        question, _, code = text.partition("=")
        each = waiting.get(question)
        if each is None:
            raise OrderError(
                f'"{text}" is no question that is asked; the questions are '
                f"{', '.join(list(waiting)[:12]) or 'none'}."
            )
        offer = each.offer
        part = code or each.codes[0]
        found.append(
            Answer(offer.supplier, offer.number, offer.description, part, is_yes, asked.who, when)
        )
    return found


def _unit(offer: Offer) -> str:
    if offer.sold_as is SoldAs.PIECES:
        return "each" if offer.pack == 1 else f"pack of {offer.pack}"
    length = offer.length or 0.0
    named = {0.3048: "per ft", 1.0: "per m"}.get(length) if offer.sold_as is SoldAs.CUT else None
    return named or f"{length:g} m {'steps' if offer.sold_as is SoldAs.CUT else 'coil'}"


def record(decided: Decided, needed: dict[str, str] | None = None) -> dict[str, Any]:
    """All offers as JSON has them.

    Parameters
    ----------
    decided : Decided
        Offers with what they are.
    needed : dict, optional
        Names by code of what the car takes.

    Returns
    -------
    dict
        ``offers``, ``questions``, ``refused``, ``noted``; amounts are text, as typed.
    """
    market = decided.market
    return {
        "currency": market.currency,
        "offers": [
            {
                "place": each.offer.place,
                "supplier": each.offer.supplier,
                "number": each.offer.number,
                "description": each.offer.description,
                "price": str(each.offer.price.amount),
                "currency": each.offer.price.currency,
                "sold_as": each.offer.sold_as.value,
                "pack": each.offer.pack,
                "length_m": each.offer.length,
                "stock": each.offer.stock,
                "lead_days": each.offer.lead_days,
                "part": each.part,
                "is_needed": None if needed is None else each.part in needed,
                "how": each.how,
                "score": each.score,
                "why": each.why,
                "maybe": list(each.codes),
                "question": each.question or None,
            }
            for each in decided.seen
        ],
        "refused": [
            {"place": told.place, "text": told.text, "reason": told.reason}
            for told in market.refused
        ],
        "noted": [
            {"place": told.place, "text": told.text, "reason": told.reason} for told in market.noted
        ],
    }


def _print(
    decided: Decided,
    needed: dict[str, str] | None,
    columns: Mapping[str, Mapping[str, str]],
    *,
    is_all: bool,
) -> None:
    market = decided.market
    counts = dict.fromkeys(("accepted", "answered", "ask", "other"), 0)
    for each in decided.seen:
        counts[each.how] += 1
    print(
        f"{_many(len(decided.seen), 'offer')} of {_many(len(market.suppliers), 'supplier')}: "
        f"{counts['accepted']} recognised, {counts['answered']} answered, "
        f"{counts['ask']} to ask, {counts['other']} nothing of ours; "
        f"{_many(len(market.refused), 'row')} refused."
    )
    most = None if is_all else _MOST
    settled = [each for each in decided.seen if each.part]
    if needed is not None:
        settled = [each for each in settled if each.part in needed]
        print(f"Of what the car takes, {len({e.part for e in settled})} of {len(needed)} are here.")
    _rows("Columns, as they were taken", [_taken(*each) for each in sorted(columns.items())], most)
    _rows("Recognised", [_settled(each) for each in settled], most)
    _rows("To ask (answer with --yes ID or --no ID)", [_asked(e) for e in decided.questions], most)
    lengths = [
        f"{e.offer.id}: {e.offer.description}\n      {_LENGTH}" for e in settled if _is_bare(e)
    ]
    _rows("To ask of the supplier", lengths, most)
    _rows("Refused", [f"{t.place}: {t.reason}" for t in market.refused], most)
    _rows("Loaded, with something open", [f"{t.place}: {t.reason}" for t in market.noted], most)


def _many(count: int, word: str) -> str:
    return f"{count} {word}" if count == 1 else f"{count} {word}s"


def _taken(supplier: str, headings: Mapping[str, str]) -> str:
    said = ", ".join(f'{field} is "{heading}"' for field, heading in headings.items())
    return f"{supplier}: {said}"


#: Asked of a hose that is sold by the piece.
_LENGTH = (
    "how long is one? It is a hose, sold each, with no length: say per m, per ft or the length "
    "in the list, or it is not bought."
)


def _is_bare(each: Seen) -> bool:
    """Whether it is a hose, and nobody said what length the price is for."""
    is_hose = (each.part or "").startswith("hose ")
    return is_hose and each.offer.sold_as is SoldAs.PIECES


def _settled(each: Seen) -> str:
    offer = each.offer
    return f"{offer.id}: {offer.price} {_unit(offer)}\n      {each.part} ({each.score:.2f})"


def _asked(each: Seen) -> str:
    offer = each.offer
    or_else = f" (or {', '.join(each.codes[1:3])})" if len(each.codes) > 1 else ""
    return (
        f"{each.question}  {offer.id}: {offer.description}\n"
        f"      is it {each.codes[0]}{or_else}? {each.why}"
    )


def _rows(title: str, rows: Sequence[str], most: int | None) -> None:
    if not rows:
        return
    print(f"\n{title}")
    for row in rows[:most]:
        print(f"  {row}")
    if most is not None and len(rows) > most:
        print(f"  ... and {len(rows) - most} more: --all shows them")
