# SPDX-License-Identifier: Apache-2.0
"""What a search in space hands on: the course of one hose, its ends, and what else works."""

from dataclasses import dataclass, field

from linewright.base.evidence import Placed
from linewright.base.finding import Finding
from linewright.routes.path import Path

Vector = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Frame:
    """An end in space: origin on its mating plane, ``out`` away from its part, ``side`` square.

    ``spread`` is one sigma of the position [m], ``tilt`` one sigma of the direction [rad].
    """

    origin: Vector
    out: Vector
    side: Vector = (0.0, 0.0, 1.0)
    placed: Placed = Placed.GUESS
    spread: float = 0.0
    tilt: float = 0.0


@dataclass(frozen=True, slots=True)
class EndShape:
    """A hose end in space (CONVENTIONS: lengths and bends).

    With the collar at the origin and n leaving the hose, the seat is at ``reach``·n +
    ``drop``·side and its outlet points along cos(angle)·n + sin(angle)·side. ``stick_out``
    is what stands between the port face and that seat, along the port. ``angle`` [deg].
    """

    angle: int
    reach: float
    drop: float
    stick_out: float = 0.0
    price_index: float = 1.0
    turns: str = "set"


@dataclass(frozen=True, slots=True)
class Limits:
    """What the centreline of one hose must keep. SI.

    ``bend_radius`` is to the centreline. ``straight`` is the least straight after each
    collar, ``outside`` the hose's diameter.
    """

    outside: float
    bend_radius: float
    straight: float
    clearance: float = 0.010
    most_bends: int = 6


@dataclass(frozen=True, slots=True)
class Setting:
    """One hose end as it stands: which shape, turned how, and where its collar is.

    ``turn`` is the elbow's place on its port [rad], right-handed about the port's ``out``
    from the frame's ``side``; 0 for a straight end. ``n`` leaves the hose at the collar and
    ``side`` is the way the end bends.
    """

    shape: EndShape
    turn: float
    collar: Vector
    n: Vector
    side: Vector


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


@dataclass(frozen=True, slots=True)
class Route:
    """The course of one hose in space. Lengths in m, angles in rad but where they say deg.

    ``path`` runs from collar A to collar B, and ``length`` is its developed length; what the
    hose ends add is in the band. ``height`` is from the lowest to the highest point, ends
    included, ``clearance`` the least gap to what is not a body at its own ends. ``clock_deg``
    is None if an end is straight.
    ``sureness`` is the share of ports within their measured tolerance for which this pair
    of ends still works.
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
    clips: tuple[Vector, ...] = ()
    holes: tuple[tuple[str, Vector], ...] = ()
    highs: tuple[Vector, ...] = ()
    lows: tuple[Vector, ...] = ()
    follows: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = field(default=())
