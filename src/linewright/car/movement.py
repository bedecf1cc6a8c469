# SPDX-License-Identifier: Apache-2.0
"""How far what rides on the engine, an axle or the exhaust goes from where it was measured."""

import re

from linewright.base import units
from linewright.base.errors import UnitError
from linewright.base.evidence import Figure, Grade
from linewright.base.ids import is_word
from linewright.base.places import height, point
from linewright.base.quantity import number_and_unit
from linewright.car.bodies import BODIES
from linewright.car.model import Travel
from linewright.car.table import Table, listed, said

_WAY = 'axle = { bump = "80 mm", droop = "60 mm", x = "10 mm" }'
_TO = re.compile(r"(?P<low>.+?)\s*(?:\bto\b|\.\.|…)\s*(?P<high>.+)")


def span(text: str) -> tuple[float, float]:
    """Read how far something goes along one axis.

    Parameters
    ----------
    text : str
        One length for both ways, as in "80 mm", or from the way back to the way on, as in
        "-60 to 80 mm".

    Returns
    -------
    tuple of float
        The way back, not more than nothing, and the way on, not less. [m]

    Raises
    ------
    UnitError
        If it cannot be read, or both lie on one side of where it was measured.

    Examples
    --------
    >>> span("-60 to 80 mm"), span("5 mm")
    ((-0.06, 0.08), (-0.005, 0.005))
    """
    met = _TO.fullmatch(text.strip())
    if met is None:
        far = units.length(text)
        return (-far if far else 0.0), far
    low, high = met["low"], met["high"]
    unit = number_and_unit(high, "length", "-60 to 80 mm")[1]
    if not number_and_unit(low, "length", "-60 to 80 mm")[1]:
        low = f"{low} {unit}"
    a, b = height(low), height(high)
    if not a <= 0.0 <= b:
        raise UnitError(
            f"{said(text)} is no travel: where it was measured lies in between, so write how far "
            f'it goes back and how far on, as in "-60 to 80 mm".'
        )
    return a, b


def _axes(text: str) -> Travel:
    """Read one travel for each axis of the car, both ways alike."""
    x, y, z = point(text)
    if min(x, y, z) < 0:
        raise UnitError(
            f"{said(text)} is no travel; it goes that far both ways, so no number is less "
            f'than nothing, as in "5, 10, 80 mm".'
        )
    return Travel((-x + 0.0, -y + 0.0, -z + 0.0), (x, y, z))


def _reach(text: str) -> Figure | Travel:
    if "," in text:
        return _axes(text)
    return Figure(units.length(text), "m", Grade.STATED, "the car document")


def _table(table: Table) -> Travel | None:
    """Read a table: along each axis, or bump and droop for what goes up and down."""
    ways = [table.read(key, span) for key in "xyz"]
    bump, droop = table.read("bump", units.length), table.read("droop", units.length)
    is_known = any(table.has(key) for key in ("x", "y", "z", "bump", "droop"))
    table.done()
    if not is_known:
        table.fault("", f"says no travel; write for example {_WAY}.")
        return None
    for key in ("bump", "droop"):
        if table.has("z") and table.has(key):
            table.fault(key, "stands beside z, which says the same; keep one of them.")
            return None
    if ways[2] is None:
        ways[2] = (-(droop or 0.0) + 0.0, bump or 0.0)
    x, y, z = (way or (0.0, 0.0) for way in ways)
    return Travel((x[0], y[0], z[0]), (x[1], y[1], z[1]))


def movement(root: Table) -> dict[str, Figure | Travel]:
    """Read ``[movement]``: how far each body that carries things goes.

    Parameters
    ----------
    root : Table
        The document.

    Returns
    -------
    dict
        By the word that ``rides`` names: a figure where it goes that far all ways, else a
        travel. What is not typed keeps the trade's figures.
    """
    table = root.table("movement", "list of movements")
    found: dict[str, Figure | Travel] = {}
    for name, value in table.items() if table else ():
        assert table is not None
        key = name.replace("_", "-")
        if not is_word(name):
            table.fault(
                name, f"{said(name)} is no body; allowed: {listed(BODIES)}, or another word."
            )
            continue
        if name == "chassis":
            table.fault(name, "stands still: all else is measured from it; strike it.")
            continue
        moves: Figure | Travel | None
        if isinstance(value, dict):
            table.raw(key)
            moves = _table(Table(value, table.at(key), root.log, "movement"))
        else:
            moves = table.read(key, _reach)
        if moves is not None:
            found[name] = moves
    return found
