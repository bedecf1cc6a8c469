# SPDX-License-Identifier: Apache-2.0
"""What is asked of the search for one hose, and what comes of it."""

from dataclasses import dataclass, field
from enum import IntEnum
from functools import cached_property
from typing import TYPE_CHECKING

from linewright.base.vectors import Vector
from linewright.routes.route import BandRow, Route
from linewright.space.model import EndShape, Frame, Limits

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from linewright.routes.looks import Looks
    from linewright.space.nearest import Bodies, Tree
    from linewright.space.obstacles import Scene

    Floats = NDArray[np.float64]

#: A place that a hose passes, and its direction of travel there.
Pose = tuple[Vector, Vector]


class Kind(IntEnum):
    """What a line must do on level ground; the numbers are those of the kernels."""

    FALLS = 1
    RISES = 2
    NO_TRAP = 3


@dataclass(frozen=True, slots=True)
class Rule:
    """What gravity asks of one hose on level ground, from its end A to its end B.

    ``sign`` -1 turns heights over: a line that rises from B to A, a trap of liquid and not of
    air. ``limit`` is the sine of the least fall, or what is left alone [m].
    """

    kind: Kind
    sign: float
    limit: float


@dataclass(frozen=True, slots=True)
class Weights:
    """What a metre outside, a straight hose end and a bend are worth. [m of hose]

    ``plane`` is for two bends in planes that are square to each other, without a straight of
    ``between`` hose diameters from one to the other.
    """

    outside: float = 8.0
    end: float = 0.6
    bend: float = 0.05
    plane: float = 0.05
    between: float = 3.0


@dataclass(frozen=True, slots=True)
class Side:
    """One end of the hose: its port, what may stand there, and whose body it is on.

    ``own`` are bodies that the hose end itself may stand against.
    """

    frame: Frame
    shapes: tuple[EndShape, ...]
    own: frozenset[str] = frozenset()
    angle: int | None = None  # the builder's, where he typed it
    port: str = ""  # its name, or where it is on a panel


@dataclass(frozen=True)
class Task:
    """One hose to be laid. ``box`` is what sticks out anyway: low and high corner [m].

    ``through`` are poses that it has to pass in order; ``bare`` and ``leave`` as for `Scene`.
    """

    id: str
    a: Side
    b: Side
    limits: Limits
    scene: "Scene"
    box: tuple[Vector, Vector]
    through: tuple[Pose, ...] = ()
    bare: frozenset[str] = frozenset()
    leave: frozenset[str] = frozenset()
    weights: Weights = field(default_factory=Weights)
    follows: tuple[str, ...] = ()
    gravity: Rule | None = None
    effort: float = 1.0  # share of the search that is spent before it is given up
    looks: "Looks | None" = field(default=None, compare=False, repr=False)  # notes what it sees

    @cached_property
    def question(self) -> "tuple[Bodies, Tree, Floats, Floats, NDArray[np.bool_]]":
        """What the kernels are asked with."""
        return self.scene.question(leave=self.leave, bare=self.bare)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of one hose. ``looked`` are boxes in which bodies were looked at.

    ``route`` is None where nothing works; ``blocked`` are then bodies in the way. ``cost`` is
    that of the route, in metres of hose, with what it pays for breaking its rule of gravity.
    """

    route: Route | None
    band: tuple[BandRow, ...]
    looked: tuple[tuple[Vector, Vector], ...]
    blocked: tuple[str, ...] = ()
    poses: tuple[Pose, ...] = ()
    cost: float = 0.0
