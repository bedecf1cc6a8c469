# SPDX-License-Identifier: Apache-2.0
"""What can be bought of what is needed, and by when: the offers as the search sees them."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import ceil

from linewright.base.ids import natural_key
from linewright.base.shown import counted, show_length, show_run
from linewright.catalogue.stock import Catalogue
from linewright.order import cutting
from linewright.order.cutting import Bar
from linewright.order.model import Market, Offer, SoldAs, Supplier
from linewright.order.needs import TENTHS, HoseNeed, Needs, PartNeed, Piece, down
from linewright.order.price import checked, landed
from linewright.order.substitutes import substitutes
from linewright.order.wishes import Wishes


@dataclass(frozen=True, slots=True)
class Good:
    """One offer of something that is needed.

    ``size`` is pieces in a pack, or tenths of a millimetre in a coil or a step; ``most`` is
    how many units may be bought at all; ``lead`` are days; ``cost`` is one unit with tax in
    smallest units of the shop's currency, and ``back`` what returning one brings.
    """

    offer: Offer
    supplier: Supplier
    size: int
    most: int
    lead: int
    cost: Fraction
    back: Fraction = Fraction(0)

    @property
    def is_hose(self) -> bool:
        """Whether it is sold by length."""
        return self.offer.sold_as is not SoldAs.PIECES


@dataclass(frozen=True, slots=True)
class Short:
    """What nobody sells in full: ``missing`` of a part, or the pieces of a hose.

    A hose of which nothing is ``missing`` can be cut, but has not all its reserve.
    ``is_late`` says that it can be had, but not by the day it is due.
    """

    code: str
    name: str
    missing: int
    runs: tuple[str, ...] = ()
    is_late: bool = False
    why: str = ""


@dataclass(frozen=True, slots=True)
class Goods:
    """Needs that can be met, and all offers that meet them.

    ``stands_in`` are (code asked for, code on offer that may replace it); ``unfit`` says, by
    code, why an offer of it cannot be bought. ``show`` is how lengths are told: metric, inch.
    """

    currency: str
    needs: Needs
    goods: tuple[Good, ...]
    stands_in: tuple[tuple[str, str], ...]
    shorts: tuple[Short, ...]
    suppliers: Mapping[str, Supplier]
    unfit: Mapping[str, str] = field(default_factory=dict)
    show: str = "metric"

    def why_none(self, code: str) -> str:
        """Why nothing at all of a part or hose can be bought."""
        return self.unfit.get(code, "nobody offers it")

    def of(self, code: str) -> list[int]:
        """Indices of the offers of one part or hose."""
        return [i for i, good in enumerate(self.goods) if good.offer.part == code]


def goods_for(
    needs: Needs, market: Market, wishes: Wishes, catalogue: Catalogue, barred: frozenset[str]
) -> Goods:
    """Match needs with offers, and part off what cannot be had.

    Parameters
    ----------
    needs : Needs
        What has to be bought.
    market : Market
        What is on offer.
    wishes : Wishes
        Default days and kerf.
    catalogue : Catalogue
        What may replace what.
    barred : frozenset of str
        Suppliers left out, besides those that the market says are barred.

    Returns
    -------
    Goods
        With what is short named: the rest can still be ordered.

    Raises
    ------
    OrderError
        If currencies disagree.
    """
    suppliers = checked(market)
    out = barred | {s.name for s in suppliers.values() if s.wish == "barred"}
    offered = frozenset(
        o.part for o in market.offers if o.part and o.supplier not in out and o.stock != 0
    )
    pairs = tuple(
        (need.code, other)
        for need in needs.parts
        for other in substitutes(catalogue, need.code, offered)
    )
    wanted: dict[str, int] = {need.code: need.count for need in needs.parts}
    for asked, other in pairs:
        wanted[other] = wanted.get(other, 0) + next(
            need.count for need in needs.parts if need.code == asked
        )
    eases = {part.code: part.availability.value for part in catalogue.parts}
    eases |= {part.code: part.availability for part in needs.parts}
    hoses = {need.code: need for need in needs.hoses}
    found = []
    unfit: dict[str, str] = {}
    for offer in sorted(market.offers, key=lambda o: (o.part or "", o.id, o.place)):
        supplier = suppliers[offer.supplier]
        if offer.part is None or supplier.name in out or offer.price.minor < 0:
            if offer.part is not None and supplier.wish == "barred":
                unfit.setdefault(offer.part, f"only {supplier.name}, which is barred, offers it")
            continue
        lead = offer.lead_days if offer.lead_days is not None else supplier.lead_days
        if lead is None:
            lead = wishes.lead(eases.get(offer.part, "stocked"))
        cost = landed(offer, supplier, market.currency)
        if offer.part in hoses and offer.sold_as is not SoldAs.PIECES and offer.length:
            size = down(offer.length)
            most = _most_units(hoses[offer.part], offer, size, down(wishes.kerf))
        elif offer.part in wanted and offer.sold_as is SoldAs.PIECES and offer.pack > 0:
            size = offer.pack
            most = ceil(wanted[offer.part] / size)
        else:
            if offer.part in hoses:
                why = f"{offer.id} does not say what length its price is for"
                unfit.setdefault(offer.part, why)
            elif offer.part in wanted:
                unfit.setdefault(offer.part, f"{offer.id} is sold by length")
            continue
        if offer.stock == 0:
            unfit.setdefault(offer.part, f"{offer.id} is out of stock")
        most = most if offer.stock is None else min(most, offer.stock)
        if size > 0 and most > 0:
            back = cost * refund_share(offer, eases.get(offer.part, "stocked"), wishes)
            found.append(Good(offer, supplier, size, most, lead, cost, back))
    found.sort(key=lambda g: (natural_key(g.offer.part or ""), g.offer.id, g.offer.place))
    whole = Goods(market.currency, needs, tuple(found), pairs, (), suppliers, unfit, wishes.show)
    return _only_what_can_be_had(whole, down(wishes.kerf))


def refund_share(offer: Offer, availability: str, wishes: Wishes) -> Fraction:
    """Share of the price that comes back; where nobody said, for stocked parts alone.

    Parameters
    ----------
    offer : Offer
        What its supplier says of returns.
    availability : str
        How easily the trade supplies the part.
    wishes : Wishes
        The share that stands in where none is given.

    Returns
    -------
    Fraction
        Nothing for cut hose and special parts, unless the offer says that they are taken back.
    """
    taken = offer.is_returnable
    if taken is None:
        taken = offer.sold_as is SoldAs.PIECES and availability == "stocked"
    share = wishes.refund_share if offer.refund_share is None else offer.refund_share
    return Fraction(str(share)) if taken else Fraction(0)


def _most_units(need: HoseNeed, offer: Offer, size: int, kerf: int) -> int:
    """More units than this are never of use: one for each piece, or all pieces end to end."""
    if size <= 0:
        return 0
    whole = max(need.total, sum(piece.length + kerf for piece in need.pieces))
    enough = ceil(whole / size)
    return enough if offer.sold_as is SoldAs.CUT else max(enough, len(need.pieces))


def _only_what_can_be_had(goods: Goods, kerf: int) -> Goods:
    parts: list[PartNeed] = []
    hoses: list[HoseNeed] = []
    shorts: list[Short] = []
    supply = _Supply(goods)
    for need in goods.needs.parts:
        parts_of = supply.part(need, shorts)
        if parts_of.count:
            parts.append(parts_of)
    for hose in goods.needs.hoses:
        left = _hose(hose, goods, kerf, shorts)
        if left.pieces:
            hoses.append(left)
    return replace(goods, needs=Needs(tuple(parts), tuple(hoses)), shorts=tuple(shorts))


class _Supply:
    """How many of each part can be had by which day."""

    def __init__(self, goods: Goods) -> None:
        self.goods = goods

    def _all(self, code: str, day: int | None = None) -> int:
        units = (self.goods.goods[i] for i in self.goods.of(code))
        return sum(good.most * good.size for good in units if day is None or good.lead <= day)

    def _spare(self, code: str, day: int | None = None) -> int:
        """What is left of a part that may stand in for another."""
        own = sum(need.count for need in self.goods.needs.parts if need.code == code)
        return max(self._all(code, day) - own, 0)

    def part(self, need: PartNeed, shorts: list[Short]) -> PartNeed:
        others = [other for asked, other in self.goods.stands_in if asked == need.code]
        had = self._all(need.code) + sum(self._spare(other) for other in others)
        count = min(need.count, had)
        if count < need.count:
            why = f"only {had} of {need.count} are in stock" if had else ""
            why = why or self.goods.why_none(need.code)
            shorts.append(Short(need.code, need.name, need.count - count, why=why))
        kept: list[tuple[int, int]] = []
        for day, asked in need.due:
            early = self._all(need.code, day) + sum(self._spare(o, day) for o in others)
            by_then, wanted = min(asked, count, early), min(asked, count)
            if by_then < wanted:
                why = f"due in {counted(day, 'day')}; "
                why += f"the soonest offer takes {counted(self._soonest(need), 'day')}"
                late = wanted - by_then
                shorts.append(Short(need.code, need.name, late, is_late=True, why=why))
            if by_then:
                kept.append((day, by_then))
        return replace(need, count=count, due=tuple(kept), both=min(need.both, count))

    def _soonest(self, need: PartNeed) -> int:
        codes = [need.code, *(o for asked, o in self.goods.stands_in if asked == need.code)]
        return min((self.goods.goods[i].lead for c in codes for i in self.goods.of(c)), default=0)


def bars_of(need: HoseNeed, goods: Goods, counts: Mapping[int, int]) -> list[Bar]:
    """Lengths to cut from: offcuts of the shelf first, then what is bought.

    Parameters
    ----------
    need : HoseNeed
        The hose.
    goods : Goods
        Needs and offers.
    counts : Mapping of int, int
        Units by index of the offer.

    Returns
    -------
    list of Bar
        Each length once.
    """
    bars = [Bar(rest.length) for rest in need.offcuts]
    for i in goods.of(need.code):
        good, count = goods.goods[i], counts.get(i, 0)
        if not count:
            continue
        if good.offer.sold_as is SoldAs.CUT:
            bars.append(Bar(good.size * count, good.lead))  # cut in one length
        else:
            bars += [Bar(good.size, good.lead)] * count
    return bars


def _hose(need: HoseNeed, goods: Goods, kerf: int, shorts: list[Short]) -> HoseNeed:
    everything = {i: goods.goods[i].most for i in goods.of(need.code)}
    bars = bars_of(need, goods, everything)
    longest = max((bar.length for bar in bars), default=0)
    pieces = list(need.pieces)
    too_long = [p for p in pieces if p.length > longest]
    if too_long:
        why = goods.why_none(need.code)
        if longest:
            sold = show_length(longest / TENTHS, goods.show)
            why = f"the longest that is sold or owned is {sold}"
        shorts.append(_short_hose(need, too_long, why=why))
        pieces = [p for p in pieces if p.length <= longest]
    pieces = _in_time(need, pieces, bars, shorts)
    if not pieces:
        return replace(need, pieces=())
    try:
        ways = cutting.cut(pieces, bars, kerf)
    except cutting.UnprovedError:
        ways = None
    if ways is None and any(p.due is not None for p in pieces):
        late = [p for p in pieces if p.due is not None]
        shorts.append(
            _short_hose(need, late, is_late=True, why="what arrives in time is too short")
        )
        pieces = [replace(p, due=None) for p in pieces]
        try:
            ways = cutting.cut(pieces, bars, kerf)
        except cutting.UnprovedError:
            ways = None
    if ways is None:
        kept = set(cutting.most(pieces, bars, kerf))
        lost = [p for i, p in enumerate(pieces) if i not in kept]
        shorts.append(_short_hose(need, lost, why="all that is in stock does not yield it"))
        pieces = [p for i, p in enumerate(pieces) if i in kept]
    cut = sum(p.length for p in need.pieces) - sum(p.length for p in pieces)
    asked, had = need.total - cut, sum(bar.length for bar in bars)
    if pieces and had < asked:
        some, whole = (show_run(each / TENTHS, goods.show) for each in (had, asked))
        why = f"{some} of {whole} with the reserve are to be had"
        shorts.append(Short(need.code, need.name, 0, why=why))
    total = min(asked, had)
    return replace(need, pieces=tuple(pieces), total=total)


def _in_time(
    need: HoseNeed, pieces: list[Piece], bars: list[Bar], shorts: list[Short]
) -> list[Piece]:
    def is_late(piece: Piece) -> bool:
        return piece.due is not None and not any(
            bar.length >= piece.length and bar.day <= piece.due for bar in bars
        )

    late = [piece for piece in pieces if is_late(piece)]
    if late:
        shorts.append(_short_hose(need, late, is_late=True, why="no length arrives in time"))
    return [replace(p, due=None) if is_late(p) else p for p in pieces]


def _short_hose(
    need: HoseNeed, pieces: list[Piece], *, is_late: bool = False, why: str = ""
) -> Short:
    return Short(
        need.code, need.name, len(pieces), tuple(p.run for p in pieces), is_late=is_late, why=why
    )
