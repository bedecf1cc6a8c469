# SPDX-License-Identifier: Apache-2.0
"""The card of a piece says what the saw and the bench need, with a course or without."""

from dataclasses import replace
from math import radians
from pathlib import Path as File

import pytest

from linewright.car.read import read
from linewright.plan.make import make
from linewright.plan.model import Plan
from linewright.sheets.book import book
from linewright.sheets.cards import course_words, hose_cards
from linewright.sheets.leaves import Hoses
from linewright.space.path import Path
from tests.unit.sheets.courses import elbow_course, straight_course

EXAMPLES = File(__file__).parents[3] / "examples"


@pytest.fixture(scope="module")
def plan() -> Plan:
    bare = make(read(EXAMPLES / "club-roadster" / "car.toml"), in_space=False)
    courses = (replace(elbow_course(), id="L1"),)
    return replace(bare, routes=replace(bare.routes, courses=courses))


def test_a_laid_piece_has_its_ends_cut_clock_course_and_clips(plan: Plan) -> None:
    card = hose_cards(plan)[0]
    rows = dict(card.rows)

    assert (card.id, card.hose, card.clock_deg) == ("L1", "-10 rubber braided", 210.0)
    assert rows["A"].startswith("TOP.OUT: ")
    assert "elbow at" in rows["A"]
    assert rows["Clock"].startswith("210°: near elbow at six o'clock")
    assert rows["Course"].endswith(": 200, 90° at R100, 200 mm")
    assert rows["Tightest"].startswith("12 mm to ENG, ")
    assert rows["Hole"].startswith("in firewall at x 100")


def test_a_piece_without_a_course_has_its_length_and_how_it_is_known(plan: Plan) -> None:
    card = hose_cards(plan)[1]
    rows = dict(card.rows)

    assert card.id == "L2"
    assert card.clock_deg is None
    assert card.cut.startswith("Cut ")
    assert rows["Length"].endswith(", by string")
    assert "Course" not in rows


@pytest.mark.parametrize("name", ["club-roadster", "e85-boot", "juniper", "planted"])
def test_every_piece_of_every_example_has_one_card_in_the_chapter_of_its_system(name: str) -> None:
    made = make(read(EXAMPLES / name / "car.toml"), in_space=False)
    cards = [
        card for leaf in book(made, ()).leaves if isinstance(leaf, Hoses) for card in leaf.cards
    ]

    assert sorted(card.id for card in cards) == sorted(run.id for run in made.routes.runs)
    for leaf in book(made, ()).leaves:
        if isinstance(leaf, Hoses):
            assert len({card.system for card in leaf.cards}) == 1


def test_a_bend_of_nothing_is_no_bend_and_its_turn_goes_to_the_next() -> None:
    # A hair of a bend, upwards; then a real one to the side.
    hair = radians(0.2)
    corners = ((0.0, 0.0, 0.0), (0.3, 0.0, 0.0), (0.6, 0.0, 0.3 * hair), (0.6, 0.4, 0.3 * hair))
    course = straight_course()

    nothing = course_words(replace(course, path=Path(corners[:3], (0.1,))), "metric")
    assert nothing == "600 mm"
    bent = course_words(replace(course, path=Path(corners, (0.1, 0.1))), "metric")
    assert bent == "500, 90° at R100, 300 mm"
