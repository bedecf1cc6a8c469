# SPDX-License-Identifier: Apache-2.0
"""One card a laid hose: all of its course that is needed at the bench, on half a page."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import degrees

from linewright.base.ids import natural_key
from linewright.base.telling import told
from linewright.base.vectors import Vector
from linewright.car.model import Line
from linewright.plan.model import Plan
from linewright.routes.model import Run
from linewright.routes.route import Route
from linewright.routes.search import TOLD
from linewright.routes.shapes import BENT
from linewright.sheets import spatial as says
from linewright.sheets.figures import figure_length, length
from linewright.space.path import Path, Straight, elements, sample_lines
from linewright.space.ports import port_frame

#: How finely a course is walked to find how far along it a place is. [m]
_STEP = 0.002

#: Pairs of hose ends that a card lists; the others stand in ``linewright route``.
_MOST_PAIRS = 6


@dataclass(frozen=True, slots=True)
class CourseCard:
    """The card of one hose: ``rows`` of what and how, the ``bends`` and the ``band`` as tables.

    ``clock_deg`` is None where an end is straight; ``system`` is the id of its system.
    """

    id: str
    title: str
    system: str
    clock_deg: float | None
    rows: tuple[tuple[str, str], ...]
    bends: tuple[tuple[str, ...], ...]
    band: tuple[tuple[str, ...], ...]
    band_note: str


#: Heads of the two small tables.
BEND_HEADS = ("", "Straight", "Bend", "Radius", "Turned")
BAND_HEADS = ("", "A", "B", "Assembly", "Height", "Bends", "Price", "Cost", "Sure")


def along(path: Path, places: Sequence[Vector]) -> tuple[float, ...]:
    """How far along a course the nearest point to each place is, from collar A.

    Parameters
    ----------
    path : Path
        The centreline.
    places : Sequence of Vector
        Places on it or beside it. [m]

    Returns
    -------
    tuple of float
        Distances along the centreline. [m]

    Examples
    --------
    >>> bend = Path(((0, 0, 0), (0.3, 0, 0), (0.3, 0.3, 0)), (0.1,))
    >>> [round(far, 2) for far in along(bend, [(0.1, 0, 0), (0.3, 0.25, 0)])]
    [0.1, 0.51]
    """
    points, runs = sample_lines(path, _STEP)
    found = []
    for place in places:
        apart = ((points - place) ** 2).sum(axis=1)
        found.append(float(runs[apart.argmin()]))
    return tuple(found)


def bend_rows(route: Route, show: str) -> tuple[tuple[str, ...], ...]:
    """Straights and bends of a course as a table, from collar A.

    Parameters
    ----------
    route : Route
        The course.
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    tuple of tuple of str
        Number, straight before the bend, angle, radius of the middle, turn against the bend
        before; last the straight that is left.
    """
    rows = [
        (
            str(number),
            length(bend.straight, show),
            f"{degrees(bend.angle):.0f}°",
            length(bend.radius, show),
            f"{degrees(bend.rotation):+.0f}°" if number > 1 else "–",
        )
        for number, bend in enumerate(says.whole_bends(route.path), 1)
    ]
    last = elements(route.path)[-1]
    left = last.length if isinstance(last, Straight) else 0.0
    return (*rows, ("", length(left, show), "–", "–", "–"))


def _ends(plan: Plan, run: Run | None, line: Line, route: Route) -> list[tuple[str, str]]:
    car, show = plan.car, plan.car.show
    end = "tube end" if line.construction in BENT else "hose end"
    ports = (line.from_port, line.to_port) if run is None else (run.ends[0].port, run.ends[1].port)
    rows = []
    for name, port, setting in zip("AB", ports, (route.a, route.b), strict=True):
        frame = port_frame(car, port)
        if frame is not None:
            rows.append((f"End {name}", says.end_lines(port, frame, setting, show, end)))
            continue
        # A piece of a line ends at a wall on one side, where no port is typed.
        place = says.place_words(setting.collar, show)
        words = f"{says.angle_words(setting)} hose end at {port}, its collar at {place}"
        rows.append((f"End {name}", words))
    return rows


def _rows(plan: Plan, line: Line, run: Run | None, route: Route) -> list[tuple[str, str]]:
    show = plan.car.show
    rows = _ends(plan, run, line, route)
    made = f"{length(route.length, show)} from collar to collar along its middle, without slack"
    if line.construction in BENT:
        made = f"{length(route.length, show)} from end to end along its middle"
    if run is not None and run.cut is not None:
        made += f"; cut it to {figure_length(run.cut, show, run.tier)}"
    elif run is not None and run.cut_note:
        made += f"; {run.cut_note}"
    rows.append(("Tube" if line.construction in BENT else "Hose", made))
    rows.append(("Clock angle", says.clock_words(route)))
    near = route.clearance
    if near is None:
        rows.append(("Tightest", f"nothing within {length(TOLD, show)}"))
    else:
        far = length(along(route.path, [near.at])[0], show)
        rows.append(
            (
                "Tightest",
                f"{length(near.gap, show)} to {near.from_what}, {far} from collar A, "
                f"at {says.place_words(near.at, show)}",
            )
        )
    if route.clips:
        stops = ", ".join(length(far, show) for far in sorted(along(route.path, route.clips)))
        rows.append(("Clips", f"at {stops} from collar A"))
    for panel, at in route.holes:
        rows.append(("Hole", f"in {panel} at {says.place_words(at, show)}"))
    for what, points in (("High point", route.highs), ("Low point", route.lows)):
        if points:
            rows.append((what, "; ".join(says.place_words(p, show) for p in points)))
    if route.follows:
        rows.append(("Follows", ", ".join(route.follows)))
    if route.sureness is not None:
        sure = f"{says.sure_words(route.sureness)} of the places that the ports may have"
        cure = f": {told(route.to_be_sure, show)}" if route.to_be_sure else ""
        rows.append(("Sure", sure + cure))
    return rows


def course_cards(plan: Plan) -> tuple[CourseCard, ...]:
    """Write the card of each hose that is laid in space.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    tuple of CourseCard
        In the order of their ids.
    """
    runs = {run.id: run for run in plan.routes.runs}
    cards = []
    for route in sorted(plan.routes.courses, key=lambda r: natural_key(r.id)):
        run = runs.get(route.id)
        line = plan.car.lines.get(run.line if run is not None else route.id)
        if line is None:
            continue
        show = plan.car.show
        chosen = (route.a.shape.angle, route.b.shape.angle)
        every = says.band_rows(route.band, chosen, show)
        first = [row for row in every if row[0] == "●"]
        band = (*first, *[r for r in every if r[0] != "●"][: _MOST_PAIRS - len(first)])
        tried, works = len(route.band), len(every)
        note = (
            f"{works} of {tried} pairs of hose ends work"
            if works != 1
            else (f"1 of {tried} pairs of hose ends works")
        )
        if len(band) < works:
            note += f"; the first {len(band)} are here, the chosen first"
        size, hose = (run.size, run.hose) if run is not None else (line.size, line.hose)
        cards.append(
            CourseCard(
                route.id,
                f"{line.from_port} to {line.to_port}, {size} {hose}".rstrip(", "),
                line.system or "",
                route.clock_deg,
                tuple(_rows(plan, line, run, route)),
                bend_rows(route, show),
                band if tried > 1 else (),
                f"{note}." if tried > 1 else "",
            )
        )
    return tuple(cards)
