# SPDX-License-Identifier: Apache-2.0
"""How sure an order is, as tables: the chance, what troubles it, what to measure, spares."""

from linewright.base.money import Money
from linewright.base.shown import counted
from linewright.sheets.table import Align, Column, Table
from linewright.studies.confidence import HARSH, Chance, Confidence, Settling
from linewright.studies.spares import Curve, Spares

_RIGHT = Align.RIGHT

#: Measurements that a table names.
_MOST = 8


def percent(share: float) -> str:
    """Write a chance in whole points, and what is nearly none or all as such.

    Parameters
    ----------
    share : float
        A chance. [-]

    Returns
    -------
    str
        ``71 %``, ``< 1 %``, ``> 99 %``.

    Examples
    --------
    >>> percent(0.714), percent(0.002), percent(0.9961), percent(0.0), percent(1.0)
    ('71 %', '< 1 %', '> 99 %', '0 %', '100 %')
    """
    if 0.0 < share < 0.01:
        return "< 1 %"
    if 0.99 < share < 1.0:
        return "> 99 %"
    return f"{share * 100:.0f} %"


def _counted(chance: Chance) -> str:
    """A chance with the error of counting it, in tenths of a point, two standard errors."""
    return f"{percent(chance.share)} (± {max(200 * chance.error, 0.1):.1f})"


def headline(found: Confidence) -> str:
    """Say how sure the order is, in a sentence.

    Parameters
    ----------
    found : Confidence
        How sure it is.

    Returns
    -------
    str
        With the range between harsher and milder estimates.
    """
    lacks = ""
    if found.elsewhere:
        many = len(dict.fromkeys(found.elsewhere))
        lacks = (
            f" Nobody offers {counted(many, 'part')} of it: see the list; that is reckoned with "
            f"{'it' if many == 1 else 'them'} found elsewhere."
        )
    if found.unknown:
        ports = ", ".join(found.unknown)
        is_one = len(found.unknown) == 1
        return (
            f"Nothing is ordered for {ports}, so this order is not enough. Once "
            f"{'it is' if is_one else 'they are'} measured and {'its' if is_one else 'their'} "
            f"parts are ordered too, it is enough with a chance of {percent(found.known.share)}."
            f"{lacks}"
        )
    return (
        f"This one order is enough with a chance of "
        f"{percent(found.chance.share)}: between {percent(found.harsh.share)} and "
        f"{percent(found.mild.share)} where trouble is {HARSH:g} times as likely as estimated, or "
        f"as unlikely.{lacks}"
    )


def chance_table(found: Confidence) -> Table:
    """List the chance under the estimates as they are, harsher and milder.

    Parameters
    ----------
    found : Confidence
        How sure the order is.

    Returns
    -------
    Table
        With the number of builds drawn in its note.
    """
    rows = [
        ("as estimated", _counted(found.chance)),
        (f"all chances of trouble {HARSH:g} times as large", _counted(found.harsh)),
        (f"all chances of trouble {HARSH:g} times as small", _counted(found.mild)),
    ]
    if found.unknown:
        known = f"once these are measured and ordered for: {', '.join(found.unknown)}"
        rows.append((known, _counted(found.known)))
    if found.settled.share > found.known.share:
        rows.append(("once every port and every hose end is measured", _counted(found.settled)))
    return Table(
        "confidence",
        "Chance that nothing further must be ordered",
        (Column("Under", 4.0), Column("Chance", 1.2, _RIGHT)),
        tuple(rows),
        note=(
            f"Counted on {found.builds:,} drawn builds (seed {found.seed}); in brackets two "
            "standard errors of counting, in points. The chances of trouble are estimates from "
            "practice and can be set in [settings]: read the figure as a way to compare, not as a "
            "promise."
        ),
    )


def elsewhere_table(found: Confidence) -> Table:
    """List what nobody offers.

    Parameters
    ----------
    found : Confidence
        How sure the order is.

    Returns
    -------
    Table
        One row a part or hose.
    """
    return Table(
        "find-elsewhere",
        "Nobody offers",
        (Column("Part or hose", 5.0),),
        tuple((name,) for name in dict.fromkeys(found.elsewhere)),
        note="Find it before you order: the chances reckon with it.",
        empty="Everything is offered.",
    )


def trouble_table(found: Confidence) -> Table:
    """List how often each kind of trouble alone makes a second order.

    Parameters
    ----------
    found : Confidence
        How sure the order is.

    Returns
    -------
    Table
        The most frequent first.
    """
    rows = tuple((kind.value, percent(share)) for kind, share in found.by_kind if share)
    return Table(
        "troubles",
        "What would make a second order",
        (Column("Trouble", 4.0), Column("Builds", 1.0, _RIGHT)),
        rows,
        note="Each alone; a build may have several.",
        empty="Nothing that is reckoned with.",
    )


def _measured(name: str, title: str, rows: tuple[Settling, ...], before: Chance) -> Table:
    return Table(
        name,
        title,
        (
            Column("Do", 4.5),
            Column("Other than planned", 1.3, _RIGHT),
            Column("Chance then", 1.2, _RIGHT),
        ),
        tuple((_do(s), percent(s.share), percent(s.after.share)) for s in rows[:_MOST]),
        note=f"From {percent(before.share)} now.",
        empty="No measurement would make it surer.",
    )


def _do(settling: Settling) -> str:
    if len(settling.about) == 1:
        (about,) = settling.about
        return settling.how if about in settling.how else f"{about}: {settling.how}"
    return f"{settling.how}; that settles {', '.join(settling.about)}"


def measure_table(found: Confidence) -> Table:
    """List the measurements that would help most, each on its own.

    Parameters
    ----------
    found : Confidence
        How sure the order is.

    Returns
    -------
    Table
        The one that helps most first.
    """
    return _measured("measure-next", "Measure next", found.settle, found.chance)


def path_table(found: Confidence) -> Table:
    """List measurements to take one after the other.

    Parameters
    ----------
    found : Confidence
        How sure the order is.

    Returns
    -------
    Table
        Each on top of those before it, after what is unknown is known.
    """
    return _measured("measure-in-turn", "Measure one after the other", found.path, found.known)


def money(amount: float, currency: str) -> str:
    """Write an amount in the shop's currency, or an index that is no money.

    Parameters
    ----------
    amount : float
        Smallest units of the currency, or an index. [-]
    currency : str
        Three letters, or nothing where there are no offers.

    Returns
    -------
    str
        ``12.50 EUR`` or ``index 3.2``.
    """
    return str(Money(currency, round(amount))) if currency else f"index {amount:.1f}"


def curve_table(curve: Curve, currency: str, second: float | None = None, when: str = "") -> Table:
    """List what it costs to be surer.

    Parameters
    ----------
    curve : Curve
        Sets of spares.
    currency : str
        Three letters, or nothing where prices are indices.
    second : float, optional
        What a second order costs, in smallest units. [-]
    when : str, optional
        What has to be known before the sets are of use, told with them.

    Returns
    -------
    Table
        One row a set; where a second order has its price, the set that costs least in all is
        marked.
    """
    best = _cheapest(curve, second)
    rows = []
    for point in curve.points:
        told = [
            _counted(point.chance),
            money(point.price, currency),
            money(point.net, currency),
            f"{sum(n for _, n in point.units)}",
        ]
        if second is not None:
            mark = " ◂ least" if point is best else ""
            told.append(f"{money(expected(point, second), currency)}{mark}")
        rows.append(tuple(told))
    columns = [
        Column("Chance", 1.2, _RIGHT),
        Column("Spares cost", 1.2, _RIGHT),
        Column("Less refunds", 1.2, _RIGHT),
        Column("Units", 0.6, _RIGHT),
    ]
    if second is not None:
        columns.append(Column("With a second order where it comes to it", 2.0, _RIGHT))
    return Table(
        "confidence-curve",
        "What it costs to be surer",
        tuple(columns),
        tuple(rows),
        note=(
            f"{when}With every spare that is for sale {percent(curve.most.share)}: the rest is "
            "what nobody can buy ahead of. Each set was chosen on some drawn builds and judged on "
            "others."
        ),
        empty="No spare for sale would make the order surer.",
    )


def expected(point: Spares, second: float) -> float:
    """What a set of spares costs with a second order where it is not enough.

    Parameters
    ----------
    point : Spares
        A set of spares.
    second : float
        What a second order costs. [-]

    Returns
    -------
    float
        In the same units. [-]
    """
    return point.net + (1.0 - point.chance.share) * second


def _cheapest(curve: Curve, second: float | None) -> Spares | None:
    if second is None or not curve.points:
        return None
    return min(curve.points, key=lambda p: expected(p, second))


def spares_table(point: Spares, names: dict[str, str], currency: str) -> Table:
    """List one set of spares.

    Parameters
    ----------
    point : Spares
        The set.
    names : dict of str to str
        What each code is called.
    currency : str
        Three letters, or nothing where prices are indices.

    Returns
    -------
    Table
        One row a part.
    """
    reached = "" if point.is_reached else " That is the most that spares can reach."
    gap = f" A set {point.gap:.0%} cheaper was not ruled out in time." if point.gap > 0.001 else ""
    return Table(
        "spares",
        f"Spares for {percent(point.level)}",
        (Column("Part", 4.0), Column("Code", 2.5), Column("Units more", 0.8, _RIGHT)),
        tuple((names.get(code, code), code, str(count)) for code, count in point.units),
        note=(
            f"{money(point.price, currency)}, {money(point.net, currency)} less the refunds to be "
            f"expected; then the order is enough with a chance of {_counted(point.chance)}."
            f"{reached}{gap}"
        ),
        empty="None: the order reaches it as it stands."
        if point.is_reached
        else "No spare for sale would make the order surer.",
    )
