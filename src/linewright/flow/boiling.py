# SPDX-License-Identifier: Apache-2.0
"""Boiling: margin under pressure and altitude; growth of a coolant and its expansion tank."""

from dataclasses import dataclass

from linewright.base.dimensions import ATMOSPHERE
from linewright.base.errors import FlowError
from linewright.flow.properties import Fluid


def atmosphere(altitude: float) -> float:
    """Return the pressure of the air at an altitude (standard atmosphere).

    Parameters
    ----------
    altitude : float
        Above the sea. [m]

    Returns
    -------
    float
        Absolute. [Pa]

    Examples
    --------
    >>> round(atmosphere(1500.0) / 1e3, 1)
    84.6
    """
    return float(ATMOSPHERE * (1.0 - 2.25577e-5 * altitude) ** 5.25588)


def boiling_margin(fluid: Fluid, temperature: float, pressure: float) -> float:
    """Return how far a fluid is from boiling.

    Parameters
    ----------
    fluid : Fluid
        The fluid.
    temperature : float
        Where it is hottest, or where the pressure is least. [K]
    pressure : float
        Absolute, at that place. [Pa]

    Returns
    -------
    float
        Less than 0 where it boils. [K]

    Examples
    --------
    >>> from linewright.flow.fluids import coolant
    >>> round(boiling_margin(coolant(0.5), 378.15, 101325.0 + 110e3), 1)
    25.7
    """
    fluid.check(temperature)
    return fluid.boils_at(pressure) - temperature


def growth(fluid: Fluid, cold: float, hot: float) -> float:
    """Return by what share of its volume a fluid grows.

    Parameters
    ----------
    fluid : Fluid
        The fluid.
    cold, hot : float
        Temperatures. [K]

    Returns
    -------
    float
        Of the volume when cold. [-]

    Examples
    --------
    >>> from linewright.flow.fluids import coolant
    >>> round(100 * growth(coolant(0.5), 293.15, 383.15), 1)
    5.8
    """
    return fluid.density(cold) / fluid.density(hot) - 1.0


@dataclass(frozen=True, slots=True)
class Expansion:
    """A sealed tank when hot: ``pressure`` absolute [Pa], ``is_venting`` past its cap.

    ``grown`` is what the fluid grew by [m3], ``air`` the pressure of the air alone [Pa].
    """

    pressure: float
    air: float
    grown: float
    is_venting: bool


def sealed(
    fluid: Fluid,
    system: float,
    gas: float,
    cold: float,
    hot: float,
    cap: float,
    ambient: float = ATMOSPHERE,
) -> Expansion:
    """Return the state of a sealed expansion tank when hot.

    Parameters
    ----------
    fluid : Fluid
        The coolant.
    system : float
        Volume of coolant when cold. [m3]
    gas : float
        Space for air when cold. [m3]
    cold, hot : float
        Temperatures at filling and when hot. [K]
    cap : float
        At which the cap opens, over the air outside. [Pa]
    ambient : float
        Absolute pressure of the air outside. [Pa]

    Returns
    -------
    Expansion
        The cap lets go what is over its pressure.

    Raises
    ------
    FlowError
        If there is no space at all.

    Examples
    --------
    >>> from linewright.flow.fluids import coolant
    >>> hot = sealed(coolant(0.5), 10e-3, 2e-3, 293.15, 383.15, 110e3)
    >>> hot.is_venting, round(hot.pressure / 1e3)
    (True, 211)
    """
    if gas <= 0.0 or system <= 0.0:
        raise FlowError(
            f"An expansion tank with {gas * 1e3:g} L of air over {system * 1e3:g} L of coolant: "
            "both must be more than 0. Type the volume of the tank and its cold level."
        )
    grown = system * growth(fluid, cold, hot)
    vapour = fluid.vapour_pressure(hot)
    left = gas - grown
    dry = ambient - fluid.vapour_pressure(cold)
    air = float("inf") if left <= 0.0 else dry * gas / left * hot / cold
    opens = ambient + cap
    return Expansion(min(air + vapour, opens), air, grown, air + vapour > opens)


def least_gas(fluid: Fluid, system: float, cold: float, hot: float) -> float:
    """Return the least air space of an expansion tank: twice the growth of the coolant.

    Parameters
    ----------
    fluid : Fluid
        The coolant.
    system : float
        Volume of coolant when cold. [m3]
    cold, hot : float
        Temperatures at filling and when hot. [K]

    Returns
    -------
    float
        Volume, without reserve for what leaks. [m3]

    Examples
    --------
    >>> from linewright.flow.fluids import coolant
    >>> round(least_gas(coolant(0.5), 10e-3, 293.15, 383.15) * 1e3, 2)
    1.16
    """
    return 2.0 * system * growth(fluid, cold, hot)
