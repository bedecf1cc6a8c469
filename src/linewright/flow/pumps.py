# SPDX-License-Identifier: Apache-2.0
"""Pumps and relief valves from the few figures that a builder has."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from linewright.base.dimensions import GRAVITY
from linewright.base.errors import FlowError

# What a fitted curve may miss a given point by, over the head at no flow, before it is told.
_MISFIT = 0.1


@dataclass(frozen=True, slots=True)
class PumpCurve:
    """Head ``a0`` [m] + ``a1`` q [s/m2] + ``a2`` q² [s2/m5], falling; ``misfit`` [m] at worst."""

    a0: float
    a1: float
    a2: float
    misfit: float

    @property
    def is_loose(self) -> bool:
        """Whether the curve misses a given point by a tenth of its head or more."""
        return self.misfit > _MISFIT * self.a0

    def head(self, flow: float) -> float:
        """Return the head [m] at a flow [m3/s]."""
        return self.a0 + self.a1 * flow + self.a2 * flow * flow


def curve(points: Sequence[tuple[float, float]], pump: str = "pump") -> PumpCurve:
    """Return the curve of a centrifugal pump through the points that its maker gives.

    Parameters
    ----------
    points : Sequence of tuple
        Flow [m3/s] and head [m], two at least; three make a curve.
    pump : str
        Which pump, for what is said of it.

    Returns
    -------
    PumpCurve
        Through three points where that falls from no flow on; else the nearest that does.

    Raises
    ------
    FlowError
        If there are too few points, or the head rises with the flow between two.

    Examples
    --------
    >>> fitted = curve([(0.0, 10.0), (0.001, 9.0), (0.002, 6.0)])
    >>> round(fitted.head(0.001), 9), fitted.a1, fitted.misfit
    (9.0, 0.0, 0.0)
    """
    found = sorted(points)
    if len({q for q, _ in found}) < 2:
        raise FlowError(
            f"{pump}: {len(found)} point of a pump curve is not enough. Give the flow and the "
            "pressure at two points or better three: shut, near its duty, and wide open."
        )
    if found[0][0] < 0.0 or found[0][1] <= 0.0:
        raise FlowError(
            f"{pump}: a point of the pump curve has a flow of {found[0][0] * 6e4:g} L/min and a "
            f"head of {found[0][1]:g} m; a pump gives flow forward and head up. Type both above 0."
        )
    for (q0, h0), (q1, h1) in pairwise(found):
        if h1 > h0:
            raise FlowError(
                f"{pump}: the pump curve rises from {h0:g} m at {q0 * 6e4:g} L/min to {h1:g} m at "
                f"{q1 * 6e4:g} L/min; it must fall, or the pump has two flows at one head. Check "
                "these points, or leave out those left of the summit."
            )
    q, h = (np.array(column, dtype=np.float64) for column in zip(*found, strict=True))
    span = float(q[-1])
    # Least squares over each set of terms; the best that falls everywhere is kept.
    best: PumpCurve | None = None
    for terms in ((0, 1, 2), (0, 2), (0, 1)):
        if len(terms) > len(found):
            continue
        columns = np.stack([(q / span) ** t for t in terms], axis=1)
        fit = np.linalg.lstsq(columns, h, rcond=None)[0]
        scaled = dict.fromkeys((0, 1, 2), 0.0) | dict(zip(terms, fit.tolist(), strict=True))
        slack = 1e-9 * abs(scaled[0])
        if max(scaled[1], scaled[2]) > slack:
            continue
        a1, a2 = (0.0 if abs(scaled[t]) <= slack else scaled[t] / span**t for t in (1, 2))
        misfit = float(np.abs(columns @ fit - h).max())
        fitted = PumpCurve(float(scaled[0]), a1, a2, 0.0 if misfit <= slack else misfit)
        if best is None or fitted.misfit < best.misfit:
            best = fitted
    if best is None:  # pragma: no cover - heads that fall always leave a straight line
        raise FlowError(f"{pump}: no falling curve goes near the points of the pump.")
    return best


def head_of(rise: float, density: float) -> float:
    """Return the head [m] of a pressure rise [Pa] in a fluid of a density [kg/m3].

    Parameters
    ----------
    rise : float
        Pressure that a pump adds. [Pa]
    density : float
        Of the fluid that it was measured with. [kg/m3]

    Returns
    -------
    float
        Head. [m]

    Examples
    --------
    >>> round(head_of(1e5, 1000.0), 1)
    10.2
    """
    return rise / (density * GRAVITY)


def at_speed(flow: float, head: float, power: float, ratio: float) -> tuple[float, float, float]:
    """Return flow, head and power of a centrifugal pump at another speed (affinity).

    Parameters
    ----------
    flow, head, power : float
        At the speed that they are known at. [any units]
    ratio : float
        The other speed over that. [-]

    Returns
    -------
    tuple of float
        In the same units.

    Examples
    --------
    >>> at_speed(10.0, 10.0, 8.0, 0.5)
    (5.0, 2.5, 1.0)
    """
    return flow * ratio, head * ratio**2, power * ratio**3


def slip(
    displacement: float,
    speed: float,
    efficiency: float,
    rise: float,
    viscosity: float,
    pump: str = "pump",
) -> float:
    """Return the slip of a positive-displacement pump from its efficiency at one point.

    Parameters
    ----------
    displacement : float
        Of one turn. [m3]
    speed : float
        At the point. [turns/s]
    efficiency : float
        Flow over displacement times speed, at the point. [-]
    rise : float
        Pressure that it adds, at the point. [Pa]
    viscosity : float
        Dynamic, at the point. [Pa s]
    pump : str
        Which pump, for what is said of it.

    Returns
    -------
    float
        Flow lost is this times rise over dynamic viscosity: hot oil slips most. [m3]

    Raises
    ------
    FlowError
        If a figure is impossible.

    Examples
    --------
    >>> lost = slip(20e-6, 50.0, 0.9, 5e5, 0.01)
    >>> round(lost * 5e5 / 0.01 * 6e4, 1)
    6.0
    """
    if not 0.0 < efficiency <= 1.0:
        raise FlowError(
            f"{pump}: a volumetric efficiency of {efficiency * 100:g} % is impossible; it is more "
            "than 0 and at most 100 %. Give flow over displacement times speed."
        )
    if min(displacement, speed, rise, viscosity) <= 0.0:
        raise FlowError(
            f"{pump}: displacement, speed, pressure and viscosity of its test point must all be "
            "more than 0. Give the point at which its efficiency was measured."
        )
    return (1.0 - efficiency) * displacement * speed * viscosity / rise


def gear_displacement(outside: float, inside: float, width: float) -> float:
    """Return what a gear pump of two equal gears displaces in one turn.

    Parameters
    ----------
    outside, inside : float
        Diameters of the gears over and under their teeth. [m]
    width : float
        Of the gears. [m]

    Returns
    -------
    float
        Displacement of a turn. [m3]

    Examples
    --------
    >>> round(gear_displacement(0.075, 0.05, 0.025) * 1e6, 1)
    61.4
    """
    return float(0.25 * np.pi * (outside**2 - inside**2) * width)


def overall_efficiency(flow: float, rise: float, torque: float, speed: float) -> float:
    """Return the power that a pump gives to the fluid over that at its shaft.

    Parameters
    ----------
    flow : float
        Flow. [m3/s]
    rise : float
        Pressure that it adds. [Pa]
    torque : float
        At its shaft. [N m]
    speed : float
        Of its shaft. [rad/s]

    Returns
    -------
    float
        Efficiency. [-]

    Examples
    --------
    >>> overall_efficiency(1e-3, 5e5, 10.0, 100.0)
    0.5
    """
    return flow * rise / (torque * speed)


def electric_flow(rated: float, rated_rise: float, rise: float, fall: float) -> float:
    """Return the flow of an electric fuel pump at another pressure than its rating.

    Parameters
    ----------
    rated : float
        Flow at the rated rise. [m3/s]
    rated_rise, rise : float
        Pressures that it adds. [Pa]
    fall : float
        Share of the rated flow lost with each pascal more: rule R80 or R81. [1/Pa]

    Returns
    -------
    float
        Never less than nothing. [m3/s]

    Examples
    --------
    >>> from linewright.tables.rules import rule
    >>> round(electric_flow(340.0, 3e5, 4.2e5, rule("R80").value))
    291
    """
    return max(0.0, rated * (1.0 - fall * (rise - rated_rise)))


def suction_head(
    tank: float, vapour: float, density: float, height: float, lost: float = 0.0
) -> float:
    """Return the net positive suction head that a pump has.

    Parameters
    ----------
    tank : float
        Absolute pressure over the fluid in the tank. [Pa]
    vapour : float
        Absolute vapour pressure. [Pa]
    density : float
        Of the fluid. [kg/m3]
    height : float
        Level in the tank above the pump, less than 0 where it must lift. [m]
    lost : float
        Head lost in the suction line. [m]

    Returns
    -------
    float
        Head. [m]

    Examples
    --------
    >>> round(suction_head(101325.0, 2339.0, 998.3, 1.0), 1)
    11.1
    """
    return (tank - vapour) / (density * GRAVITY) + height - lost


def spring_relief(area: float, rate: float, preload: float, lift: float) -> tuple[float, float]:
    """Return at which pressures a spring-loaded relief valve opens and passes all.

    Parameters
    ----------
    area : float
        That the pressure acts on. [m2]
    rate : float
        Of the spring. [N/m]
    preload, lift : float
        What the spring is pressed by when shut, and what it is pressed further. [m]

    Returns
    -------
    tuple of float
        Opening and full-flow pressure. [Pa]

    Examples
    --------
    >>> opens, full = spring_relief(1e-4, 1e4, 0.005, 0.001)
    >>> round(opens / 1e5, 6), round(full / 1e5, 6)
    (5.0, 6.0)
    """
    return rate * preload / area, rate * (preload + lift) / area


def throttling_heat(rise: float, flow: float) -> float:
    """Return the heat that a flow gets where its pressure does no work, as in a relief valve.

    Parameters
    ----------
    rise : float
        Pressure lost. [Pa]
    flow : float
        Flow. [m3/s]

    Returns
    -------
    float
        Heat. [W]

    Examples
    --------
    >>> throttling_heat(5e5, 1e-3)
    500.0
    """
    return rise * flow
