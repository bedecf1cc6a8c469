# SPDX-License-Identifier: Apache-2.0
"""Spanner sizes of bulkhead nuts."""

import pytest

from linewright.base.evidence import Grade
from linewright.tables.nuts import bulkhead_flats


@pytest.mark.parametrize(("dash", "inches"), [("-6", 13 / 16), ("-8", 1.0)])
def test_a_bulkhead_nut_has_the_flats_of_an924(dash: str, inches: float) -> None:
    # AN924, revision of February 2018: 20.65 and 25.40 mm as printed.
    found = bulkhead_flats(dash)

    assert found is not None
    assert found.value == pytest.approx(inches * 0.0254, abs=2e-5)
    assert found.grade is Grade.READ


def test_a_nut_that_no_table_has_is_to_be_measured() -> None:
    assert bulkhead_flats("-12") is None
