# SPDX-License-Identifier: Apache-2.0
"""Where a wall is that lines pass, and the holes that it has already."""

from linewright.base import units
from linewright.base.evidence import Figure, Grade, Placed
from linewright.base.places import direction, point, sides
from linewright.car.model import Hole, Panel
from linewright.car.table import Table, said

_PLACED = [placed.value for placed in Placed]


def _hole(panel: Table, number: int, value: object) -> Hole | None:
    path = (*panel.at("holes"), number)
    if isinstance(value, str):
        value = {"at": value}
    table = Table(value, path, panel.log, "hole")
    if not isinstance(value, dict):
        return None
    where = table.read("at", point)
    bore = table.figure("bore", units.length, "m", above=0)
    line = table.text("for")
    table.done()
    if where is None:
        if not table.has("at"):
            table.fault("", '"at" is missing; write for example at = "880, -200, 420 mm".')
        return None
    return Hole(where, bore.value if bore else None, line)


def _holes(table: Table) -> tuple[Hole, ...]:
    value = table.raw("holes")
    if value is None:
        return ()
    if not isinstance(value, list):
        table.fault(
            "holes",
            f"{said(value)} is no list of holes; write for example "
            f'["880, -200, 420 mm"], or tables with at, bore and for.',
        )
        return ()
    return tuple(h for h in (_hole(table, n, v) for n, v in enumerate(value)) if h)


def wall(table: Table, default: Placed) -> Panel:
    """Read where a wall is.

    Parameters
    ----------
    table : Table
        The panel.
    default : Placed
        How a position is known where nothing is said.

    Returns
    -------
    Panel
        With its place, size and holes; its id, thickness and material are read elsewhere.
    """
    where, normal = table.read("at", point), table.read("points", direction)
    extent, holes = table.read("size", sides), _holes(table)
    placed = Placed(table.choice("placed", _PLACED, default))
    if table.has("at") and not table.has("points"):
        table.fault(
            "at",
            'says where the wall is, but not which way it faces; add points = "rearward" (or up, '
            "for a floor).",
        )
    is_skin = bool(table.flag("skin"))
    if is_skin and not table.has("at"):
        table.fault(
            "skin",
            'needs the place of the skin; add at = "0, 0, 900 mm", a point of it, and the way '
            'outward, as points = "up".',
        )
    if is_skin and table.has("holes"):
        table.fault(
            "holes",
            "has no use in a skin: nothing is laid beyond it. End the line at a port inside, or "
            "strike skin.",
        )
    for key in ("points", "size", "holes"):
        if table.has(key) and not table.has("at"):
            table.fault(
                key, 'needs the place of the wall; add at = "880, 0, 500 mm", a point of it.'
            )
    nothing = Figure(0.0, "m", Grade.STATED)
    return Panel(
        "",
        nothing,
        at=where,
        points=normal,
        size=extent,
        holes=holes,
        placed=placed,
        is_skin=is_skin,
    )
