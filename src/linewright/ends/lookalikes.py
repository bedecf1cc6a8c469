# SPDX-License-Identifier: Apache-2.0
"""Threads that run together and do not seal, from the geometry of the thread table.

A male enters a female when its crest reaches far enough into the other thread and the pitch
error over five turns stays small; whether it *seals* is another matter. What then happens is
told in the words of ``lookalikes.csv`` where that table has the pair.
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
    difference over five turns [m]; ``is_same_thread`` where both are equal.
    """

    family: Family
    size: str
    thread: str
    overlap: float
    pitch_error: float
    is_same_thread: bool
    hazard: str
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
        1 where they are made for each other, near 0 where the male drops in loose; a
        taper male is taken at its tip. None if a diameter is missing. [-]

    Notes
    -----
    Of a taper male the crest at its small end enters first.
    """
    if female.minor is None:
        return None
    crest = male.major
    return (crest - female.minor) / (female.major - female.minor)


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


@cache
def _told() -> dict[tuple[Family, str, Family, str], str]:
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
        told[families[0], threads[0], families[1], threads[1]] = row["hazard"]
    return told


def _designation(one: Made) -> str:
    if one.family in (Family.NPT, Family.NPTF):
        return f"{one.thread} {one.family.value.upper()}"
    if one.family is Family.BSPP or (one.family is Family.BANJO and one.size.startswith("G")):
        return f"G {one.thread}"
    return f"R {one.thread}" if one.family is Family.BSPT else one.thread


def _hazard(male: Made, female: Made, *, is_same: bool) -> str:
    key = (male.family, _designation(male), female.family, _designation(female))
    told = _told().get(key)
    if told:
        return told
    if is_same:
        return "runs in fully by hand and feels right; no seat meets another, so it leaks"
    return "starts and runs some turns on part of the thread, then binds or strips"


@cache
def hazard_between(male: End, female: End) -> str:
    """Say what happens when a male is run into a female that it does not seal with.

    Parameters
    ----------
    male, female : End
        The two ends.

    Returns
    -------
    str
        The hazard; empty where the threads do not run together.
    """
    one = _made().get((male.family, bare_size(male)))
    other = _made().get((female.family, bare_size(female)))
    if one is None or other is None:
        return ""
    is_same = one.thread == other.thread and one.is_taper == other.is_taper
    key = (one.family, _designation(one), other.family, _designation(other))
    if not is_same and key not in _told() and _runs_in(one, other) is None:
        return ""
    return _hazard(one, other, is_same=is_same)


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
        is_same = male.thread == female.thread and male.is_taper == female.is_taper
        fit = _runs_in(male, female)
        key = (male.family, _designation(male), female.family, _designation(female))
        if not is_same and fit is None and key not in _told():
            continue
        reach, error = fit or (overlap(male, female) or 1.0, pitch_error(male, female) or 0.0)
        found.append(
            LookAlike(
                other.family,
                other.size,
                other.thread,
                reach,
                error,
                is_same,
                _hazard(male, female, is_same=is_same),
                weakest([own.grade, other.grade]),
            )
        )
    order = list(Family)
    found.sort(key=lambda x: (not x.is_same_thread, abs(x.pitch_error), order.index(x.family)))
    return tuple(found)
