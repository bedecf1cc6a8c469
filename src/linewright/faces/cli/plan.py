# SPDX-License-Identifier: Apache-2.0
"""``linewright plan``: the summary on the screen, everything else in files."""

import shutil
import sys
from collections.abc import Iterable, Sequence
from pathlib import Path

from linewright.base.errors import UnitError
from linewright.base.finding import Finding, Severity
from linewright.car.read import read
from linewright.faces.cli.version import version
from linewright.plan.make import make
from linewright.plan.model import Plan
from linewright.sheets.book import summary, verdict
from linewright.sheets.findings import SHAPES, risk_list

_COLOURS = {Severity.STOP: "1;31", Severity.WARN: "1;33", Severity.ASK: "1;34", Severity.NOTE: "2"}


def _is_terminal() -> bool:
    return sys.stdout.isatty()


def _wrapped(text: str, indent: str, width: int) -> str:
    import textwrap

    return textwrap.fill(text, width, initial_indent=indent, subsequent_indent=indent)


def _alike(findings: Iterable[Finding]) -> Iterable[list[Finding]]:
    """Findings of one code with one way out are told once, with all they are about."""
    groups: dict[tuple[Severity, str, str], list[Finding]] = {}
    for finding in findings:
        groups.setdefault((finding.severity, finding.code, finding.remedy), []).append(finding)
    return groups.values()


def _show_findings(alike: Sequence[Finding], width: int) -> None:
    first = alike[0]
    word = f"{SHAPES[first.severity]} {first.severity}"
    if _is_terminal():
        word = f"\x1b[{_COLOURS[first.severity]}m{word}\x1b[0m"
    about = "; ".join(", ".join(finding.about) for finding in alike)
    print(f"{word}  {first.code}")
    print(_wrapped(about, "    ", width))
    print(_wrapped(first.reason, "    ", width))
    if len(alike) > 1:
        others = f"other {len(alike) - 1}" if len(alike) > 2 else "other"
        print(_wrapped(f"The same at the {others}.", "    ", width))
    elif first.value and first.limit:
        print(_wrapped(f"Value {first.value}, limit {first.limit}.", "    ", width))
    if first.remedy:
        print(_wrapped(f"Way out: {first.remedy}", "    ", width))


def show(plan: Plan) -> None:
    """Print the summary of a plan: what it is, what it says, what to do next."""
    width = min(shutil.get_terminal_size((100, 40)).columns, 100)
    print(plan.car.name)
    for what, how_much in summary(plan):
        print(f"  {what:<14}{how_much}")
    print()
    groups = list(_alike(f for f in plan.findings if f.overruled is None))
    for alike in groups:
        _show_findings(alike, width)
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
    if any(len(alike) > 1 for alike in groups):
        print(f"Findings of one kind are told together, in {len(groups)} groups.")
    print(verdict(plan))


def _write(plan: Plan, folder: Path, paper: str) -> None:
    from datetime import date

    from linewright.faces.files.lists import write_lists
    from linewright.faces.files.pdf import write_book
    from linewright.faces.files.svg import svg
    from linewright.faces.files.views import space_of, write_views
    from linewright.faces.files.whole import write_whole
    from linewright.plan.record import dumps, record
    from linewright.scene.bending import draw_rotation
    from linewright.scene.schematic import draw, systems
    from linewright.scene.spatial import View
    from linewright.sheets import findings, lists
    from linewright.sheets.bends import ROTATION, bend_table
    from linewright.sheets.book import Picture, book
    from linewright.sheets.spatial import space_table

    drawings: dict[str, str] = {}
    pictures = []
    shown = systems(plan)
    today = date.today().isoformat()
    space = space_of(plan)
    sheets = len(shown) + (0 if space.is_empty else len(View))
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
        lists.parts_list(plan, is_whole=True),
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
    pages = book(plan, tuple(pictures), date=today, version=version())
    write_book(pages, drawings, folder / "book.pdf", paper=paper)


def plan(
    car: Path, json: Path | None, out: Path | None, paper: str, *, in_space: bool = True
) -> int:
    """Plan a document; return the exit code."""
    paper = paper.lower()
    if paper not in ("a4", "letter"):
        raise UnitError(f'--paper "{paper}" is not a paper of the book; say a4 or letter.')
    if in_space and _is_terminal():
        print("laying lines in space ...", end="", file=sys.stderr, flush=True)
    made = make(read(car), in_space=in_space)
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
        _write(made, out, paper)
    return 1 if made.stops else 0
