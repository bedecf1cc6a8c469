# SPDX-License-Identifier: Apache-2.0
"""Which sizes of end exist, and which thread each of them has."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache

from linewright.base.evidence import Grade
from linewright.ends.end import Family
from linewright.tables.load import rows
from linewright.tables.threads import threads

#: Families whose size is a dash: tube outside diameter in sixteenths of an inch.
DASHED = (
    Family.FLARE_37,
    Family.FLARE_45,
    Family.INVERTED_FLARE,
    Family.ORB_UNF,
    Family.ORFS,
)
#: Families whose size is a nominal pipe size.
PIPED = (Family.NPT, Family.NPTF, Family.BSPP, Family.BSPT)


@dataclass(frozen=True, slots=True)
class Made:
    """A size of end that is made: what it is called and what its thread measures.

    ``size`` is the bare size (``1/2`` for pipe, without G or R). ``thread`` is the
    designation without the class, e.g. ``3/4-16``. ``published`` are calliper readings that
    identification tables print. Lengths in m; None where the table has none.
    """

    family: Family
    size: str
    thread: str
    major: float
    minor: float | None
    tip: float | None
    pitch: float | None
    tpi: str
    published_male: float | None
    published_female: float | None
    grade: Grade

    @property
    def is_taper(self) -> bool:
        """Whether the male grows 1 in 16 from its tip."""
        return self.family in (Family.NPT, Family.NPTF, Family.BSPT)


def _bare(designation: str) -> str:
    """A thread without its class and form: ``3/4-16 UNF`` and ``G 3/4-14`` lose their words."""
    thread = designation.split(" UN")[0]
    for word in (" NPTF", " NPT", "G ", "R "):
        thread = thread.replace(word, "")
    return thread


def _of_threads() -> Iterator[Made]:
    for (family, size), thread in threads().items():
        yield Made(
            Family(family),
            size,
            _bare(thread.designation),
            thread.major,
            thread.minor,
            thread.tip,
            thread.pitch,
            f"{thread.tpi:g}" if thread.tpi else "",
            thread.published_male,
            thread.published_female,
            thread.grade,
        )


def _of_spigots_and_mounts() -> Iterator[Made]:
    for row in rows("spigots_and_mounts"):
        size, major = row["size"], float(row["diameter_mm"]) / 1000
        pitch = float(row["pitch_mm"]) / 1000 if row["pitch_mm"] else None
        # 1.082532 pitches: basic profile of ASME B1.1 and ISO 68-1, as in threads.csv.
        minor = major - 1.082532 * pitch if pitch else None
        tpi = "" if size.startswith("M") or not pitch else size.rpartition("-")[2]
        thread, grade = _bare(row["thread"]), Grade(row["grade"])
        family = Family(row["family"])
        yield Made(family, size, thread, major, minor, None, pitch, tpi, None, None, grade)


@cache
def made() -> tuple[Made, ...]:
    """All sizes of end that the tables hold, in the order of the tables.

    Returns
    -------
    tuple of Made
        One entry a family and size.
    """
    found = {(one.family, one.size): one for one in _of_threads()}
    for one in tuple(found.values()):
        # A banjo bolt needs a flat-faced port of its own thread, so those ports are made too.
        key = (Family.METRIC_FLAT_FACE, one.size)
        if one.family is Family.BANJO and one.size.startswith("M") and key not in found:
            found[key] = replace(one, family=Family.METRIC_FLAT_FACE)
    found |= {(one.family, one.size): one for one in _of_spigots_and_mounts()}
    return tuple(found.values())


@cache
def sizes(family: Family) -> tuple[str, ...]:
    """Bare sizes of a family that are made, smallest first.

    Parameters
    ----------
    family : Family
        One of the threaded families, or quick connectors.

    Returns
    -------
    tuple of str
        For example ``("-2", "-3", ...)`` or ``("1/16", "1/8", ...)``.
    """
    found = [one for one in made() if one.family is family]
    found.sort(key=lambda one: (one.major, -(one.pitch or 0)))
    return tuple(one.size for one in found)


@cache
def of_thread(thread: str) -> tuple[Made, ...]:
    """All ends that have one thread.

    Parameters
    ----------
    thread : str
        Designation without class, e.g. ``3/4-16`` or ``M18x1.5``; pipe threads as ``3/4-14``.

    Returns
    -------
    tuple of Made
        In the order of the tables; empty where nothing has it.
    """
    return tuple(one for one in made() if one.thread == thread)


@cache
def find(family: Family, size: str) -> Made | None:
    """One size of a family.

    Parameters
    ----------
    family : Family
        The family.
    size : str
        Its size, bare or as in an `End` (``G 1/2`` and ``1/2`` are the same for BSPP).

    Returns
    -------
    Made or None
        None where that size is not made.
    """
    bare = size.split(" ")[-1] if family in PIPED else size
    return next((one for one in made() if (one.family, one.size) == (family, bare)), None)


def inches(text: str) -> Fraction:
    """Value of a size as typed: ``3/4``, ``1-1/2``, ``1 1/2``, ``2``, ``0.75``.

    Parameters
    ----------
    text : str
        The size.

    Returns
    -------
    Fraction
        Its value in inches.

    Raises
    ------
    ZeroDivisionError
        For ``1/0``.

    Examples
    --------
    >>> inches("1-1/2")
    Fraction(3, 2)
    """
    return sum((Fraction(part) for part in text.replace("-", " ").split()), Fraction(0))


def mixed(value: Fraction) -> str:
    """Write a size in inches as the trade does.

    Parameters
    ----------
    value : Fraction
        Inches.

    Returns
    -------
    str
        For example ``1-1/2``.

    Examples
    --------
    >>> mixed(Fraction(3, 2)), mixed(Fraction(2)), mixed(Fraction(6, 8))
    ('1-1/2', '2', '3/4')
    """
    whole, rest = divmod(value, 1)
    return "-".join(str(part) for part in (whole, rest) if part) or "0"


def nearest(family: Family, size: str) -> tuple[str, ...]:
    """Made sizes on either side of one that is not made.

    Parameters
    ----------
    family : Family
        The family.
    size : str
        What was typed, as bare size or thread.

    Returns
    -------
    tuple of str
        The three nearest in diameter, in the order of the tables; all in the family's own notation.
    """
    found = [one for one in made() if one.family is family]
    wanted = _diameter(family, size)
    if wanted is None:
        return tuple(one.size for one in found[:3])

    def apart(one: Made) -> tuple[float, float]:
        own = _diameter(family, one.size)
        pitch = _pitch(size)
        return (
            abs((one.major if own is None else own) - wanted),
            abs((one.pitch or 0.0) - pitch) if pitch else 0.0,
        )

    near = sorted(found, key=apart)[:3]
    return tuple(one.size for one in sorted(near, key=found.index))


def _diameter(family: Family, size: str) -> float | None:
    """Nominal measure of a size, for ordering only. [m]"""
    try:
        if size.startswith("-"):
            return int(size) * -0.0254 / 16
        if size.startswith(("M", "m")):
            return float(size[1:].split("x")[0]) / 1000
        head = size.split(" ")[-1] if family in PIPED else size.rpartition("-")[0] or size
        return float(inches(head)) * 0.0254
    except (ValueError, ZeroDivisionError):
        return None


def _pitch(size: str) -> float | None:
    try:
        if size.startswith("M") and "x" in size:
            return float(size.split("x")[1]) / 1000
        if "-" in size[1:]:
            return 0.0254 / float(size.rpartition("-")[2])
    except (ValueError, ZeroDivisionError):
        return None
    return None
