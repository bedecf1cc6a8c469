# SPDX-License-Identifier: Apache-2.0
"""Carburettors: what pressure stands at their needles, from which pump, through which regulator.

Pressures of pumps and needles: common practice.
"""

import pytest

from linewright.base.finding import Severity
from linewright.car.read import read_text
from linewright.flow.fluids import fuel
from linewright.flow.model import Flows, Margin, Verdict
from linewright.flow.run import run
from linewright.joints.termination import offer
from linewright.routes.lengths import lay

CAR = """
linewright = 1
[car]
name = "Two carburettors"
known = "read"
[systems.fuel]
fluid = "petrol"
hose  = "PTFE full-bore conductive"
size  = "-6"
[components]
ENG  = { kind = "engine", power = "90 kW" }
CELL = { kind = "fuel cell", bonded = true }
PUMP = { kind = "fuel pump" }
TEE  = { kind = "tee", system = "fuel", size = "-6" }
C1   = { kind = "carburettor" }
C2   = { kind = "carburettor" }
[ports]
"CELL.pick-up" = "-6 flare male"
"PUMP.in"  = "-6 flare male"
"PUMP.out" = "-6 flare male"
"C1.in" = "-6 flare male"
"C2.in" = "-6 flare male"
[lines]
F1 = { from = "CELL.pick-up", to = "PUMP.in", string = "600 mm", ends = ["straight", "straight"] }
F4 = { from = "PUMP.out", to = "TEE.run-a", string = "3000 mm", ends = ["straight", "straight"] }
F5 = { from = "TEE.run-b", to = "C1.in", string = "200 mm", ends = ["straight", "straight"] }
F6 = { from = "TEE.branch", to = "C2.in", string = "400 mm", ends = ["straight", "straight"] }
"""
PUMP = 'kind = "fuel pump"'
INJECTION = (PUMP, f'{PUMP}, rated-pressure = "3 bar"')
MECHANICAL = (PUMP, 'kind = "mechanical fuel pump"')
REGULATED = (
    'F4 = { from = "PUMP.out", to = "TEE.run-a"',
    'F3 = { from = "PUMP.out", to = "REG.in", string = "500 mm" }\n'
    'F4 = { from = "REG.out", to = "TEE.run-a"',
)
REGULATOR = (
    "TEE  =",
    'REG = { kind = "carburettor regulator", setting = "0.25 bar" }\nTEE  =',
)
ITS_PORTS = ("[lines]", '"REG.in" = "-6 flare male"\n"REG.out" = "-6 flare male"\n[lines]')


def flows(*changes: tuple[str, str]) -> Flows:
    text = CAR
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    car = read_text(text)
    joints = offer(car)
    return run(car, joints, lay(car, joints))


def margins(found: Flows, what: str) -> list[Margin]:
    return [m for s in found.states for m in s.margins if m.what == what]


def test_a_pump_for_injection_floods_carburettors() -> None:
    found = flows(INJECTION)
    told = [f for f in found.findings if f.code == "carburettor-floods"]

    assert [f.about for f in told] == [("C1.in",), ("C2.in",)]
    assert {f.severity for f in told} == {Severity.STOP}
    assert "limit 0.50 bar: above it the needle of a float chamber does not hold" in told[0].reason


@pytest.mark.parametrize("changes", [(), (MECHANICAL,)])
def test_a_pump_that_nothing_is_typed_of_is_one_for_carburettors(
    changes: tuple[tuple[str, str], ...],
) -> None:
    found = flows(*changes)

    assert [f for f in found.findings if f.code in ("carburettor-floods", "rail-low")] == []
    pressures = margins(found, "carburettor pressure")
    assert pressures
    for margin in pressures:
        assert 0.0 < margin.value.value < 0.5e5
    assert any(a.where == "PUMP" and "shut-pressure" in a.give for a in found.assumed)


def test_a_regulator_before_carburettors_holds_an_injection_pump_back() -> None:
    found = flows(INJECTION, REGULATED, REGULATOR, ITS_PORTS)

    assert [f for f in found.findings if f.code == "carburettor-floods"] == []
    for margin in margins(found, "carburettor pressure"):
        assert margin.value.value == pytest.approx(0.25e5, rel=0.2)


def test_a_needle_of_its_own_limit_is_held_against_that() -> None:
    found = flows(
        ('C1   = { kind = "carburettor" }', 'C1 = { kind = "carburettor", limit = "0.1 bar" }')
    )
    told = [f for f in found.findings if f.code in ("carburettor-floods", "flow-unsure")]

    assert ("C1.in",) in [f.about for f in told]
    assert ("C2.in",) not in [f.about for f in told]


def test_a_pump_too_small_for_its_engine_lets_the_float_chambers_run_low() -> None:
    found = flows((PUMP, f'{PUMP}, flow = "12 L/h", shut-pressure = "0.3 bar"'))

    assert ("rail-low", ("C1.in",)) in [(f.code, f.about) for f in found.findings]


def test_vapour_is_known_no_better_than_the_fuel_is() -> None:
    found = flows()
    margin = next(
        m
        for s in found.states
        if s.condition == "full-power"
        for m in s.margins
        if m.what == "inlet over vapour"
    )

    # 5 to 30 K over air of 35 °C, and summer petrol of 7 to 10 psi (common practice).
    petrol = fuel("petrol")
    hottest = petrol.vapour_pressure(273.15 + 65.0) - petrol.vapour_pressure(273.15 + 50.0)
    assert margin.value.value - margin.value.low > hottest
    assert margin.verdict is Verdict.UNSURE
    assert "the temperature of the fuel in the tank" in margin.measure


def test_a_typed_fuel_temperature_narrows_what_is_known_of_its_vapour() -> None:
    typed = ("[lines]", '[conditions.full-power]\nstart = { fuel = "45 °C" }\n[lines]')

    def wide(found: Flows) -> float:
        state = found.state("fuel", "full-power")
        assert state is not None
        band = next(m.value for m in state.margins if m.what == "inlet over vapour")
        return band.high - band.low

    assert wide(flows(typed)) < 0.5 * wide(flows())
