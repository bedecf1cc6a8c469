# SPDX-License-Identifier: Apache-2.0
"""Tables of what is followed through time: values at times that count, and the extremes."""

from collections.abc import Sequence

import numpy as np

from linewright.car.model import Car, Condition
from linewright.car.running import running_in
from linewright.flow.in_time import clock
from linewright.flow.model import Band, Flows, Series
from linewright.scene.values import Scale, condition_at, plain, scale
from linewright.sheets.flow_says import place_words
from linewright.sheets.table import Align, Column, Table

_RIGHT = Align.RIGHT
#: Most times that a table shows.
_MOST = 6


def key_times(car: Car, condition: str, lasts: float) -> tuple[float, ...]:
    """Return the times of a condition that a table shows.

    Parameters
    ----------
    car : Car
        The car, for what it says of the condition.
    condition : str
        Its name.
    lasts : float
        How long it is followed. [s]

    Returns
    -------
    tuple of float
        Start, steps and end, with quarters between them where there are few; in seconds.
    """
    known = car.conditions.get(condition) or Condition(condition, (0.0, 0.0, -1.0))
    found = {0.0, lasts, *(s.at for s in running_in(known).steps if s.at < lasts)}
    for share in (0.5, 0.25, 0.75):
        # One that is next to another tells nothing more.
        apart = min(abs(share * lasts - t) for t in found)
        if len(found) < _MOST - 1 and apart > 0.1 * lasts:
            found.add(share * lasts)
    times = sorted(found)
    if len(times) > _MOST:
        places = np.linspace(0, len(times) - 1, _MOST).round().astype(int)
        times = [times[i] for i in places]
    return tuple(times)


def extreme(series: Series) -> tuple[Band, float]:
    """Return the value of a series that counts most, and when it is.

    Parameters
    ----------
    series : Series
        A value over time.

    Returns
    -------
    tuple of (Band, float)
        Of temperatures the highest, of all else the lowest, with its band; its time [s].
    """
    pick = max if series.unit == "K" else min
    value = pick(series.values)
    place = series.values.index(value)
    low = series.low[place] if series.low else value
    high = series.high[place] if series.high else value
    return Band(value, low, high), series.times[place]


def _told(band: Band, by: Scale) -> str:
    """A value with its band, as finely as those beside it at other times."""
    if band.low == band.high:
        return plain(band.value, by)
    low, high = (plain(v, by.bare).strip() for v in (band.low, band.high))
    return f"{plain(band.value, by)} ({low} to {high})"


def _at(series: Series, times: Sequence[float]) -> list[float]:
    return [float(v) for v in np.interp(times, series.times, series.values)]


def time_table(car: Car, flows: Flows, system: str, condition: str) -> Table:
    """List what a system does through a condition that lasts.

    Parameters
    ----------
    car : Car
        The car.
    flows : Flows
        The results.
    system : str
        Id of the system.
    condition : str
        The condition.

    Returns
    -------
    Table
        A row a series: its value at the times that count, the most or least of it, and when.
    """
    state = flows.state(system, condition)
    series = () if state is None else state.series
    lasts = max((one.times[-1] for one in series), default=0.0)
    times = key_times(car, condition, lasts) if series else ()
    rows = []
    for one in series:
        by = scale(one.unit, car.show)
        band, when = extreme(one)
        word = "most" if one.unit == "K" else "least"
        rows.append(
            (
                one.what,
                place_words(one.where),
                *(plain(v, by) for v in _at(one, times)),
                f"{word} {_told(band, by)}",
                clock(when),
            )
        )
    words = condition_at(condition)
    return Table(
        f"flow-time-{system}-{condition}",
        f"{system.replace('-', ' ').capitalize()} {words}",
        (
            Column("What", 1.5),
            Column("Where", 1.4),
            *(Column(clock(t) if t else "start", 0.7, _RIGHT) for t in times),
            Column("Most or least", 1.8, _RIGHT),
            Column("After", 0.7, _RIGHT),
        ),
        tuple(rows),
        note="Masses of fluid and metal are practice figures where none is typed. Oil pressure is "
        "over the air outside.",
        empty="Nothing of it is followed through time.",
    )
