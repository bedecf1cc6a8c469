# SPDX-License-Identifier: Apache-2.0
"""The card of one piece of hose, tube or pipe: what is needed to make it, on a sixth of a page."""

from dataclasses import dataclass
from math import degrees, radians

from linewright.base.ids import natural_key
from linewright.base.telling import told
from linewright.car.model import Tier
from linewright.joints.model import Termination
from linewright.plan.model import Plan
from linewright.routes.model import Run
from linewright.routes.route import Route
from linewright.routes.search import TOLD
from linewright.routes.shapes import BENT
from linewright.sheets import spatial as says
from linewright.sheets.courses import along
from linewright.sheets.figures import figure_length, length
from linewright.sheets.lists import end_words
from linewright.space.model import Setting
from linewright.space.path import Straight, elements
from linewright.takeoff.model import Cut

#: Boxes at the foot of a card, for a pencil.
TICKS = ("made", "tested", "fitted")


@dataclass(frozen=True, slots=True)
class HoseCard:
    """The card of one piece: ``cut`` is what the saw needs, ``rows`` of what and how the rest.

    ``clock_deg`` is None where an end is straight or no course is known; ``system`` is the id
    of its system.
    """

    id: str
    system: str
    hose: str
    cut: str
    clock_deg: float | None
    rows: tuple[tuple[str, str], ...]


#: A bend of less than this is none at the bench. [rad]
_NO_BEND = radians(1.0)


def _turned(rotation: float) -> float:
    """The same turn within half a turn to either side. [deg]"""
    return 180.0 - (180.0 - degrees(rotation)) % 360.0


def course_words(route: Route, show: str) -> str:
    """Tell a course in one line, from collar A: straights, and bends with radius and turn.

    Parameters
    ----------
    route : Route
        The course.
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    str
        As in "28, 23° at R66, 535, 128° at R66 turned -68°, 28 mm".
    """
    unit = " in" if show == "inch" else " mm"

    def bare(metres: float) -> str:
        return length(metres, show).removesuffix(unit)

    words: list[str] = []
    straight = rotation = 0.0
    for bend in says.whole_bends(route.path):
        straight += bend.straight
        rotation += bend.rotation
        if bend.angle < _NO_BEND:
            # Nothing that a hand could bend: its length goes to the straight, and its turn on.
            straight += bend.angle * bend.radius
            continue
        turned = f" turned {_turned(rotation):+.0f}°" if words else ""
        bent = f"{degrees(bend.angle):.0f}° at R{bare(bend.radius)}{turned}"
        words += [bare(straight), bent]
        straight = rotation = 0.0
    last = elements(route.path)[-1]
    words.append(bare(straight + (last.length if isinstance(last, Straight) else 0.0)))
    return ", ".join(words) + unit


def _end(plan: Plan, end: Termination, setting: Setting | None) -> str:
    words = f"{end.port}: {end_words(end, plan.car)}"
    if setting is None:
        return words
    hour = says.setting_hour(setting)
    return f"{words}; elbow at {hour} looking at the port" if hour else words


def _cut(plan: Plan, run: Run, cut: Cut | None) -> str:
    """What the saw needs, in as few words as say it."""
    show = plan.car.show
    if cut is None:
        return f"Length {figure_length(run.string, show, run.tier)}"
    if cut.cut is not None:
        whole = f"; {figure_length(cut.assembly, show, run.tier)} with its ends"
        return f"Cut {figure_length(cut.cut, show, run.tier)}{whole if cut.assembly else ''}"
    whole = figure_length(cut.assembly or run.buy or run.string, show, run.tier)
    return f"Cut in place, about {whole.removeprefix('about ')}" if whole != "–" else "Cut in place"


def _course(plan: Plan, run: Run, route: Route) -> list[tuple[str, str]]:
    show = plan.car.show
    is_bent = plan.car.lines[run.line].construction in BENT
    rows = []
    if route.clock_deg is not None:
        rows.append(("Clock", says.clock_words(route)))
    what = "Tube" if is_bent else "Course"
    middle = f"{length(route.length, show)} along its middle"
    rows.append((what, f"{middle}: {course_words(route, show)}"))
    near = route.clearance
    if near is None:
        rows.append(("Tightest", f"nothing within {length(TOLD, show)}"))
    else:
        far = length(along(route.path, [near.at])[0], show)
        rows.append(("Tightest", f"{length(near.gap, show)} to {near.from_what}, {far} from A"))
    if route.clips:
        stops = ", ".join(length(far, show) for far in sorted(along(route.path, route.clips)))
        rows.append(("Clips", f"at {stops} from A"))
    for panel, at in route.holes:
        rows.append(("Hole", f"in {panel} at {says.place_words(at, show)}"))
    heights = [
        f"{what} {'; '.join(says.place_words(p, show) for p in points)}"
        for what, points in (("highest", route.highs), ("lowest", route.lows))
        if points
    ]
    if heights:
        rows.append(("Height", ", ".join(heights)))
    if route.follows:
        rows.append(("Follows", ", ".join(route.follows)))
    if route.sureness is not None and route.to_be_sure:
        rows.append(("Sure", f"{says.sure_words(route.sureness)}: {told(route.to_be_sure, show)}"))
    return rows


def hose_cards(plan: Plan, system: str | None = None) -> tuple[HoseCard, ...]:
    """Write the card of each piece to make, with a course or without.

    Parameters
    ----------
    plan : Plan
        The plan.
    system : str or None
        Pieces of this system alone, "" for those of none; None for all.

    Returns
    -------
    tuple of HoseCard
        In the order of their ids.
    """
    show = plan.car.show
    courses = {route.id: route for route in plan.routes.courses}
    cuts = {cut.run: cut for cut in plan.takeoff.cuts}
    cards = []
    for run in sorted(plan.routes.runs, key=lambda r: natural_key(r.id)):
        if system is not None and (run.system or "") != system:
            continue
        route, cut = courses.get(run.id), cuts.get(run.id)
        settings = (route.a, route.b) if route is not None else (None, None)
        rows = [
            (name, _end(plan, end, setting))
            for name, end, setting in zip("AB", run.ends, settings, strict=True)
        ]
        if cut is not None and cut.note:
            rows.append(("Cutting", told(cut.note, show)))
        if route is not None:
            rows += _course(plan, run, route)
        else:
            known = figure_length(run.string, show, run.tier)
            rows.append(("Length", f"{known}, by {run.by.value}"))
            if run.clips:
                every = length(run.clip_spacing, show)
                rows.append(("Clips", f"{run.clips}, one every {every} at most"))
        if run.tier is Tier.UNKNOWN:
            rows.append(("Open", "no length is known: hold a string along its way"))
        cards.append(
            HoseCard(
                run.id,
                run.system or "",
                f"{run.size} {run.hose}".strip(),
                _cut(plan, run, cut),
                None if route is None else route.clock_deg,
                tuple(rows),
            )
        )
    return tuple(cards)
