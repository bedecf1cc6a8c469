# SPDX-License-Identifier: Apache-2.0
"""The slow sure way: pressures alone, by steps so damped that nothing unbalanced grows.

The flow that a node gains never falls with its own pressure nor rises with another's, and
what leaves one node arrives at another or at a fixed pressure. For such functions a damped
step never makes the sum of the unbalanced flows larger (Rheinboldt 1970, on M-functions), and
the damping may be let go as the sum falls.
"""

from typing import Any

from linewright.base.kernels import njit
from linewright.flow.iterate import NOTHING, add, clear, gradient, resolve
from linewright.flow.laws import FIRST_VALVE, smooth_flow, valve_flow, valve_state

#: Damped steps between two tries of the gradient method, and how often that is tried.
STEPS = 100
TRIES = 20
#: What a hose passes at 1 bar, roughly, over that. [kg/(s Pa)]
HOSE = 1e-6
#: The same where valves change one by one.
PATIENT = 1000
#: Iterations of the gradient method before the slow way is taken.
QUICK = 40


@njit
def unbalanced(
    t: Any, rows: Any, static: Any, demand: Any, pressure: Any, flow: Any, r: Any
) -> float:
    """Set flows to those of these pressures and enter them; the sum of what nodes lack [kg/s]."""
    clear(r)
    for k in range(t.kinds.size):
        before, after = pressure[t.first[k]], pressure[t.second[k]]
        drop = before - after + static[k]
        kind = t.kinds[k]
        if kind < FIRST_VALVE:
            found, slope = smooth_flow(kind, rows[k], drop, flow[k])
            add(t, r, k, found, slope, slope)
        else:
            found, near, far = valve_flow(kind, rows[k], before, after, drop)
            add(t, r, k, found, near, far)
        flow[k] = found
    total = 0.0
    for j in range(t.free.size):
        r.x[j] -= demand[t.free[j]]
        total += abs(r.x[j])
    return total


@njit
def damp(t: Any, r: Any, damping: float) -> None:
    """Add to each diagonal its own share, and that of a hose, lest a shut valve be flung open."""
    for j in range(t.free.size):
        r.sums[j] += damping * HOSE
    for k in range(t.kinds.size):
        # Of what stands at the turn of a fixed node nothing is used.
        r.sums[t.first_turn[k]] += damping * r.near[k]
        r.sums[t.second_turn[k]] += damping * r.far[k]


@njit
def descend(
    t: Any,
    rows: Any,
    static: Any,
    demand: Any,
    pressure: Any,
    flow: Any,
    r: Any,
    tolerance: float,
    most: int,
) -> int:
    """Step in place until nodes lack less than the tolerance of the largest flow, in all.

    Returns the number of steps, or less than 0 where it did not come so far.
    """
    size = t.free.size
    total = unbalanced(t, rows, static, demand, pressure, flow, r)
    damping = 1e-3
    for turn in range(most):
        largest = 0.0
        for k in range(t.kinds.size):
            largest = max(largest, abs(flow[k]))
        if total <= tolerance * largest + NOTHING:
            return turn
        damp(t, r, damping)
        resolve(t, r)
        for j in range(size):
            r.kept[j] = pressure[t.free[j]]
            pressure[t.free[j]] += r.x[j]
        found = unbalanced(t, rows, static, demand, pressure, flow, r)
        if found <= total * (1.0 + 1e-8):
            damping *= 0.2
            total = found
        else:
            for j in range(size):
                pressure[t.free[j]] = r.kept[j]
            total = unbalanced(t, rows, static, demand, pressure, flow, r)
            damping = max(5.0 * damping, 1e-4)
            if damping > 1e12:
                return -turn - 1
    return -most


@njit
def find(
    t: Any,
    rows: Any,
    static: Any,
    demand: Any,
    pressure: Any,
    flow: Any,
    state: Any,
    r: Any,
    tolerance: float,
    begin: Any,
) -> int:
    """Solve in place: quickly if it settles, else the slow way; less than 0 if neither did.

    ``begin`` has the pressures from which the slow way starts.
    """
    turns = gradient(t, rows, static, demand, pressure, flow, state, r, tolerance, QUICK, False)
    if turns > 0:
        return turns
    turns = -turns
    pressure[:] = begin
    more = gradient(t, rows, static, demand, pressure, flow, state, r, tolerance, PATIENT, True)
    if more > 0:
        return turns + more
    turns -= more
    pressure[:] = begin
    for k in range(t.kinds.size):
        flow[k] = 0.0
    limit = 1e-3
    for _ in range(TRIES):
        steps = descend(t, rows, static, demand, pressure, flow, r, limit, STEPS)
        turns += abs(steps)
        limit = max(0.01 * limit, 1e-13) if steps >= 0 else limit
        for k in range(t.kinds.size):
            if t.kinds[k] >= FIRST_VALVE:
                before, after = pressure[t.first[k]], pressure[t.second[k]]
                drop = before - after + static[k]
                state[k] = valve_state(t.kinds[k], rows[k], before, after, drop)
        for j in range(t.free.size):
            r.kept[j] = pressure[t.free[j]]
        quick = gradient(t, rows, static, demand, pressure, flow, state, r, tolerance, QUICK, False)
        turns += abs(quick)
        if quick > 0:
            return turns
        for j in range(t.free.size):
            pressure[t.free[j]] = r.kept[j]
    return -turns
