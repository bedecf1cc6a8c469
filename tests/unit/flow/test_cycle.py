# SPDX-License-Identifier: Apache-2.0
"""Cars followed through conditions that last: heat that is kept, steady ends, ice, soak, steps."""

from dataclasses import replace
from functools import cache
from math import exp, sqrt

import numpy as np
import pytest

from linewright.flow.build import ways
from linewright.flow.case import Cycle, Phase, cases, cycles
from linewright.flow.cycle import Followings, Maker, Moment, Tale, follow
from linewright.flow.defaults import Ledger
from linewright.flow.model import Verdict
from linewright.flow.run import run
from linewright.flow.steady import begin, settle
from linewright.flow.told import told
from tests.flowing import Change, finding, flows, laid, margin

ICE = ('kind      = "charge-coolant reservoir"', 'kind = "charge-coolant reservoir"\nice = "5 kg"')


@cache
def _maker(name: str, *changes: Change) -> Maker:
    car, joints, routes = laid(name, *changes)
    return Maker(car, joints, ways(car, routes), Ledger(car.settings))


@cache
def _cycle(name: str, condition: str, *changes: Change) -> Followings:
    maker = _maker(name, *changes)
    found = cycles(maker.car, maker.ledger, (condition,))
    return follow(maker, next(c for c in found if c.name == condition))


def _tale(name: str, condition: str, system: str, *changes: Change) -> Tale:
    return next(t for t in _cycle(name, condition, *changes).tales if t.system == system)


def _at(tale: Tale, time: float) -> Moment:
    return min(tale.moments, key=lambda m: abs(m.time - time))


@pytest.mark.parametrize(
    ("name", "condition"),
    [
        ("juniper", "soak"),
        ("juniper", "pull"),
        ("juniper", "hill-climb"),
        ("juniper", "session"),
        ("club-roadster", "soak"),
        ("club-roadster", "session"),
    ],
)
def test_heat_in_less_heat_out_is_what_is_stored(name: str, condition: str) -> None:
    found = _cycle(name, condition)

    assert found.failed == {}
    for account in found.accounts.values():
        assert np.abs(account.amiss()).max() < 1e-9


def test_no_heat_comes_or_goes_with_flows_in_closed_loops() -> None:
    # Oil, coolant: as much of each comes back to its tank as leaves it.
    found = _cycle("club-roadster", "session")
    account = found.accounts["oil"]

    assert np.abs(account.brought / account.put).max() < 1e-6
    whole = _cycle("juniper", "session").accounts["coolant"]
    assert np.abs(whole.brought / whole.put).max() < 1e-6


@pytest.mark.parametrize("name", ["juniper", "club-roadster"])
@pytest.mark.parametrize(
    ("before", "condition"), [("hot-idle", "full-power"), ("full-power", "hot-idle")]
)
def test_what_lasts_long_enough_ends_as_the_steady_state(
    name: str, before: str, condition: str
) -> None:
    maker = _maker(name)
    # An idle that settles: the usual one after a hard run does not.
    known = {c.name: replace(c, state="hot") for c in cases(maker.car, maker.ledger)}
    long = Cycle("long", 20e3, (Phase(0.0, known[condition]),), known[before])
    found = follow(maker, long)
    states = {t.system: begin(maker.built(t.system, known[condition])) for t in found.tales}
    settle(list(states.values()))

    for tale in found.tales:
        if tale.system == "fuel":  # that of a steady state is as warm as at its start
            continue
        apart = tale.moments[-1].nodes()[0] - states[tale.system].at_nodes
        assert np.abs(apart).max() < 0.5, tale.system


def test_the_oil_of_a_standing_engine_follows_two_lumps_in_closed_form() -> None:
    # The metal of the engine and its sump, tied by 15 kW over 15 K, the sump to the air by 15 W/K:
    # two exponentials whose rates are the roots of a quadratic.
    tale = _tale("club-roadster", "soak", "oil")
    first = tale.moments[0]
    fluid = first.part.built.fluid
    air = first.part.built.case.air
    metal, sump = float(first.at("ENG metal of oil")[0]), float(first.at("ENG:sump")[0])
    warm = 380.0
    c1, g, h = 25.0 * 460.0, 15e3 / 15.0, 15.0
    c2 = 5e-3 * fluid.density(warm) * fluid.heat_capacity(warm)
    b, c = g / c1 + (g + h) / c2, g * h / (c1 * c2)
    fast, slow = ((b + s * sqrt(b * b - 4.0 * c)) / 2.0 for s in (1.0, -1.0))
    # Of the sump: T2 = P exp(-fast t) + Q exp(-slow t) over the air, by its value and its slope.
    slope = (g * (metal - sump) - h * (sump - air)) / c2
    p = -(slope + slow * (sump - air)) / (fast - slow)
    q = sump - air - p

    for time in (5.0, 20.0, 60.0, 300.0, 1200.0):
        moment = _at(tale, time)
        expected = air + p * exp(-fast * moment.time) + q * exp(-slow * moment.time)
        assert float(moment.at("ENG:sump")[0]) == pytest.approx(expected, abs=0.02 * (sump - air))


def test_the_sump_warms_before_it_cools_since_the_metal_is_hotter() -> None:
    tale = _tale("club-roadster", "soak", "oil")
    heat = [float(m.at("ENG:sump")[0]) for m in tale.moments]

    assert max(heat) > heat[0] + 3.0
    assert heat[-1] < max(heat) - 10.0


def test_ice_takes_up_what_melts_it_and_what_warms_its_water() -> None:
    # By hand: 5 kg at 334 kJ/kg [Incropera, table A.6, recalled], and water from 0 °C on.
    found = _cycle("juniper", "session", ICE)
    tale = next(t for t in found.tales if t.system == "charge-coolant")
    account = found.accounts["charge-coolant"]
    gone = next(m for m in tale.moments if m.ice is not None and m.ice[0] <= 0.0)
    warmest = max(float(m.at("reservoir.out:level")[0]) for m in tale.moments) - 273.15

    assert 5.0 * 334e3 < account.ice[0] < 5.0 * (334e3 + 4190.0 * warmest)
    assert np.abs(account.amiss()).max() < 1e-9
    assert 60.0 < gone.time < 900.0
    # While there is ice the charge is cooler than without it.
    plain = _tale("juniper", "session", "charge-coolant")
    time = 0.5 * gone.time
    iced = _at(tale, time).at("reservoir.out:level")[0]
    assert float(iced) < float(_at(plain, time).at("reservoir.out:level")[0]) - 5.0


def test_when_the_ice_is_gone_is_told() -> None:
    found = flows("juniper", ICE)
    state = found.state("charge-coolant", "hill-climb")

    assert state is not None
    left = next(s for s in state.series if s.what == "ice")
    assert left.values[0] == pytest.approx(5.0)
    assert list(left.values) == sorted(left.values, reverse=True)
    reason = finding(found, "ice-gone", "reservoir").reason
    assert reason.startswith("5.0 kg of ice in reservoir are gone ")
    assert reason.endswith("; from then on the charge coolant warms up.")


def test_water_moves_by_its_own_weight_after_a_stop_and_keeps_a_turbo_from_boiling_on() -> None:
    tale = _tale("juniper", "soak", "coolant")
    link = tale.moments[0].part.link["turbo:water"]
    flow = [abs(float(m.solution.flows[link])) for m in tale.moments if 30.0 < m.time < 600.0]

    assert min(flow) > 1e-4
    water = [float(m.at("turbo.water-out")[0]) for m in tale.moments]
    assert max(water) > water[0] + 5.0
    assert water[-1] < water[0] - 30.0


def test_the_band_of_a_temperature_grows_from_the_start_on() -> None:
    state = flows("juniper").state("oil", "hill-climb")

    assert state is not None
    one = next(s for s in state.series if s.where == "oil-tank")
    widths = [h - low for low, h in zip(one.low, one.high, strict=True)]
    assert widths[0] == pytest.approx(0.0, abs=1e-6)
    assert max(widths) > 5.0
    assert all(low <= v <= high for low, v, high in zip(one.low, one.values, one.high, strict=True))


def test_oil_that_is_hotter_gives_less_pressure() -> None:
    state = flows("club-roadster").state("oil", "session")

    assert state is not None
    pressure = next(s for s in state.series if s.unit == "Pa")
    laps = [(t, p) for t, p in zip(pressure.times, pressure.values, strict=True) if 130 < t < 1670]
    assert laps[-1][1] < laps[0][1] - 0.15e5
    held = margin(flows("club-roadster"), "oil", "session", "gallery pressure")
    assert held.verdict is Verdict.MET


def test_conditions_that_last_come_with_the_use_of_a_car() -> None:
    names = {s.condition for s in flows("juniper").states if s.series}
    circuit = {s.condition for s in flows("club-roadster").states if s.series}

    assert names == {"soak", "pull", "hill-climb"}
    assert circuit == {"soak", "pull", "session"}


def test_steps_that_are_typed_are_followed() -> None:
    laps = (
        "[closed]",
        '[conditions.laps]\nlasts = "200 s"\nstart = { oil = "60 °C" }\nsteps = '
        '[{ at = "0 s", power = "100 %" }, { at = "100 s", power = "0 %" }]\n\n[closed]',
    )
    state = flows("club-roadster", laps).state("oil", "laps")

    assert state is not None
    sump = next(s for s in state.series if s.where == "ENG:sump")
    assert sump.times[0] == 0.0
    assert sump.times[-1] == pytest.approx(200.0)
    assert sump.values[0] == pytest.approx(333.15)
    hottest = sump.times[sump.values.index(max(sump.values))]
    assert hottest == pytest.approx(100.0, abs=6.0)


def test_what_passes_its_limit_says_when() -> None:
    told_of = finding(flows("juniper"), "hot-in-time", "ENG").reason

    assert told_of.startswith("Hottest coolant at ENG coolant-out passes 110 °C 10.")
    assert " min into hill-climb (10." in told_of
    assert told_of.endswith(" Also 124 °C in soak, 113 °C in pull.")
    boils = finding(flows("juniper"), "boils-in-time", "turbo.water-out").reason
    assert boils.startswith("Margin to boiling at turbo.water-out is past 10 K when soak begins: ")


def test_what_may_pass_its_limit_says_what_to_measure_and_what_is_not_known() -> None:
    low = finding(flows("juniper"), "pressure-in-time", "ENG")
    held = next(s for s in flows("juniper").states if (s.system, s.condition) == ("oil", "pull"))
    measures = [m.measure for m in held.margins if m.what == "gallery pressure"]

    assert low.reason.startswith("Oil pressure in the gallery at ENG gallery may pass ")
    assert " The limit lies within what is not known, most of it the oil demand." in low.reason
    assert low.remedy.startswith("Measure the oil pressure in the gallery at ")
    assert low.remedy.endswith(
        " °C, or type the figures that are assumed. If it does pass: keep the oil cooler, take a "
        "thicker oil or a larger pressure stage."
    )
    assert measures[0].startswith("the oil pressure in the gallery at ")


def test_a_moment_shows_ports_and_lines_as_a_steady_state_does() -> None:
    tale = _tale("juniper", "hill-climb", "coolant")
    shown = told(laid("juniper")[0], tale).state
    port = shown.ports["radiator.in"]

    assert shown.condition == "hill-climb"
    assert set(shown.lines) == set(flows("juniper").state("coolant", "full-power").lines)  # type: ignore[union-attr]
    assert port.temperature.low < port.temperature.value < port.temperature.high
    hottest = next(s for s in shown.series if s.where == "ENG:coolant-out")
    assert port.temperature.value == pytest.approx(max(hottest.values), abs=1.5)


def test_fuel_that_comes_near_its_hottest_is_told_with_its_time() -> None:
    warm = (
        "[panels.boot-floor]",
        '[conditions.climb]\nlasts = "20 min"\nstart = { fuel = "58 °C" }\n\n[panels.boot-floor]',
    )
    told_of = finding(flows("e85-boot", warm), "hot-in-time").reason

    assert told_of.startswith("Fuel at FR rail passes 60 °C ")
    assert " into climb" in told_of


@pytest.mark.parametrize("gone", ["C01", "O01", "W01", "F05"])
def test_a_line_that_is_missing_leaves_all_other_systems_followed(gone: str) -> None:
    car, joints, routes = laid("juniper")
    lines = {key: line for key, line in car.lines.items() if key != gone}
    runs = tuple(r for r in routes.runs if r.line != gone)
    found = run(replace(car, lines=lines), joints, replace(routes, runs=runs), ["pull"])
    unknown = [f for f in found.findings if f.code == "flow-unknown"]

    assert {f.system for f in unknown} <= {car.lines[gone].system}
    assert {s.system for s in found.states} >= set(car.systems) - {car.lines[gone].system}
