# SPDX-License-Identifier: Apache-2.0
"""What moves against a line: travel along axes, what it sweeps, and the slack that it asks."""

from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.base.evidence import Figure, Grade
from linewright.base.frames import rotation
from linewright.car.model import Car, Component, Construction, Line, Shape, Travel
from linewright.space.bodies import Solid
from linewright.space.moving import Sweep, Swept, slack, slack_source, sweep, swept
from linewright.space.obstacles import HalfSpace, Opening, Scene, Tube, Wall

#: Bump 80 mm, droop 60 mm, a little to the sides.
AXLE = Travel((-0.005, -0.010, -0.060), (0.005, 0.010, 0.080))


def car(**more: object) -> Car:
    ends = {"A": "chassis", "B": "axle"}
    return Car(
        "x",
        components={name: Component(name, "flange", rides=ride) for name, ride in ends.items()},
        movement={"axle": AXLE},
        **more,  # type: ignore[arg-type]
    )


LINE = Line("L01", "A.out", "B.in", None, None, "-6", "rubber", Construction.HOSE, crosses=True)


def test_an_axle_goes_up_and_down_as_it_was_typed() -> None:
    assert sweep(car(), "axle", ["chassis"]) == Sweep(0.0, AXLE.low, AXLE.high)
    assert sweep(car(), "axle", ["axle"]) == Sweep()


def test_seen_from_the_axle_the_chassis_goes_the_other_way() -> None:
    found = sweep(car(), "chassis", ["axle", "chassis"])

    assert found.low == (-0.005, -0.010, -0.080)
    assert found.high == (0.005, 0.010, 0.060)


def test_what_goes_all_ways_comes_on_top() -> None:
    # An engine on rubber mounts, 20 mm each way: practice.
    found = sweep(car(), "axle", ["engine"])

    assert found == Sweep(0.020, AXLE.low, AXLE.high)
    assert found.most == pytest.approx(0.020 + (0.005**2 + 0.010**2 + 0.080**2) ** 0.5)


BOX = Solid(
    "B", Shape.BOX, (0.0, 0.0, 0.5), rotation(0.0, 0.0, 0.0), size=(0.2, 0.2, 0.2), rides="axle"
)


@pytest.mark.parametrize(
    ("at", "gap"),
    [
        ((0.0, 0.0, 0.8), 0.120),  # 200 mm over it, less 80 mm of bump
        ((0.0, 0.0, 0.2), 0.140),  # 200 mm under it, less 60 mm of droop
        ((0.3, 0.0, 0.5), 0.195),
        ((0.0, -0.3, 0.5), 0.190),
    ],
)
def test_a_body_on_an_axle_comes_as_near_as_it_travels_that_way(
    at: tuple[float, float, float], gap: float
) -> None:
    scene = Scene.build([swept(BOX, sweep(car(), "axle", ["chassis"]))])

    assert scene.least(np.array([at]), 0.0).gap == pytest.approx(gap)


_far = st.floats(0.0, 0.1)
_turn = st.floats(-1.5, 1.5)


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(["box", "cylinder", "capsule", "tube", "wall", "ground"]),
    st.tuples(_far, _far, _far, _far, _far, _far),
    st.tuples(_turn, _turn, _turn),
    st.tuples(*[st.floats(-0.6, 0.6)] * 3),
    st.tuples(*[st.floats(0.0, 1.0)] * 3),
)
def test_what_is_swept_holds_the_body_wherever_it_went(
    kind: str,
    far: tuple[float, ...],
    turn: tuple[float, float, float],
    at: tuple[float, float, float],
    share: tuple[float, float, float],
) -> None:
    by = Sweep(0.0, (-far[0], -far[1], -far[2]), (far[3], far[4], far[5]))
    here = rotation(*turn)
    normal = (here[0][0], here[1][0], here[2][0])
    each = {
        "box": Solid("x", Shape.BOX, (0.0, 0.0, 0.0), here, (0.2, 0.1, 0.3)),
        "cylinder": Solid("x", Shape.CYLINDER, (0.0, 0.0, 0.0), here, (0.2, 0.2, 0.3)),
        "capsule": Solid("x", Shape.CAPSULE, (0.0, 0.0, 0.0), here, (0.2, 0.2, 0.3)),
        "tube": Tube("x", ((0.0, 0.0, 0.0), (0.1, 0.2, 0.1)), 0.02),
        "wall": Wall(
            "x",
            (0.0, 0.0, 0.0),
            normal,
            0.01,
            (0.4, 0.5),
            (Opening((0.0, 0.0, 0.0), 0.06),),
        ),
        "ground": HalfSpace("x", (0.0, 0.0, 0.0), normal),
    }[kind]
    low, high = np.array(by.low), np.array(by.high)
    moved = low + (high - low) * np.array(share)
    still = Scene.build([each]).least(np.array([np.array(at) - moved]), 0.0).gap
    found = Scene.build([swept(each, by)]).least(np.array([at]), 0.0).gap

    assert found <= max(still, 0.0) + 1e-6


def test_a_panel_that_holds_the_line_does_not_come_nearer() -> None:
    wall = Wall("firewall", (1.0, 0.0, 0.0), (1.0, 0.0, 0.0), 0.001)
    each = Swept(car(), (wall,))

    assert each.of(("axle",), frozenset({"firewall"})) == (wall,)
    (nearer,) = each.of(("axle",), frozenset())
    assert isinstance(nearer, Wall)
    assert nearer.thickness == pytest.approx(0.001 + 0.010)
    assert nearer.at == pytest.approx((1.0, 0.0, -0.010))


def test_a_hose_to_an_axle_has_the_slack_of_its_travel() -> None:
    found = slack(car(), LINE)

    # The far corner of bump with both sides.
    assert found.value == pytest.approx((0.005**2 + 0.010**2 + 0.080**2) ** 0.5)
    assert (found.grade, found.basis) == (Grade.STATED, "travel of the axle")
    assert slack_source(car(), LINE) == "the car document"


def test_a_hose_to_a_gentle_axle_keeps_the_trades_slack() -> None:
    still = Car(
        "x",
        components=car().components,
        movement={"axle": Figure(0.01, "m", Grade.STATED)},
    )

    assert slack(still, LINE).value == 0.038  # 1.5 in [US Army AL-0907, p. 59]
    assert slack(still, LINE).grade is Grade.READ
    assert slack_source(still, LINE) == "us-army-al0907"


def test_corners_are_all_looked_at_for_the_farthest() -> None:
    by = Sweep(0.0, (-0.3, 0.0, -0.1), (0.1, 0.2, 0.0))
    corners = product((-0.3, 0.1), (0.0, 0.2), (-0.1, 0.0))

    assert by.most == pytest.approx(max((x * x + y * y + z * z) ** 0.5 for x, y, z in corners))
