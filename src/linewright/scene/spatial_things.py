# SPDX-License-Identifier: Apache-2.0
"""From a plan to the car in space as it is shown: bodies, zones, walls, ports, hoses."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import pi, sin

from linewright.base.ids import natural_key
from linewright.base.vectors import Vector, ahead
from linewright.car.model import Car, Line, Panel
from linewright.routes.route import Route
from linewright.routes.shapes import outside
from linewright.scene.collect import letter_of, system_letter
from linewright.space.bodies import Solid, bodies, panel_axes
from linewright.space.model import Setting
from linewright.space.path import Path
from linewright.space.ports import port_frame
from linewright.space.positions import position

#: Half the height over which a bend of more than this is drawn as a U. [deg]
_U_TURN = 150


@dataclass(frozen=True, slots=True)
class Hose:
    """A hose in space. ``system`` is its system's letter, ``letter`` that of its line type.

    ``ends`` run from the port face over the seat and the corner of the hose end to the
    collar. Lengths in m.
    """

    id: str
    line: str
    ports: tuple[str, str]
    system_id: str
    system: str
    letter: str
    outside: float
    path: Path
    ends: tuple[tuple[Vector, ...], tuple[Vector, ...]]


@dataclass(frozen=True, slots=True)
class Dot:
    """A port: where it is, and the way it points where that is known. [m]"""

    id: str
    at: Vector
    out: Vector | None


@dataclass(frozen=True, slots=True)
class Slab:
    """A wall: ``wide`` and ``high`` are half its extents, None where it has no edge. [m]

    ``holes`` are those it has or gets: middle and radius, 0 where that is not known.
    """

    id: str
    at: Vector
    points: Vector
    level: Vector
    other: Vector
    thickness: float
    wide: float | None
    high: float | None
    holes: tuple[tuple[Vector, float], ...] = ()
    is_skin: bool = False


@dataclass(frozen=True, slots=True)
class Space:
    """All that is shown of a car in space.

    ``names`` are words for bodies, by id; ``systems`` letter and words of each system in
    order; ``missing`` the pieces of hose that have no course, so are not drawn; ``ground`` the
    z of the ground, None where it was not said [m].
    """

    solids: tuple[Solid, ...] = ()
    zones: tuple[Solid, ...] = ()
    slabs: tuple[Slab, ...] = ()
    dots: tuple[Dot, ...] = ()
    hoses: tuple[Hose, ...] = ()
    names: Mapping[str, str] | None = None
    systems: tuple[tuple[str, str], ...] = ()
    missing: tuple[str, ...] = ()
    ground: float | None = None

    @property
    def is_empty(self) -> bool:
        """Whether nothing has a place."""
        return not (self.solids or self.zones or self.slabs or self.dots or self.hoses)


def end_points(setting: Setting) -> tuple[Vector, ...]:
    """Points of a hose end and what it stands on, from the port face to the collar.

    Parameters
    ----------
    setting : Setting
        The end as it stands.

    Returns
    -------
    tuple of Vector
        Port face, seat, corner or corners, collar; what falls together is left out. [m]

    Examples
    --------
    >>> from linewright.space.model import EndShape
    >>> bent = EndShape(90, reach=0.05, drop=0.03, stick_out=0.01)
    >>> end_points(Setting(bent, 0.0, (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)))
    ((0.05, 0.0, 0.04), (0.05, 0.0, 0.03), (0.05, 0.0, 0.0), (0.0, 0.0, 0.0))
    """
    shape, n, side = setting.shape, setting.n, setting.side
    angle = shape.angle * pi / 180.0
    seat = ahead(ahead(setting.collar, n, shape.reach), side, shape.drop)
    if shape.angle == 0:
        out = n
        corners: list[Vector] = []
    else:
        from math import cos

        c, s = cos(angle), sin(angle)
        out = (c * n[0] + s * side[0], c * n[1] + s * side[1], c * n[2] + s * side[2])
        if shape.angle > _U_TURN:
            # A U has no corner: its two legs lie side by side.
            over = max(shape.reach, 0.0) + shape.drop / 2.0
            corners = [
                ahead(ahead(setting.collar, n, over), side, shape.drop),
                ahead(setting.collar, n, over),
            ]
        else:
            corners = [ahead(seat, out, -shape.drop / s)]
    face = ahead(seat, out, shape.stick_out)
    points = [face, seat, *corners, setting.collar]
    kept = [points[0]]
    for point in points[1:]:
        if max(abs(a - b) for a, b in zip(point, kept[-1], strict=True)) > 1e-6:
            kept.append(point)
    return tuple((x + 0.0, y + 0.0, z + 0.0) for x, y, z in kept)


def _slab(panel: Panel, holes: Iterable[tuple[Vector, float]]) -> Slab | None:
    if panel.at is None or panel.points is None:
        return None
    level, other = panel_axes(panel.points)
    wide, high = (s / 2.0 for s in panel.size) if panel.size else (None, None)
    return Slab(
        panel.id,
        panel.at,
        panel.points,
        level,
        other,
        panel.thickness.value,
        wide,
        high,
        tuple(holes),
        panel.is_skin,
    )


def _holes(car: Car, routes: Sequence[Route]) -> dict[str, list[tuple[Vector, float]]]:
    found: dict[str, list[tuple[Vector, float]]] = {}
    for panel in car.panels.values():
        found[panel.id] = [(hole.at, (hole.bore or 0.0) / 2.0) for hole in panel.holes]
    for route in routes:
        line = _line(car, route.id)
        radius = outside(car, line).value / 2.0 if line else 0.0
        for name, at in route.holes:
            if name in found and all(
                max(abs(a - b) for a, b in zip(at, other, strict=True)) > 0.002
                for other, _ in found[name]
            ):
                found[name].append((at, radius))
    return found


def _line(car: Car, run: str) -> Line | None:
    """The line of a run: a letter behind its number is a piece of it."""
    return car.lines.get(run) or car.lines.get(run.rstrip("abcdefghijklmnopqrstuvwxyz"))


def home_system(car: Car, line: Line) -> str:
    """System in whose colour a line is drawn: its own, else that of what it leads to.

    Parameters
    ----------
    car : Car
        The car.
    line : Line
        The line.

    Returns
    -------
    str
        Id of a system; "" where there is none.
    """
    if line.system in car.systems:
        return line.system or ""
    for port in (line.to_port, line.from_port):
        owner = car.components.get(port.partition(".")[0])
        if owner is not None and owner.system in car.systems:
            return owner.system or ""
    return next(iter(car.systems), "")


def _dots(car: Car) -> tuple[Dot, ...]:
    dots = []
    for port in sorted(car.ports, key=lambda p: natural_key(p.id)):
        frame = port_frame(car, port.id)
        if frame is not None:
            dots.append(Dot(port.id, frame.origin, frame.out))
            continue
        where = position(car, port.id)
        if where is not None and where.is_own:
            dots.append(Dot(port.id, where.at, None))
    return tuple(dots)


def collect(car: Car, routes: Sequence[Route], runs: Iterable[str] = ()) -> Space:
    """Gather what is shown of a car in space.

    Parameters
    ----------
    car : Car
        The car.
    routes : Sequence of Route
        Courses of its hoses.
    runs : iterable of str
        Ids of all its pieces of hose; those without a course are named on the sheet.

    Returns
    -------
    Space
        Only what has a place: nothing is put where nobody said that it is.
    """
    hoses = []
    for route in sorted(routes, key=lambda r: natural_key(r.id)):
        line = _line(car, route.id)
        if line is None:
            continue
        home = home_system(car, line)
        letter = system_letter(car, home) if home else "A"
        hoses.append(
            Hose(
                route.id,
                line.id,
                (line.from_port, line.to_port),
                home,
                letter,
                letter_of(line, letter),
                outside(car, line).value,
                route.path,
                (end_points(route.a), end_points(route.b)),
            )
        )
    drawn = {hose.id for hose in hoses}
    holes = _holes(car, routes)
    slabs = (_slab(panel, holes[panel.id]) for panel in car.panels.values())
    found = bodies(car)
    return Space(
        tuple(s for s in found if s.zone is None),
        tuple(s for s in found if s.zone is not None),
        tuple(s for s in slabs if s is not None),
        _dots(car),
        tuple(hoses),
        {c.id: c.name for c in car.components.values() if c.name and c.name != c.id},
        tuple((system_letter(car, s), s.replace("-", " ")) for s in car.systems),
        tuple(run for run in sorted(set(runs), key=natural_key) if run not in drawn),
        car.ground,
    )
