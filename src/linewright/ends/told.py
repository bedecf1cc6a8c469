# SPDX-License-Identifier: Apache-2.0
"""A measurement as it is told: "male 20.8 mm", "14 tpi", "five 9.07 mm", "taper", "cone"."""

import re
from collections.abc import Sequence
from dataclasses import replace

from linewright.base import units
from linewright.base.errors import EndError, UnitError
from linewright.ends.windows import Measurement, Origin

_EXAMPLE = 'say it like this: "male 20.8 mm" "14 tpi", or "female 8.85 mm" "five 4.54 mm"'
_MALE = ("male", "outside", "od", "stud", "tube")
_FEMALE = ("female", "inside", "id", "hole", "bore")
_WORD = "|".join((*_MALE, *_FEMALE))
#: "male 20.8 mm" or "20.8 mm OD".
_SIDE = re.compile(rf"(?:({_WORD})\s+(.+)|(\d.*?)\s*\b({_WORD}))\Z")
_TPI = re.compile(r"(\d+(?:\.\d+)?)\s*(?:tpi|threads(?: per inch| an inch)?)\Z")
_FIVE = re.compile(r"five(?:\s+pitches)?\s+(.+)\Z")
_PITCH = re.compile(r"(?:pitch\s+(.+)|(\d.*?)\s*\bpitch)\Z")
#: Figures that a seat is described with: its angle.
_ANGLE = re.compile(r"\d+(?:\.\d+)?\s*(?:°|deg)|\b(?:24|30|37|45|60|74|90)\b")
_TAPERS = {
    "taper": True,
    "tapered": True,
    "no taper": False,
    "parallel": False,
    "straight": False,
}
_PITCHES = 5


def _length(text: str) -> float:
    # Callipers show bare millimetres; here, and only here, the unit may be left out.
    return units.length(text if re.search(r"[a-z\"']", text) else f"{text} mm")


def told(said: Sequence[str], origin: str | None = None) -> Measurement:
    """Read a measurement from the words of the one who took it.

    Parameters
    ----------
    said : Sequence of str
        One fact each: ``male`` or ``female`` with the diameter (``tube`` for a plain or
        beaded tube), threads per inch, the length of five pitches or one pitch, taper or
        parallel; anything else is taken as what the seat looks like.
    origin : str or None
        Where the part comes from, if known.

    Returns
    -------
    Measurement
        Lengths in m.

    Raises
    ------
    EndError
        If no diameter is told, a fact is told twice, or a figure cannot be read.

    Examples
    --------
    >>> told(["male 20.8 mm", "14 tpi"]).tpi
    14.0
    >>> told(["female 8.85", "five 4.54 mm"]).pitch
    0.000908
    """
    measured: Measurement | None = None
    pitch: float | None = None
    tpi: float | None = None
    taper: bool | None = None
    seat: list[str] = []
    for text in _facts(said):
        fact = " ".join(text.lower().split())
        try:
            if found := _SIDE.match(fact):
                if measured is not None:
                    raise EndError(f'"{text}": a diameter was told before; tell one.')
                side, size = found[1] or found[4], found[2] or found[3]
                measured = Measurement(
                    _length(size),
                    is_male=side in _MALE,
                    is_tube=side == "tube",
                )
            elif found := _TPI.match(fact):
                tpi = float(found[1])
            elif found := _FIVE.match(fact):
                pitch = _length(found[1]) / _PITCHES
            elif found := _PITCH.match(fact):
                pitch = _length(found[1] or found[2])
            elif fact in _TAPERS:
                taper = _TAPERS[fact]
            elif fact:
                if re.search(r"\d", _ANGLE.sub("", fact)):
                    raise EndError(
                        f'"{text}" does not say what the figure measures; {_EXAMPLE}, or '
                        '"pitch 1.5 mm".'
                    )
                seat.append(fact)
        except UnitError as error:
            raise EndError(f'"{text}": {error}') from error
    if measured is None:
        raise EndError(f"No diameter is told; {_EXAMPLE}.")
    return replace(
        measured,
        pitch=pitch,
        tpi=tpi,
        taper=taper,
        seat="; ".join(seat),
        origin=_origin(origin),
    )


def _facts(said: Sequence[str]) -> list[str]:
    """The facts, where a side and its figure may have come as two words."""
    facts: list[str] = []
    for text in said:
        if facts and facts[-1].strip().lower() in (*_MALE, *_FEMALE):
            facts[-1] = f"{facts[-1]} {text}"
        else:
            facts.append(text)
    return facts


def _origin(text: str | None) -> Origin:
    word = " ".join((text or "").lower().split())
    word = {"usa": "north america", "america": "north america", "uk": "britain"}.get(word, word)
    try:
        return Origin(word)
    except ValueError as error:
        known = ", ".join(o.value for o in Origin if o.value)
        raise EndError(f'"{text}" is no origin that shifts the ranks; say {known}.') from error
