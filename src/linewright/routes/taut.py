# SPDX-License-Identifier: Apache-2.0
"""Typed lengths against courses in space: too short to bend, too taut, too long."""

from collections.abc import Sequence
from itertools import product
from math import cos, inf, radians, sin, tau

from linewright.base.codes import RULES
from linewright.base.evidence import Grade, Placed
from linewright.base.finding import Finding, Severity
from linewright.car.model import Car, Construction, Line, Tier
from linewright.joints.model import Termination
from linewright.joints.offered import setting
from linewright.routes.along import Along
from linewright.routes.route import Route
from linewright.routes.shapes import limits, shapes_at
from linewright.routes.tiers import Length
from linewright.space.free import collar, shortest
from linewright.space.model import EndShape
from linewright.space.path import length
from linewright.space.ports import port_frame

Ends = tuple[Termination, Termination]

#: Elbows are tried in steps, and ports are taped: a tenth is left to both. [-]
_SHORTEST = 0.9

#: Ports that are where they stay.
_FIXED = (Placed.MOCKED_UP, Placed.FINAL)

#: Pairs that are reckoned without what is in the way, those with the shortest courses.
_PAIRS = 8

#: Places of an elbow that are tried then.
_TURNS = 12


def taut(
    car: Car,
    line: Line,
    whole: Length,
    laid: Sequence[tuple[Route, Along]],
    ends: Ends,
) -> Finding | None:
    """Say that a hose of its typed length bends tighter than it may, or hangs taut or slack.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        The line.
    whole : Length
        Its length as typed.
    laid : sequence of tuple
        The course of each of its hoses and what it measures; empty where one has none.

    ends : tuple of Termination
        What stands at both ends of the line.

    Returns
    -------
    Finding or None
        ``bend-tight``: less than any pair of hose ends needs at the hose's radius, were nothing
        in the way.
        ``hose-slack``: of a mocked-up length, which is cut as it is with the slack of every hose:
        a stop and a warning where little is left over the course, a note where it is much.
    """
    typed = whole.string
    if typed is None or not whole.is_typed or not laid or not whole.is_surely_placed:
        return None
    is_hung = line.construction in (Construction.HOSE, Construction.CLAMPED)
    if not is_hung or line.string_from == "collar":
        return None
    straight = whole.straight.value if whole.straight is not None else 0.0
    if typed.value < straight:
        return None  # told as what it is
    course = sum(along.face.value for _, along in laid)
    is_mocked_up = whole.tier is Tier.MOCKED_UP or _is_fixed(car, line)
    if (
        len(laid) == 1
        and is_mocked_up
        and (tight := _tight(car, line, typed.value, laid[0][0], ends))
    ):
        return tight
    if whole.tier is not Tier.MOCKED_UP:
        return None
    return _slack(car, line, typed.value, course)


def _is_fixed(car: Car, line: Line) -> bool:
    """Whether both ports are where they stay; else a string that differs is asked about."""
    frames = [port_frame(car, port) for port in (line.from_port, line.to_port)]
    return all(frame is not None and frame.placed in _FIXED for frame in frames)


def _tight(car: Car, line: Line, typed: float, route: Route, ends: Ends) -> Finding | None:
    works = [row for row in route.band if row.works and row.length is not None]
    # What is laid goes round bodies: only where even that is too long is it reckoned without.
    if not works or typed >= _SHORTEST * min(row.length or 0.0 for row in works):
        return None
    works.sort(key=lambda row: (row.length or 0.0, row.angle_a, row.angle_b))
    found = [_free(car, line, ends, (row.angle_a, row.angle_b)) for row in works[:_PAIRS]]
    if any(each is None for each in found):
        return None
    least, angles = min(each for each in found if each is not None)
    if typed >= _SHORTEST * least:
        return None
    keep = limits(car, line)
    return Finding(
        code="bend-tight",
        severity=RULES["bend-tight"],
        about=(line.id,),
        reason=(
            f"{line.id}: {_mm(typed)} from {line.from_port} to {line.to_port} is less than any "
            f"pair of hose ends needs at a bend radius of {_mm(keep.bend_radius)} ({keep.why}): "
            f"about {_mm(least)}, with {angles[0]}° at A and {angles[1]}° at B. A hose of that "
            "length is bent tighter than it may be, or kinks."
        ),
        remedy=(
            "Give it more length and room, turn a port, or take a smaller or a more supple hose."
        ),
        value=_mm(typed),
        limit=_mm(least),
        source="computed-here",
        grade=Grade.DERIVED,
        system=line.system,
        measure=least - typed,
        printed=typed,
        is_less_worse=True,
    )


def _free(
    car: Car, line: Line, ends: Ends, angles: tuple[int, int]
) -> tuple[float, tuple[int, int]] | None:
    """The shortest way from port to port with two hose ends, were nothing in the way. [m]"""
    keep = limits(car, line)
    sides = []
    for end, angle in zip(ends, angles, strict=True):
        frame = port_frame(car, end.port)
        shape = next((s for s in shapes_at(car, line, end) if s.angle == angle), None)
        if frame is None or shape is None:
            return None
        turns = _TURNS if angle else 1
        sides.append((shape, [collar(frame, shape, tau * k / turns) for k in range(turns)]))
    (one, near), (two, far) = sides
    best = inf
    for a, b in product(near, far):
        a_way, b_way = ((-n[0], -n[1], -n[2]) for n in (a.n, b.n))
        path = shortest(a.collar, a_way, b.collar, b_way, keep.bend_radius, keep.straight)
        if path is not None:
            best = min(best, length(path))
    return best + _legs(one) + _legs(two), angles


def _legs(shape: EndShape) -> float:
    """Length of path through a hose end. [m]"""
    bend = radians(shape.angle)
    if shape.angle in (0, 180):
        return shape.stick_out + shape.reach + shape.drop
    near = shape.drop / sin(bend)
    return shape.stick_out + near + shape.reach - near * cos(bend)


def _slack(car: Car, line: Line, typed: float, course: float) -> Finding | None:
    """Of what is cut: the mocked-up length with the slack of every hose."""
    share = typed * (1.0 + setting(car, "slack").value) / course - 1.0
    least, low = setting(car, "slack-least"), setting(car, "slack-low")
    high = setting(car, "slack-high")
    if low.value <= share <= high.value:
        return None
    is_taut = share < low.value
    limit = least if share < least.value else low if is_taut else high
    stop = Severity.STOP if share < least.value else Severity.WARN
    how = (
        "hangs taut: it shortens under pressure and pulls on its ends"
        if is_taut
        else "hangs slack: it chafes, and stands where nobody looked"
    )
    return Finding(
        code="hose-slack",
        severity=stop if is_taut else Severity.NOTE,
        about=(line.id,),
        reason=(
            f"{line.id}: cut from the mocked-up {_mm(typed)} it has {share:.1%} of slack over its "
            f"course in space of {_mm(course)} and {how}."
        ),
        remedy=(
            "Mock it up again along the way it will go, or let the course decide: strike the "
            "mocked-up length."
        ),
        value=f"{share * 100:.1f}%",
        limit=f"{limit.value * 100:.0f}%",
        grade=limit.grade,
        source="plumbing-practice-notes",
        system=line.system,
        measure=low.value - share if is_taut else share - high.value,
        printed=share,
        is_less_worse=is_taut,
    )


def _mm(metres: float) -> str:
    return f"{metres * 1000:.0f} mm"
