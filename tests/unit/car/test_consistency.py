# SPDX-License-Identifier: Apache-2.0
"""What is wrong with a document: every message in full, all of them at once, each with its line."""

import re
from pathlib import Path

import pytest

from linewright.base.errors import AmbiguousEndError, DocumentError
from linewright.car.read import read, read_bytes, read_text
from linewright.ends import notation
from linewright.tables.hoses import FAMILIES
from linewright.tables.practice import settings

HEAD = """\
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
TANK = { kind = "dry-sump tank" }
FH = { kind = "remote filter head" }
CO = { kind = "oil cooler" }
"""
# The next line is the 14th.


def _ambiguous(text: str) -> str:
    with pytest.raises(AmbiguousEndError) as caught:
        notation.read(text, on_component=False)
    return str(caught.value)


#: The reader of ends has its own tests; here its message is passed on whole.
AMBIGUOUS = _ambiguous("1/2 BSP male")


def faults(text: str) -> str:
    with pytest.raises(DocumentError) as caught:
        read_text(text, "car.toml")
    return str(caught.value)


def fault(rest: str) -> str:
    return faults(HEAD + rest)


CASES = {
    "a line without a unit": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", string = "700" }',
        'car.toml, line 15: lines.O01.string: "700" has no unit; allowed: mm, cm, m, in, ft, '
        '"16 ft 3 in". Write for example "700 mm".',
    ),
    "a bare number where a unit is due": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", string = 700 }',
        'car.toml, line 15: lines.O01.string: "700" has no unit; allowed: mm, cm, m, in, ft, '
        '"16 ft 3 in". Write for example "700 mm". A value with a unit stands in quotes.',
    ),
    "a decimal comma": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", string = "700,5 mm" }',
        'car.toml, line 15: lines.O01.string: "700,5 mm" has a decimal comma; write "700.5 mm".',
    ),
    "a string of nothing": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", string = "0 mm" }',
        'car.toml, line 15: lines.O01.string: "0 mm" must be more than 0.',
    ),
    "a negative string": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", string = "-700 mm" }',
        'car.toml, line 15: lines.O01.string: "-700 mm" is negative; the least length here is 0.',
    ),
    "an endless string": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", string = inf }',
        'car.toml, line 15: lines.O01.string: "inf" is not finite; write a number that can be '
        "measured. A value with a unit stands in quotes.",
    ),
    "an absurd string": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", string = "7 km" }',
        'car.toml, line 15: lines.O01.string: "7 km": "km" is no unit of length here; allowed: mm, '
        'cm, m, in, ft, "16 ft 3 in". Did you mean "m"?',
    ),
    "an absurdly long string": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", string = "700 m" }',
        'car.toml, line 15: lines.O01.string: "700 m" is absurdly large; the greatest length here '
        "is 100 m.",
    ),
    "an unknown key": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", sstring = "700 mm" }',
        'car.toml, line 15: lines.O01.sstring: is no key of a line. Did you mean "string"? '
        "Allowed: mocked-up, string, guess, string-from, passes, from, to, system, medium, size, "
        "hose, service, ends, crosses, passes-at, follows, sleeve, note, clearance, most-bends, crimped.",
    ),
    "an unknown section": (
        "[line]\nO01 = {}",
        'car.toml, line 14: line: is no key of a car document. Did you mean "lines"? Allowed: car, '
        "systems, panels, bodies, zones, guides, movement, conditions, components, ports, lines, "
        "closed, parts, settings, flow, overruled, retired.",
    ),
    "an unknown kind": (
        '[components.P]\nkind = "radiatr"',
        'car.toml, line 15: components.P.kind: "radiatr" is no kind of component. Did you mean '
        '"radiator"?',
    ),
    "a missing kind": (
        "[components.P]\nname = 'pump'",
        'car.toml, line 14: components.P: "kind" is missing; write for example kind = "fuel pump".',
    ),
    "an unknown trait": (
        '[components.P]\nkind = "component"\nmicrons = 10',
        "car.toml, line 16: components.P.microns: is no key of a component. Allowed: kind, "
        "size, mesh, mesh-unit, shape, on, end, ports, rides, material, name, system, at, yaw, "
        "pitch, roll, placed, volume, part, panel, origin, have, mass, note.",
    ),
    "ids that collide but for case": (
        '[components.fh]\nkind = "oil cooler"',
        'car.toml, line 14: components.fh: collides with components "FH" (line 12); ids differ by '
        "more than case, in the whole document. Rename one.",
    ),
    "a line with the id of a component": (
        '[lines]\nFH = { from = "FH.out-R", to = "CO.in" }',
        'car.toml, line 15: lines.FH: "FH" is no id of a line; allowed: its letter and a number, '
        'as in "O01" (O oil, C coolant, W charge coolant, F fuel, A charge air, V vent, D drain, '
        "R reference). The letters of pieces, as in F05a, are added by the plan.\n"
        'car.toml, line 15: lines.FH: collides with components "FH" (line 12); ids differ by more '
        "than case, in the whole document. Rename one.",
    ),
    "an id with a blank": (
        '[components."oil cooler"]\nkind = "oil cooler"',
        'car.toml, line 14: components."oil cooler": "oil cooler" is no id of a component; '
        "allowed: letters, digits and single hyphens between them, at most 40, as in "
        '"oil-tank".',
    ),
    "a retired id": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in" }\n[retired]\nids = ["O01"]',
        "car.toml, line 15: lines.O01: is retired, and an id is never used again, so that old "
        "papers stay true. Take a new one, or strike it from [retired].",
    ),
    "a line to itself": (
        '[lines]\nO01 = { from = "FH.out-R", to = "FH.out-R" }',
        "car.toml, line 15: lines.O01: leads from FH.out-R to itself; write another port as its "
        "end.",
    ),
    "a line to a port that is not there": (
        '[lines]\nO01 = { from = "FH.out-r", to = "CO.in" }',
        'car.toml, line 15: lines.O01.from: "FH.out-r": FH has no port "out-r". Did you mean '
        '"out-R"? Its ports: in-L, in-R, out-L, out-R, gauge, stud. Another one is added under '
        "[ports].",
    ),
    "a line to a component that is not there": (
        '[lines]\nO01 = { from = "FHH.out-R", to = "CO.in" }',
        'car.toml, line 15: lines.O01.from: "FHH.out-R": there is no component "FHH". Did you mean '
        '"FH"? Components: TANK, FH, CO.',
    ),
    "a line without its end": (
        '[lines]\nO01 = { from = "FH.out-R" }',
        'car.toml, line 15: lines.O01: "to" is missing; write for example to = "oil-pump.inlet".',
    ),
    "a line to no port": (
        '[lines]\nO01 = { from = "FH", to = "CO.in" }',
        'car.toml, line 15: lines.O01.from: "FH" is no id of a port; write component and port, as '
        'in "FH.in".',
    ),
    "a port used by two lines": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in" }\nO02 = { from = "FH.out-R", to = '
        '"TANK.return" }',
        "car.toml, line 16: lines.O02.from: FH.out-R is used twice: by line O01 and by line O02. "
        "One port carries one thing; lead one of them to another port, or put a tee between.",
    ),
    "a port that is plugged and used": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in" }\n[closed]\n"CO.in" = "plug"',
        'car.toml, line 17: closed."CO.in": CO.in is used twice: by line O01 and by [closed] '
        "(plug). One port carries one thing; lead one of them to another port, or put a tee "
        "between.",
    ),
    "a port described twice": (
        '[ports]\n"CO.in" = "-10 ORB female"\nCO.in = "-8 ORB female"',
        "car.toml, line 16: ports.CO.in: is described twice; the other place is line 15.",
    ),
    "a port of a component that is not there": (
        '[ports]\n"CP.in" = "-10 ORB female"',
        'car.toml, line 15: ports."CP.in": there is no component "CP". Components: TANK, FH, CO.',
    ),
    "ports that collide but for case": (
        '[ports]\n"FH.IN-L" = "-10 ORB female"',
        'car.toml, line 15: ports."FH.IN-L": collides with port "in-L" of FH; names of ports '
        'differ by more than case. Write "in-L", or rename one.',
    ),
    "a place in two frames": (
        '[ports]\n"CO.in" = { at = "0, 0, 1 mm", at_car = "0, 0, 1 mm" }',
        'car.toml, line 15: ports."CO.in".at_car: stands beside at; keep one: at in the '
        "component's frame, at_car in the car's.",
    ),
    "a direction that is none": (
        '[ports]\n"CO.in" = { points = "upwards" }',
        'car.toml, line 15: ports."CO.in".points: "upwards" is no direction; allowed: forward, '
        'rearward, left, right, up, down, a word and a tilt ("forward, 20° up"), or three numbers.',
    ),
    "an end that is nonsense": (
        '[ports]\n"CO.in" = { known = "sure" }',
        'car.toml, line 15: ports."CO.in".known: "sure" is not allowed; allowed: read, tried, '
        "calliper, looks, guess, unknown.",
    ),
    "a component on itself": (
        '[components.P]\nkind = "component"\non = "P.x"\n[ports]\n"P.x" = "1/8 NPT female"\n'
        '"P.mount" = "1/8 NPT male"',
        "car.toml, line 16: components.P.on: P on P: a component cannot sit on itself. Correct one "
        "of them.",
    ),
    "a ring of components": (
        '[components.P]\nkind = "component"\non = "Q.x"\n[components.Q]\nkind = "component"\n'
        'on = "P.x"\n[ports]\n"P.x" = "1/8 NPT female"\n"Q.x" = "1/8 NPT female"\n'
        '"P.mount" = "1/8 NPT male"\n"Q.mount" = "1/8 NPT male"',
        "car.toml, line 16: components.P.on: P on Q on P: a component cannot sit on itself. "
        "Correct one of them.",
    ),
    "an unknown system": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", system = "oli" }',
        'car.toml, line 15: lines.O01.system: there is no system "oli". Did you mean "oil"? '
        "Systems: oil.",
    ),
    "a way through the skin of the car": (
        '[panels.hull]\nskin = true\nat = "0, 0, 900 mm"\npoints = "up"\n'
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", passes = ["hull"] }',
        'car.toml, line 19: lines.O01.passes: "hull" is the skin of the car and nothing is laid '
        "beyond it; name a panel that has two sides, or strike skin = true at hull.",
    ),
    "an unknown panel": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", passes = ["floorr"] }',
        'car.toml, line 15: lines.O01.passes: there is no panel "floorr". Did you mean "floor"? '
        "Panels: floor.",
    ),
    "pieces without a pass": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", passes = ["floor"], passes-at = '
        '["1 m", "1 m", "1 m"] }',
        "car.toml, line 15: lines.O01.passes-at: names 3 lengths; 1 passes make 2 pieces: one "
        "length for each, or for each but the last.",
    ),
    "pieces that are longer than the line": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", string = "700 mm", passes = ["floor"], '
        'passes-at = ["400 mm", "400 mm"] }',
        "car.toml, line 15: lines.O01.passes-at: adds up to 800 mm, and the whole line is 700 mm: "
        "that is more than there is. Lay the string again through the panel, or correct one of "
        "them.",
    ),
    "a piece that leaves nothing of the line": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", string = "700 mm", passes = ["floor"], '
        'passes-at = ["700 mm"] }',
        "car.toml, line 15: lines.O01.passes-at: adds up to 700 mm, and the whole line is 700 mm: "
        "nothing is left for the last piece. Lay the string again through the panel, or correct "
        "one of them.",
    ),
    "an unknown hose": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", hose = "rubber braded" }',
        'car.toml, line 15: lines.O01.hose: "rubber braded" is no hose here; allowed: '
        f'{", ".join(FAMILIES)}. Did you mean "rubber braided"?',
    ),
    "an end of a line with a strange word": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", ends = ["90", "strait"] }',
        'car.toml, line 15: lines.O01.ends #2: "strait": "strait" is no word for the end of a '
        "line; allowed: an angle (straight, 30, 45, 60, 90, 120, 150, 180, or open), fixed or full "
        'swivel, a dash; as in "90 full swivel". Did you mean "straight"?',
    ),
    "one end of two": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", ends = ["90"] }',
        "car.toml, line 15: lines.O01.ends: a list is not allowed; write two, from A to B, as in "
        'ends = ["90", "straight"].',
    ),
    "an angle that is not made": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", ends = [{ angle = 75 }, "90"] }',
        "car.toml, line 15: lines.O01.ends #1.angle: 75 is no angle of a hose end; allowed: "
        "straight, 30, 45, 60, 90, 120, 150, 180.",
    ),
    "a dash that is not made": (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.in", size = "-7" }',
        'car.toml, line 15: lines.O01.size: "-7" is no dash size of the trade; allowed: -2, -3, '
        "-4, -5, -6, -8, -10, -12, -14, -16, -20, -24, -28, -32.",
    ),
    "a function that the kind has not": (
        '[closed]\n"CO.drain" = "none, because it is small"',
        'car.toml, line 15: closed."CO.drain": CO has neither a port nor a function "drain". Did '
        'you mean "drain-down"? Allowed: in, out, drain-down, thermostat.',
    ),
    "none without a reason": (
        '[closed]\n"CO.drain-down" = "none"',
        'car.toml, line 15: closed."CO.drain-down": "none" has no reason; write "none, because …" '
        "and the reason.",
    ),
    "an answer that is none": (
        '[closed]\n"CO.drain-down" = "plugged"',
        'car.toml, line 15: closed."CO.drain-down": "plugged" is not allowed; allowed: plug, cap, '
        'open with its reason, none with its reason, as in "none, because it has no drain". Did '
        'you mean "plug"?',
    ),
    "an overrule of no finding": (
        '[[overruled]]\ncode = "open-ports"\nabout = ["FH.in-R"]\nreason = "spare"\n'
        'when = "yesterday"',
        'car.toml, line 15: overruled #1.code: "open-ports" is no code of a finding. Did you mean '
        '"open-port"?\n'
        'car.toml, line 18: overruled #1.when: "yesterday" is no day; write it as in 2026-11-25.',
    ),
    "an overrule without its reason": (
        '[[overruled]]\ncode = "open-port"\nabout = ["FH.in-R"]',
        'car.toml, line 14: overruled #1: "reason" is missing; write for example reason = "the '
        'maker says so".',
    ),
    "a setting that is none": (
        '[settings]\nslak = "6 %"',
        "car.toml, line 15: settings.slak: is no key of a table of settings. Did you mean "
        f'"slack"? Allowed: {", ".join(settings())}.',
    ),
    "a size of a body": (
        '[components.P]\nkind = "fuel pump"\nsize = "-6"',
        'car.toml, line 16: components.P.size: "-6" is no size of a body; write "300 x 200 x 60 '
        'mm" (along, across, high) or "200 dia x 460 mm".',
    ),
    "two points of one body": (
        '[components.P]\nkind = "fuel pump"\nat.foot = "0, 0, 0 mm"\nat.top = "0, 0, 90 mm"',
        "car.toml, line 16: components.P.at: names 2 points; write one, as in at.foot.",
    ),
    "a point that no body has": (
        '[components.P]\nkind = "fuel pump"\nat.bottm = "0, 0, 0 mm"',
        "car.toml, line 16: components.P.at.bottm: is no point of this component; allowed: middle, "
        "foot, top, front, rear, left, right, in, out.",
    ),
    "a turn without a place": (
        '[components.P]\nkind = "fuel pump"\nyaw = "20°"',
        'car.toml, line 16: components.P.yaw: turns a component that has no place; add at = "x, y, '
        'z mm".',
    ),
    "a flag in words": (
        '[components.P]\nkind = "fuel cell"\nbonded = "yes"',
        'car.toml, line 16: components.P.bonded: "yes" is not allowed; allowed: true, false, '
        "without quotes.",
    ),
    "a part that cannot be read": (
        '[parts.odd]\nends = ["1/2 BSP male"]\nangle = "75"',
        f"car.toml, line 15: parts.odd.ends: {AMBIGUOUS} A part in the hand can be measured.\n"
        'car.toml, line 16: parts.odd.angle: "75" is no angle of a part; allowed: 0, 30, 45, 60, '
        "90, 120, 150, 180.",
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_each_fault_has_its_own_message(case: str) -> None:
    rest, message = CASES[case]

    assert fault(rest) == message


def test_all_faults_are_told_at_once_in_the_order_of_the_document() -> None:
    text = HEAD + (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.inn", string = "700" }\n'
        'O02 = { from = "CO.out", to = "TANK.return", size = "-7", colour = "red" }\n'
    )
    text = text.replace('thickness = "1.5 mm"', 'thickness = "1,5 mm"').replace(
        'kind = "oil cooler"', 'kind = "oil cooler", material = 7'
    )

    with pytest.raises(DocumentError) as caught:
        read_text(text)

    assert [(fault.line, fault.key) for fault in caught.value.faults] == [
        (9, "panels.floor.thickness"),
        (13, "components.CO.material"),
        (15, "lines.O01.string"),
        (15, "lines.O01.to"),
        (16, "lines.O02.size"),
        (16, "lines.O02.colour"),
    ]


WHOLE = {
    "nothing at all": (
        "",
        "car.toml: is no car document yet: its first line must be linewright = 1.\n"
        'car.toml: [car] is missing; write at least [car] and name = "Juniper".\n'
        'car.toml: [systems] is missing; write for example [systems.oil] and fluid = "15W-50".\n'
        "car.toml: [components] is missing; write for example [components.FP] and its kind.",
    ),
    "a format of tomorrow": (
        HEAD.replace("linewright = 1", "linewright = 2"),
        "car.toml, line 1: linewright: 2 is newer than this version, which reads format 1. Install "
        "a newer linewright, or keep the document in format 1.",
    ),
    "a format that is none": (
        HEAD.replace("linewright = 1", 'linewright = "1"'),
        'car.toml, line 1: linewright: "1" is no format; write linewright = 1.',
    ),
    "a key twice": (
        HEAD.replace('name = "Small"', 'name = "Small"\nname = "Big"'),
        "car.toml, line 4: is not valid TOML: car.name stands on line 3 already, and again in "
        '"name = "Big"". Take one away, or give the second an id of its own.',
    ),
    "a component twice": (
        HEAD + '[lines]\nO01 = { from = "FH.out-R" }\nO01 = { from = "CO.in" }',
        "car.toml, line 16: is not valid TOML: lines.O01 stands on line 15 already, and again in "
        '"O01 = { from = "CO.in" }". Take one away, or give the second an id of its own.',
    ),
    "braces over two lines": (
        HEAD + '[lines]\nO01 = { from = "FH.out-R",\n  to = "CO.in" }',
        "car.toml, line 15: is not valid TOML: a table in braces must end on the line it begins on "
        'in "O01 = { from = "FH.out-R",". Put it on one line, or give it a table of its own, as '
        "[components.FH] with a line for each key.",
    ),
    "a comma that is missing": (
        HEAD + '[lines]\nO01 = { from = "FH.out-R" to = "CO.in" }',
        "car.toml, line 15: is not valid TOML: a comma is missing between two values, or the "
        'bracket that ends them in "O01 = { from = "FH.out-R" to = "CO.in" }". Write commas '
        'between values, as in { kind = "oil cooler", have = "yes" }.',
    ),
    "braces that are gone on with": (
        HEAD + '[lines]\nO01 = { from = "FH.out-R" }\n[lines.O01.note]\na = 1',
        "car.toml, line 16: is not valid TOML: lines.O01 ends with its braces on line 15, and is "
        'gone on with in "[lines.O01.note]". Type all that belongs to it within the braces, or '
        "give it a table of its own in their place.",
    ),
    "a value without quotes": (
        HEAD.replace('"1.5 mm"', "1.5 mm"),
        "car.toml, line 9: is not valid TOML: expected newline or end of document after a "
        'statement in "thickness = 1.5 mm". Texts and values with a unit stand in quotes, as in '
        'string = "700 mm".',
    ),
    "a quote that does not end": (
        HEAD + '[lines]\nO01 = { from = "FH',
        'car.toml, line 15: is not valid TOML: unterminated string in "O01 = { from = "FH". '
        'Texts and values with a unit stand in quotes, as in string = "700 mm".',
    ),
    "two oil systems": (
        HEAD.replace("[panels", '[systems.gearbox-oil]\nfluid = "75W-90"\n[panels')
        + '[lines]\nO01 = { from = "FH.out-R", to = "CO.in" }',
        "car.toml, line 17: lines.O01: its system cannot be told: its ports carry oil, and the car "
        "has several systems of that. Add system, one of: oil, gearbox-oil.",
    ),
    "oil into coolant": (
        HEAD.replace("[panels", '[systems.water]\nfluid = "glycol"\n[panels')
        + '[components.RAD]\nkind = "radiator"\n'
        '[lines]\nO01 = { from = "FH.out-R", to = "RAD.in" }',
        "car.toml, line 19: lines.O01: joins FH.out-R of oil to RAD.in of water; one line has one "
        'fluid. Correct a port, or say system = "oil".',
    ),
    "a line of no size": (
        HEAD.replace('size = "-10"\n', "") + '[lines]\nO01 = { from = "FH.out-R", to = "CO.in" }',
        "car.toml, line 14: lines.O01: its size is missing, and systems.oil has none for it; write "
        'for example size = "-10".',
    ),
    "a fluid that says nothing": (
        HEAD.replace("systems.oil", "systems.red").replace("15W-50", "juice"),
        "car.toml, line 4: systems.red: its medium can be told neither from its id nor from its "
        "fluid; add medium, one of: oil, coolant, charge coolant, fuel, charge air.",
    ),
}


@pytest.mark.parametrize("case", WHOLE)
def test_each_fault_of_the_whole_document_has_its_own_message(case: str) -> None:
    text, message = WHOLE[case]

    assert faults(text) == message


def test_bytes_that_are_no_text_are_refused_with_their_line() -> None:
    with pytest.raises(DocumentError) as caught:
        read_bytes(b"linewright = 1\n\xff", "car.toml")

    assert str(caught.value) == (
        "car.toml, line 2: byte 0xff is not UTF-8 text. Save the document as UTF-8."
    )


def test_a_file_that_is_not_there_is_refused_with_the_way_to_begin(tmp_path: Path) -> None:
    with pytest.raises(DocumentError) as missing:
        read(tmp_path / "car.toml")
    with pytest.raises(DocumentError) as folder:
        read(tmp_path)

    assert str(missing.value) == (
        f"{tmp_path / 'car.toml'}: there is no such file. Begin one with: linewright new car.toml"
    )
    assert str(folder.value) == (
        f"{tmp_path}: is a folder. Name the document in it, for example car.toml."
    )


def test_lists_too_deep_to_read_are_refused() -> None:
    assert faults("a = " + "[" * 20000) == (
        "car.toml: has lists or tables too deep in each other to be a car document."
    )


def test_a_huge_file_is_refused_unread() -> None:
    with pytest.raises(DocumentError) as caught:
        read_bytes(b"#" * 1_000_001, "car.toml")

    assert str(caught.value) == ("car.toml: is larger than 1 MB; a car document is typed by hand.")


def test_each_message_of_a_key_names_file_line_and_key() -> None:
    for rest, message in CASES.values():
        assert re.match(r"car\.toml, line \d+: [a-z]", message), rest


def test_so_many_faults_are_listed_as_can_be_read() -> None:
    many = "".join(f'k{n} = {{ kind = "tee", mass = "{n}" }}\n' for n in range(300))

    lines = fault(many).split("\n")

    assert len(lines) == 201
    assert lines[-1] == "car.toml: and more; the first 200 are listed."


def test_a_name_of_a_port_with_other_signs_is_shown_as_it_may_stand() -> None:
    message = fault('[components.X]\nkind = "component"\n[components.X.ports]\nwater_out = "?"\n')

    assert message == (
        'car.toml, line 17: components.X.ports.water_out: "water_out" is no name of a port; '
        "allowed: letters, digits and single hyphens between them, at most 40, as in "
        '"water-out".'
    )


def test_a_dotted_answer_without_quotes_is_told_to_take_them() -> None:
    message = fault('[closed]\nFH.in-R = "plug"\n')

    assert message == (
        "car.toml, line 15: closed.FH: needs quotes round a name with a dot in it: write "
        '"FH.in-R" = "plug".'
    )


def test_the_length_of_a_line_is_typed_by_how_it_was_measured() -> None:
    message = fault('[lines]\nO01 = { from = "TANK.feed", to = "FH.in-L", length = "1 m" }\n')

    assert message == (
        "car.toml, line 15: lines.O01.length: is typed by how it was measured: string, mocked-up "
        "or guess."
    )


def test_an_unknown_kind_is_the_one_fault_of_what_hangs_on_it() -> None:
    text = HEAD.replace('kind = "oil cooler"', 'kind = "oil coler", micron = 3')
    text += (
        '[lines]\nO01 = { from = "FH.out-R", to = "CO.inlet" }\n'
        '[closed]\n"CO.drain" = "plug"\n"CO.bleed" = "none, because it lies flat"\n'
    )
    with pytest.raises(DocumentError) as caught:
        read_text(text)

    assert [fault.key for fault in caught.value.faults] == ["components.CO.kind"]


def test_a_pump_module_hangs_in_a_tank_that_is_there() -> None:
    text = HEAD + 'P = { kind = "in-tank fuel pump", tank = "TK" }\nC1 = { kind = "fuel cell" }\n'
    with pytest.raises(DocumentError) as caught:
        read_text(text)

    assert str(caught.value) == (
        'car.toml, line 14: components.P.tank: "TK" is no fuel cell of this car; allowed: C1.'
    )
