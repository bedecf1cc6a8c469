# SPDX-License-Identifier: Apache-2.0
"""Pumps from few figures, and what is refused of them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linewright.base.errors import FlowError
from linewright.flow import pumps
from linewright.tables.rules import rule


def test_a_curve_goes_through_three_points_where_it_can() -> None:
    points = [(0.0, 12.0), (1e-3, 11.0), (2e-3, 8.0)]
    found = pumps.curve(points)

    for flow, head in points:
        assert found.head(flow) == pytest.approx(head)
    assert found.misfit == pytest.approx(0.0, abs=1e-9)
    assert not found.is_loose


def test_a_curve_that_would_rise_at_first_is_the_nearest_that_does_not() -> None:
    found = pumps.curve([(0.0, 10.0), (1e-3, 9.95), (2e-3, 5.0)])

    assert found.a1 <= 0.0
    assert found.a2 <= 0.0
    assert 0.0 < found.misfit < 1.5


@given(
    st.lists(st.floats(0.01, 1.0), min_size=2, max_size=5),
    st.lists(st.floats(0.0, 5.0), min_size=5, max_size=5),
)
def test_every_curve_that_is_made_falls(steps: list[float], falls: list[float]) -> None:
    flow, head, points = 0.0, 20.0, []
    for step, fall in zip(steps, falls, strict=False):
        points.append((flow * 1e-3, head))
        flow += step
        head -= min(fall, 0.9 * head)
    found = pumps.curve(points)

    assert found.a1 <= 0.0
    assert found.a2 <= 0.0
    assert found.a0 > 0.0


def _refusal(points: list[tuple[float, float]]) -> str:
    with pytest.raises(FlowError) as refused:
        pumps.curve(points, "CP")
    return str(refused.value)


def test_a_curve_that_rises_is_refused_in_words() -> None:
    assert _refusal([(0.0, 8.0), (1e-3, 9.0), (2e-3, 5.0)]) == (
        "CP: the pump curve rises from 8 m at 0 L/min to 9 m at 60 L/min; it must fall, or the "
        "pump has two flows at one head. Check these points, or leave out those left of the summit."
    )
    assert _refusal([(1e-3, 9.0)]) == (
        "CP: 1 point of a pump curve is not enough. Give the flow and the pressure at two points "
        "or better three: shut, near its duty, and wide open."
    )
    assert _refusal([(-1e-3, 9.0), (1e-3, 8.0)]) == (
        "CP: a point of the pump curve has a flow of -60 L/min and a head of 9 m; a pump gives "
        "flow forward and head up. Type both above 0."
    )


def test_a_pump_slips_most_when_the_oil_is_hot() -> None:
    # Wilson's law: what is lost goes as pressure over viscosity.
    lost = pumps.slip(20e-6, 50.0, 0.92, 5e5, 0.012)
    at_test, hot = (20e-6 * 50.0 - lost * 5e5 / mu for mu in (0.012, 0.006))

    assert at_test == pytest.approx(0.92 * 20e-6 * 50.0)
    assert hot == pytest.approx(0.84 * 20e-6 * 50.0)


def test_an_impossible_efficiency_is_refused_in_words() -> None:
    with pytest.raises(FlowError) as refused:
        pumps.slip(20e-6, 50.0, 1.1, 5e5, 0.012, "OP")
    with pytest.raises(FlowError) as still:
        pumps.slip(20e-6, 0.0, 0.9, 5e5, 0.012, "OP")

    assert str(refused.value) == (
        "OP: a volumetric efficiency of 110 % is impossible; it is more than 0 and at most "
        "100 %. Give flow over displacement times speed."
    )
    assert str(still.value) == (
        "OP: displacement, speed, pressure and viscosity of its test point must all be more than "
        "0. Give the point at which its efficiency was measured."
    )


def test_an_electric_pump_gives_less_the_higher_the_pressure_and_never_takes() -> None:
    # System B: 340 L/h at 3 bar, 12 % less a bar, gives 291 at 4.2 bar [computed beforehand].
    fall = rule("R80").value

    assert pumps.electric_flow(340.0, 3e5, 4.2e5, fall) == pytest.approx(291.0, abs=0.5)
    assert pumps.electric_flow(340.0, 3e5, 30e5, fall) == 0.0
