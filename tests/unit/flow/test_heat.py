# SPDX-License-Identifier: Apache-2.0
"""The thermal pass: energy is kept, controls hold, doubts of heat move temperatures."""

import numpy as np
import pytest

from linewright.flow.build import build, ways
from linewright.flow.case import cases
from linewright.flow.defaults import Ledger
from linewright.flow.steady import Settled, begin, film, settle
from tests.flowing import flows, laid


def _settled(name: str, system: str, condition: str) -> Settled:
    car, joints, routes = laid(name)
    ledger = Ledger()
    case = next(c for c in cases(car, ledger) if c.name == condition)
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
    found = _settled("juniper", "coolant", "hot-idle")

    assert 0.0 < found.held < 0.5
    assert found.hottest() == pytest.approx(355.15, abs=0.5)


def test_a_thermostat_is_shut_at_idle_and_open_at_full_power() -> None:
    assert _settled("club-roadster", "oil", "hot-idle").opening["TH"] < 0.01
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
