# SPDX-License-Identifier: Apache-2.0
"""The order: what to buy of whom, what to cut from what, and how good it is."""

from dataclasses import dataclass

from linewright.base.finding import Finding
from linewright.base.money import Money
from linewright.order.goods import Short
from linewright.order.shelf import ShelfUse


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One line of an order to one supplier, in the supplier's currency.

    ``count`` units at ``price`` make ``total``; ``unit`` says what a unit is. ``gives`` are
    the pieces in them [-] or the length [m], ``surplus`` is how much of it nothing asks for.
    ``days`` to arrival; ``is_assumed`` where nobody gave them. ``stands_for`` says in
    whose place how many are bought.
    """

    number: str
    description: str
    part: str
    count: int
    unit: str
    price: Money
    total: Money
    gives: float
    surplus: float
    is_length: bool
    days: int
    is_assumed: bool
    is_stock_assumed: bool
    because: tuple[str, ...]
    stands_for: tuple[tuple[str, int], ...] = ()
    refund: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Box:
    """All that is ordered of one supplier. ``whole`` is in the shop's currency.

    ``why`` says why this supplier is in the order.
    """

    supplier: str
    lines: tuple[OrderLine, ...]
    goods: Money
    shipping: Money
    tax: Money
    total: Money
    whole: Money
    days: int
    why: tuple[str, ...]
    rate: str = ""


@dataclass(frozen=True, slots=True)
class Length:
    """One length to cut, its pieces in order as (piece, length in m), and what is left [m].

    ``source`` is a bin of the shelf, or supplier and number; ``which`` counts equal coils.
    """

    part: str
    source: str
    which: int
    length: float
    pieces: tuple[tuple[str, float], ...]
    left: float
    is_useful: bool
    is_owned: bool


@dataclass(frozen=True, slots=True)
class Choice:
    """Another order to compare with: its price, last day and boxes; None where there is none.

    ``more`` is what it costs above the chosen one; ``why`` says why there is none.
    """

    name: str
    price: Money | None
    more: Money | None
    days: int | None
    boxes: int | None
    suppliers: tuple[str, ...] = ()
    is_proved: bool = True
    why: str = ""


@dataclass(frozen=True, slots=True)
class Proof:
    """How good the order is: no order that meets the same needs costs less than ``bound``.

    ``price`` is what was made least: the sum to pay, less what preference and expected
    refunds are worth in choosing.
    """

    price: Money
    bound: Money
    gap: float
    is_optimal: bool


@dataclass(frozen=True, slots=True)
class Holding:
    """What holding costs: the rest bought later, on its own, over buying all at once.

    ``later`` is None where nobody sells the rest.
    """

    held: tuple[str, ...]
    later: Money | None
    more: Money | None
    shipping: Money | None


@dataclass(frozen=True, slots=True)
class Both:
    """What covering every reading of a port costs, and what of it comes back.

    ``gross`` is paid on top of the order, ``back`` is expected where each reading is as
    likely as the others, ``net`` is the difference. ``missing`` are parts that nobody sells,
    ``without`` are readings that no part fits: nothing covers them.
    """

    port: str
    readings: tuple[str, ...]
    gross: Money
    back: Money
    net: Money
    is_ordered: bool
    missing: tuple[str, ...] = ()
    until_days: int | None = None
    without: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Listed:
    """One row of the list without offers: counts, and a price index that is no money."""

    group: str
    code: str
    name: str
    count: str
    price_index: float | None
    because: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Order:
    """All that is bought, cut and taken from the shelf.

    ``total`` is None where there are no offers at all: then ``listed`` is the whole list,
    and no sum of its index prices is money. ``shorts`` are what nobody sells, or not in time.
    """

    currency: str
    boxes: tuple[Box, ...]
    cuts: tuple[Length, ...]
    from_shelf: tuple[ShelfUse, ...]
    shorts: tuple[Short, ...]
    total: Money | None
    proof: Proof | None
    simpler: tuple[Choice, ...] = ()
    trade_off: tuple[Choice, ...] = ()
    holding: Holding | None = None
    both: tuple[Both, ...] = ()
    listed: tuple[Listed, ...] = ()
    findings: tuple[Finding, ...] = ()
    assumed: tuple[str, ...] = ()

    @property
    def days(self) -> int:
        """Days until the last box is there. [-]"""
        return max((box.days for box in self.boxes), default=0)
