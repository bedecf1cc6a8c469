# SPDX-License-Identifier: Apache-2.0
"""What each offer was taken for: by a rule, by an answer once given, or not yet."""

import hashlib
from collections.abc import Container, Iterable, Mapping
from dataclasses import dataclass, replace

from linewright.order.model import Market, Offer
from linewright.order.recognise import Match, Verdict, recognise


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer to "is this that?", with who gave it and when (ISO 8601).

    It holds for the supplier's number with the same words: another description under the
    number is another thing, and is asked about anew.
    """

    supplier: str
    number: str
    description: str
    part: str
    is_yes: bool
    who: str = ""
    when: str = ""


@dataclass(frozen=True, slots=True)
class Seen:
    """One offer and what it was taken for; ``how`` is accepted, answered, ask or other.

    ``question`` is the id to answer by, where it is asked whether it is ``codes[0]``.
    """

    offer: Offer
    codes: tuple[str, ...]
    score: float
    why: str
    how: str
    question: str = ""

    @property
    def part(self) -> str | None:
        """Our code, where that is settled."""
        return self.codes[0] if self.how in ("accepted", "answered") and self.codes else None


@dataclass(frozen=True, slots=True)
class Decided:
    """All offers with what they are; ``market`` has our codes in its offers."""

    market: Market
    seen: tuple[Seen, ...]

    @property
    def questions(self) -> tuple[Seen, ...]:
        """What has to be asked, in the order of the lists."""
        return tuple(each for each in self.seen if each.how == "ask")


_Key = tuple[str, str, str]


def _key(supplier: str, number: str, description: str) -> _Key:
    return supplier.casefold(), number.casefold(), " ".join(description.casefold().split())


def question_id(offer: Offer, code: str) -> str:
    """Short id of a question, the same in every run.

    Parameters
    ----------
    offer : Offer
        What is asked about.
    code : str
        Whether it is this.

    Returns
    -------
    str
        A capital Q and six hexadecimal digits.

    Examples
    --------
    >>> from linewright.base.money import Money
    >>> question_id(Offer("barn", "7", "-8 O-rings", Money("EUR", 100)), "O-ring AS568-908, NBR")
    'Q34be34'
    """
    text = "\x1f".join((*_key(offer.supplier, offer.number, offer.description), code))
    return "Q" + hashlib.sha256(text.encode()).hexdigest()[:6]


def decide(
    market: Market, answers: Iterable[Answer] = (), known: Container[str] = frozenset()
) -> Decided:
    """Say of every offer what it is.

    Parameters
    ----------
    market : Market
        Offers as read.
    answers : Iterable of Answer
        Answers given before; the later of two holds.
    known : Container of str, optional
        Codes beside those of the catalogue, such as those that a car takes: an offer that
        names one is taken at its word.

    Returns
    -------
    Decided
        A question is asked once: after a no, the next likely code is asked about, and after
        the last one the offer is nothing of ours.
    """
    given: dict[_Key, dict[str, bool]] = {}
    for answer in answers:
        key = _key(answer.supplier, answer.number, answer.description)
        given.setdefault(key, {})[answer.part] = answer.is_yes
    seen = tuple(_seen(offer, given, known) for offer in market.offers)
    offers = tuple(
        each.offer if each.offer.part == each.part else replace(each.offer, part=each.part)
        for each in seen
    )
    return Decided(replace(market, offers=offers), seen)


def put_in(market: Market, answers: Iterable[Answer]) -> Market:
    """Put our codes into offers that were answered with yes; nothing else is recognised.

    Parameters
    ----------
    market : Market
        Offers as read.
    answers : Iterable of Answer
        Answers given before.

    Returns
    -------
    Market
        The same, with ``part`` set where a yes says it.
    """
    parts: dict[_Key, str] = {}
    for answer in answers:
        key = _key(answer.supplier, answer.number, answer.description)
        if answer.is_yes:
            parts[key] = answer.part
        elif parts.get(key) == answer.part:
            del parts[key]
    if not parts:
        return market
    offers = tuple(
        replace(offer, part=parts.get(_key(offer.supplier, offer.number, offer.description)))
        if offer.part is None
        else offer
        for offer in market.offers
    )
    return replace(market, offers=offers)


def _seen(
    offer: Offer, given: Mapping[_Key, Mapping[str, bool]], known_codes: Container[str]
) -> Seen:
    if offer.part and offer.part in known_codes:
        return Seen(offer, (offer.part,), 1.0, "our own code", "accepted")
    match = recognise(offer)
    known = given.get(_key(offer.supplier, offer.number, offer.description)) if given else None
    if known:
        return _answered(offer, match, known)
    how = {Verdict.ACCEPTED: "accepted", Verdict.ASK: "ask", Verdict.OTHER: "other"}[match.verdict]
    question = question_id(offer, match.codes[0]) if how == "ask" else ""
    return Seen(offer, match.codes, match.score, match.why, how, question)


def _answered(offer: Offer, match: Match, known: Mapping[str, bool]) -> Seen:
    yes = [part for part, is_yes in known.items() if is_yes]
    if yes:
        return Seen(offer, (yes[-1],), 1.0, "answered yes", "answered")
    left = tuple(code for code in match.codes if code not in known)
    if not left:
        return Seen(offer, (), 0.0, "answered no", "other")
    why = f"{match.why}; not {', '.join(known)}"
    return Seen(offer, left, min(match.score, 0.5), why, "ask", question_id(offer, left[0]))
