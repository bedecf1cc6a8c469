# SPDX-License-Identifier: Apache-2.0
"""What a typed end may mean where it names a size and leaves the seat open."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from linewright.base.errors import AmbiguousEndError, EndError
from linewright.ends.end import End, Family, Gender
from linewright.ends.lexicon import Words
from linewright.ends.sizes import PIPED, Made, inches, made, mixed, of_thread, sizes
from linewright.ends.telling import listed, question
from linewright.ends.words import look, show

#: Likeliest first, as a builder meets them on a car.
_ORDER = (
    Family.FLARE_37,
    Family.ORB_UNF,
    Family.FLARE_45,
    Family.INVERTED_FLARE,
    Family.ORFS,
    Family.NPT,
    Family.BSPP,
    Family.BSPT,
    Family.METRIC_FLAT_FACE,
    Family.ISO6149,
    Family.BUBBLE_FLARE,
    Family.BANJO,
    Family.SPINON,
)
_HINT = 'Type it like "-8 ORB female", "3/8 NPT male", "M18x1.5 flat face", "38 mm bead" or "?".'


def unsure(typed: str, readings: Sequence[End]) -> AmbiguousEndError:
    """Make the error that lists readings and asks the question between them.

    Parameters
    ----------
    typed : str
        What was typed.
    readings : Sequence of End
        What it may mean, likeliest first.

    Returns
    -------
    AmbiguousEndError
        To be raised; ``readings`` are the ends.
    """
    ways = [f"{show(end)} ({look(end)})" for end in readings]
    return AmbiguousEndError(
        f'"{typed}" can be read in {len(ways)} ways: {listed(ways)}. {question(readings)}'
        f' Then type it in full, e.g. "{show(readings[0])}", or "?" while it is open.',
        readings,
    )


def of_bare_size(
    typed: str, said: Words, gender: Gender, assumed: Mapping[Family, Gender]
) -> EndError:
    """Make the error for a text that has a size but does not name a family.

    Parameters
    ----------
    typed : str
        What was typed.
    said : Words
        Its words and numbers.
    gender : Gender
        As said; none where it was not.
    assumed : Mapping of Family to Gender
        What the trade means where no gender is said.

    Returns
    -------
    EndError
        To be raised: ambiguous where there are readings, else plain.
    """

    def ended(family: Family, size: str) -> End:
        which = gender or assumed.get(family, Gender.MALE)
        if family is Family.BSPP:
            size = f"G {size}"
        elif family is Family.BSPT:
            size = f"{'R' if which is Gender.MALE else 'Rc'} {size}"
        return End(family, size, which, bool(said.names & {"swivel", "nut"}))

    readings: list[End] = []
    if said.inch and (said.tpi or said.numbers or "unf" in said.names):
        said = _as_thread(said)
    if said.threads:
        readings = [ended(one.family, one.size) for one in _with_thread(said, gender)]
        if len(readings) < 2:
            return _odd_thread(typed, said.threads[0], readings, gender)
    elif said.metric:
        diameter, pitch = said.metric[0]
        readings = [ended(o.family, o.size) for o in _metrics(diameter, pitch, gender)]
        if not readings:
            return _odd_metric(typed, diameter, pitch)
        if pitch or len(readings) == 1:
            thread = f"M{diameter}x{pitch}" if pitch else f"M{diameter}"
            readings.append(End(Family.OTHER, thread, gender, kind="cone"))
        if not pitch:
            return _open_pitch(typed, diameter, readings)
    elif said.inch or ("pipe" in said.names and said.numbers):
        readings = [ended(f, s) for f, s in _pipes(said)]
    elif said.dash or (said.numbers and "sae" in said.names):
        dash = said.dash[0] if said.dash else f"-{said.numbers[0]}"
        families = (Family.ORB_UNF, Family.FLARE_45) if "sae" in said.names else _ORDER[:3]
        readings = [ended(f, dash) for f in families if dash in sizes(f)]
        if said.names & {"swivel", "nut"}:
            readings = [end for end in readings if end.family is not Family.ORB_UNF]
    elif said.mm:
        size = said.mm[0]
        readings = [End(f, size, Gender.MALE) for f in (Family.BEAD, Family.BARB)]
        readings.append(End(Family.TUBE, f"{size} mm"))
    if not readings:
        return EndError(
            f'"{typed}" does not name an end: there is no size, or no word for its seat. {_HINT}'
        )
    if len(readings) == 1:
        return EndError(
            f'"{typed}" does not say what it seals on; of that size there is only'
            f' "{show(readings[0])}" here. Type that in full if it is so, or "?" while it is open.'
        )
    return unsure(typed, readings)


def _as_thread(said: Words) -> Words:
    """A diameter in inches with its threads per inch apart, or with UNF, as one thread."""
    head = said.inch[0]
    steps = [*said.tpi, *said.numbers]
    if steps:
        return Words(names=said.names, threads=[f"{head}-{steps[0]}"])
    heads = {o.thread for o in made() if o.family not in PIPED and o.pitch}
    found = sorted(
        (thread for thread in heads if thread.rpartition("-")[0] == head),
        key=lambda thread: -len(of_thread(thread)),
    )
    return Words(names=said.names, threads=found[:1] or [f"{head}-0"])


def _ranked(rows: Sequence[Made]) -> list[Made]:
    return sorted((o for o in rows if o.family in _ORDER), key=lambda o: _ORDER.index(o.family))


def _with_thread(said: Words, gender: Gender) -> list[Made]:
    head, _, pitch = said.threads[0].rpartition("-")
    try:
        thread = f"{mixed(inches(head))}-{pitch}"
    except (ZeroDivisionError, ValueError):
        return []
    return [
        one
        for one in _ranked(of_thread(thread))
        if not (one.family is Family.BANJO and (gender is Gender.FEMALE or one.size[0] == "G"))
    ]


def _metrics(diameter: str, pitch: str, gender: Gender) -> list[Made]:
    """Metric ends of a diameter; the hole of a banjo bolt is a flat-faced port already."""
    thread = f"M{diameter}x{pitch}"
    return [
        one
        for one in _ranked(made())
        if (one.thread == thread if pitch else one.thread.startswith(thread))
        and (one.family is not Family.BANJO or gender is Gender.MALE)
    ]


def _pipes(said: Words) -> list[tuple[Family, str]]:
    typed = said.inch[0] if said.inch else said.numbers[0]
    try:
        size = mixed(inches(typed))
    except (ZeroDivisionError, ValueError):
        return []
    families: tuple[Family, ...] = (Family.NPT, Family.BSPP, Family.BSPT)
    if "bsp" in said.names:
        families = families[1:]
    elif "taper" in said.names:
        families = (Family.NPT, Family.BSPT)
    found = [(family, size) for family in families if size in sizes(family)]
    if not said.names & {"bsp", "pipe", "taper"}:
        dash = Fraction(16) * inches(typed)
        found += [(f, f"-{dash}") for f in _ORDER[:2] if f"-{dash}" in sizes(f)]
    return found


def _open_pitch(typed: str, diameter: str, readings: Sequence[End]) -> AmbiguousEndError:
    pitches = sorted({o.pitch for o in made() if o.pitch and o.thread.startswith(f"M{diameter}x")})
    steps = listed([f"{pitch * 1000:g}" for pitch in pitches])
    fives = listed([f"{pitch * 5000:.2f}" for pitch in pitches])
    is_open = len(pitches) > 1
    ask = f"Measure five pitches: {fives} mm. " if is_open else ""
    return AmbiguousEndError(
        f'"{typed}" does not say the pitch ({steps} mm) nor the seat. {ask}It may be'
        f" {listed([show(end) for end in readings])}. Type it in full, e.g."
        f' "{show(readings[0])}", or "?" while it is open.',
        readings,
    )


def _near_threads(diameter: float, is_metric: bool) -> str:
    rows = {
        o.thread: abs(o.major - diameter)
        for o in made()
        if o.pitch
        and o.family not in PIPED
        and not o.size.startswith("G")
        and o.thread.startswith("M") == is_metric
    }
    return listed(sorted(rows, key=lambda thread: (rows[thread], thread))[:3], "and")


def _odd_thread(typed: str, thread: str, readings: Sequence[End], gender: Gender) -> EndError:
    if readings:
        other = End(Family.OTHER, thread, gender)
        return unsure(typed, (*readings, other))
    try:
        diameter = float(inches(thread.rpartition("-")[0])) * 0.0254
    except (ZeroDivisionError, ValueError):
        return EndError(f'"{typed}" is no thread. {_HINT}')
    return EndError(
        f'"{typed}": no end in the tables has the thread {thread}; the nearest are'
        f" {_near_threads(diameter, is_metric=False)}. If it measures so, say what it seals on:"
        f' "{thread} with gasket".'
    )


def _odd_metric(typed: str, diameter: str, pitch: str) -> EndError:
    thread = f"M{diameter}x{pitch}" if pitch else f"M{diameter}"
    example = thread if pitch else f"{thread}x1"
    return EndError(
        f'"{typed}": no end in the tables has the thread {thread}; the nearest are'
        f" {_near_threads(float(diameter) / 1000, is_metric=True)}. If it measures so, say what it"
        f' seals on: "{example} with cone".'
    )
