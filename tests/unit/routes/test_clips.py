# SPDX-License-Identifier: Apache-2.0
"""Clips: one for each started spacing."""

from dataclasses import replace

import pytest

from linewright.base.evidence import Figure, Grade
from linewright.car.model import Car, Construction, Line, Medium
from linewright.routes.clips import count, spacing

CAR = Car("test")
OIL = Line("O01", "A.out", "B.in", "oil", Medium.OIL, "-10", "rubber", Construction.HOSE)
FUEL = replace(OIL, medium=Medium.FUEL)


def test_fuel_hose_is_held_closer_than_other_hose() -> None:
    # Common practice: 300 mm fuel, 450 mm others (estimates; 610 mm at most in the manuals).
    assert (spacing(CAR, FUEL), spacing(CAR, OIL)) == pytest.approx((0.300, 0.450))


def test_the_builder_may_set_another_spacing() -> None:
    car = Car("test", settings={"clip-spacing": Figure(0.6, "m", Grade.STATED)})

    assert spacing(car, OIL) == 0.6


@pytest.mark.parametrize(
    ("millimetres", "clips"),
    [(400, 2), (300, 1), (900, 3), (350, 2), (500, 2), (3200, 11), (3400, 12), (600, 2)],
)
def test_worked_system_b_counts_started_spacings(millimetres: int, clips: int) -> None:
    # 900 / 300 is a hair over 3 in floating point and still makes three clips.
    assert count(millimetres / 1000, 0.3, FUEL) == clips


@pytest.mark.parametrize(
    ("size", "hose", "millimetres"),
    [
        ("-4", "tube, aluminium", 343),  # FAA-H-8083-30 table 7-5 [from memory]
        ("-4", "tube", 406),  # MIL-H-8891A table II
        ("-20", "tube, steel", 450),  # the table allows 800: the setting is closer
    ],
)
def test_hard_tube_is_held_as_its_table_says_or_closer(
    size: str, hose: str, millimetres: float
) -> None:
    tube = replace(OIL, construction=Construction.TUBE, size=size, hose=hose)

    assert spacing(CAR, tube) * 1000 == pytest.approx(millimetres)


def test_the_shortest_hose_has_one_clip() -> None:
    assert count(0.01, 0.45, OIL) == 1


def test_clamped_hose_hangs_on_its_clamps_until_it_is_long() -> None:
    clamped = replace(OIL, construction=Construction.CLAMPED)

    assert [count(m, 0.45, clamped) for m in (0.2, 0.45, 0.46, 1.0)] == [0, 0, 1, 2]


def test_reference_hose_and_charge_pipe_have_no_clips() -> None:
    assert count(1.0, 0.45, replace(OIL, service="reference")) == 0
    assert count(1.0, 0.45, replace(OIL, construction=Construction.PIPE)) == 0
