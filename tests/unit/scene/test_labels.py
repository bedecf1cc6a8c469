# SPDX-License-Identifier: Apache-2.0
"""Nothing on a diagram lies on anything else: proved on every drawing by geometry."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations
from math import hypot
from pathlib import Path

import pytest

from linewright.car.read import read
from linewright.plan.make import make
from linewright.plan.model import Plan
from linewright.scene.drawing import (
    Box,
    Circle,
    Drawing,
    Group,
    Ink,
    Mark,
    Pen,
    Point,
    Polyline,
    Rect,
    Text,
)
from linewright.scene.labels import Wanted, broken, set_numbers
from linewright.scene.paper import Title
from linewright.scene.schematic import compose, draw, systems
from linewright.scene.text import set_text
from tests.unit.scene import scene_plans

EXAMPLES = Path(__file__).parents[3] / "examples"


def _examples() -> Iterator[tuple[str, Plan, str]]:
    for car in sorted(EXAMPLES.glob("*/car.toml")):
        plan = make(read(car), in_space=False)
        for system in systems(plan):
            yield f"{car.parent.name}-{system}", plan, system
    for plan in (scene_plans.roadster(), scene_plans.e85()):
        yield f"by hand {plan.car.name}", plan, systems(plan)[0]


DRAWINGS: dict[str, Drawing] = {name: draw(plan, system) for name, plan, system in _examples()}
DRAWINGS["pair"] = compose(scene_plans.loop_pair(), Title("Pair", "Two loops", "", "", 1, 1))

#: What covers, and is not a stroke to be kept clear of: grounds.
_GROUNDS = (Ink.CARD, Ink.PAPER)


def _strokes(mark: Mark) -> Iterator[tuple[Point, Point]]:
    if isinstance(mark, Polyline):
        yield from mark.segments
    elif isinstance(mark, Rect) and mark.ink not in _GROUNDS:
        b = mark.box
        corners = ((b.left, b.top), (b.right, b.top), (b.right, b.bottom), (b.left, b.bottom))
        yield from zip(corners, (*corners[1:], corners[0]), strict=True)


def _ring_meets(circle: Circle, box: Box) -> bool:
    """Whether the edge of a circle enters a box."""
    x, y = circle.at
    near = hypot(max(box.left - x, 0.0, x - box.right), max(box.top - y, 0.0, y - box.bottom))
    far = hypot(
        max(abs(box.left - x), abs(box.right - x)), max(abs(box.top - y), abs(box.bottom - y))
    )
    return near < circle.radius < far or (circle.ink is Ink.SOLID and near < circle.radius)


def _texts_on_texts(drawing: Drawing) -> list[tuple[str, str]]:
    return [(a.text, b.text) for a, b in combinations(drawing.texts, 2) if a.box.meets(b.box)]


def _texts_on_strokes(drawing: Drawing) -> list[tuple[str, str]]:
    return [
        (text.text, mark.about)
        for text in drawing.texts
        for mark in drawing.marks
        if not isinstance(mark, Text | Circle)
        and any(text.box.cut_by(a, b) for a, b in _strokes(mark))
    ]


def _texts_on_rings(drawing: Drawing) -> list[tuple[str, str]]:
    return [
        (text.text, mark.about)
        for text in drawing.texts
        for mark in drawing.marks
        if isinstance(mark, Circle) and _ring_meets(mark, text.box)
    ]


@pytest.fixture(params=sorted(DRAWINGS))
def drawing(request: pytest.FixtureRequest) -> Drawing:
    return DRAWINGS[request.param]


def test_no_text_overlaps_another(drawing: Drawing) -> None:
    assert _texts_on_texts(drawing) == []


def test_no_text_is_cut_by_a_stroke_of_a_line_or_a_symbol(drawing: Drawing) -> None:
    assert _texts_on_strokes(drawing) == []


def test_no_text_lies_across_a_circle(drawing: Drawing) -> None:
    assert _texts_on_rings(drawing) == []


def test_the_geometry_sees_a_text_that_is_laid_on_something() -> None:
    good = DRAWINGS["by hand E85 boot"]
    pipe = next(m for m in good.marks if isinstance(m, Polyline) and m.about == "F01")
    ring = next(m for m in good.marks if isinstance(m, Circle) and m.ink is Ink.GLYPH)
    some = good.texts[0]
    on_pipe = set_text("on a line", pipe.points[0], 2.6)
    on_ring = set_text("on a ring", (ring.at[0] + ring.radius - 0.5, ring.at[1]), 2.6)
    on_text = replace(some, text="on a text")
    bad = replace(good, groups=(*good.groups, Group("bad", (on_pipe, on_ring, on_text))))

    assert "on a line" in {text for text, _ in _texts_on_strokes(bad)}
    assert "on a ring" in {text for text, _ in _texts_on_rings(bad)}
    assert (some.text, "on a text") in _texts_on_texts(bad)


def test_no_text_leaves_its_ground_or_the_sheet(drawing: Drawing) -> None:
    grounds = [m.box for m in drawing.marks if isinstance(m, Rect) and m.ink is Ink.CARD]
    frame = next(m.box for m in drawing.marks if isinstance(m, Rect) and m.ink is Ink.FRAME)
    out = [t.text for t in drawing.texts if not frame.holds(t.box)]
    across = [
        t.text for t in drawing.texts for g in grounds if t.box.meets(g) and not g.holds(t.box)
    ]

    assert out == []
    assert across == []


def test_no_line_runs_through_a_box(drawing: Drawing) -> None:
    grounds = [m for m in drawing.marks if isinstance(m, Rect) and m.ink is Ink.CARD]
    lines = [m for m in drawing.marks if isinstance(m, Polyline) and m.ink in (Ink.PIPE, Ink.FIT)]
    drawn = [m for m in lines if m.about]
    met = [
        (line.about, ground.about)
        for line in drawn
        for ground in grounds
        for a, b in line.segments
        if ground.box.cut_by(a, b, -0.01)
    ]

    assert drawn
    assert met == []


def test_no_two_boxes_overlap(drawing: Drawing) -> None:
    grounds = [m for m in drawing.marks if isinstance(m, Rect) and m.ink is Ink.CARD]

    assert [(a.about, b.about) for a, b in combinations(grounds, 2) if a.box.meets(b.box)] == []


def test_lines_never_lie_on_each_other(drawing: Drawing) -> None:
    pieces = [
        (m.about, a, b)
        for m in drawing.marks
        if isinstance(m, Polyline) and m.ink is Ink.PIPE and m.about
        for a, b in m.segments
    ]
    on = []
    for (one, a, b), (other, c, d) in combinations(pieces, 2):
        for k in (0, 1):
            same = abs(a[k] - b[k]) < 0.01 and abs(c[k] - d[k]) < 0.01 and abs(a[k] - c[k]) < 0.01
            low = max(min(a[1 - k], b[1 - k]), min(c[1 - k], d[1 - k]))
            high = min(max(a[1 - k], b[1 - k]), max(c[1 - k], d[1 - k]))
            if one != other and same and high - low > 0.01:
                on.append((one, other))

    assert on == []


def test_every_numbered_line_shows_its_number_and_every_component_its_id(drawing: Drawing) -> None:
    said = {t.text for t in drawing.texts}
    lines = {
        m.about
        for m in drawing.marks
        if isinstance(m, Polyline) and m.ink is Ink.PIPE and m.about and "/" not in m.about
    }
    components = {
        m.about
        for m in drawing.marks
        if isinstance(m, Rect) and m.ink is Ink.CARD and "/" not in m.about
    }

    assert lines <= said
    assert components <= said


@pytest.mark.parametrize("name", sorted(set(DRAWINGS) - {"pair"}))
def test_every_line_of_an_example_shows_its_size_beside_its_number(name: str) -> None:
    drawing = DRAWINGS[name]
    numbers = [t for t in drawing.texts if t.pen is Pen.SYSTEM]
    beside = {t.about for t in drawing.texts if t.pen is Pen.INK and t.size == numbers[0].size}

    # A short piece between walls may leave the size to another piece of its line.
    lines = {about.rstrip("abcdef") for about in beside}

    assert numbers
    assert [t.text for t in numbers if t.about.rstrip("abcdef") not in lines] == []


def test_crossings_of_the_demo_car_are_few_and_counted() -> None:
    counted = {k: d.crossings for k, d in DRAWINGS.items() if k.startswith("juniper")}
    met = {k: _crossings(DRAWINGS[k]) for k in counted}

    assert counted == met
    assert sum(counted.values()) <= 8


def _crossings(drawing: Drawing) -> int:
    """Points where two lines cross, found on the drawing itself; gaps of numbers are bridged."""
    strokes = [
        (m.about, a, b)
        for m in drawing.marks
        if isinstance(m, Polyline) and m.ink in (Ink.PIPE, Ink.FIT) and m.about
        for a, b in m.segments
    ]
    level = [(k, a, b) for k, a, b in strokes if abs(a[1] - b[1]) < 0.01]
    upright = [(k, a, b) for k, a, b in strokes if abs(a[0] - b[0]) < 0.01]
    return sum(
        one != other
        and min(a[0], b[0]) < c[0] < max(a[0], b[0])
        and min(c[1], d[1]) < a[1] < max(c[1], d[1])
        for one, a, b in level
        for other, c, d in upright
    )


def test_type_on_paper_is_at_least_two_millimetres_and_two_tenths(drawing: Drawing) -> None:
    assert min(t.size for t in drawing.texts) >= 2.2


def test_a_number_stands_in_a_gap_of_its_own_line() -> None:
    points = ((0.0, 0.0), (60.0, 0.0))
    wanted = Wanted("O01", (("O01", "-16"),), points)
    labels, lost = set_numbers([wanted], [("O01", points)], [], Box(-5, -20, 70, 20))
    (label,) = labels
    assert label.gap is not None
    left, right = broken(points, label.gap)

    assert lost == ()
    assert [t.text for t in label.texts] == ["O01", "-16"]
    assert left[-1][0] < label.box.left < label.box.right < right[0][0]
    assert left[0] == points[0]
    assert right[-1] == points[1]


def test_a_short_line_has_its_number_beside_it() -> None:
    points = ((0.0, 0.0), (10.0, 0.0))
    wanted = Wanted("O01", (("O01", "-16"),), points)
    labels, _ = set_numbers([wanted], [("O01", points)], [], Box(-20, -20, 40, 20))

    assert labels[0].gap is None
    assert not labels[0].box.cut_by(*points)


def test_a_number_without_a_place_is_reported_not_dropped() -> None:
    points = ((0.0, 0.0), (10.0, 0.0))
    wanted = Wanted("O01", (("O01", ""),), points)
    labels, lost = set_numbers(
        [wanted], [("O01", points)], [Box(-50, -50, 50, 50)], Box(-60, -60, 60, 60)
    )

    assert labels == ()
    assert lost == ("O01",)
