# SPDX-License-Identifier: Apache-2.0
"""Line types: told apart by letter and dashes, and dark enough to be seen."""

import pytest

from linewright.scene.linetypes import LINE_TYPES, ink_of

LIGHT_GROUND, DARK_GROUND = "#fefefe", "#14171a"


def _luminance(colour: str) -> float:
    """Relative luminance (WCAG 2.2, definition of relative luminance)."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _contrast(one: str, other: str) -> float:
    low, high = sorted((_luminance(one), _luminance(other)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("letter", "OCWFA")
def test_lines_stand_out_three_to_one_on_both_grounds(letter: str) -> None:
    assert _contrast(ink_of(letter), LIGHT_GROUND) >= 3.0
    assert _contrast(ink_of(letter, dark=True), DARK_GROUND) >= 3.0


def test_what_may_be_on_one_sheet_differs_without_colour() -> None:
    for fluid in "OCWFA":
        looks = [(LINE_TYPES[x].dashes, LINE_TYPES[x].pen) for x in (fluid, "V", "D", "R")]

        assert len(set(looks)) == 4


def test_the_fluids_differ_without_colour() -> None:
    looks = {(LINE_TYPES[x].dashes, LINE_TYPES[x].pen) for x in "OCWFA"}

    assert len(looks) == 5


def test_a_letter_of_the_builders_own_is_drawn_in_ink() -> None:
    assert ink_of("H") == ink_of("A")
