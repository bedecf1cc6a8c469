# SPDX-License-Identifier: Apache-2.0
"""Bend schedule on paper: what the bench needs of each hard tube and charge pipe."""

from math import degrees

from linewright.plan.model import Plan
from linewright.routes.bent import Schedule, schedules
from linewright.sheets.figures import length
from linewright.sheets.table import Align, Column, Table

_RIGHT = Align.RIGHT

#: File of the drawing that goes with the schedule (`scene.bending`).
ROTATION = "bends.svg"

#: Under this a rotation is none. [deg]
_NONE = 0.5


def bend_table(plan: Plan) -> Table:
    """List every bend of every tube and pipe that is laid in space.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Table
        By line, from its end A: one row a bend, and one for the last straight with the
        developed length and the blank.
    """
    show = plan.car.show
    rows: list[tuple[str, ...]] = []
    groups: list[tuple[int, str]] = []
    for made in schedules(plan.car, plan.routes):
        groups.append((len(rows), _heading(plan, made)))
        for number, bend in enumerate(made.bends, 1):
            rows.append(
                (
                    made.id,
                    str(number),
                    length(bend.straight, show),
                    rotation_words(bend.rotation) if number > 1 else "–",
                    f"{degrees(bend.angle):.1f}°",
                    length(made.radius.value, show),
                    "" if bend.stocked is None else f"{bend.stocked}°",
                    "",
                    "",
                )
            )
        rows.append(
            (
                made.id,
                "end",
                length(made.last, show),
                "",
                "",
                "",
                "",
                length(made.developed, show),
                "" if made.is_pipe else length(made.blank, show),
            )
        )
    return Table(
        "bends",
        "Bend schedule",
        (
            Column("Line", 0.5),
            Column("Bend", 0.5),
            Column("Straight before", 0.9, _RIGHT),
            Column("Rotation", 1.0, _RIGHT),
            Column("Angle", 0.7, _RIGHT),
            Column("Radius", 0.7, _RIGHT),
            Column("Cut from", 0.7, _RIGHT),
            Column("Developed", 0.9, _RIGHT),
            Column("Blank", 0.9, _RIGHT),
        ),
        tuple(rows),
        note="From end A. Straight: between the ends of two bends, not between their corners. "
        "Rotation: look along the tube from A to B; + turns the plane of the next bend clockwise "
        "before it is bent, − counter-clockwise (drawing: rotation of a bend). Benders differ in "
        "this sign, in springback and in where the shoe starts: bend a piece of scrap first. "
        "Radius is to the centreline, of the bends and shoes that are usual in the trade: "
        "measure your own. Cut from: mandrel bend that the angle is cut from, square to its "
        "centreline. Blank: developed and what is squared off at both ends; no stretch taken off.",
        empty="No hard tube or charge pipe is laid in space.",
        groups=tuple(groups),
    )


def rotation_words(rotation: float) -> str:
    """Say how far a tube is turned before its next bend.

    Parameters
    ----------
    rotation : float
        Right-handed about the way from A to B. [rad]

    Returns
    -------
    str
        With the sign and the way it turns for who looks along the tube.

    Examples
    --------
    >>> from math import radians
    >>> rotation_words(radians(90)), rotation_words(radians(-30)), rotation_words(0.0)
    ('+90.0° clockwise', '−30.0° counter-clockwise', '0°')
    """
    shown = degrees(rotation)
    if abs(shown) < _NONE / 10.0:
        return "0°"
    if abs(abs(shown) - 180.0) < _NONE / 10.0:
        return "180°"
    if shown > 0.0:
        return f"+{shown:.1f}° clockwise"
    return f"−{-shown:.1f}° counter-clockwise"


def _heading(plan: Plan, made: Schedule) -> str:
    line = plan.car.lines[made.line]
    size = f"{made.outside * 1e3:.4g} mm"
    words = f"{made.id}: {line.from_port} to {line.to_port}, "
    words += f"charge pipe {size}" if made.is_pipe else f"hard tube {line.size}, {size} outside"
    if made.is_pipe:
        shown = ", ".join(length(run, plan.car.show) for run in made.inserts)
        words += f"; straight pieces beside the bends: {shown or 'none'}"
        words += f"; {made.welds} weld{'' if made.welds == 1 else 's'}"
    return words
