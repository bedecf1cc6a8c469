# SPDX-License-Identifier: Apache-2.0
"""Habits of writing, put plainly before a description is taken apart. [common practice]"""

import re
import unicodedata

_MARKS = str.maketrans(
    {
        "×": "x", "″": '"', "“": '"', "”": '"', "–": "-", "—": "-", "−": "-",
        "º": "°", "˚": "°", "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8",
        "⅝": " 5/8", "⅞": " 7/8", "*": "x", "(": " ( ", ")": " ) ", "\t": " ", "’": "'",
        "\u00a0": " ", "\u2009": " ", "\u202f": " ", "\u2010": "-", "\u2011": "-", "\u2044": "/",
        "ø": " ", "Ø": " ", "⌀": " ", "®": " ", "™": " ", "′": "'", "‘": "'", "•": ",", "·": ",",
    }
)  # fmt: skip

#: Ways of writing that are put plainly before anything is read.
_HABITS = tuple(
    (re.compile(pattern), plain)
    for pattern, plain in (
        (r"\bm ?/ ?m\b", "male both ends"),
        (r"\bf ?/ ?f\b", "female both ends"),
        (r"\bw/o\b", "without "),
        (r"\bc/w\b|\bc\.w\.", "with "),
        (r"\bw/ ?", "with "),
        (r"\bs/s(?:teel)?\b|\bst/st\b|\bs/less\b|\bs/stl\b", "stainless"),
        (r"\b([io])/d(?:ia)?\b", r"\1d"),
        (r"\bi\.d\.?(?= |,|$)", "id"),
        (r"\bo\.d\.?(?= |,|$)", "od"),
        (r"\bs[23]\d5\w*|\bst ?37\b", "steel"),
        (r"\b1\.4[345]\d\d\b", "stainless"),
        (r"\b(?:en ?)?aw[ -]?\d{4}\b|\b(?:6061|6082|7075|5083)(?:[ -]?t6)?\b", "aluminium"),
        # "1.5/16" is one and five sixteenths.
        (r"(?<![\d.])([1-4])[.-] ?(?=\d{1,2}/\d)", r"\1-"),
        (r"\bm(\d{1,2}) by (?=[0-3](?:\.\d+)?\b)", r"m\1x"),
        (r"\bv[ -]?b(?:a?n?d)\b", "v band"),
        (r"\bweld(ed)?[ -](on|in) (fe)?male\b", r"weld \2 fitting \3male"),
        (r"(?<=[a-z])/(?=-?\d)|(?<=[a-z])/(?=-\d)", " / "),
        (r"(?<=[a-z])(?=\d{1,2}/\d)", " "),
        (
            r"\b(jic|orb|orfs) ?(\d{1,2})(?=m|f|x| |,|$)(?! ?(?:/|\"|inch|in\b|mm|°|deg|\d/))",
            r"\1 -\2 ",
        ),
        (r"\bh/ ?end", "hose end"),
        (r"(?:^ *|\b(?:an|one) )inch (?=npt|bsp)", "1 inch "),
        (r"\bradiator hose", "coolant hose"),
        (r"\bfuel (?:hose|line|pipe)(?: sae)?,? r ?(\d{1,2})\b", r"fuel hose j30r\1"),
        (r"(?<=\d)dg\b", " deg"),
        (r"^ *\d{1,3} ?x (?=[a-z]{3})", ""),
        (r"\bx? ?(?:l ?=? ?)?(?:[2-9]\d\d|[12]\d{3}) ?mm\b(?: long| length)?", " "),
    )
)
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
    text = unicodedata.normalize("NFKC", description.translate(_MARKS)).lower()
    text = re.sub(r"(?<=\d),(?=\d{1,2}\b)", ".", text)
    for pattern, plain in _HABITS:
        text = pattern.sub(plain, text)
    if "silic" in text:
        text = re.sub(r"\b(\d\d)/(?!16|32|64)(\d\d)(?: ?mm)?\b", r"\1 mm x \2 mm", text)
    if _CLAMPED.search(text):
        text = _SPAN.sub(r"\1-\2mm", text)
    return text
