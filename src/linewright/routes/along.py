# SPDX-License-Identifier: Apache-2.0
"""Lengths that follow from a course in space: port face to port face, and laid straight."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import hypot

from linewright.base.codes import RULES
from linewright.base.evidence import Figure, Grade, weakest
from linewright.base.finding import Finding
from linewright.car.model import Car, Line, Tier
from linewright.joints.model import Termination
from linewright.joints.offered import setting
from linewright.routes.model import By
from linewright.routes.pieces import Piece
from linewright.routes.route import Route
from linewright.routes.shapes import BENT, moulded_run, reach
from linewright.routes.tiers import Length, band, sigma_of


@dataclass(frozen=True, slots=True)
class Along:
    """What one hose measures along its course.

    ``face`` is the path from port face to port face, ``taut`` the assembly laid straight
    without slack: the hose from collar to collar and the reach of both hose ends. [m]
    """

    face: Figure
    taut: Figure


def along(car: Car, whole: Length, route: Route, ends: tuple[Termination, Termination]) -> Along:
    """Measure one hose along its course.

    Parameters
    ----------
    car : Car
        The car document as read.
    whole : Length
        The line's length as otherwise known: says how well its ports are placed.
    route : Route
        Its course.
    ends : tuple of Termination
        What stands at its two ends.

    Returns
    -------
    Along
        As well known as its ports: the spread of placed ones, or of guessed ones, and what
        the ports' own places add to it.
    """
    name = "length-spread-placed" if whole.is_surely_placed else "length-spread-guess"
    spread = setting(car, name)
    ports = sigma_of(whole.straight) if whole.straight is not None else 0.0
    legs = [leg for end in ends for leg in _lengths(car, end)]
    if car.lines[ends[0].line].construction in BENT:
        # A nut goes over its tube and a coupler over its pipe: only what stands between counts.
        legs = [leg for end in (route.a, route.b) for leg in (end.shape.stick_out, end.shape.reach)]
    face = route.length + sum(legs)
    taut = route.length + sum(_reach(end) for end in ends)
    grades = [spread.grade, *(_grade(end) for end in ends)]
    if whole.straight is not None:
        grades.append(whole.straight.grade)
    sigma = hypot(spread.value * face, ports)
    known = "placed" if whole.is_surely_placed else "guessed"

    def figure(value: float, what: str) -> Figure:
        return Figure(value, "m", weakest(grades), what, *band(value, sigma))

    return Along(
        figure(face, f"course in space between ports that are {known}"),
        figure(taut, "course in space, hose and both hose ends laid straight"),
    )


def _lengths(car: Car, end: Termination) -> tuple[float, ...]:
    """Length of path through what stands at one end. [m]"""
    through = moulded_run(car, end.chain)
    if through is not None:
        return (through,)
    return tuple(leg for part in (end.chain.parts if end.chain else ()) for leg in part.legs)


def _reach(end: Termination) -> float:
    part = end.chain.hose_end if end.chain else None
    return 0.0 if part is None else reach(part)


def _grade(end: Termination) -> Grade:
    parts = end.chain.parts if end.chain else ()
    return weakest([Grade.READ, *(dict(p.grades).get("legs", Grade.PRACTICE) for p in parts)])


def led(
    car: Car, whole: Length, pieces: Sequence[Piece], courses: Mapping[str, Along]
) -> tuple[Piece, ...]:
    """Take each piece's length from its course, where that is what is known best.

    Parameters
    ----------
    car : Car
        The car document as read.
    whole : Length
        The whole line's length, as typed or between its ports.
    pieces : sequence of Piece
        The pieces of the line, in order from A.
    courses : mapping
        Piece id → what it measures along its course.

    Returns
    -------
    tuple of Piece
        Mocked up and taped with a string go before a course. A course goes before the straight
        distance, and before a guess unless its ports are guessed as well. The string of a line
        of several pieces is shared out by their courses where it is not typed for each.
    """
    if not courses:
        return tuple(pieces)
    known = (By.MOCKED_UP, By.STRING)
    is_open = all(piece.id in courses and piece.is_shared_out for piece in pieces)
    if is_open and whole.is_typed and whole.string and whole.tier is not Tier.GUESS:
        return _shared(whole, whole.string, pieces, courses)
    keeps_guess = whole.is_typed and not whole.is_surely_placed
    tier = Tier.PLACED if whole.is_surely_placed else Tier.GUESS
    return tuple(
        replace(p, string=courses[p.id].face, tier=tier, by=By.COURSE, is_shared_out=False)
        if p.id in courses and p.by not in known and not (p.by is By.GUESS and keeps_guess)
        else p
        for p in pieces
    )


def _shared(
    whole: Length, string: Figure, pieces: Sequence[Piece], courses: Mapping[str, Along]
) -> tuple[Piece, ...]:
    """A string for the whole line, shared out as its courses have it."""
    total = sum(along.face.value for along in courses.values())
    made = []
    for piece in pieces:
        course = courses[piece.id].face
        part = course.value / total
        value = string.value * part
        sigma = hypot(sigma_of(string) * part, sigma_of(course))
        figure = Figure(
            value,
            "m",
            weakest([string.grade, course.grade]),
            "share of the string, as the course in space has it",
            *band(value, sigma),
        )
        by = By.MOCKED_UP if whole.tier is Tier.MOCKED_UP else By.STRING
        made.append(replace(piece, string=figure, tier=whole.tier, by=by, is_shared_out=False))
    return tuple(made)


def differs(line: Line, whole: Length, courses: Sequence[Figure]) -> Finding | None:
    """A typed length that the course in space does not bear out.

    Parameters
    ----------
    line : Line
        The line.
    whole : Length
        Its length as typed.
    courses : sequence of Figure
        Port face to port face along the course, of each of its hoses.

    Returns
    -------
    Finding or None
        ``length-differs``, an ask, where both are further apart than the spread of both
        together leaves likely.
    """
    typed = whole.string
    if typed is None or not whole.is_typed or line.string_from == "collar" or not courses:
        return None
    course = sum(figure.value for figure in courses)
    sigma = hypot(sigma_of(typed), *(sigma_of(figure) for figure in courses))
    low, high = band(course, sigma)
    if low <= typed.value <= high:
        return None
    word = {Tier.MOCKED_UP: "mocked-up length", Tier.GUESS: "guessed length"}.get(
        whole.tier, "string"
    )
    is_short = typed.value < course
    limit = high - course
    return Finding(
        code="length-differs",
        severity=RULES["length-differs"],
        about=(line.id,),
        reason=(
            f"{line.id}: the {word} of {_mm(typed.value)} and the course in space of "
            f"{_mm(course)} are {_mm(abs(typed.value - course))} apart; {_mm(limit)} is what both "
            "can be out by."
        ),
        remedy=(
            "Lay the string again along the way the hose will go, and tape both ports again: "
            + (
                "a port is out of place, or the string cuts a corner that the hose cannot take."
                + ("" if whole.tier is Tier.MOCKED_UP else " Until then the course is bought.")
                if is_short
                else "a port is out of place, or the hose goes another way: say which by a guide."
            )
        ),
        # Without a comma: what is accepted is typed off this, and a comma could be a decimal one.
        value=f"{abs(typed.value - course) * 1000:.0f} mm",
        limit=f"{limit * 1000:.0f} mm",
        source="common practice",
        grade=weakest([typed.grade, *(figure.grade for figure in courses)]),
        system=line.system,
        measure=abs(typed.value - course),
    )


def _mm(metres: float) -> str:
    return f"{metres * 1000:,.0f} mm"
