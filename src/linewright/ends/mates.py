# SPDX-License-Identifier: Apache-2.0
"""Does this seal with that: a thread that runs in proves nothing, the seat decides.

The rules are those of ``mating.csv`` (each row a test); what a joint needs beside its ends
follows seals.csv. Where sources disagree the stricter answer is taken.
"""

import re
from collections.abc import Callable, Mapping
from functools import lru_cache

from linewright.base.evidence import Grade
from linewright.ends.end import End, Family, Gender
from linewright.ends.lookalikes import Hazard, hazard_between
from linewright.ends.mating import Mating, SealNeed
from linewright.tables.seals import seal

_GUIDE = "fittings-guide"
_CP = "common-practice-no-source"

#: Families that mate with their own size and the other gender, and need nothing more: how
#: they seal, who says so, and how well that is known (as in mating.csv).
_BARE = {
    Family.FLARE_37: (
        "metal cone on metal cone",
        "fittings-guide-seal-type-families-seat",
        Grade.RELAYED,
    ),
    Family.FLARE_45: ("metal cone on metal cone", _GUIDE, Grade.RELAYED),
    Family.INVERTED_FLARE: ("double-flared tube on the raised seat", _GUIDE, Grade.RELAYED),
    Family.BUBBLE_FLARE: (
        "bubble of the tube in the cup",
        "vehicle-maker-manual-essay-flares",
        Grade.READ,
    ),
    Family.QC: ("seals inside the connector", _CP, Grade.PRACTICE),
}
#: Families whose two halves are alike: they have no gender.
_NO_GENDER = frozenset({Family.FLANGE, Family.VBAND, Family.WELD, Family.TUBE, Family.OTHER})


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


def _no(why: str, hazard: Hazard | None = None) -> Mating:
    if hazard is None:
        return Mating(False, why)
    return Mating(
        False,
        why,
        look_alike=True,
        hazard=hazard.text,
        source=hazard.source,
        grade=hazard.grade,
    )


@lru_cache(maxsize=65536)
def _mates(a: End, b: End) -> Mating:
    if a.is_unknown or b.is_unknown:
        return _no("one of the two ends is not measured yet")
    if a.gender and b.gender and a.gender is b.gender:
        word = "male" if a.gender is Gender.MALE else "female"
        return _no(f"both ends are {word}")
    for end in (a, b):
        if end.gender is Gender.NONE and end.family not in _NO_GENDER:
            return _no(f"it is not said whether {end} is male or female")
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
        how, source, grade = _BARE[family]
        return Mating(True, how, source=source, grade=grade)
    maker = _NEEDS.get(family)
    if maker is None:
        return _no(f"no rule says that {family.value} seals with itself")
    return maker(size)


def _seal(family: Family, size: str) -> SealNeed | None:
    """The ring or washer that the table has for a joint."""
    found = seal(family.value, size)
    if found is None:
        return None
    return SealNeed(found.what, found.name, 1, True, found.source, found.grade)


def _boss(size: str) -> Mating:
    ring = _seal(Family.ORB_UNF, size) or SealNeed("o-ring", f"of boss {size}", source=_GUIDE)
    return Mating(
        True, "O-ring in the chamfer at the port mouth", (ring,), source=_GUIDE, grade=Grade.RELAYED
    )


def _face(size: str) -> Mating:
    ring = _seal(Family.ORFS, size) or SealNeed("face o-ring", f"of ORFS {size}", source=_GUIDE)
    return Mating(
        True,
        "O-ring in the male face on the flat of the female",
        (ring,),
        source="fittings-guide-seal-type-families-seat-3",
        grade=Grade.READ,
    )


def _pipe(_: str, source: str = "machine-maker-manuals-pipe-thread-procedure") -> Mating:
    return Mating(
        True,
        "taper thread wedges in its flanks, with paste",
        (SealNeed("paste", "", 1, True, source, Grade.READ),),
        is_taper=True,
        source=source,
        grade=Grade.READ,
    )


def _parallel(size: str) -> Mating:
    source = "iso-228-1-scope-text-fittings"
    return Mating(
        True,
        "washer on the flat face outside the thread",
        (SealNeed("washer", f"for {size}", 1, True, source, Grade.READ),),
        source=source,
        grade=Grade.READ,
    )


_PORTS = "technical-note-iso-6149-1"


def _iso6149(size: str) -> Mating:
    # Ring sizes of ISO 6149-2 were found in no source: the words name the standard.
    ring = SealNeed("o-ring", f"per ISO 6149-2, {size}", 1, True, _PORTS, Grade.PRACTICE)
    return Mating(
        True, "O-ring in the gland at the port mouth", (ring,), source=_PORTS, grade=Grade.RELAYED
    )


def _bore_of(thread: str) -> str:
    found = re.match(r"M(\d+(?:\.\d+)?)", thread)
    return f"{found[1]} mm bore" if found else f"for {thread}"


def _flat(size: str) -> Mating:
    washer = SealNeed("washer", _bore_of(size), 1, True, _PORTS, Grade.PRACTICE)
    return Mating(True, "washer on the flat face", (washer,), source=_PORTS, grade=Grade.RELAYED)


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
        source="the builder",
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


_NEEDS: Mapping[Family, Callable[[str], Mating]] = {
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
        return _pipe(male.size, "iso-7-1-combinations-described-pipe")
    return None if not same else _no("ISO 7-1 joins an R male with an Rc or Rp female only")


def _bspt_with_bspp(a: End, b: End) -> Mating | None:
    male, female = _male_first(a, b)
    if male.size.split()[-1] != female.size.split()[-1]:
        return None
    hazard = hazard_between(male, female)
    if male.family is Family.BSPT:
        return _no(
            "an R male in a G port enters a turn deeper and leaks along the thread; sources "
            "disagree, taken as no",
            hazard,
        )
    return _no("a G male never goes in an Rp or Rc female: too tight, and nothing seals", hazard)


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
    return Mating(
        True,
        "hose in its own hose end",
        is_counted=False,
        source="navy-training-manual-navedtra-14315-p",
        grade=Grade.READ,
    )


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
        return _no("the threads run together, but the two have no seat in common", hazard)
    return _no("the two have neither thread nor seat in common")


def _other_size(a: End, b: End) -> Mating:
    return _no(f"the sizes differ: {a.size} against {b.size}", hazard_between(*_male_first(a, b)))
