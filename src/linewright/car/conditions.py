# SPDX-License-Identifier: Apache-2.0
"""Which way is down: by the use of the car, and as the builder says."""

from math import atan2, degrees, hypot

from linewright.base.evidence import Grade
from linewright.base.vectors import unit
from linewright.car.model import Car, Condition
from linewright.tables.load import rows

#: Words of a use and the rows that hold for it, first match first.
_USES = (
    ("hill climb", ("hill", "sprint", "autocross")),
    ("drag", ("drag", "strip")),
    ("rally", ("rally", "off-road", "off road", "raid")),
    ("circuit", ("circuit", "track", "race", "racing", "drift", "attack", "endurance")),
    ("road", ("road", "street", "touring")),
)
#: What holds where the use says nothing: it asks for most, but for a start on a strip.
_UNKNOWN = "circuit"


def use_of(words: str) -> str:
    """Tell the use of a car from the words on its cover.

    Parameters
    ----------
    words : str
        ``[car] use`` as typed.

    Returns
    -------
    str
        A use of the table of conditions; the circuit where the words say none.

    Examples
    --------
    >>> use_of("Street, some track days"), use_of("hill climb"), use_of("")
    ('circuit', 'hill climb', 'circuit')
    """
    text = words.casefold()
    return next((use for use, has in _USES if any(word in text for word in has)), _UNKNOWN)


def of_use(words: str) -> dict[str, Condition]:
    """Return the conditions that a use brings, by name.

    Parameters
    ----------
    words : str
        ``[car] use`` as typed.

    Returns
    -------
    dict
        Level, parked on a slope, launch, braking, left and right.
    """
    use = use_of(words)
    found = {}
    for row in rows("conditions"):
        if row["use"] not in ("any", use):
            continue
        down = unit((float(row["forward"]), float(row["left"]), -1.0))
        found[row["name"]] = Condition(
            row["name"], down, row["held"] == "yes", Grade(row["grade"]), row["what"]
        )
    return found


def shown(condition: Condition) -> str:
    """Say the down of a condition as it could be typed.

    Parameters
    ----------
    condition : Condition
        The condition; one that a use brings leans along or across the car, not both.

    Returns
    -------
    str
        To the degree.

    Examples
    --------
    >>> [shown(each) for each in of_use("circuit").values()][3:5]
    ['down, 31° rearward', 'down, 50° forward']
    """
    x, y, z = condition.down
    tilt = round(degrees(atan2(hypot(x, y), -z)))
    if not tilt:
        return "down"
    if abs(x) > abs(y):
        return f"down, {tilt}° {'rearward' if x > 0 else 'forward'}"
    return f"down, {tilt}° {'right' if y > 0 else 'left'}"


def conditions(car: Car) -> tuple[Condition, ...]:
    """Return the conditions in which a car must keep its fluids where they belong.

    Parameters
    ----------
    car : Car
        The car document as read.

    Returns
    -------
    tuple of Condition
        Level, parked on a slope, launch, braking, left and right as its use brings them; what
        the document types takes the place of the one of that name, the rest comes after.

    Notes
    -----
    Down is gravity less the car's acceleration: a car that speeds up leaves its fluids behind.

    Examples
    --------
    A drag start at 1.5 g throws what is free to the rear.

    >>> launch = next(c for c in conditions(Car("x", use="drag")) if c.name == "launch")
    >>> [round(part, 3) for part in launch.down]
    [0.832, 0.0, -0.555]
    """
    return tuple((of_use(car.use) | dict(car.conditions)).values())
