# SPDX-License-Identifier: Apache-2.0
"""What a description says and the part that was found has no place for.

The last look before a match is accepted: each family, gender, angle and size that was heard has
to be found again at an end of the part. Else it is another part, and is asked about.
"""

import re
from functools import cache

from linewright.catalogue.part import Part
from linewright.catalogue.stock import generic
from linewright.order._recognise_ends import INCH_MM, dash_of
from linewright.order._recognise_goods import Heard

#: Families by the words for them, where these are not the same.
_SAME = {
    "flat": ("metric_flat_face",),
    "bsp": ("bspp", "bspt"),
    "npt": ("npt", "nptf"),
    "taper": ("bspt", "npt", "nptf"),
    "barb": ("barb", "hose"),
    "bead": ("bead",),
}

#: Degrees of a cone, and of turning.
_NO_BENDS = frozenset(("0", "37", "74", "360"))

#: Numbers that are bends, if nothing else.
_BENDS = frozenset(("45", "60", "90", "120", "150", "180"))

#: What is sold for a thing, and the starts of the codes that it may be after all.
_FOR = re.compile(
    r"^\W*(?:(?:replacement|spare|rubber|aluminium|alloy|bonded|sealing|copper|nylon) )*"
    r"(?P<thing>seal|cover|body|insert|spring|screw|bolt|nut|hardware|washer|o-? ?ring|"
    r"(?:lock|jam|back) ?nut|gasket|spanner|label|repair|sleeve|clip|collar|seat|protector|holder|"
    r"stand|drawing)s?(?: (?:kit|set|only|tool|and washers?))*,? (?:only )?(?:for|to suit|of)\b"
)
_LINED = re.compile("lin|cush|rub|epdm|insul|coat")
_THINGS = (
    "O-ring", "washer", "lock-nut", "bulkhead-nut", "clip-screw", "flange-bolt", "tube-nut",
    "panel-washer", "flange-gasket", "v-band-ring", "heat-sleeve", "fire-sleeve", "chafe-sleeve",
    "p-clip", "worm-clamp", "fuel-clamp", "banjo-bolt", "dust-cap", "t-bolt", "v-band-clamp",
)  # fmt: skip


@cache
def _parts() -> dict[str, Part]:
    return {part.code: part for part in generic().parts if part.ends}


def accessory(description: str, code: str) -> str:
    """The thing that a description may be of, where that is not what the code is of.

    Parameters
    ----------
    description : str
        Free text.
    code : str
        Our code that it was taken for.

    Returns
    -------
    str
        Empty where there is no such thing.

    Examples
    --------
    >>> accessory("O-ring for boss plug -8 ORB", "plug-orb-8-m")
    'o-ring for that'
    >>> accessory("O-ring for -8 ORB, NBR", "O-ring AS568-908, NBR")
    ''
    """
    text = description.lower()
    if code.startswith("p-clip") and not _LINED.search(text):
        return "clip without lining"
    found = _FOR.match(text)
    return f"{found['thing']} for that" if found and not code.startswith(_THINGS) else ""


def unplaced(heard: Heard, code: str) -> str:
    """What was heard and stands at no end of the part.

    Parameters
    ----------
    heard : Heard
        Words by their kind.
    code : str
        Our code that they were taken for.

    Returns
    -------
    str
        The first of it; empty where all has its place, and for what has no ends.
    """
    part = _parts().get(code)
    if part is None:
        return _thread_of_goods(heard, code)
    families = {end.family.value for end in part.ends}
    for family in heard.all("fam"):
        if families.isdisjoint(_SAME.get(family, (family,))):
            return family.replace("_", " ")
    genders = {"f" if end.swivel else end.gender.value for end in part.ends}
    for gender in heard.all("g"):
        if ("m" if gender == "m" else "f") not in genders:
            return {"m": "male", "f": "female", "nut": "nut"}[gender]
    is_hose_end = "hose" in families
    if heard.has("turn", "swivel") and not is_hose_end and not any(e.swivel for e in part.ends):
        return "swivel"
    bends = set(heard.all("angle")) - _NO_BENDS
    if bends and bends != {str(part.angle or 0)}:
        return f"{min(bends)}°"
    for bend in _BENDS.intersection(heard.all("num")):
        if bend not in code.split("-"):
            return bend
    return _size_unplaced(heard, part)


def _thread_of_goods(heard: Heard, code: str) -> str:
    """A thread or a fitting said of goods that have none."""
    if code.startswith("olive") and heard.has("hose", "rubber", "push-on"):
        return "for another hose"
    if not code.startswith(_THREADLESS):
        return ""
    threads = [*heard.all("un"), *(f for f in heard.all("fam") if f in _THREADED)]
    if threads:
        return threads[0].replace("_", " ")
    return "check valve" if heard.has("noun", "check valve") else ""


_THREADLESS = (
    "hose ", "tube ", "pipe ", "p-clip", "worm", "t-bolt", "fuel-clamp", "v-band", "heat-", "fire-",
    "chafe-", "grommet", "washer 1", "washer 2",
)  # fmt: skip
_THREADED = frozenset(
    ("npt", "nptf", "bspp", "bspt", "orfs", "orb_unf", "flare_37", "flare_45", "iso6149", "qc")
)


def _size_unplaced(heard: Heard, part: Part) -> str:
    sizes = {end.size for end in part.ends}
    for dash in heard.all("dash"):
        if dash not in sizes:
            return dash
    for thread in heard.all("un"):
        dashes = {dash_of(end.family.value, thread) for end in part.ends} - {""}
        is_pipe = any(s.endswith(thread.rpartition("-")[0]) for s in sizes)
        if thread not in sizes and dashes.isdisjoint(sizes) and not is_pipe:
            return thread
    for thread in heard.all("metric"):
        if not any(s == thread or s.startswith(f"{thread.partition('x')[0]}x")
                   or s == thread.partition("x")[0] for s in sizes):  # fmt: skip
            return thread
    spoken = {s.removeprefix("G ").removeprefix("Rc ").removeprefix("R ") for s in sizes}
    for inch in heard.all("inch"):
        if inch not in spoken and INCH_MM.get(inch) not in sizes and not _is_dash(inch, part):
            return inch
    return ""


def _is_dash(inch: str, part: Part) -> bool:
    """Whether an inch size is the tube or the thread of a dash of the part."""
    whole, _, below = inch.rpartition("-")[2].partition("/")
    if not (whole.isdigit() and (below or "1").isdigit() and int(below or 1)):
        return False
    outside = 16 * (
        int(whole) / int(below or 1) + int(inch.partition("-")[0] if "-" in inch else 0)
    )
    for end in part.ends:
        if end.size == f"-{outside:g}":
            return True
        thread = _thread_of(end.family.value, end.size)
        if thread.rpartition("-")[0] == inch:
            return True
    return False


@cache
def _thread_of(family: str, size: str) -> str:
    from linewright.tables.threads import threads

    found = threads().get((family, size))
    return found.designation.split()[0] if found else ""
