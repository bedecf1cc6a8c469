# SPDX-License-Identifier: Apache-2.0
"""The trade's words: a description taken apart into sizes, families, genders and nouns.

A word that stands in none of the lists is kept as unknown, so that whoever judges the whole
can see that something was not understood.
"""

import re
from functools import cache, lru_cache
from typing import NamedTuple

from linewright.order._recognise_habits import plainly
from linewright.order._recognise_noise import KNOWN, NOISE, STOP
from linewright.order._recognise_terms import PHRASES

_INCHES = re.compile(
    r'\( *[\d./ -]+(?:"|in(?:ch)?)?(?: *(?:to|>|-|x) *[\d./ -]+(?:"|in(?:ch)?)?)? *\)'
)
_PACKS = re.compile(
    r"\b(?:pack|packet|bag|box|set|lot|pkt) of "
    r"(?:\d+|two|three|four|five|six|eight|ten|twelve|twenty)\b"
    r"|\b(?:pk|pack|packet|bx|box|qty|pkt|bag|vpe|ve)\.? ?:? ?\d+\b(?! ?mm)"
    r"|(?<![\d.,/x])\b\d+ ?(?:pcs|pc|pieces|pk|pce|per pack|per bag|off)\b"
    r"|\bve ?\d+\b|\( *\d+ ?x *\)|\( *x ?\d+ *\)|\( *\d+ *\) *$"
    r"|\bx ?(?!(?:30|45|60|90|120|150|180) *$)\d+(?: job lot)? *$|\bx ?\d+ job lot\b"
    r"|\b(?:priced? |sold )?(?:per|by the) (?:linear )?(?:ft|foot|m|mtr|met(?:re|er))\b"
    r"|(?<![\d./x-])\b(?:\d+(?:\.\d+)?|one|two|three|five|ten|twenty)[ -]?"
    r"(?:m|mtrs?|met(?:re|er)s?|ft|foot|feet)\b(?! ?x)(?: (?:coil|roll|length|reel)s?)?"
    r"|\b(?:each|ea|job lot|pair|pr)\b"
)
_AMOUNTS = re.compile(
    r"\b\d+(?:\.\d+)? ?(?:ml|cc|g|gram|grams|litres?|l|bar|psi|kg|micron|um)\b|\be ?85\b"
    r"|\bx ?0?\.\d+ ?(?:in|\")? ?wall\b|\b0?\.\d+ ?(?:in|\")? ?wall\b|\b\d+ ?ply\b|\b\d+ ?sh\b"
    r"|\b\d+ (?:shore|durometer)(?: a)?\b|\bx? ?\d+(?:\.\d+)? ?mm (?:long|legs?|wall|thick|wide)\b"
)
_LENGTHS = re.compile(
    r"\b(?:per|by the) (?:linear )?(?:ft|foot|m|mtr|met(?:re|er))\b"
    r"|(?<![\d./x-])\b(?:\d+(?:\.\d+)?|"
    r"one|two|three|five|ten|twenty)[ -]?(?:m|mtrs?|met(?:re|er)s?|ft|foot|feet)\b(?! ?x)"
)
_TOKEN = re.compile(
    r"as ?-?568 ?-? ?[a-z]?(?P<as568>\d{3})\b"
    r"|(?P<spec>\bmil ?-?h ?-?8794|\b100 ?r ?5\b|\bj?30 ?r ?\d+\b|\biso ?-?6149(?:-\d)?"
    r"|\biso ?-?(?:1179|228|9974|11926|8434|7)(?:-\d)?\b|\bdin ?3852\b|\bj ?(?:514|1926|1453|512)\b"
    r"|\br[12] ?a?t\b|\b[12]sn\b)"
    r"|\bm ?(?P<metric>\d{1,2}) ?(?:x|-|/(?=\d\.)) ?(?P<pitch>[0-3](?:\.\d+)?)(?![\d/])"
    r"|\bm(?P<bare>\d{1,2})\b"
    r"|(?P<mult>\b[2-4]) ?x ?(?=an|-\d|orb|m\d|\d+/\d|dash|\d+ ?mm)"
    r"|(?P<dim>\b\d+(?:\.\d+)? ?x ?\d+(?:\.\d+)?(?: ?x ?\d+(?:\.\d+)?)?)(?: ?mm)?(?= |,|$|\))"
    r"|(?P<un>\b\d+-\d+/\d+|\b[1-4] \d+/\d+|\b\d+/\d+|(?<![\d.])[01]?\.\d{3,4}|\b[12](?=-1[1-4]\b))"
    r"(?:\"? ?- ?|\"? ?x ?(?=\d\d ?un)|\"? (?=\d\d ?un))(?P<tpi>11\.5|[1-3]\d)(?! ?mm|[\d./])"
    r"|(?P<low>\b\d+(?:\.\d+)?) ?(?:mm)? ?(?:-|to) ?(?P<high>\d+(?:\.\d+)?) ?mm\b"
    r"(?! (?:bore )?(?:id|bore))"
    r"|(?P<mm>\b\d+(?:\.\d+)?) ?(?:mm|mil|millimet(?:re|er)s?)\b"
    r"|(?P<angle>\b\d{2,3}) ?(?:°|deg(?:ree)?s?\b|d\b)"
    r"|(?:(?<![\w./-])|(?<=an))-(?P<dash>\d{1,2})(?= ?(?:an|jic)\b|[^\w./]|$|(?:m|f|fm|orb|npt)\b)"
    r"|\ban[ -]{0,2}(?P<an>\d{1,2})(?![\d/.])(?:(?=\b)|(?=m|f|x))"
    r"|(?<![\d/.-])(?P<nan>\d{1,2}) ?-? ?an\b"
    r"|#(?P<hash>\d{1,2})\b"
    r"|(?P<inch>\b\d+-\d+/\d+|\b[1-4] \d+/\d+|\b\d+/\d+"
    r"|(?<![\d.])\d*\.\d+(?= ?(?:\"|in\b|inch|od\b))"
    r"|\b\d+(?:\.\d+)?(?= ?(?:\"|in\b|inch)))(?: ?(?:\"|in\b|inch(?:es)?\b))?"
    r"|(?P<num>\b\d+(?:\.\d+)?)"
    r"|(?P<word>[a-z]+)"
    r"|(?P<mark>[,>/&+;:()|°])"
)

_NUMBERS = {
    "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "eleven": 11, "ten": 10, "twelve": 12,
    "fourteen": 14, "sixteen": 16, "twenty": 20, "ninety": 90, "thirty": 30, "sixty": 60,
    "twentyfour": 24,
}  # fmt: skip


class Word(NamedTuple):
    """One thing that a description says: its kind, its value, and the text it stood in."""

    kind: str
    value: str


def read_words(description: str) -> tuple[Word, ...]:
    """Take a description apart.

    Parameters
    ----------
    description : str
        Free text.

    Returns
    -------
    tuple of Word
        Sizes (``dash``, ``un``, ``metric``, ``inch``, ``mm``, ``range``, ``dim``, ``num``), and
        what the phrases mean (``noun``, ``fam``, ``g``, ``turn``, ``angle``, ``hose``, ``mat``
        ...). Noise is left out, words of no list are ``unknown``, ``stop`` is another thing.

    Examples
    --------
    >>> [(w.kind, w.value) for w in read_words("ADPT AL 1/2NPT-M X -10 FLR-M STR BLK")][:5]
    [('noun', 'adaptor'), ('mat', 'aluminium'), ('inch', '1/2'), ('fam', 'npt'), ('g', 'm')]
    """
    text = plainly(description)
    if "mm" in text:
        text = _INCHES.sub(" ", text)
    text = _AMOUNTS.sub(" ", text)
    lengths = _LENGTHS.search(text) is not None
    text = _PACKS.sub(" ", text)
    text = re.sub(r"(?<=[a-z])[-.'](?=[a-z])", " ", text)
    raw: list[tuple[str, str]] = []
    for found in _TOKEN.finditer(text):
        kind = found.lastgroup or ""
        value = found.group(kind) if kind else ""
        if kind in ("as568", "mm", "num", "inch", "word", "mark", "dim"):
            raw.append((kind, value))
        elif kind in ("dash", "an", "nan", "hash"):
            raw.append(("dash", f"-{int(value)}"))
        elif kind == "pitch":
            pitch = float(value)
            raw.append(("metric", f"M{int(found.group('metric'))}x{pitch:g}"))
        elif kind == "bare":
            raw.append(("metric", f"M{int(value)}"))
        elif kind == "tpi":
            raw.append(("un", f"{_fraction(found.group('un'))}-{value}"))
        elif kind == "high":
            raw.append(("range", f"{float(found.group('low')):g}-{float(value):g}"))
        elif kind == "angle":
            raw.append(("angle", str(int(value))))
        elif kind == "mult":
            raw.append(("mult", value))
        elif kind == "spec":
            raw.extend(_spec(value))
    return _settled(_joined(raw), lengths)


def _settled(words: list[Word], lengths: bool) -> tuple[Word, ...]:
    """Bare numbers that are dashes become so; a span that is of no clamp is two sizes."""
    is_ported = any(w.value in ("plate", "head") for w in words if w.kind == "noun")
    is_clamp = any(w.kind == "noun" and "clamp" in w.value for w in words)
    kinds = {w.kind for w in words}
    families = {w.value for w in words if w.kind == "fam"}
    is_metric = "metric" in kinds
    found: list[Word] = []
    for at, word in enumerate(words):
        after = words[at + 1] if at + 1 < len(words) else Word("", "")
        before = words[at - 1] if at else Word("", "")
        is_piped = (after.kind == "fam" and after.value in _PIPES) or (
            before.kind == "fam" and before.value in _PIPES
        )
        if word == _TAPER:
            if families.isdisjoint(("npt", "nptf")):
                found.append(Word("fam", "bspt"))
            continue
        if word == _STUD and not is_metric and "un" in kinds:
            word = Word("fam", "orb_unf")  # "O-ring stud" beside an inch thread
        if word == _FEED:
            is_screwed = is_metric or not families.isdisjoint(_PIPES)
            word = Word("noun", "jet" if is_screwed else "restrictor")
        if word == _TUBE and before.kind == "inch" and _is_said(before, words):
            found.pop()  # "for 5/16 tube" says what the -5 says
            continue
        if word == _DOUBLE and after.kind in ("dash", "metric", "un"):
            word = Word("mult", "2")
        if word.kind == "angle" and word.value == "45" and after == Word("fam", "flare_37"):
            continue  # the cone's angle, not the fitting's
        if word == Word("fam", "flare_37") and before == Word("angle", "45"):
            found.append(Word("fam", "flare_45"))
        elif (
            word.kind == "num"
            and word.value in ("2", "3", "4")
            and (after.kind in ("dash", "metric", "un") or (is_ported and after.kind == "inch"))
        ):
            found.append(Word("mult", word.value))
        elif word.kind == "num" and word.value in ("1", "2") and is_piped:
            found.append(Word("inch", word.value))
        elif (
            word.kind == "dash" and word.value in ("-1", "-2") and before.kind == "fam" and is_piped
        ):
            found.append(Word("unknown", word.value))
        elif word.kind == "num" and is_dash(words, at):
            found.append(Word("dash", f"-{int(word.value)}"))
        elif word.kind == "range" and not is_clamp:
            low, _, high = word.value.partition("-")
            found += [Word("mm", low), Word("sep", "to"), Word("mm", high)]
        else:
            found.append(word)
    if lengths:
        found.append(Word("sold", "length"))
    return tuple(found)


def _is_said(inch: Word, words: list[Word]) -> bool:
    """Whether the outside of a tube is that of a dash of a flare for tube."""
    is_for_tube = any(w.kind == "fam" and w.value in ("inverted_flare", "flare_45") for w in words)
    top, _, below = inch.value.partition("/")
    if not (is_for_tube and top.isdigit() and below.isdigit()):
        return False
    return Word("dash", f"-{int(top) * 16 / int(below):g}") in words


_TAPER, _STUD = Word("fam", "taper"), Word("fam", "iso6149")
_FEED, _TUBE, _DOUBLE = (
    Word("noun", "feed restrictor"),
    Word("noun", "tube"),
    Word("trait", "double"),
)
_PIPES = frozenset(("npt", "nptf", "bspp", "bspt", "bsp"))


def is_dash(words: list[Word], at: int) -> bool:
    """Whether a bare number is a dash size: beside a family that has them, or a gender."""
    value = words[at].value
    if "." in value or not 2 <= int(value) <= 32:
        return False
    after = words[at + 1] if at + 1 < len(words) else Word("", "")
    before = words[at - 1] if at else Word("", "")
    near = {
        after.value if after.kind == "fam" else "",
        before.value if before.kind == "fam" else "",
    }
    if near & {"orb_unf", "flare_37", "orfs", "flare_45"}:
        return True
    return after.kind == "g" or (after.kind, after.value) == ("sep", "to")


def _fraction(text: str) -> str:
    """An inch size as a fraction: ``0.750`` is ``3/4``, ``1 1/16`` is ``1-1/16``."""
    text = text.strip().replace(" ", "-")
    if "." not in text:
        return text
    sixteenths = round(float(text) * 16)
    if abs(float(text) * 16 - sixteenths) > 0.02:
        return text
    whole, part = divmod(sixteenths, 16)
    if not part:
        return str(whole)
    below = 16
    while part % 2 == 0:
        part, below = part // 2, below // 2
    return f"{whole}-{part}/{below}" if whole else f"{part}/{below}"


def _spec(text: str) -> list[tuple[str, str]]:
    plain = re.sub(r"[ -]", "", text)
    if plain.startswith("mil"):
        return [("spec", "MIL-H-8794")]
    if plain.startswith("100r5"):
        return [("spec", "SAE 100R5")]
    if "30r" in plain:
        return [("spec", f"fuel J30R{plain.rpartition('r')[2]}")]
    for start, family in (
        ("iso6149", "iso6149"), ("iso9974", "flat"), ("din3852", "flat"), ("iso1179", "bspp"),
        ("iso228", "bspp"), ("iso11926", "orb_unf"), ("j1926", "orb_unf"), ("iso8434", ""),
        ("j514", "flare_37"), ("j1453", "orfs"), ("j512", "flare_45"), ("iso7", "bspt"),
    ):  # fmt: skip
        if plain.startswith(start):
            return [("fam", family)] if family else []
    return [("stop", text)]


@lru_cache(20_000)
def _meant(word: str) -> str:
    """The one word of ours that a word is, but for one slip of the fingers; empty for none."""
    if len(word) < 5:
        return ""
    found = [known for known in _vocabulary().get(word[0], ()) if _is_slip(word, known)]
    return found[0] if len(found) == 1 else ""


@lru_cache(20_000)
def _cut(word: str) -> str:
    """The word of ours that a word is the start of, or is without its vowels; empty for none."""
    if len(word) < 3:
        return ""
    bones = _bones(word)
    known = _spoken().get(word[0], ())
    bare = [w for w in known if len(w) > len(word) and _bones(w) == bones and _is_within(word, w)]
    starts = [w for w in known if len(word) >= 4 and w.startswith(word) and len(w) - len(word) < 4]
    found = starts or (bare if len(bones) >= 3 else [])
    shortest = min(map(len, found), default=0)
    best = [w for w in found if len(w) == shortest]
    return best[0] if len(best) == 1 else ""


def _bones(word: str) -> str:
    """A word without the vowels after its first letter."""
    return word[:1] + re.sub("[aeiou]", "", word[1:])


def _is_within(short: str, long: str) -> bool:
    """Whether the letters of one word stand in another in their order."""
    letters = iter(long)
    return all(letter in letters for letter in short)


@cache
def _words() -> frozenset[str]:
    """Every word that means something, or nothing."""
    phrases = {
        word
        for start in PHRASES.values()
        for _, known in start
        for phrase in known
        for word in phrase
    }
    return frozenset(phrases | KNOWN | _NUMBERS.keys() | {"forty", "fifty", "eighty", "dash"})


@cache
def _spoken() -> dict[str, tuple[str, ...]]:
    """Words of four letters or more, by the first."""
    heap: dict[str, list[str]] = {}
    for word in sorted(_words()):
        if len(word) >= 4 and word.isalpha():
            heap.setdefault(word[0], []).append(word)
    return {start: tuple(found) for start, found in heap.items()}


@cache
def _vocabulary() -> dict[str, tuple[str, ...]]:
    return {a: tuple(w for w in known if len(w) >= 5) for a, known in _spoken().items()}


def _is_slip(one: str, two: str) -> bool:
    """Whether two words differ by one letter added, left out, changed or changed over."""
    if abs(len(one) - len(two)) > 1 or one == two:
        return False
    at = next(
        (i for i, (a, b) in enumerate(zip(one, two, strict=False)) if a != b),
        min(len(one), len(two)),
    )
    if len(one) == len(two):
        rest = one[at + 1 :] == two[at + 1 :]
        over = one[at : at + 2] == two[at : at + 2][::-1] and one[at + 2 :] == two[at + 2 :]
        return rest or over
    long, short = (one, two) if len(one) > len(two) else (two, one)
    return long[at + 1 :] == short[at:]


_SPOKEN = {
    "eighth": "1/8", "eighths": "/8", "quarter": "1/4", "quarters": "/4", "half": "1/2",
    "sixteenth": "1/16",
}  # fmt: skip


def _joined(raw: list[tuple[str, str]]) -> list[Word]:
    """Phrases in place of words, spoken numbers in place of names."""
    found: list[Word] = []
    texts = [text for _, text in raw]
    for at, (kind, value) in enumerate(raw):
        if kind != "word" or value in _words():
            continue
        if meant := _meant(value) or _cut(value):
            texts[at], raw[at] = meant, ("word", meant)
            found.append(Word("typo", value))
    at = 0
    while at < len(raw):
        kind, value = raw[at]
        if kind == "word":
            length, phrase = _phrase(texts, at)
            if phrase is not None:
                found.append(phrase)
                at += length
                continue
            number = _number(raw, at)
            if number is not None:
                found.append(number[1])
                at += number[0]
                continue
            if value in STOP:
                found.append(Word("stop", value))
            elif value not in NOISE:
                found.append(Word("unknown", value))
        elif kind == "inch":
            is_size = not re.search(r"/0+\Z|(?:\A|[ -])0+/", value)
            found.append(Word("inch", _fraction(value)) if is_size else Word("unknown", value))
        elif kind == "num":
            found.append(Word("num", value))
        elif kind == "mm":
            found.append(Word("mm", f"{float(value):g}"))
        elif kind == "dim":
            found.append(Word("dim", value.replace(" ", "")))
        elif kind == "mark":
            if value in ",;|()":
                found.append(Word("comma", value))
            elif value in ">/&+":
                found.append(Word("sep", "to" if value == ">" else value))
        else:
            found.append(Word(kind, value))
        at += 1
    return found


def _phrase(texts: list[str], at: int) -> tuple[int, Word | None]:
    """The longest phrase that begins here: how many words it takes and what it means."""
    for length, phrases in PHRASES.get(texts[at], ()):
        found = phrases.get(tuple(texts[at : at + length]))
        if found is not None:
            return length, Word(*found)
    return 0, None


def _number(raw: list[tuple[str, str]], at: int) -> tuple[int, Word] | None:
    def word(i: int) -> str:
        return raw[at + i][1] if at + i < len(raw) else ""

    first = word(0)
    if first == "dash" or first == "size":
        if word(1) in _NUMBERS:
            return 2, Word("dash", f"-{_NUMBERS[word(1)]}")
        if word(1).isdigit() and len(word(1)) <= 2:
            return 2, Word("dash", f"-{int(word(1))}")
        return None
    if first == "three" and word(1) in ("eighths", "quarters", "eighth", "quarter"):
        return _with_inch(raw, at, 2, "3" + _SPOKEN[word(1).rstrip("s") + "s"])
    if first == "five" and word(1) in ("eighths", "eighth"):
        return _with_inch(raw, at, 2, "5/8")
    if first == "forty" and word(1) == "five":
        return 2, Word("angle", "45")
    if first == "fortyfive":
        return 1, Word("angle", "45")
    if first == "number" and (word(1) in _NUMBERS or word(1).isdigit()):
        return 2, Word("dash", f"-{_NUMBERS.get(word(1)) or int(word(1))}")
    if first == "one" and word(1) in ("fifty", "twenty", "eighty"):
        return 2, Word("angle", {"fifty": "150", "twenty": "120", "eighty": "180"}[word(1)])
    if first in _NUMBERS and word(1) in ("sixteenth", "sixteenths") and _NUMBERS[first] % 2:
        return _with_inch(raw, at, 2, f"{_NUMBERS[first]}/16")
    if first == "seven" and word(1) in ("eighths", "eighth"):
        return _with_inch(raw, at, 2, "7/8")
    if first in ("eighth", "quarter", "half", "sixteenth"):
        return _with_inch(raw, at, 1, _SPOKEN[first])
    if first in ("ninety", "thirty", "sixty"):
        return 1, Word("angle", str(_NUMBERS[first]))
    if first == "inch" and word(1) == "and" and word(2) == "a" and word(3) in ("half", "quarter"):
        return 4, Word("inch", f"1-{_SPOKEN[word(3)]}")
    if first in ("one", "two", "three") and word(1) == "and" and word(3) in ("half", "quarter"):
        whole = {"one": 1, "two": 2, "three": 3}[first]
        return _with_inch(raw, at, 4, f"{whole}-{_SPOKEN[word(3)]}")
    if first in ("one", "two", "three", "four") and word(1) in ("inch", "in"):
        return 2, Word("inch", str({"one": 1, "two": 2, "three": 3, "four": 4}[first]))
    if first in _NUMBERS and word(1) in ("mil", "mm", "millimetre"):
        return 2, Word("mm", str(_NUMBERS[first]))
    if first in _NUMBERS:
        return 1, Word("num", str(_NUMBERS[first]))
    return None


def _with_inch(raw: list[tuple[str, str]], at: int, length: int, text: str) -> tuple[int, Word]:
    if at + length < len(raw) and raw[at + length][1] in ("inch", "in"):
        length += 1
    return length, Word("inch", text)
