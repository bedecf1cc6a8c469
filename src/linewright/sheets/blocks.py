# SPDX-License-Identifier: Apache-2.0
"""Findings of one kind told together: once why, then a short table of line and value."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from linewright.base.finding import Finding, Severity
from linewright.base.ids import natural_key
from linewright.car.model import Car

#: Codes whose ways out differ only by line: all of them are one block, with one way out.
_WHOLE = ("unsure-ends",)

#: Codes of which each has its own cause, also where they have one way out.
_EACH = ("no-route",)

#: What the ways out of unanswered questions end in: told once for all of them.
_ANSWER = " Or answer it under [closed]: "

#: Components that a way out names at most.
_MOST = 6

#: A measurement that is enough, as `routes.survival` says it.
_CURED = re.compile(r"(?:measure|fix|mock)[^;(]*?\(then \d+%\)", re.IGNORECASE)
_PORT = re.compile(r"(?:direction|place) of (\S+?)\.\S+ to ")


@dataclass(frozen=True, slots=True)
class Block:
    """Findings of one kind: each keeps its identity, and is in ``findings``.

    ``about`` and ``value`` of ``rows`` are those of each finding; ``reason`` is that of the
    first, or of all. ``limit`` is "" where they have none in common. Rows of what ``is_list``
    are sentences, which stand one under the other.
    """

    severity: Severity
    code: str
    findings: tuple[Finding, ...]
    reason: str
    remedy: str
    rows: tuple[tuple[str, str], ...]
    limit: str = ""
    is_list: bool = False


def blocks(car: Car, findings: Iterable[Finding]) -> tuple[Block, ...]:
    """Put findings of one kind together.

    Parameters
    ----------
    car : Car
        The car document as read.
    findings : iterable of Finding
        In the order in which they are told.

    Returns
    -------
    tuple of Block
        In the order of their first finding. Together is what has one weight, one code and one
        way out; hose ends that are not sure are one block each weight.
    """
    groups: dict[tuple[Severity, str, str], list[Finding]] = {}
    for each in findings:
        remedy = "" if each.code in _WHOLE or _is_question(each) else each.remedy
        groups.setdefault((each.severity, each.code, remedy), []).append(each)
    return tuple(_block(car, found) for found in groups.values())


def _block(car: Car, found: Sequence[Finding]) -> Block:
    first = found[0]
    reason, remedy = first.reason, first.remedy
    if first.code in _WHOLE and len(found) > 1:
        reason, remedy = _unsure(car, found)
    if _is_question(first) and len(found) > 1:
        return _questions(found)
    if first.code in _EACH and len({each.reason for each in found}) > 1:
        return _causes(found)
    limits = {each.limit or "" for each in found}
    return Block(
        first.severity,
        first.code,
        tuple(found),
        reason,
        remedy,
        tuple((", ".join(each.about), each.value or "") for each in found),
        limits.pop() if len(limits) == 1 else "",
    )


def _causes(found: Sequence[Finding]) -> Block:
    """What has one way out and each its own cause: a row for each cause."""
    first = found[0]
    rows = []
    for each in found:
        about = ", ".join(each.about)
        rows.append((about, each.reason.removeprefix(f"{each.about[0]}: ")))
    return Block(
        first.severity,
        first.code,
        tuple(found),
        f"{len(found)} lines find no course, each for its own cause.",
        first.remedy,
        tuple(rows),
        is_list=True,
    )


def _is_question(finding: Finding) -> bool:
    """Whether it asks for the answer of a function that a kind brings."""
    return finding.code == "missing-function" and _ANSWER in finding.remedy


def _questions(found: Sequence[Finding]) -> Block:
    """What is not answered: a row for each question, with its own way out."""
    first = found[0]
    rows = []
    for each in found:
        asked, (way, _) = each.reason.rpartition(": ")[2], each.remedy.split(_ANSWER, 1)
        rows.append((", ".join(each.about), f"{asked} {way}"))
    return Block(
        first.severity,
        first.code,
        tuple(found),
        f"{len(found)} questions that parts of their kinds bring along are not answered.",
        f"Connect or answer each, under [closed] as in {first.remedy.split(_ANSWER, 1)[1]}",
        tuple(rows),
        is_list=True,
    )


def listed(block: Block) -> str:
    """The short table of a block in one line of words.

    Parameters
    ----------
    block : Block
        With two findings or more.

    Returns
    -------
    str
        As in "W01 955 mm; C03 700 mm (limit 450 mm)"; what was told in full stands first.
    """
    if block.is_list:
        return " ".join(f"{about}: {value}" for about, value in block.rows)
    values = {value for _, value in block.rows}
    if len(values) > 1 and any(map(str.isdigit, "".join(values))):
        told = "; ".join(f"{about} {value}".rstrip() for about, value in block.rows)
        return f"{told} (limit {block.limit})" if block.limit else told
    if len(values) > 1:
        return "; ".join(f"{about} {value}".rstrip() for about, value in block.rows)
    # What is the same of all is told once, and words of a search not at all.
    told, same = "; ".join(about for about, _ in block.rows), values.pop()
    if not any(map(str.isdigit, same)):
        return told
    return f"{told} ({same}{f', limit {block.limit}' if block.limit else ''})"


def _unsure(car: Car, found: Sequence[Finding]) -> tuple[str, str]:
    """Why and way out of all hose ends that may not fit, by the components that cure most."""
    count = len(found)
    reason = (
        f"The hose ends of these {count} lines may not fit where their ports really are: the share "
        f"is that of draws of the ports' places and directions, as well as they are known, in "
        f"which they work."
    )
    wants = {f.about[0]: _components(car, f) for f in found if _CURED.search(f.remedy)}
    wants = {hose: names for hose, names in wants.items() if names}
    chosen, cured = _surest(wants)
    other = [f.about[0] for f in found if f.about[0] in wants and f.about[0] not in cured]
    vain = [f.about[0] for f in found if f.about[0] not in wants]
    told = []
    if chosen:
        told.append(
            f"Mock up and measure the places and directions of {_and(chosen)}: that makes "
            f"{len(cured)} of {count} sure."
        )
    if other:
        told.append(f"Then those at both ends of {', '.join(other)}.")
    if vain:
        told.append(
            f"No measuring makes {', '.join(vain)} sure: more length or room does, or their ends "
            f"are ordered last, when both parts are where they stay."
        )
    told.append("`linewright route` tells the cure of each.")
    return reason, " ".join(told)


def _components(car: Car, finding: Finding) -> frozenset[str]:
    """What has to be measured so that one hose is sure."""
    cure = _CURED.search(finding.remedy)
    one = _PORT.search(cure.group(0)) if cure else None
    if one:
        return frozenset([one.group(1)])
    hose = finding.about[0]
    line = car.lines.get(hose)
    if line is not None:
        ends = (line.from_port, line.to_port)
        return frozenset(port.partition(".")[0] for port in ends)
    line = car.lines.get(hose[:-1])
    if line is None:
        return frozenset()
    # A piece of a line ends at the holes of the panels before and behind it.
    order = [line.from_port, *line.passes, line.to_port]
    number = ord(hose[-1]) - ord("a")
    return frozenset(each.partition(".")[0] for each in order[number : number + 2])


def _surest(wants: dict[str, frozenset[str]]) -> tuple[list[str], set[str]]:
    """Few components whose measuring cures most lines, and those lines."""
    chosen: list[str] = []
    cured: set[str] = set()
    while len(chosen) < _MOST:
        left = {line: names - set(chosen) for line, names in wants.items() if line not in cured}
        open_ = sorted({name for names in left.values() for name in names}, key=natural_key)
        if not open_:
            break

        def worth(name: str, left: dict[str, frozenset[str]] = left) -> float:
            return sum(1.0 / len(names) for names in left.values() if name in names)

        chosen.append(max(open_, key=worth))
        cured |= {line for line, names in wants.items() if names <= set(chosen)}
    used = {name for line in cured for name in wants[line]}
    return [name for name in chosen if name in used], cured


def _and(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
