# SPDX-License-Identifier: Apache-2.0
"""The whole sheet: title block, legend, heights, paper, the same drawing each time."""

from dataclasses import replace

import pytest

from linewright.scene.drawing import Drawing, Ink, Polyline, Rect
from linewright.scene.paper import NOT_THIS, Title, choose
from linewright.scene.schematic import compose, draw
from tests.unit.scene.scene_plans import e85, loop_pair, roadster


@pytest.fixture(scope="module")
def fuel() -> Drawing:
    return draw(e85(), "fuel", sheet=2, of=3, date="2026-11-25")


def _said(drawing: Drawing) -> set[str]:
    return {t.text for t in drawing.texts}


def test_the_title_block_says_car_system_revision_date_sheet_and_what_it_is_not(
    fuel: Drawing,
) -> None:
    wanted = {"E85 boot", "Fuel system, E85", "0123456789", "2 of 3, 2026-11-25", NOT_THIS}

    assert wanted <= _said(fuel)


def test_the_legend_explains_what_is_drawn_and_nothing_else(fuel: Drawing) -> None:
    oil = draw(roadster(), "oil")

    assert {"F fuel", "V vent, breather, bleed", "R reference: signal, no flow"} <= _said(fuel)
    assert {"plugged", "capped", "open on purpose", "sensor or gauge"} <= _said(fuel)
    assert "D drain, by gravity" not in _said(fuel)
    assert "capped" not in _said(oil)
    assert "V vent, breather, bleed" not in _said(oil)


def test_every_letter_on_the_sheet_is_in_its_legend(fuel: Drawing) -> None:
    for drawing in (fuel, draw(roadster(), "oil")):
        legend = next(g for g in drawing.groups if g.about == "legend")
        drawn = {m.letter for m in drawing.marks if isinstance(m, Polyline) and m.letter}
        explained = {m.letter for m in legend.marks if isinstance(m, Polyline) and m.letter}

        assert drawn == explained


def test_the_highest_and_the_lowest_known_point_are_marked(fuel: Drawing) -> None:
    assert {"▲ highest, z 700 mm", "▼ lowest, z 280 mm"} <= _said(fuel)
    assert not [t for t in _said(draw(roadster(), "oil")) if t.startswith(("▲ h", "▼ l"))]


def test_flow_has_an_arrow_at_end_b_and_a_reference_has_none(fuel: Drawing) -> None:
    arrows = [m for m in fuel.marks if isinstance(m, Polyline) and m.ink is Ink.ARROW and m.about]
    opened = [m for m in fuel.marks if isinstance(m, Polyline) and m.ink is Ink.OPEN_ARROW]

    assert {m.about for m in arrows} == {f"F0{n}" for n in range(1, 9)}
    assert {m.about for m in opened} == {"F09"}
    for arrow in arrows:
        ticks = [m.box for m in fuel.marks if isinstance(m, Rect) and m.ink is Ink.SOLID]
        tip = arrow.points[0]
        near = min(
            max(abs((b.left + b.right) / 2 - tip[0]), abs((b.top + b.bottom) / 2 - tip[1]))
            for b in ticks
        )

        assert near < 1.0


def test_the_same_plan_gives_the_same_drawing() -> None:
    assert draw(e85(), "fuel") == draw(e85(), "fuel")


def test_a_drawing_stays_on_its_sheet(fuel: Drawing) -> None:
    assert (fuel.paper, fuel.width, fuel.height) == ("A4", 297.0, 210.0)
    frame = next(m.box for m in fuel.marks if isinstance(m, Rect) and m.ink is Ink.FRAME)
    cards = [m.box for m in fuel.marks if isinstance(m, Rect) and m.ink is Ink.CARD]

    assert all(frame.holds(box) for box in cards)


@pytest.mark.parametrize(
    ("size", "paper"),
    [((250, 120), "A4"), ((430, 200), "A3"), ((650, 300), "A2"), ((2e3, 900), "A1")],
)
def test_the_smallest_sheet_that_keeps_type_readable_is_taken(
    size: tuple[float, float], paper: str
) -> None:
    assert choose(*size).name == paper


def test_the_pair_of_loops_has_fewer_crossings_than_prototypes_of_its_size() -> None:
    net = loop_pair()
    drawing = compose(net, Title("Pair", "Two loops", "", "", 1, 1))

    assert (len(net.nodes), len(net.links)) == (25, 37)
    assert drawing.crossings < 17


def test_small_systems_have_no_crossing_at_all(fuel: Drawing) -> None:
    assert fuel.crossings == 0
    assert draw(roadster(), "oil").crossings == 0
    assert "crossing, not joined" not in _said(fuel)


def test_an_empty_system_still_gives_a_sheet() -> None:
    base = roadster()
    car = replace(base.car, components={}, lines={}, closed={})
    drawing = draw(replace(base, car=car), "oil")

    assert "Oil system, 10W-40" in _said(drawing)
    assert drawing.crossings == 0
