# SPDX-License-Identifier: Apache-2.0
"""What a supplier charges, exactly: steps of shipping, tax, and the rate of its currency."""

from dataclasses import dataclass
from fractions import Fraction

from linewright.base.errors import OrderError
from linewright.base.money import Money, digits
from linewright.order.model import Market, Offer, Supplier


@dataclass(frozen=True, slots=True)
class Mode:
    """One step of shipping: it holds for goods from ``low`` up to ``high``, in smallest units.

    ``high`` is None for the last step; ``price`` is of the shipping, in smallest units.
    """

    low: int
    high: int | None
    price: int


def modes(supplier: Supplier) -> tuple[Mode, ...]:
    """Steps of shipping of one supplier, from its smallest order on.

    Parameters
    ----------
    supplier : Supplier
        Its terms. Below the first step that is given, the first step holds.

    Returns
    -------
    tuple of Mode
        Without gaps, rising.
    """
    least = supplier.smallest_order.minor if supplier.smallest_order else 0
    steps = sorted((start.minor, price.minor) for start, price in supplier.shipping)
    steps = [(0, steps[0][1]), *steps[1:]] if steps else [(0, 0)]
    if supplier.free_above is not None:
        free = supplier.free_above.minor
        steps = [step for step in steps if step[0] < free] + [(free, 0)]
    highs: list[int | None] = [start - 1 for start, _ in steps[1:]]
    found = [
        Mode(max(low, least), high, price)
        for (low, price), high in zip(steps, [*highs, None], strict=True)
        if high is None or high >= least
    ]
    return tuple(found)


def shipping(supplier: Supplier, goods: Money) -> Money:
    """Price of shipping for so many goods, in the supplier's currency.

    Parameters
    ----------
    supplier : Supplier
        Its terms.
    goods : Money
        Price of the goods.

    Returns
    -------
    Money
        Nothing where nothing is bought.
    """
    if goods.minor <= 0:
        return Money(supplier.currency, 0)
    last = [mode for mode in modes(supplier) if mode.low <= goods.minor]
    return Money(supplier.currency, last[-1].price if last else modes(supplier)[0].price)


def factor(supplier: Supplier, currency: str) -> Fraction:
    """Smallest units of the shop's currency that one of the supplier's costs, tax included.

    Parameters
    ----------
    supplier : Supplier
        Its terms.
    currency : str
        The shop's.

    Returns
    -------
    Fraction
        Exact: nothing is rounded before the end.
    """
    shift = Fraction(10) ** (digits(currency) - digits(supplier.currency))
    return Fraction(supplier.rate) * (1 + Fraction(supplier.tax)) * shift


def checked(market: Market) -> dict[str, Supplier]:
    """Suppliers by name, their currencies agreeing with their offers.

    Parameters
    ----------
    market : Market
        What is on offer.

    Returns
    -------
    dict of str to Supplier
        One for each name that an offer gives; terms that nobody gave are none.

    Raises
    ------
    OrderError
        If currencies disagree.
    """
    known = {supplier.name: supplier for supplier in market.suppliers}
    for offer in market.offers:
        if offer.supplier not in known:
            known[offer.supplier] = Supplier(offer.supplier, offer.price.currency)
        supplier = known[offer.supplier]
        if offer.price.currency != supplier.currency:
            raise OrderError(
                f'"{offer.id}" is priced in {offer.price.currency}, and the terms of '
                f"{supplier.name} are in {supplier.currency}. Give one currency for each supplier."
            )
    for supplier in known.values():
        if supplier.currency != market.currency and supplier.rate_day is None:
            raise OrderError(
                f"{supplier.name} sells in {supplier.currency} and the shop reckons in "
                f"{market.currency}, but no rate is given with its day."
            )
        _in_one_currency(supplier)
    return known


def _in_one_currency(supplier: Supplier) -> None:
    said = [money for step in supplier.shipping for money in step]
    said += [m for m in (supplier.free_above, supplier.smallest_order) if m is not None]
    for money in said:
        if money.currency != supplier.currency:
            raise OrderError(
                f"Terms of {supplier.name} name {money}, and it sells in {supplier.currency}. "
                "Give all its terms in its own currency."
            )


def landed(offer: Offer, supplier: Supplier, currency: str) -> Fraction:
    """What one unit of an offer costs, tax included and shipping not, in smallest units.

    Parameters
    ----------
    offer : Offer
        The offer.
    supplier : Supplier
        Whose terms hold.
    currency : str
        Three letters of ISO 4217.

    Returns
    -------
    Fraction
        Exact, nothing rounded.
    """
    return offer.price.minor * factor(supplier, currency)
