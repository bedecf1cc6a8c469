# SPDX-License-Identifier: Apache-2.0
"""Hose against the fluid in it: what swells, dissolves or sparks."""

from collections.abc import Iterator

from linewright.base.errors import LinewrightError
from linewright.base.finding import Finding
from linewright.car.model import Car, Line, Medium
from linewright.checks.raising import raised
from linewright.tables import hoses
from linewright.tables.hoses import HoseFamily

#: Lines in which fuel does not run: nothing charges the liner.
_STILL = ("vent", "reference")


def check(car: Car) -> Iterator[Finding]:
    """Look at what each line's hose is made of.

    Parameters
    ----------
    car : Car
        The car document as read.

    Yields
    ------
    Finding
        ``carbon-liner``, ``fluid-unfit``.
    """
    for line in car.lines.values():
        family = _family(line)
        if family is None:
            continue
        yield from _sparks(line, family)


def _family(line: Line) -> HoseFamily | None:
    try:
        return hoses.family(line.hose)
    except LinewrightError:
        return None


def _sparks(line: Line, family: HoseFamily) -> Iterator[Finding]:
    """Fuel running over PTFE that does not conduct (PRACTICE: trade pages, relayed)."""
    if line.medium is not Medium.FUEL or family.ends != "PTFE" or family.conductive:
        return
    if line.service in _STILL:
        return
    is_silent = family.conductive is None
    yield raised(
        "carbon-liner",
        (line.id,),
        f"{line.id}: fuel in {family.name}, whose liner "
        + ("is not said to conduct" if is_silent else "does not conduct")
        + ": the running fuel charges it, and sparks pin-hole it.",
        'Take PTFE hose with a conductive liner ("PTFE full-bore conductive"), its ends earthed.',
        system=line.system,
        source="common-practice-no-source",
    )
