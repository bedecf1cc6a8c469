# SPDX-License-Identifier: Apache-2.0
"""What an offer is: our code for a supplier's description, with a score and the reason.

A description is accepted without asking only where every word of it is understood, all that
tells parts apart is said (or settled by a rule of the trade), and one part is left. The rules:
an adaptor from a pipe, boss or metric thread to a flare is male at both ends and straight
unless it says otherwise; a hose end that says nothing of swivelling is fixed; a bare "swivel"
may mean the nut; an inch thread alone does not tell the seat; "BSP" alone does not tell
parallel from taper. [common practice]
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from linewright.order import _recognise_goods as goods
from linewright.order._recognise_ends import Said, ends_of
from linewright.order._recognise_fittings import by_ends
from linewright.order._recognise_goods import Guess, Heard
from linewright.order._recognise_parts import codes
from linewright.order._recognise_placed import accessory, unplaced
from linewright.order._recognise_words import Word, read_words
from linewright.order.model import Offer

#: Score from which a match is accepted without asking [choice: measured on labelled offers].
ENOUGH = 0.8

#: What each word that nobody understood takes off.
_UNKNOWN = 0.12


class Verdict(StrEnum):
    """What to do with a match."""

    ACCEPTED = "accepted"  # it is that
    ASK = "ask"  # it may be: yes or no
    OTHER = "other"  # nothing of ours


@dataclass(frozen=True, slots=True)
class Match:
    """What a description was recognised as.

    ``codes`` are ours, likeliest first; ``score`` is how far the first is to be trusted
    [-], and ``why`` says from what it was read.
    """

    codes: tuple[str, ...]
    score: float
    why: str

    @property
    def verdict(self) -> Verdict:
        """Whether it is accepted, asked about, or nothing of ours."""
        if not self.codes:
            return Verdict.OTHER
        return Verdict.ACCEPTED if self.score >= ENOUGH else Verdict.ASK

    @property
    def code(self) -> str | None:
        """Our code, where it is accepted without asking."""
        return self.codes[0] if self.verdict is Verdict.ACCEPTED else None


def recognise(offer: Offer) -> Match:
    """Say what an offer is.

    Parameters
    ----------
    offer : Offer
        Its own column for our code goes before its attributes, these with its description.

    Returns
    -------
    Match
        Our code with score and reason.
    """
    if offer.part:
        if offer.part in codes() or is_code(offer.part):
            return Match((offer.part,), 1.0, "our own code")
        return Match((), 0.0, f'"{offer.part}" is no code of ours')
    plain = recognise_text(offer.description)
    if not offer.attributes or offer.attributes == offer.description:
        return plain
    both = recognise_text(offer.attributes)
    if both.verdict is Verdict.ACCEPTED and plain.verdict is Verdict.ACCEPTED:
        if both.codes[0] == plain.codes[0]:
            return Match(both.codes, max(both.score, plain.score), f"{plain.why}; by its columns")
        return Match((plain.codes[0], both.codes[0]), 0.5, "the description and the columns differ")
    joined = recognise_text(f"{offer.description}, {offer.attributes}")
    best = max((plain, both, joined), key=lambda m: (m.verdict is Verdict.ACCEPTED, m.score))
    is_by_columns = best.verdict is Verdict.ACCEPTED and best is both
    if is_by_columns and plain.codes and best.codes[0] not in plain.codes:
        return Match((best.codes[0], *plain.codes), 0.5, "the columns and the text differ")
    return best


def is_code(text: str) -> bool:
    """Whether a text is a code as the lists write it.

    Parameters
    ----------
    text : str
        What may be a code.

    Returns
    -------
    bool
        True for a part, a hose, a ring, a washer.
    """
    start = text.split(" ")[0]
    return text in codes() or start in ("hose", "tube", "pipe", "O-ring", "washer", "gasket")


@lru_cache(200_000)
def recognise_text(description: str) -> Match:
    """Say what a description means.

    Parameters
    ----------
    description : str
        Free text.

    Returns
    -------
    Match
        Our code with score and reason.

    Examples
    --------
    >>> found = recognise_text("1/2 NPT to -10 male flare adaptor, straight, black")
    >>> found.codes[0], found.verdict
    ('adaptor-npt-half-m-to-flare-10-m', <Verdict.ACCEPTED: 'accepted'>)
    >>> recognise_text("dash eight O-rings").verdict
    <Verdict.ASK: 'ask'>
    """
    match = _judged(read_words(description))
    if match.code is not None and (thing := accessory(description, match.code)):
        return Match(match.codes, 0.5, f"{match.why}; it may be a {thing}")
    return match


@lru_cache(200_000)
def _judged(words: tuple[Word, ...]) -> Match:
    heard = Heard(words)
    stops = heard.all("stop")
    guess = _guess(heard)
    if not guess.codes:
        why = f'"{stops[0]}" is no part of a line' if stops else guess.why
        return Match((), 0.0, why)
    unknown = heard.all("unknown")
    is_named = bool(heard.all("noun"))
    several = len(guess.codes) > 1
    score = 0.5 if several else 0.98
    found = tuple(dict.fromkeys(guess.codes))[:6]
    why = guess.why
    if several and len(found) > 1:
        why += ": more than one fits"
    typos = heard.all("typo")
    if typos:
        score -= 0.04 * len(typos)
        why += "; taken for slips: " + ", ".join(typos[:5])
    hard = [word for word in stops if word not in _SOFT]
    if hard:
        return Match((), 0.0, f'"{hard[0]}" is no part of a line')
    is_fitting = heard.has("noun", "adaptor") and found[0].startswith(("adaptor-", "sensor-"))
    if stops and not is_fitting:
        score -= 0.3
        why += f'; "{stops[0]}" may be another thing'
    if unknown:
        # Where no noun says what it is, a word nobody knows may be that noun.
        score -= _UNKNOWN * len(unknown) if is_named else 0.3
        why += "; not understood: " + ", ".join(unknown[:5])
    loose = _loose(heard, found[0]) or _odd(heard, found[0]) or unplaced(heard, found[0])
    if loose:
        score -= 0.3
        why += f"; {loose} has no place"
    return Match(found, max(round(score, 3), 0.05), why)


#: Words that stand beside parts of ours as well: asked about.
_SOFT = frozenset(("gauge", "gage", "sensor", "sender", "valve", "quick", "coupling", "wire"))


def _loose(heard: Heard, code: str) -> str:
    """A number that nothing was made of."""
    if heard.all("as568") or heard.has("noun", "oring"):
        return ""
    if heard.has("noun", "drain flange", "flange gasket", "flange plug"):
        return ""
    for number in heard.all("num"):
        if number not in _HARMLESS and number not in re.split(r"[^0-9.]+", code):
            return number
    return ""


_RANGED = frozenset(("washer", "O-ring", "worm", "t", "fuel"))
_AT_HOSES = frozenset(("O-ring", "washer", "grommet", "olive", "p", "worm", "fuel"))


def _odd(heard: Heard, code: str) -> str:
    """Something said that the part has no place for."""
    kind = code.split("-")[0] if " " not in code else code.split(" ")[0]
    is_hose_end = code.startswith(("hose-end", "banjo-hose-end"))
    is_hose = code.startswith("hose ")
    if (kind in ("coupler", "silicone", "cap", "pipe") or is_hose) and heard.all("turn"):
        return heard.all("turn")[0]
    if is_hose:
        if set(heard.all("angle")) - {"0"} or heard.all("metric") or heard.has("noun", "elbow"):
            return "a shape"
        if heard.has("num", "45", "60", "90", "120", "150", "180"):
            return "an angle"
        return ""
    for odd in ("dim", "range", "as568", "spec"):
        is_of_washer = odd == "dim" and heard.has("fam", "flat")
        if heard.all(odd) and not is_of_washer and kind not in _RANGED:
            return heard.all(odd)[0]
    if heard.has("trait", "double"):
        return "double"
    if heard.has("trait", "hump") and not code.endswith("hump"):
        return "hump"
    if heard.has("mat", "plastic", "copper", "cunifer") and not code.startswith(
        ("dust-cap", "bonding", "hose", "washer", "barb-joiner", "barb-tee")
    ):
        return heard.all("mat")[0]
    if is_hose_end:
        bolt = [value.partition("x")[0][1:] for value in heard.all("metric")]
        others = [mm for mm in heard.all("mm") if mm not in bolt]
        if others or heard.all("inch") or (heard.all("un") and kind == "hose"):
            return "a second size"
        return "male" if heard.has("g", "m") else ""
    if heard.all("hose") and kind not in _AT_HOSES:
        return "for a hose of a kind"
    if heard.has("turn", "full swivel"):
        return "full swivel"
    if heard.has("turn", "fixed") and code.endswith("adjustable"):
        return "fixed"
    if kind in ("bulkhead", "union", "plug") and heard.has("turn", "swivel"):
        return "swivel"
    return ""


_HARMLESS = frozenset(("75", "70", "90", "100", "10", "40", "60", "80", "1", "2", "3"))

_SUNDRIES: tuple[tuple[str, Callable[[Heard], Guess]], ...] = (
    ("bulkhead nut", lambda h: goods.by_dash("bulkhead-nut", h)),
    ("panel washer", lambda h: goods.by_dash("panel-washer", h)),
    ("dust cap", lambda h: goods.by_dash("dust-cap", h)),
    ("test cap", lambda h: goods.by_dash("test-cap-set", h)),
    ("olive", lambda h: goods.by_dash("olive", h)),
    ("banjo bolt", goods.banjo_bolt),
    ("p clip", lambda h: goods.by_mm("p-clip-lined", h)),
    ("t-bolt clamp", lambda h: goods.clamp("t-bolt", h)),
    ("worm clamp", lambda h: goods.clamp("worm", h)),
    ("fuel clamp", lambda h: goods.clamp("fuel", h)),
    ("v-band clamp", lambda h: goods.by_mm("v-band-clamp", h)),
    ("v-band ring", lambda h: goods.by_mm("v-band-ring", h)),
    ("heat sleeve", lambda h: goods.by_mm("heat-sleeve", h)),
    ("fire sleeve", lambda h: goods.by_mm("fire-sleeve", h)),
    ("chafe sleeve", lambda h: goods.by_mm("chafe-sleeve", h)),
    ("grommet", lambda h: goods.by_mm("grommet", h)),
    ("hose tag", lambda h: Guess(("hose-tag",), "a tag for hoses")),
    ("bonding strap", lambda h: Guess(("bonding-strap",), "a bonding strap")),
    ("flange bolt", lambda h: Guess(("flange-bolt", "flange-bolt"), "which thread is not said")),
    ("bonded", goods.washer),
    ("clamp", lambda h: goods.clamp("", h)),
)

_FITTINGS = frozenset(
    ("adaptor", "union", "reducer", "elbow", "tee", "bulkhead", "plug", "cap", "bung", "bushing",
     "plate", "head", "banjo", "screen", "jet", "restrictor", "filter", "check valve", "gauge port",
     "gauge tee", "sensor adaptor", "tube nut", "drain flange", "v-band flange", "y block",
     "joiner")
)  # fmt: skip


def _guess(heard: Heard) -> Guess:
    """Which sort of thing it is, and which of them."""
    nouns = set(heard.all("noun"))
    fittings = nouns & _FITTINGS
    if "paste" in nouns:
        return _paste(heard)
    if heard.all("fast") and heard.has("metric", "M5") and heard.has("g", "nut"):
        is_clips = "p clip" in nouns and not heard.all("mm")
        return Guess(("clip-screw-and-nut",) * (1 if is_clips else 2), "screw with nut for clips")
    for noun, read in _SUNDRIES:
        if noun in nouns:
            if noun == "bonded" and fittings:
                continue
            if noun == "olive" and "hose end" in nouns:
                continue
            return read(heard)
    ends, seats = ends_of(heard.words)
    sized = [end for end in ends if end.sizes]
    if "oring" in nouns and not fittings and "hose end" not in nouns and len(sized) < 2:
        return goods.o_ring(heard)
    if "washer" in nouns and not fittings:
        return goods.washer(heard)
    if "lock nut" in nouns and (
        heard.all("noun")[0] == "lock nut"
        or not (fittings - {"adaptor"} or heard.has("trait", "adjustable"))
    ):
        return goods.by_dash("lock-nut", heard)
    if "flange gasket" in nouns or "flange plug" in nouns:
        return _flange(heard, "flange-gasket-" if "flange gasket" in nouns else "plug-flange-")
    if "silicone cap" in nouns or ({"silicone", "cap"} <= nouns):
        return goods.by_mm("cap-hose", heard)
    if "banjo" in nouns:
        return _banjo(heard)
    if _is_hose_end(heard, nouns, fittings, sized):
        return goods.hose_end(heard)
    if heard.has("fam", "barb") and "hose" in nouns and not sized:
        return Guess((), "no size")
    return by_ends(heard, nouns, fittings, ends, seats)


def _is_hose_end(heard: Heard, nouns: set[str], fittings: set[str], sized: list[Said]) -> bool:
    is_push_on = heard.has("hose", "push-on") and "hose end" in nouns
    others = heard.has("fam", "bead", "npt", "orb_unf", "bspp", "qc", "bspt", "orfs")
    if others or (heard.has("fam", "barb") and not is_push_on):
        return False
    if fittings - {"adaptor", "elbow"}:
        return False
    if "hose end" in nouns:
        return True
    has_turn = bool(heard.all("turn") or heard.all("angle") or heard.all("num"))
    kinds = heard.all("hose")
    # "dash ten ninety for rubber" is said of a hose end without naming it.
    return bool(kinds) and has_turn and len(sized) <= 1 and not {"hose", "tube"} & nouns


def _paste(heard: Heard) -> Guess:
    uses = [use for use in ("fuel", "oil", "heater") if heard.has("use", use)]
    names = {"fuel": "paste-fuel", "oil": "paste-oil", "heater": "paste-coolant"}
    found = tuple(names[use] for use in uses)
    if len(found) == 1:
        return Guess(found, f"thread paste for {uses[0]}")
    return Guess(found or tuple(names.values()), "thread paste for which fluid is not said")


def _flange(heard: Heard, prefix: str) -> Guess:
    sizes = heard.all("mm") or [n for n in heard.all("num") if len(n) == 2]
    if len(sizes) != 1 or heard.has("num", "3", "4"):
        return Guess((), "a flange without one distance of its holes")
    code = f"{prefix}2-bolt-{sizes[0]}"
    if code not in codes():
        return Guess((), f"a flange of {sizes[0]} mm is none of ours")
    return Guess((code,), f"flange, {sizes[0]} mm")


def _banjo(heard: Heard) -> Guess:
    threads = heard.all("metric") + heard.all("un")
    full = [t for t in threads if "x" in t or "-" in t]
    bare = [t for t in threads if t not in full]
    if len(full) > 1 or (full and bare and not full[0].startswith(f"{bare[0]}x")):
        return Guess((), "a banjo of two threads")
    names = [t.lower().replace("/", "-") for t in full] or [
        c.removeprefix("banjo-bolt-")
        for c in sorted(codes())
        if bare and c.startswith(f"banjo-bolt-{bare[0].lower()}x")
    ]
    dash = heard.dash
    kinds = [k for k in heard.all("hose") if k in ("rubber", "PTFE", "push-on")]
    is_hose = bool(kinds) or heard.has("noun", "hose end", "hose")
    if is_hose:
        found = [
            code
            for name in names
            for kind in (kinds or ["rubber", "PTFE"])
            if (code := f"banjo-hose-end-{name}-to-hose-{dash[1:]}-{kind.lower()}") in codes()
        ]
        why = "banjo hose end by thread, dash and hose"
        return Guess(tuple(found) if kinds or len(found) != 1 else (found[0],) * 2, why)
    if not dash:
        return Guess((), "a banjo to nothing of ours")
    found = [
        c
        for name in names
        if (c := f"banjo-adaptor-banjo-{name}-m-to-flare-{dash[1:]}-m") in codes()
    ]
    if heard.has("g", "f", "nut"):
        return Guess(tuple(found) * 2, "a banjo to a female flare")
    return Guess(tuple(found), "banjo adaptor by thread and flare")
