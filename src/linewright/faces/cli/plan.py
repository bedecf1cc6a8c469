# SPDX-License-Identifier: Apache-2.0
"""``linewright plan``: the summary on the screen, everything else in files."""

import shutil
import sys
from pathlib import Path

from linewright.base.errors import UnitError
from linewright.base.finding import Finding, Severity
from linewright.car.read import read
from linewright.faces.cli.version import version
from linewright.plan.make import make
from linewright.plan.model import Plan
from linewright.sheets.book import summary, verdict
from linewright.sheets.findings import SHAPES

_COLOURS = {Severity.STOP: "1;31", Severity.WARN: "1;33", Severity.ASK: "1;34", Severity.NOTE: "2"}


def _is_terminal() -> bool:
    return sys.stdout.isatty()


def _wrapped(text: str, indent: str, width: int) -> str:
    import textwrap

    return textwrap.fill(text, width, initial_indent=indent, subsequent_indent=indent)


def _show_finding(finding: Finding, width: int) -> None:
    word = f"{SHAPES[finding.severity]} {finding.severity}"
    if _is_terminal():
        word = f"\x1b[{_COLOURS[finding.severity]}m{word}\x1b[0m"
    print(f"{word}  {finding.code}: {', '.join(finding.about)}")
    print(_wrapped(finding.reason, "    ", width))
    if finding.value and finding.limit:
        print(_wrapped(f"{finding.value}; limit {finding.limit}", "    ", width))
    if finding.remedy:
        print(_wrapped(f"Way out: {finding.remedy}", "    ", width))


def show(plan: Plan) -> None:
    """Print the summary of a plan: what it is, what it says, what to do next."""
    width = min(shutil.get_terminal_size((100, 40)).columns, 100)
    print(plan.car.name)
    for what, how_much in summary(plan):
        print(f"  {what:<14}{how_much}")
    print()
    for severity in Severity:
        for finding in plan.findings:
            if finding.severity is severity and finding.overruled is None:
                _show_finding(finding, width)
    kept = sum(f.overruled is not None for f in plan.findings)
    if kept:
        print(f"{kept} overruled: see the book.")
    print()
    print(verdict(plan))


def _write(plan: Plan, folder: Path, paper: str) -> None:
    from datetime import date

    from linewright.faces.files.lists import write_lists
    from linewright.faces.files.pdf import write_book
    from linewright.faces.files.svg import svg
    from linewright.faces.files.whole import write_whole
    from linewright.plan.record import dumps, record
    from linewright.scene.schematic import draw, systems
    from linewright.sheets import findings, lists
    from linewright.sheets.book import Picture, book

    drawings: dict[str, str] = {}
    pictures = []
    shown = systems(plan)
    for number, system in enumerate(shown, 1):
        if _is_terminal():
            print(f"\rdrawing {system} ...\x1b[K", end="", file=sys.stderr, flush=True)
        text = svg(draw(plan, system, sheet=number, of=len(shown)))
        name = f"{system}.svg"
        drawings[name] = text
        pictures.append(Picture(system, f"System diagram: {system}", name))
        write_whole(folder / "diagrams" / name, text)
    if _is_terminal():
        print("\r\x1b[K", end="", file=sys.stderr)
    tables = (
        lists.line_list(plan),
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
    pages = book(plan, tuple(pictures), date=date.today().isoformat(), version=version())
    write_book(pages, drawings, folder / "book.pdf", paper=paper)


def plan(car: Path, json: Path | None, out: Path | None, paper: str) -> int:
    """Plan a document; return the exit code."""
    paper = paper.lower()
    if paper not in ("a4", "letter"):
        raise UnitError(f'--paper "{paper}" is not a paper of the book; say a4 or letter.')
    made = make(read(car))
    show(made)
    if json is not None:
        from linewright.faces.files.whole import write_whole
        from linewright.plan.record import dumps, record

        write_whole(json, dumps(record(made, version=version())))
    if out is not None:
        _write(made, out, paper)
    return 1 if made.stops else 0
