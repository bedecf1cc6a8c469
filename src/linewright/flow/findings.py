# SPDX-License-Identifier: Apache-2.0
"""Findings of flow: margins that are not met, or not known to be, in plain words."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType

from linewright.base.codes import RULES
from linewright.base.dimensions import ZERO_CELSIUS
from linewright.base.finding import Finding
from linewright.car.model import Car
from linewright.flow.bands import Study
from linewright.flow.limiting import closeness
from linewright.flow.model import Limiting, Margin, SystemState, Verdict
from linewright.flow.solve import Status


@dataclass(frozen=True)
class Judged:
    """A system in a condition: its study, and its state with margins.

    ``causes`` has what costs most of each margin that is not met, by what and where.
    """

    study: Study
    state: SystemState
    causes: Mapping[tuple[str, str], Limiting] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class _Rule:
    """How a margin is told: code, name, how a value reads, what it leads to, the way out."""

    code: str
    name: str
    shown: Callable[[float], str]
    leads: str
    remedy: str


def _absolute(value: float) -> str:
    return f"{max(0.0, value) / 1e5:.2f} bar absolute"


def _bar(value: float) -> str:
    return f"{value / 1e5:.2f} bar"


def _kilo(value: float) -> str:
    return f"{value / 1e3:.0f} kPa"


def _degrees(value: float) -> str:
    return f"{value - ZERO_CELSIUS:.0f} °C"


def _kelvin(value: float) -> str:
    return f"{value:.0f} K"


def _litres(value: float) -> str:
    return f"{value * 1e3:.2f} L"


def _per_minute(value: float) -> str:
    return f"{value * 6e4:.1f} L/min"


def _plain(value: float) -> str:
    return f"{value:.2f}"


def _speed(value: float) -> str:
    return f"{value:.1f} m/s"


def _seconds(value: float) -> str:
    return f"{value:.1f} s"


_RULES: Mapping[str, _Rule] = MappingProxyType(
    {
        "pump inlet": _Rule(
            "pump-starves",
            "pump inlet",
            _absolute,
            "below it the pump is likely to draw air",
            "Lift the tank or bring it nearer, and take straighter ends.",
        ),
        "gallery pressure": _Rule(
            "oil-pressure-low",
            "oil pressure in the gallery",
            _bar,
            "below it bearings may run dry",
            "Set the relief valve higher, take a larger pressure stage, or cut what filter, cooler "
            "and ends lose.",
        ),
        "oil temperature": _Rule(
            "runs-hot",
            "oil",
            _degrees,
            "above it the oil is hotter than the system is made for",
            "Take a larger cooler, or give it more air.",
        ),
        "coolant temperature": _Rule(
            "runs-hot",
            "hottest coolant",
            _degrees,
            "above it the system is hotter than it is made for",
            "Give more flow, a larger core, or more air through it.",
        ),
        "scavenge over pressure flow": _Rule(
            "scavenge-small",
            "scavenge over pressure flow",
            _plain,
            "below it oil stays in the sump",
            "Take larger scavenge stages, or one more.",
        ),
        "oil in the tank": _Rule(
            "tank-dwell",
            "oil stays in the tank for",
            _seconds,
            "below it air stays in the oil",
            "Take a larger tank, or one that swirls the oil.",
        ),
        "turbo feed pressure": _Rule(
            "turbo-feed-high",
            "oil pressure at the turbo",
            _bar,
            "above it oil is pushed past its seals",
            "Fit a jet or a regulator in its feed.",
        ),
        "drain capacity": _Rule(
            "drain-overfull",
            "drain, half full at its flattest place,",
            _per_minute,
            "below it, three times the clear oil, froth backs up into the turbo",
            "Let it fall more steeply, or take a larger drain.",
        ),
        "boiling margin": _Rule(
            "boils",
            "margin to boiling",
            _kelvin,
            "below it the coolant may boil where it is hottest",
            "Give more flow or a larger core, or a cap of higher pressure.",
        ),
        "air in the header tank": _Rule(
            "expansion-small",
            "air in the header tank when cold",
            _litres,
            "below it, twice what the coolant grows by, the cap lets coolant go",
            "Fill it less, or take a larger header tank.",
        ),
        "header feed": _Rule(
            "header-far",
            "pressure where the header's feed meets the loop over that at the pump's inlet",
            _kilo,
            "above it the pump draws its inlet below the header, and air with it",
            "Lead the feed to the loop close to the inlet of the pump.",
        ),
        "inlet over vapour": _Rule(
            "fuel-vapour",
            "pressure at the fuel pump's inlet over that of the vapour",
            _kilo,
            "below it the fuel may boil in the suction line",
            "Cut what the strainer and its ends lose, lower the pump, or keep the fuel cooler.",
        ),
        "rail pressure": _Rule(
            "rail-low",
            "rail pressure over the manifold",
            _bar,
            "below it the engine runs lean",
            "Take a larger pump or a second one, or thicker wires to it.",
        ),
        "carburettor pressure": _Rule(
            "carburettor-floods",
            "fuel pressure at the carburettor",
            _bar,
            "above it the needle of a float chamber does not hold, and fuel runs over",
            "Take a pump made for carburettors, or fit a regulator before them (a carburettor "
            "regulator, or a fuel regulator with a return).",
        ),
        "carburettor feed": _Rule(
            "rail-low",
            "fuel pressure at the carburettor",
            _bar,
            "below it the float chamber runs low",
            "Take a larger pump or a larger feed, or raise the setting of its regulator.",
        ),
        "return pressure": _Rule(
            "return-pressure",
            "pressure behind the regulator",
            _kilo,
            "above it the regulator cannot hold its setting",
            "Take full-bore hose of the same dash where it has tube bore, or a pump that sends "
            "less back at idle.",
        ),
        "overflow of the pot": _Rule(
            "pot-empties",
            "overflow of the surge pot",
            _per_minute,
            "below it the pot empties",
            "Take a larger lift pump.",
        ),
        "charge pressure loss": _Rule(
            "charge-loss",
            "loss of pressure from compressor to throttle",
            _kilo,
            "above it the compressor works much harder for the same boost",
            "Take wider elbows, larger pipes, or a larger cooler.",
        ),
    }
)

#: Margins that have a finding of their own.
RULED = tuple(_RULES)


def shown(what: str, value: float) -> str:
    """Return a value of a margin as it is told.

    Parameters
    ----------
    what : str
        Name of the margin.
    value : float
        In its unit. [SI]

    Returns
    -------
    str
        With its unit.

    Examples
    --------
    >>> shown("pump inlet", 62e3)
    '0.62 bar absolute'
    """
    return _RULES[what].shown(value)


def words_of(what: str) -> tuple[str, Callable[[float], str]]:
    """Return how a margin is called, and how its values are told.

    Parameters
    ----------
    what : str
        Name of the margin.

    Returns
    -------
    tuple of (str, callable)
        As "pump inlet".

    Examples
    --------
    >>> name, told = words_of("velocity")
    >>> name, told(2.44)
    ('velocity', '2.4 m/s')
    """
    other = {"velocity": _speed, "flow of the pump": _per_minute}
    if what in other:
        return what, other[what]
    return _RULES[what].name, _RULES[what].shown


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
    unsure: dict[tuple[str, str], list[tuple[Margin, Judged]]] = {}
    told_codes: set[tuple[str, str]] = set()
    for key, (margin, one) in sorted(worst.items(), key=lambda item: item[0]):
        about = key[1]
        if margin.verdict is Verdict.NOT_MET:
            code = _RULES[margin.what].code
            if (code, about) not in told_codes:
                told_codes.add((code, about))
                yield _not_met(car, margin, one, about, also[key])
        elif margin.verdict is Verdict.UNSURE:
            unsure.setdefault((one.state.system, about), []).append((margin, one))
    for (system, about), told_of in unsure.items():
        yield _unsure(system, about, told_of)
    for system, lines in sorted(fast.items()):
        yield _fast(system, lines)
    yield from _bypasses(judged)


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
    if car.port(where) is not None or where in car.lines:
        return where
    return where.partition(":")[0].partition(".")[0] if ":" in where else where


def _weight(margin: Margin, one: Judged) -> tuple[bool, bool, float]:
    """Order of what is told first: what is not met, warm before cold, the worst."""
    is_cold = one.study.state.built.case.state == "cold"
    return margin.verdict is not Verdict.NOT_MET, is_cold, closeness(margin)


def _not_met(
    car: Car, margin: Margin, one: Judged, about: str, also: Sequence[tuple[Margin, Judged]]
) -> Finding:
    rule = _RULES[margin.what]
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


def _way_out(car: Car, margin: Margin, limiting: Limiting | None, rule: _Rule) -> str:
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


def _unsure(system: str, about: str, told: Sequence[tuple[Margin, Judged]]) -> Finding:
    parts, measures = [], []
    for margin, one in told:
        rule = _RULES[margin.what]
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
        system=system,
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
    return f"{said} {_per_minute(flow)}"


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
