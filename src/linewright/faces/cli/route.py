# SPDX-License-Identifier: Apache-2.0
"""``linewright route``: one line in space, the ends tried, and why the others fail."""

import shutil
import textwrap
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from linewright.base.errors import RouteError
from linewright.base.finding import Finding
from linewright.base.ids import natural_key
from linewright.base.telling import told
from linewright.car.model import Car, Construction, Line
from linewright.car.read import read
from linewright.checks.units import finding_in
from linewright.joints.termination import offer
from linewright.plan.make import Memo, with_sizes
from linewright.proofs.judged import judge
from linewright.routes.lay_space import Laid, lay_all
from linewright.routes.search import TOLD, Outcome
from linewright.routes.shapes import BENT
from linewright.sheets import spatial as says
from linewright.sheets.figures import length
from linewright.space.ports import port_frame, why_no_frame

_HEADS = ("", "A", "B", "Assembly", "Height", "Bends", "Price index", "Cost", "Sure")


#: What stands at the end of a line, by what it is made of.
_END = {
    Construction.HOSE: "hose end",
    Construction.CLAMPED: "end of the hose",
    Construction.TUBE: "end of the tube",
    Construction.PIPE: "end of the pipe",
}


def _wrapped(text: str, indent: str) -> None:
    width = min(shutil.get_terminal_size((100, 40)).columns, 110)
    print(textwrap.fill(text, width, initial_indent="", subsequent_indent=indent))


def _row(what: str, text: str) -> None:
    _wrapped(f"{what:<12}{text}", " " * 12)


def _band(outcome: Outcome, show: str) -> None:
    route = outcome.route
    chosen = (route.a.shape.angle, route.b.shape.angle) if route else None
    rows = says.band_rows(outcome.band, chosen, show)
    if not outcome.band:
        return
    print()
    print(
        f"Ends tried: {len(outcome.band)} pairs, {len(rows) or 'none'} work"
        f"{'s' if len(rows) == 1 else ''}" + ("; ● is chosen:" if route and rows else ".")
    )
    table = [_HEADS, *rows] if rows else []
    used = [i for i in range(len(_HEADS)) if i == 0 or any(row[i] for row in rows)]
    widths = [max((len(row[i]) for row in table), default=0) for i in range(len(_HEADS))]
    for row in table:
        print("  " + "  ".join(row[i].rjust(widths[i]) for i in used).rstrip())
    failed = says.why_not_lines(outcome.band)
    if failed:
        print(f"{'The others' if rows else 'They'} fail (A with B):")
    for why, pairs in failed:
        _wrapped(f"  {told(why, show)}: {pairs}", "    ")


def _told(car: Car, line: Line, name: str, outcome: Outcome) -> None:
    show = car.show
    print()
    print(f"{name}  {line.from_port} to {line.to_port}, {line.size} {line.hose}".rstrip())
    route = outcome.route
    pieces = name != line.id
    for what, port, setting in (
        ("from", line.from_port, route.a if route else None),
        ("to", line.to_port, route.b if route else None),
    ):
        frame = port_frame(car, port)
        if frame is not None and not pieces:
            _row(what, says.end_lines(port, frame, setting, show, _END.get(line.construction, "")))
    if route is None:
        _row("course", "none was found")
        return
    if pieces:
        _row("ends", f"{says.angle_words(route.a)} at A, {says.angle_words(route.b)} at B")
    _row("chosen", says.why_chosen(line, route))
    if line.construction in BENT:
        _row(line.construction.value, f"{length(route.length, show)} from end to end, along it")
    else:
        _row("hose", f"{length(route.length, show)} from collar to collar, along its middle")
        _row("clock angle", says.clock_words(route))
    near = route.clearance
    if near is None:
        _row("tightest", f"nothing within {length(TOLD, show)}")
    else:
        where = says.place_words(near.at, show)
        _row("tightest", f"{length(near.gap, show)} to {near.from_what}, at {where}")
    for what, points in (("high at", route.highs), ("low at", route.lows)):
        if points:
            _row(what, "; ".join(says.place_words(p, show) for p in points))
    if route.clips:
        _row("clips at", "; ".join(says.place_words(p, show) for p in route.clips))
    for panel, at in route.holes:
        _row("hole", f"{panel} at {says.place_words(at, show)}")
    if route.follows:
        _row("follows", ", ".join(route.follows))
    if route.sureness is not None:
        sure = f"{says.sure_words(route.sureness)} of the places that the ports may have"
        _row("sure", f"{sure}{': ' + told(route.to_be_sure, show) if route.to_be_sure else ''}")
    print()
    print("Straights and bends from A (rotation right-handed along the hose):")
    for text in says.bend_lines(route, show):
        print(f"  {text}")


def _findings(findings: Sequence[Finding], show: str) -> None:
    for finding in (finding_in(each, show) for each in findings):
        print()
        _row(finding.severity.value, f"{finding.code}: {finding.reason}")
        if finding.remedy:
            _row("way out", finding.remedy)


def _of(line: str, laid: Laid) -> list[str]:
    """Pieces of hose of a line that were searched."""
    names = laid.outcomes or {}
    return sorted((n for n in names if _is_of(line, n)), key=natural_key)


def _is_of(line: str, name: str) -> bool:
    """Whether a name is a line's own, or that of a piece of it."""
    return name == line or name.rstrip("abcdefghijklmnopqrstuvwxyz") == line


def explain(car: Car, line: Line, laid: Laid) -> int:
    """Print what is known of one line in space; return the exit code."""
    names = _of(line.id, laid)
    if not names:
        print(f"{line.id}  {line.from_port} to {line.to_port}, {line.size} {line.hose}".rstrip())
        about = [f for f in laid.findings if any(_is_of(line.id, name) for name in f.about)]
        if about:
            print("It has no course in space.")
            _findings(about, car.show)
            return 1
        missing = [why_no_frame(car, port) for port in (line.from_port, line.to_port)]
        said = "; ".join(each for each in missing if each)
        if said:
            _wrapped(
                f"It has no course in space: {said}. Its length is that of its string; tape the "
                "port and say which way it points, and it can be laid.",
                "",
            )
        else:
            _wrapped(
                "It is not laid in space: nothing is chosen for its ends yet, or a panel that it "
                "passes has no place, or it is tube or pipe, which is bent from stocked radii.",
                "",
            )
        return 0
    outcomes = laid.outcomes or {}
    for name in names:
        _told(car, line, name, outcomes[name])
        _findings([f for f in laid.findings if name in f.about], car.show)
        _band(outcomes[name], car.show)
    print()
    print("Verify on the car.")
    return 0 if all(outcomes[name].route is not None for name in names) else 1


def route(document: Path, name: str) -> int:
    """Explain one line of a car; return the exit code."""
    car = read(document)
    line = car.lines.get(name) or car.lines.get(name.upper())
    if line is None:
        known = ", ".join(sorted(car.lines, key=natural_key)) or "none"
        raise RouteError(f'"{name}" is no line of {document}. Its lines: {known}.')
    car, _ = with_sizes(car, Memo())
    return explain(car, car.lines[line.id], _judged(car))


def _judged(car: Car) -> Laid:
    """All hoses laid and judged: clips, holes, falls, and what is found on them."""
    joints = offer(car)
    laid = lay_all(car, joints)
    judged = judge(car, joints, laid.routes)
    known = {route.id: route for route in judged.routes}
    outcomes = {
        name: replace(outcome, route=known.get(name, outcome.route))
        for name, outcome in (laid.outcomes or {}).items()
    }
    found = (*laid.findings, *judged.findings)
    return replace(laid, routes=judged.routes, findings=found, outcomes=outcomes)
