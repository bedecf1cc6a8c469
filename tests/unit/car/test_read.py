# SPDX-License-Identifier: Apache-2.0
"""The car document, read: the two worked systems, defaults, tiers, what is inferred."""

import re
from pathlib import Path

import pytest

from linewright.base.evidence import Grade, Known, Placed
from linewright.car.line_index import line_index
from linewright.car.model import Car, Construction, Medium, Role, Tier
from linewright.car.read import read, read_bytes, read_text
from linewright.car.starter import starter

EXAMPLES = Path(__file__).parents[3] / "examples"
CLUB = EXAMPLES / "club-roadster" / "car.toml"
BOOT = EXAMPLES / "e85-boot" / "car.toml"

SMALL = """\
linewright = 1
[car]
name = "Small"
[systems.oil]
fluid = "15W-50"
hose = "rubber braided"
size = "-10"
[panels.floor]
thickness = "1.5 mm"
[components]
A = { kind = "component" }
B = { kind = "component" }
"""


def small(rest: str, ports: str = "") -> Car:
    """Read the small document with more behind it."""
    ends = '"A.out" = { end = "-10 flare male", role = "out" }\n"B.in" = "-10 flare male"\n'
    return read_text(f"{SMALL}[ports]\n{ends}{ports}{rest}")


def assumed(car: Car) -> dict[str, tuple[str, Grade]]:
    return {key: (value, grade) for key, value, grade in car.assumed}


def test_worked_system_a_is_read() -> None:
    car = read(CLUB)

    assert (len(car.components), len(car.lines), car.findings) == (8, 5, ())
    assert [line.string and line.string.value for line in car.lines.values()] == [
        *(0.7, 0.45, 0.9, 0.95, 0.65)
    ]
    assert {line.size for line in car.lines.values()} == {"-10"}
    assert {line.system for line in car.lines.values()} == {"oil"}
    assert [line.id for line in car.lines.values() if line.crosses] == ["L1", "L5"]
    assert str(car.components["ENG"].ports["filter"].end) == "spinon 3/4-16 m"
    assert car.components["TOP"].rides == "engine"
    assert car.components["CAN"].rides == "chassis"


def test_worked_system_a_is_typed_in_few_lines_and_numbers() -> None:
    """At most 60 lines and 20 numbers that somebody has to measure."""
    text = CLUB.read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if line.strip() and not line.startswith("#")]
    measured = re.findall(r'"\d[\d./ -]* ?(?:mm|in|ft|m)"', text)

    assert len(lines) <= 60
    assert len(measured) <= 20


def test_worked_system_b_is_read() -> None:
    car = read(BOOT)
    signal = car.lines["R01"]

    assert (len(car.components), len(car.lines), car.findings) == (12, 10, ())
    assert (signal.system, signal.medium, signal.size) == ("fuel", Medium.FUEL, "5")
    assert signal.construction is Construction.CLAMPED
    assert {
        line.id: line.size for line in car.lines.values() if line.size == "-8"
    } == dict.fromkeys(("F01", "F02", "F09"), "-8")
    assert car.lines["F03"].ends[0].fit == ("check valve",)
    assert [line.service for line in car.lines.values()] == [
        *("suction", "suction", "pressure", "pressure", "pressure", "pressure"),
        *("return", "return", "vent", "reference"),
    ]
    assert {line.id for line in car.lines.values() if line.crosses} == {"F05", "F07"}
    assert car.components["BH3"].traits == {"size": "-8"}
    assert str(car.components["BH3"].ports["inside"].end) == "flare_37 -8 m"


def test_services_that_were_typed_are_what_would_have_been_inferred() -> None:
    """Strip every service of system B: the roles of the ports say the same."""
    text = re.sub(r', service = "[a-z]+"', "", BOOT.read_text(encoding="utf-8"))

    stripped, typed = read_text(text), read(BOOT)

    assert text.count("service") == 0
    assert [line.service for line in stripped.lines.values()] == [
        line.service for line in typed.lines.values()
    ]


def test_the_starter_is_a_document_that_reads() -> None:
    car = read_text(starter())

    assert (car.findings, len(car.lines)) == ((), 2)
    assert car.components["TOP"].traits["thermostat"] is True


def test_a_kind_brings_its_ports_along_as_guesses() -> None:
    car = read_text(SMALL + 'FH = { kind = "remote filter head" }\n')
    head = car.components["FH"]

    assert list(head.ports) == ["in-L", "in-R", "out-L", "out-R", "gauge", "stud"]
    assert {port.known for port in head.ports.values()} == {Known.GUESS}
    assert all(port.from_kind for port in head.ports.values())
    assert head.ports["out-R"].role is Role.OUT
    assert assumed(car)['ports."FH.in-L".end'] == ("1/2 NPT female", Grade.PRACTICE)
    assert assumed(car)["components.FH.material"] == ("aluminium", Grade.PRACTICE)


def test_ports_of_a_kind_are_overridden_one_by_one() -> None:
    car = read_text(
        SMALL
        + 'FH = { kind = "remote filter head", ports = { in-L = { end = "-10 ORB female", known = '
        '"read" }, in-R = { known = "tried" } } }\n'
    )
    ports = car.components["FH"].ports

    assert (str(ports["in-L"].end), ports["in-L"].known) == ("orb_unf -10 f", Known.READ)
    assert (str(ports["in-R"].end), ports["in-R"].known) == ("npt 1/2 f", Known.TRIED)
    assert (str(ports["out-L"].end), ports["out-L"].known) == ("npt 1/2 f", Known.GUESS)


def test_an_end_that_can_be_read_in_two_ways_stays_open_and_all_else_is_read() -> None:
    car = small("", '"A.x" = { end = "-8 AN female", known = "read" }\n')
    port = car.components["A"].ports["x"]

    assert port.end.is_unknown
    assert port.known is Known.UNKNOWN
    assert [str(end) for end in port.readings] == ["orb_unf -8 f", "flare_37 -8 f"]
    assert [(f.code, f.about) for f in car.findings] == [("ambiguous-end", ("A.x",))]


def test_an_unmeasured_port_is_a_normal_state() -> None:
    car = small("", '"A.x" = { end = "?" }\n"A.y" = {}\n')

    assert car.components["A"].ports["x"].end.is_unknown
    assert car.components["A"].ports["y"].end.is_unknown
    assert car.findings == ()


def test_an_assumed_gender_is_asked_about_only_where_nobody_has_looked() -> None:
    car = small("", '"A.x" = "3/8 NPT"\n"A.y" = { end = "3/8 NPT", known = "tried" }\n')

    assert [(f.code, f.about) for f in car.findings] == [("gender-assumed", ("A.x",))]
    assert car.findings[0].reason == (
        '"3/8 NPT" does not say male or female; A.x is taken as female, as the trade means it on '
        "a component."
    )
    assert assumed(car)['ports."A.y".end.gender'] == ("female", Grade.PRACTICE)


LENGTHS = [
    ('string = "700 mm"', Tier.STRING, 0.7),
    ('mocked-up = "700 mm", string = "650 mm"', Tier.MOCKED_UP, 0.7),
    ('guess = "2 ft 6 in"', Tier.GUESS, 0.762),
    ('string = "700 mm", string-from = "collar"', Tier.STRING, 0.7),
]


@pytest.mark.parametrize(("typed", "tier", "length"), LENGTHS, ids=[t for t, _, _ in LENGTHS])
def test_a_length_has_the_tier_of_how_it_was_taken(typed: str, tier: Tier, length: float) -> None:
    car = small(f'[lines]\nO01 = {{ from = "A.out", to = "B.in", {typed} }}\n')
    line = car.lines["O01"]

    assert (line.tier, line.string and line.string.value) == (tier, pytest.approx(length))
    assert line.string_from == ("collar" if "collar" in typed else "port")


@pytest.mark.parametrize(
    ("a", "b", "tier"),
    [
        ('at_car = "0, 0, 300 mm"', 'at_car = "0, 900, 300 mm"', Tier.PLACED),
        ('at_car = "0, 0, 300 mm"', "", Tier.UNKNOWN),
    ],
)
def test_a_line_without_a_string_is_as_well_known_as_its_ports(a: str, b: str, tier: Tier) -> None:
    car = read_text(
        f'{SMALL}[ports]\n"A.out" = {{ end = "-10 flare male", {a} }}\n'
        f'"B.in" = {{ end = "-10 flare male"{", " + b if b else ""} }}\n'
        '[lines]\nO01 = { from = "A.out", to = "B.in" }\n'
    )

    assert car.lines["O01"].tier is tier


def test_a_guessed_place_gives_a_guessed_length() -> None:
    text = SMALL.replace(
        'A = { kind = "component" }\nB = { kind = "component" }',
        'A = { kind = "component", at.foot = "0, 0, 300 mm", placed = "taped" }\n'
        'B = { kind = "component", at = "900, 0, 300 mm" }',
    )
    car = read_text(
        f'{text}[ports]\n"A.out" = {{ end = "-10 flare male", at = "0, 0, 1 mm" }}\n'
        '"B.in" = { end = "-10 flare male", at = "0, 0, 1 mm" }\n'
        '[lines]\nO01 = { from = "A.out", to = "B.in" }\n'
    )
    place = car.components["A"].place

    assert place is not None
    assert (place.anchor, place.at, place.placed) == ("foot", (0.0, 0.0, 0.3), Placed.TAPED)
    assert car.lines["O01"].tier is Tier.GUESS


def test_a_pass_has_its_panel_and_its_pieces() -> None:
    car = small(
        '[lines]\nO01 = { from = "A.out", to = "B.in", string = "2 m", passes = ["floor"], '
        'passes-at = ["420 mm"] }\n'
    )

    assert car.lines["O01"].passes == ("floor",)
    assert [figure.value for figure in car.lines["O01"].passes_at] == [0.42]
    assert car.panels["floor"].thickness.value == 0.0015


def test_what_serves_any_fluid_takes_its_system_from_its_lines() -> None:
    car = read_text(
        """\
linewright = 1
[car]
name = "Two"
[systems.oil]
fluid = "15W-50"
size = "-10"
[systems.coolant]
fluid = "water and glycol"
size = "38 mm"
[components]
TANK = { kind = "dry-sump tank" }
PUMP = { kind = "dry-sump pump" }
T = { kind = "tee", size = "-10" }
PS = { kind = "pressure sensor", on = "T.branch" }
RAD = { kind = "radiator" }
WP = { kind = "electric water pump" }
[ports]
"RAD.out" = "38 mm bead"
"WP.in" = "32 mm bead"
[lines]
O01 = { from = "TANK.feed", to = "T.run-a" }
O02 = { from = "T.run-b", to = "PUMP.inlet" }
C01 = { from = "RAD.out", to = "WP.in" }
"""
    )

    assert {line.id: line.system for line in car.lines.values()} == {
        "O01": "oil",
        "O02": "oil",
        "C01": "coolant",
    }
    assert (car.components["T"].system, car.components["PS"].system) == ("oil", "oil")
    assert car.components["PS"].ports["mount"].medium is Medium.OIL
    assert (car.lines["C01"].size, car.lines["C01"].hose) == ("38", "silicone")
    assert car.lines["C01"].construction is Construction.CLAMPED
    assert (car.lines["O01"].hose, car.lines["O01"].construction) == (
        "rubber braided",
        Construction.HOSE,
    )
    assert assumed(car)["lines.O01.hose"] == ("rubber braided", Grade.PRACTICE)
    assert assumed(car)["lines.C01.size"] == ("38 mm", Grade.DERIVED)


def test_a_hard_tube_is_told_by_its_name() -> None:
    car = small('[lines]\nO01 = { from = "A.out", to = "B.in", hose = "tube, stainless" }\n')

    assert car.lines["O01"].construction is Construction.TUBE
    assert car.lines["O01"].hose == "tube stainless"


def test_a_part_in_the_hand_is_kept_with_its_ends() -> None:
    car = small(
        '[parts.odd-adaptor]\nends = ["1/2 NPT male", "-10 flare male"]\nbore = "11 mm"\n'
        'note = "from the old car"\n'
    )
    part = car.parts[0]

    assert (part.code, part.held, part.bore) == ("odd-adaptor", True, 0.011)
    assert [str(end) for end in part.ends] == ["npt 1/2 m", "flare_37 -10 m"]


def test_a_document_of_forty_lines_is_read_without_tomlkit() -> None:
    """Reading takes the standard reader alone: tomlkit costs 83 ms at 120 lines."""
    import subprocess
    import sys

    code = f"import sys; from linewright.car.read import read; read({str(BOOT)!r}); " + (
        "print('tomlkit' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert done.stdout.strip() == "False"


def test_a_byte_order_mark_and_foreign_line_ends_do_not_matter() -> None:
    plain = CLUB.read_bytes()
    foreign = read_bytes(b"\xef\xbb\xbf" + plain.replace(b"\n", b"\r\n"))

    assert foreign.lines == read(CLUB).lines
    assert foreign.components == read(CLUB).components


@pytest.mark.parametrize("path", [CLUB, BOOT], ids=["club", "boot"])
def test_every_key_has_the_line_on_which_it_stands(path: Path) -> None:
    """Checked against a search of the text, which knows no TOML."""
    text = path.read_text(encoding="utf-8")
    index = line_index(text)
    lines = text.splitlines()

    assert len(index) > 60
    for key, number in index.items():
        words = [word for word in key if isinstance(word, str)]
        assert words[-1] in lines[number - 1]


def test_the_index_of_lines_knows_every_form_of_toml() -> None:
    text = (
        'a.b = 1 # "c = 2"\n'
        '"q.\\u0041" = """\nline\n"quoted" = ]\n"""\n'
        "[[t]]\nx = ['''\n} ''', {y = [\n1,\n2]}]\n"
        "[t.sub]\nz = 'a#b'\n[[t]]\nx = 3\n[ h . \"i j\" ]\nk = -1.5e3\n"
    )

    assert line_index(text) == {
        ("a",): 1,
        ("a", "b"): 1,
        ("q.A",): 2,
        ("t",): 6,
        ("t", 0): 6,
        ("t", 0, "x"): 7,
        ("t", 0, "x", 0): 7,
        ("t", 0, "x", 1): 8,
        ("t", 0, "x", 1, "y"): 8,
        ("t", 0, "x", 1, "y", 0): 9,
        ("t", 0, "x", 1, "y", 1): 10,
        ("t", 0, "sub"): 11,
        ("t", 0, "sub", "z"): 12,
        ("t", 1): 13,
        ("t", 1, "x"): 14,
        ("h",): 15,
        ("h", "i j"): 15,
        ("h", "i j", "k"): 16,
    }


def test_what_is_screwed_on_rides_along_unless_its_builder_says_otherwise() -> None:
    car = read_text(
        SMALL
        + 'ENG = { kind = "engine" }\n'
        + 'TOP = { kind = "filter take-off plate", on = "ENG.filter" }\n'
        + 'CAN = { kind = "filter canister", on = "TOP.stud" }\n'
        + 'PS = { kind = "pressure sensor", on = "CAN.tap", rides = "chassis" }\n'
        + '[ports]\n"TOP.stud" = "3/4-16 spin-on male"\n"CAN.tap" = "1/8 NPT female"\n'
    )

    assert {name: car.components[name].rides for name in ("TOP", "CAN", "PS")} == {
        "TOP": "engine",
        "CAN": "engine",
        "PS": "chassis",
    }


def test_settings_are_read_and_the_rest_is_shown_with_its_grade() -> None:
    car = read_text(SMALL + '[settings]\nslack = "8 %"\nclip-spacing = "12 in"\n')

    assert car.settings["slack"].value == 0.08
    assert car.settings["clip-spacing"].value == pytest.approx(0.3048)
    assert assumed(car)["settings.cut-allowance"] == ("25 mm", Grade.PRACTICE)
    assert "settings.slack" not in assumed(car)


def test_an_overrule_is_kept_with_its_value_and_day() -> None:
    car = read_text(
        SMALL + '[[overruled]]\ncode = "choke"\nabout = ["B.in", "A.out"]\nreason = "short"\n'
        'by = "me"\nwhen = 2026-11-25\naccepted = "49 %"\n'
    )
    (overrule,) = car.overrules

    assert (overrule.code, overrule.about) == ("choke", ("A.out", "B.in"))
    assert (overrule.accepted, overrule.by, overrule.when) == (0.49, "me", "2026-11-25")


def test_the_starter_plans_without_a_stop() -> None:
    from linewright.plan.make import make

    plan = make(read_text(starter()))

    assert plan.stops == ()
    assert len(plan.takeoff.rows) > 10
