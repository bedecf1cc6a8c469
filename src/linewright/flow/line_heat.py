# SPDX-License-Identifier: Apache-2.0
"""Heat that a line gains or loses on its way."""

from math import exp, log, pi

from linewright.base.errors import FlowError


def line_conductance(bore: float, outside: float, inner: float, wall: float, outer: float) -> float:
    """Return the heat conductance of a line for each metre.

    Parameters
    ----------
    bore, outside : float
        Diameters. [m]
    inner : float
        Heat transfer coefficient inside. [W/(m2 K)]
    wall : float
        Conductivity of the wall: `heat_figure` ("hose-wall"). [W/(m K)]
    outer : float
        Heat transfer coefficient outside: `heat_figure` ("outside-still"). [W/(m2 K)]

    Returns
    -------
    float
        From the fluid to what is round the line. [W/(m K)]

    Raises
    ------
    FlowError
        If the line is no tube.

    Examples
    --------
    A -10 hose 100 K hotter than still air, and in the wind, in watts a metre:

    >>> [round(100 * line_conductance(0.0143, 0.024, 500.0, 0.25, h)) for h in (10.0, 40.0)]
    [59, 142]
    """
    if not 0.0 < bore < outside:
        raise FlowError(
            f"A line of {bore * 1e3:g} mm bore and {outside * 1e3:g} mm outside has no wall. "
            "Type the outside greater than the bore."
        )
    inside = 1.0 / (pi * bore * inner)
    through = log(outside / bore) / (2.0 * pi * wall)
    return 1.0 / (inside + through + 1.0 / (pi * outside * outer))


def line_outlet(inlet: float, around: float, conductance: float, rate: float) -> float:
    """Return the temperature at the end of a line.

    Parameters
    ----------
    inlet, around : float
        Temperature of the fluid at the start, and round the line. [K]
    conductance : float
        Of the whole line. [W/K]
    rate : float
        Flow times heat capacity; where nothing flows all is as around. [W/K]

    Returns
    -------
    float
        Temperature. [K]

    Examples
    --------
    >>> round(line_outlet(300.0, 400.0, 1.0, 50.0), 2)
    301.98
    """
    if rate <= 0.0:
        return around
    return around + (inlet - around) * exp(-conductance / rate)
