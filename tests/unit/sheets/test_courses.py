# SPDX-License-Identifier: Apache-2.0
"""The card of a laid hose says what the bench needs."""

from dataclasses import replace
from pathlib import Path as File

import pypdf
import pytest

from linewright.car.read import read
from linewright.faces.files.pdf import book_pdf
from linewright.plan.make import make
from linewright.plan.model import Plan
from linewright.sheets.courses import course_cards
from linewright.sheets.grounds import grounds
from linewright.sheets.leaves import Cards
from tests.unit.sheets.courses import elbow_course, straight_course

ROADSTER = File(__file__).parents[3] / "examples" / "club-roadster" / "car.toml"


@pytest.fixture(scope="module")
def plan() -> Plan:
    bare = make(read(ROADSTER), in_space=False)
    courses = (replace(elbow_course(), id="L1"), replace(straight_course(), id="L2"))
    return replace(bare, routes=replace(bare.routes, courses=courses))


def test_a_card_has_ends_cut_clock_tightest_place_and_clips(plan: Plan) -> None:
    first, second = course_cards(plan)
    rows = dict(first.rows)

    assert (first.id, first.title) == ("L1", "TOP.OUT to FH.in-L, -10 rubber braided")
    assert list(rows)[:5] == ["End A", "End B", "Hose", "Clock angle", "Tightest"]
    assert rows["Hose"].startswith("557 mm from collar to collar along its middle, without slack; ")
    assert rows["Clock angle"] == (
        "210°: near elbow at six o'clock, counter-clockwise, seen from end A "
        "(150° is its mirror: wrong)"
    )
    assert rows["Tightest"].startswith("12 mm to ENG, ")
    assert " from collar A, at x " in rows["Tightest"]
    assert second.clock_deg is None
    assert dict(second.rows)["Tightest"] == "nothing within 200 mm"


def test_a_card_for_each_laid_hose_stands_behind_the_book_and_none_without(plan: Plan) -> None:
    pages = [p for p in grounds(plan).leaves if isinstance(p, Cards)]
    bare = replace(plan, routes=replace(plan.routes, courses=()))

    assert [[card.id for card in page.cards] for page in pages] == [["L1", "L2"]]
    assert not [p for p in grounds(bare).leaves if isinstance(p, Cards)]


def test_the_cards_are_set_on_paper_with_clock_bends_and_band(plan: Plan, tmp_path: File) -> None:
    file = tmp_path / "grounds.pdf"
    file.write_bytes(book_pdf(grounds(plan), {}))
    text = " ".join(" ".join(p.extract_text().split()) for p in pypdf.PdfReader(file).pages)

    for words in ("Courses in full", "From collar A", "from end A", "150° is its mirror"):
        assert words in text
