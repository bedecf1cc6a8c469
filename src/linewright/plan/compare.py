# SPDX-License-Identifier: Apache-2.0
"""What changed between two plans: parts, hose, lines, findings."""

from collections.abc import Mapping
from dataclasses import dataclass

from linewright.base.finding import Finding
from linewright.base.ids import natural_key
from linewright.joints.model import Termination
from linewright.plan.model import Plan
from linewright.routes.model import Run

#: Lengths nearer than this are the same: half of what a tape reads. [m]
SAME = 0.0005


@dataclass(frozen=True, slots=True)
class PartChange:
    """A part of which another number is ordered. [-]"""

    code: str
    name: str
    before: int
    after: int


@dataclass(frozen=True, slots=True)
class HoseChange:
    """Hose of which another length is needed, over all its pieces. [m]"""

    code: str
    name: str
    before: float
    after: float


@dataclass(frozen=True, slots=True)
class LineChange:
    """A piece of a line that is new, gone, or made otherwise.

    ``what`` names what differs ("size", "hose", "end A", "end B", "from", "to"),
    with the words for before and after; an empty word means that it is not there. ``length``
    is what to reckon for the order before and after [m], None where nothing is known.
    """

    run: str
    what: tuple[tuple[str, str, str], ...]
    length: tuple[float | None, float | None]


@dataclass(frozen=True, slots=True)
class Difference:
    """All that differs between a plan and the one after it."""

    parts: tuple[PartChange, ...] = ()
    hoses: tuple[HoseChange, ...] = ()
    lines: tuple[LineChange, ...] = ()
    gained: tuple[Finding, ...] = ()
    lost: tuple[Finding, ...] = ()

    @property
    def is_nothing(self) -> bool:
        """Whether the two plans come to the same."""
        return not (self.parts or self.hoses or self.lines or self.gained or self.lost)


def compare(before: Plan, after: Plan) -> Difference:
    """Tell what changed from one plan to another.

    Parameters
    ----------
    before, after : Plan
        Two plans, of one car or of two.

    Returns
    -------
    Difference
        Parts and hose by code, lines by id, findings by their identity; what is alike in
        both is left out. A finding that weighs otherwise now counts as lost and gained.
    """
    return Difference(
        _parts(before, after),
        _hoses(before, after),
        _lines(before, after),
        _without(after, before),
        _without(before, after),
    )


def _parts(before: Plan, after: Plan) -> tuple[PartChange, ...]:
    old = {row.code: row for row in before.takeoff.rows}
    new = {row.code: row for row in after.takeoff.rows}
    changes = []
    for code in sorted(old.keys() | new.keys()):
        counts = [rows[code].order if code in rows else 0 for rows in (old, new)]
        if counts[0] != counts[1]:
            changes.append(PartChange(code, (new.get(code) or old[code]).name, *counts))
    return tuple(changes)


def _hoses(before: Plan, after: Plan) -> tuple[HoseChange, ...]:
    old = {row.code: row for row in before.takeoff.hoses}
    new = {row.code: row for row in after.takeoff.hoses}
    changes = []
    for code in sorted(old.keys() | new.keys()):
        lengths = [rows[code].need if code in rows else 0.0 for rows in (old, new)]
        if abs(lengths[0] - lengths[1]) > SAME:
            changes.append(HoseChange(code, (new.get(code) or old[code]).name, *lengths))
    return tuple(changes)


def _words(run: Run) -> dict[str, str]:
    a, b = run.ends
    return {
        "size": run.size,
        "hose": run.hose,
        "from": a.port,
        "to": b.port,
        "end A": _end(a),
        "end B": _end(b),
    }


def _end(end: Termination) -> str:
    if end.chain is None:
        return ""
    return " + ".join(part.name for part in end.chain.parts) or "on the spigot"


def _lines(before: Plan, after: Plan) -> tuple[LineChange, ...]:
    old: Mapping[str, Run] = {run.id: run for run in before.routes.runs}
    new: Mapping[str, Run] = {run.id: run for run in after.routes.runs}
    changes = []
    for run in sorted(old.keys() | new.keys(), key=natural_key):
        was, now = old.get(run), new.get(run)
        words = [_words(each) if each else {} for each in (was, now)]
        what = tuple(
            (key, words[0].get(key, ""), words[1].get(key, ""))
            for key in {**words[0], **words[1]}
            if words[0].get(key, "") != words[1].get(key, "")
        )
        length = tuple(each.buy.value if each and each.buy else None for each in (was, now))
        if what or _is_other(length[0], length[1]):
            changes.append(LineChange(run, what, (length[0], length[1])))
    return tuple(changes)


def _is_other(before: float | None, after: float | None) -> bool:
    if before is None or after is None:
        return before is not after
    return abs(before - after) > SAME


def _without(plan: Plan, other: Plan) -> tuple[Finding, ...]:
    """Findings of a plan that another has not, those that are overruled left out."""
    known = {(f.key, f.severity) for f in other.findings if f.overruled is None}
    return tuple(
        f for f in plan.findings if f.overruled is None and (f.key, f.severity) not in known
    )
