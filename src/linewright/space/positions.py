# SPDX-License-Identifier: Apache-2.0
"""Where a port is in the car, as far as the builder has said."""

from collections.abc import Mapping
from dataclasses import dataclass

from linewright.base.evidence import Placed
from linewright.base.frames import Vector, placed, rotation
from linewright.car.model import Car, Component, Port

#: Points of a body that can be touched: along which axis they lie, and on which side.
_FACES = {
    "front": (0, -1),
    "rear": (0, 1),
    "left": (1, -1),
    "right": (1, 1),
    "foot": (2, -1),
    "top": (2, 1),
}


@dataclass(frozen=True, slots=True)
class Position:
    """A point in the car's frame [m] and how it is known.

    ``is_own`` is False where the port itself was never placed and its component's point
    stands in for it.
    """

    at: Vector
    known: Placed
    is_own: bool = True


def position(car: Car, port_id: str) -> Position | None:
    """Where a port is in the car.

    Parameters
    ----------
    car : Car
        The car document as read.
    port_id : str
        The port, e.g. ``oil-tank.feed``.

    Returns
    -------
    Position or None
        The best that follows from what was typed: the port's own point in the car, its
        point on a placed component, the point of the component that stands in for it, or
        that of the port which its component is screwed on. None if nothing is placed.
    """
    return _position(car, port_id, frozenset())


def _position(car: Car, port_id: str, seen: frozenset[str]) -> Position | None:
    port = car.port(port_id)
    if port is None or port_id in seen:
        return None
    component = car.components[port.component]
    if port.at_car is not None:
        known = component.place.placed if component.place else Placed.TAPED
        return Position(port.at_car, port.placed or known)
    if component.place is not None:
        return _on_component(component, port)
    if component.on is not None:
        carrier = _position(car, component.on, seen | {port_id})
        return carrier and Position(carrier.at, carrier.known, is_own=False)
    return None


def _on_component(component: Component, port: Port) -> Position:
    place = component.place
    assert place is not None
    if place.anchor == port.name:
        return Position(place.at, port.placed or place.placed)
    if port.at is None:
        return Position(place.at, Placed.GUESS, is_own=False)
    turn = rotation(place.yaw, place.pitch, place.roll)
    touched = anchor(component.size, component.ports, place.anchor)
    offset = (port.at[0] - touched[0], port.at[1] - touched[1], port.at[2] - touched[2])
    return Position(placed(place.at, turn, offset), port.placed or place.placed)


def anchor(size: Vector | None, ports: Mapping[str, Port], name: str) -> Vector:
    """The point that was touched, in the frame of its own body.

    Parameters
    ----------
    size : Vector or None
        Extents of the body. [m]
    ports : Mapping
        Its ports by name: each can be the point that was touched.
    name : str
        Name of the point, e.g. ``foot``.

    Returns
    -------
    Vector
        The origin is the middle of the body; where no body size is known it is the point that
        was touched. [m]
    """
    named = ports.get(name)
    if named is not None and named.at is not None:
        return named.at
    if size is None or name not in _FACES:
        return (0.0, 0.0, 0.0)
    axis, sign = _FACES[name]
    x, y, z = (sign * side / 2 if axis == i else 0.0 for i, side in enumerate(size))
    return (x, y, z)
