# SPDX-License-Identifier: Apache-2.0
"""No verdict hangs on a value whose band holds its limit: that is told as such, for every limit."""

from dataclasses import dataclass, field
from types import SimpleNamespace
from typing import Any

import pytest

from linewright.base.codes import RULES
from linewright.base.evidence import Figure, Grade
from linewright.base.finding import Finding, Severity
from linewright.car.model import Car
from linewright.car.read import read_text
from linewright.flow.findings import found_in
from linewright.flow.margins import judged
from linewright.flow.model import Band, Margin, SystemState, Verdict
from linewright.flow.ruled import RULED, words_of
from tests.flowing import flows, system_b

CAR = read_text(
    'linewright = 1\n[car]\nname = "none"\n[systems.oil]\nfluid = "15W-50"\n[components]\nENG = { kind = "engine" }\n'
)
CARS = {
    "club-roadster": lambda: flows("club-roadster"),
    "juniper": lambda: flows("juniper"),
    "system B": system_b,
}
LIMIT = 2.0


@dataclass
class Judged:
    """A stand-in: one state, in a warm condition."""

    state: SystemState
    study: Any = field(
        default_factory=lambda: SimpleNamespace(
            state=SimpleNamespace(
                built=SimpleNamespace(case=SimpleNamespace(state="warm"), sealed=None)
            )
        )
    )
    causes: dict[Any, Any] = field(default_factory=dict)


def _told(car: Car, what: str, band: Band, is_least: bool) -> list[Finding]:
    limit = Figure(LIMIT, "-", Grade.PRACTICE)
    held = judged(band, limit, is_least)
    margin = Margin(what, "ENG", band, limit, "-", is_least, held, "it with a gauge")
    state = SystemState("oil", "full-power", margins=(margin,))
    return list(found_in(car, [Judged(state)]))  # type: ignore[list-item]


@pytest.mark.parametrize("is_least", [True, False])
@pytest.mark.parametrize("what", RULED)
@pytest.mark.parametrize("value", [1.9, 2.0, 2.1])
def test_a_limit_within_the_band_is_not_known_well_enough(
    what: str, value: float, is_least: bool
) -> None:
    (found,) = _told(CAR, what, Band(value, 1.5, 2.5), is_least)

    assert (found.code, found.severity) == ("flow-unsure", Severity.WARN)
    assert found.reason.endswith("the limit lies within what is not known.")
    assert found.remedy.startswith("Measure it with a gauge")


@pytest.mark.parametrize("what", RULED)
def test_a_limit_that_the_whole_band_misses_is_its_own_finding(what: str) -> None:
    below, above = Band(1.5, 1.4, 1.6), Band(2.5, 2.4, 2.6)

    for band, is_least in ((below, True), (above, False)):
        (found,) = _told(CAR, what, band, is_least)
        assert found.code != "flow-unsure"
        assert found.severity is RULES[found.code]
        assert words_of(what)[0].capitalize() in found.reason
    assert _told(CAR, what, above, True) == _told(CAR, what, below, False) == []


@pytest.mark.parametrize("name", sorted(CARS))
def test_every_margin_of_a_car_is_held_with_its_band_and_says_what_to_measure(name: str) -> None:
    found = CARS[name]()
    unsure = 0

    for state in found.states:
        for margin in state.margins:
            assert margin.verdict is judged(margin.value, margin.limit, margin.is_least)
            assert margin.measure
            assert margin.value.low <= margin.value.value <= margin.value.high
            unsure += margin.verdict is Verdict.UNSURE and margin.what != "velocity"
    told = [f for f in found.findings if f.code == "flow-unsure"]
    assert bool(told) is bool(unsure)


def test_what_is_not_known_of_one_thing_in_two_systems_is_told_once() -> None:
    limit = Figure(LIMIT, "-", Grade.PRACTICE)
    band = Band(2.0, 1.5, 2.5)
    rows = [
        Judged(
            SystemState(
                system,
                "full-power",
                margins=(
                    Margin(what, "ENG", band, limit, "-", True, judged(band, limit, True), measure),
                ),
            )
        )
        for system, what, measure in (
            ("oil", "gallery pressure", "the oil pressure"),
            ("coolant", "boiling margin", "the coolant"),
        )
    ]
    (found,) = found_in(CAR, rows)  # type: ignore[arg-type]

    assert (found.code, found.about) == ("flow-unsure", ("ENG",))
    assert found.remedy == (
        "Measure the coolant and the oil pressure, or type the figures that are assumed."
    )
