# SPDX-License-Identifier: Apache-2.0
"""Case R1: two ports that look up, 400 mm apart, -10 rubber hose.

The figures: least radius 139.7 mm by MIL-H-8794 (read), ends of
60 mm, two outside diameters straight; 274 mm and 805 mm are computed by hand.
"""

import pytest

from linewright.routes.route import BandRow
from linewright.routes.search import Outcome, Side, Task, lay_line
from linewright.routes.shapes import end_shapes
from linewright.space.model import Frame, Limits
from linewright.space.obstacles import HalfSpace, Obstacle, Scene

UP = (0.0, 0.0, 1.0)
# Radius to the inside of the curve, outside diameter: MIL-H-8794 -10, as the case has them.
PUBLISHED, OUTSIDE = 0.1397, 0.0234
LIMITS = Limits(OUTSIDE, max(PUBLISHED + OUTSIDE / 2, 1.2 * PUBLISHED), 2 * OUTSIDE)


def lay(*bodies: Obstacle) -> Outcome:
    ends = end_shapes("rubber", "-10")
    a = Side(Frame((0.0, 0.0, 0.0), UP, (-1.0, 0.0, 0.0)), ends)
    b = Side(Frame((0.4, 0.0, 0.0), UP, (-1.0, 0.0, 0.0)), ends)
    box = (a.frame.origin, b.frame.origin)
    return lay_line(Task("O01", a, b, LIMITS, Scene.build(bodies), box))


def row(outcome: Outcome, a: int, b: int) -> BandRow:
    (found,) = (r for r in outcome.band if (r.angle_a, r.angle_b) == (a, b))
    return found


def test_both_pairs_are_in_the_band_and_the_low_one_is_the_default() -> None:
    outcome = lay()
    straight, bent = row(outcome, 0, 0), row(outcome, 90, 90)

    assert len(outcome.band) == 64
    assert straight.works
    assert straight.height == pytest.approx(0.274, abs=0.001)
    assert straight.length == pytest.approx(0.805, abs=0.001)
    assert bent.works
    assert bent.height is not None
    assert bent.height < 0.100
    assert bent.length == pytest.approx(0.400, abs=0.005)
    assert outcome.route is not None
    assert (outcome.route.a.shape.angle, outcome.route.b.shape.angle) == (90, 90)
    assert outcome.route.height < 0.100


def test_under_a_bonnet_only_the_low_pair_is_left_of_the_two() -> None:
    outcome = lay(HalfSpace("bonnet", (0.0, 0.0, 0.150), (0.0, 0.0, -1.0), 0.010))
    straight, bent = row(outcome, 0, 0), row(outcome, 90, 90)

    assert not straight.works
    assert straight.why_not == "bonnet is in the way of its straightest course"
    assert bent.works
    assert outcome.route is not None
    assert (outcome.route.a.shape.angle, outcome.route.b.shape.angle) == (90, 90)
