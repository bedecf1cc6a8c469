# SPDX-License-Identifier: Apache-2.0
"""The one question that tells ends apart that look or sound alike."""

from collections.abc import Sequence

from linewright.ends.end import End, Family, Gender
from linewright.ends.sizes import Made, find
from linewright.ends.words import look

_TAPERS = (Family.NPT, Family.NPTF, Family.BSPT)


def five_pitches(one: Made) -> str:
    """Length of five pitches, as one reads it beside a calliper.

    Parameters
    ----------
    one : Made
        A size of end with a thread.

    Returns
    -------
    str
        Millimetres with two places; empty where there is no thread.
    """
    if one.tpi:
        return f"{5 * 25.4 / float(one.tpi):.2f}"
    return f"{5000 * one.pitch:.2f}" if one.pitch else ""


def listed(words: Sequence[str], last: str = "or") -> str:
    """Join words the way a sentence does.

    Parameters
    ----------
    words : Sequence of str
        What to list.
    last : str
        The word before the last of them.

    Returns
    -------
    str
        For example ``a, b or c``.

    Examples
    --------
    >>> listed(["a", "b", "c"])
    'a, b or c'
    """
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def question(readings: Sequence[End]) -> str:
    """Ask the one thing that separates some ends, best asked first.

    Parameters
    ----------
    readings : Sequence of End
        The ends in question, likeliest first.

    Returns
    -------
    str
        One sentence with a question mark; it tells the first two apart.
    """
    genders = {end.gender for end in readings if end.family is not Family.OTHER}
    families = list(dict.fromkeys(end.family for end in readings))
    if len(families) == 1 and len(genders) == 2:
        return f"Is it male ({look(readings[0])}) or female ({look(readings[1])})?"
    if len(families) == 1 and len(genders) == 1 and len(readings) == 2:
        majors = [one.major * 1000 for e in readings if (one := find(e.family, e.size))]
        if len(majors) == 2 and abs(majors[0] - majors[1]) > 0.5:
            return f"Does its thread measure about {majors[0]:.1f} or {majors[1]:.1f} mm across?"
    pitches = list(
        dict.fromkeys(
            five_pitches(one)
            for one in (find(end.family, end.size) for end in readings)
            if one is not None and one.pitch
        )
    )
    if set(families) <= {Family.BSPP, Family.BSPT} and genders == {Gender.FEMALE}:
        return (
            "Is there a flat machined face wider than the washer round the hole, and does a"
            " parallel plug run in to its head?"
        )
    if len(pitches) > 1 and not set(families) & {Family.HOSE, Family.BEAD, Family.TUBE}:
        ask = f"How long are five pitches: {listed(pitches)} mm?"
        if set(families) & set(_TAPERS):
            ask = ask.removesuffix("?") + ", and is the thread tapered?"
        return ask
    if set(families) & set(_TAPERS):
        if genders == {Gender.FEMALE}:
            return (
                "Is there a flat machined face round the hole, and is the thread's flank angle"
                " 60° or 55°?"
            )
        return "Is the thread tapered, and is its flank angle 60° or 55°?"
    if {Family.METRIC_FLAT_FACE, Family.ISO6149} <= set(families) and Gender.FEMALE in genders:
        return "Is there a ridge or mark round it, a chamfer at the mouth, or a cone inside?"
    looks = list(dict.fromkeys(look(end) for end in readings))
    return f"Which is it: {'; '.join(looks[:-1])}; or {looks[-1]}?"
