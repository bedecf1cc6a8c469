# SPDX-License-Identifier: Apache-2.0
"""Which way is down, and what that does to a course: falls, heads, and when a drain stops.

A fluid in a car feels gravity less the car's acceleration (`car.conditions`). Falls and rises
are reckoned over the plane square to that, which is "level" for the fluid.
"""

from dataclasses import dataclass
from math import sin

from linewright.base.vectors import Vector, dot, unit
from linewright.car.conditions import conditions
from linewright.car.model import Car, Condition
from linewright.proofs.course import Slope, least
from linewright.space.path import Path

#: Where the car stands on level ground.
LEVEL = Condition("level", (0.0, 0.0, -1.0), is_held=True)

#: Accelerations by which a drain may be stopped, as people say them.
WAYS: dict[str, Vector] = {
    "speeding up": (-1.0, 0.0, 0.0),
    "braking": (1.0, 0.0, 0.0),
    "a left turn": (0.0, -1.0, 0.0),
    "a right turn": (0.0, 1.0, 0.0),
}

#: A piece that falls less is level: a thousandth of a second of arc. [rad]
_LEVEL = 1e-8

#: More than any car pulls, as a multiple of gravity. [-]
_MOST = 10.0


@dataclass(frozen=True, slots=True)
class Proof:
    """A course held against one condition: the place that goes least the way it should."""

    condition: Condition
    slope: Slope

    def holds(self, rise: float) -> bool:
        """Tell whether all of the course goes at least so far over level. [rad]"""
        return self.slope.rise >= rise - 1e-9


def downs(car: Car) -> tuple[Condition, ...]:
    """Conditions in which a course is proved, level ground first.

    Parameters
    ----------
    car : Car
        The car document as read.

    Returns
    -------
    tuple of Condition
        As the use of the car brings them and as typed.
    """
    return tuple(sorted(conditions(car), key=lambda each: each.name != LEVEL.name))


def accelerating(way: Vector, share: float) -> Vector:
    """Down in a car that accelerates on level ground.

    Parameters
    ----------
    way : Vector
        Where to; any length.
    share : float
        How much, as a multiple of gravity. [-]

    Returns
    -------
    Vector
        Unit: a fluid is left behind.

    Examples
    --------
    >>> [round(part, 3) for part in accelerating((-1.0, 0.0, 0.0), 1.0)]
    [0.707, 0.0, -0.707]
    """
    x, y, z = unit(way)
    return unit((-share * x, -share * y, -share * z - 1.0))


def prove(path: Path, conditions: tuple[Condition, ...], falls: bool) -> tuple[Proof, ...]:
    """Hold a course against every condition.

    Parameters
    ----------
    path : Path
        A course, followed from its start.
    conditions : tuple of Condition
        The conditions.
    falls : bool
        Whether it should fall; else it should rise.

    Returns
    -------
    tuple of Proof
        One for each, in their order.
    """
    sign = 1.0 if falls else -1.0
    return tuple(
        Proof(each, least(path, (sign * each.down[0], sign * each.down[1], sign * each.down[2])))
        for each in conditions
    )


def stops_at(path: Path, way: Vector) -> float | None:
    """Acceleration at which a draining course has a place that no longer falls.

    Parameters
    ----------
    path : Path
        The course, from where it drains.
    way : Vector
        Where the car accelerates to, on level ground; any length.

    Returns
    -------
    float or None
        As a multiple of gravity; 0 if it does not fall at rest; None if no car stops it. [-]

    Examples
    --------
    A drain that falls 30° forward, in a car that speeds up, stops at tan 30°.

    >>> drain = Path(((0.0, 0.0, 0.0), (-0.8660254, 0.0, -0.5)), ())
    >>> round(stops_at(drain, (-1.0, 0.0, 0.0)), 3)
    0.577
    """
    # The fall of each place, not yet made a unit, is a straight function of the acceleration,
    # so the least of them crosses zero once at most.
    low, high = 0.0, _MOST
    if least(path, accelerating(way, low)).rise <= _LEVEL:
        return 0.0
    if least(path, accelerating(way, high)).rise > _LEVEL:
        return None
    while high - low > 1e-9:
        middle = (low + high) / 2.0
        if least(path, accelerating(way, middle)).rise > 0.0:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0


def up(condition: Condition) -> Vector:
    """Up in a condition.

    Parameters
    ----------
    condition : Condition
        Which way is down.

    Returns
    -------
    Vector
        Against it, unit.
    """
    x, y, z = condition.down
    return (-x, -y, -z)


#: Conditions whose names are no words for what the car does.
_TURNS = {"left": "a left turn", "right": "a right turn"}


def spoken(name: str) -> str:
    """Name a condition within a sentence.

    Parameters
    ----------
    name : str
        Its name.

    Returns
    -------
    str
        To stand behind "in".

    Examples
    --------
    >>> spoken("left"), spoken("braking")
    ('a left turn', 'braking')
    """
    return _TURNS.get(name, name)


def also_in(names: list[str]) -> str:
    """Say in which other conditions a thing holds too.

    Parameters
    ----------
    names : list of str
        Those conditions.

    Returns
    -------
    str
        A sentence after a blank, or "" for none.

    Examples
    --------
    >>> also_in(["launch", "left"])
    ' So too in: launch, a left turn.'
    """
    return f" So too in: {', '.join(map(spoken, names))}." if names else ""


def weight(down: Vector) -> float:
    """How much heavier a fluid is while down leans, the car being on level ground.

    Parameters
    ----------
    down : Vector
        Down, unit.

    Returns
    -------
    float
        1 at rest; what a leaning down is made of, gravity and acceleration together. [-]
    """
    return 1.0 / max(abs(down[2]), sin(0.01))


def head(above: Vector, below: Vector, condition: Condition) -> float:
    """Static head that a place has over another.

    Parameters
    ----------
    above, below : Vector
        The places: of the outlet of a tank and the inlet of its pump. [m]
    condition : Condition
        Which way is down. One that is held is a slope, where nothing gets heavier.

    Returns
    -------
    float
        Of the fluid itself under plain gravity; negative where the pump has to lift it. [m]

    Examples
    --------
    A tank 3 m behind its pump and level with it, in a start with 0.5 g:

    >>> start = Condition("launch", accelerating((-1.0, 0.0, 0.0), 0.5))
    >>> round(head((3.0, 0.0, 0.0), (0.0, 0.0, 0.0), start), 6)
    -1.5
    """
    far = (below[0] - above[0], below[1] - above[1], below[2] - above[2])
    return dot(far, condition.down) * (1.0 if condition.is_held else weight(condition.down))
