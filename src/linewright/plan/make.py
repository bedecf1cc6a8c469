# SPDX-License-Identifier: Apache-2.0
"""One car through every stage."""

from dataclasses import replace

from linewright.car.model import Car
from linewright.checks.run import run
from linewright.joints.termination import offer
from linewright.plan.model import Plan
from linewright.routes.lay_space import lay_all
from linewright.routes.lengths import lay
from linewright.takeoff.count import count


def make(car: Car, *, in_space: bool = False) -> Plan:
    """Plan a car: joints, lengths, takeoff, checks.

    Parameters
    ----------
    car : Car
        What the builder says.
    in_space : bool
        Whether to lay the lines between placed ports in space as well; that takes much
        longer than all the rest, and lengths still come from strings where there are any.

    Returns
    -------
    Plan
        The same car with all that follows from it; it depends on nothing else.
    """
    joints = offer(car)
    routes = lay(car, joints)
    if in_space:
        laid = lay_all(car, joints)
        findings = (*routes.findings, *laid.findings)
        routes = replace(routes, findings=findings, courses=laid.routes)
    takeoff = count(car, joints, routes)
    checked = run(car, joints, routes, takeoff)
    return Plan(car, joints, routes, takeoff, checked)
