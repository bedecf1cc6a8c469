# SPDX-License-Identifier: Apache-2.0
"""Threads by family and size, and the geometry that their figures must keep to."""

import pytest

from linewright.base.errors import TableError
from linewright.base.evidence import Grade
from linewright.ends.end import Family
from linewright.tables.load import rows
from linewright.tables.threads import Thread, thread, threads

ALL = list(threads().values())
TAPERS = [one for one in ALL if one.is_taper]
PIPES = ("npt", "nptf", "bspp", "bspt")


def _named(one: object) -> str:
    return f"{one.family} {one.size}" if isinstance(one, Thread) else str(one)


def test_no_row_of_the_table_is_lost() -> None:
    # Two families may share a designation, no two rows may share family and size.
    assert len(ALL) == len(rows("threads")) == 146


def test_families_are_those_of_the_ends() -> None:
    assert {one.family for one in ALL} <= {family.value for family in Family}


@pytest.mark.parametrize(
    ("family", "size", "designation"),
    [
        ("flare_37", "-8", "3/4-16 UNF"),
        ("flare_45", "-6", "5/8-18 UNF"),
        ("inverted_flare", "-3", "3/8-24 UNF"),
        ("orb_unf", "-12", "1-1/16-12 UN"),
        ("orfs", "-12", "1-3/16-12 UN"),
        ("npt", "1/2", "1/2-14 NPT"),
        ("bspp", "G 1/2", "G 1/2-14"),
        ("bspp", "1/2", "G 1/2-14"),
        ("bspt", "R 1/4", "R 1/4-19"),
        ("bspt", "Rc 1/4", "R 1/4-19"),
        ("bspt", "Rp 1/4", "R 1/4-19"),
        ("iso6149", "M18", "M18x1.5"),
        ("metric_flat_face", "M18x1.5", "M18x1.5"),
        ("bubble_flare", "M10x1", "M10x1"),
        ("banjo", "M14x1.5", "M14x1.5"),
        ("banjo", "7/16-20", "7/16-20 UNF"),
        ("banjo", "G 1/4", "G 1/4-19"),
    ],
)
def test_a_thread_is_found_by_the_size_of_its_end(family: str, size: str, designation: str) -> None:
    assert thread(family, size).designation == designation


def test_a_thread_that_is_not_made_is_named() -> None:
    with pytest.raises(TableError) as caught:
        thread("npt", "5/8")

    assert str(caught.value) == "There is no thread npt 5/8 in threads.csv."


@pytest.mark.parametrize("one", [t for t in ALL if t.tpi], ids=_named)
def test_threads_to_the_inch_and_pitch_agree(one: Thread) -> None:
    # tpi times pitch is an inch; pitches are printed to a micrometre.
    assert one.tpi is not None
    assert one.pitch == pytest.approx(25.4e-3 / one.tpi, abs=0.51e-6)


@pytest.mark.parametrize("one", [t for t in ALL if t.family in PIPES], ids=_named)
def test_pipe_threads_are_counted_to_the_inch(one: Thread) -> None:
    assert one.tpi is not None


@pytest.mark.parametrize("one", ALL, ids=_named)
def test_a_designation_says_what_the_thread_measures(one: Thread) -> None:
    name = one.designation.split(" UN")[0].removeprefix("G ").removeprefix("R ").split(" NPT")[0]
    if name.startswith("M"):
        diameter, _, pitch = name[1:].partition("x")

        assert one.major == pytest.approx(float(diameter) / 1000)
        assert one.pitch == pytest.approx(float(pitch) / 1000)
        return
    head, _, tpi = name.rpartition("-")

    assert one.tpi == pytest.approx(float(tpi))
    if one.family not in PIPES and not one.designation.startswith("G"):
        assert one.major == pytest.approx(_inches(head) * 0.0254, abs=0.51e-6)


def _inches(text: str) -> float:
    whole, _, part = text.rpartition("-") if "/" in text else (text, "", "0/1")
    over, _, under = part.partition("/")
    return float(whole or 0) + float(over) / float(under)


@pytest.mark.parametrize("one", ALL, ids=_named)
def test_a_thread_has_a_core_inside_its_crest(one: Thread) -> None:
    assert one.minor is not None
    assert 0.55 * one.major < one.minor < one.major
    assert one.major - one.minor < 2 * one.pitch


@pytest.mark.parametrize("one", ALL, ids=_named)
def test_only_a_taper_has_a_tip_and_it_is_under_the_major(one: Thread) -> None:
    assert one.is_taper is (one.family in ("npt", "nptf", "bspt"))
    assert (one.tip is not None) is one.is_taper
    assert one.tip is None or one.tip < one.major


@pytest.mark.parametrize(
    ("size", "tip_mm"), [("1/8", 9.986), ("1/4", 13.255), ("3/8", 16.674), ("1/2", 20.716)]
)
def test_npt_reads_small_at_its_tip(size: str, tip_mm: float) -> None:
    # From figures of ASME B1.20.1; 1/4 is 13.72 mm by name and 13.26 mm at the tip.
    found = thread("npt", size).tip

    assert found == pytest.approx(tip_mm / 1000, abs=1e-6)


@pytest.mark.parametrize("one", [t for t in ALL if t.family == "npt"], ids=_named)
def test_nptf_is_cut_like_npt(one: Thread) -> None:
    dry = thread("nptf", one.size)

    assert (dry.major, dry.minor, dry.tip, dry.pitch) == (one.major, one.minor, one.tip, one.pitch)


@pytest.mark.parametrize("one", [t for t in ALL if t.family == "bspt"], ids=_named)
def test_r_and_g_threads_of_a_size_are_equal_at_the_gauge_plane(one: Thread) -> None:
    parallel = thread("bspp", one.size)

    assert (one.major, one.minor, one.pitch) == (parallel.major, parallel.minor, parallel.pitch)


@pytest.mark.parametrize("dash", ["-2", "-3", "-4", "-5", "-6", "-8", "-10", "-12", "-16", "-20"])
def test_boss_and_37_degree_flare_share_the_thread_of_a_dash(dash: str) -> None:
    # The commonest trap: equal threads, other seats.
    assert thread("orb_unf", dash).designation == thread("flare_37", dash).designation


@pytest.mark.parametrize(
    ("male", "female", "gap_mm"),
    [
        # What callipers cannot tell: M27x2 and 1-1/16-12, M33x2 and 1-5/16-12 and G 1.
        (("iso6149", "M27"), ("orb_unf", "-12"), 0.012),
        (("iso6149", "M33"), ("orb_unf", "-16"), -0.338),
        (("iso6149", "M33"), ("bspp", "1"), -0.249),
    ],
)
def test_some_threads_of_two_standards_are_equal_to_callipers(
    male: tuple[str, str], female: tuple[str, str], gap_mm: float
) -> None:
    gap = thread(*male).major - thread(*female).major

    assert gap == pytest.approx(gap_mm / 1000, abs=1.1e-6)


def test_sizes_from_memory_say_so() -> None:
    graded = {(one.family, one.size): one.grade for one in ALL}

    assert graded["npt", "1/16"] is Grade.RECALLED
    assert graded["iso6149", "M20"] is Grade.RECALLED
    assert graded["flare_37", "-8"] is Grade.READ
    assert graded["bspp", "1/4"] is Grade.RELAYED
