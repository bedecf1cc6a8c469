# SPDX-License-Identifier: Apache-2.0
"""Ports, hose ends and the limits of a hose, in space."""

from dataclasses import dataclass

from linewright.base.evidence import Placed

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
    """A hose end in space.

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
    collar, ``outside`` the hose's diameter. ``why`` says how the radius came about.
    """

    outside: float
    bend_radius: float
    straight: float
    clearance: float = 0.010
    most_bends: int = 6
    why: str = ""


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
