# SPDX-License-Identifier: Apache-2.0
"""The page on how ends are written says what the reader does."""

import re
from pathlib import Path

import pytest

from linewright.base.errors import AmbiguousEndError
from linewright.ends.end import Family
from linewright.ends.notation import read, show

PAGE = Path(__file__).parents[3] / "docs" / "reference" / "ends.md"
ROWS = re.findall(
    r"^\| `(.+?)` \| (.+?) \|(?: `(.+?)` \|)?$", PAGE.read_text("utf-8"), re.MULTILINE
)
READ = [row for row in ROWS if row[2]]
OPEN = [(typed, re.findall(r"`(.+?)`", rest)) for typed, rest, kept in ROWS if not kept]


@pytest.mark.parametrize(("typed", "shown", "kept"), READ)
def test_a_row_of_the_page_is_read_and_printed_so(typed: str, shown: str, kept: str) -> None:
    end = read(typed).end

    assert str(end) == kept
    assert show(end) == shown


@pytest.mark.parametrize(("typed", "readings"), OPEN)
def test_what_the_page_leaves_open_is_left_open(typed: str, readings: list[str]) -> None:
    with pytest.raises(AmbiguousEndError) as caught:
        read(typed)

    assert [str(end) for end in caught.value.readings] == readings


def test_the_page_shows_every_family() -> None:
    assert {read(typed).end.family for typed, _, _ in READ} == set(Family)
    assert len(OPEN) >= 10
