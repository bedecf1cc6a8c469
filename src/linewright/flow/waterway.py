# SPDX-License-Identifier: Apache-2.0
"""The way of a fluid through a piece of hose: every stretch with its true bore, port to port.

The bore of a line is not its hose's: the fluid passes the port, adaptors, the nipple of the
hose end, the hose, and all that again at the other side.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from linewright.base.errors import CatalogueError
from linewright.base.evidence import Figure, Grade
from linewright.car.model import Car, Construction, Line
from linewright.catalogue.figures import bore_of, nipples
from linewright.catalogue.part import Part
from linewright.joints.model import Termination
from linewright.routes.model import Run
from linewright.routes.route import Route
from linewright.space.path import Arc, elements
from linewright.tables import hoses

#: Parts that have a bore of their own which is meant: a jet, a screen, a valve.
_ON_PURPOSE = ("jet", "screen", "check valve")


@dataclass(frozen=True, slots=True)
class Stretch:
    """One stretch of a way, with the bore that the fluid sees there.

    ``what`` is port, adaptor, elbow, hose end, banjo, jet, screen, check valve or hose;
    ``where`` the ids that it belongs to, ``angle`` its change of direction [deg]. Of a hose
    ``bores`` are all that the data have for its size, and ``arcs`` its bends as (length along
    the centreline, radius) [m]. ``is_assumed`` marks a bore that nobody gave.
    """

    what: str
    where: tuple[str, ...]
    bore: Figure
    length: float
    angle: int = 0
    bores: tuple[Figure, ...] = ()
    arcs: tuple[tuple[float, float], ...] = ()
    is_assumed: bool = False


@dataclass(frozen=True, slots=True)
class Waterway:
    """A piece of hose, tube or pipe from port to port, in order from A.

    ``length`` is how the length of its hose is known, None where it is not known at all.
    """

    id: str
    line: str
    stretches: tuple[Stretch, ...]
    length: Figure | None

    @property
    def hose(self) -> Stretch:
        """The hose, tube or pipe itself."""
        return next(s for s in self.stretches if s.what == "hose")

    @property
    def least_bore(self) -> float:
        """Least bore on the way. [m]"""
        return min(s.bore.value for s in self.stretches)


def waterway(car: Car, run: Run, course: Route | None = None, size: str = "") -> Waterway | None:
    """Follow the fluid through one piece of a line.

    Parameters
    ----------
    car : Car
        The car document as read.
    run : Run
        The piece, with what stands at its ends.
    course : Route, optional
        Where it is laid in space.
    size : str, optional
        Another size of hose than the piece has, to see what that would give; hose ends and
        cones then count with the bore of that size, and what lies before them stays.

    Returns
    -------
    Waterway or None
        None where the bore of the hose itself is not known.
    """
    line = car.lines[run.line]
    bores = hose_bores(line, size or run.size)
    if not bores:
        return None
    own = bores[0]
    a, b = run.ends
    before = tuple(_through(car, run, a, "A", own, size))
    after = tuple(_through(car, run, b, "B", own, size))
    taken = sum(s.length for s in (*before, *after))
    whole = run.string or run.straight
    arcs: tuple[tuple[float, float], ...] = ()
    if course is not None:
        arcs = tuple((e.length, e.radius) for e in elements(course.path) if isinstance(e, Arc))
        free = course.length
    else:
        free = max(0.0, whole.value - taken) if whole is not None else 0.0
    hose = Stretch("hose", (run.id,), own, free, bores=bores, arcs=arcs)
    if whole is None and course is not None:
        whole = Figure(course.length + taken, "m", Grade.DERIVED, "as laid in space")
    return Waterway(run.id, run.line, (*before, hose, *reversed(after)), whole)


def hose_bores(line: Line, size: str) -> tuple[Figure, ...]:
    """All bores that the data have for the hose, tube or pipe of a line.

    Parameters
    ----------
    line : Line
        The line.
    size : str
        A dash, or a bore in millimetres.

    Returns
    -------
    tuple of Figure
        The one to reckon with first; empty where the size has none. [m]
    """
    if line.construction is not Construction.HOSE and not size.startswith("-"):
        try:
            return (Figure(float(size) / 1000.0, "m", Grade.STATED, "bore as typed"),)
        except ValueError:
            return ()
    try:
        found = hoses.size(hoses.family(line.hose).key, size)
    except CatalogueError:
        return ()
    return found.bores or ((found.bore,) if found.bore is not None else ())


def _through(
    car: Car, run: Run, end: Termination, side: str, hose: Figure, size: str
) -> Iterator[Stretch]:
    """What stands between a port and the hose, from the port outwards."""
    spot = f"{run.id}.{side}"
    port = car.port(end.port)
    if port is not None:
        found = None if port.bore is None else Figure(port.bore, "m", Grade.STATED, port.id)
        if found is None and (by_end := bore_of(port.end)) is not None:
            found = Figure(by_end[0], "m", by_end[1], f"usual bore of {port.end}")
        if found is not None:
            yield Stretch("port", (port.id,), found, 0.0)
    if end.chain is None:
        return
    for number, part in enumerate(end.chain.parts, 1):
        bore = _bore(part, run, size)
        grade = dict(part.grades).get("bore", Grade.RECALLED)
        yield Stretch(
            _what(part),
            (f"{spot}.{number}", part.code),
            Figure(bore or hose.value, "m", grade if bore else Grade.PRACTICE, part.name),
            sum(part.legs),
            part.angle,
            is_assumed=bore is None,
        )


def _bore(part: Part, run: Run, size: str) -> float | None:
    """Bore of a part, or of the like part for another size of hose."""
    if not size or size == run.size:
        return part.bore
    if "hose end" in part.shape and "banjo" not in part.shape:
        nipple = nipples().get(size)
        return nipple[0] if nipple else None
    # A cone for the other size, on the same port: the narrower of its two ends.
    sides = [
        bore_of(replace(end, size=size)) if end.size == run.size else bore_of(end)
        for end in part.ends
    ]
    known = [found[0] for found in sides if found is not None]
    return min(known) if known and part.bore is not None else part.bore


def _what(part: Part) -> str:
    for word in _ON_PURPOSE:
        if word in part.traits or word in part.shape:
            return word
    if "banjo" in part.shape:
        return "banjo"
    if "hose end" in part.shape:
        return "hose end"
    return "elbow" if part.angle else "adaptor"
