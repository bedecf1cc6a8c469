# SPDX-License-Identifier: Apache-2.0
"""How long a line is, by the best of what the builder gave, each with its own error."""

from dataclasses import dataclass
from math import hypot

from linewright.base.evidence import Figure, Grade, Placed, weakest
from linewright.base.frames import apart
from linewright.car.model import Car, Line, Tier
from linewright.joints.offered import setting
from linewright.space.positions import Position, position

#: Half the width of the central 95 % of a normal spread, in standard deviations. [-]
CENTRAL_95 = 1.959964

#: Setting that holds the relative spread (1 sigma) of a length of each tier.
_SPREAD = {
    Tier.GUESS: "length-spread-guess",
    Tier.STRING: "length-spread-string",
    Tier.PLACED: "length-spread-placed",
    Tier.MOCKED_UP: "length-spread-mocked-up",
}


@dataclass(frozen=True, slots=True)
class Length:
    """How long a line is, port face to port face, and how that is known.

    ``straight`` is the straight distance between the ports where both are placed;
    ``is_surely_placed`` is False where one of them is only guessed. ``is_typed`` says that
    ``string`` comes from the builder, and not from where the ports are.
    """

    tier: Tier
    string: Figure | None
    straight: Figure | None
    is_surely_placed: bool = False
    is_typed: bool = False


def length(car: Car, line: Line) -> Length:
    """Length of a line by the best tier that the document allows.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        The line.

    Returns
    -------
    Length
        A typed length beats positions; positions beat nothing. Without either the tier
        is unknown and both figures are None.
    """
    a, b = position(car, line.from_port), position(car, line.to_port)
    straight = _straight(car, a, b) if a is not None and b is not None else None
    is_sure = a is not None and b is not None and not _is_guess(a) and not _is_guess(b)
    string = line.string or _sum(line)
    if string is not None:
        typed = line.tier if line.tier in (Tier.GUESS, Tier.MOCKED_UP) else Tier.STRING
        return Length(typed, _banded(car, string, typed), straight, is_sure, is_typed=True)
    if straight is not None and straight.value > 0:
        tier = Tier.PLACED if is_sure else Tier.GUESS
        figure = Figure(
            straight.value,
            "m",
            weakest([straight.grade, setting(car, _SPREAD[tier]).grade]),
            "straight distance between the ports; a path round other parts is longer",
        )
        return Length(tier, _banded(car, figure, tier, straight), straight, is_sure)
    return Length(Tier.UNKNOWN, None, straight, is_sure)


def band(value: float, sigma: float) -> tuple[float, float]:
    """Limits of the central 95 % of a length that cannot be negative.

    Parameters
    ----------
    value : float
        The length. [m]
    sigma : float
        Standard deviation of its error. [m]

    Returns
    -------
    tuple of float
        Low and high limit [m].

    Examples
    --------
    A string of 900 mm, good to 3 %:

    >>> band(0.900, 0.027)
    (0.847, 0.953)
    """
    return max(0.0, value - CENTRAL_95 * sigma), value + CENTRAL_95 * sigma


def sigma_of(figure: Figure) -> float:
    """Standard deviation that a figure's limits stand for.

    Parameters
    ----------
    figure : Figure
        A figure whose limits, if any, are those of the central 95 %.

    Returns
    -------
    float
        The spread; 0 where the figure has no limits. [m]
    """
    return 0.0 if figure.high is None else (figure.high - figure.value) / CENTRAL_95


def _sum(line: Line) -> Figure | None:
    """The pieces of a line that passes panels, where they alone were measured."""
    if not line.passes_at:
        return None
    total = sum(piece.value for piece in line.passes_at)
    grade = weakest(piece.grade for piece in line.passes_at)
    return Figure(total, "m", grade, "sum of the pieces as measured")


def share(car: Car, whole: Length, typed: Figure) -> Figure:
    """One measured piece of a line, as well known as the line's own tier.

    Parameters
    ----------
    car : Car
        The car document as read.
    whole : Length
        The line's length.
    typed : Figure
        The piece as measured [m].

    Returns
    -------
    Figure
        The same value with its limits.
    """
    return _banded(car, typed, whole.tier)


def _is_guess(point: Position) -> bool:
    return point.known is Placed.GUESS or not point.is_own


def _straight(car: Car, a: Position, b: Position) -> Figure:
    spreads = [setting(car, f"place-spread-{p.known.value}") for p in (a, b)]
    distance = apart(a.at, b.at)
    low, high = band(distance, hypot(*(s.value for s in spreads)))
    return Figure(
        distance,
        "m",
        weakest([Grade.STATED, *(s.grade for s in spreads)]),
        f"ports placed: {a.known.value} and {b.known.value}",
        low,
        high,
    )


def _banded(car: Car, figure: Figure, tier: Tier, straight: Figure | None = None) -> Figure:
    spread = setting(car, _SPREAD[tier])
    sigma = hypot(spread.value * figure.value, sigma_of(straight) if straight else 0.0)
    low, high = band(figure.value, sigma)
    basis = figure.basis or {
        Tier.GUESS: "guessed length",
        Tier.STRING: "string along the path",
        Tier.MOCKED_UP: "mocked up with the real ends",
    }.get(tier, "")
    return Figure(figure.value, "m", figure.grade, basis, low, high)
