# SPDX-License-Identifier: Apache-2.0
"""Steps in time against closed forms: one lump, two lumps, and a lump that follows at once."""

from math import exp, sqrt

import numpy as np
import pytest

from linewright.flow.implicit import Stepper


def _through(
    capacity: list[float],
    matrix: list[list[float]],
    right: list[float],
    start: list[float],
    step: float,
    count: int,
) -> tuple[np.ndarray, float]:
    """End of many steps, and what is stored less what came in, over all that came in."""
    stepper = Stepper(np.array([capacity]), np.array([matrix]), step)
    at, came = np.array([start]), 0.0
    for _ in range(count):
        taken = stepper.take(at, np.array([right]))
        came += step * float((np.array(right) - taken.mean[0] @ np.array(matrix).T).sum())
        at = taken.end
    stored = float(np.array(capacity) @ (at[0] - np.array(start)))
    return at[0], (stored - came) / abs(came)


def test_a_lump_nears_what_is_round_it_as_an_exponential() -> None:
    # Lumped capacitance: (T - T_air) / (T_0 - T_air) = exp(-t UA / C) [Incropera, eq. 5.6].
    end, amiss = _through([9e4], [[45.0]], [45.0 * 300.0], [380.0], 20.0, 200)

    assert end[0] == pytest.approx(300.0 + 80.0 * exp(-4000.0 * 45.0 / 9e4), abs=2e-3)
    assert abs(amiss) < 1e-11


def test_two_lumps_follow_their_two_time_constants() -> None:
    # C1 T1' = -G (T1 - T2), C2 T2' = G (T1 - T2) - H T2: two exponentials, roots of a quadratic.
    c1, c2, g, h = 4e4, 2e4, 60.0, 20.0
    b, c = g / c1 + (g + h) / c2, g * h / (c1 * c2)
    fast, slow = ((b + s * sqrt(b * b - 4.0 * c)) / 2.0 for s in (1.0, -1.0))
    t, hot = 1500.0, 100.0
    slope = -g / c1 * hot
    first = (slope + slow * hot) / (slow - fast)
    expected = first * exp(-fast * t) + (hot - first) * exp(-slow * t)
    end, amiss = _through([c1, c2], [[g, -g], [-g, g + h]], [0.0, 0.0], [hot, 0.0], 5.0, 300)

    assert end[0] == pytest.approx(expected, rel=1e-5)
    assert abs(amiss) < 1e-11


def test_a_step_of_half_the_length_is_wrong_by_a_quarter() -> None:
    exact = 100.0 * exp(-1.0)
    off = [
        abs(_through([1e3], [[10.0]], [0.0], [100.0], 100.0 / n, n)[0][0] - exact)
        for n in (10, 20, 40)
    ]

    assert off[0] / off[1] == pytest.approx(4.0, rel=0.1)
    assert off[1] / off[2] == pytest.approx(4.0, rel=0.1)


def test_a_node_that_holds_no_heat_stands_between_its_neighbours_however_long_the_step() -> None:
    matrix = [[3.0, -3.0], [-3.0, 4.0]]
    end, _ = _through([1e5, 0.0], matrix, [0.0, 300.0], [400.0, 0.0], 50.0, 3)

    assert end[1] == pytest.approx((3.0 * end[0] + 300.0) / 4.0, rel=1e-12)


def test_the_error_that_a_step_tells_grows_with_its_length() -> None:
    errors = []
    for step in (10.0, 20.0, 40.0):
        stepper = Stepper(np.array([[1e3]]), np.array([[[10.0]]]), step)
        taken = stepper.take(np.array([[100.0]]), np.zeros((1, 1)))
        errors.append(float(taken.error[0]))
        assert errors[-1] > abs(float(taken.end[0, 0]) - 100.0 * exp(-step / 100.0))

    assert errors == sorted(errors)
    assert errors[2] > 8.0 * errors[0]


def test_heat_put_in_warms_the_end_of_a_step_as_its_response_says() -> None:
    stepper = Stepper(np.array([[5e3, 2e3]]), np.array([[[9.0, -4.0], [-4.0, 4.0]]]), 30.0)
    start, heat = np.array([[50.0, 20.0]]), np.array([[700.0, 0.0]])
    with_heat = stepper.take(start, heat).end
    without = stepper.take(start, np.zeros((1, 2))).end

    assert with_heat - without == pytest.approx(stepper.response(heat), rel=1e-12)
