# SPDX-License-Identifier: Apache-2.0
"""Quantities within sentences, for a builder whose tape has inches and whose gauges read psi.

What is told is written in millimetres, bar and °C wherever it is found out; it is said in the
car's own units in one place, when all of it is known. What stands in quotes is to be typed as it
is, and sizes by which parts are bought stay as they are sold.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from math import ceil, log10

from linewright.base.dimensions import (
    BAR,
    FOOT,
    GALLON_US,
    HORSEPOWER,
    HOUR,
    INCH,
    LITRE,
    MINUTE,
    POUND,
    POUND_FORCE,
    PSI,
    RANKINE,
    ZERO_CELSIUS,
)


@dataclass(frozen=True, slots=True)
class _Unit:
    """One metric unit in SI, and the unit of an inch car that stands in its place."""

    size: float
    other: float
    name: str
    nought: float = 0.0
    other_nought: float = 0.0

    def __call__(self, number: float) -> float:
        return (number * self.size + self.nought - self.other_nought) / self.other


_FAHRENHEIT = ZERO_CELSIUS - 32 * RANKINE
_UNITS = {
    "mm": _Unit(1e-3, INCH, "in"),
    "mm²": _Unit(1e-6, INCH**2, "in²"),
    "cm²": _Unit(1e-4, INCH**2, "in²"),
    "m": _Unit(1.0, FOOT, "ft"),
    "m/s": _Unit(1.0, FOOT, "ft/s"),
    "km/h": _Unit(1e3 / HOUR, 5280 * FOOT / HOUR, "mph"),
    "bar": _Unit(BAR, PSI, "psi"),
    "mbar": _Unit(BAR * 1e-3, PSI, "psi"),
    "kPa": _Unit(1e3, PSI, "psi"),
    "MPa": _Unit(1e6, PSI, "psi"),
    "°C": _Unit(1.0, RANKINE, "°F", ZERO_CELSIUS, _FAHRENHEIT),
    "K": _Unit(1.0, RANKINE, "°F"),
    "L": _Unit(LITRE, GALLON_US, "US gal"),
    "L/min": _Unit(LITRE / MINUTE, GALLON_US / MINUTE, "gpm"),
    "L/h": _Unit(LITRE / HOUR, GALLON_US / HOUR, "gph"),
    "kg": _Unit(1.0, POUND, "lb"),
    "kg/min": _Unit(1.0, POUND, "lb/min"),
    "g": _Unit(1e-3, POUND / 16.0, "oz"),
    "N": _Unit(1.0, POUND_FORCE, "lbf"),
    "N m": _Unit(1.0, 12 * INCH * POUND_FORCE, "lb-ft"),
    "kW": _Unit(1e3, HORSEPOWER, "hp"),
}

#: What stands in quotes is to be typed as it is.
_QUOTED = re.compile(r"(`[^`]*`|\"[^\"]*\")")
_NUMBER = r"-?\d[\d,]*(?:\.\d+)?"
_NAMES = "|".join(re.escape(name) for name in sorted(_UNITS, key=len, reverse=True))

#: Sizes by which parts are bought: they stay as they are sold.
_SOLD = (
    r"(?! (?:bead|beads|barb|barbs|hose|hoses|V-band|bore|flange|dia|spigot|spigots|neck|necks|"
    r"silicone|coupler|couplers|reducer|elbow|joiner|jet|restrictor|across flats)\b)"
)
_POINT = re.compile(rf"\(({_NUMBER}), ({_NUMBER}), ({_NUMBER})\) mm\b")
#: A quantity, or several of one unit, as in "1.5 to 2.5 mm" and "7.1 or 7.3 mm".
_SEVERAL = re.compile(
    rf"(?<![\w.,/°-])({_NUMBER})((?: (?:to|or|x|by) {_NUMBER})*) ?({_NAMES})(?![\w/²³])"
)
_EACH = re.compile(_NUMBER)

#: A quantity alone, as an inch car prints it.
_PRINTED = re.compile(
    r"(?P<sign>-?)(?:(?P<whole>\d[\d,]*) )?(?:(?P<top>\d+)/(?P<under>\d+)|"
    r"(?P<number>\d[\d,]*(?:\.(?P<places>\d+))?)) (?P<unit>\S.*)"
)


def tape(metres: float, steps: int = 16) -> str:
    """Show a length as a tape in inches does, without the unit.

    Parameters
    ----------
    metres : float
        The length. [m]
    steps : int
        Into how many parts an inch is divided.

    Returns
    -------
    str
        Inches and a fraction.

    Examples
    --------
    >>> tape(0.9779), tape(-0.0127), tape(0.0)
    ('38 1/2', '-1/2', '0')
    """
    whole, part = divmod(round(abs(metres) / INCH * steps), steps)
    sign = "-" if metres < 0 and (whole or part) else ""
    while part and part % 2 == 0:
        part, steps = part // 2, steps // 2
    if not part:
        return f"{sign}{whole}"
    return f"{sign}{f'{whole} ' if whole else ''}{part}/{steps}"


def told(text: str, show: str) -> str:
    """Say the quantities of a sentence in the units of a car.

    Parameters
    ----------
    text : str
        As in "W01 is unheld for 955 mm, from (1224, 478, 631) mm on.".
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    str
        The same for ``metric``; else lengths to a sixteenth of an inch, or in thousandths where
        the millimetres had decimals, and the rest as finely as it was.

    Examples
    --------
    >>> told("unheld for 254 mm, from (25.4, -127, 0) mm; take 38 mm hose, `at = 5 mm`", "inch")
    'unheld for 10 in, from (1, -5, 0) in; take 38 mm hose, `at = 5 mm`'
    >>> told("0.62 bar absolute at 110 °C through 8.1 or 8.3 mm", "inch")
    '9.0 psi absolute at 230 °F through 0.319 or 0.327 in'
    """
    if show != "inch" or not text:
        return text
    return "".join(
        part if number % 2 else _converted(part) for number, part in enumerate(_QUOTED.split(text))
    )


def half_place(value: str, show: str) -> float:
    """Half of the last place in which a quantity is printed for a car.

    Parameters
    ----------
    value : str
        As it is found out, as in "955 mm".
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    float
        Nothing where it is no quantity that the units of the car print otherwise. [SI]

    Examples
    --------
    >>> half_place("955 mm", "inch") == 0.0254 / 32, half_place("955 mm", "metric")
    (True, 0.0)
    """
    said = told(value, show)
    met = _PRINTED.fullmatch(said) if said != value else None
    if met is None:
        return 0.0
    name = met["unit"].removesuffix(" absolute")
    units = [unit for unit in _UNITS.values() if unit.name == name]
    if not units:
        return 0.0
    if name == "in" and met["places"] is None:
        return INCH / 32.0
    return float(0.5 * units[0].other / 10 ** len(met["places"] or ""))


def _converted(text: str) -> str:
    def point(met: re.Match[str]) -> str:
        return f"({', '.join(tape(_value(number) / 1e3) for number in met.groups())}) in"

    def several(met: re.Match[str]) -> str:
        numbers, name = met[1] + met[2], met[3]
        is_whole = "." not in numbers
        if name == "mm" and is_whole and re.match(_SOLD, met.string[met.end() :]) is None:
            return met[0]
        unit = _UNITS[name]
        say = _said(unit, name, numbers)
        return f"{_EACH.sub(lambda each: say(_value(each[0])), numbers)} {unit.name}"

    return _SEVERAL.sub(several, _POINT.sub(point, text))


def _said(unit: _Unit, name: str, numbers: str) -> Callable[[float], str]:
    """How numbers of a unit are printed, no more coarsely than they were."""
    every = [each[0] for each in _EACH.finditer(numbers)]
    # A sixteenth is no measure of what is less than an eighth, nor of tenths of a millimetre.
    if name == "mm" and "." not in numbers and min(abs(_value(e)) for e in every) >= 3.0:
        return lambda number: tape(number / 1e3)
    places = max(len(each.partition(".")[2]) for each in every)
    step = 10.0**-places * unit.size / unit.other
    fine = max(0, ceil(-log10(step) - 0.3))

    def shown(number: float) -> str:
        text = f"{unit(number):.{fine}f}"
        return "0" if not text.strip("-0.,") else text

    return shown


def _value(number: str) -> float:
    return float(number.replace(",", ""))
