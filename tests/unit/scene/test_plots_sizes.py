# SPDX-License-Identifier: Apache-2.0
"""The picture of sizes: bars as long as the axis says, the chosen size marked, nothing runs off."""

import pytest

from linewright.flow.model import SizeRow
from linewright.scene.drawing import Box, Circle, Drawing, Ink, Rect, Text
from linewright.scene.plots import Page
from linewright.scene.plots_sizes import draw_sizes, size_plots
from tests.flows import BAR, band, flows, juniper

PAGE = Page("Juniper", "0123456789", "2026-11-25", 1, 1)


def _row(line: str, size: str, drop: float | None, *, is_chosen: bool = False) -> SizeRow:
    lost = None if drop is None else band(drop * BAR, 0.25)
    return SizeRow(
        line, size, "rubber braided", "full-power", 0.0127, lost, 3.0, 0.001, 1.5, 20.0, is_chosen,
        "gallery pressure 2.8 bar: may miss 3.2 bar",
    )  # fmt: skip


ROWS = (
    _row("O01", "-12", 0.8),
    _row("O01", "-16", 0.2, is_chosen=True),
    _row("O01", "-20", None),
    _row("O02", "-10", 0.4, is_chosen=True),
)


def _drawn() -> Drawing:
    return draw_sizes(juniper(), "oil", ROWS, PAGE)


def test_bars_and_bands_are_as_long_as_the_axis_says() -> None:
    marks = _drawn().groups[0].marks
    bars = [m.box for m in marks if isinstance(m, Rect) and m.ink is Ink.BAR]
    bands = [m.box for m in marks if isinstance(m, Rect) and m.ink is Ink.AREA]

    assert len(bars) == len(bands) == 3
    assert bars[0].width / bars[1].width == pytest.approx(4.0)
    assert bars[2].width / bars[1].width == pytest.approx(2.0)
    assert bands[0].width == pytest.approx(0.5 * bars[0].width)
    assert (bands[0].left + bands[0].right) / 2 == pytest.approx(bars[0].right)


def test_the_size_in_the_plan_has_a_dot_and_one_without_a_drop_says_so() -> None:
    marks = _drawn().groups[0].marks
    dots = [m.at[1] for m in marks if isinstance(m, Circle)]
    names = {m.text: m for m in marks if isinstance(m, Text) and m.text.startswith("-")}

    assert [m.text for m in marks if isinstance(m, Text) and m.text == "not known"] == ["not known"]
    assert len(dots) == 2
    assert names["-16"].bold
    assert not names["-12"].bold
    assert min(abs(names["-16"].at[1] - y) for y in dots) < 1.5


def test_no_word_runs_off_the_sheet_or_over_another() -> None:
    drawing = _drawn()
    texts = [m for m in drawing.groups[0].marks if isinstance(m, Text)]
    sheet = Box(8.0, 8.0, drawing.width - 8.0, drawing.height - 8.0)

    assert all(sheet.holds(text.box) for text in texts)
    assert not [
        (one.text, two.text)
        for i, one in enumerate(texts)
        for two in texts[i + 1 :]
        if one.box.meets(two.box)
    ]


def test_a_system_has_a_sheet_with_the_line_that_limits_first() -> None:
    (system, name, title, drawing), *_ = size_plots(juniper(), flows(), ("oil", "fuel"))
    heads = [t.text for t in drawing.groups[0].marks if isinstance(t, Text) and t.bold]

    assert (system, name, title) == ("oil", "oil-sizes", "Sizes of oil")
    assert heads[0].startswith("O01, ")
    assert size_plots(juniper(), flows(), ("charge-air",)) == ()
