# SPDX-License-Identifier: Apache-2.0
"""Pieces of hose too short to bend, or to be turned on at both ends."""

from collections.abc import Iterator

from linewright.base.evidence import weakest
from linewright.base.finding import Finding
from linewright.car.model import Car, Construction
from linewright.checks.raising import raised
from linewright.joints.offered import setting
from linewright.routes.model import Routes
from linewright.takeoff import girth


def check(car: Car, routes: Routes) -> Iterator[Finding]:
    """Look for hose that shows too little of itself between its collars.

    Parameters
    ----------
    car : Car
        The car document as read.
    routes : Routes
        The lengths.

    Yields
    ------
    Finding
        ``hose-short`` for each such piece whose cut length is known.
    """
    times, depth = setting(car, "hose-shortest"), setting(car, "socket-depth")
    for run in routes.runs:
        line = car.lines[run.line]
        if run.cut is None or line.construction is not Construction.HOSE:
            continue
        over = girth.outside(car, line)
        bare, least = run.cut.value - 2 * depth.value, times.value * over.value
        if bare >= least:
            continue
        yield raised(
            "hose-short",
            (run.id,),
            f"{run.id}: {max(bare, 0.0) * 1000:.0f} mm of hose shows between its collars, under "
            f"{times.value:g} times its outside of {over.value * 1000:.1f} mm: it cannot bend, and "
            "its ends are hard to turn on.",
            "Join the two ports with a coupler or a swivel adaptor in place of hose, or lay the "
            "line longer.",
            system=run.system,
            value=f"{max(bare, 0.0) * 1000:.0f} mm",
            limit=f"{least * 1000:.0f} mm",
            measure=least - bare,
            printed=max(bare, 0.0),
            is_less_worse=True,
            grade=weakest([run.cut.grade, over.grade, times.grade, depth.grade]),
        )
