# SPDX-License-Identifier: Apache-2.0
"""An answer of the search, written out as boxes with their lines, and lengths to cut."""

from collections.abc import Mapping
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from linewright.base.money import Money
from linewright.order import cutting
from linewright.order.goods import Good, Goods, bars_of
from linewright.order.model import SoldAs, Supplier
from linewright.order.needs import TENTHS, HoseNeed, down
from linewright.order.price import modes, shipping
from linewright.order.result import Box, Length, OrderLine
from linewright.order.solve import Solution
from linewright.order.wishes import Wishes


def boxes(goods: Goods, solution: Solution, whys: Mapping[str, tuple[str, ...]]) -> tuple[Box, ...]:
    """Write what is bought, by supplier.

    Parameters
    ----------
    goods : Goods
        Needs and offers.
    solution : Solution
        How many of each.
    whys : Mapping of str to tuple of str
        Why each supplier is in the order.

    Returns
    -------
    tuple of Box
        In the order of their names.
    """
    surplus = _surplus(goods, solution)
    names = sorted({goods.goods[i].supplier.name for i in solution.counts})
    found = []
    for name in names:
        supplier = goods.suppliers[name]
        lines = tuple(
            _line(goods, solution, i, surplus)
            for i in sorted(solution.counts)
            if goods.goods[i].supplier.name == name
        )
        found.append(box(supplier, goods.currency, lines, whys.get(name, ())))
    return tuple(found)


def box(
    supplier: Supplier, currency: str, lines: tuple[OrderLine, ...], why: tuple[str, ...]
) -> Box:
    """Add lines up to a box: shipping and tax apart, one rounding each.

    Parameters
    ----------
    supplier : Supplier
        Whose terms hold.
    currency : str
        Three letters of ISO 4217.
    lines : tuple of OrderLine, ...
        Its lines.
    why : tuple of str, ...
        Why there is none, or why it is in the order.

    Returns
    -------
    Box
        The box with its sums.
    """
    worth = Money(supplier.currency, sum(line.total.minor for line in lines))
    charged = shipping(supplier, worth)
    tax = Money(supplier.currency, half_up((worth + charged).minor * Fraction(supplier.tax)))
    total = worth + charged + tax
    rate = ""
    if supplier.currency != currency:
        day = f" of {supplier.rate_day.isoformat()}" if supplier.rate_day else ""
        rate = f"1 {supplier.currency} = {supplier.rate} {currency}{day}"
    return Box(
        supplier=supplier.name,
        lines=lines,
        goods=worth,
        shipping=charged,
        tax=tax,
        total=total,
        whole=total.converted(supplier.rate, currency),
        days=max((line.days for line in lines), default=0),
        why=why,
        rate=rate,
    )


def half_up(exact: Fraction) -> int:
    """Round to a whole smallest unit, halves up.

    Parameters
    ----------
    exact : Fraction
        The exact sum, in smallest units.

    Returns
    -------
    int
        Whole smallest units.
    """
    number = Decimal(exact.numerator) / Decimal(exact.denominator)
    return int(number.to_integral_value(ROUND_HALF_UP))


def _surplus(goods: Goods, solution: Solution) -> dict[int, float]:
    """What of each offer nothing asks for: of several offers of a part, of the last ones."""
    left: dict[int, float] = {}
    wanted: dict[str, float] = {need.code: need.count for need in goods.needs.parts}
    for (asked, other), count in solution.swaps.items():
        wanted[asked] = wanted.get(asked, 0) - count
        wanted[other] = wanted.get(other, 0) + count
    for hose in goods.needs.hoses:
        owned = solution.cuttings[hose.code][: len(hose.offcuts)]
        cut = sum(hose.pieces[i].length for on_it in owned for i in on_it)
        wanted[hose.code] = sum(piece.length for piece in hose.pieces) - cut
    for i in sorted(solution.counts):
        good, count = goods.goods[i], solution.counts[i]
        code = good.offer.part or ""
        gives = good.size * count
        used = min(max(wanted.get(code, 0), 0), gives)
        wanted[code] = wanted.get(code, 0) - used
        left[i] = gives - used
    return left


def _line(goods: Goods, solution: Solution, i: int, surplus: Mapping[int, float]) -> OrderLine:
    good, count = goods.goods[i], solution.counts[i]
    offer, code = good.offer, good.offer.part or ""
    stands = tuple(
        (asked, count) for (asked, other), count in sorted(solution.swaps.items()) if other == code
    )
    asked = {code, *(name for name, _ in stands)}
    ids = [name for need in goods.needs.parts if need.code in asked for name in need.because]
    ids += [name for need in goods.needs.hoses if need.code in asked for name in need.because]
    scale = TENTHS if good.is_hose else 1
    note = ""
    if surplus[i] and not good.is_hose:
        least = -(-int(good.size * count - surplus[i]) // good.size) * good.size
        if good.size * count > least:
            note = "more than asked for: it reaches a threshold of the supplier"
    return OrderLine(
        number=offer.number,
        description=offer.description,
        part=code,
        count=count,
        unit=unit_words(good),
        price=offer.price,
        total=offer.price.times(count),
        gives=good.size * count / scale,
        surplus=surplus[i] / scale,
        is_length=good.is_hose,
        days=good.lead,
        is_assumed=offer.lead_days is None and good.supplier.lead_days is None,
        is_stock_assumed=offer.stock is None,
        because=tuple(dict.fromkeys(ids)),
        stands_for=_first_only(goods, solution, i, stands),
        refund=refund_words(good),
        note=note,
    )


def _first_only(
    goods: Goods, solution: Solution, i: int, stands: tuple[tuple[str, int], ...]
) -> tuple[tuple[str, int], ...]:
    """What stands in is told once, on the first line of its code."""
    code = goods.goods[i].offer.part
    first = min(k for k in solution.counts if goods.goods[k].offer.part == code)
    return stands if i == first else ()


def unit_words(good: Good) -> str:
    """Say what one unit of an offer is.

    Parameters
    ----------
    good : Good
        The offer as the search sees it.

    Returns
    -------
    str
        A few words.
    """
    offer = good.offer
    if offer.sold_as is SoldAs.PIECES:
        return "piece" if offer.pack == 1 else f"pack of {offer.pack}"
    length = f"{offer.length or 0.0:.4g} m"
    return f"coil of {length}" if offer.sold_as is SoldAs.COIL else f"{length}, cut in one length"


def refund_words(good: Good) -> str:
    """Say what comes back of an offer that is returned.

    Parameters
    ----------
    good : Good
        The offer as the search sees it.

    Returns
    -------
    str
        A few words.
    """
    if not good.back:
        is_said = good.offer.is_returnable is not None or good.is_hose
        return "not returnable" if is_said else "not returnable (not said: assumed)"
    share = float(good.back / good.cost) if good.cost else 0.0
    days = good.offer.return_days
    said = f"{share:.0%} back" + (f" within {days} days" if days else "")
    return said if good.offer.is_returnable else f"{said} (not said: assumed)"


def lengths(goods: Goods, solution: Solution, wishes: Wishes) -> tuple[Length, ...]:
    """Write the cutting plan: each length that is opened, and those bought but left whole.

    Parameters
    ----------
    goods : Goods
        Needs and offers.
    solution : Solution
        What is bought, and a plan that works.
    wishes : Wishes
        Kerf, and the shortest rest worth keeping.

    Returns
    -------
    tuple of Length
        By hose; what is owned first.
    """
    found: list[Length] = []
    kerf, useful = down(wishes.kerf), down(wishes.useful)
    for need in goods.needs.hoses:
        bars = bars_of(need, goods, solution.counts)
        plan = cutting.tidy(need.pieces, bars, kerf, useful, solution.cuttings[need.code])
        seen: dict[str, int] = {}
        for bar, on_it, source in zip(bars, plan, _sources(need, goods, solution), strict=True):
            seen[source] = seen.get(source, 0) + 1
            is_owned = bar.day == 0 and source.startswith("shelf ")
            if is_owned and not on_it:
                continue
            pieces = sorted((need.pieces[i] for i in on_it), key=lambda p: (-p.length, p.run))
            taken = sum(piece.length + kerf for piece in pieces)
            left = max(bar.length - taken, 0)
            found.append(
                Length(
                    part=need.code,
                    source=source,
                    which=seen[source],
                    length=bar.length / TENTHS,
                    pieces=tuple((piece.run, piece.length / TENTHS) for piece in pieces),
                    left=left / TENTHS,
                    is_useful=left >= useful,
                    is_owned=is_owned,
                )
            )
    return tuple(found)


def _sources(need: HoseNeed, goods: Goods, solution: Solution) -> list[str]:
    """Where each bar comes from, in the order of `bars_of`."""
    found = [f"shelf {rest.bin}".rstrip() for rest in need.offcuts]
    for i in goods.of(need.code):
        count = solution.counts.get(i, 0)
        if count:
            one = goods.goods[i].offer.sold_as is SoldAs.CUT
            found += [goods.goods[i].offer.id] * (1 if one else count)
    return found


def reasons(
    goods: Goods, solution: Solution, without: Mapping[str, str]
) -> dict[str, tuple[str, ...]]:
    """Say why each supplier is in the order.

    Parameters
    ----------
    goods : Goods
        Needs and offers.
    solution : Solution
        What is bought.
    without : Mapping of str to str
        What the order would be without each supplier, in words.

    Returns
    -------
    dict of str to tuple of str
        Sentences by supplier.
    """
    told: dict[str, tuple[str, ...]] = {}
    for name in sorted({goods.goods[i].supplier.name for i in solution.counts}):
        mine = [i for i in solution.counts if goods.goods[i].supplier.name == name]
        alone = [i for i in mine if _is_alone(goods, i)]
        cheapest = [i for i in mine if i not in alone and _is_cheapest(goods, i)]
        said = []
        if alone:
            codes = sorted({goods.goods[i].offer.part or "" for i in alone})
            more = f" and {len(codes) - 3} more" if len(codes) > 3 else ""
            said.append(f"alone sells {', '.join(codes[:3])}{more}")
        if cheapest:
            said.append(f"cheapest for {len(cheapest)} of its {len(mine)} lines")
        if name in without:
            said.append(without[name])
        supplier = goods.suppliers[name]
        worth = sum(goods.goods[i].offer.price.minor * solution.counts[i] for i in mine)
        steps = modes(supplier)
        if len(steps) > 1 and not shipping(supplier, Money(supplier.currency, worth)).minor:
            said.append("its goods reach free shipping")
        if supplier.wish == "preferred":
            said.append("preferred")
        told[name] = tuple(said)
    return told


def _is_alone(goods: Goods, i: int) -> bool:
    mine = goods.goods[i]
    others = goods.of(mine.offer.part or "")
    return all(goods.goods[k].supplier.name == mine.supplier.name for k in others)


def _is_cheapest(goods: Goods, i: int) -> bool:
    mine = goods.goods[i]
    others = (goods.goods[k] for k in goods.of(mine.offer.part or ""))
    return all(mine.cost / mine.size <= other.cost / other.size for other in others)
