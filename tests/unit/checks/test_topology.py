# SPDX-License-Identifier: Apache-2.0
"""The car as a graph: what stands before and after what."""

from linewright.car.model import Medium
from linewright.checks.topology import Topology
from tests.unit.checks.small_plans import COOLANT, FUEL, OIL, line, plan, thing

ENDS = {"in": "-6 flare male", "out": "-6 flare male"}
CELL = thing(
    "cell",
    "fuel cell",
    {"pick-up": "-6 flare male", "return": "-6 flare male", "vent": "-6 flare male"},
)
CHAIN = (
    CELL
    + thing("sieve", "fuel strainer", ENDS)
    + thing("pump", "fuel pump", ENDS)
    + thing("fine", "fuel filter", ENDS)
    + thing("reg", "fuel regulator", {"in": "-6 flare male", "return": "-6 flare male"})
    + line("F01", "cell.pick-up", "sieve.in")
    + line("F02", "sieve.out", "pump.in")
    + line("F03", "pump.out", "fine.in")
    + line("F04", "fine.out", "reg.in")
    + line("F05", "reg.return", "cell.return")
)


def _topology(*pieces: str) -> Topology:
    return Topology(plan(*pieces).car)


def test_a_walk_upstream_ends_at_the_tank() -> None:
    reach = _topology(FUEL, CHAIN).before("pump.in")

    assert [c.id for c in reach.components] == ["sieve", "cell"]
    assert [ln.id for ln in reach.lines] == ["F02", "F01"]


def test_a_walk_downstream_ends_at_the_tank() -> None:
    reach = _topology(FUEL, CHAIN).after("pump.out")

    assert [c.id for c in reach.components] == ["fine", "reg", "cell"]


def test_a_filter_that_sits_backwards_is_still_walked_through() -> None:
    text = CHAIN.replace('to = "fine.in"', 'to = "fine.OUT"').replace(
        'from = "fine.out"', 'from = "fine.in"'
    )
    reach = _topology(FUEL, text.replace("fine.OUT", "fine.out")).after("pump.out")

    assert [c.id for c in reach.components] == ["fine", "reg", "cell"]


def test_a_bulkhead_and_a_tee_are_walked_through_either_way() -> None:
    text = (
        thing("a", "fuel pump", ENDS)
        + thing("t", "tee", None, 'size = "-6"')
        + thing("b", "fuel filter", ENDS)
        + thing("c", "fuel filter", ENDS)
        + line("F01", "a.out", "t.run-a")
        + line("F02", "t.run-b", "b.in")
        + line("F03", "t.branch", "c.in")
    )
    topology = _topology(FUEL, text)

    assert {c.id for c in topology.after("a.out").components} == {"t", "b", "c"}
    assert {c.id for c in topology.before("c.in").components} == {"t", "a"}


def test_the_return_of_the_rail_does_not_stand_before_the_surge_pots_pump() -> None:
    text = (
        thing("lift", "lift pump", ENDS)
        + thing(
            "pot",
            "surge pot",
            {"lift-in": "-6 flare male", "out": "-6 flare male", "return": "-6 flare male"},
        )
        + thing("pump", "fuel pump", ENDS)
        + thing("reg", "fuel regulator", {"in": "-6 flare male", "return": "-6 flare male"})
        + line("F01", "lift.out", "pot.lift-in")
        + line("F02", "pot.out", "pump.in")
        + line("F03", "pump.out", "reg.in")
        + line("F04", "reg.return", "pot.return")
    )
    reach = _topology(FUEL, text).before("pump.in")

    assert [c.id for c in reach.components] == ["pot", "lift"]


def test_what_is_screwed_on_a_port_stands_after_it() -> None:
    valve = thing(
        "valve",
        "roll-over valve",
        {"out": "-6 flare male"},
        'on = "cell.vent"',
        'end = "-6 flare nut"',
    )
    reach = _topology(FUEL, CELL, valve).after("cell.vent")

    assert reach.has(("roll-over valve",))


def test_a_port_has_the_system_of_its_fluid() -> None:
    topology = _topology(
        OIL,
        COOLANT,
        thing("turbo", "turbo", {"oil-in": "-4 flare male", "water-in": "-6 flare male"}),
    )

    assert topology.system_of("turbo.oil-in") == "oil"
    assert topology.medium_of("turbo.water-in") is Medium.COOLANT
