# SPDX-License-Identifier: Apache-2.0
"""What the routes stage hands on: one run for each piece of hose."""

from dataclasses import dataclass
from enum import StrEnum

from linewright.base.evidence import Figure
from linewright.base.finding import Finding
from linewright.car.model import Tier
from linewright.joints.model import Termination
from linewright.routes.route import Route


class By(StrEnum):
    """What the length of a piece was taken from, best known first."""

    MOCKED_UP = "mocked-up"
    STRING = "string"
    COURSE = "course"
    STRAIGHT = "straight"
    GUESS = "guess"
    NOTHING = "nothing"


@dataclass(frozen=True, slots=True)
class Run:
    """One piece of hose, tube or pipe (a line, or a part of it between panels).

    Lengths in m: ``string`` port face to port face; ``buy`` what to reckon for the order
    (nothing taken off); ``assembly`` laid straight with slack; ``cut`` None where the
    take-up is not known ("cut in place"), then ``cut_note`` says why. ``straight`` is the
    straight distance between the ports where both are placed. ``string`` is what all else is
    reckoned from, and ``by`` says what it is; ``course`` is the same path as laid in space, also
    where a length that is better known goes before it.
    """

    id: str
    line: str
    system: str | None
    ends: tuple[Termination, Termination]
    size: str
    hose: str
    tier: Tier
    string: Figure | None
    straight: Figure | None
    buy: Figure | None
    assembly: Figure | None
    cut: Figure | None
    cut_note: str
    slack: float
    crosses: bool
    clips: int
    clip_spacing: float
    by: By = By.NOTHING
    course: Figure | None = None


@dataclass(frozen=True, slots=True)
class Routes:
    """All runs, in the order of their ids; ``courses`` of those that are laid in space."""

    runs: tuple[Run, ...]
    findings: tuple[Finding, ...] = ()
    courses: tuple[Route, ...] = ()
