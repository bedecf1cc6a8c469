# SPDX-License-Identifier: Apache-2.0
"""The law of each kind of link: its drop of pressure, or its flow, and how steeply it changes.

Every law rises with flow. A link is a few constants of its law, worked out once from bore,
length, speed and fluid by `constants`, so that an iteration meets no power but those of
friction. Smooth links give a drop at a flow; valves, whose drop jumps at no flow, give a flow
at a drop, beside a leak that keeps shut parts at one pressure (`LEAK`).
"""

from math import inf, pi, sqrt
from typing import Any

from linewright.base.kernels import njit
from linewright.flow.friction import churchill, convoluted, curved, general

# Kinds of link, as the kernels know them.
LINE, LINE_GENERAL, LINE_CONVOLUTED, LOSS, ORIFICE, CENTRIFUGAL, DISPLACEMENT = range(7)
ONE_WAY, BACK_PRESSURE, REDUCING = range(7, 10)
FIRST_VALVE = ONE_WAY

# States of a valve. SHUT and OPEN are all that a one-way valve has; OPEN is wide open.
SHUT, HOLDS, OPEN = range(3)

#: Constants of one link.
CONSTANTS = 9
#: What a shut valve passes at 1 bar, over its flow at `rise`, or at 1 bar where it has none. [-]
LEAK = 1e-9
#: Flow below which a purely quadratic law is straight, over its flow at 1 bar. [-]
STRAIGHT = 1e-7
#: Standard gravity. [m/s2]
GRAVITY = 9.80665
_BAR = 1e5


@njit
def straight_part(linear: float, quadratic: float) -> float:
    """The straight part of a law, never nothing: a drop without slope cannot be solved for."""
    least = STRAIGHT * sqrt(quadratic * _BAR)
    return linear if linear > least else least


@njit
def root(linear: float, quadratic: float, drop: float) -> float:
    """The flow at which linear m + quadratic m² is a drop of more than 0."""
    return 2.0 * drop / (linear + sqrt(linear * linear + 4.0 * quadratic * drop))


@njit
def constants(
    kind: int,
    numbers: Any,
    length: float,
    bore: float,
    speed: float,
    density: float,
    viscosity: float,
    reference: float,
    row: Any,
) -> None:
    """Work out a link's constants: ``numbers`` are those of `pack`, in its order."""
    if kind <= LINE_CONVOLUTED:
        head = 8.0 / (pi * pi * density * bore**4)
        row[0] = 4.0 / (pi * bore * density * viscosity)
        row[1] = numbers[0] / bore
        row[2] = head * (length - numbers[3]) / bore
        row[3] = head * numbers[3] / bore
        row[4] = bore / (2.0 * numbers[4]) if numbers[4] > 0.0 else 0.0
        row[5] = head * numbers[1]
        row[6] = head * numbers[2] / row[0]
        row[7] = numbers[5] / bore
        row[8] = 0.25 * pi * bore * bore * density
    elif kind == LOSS:
        row[1] = numbers[1] / (2.0 * density)
        row[0] = straight_part(numbers[0] * viscosity, row[1])
    elif kind == ORIFICE:
        area = 0.25 * pi * bore * bore
        rate = 4.0 / (pi * bore * density * viscosity)
        row[0] = (1.0 - numbers[1] ** 4) / (2.0 * density * (numbers[0] * area) ** 2)
        row[1] = 2.0 * row[0] * numbers[2] / sqrt(rate)
        row[2] = straight_part(row[0] * numbers[2] ** 2 / rate, row[0])
    elif kind == CENTRIFUGAL:
        row[0] = density * GRAVITY * numbers[0] * speed * speed
        row[2] = -GRAVITY * numbers[2] / density
        row[1] = straight_part(-GRAVITY * numbers[1] * abs(speed), row[2])
    elif kind == DISPLACEMENT:
        row[0] = density * numbers[0] * speed
        row[1] = viscosity / numbers[1]
    else:
        # opens, rise, flow, viscous, inertial, holds
        row[0] = numbers[0]
        row[2] = numbers[4] / (2.0 * density)
        if numbers[2] > 0.0:
            rate = numbers[1] / (density * numbers[2])
            row[3] = LEAK * density * numbers[2] / _BAR
        else:
            rate = 0.0
            linear = straight_part(numbers[3] * viscosity, row[2])
            row[3] = LEAK * root(linear, row[2], _BAR) / _BAR
        if kind == ONE_WAY and numbers[2] > 0.0:
            row[1] = rate
        else:
            row[1] = straight_part(numbers[3] * viscosity, row[2])
        row[4] = numbers[5] + reference
        row[5] = rate


@njit
def line_drop(kind: int, row: Any, flow: float) -> tuple[float, float]:
    """Drop of a line and its slope: friction of the straight part, of the bends, and losses."""
    # Below a Reynolds number of 0.001 the flow is laminar for sure, and the law is straight.
    size = max(abs(flow), 1e-3 / row[0])
    reynolds = row[0] * size
    if kind == LINE:
        factor, change = churchill(reynolds, row[1])
    elif kind == LINE_GENERAL:
        factor, change = general(reynolds, row[1])
    else:
        factor, change = convoluted(reynolds, row[1], row[7])
    straight = row[2]
    drop = (straight * factor + row[5]) * size + row[6]
    slope = straight * (change * reynolds + 2.0 * factor) * size + 2.0 * row[5] * size + row[6]
    if row[3] > 0.0:
        if row[4] > 0.0 and kind != LINE_CONVOLUTED:
            factor, change = curved(reynolds, row[1], row[4])
        drop += row[3] * factor * size
        slope += row[3] * (change * reynolds + 2.0 * factor) * size
    return drop * flow, slope


@njit
def smooth_drop(kind: int, row: Any, flow: float) -> tuple[float, float]:
    """Drop from a to b of a link that is no valve [Pa], and its slope [Pa s/kg]."""
    if kind <= LINE_CONVOLUTED:
        return line_drop(kind, row, flow)
    size = abs(flow)
    if kind == LOSS:
        return (row[0] + row[1] * size) * flow, row[0] + 2.0 * row[1] * size
    if kind == ORIFICE:
        slow = row[1] * sqrt(size)
        drop = (row[0] * size + slow + row[2]) * flow
        return drop, 2.0 * row[0] * size + 1.5 * slow + row[2]
    if kind == CENTRIFUGAL:
        return (row[1] + row[2] * size) * flow - row[0], row[1] + 2.0 * row[2] * size
    return (flow - row[0]) * row[1], row[1]


@njit
def smooth_flow(kind: int, row: Any, drop: float, start: float) -> tuple[float, float]:
    """Flow of a link that is no valve, at a drop, and its slope: Newton between closing bounds."""
    low, high = -inf, inf
    reach = abs(start) + 1e-6
    flow, slope = start, 1.0
    for _ in range(300):
        found, slope = smooth_drop(kind, row, flow)
        if found > drop:
            high = flow
        else:
            low = flow
        following = flow + min(max((drop - found) / slope, -reach), reach)
        reach *= 2.0
        if not low <= following <= high:
            following = 0.5 * (low + high)
        if abs(following - flow) <= 1e-14 * abs(flow) + 1e-18:
            break
        flow = following
    return flow, 1.0 / slope


@njit
def wide_flow(row: Any, drop: float) -> tuple[float, float]:
    """Flow of a valve that is open as far as it goes [kg/s], and its slope [kg/(s Pa)]."""
    over = drop - row[0]
    if over <= 0.0:
        return 0.0, 0.0
    flow = root(row[1], row[2], over)
    return flow, 1.0 / (row[1] + 2.0 * row[2] * flow)


@njit
def valve_state(kind: int, row: Any, before: float, after: float, drop: float) -> int:
    """State that a valve has at the pressures before and after it."""
    wide, _ = wide_flow(row, drop)
    if kind == ONE_WAY:
        return OPEN if wide > 0.0 else SHUT
    felt = before - row[4] if kind == BACK_PRESSURE else row[4] - after
    if wide <= 0.0 or felt <= 0.0:
        return SHUT
    return HOLDS if felt < wide * row[5] else OPEN


@njit
def valve_flow(
    kind: int, row: Any, before: float, after: float, drop: float
) -> tuple[float, float, float]:
    """Flow of a valve, and how it grows with the pressure before and falls with that after."""
    state = valve_state(kind, row, before, after, drop)
    leak = row[3]
    if state == SHUT:
        return leak * drop, leak, leak
    if state == OPEN:
        flow, slope = wide_flow(row, drop)
        return flow + leak * drop, slope + leak, slope + leak
    slope = 1.0 / row[5]
    if kind == BACK_PRESSURE:
        return (before - row[4]) * slope + leak * drop, slope + leak, leak
    return (row[4] - after) * slope + leak * drop, leak, slope + leak


@njit
def first_flow(kind: int, row: Any) -> Any:
    """A usual flow to begin with: 1 m/s in a line, 0.1 bar across a loss, half a pump's head."""
    if kind <= LINE_CONVOLUTED:
        return row[8]
    if kind == LOSS:
        return root(row[0], row[1], 0.1 * _BAR)
    if kind == ORIFICE:
        return root(row[2], row[0], 0.1 * _BAR)
    if kind == CENTRIFUGAL:
        return root(row[1], row[2], 0.5 * row[0])
    if kind == DISPLACEMENT:
        return row[0]
    if kind == ONE_WAY and row[0] == 0.0:
        return root(row[1], row[2], 0.1 * _BAR)
    return 0.0
