# SPDX-License-Identifier: Apache-2.0
"""The thermal pass: energy is kept, controls hold, doubts of heat move temperatures."""

from dataclasses import replace

import numpy as np
import pytest

from linewright.flow.build import build, ways
from linewright.flow.case import cases, cycles
from linewright.flow.defaults import Ledger
from linewright.flow.steady import Settled, begin, film, settle
from tests.flowing import flows, laid


def _settled(name: str, system: str, condition: str, is_let: bool = False) -> Settled:
    """A system in a condition; let settle where it would stand after a hard run."""
    car, joints, routes = laid(name)
    ledger = Ledger()
    case = next(c for c in cases(car, ledger) if c.name == condition)
    case = replace(case, state="hot") if is_let else case
    known = ways(car, routes)
    begun = [begin(build(car, joints, known, s, case, ledger)) for s in car.systems.values()]
    settle(begun)
    return next(s for s in begun if s.built.system.id == system)


@pytest.mark.parametrize("system", ["coolant", "charge-coolant"])
def test_what_a_loop_takes_up_it_gives_off(system: str) -> None:
    found = _settled("juniper", system, "full-power")
    assert found.warmth is not None
    flows_, capacity = found.found.flows, found.built.fluid.heat_capacity(found.at_nodes.mean())
    gained = np.abs(flows_) * capacity * (found.warmth.outlets - found.warmth.inlets)

    assert found.is_settled
    # The stirring of what stands carries a ten-millionth of a kilogram a second.
    assert abs(gained.sum()) < 1e-6 * np.abs(gained).sum()


def test_the_heat_of_the_engine_is_what_its_loop_takes_up_there() -> None:
    found = _settled("juniper", "coolant", "full-power")
    assert found.warmth is not None
    i = found.packed.link["ENG:block"]
    capacity = found.built.fluid.heat_capacity(found.at_nodes.mean())
    taken = found.found.flows[i] * capacity * (found.warmth.outlets[i] - found.warmth.inlets[i])

    assert taken == pytest.approx(0.75 * 330e3, rel=1e-6)


def test_a_controlled_loop_stands_at_its_temperature_at_idle() -> None:
    found = _settled("juniper", "coolant", "hot-idle", is_let=True)

    assert 0.0 < found.held < 0.5
    assert found.hottest() == pytest.approx(355.15, abs=0.5)


def test_a_thermostat_is_shut_at_idle_and_open_at_full_power() -> None:
    assert _settled("club-roadster", "oil", "hot-idle", is_let=True).opening["TH"] < 0.01
    assert _settled("club-roadster", "oil", "full-power").opening["TH"] > 0.9


def test_cold_systems_are_as_cold_as_the_air() -> None:
    state = flows("juniper").state("coolant", "cold-start")

    assert state is not None
    assert {p.temperature.value for p in state.ports.values()} == {273.15}
    assert state.heat == {}


def test_what_scavenge_pumps_return_is_mostly_air() -> None:
    found = _settled("juniper", "oil", "full-power")
    link = found.packed.link
    oil = found.found.flows[link["oil-pump:pressure-stage"]]
    oil -= found.found.flows[link["oil-pump:relief"]]

    assert 0.5 < found.air < 0.9
    # Mass that comes back is mass that was pumped.
    assert found.found.flows[link["O11a"]] == pytest.approx(oil, rel=0.06)


def test_films_are_no_warmer_than_oil_that_is_hot() -> None:
    assert film(373.15, 40.0) == 373.15
    assert film(273.15, 40.0) == 313.15


def test_after_a_hard_run_oil_stands_at_110_and_coolant_where_its_thermostat_is_wide_open() -> None:
    # 110 (105 to 120) degrees of oil; 82 (75 to 90) and 12 K of the thermostat [common practice].
    oil = flows("club-roadster").state("oil", "hot-idle")
    coolant = flows("juniper").state("coolant", "hot-idle")
    assert oil is not None
    assert coolant is not None
    assert oil.stands is not None
    assert coolant.stands is not None
    at = [(b.low - 273.15, b.value - 273.15, b.high - 273.15) for b in (oil.stands, coolant.stands)]

    assert at[0] == pytest.approx((105.0, 110.0, 120.0))
    assert at[1] == pytest.approx((87.0, 94.0, 102.0))
    assert {p.temperature.value for p in oil.ports.values()} == {oil.stands.value}
    assert "oil temperature" not in {m.what for m in oil.margins}


def test_a_typed_start_of_hot_idle_is_where_the_oil_stands() -> None:
    typed = ("[closed]", '[conditions.hot-idle]\nstart = { oil = "98 °C" }\n\n[closed]')
    state = flows("club-roadster", typed).state("oil", "hot-idle")
    assert state is not None
    assert state.stands is not None

    assert state.stands.value == state.stands.low == state.stands.high == pytest.approx(371.15)


def test_oil_pressure_is_less_well_known_where_its_temperature_is_not_typed() -> None:
    def pressure(start: str) -> tuple[float, float]:
        typed = ("[closed]", f"[conditions.hot-idle]\nair = '30 °C'\n{start}\n[closed]")
        state = flows("club-roadster", typed).state("oil", "hot-idle")
        assert state is not None
        held = next(m for m in state.margins if m.what == "gallery pressure")
        return held.value.value, held.value.high - held.value.low

    assumed, wide = pressure("")
    typed, narrow = pressure('start = { oil = "110 °C" }')
    cooler, _ = pressure('start = { oil = "60 °C" }')

    assert typed == pytest.approx(assumed)
    assert narrow < wide
    assert cooler > 1.3 * typed


def test_what_is_followed_begins_out_of_an_idle_that_settled() -> None:
    car, _, _ = laid("club-roadster")
    ledger = Ledger()
    idle = next(c for c in cases(car, ledger) if c.name == "hot-idle")
    before = next(c.before for c in cycles(car, ledger) if c.name == "pull")

    assert idle.is_after_run
    assert not before.is_after_run
    assert before.name == "hot-idle"
