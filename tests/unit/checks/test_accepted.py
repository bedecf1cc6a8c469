# SPDX-License-Identifier: Apache-2.0
"""What a builder types off a finding covers it; a little worse opens it again."""

import pytest

from linewright.base.codes import RULES
from linewright.base.finding import Finding, Overrule
from linewright.car.quantities import accepted
from linewright.checks.accepted import is_worse, now, shown


def _found(value: str, measure: float, limit: str = "") -> Finding:
    return Finding(
        "choke",
        RULES["choke"],
        ("O01",),
        "It is narrow.",
        "Widen it.",
        value=value,
        limit=limit,
        measure=measure,
    )


def _judged(typed: str, finding: Finding) -> bool:
    return is_worse(finding, Overrule("choke", ("O01",), "so it is", accepted=accepted(typed)))


@pytest.mark.parametrize(
    ("before", "after", "measures", "limit"),
    [
        ("20 mm", "25 mm", (0.02, 0.025), ""),
        ("150 °C", "160 °C", (423.15, 433.15), "121 °C"),
        # What is missing is measured, what is there is printed: less of it is worse.
        ("3.1 mm", "2.0 mm", (0.0089, 0.0100), "12 mm"),
        ("81%", "60%", (0.19, 0.40), "90%"),
        ("-17.4°", "-20.0°", (0.565, 0.611), "15°"),
        ("0.45 m/s", "0.30 m/s", (0.15, 0.30), "0.6 m/s"),
        # The distance over the limit is measured, the distance is printed.
        ("654 mm", "700 mm", (0.204, 0.250), "450 mm"),
    ],
)
def test_a_value_typed_off_a_finding_covers_it_until_it_is_worse(
    before: str, after: str, measures: tuple[float, float], limit: str
) -> None:
    first, second = (
        _found(value, m, limit) for value, m in zip((before, after), measures, strict=True)
    )

    assert not _judged(before, first)
    assert _judged(before, second)
    assert not _judged(after, first)


def test_a_temperature_and_an_angle_are_shown_as_the_finding_prints_them() -> None:
    hot, flat = _found("160 °C", 433.15), _found("-20.0°", 0.6)

    assert shown(accepted("150 °C"), hot) == "150 °C"
    assert now(hot) == "160 °C"
    assert shown(accepted("-17.4°"), flat) == "-17.4°"


def test_a_dash_and_a_minus_of_print_are_read() -> None:
    assert accepted("-8") == -8.0
    assert accepted("\N{MINUS SIGN}17.4°") == accepted("-17.4°")
