# SPDX-License-Identifier: Apache-2.0
"""The drawing that goes with a bend schedule: straight, rotation and angle, with their signs."""

from math import cos, pi, radians, sin

from linewright.base.vectors import Vector
from linewright.routes.courses import polyline
from linewright.scene.drawing import (
    Anchor,
    Box,
    Circle,
    Drawing,
    Group,
    Ink,
    Mark,
    Pen,
    Point,
    Polyline,
    Rect,
    arc,
)
from linewright.scene.text import set_text
from linewright.space.path import Path

#: Size of the sheet. [mm]
_WIDTH, _HEIGHT = 200.0, 118.0

_BODY, _SMALL = 3.6, 3.0

#: How wide the tube is drawn. [mm]
_TUBE = 5.0

#: Where the straight between the two bends starts and ends on the left, and the clock's middle.
_LEFT: Point = (36.0, 66.0)
_CLOCK: Point = (150.0, 60.0)

#: Radius of the clock, of its arrow, and length of a leg before and after a bend. [mm]
_DIAL, _ARROW, _LEG = 26.0, 17.0, 34.0

#: How far towards the reader an arrow goes to the left and down on paper. [-]
_OBLIQUE = (0.55, 0.38)


def draw_rotation() -> Drawing:
    """Draw what straight, rotation and angle of a bend schedule mean.

    Returns
    -------
    Drawing
        On the left a tube with two bends, the second turned by +90°, dashed where it would go
        by 0°; on the right the same as one sees it along the straight between them.
    """
    return Drawing(
        _WIDTH,
        _HEIGHT,
        (
            Group("frame", (Rect(Box(2.0, 2.0, _WIDTH - 2.0, _HEIGHT - 2.0), Ink.FRAME),)),
            Group("tube", tuple(_tube())),
            Group("clock", tuple(_clock())),
            Group("words", tuple(_words())),
        ),
        "Rotation of a bend",
        "A tube comes down from end A, turns right in bend 1, runs straight, and bend 2 turns "
        "it towards the reader: a rotation of +90 degrees, clockwise for who looks along the "
        "straight from A to B, counted from the side on which the leg before bend 1 lies.",
        "",
    )


def _paper(point: Vector) -> Point:
    """Place on paper; y is away from the reader."""
    x, y, z = point
    return _LEFT[0] + x + _OBLIQUE[0] * y, _LEFT[1] - z - _OBLIQUE[1] * y


def _course(turned: float) -> tuple[Point, ...]:
    """The tube on paper, its last bend turned by so much. [rad]"""
    way = (0.0, -sin(turned), cos(turned))
    run = 62.0
    last = (run, way[1] * _LEG, way[2] * _LEG)
    path = Path(((0.0, 0.0, _LEG), (0.0, 0.0, 0.0), (run, 0.0, 0.0), last), (10.0, 10.0))
    return tuple(_paper(p) for p in polyline(path, 0.05))


def _tube() -> list[Mark]:
    shown = _course(pi / 2.0)
    marks: list[Mark] = [
        Polyline(_course(0.0)[-14:], Ink.DASHED),
        Polyline(shown, Ink.HOSE, width=_TUBE, system="F"),
        Polyline(shown, Ink.HOSE_CORE, width=_TUBE - 0.8, system="F"),
        Polyline(shown, Ink.FINE),
    ]
    # The arrow about the straight: clockwise for who looks along it, here to the right.
    middle, tall = (31.0, 0.0, 0.0), 9.0
    ring = [
        _paper((middle[0], -tall * sin(t), tall * cos(t)))
        for t in (radians(10.0 * k) for k in range(10))
    ]
    marks += [Polyline(tuple(ring), Ink.GLYPH), _head(ring[-2], ring[-1])]
    for text, at, anchor in (
        ("A", _paper((0.0, 0.0, _LEG + 4.0)), Anchor.MIDDLE),
        ("B", (_course(pi / 2.0)[-1][0] - 4.0, _course(pi / 2.0)[-1][1] + 5.0), Anchor.MIDDLE),
        ("bend 1", (_LEFT[0] - 5.0, _LEFT[1] + 6.0), Anchor.END),
        ("bend 2", (_LEFT[0] + 67.0, _LEFT[1] + 6.0), Anchor.START),
        ("straight before bend 2", (_LEFT[0] + 18.0, _LEFT[1] + 10.0), Anchor.MIDDLE),
        ("rotation +", (_LEFT[0] + 31.0, _LEFT[1] - 12.0), Anchor.MIDDLE),
        ("0° would go here", (_LEFT[0] + 66.0, _LEFT[1] - _LEG + 4.0), Anchor.START),
    ):
        marks.append(set_text(text, at, _BODY, anchor=anchor, bold=len(text) == 1))
    return marks


def _head(before: Point, tip: Point) -> Polyline:
    """An arrowhead at the end of a stroke."""
    dx, dy = tip[0] - before[0], tip[1] - before[1]
    far = (dx * dx + dy * dy) ** 0.5
    dx, dy = dx / far, dy / far
    long, wide = 3.2, 1.3
    base = (tip[0] - long * dx, tip[1] - long * dy)
    return Polyline(
        (
            tip,
            (base[0] - wide * dy, base[1] + wide * dx),
            (base[0] + wide * dy, base[1] - wide * dx),
        ),
        Ink.SOLID,
        closed=True,
    )


def _clock() -> list[Mark]:
    x, y = _CLOCK
    turn = arc(_CLOCK, _ARROW, -pi / 2.0, pi / 2.0 - 0.08)
    other = arc(_CLOCK, _ARROW, -pi / 2.0, -pi / 2.0 + 0.08)
    up, right = ((x, y), (x, y - _DIAL)), ((x, y), (x + _DIAL, y))
    marks: list[Mark] = [
        Circle(_CLOCK, _DIAL, Ink.FINE),
        Polyline(up, Ink.DASHED),
        Polyline(((x, y), (x - _DIAL, y)), Ink.DASHED),
        Polyline(((x, y), (x, y + _DIAL)), Ink.DASHED),
        Polyline(right, Ink.HOSE, width=_TUBE, system="F"),
        Polyline(right, Ink.HOSE_CORE, width=_TUBE - 0.8, system="F"),
        Polyline(turn, Ink.GLYPH),
        _head(turn[-2], turn[-1]),
        Polyline(other, Ink.GLYPH),
        _head(other[-2], other[-1]),
        Circle(_CLOCK, _TUBE / 2.0 + 1.0, Ink.PAPER),
        Circle(_CLOCK, _TUBE / 2.0 + 1.0, Ink.GLYPH),
    ]
    for text, at, anchor in (
        ("0°: leg before bend 1", (x, y - _DIAL - 2.5), Anchor.MIDDLE),
        ("+90°", (x + _DIAL + 2.0, y + 1.2), Anchor.START),
        ("−90°", (x - _DIAL - 2.0, y + 1.2), Anchor.END),
        ("180°", (x, y + _DIAL + 5.0), Anchor.MIDDLE),
        ("+", (x + 15.0, y - 13.5), Anchor.MIDDLE),
        ("−", (x - 15.0, y - 13.5), Anchor.MIDDLE),
    ):
        marks.append(set_text(text, at, _BODY, anchor=anchor, bold=len(text) == 1))
    return marks


def _words() -> list[Mark]:
    return [
        set_text("Rotation of a bend", (8.0, 12.0), 5.0, bold=True),
        set_text(
            "Seen from A along the straight, to B",
            (_CLOCK[0], 24.0),
            _BODY,
            anchor=Anchor.MIDDLE,
            pen=Pen.QUIET,
        ),
        set_text(
            "0° turns back to the side of the leg before (a U), 180° away from it (a Z). "
            "+ is clockwise for who looks from A to B.",
            (8.0, _HEIGHT - 12.5),
            _SMALL,
        ),
        set_text(
            "Benders count rotation either way: compare with yours, and bend a piece of scrap "
            "first. Straights end where arcs begin.",
            (8.0, _HEIGHT - 7.5),
            _SMALL,
        ),
    ]
