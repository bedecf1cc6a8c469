# SPDX-License-Identifier: Apache-2.0
"""Air in pipes, against an independent library."""

from math import pi

import fluids
import pytest

from linewright.base.errors import FlowError
from linewright.flow import gas

ARGUMENTS = {"temperature": 330.0, "bore": 0.0635}


@pytest.mark.parametrize("flow", [0.05, 0.3, 0.8, 1.2])
def test_isothermal_flow_agrees_with_an_independent_library(flow: float) -> None:
    outlet = gas.outlet_pressure(flow, 250e3, coefficient=1.5, **ARGUMENTS)
    density = 250e3 / (287.05 * 330.0)
    theirs = fluids.isothermal_gas(
        rho=density, fd=1.5 * 0.0635 / 2.0, P1=250e3, P2=outlet, L=2.0, D=0.0635
    )

    assert theirs == pytest.approx(flow, rel=1e-6)
    assert gas.isothermal_flow(250e3, outlet, coefficient=1.5, **ARGUMENTS) == pytest.approx(flow)


def test_a_small_drop_is_that_of_a_liquid_of_mean_density() -> None:
    outlet = gas.outlet_pressure(0.3, 250e3, coefficient=1.5, **ARGUMENTS)
    density = 0.5 * (250e3 + outlet) / (287.05 * 330.0)
    speed = 0.3 / (density * 0.25 * pi * 0.0635**2)

    assert 250e3 - outlet == pytest.approx(1.5 * 0.5 * density * speed**2, rel=0.02)


def test_a_pipe_that_chokes_passes_no_more_and_says_so() -> None:
    most, pressure = gas.choked(250e3, coefficient=1.5, **ARGUMENTS)

    assert gas.isothermal_flow(250e3, 0.5 * pressure, coefficient=1.5, **ARGUMENTS) == most
    assert gas.isothermal_flow(250e3, 260e3, coefficient=1.5, **ARGUMENTS) == 0.0
    with pytest.raises(FlowError) as refused:
        gas.outlet_pressure(2.0 * most, 250e3, coefficient=1.5, **ARGUMENTS)
    assert str(refused.value) == (
        "A pipe of 63.5 mm bore chokes at 1.311 kg/s and cannot carry 2.623 kg/s from 250 kPa "
        "absolute. Take a larger bore."
    )


def test_an_elbow_is_pushed_by_both_its_legs() -> None:
    straight = gas.thrust(1e5, 0.05)

    assert gas.thrust(1e5, 0.05, pi) == pytest.approx(2.0 * straight)
    assert gas.thrust(1e5, 0.05, pi / 3) == pytest.approx(straight)


def test_the_mach_number_of_a_pipe_without_bore_is_beyond_all() -> None:
    assert gas.mach(0.3, 250e3, 330.0, 0.0) == float("inf")
