# SPDX-License-Identifier: Apache-2.0
"""Sizes that are left to the tool: from the ports, from the course, or asked about."""

import pytest

from linewright.base.errors import DocumentError
from linewright.base.finding import Finding, Severity
from linewright.car.document import document
from linewright.car.model import AUTO, Car
from linewright.car.read import read_text
from linewright.plan.make import make
from linewright.plan.model import Plan
from linewright.routes.sized import sized

CAR = """linewright = 1
[car]
name = "two blocks"
datum = "anywhere"
placed = "taped"
[systems.oil]
fluid = "10W-40"
hose = "rubber braided"
size = "-8"
[components.A]
kind = "component"
system = "oil"
at = "0, 0, 500 mm"
size = "100 x 100 x 100 mm"
[components.A.ports]
out = {{ end = "{a}", known = "read", at = "50, 0, 0 mm", points = "rearward" }}
[components.B]
kind = "component"
system = "oil"
at = "1300, 0, 500 mm"
size = "100 x 100 x 100 mm"
[components.B.ports]
in = {{ end = "{b}", known = "read", at = "-50, 0, 0 mm", points = "forward" }}
[lines]
O01 = {{ from = "A.out", to = "B.in", size = "auto"{more} }}
"""


def text(a: str, b: str, *, more: str = "") -> str:
    return CAR.format(a=a, b=b, more=more)


def plan(a: str, b: str) -> Plan:
    return make(read_text(text(a, b)))


def told(made: Plan) -> Finding:
    (finding,) = [f for f in made.findings if f.code in ("size-chosen", "size-open")]
    return finding


@pytest.mark.parametrize(
    ("a", "b", "size"),
    [
        ("-8 ORB female", "-8 ORB female", "-8"),
        ("-10 AN male", "-10 AN male", "-10"),
        ("-6 ORB female", "-10 AN male", "-6"),
        ("M18x1.5 flat face", "3/8 NPT female", "-10"),
    ],
)
def test_the_narrower_port_tells_the_size(a: str, b: str, size: str) -> None:
    made = plan(a, b)

    assert made.car.lines["O01"].size == size
    assert {run.size for run in made.routes.runs} == {size}
    assert "choke" not in {f.code for f in made.findings}


def test_a_size_that_was_chosen_is_said_with_what_it_rests_on() -> None:
    made = plan("-6 ORB female", "-10 AN male")
    finding = told(made)

    assert (finding.code, finding.severity) == ("size-chosen", Severity.NOTE)
    assert finding.reason == (
        "O01: -6 is the largest rubber braided hose that A.out and B.in take without a choke. "
        "What flows in it was not reckoned."
    )
    assert finding.remedy == 'Type size = "-6" to keep it, or another size.'
    assert ("lines.O01.size", "-6") in {(key, value) for key, value, _ in made.car.assumed}


def test_a_port_that_is_not_known_leaves_it_to_the_other() -> None:
    made = plan("-10 AN male", "?")

    assert made.car.lines["O01"].size == "-10"
    assert told(made).reason == (
        "O01: -10 is the largest rubber braided hose that A.out takes without a choke; B.in is "
        "not known yet. What flows in it was not reckoned."
    )


def test_two_ports_that_are_not_known_are_asked_about() -> None:
    made = plan("?", "?")
    finding = told(made)

    assert (finding.code, finding.severity) == ("size-open", Severity.ASK)
    assert finding.reason.startswith(
        "O01: its size is left open, and neither A.out nor B.in is known;"
    )
    assert made.car.lines["O01"].size.startswith("-")


def test_where_the_largest_finds_no_course_a_smaller_one_is_tried() -> None:
    car = read_text(text("-12 AN male", "-12 AN male"))

    def large(asked: Car) -> list[str]:
        return [line.id for line in asked.lines.values() if line.size in ("-12", "-10")]

    made, (finding,) = sized(car, large)

    assert made.lines["O01"].size == "-8"
    assert finding.reason == (
        "O01: -12 is the largest rubber braided hose that A.out and B.in take without a choke, "
        "but finds no course between them; -8 does. What flows in it was not reckoned."
    )


def test_no_more_sizes_are_tried_than_the_setting_says() -> None:
    car = read_text(text("-12 AN male", "-12 AN male"))
    tried: list[str] = []

    def never(asked: Car) -> list[str]:
        tried.append(asked.lines["O01"].size)
        return ["O01"]

    made, (finding,) = sized(car, never)

    assert tried == ["-12", "-10", "-8"]
    assert made.lines["O01"].size == "-12"
    assert "no smaller one that was tried finds a course either" in finding.reason


def test_a_car_that_leaves_nothing_open_is_the_same_car() -> None:
    car = read_text(text("-8 ORB female", "-8 ORB female").replace('"auto"', '"-8"'))

    assert sized(car) == (car, ())


def test_auto_is_written_as_it_was_typed() -> None:
    car = read_text(text("-8 ORB female", "-8 ORB female"))

    assert car.lines["O01"].size == AUTO
    assert 'size = "auto"' in document(car)


def test_tube_is_not_sized() -> None:
    tube = ', hose = "aluminium hard tube"'

    with pytest.raises(DocumentError, match='its size is "auto", which is for hose'):
        read_text(text("-8 ORB female", "-8 ORB female", more=tube))


def test_a_system_can_leave_the_size_of_all_its_hoses_open() -> None:
    typed = text("-8 ORB female", "-8 ORB female")
    whole = typed.replace('size = "-8"', 'size = "auto"', 1).replace(', size = "auto" }', " }")
    car = read_text(whole)

    assert car.lines["O01"].size == AUTO
    assert make(car, in_space=False).car.lines["O01"].size == "-8"
    assert 'size = "auto"' in document(car)
