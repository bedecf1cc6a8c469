# SPDX-License-Identifier: Apache-2.0
"""What ends a port that carries no line: plug, cap, opening, sensor, what is not known yet."""

from dataclasses import replace
from math import pi

from linewright.scene.drawing import (
    Anchor,
    Box,
    Circle,
    Ink,
    Mark,
    Point,
    Polyline,
    Rect,
    Text,
    arc,
)
from linewright.scene.faces import DOWN, PORT_SIZE, RIGHT, UP
from linewright.scene.network import CAP, MISSING, OPEN, PLUG, SCREWED_ON, SENSOR, UNKNOWN, Pin
from linewright.scene.text import set_text, text_width

#: What a closure takes of the room outside the card, without its text. [mm]
REACH = {PLUG: 3.2, CAP: 2.8, OPEN: 4.8, UNKNOWN: 6.0, MISSING: 6.2, SENSOR: 7.4, SCREWED_ON: 7.2}


def _line(*points: Point, closed: bool = False, ink: Ink = Ink.GLYPH) -> Polyline:
    return Polyline(points, ink, closed=closed)


def _turned(marks: tuple[Mark, ...], at: Point, side: int) -> tuple[Mark, ...]:
    """Turn marks that point to the right to one of four sides and put them in place."""
    cos, sin = ((1, 0), (0, 1), (-1, 0), (0, -1))[side]

    def to(p: Point) -> Point:
        return at[0] + p[0] * cos - p[1] * sin, at[1] + p[0] * sin + p[1] * cos

    turned: list[Mark] = []
    for mark in marks:
        if isinstance(mark, Polyline):
            turned.append(replace(mark, points=tuple(to(p) for p in mark.points)))
        elif isinstance(mark, Circle):
            turned.append(replace(mark, at=to(mark.at)))
        elif isinstance(mark, Rect):
            b = mark.box
            (x0, y0), (x1, y1) = to((b.left, b.top)), to((b.right, b.bottom))
            box = Box(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))
            turned.append(replace(mark, box=box))
    return tuple(turned)


def closure(leaf: str, at: Point, side: int) -> tuple[Mark, ...]:
    """What ends a port without a line: plug, cap, opening, question mark's ring, sensor.

    Parameters
    ----------
    leaf : str
        plug, cap, open, unknown, missing, sensor or on.
    at : tuple of float
        The port. [mm]
    side : int
        Where it points: 0 right, 1 down, 2 left, 3 up.

    Returns
    -------
    tuple of Mark
        Its strokes, within 7 mm of the port.
    """
    stub = _line((0, 0), (2.0, 0), ink=Ink.LEAD)
    shapes: dict[str, tuple[Mark, ...]] = {
        "plug": (
            stub,
            _line((2.0, -1.5), (2.0, 1.5)),
            _line((1.0, -1.2), (3.0, 1.2)),
            _line((1.0, 1.2), (3.0, -1.2)),
        ),
        "cap": (stub, _line((0.9, -1.7), (2.6, -1.7), (2.6, 1.7), (0.9, 1.7))),
        "open": (
            _line((0, 0), (2.4, 0), ink=Ink.LEAD),
            _line((2.4, -1.3), (4.6, 0), (2.4, 1.3), closed=True),
        ),
        "unknown": (stub, Circle((3.9, 0), 1.9, Ink.ALERT)),
        "missing": (
            stub,
            Polyline(((2.0, -2.0), (6.0, -2.0), (6.0, 2.0), (2.0, 2.0)), Ink.ALERT, closed=True),
        ),
        "sensor": (stub, Circle((4.6, 0), 2.6, Ink.GLYPH)),
        "on": (
            stub,
            Polyline(
                (*arc((5.2, 0), 1.8, -pi / 2, pi), (2.0, 1.8), (2.0, -1.8)), Ink.GLYPH, closed=True
            ),
            _line((3.2, -1.8), (3.2, 1.8), ink=Ink.DASHED),
        ),
    }
    return _turned(shapes[leaf], at, side)


def _leaf_text(pin: Pin) -> tuple[tuple[str, bool], ...]:
    """Words beside a closure: (text, bold)."""
    if pin.leaf == SENSOR:
        return ((pin.leaf_id, True),)
    if pin.leaf == SCREWED_ON:
        return (pin.leaf_id, True), (pin.leaf_name, False)
    if pin.leaf == OPEN:
        return (("open", False),)
    return ()


def leaf_width(pin: Pin) -> float:
    """Room for the words beside what ends a port.

    Parameters
    ----------
    pin : Pin
        The port.

    Returns
    -------
    float
        Their width with the space before them, 0 if there are none. [mm]
    """
    words = [text_width(t, PORT_SIZE, bold=b) for t, b in _leaf_text(pin)]
    return sum(words) + 0.9 * (len(words) - 1) + 1.6 if words else 0.0


def _balloon(pin: Pin) -> str:
    """Letter in a sensor's circle: what it senses."""
    for word, letter in (
        ("pressure", "P"),
        ("temperature", "T"),
        ("level", "L"),
        ("flow", "F"),
        ("gauge", "G"),
    ):
        if word in pin.leaf_kind:
            return letter
    return "S"


def ended(pin: Pin, at: Point, side: int) -> list[Mark]:
    """Closure of a port, with its words.

    Parameters
    ----------
    pin : Pin
        The port.
    at : tuple of float
        Where it is. [mm]
    side : int
        Where it points: 0 right, 1 down, 2 left, 3 up.

    Returns
    -------
    list of Mark
        Strokes and texts.
    """
    marks = list(closure(pin.leaf, at, side))
    step = ((1, 0), (0, 1), (-1, 0), (0, -1))[side]
    middle = {SENSOR: 4.6, MISSING: 4.0}.get(pin.leaf, 3.9)
    centre = (at[0] + step[0] * middle, at[1] + step[1] * middle)
    drop = 0.36 * PORT_SIZE

    def put(text: str, x: float, y: float, bold: bool, anchor: Anchor) -> Text:
        return set_text(text, (x, y), PORT_SIZE, bold=bold, anchor=anchor, about=pin.id)

    if pin.leaf == SENSOR:
        marks.append(put(_balloon(pin), centre[0], centre[1] + drop, False, Anchor.MIDDLE))
    if pin.leaf == UNKNOWN:
        marks.append(put("?", centre[0], centre[1] + drop, True, Anchor.MIDDLE))
    if pin.leaf == MISSING:
        marks.append(put("!", centre[0], centre[1] + drop, True, Anchor.MIDDLE))
    words = _leaf_text(pin)
    if side in (UP, DOWN):
        clear = 3.3 if pin.leaf == SENSOR else 2.7
        x, y = at[0] + clear, centre[1] + drop
    elif side == RIGHT:
        x, y = at[0] + REACH[pin.leaf] + 0.6, at[1] + drop
    else:
        x, y = at[0] - REACH[pin.leaf] - leaf_width(pin) + 1.0, at[1] + drop
    for text, bold in words:
        marks.append(put(text, x, y, bold, Anchor.START))
        x += text_width(text, PORT_SIZE, bold=bold) + 0.9
    return marks
