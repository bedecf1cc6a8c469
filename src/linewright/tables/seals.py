# SPDX-License-Identifier: Apache-2.0
"""Seals by the joint that takes them: which ring, which washer, how large.

``grade`` says how the choice of seal is known, the figures carry a grade of their own: the
number of a boss ring was read in a manual, its diameters are from memory.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from linewright.base.evidence import Figure, Grade
from linewright.tables.load import rows


@dataclass(frozen=True, slots=True)
class Seal:
    """What one joint of a family and size takes.

    ``name`` is the standard's word (``AS568-908``) or says the bore (``22 mm bore``);
    figures in m, None where the table has none.
    """

    what: str
    family: str
    size: str
    name: str
    inside: Figure | None
    section: Figure | None
    outside: Figure | None
    source: str
    grade: Grade
    note: str


def _figure(row: Mapping[str, str], column: str) -> Figure | None:
    if not row[column]:
        return None
    basis = f"{row['what']} {row['seal']}"
    return Figure(float(row[column]) / 1000, "m", Grade(row["measured_grade"]), basis)


@cache
def seals() -> Mapping[tuple[str, str], Seal]:
    """Return every seal by family and size of the joint.

    Returns
    -------
    Mapping of (str, str) to Seal
        In the order of the table.
    """
    return MappingProxyType(
        {
            (row["family"], row["size"]): Seal(
                row["what"],
                row["family"],
                row["size"],
                row["seal"],
                _figure(row, "inside_mm"),
                _figure(row, "section_mm"),
                _figure(row, "outside_mm"),
                row["source"],
                Grade(row["grade"]),
                row["note"],
            )
            for row in rows("seals")
        }
    )


def seal(family: str, size: str) -> Seal | None:
    """Return the ring or washer of a joint.

    Parameters
    ----------
    family : str
        Family word of the end, e.g. ``orb_unf``.
    size : str
        Size of the end.

    Returns
    -------
    Seal or None
        None where the table has no row.

    Examples
    --------
    >>> seal("orb_unf", "-8").name
    'AS568-908'
    >>> seal("orb_unf", "-8").inside.grade
    <Grade.RECALLED: 'recalled'>
    """
    return seals().get((family, size))


def washer(thread: str) -> Seal | None:
    """Return the washer under a bolt or stud.

    Parameters
    ----------
    thread : str
        Thread as ends have it: ``M14x1.5``, ``G 1/4``, ``7/16-20``.

    Returns
    -------
    Seal or None
        Its bore follows the thread; None where the table has no row.

    Examples
    --------
    >>> washer("M14x1.5").name
    '14 mm bore'
    """
    family = {"M": "metric_flat_face", "G": "bspp"}.get(thread[:1], "banjo")
    return seal(family, thread)
