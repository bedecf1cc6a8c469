# SPDX-License-Identifier: Apache-2.0
"""Every code of a finding is explained, and raised by some test that names it."""

import re
from pathlib import Path

import pytest

from linewright.base.codes import RULES

ROOT = Path(__file__).parents[1]
PAGE = (ROOT / "docs" / "rules.md").read_text(encoding="utf-8")
SECTIONS = dict(re.findall(r"(?m)^## (\S+)\n\n((?:(?!## ).*\n?)+)", PAGE))
TESTS = {
    path: path.read_text(encoding="utf-8")
    for path in sorted((ROOT / "tests").rglob("test_*.py"))
    if path != Path(__file__)
}


@pytest.mark.parametrize("code", RULES)
def test_every_code_has_its_paragraph(code: str) -> None:
    assert len(SECTIONS.get(code, "").split()) >= 12


def test_no_paragraph_is_left_of_a_code_that_is_gone() -> None:
    assert set(SECTIONS) == set(RULES)


def test_the_paragraphs_are_in_the_order_of_the_alphabet() -> None:
    headings = re.findall(r"(?m)^## (\S+)$", PAGE)

    assert headings == sorted(headings)


@pytest.mark.parametrize("code", RULES)
def test_every_code_is_named_by_a_test(code: str) -> None:
    assert any(f'"{code}"' in text for text in TESTS.values())


@pytest.mark.parametrize("code", RULES)
def test_every_code_is_raised_somewhere_in_the_package(code: str) -> None:
    package = ROOT / "src" / "linewright"
    sources = [p for p in package.rglob("*.py") if p.name != "codes.py"]
    kinds = package / "tables" / "data" / "kinds.toml"

    assert any(f'"{code}"' in p.read_text(encoding="utf-8") for p in (*sources, kinds))
