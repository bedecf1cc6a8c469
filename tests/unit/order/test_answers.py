# SPDX-License-Identifier: Apache-2.0
"""Answers once given."""

from dataclasses import replace

import pytest

from linewright.base.money import Money
from linewright.order.answers import Answer, decide, put_in
from linewright.order.model import Market, Offer, Supplier

_RINGS = Offer("barn", "7", "-8 ORB O-rings", Money("EUR", 100))
_PLAIN = Offer("barn", "8", "AN8 male to 3/8 NPT male adaptor", Money("EUR", 450))


def _market(*offers: Offer) -> Market:
    return Market("EUR", (Supplier("barn", "EUR"),), offers)


def _answer(part: str, is_yes: bool) -> Answer:
    return Answer("barn", "7", "-8 ORB O-rings", part, is_yes, "Kit", "2026-11-20")


def test_what_is_plain_is_accepted_and_what_is_not_is_asked() -> None:
    decided = decide(_market(_RINGS, _PLAIN))

    assert [offer.part for offer in decided.market.offers] == [
        None, "adaptor-npt-3-eighths-m-to-flare-8-m",
    ]  # fmt: skip
    assert [each.codes[0] for each in decided.questions] == ["O-ring AS568-908, NBR"]


def test_a_yes_is_never_asked_again() -> None:
    decided = decide(_market(_RINGS), [_answer("O-ring AS568-908, FKM", True)])

    assert decided.questions == ()
    assert decided.market.offers[0].part == "O-ring AS568-908, FKM"


def test_after_a_no_the_next_reading_is_asked_and_then_nothing() -> None:
    once = [_answer("O-ring AS568-908, NBR", False)]
    all_no = [_answer(f"O-ring AS568-908, {r}", False) for r in ("NBR", "FKM", "EPDM")]

    assert decide(_market(_RINGS), once).questions[0].codes[0] == "O-ring AS568-908, FKM"
    assert [each.how for each in decide(_market(_RINGS), all_no).seen] == ["other"]


def test_another_description_under_the_number_is_asked_anew() -> None:
    other = replace(_RINGS, description="-8 ORB O-rings, new mixture")
    decided = decide(_market(other), [_answer("O-ring AS568-908, FKM", True)])

    assert [each.how for each in decided.seen] == ["ask"]


def test_answers_put_in_leave_all_else_unrecognised() -> None:
    market = put_in(_market(_RINGS, _PLAIN), [_answer("O-ring AS568-908, FKM", True)])

    assert [offer.part for offer in market.offers] == ["O-ring AS568-908, FKM", None]


@pytest.mark.parametrize(
    ("attributes", "how"),
    [
        ("hose end, -8, 45 deg, for PTFE hose, fixed", "accepted"),
        ("hose end, -8, for PTFE hose", "other"),
    ],
)
def test_columns_alone_may_say_what_it_is(attributes: str, how: str) -> None:
    offer = Offer("barn", "9", attributes, Money("EUR", 900), attributes=attributes)

    assert [each.how for each in decide(_market(offer)).seen] == [how]


def test_a_description_that_differs_from_its_columns_is_asked() -> None:
    offer = replace(_PLAIN, attributes="adaptor, 1/4 NPT male, -8 male flare")

    assert [each.how for each in decide(_market(offer)).seen] == ["ask"]


def test_our_own_code_goes_before_the_words_and_a_wrong_one_is_nothing() -> None:
    right = replace(_RINGS, part="plug-orb-8-m")
    wrong = replace(_RINGS, part="plug-of-gold")

    assert [each.part for each in decide(_market(right, wrong)).seen] == ["plug-orb-8-m", None]


def test_a_code_that_the_car_takes_is_taken_at_its_word() -> None:
    canister = replace(_RINGS, part="filter canister CAN")

    assert [e.part for e in decide(_market(canister)).seen] == [None]
    assert [e.part for e in decide(_market(canister), (), {"filter canister CAN"}).seen] == [
        "filter canister CAN"
    ]
