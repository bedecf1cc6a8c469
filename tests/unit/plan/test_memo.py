# SPDX-License-Identifier: Apache-2.0
"""What a plan remembers changes no answer, and little is done again after a small edit."""

from collections.abc import Mapping
from dataclasses import replace
from math import radians
from typing import Any

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from linewright.car.model import Body, Car, Component, LineEnd, Place, Shape
from linewright.joints.termination import offer
from linewright.plan.make import Memo, make
from linewright.plan.record import dumps, record
from linewright.proofs.judged import judge
from linewright.routes.lay_space import lay_all
from tests.grown import grown, moved

SMALL = grown(5)
NAMES = sorted(SMALL.components)
PORTS = sorted(port.id for port in SMALL.ports)

#: Kept through all examples of a test, as a page keeps it through all edits of a car.
REMEMBERED = Memo()

#: A failing edit is small as it stands, and each trial takes a search: no shrinking.
PHASES = (Phase.explicit, Phase.reuse, Phase.generate)

Edit = tuple[Any, ...]

MILLIMETRES = st.integers(-60, 60)
EDITS = st.one_of(
    st.tuples(st.just("move"), st.sampled_from(NAMES), MILLIMETRES, MILLIMETRES, MILLIMETRES),
    st.tuples(st.just("turn"), st.sampled_from(PORTS), st.sampled_from([-20, -5, 5, 20])),
    st.tuples(st.just("body"), st.integers(0, 2), MILLIMETRES, MILLIMETRES, MILLIMETRES),
    st.tuples(
        st.just("angle"), st.sampled_from(sorted(SMALL.lines)), st.sampled_from([None, 0, 45, 90])
    ),
)


def with_component(car: Car, component: Component) -> Car:
    components: Mapping[str, Component] = {**car.components, component.id: component}
    return replace(car, components=components)


def edited(car: Car, edit: Edit) -> Car:
    """One edit as a builder makes it on a drawing."""
    match edit:
        case ("move", str(name), x, y, z):
            return moved(car, name, (x / 1000, y / 1000, z / 1000))
        case ("turn", str(port_id), degrees):
            name, _, key = port_id.partition(".")
            part = car.components[name]
            port = part.ports[key]
            assert port.points is not None
            x, y, z = port.points
            lean = radians(degrees)
            turned = replace(port, points=(x + lean * z, y + lean * x, z - lean * y))
            return with_component(car, replace(part, ports={**part.ports, key: turned}))
        case ("body", number, x, y, z):
            at = (0.25 + x / 1000, 0.1 * number + y / 1000, 0.5 + z / 1000)
            body = Body(f"box{number}", Place(at), Shape.BOX, (0.05, 0.05, 0.05))
            return replace(car, bodies={**car.bodies, body.id: body})
        case ("angle", str(name), angle):
            line = replace(car.lines[name], ends=(LineEnd(angle), LineEnd()))
            return replace(car, lines={**car.lines, name: line})
    raise AssertionError(edit)


def written(car: Car, memo: Memo | None) -> str:
    return dumps(record(make(car, memo=memo), version="test"))


def compare(edits: list[Edit]) -> None:
    car = SMALL
    for edit in edits:
        car = edited(car, edit)
    assert written(car, REMEMBERED) == written(car, None)


@settings(max_examples=12, deadline=None, phases=PHASES)
@given(st.lists(EDITS, min_size=1, max_size=3))
def test_a_plan_with_a_memory_is_the_same_to_the_byte(edits: list[Edit]) -> None:
    compare(edits)


@pytest.mark.prove
@settings(max_examples=300, deadline=None, phases=PHASES)
@given(st.lists(EDITS, min_size=1, max_size=5))
def test_a_plan_with_a_memory_is_the_same_to_the_byte_at_full_size(edits: list[Edit]) -> None:
    compare(edits)


def test_nothing_is_searched_or_judged_again_where_nothing_changed() -> None:
    memo = Memo()
    make(SMALL, memo=memo)
    joints = offer(SMALL)
    laid = lay_all(SMALL, joints, memo.courses)

    assert laid.searched == ()
    assert judge(SMALL, joints, laid.routes, memo=memo.proofs).again == ()


def test_few_of_forty_lines_are_done_again_after_one_component_moved() -> None:
    car, memo = grown(40), Memo()
    make(car, memo=memo)
    after = moved(car, "pump5", (0.008, 0.0, 0.004))
    joints = offer(after)
    laid = lay_all(after, joints, memo.courses)
    judged = judge(after, joints, laid.routes, memo=memo.proofs)

    # Three of its own; beside them those whose courses were checked near it, before or after.
    assert {"O026", "O027", "O029"} <= set(laid.searched)
    assert len(laid.searched) <= 6
    assert len(judged.again) <= 12


def test_what_all_lines_are_judged_by_judges_them_all_again() -> None:
    memo = Memo()
    make(SMALL, memo=memo)
    text = next(iter(SMALL.components.values()))
    other = with_component(SMALL, replace(text, traits={"returns": 1.0}))
    joints = offer(other)
    laid = lay_all(other, joints, memo.courses)

    assert laid.searched == ()
    assert len(judge(other, joints, laid.routes, memo=memo.proofs).again) == len(laid.routes) == 5
