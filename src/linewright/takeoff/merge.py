# SPDX-License-Identifier: Apache-2.0
"""From single wants to rows: equal things are added up and get their spares."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from math import ceil
from typing import TypedDict, Unpack

from linewright.base.evidence import Grade, weakest
from linewright.base.ids import natural_key
from linewright.car.model import Car
from linewright.catalogue.part import Part
from linewright.joints.offered import setting
from linewright.takeoff.model import Row

#: Groups of the parts list, in its order.
GROUPS = (
    "adaptors",
    "plugs",
    "hose ends",
    "hose",
    "seals",
    "sealant",
    "hardware",
    "clips",
    "components",
    "sundries",
)


class Spares(StrEnum):
    """How many more than needed are ordered."""

    NONE = "none"
    SEAL = "seal"  # half the need, rounded up, and at least two
    HOSE_END = "hose end"  # one more of what is used more than three times


class More(TypedDict, total=False):
    """Fields of a `Want` that most leave at their default."""

    count: int
    unit: str
    spares: Spares
    spare_base: int | None
    grade: Grade
    is_certain: bool
    note: str


@dataclass(frozen=True, slots=True)
class Want:
    """One thing that one id asks for; ``count`` 0 asks for spares alone.

    ``spare_base`` is the number that spares are reckoned on, where it is not ``count``.
    """

    code: str
    name: str
    group: str
    system: str | None
    because: str
    count: int = 1
    unit: str = "piece"
    spares: Spares = Spares.NONE
    spare_base: int | None = None
    price_index: float | None = None
    availability: str = "stocked"
    grade: Grade = Grade.PRACTICE
    is_certain: bool = True
    note: str = ""


def of_part(
    part: Part | None,
    words: str,
    group: str,
    system: str | None,
    because: str,
    **more: Unpack[More],
) -> Want:
    """Want of a catalogue part, or of what is described where the catalogue has none.

    Parameters
    ----------
    part : Part or None
        The part.
    words : str
        What it is, should the catalogue have none.
    group : str
        Group of the parts list.
    system : str or None
        Id of the system that asks.
    because : str
        Id of the joint, line, port or component that asks.
    **more : Unpack[More]
        Other fields of `Want`; a weaker grade than the part's own is kept.

    Returns
    -------
    Want
        With the part's code, name, price index and availability.
    """
    if part is None:
        more.setdefault("note", "not among the generic parts: buy it as described")
        return Want(words, words, group, system, because, **more)
    grades = [grade for name, grade in part.grades if name == "availability"]
    more["grade"] = weakest([*grades, more.get("grade", Grade.PRACTICE)])
    return Want(
        part.code,
        part.name,
        group,
        system,
        because,
        price_index=part.price_index,
        availability=part.availability.value,
        **more,
    )


def merge(car: Car, wants: Iterable[Want]) -> tuple[Row, ...]:
    """Add equal wants up to rows, with spares.

    Parameters
    ----------
    car : Car
        Its settings may replace the default spares.
    wants : Iterable of Want
        All that is asked for, in any order.

    Returns
    -------
    tuple of Row
        In the order of the groups, then of the codes; the same for any order of wants.
    """
    heaps: dict[tuple[str, str], list[Want]] = {}
    for want in wants:
        heaps.setdefault((want.group, want.code), []).append(want)
    order = sorted(heaps, key=lambda key: (GROUPS.index(key[0]), natural_key(key[1])))
    return tuple(_row(car, heaps[key]) for key in order)


def _row(car: Car, wants: list[Want]) -> Row:
    wants = sorted(wants, key=lambda w: (natural_key(w.because), w.name, w.count, w.note))
    first = wants[0]
    need = sum(want.count for want in wants)
    base = sum(w.count if w.spare_base is None else w.spare_base for w in wants)
    shares: dict[str, int] = {}
    for want in wants:
        shares[want.system or ""] = shares.get(want.system or "", 0) + want.count
    counts: dict[str, int] = {}
    for want in wants:
        counts[want.because] = counts.get(want.because, 0) + want.count
    notes = dict.fromkeys(want.note for want in wants if want.note)
    return Row(
        code=first.code,
        name=first.name,
        group=first.group,
        need=need,
        order=need + spares(car, first.spares, base),
        unit=first.unit,
        by_system=tuple(sorted(shares.items(), key=lambda item: natural_key(item[0]))),
        because=tuple(counts),
        price_index=first.price_index,
        availability=first.availability,
        grade=weakest(want.grade for want in wants),
        is_certain=all(want.is_certain for want in wants),
        note="; ".join(notes),
        counts=tuple(counts.values()),
    )


def spares(car: Car, rule: Spares, need: int) -> int:
    """How many more than needed are ordered.

    Parameters
    ----------
    car : Car
        Its settings may replace the defaults.
    rule : Spares
        Which rule holds.
    need : int
        What the car takes.

    Returns
    -------
    int
        Extra pieces.
    """
    if rule is Spares.SEAL and need > 0:
        share = setting(car, "spare-seals-share").value
        return max(ceil(need * share - 1e-9), round(setting(car, "spare-seals-least").value))
    if rule is Spares.HOSE_END and need > setting(car, "spare-hose-end-above").value:
        return 1
    return 0
