# SPDX-License-Identifier: Apache-2.0
"""Clips, clamps and hardware are chosen by what they go round or on."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linewright.catalogue.stock import generic
from linewright.catalogue.sundries import clamp_for, clamps, clip_for, hardware_for


@pytest.mark.parametrize(
    ("outside_mm", "code"),
    [(22.9, "p-clip-lined-23"), (14.1, "p-clip-lined-15"), (17.2, "p-clip-lined-18")],
)
def test_a_clip_is_never_smaller_than_its_hose(outside_mm: float, code: str) -> None:
    clip = clip_for(outside_mm / 1000)

    assert clip is not None
    assert clip.code == code


def test_a_hose_thicker_than_every_clip_has_none() -> None:
    assert clip_for(0.2) is None


@given(st.floats(0.002, 0.150))
def test_a_clamp_holds_what_it_is_chosen_for(outside: float) -> None:
    for kind in ("t-bolt", "worm", "fuel"):
        chosen = clamp_for(kind, outside)
        held = [c for c in clamps() if c.kind == kind and c.low <= outside <= c.high]

        if chosen is None:
            assert held == []
        else:
            assert chosen in [c.part for c in held] or any(
                min(abs(c.low - outside), abs(c.high - outside)) < 1e-8 for c in clamps()
            )


@pytest.mark.parametrize("outside_mm", [61.0, 73.5])
def test_boost_couplers_have_t_bolt_clamps(outside_mm: float) -> None:
    # Case J24: bores 51 and 63.5 with walls of 5 mm [common practice].
    assert clamp_for("t-bolt", outside_mm / 1000) is not None


@pytest.mark.parametrize("outside_mm", [48.0, 42.0])
def test_radiator_hoses_have_worm_clamps(outside_mm: float) -> None:
    # Case J21: bores 38 and 32 with walls of 5 mm [common practice].
    assert clamp_for("worm", outside_mm / 1000) is not None


def test_hardware_that_a_joint_asks_for_is_in_the_catalogue() -> None:
    for what, sizes in (
        ("nut", "-3 -4 -6 -8 -10 -12 -16"),
        ("panel washer", "-3 -4 -6 -8 -10 -12 -16"),
        ("olive", "-4 -6 -8 -10 -12 -16"),
        ("lock nut", "-6 -8 -10 -12 -16"),
        ("banjo bolt", "M10x1 M12x1.25 M12x1.5 M14x1.5 M16x1.5 M18x1.5 3/8-24 7/16-20"),
        ("bolt", "2-bolt 38"),
        ("v-band clamp", "76 mm"),
    ):
        for size in [sizes] if what in ("bolt", "v-band clamp") else sizes.split():
            found = hardware_for(what, size)

            assert found is not None, (what, size)
            assert generic().part(found.code) == found


def test_every_banjo_in_the_catalogue_has_its_bolt() -> None:
    eyes = [part for part in generic().parts if part.shape.startswith("banjo ") and part.ends]

    assert len(eyes) > 30
    assert [p.code for p in eyes if hardware_for("banjo bolt", p.ends[0].size) is None] == []


def test_a_seal_is_no_hardware() -> None:
    assert hardware_for("o-ring", "AS568-908") is None
