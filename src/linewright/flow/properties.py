# SPDX-License-Identifier: Apache-2.0
"""What a fluid is to flow: its properties over temperature, and where they end."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from linewright.base.dimensions import ATMOSPHERE, ZERO_CELSIUS
from linewright.base.errors import FlowError
from linewright.base.evidence import Grade
from linewright.flow.curves import Curve, Values
from linewright.tables.fluids import Limits

AnyOf = TypeVar("AnyOf", float, Values)

#: Specific gas constant of dry air. [J/(kg K)]
AIR = 287.05


@dataclass(frozen=True, slots=True)
class Fluid:
    """A fluid, with its properties over temperature.

    ``curves`` has the properties by name, ``coldest`` and ``hottest`` [K] bound what it can be
    asked at, ``grade`` is the weakest of its figures, ``note`` says what stands in for what.
    """

    name: str
    curves: Mapping[str, Curve]
    limits: Limits
    grade: Grade
    note: str = ""
    is_gas: bool = False

    def density(self, temperature: AnyOf, pressure: float = ATMOSPHERE) -> AnyOf:
        """Return the density [kg/m3]; only a gas minds the absolute pressure [Pa]."""
        self.check(temperature)
        if self.is_gas:
            return pressure / (AIR * temperature)
        return self.curves["density"](temperature)

    def viscosity(self, temperature: AnyOf, pressure: float = ATMOSPHERE) -> AnyOf:
        """Return the kinematic viscosity [m2/s]; only a gas minds the absolute pressure [Pa]."""
        self.check(temperature)
        if self.is_gas:
            dynamic = self.curves["dynamic_viscosity"](temperature)
            return dynamic * AIR * temperature / pressure
        return self.curves["viscosity"](temperature)

    def heat_capacity(self, temperature: AnyOf) -> AnyOf:
        """Return the specific heat capacity at constant pressure [J/(kg K)]."""
        self.check(temperature)
        return self.curves["heat_capacity"](temperature)

    def conductivity(self, temperature: AnyOf) -> AnyOf:
        """Return the thermal conductivity [W/(m K)]."""
        self.check(temperature)
        return self.curves["conductivity"](temperature)

    def vapour_pressure(self, temperature: AnyOf) -> AnyOf:
        """Return the absolute vapour pressure [Pa]; 0 for oil and air, which do not boil."""
        self.check(temperature)
        if "vapour_pressure" not in self.curves:
            return temperature * 0.0
        return self.curves["vapour_pressure"](temperature)

    def boils_at(self, pressure: float) -> float:
        """Return the temperature at which it boils.

        Parameters
        ----------
        pressure : float
            Absolute. [Pa]

        Returns
        -------
        float
            Infinite where it does not boil below its hottest. [K]

        Examples
        --------
        >>> from linewright.flow.fluids import coolant
        >>> round(coolant(0.5).boils_at(101325.0) - 273.15, 1)
        107.7
        """
        low, high = self.limits.coldest, self.limits.hottest
        if "vapour_pressure" not in self.curves or self.vapour_pressure(high) < pressure:
            return float("inf")
        for _ in range(60):
            middle = 0.5 * (low + high)
            if self.vapour_pressure(middle) < pressure:
                low = middle
            else:
                high = middle
        return 0.5 * (low + high)

    def beyond(self, temperature: float) -> tuple[str, ...]:
        """Return the properties that are carried on beyond their rows at a temperature [K]."""
        return tuple(
            name
            for name, curve in self.curves.items()
            if not curve.range[0] - 1e-9 <= temperature <= curve.range[1] + 1e-9
        )

    def check(self, temperature: float | Values) -> None:
        """Refuse a temperature at which this is no liquid, or no fluid at all.

        Parameters
        ----------
        temperature : float or array
            One or many. [K]

        Raises
        ------
        FlowError
            If any is beyond the limits of the fluid, or is no number.
        """
        ends = self.limits
        if isinstance(temperature, np.ndarray):
            low, high = float(temperature.min()), float(temperature.max())
        else:
            low = high = temperature
        if ends.coldest - 1e-6 <= low and high <= ends.hottest + 1e-6:
            return
        below = low < ends.coldest
        value, limit = (low, ends.coldest) if below else (high, ends.hottest)
        what, side = (ends.cold_end, "colder") if below else (ends.hot_end, "hotter")
        way = "Check the temperature that was typed and its unit"
        raise FlowError(
            f"{self.name}: no properties at {value - ZERO_CELSIUS:.1f} °C: it is {side} than "
            f"{what}, {limit - ZERO_CELSIUS:.1f} °C. {way}, or name another fluid."
        )
