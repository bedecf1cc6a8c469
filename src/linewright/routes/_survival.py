# SPDX-License-Identifier: Apache-2.0
"""In which draws of its ports a pair of hose ends still works: the compiled part.

A pair works where some setting of its elbows, near those that were found for the ports as
typed, gives a course without a loop that keeps off all bodies, and that keeps the rule of
gravity if the hose has one. What carries a port moves and
turns along with it, so its bodies are asked from the port as it was typed.
"""

from math import inf, isfinite, pi
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from linewright.base.kernels import njit
from linewright.routes._courses import MOST, WIDE, clear, cost, course, end_clear, note, set_row
from linewright.routes._gravity import HIGH, toll
from linewright.space.nearest import Bodies, Flags, Tree

if TYPE_CHECKING:
    from numpy.typing import NDArray

Floats: TypeAlias = "NDArray[np.float64]"
Whole: TypeAlias = "NDArray[np.int64]"

# Elbows are turned by so much to either side where they do not work as found: all round where
# there is one of them, else near by. [rad]
ALONE = np.array([0.0, 1.0, -1.0, 2.5, -2.5, 4.0, -4.0, 6.0, -6.0, 9.0]) * pi / 9.0
TURNS = np.array([0.0, 1.0, -1.0, 3.0, -3.0]) * pi / 9.0


@njit
def _keeps_off(
    b: Bodies,
    tree: Tree,
    off: Floats,
    slack: Floats,
    live: Flags,
    live_a: Flags,
    live_b: Flags,
    typed: Floats,
    fa: Floats,
    fb: Floats,
    points: Floats,
    n: int,
    moved: Floats,
    keep: float,
) -> bool:
    """Whether points keep off what stands still and what moved with either port."""
    if clear(b, tree, off, slack, live, points, n, keep) >= 0:
        return False
    for side in range(2):
        if not (np.any(live_a) if side == 0 else np.any(live_b)):
            continue
        f = fa if side == 0 else fb
        for i in range(n):
            for k in range(3):
                moved[i, k] = typed[side, k]
            for axis in range(3, 12, 3):
                along = 0.0
                for k in range(3):
                    along += (points[i, k] - f[k]) * f[axis + k]
                for k in range(3):
                    moved[i, k] += along * typed[side, axis + k]
        if clear(b, tree, off, slack, live_a if side == 0 else live_b, moved, n, keep) >= 0:
            return False
    return True


@njit
def _works(
    b: Bodies,
    tree: Tree,
    off: Floats,
    slack: Floats,
    live: Flags,
    live_a: Flags,
    live_b: Flags,
    ends: Flags,
    typed: Floats,
    fa: Floats,
    fb: Floats,
    one: Floats,
    two: Floats,
    radius: float,
    keep: float,
    step: float,
    box: Floats,
    w: Floats,
    points: Floats,
    moved: Floats,
    rule: Floats,
    sticks: Floats,
    seen: Floats,
    quick: bool,
) -> int:
    """What becomes of one setting of both ends: 0 no course, 2 works.

    1 is for what has something in the way, or goes against gravity.
    """
    value, found = cost(one, two, radius, box, w, True)
    if not isfinite(value):
        if quick:
            return 0
        value, found = cost(one, two, radius, box, w, False)
        if not isfinite(value):
            return 0
    broken = 0.0
    if rule[0] != 0.0:
        broken = toll(rule, sticks[0], sticks[1], one, two, found, radius, np.empty(HIGH))
    if broken > 0.0:
        return 1
    if not tree.order.shape[0]:
        return 2
    if end_clear(b, tree, off, slack, ends, one, step, keep) >= 0:
        return 1
    if end_clear(b, tree, off, slack, ends, two, step, keep) >= 0:
        return 1
    n = course(one, two, found, radius, step, points)
    note(points, n, seen)
    is_clear = _keeps_off(
        b, tree, off, slack, live, live_a, live_b, typed, fa, fb, points, n, moved, keep
    )
    return 2 if is_clear else 1


@njit
def survives(
    b: Bodies,
    tree: Tree,
    off: Floats,
    slack: Floats,
    live: Flags,
    live_a: Flags,
    live_b: Flags,
    ends: Flags,
    frames_a: Floats,
    frames_b: Floats,
    typed: Floats,
    sa: Floats,
    sb: Floats,
    leads: Floats,
    turns: Floats,
    radius: float,
    keep: float,
    step: float,
    tried: int,
    rule: Floats,
    seen: Floats,
    states: Whole,
) -> None:
    """What becomes of one pair of hose ends in each draw in which it does not work yet.

    States are as `_works` tells them, the best so far; draws under 0 are left out. ``turns``
    are those found as typed; so many others are ``tried`` where they do not work. ``live`` are
    bodies that stand still, ``live_a`` and ``live_b`` those that move with a port, ``ends``
    those that a hose end keeps off. ``typed`` are both frames as typed, ``rule`` what gravity asks,
    ``seen`` boxes that courses are noted in.
    """
    one, two = np.empty(WIDE), np.empty(WIDE)
    points, moved = np.empty((MOST, 3)), np.empty((MOST, 3))
    box, w = np.zeros(6), np.zeros(2)
    places = TURNS if sa[0] > 0.0 and sb[0] > 0.0 else ALONE
    m = places.shape[0] if sa[0] > 0.0 else 1
    n = places.shape[0] if sb[0] > 0.0 else 1
    values, sticks = np.empty(m * n), np.array([sa[3], sb[3]])
    for d in range(states.shape[0]):
        if states[d] == 2 or states[d] < 0:
            continue
        fa, fb = frames_a[d], frames_b[d]
        set_row(fa, sa, leads[0], turns[0], one)
        set_row(fb, sb, leads[1], turns[1], two)
        state = _works(
            b,
            tree,
            off,
            slack,
            live,
            live_a,
            live_b,
            ends,
            typed,
            fa,
            fb,
            one,
            two,
            radius,
            keep,
            step,
            box,
            w,
            points,
            moved,
            rule,
            sticks,
            seen,
            False,
        )
        states[d] = max(states[d], state)
        if state == 2 or m * n == 1:
            continue
        for k in range(m * n):
            set_row(fa, sa, leads[0], turns[0] + places[k // n], one)
            set_row(fb, sb, leads[1], turns[1] + places[k % n], two)
            values[k] = cost(one, two, radius, box, w, True)[0]
        values[0] = inf
        for _ in range(tried):
            k = int(np.argmin(values))
            if not isfinite(values[k]):
                break
            values[k] = inf
            set_row(fa, sa, leads[0], turns[0] + places[k // n], one)
            set_row(fb, sb, leads[1], turns[1] + places[k % n], two)
            state = _works(
                b,
                tree,
                off,
                slack,
                live,
                live_a,
                live_b,
                ends,
                typed,
                fa,
                fb,
                one,
                two,
                radius,
                keep,
                step,
                box,
                w,
                points,
                moved,
                rule,
                sticks,
                seen,
                True,
            )
            states[d] = max(states[d], state)
            if state == 2:
                break
