# SPDX-License-Identifier: Apache-2.0
"""What lines go round: every body and zone of a car where it lies, with what it asks."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path as File

from linewright.base.evidence import Figure, Grade, Placed
from linewright.base.frames import Rotation, placed, rotation, turned
from linewright.base.vectors import ahead, cross, dot, unit
from linewright.car.model import (
    Body,
    Car,
    Component,
    Place,
    Shape,
    Vector,
    Zone,
    ZoneKind,
)
from linewright.joints.offered import setting
from linewright.space.positions import anchor


@dataclass(frozen=True, slots=True)
class Solid:
    """A body in the car's frame. Lengths in m.

    ``middle`` is the middle of a box, cylinder or capsule, and the origin of a mesh; ``turn``
    holds the rows of the matrix that turns its own axes into the car's. A cylinder and a
    capsule stand along their own z; ``size`` is dia, dia, length over all. ``file`` is where a
    mesh is, ``scale`` what one of its units is. ``component`` is whose body it is, "" for none.
    ``zone`` is the kind of zone it is, None for a plain body. ``grown`` is how far its surface
    may be out along each axis of the car beside its ride's movement (travel), ``clearance`` the
    gap that lines keep from it then. ``is_solid`` is False where lines may pass and are only
    looked at (driver, spill-sensitive).
    """

    id: str
    shape: Shape
    middle: Vector
    turn: Rotation
    size: Vector | None = None
    file: str = ""
    scale: float = 1.0
    component: str = ""
    zone: ZoneKind | None = None
    rides: str = "chassis"
    placed: Placed = Placed.GUESS
    grown: Vector = (0.0, 0.0, 0.0)
    clearance: float = 0.0
    is_solid: bool = True
    #: Low and high corner of the box along the car's axes round it; None for a mesh.
    box: tuple[Vector, Vector] | None = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        """Find the box once: searches ask for it often."""
        object.__setattr__(self, "box", self._found())

    def _found(self) -> tuple[Vector, Vector] | None:
        if self.size is None:
            return None
        half = [0.0, 0.0, 0.0]
        for row in range(3):
            half[row] = sum(abs(self.turn[row][k]) * self.size[k] / 2 for k in range(3))
        low = tuple(m - h for m, h in zip(self.middle, half, strict=True))
        high = tuple(m + h for m, h in zip(self.middle, half, strict=True))
        return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def _solid(
    name: str, place: Place, shape: Shape, size: Vector | None, at: Vector, rides: str
) -> Solid:
    """A body whose own point ``at`` lies where its place says."""
    turn = rotation(place.yaw, place.pitch, place.roll)
    middle = placed(place.at, turn, (-at[0], -at[1], -at[2]))
    return Solid(name, shape, middle, turn, size, rides=rides, placed=place.placed)


def _file(car: Car, name: str) -> str:
    return str(File(car.file).parent / name)


def component_solid(car: Car, component: Component) -> Solid | None:
    """The body of a component in the car.

    Parameters
    ----------
    car : Car
        The car document as read.
    component : Component
        One of its components.

    Returns
    -------
    Solid or None
        None where neither its place nor its size is known.
    """
    place = component.place
    shape = component.shape or (
        None if component.size is None else Shape.CYLINDER if component.round else Shape.BOX
    )
    if place is None or shape is None:
        return None
    at = anchor(component.size, component.ports, place.anchor)
    found = _solid(component.id, place, shape, component.size, at, component.rides)
    return _meshed(
        car,
        found,
        component.mesh.file if component.mesh else "",
        component.mesh.scale if component.mesh else 1.0,
        component.id,
    )


def _meshed(car: Car, solid: Solid, file: str, scale: float, component: str) -> Solid:
    return Solid(
        solid.id,
        solid.shape,
        solid.middle,
        solid.turn,
        # The outline of a mesh is in its file; a size typed beside it only says where to touch.
        None if file else solid.size,
        _file(car, file) if file else "",
        scale,
        component,
        None,
        solid.rides,
        solid.placed,
        clearance=setting(car, "clearance").value,
    )


def body_solid(car: Car, body: Body) -> Solid:
    """The body of a thing without ports in the car.

    Parameters
    ----------
    car : Car
        The car document as read.
    body : Body
        One of its bodies, or that of a zone.

    Returns
    -------
    Solid
        Where it lies.
    """
    at = anchor(body.size, {}, body.place.anchor)
    found = _solid(body.id, body.place, body.shape, body.size, at, body.rides)
    file, scale = (body.mesh.file, body.mesh.scale) if body.mesh else ("", 1.0)
    return _meshed(car, found, file, scale, "")


def zone_clearance(car: Car, zone: Zone) -> Figure:
    """The gap that lines keep from a zone, after all movement.

    Parameters
    ----------
    car : Car
        The car document as read.
    zone : Zone
        One of its zones.

    Returns
    -------
    Figure
        By kind, and for what is hot by its surface and its shield; a surface of which nobody
        knows how hot it is counts as a bare exhaust. [m]
    """
    match zone.kind:
        case ZoneKind.HOT:
            limit = setting(car, "hot-surface").value
            if zone.surface is not None and zone.surface.value < limit:
                return setting(car, "clearance-warm")
            return setting(car, "clearance-hot-shielded" if zone.is_shielded else "clearance-hot")
        case ZoneKind.MOVING:
            return setting(car, "clearance-moving")
        case _:
            return Figure(0.0, "m", Grade.STATED, "the zone is as large as it is typed")


def zone_solid(car: Car, zone: Zone) -> Solid | None:
    """A zone in the car.

    Parameters
    ----------
    car : Car
        The car document as read.
    zone : Zone
        One of its zones.

    Returns
    -------
    Solid or None
        None where it is of something that has no body.
    """
    base: Solid | None
    if zone.body is not None:
        base = body_solid(car, zone.body)
    elif zone.of is not None and zone.of in car.bodies:
        base = body_solid(car, car.bodies[zone.of])
    else:
        owner = car.components.get(zone.of or "")
        base = component_solid(car, owner) if owner else None
    if base is None:
        return None
    return Solid(
        zone.id,
        base.shape,
        base.middle,
        base.turn,
        base.size,
        base.file,
        base.scale,
        base.component,
        zone.kind,
        base.rides,
        base.placed,
        zone.travel,
        zone_clearance(car, zone).value,
        zone.kind.is_solid,
    )


def bodies(car: Car) -> tuple[Solid, ...]:
    """Every body and zone of a car, in its frame.

    Parameters
    ----------
    car : Car
        The car document as read.

    Returns
    -------
    tuple of Solid
        Components in the order of the document, then bodies, then zones. What has no place or
        no size has no body, and is left out.
    """
    found: list[Solid | None] = [component_solid(car, each) for each in car.components.values()]
    found += [body_solid(car, each) for each in car.bodies.values()]
    found += [zone_solid(car, each) for each in car.zones.values()]
    return tuple(each for each in found if each is not None)


def panel_axes(points: Vector) -> tuple[Vector, Vector]:
    """The two directions along a wall in which its size is typed.

    Parameters
    ----------
    points : Vector
        Its normal, unit.

    Returns
    -------
    tuple of Vector
        Level across the wall, and square to that along it; for a floor, to the right and
        forward.

    Examples
    --------
    >>> panel_axes((1.0, 0.0, 0.0))
    ((0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    """
    if abs(points[2]) > 0.9998:
        level: Vector = unit(cross(points, (1.0, 0.0, 0.0)))
    else:
        level = unit((-points[1], points[0], 0.0))
    other = cross(points, level)
    return _plain(level), _plain(other)


def _plain(vector: Vector) -> Vector:
    return (vector[0] + 0.0, vector[1] + 0.0, vector[2] + 0.0)


def port_side(points: Vector) -> Vector:
    """Twelve o'clock on a port: up, or forward where the port itself looks up or down.

    Parameters
    ----------
    points : Vector
        The way the port points, unit.

    Returns
    -------
    Vector
        Unit, square to it.

    Examples
    --------
    >>> port_side((0.0, 0.0, 1.0)), port_side((0.0, 1.0, 0.0))
    ((-1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
    """
    # Within a degree of upright there is no up on the face: forward is twelve.
    twelve: Vector = (-1.0, 0.0, 0.0) if abs(points[2]) > 0.99985 else (0.0, 0.0, 1.0)
    return _plain(unit(ahead(twelve, points, -dot(twelve, points))))


def towards(place: Place | None, arrow: Vector) -> Vector:
    """Turn an arrow of a component's frame into the car's.

    Parameters
    ----------
    place : Place or None
        Where the component is; unturned where that is not known.
    arrow : Vector
        In the component's frame.

    Returns
    -------
    Vector
        In the car's.
    """
    if place is None:
        return arrow
    return turned(rotation(place.yaw, place.pitch, place.roll), arrow)


def meets(solid: Solid, low: Sequence[float], high: Sequence[float]) -> bool:
    """Tell whether a body, grown by its gap and movement, can come into a box.

    Parameters
    ----------
    solid : Solid
        The body.
    low, high : Sequence of float
        Corners of the box. [m]

    Returns
    -------
    bool
        True also where the body has no box of its own, as a mesh.
    """
    if solid.shape is Shape.MESH or solid.box is None:
        return True
    room = solid.clearance + max(solid.grown)
    one, two = solid.box
    return all(one[k] - room <= high[k] and two[k] + room >= low[k] for k in range(3))
