# SPDX-License-Identifier: Apache-2.0
"""The threads of the trade, by family and size."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from linewright.base.errors import TableError
from linewright.base.evidence import Grade
from linewright.tables.load import rows


@dataclass(frozen=True, slots=True)
class Thread:
    """One thread; lengths in m, None where the table has none.

    ``minor`` is the female's minor diameter, ``tip`` the crest of a taper male at its
    small end. ``size`` is bare: ``1/2`` for pipe, without G or R. ``published_male`` and
    ``published_female`` are calliper readings that identification tables print.
    """

    family: str
    size: str
    designation: str
    major: float
    minor: float | None
    tip: float | None
    pitch: float
    tpi: float | None
    is_taper: bool
    grade: Grade
    source: str
    note: str
    published_male: float | None = None
    published_female: float | None = None


def _metres(text: str) -> float | None:
    return float(text) / 1000 if text else None


def _size(row: Mapping[str, str]) -> str:
    family = row["family"]
    if family in ("npt", "nptf", "bspp", "bspt"):
        return row["nominal"].removesuffix(" in pipe")
    if family == "banjo_bsp":
        return "G " + row["nominal"]
    if family.startswith("banjo") or family in ("metric_flat_face", "metric_bubble_flare"):
        return row["thread"].split(" UN")[0]
    return row["code"]


@cache
def threads() -> Mapping[tuple[str, str], Thread]:
    """Return every thread by family and size.

    Returns
    -------
    Mapping of (str, str) to Thread
        In the order of the table; family words are those of the ends (banjo, bubble_flare).
    """
    found = {}
    for row in rows("threads"):
        family = row["family"]
        if family.startswith("banjo"):
            family = "banjo"
        if family == "metric_bubble_flare":
            family = "bubble_flare"
        size = _size(row)
        found[family, size] = Thread(
            family,
            size,
            row["thread"],
            float(row["major_d_mm"]) / 1000,
            _metres(row["female_minor_d_mm"]),
            _metres(row["male_tip_d_mm"]),
            float(row["pitch_mm"]) / 1000,
            float(row["tpi"]) if row["tpi"] else None,
            row["taper_on_diameter"] not in ("", "none"),
            Grade(row["grade"]),
            row["source"],
            row["note"],
            _metres(row["published_male_od_mm"]),
            _metres(row["published_female_id_mm"]),
        )
    return MappingProxyType(found)


def thread(family: str, size: str) -> Thread:
    """Return one thread.

    Parameters
    ----------
    family : str
        Family word of the end, e.g. ``flare_37``.
    size : str
        Size of the end; G, R, Rc and Rp may stand before a pipe size.

    Returns
    -------
    Thread
        The row of the table.

    Raises
    ------
    TableError
        If the table has no such thread.

    Examples
    --------
    >>> thread("flare_37", "-6").designation
    '9/16-18 UNF'
    """
    bare = size.split()[-1] if family in ("bspp", "bspt") else size
    try:
        return threads()[family, bare]
    except KeyError as error:
        raise TableError(f"There is no thread {family} {size} in threads.csv.") from error
