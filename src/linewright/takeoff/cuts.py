# SPDX-License-Identifier: Apache-2.0
"""Hose to buy, by family and size, and the cut list, piece by piece."""

from math import ceil

from linewright.base.dimensions import FOOT
from linewright.base.evidence import weakest
from linewright.base.ids import natural_key
from linewright.car.model import Car, Construction, Line
from linewright.joints.model import Termination
from linewright.joints.offered import setting
from linewright.routes.model import Routes, Run
from linewright.tables import hoses
from linewright.takeoff.model import Cut, HoseRow

#: What rounding of the order must not push over a whole foot or metre. [m]
_EXACT = 1e-6


def hose_rows(car: Car, routes: Routes) -> tuple[HoseRow, ...]:
    """Hose, tube and pipe to buy: one row for each family and size.

    Parameters
    ----------
    car : Car
        The car document as read.
    routes : Routes
        All runs; those without a length are left out.

    Returns
    -------
    tuple of HoseRow
        In the order of their codes.
    """
    heaps: dict[tuple[str, str], list[Run]] = {}
    for run in routes.runs:
        if run.buy is not None:
            code, name = describe(car.lines[run.line])
            heaps.setdefault((code, name), []).append(run)
    rows = (_hose_row(car, code, name, runs) for (code, name), runs in heaps.items())
    return tuple(sorted(rows, key=lambda row: natural_key(row.code)))


def describe(line: Line) -> tuple[str, str]:
    """Code and name of the hose, tube or pipe that a line is made of.

    Parameters
    ----------
    line : Line
        The line.

    Returns
    -------
    tuple of str
        Code, and the name in the trade's words.
    """
    size = line.size if line.size.startswith("-") else f"{line.size} mm"
    if not line.size:
        size = "size open"
    if line.construction in (Construction.TUBE, Construction.PIPE):
        word = "tube" if line.construction is Construction.TUBE else "pipe"
        metal = " ".join(w for w in line.hose.replace(",", " ").split() if w not in (word, "hard"))
        full = "hard tube" if word == "tube" else "charge pipe"
        return f"{word} {size} {metal}".strip(), f"{full} {size}, {metal}".rstrip(", ")
    family = hoses.family(line.hose)
    return f"hose {size} {family.key}", f"hose {size}, {family.name}"


def _hose_row(car: Car, code: str, name: str, runs: list[Run]) -> HoseRow:
    lines = [car.lines[run.line] for run in runs]
    need = sum(run.buy.value for run in runs if run.buy)
    string = sum(run.string.value for run in runs if run.string)
    order = need + _over(car, need)
    if all(line.service == "reference" for line in lines):
        # A short length of thin hose is bought by the whole metre; nothing more is added.
        order = ceil(need - _EXACT)
    shares: dict[str, float] = {}
    for run in runs:
        if run.buy:
            shares[run.system or ""] = shares.get(run.system or "", 0.0) + run.buy.value
    return HoseRow(
        code=code,
        name=name,
        hose=lines[0].hose,
        size=lines[0].size,
        pieces=tuple((run.id, run.buy.value) for run in runs if run.buy),
        string=string,
        need=need,
        order=order,
        feet=ceil((order - _EXACT) / FOOT),
        metres=ceil(order - _EXACT),
        grade=weakest(run.buy.grade for run in runs if run.buy),
        by_system=tuple(sorted(shares.items(), key=lambda item: natural_key(item[0]))),
        because=tuple(dict.fromkeys(run.id for run in runs)),
        systems=tuple(run.system or "" for run in runs if run.buy),
    )


def _over(car: Car, need: float) -> float:
    """What is bought over the need: a share, and never less than a length [m]."""
    return max(need * setting(car, "over-buy-share").value, setting(car, "over-buy-least").value)


def cuts(car: Car, routes: Routes) -> tuple[Cut, ...]:
    """The cut list: one row for each piece.

    Parameters
    ----------
    car : Car
        The car document as read.
    routes : Routes
        All runs.

    Returns
    -------
    tuple of Cut
        In the order of the runs.
    """
    return tuple(
        Cut(
            run=run.id,
            line=run.line,
            hose=car.lines[run.line].hose,
            size=run.size,
            assembly=run.assembly,
            cut=run.cut,
            note=run.cut_note,
            end_a=_end(run.ends[0]),
            end_b=_end(run.ends[1]),
        )
        for run in routes.runs
    )


def _end(end: Termination) -> str:
    part = end.chain.hose_end if end.chain else None
    if part is None:
        spigot = end.chain.parts[-1].name if end.chain and end.chain.parts else end.port
        return spigot or "not chosen"
    return f"{part.name}, angle open" if end.angle is None else part.name
