# SPDX-License-Identifier: Apache-2.0
"""``linewright identify``: ranked candidates, and the one question that separates them."""

from collections.abc import Sequence

from linewright.ends.asking import Question, in_short
from linewright.ends.identify import identify as rank
from linewright.ends.told import told
from linewright.ends.words import show, show_long

_MOST = 12


def _ask(question: Question, indent: str = "") -> None:
    print(f"{indent}{in_short(question)}")
    for further in question.then:
        _ask(further, indent + "  then: ")


def identify(reading: Sequence[str], origin: str | None) -> int:
    """Print what a reading may be; return the exit code."""
    found = rank(told(reading, origin))
    shown = found.candidates[:_MOST]
    for number, candidate in enumerate(shown, 1):
        if candidate.is_none:
            print(f"{number:2}. none of these: {candidate.why}")
            continue
        print(f"{number:2}. {show(candidate.end)}   ({candidate.score:.2f})")
        print(f"      {show_long(candidate.end)}")
        print(f"      {candidate.why}")
    if len(found.candidates) > len(shown):
        print(f"    and {len(found.candidates) - len(shown)} more, less likely; none of these last")
    print()
    print("Ask next:")
    _ask(found.question, "  ")
    return 0
