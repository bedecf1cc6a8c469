# SPDX-License-Identifier: Apache-2.0
"""From what callipers, a pitch gauge and the eye give to ranked candidates and one question."""

from dataclasses import dataclass

from linewright.ends.asking import Question, next_question
from linewright.ends.end import End, Family, Gender
from linewright.ends.plugs import plugs_that_settle
from linewright.ends.sizes import Made, made
from linewright.ends.telling import five_pitches
from linewright.ends.windows import (
    Measurement,
    Origin,
    allowance,
    checked,
    closeness,
    commonness,
    span,
)
from linewright.ends.words import show

__all__ = [
    "Candidate",
    "Identification",
    "Measurement",
    "Origin",
    "Question",
    "identify",
    "plugs_that_settle",
]

#: What of a seat in words speaks for which families, by gender of the end.
_SEATS: tuple[tuple[tuple[str, ...], tuple[Family, ...]], ...] = (
    (("37",), (Family.FLARE_37,)),
    (("45",), (Family.FLARE_45,)),
    (("cone inside the hole", "cone deep", "seat inside"), (Family.INVERTED_FLARE,)),
    (("cone", "flare"), (Family.FLARE_37, Family.FLARE_45, Family.INVERTED_FLARE)),
    (("groove", "face seal"), (Family.ORFS,)),
    (("ridge", "mark"), (Family.ISO6149,)),
    (("o-ring", "o ring", "oring", "chamfer"), (Family.ORB_UNF, Family.ISO6149)),
    (("hole through", "banjo", "hollow", "eye"), (Family.BANJO,)),
    (("filter", "gasket", "land"), (Family.SPINON,)),
    (("bubble", "cup"), (Family.BUBBLE_FLARE,)),
    (("washer", "flat"), (Family.METRIC_FLAT_FACE, Family.BSPP, Family.BANJO)),
    (("taper", "nothing", "none"), (Family.NPT, Family.BSPT)),
    (("bead", "raised ring"), (Family.BEAD, Family.QC)),
    (("barb", "saw"), (Family.BARB,)),
    (("plain", "smooth"), (Family.TUBE, Family.QC)),
)


@dataclass(frozen=True, slots=True)
class Candidate:
    """An end that a reading may be, with how well it fits and why it is there.

    ``fit`` judges the measures alone; ``weight`` what is known of the part's origin and seat.
    The ranking goes by their product. ``is_none`` marks "none of these".
    """

    end: End
    fit: float
    weight: float
    why: str
    is_none: bool = False

    @property
    def score(self) -> float:
        """What the ranking goes by. [-]"""
        return self.fit * self.weight


@dataclass(frozen=True, slots=True)
class Identification:
    """Ranked candidates, "none of these" always last, and the question to ask next."""

    measured: Measurement
    candidates: tuple[Candidate, ...]
    question: Question

    @property
    def ends(self) -> tuple[End, ...]:
        """The candidates' ends without "none of these", best first."""
        return tuple(one.end for one in self.candidates if not one.is_none)


def identify(measured: Measurement) -> Identification:
    """Rank all ends that a reading may be, and ask what tells them apart.

    Parameters
    ----------
    measured : Measurement
        What was taken.

    Returns
    -------
    Identification
        Every end within the measuring error, never a single guess, and one question.

    Raises
    ------
    EndError
        If a figure is outside what ends have.

    Notes
    -----
    The question goes by what the threads leave open, not by the seats: where the best two
    share a thread, pitch or taper is still asked first if it rules other threads out, and
    ``question.then`` holds the test between those two. The pitch is asked as the length of
    five, since a single one differs by less than callipers show (27 and 28 threads an inch:
    4.70 and 4.54 mm over five).

    Examples
    --------
    >>> reading = Measurement(0.0132, is_male=True)
    >>> found = identify(reading)
    >>> [show(end) for end in found.ends]
    ['G 1/4 male', '1/4 NPT male', 'R 1/4 male', 'G 1/4 banjo']
    >>> found.question.text
    'How long are five pitches?'
    >>> [answer for answer, _ in found.question.answers]
    ['6.68 mm', '7.06 mm']
    """
    checked(measured)
    rows = _tubes(measured) if measured.is_tube else _threads(measured)
    rows.sort(key=lambda one: (-round(one.score, 9), show(one.end)))
    none = Candidate(
        End(Family.OTHER, _as_measured(measured), _gender(measured)),
        allowance("fit of none of these"),
        1.0,
        "always possible: the tables do not hold every thread",
        is_none=True,
    )
    seen = [one.end for one in rows]
    if measured.seat and any(_speaks_for(measured.seat, end) for end in seen):
        seen = [end for end in seen if _speaks_for(measured.seat, end)]
    return Identification(measured, (*rows, none), next_question(seen, measured))


def _gender(measured: Measurement) -> Gender:
    return Gender.MALE if measured.is_male else Gender.FEMALE


def _as_measured(measured: Measurement) -> str:
    parts = [f"{measured.diameter * 1000:g} mm"]
    if measured.tpi:
        parts.append(f"{measured.tpi:g} tpi")
    elif measured.pitch:
        parts.append(f"pitch {measured.pitch * 1000:g} mm")
    return ", ".join(parts)


def _ended(one: Made, gender: Gender) -> End:
    size = one.size
    if one.family is Family.BSPP:
        size = f"G {size}"
    elif one.family is Family.BSPT:
        size = f"{'R' if gender is Gender.MALE else 'Rc'} {size}"
    return End(one.family, size, gender)


def _speaks_for(seat: str, end: End) -> bool:
    """Whether the seat in words is that of an end; the first words that match decide."""
    said = seat.lower()
    for words, families in _SEATS:
        if any(word in said for word in words):
            return end.family in families
    return True


def _weight(measured: Measurement, end: End) -> float:
    weight = commonness(end.family, Origin(measured.origin))
    if measured.seat and not _speaks_for(measured.seat, end):
        weight *= allowance("weight against the seat")
    return weight


def _threads(measured: Measurement) -> list[Candidate]:
    gender, found = _gender(measured), []
    for one in made():
        # NPTF measures as NPT does; naming both would only crowd the list.
        if one.family in (Family.NPTF, Family.QC):
            continue
        if measured.taper is not None and measured.taper is not one.is_taper:
            continue
        fit = closeness(one, measured)
        if fit > 0:
            end = _ended(one, gender)
            found.append(Candidate(end, fit, _weight(measured, end), _why(one, measured)))
    return found


def _why(one: Made, measured: Measurement) -> str:
    low, high = (1000 * edge for edge in span(one, measured.is_male))
    what = "outside" if measured.is_male else "bore"
    along = " from tip to large end" if measured.is_male and one.is_taper else ""
    why = f"{one.thread}: {what} {low:.2f} to {high:.2f} mm{along}"
    published = one.published_male if measured.is_male else one.published_female
    if published is not None:
        why += f" (a table prints {published * 1000:.1f})"
    why += f", five pitches {five_pitches(one)} mm"
    return why + (", NPTF measures the same" if one.family is Family.NPT else "")


def _tubes(measured: Measurement) -> list[Candidate]:
    """Ends without a thread, by outside diameter of a tube or spigot."""
    mm = measured.diameter * 1000
    reach = allowance("other spigot error") * 1000
    edge = allowance("fit at the limit")
    offered = [
        (End(Family.QC, one.size, _gender(measured)), one.major * 1000, "spigot")
        for one in made()
        if one.family is Family.QC
    ]
    dash = round(mm / 25.4 * 16)
    offered.append((End(Family.TUBE, f"-{dash}"), dash * 25.4 / 16, "inch tube"))
    offered.append((End(Family.TUBE, f"{round(mm)} mm"), float(round(mm)), "metric tube"))
    for family in (Family.BEAD, Family.BARB):
        offered.append((End(family, f"{round(mm)}", Gender.MALE), float(round(mm)), "hose size"))
    found = []
    for end, size, what in offered:
        off = abs(mm - size)
        # Hose stretches over half a millimetre either way; a quick connector does not.
        limit = 0.5 if end.family in (Family.BEAD, Family.BARB) else reach
        if off <= limit + 1e-9:
            fit = 1 - (1 - edge) * off / limit
            why = f"{what} of {size:.1f} mm outside"
            found.append(Candidate(end, fit, _weight(measured, end), why))
    return found
