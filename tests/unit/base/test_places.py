# SPDX-License-Identifier: Apache-2.0
"""Points, directions and sizes of bodies as people type them."""

import contextlib
from collections.abc import Callable
from math import cos, hypot, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linewright.base.errors import UnitError
from linewright.base.places import DIRECTIONS, body_size, direction, point


def test_one_unit_may_close_a_list() -> None:
    assert point("3120, -410, 150 mm") == pytest.approx((3.12, -0.41, 0.15))
    assert point("1 m, 2 in, 30 cm") == pytest.approx((1.0, 0.0508, 0.3))
    assert point("16 ft 3 in, 0 in, 1-1/2 in") == pytest.approx((4.953, 0.0, 0.0381))


def test_a_tilt_goes_from_the_first_word_towards_the_second() -> None:
    tilt = radians(20)

    assert direction("forward, 20° up") == pytest.approx((-cos(tilt), 0, sin(tilt)))
    assert direction("Down, 30 deg left") == pytest.approx((0, -0.5, -cos(radians(30))))
    assert direction("0, 3, 4") == pytest.approx((0, 0.6, 0.8))


def test_the_axes_are_right_handed() -> None:
    (a, b, c), (d, e, f) = DIRECTIONS["rearward"], DIRECTIONS["right"]

    assert (b * f - c * e, c * d - a * f, a * e - b * d) == DIRECTIONS["up"]


def test_a_body_is_a_box_or_stands_round() -> None:
    assert body_size("300 x 200 x 60 mm") == ((0.3, 0.2, 0.06), False)
    assert body_size("200 dia x 460 mm") == ((0.2, 0.2, 0.46), True)


REFUSED: list[tuple[Callable[[str], object], str, str]] = [
    (
        point,
        "1200,5, 300 mm",
        '"1200,5, 300 mm" has a decimal comma; write "1200.5, 300 mm".',
    ),
    (
        point,
        "3120, -410 mm",
        '"3120, -410 mm" is no point; write three numbers and a unit: x rearward, y to the right, '
        'z up, as in "3120, -410, 150 mm".',
    ),
    (
        point,
        "3120, -410, 150",
        '"3120, -410, 150" has no unit; write for example "3120, -410, 150 mm".',
    ),
    (
        point,
        "0, 0, 900 m",
        '"900 m" is absurdly large; the greatest length here is 100 m.',
    ),
    (
        direction,
        "forwards",
        '"forwards" is no direction; allowed: forward, rearward, left, right, up, down, a word '
        'and a tilt ("forward, 20° up"), or three numbers.',
    ),
    (
        direction,
        "up, 20° down",
        '"up, 20° down": down is not square to up; tilt towards another word, as in '
        '"forward, 20° up".',
    ),
    (
        direction,
        "up, 20°",
        '"up, 20°" is no direction; the tilt is degrees and one of forward, rearward, left, right, '
        'up, down, as in "forward, 20° up".',
    ),
    (direction, "up, 200 left", '"up, 200 left": the tilt is 0 to 180 degrees.'),
    (
        direction,
        "0, 0, 0",
        '"0, 0, 0" is no direction; its length must not be nothing, or huge.',
    ),
    (
        body_size,
        "200 x 460 mm",
        '"200 x 460 mm" is no size of a body; write "300 x 200 x 60 mm" (along, across, high) or '
        '"200 dia x 460 mm".',
    ),
    (
        body_size,
        "0 x 200 x 60 mm",
        '"0 x 200 x 60 mm" has a side of nothing; leave the size out if not known.',
    ),
]


@pytest.mark.parametrize(("read", "text", "message"), REFUSED, ids=[r[1] for r in REFUSED])
def test_what_is_no_place_is_refused_with_the_way_out(
    read: Callable[[str], object], text: str, message: str
) -> None:
    with pytest.raises(UnitError) as caught:
        read(text)

    assert str(caught.value) == message


@given(
    st.sampled_from(sorted(DIRECTIONS)),
    st.integers(0, 180),
    st.sampled_from(sorted(DIRECTIONS)),
)
def test_every_direction_has_length_one(first: str, turn: int, second: str) -> None:
    try:
        vector = direction(f"{first}, {turn}° {second}")
    except UnitError:
        assert any(a and b for a, b in zip(DIRECTIONS[first], DIRECTIONS[second], strict=True))
    else:
        assert hypot(*vector) == pytest.approx(1)


@given(st.text(max_size=60))
def test_any_text_is_read_or_plainly_refused(text: str) -> None:
    for read in (point, direction, body_size):
        with contextlib.suppress(UnitError):
            got = read(text)

            assert got
