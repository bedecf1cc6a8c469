# SPDX-License-Identifier: Apache-2.0
"""What is remembered of the search of each hose, and whether it would find the same now."""

from collections.abc import Iterable, Mapping, MutableMapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from linewright.base.finding import Finding
from linewright.routes.looks import Looks
from linewright.routes.pairs import MARGIN
from linewright.routes.route import Clearance
from linewright.routes.tasks import Outcome, Task
from linewright.space.path import Path, sample_lines

if TYPE_CHECKING:
    from linewright.space.outlines import Obstacle

#: Gaps wider than this are not told. [m]
TOLD = 0.2

#: A course that comes nearer than this to what it has to keep is not taken. [m]
_LEAST = 5e-4


@dataclass(frozen=True, slots=True)
class Kept:
    """What the search of a hose was asked, among which bodies, what came of it, what it saw."""

    key: object
    among: "tuple[Obstacle, ...]"
    outcome: Outcome | Finding
    looks: Looks | None = None


#: What the search remembers between plans, by hose. It changes no answer: a hose is laid again
#: where its ends or a body that it looked at changed.
Memo = MutableMapping[str, Kept]


def again(
    kept: Kept | None, key: object, task: Task, moves: Mapping[str, float], parts: Iterable[str]
) -> tuple[Kept, Outcome] | None:
    """What was found before, if it is what the search would find now.

    Parameters
    ----------
    kept : Kept or None
        What is remembered of the hose.
    key : object
        What the search depends on beside bodies.
    task : Task
        What is asked.
    moves : mapping of str to float
        How far bodies come nearer, by what they ride on. [m]
    parts : iterable of str
        Components at both ends: their bodies move with the ports that are drawn.

    Returns
    -------
    tuple of Kept and Outcome, or None
        What to remember and the outcome; None where the hose has to be searched.
    """
    if kept is None or kept.key != key or not isinstance(kept.outcome, Outcome):
        return None
    now, then, looks = task.scene.obstacles, kept.among, kept.looks
    if now == then:
        return kept, kept.outcome
    route = kept.outcome.route
    if looks is None or looks.everywhere or route is None or not now or not then:
        return None
    own = set(parts)
    for each in _changed(now, then):
        if getattr(each, "component", "") in own or looks.meet(each, moves.get(each.rides, 0.0)):
            return None
    # Only how near it comes to what it did not look at may have changed.
    nearest = keeps(task, route.path)
    if isinstance(nearest, str):
        return None
    outcome = kept.outcome
    if nearest != route.clearance:
        outcome = replace(outcome, route=replace(route, clearance=nearest))
    return Kept(key, now, outcome, looks), outcome


def looks_again(
    kept: Kept | None, key: object, task: Task, moves: Mapping[str, float], parts: Iterable[str]
) -> Looks:
    """What notes a new search: with what the last one brought of pairs that it may still hold for.

    Parameters
    ----------
    kept : Kept or None
        What is remembered of the hose.
    key, task, moves, parts
        As for `again`.

    Returns
    -------
    Looks
        Without anything known where ends or bodies at them changed.
    """
    now, own = task.scene.obstacles, set(parts)
    if kept is None or kept.key != key or kept.looks is None or not now or not kept.among:
        return Looks()
    changed = list(_changed(now, kept.among))
    if any(getattr(each, "component", "") in own for each in changed):
        return Looks()
    return Looks(kept.looks.pairs, [(each, moves.get(each.rides, 0.0)) for each in changed])


def _changed(now: "tuple[Obstacle, ...]", then: "tuple[Obstacle, ...]") -> "Iterable[Obstacle]":
    """Bodies that are only on one side."""
    sides: list[dict[str, list[Obstacle]]] = [{}, {}]
    for by_id, side in zip(sides, (now, then), strict=True):
        for each in side:
            by_id.setdefault(each.id, []).append(each)
    for name in {**sides[0], **sides[1]}:
        here, there = sides[0].get(name, []), sides[1].get(name, [])
        if here != there:
            yield from (*here, *there)


def keeps(task: Task, path: Path) -> Clearance | str | None:
    """The last check of a course: what it comes nearest to.

    Parameters
    ----------
    task : Task
        The hose.
    path : Path
        Its course.

    Returns
    -------
    Clearance, str or None
        The tightest place, None where that is far off; a word where something is in the way.
    """
    limits = task.limits
    points, on = sample_lines(path, 0.005)
    rim = min(limits.straight, limits.outside / 2.0) + 1.1 * MARGIN
    seen = points[(on >= rim - 1e-9) & (on <= on[-1] - rim + 1e-9)]
    gap = task.scene.least_along(
        seen, limits.outside / 2.0, asked=True, leave=task.leave, bare=task.bare
    )
    if task.looks is not None and gap.gap < 2.0 * _LEAST:
        # What is told may be so much too great, by what else there is: ask again with all.
        task.looks.everywhere = True
    if gap.body and gap.gap < _LEAST:
        return f"comes too near {gap.body}"
    # Its own bodies are near by their nature: what else is?
    own = task.leave | task.a.own | task.b.own
    near = task.scene.least_along(seen, limits.outside / 2.0, leave=own)
    return Clearance(near.gap, near.body, near.at) if near.gap < TOLD else None
