# SPDX-License-Identifier: Apache-2.0
"""What each fitted sensor and gauge should show in each condition."""

from collections.abc import Iterable, Iterator, Mapping
from math import hypot
from types import MappingProxyType

from linewright.car.model import Car, Component, Medium
from linewright.flow.bands import Study, shifted
from linewright.flow.findings import Judged
from linewright.flow.model import Assumed, Band, Reading
from linewright.flow.network import Regulator
from linewright.flow.solve import Status

_QUANTITIES = {
    "pressure sensor": "pressure",
    "gauge": "pressure",
    "temperature sensor": "temperature",
}
#: Inner nodes of a component that a sensor on it feels, first match first.
_INNER = ("gallery", "jacket-out", "rail", "before", "in", "middle", "pot")


def readings(
    car: Car,
    judged: Iterable[Judged],
    assumed: Mapping[tuple[str, str], Assumed] = MappingProxyType({}),
) -> tuple[Reading, ...]:
    """Return what sensors should show.

    Parameters
    ----------
    car : Car
        The car document as read.
    judged : Iterable of Judged
        Systems in conditions.
    assumed : Mapping
        The figures that nobody gave, by where and what.

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
                value = _widened(value, set_by(one, node, assumed))
            else:
                value, unit = one.study.temperature(node), "K"
            found.append(Reading(sensor.id, sensor.on, built.case.name, quantity, value, unit))
    return tuple(found)


def set_by(
    one: Judged, node: str, assumed: Mapping[tuple[str, str], Assumed]
) -> Iterator[tuple[Assumed, float]]:
    """Return assumed figures that set a pressure directly: a boost, the setting of a regulator.

    Parameters
    ----------
    one : Judged
        A system in a condition.
    node : str
        Where the pressure is.
    assumed : Mapping
        The figures that nobody gave, by where and what.

    Yields
    ------
    tuple of (Assumed, float)
        The figure, and by how much the pressure moves with it.
    """
    study = one.study
    built = study.state.built
    case = built.case
    boost = next(
        (a for (where, what), a in assumed.items() if where == case.name and "boost" in what), None
    )
    pressure = study.pressure(node).value
    if built.system.medium is Medium.AIR:
        if boost is not None and pressure > case.ambient + 0.5 * case.boost > case.ambient:
            yield boost, 1.0
        return
    valve = next((k for k in built.network.links if isinstance(k, Regulator)), None)
    holder = built.marks.get("regulator")
    if valve is None or study.state.found.status(valve.id) is not Status.HOLDS:
        return
    if pressure - valve.reference_pressure < 0.5 * valve.holds:
        return  # behind the regulator
    setting = next((a for (where, _), a in assumed.items() if where == holder and _sets(a)), None)
    if setting is not None:
        yield setting, 1.0
    if boost is not None and valve.reference_pressure > case.ambient:
        yield boost, 1.0


def _sets(one: Assumed) -> bool:
    return "setting" in one.give


def _widened(band: Band, by: Iterable[tuple[Assumed, float]]) -> Band:
    """A band that also has what is not known of figures that set a pressure."""
    down, up = band.value - band.low, band.high - band.value
    for one, slope in by:
        figure = one.figure
        down = hypot(down, slope * (figure.value - (figure.low or figure.value)))
        up = hypot(up, slope * ((figure.high or figure.value) - figure.value))
    return Band(band.value, band.value - down, band.value + up)


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
