# SPDX-License-Identifier: Apache-2.0
"""Every line of a car that can be laid in space, one after the other."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import degrees, dist
from typing import TYPE_CHECKING, NamedTuple

from linewright.base.finding import Finding
from linewright.base.ids import natural_key
from linewright.base.vectors import Vector, ahead, unit
from linewright.car.model import Car, Construction, Shape
from linewright.joints.model import Joints
from linewright.joints.offered import setting
from linewright.routes import lanes
from linewright.routes.among import OFF, Among, owner
from linewright.routes.doubt import doubt
from linewright.routes.gravity import rule_of
from linewright.routes.no_route import Moving, no_route
from linewright.routes.remembered import Kept, Memo, again, looks_again
from linewright.routes.route import Route
from linewright.routes.search import Outcome, Task, Weights
from linewright.routes.shapes import limits
from linewright.routes.spans import Span, spans
from linewright.routes.survival import surest
from linewright.routes.tasks import Pose, Rule
from linewright.routes.tube_course import laying
from linewright.routes.tubes import bench_words, unstocked
from linewright.routes.unholed import unholed
from linewright.space.bodies import Solid, bodies
from linewright.space.model import Limits
from linewright.space.path import bends

if TYPE_CHECKING:
    from linewright.space.obstacles import Obstacle, Scene

#: How often a hose that stands in the way of another is taken up again.
_TAKEN_UP = 3

#: Turned further than this in all, a hose is laid before those in its way, and they again, [deg]
_WOUND = 450.0
#: ... if it then costs less than this share of what it does round them. [-]
_BETTER = 0.7

#: Lanes of a guide that are open and tried.
_LANES = 6

#: Bodies nearer to a port than this are asked whether the port itself lies within their gap. [m]
_AT_PORT = 0.03


@dataclass(frozen=True, slots=True)
class Laid:
    """Routes of all hoses that have one, and what was found.

    ``order`` is that in which they were laid, last time each. ``outcomes`` has every hose that
    was searched, also those for which nothing works; ``searched`` those that no memo had.
    """

    routes: tuple[Route, ...]
    order: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()
    outcomes: Mapping[str, Outcome] | None = None
    searched: tuple[str, ...] = ()


def lay_all(car: Car, joints: Joints, memo: Memo | None = None) -> Laid:
    """Lay every hose that can be, and say what stands in the way of the others.

    Parameters
    ----------
    car : Car
        The car document as read.
    joints : Joints
        What stands at both ends of every piece of hose.
    memo : mutable mapping, optional
        What an earlier call remembered; it is added to.

    Returns
    -------
    Laid
        Charge pipes first, then gravity lines, then the shortest for how stiff they are. A hose
        that only other hoses block, or make wind, is laid before them, and they again.
    """
    solids = tuple(s for s in bodies(car) if s.is_solid)
    waiting = sorted(spans(car, joints, solids), key=_first)
    unbent = unstocked(car, car.lines.values())
    if any(s.shape is Shape.MESH for s in solids):
        from linewright.space.meshes import read_all

        unbent = (*unbent, *read_all(solids)[1])
    unbent = (*unbent, *unholed(car, joints, [span.id for span in waiting]))
    if not waiting:
        return Laid((), findings=unbent)
    by_id = {span.id: span for span in waiting}
    session = _Session(car, solids, {} if memo is None else memo)
    taken = dict.fromkeys(by_id, 0)
    done: dict[str, Outcome] = {}
    while waiting:
        span = waiting.pop(0)
        outcome = session.lay(span, done, by_id)
        if outcome.route is None and any(
            taken.get(n, _TAKEN_UP) < _TAKEN_UP for n in outcome.blocked
        ):
            # Only other hoses are in the way, perhaps.
            alone = session.lay(span, {}, by_id)
            met = session.met(span, alone.route, done, by_id) if alone.route else []
            # Or it is their ends that meet.
            met = met or [name for name in outcome.blocked if name in done]
            if alone.route and met and all(taken[name] < _TAKEN_UP for name in met):
                outcome = alone
                for name in met:
                    taken[name] += 1
                    del done[name]
                    waiting.append(by_id[name])
                waiting.sort(key=_first)
        done[span.id] = outcome
    for name in sorted(done, key=natural_key):
        if _winds(done[name]):
            done = _unwound(session, by_id[name], done, by_id)
    ids = sorted(done, key=natural_key)
    findings = [
        session.finding(by_id[name], done, by_id) for name in ids if done[name].route is None
    ]
    found = (done[name].route for name in ids)
    return Laid(
        tuple(route for route in found if route is not None),
        tuple(done),
        (*unbent, *findings),
        {name: done[name] for name in ids},
        tuple(dict.fromkeys(session.searched)),
    )


def _winds(outcome: Outcome) -> bool:
    """Whether a hose with its ends turns so far in all that others must have made it do so."""
    route = outcome.route
    if route is None:
        return False
    turned = sum(bend.angle for bend in bends(route.path))
    return degrees(turned) + route.a.shape.angle + route.b.shape.angle > _WOUND


def _unwound(
    session: "_Session", span: Span, done: dict[str, Outcome], by_id: Mapping[str, Span]
) -> dict[str, Outcome]:
    """Lay a hose that winds before those in its way, and they again, if all gain by it."""
    alone = session.lay(span, {}, by_id)
    if alone.route is None or alone.cost >= _BETTER * done[span.id].cost:
        return done
    met = [n for n in session.met(span, alone.route, done, by_id) if n != span.id]
    tried = {name: outcome for name, outcome in done.items() if name not in (span.id, *met)}
    tried[span.id] = alone
    for name in sorted(met, key=lambda n: _first(by_id[n])):
        tried[name] = session.lay(by_id[name], tried, by_id)
        if tried[name].route is None and done[name].route is not None:
            return done
    again = (span.id, *met)
    is_cheaper = sum(tried[n].cost for n in again) < sum(done[n].cost for n in again)
    return tried if is_cheaper else done


def _first(span: Span) -> tuple[float, bool, float, tuple[tuple[int, int, str], ...]]:
    """Pipes, the thickest first; gravity lines; then what gives way least for how stiff it is."""
    far = dist(span.a.frame.origin, span.b.frame.origin)
    is_pipe = span.line.construction is Construction.PIPE
    return (
        -span.limits.outside if is_pipe else 0.0,
        span.line.service != "drain",
        round(far / span.limits.bend_radius, 6),
        natural_key(span.id),
    )


class _Asked(NamedTuple):
    """What is asked of one hose beside its ends: lanes to follow, what is near, its rule."""

    ways: tuple[tuple[Pose, ...], ...]
    near: "tuple[Obstacle, ...]"
    box: tuple[Vector, Vector]
    gravity: Rule | None
    moves: tuple[tuple[str, float], ...]


class _Session:
    """One car while its hoses are laid."""

    def __init__(self, car: Car, solids: tuple[Solid, ...], memo: Memo) -> None:
        self.car, self.solids, self.memo = car, solids, memo
        self.searched: list[str] = []
        self.visits: dict[str, int] = {}
        self.among = Among(car, solids)
        self.weights = Weights(
            setting(car, "route-envelope").value,
            setting(car, "route-end").value,
            setting(car, "route-bend").value,
            setting(car, "route-plane").value,
            setting(car, "route-plane-straight").value,
        )
        self.doubt = doubt(car)

    def lay(self, span: Span, done: Mapping[str, Outcome], by_id: Mapping[str, Span]) -> Outcome:
        """One hose among bodies and the hoses that lie already."""
        asked = self._asked(span, done, by_id)
        # A hose that is taken up again is remembered beside its first time.
        visit = self.visits[span.id] = self.visits.get(span.id, 0) + 1
        name, key = f"{span.id} {visit}", (span, asked._replace(near=()), self.weights, self.doubt)
        kept = self.memo.get(name)
        if kept is not None and kept.among == asked.near and kept.key == key:
            assert isinstance(kept.outcome, Outcome)
            return kept.outcome
        best: Outcome | None = None
        for number, task in enumerate(self._tasks(span, asked)):
            outcome = self._laid(task, span, f"{name} {number}")
            if outcome.route is not None:
                best = outcome
                break
            best = best or outcome
        assert best is not None
        self.memo[name] = Kept(key, asked.near, best)
        return best

    def _laid(self, task: Task, span: Span, name: str) -> Outcome:
        key = self._key(task, span)
        moves = dict(self.among.moves(span))
        known = again(self.memo.get(name), key, task, moves, span.parts)
        if known is not None:
            self.memo[name] = known[0]
            return known[1]
        self.searched.append(span.id)
        looks = looks_again(self.memo.get(name), key, task, moves, span.parts)
        looks.everywhere = bool(span.bending or task.gravity or task.through)
        task = replace(task, looks=looks)
        outcome = laying(span.bending)(task)
        if span.bending is None:
            outcome = surest(task, outcome, self.doubt)
        if outcome.route is not None:
            outcome = replace(outcome, route=replace(outcome.route, holes=span.holes))
        looks.forget()
        self.memo[name] = Kept(key, task.scene.obstacles, outcome, looks)
        return outcome

    def _key(self, task: Task, span: Span) -> tuple[object, ...]:
        """All that the search of a hose depends on beside bodies."""
        return (
            replace(task.a, own=frozenset()),
            task.b,
            task.limits,
            task.through,
            task.weights,
            task.gravity,
            task.box,
            task.bare,
            task.leave,
            span.bending,
            self.doubt,
            self.among.moves(span),
        )

    def _asked(
        self, span: Span, done: Mapping[str, Outcome], by_id: Mapping[str, Span]
    ) -> "_Asked":
        """What is asked of a hose: where it may go, among what, by what rule."""
        a, b = span.a.frame.origin, span.b.frame.origin
        guides = self._guides(span, done)
        pitch = max([span.limits.outside, *(s.limits.outside for s in by_id.values())])
        pitch += self.among.clearance + 2.0 * OFF + 0.002
        ways: list[tuple[tuple[Vector, Vector], ...]] = []
        for join, leave_at, offset in lanes.tries(pitch) if guides else ():
            radius = span.limits.bend_radius
            through = [
                pose
                for points in guides
                for pose in lanes.poses(
                    lanes.led(lanes.beside(points, offset), a, b, join * radius, leave_at * radius)
                )
            ]
            ways.append(tuple(through))
        ways = list(dict.fromkeys(way for way in ways if way)) or [()]
        if span.through:
            ways = [lanes.merged(way, span.through, a) for way in ways]
        reach = (a, b, *(at for way in ways[:1] for at, _ in way))
        return _Asked(
            tuple(ways),
            self.among.near(span, done, by_id, reach),
            self._box(span, guides),
            rule_of(self.car, span.line),
            self.among.moves(span),
        )

    def _tasks(self, span: Span, asked: "_Asked") -> list[Task]:
        """What is asked of the search: along each lane of its guides in turn, if it has any."""
        scene = self.among.scene(span, asked.near)
        bare, leave = self._near_ports(span, scene)
        made: list[Task] = []
        for way in asked.ways:
            if way and not self._is_open(scene, span, way, bare, leave):
                continue
            if len(made) == _LANES:
                break
            made.append(self._task(span, scene, asked, way, bare, leave))
        return made or [self._task(span, scene, asked, asked.ways[0], bare, leave)]

    def _task(
        self,
        span: Span,
        scene: "Scene",
        asked: "_Asked",
        through: tuple[tuple[Vector, Vector], ...],
        bare: frozenset[str],
        leave: frozenset[str],
    ) -> Task:
        own = frozenset(o.id for o in scene.obstacles if owner(o) in span.parts) | span.panels
        return Task(
            span.id,
            replace(span.a, own=own),
            replace(span.b, own=own),
            span.limits,
            scene,
            asked.box,
            through,
            bare,
            leave,
            self.weights,
            span.line.follows,
            asked.gravity,
        )

    def _guides(self, span: Span, done: Mapping[str, Outcome]) -> list[tuple[Vector, ...]]:
        found = []
        for name in span.line.follows:
            guide = self.car.guides.get(name)
            route = done[name].route if name in done else None
            if guide is not None:
                found.append(guide.points)
            elif route is not None:
                found.append(route.path.corners)
        return found

    def _is_open(
        self,
        scene: "Scene",
        span: Span,
        way: tuple[tuple[Vector, Vector], ...],
        bare: frozenset[str],
        leave: frozenset[str],
    ) -> bool:
        """Whether a lane is free for this hose, as far as it is straight."""
        import numpy as np

        points = np.array([at for at, _ in way])
        least = scene.least_along(
            points, span.limits.outside / 2.0, asked=True, leave=leave, bare=bare
        )
        return least.gap >= 0.0

    def _near_ports(self, span: Span, scene: "Scene") -> tuple[frozenset[str], frozenset[str]]:
        """Bodies whose gap a port itself cannot keep, and own bodies that it stands in."""
        import numpy as np

        own = {o.id for o in scene.obstacles if owner(o) in span.parts}
        bare, leave = set(span.panels) | own, set[str]()
        for side in (span.a, span.b):
            out = unit(side.frame.out)
            reach = side.shapes[0].stick_out
            points = np.array(
                [ahead(side.frame.origin, out, t) for t in (0.002, reach, reach + _AT_PORT)]
            )
            for _ in range(12):
                least = scene.least(points, 0.0, asked=True, leave=leave, bare=bare)
                if not least.body or least.gap >= span.limits.outside / 2.0 + 0.002:
                    break
                if least.body not in bare:
                    bare.add(least.body)
                elif least.body in own and least.gap < 0.0:
                    leave.add(least.body)
                else:
                    break
        return frozenset(bare), frozenset(leave)

    def _box(self, span: Span, guides: list[tuple[Vector, ...]]) -> tuple[Vector, Vector]:
        """What sticks out anyway: both ports, their bodies, and the guides followed."""
        points = [span.a.frame.origin, span.b.frame.origin, *(p for g in guides for p in g)]
        for solid in self.solids:
            if solid.component in span.parts and solid.zone is None and solid.box:
                points += solid.box
        low = [min(p[k] for p in points) for k in range(3)]
        high = [max(p[k] for p in points) for k in range(3)]
        return (low[0], low[1], low[2]), (high[0], high[1], high[2])

    def met(
        self,
        span: Span,
        route: Route,
        done: Mapping[str, Outcome],
        by_id: Mapping[str, Span],
    ) -> list[str]:
        """Hoses that lie where this one has to go."""
        import numpy as np

        from linewright.space.obstacles import Scene, Tube

        tubes = [
            Tube(
                name,
                self.among.polyline(o.route),
                by_id[name].limits.outside / 2.0 + OFF,
                self.among.clearance,
            )
            for name, o in done.items()
            if o.route is not None
        ]
        scene = Scene.build(tubes)
        points = np.array(self.among.polyline(route))
        found: list[str] = []
        for _ in tubes:
            least = scene.least_along(
                points, span.limits.outside / 2.0, asked=True, leave=frozenset(found)
            )
            if not least.body or least.gap >= 0.0:
                break
            found.append(least.body)
        return sorted(found, key=natural_key)

    def finding(
        self, span: Span, done: Mapping[str, Outcome], by_id: Mapping[str, Span]
    ) -> Finding:
        """Why nothing works for one hose, with all others laid."""
        task = self._tasks(span, self._asked(span, done, by_id))[0]
        reach = (span.a.frame.origin, span.b.frame.origin, *(at for at, _ in task.through))

        def widened(name: str, room: float) -> "Scene":
            seen = span if name else replace(span, rides=())  # all of it standing still
            near = self.among.near(seen, done, by_id, reach, {name: room})
            return self.among.scene(seen, near)

        key, name = self._key(task, span), f"{span.id} finding"
        kept = self.memo.get(name)
        if kept is not None and kept.key == key and kept.among == task.scene.obstacles:
            assert isinstance(kept.outcome, Finding)
            return kept.outcome
        lay, words, less = laying(span.bending), bench_words(span.line), self._smaller(span)
        moving = Moving(self.car, span.rides)
        found = no_route(task, span.line, done[span.id], widened, less, lay, words, moving)
        self.memo[name] = Kept(key, task.scene.obstacles, found)
        return found

    def _smaller(self, span: Span) -> tuple[str, Limits] | None:
        """The next smaller size of the same hose."""
        if span.bending is not None:
            return None
        from linewright.base.errors import CatalogueError
        from linewright.tables import hoses

        family = hoses.family(span.line.hose)
        if not span.line.size.startswith("-"):
            return None
        for dash in range(int(span.line.size[1:]) - 1, 1, -1):
            try:
                hoses.size(family.key, f"-{dash}")
            except CatalogueError:
                continue
            return f"-{dash}", limits(self.car, replace(span.line, size=f"-{dash}"))
        return None
