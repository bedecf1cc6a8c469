# SPDX-License-Identifier: Apache-2.0
"""The pack that a description says: so many pieces, per foot, a coil of three metres."""

import re
from functools import lru_cache

from linewright.order.amounts import FOOT, YARD, Unit
from linewright.order.model import SoldAs

_METRE = r"(?:m|mtrs?|met(?:re|er)s?)"
_FOOT = r"(?:ft|foot|feet)"

_PER = re.compile(
    r"(?:per|by the|price per|sold per|sold by the|/|by)\s*(?:linear |running )?"
    rf"(?:({_METRE})|({_FOOT})|(yards?|yd))\b"
)
_COIL = re.compile(
    rf"(?<![\d./x-])(\d+(?:[.,]\d+)?|one|two|three|five|ten|twenty)[ -]?"
    rf"(?:({_METRE})|({_FOOT})|(yards?|yd))\b(?!\s*(?:m|x|dia|bore))(?!\.\d)"
)
_COUNT = re.compile(
    r"\b(?:pk|pkt|pack|bag|box|bx|lot|set|qty|quantity)\s*(?:of|:)?\s*(\d{1,4})\b(?!\s*mm)"
    r"|(?<![\d.,/x])\b(\d{1,4})\s*[- ]?(?:pcs|pc|pieces|off|pk|pack(?! of)|stk|pce|per pack)\b"
    r"|(?<=\s)x\s?(?!(?:30|45|60|90|120|150|180)\s*\Z)(\d{1,4})"
    r"(?:\s+(?:job lot|joblot|new|pcs|off))?\s*\Z"
    r"|\bve\s*(\d{1,4})\b|\((\d{1,4})\s*x\)"
    r"|\((\d{1,4})\)\s*\Z"
    r"|\bx\s(\d{1,4})\s+job\b|\((?:pack of |pk |x ?)(\d{1,4})\)"
)
_WORDS = {"one": 1, "two": 2, "three": 3, "five": 5, "ten": 10, "twenty": 20}
_SPOKEN = re.compile(
    r"\b(?:pack|bag|box|set|lot)\s+of\s+(two|three|four|five|six|eight|ten|twelve|twenty)\b"
)
_SPOKEN_N = {
    "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "eight": 8, "ten": 10, "twelve": 12,
    "twenty": 20,
}  # fmt: skip


@lru_cache(50_000)
def pack_of(description: str) -> Unit | None:
    """Read the pack out of a description.

    Parameters
    ----------
    description : str
        Free text.

    Returns
    -------
    Unit or None
        None where the text says nothing of it: one piece, as a rule.

    Examples
    --------
    >>> pack_of("O-ring -8, bag of 5").pack, pack_of("hose, 3 metres").length
    (5, 3.0)
    >>> pack_of("M14x1.5 to -6 adaptor") is None
    True
    """
    text = description.lower().replace("×", "x")
    per = _PER.search(text)
    if per:
        metre, foot, _ = per.groups()
        return Unit(SoldAs.CUT, 1, 1.0 if metre else FOOT if foot else YARD)
    coil = _COIL.search(text)
    if coil:
        word, metre, foot, _ = coil.groups()
        count = float(_WORDS.get(word, 0) or float(word.replace(",", ".")))
        if count > 0:
            step = 1.0 if metre else FOOT if foot else YARD
            return Unit(SoldAs.COIL, 1, round(count * step, 6))
    found = _COUNT.search(text)
    if found:
        count = int(next(group for group in found.groups() if group))
        return Unit(SoldAs.PIECES, count) if count > 0 else None
    spoken = _SPOKEN.search(text)
    if spoken:
        return Unit(SoldAs.PIECES, _SPOKEN_N[spoken.group(1)])
    if re.search(r"\b(?:pair|pr)\b", text):
        return Unit(SoldAs.PIECES, 2)
    return None
