# SPDX-License-Identifier: Apache-2.0
"""Plots of flow: axes hold their values, points stand where they must, nothing runs off."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linewright.faces.files.svg import svg
from linewright.flow.model import Band, PumpCurve, SystemState, Walk, WalkStep
from linewright.scene.drawing import Anchor, Box, Circle, Drawing, Ink, Polyline, Rect, Text
from linewright.scene.plots import CURVES, Frame, Page, axis, spread, tick_text
from linewright.scene.plots_flow import draw_pump, draw_series, how_many, plots, units
from linewright.scene.plots_walk import draw_walk
from linewright.scene.schematic import mark_box
from tests.flows import BAR, band, flows, juniper

PAGE = Page("Juniper", "0123456789", "2026-11-25", 1, 3)


def _state() -> SystemState:
    state = flows().state("oil", "full-power")
    assert state is not None
    return state


def _all() -> list[Drawing]:
    return [drawing for *_, drawing in plots(juniper(), flows().states)]


@given(
    st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=8),
    st.booleans(),
)
def test_an_axis_holds_its_values_with_few_even_ticks(values: list[float], zero: bool) -> None:
    found = axis("", values, from_zero=zero)

    room = 1e-9 * max(1.0, *map(abs, values))
    assert found.low <= min(values) + room
    assert found.high >= max(values) - room
    assert 2 <= len(found.ticks) <= 11
    steps = {
        round((b - a) / (found.ticks[1] - found.ticks[0]), 3) for a, b in pairwise(found.ticks)
    }
    assert steps == {1.0}
    assert len({tick_text(t, found.ticks) for t in found.ticks}) == len(found.ticks)


@given(st.lists(st.floats(0, 100), max_size=8))
def test_names_are_moved_apart_and_keep_their_order(wanted: list[float]) -> None:
    places = spread(wanted, 5.0, 0.0, 100.0)

    order = sorted(range(len(wanted)), key=lambda i: (wanted[i], i))
    assert all(places[b] - places[a] >= 5.0 - 1e-6 for a, b in pairwise(order))
    assert all(-1e-6 <= p <= 100 + 1e-6 for p in places)


def test_a_frame_puts_a_value_where_its_axes_say() -> None:
    frame = Frame(Box(10, 20, 110, 70), axis("", (0, 100)), axis("", (0, 10)))

    assert frame.at(50, 2) == (60.0, 60.0)


def test_the_working_point_stands_on_both_curves() -> None:
    drawing = draw_pump(juniper(), _state(), _state().pumps[0], PAGE)
    point = next(m for m in drawing.groups[0].marks if isinstance(m, Circle))
    for ink in (Ink.CURVE, Ink.CURVE_2):
        curve = next(m for m in drawing.groups[0].marks if isinstance(m, Polyline) and m.ink is ink)
        (ax, ay), (bx, by) = next(s for s in curve.segments if s[0][0] <= point.at[0] <= s[1][0])
        height = ay + (by - ay) * (point.at[0] - ax) / (bx - ax)

        assert height == pytest.approx(point.at[1], abs=0.6)


def test_a_circuit_that_takes_far_more_is_cut_off_at_the_top_of_the_plot() -> None:
    pump = _state().pumps[0]
    steep = replace(
        pump,
        takes=tuple(t * 9 for t in pump.takes),
        least=tuple(t * 8 for t in pump.takes),
        most=tuple(t * 10 for t in pump.takes),
    )

    drawing = draw_pump(juniper(), _state(), steep, PAGE)

    tops = [
        min(y for _, y in m.points)
        for m in drawing.groups[0].marks
        if isinstance(m, Polyline) and m.ink in (*CURVES, Ink.AREA)
    ]
    assert min(tops) > 20.0


def test_a_pump_as_steep_as_a_wall_is_cut_off_at_the_edges_of_the_plot() -> None:
    pump = _state().pumps[0]
    steep = replace(
        pump,
        rises=tuple(4.2e5 - (q - pump.flow.value) * 40e8 for q in pump.flows),
        least=(),
        most=(),
    )

    drawing = draw_pump(juniper(), _state(), steep, PAGE)

    curve = next(m for m in drawing.marks if isinstance(m, Polyline) and m.ink is Ink.CURVE)
    ticks = [m.points for m in drawing.marks if isinstance(m, Polyline) and m.ink is Ink.GRID]
    low, high = max(y for t in ticks for _, y in t), min(y for t in ticks for _, y in t)
    assert max(y for _, y in curve.points) == pytest.approx(low)
    assert min(y for _, y in curve.points) == pytest.approx(high)


def test_the_air_is_left_out_where_it_is_far_from_all_pressures() -> None:
    steps = [WalkStep(f"place {n}", (), band((9 - 0.01 * n) * BAR, 0.001)) for n in range(5)]
    drawing = draw_walk(juniper(), _state(), Walk("loop", tuple(steps)), PAGE)

    assert not any(isinstance(m, Polyline) and m.ink is Ink.LIMIT for m in drawing.marks)


def test_a_walk_names_every_loss_and_adds_up() -> None:
    walk = _state().walks[0]
    drawing = draw_walk(juniper(), _state(), walk, PAGE)
    texts = [t.text for t in drawing.texts]

    assert all(step.what in texts for step in walk.steps)
    assert "−0.45" in texts
    assert "+0.11" in texts
    changes = [float(t.partition(",")[0].replace("−", "-")) for t in texts if t[:1] in "−+"]
    lost = (walk.steps[0].pressure.value - walk.steps[-1].pressure.value) / BAR
    assert -sum(changes) == pytest.approx(lost, abs=0.005 * len(changes))


def test_a_long_walk_keeps_its_rows_readable_and_its_ends() -> None:
    steps = [
        WalkStep(f"place {n}", (f"O{n:02}",), band((8 - 0.1 * n) * BAR, 0.01)) for n in range(70)
    ]
    drawing = draw_walk(juniper(), _state(), Walk("long way", tuple(steps)), PAGE)
    marks = drawing.groups[0].marks
    texts = [m for m in marks if isinstance(m, Text) and m.text.startswith("place")]

    assert 20 <= len(texts) <= 27
    assert texts[0].text == "place 0"
    assert any("leaves 1.10" in t.text for t in drawing.texts)
    assert all(b.at[1] - a.at[1] > a.size for a, b in pairwise(texts))


def test_a_walk_without_a_change_is_drawn() -> None:
    still = Walk("still", (WalkStep("pump outlet", (), Band(BAR, BAR, BAR)),))

    drawing = draw_walk(juniper(), _state(), still, PAGE)

    assert any(isinstance(m, Circle) for m in drawing.marks)


def test_curves_over_time_are_told_apart_without_colour_and_named_at_their_ends() -> None:
    drawing = draw_series(juniper(), _state(), "K", PAGE)
    curves = [m for m in drawing.marks if isinstance(m, Polyline) and m.about]
    texts = [t.text for t in drawing.texts]

    assert len({m.ink for m in curves}) == len(curves) == 3
    assert "oil-tank, 121 °C" in texts
    assert "limit of oil-tank, 120 °C" in texts


def test_only_what_is_followed_through_time_gets_a_plot() -> None:
    idle = flows().state("oil", "hot-idle")

    assert idle is not None
    assert units(idle) == ()
    assert [name for _, name, _, _ in plots(juniper(), (idle,))] == []


def test_plots_are_named_by_system_and_condition() -> None:
    assert [name for _, name, _, _ in plots(juniper(), flows().states)] == [
        "oil-full-power-pump-oil-pump",
        "oil-full-power-walk",
        "oil-full-power-temperature",
    ]


def test_axes_carry_titles_with_units_and_inch_cars_have_theirs() -> None:
    inch = replace(juniper(), show="inch")
    said = {
        show: {t.text for d in _plots_of(car) for t in d.texts}
        for show, car in (("metric", juniper()), ("inch", inch))
    }

    assert {"Flow, L/min", "Rise of pressure, bar", "Temperature, °C"} <= said["metric"]
    assert {"Flow, gpm", "Rise of pressure, psi", "Temperature, °F"} <= said["inch"]


def _plots_of(car: object) -> list[Drawing]:
    return [drawing for *_, drawing in plots(car, flows().states)]  # type: ignore[arg-type]


def test_every_mark_stays_on_the_sheet_and_no_text_is_below_6_points() -> None:
    for drawing in (*_all(), *_plots_of(replace(juniper(), show="inch"))):
        sheet = Box(0, 0, drawing.width, drawing.height)

        assert all(sheet.holds(mark_box(mark)) for mark in drawing.marks)
        assert min(t.size for t in drawing.texts) >= 6 * 25.4 / 72


def test_no_two_texts_lie_on_each_other() -> None:
    for drawing in (*_all(), *_plots_of(replace(juniper(), show="inch"))):
        boxes = [(t.box, t.text) for t in drawing.texts]
        hits = [
            (a, b)
            for n, (one, a) in enumerate(boxes)
            for other, b in boxes[n + 1 :]
            if one.meets(other, -0.25)
        ]

        assert hits == []


def test_every_ink_of_a_plot_has_its_rule_in_the_file() -> None:
    for drawing in _all():
        text = svg(drawing)
        used = {m.ink for m in drawing.marks if isinstance(m, Polyline | Circle | Rect)}

        assert all(f".{ink.value}{{" in text or f".{ink.value}," in text for ink in used)
        assert svg(drawing) == text


def test_of_a_pump_like_a_wall_no_more_is_drawn_than_tells_its_point() -> None:
    pump = _state().pumps[0]
    taken = max(*pump.takes, *pump.most, pump.rise.high)
    high = 40 * taken
    wall = replace(pump, rises=tuple(high * (1 - q / pump.flows[-1] * 0.99) for q in pump.flows))
    soft = replace(pump, rises=tuple(2 * taken * (1 - q / pump.flows[-1]) for q in pump.flows))

    def top(curve: PumpCurve) -> float:
        texts = draw_pump(juniper(), _state(), curve, PAGE).groups[0].marks
        ticks = [m for m in texts if isinstance(m, Text) and m.anchor is Anchor.END]
        return max(float(m.text.replace(",", "")) for m in ticks) * BAR

    assert taken < top(wall) <= 2.1 * taken
    assert top(soft) >= 2 * taken


def test_pumps_that_do_the_same_are_drawn_once_in_the_book_and_twice_in_files() -> None:
    state = _state()
    pump = state.pumps[0]
    twin = replace(pump, pump="oil-pump-2", rises=tuple(1.001 * rise for rise in pump.rises))
    other = replace(pump, pump="oil-pump-3", flow=band(2 * pump.flow.value))
    states = (replace(state, pumps=(pump, twin, other)),)

    def pumps(once: bool) -> list[str]:
        names = [name for _, name, *_ in plots(juniper(), states, once=once)]
        assert len(names) == how_many(states, once=once)
        return [name.partition("-pump-")[2] for name in names if "-pump-" in name]

    assert pumps(once=True) == ["oil-pump", "oil-pump-3"]
    assert pumps(once=False) == ["oil-pump", "oil-pump-2", "oil-pump-3"]
