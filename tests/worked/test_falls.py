# SPDX-License-Identifier: Apache-2.0
"""Falls, rises, humps and sags: cases R2, R3 and R7, worked by hand.

R2 is plain statics: a piece that falls by an angle stops where the acceleration is its tangent.
R3 is continuity with the velocity of practice rule R07, 0.6 m/s [common practice].
"""

from math import cos, pi, radians, sin, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.base.finding import Severity
from linewright.base.vectors import Vector
from linewright.car.conditions import of_use
from linewright.car.model import Car, Condition, Construction, Line, Medium
from linewright.proofs.downs import LEVEL, accelerating, head, stops_at
from linewright.proofs.falls import bleed, drain, vent
from linewright.proofs.traps import Flow, humps, idle_flow, lift, trap
from linewright.space.path import Path

FORWARD = (-1.0, 0.0, 0.0)
LIMIT = radians(15.0)
CIRCUIT = tuple(of_use("circuit").values())


def _line(service: str, medium: Medium = Medium.OIL) -> Line:
    return Line(
        "L01", "T.out", "E.in", "s", medium, "-10", "rubber", Construction.HOSE, service=service
    )


def _falling(degrees: float) -> Path:
    """A straight drain of half a metre that falls forward."""
    angle = radians(degrees)
    return Path(((0.0, 0.0, 0.0), (-0.5 * cos(angle), 0.0, -0.5 * sin(angle))), ())


def _hump(height: float) -> Path:
    return Path(((0.0, 0.0, 0.0), (0.2, 0.0, height), (0.4, 0.0, 0.0)), (0.0001,))


# -- R2 ------------------------------------------------------------------------------------


@pytest.mark.parametrize(("falls", "share"), [(15.0, 0.27), (30.0, 0.58), (45.0, 1.00)])
def test_a_drain_that_falls_forward_stops_at_the_tangent_of_its_fall(
    falls: float, share: float
) -> None:
    stop = stops_at(_falling(falls), FORWARD)

    assert stop is not None
    assert round(stop, 2) == share
    assert stop == pytest.approx(tan(radians(falls)), abs=1e-8)


def test_a_drain_that_falls_forward_flows_the_better_for_braking() -> None:
    assert stops_at(_falling(30.0), (1.0, 0.0, 0.0)) is None


@settings(max_examples=100)
@given(st.floats(1.0, 80.0), st.floats(-pi, pi))
def test_a_drain_stops_sooner_than_its_fall_only_in_the_plane_of_it(
    falls: float, heading: float
) -> None:
    # By hand: d·(−z − a w) = 0 gives a = tan(fall)/cos(heading).
    stop = stops_at(_falling(falls), (-cos(heading), sin(heading), 0.0))
    by_hand = tan(radians(falls)) / cos(heading)

    if 0.0 < by_hand < 9.9:
        assert stop == pytest.approx(by_hand, rel=1e-6, abs=1e-8)
    elif by_hand < 0.0 or by_hand > 10.1:
        assert stop is None


def test_each_condition_has_its_own_down() -> None:
    # Parked level it falls 30°; at 0.57 g of speeding up down has turned by 29.7°.
    line = _line("drain")
    held = (LEVEL, Condition("launch", accelerating(FORWARD, 0.57)))
    (finding,) = drain(line, "L01", _falling(30.0), held, LIMIT)

    assert finding.code == "drain-flat"
    assert finding.severity is Severity.WARN
    assert finding.reason == (
        "L01 drains by gravity alone. In launch it falls 0.3° at (0, 0, 0) mm, 0 mm from T.out; it "
        "should fall 15° or more. On level ground its flow stops at 0.58 g of speeding up."
    )


def test_a_drain_that_is_flat_on_level_ground_is_a_stop_and_names_the_rest() -> None:
    line = _line("drain")
    nose = Condition("nose-down", accelerating(FORWARD, 0.1), is_held=True)
    (finding,) = drain(line, "L01", _falling(10.0), (LEVEL, nose), LIMIT)

    assert finding.severity is Severity.STOP
    assert finding.value == "4.3°"
    assert "So too in: level." in finding.reason


def test_a_drain_straight_down_stands_all_that_a_circuit_asks() -> None:
    down = Path(((0.0, 0.0, 0.3), (0.0, 0.0, 0.0)), ())

    assert drain(_line("drain"), "L01", down, CIRCUIT, LIMIT) == ()


def test_a_belly_of_a_drain_is_found_where_it_lies_flattest() -> None:
    belly = Path(((0.0, 0.0, 0.3), (0.0, 0.0, 0.1), (0.4, 0.0, 0.1), (0.4, 0.0, 0.0)), (0.05, 0.05))
    (finding,) = drain(_line("drain"), "L01", belly, (LEVEL,), LIMIT)

    assert finding.value == "0.0°"
    assert "(50, 0, 100) mm" in finding.reason
    assert finding.reason.endswith("It stands still even on level ground.")


# -- R3 ------------------------------------------------------------------------------------


def test_a_hump_of_30_mm_holds_air_at_8_litres_a_minute() -> None:
    line = _line("pressure", Medium.COOLANT)
    (finding,) = humps(line, "L01", _hump(0.03), 0.0222, Flow(8 / 60000), 0.6, 0.005)

    assert finding.code == "coolant-hump"
    assert finding.severity is Severity.WARN
    assert finding.reason == (
        "L01 goes over a hump of 30 mm at (200, 0, 30) mm. At 8 L/min the coolant goes 0.34 m/s, "
        "under the 0.6 m/s that carry air along: air stays there."
    )


def test_at_30_litres_a_minute_the_same_hump_is_swept() -> None:
    line = _line("pressure", Medium.COOLANT)
    flow = 30 / 60000

    assert round(flow / (pi * 0.0222**2 / 4), 2) == 1.29
    assert humps(line, "L01", _hump(0.03), 0.0222, Flow(flow), 0.6, 0.005) == ()


def test_a_hump_with_a_flow_that_nobody_typed_asks_for_it() -> None:
    line = _line("pressure", Medium.COOLANT)
    (finding,) = humps(line, "L01", _hump(0.03), 0.0222, Flow(None, "WP"), 0.6, 0.005)

    assert finding.severity is Severity.ASK
    assert finding.remedy == (
        "Type `idle-flow` at WP. Or: lead it without the hump, or fit a bleed at its highest point."
    )


def test_a_coolant_line_that_only_rises_has_no_hump() -> None:
    line = _line("pressure", Medium.COOLANT)
    rising = Path(((0.0, 0.0, 0.0), (0.2, 0.0, 0.03), (0.4, 0.0, 0.04)), (0.0001,))

    assert humps(line, "L01", rising, 0.0222, Flow(None), 0.6, 0.005) == ()


def test_no_pump_no_flow() -> None:
    assert idle_flow(Car("x"), _line("pressure", Medium.COOLANT)) == Flow(None, "")


# -- R7 ------------------------------------------------------------------------------------


def test_a_vent_may_rise_cross_and_fall_to_its_outlet() -> None:
    path = Path(((0.0, 0.0, 0.0), (0.0, 0.0, 0.3), (0.0, 0.8, 0.3), (0.0, 0.8, -0.5)), (0.05, 0.05))

    assert vent(_line("vent", Medium.FUEL), "L01", path, CIRCUIT, 0.005) == ()


def test_a_vent_with_a_sag_between_two_higher_points_is_told() -> None:
    path = Path(
        (
            (0.0, 0.0, 0.0),
            (0.0, 0.0, 0.3),
            (0.0, 0.3, 0.3),
            (0.0, 0.5, 0.2),
            (0.0, 0.8, 0.25),
            (0.0, 0.8, -0.5),
        ),
        (0.001,) * 4,
    )
    (finding,) = vent(_line("vent", Medium.FUEL), "L01", path, CIRCUIT, 0.005)

    assert finding.code == "vent-sags"
    assert finding.severity is Severity.STOP
    assert finding.value == "50 mm"
    assert "lowest at (0, 500, 200) mm" in finding.reason


# -- bleeds and suction --------------------------------------------------------------------


def test_a_bleed_has_to_rise_all_the_way() -> None:
    sag = Path(((0.0, 0.0, 0.0), (0.3, 0.0, -0.05), (0.6, 0.0, 0.2)), (0.0001,))
    (finding,) = bleed(_line("bleed", Medium.COOLANT), "L01", sag, (LEVEL,), 0.005)

    assert finding.code == "bleed-dips"
    assert finding.severity is Severity.STOP
    assert finding.reason == (
        "L01 bleeds air off and has to rise all the way to its tank. In level it falls 50 mm to "
        "(300, 0, -50) mm: liquid stands there and no more air passes."
    )


def test_a_bleed_that_dips_only_on_a_slope_is_a_warning() -> None:
    # It rises 8° forward; on 10.2° with the nose down it falls by 0.5/cos 8° · sin 2.2° = 19 mm.
    rise = Path(((0.0, 0.0, 0.0), (-0.5, 0.0, 0.5 * tan(radians(8.0)))), ())
    (finding,) = bleed(_line("bleed", Medium.COOLANT), "L01", rise, CIRCUIT, 0.005)

    assert finding.severity is Severity.WARN
    assert finding.value == "19 mm"
    assert "In nose-down it falls" in finding.reason


def test_a_bleed_from_a_port_that_points_sidewise_may_start_level() -> None:
    rise = Path(((0.0, 0.0, 0.0), (0.0, 0.1, 0.0), (0.0, 0.3, 0.3)), (0.05,))

    assert bleed(_line("bleed", Medium.COOLANT), "L01", rise, CIRCUIT, 0.005) == ()


def test_a_bleed_whose_tank_is_lower_falls_by_that() -> None:
    fall = Path(((0.0, 0.0, 0.3), (0.0, 0.4, 0.1)), ())
    (finding,) = bleed(_line("bleed", Medium.COOLANT), "L01", fall, (LEVEL,), 0.005)

    assert finding.value == "200 mm"


def test_a_suction_line_over_a_hump_holds_air() -> None:
    (finding,) = trap(_line("suction"), "L01", _hump(0.05), (LEVEL,), 0.005)

    assert finding.code == "suction-trap"
    assert finding.value == "50 mm"


def _ends(path: Path) -> tuple[Vector, Vector]:
    return path.corners[0], path.corners[-1]


def test_a_pump_before_its_tank_lifts_when_the_nose_is_up() -> None:
    level = Path(((3.0, 0.0, 0.2), (0.0, 0.0, 0.2)), ())
    (finding,) = lift(_line("suction"), _ends(level), CIRCUIT)

    assert finding.code == "suction-lifts"
    assert finding.severity is Severity.WARN
    assert finding.value == "531 mm"  # 3 m · sin(atan 0.18)
    assert "In nose-up" in finding.reason
    assert "launch" in finding.reason


def test_a_small_lift_is_left_alone() -> None:
    level = Path(((0.5, 0.0, 0.2), (0.0, 0.0, 0.2)), ())
    slopes = tuple(each for each in CIRCUIT if each.is_held)

    assert lift(_line("suction"), _ends(level), slopes, 0.1) == ()
    assert len(lift(_line("suction"), _ends(level), slopes, 0.08)) == 1


def test_a_pump_under_its_tank_lifts_nothing() -> None:
    down = Path(((0.0, 0.0, 0.6), (0.0, 0.0, 0.1)), ())

    assert lift(_line("suction"), _ends(down), CIRCUIT) == ()


def test_the_head_of_a_start_is_what_its_acceleration_makes_of_the_distance() -> None:
    start = Condition("launch", accelerating(FORWARD, 0.5))

    assert head((3.0, 0.0, 0.4), (0.0, 0.0, 0.0), start) == pytest.approx(0.4 - 1.5)
