# SPDX-License-Identifier: Apache-2.0
"""The fluids of a car: oils, coolants, fuels and air, from the tables or from a data sheet.

A figure between the rows of the tables is as good as they are. Beyond them it is carried on and
named by `Fluid.beyond`; beyond freezing or the critical point there is none, and asking for one
is refused.
"""

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from itertools import pairwise
from types import MappingProxyType

import numpy as np

from linewright.base.dimensions import PSI, RANKINE, ZERO_CELSIUS
from linewright.base.errors import FlowError
from linewright.base.evidence import Grade, weakest
from linewright.flow.curves import Curve, Scale, mixed
from linewright.flow.properties import Fluid
from linewright.tables.fluids import FluidRow, fluids, limits

# Between these ASTM D341 holds: it is not meant below the cloud point.
_OIL_LOW, _OIL_HIGH = ZERO_CELSIUS, ZERO_CELSIUS + 150.0
_SCALES = {
    "density": Scale.PLAIN,
    "heat_capacity": Scale.PLAIN,
    "conductivity": Scale.PLAIN,
    "viscosity": Scale.ANDRADE,
    "dynamic_viscosity": Scale.ANDRADE,
    "vapour_pressure": Scale.ANDRADE,
}
_HANDBOOK = "engine oil, unused (handbook)"
# The temperature at which data sheets give the density of oil.
_FIFTEEN = ZERO_CELSIUS + 15.0


def _curves(rows: tuple[FluidRow, ...]) -> dict[str, Curve]:
    """Curves of all properties in the rows; extrapolated rows carry on but do not hold."""
    found = {}
    for name, scale in _SCALES.items():
        having = [row for row in rows if name in row.values]
        if not having:
            continue
        held = [row.temperature for row in having if not row.is_extrapolated]
        # Vapour pressure of a mix is by a law that the hot rows obey as the cold ones do.
        low, high = (None, None) if name == "vapour_pressure" else (held[0], held[-1])
        found[name] = Curve(
            tuple(row.temperature for row in having),
            tuple(row.values[name] for row in having),
            scale,
            low,
            high,
        )
    return found


@cache
def _tabulated(name: str, limited: str = "") -> Fluid:
    rows = fluids()[name]
    grade = weakest(row.grade for row in rows if not row.is_extrapolated)
    return Fluid(name, MappingProxyType(_curves(rows)), limits()[limited or name], grade)


def water() -> Fluid:
    """Return water.

    Returns
    -------
    Fluid
        From freezing to the critical point; its rows end at 130 °C.

    Examples
    --------
    >>> round(water().boils_at(200e3) - 273.15, 1)
    120.2
    """
    return _tabulated("water")


@cache
def _strengths(kind: str) -> tuple[tuple[float, str], ...]:
    named = [name for name in limits() if name.startswith(f"{kind} glycol ")]
    return ((0.0, "water"), *((float(n.split()[2]) / 100.0, n) for n in named))


@cache
def coolant(glycol: float, kind: str = "ethylene") -> Fluid:
    """Return water with glycol.

    Parameters
    ----------
    glycol : float
        Share of the volume, 0 for water. [-]
    kind : str
        ``ethylene`` or ``propylene``.

    Returns
    -------
    Fluid
        Between two strengths of the tables it lies between them.

    Raises
    ------
    FlowError
        If the strength is beyond the tables.

    Examples
    --------
    >>> round(coolant(0.5).density(293.15))
    1073
    """
    known = _strengths(kind)
    if not 0.0 <= glycol <= known[-1][0]:
        raise FlowError(
            f"{kind} glycol {glycol * 100:.0f} % by volume: the tables go from 0 to "
            f"{known[-1][0] * 100:.0f} %. Type a share within that."
        )
    for share, name in known:
        if abs(share - glycol) < 1e-9:
            return _tabulated(name)
    weak, strong = next((a, b) for a, b in pairwise(known) if a[0] < glycol < b[0])
    part = (glycol - weak[0]) / (strong[0] - weak[0])
    first, second = _tabulated(weak[1]), _tabulated(strong[1])
    curves = {
        name: mixed(first.curves[name], second.curves[name], part)
        for name in first.curves
        if name in second.curves
    }
    a, b = first.limits, second.limits
    coldest = (1.0 - part) * a.coldest + part * b.coldest
    ends = replace(b, coldest=coldest, grade=weakest((a.grade, b.grade)))
    grade = weakest((first.grade, second.grade))
    if kind != "ethylene":
        grade = Grade.PRACTICE  # between water and one strength alone
    name = f"{kind} glycol {glycol * 100:g} % vol. in water"
    return Fluid(name, MappingProxyType(curves), ends, grade)


@cache
def _oils() -> Mapping[str, str]:
    """Oils of the table by what is typed for them: 15W-50, 30."""
    named = [n for n in fluids() if n.startswith("SAE ")]
    return MappingProxyType({n.split()[1]: n for n in named})


@cache
def oil(grade: str) -> Fluid:
    """Return an engine oil by its SAE grade.

    Parameters
    ----------
    grade : str
        E.g. ``10W-40``, ``SAE 30``; or ``handbook`` for the oil that textbooks print.

    Returns
    -------
    Fluid
        Viscosity by ASTM D341 from 40 and 100 °C. No grade fixes that at 40 °C, so the figures
        are typical ones; give those of a data sheet to `oil_of` where they are known.

    Raises
    ------
    FlowError
        If no such grade is in the tables.

    Examples
    --------
    >>> round(oil("15W-50").viscosity(373.15) * 1e6, 1)
    18.2
    """
    key = grade.upper().replace("SAE", "").replace(" ", "")
    if key == "HANDBOOK":
        rows = fluids()[_HANDBOOK]
        found = _curves(rows)
        found["viscosity"] = replace(found["viscosity"], scale=Scale.WALTHER)
        worst = weakest(row.grade for row in rows)
        return Fluid(_HANDBOOK, MappingProxyType(found), limits()["engine oil"], worst)
    if key not in _oils():
        raise FlowError(
            f"SAE {key}: this grade is not among the tables' oils ({', '.join(_oils())}). "
            "Give its viscosity at 40 °C and 100 °C from its data sheet."
        )
    rows = fluids()[_oils()[key]]
    at = {round(row.temperature - ZERO_CELSIUS): row.values for row in rows}
    slope = (at[100]["density"] - at[40]["density"]) / 60.0
    made = oil_of(
        at[40]["viscosity"], at[100]["viscosity"], at[40]["density"] - 25.0 * slope, f"SAE {key}"
    )
    return replace(made, grade=weakest(row.grade for row in rows), note="typical oil of its grade")


def oil_of(at_40: float, at_100: float, density: float, name: str = "oil") -> Fluid:
    """Return an oil by the figures of its data sheet.

    Parameters
    ----------
    at_40, at_100 : float
        Kinematic viscosity at 40 °C and at 100 °C. [m2/s]
    density : float
        At 15 °C. [kg/m3]
    name : str
        What it is called.

    Returns
    -------
    Fluid
        Viscosity by ASTM D341 through both; density, heat and conductivity as oils have them.

    Raises
    ------
    FlowError
        If the oil is no thinner hot than cold, or a figure is not one of an oil.

    Examples
    --------
    >>> thin = oil_of(32e-6, 5.4e-6, 860.0)
    >>> round(thin.viscosity(353.15) * 1e6, 1)
    8.5
    """
    if not 2e-6 <= at_100 < at_40:
        raise FlowError(
            f"{name}: a viscosity of {at_40 * 1e6:g} mm²/s at 40 °C and {at_100 * 1e6:g} at "
            "100 °C is not that of an oil: it must be thinner hot than cold, and 2 or more at "
            "100 °C. Take both from its data sheet, in mm²/s (the same as cSt)."
        )
    if not 700.0 <= density <= 1100.0:
        raise FlowError(
            f"{name}: a density of {density:g} kg/m³ at 15 °C is not that of an oil, 700 to 1100. "
            "Take it from its data sheet, in kg/m³."
        )
    sae = fluids()[_oils()["10W-40"]]
    hot, cold = sae[-1], sae[0]
    scale = density / _density_at_15("10W-40")
    stand = {
        name: Curve(
            (cold.temperature, hot.temperature),
            (cold.values[name] * factor, hot.values[name] * factor),
        )
        # Heat capacity goes as one over the root of the density (Cragoe).
        for name, factor in (("density", scale), ("heat_capacity", scale**-0.5))
    }
    stand["conductivity"] = _curves(fluids()[_HANDBOOK])["conductivity"]
    stand["viscosity"] = Curve(
        (ZERO_CELSIUS + 40.0, ZERO_CELSIUS + 100.0),
        (at_40, at_100),
        Scale.WALTHER,
        _OIL_LOW,
        _OIL_HIGH,
    )
    return Fluid(name, MappingProxyType(stand), limits()["engine oil"], Grade.STATED)


def _density_at_15(grade: str) -> float:
    cold, hot = fluids()[_oils()[grade]][0], fluids()[_oils()[grade]][-1]
    return Curve(
        (cold.temperature, hot.temperature), (cold.values["density"], hot.values["density"])
    )(_FIFTEEN)


def petrol_vapour(temperature: float, reid: float) -> float:
    """Return the vapour pressure of petrol, after US EPA AP-42 chapter 7.1 (slope 3).

    Parameters
    ----------
    temperature : float
        Of the petrol. [K]
    reid : float
        Reid vapour pressure, e.g. 9 psi in summer. [Pa]

    Returns
    -------
    float
        Absolute. [Pa]

    Examples
    --------
    >>> round(petrol_vapour(313.15, 62053.0) / 1e3)
    71
    """
    degrees = temperature / RANKINE
    root, volatile = 3.0**0.5, np.log10(reid / PSI)
    power = (
        (0.7553 - 413.0 / degrees) * root * volatile
        - (1.854 - 1042.0 / degrees) * root
        + (2416.0 / degrees - 2.013) * volatile
        - 8742.0 / degrees
        + 15.64
    )
    return float(np.exp(power)) * PSI


def fuel(name: str) -> Fluid:
    """Return a fuel.

    Parameters
    ----------
    name : str
        ``petrol`` or ``winter petrol``, ``E85``, ``ethanol``, ``methanol``.

    Returns
    -------
    Fluid
        As the tables have it.

    Raises
    ------
    FlowError
        If it is none of these.

    Examples
    --------
    >>> round(fuel("petrol").vapour_pressure(333.15) / 1e3)
    124
    """
    known = {
        "petrol": ("gasoline, summer RVP 9 psi", "petrol"),
        "winter petrol": ("gasoline, winter RVP 13 psi", "petrol"),
        "e85": ("E85 (85 % vol. ethanol)", "E85 (85 % vol. ethanol)"),
        "ethanol": ("ethanol", "ethanol"),
        "methanol": ("methanol", "methanol"),
    }
    if name.lower() not in known:
        raise FlowError(
            f"{name}: no such fuel in the tables. Name petrol, winter petrol, E85, ethanol or "
            "methanol."
        )
    return _tabulated(*known[name.lower()])


@cache
def petrol(reid: float) -> Fluid:
    """Return petrol of a vapour pressure of its own.

    Parameters
    ----------
    reid : float
        Reid vapour pressure. [Pa]

    Returns
    -------
    Fluid
        Summer petrol besides its vapour pressure.

    Raises
    ------
    FlowError
        If that is no vapour pressure of petrol.

    Examples
    --------
    >>> round(petrol(48e3).vapour_pressure(333.15) / 1e3)
    98
    """
    if not 20e3 <= reid <= 110e3:
        raise FlowError(
            f"petrol: a Reid vapour pressure of {reid / 1e3:g} kPa is not that of petrol, 20 to "
            "110 kPa. Take it from its data sheet, in kPa (1 psi is 6.895)."
        )
    base = fuel("petrol")
    at = base.curves["density"].temperatures
    vapour = Curve(at, tuple(petrol_vapour(t, reid) for t in at), Scale.ANDRADE)
    return replace(base, curves=MappingProxyType({**base.curves, "vapour_pressure": vapour}))


@cache
def air() -> Fluid:
    """Return air, an ideal gas.

    Returns
    -------
    Fluid
        Its density and viscosity go with the pressure.

    Examples
    --------
    >>> round(air().density(293.15, 250e3), 2)
    2.97
    """
    found = _curves(fluids()["air, 101.325 kPa"])
    kept = {k: found[k] for k in ("dynamic_viscosity", "heat_capacity", "conductivity")}
    grade = weakest(row.grade for row in fluids()["air, 101.325 kPa"])
    return Fluid("air", MappingProxyType(kept), limits()["air"], grade, is_gas=True)
