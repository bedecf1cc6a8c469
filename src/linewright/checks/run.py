# SPDX-License-Identifier: Apache-2.0
"""All rules on one car: the findings of every stage, the builder's overrules, the proof."""

import json
from collections.abc import Iterable, Iterator
from dataclasses import replace

from linewright.base.codes import OF_FLOW
from linewright.base.finding import Finding, Overrule, WorkStep
from linewright.base.ids import natural_key
from linewright.car.model import Car
from linewright.checks import (
    accepted,
    alike,
    charge,
    coolant,
    filters,
    flex,
    fluids,
    fuel,
    heights,
    near,
    oil,
    panels,
    rating,
    short,
    tubes,
)
from linewright.checks.complete import complete
from linewright.checks.functions import answers
from linewright.checks.model import Checked
from linewright.checks.raising import raised
from linewright.checks.risks import risks
from linewright.checks.topology import Topology
from linewright.checks.units import in_units
from linewright.flow.model import Flows
from linewright.joints.model import Joints
from linewright.routes.model import Routes
from linewright.space import moving
from linewright.takeoff.model import Takeoff

#: Rules of thumb that flow has a figure for, by the margin that it holds there.
_TOLD_BY_FLOW = {"suction-size": "pump inlet", "turbo-feed": "turbo feed pressure"}


def run(
    car: Car, joints: Joints, routes: Routes, takeoff: Takeoff, flows: Flows | None = None
) -> Checked:
    """Check one car.

    Parameters
    ----------
    car : Car
        The car document as read, with what reading it had to say.
    joints : Joints
        The chains chosen.
    routes : Routes
        The lengths.
    takeoff : Takeoff
        What has to exist.
    flows : Flows, optional
        What flows; without it nothing is said of flow, and what is overruled of it is left as
        it is.

    Returns
    -------
    Checked
        The findings of all stages, worst first, each once; the proof by port and
        function; the risks that the order carries; the work steps.
    """
    topology = Topology(car)
    proved = complete(car, topology, joints, takeoff, answers(car, topology))
    every: list[Finding] = [
        *car.findings,
        *joints.findings,
        *routes.findings,
        *takeoff.findings,
        *proved.findings,
        *alike.check(car, topology),
        *filters.check(car, topology),
        *flex.check(car),
        *fuel.check(car, topology),
        *oil.check(car, topology),
        *coolant.check(car, topology),
        *charge.check(car, topology),
        *heights.check(car, topology),
        *near.check(car, topology, joints),
        *panels.check(car, topology, takeoff),
        *rating.check(car),
        *fluids.check(car),
        *short.check(car, routes),
        *tubes.check(car, routes),
        *(flows.findings if flows is not None else ()),
    ]
    if flows is not None:
        every = [f for f in every if not _is_told_by_flow(f, flows, car.overrules)]
    findings = tuple(replace(f, system=f.system or _system(topology, f.about)) for f in every)
    overrules = [o for o in car.overrules if flows is not None or o.code not in OF_FLOW]
    weighed = sorted(_overruled(_once(findings), overrules, car.show), key=_order)
    checked = Checked(
        findings=tuple(weighed),
        proof=proved.proof,
        risks=risks(car, joints, routes, takeoff, proved.proof, weighed),
        steps=_steps(car, topology, joints),
    )
    return in_units(checked, car.show)


def _is_told_by_flow(finding: Finding, flows: Flows, overrules: Iterable[Overrule]) -> bool:
    """Whether flow was reckoned where a rule of thumb speaks: then what it finds there holds.

    What is lived with by name is told as it was.
    """
    margin = _TOLD_BY_FLOW.get(finding.code)
    if margin is None or any((o.code, tuple(sorted(o.about))) == finding.key for o in overrules):
        return False
    places = {name.partition(".")[0] for name in finding.about}
    return any(
        held.what == margin and held.where.partition(".")[0] in places
        for state in flows.states
        for held in state.margins
    )


def _order(finding: Finding) -> tuple[object, ...]:
    return (
        finding.severity.rank,
        finding.system or "",
        finding.code,
        natural_key(" ".join(finding.about)),
        finding.reason,
    )


def _once(findings: Iterable[Finding]) -> Iterator[Finding]:
    """Each finding once: the first stage that says it is the one that is heard."""
    seen: set[tuple[str, tuple[str, ...]]] = set()
    for finding in findings:
        if finding.key not in seen:
            seen.add(finding.key)
            yield finding


def _system(topology: Topology, about: Iterable[str]) -> str | None:
    """The system of the first id that belongs to one."""
    car = topology.car
    for name in about:
        if name in car.systems:
            return name
        line = car.lines.get(name) or car.lines.get(_line_of(name))
        if line is not None and line.system:
            return line.system
        if car.port(name) is not None:
            system = topology.system_of(name)
        else:
            system = next(iter(topology.systems_of.get(name.partition(".")[0], ())), None)
        if system:
            return system
    return None


def _line_of(name: str) -> str:
    """Id of the line of a joint or of a piece of hose, ``F05a.A.2`` or ``F05a``."""
    head = name.partition(".")[0]
    return head[:-1] if head[-1:].islower() and head[-2:-1].isdigit() else head


# Overrules ------------------------------------------------------------------------


def _overruled(
    findings: Iterable[Finding], overrules: Iterable[Overrule], show: str
) -> Iterator[Finding]:
    """Mark what the builder lives with; open it again where it got worse."""
    open_ones = list(findings)
    standing = {(o.code, tuple(sorted(o.about))): o for o in overrules}
    met: set[tuple[str, tuple[str, ...]]] = set()
    for finding in open_ones:
        overrule = standing.get(finding.key)
        if overrule is None:
            yield finding
            continue
        met.add(finding.key)
        if accepted.is_worse(finding, overrule, show):
            yield finding
            yield _worse(finding, overrule)
        else:
            yield replace(finding, overruled=overrule)
    for key, overrule in standing.items():
        if key not in met:
            yield _idle(overrule, open_ones)


def _worse(finding: Finding, overrule: Overrule) -> Finding:
    before = accepted.shown(overrule.accepted or 0.0, finding)
    after = accepted.now(finding)
    return raised(
        "overrule-worse",
        finding.about,
        f"{finding.code} at {', '.join(finding.about)} was accepted at {before} "
        f"({overrule.reason}) and is now {after}.",
        "Mend it, or accept the new value with a reason.",
        system=finding.system,
        value=after,
        limit=before,
    )


def _idle(overrule: Overrule, findings: Iterable[Finding]) -> Finding:
    same = sorted((f.about for f in findings if f.code == overrule.code), key=_natural)
    lines = [f"about = {json.dumps(list(about), ensure_ascii=False)}" for about in same]
    way = (
        f"Write it as one of these: {'; '.join(lines)}."
        if len(lines) > 1
        else f"Write {lines[0]}."
        if lines
        else "No such finding is left: strike the overrule out."
    )
    return raised(
        "overrule-idle",
        overrule.about or (overrule.code,),
        f"The overrule of {overrule.code} at {', '.join(overrule.about) or 'nothing'} meets no "
        "finding.",
        way,
    )


def _natural(about: tuple[str, ...]) -> list[tuple[object, ...]]:
    return [natural_key(name) for name in about]


# Steps ----------------------------------------------------------------------------


def _steps(car: Car, topology: Topology, joints: Joints) -> tuple[WorkStep, ...]:
    """Work steps of the joints, then those of whole systems, each once."""
    found: dict[tuple[str, tuple[str, ...]], WorkStep] = {}
    for step in (*joints.steps, *oil.steps(topology), *_hose_steps(car, joints)):
        found.setdefault((step.code, step.about), step)
    return tuple(found.values())


def _hose_steps(car: Car, joints: Joints) -> Iterator[WorkStep]:
    bent: dict[str, int] = {}
    for end in joints.terminations:
        if end.angle and not end.elbows:  # silicone is pointed until its clamps are tight
            bent[end.hose] = bent.get(end.hose, 0) + 1
    for hose in sorted((h for h, count in bent.items() if count == 2), key=natural_key):
        yield WorkStep(
            "clock-ends",
            (hose,),
            f"{hose} has two bent ends: set their clock angle before the last closing of the "
            "socket; do not back off to reach it.",
        )
    for line in sorted(car.lines.values(), key=lambda ln: natural_key(ln.id)):
        if line.crosses:
            slack = f"{moving.slack(car, line).value * 1000:.0f} mm"
            yield WorkStep(
                "slack-at-engine",
                (line.id,),
                f"{line.id} goes from one body to another that moves: leave {slack} free between "
                "its last clip and the moving end.",
            )
