# SPDX-License-Identifier: Apache-2.0
"""Flow, pressure and temperature beside the lines of a diagram: no line is moved for them."""

from dataclasses import replace
from functools import cache

from linewright.flow.model import Band, SystemState
from linewright.plan.make import make
from linewright.plan.model import Plan
from linewright.scene.collect import network
from linewright.scene.drawing import Drawing, Ink, Polyline
from linewright.scene.schematic import draw
from linewright.scene.states import BESIDE_NOTE, beside_lines, pressure_words
from tests.flows import flows, juniper


@cache
def _plan() -> Plan:
    return make(juniper(), in_space=False)


def _state() -> SystemState:
    state = flows().state("oil", "full-power")
    assert state is not None
    return state


def _arrows(drawing: Drawing) -> list[object]:
    return [m.points for m in drawing.marks if isinstance(m, Polyline) and m.ink is Ink.ARROW]


def test_lines_lie_and_cross_as_they_do_without() -> None:
    plain, told = draw(_plan(), "oil"), draw(_plan(), "oil", state=_state())

    assert (told.crossings, told.paper, told.scale) == (plain.crossings, plain.paper, plain.scale)
    assert _arrows(told) == _arrows(plain)


def test_each_line_says_what_flows_in_it_where_there_is_room() -> None:
    texts = [t.text for t in draw(_plan(), "oil", state=_state()).texts]

    assert "-12 · 82 L/min · 5.5 bar · 100 °C" in texts
    assert "-16 · 82 L/min · 0.62 bar abs · 100 °C" in texts
    assert any(text.endswith(", full power") for text in texts)
    assert BESIDE_NOTE in texts


def test_no_number_is_lost_to_longer_words() -> None:
    plain, told = draw(_plan(), "oil"), draw(_plan(), "oil", state=_state())
    numbers = {t.text for t in plain.texts if t.text[:1] in "OVD" and t.text[1:3].isdigit()}

    assert numbers
    assert numbers <= {t.text for t in told.texts}


def test_both_pieces_of_a_line_have_its_state_and_others_have_none() -> None:
    found = beside_lines(juniper(), network(_plan(), "oil"), _state())

    assert found["O01a"] == found["O01b"]
    assert found["O02"] == ("82 L/min · 6.0 bar · 100 °C", "82 L/min · 6.0 bar", "82 L/min")
    assert "O11a" not in found


def test_a_pressure_below_the_airs_is_told_as_absolute_in_the_builders_unit() -> None:
    inch = replace(juniper(), show="inch")

    assert pressure_words(juniper(), _state(), Band(62e3, 50e3, 74e3)) == "0.62 bar abs"
    assert pressure_words(inch, _state(), Band(62e3, 50e3, 74e3)) == "9.0 psi abs"
    assert pressure_words(inch, _state(), Band(4e5, 3.9e5, 4.1e5)) == "43.3 psi"


def test_what_is_below_a_vacuum_is_no_pressure() -> None:
    assert pressure_words(juniper(), _state(), Band(-2e4, -3e4, 1e4)) == "below vacuum"
