# SPDX-License-Identifier: Apache-2.0
"""Part-full drains."""

from math import inf, pi, radians

import numpy as np
import pytest
from scipy.integrate import quad

from linewright.base.errors import FlowError
from linewright.flow import drains
from linewright.tables.fluids import heat_figure


def test_a_section_has_its_area_by_integration() -> None:
    for fill in (0.1, 0.5, 0.66, 0.95, 1.0):
        depth = fill * 0.02
        area = quad(lambda y: 2.0 * np.sqrt(max(0.0, 0.02 * y - y * y)), 0.0, depth)[0]

        assert drains.section(0.02, fill)[0] == pytest.approx(area, rel=1e-6)
    assert drains.section(0.02, 1.0)[1] == pytest.approx(0.02)


@pytest.mark.parametrize(
    ("bore", "degrees", "viscosity", "litres"),
    [
        (0.0087, 15.0, 14e-6, 0.77),
        (0.0111, 15.0, 14e-6, 2.0),
        (0.0143, 5.0, 14e-6, 1.9),
        (0.0143, 15.0, 14e-6, 5.6),
        (0.0175, 5.0, 14e-6, 4.2),
        (0.0143, 30.0, 60e-6, 2.5),
        (0.0175, 30.0, 60e-6, 5.7),
    ],
)
def test_a_half_full_laminar_drain_carries_half_of_a_full_one(
    bore: float, degrees: float, viscosity: float, litres: float
) -> None:
    found = drains.drain_flow(bore, radians(degrees), viscosity)
    exact = pi * 9.80665 * bore**4 * np.sin(radians(degrees)) / (256.0 * viscosity)

    assert found * 6e4 == pytest.approx(litres, rel=0.04)
    assert found == pytest.approx(exact, rel=1e-6)


def test_a_large_drain_on_a_steep_fall_is_no_longer_laminar() -> None:
    # The laminar formula would give 24 L/min; by Churchill's law it is 15.2 [computed].
    assert drains.drain_flow(0.0175, radians(30.0), 14e-6) * 6e4 == pytest.approx(15.2, rel=0.02)


def test_the_least_slope_of_a_drain_is_where_it_carries_the_froth() -> None:
    froth = heat_figure("froth").value
    slope = drains.least_slope(0.0143, 2.0 / 6e4, 14e-6, 0.0, froth)

    assert drains.drain_flow(0.0143, slope, 14e-6) == pytest.approx(froth * 2.0 / 6e4, rel=1e-9)
    assert drains.least_slope(0.0087, 6.0 / 6e4, 14e-6, 0.0, froth) == inf


def test_what_is_level_or_rises_does_not_drain() -> None:
    assert drains.drain_flow(0.0143, 0.0, 14e-6) == 0.0
    assert drains.drain_flow(0.0143, -0.1, 14e-6) == 0.0


def test_a_drain_without_bore_is_refused_in_words() -> None:
    with pytest.raises(FlowError) as refused:
        drains.drain_flow(0.0, 0.3, 14e-6)

    assert str(refused.value) == (
        "A drain of 0 mm bore, 50 % full: both must be more than 0, and it is at most full. Type "
        "its least bore."
    )


def test_bubbles_rise_as_stokes_has_it() -> None:
    for millimetres, speed in ((0.1, 0.4), (0.5, 10.0), (1.0, 39.0)):
        found = drains.bubble_rise(millimetres / 1e3, 14e-6) * 1e3

        assert found == pytest.approx(speed, rel=0.04)
    assert drains.dwell(8e-3, 0.0) == inf


def test_scavenge_returns_what_air_it_must() -> None:
    assert drains.scavenge_share(6e-5, 50.0, 1e-3) == pytest.approx(2.0 / 3.0)
    assert drains.scavenge_share(1e-5, 50.0, 1e-3) < 0.0
    assert drains.scavenge_share(0.0, 50.0, 1e-3) == -inf
    flow, density = drains.foam(1e-3, 840.0, 2.0 / 3.0)
    assert (flow, density) == (pytest.approx(3e-3), pytest.approx(280.0))
    with pytest.raises(FlowError) as refused:
        drains.foam(1e-3, 840.0, 1.0)
    assert str(refused.value) == (
        "A share of air of 100 % leaves no oil; it is from 0 to below 100 %. Usual are 30 to 70 %."
    )
