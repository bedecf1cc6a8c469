# SPDX-License-Identifier: Apache-2.0
"""Shares of draws for which a pair of hose ends still works, against normal tails by hand."""

from collections.abc import Collection
from math import erf, radians, sqrt

import numpy as np
import pytest

from linewright.base.draws import stream
from linewright.base.vectors import between, dot
from linewright.proofs.sureness import (
    Ask,
    Pair,
    Port,
    chosen,
    frames,
    scattered,
    sure,
    survey,
    unsure,
)
from linewright.routes.route import BandRow, Route
from linewright.space.free import collar
from linewright.space.model import EndShape, Frame
from linewright.space.path import Path

UP = (0.0, 0.0, 1.0)
BAND = (
    BandRow(0, 0, True, cost=1.0),
    BandRow(90, 90, True, cost=1.2),
    BandRow(45, 45, False, why_not="would loop"),
)


def _port(name: str, x: float, spread: float = 0.0, tilt: float = 0.0) -> Port:
    return Port(name, Frame((x, 0.0, 0.0), UP, (1.0, 0.0, 0.0), spread=spread, tilt=radians(tilt)))


def _upright(most: float) -> Ask:
    """Pair straight works while A leans under so much, the 90s always."""

    def ask(a: Frame, _: Frame) -> Collection[Pair]:
        return {(90, 90)} | ({(0, 0)} if between(a.out, UP) < radians(most) else set())

    return ask


def test_places_scatter_as_wide_as_they_are_known() -> None:
    port, draw = _port("T.a", 0.3, spread=0.008), stream(1, "x")
    found = np.array([scattered(port, draw).origin for _ in range(4000)])

    np.testing.assert_allclose(found.mean(axis=0), (0.3, 0.0, 0.0), atol=5e-4)
    np.testing.assert_allclose(found.std(axis=0), 0.008, rtol=0.05)


def test_directions_scatter_as_wide_as_they_are_known_and_stay_square() -> None:
    port, draw = _port("T.a", 0.0, tilt=5.0), stream(1, "x")
    drawn = [scattered(port, draw) for _ in range(4000)]
    leans = np.array([between(each.out, UP) for each in drawn])

    # Two normal parts of 5°: the mean square of the lean is twice that of each.
    assert sqrt(np.mean(leans**2) / 2) == pytest.approx(radians(5.0), rel=0.05)
    assert max(abs(dot(each.out, each.side)) for each in drawn) < 1e-12


def test_ports_of_one_component_move_together_by_half_of_their_variance() -> None:
    drawn = frames(1, "x", _port("T.a", 0.0, 0.01), _port("T.b", 0.2, 0.01), 4000)
    a = np.array([pair[0].origin[0] for pair in drawn])
    b = np.array([pair[1].origin[0] for pair in drawn])

    assert a.std() == pytest.approx(0.01, rel=0.05)
    assert np.corrcoef(a, b)[0, 1] == pytest.approx(0.5, abs=0.05)


def test_ports_of_two_components_move_apart() -> None:
    drawn = frames(1, "x", _port("T.a", 0.0, 0.01), _port("U.b", 0.2, 0.01), 4000)
    a, b = (np.array([pair[k].origin[0] for pair in drawn]) for k in (0, 1))

    assert abs(np.corrcoef(a, b)[0, 1]) < 0.05


def test_a_share_is_that_of_the_normal_tail() -> None:
    # The pair works while port A is no more than 10 mm to the right of where it was taped.
    def ask(a: Frame, _: Frame) -> Collection[Pair]:
        return {(0, 0)} if a.origin[0] < 0.010 else set()

    told = survey(BAND[:1], _port("T.a", 0.0, 0.008), _port("U.b", 0.4), ask, count=2000)
    by_hand = (1 + erf(0.010 / 0.008 / sqrt(2))) / 2

    assert told is not None
    assert told.share == pytest.approx(by_hand, abs=0.025)


def test_the_pair_that_survives_most_is_taken_though_it_costs_more() -> None:
    told = survey(BAND, _port("T.a", 0.0, tilt=30.0), _port("U.b", 0.4), _upright(10.0))

    assert told is not None
    assert told.chosen == (90, 90)
    assert told.share == 1.0
    assert told.shares[0, 0] < 0.3
    assert told.cures == ()


def test_of_pairs_that_draws_cannot_tell_apart_the_cheapest_is_taken() -> None:
    told = survey(BAND, _port("T.a", 0.0, tilt=1.0), _port("U.b", 0.4), _upright(10.0))

    assert told is not None
    assert told.chosen == (0, 0)


def test_a_pair_that_does_not_work_where_the_ports_were_typed_is_never_chosen() -> None:
    assert chosen(BAND, {(45, 45): 1.0, (0, 0): 0.5, (90, 90): 0.1}, 100) == (0, 0)
    assert chosen(BAND[2:], {(45, 45): 1.0}, 100) is None


def test_what_would_make_it_sure_is_said() -> None:
    told = survey(
        BAND,
        _port("T.a", 0.0, tilt=30.0),
        _port("U.b", 0.4, spread=0.15),
        _upright(15.0),
        is_fixed=True,
    )

    assert told is not None
    assert told.chosen == (0, 0)
    first, second = told.cures
    assert first.text == "order straight/straight and 90°/90°"
    assert first.share == 1.0
    assert second.text == "measure the direction of T.a to 5°"
    # A lean of two normal parts of 5° is under 15° in 1 − exp(−15²/(2·5²)) of cases (Rayleigh).
    assert second.share == pytest.approx(1 - np.exp(-4.5), abs=0.03)
    (finding,) = unsure("O01", told)
    assert finding.code == "unsure-ends"
    assert finding.remedy.startswith(
        "Order straight/straight and 90°/90° (then 100%); or measure the direction of T.a to 5°"
    )


def test_a_sure_pair_has_no_finding() -> None:
    told = survey(BAND, _port("T.a", 0.0), _port("U.b", 0.4), _upright(10.0))

    assert told is not None
    assert unsure("O01", told) == ()


def test_the_draws_of_one_line_are_not_moved_by_another() -> None:
    a, b = _port("T.a", 0.0, 0.01), _port("U.b", 0.2, 0.01)
    alone = frames(1, "count", a, b, 5)
    frames(1, "count", _port("V.c", 0.0, 0.01), b, 5)

    assert frames(1, "count", a, b, 5) == alone


def test_the_route_carries_the_share_of_each_pair() -> None:
    a, b = _port("T.a", 0.0), _port("U.b", 0.4)
    straight = EndShape(0, 0.06, 0.0)
    route = Route(
        "O01",
        collar(a.frame, straight, 0.0),
        collar(b.frame, straight, 0.0),
        Path(((0.0, 0.0, 0.0), (0.4, 0.0, 0.0)), ()),
        0.4,
        None,
        0.3,
        None,
        BAND,
    )
    told = survey(BAND, a, b, _upright(10.0))
    assert told is not None

    done = sure(route, told)

    assert done.sureness == 1.0
    assert [row.sureness for row in done.band] == [1.0, 1.0, None]
