# SPDX-License-Identifier: Apache-2.0
"""What an engine asks for."""

import pytest

from linewright.base.errors import FlowError
from linewright.base.evidence import Grade
from linewright.flow import demand
from linewright.flow.fluids import fuel
from linewright.tables.rules import rule


def test_system_b_burns_168_litres_an_hour() -> None:
    # 260 kW, 0.36 kg/kWh times 1.4 for E85 at 20 C [computed beforehand].
    found = demand.fuel_flow(260e3, demand.consumption("E85", "boosted").value)
    litres = found / fuel("E85").density(293.15) * 3.6e6

    assert litres == pytest.approx(168.0, abs=0.6)
    assert litres * rule("R79").value == pytest.approx(209.0, abs=1.0)


def test_consumption_carries_its_range_and_its_weakest_grade() -> None:
    found = demand.consumption("methanol", "natural")

    assert found.low is not None
    assert found.high is not None
    assert found.low < found.value < found.high
    assert found.grade is not Grade.READ
    with pytest.raises(FlowError) as refused:
        demand.consumption("coal")
    assert str(refused.value) == (
        "There is no rule for the consumption of coal in a natural engine. Give the specific "
        "consumption, or name petrol, E85 or methanol and natural, boosted or rotary."
    )
    with pytest.raises(FlowError) as nothing:
        demand.fuel_flow(1e5, 0.0)
    assert str(nothing.value) == (
        "A power of 100 kW at 0 g/kWh asks for no fuel; both must be more than 0. Type the power "
        "at the brake."
    )


def test_an_injector_held_against_its_rail_gives_nothing() -> None:
    assert demand.injector_flow(1.0, 3e5, -1e4) == 0.0


def test_a_compressor_heats_and_an_impossible_one_is_refused() -> None:
    perfect, real = (demand.compressed(300.0, 2.0, e) for e in (1.0, 0.7))

    assert perfect == pytest.approx(300.0 * 2.0 ** (0.4 / 1.4))
    assert real - 300.0 == pytest.approx((perfect - 300.0) / 0.7)
    with pytest.raises(FlowError) as refused:
        demand.compressed(300.0, 0.9, 0.7)
    assert str(refused.value) == (
        "A compressor of 70 % efficiency at a pressure ratio of 0.9: the efficiency is more than "
        "0 and at most 100 %, the ratio at least 1. Give absolute pressures."
    )
