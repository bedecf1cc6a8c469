# SPDX-License-Identifier: Apache-2.0
"""How sure a pair of hose ends is while its ports are only known so well, and which is surest.

The places and directions of both ports are drawn within their spread, and each pair is asked
whether it still works there (`trial`). A pair is chosen on one set of draws and its share counted
on another, since a share counted on draws that chose it would flatter it.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import degrees, inf, sqrt
from typing import TYPE_CHECKING

from linewright.routes.doubt import Doubt, Known, surer
from linewright.routes.gravity import STOP
from linewright.routes.route import BandRow, Route
from linewright.routes.search import lay_line
from linewright.routes.tasks import Outcome, Task
from linewright.routes.trial import Pair, Trial, ends_of, pair_of, shape_of

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Flags = NDArray[np.bool_]

#: How the grades of a place are reached.
_HOW = {"taped": "measure", "mocked-up": "mock up and measure"}

#: A second pair is worth its price from so much more of the share on. [-]
_WORTH = 0.05


@dataclass(frozen=True, slots=True)
class Cure:
    """What would make a pair surer: a measurement or a second pair, and the share then. [-]"""

    text: str
    share: float


def error(share: float, count: int) -> float:
    """One sigma of a share that was counted on so many draws.

    Parameters
    ----------
    share : float
        The share. [-]
    count : int
        How many draws. [-]

    Returns
    -------
    float
        Of a binomial count, with one failure and one success added, so that a share of all
        draws is not told without doubt. [-]

    Examples
    --------
    >>> round(error(0.9, 100), 3), round(error(1.0, 64), 3)
    (0.031, 0.015)
    """
    p = (share * count + 1.0) / (count + 2.0)
    return sqrt(p * (1.0 - p) / (count + 2.0))


def surest(task: Task, outcome: Outcome, doubt: Doubt) -> Outcome:
    """Take the pair of hose ends that survives most, and say how sure it is.

    Parameters
    ----------
    task : Task
        What was asked of the search.
    outcome : Outcome
        What came of it.
    doubt : Doubt
        How often both ends are drawn, and what is sure enough.

    Returns
    -------
    Outcome
        With the shares of the pairs that were drawn. Another pair is taken where the one found
        is shown to be not sure enough and the other's share is notably higher; of those that
        draws cannot tell apart the cheapest. Where nothing works it stays as it is.
    """
    route = outcome.route
    if route is None:
        return outcome
    own = (route.a.shape.angle, route.b.shape.angle)
    rows = [row for row in outcome.band if row.works and _may(task, row)]
    first = [row for row in rows if pair_of(row) == own]
    if not first:
        return outcome
    rest = sorted((r for r in rows if pair_of(r) != own), key=_dear)
    asked = [*first, *rest[: doubt.pairs - 1]]
    ends = ends_of(task)
    if not any(each.frame.spread or each.frame.tilt for each in ends):
        return _told(outcome, {own: 1.0}, "", 0, doubt.seed)
    trial = Trial(task, outcome, doubt)
    n = doubt.draws
    pick = _chosen(trial, asked, ends)
    counted = {pair_of(row): trial.works(row, *ends, n, 2 * n) for row in asked if row is not pick}
    if pick is not first[0]:
        other = lay_line(_with(task, pick))
        if other.route is None or other.cost >= STOP > outcome.cost:
            counted.pop(pair_of(pick), None)
            pick = first[0]
        else:
            pick = next(row for row in other.band if row.works)
            # The other pairs stand in the band as they were found.
            route = replace(other.route, band=outcome.band)
            outcome = replace(other, route=route, band=outcome.band)
            trial = Trial(task, outcome, doubt)
    counted[pair_of(pick)] = trial.works(pick, *ends, n, 2 * n)
    shares = {pair: float(each.mean()) for pair, each in counted.items()}
    told = ""
    if shares[pair_of(pick)] < doubt.enough:
        cures = [*_measured(trial, pick, ends), *_both(pair_of(pick), counted)]
        told = "; or ".join(_words(cure, doubt.enough) for cure in cures)
    return _told(outcome, shares, told, n, doubt.seed)


def _with(task: Task, row: BandRow) -> Task:
    """The same hose with one pair of hose ends."""
    a, b = (
        replace(side, shapes=(shape_of(side, angle),), angle=None)
        for side, angle in zip((task.a, task.b), pair_of(row), strict=True)
    )
    return replace(task, a=a, b=b)


def _dear(row: BandRow) -> tuple[float, int, int]:
    return (inf if row.cost is None else row.cost), row.angle_a, row.angle_b


def _may(task: Task, row: BandRow) -> bool:
    """Whether the builder left a pair open."""
    return task.a.angle in (None, row.angle_a) and task.b.angle in (None, row.angle_b)


def _chosen(trial: Trial, asked: Sequence[BandRow], ends: tuple[Known, Known]) -> BandRow:
    """The own pair, which stands first, or a notably surer one."""
    doubt = trial.doubt
    n = doubt.draws
    if len(asked) == 1:
        return asked[0]
    own = trial.works(asked[0], *ends, 0, n).mean()
    # What is not shown to be unsure stays: the dearer pair would be paid for a chance of draws.
    if own + 2.0 * error(float(own), n) >= doubt.enough:
        return asked[0]
    shares = [own, *(trial.works(row, *ends, 0, n).mean() for row in asked[1:])]
    best = max(shares)
    if best <= own + doubt.margin:
        return asked[0]
    # Common draws tell pairs apart better than so, but not more than twice this is sure.
    near = best - min(doubt.margin / 2.0, 2.0 * error(float(best), n))
    return min((row for row, share in zip(asked, shares, strict=True) if share >= near), key=_dear)


def _words(cure: Cure, enough: float) -> str:
    """A cure with the share that comes of it; one that is not enough says so."""
    if cure.share >= enough:
        return f"{cure.text} (then {cure.share:.0%})"
    return f"{cure.text}, though it is no more than {cure.share:.0%} then"


def _measured(trial: Trial, pick: BandRow, ends: tuple[Known, Known]) -> list[Cure]:
    """The easiest measurement that makes a pair sure; else the best that there is."""
    doubt = trial.doubt
    n = doubt.draws

    def share(a: Known, b: Known) -> float:
        return float(trial.works(pick, a, b, n, 2 * n).mean())

    best = Cure("", share(*ends))
    for name, spread, tilt in doubt.grades:
        both = (surer(ends[0], spread, tilt), surer(ends[1], spread, tilt))
        if both == ends:
            continue
        how = _HOW.get(name, "fix and measure")
        exact = f"{spread * 1e3:.0f} mm and {degrees(tilt):.0f}°"
        whole = Cure(f"{how} both ports to {exact}", share(*both))
        if whole.share < doubt.enough:
            # One measurement alone does no better than all of them.
            if whole.share > best.share:
                best = whole
            continue
        alone = [
            Cure(f"{how} {what}", share(*((ends[0], better) if side else (better, ends[1]))))
            for side, known in enumerate(ends)
            for what, better in (
                (f"the direction of {known.port} to {degrees(tilt):.0f}°", surer(known, tilt=tilt)),
                (f"the place of {known.port} to {spread * 1e3:.0f} mm", surer(known, spread)),
            )
            if better != known
        ]
        best = max(alone, key=lambda cure: cure.share)
        if best.share < doubt.enough:
            best = whole
        break
    return [best] if best.text else []


def _both(own: Pair, counted: "dict[Pair, Flags]") -> list[Cure]:
    """The second pair that covers most of what the first does not, if that is worth its price."""
    covers = [
        (float((counted[own] | each).mean()), pair) for pair, each in counted.items() if pair != own
    ]
    if not covers:
        return []
    share, other = min(covers, key=lambda each: (-each[0], each[1]))
    if share < float(counted[own].mean()) + _WORTH:
        return []
    return [Cure(f"order both {said(own)} and {said(other)}", share)]


def _told(
    outcome: Outcome, shares: dict[Pair, float], to_be_sure: str, draws: int, seed: int
) -> Outcome:
    route = outcome.route
    assert route is not None
    band = tuple(replace(row, sureness=shares.get(pair_of(row))) for row in outcome.band)
    own = shares[route.a.shape.angle, route.b.shape.angle]
    made: Route = replace(
        route, band=band, sureness=own, to_be_sure=to_be_sure, draws=draws, seed=seed
    )
    return replace(outcome, route=made, band=band)


def said(pair: Pair) -> str:
    """A pair of hose ends in words.

    Parameters
    ----------
    pair : tuple of int
        Angles at A and B. [deg]

    Returns
    -------
    str
        As builders say it.

    Examples
    --------
    >>> said((0, 90))
    'straight/90°'
    """
    return "/".join("straight" if angle == 0 else f"{angle}°" for angle in pair)
