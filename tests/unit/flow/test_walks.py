# SPDX-License-Identifier: Apache-2.0
"""Walks, pump curves and sways of the demo car hold together with what was solved."""

from functools import cache
from itertools import pairwise

import numpy as np
import pytest

from linewright.flow.model import Flows, SystemState
from linewright.flow.run import run
from linewright.plan.make import make
from linewright.plan.model import Plan
from tests.flows import juniper


@cache
def _plan() -> Plan:
    return make(juniper(), in_space=False)


@cache
def _flows() -> Flows:
    return run(_plan().car, _plan().joints, _plan().routes)


def _state(system: str, condition: str = "full-power") -> SystemState:
    state = _flows().state(system, condition)
    assert state is not None
    return state


def test_a_walk_begins_at_the_pump_and_ends_at_its_own_inlet() -> None:
    walk = _state("oil").walks[0]
    ports = _state("oil").ports

    assert walk.circuit == "oil-pump"
    assert walk.steps[0].pressure.value == pytest.approx(ports["oil-pump.pressure"].pressure.value)
    assert walk.steps[-1].pressure.value == pytest.approx(ports["oil-pump.inlet"].pressure.value)


def test_a_walk_passes_the_lines_in_the_order_of_the_flow() -> None:
    lines = [s.where[0] for s in _state("oil").walks[0].steps if s.what.startswith("hose")]

    assert lines[:2] == ["O02", "O03"]
    assert lines[-2:] == ["O01a", "O01b"]
    assert lines.index("O04") < lines.index("O05") < lines.index("O06")


def test_no_place_follows_itself_on_a_walk() -> None:
    for state in _flows().states:
        for walk in state.walks:
            assert all(a.where != b.where for a, b in pairwise(walk.steps[1:]))


def test_a_pump_and_its_circuit_meet_where_the_system_was_solved() -> None:
    for system in ("oil", "coolant", "charge-coolant", "fuel"):
        pumps = _state(system).pumps

        assert pumps
        for curve in pumps:
            gives = np.interp(curve.flow.value, curve.flows, curve.rises)
            takes = np.interp(curve.flow.value, curve.flows, curve.takes)
            assert gives == pytest.approx(curve.rise.value, rel=0.06), (system, curve.pump)
            assert takes == pytest.approx(curve.rise.value, rel=0.06), (system, curve.pump)


def test_what_a_circuit_takes_rises_and_lies_within_its_band() -> None:
    for system in ("oil", "coolant", "charge-coolant"):
        for curve in _state(system).pumps:
            assert all(b >= a - 1.0 for a, b in pairwise(curve.takes))
            for least, takes, most in zip(curve.least, curve.takes, curve.most, strict=True):
                assert least <= takes <= most


def test_a_pump_that_stands_has_no_walk() -> None:
    assert _state("oil", "soak").walks == ()
    assert _state("oil", "soak").pumps == ()


def test_more_oil_through_the_engine_sways_its_pressure_and_no_other() -> None:
    sways = [s for s in _flows().sways if s.condition == "full-power"]
    oil = {s.sensor for s in sways if s.what.startswith("oil that the engine takes")}

    assert oil == {"oil-pressure"}
    for sway in _flows().sways:
        assert (sway.where, sway.what) in {(a.where, a.what) for a in _flows().assumed}
