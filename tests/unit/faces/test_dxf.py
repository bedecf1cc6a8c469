# SPDX-License-Identifier: Apache-2.0
"""DXF files are sound, in millimetres, layered, and as long as the hoses are."""

import io
from itertools import pairwise
from math import dist

import ezdxf
import pytest
from ezdxf.document import Drawing

from linewright.faces.files.dxf import SAGITTA, centrelines_dxf, chords, views_dxf
from linewright.scene.spatial_things import Space
from linewright.space.path import length, sample
from tests.unit.scene.spaces import BENT, bay, hose


def read(text: str) -> Drawing:
    document = ezdxf.read(io.StringIO(text))
    auditor = document.audit()

    assert not auditor.errors
    assert not auditor.fixes
    return document


def views() -> Drawing:
    text = views_dxf(bay(), "Test", "abc")

    assert text is not None
    return read(text)


def test_both_files_are_r2010_in_millimetres_and_pass_the_audit() -> None:
    for document in (views(), read(centrelines_dxf(bay()))):
        assert document.dxfversion == "AC1024"
        assert document.header["$INSUNITS"] == 4


def test_centrelines_are_as_long_as_the_developed_hoses() -> None:
    model = read(centrelines_dxf(bay())).modelspace()
    lines = [[tuple(p) for p in e.points()] for e in model.query('POLYLINE[layer=="HOSE-oil"]')]

    for points, each in zip(lines, bay().hoses, strict=True):
        drawn = sum(dist(a, b) for a, b in pairwise(points))
        # A chord of half angle h over its arc is sin(h)/h: 1 - h²/6, with 1 - cos(h) = sagitta / R.
        assert drawn == pytest.approx(length(each.path) * 1000, rel=SAGITTA / 3 / 0.1)
        assert points[0] == pytest.approx([1000 * v for v in each.path.corners[0]])
        assert points[-1] == pytest.approx([1000 * v for v in each.path.corners[-1]])


def test_no_chord_lies_farther_off_its_arc_than_a_millimetre() -> None:
    points = chords(BENT, 1e-3)
    worst = 0.0
    for x, y, z in sample(BENT, 0.002):
        near = min(_off((float(x), float(y), float(z)), a, b) for a, b in pairwise(points))
        worst = max(worst, near)

    assert 0.5e-3 < worst <= 1.0e-3 + 1e-9
    assert max(min(dist(p, tuple(q)) for q in sample(BENT, 1e-4)) for p in points) < 1e-4


def _off(
    p: tuple[float, float, float], a: tuple[float, float, float], b: tuple[float, float, float]
) -> float:
    far = dist(a, b) ** 2
    t = sum((p[k] - a[k]) * (b[k] - a[k]) for k in range(3)) / far
    t = min(1.0, max(0.0, t))
    return dist(p, tuple(a[k] + t * (b[k] - a[k]) for k in range(3)))


def test_views_have_layers_for_systems_bodies_zones_walls_ports_and_labels() -> None:
    document = views()
    model = document.modelspace()
    used = {entity.dxf.layer for entity in model}

    assert used == {"HOSE-oil", "BODIES", "ZONES", "WALLS", "PORTS", "LABELS", "NOTES"}
    assert document.layers.get("HOSE-oil").rgb == (0xD5, 0x5E, 0x00)
    texts = [e.dxf.text for e in model.query("TEXT")]
    assert {word: texts.count(word) for word in ("O01", "O02", "wheel")} == {
        "O01": 3,
        "O02": 3,
        "wheel": 3,
    }
    assert (
        "Test, revision abc. Verify on the car. Not a statement that a car is safe or legal."
        in (texts)
    )


def test_hoses_in_the_views_have_their_true_width_and_the_side_view_its_own_place() -> None:
    lines = list(views().modelspace().query('LWPOLYLINE[layer=="HOSE-oil"]'))
    wide = [e for e in lines if e.dxf.const_width > 0]

    assert {round(e.dxf.const_width, 6) for e in wide} == {25.4, 25.0}
    starts = {(round(e[0][0], 6), round(e[0][1], 6)) for e in wide}
    assert (0.0, 300.0) in starts  # O01 starts at x 0, z 300 mm


def test_zones_are_hatched_and_walls_show_their_holes_face_on() -> None:
    model = views().modelspace()
    holes = list(model.query('CIRCLE[layer=="WALLS"]'))

    assert len(model.query('HATCH[layer=="ZONES"]')) == 3
    assert [e.dxf.radius for e in holes] == [15.0]


def test_the_same_car_gives_the_same_bytes_and_an_empty_one_no_view() -> None:
    assert views_dxf(bay(), "Test") == views_dxf(bay(), "Test")
    assert centrelines_dxf(bay()) == centrelines_dxf(bay())
    assert views_dxf(Space(), "Test") is None


def test_a_hose_without_a_system_has_a_layer_too() -> None:
    from dataclasses import replace

    stray = replace(hose("R01", BENT), system_id="", system="A")
    document = read(centrelines_dxf(Space(hoses=(stray,))))

    assert "HOSE-none" in document.layers


def test_the_ground_is_a_stroke_of_its_own_layer_from_the_side_and_from_behind() -> None:
    from dataclasses import replace

    text = views_dxf(replace(bay(), ground=-0.12), "Test")
    assert text is not None
    model = read(text).modelspace()
    strokes = list(model.query('LINE[layer=="GROUND"]'))

    assert len(strokes) == 2
    for stroke in strokes:
        assert stroke.dxf.start.y == pytest.approx(-120.0)
        assert stroke.dxf.end.y == pytest.approx(-120.0)
        assert stroke.dxf.end.x - stroke.dxf.start.x > 1000.0
    assert len(views().modelspace().query('LINE[layer=="GROUND"]')) == 0
