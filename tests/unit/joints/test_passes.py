# SPDX-License-Identifier: Apache-2.0
"""Panel passes: one hose on each side and a bulkhead fitting in between."""

from tests.unit.joints.small_cars import (
    OIL,
    STRAIGHT,
    chain,
    codes,
    end,
    ends_of,
    finding,
    two_ports,
)


def test_two_panels_make_three_hoses_with_six_ends() -> None:
    joints = two_ports(
        "-10 ORB female",
        "-10 flare male",
        "-10",
        '["90", "45"]',
        extra='passes = ["firewall", "floor"]',
    )

    assert [(t.hose, t.side, t.port, t.is_bulkhead) for t in joints.terminations] == [
        ("O01a", "A", "A.out", False),
        ("O01a", "B", "O01.firewall", True),
        ("O01b", "A", "O01.firewall", True),
        ("O01b", "B", "O01.floor", True),
        ("O01c", "A", "O01.floor", True),
        ("O01c", "B", "B.in", False),
    ]
    assert [t.angle for t in joints.terminations] == [90, 0, 0, 0, 0, 45]
    assert {t.line for t in joints.terminations} == {"O01"}
    assert [(f.how, f.panel, f.line) for f in joints.fits] == [
        ("bulkhead", "firewall", "O01"),
        ("bulkhead", "floor", "O01"),
    ]
    assert codes(joints) == []


def test_the_angles_typed_belong_to_the_ports_and_straight_ends_stand_at_the_panel() -> None:
    joints = two_ports(
        "-6 flare male", "-6 flare male", "-6", '["90", "90"]', extra='passes = ["firewall"]'
    )

    assert [chain(joints, f"O01{s}").parts[-1].angle for s in ("a.A", "a.B", "b.A", "b.B")] == [
        90,
        0,
        0,
        90,
    ]
    (step,) = joints.steps
    assert step.about == ("O01", "firewall")
    assert step.text == (
        "O01: straight hose ends are taken at firewall; where the hose has to turn at the panel, "
        "make the bulkhead a component and type its angles."
    )


def test_one_hose_through_one_panel_is_closed_by_four_ends_of_its_own_dash() -> None:
    joints = two_ports(
        "-8 flare male", "-8 flare male", "-8", STRAIGHT, extra='passes = ["floor"]', system=OIL
    )

    for name in ("O01a.A", "O01a.B", "O01b.A", "O01b.B"):
        assert ends_of(chain(joints, name)) == ["flare_37 -8 f swivel > hose -8 rubber m"]
        assert chain(joints, name).joint_count == 1


def test_a_dash_without_a_bulkhead_is_a_stop_and_the_ports_are_still_chosen() -> None:
    joints = two_ports(
        "-20 flare male", "-20 flare male", "-20", STRAIGHT, extra='passes = ["floor"]'
    )

    stop = finding(joints, "no-chain")
    assert stop.about == ("O01", "floor")
    assert stop.reason == "O01 through floor: no -20 bulkhead fitting is sold."
    assert stop.remedy == "Change size at the panel with components of their own, or go round it."
    assert end(joints, "O01a.A").chain is not None
    assert end(joints, "O01b.B").chain is not None
