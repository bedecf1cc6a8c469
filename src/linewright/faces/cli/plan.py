# SPDX-License-Identifier: Apache-2.0
"""``linewright plan``: the summary on the screen, everything else in files."""

import shutil
import sys
from pathlib import Path

from linewright.base.errors import UnitError
from linewright.base.finding import Severity
from linewright.car.read import read
from linewright.faces.cli.version import version
from linewright.plan.make import make
from linewright.plan.model import Plan
from linewright.sheets.blocks import Block, blocks, listed
from linewright.sheets.book import summary, verdict
from linewright.sheets.findings import SHAPES, risk_list

_COLOURS = {Severity.STOP: "1;31", Severity.WARN: "1;33", Severity.ASK: "1;34", Severity.NOTE: "2"}


def _is_terminal() -> bool:
    return sys.stdout.isatty()


def _wrapped(text: str, indent: str, width: int) -> str:
    import textwrap

    return textwrap.fill(text, width, initial_indent=indent, subsequent_indent=indent)


def _show_findings(block: Block, width: int) -> None:
    word = f"{SHAPES[block.severity]} {block.severity}"
    if _is_terminal():
        word = f"\x1b[{_COLOURS[block.severity]}m{word}\x1b[0m"
    first = block.findings[0]
    is_one = len(block.findings) == 1
    print(f"{word}  {block.code}{'' if is_one else f': {len(block.findings)}'}")
    if is_one or not block.is_list:
        print(_wrapped(", ".join(first.about) if is_one else listed(block), "    ", width))
    print(_wrapped(block.reason, "    ", width))
    for about, value in block.rows if block.is_list else ():
        print(_wrapped(f"· {about}: {value}", "    ", width))
    if is_one and block.rows[0][1] and block.limit:
        print(_wrapped(f"Value {block.rows[0][1]}, limit {block.limit}.", "    ", width))
    if block.remedy:
        print(_wrapped(f"Way out: {block.remedy}", "    ", width))


def show(plan: Plan) -> None:
    """Print the summary of a plan: what it is, what it says, what to do next."""
    width = min(shutil.get_terminal_size((100, 40)).columns, 100)
    print(plan.car.name)
    for what, how_much in summary(plan):
        print(f"  {what:<14}{how_much}")
    print()
    groups = blocks(plan.car, (f for f in plan.findings if f.overruled is None))
    for block in groups:
        _show_findings(block, width)
    kept = sum(f.overruled is not None for f in plan.findings)
    if kept:
        print(f"{kept} overruled: see the book.")
    risks = risk_list(plan)
    if risks.rows:
        print()
        print(f"{risks.title}:")
        for kind, about, what, remedy, _ in risks.rows:
            print(_wrapped(f"· {kind}: {about}", "  ", width))
            print(_wrapped(what, "      ", width))
            print(_wrapped(f"Way out: {remedy}", "      ", width))
    print()
    if any(len(block.findings) > 1 for block in groups):
        print(f"Findings of one kind are told together, in {len(groups)} groups.")
    print(verdict(plan))


def write(plan: Plan, folder: Path, paper: str) -> None:
    """Write the book, what is behind it, lists, pictures and the record into a folder.

    Parameters
    ----------
    plan : Plan
        The plan.
    folder : Path
        Where to; made if missing.
    paper : str
        ``a4`` or ``letter``.
    """
    from datetime import date

    from linewright.faces.files.lists import write_lists
    from linewright.faces.files.pdf import write_book
    from linewright.faces.files.svg import svg
    from linewright.faces.files.views import space_of, write_views
    from linewright.faces.files.whole import write_whole
    from linewright.plan.flows import compute
    from linewright.plan.record import dumps, record
    from linewright.scene.bending import draw_rotation
    from linewright.scene.plots_flow import how_many, plots
    from linewright.scene.schematic import draw, systems
    from linewright.scene.spatial import View
    from linewright.sheets import findings, lists
    from linewright.sheets.bends import ROTATION, bend_table
    from linewright.sheets.book import book, booked
    from linewright.sheets.grounds import grounds
    from linewright.sheets.leaves import Picture
    from linewright.sheets.spatial import space_table

    drawings: dict[str, str] = {}
    pictures = []
    shown = systems(plan)
    today = date.today().isoformat()
    space = space_of(plan)
    flows = compute(plan)
    states = booked(flows)
    before = len(shown) + (0 if space.is_empty else len(View))
    sheets = before + how_many(states, once=True)
    for number, system in enumerate(shown, 1):
        if _is_terminal():
            print(f"\rdrawing {system} ...\x1b[K", end="", file=sys.stderr, flush=True)
        text = svg(draw(plan, system, sheet=number, of=sheets, date=today))
        name = f"{system}.svg"
        drawings[name] = text
        pictures.append(Picture(system, f"System diagram: {system}", name))
        write_whole(folder / "diagrams" / name, text)
    for view, text in write_views(plan, space, folder, first=len(shown) + 1, of=sheets, date=today):
        name = f"view-{view.value}.svg"
        drawings[name] = text
        pictures.append(Picture("", f"{view.value.capitalize()} view", name))
    plotted = []
    for of_system, name, title, drawing in plots(
        plan.car, states, date=today, first=before + 1, of=sheets, once=True
    ):
        drawings[f"{name}.svg"] = svg(drawing)
        plotted.append(Picture(of_system, title, f"{name}.svg"))
        write_whole(folder / "plots" / f"{name}.svg", drawings[f"{name}.svg"])
    bent = bend_table(plan)
    if bent.rows:
        drawings[ROTATION] = svg(draw_rotation())
        write_whole(folder / "diagrams" / ROTATION, drawings[ROTATION])
    if _is_terminal():
        print("\r\x1b[K", end="", file=sys.stderr)
    tables = (
        lists.line_list(plan),
        space_table(plan.car, plan.routes.courses),
        *((bent,) if bent.rows else ()),
        lists.parts_list(plan),
        lists.hose_list(plan),
        lists.cut_list(plan),
        lists.hole_list(plan),
        findings.findings_list(plan),
        findings.proof_list(plan),
        findings.risk_list(plan),
        findings.step_list(plan),
    )
    write_lists(tables, folder / "lists")
    write_whole(folder / "plan.json", dumps(record(plan, version=version())))
    pages = book(
        plan,
        tuple(pictures),
        date=today,
        version=version(),
        flows=flows,
        plots=tuple(plotted),
    )
    write_book(pages, drawings, folder / "book.pdf", paper=paper)
    behind = grounds(plan, date=today, version=version(), flows=flows)
    write_book(behind, {}, folder / "grounds.pdf", paper=paper)


def plan(
    car: Path, json: Path | None, out: Path | None, paper: str, *, in_space: bool = True
) -> int:
    """Plan a document; return the exit code."""
    paper = paper.lower()
    if paper not in ("a4", "letter"):
        raise UnitError(f'--paper "{paper}" is not a paper of the book; say a4 or letter.')
    if in_space and _is_terminal():
        print("laying lines in space ...", end="", file=sys.stderr, flush=True)
    made = make(read(car), in_space=in_space, with_flow=True)
    if in_space and _is_terminal():
        print("\r\x1b[K", end="", file=sys.stderr)
    if json is None or str(json) != "-":
        show(made)
    if json is not None:
        from linewright.faces.files.whole import write_whole
        from linewright.plan.record import dumps, record

        text = dumps(record(made, version=version()))
        if str(json) == "-":
            # Nothing else may stand on the same stream: it is read by a program.
            print(text.rstrip("\n"))
        else:
            write_whole(json, text)
    if out is not None:
        write(made, out, paper)
        if json is None or str(json) != "-":
            width = min(shutil.get_terminal_size((100, 40)).columns, 100)
            words = (
                "book.pdf for the car, grounds.pdf (what it rests on), lists, pictures, plan.json."
            )
            print(_wrapped(f"Written to {out}: {words}", "", width))
    return 1 if made.stops else 0
