# SPDX-License-Identifier: Apache-2.0
"""The labelled supplier descriptions are whole: labels that exist, no row twice, styles enough."""

import csv
import re
from collections import Counter
from pathlib import Path

import pytest

from linewright.catalogue.stock import generic
from linewright.tables.hoses import FAMILIES, size
from linewright.tables.seals import seals

_DATA = Path(__file__).parents[2] / "data" / "offers"
_ROWS = {"labelled_a": 170, "labelled_b": 170, "labelled_c": 160, "labelled_d": 120}
_SETS = tuple(_ROWS)
_NEAR = {"near_misses": 70, "near_misses_c": 30, "near_misses_d": 25}
_RUBBERS = ("NBR", "FKM", "EPDM", "HNBR")
_RING = re.compile(rf"O-ring (.+), (?:{'|'.join(_RUBBERS)})")
_WASHER = re.compile(
    rf"washer (.+ bore), aluminium|washer (for .+), bonded, (?:{'|'.join(_RUBBERS)})"
)
_ISO = "per ISO 6149-2, "
_HOSE = re.compile(r"(?:hose (-?\d+)( mm)? (.+)|(tube) (-\d+) (.+)|(pipe) (\d+) mm (.+))")
_PACK = re.compile(r"[1-9]\d*|per (?:m|ft)|[1-9]\d* (?:m|ft)")


def _rows(name: str) -> list[dict[str, str]]:
    with (_DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _all() -> list[dict[str, str]]:
    return [row for name in _SETS for row in _rows(name)]


def _hose(found: re.Match[str]) -> tuple[str, str]:
    """Key of the family, and the size, as the takeoff writes them the other way round."""
    if found[4] or found[7]:
        return f"{found[4] or found[7]} {found[6] or found[9]}", found[5] or found[8]
    return found[3], found[1]


def _exists(label: str) -> bool:
    """Whether a label names a generic part, a size of a hose family, or a seal of the tables."""
    if label in {part.code for part in generic().parts}:
        return True
    if hose := _HOSE.fullmatch(label):
        family, dash = _hose(hose)
        if family not in FAMILIES:
            return False
        if dash.startswith("-") != (FAMILIES[family].construction == "hose"):
            return False
        if dash.startswith("-") == bool(hose[2] or hose[7]):
            return False
        size(family, dash)  # raises for a size that the family is not made in
        return True
    names = {(seal.what, seal.name) for seal in seals().values()}
    if ring := _RING.fullmatch(label):
        name = ring[1]
        if name.startswith(_ISO):
            threads = {end.size for p in generic().parts for end in p.ends if "iso6149" in str(end)}
            return name.removeprefix(_ISO) in threads
        return ("o-ring", name) in names or ("face o-ring", name) in names
    if washer := _WASHER.fullmatch(label):
        return ("washer", washer[1] or washer[2]) in names
    return False


@pytest.mark.parametrize("name", _SETS)
def test_every_label_is_a_part_a_hose_a_seal_none_or_several_of_them(name: str) -> None:
    wrong = []
    for row in _rows(name):
        label = row["label"]
        several = label.removeprefix("ambiguous: ").split("|")
        is_counted_right = len(set(several)) == len(several) and (
            len(several) > 1 if label.startswith("ambiguous: ") else len(several) == 1
        )
        if label != "none" and not (is_counted_right and all(map(_exists, several))):
            wrong.append((row["id"], label))

    assert wrong == []


@pytest.mark.parametrize(
    "label",
    [
        "adaptor-npt-half-m-to-flare-11-m",
        "hose 10 rubber braided",
        "hose -38 silicone",
        "hose 38 silicone",
        "hose -10 woven",
        "O-ring AS568-908",
        "O-ring AS568-907, FKM",
        "O-ring per ISO 6149-2, M17, FKM",
        "washer 18 mm bore, copper",
        "washer 18 mm bore, bonded, FKM",
    ],
)
def test_a_label_that_nothing_has_is_found_out(label: str) -> None:
    assert not _exists(label)


def test_ids_and_supplier_numbers_are_unique_over_all_sets() -> None:
    rows = _all()

    assert len({row["id"] for row in rows}) == len(rows)
    assert len({row["supplier_number"] for row in rows}) == len(rows)


def test_no_description_comes_twice_not_even_in_other_spelling() -> None:
    bare = Counter(re.sub(r"\W+", " ", row["description"].lower()).strip() for row in _all())

    assert [text for text, times in bare.items() if times > 1] == []


@pytest.mark.parametrize("name", _SETS)
def test_each_set_has_the_rows_and_the_doubtful_ones_that_it_is_meant_to_have(name: str) -> None:
    labels = [row["label"] for row in _rows(name)]

    assert len(labels) == _ROWS[name]
    assert labels.count("none") >= 12
    assert sum(label.startswith("ambiguous: ") for label in labels) >= 8


@pytest.mark.parametrize("name", _SETS)
def test_each_set_is_written_in_at_least_six_styles_of_ten_rows(name: str) -> None:
    styles = Counter(row["style"] for row in _rows(name))

    assert sum(rows >= 10 for rows in styles.values()) >= 6


def test_the_sets_together_spread_over_shapes_and_hose_families() -> None:
    labels = {row["label"] for row in _all()}
    shapes = {part.shape for part in generic().parts if part.code in labels}
    families = {_hose(hose)[0] for label in labels if (hose := _HOSE.fullmatch(label))}

    assert len(shapes) >= 40
    assert len(families) >= 15


@pytest.mark.parametrize(
    ("name", "least_shapes", "least_families"),
    [("labelled_c", 40, 12), ("labelled_d", 30, 10)],  # D holds what is sold often
)
def test_each_set_measured_once_spreads_over_shapes_and_hose_families(
    name: str, least_shapes: int, least_families: int
) -> None:
    labels = {row["label"] for row in _rows(name)}
    shapes = {part.shape for part in generic().parts if part.code in labels}
    families = {_hose(hose)[0] for label in labels if (hose := _HOSE.fullmatch(label))}

    assert len(shapes) >= least_shapes
    assert len(families) >= least_families


def test_every_pack_is_a_number_of_pieces_or_a_length() -> None:
    wrong = [row["id"] for row in _all() if not _PACK.fullmatch(row["pack"])]

    assert wrong == []


@pytest.mark.parametrize("name", _NEAR)
def test_the_near_misses_name_a_wanted_part_and_why_it_is_not_that(name: str) -> None:
    rows = _rows(name)

    assert len({row["id"] for row in rows}) == len(rows) >= _NEAR[name]
    assert [row["id"] for row in rows if not _exists(row["wanted"])] == []
    assert [row["id"] for row in rows if row["is_match"] not in ("no", "ask")] == []
    assert [row["id"] for row in rows if not row["why"] or not row["description"]] == []


def test_no_near_miss_comes_twice_in_any_file() -> None:
    rows = [row for name in _NEAR for row in _rows(name)]
    pairs = {(row["wanted"], row["description"].lower()) for row in rows}

    assert len({row["id"] for row in rows}) == len(rows)
    assert len(pairs) == len(rows)


def test_no_near_miss_stands_in_a_labelled_set_under_the_wanted_label() -> None:
    known = {row["description"].lower(): row["label"] for row in _all()}
    clash = [
        row["id"]
        for name in _NEAR
        for row in _rows(name)
        if known.get(row["description"].lower()) == row["wanted"]
    ]

    assert clash == []
