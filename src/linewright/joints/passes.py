# SPDX-License-Identifier: Apache-2.0
"""Lines that pass panels: one hose on each side, a bulkhead fitting in between."""

from string import ascii_lowercase

from linewright.base.finding import Finding, Severity, WorkStep
from linewright.car.model import Car, Line, LineEnd, Port
from linewright.catalogue.stock import Catalogue
from linewright.ends.end import End
from linewright.joints.fits import bulkhead_part
from linewright.joints.model import Fit, Joints
from linewright.joints.offered import merged
from linewright.joints.side import terminate


def pieces(line: Line) -> tuple[str, ...]:
    """Ids of the pieces of hose that a line is made of.

    Parameters
    ----------
    line : Line
        The line.

    Returns
    -------
    tuple of str
        The line's own id where it passes no panel; else one letter a piece, from A.

    Examples
    --------
    >>> from linewright.car.model import Construction
    >>> line = Line("F05", "FC.out", "FR.in", "fuel", None, "-6", "PTFE",
    ...             Construction.HOSE, passes=("firewall",))
    >>> pieces(line)
    ('F05a', 'F05b')
    """
    if not line.passes:
        return (line.id,)
    return tuple(f"{line.id}{ascii_lowercase[n]}" for n in range(len(line.passes) + 1))


def through(car: Car, catalogue: Catalogue, line: Line, ports: tuple[Port, Port]) -> Joints:
    """Offer every piece of a screwed hose that passes panels.

    Parameters
    ----------
    car : Car
        The car document as read.
    catalogue : Catalogue
        Parts to build with.
    line : Line
        A line of hose with one pass or more.
    ports : tuple of Port
        Its two ports, A first.

    Returns
    -------
    Joints
        Two terminations a piece, a fit for each panel.
    """
    found: list[Joints] = []
    cones: list[tuple[End, End] | None] = []
    for panel in line.passes:
        chain = bulkhead_part(catalogue, line.size)
        cones.append((chain.parts[0].ends[0], chain.parts[0].ends[1]) if chain else None)
        fit = Fit((), "bulkhead", chain, panel, line.id)
        problems = () if chain else (_no_bulkhead(line, panel),)
        found.append(Joints((), (fit,), problems))
    ids = pieces(line)
    for number, hose in enumerate(ids):
        before = cones[number - 1] if number else None
        after = cones[number] if number < len(cones) else None
        if number == 0:
            found.append(_at_port(car, catalogue, line, "A", hose, ports[0], line.ends[0]))
        elif before is not None:
            found.append(
                _at_panel(car, catalogue, line, "A", hose, before[1], line.passes[number - 1])
            )
        if number == len(ids) - 1:
            found.append(_at_port(car, catalogue, line, "B", hose, ports[1], line.ends[1]))
        elif after is not None:
            found.append(_at_panel(car, catalogue, line, "B", hose, after[0], line.passes[number]))
    step = WorkStep(
        "pass-straight",
        (line.id, *line.passes),
        f"{line.id}: straight hose ends are taken at {', '.join(line.passes)}; where the hose "
        "has to turn at the panel, make the bulkhead a component and type its angles.",
    )
    return merged((*found, Joints((), (), (), (step,))))


def _at_port(
    car: Car, catalogue: Catalogue, line: Line, side: str, hose: str, port: Port, said: LineEnd
) -> Joints:
    return terminate(
        car,
        catalogue,
        line,
        side,
        hose=hose,
        near=port.end,
        port=port,
        port_id=port.id,
        said=said,
    )


def _at_panel(
    car: Car, catalogue: Catalogue, line: Line, side: str, hose: str, near: End, panel: str
) -> Joints:
    return terminate(
        car,
        catalogue,
        line,
        side,
        hose=hose,
        near=near,
        port=None,
        port_id=f"{line.id}.{panel}",
        said=LineEnd(angle=0),
    )


def _no_bulkhead(line: Line, panel: str) -> Finding:
    return Finding(
        code="no-chain",
        severity=Severity.STOP,
        about=(line.id, panel),
        reason=f"{line.id} through {panel}: no {line.size} bulkhead fitting is sold.",
        remedy="Change size at the panel with components of their own, or go round it.",
        system=line.system,
    )
