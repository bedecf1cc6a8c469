# SPDX-License-Identifier: Apache-2.0
"""The iterations: the global gradient method, and a slow sure way where that does not settle.

`gradient` is the method of Todini and Pilati (1988) in pressures and mass flows, for
corrections, so that the balance of each node is kept to the last digits. Its full steps settle
nearly every network in 4 to 12 iterations; valves may make it go round in circles. Then
`descend` seeks pressures alone: the flow that each node gains never falls with its own
pressure nor rises with another's, and for such functions a step that is damped enough never
makes the sum of the unbalanced flows larger (Rheinboldt 1970, on M-functions).
"""

from typing import Any, NamedTuple

import numpy as np

from linewright.base.kernels import njit
from linewright.flow.elimination import eliminate, eliminate_symmetric
from linewright.flow.laws import (
    BACK_PRESSURE,
    FIRST_VALVE,
    HOLDS,
    ONE_WAY,
    OPEN,
    SHUT,
    smooth_drop,
    valve_flow,
    valve_state,
    wide_flow,
)

#: Flows below this are none. [kg/s]
NOTHING = 1e-12
#: How near an open valve is to its law when it is settled, over the pressures at its ends. [-]
CLOSE = 1e-7
#: By how much more than its opening pressure a valve is opened, over those pressures. [-]
HAIR = 1e-11


class Topology(NamedTuple):
    """What does not change between solves: kinds, ends, turns of the ends, their entry."""

    kinds: np.ndarray
    first: np.ndarray
    second: np.ndarray
    first_turn: np.ndarray
    second_turn: np.ndarray
    entries: np.ndarray
    references: np.ndarray
    free: np.ndarray
    starts: np.ndarray
    rows: np.ndarray
    targets: np.ndarray
    symmetric: bool


class Room(NamedTuple):
    """Arrays that the iterations write in; ``x`` has one place more for fixed nodes."""

    lower: np.ndarray
    upper: np.ndarray
    sums: np.ndarray
    inverse: np.ndarray
    x: np.ndarray
    near: np.ndarray
    far: np.ndarray
    tangents: np.ndarray
    kept: np.ndarray


def room(topology: Topology) -> Room:
    """Make the arrays that the iterations write in.

    Parameters
    ----------
    topology : Topology
        What they are for.

    Returns
    -------
    Room
        Arrays of the right lengths.
    """
    links, size = topology.kinds.size, topology.starts.size - 1
    entries = topology.rows.size + 1  # one place more for links that have no entry
    return Room(
        lower=np.zeros(entries),
        upper=np.zeros(entries),
        sums=np.zeros(size + 1),
        inverse=np.zeros(size + 1),
        x=np.zeros(size + 1),
        near=np.zeros(links),
        far=np.zeros(links),
        tangents=np.zeros(links),
        kept=np.zeros(size),
    )


@njit
def clear(r: Any) -> None:
    """Empty matrix and right side."""
    r.lower[:] = 0.0
    r.upper[:] = 0.0
    r.sums[:] = 0.0
    r.x[:] = 0.0


@njit
def add(t: Any, r: Any, k: int, flow: float, near: float, far: float) -> None:
    """Enter a link: its flow, its growth with the pressure before, its fall with that after."""
    first, second = t.first_turn[k], t.second_turn[k]
    size = t.starts.size - 1
    r.near[k] = near
    r.far[k] = far
    r.x[first] -= flow
    r.x[second] += flow
    entry = t.entries[k]
    if entry >= 0:
        if first < second:
            r.lower[entry] += near
            r.upper[entry] += far
        else:
            r.lower[entry] += far
            r.upper[entry] += near
    elif first < size:
        r.sums[first] += near
    elif second < size:
        r.sums[second] += far


@njit
def resolve(t: Any, r: Any) -> None:
    """Solve for the corrections of pressure, in ``x``."""
    if t.symmetric:
        eliminate_symmetric(t.starts, t.rows, t.targets, r.lower, r.sums, r.inverse, r.x)
    else:
        eliminate(t.starts, t.rows, t.targets, r.lower, r.upper, r.sums, r.inverse, r.x)
    r.x[t.starts.size - 1] = 0.0


@njit
def valve_tangent(
    kind: int, row: Any, state: int, flow: float, before: float, after: float, drop: float
) -> tuple[float, float, float]:
    """Flow of a valve by the tangent of its state, at these pressures, and both slopes."""
    leak = row[3]
    if state == SHUT:
        return leak * drop, leak, leak
    if state == HOLDS:
        slope = 1.0 / row[5]
        if kind == BACK_PRESSURE:
            return (before - row[4]) * slope + leak * drop, slope + leak, leak
        return (row[4] - after) * slope + leak * drop, leak, slope + leak
    main = flow - leak * drop
    size = abs(main)
    slope = 1.0 / (row[1] + 2.0 * row[2] * size)
    found = main - slope * ((row[1] + row[2] * size) * main - (drop - row[0]))
    return found + leak * drop, slope + leak, slope + leak


@njit
def next_state(
    kind: int,
    row: Any,
    state: int,
    flow: float,
    before: float,
    after: float,
    drop: float,
    little: float,
) -> int:
    """State of a valve after a step: ``flow`` is by the tangent of the state it had.

    What would change by less than a ``little`` flow, or opens by the last digits of a pressure,
    stays as it is, or valves on dead ends never settle.
    """
    if state == SHUT:
        if drop - row[0] <= HAIR * (abs(before) + abs(after)):
            return SHUT
        found, _, _ = valve_flow(kind, row, before, after, drop)
        if found - row[3] * drop <= little:
            return SHUT
        return valve_state(kind, row, before, after, drop)
    main = flow - row[3] * drop
    if main <= -little:
        return SHUT
    if kind == ONE_WAY:
        return OPEN
    wide, _ = wide_flow(row, drop)
    felt = before - row[4] if kind == BACK_PRESSURE else row[4] - after
    if state == HOLDS:
        return HOLDS if wide >= main - little else OPEN
    return OPEN if felt >= (main - little) * row[5] else HOLDS


@njit
def gradient(
    t: Any,
    rows: Any,
    static: Any,
    demand: Any,
    pressure: Any,
    flow: Any,
    state: Any,
    r: Any,
    tolerance: float,
    most: int,
    patient: bool,
) -> int:
    """Iterate in place until no flow changes by the tolerance of the largest.

    Where it is ``patient``, flows settle first, and then the first valve changes that should:
    slower, but it goes round in no circle. Returns the number of iterations, or less than 0
    where they did not settle.
    """
    # Taken out of their tuples once: each access costs more than the sum it is for.
    kinds, first, second, free, entries = t.kinds, t.first, t.second, t.free, t.entries
    first_turn, second_turn = t.first_turn, t.second_turn
    lower, upper, sums, x = r.lower, r.upper, r.sums, r.x
    near, far, tangents = r.near, r.far, r.tangents
    links, size = kinds.size, free.size
    for turn in range(most):
        lower[:] = 0.0
        upper[:] = 0.0
        sums[:] = 0.0
        x[:] = 0.0
        for k in range(links):
            before, after = pressure[first[k]], pressure[second[k]]
            drop = before - after + static[k]
            kind = kinds[k]
            if kind < FIRST_VALVE:
                found, steep = smooth_drop(kind, rows[k], flow[k])
                up = down = 1.0 / steep
                here = flow[k] - up * (found - drop)
            else:
                here, up, down = valve_tangent(
                    kind, rows[k], state[k], flow[k], before, after, drop
                )
            near[k], far[k], tangents[k] = up, down, here
            i, j = first_turn[k], second_turn[k]
            x[i] -= here
            x[j] += here
            entry = entries[k]
            if entry < 0:
                # One end at least is fixed; the sum at its turn is never looked at.
                sums[i] += up
                sums[j] += down
            elif i < j:
                lower[entry] += up
                upper[entry] += down
            else:
                lower[entry] += down
                upper[entry] += up
        for j in range(size):
            x[j] -= demand[free[j]]
        resolve(t, r)
        for j in range(size):
            pressure[free[j]] += x[j]
        largest = change = 0.0
        for k in range(links):
            found = tangents[k] + near[k] * x[first_turn[k]] - far[k] * x[second_turn[k]]
            change = max(change, abs(found - flow[k]))
            largest = max(largest, abs(found))
            flow[k] = found
        if not largest < 1e12:
            return -turn - 1
        settled = change <= tolerance * largest + NOTHING
        little = 0.1 * (tolerance * largest + NOTHING)
        if patient and not settled:
            continue
        for k in range(links):
            kind = kinds[k]
            if kind < FIRST_VALVE:
                continue
            before, after = pressure[first[k]], pressure[second[k]]
            drop = before - after + static[k]
            following = next_state(kind, rows[k], state[k], flow[k], before, after, drop, little)
            if following == state[k] == OPEN:
                # Its leak may take up any drop while its flow rests: then it is not settled yet.
                main = flow[k] - rows[k, 3] * drop
                lost = (rows[k, 1] + rows[k, 2] * abs(main)) * main + rows[k, 0]
                if abs(lost - drop) > CLOSE * (abs(before) + abs(after)):
                    settled = False
            elif following != state[k]:
                settled = False
                if following == OPEN:
                    # What is wide open is found from its flow: begin with one that can be.
                    flow[k] = min(wide_flow(rows[k], drop)[0], largest)
                state[k] = following
                if patient:
                    break
        if settled:
            return turn + 1
    return -most
