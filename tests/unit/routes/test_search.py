# SPDX-License-Identifier: Apache-2.0
"""The search of one hose: free space against all 5° settings, and round what is in the way."""

from dataclasses import replace
from math import dist, pi, radians

import numpy as np
import pytest

from linewright.base.frames import rotation
from linewright.base.vectors import ahead, dot, unit
from linewright.car.model import Construction, Line, Medium, Shape
from linewright.routes.no_route import no_route
from linewright.routes.search import Side, Task, Weights, bend_count, ends_of, lay_line
from linewright.routes.shapes import end_shapes
from linewright.space.bodies import Solid
from linewright.space.free import collar
from linewright.space.model import EndShape, Frame, Limits
from linewright.space.obstacles import Obstacle, Scene, Wall
from linewright.space.path import directions, fits, length, point
from tests import dense_check
from tests.shortest_rows import shortest_pairs

LIMITS = Limits(0.0196, 0.141, 0.0392)
SHAPES = end_shapes("rubber", "-8")
UP = (0.0, 0.0, 1.0)
LINE = Line("O01", "a.out", "b.in", None, Medium.OIL, "-8", "rubber braided", Construction.HOSE)


def frame(seed: int) -> Frame:
    random = np.random.default_rng(seed)
    out, side, at = (tuple(float(x) for x in random.normal(size=3)) for _ in range(3))
    out = unit((out[0], out[1], out[2]))
    flat = ahead((side[0], side[1], side[2]), out, -dot((side[0], side[1], side[2]), out))
    return Frame((0.4 * at[0], 0.4 * at[1], 0.4 * at[2]), out, unit(flat))


def task(a: Frame, b: Frame, *bodies: Obstacle, shapes: tuple[EndShape, ...] = SHAPES) -> Task:
    low = (
        min(a.origin[0], b.origin[0]),
        min(a.origin[1], b.origin[1]),
        min(a.origin[2], b.origin[2]),
    )
    high = (
        max(a.origin[0], b.origin[0]),
        max(a.origin[1], b.origin[1]),
        max(a.origin[2], b.origin[2]),
    )
    return Task("O01", Side(a, shapes), Side(b, shapes), LIMITS, Scene.build(bodies), (low, high))


def wall(at: float, size: tuple[float, float], name: str = "wall") -> Solid:
    return Solid(
        name,
        Shape.BOX,
        (at, 0.0, 0.0),
        rotation(0.0, 0.0, 0.0),
        (0.05, *size),
        clearance=0.010,
    )


FACING = (
    Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), UP),
    Frame((1.5, 0.0, 0.0), (-1.0, 0.0, 0.0), UP),
)


@pytest.mark.parametrize("seed", range(0, 40, 2))
def test_a_route_starts_and_ends_at_the_collars_of_its_ends(seed: int) -> None:
    asked = task(frame(seed), frame(seed + 1))
    route = lay_line(asked).route

    assert route is not None
    assert fits(route.path) is None
    assert route.length == pytest.approx(length(route.path))
    leave, arrive = directions(route.path)
    assert dist(route.path.corners[0], route.a.collar) < 1e-9
    assert dist(route.path.corners[-1], route.b.collar) < 1e-9
    assert dot(leave, route.a.n) == pytest.approx(-1.0)
    assert dot(arrive, route.b.n) == pytest.approx(1.0)
    again = collar(asked.a.frame, route.a.shape, route.a.turn)
    assert dist(again.collar, route.a.collar) < 1e-12
    trim = dist(route.path.corners[0], route.path.corners[1])
    assert trim >= LIMITS.straight - 1e-9


def _rows(side: Frame, shape: EndShape) -> tuple[np.ndarray, np.ndarray]:
    turns = [0.0] if shape.angle == 0 else list(np.arange(72) * radians(5.0))
    set_ = [collar(side, shape, turn) for turn in turns]
    return np.array([s.collar for s in set_]), -np.array([s.n for s in set_])


@pytest.mark.parametrize("seed", range(0, 12, 2))
def test_free_runs_are_no_longer_than_all_settings_of_5_degrees(seed: int) -> None:
    # Cost is length alone here, so that it can be worked out apart from the search.
    pair = (SHAPES[4], SHAPES[2])
    asked = task(frame(seed), frame(seed + 1))
    asked = replace(
        asked,
        a=replace(asked.a, shapes=pair[:1]),
        b=replace(asked.b, shapes=pair[1:]),
        weights=Weights(0.0, 0.0, 0.0, 0.0),
    )
    route = lay_line(asked).route
    a, b = _rows(asked.a.frame, pair[0]), _rows(asked.b.frame, pair[1])
    lengths, turns = shortest_pairs(*a, *b, LIMITS.bend_radius, LIMITS.straight)
    best = lengths[(turns < 1.2 * pi).all(axis=2)].min()

    assert route is not None
    assert route.length <= 1.01 * best


def test_a_loop_over_the_ports_costs_more_than_bent_ends() -> None:
    a = Frame((0.0, 0.0, 0.0), UP, (-1.0, 0.0, 0.0))
    route = lay_line(task(a, replace(a, origin=(0.35, 0.0, 0.0)))).route

    assert route is not None
    assert (route.a.shape.angle, route.b.shape.angle) == (90, 90)
    assert route.clock_deg == pytest.approx(0.0, abs=2.0)


def test_a_typed_angle_is_kept_and_the_band_still_shows_the_others() -> None:
    asked = task(*FACING)
    outcome = lay_line(replace(asked, a=replace(asked.a, angle=45)))

    assert outcome.route is not None
    assert outcome.route.a.shape.angle == 45
    assert len(outcome.band) == 64
    assert next(r for r in outcome.band if (r.angle_a, r.angle_b) == (0, 0)).works


def test_a_straight_hose_goes_round_a_wall_and_keeps_off_it() -> None:
    straight = SHAPES[:1]
    bodies = (wall(0.75, (0.6, 0.6)),)
    route = lay_line(task(*FACING, *bodies, shapes=straight)).route

    assert route is not None
    assert bend_count(route.path) >= 3
    assert route.clearance is not None
    assert route.clearance.from_what == "wall"
    assert route.clearance.gap >= 0.010
    assert not dense_check.check(
        route.path.corners,
        route.path.radii,
        LIMITS.outside / 2,
        bodies,
        bend_radius=LIMITS.bend_radius,
    )


def test_a_hose_passes_the_poses_it_is_led_through() -> None:
    led = ((0.75, 0.3, 0.2), (1.0, 0.0, 0.0))
    route = lay_line(replace(task(*FACING), through=(led,))).route
    assert route is not None
    points = dense_check.samples(route.path.corners, route.path.radii)

    assert np.linalg.norm(points - np.array(led[0]), axis=1).min() < 1e-3


def test_the_same_task_gives_the_same_route_to_the_bit() -> None:
    bodies = (wall(0.75, (0.6, 0.6)),)

    assert lay_line(task(*FACING, *bodies)) == lay_line(task(*FACING, *bodies))


def test_a_hose_does_not_loop_through_itself() -> None:
    # 60 mm for 12 mm aside: only a whole turn would do, and that meets itself.
    a = Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), UP)
    b = Frame((0.246, 0.0, 0.012), (-1.0, 0.0, 0.0), UP)
    route = lay_line(task(a, b, shapes=SHAPES[:1])).route
    if route is not None:
        on = np.arange(0.0, route.length, 0.005)
        places = np.array([point(route.path, float(t)) for t in on])
        gap = np.linalg.norm(places[:, None] - places[None], axis=2)
        far = np.abs(on[:, None] - on[None]) > 1.2 * pi * LIMITS.bend_radius

        assert gap[far].min() > LIMITS.outside


def test_points_of_the_ends_run_from_port_to_port() -> None:
    asked = task(*FACING)
    route = lay_line(asked).route
    assert route is not None
    points = ends_of(asked, route)

    assert points[0] == asked.a.frame.origin
    assert points[-1] == asked.b.frame.origin


def lid(height: float) -> Wall:
    return Wall("lid", (0.0, 0.0, height), (0.0, 0.0, -1.0), 0.002, (3.0, 3.0), clearance=0.01)


def test_a_hose_without_a_course_names_what_binds_and_what_frees_it() -> None:
    a = Frame((0.0, 0.0, 0.0), UP, (-1.0, 0.0, 0.0))
    b = Frame((0.5, 0.0, 0.0), UP, (-1.0, 0.0, 0.0))
    asked = task(a, b, lid(0.09), shapes=SHAPES[:1])
    asked = replace(
        asked, a=replace(asked.a, shapes=SHAPES, angle=0), b=replace(asked.b, shapes=SHAPES)
    )
    outcome = lay_line(asked)
    found = no_route(asked, LINE, outcome, lambda name, room: asked.scene)

    assert outcome.route is None
    assert "lid" in outcome.blocked
    assert (found.code, found.severity.value) == ("no-route", "stop")
    assert found.reason == (
        "O01: no course was found from a.out to b.in with the hose ends typed; what binds: bend "
        "radius 141 mm; 10 mm clearance to lid; straight 39 mm after each end."
    )
    assert found.remedy == (
        "Other ends do: 90° at A and 90° at B. Type them, or leave the ends open."
    )


def test_what_nothing_frees_is_said_to_have_been_tried() -> None:
    # A port that looks into a block 30 mm before it.
    a = Frame((0.0, 0.0, 0.0), UP, (-1.0, 0.0, 0.0))
    b = Frame((0.5, 0.0, 0.0), UP, (-1.0, 0.0, 0.0))
    block = Solid(
        "block",
        Shape.BOX,
        (0.0, 0.0, 0.36),
        rotation(0.0, 0.0, 0.0),
        (0.6, 0.6, 0.6),
        clearance=0.01,
    )
    asked = task(a, b, block, shapes=SHAPES[:1])
    found = no_route(asked, LINE, lay_line(asked), lambda name, room: asked.scene)

    assert found.remedy == (
        "Tried in vain: all other ends, 40 mm more room at each thing in the way, each port "
        "turned by 30°, the next smaller size. Move a component, or give the line a guide."
    )


def test_a_panel_between_the_ports_is_named_with_what_leads_through_it() -> None:
    a = Frame((0.0, 0.0, 0.0), UP, (-1.0, 0.0, 0.0))
    b = Frame((0.5, 0.0, 0.5), UP, (-1.0, 0.0, 0.0))
    apart = Wall("wall", (0.0, 0.0, 0.25), UP, 0.002)
    asked = task(a, b, apart, shapes=SHAPES[:1])
    found = no_route(asked, LINE, lay_line(asked), lambda name, room: asked.scene)

    assert found.remedy == (
        'wall is in the way: say `passes = ["wall"]` at the line for a bulkhead fitting there, or '
        "give wall a hole with its bore for a grommet."
    )


def facing(apart: float, off: float) -> Task:
    """Two straight ends that look at each other, so far apart and one so much higher."""
    a = Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), UP)
    b = Frame((apart, 0.0, off), (-1.0, 0.0, 0.0), UP)
    made = task(a, b, shapes=SHAPES[:1])
    return replace(made, limits=replace(made.limits, most_bends=2))


def test_another_port_direction_is_named_where_it_frees_the_hose() -> None:
    # Straights and ends leave 134 mm for a double bend of 141 mm radius: 32 mm aside, not 60.
    asked = facing(0.32, 0.06)
    outcome = lay_line(asked)
    found = no_route(asked, LINE, outcome, lambda name, room: asked.scene)

    assert outcome.route is None
    assert found.remedy == "It goes with the port at A turned 10° towards twelve o'clock."


def test_the_next_smaller_size_is_named_where_it_frees_the_hose() -> None:
    # 60 mm for 12 mm aside take 75 mm of radius at most; turned by 30° a port shoots past.
    asked = facing(0.246, 0.012)
    outcome = lay_line(asked)
    smaller = replace(asked.limits, bend_radius=0.07, straight=0.03)
    found = no_route(asked, LINE, outcome, lambda name, room: asked.scene, ("-6", smaller))

    assert outcome.route is None
    assert found.remedy == (
        "It goes in -6, which bends to 70 mm; see first that the flow allows it."
    )


def test_more_room_is_named_where_it_frees_the_hose() -> None:
    a = Frame((0.0, 0.0, 0.0), UP, (-1.0, 0.0, 0.0))
    b = Frame((0.5, 0.0, 0.0), UP, (-1.0, 0.0, 0.0))
    # Two straight ends stand 54 + 39 + 141 mm and half the hose tall, and keep 10 mm.
    low = lid(0.245)
    asked = task(a, b, low, shapes=SHAPES[:1])

    def widened(name: str, room: float) -> Scene:
        return Scene.build([replace(low, clearance=low.clearance - room)])

    found = no_route(asked, LINE, lay_line(asked), widened)

    assert found.remedy == "It goes with 15 mm more room at lid."
