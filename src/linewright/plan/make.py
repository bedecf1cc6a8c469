# SPDX-License-Identifier: Apache-2.0
"""One car through every stage."""

from linewright.car.model import Car
from linewright.checks.run import run
from linewright.joints.termination import offer
from linewright.plan.model import Plan
from linewright.routes.lengths import lay
from linewright.takeoff.count import count


def make(car: Car) -> Plan:
    """Plan a car: joints, lengths, takeoff, checks.

    Parameters
    ----------
    car : Car
        What the builder says.

    Returns
    -------
    Plan
        The same car with all that follows from it; it depends on nothing else.
    """
    joints = offer(car)
    routes = lay(car, joints)
    takeoff = count(car, joints, routes)
    checked = run(car, joints, routes, takeoff)
    return Plan(car, joints, routes, takeoff, checked)
