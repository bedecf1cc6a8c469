# SPDX-License-Identifier: Apache-2.0
"""Codes that a person can say aloud."""

import pytest

from linewright.base.errors import CatalogueError
from linewright.catalogue.codes import LONGEST, heard
from linewright.catalogue.stock import generic


def test_every_code_reads_back_to_the_ends_of_its_part() -> None:
    wrong = [part.code for part in generic().parts if heard(part.code)[1] != part.ends]

    assert wrong == []


def test_every_code_says_its_angle_unless_the_shape_is_straight_or_a_banjo() -> None:
    unsaid = [
        part.code
        for part in generic().parts
        if part.angle
        and not part.shape.startswith("banjo")
        and str(part.angle) not in heard(part.code)[2].split("-")
    ]

    assert unsaid == []


def test_codes_are_unique_short_and_plain() -> None:
    codes = [part.code for part in generic().parts]
    plain = set("abcdefghijklmnopqrstuvwxyz0123456789-.")

    assert len(set(codes)) == len(codes)
    assert [code for code in codes if len(code) > LONGEST] == []
    assert LONGEST == 48
    assert [code for code in codes if set(code) - plain] == []


def test_a_hose_end_says_dash_family_angle_and_swivel() -> None:
    ends = generic().of_shape("hose end")
    said = {
        part.code: f"hose-end{part.ends[1].size}-{part.ends[1].kind.lower()}-"
        f"{part.angle or 'straight'}-"
        + ("full-swivel" if "full swivel" in part.traits else "fixed")
        for part in ends
    }

    assert len(ends) > 200
    assert [pair for pair in said.items() if pair[0] != pair[1]] == []


def test_a_code_with_capitals_is_refused_with_an_example() -> None:
    with pytest.raises(CatalogueError) as caught:
        heard("Adaptor NPT")

    assert str(caught.value) == (
        "part code 'Adaptor NPT': a code has lower-case letters, digits and dots between single "
        "hyphens, e.g. adaptor-npt-half-m-to-flare-10-m"
    )


def test_a_hose_end_without_its_family_is_refused() -> None:
    with pytest.raises(CatalogueError) as caught:
        heard("hose-end-10-90")

    assert str(caught.value) == (
        "part code 'hose-end-10-90': a hose end is said with dash, hose family, angle and swivel, "
        "e.g. hose-end-10-rubber-90-fixed"
    )
