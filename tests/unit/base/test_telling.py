# SPDX-License-Identifier: Apache-2.0
"""Quantities within sentences, in the units of a car. Factors are those of NIST SP 811."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.base.telling import half_place, tape, told
from linewright.car.quantities import accepted


@pytest.mark.parametrize(
    ("metric", "inch"),
    [
        ("unheld for 955 mm, from (1224, -478, 0) mm", "unheld for 37 5/8 in, from "
         "(48 3/16, -18 13/16, 0) in"),
        ("8.1 or 8.3 mm of 15.9 mm", "0.319 or 0.327 in of 0.626 in"),
        ("1.5 to 2.5 mm is usual", "0.059 to 0.098 in is usual"),
        ("0 mm", "0 in"),
        ("2 mm", "0.08 in"),
        ("0.62 bar absolute", "9.0 psi absolute"),
        ("85 kPa", "12.3 psi"),
        ("from -10 to 110 °C", "from 14 to 230 °F"),
        ("12 K below boiling", "22 °F below boiling"),
        ("60.0 L/min at 1.20 m/s", "15.85 gpm at 3.94 ft/s"),
        ("200 L/h, 3.5 L, 12 kW", "52.8 gph, 0.92 US gal, 16 hp"),
        ("20 N m and 1 kg", "15 lb-ft and 2 lb"),
        ("1,452 mm", "57 3/16 in"),
    ],
)  # fmt: skip
def test_a_sentence_is_said_in_the_units_of_an_inch_car(metric: str, inch: str) -> None:
    assert told(metric, "inch") == inch
    assert told(metric, "metric") == metric


@pytest.mark.parametrize(
    "text",
    [
        'type `string = "700 mm"`, or "3 bar"',
        "a 38 mm hose on a 38 mm bead, 51 mm silicone elbow",
        "M18x1.5, -10 AN, 7/8-14, 1/8 NPT",
        "a strainer of 100 µm, 1100 kg/m³",
        "O01 is at x 12, y 3",
        "",
    ],
)
def test_what_is_typed_and_sizes_by_which_parts_are_bought_stay(text: str) -> None:
    assert told(text, "inch") == text


@settings(max_examples=150, deadline=None)
@given(
    st.sampled_from(
        [
            (1e-3, "mm"),
            (1e5, "bar"),
            (1e3, "kPa"),
            (1e-3 / 60.0, "L/min"),
            (1.0, "m/s"),
            (1.0, "kg"),
        ]
    ),
    st.integers(0, 900),
    st.integers(0, 3),
)
def test_what_is_typed_off_an_inch_print_is_within_half_its_last_place(
    unit: tuple[float, str], whole: int, places: int
) -> None:
    size, name = unit
    value = whole / 10**places
    text = f"{value:.{places}f} {name}"

    assert abs(accepted(told(text, "inch")) - value * size) <= 1.001 * half_place(text, "inch")


@pytest.mark.parametrize(("metres", "shown"), [(0.9779, "38 1/2"), (0.0, "0"), (-0.0127, "-1/2")])
def test_a_tape_shows_fractions(metres: float, shown: str) -> None:
    assert tape(metres) == shown
