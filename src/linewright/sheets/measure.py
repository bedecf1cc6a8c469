# SPDX-License-Identifier: Apache-2.0
"""The page to take to the car: ports still unknown, those first on which most parts hang."""

from linewright.base.ids import natural_key
from linewright.car.model import Port
from linewright.ends.counterpart import counterpart
from linewright.ends.end import End, Family, Gender
from linewright.ends.identify import plugs_that_settle
from linewright.ends.telling import question
from linewright.ends.words import show
from linewright.plan.model import Plan
from linewright.sheets.table import Align, Column, Table

#: What one screwed end of a line takes at least: an adaptor, a hose end and a seal.
_PARTS_OF_AN_END = 3

_MOST_PLUGS = 8
_BLANK = "______"

#: Families whose plugs any race shop or plumber has.
_PLUGGED = (
    Family.NPT,
    Family.ORB_UNF,
    Family.METRIC_FLAT_FACE,
    Family.BSPP,
    Family.BSPT,
)


def _hanging(plan: Plan, port: Port) -> int:
    counted = sum(r.parts for r in plan.checked.risks if port.id in r.about)
    if counted and not port.end.is_unknown:
        return counted
    used = sum(port.id in (ln.from_port, ln.to_port) for ln in plan.car.lines.values())
    used += sum(c.on == port.id for c in plan.car.components.values())
    return max(counted, _PARTS_OF_AN_END * used)


def to_measure(plan: Plan) -> tuple[tuple[Port, int], ...]:
    """List the ports that are unknown or unconfirmed and that parts hang on.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    tuple of (Port, int)
        Each with the number of rows that hang on it: unknown ports first, then by that
        number, most first.
    """
    found = [
        (port, _hanging(plan, port))
        for port in plan.car.ports
        if port.end.is_unknown or not port.known.is_confirmed
    ]
    found = [(port, parts) for port, parts in found if parts]
    found.sort(key=lambda item: (not item[0].end.is_unknown, -item[1], natural_key(item[0].id)))
    return tuple(found)


def _may_be(port: Port) -> str:
    if port.readings:
        return "; ".join(show(end) for end in port.readings)
    return "not known" if port.end.is_unknown else f"{show(port.end)}?"


def _ask(port: Port) -> str:
    if len(port.readings) > 1:
        return question(port.readings)
    if port.end.is_unknown:
        return "diameter, five pitches, taper, and what it seals on"
    return "read its marking, or try a part that is known"


def measure_list(plan: Plan) -> Table:
    """Make the page of ports to measure, with boxes to fill in.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Table
        One row a port.
    """
    rows = [
        (
            port.id,
            _may_be(port),
            str(parts),
            _BLANK,
            _BLANK,
            "yes / no",
            _ask(port),
            _BLANK,
        )
        for port, parts in to_measure(plan)
    ]
    return Table(
        "measure",
        "Ports to measure",
        (
            Column("Port", 1.5),
            Column("May be", 2.2),
            Column("Parts", 0.5, Align.RIGHT),
            Column("Diameter, mm", 0.9),
            Column("Five pitches, mm", 1.0),
            Column("Taper", 0.7),
            Column("What does it seal on", 2.8),
            Column("Photo no.", 0.7),
        ),
        tuple(rows),
        note="Measure a male outside and a female inside. Lay the pitch gauge or callipers over "
        "five pitches. Taper: measure again 15 mm further back; 0.9 mm thicker is a taper.",
        empty="Every port is confirmed, or nothing hangs on it.",
        is_wide=True,
    )


def _plugs(plan: Plan) -> list[tuple[End, list[str]]]:
    """Plugs to try, each with the ports that it would settle, most parts first.

    A plug of the guessed thread that goes home confirms a guess; for a port with several
    readings those plugs are taken that tell most of them apart.
    """
    settles: dict[End, list[str]] = {}
    weight: dict[End, int] = {}
    for port, parts in to_measure(plan):
        if port.readings:
            plugs = plugs_that_settle([port.readings])
        elif port.end.gender is Gender.FEMALE and port.end.family in _PLUGGED:
            plugs = (counterpart(port.end),)
        else:
            plugs = ()
        for plug in plugs:
            settles.setdefault(plug, []).append(port.id)
            weight[plug] = weight.get(plug, 0) + parts
    order = sorted(settles, key=lambda plug: (-weight[plug], show(plug)))
    return [(plug, settles[plug]) for plug in order[:_MOST_PLUGS]]


def plug_list(plan: Plan) -> Table:
    """List the few cheap plugs that, tried by hand, would settle most of the doubtful threads.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Table
        One row a plug; the one that most parts hang on first.
    """
    return Table(
        "plugs",
        "Known plugs to try by hand",
        (Column("Plug", 2.0), Column("At", 5.0)),
        tuple((show(plug), ", ".join(ports)) for plug, ports in _plugs(plan)),
        note="Start every thread by hand. What does not run by hand is cross-threaded or wrong. "
        "A plug tells the thread, not the seat: look for the seat.",
        empty="No plug would tell more than the boxes above.",
    )
