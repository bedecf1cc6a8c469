# SPDX-License-Identifier: Apache-2.0
"""Laid hoses judged: what each still needs, and what it has against it."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace

from linewright.base.errors import CatalogueError
from linewright.base.finding import Finding
from linewright.car.model import Car, Construction
from linewright.joints.model import Joints, Termination
from linewright.joints.offered import setting
from linewright.proofs import fitting, passes, sureness
from linewright.proofs.course import course
from linewright.proofs.downs import downs
from linewright.proofs.falls import falls, marked
from linewright.proofs.supports import supports
from linewright.proofs.zones import ask, zones
from linewright.routes.pieces import by_hose
from linewright.routes.route import BandRow, Route
from linewright.routes.search import Side, Task, lay_line
from linewright.routes.spans import Span, spans
from linewright.space.bodies import bodies
from linewright.space.model import Frame
from linewright.tables import hoses

_CHASSIS = "chassis"

#: So many pairs beside the own one are asked for their sureness.
_BESIDE = 3

Pair = tuple[Termination, Termination]


@dataclass(frozen=True, slots=True)
class Judged:
    """Routes with their clips, holes, high and low points and sureness; and what was found."""

    routes: tuple[Route, ...]
    findings: tuple[Finding, ...]


def judge(
    car: Car, joints: Joints, routes: Iterable[Route], tasks: Mapping[str, Task] | None = None
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
    tasks : mapping of str to Task, optional
        What was asked of the search for each hose; the ends of those that are among them are
        held against the doubt of their ports, which searches each so often as there are draws.

    Returns
    -------
    Judged
        The routes in their order; findings hose by hose.
    """
    from linewright.space.meshes import read_all
    from linewright.space.obstacles import Scene

    laid = tuple(routes)
    solids = bodies(car)
    meshes = read_all(solids)[0]
    solid = Scene.build([s for s in solids if s.is_solid and s.zone is None], meshes)
    of = {span.id: span for span in spans(car, joints, solids)}
    ends = {hose: pair for pieces in by_hose(joints).values() for hose, pair in pieces.items()}
    conditions = downs(car)
    done: list[Route] = []
    told: list[Finding] = []
    for route in laid:
        span = of.get(route.id)
        if span is None:
            done.append(route)
            continue
        line, ports = span.line, (span.a.frame, span.b.frame)
        names = _names(route, ends[route.id])
        route = marked(route)
        told += falls(car, line, route, _bore(span))
        held, found = supports(car, route.id, line, route.path, _moving(car, ends[route.id]))
        told += found
        made = passes.passes(car, line, course(route))
        told += passes.unsealed(route.id, line, _others(made, span.panels))
        holes = (*route.holes, *((each.panel, each.at) for each in made if each.hole))
        route = replace(
            route,
            clips=tuple(clip.at for clip in held.clips),
            holes=tuple(dict.fromkeys(holes)),
        )
        slack = setting(car, "slack").value * route.length
        told += fitting.last_nut(route.id, line, ends[route.id])
        if line.construction is Construction.HOSE:
            told += fitting.travel(car, route.id, line, route, span.limits, slack)
            told += fitting.short(car, route.id, line, route, span.limits, ports)
            told += fitting.room(car, route.id, line, route, names, solid)
        asked = ask(route.id, line, route, span.limits.outside, span.rides)
        told += zones(car, asked, solids, conditions, meshes)
        task = (tasks or {}).get(route.id)
        if task is not None:
            route, found = _sure(car, span, route, names, task)
            told += found
        done.append(route)
    return Judged(tuple(done), tuple(told))


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


def working(task: Task, pairs: Collection[sureness.Pair]) -> sureness.Ask:
    """Ask the search which pairs of ends work between two frames.

    Parameters
    ----------
    task : Task
        What was asked for the ports as typed.
    pairs : collection of tuple
        Angles of the pairs that are asked about, each by itself.

    Returns
    -------
    callable
        Those of them that work. The components at both ends move along with their ports, so
        they are no obstacles here; what else stands round stays where it is.
    """
    leave = task.leave | task.a.own | task.b.own

    def ask_there(a: Frame, b: Frame) -> frozenset[sureness.Pair]:
        works = set()
        for one, two in pairs:
            asked = replace(task, a=_only(task.a, a, one), b=_only(task.b, b, two), leave=leave)
            if lay_line(asked).route is not None:
                works.add((one, two))
        return frozenset(works)

    return ask_there


def _only(side: Side, frame: Frame, angle: int) -> Side:
    """One end of a hose elsewhere, with one angle of hose end."""
    shapes = tuple(shape for shape in side.shapes if shape.angle == angle)
    return replace(side, frame=frame, shapes=shapes, angle=None)


def sureness_of(
    car: Car, route: Route, ports: tuple[sureness.Port, sureness.Port], task: Task
) -> sureness.Sureness | None:
    """How sure the ends of a laid hose are.

    Parameters
    ----------
    car : Car
        The car document as read.
    route : Route
        The hose with the band of all pairs.
    ports : tuple of Port
        Its ports as they are known.
    task : Task
        What was asked of the search for it.

    Returns
    -------
    Sureness or None
        Of its own pair; where that is not sure enough, with the next best pairs beside it.
        None where its pair is not in the band.
    """
    enough = setting(car, "sureness-enough").value
    count = round(setting(car, "sureness-draws").value)
    own = (route.a.shape.angle, route.b.shape.angle)
    rows = [row for row in route.band if (row.angle_a, row.angle_b) == own]

    def survey(band: list[BandRow]) -> sureness.Sureness | None:
        ask_there = working(task, [(row.angle_a, row.angle_b) for row in band])
        return sureness.survey(band, *ports, ask_there, count=count, enough=enough, is_fixed=True)

    alone = survey(rows)
    if alone is None or alone.share >= enough:
        return alone
    others = sorted(
        (row for row in route.band if row.works and row not in rows),
        key=lambda row: (row.cost or 0.0, row.angle_a, row.angle_b),
    )
    # The own pair stays the cheapest: it is the one that is asked about.
    first = [replace(row, cost=-1.0) for row in rows]
    return survey([*first, *others[:_BESIDE]])


def _sure(
    car: Car, span: Span, route: Route, names: tuple[str, str], task: Task
) -> tuple[Route, tuple[Finding, ...]]:
    ports = (sureness.Port(names[0], span.a.frame), sureness.Port(names[1], span.b.frame))
    told = sureness_of(car, route, ports, task)
    if told is None:
        return route, ()
    enough = setting(car, "sureness-enough").value
    return sureness.sure(route, told), sureness.unsure(route.id, told, span.line.system, enough)
