# SPDX-License-Identifier: Apache-2.0
"""Coolant: bleeds; a restrictor of 1.5 to 2.5 mm is common practice."""

from tests.unit.checks.small_plans import COOLANT, about, found, line, plan, thing

BLOCK = thing("block", "engine", {"steam": "1/8 NPT female"})
HEADER = thing("header", "header tank", {"bleed": "1/4 NPT female", "fill": "-16 flare male"})


def _bleed(start: str, *more: str) -> str:
    return line("C01", start, "header.bleed", 'size = "-4"', 'hose = "rubber braided"', *more)


def test_a_steam_line_without_a_restrictor_is_warned_of() -> None:
    small = plan(COOLANT, BLOCK, HEADER, _bleed("block.steam"))

    assert about(small, "restrictor-missing") == [("C01",)]


def test_a_steam_line_with_a_restrictor_is_quiet() -> None:
    ends = "ends = [{ angle = 'straight', fit = ['restrictor 2 mm'] }, 'straight']"
    small = plan(COOLANT, BLOCK, HEADER, _bleed("block.steam", ends))

    assert found(small, "restrictor-missing") == ()


def test_a_bleed_of_the_radiator_needs_none() -> None:
    radiator = thing("radiator", "radiator", {"bleed": "1/8 NPT female"})
    small = plan(COOLANT, radiator, HEADER, _bleed("radiator.bleed"))

    assert found(small, "restrictor-missing") == ()
