# SPDX-License-Identifier: Apache-2.0
"""Typed lengths against courses in space: too short to bend, too taut, too long."""

from collections.abc import Sequence

from linewright.base.codes import RULES
from linewright.base.evidence import Grade
from linewright.base.finding import Finding, Severity
from linewright.car.model import Car, Construction, Line, Tier
from linewright.joints.offered import setting
from linewright.routes.along import Along
from linewright.routes.route import Route
from linewright.routes.shapes import limits
from linewright.routes.tiers import Length

#: The band holds the courses that cost least; shorter ones may be a little shorter. [-]
_SHORTEST = 0.9


def taut(
    car: Car, line: Line, whole: Length, laid: Sequence[tuple[Route, Along]]
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

    Returns
    -------
    Finding or None
        ``bend-tight``: less than any pair of hose ends needs at the hose's radius.
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
    if len(laid) == 1 and (tight := _tight(car, line, typed.value, *laid[0])):
        return tight
    if whole.tier is not Tier.MOCKED_UP:
        return None
    return _slack(car, line, typed.value, course)


def _tight(car: Car, line: Line, typed: float, route: Route, along: Along) -> Finding | None:
    works = [row for row in route.band if row.works and row.length is not None]
    chosen = (route.a.shape.angle, route.b.shape.angle)
    own = next((r.length for r in works if (r.angle_a, r.angle_b) == chosen), None)
    if own is None:
        return None
    best = min(works, key=lambda row: (row.length or 0.0, row.angle_a, row.angle_b))
    least = along.face.value - own + (best.length or 0.0)
    if typed >= _SHORTEST * least:
        return None
    keep = limits(car, line)
    return Finding(
        code="bend-tight",
        severity=RULES["bend-tight"],
        about=(line.id,),
        reason=(
            f"{line.id}: {_mm(typed)} from {line.from_port} to {line.to_port} is less than any "
            f"pair of hose ends needs at a bend radius of {_mm(keep.bend_radius)} ({keep.why}): about "
            f"{_mm(least)}, with {best.angle_a}° at A and {best.angle_b}° at B. A hose of that "
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
