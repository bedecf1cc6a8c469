# SPDX-License-Identifier: Apache-2.0
"""Figures that stand in for what a builder has not typed, and the note of each use."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from math import pi
from types import MappingProxyType

from linewright.base.dimensions import ZERO_CELSIUS
from linewright.base.errors import TableError
from linewright.base.evidence import Figure, Grade
from linewright.car.model import Component
from linewright.flow.model import Assumed
from linewright.tables.load import rows

_SI: Mapping[str, tuple[float, str]] = MappingProxyType(
    {
        "kW": (1e3, "W"),
        "W": (1.0, "W"),
        "kg": (1.0, "kg"),
        "s": (1.0, "s"),
        "rpm": (1.0 / 60.0, "1/s"),
        "bar": (1e5, "Pa"),
        "kPa": (1e3, "Pa"),
        "L/min": (1e-3 / 60.0, "m3/s"),
        "L/min per kW": (1e-3 / 60.0 / 1e3, "m3/J"),
        "L": (1e-3, "m3"),
        "mm": (1e-3, "m"),
        "m2": (1.0, "m2"),
        "m/s": (1.0, "m/s"),
        "K": (1.0, "K"),
        "W/K": (1.0, "W/K"),
        "V": (1.0, "V"),
        "-": (1.0, "-"),
    }
)


@cache
def _read() -> Mapping[str, tuple[Figure, str]]:
    found = {}
    for row in rows("behaviours"):
        shift = ZERO_CELSIUS if row["unit"] == "°C" else 0.0
        factor, unit = (1.0, "K") if shift else _SI[row["unit"]]
        value, low, high = (float(row[k]) * factor + shift for k in ("value", "low", "high"))
        figure = Figure(value, unit, Grade(row["grade"]), row["what"], low, high)
        found[row["name"]] = (figure, row["give"])
    return MappingProxyType(found)


def default(name: str) -> Figure:
    """Return what stands in where nobody has given a figure.

    Parameters
    ----------
    name : str
        Its name in ``behaviours.csv``.

    Returns
    -------
    Figure
        In SI, with its range; turns of an engine in 1/s.

    Raises
    ------
    TableError
        If there is no such row.

    Examples
    --------
    >>> default("oil-thermostat-opens").value
    355.15
    """
    try:
        return _read()[name][0]
    except KeyError as error:
        raise TableError(f"There is no {name} in behaviours.csv.") from error


def number(component: Component, key: str) -> float | None:
    """Return a trait that is a number, None where it is not typed.

    Parameters
    ----------
    component : Component
        Whose trait.
    key : str
        Its name.

    Returns
    -------
    float or None
        In SI.
    """
    value = component.traits.get(key)
    return float(value) if isinstance(value, int | float) and value is not True else None


#: Units in which a figure can be set for the whole car.
_SETTABLE = frozenset(("W", "1/s", "Pa", "m3/s", "m3", "m", "m/s", "K", "V", "kg", "s", "-"))


def chosen(typed: Mapping[str, Figure], name: str) -> Figure:
    """Return a default, or what the document sets in its place.

    Parameters
    ----------
    typed : Mapping
        Figures set under ``[flow]``.
    name : str
        Its name in ``behaviours.csv``.

    Returns
    -------
    Figure
        In SI; turns of an engine in 1/s.
    """
    figure = typed.get(name)
    if figure is None:
        return default(name)
    usual = default(name)
    value = figure.value / (2.0 * pi) if usual.unit == "1/s" else figure.value
    return Figure(value, usual.unit, Grade.STATED, f"{name} as typed")


@dataclass
class Ledger:
    """All that was assumed, once each; it fills while networks are drawn up.

    ``typed`` are the figures that the document sets under ``[flow]``; ``engine`` is the id of
    the engine, which stands for "engine".
    """

    typed: Mapping[str, Figure] = field(default_factory=dict)
    engine: str = ""
    found: dict[tuple[str, str], Assumed] = field(default_factory=dict)

    def note(self, where: str, figure: Figure, give: str) -> Figure:
        """Note a figure that stands in, and return it."""
        where = self.engine if where == "engine" and self.engine else where
        self.found.setdefault((where, figure.basis), Assumed(where, figure.basis, figure, give))
        return figure

    def default(self, where: str, name: str) -> Figure:
        """Note a default of the table as used somewhere, and return it."""
        if name in self.typed:
            return chosen(self.typed, name)
        give = _read()[name][1]
        if default(name).unit in _SETTABLE and "=" not in give:
            give = f"{give}; for all alike {name} in [flow]"
        return self.note(where, default(name), give)

    def trait(self, component: Component, key: str, name: str) -> Figure:
        """Return a figure as typed on a component, else the default, noted."""
        typed = number(component, key)
        if typed is None:
            return self.default(component.id, name)
        usual = default(name)
        return Figure(typed, usual.unit, Grade.STATED, f"{key} of {component.id}")
