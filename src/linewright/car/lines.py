# SPDX-License-Identifier: Apache-2.0
"""Lines as typed: from, to, ends, length; what is left out is inferred later."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from linewright.base import units
from linewright.base.errors import UnitError
from linewright.base.evidence import Figure
from linewright.car.hose_names import hose_name
from linewright.car.line_index import Path
from linewright.car.model import LineEnd, Medium, Tier
from linewright.car.quantities import ANGLES, dash, line_size, open_size
from linewright.car.table import Log, Table, nearest, said

SERVICES = ("pressure", "suction", "return", "vent", "drain", "reference", "bleed")
FITS = ("screen", "check valve", "jet", "restrictor")
_ID = re.compile(r"[A-Z]{1,3}\d{1,3}\Z", re.ASCII)
_FROM = {"port": "port", "port face": "port", "face": "port", "collar": "collar"}
_MEDIA = [medium.value for medium in Medium]
_DEGREES = {str(angle): angle for angle in ANGLES} | {"straight": 0}
_ANGLE_WORDS = "straight, 30, 45, 60, 90, 120, 150, 180"

#: Lengths nearer than this are the same. [m]
_EXACT = 1e-9


@dataclass(frozen=True, slots=True)
class TypedLine:
    """A line as its builder typed it; "" and None where nothing was said."""

    id: str
    path: Path
    from_port: str
    to_port: str
    system: str
    medium: str
    size: str
    hose: str
    service: str
    ends: tuple[LineEnd, LineEnd]
    tier: Tier
    string: Figure | None
    string_from: str
    crosses: bool | None
    passes: tuple[str, ...]
    passes_at: tuple[Figure, ...]
    follows: tuple[str, ...]
    sleeve: str
    note: str
    line_number: int | None
    clearance: Figure | None
    most_bends: int | None
    is_crimped: bool


def end_words(text: str) -> LineEnd:
    """Read the short form of an end of a line.

    Parameters
    ----------
    text : str
        As in "straight", "45", "90 full swivel", "-8 90"; "open" leaves the angle open.

    Returns
    -------
    LineEnd
        What was said; the rest is left open.

    Raises
    ------
    UnitError
        If a word of it is not known, or stands twice.

    Examples
    --------
    >>> end_words("-8 90 full swivel")
    LineEnd(angle=90, swivel='full', size='-8', hose=None, via=(), fit=())
    """
    angle: int | None = None
    swivel = size = None
    seen: list[str] = []
    rest = re.sub(r"\b(?:full\s+)?swivel\b", " full ", text.lower()).replace("°", " ")
    rest = re.sub(r"\b(?:deg|degrees|hose end|end)\b", " ", rest)
    for word in rest.split():
        if word in _DEGREES:
            kind, angle = "angle", _DEGREES[word]
        elif word in ("open", "?"):
            kind = "angle"
        elif word in ("full", "fixed"):
            kind, swivel = "swivel", word
        elif word.startswith("-"):
            kind, size = "size", dash(word)
        else:
            raise UnitError(
                f'{said(text)}: "{word[:30]}" is no word for the end of a line; allowed: an angle '
                f"({_ANGLE_WORDS}, or open), fixed or full swivel, a dash; as in "
                f'"90 full swivel".{nearest(word, [*_DEGREES, "fixed", "full"])}'
            )
        if kind in seen:
            raise UnitError(
                f'{said(text)} says the {kind} twice; keep one, as in "90 full swivel".'
            )
        seen.append(kind)
    return LineEnd(angle=angle, swivel=swivel, size=size)


def _fits(table: Table) -> tuple[str, ...]:
    found = []
    for text in table.texts("fit"):
        words = " ".join(text.lower().split())
        name = next((f for f in FITS if words == f or words.startswith(f + " ")), None)
        rest = words[len(name) :].strip() if name else ""
        if name is None or (rest and name not in ("jet", "restrictor")):
            table.fault(
                "fit",
                f'{said(text)} is not allowed; allowed: screen, check valve, jet, "jet 1 mm", '
                f'restrictor, "restrictor 2 mm".{nearest(words, FITS)}',
            )
            continue
        if rest:
            try:
                units.length(rest)
            except UnitError as error:
                table.fault("fit", str(error))
                continue
        found.append(words)
    return tuple(found)


def _end(log: Log, path: Path, value: object) -> LineEnd:
    if isinstance(value, str):
        try:
            return end_words(value)
        except UnitError as error:
            log.add(path, str(error))
            return LineEnd()
    if isinstance(value, int) and not isinstance(value, bool):
        value = {"angle": value}
    table = Table(value, path, log, "line's end")
    if not isinstance(value, dict):
        return LineEnd()
    angle = table.raw("angle")
    short = LineEnd()
    if angle is not None:
        word = str(angle) if isinstance(angle, int) and not isinstance(angle, bool) else angle
        if not isinstance(word, str) or word.strip("°").lower() not in (*_DEGREES, "open", "?"):
            table.fault(
                "angle", f"{said(angle)} is no angle of a hose end; allowed: {_ANGLE_WORDS}."
            )
        else:
            short = end_words(word)
    swivel = table.choice("swivel", ("fixed", "full"), "")
    found = LineEnd(
        angle=short.angle,
        swivel=swivel or None,
        size=table.read("size", line_size),
        hose=table.read("hose", hose_name),
        via=table.texts("via"),
        fit=_fits(table),
    )
    table.done()
    return found


def _ends(table: Table) -> tuple[LineEnd, LineEnd]:
    value = table.raw("ends")
    if value is None:
        return LineEnd(), LineEnd()
    if not isinstance(value, list) or len(value) != 2:
        table.fault(
            "ends",
            f"{said(value)} is not allowed; write two, from A to B, as in "
            f'ends = ["90", "straight"].',
        )
        return LineEnd(), LineEnd()
    first, second = (_end(table.log, (*table.at("ends"), i), end) for i, end in enumerate(value))
    return first, second


def _length(table: Table) -> tuple[Tier, Figure | None, str]:
    """Read how long the line is: the best of mocked-up, string and guess."""
    read = {
        tier: table.figure(key, units.length, "m", above=0)
        for tier, key in (
            (Tier.MOCKED_UP, "mocked-up"),
            (Tier.STRING, "string"),
            (Tier.GUESS, "guess"),
        )
    }
    start = table.text("string-from", "port")
    if start not in _FROM:
        table.fault(
            "string-from",
            f"{said(start)} is not allowed; allowed: port (port face to port face), collar "
            f"(collar to collar, ends fitted).{nearest(start, _FROM)}",
        )
    where = _FROM.get(start, "port")
    for tier, figure in read.items():
        if figure is not None:
            return tier, figure, where
    if table.has("string-from") and not any(table.has(tier) for tier in read):
        table.fault(
            "string-from", 'says where a string starts, but there is none; add string = "700 mm".'
        )
    return Tier.UNKNOWN, None, where


def _pieces(table: Table, passes: tuple[str, ...], whole: Figure | None) -> tuple[Figure, ...]:
    """Read the lengths of the pieces of a line that passes panels; they add up to no more."""
    if not table.has("passes-at"):
        table.raw("passes-at")
        return ()
    texts = table.texts("passes-at")
    found = []
    for text in texts:
        one = Table({"passes-at": text}, table.path, table.log, "line")
        figure = one.figure("passes-at", units.length, "m", above=0)
        if figure:
            found.append(figure)
    if not passes or len(texts) not in (len(passes), len(passes) + 1):
        table.fault(
            "passes-at",
            f"names {len(texts)} lengths; {len(passes)} passes make {len(passes) + 1} pieces: one "
            f"length for each, or for each but the last.",
        )
        return ()
    total = sum(figure.value for figure in found)
    is_all = len(texts) == len(passes) + 1
    if whole is not None and (
        total > whole.value + _EXACT or (not is_all and total >= whole.value - _EXACT)
    ):
        table.fault(
            "passes-at",
            f"adds up to {total * 1000:.0f} mm, and the whole line is "
            f"{whole.value * 1000:.0f} mm: "
            + ("that is more than there is" if is_all else "nothing is left for the last piece")
            + ". Lay the string again through the panel, or correct one of them.",
        )
        return ()
    return tuple(found)


def _most_bends(table: Table) -> int | None:
    value = table.raw("most-bends")
    if value is None:
        return None
    if isinstance(value, bool) or not isinstance(value, int) or not 1 <= value <= 40:
        table.fault(
            "most-bends",
            f"{said(value)} is no number of bends; allowed: a whole number from 1 to 40, without "
            f"quotes.",
        )
        return None
    return value


def _line(log: Log, name: str, value: object) -> TypedLine | None:
    path = ("lines", name)
    if not _ID.match(name):
        log.add(
            path,
            f'{said(name)} is no id of a line; allowed: its letter and a number, as in "O01" '
            f"(O oil, C coolant, W charge coolant, F fuel, A charge air, V vent, D drain, "
            f"R reference). The letters of pieces, as in F05a, are added by the plan.",
        )
    table = Table(value, path, log, "line")
    if not isinstance(value, dict):
        return None
    tier, string, string_from = _length(table)
    passes = table.texts("passes")
    found = TypedLine(
        id=name,
        path=path,
        from_port=table.needed("from", "oil-tank.feed"),
        to_port=table.needed("to", "oil-pump.inlet"),
        system=table.text("system"),
        medium=table.choice("medium", _MEDIA, ""),
        size=table.read("size", open_size) or "",
        hose=table.read("hose", hose_name) or "",
        service=table.choice("service", SERVICES, ""),
        ends=_ends(table),
        tier=tier,
        string=string,
        string_from=string_from,
        crosses=table.flag("crosses"),
        passes=passes,
        passes_at=_pieces(table, passes, string),
        follows=table.texts("follows"),
        sleeve=table.text("sleeve"),
        note=table.text("note", most=2000),
        line_number=log.line(path),
        clearance=table.figure("clearance", units.length, "m", above=0),
        most_bends=_most_bends(table),
        is_crimped=bool(table.flag("crimped")),
    )
    table.done({"length": "is typed by how it was measured: string, mocked-up or guess."})
    return found


def typed_lines(root: Table) -> Mapping[str, TypedLine]:
    """Read ``[lines.X]``.

    Parameters
    ----------
    root : Table
        The document.

    Returns
    -------
    dict
        Lines by id, in the order of the document.
    """
    table = root.table("lines", "list of lines")
    if table is None:
        return {}
    read = [_line(root.log, name, value) for name, value in table.items()]
    return {line.id: line for line in read if line}
