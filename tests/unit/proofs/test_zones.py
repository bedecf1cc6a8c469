# SPDX-License-Identifier: Apache-2.0
"""Zones: gaps after movement, rooms, and what drips fall on. Distances by hand."""

from dataclasses import replace
from math import radians, tan

import pytest

from linewright.base.evidence import Figure, Grade
from linewright.base.finding import Finding, Overrule, Severity
from linewright.base.frames import rotation
from linewright.car.model import (
    Car,
    Condition,
    Construction,
    Line,
    Medium,
    Shape,
    Travel,
    Zone,
    ZoneKind,
)
from linewright.checks.accepted import is_worse
from linewright.proofs.downs import LEVEL, accelerating
from linewright.proofs.zones import Asked, ask, zones
from linewright.routes.route import Route
from linewright.space.bodies import Solid
from linewright.space.free import collar
from linewright.space.model import EndShape, Frame
from linewright.space.path import Path

CAR = Car("x")
LINE = Line("L01", "T.out", "E.in", "s", Medium.OIL, "-10", "rubber", Construction.HOSE)
STRAIGHT = EndShape(0, 0.060, 0.0)
UNTURNED = rotation(0.0, 0.0, 0.0)
OUTSIDE = 0.020


def _route() -> Route:
    """A straight hose of 20 mm along x from (0, 0, 0) to (1, 0, 0), collars 60 mm in."""
    a = collar(Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)), STRAIGHT, 0.0)
    b = collar(Frame((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0)), STRAIGHT, 0.0)
    return Route("L01", a, b, Path((a.collar, b.collar), ()), 0.88, None, 0.02, None)


def _asked(medium: Medium = Medium.OIL, rides: tuple[str, ...] = ("chassis",)) -> Asked:
    return ask("L01", replace(LINE, medium=medium), _route(), OUTSIDE, rides)


def _zone(
    kind: ZoneKind, x: float, z: float, clearance: float = 0.0, rides: str = "chassis"
) -> Solid:
    """A box of 200 × 200 × 100 mm whose middle is at (x, 0, z)."""
    return Solid(
        "Z",
        Shape.BOX,
        (x, 0.0, z),
        UNTURNED,
        (0.2, 0.2, 0.1),
        zone=kind,
        rides=rides,
        clearance=clearance,
        is_solid=kind.is_solid,
    )


def _codes(told: tuple[Finding, ...]) -> list[str]:
    return [each.code for each in told]


# -- heat ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("gap", "clearance", "weight"),
    [
        (0.101, 0.100, None),
        (0.099, 0.100, Severity.WARN),
        (0.026, 0.050, Severity.WARN),
        (0.024, 0.050, Severity.STOP),
    ],
)
def test_a_hose_near_heat_is_told_by_how_near(
    gap: float, clearance: float, weight: Severity | None
) -> None:
    # The middle of the hot box is above the hose by gap, half the hose, half the box.
    hot = _zone(ZoneKind.HOT, 0.5, gap + OUTSIDE / 2 + 0.05, clearance)
    told = zones(CAR, _asked(), [hot], (LEVEL,))

    assert [each.severity for each in told] == ([] if weight is None else [weight])
    if told:
        assert told[0].code == "near-hot"
        assert told[0].value == f"{gap * 1000:.0f} mm"
        assert told[0].limit == f"{clearance * 1000:.0f} mm"


def test_what_moves_comes_nearer_by_its_movement() -> None:
    # 120 mm away on the exhaust, which moves 30 mm against the chassis: 90 mm are left.
    hot = _zone(ZoneKind.HOT, 0.5, 0.120 + OUTSIDE / 2 + 0.05, 0.100, "exhaust")
    (finding,) = zones(CAR, _asked(), [hot], (LEVEL,))

    assert finding.code == "near-hot"
    assert finding.value == "90 mm"


def test_what_rides_on_an_axle_comes_as_near_as_it_goes_that_way() -> None:
    # 120 mm over the hose: 40 mm of droop come off it, 100 mm of bump take nothing.
    axle = Travel((0.0, -0.010, -0.040), (0.0, 0.010, 0.100))
    car = replace(CAR, movement={"axle": axle})
    hot = _zone(ZoneKind.HOT, 0.5, 0.120 + OUTSIDE / 2 + 0.05, 0.100, "axle")
    (finding,) = zones(car, _asked(), [hot], (LEVEL,))

    assert (finding.code, finding.value) == ("near-hot", "80 mm")


def test_a_shield_is_said() -> None:
    car = replace(CAR, zones={"Z": Zone("Z", ZoneKind.HOT, is_shielded=True)})
    hot = _zone(ZoneKind.HOT, 0.5, 0.030 + OUTSIDE / 2 + 0.05, 0.050)
    (finding,) = zones(car, _asked(), [hot], (LEVEL,))

    assert "of Z, behind its shield, after all movement" in finding.reason


def test_a_port_on_a_hot_part_is_a_warning_with_another_way_out() -> None:
    # The face of the box is 20 mm before the port: nothing can lead the hose away there.
    hot = _zone(ZoneKind.HOT, -0.120 - OUTSIDE / 2, 0.0, 0.050)
    (finding,) = zones(CAR, _asked(), [hot], (LEVEL,))

    assert finding.severity is Severity.WARN
    assert finding.value == "20 mm"
    assert finding.remedy == (
        "Its port is that near: turn the hose end away from it, cover both with a shield, and take "
        "a hose that stands the heat there."
    )


def test_a_joint_beside_what_is_hot_does_not_drip_on_it() -> None:
    # The port is 20 mm beside the box, within the margin of its drips, and half way up.
    hot = _zone(ZoneKind.HOT, -0.120, 0.0)

    assert "drips-on" not in _codes(zones(CAR, _asked(), [hot], (LEVEL,)))


# -- movement and free rooms -----------------------------------------------------------------


@pytest.mark.parametrize(
    ("gap", "weight"), [(0.026, None), (0.024, Severity.WARN), (-0.001, Severity.STOP)]
)
def test_a_hose_near_what_moves_is_told(gap: float, weight: Severity | None) -> None:
    wheel = _zone(ZoneKind.MOVING, 0.5, gap + OUTSIDE / 2 + 0.05, 0.025)
    told = zones(CAR, _asked(), [wheel], (LEVEL,))

    assert [each.severity for each in told] == ([] if weight is None else [weight])
    assert _codes(told) == [] or _codes(told) == ["near-moving"]


def test_travel_counts_along_its_own_axis() -> None:
    # 150 mm above and travelling 130 mm up and down: 20 mm are left; sidewise it stays away.
    above = _zone(ZoneKind.MOVING, 0.5, 0.150 + OUTSIDE / 2 + 0.05, 0.025)

    (finding,) = zones(CAR, _asked(), [replace(above, grown=(0.0, 0.0, 0.13))], (LEVEL,))
    assert finding.value == "20 mm"
    assert zones(CAR, _asked(), [replace(above, grown=(0.13, 0.0, 0.0))], (LEVEL,)) == ()


def test_a_hose_through_a_room_that_is_kept_free_is_a_stop() -> None:
    room = _zone(ZoneKind.KEEP_OUT, 0.5, 0.05)
    (finding,) = zones(CAR, _asked(), [room], (LEVEL,))

    assert finding.code == "in-zone"
    assert finding.severity is Severity.STOP
    assert finding.grade is Grade.STATED


def test_a_hose_along_the_wall_of_that_room_is_not() -> None:
    assert zones(CAR, _asked(), [_zone(ZoneKind.KEEP_OUT, 0.5, 0.0601)], (LEVEL,)) == ()


# -- the driver ------------------------------------------------------------------------------


def test_a_joint_by_the_driver_is_a_warning_and_the_line_a_note() -> None:
    told = zones(CAR, _asked(), [_zone(ZoneKind.DRIVER, 0.0, 0.0)], (LEVEL,))

    assert _codes(told) == ["driver-joint", "driver-line"]
    assert [each.severity for each in told] == [Severity.WARN, Severity.NOTE]
    assert told[0].reason.startswith("Joint L01.A, (0, 0, 0) mm, lies in Z")
    assert "current book of the body concerned" in told[0].remedy


def test_a_line_without_a_joint_there_is_only_a_note() -> None:
    told = zones(CAR, _asked(), [_zone(ZoneKind.DRIVER, 0.5, 0.0)], (LEVEL,))

    assert _codes(told) == ["driver-line"]


def test_air_by_the_driver_is_nothing() -> None:
    assert zones(CAR, _asked(Medium.AIR), [_zone(ZoneKind.DRIVER, 0.0, 0.0)], (LEVEL,)) == ()


# -- drips -----------------------------------------------------------------------------------


def test_a_joint_straight_above_what_is_sensitive_drips_on_it() -> None:
    below = _zone(ZoneKind.SPILL_SENSITIVE, 0.0, -0.35)
    (finding,) = zones(CAR, _asked(), [below], (LEVEL,))

    assert finding.code == "drips-on"
    assert finding.severity is Severity.WARN
    assert finding.reason == (
        "Joint L01.A at (0, 0, 0) mm is straight above Z, 300 mm over it: what weeps there drips "
        "on it."
    )


@pytest.mark.parametrize(("x", "is_told"), [(-0.12, True), (-0.13, False), (0.5, False)])
def test_drips_fall_no_further_beside_a_joint_than_the_margin(x: float, is_told: bool) -> None:
    # The box reaches 100 mm from its middle, drips 25 mm from the joint at x = 0.
    below = _zone(ZoneKind.SPILL_SENSITIVE, x, -0.35)

    assert bool(zones(CAR, _asked(), [below], (LEVEL,))) is is_told


def test_a_joint_nearer_above_is_worse_than_what_was_accepted() -> None:
    def told(z: float) -> Finding:
        (finding,) = zones(CAR, _asked(), [_zone(ZoneKind.SPILL_SENSITIVE, 0.0, z)], (LEVEL,))
        return finding

    accepted = Overrule("drips-on", ("L01", "Z"), "a tray under it", accepted=0.3)

    assert told(-0.35).value == "300 mm"
    assert not is_worse(told(-0.35), accepted)
    assert not is_worse(told(-0.45), accepted)
    assert is_worse(told(-0.25), accepted)


def test_what_is_above_a_joint_stays_dry() -> None:
    assert zones(CAR, _asked(), [_zone(ZoneKind.SPILL_SENSITIVE, 0.0, 0.35)], (LEVEL,)) == ()


def test_on_a_slope_drips_fall_askew() -> None:
    # 10° nose up, drops go rearward by tan 10° a metre: 0.5 m down they are 88 mm off.
    share = tan(radians(10.0))
    slope = Condition("nose-up", accelerating((-1.0, 0.0, 0.0), share), is_held=True)
    below = _zone(ZoneKind.SPILL_SENSITIVE, 0.088 + 0.12, -0.55)

    assert zones(CAR, _asked(), [below], (LEVEL,)) == ()
    (finding,) = zones(CAR, _asked(), [below], (LEVEL, slope))
    assert "in nose-up above Z" in finding.reason


def test_what_passes_in_seconds_throws_no_drips() -> None:
    launch = Condition("launch", accelerating((-1.0, 0.0, 0.0), 0.2))
    below = _zone(ZoneKind.SPILL_SENSITIVE, 0.088 + 0.12, -0.55)

    assert zones(CAR, _asked(), [below], (launch,)) == ()


@pytest.mark.parametrize(
    ("medium", "weight"),
    [(Medium.FUEL, Severity.STOP), (Medium.OIL, Severity.STOP), (Medium.COOLANT, Severity.WARN)],
)
def test_fuel_and_oil_over_heat_are_a_stop(medium: Medium, weight: Severity) -> None:
    hot = _zone(ZoneKind.HOT, 0.0, -0.35, 0.1)
    (finding,) = zones(CAR, _asked(medium), [hot], (LEVEL,))

    assert finding.code == "drips-on"
    assert finding.severity is weight


def test_bodies_that_are_no_zones_are_not_looked_at() -> None:
    plain = replace(_zone(ZoneKind.HOT, 0.5, 0.0), zone=None)

    assert zones(CAR, _asked(), [plain], (LEVEL,)) == ()


def test_settings_of_the_car_hold() -> None:
    car = replace(CAR, settings={"drip-margin": Figure(0.0, "m", Grade.STATED)})
    below = _zone(ZoneKind.SPILL_SENSITIVE, -0.12, -0.35)

    assert zones(car, _asked(), [below], (LEVEL,)) == ()
