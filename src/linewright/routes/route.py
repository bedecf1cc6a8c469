# SPDX-License-Identifier: Apache-2.0
"""What a search in space hands on: the course of one hose, its ends, and what else works."""

from dataclasses import dataclass, field

from linewright.base.finding import Finding
from linewright.space.model import Setting, Vector
from linewright.space.path import Path


@dataclass(frozen=True, slots=True)
class Clearance:
    """The tightest place of a route: how far, from what, where."""

    gap: float
    from_what: str
    at: Vector


@dataclass(frozen=True, slots=True)
class BandRow:
    """One pair of hose ends: whether it works, with length, height and price, or why not.

    ``length`` is the assembly's: along the hose and both ends, as if laid straight. ``height``
    is from the lowest to the highest point, ends included. ``cost`` is in metres of hose.
    ``sureness`` is None where the pair was not drawn; ``turns`` are the places of both elbows
    on their ports [rad].
    """

    angle_a: int
    angle_b: int
    works: bool
    length: float | None = None
    height: float | None = None
    bends: int | None = None
    price_index: float = 0.0
    cost: float | None = None
    sureness: float | None = None
    why_not: str = ""
    turns: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Route:
    """The course of one hose in space. Lengths in m, angles in rad but where they say deg.

    ``path`` runs from collar A to collar B, and ``length`` is its developed length; what the
    hose ends add is in the band. ``height`` is from the lowest to the highest point, ends
    included, ``clearance`` the least gap to what is not a body at its own ends. ``clock_deg``
    is None if an end is straight.
    ``sureness`` is the share of ``draws`` of the ports within their measured tolerance in which
    this pair of ends still works, from the ``seed`` of the document on; 0 draws where both
    ports are known exactly. [-]
    """

    id: str
    a: Setting
    b: Setting
    path: Path
    length: float
    clock_deg: float | None
    height: float
    clearance: Clearance | None
    band: tuple[BandRow, ...] = ()
    sureness: float | None = None
    to_be_sure: str = ""
    draws: int = 0
    seed: int = 1
    clips: tuple[Vector, ...] = ()
    holes: tuple[tuple[str, Vector], ...] = ()
    highs: tuple[Vector, ...] = ()
    lows: tuple[Vector, ...] = ()
    follows: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = field(default=())
