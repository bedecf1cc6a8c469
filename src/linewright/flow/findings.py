# SPDX-License-Identifier: Apache-2.0
"""Findings of flow: margins that are not met, or not known to be, in plain words."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from linewright.base.codes import RULES
from linewright.base.finding import Finding
from linewright.car.kinds import kind
from linewright.car.model import Car, Medium
from linewright.ends.telling import listed
from linewright.flow.bands import Study
from linewright.flow.build import Built
from linewright.flow.limiting import closeness
from linewright.flow.model import Limiting, Margin, SystemState, Verdict
from linewright.flow.ruled import BY_WHAT, Ruled
from linewright.flow.solve import Status

#: Less than this in every line is no flow [kg/s].
_STILL = 1e-5


@dataclass(frozen=True)
class Judged:
    """A system in a condition: its study, and its state with margins.

    ``causes`` has what costs most of each margin that is not met, by what and where.
    """

    study: Study
    state: SystemState
    causes: Mapping[tuple[str, str], Limiting] = field(default_factory=dict)


def found_in(car: Car, judged: Sequence[Judged]) -> Iterator[Finding]:
    """Say what is not met, or not known to be, each in the condition where it is worst.

    Parameters
    ----------
    car : Car
        The car document as read.
    judged : Sequence of Judged
        Systems in conditions.

    Yields
    ------
    Finding
        One for a code and what it is about.
    """
    worst: dict[tuple[str, str], tuple[Margin, Judged]] = {}
    also: dict[tuple[str, str], list[tuple[Margin, Judged]]] = {}
    fast: dict[str, dict[str, Margin]] = {}
    for one in judged:
        for margin in one.state.margins:
            if margin.what == "velocity":
                if margin.verdict is Verdict.NOT_MET:
                    told = fast.setdefault(one.state.system, {})
                    old = told.get(margin.where)
                    if old is None or margin.value.value > old.value.value:
                        told[margin.where] = margin
                continue
            key = (margin.what, subject(car, margin.where))
            if key not in worst or _weight(margin, one) < _weight(*worst[key]):
                worst[key] = (margin, one)
            if margin.verdict is Verdict.NOT_MET:
                also.setdefault(key, []).append((margin, one))
    unsure: dict[str, list[tuple[Margin, Judged]]] = {}
    told_codes: set[tuple[str, str]] = set()
    for key, (margin, one) in sorted(worst.items(), key=lambda item: item[0]):
        about = key[1]
        if margin.verdict is Verdict.NOT_MET:
            code = BY_WHAT[margin.what].code
            if (code, about) not in told_codes:
                told_codes.add((code, about))
                yield _not_met(car, margin, one, about, also[key])
        elif margin.verdict is Verdict.UNSURE:
            unsure.setdefault(about, []).append((margin, one))
    for about, told_of in unsure.items():
        tanks = [m for m in told_of if _is_assumed_tank(*m)]
        for margin, one in tanks:
            yield _assumed_tank(about, margin, one)
        others = [m for m in told_of if not _is_assumed_tank(*m)]
        if others:
            yield _unsure(about, others)
    for system, lines in sorted(fast.items()):
        yield _fast(system, lines)
    yield from _bypasses(judged)
    yield from _still(judged)


def subject(car: Car, where: str) -> str:
    """Return the id that a finding is about.

    Parameters
    ----------
    car : Car
        The car document as read.
    where : str
        A port, a line, a component, or a place inside one.

    Returns
    -------
    str
        A port or line of the document, else a component.
    """
    is_inner = ":" in where and car.port(where) is None and where not in car.lines
    return where.partition(":")[0].partition(".")[0] if is_inner else where


def _weight(margin: Margin, one: Judged) -> tuple[bool, bool, float]:
    """Order of what is told first: what is not met, warm before cold, the worst."""
    is_cold = one.study.state.built.case.state == "cold"
    return margin.verdict is not Verdict.NOT_MET, is_cold, closeness(margin)


def _not_met(
    car: Car, margin: Margin, one: Judged, about: str, also: Sequence[tuple[Margin, Judged]]
) -> Finding:
    rule = BY_WHAT[margin.what]
    value, limit = rule.shown(margin.value.value), rule.shown(margin.limit.value)
    low, high = rule.shown(margin.value.low), rule.shown(margin.value.high)
    reason = (
        f"{rule.name.capitalize()} {value} ({low} to {high}) in {one.state.condition}, "
        f"limit {limit}: {rule.leads}."
    )
    limiting = one.causes.get((margin.what, margin.where))
    if limiting is not None:
        reason += _limited(car, limiting)
    others = [
        f"{rule.shown(m.value.value)} in {o.state.condition}" for m, o in also if m is not margin
    ]
    if others:
        reason += f" Also {', '.join(others)}."
    ahead = margin.limit.value - margin.value.value
    return Finding(
        rule.code,
        RULES[rule.code],
        (about,),
        reason,
        _way_out(car, margin, limiting, rule),
        value=value,
        limit=limit,
        source="common practice",
        grade=margin.limit.grade,
        system=one.state.system,
        measure=ahead if margin.is_least else -ahead,
        printed=margin.value.value,
        is_less_worse=margin.is_least,
    )


def _limited(car: Car, limiting: Limiting) -> str:
    share = f"{limiting.share * 100:.0f} %"
    if limiting.where in car.lines:
        text = f" The {limiting.size} line {limiting.where} takes {share} of what is lost"
    else:
        text = f" {limiting.where} takes {share} of what is lost"
    return text + "."


def _way_out(car: Car, margin: Margin, limiting: Limiting | None, rule: Ruled) -> str:
    """What helps: a larger hose where one does, with what it gives, then what else does."""
    if limiting is None or limiting.where not in car.lines:
        return rule.remedy
    line, size, gives = limiting.where, limiting.next_size, limiting.next_value
    if not size or gives is None:
        return f"A larger hose than {limiting.size} for {line} does not help. {rule.remedy}"
    is_met = gives >= margin.limit.value if margin.is_least else gives <= margin.limit.value
    if is_met:
        return f"Take {line} in {size}: it gives {rule.shown(gives)}. Else: {rule.remedy}"
    return f"{line} in {size} gives {rule.shown(gives)}, which is not enough. {rule.remedy}"


def _unsure(about: str, told: Sequence[tuple[Margin, Judged]]) -> Finding:
    """All of one thing that is not known well enough, in whichever systems it is."""
    parts, measures = [], []
    for margin, one in told:
        rule = BY_WHAT[margin.what]
        low, high = rule.shown(margin.value.low), rule.shown(margin.value.high)
        limit = rule.shown(margin.limit.value)
        parts.append(f"{rule.name} {low} to {high} in {one.state.condition}, limit {limit}")
        measures.append(margin.measure)
    said = "; ".join(parts)
    return Finding(
        "flow-unsure",
        RULES["flow-unsure"],
        (about,),
        f"{said[:1].upper()}{said[1:]}: the limit lies within what is not known.",
        f"Measure {' and '.join(dict.fromkeys(measures))}, or type the figures that are assumed.",
        system=told[0][1].state.system,
    )


def _is_assumed_tank(margin: Margin, one: Judged) -> bool:
    if margin.what != "air in the header tank":
        return False
    tank = one.study.state.built.sealed
    return tank is not None and tank.assumed is not None


def _assumed_tank(about: str, margin: Margin, one: Judged) -> Finding:
    """A header tank whose volume nobody typed: it is asked for before it is judged."""
    tank, rule = one.study.state.built.sealed, BY_WHAT[margin.what]
    assert tank is not None
    assert tank.assumed is not None
    low, high = rule.shown(margin.value.low), rule.shown(margin.value.high)
    return Finding(
        "flow-unsure",
        RULES["flow-unsure"],
        (about,),
        f"The volume of {about} is not typed: {rule.shown(tank.assumed.value)} is assumed. With "
        f"it the air in the header tank when cold would be {low} to {high}, and "
        f"{rule.shown(margin.limit.value)} is needed in {one.state.condition}: whether the tank "
        "is large enough is not known.",
        f'Measure the volume of {about} and type it on it, as volume = "2 L".',
        system=one.state.system,
    )


def _fast(system: str, lines: Mapping[str, Margin]) -> Finding:
    said = ", ".join(
        f"{name} {m.value.value:.1f} m/s (usual up to {m.limit.value:.1f})"
        for name, m in sorted(lines.items())
    )
    return Finding(
        "velocity-high",
        RULES["velocity-high"],
        tuple(sorted(lines)),
        f"Faster than usual: {said}. What decides is the pressure that it costs.",
        "Nothing, where the pressures are met; else a larger size.",
        system=system,
        measure=max(m.value.value / m.limit.value for m in lines.values()),
    )


def _bypasses(judged: Iterable[Judged]) -> Iterator[Finding]:
    """Valves and bypasses that pass most of the oil when it is cold."""
    for one in judged:
        state = one.study.state
        built = state.built
        if built.case.state != "cold" or not built.case.is_firing:
            continue
        open_ones = []
        for mark, link in built.marks.items():
            word, _, name = mark.partition(" ")
            if word in ("bypass", "relief") and link in state.packed.link:
                if state.found.status(link) is Status.OPEN:
                    open_ones.append((link.partition(":")[0], word))
            elif word == "thermostat" and state.opening.get(name, 1.0) < 0.5:
                open_ones.append((name, "thermostat"))
        if not open_ones:
            continue
        said = ", ".join(_passed(one.study, built.marks, who, word) for who, word in open_ones)
        yield Finding(
            "bypass-open",
            RULES["bypass-open"],
            tuple(sorted({who for who, _ in open_ones})),
            f"In {built.case.name} the oil is too thick for its whole way: {said}.",
            "Warm the oil before load, and keep the speed down until it is warm.",
            system=built.system.id,
        )


def _still(judged: Iterable[Judged]) -> Iterator[Finding]:
    """Systems in which nothing flows at full power: their way is not closed as typed."""
    for one in judged:
        lines = one.state.lines
        if one.state.condition != "full-power" or not lines:
            continue
        system = one.study.state.built.system
        if system.medium is Medium.AIR:
            continue
        if any(abs(line.flow.value) > _STILL for line in lines.values()):
            continue
        yield Finding(
            "flow-unknown",
            RULES["flow-unknown"],
            (system.id,),
            f"Nothing flows in {system.id} at full power: no pump has a way round as typed, so "
            "that its temperatures and pressures say nothing.",
            "Connect what the pump delivers to: for coolant the lines, or the parts screwed "
            "together, from the pump through the engine (coolant-in, coolant-out) and back.",
            system=system.id,
        )


def cut_off(car: Car, built: Built) -> Iterator[Finding]:
    """Name ports of lines that nothing is connected to, since nobody knows what they are.

    Parameters
    ----------
    car : Car
        The car document as read.
    built : Built
        A system in a condition.

    Yields
    ------
    Finding
        An ask for each port.
    """
    for port in built.cut_off:
        owner, _, name = port.partition(".")
        part = car.components[owner].kind
        lines = [n for n, line in car.lines.items() if port in (line.from_port, line.to_port)]
        ports = kind(part).ports
        own = [p.name for p in ports if p.medium in (None, built.system.medium)]
        calls = own or [p.name for p in ports]
        yield Finding(
            "flow-unknown",
            RULES["flow-unknown"],
            (port,),
            f'What "{name}" is on a {part} is not known, so that nothing flows through it: '
            f"{listed(lines, 'and')} {'carry' if len(lines) > 1 else 'carries'} nothing, and "
            f"flow in {built.system.id} is not known.",
            f"Call the port as a {part} does ({', '.join(calls)}; a second one as "
            f'{calls[0]}-2), or give it the role that it has (role = "in" or role = "out").',
            system=built.system.id,
        )


def doubted(states: Iterable[SystemState], findings: Iterable[Finding]) -> list[SystemState]:
    """Return states of which nothing reads as met where the flow of the system is not known.

    Parameters
    ----------
    states : Iterable of SystemState
        With their margins.
    findings : Iterable of Finding
        Of the flow.

    Returns
    -------
    list of SystemState
        In the same order.
    """
    unknown = {f.system for f in findings if f.code == "flow-unknown"}
    return [
        replace(state, margins=tuple(_doubtful(m, state.system) for m in state.margins))
        if state.system in unknown
        else state
        for state in states
    ]


def _doubtful(margin: Margin, system: str) -> Margin:
    if margin.verdict is not Verdict.MET:
        return margin
    why = f"flow in {system} is not known: see flow-unknown"
    return replace(margin, verdict=Verdict.UNSURE, doubt=why)


def _passed(study: Study, marks: Mapping[str, str], who: str, word: str) -> str:
    mark = word if word == "relief" else f"{word} {who}"
    packed = study.state.packed
    i = packed.link[marks[mark]]
    flow = float(study.flows[0, i]) / packed.density[i]
    said = {
        "relief": f"the relief valve of {who} lets go",
        "bypass": f"the bypass of {who} passes",
        "thermostat": f"{who} leads past the cooler",
    }[word]
    return f"{said} {flow * 6e4:.1f} L/min"


def ill(system: str, condition: str, why: str) -> Finding:
    """Say that a system cannot be reckoned, and why.

    Parameters
    ----------
    system : str
        The system.
    condition : str
        In which condition first.
    why : str
        What stands in the way.

    Returns
    -------
    Finding
        An ask.
    """
    return Finding(
        "flow-unknown",
        RULES["flow-unknown"],
        (system,),
        f"Flow in {system} is not reckoned ({condition}): {why}",
        "Connect or complete what is named; all other systems are reckoned.",
        system=system,
    )
