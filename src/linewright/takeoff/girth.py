# SPDX-License-Identifier: Apache-2.0
"""How thick a hose, tube or pipe is outside: what clips and clamps go by."""

from linewright.base.dimensions import INCH
from linewright.base.evidence import Figure, Grade, weakest
from linewright.car.model import Car, Construction, Line
from linewright.joints.offered import setting
from linewright.tables import hoses

_SIXTEENTH = INCH / 16

#: Clamped hose below this bore has the thin wall of SAE J20 20R3 heater hose. [m]
_SMALL = 0.009

#: What paper says of a wall that no table and no builder gave.
_ASSUMED = "assumed"

#: Stands in for a size that nobody has chosen; its grade and basis say so. [m]
_MIDDLING = 0.012


def outside(car: Car, line: Line) -> Figure:
    """Outside diameter of a line's hose, tube or pipe, lying free.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        The line.

    Returns
    -------
    Figure
        From the table of its family; where that has none, the bore and a default wall,
        which its grade and basis say.
    """
    bore = named(line.size)
    if line.construction is Construction.TUBE and line.size.startswith("-"):
        return Figure(bore.value, "m", Grade.DERIVED, "dash in sixteenths")
    if line.construction is Construction.PIPE:
        return bore
    size = _size(line)
    if size is not None and size.outside is not None:
        return size.outside
    if size is not None and size.bore is not None:
        bore = size.bore
    return on_spigot(car, bore, None)


def on_spigot(car: Car, spigot: Figure, line: Line | None) -> Figure:
    """Outside diameter of a hose pushed over a spigot.

    Parameters
    ----------
    car : Car
        The car document as read.
    spigot : Figure
        Outside diameter of the bead or barb [m].
    line : Line or None
        The line whose hose it is; None takes the default wall.

    Returns
    -------
    Figure
        Spigot and two walls; the wall is that of the hose's family or the default.
    """
    wall = _wall(line)
    assumed = ""
    if wall is None:
        name = "hose-wall-small" if spigot.value < _SMALL else "hose-wall"
        assumed = "" if name in car.settings else f"{_ASSUMED} "
        wall = setting(car, name)
    return Figure(
        spigot.value + 2 * wall.value,
        "m",
        weakest([spigot.grade, wall.grade]),
        f"spigot {spigot.value * 1000:g} mm and two {assumed}walls of {wall.value * 1000:g} mm",
    )


def for_outside(over: Figure) -> str:
    """Say what a clip or grommet goes by, and whether that rests on an assumed wall.

    Parameters
    ----------
    over : Figure
        Outside diameter, as `outside` gives it. [m]

    Returns
    -------
    str
        The figure; where the wall is assumed, that it is to be measured.

    Examples
    --------
    >>> for_outside(Figure(0.0129, "m", Grade.READ, "SAE 100R5 -4"))
    'for 12.9 mm outside'
    """
    doubt = " (wall assumed: measure the hose)" if f" {_ASSUMED} " in over.basis else ""
    return f"for {over.value * 1000:.1f} mm outside{doubt}"


def named(size: str) -> Figure:
    """Diameter that a size is named after.

    Parameters
    ----------
    size : str
        A dash, or millimetres as a plain number.

    Returns
    -------
    Figure
        The diameter [m]; a middling one, graded so, where no size was chosen.

    Examples
    --------
    >>> named("-8").value, named("38").value
    (0.0127, 0.038)
    """
    if size.startswith("-"):
        return Figure(
            int(size[1:]) * _SIXTEENTH, "m", Grade.PRACTICE, "dash in sixteenths, taken as the bore"
        )
    if not size.replace(".", "", 1).isdigit():
        return Figure(_MIDDLING, "m", Grade.RECALLED, "size not chosen yet")
    return Figure(float(size) / 1000, "m", Grade.STATED, "as typed")


def _size(line: Line) -> hoses.HoseSize | None:
    if line.construction in (Construction.TUBE, Construction.PIPE):
        return None
    try:
        return hoses.size(hoses.family(line.hose).key, line.size)
    except LookupError:
        return None


def _wall(line: Line | None) -> Figure | None:
    if line is None:
        return None
    size = _size(line)
    if size is None or size.outside is None or size.bore is None:
        return None
    grade = weakest([size.outside.grade, size.bore.grade])
    return Figure((size.outside.value - size.bore.value) / 2, "m", grade, "outside less bore")
