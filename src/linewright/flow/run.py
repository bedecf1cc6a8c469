# SPDX-License-Identifier: Apache-2.0
"""All systems of a car in all its conditions: flow, pressure, temperature, margins, findings."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

from linewright.base.errors import LinewrightError
from linewright.base.evidence import weakest
from linewright.base.finding import Finding
from linewright.car.model import Car, Medium
from linewright.flow.bands import Study, study
from linewright.flow.beside import beside
from linewright.flow.build import Built, Ways, build, failed, ways
from linewright.flow.case import Case, cases, cycles
from linewright.flow.cycle import Maker, follow
from linewright.flow.defaults import Ledger
from linewright.flow.drained import drained
from linewright.flow.findings import Judged, cut_off, doubted, found_in, ill
from linewright.flow.in_time import found_in_time
from linewright.flow.limiting import PRESSURES, limited, limiting
from linewright.flow.margins import margins
from linewright.flow.model import Flows, Margin, SystemState, Verdict
from linewright.flow.network import Centrifugal, Displacement
from linewright.flow.readings import readings
from linewright.flow.sizes import sizes
from linewright.flow.starved import starved
from linewright.flow.states import state_of
from linewright.flow.steady import Settled, begin, settle
from linewright.flow.sways import sways
from linewright.flow.told import Told, told
from linewright.flow.walks import pump_curves, walks
from linewright.joints.model import Joints
from linewright.routes.model import Routes

#: What may go wrong in one system without the others being touched.
_AMISS = (LinewrightError, ArithmeticError, ValueError, LookupError)


#: Difference of temperature from which on two steady states are two. [K]
_APART = 3.0


@dataclass(frozen=True)
class Reckoned:
    """Systems in conditions, what could not be reckoned, and all that was assumed."""

    judged: tuple[Judged, ...]
    findings: tuple[Finding, ...]
    ledger: Ledger


def run(car: Car, joints: Joints, routes: Routes, only: Iterable[str] = ()) -> Flows:
    """Reckon flow, pressure and temperature of every system of a car.

    Parameters
    ----------
    car : Car
        The car document as read.
    joints : Joints
        What stands at the ends of its lines.
    routes : Routes
        Their lengths and courses.
    only : Iterable of str
        Names of conditions, all where left out.

    Returns
    -------
    Flows
        States in the order of conditions and systems. What cannot be reckoned is a finding of
        its system, and the rest stands.
    """
    asked = tuple(only)
    found = reckon(car, joints, routes, asked)
    judged, ledger = found.judged, found.ledger
    followed, failed = _followed(car, joints, routes, ledger, asked)
    findings = [*found.findings, *found_in(car, judged), *beside(car, judged)]
    states = doubted((*(j.state for j in judged), *(one.state for one in followed)), findings)
    unknown = {f.system for f in findings if f.code == "flow-unknown"}
    findings += [f for f in failed if f.system not in unknown]
    findings += found_in_time(car, followed)
    return Flows(
        states=tuple(states),
        sizes=tuple(sizes(car, routes, judged)),
        readings=readings(car, judged, ledger.found),
        assumed=tuple(ledger.found.values()),
        findings=tuple(findings),
        grade=weakest(a.figure.grade for a in ledger.found.values()),
        sways=sways(car, judged, ledger.found),
    )


def _followed(
    car: Car, joints: Joints, routes: Routes, ledger: Ledger, only: Sequence[str]
) -> tuple[list[Told], list[Finding]]:
    """What becomes of all systems in conditions that last, and what could not be followed."""
    shown: list[Told] = []
    failed: list[Finding] = []
    wanted = [c for c in cycles(car, ledger, only) if not only or c.name in only]
    if not wanted:
        return shown, failed
    maker = Maker(car, joints, ways(car, routes), ledger)
    for cycle in wanted:
        found = follow(maker, cycle)
        failed += [ill(system, cycle.name, why) for system, why in found.failed.items()]
        for tale in found.tales:
            try:
                shown.append(told(car, tale))
            except _AMISS as error:
                failed.append(ill(tale.system, cycle.name, failed_text(error)))
    return shown, failed


def reckon(car: Car, joints: Joints, routes: Routes, only: Iterable[str] = ()) -> Reckoned:
    """Settle every system of a car in its conditions, and hold it against its limits.

    Parameters
    ----------
    car : Car
        The car document as read.
    joints : Joints
        What stands at the ends of its lines.
    routes : Routes
        Their lengths and courses.
    only : Iterable of str
        Names of conditions, all where left out.

    Returns
    -------
    Reckoned
        What `run` makes its results of.
    """
    ledger = Ledger(car.settings)
    known = ways(car, routes)
    wanted = set(only)
    judged: list[Judged] = []
    findings: dict[tuple[str, tuple[str, ...]], Finding] = {}
    hottest: dict[str, float] = {}
    chosen = [c for c in cases(car, ledger) if not wanted or c.name in wanted]
    # What stands after a run is as hot as the run left it.
    for case in sorted(chosen, key=lambda c: not c.is_running and c.state != "cold"):
        states = _states(car, joints, known, case, ledger, hottest, findings)
        for state in states:
            if state.is_settled and case.is_full:
                system = state.built.system.id
                hottest[system] = max(hottest.get(system, 0.0), state.hottest())
            for finding in starved(state, car.components):
                _note(findings, finding)
        for state in states:
            try:
                judged.append(_judge(car, routes, state))
            except _AMISS as error:
                _note(findings, ill(state.built.system.id, case.name, failed_text(error)))
    order = {case.name: i for i, case in enumerate(chosen)}
    judged.sort(key=lambda j: order[j.state.condition])
    return Reckoned(tuple(judged), tuple(findings.values()), ledger)


def failed_text(error: Exception) -> str:
    """Return what went wrong, on one line.

    Parameters
    ----------
    error : Exception
        What was raised.

    Returns
    -------
    str
        What went wrong, on one line.
    """
    return (
        failed(error) if isinstance(error, LinewrightError) else f"{type(error).__name__}: {error}"
    )


def _note(findings: dict[tuple[str, tuple[str, ...]], Finding], finding: Finding) -> None:
    findings.setdefault(finding.key, finding)


def _states(
    car: Car,
    joints: Joints,
    known: Ways,
    case: Case,
    ledger: Ledger,
    hottest: dict[str, float],
    findings: dict[tuple[str, tuple[str, ...]], Finding],
) -> list[Settled]:
    """All systems of a condition that can be settled, settled."""
    begun = []
    for system in car.systems.values():
        unknown: list[Finding] = []
        try:
            built = build(car, joints, known, system, case, ledger)
            unknown += cut_off(car, built)
            for finding in unknown:
                _note(findings, finding)
            if not built.network.links:
                continue
            if not _is_driven(built):
                text = "nothing drives it: no pump, and nothing that is drawn."
                _note(findings, ill(system.id, case.name, text))
                continue
            begun.append(begin(built, _start(built, hottest, ledger)))
        except _AMISS as error:
            # What hangs loose by a port that nobody knows has been said.
            if not unknown:
                _note(findings, ill(system.id, case.name, failed_text(error)))
    try:
        settle(begun)
        done: Sequence[Settled] = begun
    except _AMISS:
        done = []
        for state in begun:
            try:
                alone = begin(state.built)
                settle([alone])
                done = [*done, alone]
            except _AMISS as error:
                _note(findings, ill(state.built.system.id, case.name, failed_text(error)))
    for state in done:
        if not state.is_settled:
            text = "flow and heat do not agree on one state; what is shown is the last try"
            _note(findings, ill(state.built.system.id, case.name, text))
    return list(done)


def _is_driven(built: Built) -> bool:
    """Whether anything moves the fluid, now or in another condition."""
    has_pump = any(isinstance(k, Centrifugal | Displacement) for k in built.network.links)
    is_drawn = any(n.demand for n in built.network.nodes)
    return has_pump or is_drawn or not built.case.is_firing


def _start(built: Built, hottest: dict[str, float], ledger: Ledger) -> float | None:
    """Temperature to begin at, where it is not that of the system. [K]"""
    case, system = built.case, built.system
    if case.is_running or case.state == "cold" or system.id in case.start:
        return None
    last = hottest.get(system.id)
    if last is None or system.medium is Medium.FUEL:
        return None
    return min(last, built.fluid.limits.hottest)


def _other(state: Settled) -> SystemState | None:
    """The state that oil comes to from cold, where that is another one: a choked cooler."""
    built = state.built
    if built.system.medium is not Medium.OIL or not built.is_warming or not built.cores:
        return None
    cold = begin(built, built.case.air)
    cold.opening = dict.fromkeys(cold.opening, 0.0)
    settle([cold])
    apart = abs(cold.temperature - state.temperature).max()
    return state_of(study(cold)) if cold.is_settled and apart > _APART else None


def held_of(
    found: Study,
    shown: SystemState,
    car: Car,
    routes: Routes,
    sizes: Mapping[str, str] = MappingProxyType({}),
) -> tuple[Margin, ...]:
    """Return all margins of a system in a condition, those of its drains with them.

    Parameters
    ----------
    found : Study
        Solved with its doubts.
    shown : SystemState
        Its ports and lines.
    car : Car
        The car document as read.
    routes : Routes
        Its pieces and their courses.
    sizes : Mapping
        Other sizes of lines than they have; of those that are not solved, as drains.

    Returns
    -------
    tuple of Margin
        In the order of the flow.
    """
    held = margins(found, shown, dict(car.components))
    built = found.state.built
    if built.system.medium is Medium.OIL and built.case.is_full:
        held = (*held, *drained(found, car, routes, sizes))
    return held


def _judge(car: Car, routes: Routes, state: Settled) -> Judged:
    found: Study = study(state)
    shown: SystemState = state_of(found)
    held = held_of(found, shown, car, routes)
    also = _other(state)
    if also is not None:
        shown = replace(shown, also=also)
    limit = limiting(found, held, car, routes)
    causes = {
        (m.what, m.where): cause
        for m in held
        if m.what in PRESSURES
        and m.verdict is Verdict.NOT_MET
        and (cause := limited(found, m, car, routes)) is not None
    }
    told = replace(shown, margins=held, limiting=limit)
    if state.built.case.is_running:
        told = replace(told, walks=walks(found))
    if state.built.case.is_full:
        told = replace(told, pumps=pump_curves(found))
    return Judged(found, told, causes)
