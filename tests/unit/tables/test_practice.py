# SPDX-License-Identifier: Apache-2.0
"""Defaults of the trade, each in SI and with its grade."""

from pathlib import Path

import pytest

from linewright.base.errors import TableError
from linewright.base.evidence import Grade
from linewright.tables.load import rows
from linewright.tables.practice import SETTINGS, figure, figures, setting, settings

ROOT = Path(__file__).parents[3]


@pytest.mark.parametrize(
    ("name", "value", "unit", "grade"),
    [
        ("slack", 0.06, "-", Grade.PRACTICE),
        ("engine-slack", 0.038, "m", Grade.READ),  # 1.5 in, US Army AL0907 p. 59
        ("cut-allowance", 0.025, "m", Grade.PRACTICE),
        ("over-buy-share", 0.10, "-", Grade.PRACTICE),
        ("over-buy-least", 1.0, "m", Grade.PRACTICE),
        ("clip-spacing", 0.45, "m", Grade.PRACTICE),
        ("clip-spacing-fuel", 0.30, "m", Grade.PRACTICE),
        ("spare-seals-share", 0.50, "-", Grade.PRACTICE),
        ("spare-seals-least", 2.0, "-", Grade.PRACTICE),
        ("spare-hose-end-above", 3.0, "-", Grade.PRACTICE),
        ("bulkhead-hole-clearance", 0.0004, "m", Grade.RELAYED),
        ("stick-out", 0.060, "m", Grade.PRACTICE),
        ("choke-pressure", 0.50, "-", Grade.PRACTICE),
        ("suction-filter", 100e-6, "m", Grade.PRACTICE),
        ("suction-velocity", 1.2, "m/s", Grade.RELAYED),
        ("hose-collapse-length", 0.457, "m", Grade.READ),  # 18 in, MIL-DTL-6000D 6.1
        ("small-thread-mass", 0.1, "kg", Grade.PRACTICE),
    ],
)
def test_a_default_is_in_si_with_its_grade(
    name: str, value: float, unit: str, grade: Grade
) -> None:
    found = setting(name)

    assert found.value == pytest.approx(value)
    assert (found.unit, found.grade) == (unit, grade)


def test_a_default_says_what_it_is_of() -> None:
    assert setting("slack").basis == "slack of a hose as a share of the taut assembly"
    assert [name for name, figure in settings().items() if not figure.basis] == []


def test_every_row_is_a_default_and_no_name_stands_twice() -> None:
    names = [row["name"] for row in rows("settings")]

    assert list(settings()) == names
    assert list(SETTINGS) == names


def test_the_defaults_of_slack_lie_within_two_handbooks() -> None:
    # 5 to 8 %: FAA-H-8083-30 chapter 7 and NAVEDTRA 14105.
    assert 0.05 <= setting("slack").value <= 0.08


@pytest.mark.parametrize("name", ["clip-spacing", "clip-spacing-fuel"])
def test_clips_stand_closer_than_a_manual_allows(name: str) -> None:
    # 24 in at most: FAA AC 43.13-1B 9-30.
    assert setting(name).value <= 24 * 0.0254


def test_a_suction_line_is_choked_sooner_than_a_pressure_line() -> None:
    assert setting("choke-suction").value > setting("choke-pressure").value


def test_what_is_not_among_the_defaults_is_named() -> None:
    with pytest.raises(TableError) as caught:
        setting("luck")

    assert str(caught.value) == "There is no setting luck in settings.csv."


@pytest.mark.parametrize(
    ("name", "value", "unit", "grade"),
    [
        ("hottest-oil", 398.15, "K", Grade.PRACTICE),
        ("length-change-least", -0.04, "-", Grade.READ),  # FAA AC 43.13-1B fig. 9-9
        ("clock-tolerance", 3.0, "deg", Grade.READ),  # MIL-DTL-83796/5
        ("velocity-oil-return", 4.5, "m/s", Grade.PRACTICE),
        ("catch-can-least", 0.9e-3, "m3", Grade.READ),
        ("unbeaded-pressure", 0.5e5, "Pa", Grade.PRACTICE),
    ],
)
def test_a_figure_of_the_practice_is_in_si_with_its_grade(
    name: str, value: float, unit: str, grade: Grade
) -> None:
    found = figure(name)

    assert found.value == pytest.approx(value)
    assert (found.unit, found.grade) == (unit, grade)


def test_no_name_is_a_setting_and_a_figure_that_none_can_set() -> None:
    assert not set(settings()) & set(figures())


def test_every_setting_is_reckoned_with_by_some_stage() -> None:
    """A key of [settings] that changes nothing would deceive who sets it."""
    code = "".join(path.read_text(encoding="utf-8") for path in (ROOT / "src").rglob("*.py"))
    built = ("-spread-", "confidence-right-", "confidence-share-")
    idle = [
        name
        for name in settings()
        if f'"{name}"' not in code and not any(words in name for words in built)
    ]

    assert idle == []
    assert 'f"confidence-right-{' in code
    assert 'f"confidence-share-{' in code
    assert 'f"place-spread-{' in code
    assert 'f"tilt-spread-{' in code


def test_a_figure_that_is_not_there_is_named() -> None:
    with pytest.raises(TableError) as caught:
        figure("luck")

    assert str(caught.value) == "There is no figure luck in practice.csv."
