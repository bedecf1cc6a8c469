# SPDX-License-Identifier: Apache-2.0
"""What to order where a port can be read in several ways and must not hold up the rest."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from linewright.car.model import Car
from linewright.ends.words import show
from linewright.joints.model import Joints, Termination
from linewright.takeoff import parts, seals
from linewright.takeoff.merge import Spares, Want, merge
from linewright.takeoff.model import Either
from linewright.takeoff.wanted import at_end


def either(car: Car, joints: Joints) -> tuple[Either, ...]:
    """Parts that cover every reading of each port whose end is not settled.

    Parameters
    ----------
    car : Car
        The car document as read.
    joints : Joints
        What the joints stage offered: the best chain for each reading.

    Returns
    -------
    tuple of Either
        One for each end of a line with two readings or more; what all readings share (the
        hose end) is on the list already and not here. No spares: it is a stopgap.
    """
    found = []
    for end in joints.terminations:
        if end.chain is None and len(end.alternatives) > 1 and end.line in car.lines:
            rows = merge(car, _wants(car, end))
            index = sum(row.order * (row.price_index or 0.0) for row in rows)
            ends = tuple(dict.fromkeys(chain.port for chain in end.alternatives))
            readings, told = tuple(map(str, ends)), tuple(map(show, ends))
            port = car.port(end.port)
            said = (show(reading) for reading in (port.readings if port else ()))
            without = tuple(reading for reading in said if reading not in told)
            found.append(Either(end.port, readings, rows, index, told, without))
    return tuple(found)


def _wants(car: Car, end: Termination) -> Iterator[Want]:
    """Of each thing as many as the reading that takes most of it."""
    most: Counter[str] = Counter()
    kept: dict[str, Want] = {}
    on_the_list = {part.code for part in (parts.agreed(end, car.lines[end.line]),) if part}
    for chain in end.alternatives:
        spot = at_end(car, end, chain)
        taken: Counter[str] = Counter()
        for want in (*parts.wants([spot]), *seals.wants(car, [spot])):
            if want.code not in on_the_list:
                taken[want.code] += want.count
                kept.setdefault(want.code, want)
        most |= taken
    for code, count in most.items():
        yield replace(kept[code], count=count, spares=Spares.NONE, is_certain=False)
