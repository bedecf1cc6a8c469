# SPDX-License-Identifier: Apache-2.0
"""What two bends in different planes cost."""

import numpy as np
import pytest
from numpy.typing import NDArray

from linewright.base.vectors import Vector
from linewright.routes import _courses

RADIUS = 0.1
BOX = np.array([-9.0, -9.0, -9.0, 9.0, 9.0, 9.0])


def row(at: Vector, leave: Vector) -> NDArray[np.float64]:
    made = np.zeros(_courses.WIDE)
    made[0:3], made[3:6], made[6:9], made[9:12] = at, leave, at, at
    return made


def dearer(b: NDArray[np.float64], straight: float) -> float:
    """What the planes of bends add to a course from the origin along x."""
    a = row((0.0, 0.0, 0.0), (1.0, 0.0, 0.0))
    with_it = _courses.cost(a, b, RADIUS, BOX, np.array([0.0, 0.0, 1.0, straight]), False)[0]
    without = _courses.cost(a, b, RADIUS, BOX, np.array([0.0, 0.0, 0.0, straight]), False)[0]
    return float(with_it - without)


def test_bends_in_one_plane_cost_nothing_more() -> None:
    # An S: to the left and back, without a straight between.
    assert dearer(row((0.2, 0.2, 0.0), (-1.0, 0.0, 0.0)), 0.05) == pytest.approx(0.0, abs=1e-9)


def test_touching_bends_in_planes_square_to_each_other_cost_in_full() -> None:
    # A quarter turn to y, then at once a quarter turn to z.
    assert dearer(row((0.1, 0.2, 0.1), (0.0, 0.0, -1.0)), 0.05) == pytest.approx(1.0, abs=1e-3)


@pytest.mark.parametrize(("straight", "left"), [(0.04, 0.5), (0.02, 0.0), (0.08, 0.75)])
def test_a_straight_between_them_takes_its_share_off(straight: float, left: float) -> None:
    b = row((0.1, 0.22, 0.1), (0.0, 0.0, -1.0))

    assert dearer(b, straight) == pytest.approx(left, abs=1e-3)
