# SPDX-License-Identifier: Apache-2.0
"""The lists of the book: each part once with what each system needs of it, each cut once."""

from linewright.base.ids import natural_key
from linewright.base.telling import told
from linewright.car.model import Car
from linewright.plan.model import Plan
from linewright.scene.collect import system_letter
from linewright.sheets.figures import figure_length
from linewright.sheets.lists import needed_by, part_note
from linewright.sheets.table import Align, Column, Table

_RIGHT = Align.RIGHT


def system_letters(car: Car) -> dict[str, str]:
    """Name each system by a letter, where no two have the same.

    Parameters
    ----------
    car : Car
        The car.

    Returns
    -------
    dict of str to str
        Letters by id; empty where they would not tell the systems apart.
    """
    letters = {system: system_letter(car, system) for system in car.systems}
    return letters if len(set(letters.values())) == len(letters) else {}


def buying_list(plan: Plan) -> Table:
    """List the parts to buy, with how many each system needs.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Table
        Rows in the order of their groups; the code stands below the name of its part.
    """
    rows: list[tuple[str, ...]] = []
    groups: list[tuple[int, str]] = []
    letters = system_letters(plan.car)
    for row in plan.takeoff.rows:
        if not groups or groups[-1][1] != row.group:
            groups.append((len(rows), row.group))
        unit = "" if row.unit == "piece" else f" {row.unit}"
        shares = ", ".join(f"{letters.get(s, s)} {need}" for s, need in row.by_system if need)
        note = told(part_note(row), plan.car.show)
        rows.append(
            (
                "□",
                f"{row.name}\n{row.code}",
                f"{row.need}{unit}",
                f"{row.order}{unit}",
                shares,
                f"{needed_by(row.because)}{f' ({note})' if note else ''}",
            )
        )
    key = f"For: {', '.join(f'{letter} {s}' for s, letter in letters.items())}." if letters else ""
    return Table(
        "buying",
        "Parts to buy",
        (
            Column("", 0.2),
            Column("Part and its code", 4.6),
            Column("Need", 0.6, _RIGHT),
            Column("Order", 0.7, _RIGHT),
            Column("For", 1.1),
            Column("Asked for by", 3.6),
        ),
        tuple(rows),
        note=f"{key} Order adds the spares; packs are rounded up by the supplier. Every id that "
        "asks for a part stands in the list parts.csv.",
        empty="Nothing to buy.",
        groups=tuple(groups),
    )


def saw_list(plan: Plan) -> Table:
    """List every piece with its length, for the saw; its card says the rest.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Table
        One row a piece, in two halves.
    """
    show = plan.car.show
    cuts = {cut.run: cut for cut in plan.takeoff.cuts}
    rows = []
    for run in sorted(plan.routes.runs, key=lambda r: natural_key(r.id)):
        cut = cuts.get(run.id)
        known, whole = "in place", "–"
        if cut is not None:
            known = figure_length(cut.cut, show, run.tier) if cut.cut else known
            whole = figure_length(cut.assembly, show, run.tier)
        rows.append(("□", run.id, f"{run.size} {run.hose}".strip(), whole, known))
    return Table(
        "saw",
        "Lengths to cut",
        (
            Column("", 0.25),
            Column("Line", 0.6),
            Column("Hose", 2.2),
            Column("With its ends", 1.3, _RIGHT),
            Column("Cut", 1.3, _RIGHT),
        ),
        tuple(rows),
        note="With its ends: laid straight, seat to seat, with slack. Cut: less both take-ups. In "
        "place: hold the hose up and mark it; its card says why.",
        empty="Nothing to cut.",
        is_halved=True,
    )
