# SPDX-License-Identifier: Apache-2.0
"""Worked system A, row by row: wet sump, remote filter, thermostat, cooler.

Source: an example worked by hand (common practice, computed from seen tables); the hose
outside of 22.9 mm is that of SAE 100R5 -10 as printed on a hose selection page.
"""

import re
from pathlib import Path

import pytest

from linewright.car.read import read
from linewright.catalogue import stock
from linewright.joints import termination
from linewright.routes import lengths
from linewright.routes.model import Routes
from linewright.takeoff import count
from linewright.takeoff.model import Takeoff
from tests.worked.rows_of import ends, group, only

CAR = Path(__file__).parents[2] / "examples" / "club-roadster" / "car.toml"


@pytest.fixture(scope="module")
def planned() -> tuple[Routes, Takeoff]:
    car = read(CAR)
    joints = termination.offer(car)
    routes = lengths.lay(car, joints)
    return routes, count.count(car, joints, routes)


@pytest.fixture(scope="module")
def routes(planned: tuple[Routes, Takeoff]) -> Routes:
    return planned[0]


@pytest.fixture(scope="module")
def takeoff(planned: tuple[Routes, Takeoff]) -> Takeoff:
    return planned[1]


def test_adaptors_are_these_and_no_others(takeoff: Takeoff) -> None:
    got = {ends(row): (row.need, row.order) for row in group(takeoff, "adaptors")}

    assert got == {
        ("npt 1/2 m", "flare_37 -10 m"): (4, 4),
        ("metric_flat_face M22x1.5 m", "flare_37 -10 m"): (4, 4),
        ("orb_unf -10 m", "flare_37 -10 m"): (2, 2),
        ("npt 1/2 m", "npt 1/8 f"): (1, 1),
    }


def test_one_plug_closes_the_spare_inlet(takeoff: Takeoff) -> None:
    rows = group(takeoff, "plugs")

    assert [(ends(row), row.need, row.order) for row in rows] == [(("npt 1/2 m",), 1, 1)]
    assert any("FH.in-R" in because for because in rows[0].because)


@pytest.mark.parametrize(
    ("words", "need", "order"),
    [(("washer", "22 mm"), 4, 6), (("O-ring", "AS568-910", "FKM"), 2, 4), (("gasket",), 1, 1)],
)
def test_seals_have_size_material_and_spares(
    takeoff: Takeoff, words: tuple[str, ...], need: int, order: int
) -> None:
    row = only(group(takeoff, "seals"), *words)

    assert (row.need, row.order) == (need, order)


def test_no_other_seals_are_on_the_list(takeoff: Takeoff) -> None:
    assert len(group(takeoff, "seals")) == 3


def test_the_canister_is_bought_with_its_gasket(takeoff: Takeoff) -> None:
    row = only(group(takeoff, "components"), "CAN", "gasket")

    assert (row.need, row.order) == (1, 1)


def test_paste_is_one_tube_for_eight_joints(takeoff: Takeoff) -> None:
    (row,) = group(takeoff, "sealant")

    assert (row.need, row.order, row.unit) == (1, 1, "tube")
    assert len(row.because) == 8
    assert "8 joints" in row.note


def test_hose_ends_by_angle_with_one_spare_of_what_is_used_often(takeoff: Takeoff) -> None:
    rows = group(takeoff, "hose ends")
    parts = {row.code: stock.generic().part(row.code) for row in rows}
    got = {parts[row.code].angle: (row.need, row.order) for row in rows}

    assert got == {0: (5, 6), 90: (4, 5), 45: (1, 1)}
    assert all(str(p.ends[-1]).startswith("hose -10 rubber") for p in parts.values())


def test_every_hose_end_row_says_angle_dash_family_and_swivel(takeoff: Takeoff) -> None:
    for row in group(takeoff, "hose ends"):
        assert re.search(r"straight|\d+°| \d+ ", row.name)
        assert "-10" in row.name
        assert "rubber" in row.name
        assert "swivel" in row.name or "fixed" in row.name


def test_cones_equal_hose_ends(takeoff: Takeoff) -> None:
    cones = sum(row.need for row in group(takeoff, "adaptors") if "flare_37 -10 m" in ends(row))
    hose_ends = sum(row.need for row in group(takeoff, "hose ends"))

    assert cones == hose_ends == 10


def test_hose_to_buy(takeoff: Takeoff) -> None:
    (row,) = takeoff.hoses
    pieces = {line: round(length * 1000) for line, length in row.pieces}

    assert pieces == {"L1": 805, "L2": 502, "L3": 979, "L4": 1032, "L5": 752}
    assert row.string == pytest.approx(3.65)
    assert row.need == pytest.approx(4.070, abs=1e-6)
    assert row.order == pytest.approx(5.070, abs=1e-6)
    assert (row.feet, row.metres) == (17, 6)


def test_clips_are_counted_by_started_spacing(routes: Routes, takeoff: Takeoff) -> None:
    by_line = {run.id: run.clips for run in routes.runs}
    clip = only(group(takeoff, "clips"), "P-clip", "23 mm")
    screw = only(group(takeoff, "clips"), "screw")

    assert by_line == {"L1": 2, "L2": 1, "L3": 2, "L4": 3, "L5": 2}
    assert (clip.need, clip.order) == (10, 10)
    assert "22.9 mm" in clip.note
    assert (screw.need, screw.order) == (10, 10)


def test_only_the_straight_to_straight_line_has_a_cut_length(routes: Routes) -> None:
    cut = {run.id: run.cut is not None for run in routes.runs}

    assert cut == {"L1": False, "L2": True, "L3": False, "L4": False, "L5": False}
    assert all("cut in place" in run.cut_note for run in routes.runs if run.id != "L2")


def test_hardware_is_not_needed(takeoff: Takeoff) -> None:
    assert group(takeoff, "hardware") == []


def test_the_usual_rings_are_not_told_of_while_nobody_says_how_hot_the_oil_gets(
    takeoff: Takeoff,
) -> None:
    assert takeoff.findings == ()


def test_lengths_raise_nothing(routes: Routes) -> None:
    assert routes.findings == ()


def test_the_whole_system_is_typed_in_sixty_lines_and_twenty_numbers() -> None:
    # Case P1. A number is a value without quotes, or the figure of a length in quotes; what
    # is printed on a part (a thread, a dash, an oil grade) is a name and not a number.
    text = CAR.read_text(encoding="utf-8")
    lines = text.splitlines()
    measured = re.findall(r'"\s*[\d.]+ (?:mm|cm|m|in|ft|L|bar|psi)"', text)
    bare = re.findall(r"=\s*(-?\d[\d.]*)\s*(?=[,}\n#])", text)

    assert len(lines) <= 60
    assert len(measured) + len(bare) <= 20
    assert len(measured) == 5
