# SPDX-License-Identifier: Apache-2.0
"""Long cutting lists by patterns: what one bar can yield, found as prices of pieces ask for it.

The classic way of Gilmore and Gomory [Operations Research 9 (1961), 849]: a linear model of
the patterns known so far prices the pieces, and for these prices the best pattern of a bar is
looked for. Where even shares of bars do not do, that is a proof. Otherwise whole bars are
tried with the patterns found.
"""

from collections.abc import Sequence
from dataclasses import dataclass

#: Rounds of pricing after which the way is given up.
_ROUNDS = 400

#: What a sum of prices has to be off by to prove anything. [-]
_SURE = 1e-6

#: Longest trial with whole bars [s]; where it ends without an answer, another way is tried.
_TRIAL = 10.0


@dataclass(frozen=True, slots=True)
class Kinds:
    """Equal pieces and equal bars together.

    ``takes`` is the length of each kind of piece with its cut, ``rooms`` that of each kind
    of bar with one cut, ``may`` whether a kind of piece may be cut from a kind of bar.
    """

    takes: tuple[int, ...]
    wanted: tuple[int, ...]
    rooms: tuple[int, ...]
    bars: tuple[int, ...]
    may: tuple[tuple[bool, ...], ...]


#: A kind of bar, and how many of each kind of piece are cut from it.
Pattern = tuple[int, tuple[int, ...]]


def best_pattern(kinds: Kinds, bar: int, prices: Sequence[float]) -> tuple[float, tuple[int, ...]]:
    """Find what is worth most on one bar.

    Parameters
    ----------
    kinds : Kinds
        Pieces and bars.
    bar : int
        Which kind of bar.
    prices : Sequence of float
        Of one piece of each kind [-].

    Returns
    -------
    float
        Worth of the pattern [-]
    tuple of int
        How many of each kind.
    """
    import numpy as np

    room = kinds.rooms[bar]
    worth = np.zeros(room + 1)
    layers: list[tuple[int, int, np.ndarray]] = []
    for piece, takes in enumerate(kinds.takes):
        if prices[piece] <= 0 or not kinds.may[piece][bar] or takes > room:
            continue
        # As many as fit, split into 1, 2, 4 ... so that each lot is taken or not.
        left = min(kinds.wanted[piece], room // takes)
        lot = 1
        while left > 0:
            many = min(lot, left)
            size = many * takes
            better = worth.copy()
            better[size:] = np.maximum(worth[size:], worth[:-size] + many * prices[piece])
            layers.append((piece, many, better > worth))
            worth = better
            left -= many
            lot *= 2
    counts = [0] * len(kinds.takes)
    at = room
    for piece, many, taken in reversed(layers):
        if taken[at]:
            counts[piece] += many
            at -= many * kinds.takes[piece]
    return float(worth[room]), tuple(counts)


def whole_bars(kinds: Kinds) -> tuple[Pattern, ...] | bool | None:
    """Cover all pieces with whole bars, or prove that there is no way.

    Parameters
    ----------
    kinds : Kinds
        Pieces and bars.

    Returns
    -------
    tuple of Pattern, None or bool
        One pattern for each bar used; None where it is proved that there is no way; False
        where neither was found.
    """
    patterns = [
        (bar, tuple(int(i == piece) for i in range(len(kinds.takes))))
        for bar in range(len(kinds.bars))
        for piece in range(len(kinds.takes))
        if kinds.may[piece][bar] and kinds.takes[piece] <= kinds.rooms[bar]
    ]
    known = set(patterns)
    for _ in range(_ROUNDS):
        short, prices, rents = _priced(kinds, patterns)
        fresh: list[Pattern] = []
        reach = 0.0
        for bar, count in enumerate(kinds.bars):
            worth, counts = best_pattern(kinds, bar, prices)
            reach += count * worth
            if worth > rents[bar] + _SURE and (bar, counts) not in known:
                fresh.append((bar, counts))
        asked = sum(n * price for n, price in zip(kinds.wanted, prices, strict=True))
        if asked > reach + _SURE * max(1.0, asked):
            return None  # at these prices all bars together are worth less than the pieces
        if short <= _SURE or not fresh:
            break
        patterns += fresh
        known.update(fresh)
    return _tried(kinds, _more(kinds, patterns, known))


def _more(kinds: Kinds, patterns: list[Pattern], known: set[Pattern]) -> list[Pattern]:
    """A few more patterns, as lengths themselves price the pieces: full bars."""
    found = list(patterns)
    lengths = [float(takes) for takes in kinds.takes]
    for out in range(-1, len(kinds.takes)):
        for first in (1.0, 1.02, 0.98):
            prices = [
                0.0 if i == out else length * first ** (i % 5) for i, length in enumerate(lengths)
            ]
            for bar in range(len(kinds.bars)):
                pattern = (bar, best_pattern(kinds, bar, prices)[1])
                if pattern not in known:
                    known.add(pattern)
                    found.append(pattern)
    return found


def _priced(kinds: Kinds, patterns: Sequence[Pattern]) -> tuple[float, list[float], list[float]]:
    """What is left uncovered at best with shares of bars; prices of pieces, rents of bars."""
    import numpy as np
    from scipy.optimize import linprog

    pieces, bars = len(kinds.takes), len(kinds.bars)
    table = np.zeros((pieces + bars, pieces + len(patterns)))
    for column, (bar, counts) in enumerate(patterns):
        table[:pieces, pieces + column] = [-count for count in counts]
        table[pieces + bar, pieces + column] = 1.0
    table[:pieces, :pieces] = -np.eye(pieces)
    cost = np.concatenate(
        [np.array(kinds.takes, float) / max(kinds.takes), np.zeros(len(patterns))]
    )
    limits = [*(-float(n) for n in kinds.wanted), *(float(n) for n in kinds.bars)]
    found = linprog(cost, A_ub=table, b_ub=limits, method="highs")
    duals = found.ineqlin.marginals
    prices = [max(-float(x), 0.0) for x in duals[:pieces]]
    rents = [max(-float(x), 0.0) for x in duals[pieces:]]
    return float(found.fun), prices, rents


def _tried(kinds: Kinds, patterns: Sequence[Pattern]) -> tuple[Pattern, ...] | bool:
    """Whole numbers of the patterns found."""
    from linewright.order.rows import Model, solve

    model = Model()
    columns = [model.column(0, kinds.bars[bar]) for bar, _ in patterns]
    for piece, wanted in enumerate(kinds.wanted):
        terms = [
            (column, float(counts[piece]))
            for column, (_, counts) in zip(columns, patterns, strict=True)
        ]
        model.row(terms, low=wanted)
    for bar, count in enumerate(kinds.bars):
        terms = [(c, 1.0) for c, (of, _) in zip(columns, patterns, strict=True) if of == bar]
        model.row(terms, high=count)
    answer = solve(model, _TRIAL)
    if answer.values is None:
        return False
    chosen: list[Pattern] = []
    for column, pattern in zip(columns, patterns, strict=True):
        chosen += [pattern] * round(answer.values[column])
    return tuple(chosen)
