# SPDX-License-Identifier: Apache-2.0
"""Oil that is cooled by coolant: two systems that pass heat to each other, steady and in time."""

from functools import cache

import numpy as np
import pytest

from linewright.car.read import read_text
from linewright.flow.build import ways
from linewright.flow.case import cycles
from linewright.flow.cycle import Maker, follow
from linewright.flow.defaults import Ledger
from linewright.flow.exchangers import Arrangement, effectiveness
from linewright.flow.model import Flows
from linewright.flow.run import run
from linewright.joints.termination import offer
from linewright.routes.lengths import lay

CAR = """
linewright = 1
[car]
name = "water-cooled oil"
[systems.oil]
fluid = "10W-40"
hose  = "rubber braided"
size  = "-10"
[systems.coolant]
fluid = "50 % glycol"
hose  = "silicone"
size  = "32 mm"
[conditions.queue]
engine-speed = "900 rpm"
power = "1 %"
car-speed = "0 km/h"
[components]
ENG = { kind = "engine", power = "150 kW" }
TOP = { kind = "filter take-off plate", on = "ENG.filter" }
OWX = { kind = "oil-water exchanger" }
RAD = { kind = "radiator" }
[ports]
"ENG.filter" = { end = "3/4-16 spin-on male", known = "read" }
"ENG.coolant-in" = { end = "32 mm bead", known = "read" }
"ENG.coolant-out" = { end = "32 mm bead", known = "read" }
"ENG.heater-out" = { end = "16 mm bead", known = "read" }
"ENG.heater-in" = { end = "16 mm bead", known = "read" }
"RAD.in" = { end = "32 mm bead", known = "read" }
"RAD.out" = { end = "32 mm bead", known = "read" }
"TOP.OUT" = { end = "1/2 NPT female", known = "tried" }
"TOP.IN" = { end = "1/2 NPT female", known = "tried" }
"OWX.oil-in" = { end = "-10 ORB female", known = "read" }
"OWX.oil-out" = { end = "-10 ORB female", known = "read" }
"OWX.water-in" = { end = "16 mm bead", known = "read" }
"OWX.water-out" = { end = "16 mm bead", known = "read" }
[lines]
L1 = { from = "TOP.OUT", to = "OWX.oil-in", string = "500 mm", ends = ["straight", "straight"] }
L2 = { from = "OWX.oil-out", to = "TOP.IN", string = "500 mm", ends = ["straight", "straight"] }
C1 = { from = "ENG.coolant-out", to = "RAD.in", string = "700 mm" }
C2 = { from = "RAD.out", to = "ENG.coolant-in", string = "700 mm" }
C3 = { from = "ENG.heater-out", to = "OWX.water-in", string = "500 mm", size = "16 mm" }
C4 = { from = "OWX.water-out", to = "ENG.heater-in", string = "500 mm", size = "16 mm" }
"""


@cache
def _maker() -> Maker:
    car = read_text(CAR)
    joints = offer(car)
    routes = lay(car, joints)
    return Maker(car, joints, ways(car, routes), Ledger(car.settings))


@cache
def _flows() -> Flows:
    car = read_text(CAR)
    joints = offer(car)
    return run(car, joints, lay(car, joints))


@pytest.mark.parametrize("condition", ["queue", "full-power"])
def test_what_the_oil_loses_the_coolant_gains(condition: str) -> None:
    oil, coolant = _flows().state("oil", condition), _flows().state("coolant", condition)

    assert oil is not None
    assert coolant is not None
    assert coolant.heat["OWX"].value == pytest.approx(-oil.heat["OWX"].value, rel=5e-3)


def test_a_cooler_of_oil_passes_what_counterflow_gives_at_its_number_of_transfer_units() -> None:
    # Effectiveness of counterflow, (1 - e^-N(1-C)) / (1 - C e^-N(1-C)) [Incropera, eq. 11.29a],
    # from the conductance that the core has at these flows.
    oil, coolant = _flows().state("oil", "full-power"), _flows().state("coolant", "full-power")
    assert oil is not None
    assert coolant is not None
    hot, cold = oil.ports["OWX.oil-in"], coolant.ports["OWX.water-in"]
    case = next(
        p.case for c in cycles(_maker().car, _maker().ledger) for p in c.phases if p.case.is_full
    )
    built = _maker().built("oil", case)
    (core,) = built.cores
    rates = [
        abs(oil.lines["L1"].flow.value) * built.fluid.heat_capacity(hot.temperature.value),
        coolant.lines["C3"].flow.value
        * _maker().built("coolant", case).fluid.heat_capacity(cold.temperature.value),
    ]
    low, high = min(rates), max(rates)
    conductance = core.exchanger.at(coolant.lines["C3"].flow.value, oil.lines["L1"].flow.value)
    good = effectiveness(Arrangement.COUNTER, conductance / low, low / high)
    n, c = conductance / low, low / high
    by_hand = (1 - np.exp(-n * (1 - c))) / (1 - c * np.exp(-n * (1 - c)))

    assert good == pytest.approx(by_hand, rel=1e-9)
    passes = good * low * (hot.temperature.value - cold.temperature.value)
    assert -oil.heat["OWX"].value == pytest.approx(passes, rel=0.02)


def test_heat_is_kept_between_oil_and_coolant_through_a_session_and_its_soak() -> None:
    maker = _maker()
    for cycle in cycles(maker.car, maker.ledger):
        found = follow(maker, cycle)

        assert found.accounts["oil"] is found.accounts["coolant"]
        assert np.abs(found.accounts["oil"].amiss()).max() < 1e-9
        assert {t.system for t in found.tales} == {"oil", "coolant"}


def test_coolant_warms_oil_that_is_colder() -> None:
    car = (
        CAR
        + """
[conditions.warm-up]
lasts = "10 min"
start = { oil = "20 °C", coolant = "80 °C" }
engine-speed = "1500 rpm"
power = "3 %"
"""
    )
    read = read_text(car)
    joints = offer(read)
    found = run(read, joints, lay(read, joints), ["warm-up"])
    state = found.state("oil", "warm-up")

    assert state is not None
    sump = next(s for s in state.series if s.where == "ENG:sump")
    assert sump.values[0] == pytest.approx(293.15)
    # 3 % of 150 kW give 450 W to some 20 kJ/K of oil and metal: 13 K in 10 min. The rest is
    # what the coolant gives.
    assert sump.values[-1] > sump.values[0] + 30.0
