# SPDX-License-Identifier: Apache-2.0
"""Hard tube that is laid in space: no straight piece between two fixed ends."""

from collections.abc import Iterator

from linewright.base.evidence import Grade
from linewright.base.finding import Finding
from linewright.car.model import Car, Construction
from linewright.checks.raising import raised
from linewright.routes.model import Routes


def check(car: Car, routes: Routes) -> Iterator[Finding]:
    """Look at the courses of hard tubes.

    Parameters
    ----------
    car : Car
        The car document as read.
    routes : Routes
        The lengths and courses.

    Yields
    ------
    Finding
        ``tube-straight`` for each that has no bend from end to end.
    """
    lines = {run.id: car.lines[run.line] for run in routes.runs}
    for route in routes.courses:
        line = lines.get(route.id)
        if line is None or line.construction is not Construction.TUBE or route.path.radii:
            continue
        yield raised(
            "tube-straight",
            (route.id,),
            f"{route.id} is hard tube without a bend from {line.from_port} to {line.to_port}: "
            "nothing gives when it warms up or shakes, and it cannot be put on between two fixed "
            "ends.",
            "Turn or move one of its ends so that it has a bend, or have hose.",
            system=line.system,
            value="0 bends",
            limit="1 bend",
            grade=Grade.READ,
            source="MIL-H-8891A, 3.11.4.5",
        )
