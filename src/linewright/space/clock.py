# SPDX-License-Identifier: Apache-2.0
"""The clock angle between the two bent ends of one hose.

Lay the hose straight without twist and look along it from end A: near elbow at six o'clock,
count counter-clockwise to the far elbow (the convention of MIL-DTL-83796/5, as
relayed). On a routed hose the near side is first carried along the centreline; on the
chord it would be wrong by tens of degrees.
"""

from math import atan2, degrees

from linewright.base.vectors import Vector, ahead, cross, dot, unit
from linewright.space.path import Path, carry, directions

#: Within this of 0 or 180 a hose and its mirror are one to the hand that sets them. [deg]
_ALIKE = 10


def clock(path: Path, side_a: Vector, side_b: Vector) -> float:
    """Clock angle of a routed hose whose ends are both bent.

    Parameters
    ----------
    path : Path
        Centreline from collar A to collar B.
    side_a : Vector
        The way the end at A bends, square to the hose there.
    side_b : Vector
        The same at B.

    Returns
    -------
    float
        From 0 to under 360, the same whichever end is called A. [deg]

    Raises
    ------
    ValueError
        If a side lies along its hose: a straight end has no side, so the hose no clock.

    Examples
    --------
    A straight hose to the right; the near elbow looks down, the far one forward (-x). Seen
    from A, along the hose, forward is on the left: three quarters counter-clockwise of six.

    >>> hose = Path(((0.0, 0.0, 0.0), (0.0, 1.0, 0.0)), ())
    >>> clock(hose, (0.0, 0.0, -1.0), (-1.0, 0.0, 0.0))
    270.0
    """
    begin, end = directions(path)
    carried = _flat(carry(path, _flat(side_a, begin, "A")), end, "A")
    far = _flat(side_b, end, "B")
    return _turns(degrees(atan2(-dot(end, cross(carried, far)), dot(carried, far))))


def _flat(side: Vector, along: Vector, end: str) -> Vector:
    flat = ahead(side, along, -dot(side, along))
    if dot(flat, flat) < 1e-12:
        raise ValueError(
            f"side {side} of end {end}: lies along the hose {along}; a clock angle needs two "
            "bent ends"
        )
    return unit(flat)


def _turns(angle: float) -> float:
    turned = angle % 360.0
    # A hair below 0 would else be rounded to 360.
    return 0.0 if turned >= 360.0 - 1e-9 else turned


def mirror(clock_deg: float) -> float:
    """Clock angle of the mirror hose: what one gets by counting the wrong way.

    Parameters
    ----------
    clock_deg : float
        A clock angle. [deg]

    Returns
    -------
    float
        360 less it; 0 and 180 are their own mirror. [deg]

    Examples
    --------
    >>> mirror(210.0), mirror(0.0), mirror(180.0)
    (150.0, 0.0, 180.0)
    """
    return _turns(360.0 - clock_deg)


def said(clock_deg: float) -> str:
    """Say a clock angle as the bench needs it, with the value that is wrong.

    Parameters
    ----------
    clock_deg : float
        A clock angle. [deg]

    Returns
    -------
    str
        Rounded to a degree; the mirror is named where it is another hose.

    Examples
    --------
    >>> print(said(210.4))
    210°: near elbow at six o'clock, counter-clockwise, seen from end A (150° is its mirror: wrong)
    >>> said(180.2)
    "180°: near elbow at six o'clock, seen from end A (either way round)"
    """
    shown = round(_turns(clock_deg)) % 360
    # So near to its mirror nobody sets one for the other: the wrong value is not worth a word.
    if min(shown % 180, 180 - shown % 180) <= _ALIKE:
        return f"{shown}°: near elbow at six o'clock, seen from end A (either way round)"
    return (
        f"{shown}°: near elbow at six o'clock, counter-clockwise, seen from end A "
        f"({360 - shown}° is its mirror: wrong)"
    )


def far_elbow(clock_deg: float) -> str:
    """Where the far elbow stands on a clock face, with the near one at six.

    Parameters
    ----------
    clock_deg : float
        A clock angle. [deg]

    Returns
    -------
    str
        To half an hour, which is 15°: finer is the number's job.

    Examples
    --------
    Counter-clockwise from six comes five, then three:

    >>> far_elbow(30.0), far_elbow(90.0), far_elbow(180.0), far_elbow(255.0)
    ('5:00', '3:00', '12:00', '9:30')
    """
    halves = round((6.0 - clock_deg / 30.0) * 2.0) % 24
    return f"{halves // 2 or 12}:{'30' if halves % 2 else '00'}"
