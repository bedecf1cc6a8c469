# SPDX-License-Identifier: Apache-2.0
"""Lengths within sentences, for a builder whose tape has inches."""

import re

from linewright.base.dimensions import INCH
from linewright.sheets.figures import length

#: Lengths below this stay in millimetres. [mm]
_FINEST = 3.0

#: What stands in quotes is to be typed as it is.
_QUOTED = re.compile(r"(`[^`]*`|\"[^\"]*\")")
_NUMBER = r"-?\d[\d,]*(?:\.\d+)?"
_POINT = re.compile(rf"\(({_NUMBER}), ({_NUMBER}), ({_NUMBER})\) mm\b")
#: A length; what names the size of a part stays, for that is how it is bought.
_LENGTH = re.compile(
    rf"(?<![\w.,/-])({_NUMBER}) mm\b(?! (?:bead|barb|hose|V-band|bore|flange|dia|spigot))"
)


def in_inches(text: str) -> str:
    """Say the millimetres of a sentence in inches.

    Parameters
    ----------
    text : str
        As in "W01 is unheld for 955 mm, from (1224, 478, 631) mm on.".

    Returns
    -------
    str
        Lengths and points in inches; sizes of parts, and what stands in quotes, as they are.

    Examples
    --------
    >>> in_inches("unheld for 254 mm, from (25.4, -127, 0) mm; take 38 mm hose, `at = 5 mm`")
    'unheld for 10 in, from (1, -5, 0) in; take 38 mm hose, `at = 5 mm`'
    """
    return "".join(
        part if number % 2 else _converted(part) for number, part in enumerate(_QUOTED.split(text))
    )


def both(value: str) -> str:
    """Say a value in millimetres and in inches: what is accepted of it is held in the first.

    Parameters
    ----------
    value : str
        As a finding prints it.

    Returns
    -------
    str
        The same where it is no length.

    Examples
    --------
    >>> both("254 mm"), both("36%")
    ('254 mm (10 in)', '36%')
    """
    met = _LENGTH.fullmatch(value)
    said = _converted(value)
    return f"{value} ({said})" if met and said != value else value


def _converted(text: str) -> str:
    def point(met: re.Match[str]) -> str:
        return f"({', '.join(_tape(number) for number in met.groups())}) in"

    def one(met: re.Match[str]) -> str:
        # A sixteenth is no measure of what is less than an eighth.
        is_fine = abs(float(met[1].replace(",", ""))) < _FINEST
        return met[0] if is_fine else f"{_tape(met[1])} in"

    return _LENGTH.sub(one, _POINT.sub(point, text))


def _tape(number: str) -> str:
    """Millimetres in inches, as a tape shows them."""
    metres = float(number.replace(",", "")) / 1000.0
    sign = "-" if metres < 0 and round(abs(metres) / INCH * 16) else ""
    return sign + length(abs(metres), "inch").removesuffix(" in")
