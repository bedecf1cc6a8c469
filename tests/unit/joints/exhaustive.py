# SPDX-License-Identifier: Apache-2.0
"""Every chain of up to four parts between two ends, by enumeration from both ends.

Nothing is pruned: all sequences of up to two parts from the port and up to two from the hose
are made, and each pair whose open ends mate is a chain. The only conditions are those
that say what a chain is (turn as typed, no unasked-for functions, no end met twice).
The ranking is written here a second time, in plain floats, so that it checks the first.
"""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from linewright.catalogue.part import Part, Turns
from linewright.catalogue.stock import Catalogue
from linewright.ends.end import End, Family
from linewright.ends.mates import mates

FUNCTIONS = {"check valve", "filter", "jet", "restrictor", "screen"}
EXCLUDED = {"bulkhead", "silicone", "pipe", "barb joiner", "tube nut"}
TAPERS = {Family.NPT, Family.NPTF, Family.BSPT}

#: One part with the index of its end on the port's side.
Placed = tuple[Part, int]


@dataclass(frozen=True, slots=True)
class Found:
    """One chain, with the rank that this module gives it."""

    codes: tuple[str, ...]
    rank: tuple[float, ...]
    pairs: tuple[tuple[End, End], ...]


class Enumerator:
    """Enumerates the chains of one catalogue."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.parts = [p for p in catalogue.parts if len(p.ends) == 2 and _is_between(p)]
        self._on: dict[End, list[Placed]] = {}
        self._mates: dict[tuple[End, End], bool] = {}

    def fits(self, a: End, b: End) -> bool:
        if (a, b) not in self._mates:
            self._mates[a, b] = mates(a, b).ok
        return self._mates[a, b]

    def on(self, end: End) -> list[Placed]:
        """All parts that can be put on an end, found without the catalogue's own index."""
        if end not in self._on:
            self._on[end] = [
                (part, index)
                for part in self.parts
                for index in ((0,) if _is_alike(part) else (0, 1))
                if self.fits(end, part.ends[index])
            ]
        return self._on[end]

    def chains(
        self, near: End, far: End, *, angle: int, hose_bore: float, is_aluminium: bool
    ) -> list[Found]:
        """All chains between two ends that turn by `angle`."""
        forward: dict[End, list[tuple[Placed, ...]]] = defaultdict(list)
        for placed in self._from(near, 2):
            forward[placed[-1][0].ends[1 - placed[-1][1]] if placed else near].append(placed)
        backward: dict[End, list[tuple[Placed, ...]]] = defaultdict(list)
        for turned in self._from(far, 2):
            # Walked from the hose, a part's first index is its far side: turn it round.
            placed = tuple((part, 1 - index) for part, index in reversed(turned))
            backward[placed[0][0].ends[placed[0][1]] if placed else far].append(placed)
        found: dict[tuple[tuple[str, int], ...], Found] = {}
        for left, starts in forward.items():
            for right, finishes in backward.items():
                if not self.fits(left, right):
                    continue
                for start in starts:
                    for finish in finishes:
                        placed = (*start, *finish)
                        if not _is_chain(placed, near, far, angle, self):
                            continue
                        key = tuple(
                            (part.code, 0 if _is_alike(part) else index) for part, index in placed
                        )
                        if key not in found:
                            found[key] = _ranked(placed, near, far, angle, hose_bore, is_aluminium)
        return sorted(found.values(), key=lambda f: (f.rank, f.codes))

    def _from(self, end: End, most: int) -> Iterator[tuple[Placed, ...]]:
        yield ()
        if most == 0:
            return
        for part, index in self.on(end):
            for rest in self._from(part.ends[1 - index], most - 1):
                yield ((part, index), *rest)


def _is_alike(part: Part) -> bool:
    """Whether a part is the same from either end."""
    return part.angle == 0 and part.ends[0] == part.ends[1]


def _is_between(part: Part) -> bool:
    return part.shape not in EXCLUDED and not FUNCTIONS & part.traits


def _is_chain(
    placed: tuple[Placed, ...], near: End, far: End, angle: int, every: Enumerator
) -> bool:
    bent = [part for part, _ in placed if part.angle]
    is_banjo = bool(placed) and placed[-1][0].shape == "banjo hose end"
    if is_banjo:
        # Its hose leaves square to the port, and one calls it straight as well as 90.
        if angle not in (0, placed[-1][0].angle) or len(bent) > 1:
            return False
    elif sum(part.angle for part in bent) != angle:
        return False
    for part in bent:
        if part.turns is Turns.FIXED and "hose end" not in part.shape and "banjo" not in part.shape:
            return False
    open_end, turn = near, 0
    seen = {(near, 0)}
    for number, (part, index) in enumerate(placed):
        if "hose end" in part.shape and number != len(placed) - 1:
            return False
        if "full swivel" in part.traits or "hump" in part.traits:
            return False
        if part.shape == "coupler" and (number or "reducing" in part.traits):
            return False
        open_end, turn = part.ends[1 - index], turn + part.angle
        if (open_end, turn) in seen:
            return False
        seen.add((open_end, turn))
        if number < len(placed) - 1 and turn == angle and every.fits(open_end, far):
            return False
    return True


def _ranked(
    placed: tuple[Placed, ...],
    near: End,
    far: End,
    angle: int,
    hose_bore: float,
    is_aluminium: bool,
) -> Found:
    open_end, owner_is_aluminium = near, is_aluminium
    joints, rise, price, turned, departs = 0, 0.0, 0.0, False, 0
    bore = hose_bore
    pairs = []
    for part, index in placed:
        facing = part.ends[index]
        pairs.append((open_end, facing))
        is_female_near = open_end.gender == "f"
        is_soft = owner_is_aluminium if is_female_near else part.material == "aluminium"
        joints += _counts(open_end, facing, is_soft)
        legs = part.legs or (0.0,)
        if not turned:
            rise += (legs[0] if index == 0 else legs[-1]) if part.angle else sum(legs)
        turned = turned or part.angle != 0
        if part.angle and part.shape != "hose end":
            is_pointed = "banjo" in part.shape or part.turns in (Turns.FREE, Turns.SET)
            departs = max(departs, 1 if is_pointed else 2)
        price += part.price_index
        if part.bore is not None:
            bore = min(bore, part.bore)
        open_end, owner_is_aluminium = part.ends[1 - index], part.material == "aluminium"
    pairs.append((open_end, far))
    joints += _counts(open_end, far, owner_is_aluminium)
    special = any(part.availability == "special" for part, _ in placed)
    rank = (
        0.0,
        float(special),
        float(departs),
        float(joints),
        -round(bore, 5),
        round(price, 3),
        round(rise, 5),
    )
    return Found(tuple(part.code for part, _ in placed), rank, tuple(pairs))


def _counts(a: End, b: End, is_soft: bool) -> int:
    mating = mates(a, b)
    if not mating.is_counted:
        return 0
    is_taper = a.family in TAPERS and b.family in TAPERS
    is_banjo = Family.BANJO in (a.family, b.family)
    return 1 + int(is_taper and is_soft) + int(is_banjo)
