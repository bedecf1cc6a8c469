# SPDX-License-Identifier: Apache-2.0
"""Fourteen calliper readings: what they may be, what they are not, and what to ask.

Right answers: cases I01 to I14, computed from the thread tables; the measuring errors
(0.15 mm, five pitches 0.1 mm) are common practice without a source.
"""

from dataclasses import dataclass

import pytest

from linewright.ends.asking import Question
from linewright.ends.end import End
from linewright.ends.identify import Identification, Measurement, identify
from linewright.ends.words import thread_of


@dataclass(frozen=True)
class Case:
    """A reading with what must be in, what must be out, and what must be asked."""

    diameter_mm: float
    is_male: bool
    taken: dict[str, float]
    in_: tuple[str, ...]
    out_threads: tuple[str, ...]
    kind: str
    asks: tuple[str, ...]
    then: tuple[str, ...] = ()
    out: tuple[str, ...] = ()


CASES = {
    "I01": Case(
        20.8,
        True,
        {"tpi": 14},
        ("bspp G 1/2 m", "bspt R 1/2 m", "npt 1/2 m"),
        ("7/8-14", "M22x1.5"),
        "taper",
        ("15 mm further back, is it 0.9 mm thicker?",),
        ("flank",),
    ),
    "I02": Case(
        26.9,
        True,
        {},
        ("flare_37 -12 m", "orb_unf -12 m", "flare_45 -12 m", "metric_flat_face M27x2 m"),
        (),
        "pitch",
        ("10.58 mm", "9.07 mm", "10.00 mm"),
        out=("npt 3/4 m", "bspp G 3/4 m"),
    ),
    "I03": Case(
        19.0,
        True,
        {"tpi": 16},
        (
            "flare_37 -8 m",
            "orb_unf -8 m",
            "flare_45 -8 m",
            "banjo 3/4-16 m",
            "spinon 3/4-16 m",
        ),
        ("M18x1.5", "M20x1.5"),
        "seat",
        (
            "cone outside at its end, 37°",
            "cone outside at its end, 45°",
            "O-ring under a hex",
            "bolt with a hole through it",
            "filter stud",
        ),
    ),
    "I04": Case(
        8.85,
        False,
        {},
        ("npt 1/8 f", "bspp G 1/8 f", "bspt Rc 1/8 f", "metric_flat_face M10x1 f"),
        ("7/16-20",),
        "pitch",
        ("4.70 mm", "4.54 mm", "5.00 mm"),
        ("taper",),
    ),
    "I05": Case(
        13.2,
        True,
        {},
        ("npt 1/4 m", "bspp G 1/4 m", "bspt R 1/4 m"),
        ("1/2-20", "M14x1.5"),
        "pitch",
        ("7.06 mm", "6.68 mm"),
        ("taper",),
    ),
    "I06": Case(
        15.8,
        True,
        {},
        ("flare_45 -6 m", "inverted_flare -6 m", "metric_flat_face M16x1.5 m"),
        ("9/16-18",),
        "pitch",
        ("7.06 mm", "7.50 mm"),
        ("seat",),
    ),
    "I07": Case(
        16.4,
        False,
        {"pitch": 0.0015},
        ("metric_flat_face M18x1.5 f", "iso6149 M18 f", "banjo M18x1.5 f"),
        ("3/4-16",),
        "seat",
        ("ridge or mark", "chamfer at the mouth", "cone inside"),
    ),
    "I08": Case(
        33.1,
        True,
        {},
        (
            "flare_37 -16 m",
            "orb_unf -16 m",
            "bspp G 1 m",
            "bspt R 1 m",
            "npt 1 m",
            "metric_flat_face M33x2 m",
        ),
        (),
        "pitch",
        ("10.58 mm", "11.55 mm", "11.04 mm", "10.00 mm"),
        out=("npt 1-1/4 m",),
    ),
    "I09": Case(
        20.6,
        False,
        {},
        ("orb_unf -10 f", "bspp G 5/8 f", "metric_flat_face M22x1.5 f"),
        ("3/4-16",),
        "pitch",
        ("9.07 mm", "7.50 mm"),
        ("plug",),
        out=("bspp G 3/4 f",),
    ),
    "I10": Case(
        14.1,
        True,
        {"tpi": 18},
        ("flare_37 -6 m", "orb_unf -6 m", "orfs -4 m", "banjo 9/16-18 m"),
        ("M14x1.5",),
        "seat",
        ("cone outside", "O-ring under a hex", "groove with an O-ring in a flat face"),
    ),
    "I11": Case(
        16.6,
        True,
        {},
        ("npt 3/8 m", "bspp G 3/8 m", "bspt R 3/8 m"),
        ("5/8-18", "11/16-16"),
        "pitch",
        ("7.06 mm", "6.68 mm"),
        ("taper",),
    ),
    "I12": Case(
        30.0,
        True,
        {"tpi": 12},
        ("flare_37 -14 m", "orb_unf -14 m", "orfs -12 m"),
        ("M30x2",),
        "seat",
        ("groove with an O-ring in a flat face",),
        out=("bspp G 7/8 m",),
    ),
    "I13": Case(
        14.2,
        True,
        {"tpi": 24},
        (),
        ("9/16-18",),
        "record",
        ("Record it as other", "what does it seal on?"),
    ),
    "I14": Case(
        11.9,
        True,
        {},
        ("bubble_flare M12x1 m", "metric_flat_face M12x1.25 m", "metric_flat_face M12x1.5 m"),
        ("1/2-20",),
        "pitch",
        ("5.00 mm", "6.25 mm", "7.50 mm"),
    ),
}


def _identified(case: Case) -> Identification:
    return identify(Measurement(case.diameter_mm / 1000, case.is_male, **case.taken))


def _all_after(question: Question) -> list[Question]:
    return [q for then in question.then for q in (then, *_all_after(then))]


@pytest.mark.parametrize("name", CASES)
def test_all_that_a_reading_may_be_is_a_candidate(name: str) -> None:
    ends = {str(end) for end in _identified(CASES[name]).ends}

    assert set(CASES[name].in_) <= ends


@pytest.mark.parametrize("name", CASES)
def test_what_a_reading_cannot_be_is_no_candidate(name: str) -> None:
    ends = _identified(CASES[name]).ends

    assert not {thread_of(end) for end in ends} & set(CASES[name].out_threads)
    assert not {str(end) for end in ends} & set(CASES[name].out)


@pytest.mark.parametrize("name", CASES)
def test_the_one_question_is_the_one_that_tells_them_apart(name: str) -> None:
    case, question = CASES[name], _identified(CASES[name]).question
    said = " ".join([question.text, *(answer for answer, _ in question.answers)])

    assert question.kind == case.kind
    assert all(words in said for words in case.asks)
    assert set(case.then) <= {later.kind for later in _all_after(question)}


@pytest.mark.parametrize("name", CASES)
def test_none_of_these_is_always_the_last_candidate(name: str) -> None:
    candidates = _identified(CASES[name]).candidates

    assert [one.is_none for one in candidates] == [False] * (len(candidates) - 1) + [True]


def test_reading_nine_is_settled_by_a_known_dash_ten() -> None:
    question = _identified(CASES["I09"]).question
    plug = next(q for q in _all_after(question) if q.kind == "plug")

    assert plug.text == "Does a known -10 flare male (7/8-14) go home by hand, without play?"


def test_reading_thirteen_has_no_candidate_but_none_of_these() -> None:
    found = _identified(CASES["I13"])

    assert found.ends == ()
    assert isinstance(found.candidates[0].end, End)
    assert str(found.candidates[0].end) == "other 14.2 mm, 24 tpi m"
