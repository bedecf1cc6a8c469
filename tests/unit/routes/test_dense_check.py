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
    fine = dense_check.samples(CORNERS, (0.1,), 5e-5)
    assert dense_check.tightest(fine)[0] == pytest.approx(0.1, rel=1e-6)


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
    assert [f.what for f in tight] == ["bend", "curve"]
    assert {f.what for f in short} == {"kink", "corner"}


def test_a_good_course_of_many_bends_has_no_fault() -> None:
    corners = ((0, 0, 0), (0.3, 0, 0), (0.3, 0.3, 0.1), (0.6, 0.4, 0.3), (0.6, 0.4, 0.8))

    assert not dense_check.check(
        corners, (0.1, 0.1, 0.1), 0.01, [], bend_radius=0.1, straight=0.039
    )


def test_a_kink_of_three_millimetres_is_found() -> None:
    jog = ((0.0, 0.0, 0.0), (0.2, 0.0, 0.0), (0.203, 0.003, 0.0), (0.4, 0.003, 0.0))
    sharp = dense_check.check(jog, (0.0, 0.0), 0.01, [], bend_radius=0.1)
    rounded = dense_check.check(jog, (0.0035, 0.0035), 0.01, [], bend_radius=0.1)

    assert {f.what for f in sharp} == {"kink", "curve"}
    assert {f.what for f in rounded} == {"bend", "curve"}
    assert all(abs(f.at[0] - 0.2) < 0.006 for f in [*sharp, *rounded])


def test_a_kink_between_pieces_that_do_not_meet_in_one_direction_is_found() -> None:
    # Two trims of 100 mm want 200 mm of a side of 197: the straight runs back 3 mm.
    corners = ((0.0, 0.0, 0.0), (0.3, 0.0, 0.0), (0.3, 0.197, 0.0), (0.6, 0.197, 0.0))
    faults = dense_check.check(corners, (0.1, 0.1), 0.01, [], bend_radius=0.1)

    assert "kink" in {f.what for f in faults}


def test_a_radius_five_per_cent_too_tight_in_one_bend_of_three_is_found() -> None:
    corners = ((0, 0, 0), (0.3, 0, 0), (0.3, 0.3, 0.0), (0.6, 0.3, 0.0), (0.6, 0.3, 0.4))
    faults = dense_check.check(corners, (0.1, 0.095, 0.1), 0.01, [], bend_radius=0.1)

    assert [f.what for f in faults] == ["bend", "curve"]
    assert faults[0].least == pytest.approx(0.095, abs=1e-9)
    assert faults[1].least == pytest.approx(0.095, rel=1e-5)


def test_a_gap_one_millimetre_too_small_is_found() -> None:
    near = Solid("tank", Shape.BOX, (0.2, 0.0, 0.07), UNTURNED, (0.1, 0.1, 0.1), clearance=0.01)
    good = dense_check.check(CORNERS, (0.1,), 0.010, [near])
    bad = dense_check.check(CORNERS, (0.1,), 0.011, [near])

    assert good == []
    assert [(f.what, f.body, round(f.least, 6)) for f in bad] == [("gap", "tank", 0.009)]


def test_a_straight_that_is_missing_after_a_collar_is_found() -> None:
    # 300 mm and 300 mm are left of the sides of 400 by a trim of 100; then none of the last.
    good = dense_check.check(CORNERS, (0.1,), 0.01, [], straight=0.3)
    bent = ((0.0, 0.0, 0.0), (0.4, 0.0, 0.0), (0.4, 0.1, 0.0))
    bad = dense_check.check(bent, (0.1,), 0.01, [], straight=0.039)
    short = dense_check.check(CORNERS, (0.1,), 0.01, [], straight=0.301)

    assert good == []
    assert [(f.what, f.body, f.least) for f in bad] == [("straight", "B", 0.0)]
    assert [(f.what, f.body) for f in short] == [("straight", "A"), ("straight", "B")]


def test_movement_travel_and_limits_of_one_body_are_heeded() -> None:
    engine = Solid(
        "engine", Shape.BOX, (0.2, 0.0, 0.1), UNTURNED, (0.1, 0.1, 0.1), rides="engine",
        grown=(0.0, 0.0, 0.02),
    )  # fmt: skip

    assert dense_check.check(CORNERS, (0.1,), 0.025, [engine]) == []
    assert dense_check.check(CORNERS, (0.1,), 0.025, [engine], moved={"engine": 0.01})
    assert dense_check.check(CORNERS, (0.1,), 0.025, [engine], limits={"engine": 0.02})
    assert not dense_check.check(CORNERS, (0.1,), 0.05, [engine], leave=["engine"])
