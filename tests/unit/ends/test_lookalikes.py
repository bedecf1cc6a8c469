# SPDX-License-Identifier: Apache-2.0
"""Threads that run together: geometry against the table of look-alikes, and its rules."""

import pytest

from linewright.base.evidence import Grade
from linewright.ends.end import End, Family, Gender
from linewright.ends.lookalikes import (
    LEAST_OVERLAP,
    PITCH_OVER_FIVE,
    hazard_between,
    lookalikes,
    overlap,
    pitch_error,
)
from linewright.ends.sizes import Made, made
from linewright.tables.load import rows, sources

M, F = Gender.MALE, Gender.FEMALE

#: Family words of the table of look-alikes that differ from those of the ends.
_FAMILIES = {"metric_bubble_flare": "bubble_flare", "banjo_metric": "banjo"}


def _made(family: str, thread: str) -> Made:
    bare = thread.split(" UN")[0].split(" NPT")[0].removeprefix("G ").removeprefix("R ")
    (found,) = [
        one for one in made() if one.family == _FAMILIES.get(family, family) and one.thread == bare
    ]
    return found


PAIRS = [
    pytest.param(row, id=f"{row['male_family']} {row['male_thread']} in {row['female_family']}")
    for row in rows("lookalikes")
]


@pytest.mark.parametrize("row", PAIRS)
def test_the_printed_geometry_of_a_pair_follows_from_the_thread_table(row: dict[str, str]) -> None:
    male = _made(row["male_family"], row["male_thread"])
    female = _made(row["female_family"], row["female_thread"])
    assert female.minor is not None
    assert female.pitch is not None
    gap = (male.major - female.major) * 1000
    # The table reckons the depth of the female as 1.0825 pitches, also for 55 degree threads.
    reach = 100 * (male.major - female.minor) / (1.082532 * female.pitch)

    assert float(row["male_major_mm"]) == pytest.approx(male.major * 1000, abs=5e-4)
    assert float(row["female_minor_mm"]) == pytest.approx(female.minor * 1000, abs=5e-4)
    assert float(row["diameter_gap_mm"]) == pytest.approx(gap, abs=1.1e-3)
    assert float(row["radial_thread_overlap_pct"]) == pytest.approx(reach, abs=0.6)
    assert float(row["pitch_error_over_5_turns_mm"]) == pytest.approx(
        (pitch_error(male, female) or 0.0) * 1000, abs=6e-3
    )
    likes = lookalikes(End(male.family, male.size, M))
    is_same = {(x.family, x.size): x.is_same_thread for x in likes}
    # One thread with two seats is no pair of its own here: see the traps of the matings.
    if (male.family, male.size) != (female.family, female.size):
        assert is_same.get((female.family, female.size), False) is (row["same_thread"] == "yes")


@pytest.mark.parametrize("row", PAIRS)
def test_a_told_pair_is_a_look_alike_in_the_words_of_the_table(row: dict[str, str]) -> None:
    male = _made(row["male_family"], row["male_thread"])
    female = _made(row["female_family"], row["female_thread"])
    hazard = hazard_between(End(male.family, male.size, M), End(female.family, female.size, F))

    if row["hazard"].startswith("drops in loose"):
        assert hazard is None, "a size that drops through does not engage"
    else:
        assert hazard is not None
        assert (hazard.text, hazard.source) == (row["hazard"], row["source"])
        assert hazard.grade is Grade(row["grade"])


def test_geometry_alone_finds_the_told_pairs_that_run_smoothly() -> None:
    """Told pairs within five turns' pitch error are found without the table's word."""
    missed = []
    for row in rows("lookalikes"):
        male = _made(row["male_family"], row["male_thread"])
        female = _made(row["female_family"], row["female_thread"])
        error, reach = pitch_error(male, female), overlap(male, female)
        assert error is not None
        assert reach is not None
        is_smooth = abs(float(row["pitch_error_over_5_turns_mm"])) <= 0.6
        is_engaged = float(row["radial_thread_overlap_pct"]) >= 35
        found = abs(error) <= PITCH_OVER_FIVE and reach >= LEAST_OVERLAP
        if is_smooth and is_engaged and not found:
            missed.append((row["male_thread"], row["female_thread"], reach))

    assert missed == []


def test_a_filter_stud_is_taken_for_every_three_quarter_sixteen() -> None:
    same = {
        f"{x.family} {x.size}"
        for x in lookalikes(End(Family.SPINON, "3/4-16", M))
        if x.is_same_thread
    }

    assert same == {"flare_37 -8", "flare_45 -8", "orb_unf -8", "banjo 3/4-16"}


def test_equal_threads_stand_before_near_ones() -> None:
    found = lookalikes(End(Family.METRIC_FLAT_FACE, "M18x1.5", F))
    order = [x.is_same_thread for x in found]

    assert order == sorted(order, reverse=True)
    assert found[0].size in ("M18", "M18x1.5")


def test_a_look_alike_is_no_better_known_than_its_two_threads() -> None:
    # 1/16 NPT is from memory in the thread table.
    found = lookalikes(End(Family.NPT, "1/16", M))

    assert found
    assert {x.grade for x in found} == {Grade.RECALLED}


def test_every_look_alike_names_a_source_that_is_known() -> None:
    named = {
        like.source
        for one in made()
        for gender in (M, F)
        for like in lookalikes(End(one.family, one.size, gender))
    }

    assert "threads-table" in named
    assert named <= sources().keys()


def test_what_runs_in_does_so_from_either_side() -> None:
    for one in made():
        for like in lookalikes(End(one.family, one.size, M)):
            back = lookalikes(End(like.family, like.size, F))

            assert (one.family, one.size) in {(x.family, x.size) for x in back}


def test_an_end_without_a_thread_has_no_look_alikes() -> None:
    assert lookalikes(End(Family.BEAD, "38", M)) == ()
    assert lookalikes(End(Family.UNKNOWN, "")) == ()


def test_a_name_that_two_standards_share_is_not_one_thread() -> None:
    """7/8-14 is a thread of 22.2 mm to a flare and a pipe thread of 30.2 mm to ISO 228."""
    likes = lookalikes(End(Family.ORB_UNF, "-10", F))
    tapers = [x for x in lookalikes(End(Family.NPT, "1/2", M)) if x.family is Family.BSPT]

    assert (Family.BSPP, "7/8") not in {(x.family, x.size) for x in likes}
    assert [x.is_same_thread for x in tapers] == [False]
