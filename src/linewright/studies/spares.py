# SPDX-License-Identifier: Apache-2.0
"""What to buy beside the order so that it is enough more often, as cheaply as can be.

A sample-average model: of some drawn builds, so many must have all that they need. What is
chosen on some draws is judged on others, or it would flatter itself.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from linewright.studies.confidence import BUILDS, Chance, Tell
from linewright.studies.model import Case, Stock, Unit
from linewright.studies.scenarios import Drawn, draw

#: Builds that a choice is made on.
CHOOSING = 2_000

#: Levels of the curve.
LEVELS = (0.5, 0.6, 0.7, 0.75, 0.8, 0.85, 0.9, 0.925, 0.95, 0.975, 0.99)


#: How often a level is aimed higher, where the set chosen for it falls short on other draws.
_AIMS = 4

#: Points that a curve has at least, before what can be reached at most.
_FEW = 5


@dataclass(frozen=True, slots=True)
class Spares:
    """Spares for one wanted level.

    ``units`` are (code, how many units more). ``price`` is what they cost, ``net`` what is left
    of it after the refunds to be expected, both in smallest units of the shop's currency.
    ``chance`` is counted on fresh draws. ``gap`` is how much cheaper another set might be, as
    a share, where that was not disproved in time [-].
    """

    level: float
    units: tuple[tuple[str, int], ...]
    price: float
    net: float
    chance: Chance
    gap: float = 0.0
    is_reached: bool = True


@dataclass(frozen=True, slots=True)
class Curve:
    """Cost above the order against how sure it then is; ``most`` is what spares can reach."""

    points: tuple[Spares, ...]
    most: Chance


@dataclass(frozen=True, slots=True)
class _Sample:
    """Builds that are alike in what they lack, and how many of each. (patterns × units)"""

    units: tuple[Unit, ...]
    short: NDArray[np.int64]
    weight: NDArray[np.int64]
    enough: int
    count: int

    @property
    def most(self) -> int:
        """Builds that can be made enough."""
        return self.enough + int(self.weight.sum())


def curve(
    case: Case,
    levels: Sequence[float] | None = None,
    builds: int = BUILDS,
    tell: Tell | None = None,
    seconds: float = 3.0,
) -> Curve:
    """Work out what it costs to be surer.

    Parameters
    ----------
    case : Case
        What may go wrong, what is had, and what more of it costs.
    levels : sequence of float, optional
        Levels to reach [-]; where left out, some between what the order is as it stands and
        the most that spares can make of it.
    builds : int
        Fresh draws that each set is judged on. [-]
    tell : callable, optional
        Is told what is being done.
    seconds : float
        Bound of the search at each level. [s]

    Returns
    -------
    Curve
        Points in the order of their levels from the order as it stands on, no set twice.
    """
    say = tell or (lambda _: None)
    sample = _sampled(case, draw(case, CHOOSING, "choose"))
    bare = sample.enough / sample.count
    points = [Spares(bare, (), 0.0, 0.0, _judged(case, {}, builds))]
    for level in _levels(sample) if levels is None else levels:
        say(f"spares for {level:.0%}")
        found = _chosen(case, sample, builds, level, seconds)
        if found.units != points[-1].units:
            points.append(found)
        else:
            points[-1] = replace(found, level=level)
        if not found.is_reached:
            break
    # As many of each as the worst build takes, and one more.
    worst = sample.short.max(axis=0, initial=0) + 1
    everything = {u.code: int(n) for u, n in zip(sample.units, worst, strict=True)}
    return Curve(tuple(points), _judged(case, everything, builds))


def _levels(sample: _Sample) -> list[float]:
    low, high = sample.enough / sample.count, sample.most / sample.count
    usual = [level for level in LEVELS if low < level < high]
    steps = usual if len(usual) >= _FEW else list(np.linspace(low, high, _FEW + 1)[1:-1])
    return [*steps, high] if high > low else []


def spares(
    case: Case,
    level: float,
    builds: int = BUILDS,
    seconds: float = 10.0,
    choosing: int = CHOOSING,
) -> Spares:
    """Choose the cheapest spares that reach a level.

    Parameters
    ----------
    case : Case
        What may go wrong, what is had, and what more of it costs.
    level : float
        The chance to reach. [-]
    builds : int
        Fresh draws that the set is judged on. [-]
    seconds : float
        Bound of the search. [s]
    choosing : int
        Draws that it is chosen on. [-]

    Returns
    -------
    Spares
        ``is_reached`` is False, and the set the best there is, where no set reaches it.
    """
    sample = _sampled(case, draw(case, choosing, "choose"))
    aim = level
    for _ in range(_AIMS):
        found = _chosen(case, sample, builds, aim, seconds)
        # What was chosen on few draws flatters itself; how much is seen on yet other draws.
        kept = _judged(case, dict(found.units), builds, "check").share
        if kept >= level or not found.is_reached:
            break
        aim = min(aim + (level - kept), sample.most / sample.count)
    return replace(found, level=level, is_reached=kept >= level - 2 * found.chance.error)


def with_spares(case: Case, units: Mapping[str, int]) -> Case:
    """Add units to what is had.

    Parameters
    ----------
    case : Case
        A case.
    units : mapping
        How many units more of each code. [-]

    Returns
    -------
    Case
        The same with more parts, and longer stocks of hose.
    """
    known = {unit.code: unit for unit in case.units}
    have = dict(case.have)
    stocks = {stock.code: stock for stock in case.stocks}
    for code, count in units.items():
        unit = known[code]
        if unit.length is None:
            have[code] = have.get(code, 0) + count * unit.gives
        else:
            stock: Stock = stocks[code]
            stocks[code] = replace(stock, lengths=stock.lengths + (unit.length,) * count)
    return replace(case, have=have, stocks=tuple(stocks[s.code] for s in case.stocks))


def _sampled(case: Case, drawn: Drawn) -> _Sample:
    """Sort builds by what they lack; what nobody sells makes a build past help."""
    known = {unit.code: unit for unit in case.units}
    units = tuple(known[code] for code in drawn.codes if code in known)
    columns = [i for i, code in enumerate(drawn.codes) if code in known]
    others = [i for i, code in enumerate(drawn.codes) if code not in known]
    past = (drawn.lost > 0) | (drawn.short[:, others] > 0).any(axis=1)
    short = drawn.short[:, columns]
    # So many units, where the column counts pieces or tenths of a metre.
    gives = np.array([u.gives if u.length is None else _tenths(u) for u in units], np.int64)
    lacking = -(-short // gives) if units else short
    is_short = (lacking > 0).any(axis=1) & ~past
    patterns, weight = np.unique(lacking[is_short], axis=0, return_counts=True)
    enough = int((~past & ~is_short).sum())
    return _Sample(units, patterns, weight.astype(np.int64), enough, len(short))


def _tenths(unit: Unit) -> int:
    return max(int((unit.length or 0.0) * 10 + 1e-6), 1)


def _chosen(case: Case, sample: _Sample, builds: int, level: float, seconds: float) -> Spares:
    wanted = int(np.ceil(level * sample.count - 1e-9))
    is_reached = wanted <= sample.most
    take, gap = _solved(sample, min(wanted, sample.most), seconds)
    units = {u.code: n for u, n in zip(sample.units, take, strict=True) if n}
    price = sum(u.price * n for u, n in zip(sample.units, take, strict=True))
    back = sum(
        u.price * u.refund * _unused(sample, i, n)
        for i, (u, n) in enumerate(zip(sample.units, take, strict=True))
        if n and u.refund
    )
    chance = _judged(case, units, builds)
    return Spares(level, tuple(sorted(units.items())), price, price - back, chance, gap, is_reached)


def _unused(sample: _Sample, column: int, count: int) -> float:
    """How many of so many units are left over on average, and may go back. [-]"""
    used = np.minimum(sample.short[:, column], count) * sample.weight
    return count - float(used.sum()) / sample.count


def _solved(sample: _Sample, wanted: int, seconds: float) -> tuple[list[int], float]:
    """Choose units so that enough builds are covered; HiGHS proves it, or tells the gap."""
    need = wanted - sample.enough
    if need <= 0 or not sample.units:
        return [0] * len(sample.units), 0.0

    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import coo_array

    units, patterns = len(sample.units), len(sample.short)
    where = np.argwhere(sample.short > 0)
    rows = np.arange(len(where))
    # Units of a code, less what a pattern lacks of it where that pattern is covered, ≥ 0.
    matrix = coo_array(
        (
            np.concatenate((np.ones(len(where)), -sample.short[where[:, 0], where[:, 1]])),
            (np.concatenate((rows, rows)), np.concatenate((where[:, 1], units + where[:, 0]))),
        ),
        shape=(len(where), units + patterns),
    ).tocsr()
    covered = np.concatenate((np.zeros(units), sample.weight))
    price = np.array([u.price for u in sample.units])
    # Among equally cheap sets the smallest: a hair for each unit.
    hair = max(price.max(), 1.0) * 1e-6
    found = milp(
        np.concatenate((price + hair, np.zeros(patterns))),
        integrality=np.ones(units + patterns),
        bounds=Bounds(0, np.concatenate((sample.short.max(axis=0), np.ones(patterns)))),
        constraints=[
            LinearConstraint(matrix, lb=0),
            LinearConstraint(covered[None, :], lb=need),
        ],
        options={"time_limit": seconds, "mip_rel_gap": 0.0},
    )
    greedy = _greedy(sample, need)
    if found.x is None:
        return greedy, 1.0
    take = [int(n) for n in np.rint(found.x[:units])]
    costs = [float(price @ np.array(t)) for t in (take, greedy)]
    gap = 0.0 if found.status == 0 else float(found.mip_gap or 0.0)
    return (greedy, gap) if costs[1] < costs[0] - hair else (take, gap)


def _greedy(sample: _Sample, need: int) -> list[int]:
    """Cover the pattern that brings most builds for its price, again and again."""
    price = np.array([u.price for u in sample.units])
    take = np.zeros(len(sample.units), np.int64)
    while True:
        covered = (sample.short <= take).all(axis=1)
        if sample.weight[covered].sum() >= need:
            return [int(n) for n in take]
        more = np.maximum(sample.short[~covered] - take, 0)
        cost = np.maximum(more @ price, 1e-9)
        gains = np.array(
            [sample.weight[(sample.short <= take + m).all(axis=1)].sum() for m in more]
        ) - int(sample.weight[covered].sum())
        take = take + more[int(np.argmax(gains / cost))]


def _judged(case: Case, units: Mapping[str, int], builds: int, purpose: str = "state") -> Chance:
    """Count on draws that chose nothing, the hose cut anew from all that is then there."""
    drawn = draw(with_spares(case, units), builds, purpose)
    return Chance.of(int(drawn.sufficient.sum()), builds)
