# SPDX-License-Identifier: Apache-2.0
"""Points, directions and body sizes as people type them, in the car's axes."""

import math
import re

from linewright.base.dimensions import DEGREE, POSITION, Dimension
from linewright.base.errors import UnitError
from linewright.base.quantity import number_and_unit, quantity, refuse_decimal_comma, said

Vector = tuple[float, float, float]

#: x rearward, y to the right as the driver sits, z up.
DIRECTIONS: dict[str, Vector] = {
    "forward": (-1.0, 0.0, 0.0),
    "rearward": (1.0, 0.0, 0.0),
    "left": (0.0, -1.0, 0.0),
    "right": (0.0, 1.0, 0.0),
    "up": (0.0, 0.0, 1.0),
    "down": (0.0, 0.0, -1.0),
}
_WORDS = "forward, rearward, left, right, up, down"
_TILT = re.compile(r"(?P<turn>.+?)\s*(?:°|deg|degrees)?\s+(?P<to>[a-z]+)\Z")
_SIZE = Dimension("length", POSITION.units, POSITION.allowed, "460 mm", 20.0, "20 m")


def _with_units(texts: list[str], text: str, example: str) -> list[str]:
    """Give each number of a list its unit: one unit may close the list."""
    parts = [number_and_unit(part, "point", example) for part in texts]
    last = parts[-1][1]
    if not last:
        raise UnitError(f'{said(text)} has no unit; write for example "{example}".')
    return [t if unit else f"{t.strip()} {last}" for t, (_, unit) in zip(texts, parts, strict=True)]


def height(text: str) -> float:
    """Read a height, over or under the datum.

    Parameters
    ----------
    text : str
        As in "-310 mm".

    Returns
    -------
    float
        Along z. [m]

    Raises
    ------
    UnitError
        If it cannot be read.

    Examples
    --------
    >>> height("-310 mm")
    -0.31
    """
    return quantity(text, POSITION)


def point(text: str) -> Vector:
    """Read a point: three numbers, one unit may close the list.

    Parameters
    ----------
    text : str
        x rearward, y to the right, z up, as in "3120, -410, 150 mm".

    Returns
    -------
    tuple of float
        The three coordinates. [m]

    Raises
    ------
    UnitError
        If there are not three numbers, or one cannot be read.

    Examples
    --------
    >>> point("3120, -410, 150 mm")
    (3.12, -0.41, 0.15)
    """
    refuse_decimal_comma(text)
    parts = text.split(",")
    if len(parts) != 3:
        raise UnitError(
            f"{said(text)} is no point; write three numbers and a unit: x rearward, y to the "
            f'right, z up, as in "3120, -410, 150 mm".'
        )
    x, y, z = (quantity(p, POSITION) for p in _with_units(parts, text, "3120, -410, 150 mm"))
    return x, y, z


def body_size(text: str) -> tuple[Vector, bool]:
    """Read the size of a body: a box, or a cylinder that stands upright.

    Parameters
    ----------
    text : str
        As in "300 x 200 x 60 mm" (along, across, high) or "200 dia x 460 mm".

    Returns
    -------
    tuple
        Extent along x, y, z [m], and whether the body is round about z.

    Raises
    ------
    UnitError
        If it cannot be read, or a side is nothing.

    Examples
    --------
    >>> body_size("200 dia x 460 mm")
    ((0.2, 0.2, 0.46), True)
    """
    example = "300 x 200 x 60 mm"
    refuse_decimal_comma(text)
    parts = re.split(r"\s*[x×]\s*", text.strip())
    round_ = len(parts) == 2 and re.search(r"\bdia(?:meter)?\b|[⌀ø]", parts[0]) is not None
    if len(parts) != 3 and not round_:
        raise UnitError(
            f'{said(text)} is no size of a body; write "{example}" (along, across, high) or '
            f'"200 dia x 460 mm".'
        )
    if round_:
        parts[0] = re.sub(r"\bdia(?:meter)?\b|[⌀ø]", "", parts[0]).strip()
    sides = [quantity(part, _SIZE) for part in _with_units(parts, text, example)]
    if min(sides) == 0:
        raise UnitError(f"{said(text)} has a side of nothing; leave the size out if not known.")
    if round_:
        return (sides[0], sides[0], sides[1]), True
    return (sides[0], sides[1], sides[2]), False


def sides(text: str) -> tuple[float, float]:
    """Read the size of something flat.

    Parameters
    ----------
    text : str
        Two lengths, as in "1400 x 600 mm".

    Returns
    -------
    tuple of float
        Both, in their order. [m]

    Raises
    ------
    UnitError
        If there are not two, or one is nothing.

    Examples
    --------
    >>> sides("1400 x 600 mm")
    (1.4, 0.6)
    """
    example = "1400 x 600 mm"
    refuse_decimal_comma(text)
    parts = re.split(r"\s*[x×]\s*", text.strip())
    if len(parts) != 2:
        raise UnitError(
            f'{said(text)} is no size of a wall; write two lengths, as in "{example}" (level, and '
            f"square to that)."
        )
    a, b = (quantity(part, _SIZE) for part in _with_units(parts, text, example))
    if min(a, b) == 0:
        raise UnitError(f"{said(text)} has a side of nothing; leave the size out if not known.")
    return a, b


def _plain_direction(parts: list[str], text: str) -> Vector:
    values: list[float] = []
    for part in parts:
        value, unit = number_and_unit(part, "direction", "0, 0, 1")
        if unit:
            raise UnitError(
                f'{said(text)} is no direction; three numbers have no unit, as in "0, 1, 1".'
            )
        values.append(value)
    size = math.hypot(*values)
    if not 1e-9 < size < 1e9:
        raise UnitError(f"{said(text)} is no direction; its length must not be nothing, or huge.")
    if abs(size - 1) < 1e-12:
        size = 1.0  # typed as it was shown: left as it is
    x, y, z = (round(value / size, 15) + 0.0 for value in values)
    return x, y, z


def direction(text: str) -> Vector:
    """Read a direction.

    Parameters
    ----------
    text : str
        A word, as in "forward"; a word and a tilt, from the first towards the second, as in
        "forward, 20° up"; or three numbers.

    Returns
    -------
    tuple of float
        Unit vector. [-]

    Raises
    ------
    UnitError
        If it is none of these.

    Examples
    --------
    >>> direction("down")
    (0.0, 0.0, -1.0)
    >>> direction("forward, 20° up")
    (-0.940, 0.0, 0.342)
    """
    refuse_decimal_comma(text)
    parts = [part.strip() for part in text.strip().lower().split(",")]
    first = DIRECTIONS.get(parts[0])
    if first is not None and len(parts) == 1:
        return first
    if first is not None and len(parts) == 2:
        tilt = _TILT.match(parts[1])
        second = DIRECTIONS.get(tilt["to"]) if tilt else None
        if tilt is None or second is None:
            raise UnitError(
                f"{said(text)} is no direction; the tilt is degrees and one of {_WORDS}, as in "
                f'"forward, 20° up".'
            )
        if any(a and b for a, b in zip(first, second, strict=True)):
            raise UnitError(
                f"{said(text)}: {tilt['to']} is not square to {parts[0]}; tilt towards another "
                f'word, as in "forward, 20° up".'
            )
        degrees, unit = number_and_unit(tilt["turn"], "tilt", "forward, 20° up")
        if unit or not 0 <= degrees <= 180:
            raise UnitError(f"{said(text)}: the tilt is 0 to 180 degrees.")
        turn = degrees * DEGREE
        x, y, z = (
            round(a * math.cos(turn) + b * math.sin(turn), 15) + 0.0
            for a, b in zip(first, second, strict=True)
        )
        return x, y, z
    if len(parts) == 3 and first is None:
        return _plain_direction(parts, text)
    raise UnitError(
        f'{said(text)} is no direction; allowed: {_WORDS}, a word and a tilt ("forward, 20° up"), '
        f"or three numbers."
    )
