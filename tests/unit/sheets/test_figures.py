# SPDX-License-Identifier: Apache-2.0
"""Figures on paper."""

import pytest

from linewright.base.evidence import Figure, Grade
from linewright.car.model import Tier
from linewright.sheets.figures import LEGEND, MARKS, figure_length, length, marked, run


@pytest.mark.parametrize(
    ("metres", "shown"),
    [
        (0.0254, "1 in"),
        (0.0127, "1/2 in"),
        (0.9779, "38 1/2 in"),
        (0.30480, "12 in"),
        (0.0015875, "1/16 in"),
    ],
)
def test_inches_are_shown_in_lowest_fractions(metres: float, shown: str) -> None:
    assert length(metres, "inch") == shown


def test_a_rough_length_has_fewer_digits_and_says_so() -> None:
    assert length(1.4523, is_rough=True) == "about 1,450 mm"
    assert length(1.4523, "inch", is_rough=True) == "about 57 in"


def test_a_guessed_run_is_shown_roughly_and_a_mocked_up_one_is_not() -> None:
    figure = Figure(1.4523, "m", Grade.STATED)

    assert figure_length(figure, "metric", Tier.GUESS) == "about 1,450 mm [S]"
    assert figure_length(figure, "metric", Tier.MOCKED_UP) == "1,452 mm [S]"
    assert figure_length(None, "metric") == "–"


def test_every_grade_has_a_mark_of_its_own_and_stands_in_the_legend() -> None:
    marks = [MARKS[grade] for grade in Grade]

    assert len(set(marks)) == len(marks)
    assert all(f" {mark} " in LEGEND for mark in marks)


def test_hose_to_buy_is_shown_by_the_foot_for_an_inch_car() -> None:
    assert run(3.048, "inch") == "10.0 ft"
    assert run(3.048) == "3.05 m"
    assert marked("1", Grade.RECALLED) == "1 [M]"
