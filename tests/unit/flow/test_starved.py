# SPDX-License-Identifier: Apache-2.0
"""Oil that comes back as it goes out, stages that are starved, an engine that is its own sump."""

import pytest

from linewright.base.finding import Severity
from linewright.car.read import read_text
from linewright.flow.build import build, ways
from linewright.flow.case import cases
from linewright.flow.defaults import Ledger
from linewright.flow.run import run
from linewright.flow.starved import starved
from linewright.flow.steady import Settled, begin, settle
from linewright.joints.termination import offer
from linewright.routes.lengths import lay
from tests.flowing import Change, finding, flows, laid

#: A suction of 8 mm that no scavenge stage fills in the frost.
THIN = (
    'O07 = { from = "sump.scavenge-front", to = "screen-front.in", string = "640 mm"',
    'O07 = { from = "sump.scavenge-front", to = "screen-front.in", size = "-6", string = "4 m"',
)
THINNER = (
    'O09 = { from = "sump.scavenge-rear", to = "screen-rear.in", string = "640 mm"',
    'O09 = { from = "sump.scavenge-rear", to = "screen-rear.in", size = "-6", string = "4 m"',
)


def _oil(condition: str, *changes: Change) -> Settled:
    car, joints, routes = laid("juniper", *changes)
    ledger = Ledger(car.settings)
    case = next(c for c in cases(car, ledger) if c.name == condition)
    system = car.systems["oil"]
    state = begin(build(car, joints, ways(car, routes), system, case, ledger))
    settle([state])
    return state


@pytest.mark.parametrize("condition", ["prime", "cold-start", "hot-idle", "full-power"])
def test_as_much_oil_comes_back_as_goes_to_the_engine(condition: str) -> None:
    state = _oil(condition)
    flow = state.found.flow
    goes = flow("oil-pump:pressure-stage") - flow("oil-pump:relief")
    comes = flow("oil-pump.scavenge-front:stage") + flow("oil-pump.scavenge-rear:stage")

    assert comes == pytest.approx(goes, rel=1e-7)


def test_what_heats_the_oil_leaves_it_again_to_a_millionth() -> None:
    state = _oil("full-power")
    assert state.warmth is not None
    flows_, at = state.found.flows, state.packed.topology
    warmed = state.warmth.outlets - state.warmth.inlets
    carried = float(flows_ @ warmed)
    nodes = state.warmth.nodes
    # What sumps and tanks lose to the air is what comes hotter than it goes.
    pooled = float((flows_ * (nodes[at.second] - state.warmth.outlets)).sum())
    cp = state.built.fluid.heat_capacity(float(state.at_nodes.mean()))
    lost = 15.0 * (float(nodes[state.packed.node["ENG:sump"]]) - state.built.case.air)

    assert carried * cp - lost == pytest.approx(0.0, abs=1e-6 * 33e3 + 2e-2)
    assert pooled * cp == pytest.approx(-lost, rel=1e-3)


def test_no_stage_draws_its_inlet_below_what_oil_can_bear() -> None:
    state = _oil("cold-start")
    inlets = [state.found.pressure(p) for p in ("screen-front.out", "screen-rear.out")]

    assert inlets == pytest.approx([10e3, 10e3], abs=100.0)
    assert 0.1 < state.fill["oil-pump.scavenge-front:stage"] < 0.6
    told = finding(flows("juniper"), "scavenge-starved")
    assert told.severity is Severity.NOTE
    assert told.about == ("oil-pump.scavenge-front", "oil-pump.scavenge-rear")
    assert told.reason.startswith(
        "In cold-start the oil is too thick for the suction of oil-pump.scavenge-front and "
        "oil-pump.scavenge-rear: its inlet stands at 0.10 bar absolute and the stage moves "
    )
    assert told.reason.endswith(
        " of its displacement, the rest is froth. All oil still comes back."
    )


def test_a_sump_that_is_not_kept_empty_says_how_long_the_tank_lasts() -> None:
    state = _oil("cold-start", THIN, THINNER)
    (told,) = starved(state, laid("juniper", THIN, THINNER)[0].components)

    assert state.air == 0.0
    assert told.severity is Severity.WARN
    assert "L/min more go to the engine than come back: the 7.2 L of oil-tank last " in told.reason


#: A dry sump whose scavenge port is on the engine itself.
OWN = """
linewright = 1
[car]
name = "own sump"
[systems.oil]
fluid = "15W-50"
hose  = "rubber braided"
size  = "-12"
[components]
ENG  = { kind = "engine", power = "200 kW" }
TANK = { kind = "dry-sump tank", volume = "10 L" }
PUMP = { kind = "dry-sump pump" }
[ports]
"ENG.oil-feed" = { end = "-12 ORB female", known = "read" }
"ENG.scavenge" = { end = "-12 ORB female", known = "read" }
"TANK.feed" = { end = "-16 flare male", known = "read" }
"TANK.return" = { end = "-16 flare male", known = "read" }
"PUMP.inlet" = { end = "-16 ORB female", known = "read" }
"PUMP.pressure" = { end = "-12 ORB female", known = "read" }
"PUMP.scavenge" = { end = "-12 ORB female", known = "read" }
"PUMP.scavenge-out" = { end = "-16 ORB female", known = "read" }
[lines]
L1 = { from = "TANK.feed", to = "PUMP.inlet", size = "-16", string = "1 m", ends = ["straight", "straight"] }
L2 = { from = "PUMP.pressure", to = "ENG.oil-feed", string = "1 m", ends = ["straight", "straight"] }
L3 = { from = "ENG.scavenge", to = "PUMP.scavenge", string = "1 m", ends = ["straight", "straight"] }
L4 = { from = "PUMP.scavenge-out", to = "TANK.return", size = "-16", string = "1 m", ends = ["straight", "straight"] }
"""


def test_an_engine_without_a_sump_of_its_own_is_scavenged_where_its_port_is() -> None:
    car = read_text(OWN)
    joints = offer(car)
    found = run(car, joints, lay(car, joints), ["full-power"])
    state = found.state("oil", "full-power")

    assert [f.reason for f in found.findings if f.code == "flow-unknown"] == []
    assert state is not None
    assert state.lines["L3"].flow.value == pytest.approx(state.lines["L1"].flow.value, rel=1e-6)


def test_before_the_first_start_pumps_run_and_nothing_is_burnt() -> None:
    found = flows("juniper")
    fuel, oil = found.state("fuel", "prime"), found.state("oil", "prime")
    read = {(r.sensor, r.condition): r.value for r in found.readings}

    assert fuel is not None
    assert oil is not None
    # All that the pumps give goes back: the rail stands at what the regulator holds.
    assert fuel.lines["F11"].flow.value == pytest.approx(fuel.lines["F10"].flow.value, rel=1e-6)
    assert read["fuel-pressure", "prime"].value == pytest.approx(3.06e5, rel=0.02)
    assert 0.3e5 < read["oil-pressure", "prime"].value < 1.0e5
    assert read["oil-temperature", "prime"].value == pytest.approx(293.15)
    assert read["boost-pressure", "prime"].value == pytest.approx(0.0, abs=1.0)
