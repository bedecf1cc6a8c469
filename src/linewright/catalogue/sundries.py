# SPDX-License-Identifier: Apache-2.0
"""Parts without ends: clips, clamps, nuts, washers, olives, banjo bolts, paste, sleeves, tags.

What goes round a hose is chosen by the hose's outside over whatever is inside it, never by the
bore: a clip may not be smaller than the hose, a clamp must hold it in its range.
"""

from dataclasses import dataclass
from functools import cache

from linewright.base.evidence import Grade
from linewright.catalogue.part import Part
from linewright.tables.load import rows

_MM = 1e-3


@dataclass(frozen=True, slots=True)
class Sized:
    """A part that goes round something: it holds outsides from ``low`` to ``high``. [m]"""

    part: Part
    kind: str
    low: float
    high: float


def _grades(grade: Grade) -> tuple[tuple[str, Grade], ...]:
    return ("availability", grade), ("mass", Grade.RECALLED), ("price_index", Grade.RECALLED)


def _number(size: str) -> float:
    """Size as a number for price and mass; a thread counts nothing."""
    text = size.removeprefix("-")
    return float(text) if text.replace(".", "", 1).isdigit() else 0.0


@cache
def sundries() -> tuple[Part, ...]:
    """Hardware and sundries of ``sundries.csv``, one part a size.

    Returns
    -------
    tuple of Part
        Parts without ends.
    """
    parts = []
    for row in rows("sundries"):
        for size in row["sizes"].split() or [""]:
            spoken = size.removeprefix("-").lower().replace("/", "-")
            number = _number(size)
            parts.append(
                Part(
                    code="-".join(word for word in (row["code"], spoken) if word),
                    name=row["name"].replace("*", size),
                    shape=row["shape"],
                    ends=(),
                    price_index=round(
                        float(row["price"]) + float(row["price_per_size"]) * number, 3
                    ),
                    mass=round(
                        (float(row["mass_g"]) + float(row["mass_g_per_size"]) * number) / 1000, 5
                    ),
                    material=row["material"],
                    traits=frozenset(trait for trait in row["traits"].split(";") if trait),
                    grades=_grades(Grade(row["grade"])),
                )
            )
    return tuple(parts)


@cache
def clamps() -> tuple[Sized, ...]:
    """Hose clamps of ``clamps.csv`` with the outsides they hold.

    Returns
    -------
    tuple of Sized
        Clamps of kind ``t-bolt``, ``worm`` and ``fuel``, each kind from small to large.
    """
    found = []
    for row in rows("clamps"):
        low, high = float(row["low_mm"]), float(row["high_mm"])
        kind = row["kind"]
        part = Part(
            code=f"{kind}-clamp-{low:g}-{high:g}",
            name=f"{'T-bolt' if kind == 't-bolt' else kind} clamp, {low:g} to {high:g} mm",
            shape="clamp",
            ends=(),
            price_index=round(float(row["price"]) + float(row["price_per_mm"]) * high, 3),
            mass=round(float(row["mass_g"]) / 1000, 5),
            material="stainless",
            traits=frozenset((kind,)),
            grades=_grades(Grade(row["grade"])),
        )
        found.append(Sized(part, kind, low * _MM, high * _MM))
    return tuple(found)


@cache
def _clips() -> tuple[Sized, ...]:
    clips = [part for part in sundries() if part.shape == "clip"]
    sized = [Sized(p, "clip", 0.0, float(p.code.rpartition("-")[2]) * _MM) for p in clips]
    return tuple(sorted(sized, key=lambda clip: clip.high))


#: What a joint asks for, and the words that its code begins with.
_HARDWARE = {
    "nut": "bulkhead-nut",
    "panel washer": "panel-washer",
    "olive": "olive",
    "lock nut": "lock-nut",
    "banjo bolt": "banjo-bolt",
    "bolt": "flange-bolt",
    "v-band clamp": "v-band-clamp",
    "gasket": "flange-gasket",
}


@cache
def _by_code() -> dict[str, Part]:
    return {part.code: part for part in sundries()}


def hardware_for(what: str, size: str) -> Part | None:
    """Part for the hardware that a joint asks for.

    Parameters
    ----------
    what : str
        As in `SealNeed`: ``nut`` (of a bulkhead), ``panel washer``, ``olive``, ``lock nut``,
        ``banjo bolt``, ``bolt`` (of a flange), ``v-band clamp`` or ``gasket`` (of a flange or
        a V-band).
    size : str
        Dash size, thread, pattern of holes, or millimetres.

    Returns
    -------
    Part or None
        The part; None where the catalogue has none of that size, and for seals.

    Examples
    --------
    >>> hardware_for("banjo bolt", "M14x1.5").code, hardware_for("nut", "-6").code
    ('banjo-bolt-m14x1.5', 'bulkhead-nut-6')
    >>> hardware_for("gasket", "2-bolt 38").code, hardware_for("gasket", "V-band 51 mm").code
    ('flange-gasket-2-bolt-38', 'v-band-ring-51')
    """
    prefix = _HARDWARE.get(what)
    if prefix is None:
        return None
    if what == "gasket" and size.startswith("V-band "):
        prefix, size = "v-band-ring", size.removeprefix("V-band ")
    spoken = size.removeprefix("-").removesuffix(" mm").lower()
    spoken = spoken.replace("/", "-").replace(" ", "-")
    return _by_code().get(f"{prefix}-{spoken}") or _by_code().get(prefix)


def clip_for(outside: float) -> Part | None:
    """P-clip for a hose: the smallest whose inside is not below the hose's outside.

    Parameters
    ----------
    outside : float
        Outside diameter of the hose, its sleeve included. [m]

    Returns
    -------
    Part or None
        The clip; None if the hose is larger than every clip.

    Examples
    --------
    >>> clip_for(0.0229).code
    'p-clip-lined-23'
    """
    for clip in _clips():
        if clip.high >= outside - 1e-9:
            return clip.part
    return None


def clamp_for(kind: str, outside: float) -> Part | None:
    """Clamp for a hose on its spigot.

    Parameters
    ----------
    kind : str
        ``t-bolt``, ``worm`` or ``fuel``.
    outside : float
        Outside diameter of the hose once it sits on the bead. [m]

    Returns
    -------
    Part or None
        The clamp whose range holds it, the narrowest range first, then the one whose middle is
        nearest; None if no clamp of the kind does.

    Examples
    --------
    >>> clamp_for("t-bolt", 0.061).code, clamp_for("worm", 0.048).code
    ('t-bolt-clamp-60-64', 'worm-clamp-32-50')
    """
    fitting = [
        clamp
        for clamp in clamps()
        if clamp.kind == kind and clamp.low - 1e-9 <= outside <= clamp.high + 1e-9
    ]
    best = min(
        fitting,
        key=lambda c: (round(c.high - c.low, 6), round(abs((c.high + c.low) / 2 - outside), 6)),
        default=None,
    )
    return best.part if best else None
