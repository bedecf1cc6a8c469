# SPDX-License-Identifier: Apache-2.0
"""What holds in a condition, in figures: engine, air, boost, voltage, which way is up."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import pi

from linewright.base.dimensions import ATMOSPHERE
from linewright.base.evidence import Figure
from linewright.base.vectors import Vector
from linewright.car.model import Car, Component, Condition
from linewright.car.running import running_in, usual
from linewright.flow.boiling import atmosphere
from linewright.flow.defaults import Ledger, number

_LEVEL = (0.0, 0.0, -1.0)
#: No engine runs by itself as slowly as that. [turns/s]
_CRANKED = 400.0 / 60.0


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
class Case:
    """A condition in figures.

    ``speed`` of the engine [turns/s], ``load`` the share of its full power [-], ``boost`` over
    the air outside, ``ambient`` that air's pressure [Pa], ``air`` its temperature [K], speed of
    the car [m/s], ``voltage`` at the pumps [V]. ``state`` is how fluids start: cold, warm or
    hot, and ``start`` what is typed of it by system [K].
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
    """Return the conditions in which flow is reckoned.

    Parameters
    ----------
    car : Car
        The car document as read.
    ledger : Ledger
        Takes a note of what stands in.

    Returns
    -------
    tuple of Case
        Those that every car has, then those of the document that say what the car does.
    """
    found = engine(car, ledger)
    names = list(usual())
    for name, typed in car.conditions.items():
        says = typed.running
        if name not in names and (says.figures or says.start or says.off or says.steps):
            names.append(name)
    return tuple(_case(car, name, found, ledger) for name in names)


def _case(car: Car, name: str, engine: Engine, ledger: Ledger) -> Case:
    condition = car.conditions.get(name, Condition(name, _LEVEL))
    does = running_in(condition)
    figures = {key: figure.value for key, figure in does.figures.items()}
    speed = figures.get("engine-speed")
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
