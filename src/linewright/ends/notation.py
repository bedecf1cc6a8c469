# SPDX-License-Identifier: Apache-2.0
"""Read an end as the trade writes it, or say in how many ways it can be read."""

import re
from dataclasses import dataclass, replace
from functools import lru_cache

from linewright.base.errors import EndError
from linewright.ends.ambiguity import of_bare_size, unsure
from linewright.ends.end import UNKNOWN, End, Family, Gender
from linewright.ends.lexicon import Words, tidy, words
from linewright.ends.measures import size_of
from linewright.ends.sizes import DASHED, PIPED, of_thread
from linewright.ends.telling import listed
from linewright.ends.words import show

__all__ = ["Reading", "read", "show"]

#: The longest text that is read; no end needs more.
LONGEST = 120

_UNKNOWN = re.compile(
    r"\?*|(?:unknown|not known|don'?t know|do not know|dont know|not sure|no idea|tbd"
    r"|to be measured|not measured)[ ?.]*",
    re.IGNORECASE,
)
_DECIMAL_COMMA = re.compile(r"(?<=\d),(?=\d)")
_OTHER = re.compile(r"other\s*:\s*(?P<rest>.*)\Z", re.IGNORECASE)
_OTHER_BARE = re.compile(r"other(?:\s+(?=m?\d)|\Z)(?P<rest>.*)\Z", re.IGNORECASE)
_WITH = re.compile(r"(?P<thread>.*?)\s*\bwith\s+(?P<seat>.+)\Z", re.IGNORECASE)
_LAST_GENDER = re.compile(r"(?P<rest>.*?)\s*,?\s*\b(?P<word>male|female)\Z", re.IGNORECASE)
_FLANGE = re.compile(r"\bflanged?\b", re.IGNORECASE)
_STOPS = str.maketrans(",:", "  ")
_MILLIMETRES = re.compile(r"\b(\d+(?:\.\d+)?)\s?mm\b", re.IGNORECASE)
_BOLTS = re.compile(r"\b(\w+)[ -]bolt\b", re.IGNORECASE)
_NUMBER_WORDS = {"two": "2", "three": "3", "four": "4", "five": "5", "six": "6"}

_GENDERS = {"male": Gender.MALE, "female": Gender.FEMALE}
_METALS = ("stainless", "steel", "aluminium", "titanium")
#: What the trade means where it leaves the gender of a component's port out.
_ASSUMED = {
    Family.FLARE_37: Gender.MALE,
    Family.FLARE_45: Gender.MALE,
    Family.ORFS: Gender.MALE,
    Family.INVERTED_FLARE: Gender.FEMALE,
    Family.BUBBLE_FLARE: Gender.FEMALE,
    Family.ORB_UNF: Gender.FEMALE,
    Family.NPT: Gender.FEMALE,
    Family.NPTF: Gender.FEMALE,
    Family.BSPP: Gender.FEMALE,
    Family.BSPT: Gender.FEMALE,
    Family.ISO6149: Gender.FEMALE,
    Family.METRIC_FLAT_FACE: Gender.FEMALE,
}
#: Families that come in one gender, or none.
_ONLY = {
    Family.BANJO: Gender.MALE,
    Family.BEAD: Gender.MALE,
    Family.BARB: Gender.MALE,
    Family.TUBE: Gender.NONE,
    Family.VBAND: Gender.NONE,
    Family.WELD: Gender.FEMALE,
    Family.HOSE: Gender.FEMALE,
}
#: Families whose nut can turn on its fitting.
_NUTTED = (
    *DASHED,
    *PIPED,
    Family.METRIC_FLAT_FACE,
    Family.ISO6149,
    Family.BUBBLE_FLARE,
)
_EXAMPLES = '"-8 ORB female", "3/8 NPT male", "M18x1.5 flat face", "38 mm bead" or "?"'


@dataclass(frozen=True, slots=True)
class Reading:
    """What a typed end was read as.

    ``is_gender_assumed`` says that the text names no gender and the trade's habit was taken.
    ``said`` is a remark for the builder, such as ``38.1 mm read as 38 mm``; mostly empty.
    """

    end: End
    is_gender_assumed: bool = False
    said: str = ""


@lru_cache(maxsize=4096)
def read(text: str, on_component: bool = True) -> Reading:
    """Read an end as the trade writes it.

    Parameters
    ----------
    text : str
        For example ``-8 ORB female``, ``AN-8 male``, ``3/8 NPT``, ``38 mm bead`` or ``?``.
    on_component : bool
        Whether the end is a port of a component, whose gender may be left out: then pipe,
        boss and metric are holes, flares are cones. Elsewhere it must be said.

    Returns
    -------
    Reading
        The end, whether its gender was assumed, and a remark.

    Raises
    ------
    EndError
        If it cannot be read, or names a size that is not made.
    AmbiguousEndError
        If it can be read in several ways; ``readings`` lists them.

    Examples
    --------
    >>> str(read("SAE-8 port").end)
    'orb_unf -8 f'
    >>> read("3/8 NPT")
    Reading(end=End(family=<Family.NPT: 'npt'>, size='3/8', gender=<Gender.FEMALE: 'f'>,
    swivel=False, kind=''), is_gender_assumed=True, said='')
    """
    if len(text) > LONGEST:
        raise EndError(
            f'"{text[:40]}…" has {len(text)} characters; an end is written with at most'
            f" {LONGEST}. Type it like {_EXAMPLES}."
        )
    typed = tidy(text)
    if _UNKNOWN.fullmatch(typed):
        return Reading(UNKNOWN)
    if _DECIMAL_COMMA.search(typed) and not _OTHER.match(typed):
        right = _DECIMAL_COMMA.sub(".", typed)
        raise EndError(
            f'"{typed}" has a decimal comma; decimals are written with a point: "{right}".'
        )
    if other := _OTHER.match(typed):
        return Reading(_other(typed, other["rest"]))
    if _FLANGE.search(typed):
        return Reading(_flange(typed))
    if other := _OTHER_BARE.match(typed):
        return Reading(_other(typed, other["rest"]))
    said = words(typed)
    kept = _kept_as_other(typed, said)
    if kept is not None:
        return Reading(kept)
    if said.strays:
        strays = listed([f"“{word}”" for word in said.strays], "and")
        are = "is not a word" if len(said.strays) == 1 else "are not words"
        raise EndError(
            f'"{typed}": {strays} {are} of an end that is known here. Type it like {_EXAMPLES}; a'
            ' thread that nothing here has is written "other: M14x1 with cone".'
        )
    return _judged(typed, said, on_component)


def _other(typed: str, rest: str) -> End:
    gender, seat = Gender.NONE, ""
    if match := _LAST_GENDER.match(rest):
        rest, gender = match["rest"], _GENDERS[match["word"].lower()]
    if match := _WITH.match(rest):
        rest, seat = match["thread"], match["seat"]
    if not rest:
        raise EndError(
            f'"{typed}" names no thread; write the thread as it is and what it seals on:'
            ' "other: M14x1 with cone".'
        )
    return End(Family.OTHER, rest, gender, kind=seat)


def _kept_as_other(typed: str, said: Words) -> End | None:
    """Keep a thread with a seat in words, where no family of the tables has both."""
    match = _WITH.match(typed)
    if match is None:
        return None
    seat, gender = match["seat"], Gender.NONE
    if last := _LAST_GENDER.match(seat):
        seat, gender = last["rest"], _GENDERS[last["word"].lower()]
    before = words(match["thread"])
    if before.strays or before.names - {"male", "female"}:
        return None
    if len(before.threads) + len([m for m in before.metric if m[1]]) != 1:
        return None
    thread = before.threads[0] if before.threads else "M{}x{}".format(*before.metric[0])
    tests = {"oring": (Family.ORB_UNF, Family.ISO6149), "flat": (Family.METRIC_FLAT_FACE,)}
    families = {one.family for one in of_thread(thread)}
    meant = [f for name in said.names for f in tests.get(name, ())]
    if not said.strays and families & set(meant):
        return None
    for word in before.names & {"male", "female"}:
        gender = _GENDERS[word]
    seat = re.sub(r"^an?\s+", "", seat, flags=re.IGNORECASE)
    return End(Family.OTHER, thread, gender, kind="flat, gasket" if seat == "gasket" else seat)


def _flange(typed: str) -> End:
    pattern, before = _FLANGE.sub(" ", typed), ""
    while pattern != before:  # leaving a word out can bring a number and its unit together
        before = pattern
        pattern = " ".join(_FLANGE.sub(" ", pattern).translate(_STOPS).split())
        pattern = _MILLIMETRES.sub(r"\1", pattern)
        pattern = _BOLTS.sub(
            lambda m: f"{_NUMBER_WORDS.get(m[1].lower(), m[1])}-bolt",
            pattern,
        )
    if not re.search(r"\w", pattern):
        raise EndError(
            f'"{typed}" does not say the hole pattern; bolted flanges mate by it. Type the number'
            ' of bolts and the spacing: "2-bolt flange 38 mm".'
        )
    return End(Family.FLANGE, pattern)


def _family(typed: str, said: Words) -> Family | None:
    """The one family that the words name; None where they leave it open."""
    names = said.names
    found: list[Family] = []
    if "inverted" in names:
        found.append(Family.INVERTED_FLARE)
    elif "bubble" in names:
        found.append(Family.BUBBLE_FLARE)
    elif "deg45" in names and not names & {"an", "jic", "deg37"}:
        found.append(Family.FLARE_45)
    elif names & {"an", "jic", "flare", "deg37"} and "orb" not in names and "oring" not in names:
        found.append(Family.FLARE_37)
    if "orfs" in names:
        found.append(Family.ORFS)
    elif names & {"orb", "oring"} and not names & {"bspp", "iso6149", "bsp"}:
        found.append(Family.ISO6149 if said.metric else Family.ORB_UNF)
    elif "sae" in names and "port" in names and not found:
        found.append(Family.ORB_UNF)
    for name, family in (
        ("nptf", Family.NPTF),
        ("bspp", Family.BANJO if "banjo" in names else Family.BSPP),
        ("bspt", Family.BSPT),
        ("iso6149", Family.ISO6149),
        ("banjo", Family.BANJO),
        ("bead", Family.BEAD),
        ("barb", Family.BARB),
        ("vband", Family.VBAND),
        ("spinon", Family.SPINON),
        ("qc", Family.QC),
    ):
        if name in names:
            found.append(family)
    if "npt" in names and "nptf" not in names:
        found.append(Family.NPT)
    if "bsp" in names:
        if "taper" in names:
            found.append(Family.BSPT)
        elif names & {"parallel", "flat"}:
            found.append(Family.BSPP)
    if names & {"r", "rc", "rp"}:
        found.append(Family.BSPT)
    if "flat" in names and not found:
        found.append(Family.METRIC_FLAT_FACE)
    if names & {"hose", "nipple"} and not found:
        found.append(Family.HOSE)
    if "hose-end" in names and not found:
        found.append(Family.FLARE_37)
    if "tube" in names and "nut" not in names and not found:
        found.append(Family.TUBE)
    if names & {"weld", "bung"} and not found and not said.all_numbers:
        found.append(Family.WELD)
    both = list(dict.fromkeys(found))
    if len(both) > 1 or ("deg45" in names and names & {"an", "jic", "deg37"}):
        shown = [f.value.replace("_", " ") for f in both] + ["45° flare"] * (len(both) < 2)
        raise EndError(
            f'"{typed}" names {listed(shown, "and")} at once; an end has one seat. Leave out what'
            f" it is not, e.g. {_EXAMPLES}."
        )
    return both[0] if both else None


def _gender(typed: str, said: Words, family: Family | None) -> Gender:
    """The gender that the words name; none where they leave it open."""
    names = said.names
    if {"male", "female"} <= names:
        raise EndError(f'"{typed}" says both male and female; an end is one of them.')
    if family is Family.BSPT and names & {"rc", "rp"}:
        if "male" in names:
            size = listed(said.inch or ["1/4"])
            raise EndError(
                f'"{typed}" contradicts itself: Rc and Rp are the female threads of ISO 7-1. The'
                f' male is written "R {size} male".'
            )
        return Gender.FEMALE
    for name, gender in _GENDERS.items():
        if name in names:
            return gender
    if names & {"swivel", "nut", "hose-end"}:
        is_tube_nut = family in (Family.INVERTED_FLARE, Family.BUBBLE_FLARE)
        return Gender.MALE if is_tube_nut else Gender.FEMALE
    if family is Family.BSPT and "r" in names and "port" not in names:
        return Gender.MALE
    if family is Family.HOSE and "nipple" in names:
        return Gender.MALE
    if "port" in names and family not in (Family.FLARE_37, Family.FLARE_45, Family.ORFS):
        return Gender.FEMALE
    return Gender.NONE


def _judged(typed: str, said: Words, on_component: bool) -> Reading:
    family = _family(typed, said)
    gender = _gender(typed, said, family)
    if family is None:
        raise of_bare_size(typed, said, gender, _ASSUMED)
    is_loose_nut = bool(said.names & {"swivel", "nut", "hose-end"})
    if gender is Gender.FEMALE and family in (Family.BEAD, Family.BARB):
        raise EndError(
            f'"{typed}": a {family.value} goes into the hose, so it is never female; leave the'
            ' word out, or type the hose: "38 mm clamped hose".'
        )
    size, remark = size_of(typed, said, family, gender or _ASSUMED.get(family, Gender.MALE))
    end = End(family, size, gender, is_loose_nut and family in _NUTTED, _kind(said, family))
    is_hole = gender is Gender.FEMALE or (gender is Gender.NONE and "port" in said.names)
    if family is Family.FLARE_37 and "an" in said.names and is_hole and not is_loose_nut:
        boss = End(Family.ORB_UNF, size, Gender.FEMALE)
        raise unsure(typed, (boss, replace(end, gender=gender or Gender.MALE)))
    is_bare_tube = gender is Gender.NONE and "tube" in said.names
    if is_bare_tube and family in (Family.FLARE_37, Family.FLARE_45):
        nut = replace(end, gender=Gender.FEMALE, swivel=True)
        raise unsure(typed, (nut, replace(end, gender=Gender.MALE)))
    if family is Family.BSPP:
        end = replace(end, size=f"G {size}")
    if family is Family.BANJO and (gender is Gender.FEMALE or "port" in said.names):
        hole = _banjo_port(end)
        if hole.family is not Family.BANJO:
            remark = "the port of a banjo is a flat-faced port of its bolt's thread"
        return Reading(hole, said=remark)
    assumed = False
    if end.gender is Gender.NONE or family in (Family.BANJO, Family.TUBE, Family.VBAND):
        if family in _ONLY:
            end = replace(end, gender=_ONLY[family])
        elif family in (Family.QC, Family.SPINON) or not on_component:
            male = replace(end, gender=Gender.MALE)
            pair = (male, replace(end, gender=Gender.FEMALE))
            raise unsure(typed, tuple(_lettered(one, said) for one in pair))
        else:
            end, assumed = replace(end, gender=_ASSUMED[family]), True
    return Reading(_lettered(end, said), assumed, remark)


def _banjo_port(end: End) -> End:
    if end.size.startswith("M"):
        return End(Family.METRIC_FLAT_FACE, end.size, Gender.FEMALE)
    if end.size.startswith("G"):
        return End(Family.BSPP, end.size, Gender.FEMALE)
    return End(Family.BANJO, end.size, Gender.FEMALE)


def _lettered(end: End, said: Words) -> End:
    """Put the letter of ISO 7-1 before the size of a British taper thread."""
    if end.family is not Family.BSPT or end.size.startswith("R"):
        return end
    female = "Rp" if "rp" in said.names else "Rc"
    letter = "R" if end.gender is Gender.MALE else female
    return replace(end, size=f"{letter} {end.size}")


def _kind(said: Words, family: Family) -> str:
    names = said.names
    if family is Family.WELD:
        return next((metal for metal in _METALS if metal in names), "")
    if family is Family.HOSE:
        kinds = {"ptfe": "PTFE", "push-on": "push-on", "clamped": "clamped", "rubber": "rubber"}
        kind = next((value for name, value in kinds.items() if name in names), "")
        return kind or ("" if said.dash else "clamped")
    return ""
