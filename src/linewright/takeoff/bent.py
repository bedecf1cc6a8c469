# SPDX-License-Identifier: Apache-2.0
"""Tube and pipe that is bent: stocked bends, beads and flares, straight pipe beside the bends."""

from collections.abc import Iterator
from dataclasses import replace

from linewright.base.evidence import Figure, Grade
from linewright.car.model import Car
from linewright.joints.offered import setting
from linewright.routes.bent import Schedule, schedules
from linewright.routes.model import Routes, Run
from linewright.takeoff.merge import Want


def wants(car: Car, routes: Routes) -> Iterator[Want]:
    """Mandrel bends of every charge pipe that is laid in space.

    Parameters
    ----------
    car : Car
        The car document as read.
    routes : Routes
        The lengths and courses.

    Yields
    ------
    Want
        One for each bend, by outside, radius and angle.
    """
    for made in schedules(car, routes):
        system = car.lines[made.line].system
        for number, bend in enumerate(made.bends, 1):
            if bend.stocked is None:
                continue
            size, radius = made.outside * 1e3, made.radius.value * 1e3
            yield Want(
                code=f"bend-{size:g}-{bend.stocked}-r{radius:g}",
                name=f"mandrel bend {bend.stocked}°, {size:g} mm outside, "
                f"{radius:g} mm centreline radius",
                group="hose",
                system=system,
                because=f"{made.id}.bend-{number}",
                grade=made.radius.grade,
                note="measure the radius of the bends that are sold to you before cutting",
            )


def to_buy(car: Car, routes: Routes) -> Routes:
    """Runs as they are bought: of a charge pipe only what its bends do not make.

    Parameters
    ----------
    car : Car
        The car document as read.
    routes : Routes
        The lengths and courses.

    Returns
    -------
    Routes
        The same, where a charge pipe is laid in space with its straight pieces alone.
    """
    pipes = {made.id: made for made in schedules(car, routes) if made.is_pipe}
    return replace(
        routes,
        runs=tuple(_straight(car, run, pipes.get(run.id)) for run in routes.runs),
    )


def _straight(car: Car, run: Run, made: Schedule | None) -> Run:
    if made is None:
        return run
    if not made.inserts:
        return replace(run, buy=None)
    cut = setting(car, "cut-allowance").value
    value = sum(made.inserts) * (1.0 + setting(car, "tube-extra").value)
    figure = Figure(
        value + cut * len(made.inserts),
        "m",
        Grade.PRACTICE,
        "straights that no leg of a bend makes, with waste and clean cuts",
    )
    return replace(run, buy=figure)
