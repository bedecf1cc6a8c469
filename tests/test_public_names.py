# SPDX-License-Identifier: Apache-2.0
"""The public names are there, complete, and not used from inside."""

import re
from pathlib import Path

import pytest

import linewright

SRC = Path(__file__).parent.parent / "src" / "linewright"


@pytest.mark.parametrize("name", linewright.__all__)
def test_a_public_name_loads_from_its_home(name: str) -> None:
    assert getattr(linewright, name).__module__ == linewright._HOMES[name]


def test_the_list_of_names_is_the_list_of_homes() -> None:
    assert sorted(linewright._HOMES) == sorted(linewright.__all__)


def test_another_name_is_refused() -> None:
    with pytest.raises(AttributeError, match="module 'linewright' has no attribute 'valve'"):
        _ = linewright.valve


def test_no_module_inside_imports_the_public_names() -> None:
    insiders = [
        path.name
        for path in SRC.rglob("*.py")
        if re.search(r"^(from linewright import|import linewright$)", path.read_text("utf-8"), re.M)
    ]

    assert insiders == []
