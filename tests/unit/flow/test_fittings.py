# SPDX-License-Identifier: Apache-2.0
"""Losses of fittings, holes and tees against an independent library and the tables' rows."""

from itertools import pairwise

import fluids
import pytest

from linewright.base.errors import FlowError, TableError
from linewright.flow import fittings, holes, tees
from linewright.flow.fittings import Coefficient
from linewright.tables.load import rows

INCH = 0.0254


@pytest.mark.parametrize("ratio", [0.3, 0.5, 0.6, 0.7, 0.8, 0.9, 0.99])
def test_steps_agree_with_an_independent_library(ratio: float) -> None:
    wide = fittings.expansion(ratio * 0.02, 0.02)
    narrow = fittings.contraction(0.02, ratio * 0.02)

    assert wide.k == pytest.approx((1.0 - ratio**2) ** 2)
    assert narrow.k == pytest.approx(
        fluids.fittings.contraction_sharp(0.02, ratio * 0.02, method="Rennels"), rel=1e-9
    )
    assert fittings.contraction_laminar(0.02, ratio * 0.02, 800.0) == pytest.approx(
        fluids.fittings.contraction_sharp(0.02, ratio * 0.02, Re=800.0, method="Hooper"), rel=1e-9
    )


def test_a_hose_end_of_lesser_bore_loses_what_the_table_says() -> None:
    count = 0
    for row in rows("fittings_loss"):
        if row["element"].startswith("straight reusable hose end"):
            words = row["parameters"].split()
            hose, nipple = float(words[3]) / 1e3, float(words[-2]) / 1e3
            found = fittings.steps([hose, nipple, hose], hose)

            assert found.k == pytest.approx(float(row["example_k"]), rel=0.02), row["parameters"]
            count += 1
    assert count == 6


def test_a_loss_moves_to_another_bore_with_its_laminar_part() -> None:
    there = Coefficient(2.0, 800.0, 0.01).on(0.02)
    # Double the bore: a quarter of the speed, half the Reynolds number.
    at_small, at_large = 1000.0, 500.0

    assert there.at(at_large) / 16.0 == pytest.approx(Coefficient(2.0, 800.0, 0.01).at(at_small))


def test_3_k_and_2_k_agree_with_an_independent_library() -> None:
    for reynolds in (20.0, 500.0, 1e4):
        assert fittings.three_k(800.0, 0.14, 4.0, 0.5 * INCH).at(reynolds) == pytest.approx(
            fluids.fittings.Darby3K(NPS=0.5, Re=reynolds, K1=800.0, Ki=0.14, Kd=4.0), rel=1e-9
        )
        assert fittings.two_k(800.0, 0.4, INCH).at(reynolds) == pytest.approx(
            fluids.fittings.Hooper2K(Di=1.0, Re=reynolds, K1=800.0, Kinfty=0.4), rel=1e-9
        )


def test_3_k_fittings_of_the_table_give_its_examples() -> None:
    count = 0
    for row in rows("fittings_loss"):
        if row["parameters"].startswith("3-K"):
            found = fittings.three_k_of(row["element"], 9 / 16 * INCH).at(1e4)

            assert found == pytest.approx(float(row["example_k"]), rel=0.01), row["element"]
            count += 1
    assert count == 9
    with pytest.raises(TableError) as unknown:
        fittings.three_k_of("spiral", 0.01)
    assert str(unknown.value) == "There is no 3-K fitting spiral in fittings_loss.csv."


def test_hose_ends_lose_more_the_more_they_turn_and_more_cold_than_hot() -> None:
    swept = [fittings.hose_end(angle, 0.0116) for angle in (0, 30, 45, 60, 90, 120, 150, 180)]
    for less, more in pairwise(swept):
        assert less.k < more.k
        assert less.laminar < more.laminar
    assert fittings.hose_end(90, 0.0116, is_forged=True).k > 3.0 * fittings.hose_end(90, 0.0116).k
    assert fittings.hose_end(90, 0.0116).at(100.0) > 8.0


def test_cranes_factor_of_size_is_the_librarys_within_2_percent() -> None:
    for bore in (0.010, 0.0143, 0.0222, 0.0508):
        assert fittings.crane_factor(bore) == pytest.approx(
            fluids.fittings.ft_Crane(bore), rel=0.02
        )


def test_kv_and_cv_agree_with_an_independent_library() -> None:
    assert holes.from_kv(2.5, 0.02) == pytest.approx(fluids.fittings.Kv_to_K(2.5, 0.02), rel=2e-3)
    assert holes.kv_of_cv(2.0) == pytest.approx(fluids.fittings.Cv_to_Kv(2.0), rel=1e-3)
    with pytest.raises(FlowError) as shut:
        holes.from_kv(0.0, 0.02)
    assert str(shut.value) == ("A Kv of 0 m³/h lets nothing through. Type that of the valve open.")


def test_a_hole_passes_what_its_bore_was_found_for_and_backwards_too() -> None:
    bore = holes.hole_bore(2e-5, 3e5, 830.0, 0.0056, 0.8)

    assert holes.hole_flow(bore, 3e5, 830.0, 0.8, bore / 0.0056) == pytest.approx(2e-5)
    assert holes.hole_flow(bore, -3e5, 830.0, 0.8, bore / 0.0056) == pytest.approx(-2e-5)


def test_what_a_hole_loses_for_good_agrees_with_an_independent_library() -> None:
    for ratio in (0.2, 0.5, 0.7):
        theirs = fluids.flow_meter.dP_orifice(D=0.05, Do=ratio * 0.05, P1=2e5, P2=1e5, C=0.61)

        assert holes.lasting_share(ratio) * 1e5 == pytest.approx(theirs, rel=1e-9)


def test_a_rated_loss_passes_through_its_point_and_an_impossible_one_is_refused() -> None:
    viscous, inertial = holes.rated_loss(30e3, 8e-4, 830.0, 1.2e-5, 0.7)
    q = 8e-4

    assert viscous * 830.0 * 1.2e-5 * q + 0.5 * inertial * 830.0 * q * q == pytest.approx(30e3)
    with pytest.raises(FlowError) as impossible:
        holes.rated_loss(30e3, 0.0, 830.0, 1.2e-5, 0.7)
    assert str(impossible.value) == (
        "A drop of 30 kPa at 0 L/min is no test point of a loss: both must be more than 0. Type "
        "the drop and the flow of the maker's test."
    )


@pytest.mark.parametrize(
    ("element", "law"),
    [
        ("tee 90 deg dividing, to branch, equal bores", tees.parting_branch),
        ("tee 90 deg dividing, through run", tees.parting_run),
        ("tee 90 deg combining, from branch, equal bores", tees.joining_branch),
        ("tee 90 deg combining, through run", tees.joining_run),
    ],
)
def test_tees_give_the_examples_of_the_table(element: str, law) -> None:  # type: ignore[no-untyped-def]
    found = [row for row in rows("fittings_loss") if row["element"] == element]

    assert len(found) == 4
    for row in found:
        share = float(row["parameters"].split("=")[1])
        assert law(share) == pytest.approx(float(row["example_k"]), rel=0.01, abs=1e-3)
