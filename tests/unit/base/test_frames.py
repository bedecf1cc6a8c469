# SPDX-License-Identifier: Apache-2.0
"""The car's frame: words, order of turns, and 1,000 random cases."""

from math import cos, pi, sin
from random import Random

import pytest

from linewright.base.frames import Rotation, Vector, apart, placed, rotation, turned

NOSE: Vector = (-1.0, 0.0, 0.0)
TOP: Vector = (0.0, 0.0, 1.0)


def _product(a: Rotation, b: Rotation) -> list[list[float]]:
    return [[sum(a[i][k] * b[k][j] for k in range(3)) for j in range(3)] for i in range(3)]


def _about(axis: str, t: float) -> Rotation:
    c, s = cos(t), sin(t)
    return {
        "x": ((1.0, 0.0, 0.0), (0.0, c, -s), (0.0, s, c)),
        "y": ((c, 0.0, s), (0.0, 1.0, 0.0), (-s, 0.0, c)),
        "z": ((c, -s, 0.0), (s, c, 0.0), (0.0, 0.0, 1.0)),
    }[axis]


def test_yaw_turns_the_nose_to_the_left() -> None:
    nose = turned(rotation(0.1, 0.0, 0.0), NOSE)

    assert nose[1] < 0  # y is to the right


def test_pitch_lifts_the_nose() -> None:
    nose = turned(rotation(0.0, 0.1, 0.0), NOSE)

    assert nose[2] > 0


def test_roll_leans_the_top_to_the_left() -> None:
    top = turned(rotation(0.0, 0.0, 0.1), TOP)

    assert top[1] < 0


def test_roll_comes_first_then_pitch_then_yaw() -> None:
    random = Random(1)
    for _ in range(1000):
        yaw, pitch, roll = (random.uniform(-pi, pi) for _ in range(3))
        inner = _product(_about("y", pitch), _about("x", roll))
        expected = _product(_about("z", yaw), tuple(tuple(row) for row in inner))  # type: ignore[arg-type]
        got = rotation(yaw, pitch, roll)

        assert all(abs(got[i][j] - expected[i][j]) < 1e-12 for i in range(3) for j in range(3))


def test_a_turn_keeps_lengths_and_hands() -> None:
    random = Random(2)
    for _ in range(1000):
        m = rotation(*(random.uniform(-pi, pi) for _ in range(3)))
        x, y, z = (turned(m, axis) for axis in ((1.0, 0, 0), (0, 1.0, 0), (0, 0, 1.0)))
        cross = (
            x[1] * y[2] - x[2] * y[1],
            x[2] * y[0] - x[0] * y[2],
            x[0] * y[1] - x[1] * y[0],
        )

        assert apart(cross, z) < 1e-12
        assert abs(apart(x, (0, 0, 0)) - 1) < 1e-12


def test_a_point_of_a_turned_part_lands_where_a_tape_finds_it() -> None:
    # A port 200 mm behind the middle of a part whose nose was turned to the left by 90°:
    # the tail now looks to the right.
    point = placed((1.0, 2.0, 3.0), rotation(pi / 2, 0.0, 0.0), (0.2, 0.0, 0.0))

    assert point == pytest.approx((1.0, 2.2, 3.0))
