# SPDX-License-Identifier: Apache-2.0
"""What is offered at the ends of screwed hoses, and what is said where nothing fits."""

import pytest

from linewright.base.finding import Severity
from linewright.catalogue import stock
from linewright.joints.model import Joints
from linewright.joints.termination import offer
from linewright.takeoff.wanted import spots
from tests.unit.joints.small_cars import (
    AIR,
    COOLANT,
    FUEL,
    OIL,
    STRAIGHT,
    car,
    chain,
    codes,
    end,
    ends_of,
    finding,
    line,
    plan,
    thing,
    two_ports,
)


def test_the_same_car_gives_the_same_joints_again() -> None:
    small = car(
        OIL,
        thing("A", {"out": "-10 ORB female"}),
        thing("B", {"in": "1/2 NPT female"}),
        line("O01", "A.out", "B.in", "-10", STRAIGHT),
    )

    assert offer(small) == offer(small)


def test_an_open_angle_lists_what_is_sold_and_a_straight_end_stands_in() -> None:
    joints = two_ports("-10 ORB female", "-10 flare male", "-10", '["open", "straight"]')

    found = end(joints, "O01.A")
    assert found.angle is None
    assert found.angles == (0, 30, 45, 60, 90, 120, 150, 180)
    assert chain(joints, "O01.A").parts[-1].angle == 0
    assert codes(joints) == ["open-angle"]
    ask = finding(joints, "open-angle")
    assert ask.severity is Severity.ASK
    assert ask.about == ("O01.A", "O01")
    assert ask.reason == (
        "O01.A: the angle of the hose end at A.out (-10 ORB female) is open; a straight one stands "
        "in. Sold: straight, 30°, 45°, 60°, 90°, 120°, 150°, 180°."
    )
    assert ask.remedy == (
        "Hold the part up, look which way the hose wants to leave, and type the angle in the "
        "line's ends."
    )


def test_a_full_swivel_is_taken_only_where_it_is_typed() -> None:
    joints = two_ports("-8 flare male", "-8 flare male", "-8", '["90 full swivel", "90"]')

    assert "full swivel" in chain(joints, "O01.A").parts[-1].traits
    assert "full swivel" not in chain(joints, "O01.B").parts[-1].traits


def test_an_unknown_port_is_left_open_and_the_other_end_is_still_chosen() -> None:
    joints = two_ports("?", "-8 ORB female", "-8")

    assert end(joints, "O01.A").chain is None
    assert end(joints, "O01.A").alternatives == ()
    assert end(joints, "O01.B").chain is not None
    assert codes(joints) == []


def test_a_hose_end_of_another_dash_is_a_stop_that_names_the_end() -> None:
    joints = two_ports("-10 flare male", "-10 flare male", "-10", '["-8 90", "straight"]')

    stop = finding(joints, "dash-differs")
    assert stop.severity is Severity.STOP
    assert stop.about == ("O01.A", "O01")
    assert stop.reason == "O01.A: a -8 hose end is typed for a -10 hose; it does not grip."
    assert stop.remedy == (
        "Take a -10 hose end and let the adaptor change size; or make the whole line -8."
    )
    assert (stop.value, stop.limit) == ("-8", "-10")
    assert ends_of(chain(joints, "O01.A")) == ["flare_37 -10 f swivel > hose -10 rubber m"]


def test_a_hose_end_for_another_hose_is_a_stop_with_both_ways_out() -> None:
    ends = '[{ angle = "90", hose = "rubber braided" }, "straight"]'
    joints = two_ports("-6 flare male", "-6 flare male", "-6", ends, system=FUEL)

    stop = finding(joints, "hose-family-mix")
    assert stop.severity is Severity.STOP
    assert stop.about == ("O01.A", "O01")
    assert stop.reason == (
        "O01.A: a hose end for rubber hose is typed on PTFE hose; nipple and socket are made for "
        "one hose family and blow off another."
    )
    assert stop.remedy == (
        "Buy -6 hose ends for PTFE hose; or lay the line in braided rubber hose if its fluid "
        "allows."
    )


def test_where_no_part_fits_the_port_the_finding_names_the_port_alone() -> None:
    joints = two_ports("1-3/16-12 ORB female", "-8 flare male", "-8")

    stop = finding(joints, "no-chain")
    assert stop.severity is Severity.STOP
    assert stop.about == ("A.out", "O01")
    assert stop.reason == (
        "A.out (-14 ORB female): no part that the trade sells joins -14 ORB female."
    )
    assert stop.remedy == (
        "Measure the port again; if it is right, change the port, or describe the part in your "
        "hand under [parts]."
    )
    assert end(joints, "O01.A").chain is None


def test_a_dash_without_hose_ends_is_named_with_those_that_are_sold() -> None:
    joints = two_ports("-8 flare male", "-8 flare male", "-5")

    stops = [f for f in joints.findings if f.code == "no-chain"]
    assert [f.about for f in stops] == [("A.out", "O01"), ("B.in", "O01")]
    assert stops[0].reason == (
        "A.out (-8 flare male): no hose end for -5 rubber hose is sold; sold: -4, -6, -8, -10, "
        "-12, -16, -20."
    )
    assert stops[0].remedy == "Take a dash that is sold."


def test_an_angle_that_is_not_sold_for_the_hose_is_named() -> None:
    joints = two_ports(
        "-4 flare male", "-4 flare male", "-8", '["120", "straight"]', extra='hose = "push-on"'
    )

    stop = finding(joints, "no-chain")
    assert stop.reason == (
        "A.out (-4 flare male): no hose end for -8 push-on hose turns by 120°; sold: straight, "
        "45°, 90°."
    )
    assert stop.remedy == "Type an angle that is sold."


def test_an_end_without_a_way_names_what_is_reached_from_either_side() -> None:
    joints = two_ports("51 mm bead", "-8 flare male", "-8")

    stop = finding(joints, "no-chain")
    assert stop.reason == (
        "A.out (51 mm bead): no chain of up to 4 parts joins 51 mm bead to -8 rubber hose: the "
        "parts on 51 mm bead lead to 38 mm clamped hose, 45 mm clamped hose, 51 mm clamped hose, 57 mm "
        "clamped hose; -8 rubber hose is reached from -8 flare nut, M16x1.5 banjo, M18x1.5 "
        "banjo."
    )
    assert stop.remedy == "Take a line nearer the port's size, or change the port."


def test_a_function_that_no_part_carries_there_is_named() -> None:
    ends = '[{ angle = "straight", fit = ["jet"] }, "straight"]'
    joints = two_ports("-12 flare male", "-12 flare male", "-12", ends)

    assert finding(joints, "no-chain").reason == (
        "A.out (-12 flare male): no part from -12 flare male to -12 rubber hose carries what is "
        "asked for: jet."
    )


def test_a_part_to_go_by_that_does_not_exist_is_named() -> None:
    ends = '[{ angle = "straight", via = ["golden-union"] }, "straight"]'
    joints = two_ports("-8 flare male", "-8 flare male", "-8", ends)

    assert finding(joints, "no-chain").reason == (
        "A.out (-8 flare male): the part 'golden-union' that it must go by is not in the catalogue."
    )


def test_a_part_that_the_builder_insists_on_stands_in_the_chain() -> None:
    code = "adaptor-orb-8-m-to-flare-10-m"
    assert stock.generic().part(code)
    joints = two_ports(
        "-8 ORB female",
        "-8 flare male",
        "-8",
        f'[{{ angle = "straight", via = ["{code}"] }}, "straight"]',
    )

    assert chain(joints, "O01.A").parts[0].code == code
    assert chain(joints, "O01.A").joint_count == 3


def test_a_taper_elbow_comes_only_by_the_builders_will_and_is_warned_of() -> None:
    code = "elbow-npt-half-m-to-flare-10-m-90"
    wanted = f'[{{ angle = "straight", via = ["{code}"] }}, "straight"]'

    plain = two_ports("1/2 NPT female", "-10 flare male", "-10", '["90", "straight"]')
    joints = two_ports("1/2 NPT female", "-10 flare male", "-10", wanted)

    assert [p.angle for p in chain(plain, "O01.A").parts] == [0, 90]
    assert [p.angle for p in chain(joints, "O01.A").parts] == [90, 0]
    warn = finding(joints, "taper-elbow")
    assert warn.severity is Severity.WARN
    assert warn.reason == (
        "A.out (1/2 NPT female): elbow 90°, 1/2 NPT male to -10 flare male stops where its taper does, "
        "up to half a turn from where it should point, and may not be backed off."
    )
    assert warn.remedy == "Take a straight adaptor and a 90° hose end or swivel elbow."


def test_a_held_part_makes_a_joint_that_the_trade_does_not_sell() -> None:
    held = """
[parts.odd]
ends = ["-14 ORB male", "-12 flare male"]
shape = "adaptor"
"""
    joints = two_ports("-14 ORB female", "-12 flare male", "-12", extra=held)

    assert chain(joints, "O01.A").parts[0].held
    assert codes(joints) == []


def test_a_port_without_room_for_anything_is_a_stop_with_the_numbers() -> None:
    room = '{ end = "-8 ORB female", room = "15 mm", known = "read" }'
    joints = two_ports(room, "-8 flare male", "-8")

    stop = finding(joints, "no-room")
    high = chain(joints, "O01.A").stick_out
    assert stop.severity is Severity.STOP
    assert stop.limit == "15 mm"
    assert stop.value == f"{high * 1000:.0f} mm"
    assert stop.measure == pytest.approx(high - 0.015)
    assert stop.remedy == (
        "Give the port more room, turn the component, or use a port elsewhere; an elbow or a "
        "banjo is lower where its angle is the one typed."
    )


@pytest.mark.parametrize("angle", ["straight", "90"])
def test_a_banjo_answers_to_straight_and_to_square(angle: str) -> None:
    room = '{ end = "M14x1.5 flat face", room = "22 mm", known = "read" }'
    joints = two_ports(room, "-6 flare male", "-6", f'["{angle}", "straight"]')

    assert chain(joints, "O01.A").parts[0].shape == "banjo hose end"
    assert "no-room" not in codes(joints)


def test_a_banjo_with_its_face_and_depth_known_asks_nothing() -> None:
    port = (
        '{ end = "M14x1.5 flat face", room = "22 mm", depth = "15 mm", spot-face = "24 mm", '
        'known = "read" }'
    )
    joints = two_ports(port, "-6 flare male", "-6", '["90", "straight"]')

    assert codes(joints) == ["banjo-bore"]


def test_hard_tube_takes_its_nut_and_the_adaptor_of_its_port() -> None:
    joints = two_ports("-6 ORB female", "-6 flare male", "-6", "", extra='hose = "tube, stainless"')

    first, second = chain(joints, "O01.A"), chain(joints, "O01.B")
    assert ends_of(first) == ["orb_unf -6 m > flare_37 -6 m", "flare_37 -6 f swivel > tube -6"]
    assert ends_of(second) == ["flare_37 -6 f swivel > tube -6"]
    assert first.joint_count == 2
    assert second.joint_count == 1
    assert codes(joints) == []


def test_hard_tube_to_a_port_that_takes_none_is_a_stop() -> None:
    joints = two_ports("51 mm bead", "-6 flare male", "-6", "", extra='hose = "tube"')

    assert finding(joints, "no-chain").about == ("A.out", "O01")


def test_clamped_hose_goes_straight_on_its_spigots() -> None:
    joints = two_ports("38 mm bead", "38 mm bead", "38 mm", "", system=COOLANT)

    for side in ("O01.A", "O01.B"):
        assert chain(joints, side).parts == ()
        assert chain(joints, side).joint_count == 1
        assert chain(joints, side).reason == "the two mate as they are"
    assert codes(joints) == []


def test_clamped_hose_on_a_larger_spigot_takes_a_reducer_and_a_joiner() -> None:
    joints = two_ports(
        "38 mm bead", "32 mm bead", "38 mm", "", system=COOLANT, extra='string = "520 mm"'
    )

    assert [p.shape for p in chain(joints, "O01.B").parts] == ["coupler", "bead joiner"]
    assert chain(joints, "O01.B").joint_count == 3


def test_clamped_hose_on_a_screwed_port_takes_a_barb() -> None:
    joints = two_ports("3/8 NPT female", "13 mm barb", "13 mm", "", system=COOLANT)

    assert ends_of(chain(joints, "O01.A")) == ["npt 3/8 m > barb 13 m"]
    assert chain(joints, "O01.A").joint_count == 2


def test_clamped_hose_through_a_panel_stays_one_hose_in_a_grommet() -> None:
    joints = two_ports(
        "19 mm bead", "19 mm bead", "19 mm", "", system=COOLANT, extra='passes = ["firewall"]'
    )

    assert [(t.hose, t.side) for t in joints.terminations] == [("O01", "A"), ("O01", "B")]
    assert [(f.how, f.panel, f.line) for f in joints.fits] == [("grommet", "firewall", "O01")]
    assert [s.code for s in joints.steps] == ["grommet"]


def test_a_hose_of_another_size_than_its_spigot_is_a_stop() -> None:
    joints = two_ports(
        "40 mm bead", "32 mm bead", "32 mm", "", system=COOLANT, extra='string = "700 mm"'
    )

    stop = finding(joints, "size-differs")
    assert stop.reason == (
        "O01: hose of 32 mm bore on A.out (40 mm bead); hose is neither stretched over a larger "
        "spigot nor clamped down on a smaller one."
    )
    assert stop.remedy == (
        "No silicone reducer between 40 mm and 32 mm is sold; the nearest on 32 mm are for 38 mm "
        "and 45 mm. Measure the neck of 40 mm again, or have it changed for one of 38 mm or 45 mm."
    )


def _necks(near: str, far: str) -> Joints:
    """Two necks of a coolant hose whose size is left out."""
    typed = line("C01", "A.out", "B.in", "", "", 'string = "700 mm"').replace('size = ""\n', "")
    return plan(COOLANT, thing("A", {"out": near}), thing("B", {"in": far}), typed)


@pytest.mark.parametrize("necks", [("38 mm bead", "32 mm bead"), ("32 mm bead", "38 mm bead")])
def test_of_two_necks_either_may_be_the_first(necks: tuple[str, str]) -> None:
    joints = _necks(*necks)

    used = [part.code for name in ("C01.A", "C01.B") for part in chain(joints, name).parts]
    assert "coupler-hose-38-to-hose-32" in used
    assert codes(joints) == []


@pytest.mark.parametrize("necks", [("44 mm bead", "38 mm bead"), ("38 mm bead", "44 mm bead")])
def test_a_neck_for_which_no_reducer_is_sold_hears_of_the_size_next_to_it(
    necks: tuple[str, str],
) -> None:
    # The coupler table sells 45 to 38, nothing for 44 [common practice].
    stop = finding(_necks(*necks), "size-differs")

    assert stop.remedy == (
        "No silicone reducer between 44 mm and 38 mm is sold; the nearest on 38 mm are for 42 mm "
        "and 45 mm. Measure the neck of 44 mm again, or have it changed for one of 42 mm or 45 mm."
    )


@pytest.mark.parametrize(
    ("tube", "dash"), [("5/16 tube", "-5"), ("3/8 tube", "-6"), ("1/2 tube", "-8")]
)
@pytest.mark.parametrize("hose", ["-6", "-8"])
def test_a_hard_tube_goes_on_into_a_hose_by_its_nut(tube: str, dash: str, hose: str) -> None:
    joints = two_ports(tube, f"{hose} flare male", hose)

    first = chain(joints, "O01.A")
    assert first.parts[0].shape == "tube nut"
    assert str(first.parts[0].ends[1]) == f"tube {dash}"
    assert first.hose_end is not None
    assert all(part.shape != "tube nut" for part in first.parts[1:])
    assert "no-chain" not in codes(joints)


def test_the_other_end_of_a_line_without_a_way_is_still_bought() -> None:
    typed = car(
        OIL,
        thing("A", {"out": "-14 ORB female"}),
        thing("B", {"in": "-6 ORB female"}),
        line("O01", "A.out", "B.in", "-6", STRAIGHT),
    )
    joints = offer(typed)

    assert end(joints, "O01.A").chain is None
    bought = [spot for spot in spots(typed, joints) if spot.id == "O01.B"]
    assert [part.shape for part in bought[0].chain.parts] == ["adaptor", "hose end"]


def test_a_port_typed_as_a_banjo_is_told_to_be_typed_as_its_hole() -> None:
    joints = two_ports(
        "M12x1.5 banjo", "-6 flare male", "-6", '["straight", "straight"]', system=FUEL
    )

    stop = finding(joints, "no-chain")
    assert stop.reason == (
        "A.out (M12x1.5 banjo): M12x1.5 banjo is an eye with its bolt, and a hose end does not go on "
        "one."
    )
    assert stop.remedy == (
        "A hole that a banjo bolt goes into is typed as the hole, such as "
        '"M12x1.5 flat face"; an eye stands in the line\'s ends.'
    )


def test_no_silicone_is_named_where_fuel_runs() -> None:
    joints = two_ports(
        "12 mm barb", "8 mm barb", "8 mm", "", system=FUEL, extra='hose = "fuel J30R9"'
    )

    assert finding(joints, "size-differs").remedy == (
        "Take hose of the spigot's own size, 12 mm, or change the spigot for one of 8 mm."
    )


def _pipe(near: str, far: str, extra: str = "", near_extra: str = "") -> str:
    return (
        AIR
        + thing("A", {"out": near}, near_extra)
        + thing("B", {"in": far})
        + line("A01", "A.out", "B.in", "63 mm", "", 'string = "900 mm"\n' + extra)
    )


def test_a_charge_pipe_takes_a_hump_at_the_end_that_moves_and_a_reducer_at_the_other() -> None:
    joints = plan(_pipe("63 mm bead", "76 mm bead", near_extra='rides = "engine"'))

    moving, still = chain(joints, "A01.A"), chain(joints, "A01.B")
    assert [p.shape for p in (*moving.parts, *still.parts)] == ["coupler", "coupler"]
    assert "hump" in moving.parts[0].traits
    assert "hump" not in still.parts[0].traits
    assert "reducing" in still.parts[0].traits
    assert (moving.joint_count, still.joint_count) == (2, 2)


def test_a_charge_pipe_at_a_v_band_takes_a_flange_to_weld() -> None:
    joints = plan(_pipe("63 mm V-band", "63 mm bead"))

    first = chain(joints, "A01.A")
    assert [p.shape for p in first.parts] == ["v-band flange"]
    assert first.parts[0].material == "aluminium"
    assert first.joint_count == 1
    assert [s.code for s in joints.steps] == ["weld"]


def test_lines_come_in_the_order_of_their_numbers() -> None:
    names = [f"O{n}" for n in (100, 9, 10)]
    joints = plan(
        OIL,
        thing("A", {f"p{n}": "-8 flare male" for n in names}),
        thing("B", {f"p{n}": "-8 flare male" for n in names}),
        *(line(n, f"A.p{n}", f"B.p{n}", "-8", STRAIGHT) for n in names),
    )

    assert [t.line for t in joints.terminations[::2]] == ["O9", "O10", "O100"]


def test_an_empty_car_has_no_joints() -> None:
    joints = plan(OIL, '[components.A]\nkind = "component"\n')

    assert (joints.terminations, joints.fits, joints.findings) == ((), (), ())
