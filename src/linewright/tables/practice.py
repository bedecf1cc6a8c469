# SPDX-License-Identifier: Apache-2.0
"""Figures of the trade's practice, each with its grade.

``settings.csv`` holds what some stage reckons with and a document may replace; a name there
is a key of ``[settings]``. ``practice.csv`` holds the rest, which no document sets.
"""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from linewright.base.dimensions import ZERO_CELSIUS
from linewright.base.errors import TableError
from linewright.base.evidence import Figure, Grade
from linewright.tables.load import rows

#: Units of the table and what one of each is in SI.
_SI = {
    "mm": (1e-3, "m"),
    "m": (1.0, "m"),
    "-": (1.0, "-"),
    "%": (1e-2, "-"),
    "deg": (1.0, "deg"),
    "c": (1.0, "K"),
    "bar": (1e5, "Pa"),
    "um": (1e-6, "m"),
    "m/s": (1.0, "m/s"),
    "kg": (1.0, "kg"),
    "L": (1e-3, "m3"),
}


def _read(table: str) -> dict[str, Figure]:
    read = {}
    for row in rows(table):
        factor, unit = _SI[row["unit"]]
        value = float(row["value"]) * factor
        if row["unit"] == "c":
            value += ZERO_CELSIUS
        read[row["name"]] = Figure(value, unit, Grade(row["grade"]), row["what"])
    return read


@cache
def settings() -> Mapping[str, Figure]:
    """Return every setting by its name.

    Returns
    -------
    Mapping of str to Figure
        In SI; temperatures in kelvin.
    """
    return MappingProxyType(_read("settings"))


@cache
def figures() -> Mapping[str, Figure]:
    """Return the figures of the trade that no document replaces.

    Returns
    -------
    Mapping of str to Figure
        In SI; temperatures in kelvin.
    """
    return MappingProxyType(_read("practice"))


def source_of(name: str) -> str:
    """Return the key of the source of a setting or of a figure of the trade.

    Parameters
    ----------
    name : str
        Its name in ``settings.csv`` or ``practice.csv``.

    Returns
    -------
    str
        A key of ``sources.toml``.

    Raises
    ------
    TableError
        If neither table has it.

    Examples
    --------
    >>> source_of("engine-slack")
    'us-army-al0907'
    """
    for row in (*rows("settings"), *rows("practice")):
        if row["name"] == name:
            return row["source"]
    raise TableError(f"There is neither a setting nor a figure {name} in the tables.")


def setting(name: str) -> Figure:
    """Return one default of the trade.

    Parameters
    ----------
    name : str
        Its name in ``settings.csv``, e.g. ``slack``.

    Returns
    -------
    Figure
        Value in SI with grade.

    Raises
    ------
    TableError
        If there is no such setting.
    """
    try:
        return settings()[name]
    except KeyError as error:
        raise TableError(f"There is no setting {name} in settings.csv.") from error


def figure(name: str) -> Figure:
    """Return one figure of the trade that is no setting.

    Parameters
    ----------
    name : str
        Its name in ``practice.csv``, e.g. ``hottest-oil``.

    Returns
    -------
    Figure
        Value in SI with grade.

    Raises
    ------
    TableError
        If there is no such figure.

    Examples
    --------
    >>> figure("clearance-hose").value
    0.01
    """
    try:
        return figures()[name]
    except KeyError as error:
        raise TableError(f"There is no figure {name} in practice.csv.") from error


#: Every default by its name.
SETTINGS = settings()
