# SPDX-License-Identifier: Apache-2.0
"""Ends out of words: which size, family and gender belong together."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cache

from linewright.order._recognise_words import Word
from linewright.tables.threads import threads

#: Pipe of the trade in inches, and the bore or outside in mm that it is called by.
INCH_MM = {
    "1/8": "3", "5/32": "4", "3/16": "5", "1/4": "6", "5/16": "8", "3/8": "10", "1/2": "13",
    "5/8": "16", "3/4": "19", "7/8": "22", "1": "25", "1-1/8": "28", "1-1/4": "32", "1-3/8": "35",
    "1-1/2": "38", "1-5/8": "41", "1-3/4": "45", "1-7/8": "48", "2": "51", "2-1/4": "57",
    "2-3/8": "60", "2-1/2": "63", "2-3/4": "70", "3": "76", "3-1/4": "83", "3-1/2": "89",
    "4": "102",
}  # fmt: skip

_SIZES = frozenset(("dash", "un", "metric", "inch", "mm"))
_SEATS = frozenset(("flat", "iso6149", "bubble_flare"))
_SPIGOTS = frozenset(("barb", "bead", "vband"))
_CONES = frozenset(("flare_45", "inverted_flare"))


@dataclass(slots=True)
class Said:
    """What a description says of one end; ``gender`` is m, f, nut or empty."""

    sizes: list[tuple[str, str]] = field(default_factory=list)
    family: str = ""
    gender: str = ""
    many: int = 1

    @property
    def is_empty(self) -> bool:
        """Whether nothing at all is said."""
        return not (self.sizes or self.family or self.gender)


@cache
def _by_thread() -> dict[tuple[str, str], str]:
    """Dash by family and bare thread (``7/8-14``)."""
    found = {}
    for (family, size), thread in threads().items():
        if size.startswith("-"):
            found[family, thread.designation.split()[0]] = size
    return found


def dash_of(family: str, thread: str) -> str:
    """Dash size of an inch thread in one family; empty where the family has none.

    Examples
    --------
    >>> dash_of("orb_unf", "7/8-14"), dash_of("flare_37", "1/2-14")
    ('-10', '')
    """
    return _by_thread().get((family, thread), "")


@cache
def dashes_of(family: str, size: str) -> tuple[str, ...]:
    """Dashes whose thread has this diameter in inches.

    Examples
    --------
    >>> dashes_of("flare_37", "9/16")
    ('-6',)
    """
    return tuple(
        dash
        for (kind, thread), dash in _by_thread().items()
        if kind == family and thread.rpartition("-")[0] == size
    )


@cache
def pipe_threads() -> frozenset[str]:
    """Pipe threads as ``1/2-14``, taper or not."""
    return frozenset(
        t.designation.removeprefix("G ").removeprefix("R ").split()[0]
        for (family, _), t in threads().items()
        if family in ("npt", "nptf", "bspp", "bspt")
    )


def ends_of(words: Sequence[Word]) -> tuple[list[Said], frozenset[str]]:
    """Put words together to ends.

    Parameters
    ----------
    words : Sequence of Word
        What the description says.

    Returns
    -------
    tuple
        The ends in their order, and what is said of a metric seat wherever it stands
        (``flat``, ``iso6149``, ``bubble_flare``).

    Examples
    --------
    >>> from linewright.order._recognise_words import read_words
    >>> ends, _ = ends_of(read_words("1/2 NPT male x -10 JIC male"))
    >>> [(e.sizes[0][1], e.family, e.gender) for e in ends]
    [('1/2', 'npt', 'm'), ('-10', 'flare_37', 'm')]
    """
    found: list[Said] = []
    seats: set[str] = set()
    now = Said()
    many = 1
    is_after_comma = False
    for word in words:
        kind, value = word.kind, word.value
        size = (kind, value) if kind in _SIZES else None
        starts_new = False
        if size is not None:
            starts_new = bool(now.sizes) and not _restates(now, *size)
        elif kind == "sep":
            starts_new = bool(now.sizes or now.gender)
        elif kind == "mult":
            starts_new = True
        elif kind == "fam" and value not in _SEATS and now.family and value != now.family:
            # "barb adaptor, 3/8 NPT": the first family was the noun's.
            is_nouns = now.family in _SPIGOTS and now.sizes and now.sizes[0][0] != "mm"
            is_cone = now.family == "flare_37" and value in _CONES
            starts_new = bool(now.sizes) and not is_cone and not is_nouns
        elif kind == "g" and now.gender:
            starts_new = {now.gender, value} != {"f", "nut"}
        elif kind == "comma":
            is_after_comma = True
            continue
        if starts_new and not now.is_empty:
            found.append(now)
            now = Said()
        if size is not None:
            if now.family in _SPIGOTS and size[0] in ("dash", "un", "metric"):
                now.family = ""
            now.sizes.append(size)
            now.many, many = max(now.many, many), 1
        elif kind == "mult":
            many = int(value)
        elif kind == "fam" and value in _SEATS:
            seats.add(value)
        elif kind == "fam" and value != "weld":
            now.family = value
        elif kind == "g":
            now.gender = "nut" if now.gender else value
        elif kind == "turn" and value == "swivel" and now.gender == "f" and not is_after_comma:
            now.gender = "nut"
        is_after_comma = False
    if not now.is_empty:
        found.append(now)
    return found, frozenset(seats)


def _restates(now: Said, kind: str, value: str) -> bool:
    """Whether a second size says the first once more, as "3/4-16 (-8)" does."""
    if len(now.sizes) != 1 or now.many > 1:
        return False
    (first, said) = now.sizes[0]
    if {first, kind} == {"inch", "mm"} and now.family in ("", "barb", "bead", "vband"):
        return INCH_MM.get(said) == value or INCH_MM.get(value) == said
    if {first, kind} != {"un", "dash"}:
        return False
    thread, dash = (said, value) if first == "un" else (value, said)
    families = (now.family,) if now.family in ("flare_37", "orb_unf", "orfs") else (
        "flare_37", "orb_unf", "orfs", "flare_45", "inverted_flare",
    )  # fmt: skip
    return any(dash_of(family, thread) == dash for family in families)
