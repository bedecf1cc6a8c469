# SPDX-License-Identifier: Apache-2.0
"""The curve of what it costs to be surer: its points, its ceiling, its words."""

from linewright.scene.drawing import Circle, Text
from linewright.scene.plots import Page
from linewright.scene.plots_confidence import draw_curve
from linewright.studies.confidence import Chance
from linewright.studies.spares import Curve, Spares


def _curve() -> Curve:
    sets = [(0.40, 0.0), (0.55, 2_150.0), (0.62, 9_900.0)]
    points = tuple(Spares(share, (), price, price, Chance(share, 0.0035)) for share, price in sets)
    return Curve(points, Chance(0.65, 0.0034))


def _texts(best: int | None) -> list[str]:
    drawing = draw_curve(_curve(), "EUR", Page("Wren"), best)
    return [m.text for group in drawing.groups for m in group.marks if isinstance(m, Text)]


def test_every_set_is_a_point_with_its_chance_and_the_cheapest_in_all_is_named() -> None:
    drawing = draw_curve(_curve(), "EUR", Page("Wren"), 1)
    points = [m for group in drawing.groups for m in group.marks if isinstance(m, Circle)]

    assert len(points) == 3
    assert points[0].at[0] < points[1].at[0] < points[2].at[0]
    assert points[0].at[1] > points[1].at[1] > points[2].at[1]
    assert {"40 %", "55 %, least in all", "62 %"} <= set(_texts(1))


def test_it_says_in_words_where_it_starts_and_ends() -> None:
    words = " ".join(_texts(None))

    assert "the order is enough with a chance of 40 %" in words
    assert "for sale, of 65 %" in words


def test_prices_stand_in_the_currency_s_own_unit() -> None:
    texts = _texts(None)

    assert "Spares less the refunds to be expected, EUR" in texts
    assert "100" in texts  # 99.00 EUR ends at a tick of 100
