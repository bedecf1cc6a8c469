# SPDX-License-Identifier: Apache-2.0
"""The page about the catalogue says what the catalogue has."""

import re
from pathlib import Path

from linewright.catalogue.stock import generic

PAGE = Path(__file__).parents[3] / "docs" / "reference" / "catalogue.md"


def test_every_code_on_the_page_is_in_the_catalogue() -> None:
    text = PAGE.read_text(encoding="utf-8")
    codes = re.findall(r"^\| `([a-z0-9.-]+)` \|", text, re.MULTILINE)

    assert len(codes) == 6
    assert [generic().part(code).code for code in codes] == codes


def test_the_page_counts_the_parts_to_the_nearest_fifty() -> None:
    text = PAGE.read_text(encoding="utf-8")
    said = re.search(r"About ([\d,]+) parts", text)

    assert said is not None
    assert abs(int(said[1].replace(",", "")) - len(generic())) <= 25
