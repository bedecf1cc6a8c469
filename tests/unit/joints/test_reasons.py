# SPDX-License-Identifier: Apache-2.0
"""What a chosen chain gives cause to say, word for word, and when it stays silent."""

import pytest

from linewright.base.finding import Severity
from tests.unit.joints.small_cars import (
    COOLANT,
    FUEL,
    OIL,
    chain,
    codes,
    end,
    finding,
    plan,
    thing,
    two_ports,
)


def test_a_choke_gives_number_limit_and_both_ways_out() -> None:
    joints = two_ports("-16 flare male", "-12 ORB female", "-16", extra='service = "return"')

    warn = finding(joints, "choke")
    assert warn.severity is Severity.WARN
    assert warn.about == ("B.in", "O01")
    assert warn.system == "oil"
    assert warn.reason == (
        "B.in (-12 ORB female): least bore 15.5 mm in a hose of 22.2 mm bore leaves 49% of the area."
    )
    assert warn.remedy == (
        "a -16 bung or port in place of -12; or the line a size down, -12: the port passes no more."
    )
    assert (warn.value, warn.limit) == ("49%", "50%")
    assert warn.measure == pytest.approx(1 - (15.5 / 22.2) ** 2, abs=1e-3)


@pytest.mark.parametrize(
    ("service", "is_told"),
    [("pressure", False), ("suction", True), ("reference", False), ("bleed", False)],
)
def test_suction_is_judged_more_strictly(service: str, is_told: bool) -> None:
    # 10.3 mm in 14.3 mm leaves 52 %: over 50 %, under the 60 % of a suction line.
    joints = two_ports("3/8 NPT female", "-10 flare male", "-10", extra=f'service = "{service}"')

    assert ("choke" in codes(joints)) is is_told


def test_each_chain_carries_the_codes_of_what_it_gives_cause_to_say() -> None:
    joints = two_ports(
        "3/8 NPT female",
        "-10 flare male",
        "-10",
        near_extra='material = "aluminium"',
        extra='service = "suction"',
    )

    assert chain(joints, "O01.A").codes == ("choke", "taper-in-aluminium")
    assert all("taper-in-aluminium" in c.codes for c in end(joints, "O01.A").alternatives)
    assert chain(joints, "O01.B").codes == ()


def test_a_stated_setting_moves_the_limit() -> None:
    joints = plan(
        '[settings]\nchoke-pressure = "60 %"\n',
        OIL,
        thing("A", {"out": "3/8 NPT female"}),
        thing("B", {"in": "-10 flare male"}),
        '[lines.O01]\nfrom = "A.out"\nto = "B.in"\nsize = "-10"\nends = ["straight", "straight"]\n',
    )

    assert finding(joints, "choke").limit == "60%"


@pytest.mark.parametrize("dash", ["-6", "-8", "-10", "-12", "-16"])
@pytest.mark.parametrize("system", [OIL, FUEL])
def test_a_port_of_the_lines_own_dash_never_chokes_it(dash: str, system: str) -> None:
    for service in ("pressure", "suction"):
        joints = two_ports(
            f"{dash} ORB female",
            f"{dash} flare male",
            dash,
            system=system,
            extra=f'service = "{service}"',
        )

        assert codes(joints) == []


def test_a_jet_is_narrow_on_purpose() -> None:
    ends = '["straight", { angle = "straight", fit = ["jet 1 mm"] }]'
    joints = two_ports("-4 flare male", "M12x1.5 flat face", "-4", ends)

    assert codes(joints) == []


def test_a_line_far_smaller_than_its_neck_is_told() -> None:
    joints = two_ports("38 mm bead", "-20 flare male", "-20", extra='hose = "rubber braided"')

    warn = finding(joints, "choke")
    assert warn.reason == (
        "A.out (38 mm bead): a hose of 28.6 mm bore on a neck of about 35 mm leaves 67% of the area."
    )
    assert warn.remedy == (
        "Cut the neck and weld on a -20 cone, which saves the coupler; or run the line in 38 mm "
        "hose."
    )
    assert (warn.value, warn.limit) == ("67%", "70%")


def test_a_banjo_says_what_it_chokes_and_asks_for_face_and_depth() -> None:
    room = '{ end = "M14x1.5 flat face", room = "22 mm", known = "read" }'
    joints = two_ports(room, "-6 flare male", "-6", '["90", "straight"]')

    warn, ask = finding(joints, "banjo-bore"), finding(joints, "spot-face-unknown")
    assert warn.reason == (
        "A.out (M14x1.5 flat face female): the banjo's least bore of 5.5 mm leaves 40% of the "
        "area of a hose of 8.7 mm bore."
    )
    assert warn.remedy == (
        "Take a stud and an angled hose end if there is room for them, or check that the flow is "
        "small here."
    )
    assert ask.reason == (
        "A.out (M14x1.5 flat face female): a banjo seals on two washers on flat faces, and the "
        "width of the flat face round the hole and the depth of the hole are not known."
    )
    assert ask.remedy == (
        "Measure it: the face has to be wider than the washer, the hole deeper than the bolt "
        "reaches."
    )
    assert [step.text for step in joints.steps] == [
        "Two new washers, one on each side of the eye; faces clean."
    ]


def test_a_special_part_is_noted_by_name() -> None:
    joints = two_ports("-12 ORFS male", "-12 flare male", "-12")

    note = finding(joints, "part-special")
    assert note.severity is Severity.NOTE
    assert note.reason == (
        "A.out (-12 ORFS male): only a special order will do: adaptor, -12 ORFS nut to -12 flare "
        "male, steel. No stocked or catalogued part makes this joint."
    )
    assert note.remedy == "Order it first, from a hydraulic supplier; or change the port."


def test_a_tall_chain_is_told_with_its_height() -> None:
    ends = '[{ angle = "straight", fit = ["screen"] }, "straight"]'
    joints = two_ports("1/8 NPT female", "-4 flare male", "-4", ends)

    warn = finding(joints, "stick-out")
    assert warn.severity is Severity.WARN
    assert warn.limit == "60 mm"
    assert warn.reason == (
        f"A.out (1/8 NPT female): 2 adaptors stand out {warn.value} before the hose begins; they lever "
        "on the port when the car shakes."
    )
    assert warn.remedy == (
        "Change the port for one that takes fewer adaptors, or support the chain."
    )


def test_an_adjustable_elbow_and_a_weld_bring_their_work_steps() -> None:
    room = '{ end = "-12 ORB female", room = "45 mm", known = "read" }'
    elbow = two_ports(room, "-12 flare male", "-12", '["90", "straight"]')
    bung = two_ports("weld aluminium", "-12 flare male", "-12")

    assert [(s.code, s.about) for s in elbow.steps] == [("adjustable-elbow", ("A.out", "O01"))]
    assert elbow.steps[0].text.endswith(
        "run it in, back off one turn at most to point it, hold it, tighten the lock nut."
    )
    assert [(s.code, s.text) for s in bung.steps] == [
        (
            "weld",
            "Weld before paint and before the part goes back into the car, with a plug screwed in "
            "and no O-ring; then leak-test.",
        )
    ]


def test_a_soft_coupler_does_not_count_as_standing_out() -> None:
    joints = two_ports(
        "25 mm bead", "-16 flare male", "-16", system=COOLANT, extra='hose = "rubber braided"'
    )

    assert "stick-out" not in codes(joints)
