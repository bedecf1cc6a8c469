# SPDX-License-Identifier: Apache-2.0
"""Lines in space on paper: the table of courses, and one course told in words."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import degrees

from linewright.base.ids import natural_key
from linewright.base.telling import told
from linewright.base.vectors import Vector
from linewright.car.model import Car, Line
from linewright.routes.route import BandRow, Route
from linewright.routes.search import TOLD
from linewright.sheets.figures import length
from linewright.sheets.table import Align, Column, Table
from linewright.space.clock import far_elbow, said
from linewright.space.model import Frame, Setting
from linewright.space.path import Path, Straight, bends, elements

_RIGHT = Align.RIGHT

#: Under this, a straight is none and two planes are one. [m], [rad]
_ONE = 1e-6


def angle_words(setting: Setting) -> str:
    """Say which hose end stands at an end.

    Parameters
    ----------
    setting : Setting
        The end as it stands.

    Returns
    -------
    str
        ``straight``, or the angle.
    """
    return f"{setting.shape.angle}°" if setting.shape.angle else "straight"


def setting_hour(setting: Setting) -> str:
    """Where on its port an elbow points, as on a clock face looking at the port.

    Parameters
    ----------
    setting : Setting
        The end as it stands.

    Returns
    -------
    str
        To half an hour; twelve is up, or forward on a port that itself looks up or down. ""
        for a straight end.

    Examples
    --------
    A turn is right-handed about the way the port points, so against the clock for who looks
    at the port:

    >>> from math import pi
    >>> from linewright.space.model import EndShape
    >>> bent = EndShape(90, 0.05, 0.03)
    >>> setting_hour(Setting(bent, pi / 2, (0, 0, 0), (1, 0, 0), (0, 0, 1)))
    '9:00'
    """
    if not setting.shape.angle:
        return ""
    halves = round(-degrees(setting.turn) / 15.0) % 24
    return f"{halves // 2 or 12}:{'30' if halves % 2 else '00'}"


def clock_short(route: Route) -> str:
    """Clock angle for a table: the number, and where the far elbow stands.

    Parameters
    ----------
    route : Route
        The course.

    Returns
    -------
    str
        A dash where an end is straight.
    """
    if route.clock_deg is None:
        return "–"
    return f"{round(route.clock_deg) % 360}° ({far_elbow(route.clock_deg)})"


def sure_words(share: float | None) -> str:
    """Say how many of the places that the ports may have a pair of ends survives.

    Parameters
    ----------
    share : float or None
        The share. [-]

    Returns
    -------
    str
        Percent, or a dash where it was not reckoned.
    """
    return "–" if share is None else f"{round(100 * share)} %"


def space_table(car: Car, routes: Iterable[Route]) -> Table:
    """List the courses of all hoses.

    Parameters
    ----------
    car : Car
        The car.
    routes : iterable of Route
        Courses of its hoses.

    Returns
    -------
    Table
        One row a hose: ends, clock angle, developed length, least clearance, bends, sureness.
    """
    show = car.show
    rows = []
    for route in sorted(routes, key=lambda r: natural_key(r.id)):
        near = route.clearance
        rows.append(
            (
                route.id,
                angle_words(route.a),
                setting_hour(route.a) or "–",
                angle_words(route.b),
                setting_hour(route.b) or "–",
                clock_short(route),
                length(route.length, show),
                f"{length(near.gap, show)} to {near.from_what}"
                if near
                else f"over {length(TOLD, show)}",
                str(len(whole_bends(route.path))),
                sure_words(route.sureness),
                told(route.to_be_sure, show),
            )
        )
    return Table(
        "space",
        "Lines in space",
        (
            Column("Line", 0.5),
            Column("End A", 0.6),
            Column("Elbow A", 0.6, _RIGHT),
            Column("End B", 0.6),
            Column("Elbow B", 0.6, _RIGHT),
            Column("Clock angle", 0.9, _RIGHT),
            Column("Hose", 0.8, _RIGHT),
            Column("Least clearance", 1.8),
            Column("Bends", 0.4, _RIGHT),
            Column("Sure", 0.5, _RIGHT),
            Column("To be sure", 2.2),
        ),
        tuple(rows),
        note="Clock angle: lay the hose straight, near elbow (A) at six o'clock, look along it "
        "from A and count counter-clockwise to the far elbow; counted clockwise it is the mirror "
        "hose, which does not fit. Elbow: where it points on its port, looking at the port, "
        "twelve up. Hose: along its middle from collar to collar, without slack. Sure: share of "
        "the places within measuring error for which these ends still work.",
        empty="No line has both its ends in space yet: give ports a place (at) and a "
        "direction (points).",
        is_wide=True,
    )


def place_words(point: Vector, show: str) -> str:
    """Say where a point of the car is.

    Parameters
    ----------
    point : Vector
        The point. [m]
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    str
        Its three axes.

    Examples
    --------
    >>> place_words((1.2, -0.41, 0.38), "metric")
    'x 1,200, y -410, z 380 mm'
    """
    if show == "inch":
        x, y, z = (f"{v / 0.0254:.1f}" for v in point)
        return f"x {x}, y {y}, z {z} in"
    x, y, z = (f"{round(v * 1000):,}" for v in point)
    return f"x {x}, y {y}, z {z} mm"


_WAYS = (
    ("rearward", "forward"),
    ("right", "left"),
    ("up", "down"),
)


def way_words(out: Vector) -> str:
    """Say which way an arrow points.

    Parameters
    ----------
    out : Vector
        Unit.

    Returns
    -------
    str
        The nearest way of the car, and how far it leans to the next.

    Examples
    --------
    >>> way_words((-1.0, 0.0, 0.0)), way_words((-0.9397, 0.0, 0.3420))
    ('forward', 'forward, 20° up')
    """
    from math import atan2

    order = sorted(range(3), key=lambda k: -abs(out[k]))
    first, second = order[0], order[1]
    main = _WAYS[first][0 if out[first] > 0 else 1]
    lean = degrees(atan2(abs(out[second]), abs(out[first])))
    if lean < 0.5:
        return main
    return f"{main}, {lean:.0f}° {_WAYS[second][0 if out[second] > 0 else 1]}"


def end_lines(
    port: str, frame: Frame, setting: Setting | None, show: str, end: str = "hose end"
) -> str:
    """Tell one end of a hose: port, place, way, and what stands there.

    Parameters
    ----------
    port : str
        Id of the port.
    frame : Frame
        Where it is.
    setting : Setting or None
        What stands there, where it is chosen.
    show : str
        ``metric`` or ``inch``.
    end : str
        What an end is called: that of a tube or pipe is no hose end.

    Returns
    -------
    str
        One line.
    """
    tilt = f", ±{degrees(frame.tilt):.0f}°" if frame.tilt else ""
    spread = f" ±{length(frame.spread, show)}" if frame.spread else ""
    words = (
        f"{port} at {place_words(frame.origin, show)}{spread}, points "
        f"{way_words(frame.out)}{tilt} ({frame.placed.value})"
    )
    if setting is None:
        return words
    stands = angle_words(setting)
    hour = setting_hour(setting)
    if hour:
        stands += f" {end}, elbow at {hour} looking at the port"
    else:
        stands += f" {end}"
    if setting.shape.stick_out:
        stands += f", on {length(setting.shape.stick_out, show)} of adaptors"
    return f"{words}: {stands}"


@dataclass(frozen=True, slots=True)
class WholeBend:
    """A bend as a bender sees it: straight before it and radius [m], rotation, angle [rad]."""

    straight: float
    rotation: float
    angle: float
    radius: float


def whole_bends(path: Path) -> tuple[WholeBend, ...]:
    """Bends of a course; arcs that go on in one plane at one radius are one bend.

    Parameters
    ----------
    path : Path
        The centreline.

    Returns
    -------
    tuple of WholeBend
        In order from its start.

    Examples
    --------
    A half turn is two corners, since the corner of a half turn is nowhere:

    >>> from math import pi
    >>> half = Path(((0, 0, 0), (0.2, 0, 0), (0.2, 0.2, 0), (0, 0.2, 0)), (0.1, 0.1))
    >>> [round(bend.angle / pi, 6) for bend in whole_bends(half)]
    [1.0]
    """
    radii = [piece.radius for piece in elements(path) if not isinstance(piece, Straight)]
    found: list[WholeBend] = []
    for bend, radius in zip(bends(path), radii, strict=True):
        last = found[-1] if found else None
        if (
            last is not None
            and bend.straight < _ONE
            and abs(bend.rotation) < _ONE
            and abs(last.radius - radius) < _ONE
        ):
            found[-1] = replace(last, angle=last.angle + bend.angle)
        else:
            found.append(WholeBend(bend.straight, bend.rotation, bend.angle, radius))
    return tuple(found)


def bend_lines(route: Route, show: str) -> tuple[str, ...]:
    """Tell a course as straights and bends, from end A.

    Parameters
    ----------
    route : Route
        The course.
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    tuple of str
        One a bend, and the last straight.
    """
    rows = []
    for number, bend in enumerate(whole_bends(route.path), 1):
        turn = f", turned {degrees(bend.rotation):+.0f}°" if number > 1 else ""
        rows.append(
            f"{number}. {length(bend.straight, show)} straight, then {degrees(bend.angle):.0f}° at "
            f"{length(bend.radius, show)} radius{turn}"
        )
    last = elements(route.path)[-1]
    rows.append(f"{length(last.length if isinstance(last, Straight) else 0.0, show)} straight")
    return tuple(rows)


def band_rows(
    band: Sequence[BandRow], chosen: tuple[int, int] | None, show: str
) -> tuple[tuple[str, ...], ...]:
    """Every pair of hose ends that works, the cheapest first.

    Parameters
    ----------
    band : Sequence of BandRow
        What came of each pair that was tried.
    chosen : tuple of int or None
        Angles of the chosen pair. [deg]
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    tuple of tuple of str
        Mark, A, B, length with both ends, height, bends, price index, cost, sureness.
    """

    def key(row: BandRow) -> tuple[float, int, int]:
        return row.cost if row.cost is not None else float("inf"), row.angle_a, row.angle_b

    def shown(metres: float | None) -> str:
        return "" if metres is None else length(metres, show)

    return tuple(
        (
            "●" if chosen == (row.angle_a, row.angle_b) else "·",
            f"{row.angle_a}°",
            f"{row.angle_b}°",
            shown(row.length),
            shown(row.height),
            "" if row.bends is None else str(row.bends),
            f"{row.price_index:.1f}",
            "" if row.cost is None else f"{row.cost:.2f}",
            "" if row.sureness is None else sure_words(row.sureness),
        )
        for row in sorted((row for row in band if row.works), key=key)
    )


def why_not_lines(band: Sequence[BandRow]) -> tuple[tuple[str, str], ...]:
    """Why the other pairs do not work, the most frequent reason first.

    Parameters
    ----------
    band : Sequence of BandRow
        What came of each pair that was tried.

    Returns
    -------
    tuple of tuple of str
        Reason, and the pairs; all of one end are told once.
    """
    groups: dict[str, list[BandRow]] = {}
    for row in sorted(band, key=lambda r: (r.angle_a, r.angle_b)):
        if not row.works:
            groups.setdefault(row.why_not or "not told", []).append(row)
    order = sorted(groups.items(), key=lambda item: (-len(item[1]), item[0]))
    return tuple((why, _pairs(rows)) for why, rows in order)


def _pairs(rows: Sequence[BandRow]) -> str:
    by_a: dict[int, list[int]] = {}
    for row in rows:
        by_a.setdefault(row.angle_a, []).append(row.angle_b)
    return "; ".join(f"{a}° with {', '.join(f'{b}°' for b in bs)}" for a, bs in by_a.items())


def why_chosen(line: Line, route: Route) -> str:
    """Say why a pair of hose ends was taken.

    Parameters
    ----------
    line : Line
        The line.
    route : Route
        Its course, with the band of pairs.

    Returns
    -------
    str
        A sentence.
    """
    pair = f"{angle_words(route.a)} at A and {angle_words(route.b)} at B"
    works = [row for row in route.band if row.works]
    typed = [e.angle is not None for e in line.ends]
    if all(typed):
        return f"{pair}: both typed."
    said_one = " One of them is typed." if any(typed) else ""
    if len(works) < 2:
        return f"{pair}: the only pair that works of {len(route.band)} tried.{said_one}"
    others = [
        r for r in works if (r.angle_a, r.angle_b) != (route.a.shape.angle, route.b.shape.angle)
    ]
    cost = next((r.cost for r in works if r not in others), None)
    cheapest = min(
        (r for r in others if r.cost is not None), key=lambda r: r.cost or 0.0, default=None
    )
    best = None if cheapest is None else cheapest.cost
    words = (
        f"{pair}: of {len(works)} pairs that work the one that costs least, where standing out "
        "beyond the ports and their bodies goes first, then the price of the ends, bends and length"
    )
    if cost is not None and best is not None:
        if best < cost - 1e-9:
            # The search may take a dearer pair that survives more of the measuring error.
            return f"{pair}: {_survives(route, cheapest)}.{said_one}"
        words += f" ({cost:.2f} against {best:.2f} for the next)"
    return f"{words}.{said_one}"


def _survives(route: Route, cheapest: BandRow | None) -> str:
    words = "works for most places that the ports may have"
    if route.sureness is not None:
        words = f"works for {sure_words(route.sureness)} of the places that the ports may have"
    if cheapest is None or cheapest.sureness is None:
        return words
    return (
        f"{words}; {cheapest.angle_a}° with {cheapest.angle_b}° would cost less and works for "
        f"{sure_words(cheapest.sureness)}"
    )


def clock_words(route: Route) -> str:
    """Say the clock angle of a hose, and the value that is wrong.

    Parameters
    ----------
    route : Route
        The course.

    Returns
    -------
    str
        A sentence; says so where there is none.
    """
    if route.clock_deg is None:
        return "none: an end is straight, and turns to fit"
    return said(route.clock_deg)
