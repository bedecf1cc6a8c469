# SPDX-License-Identifier: Apache-2.0
"""Why a hose cannot be laid, and the smallest change that would free it."""

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import pi, radians

from linewright.base.codes import RULES
from linewright.base.evidence import Grade
from linewright.base.finding import Finding
from linewright.base.vectors import Vector, ahead, cross, dot, turned_about, unit
from linewright.car.model import Car, Line
from linewright.joints.offered import angle_word
from linewright.routes.search import Outcome, Side, Task, lay_line
from linewright.space.bodies import Solid
from linewright.space.free import collar
from linewright.space.model import Limits
from linewright.space.moving import sweep, travel_words
from linewright.space.obstacles import Scene
from linewright.space.outlines import Wall

#: The bodies with more room beside one of them: its id, how much [m].
Widened = Callable[[str, float], Scene]


@dataclass(frozen=True, slots=True)
class Moving:
    """A car in which things move, and what carries the ends of a hose."""

    car: Car
    rides: tuple[str, ...]


#: Changes of direction that a bung, an elbow or a bracket gives, the most last. [deg]
_TILT = (10.0, 20.0, 30.0)

#: How many places of an elbow are looked at where an end may be boxed in.
_TURNS = 24

#: Share of the search that each change is given.
_EFFORT = 0.3

#: Room that is asked for, in steps. [m]
_ROOM = (0.005, 0.01, 0.015, 0.02, 0.03, 0.04)


def no_route(
    task: Task,
    line: Line,
    outcome: Outcome,
    widened: Widened,
    smaller: tuple[str, Limits] | None = None,
    lay: Callable[[Task], Outcome] = lay_line,
    bench: str = "",
    moving: Moving | None = None,
) -> Finding:
    """The finding on a hose for which nothing works.

    Parameters
    ----------
    task : Task
        The hose as it was searched.
    line : Line
        Its line.
    outcome : Outcome
        What came of it.
    widened : callable
        The bodies with so much more room beside one of them; with "" for its name, all of them
        as they stand still. [m]
    smaller : tuple, optional
        The next smaller size of its hose and what that keeps.
    lay : callable
        The search: that of hoses, or that of tubes with what their bench can do.
    bench : str
        What is bent instead of hose, in words; then its ends are no choice.
    moving : Moving, optional
        The car and what carries the ends of the hose, where something moves.

    Returns
    -------
    Finding
        ``no-route``: what binds, which end is boxed in by what, and the first of these changes
        that frees it: other ends than those typed, less travel, room beside what blocks it, a
        hole in a panel, a port turned by up to 30°, the next smaller size.
    """
    keep = task.limits
    pairs = len(task.a.shapes) * len(task.b.shapes)
    ends = "the only pair of hose ends" if pairs == 1 else f"any of {pairs} pairs of hose ends"
    if task.a.angle is not None or task.b.angle is not None:
        ends = "the hose ends typed"
    ends = bench or ends
    shut = list(boxed(task))
    closing = [name for _, names in shut for name in names]
    blocked = list(dict.fromkeys([*outcome.blocked, *closing]))[:3]
    binds = [f"bend radius {keep.bend_radius * 1e3:.0f} mm{f' ({keep.why})' if keep.why else ''}"]
    if blocked:
        binds.append(" and ".join(_gap(task, name, moving) for name in blocked))
    binds.append(f"straight {keep.straight * 1e3:.0f} mm {'at' if bench else 'after'} each end")
    way = next(_ways(task, line, blocked, widened, smaller, lay, moving), None)
    stood = "all bodies standing still, " if _travels(task, blocked, moving) else ""
    remedy = way or (
        f"Tried in vain: {_tried(bench)}{stood}40 mm more room at each thing in the way, each port "
        f"turned by 30°{'' if bench else ', the next smaller size'}. Move a component, "
        f"{'give the line a guide, or have hose' if bench else 'or give the line a guide'}."
    )
    return Finding(
        code="no-route",
        severity=RULES["no-route"],
        about=(task.id,) if task.id == line.id else (task.id, line.id),
        reason=(
            f"{task.id}: no course was found from {line.from_port} to {line.to_port} with "
            f"{ends}; what binds: {'; '.join(binds)}.{_shut_words(shut, task, bench)}"
        ),
        remedy=remedy,
        value="none of those tried",
        limit="one course",
        source="computed-here",
        grade=Grade.DERIVED,
        system=line.system,
    )


def _shut_words(shut: list[tuple[str, list[str]]], task: Task, bench: str) -> str:
    """Which ends are boxed in, in sentences."""
    told = ""
    for which, names in shut:
        side = task.a if which == "A" else task.b
        port = f" at {side.port}" if side.port else ""
        every = " and ".join(_named(task, name) for name in names)
        what = "as it leads out" if bench else "whichever hose end stands there"
        told += f" End {which}{port} is boxed in by {every}, {what}."
    return told


def boxed(task: Task) -> Iterator[tuple[str, list[str]]]:
    """Ends from which no hose gets away, and what is in the way there.

    Parameters
    ----------
    task : Task
        The hose as it was searched.

    Yields
    ------
    tuple
        ``A`` or ``B``, and the ids of at most three bodies, that which is met most first.
    """
    import numpy as np

    radius, keep = task.limits.outside / 2.0, task.limits
    for which, side in (("A", task.a), ("B", task.b)):
        met: Counter[str] = Counter()
        for shape in side.shapes:
            for k in range(_TURNS if shape.angle else 1):
                stands = collar(side.frame, shape, 2.0 * pi * k / _TURNS)
                lead = max(keep.straight, radius + 0.005)
                run = [radius + (lead - radius) * t / 5.0 for t in range(6)]
                points = np.array([ahead(stands.collar, stands.n, -t) for t in run])
                own = task.leave | side.own
                least = task.scene.least(points, radius, asked=True, leave=own, bare=task.bare)
                if not least.body or least.gap >= 0.0:
                    break
                met[least.body] += 1
            else:
                continue
            break
        else:
            if met:
                yield which, sorted(met, key=lambda name: (-met[name], name))[:3]


def _named(task: Task, name: str) -> str:
    """A body as it is told: a zone with its kind."""
    for each in task.scene.obstacles:
        if each.id == name and isinstance(each, Solid) and each.zone is not None:
            return f"the {each.zone.value} zone {name}"
    return name


def _gap(task: Task, name: str, moving: Moving | None) -> str:
    """The clearance that a body asks of the hose, of all that bear its name the most."""
    found = [o for o in task.scene.obstacles if o.id == name]
    asked = max((o.clearance for o in found), default=task.limits.clearance)
    told = _named(task, name)
    if asked > 0.0:
        told = f"{asked * 1e3:.0f} mm clearance to {told}"
    if moving is not None:
        most = max((sweep(moving.car, o.rides, moving.rides).most for o in found), default=0.0)
        if most > 0.0:
            told += f" after {most * 1e3:.0f} mm of travel"
    return told


def _travels(task: Task, blocked: list[str], moving: Moving | None) -> list[str]:
    """What moves against the hose among what blocks it, as it is told."""
    if moving is None:
        return []
    rides = {o.rides for o in task.scene.obstacles if o.id in blocked}
    if not any(sweep(moving.car, ride, moving.rides).most for ride in rides):
        return []
    every = sorted((rides | set(moving.rides)) - {"chassis"})
    return [travel_words(moving.car, ride) for ride in every]


def _parting(task: Task) -> set[str]:
    """Panels that stand between the two ports: those are passed, not kept off."""
    found = set()
    for each in task.scene.obstacles:
        if isinstance(each, Wall):
            level = dot(each.points, each.at)
            sides = [dot(each.points, s.frame.origin) > level for s in (task.a, task.b)]
            if sides[0] != sides[1]:
                found.add(each.id)
    return found


def _tried(bench: str) -> str:
    return "" if bench else "all other ends, "


def _ways(
    task: Task,
    line: Line,
    blocked: list[str],
    widened: Widened,
    smaller: tuple[str, Limits] | None,
    lay: Callable[[Task], Outcome],
    moving: Moving | None,
) -> Iterator[str]:
    """Changes that free the hose, easiest first; each is tried before it is told."""
    task = replace(task, effort=_EFFORT)
    if task.a.angle is not None or task.b.angle is not None:
        free = lay(replace_sides(task, lambda s: replace(s, angle=None)))
        if free.route is not None:
            one, two = free.route.a.shape.angle, free.route.b.shape.angle
            yield (
                f"Other ends do: {angle_word(one)} at A and {angle_word(two)} at B. Type them, "
                "or leave the ends open."
            )
    travels = _travels(task, blocked, moving)
    if travels and lay(replace(task, scene=widened("", 0.0))).route is not None:
        yield (
            f"It goes where nothing moves: what binds is the travel of {' and '.join(travels)}. "
            "Measure it and type it under [movement], along each axis where it is not alike, or "
            "move one of them aside."
        )
    for name in blocked:
        if name in _parting(task):
            # A panel is passed; nobody makes more room at it.
            is_open = lay(replace(task, leave=task.leave | {name})).route is not None
            if is_open and name in line.passes:
                yield f"Its hole in {name} is out of its way or too narrow: move it, or widen it."
            elif is_open:
                yield (
                    f'{name} is in the way: say `passes = ["{name}"]` at the line for a bulkhead '
                    f"fitting there, or give {name} a hole with its bore for a grommet."
                )
        elif lay(replace(task, scene=widened(name, _ROOM[-1]))).route is not None:
            for room in _ROOM:
                if lay(replace(task, scene=widened(name, room))).route is not None:
                    more = f"{room * 1e3:.0f} mm more room at {_named(task, name)}"
                    yield f"It goes with {more}."
                    break
    for which, side in (("A", task.a), ("B", task.b)):
        for word, turn in _turned(side):
            for tilt in (_TILT[-1], *_TILT[:-1]):
                turned = turn(tilt)
                other = replace(task, a=turned) if which == "A" else replace(task, b=turned)
                is_free = lay(other).route is not None
                if not is_free and tilt == _TILT[-1]:
                    break  # the most does not free it
                if is_free and tilt != _TILT[-1]:
                    yield f"It goes with the port at {which} turned {tilt:.0f}° {word}."
                    return
            else:
                yield f"It goes with the port at {which} turned {_TILT[-1]:.0f}° {word}."
    if smaller is not None:
        size, limits = smaller
        if lay(replace(task, limits=limits)).route is not None:
            yield (
                f"It goes in {size}, which bends to {limits.bend_radius * 1e3:.0f} mm; see "
                "first that the flow allows it."
            )


def replace_sides(task: Task, change: Callable[[Side], Side]) -> Task:
    """The same hose with both ends changed.

    Parameters
    ----------
    task : Task
        The hose.
    change : callable
        What is done to each end.

    Returns
    -------
    Task
        The other hose.
    """
    return replace(task, a=change(task.a), b=change(task.b))


def _turned(side: Side) -> Iterator[tuple[str, Callable[[float], Side]]]:
    """A port turned each way about two axes square to it, by so many degrees."""
    out = unit(side.frame.out)
    other = cross(out, side.frame.side)
    axes = (
        ("towards twelve o'clock", other, 1.0),
        ("towards six o'clock", other, -1.0),
        ("towards three o'clock", side.frame.side, 1.0),
        ("towards nine o'clock", side.frame.side, -1.0),
    )
    for word, axis, sign in axes:

        def by(tilt: float, axis: Vector = axis, sign: float = sign) -> Side:
            angle = sign * radians(tilt)
            frame = replace(
                side.frame,
                out=turned_about(axis, angle, out),
                side=turned_about(axis, angle, side.frame.side),
            )
            return replace(side, frame=frame)

        yield word, by
