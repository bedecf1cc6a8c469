# SPDX-License-Identifier: Apache-2.0
"""Where ports are, from what a tape touched."""

from math import pi

import pytest

from linewright.base.evidence import Placed
from linewright.car.model import Car, Component, Place, Port
from linewright.space.positions import position

BODY = (0.2, 0.2, 0.4)


def _car(*components: Component) -> Car:
    return Car("test", components={c.id: c for c in components})


def _tank(place: Place | None, port: Port, **changes: object) -> Component:
    return Component("TANK", "tank", place=place, ports={port.name: port}, **changes)  # type: ignore[arg-type]


def _port(**changes: object) -> Port:
    return Port("TANK.feed", "TANK", "feed", **changes)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("anchor", "expected"),
    [
        ("middle", (3.0, 0.0, 0.8)),
        ("foot", (3.0, 0.0, 1.0)),
        ("top", (3.0, 0.0, 0.6)),
        ("front", (3.1, 0.0, 0.8)),
        ("right", (3.0, -0.1, 0.8)),
    ],
)
def test_a_port_is_measured_from_the_point_that_was_touched(
    anchor: str, expected: tuple[float, float, float]
) -> None:
    place = Place((3.0, 0.0, 1.0), anchor, placed=Placed.TAPED)
    found = position(_car(_tank(place, _port(at=(0.0, 0.0, -0.2)), size=BODY)), "TANK.feed")

    assert found is not None
    assert found.at == pytest.approx(expected)
    assert found.known is Placed.TAPED
    assert found.is_own


def test_the_port_itself_may_be_the_point_that_was_touched() -> None:
    place = Place((3.0, 0.1, 1.0), "feed", yaw=1.0, placed=Placed.FINAL)
    found = position(_car(_tank(place, _port(at=(0.0, 0.0, -0.2)))), "TANK.feed")

    assert found is not None
    assert found.at == (3.0, 0.1, 1.0)


def test_a_turned_component_takes_its_ports_with_it() -> None:
    place = Place((1.0, 0.0, 0.0), "middle", yaw=pi / 2, placed=Placed.TAPED)
    found = position(_car(_tank(place, _port(at=(0.3, 0.0, 0.0)), size=BODY)), "TANK.feed")

    assert found is not None
    assert found.at == pytest.approx((1.0, 0.3, 0.0))


def test_a_port_taped_in_the_car_needs_no_component() -> None:
    found = position(_car(_tank(None, _port(at_car=(0.4, 0.5, 0.6)))), "TANK.feed")

    assert found is not None
    assert found.at == (0.4, 0.5, 0.6)
    assert found.known is Placed.TAPED


def test_a_port_without_a_place_of_its_own_is_only_guessed() -> None:
    place = Place((3.0, 0.0, 1.0), "middle", placed=Placed.FINAL)
    found = position(_car(_tank(place, _port())), "TANK.feed")

    assert found is not None
    assert found.known is Placed.GUESS
    assert not found.is_own


def test_what_is_screwed_on_is_where_its_port_is() -> None:
    place = Place((3.0, 0.0, 1.0), "feed", placed=Placed.TAPED)
    valve = Component("RV", "valve", on="TANK.feed", ports={"out": Port("RV.out", "RV", "out")})
    found = position(_car(_tank(place, _port()), valve), "RV.out")

    assert found is not None
    assert found.at == (3.0, 0.0, 1.0)
    assert not found.is_own


def test_nothing_placed_gives_nothing() -> None:
    assert position(_car(_tank(None, _port())), "TANK.feed") is None
    assert position(_car(_tank(None, _port())), "TANK.other") is None


def test_components_screwed_on_each_other_end_in_nothing() -> None:
    a = Component("A", "x", on="B.p", ports={"p": Port("A.p", "A", "p")})
    b = Component("B", "x", on="A.p", ports={"p": Port("B.p", "B", "p")})

    assert position(_car(a, b), "A.p") is None
