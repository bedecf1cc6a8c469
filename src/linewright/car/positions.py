# SPDX-License-Identifier: Apache-2.0
"""Where things are: the place of a component, the place and direction of a port."""

from linewright.base import units
from linewright.base.evidence import Placed
from linewright.base.places import body_size, direction, point
from linewright.car.model import Place, Port, Vector
from linewright.car.table import Table, listed, nearest

#: Points of a body that can be touched, beside its ports.
ANCHORS = ("middle", "foot", "top", "front", "rear", "left", "right")
_PLACED = [placed.value for placed in Placed]


def place(table: Table, default: Placed, ports: tuple[str, ...]) -> Place | None:
    """Read where a component is.

    Parameters
    ----------
    table : Table
        The component.
    default : Placed
        How a position is known where nothing is said.
    ports : tuple of str
        Names of its ports: each can be the point that was touched.

    Returns
    -------
    Place or None
        None where no position was typed; then it has no turn either.
    """
    at = table.raw("at")
    anchor, where = "middle", None
    if isinstance(at, dict):
        inner = Table(at, table.at("at"), table.log, "position")
        allowed = (*ANCHORS, *ports)
        typed = list(at)
        if len(typed) != 1:
            table.fault("at", f"names {len(typed)} points; write one, as in at.foot.")
            return None
        anchor = typed[0]
        if anchor not in allowed:
            inner.fault(
                anchor,
                f"is no point of this component; allowed: {listed(allowed, 40)}."
                f"{nearest(anchor, allowed)}",
            )
        where = inner.read(anchor.replace("_", "-"), point)
    elif at is not None:
        where = table.read("at", point)
    yaw, pitch, roll = (table.read(key, units.angle) or 0.0 for key in ("yaw", "pitch", "roll"))
    placed = Placed(table.choice("placed", _PLACED, default))
    if where is None:
        if at is None:
            for key in ("yaw", "pitch", "roll"):
                if table.has(key):
                    table.fault(key, 'turns a component that has no place; add at = "x, y, z mm".')
        return None
    return Place(where, anchor, yaw, pitch, roll, placed)


def size(table: Table) -> tuple[Vector | None, bool]:
    """Read the size of a body.

    Parameters
    ----------
    table : Table
        The component.

    Returns
    -------
    tuple
        Extents along x, y, z [m] or None, and whether it is round.
    """
    return table.read("size", body_size) or (None, False)


def port_place(table: Table) -> dict[str, Vector | None]:
    """Read the place and direction of a port.

    Parameters
    ----------
    table : Table
        The port.

    Returns
    -------
    dict
        ``at``, ``at_car``, ``points`` and ``points_car``, each a vector or None.
    """
    for own, car in (("at", "at-car"), ("points", "points-car")):
        if table.has(own) and table.has(car):
            table.fault(
                car,
                f"stands beside {own}; keep one: {own} in the component's frame, "
                f"{car.replace('-', '_')} in the car's.",
            )
    return {
        "at": table.read("at", point),
        "at_car": table.read("at-car", point),
        "points": table.read("points", direction),
        "points_car": table.read("points-car", direction),
    }


def is_placed(port: Port, owner: Place | None) -> Placed | None:
    """Tell how the position of a port is known.

    Parameters
    ----------
    port : Port
        The port.
    owner : Place or None
        Where its component is.

    Returns
    -------
    Placed or None
        None if it is not known at all; a guess where only the component's place is.
    """
    if port.at_car is not None:
        return owner.placed if owner else Placed.TAPED
    if owner is None:
        return None
    return owner.placed if port.at is not None or owner.anchor == port.name else Placed.GUESS
