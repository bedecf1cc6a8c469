# SPDX-License-Identifier: Apache-2.0
"""A gauge that was read, held against what it should show: which assumption it contradicts."""

import re
from dataclasses import dataclass

from linewright.base import units
from linewright.base.errors import UnitError
from linewright.car.model import Car
from linewright.flow.model import Assumed, Flows, Reading, Sway
from linewright.scene.values import banded, condition_at, given, like, plain, scale
from linewright.sheets.figures import MARKS

_TYPED = re.compile(r"(?P<sensor>[^=@]+)=(?P<value>[^@]+)@(?P<condition>[^@]+)")

#: Half the width of a central 95 % in sigmas, of a normal spread.
_SIGMAS = 1.959964

#: How far a reading may be rounded when it is told. [-]
_ROUNDED = 0.004


#: Beyond so many sigmas a figure is no explanation any more. [-]
_FAR = 3.0


@dataclass(frozen=True, slots=True)
class Typed:
    """A reading as typed, found among those that were computed; ``value`` in its unit."""

    reading: Reading
    value: float


@dataclass(frozen=True, slots=True)
class Contradicted:
    """What a typed reading says against: the assumption, and what would explain it alone.

    ``sigmas`` is how far that figure would have to lie from what stands in, in its own spread;
    ``explains`` is the figure that would explain the reading alone, None where its spread is not
    known.
    """

    typed: Typed
    is_within: bool
    assumed: Assumed | None = None
    sigmas: float = 0.0
    explains: float | None = None


def read_reading(text: str, flows: Flows) -> Typed:
    """Read a reading as it is typed.

    Parameters
    ----------
    text : str
        As "oil-pressure=1.1 bar@hot-idle".
    flows : Flows
        The results, for what its sensors should show.

    Returns
    -------
    Typed
        The computed reading, and the value typed in the same unit.

    Raises
    ------
    UnitError
        If it cannot be read, or no such sensor or condition is known.
    """
    met = _TYPED.fullmatch(text.strip())
    if met is None:
        raise UnitError(
            f'--reading "{text}" cannot be read; write SENSOR=VALUE@CONDITION, '
            'as in "oil-pressure=1.1 bar@hot-idle".'
        )
    sensor, condition = met["sensor"].strip(), met["condition"].strip().replace(" ", "-")
    own = [r for r in flows.readings if sensor.lower() in (r.sensor.lower(), r.port.lower())]
    if not own:
        names = ", ".join(dict.fromkeys(r.sensor for r in flows.readings)) or "none"
        raise UnitError(
            f'--reading "{text}": {sensor} is no sensor with a computed reading. Those: {names}.'
        )
    found = [r for r in own if r.condition.lower() == condition.lower()]
    if not found:
        names = ", ".join(dict.fromkeys(r.condition for r in own))
        raise UnitError(
            f'--reading "{text}": {sensor} has no reading in "{condition}". Conditions: {names}.'
        )
    faults = []
    for reading in found:
        try:
            if reading.unit == "K":
                return Typed(reading, units.temperature(met["value"].strip()))
            return Typed(reading, units.gauge_pressure(met["value"].strip()))
        except UnitError as error:
            faults.append(f"{reading.quantity}: {error}")
    raise UnitError(f'--reading "{text}": {" ".join(faults)}')


def contradicted(flows: Flows, typed: Typed) -> Contradicted:
    """Find the assumed figure that a reading contradicts most.

    Parameters
    ----------
    flows : Flows
        The results, with what sways their readings.
    typed : Typed
        The reading.

    Returns
    -------
    Contradicted
        The assumption that the reading moves by most of its own spread when all of them are
        held against it at once; none where nothing is known to sway it.

    Notes
    -----
    The figures are taken as normal and independent and the reading as linear in them, with s_i
    its change for one sigma of figure i. Given a reading that is off by d, the figure i moves by
    s_i d / sum(s^2) of its sigmas, so the one with the greatest s_i is contradicted most; alone
    it would have to lie d / s_i sigmas away.
    """
    reading = typed.reading
    off = typed.value - reading.value.value
    is_within = reading.value.low <= typed.value <= reading.value.high
    known = {(a.where, a.what): a for a in flows.assumed}
    sways = [
        s
        for s in flows.sways
        if (s.sensor, s.condition) == (reading.sensor, reading.condition)
        and s.by != 0
        and (s.where, s.what) in known
    ]
    if not sways:
        return Contradicted(typed, is_within)
    most: Sway = max(sways, key=lambda s: (abs(s.by), s.where, s.what))
    assumed = known[most.where, most.what]
    sigmas = off / most.by
    figure = assumed.figure
    explains = None
    if figure.low is not None and figure.high is not None:
        explains = figure.value + sigmas * (figure.high - figure.low) / (2 * _SIGMAS)
    return Contradicted(typed, is_within, assumed, sigmas, explains)


def reading_words(car: Car, found: Contradicted) -> tuple[str, ...]:
    """Say what a typed reading means.

    Parameters
    ----------
    car : Car
        The car, for its units.
    found : Contradicted
        What it contradicts.

    Returns
    -------
    tuple of str
        Sentences: what was expected, what is contradicted, what to do.
    """
    reading = found.typed.reading
    by = scale(reading.unit, car.show)
    # What was read is said as it was read, however well the computed value is known.
    value = f"{like(found.typed.value, reading.value, by)} {by.unit}"
    if abs(float(value.split()[0].replace(",", "")) - by(found.typed.value)) > _ROUNDED * abs(
        by(found.typed.value)
    ):
        value = plain(found.typed.value, by)
    said = [
        f"{reading.sensor} {condition_at(reading.condition)}: {value} read, "
        f"{banded(reading.value, by)} computed."
    ]
    if found.is_within:
        return (*said, "It lies within the band: it contradicts nothing that is assumed.")
    assumed = found.assumed
    if assumed is None:
        return (
            *said,
            "It lies outside the band. What sways this reading is not known here: hold the sensor "
            "against a second gauge first, then the figures that are assumed, one by one.",
        )
    figure = assumed.figure
    said.append(
        f"It contradicts most what is assumed of {assumed.where}: {assumed.what}, "
        f"{given(figure, car.show)} [{MARKS[figure.grade]}]."
    )
    if found.explains is None or abs(found.sigmas) > _FAR or found.explains <= 0 < figure.value:
        said.append(
            "That figure alone does not explain it: hold the sensor against a second gauge, and "
            "look for what is not as in the document (a closed valve, a kinked or blocked line)."
        )
    else:
        said.append(
            f"{plain(found.explains, scale(figure.unit, car.show), 2)} would explain it alone."
        )
    return (*said, f"To settle it, give {assumed.give}.")
