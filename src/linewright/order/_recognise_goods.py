# SPDX-License-Identifier: Apache-2.0
"""Goods that are known by one size: hose, hose ends, seals, clips, clamps, sleeves, nuts."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache

from linewright.order._recognise_ends import INCH_MM
from linewright.order._recognise_parts import codes
from linewright.order._recognise_words import Word
from linewright.tables import hoses
from linewright.tables.seals import seal
from linewright.tables.threads import threads


@dataclass(slots=True)
class Heard:
    """All words of a description by their kind, in the order they were said."""

    words: tuple[Word, ...]
    by: dict[str, list[str]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for word in self.words:
            self.by.setdefault(word.kind, []).append(word.value)

    def all(self, kind: str) -> list[str]:
        """Values of a kind, each once."""
        return list(dict.fromkeys(self.by.get(kind, ())))

    def has(self, kind: str, *values: str) -> bool:
        """Whether any of the values was said."""
        said = self.by.get(kind)
        return said is not None and not set(values).isdisjoint(said)

    def only(self, kind: str) -> str:
        """The one value of a kind; empty where there is none or more than one."""
        values = self.all(kind)
        return values[0] if len(values) == 1 else ""

    @property
    def dash(self) -> str:
        """The one dash size."""
        return self.only("dash")


@dataclass(frozen=True, slots=True)
class Guess:
    """What it may be: our codes, likeliest first; ``why`` says by which words.

    One code is the thing, several are a question, none is nothing of ours.
    """

    codes: tuple[str, ...]
    why: str


def _known(code: str, why: str) -> Guess:
    return Guess((code,), why) if code in codes() else Guess((), f"{why}: no such part of ours")


_SPOKEN_ENDS = {"rubber": "rubber", "PTFE": "ptfe", "push-on": "push-on"}


def hose_end(heard: Heard) -> Guess:
    """A hose end, by dash, hose, angle and turning."""
    kinds = [kind for kind in heard.all("hose") if kind in _SPOKEN_ENDS]
    if "rubber" in kinds and "push-on" in kinds:
        kinds.remove("rubber")
    angle = _angle(heard)
    dash = heard.dash or _spoken_dash(heard)
    if not dash or (heard.all("un") or heard.all("metric")):
        return Guess((), "hose end without one dash size")
    if angle is None:
        return Guess((), "hose end without one angle")
    turns = [turn for turn in heard.all("turn") if turn != "swivel"]
    doubtful = heard.has("turn", "swivel") or len(turns) > 1
    turning = ["fixed", "full-swivel"] if doubtful else [(turns or ["fixed"])[0].replace(" ", "-")]
    bend = "straight" if angle == 0 else str(angle)
    found = [
        code
        for kind in kinds or tuple(_SPOKEN_ENDS)
        for turn in turning
        if (code := f"hose-end-{dash[1:]}-{_SPOKEN_ENDS[kind]}-{bend}-{turn}") in codes()
    ]
    why = f"hose end, {dash}, for {' or '.join(kinds or ['any hose'])}, {bend}"
    if len(kinds) != 1 and len(found) == 1:
        return Guess((found[0], found[0]), f"{why}: does not say for which hose")
    return Guess(tuple(found), f"{why}, {' or '.join(turning)}")


def _spoken_dash(heard: Heard) -> str:
    """A dash that is said as a bare number: "ten ninety"."""
    numbers = {n for n in heard.all("num") if n in ("3", "4", "6", "8", "10", "12", "16", "20")}
    return f"-{numbers.pop()}" if len(numbers) == 1 and not heard.all("dash") else ""


def _angle(heard: Heard) -> int | None:
    """The one angle; a bare number of the trade counts."""
    angles = {int(value) for value in heard.all("angle") if value not in ("37", "360")}
    angles |= {
        int(n) for n in heard.all("num") if n in ("30", "45", "60", "90", "120", "150", "180")
    }
    return angles.pop() if len(angles) == 1 else None


def angle_of(heard: Heard) -> tuple[int | None, bool]:
    """The angle said, and whether two were."""
    angles = {int(value) for value in heard.all("angle") if value not in ("37", "360")}
    if not angles:
        angles = {
            int(n) for n in heard.all("num") if n in ("30", "45", "60", "90", "120", "150", "180")
        }
    return (min(angles) if angles else None), len(angles) > 1


def hose(heard: Heard) -> Guess:
    """Hose by family and size, as the takeoff writes it."""
    family, why = _family(heard)
    if not family:
        return Guess((), why)
    if isinstance(family, tuple):
        found = tuple(code for name in family for code in [_hose_code(heard, name)] if code)
        return Guess(found if len(found) != 1 else found * 2, why)
    code = _hose_code(heard, family)
    coupler = f"coupler-hose-{heard.only('mm')}-to-hose-{heard.only('mm')}"
    is_piece = family == "silicone" and not heard.has("sold", "length") and not heard.all("use")
    if code and is_piece and coupler in codes():
        return Guess((code, coupler), "silicone hose by the length, or a straight piece of it")
    return Guess((code,), f"hose by family and size: {family}") if code else Guess((), "hose size")


def _hose_code(heard: Heard, name: str) -> str:
    family = hoses.FAMILIES.get(name) if hasattr(hoses.FAMILIES, "get") else hoses.family(name)
    if family is not None and family.construction == "clamped":
        sizes = heard.all("mm") or [INCH_MM.get(size, "") for size in heard.all("inch")]
        return f"hose {sizes[0]} mm {name}" if len(sizes) == 1 and sizes[0] else ""
    return f"hose {heard.dash} {name}" if heard.dash and not heard.all("metric") else ""


def _family(heard: Heard) -> tuple[str | tuple[str, ...], str]:
    spec = heard.only("spec")
    if spec:
        return (spec, spec) if spec in hoses.FAMILIES else ("", f"{spec}: no family of ours")
    kinds, uses = heard.all("hose"), heard.all("use")
    is_silicone = heard.has("noun", "silicone") or heard.has("rubber", "silicone")
    if "PTFE" in kinds:
        return _ptfe(heard)
    if "vacuum" in uses:
        return ("reference", "vacuum") if not kinds or is_silicone else ("", "vacuum hose of what")
    if "push-on" in kinds:
        return "push-on", "push-on"
    if heard.has("liner", "fluorosilicone"):
        return "silicone lined", "fluorosilicone"
    if is_silicone:
        return ("silicone", "silicone") if "rubber" not in kinds else ("", "rubber or silicone")
    if heard.has("use", "epdm") or heard.has("rubber", "EPDM"):
        return ("EPDM", "EPDM") if heard.all("mm") or heard.all("inch") else ("", "size")
    if heard.has("rubber", "NBR") and not heard.dash:
        return "NBR", "nitrile"
    if "rubber" in kinds and heard.dash:
        return "rubber braided", "braided rubber"
    return "", "hose of which family is not said"


def _ptfe(heard: Heard) -> tuple[str | tuple[str, ...], str]:
    bores = set(heard.all("bore"))
    is_plain = heard.has("liner", "plain")
    is_conductive = heard.has("liner", "conductive") and not is_plain
    bores |= {bore for bore in ("tube", "full") if bore not in bores and _bore_said(heard, bore)}
    end = " conductive" if is_conductive else ""
    if len(bores) > 1:
        return "", "two bores are said"
    if bores:
        if not (is_conductive or is_plain):
            kinds = tuple(f"PTFE {b}-bore{e}" for b in bores for e in ("", " conductive"))
            return (kinds[0], "PTFE") if not heard.all("liner") else (kinds, "PTFE liner")
        return f"PTFE {bores.pop()}-bore{end}", "PTFE by bore and liner"
    if is_conductive or is_plain:
        return (f"PTFE full-bore{end}", f"PTFE tube-bore{end}"), "PTFE of which bore is not said"
    return "PTFE", "PTFE that leaves bore and liner open"


def _bore_said(heard: Heard, bore: str) -> bool:
    """Whether a size in inches or mm is the bore of this dash in that kind of hose."""
    if not heard.dash:
        return False
    try:
        size = hoses.size(f"PTFE {bore}-bore", heard.dash)
    except (LookupError, ValueError):
        return False
    if size is None or size.bore is None:
        return False
    said = [float(mm) for mm in heard.all("mm")]
    return any(abs(size.bore.value * 1000 - mm) < 0.11 for mm in said)


def tube(heard: Heard) -> Guess:
    """Hard tube by metal and outside diameter."""
    metals = heard.all("mat")
    if heard.all("g") or heard.all("fam"):
        return Guess((), "a fitting for tube, and not said which")
    if len(metals) != 1 or metals[0] not in ("aluminium", "steel", "stainless"):
        return Guess((), "tube of which metal is not said, or none of ours")
    size = heard.dash
    inch = heard.all("inch")
    if not size and inch:
        whole, _, part = inch[0].rpartition("-")
        top, _, below = part.partition("/")
        sixteenths = (int(whole or 0) + int(top) / int(below or 1)) * 16
        size = f"-{int(sixteenths)}" if sixteenths == int(sixteenths) else ""
    return Guess((f"tube {size} {metals[0]}",), "hard tube") if size else Guess((), "tube size")


_RUBBERS = ("NBR", "FKM", "EPDM")


def rubbers(heard: Heard) -> list[str]:
    """Rubbers that are said."""
    found = [rubber for rubber in heard.all("rubber") if rubber in _RUBBERS]
    return [*found, "EPDM"] if heard.has("use", "epdm") else found


def o_ring(heard: Heard) -> Guess:
    """An O-ring by its standard's number, or by the end that it seals."""
    name, is_sure = "", True
    numbers = heard.all("as568") + [n for n in heard.all("num") if len(n) == 3 and n[0] in "90"]
    if len(set(numbers)) > 1:
        return Guess((), "two ring numbers")
    if numbers:
        name = f"AS568-{numbers[0]}"
        if name not in _ring_names():
            return Guess((), f"{name}: none of our joints takes it")
        said = [s.name for f in heard.all("fam") if heard.dash and (s := seal(f, heard.dash))]
        if said and name not in said:
            return Guess((), f"{name} is not the ring of what is said beside it")
    elif heard.has("fam", "iso6149") and heard.all("metric"):
        size = heard.all("metric")[0].partition("x")[0]
        name = f"per ISO 6149-2, {size}"
        if ("iso6149", size) not in threads():
            return Guess((), f"{name}: no such port")
    elif heard.dash or heard.all("un"):
        families = [f for f in heard.all("fam") if f in ("orb_unf", "orfs")]
        family = families[0] if len(families) == 1 else ""
        is_sure = bool(family)
        from linewright.order._recognise_ends import dash_of

        dash = heard.dash or dash_of(family or "orb_unf", heard.all("un")[0])
        found = seal(family or "orb_unf", dash)
        if found is None or (
            heard.all("un") and dash_of(family or "orb_unf", heard.all("un")[0]) != dash
        ):
            return Guess((), "an O-ring of no size of ours")
        name = found.name
    else:
        return Guess((), "an O-ring of no size of ours")
    said_rubbers = rubbers(heard)
    made = said_rubbers or list(_RUBBERS)
    found_codes = tuple(f"O-ring {name}, {rubber}" for rubber in made)
    why = f"O-ring {name}"
    if not said_rubbers:
        if heard.has("hose", "PTFE") or heard.all("mat") or heard.has("noun", "silicone"):
            return Guess((), f"{why}, of another material")
        return Guess(found_codes, f"{why}, of which rubber is not said")
    return Guess(
        found_codes if is_sure else found_codes * 2,
        why if is_sure else f"{why}, for which joint is not said",
    )


@cache
def _ring_names() -> frozenset[str]:
    from linewright.tables.seals import seals

    return frozenset(s.name for s in seals().values() if s.name.startswith("AS568"))


def washer(heard: Heard) -> Guess:
    """A washer by its bore, or a bonded one by its thread."""
    from linewright.tables.seals import seals

    is_bonded = heard.has("noun", "bonded")
    if is_bonded:
        inch = heard.all("inch") or [u.rpartition("-")[0] for u in heard.all("un")]
        if len(inch) != 1 or heard.all("metric") or heard.all("mm") or heard.all("dim"):
            return Guess((), "a bonded washer of no size of ours")
        if heard.has("fam", "npt", "bspt", "nptf") or seal("bspp", f"G {inch[0]}") is None:
            return Guess((), "a bonded washer of no size of ours")
        found = rubbers(heard)
        made = found or list(_RUBBERS)
        return Guess(
            tuple(f"washer for G {inch[0]}, bonded, {rubber}" for rubber in made),
            "bonded washer by thread" if found else "bonded washer of which rubber is not said",
        )
    metals = heard.all("mat")
    if heard.all("rubber") or heard.all("hose") or (metals and metals != ["aluminium"]):
        return Guess((), "a washer of no metal of ours")
    bore = ""
    if dims := heard.all("dim"):
        bore = dims[0].split("x")[0]
    elif metric := heard.all("metric"):
        bore = metric[0].partition("x")[0][1:]
    elif len(mm := heard.all("mm")) == 1:
        bore = mm[0]
    if heard.all("dash") or heard.all("un") or heard.all("inch"):
        return Guess((), "a washer by an inch size")
    name = f"{float(bore):g} mm bore" if bore.replace(".", "", 1).isdigit() else ""
    if name not in {s.name for s in seals().values()}:
        return Guess((), "a washer of no size of ours")
    code = f"washer {name}, aluminium"
    return Guess(
        (code,) if metals else (code, code), "washer by bore" if metals else "metal not said"
    )


def _whole(heard: Heard) -> Iterator[str]:
    """Sizes in mm that a round thing may be known by."""
    yield from heard.all("mm")
    if not heard.all("mm"):
        for size in heard.all("inch"):
            yield INCH_MM.get(size, "")


def by_mm(prefix: str, heard: Heard) -> Guess:
    """A part that is known by one size in mm."""
    sizes = list(dict.fromkeys(_whole(heard)))
    if len(sizes) != 1 or heard.all("un") or heard.all("metric"):
        dash = heard.dash
        if (
            dash
            and not sizes
            and prefix in ("fire-sleeve", "heat-sleeve", "chafe-sleeve", "grommet")
        ):
            near = tuple(c for c in sorted(codes()) if c.startswith(f"{prefix}-"))
            return Guess(near[:6], f"{prefix}: the outside of the hose decides")
        return Guess((), f"{prefix} without one size in mm")
    return _known(f"{prefix}-{sizes[0]}", f"{prefix} of {sizes[0]} mm")


def by_dash(prefix: str, heard: Heard) -> Guess:
    """A part that is known by its dash."""
    from linewright.order._recognise_ends import dash_of

    dash = heard.dash or (dash_of("flare_37", heard.only("un")) if heard.only("un") else "")
    return (
        _known(f"{prefix}-{dash[1:]}", f"{prefix} {dash}")
        if dash
        else Guess((), f"{prefix} of no dash")
    )


def clamp(kind: str, heard: Heard) -> Guess:
    """A hose clamp by its range."""
    spans = heard.all("range")
    if len(spans) != 1:
        return Guess((), "a clamp without one range")
    if kind:
        return _known(f"{kind}-clamp-{spans[0]}", f"{kind} clamp, {spans[0]} mm")
    found = tuple(
        c for k in ("worm", "t-bolt", "fuel") if (c := f"{k}-clamp-{spans[0]}") in codes()
    )
    return Guess(found if len(found) != 1 else found * 2, "a clamp of which kind is not said")


def banjo_bolt(heard: Heard) -> Guess:
    """A banjo bolt by its thread."""
    thread = heard.only("metric") or heard.only("un")
    spoken = thread.lower().replace("/", "-")
    if not thread or heard.has("trait", "double"):
        return Guess((), "a banjo bolt of no one thread, or a double one")
    if thread.startswith("M") and "x" not in thread:
        found = tuple(c for c in sorted(codes()) if c.startswith(f"banjo-bolt-{spoken}x"))
        return Guess(
            found if len(found) != 1 else found * 2, "a banjo bolt of which pitch is not said"
        )
    return _known(f"banjo-bolt-{spoken}", f"banjo bolt {thread}")
