# SPDX-License-Identifier: Apache-2.0
"""The few cheap known plugs and caps that settle most of the ports nobody has measured."""

from collections.abc import Sequence
from itertools import combinations

from linewright.ends.end import End, Family, Gender
from linewright.ends.sizes import PIPED, find

#: A pair of threads between which a port is undecided: port number and both threads.
_Pair = tuple[int, frozenset[str]]

#: Up to so many different plugs the fewest are found by trying all sets.
_SMALL = 12

#: Which family's plug is bought for a thread, cheapest and easiest to find first.
_CHEAP = (
    Family.NPT,
    Family.ORB_UNF,
    Family.METRIC_FLAT_FACE,
    Family.BSPP,
    Family.BSPT,
    Family.FLARE_37,
    Family.ORFS,
    Family.ISO6149,
    Family.BUBBLE_FLARE,
    Family.INVERTED_FLARE,
    Family.FLARE_45,
    Family.SPINON,
    Family.BANJO,
)


def _thread(end: End) -> str:
    """What a plug feels: thread and form; seats of one thread feel the same."""
    made = find(end.family, end.size)
    if made is None or not made.pitch:
        return ""
    form = ""
    if end.family in PIPED:
        form = "NPT" if end.family is Family.NPTF else end.family.value.upper()
    elif end.size.startswith("G"):
        form = "BSPP"
    side = "in" if end.gender is Gender.FEMALE else "on"
    return f"{side} {form} {made.thread}"


def _plug(end: End) -> End:
    gender = Gender.MALE if end.gender is Gender.FEMALE else Gender.FEMALE
    size = end.size
    if end.family is Family.BSPT:
        size = f"{'R' if gender is Gender.MALE else 'Rc'} {size.split()[-1]}"
    is_nut = gender is Gender.FEMALE and end.family in (Family.FLARE_37, Family.ORFS)
    return End(end.family, size, gender, is_nut)


def _cheapness(end: End) -> tuple[int, str]:
    place = _CHEAP.index(end.family) if end.family in _CHEAP else len(_CHEAP)
    return place, str(end)


def _settled(pairs: frozenset[_Pair], plugs: Sequence[str]) -> int:
    chosen = frozenset(plugs)
    return sum(1 for _, pair in pairs if pair & chosen)


def _fewest(pairs: frozenset[_Pair], threads: Sequence[str]) -> tuple[str, ...]:
    for count in range(len(threads) + 1):
        for chosen in combinations(threads, count):
            if _settled(pairs, chosen) == len(pairs):
                return chosen
    return tuple(threads)


def _greedy(pairs: frozenset[_Pair], threads: Sequence[str]) -> tuple[str, ...]:
    chosen: list[str] = []
    while _settled(pairs, chosen) < len(pairs):
        rest = [thread for thread in threads if thread not in chosen]
        chosen.append(max(rest, key=lambda thread: _settled(pairs, [*chosen, thread])))
    return tuple(chosen)


def plugs_that_settle(
    ports: Sequence[Sequence[End]], at_most: int | None = None
) -> tuple[End, ...]:
    """Choose few known plugs and caps that, tried by hand, tell the threads of ports apart.

    Parameters
    ----------
    ports : Sequence of Sequence of End
        For each port in doubt, the ends that it may be.
    at_most : int or None
        How many to return; None for as many as it takes to settle every thread.

    Returns
    -------
    tuple of End
        Known ends to try, the one that settles most first. The fewest there are where up to
        twelve come into question; beyond that, one after another by what it settles.

    Notes
    -----
    A plug that goes home, or does not, separates its own thread from all others. It does not
    tell seats of one thread apart (-8 ORB and -8 flare): look for those.

    Examples
    --------
    >>> g, rc, npt = (
    ...     End(Family.BSPP, "G 1/4", Gender.FEMALE),
    ...     End(Family.BSPT, "Rc 1/4", Gender.FEMALE),
    ...     End(Family.NPT, "1/4", Gender.FEMALE),
    ... )
    >>> [str(end) for end in plugs_that_settle([[g, npt], [npt, rc]])]
    ['npt 1/4 m']
    """
    plug_of: dict[str, End] = {}
    pairs: set[_Pair] = set()
    for number, ends in enumerate(ports):
        threads = sorted({thread for end in ends if (thread := _thread(end))})
        pairs.update((number, frozenset(two)) for two in combinations(threads, 2))
    for end in sorted((end for ends in ports for end in ends), key=_cheapness):
        if thread := _thread(end):
            plug_of.setdefault(thread, _plug(end))
    open_pairs = frozenset(pairs)
    useful = sorted({thread for _, pair in open_pairs for thread in pair})
    choose = _fewest if len(useful) <= _SMALL else _greedy
    left = list(choose(open_pairs, useful))
    ordered: list[str] = []
    while left:
        best = max(left, key=lambda thread: _settled(open_pairs, [*ordered, thread]))
        ordered.append(best)
        left.remove(best)
    return tuple(plug_of[thread] for thread in ordered[:at_most])
