# SPDX-License-Identifier: Apache-2.0
"""``linewright flow``: what flows in each system, its margins, and what they rest on."""

import re
import shutil
import sys
import textwrap
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path

from linewright.base.errors import UnitError
from linewright.base.finding import Finding, Severity
from linewright.base.ids import natural_key
from linewright.car.model import Car
from linewright.car.read import read
from linewright.car.running import usual
from linewright.faces.cli.version import version
from linewright.flow.model import Flows, SystemState, Verdict
from linewright.plan.flows import also, compute, sizes_in
from linewright.plan.make import make
from linewright.plan.model import Plan
from linewright.scene.values import condition_at
from linewright.sheets import flow as tables
from linewright.sheets import flow_says as says
from linewright.sheets.findings import SHAPES
from linewright.sheets.flow_lists import flow_lists
from linewright.sheets.flow_reading import contradicted, read_reading, reading_words
from linewright.sheets.flow_time import time_table
from linewright.sheets.table import Align, Table

_COLOURS = {Verdict.NOT_MET: "1;31", Verdict.UNSURE: "1;33", Verdict.MET: "2"}


_BAND = re.compile(r"\((-?[\d.,]+) to (-?[\d.,]+)\)")

#: Most assumed figures that are told where no system is asked for.
_ASSUMED = 12


def _width() -> int:
    return min(shutil.get_terminal_size((100, 40)).columns, 110)


def _wrapped(text: str, indent: str, first: str = "") -> None:
    print(textwrap.fill(text, _width(), initial_indent=first or indent, subsequent_indent=indent))


def _mark(verdict: Verdict) -> str:
    shape = says.SHAPES[verdict]
    return f"\x1b[{_COLOURS[verdict]}m{shape}\x1b[0m" if sys.stdout.isatty() else shape


def _shorter(cell: str) -> str:
    """A band with a dash for its "to", so that a table fits a narrow terminal."""
    return _BAND.sub(r"(\1–\2)", cell)


def _rows(table: Table, indent: str = "  ", *, has_heads: bool = True) -> None:
    """Print a table as columns, those without a word left out, its groups as headings."""
    heads = [c.head for c in table.columns]
    table = replace(table, rows=tuple(tuple(map(_shorter, row)) for row in table.rows))
    used = [i for i in range(len(heads)) if any(row[i] for row in table.rows)]
    widths = [max(len(heads[i]), *(len(row[i]) for row in table.rows)) for i in used]
    groups = dict(table.groups)

    def line(cells: Sequence[str]) -> str:
        shown = (
            cells[i].rjust(width)
            if table.columns[i].align is Align.RIGHT
            else cells[i].ljust(width)
            for i, width in zip(used, widths, strict=True)
        )
        return f"{indent}{'  '.join(shown)}".rstrip()

    before = len(indent) + sum(widths[:-1]) + 2 * (len(used) - 1)
    room = max(_width() - before, 20)
    print(line(heads))
    for number, row in enumerate(table.rows):
        if number in groups and has_heads:
            print(f"{indent}{groups[number]}")
        # What does not fit into the last column goes on below it.
        first, *more = textwrap.wrap(row[used[-1]], room) or [""]
        print(line((*row[: used[-1]], first, *row[used[-1] + 1 :])))
        for rest in more:
            print(" " * before + rest)


def _shown_conditions(flows: Flows, system: str, asked: str) -> tuple[str, ...]:
    """The condition asked for; else the one that asks most of the system, and full power."""
    known = tables.conditions(flows, system)
    if asked:
        return tuple(name for name in known if name == asked)

    telling = says.telling(flows, system)
    return tuple(name for name in known if name in telling)


def _tell_margins(car: Car, state: SystemState) -> None:
    for margin in says.ordered(state):
        if margin.verdict is Verdict.MET:
            continue
        words = says.margin_words(car, state, margin)
        print(
            textwrap.fill(
                f"{says.SHAPES[margin.verdict]} {words}.",
                _width(),
                initial_indent="  ",
                subsequent_indent="    ",
            ).replace(says.SHAPES[margin.verdict], _mark(margin.verdict), 1)
        )
    fast = says.fast_words(car, state)
    if fast:
        _wrapped(f"{fast[:1].upper()}{fast[1:]}.", "    ", "  ▲ ")
    met = says.met_words(state)
    if met:
        _wrapped(f"Met: {met}.", "    ", f"  {says.SHAPES[Verdict.MET]} ")


def _tell_system(car: Car, flows: Flows, system: str, asked: str) -> None:
    known = car.systems.get(system)
    shown = _shown_conditions(flows, system, asked)
    for condition in shown:
        print()
        fluid = f", {known.fluid}" if known is not None and known.fluid else ""
        state = flows.state(system, condition)
        stands = says.stands_words(car, state) if state is not None else ""
        print(f"{system}{fluid}, {condition_at(condition)}{stands}")
        table = tables.line_table(car, flows, system, condition)
        if table.rows:
            _rows(table, has_heads=False)  # the condition has just been said
        else:
            print(f"  {table.empty}")
        if state is not None and state.series:
            print("  Lines are those of the moment when it is hottest. Through time:")
            _rows(time_table(car, flows, system, condition))
        if state is not None:
            _tell_margins(car, state)
            if state.also is not None:
                _wrapped(
                    "There is a second steady state; which one the car is in depends on how it "
                    "was started.",
                    "    ",
                    "  ▲ ",
                )
    for state in tables.states(flows, system):
        if not asked and state.condition not in shown:
            bad = tuple(m for m in state.margins if m.verdict is not Verdict.MET)
            _tell_margins(car, replace(state, margins=bad))


def _tell_assumed(car: Car, flows: Flows, system: str) -> None:
    table = tables.assumed_table(car, flows, system)
    if not table.rows:
        return
    print("\nAssumed, since nobody gave it:")
    most = len(table.rows) if system else _ASSUMED
    for where, what, value, give in table.rows[:most]:
        _wrapped(f"{where}: {what}, {value}", "      ", "  ")
        if give:
            _wrapped(f"Better: give {give}.", "      ", "    ")
    if len(table.rows) > most:
        left = len(table.rows) - most
        print(f"  and {left} more: --system NAME lists all of a system, --out writes all.")


def _tell_findings(findings: Iterable[Finding]) -> None:
    for finding in findings:
        if finding.overruled is not None:
            continue
        print(f"\n{SHAPES[finding.severity]} {finding.severity}  {finding.code}")
        _wrapped(", ".join(finding.about), "    ")
        _wrapped(finding.reason, "    ")
        if finding.remedy:
            _wrapped(f"Way out: {finding.remedy}", "    ")


def tell(car: Car, flows: Flows, *, condition: str = "", system: str = "") -> None:
    """Print what was computed: each system with its margins, sizes, assumptions, gauges.

    Parameters
    ----------
    car : Car
        The car.
    flows : Flows
        The results.
    condition : str
        This one alone; "" for the one that asks most of each system.
    system : str
        This one alone; "" for all.
    """
    known = dict.fromkeys(s.system for s in flows.states)
    shown = [s for s in dict.fromkeys((*car.systems, *known)) if s in known]
    shown = [s for s in shown if system in ("", s)]
    print(car.name)
    _wrapped(says.CAUTION, "  ")
    for name in shown:
        _tell_system(car, flows, name, condition)
    limiting = {
        s.limiting.where
        for s in flows.states
        if s.limiting is not None and condition in ("", s.condition)
    }
    sizes = tables.size_table(car, flows, system, None if system else limiting)
    if sizes.rows:
        print("\nSizes")
        _rows(sizes)
    _tell_assumed(car, flows, system)
    gauges = tables.gauge_table(car, flows, condition)
    if gauges.rows:
        print("\nWhat the gauges should show")
        _rows(gauges, has_heads=not condition)
    _tell_findings(
        f for f in flows.findings if system in ("", f.system) or f.severity is Severity.STOP
    )
    print()
    for name in shown:
        words = says.verdict_words(flows, name)
        print(f"{name}: {words[:1].lower()}{words[1:]}")
    others = [c for c in tables.conditions(flows, system) if c != condition]
    if others and not condition:
        print(f"More of one condition: --condition {others[0]} (or {', '.join(others[1:])}).")


def check_asked(car: Car, flows: Flows, condition: str, system: str) -> None:
    """Refuse a condition or a system that there is nothing of.

    Parameters
    ----------
    car : Car
        The car.
    flows : Flows
        The results.
    condition, system : str
        As typed; "" for all.

    Raises
    ------
    UnitError
        If there are no results of it; the message lists those that there are.
    """
    if system and system not in car.systems:
        names = ", ".join(sorted(car.systems, key=natural_key)) or "none"
        raise UnitError(f'--system "{system}" is no system of {car.name}. Its systems: {names}.')
    known = tables.conditions(flows)
    if condition and condition not in known:
        raise UnitError(
            f'--condition "{condition}" is none that was computed. '
            f"Those: {', '.join(known) or 'none'}."
        )


def write(plan: Plan, flows: Flows, folder: Path, *, paper: str, system: str = "") -> None:
    """Write plots, diagrams, pages, lists and the record into a folder.

    Parameters
    ----------
    plan : Plan
        The plan that the results are of.
    flows : Flows
        The results.
    folder : Path
        Where to; made if missing.
    paper : str
        ``a4`` or ``letter``.
    system : str
        Plots and pages of this one alone; "" for all.
    """
    from datetime import date

    from linewright.faces.files.lists import write_lists
    from linewright.faces.files.pdf import tables_pdf
    from linewright.faces.files.svg import svg
    from linewright.faces.files.whole import write_whole
    from linewright.plan.record import dumps
    from linewright.plan.record_flow import record_flow
    from linewright.scene.plots_flow import how_many, plots
    from linewright.scene.plots_sizes import size_plots
    from linewright.scene.schematic import draw, systems
    from linewright.sheets.book import flow_leaves
    from linewright.sheets.leaves import Picture

    car = plan.car
    today = date.today().isoformat()
    kept = [
        state
        for name in dict.fromkeys(s.system for s in flows.states)
        if system in ("", name)
        for state in tables.states(flows, name)
    ]
    drawings: dict[str, str] = {}
    pictures = []
    names = tuple(dict.fromkeys(state.system for state in kept))
    before = how_many(kept)
    total = before + len(size_plots(car, flows, names))
    drawn = plots(car, kept, date=today, of=total)
    for of_system, name, title, drawing in (
        *drawn,
        *size_plots(car, flows, names, date=today, first=before + 1, of=total),
    ):
        drawings[f"{name}.svg"] = svg(drawing)
        pictures.append(Picture(of_system, title, f"{name}.svg"))
        write_whole(folder / "plots" / f"{name}.svg", drawings[f"{name}.svg"])
    for name in systems(plan):
        shown = _shown_conditions(flows, name, "") if system in ("", name) else ()
        for condition in shown:
            text = svg(draw(plan, name, date=today, state=flows.state(name, condition)))
            file = f"{name}-{condition}-diagram.svg"
            drawings[file] = text
            pictures.insert(0, Picture(name, f"{name}, {condition_at(condition)}", file))
            write_whole(folder / "diagrams" / f"{name}-{condition}.svg", text)
    write_lists(flow_lists(car, flows), folder / "lists")
    write_whole(folder / "flow.json", dumps(record_flow(car, flows, version=version())))
    leaves = flow_leaves(car, flows, tuple(pictures), system)
    if leaves:
        pdf = tables_pdf(
            car.name, car.sha256[:8], leaves, paper=paper, date=today, drawings=drawings
        )
        write_whole(folder / "flow.pdf", pdf)


def flow(
    document: Path,
    *,
    condition: str = "",
    system: str = "",
    json: Path | None = None,
    out: Path | None = None,
    readings: Sequence[str] = (),
    paper: str = "a4",
    in_space: bool = True,
) -> int:
    """Compute flow, pressure and heat of a document; return the exit code."""
    paper = paper.lower()
    if paper not in ("a4", "letter"):
        raise UnitError(f'--paper "{paper}" is not a paper of the book; say a4 or letter.')
    if sys.stderr.isatty():
        print("laying lines and solving ...", end="", file=sys.stderr, flush=True)
    plan = make(read(document), in_space=in_space, with_flow=True)
    flows = compute(plan)
    if sys.stderr.isatty():
        print("\r\x1b[K", end="", file=sys.stderr)
    car = plan.car
    if condition in usual() and condition not in tables.conditions(flows):
        flows = also(plan, flows, condition)
    check_asked(car, flows, condition, system)
    if condition:
        flows = replace(flows, sizes=sizes_in(plan, condition))
    typed = [read_reading(text, flows) for text in readings]
    if json is None or str(json) != "-":
        if typed:
            for one in typed:
                for sentence in reading_words(car, contradicted(flows, one)):
                    _wrapped(sentence, "  ")
        else:
            tell(car, flows, condition=condition, system=system)
    if json is not None:
        from linewright.faces.files.whole import write_whole
        from linewright.plan.record import dumps
        from linewright.plan.record_flow import record_flow

        text = dumps(record_flow(car, flows, version=version()))
        if str(json) == "-":
            # Nothing else may stand on the same stream: it is read by a program.
            print(text.rstrip("\n"))
        else:
            write_whole(json, text)
    if out is not None:
        write(plan, flows, out, paper=paper, system=system)
    stops = (f for f in flows.findings if f.severity is Severity.STOP and f.overruled is None)
    return 1 if any(stops) else 0
