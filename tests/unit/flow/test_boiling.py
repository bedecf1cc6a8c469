# SPDX-License-Identifier: Apache-2.0
"""Boiling and expansion of coolants."""

import pytest
from fluids.atmosphere import ATMOSPHERE_1976

from linewright.base.errors import FlowError
from linewright.flow.boiling import atmosphere, boiling_margin, growth, least_gas, sealed
from linewright.flow.fluids import coolant, water

ZERO = 273.15


def test_the_air_thins_as_the_standard_atmosphere_has_it() -> None:
    for height in (0.0, 500.0, 1500.0, 4000.0):
        assert atmosphere(height) == pytest.approx(ATMOSPHERE_1976(height).P, rel=1e-3)


# Gauge pressure over the sea, boiling point of 0, 30, 40, 50 and 60 % by volume: Raoult's law on
# the ASHRAE tables [computed independently].
@pytest.mark.parametrize(
    ("gauge", "points"),
    [
        (0.0, (100.0, 103.6, 105.4, 107.7, 110.9)),
        (0.5, (111.6, 115.5, 117.4, 119.9, 123.3)),
        (1.1, (122.0, 126.0, 128.1, 130.7, 134.3)),
        (1.5, (127.6, 131.8, 133.9, 136.6, 140.3)),
        (2.0, (133.7, 138.0, 140.1, 142.9, 146.8)),
    ],
)
def test_coolants_boil_later_under_pressure(gauge: float, points: tuple[float, ...]) -> None:
    for share, celsius in zip((0.0, 0.3, 0.4, 0.5, 0.6), points, strict=True):
        margin = boiling_margin(coolant(share), 100.0 + ZERO, 101325.0 + gauge * 1e5)

        assert margin + 100.0 == pytest.approx(celsius, abs=0.5)


def test_altitude_takes_kelvins_from_a_cap() -> None:
    low, high = (coolant(0.5).boils_at(atmosphere(h) + 110e3) for h in (0.0, 1500.0))

    assert low - high == pytest.approx(2.5, abs=0.5)


@pytest.mark.parametrize(("share", "percent"), [(0.0, 5.0), (0.3, 5.4), (0.5, 5.8), (0.6, 6.0)])
def test_coolants_grow_as_rule_r60_says(share: float, percent: float) -> None:
    assert 100.0 * growth(coolant(share), 20.0 + ZERO, 110.0 + ZERO) == pytest.approx(
        percent, abs=0.06
    )


def test_a_tank_filled_to_the_brim_vents_and_a_roomy_one_does_not() -> None:
    mix = coolant(0.5)
    small = sealed(mix, 10e-3, 0.5e-3, 20.0 + ZERO, 110.0 + ZERO, 110e3)
    roomy = sealed(mix, 10e-3, 20e-3, 20.0 + ZERO, 110.0 + ZERO, 200e3)

    assert small.is_venting
    assert small.pressure == pytest.approx(211_325.0)
    assert not roomy.is_venting
    # The air alone, by the law of gases, and the vapour over it.
    air = (101325.0 - mix.vapour_pressure(293.15)) * 20.0 / (20.0 - roomy.grown * 1e3)
    assert roomy.air == pytest.approx(air * 383.15 / 293.15)
    assert roomy.pressure == pytest.approx(roomy.air + mix.vapour_pressure(383.15))
    assert least_gas(mix, 10e-3, 293.15, 383.15) == pytest.approx(2.0 * roomy.grown)


def test_a_tank_without_room_is_refused_in_words() -> None:
    with pytest.raises(FlowError) as refused:
        sealed(water(), 10e-3, 0.0, 300.0, 380.0, 110e3)

    assert str(refused.value) == (
        "An expansion tank with 0 L of air over 10 L of coolant: both must be more than 0. Type "
        "the volume of the tank and its cold level."
    )
