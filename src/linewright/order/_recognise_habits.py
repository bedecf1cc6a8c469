# SPDX-License-Identifier: Apache-2.0
"""Habits of writing, put plainly before a description is taken apart. [common practice]"""

import re
import unicodedata

_MARKS = str.maketrans(
    {
        "×": "x", ";": ",", "″": '"', "“": '"', "”": '"', "–": "-", "—": "-", "−": "-",
        "º": "°", "˚": "°", "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8",
        "⅝": " 5/8", "⅞": " 7/8", "*": "x", "(": " ( ", ")": " ) ", "\t": " ", "’": "'",
        "\u00a0": " ", "\u2009": " ", "\u202f": " ", "\u2010": "-", "\u2011": "-", "\u2044": "/",
        "ø": " ", "Ø": " ", "⌀": " ", "®": " ", "™": " ", "′": "'", "‘": "'", "•": ",", "·": ",",
    }
)  # fmt: skip

#: What makes of a number something else than a dash.
_NO_SIZE = r"(?! ?(?:/|\"|inch|in\b|mm|°|deg|\d/))"

#: Ways of writing that are put plainly before anything is read, by what they all have in them.
_HABITS = tuple(
    (needle, re.compile(pattern), plain)
    for needle, pattern, plain in (
        ("/", r"\bm ?/ ?m\b", "male both ends"),
        ("/", r"\bf ?/ ?f\b", "female both ends"),
        ("/", r"\bw/o\b", "without "),
        ("c", r"\bc/w\b|\bc\.w\.", "with "),
        ("/", r"\bw/ ?", "with "),
        ("/", r"\bs/s(?:teel)?\b|\bst/st\b|\bs/less\b|\bs/stl\b", "stainless"),
        ("/d", r"\b([io])/d(?:ia)?\b", r"\1d"),
        (".d", r"\b([io])\.d\.?(?= |,|$)", r"\1d"),
        ("5", r"\bs[23]\d5\w*", "steel"),
        ("37", r"\bst ?37\b", "steel"),
        ("1.4", r"\b1\.4[345]\d\d\b", "stainless"),
        ("aw", r"\b(?:en ?)?aw[ -]?\d{4}\b", "aluminium"),
        ("0", r"\b(?:6061|6082|7075|5083)(?:[ -]?t6)?\b", "aluminium"),
        # "1.5/16" is one and five sixteenths.
        ("/", r"(?<![\d.])([1-4])[.-] ?(?=\d{1,2}/\d)", r"\1-"),
        (" by ", r"\bm(\d{1,2}) by (?=[0-3](?:\.\d+)?\b)", r"m\1x"),
        ("v", r"\bv[ -]?b(?:a?n?d)\b", "v band"),
        ("weld", r"\bweld(ed)?[ -](on|in) (fe)?male\b", r"weld \2 fitting \3male"),
        ("/", r"(?<=[a-z])/(?=-?\d)", " / "),
        ("/", r"(?<=[a-z])(?=\d{1,2}/\d)", " "),
        ("jic", r"\b(?:jic|an)[ -]?(\d{1,2})[ /]+(?:jic|an)[ -]?\1\b", r"jic -\1"),
        ("jic", r"\bjic ?(?!30|45|60|90)(\d{1,2})(?=[mfx]| |,|$)" + _NO_SIZE, r"jic -\1 "),
        ("or", r"\b(orb|orfs) ?(?!30|45|60|90)(\d{1,2})(?=[mfx]| |,|$)" + _NO_SIZE, r"\1 -\2 "),
        ("d-", r"\bd-0?(\d{1,2})\b", r"-\1"),
        ("360", r"\b360 ?(?:°|deg(?:ree)?s?\b)? ?(?:full )?swivel", "full swivel"),
        # What is said of a bulkhead is said of its nut.
        (
            "bulkhead",
            r"^ *(?:thin |hex |lock ?|back ?|jam ?)?nuts? (?:only )?(?:for|to suit)(?: an?)?"
            r"(.*) bulkhead(?: fitting| union| adaptor)?s?",
            r"bulkhead nut\1",
        ),
        ("end", r"\bh/ ?end", "hose end"),
        ("inch ", r"(?:^ *|\b(?:an|one) )inch (?=npt|bsp)", "1 inch "),
        ("radiator", r"\bradiator hose", "coolant hose"),
        ("fuel", r"\bfuel (?:hose|line|pipe)(?: sae)?,? r ?(\d{1,2})\b", r"fuel hose j30r\1"),
        ("dg", r"(?<=\d)dg\b", " deg"),
        ("x ", r"^ *\d{1,3} ?x (?=[a-z]{3})", ""),
        ("mm", r"\bx? ?(?:l ?=? ?)?(?:[2-9]\d\d|[12]\d{3}) ?mm\b(?: long| length)?", " "),
    )
)
_COMMA = re.compile(r"(?<=\d),(?=\d{1,2}\b)")
#: A span of a clamp whose millimetres are left out.
_SPAN = re.compile(r"(?<![\d./-])(\d{1,3}) ?(?:-|to) ?(\d{2,3})(?! ?mm|[\d./\"])(?= |,|;|$)")
_CLAMPED = re.compile(r"\bcl[ia]?m?p|\bworm|\bt[ -]?bolt")


def plainly(description: str) -> str:
    """Put a description in small letters, plain marks and the fewest ways of writing.

    Parameters
    ----------
    description : str
        Free text.

    Returns
    -------
    str
        The same in plain words.

    Examples
    --------
    >>> plainly("BOSS 1.5/16-12 S/S c/w locknut")
    'boss 1-5/16-12 stainless with  locknut'
    """
    text = description.translate(_MARKS).lower()
    if not text.isascii():
        text = unicodedata.normalize("NFKC", text).lower()
    if "," in text:
        text = _COMMA.sub(".", text)
    for needle, pattern, plain in _HABITS:
        if needle in text:
            text = pattern.sub(plain, text)
    if "silic" in text:
        text = re.sub(r"\b(\d\d)/(?!16|32|64)(\d\d)(?: ?mm)?\b", r"\1 mm x \2 mm", text)
    if _CLAMPED.search(text):
        text = _SPAN.sub(r"\1-\2mm", text)
    return text
