# SPDX-License-Identifier: Apache-2.0
"""Pieces of hose with both ends in space, before they are laid."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from math import dist, hypot, radians

from linewright.base.ids import natural_key
from linewright.base.vectors import Vector, ahead, dot, unit
from linewright.car.model import Car, Component, Line
from linewright.catalogue.figures import dash_figures
from linewright.joints.model import Joints, Termination
from linewright.joints.offered import setting
from linewright.routes import panel_holes
from linewright.routes.pieces import by_hose, is_one_shape
from linewright.routes.search import Pose, Side
from linewright.routes.shapes import BENT, limits, shapes_at
from linewright.routes.tube_graph import Bending
from linewright.routes.tubes import bending, stock_of, tube_limits, tube_shapes
from linewright.space.bodies import Solid, port_side
from linewright.space.model import Frame, Limits
from linewright.space.ports import port_frame

_FIXED = "chassis"


@dataclass(frozen=True, slots=True)
class Span:
    """One piece of hose with both its ends in space.

    ``parts`` are the components at its ends, ``rides`` what carries them, ``panels`` those
    whose bulkheads it is on, and ``holes`` where. What is not cut at its panels goes ``through``
    them, in a grommet, with a direction each. ``bending`` is what the bench can do with a
    hard tube or a charge pipe, None for hose.
    """

    id: str
    line: Line
    a: Side
    b: Side
    limits: Limits
    parts: frozenset[str] = frozenset()
    rides: tuple[str, ...] = ()
    panels: frozenset[str] = frozenset()
    holes: tuple[tuple[str, Vector], ...] = ()
    bending: Bending | None = None
    through: tuple[Pose, ...] = ()


def spans(car: Car, joints: Joints, solids: Iterable[Solid]) -> tuple[Span, ...]:
    """Every piece of hose whose two ends have a place and a direction.

    Parameters
    ----------
    car : Car
        The car document as read.
    joints : Joints
        What stands at both ends of every piece of hose.
    solids : iterable of Solid
        Bodies of the car, which keep bulkheads out of their way.

    Returns
    -------
    tuple of Span
        In the order of their ids.
    """
    near = tuple(solids)
    found: list[Span] = []
    taken: dict[str, list[Vector]] = {}
    ends = by_hose(joints)
    for line_id in sorted(ends, key=natural_key):
        line = car.lines[line_id]
        if line.construction in BENT and stock_of(line) is None:
            continue
        pieces = ends[line_id]
        if any(is_one_shape(pair) for pair in pieces.values()):
            continue
        holes = _holes(car, line, pieces, near, taken)
        for hose, (a, b) in pieces.items():
            sides = (_side(car, line, a, holes), _side(car, line, b, holes))
            if sides[0] is None or sides[1] is None:
                continue
            found.append(_span(car, line, hose, (a, b), (sides[0], sides[1]), holes))
    return tuple(found)


def _span(
    car: Car,
    line: Line,
    hose: str,
    ends: tuple[Termination, Termination],
    sides: tuple[Side, Side],
    holes: Mapping[str, tuple[Vector, Vector]],
) -> Span:
    owners = [car.components[e.port.partition(".")[0]] for e in ends if not e.is_bulkhead]
    parts = {c.id for c in owners}
    parts |= {c.on.partition(".")[0] for c in owners if c.on}
    panels = [e.port.partition(".")[2] for e in ends if e.is_bulkhead]
    piece = _piece(car, line, owners) if panels else line
    stock = stock_of(line) if line.construction in BENT else None
    # A hose that no bulkhead cuts goes through its panels in one piece.
    through = () if panels or stock is not None else tuple(holes.values())
    panels = panels or (list(holes) if through else [])
    seats = [c.panel for c in owners if c.panel]
    rides = {c.rides for c in owners} | ({"chassis"} if panels else set())
    return Span(
        hose,
        line,
        *sides,
        limits(car, piece) if stock is None else tube_limits(car, line, stock),
        frozenset(parts),
        tuple(sorted(rides)),
        frozenset([*panels, *seats]),
        tuple((panel, holes[panel][0]) for panel in panels),
        None if stock is None else bending(car, line, stock),
        through,
    )


def _piece(car: Car, line: Line, owners: list[Component]) -> Line:
    """A line as one of its pieces sees it: from a panel to what stands still nothing moves."""
    ports = (car.port(line.from_port), car.port(line.to_port))
    is_moved = any(p is not None and car.components[p.component].rides != _FIXED for p in ports)
    if not is_moved or any(owner.rides != _FIXED for owner in owners):
        return line
    return replace(line, crosses=False)


def _side(
    car: Car, line: Line, end: Termination, holes: Mapping[str, tuple[Vector, Vector]]
) -> Side | None:
    shapes = tube_shapes(car, end) if line.construction in BENT else shapes_at(car, line, end)
    if not shapes:
        return None
    if not end.is_bulkhead:
        frame = port_frame(car, end.port)
        said = line.ends[0 if end.side == "A" else 1].angle
        return Side(frame, shapes, frozenset(), said, end.port) if frame else None
    name = end.port.partition(".")[2]
    if name not in holes:
        return None
    frame = _bulkhead(car, line, end, name, holes[name])
    return Side(frame, shapes, port=f"{name}.{line.id}")


def _bulkhead(
    car: Car, line: Line, end: Termination, name: str, hole: tuple[Vector, Vector]
) -> Frame:
    """The cone of a bulkhead fitting: its hexagon stands against the far face of the panel."""
    panel = car.panels[name]
    at, way = hole  # the way the line goes through
    half = panel.thickness.value / 2.0
    figures = dash_figures(line.size)
    if end.side == "B":  # the hose before the panel ends on the long side
        way = (-way[0], -way[1], -way[2])
        out = 2.0 * figures.cone - half
    else:
        out = half + figures.hexagon + figures.cone
    return Frame(
        ahead(at, way, out),
        way,
        port_side(way),
        panel.placed,
        setting(car, f"place-spread-{panel.placed}").value,
        radians(setting(car, f"tilt-spread-{panel.placed}").value),
    )


def _holes(
    car: Car,
    line: Line,
    pieces: Mapping[str, tuple[Termination, Termination]],
    solids: tuple[Solid, ...],
    taken: dict[str, list[Vector]],
) -> dict[str, tuple[Vector, Vector]]:
    """Where a line passes its panels, and the way it goes through each."""
    if not line.passes:
        return {}
    order = list(pieces.values())
    a, b = port_frame(car, order[0][0].port), port_frame(car, order[-1][1].port)
    if a is None or b is None:
        return {}
    keep = limits(car, line)
    # A hose that turns a quarter to go through stands so far off by then, and some more.
    lead = keep.straight + 1.5 * keep.bend_radius
    before, last = ahead(a.origin, a.out, lead), ahead(b.origin, b.out, lead)
    guide = [car.guides[name].points for name in line.follows if name in car.guides]
    found: dict[str, tuple[Vector, Vector]] = {}
    for name in line.passes:
        panel = car.panels.get(name)
        if panel is None or panel.at is None or panel.points is None:
            return {}
        if not found:
            # A panel nearer than that is best passed straight ahead of the port.
            before = _short_of(panel.at, unit(panel.points), a, before)
        end = _short_of(panel.at, unit(panel.points), b, last)
        towards = end if end != last and name == line.passes[-1] else _next(guide, before, last)
        from_side = panel_holes.side_of(panel, a.origin)
        normal = unit(panel.points)
        way = (-from_side * normal[0], -from_side * normal[1], -from_side * normal[2])
        holes = taken.setdefault(name, [])
        room = 0.05 + keep.outside / 2.0

        def is_free(at: Vector, way: Vector = way, room: float = room) -> bool:
            return all(_off(s, ahead(at, way, t)) > room for s in solids for t in (-0.08, 0.08))

        at = panel_holes.place(
            panel, line.id, before, towards, holes, 2.2 * keep.outside + 0.02, is_free
        )
        if at is None:
            return {}
        holes.append(at)
        found[name] = (at, way)
        before = at
    return found


def _short_of(at: Vector, normal: Vector, port: Frame, ahead_of: Vector) -> Vector:
    """A point ahead of a port, or where the way to it meets a wall."""
    from_port = dot(normal, at) - dot(normal, port.origin)
    way = dot(normal, ahead_of) - dot(normal, port.origin)
    share = from_port / way if abs(way) > 1e-9 else 0.0
    if not 0.0 < share < 1.0:
        return ahead_of
    a, b = port.origin, ahead_of
    return ahead(a, (b[0] - a[0], b[1] - a[1], b[2] - a[2]), share)


def _next(guides: list[tuple[Vector, ...]], before: Vector, last: Vector) -> Vector:
    """Where a line goes after a panel: on to its guide if it follows one, else home."""
    ends = [p for points in guides for p in (points[0], points[-1])]
    return min(ends, key=lambda p: (dist(p, before), p), default=last)


def _off(solid: Solid, point: Vector) -> float:
    """How far a point is from the box round a body; infinite where it is no obstacle."""
    box = solid.box
    if box is None or not solid.is_solid:
        return float("inf")
    low, high = box
    out = [max(a - p, p - b, 0.0) for a, p, b in zip(low, point, high, strict=True)]
    return hypot(*out)
