# SPDX-License-Identifier: Apache-2.0
"""One car through every stage."""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from functools import partial

from linewright.base.finding import Finding
from linewright.car.model import Car
from linewright.checks.run import run
from linewright.joints.model import Joints
from linewright.joints.offered import setting
from linewright.joints.termination import offer
from linewright.joints.turned import Chosen, turned
from linewright.plan import sizes
from linewright.plan.flows import joined
from linewright.plan.model import Plan
from linewright.proofs import judged
from linewright.routes import remembered
from linewright.routes.lay_space import lay_all
from linewright.routes.lengths import lay
from linewright.routes.model import Routes
from linewright.routes.route import Route
from linewright.takeoff.count import count


@dataclass
class Memo:
    """What a plan remembers for the next one of much the same car.

    It changes no answer: a hose is searched and judged again where anything that it was searched
    and judged by has changed. Keep one for each car that is being edited.
    """

    courses: remembered.Memo = field(default_factory=dict)
    proofs: judged.Memo = field(default_factory=judged.Memo)


def make(
    car: Car, *, in_space: bool = True, with_flow: bool = False, memo: Memo | None = None
) -> Plan:
    """Plan a car: joints, courses, lengths, takeoff, checks.

    Parameters
    ----------
    car : Car
        What the builder says.
    in_space : bool
        Whether to lay the lines between placed ports in space. Without, their hose ends stay
        open and their lengths come from strings and straight distances alone: a quick look.
    with_flow : bool
        Whether to compute what flows, and to tell it among the findings.
    memo : Memo, optional
        What an earlier plan remembered; it is added to.

    Returns
    -------
    Plan
        The car, with the sizes chosen that it leaves open, and all that follows from it; it
        depends on nothing else.
    """
    memo = Memo() if memo is None else memo
    car, chosen = with_sizes(car, memo if in_space else None)
    joints, routes = _laid(car, memo if in_space else None)
    routes = replace(routes, findings=(*chosen, *routes.findings))
    takeoff = count(car, joints, routes)
    checked = run(car, joints, routes, takeoff)
    made = Plan(car, joints, routes, takeoff, checked)
    return joined(made) if with_flow else made


def with_sizes(car: Car, memo: Memo | None = None) -> tuple[Car, tuple[Finding, ...]]:
    """Choose the sizes that a car leaves open.

    Parameters
    ----------
    car : Car
        What the builder says.
    memo : Memo or None
        What earlier plans remembered; without it no course is asked for.

    Returns
    -------
    Car
        The same where none is left open.
    tuple of Finding
        What was chosen, and why.
    """
    unlaid = None if memo is None else partial(_unlaid, memo)
    return sizes.with_sizes(car, lambda sized: _laid(sized, memo), unlaid)


def _laid(car: Car, memo: Memo | None) -> tuple[Joints, Routes]:
    """What stands at the ends of the lines of a car, and how they run; in space with a memo."""
    joints = offer(car)
    if memo is None:
        return joints, lay(car, joints)
    laid = lay_all(car, joints, memo.courses)
    proved = judged.judge(car, joints, laid.routes, memo=memo.proofs)
    joints = turned(joints, _chosen(car, proved.routes))
    routes = lay(car, joints, proved.routes)
    found = (*routes.findings, *laid.findings, *proved.findings)
    return joints, replace(routes, findings=found)


def _unlaid(memo: Memo, car: Car) -> set[str]:
    """Lines for which no course is found."""
    laid = lay_all(car, offer(car), memo.courses)
    stops = (f for f in laid.findings if f.code == "no-route")
    return {name for finding in stops for name in finding.about}


def _chosen(car: Car, courses: Iterable[Route]) -> dict[tuple[str, str], Chosen]:
    """Angles of hose ends that the courses have."""
    enough = setting(car, "sureness-enough").value
    found = {}
    for route in courses:
        is_sure = route.sureness is not None and route.sureness >= enough
        for side, end in (("A", route.a), ("B", route.b)):
            found[route.id, side] = Chosen(end.shape.angle, route.sureness, is_sure)
    return found
