# SPDX-License-Identifier: Apache-2.0
"""Views are to scale, hide what is behind, and let no label cover another."""

from dataclasses import replace
from itertools import combinations
from math import dist, hypot, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.car.model import Shape
from linewright.faces.files.svg import svg
from linewright.scene.drawing import Box, Circle, Drawing, Ink, Polyline, Rect, Text
from linewright.scene.spatial import EYES, View, draw_view
from linewright.scene.spatial_outlines import covered, reach, seen
from linewright.scene.spatial_things import Space, end_points
from linewright.space.bodies import Solid
from linewright.space.model import EndShape, Setting
from linewright.space.path import Path
from tests.unit.scene.spaces import LEVEL, bay, box, crowd, straight


def drawn(space: Space, view: View, show: str = "metric") -> Drawing:
    drawing = draw_view(space, view, car_name="Test", revision="abc", show=show)

    assert drawing is not None
    return drawing


def strokes(drawing: Drawing, about: str, ink: Ink) -> list[Polyline]:
    return [
        m for m in drawing.marks if isinstance(m, Polyline) and m.about == about and m.ink is ink
    ]


@pytest.mark.parametrize("view", list(View))
def test_a_straight_hose_is_as_long_and_wide_on_paper_as_the_scale_says(view: View) -> None:
    a, b = (0.1, -0.2, 0.15), (0.7, 0.3, 0.55)
    drawing = drawn(Space(hoses=(straight("O01", a, b, 0.0254),)), view)
    (stroke,) = strokes(drawing, "O01", Ink.HOSE)
    eye = EYES[view]

    real = dist(eye.flat(a), eye.flat(b)) * 1000
    assert dist(stroke.points[0], stroke.points[-1]) * drawing.ratio == pytest.approx(real)
    assert stroke.width * drawing.ratio == pytest.approx(25.4)


@pytest.mark.parametrize(
    ("view", "right", "up"),
    [
        (View.PLAN, (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
        (View.SIDE, (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
        (View.REAR, (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
    ],
)
def test_each_view_shows_its_axes_the_right_way_round(
    view: View, right: tuple[float, float, float], up: tuple[float, float, float]
) -> None:
    middle = (0.0, 0.0, 0.0)
    drawing = drawn(
        Space(hoses=(straight("O01", middle, right), straight("O02", middle, up))), view
    )
    across = strokes(drawing, "O01", Ink.HOSE)[0].points
    upwards = strokes(drawing, "O02", Ink.HOSE)[0].points

    assert across[-1][0] - across[0][0] == pytest.approx(1000 / drawing.ratio)
    assert across[-1][1] == pytest.approx(across[0][1])
    assert upwards[0][1] - upwards[-1][1] == pytest.approx(1000 / drawing.ratio)


@pytest.mark.parametrize(("show", "ratio"), [("metric", 5), ("inch", 4)])
def test_the_scale_is_a_standard_one_and_the_bars_are_true(show: str, ratio: int) -> None:
    drawing = drawn(bay(), View.REAR, show)
    bars = {
        unit: [m.box for m in drawing.marks if isinstance(m, Rect) and m.about == f"bar-{unit}"]
        for unit in ("mm", "in")
    }
    words = {t.text for t in drawing.texts}
    ends = {
        unit: max(float(w.split()[0]) for w in words if w[0].isdigit() and w.endswith(f" {unit}"))
        for unit in bars
    }

    assert drawing.ratio == ratio
    assert (drawing.width, drawing.height, drawing.paper) == (420.0, 297.0, "A3")
    # Two filled parts of four: the first starts at nought, the second ends at three quarters.
    for unit, long in (("mm", 1.0), ("in", 25.4)):
        left, right = bars[unit][0].left, bars[unit][1].right
        assert (right - left) * drawing.ratio == pytest.approx(0.75 * ends[unit] * long)


def test_the_title_block_says_what_it_is_and_what_it_is_not() -> None:
    words = [t.text for t in drawn(bay(), View.PLAN).texts]

    assert "Plan view, 1:10" in words
    assert "Test" in words
    assert "abc" in words
    assert "1 of 1" in words
    assert any(w.startswith("Views to scale; verify on the car.") for w in words)


def test_nothing_placed_gives_no_drawing() -> None:
    assert draw_view(Space(missing=("O01",)), View.PLAN, car_name="Test") is None


def test_guesses_and_what_is_not_drawn_are_named() -> None:
    words = " ".join(t.text for t in drawn(replace(bay(), missing=("O07", "F02")), View.SIDE).texts)

    assert "Position guessed: ENG, can, acc, wheel." in words
    assert "Not drawn, no course in space: O07, F02." in words


@settings(max_examples=12, deadline=None)
@given(seed=st.integers(0, 10_000), view=st.sampled_from(list(View)))
def test_no_label_covers_another_or_leaves_the_sheet(seed: int, view: View) -> None:
    drawing = drawn(crowd(seed), view)
    groups = {g.about: g for g in drawing.groups if g.about.startswith("label-")}
    boxes = {key: m.box for key, g in groups.items() for m in g.marks if hasattr(m, "text")}
    leaders = {
        key: m.points for key, g in groups.items() for m in g.marks if isinstance(m, Polyline)
    }

    assert all(f"label-O{i:02}" in boxes for i in range(1, 25) if f"O{i:02}" not in drawing.lost)
    assert not [key for key in drawing.lost if key.startswith("O")]
    for one, two in combinations(boxes, 2):
        assert not boxes[one].meets(boxes[two]), (one, two)
    for one, (a, b) in leaders.items():
        for two, area in boxes.items():
            assert one == two or not area.cut_by(a, b), (one, two)
    sheet = Box(8.0, 8.0, drawing.width - 8.0, drawing.height - 33.0)
    for area in boxes.values():
        assert sheet.holds(area)


def test_a_thousand_bodies_are_drawn_and_the_largest_are_named() -> None:
    many = crowd(3, 1000)
    drawing = drawn(replace(many, hoses=many.hoses[:8], dots=()), View.PLAN)
    named = {g.about for g in drawing.groups if g.about.startswith("label-part")}

    assert len({m.about for m in drawing.marks if getattr(m, "ink", None) is Ink.BODY}) == 1000
    assert 40 < len(named) <= 120
    assert len(drawing.lost) == 1000 - len(named)
    assert any("No room for the name of: part-" in t.text for t in drawing.texts)


@pytest.mark.parametrize("swapped", [False, True])
@pytest.mark.parametrize("tilt", [0.0, 0.4])
def test_where_two_hoses_cross_the_nearer_is_drawn_over_the_farther(
    swapped: bool, tilt: float
) -> None:
    # Where they cross the first lies 100 mm higher, whatever its middle does.
    high = straight("O01", (0.0, 0.0, 0.5), (1.0, 0.0, 0.5 - tilt))
    low = straight("O02", (0.2, -0.5, 0.4 - 0.2 * tilt), (0.2, 0.5, 0.4 - 0.2 * tilt))
    hoses = (low, high) if swapped else (high, low)
    drawing = drawn(Space(hoses=hoses), View.PLAN)
    (first, *_) = strokes(drawing, "O01", Ink.HOSE)
    crossing = (
        first.points[0][0] + 0.2 * (first.points[-1][0] - first.points[0][0]),
        first.points[0][1],
    )
    over = [
        m.about
        for m in drawing.marks
        if isinstance(m, Polyline) and m.ink is Ink.HOSE and _is_on(crossing, m)
    ]

    assert over[-1] == "O01"


def _is_on(point: tuple[float, float], line: Polyline) -> bool:
    for a, b in line.segments:
        far = dist(a, b)
        along = ((point[0] - a[0]) * (b[0] - a[0]) + (point[1] - a[1]) * (b[1] - a[1])) / far
        off = abs((point[0] - a[0]) * (b[1] - a[1]) - (point[1] - a[1]) * (b[0] - a[0])) / far
        if -1e-6 <= along <= far + 1e-6 and off < line.width / 2:
            return True
    return False


def test_a_hose_under_a_box_is_dashed_there_and_only_there() -> None:
    lid = box("lid", (0.5, 0.0, 0.5), (0.4, 0.4, 0.1))
    drawing = drawn(
        Space((lid,), hoses=(straight("O01", (0.0, 0.0, 0.2), (1.0, 0.0, 0.2)),)), View.PLAN
    )
    hidden = strokes(drawing, "O01", Ink.HIDDEN)
    shown = strokes(drawing, "O01", Ink.HOSE)

    def length(lines: list[Polyline]) -> float:
        return sum(dist(a, b) for m in lines for a, b in m.segments) * drawing.ratio

    assert length(hidden) == pytest.approx(400, abs=2 * 0.5 * drawing.ratio)
    assert length(shown) == pytest.approx(600, abs=2 * 0.5 * drawing.ratio)
    above = drawn(
        Space((lid,), hoses=(straight("O01", (0.0, 0.0, 0.7), (1.0, 0.0, 0.7)),)), View.PLAN
    )
    assert not strokes(above, "O01", Ink.HIDDEN)


@settings(max_examples=60, deadline=None)
@given(
    yaw=st.floats(-3, 3),
    pitch=st.floats(-1.5, 1.5),
    x=st.floats(-0.4, 0.4),
    y=st.floats(-0.4, 0.4),
    view=st.sampled_from(list(View)),
)
def test_what_hides_a_point_is_found_as_by_walking_to_the_eye(
    yaw: float, pitch: float, x: float, y: float, view: View
) -> None:
    lid = box("lid", (0.0, 0.0, 0.0), (0.5, 0.3, 0.2), yaw, pitch)
    eye = EYES[view]
    body = seen(lid, eye)
    assert body is not None
    start = tuple(
        x * r + y * u - 1.0 * t for r, u, t in zip(eye.right, eye.up, eye.toward, strict=True)
    )
    inside = []
    for step in range(2001):
        point = [s + t * step * 0.001 for s, t in zip(start, eye.toward, strict=True)]
        own = [sum(lid.turn[row][k] * point[row] for row in range(3)) for k in range(3)]
        inside.append(min(h / 2 - abs(o) for h, o in zip(lid.size or (), own, strict=True)))
    depth = max(inside)

    if abs(depth) > 0.003:
        assert covered([start], [body], eye) == [depth > 0]


def test_a_zone_that_moves_shows_all_it_may_take() -> None:
    wheel = bay().zones[0]
    xs = [p[0] for p in reach(wheel, EYES[View.SIDE])]
    zs = [p[1] for p in reach(wheel, EYES[View.SIDE])]

    assert max(xs) - min(xs) == pytest.approx(0.6 + 2 * 0.05, rel=1e-3)
    assert max(zs) - min(zs) == pytest.approx(0.6 + 2 * 0.08, rel=1e-3)


@pytest.mark.parametrize("shape", [Shape.CYLINDER, Shape.CAPSULE])
def test_round_bodies_are_as_large_as_their_size(shape: Shape) -> None:
    body = seen(Solid("x", shape, (0.0, 0.0, 0.0), LEVEL, (0.2, 0.2, 0.5)), EYES[View.SIDE])

    assert body is not None
    left, right, low, high = body.box
    assert right - left == pytest.approx(0.2)
    assert high - low == pytest.approx(0.5)


def test_a_hose_that_is_seen_end_on_is_a_ring() -> None:
    drawing = drawn(Space(hoses=(straight("O01", (0, 0, 0), (0, 0, 0.5), 0.03),)), View.PLAN)
    rings = [m for m in drawing.marks if isinstance(m, Circle) and m.ink is Ink.HOSE]

    assert [2 * ring.radius * drawing.ratio for ring in rings] == pytest.approx([30.0])


@pytest.mark.parametrize("angle", [0, 30, 45, 60, 90, 120, 150, 180])
def test_a_hose_end_is_drawn_from_its_seat_over_its_corner_to_its_collar(angle: int) -> None:
    from math import cos, sin

    turn = angle * pi / 180
    leg, socket = 0.034, 0.062
    drop = 0.05 if angle == 180 else leg * sin(turn)
    shape = EndShape(angle, socket + leg * cos(turn), drop, stick_out=0.02)
    points = end_points(Setting(shape, 0.0, (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)))

    assert points[-1] == (1.0, 0.0, 0.0)
    out = (0.0, cos(turn), sin(turn))
    seat = (1.0, socket + leg * cos(turn), drop)
    face = tuple(s + 0.02 * o for s, o in zip(seat, out, strict=True))
    assert points[0] == pytest.approx(face, abs=1e-12)
    if 0 < angle < 180:
        # The corner stands where both legs meet: on the hose's own axis for what has one.
        corner = points[-2]
        assert hypot(corner[0] - 1.0, corner[2]) < 1e-9


def test_the_same_car_gives_the_same_drawing_and_no_ids_in_its_order() -> None:
    once = svg(drawn(bay(), View.PLAN))

    assert once == svg(drawn(bay(), View.PLAN))
    assert "NaN" not in once
    assert once.count("<svg") == 1


def test_a_hose_bent_in_space_keeps_its_ends_on_paper() -> None:
    path = Path(((0, 0, 0), (0.4, 0, 0), (0.4, 0.4, 0), (0.4, 0.4, 0.4)), (0.1, 0.1))
    hose = replace(straight("O01", (0, 0, 0), (1, 0, 0)), path=path)
    drawing = drawn(Space(hoses=(hose,)), View.SIDE)
    lines = strokes(drawing, "O01", Ink.HOSE)

    across = lines[0].points[-1][0] - lines[0].points[0][0]
    assert across * drawing.ratio == pytest.approx(400)


@pytest.mark.parametrize("view", list(View))
def test_the_ground_is_drawn_where_it_is_seen_from_its_edge(view: View) -> None:
    drawing = drawn(replace(bay(), ground=-0.1), view)
    found = strokes(drawing, "the ground", Ink.RULER)
    top = EYES[view].flat((0.0, 0.0, 0.45))[1]

    assert bool(found) is (view is not View.PLAN)
    if found:
        long = max(found, key=lambda m: abs(m.points[1][0] - m.points[0][0]))
        (engine,) = strokes(drawing, "ENG", Ink.BEHIND)
        below = long.points[0][1] - min(p[1] for p in engine.points)
        assert below * drawing.ratio == pytest.approx(1000 * (top + 0.1))
        assert long.points[0][1] == long.points[1][1]


def test_walls_and_zones_go_off_the_sheet_where_hoses_are_drawn_larger_for_it() -> None:
    far = replace(bay().slabs[0], id="roof", at=(0.9, 0.0, 9.0), wide=4.0, high=0.5)
    near = drawn(bay(), View.REAR)
    drawing = drawn(replace(bay(), slabs=(*bay().slabs, far)), View.REAR)
    words = " ".join(t.text for t in drawing.texts)

    assert drawing.ratio == near.ratio
    assert "Beyond the edge of the sheet: roof." in words
    for mark in drawing.marks:
        if isinstance(mark, Polyline) and mark.about in ("wheel", "firewall", "roof"):
            for x, y in mark.points:
                assert 8.0 <= x <= 412.0
                assert 8.0 <= y <= 264.0


def test_a_long_low_car_with_much_in_it_gets_a_longer_sheet_and_a_larger_scale() -> None:
    a, b = (0.0, 0.0, 0.2), (4.4, 0.3, 0.5)
    few = Space(hoses=(straight("O01", a, b),))
    many = Space(
        hoses=tuple(
            straight(f"O{i:02}", (0.06 * i, 0.0, 0.2), (0.06 * i + 0.3, 0.5, 0.5))
            for i in range(1, 69)
        )
    )

    one, other = drawn(few, View.PLAN), drawn(many, View.PLAN)
    assert (one.paper, one.width, one.ratio) == ("A3", 420.0, 15)
    assert (other.paper, other.width, other.height, other.ratio) == ("A3 long", 594.0, 297.0, 10)


def test_a_port_is_named_where_its_name_stands_free_and_is_not_missed_else() -> None:
    drawing = drawn(bay(), View.PLAN)
    names = {g.about: g.marks[-1] for g in drawing.groups if g.about in ("label-can.in",)}
    crowded = drawn(crowd(5), View.PLAN)

    assert [mark.text for mark in names.values() if isinstance(mark, Text)] == ["in"]
    assert not [key for key in crowded.lost if key.endswith(".a")]
