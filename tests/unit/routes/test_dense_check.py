# SPDX-License-Identifier: Apache-2.0
"""The dense check finds what is wrong: against figures worked out by hand."""

from math import pi, sqrt

import numpy as np
import pytest

from linewright.base.frames import rotation
from linewright.car.model import Shape
from linewright.space.obstacles import Opening, Solid, Tube, Wall
from tests import dense_check

UNTURNED = rotation(0.0, 0.0, 0.0)
CORNERS = ((0.0, 0.0, 0.0), (0.4, 0.0, 0.0), (0.4, 0.4, 0.0))
HOLED = Wall("wall", (1, 0, 0), (1, 0, 0), 0.02, None, (Opening((1, 0, 0), 0.1),))
TANK = Solid("tank", Shape.BOX, (0.2, 0.0, 0.1), UNTURNED, (0.1, 0.1, 0.1), clearance=0.01)


def test_a_rounded_corner_is_followed_at_every_millimetre() -> None:
    points = dense_check.samples(CORNERS, (0.1,))
    steps = np.linalg.norm(np.diff(points, axis=0), axis=1)
    middle = np.linalg.norm(points - [0.3, 0.1, 0.0], axis=1)

    assert steps.max() <= 0.001 + 1e-12
    assert steps.sum() == pytest.approx(0.6 + 0.1 * pi / 2, abs=1e-5)
    assert middle.min() == pytest.approx(0.1, abs=1e-12)
    assert dense_check.least_bend(points) == pytest.approx(0.1, rel=2e-3)


@pytest.mark.parametrize(
    ("body", "at", "gap"),
    [
        (TANK, (0.2, 0.0, 0.0), 0.05),
        (TANK, (0.2, 0.0, 0.09), -0.04),
        (TANK, (0.28, 0.04, 0.19), sqrt(0.03**2 + 0.04**2)),
        (Solid("can", Shape.CYLINDER, (0, 0, 0), UNTURNED, (0.2, 0.2, 1.0)), (0.3, 0.4, 0), 0.4),
        (Solid("can", Shape.CYLINDER, (0, 0, 0), UNTURNED, (0.2, 0.2, 1.0)), (0, 0, 0.47), -0.03),
        (Solid("pill", Shape.CAPSULE, (0, 0, 0), UNTURNED, (0.2, 0.2, 1.0)), (0, 0.3, 0.8), 0.4),
        (Tube("hose", ((0, 0, 0), (1, 0, 0)), 0.01), (0.5, 0.0, 0.2), 0.19),
        (Wall("wall", (1, 0, 0), (2, 0, 0), 0.02), (0.5, 9.0, 9.0), 0.49),
        (Wall("wall", (1, 0, 0), (1, 0, 0), 0.02, (2.0, 4.0)), (1.0, 1.3, 2.4), 0.5),
        (HOLED, (1, 0, 0.04), 0.06),
    ],
)
def test_distances_are_those_of_paper_and_pencil(
    body: object, at: tuple[float, float, float], gap: float
) -> None:
    assert dense_check.distance(body, np.array([at]))[0] == pytest.approx(gap)


def test_a_hose_that_touches_bends_too_tight_or_has_no_room_for_its_bends_is_found() -> None:
    good = dense_check.check(CORNERS, (0.1,), 0.011, [TANK], bend_radius=0.1)
    near = dense_check.check(CORNERS, (0.1,), 0.045, [TANK])
    tight = dense_check.check(CORNERS, (0.1,), 0.011, [], bend_radius=0.12)
    short = dense_check.check(CORNERS, (0.45,), 0.011, [])

    assert good == []
    assert [(f.what, f.body, round(f.least, 4), f.limit) for f in near] == [
        ("gap", "tank", 0.005, 0.01)
    ]
    assert [f.what for f in tight] == ["bend"]
    assert [f.what for f in short] == ["corner", "corner"]


def test_movement_travel_and_limits_of_one_body_are_heeded() -> None:
    engine = Solid(
        "engine", Shape.BOX, (0.2, 0.0, 0.1), UNTURNED, (0.1, 0.1, 0.1), rides="engine",
        grown=(0.0, 0.0, 0.02),
    )  # fmt: skip

    assert dense_check.check(CORNERS, (0.1,), 0.025, [engine]) == []
    assert dense_check.check(CORNERS, (0.1,), 0.025, [engine], moved={"engine": 0.01})
    assert dense_check.check(CORNERS, (0.1,), 0.025, [engine], limits={"engine": 0.02})
    assert not dense_check.check(CORNERS, (0.1,), 0.05, [engine], leave=["engine"])
