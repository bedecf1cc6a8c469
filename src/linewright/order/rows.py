# SPDX-License-Identifier: Apache-2.0
"""A mixed-integer model as rows and columns, handed to HiGHS through scipy."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from math import inf


@dataclass(slots=True)
class Model:
    """Columns with bounds and costs, rows with bounds; filled step by step.

    Costs and bounds of money are in the currency's own unit: the solver's tolerances suit
    numbers of that size.
    """

    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)
    cost: list[float] = field(default_factory=list)
    whole: list[int] = field(default_factory=list)
    row_low: list[float] = field(default_factory=list)
    row_high: list[float] = field(default_factory=list)
    entries: list[tuple[int, int, float]] = field(default_factory=list)

    def column(self, low: float, high: float, cost: float = 0.0, *, is_whole: bool = True) -> int:
        """Add a column; return its index."""
        self.low.append(low)
        self.high.append(high)
        self.cost.append(cost)
        self.whole.append(int(is_whole))
        return len(self.low) - 1

    def row(self, terms: Iterable[tuple[int, float]], low: float = -inf, high: float = inf) -> None:
        """Add a row: ``low`` <= sum of (column, factor) <= ``high``."""
        at = len(self.row_low)
        self.entries += [(at, column, value) for column, value in terms if value]
        self.row_low.append(low)
        self.row_high.append(high)


@dataclass(frozen=True, slots=True)
class Answer:
    """What HiGHS found: values of the columns, None where it proved that there are none.

    ``bound`` is proved: no answer can cost less. ``is_out_of_time`` where the search was cut off.
    """

    values: tuple[float, ...] | None
    bound: float
    is_out_of_time: bool = False


def solve(model: Model, seconds: float, cost: list[float] | None = None) -> Answer:
    """Search the least cost, to a gap of nothing.

    Parameters
    ----------
    model : Model
        Columns and rows.
    seconds : float
        When to stop looking [s]
    cost : list of float, optional
        Other costs than the model's own.

    Returns
    -------
    Answer
        With the proved bound.
    """
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csr_array

    if not model.low:
        return Answer((), 0.0)
    at, columns, values = zip(*model.entries, strict=True) if model.entries else ((), (), ())
    matrix = csr_array(
        (np.array(values, float), (np.array(at, int), np.array(columns, int))),
        shape=(len(model.row_low), len(model.low)),
    )
    found = milp(
        np.array(cost if cost is not None else model.cost, float),
        constraints=LinearConstraint(matrix, model.row_low, model.row_high),
        bounds=Bounds(model.low, model.high),
        integrality=np.array(model.whole),
        options={"time_limit": max(seconds, 0.1), "mip_rel_gap": 0.0},
    )
    bound = found.mip_dual_bound
    bound = -inf if bound is None else float(bound)
    if found.x is None:
        return Answer(None, bound, is_out_of_time=found.status == 1)
    return Answer(tuple(float(x) for x in found.x), bound, is_out_of_time=found.status == 1)
