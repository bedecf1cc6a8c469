# SPDX-License-Identifier: Apache-2.0
"""Rows of the shipped tables as text, sources by key."""

from pathlib import Path

import pytest

from linewright.base.errors import TableError
from linewright.tables import load
from linewright.tables.load import rows, sources


def test_rows_come_as_text_in_the_order_of_the_table() -> None:
    flats = rows("nut_flats")

    assert [row["dash"] for row in flats] == ["-4", "-6", "-8", "-10", "-12", "-16"]
    assert flats[0]["flats_mm"] == "14.3"


def test_a_table_is_read_once() -> None:
    assert rows("threads") is rows("threads")


def test_a_table_that_is_not_shipped_is_named() -> None:
    with pytest.raises(TableError) as caught:
        rows("nuts")

    assert str(caught.value) == "There is no table nuts.csv among the shipped tables."


@pytest.mark.parametrize("line", ["1,2", "1,2,3,4"])
def test_a_row_of_another_width_than_its_heading_is_named(
    line: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "data").mkdir()
    (tmp_path / "data" / "odd.csv").write_text(f"a,b,c\n1,2,3\n{line}\n", encoding="utf-8")
    monkeypatch.setattr(load, "files", lambda _: tmp_path)

    with pytest.raises(TableError) as caught:
        rows("odd")

    assert str(caught.value) == "odd.csv, line 3: cells and headings differ in number."


def test_a_source_is_found_by_its_key() -> None:
    source = sources()["faa-ac-43-13-1b"]

    assert source.key == "faa-ac-43-13-1b"
    assert source.title == "FAA AC 43.13-1B, Acceptable Methods, Techniques, and Practices"
    assert source.kind == "government manual"


def test_the_sources_cannot_be_changed() -> None:
    with pytest.raises(TypeError):
        sources()["new"] = sources()["14-cfr"]  # type: ignore[index]
