# SPDX-License-Identifier: Apache-2.0
"""What compiled searches of hose ends are handed, in bundles: the bay, the hose, an end."""

from typing import TYPE_CHECKING, NamedTuple, TypeAlias

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from linewright.space.nearest import Bodies, Flags, Tree

Floats: TypeAlias = "NDArray[np.float64]"
Whole: TypeAlias = "NDArray[np.int64]"


class Bay(NamedTuple):
    """What a course is held against, as `obstacles.Scene.question` tells it.

    A loop on all cores takes bundles but no bundle of bundles: it is handed these one by one.
    """

    bodies: "Bodies"
    tree: "Tree"
    off: Floats  # what is taken off each body's distance [m]
    slack: Floats  # the most of that in each node [m]
    live: "Flags"  # which bodies are looked at


class Hose(NamedTuple):
    """What a course keeps, and what it is weighed by."""

    radius: float  # least, of the centreline [m]
    keep: float  # half its diameter and a margin: so far off bodies it stays [m]
    step: float  # between points at which it is looked at [m]
    box: Floats  # low and high corner of what sticks out anyway [m]
    weights: Floats  # as `pairs.weights` has them


class Settings(NamedTuple):
    """One end of a hose, and the settings of its hose ends that are tried first."""

    live: "Flags"  # which bodies a hose end itself keeps off
    frame: Floats  # origin, out, right and up of the port
    shapes: Floats  # a row for each hose end (`_courses.set_row`)
    straight: float  # after the collar [m]
    rows: Floats  # a row for each setting (`_courses`)
    turns: Floats  # its elbow's place [rad]
    ok: "Flags"  # whether it stands clear
    first: Whole  # of each hose end its first setting; the last is how many there are


class Effort(NamedTuple):
    """How much is tried for one pair of hose ends."""

    tried: int  # courses that are asked whether they are clear
    kept: int  # courses that are turned downhill
    slack: float  # so many radii dearer than the best, with `more`, a course is turned no more
    more: float  # [m]
    finished: int  # of those turned downhill roughly, so many of the best are turned on
