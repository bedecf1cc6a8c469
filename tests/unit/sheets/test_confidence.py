# SPDX-License-Identifier: Apache-2.0
"""How sure an order is, in words: the chance stands before what is missing."""

from dataclasses import replace

from linewright.sheets.confidence import elsewhere_table, headline
from linewright.studies.confidence import Chance, Confidence

_FOUND = Confidence(
    chance=Chance(0.714, 0.003),
    harsh=Chance(0.6, 0.003),
    mild=Chance(0.8, 0.003),
    by_kind=(),
    settle=(),
    path=(),
    unknown=(),
    settled=(),
    known=Chance(0.9, 0.003),
    elsewhere=("a tee", "an olive", "a tee"),
    builds=20_000,
    seed=1,
)


def test_the_chance_stands_first_and_what_nobody_offers_is_counted_behind_it() -> None:
    assert headline(_FOUND) == (
        "This one order is enough with a chance of 71 %: between 60 % and 80 % where trouble is "
        "1.5 times as likely as estimated, or as unlikely. Nobody offers 2 parts of it: see the "
        "list; that is reckoned with them found elsewhere."
    )


def test_where_a_port_is_unknown_that_stands_before_what_nobody_offers() -> None:
    assert headline(replace(_FOUND, unknown=("T.feed",), elsewhere=("a tee",))) == (
        "Nothing is ordered for T.feed, so this order is not enough. Once it is measured and its "
        "parts are ordered too, it is enough with a chance of 90 %. Nobody offers 1 part of it: "
        "see the list; that is reckoned with it found elsewhere."
    )


def test_what_nobody_offers_is_listed_once_each() -> None:
    assert elsewhere_table(_FOUND).rows == (("a tee",), ("an olive",))


def test_where_everything_is_offered_nothing_is_said_of_it() -> None:
    assert "Nobody" not in headline(replace(_FOUND, elsewhere=()))
