# SPDX-License-Identifier: Apache-2.0
"""How far each reading moves with each figure that is assumed."""

from collections.abc import Iterable, Iterator, Mapping
from math import isclose

from linewright.car.model import Car, Component
from linewright.flow.bands import LIFTS, PASSES, Study
from linewright.flow.draft import Doubt
from linewright.flow.findings import Judged
from linewright.flow.model import Assumed, Sway
from linewright.flow.readings import felt, sensors, set_by

#: Width of a central 95 % in sigmas, of a normal spread.
_WIDE = 2.0 * 1.959964


def wide(one: Assumed) -> float:
    """Return one sigma of an assumed figure.

    Parameters
    ----------
    one : Assumed
        With its range.

    Returns
    -------
    float
        In its unit; 0 where it has no range. [any]
    """
    figure = one.figure
    if figure.low is None or figure.high is None:
        return 0.0
    return (figure.high - figure.low) / _WIDE


def sways(
    car: Car, judged: Iterable[Judged], assumed: Mapping[tuple[str, str], Assumed]
) -> tuple[Sway, ...]:
    """Return what sways the pressures that sensors read.

    Parameters
    ----------
    car : Car
        The car document as read.
    judged : Iterable of Judged
        Systems in conditions, each solved with every doubt at both its ends.
    assumed : Mapping
        The figures that nobody gave, by where and what.

    Returns
    -------
    tuple of Sway
        Change of a reading for one sigma of a figure. Viscosity, losses and bores sway readings
        too; they are no assumption that a builder can type, so they are left out. Temperatures
        are swayed by heats.
    """
    found: list[Sway] = []
    for one in judged:
        built = one.study.state.built
        known = tuple(_figures(one.study, assumed))
        for sensor in sensors(car):
            node = felt(one.study, sensor)
            if node is None:
                continue
            if sensor.kind == "temperature sensor":
                found += _warmed(one, sensor, node, assumed)
                continue
            found += (
                Sway(sensor.id, built.case.name, figure.where, figure.what, slope * wide(figure))
                for figure, slope in set_by(one, node, assumed)
            )
            at = one.study.pressures[:, one.study.state.packed.node[node]]
            for place, figure in known:
                by = float(at[2 + 2 * place] - at[1 + 2 * place]) / _WIDE
                if by:
                    found.append(Sway(sensor.id, built.case.name, figure.where, figure.what, by))
    return tuple(found)


def _warmed(
    one: Judged, sensor: Component, node: str, assumed: Mapping[tuple[str, str], Assumed]
) -> Iterator[Sway]:
    """What the heats of an engine that nobody gave do to a temperature."""
    study = one.study
    built = study.state.built
    if len(study.nodes) < 3 or not built.heats:
        return
    at = study.nodes[:, study.state.packed.node[node]]
    by = float(at[2] - at[1]) / _WIDE
    owners = {heat.where: (heat.low, heat.high) for heat in built.heats}
    for one_of in (a for _, a in sorted(assumed.items())):
        figure = one_of.figure
        if one_of.where not in owners or not figure.value or "heat" not in one_of.what:
            continue
        if figure.low is None or figure.high is None:
            continue
        low, high = owners[one_of.where]
        is_same = isclose(figure.low / figure.value, low, rel_tol=1e-6)
        if by and is_same and isclose(figure.high / figure.value, high, rel_tol=1e-6):
            yield Sway(sensor.id, built.case.name, one_of.where, one_of.what, by)


def _figures(
    study: Study, assumed: Mapping[tuple[str, str], Assumed]
) -> Iterator[tuple[int, Assumed]]:
    """Doubts of a study that come from an assumed figure: their place, and the figure."""
    built = study.state.built
    for place, name in enumerate(study.doubts):
        said = name.removeprefix(PASSES).removeprefix(LIFTS)
        for doubt in built.doubts:
            if said == name or doubt.name != said:
                continue
            figure = _figure(doubt, built.where, assumed)
            if figure is not None:
                yield place, figure
                break


def _figure(
    doubt: Doubt,
    where: Mapping[str, tuple[str, ...]],
    assumed: Mapping[tuple[str, str], Assumed],
) -> Assumed | None:
    """The assumed figure that a doubt has its bounds from: as wide, and called alike."""
    link = doubt.link.removeprefix("node ").removeprefix("head ")
    owners = {link.partition(":")[0].partition(".")[0], where.get(link, ("",))[0]}
    same = [
        one
        for _, one in sorted(assumed.items())
        if one.figure.low is not None
        and one.figure.high is not None
        and one.figure.value
        and isclose(one.figure.low / one.figure.value, doubt.low, rel_tol=1e-6)
        and isclose(one.figure.high / one.figure.value, doubt.high, rel_tol=1e-6)
        and one.figure.unit not in ("-", "K")
        and set(doubt.name.split()) & set(one.what.split())
    ]
    own = [one for one in same if one.where in owners]
    return next(iter(own or same), None)
