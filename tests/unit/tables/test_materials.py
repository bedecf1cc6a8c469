# SPDX-License-Identifier: Apache-2.0
"""Rubber of rings by fluid and heat; liners against fluids."""

import pytest

from linewright.tables.hoses import FAMILIES
from linewright.tables.materials import (
    Rating,
    fitnesses,
    fluid_class,
    hottest_usual,
    liner,
    ring,
    ring_for,
)
from linewright.tables.practice import figure


def _hot(celsius: float) -> float:
    return celsius + 273.15


@pytest.mark.parametrize(
    ("medium", "fluid", "expected"),
    [
        ("oil", "15W-50", "oil"),
        ("coolant", "50 % glycol", "coolant"),
        ("coolant", "plain water", "coolant"),
        ("charge coolant", "water", "coolant"),
        ("charge air", "air", "air"),
        ("fuel", "petrol", "petrol"),
        ("fuel", "98 RON E10", "petrol"),
        ("fuel", "E5", "petrol"),
        ("fuel", "E85", "ethanol"),
        ("fuel", "E 100", "ethanol"),
        ("fuel", "ethanol", "ethanol"),
        ("fuel", "M85", "methanol"),
        ("fuel", "Methanol", "methanol"),
        ("brake", "DOT 4", ""),
    ],
)
def test_a_fluid_falls_in_the_class_its_name_says(medium: str, fluid: str, expected: str) -> None:
    assert fluid_class(medium, fluid) == expected


@pytest.mark.parametrize(
    ("medium", "fluid", "celsius", "material"),
    [
        # Acceptance section 3: FKM in oil over 100 C, EPDM in coolant, FKM in E85.
        ("oil", "10W-40", 80, "NBR"),
        ("oil", "10W-40", 100, "NBR"),
        ("oil", "10W-40", 101, "FKM"),
        ("oil", "15W-50", 130, "FKM"),
        ("coolant", "50 % glycol", 110, "EPDM"),
        ("charge coolant", "water", 60, "EPDM"),
        ("fuel", "E85", 60, "FKM"),
        ("fuel", "petrol", 60, "FKM"),
        ("charge air", "air", 180, "FKM"),
        # EPDM ends at 130 C in the seal table; hydrogenated nitrile goes on, only usable.
        ("coolant", "50 % glycol", 140, "HNBR"),
        ("fuel", "methanol", 40, "EPDM"),
    ],
)
def test_a_ring_is_of_the_first_rubber_that_is_good_and_stands_the_heat(
    medium: str, fluid: str, celsius: float, material: str
) -> None:
    found = ring_for(medium, fluid, _hot(celsius))

    assert found is not None
    assert found.material == material
    assert found.stands(_hot(celsius))


def test_oil_of_unknown_heat_is_taken_as_hot_as_the_trade_takes_it() -> None:
    assert hottest_usual("oil") == pytest.approx(figure("hottest-oil").value)
    found = ring_for("oil", "10W-40")

    assert found is not None
    assert found.material == "FKM"


def test_no_ring_is_made_up_for_heat_or_fluids_that_no_row_covers() -> None:
    assert ring_for("oil", "15W-50", _hot(350)) is None
    assert ring_for("coolant", "50 % glycol", _hot(210)) is None


@pytest.mark.parametrize("fluid", ["oil", "petrol", "ethanol"])
def test_epdm_never_meets_oil_or_fuel(fluid: str) -> None:
    (row,) = [f for f in fitnesses() if f.material == "EPDM" and f.fluid == fluid]

    assert row.rating is Rating.UNFIT
    assert row.rank is None


def test_nitrile_in_e85_takes_the_stricter_of_two_sources() -> None:
    found = ring("NBR", "fuel", "E85")

    assert found is not None
    assert found.rating is Rating.LIMITED
    assert "sources disagree" in found.note


def test_every_hose_family_is_rated_in_the_fluid_that_it_is_bought_for() -> None:
    usual = {
        "rubber braided": ("oil", "15W-50"),
        "PTFE full-bore conductive": ("fuel", "E85"),
        "silicone": ("coolant", "50 % glycol"),
        "EPDM": ("coolant", "50 % glycol"),
        "NBR": ("oil", "15W-50"),
        "fuel J30R9": ("fuel", "petrol"),
        "fuel J30R14": ("fuel", "E85"),
        "silicone lined": ("charge air", "air"),
        "tube aluminium": ("oil", "15W-50"),
        "pipe aluminium": ("charge air", "air"),
    }
    for key, (medium, fluid) in usual.items():
        found = liner(FAMILIES[key].liner, medium, fluid)

        assert found is not None, key
        assert found.rating.is_fit, key


def test_what_follows_a_comma_in_a_liner_does_not_change_its_fitness() -> None:
    assert liner("PTFE, carbon-filled", "fuel", "E85") == liner("PTFE", "fuel", "E85")


def test_a_liner_that_no_row_has_is_neither_good_nor_bad() -> None:
    assert liner("leather", "oil", "15W-50") is None


def test_the_order_of_the_trade_has_no_two_first_rubbers() -> None:
    for fluid in {f.fluid for f in fitnesses()}:
        ranks = [f.rank for f in fitnesses() if f.fluid == fluid and f.rank is not None]

        assert len(ranks) == len(set(ranks)), fluid


def test_a_pair_of_material_and_fluid_has_one_row_for_each_use() -> None:
    seen: set[tuple[str, str, str]] = set()
    for row in fitnesses():
        for use in ("seal", "liner") if row.use == "both" else (row.use,):
            key = (row.material, row.fluid, use)

            assert key not in seen, key
            seen.add(key)
