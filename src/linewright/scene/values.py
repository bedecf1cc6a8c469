# SPDX-License-Identifier: Apache-2.0
"""Computed values with their bands in the builder's units, no finer than the band deserves."""

import math
from dataclasses import dataclass

from linewright.base.dimensions import (
    ATMOSPHERE,
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
from linewright.base.evidence import Figure
from linewright.base.shown import figures
from linewright.car.model import Car, Condition
from linewright.car.running import running_in, usual
from linewright.flow.boiling import atmosphere
from linewright.flow.model import Band

#: Ways in which a pressure is told.
ABSOLUTE, GAUGE, DIFFERENCE = "absolute", "gauge", "difference"


#: Most decimal places of a unit: what lies below is nothing to a builder.
_FINEST = {"bar": 3, "psi": 2, "°C": 0, "°F": 0, "K": 1, "L/min": 2, "gpm": 2, "m/s": 2, "L": 3}


@dataclass(frozen=True, slots=True)
class Scale:
    """How a value in SI is shown: (value - nought) / step, and the unit behind it.

    ``finest`` is the most decimal places, which is that of its unit where it is left out.
    """

    step: float
    unit: str
    nought: float = 0.0
    finest: int | None = None

    @property
    def most_places(self) -> int:
        """Most decimal places. [-]"""
        if self.finest is not None:
            return self.finest
        return _FINEST.get(self.unit.removesuffix(" absolute"), 4)

    @property
    def bare(self) -> "Scale":
        """The same without the unit, where that has been said."""
        return Scale(self.step, "", self.nought, self.most_places)

    def __call__(self, value: float) -> float:
        """Return the number that is shown."""
        return (value - self.nought) / self.step


_METRIC = {
    "m": Scale(1e-3, "mm"),
    "m3/s": Scale(LITRE / MINUTE, "L/min"),
    "m/s": Scale(1.0, "m/s"),
    "K": Scale(1.0, "°C", ZERO_CELSIUS),
    "K diff": Scale(1.0, "K"),
    "W": Scale(1e3, "kW"),
    "m3": Scale(LITRE, "L"),
    "kg": Scale(1.0, "kg"),
    "kg/s": Scale(1.0 / MINUTE, "kg/min"),
    "s": Scale(1.0, "s"),
    "N": Scale(1.0, "N"),
    "rad/s": Scale(math.tau / MINUTE, "rpm"),
    "1/s": Scale(1.0 / MINUTE, "rpm"),
    "kg/J": Scale(1e-6 / HOUR, "g/kWh"),
    "m3/J": Scale(LITRE / MINUTE / 1e3, "L/min per kW"),
    "m2": Scale(1.0, "m²"),
    "1/Pa": Scale(0.01 / BAR, "%/bar"),
    "-": Scale(1.0, ""),
}
_INCH = {
    "m": Scale(INCH, "in"),
    "m3/s": Scale(GALLON_US / MINUTE, "gpm"),
    "m/s": Scale(FOOT, "ft/s"),
    "K": Scale(RANKINE, "°F", ZERO_CELSIUS - 32 * RANKINE),
    "K diff": Scale(RANKINE, "°F"),
    "W": Scale(HORSEPOWER, "hp"),
    "m3": Scale(GALLON_US, "US gal"),
    "kg": Scale(POUND, "lb"),
    "kg/s": Scale(POUND / MINUTE, "lb/min"),
    "s": Scale(1.0, "s"),
    "N": Scale(POUND_FORCE, "lbf"),
    "rad/s": Scale(math.tau / MINUTE, "rpm"),
    "1/s": Scale(1.0 / MINUTE, "rpm"),
    "kg/J": Scale(1e-6 / HOUR, "g/kWh"),
    "m3/J": Scale(GALLON_US / MINUTE / HORSEPOWER, "gpm per hp"),
    "m2": Scale(FOOT * FOOT, "sq ft"),
    "1/Pa": Scale(0.01 / BAR, "%/bar"),
    "-": Scale(1.0, ""),
}


def ambient(car: Car, condition: str) -> float:
    """Pressure of the air about the car in a condition.

    Parameters
    ----------
    car : Car
        The car, for what it says of the condition.
    condition : str
        Its name.

    Returns
    -------
    float
        The standard atmosphere at its altitude. [Pa]
    """
    known = car.conditions.get(condition) or Condition(condition, (0.0, 0.0, -1.0))
    altitude = running_in(known).figures.get("altitude")
    return ATMOSPHERE if altitude is None else atmosphere(altitude.value)


def condition_words(name: str) -> str:
    """Say the name of a condition as people do.

    Parameters
    ----------
    name : str
        Its name, as "full-power".

    Returns
    -------
    str
        In words: those of the usual conditions without hyphens, others as typed.

    Examples
    --------
    >>> condition_words("hot-idle"), condition_words("Stage-3")
    ('hot idle', 'Stage-3')
    """
    return name.replace("-", " ") if name in usual() else name


def condition_at(name: str) -> str:
    """Say in which condition, with the word that goes with it.

    Parameters
    ----------
    name : str
        Name of the condition.

    Returns
    -------
    str
        As "at full power", "in soak" or "in a session".
    """
    words = condition_words(name)
    if name in ("full-power", "hot-idle", "prime"):
        return f"at {words}"
    return f"in a {words}" if name in ("pull", "hill-climb", "session") else f"in {words}"


def scale(
    unit: str, show: str = "metric", told: str = DIFFERENCE, air: float = ATMOSPHERE
) -> Scale:
    """Return how values of a unit are shown.

    Parameters
    ----------
    unit : str
        Unit in SI: "Pa", "m3/s", "K", "K diff" for a difference, ...
    show : str
        ``metric`` or ``inch``.
    told : str
        Of a pressure: ``absolute``, ``gauge`` or ``difference``.
    air : float
        Pressure of the air, which gauges read from. [Pa]

    Returns
    -------
    Scale
        The scale; of a unit that is not known here, as it is.

    Examples
    --------
    >>> scale("Pa", "inch", "gauge")(101325.0 + 6894.757293168)
    1.0
    """
    if unit == "Pa diff":
        unit, told = "Pa", DIFFERENCE
    if unit == "Pa":
        step, name = (PSI, "psi") if show == "inch" else (BAR, "bar")
        if told == ABSOLUTE:
            return Scale(step, f"{name} absolute")
        return Scale(step, name, air if told == GAUGE else 0.0)
    return (_INCH if show == "inch" else _METRIC).get(unit, Scale(1.0, unit))


def _places(band: Band, by: Scale, digits: int) -> int:
    """Decimal places that a shown band deserves, no more than `digits` figures of its value."""
    return min(_deserved(band, digits), by.most_places)


def _deserved(band: Band, digits: int) -> int:
    most = max(abs(band.value), abs(band.low), abs(band.high))
    if most == 0:
        return 0
    whole = digits - 1 - math.floor(math.log10(most))
    half = (band.high - band.low) / 2
    if half <= 0:
        return whole
    place = -math.floor(math.log10(half) + 1e-9)
    # A half-width of 1 to 2 in its first figure would be told too roughly by that figure alone.
    return min(whole, place + int(half < 1.995 * 10.0**-place))


def _rounded(value: float, places: int) -> str:
    if places <= 0:
        value = round(value, places)
    text = f"{value:,.{max(places, 0)}f}"
    return text.replace("-", "", 1) if not text.strip("-0.,") else text


def number(band: Band, by: Scale, digits: int = 3) -> str:
    """Show the value of a band alone, no finer than the band deserves.

    Parameters
    ----------
    band : Band
        The value in SI.
    by : Scale
        How it is shown.
    digits : int
        Most significant figures.

    Returns
    -------
    str
        The number without its unit.

    Examples
    --------
    >>> number(Band(62_000, 50_000, 74_000), scale("Pa"))
    '0.62'
    """
    shown = Band(by(band.value), by(band.low), by(band.high))
    return "0" if is_nothing(band, by) else _rounded(shown.value, _places(shown, by, digits))


def is_nothing(band: Band, by: Scale) -> bool:
    """Whether a value that is not nought lies below all that its unit is shown to.

    Parameters
    ----------
    band : Band
        The value in SI.
    by : Scale
        How it is shown.

    Returns
    -------
    bool
        True where every place would be a nought.
    """
    most = max(abs(by(v)) for v in (band.value, band.low, band.high))
    return 0.0 < most < 0.5 * 10.0**-by.most_places


def banded(band: Band, by: Scale, digits: int = 3) -> str:
    """Show a value with its band.

    Parameters
    ----------
    band : Band
        The value in SI.
    by : Scale
        How it is shown.
    digits : int
        Most significant figures.

    Returns
    -------
    str
        Number, unit and the band in brackets; without brackets where the band shows no width.

    Examples
    --------
    >>> banded(Band(62_000, 50_000, 74_000), scale("Pa", told="absolute"))
    '0.62 bar absolute (0.50 to 0.74)'
    >>> banded(Band(363.15, 363.15, 363.15), scale("K"))
    '90 °C'
    """
    shown = Band(by(band.value), by(band.low), by(band.high))
    if band.low == band.high and not is_nothing(band, by):
        text = figures(round(shown.value, min(9, by.most_places)), digits)
        return f"{text} {by.unit}".rstrip()
    places = _places(shown, by, digits)
    if is_nothing(band, by):
        return f"under {10.0**-places:g} {by.unit}".rstrip()
    value, low, high = (_rounded(v, places) for v in (shown.value, shown.low, shown.high))
    text = f"{value} {by.unit}".rstrip()
    return text if low == high else f"{text} ({low} to {high})"


def like(value: float, band: Band, by: Scale) -> str:
    """Show another value as finely as a band's own, without unit.

    Parameters
    ----------
    value : float
        The value, in the SI unit that the scale is of. [SI]
    band : Band
        What it is held against.
    by : Scale
        How both are shown.

    Returns
    -------
    str
        The number.

    Examples
    --------
    >>> like(90_000, Band(62_000, 50_000, 74_000), scale("Pa"))
    '0.90'
    """
    shown = Band(by(band.value), by(band.low), by(band.high))
    return _rounded(by(value), _places(shown, by, 3))


def plain(value: float, by: Scale, digits: int = 3) -> str:
    """Show a value that has no band.

    Parameters
    ----------
    value : float
        The value, in the SI unit that the scale is of. [SI]
    by : Scale
        How it is shown.
    digits : int
        Most significant figures.

    Returns
    -------
    str
        Number and unit.

    Examples
    --------
    >>> plain(2.684, scale("m/s")), plain(85_000, scale("Pa"))
    ('2.68 m/s', '0.85 bar')
    """
    return f"{figures(round(by(value), min(9, by.most_places)), digits)} {by.unit}".rstrip()


#: No fluid of a car is colder than this: a lower figure in K is a difference. [K]
_COLDEST = 200.0


def given(figure: Figure, show: str = "metric") -> str:
    """Show a figure that goes in, with its spread, as it was given.

    Parameters
    ----------
    figure : Figure
        The figure; a pressure in it is a difference.
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    str
        Number, unit and, where it is known, the spread in brackets.

    Examples
    --------
    >>> from linewright.base.evidence import Grade
    >>> given(Figure(13.75e-4, "m3/s", Grade.PRACTICE, "", 8.3e-4, 22e-4))
    '82.5 L/min (49.8 to 132)'
    """
    is_apart = figure.unit == "K" and figure.value < _COLDEST
    by = scale("K diff" if is_apart else figure.unit, show)
    text = plain(figure.value, by)
    if figure.low is None or figure.high is None or figure.low == figure.high:
        return text
    low, high = (figures(round(by(v), 9)) for v in (figure.low, figure.high))
    return f"{text} ({low} to {high})"


def volume_flow(mass: Band, density: float | None, show: str = "metric") -> tuple[Band, Scale]:
    """Turn a mass flow into what a builder reads.

    Parameters
    ----------
    mass : Band
        The flow. [kg/s]
    density : float or None
        Of what flows, where it is known. [kg/m3]
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    Band
        Volume flow [m3/s], or the mass flow where the density is not known [kg/s].
    Scale
        How it is shown.
    """
    if not density:
        return mass, scale("kg/s", show)
    low, high = sorted((mass.low / density, mass.high / density))
    return Band(mass.value / density, low, high), scale("m3/s", show)
