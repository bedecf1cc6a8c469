# SPDX-License-Identifier: Apache-2.0
"""Whether each gravity drain carries what comes: half full, at its flattest, for froth."""

from collections.abc import Iterator, Mapping
from math import asin
from types import MappingProxyType

import numpy as np

from linewright.base.evidence import Figure
from linewright.base.vectors import Vector
from linewright.car.model import Car
from linewright.flow.bands import Study, spread
from linewright.flow.build import Built
from linewright.flow.drains import drain_flow
from linewright.flow.margins import judged
from linewright.flow.model import Band, Margin
from linewright.flow.waterway import Waterway, waterway
from linewright.routes.model import Routes, Run
from linewright.routes.route import Route
from linewright.space.path import sample
from linewright.space.positions import position
from linewright.tables.fluids import heat_figure, roughness
from linewright.tables.fluids import spread as known

#: Length of a stretch of a course whose fall is looked at. [m]
_STEP = 0.02


def drained(
    study: Study,
    car: Car,
    routes: Routes,
    sizes: Mapping[str, str] = MappingProxyType({}),
) -> Iterator[Margin]:
    """Hold every drain of a turbo against its oil.

    Parameters
    ----------
    study : Study
        The oil system, solved.
    car : Car
        The car document as read.
    routes : Routes
        Where its lines are laid.
    sizes : Mapping
        Other sizes of lines than they have.

    Yields
    ------
    Margin
        Half-full capacity against clear oil times the froth that it makes.
    """
    built = study.state.built
    courses = {r.id: r for r in routes.courses}
    for run in routes.runs:
        line = car.lines[run.line]
        turbo = line.from_port.partition(".")[0]
        bearing = built.marks.get(f"turbo {turbo}")
        if line.service != "drain" or run.system != built.system.id or bearing is None:
            continue
        size = sizes.get(run.line, run.size)
        way = waterway(car, run, courses.get(run.id), "" if size == run.size else size)
        slope = flattest(car, run, courses.get(run.id), built.case.down)
        if way is None or slope is None:
            continue
        yield _one(study, built, run, way, slope, bearing)


def _one(study: Study, built: Built, run: Run, way: Waterway, slope: float, bearing: str) -> Margin:
    packed = study.state.packed
    i = packed.link[bearing]
    oil = spread(study.flows[:, i] / packed.density[i])
    froth = heat_figure("froth")
    hot = min(float(study.state.temperature[i]), built.fluid.limits.hottest)
    thick, rough = built.fluid.viscosity(hot), roughness("rubber").value
    bore, tolerance = way.least_bore, known("bore")
    capacity = [
        drain_flow(bore * size, slope, thick * thin, rough) if slope > 0.0 else 0.0
        for size, thin in ((1.0, 1.0), (tolerance.low or 1.0, 1.15), (tolerance.high or 1.0, 0.85))
    ]
    value = Band(capacity[0], min(capacity), max(capacity))
    least = froth.value * max(0.0, oil.value)
    limit = Figure(least, "m3/s", froth.grade, "clear oil from the turbo times its froth")
    # What is asked of it is no better known than the oil that comes.
    if oil.value > 0.0:
        value = Band(
            value.value,
            value.low * oil.value / oil.high,
            value.high * oil.value / max(oil.low, 1e-12),
        )
    return Margin(
        "drain capacity",
        run.line,
        value,
        limit,
        "m3/s",
        True,
        judged(value, limit, True),
        "the fall of the drain at its flattest place",
    )


def flattest(car: Car, run: Run, course: Route | None, down: Vector) -> float | None:
    """Return the fall of a piece where it falls least.

    Parameters
    ----------
    car : Car
        The car document as read.
    run : Run
        The piece, from A to B.
    course : Route or None
        Where it is laid; its ports alone count where it is not.
    down : tuple of float
        Which way is down, a unit vector.

    Returns
    -------
    float or None
        Below level, less than 0 where it rises; None where no height is known. [rad]
    """
    way = np.array(down)
    if course is not None:
        points = sample(course.path, _STEP)
        steps = np.diff(points, axis=0)
        sizes = np.linalg.norm(steps, axis=1)
        falls = steps[sizes > 1e-9] @ way / sizes[sizes > 1e-9]
        return float(np.arcsin(np.clip(falls, -1.0, 1.0)).min()) if falls.size else None
    ends = [position(car, end.port) for end in run.ends]
    whole = run.string or run.straight
    if ends[0] is None or ends[1] is None or whole is None or whole.value <= 0.0:
        return None
    drop = float((np.array(ends[1].at) - np.array(ends[0].at)) @ way)
    return asin(max(-1.0, min(1.0, drop / whole.value)))
