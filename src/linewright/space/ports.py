# SPDX-License-Identifier: Apache-2.0
"""Ports in space: where each is, which way it points, how well both are known."""

from math import radians

from linewright.base.evidence import Placed
from linewright.base.vectors import unit
from linewright.car.model import Car, Port, Vector
from linewright.joints.offered import setting
from linewright.space.bodies import component_solid, port_side, towards
from linewright.space.model import Frame
from linewright.space.positions import position

_ORDER = tuple(Placed)


def _direction(car: Car, port: Port) -> Vector | None:
    if port.points_car is not None:
        return port.points_car
    if port.points is None:
        return None
    return unit(towards(car.components[port.component].place, port.points))


def why_no_frame(car: Car, port_id: str) -> str | None:
    """Say what is missing before a port can be drawn in space.

    Parameters
    ----------
    car : Car
        The car document as read.
    port_id : str
        The port, e.g. ``oil-tank.feed``.

    Returns
    -------
    str or None
        What to add to the document; None where `port_frame` gives a frame.
    """
    port = car.port(port_id)
    if port is None:
        return f"there is no port {port_id}"
    where = position(car, port_id)
    missing = []
    if where is None or (not where.is_own and _has_body(car, port)):
        missing.append("at")
    if _direction(car, port) is None:
        missing.append("points")
    if not missing:
        return None
    return f"{port_id}: {' and '.join(missing)} not known"


def _has_body(car: Car, port: Port) -> bool:
    return component_solid(car, car.components[port.component]) is not None


def port_frame(car: Car, port_id: str) -> Frame | None:
    """Frame of a port in the car, with the spread of its place and its direction.

    Parameters
    ----------
    car : Car
        The car document as read.
    port_id : str
        The port, e.g. ``oil-tank.feed``.

    Returns
    -------
    Frame or None
        Origin on its mating plane, ``out`` the way it points, ``side`` at twelve o'clock. None
        where its place or direction is not known: a port of a component with a body must have
        been placed itself, since the middle of the body is nowhere a hose can start. A port
        that stands in for its component, or points as its kind does, counts as guessed.
    """
    port = car.port(port_id)
    if port is None or why_no_frame(car, port_id) is not None:
        return None
    where, out = position(car, port_id), _direction(car, port)
    assert where is not None
    assert out is not None
    known = where.known if where.is_own else Placed.GUESS
    pointed = Placed.GUESS if port.points_from_kind else (port.placed or known)
    return Frame(
        where.at,
        out,
        port_side(out),
        max(known, pointed, key=_ORDER.index),
        setting(car, f"place-spread-{known}").value,
        radians(setting(car, f"tilt-spread-{pointed}").value),
    )
