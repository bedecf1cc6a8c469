# SPDX-License-Identifier: Apache-2.0
"""Words of the car document that are more than one quantity: sizes, ends of lines, overrules."""

import re

from linewright.base.errors import UnitError
from linewright.base.places import direction, point
from linewright.base.quantity import refuse_decimal_comma, said
from linewright.base.units import READERS, length
from linewright.car.model import AUTO

#: Dash sizes of the trade.
DASHES = (2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 20, 24, 28, 32)
ANGLES = (0, 30, 45, 60, 90, 120, 150, 180)
_DASH = re.compile(r"(?:AN\s*)?-\s?(\d{1,2})(?:\s*AN)?\Z|AN\s*(\d{1,2})\Z", re.IGNORECASE)

__all__ = [
    "ANGLES",
    "DASHES",
    "accepted",
    "dash",
    "direction",
    "line_size",
    "open_size",
    "point",
]


def dash(text: str) -> str:
    """Read a dash size.

    Parameters
    ----------
    text : str
        As in "-10", "-10 AN".

    Returns
    -------
    str
        The minus and the number.

    Raises
    ------
    UnitError
        If it is none, or the trade has no such dash.

    Examples
    --------
    >>> dash("-10 AN")
    '-10'
    """
    met = _DASH.match(text.strip())
    sizes = ", ".join(f"-{d}" for d in DASHES)
    if met is None:
        raise UnitError(f'{said(text)} is no dash size; allowed: {sizes}; write for example "-10".')
    number = int(met[1] or met[2])
    if number not in DASHES:
        raise UnitError(f"{said(text)} is no dash size of the trade; allowed: {sizes}.")
    return f"-{number}"


def line_size(text: str) -> str:
    """Read the size of a line: a dash, or the bore of clamped hose or pipe.

    Parameters
    ----------
    text : str
        As in "-10", "38 mm", "1-1/2 in".

    Returns
    -------
    str
        The dash, or the bore in millimetres as a plain number.

    Raises
    ------
    UnitError
        If it is neither, or no hose is so small or large.

    Examples
    --------
    >>> line_size("-10"), line_size("38 mm"), line_size("1-1/2 in"), line_size("63.5 mm")
    ('-10', '38', '38', '63.5')
    """
    refuse_decimal_comma(text)
    if _DASH.match(text.strip()):
        return dash(text)
    if re.fullmatch(r"-?\s*[\d.]+", text.strip(), re.ASCII):
        raise UnitError(
            f'{said(text)} is no size of a line; write a dash, as in "-10", or the bore with its '
            f'unit, as in "38 mm".'
        )
    bore = length(text)
    if not 2e-3 <= bore <= 0.2:
        raise UnitError(f"{said(text)} is no bore of a hose or pipe; allowed: 2 mm to 200 mm.")
    millimetres = bore * 1000
    # The trade sells 1-1/2 in hose as 38 mm and 3 in hose as 76 mm; 63.5 keeps its half.
    whole = round(millimetres)
    size = whole if abs(millimetres - whole) <= 0.25 else round(millimetres, 1)
    return f"{size:g}"


def open_size(text: str) -> str:
    """Read the size of a line, or that it is left to the tool.

    Parameters
    ----------
    text : str
        As for `line_size`, or "auto".

    Returns
    -------
    str
        The size, or ``auto``.

    Examples
    --------
    >>> open_size("auto"), open_size("-8")
    ('auto', '-8')
    """
    return AUTO if text.strip().lower() == AUTO else line_size(text)


#: What the findings print values of.
_ACCEPTED = (
    "number",
    "percent",
    "length",
    "pressure difference",
    "temperature",
    "temperature difference",  # a margin may be less than nothing
    "speed",
    "flow",
    "volume",
    "mass",
    "time",
)


def accepted(text: str) -> float:
    """Read the value that an overrule accepts, in SI.

    Parameters
    ----------
    text : str
        A plain number, a dash, or a quantity with its unit, as in "49 %", "20 mm", "150 °C".

    Returns
    -------
    float
        The value. [SI unit of what was typed]

    Raises
    ------
    UnitError
        If it is no quantity that is known here.
    """
    refuse_decimal_comma(text)
    plain = text.replace("\N{MINUS SIGN}", "-").removesuffix(" absolute")
    for noun in _ACCEPTED:
        try:
            return READERS[noun](plain)
        except UnitError:
            continue
    if "°" in plain or "deg" in plain:
        return READERS["angle"](plain)
    try:
        return float(dash(plain))
    except UnitError:
        pass
    raise UnitError(
        f'{said(text)} is no value; write a number, or a quantity as in "49 %", "20 mm", '
        '"0.3 bar", "150 °C", "12°".'
    )
