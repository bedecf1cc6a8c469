# SPDX-License-Identifier: Apache-2.0
"""What each fitted sensor and gauge should show in each condition."""

from collections.abc import Iterable

from linewright.car.model import Car, Component
from linewright.flow.bands import Study, shifted
from linewright.flow.findings import Judged
from linewright.flow.model import Reading

_QUANTITIES = {
    "pressure sensor": "pressure",
    "gauge": "pressure",
    "temperature sensor": "temperature",
}
#: Inner nodes of a component that a sensor on it feels, first match first.
_INNER = ("gallery", "jacket-out", "rail", "before", "in", "middle", "pot")


def readings(car: Car, judged: Iterable[Judged]) -> tuple[Reading, ...]:
    """Return what sensors should show.

    Parameters
    ----------
    car : Car
        The car document as read.
    judged : Iterable of Judged
        Systems in conditions.

    Returns
    -------
    tuple of Reading
        Pressures over the air outside [Pa], temperatures [K].
    """
    found = []
    for one in judged:
        built = one.study.state.built
        for sensor in sensors(car):
            node = felt(one.study, sensor)
            if node is None or sensor.on is None:
                continue
            quantity = _QUANTITIES[sensor.kind]
            if quantity == "pressure":
                value, unit = shifted(one.study.pressure(node), -built.case.ambient), "Pa"
            else:
                value, unit = one.study.temperature(node), "K"
            found.append(Reading(sensor.id, sensor.on, built.case.name, quantity, value, unit))
    return tuple(found)


def sensors(car: Car) -> tuple[Component, ...]:
    """Return the sensors and gauges of a car that are fitted to a port.

    Parameters
    ----------
    car : Car
        The car document as read.

    Returns
    -------
    tuple of Component
        In the order of the document.
    """
    return tuple(c for c in car.components.values() if c.kind in _QUANTITIES and c.on)


def felt(study: Study, sensor: Component) -> str | None:
    """Return the node that a sensor feels.

    Parameters
    ----------
    study : Study
        A system, solved.
    sensor : Component
        A sensor that is fitted.

    Returns
    -------
    str or None
        None where it is not of this system.
    """
    built, place = study.state.built, study.state.packed.node
    assert sensor.on is not None
    owner, _, name = sensor.on.partition(".")
    if built.node(sensor.on) in place:
        return built.node(sensor.on)
    media = {"oil": "oil", "coolant": "coolant"}
    said = next((medium for word, medium in media.items() if word in name), None)
    if said is not None and built.system.medium.value != said:
        return None
    for inner in _INNER:
        if f"{owner}:{inner}" in place:
            return f"{owner}:{inner}"
    return next((n for n in place if n.startswith(f"{owner}.")), None)
