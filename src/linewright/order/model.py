# SPDX-License-Identifier: Apache-2.0
"""What is offered, what is owned, and on which terms: the types that buying works with."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum

from linewright.base.money import Money


class SoldAs(StrEnum):
    """How an offer counts what it sells."""

    PIECES = "pieces"  # packs of ``pack`` pieces
    CUT = "cut"  # hose or tube cut to order, in whole steps of ``length``
    COIL = "coil"  # a fixed length of hose or tube


@dataclass(frozen=True, slots=True)
class Offer:
    """What a supplier sells a part for.

    ``price`` is of one unit sold: one pack, one step of ``length`` [m], or one coil of
    ``length`` [m]. ``stock`` counts such units, ``lead_days`` are days from order to
    arrival; None where nobody said, and then the defaults of the settings stand in,
    visibly. ``refund_share`` is what comes back of the price [-] when it is returned within
    ``return_days``. ``part`` is our own code of what it is (as takeoff rows write it, hose too),
    None until it is recognised. ``place`` says where the offer was read ("list.csv row 12");
    ``attributes`` are the words of columns such as thread, dash or angle.
    """

    supplier: str
    number: str
    description: str
    price: Money
    sold_as: SoldAs = SoldAs.PIECES
    pack: int = 1
    length: float | None = None
    stock: int | None = None
    lead_days: int | None = None
    is_returnable: bool | None = None
    refund_share: float | None = None
    return_days: int | None = None
    part: str | None = None
    place: str = ""
    attributes: str = ""

    @property
    def id(self) -> str:
        """Supplier and number, as one identity; the description where there is no number."""
        return f"{self.supplier}: {self.number or self.description}"


@dataclass(frozen=True, slots=True)
class Supplier:
    """The terms of one supplier, in its own currency.

    ``shipping`` are steps (goods from, price of shipping): the last step reached counts;
    ``free_above`` makes it nothing. ``smallest_order`` is of goods. ``rate`` is how much of
    the shop's currency one unit of the supplier's buys, typed with its day. ``tax`` is a
    share of goods and shipping [-], added on top. ``wish`` is "", "preferred" or "barred".
    """

    name: str
    currency: str
    shipping: tuple[tuple[Money, Money], ...] = ()
    free_above: Money | None = None
    smallest_order: Money | None = None
    rate: Decimal = Decimal(1)
    rate_day: date | None = None
    tax: Decimal = Decimal(0)
    lead_days: int | None = None
    wish: str = ""


@dataclass(frozen=True, slots=True)
class ShelfItem:
    """Pieces of one part that the shop owns, and in which bin they lie."""

    bin: str
    part: str
    count: int


@dataclass(frozen=True, slots=True)
class Offcut:
    """One length of hose or tube that the shop owns. ``length`` [m]."""

    bin: str
    part: str
    length: float


@dataclass(frozen=True, slots=True)
class Shelf:
    """All that the shop owns and would use first."""

    items: tuple[ShelfItem, ...] = ()
    offcuts: tuple[Offcut, ...] = ()


@dataclass(frozen=True, slots=True)
class Told:
    """What is said of one row of a file: where it stands, what it says, and why.

    ``is_file`` says that nothing of a whole file, or of a sheet, could be read.
    """

    place: str
    text: str
    reason: str
    is_file: bool = False


@dataclass(frozen=True, slots=True)
class Market:
    """What is on offer, from whom, in the shop's own currency.

    ``refused`` are rows that could not be loaded, ``noted`` rows that were, with something
    left open.
    """

    currency: str
    suppliers: tuple[Supplier, ...]
    offers: tuple[Offer, ...]
    refused: tuple[Told, ...] = ()
    noted: tuple[Told, ...] = ()
