# SPDX-License-Identifier: Apache-2.0
"""Defaults of the trade, each with its grade: settings that a document may replace."""

from functools import cache

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
}


@cache
def settings() -> dict[str, Figure]:
    """Return every setting by its name.

    Returns
    -------
    dict of str to Figure
        In SI; temperatures in kelvin.
    """
    read = {}
    for row in rows("settings"):
        factor, unit = _SI[row["unit"]]
        value = float(row["value"]) * factor
        if row["unit"] == "c":
            value += 273.15
        read[row["name"]] = Figure(value, unit, Grade(row["grade"]), row["what"])
    return read


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


#: Every default by its name.
SETTINGS = settings()
