# SPDX-License-Identifier: Apache-2.0
"""The table of what is followed through time."""

from linewright.flow.model import Flows, Series, SystemState
from linewright.sheets.flow_time import extreme, key_times, time_table
from tests.flowing import flows, laid

CAR = laid("club-roadster")[0]
OIL = Series(
    "oil temperature",
    "ENG:sump",
    "K",
    (0.0, 60.0),
    (353.15, 393.15),
    (353.0, 383.15),
    (353.2, 413.15),
)
LEFT = Series("ice", "reservoir", "kg", (0.0, 60.0), (4.0, 1.0))
STATE = SystemState("oil", "session", series=(OIL, LEFT))


def test_a_row_has_values_at_key_times_and_the_extreme_with_its_band() -> None:
    table = time_table(CAR, Flows(states=(STATE,)), "oil", "session")

    assert [c.head for c in table.columns][:4] == ["What", "Where", "start", "15 s"]
    assert table.rows[0][:2] == ("oil temperature", "ENG sump")
    assert table.rows[0][2] == "80 °C"
    assert table.rows[0][-2:] == ("most 120 °C (110 to 140)", "60 s")
    assert table.rows[1][-2:] == ("least 1 kg", "60 s")


def test_steps_of_a_condition_are_among_its_times() -> None:
    assert key_times(CAR, "session", 1800.0) == (0.0, 120.0, 900.0, 1680.0, 1800.0)
    assert key_times(CAR, "soak", 1200.0) == (0.0, 300.0, 600.0, 900.0, 1200.0)


def test_of_temperatures_the_most_counts_and_of_all_else_the_least() -> None:
    assert extreme(OIL)[0].value == 393.15
    assert extreme(LEFT)[0].value == 1.0


def test_a_steady_condition_has_nothing_through_time() -> None:
    table = time_table(CAR, flows("club-roadster"), "oil", "full-power")

    assert table.rows == ()
    assert table.empty == "Nothing of it is followed through time."
