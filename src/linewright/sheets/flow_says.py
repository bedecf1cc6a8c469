# SPDX-License-Identifier: Apache-2.0
"""What flow has to say in plain words: margins, what limits, and the cautions."""

from collections import Counter

from linewright.car.model import Car, Construction, Line
from linewright.flow.model import Flows, Limiting, Margin, SystemState, Verdict
from linewright.scene.values import (
    ABSOLUTE,
    DIFFERENCE,
    Scale,
    ambient,
    banded,
    condition_at,
    like,
    number,
    plain,
    scale,
)
from linewright.sheets.figures import MARKS

#: Shape of a verdict, so that it is told without colour.
SHAPES = {Verdict.MET: "●", Verdict.NOT_MET: "■", Verdict.UNSURE: "▲"}

#: What goes before the temperatures at which fluids stand.
AFTER = " after a hard run, "

#: Worst first.
ORDER = (Verdict.NOT_MET, Verdict.UNSURE, Verdict.MET)

#: Stands on every sheet of flow.
CAUTION = (
    "Computed from stated data and from the defaults listed here: verify with gauges on the first "
    "start, and follow the makers' limits. It does not say that a car is safe or legal."
)

#: What happens beyond the limit, by the words that the name of a margin starts with.
_BEYOND = {
    "pump inlet": "it is likely to draw air",
    "inlet over vapour": "it is likely to boil in the line",
    "gallery pressure": "bearings are likely to starve",
    "scavenge over pressure flow": "the sump is likely to fill",
    "oil in the tank": "air has no time to leave the oil",
    "rail pressure": "the engine runs lean",
    "return pressure": "the regulator cannot hold its pressure",
    "coupler": "a coupler is likely to come off",
}

#: Pressures that are told as absolute, and temperatures that are differences.
_ABSOLUTE, _APART = ("pump inlet",), ("boiling margin",)


def _beyond(margin: Margin, limit: str) -> str:
    side = "below" if margin.is_least else "above"
    for name, words in _BEYOND.items():
        if margin.what.startswith(name):
            return f"{side} {limit} {words}"
    return f"it needs at least {limit}" if margin.is_least else f"the most is {limit}"


def margin_scale(car: Car, state: SystemState, margin: Margin) -> Scale:
    """Return how the value of a margin is shown.

    Parameters
    ----------
    car : Car
        The car, for the builder's units.
    state : SystemState
        Where the margin stands.
    margin : Margin
        The margin.

    Returns
    -------
    Scale
        In metric or inch units; a gauge pressure reads from the air of the condition.
    """
    told = margin.shown or (ABSOLUTE if margin.what in _ABSOLUTE else DIFFERENCE)
    unit = "K diff" if margin.unit == "K" and margin.what in _APART else margin.unit
    return scale(unit, car.show, told, ambient(car, state.condition))


def limit_words(margin: Margin, by: Scale) -> str:
    """Show a limit with the mark of its grade.

    Parameters
    ----------
    margin : Margin
        The margin.
    by : Scale
        How its unit is shown.

    Returns
    -------
    str
        As "at least 0.85 bar absolute [P]".
    """
    side = "at least" if margin.is_least else "at most"
    return f"{side} {plain(margin.limit.value, by)} [{MARKS[margin.limit.grade]}]"


def place_words(where: str) -> str:
    """Say a place inside a component, which has no port, without its sign.

    Parameters
    ----------
    where : str
        A port, line, component, or a place inside one.

    Returns
    -------
    str
        As "ENG gallery" for "ENG:gallery".
    """
    return where.replace(":", " ")


def is_guide(margin: Margin) -> bool:
    """Whether a limit is only a guide: of velocities, since pressures decide.

    Parameters
    ----------
    margin : Margin
        The margin.

    Returns
    -------
    bool
        True for a velocity.
    """
    return margin.what == "velocity"


def fast_words(car: Car, state: SystemState) -> str:
    """Name the lines that are faster than usual, in one sentence.

    Parameters
    ----------
    car : Car
        The car.
    state : SystemState
        The system in its condition.

    Returns
    -------
    str
        "" where none is for sure.
    """
    by = scale("m/s", car.show)
    fast = [
        f"{m.where} {number(m.value, by)} {by.unit} (usual up to {plain(m.limit.value, by.bare)})"
        for m in state.margins
        if is_guide(m) and m.verdict is Verdict.NOT_MET
    ]
    if not fast:
        return ""
    return (
        f"faster than usual {condition_at(state.condition)}: {', '.join(fast)}; "
        "what decides is the pressure that it costs"
    )


def size_words(size: str) -> str:
    """Show a size as typed; a bore in mm has its unit.

    Parameters
    ----------
    size : str
        A dash or a bore.

    Returns
    -------
    str
        As "-12" or "38 mm".
    """
    return f"{size} mm" if size[:1].isdigit() else size


def line_words(line: Line) -> str:
    """Name a line as one speaks of it.

    Parameters
    ----------
    line : Line
        The line.

    Returns
    -------
    str
        As "the -16 suction hose O01".
    """
    service = "" if line.service == "pressure" else f"{line.service} "
    made = "hose" if line.construction is Construction.HOSE else line.construction.value
    return " ".join(f"the {size_words(line.size)} {service}{made} {line.id}".split())


def _named(car: Car, where: str) -> str:
    line = car.lines.get(where)
    if line is not None:
        return line_words(line)
    component = car.components.get(where.partition(".")[0])
    name = component.name if component is not None else ""
    return f"{where} ({name})" if name else where


def _share(share: float) -> str:
    percent = f"{share * 100:.0f} %"
    return f"most of it ({percent})" if share > 0.5 else f"the largest share ({percent})"


def limiting_words(car: Car, limiting: Limiting, margin: Margin, by: Scale) -> str:
    """Name the element that limits, its share, and what one size up gives.

    Parameters
    ----------
    car : Car
        The car.
    limiting : Limiting
        What limits a margin.
    margin : Margin
        That margin.
    by : Scale
        How its value is shown.

    Returns
    -------
    str
        As "the -16 suction hose O01 takes most of it (63 %); -20 gives 0.90".
    """
    said = f"{_named(car, limiting.where)} takes {_share(limiting.share)}"
    if limiting.next_size and limiting.next_value is not None:
        said += f"; {limiting.next_size} gives {like(limiting.next_value, margin.value, by)}"
    return said


def margin_words(car: Car, state: SystemState, margin: Margin) -> str:
    """Say a margin in a sentence: what, how much, where the limit is, and what to do.

    Parameters
    ----------
    car : Car
        The car.
    state : SystemState
        The system in the condition that the margin is of.
    margin : Margin
        The margin.

    Returns
    -------
    str
        As "pump inlet (oil-pump.inlet) 0.62 bar absolute (0.50 to 0.74) at full power; below 0.85
        it is likely to draw air; the -16 suction hose O01 takes most of it (63 %); -20 gives 0.90".
    """
    by = margin_scale(car, state, margin)
    # The unit is said once, with the value.
    limit = plain(margin.limit.value, by.bare)
    said = f"{margin.what} {banded(margin.value, by)} {condition_at(state.condition)}"
    said += stands_words(car, state)
    if margin.where and margin.where not in margin.what:
        said = said.replace(margin.what, f"{margin.what} ({place_words(margin.where)})", 1)
    if margin.verdict is Verdict.MET:
        return f"{said}; {limit_words(margin, by).rpartition(' [')[0]} is met"
    said += f"; {_beyond(margin, limit)}"
    if margin.verdict is Verdict.UNSURE and margin.doubt:
        said += f"; {margin.doubt}"
    elif margin.verdict is Verdict.UNSURE:
        said += "; the limit lies within the band"
        if margin.measure:
            said += f": measure {margin.measure}"
    limiting = state.limiting
    if limiting is not None and limiting.margin == margin.what:
        said += f"; {limiting_words(car, limiting, margin, by)}"
    return said


def stands_words(car: Car, state: SystemState) -> str:
    """Say at which temperature a fluid stands that is not let settle.

    Parameters
    ----------
    car : Car
        The car, for the builder's units.
    state : SystemState
        The system in its condition.

    Returns
    -------
    str
        As " after a hard run, oil at 110 °C (105 to 120)"; "" where it settles.
    """
    if state.stands is None:
        return ""
    name = state.system.replace("-", " ")
    return f"{AFTER}{name} at {banded(state.stands, scale('K', car.show))}"


def met_words(state: SystemState) -> str:
    """Name the margins of a state that are met, in one line.

    Parameters
    ----------
    state : SystemState
        The state.

    Returns
    -------
    str
        Their names, each once with how often; "" where there is none.
    """
    met = (m for m in state.margins if m.verdict is Verdict.MET and not is_guide(m))
    counts = Counter(m.what for m in met)
    return ", ".join(f"{what} ({n} times)" if n > 1 else what for what, n in counts.items())


def ordered(state: SystemState) -> tuple[Margin, ...]:
    """Return the margins of a state, worst first, without those that are guides.

    Parameters
    ----------
    state : SystemState
        The state.

    Returns
    -------
    tuple of Margin
        By verdict, then as they came.
    """
    held = (m for m in state.margins if not is_guide(m))
    return tuple(sorted(held, key=lambda m: ORDER.index(m.verdict)))


def weight(state: SystemState) -> tuple[int, bool]:
    """Weigh how much a condition asks of a system, to be sorted by.

    Parameters
    ----------
    state : SystemState
        The system in the condition.

    Returns
    -------
    tuple of (int, bool)
        The place of its worst verdict, and whether it is not at full power; least asks most.
    """
    worst = min((ORDER.index(m.verdict) for m in ordered(state)), default=len(ORDER))
    return worst, state.condition != "full-power"


def telling(flows: Flows, system: str) -> frozenset[str]:
    """Return the conditions that tell most of a system.

    Parameters
    ----------
    flows : Flows
        The results.
    system : str
        Id of the system.

    Returns
    -------
    frozenset of str
        Full power, and the one that asks most where that is another.
    """
    found = [s for s in flows.states if s.system == system]
    worst = min(found, key=weight, default=None)
    full = {state.condition for state in found if state.condition == "full-power"}
    return frozenset(full | ({worst.condition} if worst is not None else set()))


def verdict_words(flows: Flows, system: str) -> str:
    """Say in a sentence how a system stands in all its conditions.

    Parameters
    ----------
    flows : Flows
        The results.
    system : str
        Id of the system.

    Returns
    -------
    str
        Counts of what is met, what not, and what is not known well enough.
    """
    margins = [m for s in flows.states if s.system == system for m in ordered(s)]
    if not margins:
        return "No limit is held against anything here."
    counts = {verdict: sum(m.verdict is verdict for m in margins) for verdict in Verdict}
    said = []
    if counts[Verdict.NOT_MET]:
        said.append(f"{counts[Verdict.NOT_MET]} not met")
    if counts[Verdict.UNSURE]:
        said.append(f"{counts[Verdict.UNSURE]} not known well enough")
    if counts[Verdict.MET]:
        said.append(f"{counts[Verdict.MET]} met")
    word = "margin" if len(margins) == 1 else "margins"
    return f"Of {len(margins)} {word}: {', '.join(said)}."
