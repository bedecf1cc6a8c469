# SPDX-License-Identifier: Apache-2.0
"""Guides and conditions: how lines are led, which way is down."""

from itertools import pairwise

from linewright.base.errors import UnitError
from linewright.base.evidence import Grade
from linewright.base.ids import is_word
from linewright.base.places import direction, point
from linewright.car.bodies import BODIES
from linewright.car.model import Condition, Guide, Vector
from linewright.car.running import KEYS, running
from linewright.car.table import Log, Table, listed, said

_WAY = '["900, -620, 180 mm", "2600, -620, 180 mm"]'


def _points(log: Log, path: tuple[str | int, ...], value: object) -> tuple[Vector, ...]:
    if not isinstance(value, list) or not all(isinstance(item, str) for item in value):
        log.add(path, f"{said(value)} is no list of points; write for example {_WAY}.")
        return ()
    found: list[Vector] = []
    for number, text in enumerate(value):
        try:
            found.append(point(text))
        except UnitError as error:
            log.add((*path, number), str(error))
    if len(found) == len(value):
        if len(found) < 2:
            log.add(path, f"has {len(found)} points; a guide has two or more, as in {_WAY}.")
        for number, (a, b) in enumerate(pairwise(found), 1):
            if a == b:
                log.add((*path, number), "is the same point as the one before; strike one.")
    return tuple(found)


def guides(root: Table) -> dict[str, Guide]:
    """Read ``[guides]``: a list of points each, or a table with ``points``.

    Parameters
    ----------
    root : Table
        The document.

    Returns
    -------
    dict
        Guides by id, in the order of the document.
    """
    top = root.table("guides", "list of guides")
    log, found = root.log, {}
    for name, value in top.items() if top else ():
        path = ("guides", name)
        if not is_word(name):
            log.add(
                path,
                f"{said(name)} is no id of a guide; allowed: letters, digits and single hyphens "
                f'between them, at most 40, as in "left-sill".',
            )
            continue
        if isinstance(value, list):
            found[name] = Guide(name, _points(log, path, value), line_number=log.line(path))
            continue
        table = Table(value, path, log, "guide")
        if not isinstance(value, dict):
            continue
        raw = table.raw("points")
        if raw is None:
            table.fault("", f'"points" is missing; write for example points = {_WAY}.')
            continue
        rides = table.text("rides")
        if rides and not is_word(rides):
            table.fault(
                "rides", f"{said(rides)} is no body; allowed: {listed(BODIES)}, or another word."
            )
        points = _points(log, table.at("points"), raw)
        note = table.text("note", most=2000)
        table.done()
        found[name] = Guide(name, points, rides or "chassis", note, log.line(path))
    return found


def conditions(root: Table) -> dict[str, Condition]:
    """Read ``[conditions.X]``: which way is down and what the car does.

    Parameters
    ----------
    root : Table
        The document.

    Returns
    -------
    dict
        Conditions by name, in the order of the document.
    """
    top = root.table("conditions", "list of conditions")
    found: dict[str, Condition] = {}
    for name, value in top.items() if top else ():
        path = ("conditions", name)
        if isinstance(value, str):
            value = {"down": value}
        table = Table(value, path, root.log, "condition")
        if not isinstance(value, dict):
            continue
        if not is_word(name):
            table.fault(
                "",
                f"{said(name)} is no name of a condition; allowed: letters, digits and single "
                f'hyphens between them, at most 40, as in "braking".',
            )
            continue
        down = table.read("down", direction)
        is_held = table.flag("held")
        does = running(table)
        table.done()
        if not table.has("down"):
            if not any(table.has(key) for key in KEYS):
                table.fault("", '"down" is missing; write for example down = "down, 45° forward".')
            down = (0.0, 0.0, -1.0)
        if down:
            found[name] = Condition(
                name, down, bool(is_held), Grade.STATED, "the car document", does
            )
    return found
