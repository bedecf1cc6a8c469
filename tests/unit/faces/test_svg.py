# SPDX-License-Identifier: Apache-2.0
"""Drawings as SVG: valid, true to size, told in words, the same bytes each time."""

import xml.etree.ElementTree as ET

import pytest

from linewright.faces.files.svg import svg
from linewright.scene.drawing import Drawing
from linewright.scene.schematic import draw
from tests.unit.scene.scene_plans import e85

NS = {"s": "http://www.w3.org/2000/svg"}


@pytest.fixture(scope="module")
def drawing() -> Drawing:
    return draw(e85(), "fuel")


def test_the_size_is_in_millimetres_and_the_view_box_too(drawing: Drawing) -> None:
    root = ET.fromstring(svg(drawing))

    assert (root.get("width"), root.get("height")) == ("297mm", "210mm")
    assert root.get("viewBox") == "0 0 297 210"


def test_who_cannot_see_it_is_told_components_and_lines(drawing: Drawing) -> None:
    root = ET.fromstring(svg(drawing))

    assert root.findtext("s:title", namespaces=NS) == "E85 boot: Fuel system, E85"
    told = root.findtext("s:desc", namespaces=NS) or ""
    assert "FP fuel pump" in told
    assert "F05 -6 from BH1.outside to FR.in" in told
    assert "verify on the car" in told


def test_all_text_is_text_in_the_one_family(drawing: Drawing) -> None:
    root = ET.fromstring(svg(drawing))
    texts = [t.text for t in root.iterfind(".//s:text", NS)]

    assert texts == [t.text for t in drawing.texts]
    assert 'font-family:Inter,"Inter Variable",sans-serif' in (root.findtext("s:style", "", NS))


def test_the_same_drawing_gives_the_same_bytes(drawing: Drawing) -> None:
    assert svg(drawing) == svg(draw(e85(), "fuel"))


def test_dark_changes_colours_and_nothing_else(drawing: Drawing) -> None:
    light, dark = (ET.fromstring(svg(drawing, dark=d)) for d in (False, True))
    for root in (light, dark):
        style = root.find("s:style", NS)
        ground = root.find("s:rect", NS)
        assert style is not None
        assert ground is not None
        style.text = ""
        ground.set("style", "")

    assert ET.tostring(light) == ET.tostring(dark)
    assert svg(drawing) != svg(drawing, dark=True)


def test_every_class_in_use_has_its_rule(drawing: Drawing) -> None:
    text = svg(drawing)
    root = ET.fromstring(text)
    style = root.findtext("s:style", "", NS)
    used = {c for e in root.iter() for c in (e.get("class") or "").split()} - {"pipe"}

    assert [c for c in sorted(used) if f".{c}" not in style] == []


def test_names_with_signs_of_markup_are_written_safely(drawing: Drawing) -> None:
    from dataclasses import replace

    bad = replace(drawing, title='5 < 6 & "7" <script>')

    assert ET.fromstring(svg(bad)).findtext("s:title", "", NS) == bad.title
