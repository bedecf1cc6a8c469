# SPDX-License-Identifier: Apache-2.0
"""How this package says what it found along a route: code, place, numbers, way out."""

from linewright.base.codes import RULES
from linewright.base.evidence import Grade
from linewright.base.finding import Finding, Severity
from linewright.base.vectors import Vector


def found(
    code: str,
    about: tuple[str, ...],
    reason: str,
    remedy: str,
    *,
    system: str | None = None,
    value: str | None = None,
    limit: str | None = None,
    measure: float | None = None,
    severity: Severity | None = None,
    source: str = "common practice",
    grade: Grade = Grade.PRACTICE,
    printed: float | None = None,
    is_less_worse: bool = False,
) -> Finding:
    """Make a finding with the usual weight of its code.

    Parameters
    ----------
    code : str
        One of `base.codes.RULES`.
    about : tuple of str
        The ids it is about.
    reason : str
        What is wrong, with the numbers.
    remedy : str
        The way out.
    system : str or None
        The system it belongs to.
    value, limit : str or None
        For reading.
    measure : float or None
        What an overrule is held against: higher is worse. [-]
    severity : Severity or None
        None for the usual weight of the code.
    source : str
        Where the rule is from.
    grade : Grade
        How far to trust it.
    printed : float or None
        The number of ``value`` where it is not the measure. [SI]
    is_less_worse : bool
        Whether less of what is printed is worse.

    Returns
    -------
    Finding
        Not overruled.
    """
    return Finding(
        code=code,
        severity=RULES[code] if severity is None else severity,
        about=about,
        reason=reason,
        remedy=remedy,
        value=value,
        limit=limit,
        source=source,
        grade=grade,
        system=system,
        measure=measure,
        printed=printed,
        is_less_worse=is_less_worse,
    )


def mm(length: float) -> str:
    """Say a length in whole millimetres.

    Parameters
    ----------
    length : float
        The length. [m]

    Returns
    -------
    str
        With its unit.

    Examples
    --------
    >>> mm(0.0305)
    '30 mm'
    """
    return f"{_whole(length)} mm"


def at(point: Vector) -> str:
    """Say where a point of the car is.

    Parameters
    ----------
    point : Vector
        The point. [m]

    Returns
    -------
    str
        Rearward, right and up from the datum, to the millimetre.

    Examples
    --------
    >>> at((1.2, -0.4101, -0.0001))
    '(1200, -410, 0) mm'
    """
    return f"({', '.join(str(_whole(part)) for part in point)}) mm"


def _whole(length: float) -> int:
    return round(length * 1000.0)
