# SPDX-License-Identifier: Apache-2.0
"""What a system's diagram shows: components, ports, what ends them, links."""

from dataclasses import replace

from linewright.car.model import Closed, LineEnd, Medium, Role, System
from linewright.checks.model import Checked, PortProof
from linewright.scene.collect import letter_of, lines_of, network, system_letter
from linewright.scene.network import MISSING, OPEN, PLUG, SCREWED_ON, SENSOR, UNKNOWN, Node, Pin
from linewright.scene.schematic import systems
from tests.unit.scene.scene_plans import component, e85, line, plan, roadster


def _node(nodes: tuple[Node, ...], key: str) -> Node:
    return next(n for n in nodes if n.id == key)


def _pin(node: Node, name: str) -> Pin:
    return next(p for p in node.pins if p.name == name)


def test_sensors_and_canisters_are_drawn_at_the_port_they_sit_on() -> None:
    net = network(roadster(), "oil")
    head = _node(net.nodes, "FH")

    assert [n.id for n in net.nodes] == ["ENG", "TOP", "FH", "TH", "CO"]
    assert (_pin(head, "gauge").leaf, _pin(head, "gauge").leaf_id) == (SENSOR, "PS")
    assert (_pin(head, "stud").leaf, _pin(head, "stud").leaf_id) == (SCREWED_ON, "CAN")
    assert _pin(head, "in-R").leaf == PLUG


def test_a_screwed_on_part_with_lines_is_a_box_of_its_own_joined_without_hose() -> None:
    net = network(roadster(), "oil")
    fits = [k for k in net.links if k.is_fit]

    assert [(k.source, k.target) for k in fits] == [("ENG.filter", "TOP.mount")]
    assert not fits[0].has_arrow


def test_what_nobody_answered_or_measured_is_shown_as_such() -> None:
    base = roadster()
    closed = {k: v for k, v in base.car.closed.items() if k != "FH.in-R"}
    checked = Checked((), (PortProof("CO.drain", "oil", "unknown"),), ())
    parts = dict(base.car.components)
    parts["CO"] = component("CO", "oil cooler", "oil", "in/in out/out drain/empty")
    car = replace(base.car, closed=closed, components=parts)
    net = network(replace(base, car=car, checked=checked), "oil")

    assert _pin(_node(net.nodes, "FH"), "in-R").leaf == MISSING
    assert _pin(_node(net.nodes, "CO"), "drain").leaf == UNKNOWN


def test_a_port_answered_by_none_is_left_out() -> None:
    base = roadster()
    closed = {**base.car.closed, "FH.in-R": Closed("FH.in-R", "none", "cast shut")}
    net = network(replace(base, car=replace(base.car, closed=closed)), "oil")

    assert "in-R" not in [p.name for p in _node(net.nodes, "FH").pins]


def test_the_open_side_of_a_bulkhead_is_opposite_its_line() -> None:
    pin = _pin(_node(network(e85(), "fuel").nodes, "BH3"), "outside")

    assert (pin.leaf, pin.side) == (OPEN, 0)


def test_a_component_of_several_systems_shows_each_time_only_the_ports_of_that_one() -> None:
    turbo = component("T", "turbo", None, "oil-in/in oil-out/drain water-in/in water-out/out")
    both = plan(
        "Two fluids",
        [System("oil", Medium.OIL, "5W-40"), System("coolant", Medium.COOLANT, "50 % glycol")],
        [turbo, component("E", "engine", None, "of/out od/in wf/out wr/in")],
        [
            line("O01", "E.of", "T.oil-in", "oil", "-4"),
            line("O02", "T.oil-out", "E.od", "oil", "-10", "drain"),
            line("C01", "E.wf", "T.water-in", "coolant", "-6"),
            line("C02", "T.water-out", "E.wr", "coolant", "-6"),
        ],
    )
    oil, coolant = (network(both, s).nodes for s in ("oil", "coolant"))

    assert [p.name for p in _node(oil, "T").pins] == ["oil-in", "oil-out"]
    assert [p.name for p in _node(coolant, "T").pins] == ["water-in", "water-out"]


def test_a_pass_through_a_panel_makes_two_hoses_with_a_bulkhead_between() -> None:
    base = e85()
    lines = dict(base.car.lines)
    lines["F05"] = replace(lines["F05"], passes=("firewall",))
    net = network(replace(base, car=replace(base.car, lines=lines)), "fuel")
    pieces = [k for k in net.links if k.number.startswith("F05")]
    between = [n for n in net.nodes if n.in_line]

    assert [(k.number, k.size) for k in pieces] == [("F05a", "-6"), ("F05b", "-6")]
    assert [(n.kind, n.name) for n in between] == [("bulkhead", "firewall")]
    assert pieces[0].target.startswith(between[0].id)
    assert pieces[1].source.startswith(between[0].id)


def test_what_is_fitted_at_the_ends_stands_in_the_line_in_order() -> None:
    base = e85()
    lines = dict(base.car.lines)
    ends = (LineEnd(fit=("check valve",)), LineEnd(fit=("jet 1 mm", "screen")))
    lines["F03"] = replace(lines["F03"], ends=ends)
    net = network(replace(base, car=replace(base.car, lines=lines)), "fuel")

    # The fits of end B are listed from its port outwards, so the screen comes first in the flow.
    assert [n.name for n in net.nodes if n.in_line] == ["check valve", "screen", "jet 1 mm"]
    assert [k.number for k in net.links if k.id.startswith("F03")] == ["", "F03", "", ""]


def test_the_letter_is_what_the_line_does_before_what_it_carries() -> None:
    car = e85().car

    assert system_letter(car, "fuel") == "F"
    assert [letter_of(one, "F") for one in lines_of(car, "fuel")] == [
        *["F"] * 8,
        "V",
        "R",
    ]


def test_a_line_of_no_system_is_drawn_where_its_end_has_other_lines() -> None:
    base = e85()
    lines = dict(base.car.lines)
    lines["R01"] = replace(lines["R01"], system=None)
    car = replace(base.car, lines=lines)

    assert "R01" in [one.id for one in lines_of(car, "fuel")]


def test_systems_without_anything_to_draw_have_no_sheet() -> None:
    base = roadster()
    more = {**base.car.systems, "fuel": System("fuel", Medium.FUEL, "E10")}

    assert systems(replace(base, car=replace(base.car, systems=more))) == ("oil",)


def test_roles_survive_on_pins() -> None:
    assert _pin(_node(network(roadster(), "oil").nodes, "TOP"), "IN").role is Role.RETURN
