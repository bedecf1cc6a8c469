# SPDX-License-Identifier: Apache-2.0
"""Codes that a person can say aloud, made from what a part is.

``adaptor-npt-half-m-to-flare-10-m`` says shape, ends from the port outwards, then angle and
traits. A fraction is spelt, a dash size is its bare number, ``nut`` is a female that turns,
an end three times over is ``x3``. The same words always mean the same part: `heard` reads a
code back.
"""

import re
from functools import cache

from linewright.base.errors import CatalogueError
from linewright.ends.end import End, Family, Gender

_WORDS = {
    Family.FLARE_37: "flare",
    Family.FLARE_45: "flare45",
    Family.INVERTED_FLARE: "inverted",
    Family.BUBBLE_FLARE: "bubble",
    Family.ORB_UNF: "orb",
    Family.ORFS: "orfs",
    Family.NPT: "npt",
    Family.NPTF: "nptf",
    Family.BSPP: "g",
    Family.BSPT: "r",
    Family.ISO6149: "iso6149",
    Family.METRIC_FLAT_FACE: "flat",
    Family.BANJO: "banjo",
    Family.BEAD: "bead",
    Family.BARB: "barb",
    Family.TUBE: "tube",
    Family.FLANGE: "flange",
    Family.VBAND: "vband",
    Family.WELD: "weld",
    Family.SPINON: "spinon",
    Family.QC: "qc",
    Family.HOSE: "hose",
}
_FAMILIES = {word: family for family, word in _WORDS.items()} | {"rc": Family.BSPT}
_FRACTIONS = {
    "1/16": "sixteenth",
    "1/8": "eighth",
    "1/4": "quarter",
    "5/16": "5-sixteenths",
    "3/8": "3-eighths",
    "1/2": "half",
    "5/8": "5-eighths",
    "3/4": "3-quarters",
    "7/8": "7-eighths",
}
_PIPE = (Family.NPT, Family.NPTF, Family.BSPP, Family.BSPT, Family.QC)
_DASHED = (
    Family.FLARE_37,
    Family.FLARE_45,
    Family.INVERTED_FLARE,
    Family.ORB_UNF,
    Family.ORFS,
    Family.TUBE,
)
_SHAPES = {
    "take-off plate": "plate",
    "filter head": "head",
    "gauge adaptor": "port",
    "drain flange": "drain",
}
_KINDS = {"rubber": "rubber", "PTFE": "ptfe", "push-on": "push-on"}
_SPOKEN_TRAITS = (
    "full swivel",
    "fixed",
    "adjustable",
    "check valve",
    "screen",
    "jet",
    "hump",
    "restrictor",
    "filter",
)
#: Longest code; a label of 60 mm holds it.
LONGEST = 48


@cache
def _size(end: End) -> str:
    if end.family in _PIPE:
        text = end.size.split()[-1]
        whole, _, part = text.partition("-")
        if part:
            return f"{whole}-and-{_FRACTIONS[part]}"
        return _FRACTIONS.get(text, "1-inch" if text == "1" else f"{text}-inch")
    if end.family in _DASHED or end.kind in _KINDS:
        return end.size.removeprefix("-")
    return end.size.lower().replace("/", "-").replace(" ", "-")


@cache
def spoken_end(end: End) -> str:
    """One end as it stands in a code.

    Parameters
    ----------
    end : End
        An end of a part.

    Returns
    -------
    str
        Words joined by hyphens.

    Examples
    --------
    >>> spoken_end(End(Family.NPT, "1/2", Gender.MALE))
    'npt-half-m'
    >>> spoken_end(End(Family.FLARE_37, "-10", Gender.FEMALE, swivel=True))
    'flare-10-nut'
    >>> spoken_end(End(Family.HOSE, "38", Gender.FEMALE, kind="clamped"))
    'hose-38'
    """
    family = _WORDS[end.family]
    if end.family is Family.BSPT and end.size.startswith("Rc"):
        family = "rc"
    words = [family, _size(end)]
    if end.family is Family.WELD:
        words = [family, end.kind]
    elif end.family is Family.HOSE:
        if end.kind != "clamped":
            words.append(_KINDS[end.kind])
        return "-".join(words)
    if end.swivel:
        words.append("nut" if end.gender is Gender.FEMALE else "m-nut")
    elif end.gender is not Gender.NONE:
        words.append(end.gender.value)
    return "-".join(word for word in words if word)


def _all_ends(ends: tuple[End, ...]) -> str:
    """Ends in order; equal neighbours among three or more are counted."""
    groups: list[list[object]] = []
    for end in ends:
        said = spoken_end(end)
        if groups and groups[-1][0] == said and len(ends) > 2:
            groups[-1][1] = int(str(groups[-1][1])) + 1
        else:
            groups.append([said, 1])
    texts = [f"{said}-x{count}" if count != 1 else str(said) for said, count in groups]
    return "-to-".join([texts[0], "-and-".join(texts[1:])]) if len(texts) > 1 else texts[0]


def code_of(
    shape: str, ends: tuple[End, ...], angle: int, traits: tuple[str, ...], words: str = ""
) -> str:
    """Code of a part.

    Parameters
    ----------
    shape : str
        Shape of the part.
    ends : tuple of End
        Its ends, port side first.
    angle : int
        Change of direction. [deg]
    traits : tuple of str
        Its traits; those that tell it from its brothers are spoken.
    words : str
        What else is to be said, such as the size of a part without ends.

    Returns
    -------
    str
        The code.

    Examples
    --------
    >>> ends = End(Family.FLARE_37, "-10", Gender.FEMALE, swivel=True), End(
    ...     Family.HOSE, "-10", Gender.MALE, kind="rubber")
    >>> code_of("hose end", ends, 90, ("full swivel",))
    'hose-end-10-rubber-90-full-swivel'
    """
    spoken = [trait for trait in _SPOKEN_TRAITS if trait in traits and trait not in shape]
    if shape == "banjo hose end":
        spoken = [trait for trait in spoken if trait != "fixed"]
    head = _SHAPES.get(shape, shape)
    if shape == "hose end":
        body = spoken_end(ends[1]).removeprefix("hose-")
        turn = str(angle) if angle else "straight"
    else:
        body = _all_ends(ends) if ends else ""
        turn = str(angle) if angle and not shape.startswith("banjo") else ""
    if shape == "banjo hose end":
        body = f"{spoken_end(ends[0]).removeprefix('banjo-').removesuffix('-m')}-to-" + spoken_end(
            ends[1]
        )
    return "-".join(part for part in (head, body, turn, *spoken, words) if part).replace(" ", "-")


_FRACTION_WORDS = "|".join(sorted(_FRACTIONS.values(), key=len, reverse=True))
_END = re.compile(
    rf"(?:(?P<family>{'|'.join(sorted(_FAMILIES, key=len, reverse=True))})-)"
    rf"(?P<size>(?:\d+-and-)?(?:{_FRACTION_WORDS})|\d+-inch|aluminium|steel|stainless"
    r"|m\d+(?:x[\d.]+)?|\d+-bolt-\d+|\d+-\d+-\d+|[\d.]+)"
    r"(?:-(?P<kind>rubber|ptfe|push-on))?(?:-(?P<gender>m-nut|nut|m|f))?(?:-x(?P<count>\d))?"
    r"(?=-|\Z)"
)


def _read_end(match: re.Match[str]) -> End:
    family = _FAMILIES[match["family"]]
    said, kind = match["size"], match["kind"] or ""
    gender, swivel = {
        None: (Gender.NONE, False),
        "m": (Gender.MALE, False),
        "f": (Gender.FEMALE, False),
        "nut": (Gender.FEMALE, True),
        "m-nut": (Gender.MALE, True),
    }[match["gender"]]
    spelt = {word: fraction for fraction, word in _FRACTIONS.items()}
    if family is Family.WELD:
        return End(family, "", gender, swivel, said)
    if family is Family.HOSE:
        if not kind:
            return End(family, said, Gender.FEMALE, kind="clamped")
        return End(family, f"-{said}", Gender.MALE, kind="PTFE" if kind == "ptfe" else kind)
    if family in _PIPE:
        whole, _, part = said.partition("-and-")
        size = f"{whole}-{spelt[part]}" if part else spelt.get(said, said.removesuffix("-inch"))
        letter = {"g": "G ", "r": "R ", "rc": "Rc "}.get(match["family"], "")
        return End(family, letter + size, gender, swivel)
    if family in _DASHED:
        return End(family, f"-{said}", gender, swivel)
    size = said.replace("m", "M", 1) if said[0] == "m" else said
    if family is Family.FLANGE:
        size = re.sub(r"-(\d+)\Z", r" \1", said)
    elif (family in (Family.BANJO, Family.SPINON)) and said[0] != "m":
        size = said.replace("-", "/", 1)
    return End(family, size, gender, swivel)


def heard(code: str) -> tuple[str, tuple[End, ...], str]:
    """Read a code back: its shape word, its ends, and what is said after them.

    Parameters
    ----------
    code : str
        A code of the catalogue.

    Returns
    -------
    tuple
        The word or words of the shape, the ends in order (none for parts without ends), and
        the rest: angle, then traits.

    Raises
    ------
    CatalogueError
        If it is not built like a code.

    Examples
    --------
    >>> shape, ends, rest = heard("elbow-orb-12-m-to-flare-12-m-90-adjustable")
    >>> shape, [str(end) for end in ends], rest
    ('elbow', ['orb_unf -12 m', 'flare_37 -12 m'], '90-adjustable')
    """
    if not re.fullmatch(r"[a-z0-9.]+(?:-[a-z0-9.]+)*", code):
        raise CatalogueError(
            f"part code {code!r}: a code has lower-case letters, digits and dots between single "
            "hyphens, e.g. adaptor-npt-half-m-to-flare-10-m"
        )
    if code.startswith("hose-end-"):
        match = re.fullmatch(r"hose-end-(\d+)-(rubber|ptfe|push-on)-(.*)", code)
        if match is None:
            raise CatalogueError(
                f"part code {code!r}: a hose end is said with dash, hose family, angle and swivel, "
                "e.g. hose-end-10-rubber-90-fixed"
            )
        dash, kind, rest = match.groups()
        hose = End(Family.HOSE, f"-{dash}", Gender.MALE, kind="PTFE" if kind == "ptfe" else kind)
        return "hose-end", (End(Family.FLARE_37, f"-{dash}", Gender.FEMALE, True), hose), rest
    if code.startswith("banjo-hose-end-"):
        near, far = code.removeprefix("banjo-hose-end-").split("-to-")
        return "banjo-hose-end", (_matched(f"banjo-{near}-m"), _matched(far)), ""
    start = re.search(rf"-(?:{_END.pattern})", code)
    if start is None:
        return code, (), ""
    shape, place, ends = code[: start.start()], start.start() + 1, []
    while match := _END.match(code, place):
        ends += [_read_end(match)] * int(match["count"] or 1)
        place = match.end()
        link = re.match(r"-(?:to|and)-", code[place:])
        if link is None:
            break
        place += link.end()
    return shape, tuple(ends), code[place:].removeprefix("-")


def _matched(text: str) -> End:
    match = _END.fullmatch(text)
    if match is None:
        raise CatalogueError(f"part code: {text!r} is no end; e.g. flare-10-m, hose-10-rubber")
    return _read_end(match)
