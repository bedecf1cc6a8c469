# SPDX-License-Identifier: Apache-2.0
"""Effectiveness of exchangers, and exchangers from one test point."""

from itertools import pairwise

import numpy as np
import pytest

from linewright.base.errors import FlowError
from linewright.flow.exchangers import (
    Arrangement,
    Exchanger,
    Side,
    effectiveness,
    from_test,
    log_mean,
    transfer_units,
)
from linewright.tables.fluids import heat_figure

AIR = Side(1.2, 1006.0, 298.15, 0.6)
WATER = Side(1.5, 3590.0, 368.15, 0.8)


def _radiator() -> Exchanger:
    share = heat_figure("split-radiator").value
    return from_test(Arrangement.CROSS, AIR, WATER, 50e3, share, "radiator")


def _nusselt(units: float, ratio: float) -> float:
    """Cross-flow of unmixed streams by integrating Nusselt's solution of 1911 numerically."""
    # Mean of the cold outlet: the kernel of the hyperbolic equation over the core.
    steps = 700
    hot, cold = np.ones(steps), np.zeros(steps)
    width = 1.0 / steps
    for _ in range(steps):
        # March one strip of the hot stream across all cold ones, implicit midpoint.
        fed = 1.0
        for at in range(steps):
            a, b = 0.5 * units * width, 0.5 * units * ratio * width
            # fed' = fed - a(fed + fed' - c - c'), c' = c + b(fed + fed' - c - c')
            gap = (fed - cold[at]) / (1.0 + a + b)
            fed, cold[at] = fed - 2.0 * a * gap, cold[at] + 2.0 * b * gap
        hot[_] = fed
    return float(1.0 - hot.mean())


@pytest.mark.parametrize(("units", "ratio"), [(0.7, 0.45), (2.1, 0.45), (1.5, 1.0)])
def test_cross_flow_agrees_with_marching_through_the_core(units: float, ratio: float) -> None:
    assert effectiveness(Arrangement.CROSS, units, ratio) == pytest.approx(
        _nusselt(units, ratio), abs=2e-5
    )


def test_the_usual_formula_of_cross_flow_is_near_the_exact_one() -> None:
    for units in (0.1, 0.5, 1.0, 3.0, 6.0):
        for ratio in (0.2, 0.6, 1.0):
            usual = 1.0 - np.exp(units**0.22 / ratio * (np.exp(-ratio * units**0.78) - 1.0))

            assert effectiveness(Arrangement.CROSS, units, ratio) == pytest.approx(usual, abs=0.012)


@pytest.mark.parametrize("arrangement", Arrangement)
def test_effectiveness_rises_with_size_and_stays_below_counterflow(
    arrangement: Arrangement,
) -> None:
    for ratio in (0.0, 1e-9, 0.3, 0.7, 1.0):
        found = [effectiveness(arrangement, n, ratio) for n in (0.0, 0.1, 1.0, 3.0, 10.0)]
        best = [effectiveness(Arrangement.COUNTER, n, ratio) for n in (0.0, 0.1, 1.0, 3.0, 10.0)]

        assert found[0] == 0.0
        assert all(a <= b + 1e-12 for a, b in pairwise(found))
        assert all(a <= b + 1e-9 for a, b in zip(found, best, strict=True))


@pytest.mark.parametrize("arrangement", Arrangement)
def test_units_are_the_inverse_of_effectiveness(arrangement: Arrangement) -> None:
    for ratio in (0.0, 0.4, 1.0):
        for units in (0.05, 0.8, 2.0):
            reached = effectiveness(arrangement, units, ratio)

            assert transfer_units(arrangement, reached, ratio) == pytest.approx(units, rel=1e-6)


def test_what_no_exchanger_reaches_is_refused_in_words() -> None:
    with pytest.raises(FlowError) as refused:
        transfer_units(Arrangement.PARALLEL, 0.6, 1.0)

    assert str(refused.value) == (
        "An effectiveness of 60.0 % is beyond any parallel flow at these flows, 50.0 %. Check "
        "heat, flows and temperatures of the test point."
    )


def test_an_exchanger_gives_its_heat_at_its_test_point_and_conserves_it() -> None:
    core = _radiator()
    there = ((1.2, 1006.0, 298.15), (1.5, 3590.0, 368.15))

    assert core.heat(*there) == pytest.approx(-50e3)
    turned = from_test(Arrangement.CROSS, WATER, AIR, 50e3, 1.0 - core.first_share)
    assert turned.heat(there[1], there[0]) == pytest.approx(50e3)


def test_a_radiator_gains_more_from_air_than_from_water() -> None:
    core = _radiator()

    assert core.at(2.4, 1.5) / core.conductance > 1.3
    assert 1.05 < core.at(1.2, 3.0) / core.conductance < 1.2
    assert core.at(0.0, 1.5) == 0.0
    assert core.heat((0.0, 1006.0, 298.15), (1.5, 3590.0, 368.15)) == 0.0


def test_a_test_point_that_cannot_be_is_refused_in_words() -> None:
    with pytest.raises(FlowError) as much:
        from_test(Arrangement.CROSS, AIR, WATER, 100e3, 0.75, "radiator")
    with pytest.raises(FlowError) as little:
        from_test(Arrangement.CROSS, AIR, WATER, 0.0, 0.75, "radiator")

    assert str(much.value) == (
        "radiator: 100 kW at its test point is more than the 84.5 kW that its flows could carry "
        "over 70 K. Check heat, flows and temperatures of the test point and their units."
    )
    assert str(little.value) == (
        "radiator: its test point needs heat, both flows and a difference of temperature between "
        "the inlets, all more than 0. Give the point of the maker's sheet."
    )


def test_the_mean_difference_of_equal_ends_is_that_difference() -> None:
    assert log_mean(12.0, 12.0) == 12.0
    assert log_mean(12.0, 12.0 * (1 + 1e-7)) == pytest.approx(12.0, rel=1e-6)
