# SPDX-License-Identifier: Apache-2.0
"""The one test that separates the first candidates of a reading, and the answers it may give."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from linewright.ends.end import End, Family, Gender
from linewright.ends.sizes import Made, find
from linewright.ends.telling import five_pitches, listed
from linewright.ends.windows import Measurement, pitch_of
from linewright.ends.words import look, show

_TAPERS = (Family.NPT, Family.BSPT)
_BRITISH = (Family.BSPP, Family.BSPT)


@dataclass(frozen=True, slots=True)
class Question:
    """A test, in words, with the answers it may give and the ends that each leaves.

    ``kind`` is one of: pitch, taper, flank, plug, seat, confirm, record. ``then`` are the
    tests that follow for those answers that leave several ends.
    """

    kind: str
    text: str
    answers: tuple[tuple[str, tuple[End, ...]], ...] = ()
    then: tuple["Question", ...] = ()


def next_question(ends: Sequence[End], measured: Measurement) -> Question:
    """Choose the test to make next.

    Parameters
    ----------
    ends : Sequence of End
        The candidates, best first.
    measured : Measurement
        What has been taken already; it is not asked again.

    Returns
    -------
    Question
        The cheapest test that separates the best candidate from others: pitch, taper,
        flank or known plug, seat. Every answer leaves fewer ends than there were.
    """
    if not ends:
        return Question(
            "record",
            "Nothing in the tables measures so. Record it as other, with its thread: what does it"
            " seal on?",
        )
    if len(ends) == 1:
        return Question(
            "confirm",
            f"Only {show(ends[0])} measures so, unless it is none of these. Does a known part of"
            f" that size go home on it by hand: {_mate(ends[0])}?",
            (("yes", tuple(ends)), ("no", ())),
        )
    for test in (_pitch, _taper, _flank, _plug):
        asked = test(ends, measured)
        if asked is not None:
            return asked
    return _seat(ends)


def _mate(end: End) -> str:
    other = Gender.FEMALE if end.gender is Gender.MALE else Gender.MALE
    if end.gender is Gender.NONE or end.family in (Family.BEAD, Family.BARB):
        return "a hose or sleeve of that size"
    size = end.size
    if end.family is Family.BSPT:
        size = f"{'Rc' if other is Gender.FEMALE else 'R'} {size.split()[-1]}"
    return show(replace(end, gender=other, size=size))


def _grouped(
    ends: Sequence[End], name: Callable[[End], str]
) -> tuple[tuple[str, tuple[End, ...]], ...]:
    groups: dict[str, list[End]] = {}
    for end in ends:
        groups.setdefault(name(end), []).append(end)
    return tuple((answer, tuple(group)) for answer, group in groups.items())


def _then(
    answers: Sequence[tuple[str, tuple[End, ...]]], measured: Callable[[str], Measurement]
) -> tuple[Question, ...]:
    return tuple(
        next_question(group, measured(answer)) for answer, group in answers if len(group) > 1
    )


def _row(end: End) -> Made | None:
    return find(end.family, end.size)


def _pitch(ends: Sequence[End], measured: Measurement) -> Question | None:
    if measured.step is not None or measured.is_tube:
        return None

    def length(end: End) -> str:
        row = _row(end)
        return f"{five_pitches(row)} mm" if row else "no thread"

    answers = _grouped(ends, length)
    if len(answers) < 2:
        return None
    known = {answer: pitch_of(row) for answer, group in answers if (row := _row(group[0]))}
    then = _then(answers, lambda answer: replace(measured, pitch=known[answer]))
    return Question("pitch", "How long are five pitches?", answers, then)


def _taper(ends: Sequence[End], measured: Measurement) -> Question | None:
    if measured.taper is not None or measured.is_tube:
        return None
    answers = _grouped(ends, lambda end: "yes" if end.family in _TAPERS else "no")
    if len(answers) < 2:
        return None
    answers = tuple(sorted(answers, key=lambda one: one[0], reverse=True))
    then = _then(answers, lambda answer: replace(measured, taper=answer == "yes"))
    row = next(r for r in map(_row, ends) if r is not None)
    back = round(8 * (pitch_of(row) or 0.0) * 1000)  # eight threads: as long as a pipe thread is
    if measured.is_male:
        # Taper threads grow 1 in 16 on the diameter (ASME B1.20.1, ISO 7-1).
        text = f"{back} mm further back, is it {back / 16:.1f} mm thicker?"
    else:
        text = (
            f"Is the hole tapered: {back} mm deeper, is it {back / 16:.1f} mm narrower, and does a"
            " parallel plug bind after three or four turns?"
        )
    return Question("taper", text, answers, then)


def _flank(ends: Sequence[End], measured: Measurement) -> Question | None:
    is_taper = all(end.family in _TAPERS for end in ends)
    if measured.is_tube or not (is_taper or measured.is_male):
        return None
    answers = _grouped(ends, lambda end: "55°" if _is_british(end) else "60°")
    if len(answers) < 2:
        return None
    then = _then(answers, lambda _: measured)
    text = "Against the light with a thread gauge: is the flank angle 55° or 60°?"
    return Question("flank", text, answers, then)


def _is_british(end: End) -> bool:
    return end.family in _BRITISH or (end.family is Family.BANJO and end.size.startswith("G"))


def _thread(end: End) -> str:
    row = _row(end)
    letter = "G " if _is_british(end) else ""
    return letter + row.thread if row else end.size


def _plug(ends: Sequence[End], measured: Measurement) -> Question | None:
    if measured.is_tube:
        return None
    groups = _grouped(ends, _thread)
    if len(groups) < 2:
        return None
    answers = (("yes", groups[0][1]), ("no", tuple(e for _, group in groups[1:] for e in group)))
    known = f"{_mate(groups[0][1][0])} ({groups[0][0]})"
    text = f"Does a known {known} go home by hand, without play?"
    return Question("plug", text, answers, _then(answers, lambda _: measured))


def _seat(ends: Sequence[End]) -> Question:
    answers = _grouped(ends, look)
    is_hole = {Family.METRIC_FLAT_FACE, Family.ISO6149} <= {end.family for end in ends} and all(
        end.gender is Gender.FEMALE for end in ends
    )
    looks = [answer for answer, _ in answers]
    if is_hole:
        text = "Is there a ridge or mark round it, a chamfer at the mouth, or a cone inside?"
    else:
        text = f"What does it seal on: {'; '.join(looks[:-1])}; or {looks[-1]}?"
    return Question("seat", text, answers)


def in_short(question: Question) -> str:
    """Print a question with its answers on one line.

    Parameters
    ----------
    question : Question
        The question.

    Returns
    -------
    str
        For example ``How long are five pitches? 7.06 mm: 1/4 NPT male. 6.68 mm: ...``.
    """
    if question.kind in ("confirm", "record"):
        return question.text
    parts = [
        f"{answer}: {listed([show(end) for end in group])}." for answer, group in question.answers
    ]
    return " ".join([question.text, *parts])
