# SPDX-License-Identifier: Apache-2.0
"""One car through every stage."""

from linewright.car.model import Car
from linewright.checks import run
from linewright.joints import termination
from linewright.plan.model import Plan
from linewright.routes import lengths
from linewright.takeoff import count


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
    joints = termination.offer(car)
    routes = lengths.lay(car, joints)
    takeoff = count.count(car, joints, routes)
    checked = run.run(car, joints, routes, takeoff)
    return Plan(car, joints, routes, takeoff, checked)
