# SPDX-License-Identifier: Apache-2.0
"""Ports in space: frame, spread, and what is missing before there is one."""

from math import pi, radians

import pytest

from linewright.base.evidence import Placed
from linewright.car.model import Car, Component, Place, Port, Shape
from linewright.space.ports import port_frame, why_no_frame

TAPED = Place((3.0, 0.0, 1.0), "middle", placed=Placed.TAPED)


def _car(place: Place | None = TAPED, *, size: bool = True, **changes: object) -> Car:
    port = Port("TANK.feed", "TANK", "feed", **changes)  # type: ignore[arg-type]
    tank = Component(
        "TANK",
        "tank",
        place=place,
        size=(0.2, 0.2, 0.4) if size else None,
        shape=Shape.BOX if size else None,
        ports={"feed": port},
    )
    return Car("x", components={"TANK": tank})


def test_a_port_turns_with_its_component() -> None:
    place = Place((3.0, 0.0, 1.0), "middle", yaw=pi / 2, placed=Placed.TAPED)
    frame = port_frame(_car(place, at=(0.0, 0.1, 0.0), points=(0.0, 1.0, 0.0)), "TANK.feed")

    assert frame is not None
    assert frame.origin == pytest.approx((2.9, 0.0, 1.0))
    assert frame.out == pytest.approx((-1.0, 0.0, 0.0))
    assert frame.side == pytest.approx((0.0, 0.0, 1.0))


def test_a_direction_taped_in_the_car_does_not_turn() -> None:
    place = Place((3.0, 0.0, 1.0), "middle", yaw=pi / 2)
    frame = port_frame(
        _car(place, at_car=(3.1, 0.0, 1.0), points_car=(0.0, 0.0, -1.0)), "TANK.feed"
    )

    assert frame is not None
    assert frame.origin == (3.1, 0.0, 1.0)
    assert frame.out == (0.0, 0.0, -1.0)
    assert frame.side == (-1.0, 0.0, 0.0)


@pytest.mark.parametrize(
    ("placed", "spread", "tilt"),
    [
        # Spreads of settings.csv: estimates.
        (Placed.FINAL, 0.002, 1),
        (Placed.MOCKED_UP, 0.005, 3),
        (Placed.TAPED, 0.008, 5),
        (Placed.PHOTO, 0.030, 10),
        (Placed.GUESS, 0.150, 30),
    ],
)
def test_the_spread_goes_by_how_the_component_was_placed(
    placed: Placed, spread: float, tilt: float
) -> None:
    place = Place((3.0, 0.0, 1.0), placed=placed)
    frame = port_frame(_car(place, at=(0.1, 0.0, 0.0), points=(1.0, 0.0, 0.0)), "TANK.feed")

    assert frame is not None
    assert frame.placed is placed
    assert frame.spread == pytest.approx(spread)
    assert frame.tilt == pytest.approx(radians(tilt))


def test_what_is_said_of_the_port_itself_goes_before_its_component() -> None:
    car = _car(at=(0.1, 0.0, 0.0), points=(1.0, 0.0, 0.0), placed=Placed.FINAL)
    frame = port_frame(car, "TANK.feed")

    assert frame is not None
    assert frame.placed is Placed.FINAL
    assert frame.tilt == pytest.approx(radians(1))


def test_a_direction_of_the_kind_is_a_guess() -> None:
    car = _car(at=(0.1, 0.0, 0.0), points=(1.0, 0.0, 0.0), points_from_kind=True)
    frame = port_frame(car, "TANK.feed")

    assert frame is not None
    assert frame.spread == pytest.approx(0.008)
    assert frame.tilt == pytest.approx(radians(30))
    assert frame.placed is Placed.GUESS


def test_no_hose_starts_in_the_middle_of_a_body() -> None:
    car = _car(points=(1.0, 0.0, 0.0))

    assert port_frame(car, "TANK.feed") is None
    assert why_no_frame(car, "TANK.feed") == "TANK.feed: at not known"


def test_the_place_of_a_small_thing_stands_in_for_its_port() -> None:
    frame = port_frame(_car(size=False, points=(1.0, 0.0, 0.0)), "TANK.feed")

    assert frame is not None
    assert frame.origin == (3.0, 0.0, 1.0)
    assert frame.placed is Placed.GUESS
    assert frame.spread == pytest.approx(0.150)


def test_a_port_without_a_direction_has_no_frame() -> None:
    car = _car(at=(0.1, 0.0, 0.0))

    assert port_frame(car, "TANK.feed") is None
    assert why_no_frame(car, "TANK.feed") == "TANK.feed: points not known"


def test_a_port_that_is_not_there_has_no_frame() -> None:
    assert port_frame(_car(), "TANK.fed") is None
    assert why_no_frame(_car(), "TANK.fed") == "there is no port TANK.fed"
    assert why_no_frame(_car(None), "TANK.feed") == "TANK.feed: at and points not known"
