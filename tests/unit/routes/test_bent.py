# SPDX-License-Identifier: Apache-2.0
"""Bend schedules: rows as a bender works, what pipes are cut from, blanks."""

from math import degrees

import pytest

from linewright.base.vectors import Vector
from linewright.car.model import Car, Construction, Line, Medium
from linewright.routes.bent import Schedule, schedule
from linewright.routes.route import Route
from linewright.routes.tubes import stock_of
from linewright.space.model import EndShape, Setting
from linewright.space.path import Path, length

TUBE = Line("F01", "A.p", "B.p", None, Medium.FUEL, "-6", "tube aluminium", Construction.TUBE)
PIPE = Line("A01", "A.p", "B.p", None, Medium.AIR, "63", "pipe aluminium", Construction.PIPE)

END = Setting(EndShape(0, 0.0, 0.0), 0.0, (0.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 0.0, 1.0))


def made(line: Line, corners: tuple[Vector, ...], radius: float) -> Schedule:
    path = Path(corners, (radius,) * (len(corners) - 2))
    stock = stock_of(line)
    assert stock is not None
    route = Route(line.id, END, END, path, length(path), None, 0.0, None)
    return schedule(Car("x"), line, route, stock)


# The numbers of the first come from a question in a public forum on mathematics (inches, here
# taken as metres), with the radius and what follows from it reckoned by hand; those of the
# second are reckoned independently of this code, in mm.
FORUM = made(
    TUBE,
    (
        (38.5202, -14.0264, 0.0),
        (45.3142, -14.0264, 0.0),
        (45.3142, -17.5214, 0.9654),
        (48.6822, -17.5214, 0.9654),
    ),
    1.125,
)
OWN = made(
    TUBE,
    ((0, 0, 0), (0.2, 0, 0), (0.2, 0.15, 0), (0.2, 0.15, 0.12), (0.32, 0.15, 0.22)),
    0.0286,
)


def test_points_of_a_forum_question_give_its_straights_rotations_and_angles() -> None:
    rows = [
        (bend.straight, abs(degrees(bend.rotation)), degrees(bend.angle)) for bend in FORUM.bends
    ]

    assert rows[0] == pytest.approx((5.669, 0.0, 90.0), abs=1e-3)
    assert rows[1] == pytest.approx((1.3759, 180.0, 90.0), abs=1e-3)
    assert FORUM.last == pytest.approx(2.243, abs=1e-3)
    assert FORUM.developed == pytest.approx(12.822, abs=1e-3)


def test_points_reckoned_by_hand_give_their_straights_rotations_and_angles() -> None:
    rows = [
        (1e3 * bend.straight, degrees(bend.rotation), degrees(bend.angle)) for bend in OWN.bends
    ]

    assert rows[0] == pytest.approx((171.4, 0.0, 90.0), abs=0.01)
    assert rows[1] == pytest.approx((92.8, 90.0, 90.0), abs=0.01)
    assert rows[2] == pytest.approx((78.0, 90.0, 50.194), abs=0.01)
    assert 1e3 * OWN.last == pytest.approx(142.81, abs=0.01)
    assert 1e3 * OWN.developed == pytest.approx(599.92, abs=0.01)


def test_a_blank_is_developed_and_what_is_squared_off_at_both_ends() -> None:
    assert OWN.blank - OWN.developed == pytest.approx(0.020)


def test_straights_arcs_and_the_last_straight_add_up_to_the_developed_length() -> None:
    total = sum(bend.straight + 0.0286 * bend.angle for bend in OWN.bends) + OWN.last

    assert total == pytest.approx(OWN.developed)


def test_a_tube_is_bent_and_not_cut_from_a_stocked_bend() -> None:
    assert [bend.stocked for bend in OWN.bends] == [None, None, None]
    assert (OWN.inserts, OWN.welds) == ((), 0)


@pytest.mark.parametrize(
    ("far", "side", "stocked"),
    [(1.0, 0.3, 45), (0.5, 0.5, 45), (0.5, 0.6, 60), (0.0, 1.0, 90)],
)
def test_a_pipe_is_cut_from_the_least_stocked_bend_that_is_enough(
    far: float, side: float, stocked: int
) -> None:
    pipe = made(PIPE, ((0.0, 0.0, 0.0), (0.5, 0.0, 0.0), (0.5 + far, side, 0.0)), 0.094)

    assert [bend.stocked for bend in pipe.bends] == [stocked]


def test_legs_of_a_whole_bend_make_the_straights_beside_it() -> None:
    # Straights of 150 and 80 mm; a bend of 63 mm comes with legs of 100 mm.
    corners = ((0.0, 0.0, 0.0), (0.244, 0.0, 0.0), (0.244, 0.174, 0.0))
    pipe = made(PIPE, corners, 0.094)

    assert pipe.inserts == pytest.approx((0.050,))
    assert pipe.welds == 1


def test_a_bend_that_is_cut_down_has_lost_one_leg() -> None:
    # 60° out of a bend of 63 mm comes whole; 50° is cut from it and keeps one leg.
    pipe = made(PIPE, ((0.0, 0.0, 0.0), (0.3, 0.0, 0.0), (0.4928, 0.2298, 0.0)), 0.094)
    cut = degrees(pipe.bends[0].angle)

    assert cut == pytest.approx(50.0, abs=0.01)
    assert pipe.inserts == pytest.approx((0.1562, 0.2562), abs=1e-4)
    assert pipe.welds == 2


def test_a_straight_pipe_has_no_bend_and_no_weld() -> None:
    pipe = made(PIPE, ((0.0, 0.0, 0.0), (0.4, 0.0, 0.0)), 0.094)

    assert (pipe.bends, pipe.inserts, pipe.welds) == ((), (0.4,), 0)
    assert pipe.last == pytest.approx(0.4)
