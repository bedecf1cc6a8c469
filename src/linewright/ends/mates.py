# SPDX-License-Identifier: Apache-2.0
"""Does this seal with that: a thread that runs in proves nothing, the seat decides.

The rules are those of ``mating.csv`` (each row a test); what a joint needs beside its ends
follows seals.csv. Where sources disagree the stricter answer is taken.
"""

import re
from functools import cache, lru_cache

from linewright.base.evidence import Grade
from linewright.ends.end import End, Family, Gender
from linewright.ends.lookalikes import hazard_between
from linewright.ends.mating import Mating, SealNeed
from linewright.tables.load import rows

_GUIDE = "fittings-guide"
_CP = "common-practice-no-source"

#: Families that mate with their own size and the other gender, and need nothing more.
_BARE = {
    Family.FLARE_37: "metal cone on metal cone",
    Family.FLARE_45: "metal cone on metal cone",
    Family.INVERTED_FLARE: "double-flared tube on the raised seat",
    Family.BUBBLE_FLARE: "bubble of the tube in the cup",
    Family.QC: "seals inside the connector",
}
_TAPER = (Family.NPT, Family.NPTF)
_NPT_LIKE = frozenset(_TAPER)


def mates(a: End, b: End) -> Mating:
    """Say whether two ends seal together, and with what.

    Parameters
    ----------
    a, b : End
        The two ends, in either order.

    Returns
    -------
    Mating
        ``ok`` with the seals that the joint needs; or why not, and whether the threads
        run together all the same (``look_alike``, with the hazard).

    Examples
    --------
    >>> boss = End(Family.ORB_UNF, "-8", Gender.FEMALE)
    >>> mates(boss, End(Family.ORB_UNF, "-8", Gender.MALE)).seals[0].size
    'AS568-908'
    >>> mates(boss, End(Family.FLARE_37, "-8", Gender.MALE)).look_alike
    True
    """
    return _mates(a, b) if a <= b else _mates(b, a)


def _no(why: str, *, look_alike: bool = False, hazard: str = "", source: str = "") -> Mating:
    return Mating(False, why, look_alike=look_alike, hazard=hazard, source=source)


@lru_cache(maxsize=65536)
def _mates(a: End, b: End) -> Mating:
    if a.is_unknown or b.is_unknown:
        return _no("one of the two ends is not measured yet")
    if a.gender and b.gender and a.gender is b.gender:
        word = "male" if a.gender is Gender.MALE else "female"
        return _no(f"both ends are {word}")
    special = _SPECIAL.get(frozenset((a.family, b.family)))
    answer = special(a, b) if special else None
    if answer is not None:
        return answer
    if a.family is not b.family:
        return _other_seat(a, b)
    if a.size != b.size:
        return _other_size(a, b)
    if a.kind != b.kind and a.family not in (Family.WELD,):
        return _no(f"the seats differ: {a.kind or 'plain'} against {b.kind or 'plain'}")
    return _same(a, b)


def _same(a: End, b: End) -> Mating:
    family, size = a.family, a.size
    if family in _BARE:
        return Mating(True, _BARE[family], source=_GUIDE, grade=Grade.RELAYED)
    maker = _NEEDS.get(family)
    if maker is None:
        return _no(f"no rule says that {family.value} seals with itself")
    return maker(size)


@cache
def _ring(family: str, size: str) -> SealNeed | None:
    for row in rows("seals"):
        if row["family"] == family and row["size"] == size:
            return SealNeed(row["what"], row["seal"], 1, True, row["source"], Grade(row["grade"]))
    return None


def _boss(size: str) -> Mating:
    ring = _ring("orb_unf", size)
    seals = (ring,) if ring else ()
    return Mating(
        True, "O-ring in the chamfer at the port mouth", seals, source=_GUIDE, grade=Grade.RELAYED
    )


def _face(size: str) -> Mating:
    ring = _ring("orfs", size) or SealNeed("face o-ring", f"of ORFS {size}")
    return Mating(
        True,
        "O-ring in the male face on the flat of the female",
        (ring,),
        source=_GUIDE,
        grade=Grade.RELAYED,
    )


def _pipe(_: str) -> Mating:
    paste = SealNeed("paste", "", 1, True, _GUIDE, Grade.READ)
    return Mating(
        True,
        "taper thread wedges in its flanks, with paste",
        (paste,),
        is_taper=True,
        source=_GUIDE,
        grade=Grade.READ,
    )


def _parallel(size: str) -> Mating:
    washer = SealNeed("washer", f"for {size}", 1, True, _GUIDE, Grade.RELAYED)
    return Mating(
        True,
        "washer on the flat face outside the thread",
        (washer,),
        source=_GUIDE,
        grade=Grade.READ,
    )


def _iso6149(size: str) -> Mating:
    ring = SealNeed("o-ring", f"per ISO 6149-2, {size}", 1, True, _GUIDE, Grade.PRACTICE)
    return Mating(
        True, "O-ring in the gland at the port mouth", (ring,), source=_GUIDE, grade=Grade.RELAYED
    )


def _bore_of(thread: str) -> str:
    found = re.match(r"M(\d+(?:\.\d+)?)", thread)
    return f"{found[1]} mm bore" if found else f"for {thread}"


def _flat(size: str) -> Mating:
    washer = SealNeed("washer", _bore_of(size), 1, True, _GUIDE, Grade.PRACTICE)
    return Mating(True, "washer on the flat face", (washer,), source=_GUIDE, grade=Grade.RELAYED)


def _banjo(size: str) -> Mating:
    return Mating(
        True,
        "eye between two washers under its bolt; the face must be wider than the washer",
        (
            SealNeed("banjo bolt", size, 1, False, _CP),
            SealNeed("washer", _bore_of(size), 2, True, _CP),
        ),
        source=_CP,
    )


def _flange(size: str) -> Mating:
    found = re.match(r"(\d+)-bolt", size)
    bolts = int(found[1]) if found else 2
    return Mating(
        True,
        "gasket between the faces",
        (
            SealNeed("gasket", size, 1, True, _CP),
            SealNeed("bolt", size, bolts, False, _CP),
        ),
        source=_CP,
    )


def _vband(size: str) -> Mating:
    return Mating(
        True,
        "gasket or metal faces, drawn together by the band",
        (
            SealNeed("v-band clamp", f"{size} mm", 1, False, _CP),
            SealNeed("gasket", f"V-band {size} mm", 1, True, _CP),
        ),
        source=_CP,
    )


def _spin_on(size: str) -> Mating:
    return Mating(
        True,
        "gasket of the canister or plate on the land",
        (SealNeed("gasket", f"spin-on {size}", 1, True, _CP),),
        source=_CP,
    )


def _other(_: str) -> Mating:
    return Mating(
        True,
        "as the builder says: same thread and seat in words",
        source="stated",
        grade=Grade.STATED,
    )


def _tube(_: str) -> Mating:
    return Mating(
        True,
        "nut and sleeve on the flared tube",
        is_counted=False,
        source=_GUIDE,
        grade=Grade.RELAYED,
    )


_NEEDS = {
    Family.ORB_UNF: _boss,
    Family.ORFS: _face,
    Family.NPT: _pipe,
    Family.NPTF: _pipe,
    Family.BSPP: _parallel,
    Family.ISO6149: _iso6149,
    Family.METRIC_FLAT_FACE: _flat,
    Family.BANJO: _banjo,
    Family.FLANGE: _flange,
    Family.VBAND: _vband,
    Family.SPINON: _spin_on,
    Family.OTHER: _other,
    Family.TUBE: _tube,
}


# ------------------------------------------------------------------ pairs of families


def _npt_with_nptf(a: End, b: End) -> Mating | None:
    return _pipe(a.size) if a.size == b.size else None


def _male_first(a: End, b: End) -> tuple[End, End]:
    return (a, b) if a.gender is Gender.MALE else (b, a)


def _bspt(a: End, b: End) -> Mating | None:
    """R male in Rc (taper) or Rp (parallel) of ISO 7-1."""
    male, female = _male_first(a, b)
    same = male.size.split()[-1] == female.size.split()[-1]
    if male.size.startswith("R ") and female.size.startswith(("Rc ", "Rp ")) and same:
        return _pipe(male.size)
    return None if not same else _no("ISO 7-1 joins an R male with an Rc or Rp female only")


def _bspt_with_bspp(a: End, b: End) -> Mating | None:
    male, female = _male_first(a, b)
    if male.size.split()[-1] != female.size.split()[-1]:
        return None
    if male.family is Family.BSPT:
        return _no(
            "an R male in a G port enters a turn deeper and leaks along the thread; sources "
            "disagree, taken as no",
            look_alike=True,
            hazard=hazard_between(male, female)
            or "longer leak path; the port is not made to wedge",
            source="lookalikes.csv",
        )
    return _no(
        "a G male never goes in an Rp or Rc female: too tight, and nothing seals",
        look_alike=True,
        hazard=hazard_between(male, female) or "jams",
        source="lookalikes.csv",
    )


def _banjo_on_flat(a: End, b: End) -> Mating | None:
    banjo, port = (a, b) if a.family is Family.BANJO else (b, a)
    if banjo.gender is Gender.MALE and port.gender is Gender.FEMALE and banjo.size == port.size:
        return _banjo(banjo.size)
    return None


def _hose(a: End, b: End) -> Mating | None:
    if a.kind != b.kind:
        return _no(
            f"hose ends of one family never grip another: {a.kind or 'unnamed'} against "
            f"{b.kind or 'unnamed'}"
        )
    if a.size != b.size:
        return _no(f"hose and hose end differ in size: {a.size} against {b.size}")
    if a.gender is b.gender:
        return _no("two hoses meet here without a fitting between them")
    return Mating(True, "hose in its own hose end", is_counted=False, source=_CP)


def _hose_on_spigot(a: End, b: End) -> Mating | None:
    hose, spigot = (a, b) if a.family is Family.HOSE else (b, a)
    if hose.kind == "push-on":
        return _no("push-on hose needs the barb of its own hose end")
    if hose.kind != "clamped":
        return _no(
            f"{hose.kind} hose is not clamped on a spigot: it takes screwed hose ends of its family"
        )
    if hose.gender is not Gender.FEMALE or spigot.gender is Gender.FEMALE:
        return _no("the hose goes over the spigot, not into it")
    bore, outside = _number(hose.size), _number(spigot.size)
    if bore is None or outside is None or abs(bore - outside) > _NAMED_APART:
        return _no(f"hose of {hose.size} mm bore does not fit a spigot of {spigot.size} mm")
    clamp = SealNeed("clamp", f"spigot {spigot.size} mm", 1, False, _CP)
    return Mating(
        True,
        "hose liner on the spigot, clamped behind the bead",
        (clamp,),
        source="sae-j1231-scope-formed-ends-low",
        grade=Grade.READ,
    )


#: Inch sizes are named in whole or half millimetres: hose of 63 is made for tube of 63.5. [mm]
_NAMED_APART = 0.5


def _number(text: str) -> float | None:
    try:
        return float(text)
    except ValueError:
        return None


def _weld(a: End, b: End) -> Mating | None:
    if a.kind and b.kind and a.kind != b.kind:
        return _no(f"{a.kind} does not weld to {b.kind}")
    return Mating(True, "welded", is_counted=False, source=_CP)


_SPECIAL = {
    frozenset((Family.NPT, Family.NPTF)): _npt_with_nptf,
    frozenset((Family.BSPT,)): _bspt,
    frozenset((Family.BSPT, Family.BSPP)): _bspt_with_bspp,
    frozenset((Family.BANJO, Family.METRIC_FLAT_FACE)): _banjo_on_flat,
    frozenset((Family.BANJO, Family.BSPP)): _banjo_on_flat,
    frozenset((Family.HOSE,)): _hose,
    frozenset((Family.HOSE, Family.BEAD)): _hose_on_spigot,
    frozenset((Family.HOSE, Family.BARB)): _hose_on_spigot,
    frozenset((Family.WELD,)): _weld,
}


def _other_seat(a: End, b: End) -> Mating:
    hazard = hazard_between(*_male_first(a, b))
    if hazard:
        return _no(
            f"the threads run together, but {a.family.value} and {b.family.value} have no seat "
            "in common",
            look_alike=True,
            hazard=hazard,
            source="lookalikes.csv",
        )
    return _no(f"{a.family.value} and {b.family.value} have neither thread nor seat in common")


def _other_size(a: End, b: End) -> Mating:
    hazard = hazard_between(*_male_first(a, b))
    why = f"the sizes differ: {a.size} against {b.size}"
    return _no(
        why, look_alike=bool(hazard), hazard=hazard, source="lookalikes.csv" if hazard else ""
    )
