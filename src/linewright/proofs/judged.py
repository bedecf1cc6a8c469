# SPDX-License-Identifier: Apache-2.0
"""Laid hoses judged: what each still needs, and what it has against it."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from linewright.base.errors import CatalogueError
from linewright.base.finding import Finding
from linewright.base.vectors import Vector
from linewright.car.model import Car, Condition, Construction, Line, Medium
from linewright.joints.model import Joints, Termination
from linewright.joints.offered import setting
from linewright.proofs import fitting, passes, sureness
from linewright.proofs.course import course
from linewright.proofs.downs import downs
from linewright.proofs.falls import falls, marked
from linewright.proofs.supports import supports
from linewright.proofs.traps import lift
from linewright.proofs.zones import ask, zones
from linewright.routes.pieces import by_hose
from linewright.routes.route import Route
from linewright.routes.spans import Span, spans
from linewright.space.bodies import Solid, bodies
from linewright.space.ports import port_frame
from linewright.tables import hoses

if TYPE_CHECKING:
    from linewright.space.meshes import Drawn
    from linewright.space.obstacles import Scene

_CHASSIS = "chassis"

#: What is added to the reach of a spanner, so that no rounding counts. [m]
_EDGE = 0.05

Pair = tuple[Termination, Termination]


@dataclass(frozen=True, slots=True)
class Judged:
    """Routes with their clips, holes, high and low points and sureness; and what was found.

    ``again`` are hoses that no memo had.
    """

    routes: tuple[Route, ...]
    findings: tuple[Finding, ...]
    again: tuple[str, ...] = ()


@dataclass(slots=True)
class Memo:
    """What judging remembers between plans: by hose, all that it was judged by and what came.

    It changes no answer. ``about`` is what all hoses of a car are judged by.
    """

    about: object = None
    kept: dict[str, tuple[object, Route, tuple[Finding, ...]]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class _Car:
    """One car while its hoses are judged."""

    car: Car
    solids: tuple[Solid, ...]
    meshes: "Mapping[tuple[str, float], Drawn]"
    scene: "Scene"  # what stands round nuts
    conditions: tuple[Condition, ...]


def judge(
    car: Car,
    joints: Joints,
    routes: Iterable[Route],
    memo: Memo | None = None,
) -> Judged:
    """Judge every laid hose.

    Parameters
    ----------
    car : Car
        The car document as read.
    joints : Joints
        What stands at both ends of every hose.
    routes : iterable of Route
        Hoses in space, as `lay_space` gives them.
    memo : Memo, optional
        What an earlier call remembered; it is added to.

    Returns
    -------
    Judged
        The routes in their order; findings hose by hose.
    """
    from linewright.space.meshes import read_all
    from linewright.space.obstacles import Scene

    memo = Memo() if memo is None else memo
    solids = bodies(car)
    meshes = read_all(solids)[0]
    plain = [s for s in solids if s.is_solid and s.zone is None]
    here = _Car(car, solids, meshes, Scene.build(plain, meshes), downs(car))
    of = {span.id: span for span in spans(car, joints, solids)}
    ends = {hose: pair for pieces in by_hose(joints).values() for hose, pair in pieces.items()}
    about = _about(here)
    if memo.about != about:
        memo.about = about
        memo.kept.clear()
    zoned = tuple(s for s in solids if s.zone is not None)
    done: list[Route] = []
    told: list[Finding] = []
    again: list[str] = []
    for route in routes:
        span = of.get(route.id)
        if span is None:
            done.append(route)
            continue
        key = (route, ends[route.id], span, zoned, _near(here, route, span))
        kept = memo.kept.get(route.id)
        if kept is not None and kept[0] == key:
            _, judged, found = kept
        else:
            again.append(route.id)
            judged, found = _judged(here, span, route, ends[route.id])
            memo.kept[route.id] = (key, judged, found)
        done.append(judged)
        told += found
    told += _lifts(here, {span.line.id: span.line for span in of.values()})
    return Judged(tuple(done), tuple(told), tuple(again))


def _lifts(here: _Car, lines: Mapping[str, Line]) -> Iterable[Finding]:
    """What pumps have to lift: from port to port, however many pieces are between."""
    least = setting(here.car, "suction-lift").value
    for line in lines.values():
        if line.service != "suction" or line.medium is Medium.AIR:
            continue
        a, b = (port_frame(here.car, port) for port in (line.from_port, line.to_port))
        if a is not None and b is not None:
            yield from lift(line, (a.origin, b.origin), here.conditions, least)


def _about(here: _Car) -> object:
    """All of a car that a hose is judged by, but its own line and ends and the bodies."""
    car = here.car
    return replace(
        car,
        # Where a component is stands in the hose's ends and among the bodies.
        components={name: replace(c, place=None) for name, c in car.components.items()},
        lines={},
        bodies={},
        guides={},
        closed={},
        overrules=(),
        findings=(),
        assumed=(),
        sha256="",
        file="",
    )


def _near(here: _Car, route: Route, span: Span) -> tuple[Solid, ...]:
    """Bodies that hand and spanner can meet at its two nuts; drawn ones always."""
    room = fitting.farthest(here.car, span.line) + _EDGE
    seats = (fitting.seat_of(route.a), fitting.seat_of(route.b))
    found = []
    for solid in here.solids:
        if not solid.is_solid or solid.zone is not None:
            continue
        wide = room + max(solid.grown)
        if solid.box is None or any(_meets(solid.box, wide, seat) for seat in seats):
            found.append(solid)
    return tuple(found)


def _meets(box: tuple[Vector, Vector], wide: float, spot: Vector) -> bool:
    """Whether a box that is so much wider all round holds a point."""
    return all(a - wide <= p <= b + wide for a, p, b in zip(box[0], spot, box[1], strict=True))


def _judged(here: _Car, span: Span, route: Route, ends: Pair) -> tuple[Route, tuple[Finding, ...]]:
    """One hose with all that is proved along it."""
    car, line, ports = here.car, span.line, (span.a.frame, span.b.frame)
    names = _names(route, ends)
    told: list[Finding] = []
    route = marked(route)
    told += falls(car, line, route, _bore(span))
    held, found = supports(car, route.id, line, route.path, _moving(car, ends))
    told += found
    made = passes.passes(car, line, course(route))
    # A hard tube goes in grommets through the panels that it is said to pass.
    drilled = frozenset(line.passes) if line.construction is Construction.TUBE else frozenset()
    told += passes.unsealed(route.id, line, _others(made, span.panels | drilled))
    holes = (*route.holes, *((p.panel, p.at) for p in made if p.hole or p.panel in drilled))
    route = replace(
        route,
        clips=tuple(clip.at for clip in held.clips),
        holes=tuple(dict.fromkeys(holes)),
    )
    slack = setting(car, "slack").value * route.length
    told += fitting.last_nut(route.id, line, ends)
    if line.construction is Construction.HOSE:
        told += fitting.travel(car, route.id, line, route, span.limits, slack)
        told += fitting.short(car, route.id, line, route, span.limits, ports)
        told += fitting.room(car, route.id, line, route, names, here.scene)
    asked = ask(route.id, line, route, span.limits.outside, span.rides)
    told += zones(car, asked, here.solids, here.conditions, here.meshes)
    told += sureness.unsure(car, line, route)
    told += sureness.crimped(line, route)
    return route, tuple(told)


def _names(route: Route, ends: Pair) -> tuple[str, str]:
    """The ports of a hose; an end that has none goes by its hose and side."""
    a, b = ends
    return a.port or f"{route.id}.A", b.port or f"{route.id}.B"


def _moving(car: Car, ends: Pair) -> tuple[bool, bool]:
    """Which ends ride on something else than the chassis; bulkheads do not."""
    owners = [car.components.get(end.port.partition(".")[0]) for end in ends]
    a, b = (owner is not None and owner.rides != _CHASSIS for owner in owners)
    return a, b


def _others(made: tuple[passes.Pass, ...], own: Collection[str]) -> tuple[passes.Pass, ...]:
    """Passes but those of the bulkheads that the hose itself is on."""
    return tuple(each for each in made if each.panel not in own)


def _bore(span: Span) -> float | None:
    try:
        size = hoses.size(hoses.family(span.line.hose).key, span.line.size)
    except CatalogueError:
        return None
    return size.bore.value if size.bore is not None else None
