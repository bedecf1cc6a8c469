# SPDX-License-Identifier: Apache-2.0
"""The catalogue as a graph: an open end, and every part that can be put on it."""

from collections import OrderedDict
from collections.abc import Hashable, Iterable
from dataclasses import dataclass
from threading import Lock

from linewright.catalogue.part import Part
from linewright.catalogue.stock import Catalogue
from linewright.ends.end import End
from linewright.ends.mates import mates
from linewright.ends.mating import Mating
from linewright.joints.model import Chain
from linewright.joints.rank import BORE_STEP, LENGTH_STEP, MOST_PARTS, PRICE_STEP, is_special

#: Traits of parts that do something to the flow; taken only where they are asked for.
FUNCTIONS = ("check valve", "filter", "jet", "restrictor", "screen")

#: Shapes with two ends that never stand in a chain of their own accord: a bulkhead needs its
#: panel, shaped silicone and pipes are lines, a barb joiner joins two hoses.
_NOT_BETWEEN = ("bulkhead", "silicone", "pipe", "barb joiner", "bead joiner", "banjo bolt")

#: Figures of a part whose bore is not known: it takes nothing from the least bore.
UNLIMITED = 1 << 40


@dataclass(frozen=True, slots=True)
class Step:
    """One part put on an open end: how it mates, what end it leaves open, what it costs."""

    part: Part
    near: End
    out: End
    mating: Mating
    is_eligible: bool
    functions: frozenset[str]
    is_hose_end: bool
    is_aluminium: bool
    special: int
    bore: int
    price: int
    legs: tuple[int, int]

    @property
    def is_joiner(self) -> bool:
        """Whether the part is a straight spigot for a hose on either side."""
        is_straight_pipe = self.part.shape == "pipe" and self.part.angle == 0
        return self.part.shape in ("barb joiner", "bead joiner") or is_straight_pipe

    @property
    def is_bent(self) -> bool:
        """Whether the part changes direction."""
        return self.part.angle != 0


class Graph:
    """Steps of one catalogue, worked out when first asked for and then kept.

    Parameters
    ----------
    catalogue : Catalogue
        The parts to build with; it is not changed.
    """

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self._steps: dict[End, tuple[Step, ...]] = {}
        self._reach: dict[End, dict[End, int]] = {}
        self.kept: dict[Hashable, tuple[Chain, ...]] = {}

    def steps(self, end: End) -> tuple[Step, ...]:
        """Return every two-ended part that can be put on an open end.

        Parameters
        ----------
        end : End
            The open end.

        Returns
        -------
        tuple of Step
            In the catalogue's order; a part that fits with either end comes twice.
        """
        found = self._steps.get(end)
        if found is None:
            found = tuple(_steps(end, self.catalogue.facing(end)))
            self._steps[end] = found
        return found

    def distances(self, far: End) -> dict[End, int]:
        """Return how many parts it takes at least from an open end to `far`.

        Parameters
        ----------
        far : End
            The end to arrive at.

        Returns
        -------
        dict
            Open end → least number of parts, 0 where it mates with `far` itself. An end
            from which no chain leads is not in it.
        """
        found = self._reach.get(far)
        if found is None:
            found = self._distances(far)
            self._reach[far] = found
        return found

    def _distances(self, far: End) -> dict[End, int]:
        # Backwards: a part that can be put on `far` leaves its other end; every end that
        # mates with that one is one part away, and so on.
        distance: dict[End, int] = {}
        layer, seen = [far], {far}
        for parts in range(MOST_PARTS + 1):
            following: list[End] = []
            for end in layer:
                for part, index in self.catalogue.facing(end):
                    distance.setdefault(part.ends[index], parts)
                    entry = part.ends[1 - index] if len(part.ends) == 2 else None
                    if entry is not None and entry not in seen:
                        seen.add(entry)
                        following.append(entry)
            layer = following
        return distance


def _steps(end: End, facing: Iterable[tuple[Part, int]]) -> Iterable[Step]:
    for part, index in facing:
        if len(part.ends) != 2:
            continue
        out = part.ends[1 - index]
        if index == 1 and out == part.ends[1] and part.angle == 0:
            continue  # the same part the other way round is the same part
        mating = mates(end, part.ends[index])
        if not mating.ok:
            continue
        lengths = [round(leg / LENGTH_STEP) for leg in part.legs] or [0]
        legs = (lengths[0], sum(lengths[1:]))
        if index == 1:
            legs = (lengths[-1], sum(lengths[:-1]))
        yield Step(
            part=part,
            near=part.ends[index],
            out=out,
            mating=mating,
            is_eligible=not any(shape in part.shape for shape in _NOT_BETWEEN),
            functions=frozenset(t for t in part.traits if t in FUNCTIONS),
            is_hose_end="hose end" in part.shape,
            is_aluminium="alumin" in part.material,
            special=int(is_special(part)),
            bore=UNLIMITED if part.bore is None else round(part.bore / BORE_STEP),
            price=round(part.price_index / PRICE_STEP),
            legs=legs,
        )


_GRAPHS: OrderedDict[int, Graph] = OrderedDict()
_LOCK = Lock()


def graph(catalogue: Catalogue) -> Graph:
    """Return the graph of a catalogue; the last few are kept.

    Parameters
    ----------
    catalogue : Catalogue
        The parts to build with.

    Returns
    -------
    Graph
        The same object for the same catalogue object.
    """
    with _LOCK:
        known = _GRAPHS.get(id(catalogue))
        if known is None or known.catalogue is not catalogue:
            known = Graph(catalogue)
            _GRAPHS[id(catalogue)] = known
            while len(_GRAPHS) > 4:
                _GRAPHS.popitem(last=False)
        return known
