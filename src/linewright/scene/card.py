# SPDX-License-Identifier: Apache-2.0
"""A component as drawn: its symbol, its named ports on four sides, its name, what ends its ports.

Everything a component has to say stands inside its own ground or in the room reserved beside
it, so that no line can run through it. Ports lie on the grid.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil

from linewright.scene.drawing import (
    Anchor,
    Box,
    Circle,
    Ink,
    Mark,
    Pen,
    Point,
    Polyline,
    Rect,
    moved,
)
from linewright.scene.endings import REACH, ended, leaf_width
from linewright.scene.faces import (
    CELL,
    DOWN,
    ID_SIZE,
    LEFT,
    NAME_SIZE,
    PLAIN,
    PORT_SIZE,
    RIGHT,
    UP,
    Face,
    is_joint,
)
from linewright.scene.network import SCREWED_ON, SENSOR, Node, Pin
from linewright.scene.symbols import Symbol, mirrored, symbol
from linewright.scene.text import set_text, shortened, text_width, wrapped

_ROW = 2  # cells from port to port on the left and right
_LINE = 3.7  # from line to line of a name [mm]


@dataclass(frozen=True, slots=True)
class Pad:
    """A port on the edge of a card, in cells from the card's upper left corner."""

    pin: Pin
    side: int
    x: int
    y: int


@dataclass(frozen=True, slots=True)
class Card:
    """A component laid out: size and margins in cells, marks in mm from its upper left corner.

    ``margins`` is the room reserved outside, right, down, left and up, for what ends its ports.
    """

    node: Node
    face: "Face"
    width: int
    height: int
    pads: tuple[Pad, ...]
    margins: tuple[int, int, int, int]
    marks: tuple[Mark, ...]

    @property
    def outside(self) -> tuple[tuple[int, int, int, int], ...]:
        """Rectangles beside the card that its closures take: left, top, right, bottom. [cells]"""
        return tuple(_closure_cells(p, self.margins) for p in self.pads if p.pin.leaf)


def _name_shown(pin: Pin) -> str:
    """Name of a port, unless the sensor on it is called the same."""
    return "" if pin.leaf == SENSOR and pin.name == pin.leaf_id else pin.name


def _column_step(pins: Sequence[Pin]) -> int:
    """Cells from port to port along the upper or lower edge, room for their words."""
    words = [max(text_width(_name_shown(p), PORT_SIZE) + 1.6, leaf_width(p) + 4.6) for p in pins]
    return max(2, *(ceil(w / CELL) for w in words)) if words else 2


def _name_lines(node: Node, width: float) -> list[list[tuple[str, float, bool]]]:
    """Id and name broken into lines of (text, size, bold)."""
    head = text_width(node.id, ID_SIZE, bold=True)
    name = node.name if node.name.lower() != node.id.lower() else ""
    if name and head + 1.2 + text_width(name, NAME_SIZE) <= width:
        lines = [[(node.id, ID_SIZE, True), (name, NAME_SIZE, False)]]
    else:
        rest = wrapped(name, width, NAME_SIZE)
        if len(rest) > 2:
            rest = (rest[0], " ".join(rest[1:]))
        lines = [[(node.id, ID_SIZE, True)]]
        lines += [[(shortened(line, width, NAME_SIZE), NAME_SIZE, False)] for line in rest]
    if node.remark:
        lines.append([(node.remark, NAME_SIZE, False)])
    return lines


def _least_room(node: Node) -> float:
    """Width below which the id, the remark or a word of the name would stand out. [mm]"""
    words = [text_width(word, NAME_SIZE) for word in node.name.split()]
    return max(
        text_width(node.id, ID_SIZE, bold=True),
        text_width(node.remark, NAME_SIZE),
        *(min(w, 30.0) for w in words),
        0.0,
    )


def _set_lines(
    lines: list[list[tuple[str, float, bool]]], middle: float, top: float, about: str
) -> list[Mark]:
    marks: list[Mark] = []
    for number, line in enumerate(lines):
        widths = [text_width(t, s, bold=b) for t, s, b in line]
        x = middle - (sum(widths) + 1.2 * (len(line) - 1)) / 2
        y = top + 2.7 + _LINE * number
        for (text, size, bold), width in zip(line, widths, strict=True):
            marks.append(set_text(text, (x, y), size, bold=bold, about=about))
            x += width + 1.2
    return marks


def _cells(length: float) -> int:
    return ceil(length / CELL - 1e-9)


def _joint_card(node: Node, face: Face) -> Card:
    """A dot with a lead to each side, port names in the corners, the id in a free one."""
    widest = max(text_width(p.name, PORT_SIZE) for p in node.pins)
    half = _cells(max(widest + 2.4, text_width(node.id, ID_SIZE, bold=True) + 2.0))
    w, h = 2 * half, 4
    at = {RIGHT: (w, 2), DOWN: (half, h), LEFT: (0, 2), UP: (half, 0)}
    pads = tuple(Pad(p, face.side(p), *at[face.side(p)]) for p in node.pins)
    middle = (half * CELL, 2 * CELL)
    marks: list[Mark] = [Rect(Box(0, 0, w * CELL, h * CELL), Ink.CARD, node.id)]
    for pad in pads:
        marks.append(Polyline(((pad.x * CELL, pad.y * CELL), middle), Ink.LEAD, node.id))
        marks += _port_marks(pad)
    marks.append(Circle(middle, 0.9, Ink.SOLID, node.id))
    marks.append(set_text(node.id, (1.2, h * CELL - 2.0), ID_SIZE, bold=True, about=node.id))
    return Card(node, face, w, h, pads, (0, 0, 0, 0), tuple(marks))


def _in_line_card(node: Node, face: Face) -> Card:
    """A thing that stands in a line: its symbol on the line, its name under it."""
    look = symbol(node.kind)
    wide = text_width(node.name, NAME_SIZE) + 2.0
    w, h = 2 * _cells(max(wide, 2 * look.half_width + 4.0) / 2), 5
    centre = 2
    pads = tuple(Pad(p, face.side(p), 0 if face.side(p) == LEFT else w, centre) for p in node.pins)
    middle = (w * CELL / 2, centre * CELL)
    marks: list[Mark] = [Rect(Box(0, 0, w * CELL, h * CELL), Ink.CARD, node.id)]
    for mark in look.draw(2 * look.half_width, 2 * look.up):
        mark = replace(mark, about=node.id)
        marks.append(moved(mirrored(mark) if face.flip else mark, *middle))
    for pad in pads:
        end = middle[0] + (look.half_width if pad.x else -look.half_width)
        x = pad.x * CELL
        marks.append(Polyline(((x, pad.y * CELL), (end, pad.y * CELL)), Ink.LEAD, node.id))
        marks.append(
            Rect(Box(x - 0.55, middle[1] - 0.55, x + 0.55, middle[1] + 0.55), Ink.SOLID, node.id)
        )
    at = (middle[0], h * CELL - 2.2)
    marks.append(set_text(node.name, at, NAME_SIZE, anchor=Anchor.MIDDLE, about=node.id))
    return Card(node, face, w, h, pads, (0, 0, 0, 0), tuple(marks))


def card(node: Node, face: Face = PLAIN, order: Mapping[str, int] | None = None) -> Card:
    """Lay out one component.

    Parameters
    ----------
    node : Node
        The component.
    face : Face
        Which way round it is drawn.
    order : Mapping, optional
        Rank of ports along their side; those left out keep the order of the document.

    Returns
    -------
    Card
        Its size, its ports on the grid and its marks.
    """
    if is_joint(node):
        return _joint_card(node, face)
    if node.in_line:
        return _in_line_card(node, face)
    look = symbol(node.kind)
    ranks = order or {}
    sides: tuple[list[Pin], ...] = ([], [], [], [])
    for pin in sorted(node.pins, key=lambda p: ranks.get(p.id, 0)):
        sides[face.side(pin)].append(pin)
    rows = max(len(sides[LEFT]), len(sides[RIGHT]), 1)

    zone = {
        s: _cells(max((text_width(p.name, PORT_SIZE) for p in sides[s]), default=0.0) + 1.4)
        for s in (LEFT, RIGHT)
    }
    steps = {s: _column_step(sides[s]) for s in (UP, DOWN)}
    spans = {s: (len(sides[s]) - 1) * steps[s] if sides[s] else 0 for s in (UP, DOWN)}
    if look.stretches:
        inner = max(4, max(spans.values()) + 4)
        inner += inner % 2
        half_w = inner * CELL / 2 - 2.0
        up = down = max(5.0, (rows - 1) * _ROW * CELL / 2 + 3.0)
    else:
        inner = 2 * _cells(look.half_width + 1.0)
        half_w, up, down = look.half_width, look.up, look.down
        if look.widens and max(spans.values()) + 2 > inner:
            inner = max(spans.values()) + 2
            inner += inner % 2
            half_w = inner * CELL / 2 - 1.0
        zone = {s: z + (1 if len(sides[s]) > 1 else 0) for s, z in zone.items()}

    middle = zone[LEFT] + inner // 2
    columns = {}
    for s in (UP, DOWN):
        first = middle - (spans[s] // 2 if look.stretches or look.widens else 0)
        columns[s] = [first + i * steps[s] for i in range(len(sides[s]))]
    width = max(
        zone[LEFT] + inner + zone[RIGHT], 7, *(c[-1] + steps[s] for s, c in columns.items() if c)
    ) if any(columns.values()) else max(zone[LEFT] + inner + zone[RIGHT], 7)  # fmt: skip

    # The name stands below the symbol, above it where leads go down, left of them where both.
    least = _least_room(node)
    if not (sides[UP] and sides[DOWN]):
        extra = _cells(least + 2.0) - width
        if extra > 0:
            middle, width = middle + extra // 2, width + extra
            columns = {s: [c + extra // 2 for c in cs] for s, cs in columns.items()}
    left_room = width * CELL - 2.0
    if sides[UP] and sides[DOWN]:
        short = max(18.0, least) - (columns[DOWN][0] * CELL - 2.0)
        if short > 0:
            extra = _cells(short)
            middle, width = middle + extra, width + extra
            columns = {s: [c + extra for c in cs] for s, cs in columns.items()}
            zone[LEFT] += extra
        left_room = columns[DOWN][0] * CELL - 2.0
    lines = _name_lines(node, left_room)
    block = len(lines) * _LINE + 0.8
    name_above = bool(sides[DOWN]) and not sides[UP]
    top = 2 if sides[UP] else _cells(block) if name_above else 0
    reach = ((rows - 1) * _ROW * CELL) / 2
    above = _cells(max(up + (1.0 if top else 1.6), reach + 3.2))
    below = _cells(max(down + 1.0, reach + 1.2))
    centre = top + above
    foot = 0 if name_above else _cells(block)
    if sides[DOWN]:
        foot = max(foot, 2)
    height = centre + below + foot
    if sides[DOWN] and sides[UP]:
        block_top = height * CELL - block
    else:
        block_top = 0.4 if name_above else (centre + below) * CELL - 0.2
    block_middle = left_room / 2 + (0.8 if sides[UP] and sides[DOWN] else 1.0)

    pads: list[Pad] = []
    for s in (LEFT, RIGHT):
        pins = sides[s]
        for i, pin in enumerate(pins):
            y = centre + (2 * i - (len(pins) - 1)) * _ROW // 2
            pads.append(Pad(pin, s, 0 if s == LEFT else width, y))
    for s in (UP, DOWN):
        pads += [
            Pad(pin, s, x, 0 if s == UP else height)
            for pin, x in zip(sides[s], columns[s], strict=True)
        ]

    marks: list[Mark] = [Rect(Box(0, 0, width * CELL, height * CELL), Ink.CARD, node.id)]
    at = (middle * CELL, centre * CELL)
    for mark in look.draw(2 * half_w, 2 * up):
        mark = replace(mark, about=node.id)
        marks.append(moved(mirrored(mark) if face.flip else mark, *at))
    marks += _leads(
        pads, look, at, (half_w, up, down), (top * CELL - 2.0, (centre + below) * CELL + 2.0)
    )
    for pad in pads:
        marks += _port_marks(pad)
    marks += _set_lines(lines, block_middle, block_top, node.id)
    return Card(node, face, width, height, tuple(pads), _margins(pads, width), tuple(marks))


def _margins(pads: Sequence[Pad], width: int) -> tuple[int, int, int, int]:
    margins = [0, 0, 0, 0]
    for pad in pads:
        if not pad.pin.leaf:
            continue
        reach = REACH[pad.pin.leaf]
        if pad.side in (LEFT, RIGHT):
            reach += leaf_width(pad.pin)
        margins[pad.side] = max(margins[pad.side], _cells(reach))
        over = pad.x * CELL + 3.4 + leaf_width(pad.pin) - width * CELL
        if pad.side in (UP, DOWN) and over > 0:
            margins[RIGHT] = max(margins[RIGHT], _cells(over))
    return margins[0], margins[1], margins[2], margins[3]


def _closure_cells(pad: Pad, margins: tuple[int, int, int, int]) -> tuple[int, int, int, int]:
    dx, dy = ((1, 0), (0, 1), (-1, 0), (0, -1))[pad.side]
    x, y = pad.x + dx * margins[pad.side], pad.y + dy * margins[pad.side]
    if dx:
        high = 1 if pad.pin.leaf in (SENSOR, SCREWED_ON) else 0
        return min(pad.x, x), pad.y - high, max(pad.x, x), pad.y + high
    words = _cells(3.2 + leaf_width(pad.pin)) if leaf_width(pad.pin) else 1
    return pad.x - 1, min(pad.y, y), pad.x + words, max(pad.y, y)


def _port_marks(pad: Pad) -> list[Mark]:
    """Tick, name and closure of a port."""
    pin = pad.pin
    x, y = pad.x * CELL, pad.y * CELL
    marks: list[Mark] = []
    if pad.side == LEFT:
        at, anchor = (x + 0.9, y - 0.85), Anchor.START
    elif pad.side == RIGHT:
        at, anchor = (x - 0.9, y - 0.85), Anchor.END
    elif pad.side == UP:
        at, anchor = (x + 0.8, y + 3.0), Anchor.START
    else:
        at, anchor = (x + 0.8, y - 1.2), Anchor.START
    if _name_shown(pin):
        marks.append(set_text(pin.name, at, PORT_SIZE, anchor=anchor, pen=Pen.QUIET, about=pin.id))
    marks.append(Rect(Box(x - 0.55, y - 0.55, x + 0.55, y + 0.55), Ink.SOLID, pin.id))
    if pin.leaf:
        marks += ended(pin, (x, y), pad.side)
    return marks


def _leads(
    pads: Sequence[Pad],
    look: Symbol,
    at: Point,
    half: tuple[float, float, float],
    bars: tuple[float, float],
) -> list[Mark]:
    """Thin strokes from each port to the symbol, gathered where the symbol is small."""
    marks: list[Mark] = []
    half_w, up, down = half

    def lead(*points: Point) -> None:
        marks.append(Polyline(points, Ink.LEAD))

    for side in range(4):
        here = [p for p in pads if p.side == side]
        if not here:
            continue
        sign = 1 if side in (RIGHT, DOWN) else -1
        if side in (LEFT, RIGHT):
            edge = at[0] + sign * half_w
            ys = [p.y * CELL for p in here]
            if look.stretches or ys == [at[1]]:
                for pad in here:
                    lead((pad.x * CELL, pad.y * CELL), (edge, pad.y * CELL))
                continue
            bar = edge + sign * 2.5
            for pad in here:
                lead((pad.x * CELL, pad.y * CELL), (bar, pad.y * CELL))
            lead((bar, min(*ys, at[1])), (bar, max(*ys, at[1])))
            lead((bar, at[1]), (edge, at[1]))
        else:
            edge = at[1] + (down if sign > 0 else -up)
            # A signal works on the spring, and a gauge beside it reads something else: not joined.
            signal = [p for p in here if p.pin.name.startswith("reference")]
            xs = [p.x * CELL for p in (signal or here)]
            for pad in here:
                if signal and pad not in signal:
                    lead((pad.x * CELL, pad.y * CELL), (pad.x * CELL, pad.y * CELL + sign * -2.0))
                    continue
                straight = look.stretches or look.widens or pad.x * CELL == at[0]
                end = edge if straight else bars[sign > 0]
                lead((pad.x * CELL, pad.y * CELL), (pad.x * CELL, end))
            if not (look.stretches or look.widens) and len(xs) > 1:
                lead((at[0], bars[sign > 0]), (max(xs), bars[sign > 0]))
    return marks
