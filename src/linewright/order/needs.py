# SPDX-License-Identifier: Apache-2.0
"""What has to be bought: parts by count, hose by pieces, each with the day it is due."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import ceil, floor

from linewright.base.ids import natural_key
from linewright.order.wishes import Wishes
from linewright.takeoff.model import HoseRow, Row, Takeoff

#: Lengths are reckoned in whole tenths of a millimetre: pieces rounded up, stock down.
TENTHS = 10_000

#: What rounding of a length must not push over the next tenth of a millimetre.
_EXACT = 1e-4


def up(length: float) -> int:
    """Whole tenths of a millimetre that a length [m] takes.

    Parameters
    ----------
    length : float
        The length [m]

    Returns
    -------
    int
        Whole tenths of a millimetre.
    """
    return ceil(length * TENTHS - _EXACT)


def down(length: float) -> int:
    """Whole tenths of a millimetre that a length [m] has to give.

    Parameters
    ----------
    length : float
        The length [m]

    Returns
    -------
    int
        Whole tenths of a millimetre.
    """
    return floor(length * TENTHS + _EXACT)


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of hose to cut: ``length`` in tenths of a millimetre, ``due`` in days."""

    run: str
    length: int
    due: int | None = None


@dataclass(frozen=True, slots=True)
class PartNeed:
    """So many of one part; ``due`` are (days, how many by then), growing with the days.

    ``both`` of the count are there only because a port has several readings, and
    ``returned`` is the share of them that goes back when it is known [-].
    """

    code: str
    name: str
    count: int
    because: tuple[str, ...] = ()
    availability: str = "stocked"
    due: tuple[tuple[int, int], ...] = ()
    both: int = 0
    returned: float = 0.0


@dataclass(frozen=True, slots=True)
class Rest:
    """A length of hose that the shop owns, in tenths of a millimetre."""

    bin: str
    length: int


@dataclass(frozen=True, slots=True)
class HoseNeed:
    """Pieces of one hose; ``total`` is what must be there, pieces and over-buy [0.1 mm]."""

    code: str
    name: str
    pieces: tuple[Piece, ...]
    total: int
    because: tuple[str, ...] = ()
    availability: str = "stocked"
    offcuts: tuple[Rest, ...] = ()


@dataclass(frozen=True, slots=True)
class Needs:
    """All that has to be bought, or cut from what is owned."""

    parts: tuple[PartNeed, ...]
    hoses: tuple[HoseNeed, ...]

    @property
    def is_empty(self) -> bool:
        """Whether nothing at all is needed."""
        return not self.parts and not self.hoses


def line_of(name: str) -> str:
    """Id of the line that a joint, a piece or the line itself belongs to.

    Parameters
    ----------
    name : str
        Its name.

    Returns
    -------
    str
        The id of the line.

    Examples
    --------
    >>> line_of("O01.A.2"), line_of("F05a"), line_of("oil-tank.feed")
    ('O01', 'F05', 'oil-tank')
    """
    head = name.split(".")[0]
    bare = head.rstrip("abcdefghijklmnopqrstuvwxyz")
    return bare if bare and bare[0].isalpha() and bare[-1].isdigit() else head


def split(takeoff: Takeoff, wishes: Wishes) -> tuple[Takeoff, Takeoff]:
    """Part what is released from what is held.

    Parameters
    ----------
    takeoff : Takeoff
        All that has to exist.
    wishes : Wishes
        Which systems, lines and parts are held.

    Returns
    -------
    tuple of Takeoff
        Released, and held. Spares and over-buy go with the released pieces, or with the
        held ones where all of a row is held.
    """
    if not wishes.hold and not wishes.is_unconfirmed_held:
        return takeoff, replace(takeoff, rows=(), hoses=(), either=())
    system_of = {
        line_of(run): system
        for row in takeoff.hoses
        for (run, _), system in zip(row.pieces, row.systems, strict=False)
    }
    pairs = [_split_row(row, wishes, system_of) for row in takeoff.rows]
    hoses = [_split_hose(row, wishes) for row in takeoff.hoses]
    now = tuple(row for row, _ in pairs if row.order)
    later = tuple(row for _, row in pairs if row.order)
    return (
        replace(takeoff, rows=now, hoses=tuple(a for a, _ in hoses if a.pieces)),
        replace(takeoff, rows=later, hoses=tuple(b for _, b in hoses if b.pieces), either=()),
    )


def _split_row(row: Row, wishes: Wishes, system_of: dict[str, str]) -> tuple[Row, Row]:
    spares = row.order - row.need
    if row.code in wishes.hold or (wishes.is_unconfirmed_held and not row.is_certain):
        held = row.need
    else:
        held = sum(n for system, n in row.by_system if system in wishes.hold)
        held += sum(
            count
            for name, count in zip(row.because, row.counts, strict=False)
            if line_of(name) in wishes.hold and system_of.get(line_of(name), "") not in wishes.hold
        )
        held = min(held, row.need)
        if not row.need:  # spares alone, as olives are: held with all their systems
            is_held = bool(row.by_system) and all(s in wishes.hold for s, _ in row.by_system)
            return (replace(row, order=0), row) if is_held else (row, replace(row, order=0))
    kept = row.need - held
    return (
        replace(row, need=kept, order=kept + spares if kept else 0),
        replace(row, need=held, order=held if kept else held + spares),
    )


def _split_hose(row: HoseRow, wishes: Wishes) -> tuple[HoseRow, HoseRow]:
    systems = row.systems or ("",) * len(row.pieces)
    both = list(zip(row.pieces, systems, strict=True))

    def is_held(run: str, system: str) -> bool:
        return row.code in wishes.hold or system in wishes.hold or line_of(run) in wishes.hold

    held = [pair for pair in both if is_held(pair[0][0], pair[1])]
    kept = [pair for pair in both if not is_held(pair[0][0], pair[1])]
    over = row.order - row.need
    return _with(row, kept, over), _with(row, held, 0.0 if kept else over)


def _with(row: HoseRow, pairs: list[tuple[tuple[str, float], str]], over: float) -> HoseRow:
    need = sum(length for (_, length), _ in pairs)
    return replace(
        row,
        pieces=tuple(piece for piece, _ in pairs),
        systems=tuple(system for _, system in pairs),
        need=need,
        order=need + over if pairs else 0.0,
        because=tuple(run for (run, _), _ in pairs),
    )


def needs(takeoff: Takeoff, wishes: Wishes) -> Needs:
    """Say what has to be bought for a takeoff, before the shelf is asked.

    Parameters
    ----------
    takeoff : Takeoff
        All that has to exist; held rows left out already.
    wishes : Wishes
        Latest days by system, and ports for which every reading is covered.

    Returns
    -------
    Needs
        In the order of their codes.
    """
    latest = dict(wishes.latest)
    parts: dict[str, PartNeed] = {}
    for row in takeoff.rows:
        if row.order:
            _add(parts, _of_row(row, latest))
    for either in takeoff.either:
        if either.port in wishes.both:
            share = 1.0 - 1.0 / max(len(either.readings), 1)
            for row in either.rows:
                need = PartNeed(row.code, row.name, row.order, (either.port,), row.availability)
                _add(parts, replace(need, both=row.order, returned=share))
    hoses = (_of_hose(row, latest) for row in takeoff.hoses if row.pieces)
    return Needs(
        tuple(sorted(parts.values(), key=lambda need: natural_key(need.code))),
        tuple(sorted(hoses, key=lambda need: natural_key(need.code))),
    )


def _add(parts: dict[str, PartNeed], need: PartNeed) -> None:
    """A code that stands in two groups of the list, or in two readings, is bought once."""
    known = parts.get(need.code)
    if known is None:
        parts[need.code] = need
        return
    parts[need.code] = replace(
        known,
        count=known.count + need.count,
        because=tuple(dict.fromkeys((*known.because, *need.because))),
        due=add_due(known.due, need.due),
        both=known.both + need.both,
        returned=max(known.returned, need.returned),
    )


def add_due(
    one: Iterable[tuple[int, int]], two: Iterable[tuple[int, int]]
) -> tuple[tuple[int, int], ...]:
    """Add two lists of how many are due by which day, each growing with the days.

    Parameters
    ----------
    one : Iterable of tuple of int, int
        The first list.
    two : Iterable of tuple of int, int
        The second list.

    Returns
    -------
    tuple of tuple of int, int
        The sum, in the order of the days.
    """
    first, second = dict(one), dict(two)

    def by(known: dict[int, int], day: int) -> int:
        return max((count for d, count in known.items() if d <= day), default=0)

    days = sorted({*first, *second})
    return tuple((day, by(first, day) + by(second, day)) for day in days)


def _of_row(row: Row, latest: dict[str, int]) -> PartNeed:
    asked = [(latest[system], count) for system, count in row.by_system if system in latest]
    due = tuple(
        (day, sum(count for other, count in asked if other <= day))
        for day in sorted({day for day, count in asked if count})
    )
    return PartNeed(row.code, row.name, row.order, row.because, row.availability, due)


def _of_hose(row: HoseRow, latest: dict[str, int]) -> HoseNeed:
    systems = row.systems or ("",) * len(row.pieces)
    pieces = tuple(
        Piece(run, up(length), latest.get(system))
        for (run, length), system in zip(row.pieces, systems, strict=True)
    )
    ordered = tuple(sorted(pieces, key=lambda piece: natural_key(piece.run)))
    return HoseNeed(row.code, row.name, ordered, up(row.order), row.because)
