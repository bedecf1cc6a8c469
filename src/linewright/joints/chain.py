# SPDX-License-Identifier: Apache-2.0
"""The chain of parts between two ends: the best, and the next best beside it.

Least bore is a bottleneck, so the better of two beginnings is not always the beginning of
the better chain. The search therefore goes by layers of parts (at most four) and keeps,
for every open end, each label that fewer than ``limit`` others equal or beat in every
criterion. All criteria only get worse as a chain grows, so what is dropped cannot come
back, and the first ``limit`` chains are exact.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from linewright.catalogue.part import Part, Turns
from linewright.catalogue.stock import Catalogue
from linewright.ends.end import End, Family
from linewright.ends.mates import mates
from linewright.joints.graph import FUNCTIONS, UNLIMITED, Graph, Step, graph
from linewright.joints.model import Chain, Mated
from linewright.joints.rank import (
    BORE_STEP,
    LENGTH_STEP,
    MOST_PARTS,
    PRICE_STEP,
    departure,
    difference,
    joint_weight,
)


@dataclass(frozen=True, slots=True)
class Options:
    """What a chain has to do beside joining two ends.

    ``angle`` is the change of direction typed for the hose end [deg], None while open;
    ``hose_bore`` caps the credit for bore and ``room`` is the free space out from the port,
    both [m]. ``fit`` are functions wanted in the chain, ``via`` codes of parts that the
    builder insists on, from the port outwards. ``takes_movement`` asks for couplers with a
    hump where two bodies move, ``has_joiners`` allows joiners between two clamped hoses,
    ``has_reducers`` reducing couplers; neither is for a screwed hose. ``is_tube`` begins
    or ends the chain in a tube nut.
    """

    angle: int | None = 0
    is_full_swivel: bool = False
    hose_bore: float | None = None
    room: float | None = None
    is_aluminium: bool = False
    via: tuple[str, ...] = ()
    fit: tuple[str, ...] = ()
    takes_movement: bool = False
    has_joiners: bool = False
    has_reducers: bool = False
    is_tube: bool = False

    @property
    def functions(self) -> frozenset[str]:
        """The functions asked for, without their figures (``jet 1 mm`` asks for a jet)."""
        return frozenset(
            next((name for name in FUNCTIONS if text.startswith(name)), text) for text in self.fit
        )


PLAIN = Options()


@dataclass(frozen=True, slots=True)
class _Label:
    """One way to an open end: the criteria first, in steps, then how it got there."""

    special: int
    departs: int
    joints: int
    bore: int
    price: int
    stick_out: int
    end: End
    is_aluminium: bool
    turn: int
    covered: frozenset[str]
    via: int
    steps: tuple[Step, ...]

    @property
    def state(self) -> tuple[End, bool, int, frozenset[str], int, bool]:
        return (
            self.end,
            self.is_aluminium,
            self.turn,
            self.covered,
            self.via,
            self.has_turned,
        )

    @property
    def has_turned(self) -> bool:
        return any(step.is_bent for step in self.steps)

    def is_matched_by(self, other: "_Label") -> bool:
        """Whether `other` is as good or better in every criterion."""
        return (
            other.special <= self.special
            and other.departs <= self.departs
            and other.joints <= self.joints
            and other.bore >= self.bore
            and other.price <= self.price
            and other.stick_out <= self.stick_out
        )


def join(
    near: End,
    far: End,
    catalogue: Catalogue,
    *,
    options: Options = PLAIN,
    limit: int = 3,
) -> tuple[Chain, ...]:
    """Find the chains of up to four parts between two ends, best first.

    Parameters
    ----------
    near : End
        The end to start from: a port.
    far : End
        The end to arrive at: a hose, a sensor's thread, another port.
    catalogue : Catalogue
        Parts to build with.
    options : Options
        Angle, room, bore of the hose, functions and parts wanted.
    limit : int
        How many chains are wanted, ≥ 1. Alternatives may be one part longer than the best. [-]

    Returns
    -------
    tuple of Chain
        The best first, each with its reason; empty where nothing joins the two.

    Notes
    -----
    Chains come in the order of ``rank`` (see `joints.rank`), then of their parts' codes.
    """
    if near.is_unknown or far.is_unknown:
        return ()
    network = graph(catalogue)
    key = (near, far, options, limit)
    known = network.kept.get(key)
    if known is None:
        known = _reasoned(_search(network, near, far, options, limit), options)
        network.kept[key] = known
    return known


def _search(network: Graph, near: End, far: End, options: Options, limit: int) -> list[Chain]:
    reach = network.distances(far)
    bore = UNLIMITED if options.hose_bore is None else round(options.hose_bore / BORE_STEP)
    start = _Label(0, 0, 0, bore, 0, 0, near, options.is_aluminium, 0, frozenset(), 0, ())
    found: list[Chain] = []
    if chain := _complete(start, near, far, options):
        return [chain]
    kept: dict[object, list[_Label]] = {start.state: [start]}
    layer = [start]
    for count in range(1, MOST_PARTS + 1):
        following: list[_Label] = []
        for label in layer:
            for grown in _grown(network, label, reach, MOST_PARTS - count, options, near):
                if reach[grown.end] == 0 and (chain := _complete(grown, near, far, options)):
                    found.append(chain)
                    continue
                rivals = kept.setdefault(grown.state, [])
                if sum(grown.is_matched_by(rival) for rival in rivals) < limit:
                    rivals.append(grown)
                    following.append(grown)
        found.sort(key=_order)
        del found[limit:]
        if _is_settled(found, count, near, limit):
            break
        layer = following
    return found


def _grown(
    network: Graph,
    label: _Label,
    reach: Mapping[End, int],
    left: int,
    options: Options,
    near: End,
) -> Iterator[_Label]:
    """Yield the label with one more part on it, for each part that may follow."""
    wanted = options.functions
    next_via = options.via[label.via] if label.via < len(options.via) else None
    for step in network.steps(label.end):
        part = step.part
        is_via = part.code == next_via
        short_of = reach.get(step.out, MOST_PARTS + 1)
        if short_of > left:
            continue
        is_at_end = not label.steps or short_of == 0
        if not is_via and not _may_follow(step, label, wanted, options, is_at_end=is_at_end):
            continue
        is_first_on_tube = step.near.family is Family.TUBE and not label.steps
        is_last_on_tube = step.out.family is Family.TUBE and short_of == 0
        if part.shape == "tube nut" and not (is_first_on_tube or is_last_on_tube):
            continue  # no length of tube is made up between two fittings
        turned = label.has_turned
        grown = _Label(
            special=max(label.special, step.special),
            departs=max(label.departs, _departs(step, options)),
            joints=label.joints + _weight(label, step),
            bore=min(label.bore, step.bore),
            price=label.price + step.price,
            stick_out=label.stick_out + (0 if turned else _rise(step)),
            end=step.out,
            is_aluminium=step.is_aluminium,
            # An elbow that the builder insists on is beside the angle typed for the hose end.
            turn=label.turn + (0 if is_via else _turn(step, options)),
            covered=label.covered | (step.functions & wanted),
            via=label.via + is_via,
            steps=(*label.steps, step),
        )
        if not _repeats(grown, near):
            yield grown


def _may_follow(
    step: Step, label: _Label, wanted: frozenset[str], options: Options, *, is_at_end: bool
) -> bool:
    part = step.part
    if not step.is_eligible and not (options.has_joiners and step.is_joiner):
        return False
    if step.functions - wanted or step.functions & label.covered:
        return False
    if part.shape == "coupler" and ("hump" in part.traits) != options.takes_movement:
        return False
    # In a screwed chain a coupler only joins the outer spigot to another of its size.
    is_soft = part.shape == "coupler" and not options.has_reducers
    if is_soft and (not is_at_end or "reducing" in part.traits):
        return False
    if part.shape == "tube nut" and not options.is_tube:
        return False
    if step.is_hose_end:
        if "banjo" in part.shape:
            # A banjo's hose leaves square to the port whichever way one names its end.
            is_asked = options.angle in (0, part.angle)
            return not label.has_turned and (is_asked or _may_turn_anywhere(options))
        if ("full swivel" in part.traits) != options.is_full_swivel:
            return False
        if options.angle is None:
            return part.angle == 0
        return label.turn + part.angle == options.angle
    if step.is_bent:
        if label.has_turned or (part.turns is Turns.FIXED and "banjo" not in part.shape):
            return False
        return part.angle == options.angle or _may_turn_anywhere(options)
    return True


def _may_turn_anywhere(options: Options) -> bool:
    """Whether an angle left open and little room let another part than the hose end turn."""
    return options.angle is None and options.room is not None


def _turn(step: Step, options: Options) -> int:
    """What a part adds to the turn; a banjo hose end is called straight as well as 90."""
    is_banjo = step.is_hose_end and "banjo" in step.part.shape
    return options.angle if is_banjo and options.angle is not None else step.part.angle


def _departs(step: Step, options: Options) -> int:
    if options.angle is None:
        return max(0, departure(step.part, is_hose_end=step.is_hose_end) - 1)
    is_plain = step.is_hose_end and "banjo" not in step.part.shape
    return departure(step.part, is_hose_end=is_plain)


def _weight(label: _Label, step: Step) -> int:
    is_female_near = label.end.gender == "f"
    return joint_weight(
        label.end,
        step.near,
        step.mating,
        is_aluminium=label.is_aluminium if is_female_near else step.is_aluminium,
    )


def _rise(step: Step) -> int:
    return step.legs[0] if step.is_bent else sum(step.legs)


def _repeats(label: _Label, near: End) -> bool:
    """Whether the chain comes back to an end it had open before, having gained nothing."""
    open_end, turn, covered = near, 0, frozenset[str]()
    for step in label.steps:
        if open_end == label.end and turn == label.turn and label.covered <= covered:
            return True
        open_end, turn, covered = step.out, turn + step.part.angle, covered | step.functions
    return False


def _complete(label: _Label, near: End, far: End, options: Options) -> Chain | None:
    """Close a chain on `far`, if all that is asked of it is in it."""
    mating = mates(label.end, far)
    if not mating.ok or options.functions - label.covered or label.via < len(options.via):
        return None
    if options.angle is not None and label.turn != options.angle and far.family is Family.HOSE:
        return None
    # Of the far side's metal nothing is known: only a female of ours can be of aluminium.
    is_aluminium = label.is_aluminium and label.end.gender == "f"
    weight = joint_weight(label.end, far, mating, is_aluminium=is_aluminium)
    is_high = options.room is not None and label.stick_out > round(options.room / LENGTH_STEP)
    joints: list[Mated] = []
    end = near
    for step in label.steps:
        joints.append(Mated(end, step.near, step.mating))
        end = step.out
    joints.append(Mated(end, far, mating))
    bores = [step.part.bore for step in label.steps if step.part.bore is not None]
    return Chain(
        port=near,
        parts=tuple(step.part for step in label.steps),
        joints=tuple(joints),
        bore=min(bores, default=None),
        price_index=label.price * PRICE_STEP,
        stick_out=label.stick_out * LENGTH_STEP,
        rank=(
            float(is_high),
            float(label.special),
            float(label.departs),
            float(label.joints + weight),
            -label.bore * BORE_STEP if label.bore < UNLIMITED else 0.0,
            label.price * PRICE_STEP,
            label.stick_out * LENGTH_STEP,
        ),
    )


def _order(chain: Chain) -> tuple[tuple[float, ...], tuple[str, ...]]:
    return chain.rank, tuple(part.code for part in chain.parts)


def _is_settled(found: list[Chain], count: int, near: End, limit: int) -> bool:
    """Whether no chain of more than `count` parts could come before the best.

    A longer chain has at least as many counted joints as parts (one less from a weld).
    """
    if not found or any(found[0].rank[:3]):
        return False
    least = count + 1 - (near.family is Family.WELD)
    is_longer_seen = count > len(found[0].parts) and len(found) >= min(2, limit)
    return found[0].rank[3] < least and is_longer_seen


def _reasoned(found: Iterable[Chain], options: Options) -> tuple[Chain, ...]:
    chains = tuple(found)
    if not chains:
        return ()
    best = chains[0]
    if len(best.joints) == 1:
        return (replace(best, reason="the two mate as they are"),)
    if len(chains) == 1:
        return (replace(best, reason=f"nothing else of up to {MOST_PARTS} parts joins them"),)
    told = [
        replace(other, reason=difference(best.rank, other.rank, room=options.room))
        for other in chains[1:]
    ]
    first = replace(best, reason=f"next: {show(told[0].parts)}: {told[0].reason}")
    return (first, *told)


def show(parts: Iterable[Part]) -> str:
    """Name the parts of a chain in order.

    Parameters
    ----------
    parts : Iterable of Part
        From the port outwards.

    Returns
    -------
    str
        Their names joined by a comma, ``straight on`` for none.
    """
    return ", ".join(part.name for part in parts) or "straight on"
