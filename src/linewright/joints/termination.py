# SPDX-License-Identifier: Apache-2.0
"""Every joint of a car: what is offered at each end of each line and on each other port."""

from linewright.base.ids import natural_key
from linewright.car.model import Car, Construction, Line
from linewright.catalogue import stock
from linewright.catalogue.stock import Catalogue
from linewright.joints import charge, clamped, passes, tube
from linewright.joints.fits import fits
from linewright.joints.model import Joints
from linewright.joints.offered import NOTHING, merged
from linewright.joints.side import terminate


def offer(car: Car) -> Joints:
    """Offer every port of a car its ranked chains.

    Parameters
    ----------
    car : Car
        The car document as read.

    Returns
    -------
    Joints
        Terminations by the ids of their lines, fits in the document's order, with findings
        and work steps. A port whose end is not known gets no chain; all else does.
    """
    catalogue = _catalogue(car.parts)
    lines = [car.lines[key] for key in sorted(car.lines, key=natural_key)]
    return merged([*(_line(car, catalogue, line) for line in lines), fits(car, catalogue)])


def of_line(car: Car, line: Line) -> Joints:
    """Offer both ends of one line.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        A line of it, or one to be tried in its place.

    Returns
    -------
    Joints
        Its terminations, with findings and work steps.
    """
    return _line(car, _catalogue(car.parts), line)


_HELD: dict[tuple[object, ...], Catalogue] = {}


def _catalogue(held: tuple[object, ...]) -> Catalogue:
    """The generic catalogue with the builder's own parts, kept for the last document."""
    if not held:
        return stock.generic()
    if held not in _HELD:
        _HELD.clear()
        _HELD[held] = stock.generic().with_parts(held)  # type: ignore[arg-type]
    return _HELD[held]


def _line(car: Car, catalogue: Catalogue, line: Line) -> Joints:
    near, far = car.port(line.from_port), car.port(line.to_port)
    if near is None or far is None:
        return NOTHING
    ports = (near, far)
    match line.construction:
        case Construction.CLAMPED:
            return clamped.clamped(car, catalogue, line, ports)
        case Construction.PIPE:
            return charge.pipes(car, catalogue, line, ports)
        case Construction.TUBE:
            return tube.tubes(car, catalogue, line, ports)
        case _:
            if line.passes:
                return passes.through(car, catalogue, line, ports)
            return merged(
                terminate(
                    car,
                    catalogue,
                    line,
                    side,
                    hose=line.id,
                    near=port.end,
                    port=port,
                    port_id=port.id,
                    said=said,
                )
                for side, port, said in zip("AB", ports, line.ends, strict=True)
            )
