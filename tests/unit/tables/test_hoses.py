# SPDX-License-Identifier: Apache-2.0
"""Hose families by any name, their sizes, and what a hose end adds to a hose."""

import pytest

from linewright.base.errors import CatalogueError, TableError
from linewright.base.evidence import Grade
from linewright.car.hose_names import hose_name
from linewright.tables.hoses import FAMILIES, family, size, take_up
from linewright.tables.load import rows


@pytest.mark.parametrize(
    ("said", "key"),
    [
        ("rubber braided", "rubber braided"),
        ("Rubber  Braided", "rubber braided"),
        ("rubber", "rubber braided"),
        ("PTFE", "PTFE"),
        ("ptfe full-bore conductive", "PTFE full-bore conductive"),
        ("PTFE tube-bore conductive", "PTFE tube-bore conductive"),
        ("push on", "push-on"),
        ("silicone", "silicone"),
        ("fluorosilicone lined silicone", "silicone lined"),
        ("heater hose", "EPDM"),
        ("SAE J30R9", "fuel J30R9"),
        ("vacuum hose", "reference"),
        ("charge pipe", "pipe aluminium"),
        ("steel tube", "tube steel"),
    ],
)
def test_a_family_is_found_by_the_words_of_the_trade(said: str, key: str) -> None:
    assert family(said).key == key


@pytest.mark.parametrize("key", FAMILIES)
def test_every_name_that_is_printed_of_a_hose_can_be_typed(key: str) -> None:
    kind = FAMILIES[key]
    printed = (kind.key, kind.name, *kind.spoken)
    typed = {
        hose_name(form)
        for name in printed
        for form in (name, name.upper(), name.replace(",", ""), f"{name} hose")
    }

    assert typed == {key}


@pytest.mark.parametrize("key", FAMILIES)
def test_a_family_is_found_by_its_own_key_and_name(key: str) -> None:
    assert family(key) is FAMILIES[key]
    assert family(FAMILIES[key].name) is FAMILIES[key]


def test_no_word_names_two_families() -> None:
    owners: dict[str, set[str]] = {}
    for one in FAMILIES.values():
        for word in (one.key.lower(), one.name.lower(), *one.spoken):
            owners.setdefault(word, set()).add(one.key)

    assert {word: keys for word, keys in owners.items() if len(keys) > 1} == {}


def test_a_family_that_is_not_known_is_refused_with_those_that_are() -> None:
    with pytest.raises(CatalogueError) as caught:
        family("garden")

    assert str(caught.value) == (
        '"garden" is no hose family that linewright knows. Known are: ' + ", ".join(FAMILIES) + "."
    )


def test_every_family_that_names_rows_has_rows() -> None:
    named = [word for one in FAMILIES.values() for word in (one.rows, *one.others) if word]
    printed = [row["family"].lower() for row in rows("hose")]

    assert named
    assert [word for word in named if not any(word.lower() in name for name in printed)] == []


def test_the_bore_of_a_better_grade_is_used_and_the_other_kept_beside_it() -> None:
    # Case of -10 rubber: 12.7 mm in SAE 100R5, 14.3 mm in race hose [common practice].
    found = size("rubber braided", "-10")

    assert found.bore is not None
    assert [round(bore.value * 1000, 1) for bore in found.bores] == [12.7, 14.3]
    assert [bore.grade for bore in found.bores] == [Grade.RELAYED, Grade.PRACTICE]
    assert found.bore is found.bores[0]


def test_full_bore_and_tube_bore_ptfe_of_one_dash_differ() -> None:
    # Maker catalogue: -6 10 mm, outside 14.1; tube bore of SAE 100R14: 7.9 mm.
    full, tube = size("PTFE full-bore conductive", "-6"), size("PTFE tube-bore conductive", "-6")
    either = size("PTFE", "-6")

    assert full.bore is not None
    assert tube.bore is not None
    assert full.outside is not None
    assert (full.bore.value, tube.bore.value) == (0.0100, 0.0079)
    assert full.outside.value == pytest.approx(0.0141)
    assert [bore.value for bore in either.bores] == [0.0079, 0.0100]


def test_figures_of_a_size_are_in_si_with_the_grade_of_their_row() -> None:
    # FAA AC 43.13-1B table 9-3 and US Army TM 1-1500-204-23-2 table 4-15.
    found = size("MIL-H-8794", "-10")
    values = [
        found.bore,
        found.outside,
        found.working,
        found.burst,
        found.bend_radius,
    ]

    assert [figure.value for figure in values if figure] == pytest.approx(
        [0.0127, 0.0234, 12.07e6, 48.26e6, 0.1397]
    )
    assert {figure.grade for figure in values if figure} == {Grade.READ}
    assert found.mass_per_metre is None
    assert found.vacuum.startswith("28 inHg")


def test_figures_of_a_whole_hose_hold_for_each_of_its_bores() -> None:
    # Sources disagree on J30R9: 100 psi is used, 180 psi of one maker is not.
    found = size("fuel J30R9", "8")

    assert found.working is not None
    assert found.hottest is not None
    assert found.working.value == pytest.approx(6.9e5)
    assert found.working.grade is Grade.RECALLED
    assert found.hottest.value == pytest.approx(135 + 273.15)


def test_the_bore_of_a_clamped_hose_is_as_typed_where_no_row_has_it() -> None:
    found = size("EPDM", "25")

    assert found.bore is not None
    assert found.bore.value == pytest.approx(0.025)
    assert found.bore.grade is Grade.STATED


def test_a_dash_that_is_not_made_is_refused_with_those_that_are() -> None:
    with pytest.raises(CatalogueError) as caught:
        size("rubber braided", "-7")

    assert str(caught.value) == (
        "braided rubber hose is not made in size -7. "
        "Sizes: -4, -5, -6, -8, -10, -12, -16, -20, -24, -32."
    )


def test_a_clamped_hose_wants_its_bore_in_millimetres() -> None:
    with pytest.raises(CatalogueError) as caught:
        size("silicone", "wide")

    assert str(caught.value) == (
        '"wide" is no bore of a clamped hose; say it in millimetres, e.g. 38.'
    )


def test_a_key_without_a_family_is_a_fault_of_the_tables() -> None:
    with pytest.raises(TableError) as caught:
        size("garden", "-6")

    assert str(caught.value) == "There is no hose family garden in hose_families.csv."


@pytest.mark.parametrize(
    ("ends", "dash", "angle", "inches"),
    [
        # NAVEDTRA 14018 table 5-2 (MS24587), US Army TM 1-1500-204-23-2 table 4-22.
        ("rubber", "-6", 0, 0.77),
        ("rubber", "-10", 0, 1.00),
        ("rubber", "-16", 0, 0.94),
        ("PTFE", "-6", 0, 1.62),
        ("PTFE", "-6", 45, 2.58),
        ("PTFE", "-8", 90, 2.62),
    ],
)
def test_a_take_up_is_the_inches_of_its_manual(
    ends: str, dash: str, angle: int, inches: float
) -> None:
    found = take_up(ends, dash, angle)

    assert found is not None
    assert found.value == pytest.approx(inches * 0.0254)
    assert found.grade is Grade.READ


@pytest.mark.parametrize(
    ("ends", "dash", "angle"),
    [("rubber", "-10", 90), ("rubber", "-10", 45), ("push-on", "-6", 0), ("PTFE", "-6", 30)],
)
def test_an_end_without_a_take_up_in_any_table_has_none(ends: str, dash: str, angle: int) -> None:
    assert take_up(ends, dash, angle) is None


def test_race_hose_does_not_borrow_the_vacuum_test_of_a_military_hose() -> None:
    # FAA AC 43.13-1B table 9-3 and MIL-DTL-8794F test the military hose alone.
    assert size("MIL-H-8794", "-16").vacuum
    assert size("rubber braided", "-16").vacuum == ""
