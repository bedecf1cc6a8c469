# SPDX-License-Identifier: Apache-2.0
"""What the builder wishes of an order, with the defaults of the trade where he says nothing."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from linewright.base.evidence import Figure
from linewright.base.money import Money
from linewright.tables import practice


@dataclass(frozen=True, slots=True)
class Wishes:
    """What an order has to keep to.

    ``kerf`` is lost to each cut [m]; what is left of a coil is an offcut from ``useful`` [m] on
    and scrap below. ``leads`` are days to arrival by availability of a part, where neither
    offer nor supplier says. A preferred supplier may be dearer by ``preferred_share`` of its
    goods [-], and ``refund_share`` of the price comes back of what is returned where the offer
    does not say [-]. ``latest`` are days from the order by which all that a system needs must
    be there. ``budget`` is the most that the whole may cost. ``hold`` are ids of systems, lines
    and parts that are not ordered yet; ``is_unconfirmed_held`` holds every row that an
    unconfirmed port or an open angle asks for. ``both`` are ports for which all that covers any
    reading is ordered. ``seconds`` bounds each search for a proof [s]. ``show`` is how lengths
    are told, metric or inch.
    """

    kerf: float = 0.003
    useful: float = 0.3
    leads: tuple[tuple[str, int], ...] = (("stocked", 7), ("catalogued", 21), ("special", 28))
    preferred_share: Decimal = Decimal("0.05")
    refund_share: Decimal = Decimal("0.8")
    latest: tuple[tuple[str, int], ...] = ()
    budget: Money | None = None
    hold: frozenset[str] = frozenset()
    is_unconfirmed_held: bool = False
    both: frozenset[str] = frozenset()
    seconds: float = 20.0
    show: str = "metric"

    def lead(self, availability: str) -> int:
        """Days to arrival of what nobody gave a lead time for."""
        known = dict(self.leads)
        return known.get(availability, known["stocked"])


def wishes(settings: Mapping[str, Figure] | None = None) -> Wishes:
    """Wishes as the trade's defaults have them, or as a document's settings replace them.

    Parameters
    ----------
    settings : Mapping of str to Figure, optional
        What the document sets.

    Returns
    -------
    Wishes
        Without dates, budget or holds: replace those.

    Examples
    --------
    >>> wishes().kerf
    0.003
    """

    def value(name: str) -> float:
        typed = (settings or {}).get(name)
        return (typed if typed is not None else practice.setting(name)).value

    leads = (
        ("stocked", round(value("order-days-stocked"))),
        ("catalogued", round(value("order-days-catalogued"))),
        ("special", round(value("order-days-special"))),
    )
    return Wishes(
        kerf=value("order-kerf"),
        useful=value("order-useful-offcut"),
        leads=leads,
        preferred_share=Decimal(str(round(value("order-preferred-share"), 6))),
        refund_share=Decimal(str(round(value("order-refund-share"), 6))),
    )
