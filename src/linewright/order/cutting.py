# SPDX-License-Identifier: Apache-2.0
"""Cutting pieces from lengths: whether it can be done, and how to leave the best rests.

Short lists are settled by a plain rule and by sums, most others by patterns; what is left by CP-
SAT, whose eight workers are held in step so that the same list gives the same plan. Lengths are
whole tenths of a millimetre.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from linewright.base.errors import MissingToolError
from linewright.order.needs import Piece
from linewright.order.patterns import Kinds, whole_bars

#: Work after which the search for a cutting plan gives up, in the solver's own seconds.
_EFFORT = 6.0

#: Work that tidying a plan is worth.
_TIDY = 2.0


class UnprovedError(Exception):
    """A cutting plan was neither found nor proved impossible in the work allowed."""


@dataclass(frozen=True, slots=True, order=True)
class Bar:
    """One length to cut from; ``day`` is when it is there, 0 for what is owned."""

    length: int
    day: int = 0


#: For each bar, the indices of the pieces that are cut from it.
Cutting = tuple[tuple[int, ...], ...]


def _may(piece: Piece, bar: Bar) -> bool:
    return piece.length <= bar.length and (piece.due is None or bar.day <= piece.due)


def by_rule(pieces: Sequence[Piece], bars: Sequence[Bar], kerf: int) -> Cutting | None:
    """Cut the longest piece first, each from the bar that it leaves shortest.

    Parameters
    ----------
    pieces : Sequence of Piece
        What to cut.
    bars : Sequence of Bar
        What to cut from.
    kerf : int
        Lost to each cut [0.1 mm].

    Returns
    -------
    Cutting or None
        None where the rule finds no way: there may still be one.
    """
    left = [bar.length + kerf for bar in bars]
    cut: list[list[int]] = [[] for _ in bars]
    order = sorted(
        range(len(pieces)),
        key=lambda i: (
            pieces[i].due is None,
            -pieces[i].length,
            -1 if pieces[i].due is None else pieces[i].due,
            i,
        ),
    )
    for i in sorted(order, key=lambda i: -pieces[i].length):
        takes = pieces[i].length + kerf
        fits = [b for b, bar in enumerate(bars) if _may(pieces[i], bar) and left[b] >= takes]
        if not fits:
            return None
        # The latest bar that is early enough, so that early ones are kept for what needs them.
        best = min(fits, key=lambda b: (-bars[b].day, left[b], b))
        cut[best].append(i)
        left[best] -= takes
    return tuple(tuple(sorted(each)) for each in cut)


def _cannot(pieces: Sequence[Piece], bars: Sequence[Bar], kerf: int) -> bool:
    """Whether sums alone prove that it cannot be done."""
    for least in sorted({piece.length for piece in pieces}):
        some = [piece for piece in pieces if piece.length >= least]
        room = sum(best_fill(some, bar, kerf) for bar in bars)
        if room < sum(piece.length + kerf for piece in some):
            return True
        if sum(most_pieces(some, bar, kerf) for bar in bars) < len(some):
            return True
    return False


def best_fill(pieces: Sequence[Piece], bar: Bar, kerf: int) -> int:
    """The most that pieces can use up of a bar, each with its cut.

    Parameters
    ----------
    pieces : Sequence of Piece
        What to cut.
    bar : Bar
        What to cut from.
    kerf : int
        Lost to each cut [0.1 mm].

    Returns
    -------
    int
        The length used up.
    """
    room = bar.length + kerf
    reached = 1
    mask = (1 << (room + 1)) - 1
    for piece in pieces:
        if _may(piece, bar):
            reached |= (reached << (piece.length + kerf)) & mask
    return reached.bit_length() - 1


def most_pieces(pieces: Sequence[Piece], bar: Bar, kerf: int) -> int:
    """How many of the pieces fit on a bar, the shortest first.

    Parameters
    ----------
    pieces : Sequence of Piece
        What to cut.
    bar : Bar
        What to cut from.
    kerf : int
        Lost to each cut [0.1 mm].

    Returns
    -------
    int
        The number of pieces.
    """
    room, count = bar.length + kerf, 0
    for length in sorted(piece.length for piece in pieces if _may(piece, bar)):
        room -= length + kerf
        if room < 0:
            break
        count += 1
    return count


def cut(pieces: Sequence[Piece], bars: Sequence[Bar], kerf: int) -> Cutting | None:
    """Find a way to cut all pieces, or prove that there is none.

    Parameters
    ----------
    pieces : Sequence of Piece
        What to cut.
    bars : Sequence of Bar
        What to cut from, each once.
    kerf : int
        Lost to each cut [0.1 mm].

    Returns
    -------
    Cutting or None
        None: proved that there is no way.

    Raises
    ------
    UnprovedError
        If the search ran out of its allowed work.

    Examples
    --------
    >>> two = (Piece("a", 60), Piece("b", 50))
    >>> cut(two, (Bar(100), Bar(55)), 1), cut(two, (Bar(110),), 1)
    (((0,), (1,)), None)
    """
    found = by_rule(pieces, bars, kerf)
    if found is not None or _cannot(pieces, bars, kerf):
        return found
    by_patterns = _by_patterns(pieces, bars, kerf)
    if by_patterns is None or by_patterns:
        return by_patterns
    return _search(pieces, bars, kerf, _EFFORT)


def _by_patterns(pieces: Sequence[Piece], bars: Sequence[Bar], kerf: int) -> Cutting | None:
    """Try it by patterns; an empty plan where that neither finds nor disproves one."""
    alike: dict[tuple[int, int | None], list[int]] = {}
    for i, piece in enumerate(pieces):
        alike.setdefault((piece.length, piece.due), []).append(i)
    order = sorted(alike, key=lambda k: (-k[0], k[1] is None, k[1] or 0))
    places: dict[Bar, list[int]] = {}
    for b, bar in enumerate(bars):
        places.setdefault(bar, []).append(b)
    several = sorted(places)
    kinds = Kinds(
        takes=tuple(length + kerf for length, _ in order),
        wanted=tuple(len(alike[kind]) for kind in order),
        rooms=tuple(bar.length + kerf for bar in several),
        bars=tuple(len(places[bar]) for bar in several),
        may=tuple(tuple(_may(pieces[alike[k][0]], bar) for bar in several) for k in order),
    )
    found = whole_bars(kinds)
    if not found:
        return None if found is None else ()
    assert not isinstance(found, bool)
    left = {k: list(alike[kind]) for k, kind in enumerate(order)}
    free = {k: list(places[bar]) for k, bar in enumerate(several)}
    plan: list[tuple[int, ...]] = [()] * len(bars)
    for kind, counts in found:
        on_it: list[int] = []
        for k, count in enumerate(counts):
            on_it += left[k][:count]
            left[k] = left[k][count:]
        plan[free[kind].pop(0)] = tuple(sorted(on_it))
    return tuple(plan)


def tidy(
    pieces: Sequence[Piece], bars: Sequence[Bar], kerf: int, useful: int, start: Cutting
) -> Cutting:
    """Cut the same pieces so that the rests are worth most.

    Parameters
    ----------
    pieces : Sequence of Piece
        What to cut.
    bars : Sequence of Bar
        What to cut from.
    kerf : int
        Lost to each cut [0.1 mm].
    useful : int
        Shortest rest that is worth keeping [0.1 mm].
    start : Cutting
        A plan that works.

    Returns
    -------
    Cutting
        The least length opened, then the least scrap, as far as a short search finds;
        never worse in that order than the plan it starts from.
    """

    def worth(plan: Cutting) -> tuple[int, int]:
        opened = scrap = 0
        for bar, on_it in zip(bars, plan, strict=True):
            if on_it:
                opened += bar.length
                rest = bar.length + kerf - sum(pieces[i].length + kerf for i in on_it)
                scrap += rest if 0 < rest < useful else 0
        return opened, scrap

    plans = [start]
    ruled = by_rule(pieces, bars, kerf)
    if ruled is not None:
        plans.append(ruled)
    # By the rule, bar after bar: the short ones first, and no more of them than needed.
    for order in (sorted(range(len(bars)), key=lambda b: (bars[b].length, b)),):
        kept = set(order)
        for b in reversed(order):
            fewer = [x for x in order if x in kept and x != b]
            some = by_rule(pieces, [bars[x] for x in fewer], kerf)
            if some is not None:
                kept.discard(b)
                full: list[tuple[int, ...]] = [()] * len(bars)
                for place, on_it in zip(fewer, some, strict=True):
                    full[place] = on_it
                plans.append(tuple(full))
    best = min(plans, key=worth)
    if len(bars) > 1 and worth(best)[0] + worth(best)[1]:
        try:
            found = _search(pieces, bars, kerf, _TIDY, useful=useful, hint=best)
        except UnprovedError:
            found = None
        if found is not None and worth(found) < worth(best):
            best = found
    return _sorted(pieces, bars, best)


def _sorted(pieces: Sequence[Piece], bars: Sequence[Bar], plan: Cutting) -> Cutting:
    """Equal bars in one order: the fullest first, then by its pieces."""
    full = list(plan)
    for bar in set(bars):
        places = [b for b, other in enumerate(bars) if other == bar]
        cuts = sorted(
            (plan[b] for b in places), key=lambda on: (-sum(pieces[i].length for i in on), on)
        )
        for place, on_it in zip(places, cuts, strict=True):
            full[place] = on_it
    return tuple(full)


def most(pieces: Sequence[Piece], bars: Sequence[Bar], kerf: int) -> tuple[int, ...]:
    """Choose pieces that can be cut where not all can: the most length of them.

    Parameters
    ----------
    pieces : Sequence of Piece
        What is wanted.
    bars : Sequence of Bar
        All that there is.
    kerf : int
        Lost to each cut [0.1 mm].

    Returns
    -------
    tuple of int
        Indices of the pieces that are cut.
    """
    try:
        found = _search(pieces, bars, kerf, _EFFORT, is_partial=True)
    except UnprovedError:
        found = None
    return tuple(sorted(i for on_it in found or () for i in on_it))


def _search(
    pieces: Sequence[Piece],
    bars: Sequence[Bar],
    kerf: int,
    effort: float,
    *,
    useful: int | None = None,
    hint: Cutting | None = None,
    is_partial: bool = False,
) -> Cutting | None:
    """Ask CP-SAT: equal pieces are counted together, equal bars filled in falling order."""
    try:
        from ortools.sat.python import cp_model
    except ImportError as error:
        raise MissingToolError(
            "OR-tools is not installed, so long cutting lists cannot be settled. "
            "Install linewright with its dependencies: pip install linewright."
        ) from error
    kinds: dict[tuple[int, int | None], list[int]] = {}
    for i, piece in enumerate(pieces):
        kinds.setdefault((piece.length, piece.due), []).append(i)
    order = sorted(kinds, key=lambda k: (-k[0], k[1] is None, k[1] or 0))
    model = cp_model.CpModel()
    take: dict[tuple[int, int], Any] = {}
    for b, bar in enumerate(bars):
        for k, kind in enumerate(order):
            if _may(pieces[kinds[kind][0]], bar):
                fit = (bar.length + kerf) // (kind[0] + kerf)
                take[k, b] = model.new_int_var(0, min(len(kinds[kind]), fit), f"take {k} {b}")
    loads = [
        sum(take[k, b] * (kind[0] + kerf) for k, kind in enumerate(order) if (k, b) in take)
        for b in range(len(bars))
    ]
    for k, kind in enumerate(order):
        taken = sum(take[k, b] for b in range(len(bars)) if (k, b) in take)
        if is_partial:
            model.add(taken <= len(kinds[kind]))
        else:
            model.add(taken == len(kinds[kind]))
    for b, bar in enumerate(bars):
        model.add(loads[b] <= bar.length + kerf)
    last: dict[Bar, int] = {}
    for b, bar in enumerate(bars):
        if bar in last:
            model.add(loads[last[bar]] >= loads[b])
        last[bar] = b
    if is_partial:
        model.maximize(sum(var * order[k][0] for (k, _), var in take.items()))
    elif useful is not None:
        model.minimize(_worth(model, bars, loads, kerf, useful))
    if hint is not None:
        for (k, b), var in take.items():
            members = set(kinds[order[k]])
            model.add_hint(var, sum(i in members for i in hint[b]))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 8
    solver.parameters.interleave_search = True  # workers in step: the same answer twice
    solver.parameters.random_seed = 1
    solver.parameters.max_deterministic_time = effort
    status = solver.solve(model)
    if status == cp_model.INFEASIBLE:
        return None
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        raise UnprovedError
    left = {k: list(kinds[kind]) for k, kind in enumerate(order)}
    plan = []
    for b in range(len(bars)):
        on_it = []
        for k in range(len(order)):
            if (k, b) in take:
                count = solver.value(take[k, b])
                on_it += left[k][:count]
                left[k] = left[k][count:]
        plan.append(tuple(sorted(on_it)))
    return tuple(plan)


def _worth(model: Any, bars: Sequence[Bar], loads: Sequence[Any], kerf: int, useful: int) -> Any:
    """What a plan should make least: length opened first, scrap of opened bars second."""
    terms: list[Any] = []
    # A little scrap never outweighs a tenth of a millimetre opened.
    weight = sum(bar.length for bar in bars) + 1
    for b, bar in enumerate(bars):
        if isinstance(loads[b], int):
            continue  # nothing can be cut from it
        opened = model.new_bool_var(f"opened {b}")
        model.add(loads[b] == 0).only_enforce_if(opened.negated())
        kept = model.new_bool_var(f"kept {b}")
        rest = bar.length + kerf - loads[b]
        model.add(rest >= useful).only_enforce_if(kept)
        scrap = model.new_int_var(0, bar.length + kerf, f"scrap {b}")
        model.add(scrap >= rest).only_enforce_if([opened, kept.negated()])
        terms += [opened * (bar.length * weight), scrap]
    return sum(terms)
