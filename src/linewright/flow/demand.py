# SPDX-License-Identifier: Apache-2.0
"""What an engine asks for: fuel, air, and the heat that it gives to coolant, oil and charge."""

from math import sqrt

from linewright.base.errors import FlowError
from linewright.base.evidence import Figure, weakest
from linewright.tables.rules import rule

# Rules of specific consumption of petrol engines, and of other fuels over petrol.
_PETROL = {"natural": "R74", "boosted": "R75", "rotary": "R76"}
_OVER_PETROL = {"petrol": "", "E85": "R77", "methanol": "R78"}


def consumption(fuel: str, breathing: str = "natural") -> Figure:
    """Return the fuel that an engine burns for its work at full power.

    Parameters
    ----------
    fuel : str
        petrol, E85 or methanol.
    breathing : str
        natural, boosted or rotary.

    Returns
    -------
    Figure
        Brake specific consumption with its range. [kg/J]

    Raises
    ------
    FlowError
        If there is no rule for it.

    Examples
    --------
    >>> round(consumption("E85", "boosted").value * 3.6e9)
    504
    """
    if fuel not in _OVER_PETROL or breathing not in _PETROL:
        raise FlowError(
            f"There is no rule for the consumption of {fuel} in a {breathing} engine. Give "
            "the specific consumption, or name petrol, E85 or methanol and natural, boosted or "
            "rotary."
        )
    base = rule(_PETROL[breathing])
    if not _OVER_PETROL[fuel]:
        return base
    over = rule(_OVER_PETROL[fuel])
    value, low, high = (
        a * b
        for a, b in (
            (base.value, over.value),
            (base.low or base.value, over.low or over.value),
            (base.high or base.value, over.high or over.value),
        )
    )
    grade = weakest((base.grade, over.grade))
    return Figure(value, base.unit, grade, f"{base.basis}, {over.basis}", low, high)


def fuel_flow(power: float, specific: float) -> float:
    """Return the fuel that a power needs.

    Parameters
    ----------
    power : float
        At the brake. [W]
    specific : float
        Brake specific consumption. [kg/J]

    Returns
    -------
    float
        Mass flow. [kg/s]

    Raises
    ------
    FlowError
        If that is no fuel at all.

    Examples
    --------
    >>> round(fuel_flow(260e3, 0.36 * 1.4 / 3.6e6) * 3600)
    131
    """
    if power < 0.0 or specific <= 0.0:
        raise FlowError(
            f"A power of {power / 1e3:g} kW at {specific * 3.6e9:g} g/kWh asks for no fuel; both "
            "must be more than 0. Type the power at the brake."
        )
    return power * specific


def injector_flow(rated: float, rated_drop: float, drop: float) -> float:
    """Return the flow of an injector at another pressure: it goes as the root.

    Parameters
    ----------
    rated : float
        Held open at the rated drop. [kg/s]
    rated_drop, drop : float
        From rail to manifold. [Pa]

    Returns
    -------
    float
        Flow held open. [kg/s]

    Examples
    --------
    >>> injector_flow(1.0, 3e5, 12e5)
    2.0
    """
    return rated * sqrt(max(0.0, drop) / rated_drop)


def duty(demand: float, injectors: int, each: float) -> float:
    """Return the share of the time that injectors must be open.

    Parameters
    ----------
    demand : float
        Of the engine. [kg/s]
    injectors : int
        How many.
    each : float
        Flow of one held open. [kg/s]

    Returns
    -------
    float
        Over 1 where they cannot; rule R82 bounds it. [-]

    Examples
    --------
    >>> duty(0.03, 4, 0.01)
    0.75
    """
    return demand / (injectors * each)


def air_flow(fuel: float, air_per_fuel: float) -> float:
    """Return the air that an engine burns with its fuel.

    Parameters
    ----------
    fuel : float
        Mass flow. [kg/s]
    air_per_fuel : float
        Mass of air to that of fuel: 14.7 for petrol exactly burnt, 12 rich. [-]

    Returns
    -------
    float
        Mass flow. [kg/s]

    Examples
    --------
    >>> round(air_flow(0.02, 12.5), 3)
    0.25
    """
    return fuel * air_per_fuel


def swept_air(displacement: float, speed: float, filling: float, density: float) -> float:
    """Return the air that a four-stroke engine draws.

    Parameters
    ----------
    displacement : float
        Of all cylinders. [m3]
    speed : float
        Of the crankshaft. [turns/s]
    filling : float
        Volumetric efficiency by the density given. [-]
    density : float
        Of the air that it is filled by. [kg/m3]

    Returns
    -------
    float
        Mass flow. [kg/s]

    Examples
    --------
    >>> round(swept_air(2e-3, 100.0, 0.95, 1.2), 3)
    0.114
    """
    return 0.5 * displacement * speed * filling * density


def compressed(inlet: float, ratio: float, efficiency: float, gamma: float = 1.4) -> float:
    """Return the temperature of air after a compressor.

    Parameters
    ----------
    inlet : float
        Temperature before it. [K]
    ratio : float
        Absolute pressure after it over that before, with losses of filter and cooler. [-]
    efficiency : float
        Isentropic: rules R64 and R65. [-]
    gamma : float
        Ratio of heat capacities. [-]

    Returns
    -------
    float
        Temperature. [K]

    Raises
    ------
    FlowError
        If efficiency or ratio is impossible.

    Examples
    --------
    >>> round(compressed(300.0, 2.2, 0.74))
    402
    """
    if not 0.0 < efficiency <= 1.0 or ratio < 1.0:
        raise FlowError(
            f"A compressor of {efficiency * 100:g} % efficiency at a pressure ratio of {ratio:g}: "
            "the efficiency is more than 0 and at most 100 %, the ratio at least 1. Give absolute "
            "pressures."
        )
    outlet: float = inlet * (1.0 + (ratio ** ((gamma - 1.0) / gamma) - 1.0) / efficiency)
    return outlet
