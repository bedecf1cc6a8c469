# SPDX-License-Identifier: Apache-2.0
"""Worked system B, row by row: E85, return type, in PTFE hose.

Source: an example worked by hand (common practice, computed from seen tables); hose
outsides of 14.1 and 17.2 mm are those of a hose maker's catalogue.
"""

from pathlib import Path

import pytest

from linewright.car.read import read
from linewright.catalogue import stock
from linewright.joints import termination
from linewright.routes import lengths
from linewright.routes.model import Routes
from linewright.takeoff import count
from linewright.takeoff.model import Takeoff
from tests.worked.rows_of import ends, group, hose, only

CAR = Path(__file__).parents[2] / "examples" / "e85-boot" / "car.toml"


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
        ("orb_unf -8 m", "flare_37 -8 m"): (1, 1),
        ("orb_unf -10 m", "flare_37 -8 m"): (2, 2),
        ("metric_flat_face M18x1.5 m", "flare_37 -8 m"): (1, 1),
        ("metric_flat_face M12x1.5 m", "flare_37 -6 m"): (1, 1),
        ("orb_unf -8 m", "flare_37 -6 m"): (4, 4),
        ("orb_unf -6 m", "flare_37 -6 m"): (3, 3),
        ("flare_37 -6 m", "flare_37 -6 m"): (2, 2),
        ("flare_37 -8 m", "flare_37 -8 m"): (1, 1),
        ("npt 1/8 m", "barb 5 m"): (1, 1),
    }


def test_the_pump_outlet_fitting_holds_the_check_valve(takeoff: Takeoff) -> None:
    row = next(r for r in group(takeoff, "adaptors") if "metric_flat_face M12x1.5 m" in ends(r))

    assert "check valve" in stock.generic().part(row.code).traits


def test_the_floor_fittings_are_bulkheads(takeoff: Takeoff) -> None:
    shapes = {
        ends(row): stock.generic().part(row.code).shape
        for row in group(takeoff, "adaptors")
        if ends(row) in (("flare_37 -6 m",) * 2, ("flare_37 -8 m",) * 2)
    }

    assert set(shapes.values()) == {"bulkhead"}
    assert len(shapes) == 2


def test_two_plugs_close_the_second_inlet_and_the_drain(takeoff: Takeoff) -> None:
    rows = [row for row in group(takeoff, "plugs") if "orb_unf -6 m" in ends(row)]

    assert [(row.need, row.order) for row in rows] == [(2, 2)]
    assert {b.rpartition(".")[0] for b in rows[0].because} == {"RG.in-2", "FC.drain"}


@pytest.mark.parametrize(
    ("words", "need", "order"),
    [
        (("O-ring", "AS568-906", "FKM"), 5, 8),
        (("O-ring", "AS568-908", "FKM"), 6, 9),
        (("O-ring", "AS568-910", "FKM"), 2, 4),
        (("washer", "18 mm"), 1, 3),
        (("washer", "12 mm"), 1, 3),
        (("olive", "-6"), 0, 6),
        (("olive", "-8"), 0, 3),
    ],
)
def test_seals_have_size_material_and_spares(
    takeoff: Takeoff, words: tuple[str, ...], need: int, order: int
) -> None:
    row = only(group(takeoff, "seals"), *words)

    assert (row.need, row.order) == (need, order)


def test_no_other_seals_are_on_the_list(takeoff: Takeoff) -> None:
    assert len(group(takeoff, "seals")) == 7


@pytest.mark.parametrize(
    ("words", "need", "order"),
    [
        (("bulkhead nut", "-6"), 2, 2),
        (("bulkhead nut", "-8"), 1, 1),
        (("panel washer", "-6"), 4, 6),
        (("panel washer", "-8"), 2, 4),
        (("fuel clamp",), 2, 4),
        (("bonding strap",), 1, 1),
    ],
)
def test_hardware_clamps_and_bonds(
    takeoff: Takeoff, words: tuple[str, ...], need: int, order: int
) -> None:
    row = only(group(takeoff, "hardware"), *words)

    assert (row.need, row.order) == (need, order)


def test_no_other_hardware_is_on_the_list(takeoff: Takeoff) -> None:
    assert len(group(takeoff, "hardware")) == 6


def test_paste_is_one_fuel_proof_tube_for_two_joints(takeoff: Takeoff) -> None:
    (row,) = group(takeoff, "sealant")

    assert (row.need, row.order) == (1, 1)
    assert "fuel" in row.name
    assert len(row.because) == 2


def test_hose_ends_by_size_and_angle(takeoff: Takeoff) -> None:
    rows = group(takeoff, "hose ends")
    parts = {row.code: stock.generic().part(row.code) for row in rows}
    got = {
        (str(parts[row.code].ends[-1]).split()[1], parts[row.code].angle): (row.need, row.order)
        for row in rows
    }

    assert got == {
        ("-8", 0): (4, 5),
        ("-8", 90): (2, 2),
        ("-6", 0): (3, 3),
        ("-6", 45): (2, 2),
        ("-6", 90): (7, 8),
    }
    assert all(str(p.ends[-1]).split()[2] == "PTFE" for p in parts.values())


def test_hose_of_the_large_size(takeoff: Takeoff) -> None:
    row = hose(takeoff, "-8")
    pieces = {line: round(length * 1000) for line, length in row.pieces}

    assert pieces == {"F01": 449, "F02": 343, "F09": 979}
    assert row.string == pytest.approx(1.60)
    assert row.need == pytest.approx(1.771, abs=1e-6)
    assert row.order == pytest.approx(2.771, abs=1e-6)
    assert (row.feet, row.metres) == (10, 3)


def test_hose_of_the_small_size(takeoff: Takeoff) -> None:
    row = hose(takeoff, "-6")
    pieces = {line: round(length * 1000) for line, length in row.pieces}

    assert pieces == {"F03": 396, "F04": 555, "F05": 3455, "F06": 396, "F07": 3667, "F08": 661}
    assert row.string == pytest.approx(8.40)
    assert row.need == pytest.approx(9.130, abs=1e-6)
    assert row.order == pytest.approx(10.130, abs=1e-6)
    assert (row.feet, row.metres) == (34, 11)


def test_the_reference_hose_is_bought_by_the_whole_metre(takeoff: Takeoff) -> None:
    row = hose(takeoff, "5")

    assert row.string == pytest.approx(0.6)
    assert row.need == pytest.approx(0.6 * 1.06 + 0.025)
    assert row.order == pytest.approx(1.0)
    assert (row.feet, row.metres) == (4, 1)


@pytest.mark.parametrize(
    ("clip", "outside", "need"), [("15 mm", "14.1 mm", 31), ("18 mm", "17.2 mm", 6)]
)
def test_clips_by_the_outside_of_the_hose(
    takeoff: Takeoff, clip: str, outside: str, need: int
) -> None:
    row = only(group(takeoff, "clips"), "P-clip", clip)

    assert (row.need, row.order) == (need, need)
    assert outside in row.note


def test_a_screw_and_nut_for_each_clip(takeoff: Takeoff) -> None:
    row = only(group(takeoff, "clips"), "screw")

    assert (row.need, row.order) == (37, 37)


def test_three_holes_in_the_floor_before_paint(takeoff: Takeoff) -> None:
    sizes = sorted(h.diameter.value * 1000 for h in takeoff.holes if h.diameter)

    assert sizes == pytest.approx([14.7, 14.7, 19.4])
    assert len(takeoff.holes) == 3
    assert {hole.gate for hole in takeoff.holes} == {"before paint"}


def test_cut_lengths_are_known_where_the_manual_has_the_take_up(routes: Routes) -> None:
    runs = {run.id: run for run in routes.runs}

    assert all(runs[line].cut is not None for line in ("F03", "F04", "F05", "F06", "F07", "F08"))


def test_the_usual_rings_are_told_of_once(takeoff: Takeoff) -> None:
    assert [f.code for f in takeoff.findings] == ["seal-as-supplied"]
