# SPDX-License-Identifier: Apache-2.0
"""Hose families, their sizes, and what a hose end adds to a hose.

Bores: "-10" of braided rubber hose is 12.7 mm in the standards that were read and 14.3 mm in
race hose (practice). The better grade is used; every other bore stands in ``bores``.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from linewright.base.errors import CatalogueError, TableError
from linewright.base.evidence import Figure, Grade
from linewright.tables.load import rows

_MM = 1e-3
_BAR = 1e5


@dataclass(frozen=True, slots=True)
class HoseFamily:
    """A family of hose: what it is made of and which hose ends grip it.

    ``ends`` is rubber, PTFE, push-on, clamped, tube or pipe; ``conductive`` is None where the
    family does not say. ``rows`` and ``others`` name the rows of ``hose.csv``.
    """

    key: str
    name: str
    spoken: tuple[str, ...]
    ends: str
    construction: str
    liner: str
    conductive: bool | None
    rows: str
    others: tuple[str, ...]
    grade: Grade
    note: str


@dataclass(frozen=True, slots=True)
class HoseSize:
    """One size of a family; None where the data have no figure. SI.

    ``bores`` are all bores that sources give for this size, the one in use first. ``vacuum``
    is empty for a family that stands for several hoses, of which one was tested.
    """

    family: str
    size: str
    bore: Figure | None
    outside: Figure | None
    working: Figure | None
    burst: Figure | None
    bend_radius: Figure | None
    mass_per_metre: Figure | None
    vacuum: str
    hottest: Figure | None
    bores: tuple[Figure, ...]


def _read_families() -> Mapping[str, HoseFamily]:
    found = {}
    for row in rows("hose_families"):
        conductive = {"yes": True, "no": False}.get(row["conductive"])
        found[row["key"]] = HoseFamily(
            row["key"],
            row["name"],
            tuple(row["spoken"].split("|")),
            row["ends"],
            row["construction"],
            row["liner"],
            conductive,
            row["rows"],
            tuple(o for o in row["others"].split("|") if o),
            Grade(row["grade"]),
            row["note"],
        )
    return MappingProxyType(found)


#: Hose families by their key.
FAMILIES: Mapping[str, HoseFamily] = _read_families()


@cache
def _spoken() -> Mapping[str, HoseFamily]:
    return {
        _bare(word): family
        for family in FAMILIES.values()
        for word in (family.key, family.name, *family.spoken)
    }


def _bare(text: str) -> str:
    """A name without what people leave out: capitals, commas, spaces too many."""
    return " ".join(text.lower().replace(",", " ").split())


@cache
def family(text: str) -> HoseFamily:
    """Return the hose family that a text names.

    Parameters
    ----------
    text : str
        A key or a word of the trade, in any case: ``"rubber braided"``, ``"PTFE"``.

    Returns
    -------
    HoseFamily
        The family.

    Raises
    ------
    CatalogueError
        If no family is called so; the message lists those that are known.

    Examples
    --------
    >>> family("Rubber braided").ends
    'rubber'
    """
    name = _bare(text)
    found = _spoken().get(name) or _spoken().get(name.removesuffix(" hose"))
    if found is None:
        raise CatalogueError(
            f'"{text}" is no hose family that linewright knows. Known are: {", ".join(FAMILIES)}.'
        )
    return found


def _figure(row: Mapping[str, str], column: str, factor: float, unit: str) -> Figure | None:
    if not row[column]:
        return None
    basis = f"{row['family']} {row['dash']}".strip()
    return Figure(float(row[column]) * factor, unit, Grade(row["grade"]), basis)


def _hose_rows(word: str, size: str) -> list[dict[str, str]]:
    if not word:
        return []
    return [
        r
        for r in rows("hose")
        if word.lower() in r["family"].lower()
        and (r["dash"] == size if r["dash"] else _is_bore(r, size))
    ]


def _is_bore(row: Mapping[str, str], size: str) -> bool:
    """A row without a bore speaks of every size of its hose."""
    try:
        return not row["bore_mm"] or float(row["bore_mm"]) == float(size)
    except ValueError:
        return False


def cited(family_key: str, size: str, column: str) -> str:
    """Where a figure of a hose is from.

    Parameters
    ----------
    family_key : str
        Key of the family.
    size : str
        Dash, or bore in millimetres.
    column : str
        Heading of the figure in ``hose.csv``.

    Returns
    -------
    str
        Keys of the sources of the rows that have it, "; " between; "" where none has.

    Examples
    --------
    >>> cited("PTFE", "-6", "bore_mm")
    'hose-selection-page-ptfe-series-share; hose-maker-catalogue-open-repository-sizes'
    """
    kind = FAMILIES[family_key]
    words = (kind.rows, *kind.others)
    found = [row for word in words for row in _hose_rows(word, size) if row[column]]
    return "; ".join(dict.fromkeys(row["source"] for row in found))


@cache
def size(family_key: str, size: str) -> HoseSize:
    """Return the figures of one size of a hose family.

    Parameters
    ----------
    family_key : str
        Key of the family.
    size : str
        Dash (``-10``), or bore in millimetres for clamped hose (``38``).

    Returns
    -------
    HoseSize
        What the data have; missing figures are None.

    Raises
    ------
    TableError
        If there is no such family.
    CatalogueError
        If the family has sizes in the data and this is none of them.

    Examples
    --------
    >>> found = size("rubber braided", "-10")
    >>> [round(b.value * 1000, 1) for b in found.bores]
    [12.7, 14.3]
    """
    if family_key not in FAMILIES:
        raise TableError(f"There is no hose family {family_key} in hose_families.csv.")
    kind = FAMILIES[family_key]
    own = _hose_rows(kind.rows, size)
    others = [row for word in kind.others for row in _hose_rows(word, size)]
    clamped = kind.construction == "clamped"
    if not own and not others and not clamped and kind.rows:
        sizes = sorted(
            {r["dash"] for r in rows("hose") if kind.rows.lower() in r["family"].lower()},
            key=lambda d: int(d.strip("-") or 0),
        )
        raise CatalogueError(
            f"{kind.name} is not made in size {size}. Sizes: {', '.join(s for s in sizes if s)}."
        )

    def first(column: str, factor: float, unit: str) -> Figure | None:
        for row in (*own, *others):
            figure = _figure(row, column, factor, unit)
            if figure is not None:
                return figure
        return None

    bores: list[Figure] = []
    for row in (*own, *others):
        figure = _figure(row, "bore_mm", _MM, "m")
        if figure is not None and all(abs(figure.value - b.value) > 5e-5 for b in bores):
            bores.append(figure)
    if not bores and clamped:
        bores = [_typed(size)]
    hottest = first("temp_max_c", 1.0, "K")
    return HoseSize(
        family_key,
        size,
        bores[0] if bores else None,
        first("od_mm", _MM, "m"),
        first("max_working_bar", _BAR, "Pa"),
        first("burst_bar", _BAR, "Pa"),
        first("min_bend_radius_mm", _MM, "m"),
        first("mass_kg_per_m", 1.0, "kg/m"),
        # A vacuum test is of one hose: another hose of the same dash has not passed it.
        next((r["vacuum"] for r in own if r["vacuum"]), ""),
        hottest and Figure(hottest.value + 273.15, "K", hottest.grade, hottest.basis),
        tuple(bores),
    )


def _typed(size: str) -> Figure:
    try:
        value = float(size)
    except ValueError as error:
        raise CatalogueError(
            f'"{size}" is no bore of a clamped hose; say it in millimetres, e.g. 38.'
        ) from error
    return Figure(value * _MM, "m", Grade.STATED, "bore as typed")


_CUT_OFF = {
    "rubber": "MS24587 reusable flared end",
    "PTFE": "PTFE hose swivel end",
}


@cache
def take_up(ends_key: str, dash: str, angle: int) -> Figure | None:
    """Return what a hose end adds between the cut hose and the measuring point.

    Parameters
    ----------
    ends_key : str
        ``rubber``, ``PTFE`` or ``push-on``.
    dash : str
        Dash of the hose end.
    angle : int
        Angle of the hose end. [deg]

    Returns
    -------
    Figure or None
        The take-up in m; None where no table has it ("cut in place").

    Examples
    --------
    >>> take_up("rubber", "-10", 0).value
    0.0254
    >>> take_up("rubber", "-10", 90) is None
    True
    """
    start = _CUT_OFF.get(ends_key)
    if start is None:
        return None
    shape = "straight" if angle == 0 else f"{angle} deg"
    for row in rows("hose_cutoff"):
        if row["end"] == f"{start}, {shape}" and row["dash"] == dash:
            # The inch figure is the printed one; the millimetres beside it are rounded.
            value = float(row["cutoff_in"]) * 25.4 * _MM
            return Figure(value, "m", Grade(row["grade"]), f"{row['source']}, {row['place']}")
    return None
