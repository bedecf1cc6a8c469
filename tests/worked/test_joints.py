# SPDX-License-Identifier: Apache-2.0
"""Joints met on real cars, with their right answers: 25 rows and three controls.

Source: common practice of the trade where a row names no
other source; stud bores there are from memory, hose bores of MIL-H-8794 and of a
catalogue of PTFE hose as read. Structure is compared, never wording, codes or prices.
"""

from collections import Counter

import pytest

from linewright.base.finding import Finding, Severity
from linewright.car.read import read_text
from linewright.joints.model import Chain, Fit, Joints, Termination
from linewright.joints.termination import offer

HEAD = """
linewright = 1
[car]
name = "one joint"
[panels.firewall]
thickness = "1.5 mm"
material = "steel"
"""
OIL = '[systems.oil]\nfluid = "15W-50"\nhose = "rubber braided"\n'
FUEL = '[systems.fuel]\nfluid = "E85"\nhose = "PTFE full-bore conductive"\n'
COOLANT = '[systems.coolant]\nfluid = "50 % glycol"\nhose = "rubber braided"\n'
AIR = '[systems.charge-air]\nfluid = "air"\nhose = "silicone"\nhighest = "1.5 bar"\n'


def plan(*texts: str) -> Joints:
    return offer(read_text(HEAD + "".join(texts)))


def thing(name: str, kind: str, ports: dict[str, str], extra: str = "") -> str:
    """One component; each port is its end, or a whole inline table."""
    rows = "".join(
        f"{port} = {text}\n"
        if text.startswith("{")
        else f'{port} = {{ end = "{text}", known = "read" }}\n'
        for port, text in ports.items()
    )
    return f'[components.{name}]\nkind = "{kind}"\n{extra}\n[components.{name}.ports]\n{rows}'


def line(name: str, start: str, finish: str, size: str, ends: str = "", extra: str = "") -> str:
    """One line; `ends` is the list in TOML."""
    typed = f"ends = {ends}\n" if ends else ""
    return f'[lines.{name}]\nfrom = "{start}"\nto = "{finish}"\nsize = "{size}"\n{typed}{extra}\n'


def end(joints: Joints, name: str) -> Termination:
    hose, _, side = name.rpartition(".")
    return next(t for t in joints.terminations if (t.hose, t.side) == (hose, side))


def chain(joints: Joints, name: str) -> Chain:
    found = end(joints, name).chain
    assert found is not None, name
    return found


def fit(joints: Joints, port: str) -> Fit:
    return next(f for f in joints.fits if port in f.ports)


def parts(found: Chain) -> list[str]:
    """Each part by its ends, from the port outwards, with its angle where it has one."""
    words = []
    open_end = found.port
    for part, joint in zip(found.parts, found.joints, strict=False):
        near = joint.far
        out = [e for e in part.ends if e != near] or [near]
        far = f" > {out[0]}" if len(part.ends) > 1 else ""
        words.append(f"{near}{far}" + (f", {part.angle}" if part.angle else ""))
        open_end = out[0]
    assert open_end is not None
    return words


def seals(*chains: Chain) -> Counter[tuple[str, str]]:
    """What the joints of some chains need, by what and size."""
    needs: Counter[tuple[str, str]] = Counter()
    for found in chains:
        for joint in found.joints:
            for need in joint.mating.seals:
                needs[need.what, need.size] += need.count
    return needs


def wanted(*chains: Chain) -> dict[str, int]:
    """What the joints of some chains need, by what alone."""
    found: Counter[str] = Counter()
    for (what, _), count in seals(*chains).items():
        found[what] += count
    return dict(found)


def codes(joints: Joints, *severities: Severity) -> set[str]:
    return {f.code for f in joints.findings if not severities or f.severity in severities}


def finding(joints: Joints, code: str) -> Finding:
    return next(f for f in joints.findings if f.code == code)


def total(joints: Joints) -> int:
    """Joints of all terminations and fits."""
    chains = [t.chain for t in joints.terminations] + [f.chain for f in joints.fits]
    return sum(c.joint_count for c in chains if c is not None)


STRAIGHT = '["straight", "straight"]'


def test_j01_an_unclear_outlet_is_refused_and_both_readings_are_kept() -> None:
    cars = OIL + thing("tank", "component", {"in": "-8 flare male"})
    cars += line("O01", "pump.out", "tank.in", "-8", STRAIGHT)

    unclear = plan(cars, thing("pump", "component", {"out": "-8 AN female"}))
    hole = plan(cars, thing("pump", "component", {"out": "-8 ORB female"}))

    assert end(unclear, "O01.A").chain is None
    assert [str(c.port) for c in end(unclear, "O01.A").alternatives] == [
        "orb_unf -8 f",
        "flare_37 -8 f",
    ]
    assert end(unclear, "O01.B").chain is not None
    chosen = chain(hole, "O01.A")
    assert parts(chosen) == [
        "orb_unf -8 m > flare_37 -8 m",
        "flare_37 -8 f swivel > hose -8 rubber m",
    ]
    assert seals(chosen) == {("o-ring", "AS568-908"): 1}
    assert chosen.joint_count == 2
    assert not codes(hole)
    assert chosen.reason.endswith("one joint more")


def test_j01_a_flare_forced_into_the_hole_is_a_stop() -> None:
    joints = plan(
        OIL,
        thing("pump", "component", {"out": "-8 ORB female"}),
        '[components.union]\nkind = "component"\non = "pump.out"\nend = "-8 flare male"\n',
    )

    stop = finding(joints, "look-alike-thread")
    assert stop.severity is Severity.STOP
    assert set(stop.about) == {"pump.out", "union.mount"}
    assert fit(joints, "pump.out").chain is None


def test_j02_a_small_return_on_a_large_line_takes_one_adaptor_and_warns() -> None:
    joints = plan(
        OIL,
        thing("pump", "component", {"out": "-16 flare male"}),
        thing("tank", "dry-sump tank", {"return": "-12 ORB female"}),
        line("O01", "pump.out", "tank.return", "-16", STRAIGHT, 'service = "return"'),
    )

    chosen = chain(joints, "O01.B")
    assert parts(chosen) == [
        "orb_unf -12 m > flare_37 -16 m",
        "flare_37 -16 f swivel > hose -16 rubber m",
    ]
    assert seals(chosen) == {("o-ring", "AS568-912"): 1}
    assert chosen.joint_count == 2
    assert codes(joints) == {"choke"}
    warn = finding(joints, "choke")
    assert (warn.severity, warn.value) == (Severity.WARN, "49%")
    assert "-16 bung" in warn.remedy
    assert set(warn.about) == {"tank.return", "O01"}
    following = end(joints, "O01.B").alternatives[0]
    assert len(following.parts) == 3
    assert following.reason == "one joint more"


def test_j03_a_taper_hole_takes_a_straight_stud_and_an_angled_hose_end() -> None:
    joints = plan(
        OIL,
        thing("tank", "dry-sump tank", {"feed": "1/2 NPT female"}, 'material = "aluminium"'),
        thing("pump", "component", {"in": "-10 flare male"}),
        line("O01", "tank.feed", "pump.in", "-10", '["90", "straight"]'),
    )

    chosen = chain(joints, "O01.A")
    assert parts(chosen) == [
        "npt 1/2 m > flare_37 -10 m",
        "flare_37 -10 f swivel > hose -10 rubber m, 90",
    ]
    assert {what for what, _ in seals(chosen)} == {"paste"}
    assert chosen.joint_count == 2
    assert codes(joints) == {"taper-in-aluminium"}
    assert finding(joints, "taper-in-aluminium").severity is Severity.WARN
    assert [s.about for s in joints.steps if s.code == "taper-in-aluminium"] == [
        ("tank.feed", "O01")
    ]


def test_j04_a_narrow_suction_port_warns_and_shows_the_smaller_dash() -> None:
    joints = plan(
        FUEL,
        thing("cell", "component", {"out": "-10 flare male"}),
        thing("pump", "fuel pump", {"in": "3/8 NPT female"}, 'material = "steel"'),
        line(
            "F01",
            "cell.out",
            "pump.in",
            "-10",
            STRAIGHT,
            'service = "suction"\nhose = "rubber braided"',
        ),
    )

    chosen = chain(joints, "F01.B")
    assert parts(chosen)[0] == "npt 3/8 m > flare_37 -10 m"
    assert {what for what, _ in seals(chosen)} == {"paste"}
    assert chosen.joint_count == 2
    assert codes(joints) == {"choke"}
    warn = finding(joints, "choke")
    assert warn.value == "52%"
    assert "suction" in warn.reason
    assert "-8" in warn.remedy


def test_j05_a_parallel_port_takes_a_bonded_washer_and_names_its_look_alike() -> None:
    joints = plan(
        OIL,
        thing("tank", "dry-sump tank", {"feed": "G 1/2 female"}, 'material = "aluminium"'),
        thing("pump", "component", {"in": "-10 flare male"}),
        line("O01", "tank.feed", "pump.in", "-10", '["45", "straight"]'),
    )

    chosen = chain(joints, "O01.A")
    assert parts(chosen) == [
        "bspp G 1/2 m > flare_37 -10 m",
        "flare_37 -10 f swivel > hose -10 rubber m, 45",
    ]
    assert sum(seals(chosen).values()) == 1
    ((what, size),) = seals(chosen)
    assert what == "washer"
    assert "G 1/2" in size
    assert chosen.joint_count == 2
    assert not codes(joints, Severity.STOP, Severity.WARN, Severity.ASK)


def test_j06_an_unclear_pipe_thread_keeps_both_answers() -> None:
    cars = FUEL + thing("tank", "component", {"out": "-6 flare male"})
    cars += line("F01", "tank.out", "rail.in", "-6", STRAIGHT)

    unclear = plan(cars, thing("rail", "component", {"in": "1/4 BSP female"}))

    found = end(unclear, "F01.B")
    assert found.chain is None
    assert [str(c.port) for c in found.alternatives] == ["bspp G 1/4 f", "bspt Rc 1/4 f"]
    assert [{w for w, _ in seals(c)} for c in found.alternatives] == [{"washer"}, {"paste"}]
    assert end(unclear, "F01.A").chain is not None


def test_j07_a_metric_thread_is_refused_and_once_known_takes_one_washer() -> None:
    cars = FUEL + thing("tank", "component", {"out": "-8 flare male"})
    cars += line("F01", "tank.out", "pump.in", "-8", STRAIGHT, 'service = "suction"')

    unclear = plan(cars, thing("pump", "fuel pump", {"in": "M18x1.5"}))
    flat = plan(cars, thing("pump", "fuel pump", {"in": "M18x1.5 flat face"}))

    assert end(unclear, "F01.B").chain is None
    assert "iso6149 M18 f" in {str(c.port) for c in end(unclear, "F01.B").alternatives}
    chosen = chain(flat, "F01.B")
    assert parts(chosen) == [
        "metric_flat_face M18x1.5 m > flare_37 -8 m",
        "flare_37 -8 f swivel > hose -8 PTFE m",
    ]
    assert {k: v for k, v in seals(chosen).items() if k[0] != "olive"} == {
        ("washer", "18 mm bore"): 1
    }
    assert chosen.joint_count == 2
    assert not codes(flat, Severity.STOP, Severity.WARN, Severity.ASK)


@pytest.mark.parametrize("angle", ["90", "open"])
def test_j08_where_little_is_free_a_banjo_is_chosen(angle: str) -> None:
    room = '{ end = "M14x1.5 flat face", room = "22 mm", known = "read" }'
    joints = plan(
        COOLANT,
        thing("turbo", "component", {"water-in": room}),
        thing("block", "component", {"out": "-6 flare male"}),
        line("C01", "block.out", "turbo.water-in", "-6", f'["straight", "{angle}"]'),
    )

    chosen = chain(joints, "C01.B")
    assert parts(chosen) == ["banjo M14x1.5 m > hose -6 rubber m, 90"]
    assert seals(chosen)["washer", "14 mm bore"] == 2
    assert chosen.joint_count == 1
    assert codes(joints) == {"banjo-bore", "spot-face-unknown"}
    assert finding(joints, "banjo-bore").severity is Severity.WARN
    assert finding(joints, "spot-face-unknown").severity is Severity.ASK


def test_j09_the_screen_stands_at_the_block_and_the_jet_at_the_turbo() -> None:
    joints = plan(
        OIL,
        thing("block", "component", {"feed": "1/8 NPT female"}, 'material = "steel"'),
        thing("turbo", "component", {"oil-in": "M12x1.5 flat face"}),
        line(
            "O01",
            "block.feed",
            "turbo.oil-in",
            "-4",
            '[{ angle = "straight", fit = ["screen"] }, '
            '{ angle = "straight", fit = ["jet 1 mm"] }]',
            'hose = "PTFE full-bore conductive"',
        ),
    )

    block, turbo = chain(joints, "O01.A"), chain(joints, "O01.B")
    assert parts(block) == [
        "npt 1/8 m > flare_37 -4 m",
        "flare_37 -4 f swivel > flare_37 -4 m",
        "flare_37 -4 f swivel > hose -4 PTFE m",
    ]
    assert "screen" in block.parts[1].traits
    assert parts(turbo)[0] == "metric_flat_face M12x1.5 m > flare_37 -4 m"
    assert "jet" in turbo.parts[0].traits
    assert not any("jet" in part.traits for part in block.parts)
    assert seals(turbo)["washer", "12 mm bore"] == 1
    assert total(joints) == 5
    # A screen on a stud stands out further than the setting; that is said, and nothing else.
    assert codes(joints, Severity.STOP, Severity.WARN, Severity.ASK) == {"stick-out"}


def test_j10_a_drain_flange_brings_gasket_and_bolts_and_the_bung_is_welded() -> None:
    joints = plan(
        OIL,
        thing("turbo", "component", {"oil-out": "2-bolt flange 38 mm"}),
        thing("sump", "component", {"drain": "weld aluminium"}, 'material = "aluminium"'),
        line(
            "O01", "turbo.oil-out", "sump.drain", "-10", '["straight", "45"]', 'service = "drain"'
        ),
    )

    turbo, sump = chain(joints, "O01.A"), chain(joints, "O01.B")
    assert parts(turbo) == [
        "flange 2-bolt 38 > flare_37 -10 m",
        "flare_37 -10 f swivel > hose -10 rubber m",
    ]
    assert wanted(turbo) == {"gasket": 1, "bolt": 2}
    assert parts(sump) == [
        "weld aluminium m > flare_37 -10 m",
        "flare_37 -10 f swivel > hose -10 rubber m, 45",
    ]
    assert total(joints) == 3
    assert [s.code for s in joints.steps] == ["weld"]
    assert not codes(joints, Severity.STOP, Severity.WARN)


def test_j11_a_take_off_plate_on_the_filter_mount() -> None:
    joints = plan(
        OIL,
        thing("ENG", "engine", {"filter": "3/4-16 spin-on male"}),
        thing(
            "TOP",
            "filter take-off plate",
            {"OUT": "1/2 NPT female", "IN": "1/2 NPT female"},
            'on = "ENG.filter"',
        ),
        thing("FH", "component", {"in": "-10 flare male", "out": "-10 flare male"}),
        line("O01", "TOP.OUT", "FH.in", "-10", STRAIGHT),
        line("O02", "FH.out", "TOP.IN", "-10", STRAIGHT),
    )

    mount = fit(joints, "ENG.filter")
    assert mount.how == "on"
    assert mount.chain is not None
    assert {what for what, _ in seals(mount.chain)} == {"gasket"}
    assert parts(chain(joints, "O01.A"))[0] == "npt 1/2 m > flare_37 -10 m"
    assert parts(chain(joints, "O02.B"))[0] == "npt 1/2 m > flare_37 -10 m"
    assert (
        mount.chain.joint_count
        + sum(chain(joints, side).joint_count for side in ("O01.A", "O02.B"))
        == 5
    )


def test_j11_a_plate_of_another_thread_finds_no_mate_and_names_the_look_alike() -> None:
    joints = plan(
        OIL,
        thing("ENG", "engine", {"filter": "M20x1.5 spin-on male"}),
        thing(
            "TOP", "filter take-off plate", {"mount": "3/4-16 spin-on female"}, 'on = "ENG.filter"'
        ),
    )

    stops = [f for f in joints.findings if f.severity is Severity.STOP]
    assert [set(f.about) for f in stops] == [{"ENG.filter", "TOP.mount"}]
    assert "3/4-16" in stops[0].reason


def test_j12_each_of_five_ports_of_a_filter_head_is_mated_or_plugged() -> None:
    names = ("in-L", "in-R", "out-L", "out-R")
    joints = plan(
        OIL,
        thing(
            "FH", "component", {**dict.fromkeys(names, "1/2 NPT female"), "gauge": "1/8 NPT female"}
        ),
        thing("A", "component", {"out": "-10 flare male", "in": "-10 flare male"}),
        '[components.PS]\nkind = "pressure sensor"\non = "FH.gauge"\nend = "1/8 NPT male"\n',
        line("O01", "A.out", "FH.in-L", "-10", STRAIGHT),
        line("O02", "FH.out-R", "A.in", "-10", STRAIGHT),
        '[closed]\n"FH.in-R" = "plug"\n"FH.out-L" = "plug"\n',
    )

    plugs = [f for f in joints.fits if f.how == "plug"]
    ends = [chain(joints, side) for side in ("O01.B", "O02.A")]
    gauge = fit(joints, "FH.gauge").chain
    assert [parts(f.chain) for f in plugs if f.chain] == [["npt 1/2 m"], ["npt 1/2 m"]]
    assert gauge is not None
    assert gauge.parts == ()
    every = [*ends, gauge, *(f.chain for f in plugs if f.chain)]
    assert sum(n for (what, _), n in seals(*every).items() if what == "paste") == 5
    assert sum(c.joint_count for c in every) == 7


def test_j13_a_line_through_a_firewall_is_two_hoses_and_a_bulkhead() -> None:
    joints = plan(
        FUEL,
        thing("A", "component", {"out": "-6 flare male"}),
        thing("B", "component", {"in": "-6 flare male"}),
        line("F05", "A.out", "B.in", "-6", STRAIGHT, 'passes = ["firewall"]'),
    )

    assert [(t.hose, t.side) for t in joints.terminations] == [
        ("F05a", "A"),
        ("F05a", "B"),
        ("F05b", "A"),
        ("F05b", "B"),
    ]
    assert all(chain(joints, f"{t.hose}.{t.side}").joint_count == 1 for t in joints.terminations)
    (wall,) = joints.fits
    assert (wall.how, wall.panel, wall.line) == ("bulkhead", "firewall", "F05")
    assert wall.chain is not None
    assert parts_of(wall.chain) == ["flare_37 -6 m > flare_37 -6 m"]
    at_wall = [t for t in joints.terminations if t.is_bulkhead]
    assert sum(t.chain.joint_count for t in at_wall if t.chain) == 2
    assert not codes(joints)


def parts_of(found: Chain) -> list[str]:
    return [" > ".join(str(e) for e in part.ends) for part in found.parts]


def test_j14_a_metric_sensor_on_a_pipe_thread_takes_its_adaptor() -> None:
    joints = plan(
        OIL,
        thing("block", "component", {"gauge": "1/8 NPT female"}, 'material = "steel"'),
        '[components.PS]\nkind = "pressure sensor"\non = "block.gauge"\n'
        'end = "M10x1 flat face male"\n',
    )

    found = fit(joints, "block.gauge").chain
    assert found is not None
    assert parts(found) == ["npt 1/8 m > metric_flat_face M10x1 f"]
    assert {what for what, _ in seals(found)} == {"paste", "washer"}
    assert seals(found)["washer", "10 mm bore"] == 1
    assert found.joint_count == 2


def test_j15_a_boosted_regulator_with_its_five_ports() -> None:
    joints = plan(
        FUEL,
        thing(
            "RG",
            "fuel regulator",
            {
                "in-1": "-6 ORB female",
                "in-2": "-6 ORB female",
                "return": "-6 ORB female",
                "gauge": "1/8 NPT female",
                "reference": "5 mm barb",
            },
        ),
        thing("A", "component", {"out": "-6 flare male", "in": "-6 flare male"}),
        thing("MAN", "inlet manifold", {"reference": "1/8 NPT female"}, 'material = "steel"'),
        '[components.PS]\nkind = "pressure sensor"\non = "RG.gauge"\nend = "1/8 NPT male"\n',
        line("F01", "A.out", "RG.in-1", "-6", STRAIGHT),
        line("F02", "RG.return", "A.in", "-6", STRAIGHT),
        line(
            "R01",
            "MAN.reference",
            "RG.reference",
            "5 mm",
            "",
            'hose = "reference"\nservice = "reference"',
        ),
        '[closed]\n"RG.in-2" = "plug"\n',
    )

    own = [chain(joints, side) for side in ("F01.B", "F02.A", "R01.A", "R01.B")]
    plug, gauge = fit(joints, "RG.in-2").chain, fit(joints, "RG.gauge").chain
    assert plug is not None
    assert gauge is not None
    assert parts(own[0])[0] == parts(own[1])[0] == "orb_unf -6 m > flare_37 -6 m"
    assert parts(own[2]) == ["npt 1/8 m > barb 5 m"]
    assert own[3].parts == ()
    need = seals(*own, plug, gauge)
    assert need["o-ring", "AS568-906"] == 3
    assert sum(n for (what, _), n in need.items() if what == "paste") == 2
    assert sum(n for (what, _), n in need.items() if what == "clamp") == 2
    assert sum(c.joint_count for c in (*own, plug, gauge)) == 9


def test_j16_a_quick_connector_spigot_takes_its_locking_connector() -> None:
    joints = plan(
        FUEL,
        thing("pump", "component", {"out": "3/8 quick connect male"}),
        thing("A", "component", {"in": "-6 flare male"}),
        line("F01", "pump.out", "A.in", "-6", STRAIGHT),
    )

    chosen = chain(joints, "F01.A")
    assert parts(chosen)[0] == "qc 3/8 f > flare_37 -6 m"
    assert "locking" in chosen.parts[0].traits
    assert chosen.joint_count == 2
    assert not codes(joints, Severity.STOP, Severity.WARN, Severity.ASK)


def test_j17_an_inverted_flare_nut_takes_the_female_of_its_own_family() -> None:
    joints = plan(
        FUEL,
        thing("old", "component", {"front": "-6 inverted flare male"}),
        thing("A", "component", {"in": "-6 flare male"}),
        line("F01", "old.front", "A.in", "-6", STRAIGHT),
    )

    chosen = chain(joints, "F01.A")
    assert parts(chosen)[0] == "inverted_flare -6 f > flare_37 -6 m"
    assert {what for what, _ in seals(chosen)} <= {"olive"}
    assert chosen.joint_count == 2


def test_j18_a_face_seal_cooler_takes_a_special_part_and_says_so() -> None:
    joints = plan(
        OIL,
        thing("CO", "component", {"in": "-12 ORFS male"}),
        thing("A", "component", {"out": "-12 flare male"}),
        line("O01", "A.out", "CO.in", "-12", STRAIGHT),
    )

    chosen = chain(joints, "O01.B")
    assert parts(chosen)[0] == "orfs -12 f swivel > flare_37 -12 m"
    assert seals(chosen) == {("face o-ring", "AS568-018"): 1}
    assert chosen.joint_count == 2
    assert codes(joints) == {"part-special"}
    assert finding(joints, "part-special").severity is Severity.NOTE


def test_j19_rubber_hose_ends_on_ptfe_hose_are_a_stop_with_two_ways_out() -> None:
    joints = plan(
        FUEL,
        thing("A", "component", {"out": "-8 flare male"}),
        thing("B", "component", {"in": "-8 flare male"}),
        line(
            "F01",
            "A.out",
            "B.in",
            "-8",
            '[{ angle = "straight", hose = "rubber braided" }, '
            '{ angle = "straight", hose = "rubber braided" }]',
        ),
    )

    stops = [f for f in joints.findings if f.code == "hose-family-mix"]
    assert [set(f.about) for f in stops] == [{"F01.A", "F01"}, {"F01.B", "F01"}]
    assert all(f.severity is Severity.STOP for f in stops)
    assert all("PTFE" in f.remedy and "; or " in f.remedy for f in stops)
    for side in ("F01.A", "F01.B"):
        assert parts(chain(joints, side)) == ["flare_37 -8 f swivel > hose -8 PTFE m"]
        assert any(need.what == "olive" for need in chain(joints, side).parts[0].comes_with)


def test_j20_beside_a_rail_an_adjustable_elbow_turns_the_hose() -> None:
    room = '{ end = "-12 ORB female", room = "45 mm", known = "read" }'
    joints = plan(
        OIL,
        thing("pump", "component", {"out": room}),
        thing("A", "component", {"in": "-12 flare male"}),
        line("O01", "pump.out", "A.in", "-12", '["90", "straight"]'),
    )

    chosen = chain(joints, "O01.A")
    assert parts(chosen) == [
        "orb_unf -12 m > flare_37 -12 m, 90",
        "flare_37 -12 f swivel > hose -12 rubber m",
    ]
    assert "lock nut" in chosen.parts[0].traits
    assert seals(chosen) == {("o-ring", "AS568-912"): 1}
    assert chosen.joint_count == 2
    assert [s.code for s in joints.steps] == ["adjustable-elbow"]
    assert not codes(joints, Severity.STOP, Severity.WARN, Severity.ASK)
    assert "45 mm is free" in chosen.reason


def test_j21_two_necks_of_two_sizes_take_one_reducing_elbow() -> None:
    joints = plan(
        COOLANT,
        thing("RAD", "component", {"out": "38 mm bead"}),
        thing("WP", "component", {"in": "32 mm bead"}, 'rides = "engine"'),
        line("C01", "RAD.out", "WP.in", "38 mm", '["90", "straight"]', 'hose = "silicone"'),
    )

    first, second = chain(joints, "C01.A"), chain(joints, "C01.B")
    assert parts(first) == ["hose 38 clamped f > hose 32 clamped f, 90"]
    assert "silicone" in first.parts[0].traits
    assert second.parts == ()
    assert first.is_whole_line
    assert wanted(first, second) == {"clamp": 2}
    assert total(joints) == 2
    assert not codes(joints)


def test_j21_one_hose_stretched_over_two_sizes_is_a_stop() -> None:
    joints = plan(
        COOLANT,
        thing("RAD", "component", {"out": "40 mm bead"}),
        thing("WP", "component", {"in": "32 mm bead"}),
        line("C01", "RAD.out", "WP.in", "32 mm", "", 'hose = "silicone"\nstring = "700 mm"'),
    )

    stop = finding(joints, "size-differs")
    assert stop.severity is Severity.STOP
    assert set(stop.about) == {"RAD.out", "C01"}
    assert (stop.value, stop.limit) == ("32 mm", "40 mm")


def test_j22_a_neck_and_a_screwed_hose_meet_on_a_coupler() -> None:
    joints = plan(
        COOLANT,
        thing("RAD", "component", {"out": "38 mm bead"}),
        thing("A", "component", {"in": "-20 flare male"}),
        line("C01", "RAD.out", "A.in", "-20", STRAIGHT),
    )

    chosen = chain(joints, "C01.A")
    assert parts(chosen) == [
        "hose 38 clamped f > hose 38 clamped f",
        "bead 38 m > flare_37 -20 m",
        "flare_37 -20 f swivel > hose -20 rubber m",
    ]
    assert wanted(chosen) == {"clamp": 2}
    assert chosen.joint_count == 3
    assert codes(joints) == {"choke"}
    warn = finding(joints, "choke")
    assert warn.value == "67%"
    assert "Cut the neck" in warn.remedy
    assert "38 mm hose" in warn.remedy


def test_j23_two_steam_ports_meet_at_a_tee() -> None:
    joints = plan(
        COOLANT,
        thing("ENG", "component", {"steam-1": "1/8 NPT female", "steam-2": "1/8 NPT female"}),
        '[components.T]\nkind = "tee"\nsize = "-4"\n',
        thing("HT", "component", {"bleed": "1/4 NPT female"}),
        line("C01", "ENG.steam-1", "T.run-a", "-4", STRAIGHT, 'service = "bleed"'),
        line("C02", "ENG.steam-2", "T.run-b", "-4", STRAIGHT, 'service = "bleed"'),
        line("C03", "T.branch", "HT.bleed", "-4", STRAIGHT, 'service = "bleed"'),
    )

    every = [t.chain for t in joints.terminations if t.chain]
    assert parts(chain(joints, "C01.A"))[0] == "npt 1/8 m > flare_37 -4 m"
    assert parts(chain(joints, "C03.B"))[0] == "npt 1/4 m > flare_37 -4 m"
    assert len(every) == 6
    assert sum(n for (what, _), n in seals(*every).items() if what == "paste") == 3
    assert total(joints) == 9
    assert not codes(joints, Severity.STOP, Severity.WARN, Severity.ASK)


def test_j24_two_pipes_that_move_apart_take_a_reducing_hump() -> None:
    joints = plan(
        AIR,
        thing("turbo", "component", {"out": "51 mm bead"}, 'rides = "engine"'),
        thing("pipe", "component", {"in": "63 mm bead"}),
        line("A01", "turbo.out", "pipe.in", "51 mm", "", 'string = "100 mm"'),
    )

    first, second = chain(joints, "A01.A"), chain(joints, "A01.B")
    assert set(parts(first)[0].split(" > ")) == {"hose 51 clamped f", "hose 63 clamped f"}
    assert {"hump", "reducing"} <= first.parts[0].traits
    assert second.parts == ()
    assert wanted(first, second) == {"clamp": 2}
    assert total(joints) == 2
    assert not codes(joints)


def test_j25_a_bung_with_a_cone_is_chosen_and_an_o_ring_boss_offered_beside_it() -> None:
    joints = plan(
        OIL,
        thing("tank", "dry-sump tank", {"feed": "weld aluminium"}, 'material = "aluminium"'),
        thing("pump", "component", {"in": "-16 flare male"}),
        line("O01", "tank.feed", "pump.in", "-16", STRAIGHT),
    )

    chosen = chain(joints, "O01.A")
    beside = end(joints, "O01.A").alternatives[0]
    assert parts(chosen)[0] == "weld aluminium m > flare_37 -16 m"
    assert chosen.joint_count == 1
    assert parts(beside)[:2] == [
        "weld aluminium m > orb_unf -16 f",
        "orb_unf -16 m > flare_37 -16 m",
    ]
    assert beside.joint_count == 2
    assert beside.reason == "one joint more"
    assert seals(beside)["o-ring", "AS568-916"] == 1
    assert [s.code for s in joints.steps] == ["weld"]


def test_c1_a_filter_with_cones_takes_no_adaptor_and_no_seal() -> None:
    joints = plan(
        OIL,
        thing("FF", "component", {"in": "-8 flare male", "out": "-8 flare male"}),
        thing("A", "component", {"out": "-8 flare male", "in": "-8 flare male"}),
        line("O01", "A.out", "FF.in", "-8", STRAIGHT),
        line("O02", "FF.out", "A.in", "-8", STRAIGHT),
    )

    own = [chain(joints, "O01.B"), chain(joints, "O02.A")]
    assert all(not found.adaptors for found in own)
    assert not seals(*own)
    assert sum(found.joint_count for found in own) == 2
    assert not codes(joints)


def test_c2_a_larger_rail_takes_one_adaptor_not_two() -> None:
    joints = plan(
        FUEL,
        thing("rail", "component", {"in": "-8 ORB female"}),
        thing("A", "component", {"out": "-6 flare male"}),
        line("F01", "A.out", "rail.in", "-6", STRAIGHT),
    )

    chosen = chain(joints, "F01.B")
    assert parts(chosen)[0] == "orb_unf -8 m > flare_37 -6 m"
    assert len(chosen.adaptors) == 1
    assert seals(chosen)["o-ring", "AS568-908"] == 1
    assert not codes(joints)


def test_c3_a_cone_takes_the_hose_end_alone() -> None:
    joints = plan(
        OIL,
        thing("tank", "component", {"out": "-10 flare male"}),
        thing("A", "component", {"in": "-10 flare male"}),
        line("O01", "tank.out", "A.in", "-10", STRAIGHT),
    )

    chosen = chain(joints, "O01.A")
    assert parts(chosen) == ["flare_37 -10 f swivel > hose -10 rubber m"]
    assert chosen.joint_count == 1
    assert not seals(chosen)
