# SPDX-License-Identifier: Apache-2.0
"""Friction of lines, straight, bent and convoluted, against an independent library."""

import itertools

import fluids
import numpy as np
import pytest
from scipy.optimize import approx_fprime

from linewright.flow.friction import (
    bend_factor,
    between,
    churchill,
    colebrook,
    convoluted,
    critical_ito,
    critical_seth_stahel,
    curved,
    curved_mori_nakayama,
    curved_white,
    general,
)

REYNOLDS = (0.01, 1.0, 7.0, 250.0, 999.0, 1000.5, 1900.0, 2300.0, 3100.0, 4100.0, 2e4, 1e6, 1e8)
ROUGH = (0.0, 1e-4, 3e-3, 0.05)

LAWS = {
    "churchill": lambda re, e: churchill(re, e),
    "general": lambda re, e: general(re, e),
    "bend": lambda re, e: curved(re, e, 0.07),
    "gentle bend": lambda re, e: curved(re, e, 0.001),
    "convoluted": lambda re, e: convoluted(re, e, 0.236),
}


@pytest.mark.parametrize("reynolds", REYNOLDS)
@pytest.mark.parametrize("rough", ROUGH)
def test_churchill_agrees_with_an_independent_library(reynolds: float, rough: float) -> None:
    assert churchill(reynolds, rough)[0] == pytest.approx(
        fluids.friction.Churchill_1977(reynolds, rough), rel=1e-9
    )


@pytest.mark.parametrize("reynolds", [2500.0, 1e4, 1e6, 1e8])
@pytest.mark.parametrize("rough", ROUGH)
def test_colebrook_agrees_with_an_independent_library(reynolds: float, rough: float) -> None:
    assert colebrook(reynolds, rough) == pytest.approx(
        fluids.friction.Colebrook(reynolds, rough), rel=1e-9
    )


def test_swamee_and_jain_of_the_comparison_law_agree_with_an_independent_library() -> None:
    for reynolds, rough in itertools.product((4000.0, 2e4, 1e6), ROUGH):
        assert general(reynolds, rough)[0] == pytest.approx(
            fluids.friction.Swamee_Jain_1976(reynolds, rough), rel=2e-4
        )


@pytest.mark.parametrize("law", LAWS)
def test_the_slope_of_a_factor_is_its_slope(law: str) -> None:
    for reynolds, rough in itertools.product(REYNOLDS, ROUGH):
        factor, slope = LAWS[law](reynolds, rough)
        step = 1e-6 * reynolds
        found = approx_fprime([reynolds], lambda x, e=rough: LAWS[law](x[0], e)[0], step)[0]

        assert slope == pytest.approx(found, rel=1e-3, abs=1e-4 * factor / reynolds), reynolds


@pytest.mark.parametrize("law", LAWS)
def test_the_drop_of_a_line_rises_with_its_flow_everywhere(law: str) -> None:
    reynolds = np.geomspace(1e-3, 1e8, 40_000)
    for rough in ROUGH:
        drops = np.array([LAWS[law](float(r), rough)[0] for r in reynolds]) * reynolds**2

        assert (np.diff(drops) > 0.0).all(), rough


@pytest.mark.parametrize("law", LAWS)
def test_a_factor_has_no_jump(law: str) -> None:
    reynolds = np.geomspace(500.0, 2e4, 40_000)
    factors = np.array([LAWS[law](float(r), 1e-4)[0] for r in reynolds])

    assert np.abs(np.diff(factors) / factors[1:]).max() < 1e-3


def test_slow_flow_is_laminar_to_the_last_digit() -> None:
    assert churchill(1e-6, 0.01)[0] * 1e-6 == pytest.approx(64.0, rel=1e-14)
    assert churchill(1001.0, 0.0)[0] * 1001.0 == pytest.approx(64.0, rel=1e-12)


def test_between_laminar_and_turbulent_both_are_told() -> None:
    low, high = between(2700.0, 1e-4)

    assert (round(low, 4), round(high, 4)) == (0.0237, 0.0450)
    assert between(1500.0, 1e-4) == (churchill(1500.0, 1e-4)[0],) * 2
    assert low < churchill(2700.0, 1e-4)[0] < high


def test_bends_agree_with_an_independent_library() -> None:
    for bore, radius in ((0.014, 0.1), (0.02, 0.05), (0.008, 0.3)):
        ratio = bore / (2.0 * radius)
        for reynolds in (50.0, 300.0, 1500.0):
            white = fluids.friction.helical_laminar_fd_White(reynolds, bore, 2.0 * radius)
            ours = curved(reynolds, 0.0, ratio)[0]

            assert curved_white(reynolds, ratio) == pytest.approx(white, rel=1e-9)
            if 50.0 < reynolds * ratio**0.5 < 1000.0:
                assert ours == pytest.approx(white, rel=0.03)
        assert curved_mori_nakayama(3e4, ratio) == pytest.approx(
            fluids.friction.helical_turbulent_fd_Mori_Nakayama(3e4, bore, 2.0 * radius), rel=1e-9
        )
        assert critical_seth_stahel(ratio) == pytest.approx(
            fluids.friction.helical_transition_Re_Seth_Stahel(bore, 2.0 * radius), rel=1e-9
        )
        assert critical_ito(ratio) == pytest.approx(
            fluids.friction.helical_transition_Re_Ito(bore, 2.0 * radius), rel=1e-9
        )


def test_turbulent_bends_lie_among_the_published_ones() -> None:
    straight = churchill(5e4, 0.0)[0]
    published = [
        getattr(fluids.friction, f"helical_turbulent_fd_{name}")(5e4, 0.014, 0.2) / straight
        for name in ("Mori_Nakayama", "Czop", "Guo", "Ju", "Prasad", "Mandal_Nigam")
        if name not in ("Ju",)
    ]

    assert min(published) < curved(5e4, 0.0, 0.07)[0] / straight < max(published)


def test_a_bend_never_loses_less_than_a_straight_line() -> None:
    for reynolds, ratio in itertools.product(REYNOLDS, (1e-4, 0.01, 0.2)):
        assert curved(reynolds, 1e-4, ratio)[0] >= churchill(reynolds, 1e-4)[0]


def test_oil_in_a_bent_hose_loses_1_4_times_its_straight_figure() -> None:
    assert bend_factor(79.3) == pytest.approx(1.43, abs=0.02)


def test_a_convoluted_hose_loses_four_to_six_times_a_smooth_one() -> None:
    # Hawthorne 1963, as an engineering page prints its formula; the figures are recomputed.
    for bore, pitch, factor in ((0.0127, 0.003, 0.135), (0.019, 0.004, 0.124)):
        found = convoluted(2e4, 0.0, pitch / bore)[0]

        assert found == pytest.approx(factor, abs=5e-4)
        assert 4.0 < found / churchill(2e4, 0.0)[0] < 6.0
    assert convoluted(800.0, 0.0, 0.236) == churchill(800.0, 0.0)
    assert convoluted(5e4, 1e-4, 0.0) == churchill(5e4, 1e-4)
