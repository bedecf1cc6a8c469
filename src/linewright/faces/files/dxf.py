# SPDX-License-Identifier: Apache-2.0
"""Views and centrelines as DXF for CAD: R2010, millimetres at full size, layers by system."""

import io
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from math import acos, dist
from typing import TYPE_CHECKING, Any

from linewright.base.vectors import Vector, dot
from linewright.car.model import ZoneKind
from linewright.scene.drawing import Drawing, Polyline, Text
from linewright.scene.linetypes import ink_of
from linewright.scene.spatial import EYES, View, draw_view, view_frame
from linewright.scene.spatial_marks import extents, is_level, slab_corners
from linewright.scene.spatial_outlines import Eye, hull, reach, seen
from linewright.scene.spatial_sheet import HATCHES
from linewright.scene.spatial_things import Hose, Space
from linewright.space.path import Arc, Path, elements

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document
    from ezdxf.layouts.layout import Modelspace

#: How far a chord may lie off its arc. [m]
SAGITTA = 1e-4

_MM = 1000.0

#: Space between two views, and height of text. [mm]
_APART, _TEXT = 400.0, 25.0

#: Height of capitals, which DXF goes by, in the height of type. [-]
_CAPITALS = 0.73

_BODIES, _ZONES, _WALLS, _PORTS, _LABELS, _GUIDE = (
    "BODIES",
    "ZONES",
    "WALLS",
    "PORTS",
    "LABELS",
    "NOTES",
)
_GROUND = "GROUND"

_LAYERS = (
    (_BODIES, 8),
    (_ZONES, 9),
    (_WALLS, 7),
    (_PORTS, 7),
    (_LABELS, 7),
    (_GUIDE, 7),
    (_GROUND, 8),
)

_NOTE = "Verify on the car. Not a statement that a car is safe or legal."


def chords(path: Path, sagitta: float = SAGITTA) -> tuple[Vector, ...]:
    """Centreline as straight chords, each arc cut so finely that none lies far off it.

    Parameters
    ----------
    path : Path
        The centreline.
    sagitta : float
        How far a chord may lie off its arc. [m]

    Returns
    -------
    tuple of Vector
        Points, both ends and every tangent point among them. [m]

    Examples
    --------
    >>> bend = Path(((0.0, 0.0, 0.0), (0.3, 0.0, 0.0), (0.3, 0.3, 0.0)), (0.1,))
    >>> len(chords(bend, 1e-3)), len(chords(bend, 1e-4))
    (9, 21)
    """
    from math import ceil, cos, sin

    points = [path.corners[0]]
    for piece in elements(path):
        if isinstance(piece, Arc):
            step = 2.0 * acos(max(0.0, 1.0 - sagitta / piece.radius))
            count = max(1, ceil(piece.angle / step))
            for i in range(1, count):
                turn = piece.angle * i / count
                along, inward = piece.radius * sin(turn), piece.radius * (1.0 - cos(turn))
                points.append(
                    (
                        piece.start[0] + along * piece.along[0] + inward * piece.inward[0],
                        piece.start[1] + along * piece.along[1] + inward * piece.inward[1],
                        piece.start[2] + along * piece.along[2] + inward * piece.inward[2],
                    )
                )
        points.append(piece.end)
    return tuple(points)


def hose_layer(hose: Hose) -> str:
    """Layer of a hose: the id of its system.

    Parameters
    ----------
    hose : Hose
        The hose.

    Returns
    -------
    str
        Name of the layer.
    """
    return f"HOSE-{hose.system_id or 'none'}"


@contextmanager
def _fixed_meta_data() -> Iterator[None]:
    """No time of day and no random ids in the file, so that it has the same bytes twice."""
    from ezdxf._options import options

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _document(space: Space) -> "Document":
    from ezdxf import colors, units
    from ezdxf.filemanagement import new

    with _fixed_meta_data():
        document = new("R2010", setup=False)
    document.units = units.MM
    document.header["$INSUNITS"] = units.MM
    document.header["$MEASUREMENT"] = 1
    document.linetypes.add("HIDDEN", [18.0, 12.0, -6.0], description="behind a body")
    for name, colour in _LAYERS:
        document.layers.add(name, color=colour)
    for hose in space.hoses:
        name = hose_layer(hose)
        if name not in document.layers:
            layer = document.layers.add(name)
            ink = ink_of(hose.system)
            layer.rgb = colors.RGB(int(ink[1:3], 16), int(ink[3:5], 16), int(ink[5:7], 16))
    return document


def _text(document: "Document") -> str:
    with _fixed_meta_data():
        stream = io.StringIO()
        document.write(stream)
    return stream.getvalue()


def _audited(document: "Document") -> "Document":
    auditor = document.audit()
    if auditor.has_errors:
        raise AssertionError(f"DXF is not sound: {auditor.errors[0].message}")
    return document


def centrelines_dxf(space: Space) -> str:
    """Centrelines of all hoses as 3D polylines.

    Parameters
    ----------
    space : Space
        The car in space.

    Returns
    -------
    str
        DXF text, R2010, in mm, in the axes of the car. Layer ``HOSE-<system>`` holds the free
        hose from collar to collar, ``HOSE-<system>-ENDS`` its ends from port face to collar,
        ``LABELS`` its number at its middle. The same text for the same car.
    """
    document = _document(space)
    model = document.modelspace()
    for hose in space.hoses:
        layer = hose_layer(hose)
        ends = f"{layer}-ENDS"
        if ends not in document.layers:
            shade = document.layers.get(layer).rgb
            assert shade is not None
            document.layers.add(ends).rgb = shade
        points = chords(hose.path)
        model.add_polyline3d([_mm(p) for p in points], dxfattribs={"layer": layer})
        for end in hose.ends:
            if len(end) > 1:
                model.add_polyline3d([_mm(p) for p in end], dxfattribs={"layer": ends})
        middle = points[len(points) // 2]
        model.add_text(hose.id, height=_TEXT, dxfattribs={"layer": _LABELS, "insert": _mm(middle)})
    return _text(_audited(document))


def _mm(point: Sequence[float]) -> tuple[float, float, float]:
    return point[0] * _MM, point[1] * _MM, point[2] * _MM


class _Sheet:
    """One view in model space, moved beside the others."""

    def __init__(self, model: "Modelspace", space: Space, eye: Eye, shift: Sequence[float]) -> None:
        self.model, self.space, self.eye = model, space, eye
        self.shift = shift

    def at(self, flat: Sequence[float]) -> tuple[float, float]:
        return flat[0] * _MM + self.shift[0], flat[1] * _MM + self.shift[1]

    def point(self, point: Vector) -> tuple[float, float]:
        return self.at(self.eye.flat(point))

    def outline(self, points: Sequence[Sequence[float]], layer: str, **more: Any) -> None:
        self.model.add_lwpolyline(
            [self.at(p) for p in points], close=True, dxfattribs={"layer": layer, **more}
        )

    def labels(self, drawing: Drawing) -> None:
        """Labels and leaders where the printed view has them: there none covers another."""
        found = view_frame(self.space, self.eye, show="metric")
        if found is None:
            return
        for group in drawing.groups:
            if not group.about.startswith("label-"):
                continue
            for mark in group.marks:
                if isinstance(mark, Text):
                    self.model.add_text(
                        mark.text,
                        height=_CAPITALS * mark.size * found.ratio,
                        dxfattribs={"layer": _LABELS, "insert": self.at(found.view(mark.at))},
                    )
                elif isinstance(mark, Polyline):
                    a, b = (self.at(found.view(p)) for p in mark.points)
                    self.model.add_line(a, b, dxfattribs={"layer": _LABELS})

    def label(self, text: str, at: tuple[float, float], layer: str = _LABELS) -> None:
        self.model.add_text(text, height=_TEXT, dxfattribs={"layer": layer, "insert": at})

    def draw(self) -> None:
        for solid in sorted(self.space.solids, key=lambda s: s.id):
            body = seen(solid, self.eye)
            if body is not None:
                self.outline(body.outline, _BODIES)
                for face in body.faces:
                    self.outline(face, _BODIES)
        for zone in self.space.zones:
            if zone.zone is not None and seen(zone, self.eye) is not None:
                self._zone(reach(zone, self.eye), zone.zone)
        self._walls()
        self._ground()
        for hose in self.space.hoses:
            self._hose(hose)
        for port in self.space.dots:
            at = self.point(port.at)
            self.model.add_circle(at, 4.0, dxfattribs={"layer": _PORTS})
            if port.out is not None:
                out = (
                    at[0] + 30.0 * dot(port.out, self.eye.right),
                    at[1] + 30.0 * dot(port.out, self.eye.up),
                )
                if dist(at, out) > 1.0:
                    self.model.add_line(at, out, dxfattribs={"layer": _PORTS})

    def _zone(self, outline: Sequence[Sequence[float]], kind: ZoneKind) -> None:
        from math import degrees

        self.outline(outline, _ZONES, linetype="HIDDEN")
        for angle in HATCHES[kind][0]:
            hatch = self.model.add_hatch(dxfattribs={"layer": _ZONES})
            hatch.set_pattern_fill("LINE", scale=20.0, angle=degrees(angle))
            hatch.paths.add_polyline_path([self.at(p) for p in outline], is_closed=True)

    def _ground(self) -> None:
        """The ground, where it is seen from its edge: one stroke below the whole view."""
        if self.space.ground is None or not is_level(self.eye):
            return
        left, right, _, _ = _box(self.space, self.eye)
        height = self.space.ground * _MM
        a, b = ((x + self.shift[0], height + self.shift[1]) for x in (left - _APART / 4, right))
        self.model.add_line(a, b, dxfattribs={"layer": _GROUND})
        self.label("the ground", (a[0], a[1] + _TEXT / 4), _GROUND)

    def _walls(self) -> None:
        for slab in self.space.slabs:
            if slab.wide is None or slab.high is None:
                continue
            corners = slab_corners(slab, slab.wide, slab.high)
            self.outline(hull([self.eye.flat(p) for p in corners]), _WALLS)
            if abs(dot(slab.points, self.eye.toward)) > 0.2:
                for at, radius in slab.holes:
                    self.model.add_circle(
                        self.point(at), max(radius * _MM, 1.0), dxfattribs={"layer": _WALLS}
                    )

    def _hose(self, hose: Hose) -> None:
        layer = hose_layer(hose)
        points = chords(hose.path)
        flat = [self.point(p) for p in points]
        # Seen end on a hose is a ring, not a stroke of no length.
        if max(dist(flat[0], p) for p in flat) < 1.0:
            self.model.add_circle(flat[0], hose.outside * _MM / 2, dxfattribs={"layer": layer})
        else:
            width = hose.outside * _MM
            self.model.add_lwpolyline(flat, dxfattribs={"layer": layer, "const_width": width})
        for end in hose.ends:
            row = [self.point(p) for p in end]
            if len(row) > 1 and max(dist(row[0], p) for p in row) > 1.0:
                self.model.add_lwpolyline(row, dxfattribs={"layer": layer})


def _box(space: Space, eye: Eye) -> tuple[float, float, float, float]:
    bodies = [b for b in (seen(s, eye) for s in space.solids) if b is not None]
    found = extents(space, eye, bodies)
    assert found is not None
    left, right, low, high = (value * _MM for value in found)
    return left, right, low, high


def views_dxf(space: Space, car_name: str, revision: str = "") -> str | None:
    """Plan, side and rear view at full size, in line with one another.

    Parameters
    ----------
    space : Space
        The car in space.
    car_name, revision : str
        What the note says.

    Returns
    -------
    str or None
        DXF text, R2010, in mm; None where nothing has a place. The side view keeps the car's x
        and z as its own; the plan stands under it, the rear view to its right at equal heights.
        Layers ``HOSE-<system>``, ``BODIES``, ``ZONES``, ``WALLS``, ``PORTS``, ``LABELS``,
        ``GROUND``, ``NOTES``.
    """
    if space.is_empty:
        return None
    document = _document(space)
    model = document.modelspace()
    side, plan, rear = (_box(space, EYES[v]) for v in (View.SIDE, View.PLAN, View.REAR))
    shifts = {
        View.SIDE: (0.0, 0.0),
        View.PLAN: (0.0, side[2] - _APART - plan[3]),
        View.REAR: (max(side[1], plan[1]) + _APART - rear[0], 0.0),
    }
    for view, shift in shifts.items():
        sheet = _Sheet(model, space, EYES[view], shift)
        sheet.draw()
        printed = draw_view(space, view, car_name=car_name)
        if printed is not None:
            sheet.labels(printed)
        left, _, _, high = {View.SIDE: side, View.PLAN: plan, View.REAR: rear}[view]
        title = f"{view.value.capitalize()} view, full size in mm"
        sheet.label(title, (left + shift[0], high + shift[1] + 3 * _TEXT), _GUIDE)
    foot = plan[2] + shifts[View.PLAN][1] - 4 * _TEXT
    words = f"{car_name}, revision {revision or 'not kept'}. {_NOTE}"
    model.add_text(words, height=_TEXT, dxfattribs={"layer": _GUIDE, "insert": (plan[0], foot)})
    return _text(_audited(document))
