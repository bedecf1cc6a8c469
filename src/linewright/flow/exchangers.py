# SPDX-License-Identifier: Apache-2.0
"""Heat exchangers by effectiveness and number of transfer units, from one test point."""

from dataclasses import dataclass
from enum import StrEnum
from math import exp, expm1, log

from linewright.base.errors import FlowError
from linewright.base.evidence import Figure
from linewright.base.kernels import njit


class Arrangement(StrEnum):
    """How the two fluids of an exchanger pass each other."""

    COUNTER = "counterflow"
    PARALLEL = "parallel flow"
    CROSS = "cross-flow, both unmixed"  # radiators, oil and charge coolers
    CROSS_MIXED = "cross-flow, the greater mixed"


def effectiveness(arrangement: Arrangement, units: float, ratio: float) -> float:
    """Return the share of the most heat that an exchanger could pass.

    Parameters
    ----------
    arrangement : Arrangement
        How the fluids pass each other.
    units : float
        Number of transfer units: conductance over the lesser capacity rate. [-]
    ratio : float
        Lesser over greater capacity rate, 0 to 1. [-]

    Returns
    -------
    float
        0 to 1. [-]

    Examples
    --------
    >>> effectiveness(Arrangement.COUNTER, 1.0, 1.0)
    0.5
    """
    if units <= 0.0:
        return 0.0
    if ratio <= 1e-7:
        return -expm1(-units)
    if arrangement is Arrangement.COUNTER:
        if 1.0 - ratio < 1e-9:
            return units / (1.0 + units)
        left = exp(-units * (1.0 - ratio))
        return (1.0 - left) / (1.0 - ratio * left)
    if arrangement is Arrangement.PARALLEL:
        return -expm1(-units * (1.0 + ratio)) / (1.0 + ratio)
    if arrangement is Arrangement.CROSS_MIXED:
        return -expm1(ratio * expm1(-units)) / ratio
    return _cross(units, ratio)


# More units than any exchanger has, where all effectiveness is at its end.
_MOST_UNITS = 500.0


@njit
def _cross(units: float, ratio: float) -> float:
    """Both unmixed, exactly: the series of Mason (1955), both factors tending to nothing."""
    units = min(units, _MOST_UNITS)
    other = ratio * units
    first = term_a = exp(-units)
    second = term_b = exp(-other)
    total, number = 0.0, 0
    while True:
        step = (1.0 - first) * (1.0 - second)
        total += step
        if step < 1e-15 * total or number > 5000:
            return total / other
        number += 1
        term_a *= units / number
        term_b *= other / number
        first += term_a
        second += term_b


def transfer_units(arrangement: Arrangement, reached: float, ratio: float) -> float:
    """Return the number of transfer units that an effectiveness needs.

    Parameters
    ----------
    arrangement : Arrangement
        How the fluids pass each other.
    reached : float
        Effectiveness. [-]
    ratio : float
        Lesser over greater capacity rate. [-]

    Returns
    -------
    float
        Conductance over the lesser capacity rate. [-]

    Raises
    ------
    FlowError
        If no size of exchanger reaches it.

    Examples
    --------
    >>> round(transfer_units(Arrangement.COUNTER, 0.5, 1.0), 9)
    1.0
    """
    if reached <= 0.0:
        return 0.0
    low, high = 0.0, 1.0
    while effectiveness(arrangement, high, ratio) < reached:
        low, high = high, 2.0 * high
        if high > _MOST_UNITS:
            most = effectiveness(arrangement, high, ratio)
            raise FlowError(
                f"An effectiveness of {reached * 100:.1f} % is beyond any {arrangement} at these "
                f"flows, {most * 100:.1f} %. Check heat, flows and temperatures of the test point."
            )
    for _ in range(80):
        middle = 0.5 * (low + high)
        if effectiveness(arrangement, middle, ratio) < reached:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def log_mean(first: float, second: float) -> float:
    """Return the mean difference of temperature between two ends.

    Parameters
    ----------
    first, second : float
        Differences at both ends, of one sign. [K]

    Returns
    -------
    float
        Logarithmic mean. [K]

    Examples
    --------
    >>> round(log_mean(20.0, 10.0), 2)
    14.43
    """
    if abs(first - second) < 1e-9 * abs(first):
        return first
    return (first - second) / log(first / second)


def tube_coefficient(reynolds: float, prandtl: float, is_heated: bool) -> float:
    """Return the Nusselt number of turbulent flow in a tube, after Dittus and Boelter.

    Parameters
    ----------
    reynolds, prandtl : float
        Of the fluid at its mean temperature. [-]
    is_heated : bool
        Whether the wall is hotter than the fluid.

    Returns
    -------
    float
        Heat transfer coefficient times bore over conductivity. [-]

    Examples
    --------
    >>> round(tube_coefficient(14050.0, 4.85, is_heated=True))
    90
    """
    return float(0.023 * reynolds**0.8 * prandtl ** (0.4 if is_heated else 0.3))


@dataclass(frozen=True, slots=True)
class Side:
    """One side of an exchanger at its test point.

    ``flow`` [kg/s], ``heat_capacity`` [J/(kg K)], ``inlet`` [K]. Its heat transfer goes as flow
    to the power ``power``: 0.6 air through fins, 0.8 turbulent in tubes, 0.33 laminar. [-]
    """

    flow: float
    heat_capacity: float
    inlet: float
    power: float

    @property
    def rate(self) -> float:
        """Capacity rate. [W/K]"""
        return self.flow * self.heat_capacity


@dataclass(frozen=True, slots=True)
class Exchanger:
    """An exchanger known by one test point.

    ``conductance`` at that point [W/K]; ``first_share`` of the resistance is on the side of
    ``first`` [-]. ``of`` names it.
    """

    arrangement: Arrangement
    first: Side
    second: Side
    conductance: float
    first_share: float
    of: str = "exchanger"

    def at(self, first_flow: float, second_flow: float) -> float:
        """Return the conductance [W/K] at other flows [kg/s]; 0 where one stands."""
        if first_flow <= 0.0 or second_flow <= 0.0:
            return 0.0
        first = self.first_share * (self.first.flow / first_flow) ** self.first.power
        second = (1.0 - self.first_share) * (self.second.flow / second_flow) ** self.second.power
        return float(self.conductance / (first + second))

    def heat(
        self,
        first: tuple[float, float, float],
        second: tuple[float, float, float],
        factor: float = 1.0,
    ) -> float:
        """Return the heat that goes from the first to the second fluid.

        Parameters
        ----------
        first, second : tuple of float
            Flow [kg/s], heat capacity [J/(kg K)] and temperature at the inlet [K].
        factor : float
            On the conductance, for what is not known well. [-]

        Returns
        -------
        float
            Less than 0 where the second is the hotter. [W]
        """
        flow_a, cp_a, hot = first
        flow_b, cp_b, cold = second
        low, high = sorted((flow_a * cp_a, flow_b * cp_b))
        if low <= 0.0:
            return 0.0
        units = factor * self.at(flow_a, flow_b) / low
        return effectiveness(self.arrangement, units, low / high) * low * (hot - cold)


def from_test(
    arrangement: Arrangement,
    first: Side,
    second: Side,
    heat: float,
    first_share: float,
    of: str = "exchanger",
) -> Exchanger:
    """Return an exchanger from one test point.

    Parameters
    ----------
    arrangement : Arrangement
        How the fluids pass each other.
    first, second : Side
        Both sides at the test point.
    heat : float
        That passes at the test point. [W]
    first_share : float
        Share of the resistance on the first side: `heat_figure` ("split-radiator") and others. [-]
    of : str
        What it is, for what is said of it.

    Returns
    -------
    Exchanger
        That passes this heat at this point.

    Raises
    ------
    FlowError
        If no exchanger could.

    Examples
    --------
    >>> air, water = Side(1.0, 1006.0, 293.15, 0.6), Side(1.5, 3590.0, 363.15, 0.8)
    >>> core = from_test(Arrangement.CROSS, air, water, 40e3, 0.75, "radiator")
    >>> round(-core.heat((1.0, 1006.0, 293.15), (1.5, 3590.0, 363.15)))
    40000
    """
    low, high = sorted((first.rate, second.rate))
    apart = abs(first.inlet - second.inlet)
    if low <= 0.0 or apart <= 0.0 or heat <= 0.0:
        raise FlowError(
            f"{of}: its test point needs heat, both flows and a difference of temperature between "
            "the inlets, all more than 0. Give the point of the maker's sheet."
        )
    reached = heat / (low * apart)
    if reached >= 1.0:
        raise FlowError(
            f"{of}: {heat / 1e3:g} kW at its test point is more than the "
            f"{low * apart / 1e3:.1f} kW that its flows could carry over {apart:.0f} K. Check "
            "heat, flows and temperatures of the test point and their units."
        )
    units = transfer_units(arrangement, reached, low / high)
    return Exchanger(arrangement, first, second, units * low, first_share, of)


def from_effectiveness(
    figure: Figure, arrangement: Arrangement, first: Side, second: Side, first_share: float
) -> Exchanger:
    """Return a usual exchanger where there is no test point, from a rule of thumb.

    Parameters
    ----------
    figure : Figure
        Effectiveness at these flows, as rules R66 and R67 have it. [-]
    arrangement : Arrangement
        How the fluids pass each other.
    first, second : Side
        Both sides at the flows that it is meant for.
    first_share : float
        Share of the resistance on the first side. [-]

    Returns
    -------
    Exchanger
        Good for a first guess.

    Examples
    --------
    >>> from linewright.tables.rules import rule
    >>> hot, cold = Side(0.3, 1006.0, 420.0, 0.6), Side(0.6, 1006.0, 300.0, 0.6)
    >>> usual = from_effectiveness(rule("R66"), Arrangement.CROSS, hot, cold, 0.5)
    >>> round(usual.heat((0.3, 1006.0, 420.0), (0.6, 1006.0, 300.0)) / (0.3 * 1006 * 120), 3)
    0.7
    """
    low, high = sorted((first.rate, second.rate))
    units = transfer_units(arrangement, figure.value, low / high)
    return Exchanger(arrangement, first, second, units * low, first_share)
