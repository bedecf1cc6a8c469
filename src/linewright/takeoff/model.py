# SPDX-License-Identifier: Apache-2.0
"""What the takeoff hands on: rows to buy, hose to buy, hose to cut."""

from dataclasses import dataclass

from linewright.base.evidence import Figure, Grade
from linewright.base.finding import Finding


@dataclass(frozen=True, slots=True)
class Row:
    """One row of the parts list.

    ``group`` orders the list: adaptors, plugs, hose ends, hose (moulded shapes), seals,
    sealant, hardware, clips, components, sundries (tags, caps, sleeves). ``need`` is what
    the car takes, ``order`` adds spares. ``by_system`` says how much of the need each system
    asks for; ``because`` are all ids that ask for it (joints ``O01.A.2``, lines, ports), and
    ``counts`` how much of the need each of them asks for, in the same order.
    ``is_certain`` is False while a port that asks for it is unconfirmed or an angle is open.
    """

    code: str
    name: str
    group: str
    need: int
    order: int
    unit: str
    by_system: tuple[tuple[str, int], ...]
    because: tuple[str, ...]
    price_index: float | None = None
    availability: str = "stocked"
    grade: Grade = Grade.PRACTICE
    is_certain: bool = True
    note: str = ""
    counts: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class HoseRow:
    """Hose of one family and size: ``pieces`` are (run id, length to reckon in m).

    ``systems`` names the system of each piece, in the same order.
    """

    code: str
    name: str
    hose: str
    size: str
    pieces: tuple[tuple[str, float], ...]
    string: float
    need: float
    order: float
    feet: int
    metres: int
    grade: Grade
    by_system: tuple[tuple[str, float], ...] = ()
    because: tuple[str, ...] = ()
    systems: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Cut:
    """One row of the cut list."""

    run: str
    line: str
    hose: str
    size: str
    assembly: Figure | None
    cut: Figure | None
    note: str
    end_a: str
    end_b: str


@dataclass(frozen=True, slots=True)
class Hole:
    """One row of the hole and bung list; ``gate`` is what must not have happened yet."""

    id: str
    what: str
    where: str
    diameter: Figure | None
    gate: str
    because: tuple[str, ...]
    note: str = ""


@dataclass(frozen=True, slots=True)
class Either:
    """What covers every reading of one port that is not settled.

    ``rows`` are not in the order: they are what to add so that no reading holds up the
    line. ``price_index`` is their sum, for comparing, never money. ``told`` are the readings
    in words, ``without`` those that no part of the catalogue fits: nothing here covers them.
    """

    port: str
    readings: tuple[str, ...]
    rows: tuple[Row, ...]
    price_index: float
    told: tuple[str, ...] = ()
    without: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Takeoff:
    """All that has to exist; ``either`` is what would cover open readings, beside it."""

    rows: tuple[Row, ...]
    hoses: tuple[HoseRow, ...]
    cuts: tuple[Cut, ...]
    holes: tuple[Hole, ...] = ()
    findings: tuple[Finding, ...] = ()
    either: tuple[Either, ...] = ()
