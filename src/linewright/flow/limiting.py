# SPDX-License-Identifier: Apache-2.0
"""What limits a system: the element that costs most of its worst margin, and one size up."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from linewright.car.model import Car, Line
from linewright.catalogue import stock
from linewright.flow.bands import Study
from linewright.flow.defaults import Ledger
from linewright.flow.draft import Draft
from linewright.flow.lines import lay
from linewright.flow.margins import total_head
from linewright.flow.model import Band, Limiting, Margin
from linewright.flow.network import Line as Link
from linewright.flow.network import Relief
from linewright.flow.pack import Packed
from linewright.flow.solve import solve
from linewright.flow.waterway import Waterway, waterway
from linewright.routes.model import Routes, Run
from linewright.tables import hoses

#: Dash sizes in order.
DASHES = ("-3", "-4", "-6", "-8", "-10", "-12", "-16", "-20", "-24", "-32")
#: What a larger size has to gain, of a limit, or of so many widths of the band, to be worth a
#: word. [-]
_HELPS, _SEEN = 0.01, 5.0
#: Margins by which a system may be limited, in the order in which they count where alike.
PRESSURES = (
    "pump inlet",
    "rail pressure",
    "return pressure",
    "gallery pressure",
    "inlet over vapour",
    "charge pressure loss",
    "turbo feed pressure",
)


@dataclass(frozen=True, slots=True)
class Cause:
    """One element on a way: whose it is, and the pressure that it takes [Pa]."""

    where: str
    drop: float


def closeness(margin: Margin) -> float:
    """Return how far a value is on the good side of its limit, over the limit. [-]

    Parameters
    ----------
    margin : Margin
        The margin.

    Returns
    -------
    float
        Less than 0 where it is not met. [-]
    """
    size = max(abs(margin.limit.value), 1e-12)
    ahead = margin.value.value - margin.limit.value
    return (ahead if margin.is_least else -ahead) / size


def way_to(study: Study, node: str, *, downstream: bool = False) -> list[str]:
    """Return the links by which most of the flow comes to a node, or goes from it.

    Parameters
    ----------
    study : Study
        Solved.
    node : str
        Where from.
    downstream : bool
        Whether to follow the flow instead of going against it.

    Returns
    -------
    list of str
        From the node on, up to a fixed pressure or a pump.
    """
    packed = study.state.packed
    flows = study.flows[0]
    at, found = packed.node[node], []
    seen: set[int] = set()
    while np.isnan(packed.pressure[at]):
        best, following = -1, -1
        for i in range(flows.size):
            if i in seen or isinstance(packed.network.links[i], Relief):
                continue
            a, b = int(packed.topology.first[i]), int(packed.topology.second[i])
            up, down = (a, b) if flows[i] >= 0.0 else (b, a)
            mine, other = (up, down) if downstream else (down, up)
            if mine == at and (best < 0 or abs(flows[i]) > abs(flows[best])):
                best, following = i, other
        if best < 0:
            break
        link = packed.network.links[best]
        if "pump" in link.id.partition(":")[2] or "stage" in link.id:
            break
        seen.add(best)
        found.append(link.id)
        at = following
    return found


def causes(study: Study, links: Sequence[str]) -> list[Cause]:
    """Return what each line or component on a way takes, most first.

    Parameters
    ----------
    study : Study
        Solved.
    links : Sequence of str
        The way.

    Returns
    -------
    list of Cause
        Lines under their own id, parts under that of their component.
    """
    sums: dict[str, float] = {}
    for name in links:
        owner = study.state.built.where.get(name, (name,))[0]
        sums[owner] = sums.get(owner, 0.0) + abs(study.lost(name).value)
    return sorted((Cause(k, v) for k, v in sums.items()), key=lambda c: (-c.drop, c.where))


def next_size(size: str) -> str:
    """Return the next dash of hose, empty where there is none.

    Parameters
    ----------
    size : str
        A dash.

    Returns
    -------
    str
        The next one.

    Examples
    --------
    >>> next_size("-16"), next_size("38")
    ('-20', '')
    """
    if size not in DASHES[:-1]:
        return ""
    return DASHES[DASHES.index(size) + 1]


def with_size(study: Study, car: Car, routes: Routes, line: str, size: str) -> Packed | None:
    """Return the network with a line in another size.

    Parameters
    ----------
    study : Study
        Solved.
    car : Car
        The car document as read.
    routes : Routes
        Courses of the lines.
    line : str
        The line.
    size : str
        Its size.

    Returns
    -------
    Packed or None
        None where the hose has no such size.
    """
    built, packed = study.state.built, study.state.packed
    courses = {r.id: r for r in routes.courses}
    bore, length, numbers = packed.bore.copy(), packed.length.copy(), packed.numbers.copy()
    for run in built.runs.values():
        if run.line != line:
            continue
        way = waterway(car, run, courses.get(run.id), size)
        if way is None:
            return None
        made = link_of(study, car, way, run)
        i = packed.link[run.id]
        bore[i], length[i] = made.bore, made.length
        numbers[i, :6] = (made.roughness, made.k, made.k_laminar, made.arc, made.bend_radius, 0.0)
    return replace(packed, bore=bore, length=length, numbers=numbers)


def link_of(study: Study, car: Car, way: Waterway, run: Run) -> Link:
    """Return a piece of line by itself as a link.

    Parameters
    ----------
    study : Study
        Whose system it is in.
    car : Car
        The car document as read.
    way : Waterway
        Its bores.
    run : Run
        The piece.

    Returns
    -------
    Link
        Without what is fitted in it.
    """
    built = study.state.built
    alone = Draft(car, built.system, built.case, built.fluid, Ledger())
    lay(alone, way, run)
    found = next(k for k in alone.links if k.id == run.id)
    assert isinstance(found, Link)
    return found


def limiting(study: Study, margins: Sequence[Margin], car: Car, routes: Routes) -> Limiting | None:
    """Return what limits a system in a condition.

    Parameters
    ----------
    study : Study
        Solved.
    margins : Sequence of Margin
        Of the system.
    car : Car
        The car document as read.
    routes : Routes
        Courses of the lines.

    Returns
    -------
    Limiting or None
        For the worst margin of pressure; None where there is none.
    """
    held = [m for m in margins if m.what in PRESSURES]
    if not held:
        return None
    worst = min(held, key=lambda m: (closeness(m), PRESSURES.index(m.what)))
    return limited(study, worst, car, routes)


def limited(study: Study, margin: Margin, car: Car, routes: Routes) -> Limiting | None:
    """Return what costs most of one margin, and what the next size of it gives.

    Parameters
    ----------
    study : Study
        Solved.
    margin : Margin
        A margin of pressure.
    car : Car
        The car document as read.
    routes : Routes
        Courses of the lines.

    Returns
    -------
    Limiting or None
        None where nothing is lost.
    """
    node = study.state.built.node(margin.where)
    if node not in study.state.packed.node:
        return None
    links = way_to(study, node, downstream=follows(margin.what))
    found = causes(study, links)
    whole = sum(c.drop for c in found)
    if not found or whole <= 0.0:
        return None
    top = found[0]
    share = top.drop / whole
    line = next((c.where for c in found if c.where in car.lines), "")
    if top.where not in car.lines or not line:
        return Limiting(top.where, share, margin.what, value=margin.value.value, unit=margin.unit)
    run = next(r for r in study.state.built.runs.values() if r.line == line)
    larger, gives = _larger(study, margin, car, routes, line, run.size)
    return Limiting(
        top.where,
        share,
        margin.what,
        run.size,
        larger,
        margin.value.value,
        gives,
        margin.unit,
    )


def _larger(
    study: Study, margin: Margin, car: Car, routes: Routes, line: str, size: str
) -> tuple[str, float | None]:
    """The next size of a line and what it gives; of a limit that is missed, one that meets it.

    Where none meets it, the next size stands; where that does not help either, none does.
    """
    first: tuple[str, float | None] = ("", None)
    larger = size
    while larger := next_size(larger):
        if not is_sold(car.lines[line], larger):
            continue
        gives = _gives(study, margin, car, routes, line, larger)
        if gives is None:
            break
        moved = replace(margin, value=Band(gives, gives, gives))
        if not first[0]:
            if not _is_help(margin, gives):
                return "", None
            first = (larger, gives)
        if closeness(margin) >= 0.0:
            break
        if closeness(moved) >= 0.0:
            return larger, gives
    return first


def _is_help(margin: Margin, gives: float) -> bool:
    """Whether a value is better than a margin's by more than nobody would notice."""
    gain = gives - margin.value.value if margin.is_least else margin.value.value - gives
    wide = margin.value.high - margin.value.low
    return gain > _HELPS * max(abs(margin.limit.value), _SEEN * wide)


def is_sold(line: Line, size: str) -> bool:
    """Return whether the hose of a line has ends in another size.

    Parameters
    ----------
    line : Line
        Whose hose.
    size : str
        A dash.

    Returns
    -------
    bool
        Whether the catalogue has hose ends of it.
    """
    return bool(stock.generic().hose_ends(hoses.family(line.hose).ends, size))


def _gives(
    study: Study, margin: Margin, car: Car, routes: Routes, line: str, size: str
) -> float | None:
    """Value of a margin with a line in another size, at the same temperatures."""
    packed = with_size(study, car, routes, line, size)
    if packed is None:
        return None
    found = solve(packed, study.state.found)
    state = replace(study.state, packed=packed, solution=found)
    other = Study(state, (), found.flows[None], found.pressures[None], study.nodes[:1])
    return margin.value.value + felt(other, margin) - felt(study, margin)


def felt(study: Study, margin: Margin) -> float:
    """Return the pressure that a margin rests on.

    Parameters
    ----------
    study : Study
        Solved.
    margin : Margin
        One of pressure.

    Returns
    -------
    float
        At its place, less what the speed takes at the inlet of a pump. [Pa]
    """
    node = study.state.built.node(margin.where)
    if margin.what in ("pump inlet", "inlet over vapour"):
        return total_head(study, node).value
    return study.pressure(node).value


def follows(what: str) -> bool:
    """Return whether what a margin loses is lost after its place.

    Parameters
    ----------
    what : str
        Name of the margin.

    Returns
    -------
    bool
        Else it is lost on the way there.
    """
    return what in ("return pressure", "charge pressure loss")
