# SPDX-License-Identifier: Apache-2.0
"""The strict reader of one quantity as people type it.

A units library is not used at this edge: it reads ``16 ft 3 in`` as 48 foot-inches,
``1200,5 mm`` as 12005 mm and ``27 Nm`` as number-metres without a word. Here a fixed list of
spellings is read and everything else is refused with what is allowed.
"""

import math
import re
from difflib import get_close_matches

from linewright.base.dimensions import FOOT, INCH, LENGTHS, Dimension
from linewright.base.errors import UnitError

_PLAIN = r"(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][+-]?\d+)?"
_FRACTION = r"(?:(?P<whole>\d+)(?:-|\s+))?(?P<top>\d+)\s*/\s*(?P<bottom>\d+)"
_NUMBER = re.compile(rf"(?P<sign>[+\-−]?)\s*(?:{_FRACTION}|(?P<plain>{_PLAIN}))", re.ASCII)
_WORDS = re.compile(r"[+\-−]?\s*(?:inf|infinity|∞|nan)\b|[+\-−]?\s*∞", re.IGNORECASE)
_DECIMAL_COMMA = re.compile(r"(\d+),(\d+)", re.ASCII)
_FEET = re.compile(
    r"(?P<feet>[+\-−]?\s*\d+)\s*(?:ft|'|′)\s*(?P<inches>\d.*?)\s*(?:in|inch|inches|\"|″|'')\Z",
    re.ASCII,
)
_REFUSED = {
    "gal": "a bare gal is either the US one (3.785 L) or the imperial one (4.546 L); "
    'write "US gal" or "imp gal".',
    "oz": 'oz is a mass and two volumes; write "g", "mL" or "L".',
}


def said(text: str) -> str:
    """Quote what was typed, cut short where it is long.

    Parameters
    ----------
    text : str
        What was typed.

    Returns
    -------
    str
        In double quotes, on one line.
    """
    text = " ".join(text.split())
    shown = text if len(text) <= 60 else text[:57] + "..."
    return f'"{shown}"'


def refuse_decimal_comma(text: str) -> None:
    """Refuse a comma between digits without a blank.

    Parameters
    ----------
    text : str
        What was typed.

    Raises
    ------
    UnitError
        With the right spelling.

    Examples
    --------
    >>> refuse_decimal_comma("1200,5 mm")
    Traceback (most recent call last):
    linewright.base.errors.UnitError: "1200,5 mm" has a decimal comma; write "1200.5 mm".
    """
    met = _DECIMAL_COMMA.search(text)
    if met is None:
        return
    point = _DECIMAL_COMMA.sub(r"\1.\2", text)
    if re.fullmatch(r"\d{1,3}", met[1]) and len(met[2]) == 3 and met[1] != "0":
        joined = _DECIMAL_COMMA.sub(r"\1\2", text)
        raise UnitError(
            f"{said(text)} has a comma between digits, which can be read in two ways; "
            f'write "{joined}" or "{point}".'
        )
    raise UnitError(f'{said(text)} has a decimal comma; write "{point}".')


def number_and_unit(text: str, noun: str, example: str) -> tuple[float, str]:
    """Return the number at the start of a text, and what follows it.

    Parameters
    ----------
    text : str
        What was typed.
    noun : str
        What it should be, for the message.
    example : str
        A right spelling, for the message.

    Returns
    -------
    tuple
        The number as typed, and the unit, "" where there is none.

    Raises
    ------
    UnitError
        If it starts with no number, or with one that is not finite.
    """
    refuse_decimal_comma(text)
    stripped = text.strip()
    if not stripped:
        raise UnitError(f'"" is no {noun}; write for example "{example}".')
    if _WORDS.match(stripped):
        raise UnitError(f"{said(text)} is not finite; write a number that can be measured.")
    met = _NUMBER.match(stripped)
    if met is None:
        raise UnitError(f'{said(text)} is no {noun}; write for example "{example}".')
    if met["plain"]:
        value = float(met["plain"])
    else:
        top, bottom, whole = (int(met[k][:30]) if met[k] else 0 for k in ("top", "bottom", "whole"))
        if bottom == 0:
            raise UnitError(f'{said(text)} divides by nothing; write for example "1-1/4 in".')
        if whole and top >= bottom:
            raise UnitError(
                f"{said(text)} is no proper fraction: {top}/{bottom} is one or more; "
                f'write for example "1-1/4 in".'
            )
        value = whole + top / bottom
    if not math.isfinite(value):
        raise UnitError(f"{said(text)} is not finite; write a number that can be measured.")
    return (-value if met["sign"] in ("-", "−") else value), stripped[met.end() :].strip()


def unit_refused(text: str, unit: str, dimension: Dimension) -> UnitError:
    """Say why a unit is refused, and which one may be meant.

    Parameters
    ----------
    text : str
        What was typed.
    unit : str
        The part of it behind the number.
    dimension : Dimension
        What it should be.

    Returns
    -------
    UnitError
        To be raised.
    """
    last = re.split(r"[\s/]", unit)[0]
    if last in _REFUSED:
        return UnitError(f"{said(text)}: {_REFUSED[last]}")
    if not unit:
        return UnitError(
            f"{said(text)} has no unit; allowed: {dimension.allowed}. "
            f'Write for example "{dimension.example}".'
        )
    by_case = [known for known in dimension.units if known.casefold() == unit.casefold()]
    near = by_case or get_close_matches(unit, [u for u in dimension.units if u], 1, 0.6)
    meant = f' Did you mean "{near[0]}"?' if near else ""
    return UnitError(
        f'{said(text)}: "{unit[:30]}" is no unit of {dimension.noun} here; '
        f"allowed: {dimension.allowed}.{meant}"
    )


def within(value: float, text: str, dimension: Dimension) -> float:
    """Return a value unless it is beyond all sense.

    Parameters
    ----------
    value : float
        The value in SI. [SI unit of the dimension]
    text : str
        What was typed, for the message.
    dimension : Dimension
        What it is.

    Returns
    -------
    float
        The same value. [SI unit of the dimension]

    Raises
    ------
    UnitError
        If it is negative where that is nonsense, or absurdly large.
    """
    if value < 0 and not dimension.is_signed:
        raise UnitError(f"{said(text)} is negative; the least {dimension.noun} here is 0.")
    if abs(value) > dimension.most:
        raise UnitError(
            f"{said(text)} is absurdly large; the greatest {dimension.noun} here is "
            f"{dimension.most_shown}."
        )
    return value + 0.0  # no negative nought


def quantity(text: str, dimension: Dimension) -> float:
    """Read one quantity.

    Parameters
    ----------
    text : str
        Number, blank or none, unit.
    dimension : Dimension
        What it has to be.

    Returns
    -------
    float
        The value in SI; a pressure as typed, gauge or absolute. [SI unit of the dimension]

    Raises
    ------
    UnitError
        If it cannot be read, has no unit, or is beyond all sense.

    Examples
    --------
    >>> from linewright.base.dimensions import LENGTH
    >>> quantity("1-1/4 in", LENGTH), quantity("16 ft 3 in", LENGTH)
    (0.03175, 4.953)
    """
    compound = _FEET.match(text.strip()) if dimension.units is LENGTHS else None
    if compound is not None:
        refuse_decimal_comma(text)
        inches, rest = number_and_unit(compound["inches"], dimension.noun, "16 ft 3 in")
        if rest or inches >= 12:
            raise UnitError(
                f"{said(text)} is no length; after the feet come less than 12 inches, as in "
                f'"16 ft 3-1/2 in".'
            )
        feet = compound["feet"].replace("−", "-").replace(" ", "")
        size = abs(float(feet)) * FOOT + inches * INCH
        if not math.isfinite(size):
            raise UnitError(f"{said(text)} is not finite; write a number that can be measured.")
        return within(-size if feet.startswith("-") else size, text, dimension)
    value, unit = number_and_unit(text, dimension.noun, dimension.example)
    factor = dimension.units.get(" ".join(unit.split()))
    if factor is None:
        raise unit_refused(text, unit, dimension)
    # Fifteen figures: 700 mm is 0.7 m, not 0.7000000000000001.
    return within(float(f"{value * factor:.15g}"), text, dimension)
