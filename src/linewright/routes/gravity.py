# SPDX-License-Identifier: Apache-2.0
"""Lines that have to fall, to rise, or to trap nothing: what that makes of their search."""

from collections.abc import Sequence
from dataclasses import replace
from math import radians, sin
from typing import TYPE_CHECKING

from linewright.car.model import Car, Line, Medium
from linewright.joints.offered import setting
from linewright.routes.pairs import Best, End, asked_hose, is_typed
from linewright.routes.tasks import Kind, Pose, Rule, Task

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

#: Courses of one pair of ends that are asked whether they are clear.
_TRIED = 48

#: What a course against its rule costs, in metres of hose: more than any envelope; and what each
#: metre of it costs besides, so that of two bad ones the less bad is taken.
STOP, STEEP = 1000.0, 100.0

#: What a limit is kept by while a course is looked for. [m]
_SPARE = 0.0005


def rule_of(car: Car, line: Line) -> Rule | None:
    """What gravity asks of a line.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        The line.

    Returns
    -------
    Rule or None
        Drains fall, bleeds rise to their tank, vents have no sag between two higher points,
        suction lines of liquids no hump; None for all others.
    """
    least = setting(car, "pocket-least").value - _SPARE
    match line.service:
        case "drain":
            return Rule(Kind.FALLS, 1.0, sin(radians(setting(car, "drain-fall").value)))
        case "bleed":
            a, b = car.port(line.from_port), car.port(line.to_port)
            inlets = [p is not None and p.role is not None and p.role.is_inlet for p in (a, b)]
            return Rule(Kind.RISES, -1.0 if inlets == [True, False] else 1.0, least)
        case "vent":
            return Rule(Kind.NO_TRAP, -1.0, least)
        case "suction" if line.medium is not Medium.AIR:
            return Rule(Kind.NO_TRAP, 1.0, least)
    return None


def eased(rule: Rule | None, share: float) -> Rule | None:
    """A rule whose limits may be used up in part, as where ports are not known well.

    Parameters
    ----------
    rule : Rule or None
        The rule.
    share : float
        What has to be left of each limit. [-]

    Returns
    -------
    Rule or None
        A fall of that share, or so much more that is left alone.
    """
    if rule is None:
        return None
    return replace(rule, limit=rule.limit * (share if rule.kind is Kind.FALLS else 2.0 - share))


def numbers(rule: Rule | None) -> "Floats":
    """A rule as the kernels know it.

    Parameters
    ----------
    rule : Rule or None
        The rule; None asks nothing.

    Returns
    -------
    ndarray
        Kind, sign, limit, and what it costs to break it.
    """
    import numpy as np

    if rule is None:
        return np.zeros(5)
    return np.array([float(rule.kind), rule.sign, rule.limit, STOP, STEEP])


def under_rule(task: Task, a: End, b: End, pairs: list[list[Best]], step: float) -> None:
    """Charge pairs of ends whose courses break the rule, and look for better ones.

    Parameters
    ----------
    task : Task
        The hose.
    a, b : End
        Settings of its ends.
    pairs : list of list of Best
        What was found without the rule; it is changed in place. A course that breaks the rule
        costs more than any that keeps it.
    step : float
        Between points at which a course is looked at. [m]
    """
    if task.gravity is None or not any(best.state == 2 for row in pairs for best in row):
        return
    import numpy as np

    from linewright.routes import _falling
    from linewright.space.obstacles import ONE_AT_A_TIME

    answers = np.array([[p.turn_a, p.turn_b, p.cost, p.state] for row in pairs for p in row])
    may = np.array(
        [is_typed(a, i) and is_typed(b, j) for i, r in enumerate(pairs) for j in range(len(r))]
    )
    with ONE_AT_A_TIME:
        _falling.falling(
            *task.question,
            asked_hose(task, step, np.array([task.weights.outside, task.weights.bend])),
            numbers(task.gravity),
            a.settings,
            b.settings,
            answers,
            may,
            _TRIED,
        )
    n = len(b.side.shapes)
    for i, row in enumerate(pairs):
        for j, best in enumerate(row):
            turn_a, turn_b, cost, _ = (float(v) for v in answers[i * n + j])
            row[j] = replace(best, turn_a=turn_a, turn_b=turn_b, cost=cost)


def fault(
    task: Task, a: "Floats", b: "Floats", sticks: tuple[float, float], poses: Sequence[Pose] = ()
) -> float:
    """By how much a course breaks the rule of its hose.

    Parameters
    ----------
    task : Task
        The hose.
    a, b : ndarray
        Rows of the settings at both ends (`_courses`); a pose has one too.
    sticks : tuple of float
        What stands out under the hose ends at A and at B. [m]
    poses : sequence of Pose
        What the course passes, in order.

    Returns
    -------
    float
        0 where it keeps it; infinite where there is no course. [m]
    """
    if task.gravity is None:
        return 0.0
    import numpy as np

    from linewright.routes import _gravity

    ones, twos = [a], []
    for pose in poses:
        twos.append(pose_row(pose, -1.0))
        ones.append(pose_row(pose, 1.0))
    twos.append(b)
    return float(
        _gravity.broken(
            numbers(task.gravity),
            *sticks,
            np.array(ones),
            np.array(twos),
            task.limits.bend_radius,
            np.empty(_gravity.HIGH),
        )
    )


def pose_row(pose: Pose, way: float) -> "Floats":
    """A pose as a row of the kernels.

    Parameters
    ----------
    pose : Pose
        The place and the direction of travel.
    way : float
        1 for a hose that leaves it, -1 for one that comes to it. [-]

    Returns
    -------
    ndarray
        The row (`_courses`).
    """
    import numpy as np

    from linewright.routes import _courses

    at, along = np.array(pose[0]), np.array(pose[1])
    row = np.zeros(_courses.WIDE)
    for k in (0, 6, 9, 13, 16, 19, 22):
        row[k : k + 3] = at
    row[3:6] = way * along
    return row


def toll(broken: float) -> float:
    """What a course costs for breaking its rule.

    Parameters
    ----------
    broken : float
        By how much it does. [m]

    Returns
    -------
    float
        0 where it keeps it. [m]
    """
    return STOP + STEEP * broken if broken > 0.0 else 0.0
