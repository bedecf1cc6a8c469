# SPDX-License-Identifier: Apache-2.0
"""A gauge that was read names the assumption that it contradicts most."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from linewright.base.errors import UnitError
from linewright.base.evidence import Figure, Grade
from linewright.flow.model import Assumed, Band, Flows, Reading, Sway
from linewright.sheets.flow_reading import Typed, contradicted, read_reading, reading_words
from tests.flows import flows, juniper


def _words(text: str) -> tuple[str, ...]:
    return reading_words(juniper(), contradicted(flows(), read_reading(text, flows())))


def test_a_low_oil_pressure_contradicts_the_oil_demand() -> None:
    assert _words("oil-pressure=1.0 bar@hot-idle") == (
        "oil-pressure at hot idle: 1.0 bar read, 1.4 bar (1.1 to 1.7) computed.",
        "It contradicts most what is assumed of ENG: oil demand at full power, "
        "82.5 L/min (49.8 to 132) [P].",
        "106 L/min would explain it alone.",
        "To settle it, give displacement and ratio of the oil pump.",
    )


def test_a_reading_in_its_band_contradicts_nothing() -> None:
    assert _words("OIL-PRESSURE = 20 psi @ hot idle") == (
        "oil-pressure at hot idle: 1.38 bar read, 1.4 bar (1.1 to 1.7) computed.",
        "It lies within the band: it contradicts nothing that is assumed.",
    )


def test_no_pressure_at_all_is_not_laid_to_one_figure() -> None:
    assert _words("oil-pressure=0 bar@hot-idle")[2] == (
        "That figure alone does not explain it: hold the sensor against a second gauge, and look "
        "for what is not as in the document (a closed valve, a kinked or blocked line)."
    )


def test_a_reading_that_nothing_is_known_to_sway_says_so() -> None:
    assert _words("oil-temperature=140 °C@full-power") == (
        "oil-temperature at full power: 140 °C read, 109 °C (103 to 117) computed.",
        "It lies outside the band. What sways this reading is not known here: hold the sensor "
        "against a second gauge first, then the figures that are assumed, one by one.",
    )


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            "oil-pressure 1.1 bar",
            '--reading "oil-pressure 1.1 bar" cannot be read; write SENSOR=VALUE@CONDITION, as in '
            '"oil-pressure=1.1 bar@hot-idle".',
        ),
        (
            "oil=1.1 bar@hot-idle",
            '--reading "oil=1.1 bar@hot-idle": oil is no sensor with a computed reading. Those: '
            "oil-pressure, oil-temperature.",
        ),
        (
            "oil-pressure=1.1 bar@warm",
            '--reading "oil-pressure=1.1 bar@warm": oil-pressure has no reading in "warm". '
            "Conditions: prime, hot-idle, full-power.",
        ),
    ],
)
def test_what_cannot_be_read_is_told_whole(text: str, message: str) -> None:
    with pytest.raises(UnitError) as caught:
        read_reading(text, flows())

    assert str(caught.value) == message


def test_a_temperature_where_a_pressure_is_due_is_refused() -> None:
    with pytest.raises(UnitError, match=r"^--reading .*: pressure: "):
        read_reading("oil-pressure=90 °C@hot-idle", flows())


@given(st.lists(st.integers(-50, 50), min_size=1, max_size=6), st.floats(-9.0, 9.0))
def test_the_one_named_moves_most_when_all_are_fitted_at_once(sways: list[int], off: float) -> None:
    found = Flows(
        readings=(Reading("S", "X.s", "soak", "pressure", Band(0.0, -1.0, 1.0), "Pa"),),
        assumed=tuple(
            Assumed(f"C{n}", "figure", Figure(1.0, "Pa", Grade.PRACTICE), "")
            for n in range(len(sways))
        ),
        sways=tuple(Sway("S", "soak", f"C{n}", "figure", by) for n, by in enumerate(sways)),
    )
    said = contradicted(found, Typed(found.readings[0], off))
    # The least move of all figures together, in their sigmas, that gives the reading.
    moves = np.abs(np.linalg.pinv(np.array([sways])) @ np.array([off]))

    if any(sways):
        assert said.assumed is not None
        named = int(said.assumed.where[1:])
        assert moves[named] == pytest.approx(moves.max(), abs=1e-9)
    else:
        assert said.assumed is None


def test_an_assumption_without_a_spread_is_named_without_a_figure() -> None:
    first = flows().assumed[0]
    bare = replace(first, figure=replace(first.figure, low=None, high=None))
    found = replace(flows(), assumed=(bare, *flows().assumed[1:]))
    typed = read_reading("oil-pressure=1.0 bar@hot-idle", found)

    assert contradicted(found, typed).explains is None
