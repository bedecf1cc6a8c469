# SPDX-License-Identifier: Apache-2.0
"""Flows and pressures of a network, of one state or of many variants in one call."""

from dataclasses import dataclass, fields
from enum import StrEnum

import numpy as np

from linewright.base.errors import FlowError
from linewright.flow import laws
from linewright.flow.descend import find
from linewright.flow.iterate import Room, room
from linewright.flow.laws import FIRST_VALVE
from linewright.flow.pack import Packed
from linewright.flow.sweep import check, guess, level, prepare, solve_rows, solve_share

#: Change of any flow in an iteration, over the largest flow, at which it is settled. [-]
TOLERANCE = 1e-10
#: The same for batches. What is left after an iteration is about the square of its change. [-]
TOLERANCE_MANY = 1e-7


class Status(StrEnum):
    """What a link does: only valves do anything but pass."""

    PASSES = "passes"
    SHUT = "shut"
    HOLDS = "holds"
    OPEN = "wide open"


@dataclass(frozen=True, slots=True)
class Solution:
    """A network solved.

    ``flows`` from a to b [kg/s] and ``statuses`` stand in the order of its links, ``pressures``
    [Pa] in that of its nodes. ``states`` has the statuses as the kernels know them. ``residual``
    is the largest flow that any node lacks, over the largest flow or over `sweep.REST` if that is
    more [-]; ``mismatch`` is the largest difference between the drop of a link by its law and
    by the pressures at its ends [Pa].
    """

    packed: Packed
    flows: np.ndarray
    pressures: np.ndarray
    states: np.ndarray
    iterations: int
    residual: float
    mismatch: float

    @property
    def statuses(self) -> tuple[Status, ...]:
        """What each link does, in their order."""
        kinds = self.packed.topology.kinds
        return tuple(
            _STATUS[state] if kind >= FIRST_VALVE else Status.PASSES
            for kind, state in zip(kinds, self.states, strict=True)
        )

    def flow(self, link: str) -> float:
        """Flow of a link from a to b. [kg/s]"""
        return float(self.flows[self.packed.link[link]])

    def pressure(self, node: str) -> float:
        """Pressure at a node. [Pa]"""
        return float(self.pressures[self.packed.node[node]])

    def status(self, link: str) -> Status:
        """What a link does."""
        return self.statuses[self.packed.link[link]]


_STATUS = {laws.SHUT: Status.SHUT, laws.HOLDS: Status.HOLDS, laws.OPEN: Status.OPEN}


@dataclass(frozen=True, slots=True)
class Variants:
    """What differs between variants of one network; what is None is as it was packed.

    Of shape (k, n) for k variants of n links: ``length``, ``bore`` [m], ``speed`` [- or
    turns/s], ``density`` [kg/m3], ``viscosity`` [m2/s]. Of shape (k, v) for v nodes:
    ``pressure`` of the fixed nodes [Pa], ``demand`` [kg/s]. ``numbers``, of shape (k, n, 6), are
    those of each law as `Packed` has them.
    """

    length: np.ndarray | None = None
    bore: np.ndarray | None = None
    speed: np.ndarray | None = None
    density: np.ndarray | None = None
    viscosity: np.ndarray | None = None
    pressure: np.ndarray | None = None
    demand: np.ndarray | None = None
    numbers: np.ndarray | None = None


@dataclass(frozen=True, slots=True)
class Solutions:
    """Many variants solved: k rows.

    ``flows`` [kg/s] and ``states`` have shape (k, n), ``pressures`` [Pa] (k, v), ``iterations``
    (k,), less than 0 for a variant that did not settle.
    """

    flows: np.ndarray
    pressures: np.ndarray
    states: np.ndarray
    iterations: np.ndarray


def solve(packed: Packed, start: Solution | None = None) -> Solution:
    """Find flows and pressures of a network.

    Parameters
    ----------
    packed : Packed
        The network as arrays.
    start : Solution, optional
        Where to begin: a solution of the same network, of other numbers too.

    Returns
    -------
    Solution
        Flows, pressures and what each valve does.

    Raises
    ------
    FlowError
        If the iterations do not settle; no well-posed network is known that does not.

    Notes
    -----
    The global gradient method [1]_ in pressures and mass flows. A valve that is shut leaks
    `laws.LEAK` of its own flow, so that what it shuts off has a pressure.

    References
    ----------
    .. [1] E. Todini, S. Pilati, A gradient algorithm for the analysis of pipe networks, 1988.

    Examples
    --------
    A hose of 2 m and 12.7 mm lets water down from 3 bar to 1.

    >>> from linewright.flow.network import Line, Network, Node, State
    >>> from linewright.flow.pack import pack
    >>> water = State(density=998.0, viscosity=1.0e-6)
    >>> hose = Line("L", "A", "B", length=2.0, bore=0.0127, roughness=1e-5)
    >>> ends = (Node("A", pressure=3e5), Node("B", pressure=1e5))
    >>> solve(pack(Network(ends, (hose,), water))).flow("L")
    1.396
    """
    p = packed
    t = p.topology
    rows = np.zeros((t.kinds.size, laws.CONSTANTS))
    static = np.zeros(t.kinds.size)
    fixed = (p.length, p.bore, p.speed, p.density, p.viscosity, p.pressure)
    prepare(t, p.numbers, p.reference, p.height, *fixed, rows, static)
    begin = np.zeros(p.pressure.size)
    level(t, p.pressure, begin)
    if start is None:
        flow, state = np.zeros(t.kinds.size), np.zeros(t.kinds.size, dtype=np.int64)
        pressure = begin.copy()
        guess(t, rows, flow, state)
    else:
        flow, state, pressure = start.flows.copy(), start.states.copy(), p.pressure.copy()
        pressure[t.free] = start.pressures[t.free]
    turns = find(t, rows, static, p.demand, pressure, flow, state, room(t), TOLERANCE, begin)
    residual, mismatch = check(t, rows, static, p.demand, pressure, flow, state)
    if turns < 0:
        raise FlowError(
            f"The network did not settle in {-turns} iterations: nodes lack up to "
            f"{residual:.3g} of the largest flow. Look for numbers that are far out."
        )
    return Solution(
        packed=p,
        flows=flow,
        pressures=pressure,
        states=state,
        iterations=turns,
        residual=float(residual),
        mismatch=float(mismatch),
    )


def _rooms(packed: Packed, shares: int) -> Room:
    one = room(packed.topology)
    return Room(*(np.zeros((shares, array.size)) for array in one))


def _table(
    packed: Packed, variants: Variants, name: str, count: int, is_checked: bool
) -> np.ndarray:
    """The rows of a quantity: of each variant, or one for all."""
    base: np.ndarray = getattr(packed, name)
    given = getattr(variants, name)
    if given is None:
        return np.ascontiguousarray(base[np.newaxis], dtype=float)
    found = np.ascontiguousarray(given, dtype=float)
    if not is_checked:
        return found
    if found.shape != (count, *base.shape):
        size = ", ".join(str(length) for length in (count, *base.shape))
        raise FlowError(
            f"{name} has shape {found.shape}; it must have ({size}), a row for each variant."
        )
    if name == "numbers":
        if not np.isfinite(found).all():
            raise FlowError("numbers: some are no numbers; each must be one.")
        return found
    is_used = ~np.isnan(base)
    least = 0.0 if name in ("speed", "pressure") else np.nextafter(0.0, 1.0)
    is_wrong = ~np.isfinite(found) if name == "demand" else ~(np.isfinite(found) & (found >= least))
    where = np.argwhere(is_wrong & is_used)
    if where.size:
        row, column = where[0]
        items = packed.network.nodes if name in ("pressure", "demand") else packed.network.links
        limit = "a number" if name == "demand" else "0 or more" if least == 0.0 else "more than 0"
        raise FlowError(
            f"{items[column].id}: {name} is {found[row, column]:g} in variant {row}; it must be "
            f"{limit}."
        )
    return found


def solve_many(
    packed: Packed,
    variants: Variants,
    start: Solution | None = None,
    tolerance: float = TOLERANCE_MANY,
    *,
    is_checked: bool = True,
) -> Solutions:
    """Find flows and pressures of many variants of a network in one call.

    Parameters
    ----------
    packed : Packed
        The network as arrays.
    variants : Variants
        What differs; every array has a row for each variant.
    start : Solution, optional
        Where each variant begins; left out, the network as it was packed is solved first.
    tolerance : float
        Change of any flow in an iteration, over the largest, at which it is settled. [-]
    is_checked : bool
        Whether rows and numbers are looked at first; not where they are reckoned, as step by
        step through time.

    Returns
    -------
    Solutions
        A row for each variant, whatever the others are, in their order.

    Raises
    ------
    FlowError
        If arrays differ in their rows, or a number cannot be.

    Examples
    --------
    Twice the length lets less water down.

    >>> import numpy as np
    >>> from linewright.flow.network import Line, Network, Node, State
    >>> from linewright.flow.pack import pack
    >>> water = State(density=998.0, viscosity=1.0e-6)
    >>> hose = Line("L", "A", "B", length=2.0, bore=0.0127, roughness=1e-5)
    >>> ends = (Node("A", pressure=3e5), Node("B", pressure=1e5))
    >>> packed = pack(Network(ends, (hose,), water))
    >>> solve_many(packed, Variants(length=np.array([[2.0], [4.0]]))).flows.round(3).tolist()
    [[1.396], [0.97]]
    """
    # Here, and not on top: obstacles brings much with it.
    from linewright.space.obstacles import ONE_AT_A_TIME

    counts = {
        len(value) for f in fields(variants) if (value := getattr(variants, f.name)) is not None
    }
    if len(counts) != 1:
        said = ", ".join(str(c) for c in sorted(counts)) or "none"
        raise FlowError(
            f"The variants have rows: {said}. Give every array the same number of rows."
        )
    count = counts.pop()
    t = packed.topology
    tables = {f.name: _table(packed, variants, f.name, count, is_checked) for f in fields(variants)}
    begin = solve(packed) if start is None else start
    found = Solutions(
        flows=np.empty((count, t.kinds.size)),
        pressures=np.empty((count, packed.pressure.size)),
        states=np.empty((count, t.kinds.size), dtype=np.int64),
        iterations=np.empty(count, dtype=np.int64),
    )
    shares = max(1, min(64, count // 16))
    given = (
        t,
        tables["numbers"],
        packed.reference,
        packed.height,
        tables["length"],
        tables["bore"],
        tables["speed"],
        tables["density"],
        tables["viscosity"],
        tables["pressure"],
        tables["demand"],
        (begin.flows, begin.pressures, begin.states),
        _rooms(packed, shares),
        tolerance,
        (found.flows, found.pressures, found.states, found.iterations),
    )
    if shares == 1:
        # To wake the other threads would take longer than what there is to do.
        solve_share(*given, 0)
    else:
        with ONE_AT_A_TIME:
            solve_rows(*given)
    return found
