# SPDX-License-Identifier: Apache-2.0
"""What holds in a condition, in figures: engine, air, boost, voltage, which way is up."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from math import pi

from linewright.base.dimensions import ATMOSPHERE
from linewright.base.evidence import Figure
from linewright.base.vectors import Vector
from linewright.car.conditions import use_of
from linewright.car.model import Car, Component, Condition, Running, Step
from linewright.car.running import RATED_SHARE, changed, running_in, usual, usual_for
from linewright.flow.boiling import atmosphere
from linewright.flow.defaults import Ledger, number

#: How fluids start that stand as hot as a hard run left them, and are not let settle.
AFTER_RUN = "after a hard run"
_LEVEL = (0.0, 0.0, -1.0)
#: No engine runs by itself as slowly as that. [turns/s]
_CRANKED = 400.0 / 60.0
#: How long the last step of a condition is followed where nothing says it. [s]
_LAST = 300.0


@dataclass(frozen=True, slots=True)
class Engine:
    """What the car's engine is like: ``power`` [W], ``rated`` speed [turns/s].

    ``id`` is empty where the document has no engine.
    """

    id: str
    power: Figure
    rated: Figure
    is_boosted: bool


@dataclass(frozen=True, slots=True)
class Phase:
    """From some time of a cycle on [s], a case holds."""

    begins: float
    case: "Case"


@dataclass(frozen=True, slots=True)
class Cycle:
    """A condition that is followed through time: how long [s], and its phases.

    ``before`` is the case that the car stands settled in when it begins, or whose air it is as
    cold as.
    """

    name: str
    lasts: float
    phases: tuple[Phase, ...]
    before: "Case"


@dataclass(frozen=True, slots=True)
class Case:
    """A condition in figures.

    ``speed`` of the engine [turns/s], ``load`` the share of its full power [-], ``boost`` over
    the air outside, ``ambient`` that air's pressure [Pa], ``air`` its temperature [K], speed of
    the car [m/s], ``voltage`` at the pumps [V]. ``state`` is how fluids start: cold,
    hot, or standing after a hard run, and ``start`` what is typed of it by system [K].
    """

    name: str
    engine: Engine
    speed: float
    load: float
    boost: float
    ambient: float
    air: float
    car_speed: float
    voltage: float
    down: Vector
    state: str
    start: Mapping[str, Figure]
    off: tuple[str, ...]

    @property
    def is_running(self) -> bool:
        """Whether the engine turns."""
        return self.speed > 0.0

    @property
    def is_firing(self) -> bool:
        """Whether the engine runs by itself, and is not only cranked."""
        return self.speed > _CRANKED

    @property
    def is_after_run(self) -> bool:
        """Whether oil and coolant stand as hot as a hard run left them, not as idling would."""
        return self.state == AFTER_RUN

    @property
    def is_full(self) -> bool:
        """Whether the engine gives nearly all of its power."""
        return self.load > 0.8


def engine(car: Car, ledger: Ledger) -> Engine:
    """Return the engine of a car.

    Parameters
    ----------
    car : Car
        The car document as read.
    ledger : Ledger
        Takes a note of what stands in.

    Returns
    -------
    Engine
        The first in the document; a usual one where there is none.
    """
    found = next((c for c in car.components.values() if c.kind == "engine"), None)
    boosted = any(
        c.traits.get("boosted") or c.kind in ("turbo", "compressor")
        for c in car.components.values()
    )
    if found is None:
        whose = "engine"
        power = ledger.default(whose, "engine-power")
        return Engine("", power, ledger.default(whose, "rated-speed"), boosted)
    ledger.engine = found.id
    power = ledger.trait(found, "power", "engine-power")
    return Engine(found.id, power, _rated(found, ledger), boosted)


def _rated(found: Component, ledger: Ledger) -> Figure:
    typed = number(found, "rated-speed")
    if typed is None:
        return ledger.default(found.id, "rated-speed")
    figure = ledger.trait(found, "rated-speed", "rated-speed")
    return Figure(typed / (2.0 * pi), "1/s", figure.grade, figure.basis)


def cases(car: Car, ledger: Ledger) -> tuple[Case, ...]:
    """Return the steady conditions in which flow is reckoned.

    Parameters
    ----------
    car : Car
        The car document as read.
    ledger : Ledger
        Takes a note of what stands in.

    Returns
    -------
    tuple of Case
        Those that every car has, then those of the document that say what the car does; what is
        followed through time is told by `cycles`.
    """
    found = engine(car, ledger)
    return tuple(
        _case(_condition(car, name), does.figures, found, ledger)
        for name, does in _running(car, ())
        if does.lasts is None and not does.steps
    )


def cycles(car: Car, ledger: Ledger, asked: Iterable[str] = ()) -> tuple[Cycle, ...]:
    """Return the conditions that are followed through time.

    Parameters
    ----------
    car : Car
        The car document as read.
    ledger : Ledger
        Takes a note of what stands in.
    asked : Iterable of str
        Usual ones that are wanted though they are not of the use of this car.

    Returns
    -------
    tuple of Cycle
        Those of the use of the car and those of the document that have steps or last a time.
    """
    found = engine(car, ledger)
    return tuple(
        _cycle(car, name, does, found, ledger)
        for name, does in _running(car, asked)
        if does.lasts is not None or does.steps
    )


def _running(car: Car, asked: Iterable[str]) -> list[tuple[str, Running]]:
    """What the car does in each of its conditions, the usual ones first."""
    of_use = usual_for(use_of(car.use))
    typed = {
        name
        for name, c in car.conditions.items()
        if (r := c.running).figures or r.start or r.off or r.steps or r.lasts
    }
    names = [n for n in usual() if n in of_use or n in asked or n in typed]
    names += [n for n in car.conditions if n in typed and n not in usual()]
    return [(name, running_in(_condition(car, name))) for name in names]


def _condition(car: Car, name: str) -> Condition:
    return car.conditions.get(name, Condition(name, _LEVEL))


def _cycle(car: Car, name: str, does: Running, engine: Engine, ledger: Ledger) -> Cycle:
    condition = _condition(car, name)
    last = does.steps[-1].at if does.steps else 0.0
    lasts = does.lasts.value if does.lasts is not None else last + _LAST
    figures: Mapping[str, Figure] = does.figures
    phases: list[Phase] = []
    for step in (Step(0.0, {}), *does.steps):
        figures = changed(figures, step)
        if step.at >= lasts:
            break
        if phases and phases[-1].begins == step.at:
            phases.pop()
        phases.append(Phase(step.at, _settling(_case(condition, figures, engine, ledger))))
    first = phases[0].case
    idle = running_in(_condition(car, "hot-idle"))
    air = {key: does.figures[key] for key in ("air", "altitude") if key in does.figures}
    # What is followed begins settled at idle: it is not told to come out of a hard run.
    before = _settling(_case(_condition(car, "hot-idle"), {**idle.figures, **air}, engine, ledger))
    if not first.is_running:
        full = running_in(_condition(car, "full-power"))
        before = _case(_condition(car, "full-power"), full.figures, engine, ledger)
    return Cycle(name, lasts, tuple(phases), first if first.state == "cold" else before)


def _settling(case: Case) -> Case:
    """The same with fluids that are let settle, where they stood after a hard run."""
    return replace(case, state="hot") if case.is_after_run else case


def _case(
    condition: Condition, typed: Mapping[str, Figure], engine: Engine, ledger: Ledger
) -> Case:
    name, does = condition.name, running_in(condition)
    figures = {key: figure.value for key, figure in typed.items()}
    speed = figures.get("engine-speed")
    if RATED_SHARE in figures:
        speed = figures[RATED_SHARE] * engine.rated.value * 2.0 * pi
    load = figures.get("power", 1.0)
    boost = figures.get("boost")
    if boost is None:
        is_boosting = engine.is_boosted and load > 0.5
        boost = ledger.default(name, "boost").value if is_boosting else 0.0
    return Case(
        name=name,
        engine=engine,
        speed=engine.rated.value if speed is None else speed / (2.0 * pi),
        load=load,
        boost=boost,
        ambient=atmosphere(figures["altitude"]) if figures.get("altitude") else ATMOSPHERE,
        air=figures["air"],
        car_speed=figures.get("car-speed", 0.0),
        voltage=figures.get("voltage", 13.5),
        down=condition.down,
        state=usual().get(name, usual()["full-power"])[1],
        start=does.start,
        off=does.off,
    )
