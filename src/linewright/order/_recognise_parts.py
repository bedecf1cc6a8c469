# SPDX-License-Identifier: Apache-2.0
"""Parts by what a description says of their ends: an index of the catalogue."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import permutations, product

from linewright.catalogue.part import Part
from linewright.catalogue.stock import generic
from linewright.ends.end import End, Family, Gender
from linewright.order._recognise_ends import INCH_MM, Said, dash_of, dashes_of, pipe_threads

#: Traits that a description has to say, and that no part may have unsaid.
TELLING = frozenset(
    ("check valve", "jet", "restrictor", "screen", "filter", "bulkhead", "hump", "gauge port")
)


@dataclass(frozen=True, slots=True)
class Ask:
    """What a part has to be: shapes allowed, angle, telling traits, metal."""

    shapes: frozenset[str]
    angle: int | None = None
    traits: frozenset[str] = frozenset()
    metals: frozenset[str] = frozenset()
    side: str = ""


@cache
def _index() -> dict[tuple[tuple[str, str], ...], tuple[Part, ...]]:
    """Parts by the families and sizes of their ends."""
    heap: dict[tuple[tuple[str, str], ...], list[Part]] = {}
    for part in generic().parts:
        if part.ends:
            heap.setdefault(_key((e.family.value, e.size) for e in part.ends), []).append(part)
    return {key: tuple(parts) for key, parts in heap.items()}


def _key(ends: Iterable[tuple[str, str]]) -> tuple[tuple[str, str], ...]:
    return tuple(sorted(ends))


@cache
def codes() -> frozenset[str]:
    """Codes of all parts of the catalogue."""
    return frozenset(part.code for part in generic().parts)


@cache
def _sizes_of(family: str) -> frozenset[str]:
    return frozenset(e.size for part in generic().parts for e in part.ends if e.family == family)


def options(
    said: Said, plain: str, seats: frozenset[str], metals: frozenset[str]
) -> list[tuple[str, str]]:
    """Families and sizes that one end may be.

    Parameters
    ----------
    said : Said
        What is said of it.
    plain : str
        Family of a bare dash or of millimetres; empty where that has to be said.
    seats : frozenset of str
        What is said of a metric seat.
    metals : frozenset of str
        Metals that the description names.

    Returns
    -------
    list of tuple
        More than one where the description leaves it open; none where it contradicts itself.
    """
    found: list[list[tuple[str, str]]] = [
        _of_size(kind, value, said, plain, seats, metals) for kind, value in said.sizes
    ]
    if not found:
        return []
    both = set(found[0]).intersection(*found[1:]) if len(found) > 1 else set(found[0])
    return sorted(both)


def _of_size(
    kind: str, value: str, said: Said, plain: str, seats: frozenset[str], metals: frozenset[str]
) -> list[tuple[str, str]]:
    family = said.family
    if kind == "dash":
        if family in ("orb_unf", "orfs", "flare_45", "inverted_flare", "flare_37"):
            return [(family, value)]
        if family or not plain:
            return [("orb_unf", value), ("flare_37", value)] if not family else []
        return [(plain, value)] if plain in ("flare_37", "tube") else []
    if kind == "un":
        if family in ("npt", "nptf", "bspp", "bspt", "bsp") and value in pipe_threads():
            return _pipe(value.rpartition("-")[0], family)
        if family == "spinon":
            return [("spinon", value)]
        families = (family,) if family else ("orb_unf", "flare_37", "orfs")
        return [(f, dash) for f in families if (dash := dash_of(f, value))]
    if kind == "metric":
        return _metric(value, family, seats, metals)
    if kind == "inch":
        if family in ("flare_37", "orb_unf", "orfs"):  # "9/16 JIC": the thread without its turns
            return [(family, dash) for dash in dashes_of(family, value)]
        if family in ("npt", "nptf", "bspp", "bspt", "bsp"):
            return _pipe(value, family)
        if family == "qc":
            return [("qc", value)]
        if family in ("hose", "bead", "barb", "vband") or plain in (
            "hose",
            "bead",
            "barb",
            "vband",
        ):
            size = INCH_MM.get(value)
            return [(family or plain, size)] if size else []
        return []
    family = family if family in ("bead", "barb", "vband") else plain
    return [(family, value)] if family in ("hose", "bead", "barb", "vband") else []


def _pipe(size: str, family: str) -> list[tuple[str, str]]:
    if family == "bspp":
        return [("bspp", f"G {size}")]
    if family == "bspt":
        return [("bspt", f"R {size}"), ("bspt", f"Rc {size}")]
    if family == "bsp":
        return [("bspp", f"G {size}"), ("bspt", f"R {size}"), ("bspt", f"Rc {size}")]
    return [(family, size)]


def _metric(
    value: str, family: str, seats: frozenset[str], metals: frozenset[str]
) -> list[tuple[str, str]]:
    bare = value.partition("x")[0]
    if family in ("spinon", "banjo"):
        return [(family, s) for s in _sizes_of(family) if s in (value, bare)]
    kinds = ["bubble_flare"] if "bubble_flare" in seats else ["metric_flat_face", "iso6149"]
    if "iso6149" in seats:
        kinds = ["iso6149"]
    elif "flat" in seats or ("aluminium" in metals and len(kinds) == 2):
        kinds = ["metric_flat_face"]
    found = []
    for kind in kinds:
        if kind == "iso6149":
            # The standard fixes the pitch: another pitch is another thread.
            if value == bare or _pitch_fits(value):
                found.append((kind, bare))
        elif value != bare:
            found.append((kind, value))
        else:
            found += [(kind, s) for s in _sizes_of(kind) if s.startswith(f"{bare}x")]
    return found


@cache
def _pitch_fits(value: str) -> bool:
    from linewright.tables.threads import threads

    return any(f == "iso6149" and t.designation == value for (f, _), t in threads().items())


def candidates(
    ends: Sequence[Said], choices: Sequence[list[tuple[str, str]]], ask: Ask
) -> list[Part]:
    """Parts that have such ends and all else that is asked.

    Parameters
    ----------
    ends : Sequence of Said
        The ends, each as often as the part has it.
    choices : Sequence of list
        What each of them may be, from `options`.
    ask : Ask
        What else is said.

    Returns
    -------
    list of Part
        In the order of the catalogue.
    """
    found: dict[str, Part] = {}
    for combination in product(*choices):
        for part in _index().get(_key(combination), ()):
            if part.code not in found and _is_asked(part, ask) and _fits(part, ends, combination):
                found[part.code] = part
    return list(found.values())


def _is_asked(part: Part, ask: Ask) -> bool:
    if part.shape not in ask.shapes or (part.traits & TELLING) != ask.traits:
        return False
    if ask.angle is not None and part.angle != ask.angle:
        return False
    if ask.side and not any(ask.side in trait for trait in part.traits):
        return False
    weld = next((e.kind for e in part.ends if e.family is Family.WELD), None)
    return not (weld and ask.metals and weld not in ask.metals)


def gender_of(end: End) -> str:
    """Gender as a description says it: m, f, nut (a swivel nut), or nothing."""
    return "nut" if end.swivel else end.gender.value


def _fits(part: Part, ends: Sequence[Said], combination: Sequence[tuple[str, str]]) -> bool:
    for order in permutations(part.ends):
        if all(
            (end.family.value, end.size) == wanted and _same_gender(said.gender, end)
            for end, said, wanted in zip(order, ends, combination, strict=True)
        ):
            return True
    return False


def _same_gender(said: str, end: End) -> bool:
    if not said or end.gender is Gender.NONE:
        return True
    has = gender_of(end)
    return said == has or (said == "f" and has == "nut" and end.gender is Gender.FEMALE)


def is_all_male(part: Part, ends: Sequence[Said]) -> bool:
    """Whether every end of which no gender was said is male in this part."""
    unsaid = {id(end): end for end in ends if not end.gender}
    males = sum(1 for e in part.ends if gender_of(e) == "m")
    said_males = sum(1 for end in ends if end.gender == "m")
    return males - said_males >= len(unsaid)
