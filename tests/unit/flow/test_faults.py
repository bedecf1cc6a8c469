# SPDX-License-Identifier: Apache-2.0
"""Ill-posed networks are named, each in full, and not iterated on."""

import pytest

from linewright.base.errors import FlowError
from linewright.flow.faults import Ill, faults
from linewright.flow.network import (
    Centrifugal,
    Check,
    Displacement,
    Line,
    Link,
    Loss,
    Network,
    Node,
    Orifice,
    Reducing,
    Regulator,
    Relief,
    State,
)
from linewright.flow.pack import pack

OIL = State(density=850.0, viscosity=1.5e-5)
TANK, AIR = Node("tank", pressure=1e5), Node("air", pressure=101_325.0)
A, B, C = Node("A"), Node("B"), Node("C")


def hose(name: str, a: str, b: str, **other: float) -> Line:
    return Line(name, a, b, **{"length": 1.0, "bore": 0.012, **other})


def pump(a: str, b: str) -> Displacement:
    return Displacement("pump", a, b, displacement=2e-5, speed=50.0, slip=1e-14)


def regulator(kind: type, a: str, b: str, reference: str | None = None) -> Link:
    numbers = {"holds": 3e5, "rise": 1e4, "flow": 1e-4, "viscous": 0.0, "inertial": 1e9}
    found: Link = kind("valve", a, b, reference=reference, **numbers)
    return found


def said(nodes: tuple[Node, ...], *links: Link) -> list[tuple[Ill, tuple[str, ...], str]]:
    return [(f.kind, f.about, f.text) for f in faults(Network(nodes, links, OIL))]


def test_a_sound_network_has_no_fault() -> None:
    assert said((TANK, A, AIR), hose("L", "tank", "A"), hose("M", "A", "air")) == []


def test_a_part_without_a_pressure_is_named_by_its_nodes() -> None:
    found = said((TANK, A, B, C), hose("L", "tank", "A"), hose("M", "B", "C"))

    assert found == [
        (
            Ill.NO_REFERENCE,
            ("B", "C"),
            "B, C: joined to no fixed pressure, so only differences of pressure are known. Open it "
            "to a tank or to the air, or give one pressure.",
        )
    ]


def test_a_node_that_nothing_joins_is_isolated() -> None:
    assert [f[:2] for f in said((TANK, A, B), hose("L", "tank", "A"))] == [
        (Ill.NO_REFERENCE, ("B",))
    ]


def test_a_positive_pump_into_a_valve_the_wrong_way_round_is_dead_headed() -> None:
    check = Check("check", "air", "A", viscous=0.0, inertial=1e9)

    assert said((TANK, A, AIR), pump("tank", "A"), check) == [
        (
            Ill.DEAD_HEADED,
            ("pump", "A"),
            "pump: what it pumps into A has no way out, so its pressure rises until something "
            "bursts. Give it a relief valve or a way back to the tank.",
        )
    ]


def test_a_relief_valve_is_a_way_out_and_a_reducing_regulator_is_none() -> None:
    relief = Relief("relief", "A", "tank", opens=5e5, rise=1e5, flow=1e-3)

    assert said((TANK, A), pump("tank", "A"), relief) == []
    assert [
        f[:2]
        for f in said(
            (TANK, A, B, AIR),
            pump("tank", "A"),
            regulator(Reducing, "A", "B"),
            hose("L", "B", "air"),
        )
    ] == [(Ill.DEAD_HEADED, ("pump", "A"))]


def test_a_pump_and_a_demand_that_nothing_feeds_are_starved() -> None:
    nodes = (TANK, A, Node("B", demand=0.1))
    check = Check("check", "A", "tank", viscous=0.0, inertial=1e9)
    found = said(nodes, check, pump("A", "tank"), hose("L", "A", "B"))

    assert found == [
        (
            Ill.STARVED,
            ("pump", "A"),
            "pump: nothing can flow to its inlet A when it draws. Give it a feed that no "
            "back-pressure regulator and no valve the wrong way round closes.",
        ),
        (
            Ill.STARVED,
            ("B",),
            "B: 0.1 kg/s are drawn, but nothing can flow to it. Give it a feed that no "
            "back-pressure regulator and no valve the wrong way round closes.",
        ),
    ]


def test_a_feed_without_a_way_out_is_dead_headed() -> None:
    check = Check("check", "tank", "A", viscous=0.0, inertial=1e9)

    assert [f[2] for f in said((TANK, Node("A", demand=-0.2)), check)] == [
        "A: 0.2 kg/s are fed, but have no way out. Give them one."
    ]


def test_a_curve_that_rises_is_refused_and_so_is_a_flat_one() -> None:
    rising = Centrifugal("pump", "tank", "A", (10.0, 500.0, -1e6))
    flat = Centrifugal("pump", "tank", "A", (10.0, 0.0, 0.0))

    assert said((TANK, A), rising) == [
        (
            Ill.RISING_CURVE,
            ("pump",),
            "pump: its head rises with flow somewhere (a1 = 500 s/m2, a2 = -1e+06 s2/m5), so that "
            "one head has two flows. Give points that fall.",
        )
    ]
    assert said((TANK, A), flat) == [
        (
            Ill.RISING_CURVE,
            ("pump",),
            "pump: its head is the same at any flow. Give a second point.",
        )
    ]


def test_a_pump_without_slip_or_with_negative_head_is_refused() -> None:
    tight = Displacement("pump", "tank", "A", displacement=2e-5, speed=50.0, slip=0.0)
    turned = Centrifugal("pump", "tank", "A", (-1.0, -500.0, 0.0))

    assert said((TANK, A), tight) == [
        (
            Ill.NO_SLIP,
            ("pump",),
            "pump: its slip is 0 m3, so it gives all it displaces, or more, at any pressure. Give "
            "a volumetric efficiency under 100 %.",
        )
    ]
    assert [f[2] for f in said((TANK, A), turned)] == [
        "pump: its head without flow is -1 m. Turn the pump round."
    ]


@pytest.mark.parametrize(
    ("link", "text"),
    [
        (hose("L", "tank", "A", bore=0.0), "L: bore is 0 m; it must be more than 0."),
        (hose("L", "tank", "A", length=-1.0), "L: length is -1 m; it must be more than 0."),
        (hose("L", "tank", "A", k=-0.5), "L: k is -0.5; it must be at least 0."),
        (
            hose("L", "tank", "A", arc=1.5),
            "L: 1.5 m of it lie in bends, but it is 1 m long.",
        ),
        (Orifice("L", "tank", "A", bore=float("nan")), "L: bore is nan m; it must be more than 0."),
        (
            Orifice("L", "tank", "A", bore=0.002, ratio=1.0),
            "L: the hole is 1 times its pipe; it must be the smaller.",
        ),
        (
            Relief("L", "tank", "A", opens=1e5, rise=0.0, flow=1e-3),
            "L: rise is 0 Pa; it must be more than 0.",
        ),
    ],
)
def test_a_number_that_cannot_be_is_named(link: Link, text: str) -> None:
    assert said((TANK, A), link) == [(Ill.NUMBER, ("L",), text)]


def test_a_part_without_loss_is_named() -> None:
    assert said((TANK, A), Loss("F", "tank", "A", viscous=0.0, inertial=0.0)) == [
        (
            Ill.NO_LOSS,
            ("F",),
            "F: it loses nothing at any flow. Give a drop at a flow, or leave it out.",
        )
    ]


def test_fluid_that_cannot_be_is_named() -> None:
    network = Network((TANK, A), (hose("L", "tank", "A"),), State(0.0, -1e-6))

    assert [f.text for f in faults(network)] == [
        "L: density is 0 kg/m3; it must be more than 0.",
        "L: viscosity is -1e-06 m2/s; it must be more than 0.",
    ]


def test_roles_that_contradict_each_other_are_named() -> None:
    both = Node("tank", pressure=1e5, demand=0.2)

    assert [f[2] for f in said((both, A), hose("L", "tank", "A"))] == [
        "tank: it has a fixed pressure and a demand of 0.2 kg/s. What flows there follows from "
        "the pressure: give one of the two."
    ]
    assert [f[2] for f in said((TANK, A), regulator(Regulator, "tank", "A"))] == [
        "valve: it holds the pressure at tank, which is fixed. Take one away."
    ]
    assert [f[2] for f in said((TANK, A), regulator(Reducing, "A", "tank"))] == [
        "valve: it holds the pressure at tank, which is fixed. Take one away."
    ]
    nodes = (TANK, A, B)
    links = (hose("L", "tank", "A"), hose("M", "tank", "B"), regulator(Regulator, "A", "tank", "B"))

    assert [f[2] for f in said(nodes, *links)] == [
        "valve: its reference B has no fixed pressure. Refer to a node that has, or give the "
        "pressure as a number."
    ]


def test_names_that_are_used_twice_or_lead_nowhere_are_named() -> None:
    links = (hose("L", "tank", "A"), hose("L", "A", "X"), hose("M", "A", "A"))
    network = Network((TANK, A, A), links, OIL, {"N": OIL})

    assert [f.text for f in faults(network)] == [
        "A: 2 nodes have this id. Give each its own.",
        "L: 2 links have this id. Give each its own.",
        "L: there is no node X. Add it, or join another.",
        "M: both its ends are A. Join two nodes.",
        "N: there is no such link to fill.",
    ]


def test_what_is_ill_posed_is_not_packed() -> None:
    with pytest.raises(FlowError) as caught:
        pack(Network((A, B), (hose("L", "A", "B", bore=0.0),), OIL))

    assert str(caught.value) == "L: bore is 0 m; it must be more than 0."
    assert [f.kind for f in caught.value.faults] == [Ill.NUMBER]
