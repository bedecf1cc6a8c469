# SPDX-License-Identifier: Apache-2.0
"""What may make a second order, and what is had against it.

A build is drawn by drawing each cause on its own. A cause comes out as planned or in another
way, and that way asks for other parts than the order was made for. An order was enough where
everything that the build then needs is there.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum


class Kind(StrEnum):
    """What goes wrong, in the words of the trade."""

    PORT = "port is something else"
    ANGLE = "hose-end angle does not work"
    LENGTH = "hose comes out longer"
    LOST = "small thing lost or forgotten"
    MOVED = "component moved"
    ROOM = "no room for spanner or body"
    HOSE = "wrong kind of hose"
    SIZE = "size changed after calculation"
    SUPPLIER = "supplier short or wrong"


@dataclass(frozen=True, slots=True)
class Outcome:
    """One way, other than planned, that a cause may come out.

    ``share`` is its chance [-]. ``change`` are the parts needed more (or, negative, less) than
    planned, by code. ``is_coverable`` is False where nothing bought ahead would help.
    """

    share: float
    change: tuple[tuple[str, int], ...]
    what: str
    is_coverable: bool = True


@dataclass(frozen=True, slots=True)
class Cause:
    """One thing that may come out otherwise than planned.

    ``about`` are the ids it concerns. ``settle`` says how to know before ordering, empty
    where nothing can be measured. Causes with one ``tie`` come out together: one reader read
    them, or one maker made them. ``share`` of coming out otherwise is the sum over outcomes.
    """

    kind: Kind
    about: str
    outcomes: tuple[Outcome, ...]
    settle: str = ""
    tie: str = ""

    @property
    def id(self) -> str:
        """Kind and what it is about, as one identity."""
        return f"{self.kind.name.lower()} {self.about}"

    @property
    def share(self) -> float:
        """Chance that it comes out otherwise than planned. [-]"""
        return sum(outcome.share for outcome in self.outcomes)


@dataclass(frozen=True, slots=True)
class Loss:
    """Pieces of one part that may each be lost, broken or forgotten, each on its own.

    ``count`` pieces [-], each with a chance of ``share`` [-].
    """

    code: str
    count: int
    share: float


@dataclass(frozen=True, slots=True)
class Stretch:
    """One piece of hose whose length is not certain.

    ``length`` is what it was reckoned at [m], ``sigma`` its own relative scatter and ``common``
    that which all pieces share, as a tape always held the same way does [-]. ``slack`` is what
    it may be short of the reckoned length without harm, as a share of it [-].
    """

    piece: str
    length: float
    sigma: float
    common: float = 0.0
    slack: float = 0.0


@dataclass(frozen=True, slots=True)
class Stock:
    """Lengths of one hose that are had, and the pieces to cut from them. [m]

    ``kerf`` is lost to each cut [m].
    """

    code: str
    lengths: tuple[float, ...]
    pieces: tuple[Stretch, ...]
    kerf: float = 0.003


@dataclass(frozen=True, slots=True)
class Unit:
    """What one more unit of a part costs, and gives.

    ``price`` is in smallest units of the shop's currency, or an index where there are no
    offers; ``gives`` pieces or lengths of ``length`` [m]. ``refund`` is the share of the price
    that comes back when it is not needed [-].
    """

    code: str
    name: str
    price: float
    gives: int = 1
    length: float | None = None
    refund: float = 0.0


@dataclass(frozen=True, slots=True)
class Case:
    """All that the chance of one order is reckoned from.

    ``need`` is what the plan takes and ``have`` what is ordered and owned, pieces by code.
    ``elsewhere`` are parts that nobody offers: the order lacks them, and they are reckoned as
    found somewhere else. ``errors`` scales every chance of going wrong, for showing how far
    the answer falls when the estimates are too kind.
    """

    need: Mapping[str, int]
    have: Mapping[str, int]
    causes: tuple[Cause, ...] = ()
    losses: tuple[Loss, ...] = ()
    stocks: tuple[Stock, ...] = ()
    units: tuple[Unit, ...] = ()
    elsewhere: tuple[str, ...] = ()
    seed: int = 1
    errors: float = 1.0

    @property
    def measured(self) -> "Case":
        """The case once all that is surely other than planned is known and ordered for."""
        return replace(self, causes=tuple(c for c in self.causes if c.share < 1.0))

    @property
    def settled(self) -> "Case":
        """The case once all that can be measured is, and ordered for: what is left is fate."""
        return replace(self, causes=tuple(c for c in self.causes if not c.settle))
