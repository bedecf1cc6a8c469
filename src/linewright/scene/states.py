# SPDX-License-Identifier: Apache-2.0
"""What stands beside the lines of a diagram: flow, pressure and temperature in one condition."""

from collections.abc import Mapping

from linewright.car.model import Car
from linewright.flow.model import Band, SystemState
from linewright.scene.network import Network
from linewright.scene.values import ABSOLUTE, GAUGE, ambient, number, scale, volume_flow

#: What the title block says of what stands beside the lines.
BESIDE_NOTE = "Beside lines: flow, pressure, temperature at end B, computed. Verify on the car."

#: By the number of a line, wordings of what flows in it, longest first.
Beside = Mapping[str, tuple[str, ...]]


def pressure_words(car: Car, state: SystemState, band: Band) -> str:
    """Show the pressure at a port as its gauge would read; below the air's as absolute.

    Parameters
    ----------
    car : Car
        The car.
    state : SystemState
        The system in its condition.
    band : Band
        Absolute pressure. [Pa]

    Returns
    -------
    str
        Number and unit; what is below a vacuum cannot be had, and says so.
    """
    if band.value <= 0.0:
        return "below vacuum"
    air = ambient(car, state.condition)
    if band.value < air * 0.995:
        by = scale("Pa", car.show, ABSOLUTE)
        return f"{number(band, by)} {by.unit.replace('absolute', 'abs')}"
    by = scale("Pa", car.show, GAUGE, air)
    return f"{number(band, by)} {by.unit}"


def beside_lines(car: Car, net: Network, state: SystemState) -> Beside:
    """Say what flows in each line of a diagram.

    Parameters
    ----------
    car : Car
        The car.
    net : Network
        The diagram.
    state : SystemState
        The system in its condition.

    Returns
    -------
    Mapping
        By the number that stands on the line: flow, pressure and temperature at end B; flow and
        pressure; flow. Lines that nothing is known of are not in it.
    """
    found = {}
    warm = scale("K", car.show)
    for link in net.links:
        # A line in pieces (O01a, O01b) has one state, and each piece its label.
        name = link.number if link.number in state.lines else link.number[:-1]
        line, known = state.lines.get(name), car.lines.get(name)
        if line is None or known is None:
            continue
        flow, by = volume_flow(line.flow, line.density, car.show)
        words = [f"{number(Band(abs(flow.value), flow.low, flow.high), by)} {by.unit}"]
        end = state.ports.get(known.to_port)
        if end is not None:
            words.append(pressure_words(car, state, end.pressure))
            words.append(f"{number(end.temperature, warm)} {warm.unit}")
        found[link.number] = tuple(" · ".join(words[:n]) for n in range(len(words), 0, -1))
    return found
