# SPDX-License-Identifier: Apache-2.0
"""Arrows in space."""

from math import pi

import pytest

from linewright.base.vectors import ahead, between, cross, dot, square, turned_about, unit


def test_a_turn_about_an_axis_is_right_handed() -> None:
    assert turned_about((1.0, 0.0, 0.0), pi / 2, (0.0, 1.0, 0.0)) == pytest.approx((0, 0, 1))


def test_no_arrow_has_no_direction() -> None:
    with pytest.raises(ValueError) as caught:
        unit((0.0, 0.0, 0.0))

    assert str(caught.value) == (
        "direction (0.0, 0.0, 0.0): has no length; give three numbers not all 0"
    )


def test_rearward_cross_right_is_up() -> None:
    assert cross((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)) == (0.0, 0.0, 1.0)


@pytest.mark.parametrize("angle", [1e-9, 0.5, pi - 1e-9])
def test_small_and_nearly_straight_angles_are_exact(angle: float) -> None:
    other = turned_about((0.0, 0.0, 1.0), angle, (1.0, 0.0, 0.0))

    assert between((1.0, 0.0, 0.0), other) == pytest.approx(angle, rel=1e-6)


@pytest.mark.parametrize(
    "along", [(0.0, 0.0, 1.0), (0.0, 0.0, -1.0), (1.0, 0.0, 0.0), (0.02, -0.01, 0.9997)]
)
def test_something_square_is_square(along: tuple[float, float, float]) -> None:
    along = unit(along)
    found = square(along)

    assert dot(found, along) == pytest.approx(0.0, abs=1e-12)
    assert dot(found, found) == pytest.approx(1.0)


def test_ahead_goes_along() -> None:
    assert ahead((1.0, 2.0, 3.0), (0.0, 0.0, 1.0), 0.5) == (1.0, 2.0, 3.5)
