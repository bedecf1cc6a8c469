# SPDX-License-Identifier: Apache-2.0
"""Bodies and zones where they lie in the car, and what they ask of lines."""

from math import pi

import pytest

from linewright.base.evidence import Figure, Grade
from linewright.base.vectors import cross, dot
from linewright.car.model import (
    Body,
    Car,
    Component,
    Mesh,
    Place,
    Port,
    Shape,
    Zone,
    ZoneKind,
)
from linewright.space.bodies import bodies, panel_axes, port_side, zone_clearance
from linewright.space.moving import growth, movement

SIZE = (0.6, 0.4, 0.2)


def _tank(**changes: object) -> Component:
    values: dict[str, object] = {
        "place": Place((3.0, 0.0, 0.5), "foot"),
        "size": (0.2, 0.2, 0.4),
        "shape": Shape.CYLINDER,
        "round": True,
    }
    return Component("TANK", "tank", **(values | changes))  # type: ignore[arg-type]


def _zone(kind: ZoneKind = ZoneKind.HOT, **changes: object) -> Zone:
    body = Body("Z", Place((0.0, 0.0, 0.0)), Shape.BOX, SIZE)
    return Zone("Z", kind, **({"body": body} | changes))  # type: ignore[arg-type]


def test_a_component_lies_above_the_foot_that_was_touched() -> None:
    (solid,) = bodies(Car("x", components={"TANK": _tank()}))

    assert solid.middle == pytest.approx((3.0, 0.0, 0.7))
    assert solid.shape is Shape.CYLINDER
    assert solid.component == "TANK"
    assert solid.zone is None
    assert solid.clearance == 0.010  # common practice


def test_a_component_without_place_or_size_has_no_body() -> None:
    nowhere = _tank(place=None)
    small = Component("B", "tank", place=Place((0.0, 0.0, 0.0)))

    assert bodies(Car("x", components={"TANK": nowhere, "B": small})) == ()


def test_a_component_placed_by_a_port_lies_about_that_port() -> None:
    port = Port("TANK.feed", "TANK", "feed", at=(0.1, 0.0, -0.2))
    tank = _tank(place=Place((3.0, 0.0, 0.5), "feed", yaw=pi), ports={"feed": port})
    (solid,) = bodies(Car("x", components={"TANK": tank}))

    assert solid.middle == pytest.approx((3.1, 0.0, 0.7))


def test_a_cylinder_is_laid_along_the_car_by_its_pitch() -> None:
    body = Body(
        "gearbox", Place((1.0, 0.0, 0.3), "middle", pitch=pi / 2), Shape.CYLINDER, (0.3, 0.3, 0.7)
    )
    (solid,) = bodies(Car("x", bodies={"gearbox": body}))
    box = solid.box

    assert box is not None
    assert box[0] == pytest.approx((0.65, -0.15, 0.15))
    assert box[1] == pytest.approx((1.35, 0.15, 0.45))


def test_a_mesh_keeps_its_own_origin_and_lies_beside_the_document() -> None:
    place = Place((0.4, 0.0, 0.5), yaw=0.1)
    body = Body("block", place, Shape.MESH, None, Mesh("solids/block.stl", 1e-3))
    (solid,) = bodies(Car("x", bodies={"block": body}, file="cars/x/car.toml"))

    assert solid.middle == (0.4, 0.0, 0.5)
    assert solid.file.replace("\\", "/") == "cars/x/solids/block.stl"
    assert solid.scale == 1e-3
    assert solid.size is None
    assert solid.box is None


def test_a_zone_of_a_component_has_its_shape_and_names_it() -> None:
    zone = Zone("warm", ZoneKind.HOT, of="TANK")
    car = Car("x", components={"TANK": _tank()}, zones={"warm": zone})
    tank, warm = bodies(car)

    assert (warm.middle, warm.shape, warm.size) == (tank.middle, tank.shape, tank.size)
    assert warm.component == "TANK"
    assert warm.zone is ZoneKind.HOT


@pytest.mark.parametrize(
    ("surface", "is_shielded", "gap"),
    [
        # Gaps beside an exhaust: common practice, 25 mm of air from a student racing rule.
        (None, False, 0.100),
        (873.15, False, 0.100),
        (873.15, True, 0.050),
        (373.15, False, 0.025),
    ],
)
def test_the_gap_from_what_is_hot_goes_by_its_surface_and_its_shield(
    surface: float | None, is_shielded: bool, gap: float
) -> None:
    figure = None if surface is None else Figure(surface, "K", Grade.STATED)
    found = zone_clearance(Car("x"), _zone(surface=figure, is_shielded=is_shielded))

    assert found.value == pytest.approx(gap)
    assert found.grade is Grade.PRACTICE


def test_a_gap_that_the_builder_sets_for_himself_holds() -> None:
    car = Car("x", settings={"clearance-hot": Figure(0.15, "m", Grade.STATED)})

    assert zone_clearance(car, _zone()).value == 0.15


def test_lines_keep_out_of_some_zones_and_are_only_told_of_others() -> None:
    zones = {kind: _zone(kind) for kind in ZoneKind}
    found = bodies(Car("x", zones={k: zones[k] for k in ZoneKind}))

    assert [s.zone for s in found if s.is_solid] == [
        ZoneKind.HOT,
        ZoneKind.KEEP_OUT,
        ZoneKind.MOVING,
    ]


def test_a_moving_zone_grows_by_its_travel() -> None:
    (solid,) = bodies(Car("x", zones={"Z": _zone(ZoneKind.MOVING, travel=(0.0, 0.02, 0.08))}))

    assert solid.grown == (0.0, 0.02, 0.08)
    assert solid.clearance == 0.025  # common practice


def test_what_rides_together_does_not_come_nearer() -> None:
    car = Car("x")

    assert growth(car, "engine", ["engine", "engine"]) == 0.0
    assert growth(car, "chassis", ["chassis"]) == 0.0


def test_a_line_from_the_engine_to_the_chassis_sees_both_move() -> None:
    car = Car("x")

    # Rubber mounts let the top of an engine go 20 mm each way, an exhaust 30 mm: practice.
    assert growth(car, "engine", ["engine", "chassis"]) == pytest.approx(0.020)
    assert growth(car, "chassis", ["engine", "chassis"]) == pytest.approx(0.020)
    assert growth(car, "exhaust", ["engine", "chassis"]) == pytest.approx(0.050)


def test_the_builder_says_how_far_his_engine_moves() -> None:
    car = Car("x", movement={"engine": Figure(0.003, "m", Grade.STATED)})

    assert movement(car, "engine") == Figure(0.003, "m", Grade.STATED)
    assert growth(car, "engine", ["chassis"]) == 0.003
    assert growth(car, "subframe", ["chassis"]) == 0.0


@pytest.mark.parametrize(
    "points",
    [(1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 0.0, -1.0), (0.6, 0.0, 0.8), (0.0, -1.0, 0.0)],
)
def test_the_sides_of_a_wall_and_twelve_on_a_port_are_square_to_it(
    points: tuple[float, float, float],
) -> None:
    across, along = panel_axes(points)
    twelve = port_side(points)

    assert dot(across, points) == pytest.approx(0.0)
    assert across[2] == pytest.approx(0.0)
    assert cross(points, across) == pytest.approx(along)
    assert dot(twelve, points) == pytest.approx(0.0)
    assert dot(twelve, twelve) == pytest.approx(1.0)


def test_twelve_on_an_upright_port_is_forward() -> None:
    """Twelve is forward within one degree of vertical."""
    near, over = (0.017, 0.0, 0.99985549), (0.018, 0.0, 0.99983799)

    assert port_side(near)[0] < -0.99
    assert port_side(over)[2] > 0.0
    assert port_side(over)[0] == pytest.approx(-0.99983799, abs=1e-6)
