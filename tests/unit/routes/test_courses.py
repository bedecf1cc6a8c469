# SPDX-License-Identifier: Apache-2.0
"""What two bends in different planes cost, and what is said of a course."""

import numpy as np
import pytest
from numpy.typing import NDArray

from linewright.base.vectors import Vector
from linewright.routes import _courses
from linewright.routes.courses import bend_count, described, rounded
from linewright.space.model import Limits
from linewright.space.path import extremes, length

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


def test_length_height_and_bends_of_a_course_are_those_of_its_path() -> None:
    random = np.random.default_rng(5)
    limits = Limits(0.02, RADIUS, 0.04)
    seen = set()
    for _ in range(400):
        rows = []
        for at in (np.zeros(3), random.normal(size=3) * 0.25):
            out, side = random.normal(size=3), random.normal(size=3)
            out /= np.linalg.norm(out)
            side -= side @ out * out
            side /= np.linalg.norm(side)
            made = np.zeros(_courses.WIDE)
            frame = np.concatenate([at, out, side, np.cross(out, side)])
            angle = float(random.choice([0.0, np.pi / 4, np.pi / 2]))
            shape = np.array([angle, 0.05, 0.03 * angle, 0.01, 0.0, 0.02])
            _courses.set_row(frame, shape, 0.04, float(random.uniform(0.0, 6.0)), made)
            rows.append(made)
        path = rounded(rows[0], [], rows[1], limits)
        told = described(rows[0], [], rows[1], limits)
        assert (path is None) == (told is None)
        if path is None or told is None:
            continue
        z = [path.corners[0][2], path.corners[-1][2]]
        z += [each.at[2] for each in extremes(path, (0.0, 0.0, 1.0))]
        z += [float(each[k]) for each in rows for k in (8, 11)]
        seen.add(told[2])
        assert told[0] == pytest.approx(length(path), abs=1e-8)
        assert told[1] == pytest.approx(max(z) - min(z), abs=1e-8)
        assert told[2] == bend_count(path)
    assert 2 in seen


def test_two_touching_bends_in_one_plane_that_turn_on_are_one_bend() -> None:
    limits = Limits(0.02, RADIUS, 0.04)
    a, back = row((0.0, 0.0, 0.0), (1.0, 0.0, 0.0)), row((0.0, 0.2, 0.0), (1.0, 0.0, 0.0))
    a[13:16], back[13:16] = a[0:3], back[0:3]
    on = row((0.2, 0.2, 0.0), (-1.0, 0.0, 0.0))
    on[13:16] = on[0:3]
    around, wave = described(a, [], back, limits), described(a, [], on, limits)
    assert around is not None
    assert wave is not None

    assert (around[2], wave[2]) == (1, 2)
    assert around[0] == pytest.approx(np.pi * RADIUS)
