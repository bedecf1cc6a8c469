# SPDX-License-Identifier: Apache-2.0
"""Gauges that were read in the demo car, and the assumption that each contradicts most."""

import pytest

from linewright.sheets.flow_reading import contradicted, read_reading, reading_words
from tests.flowing import flows, laid


def said(typed: str) -> str:
    found = flows("juniper")
    car, _, _ = laid("juniper")
    return " ".join(reading_words(car, contradicted(found, read_reading(typed, found))))


@pytest.mark.parametrize(
    ("typed", "read", "where", "what", "gives"),
    [
        (
            "oil-pressure=1.3 bar@full-power",
            "1.3 bar read",
            "ENG",
            "oil that the engine takes at rated speed",
            "oil-demand",
        ),
        (
            "oil-temperature=135 °C@full-power",
            "135 °C read",
            "ENG",
            "heat to oil cooler, share of brake power",
            "a measured oil temperature",
        ),
        (
            "fuel-pressure=2.2 bar@hot-idle",
            "2.2 bar read",
            "regulator",
            "base pressure over manifold",
            'setting = "3 bar"',
        ),
        (
            "boost-pressure=0.5 bar@full-power",
            "0.5 bar read",
            "full-power",
            "boost of a boosted engine at full power",
            'boost = "1 bar"',
        ),
    ],
)
def test_a_reading_names_the_assumption_that_it_contradicts_most(
    typed: str, read: str, where: str, what: str, gives: str
) -> None:
    words = said(typed)

    assert f": {read}, " in words
    assert f"It contradicts most what is assumed of {where}: {what}" in words
    assert f"To settle it, give {gives}" in words


def test_a_setting_that_nobody_gave_is_in_the_band_of_the_rail() -> None:
    reading = next(
        r
        for r in flows("juniper").readings
        if (r.sensor, r.condition) == ("fuel-pressure", "hot-idle")
    )

    # 2.5 to 4.5 bar over the manifold (rule R83, common practice).
    assert reading.value.low == pytest.approx(2.6e5, rel=0.03)
    assert reading.value.high == pytest.approx(4.6e5, rel=0.03)


def test_a_setting_that_is_typed_leaves_a_narrow_band() -> None:
    typed = ('kind      = "fuel regulator"', 'kind      = "fuel regulator"\nsetting = "3 bar"')
    reading = next(
        r
        for r in flows("juniper", typed).readings
        if (r.sensor, r.condition) == ("fuel-pressure", "hot-idle")
    )

    assert reading.value.high - reading.value.low < 0.1e5


def test_a_reading_within_its_band_contradicts_nothing() -> None:
    assert said("oil-pressure=2.9 bar@full-power").endswith(
        "It lies within the band: it contradicts nothing that is assumed."
    )
