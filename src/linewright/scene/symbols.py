# SPDX-License-Identifier: Apache-2.0
"""Symbols in the manner of ISO 1219 and ISO 14617, drawn with strokes of our own.

Each is drawn about (0, 0) in millimetres, flow from left to right; the card mirrors it where
the flow runs to the left. Round and square ones have a fixed size, the others fill the box
they are given, so that every lead of a many-ported thing ends on its edge.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import pi

from linewright.scene.drawing import Box, Circle, Ink, Mark, Point, Polyline, Rect, arc

#: Half the size of a symbol of fixed size. [mm]
HALF = 5.0

Strokes = tuple[Mark, ...]


def _line(*points: Point, ink: Ink = Ink.GLYPH, closed: bool = False) -> Polyline:
    return Polyline(points, ink, closed=closed)


def _arrow(tip: Point, towards: Point, size: float = 1.6, ink: Ink = Ink.SOLID) -> Polyline:
    """A slim filled arrowhead; ``towards`` is the unit step of its flight."""
    (x, y), (dx, dy) = tip, towards
    back = (x - dx * size, y - dy * size)
    half = size * 0.42
    return Polyline(
        (
            tip,
            (back[0] - dy * half, back[1] + dx * half),
            (back[0] + dy * half, back[1] - dx * half),
        ),
        ink,
        closed=True,
    )


def _box(w: float, h: float) -> Rect:
    return Rect(Box(-w / 2, -h / 2, w / 2, h / 2), Ink.GLYPH)


def _pump(w: float, h: float) -> Strokes:
    """Pump: circle, filled triangle pointing out of it."""
    return (
        Circle((0, 0), HALF, Ink.GLYPH),
        Polyline(((HALF, 0), (1.2, -3.0), (1.2, 3.0)), Ink.SOLID, closed=True),
    )


def _electric_pump(w: float, h: float) -> Strokes:
    """Pump with its motor: the circle of the motor stands below, with a shaft between."""
    return _pump(w, h)


def _sump_pump(w: float, h: float) -> Strokes:
    """Dry-sump pump: pump in a box, its stages on one shaft."""
    r = min(HALF - 0.6, h / 2 - 1)
    return (
        _box(w, h),
        Circle((0, 0), r, Ink.GLYPH),
        Polyline(((r, 0), (r - 3.2, -2.4), (r - 3.2, 2.4)), Ink.SOLID, closed=True),
    )


def _diamond() -> Polyline:
    return _line((-HALF, 0), (0, -HALF), (HALF, 0), (0, HALF), closed=True)


def _filter(w: float, h: float) -> Strokes:
    """Filter: diamond, dashed line across the flow."""
    return _diamond(), _line((0, -HALF), (0, HALF), ink=Ink.DASHED)


def _strainer(w: float, h: float) -> Strokes:
    """Strainer: diamond, mesh as a dashed zigzag."""
    steps = 6
    zig = tuple(
        (0.9 if i % 2 else -0.9, -HALF * 0.72 + i * 2 * HALF * 0.72 / steps)
        for i in range(steps + 1)
    )
    return _diamond(), _line(*zig, ink=Ink.FINE)


def _cooler(w: float, h: float) -> Strokes:
    """Cooler: diamond, arrows that carry heat away from the flow."""
    return (
        _diamond(),
        _line((0, -0.5), (0, -2.6), ink=Ink.FINE),
        _arrow((0, -4.3), (0, -1), 1.9),
        _line((0, 0.5), (0, 2.6), ink=Ink.FINE),
        _arrow((0, 4.3), (0, 1), 1.9),
    )


def _radiator(w: float, h: float) -> Strokes:
    """Core of tubes between two end tanks, with the heat arrow across."""
    tank = 1.6
    left, right = -w / 2, w / 2
    rows = max(2, int(h // 3))
    tubes = tuple(
        _line(
            (left + tank, -h / 2 + (i + 1) * h / (rows + 1)),
            (right - tank, -h / 2 + (i + 1) * h / (rows + 1)),
            ink=Ink.FINE,
        )
        for i in range(rows)
    )
    return (
        _box(w, h),
        _line((left + tank, -h / 2), (left + tank, h / 2)),
        _line((right - tank, -h / 2), (right - tank, h / 2)),
        *tubes,
        _line((-2.4, h / 2 - 1.2), (2.2, -h / 2 + 1.4)),
        _arrow((2.9, -h / 2 + 0.8), (0.71, -0.71)),
    )


def _exchanger(w: float, h: float) -> Strokes:
    """Heat exchanger between two fluids: box, the other fluid's way as a zigzag."""
    zig = tuple(
        (-w / 2 + 1.5 + (w - 3) * i / 6, (-1 if i % 2 else 1) * min(2.6, h / 2 - 1.2))
        for i in range(7)
    )
    return _box(w, h), _line(*zig, ink=Ink.FINE)


def _tank(w: float, h: float) -> Strokes:
    """Tank open to the air: three sides and the level."""
    x, y = w / 2, h / 2
    level = -y * 0.35
    return (
        _line((-x, -y), (-x, y), (x, y), (x, -y)),
        _line((-x, level), (x, level), ink=Ink.FINE),
        _line((-1.3, level - 1.7), (1.3, level - 1.7), (0, level - 0.2), ink=Ink.FINE, closed=True),
    )


def _closed_tank(w: float, h: float) -> Strokes:
    """Closed tank: a box with round corners and the level."""
    x, y, r = w / 2, h / 2, min(2.5, w / 3, h / 3)
    edge = (
        *arc((-x + r, -y + r), r, pi, pi / 2),
        *arc((x - r, -y + r), r, -pi / 2, pi / 2),
        *arc((x - r, y - r), r, 0, pi / 2),
        *arc((-x + r, y - r), r, pi / 2, pi / 2),
    )
    level = -y * 0.3
    return (
        Polyline(edge, Ink.GLYPH, closed=True),
        _line((-x, level), (x, level), ink=Ink.FINE),
        _line((-1.3, level - 1.7), (1.3, level - 1.7), (0, level - 0.2), ink=Ink.FINE, closed=True),
    )


def _relief(w: float, h: float) -> Strokes:
    """Relief valve: square, arrow beside the way, spring above, its signal from the inlet."""
    return (
        _square(),
        _line((-3.4, 1.5), (2.4, 1.5)),
        _arrow((3.4, 1.5), (1, 0)),
        *_spring(),
        _line((-4, 0), (-6, 0), (-6, 6), (0, 6), (0, 4), ink=Ink.DASHED),
    )


def _regulator(w: float, h: float) -> Strokes:
    """Pressure regulator: square, arrow in the way, spring above."""
    return (_square(), _line((-4, 0), (2.6, 0)), _arrow((4, 0), (1, 0), 1.9), *_spring())


def _square() -> Rect:
    return Rect(Box(-4, -4, 4, 4), Ink.GLYPH)


def _spring() -> Strokes:
    return (
        _line(
            (0, -4), (-1.3, -4.7), (1.3, -5.5), (-1.3, -6.3), (1.3, -7.1), (0, -7.6), ink=Ink.FINE
        ),
    )


def _check_valve(w: float, h: float) -> Strokes:
    """Check valve: ball that lifts from its seat in the way of the flow."""
    return (
        Circle((0.3, 0), 1.9, Ink.GLYPH),
        _line((0.4, -3.4), (-3.0, 0), (0.4, 3.4)),
        _line((-HALF, 0), (-3.0, 0), ink=Ink.LEAD),
        _line((2.2, 0), (HALF, 0), ink=Ink.LEAD),
    )


def _roll_over_valve(w: float, h: float) -> Strokes:
    """Roll-over valve: check valve with a weight under its ball, in a box."""
    return (
        _box(w, h),
        Circle((0, 0.2), 1.7, Ink.GLYPH),
        _line((-3.0, 0.3), (0, -2.7), (3.0, 0.3)),
        _line((0, 1.9), (0, 2.8), ink=Ink.FINE),
        Rect(Box(-1.2, 2.8, 1.2, 4.2), Ink.SOLID),
    )


def _thermostat(w: float, h: float) -> Strokes:
    """Thermostat: valve box worked by a bulb that feels the fluid."""
    return (
        _box(w, h),
        Polyline(((-2.2, -1.9), (-2.2, 1.9), (2.2, -1.9), (2.2, 1.9)), Ink.GLYPH, closed=True),
        _line((0, 0), (0, -2.6), ink=Ink.FINE),
        Circle((0, -3.4 if h > 9 else -3.2), 0.8, Ink.SOLID),
    )


def _turbo(w: float, h: float) -> Strokes:
    """Turbocharger: turbine and compressor as tapering wheels on one shaft, in a box."""
    k = min(1.0, (h - 1.5) / 8.5)
    return (
        _box(w, h),
        _line((-4.2, -3.8 * k), (-1.4, -1.8 * k), (-1.4, 1.8 * k), (-4.2, 3.8 * k), closed=True),
        _line((4.2, -3.8 * k), (1.4, -1.8 * k), (1.4, 1.8 * k), (4.2, 3.8 * k), closed=True),
        _line((-1.4, 0), (1.4, 0)),
    )


def _engine(w: float, h: float) -> Strokes:
    """Engine: box with a piston on its crank."""
    return (
        _box(w, h),
        Rect(Box(-1.9, -3.2, 1.9, -0.6), Ink.GLYPH),
        _line((0, -1.4), (1.1, 2.4)),
        Circle((0, 2.4), 1.6, Ink.GLYPH),
    )


def _rail(w: float, h: float) -> Strokes:
    """Fuel rail: long tube, injectors hanging from it."""
    sprays = []
    for i in range(4):
        x = -w / 2 + (i + 0.5) * w / 4
        sprays += [
            _line((x, 1.3), (x, 3.2)),
            Polyline(((x, 3.2), (x - 0.8, 4.8), (x + 0.8, 4.8)), Ink.FINE, closed=True),
        ]
    return (Rect(Box(-w / 2, -1.3, w / 2, 1.3), Ink.GLYPH), *sprays)


def _manifold(w: float, h: float) -> Strokes:
    """Inlet manifold: plenum with runners."""
    runners = tuple(
        _line((-w / 2 + (i + 0.5) * w / 4, 0.8), (-w / 2 + (i + 0.5) * w / 4, 4.0))
        for i in range(4)
    )
    return (Rect(Box(-w / 2, -3.2, w / 2, 0.8), Ink.GLYPH), *runners)


def _restrictor(w: float, h: float) -> Strokes:
    """Restrictor: two arcs that make a throat."""
    return (
        _line(*arc((0, -3.6), 3.0, pi * 0.15, pi * 0.7)),
        _line(*arc((0, 3.6), 3.0, -pi * 0.15, -pi * 0.7)),
        _line((-HALF, 0), (HALF, 0), ink=Ink.LEAD),
    )


def _tee(w: float, h: float) -> Strokes:
    """Tee: a dot where lines join."""
    return (Circle((0, 0), 0.9, Ink.SOLID),)


def _bulkhead(w: float, h: float) -> Strokes:
    """Bulkhead fitting: two collars on either side of a panel drawn as a heavy rule."""
    return (
        _line((0, -HALF), (0, HALF), ink=Ink.PANEL),
        Rect(Box(-2.3, -1.6, -0.9, 1.6), Ink.GLYPH),
        Rect(Box(0.9, -1.6, 2.3, 1.6), Ink.GLYPH),
        _line((-HALF, 0), (-2.3, 0), ink=Ink.LEAD),
        _line((2.3, 0), (HALF, 0), ink=Ink.LEAD),
    )


def _plate(w: float, h: float) -> Strokes:
    """Take-off or adaptor plate: box with the two ways through it."""
    return (
        _box(w, h),
        _line((-2.6, -1.6), (1.8, -1.6)),
        _arrow((2.8, -1.6), (1, 0)),
        _line((2.6, 1.6), (-1.8, 1.6)),
        _arrow((-2.8, 1.6), (-1, 0)),
    )


def _valve(w: float, h: float) -> Strokes:
    """Valve: two triangles tip to tip."""
    return (_line((-HALF, -2.6), (-HALF, 2.6), (HALF, -2.6), (HALF, 2.6), closed=True),)


def _accumulator(w: float, h: float) -> Strokes:
    """Accumulator: upright capsule with its piston."""
    r = 2.6
    edge = (*arc((0, -2.4), r, pi, pi), *arc((0, 2.4), r, 0, pi))
    return (Polyline(edge, Ink.GLYPH, closed=True), _line((-r, 0), (r, 0)))


def _catch_can(w: float, h: float) -> Strokes:
    """Catch can: closed tank with the drops at its bottom."""
    return _closed_tank(w, h)


def _throttle(w: float, h: float) -> Strokes:
    """Throttle body: pipe with its plate."""
    return (_line((-HALF, -3), (HALF, -3)), _line((-HALF, 3), (HALF, 3)), _line((-2, 3), (2, -3)))


def _pipe(w: float, h: float) -> Strokes:
    """Charge pipe: its two walls, with a bend of air between."""
    x, y = w / 2, h / 2
    wall = min(2.2, y)
    return (
        _box(w, h),
        _line((-x, -wall), (x, -wall), ink=Ink.FINE),
        _line((-x, wall), (x, wall), ink=Ink.FINE),
        _line((-1.8, 0), (1.2, 0), ink=Ink.FINE),
        _arrow((2.2, 0), (1, 0)),
    )


def _solenoid(w: float, h: float) -> Strokes:
    """Solenoid valve: two ways in a box, the coil with its stroke beside it."""
    return (
        _box(w, h),
        _line((0, -h / 2), (0, h / 2), ink=Ink.FINE),
        _line((-w / 4 - 1.6, 0), (-w / 4 + 0.8, 0), ink=Ink.FINE),
        _arrow((-w / 4 + 1.8, 0), (1, 0)),
        _line((w / 4 - 1.6, -1.6), (w / 4 + 1.6, 1.6), ink=Ink.FINE),
    )


def _instrument(w: float, h: float) -> Strokes:
    """Sensor or gauge that the flow passes: circle with a needle."""
    return (
        Circle((0, 0), HALF, Ink.GLYPH),
        _line((0, 0), (2.2, -2.6)),
        Circle((0, 0), 0.6, Ink.SOLID),
    )


def _separator(w: float, h: float) -> Strokes:
    """Separator: diamond, a drop falling from the flow."""
    return (
        _diamond(),
        _line((-HALF, 0), (HALF, 0), ink=Ink.DASHED),
        _line((0, 0.6), (0, 2.2), ink=Ink.FINE),
        _arrow((0, 4.0), (0, 1), 1.8),
    )


def _compressor(w: float, h: float) -> Strokes:
    """Compressor: circle whose open triangle points out of it, as for a gas."""
    return Circle((0, 0), HALF, Ink.GLYPH), _line((HALF, 0), (1.2, -3.0), (1.2, 3.0), closed=True)


def _branch(w: float, h: float) -> Strokes:
    """Block where lines join: box with a dot."""
    return _box(w, h), Circle((0, 0), 1.1, Ink.SOLID)


def _plain(w: float, h: float) -> Strokes:
    """Anything without a symbol of its own: a box."""
    return (_box(w, h),)


@dataclass(frozen=True, slots=True)
class Symbol:
    """How a kind is drawn; ``stretches`` to its ports, or has a fixed size."""

    draw: Callable[[float, float], Strokes]
    stretches: bool = False
    widens: bool = False  # as wide as the ports above and below need, but not higher
    half_width: float = HALF
    up: float = HALF  # from the middle to its upper edge, where a lead from above ends [mm]
    down: float = HALF


#: First word or words met in the name of a kind decide; longer names stand first.
SYMBOLS: tuple[tuple[str, Symbol], ...] = (
    ("dry-sump pump", Symbol(_sump_pump, True)),
    ("dry-sump tank", Symbol(_tank, True)),
    ("take-off", Symbol(_plate, True)),
    ("plate", Symbol(_plate, True)),
    ("strainer", Symbol(_strainer)),
    ("screen", Symbol(_strainer)),
    ("flex", Symbol(_instrument)),
    ("sensor", Symbol(_instrument)),
    ("gauge", Symbol(_instrument)),
    ("solenoid", Symbol(_solenoid, True)),
    ("separator", Symbol(_separator)),
    ("charge pipe", Symbol(_pipe, True)),
    ("manifold block", Symbol(_branch, True)),
    ("y block", Symbol(_branch, True)),
    ("sump", Symbol(_tank, True)),
    ("airbox", Symbol(_closed_tank, True)),
    ("compressor", Symbol(_compressor)),
    ("canister", Symbol(_accumulator)),
    ("filter head", Symbol(_filter)),
    ("filter", Symbol(_filter)),
    ("air cleaner", Symbol(_filter)),
    ("roll-over", Symbol(_roll_over_valve, True)),
    ("check valve", Symbol(_check_valve)),
    ("relief", Symbol(_relief, half_width=4.0, up=7.6, down=6.0)),
    ("blow-off", Symbol(_relief, half_width=4.0, up=7.6, down=6.0)),
    ("wastegate", Symbol(_relief, half_width=4.0, up=7.6, down=6.0)),
    ("regulator", Symbol(_regulator, half_width=4.0, up=7.6, down=4.0)),
    ("thermostat", Symbol(_thermostat, True)),
    ("pump", Symbol(_pump)),
    ("radiator", Symbol(_radiator, True)),
    ("charge cooler", Symbol(_exchanger, True)),
    ("intercooler", Symbol(_radiator, True)),
    ("exchanger", Symbol(_exchanger, True)),
    ("oil cooler", Symbol(_cooler)),
    ("cooler", Symbol(_cooler)),
    ("turbo", Symbol(_turbo, True)),
    ("engine", Symbol(_engine, True)),
    ("rail", Symbol(_rail, widens=True, half_width=8.0, up=1.3, down=4.8)),
    ("manifold", Symbol(_manifold, widens=True, half_width=8.0, up=3.2, down=4.0)),
    ("throttle", Symbol(_throttle)),
    ("carburettor", Symbol(_throttle)),
    ("restrictor", Symbol(_restrictor)),
    ("jet", Symbol(_restrictor, up=3.0, down=3.0)),
    ("bulkhead", Symbol(_bulkhead, up=5.5, down=5.5)),
    ("tee", Symbol(_tee, half_width=0.9, up=0.9, down=0.9)),
    ("fuel cell", Symbol(_closed_tank, True)),
    ("surge", Symbol(_closed_tank, True)),
    ("swirl", Symbol(_closed_tank, True)),
    ("catch", Symbol(_catch_can, True)),
    ("tank", Symbol(_closed_tank, True)),
    ("reservoir", Symbol(_closed_tank, True)),
    ("accumulator", Symbol(_accumulator)),
    ("valve", Symbol(_valve)),
    ("tap", Symbol(_valve)),
    ("heater", Symbol(_radiator, True)),
)

_PLAIN = Symbol(_plain, True)


def symbol(kind: str) -> Symbol:
    """Symbol of a kind of component.

    Parameters
    ----------
    kind : str
        The kind, as in the car document.

    Returns
    -------
    Symbol
        Its symbol; a plain box where there is none.

    Examples
    --------
    >>> symbol("fuel pump") is symbol("water pump"), symbol("flux capacitor").stretches
    (True, True)
    """
    words = kind.lower()
    return next((s for key, s in SYMBOLS if key in words), _PLAIN)


def mirrored(mark: Mark) -> Mark:
    """Mirror a mark left to right.

    Parameters
    ----------
    mark : Polyline or Circle or Rect or Text
        A mark about (0, 0).

    Returns
    -------
    Polyline or Circle or Rect or Text
        Its mirror image; a text is not turned over.
    """
    if isinstance(mark, Polyline):
        return replace(mark, points=tuple((-x, y) for x, y in mark.points))
    if isinstance(mark, Circle):
        return replace(mark, at=(-mark.at[0], mark.at[1]))
    if isinstance(mark, Rect):
        b = mark.box
        return replace(mark, box=Box(-b.right, b.top, -b.left, b.bottom))
    return mark
