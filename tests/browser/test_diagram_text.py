# SPDX-License-Identifier: Apache-2.0
"""The widths that keep labels apart, measured in a browser that has the font."""

import base64
import os
import shutil
from importlib.resources import files

import pytest
from playwright.sync_api import Error, sync_playwright

from linewright.faces.files.svg import svg
from linewright.scene.paper import Title
from linewright.scene.schematic import compose, draw
from tests.unit.scene import scene_plans

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")

FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]

# What is left of a text when textLength no longer holds its width.
_MEASURE = """
async () => {
  await document.fonts.load('400 20px Inter'); await document.fonts.load('600 20px Inter');
  await document.fonts.ready;
  return [...document.querySelectorAll('text')].map(text => {
    const wanted = parseFloat(text.getAttribute('textLength'));
    text.removeAttribute('textLength'); text.removeAttribute('lengthAdjust');
    return [text.textContent, wanted, text.getComputedTextLength()];
  });
}
"""


def _font() -> str:
    raw = files("fontpkg_inter").joinpath("files", "Inter[opsz,wght].ttf").read_bytes()
    data = base64.b64encode(raw).decode("ascii")
    return (
        "<style>@font-face{font-family:Inter;font-weight:100 900;"
        f"src:url(data:font/ttf;base64,{data})}}</style>"
    )


def test_text_in_chromium_is_as_wide_as_reckoned() -> None:
    if CHROMIUM is None:
        if os.environ.get("CI"):
            pytest.fail("chromium is not installed here; the browser check must run under CI.")
        pytest.skip("chromium is not installed: text widths were not checked in a browser")
    drawings = [
        draw(scene_plans.roadster(), "oil"),
        draw(scene_plans.e85(), "fuel"),
        compose(scene_plans.loop_pair(), Title("Pair", "Two loops", "", "", 1, 1)),
    ]
    measured = []
    with sync_playwright() as play:
        try:
            browser = play.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        except Error as error:
            pytest.fail(f"chromium does not start: {error}")
        page = browser.new_page()
        for drawing in drawings:
            page.set_content(_font() + svg(drawing))
            measured += page.evaluate(_MEASURE)
        browser.close()
    wrong = [
        (text, wanted, found)
        for text, wanted, found in measured
        # A hundredth of a millimetre of rounding in the document, 1 % for the browser's hinting.
        if abs(found - wanted) > 0.02 + 0.01 * wanted
    ]

    assert len(measured) == sum(len(d.texts) for d in drawings)
    assert wrong == []
