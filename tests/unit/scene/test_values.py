# SPDX-License-Identifier: Apache-2.0
"""Computed values as people read them: units by exact definitions, digits by the band."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linewright.base.evidence import Figure, Grade
from linewright.car.model import Condition, Running
from linewright.flow.model import Band
from linewright.scene import values
from linewright.scene.values import (
    ABSOLUTE,
    GAUGE,
    Scale,
    ambient,
    banded,
    condition_at,
    condition_words,
    like,
    number,
    plain,
    scale,
    volume_flow,
)
from tests.flows import juniper


@pytest.mark.parametrize(
    ("value", "unit", "show", "told", "shown"),
    [
        (101325.0, "Pa", "metric", ABSOLUTE, "1.01 bar absolute"),
        (101325.0, "Pa", "inch", ABSOLUTE, "14.7 psi absolute"),
        (101325.0 + 6894.757293168, "Pa", "inch", GAUGE, "1 psi"),
        (25_000.0, "Pa", "metric", "difference", "0.25 bar"),
        (373.15, "K", "metric", "", "100 °C"),
        (373.15, "K", "inch", "", "212 °F"),
        (10.0, "K diff", "inch", "", "18 °F"),
        (1e-3 / 60, "m3/s", "metric", "", "1 L/min"),
        (3.785411784e-3 / 60, "m3/s", "inch", "", "1 gpm"),
        (0.3048, "m/s", "inch", "", "1 ft/s"),
        (745.6998715822702, "W", "inch", "", "1 hp"),
        (0.0222, "m", "metric", "", "22.2 mm"),
        (4.4482216152605, "N", "inch", "", "1 lbf"),
        (3.0, "V", "metric", "", "3 V"),
    ],
)
def test_a_value_is_shown_in_the_builders_unit(
    value: float, unit: str, show: str, told: str, shown: str
) -> None:
    assert plain(value, scale(unit, show, told)) == shown


@pytest.mark.parametrize(
    ("low", "value", "high", "shown"),
    [
        (50e3, 62e3, 74e3, "0.62 bar (0.50 to 0.74)"),
        (23.4e3, 30e3, 36.6e3, "0.30 bar (0.23 to 0.37)"),
        (4.1e5, 4.2e5, 4.3e5, "4.20 bar (4.10 to 4.30)"),
        (2e5, 4e5, 6e5, "4 bar (2 to 6)"),
        (3e5, 3e5, 3e5, "3 bar"),
        (-4e3, 0.0, 4e3, "0.00 bar (-0.04 to 0.04)"),
    ],
)
def test_no_more_digits_than_the_band_deserves(
    low: float, value: float, high: float, shown: str
) -> None:
    assert banded(Band(value, low, high), scale("Pa")) == shown


def test_what_is_too_little_to_show_says_so() -> None:
    little = Band(3.0, 2.0, 4.0)

    assert banded(little, scale("Pa")) == "under 0.001 bar"
    assert banded(Band(0.0, 0.0, 0.0), scale("Pa")) == "0 bar"
    assert banded(Band(344.2, 344.1, 344.3), scale("K")) == "71 °C"


def test_a_small_figure_in_kelvin_is_a_difference() -> None:
    assert values.given(Figure(12.0, "K", Grade.PRACTICE)) == "12 K"
    assert values.given(Figure(355.15, "K", Grade.PRACTICE)) == "82 °C"
    assert values.given(Figure(108.333333333, "1/s", Grade.PRACTICE)) == "6500 rpm"


def test_a_value_held_against_another_has_its_digits() -> None:
    assert like(90e3, Band(62e3, 50e3, 74e3), scale("Pa")) == "0.90"


@given(
    st.floats(1e-3, 1e6),
    st.floats(0.001, 0.9),
)
def test_what_is_shown_lies_within_a_twentieth_of_the_band(value: float, share: float) -> None:
    band = Band(value, value * (1 - share), value * (1 + share))

    shown = float(number(band, Scale(1.0, "", finest=9)).replace(",", ""))

    # Half of the last place: at most a quarter of the half-width, or half of the third figure.
    assert abs(shown - value) <= max(0.25 * share * value, 0.005 * value) * (1 + 1e-9)


def test_a_mass_flow_is_shown_as_volume_where_the_density_is_known() -> None:
    flow, by = volume_flow(Band(1.0, 0.9, 1.1), 800.0)
    mass, kilograms = volume_flow(Band(1.0, 0.9, 1.1), None)

    assert (flow.value, by.unit) == (1 / 800, "L/min")
    assert (mass.value, kilograms.unit) == (1.0, "kg/min")


def test_gauges_read_from_the_air_at_the_altitude_of_the_condition() -> None:
    high = Running({"altitude": Figure(1500.0, "m", Grade.STATED)})
    car = replace(
        juniper(), conditions={"full-power": Condition("full-power", (0, 0, -1), running=high)}
    )

    # 84.56 kPa at 1,500 m in the standard atmosphere. [from memory]
    assert ambient(car, "full-power") == pytest.approx(84_556, abs=20)
    assert ambient(car, "hot-idle") == 101325.0


def test_conditions_are_said_as_people_do() -> None:
    assert condition_words("cold-start") == "cold start"
    assert [condition_at(n) for n in ("hot-idle", "full-power", "soak", "Stage-3")] == [
        "at hot idle",
        "at full power",
        "in soak",
        "in Stage-3",
    ]


@pytest.mark.parametrize(
    ("value", "unit", "show", "words"),
    [
        (4e-8, "m3/J", "metric", "2.4 L/min per kW"),
        (4e-8, "m3/J", "inch", "0.473 gpm per hp"),
        (0.2, "m2", "metric", "0.2 m²"),
        (0.2, "m2", "inch", "2.15 sq ft"),
    ],
)
def test_what_is_reckoned_by_power_or_face_is_shown_in_words_of_the_trade(
    value: float, unit: str, show: str, words: str
) -> None:
    assert values.given(Figure(value, unit, Grade.PRACTICE), show) == words
