# SPDX-License-Identifier: Apache-2.0
"""``linewright route`` says what was tried, what was chosen, where it is tight, what would help."""

import sys
from dataclasses import replace
from pathlib import Path

import pytest

from linewright.base.errors import RouteError
from linewright.base.evidence import Grade
from linewright.base.finding import Finding, Severity
from linewright.car.model import Car, Construction
from linewright.car.read import read_text
from linewright.faces.cli.route import explain, route
from linewright.routes.lay_space import Laid
from linewright.routes.search import Outcome
from tests.unit.sheets.courses import elbow_course

DOCUMENT = """
linewright = 1
[car]
name = "Two ports"
placed = "taped"
[systems.oil]
fluid = "15W-50"
hose = "rubber braided"
size = "-10"
[components.A]
kind = "thing"
at = "0, 0, 0 mm"
[components.A.ports]
p = { end = "-10 JIC male", at = "0, 0, 0 mm", points = "up" }
[components.B]
kind = "thing"
at = "400, 0, 0 mm"
[components.B.ports]
p = { end = "-10 JIC male", at = "0, 0, 0 mm", points = "up" }
[components.C]
kind = "thing"
[components.C.ports]
p = { end = "-10 JIC male" }
q = { end = "-10 JIC male" }
[lines]
O07 = { from = "A.p", to = "B.p", system = "oil" }
O08 = { from = "C.p", to = "C.q", system = "oil" }
"""


@pytest.fixture(scope="module")
def car() -> Car:
    return read_text(DOCUMENT)


@pytest.fixture(autouse=True)
def wide(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "96")


def told(car: Car, line: str, laid: Laid, capsys: pytest.CaptureFixture[str]) -> tuple[int, str]:
    code = explain(car, car.lines[line], laid)
    return code, capsys.readouterr().out


def test_a_course_is_told_whole(car: Car, capsys: pytest.CaptureFixture[str]) -> None:
    course = elbow_course()
    laid = Laid((course,), outcomes={"O07": Outcome(course, course.band, ())})

    code, text = told(car, "O07", laid, capsys)

    assert code == 0
    assert (
        text
        == """
O07  A.p to B.p, -10 rubber braided
from        A.p at x 0, y 0, z 0 mm ±8 mm, points up, ±5° (taped): 90° hose end, elbow at 9:00
            looking at the port, on 20 mm of adaptors
to          B.p at x 400, y 0, z 0 mm ±8 mm, points up, ±5° (taped): 45° hose end, elbow at
            12:00 looking at the port
chosen      90° at A and 45° at B: of 2 pairs that work the one that costs least, where standing
            out beyond the ports and their bodies goes first, then the price of the ends, bends
            and length (2.25 against 4.50 for the next).
hose        557 mm from collar to collar, along its middle
clock angle 210°: near elbow at six o'clock, counter-clockwise, seen from end A (150° is its
            mirror: wrong)
tightest    12 mm to ENG, at x 300, y 0, z 100 mm
high at     x 100, y 200, z 300 mm
hole        firewall at x 100, y 0, z 0 mm
sure        97 % of the places that the ports may have: measure the direction of ENG.oil-out to
            3°

Straights and bends from A (rotation right-handed along the hose):
  1. 200 mm straight, then 90° at 100 mm radius
  200 mm straight

Ends tried: 4 pairs, 2 work; ● is chosen:
       A    B  Assembly  Height  Bends  Price index  Cost  Sure
  ●  90°  45°    600 mm   50 mm      1          3.8  2.25  97 %
  ·   0°   0°    900 mm  274 mm      3          2.5  4.50  40 %
The others fail (A with B):
  ENG is in the way: 0° with 90°; 45° with 90°

Verify on the car.
"""
    )


def test_a_tube_is_told_as_one(car: Car, capsys: pytest.CaptureFixture[str]) -> None:
    course = elbow_course()
    laid = Laid((course,), outcomes={"O07": Outcome(course, course.band, ())})
    line = replace(car.lines["O07"], construction=Construction.TUBE)
    code, text = told(replace(car, lines={**car.lines, "O07": line}), "O07", laid, capsys)

    assert code == 0
    assert "90° end of the tube" in " ".join(text.split())
    assert "\ntube        557 mm from end to end, along it\n" in text
    assert "hose end" not in text
    assert "collar" not in text
    assert "clock angle" not in text


def test_what_would_free_a_line_is_told_with_what_binds(
    car: Car, capsys: pytest.CaptureFixture[str]
) -> None:
    band = tuple(replace(row, works=False, why_not="ENG is in the way") for row in
                 elbow_course().band)  # fmt: skip
    finding = Finding(
        "no-route",
        Severity.STOP,
        ("O07",),
        "O07: no course was found from A.p to B.p.",
        "It goes with 20 mm more room at ENG.",
        grade=Grade.DERIVED,
    )
    laid = Laid((), findings=(finding,), outcomes={"O07": Outcome(None, band, (), ("ENG",))})

    code, text = told(car, "O07", laid, capsys)

    assert code == 1
    assert "course      none was found\n" in text
    assert "stop        no-route: O07: no course was found from A.p to B.p.\n" in text
    assert "way out     It goes with 20 mm more room at ENG.\n" in text
    assert "Ends tried: 4 pairs, none work.\nThey fail (A with B):\n" in text


def test_a_line_without_coordinates_says_which_are_missing(
    car: Car, capsys: pytest.CaptureFixture[str]
) -> None:
    code, text = told(car, "O08", Laid((), outcomes={}), capsys)

    assert code == 0
    assert text == (
        "O08  C.p to C.q, -10 rubber braided\n"
        "It has no course in space: C.p: at and points not known; C.q: at and points not known. "
        "Its\nlength is that of its string; tape the port and say which way it points, and it "
        "can be laid.\n"
    )


def test_a_line_that_could_not_be_laid_says_what_was_found_of_it(
    capsys: pytest.CaptureFixture[str],
) -> None:
    car = read_text(DOCUMENT, file="car.toml")
    met = Finding(
        "no-route", Severity.STOP, ("O08a", "ENG"), "O08a finds no way.", "Turn the port down."
    )
    code, text = told(car, "O08", Laid((), findings=(met,), outcomes={}), capsys)

    assert code == 1
    assert text == (
        "O08  C.p to C.q, -10 rubber braided\n"
        "It has no course in space.\n"
        "\n"
        "stop        no-route: O08a finds no way.\n"
        "way out     Turn the port down.\n"
    )


def test_an_unknown_line_is_refused_with_those_there_are(tmp_path: Path) -> None:
    document = tmp_path / "car.toml"
    document.write_text(DOCUMENT, encoding="utf-8")

    with pytest.raises(RouteError) as caught:
        route(document, "O99")

    assert str(caught.value) == f'"O99" is no line of {document}. Its lines: O07, O08.'


def test_the_command_runs_from_document_to_words(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    document = tmp_path / "car.toml"
    document.write_text(DOCUMENT, encoding="utf-8")

    code = route(document, "o07")
    text = capsys.readouterr().out

    assert code == 0
    # Case R1: both pairs are in the band, and two 90° ends are the default.
    assert "chosen      90° at A and 90° at B" in text
    assert any(row.split()[:3] == ["·", "0°", "0°"] for row in text.splitlines() if row.strip())


def test_help_loads_no_heavy_library() -> None:
    import subprocess

    code = (
        "import sys; from linewright.faces.cli.main import app; import linewright.routes.model; "
        "print([m for m in ('numpy', 'ezdxf', 'trimesh', 'scipy') if m in sys.modules])"
    )
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert found.stdout == "[]\n"
