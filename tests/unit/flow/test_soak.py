# SPDX-License-Identifier: Apache-2.0
"""Lumps of heat in time, against an integrator, and their balance of energy."""

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from linewright.base.errors import FlowError
from linewright.flow.line_heat import line_conductance, line_outlet
from linewright.flow.soak import Mass, Tie, course

MASSES = [Mass("turbo", 3e3, 900.0), Mass("block", 9e4, 370.0, 200.0), Mass("oil", 1.4e4, 390.0)]
TIES = [
    Tie("turbo", "oil", 4.0),
    Tie("oil", "block", 60.0),
    Tie("block", "air", 25.0),
    Tie("turbo", "air", 1.5),
    Tie("air", "oil", 2.0),
]
FIXED = {"air": 308.15}
TIMES = (0.0, 1e-3, 10.0, 300.0, 1200.0, 1e6)


def test_a_soak_agrees_with_an_integrator() -> None:
    ours = course(MASSES, TIES, FIXED, TIMES[:5])
    at = {mass.id: n for n, mass in enumerate(MASSES)}

    def slope(_: float, t: np.ndarray) -> np.ndarray:
        heat = np.array([mass.heat for mass in MASSES])
        for tie in TIES:
            ends = [t[at[e]] if e in at else FIXED[e] for e in (tie.a, tie.b)]
            for end, sign in ((tie.a, -1.0), (tie.b, 1.0)):
                if end in at:
                    heat[at[end]] += sign * tie.conductance * (ends[0] - ends[1])
        return heat / np.array([mass.capacity for mass in MASSES])

    theirs = solve_ivp(
        slope,
        (0.0, 1200.0),
        [m.temperature for m in MASSES],
        t_eval=TIMES[:5],
        rtol=1e-10,
        atol=1e-8,
    )

    assert ours.temperatures == pytest.approx(theirs.y.T, rel=1e-7)


def test_energy_is_kept_to_a_billionth() -> None:
    found = course(MASSES, TIES, FIXED, TIMES)
    capacity = np.array([mass.capacity for mass in MASSES])
    start = np.array([mass.temperature for mass in MASSES])
    stored = (found.temperatures - start) @ capacity
    put_in = sum(mass.heat for mass in MASSES) * found.times

    assert stored + found.given["air"] == pytest.approx(put_in, rel=1e-9, abs=1e-3)


def test_lumps_that_lose_nothing_keep_what_they_are_given() -> None:
    alone = course([Mass("bucket", 1000.0, 300.0, 50.0)], [], {}, [100.0])

    assert alone.of("bucket")[0] == pytest.approx(305.0)


def test_a_lump_that_cannot_be_is_refused_in_words() -> None:
    with pytest.raises(FlowError) as empty:
        course([Mass("oil", 0.0, 300.0)], [], {}, [1.0])
    with pytest.raises(FlowError) as nowhere:
        course([Mass("oil", 1.0, 300.0)], [Tie("oil", "moon", 1.0)], {}, [1.0])

    assert str(empty.value) == (
        "oil: a heat capacity of 0 J/K holds no heat; it must be more than 0. Give its mass and "
        "its specific heat capacity."
    )
    assert str(nowhere.value) == (
        "oil to moon: a heat conductance must join a mass to a mass or to a fixed temperature, "
        "and be 0 or more; it is 1 W/K, and there is no moon. Name both ends."
    )


def test_a_line_nears_what_is_round_it() -> None:
    lost = line_conductance(0.0143, 0.024, 500.0, 0.25, 10.0)

    assert line_outlet(380.0, 300.0, lost * 1e6, 40.0) == pytest.approx(300.0)
    assert line_outlet(380.0, 300.0, 0.0, 40.0) == 380.0
    assert line_outlet(380.0, 300.0, lost, 0.0) == 300.0
    with pytest.raises(FlowError) as refused:
        line_conductance(0.02, 0.02, 500.0, 0.25, 10.0)
    assert str(refused.value) == (
        "A line of 20 mm bore and 20 mm outside has no wall. Type the outside greater than the bore."
    )
