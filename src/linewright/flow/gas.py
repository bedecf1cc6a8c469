# SPDX-License-Identifier: Apache-2.0
"""Air in pipes: loss where the density falls along the way, and thrust at couplers and elbows."""

from math import inf, log, pi, sin, sqrt

from linewright.base.errors import FlowError
from linewright.flow.friction import churchill
from linewright.flow.properties import AIR


def resistance(
    flow: float, bore: float, length: float, roughness: float, dynamic: float, loss: float = 0.0
) -> float:
    """Return friction and losses of a pipe as one coefficient.

    Parameters
    ----------
    flow : float
        Mass flow, more than 0. [kg/s]
    bore, length, roughness : float
        Of the pipe. [m]
    dynamic : float
        Dynamic viscosity. [Pa s]
    loss : float
        Sum of loss coefficients on the bore. [-]

    Returns
    -------
    float
        f L/D and the losses. [-]

    Examples
    --------
    >>> round(resistance(0.3, 0.0635, 2.0, 2e-5, 2e-5, 1.0), 2)
    1.54
    """
    reynolds = 4.0 * flow / (pi * bore * dynamic)
    return churchill(max(reynolds, 1e-6), roughness / bore)[0] * length / bore + loss


def outlet_pressure(
    flow: float, inlet: float, temperature: float, bore: float, coefficient: float
) -> float:
    """Return the pressure at the end of a pipe in isothermal flow.

    Parameters
    ----------
    flow : float
        Mass flow. [kg/s]
    inlet : float
        Absolute pressure at the start. [Pa]
    temperature : float
        All along. [K]
    bore : float
        Of the pipe. [m]
    coefficient : float
        Friction and losses: `resistance`. [-]

    Returns
    -------
    float
        Absolute. [Pa]

    Raises
    ------
    FlowError
        If the pipe chokes before it passes that.

    Examples
    --------
    >>> round(250e3 - outlet_pressure(0.3, 250e3, 330.0, 0.0635, 1.5))
    2599
    """
    most, _ = choked(inlet, temperature, bore, coefficient)
    if flow > most:
        raise FlowError(
            f"A pipe of {bore * 1e3:.1f} mm bore chokes at {most:.3f} kg/s and cannot carry "
            f"{flow:.3f} kg/s from {inlet / 1e3:.0f} kPa absolute. Take a larger bore."
        )
    flux = (flow / (0.25 * pi * bore * bore)) ** 2 * AIR * temperature
    # Above the choking pressure the flux falls as the outlet pressure rises.
    low, high = sqrt(flux), inlet
    for _ in range(200):
        middle = 0.5 * (low + high)
        if (inlet**2 - middle**2) / (coefficient + 2.0 * log(inlet / middle)) > flux:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def isothermal_flow(
    inlet: float, outlet: float, temperature: float, bore: float, coefficient: float
) -> float:
    """Return what a pipe passes in isothermal flow, choked or not.

    Parameters
    ----------
    inlet, outlet : float
        Absolute pressures at both ends. [Pa]
    temperature : float
        All along. [K]
    bore : float
        Of the pipe. [m]
    coefficient : float
        Friction and losses: `resistance`. [-]

    Returns
    -------
    float
        Mass flow. [kg/s]

    Examples
    --------
    >>> round(isothermal_flow(250e3, 247401.0, 330.0, 0.0635, 1.5), 3)
    0.3
    """
    most, least = choked(inlet, temperature, bore, coefficient)
    if outlet <= least:
        return most
    if outlet >= inlet:
        return 0.0
    flux = (inlet**2 - outlet**2) / (coefficient + 2.0 * log(inlet / outlet))
    return 0.25 * pi * bore * bore * sqrt(flux / (AIR * temperature))


def choked(
    inlet: float, temperature: float, bore: float, coefficient: float
) -> tuple[float, float]:
    """Return the most that a pipe passes in isothermal flow, and the outlet pressure there.

    Parameters
    ----------
    inlet : float
        Absolute pressure at the start. [Pa]
    temperature : float
        All along. [K]
    bore : float
        Of the pipe. [m]
    coefficient : float
        Friction and losses. [-]

    Returns
    -------
    tuple of float
        Mass flow [kg/s] and absolute pressure [Pa].

    Examples
    --------
    >>> flow, pressure = choked(250e3, 330.0, 0.0635, 1.5)
    >>> round(flow, 2), round(pressure / 1e3)
    (1.31, 127)
    """
    # At the choke the flux squared over R T is the outlet pressure squared.
    low, high = 1e-6 * inlet, inlet
    for _ in range(200):
        middle = 0.5 * (low + high)
        if (inlet**2 - middle**2) > middle**2 * (coefficient + 2.0 * log(inlet / middle)):
            low = middle
        else:
            high = middle
    pressure = 0.5 * (low + high)
    return 0.25 * pi * bore * bore * pressure / sqrt(AIR * temperature), pressure


def mach(flow: float, pressure: float, temperature: float, bore: float) -> float:
    """Return the speed of air in a pipe over that of sound; keep it below 0.3.

    Parameters
    ----------
    flow : float
        Mass flow. [kg/s]
    pressure : float
        Absolute. [Pa]
    temperature : float
        There. [K]
    bore : float
        Of the pipe. [m]

    Returns
    -------
    float
        Mach number. [-]

    Examples
    --------
    >>> round(mach(0.3, 250e3, 330.0, 0.0635), 2)
    0.1
    """
    if bore <= 0.0 or pressure <= 0.0:
        return inf
    speed = flow * AIR * temperature / (pressure * 0.25 * pi * bore * bore)
    return speed / sqrt(1.4 * AIR * temperature)


def thrust(gauge: float, bore: float, angle: float = 0.0) -> float:
    """Return the force that pulls a coupler off, or pushes an elbow away.

    Parameters
    ----------
    gauge : float
        Pressure over the air outside. [Pa]
    bore : float
        Inside diameter of the coupler: the pressure acts on all of it. [m]
    angle : float
        Change of direction of an elbow; 0 for the end of a straight pipe. [rad]

    Returns
    -------
    float
        Force, along the pipe or along the outer bisector of the elbow. [N]

    Examples
    --------
    >>> round(thrust(1.5e5, 0.0762)), round(thrust(1.5e5, 0.0762, pi / 2))
    (684, 967)
    """
    along = gauge * 0.25 * pi * bore * bore
    return along if angle == 0.0 else 2.0 * along * sin(0.5 * angle)
