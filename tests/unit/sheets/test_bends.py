# SPDX-License-Identifier: Apache-2.0
"""Bend schedule on paper: rows, signs, headings, and the drawing that goes with it."""

from math import radians

import pytest

from linewright.car.read import read_text
from linewright.plan.make import make
from linewright.scene.bending import draw_rotation
from linewright.sheets.bends import bend_table, rotation_words

CAR = """
linewright = 1
[car]
name = "test bench"
[systems.fuel]
fluid = "petrol"
hose = "tube aluminium"
size = "-6"
[components.pump]
kind = "fuel pump"
ports.out = { end = "-6 flare male", at_car = "0, 0, 0 mm", points = "rearward" }
[components.filter]
kind = "fuel filter"
ports.in = { end = "-6 flare male", at_car = "1000, 500, 0 mm", points = "left" }
[lines]
F01 = { from = "pump.out", to = "filter.in" }
"""


def test_a_schedule_has_a_row_a_bend_and_one_for_the_last_straight() -> None:
    table = bend_table(make(read_text(CAR)))

    # A right angle of 23.8 mm radius between 1,000 and 500 mm.
    assert table.rows == (
        ("F01", "1", "976 mm", "–", "90.0°", "24 mm", "", "", ""),
        ("F01", "end", "476 mm", "", "", "", "", "1,490 mm", "1,510 mm"),
    )
    assert table.groups == ((0, "F01: pump.out to filter.in, hard tube -6, 9.525 mm outside"),)


def test_a_car_without_places_has_no_schedule() -> None:
    text = CAR.replace("at_car = ", "note = ").replace(", points = ", ", material = ")
    table = bend_table(make(read_text(text)))

    assert table.rows == ()
    assert table.empty == "No hard tube or charge pipe is laid in space."


@pytest.mark.parametrize(
    ("rotation", "words"),
    [
        (0.0, "0°"),
        (90.0, "+90.0° clockwise"),
        (-30.0, "−30.0° counter-clockwise"),
        (180.0, "180°"),
        (-180.0, "180°"),
    ],
)
def test_a_rotation_says_which_way_it_turns(rotation: float, words: str) -> None:
    assert rotation_words(radians(rotation)) == words


def test_no_two_words_of_the_drawing_cover_one_another() -> None:
    texts = draw_rotation().texts

    assert [
        (one.text, two.text)
        for i, one in enumerate(texts)
        for two in texts[i + 1 :]
        if one.box.meets(two.box)
    ] == []


def test_the_drawing_of_rotation_says_both_signs_and_where_nought_is() -> None:
    words = {text.text for text in draw_rotation().texts}

    assert {"+90°", "−90°", "180°", "0°: leg before bend 1"} <= words
