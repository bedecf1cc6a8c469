# SPDX-License-Identifier: Apache-2.0
"""One diagram a system: what is in it, where it stands, how its lines run, what is written."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from linewright.base.shown import show_length
from linewright.flow.model import SystemState
from linewright.plan.model import Plan
from linewright.scene import labels, paper
from linewright.scene.card import Pad
from linewright.scene.collect import network
from linewright.scene.drawing import Box, Drawing, Group, Ink, Mark, Point, Polyline, moved
from linewright.scene.faces import CELL
from linewright.scene.layout import Layout, Placed, place
from linewright.scene.network import Link, Network
from linewright.scene.router import Laid, Web
from linewright.scene.settle import first_lay, settle
from linewright.scene.states import BESIDE_NOTE, Beside, beside_lines
from linewright.scene.values import condition_words

#: Cells between cards, tried in turn until every line has its way and its number a place.
GAPS = (4, 5, 6, 8)

#: Most lines laid again in search of fewer crossings.
_TRIES = 150

#: A system is placed several ways, a large one fewer; those that look best are finished.
_SEEDS, _EFFORT, _KEPT, _LARGE = 12, 110, 2, 24

#: What a picture pays for a crossing, over what the lines themselves pay for it.
_CROSSED = 70.0

#: What a picture pays for each cell that it is wide or high.
_SPREAD = 1.0

_ARROW = 2.4  # length of an arrowhead [mm]
_PAST_TICK = 0.55  # from the edge of a card to where its port's tick ends [mm]


@dataclass(frozen=True, slots=True)
class Picture:
    """A diagram before it is put on paper; `lost` numbers found no place."""

    layout: Layout
    laid: Laid
    numbers: tuple[labels.Label, ...]
    lost: tuple[str, ...]
    runs: Mapping[str, tuple[Point, ...]]  # by link id, port to port [mm]
    cost: float = 0.0  # what its lines pay, and its size
    bare: int = 0  # numbers that had no room for the size


def systems(plan: Plan) -> tuple[str, ...]:
    """Systems that have a diagram.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    tuple of str
        Ids of the systems with something to draw, in the order of the document.
    """
    return tuple(s for s in plan.car.systems if network(plan, s).nodes)


def _ports(layout: Layout) -> dict[str, tuple[Placed, Pad]]:
    return {pad.pin.id: (placed, pad) for placed in layout.placed for pad in placed.card.pads}


def _runs(layout: Layout, laid: Laid, links: tuple[Link, ...]) -> dict[str, tuple[Point, ...]]:
    """Corners of each link from port to port. [mm]"""
    ports = _ports(layout)
    runs = {}
    for link in links:
        start, end = (placed.port(pad) for placed, pad in (ports[link.source], ports[link.target]))
        points = [start, *laid.paths[link.id], end]
        kept: list[tuple[int, int]] = []
        for point in points:
            if kept and point == kept[-1]:
                continue
            if len(kept) > 1:
                (ax, ay), (bx, by) = kept[-2], kept[-1]
                if (ax == bx == point[0]) or (ay == by == point[1]):
                    kept[-1] = point
                    continue
            kept.append(point)
        runs[link.id] = tuple((x * CELL, y * CELL) for x, y in kept)
    return runs


def _taken(layout: Layout) -> list[Box]:
    """Cards, and each mark that stands outside them. [mm]"""
    boxes = []
    for placed in layout.placed:
        dx, dy = placed.x * CELL, placed.y * CELL
        body = Box(dx, dy, dx + placed.card.width * CELL, dy + placed.card.height * CELL)
        boxes.append(body)
        for mark in placed.card.marks:
            box = mark_box(moved(mark, dx, dy))
            if not body.holds(box):
                boxes.append(box)
    return boxes


def mark_box(mark: Mark) -> Box:
    """Box of one mark.

    Parameters
    ----------
    mark : Polyline or Circle or Rect or Text
        The mark.

    Returns
    -------
    Box
        Its bounds, without the width of its stroke. [mm]
    """
    from linewright.scene.drawing import Circle, Rect

    if isinstance(mark, Polyline):
        xs, ys = [p[0] for p in mark.points], [p[1] for p in mark.points]
        return Box(min(xs), min(ys), max(xs), max(ys))
    if isinstance(mark, Circle):
        (x, y), r = mark.at, mark.radius
        return Box(x - r, y - r, x + r, y + r)
    if isinstance(mark, Rect):
        return mark.box
    return mark.box


def _wordings(link: Link, beside: Sequence[str] = ()) -> tuple[tuple[str, str], ...]:
    """What a line may say, longest first; what flows in it goes before its size."""
    full = " ".join(w for w in (link.size, link.note) if w)
    flowing = [f"{link.size} · {beside[0]}"] if beside and link.size else []
    rests = (*flowing, *beside, full, link.size, "")
    return tuple(dict.fromkeys((link.number, rest) for rest in rests))


def _arrows(link: Link, points: tuple[Point, ...], gap: labels.Segment | None) -> list[Mark]:
    """Arrowhead at end B, and one on the way where the line is long."""
    if not link.has_arrow:
        return []
    ink = Ink.OPEN_ARROW if link.letter in ("V", "D") else Ink.ARROW

    def heading(a: Point, b: Point) -> tuple[float, float]:
        length = abs(b[0] - a[0]) + abs(b[1] - a[1])
        return (b[0] - a[0]) / length, (b[1] - a[1]) / length

    step = heading(points[-2], points[-1])
    tip = (points[-1][0] - step[0] * _PAST_TICK, points[-1][1] - step[1] * _PAST_TICK)
    return [paper.arrowhead(tip, step, _ARROW, ink, link.letter, link.id)]


def picture(net: Network, beside: Beside | None = None) -> Picture:
    """Lay out, route and number one system, with more room until all fits.

    Parameters
    ----------
    net : Network
        The system.
    beside : Mapping, optional
        By the number of a line, what more may stand beside it, longest first.

    Returns
    -------
    Picture
        The first without conflicts, or the one with the fewest.
    """
    best: Picture | None = None
    seeds = max(1, min(_SEEDS, _EFFORT // (len(net.links) + 1)))
    for gap in GAPS:
        rough = []
        for seed in range(1, seeds + 1):
            layout = place(net, gap=gap, seed=seed)
            rough.append((_cost(net, layout, first_lay(layout, net.links)), seed, layout))
        rough.sort(key=lambda r: r[:2])
        for _, _, layout in rough[: _KEPT if len(net.links) <= _LARGE else 1]:
            one = _finished(net, *settle(layout, net.links, _TRIES))
            if best is None or _merit(one) < _merit(best):
                best = one
        if best is not None and not best.lost and not best.laid.overlaps:
            break
    assert best is not None
    return _told_more(net, best, beside) if beside else best


def _told_more(net: Network, one: Picture, beside: Beside) -> Picture:
    """Number the lines of a picture again with more words; its lines stay as they lie."""
    more = _numbered(net, one.layout, one.runs, beside)
    return one if len(more[1]) > len(one.lost) else replace(one, numbers=more[0], lost=more[1])


def _cost(net: Network, layout: Layout, web: Web) -> float:
    """What the lines of a layout pay, and its size; a crooked fit weighs double."""
    lines = sum(web.cost(k.id) * (2.0 if k.is_fit else 1.0) for k in net.links)
    lines += _CROSSED * web.conflicts()[0]
    return lines + _SPREAD * (layout.width + layout.height)


def _finished(net: Network, layout: Layout, web: Web) -> Picture:
    """Number the lines of a layout."""
    laid = web.laid()
    runs = _runs(layout, laid, net.links)
    numbers, lost = _numbered(net, layout, runs, {})
    sized = {k.number for k in net.links if k.size}
    bare = sum(1 for label in numbers if len(label.texts) == 1 and label.texts[0].text in sized)
    return Picture(layout, laid, numbers, lost, runs, _cost(net, layout, web), bare)


def _numbered(
    net: Network, layout: Layout, runs: Mapping[str, tuple[Point, ...]], beside: Beside
) -> tuple[tuple[labels.Label, ...], tuple[str, ...]]:
    """Labels of the lines, and the ids of those that found no place."""
    wanted = [
        labels.Wanted(
            k.id,
            _wordings(k, beside.get(k.number, ())),
            _clear_of_ends(runs[k.id], k.has_arrow),
        )
        for k in net.links
        if k.number
    ]
    strokes = [(key, segment) for key, points in runs.items() for segment in pairwise(points)]
    room = Box(0, 0, layout.width * CELL, layout.height * CELL)
    return labels.set_numbers(wanted, strokes, _taken(layout), room)


def _merit(one: Picture) -> tuple[int, int, int, float]:
    return len(one.lost), one.laid.overlaps, one.bare, one.cost


def _clear_of_ends(points: tuple[Point, ...], has_arrow: bool) -> tuple[Point, ...]:
    """A line less what its ticks and its arrowhead take at its ends."""

    def nearer(a: Point, b: Point, by: float) -> Point:
        length = abs(b[0] - a[0]) + abs(b[1] - a[1])
        by = min(by, length)
        return a[0] + (b[0] - a[0]) / length * by, a[1] + (b[1] - a[1]) / length * by

    first = nearer(points[0], points[1], 0.8)
    last = nearer(points[-1], points[-2], _ARROW + 0.8 if has_arrow else 0.8)
    return (first, *points[1:-1], last)


def _heights(net: Network, show: str) -> Network:
    """Mark the highest and the lowest component, where at least two heights are known."""
    known = sorted((n.height, n.id) for n in net.nodes if n.height is not None)
    if len(known) < 2 or known[0][0] == known[-1][0]:
        return net
    words = {
        known[-1][1]: f"▲ highest, z {show_length(known[-1][0], show)}",
        known[0][1]: f"▼ lowest, z {show_length(known[0][0], show)}",
    }
    nodes = tuple(replace(n, remark=words.get(n.id, "")) for n in net.nodes)
    return replace(net, nodes=nodes)


def draw(
    plan: Plan,
    system_id: str,
    *,
    sheet: int = 1,
    of: int = 1,
    date: str = "",
    state: SystemState | None = None,
) -> Drawing:
    """Draw the diagram of one system.

    Parameters
    ----------
    plan : Plan
        The plan; its car and its checks are read.
    system_id : str
        Which system.
    sheet, of : int
        Number of the sheet, and of all sheets.
    date : str
        What the title block gives as the date.
    state : SystemState, optional
        What flows in it in one condition: flow, pressure and temperature at its end B stand
        beside each line that has room for them. No line is moved for them.

    Returns
    -------
    Drawing
        The sheet. The same plan gives the same drawing.
    """
    car = plan.car
    net = _heights(network(plan, system_id), car.show)
    words = f", {condition_words(state.condition)}" if state is not None else ""
    return compose(
        net,
        paper.Title(
            car.name,
            f"{system_id.replace('-', ' ').capitalize()} system"
            + (f", {net.fluid}" if net.fluid and net.fluid not in system_id else "")
            + words,
            car.sha256[:10],
            date,
            sheet,
            of,
            paper.NOT_THIS if state is None else BESIDE_NOTE,
        ),
        beside_lines(car, net, state) if state is not None else None,
    )


def compose(net: Network, title: paper.Title, beside: Beside | None = None) -> Drawing:
    """Put a system's diagram on the smallest sheet that keeps its type readable.

    Parameters
    ----------
    net : Network
        What to draw.
    title : Title
        What the title block says.
    beside : Mapping, optional
        By the number of a line, what more may stand beside it, longest first.

    Returns
    -------
    Drawing
        The sheet.
    """
    one = picture(net, beside)
    groups: list[Group] = []
    gaps = {label.id: label.gap for label in one.numbers}
    for link in net.links:
        points = one.runs[link.id]
        if link.is_fit:
            marks: list[Mark] = [
                Polyline(points, Ink.FIT, link.id),
                Polyline(points, Ink.FIT_CORE, link.id),
            ]
        else:
            marks = [
                Polyline(piece, Ink.PIPE, link.id, letter=link.letter)
                for piece in labels.broken(_short_of_tip(points, link), gaps.get(link.id))
            ]
            marks += _arrows(link, points, gaps.get(link.id))
        what = (
            "screwed together" if link.is_fit else f"{link.number} {link.size} {link.note}".strip()
        )
        groups.append(Group(link.id, tuple(marks), f"{what}: {link.source} to {link.target}"))
    for placed in one.layout.placed:
        at = (placed.x * CELL, placed.y * CELL)
        node = placed.card.node
        groups.append(
            Group(
                node.id, tuple(moved(m, *at) for m in placed.card.marks), f"{node.id}: {node.name}"
            )
        )
    groups += [Group(label.id, label.texts) for label in one.numbers]
    bounds = _bounds(groups)
    sheet = paper.choose(bounds.width, bounds.height)
    room = sheet.room
    dx = room.left + (room.width - bounds.width * sheet.scale) / 2 - bounds.left * sheet.scale
    dy = room.top + (room.height - bounds.height * sheet.scale) / 2 - bounds.top * sheet.scale
    groups = [
        replace(g, marks=tuple(moved(m, dx, dy, sheet.scale) for m in g.marks)) for g in groups
    ]
    letters = list(dict.fromkeys(k.letter for k in net.links if not k.is_fit))
    endings = {pin.leaf for node in net.nodes for pin in node.pins if pin.leaf}
    extras = []
    if any(k.is_fit for k in net.links):
        extras.append("fit")
    if one.laid.crossings:
        extras.append("crossing")
    if any(node.remark for node in net.nodes):
        extras.append("height")
    groups.append(paper.legend(sheet, sorted(letters, key=_letter_rank), sorted(endings), extras))
    groups.append(paper.title_block(sheet, title))
    return Drawing(
        sheet.width,
        sheet.height,
        tuple(groups),
        f"{title.car}: {title.system}",
        _told(net),
        net.letter,
        sheet.name,
        sheet.scale,
        one.laid.crossings,
    )


def _short_of_tip(points: tuple[Point, ...], link: Link) -> tuple[Point, ...]:
    """End a line under its arrowhead, so that its stroke does not blunt the tip."""
    if not link.has_arrow:
        return points
    (ax, ay), (bx, by) = points[-2], points[-1]
    length = abs(bx - ax) + abs(by - ay)
    by_how = min(_PAST_TICK + _ARROW * 0.8, length * 0.9)
    end = (bx - (bx - ax) / length * by_how, by - (by - ay) / length * by_how)
    return (*points[:-1], end)


def _letter_rank(letter: str) -> tuple[bool, str]:
    return letter in "VDR", letter


def _bounds(groups: list[Group]) -> Box:
    boxes = [mark_box(m) for g in groups for m in g.marks]
    if not boxes:
        return Box(0, 0, 100, 60)
    return Box(
        min(b.left for b in boxes),
        min(b.top for b in boxes),
        max(b.right for b in boxes),
        max(b.bottom for b in boxes),
    )


def _told(net: Network) -> str:
    """The diagram in words, for who cannot see it."""
    parts = ", ".join(f"{n.id} {n.name}" for n in net.nodes)
    lines = "; ".join(
        f"{k.number} {k.size} from {k.source} to {k.target}".replace("  ", " ")
        for k in net.links
        if k.number
    )
    return f"Components: {parts}. Lines: {lines}. {paper.NOT_THIS}"
