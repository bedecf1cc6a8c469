# SPDX-License-Identifier: Apache-2.0
"""Why a hose cannot be laid, and the smallest change that would free it."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from math import radians

from linewright.base.codes import RULES
from linewright.base.evidence import Grade
from linewright.base.finding import Finding
from linewright.base.vectors import cross, dot, turned_about, unit
from linewright.car.model import Line
from linewright.joints.offered import angle_word
from linewright.routes.search import Outcome, Side, Task, lay_line
from linewright.space.model import Limits
from linewright.space.obstacles import Scene
from linewright.space.outlines import Wall

#: The bodies with more room beside one of them: its id, how much [m].
Widened = Callable[[str, float], Scene]

#: A change of direction that a bung, an elbow or a bracket gives.
_TILT = 30.0

#: Share of the search that each change is given.
_EFFORT = 0.3

#: Room that is asked for, in steps. [m]
_ROOM = (0.01, 0.02, 0.04)


def no_route(
    task: Task,
    line: Line,
    outcome: Outcome,
    widened: Widened,
    smaller: tuple[str, Limits] | None = None,
    lay: Callable[[Task], Outcome] = lay_line,
    bench: str = "",
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
        The bodies with so much more room beside one of them. [m]
    smaller : tuple, optional
        The next smaller size of its hose and what that keeps.
    lay : callable
        The search: that of hoses, or that of tubes with what their bench can do.
    bench : str
        What is bent instead of hose, in words; then its ends are no choice.

    Returns
    -------
    Finding
        ``no-route``: what binds, and the first of these changes that frees it: other ends than
        those typed, room beside what blocks it, a hole in a panel, a port turned by 30°, the next
        smaller size.
    """
    keep = task.limits
    pairs = len(task.a.shapes) * len(task.b.shapes)
    ends = "the only pair of hose ends" if pairs == 1 else f"any of {pairs} pairs of hose ends"
    if task.a.angle is not None or task.b.angle is not None:
        ends = "the hose ends typed"
    ends = bench or ends
    blocked = list(outcome.blocked[:3])
    binds = [f"bend radius {keep.bend_radius * 1e3:.0f} mm"]
    if blocked:
        binds.append(" and ".join(_gap(task, name) for name in blocked))
    binds.append(f"straight {keep.straight * 1e3:.0f} mm {'at' if bench else 'after'} each end")
    way = next(_ways(task, outcome, widened, smaller, lay), None)
    remedy = way or (
        f"Tried in vain: {_tried(bench)}40 mm more room at each thing in the way, each port "
        f"turned by 30°{'' if bench else ', the next smaller size'}. Move a component, "
        f"{'give the line a guide, or have hose' if bench else 'or give the line a guide'}."
    )
    return Finding(
        code="no-route",
        severity=RULES["no-route"],
        about=(task.id,) if task.id == line.id else (task.id, line.id),
        reason=(
            f"{task.id}: no course was found from {line.from_port} to {line.to_port} with "
            f"{ends}; what binds: {'; '.join(binds)}."
        ),
        remedy=remedy,
        value="none of those tried",
        limit="one course",
        source="computed-here",
        grade=Grade.DERIVED,
        system=line.system,
    )


def _gap(task: Task, name: str) -> str:
    """The clearance that a body asks of the hose, of all that bear its name the most."""
    asked = [o.clearance for o in task.scene.obstacles if o.id == name]
    return f"{max(asked, default=task.limits.clearance) * 1e3:.0f} mm clearance to {name}"


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
    outcome: Outcome,
    widened: Widened,
    smaller: tuple[str, Limits] | None,
    lay: Callable[[Task], Outcome],
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
    for name in outcome.blocked[:3]:
        if name in _parting(task):
            # A panel is passed; nobody makes more room at it.
            if lay(replace(task, leave=task.leave | {name})).route is not None:
                yield (
                    f'{name} is in the way: say `passes = ["{name}"]` at the line for a bulkhead '
                    f"fitting there, or give {name} a hole with its bore for a grommet."
                )
        elif lay(replace(task, scene=widened(name, _ROOM[-1]))).route is not None:
            for room in _ROOM:
                if lay(replace(task, scene=widened(name, room))).route is not None:
                    yield f"It goes with {room * 1e3:.0f} mm more room at {name}."
                    break
    for which, side in (("A", task.a), ("B", task.b)):
        for word, turned in _turned(side):
            other = replace(task, a=turned) if which == "A" else replace(task, b=turned)
            if lay(other).route is not None:
                yield f"It goes with the port at {which} turned {_TILT:.0f}° {word}."
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


def _turned(side: Side) -> Iterator[tuple[str, Side]]:
    """A port turned each way about two axes square to it."""
    out = unit(side.frame.out)
    other = cross(out, side.frame.side)
    axes = (
        ("towards twelve o'clock", other, 1.0),
        ("towards six o'clock", other, -1.0),
        ("towards three o'clock", side.frame.side, 1.0),
        ("towards nine o'clock", side.frame.side, -1.0),
    )
    for word, axis, sign in axes:
        angle = sign * radians(_TILT)
        frame = replace(
            side.frame,
            out=turned_about(axis, angle, out),
            side=turned_about(axis, angle, side.frame.side),
        )
        yield word, replace(side, frame=frame)
