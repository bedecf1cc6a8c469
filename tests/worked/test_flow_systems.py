# SPDX-License-Identifier: Apache-2.0
"""Figures of the worked systems that rest on the laws of lines alone [computed beforehand]."""

from math import pi

import numpy as np
import pytest

from linewright.base.dimensions import ATMOSPHERE, GRAVITY
from linewright.base.evidence import Figure, Grade
from linewright.flow.fluids import fuel, oil
from linewright.flow.friction import between, churchill, colebrook
from linewright.flow.gas import thrust
from linewright.flow.network import Displacement, Line, Network, Node, State
from linewright.flow.pack import pack
from linewright.flow.properties import Fluid
from linewright.flow.solve import solve
from linewright.flow.spread import band, corners, known, of_bores

HOT = 373.15
RUBBER = 1e-5
#: Length of all oil hoses of system A by their strings. [m]
A_STRING = 3.65


def _drop(
    fluid: Fluid, temperature: float, litres: float, bore: float, length: float, k: float = 0.0
) -> float:
    """Drop of a line, as the solver has it. [Pa]"""
    state = State(fluid.density(temperature), fluid.viscosity(temperature))
    return _solved(state, litres, bore, length, k)


def _solved(state: State, litres: float, bore: float, length: float, k: float = 0.0) -> float:
    nodes = (Node("A", pressure=1e7), Node("B", demand=litres / 6e4 * state.density))
    line = Line("L", "A", "B", length, bore, RUBBER, k)
    return 1e7 - solve(pack(Network(nodes, (line,), state))).pressure("B")


@pytest.mark.parametrize(
    ("bore", "bare", "with_ends"),
    [(0.0111, 243, 397), (0.0127, 128, 218), (0.0143, 73, 129), (0.0175, 28, 53)],
)
def test_system_a_at_40_litres_a_minute_and_100_degrees(
    bore: float, bare: float, with_ends: float
) -> None:
    ten = oil("10W-40")

    assert _drop(ten, HOT, 40.0, bore, A_STRING) / 1e3 == pytest.approx(bare, rel=0.05)
    assert _drop(ten, HOT, 40.0, bore, A_STRING, 8.0) / 1e3 == pytest.approx(with_ends, rel=0.05)


def test_system_a_lies_near_transition_so_that_its_drops_are_bands() -> None:
    ten = oil("10W-40")
    viscosity = ten.viscosity(HOT)
    numbers = [4 * 40 / 6e4 / (pi * bore * viscosity) for bore in (0.0175, 0.0143, 0.0127, 0.0111)]

    assert 3380 < numbers[0] < 3400
    assert 5340 < numbers[-1] < 5360
    low, high = between(numbers[0], RUBBER / 0.0175)
    assert high > 2.0 * low


def test_system_a_in_the_frost_needs_5_bar_for_10_litres_a_minute() -> None:
    assert _drop(oil("10W-40"), 273.15, 10.0, 0.0143, A_STRING) / 1e5 == pytest.approx(
        5.0, rel=0.05
    )


def test_the_band_of_a_drop_holds_what_bore_and_viscosity_do_to_it() -> None:
    bores = [Figure(v, "m", Grade.READ) for v in (0.0127, 0.0143)]
    doubts = (of_bores(bores), known("viscosity"))
    ten = oil("10W-40")
    density, viscosity = ten.density(HOT), ten.viscosity(HOT)
    drops = []
    for bore, thick in corners(doubts):
        state = State(density, viscosity * thick)
        drops.append(_solved(state, 40.0, 0.0127 * bore, A_STRING))
    found = band(np.array(drops))

    assert found.value / 1e3 == pytest.approx(128, rel=0.05)
    assert found.low / 1e3 < 73 < 128 < found.high / 1e3


@pytest.mark.parametrize(
    ("bore", "length", "kilopascals"),
    [(0.0222, 3.35, 62), (0.0286, 3.35, 90), (0.0222, 1.45, 80)],
)
def test_the_inlet_of_a_dry_sump_pump(bore: float, length: float, kilopascals: float) -> None:
    # Case F1: 82.5 L/min of 15W-50 at 100 C, K 1.1, level 0.3 m above the pump. The velocity
    # head at the inlet counts: it is no loss, but the pump does not feel it.
    heavy = oil("15W-50")
    fluid = State(heavy.density(HOT), heavy.viscosity(HOT))
    flow = 82.5 / 6e4
    nodes = (
        Node("tank", height=0.3, pressure=ATMOSPHERE),
        Node("inlet"),
        Node("gallery", pressure=5e5),
    )
    links = (
        Line("suction", "tank", "inlet", length, bore, RUBBER, k=1.1),
        Displacement("pump", "inlet", "gallery", flow / 50.0, 50.0, 1e-30),
    )
    found = solve(pack(Network(nodes, links, fluid)))
    speed = flow / (0.25 * pi * bore**2)
    inlet = found.pressure("inlet") - 0.5 * fluid.density * speed**2

    assert inlet / 1e3 == pytest.approx(kilopascals, rel=0.015)


def test_a_dry_sump_pump_cannot_draw_through_a_dash_12() -> None:
    lost = _drop(oil("15W-50"), HOT, 82.5, 0.0175, 3.35, 1.1)

    assert ATMOSPHERE + 0.3 * 815.0 * GRAVITY - lost < 0.0


@pytest.mark.parametrize(
    ("bore", "kilopascals"), [(0.0079, 28), (0.0087, 18), (0.010, 10), (0.012, 4)]
)
def test_the_return_of_system_b_at_idle(bore: float, kilopascals: float) -> None:
    # 5.6 L/min of E85 at 20 C over 4.0 m with K 4, roughness 0.0015 to 0.01 mm.
    lost = _drop(fuel("E85"), 293.15, 5.6, bore, 4.0, 4.0) / 1e3

    assert lost == pytest.approx(kilopascals, abs=1.2)


def test_a_coupler_is_pushed_off_as_case_f3_says() -> None:
    assert thrust(1.5e5, 0.0762) == pytest.approx(684.0, abs=0.5)
    assert thrust(1.5e5, 0.0762, pi / 2) == pytest.approx(967.0, abs=1.0)


def test_churchill_is_within_3_1_percent_of_colebrook_where_it_is_said_to_be() -> None:
    off = [
        churchill(re, e)[0] / colebrook(re, e) - 1.0
        for re in (4e3, 1e4, 3e4, 1e5, 1e6)
        for e in (1e-9, 1e-4, 1e-3, 1e-2)
    ]

    assert max(map(abs, off)) < 0.031
