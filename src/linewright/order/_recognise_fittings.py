# SPDX-License-Identifier: Apache-2.0
"""Fittings, pipes and silicone shapes by the ends that a description names."""

from collections.abc import Mapping

from linewright.catalogue.part import Part
from linewright.order import _recognise_goods as goods
from linewright.order._recognise_ends import INCH_MM, Said, ends_of
from linewright.order._recognise_goods import Guess, Heard
from linewright.order._recognise_parts import (
    TELLING,
    Ask,
    candidates,
    codes,
    is_all_male,
    options,
)

_TWO_ENDED = frozenset(
    ("adaptor", "union", "reducer", "bushing", "sensor adaptor", "bead adaptor", "barb adaptor",
     "jet", "check valve", "screen", "restrictor", "inline filter", "gauge adaptor", "elbow",
     "barb joiner", "bead joiner")
)  # fmt: skip

#: Shapes that a noun of a fitting allows.
_SHAPES: Mapping[str, frozenset[str]] = {
    "union": frozenset(("union", "barb joiner")),
    "reducer": frozenset(("union", "reducer", "bushing", "adaptor", "barb joiner")),
    "elbow": frozenset(("elbow", "bulkhead")),
    "tee": frozenset(("tee", "bulkhead", "barb tee")),
    "bulkhead": frozenset(("bulkhead",)),
    "plug": frozenset(("plug",)),
    "cap": frozenset(("cap",)),
    "bung": frozenset(("bung",)),
    "bushing": frozenset(("bushing",)),
    "plate": frozenset(("take-off plate",)),
    "head": frozenset(("filter head",)),
    "y block": frozenset(("y block",)),
    "tube nut": frozenset(("tube nut",)),
    "joiner": frozenset(("barb joiner",)),
    "drain flange": frozenset(("drain flange",)),
    "v-band flange": frozenset(("v-band flange",)),
    "gauge port": frozenset(("gauge adaptor",)),
    "gauge tee": frozenset(("gauge adaptor", "tee")),
    "sensor adaptor": frozenset(("sensor adaptor",)),
    "coupler": frozenset(("coupler",)),
}

#: What is sold with one seat alone for a metric thread.
_ONE_SEAT = frozenset(("bung", "jet", "sensor adaptor"))

#: A filter head has five.
_MOST_ENDS = 5

#: Families that are said once for all ends, or of the thing as a whole.
_OF_ALL = frozenset(("flare_37", "barb", "bead", "vband", "spinon"))

_TRAITS = {
    "check valve": "check valve", "jet": "jet", "restrictor": "restrictor", "screen": "screen",
    "filter": "filter", "bulkhead": "bulkhead",
}  # fmt: skip

#: How many ends a shape has, where a description names fewer.
_COUNT = {
    "plug": 1, "cap": 1, "tee": 3, "barb tee": 3, "y block": 3, "take-off plate": 3,
    "filter head": 5, "gauge adaptor": 2,
}  # fmt: skip


def by_ends(
    heard: Heard,
    nouns: set[str],
    fittings: set[str],
    ends: list[Said],
    seats: frozenset[str],
) -> Guess:
    """A part by its ends."""
    is_threaded = any(heard.all(kind) for kind in ("fam", "un", "metric", "g", "dash"))
    is_silicone = bool(nouns & {"silicone", "coupler"}) and not is_threaded
    is_fitting = bool(nouns & _SHAPES.keys() - {"coupler"}) or "adaptor" in nouns
    if is_silicone and "hose" not in nouns and not heard.all("dash"):
        return _silicone(heard, ends)
    if (
        is_silicone
        and not heard.all("dash")
        and (
            nouns & {"reducer", "elbow", "coupler"}
            or heard.has("trait", "hump")
            or heard.all("angle")
        )
    ):
        return _silicone(heard, ends)
    if {"hose", "silicone"} & nouns and not is_fitting and not heard.has("fam", "bead", "barb"):
        return goods.hose(heard)
    is_bare = not (heard.all("g") or heard.has("fam", "barb", "npt", "orb_unf", "bead"))
    if heard.all("hose") and not fittings and is_bare:
        return goods.hose(heard)
    if heard.all("spec") and not fittings:
        return goods.hose(heard)
    if "hose" in nouns and not fittings and heard.has("sold", "length"):
        return goods.hose(heard)
    is_pipe = "pipe" in nouns and not heard.all("fam")
    if (
        (
            "pipe" in nouns
            or _is_bend(heard, nouns)
            or ("tube" in nouns and heard.all("mm") and not heard.dash)
        )
        and (heard.has("fam", "bead") or heard.has("all", "bead"))
        and not nouns & {"bung", "adaptor"}
    ):
        return _pipe(heard)
    if "tube" in nouns and not is_fitting:
        return goods.tube(heard)
    if is_pipe and not is_fitting and heard.all("mm"):
        return _plain_pipe(heard)
    return _fitting(heard, nouns, fittings, ends, seats)


def _is_bend(heard: Heard, nouns: set[str]) -> bool:
    """Whether a bend with beads is pipe: nothing else of it has a size but its outside."""
    is_pipes = "elbow" in nouns and heard.has("all", "bead") and heard.has("mat", "aluminium")
    return is_pipes and not nouns & {"silicone", "coupler"} and not heard.all("dash")


def _silicone(heard: Heard, ends: list[Said]) -> Guess:
    sizes = [size for end in ends for size in end.sizes]
    mms = [value for kind, value in sizes if kind == "mm"]
    if not mms:
        mms = [m for kind, v in sizes if kind == "inch" and (m := INCH_MM.get(v))]
    # A length is said after the bore: "76 mm ID, 76 mm long".
    angle, is_two = goods.angle_of(heard)
    bores = _bores(mms)
    if not bores or len(bores) > 2 or is_two or heard.all("dash") or heard.all("metric"):
        return Guess((), "silicone without one or two bores")
    if heard.has("trait", "double") or heard.has("noun", "tee"):
        return Guess((), "a silicone shape that is none of ours")
    if len(bores) == 1 and heard.has("noun", "reducer"):
        return Guess((), "a reducer of one bore")
    large, small = max(bores, key=float), min(bores, key=float)
    bend = f"-{angle}" if angle else ""
    if angle:
        code = f"silicone-hose-{large}-to-hose-{small}{bend}"
    elif heard.has("noun", "elbow"):
        return Guess((), "an elbow without its angle")
    else:
        code = f"coupler-hose-{large}-to-hose-{small}"
        code += "-hump" if heard.has("trait", "hump") else ""
    is_length = heard.has("sold", "length")
    if heard.has("noun", "hose") and not angle and is_length and len(bores) == 1:
        return goods.hose(heard)
    if is_length:
        return Guess((code, code), "a shape sold by length")
    if heard.has("liner", "fluorosilicone"):
        return Guess((code, code) if code in codes() else (), "silicone with another liner")
    if code not in codes():
        return Guess((), f"{code}: no such part of ours")
    if heard.has("noun", "hose") and not (
        angle or heard.has("noun", "coupler", "reducer") or heard.has("trait", "hump")
    ):
        return Guess((code, f"hose {large} mm silicone"), "a coupler or hose by the length")
    return Guess((code,), f"silicone by its bores {' and '.join(bores)} mm")


def _bores(mms: list[str]) -> list[str]:
    return list(dict.fromkeys(mms))


def _pipe(heard: Heard) -> Guess:
    sizes = [*heard.all("mm")] or [INCH_MM.get(i, "") for i in heard.all("inch")]
    angle, is_two = goods.angle_of(heard)
    if len(sizes) != 1 or is_two or heard.has("mat", "steel", "stainless"):
        return Guess((), "a beaded pipe without one size, or of another metal")
    code = f"pipe-bead-{sizes[0]}-m-to-bead-{sizes[0]}-m" + (f"-{angle}" if angle else "")
    if code not in codes():
        return Guess((), f"{code}: no such part of ours")
    is_both = heard.has("all", "all", "bead") or len(heard.by.get("fam", ())) > 1
    return Guess((code,) if is_both else (code, code), "beaded pipe by outside and angle")


def _plain_pipe(heard: Heard) -> Guess:
    """Straight pipe by the length, as charge pipe is made of."""
    size, metal = heard.only("mm"), heard.only("mat")
    angle, _ = goods.angle_of(heard)
    if not (size and heard.has("sold", "length")) or angle or metal != "aluminium":
        return Guess((), "a pipe that is neither beaded nor sold by length")
    return Guess((f"pipe {size} mm {metal}",), "pipe by outside and metal")


def _fitting(
    heard: Heard,
    nouns: set[str],
    fittings: set[str],
    ends: list[Said],
    seats: frozenset[str],
) -> Guess:
    if "coupler" in nouns:  # "stud coupling": what has threads is no silicone
        nouns = nouns - {"coupler"} | {"adaptor"}
    shapes = _shapes(nouns, heard)
    if not shapes:
        return Guess((), "no word says what it is")
    metals = frozenset(heard.all("mat"))
    angle, is_two = goods.angle_of(heard)
    straight = heard.has("angle", "0") or "0" in heard.by.get("angle", ())
    if is_two:
        return Guess((), "two angles are said")
    traits = {_TRAITS[n] for n in nouns if n in _TRAITS}
    if shapes == _SHAPES["drain flange"]:
        ends = [end for end in ends if not any(kind == "mm" for kind, _ in end.sizes)]
    if "tube nut" in nouns:
        ends = [e for e in ends if e.family or e.gender or not e.sizes or e.sizes[0][0] == "un"]
        ends = ends or [e for e in ends_of(heard.words)[0] if e.sizes][:1]
        for end in ends:  # an inch size of a nut for tube is the tube's
            end.sizes = [_of_tube(size) for size in end.sizes]
    ended, plain = _completed(heard, nouns, ends, shapes)
    if not ended:
        return Guess((), "no end has a size")
    if len(ended) > _MOST_ENDS:
        return Guess((), "more ends than any part has")
    is_guessed = angle is not None and not heard.all("angle") and "elbow" not in nouns
    choices = [options(end, plain, seats, metals) for end in ended]
    if not all(choices):
        bad = next(e for e, c in zip(ended, choices, strict=True) if not c)
        return Guess((), f"end {' '.join(v for _, v in bad.sizes)} {bad.family}: no such end")
    welds = [("weld", "")] if shapes & {"bung", "v-band flange"} else []
    if welds:
        ended = [*ended, Said(family="weld")]
        choices = [*choices, welds]
    if shapes & {"tube nut"} and len(ended) == 1:
        ended, choices = _with_tube(ended, choices, heard)
    if shapes == _SHAPES["drain flange"]:
        sizes = heard.all("mm") or [n for n in heard.all("num") if len(n) == 2]
        if len(sizes) != 1:
            return Guess((), "a flange without one distance of its holes")
        ended = [*ended, Said(family="flange")]
        choices = [*choices, [("flange", f"2-bolt {sizes[0]}")]]
    want = None if nouns & {"elbow"} and angle is None and not straight else (angle or 0)
    side = "run" if heard.has("trait", "run") else ""
    side = "side" if heard.has("trait", "branch") and not side else side
    if not any(end.gender == "nut" or end.gender == "f" for end in ended):
        side = ""
    gauged = frozenset(traits) | ({"gauge port"} if _has_gauge(nouns, ended) else set())
    found = []
    for telling in {frozenset(traits), frozenset(gauged)}:
        found += candidates(ended, choices, Ask(shapes, want, telling & TELLING, metals, ""))
    if side and any(side in trait for part in found for trait in part.traits):
        found = [part for part in found if any(side in trait for trait in part.traits)]
    guess = _narrowed(heard, nouns, ended, choices, found)
    if is_guessed and len(guess.codes) == 1:
        return Guess(guess.codes * 2, f"{guess.why}: whether {angle} is its angle is not said")
    return guess


def _of_tube(size: tuple[str, str]) -> tuple[str, str]:
    kind, value = size
    top, _, below = value.partition("/")
    if kind != "inch" or not (top.isdigit() and below.isdigit()):
        return size
    sixteenths = int(top) * 16 / int(below)
    return ("dash", f"-{int(sixteenths)}") if sixteenths == int(sixteenths) else size


def _has_gauge(nouns: set[str], ends: list[Said]) -> bool:
    return bool({"gauge port", "gauge tee"} & nouns) or len(ends) == 3


def _shapes(nouns: set[str], heard: Heard) -> frozenset[str]:
    sets = [_SHAPES[noun] for noun in nouns if noun in _SHAPES]
    if "plug" in nouns and "check valve" not in nouns:
        return _SHAPES["plug"]
    if "bung" in nouns:
        return _SHAPES["bung"]
    if "v-band flange" in nouns:
        return _SHAPES["v-band flange"]
    if "bulkhead" in nouns:
        return _SHAPES["bulkhead"]
    if "tee" in nouns:
        return _SHAPES["tee"]
    if "gauge tee" in nouns:
        return _SHAPES["gauge tee"]
    if "gauge port" in nouns:
        return _SHAPES["gauge port"] | _SHAPES["sensor adaptor"]
    if "drain flange" in nouns:
        return _SHAPES["drain flange"]
    if nouns & {"joiner", "union"} and (heard.has("fam", "bead") or heard.has("all", "bead")):
        return frozenset(("bead joiner",))
    for noun in ("plate", "head", "y block", "tube nut", "cap", "elbow", "bushing", "joiner"):
        if noun in nouns:
            return _SHAPES[noun]
    if "reducer" in nouns and nouns & {"union", "adaptor"} and len(sets) > 1:
        return _SHAPES["union"] if "union" in nouns else _SHAPES["reducer"]
    if len(nouns & {"tee", "joiner"}) == 2:
        return frozenset(("barb tee",))
    if sets and "adaptor" not in nouns:
        return frozenset.union(*sets)
    return _TWO_ENDED


def _completed(
    heard: Heard, nouns: set[str], ends: list[Said], shapes: frozenset[str]
) -> tuple[list[Said], str]:
    """Ends as often as the part has them; what stands for all is put to each."""
    plain = "flare_37"
    if heard.has("fam", "bead") or shapes == {"bead joiner"}:
        plain = "bead"
    elif heard.has("fam", "barb") or "joiner" in nouns or "barb tee" in shapes:
        plain = "barb"
    if shapes & {"plug", "bung"} and not heard.has("g", "m"):
        plain = ""
    if shapes == _SHAPES["plug"] and not heard.has("fam", "flare_37"):
        plain = ""
    if "v-band flange" in nouns:
        plain = "vband"
    if nouns & {"plate", "head"}:
        for end in ends if not heard.has("fam", "spinon") else ():
            if end.sizes and not end.family and end.sizes[0][0] in ("un", "metric"):
                end.family = "spinon"
                break
    sized = [end for end in ends if end.sizes]
    loose = [end for end in ends if not end.sizes]
    if not sized:
        return [], plain
    if plain in ("barb", "bead", "vband"):
        for end in sized:
            if end.family in ("barb", "bead") or end.sizes[0][0] == "mm":
                end.family = plain if end.sizes[0][0] in ("mm", "inch") else end.family
    if plain == "vband":
        sized = sized[:1]
    elif plain in ("barb", "bead"):
        plain = plain if all(e.sizes[0][0] == "mm" for e in sized) else "flare_37"
    wanted = max((_COUNT.get(shape, 2) for shape in shapes), default=2)
    if "bulkhead" in shapes and "tee" in nouns:
        wanted = 3
    if shapes & {"bung", "v-band flange", "tube nut", "drain flange"}:
        wanted = 1
    full: list[Said] = []
    for end in sized:
        full += [Said(end.sizes, end.family, end.gender) for _ in range(min(end.many, 5))]
    if any(
        end.family and end.family != sized[0].family and end.family not in _OF_ALL for end in loose
    ):
        return [], plain  # an end of a family of its own, whose size is not said
    for end in full:
        if not end.gender and heard.has("turn", "swivel") and len(full) == 2:
            others = [e for e in full if e is not end]
            end.gender = "nut" if others[0].gender == "m" and end.sizes[0][0] != "mm" else ""
    genders = [end.gender for end in loose if end.gender]
    families = [end.family for end in loose if end.family and not end.gender]
    if families and len(set(families)) == 1:
        for end in full:
            end.family = end.family or families[0]
    said_families = {end.family for end in (*full, *loose) if end.family}
    if said_families == {"flare_37"} and (len(sized) == 1 or nouns & {"union", "bulkhead"}):
        for end in full:
            end.family = "flare_37"
    if len(sized) == 1 and len(full) == 1 and wanted > 1 and shapes != _SHAPES["tube nut"]:
        first = full[0]
        is_all = heard.has("all", "all")
        copies = [Said(first.sizes, first.family, first.gender) for _ in range(wanted)]
        said = [first.gender, *genders] if first.gender else genders
        is_sided = heard.has("trait", "branch", "run")
        if wanted == 3 and said and set(said) & {"nut", "f"} and (is_sided or not is_all):
            for copy in copies:
                copy.gender = "m"
            copies[0].gender = next(g for g in said if g in ("nut", "f"))
        elif said and (is_all or len(said) == 1):
            for copy in copies:
                copy.gender = said[0] if is_all or wanted == 3 else ""
            copies[0].gender = said[0]
        elif said:
            for copy, gender in zip(copies, said, strict=False):
                copy.gender = gender
        return copies, plain
    if "bushing" in nouns and len({e.family for e in full if e.family}) == 1:
        for end in full:  # the thread is said once for both
            end.family = end.family or next(e.family for e in full if e.family)
    if len(genders) == 1 or (genders and heard.has("all", "all")):
        for end in full:
            if not end.gender and genders[0] == "m":
                end.gender = "m"
    if len(sized) == 2 and len(full) == 2 and nouns & {"plate", "head", "y block"}:
        full += [Said(full[1].sizes, full[1].family, full[1].gender) for _ in range(wanted - 2)]
    if "gauge port" in nouns and len(full) == 2 and heard.has("all", "all"):
        full += [Said(e.sizes, e.family, e.gender) for e in full if _is_main(e)]
    if wanted == 3 and len(full) == 2 and "tee" in shapes:
        main = full[0] if _is_main(full[0]) else full[1]
        full.append(Said(main.sizes, main.family, main.gender))
    return full, plain


def _is_main(end: Said) -> bool:
    """Whether an end is the one that a tee has twice: no gauge port, no swivel nut."""
    return end.gender != "nut" and end.family not in ("npt", "bspt", "bspp")


def _with_tube(
    ended: list[Said], choices: list[list[tuple[str, str]]], heard: Heard
) -> tuple[list[Said], list[list[tuple[str, str]]]]:
    """A nut for tube: the tube's outside where it is said, else whatever fits the thread."""
    inch = heard.all("inch")
    dashes = [f"-{n}" for n in range(2, 21)]
    if inch:
        top, _, below = inch[-1].rpartition("-")[2].partition("/")
        sixteenths = int(top) / int(below or 1) * 16
        dashes = [f"-{sixteenths:g}"]
    for end in ended:
        end.gender = ""
    return [*ended, Said(family="tube")], [*choices, [("tube", dash) for dash in dashes]]


def _narrowed(
    heard: Heard,
    nouns: set[str],
    ended: list[Said],
    choices: list[list[tuple[str, str]]],
    found: list[Part],
) -> Guess:
    why = " x ".join(
        " ".join(
            word
            for word in (
                "/".join(sorted({family.replace("_", " ") for family, _ in c})),
                e.sizes[0][1] if e.sizes else "",
                e.gender,
            )
            if word
        )
        for e, c in zip(ended, choices, strict=True)
    )
    parts = list(dict.fromkeys(found))
    unsaid = [end for end in ended if not end.gender and end.sizes]
    families = {family for options_ in choices for family, _ in options_}
    if len(parts) > 1 and unsaid:
        is_by_rule = bool(
            families & {"npt", "nptf", "bspp", "bspt", "orb_unf", "orfs", "metric_flat_face",
                        "iso6149", "qc"}
        ) and "flare_37" in families  # fmt: skip
        if is_by_rule:
            males = [part for part in parts if is_all_male(part, ended)]
            parts = males or parts
    if not parts:
        return Guess((), f"{why}: no such part of ours")
    open_family = any(len({f for f, _ in c}) > 1 for c in choices)
    names = tuple(part.code for part in parts)
    is_pitchless = any(
        kind == "metric" and "x" not in size and family == "metric_flat_face"
        for end, choice in zip(ended, choices, strict=True)
        for kind, size in end.sizes
        for family, _ in choice
    )
    if len(parts) == 1 and is_pitchless:
        return Guess(names * 2, f"{why}: the pitch is not said")
    is_one_seat = nouns & _ONE_SEAT and not any(k == "un" for e in ended for k, _ in e.sizes)
    if len(parts) == 1 and open_family and not is_one_seat:
        return Guess(names * 2, f"{why}: the seat is not said")
    if len(parts) == 1 and len(unsaid) == len([e for e in ended if e.sizes]) and not (
        families & {"npt", "nptf", "bspp", "bspt", "orb_unf", "orfs", "metric_flat_face",
                    "iso6149", "bubble_flare", "barb", "bead", "spinon", "vband", "banjo",
                    "inverted_flare", "flare_45", "flange"}
        or nouns & {"cap", "union", "bulkhead", "tube nut", "plug", "y block"}
    ):  # fmt: skip
        return Guess(names * 2, f"{why}: no gender is said")
    return Guess(names, why)
