# SPDX-License-Identifier: Apache-2.0
"""A part: what can be bought, with its ends and figures."""

from dataclasses import dataclass, field
from enum import StrEnum

from linewright.base.evidence import Grade
from linewright.ends.end import End
from linewright.ends.mating import SealNeed


class Availability(StrEnum):
    """How easily the trade supplies a part, best first. What is not sold is not here."""

    STOCKED = "stocked"
    CATALOGUED = "catalogued"
    SPECIAL = "special"

    @property
    def rank(self) -> int:
        """Place in the order of ease, 0 for stocked. [-]"""
        return tuple(Availability).index(self)


class Turns(StrEnum):
    """Whether an elbow can be pointed once it is on its port."""

    FREE = "free"
    SET = "set"
    CHANCE = "chance"
    FIXED = "fixed"


@dataclass(frozen=True, slots=True)
class Part:
    """A generic part.

    ``code`` is our own and can be said aloud. ``shape`` is one word or two of the trade:
    hose end, adaptor, union, reducer, elbow, tee, bulkhead, plug, cap, bung, banjo bolt,
    banjo hose end, bushing, coupler, silicone, take-off plate, jet, screen, check valve ...
    ``ends`` come in order; for a two-ended part ``ends[0]`` is the port side.
    ``angle`` is the change of direction [deg]; ``legs`` are the lengths from the corner to
    each mating plane [m]; ``bore`` is the least bore [m]. ``comes_with`` are hardware and
    seals in the same bag (an olive, a lock nut, a backing washer). ``grades`` says how each
    named figure is known; ``traits`` holds words such as ``lock nut``, ``check valve``,
    ``full swivel``, ``locking``, ``jet``.
    """

    code: str
    name: str
    shape: str
    ends: tuple[End, ...]
    angle: int = 0
    legs: tuple[float, ...] = ()
    bore: float | None = None
    turns: Turns = Turns.FIXED
    availability: Availability = Availability.STOCKED
    price_index: float = 1.0
    mass: float | None = None
    material: str = "aluminium"
    comes_with: tuple[SealNeed, ...] = ()
    traits: frozenset[str] = frozenset()
    grades: tuple[tuple[str, Grade], ...] = field(default=(), compare=False)
    held: bool = False  # the builder holds it in his hand (document ``parts``)

    @property
    def stick_out(self) -> float:
        """How far the part stands out from the port, along the port's axis. [m]"""
        if not self.legs:
            return 0.0
        return sum(self.legs) if self.angle == 0 else self.legs[0]
