# SPDX-License-Identifier: Apache-2.0
"""Rules of thumb of the trade, each with its range and grade."""

from functools import cache

from linewright.base.errors import TableError
from linewright.base.evidence import Figure, Grade
from linewright.tables.load import rows

#: Units of the rules that flow asks for, and what one of each is in SI.
_SI = {
    "%": (1e-2, "-"),
    "-": (1.0, "-"),
    "g/kWh": (1e-3 / 3.6e6, "kg/J"),
    "L/min per kW": (1e-3 / 60.0 / 1e3, "m3/J"),
    "%/bar": (1e-7, "1/Pa"),
    "m/s": (1.0, "m/s"),
    "bar": (1e5, "Pa"),
    "bar abs": (1e5, "Pa"),
    "kPa": (1e3, "Pa"),
    "s": (1.0, "s"),
    "K": (1.0, "K"),
}


@cache
def rule(number: str) -> Figure:
    """Return a rule of thumb.

    Parameters
    ----------
    number : str
        Its number in ``rules_of_thumb.csv``, e.g. ``R74``.

    Returns
    -------
    Figure
        The usual value with its range, in SI.

    Raises
    ------
    TableError
        If there is no such rule, or none with a value.

    Examples
    --------
    >>> round(rule("R74").value * 3.6e9)
    295
    """
    for row in rows("rules_of_thumb"):
        if row["id"] != number:
            continue
        if row["unit"] not in _SI:
            break
        factor, unit = _SI[row["unit"]]
        low, value, high = (
            float(row[key]) * factor if row[key] else None for key in ("low", "typical", "high")
        )
        if value is None:
            break
        return Figure(value, unit, Grade(row["grade"]), row["quantity"], low, high)
    raise TableError(f"There is no rule {number} with a value in rules_of_thumb.csv.")
