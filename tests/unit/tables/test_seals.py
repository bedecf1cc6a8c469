# SPDX-License-Identifier: Apache-2.0
"""Which ring or washer a joint takes."""

import pytest

from linewright.base.evidence import Grade
from linewright.tables.seals import seal, seals, washer
from linewright.tables.threads import thread, threads


@pytest.mark.parametrize("dash", [2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 20, 24, 28, 32])
def test_a_boss_ring_is_numbered_nine_and_the_tube_in_sixteenths(dash: int) -> None:
    found = seal("orb_unf", f"-{dash}")

    assert found is not None
    assert found.name == f"AS568-9{dash:02d}"


def test_the_number_of_a_boss_ring_is_read_and_its_diameters_are_from_memory() -> None:
    found = seal("orb_unf", "-8")

    assert found is not None
    assert found.grade is Grade.READ
    assert found.inside is not None
    assert found.inside.grade is Grade.RECALLED


def test_a_boss_ring_goes_over_the_root_of_its_thread_and_swells_past_its_crest() -> None:
    """The ring sits in the runout under the hex: between root and crest, thread of the boss."""
    for (family, size), one in threads().items():
        found = seal(family, size) if family == "orb_unf" else None
        if found is None or found.inside is None or found.section is None or one.minor is None:
            continue

        assert found.inside.value < one.major
        assert found.inside.value > 0.87 * one.minor
        assert found.inside.value + 2 * found.section.value > one.major


@pytest.mark.parametrize(
    ("size", "bore"),
    [
        ("M10x1", "10 mm bore"),
        ("M14x1.5", "14 mm bore"),
        ("M22x1.5", "22 mm bore"),
        ("G 1/2", "for G 1/2"),
        ("7/16-20", "for 7/16-20"),
    ],
)
def test_a_washer_is_named_by_the_thread_it_lets_through(size: str, bore: str) -> None:
    found = washer(size)

    assert found is not None
    assert found.name == bore


def test_a_washer_lets_its_thread_through_and_little_more() -> None:
    for (_, size), found in seals().items():
        if found.what != "washer":
            continue
        family = {"M": "metric_flat_face", "G": "bspp"}.get(size[0], "banjo")
        key = (family, size.removeprefix("G "))
        one = threads().get(key) or thread("banjo", size)
        assert found.inside is not None
        assert found.outside is not None
        slack = found.inside.value - one.major

        assert -1e-9 <= slack < 0.75e-3, size
        assert found.outside.value - found.inside.value > 3e-3, size


def test_sizes_of_washers_never_pass_for_a_standard() -> None:
    assert {s.grade for s in seals().values() if s.what == "washer"} == {Grade.RECALLED}


def test_what_the_table_has_not_is_none() -> None:
    assert seal("iso6149", "M18") is None
    assert washer("M99x1") is None
