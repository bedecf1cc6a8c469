# SPDX-License-Identifier: Apache-2.0
"""How thick hoses are outside, and how far that is known."""

import pytest

from linewright.base.evidence import Figure, Grade
from linewright.car.model import Car, Construction, Line, Medium
from linewright.takeoff.girth import on_spigot, outside

CAR = Car("test")


def _line(size: str, hose: str, construction: Construction = Construction.HOSE) -> Line:
    return Line("O01", "A.out", "B.in", "oil", Medium.OIL, size, hose, construction)


@pytest.mark.parametrize(
    ("size", "hose", "millimetres"),
    [
        ("-10", "rubber braided", 22.9),  # SAE 100R5, hose selection page [relayed]
        ("-6", "PTFE full-bore conductive", 14.1),  # hose maker's catalogue [relayed]
        ("-8", "PTFE full-bore conductive", 17.2),
    ],
)
def test_the_table_gives_the_outside_of_braided_hose(
    size: str, hose: str, millimetres: float
) -> None:
    figure = outside(CAR, _line(size, hose))

    assert figure.value * 1000 == pytest.approx(millimetres)
    assert figure.grade is Grade.RELAYED


def test_silicone_hose_has_the_default_wall_and_says_so() -> None:
    figure = outside(CAR, _line("38", "silicone", Construction.CLAMPED))

    assert figure.value == pytest.approx(0.048)
    assert figure.grade is Grade.PRACTICE
    assert figure.basis == "spigot 38 mm and two assumed walls of 5 mm"


def test_small_hose_has_the_thin_wall() -> None:
    figure = outside(CAR, _line("5", "reference", Construction.CLAMPED))

    assert figure.value == pytest.approx(0.012)


def test_hard_tube_is_as_thick_as_its_dash() -> None:
    figure = outside(CAR, _line("-6", "tube", Construction.TUBE))

    assert figure.value * 1000 == pytest.approx(9.525)
    assert figure.grade is Grade.DERIVED


def test_hose_without_an_outside_in_the_data_says_that_it_is_reckoned() -> None:
    figure = outside(CAR, _line("-6", "PTFE tube-bore conductive"))

    assert figure.value > 0.0079
    assert "two assumed walls" in figure.basis
    assert figure.grade in (Grade.PRACTICE, Grade.RECALLED)


def test_a_size_that_nobody_chose_does_not_stop_the_count() -> None:
    figure = outside(CAR, _line("", "rubber braided"))

    assert figure.grade is Grade.RECALLED
    assert "size not chosen yet" in figure.basis or "spigot" in figure.basis


def test_the_builder_may_set_another_wall() -> None:
    car = Car("test", settings={"hose-wall": Figure(0.004, "m", Grade.STATED)})
    spigot = Figure(0.038, "m", Grade.STATED)

    assert on_spigot(car, spigot, None).value == pytest.approx(0.046)
