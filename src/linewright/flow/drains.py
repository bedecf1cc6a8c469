# SPDX-License-Identifier: Apache-2.0
"""Drains by gravity, part full: what they carry at their flattest stretch; and oil tanks.

Uniform flow by Darcy and Weisbach on the hydraulic diameter. Formulas for rough channels
(Manning) know no viscosity, and are wrong for oil.
"""

from math import acos, asin, inf, sin, sqrt

from linewright.base.dimensions import GRAVITY
from linewright.base.errors import FlowError
from linewright.flow.friction import churchill


def section(bore: float, fill: float) -> tuple[float, float]:
    """Return the section that a fluid fills in a round pipe, and its hydraulic diameter.

    Parameters
    ----------
    bore : float
        Of the pipe. [m]
    fill : float
        Depth over bore, more than 0 to 1. [-]

    Returns
    -------
    tuple of float
        Area [m2] and four times it over the wetted perimeter [m].

    Examples
    --------
    >>> area, wide = section(0.02, 0.5)
    >>> round(area * 1e6), round(wide * 1e3, 6)
    (157, 20.0)
    """
    half = acos(1.0 - 2.0 * fill)
    area = 0.25 * bore * bore * (half - sin(half) * (1.0 - 2.0 * fill))
    return area, 4.0 * area / (bore * half)


def uniform_speed(
    wide: float, gradient: float, viscosity: float, roughness: float, loss: float = 0.0
) -> float:
    """Return the speed at which friction takes what a fall gives.

    Parameters
    ----------
    wide : float
        Hydraulic diameter. [m]
    gradient : float
        Head that is lost over length. [-]
    viscosity : float
        Kinematic. [m2/s]
    roughness : float
        Of the wall. [m]
    loss : float
        Loss coefficients over length. [1/m]

    Returns
    -------
    float
        Mean speed; 0 where nothing falls. [m/s]

    Examples
    --------
    >>> round(uniform_speed(0.0143, 0.5, 14e-6, 0.0), 3)
    2.159
    """
    if gradient <= 0.0:
        return 0.0
    low, high = 0.0, sqrt(2.0 * GRAVITY * gradient * wide / 1e-3)
    for _ in range(200):
        speed = 0.5 * (low + high)
        factor = churchill(max(speed * wide / viscosity, 1e-6), roughness / wide)[0]
        if (factor / wide + loss) * speed * speed / (2.0 * GRAVITY) < gradient:
            low = speed
        else:
            high = speed
        if high - low <= 1e-13 * high:
            break
    return 0.5 * (low + high)


def drain_flow(
    bore: float, slope: float, viscosity: float, roughness: float = 0.0, fill: float = 0.5
) -> float:
    """Return what a drain carries, half full where not said, at its flattest stretch.

    Parameters
    ----------
    bore : float
        Least bore of the drain. [m]
    slope : float
        Of its flattest stretch below level; nothing drains at 0 or less. [rad]
    viscosity : float
        Kinematic, of the oil as it drains. [m2/s]
    roughness : float
        Of the wall. [m]
    fill : float
        Depth over bore. [-]

    Returns
    -------
    float
        Flow. [m3/s]

    Raises
    ------
    FlowError
        If the bore or the depth is none.

    Examples
    --------
    A -10 at 15 degrees with hot oil, in litres a minute:

    >>> round(drain_flow(0.0143, 15.0 * 3.14159265 / 180.0, 14e-6) * 6e4, 1)
    5.6
    """
    if bore <= 0.0 or not 0.0 < fill <= 1.0:
        raise FlowError(
            f"A drain of {bore * 1e3:g} mm bore, {fill * 100:g} % full: both must be more than 0, "
            "and it is at most full. Type its least bore."
        )
    area, wide = section(bore, fill)
    return area * uniform_speed(wide, sin(slope), viscosity, roughness)


def least_slope(
    bore: float, flow: float, viscosity: float, roughness: float, froth: float
) -> float:
    """Return the least fall at which a half-full drain carries the froth of an oil flow.

    Parameters
    ----------
    bore : float
        Least bore of the drain. [m]
    flow : float
        Of clear oil. [m3/s]
    viscosity : float
        Kinematic, of the oil as it drains. [m2/s]
    roughness : float
        Of the wall. [m]
    froth : float
        Volume that drains over that of clear oil: `heat_figure` ("froth"). [-]

    Returns
    -------
    float
        Infinite where even straight down is not enough. [rad]

    Examples
    --------
    >>> round(least_slope(0.0143, 2e-3 / 60.0, 14e-6, 0.0, 3.0) * 57.2958, 1)
    16.1
    """
    area, wide = section(bore, 0.5)
    speed = froth * flow / area
    factor = churchill(max(speed * wide / viscosity, 1e-6), roughness / wide)[0]
    gradient = factor / wide * speed * speed / (2.0 * GRAVITY)
    return asin(gradient) if gradient <= 1.0 else inf


def dwell(volume: float, flow: float) -> float:
    """Return how long oil stays in a tank.

    Parameters
    ----------
    volume : float
        Of oil in the tank as it works. [m3]
    flow : float
        Of the pressure pump. [m3/s]

    Returns
    -------
    float
        Time to lose its air. [s]

    Examples
    --------
    >>> dwell(8e-3, 1e-3)
    8.0
    """
    return volume / flow if flow > 0.0 else inf


def bubble_rise(diameter: float, viscosity: float) -> float:
    """Return how fast a bubble rises in oil (Stokes), an upper bound for large ones.

    Parameters
    ----------
    diameter : float
        Of the bubble. [m]
    viscosity : float
        Kinematic, of the oil. [m2/s]

    Returns
    -------
    float
        Speed. [m/s]

    Examples
    --------
    >>> round(bubble_rise(0.5e-3, 14e-6) * 1e3)
    10
    """
    return GRAVITY * diameter**2 / (18.0 * viscosity)


def foam(flow: float, density: float, air: float) -> tuple[float, float]:
    """Return the flow and density of oil with air in it, as scavenge pumps return it.

    Parameters
    ----------
    flow : float
        Of clear oil. [m3/s]
    density : float
        Of clear oil. [kg/m3]
    air : float
        Share of air in the volume, below 1: rule R41. [-]

    Returns
    -------
    tuple of float
        Flow [m3/s] and density [kg/m3] of the mix.

    Raises
    ------
    FlowError
        If it is all air.

    Examples
    --------
    >>> foam(1e-3, 850.0, 0.5)
    (0.002, 425.0)
    """
    if not 0.0 <= air < 1.0:
        raise FlowError(
            f"A share of air of {air * 100:g} % leaves no oil; it is from 0 to below 100 %. "
            "Usual are 30 to 70 %."
        )
    return flow / (1.0 - air), density * (1.0 - air)


def scavenge_share(displacements: float, speed: float, oil: float) -> float:
    """Return the share of air in what scavenge stages return, pumping all they can.

    Parameters
    ----------
    displacements : float
        Sum of what all stages displace in a turn. [m3]
    speed : float
        Of the pump. [turns/s]
    oil : float
        Flow of oil that comes back. [m3/s]

    Returns
    -------
    float
        Less than 0 where they cannot carry the oil. [-]

    Examples
    --------
    >>> scavenge_share(4e-5, 50.0, 1e-3)
    0.5
    """
    whole = displacements * speed
    return 1.0 - oil / whole if whole > 0.0 else -inf
