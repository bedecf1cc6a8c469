# SPDX-License-Identifier: Apache-2.0
"""The words and numbers in the name of an end, before anybody judges what they mean together."""

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass, field

#: Words of the trade and what they stand for. Longer phrases win over shorter ones.
_PHRASES: dict[str, tuple[str, ...]] = {
    "an": ("an",),
    "jic": ("jic", "ms33656", "37 flare", "37 cone", "74 deg cone", "j514", "sae j514"),
    "deg45": ("45 flare", "45 cone", "sae 45", "sae flare", "j512", "sae j512"),
    "deg37": (),
    "flare": ("flare", "flared"),
    "inverted": ("inverted flare", "inverted", "double flare", "double flared"),
    "bubble": ("bubble flare", "bubble", "iso flare", "din flare", "iso bubble flare"),
    "orb": (
        "orb",
        "o-ring boss",
        "o ring boss",
        "oring boss",
        "boss",
        "stor",
        "j1926",
        "sae j1926",
        "iso 11926",
    ),
    "oring": ("o-ring", "o ring", "oring", "o-ring port", "o ring port"),
    "orfs": ("orfs", "o-ring face seal", "o ring face seal", "face seal", "j1453", "sae j1453"),
    "sae": ("sae",),
    "npt": ("npt", "national pipe taper"),
    "npt male": ("mnpt",),
    "npt female": ("fnpt",),
    "nptf": ("nptf", "npt-f", "dryseal", "dry-seal", "dry seal"),
    "bsp": ("bsp",),
    "bspp": ("bspp", "bsp parallel", "bsp-p", "g", "pf", "iso 228", "iso 228-1"),
    "bspt": ("bspt", "bsp taper", "bsp tapered", "bsp-t", "pt", "iso 7", "iso 7-1"),
    "r": ("r",),
    "rc": ("rc",),
    "rp": ("rp",),
    "pipe": ("pipe", "pipe thread"),
    "iso6149": ("iso 6149", "iso6149", "iso 6149-1", "metric o-ring", "metric orb"),
    "flat": (
        "flat face",
        "flat-face",
        "flat-faced",
        "flatface",
        "flat",
        "flat seat",
        "iso 9974",
        "iso9974",
        "iso 9974-1",
        "din 3852",
        "din3852",
        "din 3852-1",
        "washer",
        "flat washer",
        "washer face",
        "sealing washer",
        "bonded washer",
        "bonded seal",
        "crush washer",
        "copper washer",
    ),
    "banjo": ("banjo", "banjo bolt", "banjo eye", "banjo fitting"),
    "bead": ("bead", "beaded", "beaded tube", "beaded pipe", "hose bead", "hose neck"),
    "barb": (
        "barb",
        "barbed",
        "hose barb",
        "hose tail",
        "hosetail",
        "push-on barb",
        "push on barb",
    ),
    "tube": ("tube", "tubing", "plain tube", "hard tube", "hard line", "hardline"),
    "vband": ("v-band", "v band", "vband", "v-clamp"),
    "weld": ("weld", "weld-in", "weld in", "weld-on", "weld on", "to be welded", "welded"),
    "bung": ("bung", "weld bung", "weld-in bung", "weld in bung", "weld-on bung"),
    "spinon": (
        "spin-on",
        "spin on",
        "spinon",
        "spin-on filter",
        "spin-on filter mount",
        "filter mount",
        "filter stud",
        "filter thread",
        "oil filter",
        "oil filter mount",
    ),
    "qc": (
        "qc",
        "quick connect",
        "quick-connect",
        "quick connector",
        "quick-connector",
        "quickconnect",
        "j2044",
        "sae j2044",
    ),
    "hose": ("hose",),
    "nipple": ("hose nipple", "nipple"),
    "hose-end": ("hose end", "hose-end"),
    "rubber": ("rubber", "braided", "braided rubber", "rubber braided"),
    "ptfe": ("ptfe",),
    "push-on": ("push-on", "push on"),
    "clamped": ("clamped", "silicone", "epdm", "coolant", "moulded"),
    "aluminium": ("aluminium", "aluminum", "alloy", "alu", "ali"),
    "steel": ("steel", "mild steel"),
    "stainless": ("stainless", "stainless steel"),
    "titanium": ("titanium",),
    "male": ("male", "m", "external", "ext", "stud"),
    "female": ("female", "f", "fem", "internal", "int"),
    "port": ("port", "hole", "tapped", "tapped hole", "threaded hole", "socket"),
    "swivel": ("swivel", "swivelling", "swiveling", "full swivel"),
    "nut": ("nut", "swivel nut"),
    "tube nut": ("tube nut",),
    "taper": ("taper", "tapered"),
    "parallel": ("parallel",),
    "unf": ("unf", "unc", "uns", "unef", "un"),
    "": (
        "thread",
        "sensor",
        "sender",
        "gauge",
        "bulkhead",
        "plain",
        "threaded",
        "size",
        "fitting",
        "end",
        "adaptor",
        "adapter",
        "the",
        "a",
        "an adaptor",
        "with",
        "and",
        "brake",
        "metric",
        "straight",
        "seal",
        "standard",
        "style",
        "type",
        "nominal",
        "od",
        "o.d.",
        "dash",
    ),
}

_WORD_OF = {phrase: name for name, phrases in _PHRASES.items() for phrase in phrases}
_PHRASE = "|".join(re.escape(p) for p in sorted(_WORD_OF, key=len, reverse=True))
_MIXED = r"\d{1,2}[- ]\d{1,2}/\d{1,2}|\d{1,2}/\d{1,2}"

_TOKEN = re.compile(
    rf"""
    (?P<angle>(?:37|45)\s?(?:degrees|degree|degs|deg|°)\.?)
  | (?P<metric>m\s?(?P<m_size>\d{{1,3}}(?:\.\d{{1,3}})?)
      (?:\s?[x*]\s?(?P<m_pitch>\d(?:\.\d{{1,3}})?)|-(?P<m_dash>\d\.\d{{1,3}}))?
      (?:-?[1-9][gh](?:[1-9][gh])?)?(?![a-z0-9./]))
  | (?P<tpi>\d{{1,2}}(?:\.5)?\s?tpi(?![a-z0-9]))
  | (?P<thread>(?P<t_size>{_MIXED}|\d{{1,2}})(?:\s?(?:"|inch|in))?(?:-|\s-\s)
      (?P<t_pitch>\d{{1,2}}(?:\.5)?)(?:\s?tpi)?(?![\d./"]))
  | (?P<class>(?:unf|unc|uns|unef|un)-?[123][ab](?![a-z0-9]))
  | (?P<dash>(?:dash\s?-?|\#\s?|-\s?)(?P<d_size>\d{{1,2}})(?![\d/.]))
  | (?P<inch>(?P<i_size>{_MIXED})(?:\s?(?:"|inches|inch|in)(?![a-z]))?
      | (?P<i_unit>\d{{1,2}}(?:\.\d{{1,4}})?)\s?(?:"|inches|inch|in)(?![a-z]))
  | (?P<mm>(?P<mm_size>\d{{1,4}}(?:\.\d{{1,3}})?)\s?mm(?![a-z]))
  | (?P<number>\d{{1,4}}(?:\.\d{{1,3}})?)(?![\d/])
  | (?P<phrase>(?:{_PHRASE})(?![a-z]))
  | (?P<gap>[\s,;:()\[\]/.=+_]+|-)
  | (?P<stray>[^\s,;:()\[\]]+)
    """,
    re.VERBOSE,
)

_VULGAR = re.compile(r"(\d)\s?([¼-¾⅐-⅞])")
_LOOKALIKES = str.maketrans(
    {
        "−": "-",
        "–": "-",
        "—": "-",
        "‐": "-",
        "‑": "-",
        "‒": "-",
        "º": "°",
        "˚": "°",
        "″": '"',
        "”": '"',
        "“": '"',
        "’": "'",
        "×": "x",
        "\u00a0": " ",
    }
)


def tidy(text: str) -> str:
    """Replace typographic signs by plain ones; case and words stay.

    Parameters
    ----------
    text : str
        As typed.

    Returns
    -------
    str
        One line with single blanks.

    Examples
    --------
    >>> tidy("  −8  ORB "), tidy("1½″ bead")
    ('-8 ORB', '1 1/2" bead')
    """
    text = _VULGAR.sub(r"\1 \2", text.translate(_LOOKALIKES))
    text = unicodedata.normalize("NFKC", text).replace("⁄", "/").translate(_LOOKALIKES)
    return " ".join(text.split())


@dataclass(slots=True)
class Words:
    """What one typed end says, word by word; sizes as typed, not yet judged."""

    names: set[str] = field(default_factory=set)
    dash: list[str] = field(default_factory=list)
    threads: list[str] = field(default_factory=list)
    metric: list[tuple[str, str]] = field(default_factory=list)  # diameter, pitch or ""
    inch: list[str] = field(default_factory=list)
    mm: list[str] = field(default_factory=list)
    numbers: list[str] = field(default_factory=list)
    tpi: list[str] = field(default_factory=list)
    strays: list[str] = field(default_factory=list)

    def numbers_of(self) -> dict[str, Sequence[object]]:
        """All numbers by the way in which they were written."""
        return {
            "dash": self.dash,
            "thread": self.threads,
            "metric thread": self.metric,
            "size in inches": self.inch,
            "size in millimetres": self.mm,
            "bare number": self.numbers,
        }

    @property
    def all_numbers(self) -> tuple[object, ...]:
        """All numbers that may be a size."""
        return tuple(number for numbers in self.numbers_of().values() for number in numbers)


def plain(number: str) -> str:
    """Write a number without idle zeros.

    Parameters
    ----------
    number : str
        Digits, with or without a decimal point.

    Returns
    -------
    str
        For example ``1.5`` for ``1.50`` and ``8`` for ``08``.

    Examples
    --------
    >>> plain("1.50"), plain("08"), plain("2.0")
    ('1.5', '8', '2')
    """
    whole, _, rest = number.partition(".")
    rest = rest.rstrip("0")
    return (whole.lstrip("0") or "0") + (f".{rest}" if rest else "")


def words(text: str) -> Words:
    """Split a tidied end into words of the trade and numbers.

    Parameters
    ----------
    text : str
        Tidied text, any case.

    Returns
    -------
    Words
        All that was found; what is not understood is in ``strays``.
    """
    found = Words()
    for match in _TOKEN.finditer(text.lower()):
        kind = match.lastgroup
        said = match.groupdict()
        if said["angle"]:
            found.names.add("deg" + said["angle"][:2])
        elif said["metric"]:
            pitch = said["m_pitch"] or said["m_dash"] or ""
            found.metric.append((plain(said["m_size"]), plain(pitch) if pitch else ""))
        elif said["tpi"]:
            found.tpi.append(plain(said["tpi"].removesuffix("tpi").strip()))
        elif said["thread"]:
            size = said["t_size"].replace(" ", "-")
            found.threads.append(f"{size}-{plain(said['t_pitch'])}")
        elif said["class"]:
            found.names.add("unf")
        elif said["dash"]:
            found.dash.append("-" + plain(said["d_size"]))
        elif said["inch"]:
            found.inch.append((said["i_size"] or said["i_unit"]).replace(" ", "-"))
        elif said["mm"]:
            found.mm.append(plain(said["mm_size"]))
        elif said["number"]:
            found.numbers.append(plain(said["number"]))
        elif said["phrase"]:
            found.names.update(_WORD_OF[said["phrase"]].split())
        elif kind == "stray":
            found.strays.append(said["stray"])
    return found
