# SPDX-License-Identifier: Apache-2.0
"""A measurement as it is told; the ways to say it are common practice."""

import pytest

from linewright.base.errors import EndError
from linewright.ends.told import told


@pytest.mark.parametrize(
    ("said", "is_male", "diameter"),
    [
        (["male 20.8 mm"], True, 20.8e-3),
        (["20.8 mm OD"], True, 20.8e-3),
        (["outside 20.8"], True, 20.8e-3),
        (["female 16.5 mm"], False, 16.5e-3),
        (["female", "16.5 mm"], False, 16.5e-3),
        (["16.5mm id"], False, 16.5e-3),
        (["hole 0.65 in"], False, 16.51e-3),
    ],
)
def test_a_side_and_its_diameter_are_told_in_either_order(
    said: list[str], is_male: bool, diameter: float
) -> None:
    measured = told(said)

    assert measured.is_male is is_male
    assert measured.diameter == pytest.approx(diameter)


@pytest.mark.parametrize("said", ["pitch 1.5 mm", "1.5 mm pitch", "1.5 pitch", "five 7.5 mm"])
def test_a_pitch_is_told_in_either_order(said: str) -> None:
    assert told(["female 16.5 mm", said]).pitch == pytest.approx(1.5e-3)


@pytest.mark.parametrize("seat", ["cone", "37° cone", "45 deg", "a washer on a flat"])
def test_what_is_no_figure_is_what_the_seat_looks_like(seat: str) -> None:
    assert told(["female 16.5 mm", seat]).seat == seat


@pytest.mark.parametrize("figure", ["1.5 mm", "about 14", "thread 13.1 mm wide"])
def test_a_figure_of_nothing_is_refused_and_not_taken_for_a_seat(figure: str) -> None:
    with pytest.raises(EndError) as caught:
        told(["female 16.5 mm", figure])

    assert str(caught.value) == (
        f'"{figure}" does not say what the figure measures; say it like this: "male 20.8 mm" '
        '"14 tpi", or "female 8.85 mm" "five 4.54 mm", or "pitch 1.5 mm".'
    )
