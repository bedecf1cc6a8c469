# SPDX-License-Identifier: Apache-2.0
"""A car with fifteen planted mistakes: all are found, and nothing else is.

The mistakes are common practice: faults that the trade knows from real cars, listed before
the tool was written. Each is taken out in turn, and exactly its own finding has to go.
"""

import re
from pathlib import Path

import pytest

from linewright.base.finding import Severity
from linewright.car.read import read_text
from linewright.plan.make import make

FOLDER = Path(__file__).parents[2] / "examples" / "planted"
TEXT = (FOLDER / "car.toml").read_text(encoding="utf-8")

Key = tuple[str, tuple[str, ...]]
Edit = tuple[str, str]

STRAINER = """
[components.STRAINER]
kind   = "fuel strainer"
micron = 100
[components.STRAINER.ports]
in  = "-8 ORB female"
out = "-8 ORB female"
"""
ROLL_OVER = """
[components.ROLL]
kind = "roll-over valve"
on   = "CELL.vent"
end  = "-8 ORB male"
[components.ROLL.ports]
out = "-8 flare male"
"""
MANIFOLD = """
[components.MAN]
kind = "inlet manifold"
[components.MAN.ports]
reference = "M10x1 flat face"
"""

#: Number of each mistake, the finding that names it, and what would have been right.
MISTAKES: dict[int, tuple[Key, tuple[Edit, ...]]] = {
    1: (
        ("grip-exceeded", ("OUTSIDE", "boot-wall")),
        (('thickness = "40 mm"', 'thickness = "2 mm"'),),
    ),
    2: (
        ("look-alike-thread", ("ENG.filter", "TOP.mount")),
        (('"M20x1.5 spin-on male"', '"3/4-16 spin-on male"'),),
    ),
    3: (("plug-too-deep", ("ENG.sump-drain",)), (('depth = "9 mm"', 'depth = "16 mm"'),)),
    4: (
        ("open-port", ("FH.in-R",)),
        (('"ENG.sump-drain"  = "plug"', '"ENG.sump-drain" = "plug"\n"FH.in-R" = "plug"'),),
    ),
    5: (
        ("ports-too-near", ("CO.in", "CO.out")),
        (('at = "0, 16, 100 mm"', 'at = "0, 24, 100 mm"'),),
    ),
    6: (
        ("vent-rollover", ("CELL.vent",)),
        (("\n[lines]\n", f"{ROLL_OVER}\n[lines]\n"), ('from = "CELL.vent"', 'from = "ROLL.out"')),
    ),
    7: (
        ("no-strainer", ("PUMP",)),
        (
            ("\n[lines]\n", f"{STRAINER}\n[lines]\n"),
            (
                'to = "PUMP.in", size = "-8", string = "500 mm", ends = ["straight", "90"], '
                'service = "suction" }',
                'to = "STRAINER.in", size = "-8", string = "200 mm", ends = ["straight", '
                '"straight"], service = "suction" }\n'
                'F08 = { from = "STRAINER.out", to = "PUMP.in", size = "-8", string = "260 mm", '
                'ends = ["straight", "90"], service = "suction" }',
            ),
        ),
    ),
    8: (
        ("look-alike-thread", ("RAIL.gauge", "fuel-gauge.mount")),
        (('"-4 flare male"', '"-4 ORB male"'),),
    ),
    9: (
        ("reference-missing", ("REG.reference",)),
        (
            ("\n[lines]\n", f"{MANIFOLD}\n[lines]\n"),
            (
                "\n[closed]\n",
                'R01 = { from = "MAN.reference", to = "REG.reference", size = "5 mm", '
                'hose = "reference", string = "600 mm", service = "reference" }\n\n[closed]\n',
            ),
        ),
    ),
    10: (("dash-differs", ("O03", "O03.B")), (('"-8 90"', '"90"'),)),
    11: (
        ("taper-elbow", ("ENG.turbo-feed", "O04")),
        (
            (
                '{ angle = "straight", via = ["elbow-npt-quarter-m-to-flare-4-m-90"] }',
                '"90"',
            ),
        ),
    ),
    12: (("drain-rises", ("D01",)), (('"420, 150, 480 mm"', '"420, 150, 240 mm"'),)),
    13: (("fluid-unfit", ("V01",)), (('hose = "silicone"', 'hose = "nitrile"'),)),
    14: (
        ("flow-reversed", ("F02", "F03", "FF")),
        (('to = "FF.out"', 'to = "FF.in"'), ('from = "FF.in"', 'from = "FF.out"')),
    ),
    15: (
        ("hose-family-mix", ("F07", "F07.A")),
        (('{ angle = "90", hose = "rubber braided" }', '"90"'),),
    ),
}


def _found(text: str) -> list[Key]:
    """Stops, warnings and asks that nobody has overruled, each as often as it is said."""
    findings = make(read_text(text)).findings
    return sorted(f.key for f in findings if f.severity is not Severity.NOTE and not f.overruled)


def _mended(text: str, number: int) -> str:
    for old, new in MISTAKES[number][1]:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


def test_each_of_fifteen_mistakes_is_found_and_nothing_else() -> None:
    assert len(MISTAKES) == 15
    assert _found(TEXT) == sorted(key for key, _ in MISTAKES.values())


@pytest.mark.parametrize("number", MISTAKES)
def test_without_a_mistake_exactly_its_finding_goes(number: int) -> None:
    left = sorted(key for other, (key, _) in MISTAKES.items() if other != number)

    assert _found(_mended(TEXT, number)) == left


def test_with_all_mistakes_mended_nothing_is_said() -> None:
    text = TEXT
    for number in MISTAKES:
        text = _mended(text, number)

    assert _found(text) == []


def test_each_mistake_is_told_in_the_document_and_in_the_readme() -> None:
    told = [int(number) for number in re.findall(r"# mistake (\d+):", TEXT)]
    rows = re.findall(
        r"(?m)^\| (\d+) \|.*`([a-z-]+)`, \w+ \|$",
        (FOLDER / "README.md").read_text(encoding="utf-8"),
    )

    assert told == list(MISTAKES)
    assert {int(n): code for n, code in rows} == {n: key[0] for n, (key, _) in MISTAKES.items()}
