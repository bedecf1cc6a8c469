# SPDX-License-Identifier: Apache-2.0
"""Properties of fluids as the tables have them, in SI."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from linewright.base.dimensions import ZERO_CELSIUS
from linewright.base.errors import TableError
from linewright.base.evidence import Figure, Grade
from linewright.tables.load import rows

#: Columns of properties: the name here, the column, what one of its unit is in SI.
_COLUMNS = (
    ("density", "density_kg_per_m3", 1.0),
    ("heat_capacity", "cp_j_per_kg_k", 1.0),
    ("viscosity", "kinematic_viscosity_mm2_per_s", 1e-6),
    ("dynamic_viscosity", "dynamic_viscosity_mpa_s", 1e-3),
    ("conductivity", "conductivity_w_per_m_k", 1.0),
    ("vapour_pressure", "vapour_pressure_kpa_abs", 1e3),
)


@dataclass(frozen=True, slots=True)
class FluidRow:
    """What the table has of a fluid at one temperature [K]; SI, by name of the property."""

    temperature: float
    values: Mapping[str, float]
    source: str
    grade: Grade
    is_extrapolated: bool


@dataclass(frozen=True, slots=True)
class Limits:
    """Temperatures beyond which a fluid is not what it was. [K]"""

    coldest: float
    hottest: float
    cold_end: str
    hot_end: str
    grade: Grade


@cache
def fluids() -> Mapping[str, tuple[FluidRow, ...]]:
    """Return the rows of every fluid by its name, coldest first.

    Returns
    -------
    Mapping of str to tuple of FluidRow
        In the order of the table.
    """
    read: dict[str, list[FluidRow]] = {}
    for row in rows("fluids"):
        values = {name: float(row[c]) * si for name, c, si in _COLUMNS if row[c]}
        read.setdefault(row["fluid"], []).append(
            FluidRow(
                float(row["temperature_c"]) + ZERO_CELSIUS,
                MappingProxyType(values),
                row["source"],
                Grade(row["grade"]),
                "extrapolated" in " ".join(row.values()),
            )
        )
    ordered = {k: tuple(sorted(v, key=lambda row: row.temperature)) for k, v in read.items()}
    return MappingProxyType(ordered)


@cache
def limits() -> Mapping[str, Limits]:
    """Return the temperatures beyond which fluids are not what they were.

    Returns
    -------
    Mapping of str to Limits
        By name of the fluid; all oils under ``engine oil``.
    """
    return MappingProxyType(
        {
            row["fluid"]: Limits(
                float(row["coldest_c"]) + ZERO_CELSIUS,
                float(row["hottest_c"]) + ZERO_CELSIUS,
                row["cold_end"],
                row["hot_end"],
                Grade(row["grade"]),
            )
            for row in rows("fluid_limits")
        }
    )


@cache
def _figures(table: str) -> Mapping[str, Figure]:
    read = {}
    for row in rows(table):
        factor, unit = (1e-3, "m") if row["unit"] == "mm" else (1.0, row["unit"])
        low, high = (float(row[k]) * factor for k in ("low", "high"))
        value = float(row.get("value", "1")) * factor
        read[row["name"]] = Figure(value, unit, Grade(row["grade"]), row["what"], low, high)
    return MappingProxyType(read)


def _one(table: str, name: str) -> Figure:
    try:
        return _figures(table)[name]
    except KeyError as error:
        raise TableError(f"There is no {name} in {table}.csv.") from error


def roughness(name: str) -> Figure:
    """Return the roughness inside a line, with its bounds.

    Parameters
    ----------
    name : str
        E.g. ``rubber``, ``drawn-tube``.

    Returns
    -------
    Figure
        In metres.

    Raises
    ------
    TableError
        If there is no such row.

    Examples
    --------
    >>> roughness("rubber").value
    1e-05
    """
    return _one("roughness", name)


def roughness_of(liner: str) -> Figure:
    """Return the roughness inside a line by what it is lined with.

    Parameters
    ----------
    liner : str
        As a family of hose has it, e.g. ``PTFE, carbon-filled``; what no row names is taken as
        rubber, the roughest of hoses.

    Returns
    -------
    Figure
        In metres, with its bounds.

    Examples
    --------
    >>> roughness_of("PTFE, carbon-filled").value, roughness_of("CPE or nitrile").value
    (1.5e-06, 1e-05)
    """
    for row in rows("roughness"):
        words = row["liner"].split("|") if row["liner"] else ()
        if any(word.lower() in liner.lower() for word in words):
            return roughness(row["name"])
    return roughness("rubber")


def loss(name: str) -> Figure:
    """Return a loss or discharge coefficient, with its bounds.

    Parameters
    ----------
    name : str
        E.g. ``swept-90``, ``tee-branch``, ``hole-sharp``.

    Returns
    -------
    Figure
        Without unit; ``losses.csv`` says on which bore.

    Raises
    ------
    TableError
        If there is no such row.

    Examples
    --------
    >>> loss("swept-90").value
    0.35
    """
    return _one("losses", name)


def spread(name: str) -> Figure:
    """Return how far a truth may lie from what is reckoned with, as factors.

    Parameters
    ----------
    name : str
        E.g. ``bore``, ``viscosity``, ``loss``.

    Returns
    -------
    Figure
        1 with its bounds.

    Raises
    ------
    TableError
        If there is no such row.

    Examples
    --------
    >>> spread("viscosity").low
    0.85
    """
    return _one("spreads", name)


def heat_figure(name: str) -> Figure:
    """Return a figure of heat transfer or of drains, with its bounds.

    Parameters
    ----------
    name : str
        E.g. ``split-radiator``, ``power-air``, ``outside-still``, ``froth``.

    Returns
    -------
    Figure
        In SI.

    Raises
    ------
    TableError
        If there is no such row.

    Examples
    --------
    >>> heat_figure("split-radiator").value
    0.75
    """
    return _one("heat_figures", name)
