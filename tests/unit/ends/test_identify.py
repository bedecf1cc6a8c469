# SPDX-License-Identifier: Apache-2.0
"""Readings of callipers: ranked, never a single guess, and every question narrows."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.base.errors import EndError
from linewright.ends.asking import Question, in_short
from linewright.ends.end import End, Gender
from linewright.ends.identify import Measurement, Origin, identify
from linewright.ends.sizes import Made, made
from linewright.ends.windows import allowance, pitch_of, span
from linewright.ends.words import show

THREADED = [one for one in made() if one.pitch and one.family.value != "nptf"]


def _ends_left(question: Question) -> set[End]:
    return {end for _, group in question.answers for end in group}


@settings(max_examples=150, deadline=None)
@given(
    st.sampled_from(THREADED),
    st.booleans(),
    st.floats(0, 1),
    st.floats(-1, 1),
    st.floats(-1, 1),
    st.booleans(),
    st.sampled_from(list(Origin)),
)
def test_a_sound_end_read_within_the_error_is_a_candidate(
    one: Made,
    is_male: bool,
    place: float,
    off: float,
    wrong: float,
    is_pitch_taken: bool,
    origin: Origin,
) -> None:
    low, high = span(one, is_male)
    diameter = low + place * (high - low) + off * allowance("calliper error")
    pitch = (pitch_of(one) or 0.0) + wrong * allowance("five pitches error") / 5
    measured = Measurement(
        diameter, is_male, pitch=pitch if is_pitch_taken else None, origin=origin
    )
    found = identify(measured)

    assert any(end.family is one.family and one.size in end.size for end in found.ends)
    assert found.candidates[-1].is_none
    assert all(0 < candidate.fit <= 1 for candidate in found.candidates)


@settings(max_examples=150, deadline=None)
@given(st.floats(0.004, 0.062), st.booleans(), st.booleans())
def test_every_answer_leaves_fewer_ends_until_one_is_left(
    diameter: float, is_male: bool, is_tube: bool
) -> None:
    found = identify(Measurement(diameter, is_male, is_tube=is_tube))
    asked = [found.question]

    if found.ends:
        assert _ends_left(found.question) == set(found.ends)
    while asked:
        question = asked.pop()
        groups = [group for _, group in question.answers]
        assert question.kind in ("confirm", "record") or len(groups) > 1
        assert len(in_short(question)) > 20
        several = [group for group in groups if len(group) > 1]
        if question.kind != "seat":
            assert [_ends_left(then) for then in question.then] == [set(g) for g in several]
        asked += question.then


def test_the_origin_of_a_part_shifts_ranks_and_removes_nothing() -> None:
    sender = Measurement(0.0096, is_male=True)
    at_home = identify(sender)
    lists = {origin: identify(replace(sender, origin=origin)).ends for origin in Origin if origin}

    assert all(set(ends) == set(at_home.ends) for ends in lists.values())
    assert show(lists[Origin.JAPAN][0]) == "R 1/8 male"
    assert show(lists[Origin.BRITAIN][0]) == "G 1/8 male"


def test_a_north_american_sender_is_first_taken_for_npt() -> None:
    sender = Measurement(0.0101, is_male=True, origin=Origin.NORTH_AMERICA)

    assert show(identify(sender).ends[0]) == "1/8 NPT male"


def test_a_seat_in_words_ranks_its_end_first_and_removes_nothing() -> None:
    bare = Measurement(0.0190, is_male=True, tpi=16)
    plain = identify(replace(bare, seat="O-ring under a hex"))

    assert set(plain.ends) == set(identify(bare).ends)
    assert show(plain.ends[0]) == "-8 ORB male"
    assert plain.question.kind == "confirm"
    assert plain.question.text == (
        "Only -8 ORB male measures so, unless it is none of these. Does a known part of that size"
        " go home on it by hand: -8 ORB female?"
    )


def test_a_taper_that_was_felt_rules_straight_threads_out() -> None:
    found = identify(Measurement(0.0132, is_male=True, taper=True))

    assert [show(end) for end in found.ends] == ["1/4 NPT male", "R 1/4 male"]
    assert [answer for answer, _ in found.question.answers] == ["7.06 mm", "6.68 mm"]


def test_a_tube_is_told_by_its_outside() -> None:
    found = identify(Measurement(0.0095, is_male=True, is_tube=True))

    assert [show(end) for end in found.ends[:2]] == ["3/8 quick connector male", "-6 tube"]
    assert found.question.kind == "seat"


def test_a_candidate_says_why_it_is_one() -> None:
    found = identify(Measurement(0.0101, is_male=True))
    npt = next(one for one in found.candidates if show(one.end) == "1/8 NPT male")

    assert npt.why == (
        "1/8-27: outside 9.99 to 10.29 mm from tip to large end (a table prints 10.4), five"
        " pitches 4.70 mm, NPTF measures the same"
    )


def test_iso_228_limits_are_inside_what_is_expected_of_g_quarter() -> None:
    # Male 12.907 to 13.157 mm, female bore 11.445 to 11.890 mm: ISO 228-1 limits as a table
    # copied from the standard prints them.
    g = next(one for one in made() if (one.family.value, one.size) == ("bspp", "1/4"))
    error = allowance("calliper error")
    male, female = span(g, is_male=True), span(g, is_male=False)

    assert male[0] - error <= 0.012907
    assert male[1] + error >= 0.013157
    assert female[0] - error <= 0.011445
    assert female[1] + error >= 0.011890


@pytest.mark.parametrize("diameter", [0.0, -0.01, float("nan"), float("inf"), 19.0])
def test_a_diameter_that_no_end_has_is_refused(diameter: float) -> None:
    with pytest.raises(EndError) as caught:
        identify(Measurement(diameter, is_male=True))

    assert str(caught.value) == (
        f"a diameter of {diameter * 1000:g} mm is outside what ends have, 2 to 200 mm. Check the"
        " unit and measure again."
    )


def test_the_length_of_five_typed_as_one_pitch_is_refused() -> None:
    with pytest.raises(EndError) as caught:
        identify(Measurement(0.0180, is_male=True, pitch=0.0075))

    assert str(caught.value) == (
        "a pitch of 7.5 mm is outside what threads of ends have, 0.3 to 5 mm. Measure the length"
        " of five pitches and divide by five, or count threads per inch."
    )


def test_an_unmeasured_gender_is_that_of_the_reading() -> None:
    found = identify(Measurement(0.0164, is_male=False, pitch=0.0015))

    assert {end.gender for end in found.ends} == {Gender.FEMALE}
