# SPDX-License-Identifier: Apache-2.0
"""Every shipped figure has a source and a grade that the source can carry."""

import csv
import re
import tomllib
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path

import pytest

from linewright.base.evidence import Grade
from linewright.tables.load import sources

DATA = Path(__file__).parents[1] / "src" / "linewright" / "tables" / "data"
NAMES = sorted(path.stem for path in DATA.glob("*.csv"))

#: Sorts of text a source may be, and whether a figure taken from one was seen at first hand.
AT_FIRST_HAND = {
    "computed": True,
    "encyclopedia": False,
    "government data": True,
    "government manual": True,
    "government manual (quoted)": False,
    "government specification": True,
    "library code": True,
    "library documentation": True,
    "machine maker manual": True,
    "none": False,
    "open data set": True,
    "open data set quoting a standard": False,
    "paper abstract": True,
    "regulation": True,
    "rule book": True,
    "rule book (quoted)": False,
    "standard summary": False,
    "standard text": True,
    "textbook": True,
    "textbook (quoted)": False,
    "trade page": False,
    "trade page quoting a standard": False,
}

#: Endings that give the unit of a column of numbers.
UNITS = (
    "_mm|_in|_m|_bar|_c|_deg|_g|_nm|_percent|_pct|_mm2_per_s|_mpa_s|_kg_per_m|_kg_per_m3"
    "|_j_per_kg_k|_w_per_m_k|_kpa_abs|_mm_after_forming|_g_per_size|_per_mm|_rpm|_m_per_s|_v|_s"
)
#: Numbers without a unit: counts, ratios, sizes that are names, prices as shares of the price
#: of one straight -6 hose end.
BARE = {
    "adaptor_price",
    "angles",
    "anywhere",
    "bend_ratio_r_over_od",
    "britain",
    "catalogued",
    "code",
    "dash",
    "europe",
    "forward",  # acceleration over gravity
    "example_k",
    "hose_end_price",
    "japan",
    "k_or_formula",
    "left",
    "nominal",
    "north_america",
    "place",
    "price",
    "price_per_size",
    "rank",
    "size",
    "special",
    "stocked",
    "tpi",
}
#: Numbers whose unit stands in the column ``unit`` of their row.
BY_ROW = {"expected", "high", "low", "max", "min", "recomputed", "typical", "value"}

#: Read in copies that gave no page for one of their rules.
UNPLACED = {"faa-ac-65-9a", "us-army-tm-9-2510-247-13p"}

Row = dict[str, str]


def _rows(name: str) -> list[Row]:
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _all() -> Iterator[tuple[str, Row]]:
    for name in NAMES:
        for number, row in enumerate(_rows(name), 2):
            yield f"{name}.csv:{number}", row


def _kinds(key: str) -> list[str]:
    return sources()[key].kind.split(" + ")


def _number(text: str) -> float | None:
    try:
        return float(text)
    except ValueError:
        return None


@pytest.mark.parametrize("name", NAMES)
def test_every_table_has_a_source_a_place_and_a_grade(name: str) -> None:
    assert set(_rows(name)[0]) >= {"source", "place", "grade"}


@pytest.mark.parametrize("name", NAMES)
def test_every_row_has_as_many_cells_as_headings(name: str) -> None:
    assert [row for row in _rows(name) if None in row or None in row.values()] == []


def test_there_are_tables_to_test() -> None:
    assert len(NAMES) >= 25
    assert {"threads", "mating", "lookalikes", "seals", "settings", "hose", "fitness"} <= set(NAMES)


def test_every_source_of_a_row_is_in_the_list_of_sources() -> None:
    assert [place for place, row in _all() if row["source"] not in sources()] == []


def test_every_source_in_the_list_is_used_by_a_row() -> None:
    assert set(sources()) - {row["source"] for _, row in _all()} == set()


@pytest.mark.parametrize("key", sources())
def test_a_key_is_lower_case_letters_digits_and_hyphens(key: str) -> None:
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", key)


@pytest.mark.parametrize("key", sources())
def test_a_source_says_what_it_is_called_and_what_sort_of_text_it_is(key: str) -> None:
    assert sources()[key].title.strip()
    assert set(_kinds(key)) <= set(AT_FIRST_HAND)


def test_no_two_sources_are_called_the_same() -> None:
    titles = [source.title.casefold() for source in sources().values()]

    assert sorted(titles) == sorted(set(titles))


def test_sources_stand_in_the_order_of_the_alphabet() -> None:
    text = files("linewright.tables").joinpath("sources.toml").read_text(encoding="utf-8")
    keys = list(tomllib.loads(text))

    assert keys == sorted(keys)


@pytest.mark.parametrize("name", NAMES)
def test_every_grade_is_one_of_the_six(name: str) -> None:
    assert {row["grade"] for row in _rows(name)} <= {grade.value for grade in Grade}


def test_what_nobody_wrote_down_is_graded_practice_or_recalled() -> None:
    allowed = {Grade.PRACTICE.value, Grade.RECALLED.value}
    unsourced = [(place, row) for place, row in _all() if _kinds(row["source"]) == ["none"]]

    assert unsourced
    assert [place for place, row in unsourced if row["grade"] not in allowed] == []


def test_what_is_quoted_at_second_hand_is_not_graded_read() -> None:
    read = [(place, row) for place, row in _all() if row["grade"] == Grade.READ.value]
    second_hand = [
        place for place, row in read if not any(AT_FIRST_HAND[k] for k in _kinds(row["source"]))
    ]

    assert read
    assert second_hand == []


def test_what_is_computed_is_not_graded_read() -> None:
    read = [(place, row) for place, row in _all() if row["grade"] == Grade.READ.value]

    assert [place for place, row in read if _kinds(row["source"]) == ["computed"]] == []


def test_what_rests_on_memory_is_never_graded_better() -> None:
    # The formula of a minor diameter is held against a library in test_threads_outside, the
    # diameters of seals have a grade of their own, the number of a standard is no figure.
    elsewhere = {"female_minor_basis", "measured_grade", "standard"}
    better = {Grade.READ.value, Grade.DERIVED.value, Grade.STATED.value}
    suspect = re.compile(r"(?<!not )\bfrom memory\b|\brecalled\b", re.IGNORECASE)
    found = [
        place
        for place, row in _all()
        if row["grade"] in better
        and any(suspect.search(cell) for column, cell in row.items() if column not in elsewhere)
    ]

    assert found == []


def test_what_was_read_in_a_manual_of_a_government_says_where_in_it() -> None:
    manuals = [
        (place, row)
        for place, row in _all()
        if row["grade"] == Grade.READ.value and _kinds(row["source"]) == ["government manual"]
    ]
    # Several manuals that say the same are cited together, with their places in the title.
    unplaced = {
        row["source"]
        for _, row in manuals
        if not row["place"] and not re.search(r"[;:]| p\.", sources()[row["source"]].title)
    }

    assert manuals
    assert unplaced == UNPLACED


@pytest.mark.parametrize("name", NAMES)
def test_columns_with_a_unit_in_their_name_hold_numbers(name: str) -> None:
    rows = _rows(name)
    columns = [c for c in rows[0] if re.search(f"({UNITS})$", c)]
    odd = [
        (column, row[column])
        for column in columns
        for row in rows
        if row[column] and _number(row[column]) is None and not _is_inches(column, row[column])
    ]

    assert odd == []


def _is_inches(column: str, text: str) -> bool:
    """Inches may be written as the trade does: ``1-1/4``, ``3/8``."""
    return column.endswith("_in") and bool(re.fullmatch(r"\d+(-\d+/\d+)?|\d+/\d+", text))


@pytest.mark.parametrize("name", NAMES)
def test_every_column_of_numbers_says_its_unit(name: str) -> None:
    rows = _rows(name)
    numeric = {c for c in rows[0] if any(_number(row[c]) is not None for row in rows)}
    silent = {
        c
        for c in numeric - BARE
        if not re.search(f"({UNITS})$", c) and not (c in BY_ROW and "unit" in rows[0])
    }

    assert silent == set()


@pytest.mark.parametrize("name", [n for n in NAMES if "unit" in _rows(n)[0]])
def test_a_value_in_a_row_has_its_unit_beside_it(name: str) -> None:
    values = [c for c in _rows(name)[0] if c in BY_ROW]
    silent = [
        row for row in _rows(name) if not row["unit"] and any(_number(row[c]) for c in values)
    ]

    assert silent == []


def test_no_figure_is_infinite_or_not_a_number() -> None:
    words = {"inf", "-inf", "nan", "infinity"}

    assert [p for p, row in _all() if {cell.casefold() for cell in row.values()} & words] == []


def test_what_the_reference_marks_as_memory_is_graded_so() -> None:
    threads = {(r["family"], r["nominal"], r["thread"]): r["grade"] for r in _rows("threads")}
    rings = {r["size"]: r["grade"] for r in _rows("seals") if r["family"] == "orfs"}
    mounts = {r["grade"] for r in _rows("spigots_and_mounts")}
    bores = {r["family"]: r["grade"] for r in _rows("end_bores") if r["family"] != "bead"}

    assert threads["npt", "1/16 in pipe", "1/16-27 NPT"] == "recalled"
    assert {
        g for (f, _, t), g in threads.items() if f == "iso6149" and t[:3] in ("M20", "M30")
    } == {"recalled"}
    assert set(rings.values()) == {"recalled"}
    assert mounts == {"recalled"}
    assert set(bores.values()) == {"recalled"}


def test_no_row_stands_twice_in_a_table() -> None:
    for name in NAMES:
        seen = [tuple(row.items()) for row in _rows(name)]

        assert len(seen) == len(set(seen)), name


def test_sources_that_disagree_are_rows_of_their_own_and_the_one_in_use_is_said() -> None:
    """The disagreements that were met (worded in the notes of the rows)."""
    bores = {
        (row["family"].split(",")[0], row["bore_mm"]): row["note"]
        for row in _rows("hose")
        if row["dash"] == "-10"
    }
    families = {row["key"]: row["note"] for row in _rows("hose_families")}
    e85 = {row["note"] for row in _rows("fitness") if row["fluid"] == "ethanol"}

    assert ("single wire braid rubber", "12.7") in bores
    assert ("race hose", "14.3") in bores
    assert "the read standard's is used" in families["rubber braided"]
    assert "the lower figure is used" in families["fuel J30R9"]
    assert "measure the bore" in families["PTFE"]
    assert any("sources disagree" in note and "the stricter is used" in note for note in e85)
