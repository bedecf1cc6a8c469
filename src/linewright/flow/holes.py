# SPDX-License-Identifier: Apache-2.0
"""Holes, jets, restrictors and valves by their rating; filters and cores by one test point."""

from math import inf, pi, sqrt

from linewright.base.errors import FlowError


def from_kv(kv: float, bore: float) -> float:
    """Return the loss coefficient of a valve from its Kv.

    Parameters
    ----------
    kv : float
        Flow of water at 1 bar. [m3/h]
    bore : float
        Of the pipe. [m]

    Returns
    -------
    float
        On ``bore``. [-]

    Raises
    ------
    FlowError
        If the valve lets nothing through.

    Examples
    --------
    >>> round(from_kv(500.0, 0.154), 2)
    3.6
    """
    if kv <= 0.0:
        raise FlowError(f"A Kv of {kv:g} m³/h lets nothing through. Type that of the valve open.")
    speed = kv / 3600.0 / (0.25 * pi * bore * bore)
    return 2.0 * 1e5 / (1000.0 * speed * speed)


def kv_of_cv(cv: float) -> float:
    """Return Kv from Cv, US gallons a minute of water at 1 psi.

    Parameters
    ----------
    cv : float
        As in the maker's sheet. [gal/min at 1 psi]

    Returns
    -------
    float
        Kv. [m3/h]

    Examples
    --------
    >>> round(kv_of_cv(1.0), 3)
    0.865
    """
    return 0.865 * cv


def rated_loss(
    drop: float, flow: float, density: float, viscosity: float, viscous_share: float
) -> tuple[float, float]:
    """Return the law of a filter or a core from one test point.

    Parameters
    ----------
    drop : float
        Pressure drop at the test point. [Pa]
    flow : float
        Flow at the test point. [m3/s]
    density : float
        Of the test fluid. [kg/m3]
    viscosity : float
        Kinematic, of the test fluid. [m2/s]
    viscous_share : float
        Share of the drop that grows with viscosity, 1 for a clean filter element. [-]

    Returns
    -------
    tuple of float
        Viscous [1/m3] and inertial [1/m4], as a `Loss` of the network takes them.

    Raises
    ------
    FlowError
        If the point is not one of a loss.

    Examples
    --------
    >>> viscous, inertial = rated_loss(20e3, 1e-3, 850.0, 1e-5, 0.5)
    >>> viscous * 850.0 * 1e-5 * 1e-3 + inertial * 850.0 / 2 * 1e-6
    20000.0
    """
    if min(drop, flow, density, viscosity) <= 0.0 or not 0.0 <= viscous_share <= 1.0:
        raise FlowError(
            f"A drop of {drop / 1e3:g} kPa at {flow * 6e4:g} L/min is no test point of a loss: "
            "both must be more than 0. Type the drop and the flow of the maker's test."
        )
    viscous = viscous_share * drop / (density * viscosity * flow)
    return viscous, (1.0 - viscous_share) * drop / (0.5 * density * flow * flow)


def hole_flow(
    bore: float, drop: float, density: float, coefficient: float = 0.61, ratio: float = 0.0
) -> float:
    """Return the flow through a hole, jet or restrictor.

    Parameters
    ----------
    bore : float
        Of the hole. [m]
    drop : float
        Difference of pressure across it. [Pa]
    density : float
        Of the fluid. [kg/m3]
    coefficient : float
        Of discharge: 0.61 for a thin sharp hole, 0.8 for a short rounded jet. [-]
    ratio : float
        Its bore over that of the pipe. [-]

    Returns
    -------
    float
        Of the sign of the drop. [m3/s]

    Examples
    --------
    >>> round(hole_flow(0.001, 3e5, 820.0, 0.8) * 6e4, 2)
    1.02
    """
    speed = sqrt(2.0 * abs(drop) / (density * (1.0 - ratio**4)))
    flow = coefficient * 0.25 * pi * bore * bore * speed
    return flow if drop >= 0.0 else -flow


def lasting_share(ratio: float, coefficient: float = 0.61) -> float:
    """Return the share of the drop across a hole that is lost for good.

    Parameters
    ----------
    ratio : float
        Its bore over that of the pipe. [-]
    coefficient : float
        Of discharge. [-]

    Returns
    -------
    float
        1 for a hole in a wall. [-]

    Examples
    --------
    >>> round(lasting_share(0.5), 2)
    0.73
    """
    root = sqrt(1.0 - ratio**4 * (1.0 - coefficient**2))
    jet = coefficient * ratio * ratio
    return (root - jet) / (root + jet)


def hole_bore(
    flow: float, drop: float, density: float, pipe: float = inf, coefficient: float = 0.61
) -> float:
    """Return the bore of the hole that passes a flow at a drop.

    Parameters
    ----------
    flow : float
        Flow to pass. [m3/s]
    drop : float
        Difference of pressure across it. [Pa]
    density : float
        Of the fluid. [kg/m3]
    pipe : float
        Bore of the pipe that it stands in. [m]
    coefficient : float
        Of discharge. [-]

    Returns
    -------
    float
        Bore of the hole. [m]

    Examples
    --------
    >>> round(hole_bore(0.003, 4000.0, 789.0, 0.06, 0.972) * 1e3, 1)
    34.2
    """
    bare = flow / (coefficient * sqrt(2.0 * drop / density))  # area over sqrt(1 - ratio⁴)
    # (pi/4 d²)² = bare² (1 - d⁴/D⁴), solved for d⁴.
    fourth = bare**2 / ((0.25 * pi) ** 2 + (0.0 if pipe == inf else bare**2 / pipe**4))
    return float(fourth**0.25)
