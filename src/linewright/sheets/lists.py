# SPDX-License-Identifier: Apache-2.0
"""The lists of a plan: lines, parts, hose, cuts, holes."""

from collections.abc import Iterable

from linewright.base.ids import natural_key
from linewright.base.telling import told
from linewright.car.model import Car, Tier
from linewright.joints.model import Termination
from linewright.plan.model import Plan
from linewright.sheets.figures import figure_length, length, marked, run
from linewright.sheets.table import Align, Column, Table
from linewright.takeoff.model import HoseRow, Row

_RIGHT = Align.RIGHT

#: What a length of hose to buy holds.
_CARRIED = (
    "Pieces carry slack, movement and 25 mm for two clean cuts; the order adds 10 % or 1 m, the "
    "greater (reference hose is only rounded up). Length to buy is not length to cut."
)


def end_words(end: Termination, car: Car) -> str:
    """Say what stands at one end of a hose, from the port outwards.

    Parameters
    ----------
    end : Termination
        One end of a hose.
    car : Car
        The car that it belongs to.

    Returns
    -------
    str
        Names of the parts joined by " + "; says so where nothing is chosen.
    """
    if end.chain is None:
        port = car.port(end.port)
        is_open = port is None or port.end.is_unknown
        return "not chosen: measure the port" if is_open else "no part joins this: see findings"
    names = [part.name for part in end.chain.parts]
    if not names and end.chain.joints:
        return "hose clamped on the spigot"
    if end.angles and end.angle is None:
        names.append(f"angle open ({', '.join(str(a) for a in end.angles)}°)")
    return " + ".join(names)


def line_list(plan: Plan) -> Table:
    """List every piece of hose, tube and pipe with its two ends.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Table
        One row a piece, in the order of the line numbers.
    """
    car = plan.car
    rows = []
    for piece in sorted(plan.routes.runs, key=lambda r: natural_key(r.id)):
        a, b = piece.ends
        rows.append(
            (
                piece.id,
                piece.system or "",
                f"{piece.size} {piece.hose}".strip(),
                a.port,
                end_words(a, car),
                b.port,
                end_words(b, car),
                figure_length(piece.string, car.show, piece.tier),
                "–" if piece.string is None else piece.by.value,
                figure_length(piece.course, car.show, Tier.PLACED),
                figure_length(piece.cut, car.show, piece.tier) if piece.cut else "in place",
                str(piece.clips),
            )
        )
    return Table(
        "lines",
        "Line list",
        (
            Column("Line", 0.6),
            Column("System", 0.8),
            Column("Size and hose", 1.3),
            Column("From", 1.1),
            Column("End A", 2.2),
            Column("To", 1.1),
            Column("End B", 2.2),
            Column("Length", 0.9, _RIGHT),
            Column("By", 0.6),
            Column("Course", 0.9, _RIGHT),
            Column("Cut", 1.1, _RIGHT),
            Column("Clips", 0.4, _RIGHT),
        ),
        tuple(rows),
        note="Length: port face to port face, by what is known best: mocked up, string, course in "
        "space, straight distance, guess. Course: the same way as laid in space between the placed "
        "ports. End A is where the line starts. In place: hold the hose up and mark it; the cut "
        "list says why.",
        empty="No lines yet: add one under [lines] in the car document.",
        is_wide=True,
    )


def needed_by(ids: Iterable[str], most: int = 6) -> str:
    """Say what asks for a part.

    Parameters
    ----------
    ids : iterable of str
        Ids of joints, lines and ports.
    most : int
        How many are named.

    Returns
    -------
    str
        The first of them in their natural order, and how many more there are.
    """
    shown = sorted(ids, key=natural_key)
    if len(shown) <= most:
        return ", ".join(shown)
    return ", ".join(shown[:most]) + f" and {len(shown) - most} more"


def part_note(row: Row) -> str:
    """Say what is special about a row of the parts list.

    Parameters
    ----------
    row : Row
        The row.

    Returns
    -------
    str
        Its note, whether it is a special order, whether it is not certain yet; "" for nothing.
    """
    words = []
    if row.note:
        words.append(row.note)
    if row.availability == "special":
        words.append("special order")
    if not row.is_certain:
        words.append("not certain yet")
    return "; ".join(words)


def parts_list(plan: Plan) -> Table:
    """List the parts to buy.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Table
        Rows in the order of their groups, each with every id that asks for it.
    """
    rows: list[tuple[str, ...]] = []
    groups: list[tuple[int, str]] = []
    for row in plan.takeoff.rows:
        if not groups or groups[-1][1] != row.group:
            groups.append((len(rows), row.group))
        counts = (str(row.need), str(row.order))
        note = told(part_note(row), plan.car.show)
        rows.append((row.name, row.code, *counts, row.unit, ", ".join(row.because), note))
    return Table(
        "parts",
        "Parts list",
        (
            Column("Part", 3.4),
            Column("Code", 2.0),
            Column("Need", 0.6, _RIGHT),
            Column("Order", 0.6, _RIGHT),
            Column("Unit", 0.5),
            Column("Asked for by", 2.2),
            Column("Note", 1.6),
        ),
        tuple(rows),
        note="Order adds the spares; packs are rounded up by the supplier.",
        empty="Nothing to buy.",
        groups=tuple(groups),
    )


def hose_list(plan: Plan) -> Table:
    """List the hose to buy, by family and size.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Table
        One row for each family and size.
    """
    show = plan.car.show

    def pieces(row: HoseRow) -> str:
        return ", ".join(f"{name} {length(metres, show)}" for name, metres in row.pieces)

    rows = [
        (
            row.name,
            row.code,
            run(row.string, show),
            run(row.need, show),
            marked(run(row.order, show), row.grade),
            f"{row.feet} ft or {row.metres} m",
            pieces(row),
        )
        for row in plan.takeoff.hoses
    ]
    return Table(
        "hose",
        "Hose to buy",
        (
            Column("Hose", 2.2),
            Column("Code", 1.6),
            Column("String", 0.7, _RIGHT),
            Column("Pieces", 0.7, _RIGHT),
            Column("Order", 0.9, _RIGHT),
            Column("By the", 1.0),
            Column("Made of", 3.0),
        ),
        tuple(rows),
        note=told(_CARRIED, show),
        empty="No hose to buy.",
    )


def cut_list(plan: Plan) -> Table:
    """List the lengths to cut.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Table
        One row a piece.
    """
    show = plan.car.show
    tiers = {r.id: r.tier for r in plan.routes.runs}
    rows = [
        (
            cut.run,
            f"{cut.size} {cut.hose}".strip(),
            cut.end_a,
            cut.end_b,
            figure_length(cut.assembly, show, tiers[cut.run]),
            figure_length(cut.cut, show, tiers[cut.run]),
            told(cut.note, show),
            "□",
        )
        for cut in sorted(plan.takeoff.cuts, key=lambda c: natural_key(c.run))
    ]
    return Table(
        "cuts",
        "Cut list",
        (
            Column("Line", 0.5),
            Column("Hose", 1.4),
            Column("End A", 1.2),
            Column("End B", 1.2),
            Column("Assembly", 1.0, _RIGHT),
            Column("Cut", 1.0, _RIGHT),
            Column("Note", 2.4),
            Column("Made", 0.4),
        ),
        tuple(rows),
        note="Assembly: laid straight, seat to seat, with slack. Cut: assembly less both take-ups. "
        "Cut in place where no cut length stands.",
        empty="Nothing to cut.",
    )


def hole_list(plan: Plan) -> Table:
    """List the holes to drill and the bungs to weld, with their gates.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Table
        One row a hole or bung.
    """
    show = plan.car.show
    rows = [
        (
            hole.id,
            hole.what,
            told(hole.where, show),
            marked(told(f"{hole.diameter.value * 1000:.1f} mm", show), hole.diameter.grade)
            if hole.diameter
            else "–",
            hole.gate,
            ", ".join(hole.because),
            told(hole.note, show),
        )
        for hole in sorted(plan.takeoff.holes, key=lambda h: natural_key(h.id))
    ]
    return Table(
        "holes",
        "Holes and bungs",
        (
            Column("No.", 0.5),
            Column("What", 1.8),
            Column("Where", 1.6),
            Column("Diameter", 0.9, _RIGHT),
            Column("Do it", 1.3),
            Column("For", 0.8),
            Column("Note", 2.6),
        ),
        tuple(rows),
        note="Offer the washer up before drilling; deburr both faces.",
        empty="No holes and no bungs.",
    )
