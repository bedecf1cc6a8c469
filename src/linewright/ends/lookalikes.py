# SPDX-License-Identifier: Apache-2.0
"""Threads that run together and do not seal, from the geometry of the thread table.

A male enters a female when its crest reaches far enough into the other thread and the pitch
error over five turns stays small; whether it *seals* is another matter. What then happens is
told in the words of ``lookalikes.csv`` where that table has the pair; a pair that it tells of
also counts where the pitches part after a turn or two, for that is how it goes wrong.
"""

from dataclasses import dataclass
from functools import cache

from linewright.base.evidence import Grade, weakest
from linewright.ends.end import End, Family, Gender
from linewright.ends.sizes import Made, made
from linewright.tables.load import rows

#: A male runs in if its crest reaches this share of the thread's depth ... [common practice]
LEAST_OVERLAP = 0.30
#: ... no further than this (beyond it wedges at the mouth) ...
MOST_OVERLAP = 1.80
#: ... and the pitches stay this close over five turns. [m]
PITCH_OVER_FIVE = 0.65e-3

_TURNS = 5
_THREADED = frozenset(
    {
        Family.FLARE_37,
        Family.FLARE_45,
        Family.INVERTED_FLARE,
        Family.BUBBLE_FLARE,
        Family.ORB_UNF,
        Family.ORFS,
        Family.NPT,
        Family.NPTF,
        Family.BSPP,
        Family.BSPT,
        Family.ISO6149,
        Family.METRIC_FLAT_FACE,
        Family.BANJO,
        Family.SPINON,
    }
)
_TABLE_FAMILY = {
    "metric_bubble_flare": Family.BUBBLE_FLARE,
    "banjo_metric": Family.BANJO,
    "banjo_unf": Family.BANJO,
    "banjo_bsp": Family.BANJO,
}


@dataclass(frozen=True, slots=True)
class LookAlike:
    """Another end whose thread this one runs into, and what happens then.

    ``overlap`` is the male crest's reach into the female thread [-], ``pitch_error`` the
    difference over five turns [m]; ``is_same_thread`` where both are equal. ``source`` is
    the key of who tells the hazard, ``grade`` how well the pair is known.
    """

    family: Family
    size: str
    thread: str
    overlap: float
    pitch_error: float
    is_same_thread: bool
    hazard: str
    grade: Grade
    source: str = "threads-table"


@dataclass(frozen=True, slots=True)
class Hazard:
    """What happens when two threads that do not seal are run together, and who says so."""

    text: str
    source: str
    grade: Grade


def bare_size(end: End) -> str:
    """Return the size of an end without its G, R, Rc or Rp.

    Parameters
    ----------
    end : End
        Any end.

    Returns
    -------
    str
        The size as the thread table has it.
    """
    if end.family in (Family.BSPP, Family.BSPT):
        return end.size.split()[-1]
    return end.size


@cache
def _made() -> dict[tuple[Family, str], Made]:
    return {(one.family, one.size): one for one in made() if one.family in _THREADED}


def overlap(male: Made, female: Made) -> float | None:
    """Share of the female thread's depth that a male's crest reaches into.

    Parameters
    ----------
    male, female : Made
        Two threads.

    Returns
    -------
    float or None
        1 where they are made for each other, near 0 where the male drops in loose. None if
        a diameter is missing. [-]

    Notes
    -----
    A taper male is taken at its full diameter (the pipe's outside): its tip is smaller, so
    it always starts; how far it gets is what counts.
    """
    if female.minor is None:
        return None
    return (male.major - female.minor) / (female.major - female.minor)


def pitch_error(male: Made, female: Made) -> float | None:
    """Difference of pitch over five turns.

    Parameters
    ----------
    male, female : Made
        Two threads.

    Returns
    -------
    float or None
        Positive where the male's pitch is the longer; None without pitches. [m]
    """
    if male.pitch is None or female.pitch is None:
        return None
    return _TURNS * (male.pitch - female.pitch)


def _runs_in(male: Made, female: Made) -> tuple[float, float] | None:
    reach, error = overlap(male, female), pitch_error(male, female)
    if reach is None or error is None or abs(error) > PITCH_OVER_FIVE:
        return None
    return (reach, error) if LEAST_OVERLAP <= reach <= MOST_OVERLAP else None


_Pair = tuple[Family, str, Family, str]


@cache
def _told() -> dict[_Pair, Hazard]:
    """Hazards in the words of the table, by families and threads."""

    def plain(thread: str) -> str:
        return thread.split(" UN")[0]

    told = {}
    for row in rows("lookalikes"):
        families = [
            _TABLE_FAMILY.get(row[f"{side}_family"]) or Family(row[f"{side}_family"])
            for side in ("male", "female")
        ]
        threads = [plain(row["male_thread"]), plain(row["female_thread"])]
        told[families[0], threads[0], families[1], threads[1]] = Hazard(
            row["hazard"], row["source"], Grade(row["grade"])
        )
    return told


def _designation(one: Made) -> str:
    if one.family in (Family.NPT, Family.NPTF):
        return f"{one.thread} {one.family.value.upper()}"
    if one.family is Family.BSPP or (one.family is Family.BANJO and one.size.startswith("G")):
        return f"G {one.thread}"
    return f"R {one.thread}" if one.family is Family.BSPT else one.thread


def _between(male: Made, female: Made) -> Hazard | None:
    """None where the threads do not run together."""
    told = _told().get((male.family, _designation(male), female.family, _designation(female)))
    reach = overlap(male, female)
    if told is not None:
        # The table also tells of sizes that drop through: a wrong purchase, not a trap.
        return told if reach is None or reach >= LEAST_OVERLAP else None
    grade = weakest([male.grade, female.grade])
    if _is_same(male, female):
        text = "runs in fully by hand and feels right; no seat meets another, so it leaks"
        return Hazard(text, "threads-table", grade)
    if _runs_in(male, female) is None:
        return None
    text = "starts and runs some turns on part of the thread, then binds or strips"
    return Hazard(text, "threads-table", grade)


def _is_same(male: Made, female: Made) -> bool:
    # By measure, not by name: 1/2-14 is an NPT and an R thread, 0.4 mm apart.
    return (male.major, male.pitch, male.is_taper) == (female.major, female.pitch, female.is_taper)


@cache
def hazard_between(male: End, female: End) -> Hazard | None:
    """Say what happens when a male is run into a female that it does not seal with.

    Parameters
    ----------
    male, female : End
        The two ends.

    Returns
    -------
    Hazard or None
        None where the threads do not run together.

    Examples
    --------
    >>> cone = End(Family.FLARE_37, "-6", Gender.MALE)
    >>> hazard_between(cone, End(Family.ORB_UNF, "-6", Gender.FEMALE)).text
    'runs right in and feels correct; leaks at once or when warm; the long flare nose ...'
    >>> hazard_between(cone, End(Family.FLARE_45, "-6", Gender.FEMALE)) is None
    True
    """
    one = _made().get((male.family, bare_size(male)))
    other = _made().get((female.family, bare_size(female)))
    return None if one is None or other is None else _between(one, other)


@cache
def lookalikes(end: End) -> tuple[LookAlike, ...]:
    """List what else the thread of an end runs into, worst likeness first.

    Parameters
    ----------
    end : End
        A threaded end; others have no look-alikes.

    Returns
    -------
    tuple of LookAlike
        Ends of another family or size, equal threads first.

    Examples
    --------
    >>> filter_stud = End(Family.SPINON, "3/4-16", Gender.MALE)
    >>> [f"{x.family} {x.size}" for x in lookalikes(filter_stud) if x.is_same_thread][0]
    'flare_37 -8'
    """
    own = _made().get((end.family, bare_size(end)))
    if own is None:
        return ()
    found = []
    for other in _made().values():
        if (other.family, other.size) == (own.family, own.size):
            continue
        male, female = (own, other) if end.gender is Gender.MALE else (other, own)
        hazard = _between(male, female)
        if hazard is None:
            continue
        found.append(
            LookAlike(
                other.family,
                other.size,
                other.thread,
                overlap(male, female) or 1.0,
                pitch_error(male, female) or 0.0,
                _is_same(male, female),
                hazard.text,
                weakest([own.grade, other.grade]),
                hazard.source,
            )
        )
    order = list(Family)
    found.sort(key=lambda x: (not x.is_same_thread, abs(x.pitch_error), order.index(x.family)))
    return tuple(found)
