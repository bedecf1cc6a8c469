# SPDX-License-Identifier: Apache-2.0
"""The right answer to each of 28 joints, planned whole: nothing in it is a stop.

Cases and answers are those of the worked joints (common practice of the trade; 25 rows and
three controls). Here the whole plan is made of each, so that no rule of a later stage stops
what the trade calls right. What else has to be said of a case is named beside it.
"""

from dataclasses import dataclass

import pytest

from linewright.base.finding import Severity
from linewright.car.read import read_text
from linewright.plan.make import make

HEAD = """
linewright = 1
[car]
name = "one joint"
known = "read"
[panels.firewall]
thickness = "1.5 mm"
material = "steel"
"""
SYSTEMS = {
    "oil": '[systems.oil]\nfluid = "15W-50"\nhose = "MIL-H-8794"\n',
    "fuel": '[systems.fuel]\nfluid = "E85"\nhose = "PTFE full-bore conductive"\n',
    "coolant": '[systems.coolant]\nfluid = "50 % glycol"\nhose = "MIL-H-8794"\n',
    "clamped": '[systems.coolant]\nfluid = "50 % glycol"\nhose = "silicone"\n',
    "air": '[systems.charge-air]\nfluid = "air"\nhose = "silicone"\nhighest = "1.5 bar"\n',
}
#: What is asked or said of any fuel system, whatever its joints are.
OF_FUEL = frozenset({"hose-rating", "seal-as-supplied"})
#: Hose whose rating is not in the data: asked of any clamped hose.
OF_CLAMPED = frozenset({"rating-missing"})


@dataclass(frozen=True, slots=True)
class Case:
    """One right answer: the document, and the warnings and questions it has to raise."""

    system: str
    document: str
    said: frozenset[str] = frozenset()


def _car(case: Case) -> str:
    return HEAD + SYSTEMS[case.system] + case.document


def _case(system: str, document: str, *said: str, of: frozenset[str] = frozenset()) -> Case:
    return Case(system, document, frozenset(said) | of)


def _thing(name: str, ports: str, more: str = 'kind = "component"') -> str:
    return f"[components.{name}]\n{more}\n[components.{name}.ports]\n{ports}\n"


def _line(
    name: str,
    start: str,
    finish: str,
    size: str,
    *,
    ends: str = '"straight", "straight"',
    more: str = "",
) -> str:
    typed = f"ends = [{ends}]\n" if ends else ""
    return (
        f'[lines.{name}]\nfrom = "{start}"\nto = "{finish}"\nsize = "{size}"\n'
        f'string = "{600 + len(name + start + finish)} mm"\n{typed}{more}\n'
    )


CASES = {
    "J01": _case(
        "oil",
        _thing("pump", 'out = "-8 ORB female"')
        + _thing("A", 'in = "-8 flare male"')
        + _line("O01", "pump.out", "A.in", "-8"),
    ),
    "J02": _case(
        "oil",
        _thing("A", 'out = "-16 flare male"')
        + _thing("tank", 'return = "-12 ORB female"')
        + _line("O01", "A.out", "tank.return", "-16", more='service = "return"'),
        "choke",
    ),
    "J03": _case(
        "oil",
        _thing("tank", 'feed = "1/2 NPT female"', 'kind = "component"\nmaterial = "aluminium"')
        + _thing("A", 'in = "-10 flare male"')
        + _line("O01", "tank.feed", "A.in", "-10", ends='"90", "straight"'),
        "taper-in-aluminium",
    ),
    "J04": _case(
        "fuel",
        _thing("A", 'out = "-10 flare male"')
        + _thing("pump", 'in = "3/8 NPT female"')
        + _line("F01", "A.out", "pump.in", "-10", more='service = "suction"'),
        "choke",
        "hose-rating",
    ),
    "J05": _case(
        "oil",
        _thing("tank", 'feed = "G 1/2 female"', 'kind = "component"\nmaterial = "aluminium"')
        + _thing("A", 'in = "-10 flare male"')
        + _line("O01", "tank.feed", "A.in", "-10", ends='"45", "straight"'),
    ),
    "J06, G": _case(
        "fuel",
        _thing("A", 'out = "-6 flare male"')
        + _thing("rail", 'in = "G 1/4 female"')
        + _line("F01", "A.out", "rail.in", "-6"),
        "hose-rating",
    ),
    "J06, Rc": _case(
        "fuel",
        _thing("A", 'out = "-6 flare male"')
        + _thing("rail", 'in = "Rc 1/4 female"')
        + _line("F01", "A.out", "rail.in", "-6"),
        "hose-rating",
    ),
    "J07": _case(
        "fuel",
        _thing("A", 'out = "-8 flare male"')
        + _thing("pump", 'in = "M18x1.5 flat face"')
        + _line("F01", "A.out", "pump.in", "-8", more='service = "suction"'),
        "hose-rating",
    ),
    "J08": _case(
        "coolant",
        _thing("turbo", 'water-in = { end = "M14x1.5 flat face", room = "22 mm" }')
        + _thing("A", 'out = "-6 flare male"')
        + _line("C01", "A.out", "turbo.water-in", "-6", ends='"straight", "90"'),
        "banjo-bore",
        "spot-face-unknown",
    ),
    "J09": _case(
        "oil",
        _thing("block", 'feed = "1/8 NPT female"')
        + _thing("turbo", 'oil-in = "M12x1.5 flat face"')
        + _line(
            "O01",
            "block.feed",
            "turbo.oil-in",
            "-4",
            ends='{ angle = "straight", fit = ["screen"] }, '
            '{ angle = "straight", fit = ["jet 1 mm"] }',
            more='hose = "PTFE full-bore conductive"',
        ),
        "stick-out",
    ),
    "J10": _case(
        "oil",
        _thing("turbo", 'oil-out = { end = "2-bolt flange 38 mm", at_car = "0, 0, 400 mm" }')
        + _thing(
            "sump",
            'drain = { end = "weld aluminium", at_car = "0, 0, 200 mm" }',
            'kind = "sump"\noil-level = "120 mm"\nwindage-clear = true',
        )
        + _line(
            "D01",
            "turbo.oil-out",
            "sump.drain",
            "-10",
            ends='"straight", "45"',
            more='service = "drain"',
        ),
    ),
    "J11": _case(
        "oil",
        _thing("ENG", 'filter = "3/4-16 spin-on male"')
        + _thing(
            "TOP",
            'OUT = "1/2 NPT female"\nIN = "1/2 NPT female"',
            'kind = "filter take-off plate"\non = "ENG.filter"',
        )
        + _thing("A", 'in = "-10 flare male"\nout = "-10 flare male"')
        + _line("O01", "TOP.OUT", "A.in", "-10")
        + _line("O02", "A.out", "TOP.IN", "-10"),
        "taper-in-aluminium",
    ),
    "J12": _case(
        "oil",
        _thing("FH", "", 'kind = "remote filter head"')
        + '[components.CAN]\nkind = "filter canister"\non = "FH.stud"\n'
        + '[components.PS]\nkind = "pressure sensor"\non = "FH.gauge"\nend = "1/8 NPT male"\n'
        + _thing("A", 'in = "-10 flare male"\nout = "-10 flare male"')
        + _line("O01", "A.out", "FH.in-L", "-10")
        + _line("O02", "FH.out-R", "A.in", "-10")
        + '[closed]\n"FH.in-R" = "plug"\n"FH.out-L" = "plug"\n',
        "taper-in-aluminium",
        "filter-bypass",
    ),
    "J13": _case(
        "fuel",
        _thing("A", 'out = "-6 flare male"')
        + _thing("B", 'in = "-6 flare male"')
        + _line("F01", "A.out", "B.in", "-6", more='passes = ["firewall"]\npasses-at = ["300 mm"]'),
        "hose-rating",
    ),
    "J14": _case(
        "oil",
        _thing("block", 'gauge = "1/8 NPT female"', 'kind = "component"\nrides = "engine"')
        + '[components.PS]\nkind = "pressure sensor"\non = "block.gauge"\n'
        + 'end = "M10x1 flat face male"\n',
        "heavy-on-small-thread",
    ),
    "J15": _case(
        "fuel",
        _thing(
            "RG",
            'in-1 = "-6 ORB female"\nin-2 = "-6 ORB female"\nreturn = "-6 ORB female"\n'
            'gauge = "1/8 NPT female"\nreference = "5 mm barb"',
            'kind = "fuel regulator"\nboosted = true',
        )
        + _thing("A", 'out = "-6 flare male"\nin = "-6 flare male"')
        + _thing(
            "MAN", 'reference = "1/8 NPT female"', 'kind = "inlet manifold"\nmaterial = "steel"'
        )
        + '[components.PS]\nkind = "pressure sensor"\non = "RG.gauge"\nend = "1/8 NPT male"\n'
        + _line("F01", "A.out", "RG.in-1", "-6")
        + _line("F02", "RG.return", "A.in", "-6")
        + _line(
            "R01",
            "MAN.reference",
            "RG.reference",
            "5 mm",
            ends="",
            more='hose = "reference"\nservice = "reference"',
        )
        + '[closed]\n"RG.in-2" = "plug"\n',
        of=OF_FUEL,
    ),
    "J16": _case(
        "fuel",
        _thing("pump", 'out = "3/8 quick connect male"')
        + _thing("A", 'in = "-6 flare male"')
        + _line("F01", "pump.out", "A.in", "-6"),
        "hose-rating",
    ),
    "J17": _case(
        "fuel",
        _thing("old", 'front = "inverted flare 3/8 tube male"')
        + _thing("A", 'in = "-6 flare male"')
        + _line("F01", "old.front", "A.in", "-6"),
        "hose-rating",
    ),
    "J18": _case(
        "oil",
        _thing("CO", 'in = "-12 ORFS male"')
        + _thing("A", 'out = "-12 flare male"')
        + _line("O01", "A.out", "CO.in", "-12"),
    ),
    "J19": _case(
        "fuel",
        _thing("A", 'out = "-8 flare male"')
        + _thing("B", 'in = "-8 flare male"')
        + _line("F01", "A.out", "B.in", "-8"),
        "hose-rating",
    ),
    "J20": _case(
        "oil",
        _thing("pump", 'out = { end = "-12 ORB female", room = "45 mm" }')
        + _thing("A", 'in = "-12 flare male"')
        + _line("O01", "pump.out", "A.in", "-12", ends='"90", "straight"'),
    ),
    "J21": _case(
        "clamped",
        _thing("RAD", 'out = "38 mm bead"')
        + _thing("WP", 'in = "32 mm bead"', 'kind = "component"\nrides = "engine"')
        + '[lines.C01]\nfrom = "RAD.out"\nto = "WP.in"\nsize = "38 mm"\n'
        + 'string = "180 mm"\nends = ["90", "straight"]\n',
        of=OF_CLAMPED,
    ),
    "J22": _case(
        "coolant",
        _thing("RAD", 'out = "38 mm bead"')
        + _thing("A", 'in = "-20 flare male"')
        + _line("C01", "RAD.out", "A.in", "-20"),
        "choke",
    ),
    "J23": _case(
        "coolant",
        _thing("ENG", 'steam-1 = "1/8 NPT female"\nsteam-2 = "1/8 NPT female"')
        + '[components.T]\nkind = "tee"\nsize = "-4"\n'
        + _thing("HT", 'bleed = "1/4 NPT female"')
        + _line("C01", "ENG.steam-1", "T.run-a", "-4", more='service = "bleed"')
        + _line("C02", "ENG.steam-2", "T.run-b", "-4", more='service = "bleed"')
        + _line(
            "C03",
            "T.branch",
            "HT.bleed",
            "-4",
            ends='{ angle = "straight", fit = ["restrictor 2 mm"] }, "straight"',
            more='service = "bleed"',
        ),
    ),
    "J24": _case(
        "air",
        _thing("turbo", 'out = "51 mm bead"', 'kind = "component"\nrides = "engine"')
        + _thing("pipe", 'in = "63 mm bead"')
        + '[lines.A01]\nfrom = "turbo.out"\nto = "pipe.in"\nsize = "51 mm"\nstring = "100 mm"\n',
        of=OF_CLAMPED,
    ),
    "J25, cone": _case(
        "oil",
        _thing("tank", 'feed = "weld aluminium"', 'kind = "component"\nmaterial = "aluminium"')
        + _thing("A", 'in = "-16 flare male"')
        + _line("O01", "tank.feed", "A.in", "-16"),
    ),
    "J25, boss": _case(
        "oil",
        _thing("tank", 'feed = "weld aluminium"', 'kind = "component"\nmaterial = "aluminium"')
        + _thing(
            "bung",
            'port = "-16 ORB female"',
            'kind = "bung"\non = "tank.feed"\nmaterial = "aluminium"',
        )
        + _thing("A", 'in = "-16 flare male"')
        + _line("O01", "bung.port", "A.in", "-16"),
    ),
    "C1": _case(
        "fuel",
        _thing("A", 'out = "-8 flare male"\nin = "-8 flare male"')
        + _thing(
            "FF",
            'in = "-8 flare male"\nout = "-8 flare male"',
            'kind = "fuel filter"\nmicron = 10',
        )
        + _line("F01", "A.out", "FF.in", "-8")
        + _line("F02", "FF.out", "A.in", "-8"),
        "hose-rating",
    ),
    "C2": _case(
        "fuel",
        _thing("A", 'out = "-6 flare male"')
        + _thing("rail", 'in = "-8 ORB female"')
        + _line("F01", "A.out", "rail.in", "-6"),
        of=OF_FUEL,
    ),
    "C3": _case(
        "oil",
        _thing("tank", 'feed = "-10 flare male"')
        + _thing("A", 'in = "-10 flare male"')
        + _line("O01", "tank.feed", "A.in", "-10"),
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_a_right_answer_is_no_stop(name: str) -> None:
    stops = [(f.code, f.about, f.reason) for f in make(read_text(_car(CASES[name]))).stops]

    assert stops == []


@pytest.mark.parametrize("name", CASES)
def test_of_a_right_answer_only_what_belongs_to_it_is_said(name: str) -> None:
    case = CASES[name]
    findings = make(read_text(_car(case))).findings
    said = {f.code for f in findings if f.severity in (Severity.WARN, Severity.ASK)}

    assert said - {"missing-function"} == case.said


@pytest.mark.parametrize(
    ("name", "typed", "right"),
    [
        ("J01", "-8 AN female", "-8 ORB female"),
        ("J06, G", "1/4 BSP female", "G 1/4 female"),
        ("J07", "M18x1.5", "M18x1.5 flat face"),
    ],
)
def test_what_must_not_be_guessed_is_a_question_and_no_stop(
    name: str, typed: str, right: str
) -> None:
    text = _car(CASES[name])
    assert text.count(f'"{right}"') == 1
    plan = make(read_text(text.replace(f'"{right}"', f'"{typed}"')))

    assert plan.stops == ()
    assert [f.code for f in plan.findings if f.severity is Severity.ASK].count("ambiguous-end") == 1
