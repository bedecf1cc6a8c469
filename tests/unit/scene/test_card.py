# SPDX-License-Identifier: Apache-2.0
"""Cards: ports on their sides, on the grid; everything inside the ground."""

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.car.kinds import KINDS
from linewright.car.model import Role
from linewright.scene.card import card
from linewright.scene.drawing import Box, Ink, Polyline, Text
from linewright.scene.faces import CELL, DOWN, LEFT, RIGHT, UP, Face, faces
from linewright.scene.network import Node, Pin
from linewright.scene.symbols import symbol

_NAMES = st.text("abcdefgh-0123456789", min_size=1, max_size=14)


def _pin(name: str, role: Role | None, leaf: str = "") -> Pin:
    return Pin(f"X.{name}", name, role, not leaf, leaf, "PS-1" if leaf == "sensor" else "")


@st.composite
def nodes(draw: st.DrawFn) -> Node:
    names = draw(st.lists(_NAMES, min_size=1, max_size=9, unique=True))
    leaves = st.sampled_from(["", "", "", "plug", "cap", "open", "sensor", "unknown", "missing"])
    pins = [_pin(n, draw(st.sampled_from([None, *Role])), draw(leaves)) for n in names]
    kind = draw(st.sampled_from(sorted(KINDS)))
    name = draw(st.sampled_from([kind, "a very long name of some thing or other that is in a car"]))
    remark = draw(st.sampled_from(["", "▲ highest, z 1234 mm"]))
    return Node(draw(_NAMES), kind, name, tuple(pins), remark=remark)


@settings(max_examples=150, deadline=None)
@given(node=nodes(), data=st.data())
def test_texts_of_a_card_overlap_neither_each_other_nor_its_edge_nor_a_stroke(
    node: Node, data: st.DataObject
) -> None:
    one = card(node, data.draw(st.sampled_from(faces(node))))
    ground = Box(0, 0, one.width * CELL, one.height * CELL)
    texts = [m for m in one.marks if isinstance(m, Text)]

    assert [(a.text, b.text) for a, b in combinations(texts, 2) if a.box.meets(b.box)] == []
    assert [t.text for t in texts if t.box.meets(ground) and not ground.holds(t.box)] == []
    assert [
        (t.text, m.ink.value)
        for t in texts
        for m in one.marks
        if isinstance(m, Polyline) and any(t.box.cut_by(a, b) for a, b in m.segments)
    ] == []


@settings(max_examples=100, deadline=None)
@given(node=nodes())
def test_each_port_has_a_point_of_its_own_on_the_edge(node: Node) -> None:
    for face in faces(node):
        one = card(node, face)
        points = [(p.x, p.y) for p in one.pads]
        on_edge = {
            RIGHT: lambda x, y, c=one: x == c.width and 0 < y < c.height,
            LEFT: lambda x, y, c=one: x == 0 and 0 < y < c.height,
            UP: lambda x, y, c=one: y == 0 and 0 < x < c.width,
            DOWN: lambda x, y, c=one: y == c.height and 0 < x < c.width,
        }

        assert sorted(p.pin.id for p in one.pads) == sorted(p.id for p in node.pins)
        assert len(set(points)) == len(points)
        assert all(on_edge[p.side](p.x, p.y) for p in one.pads)


def test_inlets_stand_left_outlets_right_vents_above_drains_below() -> None:
    roles = {"a": Role.IN, "b": Role.OUT, "c": Role.VENT, "d": Role.EMPTY}
    node = Node("T", "dry-sump tank", "tank", tuple(_pin(n, r, "plug") for n, r in roles.items()))
    sides = {p.pin.name: p.side for p in card(node).pads}
    turned = {p.pin.name: p.side for p in card(node, Face(True)).pads}

    assert sides == {"a": LEFT, "b": RIGHT, "c": UP, "d": DOWN}
    assert turned == {"a": RIGHT, "b": LEFT, "c": UP, "d": DOWN}


def test_a_tee_may_have_its_ports_on_any_sides() -> None:
    node = Node("T1", "tee", "tee", tuple(_pin(n, None) for n in ("in", "run", "branch")))

    assert len(faces(node)) == 24
    assert {p.side for p in card(node, faces(node)[5]).pads} <= {LEFT, RIGHT, UP, DOWN}


def test_every_kind_but_the_nameless_ones_has_a_symbol_of_its_own() -> None:
    plain = sorted(kind for kind in KINDS if symbol(kind) is symbol("no such kind"))

    assert plain == ["bung", "component"]


def test_a_gauge_beside_a_reference_is_not_joined_to_it() -> None:
    pins = (
        _pin("in-1", Role.IN),
        _pin("return", Role.OUT),
        _pin("reference", Role.SENSOR),
        _pin("gauge", Role.SENSOR),
    )
    one = card(Node("RG", "fuel regulator", "fuel regulator", pins))
    at = {p.pin.name: (p.x * CELL, p.y * CELL) for p in one.pads}
    leads = [m.points for m in one.marks if isinstance(m, Polyline) and m.ink is Ink.LEAD]
    of_gauge = next(points for points in leads if points[0] == at["gauge"])
    others = [points for points in leads if points is not of_gauge]

    assert any(points[0] == at["reference"] for points in others)
    assert not any(of_gauge[1][0] in {x for x, _ in points} for points in others)
