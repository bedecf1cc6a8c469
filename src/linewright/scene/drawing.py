# SPDX-License-Identifier: Apache-2.0
"""What a drawing is made of: strokes, shapes and texts on paper.

All in millimetres on paper, x to the right, y down. How a thing looks is said by its `Ink`;
which pen, colour or file format that becomes is the writer's affair (`faces.files`).
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum

Point = tuple[float, float]

#: How far Inter's letters, figures and signs reach above and below the baseline. [em]
ASCENT = 0.78
DESCENT = 0.22


class Ink(StrEnum):
    """What a mark means, and so how it is drawn."""

    CARD = "card"  # ground of a component, hairline round it
    GLYPH = "glyph"  # stroke of a symbol
    FINE = "fine"  # thinner stroke inside a symbol
    DASHED = "dashed"  # filter element, operating link
    SOLID = "solid"  # filled symbol part
    PAPER = "paper"  # filled with the ground: covers what lies under it
    LEAD = "lead"  # from a port to the symbol it belongs to
    PIPE = "pipe"  # a line of the system; its letter gives colour and dashes
    ARROW = "arrow"  # filled arrowhead on a line
    OPEN_ARROW = "open-arrow"  # arrowhead that is not filled
    FIT = "fit"  # two ports screwed together, no hose between: the outer of two strokes
    FIT_CORE = "fit-core"  # the ground between them
    PANEL = "panel"  # a wall that lines pass
    RULE = "rule"  # thin rule of frame and title block
    FRAME = "frame"  # edge of the sheet
    ALERT = "alert"  # something missing or unknown
    # Views to scale. Strokes of hoses have their own width and the colour of their system.
    BODY = "body"  # silhouette or face of a body
    BEHIND = "behind"  # outline of a body, also where another covers it
    ZONE = "zone"  # edge of a zone
    HATCH = "hatch"  # what fills a zone
    HALO = "halo"  # ground beside a hose, where it passes over another
    HOSE = "hose"  # the hose as wide as it is: its two edges show
    HOSE_CORE = "hose-core"  # what lies between its edges
    HOSE_AXIS = "hose-axis"  # its centreline, dashed as its line type
    HIDDEN = "hidden"  # edges of a hose that a body covers
    HIDDEN_CORE = "hidden-core"  # what lies between those
    FITTING = "fitting"  # hose end and adaptors
    RULER = "ruler"  # marks of the car's axes along the edge
    # Plots of flow.
    GRID = "grid"  # hairline at a tick
    CURVE = "curve"  # a curve; the next three are told from it by their dashes
    CURVE_2 = "curve-2"
    CURVE_3 = "curve-3"
    CURVE_4 = "curve-4"
    AREA = "area"  # a band between two curves, or about a value
    BAR = "bar"  # filled stroke of a bar
    LIMIT = "limit"  # what must not be passed


class Pen(StrEnum):
    """What a text is, and so how dark it is set."""

    INK = "ink"
    QUIET = "quiet"
    SYSTEM = "system"  # in the colour of the system


class Anchor(StrEnum):
    """Which point of a text stands at its place."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle, from its upper left to its lower right corner. [mm]"""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """From left to right. [mm]"""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From top to bottom. [mm]"""
        return self.bottom - self.top

    def meets(self, other: "Box", gap: float = 0.0) -> bool:
        """Whether the two overlap, or come nearer than `gap` [mm]."""
        return (
            self.left < other.right + gap
            and other.left < self.right + gap
            and self.top < other.bottom + gap
            and other.top < self.bottom + gap
        )

    def holds(self, other: "Box") -> bool:
        """Whether the other lies wholly inside."""
        return (
            self.left <= other.left
            and self.top <= other.top
            and other.right <= self.right
            and other.bottom <= self.bottom
        )

    def cut_by(self, a: Point, b: Point, gap: float = 0.0) -> bool:
        """Whether the segment from a to b enters the box widened by `gap` [mm]."""
        low, high = 0.0, 1.0
        for start, end, least, most in (
            (a[0], b[0], self.left - gap, self.right + gap),
            (a[1], b[1], self.top - gap, self.bottom + gap),
        ):
            step = end - start
            if step == 0:
                if not least < start < most:
                    return False
                continue
            first, last = sorted(((least - start) / step, (most - start) / step))
            low, high = max(low, first), min(high, last)
            if low >= high:
                return False
        return True


@dataclass(frozen=True, slots=True)
class Polyline:
    """Straight strokes from point to point; ``closed`` joins the last to the first."""

    points: tuple[Point, ...]
    ink: Ink
    about: str = ""
    closed: bool = False
    letter: str = ""  # letter of the line type, for pipes and their arrows
    width: float = 0.0  # of the stroke, where it has its own [mm]
    system: str = ""  # letter of the system whose colour it takes; "" for the drawing's

    @property
    def segments(self) -> Iterator[tuple[Point, Point]]:
        """The strokes one by one."""
        yield from zip(self.points, self.points[1:], strict=False)
        if self.closed and len(self.points) > 2:
            yield self.points[-1], self.points[0]


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle about a point."""

    at: Point
    radius: float
    ink: Ink
    about: str = ""
    system: str = ""  # letter of the system whose colour it takes; "" for the drawing's


@dataclass(frozen=True, slots=True)
class Rect:
    """An upright rectangle."""

    box: Box
    ink: Ink
    about: str = ""
    letter: str = ""


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text; ``box`` is reckoned from the font's own widths.

    ``at`` is on the baseline, at the start, middle or end of the text. ``upwards`` turns it to
    be read from the right of the sheet. ``about`` names the component or line it belongs to.
    """

    at: Point
    text: str
    size: float
    width: float
    bold: bool = False
    anchor: Anchor = Anchor.START
    upwards: bool = False
    pen: Pen = Pen.INK
    about: str = ""
    is_clear: bool = False  # a rim of ground round its letters

    @property
    def box(self) -> Box:
        """What the text covers on paper."""
        shift = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}[self.anchor] * self.width
        x, y = self.at
        up, down = ASCENT * self.size, DESCENT * self.size
        if self.upwards:
            return Box(x - up, y + shift - self.width, x + down, y + shift)
        return Box(x - shift, y - up, x - shift + self.width, y + down)


Mark = Polyline | Circle | Rect | Text


@dataclass(frozen=True, slots=True)
class Group:
    """Marks that belong together, under one id."""

    about: str
    marks: tuple[Mark, ...]
    title: str = ""


@dataclass(frozen=True, slots=True)
class Drawing:
    """A sheet: its size, what is on it, and what a reader who cannot see it is told.

    ``crossings`` counts where two lines cross; ``letter`` is the system's, ``paper`` the name
    of the sheet, ``scale`` what was multiplied to fit it. ``ratio`` is n of a view to the
    scale 1:n, 0 for what is not to scale; ``lost`` names what found no room for its label.
    """

    width: float
    height: float
    groups: tuple[Group, ...]
    title: str
    description: str
    letter: str
    paper: str = "A4"
    scale: float = 1.0
    crossings: int = 0
    ratio: int = 0
    lost: tuple[str, ...] = ()

    @property
    def marks(self) -> tuple[Mark, ...]:
        """All marks, in the order they are drawn."""
        return tuple(mark for group in self.groups for mark in group.marks)

    @property
    def texts(self) -> tuple[Text, ...]:
        """All texts."""
        return tuple(mark for mark in self.marks if isinstance(mark, Text))


def arc(at: Point, radius: float, start: float, turn: float, steps: int = 0) -> tuple[Point, ...]:
    """Points along an arc, near enough to be printed as one.

    Parameters
    ----------
    at : tuple of float
        Middle. [mm]
    radius : float
        Radius. [mm]
    start : float
        Where it starts, clockwise on paper from the right. [rad]
    turn : float
        How far it goes, clockwise positive. [rad]
    steps : int
        Strokes to use; 0 for one each 9°.

    Returns
    -------
    tuple of tuple of float
        The points, both ends among them. [mm]
    """
    steps = steps or max(2, math.ceil(abs(turn) / math.radians(9)))
    return tuple(
        (
            at[0] + radius * math.cos(start + turn * i / steps),
            at[1] + radius * math.sin(start + turn * i / steps),
        )
        for i in range(steps + 1)
    )


def moved(mark: Mark, dx: float, dy: float, scale: float = 1.0) -> Mark:
    """Return a mark scaled about the origin, then moved.

    Parameters
    ----------
    mark : Polyline or Circle or Rect or Text
        What to move.
    dx, dy : float
        How far. [mm]
    scale : float
        By how much to multiply it first. [-]

    Returns
    -------
    Polyline or Circle or Rect or Text
        The moved one.
    """

    def to(p: Point) -> Point:
        return p[0] * scale + dx, p[1] * scale + dy

    if isinstance(mark, Polyline):
        return replace(mark, points=tuple(to(p) for p in mark.points))
    if isinstance(mark, Circle):
        return replace(mark, at=to(mark.at), radius=mark.radius * scale)
    if isinstance(mark, Rect):
        left, top = to((mark.box.left, mark.box.top))
        right, bottom = to((mark.box.right, mark.box.bottom))
        return replace(mark, box=Box(left, top, right, bottom))
    return replace(mark, at=to(mark.at), size=mark.size * scale, width=mark.width * scale)
