# SPDX-License-Identifier: Apache-2.0
"""Lists of flow for files: every port, every loss, and the tables without their groups."""

from dataclasses import replace

from linewright.base.ids import natural_key
from linewright.car.model import Car
from linewright.flow.model import Flows
from linewright.scene.values import ABSOLUTE, banded, condition_words, scale
from linewright.sheets.flow import (
    assumed_table,
    gauge_table,
    line_table,
    margin_table,
    size_table,
    states,
)
from linewright.sheets.table import Align, Column, Table

_RIGHT = Align.RIGHT


def port_list(car: Car, flows: Flows) -> Table:
    """List every port with flow, pressure and temperature, for any program.

    Parameters
    ----------
    car : Car
        The car.
    flows : Flows
        The results.

    Returns
    -------
    Table
        A row a port and condition.
    """
    show = car.show
    rows = []
    for system in dict.fromkeys(s.system for s in flows.states):
        for state in states(flows, system):
            by = scale("Pa", show, ABSOLUTE)
            for key in sorted(state.ports, key=natural_key):
                port = state.ports[key]
                rows.append(
                    (
                        system,
                        condition_words(state.condition),
                        key,
                        banded(port.flow, scale("kg/s", show)),
                        banded(port.pressure, by),
                        banded(port.temperature, scale("K", show)),
                    )
                )
    return Table(
        "flow-ports",
        "Ports",
        (
            Column("System", 0.9),
            Column("Condition", 0.9),
            Column("Port", 1.4),
            Column("Flow into it", 1.5, _RIGHT),
            Column("Pressure", 1.8, _RIGHT),
            Column("Temperature", 1.4, _RIGHT),
        ),
        tuple(rows),
        empty="No port has a state.",
    )


def loss_list(car: Car, flows: Flows, system: str = "") -> Table:
    """List where pressure is lost, the largest share of each system and condition first.

    Parameters
    ----------
    car : Car
        The car.
    flows : Flows
        The results.
    system : str
        Of this system alone; "" for all.

    Returns
    -------
    Table
        A row a place.
    """
    by = scale("Pa", car.show)
    rows = []
    for name in dict.fromkeys(s.system for s in flows.states):
        if system not in ("", name):
            continue
        for state in states(flows, name):
            found = [(line.line, loss) for line in state.lines.values() for loss in line.losses]
            for line, loss in sorted(found, key=lambda item: -item[1].share):
                rows.append(
                    (
                        name,
                        condition_words(state.condition),
                        line,
                        loss.what,
                        ", ".join(loss.where),
                        banded(loss.drop, by),
                        f"{loss.share * 100:.0f} %",
                    )
                )
    return Table(
        "flow-losses",
        "Where pressure is lost",
        (
            Column("System", 0.8),
            Column("Condition", 0.8),
            Column("Line", 0.5),
            Column("What", 1.2),
            Column("Where", 1.5),
            Column("Drop", 1.4, _RIGHT),
            Column("Share", 0.5, _RIGHT),
        ),
        tuple(rows),
        empty="No loss is known.",
    )


def plain_list(table: Table, head: str) -> Table:
    """Put the words of a table's groups into a column of their own, for files without groups.

    Parameters
    ----------
    table : Table
        The table.
    head : str
        Heading of the new first column.

    Returns
    -------
    Table
        The same rows without groups; a table that has none as it is.
    """
    if not table.groups:
        return table
    words = dict(table.groups)
    rows, last = [], ""
    for number_, row in enumerate(table.rows):
        last = words.get(number_, last)
        rows.append((last, *row))
    columns = (Column(head, 1.0), *table.columns)
    return replace(table, columns=columns, rows=tuple(rows), groups=())


def flow_lists(car: Car, flows: Flows) -> tuple[Table, ...]:
    """Return all lists of flow, for files.

    Parameters
    ----------
    car : Car
        The car.
    flows : Flows
        The results.

    Returns
    -------
    tuple of Table
        Lines and margins a system, ports, losses, sizes, assumed figures, the gauge sheet.
    """
    several = [
        plain_list(table, "Condition")
        for system in dict.fromkeys(s.system for s in flows.states)
        for table in (line_table(car, flows, system), margin_table(car, flows, system))
    ]
    return (
        *several,
        port_list(car, flows),
        loss_list(car, flows),
        plain_list(size_table(car, flows), "Of"),
        assumed_table(car, flows),
        plain_list(gauge_table(car, flows), "Condition"),
    )
