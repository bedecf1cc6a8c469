# SPDX-License-Identifier: Apache-2.0
"""Flow, pressure and heat of a plan, with what its builder has overruled."""

from dataclasses import replace

from linewright.base.finding import Finding
from linewright.car.model import Car
from linewright.checks.accepted import is_worse
from linewright.flow.model import Flows
from linewright.flow.run import run
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
        The results; findings that the builder has overruled say so.
    """
    return overruled(plan.car, run(plan.car, plan.joints, plan.routes))


def overruled(car: Car, flows: Flows) -> Flows:
    """Mark the findings of flow that a car's builder lives with.

    Parameters
    ----------
    car : Car
        The car, for its overrules.
    flows : Flows
        The results.

    Returns
    -------
    Flows
        The same; an overrule whose finding has become worse than what was accepted is open.
    """
    standing = {(o.code, tuple(sorted(o.about))): o for o in car.overrules}

    def held(finding: Finding) -> Finding:
        overrule = standing.get(finding.key)
        if overrule is None or is_worse(finding, overrule):
            return finding
        return replace(finding, overruled=overrule)

    return replace(flows, findings=tuple(held(f) for f in flows.findings))
