# SPDX-License-Identifier: Apache-2.0
"""Widths of texts against the font itself, instanced at the weights in use."""

from importlib.resources import files

import pytest
from fontTools.ttLib import TTFont
from fontTools.varLib.instancer import instantiateVariableFont

from linewright.scene.drawing import ASCENT, DESCENT, Anchor
from linewright.scene.text import set_text, shortened, text_width, wrapped

SAYINGS = (
    "O01 -16 suction",
    "G 1/2, M18x1.5 (f)",
    "Fuel rail: 5 bar, 20 °C",
    "▲ highest, z 620 mm",
)


@pytest.fixture(scope="module", params=[(400, False), (600, True)])
def cut(request: pytest.FixtureRequest) -> tuple[TTFont, bool]:
    weight, bold = request.param
    path = files("fontpkg_inter").joinpath("files", "Inter[opsz,wght].ttf")
    with path.open("rb") as stream:
        font = instantiateVariableFont(TTFont(stream), {"wght": weight, "opsz": 14})
    return font, bold


@pytest.mark.parametrize("text", SAYINGS)
def test_widths_are_those_of_the_instanced_font(cut: tuple[TTFont, bool], text: str) -> None:
    font, bold = cut
    names = [font.getBestCmap()[ord(c)] for c in text]
    units = sum(font["hmtx"][name][0] for name in names)

    # An instance rounds each advance to a whole unit, 1/2048 em.
    assert text_width(text, 10.0, bold=bold) == pytest.approx(
        units / font["head"].unitsPerEm * 10.0, abs=len(text) * 10.0 / 2048
    )


def test_letters_and_figures_stay_within_the_box(cut: tuple[TTFont, bool]) -> None:
    font, _ = cut
    em = font["head"].unitsPerEm
    plain = "".join(chr(c) for c in range(0x21, 0x7F) if chr(c) not in "|@{}[]_$")
    glyphs = [font["glyf"][font.getBestCmap()[ord(c)]] for c in plain + "°×…▲▼"]

    assert max(g.yMax for g in glyphs) / em <= ASCENT
    assert min(g.yMin for g in glyphs) / em >= -DESCENT


def test_the_box_follows_anchor_and_turn() -> None:
    start = set_text("F05", (10.0, 20.0), 3.0)
    end = set_text("F05", (10.0, 20.0), 3.0, anchor=Anchor.END)
    upright = set_text("F05", (10.0, 20.0), 3.0, upwards=True)

    assert start.box.left == 10.0
    assert end.box.right == pytest.approx(10.0)
    assert upright.box.bottom == 20.0
    assert upright.box.height == pytest.approx(start.box.width)


def test_a_long_text_is_cut_with_an_ellipsis_and_fits() -> None:
    text = shortened("the donor car's steel return line", 30.0, 2.7)

    assert text.endswith("…")
    assert text_width(text, 2.7) <= 30.0
    assert shortened("short", 30.0, 2.7) == "short"


def test_wrapping_loses_no_word_and_keeps_the_width() -> None:
    text = "dry-sump pump, one pressure and two scavenge stages"
    lines = wrapped(text, 40.0, 2.7)

    assert " ".join(lines) == text
    assert all(text_width(line, 2.7) <= 40.0 for line in lines)


def test_a_character_the_font_lacks_is_reckoned_wide_not_forgotten() -> None:
    assert text_width("漢", 10.0) >= 10.0
