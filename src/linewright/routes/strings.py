# SPDX-License-Identifier: Apache-2.0
"""Strings that cannot be true: shorter than the straight distance, or copied."""

from math import ceil

from linewright.base.codes import RULES
from linewright.base.evidence import Figure, Grade
from linewright.base.finding import Finding, Severity
from linewright.base.ids import natural_key
from linewright.car.model import Car, Line
from linewright.joints.offered import setting
from linewright.routes.tiers import Length

#: From so many equal strings in one system on they look copied. [-]
_COPIES = 3


def short(car: Car, line: Line, whole: Length, *, needs_length: bool = True) -> Finding | None:
    """A typed length that is shorter than the ports are apart, or that is missing.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        The line.
    whole : Length
        Its length by the best tier.
    needs_length : bool
        False where one moulded shape is the whole line and no hose is reckoned.

    Returns
    -------
    Finding or None
        ``string-too-short``: a stop; an ask where a port is only guessed and the gap is
        within what the guess allows. ``length-unknown``: an ask.
    """
    if whole.string is None:
        return _unknown(line) if needs_length else None
    straight = whole.straight
    if line.string is None or straight is None:
        return None
    reach = 0.0
    if line.string_from == "collar":
        reach = 2 * setting(car, "stick-out").value
    gap = straight.value - (whole.string.value + reach)
    if gap <= 0:
        return None
    is_in_doubt = not whole.is_surely_placed and not _is_clear(whole.string, straight, reach)
    typed, apart = _mm(whole.string), _mm(straight)
    doubt = " One of the ports is only guessed, so this may be the guess." if is_in_doubt else ""
    return Finding(
        code="string-too-short",
        severity=Severity.ASK if is_in_doubt else RULES["string-too-short"],
        about=(line.id,),
        reason=(
            f"{line.id}: the string of {typed} is shorter than the straight distance of "
            f"{apart} between {line.from_port} and {line.to_port}.{doubt}"
        ),
        remedy="Lay the string again along the path, or tape both ports again.",
        value=typed,
        limit=apart,
        source="computed-here",
        grade=Grade.DERIVED,
        system=line.system,
        measure=gap,
        printed=whole.string.value,
        is_less_worse=True,
    )


def long(car: Car, line: Line) -> Finding | None:
    """A typed length that no line of a car has: a unit or a digit is wrong.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        The line.

    Returns
    -------
    Finding or None
        ``string-long``, an ask, above the setting.
    """
    limit = setting(car, "string-longest")
    if line.string is None or line.string.value <= limit.value:
        return None
    typed, most = f"{line.string.value:g} m", f"{limit.value:g} m"
    return Finding(
        code="string-long",
        severity=RULES["string-long"],
        about=(line.id,),
        reason=f"{line.id}: a string of {typed} is long for a car; lines stay under {most}.",
        remedy=(
            "Read the tape again, and the unit. Where the line really is that long, set "
            f'string-longest = "{ceil(line.string.value)} m" under [settings].'
        ),
        value=typed,
        limit=most,
        source="common practice",
        grade=limit.grade,
        system=line.system,
        measure=line.string.value,
    )


def copied(car: Car) -> tuple[Finding, ...]:
    """Systems in which every line carries the same string.

    Parameters
    ----------
    car : Car
        The car document as read.

    Returns
    -------
    tuple of Finding
        One ``string-copied`` for each such system with three lines or more.
    """
    strings: dict[str, dict[str, Figure]] = {}
    for line in car.lines.values():
        if line.system is not None and line.string is not None:
            strings.setdefault(line.system, {})[line.id] = line.string
    found = []
    for system, typed in sorted(strings.items()):
        values = {round(figure.value, 6) for figure in typed.values()}
        if len(typed) < _COPIES or len(values) > 1:
            continue
        lines = tuple(sorted(typed, key=natural_key))
        same = _mm(typed[lines[0]])
        found.append(
            Finding(
                code="string-copied",
                severity=RULES["string-copied"],
                about=lines,
                reason=f"All {len(lines)} lines of {system} have the same string of {same}.",
                remedy="Measure each line, or say that they are equal by overruling this.",
                value=same,
                limit="different lines differ",
                source="common practice",
                grade=Grade.PRACTICE,
                system=system,
            )
        )
    return tuple(found)


def _unknown(line: Line) -> Finding:
    return Finding(
        code="length-unknown",
        severity=RULES["length-unknown"],
        about=(line.id,),
        reason=(
            f"{line.id} has no string, and its ports are not both placed: no hose is "
            "reckoned for it and no clips."
        ),
        remedy=f'Lay a string along the path and type it: string = "… mm" at {line.id}.',
        source="common practice",
        grade=Grade.PRACTICE,
        system=line.system,
    )


def _is_clear(string: Figure, straight: Figure, reach: float) -> bool:
    high = string.high if string.high is not None else string.value
    low = straight.low if straight.low is not None else straight.value
    return high + reach < low


def _mm(figure: Figure) -> str:
    return f"{figure.value * 1000:.0f} mm"
