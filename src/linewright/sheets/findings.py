# SPDX-License-Identifier: Apache-2.0
"""What the checks have to say, as lists: findings, proof, risks, steps, sources."""

from collections.abc import Iterable

from linewright.base.finding import Severity, WorkStep
from linewright.base.ids import natural_key
from linewright.base.telling import told
from linewright.checks.model import Risk
from linewright.plan.model import Plan
from linewright.sheets.blocks import Block, blocks, listed
from linewright.sheets.table import Align, Column, Table
from linewright.tables import hoses
from linewright.tables.load import rows as table_rows
from linewright.tables.load import sources

#: A shape beside the word, so that no meaning rests on colour.
SHAPES = {Severity.STOP: "■", Severity.WARN: "▲", Severity.ASK: "◆", Severity.NOTE: "○"}

#: States that what answers a port says by itself.
_BY_ITSELF = ("mated", "plugged", "capped")


def _says(block: Block) -> str:
    words, value = block.reason, block.rows[0][1]
    if value:
        words += f" Value: {value}"
        words += f"; limit: {block.limit}." if block.limit else "."
    return words


def _titles(source: str) -> str:
    """Titles in place of the keys of sources; other words stay."""
    known = sources()
    parts = [part.strip() for part in source.split(";")]
    return "; ".join(known[part].title if part in known else part for part in parts)


def findings_list(plan: Plan, *, overruled: bool = False) -> Table:
    """List the findings, worst first, those of one kind together; or those overruled.

    Parameters
    ----------
    plan : Plan
        The plan.
    overruled : bool
        Which of the two lists.

    Returns
    -------
    Table
        One row for all findings of one kind; what was overruled has a row each.
    """
    kept = [f for f in plan.findings if (f.overruled is not None) == overruled]
    told = [b for f in kept for b in blocks(plan.car, [f])] if overruled else blocks(plan.car, kept)
    rows: list[tuple[str, ...]] = []
    for block in told:
        finding = block.findings[0]
        last = (
            f"{finding.overruled.reason} ({finding.overruled.by} {finding.overruled.when})"
            if finding.overruled
            else block.remedy
        )
        is_one = len(block.findings) == 1
        every = f"{block.reason} In all {len(block.rows)}: {listed(block)}."
        rows.append(
            (
                f"{SHAPES[block.severity]} {block.severity}",
                block.code,
                "; ".join(about for about, _ in block.rows),
                _says(block) if is_one else every,
                last,
                f"{_titles(finding.source)} ({finding.grade})"
                if finding.source
                else str(finding.grade),
            )
        )
    return Table(
        "overruled" if overruled else "findings",
        "Overruled findings" if overruled else "Findings",
        (
            Column("Weight", 0.6),
            Column("Code", 1.0),
            Column("About", 1.1),
            Column("Reason", 3.6),
            Column("Why it stands" if overruled else "Way out", 2.4),
            Column("Source", 1.3),
        ),
        tuple(rows),
        note="stop: do not order or build. warn: decide. ask: something is not known. "
        "note: worth knowing.",
        empty="Nothing to say.",
        is_wide=True,
    )


def proof_list(plan: Plan) -> Table:
    """List how each port and each function is answered, by system.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Table
        One row a port or function.
    """
    rows: list[tuple[str, ...]] = []
    groups: list[tuple[int, str]] = []
    order = {system: number for number, system in enumerate(plan.car.systems)}
    proof = sorted(plan.checked.proof, key=lambda p: order.get(p.system or "", len(order)))
    for item in proof:
        system = item.system or "no system"
        if not groups or groups[-1][1] != system:
            groups.append((len(rows), system))
        rows.append(
            (
                item.id,
                "function" if item.is_function else "port",
                item.state,
                item.by,
                item.reason,
            )
        )
    return Table(
        "proof",
        "Proof of completeness",
        (
            Column("Port or function", 1.6),
            Column("Is a", 0.6),
            Column("State", 0.7),
            Column("Answered by", 1.6),
            Column("Reason", 2.4),
        ),
        tuple(rows),
        note="Every port is mated, plugged, capped or open for a reason; a function is what a "
        "component of that kind needs, typed or not.",
        groups=tuple(groups),
    )


def port_table(plan: Plan, system: str) -> Table:
    """List the ports and functions of a system with what answers each, part by part.

    Parameters
    ----------
    plan : Plan
        The plan.
    system : str
        Id of the system; "" for what is of none.

    Returns
    -------
    Table
        One row a component, to tick at the car; in two halves.
    """
    found: dict[str, list[str]] = {}
    for item in plan.checked.proof:
        if (item.system or "") != system:
            continue
        # That a port is mated is said by what it is mated with, plugged by "plug".
        state = "" if item.by and item.state in _BY_ITSELF else item.state
        owner, _, name = item.id.partition(".")
        words = ", ".join(word for word in (state, item.by) if word)
        reason = f" ({item.reason})" if item.reason else ""
        found.setdefault(owner, []).append(f"{name}: {words}{reason}")
    rows = [("□", owner, "; ".join(answers)) for owner, answers in found.items()]
    return Table(
        f"ports-{system}",
        "What answers each port",
        (Column("", 0.25), Column("Part", 1.3), Column("Ports and functions", 3.2)),
        tuple(rows),
        empty="No port and no function.",
        is_halved=True,
    )


def _alike(risks: Iterable[Risk]) -> tuple[list[Risk], ...]:
    """Risks of one kind with one way out, together; those first on which most parts hang."""
    groups: dict[tuple[str, str], list[Risk]] = {}
    for risk in risks:
        groups.setdefault((risk.kind, risk.remedy), []).append(risk)
    return tuple(groups.values())


def risk_list(plan: Plan) -> Table:
    """List the risks that the order still carries, those of one kind together.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Table
        One row a kind of risk and way out, in the order of the checks; ``Parts`` counts the
        rows of the parts list that hang on it.
    """
    rows = []
    for alike in _alike(plan.checked.risks):
        about = ", ".join(i for risk in alike for i in risk.about)
        what = alike[0].what if len(alike) == 1 else f"{len(alike)} of them: {alike[0].what}"
        parts = sum(risk.parts for risk in alike)
        rows.append((alike[0].kind, about, what, alike[0].remedy, str(parts)))
    return Table(
        "risks",
        "What this order still risks",
        (
            Column("Risk", 1.0),
            Column("About", 2.4),
            Column("What", 2.6),
            Column("Way out", 2.2),
            Column("Parts", 0.5, Align.RIGHT),
        ),
        tuple(rows),
        empty="No risk is left that linewright knows of.",
    )


def _told_once(step: WorkStep) -> str:
    """The text of a step without the id it starts with: that stands beside it."""
    for name in sorted(step.about, key=len, reverse=True):
        for lead in (f"{name}: ", f"{name} "):
            if step.text.startswith(lead):
                rest = step.text.removeprefix(lead)
                return rest[:1].upper() + rest[1:]
    return step.text


def step_list(plan: Plan) -> Table:
    """List the work steps that a hand must not forget; the same step is told once.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Table
        One row a step, with what it is about.
    """
    alike: dict[str, list[str]] = {}
    for step in plan.checked.steps:
        alike.setdefault(_told_once(step), []).append(step.about[0] if step.about else "")
    rows = tuple(
        ("□", ", ".join(sorted(set(about), key=natural_key)), text) for text, about in alike.items()
    )
    return Table(
        "steps",
        "Steps to tick",
        (Column("", 0.2), Column("At", 2.2), Column("Step", 5.0)),
        rows,
        empty="No special steps.",
    )


def _default(name: str, value: str, show: str) -> str:
    """A default in the units of the car; a size is that by which the part is bought."""
    return value if name == "size" else told(value, show)


def default_list(plan: Plan) -> Table:
    """List every default that stands in for something the builder did not type.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Table
        One row a default, with its grade; the same default of several things is told once.
    """
    alike: dict[tuple[str, str, str, str], list[str]] = {}
    for key, value, grade in plan.car.assumed:
        section, _, rest = key.partition(".")
        owner, _, name = rest.rpartition(".")
        alike.setdefault((section, name, value, grade.value), []).append(owner)
    show = plan.car.show
    rows = tuple(
        (section, ", ".join(o for o in owners if o), name, _default(name, value, show), grade)
        for (section, name, value, grade), owners in alike.items()
    )
    return Table(
        "defaults",
        "Defaults in use",
        (
            Column("Section", 1.1),
            Column("Of", 3.2),
            Column("Key", 1.4),
            Column("Value", 2.2),
            Column("Known by", 0.8),
        ),
        rows,
        note="Type any of these keys in the car document to replace the default.",
        empty="No default is in use.",
    )


def _cited(plan: Plan) -> Iterable[str]:
    for finding in plan.findings:
        yield from (part.strip() for part in finding.source.split(";"))
    chains = [end.chain for end in plan.joints.terminations]
    chains += [fit.chain for fit in plan.joints.fits]
    for chain in chains:
        for joint in chain.joints if chain else ():
            yield joint.mating.source
            yield from (seal.source for seal in joint.mating.seals)
    for run in plan.routes.runs:
        family = hoses.FAMILIES.get(run.hose)
        if family is not None and family.rows:
            of_family = family.rows.lower()
            yield from (
                row["source"] for row in table_rows("hose") if of_family in row["family"].lower()
            )


def source_list(plan: Plan) -> Table:
    """List the sources that the findings and the joints of this plan rest on.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Table
        One row a source of the shipped tables, with the sort of text it is.
    """
    known = sources()
    cited = sorted({key for key in _cited(plan) if key in known})
    return Table(
        "sources",
        "Sources",
        (Column("Source", 5.0), Column("Kind", 1.6), Column("Key", 1.8)),
        tuple((known[key].title, known[key].kind, key) for key in cited),
        note="Torques, pressures and procedures of the maker of a part go before any figure here.",
        empty="Nothing in this plan rests on a source of the shipped tables.",
    )
