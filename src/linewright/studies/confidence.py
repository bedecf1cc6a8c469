# SPDX-License-Identifier: Apache-2.0
"""How sure one order is: the chance that nothing further must be ordered."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import sqrt

import numpy as np

from linewright.studies.model import Case, Kind
from linewright.studies.scenarios import Settled, draw

#: Builds that a stated chance is counted on: its standard error is 0.35 of a point at most.
BUILDS = 20_000

#: How much kinder and harsher the estimates may be than they are taken. [-]
HARSH = 1.5

#: Measurements that are told one after the other.
STEPS = 8

Tell = Callable[[str], None]


@dataclass(frozen=True, slots=True)
class Chance:
    """A chance that was counted. ``error`` is the standard error of counting it. [-]"""

    share: float
    error: float

    @classmethod
    def of(cls, hits: int, builds: int) -> "Chance":
        """Count a chance.

        Parameters
        ----------
        hits, builds : int
            How many of how many.

        Returns
        -------
        Chance
            With a standard error that is not nothing where all or none came out so: a half
            more is counted on either side.
        """
        share = hits / builds
        smooth = (hits + 0.5) / (builds + 1)
        return cls(share, sqrt(smooth * (1 - smooth) / builds))


@dataclass(frozen=True, slots=True)
class Settling:
    """What would be known before ordering, and how sure the order would be then.

    ``about`` are what is settled at once: the ids of causes that are tied, or one alone.
    ``share`` is the chance that it comes out otherwise than planned [-].
    """

    kind: Kind
    about: tuple[str, ...]
    how: str
    share: float
    after: Chance


@dataclass(frozen=True, slots=True)
class Confidence:
    """How sure one order is.

    ``chance`` under the estimates as they stand; ``harsh`` and ``mild`` where every chance
    of going wrong and every scatter is 1.5 times as large, and as small. ``by_kind`` is the
    share of builds in which each kind of trouble asks for a further order, were it the only
    one. ``settle`` are single measurements, the one that helps most first; ``path`` is one
    after the other, each on top of those before it. What is ``unknown`` has nothing ordered for
    it: as long as that is so, no order is enough, and ``known`` is the chance once it is
    measured and its parts are in the order; ``settled`` once all that can be measured is. Parts
    ``elsewhere`` are reckoned as found.
    """

    chance: Chance
    harsh: Chance
    mild: Chance
    by_kind: tuple[tuple[Kind, float], ...]
    settle: tuple[Settling, ...]
    path: tuple[Settling, ...]
    unknown: tuple[str, ...]
    known: Chance
    settled: Chance
    elsewhere: tuple[str, ...]
    builds: int
    seed: int


def confidence(case: Case, builds: int = BUILDS, tell: Tell | None = None) -> Confidence:
    """Count the chance that an order is enough.

    Parameters
    ----------
    case : Case
        What may go wrong, and what is had.
    builds : int
        Builds to draw. [-]
    tell : callable, optional
        Is told what is being done.

    Returns
    -------
    Confidence
        Counted on draws that chose nothing.
    """
    say = tell or (lambda _: None)
    say("drawing builds")
    drawn = draw(case, builds, "state")
    base = int(drawn.sufficient.sum())
    scaled = []
    for errors in (HARSH, 1.0 / HARSH):
        other = draw(replace(case, errors=case.errors * errors), builds, "state")
        scaled.append(Chance.of(int(other.sufficient.sum()), builds))
    say("trying what to measure")
    groups = _groups(case)
    state = Settled(drawn, case)
    single = [_settling(g, Chance.of(state.tried(g.numbers), builds)) for g in groups]
    single = [s for s in single if s.after.share > base / builds]
    unknown = [g for g in groups if g.share >= 1.0]
    for group in unknown:
        state.settle(group.numbers)
    known = Chance.of(state.count, builds)
    return Confidence(
        chance=Chance.of(base, builds),
        harsh=scaled[0],
        mild=scaled[1],
        by_kind=_by_kind(case, builds),
        settle=tuple(sorted(single, key=lambda s: (-s.after.share, s.kind, s.about))),
        path=tuple(_path([g for g in groups if g.share < 1.0], state, builds)),
        unknown=tuple(about for group in unknown for about in group.about),
        known=known,
        settled=Chance.of(int(draw(case.settled, builds, "state").sufficient.sum()), builds),
        elsewhere=case.elsewhere,
        builds=builds,
        seed=case.seed,
    )


@dataclass(frozen=True, slots=True)
class _Group:
    """Causes that one measurement settles."""

    kind: Kind
    about: tuple[str, ...]
    how: str
    share: float
    numbers: tuple[int, ...]


def _settling(group: _Group, after: Chance) -> Settling:
    return Settling(group.kind, group.about, group.how, group.share, after)


def _path(groups: list[_Group], state: Settled, builds: int) -> Iterator[Settling]:
    """One measurement after the other, each the one that then helps most."""
    left = list(groups)
    for _ in range(STEPS):
        before = state.count
        best = max(left, key=lambda g: (state.tried(g.numbers), g.share), default=None)
        if best is None:
            return
        state.settle(best.numbers)
        left.remove(best)
        if state.count > before:
            yield _settling(best, Chance.of(state.count, builds))


def _groups(case: Case) -> list[_Group]:
    """What can be settled at once: tied causes together, others one by one."""
    groups: dict[str, list[int]] = {}
    for number, cause in enumerate(case.causes):
        if cause.settle:
            groups.setdefault(f"tie {cause.tie}" if cause.tie else cause.id, []).append(number)
    found = []
    for numbers in groups.values():
        causes = [case.causes[n] for n in numbers]
        about = tuple(cause.about for cause in causes)
        share = max(cause.share for cause in causes)
        found.append(_Group(causes[0].kind, about, causes[0].settle, share, tuple(numbers)))
    return found


def _by_kind(case: Case, builds: int) -> tuple[tuple[Kind, float], ...]:
    """How often each kind of trouble alone would make a second order. [-]"""
    found = []
    for kind in Kind:
        causes = tuple(c for c in case.causes if c.kind is kind)
        losses = case.losses if kind is Kind.LOST else ()
        stocks = case.stocks if kind is Kind.LENGTH else ()
        if causes or losses or stocks:
            alone = replace(case, causes=causes, losses=losses, stocks=stocks)
            short = ~draw(alone, builds, "state").sufficient
            found.append((kind, float(np.mean(short))))
    return tuple(sorted(found, key=lambda f: (-f[1], f[0])))
