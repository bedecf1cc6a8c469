# SPDX-License-Identifier: Apache-2.0
"""Hard tube between what moves and what does not: mistake 37 of the trade's usual forty."""

from collections.abc import Iterator

from linewright.base.finding import Finding
from linewright.car.model import Car, Construction
from linewright.checks.raising import raised
from linewright.space import moving


def check(car: Car) -> Iterator[Finding]:
    """Say which hard tubes lead from one body to another that moves against it.

    Parameters
    ----------
    car : Car
        The car document as read.

    Yields
    ------
    Finding
        ``no-flex``. A charge pipe is held in couplers, which give way; it is not asked.
    """
    for line in car.lines.values():
        if line.construction is not Construction.TUBE or not line.crosses:
            continue
        slack = moving.slack(car, line)
        owners = [car.components[p.partition(".")[0]] for p in (line.from_port, line.to_port)]
        a, b = (f"{owner.id} (rides on the {owner.rides})" for owner in owners)
        yield raised(
            "no-flex",
            (line.id,),
            f"{line.id} is hard tube from {a} to {b}, which move against each other: it cracks, or "
            "breaks off what it is screwed to.",
            f"Have hose, or a piece of hose in it, with {slack.value * 1000:.0f} mm of slack from "
            "its last support to what moves.",
            system=line.system,
            value="0 mm",
            limit=f"{slack.value * 1000:.0f} mm",
            measure=slack.value,
            grade=slack.grade,
            source=moving.slack_source(car, line),
        )
