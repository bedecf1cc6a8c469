# SPDX-License-Identifier: Apache-2.0
"""How sure a pair of hose ends is while its ports are only known so well, and which is surest.

The places and directions of both ports are drawn within their spread, and each pair is asked
whether it still works there: with its elbows turned again and its hose cut to length, for that
is what a builder would do. A line that has to fall, rise or trap nothing has to in a draw too,
by a part of its limit, unless it does not as typed. A course that is led round something is
asked so half by half. A pair is chosen on one set of draws and its share counted on
another, since a share counted on draws that chose it would flatter it.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import degrees, inf, radians, sqrt
from typing import TYPE_CHECKING

from linewright.base.vectors import Vector, unit
from linewright.routes.courses import rounded
from linewright.routes.doubt import Doubt, Known, drawn, surer
from linewright.routes.gravity import STOP, eased, numbers
from linewright.routes.looks import nothing_seen
from linewright.routes.pairs import THROUGH, pose_side
from linewright.routes.route import BandRow, Route
from linewright.routes.search import lay_line
from linewright.routes.tasks import Outcome, Side, Task
from linewright.space.model import EndShape, Frame, Limits
from linewright.space.path import Path, length, point, sample_lines

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from linewright.space.nearest import Bodies, Tree

    Floats = NDArray[np.float64]
    Flags = NDArray[np.bool_]
    Whole = NDArray[np.int64]

#: Angles of the hose ends at A and B. [deg]
Pair = tuple[int, int]

#: How the grades of a place are reached.
_HOW = {"taped": "measure", "mocked-up": "mock up and measure"}

#: A second pair is worth its price from so much more of the share on. [-]
_WORTH = 0.05

#: What the kernel says of a draw in which a pair works.
_WORKS = 2

#: So many other places of the elbows are tried where those that were found do not work.
_TRIED = 3

#: Points at which a course is looked at are so far apart. [m]
_STEP = 0.012


@dataclass(frozen=True, slots=True)
class Cure:
    """What would make a pair surer: a measurement or a second pair, and the share then. [-]"""

    text: str
    share: float


def error(share: float, count: int) -> float:
    """One sigma of a share that was counted on so many draws.

    Parameters
    ----------
    share : float
        The share. [-]
    count : int
        How many draws. [-]

    Returns
    -------
    float
        Of a binomial count, with one failure and one success added, so that a share of all
        draws is not told without doubt. [-]

    Examples
    --------
    >>> round(error(0.9, 100), 3), round(error(1.0, 64), 3)
    (0.031, 0.015)
    """
    p = (share * count + 1.0) / (count + 2.0)
    return sqrt(p * (1.0 - p) / (count + 2.0))


class Trial:
    """One hose, to be asked in which draws its pairs work."""

    def __init__(self, task: Task, outcome: Outcome, doubt: Doubt) -> None:
        import numpy as np

        self.task, self.poses, self.doubt = task, outcome.poses, doubt
        self.ends = ends = _ends(task)
        bodies, tree, asked, slack, live = task.question
        touch = task.scene.question(leave=task.leave, bare=[o.id for o in task.scene.obstacles])[2]
        # In a draw a clearance may be used up in part: that is what it is for.
        off = touch + doubt.gap * (asked - touch)
        fixed, moving = live, []
        for carrier in dict.fromkeys((ends[0].carrier, ends[1].carrier)):
            own = {o.id for o in task.scene.obstacles if getattr(o, "component", "") == carrier}
            rest = task.scene.question(leave={*task.leave, *own})[4]
            moving.append(live & ~rest)
            fixed = fixed & rest
        if len(moving) == 1:
            moving.append(np.zeros_like(live))
        self.scene: tuple[Bodies, Tree, Floats, Floats] = (bodies, tree, off, slack)
        self.live: tuple[Flags, Flags, Flags] = (fixed, moving[0], moving[1])
        self._draws: dict[tuple[Known, int, int], Floats] = {}
        self._backs: dict[Pair, tuple[tuple[Floats, Floats], ...]] = {}
        self.rule = numbers(eased(task.gravity, doubt.gap) if outcome.cost < STOP else None)
        self.typed = np.concatenate([_still(ends[0]), _still(ends[1])])
        self.near = task.scene.question(leave=task.leave | task.a.own | task.b.own)[4]

    def works(self, row: BandRow, a: Known, b: Known, first: int, last: int) -> "Flags":
        """In which draws a pair works.

        Parameters
        ----------
        row : BandRow
            The pair, with the turns of its elbows for the ports as typed.
        a, b : Known
            Both ends, as they are known.
        first, last : int
            Which draws.

        Returns
        -------
        ndarray of bool
            One for each draw.
        """
        import numpy as np

        ends = [self._drawn(each, first, last) for each in (a, b)]
        shapes = _shape(self.task.a, row.angle_a), _shape(self.task.b, row.angle_b)
        straight = self.task.limits.straight
        found = np.zeros(last - first, dtype=np.int64)
        if not self.poses:
            typed = self.typed[:1], self.typed[1:]
            self._leg((ends[0], ends[1]), typed, shapes, (straight, straight), row.turns, found)
        works: Flags = found == _WORKS
        if works.all():
            return works
        moved = (ends[0][:, :3] - self.typed[0, :3] + ends[1][:, :3] - self.typed[1, :3]) / 2.0
        for near, far in self._ways(row):
            # Where the ends are too near for any course, a shorter one does not help.
            half = found.copy() if self.poses else np.where(found == 0, -1, found)
            for side, still in enumerate((near, far)):
                if side:
                    # What the first half cannot do the second need not.
                    half = np.where(half == _WORKS, found, -1)
                there = np.repeat(still, len(found), axis=0)
                there[:, :3] += moved
                self._leg(
                    (there, ends[1]) if side else (ends[0], there),
                    (there[:1], self.typed[1:]) if side else (self.typed[:1], there[:1]),
                    (THROUGH, shapes[1]) if side else (shapes[0], THROUGH),
                    (0.0, straight) if side else (straight, 0.0),
                    (0.0, row.turns[1]) if side else (row.turns[0], 0.0),
                    half,
                )
            found[half == _WORKS] = _WORKS
        return np.asarray(found == _WORKS)

    def _drawn(self, known: Known, first: int, last: int) -> "Floats":
        """Draws of one end; they are the same for each pair."""
        key = (known, first, last)
        if key not in self._draws:
            self._draws[key] = drawn(known, self.doubt.seed, first, last)
        return self._draws[key]

    def _ways(self, row: BandRow) -> "tuple[tuple[Floats, Floats], ...]":
        """Frames up to where either end may turn a course aside, as an end of each half."""
        pair = _pair(row)
        if pair not in self._backs:
            path = self._course(row)
            shares: list[tuple[float, float]] = []
            if path is not None:
                if self.poses:
                    on = [_share(path, self.poses[k][0]) for k in (0, -1)]
                    shares.append((on[0], on[1]))
                if len(self.poses) < 2:
                    shares.append((0.5, 0.5))
            self._backs[pair] = tuple(
                (_there(path, near, -1.0), _there(path, far, 1.0)) for near, far in shares if path
            )
        return self._backs[pair]

    def _course(self, row: BandRow) -> Path | None:
        """The course of a pair for the ports as typed."""
        task = self.task
        rows = []
        for side, angle, turn in (
            (task.a, row.angle_a, row.turns[0]),
            (task.b, row.angle_b, row.turns[1]),
        ):
            rows.append(setting_row(side.frame, _shape(side, angle), task.limits, turn))
        return rounded(rows[0], self.poses, rows[1], task.limits)

    def _leg(
        self,
        ends: "Sequence[Floats]",
        typed: "tuple[Floats, Floats]",
        shapes: tuple[EndShape, EndShape],
        leads: tuple[float, float],
        turns: tuple[float, float],
        states: "Whole",
    ) -> None:
        """Note in which draws a course from one end to another works that did not yet."""
        import numpy as np

        from linewright.routes import _survival

        limits = self.task.limits
        seen = nothing_seen()
        _survival.survives(
            *self.scene,
            *self.live,
            self.near,
            ends[0],
            ends[1],
            np.concatenate(typed),
            _shape_row(shapes[0], leads[0], limits),
            _shape_row(shapes[1], leads[1], limits),
            np.array(leads),
            np.array(turns),
            limits.bend_radius,
            limits.outside / 2.0,
            _STEP,
            _TRIED,
            self.rule,
            seen,
            states,
        )
        if self.task.looks is not None:
            self.task.looks.note_draws(ends, shapes, leads, seen, limits.outside / 2.0)


def _there(path: Path, share: float, way: float) -> "Floats":
    """A place on a course, such a share along it, as the end of the hose up to it or from it."""
    on = length(path) * share
    at, ahead_ = point(path, on), point(path, on + 1e-4)
    along = unit((ahead_[0] - at[0], ahead_[1] - at[1], ahead_[2] - at[2]))
    return _still(Known("", pose_side((at, along), way).frame))


def _share(path: Path, at: Vector) -> float:
    """How far along a course it is nearest to a point, as a share of its length."""
    import numpy as np

    points, on = sample_lines(path, _STEP / 4.0)
    nearest = int(np.argmin(np.sum((points - np.array(at)) ** 2, axis=1)))
    return float(on[nearest] / on[-1])


def _still(known: Known) -> "Floats":
    """An end as typed."""
    return drawn(replace(known, frame=replace(known.frame, spread=0.0, tilt=0.0)), 0, 0, 1)


def _shape_row(shape: EndShape, lead: float, limits: Limits) -> "Floats":
    """A hose end as the kernels know it (`_courses.set_row`), at no cost."""
    import numpy as np

    rim = min(lead, limits.outside / 2.0)
    return np.array([radians(shape.angle), shape.reach, shape.drop, shape.stick_out, 0.0, rim])


def setting_row(frame: Frame, shape: EndShape, limits: Limits, turn: float) -> "Floats":
    """One setting of a hose end as the kernels know it.

    Parameters
    ----------
    frame : Frame
        The port.
    shape : EndShape
        The hose end.
    limits : Limits
        What the hose keeps.
    turn : float
        The elbow's place on its port. [rad]

    Returns
    -------
    ndarray
        The row (`_courses`).
    """
    import numpy as np

    from linewright.routes import _courses

    row = np.zeros(_courses.WIDE)
    still = _still(Known("", frame))[0]
    _courses.set_row(still, _shape_row(shape, limits.straight, limits), limits.straight, turn, row)
    return row


def _shape(side: Side, angle: int) -> EndShape:
    return next(shape for shape in side.shapes if shape.angle == angle)


def surest(task: Task, outcome: Outcome, doubt: Doubt) -> Outcome:
    """Take the pair of hose ends that survives most, and say how sure it is.

    Parameters
    ----------
    task : Task
        What was asked of the search.
    outcome : Outcome
        What came of it.
    doubt : Doubt
        How often both ends are drawn, and what is sure enough.

    Returns
    -------
    Outcome
        With the shares of the pairs that were drawn. Another pair is taken where the one found
        is shown to be not sure enough and the other's share is notably higher; of those that
        draws cannot tell apart the cheapest. Where nothing works it stays as it is.
    """
    route = outcome.route
    if route is None:
        return outcome
    own = (route.a.shape.angle, route.b.shape.angle)
    rows = [row for row in outcome.band if row.works and _may(task, row)]
    first = [row for row in rows if _pair(row) == own]
    if not first:
        return outcome
    rest = sorted((r for r in rows if _pair(r) != own), key=_dear)
    asked = [*first, *rest[: doubt.pairs - 1]]
    ends = _ends(task)
    if not any(each.frame.spread or each.frame.tilt for each in ends):
        return _told(outcome, {own: 1.0}, "", 0, doubt.seed)
    trial = Trial(task, outcome, doubt)
    n = doubt.draws
    pick = _chosen(trial, asked, ends)
    counted = {_pair(row): trial.works(row, *ends, n, 2 * n) for row in asked if row is not pick}
    if pick is not first[0]:
        other = lay_line(_with(task, pick))
        if other.route is None or other.cost >= STOP > outcome.cost:
            counted.pop(_pair(pick), None)
            pick = first[0]
        else:
            pick = next(row for row in other.band if row.works)
            # The other pairs stand in the band as they were found.
            route = replace(other.route, band=outcome.band)
            outcome = replace(other, route=route, band=outcome.band)
            trial = Trial(task, outcome, doubt)
    counted[_pair(pick)] = trial.works(pick, *ends, n, 2 * n)
    shares = {pair: float(each.mean()) for pair, each in counted.items()}
    told = ""
    if shares[_pair(pick)] < doubt.enough:
        cures = [*_measured(trial, pick, ends), *_both(_pair(pick), counted)]
        told = "; or ".join(_words(cure, doubt.enough) for cure in cures)
    return _told(outcome, shares, told, n, doubt.seed)


def _ends(task: Task) -> tuple[Known, Known]:
    """Both ends as they are known; one without a name goes by the hose and its side."""
    a, b = (
        Known(side.port or f"{task.id}.{end}", side.frame)
        for side, end in ((task.a, "A"), (task.b, "B"))
    )
    return a, b


def _with(task: Task, row: BandRow) -> Task:
    """The same hose with one pair of hose ends."""
    a, b = (
        replace(side, shapes=(_shape(side, angle),), angle=None)
        for side, angle in zip((task.a, task.b), _pair(row), strict=True)
    )
    return replace(task, a=a, b=b)


def _pair(row: BandRow) -> Pair:
    return row.angle_a, row.angle_b


def _dear(row: BandRow) -> tuple[float, int, int]:
    return (inf if row.cost is None else row.cost), row.angle_a, row.angle_b


def _may(task: Task, row: BandRow) -> bool:
    """Whether the builder left a pair open."""
    return task.a.angle in (None, row.angle_a) and task.b.angle in (None, row.angle_b)


def _chosen(trial: Trial, asked: Sequence[BandRow], ends: tuple[Known, Known]) -> BandRow:
    """The own pair, which stands first, or a notably surer one."""
    doubt = trial.doubt
    n = doubt.draws
    if len(asked) == 1:
        return asked[0]
    own = trial.works(asked[0], *ends, 0, n).mean()
    # What is not shown to be unsure stays: the dearer pair would be paid for a chance of draws.
    if own + 2.0 * error(float(own), n) >= doubt.enough:
        return asked[0]
    shares = [own, *(trial.works(row, *ends, 0, n).mean() for row in asked[1:])]
    best = max(shares)
    if best <= own + doubt.margin:
        return asked[0]
    # Common draws tell pairs apart better than so, but not more than twice this is sure.
    near = best - min(doubt.margin / 2.0, 2.0 * error(float(best), n))
    return min((row for row, share in zip(asked, shares, strict=True) if share >= near), key=_dear)


def _words(cure: Cure, enough: float) -> str:
    """A cure with the share that comes of it; one that is not enough says so."""
    if cure.share >= enough:
        return f"{cure.text} (then {cure.share:.0%})"
    return f"{cure.text}, though it is no more than {cure.share:.0%} then"


def _measured(trial: Trial, pick: BandRow, ends: tuple[Known, Known]) -> list[Cure]:
    """The easiest measurement that makes a pair sure; else the best that there is."""
    doubt = trial.doubt
    n = doubt.draws

    def share(a: Known, b: Known) -> float:
        return float(trial.works(pick, a, b, n, 2 * n).mean())

    best = Cure("", share(*ends))
    for name, spread, tilt in doubt.grades:
        both = (surer(ends[0], spread, tilt), surer(ends[1], spread, tilt))
        if both == ends:
            continue
        how = _HOW.get(name, "fix and measure")
        exact = f"{spread * 1e3:.0f} mm and {degrees(tilt):.0f}°"
        whole = Cure(f"{how} both ports to {exact}", share(*both))
        if whole.share < doubt.enough:
            # One measurement alone does no better than all of them.
            if whole.share > best.share:
                best = whole
            continue
        alone = [
            Cure(f"{how} {what}", share(*((ends[0], better) if side else (better, ends[1]))))
            for side, known in enumerate(ends)
            for what, better in (
                (f"the direction of {known.port} to {degrees(tilt):.0f}°", surer(known, tilt=tilt)),
                (f"the place of {known.port} to {spread * 1e3:.0f} mm", surer(known, spread)),
            )
            if better != known
        ]
        best = max(alone, key=lambda cure: cure.share)
        if best.share < doubt.enough:
            best = whole
        break
    return [best] if best.text else []


def _both(own: Pair, counted: "dict[Pair, Flags]") -> list[Cure]:
    """The second pair that covers most of what the first does not, if that is worth its price."""
    covers = [
        (float((counted[own] | each).mean()), pair) for pair, each in counted.items() if pair != own
    ]
    if not covers:
        return []
    share, other = min(covers, key=lambda each: (-each[0], each[1]))
    if share < float(counted[own].mean()) + _WORTH:
        return []
    return [Cure(f"order both {said(own)} and {said(other)}", share)]


def _told(
    outcome: Outcome, shares: dict[Pair, float], to_be_sure: str, draws: int, seed: int
) -> Outcome:
    route = outcome.route
    assert route is not None
    band = tuple(replace(row, sureness=shares.get(_pair(row))) for row in outcome.band)
    own = shares[route.a.shape.angle, route.b.shape.angle]
    made: Route = replace(
        route, band=band, sureness=own, to_be_sure=to_be_sure, draws=draws, seed=seed
    )
    return replace(outcome, route=made, band=band)


def said(pair: Pair) -> str:
    """A pair of hose ends in words.

    Parameters
    ----------
    pair : tuple of int
        Angles at A and B. [deg]

    Returns
    -------
    str
        As builders say it.

    Examples
    --------
    >>> said((0, 90))
    'straight/90°'
    """
    return "/".join("straight" if angle == 0 else f"{angle}°" for angle in pair)
