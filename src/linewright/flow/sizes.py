# SPDX-License-Identifier: Apache-2.0
"""The size table: each hose in the sizes about its own, where it matters most."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import pi, sqrt

from linewright.base.errors import LinewrightError
from linewright.car.model import Car, Construction
from linewright.catalogue import stock
from linewright.catalogue.figures import dash_figures, factor
from linewright.catalogue.part import Part
from linewright.flow.bands import Study, shifted, study
from linewright.flow.findings import Judged
from linewright.flow.limiting import (
    DASHES,
    PRESSURES,
    felt,
    follows,
    is_sold,
    way_to,
    with_size,
)
from linewright.flow.margins import judged as judged_as
from linewright.flow.model import Band, Margin, SizeRow, Verdict
from linewright.flow.pack import Packed
from linewright.flow.ruled import shown
from linewright.flow.solve import Solution, solve
from linewright.flow.states import losses
from linewright.routes.model import Routes, Run
from linewright.tables import hoses

#: How many sizes on either side of its own a line is shown in.
_AROUND = 2


def sizes(car: Car, routes: Routes, judged: Sequence[Judged]) -> Iterator[SizeRow]:
    """Reckon each line of hose in the sizes about its own.

    Parameters
    ----------
    car : Car
        The car document as read.
    routes : Routes
        Its pieces and their courses.
    judged : Sequence of Judged
        Systems in conditions.

    Yields
    ------
    SizeRow
        In the warm condition in which the line loses most (a cold one where no other is given),
        at the temperatures of that condition; lines in their order, sizes from small to large.
    """
    for line in car.lines.values():
        if line.construction is not Construction.HOSE:
            continue
        best = _worst(line.id, judged)
        if best is None:
            continue
        runs = [r for r in best.study.state.built.runs.values() if r.line == line.id]
        own = runs[0].size
        if own not in DASHES:
            continue
        place = DASHES.index(own)
        margin = _on_way(best, line.id)
        for size in DASHES[max(0, place - _AROUND) : place + _AROUND + 1]:
            if size != own and not is_sold(line, size):
                continue
            row = _row(car, routes, best, runs, size, size == own, margin)
            if row is not None:
                yield row


def _worst(line: str, judged: Sequence[Judged]) -> Judged | None:
    having = [one for one in judged if line in one.state.lines]
    warm = [one for one in having if one.study.state.built.case.state != "cold"]
    found = warm or having
    return max(found, key=lambda one: abs(one.state.lines[line].drop.value), default=None)


def _on_way(one: Judged, line: str) -> Margin | None:
    """The first margin of pressure that the line has a share in."""
    built = one.study.state.built
    for what in PRESSURES:
        for margin in one.state.margins:
            node = built.node(margin.where)
            if margin.what != what or node not in one.study.state.packed.node:
                continue
            way = way_to(one.study, node, downstream=follows(what))
            if any(line in built.where.get(link, ()) for link in way):
                return margin
    return None


def _row(
    car: Car,
    routes: Routes,
    one: Judged,
    runs: Sequence[Run],
    size: str,
    is_chosen: bool,
    margin: Margin | None,
) -> SizeRow | None:
    now, line = one.study, runs[0].line
    try:
        packed = with_size(now, car, routes, line, size)
    except LinewrightError:
        return None
    if packed is None:
        return None
    i = packed.link[runs[0].id]
    bore = float(packed.bore[i])
    volume = sum(0.25 * pi * bore**2 * _long(now, run) for run in runs)
    mass = _mass(car, now, runs, size, volume, float(packed.density[i]))
    try:
        found = solve(packed, now.state.found)
    except LinewrightError:
        return None
    other = _alone(now, packed, found)
    drop = sum(float(losses(other, run.id)[0]) for run in runs)
    base = one.state.lines[line].drop
    band = _scaled(base, drop)
    speed = abs(found.flow(runs[0].id)) / float(packed.density[i]) / (0.25 * pi * bore**2)
    why = _why(one, other, margin)
    return SizeRow(
        line,
        size,
        runs[0].hose,
        one.state.condition,
        bore,
        band,
        speed,
        volume,
        mass,
        _price(car, now, runs, size),
        is_chosen,
        why,
    )


def _alone(study: Study, packed: Packed, found: Solution) -> Study:
    state = replace(study.state, packed=packed, solution=found)
    return Study(state, (), found.flows[None], found.pressures[None], study.nodes[:1])


def _scaled(band: Band, value: float) -> Band:
    """A band as wide, over its value, as that of the size in use. [Pa]"""
    if band.value == 0.0:
        return Band(value, value, value)
    ends = sorted((value * band.low / band.value, value * band.high / band.value))
    return Band(value, ends[0], ends[1])


def _long(study: Study, run: Run) -> float:
    return study.state.built.ways[run.id].hose.length


def _mass(
    car: Car, study: Study, runs: Sequence[Run], size: str, volume: float, density: float
) -> float | None:
    """Mass of hose and fluid; None where that of the hose is not known. [kg]"""
    try:
        known = hoses.size(hoses.family(car.lines[runs[0].line].hose).key, size)
    except LookupError:
        return None
    if known.mass_per_metre is None:
        return None
    long = sum(_long(study, run) for run in runs)
    return known.mass_per_metre.value * long + volume * density


def _price(car: Car, study: Study, runs: Sequence[Run], size: str) -> float | None:
    """Index price of hose and hose ends, like those of its own size; None where not known. [-]"""
    ends = hoses.family(car.lines[runs[0].line].hose).ends
    each = dash_figures(size).hose_price
    if each is None:
        return None
    if ends == "PTFE":
        each *= factor("price hose PTFE")
    price = each * sum(_long(study, run) for run in runs)
    for part in _hose_ends(runs):
        like = [
            p.price_index
            for p in stock.generic().hose_ends(ends, size)
            if (p.angle, p.turns) == (part.angle, part.turns)
        ]
        if not like:
            return None
        price += min(like)
    return price


def _hose_ends(runs: Sequence[Run]) -> Iterator[Part]:
    for end in (end for run in runs for end in run.ends):
        if end.chain is not None:
            yield from (p for p in end.chain.parts if "hose end" in p.shape)


def _why(one: Judged, other: Study, margin: Margin | None) -> str:
    if margin is None:
        return ""
    moved = felt(other, margin) - felt(one.study, margin)
    value, limit = margin.value.value + moved, margin.limit.value
    if margin.what == "pump inlet" and value < 0.0:
        return "the pump cannot draw that through it"
    verdict = judged_as(shifted(margin.value, moved), margin.limit, margin.is_least)
    if verdict is Verdict.UNSURE:
        # As wide as in its own size is too wide for a larger one: it is looked at by itself.
        verdict = _verdict(one, other, margin, value)
    said = shown(margin.what, value)
    word = {Verdict.MET: "meets", Verdict.NOT_MET: "misses", Verdict.UNSURE: "may miss"}[verdict]
    return f"{margin.what} {said}: {word} {shown(margin.what, limit)}"


def _verdict(one: Judged, other: Study, margin: Margin, value: float) -> Verdict:
    """How a margin stands in another size, with all that is not known."""
    exact = study(other.state)
    node = other.state.built.node(margin.where)
    band = exact.pressure(node)
    own = one.study.pressure(node)
    # What else the margin doubts besides the pressure there, as vapour, stays as it was.
    rest = (
        max(0.0, (margin.value.value - margin.value.low) ** 2 - (own.value - own.low) ** 2),
        max(0.0, (margin.value.high - margin.value.value) ** 2 - (own.high - own.value) ** 2),
    )
    low = value - sqrt((band.value - band.low) ** 2 + rest[0])
    high = value + sqrt((band.high - band.value) ** 2 + rest[1])
    return judged_as(Band(value, low, high), margin.limit, margin.is_least)
