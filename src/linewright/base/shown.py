# SPDX-License-Identifier: Apache-2.0
"""Quantities in the builder's units: three figures, and text that can be typed back."""

import math

from linewright.base.dimensions import (
    BAR,
    DEGREE,
    FOOT,
    GALLON_US,
    HORSEPOWER,
    INCH,
    LITRE,
    MINUTE,
    POUND,
    POUND_FORCE,
    PSI,
    RANKINE,
    ZERO_CELSIUS,
)

_FOOT_POUND = 12 * INCH * POUND_FORCE


def figures(value: float, digits: int = 3) -> str:
    """Show a number with so many significant figures, and never an exponent.

    Parameters
    ----------
    value : float
        The number. [-]
    digits : int
        Significant figures; digits before the point are kept whole.

    Returns
    -------
    str
        The number; trailing noughts after the point are left off.

    Examples
    --------
    >>> figures(12.700), figures(1452.0), figures(0.03456), figures(-0.0)
    ('12.7', '1452', '0.0346', '0')
    """
    if value == 0:
        return "0"
    places = digits - 1 - math.floor(math.log10(abs(value)))
    text = f"{value:.{max(places, 0)}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text in ("-0", "") else text


def _shown(value: float, show: str, metric: tuple[float, str], inch: tuple[float, str]) -> str:
    factor, unit = inch if show == "inch" else metric
    return f"{figures(value / factor)} {unit}"


def show_length(metres: float, show: str = "metric") -> str:
    """Show a length.

    Parameters
    ----------
    metres : float
        The length. [m]
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    str
        Millimetres or inches.

    Examples
    --------
    >>> show_length(0.0127), show_length(0.0127, "inch"), show_length(3.35)
    ('12.7 mm', '0.5 in', '3350 mm')
    """
    return _shown(metres, show, (1e-3, "mm"), (INCH, "in"))


def counted(number: int, word: str) -> str:
    """Say how many of a thing.

    Parameters
    ----------
    number : int
        How many.
    word : str
        What one of them is called.

    Returns
    -------
    str
        Number and word, the word with an s but for one.

    Examples
    --------
    >>> counted(1, "day"), counted(12, "day")
    ('1 day', '12 days')
    """
    return f"{number:,} {word}{'' if number == 1 else 's'}"


def show_run(metres: float, show: str = "metric") -> str:
    """Show a length of hose as it is sold.

    Parameters
    ----------
    metres : float
        The length. [m]
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    str
        Metres to the hundredth, or feet to the tenth.

    Examples
    --------
    >>> show_run(5.07), show_run(5.07, "inch")
    ('5.07 m', '16.6 ft')
    """
    return f"{metres / FOOT:.1f} ft" if show == "inch" else f"{metres:.2f} m"


def show_volume(cubic_metres: float, show: str = "metric") -> str:
    """Show a volume.

    Parameters
    ----------
    cubic_metres : float
        The volume. [m3]
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    str
        Litres or US gallons.
    """
    return _shown(cubic_metres, show, (LITRE, "L"), (GALLON_US, "US gal"))


def show_flow(flow: float, show: str = "metric") -> str:
    """Show a volume flow.

    Parameters
    ----------
    flow : float
        The flow. [m3/s]
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    str
        Litres or US gallons a minute.
    """
    return _shown(flow, show, (LITRE / MINUTE, "L/min"), (GALLON_US / MINUTE, "gpm"))


def show_gauge_pressure(gauge: float, show: str = "metric") -> str:
    """Show a pressure over ambient.

    Parameters
    ----------
    gauge : float
        The gauge pressure. [Pa]
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    str
        bar or psi, gauge.
    """
    return _shown(gauge, show, (BAR, "bar"), (PSI, "psi"))


def show_temperature(kelvin: float, show: str = "metric") -> str:
    """Show a temperature.

    Parameters
    ----------
    kelvin : float
        The absolute temperature. [K]
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    str
        °C or °F, three figures.

    Examples
    --------
    >>> show_temperature(363.15), show_temperature(363.15, "inch")
    ('90 °C', '194 °F')
    """
    if show == "inch":
        return f"{figures(round((kelvin - ZERO_CELSIUS) / RANKINE + 32, 6))} °F"
    return f"{figures(round(kelvin - ZERO_CELSIUS, 6))} °C"


def show_power(watts: float, show: str = "metric") -> str:
    """Show a power.

    Parameters
    ----------
    watts : float
        The power. [W]
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    str
        kW or hp.
    """
    return _shown(watts, show, (1e3, "kW"), (HORSEPOWER, "hp"))


def show_torque(torque: float, show: str = "metric") -> str:
    """Show a torque.

    Parameters
    ----------
    torque : float
        The torque. [N m]
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    str
        N m or lb-ft.
    """
    return _shown(torque, show, (1.0, "N m"), (_FOOT_POUND, "lb-ft"))


def show_mass(kilograms: float, show: str = "metric") -> str:
    """Show a mass.

    Parameters
    ----------
    kilograms : float
        The mass. [kg]
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    str
        kg or lb.
    """
    return _shown(kilograms, show, (1.0, "kg"), (POUND, "lb"))


def show_angle(radians: float) -> str:
    """Show an angle.

    Parameters
    ----------
    radians : float
        The angle. [rad]

    Returns
    -------
    str
        Degrees.
    """
    return f"{figures(round(radians / DEGREE, 9))}°"


def show_share(share: float) -> str:
    """Show a share.

    Parameters
    ----------
    share : float
        The share, 1 for the whole. [-]

    Returns
    -------
    str
        Per cent.
    """
    return f"{figures(share * 100)} %"
