# SPDX-License-Identifier: Apache-2.0
"""Quantities as people type them, in SI: one reader for each kind (engine: `base.quantity`)."""

from collections.abc import Callable, Mapping

from linewright.base.dimensions import (
    ABSOLUTE,
    ANGLE,
    ATMOSPHERE,
    DEGREE,
    DIFFERENCE,
    FLOW,
    HEIGHT,
    INCH,
    LENGTH,
    MASS,
    PERCENT,
    POWER,
    PRESSURE,
    SPEED,
    TEMPERATURES,
    TIME,
    TORQUE,
    TURNING,
    VOLTAGE,
    VOLUME,
    Dimension,
)
from linewright.base.errors import UnitError
from linewright.base.quantity import number_and_unit, quantity, said, unit_refused, within

__all__ = [
    "ATMOSPHERE",
    "DEGREE",
    "INCH",
    "READERS",
    "altitude",
    "angle",
    "flow",
    "gauge_pressure",
    "length",
    "mass",
    "number",
    "percent",
    "power",
    "pressure",
    "pressure_difference",
    "speed",
    "temperature",
    "temperature_difference",
    "time",
    "torque",
    "turning",
    "voltage",
    "volume",
]


def length(text: str) -> float:
    """Read a length.

    Parameters
    ----------
    text : str
        As in "700 mm", "1-1/4 in", "16 ft 3 in".

    Returns
    -------
    float
        The length, 0 or more. [m]
    """
    return quantity(text, LENGTH)


def volume(text: str) -> float:
    """Read a volume.

    Parameters
    ----------
    text : str
        As in "12 L", "3 US gal"; a bare gal or oz is refused.

    Returns
    -------
    float
        The volume. [m3]
    """
    return quantity(text, VOLUME)


def flow(text: str) -> float:
    """Read a volume flow.

    Parameters
    ----------
    text : str
        As in "40 L/min", "10 gpm" (US).

    Returns
    -------
    float
        The flow. [m3/s]
    """
    return quantity(text, FLOW)


def gauge_pressure(text: str) -> float:
    """Read a pressure; return it over ambient.

    Parameters
    ----------
    text : str
        Gauge, as in "5 bar", unless it says "bar abs" or "psia".

    Returns
    -------
    float
        The pressure over a standard atmosphere. [Pa]

    Raises
    ------
    UnitError
        If it cannot be read, or lies below a vacuum.
    """
    value = quantity(text, PRESSURE)
    _, unit = number_and_unit(text, "pressure", "5 bar")
    is_absolute = " ".join(unit.split()) in ABSOLUTE
    if value < (0 if is_absolute else -ATMOSPHERE):
        raise UnitError(
            f"{said(text)} is less than a vacuum; the least is -1.013 bar gauge, 0 bar abs."
        )
    return value - ATMOSPHERE if is_absolute else value


def pressure(text: str) -> float:
    """Read a pressure; return it absolute.

    Parameters
    ----------
    text : str
        Gauge, as in "5 bar", unless it says "bar abs" or "psia".

    Returns
    -------
    float
        The absolute pressure. [Pa]

    Examples
    --------
    >>> pressure("5 bar"), pressure("14.7 psia")
    (601325.0, 101352.9)
    """
    return gauge_pressure(text) + ATMOSPHERE


def pressure_difference(text: str) -> float:
    """Read a drop or an opening pressure.

    Parameters
    ----------
    text : str
        As in "0.3 bar"; absolute and gauge mean nothing here and are refused.

    Returns
    -------
    float
        The difference. [Pa]
    """
    return quantity(text, DIFFERENCE)


def temperature(text: str) -> float:
    """Read a temperature.

    Parameters
    ----------
    text : str
        As in "90 °C", "200 °F", "363 K".

    Returns
    -------
    float
        The absolute temperature. [K]

    Raises
    ------
    UnitError
        If it cannot be read, or is beyond all sense.

    Examples
    --------
    >>> temperature("90 °C"), temperature("200 °F")
    (363.15, 366.48)
    """
    allowed = Dimension("temperature", {}, "°C, °F, K", "90 °C", 2000.0, "2,000 K", True)
    value, unit = number_and_unit(text, "temperature", "90 °C")
    scale = TEMPERATURES.get(unit.replace("º", "°").replace("° ", "°"))
    if scale is None:
        raise unit_refused(text, unit, allowed)
    kelvin = value * scale[0] + scale[1]
    if kelvin < 0:
        raise UnitError(f"{said(text)} is colder than absolute zero (-273.15 °C).")
    return within(kelvin, text, allowed)


def temperature_difference(text: str) -> float:
    """Read a difference of temperatures.

    Parameters
    ----------
    text : str
        In K; °C would be a temperature.

    Returns
    -------
    float
        The difference. [K]
    """
    kelvin = Dimension("temperature difference", {"K": 1.0}, "K", "10 K", 2e3, "2,000 K", True)
    return quantity(text, kelvin)


def power(text: str) -> float:
    """Read a power.

    Parameters
    ----------
    text : str
        As in "330 kW", "450 hp", "450 PS".

    Returns
    -------
    float
        The power. [W]
    """
    return quantity(text, POWER)


def torque(text: str) -> float:
    """Read a torque.

    Parameters
    ----------
    text : str
        As in "27 N m", "20 lb-ft".

    Returns
    -------
    float
        The torque. [N m]
    """
    return quantity(text, TORQUE)


def mass(text: str) -> float:
    """Read a mass.

    Parameters
    ----------
    text : str
        As in "2.5 kg", "6 lb".

    Returns
    -------
    float
        The mass. [kg]
    """
    return quantity(text, MASS)


def speed(text: str) -> float:
    """Read a speed.

    Parameters
    ----------
    text : str
        As in "1.2 m/s".

    Returns
    -------
    float
        The speed. [m/s]
    """
    return quantity(text, SPEED)


def turning(text: str) -> float:
    """Read how fast a shaft turns.

    Parameters
    ----------
    text : str
        As in "6500 rpm".

    Returns
    -------
    float
        The angular speed. [rad/s]
    """
    return quantity(text, TURNING)


def voltage(text: str) -> float:
    """Read a voltage.

    Parameters
    ----------
    text : str
        As in "13.5 V".

    Returns
    -------
    float
        The voltage. [V]
    """
    return quantity(text, VOLTAGE)


def time(text: str) -> float:
    """Read a span of time.

    Parameters
    ----------
    text : str
        As in "10 s", "30 min".

    Returns
    -------
    float
        The span. [s]
    """
    return quantity(text, TIME)


def altitude(text: str) -> float:
    """Read a height over the sea.

    Parameters
    ----------
    text : str
        As in "1500 m".

    Returns
    -------
    float
        The height; less than 0 under the level of the sea. [m]
    """
    return quantity(text, HEIGHT)


def angle(text: str) -> float:
    """Read an angle in degrees, with or without the sign.

    Parameters
    ----------
    text : str
        As in "20°", "20 deg", "-20".

    Returns
    -------
    float
        The angle, at most a whole turn either way. [rad]
    """
    return quantity(text, ANGLE)


def percent(text: str) -> float:
    """Read a share.

    Parameters
    ----------
    text : str
        As in "6 %".

    Returns
    -------
    float
        The share, 0.06 for 6 %. [-]
    """
    return quantity(text, PERCENT)


def number(text: str, most: float = 1e9) -> float:
    """Read a number without a unit, 0 or more.

    Parameters
    ----------
    text : str
        As in "100".
    most : float
        Beyond it a typing error is certain. [-]

    Returns
    -------
    float
        The number. [-]
    """
    plain = Dimension("number", {"": 1.0}, "a number without a unit", "100", most, f"{most:g}")
    return quantity(text, plain)


#: The readers by the word that a table or a kind uses for them.
READERS: Mapping[str, Callable[[str], float]] = {
    "length": length,
    "volume": volume,
    "flow": flow,
    "pressure": pressure,
    "gauge pressure": gauge_pressure,
    "pressure difference": pressure_difference,
    "temperature": temperature,
    "temperature difference": temperature_difference,
    "power": power,
    "torque": torque,
    "mass": mass,
    "speed": speed,
    "angle": angle,
    "percent": percent,
    "turning": turning,
    "voltage": voltage,
    "time": time,
    "number": number,
}
