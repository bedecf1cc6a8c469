# SPDX-License-Identifier: Apache-2.0
"""Numbers of the lines: set into the line itself, in a gap, where nothing else is near."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from linewright.scene.drawing import ASCENT, DESCENT, Anchor, Box, Pen, Point, Text
from linewright.scene.text import text_width

#: Height of the numbers at scale 1. [mm]
SIZE = 2.9

#: Clear space round a number, to strokes of other lines, and between its words. [mm]
CLEAR, STROKE, BETWEEN = 0.7, 1.1, 0.9

Segment = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Wanted:
    """A line that wants its number: what it may say, longest first, and where it runs.

    Each wording is number (bold), then the rest.
    """

    id: str
    wordings: tuple[tuple[str, str], ...]
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Label:
    """A number in its place; ``gap`` is the stretch of its line that is left out."""

    id: str
    texts: tuple[Text, ...]
    box: Box
    gap: Segment | None


def _width(wording: tuple[str, str]) -> float:
    head, rest = wording
    width = text_width(head, SIZE, bold=True)
    return width + (BETWEEN + text_width(rest, SIZE) if rest else 0.0)


def _texts(wording: tuple[str, str], box: Box, upwards: bool, about: str) -> tuple[Text, ...]:
    head, rest = wording
    wide = text_width(head, SIZE, bold=True)
    if upwards:
        x = box.left + ASCENT * SIZE
        first = (x, box.bottom)
        second = (x, box.bottom - wide - BETWEEN)
    else:
        y = box.top + ASCENT * SIZE
        first = (box.left, y)
        second = (box.left + wide + BETWEEN, y)
    texts = [Text(first, head, SIZE, wide, True, Anchor.START, upwards, Pen.SYSTEM, about)]
    if rest:
        texts.append(
            Text(
                second,
                rest,
                SIZE,
                text_width(rest, SIZE),
                False,
                Anchor.START,
                upwards,
                Pen.INK,
                about,
            )
        )
    return tuple(texts)


def _box_on(centre: Point, width: float, upwards: bool) -> Box:
    """Box whose capitals are centred on a point of the line."""
    x, y = centre
    rise = 0.364 * SIZE  # half the height of the capitals
    if upwards:
        return Box(
            x + rise - ASCENT * SIZE, y - width / 2, x + rise + DESCENT * SIZE, y + width / 2
        )
    return Box(x - width / 2, y + rise - ASCENT * SIZE, x + width / 2, y + rise + DESCENT * SIZE)


def _tries(points: Sequence[Point], width: float) -> list[tuple[float, Point, bool, Segment]]:
    """Places on the segments of a line: (penalty, centre, upwards, gap), best first."""
    tries = []
    for a, b in pairwise(points):
        upwards = a[0] == b[0]
        length = abs(a[1] - b[1]) if upwards else abs(a[0] - b[0])
        need = width + 2 * CLEAR
        if length < need + 3.0:
            continue
        reach = (length - need - 3.0) / 2
        for part in (0.0, -0.3, 0.3, -0.6, 0.6, -0.9, 0.9, -1.0, 1.0):
            shift = part * reach
            middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
            if upwards:
                centre = (middle[0], middle[1] + shift)
                gap = ((centre[0], centre[1] - need / 2), (centre[0], centre[1] + need / 2))
            else:
                centre = (middle[0] + shift, middle[1])
                gap = ((centre[0] - need / 2, centre[1]), (centre[0] + need / 2, centre[1]))
            penalty = (12.0 if upwards else 0.0) + 4.0 * abs(part) - min(length, 60.0) / 15
            tries.append((penalty, centre, upwards, gap))
    return sorted(tries)


def _beside(points: Sequence[Point], width: float) -> list[tuple[float, Box, bool]]:
    """Places next to a line, where no segment is long enough: (penalty, box, upwards)."""
    tries = []
    high = (ASCENT + DESCENT) * SIZE
    for a, b in pairwise(points):
        for part in (0.5, 0.25, 0.75):
            x, y = a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part
            for off in (1.0, 2.0, 4.0):
                pay = off + 4.0 * abs(part - 0.5)
                if a[0] == b[0]:
                    left, right = (x - off, x + off)
                    tries += [
                        (pay, Box(right, y - high / 2, right + width, y + high / 2), False),
                        (pay, Box(left - width, y - high / 2, left, y + high / 2), False),
                        (pay + 1, Box(right, y - width / 2, right + high, y + width / 2), True),
                        (pay + 1, Box(left - high, y - width / 2, left, y + width / 2), True),
                    ]
                else:
                    tries += [
                        (pay, Box(x - width / 2, y - off - high, x + width / 2, y - off), False),
                        (pay, Box(x - width / 2, y + off, x + width / 2, y + off + high), False),
                    ]
    return sorted(tries, key=lambda t: (t[0], t[1].left, t[1].top))


def set_numbers(
    wanted: Sequence[Wanted],
    others: Iterable[tuple[str, Segment]],
    boxes: Sequence[Box],
    room: Box,
) -> tuple[tuple[Label, ...], tuple[str, ...]]:
    """Find a place for the number of each line.

    Parameters
    ----------
    wanted : Sequence of Wanted
        The lines.
    others : Iterable of (str, Segment)
        All strokes of all lines with the id of their line.
    boxes : Sequence of Box
        What is taken: cards with what stands beside them.
    room : Box
        Where numbers may stand.

    Returns
    -------
    tuple
        The labels, and the ids of lines that found no place.
    """
    strokes = list(others)
    taken = list(boxes)
    labels: list[Label] = []
    lost: list[str] = []

    def free(box: Box, own: str, *, on_line: bool) -> bool:
        if not room.holds(box) or any(box.meets(t, CLEAR) for t in taken):
            return False
        return not any(
            box.cut_by(a, b, STROKE if who != own else 0.3)
            for who, (a, b) in strokes
            if not (on_line and who == own)
        )

    def own_corner(want: Wanted, box: Box, gap: Segment) -> bool:
        """Whether another stretch of the same line would run into the number."""
        return any(
            box.cut_by(a, b, CLEAR)
            for a, b in zip(want.points, want.points[1:], strict=False)
            if not _within(gap, (a, b))
        )

    def length(want: Wanted) -> float:
        return sum(
            abs(a[0] - b[0]) + abs(a[1] - b[1])
            for a, b in zip(want.points, want.points[1:], strict=False)
        )

    for want in sorted(wanted, key=lambda w: (length(w), w.id)):
        found: Label | None = None
        for wording in want.wordings:
            width = _width(wording)
            for _, centre, upwards, gap in _tries(want.points, width):
                box = _box_on(centre, width, upwards)
                if free(box, want.id, on_line=True) and not own_corner(want, box, gap):
                    found = Label(want.id, _texts(wording, box, upwards, want.id), box, gap)
                    break
            if found is None:
                for _, box, upwards in _beside(want.points, width):
                    if free(box, want.id, on_line=False):
                        found = Label(want.id, _texts(wording, box, upwards, want.id), box, None)
                        break
            if found is not None:
                break
        if found is None:
            lost.append(want.id)
        else:
            labels.append(found)
            taken.append(found.box)
    return tuple(labels), tuple(lost)


def _within(inner: Segment, outer: Segment) -> bool:
    """Whether one upright or level segment lies on another."""
    (a, b), (c, d) = inner, outer
    xs, ys = sorted((c[0], d[0])), sorted((c[1], d[1]))
    return all(xs[0] <= p[0] <= xs[1] and ys[0] <= p[1] <= ys[1] for p in (a, b))


def broken(points: Sequence[Point], gap: Segment | None) -> tuple[tuple[Point, ...], ...]:
    """Leave a gap out of a line.

    Parameters
    ----------
    points : Sequence of tuple of float
        Corners and ends of the line. [mm]
    gap : tuple, optional
        The stretch to leave out, on one of its segments. [mm]

    Returns
    -------
    tuple of tuple
        The line in one or two pieces. [mm]
    """
    if gap is None:
        return (tuple(points),)
    for i, (a, b) in enumerate(pairwise(points)):
        if _within(gap, (a, b)):
            near, far = sorted(gap, key=lambda p: abs(p[0] - a[0]) + abs(p[1] - a[1]))
            return (*points[: i + 1], near), (far, *points[i + 1 :])
    return (tuple(points),)
