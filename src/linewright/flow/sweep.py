# SPDX-License-Identifier: Apache-2.0
"""The compiled frame around the iterations: numbers into constants, a first guess, a batch."""

from typing import Any

import numpy as np

from linewright.base.kernels import njit, prange
from linewright.flow import laws
from linewright.flow.descend import find
from linewright.flow.iterate import Room
from linewright.flow.laws import FIRST_VALVE, constants, first_flow, smooth_drop

#: Largest flow under which a network is at rest; residuals are then over this. [kg/s]
REST = 1e-4


@njit
def prepare(
    t: Any,
    numbers: Any,
    reference: Any,
    height: Any,
    length: Any,
    bore: Any,
    speed: Any,
    density: Any,
    viscosity: Any,
    pressure: Any,
    rows: Any,
    static: Any,
) -> None:
    """Work out the constants of all links, and the pressure that height gives each."""
    for k in range(t.kinds.size):
        refers = t.references[k]
        against = pressure[refers] if refers >= 0 else reference[k]
        constants(
            t.kinds[k],
            numbers[k],
            length[k],
            bore[k],
            speed[k],
            density[k],
            viscosity[k],
            against,
            rows[k],
        )
        rise = height[t.first[k]] - height[t.second[k]]
        static[k] = density[k] * laws.GRAVITY * rise


@njit
def level(t: Any, pressure: Any, begin: Any) -> None:
    """Begin with the mean of the fixed pressures at all nodes where it is sought."""
    begin[:] = pressure
    for j in range(t.free.size):
        begin[t.free[j]] = 0.0
    mean = begin.sum() / (begin.size - t.free.size)
    for j in range(t.free.size):
        begin[t.free[j]] = mean


@njit
def guess(t: Any, rows: Any, flow: Any, state: Any) -> None:
    """Begin with flows as they are usual, checks open, reliefs shut and regulators at work."""
    for k in range(t.kinds.size):
        kind = t.kinds[k]
        flow[k] = first_flow(kind, rows[k])
        if kind >= FIRST_VALVE:
            state[k] = laws.HOLDS
            if kind == laws.ONE_WAY:
                state[k] = laws.OPEN if flow[k] > 0.0 else laws.SHUT


@njit
def astray(
    kind: int, row: Any, state: int, flow: float, before: float, after: float, drop: float
) -> Any:
    """How far a valve is from its law in its state. [Pa]"""
    main = flow - row[3] * drop
    felt = before - row[4] if kind == laws.BACK_PRESSURE else row[4] - after
    if state == laws.HOLDS:
        return abs(felt - main * row[5])
    over = drop - row[0]
    if state == laws.OPEN:
        return abs((row[1] + row[2] * main) * main - over)
    return max(0.0, over if kind == laws.ONE_WAY else min(over, felt))


@njit
def check(t: Any, rows: Any, static: Any, demand: Any, pressure: Any, flow: Any, state: Any) -> Any:
    """Largest flow that a node lacks, over the largest flow, and largest mismatch of drops."""
    lacks = np.zeros(pressure.size)
    lacks -= demand
    largest = worst = mismatch = 0.0
    for k in range(t.kinds.size):
        a, b = t.first[k], t.second[k]
        lacks[a] -= flow[k]
        lacks[b] += flow[k]
        largest = max(largest, abs(flow[k]))
        drop = pressure[a] - pressure[b] + static[k]
        if t.kinds[k] < FIRST_VALVE:
            found, _ = smooth_drop(t.kinds[k], rows[k], flow[k])
            mismatch = max(mismatch, abs(found - drop))
        else:
            wrong = astray(t.kinds[k], rows[k], state[k], flow[k], pressure[a], pressure[b], drop)
            mismatch = max(mismatch, wrong)
    for j in range(t.free.size):
        worst = max(worst, abs(lacks[t.free[j]]))
    return worst / max(largest, REST), mismatch


@njit
def solve_share(
    t: Any,
    numbers: Any,
    reference: Any,
    height: Any,
    length: Any,
    bore: Any,
    speed: Any,
    density: Any,
    viscosity: Any,
    pressures: Any,
    demands: Any,
    start: Any,
    rooms: Any,
    tolerance: float,
    out: Any,
    share: int,
) -> None:
    """Solve one share of the variants, in a room of its own."""
    start_flow, start_pressure, start_state = start
    out_flow, out_pressure, out_state, out_turns = out
    count, shares = out_turns.size, rooms.x.shape[0]
    r = Room(
        rooms.lower[share],
        rooms.upper[share],
        rooms.sums[share],
        rooms.inverse[share],
        rooms.x[share],
        rooms.near[share],
        rooms.far[share],
        rooms.tangents[share],
        rooms.kept[share],
    )
    rows = np.zeros((t.kinds.size, laws.CONSTANTS))
    static = np.zeros(t.kinds.size)
    begin = np.zeros(height.size)
    for i in range(share * count // shares, (share + 1) * count // shares):
        fixed = pressures[i % pressures.shape[0]]
        prepare(
            t,
            numbers[i % numbers.shape[0]],
            reference,
            height,
            length[i % length.shape[0]],
            bore[i % bore.shape[0]],
            speed[i % speed.shape[0]],
            density[i % density.shape[0]],
            viscosity[i % viscosity.shape[0]],
            fixed,
            rows,
            static,
        )
        level(t, fixed, begin)
        flow, pressure, state = out_flow[i], out_pressure[i], out_state[i]
        flow[:] = start_flow
        state[:] = start_state
        pressure[:] = fixed
        for j in range(t.free.size):
            pressure[t.free[j]] = start_pressure[t.free[j]]
        demand = demands[i % demands.shape[0]]
        out_turns[i] = find(t, rows, static, demand, pressure, flow, state, r, tolerance, begin)


@njit(parallel=True)
def solve_rows(
    t: Any,
    numbers: Any,
    reference: Any,
    height: Any,
    length: Any,
    bore: Any,
    speed: Any,
    density: Any,
    viscosity: Any,
    pressures: Any,
    demands: Any,
    start: Any,
    rooms: Any,
    tolerance: float,
    out: Any,
) -> None:
    """Solve every variant from the same start, in shares that each have a room to work in."""
    for share in prange(rooms.x.shape[0]):
        solve_share(
            t,
            numbers,
            reference,
            height,
            length,
            bore,
            speed,
            density,
            viscosity,
            pressures,
            demands,
            start,
            rooms,
            tolerance,
            out,
            share,
        )
