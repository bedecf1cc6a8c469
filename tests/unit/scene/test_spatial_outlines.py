# SPDX-License-Identifier: Apache-2.0
"""Silhouettes and hatches of bodies keep their shape however they are turned."""

from math import hypot, pi

from hypothesis import given
from hypothesis import strategies as st

from linewright.base.frames import rotation
from linewright.car.model import Shape
from linewright.scene.spatial import EYES, View
from linewright.scene.spatial_outlines import hatched, hull, seen
from linewright.space.bodies import Solid


def test_a_cylinder_laid_along_the_car_is_a_rectangle_from_above() -> None:
    # Pitched by a right angle: its own z lies along the car, but for a rounding error.
    lying = Solid("pipe", Shape.CYLINDER, (0.6, 0.4, 0.35), rotation(0, pi / 2, 0), (0.1, 0.1, 1.0))
    found = seen(lying, EYES[View.PLAN])

    assert found is not None
    assert sorted((round(x, 6), round(y, 6)) for x, y in found.outline) == [
        (0.1, 0.35),
        (0.1, 0.45),
        (1.1, 0.35),
        (1.1, 0.45),
    ]


@given(st.lists(st.floats(-1e-16, 1e-16), min_size=8, max_size=8))
def test_a_rounding_error_costs_no_corner_of_a_hull(noise: list[float]) -> None:
    steps = [(x, y) for x in (0.0, 4.0) for y in (0.0, 1.0, 2.0, 3.0)]
    rough = [(x + e, y) for (x, y), e in zip(steps, noise, strict=True)]

    assert [(round(x, 9), round(y, 9)) for x, y in hull(rough)] == [(0, 0), (4, 0), (4, 3), (0, 3)]


def test_a_large_zone_is_hatched_along_its_edge_and_a_small_one_all_over() -> None:
    small = hatched([(0, 0), (50, 0), (50, 50), (0, 50)], 0.0, 3.0, rim=9.0)
    large = hatched([(0, 0), (100, 0), (100, 50), (0, 50)], 0.0, 3.0, rim=9.0)

    assert {round(hypot(b[0] - a[0], b[1] - a[1]), 6) for a, b in small} == {50.0}
    assert {round(hypot(b[0] - a[0], b[1] - a[1]), 6) for a, b in large} == {9.0}
    assert len(large) == 2 * len(small)
    assert {x for stroke in large for x, _ in stroke} == {0.0, 9.0, 91.0, 100.0}
