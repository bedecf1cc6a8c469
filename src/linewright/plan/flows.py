# SPDX-License-Identifier: Apache-2.0
"""Flow, pressure and heat as a part of a plan: computed once, its findings among all others."""

from collections.abc import Iterable
from dataclasses import replace

from linewright.base.telling import told
from linewright.checks.model import Checked
from linewright.checks.run import run as checked
from linewright.flow.model import Flows, SizeRow
from linewright.flow.run import reckon, run
from linewright.flow.sizes import sizes
from linewright.plan.model import Plan


def compute(plan: Plan) -> Flows:
    """Compute what flows in a planned car.

    Parameters
    ----------
    plan : Plan
        The plan; its car, joints and routes are read.

    Returns
    -------
    Flows
        The results that the plan has; computed where it has none. Findings that the builder has
        overruled say so.
    """
    done = plan if plan.flows is not None else joined(plan)
    assert done.flows is not None
    return done.flows


def also(plan: Plan, flows: Flows, condition: str) -> Flows:
    """Add a usual condition that is not of the use of a car.

    Parameters
    ----------
    plan : Plan
        The plan.
    flows : Flows
        Its results.
    condition : str
        Name of the condition, as "session" for a car that climbs hills.

    Returns
    -------
    Flows
        With the states of that condition; findings that are not among the others already, too.
    """
    more = run(plan.car, plan.joints, plan.routes, [condition])
    known = {f.key for f in flows.findings}
    found = (*flows.findings, *(f for f in more.findings if f.key not in known))
    return replace(flows, states=(*flows.states, *more.states), findings=found)


def joined(plan: Plan) -> Plan:
    """Compute what flows in a planned car, and tell it in the plan.

    Parameters
    ----------
    plan : Plan
        A plan without flow.

    Returns
    -------
    Plan
        The same with its flow, whose findings are among those of the plan.
    """
    flows = run(plan.car, plan.joints, plan.routes)
    found = checked(plan.car, plan.joints, plan.routes, plan.takeoff, flows)
    flows = replace(flows, sizes=_told(plan, flows.sizes))
    return replace(plan, checked=found, flows=marked(flows, found))


def _told(plan: Plan, rows: Iterable[SizeRow]) -> tuple[SizeRow, ...]:
    """Sizes with why they were chosen, in the units of the car."""
    chosen = (_chosen(plan, row) for row in rows)
    return tuple(replace(row, why=told(row.why, plan.car.show)) for row in chosen)


def _chosen(plan: Plan, row: SizeRow) -> SizeRow:
    """A size with why it was chosen, where it was left open."""
    if not row.is_chosen:
        return row
    found = (f for f in plan.routes.findings if f.code == "size-chosen" and f.about == (row.line,))
    finding = next(found, None)
    if finding is None:
        return row
    by = f"flow: the smallest with {finding.limit}" if finding.limit else "its ports and its course"
    return replace(row, why="; ".join(part for part in (f"chosen by {by}", row.why) if part))


def sizes_in(plan: Plan, condition: str) -> tuple[SizeRow, ...]:
    """Compute the size table of a planned car in one condition.

    Parameters
    ----------
    plan : Plan
        The plan.
    condition : str
        The condition; not the one in which each line loses most.

    Returns
    -------
    tuple of SizeRow
        As in its flow.
    """
    judged = reckon(plan.car, plan.joints, plan.routes).judged
    held = [one for one in judged if one.state.condition == condition]
    return _told(plan, sizes(plan.car, plan.routes, held))


def marked(flows: Flows, found: Checked) -> Flows:
    """Mark the findings of flow as those of the whole plan are: what is lived with, by whom.

    Parameters
    ----------
    flows : Flows
        The results.
    found : Checked
        What is said of the whole plan.

    Returns
    -------
    Flows
        The same; an overrule whose finding has become worse than what was accepted is open.
    """
    weighed = {finding.key: finding for finding in found.findings}
    return replace(flows, findings=tuple(weighed.get(f.key, f) for f in flows.findings))
