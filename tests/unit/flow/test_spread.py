# SPDX-License-Identifier: Apache-2.0
"""Doubts as factors, their corners and samples."""

import numpy as np
import pytest

from linewright.base.evidence import Figure, Grade
from linewright.flow.spread import band, corners, known, of_bores, sample

DOUBTS = [known("bore", "O01"), known("viscosity"), known("loss")]


def test_corners_are_all_ends_of_all_doubts_after_the_value_itself() -> None:
    found = corners(DOUBTS)

    assert found.shape == (9, 3)
    assert found[0].tolist() == [1.0, 1.0, 1.0]
    assert len({tuple(row) for row in found.tolist()}) == 9
    assert found.min(axis=0).tolist() == [d.low for d in DOUBTS]
    assert found.max(axis=0).tolist() == [d.high for d in DOUBTS]
    assert corners([]).shape == (2, 0)


def test_too_many_corners_are_refused() -> None:
    with pytest.raises(ValueError) as refused:
        corners(DOUBTS * 6)

    assert str(refused.value) == "18 doubts have too many corners; draw a sample of them."


def test_a_sample_has_its_doubts_at_the_ends_of_95_percent() -> None:
    found = sample(DOUBTS, 40_000, 7)

    assert found[0].tolist() == [1.0, 1.0, 1.0]
    low, high = np.quantile(found, (0.025, 0.975), axis=0)
    assert low == pytest.approx([d.low for d in DOUBTS], rel=0.01)
    assert high == pytest.approx([d.high for d in DOUBTS], rel=0.01)
    assert (found == sample(DOUBTS, 40_000, 7)).all()


def test_a_bore_on_which_tables_disagree_doubts_both_ways() -> None:
    ten = [Figure(v, "m", Grade.READ) for v in (0.0143, 0.0127)]
    found = of_bores(ten, "O01")

    assert found.low == pytest.approx(0.97 * 127 / 143)
    assert found.high == 1.03


def test_a_band_holds_its_value_and_the_middle_95_percent() -> None:
    many = band(np.concatenate([[9.0], np.linspace(0.0, 1.0, 1001)]))

    assert (many.value, many.high) == (9.0, 9.0)
    assert many.low == pytest.approx(0.025, abs=1e-3)
