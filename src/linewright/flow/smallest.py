# SPDX-License-Identifier: Apache-2.0
"""The smallest sizes of hose with which a car meets its limits, for lines that leave theirs open.

All open lines begin in the largest size that their ports take. Then one line at a time becomes one
size smaller, that first in which the fluid would still be slowest, as long as every limit that
was met stays met with its whole band, what was only likely to be met stays likely, and no pump
that turns freely loses more of its flow than practice has it. A line with a share in a limit that
even the largest sizes miss keeps its largest. Temperatures are those of the sizes that the car
has, so who calls this plans the car again with the answer, and asks again.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from math import pi

from linewright.base.errors import LinewrightError
from linewright.base.evidence import Figure
from linewright.car.model import Car
from linewright.flow.bands import Study, spread, study
from linewright.flow.findings import Judged
from linewright.flow.limiting import PRESSURES, closeness, follows, link_of, way_to
from linewright.flow.margins import judged as judged_as
from linewright.flow.model import Band, Margin, Verdict
from linewright.flow.network import Centrifugal, Line
from linewright.flow.ruled import words_of
from linewright.flow.run import held_of
from linewright.flow.solve import solve
from linewright.flow.spread import of_bores
from linewright.flow.states import state_of
from linewright.flow.waterway import Waterway, waterway
from linewright.joints.offered import setting
from linewright.routes.model import Routes, Run

#: Pressures that settle the size of what leads to them: there velocity is a guide and no limit.
_SETTLING = ("pump inlet", "inlet over vapour", "return pressure")

_Key = tuple[str, str, str, str]  # system, condition, what, where


@dataclass(frozen=True, slots=True)
class Smallest:
    """The size that flow chooses for a line.

    ``limit`` is what its ``smaller`` size misses, in the ``condition`` where it does, None where
    no smaller one is sold; ``gives`` is the value there, None where nothing flows that way.
    ``missed`` are limits that its line has a
    share in and that no size meets, with their conditions: it keeps its largest.
    """

    line: str
    size: str
    largest: str
    limit: Margin | None = None
    condition: str = ""
    smaller: str = ""
    gives: Band | None = None
    missed: tuple[tuple[str, Margin], ...] = ()


@dataclass(frozen=True)
class _Held:
    """All margins of the conditions of a car, in some sizes of its lines."""

    margins: Mapping[_Key, Margin]
    speeds: Mapping[str, float]  # of lines, the greatest [m3/s]
    studies: Mapping[tuple[str, str], Study] = field(default_factory=dict)


def smallest(
    car: Car, routes: Routes, judged: Sequence[Judged], open_to: Mapping[str, Sequence[str]]
) -> dict[str, Smallest]:
    """Choose the sizes of lines by what flows in them.

    Parameters
    ----------
    car : Car
        The car, each line in some size.
    routes : Routes
        Its pieces and their courses.
    judged : Sequence of Judged
        Its systems in conditions.
    open_to : Mapping
        Sizes that each line may have, the largest first.

    Returns
    -------
    dict
        By line; a line that nothing flows in is left out.
    """
    trial = _Trial(car, routes, judged, frozenset(open_to))
    sizes = {name: open_to[name][0] for name in open_to if name in trial.lines}
    now = trial.held(sizes)
    while now is None and any(sizes[n] != car.lines[n].size for n in sizes):
        # What cannot be reckoned in the largest sizes is reckoned in those that the car has.
        sizes = {name: car.lines[name].size for name in sizes}
        now = trial.held(sizes)
    if now is None:
        return {}
    needs = _needs(now, frozenset(sizes), trial)
    locked = {
        name: Smallest(name, sizes[name], open_to[name][0], missed=tuple(missed))
        for name, missed in _kept(now, frozenset(sizes), trial).items()
    }
    while True:
        asked = [n for n in sizes if n not in locked]
        steps = [(_next(open_to[n], sizes[n]), n) for n in asked]
        for name in (n for size, n in steps if size is None):
            locked[name] = Smallest(name, sizes[name], open_to[name][0])
        ahead = sorted(
            (now.speeds.get(n, 0.0) / trial.bore(n, size) ** 2, n, size)
            for size, n in steps
            if size is not None
        )
        if not ahead:
            break
        _, name, size = ahead[0]
        then = trial.held({**sizes, name: size}, of=name, before=now)
        missed = _missed(then, needs) if then is not None else ()
        if then is not None and not missed:
            sizes[name], now = size, then
            continue
        locked[name] = _bound(name, sizes[name], open_to[name][0], size, now, then, missed)
    return {name: _told(locked[name], now, trial) for name in sizes}


def _next(sizes: Sequence[str], size: str) -> str | None:
    place = sizes.index(size) + 1 if size in sizes else len(sizes)
    return sizes[place] if place < len(sizes) else None


@dataclass(frozen=True)
class _Needs:
    """What each margin has to keep: to be met with its whole band, or by its value alone."""

    verdicts: Mapping[_Key, Verdict]

    def is_kept(self, key: _Key, margin: Margin) -> bool:
        need = self.verdicts.get(key)
        if need is Verdict.MET:
            return margin.verdict is Verdict.MET
        return need is None or closeness(margin) >= 0.0


def _needs(now: _Held, asked: frozenset[str], trial: "_Trial") -> _Needs:
    verdicts: dict[_Key, Verdict] = {}
    for key, margin in now.margins.items():
        if margin.what == "velocity" or margin.verdict is Verdict.NOT_MET:
            continue
        if margin.verdict is Verdict.MET:
            verdicts[key] = Verdict.MET
        elif closeness(margin) >= 0.0:
            verdicts[key] = Verdict.UNSURE
    settled = _settled(now, trial)
    for key, margin in now.margins.items():
        is_asked = margin.what == "velocity" and key[3] in asked and key[3] not in settled
        if is_asked and closeness(margin) >= 0.0:
            verdicts[key] = margin.verdict
    return _Needs(verdicts)


def _settled(now: _Held, trial: "_Trial") -> frozenset[str]:
    """Lines whose size a pressure settles, so that their velocity is a guide alone."""
    return frozenset(
        line
        for key, margin in now.margins.items()
        if key[2] in _SETTLING and closeness(margin) >= 0.0
        for line in trial.on_way(now, key, margin)
    )


def _kept(
    now: _Held, asked: frozenset[str], trial: "_Trial"
) -> dict[str, list[tuple[str, Margin]]]:
    """Lines with a share in a pressure that even the largest sizes miss, or too fast in theirs."""
    settled = _settled(now, trial)
    kept: dict[str, list[tuple[str, Margin]]] = {}
    for key, margin in sorted(now.margins.items(), key=lambda item: closeness(item[1])):
        if closeness(margin) >= 0.0:
            continue
        if margin.what in (*PRESSURES, "drain capacity"):
            ways = dict.fromkeys(trial.on_way(now, key, margin))
            lines = [name for name in ways if name in asked]
        elif margin.what == "velocity" and key[3] in asked - settled:
            lines = [key[3]]
        else:
            continue
        for name in lines:
            kept.setdefault(name, []).append((key[1], margin))
    return kept


def _missed(then: _Held, needs: _Needs) -> tuple[tuple[_Key, Margin], ...]:
    missed = [(k, m) for k, m in then.margins.items() if not needs.is_kept(k, m)]
    return tuple(sorted(missed, key=lambda item: (closeness(item[1]), item[0])))


def _bound(
    name: str,
    size: str,
    largest: str,
    smaller: str,
    now: _Held,
    then: _Held | None,
    missed: Sequence[tuple[_Key, Margin]],
) -> Smallest:
    """What keeps a line from being smaller: the limit that it then misses most."""
    if then is None or not missed:
        least = min(
            (item for item in now.margins.items() if item[1].what != "velocity"),
            key=lambda item: (closeness(item[1]), item[0]),
            default=None,
        )
        if least is None:
            return Smallest(name, size, largest, smaller=smaller)
        return Smallest(name, size, largest, least[1], least[0][1], smaller)
    key, margin = missed[0]
    return Smallest(name, size, largest, now.margins[key], key[1], smaller, margin.value)


def _told(one: Smallest, now: _Held, trial: "_Trial") -> Smallest:
    """The same, with the value that its limit has in the sizes that all lines got."""
    limit = one.limit
    if limit is not None:
        system = trial.car.lines[one.line].system or ""
        limit = now.margins.get((system, one.condition, limit.what, limit.where), limit)
    return replace(one, limit=limit)


class _Trial:
    """Tries sizes of lines on the solved systems of a car."""

    def __init__(
        self, car: Car, routes: Routes, judged: Sequence[Judged], asked: frozenset[str]
    ) -> None:
        self.car = car
        self.routes = routes
        # Cold fluid is what bypasses are for; it asks for no hose of its own.
        self.judged = tuple(j for j in judged if j.study.state.built.case.state != "cold")
        drains = {r.line for r in routes.runs if car.lines[r.line].service == "drain"}
        systems = {j.state.system for j in self.judged}
        drawn = {run.line for j in self.judged for run in j.study.state.built.runs.values()}
        self.lines = frozenset(
            n for n in asked if n in drawn or (n in drains and car.lines[n].system in systems)
        )
        self._courses = {r.id: r for r in routes.courses}
        self._ways: dict[tuple[str, str], Waterway | None] = {}
        self._links: dict[tuple[str, str], Line] = {}
        self._most: dict[tuple[str, str, str], Band] = {}  # flows of pumps in the largest sizes

    def way(self, run: Run, size: str) -> Waterway | None:
        """The bores of a piece in a size."""
        key = (run.id, size)
        if key not in self._ways:
            other = "" if size == run.size else size
            self._ways[key] = waterway(self.car, run, self._courses.get(run.id), other)
        return self._ways[key]

    def bore(self, line: str, size: str) -> float:
        """Bore of a line's hose in a size. [m]"""
        run = next(r for r in self.routes.runs if r.line == line)
        way = self.way(run, size)
        return way.hose.bore.value if way is not None else 1e-3

    def held(
        self, sizes: Mapping[str, str], *, of: str = "", before: _Held | None = None
    ) -> _Held | None:
        """Margins in some sizes; None where a system does not flow that way.

        With ``of`` only the system of that line is solved again, the rest is as before.
        """
        margins = dict(before.margins) if before is not None else {}
        speeds: dict[str, float] = {}
        studies = dict(before.studies) if before is not None else {}
        system = self.car.lines[of].system if of else None
        for one in self.judged:
            if system is not None and one.state.system != system:
                continue
            try:
                tried = self._tried(one, sizes)
            except (LinewrightError, ArithmeticError):
                return None
            if tried is None:
                return None
            shown = state_of(tried)
            who = (one.state.system, one.state.condition)
            studies[who] = tried
            held = held_of(tried, shown, self.car, self.routes, sizes)
            for margin in (*held, *self._pumped(one, tried)):
                margins[*who, margin.what, margin.where] = margin
        for tried in studies.values():
            for run in tried.state.built.runs.values():
                i = tried.state.packed.link[run.id]
                flow = abs(float(tried.flows[0, i])) / float(tried.state.packed.density[i])
                speeds[run.line] = max(speeds.get(run.line, 0.0), flow / (0.25 * pi))
        return _Held(margins, speeds, studies)

    def _tried(self, one: Judged, sizes: Mapping[str, str]) -> Study | None:
        """A system in a condition with its lines in some sizes, at the same temperatures."""
        state = one.study.state
        built, packed = state.built, state.packed
        bore, length, numbers = packed.bore.copy(), packed.length.copy(), packed.numbers.copy()
        ways, spreads = dict(built.ways), dict(built.bores)
        for run in built.runs.values():
            size = sizes.get(run.line, run.size)
            if size == run.size:
                continue
            way = self.way(run, size)
            if way is None:
                return None
            key = (run.id, size)
            if key not in self._links:
                self._links[key] = link_of(one.study, self.car, way, run)
            made, i = self._links[key], packed.link[run.id]
            bore[i], length[i] = made.bore, made.length
            numbers[i, :6] = (
                made.roughness,
                made.k,
                made.k_laminar,
                made.arc,
                made.bend_radius,
                0.0,
            )
            ways[run.id] = way
            known = of_bores(way.hose.bores or (way.hose.bore,), run.id)
            spreads[run.id] = (f"bore {size} {run.hose}", known.low, known.high)
        if ways == dict(built.ways):
            return one.study
        packed = replace(packed, bore=bore, length=length, numbers=numbers)
        found = solve(packed, state.found)
        built = replace(built, ways=ways, bores=spreads)
        return study(replace(state, built=built, packed=packed, solution=found))

    def _pumped(self, one: Judged, tried: Study) -> Iterator[Margin]:
        """Flow of pumps that turn freely: hoses may take a part of what the largest let through."""
        state = tried.state
        for link in state.built.network.links:
            if not isinstance(link, Centrifugal) or link.speed <= 0.0:
                continue
            i = state.packed.link[link.id]
            value = spread(tried.flows[:, i] / state.packed.density[i])
            most = self._most.setdefault((one.state.system, one.state.condition, link.id), value)
            cut = setting(self.car, "size-flow-cut")
            least = Figure((1.0 - cut.value) * most.value, "m3/s", cut.grade, cut.basis)
            # What is not known moves both flows alike: the values alone are compared.
            sure = Band(value.value, value.value, value.value)
            where, what = link.id.partition(":")[0], "flow of the pump"
            yield Margin(what, where, sure, least, "m3/s", True, judged_as(sure, least, True))

    def on_way(self, now: _Held, key: _Key, margin: Margin) -> Iterator[str]:
        """Lines on the way to where a margin is held, or from there."""
        tried = now.studies[key[0], key[1]]
        if margin.where in self.car.lines:
            yield margin.where
            return
        built = tried.state.built
        node = built.node(margin.where)
        if node not in tried.state.packed.node:
            return
        for link in way_to(tried, node, downstream=follows(margin.what)):
            yield from (w for w in built.where.get(link, ())[:1] if w in self.car.lines)


def limit_words(margin: Margin) -> str:
    """Say a limit in a few words.

    Parameters
    ----------
    margin : Margin
        What is held against it.

    Returns
    -------
    str
        As "pump inlet at least 0.85 bar absolute".
    """
    name, shown = words_of(margin.what)
    return f"{name} at {'least' if margin.is_least else 'most'} {shown(margin.limit.value)}"
